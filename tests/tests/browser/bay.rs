//! The foreman's bay list: what is where, what waits for the customer, what was found this month.

use tests::browser::dist;
use tests::browser::host::Host;
use tests::browser::shop::{add_person, new_card};
use tests::browser::tablet::Tablet;
use tests::browser::walk::Walk;
use tests::browser::words::word;

#[test]
fn bay_list() {
    let host = Host::start(&dist());
    let tablet = Tablet::new("bay_list", &host.address());
    tablet.go("bay");
    for (part, none) in [
        ("bay-in", "ui.bay.in-bay.none"),
        ("bay-looks", "ui.bay.looks.none"),
        ("bay-answers", "ui.bay.answers.none"),
        ("bay-road", "ui.bay.road.none"),
        ("bay-months", "ui.bay.months.none"),
    ] {
        assert!(tablet.reads(part).contains(&word(none, &[])), "{part}");
    }
    tablet.go("people");
    add_person(&tablet, "Sanne Mbeki", "technician");
    for unit in ["WD 402", "KR 88"] {
        tablet.go("start");
        new_card(&tablet, unit, "semitrailer-2", &[1], "loaded");
    }
    Walk::new(&tablet, 1, "").through(&["standing", "chocks"]);
    for (part, finding) in [("hub", "wheel-seal"), ("springs", "return-spring")] {
        tablet.go("found/E1L");
        tablet.press(&format!("choice-{part}"));
        tablet.press(&format!("choice-{finding}"));
        if tablet.sees("choice-renew-seal") {
            tablet.press("choice-renew-seal");
        }
        tablet.press("done");
    }
    tablet.go("lines");
    tablet.press_row("lines", &word("finding.wheel-seal", &[]));
    tablet.press("tell-said-yes");

    tablet.go("start");
    tablet.press("bay-list");
    let in_bay = tablet.reads("bay-in");
    assert!(in_bay.contains("KR 88"), "{in_bay}");
    assert!(
        !in_bay.contains("WD 402"),
        "nothing is done on it: {in_bay}"
    );
    assert!(in_bay.contains(&word("ui.bay.nobody", &[])), "{in_bay}");
    let answers = tablet.reads("bay-answers");
    assert!(
        answers.contains(&word("finding.return-spring", &[])),
        "{answers}"
    );
    assert!(
        !answers.contains(&word("finding.wheel-seal", &[])),
        "{answers}"
    );
    // Both were found, answered or not.
    let bars = tablet.reads("finding-bars");
    for finding in ["wheel-seal", "return-spring"] {
        assert!(
            bars.contains(&word(&format!("finding.{finding}"), &[])),
            "{bars}"
        );
    }
    assert_eq!(
        tablet.reads("bay-sent-back"),
        word("ui.bay.sent-back", &[("back", "0"), ("of", "0")])
    );
    // A row leads to where the work is.
    tablet.press_row("bay-answers", "KR 88");
    tablet.wait_to_see("lines");
    tablet.go("bay");
    tablet.press_row("bay-in", "KR 88");
    tablet.wait_to_see("map");
    assert!(tablet.complaints().is_empty(), "{:?}", tablet.complaints());
}
