//! Which passes a wheel gets, and with what value each.
//!
//! Seat, then full value, then every nut once more. Ball-seat duals: the inner set fully, then the
//! outer. Spoke clamps are drawn up a quarter turn at a time before the full value. An impact gun
//! only ever runs nuts up below the final value.

use crate::quantity::{Quantity, Ratio, Torque};
use crate::rules::{self, Figure, Rule};
use crate::source::{self, Source};
use crate::torque::spec::Mounting;
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId};
use crate::word::{self, Word};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("torque.plan"),
    title: word::RULE_TORQUE_PLAN,
    units: &[Unit::PoundForceFoot, Unit::NewtonMetre],
    limits: word::LIMIT_TORQUE_PLAN,
    figures: FIGURES,
    sources: &[
        &source::SEAT_VALUE,
        &source::TORQUE_LUFKIN,
        &source::TORQUE_PRATT,
        &source::TORQUE_TANK_TRAILER,
        &source::TORQUE_ARMY_SPOKE,
        &source::BOLT_CIRCLE,
    ],
};

const FIGURES: &[Figure] = &[
    Figure {
        name: "seat least",
        limit: Limit::at_least(
            Quantity::Torque(Torque::from_lbf_ft(50)),
            &source::SEAT_VALUE,
        )
        .printed_beside(Quantity::Torque(Torque::from_nm(68))),
    },
    Figure {
        name: "seat most",
        limit: Limit::at_most(
            Quantity::Torque(Torque::from_lbf_ft(100)),
            &source::SEAT_VALUE,
        )
        .printed_beside(Quantity::Torque(Torque::from_nm(136))),
    },
    Figure {
        name: FIRST_PART,
        limit: Limit::at_most(
            Quantity::Ratio(Ratio::from_percent(70)),
            &source::BOLT_CIRCLE,
        ),
    },
];

const FIRST_PART: &str = "general bolting: first stage of the full value";

/// Which nuts a pass takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Set {
    /// All of the wheel's.
    All,
    /// The inner cap nuts of a ball-seat dual.
    Inner,
    /// The outer cap nuts of a ball-seat dual.
    Outer,
}

/// What a pass is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// Draws the wheel on to its seat.
    Seat,
    /// Brings every nut to the full value.
    Final,
    /// Every nut once more: none may turn.
    Check,
}

/// One pass.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Pass {
    /// Which nuts.
    pub set: Set,
    /// What for.
    pub kind: Kind,
}

impl Pass {
    /// What the screen calls it.
    pub const fn word(self) -> Word {
        match (self.set, self.kind) {
            (Set::All, Kind::Seat) => word::TORQUE_PASS_SEAT,
            (Set::All, Kind::Final) => word::TORQUE_PASS_FINAL,
            (Set::All, Kind::Check) => word::TORQUE_PASS_CHECK,
            (Set::Inner, Kind::Seat) => word::TORQUE_PASS_SEAT_INNER,
            (Set::Inner, Kind::Final) => word::TORQUE_PASS_FINAL_INNER,
            (Set::Inner, Kind::Check) => word::TORQUE_PASS_CHECK_INNER,
            (Set::Outer, Kind::Seat) => word::TORQUE_PASS_SEAT_OUTER,
            (Set::Outer, Kind::Final) => word::TORQUE_PASS_FINAL_OUTER,
            (Set::Outer, Kind::Check) => word::TORQUE_PASS_CHECK_OUTER,
        }
    }
}

/// Whether one or two wheels hang on the studs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Wheels {
    /// One.
    Single,
    /// Two.
    Dual,
}

/// How the nuts are drawn up in the seat pass.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Seating {
    /// To the seat value.
    ByValue,
    /// A quarter turn at a time once the clamps are seated.
    ByQuarterTurns,
}

/// How this mounting is seated, and where that is printed.
pub const fn seating(mounting: Mounting) -> (Seating, &'static Source) {
    match mounting {
        Mounting::HubPiloted => (Seating::ByValue, &source::SEAT_VALUE),
        Mounting::BallSeat => (Seating::ByValue, &source::TORQUE_LUFKIN),
        Mounting::Spoke => (Seating::ByQuarterTurns, &source::TORQUE_ARMY_SPOKE),
    }
}

/// The passes of a wheel, in order.
///
/// Source: [`source::TORQUE_LUFKIN`] and its neighbours; the check pass is common practice.
pub fn passes(mounting: Mounting, wheels: Wheels) -> Vec<Pass> {
    let sets: &[Set] = match (mounting, wheels) {
        (Mounting::BallSeat, Wheels::Dual) => &[Set::Inner, Set::Outer],
        _ => &[Set::All],
    };
    let kinds = [Kind::Seat, Kind::Final, Kind::Check];
    sets.iter()
        .flat_map(|set| kinds.map(|kind| Pass { set: *set, kind }))
        .collect()
}

/// Judges the value of a seat pass.
///
/// Units: any torque. Room is the distance to the nearer end. Errors: none.
/// Source: [`source::SEAT_VALUE`].
pub fn judge_seat(value: Torque) -> Judgement {
    judge_seat_by(FIGURES, value)
}

fn judge_seat_by(figures: &[Figure], value: Torque) -> Judgement {
    let limits: Vec<Limit> = ["seat least", "seat most"]
        .iter()
        .filter_map(|name| rules::named(figures, name))
        .collect();
    Judgement::of(RULE.id, value.into(), &limits, &source::SEAT_VALUE)
}

/// The first stage of general bolting: a part of the full value, rounded down.
///
/// Units: any torque. Source: [`source::BOLT_CIRCLE`].
pub fn first_stage(full: Torque) -> Option<Torque> {
    first_stage_by(FIGURES, full)
}

fn first_stage_by(figures: &[Figure], full: Torque) -> Option<Torque> {
    let part = rules::named(figures, FIRST_PART)?.figure.base();
    let all = Ratio::from_percent(100).base();
    Torque::from_base(full.base().checked_mul(part)?.div_euclid(all))
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::cases::{Row, cases};
    use crate::nudge::Outcome;

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let outcome = |row: Row<'_>| {
            let value = row.quantity("value").unwrap().torque().unwrap();
            let got = match row.text("what") {
                "seat" => {
                    let judged = judge_seat_by(figures, value);
                    let gap = if judged.remarks.is_empty() {
                        ""
                    } else {
                        " in the gap"
                    };
                    format!("{}{gap}", judged.verdict.code())
                }
                _ => first_stage_by(figures, value).unwrap().base().to_string(),
            };
            (
                format!("{row}: {got}"),
                format!("{row}: {}", row.text("got")),
            )
        };
        cases(include_str!("plan.tsv"))
            .into_iter()
            .map(outcome)
            .collect()
    }

    #[test]
    fn table() {
        for (got, expected) in outcomes(FIGURES) {
            assert_eq!(got, expected);
        }
        assert_eq!(judge_seat(Torque::from_lbf_ft(75)).verdict.code(), "within");
        assert_eq!(
            first_stage(Torque::from_lbf_ft(100)),
            Some(Torque::from_lbf_ft(70))
        );
    }

    #[test]
    fn inner_nuts_come_first_and_fully() {
        let pass = |set, kind| Pass { set, kind };
        let three = |set| [Kind::Seat, Kind::Final, Kind::Check].map(|kind| pass(set, kind));
        let dual = [three(Set::Inner), three(Set::Outer)].concat();
        assert_eq!(passes(Mounting::BallSeat, Wheels::Dual), dual);
        assert_eq!(passes(Mounting::BallSeat, Wheels::Single), three(Set::All));
        assert_eq!(passes(Mounting::HubPiloted, Wheels::Dual), three(Set::All));
        assert_eq!(passes(Mounting::Spoke, Wheels::Dual), three(Set::All));
    }

    #[test]
    fn only_clamps_go_by_turns() {
        let by = |mounting| seating(mounting).0;
        assert_eq!(by(Mounting::Spoke), Seating::ByQuarterTurns);
        assert_eq!(
            [by(Mounting::HubPiloted), by(Mounting::BallSeat)],
            [Seating::ByValue; 2]
        );
    }

    #[test]
    fn every_pass_has_its_own_word() {
        let sets = [Set::All, Set::Inner, Set::Outer];
        let kinds = [Kind::Seat, Kind::Final, Kind::Check];
        let all: Vec<Word> = sets
            .iter()
            .flat_map(|set| kinds.map(|kind| Pass { set: *set, kind }.word()))
            .collect();
        for (at, one) in all.iter().enumerate() {
            assert!(all[..at].iter().all(|other| other != one), "{one:?}");
        }
    }
}
