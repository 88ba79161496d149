//! The bring list: ticked before work begins, longer with what is found, and what was fetched counted.

use tests::browser::dist;
use tests::browser::host::Host;
use tests::browser::shop::{add_person, new_card};
use tests::browser::tablet::Tablet;
use tests::browser::walk::Walk;
use tests::browser::words::word;

fn counted(tablet: &Tablet) -> Vec<u32> {
    let said = tablet.reads("bring-counted");
    said.split(|c: char| !c.is_ascii_digit())
        .filter_map(|number| number.parse().ok())
        .collect()
}

#[test]
fn bring_list() {
    let host = Host::start(&dist());
    let tablet = Tablet::new("bring_list", &host.address());
    tablet.go("people");
    add_person(&tablet, "Sanne Mbeki", "technician");
    tablet.go("start");
    new_card(&tablet, "KR 88", "semitrailer-2", &[1], "loaded");
    tablet.press("choice-bring");
    let [here, of, fetched] = counted(&tablet)[..] else {
        panic!("{}", tablet.reads("bring-counted"));
    };
    assert_eq!((here, fetched), (0, 0));
    assert!(!tablet.sees("bring-fetched"), "nothing has begun");
    let list = tablet.reads("bring");
    assert!(list.contains(&word("ui.bring.owned", &[("owned", "0")])));
    assert!(list.contains(&word("bring.caging-bolts", &[])));
    tablet.press_all(&["choice-chocks", "choice-shoes", "choice-lamp"]);
    assert_eq!(counted(&tablet), [3, of, 0]);
    tablet.press("choice-lamp");
    assert_eq!(counted(&tablet), [2, of, 0], "it is not there after all");

    // Work begins, and a seal is found leaking: it wants something fetched.
    Walk::new(&tablet, 1, "").through(&["standing", "chocks"]);
    tablet.go("found/E1L");
    tablet.press_all(&[
        "choice-hub",
        "choice-wheel-seal",
        "choice-renew-seal",
        "done",
    ]);
    tablet.go("bring");
    assert_eq!(counted(&tablet), [2, of + 1, 0]);
    tablet.press("choice-wheel-seal-renew-seal-E1L");
    assert_eq!(counted(&tablet), [3, of + 1, 1]);
    tablet.press_all(&["bring-here", "choice-lamp"]);
    assert_eq!(counted(&tablet), [4, of + 1, 1]);

    // It stands on the trail, holds nothing, and the foreman has the count.
    tablet.go("trail");
    assert!(tablet.reads("trail").contains(&word("bring.lamp", &[])));
    tablet.go("bay");
    assert_eq!(
        tablet.reads("bay-fetched"),
        word("ui.bay.fetched", &[("count", "1")])
    );
    assert!(tablet.complaints().is_empty(), "{:?}", tablet.complaints());
}
