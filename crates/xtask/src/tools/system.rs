//! Packages of the operating system: installed on Debian as root, asked for everywhere else.

use std::path::Path;

use anyhow::{Context, Result, bail};
use xshell::{Shell, cmd};

/// Installs `packages`, or says that `what` is missing and which packages hold it on Debian.
pub(super) fn install(sh: &Shell, packages: &[&str], what: &str) -> Result<()> {
    if !(Path::new("/etc/debian_version").exists() && is_root(sh)) {
        bail!(
            "{what} is missing: install it and run this again (on Debian: apt-get install {})",
            packages.join(" ")
        );
    }
    println!("{what} is needed: installing it");
    let quietly = ["-y", "-q", "--no-install-recommends"];
    cmd!(sh, "apt-get update -q").run()?;
    cmd!(sh, "apt-get install {quietly...} {packages...}")
        .env("DEBIAN_FRONTEND", "noninteractive")
        .run()
        .with_context(|| format!("can't install {what}"))
}

fn is_root(sh: &Shell) -> bool {
    cmd!(sh, "id -u")
        .quiet()
        .ignore_stderr()
        .read()
        .is_ok_and(|user| user == "0")
}
