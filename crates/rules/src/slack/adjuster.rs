//! What can be measured on an adjuster that stays: clutch, gear, clevis gap and arm bushing.
//!
//! Clutch and gear torque are two different tests in two different units; one never stands in for
//! the other. A linkless adjuster needs up to 70 lbf·ft to back off, and that is no fault.

use crate::quantity::{Length, Quantity, Torque};
use crate::rules::{self, Figure, Rule};
use crate::source;
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Verdict};
use crate::word::{self, Remark};

/// What the list of rules says of the clutch.
pub const CLUTCH: Rule = Rule {
    id: RuleId("slack.clutch"),
    title: word::RULE_SLACK_CLUTCH,
    units: &[
        Unit::PoundForceFoot,
        Unit::NewtonMetre,
        Unit::PoundForceInch,
    ],
    limits: word::LIMIT_SLACK_CLUTCH,
    figures: &[Figure {
        name: "clutch",
        limit: Limit::at_least(
            Quantity::Torque(Torque::from_lbf_ft(13)),
            &source::CLUTCH_ADJUSTER,
        ),
    }],
    sources: &[&source::CLUTCH_ADJUSTER],
};

/// What the list of rules says of the gear.
pub const GEAR: Rule = Rule {
    id: RuleId("slack.gear"),
    title: word::RULE_SLACK_GEAR,
    units: &[Unit::PoundForceInch, Unit::NewtonMetre],
    limits: word::LIMIT_SLACK_GEAR,
    figures: &[Figure {
        name: "gear in service",
        limit: Limit::at_most(
            Quantity::Torque(Torque::from_lbf_in(45)),
            &source::GEAR_TORQUE,
        ),
    }],
    sources: &[&source::GEAR_TORQUE],
};

/// What the list of rules says of the clevis.
pub const CLEVIS: Rule = Rule {
    id: RuleId("slack.clevis"),
    title: word::RULE_SLACK_CLEVIS,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_SLACK_CLEVIS,
    figures: &[Figure {
        name: "collar gap",
        limit: Limit::at_most(
            Quantity::Length(Length::from_inch_thousandths(60)),
            &source::CLEVIS_GAP,
        ),
    }],
    sources: &[&source::CLEVIS_GAP],
};

/// What the list of rules says of the arm's bushing.
pub const BUSHING: Rule = Rule {
    id: RuleId("slack.arm-bushing"),
    title: word::RULE_SLACK_ARM_BUSHING,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_SLACK_ARM_BUSHING,
    figures: &[Figure {
        name: "arm bushing",
        limit: Limit::at_most(
            Quantity::Length(Length::from_inch_thousandths(650)),
            &source::ARM_BUSHING,
        )
        .printed_beside(Quantity::Length(Length::from_mm_hundredths(1_660))),
    }],
    sources: &[&source::ARM_BUSHING],
};

/// Whether a clutch ratcheted over one full turn back.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Ratchet {
    /// It did.
    Heard,
    /// It didn't: the adjuster is renewed whatever its torque.
    Silent,
}

/// Judges the back-off torque of a clutch adjuster.
///
/// Units: any torque. Room is torque minus limit. Errors: none.
/// Source: [`source::CLUTCH_ADJUSTER`].
pub fn judge_clutch(torque: Torque, ratchet: Ratchet) -> Judgement {
    judge_clutch_by(CLUTCH.figures, torque, ratchet)
}

/// Judges the gear torque of a pawl adjuster in service, over 22 turns with its pawl out.
///
/// Units: any torque. Room is limit minus torque. Errors: none.
/// Source: [`source::GEAR_TORQUE`].
pub fn judge_gear(torque: Torque) -> Judgement {
    against(&GEAR, GEAR.figures, "gear in service", torque.into())
}

/// Judges the gap between clevis and collar.
///
/// Units: any length. Room is limit minus gap. Errors: none.
/// Source: [`source::CLEVIS_GAP`].
pub fn judge_clevis(gap: Length) -> Judgement {
    against(&CLEVIS, CLEVIS.figures, "collar gap", gap.into())
}

/// Judges the bore of the bushing in an adjuster's arm, across its widest.
///
/// Units: any length. Room is limit minus bore. Errors: none.
/// Source: [`source::ARM_BUSHING`].
pub fn judge_bushing(bore: Length) -> Judgement {
    against(&BUSHING, BUSHING.figures, "arm bushing", bore.into())
}

fn judge_clutch_by(figures: &[Figure], torque: Torque, ratchet: Ratchet) -> Judgement {
    let mut judged = against(&CLUTCH, figures, "clutch", torque.into());
    if ratchet == Ratchet::Silent {
        judged.verdict = Verdict::Replace;
        judged = judged.remarking(Remark::plain(word::SLACK_REMARK_CLUTCH_NO_RATCHET));
    }
    judged
}

fn against(rule: &Rule, figures: &[Figure], name: &str, reading: Quantity) -> Judgement {
    let limits: Vec<Limit> = rules::named(figures, name).into_iter().collect();
    let source = rule
        .sources
        .first()
        .copied()
        .unwrap_or(&source::COMMON_PRACTICE);
    Judgement::of(rule.id, reading, &limits, source)
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases};
    use crate::nudge::Outcome;

    fn torque(row: &Row<'_>) -> Torque {
        row.quantity("reading").unwrap().torque().unwrap()
    }

    fn outcomes(what: &str, judge: impl Fn(&Row<'_>) -> Judgement) -> Vec<Outcome> {
        cases(include_str!("adjuster.tsv"))
            .into_iter()
            .filter(|row| row.text("what") == what)
            .map(|row| {
                (
                    format!("{row}{}", judge(&row).verdict.code()),
                    format!("{row}{}", row.text("verdict")),
                )
            })
            .collect()
    }

    pub(crate) fn clutch(figures: &[Figure]) -> Vec<Outcome> {
        outcomes("clutch", |row| {
            let ratchet = if row.text("ratchet") == "heard" {
                Ratchet::Heard
            } else {
                Ratchet::Silent
            };
            judge_clutch_by(figures, torque(row), ratchet)
        })
    }

    pub(crate) fn gear(figures: &[Figure]) -> Vec<Outcome> {
        outcomes("gear", |row| {
            against(&GEAR, figures, "gear in service", torque(row).into())
        })
    }

    pub(crate) fn clevis(figures: &[Figure]) -> Vec<Outcome> {
        outcomes("clevis", |row| {
            against(
                &CLEVIS,
                figures,
                "collar gap",
                row.quantity("reading").unwrap(),
            )
        })
    }

    pub(crate) fn bushing(figures: &[Figure]) -> Vec<Outcome> {
        // Between its two figures a bore is told by its remark only.
        let said = |bore| {
            let mut judged = against(&BUSHING, figures, "arm bushing", bore);
            if !judged.remarks.is_empty() {
                judged.verdict = Verdict::Replace;
            }
            judged
        };
        outcomes("bushing", |row| said(row.quantity("reading").unwrap()))
    }

    #[test]
    fn table() {
        let public = outcomes("gear", |row| judge_gear(torque(row)));
        let clevis_public = outcomes("clevis", |row| {
            judge_clevis(row.quantity("reading").unwrap().length().unwrap())
        });
        for (got, expected) in clutch(CLUTCH.figures)
            .into_iter()
            .chain(public)
            .chain(clevis_public)
            .chain(bushing(BUSHING.figures))
        {
            assert_eq!(got, expected);
        }
        let silent = judge_clutch(Torque::from_lbf_ft(20), Ratchet::Silent);
        assert_eq!(
            silent.remarks,
            [Remark::plain(word::SLACK_REMARK_CLUTCH_NO_RATCHET)]
        );
        assert_eq!(silent.source, &source::CLUTCH_ADJUSTER);
    }

    proptest! {
        #[test]
        fn a_slacker_clutch_a_stiffer_gear_or_a_wider_gap_is_never_kinder(a in 0_i64..600, b in 0_i64..600) {
            let (small, large) = (a.min(b), a.max(b));
            let clutch = |n| judge_clutch(Torque::from_lbf_in(n), Ratchet::Heard).verdict.severity();
            let gear = |n| judge_gear(Torque::from_lbf_in(n)).verdict.severity();
            let clevis = |n| judge_clevis(Length::from_inch_thousandths(n)).verdict.severity();
            prop_assert!(clutch(large) <= clutch(small));
            prop_assert!(gear(small) <= gear(large));
            prop_assert!(clevis(small) <= clevis(large));
            let bushing = |n| judge_bushing(Length::from_inch_thousandths(400 + n)).verdict.severity();
            prop_assert!(bushing(small) <= bushing(large));
        }
    }
}
