//! How far the rims on a spoke wheel run out of true.

use crate::quantity::{Length, Quantity};
use crate::rules::{Figure, Rule};
use crate::source::{self, Source};
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Verdict};
use crate::window::{self, Applies};
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("stud.run-out"),
    title: word::RULE_STUD_RUN_OUT,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_STUD_RUN_OUT,
    figures: &[
        most("front most", 4, &source::TORQUE_ARMY_SPOKE),
        most("rear most", 8, &source::TORQUE_ARMY_SPOKE),
        most("trailer most", 8, &source::TORQUE_TANK_TRAILER),
    ],
    sources: &[&source::TORQUE_ARMY_SPOKE, &source::TORQUE_TANK_TRAILER],
};

const fn most(name: &'static str, inch_64ths: i64, source: &'static Source) -> Figure {
    Figure {
        name,
        limit: Limit::at_most(
            Quantity::Length(Length::from_inch_64ths(inch_64ths)),
            source,
        ),
    }
}

/// Where the axle is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Axle {
    /// At the front of a powered vehicle.
    Front,
    /// Behind that.
    Rear,
    /// Under a trailer.
    Trailer,
}

impl Axle {
    /// Every place.
    pub const ALL: &[Self] = &[Self::Front, Self::Rear, Self::Trailer];

    /// The stable name under which it is listed.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Front => "front",
            Self::Rear => "rear",
            Self::Trailer => "trailer",
        }
    }

    /// The place of a listed name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }
}

/// Judges how far a rim runs out.
///
/// Units: any length, from the lowest to the highest over one turn. Room is limit minus run-out.
/// Errors: none. Source: by place, see [`RULE`].
pub fn judge_run_out(run_out: Length, axle: Axle) -> Judgement {
    judge_run_out_by(RULE.figures, run_out, axle)
}

fn judge_run_out_by(figures: &[Figure], run_out: Length, axle: Axle) -> Judgement {
    let applies = match axle {
        Axle::Front => Applies::These(&["front"]),
        Axle::Rear => Applies::These(&["rear"]),
        Axle::Trailer => Applies::These(&["trailer", "rear"]),
    };
    let judged = window::judge(&RULE, figures, run_out.into(), applies);
    if judged.verdict == Verdict::Beyond {
        judged.remarking(Remark::plain(word::STUD_REMARK_RUN_OUT))
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
        cases(include_str!("run_out.tsv"))
            .into_iter()
            .map(|row| {
                let run_out = row.quantity("run-out").unwrap().length().unwrap();
                let axle = Axle::from_code(row.text("axle")).unwrap();
                outcome(&row, &judge_run_out_by(figures, run_out, axle))
            })
            .collect()
    }

    #[test]
    fn table() {
        for (got, expected) in outcomes(RULE.figures) {
            assert_eq!(got, expected);
        }
        let front = judge_run_out(Length::from_inch_64ths(4), Axle::Front);
        assert_eq!(front.verdict, Verdict::AtTheLimit);
    }

    proptest! {
        #[test]
        fn more_is_never_kinder(a in 0_i64..20, b in 0_i64..20, of in 0..Axle::ALL.len()) {
            let severity = |n| {
                let run_out = Length::from_inch_64ths(n);
                judge_run_out(run_out, Axle::ALL[of]).verdict.severity()
            };
            prop_assert!(severity(a.min(b)) <= severity(a.max(b)));
        }
    }
}
