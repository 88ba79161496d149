//! `cargo xtask test` and `cargo xtask check`: the parts of CI, fast ones first, each with its time.

use std::time::{Duration, Instant};

use anyhow::{Context, Result, bail, ensure};
use xshell::{Shell, cmd};

use crate::{args::Args, project::Project, release, tidy, tools};

const WASM: &str = "wasm32-unknown-unknown";
const NATIVE: &[&str] = &["rules", "job", "practice", "store", "web", "xtask"];
const IN_THE_BROWSER_TOO: &[&str] = &["rules", "job", "practice", "store", "web"];
/// The test target of `tests` that needs a built app and a browser.
const BROWSER_TESTS: &str = "browser";

struct Part {
    name: &'static str,
    title: &'static str,
    fast: bool,
    /// The part that has to succeed before this one says anything.
    needs: Option<&'static str>,
    run: fn(&Shell, &Project) -> Result<()>,
}

const PARTS: &[Part] = &[
    Part {
        name: "fmt",
        title: "formatting",
        fast: true,
        needs: None,
        run: fmt,
    },
    Part {
        name: "tidy",
        title: "arrows, names, tables, sources, words",
        fast: true,
        needs: None,
        run: tidy::check,
    },
    Part {
        name: "clippy",
        title: "lints, native",
        fast: true,
        needs: None,
        run: clippy,
    },
    Part {
        name: "clippy-wasm",
        title: "lints, browser",
        fast: true,
        needs: None,
        run: clippy_wasm,
    },
    Part {
        name: "unit",
        title: "tests without a browser",
        fast: true,
        needs: None,
        run: unit,
    },
    Part {
        name: "build",
        title: "release build",
        fast: false,
        needs: None,
        run: release::build,
    },
    Part {
        name: "store",
        title: "the store's contract in Chromium",
        fast: false,
        needs: None,
        run: store_in_browser,
    },
    Part {
        name: "browser",
        title: "the built app in Chromium",
        fast: false,
        needs: Some("build"),
        run: app_in_browser,
    },
];

/// Runs all parts, or the one that is named.
pub(crate) fn test(sh: &Shell, project: &Project, mut args: Args) -> Result<()> {
    let wanted = args.word();
    args.finish()?;
    let Some(name) = wanted else {
        return run(sh, project, &PARTS.iter().collect::<Vec<_>>());
    };
    let names = || {
        PARTS
            .iter()
            .map(|part| part.name)
            .collect::<Vec<_>>()
            .join(", ")
    };
    let part = PARTS
        .iter()
        .find(|part| part.name == name)
        .with_context(|| format!("no part {name:?}: {}", names()))?;
    run(sh, project, &[part])
}

/// Runs the parts that take seconds, not minutes, once everything is compiled.
pub(crate) fn check(sh: &Shell, project: &Project, args: Args) -> Result<()> {
    args.finish()?;
    run(
        sh,
        project,
        &PARTS.iter().filter(|part| part.fast).collect::<Vec<_>>(),
    )
}

#[derive(Clone, Copy, PartialEq)]
enum Outcome {
    Done,
    Failed,
    NotRun,
}

fn run(sh: &Shell, project: &Project, parts: &[&Part]) -> Result<()> {
    let _dir = sh.push_dir(&project.root);
    let mut outcomes: Vec<(&Part, Outcome, Duration)> = Vec::new();
    for part in parts {
        let lacks = |need| {
            outcomes
                .iter()
                .any(|(done, outcome, _)| done.name == need && *outcome != Outcome::Done)
        };
        println!("\n== {}: {}", part.name, part.title);
        let start = Instant::now();
        let outcome = if let Some(need) = part.needs.filter(|need| lacks(*need)) {
            println!("not run: {need} did not succeed");
            Outcome::NotRun
        } else {
            match (part.run)(sh, project) {
                Ok(()) => Outcome::Done,
                Err(error) => {
                    println!("{error:#}");
                    Outcome::Failed
                }
            }
        };
        println!(
            "-- {} took {:.1} s",
            part.name,
            start.elapsed().as_secs_f64()
        );
        outcomes.push((part, outcome, start.elapsed()));
    }
    println!("\n== summary");
    for (part, outcome, took) in &outcomes {
        let word = match outcome {
            Outcome::Done => "done",
            Outcome::Failed => "FAILED",
            Outcome::NotRun => "NOT RUN",
        };
        println!(
            "{:<12} {word:<8} {:>7.1} s  {}",
            part.name,
            took.as_secs_f64(),
            part.title
        );
    }
    let left = outcomes
        .iter()
        .filter(|(_, outcome, _)| *outcome != Outcome::Done)
        .count();
    ensure!(
        left == 0,
        "{left} of {} parts did not succeed",
        outcomes.len()
    );
    Ok(())
}

fn fmt(sh: &Shell, _: &Project) -> Result<()> {
    Ok(cmd!(sh, "cargo fmt --all --check").run()?)
}

fn clippy(sh: &Shell, _: &Project) -> Result<()> {
    Ok(cmd!(sh, "cargo clippy --workspace --all-targets -- -D warnings").run()?)
}

fn clippy_wasm(sh: &Shell, _: &Project) -> Result<()> {
    tools::wasm_target(sh)?;
    let packages = packages(IN_THE_BROWSER_TOO);
    cmd!(
        sh,
        "cargo clippy {packages...} --target {WASM} -- -D warnings"
    )
    .run()?;
    Ok(cmd!(
        sh,
        "cargo clippy -p store --tests --target {WASM} -- -D warnings"
    )
    .run()?)
}

fn unit(sh: &Shell, _: &Project) -> Result<()> {
    let native = packages(NATIVE);
    cmd!(sh, "cargo test {native...}").run()?;
    let targets = test_targets(
        &cmd!(sh, "cargo metadata --no-deps --format-version 1")
            .quiet()
            .read()?,
    )?;
    Ok(cmd!(sh, "cargo test -p tests --lib {targets...}").run()?)
}

fn store_in_browser(sh: &Shell, project: &Project) -> Result<()> {
    tools::wasm_target(sh)?;
    tools::wasm_bindgen(sh, project)?;
    let browser = tools::ready_to_browse(sh)?;
    let _path = tools::with_ours_first(sh, project)?;
    cmd!(sh, "cargo test -p store --target {WASM}")
        .env(
            "CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUNNER",
            "wasm-bindgen-test-runner",
        )
        .env("CHROMEDRIVER", browser.driver)
        .run()?;
    Ok(())
}

fn app_in_browser(sh: &Shell, project: &Project) -> Result<()> {
    let dist = project.dist();
    if !dist.is_dir() {
        bail!("there is no built app: run `cargo xtask test build` first");
    }
    let browser = tools::ready_to_browse(sh)?;
    cmd!(sh, "cargo test -p tests --test {BROWSER_TESTS}")
        .env("CHOCK_XTASK", &project.xtask)
        .env("CHOCK_DIST", dist)
        .env("CHROMEDRIVER", browser.driver)
        .env("CHROMIUM", browser.chromium)
        .run()?;
    Ok(())
}

fn packages(names: &[&'static str]) -> Vec<&'static str> {
    names.iter().flat_map(|name| ["-p", name]).collect()
}

/// `--test NAME` for every test target of `tests` that needs no browser.
fn test_targets(metadata: &str) -> Result<Vec<String>> {
    let metadata: serde_json::Value = serde_json::from_str(metadata)?;
    let packages = metadata["packages"]
        .as_array()
        .context("no packages in cargo's metadata")?;
    let tests = packages
        .iter()
        .find(|package| package["name"] == "tests")
        .context("no package called tests")?;
    let targets = tests["targets"].as_array().into_iter().flatten();
    let names = targets
        .filter(|target| target["kind"][0] == "test" && target["name"] != BROWSER_TESTS)
        .filter_map(|target| target["name"].as_str());
    Ok(names
        .flat_map(|name| ["--test".to_owned(), name.to_owned()])
        .collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn browser_tests_are_left_to_their_own_part() {
        let metadata = r#"{"packages": [
            {"name": "job", "targets": [{"kind": ["test"], "name": "other"}]},
            {"name": "tests", "targets": [
                {"kind": ["lib"], "name": "tests"},
                {"kind": ["test"], "name": "browser"},
                {"kind": ["test"], "name": "whole_job"}]}]}"#;
        assert_eq!(test_targets(metadata).unwrap(), ["--test", "whole_job"]);
    }

    #[test]
    fn a_part_needs_an_earlier_one() {
        for (at, part) in PARTS.iter().enumerate() {
            let earlier = |need| PARTS.iter().take(at).any(|other| other.name == need);
            assert!(part.needs.is_none_or(earlier), "{}", part.name);
        }
    }

    #[test]
    fn one_failure_fails_the_run_and_what_needs_it() {
        fn fails(_: &Shell, _: &Project) -> Result<()> {
            bail!("on purpose")
        }
        fn never(_: &Shell, _: &Project) -> Result<()> {
            panic!("its need failed")
        }
        let build = Part {
            name: "build",
            title: "",
            fast: true,
            needs: None,
            run: fails,
        };
        let browser = Part {
            name: "browser",
            title: "",
            fast: true,
            needs: Some("build"),
            run: never,
        };
        let done = Part {
            name: "done",
            title: "",
            fast: true,
            needs: None,
            run: |_, _| Ok(()),
        };
        let (sh, project) = (Shell::new().unwrap(), Project::find().unwrap());
        assert!(run(&sh, &project, &[&done]).is_ok());
        let error = run(&sh, &project, &[&build, &browser, &done]).unwrap_err();
        assert_eq!(error.to_string(), "2 of 3 parts did not succeed");
    }
}
