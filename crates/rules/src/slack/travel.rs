//! A stroke from two readings: the pushrod released, and the pushrod applied or pulled out.
//!
//! Both are read from the chamber's face to the centre of the clevis pin, or to one mark on the rod.

use crate::quantity::Length;
use crate::rules::Rule;
use crate::source;
use crate::unit::Unit;
use crate::verdict::RuleId;
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("slack.travel"),
    title: word::RULE_SLACK_TRAVEL,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_SLACK_TRAVEL,
    figures: &[],
    sources: &[&source::CLUTCH_ADJUSTER],
};

/// The applied reading is shorter than the released one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct AppliedShorter;

impl AppliedShorter {
    /// What the screen says.
    pub const fn remark(self) -> Remark {
        Remark::plain(word::SLACK_TRAVEL_APPLIED_SHORTER)
    }
}

/// The stroke between two readings.
///
/// Units: any length, subtracted exactly. Errors: [`AppliedShorter`].
/// Source: [`source::CLUTCH_ADJUSTER`].
pub fn stroke(released: Length, applied: Length) -> Result<Length, AppliedShorter> {
    applied
        .checked_sub(released)
        .filter(|stroke| *stroke >= Length::ZERO)
        .ok_or(AppliedShorter)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::cases;

    #[test]
    fn table() {
        for row in cases(include_str!("travel.tsv")) {
            let length = |name| {
                row.quantity(name)
                    .map(|quantity| quantity.length().unwrap())
            };
            let got = stroke(length("released").unwrap(), length("applied").unwrap());
            assert_eq!(got.ok(), length("stroke"), "{row}");
        }
        assert_eq!(
            AppliedShorter.remark().word.key(),
            "slack.travel.applied-shorter"
        );
    }
}
