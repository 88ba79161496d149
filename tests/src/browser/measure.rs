//! Sizes and gaps of everything that can be pressed, measured on the screen as it is drawn.
//!
//! The rules are those of a glove: see `measure.js`, which runs in the page.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use serde_json::json;

use super::tablet::Tablet;

const MEASURE: &str = include_str!("measure.js");
const GAP_MM: f64 = 4.0;
const DEAD_EDGE_MM: f64 = 10.0;
/// Half a pixel lost to rounding is no smaller key.
const SIZE_SLACK_PX: f64 = 0.5;
const GAP_SLACK_PX: f64 = 1.0;

/// Each way that a screen is measured in: width, height, glove.
pub const WAYS: [(u32, u32, &str); 4] = [
    (1280, 800, "thin"),
    (1280, 800, "heavy"),
    (800, 1280, "thin"),
    (800, 1280, "heavy"),
];

/// What was found so far, on all screens that were looked at.
#[derive(Default)]
pub struct Findings {
    screens: usize,
    /// Kind, what, way; with each screen and detail.
    found: BTreeMap<(String, String, String), Vec<(String, String)>>,
}

impl Findings {
    /// Measures the screen that is shown now, in every way, and leaves it as it was.
    pub fn take(&mut self, tablet: &Tablet, screen: &str) {
        self.screens += 1;
        for (width, height, glove) in WAYS {
            tablet.look_like(width, height, glove, "light");
            let found = tablet.run(
                MEASURE,
                &json!([GAP_MM, DEAD_EDGE_MM, SIZE_SLACK_PX, GAP_SLACK_PX]),
            );
            for row in found.as_array().into_iter().flatten() {
                let text = |at: usize| row[at].as_str().unwrap_or_default().to_owned();
                let way = format!("{width}x{height} {glove}");
                self.found
                    .entry((text(0), text(1), way))
                    .or_default()
                    .push((screen.to_owned(), text(2)));
            }
        }
        let (width, height, glove) = WAYS[0];
        tablet.look_like(width, height, glove, "light");
    }

    pub fn screens(&self) -> usize {
        self.screens
    }

    pub fn len(&self) -> usize {
        self.found.values().map(Vec::len).sum()
    }

    pub fn is_empty(&self) -> bool {
        self.found.is_empty()
    }

    /// One line for each kind, control and way, with the screens.
    pub fn table(&self) -> String {
        let mut table = String::new();
        for ((kind, what, way), places) in &self.found {
            let (first, detail) = &places[0]; // An entry is made with its first place.
            let more = if places.len() > 1 {
                format!(" and {} more", places.len() - 1)
            } else {
                String::new()
            };
            let _always = writeln!(
                table,
                "{kind:<22} {way:<15} {what:<34} {detail:<40} {first}{more}"
            );
        }
        table
    }
}

impl Drop for Findings {
    fn drop(&mut self) {
        // Whatever else failed: what was measured until then is worth knowing.
        if std::thread::panicking() {
            eprintln!("{} findings on {} screens", self.len(), self.screens);
            eprint!("{}", self.table());
        }
    }
}
