//! Two tabs of one tablet: one writes, the other reads and may take over.

use tests::browser::dist;
use tests::browser::host::Host;
use tests::browser::shop::add_person;
use tests::browser::tablet::Tablet;
use tests::browser::words::word;

#[test]
fn two_tabs() {
    let host = Host::start(&dist());
    let tablet = Tablet::new("two_tabs", &host.address());
    tablet.go("people");
    add_person(&tablet, "Vera Quist", "technician");
    let other_writes = word("ui.other-tab.writes", &[]);
    let says_so = || tablet.sees("notice") && tablet.reads("notice").contains(&other_writes);
    assert!(!says_so());

    let (first, second) = tablet.driver().new_tab();
    tablet.driver().open(&host.address());
    tablet.wait_until_up();
    tablet.wait("the second tab says that the first one writes", says_so);
    // It reads what the first tab wrote, and writes nothing.
    tablet.go("people");
    assert!(tablet.reads("people").contains("Vera Quist"));
    add_person(&tablet, "Not Written", "technician");
    assert_eq!(tablet.reads("wanting"), other_writes);
    tablet.press("notice-action");
    tablet.wait("the second tab writes", || !says_so());
    tablet.go("start");
    tablet.go("people");
    add_person(&tablet, "Amon Reis", "technician");

    tablet.driver().to_tab(&first);
    tablet.go("people");
    assert!(
        says_so(),
        "the first tab doesn't know that it was taken over"
    );
    add_person(&tablet, "Too Late", "technician");
    assert_eq!(tablet.reads("wanting"), other_writes);

    tablet.driver().to_tab(&second);
    tablet.driver().reload();
    tablet.wait_until_up();
    tablet.go("people");
    let people = tablet.reads("people");
    assert!(
        people.contains("Vera Quist") && people.contains("Amon Reis"),
        "{people}"
    );
    assert!(
        !people.contains("Not Written") && !people.contains("Too Late"),
        "{people}"
    );
}
