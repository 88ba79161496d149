//! Every word key that code or a procedure asks for is in every language file, with the same arguments.

use std::collections::{BTreeMap, BTreeSet};

use anyhow::{Context, Result};
use job::bring::BringList;
use job::procedure::Procedure;

use super::{Finding, tree::Tree};

const LANGUAGES: &str = "assets/words/";
const FIRST_LANGUAGE: &str = "assets/words/en.json";
const PROCEDURES: &str = "assets/procedure/";
const BRING_LISTS: &str = "assets/bring/";
/// Literals of a key's shape that are names of files.
const FILE_ENDINGS: &[&str] = &[
    "css",
    "html",
    "js",
    "json",
    "png",
    "svg",
    "txt",
    "webmanifest",
];

type Language = BTreeMap<String, String>;

pub(super) fn check(tree: &Tree) -> Result<Vec<Finding>> {
    let mut languages = Vec::new();
    for file in tree.files(LANGUAGES, ".json") {
        let language: Language = serde_json::from_str(&file.text)
            .with_context(|| format!("{} is not flat", file.path))?;
        languages.push((file.path.as_str(), language));
    }
    let mut findings = Vec::new();
    if !languages.iter().any(|(path, _)| *path == FIRST_LANGUAGE) {
        findings.push(Finding::new(
            FIRST_LANGUAGE,
            "is missing",
            "English comes first",
        ));
    }
    let asked = asked(tree, &mut findings);
    for (path, language) in &languages {
        for (key, by) in asked.iter().filter(|(key, _)| !language.contains_key(*key)) {
            findings.push(Finding::new(
                *path,
                format!("lacks {key:?}, which {by} asks for"),
                "add the words",
            ));
        }
        for (key, allowed) in rules::word::ALL {
            let used = language
                .get(*key)
                .map(|text| places(text))
                .unwrap_or_default();
            let strange = used.iter().find(|name| !allowed.contains(name));
            let finding = strange.map(|name| {
                Finding::new(
                    *path,
                    format!("{key:?} asks for {{{name}}}"),
                    "use a listed argument",
                )
            });
            findings.extend(finding);
        }
    }
    Ok(findings)
}

/// Every key that is asked for, with who asks first.
fn asked(tree: &Tree, findings: &mut Vec<Finding>) -> BTreeMap<String, String> {
    let mut asked = BTreeMap::new();
    let mut ask = |key: String, by: &str| {
        asked.entry(key).or_insert_with(|| by.to_owned());
    };
    rules::word::ALL
        .iter()
        .for_each(|(key, _)| ask((*key).to_owned(), "crates/rules"));
    job::words::KEYS
        .iter()
        .for_each(|key| ask((*key).to_owned(), "crates/job"));
    for file in tree.files(PROCEDURES, ".json") {
        match Procedure::read(&file.text) {
            Ok(procedure) => procedure
                .word_keys()
                .into_iter()
                .for_each(|key| ask(key, &file.path)),
            Err(fault) => findings.push(Finding::new(
                &file.path,
                format!("can't be read: {fault:?}"),
                "correct it",
            )),
        }
    }
    for file in tree.files(BRING_LISTS, ".json") {
        match BringList::read(&file.text) {
            Ok(list) => list
                .word_keys()
                .into_iter()
                .for_each(|key| ask(key, &file.path)),
            Err(fault) => findings.push(Finding::new(
                &file.path,
                format!("can't be read: {fault}"),
                "correct it",
            )),
        }
    }
    for file in tree.files("web/src/", ".rs") {
        literal_keys(&file.text).for_each(|key| ask(key.to_owned(), &file.path));
    }
    asked
}

/// Literals outside of tests that look like a key: lower-case words joined by points.
fn literal_keys(text: &str) -> impl Iterator<Item = &str> {
    let code = text.split("#[cfg(test)]").next().unwrap_or(text);
    code.split('"').filter(|literal| {
        let word = |part: &str| {
            part.starts_with(|c: char| c.is_ascii_lowercase())
                && part
                    .chars()
                    .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-')
        };
        let ending = literal.rsplit('.').next().unwrap_or_default();
        literal.contains('.') && literal.split('.').all(word) && !FILE_ENDINGS.contains(&ending)
    })
}

/// The names of the `{places}` in a text.
fn places(text: &str) -> BTreeSet<&str> {
    text.split('{')
        .skip(1)
        .filter_map(|rest| rest.split_once('}'))
        .map(|(name, _)| name)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn literals_that_look_like_keys() {
        let text = r#"
            view! { {t("card.new")} <Choice words=Signal::derive(|| t("map.axle-2"))/> } word("step.{id}");
            fetch("words/en.json"); load("en.json"); say("Not a key."); version("0.1.0");
            #[cfg(test)] mod tests { t("words.test") }"#;
        assert_eq!(
            literal_keys(text).collect::<Vec<_>>(),
            ["card.new", "map.axle-2"]
        );
    }

    #[test]
    fn a_missing_word_is_found_in_the_language_that_lacks_it() {
        let mut all: Language = rules::word::ALL
            .iter()
            .map(|(key, _)| ((*key).to_owned(), String::new()))
            .collect();
        all.extend(
            job::words::KEYS
                .iter()
                .map(|key| ((*key).to_owned(), String::new())),
        );
        let english = serde_json::to_string(&all).unwrap();
        all.remove(job::words::KEYS[0]);
        all.insert("card.new".to_owned(), "New card".to_owned());
        let other = serde_json::to_string(&all).unwrap();
        let tree = Tree::of(&[
            ("assets/words/en.json", &english),
            ("assets/words/es.json", &other),
            ("web/src/screens/cards.rs", r#"t("card.new")"#),
        ]);
        let files: Vec<_> = check(&tree)
            .unwrap()
            .into_iter()
            .map(|finding| finding.file)
            .collect();
        assert_eq!(files, ["assets/words/en.json", "assets/words/es.json"]);
    }

    #[test]
    fn a_place_that_no_argument_fills_is_found() {
        let (key, arguments) = rules::word::ALL[0];
        assert!(arguments.is_empty());
        let tree = Tree::of(&[(
            "assets/words/en.json",
            &format!("{{\"{key}\": \"{{nobody}} fills this\"}}"),
        )]);
        assert!(
            check(&tree)
                .unwrap()
                .iter()
                .any(|finding| finding.what.contains("{nobody}"))
        );
    }
}
