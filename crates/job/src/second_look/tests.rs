use super::page::changes;
use super::{STEP, Waits, can_be_sent_back, seen, waiting, waits};
use crate::act;
use crate::bay::{
    A2, Bay, L2, R2, V, choice, choose, in_order, key, lb, look, press, reading, sent_back,
};
use crate::card::{Entry, StepState};
use crate::event::{Answer, Event, FactValue, Item, LineState, Role};
use crate::hold::{Hold, first_hold};
use crate::id::Place;
use crate::line::Sha;

/// Measured as found, both ends of the axle built; a foreman is there to look.
fn built() -> Bay {
    let mut bay = Bay::open();
    bay.chocked();
    bay.say("tess", L2, "as-found", "applied", reading("1 1/2", "in"))
        .unwrap();
    bay.say("tess", R2, "as-found", "applied", reading("1 5/8", "in"))
        .unwrap();
    bay.fact("tess", V, "coupled", choice("coupled")).unwrap();
    bay.tag("tess").unwrap();
    bay.up();
    bay.built("tess", L2);
    bay.built("tess", R2);
    bay.sign_on("fay", Role::Foreman);
    bay
}

fn accepted() -> Bay {
    let mut bay = built();
    bay.say("fay", L2, STEP, "look", look(true)).unwrap();
    assert_eq!(waits(&bay.card(), L2), Some(Waits::Accepted));
    bay
}

fn look_at(bay: &Bay, at: Place) -> Option<Waits> {
    waits(&bay.card(), at)
}

fn applied(at: Place) -> Event {
    Event::Answered {
        at,
        step: "as-found".into(),
        ask: "applied".into(),
        item: Item::Only,
        answer: reading("2", "in"),
        beside: None,
        judged: Vec::new(),
    }
}

fn fact(at: Place, fact: &str, value: FactValue) -> Event {
    Event::FactSet {
        at,
        fact: fact.into(),
        value,
    }
}

#[test]
fn a_wheel_end_waits_once_all_before_the_look_is_done() {
    let mut bay = Bay::raised();
    bay.stripped("tess", L2);
    assert_eq!(look_at(&bay, L2), Some(Waits::NotYet));
    bay.torqued("tess", L2);
    assert_eq!(look_at(&bay, L2), Some(Waits::ForTheFirst));
    assert_eq!(look_at(&bay, R2), Some(Waits::NotYet));
    assert_eq!(waiting(&bay.card()), [L2]);
    bay.sign_on("fay", Role::Foreman);
    bay.say("fay", L2, STEP, "look", look(true)).unwrap();
    assert_eq!(look_at(&bay, L2), Some(Waits::Accepted));
    assert_eq!(waiting(&bay.card()), []);
    assert_eq!(waits(&Bay::empty().card(), L2), None);
}

#[test]
fn what_changes_after_an_acceptance() {
    type Change = fn(&mut Bay);
    let rows: [(&str, Change, Waits); 13] = [
        ("nothing", |_| {}, Waits::Accepted),
        (
            "its own answer once more, as it was",
            |bay| {
                bay.say("tess", L2, "hoses", "found", in_order()).unwrap();
            },
            Waits::Changed,
        ),
        (
            "a reading of its axle mate",
            |bay| {
                bay.force("tess", applied(R2));
            },
            Waits::Changed,
        ),
        (
            "work at its axle mate",
            |bay| {
                bay.say("tess", R2, "hoses", "found", in_order()).unwrap();
            },
            Waits::Accepted,
        ),
        (
            "a set-up fact",
            |bay| {
                bay.fact("tess", V, "unit-weight", lb("41000")).unwrap();
            },
            Waits::Changed,
        ),
        (
            "a fact of its axle",
            |bay| {
                bay.force("tess", fact(A2, "rim", choice("multi-piece")));
            },
            // Its tyres are open again under the other kind of rim.
            Waits::NotYet,
        ),
        (
            "a fact of another axle",
            |bay| {
                bay.force("tess", fact(Place::Axle(3), "rim", choice("one-piece")));
            },
            Waits::Accepted,
        ),
        (
            "a fact nobody asks for",
            |bay| {
                bay.fact("tess", V, "note", FactValue::Text("mirror".to_owned()))
                    .unwrap();
            },
            Waits::Changed,
        ),
        (
            "its covers on",
            |bay| {
                bay.say("tess", L2, "covers-on", "on", press("looked-and-on"))
                    .unwrap();
            },
            Waits::Accepted,
        ),
        (
            "a line found there",
            |bay| {
                bay.find("tess", L2, "boot").unwrap();
            },
            Waits::Changed,
        ),
        (
            "a hold passed there",
            |bay| {
                bay.pass("fay", L2, "hang", "drum", "on its way").unwrap();
            },
            Waits::Changed,
        ),
        (
            "a hold passed for the covers",
            |bay| {
                bay.pass("fay", L2, "covers-on", STEP, "no time").unwrap();
            },
            Waits::Accepted,
        ),
        (
            "somebody signs on",
            |bay| bay.sign_on("bo", Role::Technician),
            Waits::Accepted,
        ),
    ];
    for (what, change, expected) in rows {
        let mut bay = accepted();
        change(&mut bay);
        assert_eq!(look_at(&bay, L2), Some(expected), "{what}");
    }
}

#[test]
fn a_fact_asked_only_later_was_not_there_to_be_seen() {
    let mut bay = Bay::empty();
    let later = crate::bay::SMALL.replace(
        r#"{"id": "on", "kind": {"press": {"answers": [{"id": "looked-and-on"}]}}}"#,
        r#"{"id": "stroke", "kind": {"fact": "rated-stroke"}},
           {"id": "on", "kind": {"press": {"answers": [{"id": "looked-and-on"}]}}}"#,
    );
    bay.procedures = crate::procedures::Procedures::read([], &later).unwrap();
    let setup = crate::bay::setup(&[2]);
    let drafts = act::open_card(bay.procedures.newest(), "0.1.0", &setup).unwrap();
    bay.keep("tess", drafts);
    bay.sign_on("tess", Role::Technician);
    bay.secured();
    bay.up();
    bay.built("tess", L2);
    bay.sign_on("fay", Role::Foreman);
    bay.say("fay", L2, STEP, "look", look(true)).unwrap();
    bay.fact("tess", L2, "rated-stroke", FactValue::NotKnown)
        .unwrap();
    assert_eq!(look_at(&bay, L2), Some(Waits::Accepted));
}

#[test]
fn a_weight_of_the_whole_group_is_on_the_page_of_each_of_its_axles() {
    let mut bay = Bay::with_axles(&[3]);
    bay.chocked();
    bay.skip("tess", V, "as-found", "no-air").unwrap();
    bay.fact("tess", V, "coupled", choice("coupled")).unwrap();
    bay.tag("tess").unwrap();
    let l3 = crate::bay::L3;
    let before = seen(&bay.card(), l3);
    bay.fact("tess", A2, "group-weight", lb("30000")).unwrap();
    assert_ne!(seen(&bay.card(), l3).digest, before.digest);
}

#[test]
fn a_foremans_word_on_a_no_is_no_work_and_a_yes_after_it_is() {
    let mut bay = built();
    let line = bay.find("tess", L2, "hose").unwrap();
    bay.tell("tess", &line, LineState::SaidNo).unwrap();
    bay.say("fay", L2, STEP, "look", look(true)).unwrap();
    bay.pass_line("fay", &line, "renewed at home").unwrap();
    assert_eq!(look_at(&bay, L2), Some(Waits::Accepted));
    assert_eq!(changes(&bay.card(), L2), [] as [&Entry; 0]);
    let yes = bay.tell("tess", &line, LineState::SaidYes).unwrap();
    assert_eq!(look_at(&bay, L2), Some(Waits::Changed));
    let card = bay.card();
    let told: Vec<_> = changes(&card, L2).iter().map(|one| &one.line).collect();
    assert_eq!(told, [&yes]);
}

#[test]
fn taking_the_change_back_lets_the_acceptance_stand_again() {
    let mut bay = accepted();
    let line = bay.find("tess", L2, "boot").unwrap();
    assert_eq!(look_at(&bay, L2), Some(Waits::Changed));
    bay.strike("tess", &line, Some("other end")).unwrap();
    assert_eq!(look_at(&bay, L2), Some(Waits::Accepted));
}

#[test]
fn what_another_tablet_had_written_before_it_was_seen_changes_it_too() {
    let mut bay = built();
    let mut other = bay.other_tablet("tablet-b");
    other.say("tess", L2, "hoses", "found", in_order()).unwrap();
    bay.say("fay", L2, STEP, "look", look(true)).unwrap();
    assert_eq!(look_at(&bay, L2), Some(Waits::Accepted));
    bay.trail.merge(&other.trail);
    assert_eq!(look_at(&bay, L2), Some(Waits::Changed));
    bay.say("fay", L2, STEP, "look", look(true)).unwrap();
    assert_eq!(look_at(&bay, L2), Some(Waits::Accepted));
}

#[test]
fn an_acceptance_of_another_page_does_not_stand() {
    let mut bay = built();
    let mut page = seen(&bay.card(), L2);
    page.digest = Sha::of(b"another page");
    bay.force(
        "fay",
        Event::Answered {
            at: L2,
            step: STEP.into(),
            ask: "look".into(),
            item: Item::Only,
            answer: Answer::Look {
                accepted: true,
                why: None,
                seen: Some(Box::new(page)),
                again: Vec::new(),
            },
            beside: None,
            judged: Vec::new(),
        },
    );
    assert_eq!(look_at(&bay, L2), Some(Waits::Changed));
    assert!(matches!(
        first_hold(&bay.card(), &"covers-on".into(), L2),
        Some(Hold::NotYet { .. })
    ));
}

#[test]
fn sent_back_means_done_again() {
    let mut bay = built();
    let steps: Vec<String> = can_be_sent_back(&bay.card(), L2)
        .iter()
        .map(|step| step.id.to_string())
        .collect();
    assert_eq!(
        steps,
        [
            "as-found",
            "tyres",
            "nuts-off",
            "hoses",
            "drum",
            "hang",
            "final-pass",
            "check-pass"
        ]
    );
    let back = bay
        .say("fay", L2, STEP, "look", sent_back(&["hoses", "drum"]))
        .unwrap();
    assert_eq!(look_at(&bay, L2), Some(Waits::SentBack));
    assert_eq!(bay.state(L2, "drum"), StepState::Open);
    assert_eq!(bay.state(R2, "drum"), StepState::Done, "the mate's stays");
    assert_eq!(bay.state(L2, "hang"), StepState::Done);
    bay.say("tess", L2, "hoses", "found", in_order()).unwrap();
    bay.say("tess", L2, "drum", "seen", choose("sound"))
        .unwrap();
    assert_eq!(look_at(&bay, L2), Some(Waits::Again));
    assert_eq!(waiting(&bay.card()), [L2, R2]);
    bay.say("fay", L2, STEP, "look", look(true)).unwrap();
    assert_eq!(look_at(&bay, L2), Some(Waits::Accepted));
    // Taken back, nothing was ever to be done again; what was done since stays.
    bay.strike("fay", &back, Some("other wheel end")).unwrap();
    assert_eq!(bay.state(L2, "drum"), StepState::Done);
}

#[test]
fn a_sent_back_step_that_protects_stops_what_was_built_on_it() {
    let mut bay = built();
    bay.say("fay", L2, STEP, "look", sent_back(&["final-pass"]))
        .unwrap();
    assert_eq!(bay.state(L2, "final-pass"), StepState::Open);
    for (step, at) in [("second-look", R2), ("chocks-out", V)] {
        let held = first_hold(&bay.card(), &step.into(), at);
        let stopped = matches!(
            &held,
            Some(Hold::Stopped { first, at: L2 }) if first.as_str() == "final-pass"
        );
        assert!(stopped, "{step} {at}: {held:?}");
    }
    let held = first_hold(&bay.card(), &"check-pass".into(), L2);
    assert!(matches!(held, Some(Hold::NotYet { protects: true, .. })));
    bay.nuts("tess", L2, 2);
    assert_eq!(first_hold(&bay.card(), &"second-look".into(), R2), None);
}

#[test]
fn what_cannot_be_sent_back_is_refused() {
    let mut bay = built();
    let rows: [(&str, Answer, &str); 6] = [
        ("fay", sent_back(&["covers-on"]), "refuse.not-offered"),
        ("fay", sent_back(&["chocks"]), "refuse.not-offered"),
        ("fay", sent_back(&["ashtray"]), "refuse.not-offered"),
        (
            "fay",
            Answer::Look {
                accepted: true,
                why: None,
                seen: None,
                again: vec!["drum".into()],
            },
            "refuse.not-offered",
        ),
        (
            "fay",
            Answer::Look {
                accepted: false,
                why: None,
                seen: None,
                again: vec!["drum".into()],
            },
            "refuse.reason-missing",
        ),
        ("tess", sent_back(&["drum"]), "hold.foreman-looks"),
    ];
    for (who, answer, expected) in rows {
        let shown = format!("{who} {answer:?}");
        let refused = bay.say(who, L2, STEP, "look", answer);
        assert_eq!(key(&refused, &bay.card()), expected, "{shown}");
    }
    // Nor does a technician's word from elsewhere open anything again.
    let forged = Event::Answered {
        at: L2,
        step: STEP.into(),
        ask: "look".into(),
        item: Item::Only,
        answer: sent_back(&["drum"]),
        beside: None,
        judged: Vec::new(),
    };
    bay.force("tess", forged);
    assert_eq!(bay.state(L2, "drum"), StepState::Done);
}

#[test]
fn an_answer_that_had_not_seen_the_sending_back_is_not_done_again() {
    let mut bay = built();
    let mut other = bay.other_tablet("tablet-b");
    bay.say("fay", L2, STEP, "look", sent_back(&["drum"]))
        .unwrap();
    // Later in the order of the trail, and written without knowing.
    other.say("tess", L2, "hoses", "found", in_order()).unwrap();
    other
        .say("tess", L2, "drum", "seen", choose("sound"))
        .unwrap();
    bay.trail.merge(&other.trail);
    assert_eq!(bay.state(L2, "drum"), StepState::Open);
    bay.say("tess", L2, "drum", "seen", choose("sound"))
        .unwrap();
    assert_eq!(bay.state(L2, "drum"), StepState::Done);
}

#[test]
fn what_was_done_though_it_was_held_cannot_be_accepted() {
    let mut bay = built();
    // Another tablet wrote it for somebody who had not signed on here.
    let early = Event::Answered {
        at: L2,
        step: "nuts-off".into(),
        ask: "nuts".into(),
        item: Item::Only,
        answer: Answer::Exceptions { but: Vec::new() },
        beside: None,
        judged: Vec::new(),
    };
    let line = bay.force("zoe", early);
    assert_eq!(look_at(&bay, L2), Some(Waits::ForTheFirst));
    let refused = bay.say("fay", L2, STEP, "look", look(true));
    assert_eq!(key(&refused, &bay.card()), "refuse.done-though");
    // Accepted elsewhere it does not stand either.
    let accepted = Event::Answered {
        at: L2,
        step: STEP.into(),
        ask: "look".into(),
        item: Item::Only,
        answer: Answer::Look {
            accepted: true,
            why: None,
            seen: Some(Box::new(seen(&bay.card(), L2))),
            again: Vec::new(),
        },
        beside: None,
        judged: Vec::new(),
    };
    bay.force("fay", accepted);
    assert_eq!(look_at(&bay, L2), Some(Waits::Changed));
    // Sending it back is no acceptance; done again in order, it can be accepted.
    bay.strike("fay", &line, Some("not on this card")).unwrap();
    bay.say(
        "tess",
        L2,
        "nuts-off",
        "nuts",
        Answer::Exceptions { but: Vec::new() },
    )
    .unwrap();
    bay.say("fay", L2, STEP, "look", look(true)).unwrap();
    assert_eq!(look_at(&bay, L2), Some(Waits::Accepted));
}
