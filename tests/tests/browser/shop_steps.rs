//! Steps of the shop's own on a tablet without a network: written in the shop's words, taken by a
//! card, asked at the end of their stage, waited for by the second look and by the record, and kept
//! by the card when the sheet drops them.

use serde_json::json;
use tests::browser::dist;
use tests::browser::host::Host;
use tests::browser::shop::{add_jack, add_person, add_stand, new_card};
use tests::browser::tablet::Tablet;
use tests::browser::walk::{Walk, state};
use tests::browser::words::word;

const FETCH: &str = "const done = arguments[0]; fetch('./sw.js?' + Math.random()).then(() => done(true), () => done(false))";
const FOREMAN: &str = "Ines Karu";
const MARK: &str = "Paint a line over each nut and the wheel";
const PHOTO: &str = "Photograph the odometer";

#[test]
fn shop_steps() {
    let mut host = Host::start(&dist());
    let tablet = Tablet::new("shop_steps", &host.address());
    tablet.wait_for_worker();
    host.stop();
    tablet.driver().reload();
    tablet.wait_until_up();
    assert_eq!(
        tablet.driver().run_async(FETCH, &json!([])),
        false,
        "there is still a network"
    );
    tablet.go("people");
    add_person(&tablet, FOREMAN, "foreman");
    tablet.go("people");
    add_person(&tablet, "Mirte Solano", "technician");
    tablet.go("stands");
    for number in ["1", "2"] {
        add_stand(&tablet, number, "20", "short-ton", "per-stand");
    }
    tablet.go("jacks");
    add_jack(&tablet, "1", "22");
    written(&tablet);

    tablet.go("start");
    new_card(&tablet, "ST 7", "tractor-1-2", &[2], "unloaded");
    let mut walk = Walk::new(&tablet, 2, FOREMAN).straight();
    walk.until("lower", &mut |_, _| {});
    let id = asked(&tablet, "E2R", MARK);
    tablet.press("done");
    walk.through(&[
        "lower",
        "final-pass",
        "check-pass",
        "hands-clear",
        "lock-off",
        "air-up",
        "settle",
        "function",
        "as-left",
    ]);
    let photo = asked(&tablet, "V", PHOTO);

    // The other end waits: on the page that is handed over, and before the second look.
    tablet.go("hand-over/E2L");
    assert!(tablet.reads("over-open").contains(MARK));
    tablet.go("way");
    for words in [MARK, PHOTO] {
        in_the_way(&tablet, words);
        assert!(state(&tablet).step.starts_with("shop-"));
        tablet.go("way");
    }
    held_by(&tablet, "E2L", "second-look", MARK);
    done_at(&tablet, "E2L", &id);
    walk.through(&[
        "second-look",
        "covers-on",
        "suspension-up",
        "chocks-out",
        "low-speed",
    ]);

    // Taken off the sheet, the card keeps what it took.
    held_by(&tablet, "V", "record", PHOTO);
    tablet.go("steps");
    tablet.press("shop-step-drop-1");
    tablet.wait_to_lose("shop-step-1");
    tablet.go("defaults");
    tablet.wait_to_see("take-values");
    held_by(&tablet, "V", "record", PHOTO);
    done_at(&tablet, "V", &photo);
    walk.step("record", "V", &mut |_, _| {});
    for (screen, id) in [("record", "record"), ("trail", "trail")] {
        tablet.go(screen);
        let said = tablet.reads(id);
        assert!(said.contains(MARK) && said.contains(PHOTO), "{screen}");
    }
}

/// Two steps, each refused first for all that can be wrong with it; one of them is changed.
fn written(tablet: &Tablet) {
    tablet.go("steps");
    tablet.press_all(&["shop-step-new", "choice-slack", "choice-scope.end"]);
    tablet.press("shop-step-keep");
    assert_eq!(
        tablet.reads("wanting"),
        word("shop.step-words-missing", &[])
    );
    let long = "Wipe ".repeat(25);
    tablet.write("shop-step-words", &long);
    tablet.press("shop-step-keep");
    assert_eq!(
        tablet.reads("wanting"),
        word("shop.step-words-too-long", &[("most", "120")])
    );
    tablet.write("shop-step-words", MARK);
    tablet.press("shop-step-keep");
    tablet.wait_to_see("shop-step-0");
    tablet.press_all(&["shop-step-new", "choice-slack", "choice-scope.vehicle"]);
    tablet.write("shop-step-words", &MARK.to_uppercase());
    tablet.press("shop-step-keep");
    let twice = word("shop.step-twice", &[("words", &MARK.to_uppercase())]);
    assert_eq!(tablet.reads("wanting"), twice);
    tablet.press_all(&["back", "back", "choice-prove", "choice-scope.vehicle"]);
    tablet.write("shop-step-words", "Photograph the plate");
    tablet.press("shop-step-keep");
    tablet.wait_to_see("shop-step-1");
    tablet.press_all(&["shop-step-change-1", "choice-prove", "choice-scope.vehicle"]);
    tablet.write("shop-step-words", PHOTO);
    tablet.press("shop-step-keep");
    tablet.wait_to_see("shop-step-1");
    let row = tablet.reads("shop-step-1");
    assert!(
        row.contains(PHOTO) && row.contains(&word("stage.prove", &[])),
        "{row}"
    );
    assert!(!tablet.sees("shop-step-2"));
}

/// What the runner asks by itself now; gives the id of the step.
fn asked(tablet: &Tablet, at: &str, words: &str) -> String {
    let now = state(tablet);
    assert!(now.step.starts_with("shop-"), "{now:?}");
    assert_eq!(now.at, at);
    assert!(tablet.reads("runner").contains(words));
    now.step
}

/// Says that it is done, where one stands now if the runner asks for that first.
fn done_at(tablet: &Tablet, at: &str, step: &str) {
    tablet.go("map");
    tablet.go(&format!("step/{at}/{step}"));
    while state(tablet).shown == "here" {
        tablet.press("done");
    }
    assert_eq!(state(tablet).shown, "asked");
    tablet.press("done");
}

/// Goes to what this row of the list leads to.
fn in_the_way(tablet: &Tablet, words: &str) {
    let row = |n: usize| format!("choice-{n}");
    let is_it = |n: &usize| tablet.sees(&row(*n)) && tablet.reads(&row(*n)).contains(words);
    let found = (0..30)
        .find(is_it)
        .unwrap_or_else(|| panic!("{words} is not in the way"));
    tablet.press(&row(found));
}

fn held_by(tablet: &Tablet, at: &str, step: &str, words: &str) {
    tablet.go("map");
    tablet.go(&format!("step/{at}/{step}"));
    let now = state(tablet);
    assert_eq!(now.shown, "held", "{now:?}");
    let said = tablet.reads("runner");
    assert!(said.contains(words), "{said}");
}
