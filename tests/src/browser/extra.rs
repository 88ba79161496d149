//! Extra lines: found, opened, and their photo looked at.

use serde_json::{Value, json};

use super::tablet::Tablet;
use super::words::word;

/// Width and height of a photo as the browser reads it, once it is drawn.
const SIZE: &str = r#"
const photo = document.querySelector(arguments[0]);
return photo?.complete ? [photo.naturalWidth, photo.naturalHeight] : null;
"#;

/// Says what was found at a wheel end, with its fix where there are several.
pub fn find(tablet: &Tablet, at: &str, part: &str, finding: &str, fix: &str) {
    tablet.go(&format!("found/{at}"));
    tablet.press_all(&[&format!("choice-{part}"), &format!("choice-{finding}")]);
    if !fix.is_empty() {
        tablet.press(fix);
    }
    tablet.press("done");
}

/// Opens the line of a finding from the list of them.
pub fn open(tablet: &Tablet, finding: &str) {
    tablet.go("lines");
    tablet.press_row("lines", &word(&format!("finding.{finding}"), &[]));
    tablet.wait_to_see("photo-take");
}

/// The photo of the open line is there, small and large. A picture of 3 to 2 becomes this size.
pub fn is_shown(tablet: &Tablet) {
    tablet.wait("the small photo is drawn", || {
        size(tablet, ".photo-key img") == json!([320, 213])
    });
    tablet.press("photo-key");
    tablet.wait("the photo is drawn", || {
        size(tablet, ".photo-large img") == json!([1_600, 1_066])
    });
}

fn size(tablet: &Tablet, of: &str) -> Value {
    tablet.run(SIZE, &json!([of]))
}
