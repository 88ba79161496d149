//! What is left of a push when its arm doesn't stand square to the rod.
//!
//! At 90 degrees all of it turns the cam; on either side less. The rod is taken to move along its
//! own line, as everywhere in this crate.

use crate::quantity::{Angle, Length, Ratio};
use crate::rules::Rule;
use crate::shown;
use crate::slack::angle::{ArmTooShort, at_stroke};
use crate::source;
use crate::trig;
use crate::verdict::RuleId;
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("why.geometry"),
    title: word::RULE_WHY_GEOMETRY,
    units: &[],
    limits: word::LIMIT_WHY_GEOMETRY,
    figures: &[],
    sources: &[&source::LEVERAGE],
};

/// Where an arm stands, and how much of a push it turns into moment there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pull {
    /// Between rod and arm.
    pub angle: Angle,
    /// The part of the push that turns the cam.
    pub part: Ratio,
}

/// How an arm pulls at an angle.
///
/// Units: degrees. Errors: none. Source: geometry.
pub fn pull_at(angle: Angle) -> Pull {
    let from_square = Angle::from_degrees(90).checked_sub(angle);
    let sine = from_square.map_or(0, trig::cosine).max(0);
    let part = sine * Ratio::from_percent(100).base() / trig::ONE;
    Pull {
        angle,
        part: Ratio::from_base(part).unwrap_or(Ratio::ZERO),
    }
}

/// How an arm pulls where a stroke brings it from its released angle.
///
/// Units: degrees and lengths. Errors: [`ArmTooShort`] when the arm can't follow.
/// Source: geometry; that it pulls best square is [`source::LEVERAGE`].
pub fn pull_at_stroke(released: Angle, arm: Length, stroke: Length) -> Result<Pull, ArmTooShort> {
    at_stroke(released, arm, stroke).map(pull_at)
}

/// What the help says.
pub fn remark(pull: Pull) -> Remark {
    let nearest = |base, one: i128| shown::quotient(base, one, 0).unwrap_or_default();
    let angle = nearest(pull.angle.base(), Angle::from_degrees(1).base());
    let percent = nearest(pull.part.base(), Ratio::from_percent(1).base());
    Remark::with(
        word::WHY_GEOMETRY,
        [
            ("degrees", Argument::Text(angle)),
            ("percent", Argument::Text(percent)),
        ],
    )
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::cases;
    use crate::shown::{Lean, decimal};
    use crate::unit::Unit;

    #[test]
    fn table() {
        for row in cases(include_str!("geometry.tsv")) {
            let released = row.quantity("released").unwrap().angle().unwrap();
            let length = |name| row.quantity(name).unwrap().length().unwrap();
            let pull = pull_at_stroke(released, length("arm"), length("stroke"));
            let shown = |of: fn(&Pull) -> crate::quantity::Quantity, unit| match &pull {
                Ok(pull) => decimal(of(pull), unit, 1, Lean::Nearest).unwrap().text,
                Err(_) => "-".to_owned(),
            };
            let angle = shown(|pull| pull.angle.into(), Unit::Degree);
            let part = shown(|pull| pull.part.into(), Unit::Percent);
            assert_eq!(angle, row.text("angle"), "{row}");
            assert_eq!(part, row.text("percent"), "{row}");
        }
        assert_eq!(
            remark(pull_at(Angle::from_degrees(90))).word,
            word::WHY_GEOMETRY
        );
    }

    proptest! {
        #[test]
        fn an_arm_pulls_best_square(tenths in 0_i64..1_800) {
            let best = pull_at(Angle::from_degrees(90)).part;
            prop_assert!(pull_at(Angle::from_degree_tenths(tenths)).part <= best);
        }
    }
}
