//! The one place where a key becomes words.
//!
//! The words of the chosen language are loaded once, before the first screen is drawn. Nothing in the
//! app writes a sentence of its own: a key that is missing shows itself in brackets and is logged.

use std::cell::RefCell;
use std::collections::BTreeMap;

use rules::unit::Unit;
use rules::word::{Argument, Remark, Word};

thread_local! {
    static WORDS: RefCell<BTreeMap<String, String>> = const { RefCell::new(BTreeMap::new()) };
}

/// Takes the words of a language file: flat JSON, key to text. Words loaded before stay unless it has them too.
///
/// Errors: the file is not flat JSON; the words stay as they were.
pub(crate) fn load(text: &str) -> Result<(), serde_json::Error> {
    let loaded: BTreeMap<String, String> = serde_json::from_str(text)?;
    WORDS.with_borrow_mut(|words| words.extend(loaded));
    Ok(())
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
    WORDS.with_borrow(|words| words.get(key).cloned())
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
    fn a_missing_key_shows_itself() {
        load(r#"{"words.test": "axle {axle}"}"#).unwrap();
        assert_eq!(fill("words.test", &[("axle", "2")]), "axle 2");
        assert_eq!(find("words.none"), None);
        assert!(load("[]").is_err());
        assert_eq!(t("words.test"), "axle {axle}");
    }
}
