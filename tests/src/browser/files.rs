//! A card as a file: out of one tablet and into another.

use std::path::{Path, PathBuf};

use crate::browser::tablet::Tablet;
use crate::browser::words::word;

/// Saves the open card and waits for the browser's download.
///
/// # Panics
///
/// Where the app doesn't say that it was saved.
pub fn save(tablet: &Tablet) -> PathBuf {
    tablet.go("files");
    tablet.wait("the file is made", || !tablet.reads("file-name").is_empty());
    let name = tablet.reads("file-name");
    tablet.press("file-save");
    let file = tablet.downloads().join(&name);
    tablet.wait(&format!("{name} is saved"), || file.is_file());
    assert_eq!(
        tablet.reads("file-said"),
        word("ui.files.saved", &[("name", &name)])
    );
    file
}

/// Picks a file on the page of card files and waits until the app has read it.
pub fn take_in(tablet: &Tablet, file: &Path) {
    tablet.give_file(file);
    let reading = word("ui.files.reading", &[]);
    tablet.wait("the file is read", || {
        tablet.sees("file-taken") && tablet.reads("file-taken") != reading
    });
    tablet.settle();
}
