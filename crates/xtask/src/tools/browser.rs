//! A real Chromium and the driver that fits it.

use std::path::PathBuf;

use anyhow::{Context, Result, bail};
use xshell::{Shell, cmd};

use super::{on_path, system, version::Version};

const BROWSERS: &[&str] = &[
    "chromium",
    "chromium-browser",
    "google-chrome",
    "google-chrome-stable",
];
const DRIVERS: &[&str] = &["chromedriver"];

pub(crate) struct Browser {
    pub(crate) chromium: PathBuf,
    pub(crate) driver: PathBuf,
}

/// Finds or installs both. `CHROMIUM` and `CHROMEDRIVER` choose others than those on the path.
pub(crate) fn ready_to_browse(sh: &Shell) -> Result<Browser> {
    if find(sh, "CHROMIUM", BROWSERS).is_none() || find(sh, "CHROMEDRIVER", DRIVERS).is_none() {
        system::install(
            sh,
            &["chromium", "chromium-driver"],
            "Chromium with its driver",
        )?;
    }
    let chromium =
        find(sh, "CHROMIUM", BROWSERS).context("chromium was installed but is not on the path")?;
    let driver = find(sh, "CHROMEDRIVER", DRIVERS)
        .context("chromedriver was installed but is not on the path")?;
    let (browser, drives) = (major(sh, &chromium)?, major(sh, &driver)?);
    if browser != drives {
        bail!(
            "Chromium is version {browser} and its driver {drives}: install a driver of the same version"
        );
    }
    Ok(Browser { chromium, driver })
}

fn find(sh: &Shell, variable: &str, programs: &[&str]) -> Option<PathBuf> {
    let chosen = sh
        .var_os(variable)
        .map(PathBuf::from)
        .filter(|file| file.is_file());
    chosen.or_else(|| programs.iter().find_map(|program| on_path(sh, program)))
}

fn major(sh: &Shell, program: &PathBuf) -> Result<u32> {
    let output = cmd!(sh, "{program} --version")
        .quiet()
        .ignore_stderr()
        .read()?;
    Version::find(&output)
        .and_then(|version| version.major())
        .with_context(|| {
            format!(
                "can't read the version of {} in {output:?}",
                program.display()
            )
        })
}
