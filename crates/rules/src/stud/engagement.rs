//! How many full turns a wheel nut has on its stud.
//!
//! Counted as it comes off, or from where it catches to where it seats.

use crate::quantity::{Angle, Quantity};
use crate::rules::{Figure, Rule};
use crate::source;
use crate::torque::spec::Thread;
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Verdict};
use crate::window::{self, Applies};
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("stud.engagement"),
    title: word::RULE_STUD_ENGAGEMENT,
    units: &[Unit::Turn],
    limits: word::LIMIT_STUD_ENGAGEMENT,
    figures: &[least("small least", 7), least("large least", 5)],
    sources: &[&source::STUD_TURNS],
};

const fn least(name: &'static str, turns: i64) -> Figure {
    Figure {
        name,
        limit: Limit::at_least(
            Quantity::Angle(Angle::from_turns(turns)),
            &source::STUD_TURNS,
        ),
    }
}

/// Judges how many turns a nut has on its stud.
///
/// Units: turns. Room is turns minus least. Errors: none. A thread that isn't known, or that no
/// figure is printed for, gives advice, unless the turns are too few for every thread.
/// Source: [`source::STUD_TURNS`].
pub fn judge_engagement(turns: Angle, thread: Option<Thread>) -> Judgement {
    judge_engagement_by(RULE.figures, turns, thread)
}

fn judge_engagement_by(figures: &[Figure], turns: Angle, thread: Option<Thread>) -> Judgement {
    let applies = match thread {
        Some(Thread::M22 | Thread::ThreeQuarter16) => Applies::These(&["small"]),
        Some(Thread::OneAndEighth16) => Applies::These(&["large"]),
        Some(
            Thread::M20 | Thread::FifteenSixteenth12 | Thread::ThreeQuarter10 | Thread::OneInch,
        )
        | None => Applies::Any,
    };
    let judged = window::judge(&RULE, figures, turns.into(), applies);
    if judged.verdict == Verdict::Beyond {
        judged.remarking(Remark::plain(word::STUD_REMARK_ENGAGEMENT))
    } else {
        judged
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::cases;
    use crate::nudge::Outcome;
    use crate::window::outcome;

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        cases(include_str!("engagement.tsv"))
            .into_iter()
            .map(|row| {
                let turns = row.quantity("turns").unwrap().angle().unwrap();
                let thread = Thread::from_code(row.text("thread"));
                outcome(&row, &judge_engagement_by(figures, turns, thread))
            })
            .collect()
    }

    #[test]
    fn table() {
        for (got, expected) in outcomes(RULE.figures) {
            assert_eq!(got, expected);
        }
    }

    proptest! {
        #[test]
        fn fewer_turns_are_never_kinder(a in 0_i64..5_000, b in 0_i64..5_000, of in 0..=Thread::ALL.len()) {
            let severity = |n| {
                let thread = Thread::ALL.get(of).copied();
                judge_engagement(Angle::from_degrees(n), thread).verdict.severity()
            };
            prop_assert!(severity(a.max(b)) <= severity(a.min(b)));
        }
    }
}
