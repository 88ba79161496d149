//! How far a mounted drum may run out, read with an indicator over one turn.

use crate::quantity::{Length, Quantity};
use crate::rules::{self, Figure, Rule};
use crate::source;
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Verdict};
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("drum.run-out"),
    title: word::RULE_DRUM_RUN_OUT,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_DRUM_RUN_OUT,
    figures: FIGURES,
    sources: &[&source::DRUM_RUN_OUT],
};

const OWN: &str = "run-out";

const FIGURES: &[Figure] = &[Figure {
    name: OWN,
    limit: Limit::at_most(
        Quantity::Length(Length::from_inch_thousandths(20)),
        &source::DRUM_RUN_OUT,
    ),
}];

/// Judges the total indicated run-out of a drum on its hub.
///
/// Units: any length. Room is limit minus run-out. Errors: none.
/// Source: [`source::DRUM_RUN_OUT`].
pub fn judge_run_out(run_out: Length) -> Judgement {
    judge_run_out_by(FIGURES, run_out)
}

fn judge_run_out_by(figures: &[Figure], run_out: Length) -> Judgement {
    let own: Vec<Limit> = rules::named(figures, OWN).into_iter().collect();
    let judged = Judgement::of(RULE.id, run_out.into(), &own, &source::DRUM_RUN_OUT);
    if judged.verdict == Verdict::Beyond {
        // Dirt under the flange shows the same as a drum out of true, and costs nothing to cure.
        return judged.remarking(Remark::plain(word::DRUM_REMARK_SEAT_AGAIN));
    }
    judged
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases, told};
    use crate::nudge::Outcome;

    fn run_out(row: &Row<'_>) -> Length {
        row.quantity("run-out").and_then(Quantity::length).unwrap()
    }

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let outcome = |row: Row<'_>| {
            let judged = judge_run_out_by(figures, run_out(&row));
            (format!("{row}{}", told(&judged)), row.told())
        };
        cases(include_str!("run_out.tsv"))
            .into_iter()
            .map(outcome)
            .collect()
    }

    #[test]
    fn table() {
        for row in cases(include_str!("run_out.tsv")) {
            let judged = judge_run_out(run_out(&row));
            assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
        }
    }

    proptest! {
        #[test]
        fn more_run_out_is_never_kinder(a in 0_i64..50, b in 0_i64..50) {
            let severity = |n| judge_run_out(Length::from_inch_thousandths(n)).verdict.severity();
            prop_assert!(severity(a.min(b)) <= severity(a.max(b)));
        }
    }
}
