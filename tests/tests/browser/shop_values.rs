//! The shop's own values for a wheel: said once, kept with their source, and taken by every new card
//! with the version that they had.

use tests::browser::dist;
use tests::browser::host::Host;
use tests::browser::shop::{add_person, new_card, wheel_pages};
use tests::browser::tablet::Tablet;
use tests::browser::words::word;

const SOURCE: &str = "rim maker's letter, p. 2";

#[test]
fn shop_values() {
    let host = Host::start(&dist());
    let tablet = Tablet::new("shop_values", &host.address());
    tablet.go("people");
    add_person(&tablet, "Ola Lindt", "technician");

    tablet.go("wheels");
    tablet.press("choice-spoke");
    wheel_pages(&tablet, &mut |_| ());
    tablet.press("done");
    assert_eq!(
        tablet.reads("wanting"),
        word("shop.wheel-source-missing", &[])
    );
    tablet.write("wheel-source", SOURCE);
    tablet.press("done");
    let row = tablet.reads("choice-spoke");
    let order = word("event.wheel.order", &[("order", "1 3 5 2 4")]);
    for part in ["300", "320", "60", "80", SOURCE, &order] {
        assert!(row.contains(part), "{part} is not in {row}");
    }

    tablet.go("defaults");
    tablet.press("choice-jurisdiction-quebec");
    let first = tablet.reads("shop-version");
    tablet.go("start");
    new_card(&tablet, "SV 4", "tractor-1-2", &[2], "unloaded");
    tablet.go("setup");
    assert!(
        tablet
            .reads("fact-V-jurisdiction")
            .contains(&word("fact.jurisdiction.quebec", &[]))
    );
    tablet.go("defaults");
    assert!(!tablet.sees("take-values"), "a new card is behind its shop");

    // The sheet goes on, the card stays; what is new is said before the newer values are taken.
    tablet.press("choice-jurisdiction-ontario");
    assert_ne!(tablet.reads("shop-version"), first);
    let of_card = tablet.reads("card-version");
    tablet.press("take-values");
    let entries = tablet.reads("changes-entries");
    assert!(
        entries.contains(&word("fact.jurisdiction.ontario", &[])),
        "{entries}"
    );
    tablet.press("changes-leave");
    assert_eq!(tablet.reads("card-version"), of_card);
    tablet.press("take-values");
    tablet.press("changes-keep");
    tablet.wait_to_lose("take-values");
    assert_ne!(tablet.reads("card-version"), of_card);
    tablet.go("setup");
    assert!(
        tablet
            .reads("fact-V-jurisdiction")
            .contains(&word("fact.jurisdiction.quebec", &[]))
    );
}
