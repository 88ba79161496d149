use crate::bay::{A2, Bay, L2, R2, V, choice, choose, reading};
use crate::card::StepState;
use crate::event::{Answer, Event, Exception, FactValue};
use crate::id::{Place, Side};
use crate::line::LineRef;

const A1: Place = Place::Axle(1);
const L1: Place = Place::End(1, Side::Left);

fn bay() -> Bay {
    Bay::of_shipped(&["old-parts", "kit"], &[1, 2])
}

/// What was kept beside an answer: verdict and remarks.
fn then(bay: &Bay, line: &LineRef) -> (String, Vec<String>) {
    let entry = bay.entry(line);
    let Some(Event::Answered { judged, .. }) = entry.event() else {
        panic!("no answer: {entry:?}");
    };
    let [one] = judged.as_slice() else {
        panic!("not one judgement: {judged:?}");
    };
    (one.verdict.clone(), one.remarks.clone())
}

fn old(bay: &mut Bay, at: Place, ask: &str, text: &str, unit: &str) -> String {
    let line = bay.say("tess", at, "old-parts", ask, reading(text, unit));
    then(bay, &line.unwrap()).0
}

fn but(named: &[(&str, &str)]) -> Answer {
    let but = named.iter().map(|(item, mark)| Exception {
        item: (*item).to_owned(),
        mark: (*mark).into(),
    });
    Answer::Exceptions { but: but.collect() }
}

// Thickness: 49 CFR 393.47(d), 396 Appendix A, Quebec C-24.2 r. 32 s. 31.

#[test]
fn an_old_lining_is_judged_and_holds_nothing() {
    let mut bay = bay();
    assert_eq!(old(&mut bay, L2, "lining", "6.3", "mm"), "beyond");
    assert_eq!(old(&mut bay, L2, "lining", "6.4", "mm"), "at-the-limit");
    assert_eq!(old(&mut bay, L2, "lining", "0.30", "in"), "within");
    assert_eq!(old(&mut bay, L2, "lining", "0.24", "in"), "beyond");
    bay.say("tess", L2, "old-parts", "cause", choose("miles"))
        .unwrap();
    assert_eq!(bay.state(L2, "old-parts"), StepState::Done);
}

#[test]
fn a_steer_axle_is_the_first_of_a_power_unit() {
    let mut bay = bay();
    bay.fact("tess", V, "vehicle", choice("tractor")).unwrap();
    bay.fact("tess", A1, "shoe-lining", choice("strip"))
        .unwrap();
    let limits = |bay: &mut Bay, at| {
        let line = bay.say("tess", at, "old-parts", "lining", reading("5.5", "mm"));
        let entry = bay.entry(&line.unwrap());
        let Some(Event::Answered { judged, .. }) = entry.event() else {
            panic!("no answer");
        };
        let texts = judged[0].limits.iter().map(|limit| limit.text.clone());
        texts.collect::<Vec<String>>()
    };
    // 4.8 mm on the road beside 6.4 mm at a periodic inspection, in inches and rounded down.
    assert_eq!(limits(&mut bay, L1), ["0.2519", "0.1889"]);
    assert_eq!(limits(&mut bay, L2), ["0.2519", "0.2519"]);
    bay.fact("tess", V, "vehicle", choice("semitrailer"))
        .unwrap();
    assert_eq!(limits(&mut bay, L1), ["0.2519", "0.2519"]);
}

#[test]
fn quebec_has_its_own_figures_at_the_thinnest_point() {
    let mut bay = bay();
    assert_eq!(old(&mut bay, L2, "thinnest", "7", "mm"), "within");
    bay.fact("tess", V, "jurisdiction", choice("quebec"))
        .unwrap();
    assert_eq!(old(&mut bay, L2, "thinnest", "7", "mm"), "no-reading");
    bay.fact("tess", A2, "lining-fixing", choice("riveted"))
        .unwrap();
    let line = bay.say("tess", L2, "old-parts", "thinnest", reading("7", "mm"));
    let (verdict, remarks) = then(&bay, &line.unwrap());
    assert_eq!(verdict, "beyond");
    assert!(remarks.contains(&"lining.remark.quebec-or".to_owned()));
    bay.fact("tess", A2, "lining-fixing", choice("bonded"))
        .unwrap();
    assert_eq!(old(&mut bay, L2, "thinnest", "7", "mm"), "within");
    assert_eq!(old(&mut bay, L2, "lining", "7", "mm"), "no-reading");
}

#[test]
fn another_province_is_told_that_its_figure_is_not_entered() {
    let mut bay = bay();
    bay.fact("tess", V, "jurisdiction", choice("canada"))
        .unwrap();
    let line = bay.say("tess", L2, "old-parts", "lining", reading("10", "mm"));
    let remarks = then(&bay, &line.unwrap()).1;
    assert_eq!(remarks, ["lining.remark.us-figure"]);
}

#[test]
fn a_lining_at_its_wear_mark_goes_however_thick() {
    let mut bay = bay();
    let linings = but(&[("upper", "at-mark")]);
    let line = bay.say("tess", L2, "old-parts", "linings", linings);
    assert_eq!(then(&bay, &line.unwrap()).0, "sound");
    assert_eq!(old(&mut bay, L2, "lining", "1/2", "in"), "beyond");
}

#[test]
fn rivets_are_judged_by_the_stricter_of_two() {
    let mut bay = bay();
    assert_eq!(old(&mut bay, L2, "rivets", "0.0625", "in"), "at-the-limit");
    assert_eq!(old(&mut bay, L2, "rivets", "0.06", "in"), "beyond");
}

#[test]
fn oil_on_an_old_lining_says_what_comes_first() {
    let mut bay = bay();
    let linings = but(&[("upper", "tapered"), ("lower", "oil")]);
    let line = bay.say("tess", L2, "old-parts", "linings", linings);
    let (verdict, remarks) = then(&bay, &line.unwrap());
    assert_eq!(verdict, "replace");
    assert_eq!(
        remarks,
        ["lining.remark.find-uneven", "lining.remark.cure-leak"]
    );
}

// Edge codes: one code and one make on both ends (`EDGE_CODE_ALIKE`).

fn letters(bay: &mut Bay, at: Place, normal: &str, hot: &str) {
    bay.fact("tess", at, "edge-normal", choice(normal)).unwrap();
    bay.fact("tess", at, "edge-hot", choice(hot)).unwrap();
}

fn kit() -> Bay {
    let mut bay = bay();
    bay.say("tess", A2, "kit", "against-old", choose("same"))
        .unwrap();
    bay
}

fn alike(bay: &mut Bay) -> (String, StepState) {
    let line = bay.say("tess", A2, "kit", "ends", choose("alike"));
    let verdict = then(bay, &line.unwrap()).0;
    (verdict, bay.state(A2, "kit"))
}

#[test]
fn codes_that_differ_hold_the_kit_whatever_was_said() {
    let mut bay = kit();
    letters(&mut bay, L2, "f", "f");
    letters(&mut bay, R2, "f", "g");
    let held = alike(&mut bay);
    assert_eq!(held, ("replace".to_owned(), StepState::Unclear));
    letters(&mut bay, R2, "f", "f");
    assert_eq!(alike(&mut bay), ("sound".to_owned(), StepState::Done));
    // Said to differ, they do so for another reason.
    bay.say("tess", A2, "kit", "ends", choose("differ"))
        .unwrap();
    assert_eq!(bay.state(A2, "kit"), StepState::Unclear);
}

#[test]
fn the_whole_edge_goes_before_its_letters() {
    let mut bay = kit();
    letters(&mut bay, L2, "f", "f");
    letters(&mut bay, R2, "f", "f");
    let edge = |bay: &mut Bay, at, text: &str| {
        let text = FactValue::Text(text.to_owned());
        bay.fact("tess", at, "edge-text", text).unwrap();
    };
    edge(&mut bay, L2, "ABC 12 FF A19");
    edge(&mut bay, R2, "XYZ 12 FF A19");
    assert_eq!(alike(&mut bay).0, "replace");
    edge(&mut bay, R2, "abc-12 ff");
    assert_eq!(alike(&mut bay), ("sound".to_owned(), StepState::Done));
    edge(&mut bay, R2, "no code");
    let line = bay.say("tess", A2, "kit", "ends", choose("alike"));
    let (verdict, remarks) = then(&bay, &line.unwrap());
    assert_eq!(verdict, "no-reading");
    assert_eq!(remarks, ["lining.code.fault.none"]);
}

#[test]
fn letters_that_nobody_can_read_are_no_reading() {
    let mut bay = kit();
    letters(&mut bay, L2, "f", "f");
    for fact in ["edge-normal", "edge-hot"] {
        bay.fact("tess", R2, fact, FactValue::NotKnown).unwrap();
    }
    assert_eq!(alike(&mut bay), ("no-reading".to_owned(), StepState::Done));
}

// What goes on with the shoes, and the shoes themselves.

fn sound_kit() -> Bay {
    let mut bay = kit();
    letters(&mut bay, L2, "f", "f");
    letters(&mut bay, R2, "f", "f");
    assert_eq!(alike(&mut bay).1, StepState::Done);
    bay
}

#[test]
fn an_old_spring_holds_the_kit_and_an_old_roller_is_told() {
    let mut bay = sound_kit();
    let mut left_old = |part| {
        let line = bay.say("tess", A2, "kit", "hardware", but(&[(part, "old")]));
        (then(&bay, &line.unwrap()).0, bay.state(A2, "kit"))
    };
    let held = ("replace".to_owned(), StepState::Unclear);
    assert_eq!(left_old("return-spring"), held);
    assert_eq!(left_old("rollers"), ("sound".to_owned(), StepState::Done));
}

#[test]
fn a_shoe_that_is_out_holds_the_kit() {
    let mut bay = sound_kit();
    let mut state = |ask, inches| {
        bay.say("tess", L2, "kit", ask, reading(inches, "in"))
            .unwrap();
        bay.state(A2, "kit")
    };
    // 0.010 in at the edges, 0.025 in between the webs (`LINING_GAP`).
    assert_eq!(state("gap", "0.011"), StepState::Unclear);
    assert_eq!(state("gap", "0.010"), StepState::Done);
    assert_eq!(state("gap-webs", "0.026"), StepState::Unclear);
    assert_eq!(state("gap-webs", "0.025"), StepState::Done);
    // Which shoe it is nobody said yet: advice.
    assert_eq!(state("span", "13"), StepState::Done);
    bay.fact("tess", A2, "roller-end", choice("recess"))
        .unwrap();
    let mut state = |ask, inches| {
        bay.say("tess", L2, "kit", ask, reading(inches, "in"))
            .unwrap();
        bay.state(A2, "kit")
    };
    // 12 5/16 to 12 9/16 in; out at 7/8 in (`SHOE_RECESS`).
    assert_eq!(state("span", "12.6"), StepState::Unclear);
    assert_eq!(state("span", "12 7/16"), StepState::Done);
    assert_eq!(state("recess", "7/8"), StepState::Unclear);
    assert_eq!(state("recess", "0.87"), StepState::Done);
    // 1.03 in, for shoes with a roller hole (`SHOE_HOLE`).
    assert_eq!(state("pin-hole", "1.04"), StepState::Done);
    bay.fact("tess", A2, "roller-end", choice("hole")).unwrap();
    assert_eq!(bay.state(A2, "kit"), StepState::Unclear);
}
