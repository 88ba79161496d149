//! Cosines in whole numbers: the same digits on every machine.
//!
//! Good to 10⁻¹², which is far finer than any angle that is read. Nothing is judged here.

use crate::quantity::Angle;

/// A cosine as a whole number of 10⁻¹².
pub const ONE: i128 = 1_000_000_000_000;

/// Inside this file: a whole number of 10⁻¹⁸.
const FINE: i128 = 1_000_000_000_000_000_000;
/// π in 10⁻¹⁸.
const PI: i128 = 3_141_592_653_589_793_238;
/// Enough terms for a quarter turn at 10⁻¹⁸.
const TERMS: i128 = 14;

/// The cosine of an angle, in whole 10⁻¹².
pub fn cosine(angle: Angle) -> i128 {
    let full = angle.base().rem_euclid(360_000_000);
    // Fold on to a quarter turn, where the series is short.
    let half = if full > 180_000_000 {
        360_000_000 - full
    } else {
        full
    };
    if half > 90_000_000 {
        -quarter(180_000_000 - half)
    } else {
        quarter(half)
    }
}

/// The angle of a cosine, between nothing and half a turn; `None` for more than one.
pub fn angle_of_cosine(cosine_of: i128) -> Option<Angle> {
    if cosine_of.abs() > ONE {
        return None;
    }
    if cosine_of < 0 {
        let other = angle_of_cosine(-cosine_of)?;
        return Angle::from_degrees(180).checked_sub(other);
    }
    // The cosine falls from 0 to 90 degrees, so halving finds the nearest millionth.
    let (mut low, mut high) = (0_i128, 90_000_000_i128);
    while low < high {
        let middle = (low + high) / 2;
        let at_middle = cosine(Angle::from_base(middle)?);
        if at_middle > cosine_of {
            low = middle + 1
        } else {
            high = middle
        }
    }
    Angle::from_base(low)
}

/// 1 - x²/2! + x⁴/4! - …, for up to a quarter turn.
fn quarter(micro_degrees: i128) -> i128 {
    let x = micro_degrees * PI / 180_000_000;
    let squared = x * x / FINE;
    let mut term = FINE;
    let mut sum = FINE;
    for n in 1..=TERMS {
        term = -term * squared / FINE / ((2 * n - 1) * (2 * n));
        sum += term;
    }
    // The sum isn't negative by more than its own last digits.
    (sum + FINE / ONE / 2) / (FINE / ONE)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn known_cosines() {
        let of = |degrees| cosine(Angle::from_degrees(degrees));
        assert_eq!(
            [of(0), of(60), of(90), of(120), of(180)],
            [ONE, ONE / 2, 0, -ONE / 2, -ONE]
        );
        assert_eq!(
            [of(240), of(270), of(300), of(360)],
            [-ONE / 2, 0, ONE / 2, ONE]
        );
        assert_eq!(of(45), 707_106_781_187);
        assert_eq!(of(30), 866_025_403_784);
        assert_eq!(of(1), 999_847_695_156);
        assert_eq!(of(89), 17_452_406_437);
        assert_eq!(of(-60), ONE / 2);
    }

    #[test]
    fn more_than_one_has_no_angle() {
        assert_eq!(
            (angle_of_cosine(ONE + 1), angle_of_cosine(-ONE - 1)),
            (None, None)
        );
        assert_eq!(angle_of_cosine(ONE), Some(Angle::ZERO));
        assert_eq!(angle_of_cosine(-ONE), Some(Angle::from_degrees(180)));
        assert_eq!(angle_of_cosine(0), Some(Angle::from_degrees(90)));
        assert_eq!(angle_of_cosine(ONE / 2), Some(Angle::from_degrees(60)));
    }

    proptest! {
        #[test]
        fn there_and_back(tenths in 20_i64..1_780) {
            let angle = Angle::from_degree_tenths(tenths);
            let back = angle_of_cosine(cosine(angle)).unwrap();
            prop_assert!((back.base() - angle.base()).abs() <= 1);
        }

        #[test]
        fn cosines_fall(a in 0_i64..180_000, b in 0_i64..180_000) {
            let of = |n| cosine(Angle::from_base(i128::from(n) * 1_000).unwrap());
            prop_assert!(a >= b || of(a) > of(b));
        }
    }
}
