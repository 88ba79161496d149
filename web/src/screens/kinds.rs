//! The kinds of vehicle that a card can be started for, each with the axle layouts it is built in.

use crate::words::t;

/// A kind of vehicle (an option of the fact `vehicle`) and its usual layouts.
pub(crate) const KINDS: [(&str, &[&str]); 5] = [
    ("truck", &["1-1", "1-2", "1-3", "2-2"]),
    ("tractor", &["1-1", "1-2", "1-3"]),
    ("semitrailer", &["1", "2", "3", "1-1"]),
    ("full-trailer", &["1-1", "1-2", "2-2"]),
    ("bus", &["1-1", "1-2"]),
];

/// "Single, tandem": a layout in words.
pub(crate) fn layout_words(vehicle: &str, layout: &str) -> String {
    if vehicle == "semitrailer" && layout == "1-1" {
        return t("layout.spread");
    }
    let group = |size: &str| match size {
        "1" => t("layout.single"),
        "2" => t("layout.tandem"),
        "3" => t("layout.tridem"),
        other => other.to_owned(),
    };
    layout.split('-').map(group).collect::<Vec<_>>().join(" + ")
}
