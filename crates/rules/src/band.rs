//! Where a kind of reading usually lies, so that a slip of the key is asked about.
//!
//! A band only asks: "out by ten?", "in the other unit?". It never refuses and never judges; a
//! reading outside its band is kept as typed once its person says so.

use crate::quantity::Quantity;
use crate::typed::{Typed, TypedFault};
use crate::unit::Unit;
use crate::word::{self, Argument, Remark};

/// The usual range of one kind of reading, ends included.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Band {
    // `low` isn't above `high` and both measure the same: only `new` builds one.
    low: Quantity,
    high: Quantity,
}

/// Why two ends don't make a band.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BandFault {
    /// An end that isn't a number of the unit.
    End(TypedFault),
    /// The low end is above the high one.
    UpsideDown,
}

/// What to ask about a reading that lies outside its band.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BandQuestion {
    /// It measures something else than the band.
    OtherKind,
    /// The same number in this other unit would lie inside.
    InUnit(Unit),
    /// Ten times as much would lie inside.
    TenTimesTooSmall,
    /// A tenth would lie inside.
    TenTimesTooLarge,
    /// Below the band.
    Below,
    /// Above the band.
    Above,
}

impl Band {
    /// From `low` to `high`, both typed in `unit`.
    ///
    /// Errors: [`BandFault`] when an end can't be read, or they stand upside down.
    pub fn new(low: &str, high: &str, unit: Unit) -> Result<Self, BandFault> {
        let low = Typed::parse(low, unit).map_err(BandFault::End)?.quantity();
        let high = Typed::parse(high, unit).map_err(BandFault::End)?.quantity();
        if low.base() > high.base() {
            return Err(BandFault::UpsideDown);
        }
        Ok(Self { low, high })
    }

    /// The low end.
    pub const fn low(self) -> Quantity {
        self.low
    }

    /// The high end.
    pub const fn high(self) -> Quantity {
        self.high
    }

    /// What to ask before this reading is taken; `None` when it lies inside.
    pub fn question(self, reading: &Typed) -> Option<BandQuestion> {
        let quantity = reading.quantity();
        if quantity.dimension() != self.low.dimension() {
            return Some(BandQuestion::OtherKind);
        }
        if self.holds(quantity.base(), 1, 1) {
            return None;
        }
        let below = quantity.base() < self.low.base();
        if below && self.holds(quantity.base(), 10, 1) {
            return Some(BandQuestion::TenTimesTooSmall);
        }
        if !below && self.holds(quantity.base(), 1, 10) {
            return Some(BandQuestion::TenTimesTooLarge);
        }
        if let Some(unit) = reading.unit().mistaken_for()
            && let Ok(other) = Typed::parse(reading.text(), unit)
            && self.holds(other.quantity().base(), 1, 1)
        {
            return Some(BandQuestion::InUnit(unit));
        }
        Some(if below {
            BandQuestion::Below
        } else {
            BandQuestion::Above
        })
    }

    /// What the screen asks.
    pub fn remark(self, question: BandQuestion) -> Remark {
        match question {
            BandQuestion::OtherKind => Remark::plain(word::BAND_OTHER_KIND),
            BandQuestion::InUnit(unit) => {
                Remark::with(word::BAND_IN_UNIT, [("unit", Argument::Unit(unit))])
            }
            BandQuestion::TenTimesTooSmall => Remark::plain(word::BAND_TEN_TIMES_TOO_SMALL),
            BandQuestion::TenTimesTooLarge => Remark::plain(word::BAND_TEN_TIMES_TOO_LARGE),
            BandQuestion::Below => {
                Remark::with(word::BAND_BELOW, [("low", Argument::Quantity(self.low))])
            }
            BandQuestion::Above => {
                Remark::with(word::BAND_ABOVE, [("high", Argument::Quantity(self.high))])
            }
        }
    }

    /// Whether `base × times ÷ over` lies inside, compared without dividing.
    fn holds(self, base: i128, times: i128, over: i128) -> bool {
        let base = base.saturating_mul(times);
        self.low.base() * over <= base && base <= self.high.base() * over
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::cases;

    #[test]
    fn table() {
        for row in cases(include_str!("band.tsv")) {
            let band = Band::new(row.text("low"), row.text("high"), row.unit("unit")).unwrap();
            let asked = band.question(&row.typed("reading").unwrap());
            let asked = asked.map_or("-".to_owned(), |asked| format!("{asked:?}"));
            assert_eq!(asked, row.text("asks"), "{row}");
        }
    }

    #[test]
    fn ends_are_checked() {
        assert_eq!(Band::new("2", "1", Unit::Inch), Err(BandFault::UpsideDown));
        assert!(Band::new("1", "1", Unit::Inch).is_ok());
        assert_eq!(
            Band::new("x", "1", Unit::Inch).unwrap_err(),
            BandFault::End(TypedFault::NotANumber { found: 'x' })
        );
    }
}
