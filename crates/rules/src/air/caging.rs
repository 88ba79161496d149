//! How far a caging bolt stands out when the spring is held, against the tag of its chamber.
//!
//! The tag decides. What makers print for chambers of their own is shown beside it and never
//! counted: chambers differ by more than those figures do.

use crate::quantity::{Length, Quantity};
use crate::rules::{self, Figure, Rule};
use crate::source::{self, Source};
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Verdict};
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("air.caging"),
    title: word::RULE_AIR_CAGING,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_AIR_CAGING,
    figures: FIGURES,
    sources: &[
        &source::ON_THE_PART,
        &source::CAGING_TRAILER,
        &source::CAGING_SEMITRAILER,
        &source::CAGING_CRANE,
    ],
};

/// What is printed for three chambers; none of them says for which others it holds.
const FIGURES: &[Figure] = &[
    least("trailer least", 160, &source::CAGING_TRAILER),
    most("trailer most", 192, &source::CAGING_TRAILER),
    least("semitrailer least", 160, &source::CAGING_SEMITRAILER),
    most("semitrailer most", 176, &source::CAGING_SEMITRAILER),
    least("crane", 208, &source::CAGING_CRANE),
];

const fn least(name: &'static str, inch_64ths: i64, source: &'static Source) -> Figure {
    let figure = Quantity::Length(Length::from_inch_64ths(inch_64ths));
    Figure {
        name,
        limit: Limit::at_least(figure, source),
    }
}

const fn most(name: &'static str, inch_64ths: i64, source: &'static Source) -> Figure {
    let figure = Quantity::Length(Length::from_inch_64ths(inch_64ths));
    Figure {
        name,
        limit: Limit::at_most(figure, source),
    }
}

/// Judges how far a caging bolt stands out.
///
/// Units: any length; compared exactly. Room is reading minus tag.
/// Errors: none. Without a tag there is no verdict.
/// Source: [`source::ON_THE_PART`].
pub fn judge_stand_out(stands_out: Length, tag: Option<Length>) -> Judgement {
    judge_stand_out_by(FIGURES, stands_out, tag)
}

fn judge_stand_out_by(figures: &[Figure], stands_out: Length, tag: Option<Length>) -> Judgement {
    let limits: Vec<Limit> = tag
        .map(|tag| Limit::at_least(tag.into(), &source::ON_THE_PART))
        .into_iter()
        .collect();
    let judged = Judgement::of(RULE.id, stands_out.into(), &limits, &source::ON_THE_PART);
    let judged = match judged.verdict {
        Verdict::NoReading => judged.remarking(Remark::plain(word::AIR_REMARK_NO_TAG)),
        Verdict::Beyond | Verdict::Replace => {
            judged.remarking(Remark::plain(word::AIR_REMARK_NOT_CAGED))
        }
        Verdict::Within | Verdict::AtTheLimit | Verdict::Sound => judged,
    };
    figures
        .iter()
        .filter_map(|figure| rules::named(figures, figure.name))
        .fold(judged, Judgement::other_says)
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases};
    use crate::nudge::Outcome;

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let outcome = |row: Row<'_>| {
            let length = |name| row.quantity(name).map(|length| length.length().unwrap());
            let judged = judge_stand_out_by(figures, length("stands out").unwrap(), length("tag"));
            let others: Vec<&str> = judged
                .others
                .iter()
                .map(|other| other.verdict.code())
                .collect();
            let said: Vec<&str> = judged
                .remarks
                .iter()
                .map(|said| said.word.key().trim_start_matches("air.remark."))
                .collect();
            let got = [judged.verdict.code(), &others.join(","), &said.join(",")];
            let expected = ["verdict", "others", "says"].map(|name| row.text(name));
            (
                format!("{row}: {}", got.join(" | ")),
                format!("{row}: {}", expected.join(" | ")).replace("| -", "| "),
            )
        };
        cases(include_str!("caging.tsv"))
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

    proptest! {
        #[test]
        fn less_of_the_bolt_is_never_kinder(a in 0_i64..300, b in 0_i64..300, tag in 0_i64..300) {
            let severity = |n| {
                let tag = Some(Length::from_inch_64ths(tag));
                judge_stand_out(Length::from_inch_64ths(n), tag).verdict.severity()
            };
            prop_assert!(severity(a.max(b)) <= severity(a.min(b)));
        }
    }
}
