//! The tools that a build and the browser tests need: which are here, which fit, and how the rest is fetched.
//!
//! What is fetched goes into `target/tools`, so no tool of another project is replaced. System packages are
//! installed only on Debian as root; everywhere else the command says exactly what is missing.

mod browser;
mod system;
mod version;

use std::{
    env,
    path::{Path, PathBuf},
};

use anyhow::{Context, Result, bail, ensure};
use xshell::{PushEnv, Shell, cmd};

pub(crate) use browser::ready_to_browse;

use self::version::{Fits, Version};
use crate::project::Project;

const WASM: &str = "wasm32-unknown-unknown";
const TRUNK: &str = "0.21.14";
const BINARYEN: &str = "132.0.0";

/// A tool that is looked for on the path and asked for its version.
struct Tool {
    program: &'static str,
    wanted: Version,
    fits: Fits,
}

/// What is to be done about a tool.
#[derive(Debug, PartialEq)]
enum Need {
    Nothing,
    Install { found: Option<Version> },
}

impl Tool {
    fn need(&self, version_output: Option<&str>) -> Need {
        match version_output.and_then(Version::find) {
            Some(found) if self.fits.accept(&self.wanted, &found) => Need::Nothing,
            found => Need::Install { found },
        }
    }

    /// Runs `install` if the tool is missing or doesn't fit, and makes sure that it fits afterwards.
    fn provide(&self, sh: &Shell, install: impl FnOnce() -> Result<()>) -> Result<()> {
        let Need::Install { found } = self.need(version_output(sh, self.program).as_deref()) else {
            return Ok(());
        };
        let found = found.map_or("none".to_owned(), |version| version.to_string());
        println!(
            "{} {} is needed, found {found}: installing it",
            self.program, self.wanted
        );
        install().with_context(|| format!("can't install {} {}", self.program, self.wanted))?;
        ensure!(
            self.need(version_output(sh, self.program).as_deref()) == Need::Nothing,
            "{} {} was installed but can't be run",
            self.program,
            self.wanted
        );
        Ok(())
    }
}

/// Makes sure of everything that `release::build` runs.
pub(crate) fn ready_to_build(sh: &Shell, project: &Project) -> Result<()> {
    let _path = with_ours_first(sh, project)?;
    wasm_target(sh)?;
    wasm_bindgen(sh, project)?;
    let trunk = Tool {
        program: "trunk",
        wanted: Version::find(TRUNK).context(TRUNK)?,
        fits: Fits::SameMinorOrLater,
    };
    trunk.provide(sh, || {
        let root = project.tools();
        let install = cmd!(
            sh,
            "cargo install trunk --locked --version {TRUNK} --root {root}"
        );
        quick_to_compile(install.args(["--no-default-features", "--features", "rustls"]))
            .run()
            .map_err(Into::into)
    })?;
    let wasm_opt = Tool {
        program: "wasm-opt",
        wanted: Version::find(BINARYEN).context(BINARYEN)?,
        fits: Fits::SameMajorOrLater,
    };
    wasm_opt.provide(sh, || {
        node(sh)?;
        let root = project.tools();
        sh.create_dir(&root)?;
        cmd!(
            sh,
            "npm install --prefix {root} --no-audit --no-fund binaryen@{BINARYEN}"
        )
        .run()
        .map_err(Into::into)
    })
}

/// Makes sure of `wasm-bindgen` and its test runner, at exactly the version in `Cargo.lock`.
pub(crate) fn wasm_bindgen(sh: &Shell, project: &Project) -> Result<()> {
    let _path = with_ours_first(sh, project)?;
    let wanted = locked(&project.read("Cargo.lock")?, "wasm-bindgen")?;
    for program in ["wasm-bindgen", "wasm-bindgen-test-runner"] {
        let tool = Tool {
            program,
            wanted: Version::find(&wanted).context("no version")?,
            fits: Fits::Exactly,
        };
        tool.provide(sh, || {
            let root = project.tools();
            // Without --locked: its lock file names releases that not every registry still has.
            let install = cmd!(
                sh,
                "cargo install wasm-bindgen-cli --version {wanted} --root {root} --force"
            );
            quick_to_compile(install).run().map_err(Into::into)
        })?;
    }
    Ok(())
}

/// Makes sure that the compiler can build for the browser.
pub(crate) fn wasm_target(sh: &Shell) -> Result<()> {
    let libraries = cmd!(sh, "rustc --print target-libdir --target {WASM}")
        .quiet()
        .read()?;
    if Path::new(&libraries).is_dir() {
        return Ok(());
    }
    if version_output(sh, "rustup").is_none() {
        bail!(
            "this Rust can't build for {WASM} and was not installed with rustup; install your distribution's \
             package for that target, or Rust with rustup"
        );
    }
    println!("the {WASM} target is needed: installing it");
    cmd!(sh, "rustup target add {WASM}").run()?;
    Ok(())
}

/// Puts our own tools in front of the path until the guard is dropped.
pub(crate) fn with_ours_first<'a>(sh: &'a Shell, project: &Project) -> Result<PushEnv<'a>> {
    let ours = [
        project.tools().join("bin"),
        project.tools().join("node_modules/.bin"),
    ];
    let path = sh.var_os("PATH").unwrap_or_default();
    let all = ours
        .iter()
        .cloned()
        .chain(env::split_paths(&path).filter(|folder| !ours.contains(folder)));
    Ok(sh.push_env("PATH", env::join_paths(all)?))
}

fn node(sh: &Shell) -> Result<()> {
    if version_output(sh, "node").is_some() && version_output(sh, "npm").is_some() {
        return Ok(());
    }
    system::install(sh, &["nodejs", "npm"], "Node.js with npm")
}

/// What `program --version` prints, if there is such a program and it works.
fn version_output(sh: &Shell, program: &str) -> Option<String> {
    cmd!(sh, "{program} --version")
        .quiet()
        .ignore_stderr()
        .read()
        .ok()
}

/// A tool that runs for seconds needs no optimization that takes minutes.
fn quick_to_compile(install: xshell::Cmd<'_>) -> xshell::Cmd<'_> {
    install
        .env("CARGO_PROFILE_RELEASE_OPT_LEVEL", "0")
        .env("CARGO_PROFILE_RELEASE_LTO", "off")
        .env("CARGO_PROFILE_RELEASE_CODEGEN_UNITS", "16")
}

/// The version of `package` in a lock file.
fn locked(lock: &str, package: &str) -> Result<String> {
    let name = format!("name = \"{package}\"");
    let mut lines = lock.lines().skip_while(|line| *line != name);
    let version = lines
        .nth(1)
        .and_then(|line| line.strip_prefix("version = \"")?.strip_suffix('"'));
    Ok(version
        .with_context(|| format!("Cargo.lock has no {package}"))?
        .to_owned())
}

/// Where `program` lies on the path.
fn on_path(sh: &Shell, program: &str) -> Option<PathBuf> {
    let path = sh.var_os("PATH")?;
    env::split_paths(&path)
        .map(|folder| folder.join(program))
        .find(|file| file.is_file())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tool(wanted: &str, fits: Fits) -> Tool {
        Tool {
            program: "tool",
            wanted: Version::find(wanted).unwrap(),
            fits,
        }
    }

    #[test]
    fn a_fitting_tool_is_used_and_any_other_is_replaced() {
        let bindgen = tool("0.2.130", Fits::Exactly);
        assert_eq!(bindgen.need(Some("wasm-bindgen 0.2.130")), Need::Nothing);
        assert_eq!(
            bindgen.need(Some("wasm-bindgen 0.2.131")),
            Need::Install {
                found: Version::find("0.2.131")
            }
        );
        assert_eq!(
            bindgen.need(Some("command gone wrong")),
            Need::Install { found: None }
        );
        assert_eq!(bindgen.need(None), Need::Install { found: None });
        let trunk = tool("0.21.14", Fits::SameMinorOrLater);
        assert_eq!(trunk.need(Some("trunk 0.21.15")), Need::Nothing);
        assert_ne!(trunk.need(Some("trunk 0.21.13")), Need::Nothing);
        assert_ne!(trunk.need(Some("trunk 0.22.1")), Need::Nothing);
        let wasm_opt = tool("132.0.0", Fits::SameMajorOrLater);
        assert_eq!(
            wasm_opt.need(Some("wasm-opt version 132 (version_132)")),
            Need::Nothing
        );
        assert_ne!(wasm_opt.need(Some("wasm-opt version 108")), Need::Nothing);
    }

    #[test]
    fn the_lock_file_names_the_version() {
        let lock = "[[package]]\nname = \"wasm-bindgen-macro\"\nversion = \"0.2.9\"\n\n\
                    [[package]]\nname = \"wasm-bindgen\"\nversion = \"0.2.130\"\nsource = \"x\"\n";
        assert_eq!(locked(lock, "wasm-bindgen").unwrap(), "0.2.130");
        assert!(locked(lock, "bindgen").is_err());
    }
}
