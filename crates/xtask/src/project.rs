//! Where the project's own folders are.

use std::path::{Path, PathBuf};

use anyhow::{Context, Result};

pub(crate) struct Project {
    pub(crate) root: PathBuf,
    /// This program, remembered at start: a build that replaces it must not change what children call.
    pub(crate) xtask: PathBuf,
}

impl Project {
    pub(crate) fn find() -> Result<Self> {
        let manifest = Path::new(env!("CARGO_MANIFEST_DIR"));
        let root = manifest
            .ancestors()
            .nth(2)
            .context("xtask lies outside of the project")?;
        let xtask = std::env::current_exe().context("can't find out where this program is")?;
        Ok(Self {
            root: root.to_owned(),
            xtask,
        })
    }

    /// The built app.
    pub(crate) fn dist(&self) -> PathBuf {
        self.root.join("target/dist")
    }

    /// Tools that xtask fetched; nothing outside of `target` is changed for them.
    pub(crate) fn tools(&self) -> PathBuf {
        self.root.join("target/tools")
    }

    pub(crate) fn read(&self, path: &str) -> Result<String> {
        std::fs::read_to_string(self.root.join(path)).with_context(|| format!("can't read {path}"))
    }
}
