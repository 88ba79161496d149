//! What the job has to say on a screen: a key of the language files and its arguments.
//!
//! No sentence stands here. The keys that can come out are listed in [`KEYS`], so that a test
//! can hold every language against them.

use rules::typed::TypedFault;
use rules::word::{Argument, Remark};

use crate::id::Place;

/// A text for the screen.
#[derive(Clone, Debug, PartialEq)]
pub struct Words {
    pub key: String,
    pub arguments: Vec<(&'static str, Arg)>,
}

/// What can be put into a text.
#[derive(Clone, Debug, PartialEq)]
pub enum Arg {
    /// Shown as it stands: a name, a number, a reason that somebody typed.
    Text(String),
    /// Another text, by key.
    Key(String),
    /// A place on the vehicle, in words.
    Place(Place),
    /// An argument of the rules crate: quantities are shown in the tablet's units.
    Rule(Argument),
}

/// Every key that [`crate::hold::Hold`], [`crate::act::Refusal`], [`crate::judge::Judged`] and
/// [`crate::hand_back::InTheWay`] can come out with.
pub const KEYS: &[&str] = &[
    "hold.damaged",
    "hold.newer",
    "hold.unknown-procedure",
    "hold.not-opened",
    "hold.not-on-path",
    "hold.not-yet",
    "hold.stopped",
    "hold.sign-on",
    "hold.foreman-looks",
    "hold.own-work",
    "hold.own-press",
    "hold.covers-up",
    "hold.unlike",
    "hold.came-back",
    "refuse.stale",
    "refuse.wrong-kind",
    "refuse.not-offered",
    "refuse.wrong-unit",
    "refuse.beside",
    "refuse.no-wheels",
    "refuse.stand-twice",
    "refuse.stand-elsewhere",
    "refuse.count-none",
    "refuse.tag-on",
    "refuse.studs-in-use",
    "refuse.apprentice-end",
    "refuse.wheel-in-the-air",
    "refuse.too-many",
    "refuse.stand-too-small",
    "refuse.stand-at-limit",
    "refuse.three-too-small",
    "refuse.foreman-only",
    "refuse.cannot-pass",
    "refuse.reason-missing",
    "refuse.already-struck",
    "refuse.cannot-strike",
    "refuse.not-theirs",
    "refuse.unknown-line",
    "refuse.not-a-skip",
    "refuse.finding-unknown",
    "refuse.line-unknown",
    "refuse.line-not-agreed",
    "refuse.line-not-passed",
    "refuse.asked-missing",
    "refuse.part-missing",
    "refuse.minutes-missing",
    "refuse.nothing-to-move",
    "refuse.move-over",
    "refuse.stands-in-the-bay",
    "setup.unit-missing",
    "setup.vehicle-missing",
    "setup.layout-missing",
    "setup.loaded-missing",
    "setup.in-hand-missing",
    "setup.in-hand-unknown",
    "setup.in-hand-begun",
    "setup.text-too-long",
    "shop.name-missing",
    "shop.newer",
    "shop.name-taken",
    "shop.stand-number-missing",
    "shop.stand-number-taken",
    "shop.stand-unknown",
    "shop.jack-name-missing",
    "shop.jack-name-taken",
    "shop.jack-unknown",
    "shop.jack-rating-none",
    "shop.limit-none",
    "shop.limit-source-missing",
    "shop.limit-unknown",
    "shop.person-unknown",
    "shop.step-words-missing",
    "shop.step-words-too-long",
    "shop.step-twice",
    "shop.step-unknown",
    "shop.steps-too-many",
    "shop.wrench-name-missing",
    "shop.wrench-name-taken",
    "shop.wrench-unknown",
    "shop.wrench-day-ahead",
    "shop.wheel-source-missing",
    "shop.wheel-range",
    "shop.wheel-order",
    "refuse.shop-taken",
    "refuse.wrench-before-value",
    "refuse.wrench-range",
    "refuse.wrench-no-range",
    "wants.at-rest",
    "wants.chamber",
    "way.not-done",
    "way.not-done-many",
    "way.taken-back",
    "way.beyond",
    "way.not-right",
    "way.foreman",
    "way.unlike",
    "way.line",
    "way.look",
    "way.look-changed",
    "way.look-sent-back",
    "way.though",
    "way.though-many",
    "way.skipped",
    "way.clear.trail",
    "way.clear.do",
    "way.clear.say-again",
    "way.clear.put-right",
    "way.clear.foreman",
    "way.clear.match",
    "way.clear.ask",
    "way.clear.said-no",
    "way.clear.do-line",
    "way.clear.look",
    "way.clear.though",
    "way.clear.skipped",
];

impl Words {
    pub fn plain(key: &str) -> Self {
        Self {
            key: key.to_owned(),
            arguments: Vec::new(),
        }
    }

    pub fn with<const N: usize>(key: &str, arguments: [(&'static str, Arg); N]) -> Self {
        Self {
            key: key.to_owned(),
            arguments: arguments.into(),
        }
    }
}

impl From<&Remark> for Words {
    fn from(remark: &Remark) -> Self {
        Self {
            key: remark.word.key().to_owned(),
            arguments: remark
                .arguments
                .iter()
                .map(|(name, argument)| (*name, Arg::Rule(argument.clone())))
                .collect(),
        }
    }
}

impl From<&TypedFault> for Words {
    fn from(fault: &TypedFault) -> Self {
        Self::from(&fault.remark())
    }
}

#[cfg(test)]
mod tests;
