//! `cargo xtask shots`: pictures of every screen in Chromium, and sheets of them for a person to look through.
//!
//! It builds the app first if anything that goes into it is newer than the build. It judges nothing.

use std::{fs, path::Path, time::SystemTime};

use anyhow::{Context, Result};
use xshell::{Shell, cmd};

use crate::{args::Args, project::Project, release, tools};

/// What the built app is made of.
const GOES_IN: &[&str] = &[
    "Cargo.lock",
    "Cargo.toml",
    "Trunk.toml",
    "assets",
    "crates/job/src",
    "crates/practice/src",
    "crates/rules/src",
    "crates/store/src",
    "web",
];

/// Leaves the pictures and sheets in `target/shots`.
pub(crate) fn run(sh: &Shell, project: &Project, args: Args) -> Result<()> {
    args.finish()?;
    if !is_fresh(project)? {
        release::build(sh, project)?;
    }
    let browser = tools::ready_to_browse(sh)?;
    let _dir = sh.push_dir(&project.root);
    cmd!(sh, "cargo run --package tests --example shots")
        .env("CHOCK_XTASK", &project.xtask)
        .env("CHOCK_DIST", project.dist())
        .env("CHROMEDRIVER", browser.driver)
        .env("CHROMIUM", browser.chromium)
        .run()?;
    Ok(())
}

fn is_fresh(project: &Project) -> Result<bool> {
    let worker = project.dist().join(crate::precache::WORKER);
    let Ok(built) = worker.metadata().and_then(|worker| worker.modified()) else {
        return Ok(false);
    };
    for path in GOES_IN {
        if newest(&project.root.join(path))? > built {
            return Ok(false);
        }
    }
    Ok(true)
}

/// When anything in a file or folder was changed last.
fn newest(path: &Path) -> Result<SystemTime> {
    let about = fs::metadata(path).with_context(|| format!("can't look at {}", path.display()))?;
    let mut latest = about.modified()?;
    if about.is_dir() {
        for entry in fs::read_dir(path)? {
            latest = latest.max(newest(&entry?.path())?);
        }
    }
    Ok(latest)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn everything_that_goes_in_is_there() {
        let project = Project::find().unwrap();
        for path in GOES_IN {
            assert!(newest(&project.root.join(path)).is_ok(), "{path}");
        }
    }

    #[test]
    fn a_later_file_deep_down_counts() {
        let sh = Shell::new().unwrap();
        let dir = sh.create_temp_dir().unwrap();
        sh.write_file(dir.path().join("a/b/c.txt"), "1").unwrap();
        let before = newest(dir.path()).unwrap();
        std::thread::sleep(std::time::Duration::from_millis(20));
        sh.write_file(dir.path().join("a/b/c.txt"), "2").unwrap();
        assert!(before < newest(dir.path()).unwrap());
    }
}
