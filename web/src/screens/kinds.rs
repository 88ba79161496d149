//! The kinds of vehicle that a card can be started for, each with the axle layouts it is built in.

use job::layout::Layout;

use crate::words::{fill, t};

/// A kind of vehicle (an option of the fact `vehicle`) and its usual layouts.
pub(crate) const KINDS: [(&str, &[&str]); 5] = [
    ("truck", &["1-1", "1-2", "1-3", "2-2", "2-3"]),
    ("tractor", &["1-1", "1-2", "1-3"]),
    ("semitrailer", &["1", "2", "3", "1-1", "1-3"]),
    ("full-trailer", &["1-1", "1-2", "2-2", "2-3"]),
    ("bus", &["1-1", "1-2"]),
];

/// Axles that are often in hand together, with what they are called: the steering ones, those of
/// each group behind them, all of them. Nothing where there is only one axle to pick.
pub(crate) fn usual_in_hand(vehicle: &str, layout: &str) -> Vec<(String, Vec<u8>)> {
    let Some(layout) = Layout::read(layout).filter(|layout| layout.axles() > 1) else {
        return Vec::new();
    };
    let mut usual: Vec<(String, Vec<u8>)> = Vec::new();
    let mut first = 1;
    for (place, size) in (0_u8..).zip(layout.groups()) {
        let axles: Vec<u8> = (first..first + size).collect();
        first += size;
        let key = match (vehicle, place) {
            ("semitrailer" | "full-trailer", _) => "ui.new.group",
            (_, 0) => "ui.new.steer",
            ("bus", _) if *size > 1 => "ui.new.drive-and-tag",
            _ => "ui.new.drive",
        };
        let numbers: Vec<String> = axles.iter().map(u8::to_string).collect();
        usual.push((fill(key, &[("axles", &numbers.join(", "))]), axles));
    }
    let all: Vec<u8> = (1..=layout.axles()).collect();
    if usual.iter().all(|(_, axles)| *axles != all) {
        usual.push((t("ui.new.all-axles"), all));
    }
    usual
}

/// The axles that have one wheel at each end unless the card knows better: those that steer, and
/// the tag axle of a bus.
pub(crate) fn usually_single(vehicle: &str, layout: &Layout) -> Vec<u8> {
    let steering = layout.groups().first().copied().unwrap_or_default();
    match vehicle {
        "semitrailer" | "full-trailer" => Vec::new(),
        "bus" => {
            let has_tag = layout.groups().get(1).is_some_and(|size| *size > 1);
            (1..=steering)
                .chain(has_tag.then(|| layout.axles()))
                .collect()
        }
        _ => (1..=steering).collect(),
    }
}

/// "Single, tandem": a layout in words.
pub(crate) fn layout_words(vehicle: &str, layout: &str) -> String {
    if vehicle == "semitrailer" && layout == "1-1" {
        return t("layout.spread");
    }
    if vehicle == "bus" && layout == "1-2" {
        return t("layout.drive-and-tag");
    }
    let group = |size: &str| match size {
        "1" => t("layout.single"),
        "2" => t("layout.tandem"),
        "3" => t("layout.tridem"),
        other => other.to_owned(),
    };
    layout.split('-').map(group).collect::<Vec<_>>().join(" + ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_layout_can_be_read_and_has_room_on_a_card() {
        for (kind, layouts) in KINDS {
            for layout in layouts {
                assert!(Layout::read(layout).is_some(), "{kind} {layout}");
            }
        }
    }

    #[test]
    fn what_steers_and_the_tag_axle_of_a_bus_have_single_wheels() {
        let single = |vehicle, layout| {
            let layout = Layout::read(layout).unwrap();
            usually_single(vehicle, &layout)
        };
        assert_eq!(single("truck", "2-3"), [1, 2]);
        assert_eq!(single("tractor", "1-2"), [1]);
        assert_eq!(single("bus", "1-1"), [1]);
        assert_eq!(single("bus", "1-2"), [1, 3]);
        assert_eq!(single("semitrailer", "1-3"), [0_u8; 0]);
        assert_eq!(single("full-trailer", "2-2"), [0_u8; 0]);
    }
}
