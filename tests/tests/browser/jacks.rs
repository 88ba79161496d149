//! The jacks of the shop: put on the list with what is on their plates, and picked under an axle with
//! one press. A figure that can't be is asked about or refused, and nothing that was typed is lost.

use tests::browser::dist;
use tests::browser::host::Host;
use tests::browser::shop::{add_jack, add_person, add_stand, new_card};
use tests::browser::tablet::Tablet;
use tests::browser::walk::{Walk, state};
use tests::browser::words::word;

const FOREMAN: &str = "Ines Karu";

#[test]
fn jacks() {
    let host = Host::start(&dist());
    let tablet = Tablet::new("jacks", &host.address());
    tablet.go("people");
    add_person(&tablet, FOREMAN, "foreman");
    tablet.go("stands");
    for number in ["1", "2"] {
        add_stand(&tablet, number, "20", "short-ton", "per-stand");
    }
    the_list(&tablet);
    under_the_axle(&tablet);
}

/// Out by ten is asked about, nothing is refused, and a name stands once.
fn the_list(tablet: &Tablet) {
    tablet.go("jacks");
    tablet.press("jack-new");
    tablet.press("jack-name-next");
    assert_eq!(tablet.reads("wanting"), word("shop.jack-name-missing", &[]));
    tablet.write("jack-name", "small");
    tablet.press("jack-name-next");
    tablet.key_in("0");
    tablet.press("done");
    if tablet.sees("question") {
        tablet.press("question-keep");
    }
    assert_eq!(tablet.reads("wanting"), word("shop.jack-rating-none", &[]));
    tablet.press("back");
    tablet.press("jack-name-next");
    assert!(tablet.reads("value-entry").contains('0'), "it was lost");
    tablet.press("key-take-away");
    tablet.key_in("500");
    tablet.press("done");
    tablet.wait_to_see("question");
    tablet.press("question-again");
    tablet.press("key-take-away");
    tablet.press("key-take-away");
    tablet.press("done");
    tablet.wait_to_see("jack-row-small");
    add_jack(tablet, "big", "22");
    add_jack(tablet, "leaky", "22");
    tablet.press("jack-new");
    tablet.write("jack-name", "big");
    tablet.press("jack-name-next");
    let taken = word("shop.jack-name-taken", &[("jack", "big")]);
    assert_eq!(tablet.reads("wanting"), taken);
    tablet.press("back");
    tablet.press("withdraw-leaky");
    tablet.write("withdraw-why", "leaks down");
    tablet.press("withdraw-yes");
    tablet.wait_to_see("jacks-out");
    assert!(tablet.reads("jacks-out").contains("leaks down"));
}

/// One press takes one; it is judged by the load, and another can be typed.
fn under_the_axle(tablet: &Tablet) {
    tablet.go("start");
    new_card(tablet, "JK 1", "tractor-1-2", &[2], "unloaded");
    let mut walk = Walk::new(tablet, 2, FOREMAN).straight();
    walk.until("jack", &mut |_, _| {});
    walk.until_ask("jack", "A2", "rating", &[]);
    let rows = [tablet.reads("choice-0"), tablet.reads("choice-1")];
    assert!(rows[0].contains("big") && rows[0].contains(&word("verdict.within", &[])));
    assert!(rows[1].contains("small") && rows[1].contains(&word("verdict.beyond", &[])));
    assert!(!tablet.sees("choice-2"), "one out of use is offered");
    tablet.press("choice-1");
    tablet.wait_to_see("told");
    assert!(tablet.reads("told").contains("small"));
    tablet.press("answer-again");
    tablet.press("choice-0");
    tablet.wait_to_lose("choice-1");
    walk.until_ask("jack", "A2", "head", &[]);
    assert_eq!(state(tablet).ask, "head");
    tablet.go("trail");
    assert!(tablet.reads("trail").contains(&word(
        "event.jack",
        &[
            ("jack", "big"),
            ("tag", &format!("22 {}", word("unit.short-ton", &[])))
        ],
    )));
}
