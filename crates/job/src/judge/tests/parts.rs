//! Camshaft, bearing, studs and wheels in the steps of the procedure as it is shipped.

use super::*;
use crate::card::{AskState, Card};
use crate::event::Exception;
use crate::hold;
use crate::judge::{bearing, is_plain, judge};
use crate::procedure::{Ask, Step};

const SHIPPED: &str = include_str!("../../../../../assets/procedure/s-cam-reline.json");

fn shipped(vehicle: &str, axle: u8) -> Bay {
    let mut bay = Bay::empty();
    bay.procedures = Procedures::read([], SHIPPED).unwrap();
    let mut setup = crate::bay::setup(&[axle]);
    setup.vehicle = Some(vehicle.into());
    let drafts = act::open_card(bay.procedures.newest(), "0.1.0", &setup).unwrap();
    bay.keep("tess", drafts);
    bay.sign_on("tess", Role::Technician);
    bay.sign_on("fay", Role::Foreman);
    bay
}

fn step_and_ask(card: &Card, step: &str, ask: &str) -> (Step, Ask) {
    let procedure = card.procedure.as_deref().unwrap();
    let step = procedure.step(&step.into()).unwrap().clone();
    let ask = step.asks.iter().find(|one| one.id.as_str() == ask);
    let ask = ask.unwrap().clone();
    (step, ask)
}

/// Writes an answer, whatever holds it.
fn write(bay: &mut Bay, at: Place, (step, ask): (&str, &str), answer: Answer) {
    bay.force(
        "tess",
        Event::Answered {
            at,
            step: step.into(),
            ask: ask.into(),
            item: Item::Only,
            answer,
            beside: None,
            judged: Vec::new(),
        },
    );
}

/// The same, with its verdict, its remarks, and whether the ask is clear.
fn said(
    bay: &mut Bay,
    at: Place,
    (step, ask): (&str, &str),
    answer: Answer,
) -> (&'static str, Vec<&'static str>, AskState) {
    write(bay, at, (step, ask), answer.clone());
    let card = bay.card();
    let (step, ask) = step_and_ask(&card, step, ask);
    let judged = judge(&card, at, &step, &ask, &answer).unwrap();
    let state = card.ask_state(&step, &ask, at);
    let judgements = judged.judgements();
    let [one] = judgements.as_slice() else {
        panic!("not one judgement: {judged:?}");
    };
    let remarks = one.remarks.iter().map(|said| said.word.key()).collect();
    (one.verdict.code(), remarks, state)
}

fn verdict(bay: &mut Bay, at: Place, of: (&str, &str), answer: Answer) -> (&'static str, AskState) {
    let (verdict, _, state) = said(bay, at, of, answer);
    (verdict, state)
}

fn but(named: &[(&str, &str)]) -> Answer {
    let but = named
        .iter()
        .map(|(item, mark)| Exception {
            item: (*item).to_owned(),
            mark: (*mark).into(),
        })
        .collect();
    Answer::Exceptions { but }
}

use AskState::{Clear, Unclear};

// Camshaft. Limits: 0.020 in (`CAM_PLAY_TWENTY`), 0.030 in (`CAM_PLAY_THIRTY`).

#[test]
fn cam_play_without_a_kind_is_advice_and_holds_nothing() {
    let mut bay = shipped("tractor", 2);
    let radial = ("camshaft", "radial");
    let (of, says, state) = said(&mut bay, L2, radial, reading("0.027", "in"));
    assert_eq!(
        (of, says, state),
        ("no-reading", vec!["window.kind-unknown"], Clear)
    );
    bay.fact("tess", A2, "brake-kind", FactValue::NotKnown)
        .unwrap();
    let of = verdict(&mut bay, L2, radial, reading("0.027", "in"));
    assert_eq!(of, ("no-reading", Clear));
    // Past every limit it is beyond, whatever the kind.
    let of = verdict(&mut bay, L2, radial, reading("0.036", "in"));
    assert_eq!(of, ("beyond", Unclear));
}

#[test]
fn there_is_nothing_to_read_about_within_every_figure() {
    let bay = shipped("tractor", 2);
    let card = bay.card();
    let step = card.procedure.as_deref().unwrap().step(&"camshaft".into());
    let step = step.unwrap();
    let ask = step.asks.iter().find(|ask| ask.id.as_str() == "radial");
    let plain = |figure: &str| {
        let judged = judge(&card, L2, step, ask.unwrap(), &reading(figure, "in"));
        is_plain(&judged.unwrap())
    };
    assert!(plain("0.019"), "whatever the kind of brake");
    assert!(!plain("0.020"), "on the least of the figures");
    assert!(!plain("0.027"), "past one, within another");
    assert!(!plain("0.036"));
}

#[test]
fn cam_play_is_judged_by_the_kind_of_brake() {
    let mut bay = shipped("tractor", 2);
    let radial = ("camshaft", "radial");
    said(&mut bay, L2, radial, reading("0.027", "in"));
    bay.fact("tess", A2, "brake-kind", choice("spider-20"))
        .unwrap();
    let of = verdict(&mut bay, L2, radial, reading("0.027", "in"));
    assert_eq!(of, ("beyond", Unclear));
    bay.fact("tess", A2, "brake-kind", choice("spider-30"))
        .unwrap();
    let of = verdict(&mut bay, L2, radial, reading("0.027", "in"));
    assert_eq!(of, ("within", Clear));
    // End to end: up to 0.062 in (`CAM_END_SPIDER`).
    let end = ("camshaft", "end-play");
    let of = verdict(&mut bay, L2, end, reading("0.063", "in"));
    assert_eq!(of, ("beyond", Unclear));
    let of = verdict(&mut bay, L2, end, reading("0.062", "in"));
    assert_eq!(of, ("at-the-limit", Clear));
    // 0.094 in, 6 in out (`CAM_SPLINE`), is the only figure printed.
    let spline = ("camshaft", "spline");
    let of = verdict(&mut bay, L2, spline, reading("0.1", "in"));
    assert_eq!(of, ("beyond", Unclear));
    let of = verdict(&mut bay, L2, spline, reading("0.05", "in"));
    assert_eq!(of, ("no-reading", Clear));
}

#[test]
fn an_anchor_pin_is_judged_by_its_groove_and_a_bore_is_only_told() {
    let mut bay = shipped("tractor", 2);
    bay.fact("tess", A2, "brake-kind", choice("spider-20"))
        .unwrap();
    // 0.03 in below the surface (`ANCHOR_PIN_ARMY`).
    let groove = ("anchor", "groove");
    let of = verdict(&mut bay, L2, groove, reading("0.029", "in"));
    assert_eq!(of, ("within", Clear));
    let of = verdict(&mut bay, L2, groove, reading("0.04", "in"));
    assert_eq!(of, ("beyond", Unclear));
    let bore = ("anchor", "bore");
    let of = verdict(&mut bay, L2, bore, reading("1.25", "in"));
    assert_eq!(of, ("no-reading", Clear));
}

#[test]
fn what_goes_by_eye_says_what_goes_with_it() {
    let mut bay = shipped("tractor", 2);
    let mut look =
        |step: &str, ask: &str, option: &str| said(&mut bay, L2, (step, ask), choose(option));
    let replace = |says: &'static str| ("replace", vec![says], Unclear);
    assert_eq!(
        look("camshaft", "grease", "cam-head"),
        replace("camshaft.remark.grease")
    );
    assert_eq!(
        look("camshaft", "grease", "no-way"),
        replace("camshaft.remark.binding")
    );
    assert_eq!(
        look("camshaft", "grease", "adjuster-end"),
        ("sound", vec![], Clear)
    );
    assert_eq!(
        look("camshaft", "head", "replace"),
        replace("camshaft.remark.head")
    );
    assert_eq!(
        look("anchor", "spider", "replace"),
        replace("camshaft.remark.anchor")
    );
    assert_eq!(
        look("adjuster", "pin", "replace"),
        replace("slack.remark.clevis-pin")
    );
    assert_eq!(
        look("adjuster", "clevis", "bolt"),
        replace("slack.remark.clevis-bolt")
    );
    assert_eq!(
        look("adjuster", "clevis", "out-of-round"),
        replace("slack.remark.clevis-hole")
    );
    assert_eq!(look("adjuster", "clevis", "round").2, Clear);
    // A pin that is still stuck is no verdict yet.
    let card = bay.card();
    let (step, ask) = step_and_ask(&card, "anchor", "spider");
    let stuck = judge(&card, L2, &step, &ask, &choose("stuck")).unwrap();
    assert_eq!(stuck.judgements().len(), 0);
    // 0.65 in (`ARM_BUSHING`).
    let bushing = ("adjuster", "arm-bushing");
    let of = verdict(&mut bay, L2, bushing, reading("0.66", "in"));
    assert_eq!(of, ("beyond", Unclear));
    let of = verdict(&mut bay, L2, bushing, reading("0.64", "in"));
    assert_eq!(of, ("within", Clear));
}

// Bearing. Windows: 0.001 to 0.005 in (`BEARING_RULE_BOOK`), to 0.010 (`BEARING_TRAILER_MAKER`).

#[test]
fn end_play_is_judged_by_the_way_that_applies() {
    let mut bay = shipped("semitrailer", 2);
    bay.fact("tess", A2, "drum-mount", choice("inboard"))
        .unwrap();
    let play = ("drum-on", "end-play");
    let mut with = |way: FactValue, inches: &str| {
        bay.fact("tess", A2, "bearing-way", way).unwrap();
        verdict(&mut bay, L2, play, reading(inches, "in"))
    };
    assert_eq!(with(choice("rule-book"), "0.008"), ("beyond", Unclear));
    assert_eq!(with(choice("rule-book"), "0.000"), ("beyond", Unclear));
    assert_eq!(with(choice("rule-book"), "0.003"), ("within", Clear));
    assert_eq!(with(choice("trailer-maker"), "0.008"), ("within", Clear));
    assert_eq!(with(choice("steer-drive"), "0.003"), ("beyond", Unclear));
    assert_eq!(with(FactValue::NotKnown, "0.008"), ("no-reading", Clear));
    assert_eq!(with(FactValue::NotKnown, "0.011"), ("beyond", Unclear));
}

#[test]
fn a_hub_that_stays_on_beyond_is_the_foremans_to_let_go_on() {
    let mut bay = shipped("tractor", 2);
    bay.fact("tess", A2, "drum-mount", choice("outboard"))
        .unwrap();
    write(&mut bay, L2, ("hub", "seal"), choose("dry"));
    let of = verdict(&mut bay, L2, ("hub", "end-play"), reading("0.012", "in"));
    assert_eq!(of, ("beyond", Unclear));
    assert_eq!(bay.state(L2, "hub"), StepState::Unclear);
    let because = "adjusted before the drum goes on";
    assert!(bay.pass("tess", L2, "hub", "hub", because).is_err());
    bay.pass("fay", L2, "hub", "hub", because).unwrap();
    assert_eq!(bay.state(L2, "hub"), StepState::Done);
    // A seal that leaks is not passed with it.
    write(&mut bay, L2, ("hub", "seal"), choose("leaks"));
    assert_eq!(bay.state(L2, "hub"), StepState::Unclear);
    assert!(hold::never_passed(
        &bay.card(),
        &"shoes-on".into(),
        &"hub".into()
    ));
}

#[test]
fn the_rule_books_steps_come_with_axle_nuts_and_thread() {
    let steps = |vehicle: &str, axle: u8, nuts: &str, thread: &str| {
        let mut bay = shipped(vehicle, axle);
        let at = Place::Axle(axle);
        bay.fact("tess", at, "drum-mount", choice("inboard"))
            .unwrap();
        assert_eq!(bearing::steps(&bay.card(), Place::ends(axle)[0]), None);
        for (fact, option) in [
            ("bearing-way", "rule-book"),
            ("bearing-nuts", nuts),
            ("bearing-thread", thread),
        ] {
            bay.fact("tess", at, fact, choice(option)).unwrap();
        }
        bearing::steps(&bay.card(), Place::ends(axle)[0]).map(|steps| {
            let back = steps.iter().find(|step| step.arguments.len() == 3);
            format!("{:?}", back.unwrap().arguments[0].1)
        })
    };
    let back = |parts: u32| Some(format!("Count({parts})"));
    assert_eq!(steps("tractor", 1, "single", "t12"), back(6));
    assert_eq!(steps("tractor", 2, "tang", "t12"), back(4));
    assert_eq!(steps("semitrailer", 1, "double-small", "t12"), back(4));
    assert_eq!(steps("tractor", 1, "double-small", "t14"), back(2));
    assert_eq!(steps("semitrailer", 1, "dowel", "t12"), None);
}

// Studs, nuts and wheels.

fn with_wheels(vehicle: &str, axle: u8, mounting: &str) -> Bay {
    let mut bay = shipped(vehicle, axle);
    let at = Place::Axle(axle);
    bay.fact("tess", at, "mounting", choice(mounting)).unwrap();
    bay.fact("tess", at, "wheel-set", choice("dual")).unwrap();
    bay.fact("tess", at, "studs", FactValue::Count(10)).unwrap();
    bay
}

#[test]
fn broken_studs_say_which_ones_go() {
    let mut bay = with_wheels("tractor", 2, "hub-piloted");
    let which = ("studs", "which");
    let (of, says, _) = said(&mut bay, L2, which, but(&[("4", "broken")]));
    assert_eq!(
        (of, says),
        (
            "replace",
            vec!["stud.remark.renew", "stud.remark.neighbours"]
        )
    );
    let (_, says, _) = said(
        &mut bay,
        L2,
        which,
        but(&[("4", "broken"), ("9", "broken")]),
    );
    assert_eq!(says, ["stud.remark.all", "stud.remark.all-elsewhere"]);
    assert_eq!(verdict(&mut bay, L2, which, but(&[])), ("sound", Clear));
}

#[test]
fn one_missing_nut_is_enough() {
    let mut bay = with_wheels("tractor", 2, "hub-piloted");
    let nuts = ("nuts-off", "nuts");
    let (of, says, state) = said(&mut bay, L2, nuts, but(&[("7", "missing")]));
    // It came in so: it is told, and the work goes on.
    assert_eq!(
        (of, says, state),
        ("replace", vec!["stud.remark.nut-missing"], Clear)
    );
    let (of, says, _) = said(&mut bay, L2, nuts, but(&[("7", "stiff-freed")]));
    assert_eq!((of, says), ("sound", vec!["stud.remark.washer-freed"]));
}

#[test]
fn threads_go_by_mounting_and_side() {
    let mut bay = with_wheels("tractor", 2, "ball-seat-dual");
    let hand = ("studs", "hand");
    let mut of = |at: Place, option: &str| verdict(&mut bay, at, hand, choose(option));
    assert_eq!(of(L2, "left"), ("sound", Clear));
    assert_eq!(of(R2, "right"), ("sound", Clear));
    assert_eq!(of(R2, "left"), ("replace", Unclear));
    assert_eq!(of(L2, "mixed"), ("replace", Unclear));
    let mut bay = with_wheels("tractor", 2, "hub-piloted");
    let of = verdict(&mut bay, L2, hand, choose("left"));
    assert_eq!(of, ("replace", Unclear));
}

#[test]
fn studs_stand_out_as_the_wheels_on_them_need() {
    let mut bay = with_wheels("tractor", 2, "hub-piloted");
    let out = ("faces", "stand-out");
    let of = verdict(&mut bay, L2, out, reading("2.75", "in"));
    assert_eq!(of, ("no-reading", Clear));
    bay.fact("tess", A2, "wheel-metal", choice("aluminium"))
        .unwrap();
    // 71.4 mm for an aluminium dual (`STAND_OUT_PILOT`), 27 mm for its pilot (`PILOT_LENGTH`).
    let of = verdict(&mut bay, L2, out, reading("2.75", "in"));
    assert_eq!(of, ("beyond", Unclear));
    let of = verdict(&mut bay, L2, out, reading("2.85", "in"));
    assert_eq!(of, ("within", Clear));
    let pilot = ("wheel-look", "pilot");
    let of = verdict(&mut bay, L2, pilot, reading("26.5", "mm"));
    assert_eq!(of, ("beyond", Unclear));
    let of = verdict(&mut bay, L2, pilot, reading("28", "mm"));
    assert_eq!(of, ("within", Clear));
}

#[test]
fn a_nut_has_its_turns_by_its_thread() {
    let mut bay = with_wheels("tractor", 2, "hub-piloted");
    let turns = ("hang", "turns");
    bay.fact("tess", A2, "stud-thread", choice("m22")).unwrap();
    let of = verdict(&mut bay, L2, turns, reading("6", "turn"));
    assert_eq!(of, ("beyond", Unclear));
    let of = verdict(&mut bay, L2, turns, reading("7 1/2", "turn"));
    assert_eq!(of, ("within", Clear));
    bay.fact("tess", A2, "stud-thread", choice("m20")).unwrap();
    let of = verdict(&mut bay, L2, turns, reading("6", "turn"));
    assert_eq!(of, ("no-reading", Clear));
    // Past the nut only Quebec prints a figure; this card is judged by the law of the United States.
    let past = ("run-up", "past-nut");
    let of = verdict(&mut bay, L2, past, reading("1", "turn"));
    assert_eq!(of, ("no-reading", Clear));
    // Turns are shown as turns.
    let card = bay.card();
    let (step, ask) = step_and_ask(&card, "hang", "turns");
    let judged = judge(&card, L2, &step, &ask, &reading("6 1/2", "turn")).unwrap();
    let then = judged.then(&crate::judge::Units::METRIC);
    let shown = then[0].reading.as_ref().unwrap();
    assert_eq!((shown.text.as_str(), shown.unit.as_str()), ("6.5", "turn"));
}

#[test]
fn wheels_are_judged_by_axle_and_metal() {
    let mut bay = with_wheels("tractor", 1, "hub-piloted");
    let left = Place::ends(1)[0];
    let which = ("wheel-look", "which");
    let welded = || but(&[("wheels", "welded")]);
    let (of, says, _) = said(&mut bay, left, which, welded());
    assert_eq!((of, says), ("replace", vec!["stud.remark.welded-steel"]));
    bay.fact("tess", Place::Axle(1), "wheel-metal", choice("aluminium"))
        .unwrap();
    let (_, says, _) = said(&mut bay, left, which, welded());
    assert_eq!(says, ["stud.remark.welded-aluminium"]);
    let mut bay = with_wheels("tractor", 2, "hub-piloted");
    let (_, says, _) = said(&mut bay, L2, which, welded());
    assert_eq!(says, ["stud.remark.welded"]);
    // Rims on spokes: 1/8 in behind (`TORQUE_ARMY_SPOKE`).
    let mut bay = with_wheels("tractor", 2, "spoke");
    let run_out = ("run-up", "run-out");
    let of = verdict(&mut bay, L2, run_out, reading("3/16", "in"));
    assert_eq!(of, ("beyond", Unclear));
    let of = verdict(&mut bay, L2, run_out, reading("1/8", "in"));
    assert_eq!(of, ("at-the-limit", Clear));
}
