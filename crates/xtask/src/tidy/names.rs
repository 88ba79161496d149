//! Where things lie and what they are called.

use super::{Finding, tree::Tree};

/// Everything that may lie at the top.
const TOP: &[&str] = &[
    ".cargo",
    ".ci",
    ".clippy.toml",
    ".gitattributes",
    ".gitignore",
    "Cargo.lock",
    "Cargo.toml",
    "DEVELOPERS.md",
    "LICENSE",
    "LICENSE-APACHE",
    "LICENSE-MIT",
    "README.md",
    "Trunk.toml",
    "assets",
    "crates",
    "docs",
    "rustfmt.toml",
    "tests",
    "web",
];
/// Names that say nothing about what is inside.
const DRAWERS: &[&str] = &[
    "util", "utils", "helper", "helpers", "common", "misc", "shared",
];

pub(super) fn check(tree: &Tree) -> Vec<Finding> {
    let mut findings = Vec::new();
    let mut strangers = Vec::new();
    for file in &tree.files {
        let top = file.path.split('/').next().unwrap_or(&file.path);
        if !TOP.contains(&top) && !strangers.contains(&top) {
            strangers.push(top);
            findings.push(Finding::new(
                top,
                "doesn't belong at the top",
                "move it, or enter it in tidy/names.rs",
            ));
        }
        if file.path.ends_with("/mod.rs") {
            findings.push(Finding::new(
                &file.path,
                "is a mod.rs",
                "name it after its folder, beside the folder",
            ));
        }
        let drawer = file
            .path
            .split('/')
            .any(|part| DRAWERS.contains(&part.split('.').next().unwrap_or(part)));
        if drawer {
            findings.push(Finding::new(
                &file.path,
                "is a drawer by name",
                "give it a noun of its own",
            ));
        }
        if file.path.ends_with(".rs") {
            findings.extend(
                modules(&file.text)
                    .filter(|name| DRAWERS.contains(name))
                    .map(|name| {
                        Finding::new(
                            &file.path,
                            format!("has a module {name}"),
                            "give it a noun of its own",
                        )
                    }),
            );
        }
    }
    findings
}

/// Names of modules that open or are declared in `text`.
fn modules(text: &str) -> impl Iterator<Item = &str> {
    text.lines().filter_map(|line| {
        let line = line.trim_start();
        let (_, rest) = line
            .split_once("mod ")
            .filter(|(before, _)| before.is_empty() || before.starts_with("pub"))?;
        rest.split([' ', ';', '{']).next()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn drawers_mod_files_and_strangers_are_found() {
        let tree = Tree::of(&[
            (
                "crates/job/src/line.rs",
                "pub(crate) mod fold;\nmod tests {}\n// the common case\n",
            ),
            ("crates/job/src/utils.rs", ""),
            ("crates/job/src/fold/mod.rs", ""),
            ("web/src/helpers/button.rs", ""),
            ("web/src/main.rs", "    pub mod common {"),
            ("notes/a.md", ""),
            ("notes/b.md", ""),
        ]);
        let files: Vec<_> = check(&tree)
            .into_iter()
            .map(|finding| finding.file)
            .collect();
        let expected = [
            "crates/job/src/utils.rs",
            "crates/job/src/fold/mod.rs",
            "web/src/helpers/button.rs",
            "web/src/main.rs",
            "notes",
        ];
        assert_eq!(files, expected);
    }
}
