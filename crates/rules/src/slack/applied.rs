//! How far a pushrod may travel at a full application.
//!
//! The limit hangs on family, type and stroke class; an unknown class counts as standard. Exactly on
//! the limit is legal, and said. An actuator that is in no table goes by its own marks.

use crate::conditions::Conditions;
use crate::jurisdiction::Jurisdiction;
use crate::own::OwnLimit;
use crate::quantity::{Length, Quantity, Ratio};
use crate::rules::{self, Figure, Rule};
use crate::slack::chamber::{Chamber, ChamberType, Family, StrokeClass};
use crate::source::{self, Source};
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Side};
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("slack.applied"),
    title: word::RULE_SLACK_APPLIED,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_SLACK_APPLIED,
    figures: FIGURES,
    sources: &[
        &source::STROKE_LIMITS,
        &source::STROKE_LIMITS_2012,
        &source::STROKE_UNLISTED,
    ],
};

/// The stroke table as printed: inches, and the millimetres beside them.
const FIGURES: &[Figure] = &[
    printed("clamp 6", 80, 318),
    printed("clamp 9", 88, 349),
    printed("clamp 12", 88, 349),
    printed("clamp 12 long", 112, 445),
    printed("clamp 16", 112, 445),
    printed("clamp 16 long", 128, 508),
    printed("clamp 20", 112, 445),
    printed("clamp 20 long", 128, 508),
    printed("clamp 20 long-3-in", 160, 635),
    printed("clamp 24", 112, 445),
    printed("clamp 24 long", 128, 508),
    printed("clamp 24 long-3-in", 160, 635),
    printed("clamp 30", 128, 508),
    printed("clamp 30 long", 160, 635),
    printed("clamp 36", 160, 635),
    Figure {
        name: "clamp 36 (2012)",
        limit: pair(144, 572, &source::STROKE_LIMITS_2012),
    },
    printed("dd-3 30", 144, 572),
    printed("bolt A", 88, 349),
    printed("bolt B", 112, 445),
    printed("bolt C", 112, 445),
    printed("bolt D", 80, 318),
    printed("bolt E", 88, 349),
    printed("bolt F", 144, 572),
    printed("bolt G", 128, 508),
    printed("rotochamber 9", 96, 381),
    printed("rotochamber 12", 96, 381),
    printed("rotochamber 16", 128, 508),
    printed("rotochamber 20", 128, 508),
    printed("rotochamber 24", 128, 508),
    printed("rotochamber 30", 144, 572),
    printed("rotochamber 36", 176, 699),
    printed("rotochamber 50", 192, 762),
    Figure {
        name: UNLISTED,
        limit: Limit::at_most(
            Quantity::Ratio(Ratio::from_percent(80)),
            &source::STROKE_UNLISTED,
        ),
    },
];

const UNLISTED: &str = "unlisted, of the rated stroke";

const fn printed(name: &'static str, inch_64ths: i64, mm_tenths: i64) -> Figure {
    Figure {
        name,
        limit: pair(inch_64ths, mm_tenths, &source::STROKE_LIMITS),
    }
}

const fn pair(inch_64ths: i64, mm_tenths: i64, source: &'static Source) -> Limit {
    let inches = Quantity::Length(Length::from_inch_64ths(inch_64ths));
    let millimetres = Quantity::Length(Length::from_mm_hundredths(mm_tenths * 10));
    Limit::at_most(inches, source).printed_beside(millimetres)
}

/// What decides the limit of a stroke beside the chamber.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StrokeFacts {
    /// The chamber.
    pub chamber: Chamber,
    /// How the reading was taken.
    pub taken: Conditions,
    /// Whose rules apply.
    pub jurisdiction: Jurisdiction,
    /// A limit of the shop sheet, when it has one for this chamber.
    pub shop: Option<OwnLimit>,
}

/// Judges an applied stroke against every limit that applies to its chamber; the strictest decides.
///
/// Units: any length; compared exactly. Room is limit minus stroke.
/// Errors: none. Without a limit, or under void conditions, there is no reading.
/// Source: [`source::STROKE_LIMITS`], [`source::STROKE_UNLISTED`].
pub fn judge_applied(stroke: Length, facts: &StrokeFacts) -> Judgement {
    judge_applied_by(FIGURES, stroke, facts)
}

/// The limits that apply to a chamber, without a reading: for a screen that shows them first.
pub fn limits_of(chamber: &Chamber) -> Vec<Limit> {
    limits(FIGURES, chamber).0
}

fn judge_applied_by(figures: &[Figure], stroke: Length, facts: &StrokeFacts) -> Judgement {
    let (mut limits, mut remarks) = limits(figures, &facts.chamber);
    let printed = !limits.is_empty();
    let own = facts.shop.as_ref().filter(|own| own.side == Side::AtMost);
    if let Some(own) = own {
        limits.push(own.limit());
        remarks.push(own.remark());
    }
    let is_law = own.is_some_and(|own| own.of_law);
    if printed && !is_law && facts.jurisdiction.borrows_us_figures() {
        remarks.push(Remark::plain(word::SLACK_REMARK_US_FIGURE));
    }
    let mut judged = Judgement::of(RULE.id, stroke.into(), &limits, &source::STROKE_LIMITS);
    judged.remarks.extend(remarks);
    judged.under(facts.taken)
}

fn limits(figures: &[Figure], chamber: &Chamber) -> (Vec<Limit>, Vec<Remark>) {
    match *chamber {
        Chamber::Listed { of, class } => of_table(figures, of, class),
        Chamber::Unlisted { rated, marked } => of_marks(figures, rated, marked),
    }
}

fn of_table(figures: &[Figure], of: &ChamberType, class: StrokeClass) -> (Vec<Limit>, Vec<Remark>) {
    let standard = format!("{} {}", of.family.code(), of.name);
    let mut remarks = Vec::new();
    // From the longest that the class could mean down to standard; the first that is printed counts.
    let longest_first = match class {
        StrokeClass::Standard | StrokeClass::Unknown => [None, None],
        StrokeClass::Long => [Some(StrokeClass::Long), None],
        StrokeClass::LongThreeInch => [Some(StrokeClass::LongThreeInch), Some(StrokeClass::Long)],
    };
    let mut printed = longest_first
        .into_iter()
        .flatten()
        .filter_map(|class| rules::named(figures, &format!("{standard} {}", class.code())));
    let limit = printed.next().or_else(|| rules::named(figures, &standard));
    if class == StrokeClass::Unknown && of.family == Family::Clamp {
        remarks.push(Remark::plain(word::SLACK_REMARK_CLASS_UNKNOWN));
    }
    let exact = rules::named(figures, &format!("{standard} {}", class.code()));
    let long = matches!(class, StrokeClass::Long | StrokeClass::LongThreeInch);
    if long && exact.is_none() {
        remarks.push(Remark::plain(word::SLACK_REMARK_CLASS_NOT_LISTED));
    }
    let older = rules::named(figures, &format!("{standard} (2012)"));
    if let (Some(current), Some(older)) = (limit, older) {
        remarks.push(Remark::with(
            word::SLACK_REMARK_TWO_EDITIONS,
            [
                ("current", Argument::Quantity(current.figure)),
                ("older", Argument::Quantity(older.figure)),
            ],
        ));
    }
    (limit.into_iter().chain(older).collect(), remarks)
}

fn of_marks(
    figures: &[Figure],
    rated: Option<Length>,
    marked: Option<Length>,
) -> (Vec<Limit>, Vec<Remark>) {
    let mut limits = Vec::new();
    let mut remarks = Vec::new();
    let part = rules::named(figures, UNLISTED).map(|limit| limit.figure.base());
    if let (Some(rated), Some(part)) = (rated, part) {
        // Rounded down to a whole nanometre: never towards `within`.
        let most = rated.base() * part / Ratio::from_percent(100).base();
        limits.extend(
            Length::from_base(most)
                .map(|most| Limit::at_most(most.into(), &source::STROKE_UNLISTED)),
        );
        remarks.push(Remark::with(
            word::SLACK_REMARK_EIGHTY_PERCENT,
            [("rated", Argument::Quantity(rated.into()))],
        ));
    }
    if let Some(marked) = marked {
        limits.push(Limit::at_most(marked.into(), &source::STROKE_UNLISTED));
        remarks.push(Remark::plain(word::SLACK_REMARK_MARKED_LIMIT));
    }
    if limits.is_empty() {
        remarks.push(Remark::plain(word::SLACK_REMARK_NO_MARKS));
    }
    (limits, remarks)
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases};
    use crate::nudge::Outcome;
    use crate::slack::chamber::TYPES;
    use crate::verdict::Verdict;

    fn facts(row: &Row<'_>) -> StrokeFacts {
        let length = |name| {
            row.quantity(name)
                .map(|quantity| quantity.length().unwrap())
        };
        let chamber = match Family::from_code(row.text("family")) {
            Some(family) => {
                let class = StrokeClass::from_code(row.text("class")).unwrap();
                Chamber::listed(family, row.text("type"), class).unwrap()
            }
            None => Chamber::Unlisted {
                rated: length("rated"),
                marked: length("marked"),
            },
        };
        StrokeFacts {
            chamber,
            taken: Conditions::FAIR,
            jurisdiction: Jurisdiction::from_code(row.text("where")).unwrap(),
            shop: length("shop").map(|figure| OwnLimit {
                side: Side::AtMost,
                figure,
                of_law: true,
                from: "province's list".to_owned(),
            }),
        }
    }

    /// The verdict, what each limit comes to by itself ("~" in the gap of a pair), what is said.
    fn shown(judged: &Judgement) -> String {
        let reading = judged.reading.unwrap();
        let each = |limit: &Limit| {
            let gap = if limit.in_the_gap(reading) { "~" } else { "" };
            format!("{}{gap}", limit.judge(reading).unwrap().code())
        };
        let each: Vec<String> = judged.limits.iter().map(each).collect();
        let said: Vec<&str> = judged.remarks.iter().map(|said| said.word.key()).collect();
        let said: Vec<&str> = said
            .into_iter()
            .map(|key| {
                key.trim_start_matches("slack.")
                    .trim_start_matches("remark.")
            })
            .collect();
        let dash = |list: String| {
            if list.is_empty() {
                "-".to_owned()
            } else {
                list
            }
        };
        format!(
            "{} | {} | {}",
            judged.verdict.code(),
            dash(each.join(",")),
            dash(said.join(","))
        )
    }

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let outcome = |row: Row<'_>| {
            let stroke = row.quantity("stroke").unwrap().length().unwrap();
            let judged = judge_applied_by(figures, stroke, &facts(&row));
            let expected = format!(
                "{} | {} | {}",
                row.text("verdict"),
                row.text("each"),
                row.text("says")
            );
            (
                format!("{row}: {}", shown(&judged)),
                format!("{row}: {expected}"),
            )
        };
        cases(include_str!("applied.tsv"))
            .into_iter()
            .map(outcome)
            .collect()
    }

    #[test]
    fn table() {
        for (got, expected) in outcomes(FIGURES) {
            assert_eq!(got, expected);
        }
    }

    #[test]
    fn every_type_has_its_limit_and_every_limit_its_type() {
        let mut seen = 1; // The rule for unlisted actuators belongs to no type.
        for of in TYPES {
            for class in StrokeClass::ALL {
                let chamber = Chamber::Listed { of, class: *class };
                assert!(!limits_of(&chamber).is_empty(), "{of:?}");
            }
            let name = format!("{} {}", of.family.code(), of.name);
            let own = |figure: &&Figure| {
                figure.name == name || figure.name.starts_with(&format!("{name} "))
            };
            seen += FIGURES.iter().filter(own).count();
        }
        assert_eq!(seen, FIGURES.len());
    }

    #[test]
    fn conditions_are_asked() {
        let mut facts = StrokeFacts {
            chamber: Chamber::listed(Family::Clamp, "30", StrokeClass::Standard).unwrap(),
            taken: Conditions::FAIR,
            jurisdiction: Jurisdiction::UnitedStates,
            shop: None,
        };
        facts.taken.application = crate::conditions::Application::Partial;
        let judged = judge_applied(Length::from_inch_64ths(100), &facts);
        assert_eq!(judged.verdict, Verdict::NoReading);
        assert_eq!(
            judge_applied(Length::from_inch_64ths(130), &facts).verdict,
            Verdict::Beyond
        );
    }

    fn any_chamber() -> impl Strategy<Value = Chamber> {
        (0..TYPES.len(), 0..StrokeClass::ALL.len()).prop_map(|(of, class)| Chamber::Listed {
            of: &TYPES[of],
            class: StrokeClass::ALL[class],
        })
    }

    proptest! {
        #[test]
        fn a_longer_stroke_is_never_kinder(chamber in any_chamber(), a in 0_i64..20_000, b in 0_i64..20_000) {
            let facts = StrokeFacts { chamber, taken: Conditions::FAIR, jurisdiction: Jurisdiction::Quebec, shop: None };
            let severity = |n: i64| judge_applied(Length::from_mm_hundredths(n), &facts).verdict.severity();
            prop_assert!(severity(a.min(b)) <= severity(a.max(b)));
        }

        #[test]
        fn an_unknown_class_is_never_kinder_than_a_known_one(of in 0..TYPES.len(), n in 0_i64..20_000) {
            let severity = |class| {
                let chamber = Chamber::Listed { of: &TYPES[of], class };
                let facts = StrokeFacts { chamber, taken: Conditions::FAIR, jurisdiction: Jurisdiction::Quebec, shop: None };
                judge_applied(Length::from_mm_hundredths(n), &facts).verdict.severity()
            };
            for class in StrokeClass::ALL {
                prop_assert!(severity(*class) <= severity(StrokeClass::Unknown));
            }
        }

        #[test]
        fn millimetres_rounded_up_are_never_kinder_than_the_inches(chamber in any_chamber(), n in 0_i64..256) {
            let facts = StrokeFacts { chamber, taken: Conditions::FAIR, jurisdiction: Jurisdiction::Quebec, shop: None };
            let inches = Length::from_inch_64ths(n);
            // What a rule in millimetres shows at least, read away from `within`.
            let tenths = i64::try_from((inches.base() + 99_999) / 100_000).unwrap();
            let millimetres = Length::from_mm_hundredths(tenths * 10);
            let severity = |length| judge_applied(length, &facts).verdict.severity();
            prop_assert!(severity(inches) <= severity(millimetres));
        }
    }
}
