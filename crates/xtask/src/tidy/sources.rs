//! Every source that is listed is also used: a limit that went away takes its citation with it.

use super::{Finding, tree::Tree};

const SOURCES: &str = "crates/rules/src/source.rs";

pub(super) fn check(tree: &Tree) -> Vec<Finding> {
    let Some(sources) = tree.file(SOURCES) else {
        return vec![Finding::new(
            SOURCES,
            "is missing",
            "sources are listed there",
        )];
    };
    let others: Vec<_> = tree
        .files("crates/", ".rs")
        .filter(|file| file.path != SOURCES)
        .collect();
    let unused = constants(&sources.text)
        .filter(|name| !others.iter().any(|file| has_word(&file.text, name)));
    unused
        .map(|name| {
            Finding::new(
                SOURCES,
                format!("{name} is used nowhere"),
                "use it or remove it",
            )
        })
        .collect()
}

fn constants(text: &str) -> impl Iterator<Item = &str> {
    text.lines()
        .filter_map(|line| {
            line.trim_start()
                .strip_prefix("pub const ")?
                .split_once(": Source =")
        })
        .map(|(name, _)| name)
}

fn has_word(text: &str, word: &str) -> bool {
    let part_of_name = |c: char| c.is_alphanumeric() || c == '_';
    text.match_indices(word).any(|(at, _)| {
        let before = text[..at].chars().next_back();
        let after = text[at + word.len()..].chars().next();
        !before.is_some_and(part_of_name) && !after.is_some_and(part_of_name)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_unused_source_is_found_even_beside_a_longer_name() {
        let source =
            "pub const STROKE: Source = source(\n);\npub const DRUM: Source = source(\n);\n";
        let tree = Tree::of(&[
            (SOURCES, source),
            (
                "crates/rules/src/a.rs",
                "use crate::source::{STROKE_LIMIT, DRUM};",
            ),
        ]);
        let lines: Vec<_> = check(&tree).iter().map(ToString::to_string).collect();
        assert_eq!(
            lines,
            ["crates/rules/src/source.rs: STROKE is used nowhere; use it or remove it"]
        );
    }
}
