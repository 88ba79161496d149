//! A wheel end goes from one person to the next in one press, with all that has to be known of it; and
//! what was read as found stands beside what is read as left.

use tests::browser::dist;
use tests::browser::host::Host;
use tests::browser::shop::{add_person, new_card};
use tests::browser::tablet::Tablet;
use tests::browser::walk::Walk;
use tests::browser::words::word;

const FIRST: &str = "Jola Brandt";
const NEXT: &str = "Timo Reyes";

#[test]
fn handed_over() {
    let host = Host::start(&dist());
    let tablet = Tablet::new("handed_over", &host.address());
    for name in [NEXT, FIRST] {
        tablet.go("people");
        add_person(&tablet, name, "technician");
    }
    tablet.go("start");
    new_card(&tablet, "LM 19", "tractor-1-2", &[2], "unloaded");
    let mut walk = Walk::new(&tablet, 2, "");
    walk.through(&["standing", "chocks"]);
    walk.until_ask("as-found", "V", "at-rest", &[]);
    tablet.press_all(&["key-whole-1", "key-eighths-1", "done"]);

    tablet.go("sides");
    let left = tablet.reads("sides-E2L");
    assert!(left.contains("1 1/8"), "{left}");
    assert!(!tablet.reads("sides-E2R").contains("1 1/8"));
    assert!(left.contains(&word("step.as-left", &[])), "{left}");

    tablet.go("hand-over/E2L");
    // With the reading there it became theirs.
    assert_eq!(
        tablet.reads("whose"),
        word("ui.over.whose", &[("name", FIRST)])
    );
    let loose = tablet.reads("over-loose");
    assert!(loose.contains(&word("physical.chocks.in", &[])), "{loose}");
    let open = tablet.reads("over-open");
    assert!(open.contains(&word("step.drum-off", &[])), "{open}");
    tablet.go("hand-over/E2R");
    assert_eq!(tablet.reads("whose"), word("ui.over.nobodys", &[]));
    tablet.go("people");
    tablet.press_row("people", NEXT);
    tablet.go("hand-over/E2L");
    assert_eq!(
        tablet.reads("whose"),
        word("ui.over.whose", &[("name", FIRST)])
    );
    take_over(&tablet, NEXT);
    tablet.driver().reload();
    tablet.wait_until_up();
    tablet.go("map");
    tablet.go("hand-over/E2L");
    assert_eq!(
        tablet.reads("whose"),
        word("ui.over.whose", &[("name", NEXT)])
    );
}

/// One press; the page then says so.
fn take_over(tablet: &Tablet, name: &str) {
    assert_eq!(tablet.reads("done"), word("ui.over.take", &[]));
    tablet.press("done");
    tablet.go("map");
    tablet.go("hand-over/E2L");
    assert_eq!(
        tablet.reads("whose"),
        word("ui.over.whose", &[("name", name)])
    );
    assert_eq!(tablet.reads("done"), word("ui.over.go-on", &[]));
}
