//! Puts words with arguments on the screen: places, quantities in this tablet's units, other texts.

use job::id::{Place, Side};
use job::judge::Units;
use job::words::{Arg, Words};
use rules::shown::Lean;
use rules::unit::Unit;
use rules::word::{Argument, Remark};

use crate::words::{fill, remark, t, unit};

/// The words, filled in.
pub(crate) fn say(words: &Words, units: &Units) -> String {
    let values: Vec<(&str, String)> = words
        .arguments
        .iter()
        .map(|(name, argument)| (*name, argument_text(argument, units)))
        .collect();
    let values: Vec<(&str, &str)> = values
        .iter()
        .map(|(name, value)| (*name, value.as_str()))
        .collect();
    fill(&words.key, &values)
}

fn argument_text(argument: &Arg, units: &Units) -> String {
    match argument {
        Arg::Text(text) => text.clone(),
        Arg::Key(key) => t(key),
        Arg::Place(at) => place(*at),
        Arg::Rule(argument) => rule_argument(argument, units),
    }
}

fn rule_argument(argument: &Argument, units: &Units) -> String {
    match argument {
        Argument::Quantity(quantity) => amount(&units.show(*quantity, Lean::Up)),
        // Shares in texts are what something gives: never shown as more than it is.
        Argument::Share(share) => amount(&units.show(share.rounded_down().into(), Lean::Down)),
        Argument::Count(count) => count.to_string(),
        Argument::Tenths(tenths) => format!("{}.{}", tenths / 10, tenths % 10),
        Argument::Unit(of) => unit(*of),
        Argument::Word(word) => t(word.key()),
        Argument::Text(text) => text.clone(),
    }
}

/// A remark of the rules, in this tablet's units.
pub(crate) fn say_remark(of: &Remark, units: &Units) -> String {
    remark(of, &|argument| Some(rule_argument(argument, units)))
}

/// A number with its unit.
pub(crate) fn amount(amount: &job::event::Amount) -> String {
    match Unit::from_code(&amount.unit) {
        Some(of) => format!("{} {}", amount.text, unit(of)),
        None => format!("{} {}", amount.text, amount.unit),
    }
}

/// A place on the vehicle: "Axle 2, left (driver's side)".
pub(crate) fn place(at: Place) -> String {
    match at {
        Place::Vehicle => t("place.vehicle"),
        Place::Axle(axle) => fill("place.axle", &[("axle", &axle.to_string())]),
        Place::End(axle, side) => fill(
            "place.end",
            &[("axle", &axle.to_string()), ("side", &t(side_key(side)))],
        ),
    }
}

/// The word key of a side.
pub(crate) fn side_key(side: Side) -> &'static str {
    match side {
        Side::Left => "side.left",
        Side::Right => "side.right",
    }
}
