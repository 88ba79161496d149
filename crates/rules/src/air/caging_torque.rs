//! How hard a caging nut may be turned: a caution with two makers' figures.
//!
//! The app can't measure it, so no step asks for it. Two makers differ, and which of them stands
//! for the chamber at hand is rarely known: between the two figures there is advice, no verdict.

use crate::quantity::{Quantity, Torque};
use crate::rules::{self, Figure, Rule};
use crate::source;
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Verdict};
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("air.caging-torque"),
    title: word::RULE_AIR_CAGING_TORQUE,
    units: &[Unit::PoundForceFoot, Unit::NewtonMetre],
    limits: word::LIMIT_AIR_CAGING_TORQUE,
    figures: FIGURES,
    sources: &[&source::CAGING_TRAILER, &source::CAGING_CRANE],
};

const FIGURES: &[Figure] = &[
    Figure {
        name: TRAILER,
        limit: Limit::at_most(
            Quantity::Torque(Torque::from_lbf_ft(35)),
            &source::CAGING_TRAILER,
        ),
    },
    Figure {
        name: CRANE,
        limit: Limit::at_most(
            Quantity::Torque(Torque::from_lbf_ft(50)),
            &source::CAGING_CRANE,
        ),
    },
];

const TRAILER: &str = "trailer";
const CRANE: &str = "crane";

/// The caution that stands beside the bolt: hand tool only, and both figures.
pub fn caution() -> Remark {
    let figures = [("low", TRAILER), ("high", CRANE)];
    Remark::with(
        word::AIR_REMARK_CAGING_TORQUE,
        figures.into_iter().filter_map(|(name, of)| {
            let limit = rules::named(FIGURES, of)?;
            Some((name, Argument::Quantity(limit.figure)))
        }),
    )
}

/// Judges a torque that somebody names for a caging nut.
///
/// Units: any torque; compared exactly. Errors: none. Over both figures it is beyond, within both
/// it is within; between them nothing is said.
/// Source: [`source::CAGING_TRAILER`], [`source::CAGING_CRANE`].
pub fn judge_caging_torque(torque: Torque) -> Judgement {
    judge_caging_torque_by(FIGURES, torque)
}

fn judge_caging_torque_by(figures: &[Figure], torque: Torque) -> Judgement {
    let limits: Vec<Limit> = [TRAILER, CRANE]
        .into_iter()
        .filter_map(|name| rules::named(figures, name))
        .collect();
    let judged = Judgement::of(RULE.id, torque.into(), &limits, &source::CAGING_TRAILER);
    let over = |limit: &Limit| limit.judge(torque.into()) == Some(Verdict::Beyond);
    if limits.iter().any(over) && !limits.iter().all(over) {
        judged
            .proving_nothing()
            .remarking(Remark::plain(word::AIR_REMARK_MAKERS_DIFFER))
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

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        cases(include_str!("caging_torque.tsv"))
            .into_iter()
            .map(|row| {
                let torque = row.quantity("torque").unwrap().torque().unwrap();
                let judged = judge_caging_torque_by(figures, torque);
                (
                    format!("{row}: {}", judged.verdict.code()),
                    format!("{row}: {}", row.text("verdict")),
                )
            })
            .collect()
    }

    #[test]
    fn table() {
        for (got, expected) in outcomes(FIGURES) {
            assert_eq!(got, expected);
        }
    }

    #[test]
    fn the_caution_names_both_figures() {
        let shown: Vec<Argument> = caution()
            .arguments
            .into_iter()
            .map(|(_, one)| one)
            .collect();
        let torque = |n| Argument::Quantity(Torque::from_lbf_ft(n).into());
        assert_eq!(shown, [torque(35), torque(50)]);
    }

    proptest! {
        #[test]
        fn more_torque_is_never_kinder(a in 0_i64..100, b in 0_i64..100) {
            let severity = |n| judge_caging_torque(Torque::from_lbf_ft(n)).verdict.severity();
            prop_assert!(severity(a.min(b)) <= severity(a.max(b)));
        }
    }
}
