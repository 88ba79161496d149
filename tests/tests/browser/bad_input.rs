//! Wrong input: each kind gets its own words, and what was typed is still there afterwards.

use serde_json::json;
use tests::browser::dist;
use tests::browser::host::Host;
use tests::browser::shop::{add_person, add_stand, new_card};
use tests::browser::tablet::Tablet;
use tests::browser::walk::{Walk, state};
use tests::browser::words::word;

#[test]
fn bad_input() {
    let host = Host::start(&dist());
    let tablet = Tablet::new("bad_input", &host.address());
    empty_card(&tablet);
    tablet.go("people");
    add_person(&tablet, "Juno Pratt", "technician");
    stand_without_basis(&tablet);
    tablet.go("stands");
    add_stand(&tablet, "1", "12", "short-ton", "per-stand");
    add_stand(&tablet, "2", "20", "short-ton", "per-stand");
    tablet.go("start");
    new_card(&tablet, "OR 915", "tractor-1-2", &[2], "loaded");
    numbers(&tablet);
    weights(&tablet);
}

/// A card with nothing in it: everything that is wanting is listed at once.
fn empty_card(tablet: &Tablet) {
    tablet.go("start");
    tablet.press("new-card");
    tablet.press_all(&["done", "done", "done", "done"]);
    let wanting = tablet.reads("wanting");
    for key in [
        "ui.who-first",
        "setup.unit-missing",
        "setup.vehicle-missing",
        "setup.loaded-missing",
        "setup.layout-missing",
        "setup.in-hand-missing",
    ] {
        assert!(
            wanting.contains(&word(key, &[])),
            "{key} is not said: {wanting}"
        );
    }
    tablet.go("start");
    assert!(tablet.sees("no-cards"));
}

fn stand_without_basis(tablet: &Tablet) {
    tablet.go("stands");
    tablet.press("stand-new");
    tablet.press("stand-number-next");
    assert_eq!(
        tablet.reads("wanting"),
        word("shop.stand-number-missing", &[])
    );
    tablet.write("stand-number", "9");
    tablet.press("stand-number-next");
    tablet.press("done");
    assert_eq!(tablet.reads("wanting"), word("ui.stand.unit-missing", &[]));
    tablet.press_all(&["choice-short-ton", "done", "done"]);
    assert_eq!(tablet.reads("number-line"), word("typed.fault.empty", &[]));
    tablet.key_in("11");
    tablet.press("done");
    tablet.press("done");
    assert_eq!(tablet.reads("wanting"), word("ui.stand.basis-missing", &[]));
    tablet.press("stand-previous");
    assert_eq!(tablet.reads("number"), "11", "what was typed is gone");
    tablet.go("start");
    tablet.go("stands");
    assert!(
        !tablet.sees("stand-row-9"),
        "a stand without its basis was listed"
    );
}

/// The number pad, at readings of the first round.
fn numbers(tablet: &Tablet) {
    let mut walk = Walk::new(tablet, 2, "");
    walk.through(&["standing", "chocks"]);
    walk.until_ask("as-found", "V", "at-rest", &[]);
    // Nothing typed.
    tablet.press("done");
    assert_eq!(tablet.reads("refusal"), word("typed.fault.empty", &[]));
    assert_eq!(state(tablet).ask, "at-rest");

    // Seldom so little: asked about, and still there when it is to be typed again.
    tablet.press_all(&["key-eighths-1", "done"]);
    assert!(tablet.reads("question").contains("1/8"));
    tablet.press("question-again");
    assert_eq!(tablet.reads("number"), "1/8");

    // Another unit than usual is kept as it was typed.
    tablet.press("key-take-away");
    tablet.press("unit-mm");
    tablet.press("key-clear");
    tablet.key_in("13.5");
    tablet.press("done");
    let told = first_row(tablet);
    assert!(told.contains("13.5 mm"), "not kept as typed: {told}");

    walk.until_ask("as-found", "V", "reservoir", &[]);
    // A second point is refused loudly; so is a minus.
    tablet.key_in("9.5.");
    assert_eq!(
        tablet.reads("number-line"),
        word("ui.pad.second-point", &[])
    );
    assert_eq!(tablet.reads("number"), "9.5");
    tablet.driver().keys("-");
    assert_eq!(tablet.reads("number"), "9.5", "a minus was typed");
    // Out by ten has words of its own.
    tablet.press("done");
    let question = tablet.reads("question");
    assert!(
        question.contains(&word("band.question.ten-times-too-small", &[])),
        "{question}"
    );
    tablet.press("question-again");
    assert_eq!(tablet.reads("number"), "9.5");
    tablet.press("key-clear");
    tablet.key_in("950");
    tablet.press("done");
    let question = tablet.reads("question");
    assert!(
        question.contains(&word("band.question.ten-times-too-large", &[])),
        "{question}"
    );
    tablet.press("question-again");
    tablet.press("key-clear");
    // Far outside, and kept on purpose.
    tablet.key_in("5");
    tablet.press("done");
    let question = tablet.reads("question");
    assert!(
        question.contains("70"),
        "the usual value is not said: {question}"
    );
    tablet.press("question-keep");
    let told = first_row(tablet);
    assert!(told.contains("5 psi"), "{told}");
}

/// The newest row of the trail.
fn first_row(tablet: &Tablet) -> String {
    tablet.go("trail");
    let row = tablet.run(
        "return document.querySelector('[data-testid=trail] li').innerText",
        &json!([]),
    );
    row.as_str().unwrap_or_default().to_owned()
}

/// A unit lighter than its axles, and stands with two ratings.
fn weights(tablet: &Tablet) {
    let mut walk = Walk::new(tablet, 2, "");
    walk.through(&["as-found", "lock-out", "air-suspension"]);
    let group = [("group-weight", "34000")];
    walk.until_ask("stands", "A2", "unit-weight", &group);
    tablet.key_in("20000");
    tablet.press("done");
    // Each weight alone is usual: together they can't be, and that is said with both.
    let both = [("unit", "20000 lb"), ("axles", "34000 lb")];
    assert_eq!(
        tablet.reads("refusal"),
        word("support.fault.unit-lighter", &both)
    );
    assert_eq!(tablet.reads("number"), "20000");
    tablet.press("key-clear");
    tablet.key_in("52000");
    tablet.press("done");
    // Both stands were looked at.
    tablet.press("done");

    tablet.press_all(&["choice-1", "choice-2"]);
    let verdict = tablet.reads("verdict");
    let smaller = word("bar.support.stands.limit", &[("figure", "24000 lb")]);
    assert!(
        verdict.lines().any(|line| line == smaller),
        "the smaller of two ratings does not count: {verdict}"
    );
}
