use super::*;
use crate::act;
use crate::bay::{A2, Bay, L2, R2, SMALL, V, choice, choose, look, person, press, reading, setup};
use crate::line;
use crate::procedures::Procedures;

/// The step's part of the work at a place.
fn step<'r, 'a>(record: &'r Record<'a>, at: Place, step: &str) -> &'r StepAt<'a> {
    record
        .work
        .iter()
        .filter(|work| work.at == at)
        .flat_map(|work| &work.stages)
        .flat_map(|stage| &stage.steps)
        .find(|of| of.step.as_str() == step)
        .unwrap()
}

fn answers<'a>(said: &[Said<'a>]) -> Vec<&'a Answer> {
    said.iter().map(|said| &said.given.answer).collect()
}

fn lines_of(entries: &[&Entry]) -> Vec<u64> {
    entries.iter().map(|entry| entry.tick).collect()
}

/// Every line of a card is told somewhere, and here without the help of the last part.
fn nothing_is_left_out(card: &Card) {
    let record = record(card);
    assert_eq!(lines_of(&record.rest), [0_u64; 0]);
    let all: BTreeSet<&LineRef> = card.entries.iter().map(|entry| &entry.line).collect();
    assert_eq!(record.lines(), all);
}

#[test]
fn the_head_says_which_vehicle_and_which_rules() {
    let bay = Bay::raised();
    let card = bay.card();
    let head = record(&card).head;
    assert_eq!(head.unit, "Heron 12");
    assert_eq!(head.vehicle, Some(&"truck".into()));
    assert_eq!((head.layout, &head.in_hand[..]), (Some("1-2"), &[2][..]));
    assert_eq!(head.loaded, Some(&"loaded".into()));
    assert_eq!(head.opened.unwrap().at.utc, bay.now);
    assert_eq!(head.app, Some("0.1.0"));
    assert_eq!(head.procedure.unwrap().edition, "1");
    assert_eq!((head.done, head.of), card.progress());
    nothing_is_left_out(&card);
}

#[test]
fn people_with_role_and_when_they_were_on() {
    let mut bay = Bay::open();
    bay.sign_on("fay", Role::Foreman);
    bay.wait(60);
    bay.sign_off("tess", "tess").unwrap();
    bay.wait(60);
    bay.sign_on("tess", Role::Technician);
    let take = act::take_end(&bay.card(), &person("fay"), L2).unwrap();
    bay.keep("fay", vec![take]);
    let card = bay.card();
    let people = record(&card).people;
    let [tess, fay] = &people[..] else {
        panic!("{people:?}");
    };
    assert_eq!((tess.name, tess.role), ("tess", Some(Role::Technician)));
    let off = tess.times[0].off.unwrap().at.utc - tess.times[0].on.unwrap().at.utc;
    assert_eq!((tess.times.len(), off.num_seconds()), (2, 60));
    assert!(tess.times[1].off.is_none());
    assert_eq!((fay.times.len(), fay.took.len()), (1, 1));
    nothing_is_left_out(&card);
}

#[test]
fn what_stands_is_told_by_place_with_what_was_judged_then() {
    let bay = Bay::raised();
    let card = bay.card();
    let record = record(&card);
    let stands = step(&record, A2, "stands");
    assert_eq!(stands.state, Some(StepState::Done));
    let judged = &stands.said[0].given.judged;
    assert_eq!(judged[0].rule, "support.stands");
    assert_eq!(judged[0].verdict, "within");
    assert!(judged[0].room.is_some() && !judged[0].source.is_empty());
    assert_eq!(step(&record, V, "as-found").state, Some(StepState::Skipped));
    assert_eq!(step(&record, L2, "drum").state, Some(StepState::Open));
    let stages: Vec<&str> = record
        .work
        .iter()
        .find(|work| work.at == A2)
        .into_iter()
        .flat_map(|work| &work.stages)
        .map(|stage| stage.stage.unwrap().as_str())
        .collect();
    assert_eq!(stages, ["lift"]);
    let weight = record
        .facts
        .iter()
        .find(|fact| fact.fact.as_str() == "group-weight")
        .unwrap();
    assert_eq!((weight.at, weight.given[0].1.who.as_str()), (A2, "tess"));
}

#[test]
fn every_reading_of_a_slot_stays() {
    let mut bay = Bay::open();
    bay.chocked();
    for text in ["2", "1 7/8", "1 3/4"] {
        bay.say("tess", L2, "as-found", "applied", reading(text, "in"))
            .unwrap();
    }
    let card = bay.card();
    let record = record(&card);
    let [applied] = &record.again[..] else {
        panic!("{:?}", record.again);
    };
    assert!(matches!(applied.what, What::Answer(key) if key.at == L2));
    let typed: Vec<&str> = applied
        .entries
        .iter()
        .map(|entry| match entry.event() {
            Some(Event::Answered {
                answer: Answer::Reading { typed },
                ..
            }) => typed.text.as_str(),
            other => panic!("{other:?}"),
        })
        .collect();
    assert_eq!(typed, ["2", "1 7/8", "1 3/4"]);
    assert_eq!(applied.stand, [&applied.entries[2].line]);
    let standing = step(&record, L2, "as-found");
    assert_eq!(answers(&standing.said), [&reading("1 3/4", "in")]);
    nothing_is_left_out(&card);
}

#[test]
fn as_found_and_as_left_stand_side_by_side() {
    let mut value: serde_json::Value = serde_json::from_str(SMALL).unwrap();
    let mut round = value["stages"][0]["steps"][1].clone();
    round["id"] = "as-left".into();
    round["holds"] = serde_json::json!([]);
    let last = value["stages"].as_array_mut().unwrap().last_mut().unwrap();
    last["steps"].as_array_mut().unwrap().push(round);
    let mut bay = Bay::empty();
    bay.procedures = Procedures::read([], &value.to_string()).unwrap();
    let drafts = act::open_card(bay.procedures.newest(), "0.1.0", &setup(&[2])).unwrap();
    bay.keep("tess", drafts);
    bay.sign_on("tess", Role::Technician);
    bay.chocked();
    for (at, step, text) in [
        (L2, "as-found", "2"),
        (R2, "as-found", "2 1/8"),
        (L2, "as-left", "1 1/2"),
    ] {
        bay.force(
            "tess",
            Event::Answered {
                at,
                step: step.into(),
                ask: "applied".into(),
                item: Item::Only,
                answer: reading(text, "in"),
                beside: None,
                judged: Vec::new(),
            },
        );
    }
    let card = bay.card();
    let sides = record(&card).sides;
    let places: Vec<Place> = sides.iter().map(|side| side.at).collect();
    assert_eq!(places, [L2, R2]);
    assert_eq!(answers(&sides[0].rows[0].found), [&reading("2", "in")]);
    assert_eq!(answers(&sides[0].rows[0].left), [&reading("1 1/2", "in")]);
    assert_eq!(answers(&sides[1].rows[0].left), [] as [&Answer; 0]);
}

#[test]
fn struck_skipped_passed_and_done_though() {
    let mut bay = Bay::raised();
    bay.sign_on("fay", Role::Foreman);
    bay.tag("fay").unwrap();
    bay.fact("tess", A2, "rim", choice("one-piece")).unwrap();
    bay.pass("fay", L2, "covers-on", "second-look", "foreman was there")
        .unwrap();
    let wrong = bay
        .say("tess", L2, "tyres", "state", choose("core-out"))
        .unwrap();
    bay.wait(100);
    bay.strike("tess", &wrong, Some("other side")).unwrap();
    let early = bay.force(
        "tess",
        Event::Answered {
            at: V,
            step: "chocks-out".into(),
            ask: "out".into(),
            item: Item::Only,
            answer: press("out"),
            beside: None,
            judged: Vec::new(),
        },
    );
    let card = bay.card();
    let record = record(&card);
    let [struck] = &record.struck[..] else {
        panic!("{:?}", record.struck);
    };
    assert_eq!(struck.entry.line, wrong);
    assert!(matches!(
        struck.by.unwrap().event(),
        Some(Event::Struck { why: Some(why), .. }) if why == "other side"
    ));
    assert_eq!(step(&record, L2, "tyres").said, []);
    assert!(matches!(
        record.skipped[0].event(),
        Some(Event::StepSkipped { why, .. }) if why.as_str() == "no-air"
    ));
    assert!(matches!(
        record.passed[0].event(),
        Some(Event::HoldPassed { why, .. }) if why == "foreman was there"
    ));
    let though: Vec<&LineRef> = record.though.iter().map(|entry| &entry.line).collect();
    assert_eq!(though, [&early]);
    nothing_is_left_out(&card);
}

#[test]
fn looks_and_findings_stay_after_they_were_put_right() {
    let mut bay = Bay::raised();
    bay.sign_on("fay", Role::Foreman);
    bay.tag("fay").unwrap();
    bay.fact("tess", A2, "rim", choice("one-piece")).unwrap();
    bay.say("tess", L2, "tyres", "state", choose("core-out"))
        .unwrap();
    for seen in ["replace", "sound"] {
        bay.say("tess", L2, "drum", "seen", choose(seen)).unwrap();
    }
    bay.fact("tess", A2, "studs", FactValue::Count(2)).unwrap();
    bay.say("fay", L2, "second-look", "look", look(false))
        .unwrap();
    bay.say("fay", L2, "second-look", "look", look(true))
        .unwrap();
    let card = bay.card();
    let record = record(&card);
    let accepted: Vec<bool> = record
        .looks
        .iter()
        .map(|entry| {
            matches!(
                entry.event(),
                Some(Event::Answered {
                    answer: Answer::Look { accepted: true, .. },
                    ..
                })
            )
        })
        .collect();
    assert_eq!(accepted, [false, true]);
    let [drum] = &record.found.entries[..] else {
        panic!("{:?}", record.found);
    };
    assert_eq!(drum.event().unwrap().step().unwrap().1.as_str(), "drum");
    nothing_is_left_out(&card);
}

#[test]
fn each_nut_has_its_story() {
    let mut bay = Bay::raised();
    bay.fact("tess", A2, "studs", FactValue::Count(2)).unwrap();
    let broken = Exception {
        item: "2".to_owned(),
        mark: "broken".into(),
    };
    let off = Answer::Exceptions { but: vec![broken] };
    bay.fact("tess", A2, "rim", choice("one-piece")).unwrap();
    bay.say("tess", L2, "nuts-off", "nuts", off).unwrap();
    for (nut, mark) in [(1, "turned-and-clicked"), (2, "clicked-at-once")] {
        let mark = Answer::Nut { mark: mark.into() };
        bay.answer("tess", L2, "final-pass", "nuts", Item::Nut(nut), mark)
            .unwrap();
    }
    let card = bay.card();
    let record = record(&card);
    let [left] = &record.nuts[..] else {
        panic!("{:?}", record.nuts);
    };
    let passes: Vec<&str> = left.passes.iter().map(|pass| pass.step.as_str()).collect();
    assert_eq!(
        (left.at, &passes[..]),
        (L2, &["nuts-off", "final-pass"][..])
    );
    let story = |nut: usize| -> Vec<(Option<&str>, bool)> {
        let said = left.nuts[nut].said.iter().flatten();
        said.map(|said| (said.mark.map(OptionId::as_str), said.alone))
            .collect()
    };
    assert_eq!(
        story(0),
        [(None, false), (Some("turned-and-clicked"), true)]
    );
    assert_eq!(
        story(1),
        [(Some("broken"), false), (Some("clicked-at-once"), true)]
    );
    nothing_is_left_out(&card);
}

#[test]
fn what_still_stands_between_this_vehicle_and_the_road() {
    let bay = Bay::raised();
    let card = bay.card();
    let open = record(&card).open;
    assert!(!open.is_empty());
    assert_eq!(open, hand_back(&card));
}

#[test]
fn two_tablets_and_what_only_a_newer_app_knows() {
    let mut bay = Bay::open();
    let mut other = bay.other_tablet("tablet-b");
    bay.fact("tess", A2, "rim", choice("one-piece")).unwrap();
    other
        .fact("tess", A2, "rim", choice("multi-piece"))
        .unwrap();
    for line in other.trail.in_order() {
        bay.trail.take_in(line.clone());
    }
    let card = bay.card();
    let record = record(&card);
    let rim = record
        .facts
        .iter()
        .find(|fact| fact.fact.as_str() == "rim")
        .unwrap();
    assert_eq!(rim.given.len(), 2);
    assert_eq!(record.strands.heads.len(), 2);
    assert_eq!(record.strands.lines, card.entries.len());
    assert!(record.strands.whole);
    nothing_is_left_out(&card);
    let mut newer = card.clone();
    newer.newer.push("later".to_owned());
    newer.entries[1].said = line::Said::MayBeSkipped {
        kind: "later".to_owned(),
    };
    let record = super::record(&newer);
    assert!(!record.strands.whole);
    let all: BTreeSet<&LineRef> = newer.entries.iter().map(|entry| &entry.line).collect();
    assert_eq!(record.lines(), all);
}

#[test]
fn an_empty_card_has_an_empty_record() {
    let bay = Bay::empty();
    let card = bay.card();
    let record = record(&card);
    assert!(record.head.opened.is_none() && record.people.is_empty());
    assert!(record.work.is_empty());
    // That nothing was opened is the one thing in the way.
    assert_eq!(record.open, hand_back(&card));
    nothing_is_left_out(&card);
}
