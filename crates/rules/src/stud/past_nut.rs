//! How many threads of a stud show past its nut.

use crate::jurisdiction::Jurisdiction;
use crate::quantity::{Angle, Quantity};
use crate::rules::{Figure, Rule};
use crate::source;
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Verdict};
use crate::window::{self, Applies};
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("stud.past-nut"),
    title: word::RULE_STUD_PAST_NUT,
    units: &[Unit::Turn],
    limits: word::LIMIT_STUD_PAST_NUT,
    figures: &[
        Figure {
            name: "quebec least",
            limit: Limit::at_least(
                Quantity::Angle(Angle::from_degrees(540)),
                &source::STUD_PAST_NUT_QUEBEC,
            ),
        },
        Figure {
            name: "elsewhere least",
            limit: Limit::at_least(
                Quantity::Angle(Angle::from_turns(1)),
                &source::STUD_PAST_NUT_ELSEWHERE,
            ),
        },
    ],
    sources: &[
        &source::STUD_PAST_NUT_QUEBEC,
        &source::STUD_PAST_NUT_ELSEWHERE,
    ],
};

/// Judges how many threads show past a nut.
///
/// Units: turns, one for each thread. Room is threads minus least. Errors: none. Outside Quebec
/// no rule with a number was read: advice. The maker of the wheel may say otherwise anywhere.
/// Source: [`source::STUD_PAST_NUT_QUEBEC`].
pub fn judge_past_nut(threads: Angle, jurisdiction: Jurisdiction) -> Judgement {
    judge_past_nut_by(RULE.figures, threads, jurisdiction)
}

fn judge_past_nut_by(figures: &[Figure], threads: Angle, jurisdiction: Jurisdiction) -> Judgement {
    let applies: &[&str] = match jurisdiction {
        Jurisdiction::Quebec => &["quebec"],
        Jurisdiction::UnitedStates | Jurisdiction::Ontario | Jurisdiction::Canada => &[],
    };
    let judged = window::judge(&RULE, figures, threads.into(), Applies::These(applies));
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
        cases(include_str!("past_nut.tsv"))
            .into_iter()
            .map(|row| {
                let threads = row.quantity("threads").unwrap().angle().unwrap();
                let jurisdiction = Jurisdiction::from_code(row.text("where")).unwrap();
                outcome(&row, &judge_past_nut_by(figures, threads, jurisdiction))
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
        fn fewer_threads_are_never_kinder(a in 0_i64..2_000, b in 0_i64..2_000, of in 0..Jurisdiction::ALL.len()) {
            let severity = |n| {
                let threads = Angle::from_degrees(n);
                judge_past_nut(threads, Jurisdiction::ALL[of]).verdict.severity()
            };
            prop_assert!(severity(a.max(b)) <= severity(a.min(b)));
        }
    }
}
