mod parts;

use rules::slack::set_up::MayTurn;
use rules::torque::log::LogFault;
use rules::verdict::Verdict;
use rules::word::Remark;

use super::{judge_fact, stroke, torque};
use crate::act::{self, Refusal};
use crate::bay::{Bay, L2, R2, V, choice, choose, lines, reading, typed};
use crate::card::StepState;
use crate::event::{Answer, Event, FactValue, Item, Role};
use crate::id::Place;
use crate::line::LineRef;
use crate::procedures::Procedures;

/// A round as found and as left, an adjuster and its nuts, with nothing in the way.
const ROUND: &str = include_str!("tests.json");
const A2: Place = Place::Axle(2);

fn bay() -> Bay {
    let mut bay = Bay::empty();
    bay.procedures = Procedures::read([], ROUND).unwrap();
    let setup = crate::bay::setup(&[2]);
    let drafts = act::open_card(bay.procedures.newest(), "0.1.0", &setup).unwrap();
    bay.keep("tess", drafts);
    bay.sign_on("tess", Role::Technician);
    bay.sign_on("fay", Role::Foreman);
    bay
}

/// A standard clamp chamber of type 30 on both ends: 49 CFR 393.47(e) allows 2 in.
fn with_chambers() -> Bay {
    let mut bay = bay();
    for at in [L2, R2] {
        let facts = [
            ("chamber-family", "clamp"),
            ("chamber-type", "t30"),
            ("stroke-class", "standard"),
        ];
        for (fact, option) in facts {
            bay.fact("tess", at, fact, choice(option)).unwrap();
        }
    }
    bay
}

/// How a stroke should be read: engine off, released, cold, held, 95 psi. Each may be another.
fn round(bay: &mut Bay, step: &str, but: &[(&str, &str)]) {
    let asks = [
        ("engine", "off"),
        ("parking", "off"),
        ("heat", "cold"),
        ("application", "held"),
    ];
    for (ask, usual) in asks {
        let other = but.iter().find(|(of, _)| *of == ask);
        let option = other.map_or(usual, |(_, other)| other);
        bay.say("tess", V, step, ask, choose(option)).unwrap();
    }
    let psi = but.iter().find(|(of, _)| *of == "reservoir");
    let psi = psi.map_or("95", |(_, psi)| psi);
    let answer = reading(psi, "psi");
    bay.say("tess", V, step, "reservoir", answer).unwrap();
}

/// At rest 1 in, applied so that the stroke comes to `stroke`.
fn stroke(bay: &mut Bay, at: Place, step: &str, stroke: &str) -> LineRef {
    let answer = reading("1", "in");
    bay.say("tess", at, step, "at-rest", answer).unwrap();
    let (whole, part) = stroke.split_once(' ').unwrap_or((stroke, ""));
    let applied = format!("{} {part}", whole.parse::<u8>().unwrap() + 1);
    let answer = reading(applied.trim(), "in");
    bay.say("tess", at, step, "applied", answer).unwrap()
}

/// What was kept beside a reading: verdict, remarks.
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

fn as_left(but: &[(&str, &str)], inches: &str) -> (Bay, String) {
    let mut bay = with_chambers();
    round(&mut bay, "as-left", but);
    let line = stroke(&mut bay, L2, "as-left", inches);
    let verdict = then(&bay, &line).0;
    (bay, verdict)
}

/// The same with the other wheel end well within, so that the round is whole.
fn whole(but: &[(&str, &str)], inches: &str) -> (Bay, String) {
    let (mut bay, verdict) = as_left(but, inches);
    stroke(&mut bay, R2, "as-left", "1 1/2");
    (bay, verdict)
}

// Strokes. Limits: 49 CFR 393.47(e), clamp type 30 standard: 2 in. Conditions: 90 to 100 psi.

#[test]
fn a_stroke_beyond_is_kept_and_does_not_clear() {
    let (bay, verdict) = whole(&[], "2 1/8");
    assert_eq!(verdict, "beyond");
    assert_eq!(bay.state(V, "as-left"), StepState::Unclear);
    let step = bay.procedures.newest().step(&"as-left".into()).cloned();
    assert!(!bay.card().needs_foreman(&step.unwrap(), V));
}

#[test]
fn a_stroke_within_clears() {
    let (bay, verdict) = whole(&[], "1 1/2");
    assert_eq!(verdict, "within");
    assert_eq!(bay.state(V, "as-left"), StepState::Done);
}

#[test]
fn a_stroke_at_the_limit_stands_with_the_foremans_reason_only() {
    let (mut bay, verdict) = whole(&[], "2");
    assert_eq!(verdict, "at-the-limit");
    assert_eq!(bay.state(V, "as-left"), StepState::Unclear);
    let step = bay.procedures.newest().step(&"as-left".into()).cloned();
    let step = step.unwrap();
    assert!(bay.card().needs_foreman(&step, V) && bay.card().waits_for_foreman(&step, V));
    assert!(
        bay.pass("tess", V, "as-left", "as-left", "because")
            .is_err()
    );
    bay.pass("fay", V, "as-left", "as-left", "new linings, will bed in")
        .unwrap();
    assert_eq!(bay.state(V, "as-left"), StepState::Done);
    assert!(!bay.card().waits_for_foreman(&step, V));
    // What else is said of the round leaves the reason; the same reading anew does not.
    bay.say("tess", V, "as-left", "after", lines()).unwrap();
    assert_eq!(bay.state(V, "as-left"), StepState::Done);
    stroke(&mut bay, R2, "as-left", "2");
    assert_eq!(bay.state(V, "as-left"), StepState::Unclear);
    stroke(&mut bay, R2, "as-left", "1 1/2");
    assert_eq!(bay.state(V, "as-left"), StepState::Done);
    stroke(&mut bay, L2, "as-left", "2");
    assert_eq!(bay.state(V, "as-left"), StepState::Unclear);
}

#[test]
fn how_the_round_was_read_takes_the_reason_away() {
    let (mut bay, _) = whole(&[], "2");
    bay.pass("fay", V, "as-left", "as-left", "new linings")
        .unwrap();
    bay.say("tess", V, "as-left", "heat", choose("cold"))
        .unwrap();
    assert_eq!(bay.state(V, "as-left"), StepState::Unclear);
}

#[test]
fn low_air_proves_what_is_beyond_and_nothing_within() {
    assert_eq!(as_left(&[("reservoir", "60")], "2 1/8").1, "beyond");
    let (bay, verdict) = whole(&[("reservoir", "60")], "1 1/2");
    assert_eq!(verdict, "no-reading");
    assert_eq!(bay.state(V, "as-left"), StepState::Unclear);
    assert_eq!(as_left(&[("application", "part")], "1 1/2").1, "no-reading");
}

#[test]
fn heat_proves_what_is_within_and_nothing_beyond() {
    assert_eq!(as_left(&[("heat", "hot")], "1 1/2").1, "within");
    assert_eq!(as_left(&[("heat", "hot")], "2 1/8").1, "no-reading");
    assert_eq!(as_left(&[("heat", "warm")], "2 1/8").1, "beyond");
}

#[test]
fn under_a_held_brake_or_a_running_engine_there_is_no_reading() {
    for but in [("parking", "on"), ("engine", "running")] {
        let mut bay = with_chambers();
        round(&mut bay, "as-found", &[but]);
        let line = stroke(&mut bay, L2, "as-found", "2 1/8");
        let (verdict, remarks) = then(&bay, &line);
        assert_eq!(verdict, "no-reading", "{but:?}");
        let key = format!("remark.void.{}", but.0);
        assert!(remarks.contains(&key), "{remarks:?}");
    }
}

#[test]
fn as_found_holds_nothing() {
    let mut bay = with_chambers();
    round(&mut bay, "as-found", &[]);
    stroke(&mut bay, L2, "as-found", "2 1/8");
    stroke(&mut bay, R2, "as-found", "2");
    assert_eq!(bay.state(V, "as-found"), StepState::Done);
}

#[test]
fn an_applied_reading_shorter_than_the_one_at_rest_is_refused() {
    let mut bay = with_chambers();
    round(&mut bay, "as-left", &[]);
    bay.say("tess", L2, "as-left", "at-rest", reading("2", "in"))
        .unwrap();
    let refused = bay.say("tess", L2, "as-left", "applied", reading("1 1/2", "in"));
    let Err(Refusal::Words(words)) = refused else {
        panic!("{refused:?}");
    };
    assert_eq!(words.key, "slack.travel.applied-shorter");
}

#[test]
fn a_reading_is_kept_when_something_else_is_wanting() {
    let mut bay = bay();
    round(&mut bay, "as-left", &[]);
    let line = bay.say("tess", L2, "as-left", "applied", reading("2", "in"));
    let (verdict, remarks) = then(&bay, &line.unwrap());
    assert_eq!(
        (verdict.as_str(), remarks),
        ("no-reading", vec!["wants.at-rest".to_owned()])
    );
    let line = stroke(&mut bay, L2, "as-left", "1 1/2");
    assert_eq!(then(&bay, &line).1, ["wants.chamber"]);
    assert_eq!(bay.state(V, "as-left"), StepState::Begun);
}

#[test]
fn a_chamber_that_nobody_can_name_has_no_limit_and_goes_to_the_foreman() {
    let mut bay = with_chambers();
    bay.fact("tess", L2, "chamber-type", FactValue::NotKnown)
        .unwrap();
    round(&mut bay, "as-left", &[]);
    let line = stroke(&mut bay, L2, "as-left", "1 1/2");
    stroke(&mut bay, R2, "as-left", "1 1/2");
    assert_eq!(then(&bay, &line).1, ["slack.remark.no-marks"]);
    bay.pass("fay", V, "as-left", "as-left", "chamber renewed next week")
        .unwrap();
    assert_eq!(bay.state(V, "as-left"), StepState::Done);
}

#[test]
fn an_unknown_class_counts_as_standard_and_a_long_one_may_go_further() {
    let mut bay = with_chambers();
    bay.fact("tess", L2, "stroke-class", choice("long"))
        .unwrap();
    round(&mut bay, "as-left", &[]);
    // 49 CFR 393.47(e), clamp type 30 long stroke: 2 1/2 in.
    let line = stroke(&mut bay, L2, "as-left", "2 1/8");
    assert_eq!(then(&bay, &line).0, "within");
}

#[test]
fn what_is_read_later_never_makes_an_old_reading_better() {
    let (mut bay, verdict) = whole(&[], "2 1/8");
    assert_eq!(verdict, "beyond");
    // A longer reading at rest would make it 1 5/8.
    bay.say("tess", L2, "as-left", "at-rest", reading("1 1/2", "in"))
        .unwrap();
    assert_eq!(bay.state(V, "as-left"), StepState::Unclear);
    // Nor does the parking brake, said to be off afterwards.
    let (mut bay, verdict) = whole(&[("parking", "on")], "1 1/2");
    assert_eq!(verdict, "no-reading");
    bay.say("tess", V, "as-left", "parking", choose("off"))
        .unwrap();
    assert_eq!(bay.state(V, "as-left"), StepState::Unclear);
    // The other way round it gets worse.
    let (mut bay, _) = whole(&[], "1 1/2");
    bay.say("tess", L2, "as-left", "at-rest", reading("1/4", "in"))
        .unwrap();
    assert_eq!(bay.state(V, "as-left"), StepState::Unclear);
}

// When an adjuster may be turned.

#[test]
fn it_is_set_settled_set_once_more_and_then_its_cause_is_found() {
    let mut bay = with_chambers();
    bay.fact("tess", A2, "adjuster-style", choice("clutch"))
        .unwrap();
    let turn = |bay: &mut Bay| bay.say("tess", L2, "contact", "turned", lines());
    let key = |refused: Result<LineRef, Refusal>| match refused {
        Err(Refusal::Words(words)) => words.key,
        other => panic!("{other:?}"),
    };
    let settle = |bay: &mut Bay| {
        let answer = Answer::Count { count: 6 };
        bay.say("tess", V, "settle", "applications", answer)
            .unwrap();
    };
    assert_eq!(stroke::may_turn(&bay.card(), L2), MayTurn::Yes);
    let first = turn(&mut bay).unwrap();
    assert_eq!(key(turn(&mut bay)), "slack.set-up.settle");
    settle(&mut bay);
    round(&mut bay, "as-left", &[]);
    stroke(&mut bay, L2, "as-left", "2 1/8");
    // Measured once: more applications come first, and it is measured again.
    assert_eq!(key(turn(&mut bay)), "slack.set-up.settle");
    settle(&mut bay);
    assert_eq!(key(turn(&mut bay)), "slack.set-up.settle");
    stroke(&mut bay, L2, "as-left", "2 1/8");
    assert_eq!(stroke::may_turn(&bay.card(), L2), MayTurn::OnceMore);
    turn(&mut bay).unwrap();
    settle(&mut bay);
    stroke(&mut bay, L2, "as-left", "2 1/8");
    assert_eq!(key(turn(&mut bay)), "slack.set-up.find-cause");
    assert!(!stroke::causes(&bay.card(), L2).is_empty());
    // The other wheel end has its own count, and a set-up taken back never was.
    assert_eq!(stroke::may_turn(&bay.card(), R2), MayTurn::Yes);
    bay.strike("fay", &first, Some("other wheel end")).unwrap();
    assert_eq!(stroke::may_turn(&bay.card(), L2), MayTurn::SettleFirst);
    settle(&mut bay);
    stroke(&mut bay, L2, "as-left", "2 1/8");
    assert_eq!(stroke::may_turn(&bay.card(), L2), MayTurn::OnceMore);
}

#[test]
fn a_manual_one_is_set_whenever_it_is_wanted() {
    let mut bay = with_chambers();
    bay.fact("tess", A2, "adjuster-style", choice("manual"))
        .unwrap();
    for _ in 0..3 {
        bay.say("tess", L2, "contact", "turned", lines()).unwrap();
    }
    assert_eq!(stroke::may_turn(&bay.card(), L2), MayTurn::Manual);
}

// Free strokes and the adjuster as a part.

fn free(style: &str, step: &str, inches: &str) -> (String, StepState) {
    let mut bay = with_chambers();
    bay.fact("tess", A2, "adjuster-style", choice(style))
        .unwrap();
    if step == "as-left" {
        round(&mut bay, "as-left", &[]);
        stroke(&mut bay, L2, "as-left", "1 1/2");
        stroke(&mut bay, R2, "as-left", "1 1/2");
    }
    let line = bay.say("tess", L2, step, "free-stroke", reading(inches, "in"));
    let at = if step == "free-stroke" { L2 } else { V };
    (then(&bay, &line.unwrap()).0, bay.state(at, step))
}

#[test]
fn free_stroke_after_set_up_lies_in_the_window_of_its_mechanism() {
    use StepState::{Done, Unclear};
    let of = |style, inches| free(style, "free-stroke", inches);
    let is = |verdict: &str, state| (verdict.to_owned(), state);
    // Pull-pawl adjuster at set-up: 5/8 to 3/4 in (its installation sheet, `PAWL_SET_UP`).
    assert_eq!(of("pawl", "9/16"), is("beyond", Unclear));
    assert_eq!(of("pawl", "5/8"), is("at-the-limit", Done));
    assert_eq!(of("pawl", "11/16"), is("within", Done));
    assert_eq!(of("pawl", "13/16"), is("beyond", Unclear));
    // Clutch adjuster: 3/8 to 3/4 in (`CLUTCH_ADJUSTER`).
    assert_eq!(of("clutch", "9/16"), is("within", Done));
    // No window is printed for these: advice.
    assert_eq!(of("gauge", "1 1/4"), is("no-reading", Done));
    assert_eq!(of("other", "1 1/4"), is("no-reading", Done));
    // As left it is the foreman's to say.
    assert_eq!(free("pawl", "as-left", "9/16").1, Unclear);
    assert_eq!(free("pawl", "as-left", "11/16").1, Done);
}

#[test]
fn a_part_beyond_does_not_clear() {
    let part = |step: &str, ask: &str, text: &str, unit: &str| {
        let mut bay = with_chambers();
        let line = bay.say("tess", L2, step, ask, reading(text, unit));
        (then(&bay, &line.unwrap()).0, bay.state(L2, step))
    };
    let beyond = ("beyond".to_owned(), StepState::Unclear);
    // A clutch holds 13 lbf·ft at least (`CLUTCH_ADJUSTER`).
    assert_eq!(part("clutch", "torque", "12", "lbf-ft"), beyond);
    assert_eq!(part("clutch", "torque", "13", "lbf-ft").1, StepState::Done);
    // A gear turns with 45 lbf·in at most (`GEAR_TORQUE`).
    assert_eq!(part("gear", "torque", "46", "lbf-in"), beyond);
    // A collar stands 0.060 in off at most (`CLEVIS_GAP`).
    assert_eq!(part("clevis", "gap", "0.061", "in"), beyond);
    // Over 90 degrees released (`ANGLE_RELEASED`).
    assert_eq!(part("angle", "angle", "89", "deg"), beyond);
    assert_eq!(part("angle", "angle", "95", "deg").0, "within");
}

// What stands beside.

#[test]
fn both_ends_are_laid_side_by_side() {
    let (bay, _) = whole(&[], "1 3/4");
    let card = bay.card();
    let key = |remark: Option<Remark>| remark.map(|remark| remark.word.key());
    assert_eq!(
        key(stroke::sides(&card, 2)),
        Some("slack.remark.sides-differ")
    );
    assert_eq!(
        key(stroke::expected(&card, L2)),
        Some("slack.remark.expected-none")
    );
    let mut bay = bay;
    bay.fact("tess", L2, "arm-length", choice("a5-5")).unwrap();
    bay.fact("tess", R2, "arm-length", choice("a6")).unwrap();
    // Light drag of a truck's type 30 with an arm of 5 1/2 in: 7/8 in, and 3/8 to 3/4 in before it.
    assert_eq!(
        key(stroke::expected(&bay.card(), L2)),
        Some("slack.remark.expected-above")
    );
    assert_eq!(stroke::causes(&bay.card(), L2), &[]);
}

// Nuts.

fn with_nuts(bay: &mut Bay, thread: Option<&str>) {
    bay.fact("tess", A2, "mounting", choice("hub-piloted"))
        .unwrap();
    bay.fact("tess", A2, "fastener-oil", choice("dry")).unwrap();
    bay.fact("tess", A2, "studs", FactValue::Count(10)).unwrap();
    if let Some(thread) = thread {
        bay.fact("tess", A2, "stud-thread", choice(thread)).unwrap();
    }
}

fn lbf_ft(text: &str) -> FactValue {
    FactValue::Typed(typed(text, "lbf-ft"))
}

#[test]
fn the_final_value_is_judged_and_never_refused() {
    let mut bay = bay();
    let of = |bay: &Bay, text: &str| {
        judge_fact(&bay.card(), A2, torque::FINAL, &lbf_ft(text)).map(|judged| judged.verdict)
    };
    assert_eq!(of(&bay, "475"), None, "nothing is known of the nuts");
    with_nuts(&mut bay, Some("m22"));
    // M22 x 1.5, two-piece nuts, dry: 450 to 500 lbf·ft (`TORQUE_COACH_DRY`, `TORQUE_TRAILER_DRY`).
    assert_eq!(of(&bay, "449"), Some(Verdict::Beyond));
    assert_eq!(of(&bay, "450"), Some(Verdict::AtTheLimit));
    assert_eq!(of(&bay, "475"), Some(Verdict::Within));
    assert_eq!(of(&bay, "501"), Some(Verdict::Beyond));
    for (text, state) in [("475", StepState::Done), ("520", StepState::Unclear)] {
        bay.fact("tess", A2, "final-torque", lbf_ft(text)).unwrap();
        assert_eq!(bay.state(L2, "value"), state, "{text}");
    }
    bay.pass("fay", L2, "value", "value", "the maker's plate says so")
        .unwrap();
    assert_eq!(bay.state(L2, "value"), StepState::Done);
    assert_eq!(
        bay.state(R2, "value"),
        StepState::Done,
        "one value for the axle"
    );
    bay.fact("tess", A2, "final-torque", lbf_ft("540")).unwrap();
    assert_eq!(bay.state(L2, "value"), StepState::Unclear);
}

#[test]
fn a_value_has_to_be_right_for_either_thread_while_nobody_read_it() {
    let mut bay = bay();
    with_nuts(&mut bay, None);
    let of = |bay: &Bay| judge_fact(&bay.card(), A2, torque::FINAL, &lbf_ft("475"));
    // M20 x 1.5: 280 to 310 lbf·ft (`TORQUE_RV`).
    assert_eq!(of(&bay).unwrap().verdict, Verdict::Beyond);
    bay.fact("tess", A2, "stud-thread", choice("m22")).unwrap();
    assert_eq!(of(&bay).unwrap().verdict, Verdict::Within);
}

fn log(bay: &mut Bay, step: &str, nut: u16, mark: &str) {
    let answer = Answer::Nut { mark: mark.into() };
    bay.answer("tess", L2, step, "nuts", Item::Nut(nut), answer)
        .unwrap();
}

/// Ten nuts go from one to the one across (`PATTERN_OPPOSITE`).
const ORDER: [u16; 10] = [1, 6, 3, 8, 5, 10, 7, 2, 9, 4];

fn seated() -> Bay {
    let mut bay = bay();
    with_nuts(&mut bay, Some("m22"));
    let answer = Answer::WholePass { but: Vec::new() };
    bay.say("tess", L2, "seat-pass", "seat", answer).unwrap();
    bay
}

#[test]
fn a_nut_that_clicked_without_turning_is_said_until_it_is_done_again() {
    let mut bay = seated();
    assert_eq!(torque::log_faults(&bay.card(), L2), []);
    for nut in ORDER {
        let mark = if nut == 5 {
            "clicked-at-once"
        } else {
            "turned-and-clicked"
        };
        log(&mut bay, "final-pass", nut, mark);
    }
    let faults = torque::log_faults(&bay.card(), L2);
    assert!(
        matches!(faults[..], [LogFault::ClickedAtOnce { nut: 5, .. }]),
        "{faults:?}"
    );
    log(&mut bay, "final-pass", 5, "turned-and-clicked");
    assert_eq!(torque::log_faults(&bay.card(), L2), []);
    assert_eq!(torque::log_faults(&bay.card(), R2), []);
}

#[test]
fn what_is_missed_or_out_of_order_is_said() {
    let mut bay = seated();
    for nut in [1, 2, 3, 8, 5, 10, 7, 9, 4] {
        log(&mut bay, "final-pass", nut, "turned-and-clicked");
    }
    let faults = torque::log_faults(&bay.card(), L2);
    let missed = |fault: &LogFault| matches!(fault, LogFault::Missed { nut: 6, .. });
    let early = |fault: &LogFault| {
        matches!(
            fault,
            LogFault::OutOfOrder {
                nut: 2,
                expected: 3,
                ..
            }
        )
    };
    assert!(faults.iter().any(missed), "{faults:?}");
    assert!(faults.iter().any(early), "{faults:?}");
    // A nut that never clicked has not come to its value.
    log(&mut bay, "final-pass", 6, "never-clicked");
    assert!(torque::log_faults(&bay.card(), L2).iter().any(missed));
}

#[test]
fn a_pass_left_out_is_said_and_a_turning_nut_asks_for_another_round() {
    let mut bay = bay();
    with_nuts(&mut bay, Some("m22"));
    for nut in ORDER {
        log(
            &mut bay,
            "check-pass",
            nut,
            if nut == 3 { "turned" } else { "held" },
        );
    }
    let faults = torque::log_faults(&bay.card(), L2);
    let skipped = faults
        .iter()
        .filter(|fault| matches!(fault, LogFault::Skipped { .. }));
    assert_eq!(skipped.count(), 2, "{faults:?}");
    let turned = |fault: &LogFault| matches!(fault, LogFault::Turned { nut: 3, .. });
    assert!(faults.iter().any(turned), "{faults:?}");
    for nut in ORDER {
        log(&mut bay, "check-pass", nut, "held");
    }
    assert!(!torque::log_faults(&bay.card(), L2).iter().any(turned));
}

#[test]
fn order_and_seat_follow_the_wheel() {
    let mut bay = bay();
    assert!(torque::order(&bay.card(), L2).is_none() && torque::seat(&bay.card(), L2).is_none());
    with_nuts(&mut bay, Some("m22"));
    let card = bay.card();
    assert_eq!(
        torque::order(&card, L2).unwrap().order(),
        ORDER.map(|nut| u8::try_from(nut).unwrap())
    );
    // 50 to 100 lbf·ft (`SEAT_VALUE`).
    assert_eq!(torque::seat(&card, L2).unwrap().limits.len(), 2);
}
