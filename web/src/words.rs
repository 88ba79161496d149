//! The one place where a key becomes words.
//!
//! The words of the chosen language are loaded once, before the first screen is drawn. Nothing in the
//! app writes a sentence of its own: a key that is missing shows itself in brackets and is logged.

use std::cell::RefCell;
use std::collections::BTreeMap;

use job::event::ShopStep;
use job::id::StepId;
use job::procedure::shop_way::DONE;
use rules::unit::Unit;
use rules::word::{Argument, Remark, Word};

thread_local! {
    static WORDS: RefCell<BTreeMap<String, String>> = const { RefCell::new(BTreeMap::new()) };
    static OF_SHOP: RefCell<BTreeMap<StepId, String>> = const { RefCell::new(BTreeMap::new()) };
}

/// Takes the words of a language file: flat JSON, key to text. Words loaded before stay unless it has them too.
///
/// Errors: the file is not flat JSON; the words stay as they were.
pub(crate) fn load(text: &str) -> Result<(), serde_json::Error> {
    let loaded: BTreeMap<String, String> = serde_json::from_str(text)?;
    WORDS.with_borrow_mut(|words| words.extend(loaded));
    Ok(())
}

/// Learns the steps of the shop's own that a card asks. An id stands for the same words always.
pub(crate) fn learn(steps: &[ShopStep]) {
    let of_step = |step: &ShopStep| (step.id(), step.words.clone());
    OF_SHOP.with_borrow_mut(|known| known.extend(steps.iter().map(of_step)));
}

/// What a step of the shop's own says: its name, what to do and its one line are the same words.
fn of_shop(key: &str) -> Option<String> {
    let (kind, rest) = key.split_once('.')?;
    let (id, part) = rest.split_once('.').unwrap_or((rest, ""));
    let own = OF_SHOP.with_borrow(|known| known.get(&StepId::from(id)).cloned())?;
    match (kind, part.split_once('.').unwrap_or((part, ""))) {
        ("step", ("" | "do", "")) => Some(own),
        ("step", ("why", "")) => find("ui.shop-step.why"),
        ("ask", (DONE, "")) => find("ui.shop-step.ask"),
        ("ask", (DONE, DONE)) => Some(own),
        _ => None,
    }
}

/// The words of `key`.
pub(crate) fn t(key: &str) -> String {
    find(key).unwrap_or_else(|| {
        leptos::logging::warn!("no words for {key:?}");
        format!("[{key}]")
    })
}

/// The words of `key`, or `None` where a language may leave them out.
pub(crate) fn find(key: &str) -> Option<String> {
    let shipped = WORDS.with_borrow(|words| words.get(key).cloned());
    shipped.or_else(|| of_shop(key))
}

/// The words of `key` with each `{name}` replaced by its value.
pub(crate) fn fill(key: &str, values: &[(&str, &str)]) -> String {
    put(&t(key), values)
}

/// The words of a key of the rules.
pub(crate) fn word(word: &Word) -> String {
    t(word.key())
}

/// The short name of a unit, as it stands beside a number.
pub(crate) fn unit(unit: Unit) -> String {
    t(&format!("unit.{}", unit.code()))
}

/// The words of a remark. `show` writes the quantities and shares, in the unit that the screen chose;
/// what it leaves to us (`None`) is written plainly.
pub(crate) fn remark(remark: &Remark, show: &dyn Fn(&Argument) -> Option<String>) -> String {
    let values: Vec<(&str, String)> = remark
        .arguments
        .iter()
        .map(|(name, argument)| (*name, show(argument).unwrap_or_else(|| plain(argument))))
        .collect();
    let values: Vec<(&str, &str)> = values
        .iter()
        .map(|(name, value)| (*name, value.as_str()))
        .collect();
    fill(remark.word.key(), &values)
}

fn plain(argument: &Argument) -> String {
    match argument {
        Argument::Count(count) => count.to_string(),
        Argument::Tenths(tenths) => format!("{}.{}", tenths / 10, tenths % 10),
        Argument::Unit(of) => unit(*of),
        Argument::Word(of) => word(of),
        Argument::Text(text) => text.clone(),
        Argument::Quantity(quantity) => format!("{quantity:?}"),
        Argument::Share(share) => format!("{share:?}"),
    }
}

/// Replaces in one pass, so that a value with braces in it is never read as a place.
fn put(text: &str, values: &[(&str, &str)]) -> String {
    let mut filled = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('{') {
        filled.push_str(before);
        match after.split_once('}') {
            Some((name, after)) => {
                match values.iter().find(|(of, _)| *of == name) {
                    Some((_, value)) => filled.push_str(value),
                    None => filled.push_str(&format!("{{{name}}}")),
                }
                rest = after;
            }
            None => {
                filled.push('{');
                rest = after;
            }
        }
    }
    filled.push_str(rest);
    filled
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_filled_in_one_pass() {
        let values = [("a", "{b}"), ("b", "2")];
        assert_eq!(put("{a} and {b}, {c} {", &values), "{b} and 2, {c} {");
    }

    #[test]
    fn a_step_of_the_shop_says_its_own_words() {
        load(r#"{"ui.shop-step.why": "ours", "ui.shop-step.ask": "Done"}"#).unwrap();
        let step = ShopStep {
            stage: "wheels".into(),
            scope: job::procedure::Scope::End,
            words: "Paint {mark}".to_owned(),
        };
        let id = step.id();
        assert_eq!(find(&format!("step.{id}")), None);
        learn(&[step]);
        for (key, words) in [
            (format!("step.{id}"), Some("Paint {mark}")),
            (format!("step.{id}.do"), Some("Paint {mark}")),
            (format!("step.{id}.why"), Some("ours")),
            (format!("ask.{id}.done"), Some("Done")),
            (format!("ask.{id}.done.done"), Some("Paint {mark}")),
            (format!("step.{id}.caution"), None),
            (format!("skip.{id}.no-air"), None),
        ] {
            assert_eq!(find(&key).as_deref(), words, "{key}");
        }
    }

    #[test]
    fn a_missing_key_shows_itself() {
        load(r#"{"words.test": "axle {axle}"}"#).unwrap();
        assert_eq!(fill("words.test", &[("axle", "2")]), "axle 2");
        assert_eq!(find("words.none"), None);
        assert!(load("[]").is_err());
        assert_eq!(t("words.test"), "axle {axle}");
    }
}
