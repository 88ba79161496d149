//! A quantity as text in a unit, without floating point.
//!
//! Says whether the text is exact; where it isn't, the caller said which way it may lean. Words and
//! unit signs are put beside it elsewhere; the decimal mark is always a point here.

use crate::quantity::{Length, Quantity};
use crate::unit::Unit;

/// Most decimals that a text may have.
pub const MOST_PLACES: u8 = 9;

/// Which way a text leans when its places don't carry the value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lean {
    /// Never above the value: for what can carry, and for room that is left.
    Down,
    /// Never below the value: for what has to be carried, and for strokes.
    Up,
    /// To the nearest, halves away from zero: only where nothing is judged by it.
    Nearest,
}

/// A number as text, and whether it is all of the value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shown {
    /// Digits with a point, or a fraction of an inch.
    pub text: String,
    /// Whether the text is the value, not a value near it.
    pub exact: bool,
}

/// `quantity` in `unit` with at most `places` decimals, trailing zeros left away.
///
/// `None` when the unit measures something else.
pub fn decimal(quantity: Quantity, unit: Unit, places: u8, lean: Lean) -> Option<Shown> {
    if quantity.dimension() != unit.dimension() {
        return None;
    }
    let scale = 10_i128.pow(u32::from(places.min(MOST_PLACES)));
    let scaled = quantity.base().checked_mul(scale)?;
    let size = unit.in_base();
    let down = scaled.div_euclid(size);
    let rest = scaled.rem_euclid(size);
    let number = match lean {
        Lean::Down => down,
        Lean::Up => down + i128::from(rest != 0),
        Lean::Nearest => nearest(down, rest, size),
    };
    Some(Shown {
        text: with_point(number, scale, places.min(MOST_PLACES)),
        exact: rest == 0,
    })
}

/// `quantity` in `unit` exactly, with as few decimals as that takes; `None` when none suffice.
pub fn exact(quantity: Quantity, unit: Unit) -> Option<String> {
    (0..=MOST_PLACES)
        .filter_map(|places| decimal(quantity, unit, places, Lean::Down))
        .find(|shown| shown.exact)
        .map(|shown| shown.text)
}

/// `number` over `size` with at most `places` decimals, to the nearest: only where nothing is judged
/// by it. `None` when it doesn't fit, or `size` isn't more than nothing.
pub fn quotient(number: i128, size: i128, places: u8) -> Option<String> {
    let places = places.min(MOST_PLACES);
    let scale = 10_i128.pow(u32::from(places));
    let scaled = number.checked_mul(scale)?;
    if size <= 0 {
        return None;
    }
    let (down, rest) = (scaled.div_euclid(size), scaled.rem_euclid(size));
    Some(with_point(nearest(down, rest, size), scale, places))
}

/// A length as inches and a fraction in lowest terms, down to 64ths: "1 7/8".
///
/// `None` when it isn't a whole number of 64ths.
pub fn inch_fraction(length: Length) -> Option<String> {
    const SIXTY_FOURTH: i128 = 396_875;
    let base = length.base();
    if base % SIXTY_FOURTH != 0 {
        return None;
    }
    let sign = if base < 0 { "-" } else { "" };
    let all = (base / SIXTY_FOURTH).abs();
    let (whole, mut over, mut under) = (all / 64, all % 64, 64);
    while over != 0 && over % 2 == 0 {
        (over, under) = (over / 2, under / 2);
    }
    Some(match (whole, over) {
        (whole, 0) => format!("{sign}{whole}"),
        (0, over) => format!("{sign}{over}/{under}"),
        (whole, over) => format!("{sign}{whole} {over}/{under}"),
    })
}

fn nearest(down: i128, rest: i128, size: i128) -> i128 {
    let up = match (rest * 2).cmp(&size) {
        std::cmp::Ordering::Less => false,
        std::cmp::Ordering::Greater => true,
        // Halves go away from zero; `down` is the lower neighbour.
        std::cmp::Ordering::Equal => down >= 0,
    };
    down + i128::from(up)
}

fn with_point(number: i128, scale: i128, places: u8) -> String {
    let sign = if number < 0 { "-" } else { "" };
    let number = number.abs();
    let (whole, part) = (number / scale, number % scale);
    if part == 0 {
        return format!("{sign}{whole}");
    }
    let part = format!("{part:0width$}", width = usize::from(places));
    format!("{sign}{whole}.{}", part.trim_end_matches('0'))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::cases;
    use crate::quantity::{Mass, Torque};
    use crate::typed::Typed;

    #[test]
    fn table() {
        for row in cases(include_str!("shown.tsv")) {
            let value = row.quantity("value").unwrap();
            let (unit, places) = (row.unit("unit"), u8::try_from(row.count("places")).unwrap());
            let shown = |lean| decimal(value, unit, places, lean).unwrap();
            assert_eq!(shown(Lean::Down).text, row.text("down"), "{row}");
            assert_eq!(shown(Lean::Up).text, row.text("up"), "{row}");
            assert_eq!(shown(Lean::Nearest).text, row.text("nearest"), "{row}");
            assert_eq!(
                shown(Lean::Down).exact,
                row.text("down") == row.text("up"),
                "{row}"
            );
        }
    }

    #[test]
    fn fractions_of_an_inch() {
        let shown = |n| inch_fraction(Length::from_inch_64ths(n)).unwrap();
        assert_eq!(
            [shown(120), shown(1), shown(128), shown(0), shown(-8)],
            ["1 7/8", "1/64", "2", "0", "-1/8"]
        );
        assert_eq!(inch_fraction(Length::from_mm_hundredths(4_450)), None);
    }

    #[test]
    fn below_zero_leans_the_same_way() {
        let short = Quantity::from(Mass::from_base(-453_592_371).unwrap());
        let shown = |lean| decimal(short, Unit::Pound, 0, lean).unwrap().text;
        assert_eq!(
            [shown(Lean::Down), shown(Lean::Up), shown(Lean::Nearest)],
            ["-2", "-1", "-1"]
        );
        let half = Quantity::from(Mass::from_base(-1_500_000_000).unwrap());
        assert_eq!(
            decimal(half, Unit::Kilogram, 0, Lean::Nearest)
                .unwrap()
                .text,
            "-2"
        );
    }

    #[test]
    fn another_dimension_has_no_text() {
        assert_eq!(
            decimal(Torque::from_nm(1).into(), Unit::Inch, 0, Lean::Up),
            None
        );
        assert_eq!(exact(Torque::from_nm(1).into(), Unit::Inch), None);
    }

    proptest! {
        #[test]
        fn exact_text_reads_back_as_the_same_value(n in 0_i64..10_000_000) {
            let quantity = Quantity::from(Length::from_inch_64ths(n));
            let text = exact(quantity, Unit::Inch).unwrap();
            prop_assert_eq!(Typed::parse(&text, Unit::Inch).unwrap().quantity(), quantity);
            let text = inch_fraction(Length::from_inch_64ths(n)).unwrap();
            prop_assert_eq!(Typed::parse(&text, Unit::Inch).unwrap().quantity(), quantity);
        }
    }
}
