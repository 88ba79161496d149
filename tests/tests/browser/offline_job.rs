//! A job from the first name to the raised axle on a tablet without any network.

use std::thread::sleep;
use std::time::Duration;

use serde_json::json;
use tests::browser::dist;
use tests::browser::host::Host;
use tests::browser::shop::{add_person, add_stand, new_card};
use tests::browser::tablet::Tablet;
use tests::browser::walk::{State, Walk, state};
use tests::browser::words::word;

const FETCH: &str = "const done = arguments[0]; fetch('./sw.js?' + Math.random()).then(() => done(true), () => done(false))";

#[test]
fn offline_job() {
    let mut host = Host::start(&dist());
    let tablet = Tablet::new("offline_job", &host.address());
    tablet.wait_for_worker();
    host.stop();
    tablet.driver().reload();
    tablet.wait_until_up();
    assert_eq!(
        tablet.driver().run_async(FETCH, &json!([])),
        false,
        "there is still a network"
    );

    tablet.go("people");
    add_person(&tablet, "Mirte Solano", "technician");
    tablet.go("stands");
    add_stand(&tablet, "1", "10", "short-ton", "per-stand");
    add_stand(&tablet, "2", "10", "short-ton", "per-stand");
    // 16 tons on the tag, but for the pair: each gives 16 000 lb of the 17 000 lb that are needed.
    add_stand(&tablet, "3", "16", "short-ton", "per-pair");
    add_stand(&tablet, "4", "16", "short-ton", "per-pair");
    tablet.go("start");
    new_card(&tablet, "QT 5120", "tractor-1-2", &[2], "loaded");

    secure(&tablet);
    lift(&tablet);

    tablet.go("trail");
    let chain = tablet.reads("trail-chain");
    let lines = chain
        .chars()
        .filter(char::is_ascii_digit)
        .collect::<String>();
    assert_eq!(chain, word("ui.trail.whole", &[("lines", &lines)]));
    assert!(!tablet.sees("trail-faults"));
}

/// Chocks, readings, lock-out, suspension air: nothing of Lift before all of it.
fn secure(tablet: &Tablet) {
    let later = [
        ("V", "lock-out"),
        ("A2", "stands"),
        ("A2", "raise"),
        ("E2L", "caging"),
        ("E2R", "nuts-off"),
        ("V", "air-out"),
    ];
    for (at, step) in later {
        is_held(tablet, at, step);
    }
    let mut walk = Walk::new(tablet, 2, "");
    walk.through(&["standing"]);
    tablet.go("step/V/chocks");
    tablet.press_all(&["end-1L", "end-1R", "done", "choice-both-ways"]);
    let before = state(tablet);
    assert_eq!(
        (before.step.as_str(), before.ask.as_str()),
        ("chocks", "set")
    );

    tablet.touch("hold", 300);
    sleep(Duration::from_millis(800));
    assert_eq!(state(tablet), before, "300 ms of a press counted");
    is_still_held(tablet);
    tablet.go("step/V/chocks");
    tablet.press("choice-both-ways");
    tablet.hold();
    assert_ne!(
        state(tablet).step,
        "chocks",
        "900 ms of a press did not count"
    );

    is_still_held(tablet);
    walk.through(&["as-found"]);
    tablet.go("step/V/lock-out");
    tablet.touch("hold", 100);
    tablet.wait_to_see("hold-yes");
    sleep(Duration::from_millis(500));
    tablet.press("hold-yes");
    tablet.wait("the lock-out is said", || state(tablet).step != "lock-out");

    // The lock-out is on, but the bags are still full.
    is_held(tablet, "A2", "raise");
    tablet.go("step/V/air-suspension");
    tablet.press("choice-air");
    tablet.hold();
    tablet.wait("the air is out", || state(tablet).step != "air-suspension");
    walk.through(&["tyres", "dust"]);
}

/// A step that nobody can pass by going to its address: it says what comes first and offers nothing else.
fn is_held(tablet: &Tablet, at: &str, step: &str) {
    tablet.go(&format!("step/{at}/{step}"));
    if state(tablet).shown == "here" {
        tablet.press("done");
    }
    let State { shown, choices, .. } = state(tablet);
    assert_eq!(shown, "held", "{step} at {at}");
    assert!(
        tablet
            .reads("not-yet")
            .starts_with(&word("ui.not-yet", &[])),
        "{step} at {at}"
    );
    assert!(choices.is_empty(), "{step} at {at} offers {choices:?}");
    for control in ["hold", "number-ask", "give-reason", "text", "whole-pass"] {
        assert!(!tablet.sees(control), "{step} at {at} offers {control}");
    }
    assert_eq!(tablet.reads("done"), word("ui.to-map", &[]));
}

fn is_still_held(tablet: &Tablet) {
    is_held(tablet, "A2", "stands");
}

fn lift(tablet: &Tablet) {
    let mut walk = Walk::new(tablet, 2, "");
    let weights = [("group-weight", "34000"), ("unit-weight", "50000")];
    walk.until_ask("stands", "A2", "stands", &weights);

    tablet.press_all(&["choice-3", "choice-4"]);
    let verdict = figures(&tablet.reads("verdict"));
    assert!(
        verdict.contains("17000 lb"),
        "what is needed is not shown: {verdict}"
    );
    assert!(
        verdict.contains("16000 lb"),
        "what they give is not shown: {verdict}"
    );
    tablet.press("done");
    let refusal = figures(&tablet.reads("refusal"));
    assert!(
        refusal.contains("17000 lb") && refusal.contains("16000 lb"),
        "{refusal}"
    );
    assert_eq!(
        (state(tablet).ask.as_str(), state(tablet).shown.as_str()),
        ("stands", "asked"),
        "stands that are too small were taken"
    );
    is_held(tablet, "A2", "raise");

    tablet.go("step/A2/stands");
    tablet.press_all(&["choice-1", "choice-2"]);
    let verdict = figures(&tablet.reads("verdict"));
    assert!(
        verdict.contains("17000 lb") && verdict.contains("20000 lb"),
        "{verdict}"
    );
    // Within needs no second look: it leads on.
    tablet.press("done");

    assert_eq!(state(tablet).step, "jack");
    walk.through(&["jack"]);
    walk.until_ask("raise", "A2", "up", &[]);
    tablet.hold();
    tablet.wait("the axle is up", || state(tablet).step == "caging");
}

/// Figures without what groups their digits.
fn figures(text: &str) -> String {
    let grouping = |c: &char| matches!(c, ',' | '\u{202f}' | '\u{2009}');
    let text: String = text.chars().filter(|c| !grouping(c)).collect();
    let text = text.replace('\u{a0}', " ");
    // A space between digits groups them too.
    let mut joined = String::new();
    let mut rest = text.chars().peekable();
    while let Some(c) = rest.next() {
        let groups = c == ' '
            && joined.ends_with(|c: char| c.is_ascii_digit())
            && rest.peek().is_some_and(char::is_ascii_digit);
        if !groups {
            joined.push(c);
        }
    }
    joined
}
