//! A limit of the shop's own: entered with its source, held beside the printed ones on a card that
//! takes it, and taken off again. What can't be a limit is not taken, and nothing typed is lost.

use tests::browser::dist;
use tests::browser::host::Host;
use tests::browser::shop::{add_jack, add_person, add_stand, limit_pages, new_card};
use tests::browser::tablet::Tablet;
use tests::browser::walk::Walk;
use tests::browser::words::word;

const FOREMAN: &str = "Ines Karu";
const SOURCE: &str = "brake maker's sheet 4, p. 2";

#[test]
fn a_limit_of_the_shop() {
    let host = Host::start(&dist());
    let tablet = Tablet::new("a_limit_of_the_shop", &host.address());
    tablet.go("people");
    add_person(&tablet, FOREMAN, "foreman");
    tablet.go("stands");
    for number in ["1", "2"] {
        add_stand(&tablet, number, "20", "short-ton", "per-stand");
    }
    tablet.go("jacks");
    add_jack(&tablet, "1", "22");
    entered(&tablet);

    tablet.go("start");
    new_card(&tablet, "LM 2", "tractor-1-2", &[2], "unloaded");
    let mut walk = Walk::new(&tablet, 2, FOREMAN).straight();
    walk.until("camshaft", &mut |_, _| {});
    walk.until_ask("camshaft", "E2L", "radial", &[]);
    tablet.driver().keys("013");
    tablet.press("done");
    tablet.wait_to_see("answered");
    let said = tablet.reads("answered");
    assert!(said.contains(&word("verdict.beyond", &[])), "{said}");
    assert!(said.contains(SOURCE), "{said}");

    tablet.go("limits");
    tablet.press("limit-drop-0");
    tablet.wait_to_lose("limit-row-0");
}

/// Every page, with nothing as the figure and without a source first.
fn entered(tablet: &Tablet) {
    tablet.go("limits");
    tablet.press("limit-new");
    limit_pages(tablet, &mut |_| {});
    tablet.press("limit-keep");
    assert_eq!(
        tablet.reads("wanting"),
        word("shop.limit-source-missing", &[])
    );
    tablet.write("limit-source", SOURCE);
    // Out by ten is asked about, and nothing is refused.
    tablet.press("back");
    tablet.press("key-clear");
    tablet.key_in("0.12");
    tablet.press("done");
    tablet.wait_to_see("question");
    tablet.press("question-again");
    tablet.press("key-clear");
    tablet.key_in("0");
    tablet.press("done");
    if tablet.sees("question") {
        tablet.press("question-keep");
    }
    tablet.press("limit-keep");
    assert_eq!(tablet.reads("wanting"), word("shop.limit-none", &[]));
    tablet.press("back");
    tablet.press("key-clear");
    tablet.key_in("0.012");
    tablet.press("done");
    tablet.press("limit-keep");
    tablet.wait_to_see("limit-row-0");
    let row = tablet.reads("limit-row-0");
    assert!(row.contains(SOURCE) && row.contains("0.012"), "{row}");
    assert!(row.contains(FOREMAN), "who entered it is not said: {row}");
}
