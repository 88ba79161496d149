//! Lengths, masses, torques, pressures and angles as whole numbers of an exact base.
//!
//! Every trade unit is whole in its base, so `<` and `==` never lie and nothing is ever rounded on
//! the way into a comparison. What a person typed is kept elsewhere, see [`crate::typed`]. This
//! file never formats and never parses.

use std::cmp::Ordering;
use std::num::NonZeroU32;

/// What a quantity measures; two quantities compare only when these are equal.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Dimension {
    /// How long: strokes, diameters, distances driven.
    Length,
    /// How heavy: axle weights, ratings.
    Mass,
    /// How hard a fastener is turned.
    Torque,
    /// Air pressure.
    Pressure,
    /// Between a pushrod and its arm, or a wrench and its adapter.
    Angle,
    /// How long something took.
    Duration,
    /// A part of a whole.
    Ratio,
    /// A day of the calendar.
    Day,
}

/// Writes what all quantities share: they differ in the base, the width and the named constructors.
macro_rules! exact {
    ($name:ident, $width:ty, $about:literal) => {
        #[doc = $about]
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name($width);

        impl $name {
            /// None of it.
            pub const ZERO: Self = Self(0);

            /// Whole number of the base.
            pub const fn base(self) -> i128 {
                self.0 as i128
            }

            /// From a whole number of the base; `None` when it doesn't fit.
            pub fn from_base(base: i128) -> Option<Self> {
                <$width>::try_from(base).ok().map(Self)
            }

            /// Sum; `None` when it doesn't fit.
            pub fn checked_add(self, other: Self) -> Option<Self> {
                self.0.checked_add(other.0).map(Self)
            }

            /// Difference, negative when `other` is the larger; `None` when it doesn't fit.
            pub fn checked_sub(self, other: Self) -> Option<Self> {
                self.0.checked_sub(other.0).map(Self)
            }

            /// So many times as much; `None` when it doesn't fit.
            pub fn checked_times(self, times: i64) -> Option<Self> {
                self.base()
                    .checked_mul(i128::from(times))
                    .and_then(Self::from_base)
            }

            /// The larger number without its sign.
            pub fn magnitude(self) -> Self {
                Self(self.0.saturating_abs())
            }
        }
    };
}

exact!(
    Length,
    i64,
    "A length in whole nanometres: 1/64 in and 0.0001 in are exact."
);
exact!(
    Mass,
    i64,
    "A mass in whole micrograms: a pound is exactly 453 592 370 of them."
);
exact!(
    Torque,
    i128,
    "A torque in whole 10⁻¹⁶ N·m: a pound-force foot is exactly 13 558 179 483 314 004 of them."
);
exact!(
    Pressure,
    i128,
    "A pressure in whole 10⁻⁶/64 516 Pa: a pound per square inch is exactly 444 822 161 526 050 of them."
);
exact!(Angle, i64, "An angle in whole millionths of a degree.");

exact!(Duration, i64, "A time span in whole seconds.");
exact!(
    Ratio,
    i64,
    "A part of a whole in whole millionths: a percent is 10 000 of them."
);
exact!(
    Day,
    i64,
    "A day of the calendar, counted from 1 January 1970."
);

impl Length {
    /// Sixty-fourths of an inch (exact: 396 875 nm each).
    pub const fn from_inch_64ths(n: i64) -> Self {
        Self(n * 396_875)
    }

    /// Thousandths of an inch (exact: 25 400 nm each).
    pub const fn from_inch_thousandths(n: i64) -> Self {
        Self(n * 25_400)
    }

    /// Hundredths of a millimetre (exact: 10 000 nm each).
    pub const fn from_mm_hundredths(n: i64) -> Self {
        Self(n * 10_000)
    }

    /// Thousandths of a millimetre (exact: 1 000 nm each).
    pub const fn from_mm_thousandths(n: i64) -> Self {
        Self(n * 1_000)
    }

    /// Whole kilometres.
    pub const fn from_km(n: i64) -> Self {
        Self(n * 1_000_000_000_000)
    }

    /// Whole statute miles (exact: 1 609.344 m each).
    pub const fn from_miles(n: i64) -> Self {
        Self(n * 1_609_344_000_000)
    }
}

impl Mass {
    /// Whole pounds.
    pub const fn from_lb(n: i64) -> Self {
        Self(n * 453_592_370)
    }

    /// Tenths of a pound (exact: 45 359 237 µg each).
    pub const fn from_lb_tenths(n: i64) -> Self {
        Self(n * 45_359_237)
    }

    /// Whole kilograms.
    pub const fn from_kg(n: i64) -> Self {
        Self(n * 1_000_000_000)
    }

    /// Whole short tons of 2 000 lb.
    pub const fn from_short_tons(n: i64) -> Self {
        Self::from_lb(n * 2_000)
    }

    /// Whole tonnes of 1 000 kg.
    pub const fn from_tonnes(n: i64) -> Self {
        Self::from_kg(n * 1_000)
    }
}

impl Torque {
    /// Whole pound-force feet.
    pub const fn from_lbf_ft(n: i64) -> Self {
        Self(n as i128 * 13_558_179_483_314_004)
    }

    /// Whole pound-force inches, a twelfth of a pound-force foot each and exact too.
    pub const fn from_lbf_in(n: i64) -> Self {
        Self(n as i128 * 1_129_848_290_276_167)
    }

    /// Whole newton metres.
    pub const fn from_nm(n: i64) -> Self {
        Self(n as i128 * 10_000_000_000_000_000)
    }
}

impl Pressure {
    /// Whole pounds-force per square inch.
    pub const fn from_psi(n: i64) -> Self {
        Self(n as i128 * 444_822_161_526_050)
    }

    /// Whole kilopascals.
    pub const fn from_kpa(n: i64) -> Self {
        Self(n as i128 * 64_516_000_000_000)
    }
}

impl Angle {
    /// Whole degrees.
    pub const fn from_degrees(n: i64) -> Self {
        Self(n * 1_000_000)
    }

    /// Full turns of 360 degrees.
    pub const fn from_turns(n: i64) -> Self {
        Self::from_degrees(n * 360)
    }

    /// Tenths of a degree.
    pub const fn from_degree_tenths(n: i64) -> Self {
        Self(n * 100_000)
    }
}

impl Duration {
    /// Whole minutes.
    pub const fn from_minutes(n: i64) -> Self {
        Self(n * 60)
    }

    /// Whole days of 24 hours.
    pub const fn from_days(n: i64) -> Self {
        Self(n * 86_400)
    }
}

impl Ratio {
    /// Whole percents.
    pub const fn from_percent(n: i64) -> Self {
        Self(n * 10_000)
    }
}

impl Day {
    /// The day of a date, by the calendar now in use; a month or day out of range counts on.
    pub const fn from_date(year: i64, month: i64, day: i64) -> Self {
        // Years begin in March here, so that the leap day is a year's last.
        let months = year * 12 + month - 3;
        let (year, month) = (months.div_euclid(12), months.rem_euclid(12));
        let of_months = (153 * month + 2) / 5;
        let leaps = year.div_euclid(4) - year.div_euclid(100) + year.div_euclid(400);
        Self(year * 365 + leaps + of_months + day - 1 - 719_468)
    }

    /// So many days later.
    pub const fn plus_days(self, days: i64) -> Self {
        Self(self.0 + days)
    }

    /// A difference of two days as a time span.
    pub fn days_as_duration(self) -> Option<Duration> {
        self.0.checked_mul(86_400).map(Duration)
    }
}

/// Any one of the quantities, for places that carry all of them: typed readings, limits, arguments.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Quantity {
    /// A length.
    Length(Length),
    /// A mass.
    Mass(Mass),
    /// A torque.
    Torque(Torque),
    /// A pressure.
    Pressure(Pressure),
    /// An angle.
    Angle(Angle),
    /// A time span.
    Duration(Duration),
    /// A part of a whole.
    Ratio(Ratio),
    /// A day.
    Day(Day),
}

impl Quantity {
    /// What it measures.
    pub const fn dimension(self) -> Dimension {
        match self {
            Self::Length(_) => Dimension::Length,
            Self::Mass(_) => Dimension::Mass,
            Self::Torque(_) => Dimension::Torque,
            Self::Pressure(_) => Dimension::Pressure,
            Self::Angle(_) => Dimension::Angle,
            Self::Duration(_) => Dimension::Duration,
            Self::Ratio(_) => Dimension::Ratio,
            Self::Day(_) => Dimension::Day,
        }
    }

    /// Whole number of the dimension's base.
    pub const fn base(self) -> i128 {
        match self {
            Self::Length(length) => length.base(),
            Self::Mass(mass) => mass.base(),
            Self::Torque(torque) => torque.base(),
            Self::Pressure(pressure) => pressure.base(),
            Self::Angle(angle) => angle.base(),
            Self::Duration(duration) => duration.base(),
            Self::Ratio(ratio) => ratio.base(),
            Self::Day(day) => day.base(),
        }
    }

    /// From a whole number of the dimension's base; `None` when it doesn't fit.
    pub fn from_base(dimension: Dimension, base: i128) -> Option<Self> {
        match dimension {
            Dimension::Length => Length::from_base(base).map(Self::Length),
            Dimension::Mass => Mass::from_base(base).map(Self::Mass),
            Dimension::Torque => Torque::from_base(base).map(Self::Torque),
            Dimension::Pressure => Pressure::from_base(base).map(Self::Pressure),
            Dimension::Angle => Angle::from_base(base).map(Self::Angle),
            Dimension::Duration => Duration::from_base(base).map(Self::Duration),
            Dimension::Ratio => Ratio::from_base(base).map(Self::Ratio),
            Dimension::Day => Day::from_base(base).map(Self::Day),
        }
    }

    /// Difference, negative when `other` is the larger; `None` across dimensions.
    pub fn checked_sub(self, other: Self) -> Option<Self> {
        if self.dimension() != other.dimension() {
            return None;
        }
        let base = self.base().checked_sub(other.base())?;
        Self::from_base(self.dimension(), base)
    }

    /// Sum; `None` across dimensions.
    pub fn checked_add(self, other: Self) -> Option<Self> {
        if self.dimension() != other.dimension() {
            return None;
        }
        let base = self.base().checked_add(other.base())?;
        Self::from_base(self.dimension(), base)
    }

    /// The length, when it is one.
    pub const fn length(self) -> Option<Length> {
        match self {
            Self::Length(length) => Some(length),
            _ => None,
        }
    }

    /// The mass, when it is one.
    pub const fn mass(self) -> Option<Mass> {
        match self {
            Self::Mass(mass) => Some(mass),
            _ => None,
        }
    }

    /// The torque, when it is one.
    pub const fn torque(self) -> Option<Torque> {
        match self {
            Self::Torque(torque) => Some(torque),
            _ => None,
        }
    }

    /// The pressure, when it is one.
    pub const fn pressure(self) -> Option<Pressure> {
        match self {
            Self::Pressure(pressure) => Some(pressure),
            _ => None,
        }
    }

    /// The angle, when it is one.
    pub const fn angle(self) -> Option<Angle> {
        match self {
            Self::Angle(angle) => Some(angle),
            _ => None,
        }
    }
}

/// Unordered across dimensions: then neither `<` nor `>` holds.
impl PartialOrd for Quantity {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        (self.dimension() == other.dimension()).then(|| self.base().cmp(&other.base()))
    }
}

impl From<Length> for Quantity {
    fn from(length: Length) -> Self {
        Self::Length(length)
    }
}

impl From<Mass> for Quantity {
    fn from(mass: Mass) -> Self {
        Self::Mass(mass)
    }
}

impl From<Torque> for Quantity {
    fn from(torque: Torque) -> Self {
        Self::Torque(torque)
    }
}

impl From<Pressure> for Quantity {
    fn from(pressure: Pressure) -> Self {
        Self::Pressure(pressure)
    }
}

impl From<Angle> for Quantity {
    fn from(angle: Angle) -> Self {
        Self::Angle(angle)
    }
}

impl From<Duration> for Quantity {
    fn from(duration: Duration) -> Self {
        Self::Duration(duration)
    }
}

impl From<Ratio> for Quantity {
    fn from(ratio: Ratio) -> Self {
        Self::Ratio(ratio)
    }
}

impl From<Day> for Quantity {
    fn from(day: Day) -> Self {
        Self::Day(day)
    }
}

/// A mass divided evenly, kept as the division: compared by cross-multiplying, never by rounding.
#[derive(Clone, Copy, Debug)]
pub struct Share {
    whole: Mass,
    parts: NonZeroU32,
}

impl Share {
    /// `whole` over so many parts.
    pub const fn new(whole: Mass, parts: NonZeroU32) -> Self {
        Self { whole, parts }
    }

    /// All of it in one part.
    pub const fn undivided(whole: Mass) -> Self {
        Self {
            whole,
            parts: NonZeroU32::MIN,
        }
    }

    /// What is divided.
    pub const fn whole(self) -> Mass {
        self.whole
    }

    /// Into how many parts.
    pub const fn parts(self) -> u32 {
        self.parts.get()
    }

    /// The part in whole micrograms, rounded up: for what has to be carried.
    pub fn rounded_up(self) -> Mass {
        self.rounded_down_of(self.whole.base() + i128::from(self.parts.get()) - 1)
    }

    /// The part in whole micrograms, rounded down: for what can carry.
    pub fn rounded_down(self) -> Mass {
        self.rounded_down_of(self.whole.base())
    }

    /// What is left of this part when `other` is taken from it, rounded down; negative when short.
    pub fn room_over(self, other: Self) -> Mass {
        let (mine, theirs) = (i128::from(self.parts.get()), i128::from(other.parts.get()));
        let over = self.whole.base() * theirs - other.whole.base() * mine;
        saturating_mass(over.div_euclid(mine * theirs))
    }

    fn rounded_down_of(self, base: i128) -> Mass {
        saturating_mass(base.div_euclid(i128::from(self.parts.get())))
    }
}

/// A quotient of two masses that fit always fits; the ends of the range are there for totality.
fn saturating_mass(base: i128) -> Mass {
    let clamped = base.clamp(i128::from(i64::MIN), i128::from(i64::MAX));
    Mass::from_base(clamped).unwrap_or(Mass::ZERO)
}

impl Ord for Share {
    fn cmp(&self, other: &Self) -> Ordering {
        let mine = self.whole.base() * i128::from(other.parts.get());
        let theirs = other.whole.base() * i128::from(self.parts.get());
        mine.cmp(&theirs)
    }
}

impl PartialOrd for Share {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Share {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Share {}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::unit::Unit;

    #[test]
    fn named_constructors_agree_with_their_units() {
        let base = Unit::in_base;
        assert_eq!(Length::from_inch_64ths(64).base(), base(Unit::Inch));
        assert_eq!(
            Length::from_inch_thousandths(1_000).base(),
            base(Unit::Inch)
        );
        assert_eq!(
            Length::from_mm_hundredths(100).base(),
            base(Unit::Millimetre)
        );
        assert_eq!(Length::from_km(1).base(), base(Unit::Kilometre));
        assert_eq!(Length::from_miles(1).base(), base(Unit::Mile));
        assert_eq!(Mass::from_lb(1).base(), base(Unit::Pound));
        assert_eq!(Mass::from_lb_tenths(10).base(), base(Unit::Pound));
        assert_eq!(Mass::from_kg(1).base(), base(Unit::Kilogram));
        assert_eq!(Mass::from_short_tons(1).base(), base(Unit::ShortTon));
        assert_eq!(Mass::from_tonnes(1).base(), base(Unit::Tonne));
        assert_eq!(Torque::from_lbf_ft(1).base(), base(Unit::PoundForceFoot));
        assert_eq!(Torque::from_lbf_in(1).base(), base(Unit::PoundForceInch));
        assert_eq!(Torque::from_lbf_in(12), Torque::from_lbf_ft(1));
        assert_eq!(Torque::from_nm(1).base(), base(Unit::NewtonMetre));
        assert_eq!(Pressure::from_psi(1).base(), base(Unit::Psi));
        assert_eq!(Pressure::from_kpa(1).base(), base(Unit::Kilopascal));
        assert_eq!(Angle::from_degrees(1).base(), base(Unit::Degree));
        assert_eq!(Angle::from_turns(1).base(), base(Unit::Turn));
        assert_eq!(
            Length::from_mm_thousandths(1_000).base(),
            base(Unit::Millimetre)
        );
        assert_eq!(Angle::from_degree_tenths(10), Angle::from_degrees(1));
        assert_eq!(Duration::from_minutes(1).base(), base(Unit::Minute));
        assert_eq!(Duration::from_days(1).base(), base(Unit::DayLong));
        assert_eq!(Ratio::from_percent(1).base(), base(Unit::Percent));
    }

    #[test]
    fn days_of_the_calendar() {
        assert_eq!(Day::from_date(1970, 1, 1).base(), 0);
        assert_eq!(Day::from_date(1969, 12, 31).base(), -1);
        assert_eq!(Day::from_date(2000, 2, 29).base(), 11_016);
        assert_eq!(Day::from_date(2000, 3, 1).base(), 11_017);
        assert_eq!(Day::from_date(1994, 10, 20).base(), 9_058);
        assert_eq!(Day::from_date(1900, 3, 1).base(), -25_508);
        assert_eq!(Day::from_date(2024, 14, 1), Day::from_date(2025, 2, 1));
        assert_eq!(
            Day::from_date(2024, 12, 31).plus_days(1),
            Day::from_date(2025, 1, 1)
        );
    }

    #[test]
    fn arithmetic_says_when_it_does_not_fit() {
        let most = Mass::from_base(i128::from(i64::MAX)).unwrap();
        assert_eq!(most.checked_add(Mass::from_lb(1)), None);
        assert_eq!(most.checked_times(2), None);
        assert_eq!(
            Mass::ZERO
                .checked_sub(Mass::from_lb(1))
                .map(Mass::magnitude),
            Some(Mass::from_lb(1))
        );
        assert_eq!(Mass::from_lb(3).checked_times(2), Some(Mass::from_lb(6)));
        assert_eq!(Mass::from_base(i128::MAX), None);
    }

    #[test]
    fn dimensions_do_not_mix() {
        let (one, other) = (
            Quantity::from(Mass::from_lb(1)),
            Quantity::from(Torque::from_nm(1)),
        );
        assert_eq!(one.partial_cmp(&other), None);
        assert_eq!(
            (one.checked_sub(other), one.checked_add(other)),
            (None, None)
        );
        assert_eq!(one.checked_add(one), Some(Mass::from_lb(2).into()));
        assert_eq!(one.checked_sub(one), Some(Mass::ZERO.into()));
        assert_eq!(
            (one.mass(), one.torque(), one.length()),
            (Some(Mass::from_lb(1)), None, None)
        );
        assert_eq!(
            (one.pressure(), one.angle(), other.mass()),
            (None, None, None)
        );
        assert_eq!(other.torque(), Some(Torque::from_nm(1)));
        assert_eq!(
            Quantity::from(Pressure::from_psi(1)).pressure(),
            Some(Pressure::from_psi(1))
        );
        assert_eq!(
            Quantity::from(Angle::from_degrees(1)).angle(),
            Some(Angle::from_degrees(1))
        );
        assert_eq!(
            Quantity::from(Length::from_km(1)).length(),
            Some(Length::from_km(1))
        );
    }

    #[test]
    fn every_dimension_comes_back_from_its_base() {
        let all = [
            Dimension::Length,
            Dimension::Mass,
            Dimension::Torque,
            Dimension::Pressure,
            Dimension::Angle,
            Dimension::Duration,
            Dimension::Ratio,
            Dimension::Day,
        ];
        for dimension in all {
            let back = Quantity::from_base(dimension, 7).unwrap();
            assert_eq!((back.dimension(), back.base()), (dimension, 7));
        }
    }

    #[test]
    fn a_share_is_shown_away_from_enough() {
        let third = |base| Share::new(Mass::from_base(base).unwrap(), NonZeroU32::new(3).unwrap());
        assert_eq!(third(10).rounded_up().base(), 4);
        assert_eq!(third(10).rounded_down().base(), 3);
        assert_eq!(
            (third(9).rounded_up().base(), third(9).rounded_down().base()),
            (3, 3)
        );
        assert_eq!((third(10).whole().base(), third(10).parts()), (10, 3));
        let four = Share::undivided(Mass::from_base(4).unwrap());
        assert_eq!(four.room_over(third(10)).base(), 0);
        assert_eq!(third(10).room_over(four).base(), -1);
        assert!(third(10) < four && third(12) == four && third(13) > four);
    }

    proptest! {
        #[test]
        fn days_follow_one_another(n in -200_000_i64..200_000) {
            let (year, month, day) = date_of(n);
            prop_assert_eq!(Day::from_date(year, month, day).base(), i128::from(n));
        }

        #[test]
        fn shares_compare_as_their_products(a in 0_i64..1_000, b in 0_i64..1_000, m in 1_u32..9, n in 1_u32..9) {
            let share = |mass, parts| Share::new(Mass::from_lb(mass), NonZeroU32::new(parts).unwrap());
            let products = (a * i64::from(n)).cmp(&(b * i64::from(m)));
            prop_assert_eq!(share(a, m).cmp(&share(b, n)), products);
        }
    }

    /// Counts days one by one, so that the formula has something to be held against.
    fn date_of(mut n: i64) -> (i64, i64, i64) {
        let leap = |year: i64| year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
        let mut year = 1970;
        while n < 0 {
            year -= 1;
            n += if leap(year) { 366 } else { 365 };
        }
        while n >= if leap(year) { 366 } else { 365 } {
            n -= if leap(year) { 366 } else { 365 };
            year += 1;
        }
        let months = [
            31,
            if leap(year) { 29 } else { 28 },
            31,
            30,
            31,
            30,
            31,
            31,
            30,
            31,
            30,
            31,
        ];
        let mut month = 0;
        while n >= months[month] {
            n -= months[month];
            month += 1;
        }
        (year, i64::try_from(month).unwrap() + 1, n + 1)
    }
}
