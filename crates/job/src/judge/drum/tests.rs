use rules::verdict::Verdict;

use super::pair;
use crate::bay::{A2, Bay, L2, R2, choice, choose, press, reading};
use crate::card::StepState;
use crate::event::{Event, FactValue, LineState};
use crate::id::Place;
use crate::line::LineRef;

/// Old drums of 16 1/2 in with 16.620 in cast in them, and nothing measured yet.
fn bay() -> Bay {
    let mut bay = Bay::of_shipped(&["drum", "drum-on"], &[2]);
    bay.fact("tess", A2, "drum-mount", choice("outboard"))
        .unwrap();
    bay.fact("tess", A2, "drum-new", choice("kept")).unwrap();
    bay.fact("tess", A2, "drum-size", choice("d16-5")).unwrap();
    for end in [L2, R2] {
        bay.fact("tess", end, "drum-mark", choice("readable"))
            .unwrap();
        say(&mut bay, end, "cast-max", "16.620");
    }
    bay
}

fn say(bay: &mut Bay, at: Place, ask: &str, inches: &str) -> LineRef {
    bay.say("tess", at, "drum", ask, reading(inches, "in"))
        .unwrap()
}

/// Every place of one drum, but for those named.
fn measure(bay: &mut Bay, at: Place, but: &[(&str, &str)]) {
    for ask in super::FRONT.iter().chain(&super::BACK) {
        let other = but.iter().find(|(of, _)| of == ask);
        say(bay, at, ask, other.map_or("16.550", |(_, inches)| inches));
    }
}

fn look(bay: &mut Bay, at: Place, shows: &str) -> LineRef {
    bay.say("tess", at, "drum", "surface", choose(shows))
        .unwrap()
}

/// Both drums measured and looked at, the left one with these readings.
fn both(but: &[(&str, &str)]) -> Bay {
    let mut bay = bay();
    measure(&mut bay, L2, but);
    measure(&mut bay, R2, &[]);
    look(&mut bay, L2, "even");
    look(&mut bay, R2, "even");
    bay
}

fn states(bay: &Bay) -> [StepState; 2] {
    [L2, R2].map(|end| bay.state(end, "drum"))
}

/// What was kept beside an answer: rule and verdict.
fn then(bay: &Bay, line: &LineRef) -> Vec<(String, String)> {
    let entry = bay.entry(line);
    let Some(Event::Answered { judged, .. }) = entry.event() else {
        panic!("no answer: {entry:?}");
    };
    let told = |one: &crate::event::JudgedThen| (one.rule.clone(), one.verdict.clone());
    judged.iter().map(told).collect()
}

const DONE: StepState = StepState::Done;
const UNCLEAR: StepState = StepState::Unclear;

// Diameters. Limit: the cast maximum, else nominal and 0.120 in (`DRUM_MAKER`).

#[test]
fn two_drums_inside_their_maximum_go_back_on() {
    let bay = both(&[]);
    assert_eq!(states(&bay), [DONE, DONE]);
    let judged = pair(&bay.card(), L2).unwrap();
    assert_eq!(judged.verdict, Verdict::Sound);
}

#[test]
fn one_place_over_the_maximum_takes_both_drums() {
    let bay = both(&[
        ("front-1", "16.615"),
        ("front-2", "16.615"),
        ("front-3", "16.615"),
        ("front-4", "16.621"),
        ("rear-1", "16.615"),
        ("rear-2", "16.615"),
        ("rear-3", "16.615"),
        ("rear-4", "16.620"),
    ]);
    // The right one is well inside: the pair rule is a result of its own.
    assert_eq!(states(&bay), [UNCLEAR, UNCLEAR]);
    let judged = pair(&bay.card(), R2).unwrap();
    assert_eq!(judged.verdict, Verdict::Replace);
    assert_eq!(judged.remarks[0].word.key(), "drum.remark.both-go");
}

#[test]
fn new_drums_for_the_axle_settle_it() {
    let mut bay = both(&[("front-2", "17")]);
    assert_eq!(states(&bay), [UNCLEAR, UNCLEAR]);
    bay.fact("tess", A2, "drum-new", choice("renewed")).unwrap();
    for end in [L2, R2] {
        bay.say("tess", end, "drum", "new-drum", choose("right"))
            .unwrap();
    }
    assert_eq!(states(&bay), [DONE, DONE]);
}

#[test]
fn exactly_on_its_maximum_it_wants_the_foremans_reason() {
    let places = super::FRONT.iter().chain(&super::BACK);
    let on_it: Vec<(&str, &str)> = places.map(|id| (*id, "16.620")).collect();
    let mut bay = both(&on_it);
    assert_eq!(states(&bay), [UNCLEAR, DONE]);
    bay.pass("fay", L2, "drum", "drum", "new ones come on Friday")
        .unwrap();
    assert_eq!(states(&bay), [DONE, DONE]);
}

#[test]
fn a_place_measured_anew_is_judged_with_the_others_again() {
    let mut bay = both(&[("front-2", "16.580")]);
    assert_eq!(states(&bay), [UNCLEAR, DONE]);
    say(&mut bay, L2, "front-2", "16.555");
    assert_eq!(states(&bay), [DONE, DONE]);
}

#[test]
fn without_a_cast_figure_the_makers_own_counts() {
    let mut bay = both(&[]);
    bay.fact("tess", L2, "drum-mark", choice("worn-away"))
        .unwrap();
    assert_eq!(states(&bay), [DONE, DONE]);
    // A drum of 15 in ends at 15.120 in.
    bay.fact("tess", A2, "drum-size", choice("d15")).unwrap();
    assert_eq!(states(&bay)[0], UNCLEAR);
    // With no figure at all there is no reading, and nothing goes back on unmeasured.
    bay.fact("tess", A2, "drum-size", choice("other")).unwrap();
    assert_eq!(states(&bay)[0], UNCLEAR);
    let line = say(&mut bay, L2, "front-1", "16.550");
    assert_eq!(
        then(&bay, &line),
        [("drum.diameter".to_owned(), "no-reading".to_owned())]
    );
    // Judged as soon as its figure is known, without measuring again.
    bay.fact("tess", A2, "drum-size", choice("d16-5")).unwrap();
    assert_eq!(states(&bay), [DONE, DONE]);
}

#[test]
fn a_drum_kept_by_its_casting_after_a_smaller_one_was_typed_has_to_be_measured_again() {
    let mut bay = bay();
    say(&mut bay, L2, "cast-max", "16.540");
    measure(&mut bay, L2, &[]);
    measure(&mut bay, R2, &[]);
    look(&mut bay, L2, "even");
    look(&mut bay, R2, "even");
    assert_eq!(states(&bay), [UNCLEAR, UNCLEAR]);
    // What is read later never makes an old reading better.
    say(&mut bay, L2, "cast-max", "16.620");
    assert_eq!(bay.state(L2, "drum"), UNCLEAR);
    measure(&mut bay, L2, &[]);
    assert_eq!(states(&bay), [DONE, DONE]);
}

// Shape. Limits: 0.015 in at one depth, 0.010 in from front to back (`DRUM_SEMITRAILER`).

#[test]
fn out_of_round_is_told_with_the_last_place_of_a_depth() {
    let mut bay = bay();
    for (ask, inches) in [
        ("front-1", "16.550"),
        ("front-2", "16.566"),
        ("front-3", "16.550"),
    ] {
        let line = say(&mut bay, L2, ask, inches);
        assert_eq!(then(&bay, &line).len(), 1, "{ask}");
    }
    let line = say(&mut bay, L2, "front-4", "16.550");
    let told = then(&bay, &line);
    assert_eq!(told[0], ("drum.diameter".to_owned(), "within".to_owned()));
    assert_eq!(told[1], ("drum.round".to_owned(), "beyond".to_owned()));
}

#[test]
fn taper_is_told_at_the_back_and_holds() {
    let bay = both(&[("rear-3", "16.561")]);
    assert_eq!(states(&bay), [UNCLEAR, DONE]);
    let bay = both(&[("rear-3", "16.559")]);
    assert_eq!(states(&bay), [DONE, DONE]);
}

#[test]
fn a_bell_mouth_holds_where_a_figure_is_printed() {
    let mut bay = bay();
    bay.fact("tess", A2, "drum-size", choice("d15")).unwrap();
    let mouth = |bay: &mut Bay| {
        for ask in ["front-1", "front-2", "front-3", "front-4"] {
            say(bay, L2, ask, "15.026");
        }
        for ask in ["rear-1", "rear-2", "rear-3"] {
            say(bay, L2, ask, "15.000");
        }
        let line = say(bay, L2, "rear-4", "15.000");
        let bell = then(bay, &line)
            .into_iter()
            .find(|(rule, _)| rule == "drum.bell-mouth");
        bell.map(|(_, verdict)| verdict)
    };
    assert_eq!(mouth(&mut bay).as_deref(), Some("beyond"));
    bay.fact("tess", A2, "drum-size", choice("d16-5")).unwrap();
    assert_eq!(mouth(&mut bay).as_deref(), Some("no-reading"));
}

// Turning. Limit: nominal and 0.080 in; 0.040 in left for wear (`DRUM_MAKER`).

#[test]
fn a_turned_drum_is_held_to_its_own_size_and_its_mate_is_turned_too() {
    let places = super::FRONT.iter().chain(&super::BACK);
    let wide: Vec<(&str, &str)> = places.map(|id| (*id, "16.585")).collect();
    let mut bay = both(&wide);
    assert_eq!(states(&bay), [DONE, DONE]);
    let turned = |bay: &mut Bay, at| {
        bay.say("tess", at, "drum", "turned", choose("turned"))
            .unwrap();
    };
    turned(&mut bay, L2);
    assert_eq!(states(&bay), [UNCLEAR, UNCLEAR]);
    measure(&mut bay, L2, &[]);
    assert_eq!(states(&bay), [UNCLEAR, UNCLEAR], "one of two was turned");
    turned(&mut bay, R2);
    assert_eq!(states(&bay), [DONE, DONE]);
}

// Surface: 49 CFR 396 Appendix A 1.c.

#[test]
fn fine_checks_stay_and_a_crack_takes_both() {
    let mut bay = both(&[]);
    look(&mut bay, L2, "fine-checks");
    assert_eq!(states(&bay), [DONE, DONE]);
    for shows in [
        "cracked",
        "crack-through",
        "piece-missing",
        "checked",
        "blue",
        "pattern",
        "mounting",
    ] {
        look(&mut bay, L2, shows);
        assert_eq!(states(&bay), [UNCLEAR, UNCLEAR], "{shows}");
    }
    look(&mut bay, L2, "even");
    assert_eq!(states(&bay), [DONE, DONE]);
}

#[test]
fn a_line_done_for_one_drum_renewed_both() {
    let mut bay = both(&[]);
    let line = bay
        .say_with_line("tess", L2, "drum", "surface", choose("cracked"))
        .unwrap();
    assert_eq!(states(&bay), [UNCLEAR, UNCLEAR]);
    for state in [LineState::Waiting, LineState::SaidYes, LineState::Done] {
        bay.tell("tess", &line, state).unwrap();
    }
    assert_eq!(states(&bay), [DONE, DONE]);
}

#[test]
fn the_first_drum_is_not_held_for_its_mate() {
    let mut bay = bay();
    measure(&mut bay, L2, &[]);
    look(&mut bay, L2, "even");
    assert_eq!(bay.state(L2, "drum"), DONE);
    let judged = pair(&bay.card(), L2).unwrap();
    assert_eq!(judged.verdict, Verdict::NoReading);
}

#[test]
fn an_old_drum_that_goes_is_told_and_holds_nothing() {
    let mut bay = bay();
    bay.fact("tess", A2, "drum-new", choice("renewed")).unwrap();
    let line = bay
        .say("tess", L2, "drum", "old-drum", choose("blue"))
        .unwrap();
    assert_eq!(
        then(&bay, &line),
        [("drum.surface".to_owned(), "replace".to_owned())]
    );
    bay.say("tess", L2, "drum", "new-drum", choose("right"))
        .unwrap();
    assert_eq!(bay.state(L2, "drum"), DONE);
    bay.say("tess", L2, "drum", "new-drum", choose("wrong"))
        .unwrap();
    assert_eq!(bay.state(L2, "drum"), UNCLEAR);
}

#[test]
fn the_number_of_a_new_drum_is_asked_for_until_it_is_noted() {
    let mut bay = bay();
    bay.fact("tess", A2, "drum-new", choice("renewed")).unwrap();
    let said = |bay: &mut Bay| {
        let line = bay
            .say("tess", L2, "drum", "new-drum", choose("right"))
            .unwrap();
        let entry = bay.entry(&line);
        let Some(Event::Answered { judged, .. }) = entry.event() else {
            panic!("no answer");
        };
        judged[0]
            .remarks
            .contains(&"drum.remark.note-number".to_owned())
    };
    assert!(said(&mut bay));
    let number = FactValue::Text("3600A".to_owned());
    bay.fact("tess", A2, "drum-number", number).unwrap();
    assert!(!said(&mut bay));
}

// Run-out: 0.020 in (`DRUM_RUN_OUT`).

#[test]
fn run_out_is_judged_where_it_is_taken() {
    let mut bay = bay();
    bay.say("tess", L2, "drum-on", "seated", press("all-round"))
        .unwrap();
    let mut state = |inches| {
        bay.say("tess", L2, "drum-on", "run-out", reading(inches, "in"))
            .unwrap();
        bay.state(L2, "drum-on")
    };
    assert_eq!(state("0.020"), DONE);
    assert_eq!(state("0.021"), UNCLEAR);
    assert_eq!(state("0.019"), DONE);
}
