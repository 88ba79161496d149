//! A torque wrench past its calibration: picked with one press, and a foreman's reason before the
//! nuts count. What was used stands on the trail.

use tests::browser::dist;
use tests::browser::host::Host;
use tests::browser::shop::{add_person, add_stand, add_wrench, new_card};
use tests::browser::tablet::Tablet;
use tests::browser::walk::{Walk, state};
use tests::browser::words::word;

const FOREMAN: &str = "Ines Karu";
const WHY: &str = "the other one is out on a road call";

#[test]
fn a_wrench_past_its_day() {
    let host = Host::start(&dist());
    let tablet = Tablet::new("a_wrench_past_its_day", &host.address());
    for (name, role) in [(FOREMAN, "foreman"), ("Ola Lindt", "technician")] {
        tablet.go("people");
        add_person(&tablet, name, role);
    }
    tablet.go("stands");
    for number in ["1", "2"] {
        add_stand(&tablet, number, "20", "short-ton", "per-stand");
    }
    tablet.go("wrenches");
    add_wrench(&tablet, "old", 2);
    add_wrench(&tablet, "ours", 0);
    tablet.go("start");
    new_card(&tablet, "WR 3", "tractor-1-2", &[2], "unloaded");
    let mut walk = Walk::new(&tablet, 2, FOREMAN);
    walk.until("final-pass", &mut |_, _| {});

    tablet.go("people");
    tablet.press_row("people", "Ola Lindt");
    walk.until_ask("final-pass", "E2L", "wrench", &[]);
    let old = tablet.reads("choice-0");
    assert!(
        old.contains(&word("ui.wrench.name", &[("wrench", "old")])),
        "{old}"
    );
    assert!(
        old.contains(&word("torque.wrench.calibration-due", &[])),
        "{old}"
    );
    tablet.press("choice-0");
    assert_eq!(state(&tablet).shown, "answered");
    assert!(tablet.reads("told").contains("old"));
    // The nuts go on; what was used is the foreman's to say.
    walk.step("final-pass", "E2L", &mut |_, _| {});
    tablet.go("map");
    tablet.go("step/E2L/final-pass");
    tablet.wait_to_see("needs-foreman");
    assert!(!tablet.sees("give-reason"), "a technician passed a hold");
    tablet.go("people");
    tablet.press_row("people", FOREMAN);
    tablet.go("map");
    tablet.go("step/E2L/final-pass");
    tablet.write("reason", WHY);
    tablet.press("give-reason");
    tablet.go("trail");
    let trail = tablet.reads("trail");
    for said in ["old", WHY] {
        assert!(trail.contains(said), "{said} is not on the trail");
    }

    // On the other side the one used last is on top, and the good one is taken with one press.
    tablet.go("people");
    tablet.press_row("people", "Ola Lindt");
    walk.until_ask("final-pass", "E2R", "wrench", &[]);
    assert!(tablet.reads("choice-0").contains("old"));
    tablet.press("choice-1");
    assert_eq!(state(&tablet).ask, "nuts");
}
