//! What a chamber pushes, what its arm makes of it, and what that comes to at the tyre.
//!
//! The number of a clamp chamber is its effective area in square inches. An estimate: springs,
//! friction and the fall-off near the end of the stroke are left out.

use std::cmp::Ordering;

use crate::quantity::{Length, Pressure, Ratio, Torque};
use crate::rules::Rule;
use crate::shown;
use crate::slack::chamber::{ChamberType, Family};
use crate::source;
use crate::verdict::RuleId;
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("why.force"),
    title: word::RULE_WHY_FORCE,
    units: &[],
    limits: word::LIMIT_WHY_FORCE,
    figures: &[],
    sources: &[
        &source::CHAMBER_AREAS,
        &source::FORCE_EXAMPLE,
        &source::ARM_TIMES_AREA,
        &source::LINKLESS_ADJUSTER,
        &source::BRAKE_FORCE_SHEET,
    ],
};

/// A force in whole 10⁻¹⁴ N: a pound-force is exactly 444 822 161 526 050 of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Force(i128);

const POUND_FORCE: i128 = 444_822_161_526_050;
const NEWTON: i128 = 100_000_000_000_000;

impl Force {
    /// Whole pounds-force.
    pub const fn from_lbf(n: i64) -> Self {
        Self(n as i128 * POUND_FORCE)
    }

    /// Whole newtons.
    pub const fn from_newtons(n: i64) -> Self {
        Self(n as i128 * NEWTON)
    }

    /// From a whole number of the base.
    pub const fn from_base(base: i128) -> Self {
        Self(base)
    }

    /// Whole number of the base.
    pub const fn base(self) -> i128 {
        self.0
    }

    /// In pounds-force, to the nearest at so many decimals.
    pub fn lbf(self, places: u8) -> String {
        shown::quotient(self.0, POUND_FORCE, places).unwrap_or_default()
    }

    /// In newtons, to the nearest at so many decimals.
    pub fn newtons(self, places: u8) -> String {
        shown::quotient(self.0, NEWTON, places).unwrap_or_default()
    }

    /// In kilonewtons, to the nearest at so many decimals.
    pub fn kilonewtons(self, places: u8) -> String {
        shown::quotient(self.0, NEWTON * 1_000, places).unwrap_or_default()
    }

    /// A part of it.
    pub fn times(self, part: Ratio) -> Option<Self> {
        let whole = Ratio::from_percent(100).base();
        Some(Self(self.0.checked_mul(part.base())? / whole))
    }
}

/// The effective area of a chamber in square inches; `None` where its name doesn't say it.
///
/// Source: [`source::CHAMBER_AREAS`].
pub fn area_sq_in(of: &ChamberType) -> Option<u32> {
    match of.family {
        Family::Clamp | Family::Dd3 => of.name.parse().ok(),
        Family::Bolt | Family::Rotochamber => None,
    }
}

/// What a pushrod pushes: area times pressure.
///
/// Units: square inches, any pressure. Errors: none. Source: [`source::FORCE_EXAMPLE`].
pub fn pushrod_force(area_sq_in: u32, pressure: Pressure) -> Force {
    // A square inch times the base of a pressure is the base of a force.
    Force(i128::from(area_sq_in) * pressure.base())
}

/// What an arm makes of a force that pulls square to it; `None` when it doesn't fit.
pub fn moment(force: Force, arm: Length) -> Option<Torque> {
    let base = force.0.checked_mul(arm.base())? / 10_000_000;
    Torque::from_base(base)
}

/// Area times arm: what compares two brakes at one pressure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct AreaTimesArm {
    /// The area in square inches.
    pub area_sq_in: u32,
    /// The arm.
    pub arm: Length,
}

const INCH: i128 = 25_400_000;

/// The most that the maker of one linkless adjuster lets it be retrofitted to, in square inches
/// times inches. Source: [`source::LINKLESS_ADJUSTER`].
const CEILING: i128 = 195;

impl AreaTimesArm {
    fn base(self) -> i128 {
        i128::from(self.area_sq_in) * self.arm.base()
    }

    /// In square inches times inches, to the nearest at so many decimals.
    pub fn shown(self, places: u8) -> String {
        shown::quotient(self.base(), INCH, places).unwrap_or_default()
    }

    /// How it stands to the ceiling that the maker of one linkless adjuster prints.
    pub fn to_the_ceiling(self) -> Ordering {
        self.base().cmp(&(CEILING * INCH))
    }

    /// What it makes of a pressure; `None` when it doesn't fit.
    pub fn at(self, pressure: Pressure) -> Option<Torque> {
        moment(pushrod_force(self.area_sq_in, pressure), self.arm)
    }
}

/// What decides the force at the tyre beside the pushrod.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wheel {
    /// The arm of the adjuster.
    pub arm: Length,
    /// Friction of the lining on the drum.
    pub friction: Ratio,
    /// Radius of the drum.
    pub drum: Length,
    /// Rolling radius of the tyre.
    pub tyre: Length,
}

/// What an S-cam brake comes to at the tyre, by a crash worksheet: two shoes, six tenths of the
/// force left over, and a cam that works on half an inch.
///
/// Units: lengths, a ratio. Errors: `None` when it doesn't fit or the tyre has no radius.
/// Source: [`source::BRAKE_FORCE_SHEET`].
pub fn at_the_tyre(pushrod: Force, wheel: &Wheel) -> Option<Force> {
    const CAM: i128 = 12_700_000;
    let at_the_shoe = pushrod.0.checked_mul(wheel.arm.base())? / CAM;
    let rubbed = Force(at_the_shoe).times(wheel.friction)?.0;
    let both = rubbed.checked_mul(2 * 6)? / 10;
    both.checked_mul(wheel.drum.base())?
        .checked_div(wheel.tyre.base())
        .map(Force)
}

/// What the help says: the push of a chamber at a pressure and what its arm makes of it.
pub fn remark(product: AreaTimesArm, pressure: Pressure) -> Option<Remark> {
    let force = pushrod_force(product.area_sq_in, pressure);
    let moment = moment(force, product.arm)?;
    Some(Remark::with(
        word::WHY_FORCE,
        [
            ("pressure", Argument::Quantity(pressure.into())),
            ("lbf", Argument::Text(force.lbf(0))),
            ("newtons", Argument::Text(force.newtons(0))),
            ("moment", Argument::Quantity(moment.into())),
        ],
    ))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::cases;
    use crate::slack::chamber::TYPES;

    #[test]
    fn table() {
        for row in cases(include_str!("force.tsv")) {
            let area = row.count("area");
            let pressure = row.quantity("pressure").unwrap().pressure().unwrap();
            let force = pushrod_force(area, pressure);
            assert_eq!(force.lbf(0), row.text("lbf"), "{row}");
            assert_eq!(force.newtons(0), row.text("newtons"), "{row}");
            let arm = row.quantity("arm").unwrap().length().unwrap();
            let product = AreaTimesArm {
                area_sq_in: area,
                arm,
            };
            assert_eq!(product.shown(2), row.text("area times arm"), "{row}");
            let against = match product.to_the_ceiling() {
                Ordering::Less => "under",
                Ordering::Equal => "at it",
                Ordering::Greater => "over",
            };
            assert_eq!(against, row.text("ceiling"), "{row}");
            let moment = product.at(pressure).unwrap();
            let shown = shown::quotient(moment.base(), Torque::from_lbf_in(1).base(), 0);
            assert_eq!(shown.as_deref(), Some(row.text("lbf-in")), "{row}");
        }
    }

    #[test]
    fn names_that_are_areas() {
        let areas: Vec<u32> = TYPES.iter().filter_map(area_sq_in).collect();
        assert_eq!(areas, [6, 9, 12, 16, 20, 24, 30, 36, 30]);
    }

    #[test]
    fn at_the_tyre_goes_by_arm_friction_and_both_radii() {
        // An arm of two half inches doubles the push, half of it rubs, two shoes of six tenths, and
        // a drum of half the tyre's radius.
        let wheel = Wheel {
            arm: Length::from_inch_64ths(64),
            friction: Ratio::from_percent(50),
            drum: Length::from_inch_64ths(8 * 64),
            tyre: Length::from_inch_64ths(16 * 64),
        };
        let push = Force::from_lbf(1_000);
        assert_eq!(at_the_tyre(push, &wheel).unwrap().lbf(0), "600");
    }

    #[test]
    fn what_does_not_fit_is_nothing() {
        let wheel = Wheel {
            arm: Length::from_inch_64ths(352),
            friction: Ratio::from_percent(35),
            drum: Length::from_inch_64ths(528),
            tyre: Length::ZERO,
        };
        assert_eq!(at_the_tyre(Force::from_lbf(3_000), &wheel), None);
        assert_eq!(moment(Force::from_base(i128::MAX), wheel.arm), None);
    }

    #[test]
    fn the_help_shows_both_units() {
        let arm = Length::from_inch_64ths(352);
        let force = Force::from_lbf(3_000);
        let product = AreaTimesArm {
            area_sq_in: 30,
            arm,
        };
        let said = remark(product, Pressure::from_psi(100)).unwrap();
        assert_eq!(said.arguments[1].1, Argument::Text(force.lbf(0)));
        assert_eq!(said.arguments[2].1, Argument::Text("13345".to_owned()));
        let moment = moment(force, arm).unwrap();
        assert_eq!(said.arguments[3].1, Argument::Quantity(moment.into()));
    }

    proptest! {
        #[test]
        fn more_air_never_pushes_less(area in 1_u32..60, a in 0_i64..150, b in 0_i64..150) {
            let force = |n| pushrod_force(area, Pressure::from_psi(n));
            prop_assert!(force(a.min(b)) <= force(a.max(b)));
        }
    }
}
