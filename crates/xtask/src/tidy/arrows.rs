//! Which crate may use which. A new arrow is agreed in writing first, then entered here.

use anyhow::{Context, Result};
use serde_json::Value;
use xshell::{Shell, cmd};

use super::Finding;

/// Each member with the members that it may use.
const ARROWS: &[(&str, &[&str])] = &[
    ("rules", &[]),
    ("job", &["rules"]),
    ("practice", &["rules", "job"]),
    ("peer", &["job"]),
    ("store", &["job"]),
    ("web", &["rules", "job", "practice", "peer", "store"]),
    ("xtask", &["rules", "job"]),
    ("tests", &["rules", "job", "practice", "peer", "store"]),
];

/// Foreign crates by the start of their name, with the members that may use them.
const KEPT_TO: &[(&str, &[&str])] = &[
    ("leptos", &["web"]),
    ("web-sys", &["store", "web"]),
    ("js-sys", &["store", "web"]),
    ("wasm-bindgen", &["store", "web"]),
    ("gloo", &["store", "web"]),
    ("indexed_db", &["store"]),
    ("anyhow", &["xtask", "tests"]),
];

/// Members that take nothing from outside: what decides about brakes stands in this project.
const ALONE: &[&str] = &["rules"];

pub(super) fn check(sh: &Shell) -> Result<Vec<Finding>> {
    findings(
        &cmd!(sh, "cargo metadata --no-deps --format-version 1")
            .quiet()
            .read()?,
    )
}

fn findings(metadata: &str) -> Result<Vec<Finding>> {
    let metadata: Value = serde_json::from_str(metadata)?;
    let mut findings = Vec::new();
    for package in metadata["packages"]
        .as_array()
        .context("no packages in cargo's metadata")?
    {
        let name = package["name"]
            .as_str()
            .context("a package without a name")?;
        let manifest = manifest(package, name);
        let Some((_, may_use)) = ARROWS.iter().find(|(member, _)| *member == name) else {
            findings.push(Finding::new(
                manifest,
                format!("{name} is a new crate"),
                "enter it and its arrows in tidy/arrows.rs",
            ));
            continue;
        };
        for dependency in package["dependencies"].as_array().into_iter().flatten() {
            let used = dependency["name"]
                .as_str()
                .context("a dependency without a name")?;
            let within = dependency["path"].is_string();
            let for_tests = dependency["kind"] == "dev";
            let kept = KEPT_TO.iter().find(|(start, _)| used.starts_with(start));
            let problem = if within && !may_use.contains(&used) {
                Some("turn the arrow round or move the code")
            } else if kept.is_some_and(|(_, members)| !members.contains(&name)) {
                Some("only some crates may know it: see tidy/arrows.rs")
            } else if !within && !for_tests && ALONE.contains(&name) {
                Some("it takes nothing from outside")
            } else {
                None
            };
            findings.extend(
                problem.map(|to_do| Finding::new(&manifest, format!("{name} uses {used}"), to_do)),
            );
        }
    }
    Ok(findings)
}

fn manifest(package: &Value, name: &str) -> String {
    let path = package["manifest_path"].as_str().unwrap_or(name);
    let parts: Vec<_> = path.rsplit(['/', '\\']).take(2).collect();
    parts.into_iter().rev().collect::<Vec<_>>().join("/")
}

#[cfg(test)]
mod tests {
    use super::findings;

    fn package(name: &str, dependencies: &str) -> String {
        format!(
            r#"{{"packages": [{{"name": "{name}", "manifest_path": "/x/{name}/Cargo.toml", "dependencies": [{dependencies}]}}]}}"#
        )
    }

    fn lines(name: &str, dependencies: &str) -> Vec<String> {
        findings(&package(name, dependencies))
            .unwrap()
            .iter()
            .map(ToString::to_string)
            .collect()
    }

    #[test]
    fn agreed_arrows_are_silent() {
        assert!(lines("job", r#"{"name": "rules", "path": "/x/rules", "kind": null}, {"name": "serde", "kind": null}"#).is_empty());
        assert!(lines("web", r#"{"name": "leptos", "kind": null}"#).is_empty());
        assert!(lines("rules", r#"{"name": "proptest", "kind": "dev"}"#).is_empty());
    }

    #[test]
    fn everything_else_is_one_line_each() {
        let turned = lines(
            "rules",
            r#"{"name": "job", "path": "/x/job", "kind": "dev"}"#,
        );
        assert_eq!(
            turned,
            ["rules/Cargo.toml: rules uses job; turn the arrow round or move the code"]
        );
        assert_eq!(
            lines(
                "job",
                r#"{"name": "leptos", "kind": null}, {"name": "web-sys", "kind": null}"#
            )
            .len(),
            2
        );
        assert_eq!(
            lines("rules", r#"{"name": "serde", "kind": null}"#).len(),
            1
        );
        assert_eq!(lines("drawer", "").len(), 1);
    }
}
