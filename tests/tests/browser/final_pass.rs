//! A shop that tightens wheels on stands, without a network: the final pass comes before the axle
//! comes down, asks what keeps the wheel from turning, and may be said as a whole. The check pass
//! stays on the ground.

use tests::browser::dist;
use tests::browser::host::Host;
use tests::browser::shop::{add_jack, add_person, add_stand, new_card};
use tests::browser::tablet::Tablet;
use tests::browser::walk::{Walk, state};
use tests::browser::words::word;

const FOREMAN: &str = "Ines Karu";

#[test]
fn final_pass_on_stands() {
    let mut host = Host::start(&dist());
    let tablet = Tablet::new("final_pass", &host.address());
    tablet.wait_for_worker();
    host.stop();
    tablet.driver().reload();
    tablet.wait_until_up();
    for (name, role) in [(FOREMAN, "foreman"), ("Mirte Solano", "technician")] {
        tablet.go("people");
        add_person(&tablet, name, role);
    }
    tablet.go("stands");
    for number in ["1", "2"] {
        add_stand(&tablet, number, "20", "short-ton", "per-stand");
    }
    tablet.go("jacks");
    add_jack(&tablet, "1", "22");
    tablet.go("final-pass");
    tablet.press_all(&["choice-stands", "choice-whole"]);

    tablet.go("start");
    new_card(&tablet, "FP 3", "tractor-1-2", &[2], "unloaded");
    let mut walk = Walk::new(&tablet, 2, FOREMAN).straight();
    walk.until("lower", &mut |_, _| {});
    open(&tablet, "lower", "A2");
    let now = state(&tablet);
    assert_eq!(now.shown, "held", "{now:?}");
    let why = tablet.reads("not-yet");
    let first = word("step.final-pass.do", &[]);
    assert!(why.contains(first.trim_end_matches('.')), "{why}");

    // A wheel that turns under the wrench proves no torque.
    walk.until_ask("final-pass", "E2L", "wheel-held", &[]);
    tablet.press("choice-turns");
    assert!(tablet.sees("unclear"), "{:?}", state(&tablet));
    tablet.press_all(&["answer-again", "choice-bar"]);
    walk.step("final-pass", "E2L", &mut |_, _| {});
    walk.until_ask("final-pass", "E2R", "wheel-held", &[]);
    tablet.press("choice-spring-brake");
    walk.step("final-pass", "E2R", &mut |_, _| {});
    open(&tablet, "check-pass", "E2L");
    assert_eq!(state(&tablet).shown, "held", "it stands on stands");
    walk.through(&["lower", "check-pass"]);
    open(&tablet, "check-pass", "E2R");
    assert_eq!(state(&tablet).shown, "list", "{:?}", state(&tablet));
    tablet.go("record");
    let record = tablet.reads("record");
    let bar = word("ask.final-pass.wheel-held.bar", &[]);
    assert!(record.contains(&bar), "{record}");
}

fn open(tablet: &Tablet, step: &str, at: &str) {
    tablet.go("map");
    tablet.go(&format!("step/{at}/{step}"));
    while state(tablet).shown == "here" {
        tablet.press("done");
    }
}
