//! The angle between pushrod and arm: as set up, and where the stroke brings it.
//!
//! An arm pulls best square to its rod, so it is set past square and comes square when applied.
//! Windows by arm are printed for linkless adjusters only; for the rest the printed rule is "over
//! 90 degrees released". The rod is taken to move along its own line.

use crate::quantity::{Angle, Length, Quantity};
use crate::rules::{self, Figure, Rule};
use crate::slack::mechanism::Mechanism;
use crate::source::{self, Source};
use crate::trig;
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId};
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("slack.angle"),
    title: word::RULE_SLACK_ANGLE,
    units: &[Unit::Degree],
    limits: word::LIMIT_SLACK_ANGLE,
    figures: FIGURES,
    sources: &[
        &source::ANGLES_BY_ARM,
        &source::ANGLE_RELEASED,
        &source::SASKATCHEWAN,
    ],
};

const FIGURES: &[Figure] = &[
    least("linkless 5 in least", 99, &source::ANGLES_BY_ARM),
    most("linkless 5 in most", 113, &source::ANGLES_BY_ARM),
    least("linkless 5.5 in least", 98, &source::ANGLES_BY_ARM),
    most("linkless 5.5 in most", 111, &source::ANGLES_BY_ARM),
    least("linkless 6 in least", 90, &source::ANGLES_BY_ARM),
    most("linkless 6 in most", 109, &source::ANGLES_BY_ARM),
    // "Over 90": exactly 90 is said to be at the limit.
    least(RELEASED, 90, &source::ANGLE_RELEASED),
];

const RELEASED: &str = "released";

const fn least(name: &'static str, degrees: i64, source: &'static Source) -> Figure {
    Figure {
        name,
        limit: Limit::at_least(whole(degrees), source),
    }
}

const fn most(name: &'static str, degrees: i64, source: &'static Source) -> Figure {
    Figure {
        name,
        limit: Limit::at_most(whole(degrees), source),
    }
}

const fn whole(degrees: i64) -> Quantity {
    Quantity::Angle(Angle::from_degrees(degrees))
}

/// Judges the released angle between pushrod and arm.
///
/// Units: degrees; compared exactly. Room is the distance to the nearer end.
/// Errors: none. Source: [`source::ANGLES_BY_ARM`] for a linkless adjuster whose arm it lists,
/// [`source::ANGLE_RELEASED`] for every other.
pub fn judge_angle(released: Angle, mechanism: Mechanism, arm: Length) -> Judgement {
    judge_angle_by(FIGURES, released, mechanism, arm)
}

fn judge_angle_by(
    figures: &[Figure],
    released: Angle,
    mechanism: Mechanism,
    arm: Length,
) -> Judgement {
    let own: &[&str] = match (mechanism, arm.base()) {
        (Mechanism::Linkless, 127_000_000) => &["linkless 5 in least", "linkless 5 in most"],
        (Mechanism::Linkless, 139_700_000) => &["linkless 5.5 in least", "linkless 5.5 in most"],
        (Mechanism::Linkless, 152_400_000) => &["linkless 6 in least", "linkless 6 in most"],
        _ => &[RELEASED],
    };
    let limits: Vec<Limit> = own
        .iter()
        .filter_map(|name| rules::named(figures, name))
        .collect();
    Judgement::of(RULE.id, released.into(), &limits, &source::ANGLE_RELEASED)
}

/// Why a stroke and an arm give no angle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ArmTooShort;

impl ArmTooShort {
    /// What the screen says.
    pub const fn remark(self) -> Remark {
        Remark::plain(word::SLACK_REMARK_ANGLE_PAST)
    }
}

/// The angle to which a stroke brings an arm that stood at `released`.
///
/// Units: degrees and lengths. The cosine grows by stroke over arm.
/// Errors: [`ArmTooShort`] when the arm can't follow.
/// Source: geometry.
pub fn at_stroke(released: Angle, arm: Length, stroke: Length) -> Result<Angle, ArmTooShort> {
    let share = over(stroke, arm).ok_or(ArmTooShort)?;
    trig::angle_of_cosine(trig::cosine(released) + share).ok_or(ArmTooShort)
}

/// The released angle from which a stroke brings the arm square to its rod.
///
/// Units: degrees and lengths. Errors: [`ArmTooShort`]. Source: geometry.
pub fn to_come_square(arm: Length, stroke: Length) -> Result<Angle, ArmTooShort> {
    let share = over(stroke, arm).ok_or(ArmTooShort)?;
    trig::angle_of_cosine(-share).ok_or(ArmTooShort)
}

/// Stroke over arm, in whole 10⁻¹².
fn over(stroke: Length, arm: Length) -> Option<i128> {
    (arm > Length::ZERO).then(|| stroke.base() * trig::ONE / arm.base())
}

/// What to say of the angle at a stroke: under square the arm loses force the faster it closes.
pub fn remark_at_stroke(angle: Angle) -> Remark {
    let argument = [("angle", Argument::Quantity(angle.into()))];
    if angle < Angle::from_degrees(90) {
        return Remark::with(word::SLACK_REMARK_ANGLE_UNDER_90, argument);
    }
    Remark::with(word::SLACK_REMARK_ANGLE_AT_STROKE, argument)
}

/// What to say of the angle to set.
pub fn remark_to_set(angle: Angle) -> Remark {
    Remark::with(
        word::SLACK_REMARK_ANGLE_SET_UP,
        [("angle", Argument::Quantity(angle.into()))],
    )
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases};
    use crate::nudge::Outcome;

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let outcome = |row: Row<'_>| {
            let angle = row.quantity("released").unwrap().angle().unwrap();
            let arm = row.quantity("arm").unwrap().length().unwrap();
            let mechanism = Mechanism::from_code(row.text("mechanism")).unwrap();
            let judged = judge_angle_by(figures, angle, mechanism, arm);
            let got = format!("{row}{} of {}", judged.verdict.code(), judged.limits.len());
            (
                got,
                format!("{row}{} of {}", row.text("verdict"), row.text("limits")),
            )
        };
        cases(include_str!("angle.tsv"))
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

    fn tenths(angle: Angle) -> i128 {
        (angle.base() + 50_000) / 100_000
    }

    #[test]
    fn a_stroke_closes_the_angle() {
        let inch = |n: i64| Length::from_inch_64ths(n * 32);
        let degrees = Angle::from_degrees;
        // Two inches on a six inch arm: from 109.5 degrees to square.
        assert_eq!(tenths(to_come_square(inch(12), inch(4)).unwrap()), 1_095);
        assert_eq!(
            at_stroke(degrees(90), inch(12), Length::ZERO),
            Ok(degrees(90))
        );
        assert_eq!(
            tenths(at_stroke(degrees(105), inch(11), inch(3)).unwrap()),
            892
        );
        assert_eq!(at_stroke(degrees(120), inch(10), inch(5)), Ok(degrees(90)));
        assert_eq!(at_stroke(degrees(90), inch(2), inch(4)), Err(ArmTooShort));
        assert_eq!(
            at_stroke(degrees(90), Length::ZERO, inch(4)),
            Err(ArmTooShort)
        );
        assert_eq!(to_come_square(inch(2), inch(4)), Err(ArmTooShort));
        assert_eq!(ArmTooShort.remark().word, word::SLACK_REMARK_ANGLE_PAST);
    }

    #[test]
    fn under_square_is_said() {
        let said = |tenths| remark_at_stroke(Angle::from_degree_tenths(tenths)).word;
        assert_eq!(said(899), word::SLACK_REMARK_ANGLE_UNDER_90);
        assert_eq!(said(900), word::SLACK_REMARK_ANGLE_AT_STROKE);
        assert_eq!(
            remark_to_set(Angle::from_degrees(105)).word,
            word::SLACK_REMARK_ANGLE_SET_UP
        );
    }

    proptest! {
        #[test]
        fn setting_up_to_come_square_comes_square(arm in 300_i64..420, stroke in 1_i64..180) {
            let (arm, stroke) = (Length::from_inch_64ths(arm), Length::from_inch_64ths(stroke));
            let released = to_come_square(arm, stroke).unwrap();
            let applied = at_stroke(released, arm, stroke).unwrap();
            prop_assert!((applied.base() - 90_000_000).abs() <= 2);
        }
    }
}
