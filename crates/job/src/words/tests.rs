use std::collections::BTreeSet;

use super::KEYS;

/// Every text in quotes that looks like one of our keys.
fn literals(source: &str) -> BTreeSet<&str> {
    source
        .split("#[cfg(test)]")
        .next()
        .unwrap_or_default()
        .split('"')
        .skip(1)
        .step_by(2)
        .filter(|text| {
            [
                "hold.", "refuse.", "setup.", "shop.", "typed.", "wants.", "way.",
            ]
            .iter()
            .any(|stem| text.starts_with(stem))
                && !text.contains('{')
        })
        .collect()
}

#[test]
fn every_key_that_can_come_out_is_listed_once() {
    let sources = [
        include_str!("../act.rs"),
        include_str!("../hand_back.rs"),
        include_str!("../hold.rs"),
        include_str!("../shop.rs"),
        include_str!("../judge.rs"),
        include_str!("../move_stage.rs"),
        include_str!("../judge/stroke.rs"),
        include_str!("../judge/support.rs"),
        include_str!("../judge/torque.rs"),
    ];
    let used: BTreeSet<&str> = sources.into_iter().flat_map(literals).collect();
    let listed: BTreeSet<&str> = KEYS.iter().copied().collect();
    assert_eq!(listed.len(), KEYS.len(), "a key stands twice");
    for key in &used {
        assert!(listed.contains(key), "{key} is not in KEYS");
    }
    // The other way round: the keys of typing faults are put together, all others stand somewhere.
    for key in listed.iter().filter(|key| !key.starts_with("typed.")) {
        assert!(used.contains(key), "{key} never comes out");
    }
    assert!(used.len() > 30, "the scan found next to nothing");
}
