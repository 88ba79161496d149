//! What a person typed: kept letter for letter, with its unit, beside its exact value.
//!
//! Decimals ("1.875" or "1,875") and fractions ("7/8", "1 7/8", "1-7/8"). A text that can be read
//! in two ways, or that its unit can't carry exactly, is a fault: it is never guessed or rounded.

use std::fmt;

use crate::quantity::{Dimension, Quantity};
use crate::unit::Unit;
use crate::word::{self, Argument, Remark};

/// The longest text that is looked at; a number pad never gets near it.
const LONGEST: usize = 32;

/// Most digits that any one number in the text may have.
const MOST_DIGITS: usize = 15;

/// A typed value that can be read in exactly one way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Typed {
    // Reads as `quantity` in `unit`: only `parse` builds one.
    text: String,
    unit: Unit,
    quantity: Quantity,
}

impl Typed {
    /// Reads `text` as a number of `unit`.
    ///
    /// Units: any. Errors: [`TypedFault`], one for each way in which a text isn't one exact,
    /// unsigned number.
    pub fn parse(text: &str, unit: Unit) -> Result<Self, TypedFault> {
        let quantity = read(text, unit)?;
        Ok(Self {
            text: text.to_owned(),
            unit,
            quantity,
        })
    }

    /// The text exactly as it was typed.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The unit it was typed in.
    pub const fn unit(&self) -> Unit {
        self.unit
    }

    /// Its exact value.
    pub const fn quantity(&self) -> Quantity {
        self.quantity
    }
}

/// Why a text isn't a reading. What was typed stays with whoever typed it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TypedFault {
    /// Nothing but blanks.
    Empty,
    /// More than one decimal mark, or a mark in a fraction.
    TwoPoints,
    /// A minus sign in front.
    Negative,
    /// A character that no number has.
    NotANumber {
        /// The first one that is in the way.
        found: char,
    },
    /// It stops where a digit has to follow, or has nothing before its slash.
    Unfinished,
    /// A fraction over nothing.
    ZeroDenominator,
    /// A whole number followed by a fraction of one or more, such as "1 9/8".
    ImproperFraction,
    /// A mark before exactly three digits, in a unit that reaches thousands.
    Thousands {
        /// The mark that was found.
        mark: char,
    },
    /// More digits, or another fraction, than a whole number of the base can carry.
    TooFine {
        /// The unit that can't carry it.
        unit: Unit,
    },
    /// Beyond what is ever measured.
    TooLarge,
    /// A longer text than any number.
    TooLong {
        /// How many characters are looked at.
        most: usize,
    },
}

impl TypedFault {
    /// The stable name of the fault, the last part of its word key.
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Empty => "empty",
            Self::TwoPoints => "two-points",
            Self::Negative => "negative",
            Self::NotANumber { .. } => "not-a-number",
            Self::Unfinished => "unfinished",
            Self::ZeroDenominator => "zero-denominator",
            Self::ImproperFraction => "improper-fraction",
            Self::Thousands { .. } => "thousands",
            Self::TooFine { .. } => "too-fine",
            Self::TooLarge => "too-large",
            Self::TooLong { .. } => "too-long",
        }
    }
}

impl TypedFault {
    /// What the screen says.
    pub fn remark(&self) -> Remark {
        let text = |c: &char| Argument::Text(c.to_string());
        match self {
            Self::Empty => Remark::plain(word::TYPED_EMPTY),
            Self::TwoPoints => Remark::plain(word::TYPED_TWO_POINTS),
            Self::Negative => Remark::plain(word::TYPED_NEGATIVE),
            Self::NotANumber { found } => {
                Remark::with(word::TYPED_NOT_A_NUMBER, [("found", text(found))])
            }
            Self::Unfinished => Remark::plain(word::TYPED_UNFINISHED),
            Self::ZeroDenominator => Remark::plain(word::TYPED_ZERO_DENOMINATOR),
            Self::ImproperFraction => Remark::plain(word::TYPED_IMPROPER_FRACTION),
            Self::Thousands { mark } => Remark::with(word::TYPED_THOUSANDS, [("mark", text(mark))]),
            Self::TooFine { unit } => {
                Remark::with(word::TYPED_TOO_FINE, [("unit", Argument::Unit(*unit))])
            }
            Self::TooLarge => Remark::plain(word::TYPED_TOO_LARGE),
            Self::TooLong { most } => {
                let most = u32::try_from(*most).unwrap_or(u32::MAX);
                Remark::with(word::TYPED_TOO_LONG, [("most", Argument::Count(most))])
            }
        }
    }
}

impl fmt::Display for TypedFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str("nothing was typed"),
            Self::TwoPoints => f.write_str("expected one decimal mark, found more"),
            Self::Negative => f.write_str("expected a number of zero or more, found a minus sign"),
            Self::NotANumber { found } => write!(f, "expected a digit, found {found:?}"),
            Self::Unfinished => f.write_str("expected a digit, found the end of a number"),
            Self::ZeroDenominator => f.write_str("a fraction over zero has no value"),
            Self::ImproperFraction => {
                f.write_str("expected a fraction under one beside a whole number")
            }
            Self::Thousands { mark } => {
                write!(
                    f,
                    "{mark:?} before three digits could part thousands or be a decimal mark"
                )
            }
            Self::TooFine { unit } => {
                write!(f, "more digits than {} carries exactly", unit.code())
            }
            Self::TooLarge => f.write_str("larger than anything that is measured"),
            Self::TooLong { most } => write!(f, "expected at most {most} characters"),
        }
    }
}

impl std::error::Error for TypedFault {}

/// A ratio of whole numbers, as read from a text.
struct Ratio {
    over: i128,
    under: i128,
}

fn read(text: &str, unit: Unit) -> Result<Quantity, TypedFault> {
    let text = text.trim();
    if text.is_empty() {
        return Err(TypedFault::Empty);
    }
    if text.chars().count() > LONGEST {
        return Err(TypedFault::TooLong { most: LONGEST });
    }
    if text.starts_with(['-', '\u{2212}']) {
        return Err(TypedFault::Negative);
    }
    let ratio = match text.split_once('/') {
        Some((before, under)) => fraction(before, under)?,
        None => decimal(text, unit)?,
    };
    let scaled = ratio
        .over
        .checked_mul(unit.in_base())
        .ok_or(TypedFault::TooLarge)?;
    if scaled % ratio.under != 0 {
        return Err(TypedFault::TooFine { unit });
    }
    in_range(unit, scaled / ratio.under)
}

/// Far above anything measured, and low enough that products of two readings fit.
fn in_range(unit: Unit, base: i128) -> Result<Quantity, TypedFault> {
    let most = match unit.dimension() {
        Dimension::Length => 8_000_000_000_000_000_000,
        Dimension::Mass => 1_000_000_000_000_000_000,
        Dimension::Torque => 1_000_000_000_000_000_000_000,
        Dimension::Pressure => 100_000_000_000_000_000_000,
        // No nut has a thousand turns; an arm never goes round.
        Dimension::Angle if unit == Unit::Turn => 1_000 * 360_000_000,
        Dimension::Angle => 360_000_000,
        Dimension::Duration => 10_000_000_000,
        Dimension::Ratio => 1_000_000_000,
        // No unit is a day of the calendar: dates aren't typed as numbers.
        Dimension::Day => 0,
    };
    if base > most {
        return Err(TypedFault::TooLarge);
    }
    Quantity::from_base(unit.dimension(), base).ok_or(TypedFault::TooLarge)
}

/// "1.875", "1,875", ".5" or "23000".
fn decimal(text: &str, unit: Unit) -> Result<Ratio, TypedFault> {
    let Some(at) = text.find(['.', ',']) else {
        return Ok(Ratio {
            over: digits(text)?,
            under: 1,
        });
    };
    let (whole, rest) = text.split_at(at);
    let mut marks = rest.chars();
    let mark = marks.next().unwrap_or('.');
    let part = marks.as_str();
    if part.contains(['.', ',']) {
        return Err(TypedFault::TwoPoints);
    }
    let length = part.len();
    only_digits(part)?;
    let whole_value = if whole.is_empty() { 0 } else { digits(whole)? };
    if length == 3 && whole_value != 0 && unit.reaches_thousands() {
        return Err(TypedFault::Thousands { mark });
    }
    let part = part.trim_end_matches('0');
    if part.len() > MOST_DIGITS {
        return Err(TypedFault::TooFine { unit });
    }
    let part_value = if part.is_empty() { 0 } else { digits(part)? };
    let under = power_of_ten(part.len());
    let over = whole_value
        .checked_mul(under)
        .and_then(|over| over.checked_add(part_value));
    Ok(Ratio {
        over: over.ok_or(TypedFault::TooLarge)?,
        under,
    })
}

/// "7/8", "1 7/8" or "1-7/8", already parted at its slash.
fn fraction(before: &str, under: &str) -> Result<Ratio, TypedFault> {
    let before = before.trim();
    let under = digits(under.trim())?;
    if under == 0 {
        return Err(TypedFault::ZeroDenominator);
    }
    let Some((whole, over)) = before.split_once([' ', '-']) else {
        return Ok(Ratio {
            over: digits(before)?,
            under,
        });
    };
    let (whole, over) = (digits(whole)?, digits(over.trim())?);
    if over >= under {
        return Err(TypedFault::ImproperFraction);
    }
    let over = whole
        .checked_mul(under)
        .and_then(|whole| whole.checked_add(over));
    Ok(Ratio {
        over: over.ok_or(TypedFault::TooLarge)?,
        under,
    })
}

fn digits(text: &str) -> Result<i128, TypedFault> {
    only_digits(text)?;
    if text.trim_start_matches('0').len() > MOST_DIGITS {
        return Err(TypedFault::TooLarge);
    }
    text.bytes().try_fold(0_i128, |sum, digit| {
        sum.checked_mul(10)
            .and_then(|sum| sum.checked_add(i128::from(digit - b'0')))
            .ok_or(TypedFault::TooLarge)
    })
}

fn only_digits(text: &str) -> Result<(), TypedFault> {
    if text.is_empty() {
        return Err(TypedFault::Unfinished);
    }
    match text.chars().find(|c| !c.is_ascii_digit()) {
        None => Ok(()),
        Some('.' | ',') => Err(TypedFault::TwoPoints),
        Some(found) => Err(TypedFault::NotANumber { found }),
    }
}

fn power_of_ten(digits: usize) -> i128 {
    (0..digits).fold(1, |power, _| power * 10)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::cases;
    use crate::quantity::Length;

    #[test]
    fn table() {
        for row in cases(include_str!("typed.tsv")) {
            let read = match Typed::parse(row.text("text"), row.unit("unit")) {
                Ok(typed) => typed.quantity().base().to_string(),
                Err(fault) => fault.code().to_owned(),
            };
            assert_eq!(read, row.text("reads"), "{row}");
        }
    }

    #[test]
    fn text_is_kept_letter_for_letter() {
        let typed = Typed::parse(" 1 7/8", Unit::Inch).unwrap();
        assert_eq!((typed.text(), typed.unit()), (" 1 7/8", Unit::Inch));
        assert_eq!(typed.quantity(), Length::from_inch_64ths(120).into());
    }

    #[test]
    fn every_fault_says_what_was_expected() {
        for text in [
            "",
            "1.2.3",
            "-1",
            "1a",
            "1/",
            "1/0",
            "1 9/8",
            "1.0000000001",
        ] {
            let fault = Typed::parse(text, Unit::Inch).unwrap_err();
            assert!(fault.to_string().len() > 10, "{fault:?}");
        }
    }

    proptest! {
        #[test]
        fn never_panics(text in ".{0,40}") {
            for unit in Unit::ALL {
                let _read = Typed::parse(&text, *unit);
            }
        }

        #[test]
        fn sixty_fourths_and_their_decimals_are_one_value(n in 0_u32..2_000) {
            let fraction = Typed::parse(&format!("{n}/64"), Unit::Inch).unwrap();
            let decimal = format!("{}.{:06}", n / 64, u64::from(n % 64) * 1_000_000 / 64);
            let decimal = Typed::parse(&decimal, Unit::Inch).unwrap();
            prop_assert_eq!(fraction.quantity(), decimal.quantity());
        }

        #[test]
        fn a_larger_number_is_a_larger_quantity(a in 0_u32..9_000, b in 0_u32..9_000) {
            let angle = |unit: &&Unit| unit.dimension() == Dimension::Angle;
            for unit in Unit::ALL.iter().filter(|unit| !angle(unit)) {
                let read = |n: u32| Typed::parse(&n.to_string(), *unit).unwrap().quantity().base();
                prop_assert_eq!(read(a).cmp(&read(b)), a.cmp(&b));
            }
        }
    }
}
