//! The words of the built app, so that a test asks for a word by its key.

use std::fs;

use serde_json::Value;

use super::dist;

/// A word of `words/en.json` with its blanks filled in.
pub fn word(key: &str, values: &[(&str, &str)]) -> String {
    let mut text = all()[key]
        .as_str()
        .unwrap_or_else(|| panic!("no word {key}"))
        .to_owned();
    for (name, value) in values {
        text = text.replace(&format!("{{{name}}}"), value);
    }
    text
}

/// Every word, by key.
pub fn all() -> Value {
    json("words/en.json")
}

/// The procedure that the built app carries.
pub fn procedure() -> Value {
    json("procedure/s-cam-reline.json")
}

fn json(path: &str) -> Value {
    let text =
        fs::read_to_string(dist().join(path)).unwrap_or_else(|error| panic!("{path}: {error}"));
    serde_json::from_str(&text).unwrap_or_else(|error| panic!("{path}: {error}"))
}
