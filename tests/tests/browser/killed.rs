//! The battery is pulled out right after a tick, twenty times: nothing that was acknowledged is lost.

use serde_json::json;
use tests::browser::dist;
use tests::browser::host::Host;
use tests::browser::shop::{add_person, add_stand, new_card};
use tests::browser::tablet::Tablet;
use tests::browser::walk::{Walk, state};
use tests::browser::words::word;

const ROUNDS: usize = 20;
const TECHNICIAN: &str = "Bela Norqvist";

/// Counts ticks: each time that a save which was going has been kept.
const COUNT_TICKS: &str = r#"
window.testTicks = 0;
let going = false;
const look = () => {
  if (document.querySelector(".flash.going")) going = true;
  else if (going && document.querySelector(".flash.kept")) { going = false; window.testTicks += 1; }
};
new MutationObserver(look).observe(document, { subtree: true, childList: true, attributes: true });
"#;
const WAIT_FOR_TICK: &str = r#"
const done = arguments[0];
const look = () => window.testTicks > 0 ? done(true) : setTimeout(look, 1);
look();
"#;

#[test]
fn killed_after_a_tick() {
    let host = Host::start(&dist());
    let mut tablet = Tablet::new("killed_after_a_tick", &host.address());
    tablet.wait_for_worker();
    tablet.go("people");
    add_person(&tablet, TECHNICIAN, "technician");
    tablet.go("stands");
    add_stand(&tablet, "1", "20", "short-ton", "per-stand");
    tablet.go("start");
    new_card(&tablet, "LV 31", "tractor-1-2", &[2], "unloaded");
    let mut lines = lines_of_whole_chain(&tablet);

    tablet.go("map");
    tablet.press("done");
    for round in 1..=ROUNDS {
        let place = tablet.fragment();
        if state(&tablet).shown == "here" {
            tablet.press("done");
        }
        let before = state(&tablet);
        assert_eq!(before.shown, "asked", "round {round}: {before:?}");
        tablet.run(COUNT_TICKS, &json!([]));
        Walk::new(&tablet, 2, "").hurry().answer(&before);
        tablet.driver().run_async(WAIT_FOR_TICK, &json!([]));
        tablet.pull_the_battery();

        tablet.switch_on(&format!("#{place}"));
        assert_eq!(
            tablet.fragment(),
            place,
            "round {round}: the app is somewhere else"
        );
        let after = state(&tablet);
        assert_eq!(
            (&after.step, &after.at),
            (&before.step, &before.at),
            "round {round}"
        );
        assert!(
            (&after.ask, &after.place, after.shown.as_str())
                != (&before.ask, &before.place, "asked"),
            "round {round}: {} of {} is asked again",
            before.ask,
            before.step
        );
        // With the first answer at a wheel end it is taken too.
        let now = lines_of_whole_chain(&tablet);
        assert!(
            now == lines + 1 || now == lines + 2,
            "round {round}: {now} lines on the trail after {lines}"
        );
        lines = now;

        // Who works is a setting of the tablet, and such a setting may be lost.
        tablet.go("people");
        tablet.press_row("people", TECHNICIAN);
        tablet.go("map");
        tablet.press("done");
    }
}

/// How many lines the trail has; fails if the chain is not whole.
fn lines_of_whole_chain(tablet: &Tablet) -> usize {
    tablet.go("trail");
    let chain = tablet.reads("trail-chain");
    let lines: String = chain.chars().filter(char::is_ascii_digit).collect();
    assert_eq!(chain, word("ui.trail.whole", &[("lines", &lines)]));
    lines.parse().expect("a number of lines")
}
