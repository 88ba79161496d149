//! The files of the project, as git sees them: tracked, or new and not ignored.

use std::{fs, path::Path};

use anyhow::{Context, Result};
use xshell::{Shell, cmd};

pub(super) struct Tree {
    pub(super) files: Vec<SourceFile>,
}

pub(super) struct SourceFile {
    /// From the project's root, with `/`.
    pub(super) path: String,
    /// Empty for files that are not text.
    pub(super) text: String,
}

impl Tree {
    pub(super) fn read(sh: &Shell, root: &Path) -> Result<Self> {
        let listed = cmd!(
            sh,
            "git -c safe.directory=* ls-files -z --cached --others --exclude-standard"
        )
        .quiet()
        .read()?;
        let mut files = Vec::new();
        for path in listed.split('\0').filter(|path| !path.is_empty()) {
            let full = root.join(path);
            if !full.is_file() {
                continue; // Deleted, but not yet in git's list.
            }
            let bytes = fs::read(&full).with_context(|| format!("can't read {path}"))?;
            files.push(SourceFile {
                path: path.to_owned(),
                text: String::from_utf8(bytes).unwrap_or_default(),
            });
        }
        Ok(Self { files })
    }

    /// Files whose path starts and ends like this.
    pub(super) fn files<'a>(
        &'a self,
        start: &'a str,
        end: &'a str,
    ) -> impl Iterator<Item = &'a SourceFile> {
        self.files
            .iter()
            .filter(move |file| file.path.starts_with(start) && file.path.ends_with(end))
    }

    pub(super) fn file(&self, path: &str) -> Option<&SourceFile> {
        self.files.iter().find(|file| file.path == path)
    }
}

#[cfg(test)]
impl Tree {
    /// A made-up project.
    pub(super) fn of(files: &[(&str, &str)]) -> Self {
        let file = |(path, text): &(&str, &str)| SourceFile {
            path: (*path).to_owned(),
            text: (*text).to_owned(),
        };
        Self {
            files: files.iter().map(file).collect(),
        }
    }
}
