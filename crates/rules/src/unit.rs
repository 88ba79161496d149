//! The units that a person may type in, with their exact size.
//!
//! A unit is stored by its [`Unit::code`]; codes are never renamed. This file never converts a
//! value into another unit for comparing: values compare in their base.

use crate::quantity::Dimension;

/// A unit that a reading can be typed in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Unit {
    /// Inch.
    Inch,
    /// Millimetre.
    Millimetre,
    /// Foot.
    Foot,
    /// Metre.
    Metre,
    /// Statute mile.
    Mile,
    /// Kilometre.
    Kilometre,
    /// Pound.
    Pound,
    /// Kilogram.
    Kilogram,
    /// Short ton of 2 000 lb.
    ShortTon,
    /// Tonne of 1 000 kg.
    Tonne,
    /// "Ton" on a tag that doesn't say which: counted as the smaller, the short ton.
    TonUnmarked,
    /// Pound-force foot.
    PoundForceFoot,
    /// Pound-force inch.
    PoundForceInch,
    /// Newton metre.
    NewtonMetre,
    /// Pound-force per square inch.
    Psi,
    /// Kilopascal.
    Kilopascal,
    /// Bar.
    Bar,
    /// Degree of arc.
    Degree,
    /// Full turn of 360 degrees.
    Turn,
    /// Minute.
    Minute,
    /// Day of 24 hours.
    DayLong,
    /// Hundredth part.
    Percent,
}

impl Unit {
    /// Every unit, in the order in which a list shows them.
    pub const ALL: &[Self] = &[
        Self::Inch,
        Self::Millimetre,
        Self::Foot,
        Self::Metre,
        Self::Mile,
        Self::Kilometre,
        Self::Pound,
        Self::Kilogram,
        Self::ShortTon,
        Self::Tonne,
        Self::TonUnmarked,
        Self::PoundForceFoot,
        Self::PoundForceInch,
        Self::NewtonMetre,
        Self::Psi,
        Self::Kilopascal,
        Self::Bar,
        Self::Degree,
        Self::Turn,
        Self::Minute,
        Self::DayLong,
        Self::Percent,
    ];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Inch => "in",
            Self::Millimetre => "mm",
            Self::Foot => "ft",
            Self::Metre => "m",
            Self::Mile => "mi",
            Self::Kilometre => "km",
            Self::Pound => "lb",
            Self::Kilogram => "kg",
            Self::ShortTon => "short-ton",
            Self::Tonne => "t",
            Self::TonUnmarked => "ton",
            Self::PoundForceFoot => "lbf-ft",
            Self::PoundForceInch => "lbf-in",
            Self::NewtonMetre => "Nm",
            Self::Psi => "psi",
            Self::Kilopascal => "kPa",
            Self::Bar => "bar",
            Self::Degree => "deg",
            Self::Turn => "turn",
            Self::Minute => "min",
            Self::DayLong => "d",
            Self::Percent => "pct",
        }
    }

    /// The unit of a stored name; `None` for a name that no version ever wrote.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|unit| unit.code() == code)
    }

    /// What it measures.
    pub const fn dimension(self) -> Dimension {
        match self {
            Self::Inch
            | Self::Millimetre
            | Self::Foot
            | Self::Metre
            | Self::Mile
            | Self::Kilometre => Dimension::Length,
            Self::Pound | Self::Kilogram | Self::ShortTon | Self::Tonne | Self::TonUnmarked => {
                Dimension::Mass
            }
            Self::PoundForceFoot | Self::PoundForceInch | Self::NewtonMetre => Dimension::Torque,
            Self::Psi | Self::Kilopascal | Self::Bar => Dimension::Pressure,
            Self::Degree | Self::Turn => Dimension::Angle,
            Self::Minute | Self::DayLong => Dimension::Duration,
            Self::Percent => Dimension::Ratio,
        }
    }

    /// Its exact size in the base of its dimension.
    pub const fn in_base(self) -> i128 {
        match self {
            Self::Inch => 25_400_000,
            Self::Millimetre => 1_000_000,
            Self::Foot => 12 * 25_400_000,
            Self::Metre => 1_000_000_000,
            Self::Mile => 5_280 * 12 * 25_400_000,
            Self::Kilometre => 1_000_000_000_000,
            Self::Pound => 453_592_370,
            Self::Kilogram => 1_000_000_000,
            Self::ShortTon | Self::TonUnmarked => 2_000 * 453_592_370,
            Self::Tonne => 1_000_000_000_000,
            // 0.3048 m × 4.448 221 615 260 5 N, both exact by definition.
            Self::PoundForceFoot => 3_048 * 44_482_216_152_605 / 10,
            // A twelfth of the foot's, and whole.
            Self::PoundForceInch => 254 * 44_482_216_152_605 / 10,
            Self::NewtonMetre => 10_000_000_000_000_000,
            // 4.448 221 615 260 5 N over (0.0254 m)², in 10⁻⁶/64 516 Pa.
            Self::Psi => 444_822_161_526_050,
            Self::Kilopascal => 64_516_000_000_000,
            Self::Bar => 100 * 64_516_000_000_000,
            Self::Degree => 1_000_000,
            Self::Turn => 360 * 1_000_000,
            Self::Minute => 60,
            Self::DayLong => 86_400,
            Self::Percent => 10_000,
        }
    }

    /// Whether a mark before exactly three last digits could be meant to part thousands.
    ///
    /// Weights, torques, pressures and distances reach thousands; strokes and diameters in inches
    /// or millimetres don't, and tons are written with decimals.
    pub(crate) const fn reaches_thousands(self) -> bool {
        !matches!(
            self,
            Self::Inch
                | Self::Millimetre
                | Self::ShortTon
                | Self::Tonne
                | Self::TonUnmarked
                | Self::Bar
                | Self::Degree
                | Self::Turn
                | Self::Minute
                | Self::DayLong
                | Self::Percent
        )
    }

    /// The unit that it is most easily mistaken for.
    pub const fn mistaken_for(self) -> Option<Self> {
        match self {
            Self::Inch => Some(Self::Millimetre),
            Self::Millimetre => Some(Self::Inch),
            Self::Foot => Some(Self::Metre),
            Self::Metre => Some(Self::Foot),
            Self::Mile => Some(Self::Kilometre),
            Self::Kilometre => Some(Self::Mile),
            Self::Pound => Some(Self::Kilogram),
            Self::Kilogram => Some(Self::Pound),
            Self::PoundForceFoot => Some(Self::NewtonMetre),
            Self::PoundForceInch => Some(Self::PoundForceFoot),
            Self::NewtonMetre => Some(Self::PoundForceFoot),
            Self::Psi => Some(Self::Kilopascal),
            Self::Kilopascal => Some(Self::Psi),
            Self::Bar => Some(Self::Psi),
            Self::ShortTon
            | Self::Tonne
            | Self::TonUnmarked
            | Self::Degree
            | Self::Turn
            | Self::Minute
            | Self::DayLong
            | Self::Percent => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_come_back_and_are_unique() {
        for unit in Unit::ALL {
            assert_eq!(Unit::from_code(unit.code()), Some(*unit));
        }
        assert_eq!(Unit::from_code("stone"), None);
    }

    #[test]
    fn a_unit_is_mistaken_for_another_of_its_kind() {
        let other = |unit: Unit| unit.mistaken_for().filter(|other| *other != unit);
        for unit in Unit::ALL
            .iter()
            .filter(|unit| unit.mistaken_for().is_some())
        {
            assert_eq!(
                other(*unit).map(Unit::dimension),
                Some(unit.dimension()),
                "{unit:?}"
            );
        }
        assert_eq!(Unit::Inch.mistaken_for(), Some(Unit::Millimetre));
        assert_eq!(Unit::Degree.mistaken_for(), None);
    }
}
