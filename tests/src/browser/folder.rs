//! A folder for one test, gone afterwards.

use std::{
    fs,
    path::{Path, PathBuf},
    process,
    sync::atomic::{AtomicU32, Ordering},
};

static MADE: AtomicU32 = AtomicU32::new(0);

/// A new empty folder; removed with everything in it when dropped.
pub struct Folder(PathBuf);

impl Folder {
    pub fn new(name: &str) -> Self {
        let n = MADE.fetch_add(1, Ordering::Relaxed);
        let path = std::env::temp_dir().join(format!("chock-test-{}-{n}-{name}", process::id()));
        fs::create_dir_all(&path).expect("a temporary folder can be made");
        Self(path)
    }

    pub fn path(&self) -> &Path {
        &self.0
    }

    /// Copies all files of another folder into this one.
    pub fn fill_from(&self, other: &Path) {
        copy(other, &self.0);
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        // A browser that is just ending may still write a file; a second try comes after it.
        for _ in 0..20 {
            if fs::remove_dir_all(&self.0).is_ok() || !self.0.exists() {
                return;
            }
            std::thread::sleep(std::time::Duration::from_millis(100));
        }
    }
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("a folder can be made");
    for entry in fs::read_dir(from)
        .expect("the folder can be read")
        .flatten()
    {
        let (source, target) = (entry.path(), to.join(entry.file_name()));
        if source.is_dir() {
            copy(&source, &target);
        } else {
            fs::copy(&source, &target).expect("a file can be copied");
        }
    }
}
