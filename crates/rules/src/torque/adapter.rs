//! What to set on a torque wrench that carries an adapter.
//!
//! Only what the adapter adds along the wrench counts: straight out it adds its length, backwards it
//! takes it away, at right angles it changes nothing. A straight extension bar in the drive's own
//! line changes nothing either, and is no adapter here. Nothing is judged: the setting is then held
//! against the wrench's range.

use crate::quantity::{Angle, Length, Torque};
use crate::rules::Rule;
use crate::source;
use crate::trig;
use crate::unit::Unit;
use crate::verdict::RuleId;
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("torque.adapter"),
    title: word::RULE_TORQUE_ADAPTER,
    units: &[
        Unit::Inch,
        Unit::Millimetre,
        Unit::Degree,
        Unit::PoundForceFoot,
        Unit::NewtonMetre,
    ],
    limits: word::LIMIT_TORQUE_ADAPTER,
    figures: &[],
    sources: &[&source::ADAPTER_FORMULA],
};

/// A wrench with its adapter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Adapted {
    /// From the middle of the grip to the middle of the drive.
    pub wrench: Length,
    /// From the middle of the drive to the middle of the fastener.
    pub adapter: Length,
    /// Between the wrench and the adapter: nothing straight out, 180 degrees straight back.
    pub angle: Angle,
}

/// Why there is nothing to set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AdapterFault {
    /// A wrench of no length.
    NoLength,
    /// The adapter takes back all of the wrench's length.
    TooShort,
    /// Lengths or torques beyond any wrench.
    TooLarge,
}

impl AdapterFault {
    /// What the screen says.
    pub const fn remark(self) -> Remark {
        Remark::plain(match self {
            Self::NoLength => word::TORQUE_ADAPTER_FAULT_NO_LENGTH,
            Self::TooShort => word::TORQUE_ADAPTER_FAULT_TOO_SHORT,
            Self::TooLarge => word::TORQUE_ADAPTER_FAULT_TOO_LARGE,
        })
    }
}

impl Adapted {
    /// What to say of an adapter at right angles: it changes nothing.
    pub fn remark(&self) -> Option<Remark> {
        let sideways = trig::cosine(self.angle) == 0;
        sideways.then(|| Remark::plain(word::TORQUE_ADAPTER_SIDEWAYS))
    }

    /// From the middle of the grip to the fastener along the wrench, in whole nanometres.
    fn effective(&self) -> Result<i128, AdapterFault> {
        if self.wrench <= Length::ZERO || self.adapter < Length::ZERO {
            return Err(AdapterFault::NoLength);
        }
        if self.wrench > LONGEST || self.adapter > LONGEST {
            return Err(AdapterFault::TooLarge);
        }
        let along = nearest(self.adapter.base() * trig::cosine(self.angle), trig::ONE);
        let effective = self.wrench.base() + along;
        if effective > 0 {
            Ok(effective)
        } else {
            Err(AdapterFault::TooShort)
        }
    }
}

/// Longer than any wrench, and short enough for exact products.
const LONGEST: Length = Length::from_mm_hundredths(1_000_000);

/// What to set so that the fastener gets `target`.
///
/// Units: any torque and length; rounded to the nearest 10⁻¹⁶ N·m.
/// Errors: [`AdapterFault`]. Source: [`source::ADAPTER_FORMULA`].
pub fn setting(target: Torque, adapted: &Adapted) -> Result<Torque, AdapterFault> {
    scaled(target, adapted.wrench.base(), adapted.effective()?)
}

/// What the fastener gets when the wrench clicks at `set`.
///
/// Units, errors and source as for [`setting`].
pub fn at_fastener(set: Torque, adapted: &Adapted) -> Result<Torque, AdapterFault> {
    scaled(set, adapted.effective()?, adapted.wrench.base())
}

fn scaled(torque: Torque, over: i128, under: i128) -> Result<Torque, AdapterFault> {
    let product = torque
        .base()
        .checked_mul(over)
        .ok_or(AdapterFault::TooLarge)?;
    Torque::from_base(nearest(product, under)).ok_or(AdapterFault::TooLarge)
}

/// A quotient rounded to the nearest whole number, halves up; `under` is above zero.
fn nearest(over: i128, under: i128) -> i128 {
    (over.saturating_mul(2) + under).div_euclid(under * 2)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::cases;
    use crate::shown::{Lean, decimal};

    #[test]
    fn table() {
        for row in cases(include_str!("adapter.tsv")) {
            let length = |name| row.quantity(name).unwrap().length().unwrap();
            let typed = row.typed("torque").unwrap();
            let torque = typed.quantity().torque().unwrap();
            let adapted = Adapted {
                wrench: length("wrench"),
                adapter: length("adapter"),
                angle: row.quantity("angle").unwrap().angle().unwrap(),
            };
            let got = match row.text("what") {
                "set" => setting(torque, &adapted),
                _ => at_fastener(torque, &adapted),
            };
            let shown = match got {
                Ok(torque) => {
                    decimal(torque.into(), typed.unit(), 2, Lean::Nearest)
                        .unwrap()
                        .text
                }
                Err(fault) => format!("{fault:?}"),
            };
            assert_eq!(shown, row.text("got"), "{row}");
        }
    }

    #[test]
    fn sideways_and_faults_are_said() {
        let at = |degrees| Adapted {
            wrench: Length::from_inch_64ths(640),
            adapter: Length::from_inch_64ths(64),
            angle: Angle::from_degrees(degrees),
        };
        let sideways = Some(Remark::plain(word::TORQUE_ADAPTER_SIDEWAYS));
        assert_eq!(
            [at(90).remark(), at(270).remark()],
            [sideways.clone(), sideways]
        );
        assert_eq!(at(89).remark(), None);
        let keys = [
            AdapterFault::NoLength,
            AdapterFault::TooShort,
            AdapterFault::TooLarge,
        ]
        .map(|fault| fault.remark().word.key());
        assert_eq!(
            keys,
            ["no-length", "too-short", "too-large"]
                .map(|end| format!("torque.adapter.fault.{end}"))
        );
        let most = Torque::from_base(i128::MAX).unwrap();
        assert_eq!(setting(most, &at(0)), Err(AdapterFault::TooLarge));
    }

    proptest! {
        #[test]
        fn what_is_set_arrives(lbf_ft in 1_i64..1_000, wrench in 640_i64..2_560, adapter in 0_i64..600, degrees in 0_i64..360) {
            let adapted = Adapted {
                wrench: Length::from_inch_64ths(wrench),
                adapter: Length::from_inch_64ths(adapter),
                angle: Angle::from_degrees(degrees),
            };
            let target = Torque::from_lbf_ft(lbf_ft);
            let set = setting(target, &adapted).unwrap();
            let arrives = at_fastener(set, &adapted).unwrap();
            // Each way rounds to a whole number once; the way back stretches the first.
            let off = arrives.checked_sub(target).unwrap().magnitude();
            prop_assert!(off.base() <= 2, "{off:?}");
        }

        #[test]
        fn an_adapter_that_adds_lowers_the_setting(lbf_ft in 1_i64..1_000, adapter in 1_i64..600) {
            let straight = |degrees| Adapted {
                wrench: Length::from_inch_64ths(640),
                adapter: Length::from_inch_64ths(adapter),
                angle: Angle::from_degrees(degrees),
            };
            let target = Torque::from_lbf_ft(lbf_ft);
            prop_assert!(setting(target, &straight(0)).unwrap() < target);
            prop_assert_eq!(setting(target, &straight(90)).unwrap(), target);
            prop_assert!(setting(target, &straight(180)).unwrap() > target);
        }
    }
}
