//! `cargo xtask`: everything that is done with the project from a terminal, on a developer's machine and in CI.
//!
//! One file per command. It never decides anything about brakes: limits, steps and words are other crates'.
#![expect(clippy::print_stdout, reason = "a terminal tool talks on the terminal")]

mod args;
mod bench;
mod host;
mod parts;
mod precache;
mod project;
mod release;
mod rule_list;
mod serve;
mod shots;
mod site;
mod tidy;
mod tools;

use std::process::ExitCode;

use anyhow::{Result, bail};
use xshell::Shell;

use crate::{args::Args, project::Project};

const USAGE: &str = "\
cargo xtask <command>

  serve [--port N]         build for release and serve the app on this machine
  test [PART]              everything that CI runs, or one part of it
  check                    the fast part of test
  tidy                     arrows between crates, names, tables, sources, words, tracked files
  shots                    pictures of every screen, to look at, in target/shots
  bench                    how long the lists take over 5,000 cards
  rule-list                every rule with its limits and sources
  host --dir D [--port N]  only serve a folder (port 0: any free one)
  precache                 write the service worker's file list (Trunk calls this)";

fn main() -> ExitCode {
    match run(Args::from_command_line()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("xtask: {error:#}");
            ExitCode::FAILURE
        }
    }
}

fn run(mut args: Args) -> Result<()> {
    let sh = Shell::new()?;
    let project = Project::find()?;
    match args.word().as_deref() {
        Some("serve") => serve::run(&sh, &project, args),
        Some("test") => parts::test(&sh, &project, args),
        Some("check") => parts::check(&sh, &project, args),
        Some("tidy") => tidy::run(&sh, &project, args),
        Some("shots") => shots::run(&sh, &project, args),
        Some("bench") => bench::run(args),
        Some("rule-list") => rule_list::run(&project, args),
        Some("host") => host::run(args),
        Some("precache") => precache::run(&project, args),
        Some("help" | "--help" | "-h") | None => {
            println!("{USAGE}");
            Ok(())
        }
        Some(other) => bail!("unknown command {other:?}\n\n{USAGE}"),
    }
}
