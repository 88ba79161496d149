//! What must not stand in any file: where somebody's machine keeps things, and where packages were fetched.

use super::{Finding, tree::Tree};

const THIS: &str = "crates/xtask/src/tidy/wording.rs";
/// Starts of absolute paths; a match counts where no longer word or address goes before.
const MACHINE: &[&str] = &["/home/", "/root/", "/tmp/", "/work/", "/Users/", "C:\\"];
const REGISTRIES: &[&str] = &[
    "registry.npmjs.org",
    "index.crates.io",
    "static.crates.io",
    "pypi.org",
    "deb.debian.org",
    "proxy.golang.org",
];

pub(super) fn check(tree: &Tree) -> Vec<Finding> {
    let mut findings = Vec::new();
    for file in tree.files.iter().filter(|file| file.path != THIS) {
        let absolute = MACHINE
            .iter()
            .find(|start| starts_a_path(&file.text, start));
        findings.extend(absolute.map(|start| {
            Finding::new(
                &file.path,
                format!("holds a path {start}…"),
                "make it relative to the project",
            )
        }));
        let registry = REGISTRIES.iter().find(|host| file.text.contains(**host));
        findings.extend(registry.map(|host| {
            Finding::new(
                &file.path,
                format!("names {host}"),
                "leave it to the tools' settings",
            )
        }));
    }
    findings
}

fn starts_a_path(text: &str, start: &str) -> bool {
    text.match_indices(start).any(|(at, _)| {
        let before = text[..at].chars().next_back();
        !before.is_some_and(|c| c.is_alphanumeric() || "./-_~*".contains(c))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn machine_paths_and_registries_are_found_and_parts_of_others_are_not() {
        let tree = Tree::of(&[
            ("a.toml", "path = \"/home/someone/x\""),
            ("b.lock", "https://registry.npmjs.org/x"),
            ("c.md", "see docs/home/ and target/tmp/ and ./work/"),
        ]);
        let files: Vec<_> = check(&tree)
            .into_iter()
            .map(|finding| finding.file)
            .collect();
        assert_eq!(files, ["a.toml", "b.lock"]);
    }
}
