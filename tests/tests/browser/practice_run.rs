//! A run in the practice bay: begun by a code that was read out, walked with the real runner over a
//! reload, stopped with a seal leak let go, and marked with that first; then two people side by side.

use job::id::Side;
use practice::axle::Axle;
use practice::fault::Fault;
use practice::run::Run;
use practice::seed::{Level, Seed};
use rules::slack::mechanism::Mechanism;
use serde_json::json;
use tests::browser::dist;
use tests::browser::host::Host;
use tests::browser::shop::add_person;
use tests::browser::tablet::Tablet;
use tests::browser::walk::{Walk, state};
use tests::browser::words::word;

const FOREMAN: &str = "Ines Halloran";
const APPRENTICE: &str = "Teo Vasquel";
const OTHER: &str = "Ruta Imani";

/// An axle of which only the wheel seal is wrong, and whose stands may take it.
fn leaking() -> (Seed, Side) {
    let only_the_seal = |seed: Seed| {
        let axle = Axle::of(seed);
        let [(Some(side), Fault::WheelSeal)] = axle.planted() else {
            return None;
        };
        let run = Run::of(seed);
        let stands = &run.decisions()[0];
        // The walk types no torque of a clutch, and is at the second axle.
        let walks = run.axle_number() == 2 && axle.left.mechanism != Mechanism::Clutch;
        (walks && stands.ruling.verdict().severity() == 0).then_some((seed, *side))
    };
    (0..)
        .map(|number| Seed::new(Level::Plain, number))
        .find_map(only_the_seal)
        .expect("among all seeds there is one")
}

fn be(tablet: &Tablet, name: &str) {
    tablet.go("runs");
    tablet.press("runs-who");
    tablet.press_row("people", name);
}

fn begin(tablet: &Tablet, seed: Seed) {
    tablet.go("runs");
    tablet.write("seed-code", &seed.code().to_lowercase());
    tablet.press("begin-code");
    tablet.wait_to_see("map");
}

fn stop(tablet: &Tablet) {
    tablet.go("marking");
    tablet.wait_to_see("stop-line");
    tablet.press("done");
    tablet.wait_to_see("marking-head");
}

/// At the hub the leak is plain to see, and is said to be none.
fn let_the_seal_go(tablet: &Tablet, side: Side) {
    let at = match side {
        Side::Left => "E2L",
        Side::Right => "E2R",
    };
    tablet.go("map");
    tablet.go(&format!("step/{at}/hub"));
    for _ in 0..10 {
        let now = state(tablet);
        match (now.shown.as_str(), now.ask.as_str()) {
            ("asked", "seal") => {
                let seen = tablet.reads("sights");
                assert!(seen.contains(&word("ui.sign.wheel-seal", &[])), "{seen}");
                tablet.press("choice-dry");
                return;
            }
            ("moment", _) => tablet.press_all(&["choice-not-yet", "done"]),
            _ => tablet.press("done"),
        }
    }
    panic!("the seal is never asked about: {:?}", state(tablet));
}

#[test]
fn practice_run() {
    let (seed, side) = leaking();
    let mut host = Host::start(&dist());
    let tablet = Tablet::new("practice_run", &host.address());
    tablet.press("other-home");
    tablet.wait_to_see("practice-band");
    tablet.go("people");
    for (name, role) in [
        (OTHER, "apprentice"),
        (FOREMAN, "foreman"),
        (APPRENTICE, "apprentice"),
    ] {
        tablet.go("people");
        add_person(&tablet, name, role);
    }
    tablet.wait_for_worker();
    host.stop();

    // A foreman gives the same run to both; nobody else can.
    tablet.go("compare");
    tablet.write("give-code", &seed.code());
    tablet.press(&format!("give-{APPRENTICE}"));
    tablet.press(&format!("give-{OTHER}"));
    tablet.press("give-it");
    assert!(
        tablet
            .reads("wanting")
            .contains(&word("ui.compare.foreman", &[]))
    );
    be(&tablet, FOREMAN);
    tablet.go("compare");
    tablet.write("give-code", &seed.code());
    tablet.press(&format!("give-{APPRENTICE}"));
    tablet.press(&format!("give-{OTHER}"));
    tablet.press("give-it");

    be(&tablet, APPRENTICE);
    tablet.go("runs");
    tablet.press(&format!("choice-{seed}"));
    tablet.wait_to_see("map");
    assert!(tablet.sees("practice-band"));

    // At the step the runner says what there is to see, and never what it means.
    let mut walk = Walk::new(&tablet, 2, FOREMAN).straight();
    walk.until("as-found", &mut |_, _| {});
    tablet.go("map");
    tablet.go("step/V/as-found");
    if state(&tablet).shown == "moment" {
        tablet.press("choice-not-yet");
        tablet.press("done");
    }
    let seen = tablet.reads("sights");
    assert!(seen.starts_with(&word("ui.see", &[])), "{seen}");
    assert!(tablet.sees("practice-band"));
    walk.until("raise", &mut |_, _| {});

    // A step that waits for something that protects: opening it is an attempt, and it is kept.
    tablet.go("map");
    tablet.go("step/V/lock-off");
    assert_eq!(state(&tablet).shown, "moment");
    tablet.press("choice-go-on");
    tablet.press("done");
    assert_eq!(state(&tablet).shown, "held");

    tablet.driver().reload();
    tablet.wait_until_up();
    assert!(tablet.sees("practice-band"));
    assert_eq!(
        state(&tablet).shown,
        "held",
        "what was said is kept over a reload"
    );
    tablet.go("map");
    let mut walk = Walk::new(&tablet, 2, FOREMAN).straight();
    walk.until("hub", &mut |_, _| {});
    let_the_seal_go(&tablet, side);
    stop(&tablet);
    let head = word("ui.marking.not-well-done", &[]);
    assert_eq!(tablet.reads("marking-head"), head);
    let first = "return document.querySelector('[data-testid=mark]').dataset.item;";
    assert_eq!(tablet.run(first, &json!([])), "seal");
    let group = tablet.reads("group-missed-and-hurts");
    assert!(
        group.contains(&word("finding.wheel-seal.matters", &[])),
        "{group}"
    );
    let early = tablet.reads("group-early");
    assert!(early.contains(&word("step.lock-off", &[])), "{early}");
    // It is over: the runner leads back to the marking.
    tablet.go("map");
    tablet.go("step/A2/jack");
    tablet.wait_to_see("marking-head");

    // The other one has the same axle and looks at nothing.
    be(&tablet, OTHER);
    begin(&tablet, seed);
    stop(&tablet);
    tablet.go(&format!("compare/{seed}"));
    let both = tablet.reads("side-by-side");
    for name in [APPRENTICE, OTHER] {
        assert!(both.contains(name), "{both}");
    }
    let seal = word("ui.item.seal", &[]);
    assert!(both.contains(&seal), "{both}");
    tablet.go("compare");
    assert!(tablet.reads("compare-seeds").contains(&seed.code()));
    assert!(tablet.reads("compare-people").contains(APPRENTICE));

    // Nothing of it is among the real cards, and its file is not taken in there.
    tablet.go("start");
    tablet.press("other-home");
    tablet.wait_to_lose("practice-band");
    assert!(tablet.sees("no-cards"));
    let stores = r#"
        const done = arguments[arguments.length - 1];
        const open = indexedDB.open("chock-to-chock");
        open.onsuccess = () => {
            const asked = open.result.transaction("lines").objectStore("lines").getAllKeys();
            asked.onsuccess = () => done(asked.result.filter((key) => String(key).includes("practice-")).length);
        };
    "#;
    let there = tablet.driver().run_async(stores, &json!([]));
    assert_eq!(
        there,
        json!(0),
        "lines of the practice bay in the real store"
    );
}
