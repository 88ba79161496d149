//! The whole job on the shipped procedure: whatever people do, in whatever order, no `!` is
//! passed, nobody gets stuck, and the same lines give the same card.
//!
//! The check of `!` steps is a second reading of the procedure ([`model`]); it shares nothing
//! with the holds of the job but the data.

#![expect(clippy::unwrap_used, reason = "what a test leans on may fail it")]

#[path = "whole_job/crew.rs"]
mod crew;
#[path = "whole_job/model.rs"]
mod model;

use std::collections::BTreeSet;
use std::sync::LazyLock;

use job::act::Refusal;
use job::card::{Though, fold};
use job::event::{Answer, Event, Role};
use job::hold::Hold;
use job::line::{Line, Sha};
use job::procedures::Procedures;
use job::trail::Trail;
use proptest::prelude::*;

use crew::{Crew, Dice};

const SHIPPED: &str = include_str!("../../assets/procedure/s-cam-reline.json");

static PROCEDURES: LazyLock<Procedures> =
    LazyLock::new(|| Procedures::read([], SHIPPED).expect("the shipped procedure is sound"));

/// One job done from end to end, to start from anywhere in it.
static WHOLE: LazyLock<Vec<Line>> = LazyLock::new(|| {
    let mut crew = Crew::open(&PROCEDURES, &[2]);
    finish(&mut crew, &mut Dice::new(0)).unwrap();
    crew.trail.in_order().into_iter().cloned().collect()
});

/// Does what is next until nothing is, and says what got in the way if something did.
fn finish(crew: &mut Crew, dice: &mut Dice) -> Result<usize, String> {
    for done in 0..2_000 {
        let card = crew.card();
        if dice.one_in(25) && crew.something_happens(&card, dice).is_ok() {
            continue;
        }
        let Some((at, step)) = card.next_open() else {
            return Ok(done);
        };
        let stuck = format!("{} at {at} is {:?}", step.id, card.state(step, at));
        if let Err(why) = crew.go_on(&card, dice) {
            return Err(format!("{stuck}: {why}"));
        }
    }
    Err("no end of it".to_owned())
}

#[test]
fn a_plain_job_comes_to_its_end() {
    let lines = WHOLE.clone();
    let mut trail = Trail::new(lines[0].card.clone());
    for line in lines {
        trail.take_in(line);
    }
    let card = fold(&trail, &PROCEDURES);
    assert_eq!(card.next_open(), None);
    assert_eq!(card.faults, []);
    let marked: Vec<_> = card
        .entries
        .iter()
        .filter(|entry| entry.though.is_some())
        .collect();
    assert!(marked.is_empty(), "{marked:?}");
    let (done, of) = card.progress();
    assert_eq!(done, of);
    assert!(of > 50, "{of}");
}

#[test]
fn what_comes_between_does_come() {
    let mut kinds: BTreeSet<String> = BTreeSet::new();
    let mut again = 0;
    for seed in 1..40_u64 {
        // In the middle of the job, and just before it ends.
        let start = WHOLE.len() - if seed % 2 == 0 { 5 } else { 90 };
        let mut crew = Crew::with(&PROCEDURES, WHOLE[..start].iter().cloned());
        let mut dice = Dice::new(seed * 7_919);
        for _ in 0..4 {
            let card = crew.card();
            let lines = crew.something_happens(&card, &mut dice).unwrap_or_default();
            for event in lines.iter().filter_map(Line::event) {
                kinds.insert(event.kind().to_owned());
                if let Event::Answered {
                    answer: Answer::Look { again: steps, .. },
                    ..
                } = event
                {
                    again += steps.len();
                }
            }
        }
    }
    let expected = ["answered", "came-back", "line-found"];
    assert_eq!(kinds, expected.map(str::to_owned).into());
    assert!(again > 0, "nothing was sent back");
}

/// Two tablets that take in each other now and then, each writing down what takes no step as well as
/// doing what is next. Whatever arrives in whatever order, the card is the same, no line of it is
/// lost, and no `!` is passed by somebody who knew.
fn two_tablets(start: usize, seed: u64) -> Result<BTreeSet<String>, TestCaseError> {
    let lines = &WHOLE[..start.clamp(7, WHOLE.len())];
    let mut dice = Dice::new(seed | 1);
    let mut first = Crew::with(&PROCEDURES, lines.iter().cloned());
    first.sign_on("fay", Role::Foreman);
    let card = first.card();
    first
        .something_happens(&card, &mut dice)
        .unwrap_or_default();
    let seen: Vec<Line> = first.trail.all().cloned().collect();
    let mut crews = [
        first,
        Crew::with(&PROCEDURES, seen.iter().cloned()).on("tablet-b"),
    ];
    let mut kinds = BTreeSet::new();
    for _ in 0..16 {
        let at = dice.below(2);
        if dice.one_in(4) {
            let other = crews[1 - at].trail.clone();
            crews[at].trail.merge(&other);
        }
        let card = crews[at].card();
        // What is refused writes nothing.
        let wrote = match dice.below(4) {
            0 => crews[at].go_on(&card, &mut dice).unwrap_or_default(),
            1 => crews[at].try_anything(&card, &mut dice).unwrap_or_default(),
            _ => {
                let who = ["tess", "fay"][dice.below(2)].into();
                let wrote = crews[at].beside_the_work(&card, &mut dice, &who);
                wrote.unwrap_or_default()
            }
        };
        let card = crews[at].card();
        for line in &wrote {
            kinds.extend(line.event().map(|event| event.kind().to_owned()));
            let entry = card.entry(&line.reference()).expect("it was taken in");
            let passed = matches!(&entry.though, Some(Though::Held(hold)) if hold.protects());
            prop_assert!(!passed, "{:?}", entry);
        }
    }
    let mut whole = Trail::new(lines[0].card.clone());
    for crew in &crews {
        whole.merge(&crew.trail);
    }
    let mut all: Vec<Line> = whole.all().cloned().collect();
    let card = fold(&whole, &PROCEDURES);
    prop_assert_eq!(card.entries.len(), all.len(), "a line is lost");
    let expected = format!("{card:?}");
    for _ in 0..3 {
        dice.shuffle(&mut all);
        let mut arrived = Trail::new(lines[0].card.clone());
        for line in &all {
            arrived.take_in(line.clone());
        }
        prop_assert_eq!(&format!("{:?}", fold(&arrived, &PROCEDURES)), &expected);
    }
    Ok(kinds)
}

#[test]
fn what_takes_no_step_is_written_too() {
    let mut kinds: BTreeSet<String> = BTreeSet::new();
    for seed in 1..24_u64 {
        let start = WHOLE.len() - if seed % 2 == 0 { 5 } else { 90 };
        kinds.extend(two_tablets(start, seed * 7_919).unwrap());
    }
    for kind in [
        "line-photo",
        "line-part",
        "line-minutes",
        "line-told",
        "end-taken",
        "brought",
        "shop-taken",
        "put-away",
        "struck",
    ] {
        assert!(kinds.contains(kind), "{kind} never came: {kinds:?}");
    }
}

/// From any place in the job on: some do what is next, some try whatever comes to mind.
fn a_shift(start: usize, seed: u64, actions: usize) -> Result<(), TestCaseError> {
    let lines = &WHOLE[..start.clamp(7, WHOLE.len())];
    let mut crew = Crew::with(&PROCEDURES, lines.iter().cloned());
    let mut dice = Dice::new(seed);
    crew.sign_on("fay", Role::Foreman);
    crew.sign_on("ann", Role::Apprentice);
    for _ in 0..actions {
        let card = crew.card();
        let mut before: Vec<Line> = crew.trail.in_order().into_iter().cloned().collect();
        let lines = if dice.one_in(3) {
            crew.go_on(&card, &mut dice).unwrap_or_default()
        } else {
            crew.try_anything(&card, &mut dice).unwrap_or_default()
        };
        for line in &lines {
            let passed = model::passed(PROCEDURES.newest(), &before, line);
            prop_assert_eq!(passed, None, "{}", line.text());
            before.push(line.clone());
        }
        let card = crew.card();
        for line in &lines {
            let entry = card.entry(&line.reference()).expect("it was taken in");
            prop_assert!(entry.though.is_none(), "{:?}", entry);
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 30, max_shrink_iters: 60, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_order_of_actions_passes_a_protecting_step(start in 7_usize..400, seed: u64) {
        a_shift(start, seed, 25)?;
    }

    #[test]
    fn a_proof_is_good_for_one_card_only(start in 7_usize..400, seed: u64) {
        let lines = &WHOLE[..start.clamp(7, WHOLE.len() - 1)];
        let mut crew = Crew::with(&PROCEDURES, lines.iter().cloned());
        let mut dice = Dice::new(seed);
        let card = crew.card();
        let Some((who, proof, answer)) = crew.ask_next(&card, &mut dice) else {
            return Ok(()); // A fact is next; it needs no proof.
        };
        crew.sign_on("zed", Role::Technician);
        let late = job::act::take(&crew.card(), proof, answer, &crew::UNITS);
        prop_assert_eq!(late, Err(Refusal::Stale), "{}", who);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 8, max_shrink_iters: 8, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn an_honest_crew_is_never_stuck(seed: u64, axles in 0_usize..3) {
        let in_hand: &[u8] = [&[1][..], &[3], &[2, 3]][axles];
        let mut crew = Crew::open(&PROCEDURES, in_hand);
        let mut dice = Dice::new(seed | 1);
        let end = finish(&mut crew, &mut dice);
        prop_assert!(end.is_ok(), "{:?}", end);
        let card = crew.card();
        prop_assert!(card.entries.iter().all(|entry| entry.though.is_none()));
    }

    #[test]
    fn two_tablets_that_had_not_seen_each_other_come_to_one_card(start in 7_usize..400, seed: u64) {
        two_tablets(start, seed)?;
    }

    #[test]
    fn the_same_lines_give_the_same_card(start in 7_usize..400, seed: u64) {
        let lines = &WHOLE[..start.clamp(7, WHOLE.len())];
        let mut dice = Dice::new(seed);
        let mut crews: Vec<Crew> = ["tablet-a", "tablet-b", "tablet-c"]
            .map(|tablet| Crew::with(&PROCEDURES, lines.iter().cloned()).on(tablet))
            .into();
        for _ in 0..12 {
            let at = dice.below(crews.len());
            if dice.one_in(4) {
                let other = crews[dice.below(3)].trail.clone();
                crews[at].trail.merge(&other);
            }
            let card = crews[at].card();
            // What is refused writes nothing; both ways are fine here.
            if dice.one_in(2) {
                crews[at].go_on(&card, &mut dice).unwrap_or_default();
            } else {
                crews[at].try_anything(&card, &mut dice).unwrap_or_default();
            }
        }
        let mut all: Vec<Line> = Vec::new();
        let mut whole = Trail::new(lines[0].card.clone());
        for crew in &crews {
            whole.merge(&crew.trail);
            all.extend(crew.trail.all().cloned());
        }
        let folded = fold(&whole, &PROCEDURES);
        prop_assert_eq!(folded.entries.len(), whole.all().count(), "nothing is lost");
        // What the second reading calls passed where the tablets come together is marked.
        let in_order: Vec<Line> = whole.in_order().into_iter().cloned().collect();
        for (at, line) in in_order.iter().enumerate().skip(lines.len()) {
            if let Some(passed) = model::passed(PROCEDURES.newest(), &in_order[..at], line) {
                let entry = folded.entry(&line.reference()).expect("nothing is lost");
                let told = entry.though.is_some() || entry.struck.is_some();
                prop_assert!(told, "{} passed {passed} unmarked", line.text());
            }
        }
        let expected = format!("{folded:?}");
        dice.shuffle(&mut all);
        // In any order, one by one.
        let mut arrived = Trail::new(lines[0].card.clone());
        for line in &all {
            arrived.take_in(line.clone());
        }
        prop_assert_eq!(&format!("{:?}", fold(&arrived, &PROCEDURES)), &expected);
        // In any grouping.
        let mut heaps = vec![Trail::new(lines[0].card.clone()); 5];
        for line in &all {
            heaps[dice.below(5)].take_in(line.clone());
        }
        while heaps.len() > 1 {
            let taken = heaps.swap_remove(dice.below(heaps.len()));
            let into = dice.below(heaps.len());
            heaps[into].merge(&taken);
        }
        prop_assert_eq!(&format!("{:?}", fold(&heaps[0], &PROCEDURES)), &expected);
        // Through the stored texts.
        let texts: Vec<&str> = all.iter().map(Line::text).collect();
        let read = Trail::read(lines[0].card.clone(), texts);
        prop_assert_eq!(&format!("{:?}", fold(&read, &PROCEDURES)), &expected);
    }
}

/// The same line as a tablet would have written it that asks nobody and has seen nothing.
fn from_elsewhere(line: &Line, tick: u64) -> Line {
    let (_, json) = line.text().split_once(' ').unwrap();
    let mut value: serde_json::Value = serde_json::from_str(json).unwrap();
    value["tablet"] = "tablet-x".into();
    value["n"] = 1.into();
    value["tick"] = tick.into();
    value["before"] = Sha::NONE.to_string().into();
    let json = value.to_string();
    Line::read(&format!("{} {json}", Sha::of(json.as_bytes()))).unwrap()
}

#[test]
fn a_line_from_elsewhere_that_passed_a_protecting_step_is_marked() {
    let mut passed = 0;
    for start in (7..WHOLE.len()).step_by(9) {
        let before = &WHOLE[..start];
        let answers = WHOLE[start..].iter().step_by(7);
        for line in answers.filter(|line| matches!(line.event(), Some(Event::Answered { .. }))) {
            let foreign = from_elsewhere(line, before[start - 1].tick + 1);
            let mut crew = Crew::with(&PROCEDURES, before.iter().cloned());
            crew.trail.take_in(foreign.clone());
            let card = crew.card();
            let entry = card.entry(&foreign.reference()).expect("it was taken in");
            let expected = model::passed(PROCEDURES.newest(), before, &foreign);
            if let Some(first) = expected {
                passed += 1;
                let marked = matches!(
                    &entry.though,
                    Some(Though::Held(hold)) if hold.protects()
                );
                assert!(marked, "{first} was passed: {entry:?}");
            } else {
                let marked = matches!(
                    &entry.though,
                    Some(Though::Held(Hold::NotYet { protects: true, .. }))
                );
                assert!(!marked, "nothing was passed: {entry:?}");
            }
        }
    }
    assert!(passed > 50, "{passed}");
}

#[test]
fn taking_back_the_first_answer_stops_the_whole_job() {
    let chocks = WHOLE.iter().position(|line| {
        matches!(line.event(), Some(Event::Answered { step, .. }) if step.as_str() == "chocks")
    });
    let chocks = WHOLE[chocks.expect("somebody set the chocks")].clone();
    let mut crew = Crew::with(&PROCEDURES, WHOLE[..WHOLE.len() * 2 / 3].iter().cloned());
    crew.strike(chocks.who.as_str(), &chocks.reference(), Some("rolled off"))
        .unwrap();
    let card = crew.card();
    let steps = PROCEDURES
        .newest()
        .steps()
        .skip_while(|step| step.id.as_str() != "chocks");
    for step in steps.skip(1) {
        for at in card.places(step.scope, job::id::Place::Vehicle) {
            let held = job::hold::first_hold(&card, &step.id, at);
            let stopped =
                matches!(&held, Some(Hold::Stopped { first, .. }) if first.as_str() == "chocks");
            assert!(
                stopped || held == Some(Hold::NotOnPath),
                "{} {at}: {held:?}",
                step.id
            );
        }
    }
}
