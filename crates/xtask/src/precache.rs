//! `cargo xtask precache`, Trunk's `post_build` hook: writes `sw.js` for the build that lies in the staging folder.
//!
//! Every file of the build goes into the list with its hash, so a tablet holds a whole build or none of it.

use std::{
    fs,
    path::{Path, PathBuf},
};

use anyhow::{Context, Result, ensure};
use sha2::{Digest, Sha256};

use crate::{args::Args, project::Project};

pub(crate) const WORKER: &str = "sw.js";
const PAGE: &str = "index.html";
const ID_PLACE: &str = "\"BUILD_ID\"";
const FILES_PLACE: &str = "[/* FILES */]";

pub(crate) fn run(project: &Project, args: Args) -> Result<()> {
    args.finish()?;
    let staging = std::env::var_os("TRUNK_STAGING_DIR")
        .context("TRUNK_STAGING_DIR is not set: Trunk runs this")?;
    let staging = PathBuf::from(staging);
    let build = Build::read(&staging)?;
    let worker = build.worker(&project.read("assets/sw.js")?)?;
    fs::write(staging.join(WORKER), worker).context("can't write the service worker")?;
    println!(
        "precache: build {}, {} files, {} bytes",
        build.id(),
        build.files.len(),
        build.bytes
    );
    Ok(())
}

/// What a build consists of, by path.
struct Build {
    files: Vec<Shipped>,
    bytes: u64,
}

struct Shipped {
    path: String,
    sha256: [u8; 32],
}

impl Build {
    fn read(folder: &Path) -> Result<Self> {
        let mut build = Self {
            files: Vec::new(),
            bytes: 0,
        };
        build.take_in(folder, folder)?;
        build.files.sort_by(|a, b| a.path.cmp(&b.path));
        ensure!(
            build.files.iter().any(|file| file.path == PAGE),
            "the build has no {PAGE}"
        );
        Ok(build)
    }

    fn take_in(&mut self, root: &Path, folder: &Path) -> Result<()> {
        for entry in
            fs::read_dir(folder).with_context(|| format!("can't read {}", folder.display()))?
        {
            let path = entry?.path();
            if path.is_dir() {
                self.take_in(root, &path)?;
                continue;
            }
            let parts = path
                .strip_prefix(root)?
                .iter()
                .map(|part| part.to_str().context("a file name is not UTF-8"));
            let name = parts.collect::<Result<Vec<_>>>()?.join("/");
            let plain = |c: char| c.is_ascii_alphanumeric() || "-_./".contains(c);
            ensure!(
                name.chars().all(plain),
                "{name}: ship files with plain names only (letters, digits, - _ .)"
            );
            if name == WORKER {
                continue;
            }
            let content =
                fs::read(&path).with_context(|| format!("can't read {}", path.display()))?;
            self.bytes += content.len() as u64;
            self.files.push(Shipped {
                path: name,
                sha256: Sha256::digest(&content).into(),
            });
        }
        Ok(())
    }

    /// Sixteen hexadecimal digits that change when any path or content does.
    fn id(&self) -> String {
        let mut all = Sha256::new();
        for file in &self.files {
            all.update(file.path.as_bytes());
            all.update([0]);
            all.update(file.sha256);
        }
        all.finalize()
            .iter()
            .take(8)
            .map(|byte| format!("{byte:02x}"))
            .collect()
    }

    /// The worker's source with this build's id and list in their places.
    fn worker(&self, source: &str) -> Result<String> {
        for place in [ID_PLACE, FILES_PLACE] {
            ensure!(
                source.matches(place).count() == 1,
                "assets/sw.js must hold {place} exactly once"
            );
        }
        // Hosts redirect index.html to its folder, and a redirected answer can't open a page.
        let url = |path: &str| {
            if path == PAGE {
                "./".to_owned()
            } else {
                format!("./{path}")
            }
        };
        let row = |file: &Shipped| {
            format!(
                "  [\"{}\", \"sha256-{}\"],\n",
                url(&file.path),
                base64(&file.sha256)
            )
        };
        let rows: String = self.files.iter().map(row).collect();
        let id = format!("\"{}\"", self.id());
        Ok(source
            .replace(ID_PLACE, &id)
            .replace(FILES_PLACE, &format!("[\n{rows}]")))
    }
}

/// Base64 with padding, as the `integrity` of a request wants it.
fn base64(bytes: &[u8]) -> String {
    const DIGITS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::new();
    for chunk in bytes.chunks(3) {
        let bits = (0..3).fold(0_u32, |bits, at| {
            bits << 8 | u32::from(chunk.get(at).copied().unwrap_or(0))
        });
        for place in 0..4 {
            let digit = DIGITS[(bits >> (18 - 6 * place) & 63) as usize]; // Six bits: always below 64.
            text.push(if place <= chunk.len() {
                digit.into()
            } else {
                '='
            });
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use xshell::Shell;

    use super::*;

    const SOURCE: &str = "const BUILD = \"BUILD_ID\";\nconst FILES = [/* FILES */];\n";

    fn build(files: &[(&str, &str)]) -> Result<Build> {
        let sh = Shell::new()?;
        let dir = sh.create_temp_dir()?;
        for (path, content) in files {
            sh.write_file(dir.path().join(path), content)?;
        }
        Build::read(dir.path())
    }

    #[test]
    fn every_file_is_listed_with_its_hash_and_the_page_as_its_folder() {
        let files = [
            ("index.html", "page"),
            ("snippets/a-1/b.js", "abc"),
            ("words/en.json", "{}"),
            ("sw.js", "old"),
        ];
        let worker = build(&files).unwrap().worker(SOURCE).unwrap();
        assert!(worker.contains("[\"./\", \"sha256-"), "{worker}");
        // SHA-256 of "abc" is a published test vector.
        let abc =
            "[\"./snippets/a-1/b.js\", \"sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=\"]";
        assert!(worker.contains(abc), "{worker}");
        assert!(worker.contains("./words/en.json"), "{worker}");
        assert!(
            !worker.contains("./sw.js") && !worker.contains("index.html"),
            "{worker}"
        );
    }

    #[test]
    fn the_id_follows_paths_and_contents_only() {
        let first = build(&[("index.html", "page"), ("a.js", "1")])
            .unwrap()
            .id();
        assert_eq!(
            first,
            build(&[("a.js", "1"), ("index.html", "page"), ("sw.js", "x")])
                .unwrap()
                .id()
        );
        assert_ne!(
            first,
            build(&[("index.html", "page"), ("a.js", "2")])
                .unwrap()
                .id()
        );
        assert_ne!(
            first,
            build(&[("index.html", "page"), ("b.js", "1")])
                .unwrap()
                .id()
        );
    }

    #[test]
    fn a_build_without_a_page_a_strange_name_or_a_changed_source_is_refused() {
        assert!(build(&[("a.js", "1")]).is_err());
        assert!(build(&[("index.html", "page"), ("a b.js", "1")]).is_err());
        assert!(
            build(&[("index.html", "page")])
                .unwrap()
                .worker("const BUILD = 1;")
                .is_err()
        );
    }

    #[test]
    fn base64_published_vectors() {
        let pairs = [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foobar", "Zm9vYmFy"),
        ];
        for (plain, coded) in pairs {
            assert_eq!(base64(plain.as_bytes()), coded);
        }
    }
}
