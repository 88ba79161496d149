//! How many brakes of the vehicle are over their limit, by each rule that counts them.
//!
//! The periodic inspection rejects any brake over its limit. The roadside and Quebec count shares of
//! all brakes; the roadside's rule was read in trade press only, and says so. Nothing here puts a
//! vehicle out of service: that is an inspector's word.

use crate::quantity::{Length, Quantity, Ratio};
use crate::rules::{self, Figure, Rule};
use crate::source::{self, Source};
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Verdict};
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("slack.share"),
    title: word::RULE_SLACK_SHARE,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_SLACK_SHARE,
    figures: FIGURES,
    sources: &[
        &source::PERIODIC_INSPECTION,
        &source::ROADSIDE_COUNT,
        &source::QUEBEC_COUNT,
    ],
};

const FIGURES: &[Figure] = &[
    Figure {
        name: ROADSIDE_WHOLE,
        limit: Limit::at_least(
            Quantity::Length(Length::from_inch_64ths(16)),
            &source::ROADSIDE_COUNT,
        ),
    },
    Figure {
        name: ROADSIDE_SHARE,
        limit: Limit::at_least(
            Quantity::Ratio(Ratio::from_percent(20)),
            &source::ROADSIDE_COUNT,
        ),
    },
    Figure {
        name: QUEBEC_OVER,
        limit: Limit::at_least(
            Quantity::Length(Length::from_mm_hundredths(640)),
            &source::QUEBEC_COUNT,
        ),
    },
    Figure {
        name: QUEBEC_SHARE,
        limit: Limit::at_least(
            Quantity::Ratio(Ratio::from_percent(20)),
            &source::QUEBEC_COUNT,
        ),
    },
];

const ROADSIDE_WHOLE: &str = "roadside: over by this much is one defective brake, by less a half";
const ROADSIDE_SHARE: &str = "roadside: share of the brakes";
const QUEBEC_OVER: &str = "Quebec: over by this much counts";
const QUEBEC_SHARE: &str = "Quebec: share of the chambers";

/// One service brake of the vehicle or combination.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Brake {
    /// Its stroke isn't over its limit.
    Fine,
    /// Its stroke is over its limit by this much.
    Over(Length),
    /// It has a defect of another kind: missing, cracked, soaked, without action.
    Defect,
    /// Nobody measured it.
    NotMeasured,
}

/// What a judged stroke counts as.
impl From<&Judgement> for Brake {
    fn from(stroke: &Judgement) -> Self {
        let over = stroke
            .room
            .and_then(Quantity::length)
            .map(Length::magnitude);
        match (stroke.verdict, over) {
            (Verdict::Beyond, Some(over)) => Self::Over(over),
            (Verdict::Beyond | Verdict::Replace, _) => Self::Defect,
            (Verdict::NoReading, _) => Self::NotMeasured,
            (Verdict::Within | Verdict::AtTheLimit | Verdict::Sound, _) => Self::Fine,
        }
    }
}

/// What one rule counts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Count {
    /// Defective brakes in halves: a brake just over its limit is a half by the roadside's count.
    pub halves: u32,
    /// Service brakes in all.
    pub all: u32,
    /// Whether the rule's mark is reached, as far as it was measured.
    pub judgement: Judgement,
}

/// The counts of a vehicle, one for each rule: periodic inspection, roadside, Quebec.
///
/// Units: lengths over the limit; shares are compared by cross-multiplying.
/// Errors: none; without brakes there is no reading. `beyond` stands for a mark that is reached.
/// Source: [`source::PERIODIC_INSPECTION`], [`source::ROADSIDE_COUNT`], [`source::QUEBEC_COUNT`].
pub fn count(brakes: &[Brake]) -> [Count; 3] {
    count_by(FIGURES, brakes)
}

fn count_by(figures: &[Figure], brakes: &[Brake]) -> [Count; 3] {
    let reaches = |name: &str, over: Length| {
        let limit = rules::named(figures, name);
        limit
            .and_then(|limit| limit.judge(over.into()))
            .is_some_and(|v| v != Verdict::Beyond)
    };
    let sum = |halves: fn(&Brake) -> u32| brakes.iter().map(halves).sum::<u32>();
    let any = sum(|brake| match brake {
        Brake::Over(_) | Brake::Defect => 2,
        Brake::Fine | Brake::NotMeasured => 0,
    });
    let roadside = brakes.iter().map(|brake| match brake {
        Brake::Defect => 2,
        Brake::Over(over) if reaches(ROADSIDE_WHOLE, *over) => 2,
        Brake::Over(_) => 1,
        Brake::Fine | Brake::NotMeasured => 0,
    });
    let quebec = brakes.iter().map(|brake| match brake {
        Brake::Over(over) if reaches(QUEBEC_OVER, *over) => 2,
        _ => 0,
    });
    let share = |name| rules::named(figures, name);
    [
        counted(any, brakes, None, &source::PERIODIC_INSPECTION),
        counted(
            roadside.sum(),
            brakes,
            share(ROADSIDE_SHARE),
            &source::ROADSIDE_COUNT,
        ),
        counted(
            quebec.sum(),
            brakes,
            share(QUEBEC_SHARE),
            &source::QUEBEC_COUNT,
        ),
    ]
}

/// A count against its mark; without a mark any defective brake reaches it.
fn counted(halves: u32, brakes: &[Brake], mark: Option<Limit>, source: &'static Source) -> Count {
    let all = u32::try_from(brakes.len()).unwrap_or(u32::MAX);
    let unmeasured = brakes
        .iter()
        .filter(|brake| **brake == Brake::NotMeasured)
        .count();
    let unmeasured = u32::try_from(unmeasured).unwrap_or(u32::MAX);
    if all == 0 {
        let judgement = Judgement::without_reading(RULE.id, source)
            .remarking(Remark::plain(word::SLACK_REMARK_SHARE_NO_BRAKES));
        return Count {
            halves,
            all,
            judgement,
        };
    }
    let reached = match mark {
        None => halves > 0,
        // halves / (2 × all) against a whole number of millionths.
        Some(mark) => {
            let part = i128::from(halves) * Ratio::from_percent(100).base();
            part >= mark.figure.base() * 2 * i128::from(all)
        }
    };
    let verdict = match (reached, unmeasured) {
        (true, _) => Verdict::Beyond,
        (false, 0) => Verdict::Within,
        (false, _) => Verdict::NoReading,
    };
    let mut judgement = Judgement::by_eye(RULE.id, verdict, source);
    judgement.limits.extend(mark);
    let defective = Argument::Tenths(halves.saturating_mul(5));
    judgement = judgement.remarking(match mark {
        None => Remark::with(
            word::SLACK_REMARK_SHARE_OVER,
            [
                ("count", Argument::Count(halves / 2)),
                ("all", Argument::Count(all)),
            ],
        ),
        Some(_) => Remark::with(
            word::SLACK_REMARK_SHARE_COUNTED,
            [("defective", defective), ("all", Argument::Count(all))],
        ),
    });
    if reached {
        judgement = judgement.remarking(Remark::plain(word::SLACK_REMARK_SHARE_REACHES));
    }
    if unmeasured > 0 {
        let count = [("count", Argument::Count(unmeasured))];
        judgement = judgement.remarking(Remark::with(word::SLACK_REMARK_SHARE_UNMEASURED, count));
    }
    Count {
        halves,
        all,
        judgement,
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases};
    use crate::nudge::Outcome;

    /// "7 fine + 1/4 in + defect + open": counts of fine, defect or open brakes, and lengths over.
    fn brakes(text: &str) -> Vec<Brake> {
        if text == "-" {
            return Vec::new();
        }
        let part = |text: &str| {
            let (first, rest) = text.split_once(' ').unwrap_or((text, ""));
            let times = first.parse::<usize>().ok();
            match (times, rest) {
                (Some(times), "fine") => vec![Brake::Fine; times],
                (Some(times), "defect") => vec![Brake::Defect; times],
                (Some(times), "open") => vec![Brake::NotMeasured; times],
                (Some(times), over) if over.contains(' ') => vec![over_by(over); times],
                _ => vec![over_by(text)],
            }
        };
        text.split(" + ").flat_map(part).collect()
    }

    fn over_by(text: &str) -> Brake {
        let typed = crate::cases::typed(text).unwrap();
        Brake::Over(typed.quantity().length().unwrap())
    }

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let outcome = |row: Row<'_>| {
            let counts = count_by(figures, &brakes(row.text("brakes")));
            let got: Vec<String> = counts
                .iter()
                .map(|count| {
                    format!(
                        "{}/{} {}",
                        count.halves,
                        count.all,
                        count.judgement.verdict.code()
                    )
                })
                .collect();
            let expected = ["any over", "roadside", "Quebec"].map(|name| row.text(name));
            (
                format!("{row}{}", got.join("; ")),
                format!("{row}{}", expected.join("; ")),
            )
        };
        cases(include_str!("share.tsv"))
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
    fn a_judged_stroke_counts_as_what_it_is() {
        let two = Length::from_inch_64ths(128);
        let limit = Limit::at_most(two.into(), &source::STROKE_LIMITS);
        let judged = |n| {
            let reading = Length::from_inch_64ths(n).into();
            Judgement::of(RULE.id, reading, &[limit], &source::STROKE_LIMITS)
        };
        assert_eq!(Brake::from(&judged(127)), Brake::Fine);
        assert_eq!(Brake::from(&judged(128)), Brake::Fine);
        assert_eq!(
            Brake::from(&judged(136)),
            Brake::Over(Length::from_inch_64ths(8))
        );
        assert_eq!(
            Brake::from(&judged(136).proving_nothing()),
            Brake::NotMeasured
        );
        let eye =
            |verdict| Brake::from(&Judgement::by_eye(RULE.id, verdict, &source::STROKE_LIMITS));
        assert_eq!(
            [eye(Verdict::Replace), eye(Verdict::Beyond)],
            [Brake::Defect; 2]
        );
        assert_eq!(eye(Verdict::Sound), Brake::Fine);
    }

    #[test]
    fn what_is_counted_is_said() {
        let said = |text: &str| {
            let keys = count(&brakes(text)).map(|count| {
                let keys: Vec<&str> = count
                    .judgement
                    .remarks
                    .iter()
                    .map(|said| said.word.key())
                    .collect();
                keys.join(",").replace("slack.remark.share-", "")
            });
            keys.join(" ")
        };
        assert_eq!(said("-"), "no-brakes no-brakes no-brakes");
        assert_eq!(said("10 fine"), "over counted counted");
        assert_eq!(
            said("8 fine + 1 1/4 in + 1 1/4 in"),
            "over,reaches counted,reaches counted"
        );
        assert_eq!(
            said("9 fine + 1 open"),
            "over,unmeasured counted,unmeasured counted,unmeasured"
        );
        let over = &count(&brakes("8 fine + 2 defect"))[0].judgement.remarks[0];
        assert_eq!(
            over.arguments,
            [("count", Argument::Count(2)), ("all", Argument::Count(10))]
        );
        let half = &count(&brakes("9 fine + 1/8 in"))[1].judgement.remarks[0];
        assert_eq!(half.arguments[0], ("defective", Argument::Tenths(5)));
    }

    proptest! {
        #[test]
        fn one_more_or_further_over_is_never_kinder(fine in 1_usize..12, overs in proptest::collection::vec(1_i64..64, 0..8), more in 0_i64..32, at in 0_usize..8) {
            let all = |overs: &[i64]| {
                let mut all = vec![Brake::Fine; fine];
                all.extend(overs.iter().map(|n| Brake::Over(Length::from_inch_64ths(*n))));
                all
            };
            let severities = |brakes: &[Brake]| count(brakes).map(|count| count.judgement.verdict.severity());
            let before = severities(&all(&overs));
            let mut further = overs.clone();
            if let Some(one) = further.get_mut(at) {
                *one += more;
            }
            // The same number of brakes, one of them worse.
            let mut worse = all(&further);
            worse[0] = Brake::Defect;
            for (before, after) in before.iter().zip(severities(&all(&further))) {
                prop_assert!(*before <= after);
            }
            for (before, after) in before.iter().zip(severities(&worse)).take(2) {
                prop_assert!(*before <= after);
            }
        }
    }
}
