//! Left and right stroke of one axle beside each other.
//!
//! No number is published for how far they may be apart, so the difference is a remark and never a
//! verdict: both sides should move together and alike.

use crate::quantity::Length;
use crate::rules::Rule;
use crate::source;
use crate::unit::Unit;
use crate::verdict::RuleId;
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("slack.sides"),
    title: word::RULE_SLACK_SIDES,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_SLACK_SIDES,
    figures: &[],
    sources: &[&source::SASKATCHEWAN],
};

/// What to say of two strokes of one axle.
///
/// Units: any length, subtracted exactly. Errors: none.
/// Source: [`source::SASKATCHEWAN`] (same angle and travel; no number).
pub fn compare(left: Length, right: Length) -> Remark {
    match left.checked_sub(right).map(Length::magnitude) {
        Some(difference) if difference > Length::ZERO => Remark::with(
            word::SLACK_REMARK_SIDES_DIFFER,
            [("difference", Argument::Quantity(difference.into()))],
        ),
        _ => Remark::plain(word::SLACK_REMARK_SIDES_SAME),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::cases;

    #[test]
    fn table() {
        for row in cases(include_str!("sides.tsv")) {
            let length = |name| row.quantity(name).unwrap().length().unwrap();
            let said = compare(length("left"), length("right"));
            let difference = row.quantity("difference").map(Argument::Quantity);
            let got = said.arguments.first().map(|(_, argument)| argument.clone());
            assert_eq!(got, difference, "{row}");
            let word = if difference.is_some() {
                "differ"
            } else {
                "same"
            };
            assert!(said.word.key().ends_with(word), "{row}");
        }
    }
}
