//! What an instrument shows, its graduation, and how far a typed reading is from it.
//!
//! Everything made up lies on a mark of its instrument, so that who reads well reads exactly.

use rules::quantity::{Angle, Length, Pressure, Quantity, Torque};
use rules::typed::Typed;
use rules::unit::Unit;

/// A kind of instrument; each is drawn in its own way.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Tool {
    /// A rule beside the pushrod, in sixteenths of an inch.
    PushrodRule,
    /// A depth gauge on the lining, in 32nds.
    LiningGauge,
    /// A caliper over a shoe, in 64ths.
    ShoeCaliper,
    /// A dial indicator, in thousandths of an inch.
    Dial,
    /// A feeler gauge, in thousandths.
    Feeler,
    /// An inside or depth micrometer, in thousandths.
    Micrometer,
    /// A drum micrometer, in five thousandths.
    DrumMicrometer,
    /// A torque wrench that shows pound-force feet.
    TorqueFeet,
    /// A torque wrench that shows pound-force inches.
    TorqueInches,
    /// The reservoir's gauge, in five pounds per square inch.
    PressureGauge,
    /// An angle gauge, in degrees.
    AngleGauge,
}

impl Tool {
    /// Every kind.
    pub const ALL: &[Self] = &[
        Self::PushrodRule,
        Self::LiningGauge,
        Self::ShoeCaliper,
        Self::Dial,
        Self::Feeler,
        Self::Micrometer,
        Self::DrumMicrometer,
        Self::TorqueFeet,
        Self::TorqueInches,
        Self::PressureGauge,
        Self::AngleGauge,
    ];

    /// Its stable name, and the end of its word key.
    pub const fn code(self) -> &'static str {
        match self {
            Self::PushrodRule => "pushrod-rule",
            Self::LiningGauge => "lining-gauge",
            Self::ShoeCaliper => "shoe-caliper",
            Self::Dial => "dial",
            Self::Feeler => "feeler",
            Self::Micrometer => "micrometer",
            Self::DrumMicrometer => "drum-micrometer",
            Self::TorqueFeet => "torque-feet",
            Self::TorqueInches => "torque-inches",
            Self::PressureGauge => "pressure-gauge",
            Self::AngleGauge => "angle-gauge",
        }
    }

    /// The distance between two of its marks.
    pub const fn graduation(self) -> Quantity {
        match self {
            Self::PushrodRule => Quantity::Length(Length::from_inch_64ths(4)),
            Self::LiningGauge => Quantity::Length(Length::from_inch_64ths(2)),
            Self::ShoeCaliper => Quantity::Length(Length::from_inch_64ths(1)),
            Self::Dial | Self::Feeler | Self::Micrometer => {
                Quantity::Length(Length::from_inch_thousandths(1))
            }
            Self::DrumMicrometer => Quantity::Length(Length::from_inch_thousandths(5)),
            Self::TorqueFeet => Quantity::Torque(Torque::from_lbf_ft(1)),
            Self::TorqueInches => Quantity::Torque(Torque::from_lbf_in(1)),
            Self::PressureGauge => Quantity::Pressure(Pressure::from_psi(5)),
            Self::AngleGauge => Quantity::Angle(Angle::from_degrees(1)),
        }
    }

    /// The unit of its scale.
    pub const fn unit(self) -> Unit {
        match self {
            Self::PushrodRule
            | Self::LiningGauge
            | Self::ShoeCaliper
            | Self::Dial
            | Self::Feeler
            | Self::Micrometer
            | Self::DrumMicrometer => Unit::Inch,
            Self::TorqueFeet => Unit::PoundForceFoot,
            Self::TorqueInches => Unit::PoundForceInch,
            Self::PressureGauge => Unit::Psi,
            Self::AngleGauge => Unit::Degree,
        }
    }

    /// This instrument at the mark of a quantity; `None` where no mark of it stands for that.
    pub fn showing(self, quantity: Quantity) -> Option<Instrument> {
        let mark = self.graduation();
        let on_a_mark =
            quantity.dimension() == mark.dimension() && quantity.base() % mark.base().max(1) == 0;
        let marks = i64::try_from(quantity.base() / mark.base().max(1)).ok()?;
        on_a_mark.then(|| self.at(marks))
    }

    /// This instrument showing its `marks`-th mark.
    pub const fn at(self, marks: i64) -> Instrument {
        Instrument { tool: self, marks }
    }
}

/// An instrument and the mark that it stands at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Instrument {
    tool: Tool,
    marks: i64,
}

/// How a typed reading lies to what the instrument shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Read {
    /// On the mark, or nearer to it than to the next one.
    Right,
    /// Off by so much, below nought where too little was read.
    Off {
        /// What was read over what is shown.
        by: Quantity,
        /// The same in marks of the instrument, rounded to the nearer.
        marks: i64,
    },
    /// It measures something else.
    OtherKind,
}

impl Instrument {
    /// What kind it is.
    pub const fn tool(&self) -> Tool {
        self.tool
    }

    /// At which mark it stands, counted from nought.
    pub const fn marks(&self) -> i64 {
        self.marks
    }

    /// What it shows, exactly: so many graduations.
    pub fn shows(&self) -> Quantity {
        let graduation = self.tool.graduation();
        let base = graduation.base().saturating_mul(i128::from(self.marks));
        // Only a scale longer than any that is made doesn't fit.
        Quantity::from_base(graduation.dimension(), base).unwrap_or(graduation)
    }

    /// Holds a typed reading against what is shown, by the graduation.
    pub fn read(&self, typed: &Typed) -> Read {
        let Some(by) = typed.quantity().checked_sub(self.shows()) else {
            return Read::OtherKind;
        };
        let (off, mark) = (by.base(), self.tool.graduation().base());
        if off.abs() * 2 < mark {
            return Read::Right;
        }
        let rounded = (off.abs() * 2 + mark) / (mark * 2) * off.signum();
        Read::Off {
            by,
            marks: i64::try_from(rounded).unwrap_or(i64::MAX),
        }
    }
}

impl Tool {
    /// How many half graduations a reading is off, to the nearer, below nought where too little was
    /// read: a reader says "half a graduation".
    pub fn halves(self, by: Quantity) -> i64 {
        let (off, mark) = (by.base(), self.graduation().base().max(1));
        let halves = (off.abs() * 4 + mark) / (mark * 2) * off.signum();
        i64::try_from(halves).unwrap_or(i64::MAX)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn typed(text: &str, unit: Unit) -> Typed {
        Typed::parse(text, unit).unwrap()
    }

    #[test]
    fn a_reading_is_right_nearer_to_its_mark_than_to_the_next() {
        let rule = Tool::PushrodRule.at(30); // 1 7/8 in
        for text in ["1 7/8", "1.875", "1.9", "1 57/64"] {
            assert_eq!(rule.read(&typed(text, Unit::Inch)), Read::Right, "{text}");
        }
        assert_eq!(rule.read(&typed("47.6", Unit::Millimetre)), Read::Right);
        let off = |text| {
            let Read::Off { marks, .. } = rule.read(&typed(text, Unit::Inch)) else {
                panic!("{text} is read as right");
            };
            marks
        };
        // Half a mark off is as near to the next one: it isn't a reading to the graduation.
        assert_eq!([off("1 29/32"), off("1 15/16"), off("1 3/4")], [1, 1, -2]);
        assert_eq!(rule.read(&typed("2", Unit::Pound)), Read::OtherKind);
        let weight = typed("2", Unit::Pound).quantity();
        assert_eq!(Tool::PushrodRule.showing(weight), None);
    }

    #[test]
    fn an_error_is_told_in_half_graduations() {
        let rule = Tool::PushrodRule;
        let by = |n| Quantity::Length(Length::from_inch_64ths(n));
        let halves = [2, -2, 3, 4, 5, 8, -10].map(|n| rule.halves(by(n)));
        assert_eq!(halves, [1, -1, 2, 2, 3, 4, -5]);
    }

    #[test]
    fn every_tool_shows_its_marks() {
        for tool in Tool::ALL {
            assert_eq!(tool.graduation().dimension(), tool.unit().dimension());
            let at = tool.at(7);
            assert_eq!(at.shows().base(), tool.graduation().base() * 7);
            assert_eq!(at.marks(), 7);
            assert_eq!(tool.showing(at.shows()), Some(at));
            let between = Quantity::from_base(at.shows().dimension(), at.shows().base() + 1);
            assert_eq!(tool.showing(between.unwrap()), None);
        }
    }
}
