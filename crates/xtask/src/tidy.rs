//! `cargo xtask tidy`: what the compiler and clippy can't see. Each finding is one line: file, what, what to do.
//!
//! It reads only and repairs nothing.

mod arrows;
mod names;
mod sources;
mod tables;
mod tree;
mod wording;
mod words;

use std::fmt;

use anyhow::{Result, ensure};
use xshell::Shell;

use self::tree::Tree;
use crate::{args::Args, project::Project};

pub(crate) fn run(sh: &Shell, project: &Project, args: Args) -> Result<()> {
    args.finish()?;
    check(sh, project)
}

/// Prints all findings; succeeds if there are none.
pub(crate) fn check(sh: &Shell, project: &Project) -> Result<()> {
    let _dir = sh.push_dir(&project.root);
    let tree = Tree::read(sh, &project.root)?;
    let mut findings = arrows::check(sh)?;
    findings.extend(names::check(&tree));
    findings.extend(tables::check(&tree, rules::rules::RULES.len()));
    findings.extend(sources::check(&tree));
    findings.extend(words::check(&tree)?);
    findings.extend(wording::check(&tree));
    for finding in &findings {
        println!("{finding}");
    }
    ensure!(findings.is_empty(), "{} things to tidy up", findings.len());
    println!("tidy: {} files", tree.files.len());
    Ok(())
}

/// One thing that is not as agreed.
#[derive(Debug, PartialEq)]
pub(crate) struct Finding {
    file: String,
    what: String,
    to_do: &'static str,
}

impl Finding {
    fn new(file: impl Into<String>, what: impl Into<String>, to_do: &'static str) -> Self {
        Self {
            file: file.into(),
            what: what.into(),
            to_do,
        }
    }
}

impl fmt::Display for Finding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}; {}", self.file, self.what, self.to_do)
    }
}
