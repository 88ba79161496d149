//! How many times a plate under the jack's head spreads the load.
//!
//! No limit is published, so this is a figure without a verdict: a narrow head can break a cast
//! housing, and a loose plate can slip.

use crate::quantity::Length;
use crate::rules::Rule;
use crate::source;
use crate::unit::Unit;
use crate::verdict::RuleId;
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("support.plate"),
    title: word::RULE_SUPPORT_PLATE,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_SUPPORT_PLATE,
    figures: &[],
    sources: &[&source::COMMON_PRACTICE],
};

/// A face that touches the axle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Face {
    /// Round, by its diameter.
    Round(Length),
    /// Rectangular, by its two sides.
    Rectangle(Length, Length),
}

/// Four times the area of a round face over its squared diameter, in millionths and rounded so that
/// the spread is never flattered: a head counts large, a plate small.
const PI_MILLIONTHS_UP: i128 = 3_141_593;
const PI_MILLIONTHS_DOWN: i128 = 3_141_592;

impl Face {
    /// Four million times its area, in squared nanometres; `None` for no face at all.
    fn area(self, pi_millionths: i128) -> Option<i128> {
        let (sides, times) = match self {
            Self::Round(diameter) => ([diameter, diameter], pi_millionths),
            Self::Rectangle(side, other) => ([side, other], 4_000_000),
        };
        let fits = |side: &Length| *side > Length::ZERO && *side < Length::from_km(1);
        let area = || sides.iter().map(|side| side.base()).product::<i128>() * times;
        sides.iter().all(fits).then(area)
    }
}

/// How many times `plate` spreads what `head` presses, in tenths and rounded down.
///
/// Units: any length. Errors: `None` when a face has no size.
/// Source: [`source::COMMON_PRACTICE`]; no limit is published.
pub fn spread_tenths(head: Face, plate: Face) -> Option<u32> {
    let head = head.area(PI_MILLIONTHS_UP)?;
    let plate = plate.area(PI_MILLIONTHS_DOWN)?;
    u32::try_from(plate * 10 / head).ok()
}

/// What to say of it.
pub fn remark(tenths: u32) -> Remark {
    if tenths <= 10 {
        return Remark::plain(word::SUPPORT_PLATE_SMALLER);
    }
    Remark::with(
        word::SUPPORT_PLATE_SPREADS,
        [("times", Argument::Tenths(tenths))],
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::{cases, typed};

    /// "round 2 in" or "4 in x 6 in".
    fn face(text: &str) -> Face {
        let length = |text: &str| typed(text).unwrap().quantity().length().unwrap();
        match text.split_once(" x ") {
            Some((side, other)) => Face::Rectangle(length(side), length(other)),
            None => Face::Round(length(text.trim_start_matches("round "))),
        }
    }

    #[test]
    fn table() {
        for row in cases(include_str!("plate.tsv")) {
            let spread = spread_tenths(face(row.text("head")), face(row.text("plate")));
            let shown = spread.map_or("-".to_owned(), |tenths| tenths.to_string());
            assert_eq!(shown, row.text("tenths"), "{row}");
            let said = spread.map_or("-", |tenths| remark(tenths).word.key());
            assert_eq!(said, row.text("says"), "{row}");
        }
    }
}
