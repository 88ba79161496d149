//! What may stand under a raised vehicle: the load of the lift, the stands, the jack, the plate.
//!
//! Order of use: [`load`] says what the lift takes off the ground, [`tag`] what one stand gives,
//! [`stand`] judges the stands by the load, [`three`] by the rule of three beside it, [`jack`] the
//! jack. Nothing here says that a vehicle is safe: the maker, the stand's own marks, local code and
//! a qualified person come first.

pub mod load;
pub mod tag;

pub mod stand;
pub mod three;

pub mod jack;
pub mod plate;

use crate::quantity::Mass;
use crate::word::{self, Argument, Remark};
use load::LoadFault;
use tag::CarriesNothing;

/// Why the stands or the jack can't be judged at all.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SupportFault {
    /// No stand was picked.
    NoStands,
    /// One stand alone, or only one that carries.
    OneStand,
    /// One of the stands carries nothing.
    CarriesNothing {
        /// Which one, counted from 1.
        stand: u32,
        /// Why.
        why: CarriesNothing,
    },
    /// Neither the axles nor the unit have a weight: nothing to judge against.
    NoWeight,
    /// A unit of no weight.
    ZeroUnit,
    /// A unit that is lighter than the axles of the lift.
    UnitLighter {
        /// The unit.
        unit: Mass,
        /// Its axles.
        axles: Mass,
    },
    /// A unit that weighs less with its load than without.
    GrossUnderTare {
        /// With its load.
        gross: Mass,
        /// Empty.
        tare: Mass,
    },
}

impl SupportFault {
    /// The stable name of the fault.
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NoStands => "no-stands",
            Self::OneStand => "one-stand",
            Self::CarriesNothing { .. } => "carries-nothing",
            Self::NoWeight => "no-weight",
            Self::ZeroUnit => "zero-unit",
            Self::UnitLighter { .. } => "unit-lighter",
            Self::GrossUnderTare { .. } => "gross-under-tare",
        }
    }

    /// What the screen says, and what to do.
    pub fn remark(&self) -> Remark {
        let mass = |mass: &Mass| Argument::Quantity((*mass).into());
        match self {
            Self::NoStands => Remark::plain(word::SUPPORT_FAULT_NO_STANDS),
            Self::OneStand => Remark::plain(word::SUPPORT_FAULT_ONE_STAND),
            Self::CarriesNothing { stand, why } => Remark::with(
                word::SUPPORT_FAULT_CARRIES_NOTHING,
                [
                    ("stand", Argument::Count(*stand)),
                    ("why", Argument::Word(why.word())),
                ],
            ),
            Self::NoWeight => Remark::plain(word::SUPPORT_FAULT_NO_WEIGHT),
            Self::ZeroUnit => Remark::plain(word::SUPPORT_FAULT_ZERO_UNIT),
            Self::UnitLighter { unit, axles } => Remark::with(
                word::SUPPORT_FAULT_UNIT_LIGHTER,
                [("unit", mass(unit)), ("axles", mass(axles))],
            ),
            Self::GrossUnderTare { gross, tare } => Remark::with(
                word::SUPPORT_FAULT_GROSS_UNDER_TARE,
                [("gross", mass(gross)), ("tare", mass(tare))],
            ),
        }
    }
}

impl LoadFault {
    /// What the screen says, and what to do.
    pub fn remark(&self) -> Remark {
        match self {
            Self::NothingRaised => Remark::plain(word::SUPPORT_FAULT_NOTHING_RAISED),
            Self::ZeroWeight { axle } => Remark::with(
                word::SUPPORT_FAULT_ZERO_WEIGHT,
                [("axle", Argument::Count(u32::from(*axle)))],
            ),
            Self::TooHeavy => Remark::plain(word::SUPPORT_FAULT_TOO_HEAVY),
        }
    }
}
