//! Every rule of a part is reached by a reading typed in its step: one past its limit, one inside.
//! What is past it stands in the way of the hand back until it is put right; what is only told as
//! found says so and holds nothing.
//!
//! The limits themselves are held against published values elsewhere; here each figure only has to
//! lie well on its side.

use serde_json::json;
use tests::browser::dist;
use tests::browser::host::Host;
use tests::browser::shop::{add_person, add_stand, new_card};
use tests::browser::tablet::Tablet;
use tests::browser::walk::{Walk, state};
use tests::browser::words::word;

const END: &str = "E2L";
const AXLE: &str = "A2";
const VEHICLE: &str = "V";

/// What a reading past its limit does.
#[derive(Clone, Copy, PartialEq)]
enum Does {
    /// It stands in the way of the hand back.
    Holds,
    /// It is told as it was found: the part goes anyway, or the bearing stays by a foreman's word.
    Tells,
}

use Does::{Holds, Tells};

/// Step, place, ask, unit, a figure past the limit, one inside, what the first does.
type Reading = (
    &'static str,
    &'static str,
    &'static str,
    &'static str,
    &'static str,
    &'static str,
    Does,
);

const READINGS: &[Reading] = &[
    ("caging", END, "stands-out", "mm", "60", "75", Holds),
    (
        "slack-back-off",
        END,
        "gear-torque",
        "lbf-in",
        "47",
        "40",
        Holds,
    ),
    ("old-parts", END, "lining", "mm", "5", "10", Tells),
    ("old-parts", END, "rivets", "in", "0.050", "0.090", Tells),
    ("drum", END, "front-1", "in", "16.63", "16.6", Holds),
    // Within its maximum, but far from the other three.
    ("drum", END, "front-4", "in", "16.619", "16.6", Holds),
    ("camshaft", END, "radial", "in", "0.021", "0.010", Holds),
    ("camshaft", END, "end-play", "in", "0.070", "0.030", Holds),
    ("camshaft", END, "spline", "in", "0.120", "0.050", Holds),
    ("anchor", END, "groove", "in", "0.040", "0.010", Holds),
    ("adjuster", END, "angle", "deg", "86", "104", Holds),
    ("adjuster", END, "clevis-gap", "in", "0.070", "0.050", Holds),
    (
        "adjuster",
        END,
        "arm-bushing",
        "in",
        "0.660",
        "0.640",
        Holds,
    ),
    ("hub", END, "end-play", "in", "0.009", "0.003", Holds),
    ("kit", AXLE, "gap", "in", "0.011", "0.009", Holds),
    ("kit", AXLE, "gap-webs", "in", "0.026", "0.024", Holds),
    ("kit", AXLE, "span", "in", "12.7", "12.4", Holds),
    ("kit", AXLE, "recess", "in", "0.950", "0.800", Holds),
    ("drum-on", END, "run-out", "in", "0.025", "0.010", Holds),
    ("faces", END, "stand-out", "mm", "70", "75", Holds),
    ("hang", END, "turns", "turn", "5", "9", Holds),
    ("air-up", VEHICLE, "leak-off", "psi", "4", "1", Holds),
    ("air-up", VEHICLE, "leak-on", "psi", "5", "2", Holds),
    ("air-up", VEHICLE, "warning", "psi", "45", "65", Holds),
];

/// Facts that no clean wheel end is asked for: step, place, fact, option.
const FACTS: &[(&str, &str, &str, &str)] = &[
    ("camshaft", END, "brake-kind", "spider-20"),
    ("hub", END, "bearing-way", "rule-book"),
    ("wheel-look", END, "wheel-metal", "aluminium"),
    ("kit", AXLE, "roller-end", "recess"),
];

/// Step, place, ask, what is pressed, and the finding that comes of it.
type Look = (
    &'static str,
    &'static str,
    &'static str,
    &'static [&'static str],
    Option<&'static str>,
);

const LOOKS: &[Look] = &[
    (
        "drum",
        END,
        "surface",
        &["choice-cracked"],
        Some("drum-cracked"),
    ),
    (
        "camshaft",
        END,
        "head",
        &["choice-replace"],
        Some("cam-head"),
    ),
    ("anchor", END, "spider", &["choice-replace"], Some("spider")),
    (
        "adjuster",
        END,
        "clevis",
        &["choice-out-of-round"],
        Some("clevis-hole"),
    ),
    (
        "nuts-off",
        END,
        "nuts",
        &["nut-1", "choice-missing", "done"],
        None,
    ),
    (
        "studs",
        END,
        "which",
        &["nut-3", "choice-broken", "done"],
        None,
    ),
    (
        "wheel-look",
        END,
        "which",
        &["choice-wheels", "choice-cracked", "done"],
        None,
    ),
    (
        "old-parts",
        END,
        "linings",
        &["choice-upper", "choice-oil", "done"],
        None,
    ),
    (
        "kit",
        AXLE,
        "hardware",
        &["choice-return-spring", "choice-old", "done"],
        None,
    ),
];

#[test]
fn judgements() {
    let mut host = Host::start(&dist());
    let tablet = Tablet::new("judgements", &host.address());
    tablet.wait_for_worker();
    host.stop();
    tablet.driver().reload();
    tablet.wait_until_up();
    for (name, role) in [
        ("Wenzel Adair", "foreman"),
        ("Hanno Ostrander", "technician"),
    ] {
        tablet.go("people");
        add_person(&tablet, name, role);
    }
    for number in ["1", "2"] {
        tablet.go("stands");
        add_stand(&tablet, number, "20", "short-ton", "per-stand");
    }
    tablet.go("start");
    new_card(&tablet, "RK 2204", "tractor-1-2", &[2], "unloaded");
    let mut walk = Walk::new(&tablet, 2, "Wenzel Adair").straight();
    walk.until("second-look", &mut |_, _| {});

    let mut wrong = Vec::new();
    for (step, at, fact, option) in FACTS {
        row(&tablet, step, at, fact, &word(&format!("fact.{fact}"), &[]));
        tablet.press(&format!("choice-{option}"));
        // Where the step protects a person a choice is said with a second press.
        if state(&tablet).ask == *fact && state(&tablet).shown == "asked" {
            tablet.press("done");
        }
        keep_changes(&tablet);
    }
    row(
        &tablet,
        "caging",
        END,
        "bolt-tag",
        &word("fact.bolt-tag", &[]),
    );
    number(&tablet, "mm", "70");
    for reading in READINGS {
        let (step, at, ask, _, out, inside, does) = reading;
        let said_out = read(&tablet, reading, out);
        let way_out = in_the_way(&tablet);
        let said_inside = read(&tablet, reading, inside);
        let way_inside = in_the_way(&tablet);
        let beyond = word("verdict.beyond", &[]);
        if !said_out.contains(&beyond) || said_inside.contains(&beyond) {
            wrong.push(format!(
                "{step} {at} {ask}: {out} says {said_out:?}, {inside} says {said_inside:?}"
            ));
        }
        if (way_out > way_inside) != (*does == Holds) {
            wrong.push(format!(
                "{step} {at} {ask}: {way_out} in the way, then {way_inside}"
            ));
        }
    }
    for (step, at, ask, presses, finding) in LOOKS {
        row(
            &tablet,
            step,
            at,
            ask,
            &word(&format!("ask.{step}.{ask}"), &[]),
        );
        again(&tablet);
        tablet.press_all(presses);
        row(
            &tablet,
            step,
            at,
            ask,
            &word(&format!("ask.{step}.{ask}"), &[]),
        );
        let said = tablet.reads("answered");
        if finding.is_none() && !said.contains(&word("verdict.replace", &[])) {
            wrong.push(format!("{step} {at} {ask} says {said:?}"));
        }
        if let Some(finding) = finding {
            tablet.go("lines");
            let lines = tablet.reads("lines");
            if !lines.contains(&word(&format!("finding.{finding}"), &[])) {
                wrong.push(format!(
                    "{step} {at} {ask}: no line of {finding} in {lines:?}"
                ));
            }
        }
    }
    wrong.extend(soft_tyre(&tablet));
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// A tyre on a multi-piece rim, told as over 80 percent of its pressure and measured under it.
fn soft_tyre(tablet: &Tablet) -> Option<String> {
    row(tablet, "tyres", END, "rim", &word("fact.rim", &[]));
    again(tablet);
    tablet.press("choice-multi-piece");
    keep_changes(tablet);
    let condition = word("ask.tyres.condition", &[]);
    if state(tablet).ask != "condition" || state(tablet).shown != "asked" {
        row(tablet, "tyres", END, "condition", &condition);
        again(tablet);
    }
    tablet.press("choice-over-80");
    if state(tablet).ask == "condition" && state(tablet).shown == "asked" {
        tablet.press("done");
    }
    let should_be = ("tyres", END, "should-be", "psi", "100", "100", Tells);
    read(tablet, &should_be, "100");
    let outer = ("tyres", END, "outer", "psi", "80", "85", Holds);
    let soft = read(tablet, &outer, "80");
    let way_soft = in_the_way(tablet);
    let enough = read(tablet, &outer, "85");
    let way_enough = in_the_way(tablet);
    let beyond = word("verdict.beyond", &[]);
    let right = soft.contains(&beyond) && !enough.contains(&beyond) && way_soft > way_enough;
    (!right).then(|| {
        format!("tyres: {soft:?} with {way_soft} in the way, {enough:?} with {way_enough}")
    })
}

/// Opens one ask of a step that is done; one that is not clear is where its step opens by itself.
fn row(tablet: &Tablet, step: &str, at: &str, ask: &str, words: &str) {
    tablet.go("map");
    tablet.go(&format!("step/{at}/{step}"));
    let mut now = state(tablet);
    // Where another ask of the step is not clear, what was asked before it is found by going back.
    for _ in 0..20 {
        if now.ask == ask && now.shown == "answered" {
            return;
        }
        if now.shown == "list" {
            break;
        }
        tablet.press("nav-back");
        now = state(tablet);
    }
    assert_eq!(now.shown, "list", "{step} at {at} for {ask}: {now:?}");
    let script = r#"
        const rows = [...document.querySelectorAll('[data-testid=runner] [data-testid^="choice-"]')];
        const first = (row) => row.innerText.split("\n")[0].trim();
        const found = rows.find((row) => first(row) === arguments[0] || first(row).startsWith(`${arguments[0]} – `));
        return found?.dataset.testid ?? rows.map(first).join(" | ");
    "#;
    let id = tablet.run(script, &json!([words]));
    let id = id.as_str().unwrap_or_default();
    assert!(
        id.starts_with("choice-"),
        "{step} at {at} has no {words:?}: {id}"
    );
    tablet.press(id);
}

/// Types a reading over the one that is there, and says what is then said of it.
fn read(tablet: &Tablet, reading: &Reading, figure: &str) -> String {
    let (step, at, ask, unit, ..) = reading;
    let words = word(&format!("ask.{step}.{ask}"), &[]);
    row(tablet, step, at, ask, &words);
    again(tablet);
    number(tablet, unit, figure);
    row(tablet, step, at, ask, &words);
    tablet.reads("answered")
}

fn again(tablet: &Tablet) {
    if state(tablet).shown == "answered" {
        tablet.press("answer-again");
    }
}

fn number(tablet: &Tablet, unit: &str, figure: &str) {
    let key = format!("unit-{unit}");
    if tablet.sees(&key) {
        tablet.press(&key);
    }
    let thousandths = state(tablet).thousandths;
    let typed = if thousandths {
        figure.replace("0.", "")
    } else {
        figure.to_owned()
    };
    tablet.driver().keys(&typed);
    tablet.settle();
    tablet.press("done");
    if tablet.sees("question") {
        tablet.press("question-keep");
    }
    keep_changes(tablet);
}

fn keep_changes(tablet: &Tablet) {
    if tablet.sees("changes-keep") {
        tablet.press("changes-keep");
    }
}

/// How many things stand between the vehicle and the road.
fn in_the_way(tablet: &Tablet) -> u64 {
    tablet.go("way");
    tablet.wait_to_see("way-line");
    let count = tablet.run(
        r#"return document.querySelectorAll('main [data-testid^="choice-"]').length"#,
        &json!([]),
    );
    count.as_u64().unwrap_or_default()
}
