//! What a torque clamps, by the nut factor: the same torque on dry and on oiled threads.
//!
//! T = K D F. An estimate that may be off by a quarter either way; a torque is never converted
//! from one state to another by it.

use crate::quantity::{Length, Ratio, Torque};
use crate::rules::Rule;
use crate::source;
use crate::verdict::RuleId;
use crate::why::force::Force;
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("why.clamp"),
    title: word::RULE_WHY_CLAMP,
    units: &[],
    limits: word::LIMIT_WHY_CLAMP,
    figures: &[],
    sources: &[
        &source::NUT_FACTORS,
        &source::NUT_FACTOR_TABLES,
        &source::CLAMP_FIGURE,
    ],
};

/// The nut factor printed for oiled threads.
pub const OILED: Ratio = Ratio::from_percent(15);

/// The nut factor printed for clean and dry threads.
pub const DRY: Ratio = Ratio::from_percent(20);

/// 10⁻¹⁶ N·m times this over nanometres and millionths is 10⁻¹⁴ N.
const SCALE: i128 = 10_000_000;

/// The torque that gives a clamp; `None` when it doesn't fit.
///
/// Units: any. Errors: none besides. Source: [`source::NUT_FACTORS`].
pub fn torque(factor: Ratio, diameter: Length, clamp: Force) -> Option<Torque> {
    let whole = Ratio::from_percent(100).base();
    let arm = clamp.base().checked_mul(diameter.base())?;
    let scaled = arm.checked_mul(factor.base())?;
    // Up, so that an exact half of the last printed digit isn't lost in the base.
    Torque::from_base(scaled.checked_add(whole * SCALE - 1)? / (whole * SCALE))
}

/// The clamp that a torque gives; `None` for no factor or no diameter.
pub fn clamp(torque: Torque, factor: Ratio, diameter: Length) -> Option<Force> {
    let whole = Ratio::from_percent(100).base();
    let arm = diameter.base().checked_mul(factor.base())?;
    let scaled = torque.base().checked_mul(SCALE)?.checked_mul(whole)?;
    scaled.checked_div(arm).map(Force::from_base)
}

/// The nut factor behind a torque and a clamp; `None` where there is none.
pub fn factor(torque: Torque, diameter: Length, clamp: Force) -> Option<Ratio> {
    let whole = Ratio::from_percent(100).base();
    let scaled = torque.base().checked_mul(SCALE)?.checked_mul(whole)?;
    let arm = clamp.base().checked_mul(diameter.base())?;
    scaled.checked_div(arm).and_then(Ratio::from_base)
}

/// What the help says: the clamp of one torque, oiled and dry.
pub fn remark(torque: Torque, diameter: Length) -> Option<Remark> {
    let of = |factor| clamp(torque, factor, diameter);
    let (oiled, dry) = (of(OILED)?, of(DRY)?);
    Some(Remark::with(
        word::WHY_CLAMP,
        [
            ("torque", Argument::Quantity(torque.into())),
            ("oiled-lbf", Argument::Text(oiled.lbf(0))),
            ("oiled-kn", Argument::Text(oiled.kilonewtons(0))),
            ("dry-lbf", Argument::Text(dry.lbf(0))),
            ("dry-kn", Argument::Text(dry.kilonewtons(0))),
        ],
    ))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::cases;
    use crate::shown;

    #[test]
    fn a_torque_is_rounded_up_to_its_base() {
        let of = |newtons| {
            let (factor, diameter) = (Ratio::from_base(1).unwrap(), Length::from_base(1).unwrap());
            torque(factor, diameter, Force::from_base(newtons))
                .unwrap()
                .base()
        };
        let one = Ratio::from_percent(100).base() * SCALE;
        assert_eq!([1, one - 1, one, one + 1].map(of), [1, 1, 1, 2]);
    }

    #[test]
    fn table() {
        for row in cases(include_str!("clamp.tsv")) {
            let diameter = row.quantity("diameter").unwrap().length().unwrap();
            let wanted = row.quantity("torque").unwrap().torque().unwrap();
            let percent = row.count("factor percent");
            let factor_of = Ratio::from_percent(percent.into());
            let clamped = clamp(wanted, factor_of, diameter).unwrap();
            assert_eq!(clamped.lbf(0), row.text("lbf"), "{row}");
            let back = torque(factor_of, diameter, clamped).unwrap();
            let off = back.checked_sub(wanted).unwrap().magnitude();
            // Whole numbers of a force far below any that can be felt.
            assert!(off <= Torque::from_base(10_000_000_000).unwrap(), "{row}");
            let behind = factor(wanted, diameter, clamped).unwrap();
            assert_eq!(
                shown::quotient(behind.base(), 10_000, 1),
                Some(percent.to_string())
            );
        }
    }

    #[test]
    fn nothing_to_divide_by_is_nothing() {
        let torque = Torque::from_lbf_ft(475);
        assert_eq!(
            clamp(torque, Ratio::ZERO, Length::from_mm_hundredths(2_200)),
            None
        );
        assert_eq!(clamp(torque, OILED, Length::ZERO), None);
        assert_eq!(factor(torque, Length::ZERO, Force::from_lbf(1)), None);
        assert_eq!(remark(torque, Length::ZERO), None);
        assert!(remark(torque, Length::from_mm_hundredths(2_200)).is_some());
    }

    proptest! {
        #[test]
        fn oil_always_clamps_more(lbf_ft in 1_i64..1_000, hundredths in 1_000_i64..4_000) {
            let of = |factor| clamp(Torque::from_lbf_ft(lbf_ft), factor, Length::from_mm_hundredths(hundredths));
            prop_assert!(of(OILED) > of(DRY));
        }
    }
}
