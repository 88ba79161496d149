//! A run in the practice bay: begun by a code that was read out, walked with the real runner from the
//! chocks to the hand back over a reload, with every instrument read off its drawing and a seal leak
//! let go, and marked with that first; then two people side by side.

use job::id::Side;
use practice::axle::Axle;
use practice::decision::{Item, Shown};
use practice::fault::Fault;
use practice::instrument::{Instrument, Tool};
use practice::run::Run;
use practice::run::good::{SET_UP_APPLIED_16THS, set_up_free_16ths};
use practice::seed::{Level, Seed};
use rules::quantity::Quantity;
use rules::shown::{self, Lean};
use rules::slack::mechanism::Mechanism;
use rules::unit::Unit;
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
        // The walk is at the second axle, and types no torque that turns an adjuster.
        let walks = run.axle_number() == 2 && axle.left.mechanism == Mechanism::Manual;
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

/// What the instruments of the run show, as it is typed at the asks that read them.
fn shown_on(run: &Run) -> Vec<((String, String, String), String)> {
    let mut readings = Vec::new();
    for decision in run.decisions() {
        let Some(side) = decision.side else { continue };
        let end = run.place(side).to_string();
        let mut add = |step: &str, ask: &str, instrument: &Instrument| {
            let of = (step.to_owned(), end.clone(), ask.to_owned());
            readings.push((of, as_typed(instrument)));
        };
        match (&decision.shown, decision.item) {
            (Shown::Pushrod { at_rest, out }, Item::Applied) => {
                add("as-found", "at-rest", at_rest);
                add("as-found", "applied", out);
                add("as-left", "at-rest", at_rest);
                let set_up = Tool::PushrodRule.at(at_rest.marks() + SET_UP_APPLIED_16THS);
                add("as-left", "applied", &set_up);
                let mechanism = run.axle.end(side).mechanism;
                let free = Tool::PushrodRule.at(set_up_free_16ths(mechanism));
                add("free-stroke", "free-stroke", &free);
                add("as-left", "free-stroke", &free);
            }
            (Shown::Pushrod { at_rest, out }, _) => {
                let free = Tool::PushrodRule.at(out.marks() - at_rest.marks());
                add("as-found", "free-stroke", &free);
            }
            (Shown::Diameters { front, back }, Item::Diameter) => {
                for (edge, marks) in [("front", front), ("rear", back)] {
                    for (place, mark) in (1..).zip(marks) {
                        add("drum", &format!("{edge}-{place}"), mark);
                    }
                }
            }
            (Shown::Instrument(mark), Item::Lining) => add("old-parts", "lining", mark),
            (Shown::Instrument(mark), Item::Radial) => add("camshaft", "radial", mark),
            (Shown::Instrument(mark), Item::HubPlay) => add("hub", "end-play", mark),
            _ => {}
        }
        let cast_max = run.axle.end(side).drum().marks().cast_max;
        let cast_max = cast_max.and_then(|max| shown::exact(max.into(), Unit::Inch));
        let of = ("drum".to_owned(), end.clone(), "cast-max".to_owned());
        readings.push((of, cast_max.expect("it is cast into the drum")));
    }
    readings
}

/// As it is typed with the pad that the instrument has.
fn as_typed(instrument: &Instrument) -> String {
    match (instrument.tool(), instrument.shows()) {
        (Tool::PushrodRule, Quantity::Length(length)) => {
            shown::inch_fraction(length).expect("it is a fraction")
        }
        // Marks finer than a sixteenth are counted.
        (Tool::LiningGauge, _) => instrument.marks().to_string(),
        (tool, quantity) => {
            shown::decimal(quantity, tool.unit(), 3, Lean::Nearest)
                .expect("it is a figure")
                .text
        }
    }
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

    // An apprentice is one on a run too; somebody made up stands beside them, and the screen says so.
    let beside = word(
        "ui.practice.beside",
        &[("name", &word("ui.run.beside", &[]))],
    );
    tablet.go("step/V/chocks");
    let band = tablet.reads("practice-band-right");
    assert!(band.contains(&beside), "{band}");

    // What is measured is drawn, and its figure stands nowhere in words.
    let run = Run::of(seed);
    let mut walk = Walk::new(&tablet, 2, FOREMAN)
        .straight()
        .reading(shown_on(&run));
    walk.until("as-found", &mut |_, _| {});
    walk.until_ask("as-found", "V", "at-rest", &[]);
    tablet.press("nav-back");
    assert_eq!(state(&tablet).shown, "look");
    assert!(tablet.sees("instrument-pushrod-rule"));
    assert!(!tablet.sees("sights"), "{}", tablet.reads("sights"));
    tablet.press("done");
    // Looking once more loses nothing of what was typed.
    tablet.press("key-whole-2");
    tablet.press("nav-back");
    tablet.press("done");
    assert_eq!(tablet.reads("number"), "2");
    tablet.press("key-take-away");
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
    let mut walk = Walk::new(&tablet, 2, FOREMAN)
        .straight()
        .reading(shown_on(&run));
    walk.until("hub", &mut |_, _| {});
    // The leak is plain to see, and the walk says that there is none.
    let at = run.place(side).to_string();
    walk.until_ask("hub", &at, "seal", &[]);
    let seen = tablet.reads("sights");
    assert!(seen.contains(&word("ui.sign.wheel-seal", &[])), "{seen}");
    walk.until("road-check", &mut |_, _| {});
    tablet.go("map");
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
    assert!(tablet.sees("seen-seal"), "the part as it was seen");
    for group in ["group-condemned", "group-misread"] {
        assert!(!tablet.sees(group), "{}", tablet.reads(group));
    }
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
