//! What a torque clamps, in the long form: thread, head and pitch each take their share.
//!
//! Beside the nut factor it shows where a torque goes. The bearing diameter of the nut is an
//! argument: for a flange nut nobody prints it, and the two used with the published table were
//! fitted to it. An estimate like the other one.

use crate::quantity::{Length, Pressure, Ratio, Torque};
use crate::rules::Rule;
use crate::source;
use crate::verdict::RuleId;
use crate::why::force::Force;
use crate::why::thread::{Area, load};
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("why.long-form"),
    title: word::RULE_WHY_LONG_FORM,
    units: &[],
    limits: word::LIMIT_WHY_LONG_FORM,
    figures: &[],
    sources: &[&source::PRELOAD_TABLE],
};

/// A nut on its stud: metric, one friction in the thread and under the nut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Joint {
    /// Over the threads.
    pub diameter: Length,
    /// From crest to crest.
    pub pitch: Length,
    /// The mean diameter on which the nut turns.
    pub bearing: Length,
    /// Friction in the thread and under the nut.
    pub friction: Ratio,
}

const WHOLE: i128 = 1_000_000;
/// π in millionths, and the square root of a number in 10⁻¹² is one in millionths.
const PI: i128 = 3_141_593;

impl Joint {
    /// The pitch diameter: d − 0.6495 P.
    fn pitch_diameter(&self) -> i128 {
        self.diameter.base() - self.pitch.base() * 6_495 / 10_000
    }

    /// What a clamp of one newton takes to turn: 0.16 P + 0.58 d₂ µ + D/2 µ, in nanometres.
    fn arm(&self) -> i128 {
        let friction = self.friction.base();
        let thread = self.pitch_diameter() * 58 * friction / 100 / WHOLE;
        let head = self.bearing.base() * friction / 2 / WHOLE;
        self.pitch.base() * 16 / 100 + thread + head
    }

    /// The torque that gives a clamp; `None` when it doesn't fit.
    ///
    /// Units: any. Errors: none besides. Source: [`source::PRELOAD_TABLE`].
    pub fn torque(&self, clamp: Force) -> Option<Torque> {
        Torque::from_base(clamp.base().checked_mul(self.arm())? / 10_000_000)
    }

    /// The clamp that a torque gives; `None` where nothing takes any.
    pub fn clamp(&self, torque: Torque) -> Option<Force> {
        let scaled = torque.base().checked_mul(10_000_000)?;
        scaled.checked_div(self.arm()).map(Force::from_base)
    }

    /// The clamp at which so much of the yield stress is used up, twist counted in.
    ///
    /// F = ν R A / √(1 + 3 (1.5 d₂/d₀ (P/(π d₂) + 1.155 µ))²).
    /// Errors: `None` when it doesn't fit. Source: [`source::PRELOAD_TABLE`].
    pub fn preload(&self, area: Area, yields: Pressure, used: Ratio) -> Option<Force> {
        let pitch_diameter = self.pitch_diameter();
        let across = self.diameter.base() - self.pitch.base() * 9_382 / 10_000;
        let rise = (self.pitch.base() * WHOLE).checked_mul(WHOLE)?;
        let rise = rise.checked_div(PI.checked_mul(pitch_diameter)?)?;
        let slope = rise + self.friction.base() * 1_155 / 1_000;
        let twist = (slope * 3 * pitch_diameter).checked_div(2 * across)?;
        let root = (WHOLE * WHOLE + 3 * twist * twist).isqrt();
        let pull = load(area, yields)?.times(used)?.base();
        pull.checked_mul(WHOLE)?
            .checked_div(root)
            .map(Force::from_base)
    }
}

/// What the help says: the clamp of one torque at two frictions that the published table prints.
pub fn remark(torque: Torque, slick: &Joint, rough: &Joint) -> Option<Remark> {
    let (more, less) = (slick.clamp(torque)?, rough.clamp(torque)?);
    Some(Remark::with(
        word::WHY_LONG_FORM,
        [
            ("torque", Argument::Quantity(torque.into())),
            ("more-lbf", Argument::Text(more.lbf(0))),
            ("more-kn", Argument::Text(more.kilonewtons(0))),
            ("less-lbf", Argument::Text(less.lbf(0))),
            ("less-kn", Argument::Text(less.kilonewtons(0))),
        ],
    ))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::cases;
    use crate::shown::{Lean, decimal};
    use crate::unit::Unit;
    use crate::why::thread::Class;

    fn joint(of: &str, friction: i64) -> Joint {
        let (diameter, bearing) = match of {
            "M22x1.5" => (2_200, 2_770),
            "M20x1.5" => (2_000, 2_510),
            other => panic!("no joint {other}"),
        };
        Joint {
            diameter: Length::from_mm_hundredths(diameter),
            pitch: Length::from_mm_hundredths(150),
            bearing: Length::from_mm_hundredths(bearing),
            friction: Ratio::from_percent(friction),
        }
    }

    #[test]
    fn table() {
        for row in cases(include_str!("long_form.tsv")) {
            let joint = joint(row.text("thread"), row.count("friction percent").into());
            let area = Area::from_sq_mm(row.count("area mm2").into());
            let ninety = Ratio::from_percent(90);
            let preload = joint
                .preload(area, Class::TenNine.yields(), ninety)
                .unwrap();
            assert_eq!(preload.kilonewtons(1), row.text("kN"), "{row}");
            let clamp = Force::from_newtons(i64::from(row.count("clamp kN")) * 1_000);
            let torque = joint.torque(clamp).unwrap();
            let shown = decimal(torque.into(), Unit::NewtonMetre, 1, Lean::Nearest).unwrap();
            assert_eq!(shown.text, row.text("Nm"), "{row}");
            assert_eq!(
                joint.clamp(torque).unwrap().newtons(0),
                clamp.newtons(0),
                "{row}"
            );
        }
    }

    #[test]
    fn slick_clamps_more_than_rough() {
        let torque = Torque::from_lbf_ft(475);
        let said = remark(torque, &joint("M22x1.5", 10), &joint("M22x1.5", 14)).unwrap();
        let number = |at: usize| match &said.arguments[at].1 {
            Argument::Text(text) => text.parse::<u32>().unwrap(),
            other => panic!("{other:?}"),
        };
        assert!(number(1) > number(3) && number(2) > number(4));
    }

    proptest! {
        #[test]
        fn more_friction_never_clamps_more(a in 5_i64..40, b in 5_i64..40) {
            let clamp = |friction| joint("M22x1.5", friction).clamp(Torque::from_lbf_ft(475));
            prop_assert!(clamp(a.max(b)) <= clamp(a.min(b)));
        }
    }
}
