use crate::act::{self, Refusal};
use crate::bay::{
    A2, A3, Bay, L2, L3, R2, SMALL, V, choice, choose, in_order, key, lb, lines, look, person,
    press, reading, setup, stands, typed, wheels,
};
use crate::card::{StepState, Though};
use crate::event::{Answer, Event, FactValue, Item, JudgedThen, Role, TagBasis};
use crate::hold::{self, Hold};
use crate::id::Place;
use crate::judge::Units;
use crate::line::{Line, LineRef, Sha};
use crate::procedure::Procedure;
use crate::procedures::Procedures;
use crate::summary::summary;
use crate::trail::TrailFault;

fn not_yet(first: &str, at: Place, protects: bool) -> Hold {
    Hold::NotYet {
        first: first.into(),
        at,
        protects,
    }
}

fn struck(line: &LineRef) -> Event {
    Event::Struck {
        line: line.clone(),
        why: Some("wrong".to_owned()),
    }
}

fn answered(at: Place, step: &str, ask: &str, answer: Answer) -> Event {
    Event::Answered {
        at,
        step: step.into(),
        ask: ask.into(),
        item: Item::Only,
        answer,
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

/// Two tablets that part after the card is secured.
fn two_tablets() -> (Bay, Bay) {
    let mut one = Bay::open();
    one.secured();
    let two = one.other_tablet("tablet-b");
    (one, two)
}

fn joined(one: &Bay, two: &Bay) -> Bay {
    let mut both = one.clone();
    both.trail.merge(&two.trail);
    both
}

// Striking.

#[test]
fn what_is_struck_never_counted_and_stays_readable() {
    let mut bay = Bay::open();
    bay.say("tess", V, "chocks", "wheels", wheels(1)).unwrap();
    let set = bay
        .say("tess", V, "chocks", "set", press("both-ways"))
        .unwrap();
    assert_eq!(bay.state(V, "chocks"), StepState::Done);
    let strike = bay.strike("tess", &set, None).unwrap();
    assert_eq!(bay.state(V, "chocks"), StepState::Begun);
    let entry = bay.entry(&set);
    assert_eq!(entry.struck, Some(strike));
    assert!(matches!(entry.event(), Some(Event::Answered { .. })));
}

#[test]
fn a_struck_answer_leaves_the_one_before_it() {
    let mut bay = Bay::open();
    bay.chocked();
    let slip = bay
        .say("tess", V, "chocks", "set", press("none-stays"))
        .unwrap();
    assert_eq!(bay.state(V, "chocks"), StepState::Unclear);
    bay.strike("tess", &slip, None).unwrap();
    assert_eq!(bay.state(V, "chocks"), StepState::Done);
}

#[test]
fn a_strike_cannot_be_struck() {
    let mut bay = Bay::open();
    bay.chocked();
    let set = bay.trail.in_order().last().unwrap().reference();
    let strike = bay.strike("tess", &set, None).unwrap();
    let refused = bay.strike("tess", &strike, Some("no"));
    assert_eq!(key(&refused, &bay.card()), "refuse.cannot-strike");
    let forced = bay.force("tess", struck(&strike));
    assert_eq!(bay.entry(&strike).struck, None);
    assert!(bay.entry(&set).struck.is_some());
    assert_eq!(bay.entry(&forced).though, Some(Though::NotTheirs));
    // What opens a card, signs on or joins can't be struck either.
    for line in bay.trail.clone().in_order() {
        let is_strikable = matches!(
            line.event(),
            Some(Event::FactSet { .. } | Event::Answered { .. })
        );
        let result = bay.strike("tess", &line.reference(), Some("no"));
        if !is_strikable {
            assert_eq!(key(&result, &bay.card()), "refuse.cannot-strike");
        }
    }
}

#[test]
fn anothers_entry_is_the_foremans_to_strike() {
    let mut bay = Bay::open();
    bay.chocked();
    bay.sign_on("bo", Role::Technician);
    bay.sign_on("fay", Role::Foreman);
    let set = bay.trail.in_order()[8].reference();
    let refused = bay.strike("bo", &set, Some("slipped"));
    assert_eq!(key(&refused, &bay.card()), "refuse.not-theirs");
    let forced = bay.force("bo", struck(&set));
    assert_eq!(bay.entry(&forced).though, Some(Though::NotTheirs));
    assert_eq!(bay.state(V, "chocks"), StepState::Done);
    let strike = bay.strike("fay", &set, Some("slipped")).unwrap();
    assert_eq!(bay.entry(&set).struck, Some(strike));
    assert_ne!(bay.state(V, "chocks"), StepState::Done);
}

#[test]
fn a_strike_is_judged_by_the_role_of_its_day() {
    let mut bay = Bay::open();
    bay.chocked();
    bay.sign_on("fay", Role::Foreman);
    bay.sign_on("bo", Role::Technician);
    let first = bay.trail.in_order()[7].reference();
    let second = bay.trail.in_order()[8].reference();
    bay.strike("fay", &first, Some("slipped")).unwrap();
    bay.force("bo", struck(&second));
    bay.sign_on("fay", Role::Technician);
    bay.sign_on("bo", Role::Foreman);
    assert!(bay.entry(&first).struck.is_some());
    assert!(bay.entry(&second).struck.is_none());
}

#[test]
fn taking_back_the_answer_to_a_protecting_step_stops_what_comes_after() {
    let mut bay = Bay::raised();
    let set = bay
        .trail
        .in_order()
        .into_iter()
        .find(|line| matches!(line.event(), Some(Event::Answered { ask, .. }) if ask.as_str() == "set"))
        .unwrap()
        .reference();
    bay.fact("tess", A2, "studs", FactValue::Count(2)).unwrap();
    bay.fact("tess", A2, "rim", choice("one-piece")).unwrap();
    assert!(bay.may("tess", L2, "nuts-off", "nuts", Item::Only).is_ok());
    bay.strike("tess", &set, Some("rolled off")).unwrap();
    let stopped = Hold::Stopped {
        first: "chocks".into(),
        at: V,
    };
    for (at, step, ask) in [
        (L2, "nuts-off", "nuts"),
        (V, "as-found", "applied"),
        (A2, "raise", "up"),
        (V, "drive", "stops"),
    ] {
        let held = hold::first_hold(&bay.card(), &step.into(), at);
        assert_eq!(held, Some(stopped.clone()), "{step} {ask}");
    }
    assert_eq!(
        bay.state(A2, "raise"),
        StepState::Done,
        "it still stands on its stands"
    );
    bay.say("tess", V, "chocks", "set", press("both-ways"))
        .unwrap();
    assert!(bay.may("tess", L2, "nuts-off", "nuts", Item::Only).is_ok());
}

#[test]
fn taking_back_a_fact_that_a_protecting_step_asks_for_stops_too() {
    let mut bay = Bay::raised();
    let coupled = bay
        .trail
        .in_order()
        .into_iter()
        .find(|line| matches!(line.event(), Some(Event::FactSet { fact, .. }) if fact.as_str() == "coupled"))
        .unwrap()
        .reference();
    bay.strike("tess", &coupled, Some("wrong one")).unwrap();
    assert_eq!(
        hold::first_hold(&bay.card(), &"drive".into(), V),
        Some(Hold::Stopped {
            first: "lock-out".into(),
            at: V
        })
    );
    bay.fact("tess", V, "coupled", choice("coupled")).unwrap();
    assert_eq!(bay.state(V, "lock-out"), StepState::Done);
    assert_ne!(
        hold::first_hold(&bay.card(), &"nuts-off".into(), L2)
            .and_then(|hold| hold.first().map(|(_, step)| step.clone())),
        Some("lock-out".into())
    );
}

#[test]
fn what_was_built_on_a_struck_entry_is_marked_and_stays_done() {
    let mut bay = Bay::raised();
    let lines: Vec<Line> = bay.trail.in_order().into_iter().cloned().collect();
    let of = |step: &str| {
        let found = lines.iter().find(|line| {
            matches!(line.event(), Some(Event::Answered { step: of, .. }) if of.as_str() == step)
        });
        found.unwrap().reference()
    };
    let (stand, raise) = (of("stands"), of("raise"));
    assert_eq!(bay.entry(&raise).though, None);
    bay.strike("tess", &stand, Some("other stands")).unwrap();
    assert_eq!(
        bay.entry(&raise).though,
        Some(Though::BuiltOnStruck {
            first: "stands".into(),
            at: A2
        })
    );
    assert_eq!(bay.state(A2, "raise"), StepState::Done);
    // Who goes on although it was struck is not excused.
    let late = bay.force("tess", answered(A2, "raise", "up", press("on-stands")));
    assert_eq!(
        bay.entry(&late).though,
        Some(Though::Held(Hold::Stopped {
            first: "stands".into(),
            at: A2
        }))
    );
}

#[test]
fn a_strike_that_the_writer_had_not_seen_is_not_held_against_the_line() {
    let (mut one, mut two) = two_tablets();
    let tag = one.trail.in_order().last().unwrap().reference();
    one.strike("tess", &tag, None).unwrap();
    two.sign_on("bo", Role::Technician);
    let gone_on = two.force("bo", answered(A2, "jack", "rating", reading("50000", "lb")));
    let both = joined(&one, &two);
    assert_eq!(
        both.entry(&gone_on).though,
        Some(Though::BuiltOnStruck {
            first: "lock-out".into(),
            at: V
        })
    );
}

// Two tablets.

#[test]
fn of_two_facts_that_had_not_seen_each_other_the_stricter_governs() {
    let rows = [
        (A2, "rim", choice("one-piece"), choice("multi-piece")),
        (V, "suspension", choice("own-springs"), choice("air")),
        (
            A2,
            "group-weight",
            lb("20000"),
            FactValue::Typed(typed("20000", "kg")),
        ),
        (A2, "group-weight", lb("20000"), FactValue::NotKnown),
        (
            L2,
            "rated-stroke",
            FactValue::Typed(typed("3", "in")),
            FactValue::Typed(typed("2 1/2", "in")),
        ),
        (
            L2,
            "rated-stroke",
            FactValue::Typed(typed("3", "in")),
            FactValue::NotKnown,
        ),
    ];
    for (at, id, looser, stricter) in rows {
        for turned in [false, true] {
            let (mut one, mut two) = two_tablets();
            let (a, b) = if turned {
                (&stricter, &looser)
            } else {
                (&looser, &stricter)
            };
            one.fact("tess", at, id, a.clone()).unwrap();
            two.fact("tess", at, id, b.clone()).unwrap();
            let mut both = joined(&one, &two);
            let card = both.card();
            let slot = card.fact_slot(at, &id.into()).unwrap();
            assert_eq!(slot.live().len(), 2, "{id}: both are shown");
            assert_eq!(card.fact(at, &id.into()), Some(&stricter), "{id} {turned}");
            // Whoever has seen both decides.
            both.fact("tess", at, id, looser.clone()).unwrap();
            assert_eq!(both.card().fact(at, &id.into()), Some(&looser), "{id}");
        }
    }
}

#[test]
fn a_contest_ends_when_one_side_is_struck() {
    let (mut one, mut two) = two_tablets();
    one.fact("tess", A2, "rim", choice("one-piece")).unwrap();
    let wrong = two.fact("tess", A2, "rim", choice("multi-piece")).unwrap();
    let mut both = joined(&one, &two);
    both.strike("tess", &wrong, Some("misread")).unwrap();
    assert_eq!(
        both.card().fact(A2, &"rim".into()),
        Some(&choice("one-piece"))
    );
    assert!(
        !both
            .card()
            .fact_slot(A2, &"rim".into())
            .unwrap()
            .is_contested()
    );
}

#[test]
fn the_same_fact_twice_is_no_contest_of_values() {
    let (mut one, mut two) = two_tablets();
    one.fact("tess", V, "note", FactValue::Text("left mirror".to_owned()))
        .unwrap();
    two.fact("tess", V, "note", FactValue::Text("left mirror".to_owned()))
        .unwrap();
    let card = joined(&one, &two).card();
    assert_eq!(
        card.fact(V, &"note".into()),
        Some(&FactValue::Text("left mirror".to_owned()))
    );
}

#[test]
fn a_contest_without_an_order_clears_nothing() {
    let mut one = Bay::open();
    one.chocked();
    one.skip("tess", V, "as-found", "no-air").unwrap();
    let mut two = one.other_tablet("tablet-b");
    one.fact("tess", V, "coupled", choice("coupled")).unwrap();
    one.tag("tess").unwrap();
    assert_eq!(one.state(V, "lock-out"), StepState::Done);
    two.fact("tess", V, "coupled", choice("alone")).unwrap();
    let mut both = joined(&one, &two);
    assert_eq!(both.card().fact(V, &"coupled".into()), None);
    assert_eq!(both.state(V, "lock-out"), StepState::Unclear);
    assert!(hold::first_hold(&both.card(), &"jack".into(), A2).is_some());
    both.fact("tess", V, "coupled", choice("coupled")).unwrap();
    assert_eq!(both.state(V, "lock-out"), StepState::Done);
}

#[test]
fn an_answer_that_is_right_only_for_the_looser_fact_clears_nothing() {
    let (mut one, mut two) = two_tablets();
    one.fact("tess", A2, "rim", choice("one-piece")).unwrap();
    one.say("tess", L2, "tyres", "state", choose("no-damage"))
        .unwrap();
    assert_eq!(one.state(L2, "tyres"), StepState::Done);
    two.fact("tess", A2, "rim", choice("multi-piece")).unwrap();
    let mut both = joined(&one, &two);
    assert_eq!(both.state(L2, "tyres"), StepState::Unclear);
    assert!(hold::first_hold(&both.card(), &"nuts-off".into(), L2).is_some());
    both.say("tess", L2, "tyres", "state", choose("core-out"))
        .unwrap();
    assert_eq!(both.state(L2, "tyres"), StepState::Done);
}

#[test]
fn of_two_answers_that_had_not_seen_each_other_both_must_clear() {
    let mut one = Bay::open();
    one.say("tess", V, "chocks", "wheels", wheels(1)).unwrap();
    let mut two = one.other_tablet("tablet-b");
    one.say("tess", V, "chocks", "set", press("both-ways"))
        .unwrap();
    let slips = two
        .say("tess", V, "chocks", "set", press("none-stays"))
        .unwrap();
    let mut both = joined(&one, &two);
    assert_eq!(both.state(V, "chocks"), StepState::Unclear);
    both.strike("tess", &slips, Some("misread")).unwrap();
    assert_eq!(both.state(V, "chocks"), StepState::Done);
}

#[test]
fn of_two_lists_of_axles_all_are_in_hand() {
    let mut one = Bay::open();
    let mut two = one.other_tablet("tablet-b");
    one.fact("tess", V, "in-hand", FactValue::Axles(vec![2]))
        .unwrap();
    two.fact("tess", V, "in-hand", FactValue::Axles(vec![3]))
        .unwrap();
    assert_eq!(joined(&one, &two).card().axles_in_hand(), [2, 3]);
}

#[test]
fn an_axle_that_was_begun_stays_in_hand() {
    let mut bay = Bay::raised();
    let refused = bay.fact("tess", V, "in-hand", FactValue::Axles(vec![3]));
    assert_eq!(key(&refused, &bay.card()), "setup.in-hand-begun");
    assert!(
        bay.fact("tess", V, "in-hand", FactValue::Axles(vec![2, 3]))
            .is_ok()
    );
    assert!(
        bay.fact("tess", V, "in-hand", FactValue::Axles(vec![2]))
            .is_ok()
    );
    bay.force("tess", fact(V, "in-hand", FactValue::Axles(vec![3])));
    assert_eq!(bay.card().axles_in_hand(), [2, 3]);
    bay.force("tess", fact(V, "in-hand", FactValue::Axles(vec![])));
    assert_eq!(bay.card().axles_in_hand(), [2]);
    assert_eq!(
        hold::first_hold(&bay.card(), &"chocks-out".into(), V),
        Some(not_yet("check-pass", L2, true))
    );
}

// Lines from elsewhere.

#[test]
fn a_line_that_passed_a_protecting_step_is_marked() {
    let mut bay = Bay::open();
    let early = bay.force("tess", answered(A2, "raise", "up", press("on-stands")));
    assert_eq!(
        bay.entry(&early).though,
        Some(Though::Held(not_yet("chocks", V, true)))
    );
    bay.chocked();
    let early = bay.force("tess", answered(A2, "raise", "up", press("on-stands")));
    assert_eq!(
        bay.entry(&early).though,
        Some(Though::Held(not_yet("lock-out", V, true)))
    );
    assert!(summary(&bay.card()).look_at);
}

#[test]
fn a_line_by_somebody_who_may_not_is_marked() {
    let mut bay = Bay::open();
    let stranger = bay.force("zoe", answered(V, "chocks", "wheels", wheels(1)));
    assert_eq!(
        bay.entry(&stranger).though,
        Some(Though::Held(Hold::SignOn))
    );
    bay.secured();
    bay.sign_on("bo", Role::Technician);
    let forged = bay.force(
        "tess",
        Event::Answered {
            at: V,
            step: "lock-out".into(),
            ask: "tags".into(),
            item: Item::Person("bo".into()),
            answer: press("tag-on"),
            beside: None,
            judged: Vec::new(),
        },
    );
    let own = Hold::OwnPress {
        whose: person("bo"),
    };
    assert_eq!(bay.entry(&forged).though, Some(Though::Held(own)));
    assert_eq!(
        bay.state(V, "lock-out"),
        StepState::Unclear,
        "and it is not his tag"
    );
    bay.tag("bo").unwrap();
    assert_eq!(bay.state(V, "lock-out"), StepState::Done);
    let elsewhere = bay.force("tess", answered(L3, "hang", "hung", lines()));
    assert_eq!(
        bay.entry(&elsewhere).though,
        Some(Though::Held(Hold::NotOnPath))
    );
}

#[test]
fn an_answer_of_another_kind_never_counts() {
    let mut bay = Bay::open();
    bay.force("tess", answered(V, "chocks", "wheels", lines()));
    bay.force("tess", answered(V, "chocks", "set", choose("both-ways")));
    assert_eq!(bay.state(V, "chocks"), StepState::Unclear);
    bay.chocked();
    assert_eq!(bay.state(V, "chocks"), StepState::Done);
    bay.force(
        "tess",
        answered(L2, "as-found", "applied", reading("two", "in")),
    );
    bay.force(
        "tess",
        answered(R2, "as-found", "applied", reading("2", "psi")),
    );
    assert_eq!(bay.state(V, "as-found"), StepState::Unclear);
    bay.say("tess", L2, "as-found", "applied", reading("2", "in"))
        .unwrap();
    bay.say("tess", R2, "as-found", "applied", reading("50", "mm"))
        .unwrap();
    assert_eq!(bay.state(V, "as-found"), StepState::Done);
}

#[test]
fn a_skip_for_no_offered_reason_does_not_count() {
    let mut bay = Bay::open();
    bay.chocked();
    for (step, why) in [("as-found", "late"), ("lock-out", "no-air")] {
        let skipped = Event::StepSkipped {
            at: V,
            step: step.into(),
            why: why.into(),
        };
        bay.force("tess", skipped);
        assert_eq!(bay.state(V, step), StepState::Open, "{step}");
        assert_eq!(
            key(&bay.skip("tess", V, step, why), &bay.card()),
            if step == "as-found" {
                "refuse.not-a-skip"
            } else {
                "hold.not-yet"
            }
        );
    }
    bay.skip("tess", V, "as-found", "towed-in").unwrap();
    assert_eq!(bay.state(V, "as-found"), StepState::Skipped);
    assert_eq!(
        key(&bay.skip("tess", V, "lock-out", "no-air"), &bay.card()),
        "refuse.not-a-skip"
    );
    assert_eq!(
        key(&bay.skip("tess", L2, "as-found", "no-air"), &bay.card()),
        "hold.not-on-path"
    );
}

#[test]
fn anothers_sign_off_is_the_foremans_to_say() {
    let mut bay = Bay::open();
    bay.secured();
    bay.sign_on("bo", Role::Technician);
    assert_eq!(bay.state(V, "lock-out"), StepState::Begun);
    assert_eq!(
        key(&bay.sign_off("tess", "bo"), &bay.card()),
        "refuse.foreman-only"
    );
    let forced = bay.force(
        "tess",
        Event::SignedOff {
            why: None,
            person: person("bo"),
        },
    );
    assert_eq!(bay.entry(&forced).though, Some(Though::NotTheirs));
    assert_eq!(
        bay.state(V, "lock-out"),
        StepState::Begun,
        "his tag is still waited for"
    );
    bay.sign_on("fay", Role::Foreman);
    bay.sign_off("fay", "bo").unwrap();
    assert_eq!(bay.state(V, "lock-out"), StepState::Done);
    assert_eq!(bay.tag("bo"), Err(Refusal::from(Hold::SignOn)));
    assert_eq!(
        key(&bay.sign_off("tess", "tess"), &bay.card()),
        "refuse.tag-on"
    );
}

#[test]
fn damage_holds_the_card_and_marks_no_line_that_counts() {
    let mut bay = Bay::raised();
    let texts: Vec<String> = bay.trail.all().map(|line| line.text().to_owned()).collect();
    let texts = texts.iter().map(String::as_str).chain(["rubbish"]);
    bay.trail = crate::trail::Trail::read("card-1".into(), texts);
    let card = bay.card();
    assert!(card.entries.iter().all(|entry| entry.though.is_none()));
    assert!(matches!(
        hold::of_trail(&card),
        Some(Hold::Damaged(TrailFault::Aside { .. }))
    ));
    let refused = bay.say("tess", L2, "tyres", "state", choose("core-out"));
    assert_eq!(key(&refused, &card), "hold.damaged");
    assert!(summary(&card).look_at);
}

#[test]
fn a_newer_kind_that_must_be_understood_holds_the_card() {
    let mut bay = Bay::open();
    let line = bay.trail.in_order().last().copied().cloned().unwrap();
    let newer = |old: &str, n: u32, before: Sha| {
        let json = line.text().split_once(' ').unwrap().1;
        let mut value: serde_json::Value = serde_json::from_str(json).unwrap();
        value["n"] = n.into();
        value["tick"] = n.into();
        value["before"] = before.to_string().into();
        value["old"] = old.into();
        value["kind"] = "sealed".into();
        let json = value.to_string();
        Line::read(&format!("{} {json}", Sha::of(json.as_bytes()))).unwrap()
    };
    let may = newer("may", line.n + 1, line.sha);
    bay.trail.take_in(may.clone());
    assert_eq!(bay.trail.faults(), []);
    assert_eq!(hold::of_trail(&bay.card()), None);
    let refused = bay.strike("tess", &may.reference(), Some("no"));
    assert_eq!(key(&refused, &bay.card()), "refuse.cannot-strike");
    bay.trail.take_in(newer("must", line.n + 2, may.sha));
    let kind = "sealed".to_owned();
    assert_eq!(hold::of_trail(&bay.card()), Some(Hold::Newer { kind }));
    assert!(bay.say("tess", V, "chocks", "wheels", wheels(1)).is_err());
}

// Passing a hold.

#[test]
fn only_a_foreman_passes_and_never_what_protects() {
    let mut bay = Bay::open();
    bay.chocked();
    bay.fact("tess", V, "coupled", choice("coupled")).unwrap();
    assert_eq!(
        bay.tag("tess"),
        Err(Refusal::from(not_yet("as-found", V, false)))
    );
    let why = "air lines torn off";
    assert_eq!(
        key(
            &bay.pass("tess", V, "lock-out", "as-found", why),
            &bay.card()
        ),
        "refuse.foreman-only"
    );
    let passing = |step: &str, first: &str| Event::HoldPassed {
        at: V,
        step: step.into(),
        first: first.into(),
        why: why.to_owned(),
    };
    let forced = bay.force("tess", passing("lock-out", "as-found"));
    assert_eq!(bay.entry(&forced).though, Some(Though::NotTheirs));
    assert_eq!(
        bay.tag("tess"),
        Err(Refusal::from(not_yet("as-found", V, false)))
    );
    bay.sign_on("fay", Role::Foreman);
    assert_eq!(
        key(
            &bay.pass("fay", V, "lock-out", "as-found", "  "),
            &bay.card()
        ),
        "refuse.reason-missing"
    );
    assert_eq!(
        key(
            &bay.pass("fay", V, "lock-out", "as-found", &"x".repeat(401)),
            &bay.card()
        ),
        "setup.text-too-long"
    );
    assert_eq!(
        key(&bay.pass("fay", V, "lock-out", "chocks", why), &bay.card()),
        "refuse.cannot-pass"
    );
    assert_eq!(
        key(&bay.pass("fay", V, "lock-out", "raise", why), &bay.card()),
        "refuse.cannot-pass"
    );
    assert_eq!(
        key(
            &bay.pass("fay", V, "lock-out", "lock-out", why),
            &bay.card()
        ),
        "refuse.cannot-pass"
    );
    assert_eq!(
        key(&bay.pass("fay", V, "nothing", "as-found", why), &bay.card()),
        "hold.not-on-path"
    );
    bay.pass("fay", V, "lock-out", "as-found", why).unwrap();
    bay.tag("tess").unwrap();
    let forced = bay.force("fay", passing("drive", "chocks-out"));
    assert_eq!(
        bay.entry(&forced).though,
        Some(Though::Held(not_yet("chocks-out", V, true)))
    );
    assert_eq!(
        hold::first_hold(&bay.card(), &"drive".into(), V),
        Some(not_yet("chocks-out", V, true))
    );
}

// People.

#[test]
fn an_apprentice_presses_with_somebody_beside() {
    let mut bay = Bay::open();
    bay.sign_on("ann", Role::Apprentice);
    bay.sign_on("art", Role::Apprentice);
    let say = |bay: &mut Bay, ask: &str, answer: Answer, beside: Option<&str>| {
        let proof = bay.may("ann", V, "chocks", ask, Item::Only)?;
        let proof = proof.beside(beside.map(person));
        let draft = act::take(&bay.card(), proof, answer, &Units::METRIC)?;
        Ok(bay.keep("ann", vec![draft]))
    };
    for beside in [None, Some("ann"), Some("art"), Some("nobody")] {
        let refused = say(&mut bay, "set", press("both-ways"), beside);
        assert_eq!(key(&refused, &bay.card()), "refuse.beside", "{beside:?}");
        bay.force(
            "ann",
            Event::Answered {
                at: V,
                step: "chocks".into(),
                ask: "set".into(),
                item: Item::Only,
                answer: press("both-ways"),
                beside: beside.map(person),
                judged: Vec::new(),
            },
        );
        assert_eq!(bay.state(V, "chocks"), StepState::Begun, "{beside:?}");
    }
    say(&mut bay, "set", press("both-ways"), Some("tess")).unwrap();
    assert_eq!(bay.state(V, "chocks"), StepState::Begun);
    let alone = say(&mut bay, "wheels", wheels(1), None);
    assert_eq!(key(&alone, &bay.card()), "refuse.beside");
    say(&mut bay, "wheels", wheels(1), Some("tess")).unwrap();
    assert_eq!(bay.state(V, "chocks"), StepState::Done);
}

#[test]
fn every_person_who_works_hangs_a_tag_of_their_own() {
    let mut bay = Bay::open();
    bay.sign_on("bo", Role::Technician);
    bay.secured();
    assert_eq!(bay.state(V, "lock-out"), StepState::Begun);
    let held = hold::first_hold(&bay.card(), &"stands".into(), A2);
    assert_eq!(held, Some(not_yet("lock-out", V, true)));
    let forged = bay.answer(
        "tess",
        V,
        "lock-out",
        "tags",
        Item::Person("bo".into()),
        press("tag-on"),
    );
    assert_eq!(key(&forged, &bay.card()), "hold.own-press");
    let for_all = bay.say("tess", V, "lock-out", "tags", press("tag-on"));
    assert_eq!(key(&for_all, &bay.card()), "refuse.wrong-kind");
    bay.tag("bo").unwrap();
    assert_eq!(bay.state(V, "lock-out"), StepState::Done);
    bay.up();
    bay.sign_on("cy", Role::Technician);
    let held = hold::first_hold(&bay.card(), &"raise".into(), A2);
    assert_eq!(
        held,
        Some(not_yet("lock-out", V, true)),
        "who comes later hangs one too"
    );
    bay.tag("cy").unwrap();
    assert_eq!(hold::first_hold(&bay.card(), &"raise".into(), A2), None);
}

#[test]
fn a_foreman_who_only_looks_is_not_waited_for() {
    let mut bay = Bay::open();
    bay.sign_on("fay", Role::Foreman);
    bay.secured();
    assert_eq!(bay.state(V, "lock-out"), StepState::Done);
    bay.fact("tess", A2, "rim", choice("one-piece")).unwrap();
    bay.say("fay", L2, "tyres", "state", choose("no-damage"))
        .unwrap();
    assert_eq!(bay.state(V, "lock-out"), StepState::Begun);
    bay.tag("fay").unwrap();
    assert_eq!(bay.state(V, "lock-out"), StepState::Done);
}

#[test]
fn a_foreman_alone_can_do_it_all() {
    let mut bay = Bay::empty();
    let drafts = act::open_card(bay.procedures.newest(), "0.1.0", &setup(&[2])).unwrap();
    bay.keep("fay", drafts);
    bay.sign_on("fay", Role::Foreman);
    bay.say("fay", V, "chocks", "wheels", wheels(1)).unwrap();
    bay.say("fay", V, "chocks", "set", press("both-ways"))
        .unwrap();
    for end in [L2, R2] {
        bay.say("fay", end, "as-found", "applied", reading("1 7/8", "in"))
            .unwrap();
    }
    bay.fact("fay", V, "coupled", choice("coupled")).unwrap();
    bay.tag("fay").unwrap();
    bay.fact("fay", A2, "rim", choice("one-piece")).unwrap();
    for end in [L2, R2] {
        bay.say("fay", end, "tyres", "state", choose("no-damage"))
            .unwrap();
    }
    let secure = &bay.procedures.newest().stages[0];
    for step in &secure.steps {
        for at in bay.card().places(step.scope, V) {
            assert_eq!(
                bay.card().state(step, at),
                StepState::Done,
                "{} {at}",
                step.id
            );
        }
    }
    // With everybody else gone home, the foreman can still hang the one tag there is.
    let mut bay = Bay::open();
    bay.chocked();
    bay.skip("tess", V, "as-found", "no-air").unwrap();
    bay.sign_on("fay", Role::Foreman);
    bay.fact("fay", V, "coupled", choice("coupled")).unwrap();
    bay.sign_off("tess", "tess").unwrap();
    assert_eq!(
        bay.state(V, "lock-out"),
        StepState::Begun,
        "the fact is given, no tag is on"
    );
    bay.tag("fay").unwrap();
    assert_eq!(bay.state(V, "lock-out"), StepState::Done);
}

#[test]
fn nobody_looks_at_their_own_work() {
    let mut bay = Bay::raised();
    bay.sign_on("fay", Role::Foreman);
    bay.fact("tess", A2, "rim", choice("one-piece")).unwrap();
    bay.fact("tess", A2, "studs", FactValue::Count(2)).unwrap();
    let refused = bay.say("tess", L2, "second-look", "look", look(true));
    assert_eq!(key(&refused, &bay.card()), "hold.foreman-looks");
    bay.say("fay", R2, "tyres", "state", choose("core-out"))
        .unwrap();
    bay.tag("fay").unwrap();
    let refused = bay.say("fay", R2, "second-look", "look", look(true));
    assert_eq!(key(&refused, &bay.card()), "hold.own-work");
    let without_why = Answer::Look {
        accepted: false,
        why: Some(" ".to_owned()),
        seen: None,
        again: Vec::new(),
    };
    let refused = bay.say("fay", L2, "second-look", "look", without_why);
    assert_eq!(key(&refused, &bay.card()), "refuse.reason-missing");
    bay.say("fay", L2, "second-look", "look", look(false))
        .unwrap();
    assert_eq!(bay.state(L2, "second-look"), StepState::Unclear);
    bay.say("fay", L2, "second-look", "look", look(true))
        .unwrap();
    assert_eq!(bay.state(L2, "second-look"), StepState::Done);
    let forged = bay.force("tess", answered(R2, "second-look", "look", look(true)));
    assert_eq!(
        bay.entry(&forged).though,
        Some(Though::Held(Hold::ForemanLooks))
    );
    // A look is no work: who looked at an end may look at it again.
    assert!(
        bay.say("fay", L2, "second-look", "look", look(true))
            .is_ok()
    );
}

// The rest.

#[test]
fn what_was_judged_then_is_kept_word_for_word() {
    let mut bay = Bay::raised();
    let then = JudgedThen {
        rule: "support.stands".to_owned(),
        edition: "an old one".to_owned(),
        verdict: "within".to_owned(),
        reading: None,
        limits: Vec::new(),
        room: None,
        source: "a letter".to_owned(),
        remarks: vec!["said.then".to_owned()],
    };
    let line = bay.force(
        "tess",
        Event::Answered {
            at: A2,
            step: "stands".into(),
            ask: "stands".into(),
            item: Item::Only,
            answer: stands("40000", "lb", TagBasis::PerStand),
            beside: None,
            judged: vec![then.clone()],
        },
    );
    let kept = |bay: &Bay| match bay.entry(&line).event() {
        Some(Event::Answered { judged, .. }) => judged.clone(),
        other => panic!("{other:?}"),
    };
    assert_eq!(kept(&bay), std::slice::from_ref(&then));
    assert_eq!(bay.state(A2, "stands"), StepState::Done);
    // A heavier unit changes what is judged now, not what was judged then.
    bay.fact("tess", A2, "group-weight", FactValue::NotKnown)
        .unwrap();
    bay.fact("tess", V, "unit-weight", lb("130000")).unwrap();
    assert_eq!(kept(&bay), [then]);
    assert_eq!(bay.state(A2, "stands"), StepState::Unclear);
}

#[test]
fn what_was_too_small_then_does_not_become_enough() {
    let mut bay = Bay::raised();
    let card = bay.card();
    let Some(Event::Answered { judged, .. }) = card.entries.iter().find_map(|entry| {
        entry.event().filter(
            |event| matches!(event, Event::Answered { step, .. } if step.as_str() == "stands"),
        )
    }) else {
        panic!("no stands");
    };
    let mut judged = judged.clone();
    judged[0].verdict = "beyond".to_owned();
    bay.force(
        "tess",
        Event::Answered {
            at: A2,
            step: "stands".into(),
            ask: "stands".into(),
            item: Item::Only,
            answer: stands("40000", "lb", TagBasis::PerStand),
            beside: None,
            judged,
        },
    );
    assert_eq!(bay.state(A2, "stands"), StepState::Unclear);
}

/// The small procedure with one more `!` step at the end of its first stage.
fn second_edition() -> String {
    let mut value: serde_json::Value = serde_json::from_str(SMALL).unwrap();
    value["edition"] = "2".into();
    let step = serde_json::json!({
        "id": "prop", "scope": "V", "holds": [{"on": {"stage": "lift"}, "protects": true}],
        "asks": [{"id": "out", "kind": {"press": {"answers": [{"id": "out"}]}}}]
    });
    value["stages"][0]["steps"]
        .as_array_mut()
        .unwrap()
        .push(step);
    value.to_string()
}

#[test]
fn a_card_keeps_its_procedure_until_it_is_moved() {
    let newer = second_edition();
    let mut bay = Bay::open();
    bay.secured();
    let old_app = bay.procedures.clone();
    bay.procedures = Procedures::read([SMALL], &newer).unwrap();
    let first = Procedure::read(SMALL).unwrap();
    assert_eq!(bay.card().procedure.unwrap().pin, first.pin);
    let newest = bay.procedures.newest().clone();
    let offered: Vec<&str> = first
        .protecting_steps_new_in(&newest)
        .iter()
        .map(|step| step.id.as_str())
        .collect();
    assert_eq!(offered, ["prop"]);
    assert_eq!(hold::first_hold(&bay.card(), &"jack".into(), A2), None);
    let moved = act::move_procedure(&bay.card(), &person("tess"), &newest).unwrap();
    bay.keep("tess", vec![moved]);
    assert_eq!(bay.card().procedure.as_ref().unwrap().pin, newest.pin);
    assert_eq!(
        bay.state(V, "lock-out"),
        StepState::Done,
        "what was done stays done"
    );
    assert_eq!(
        hold::first_hold(&bay.card(), &"jack".into(), A2),
        Some(not_yet("prop", V, true))
    );
    // Nobody gets rid of the new step by going back.
    let back = act::move_procedure(&bay.card(), &person("tess"), &first).unwrap();
    bay.keep("tess", vec![back]);
    assert_eq!(bay.card().procedure.as_ref().unwrap().pin, newest.pin);
    // An app that does not carry the newer one does nothing, and blames nobody.
    bay.procedures = old_app;
    let card = bay.card();
    assert_eq!(hold::of_trail(&card), Some(Hold::UnknownProcedure));
    assert!(card.entries.iter().all(|entry| entry.though.is_none()));
    assert_eq!(bay.tag("tess"), Err(Refusal::from(Hold::UnknownProcedure)));
    assert_eq!(card.path(), []);
}

#[test]
fn a_card_without_a_first_line_takes_nothing() {
    let mut bay = Bay::empty();
    bay.sign_on("tess", Role::Technician);
    let refused = bay.say("tess", V, "chocks", "wheels", wheels(1));
    assert_eq!(key(&refused, &bay.card()), "hold.not-opened");
}

#[test]
fn the_row_of_the_cards_list() {
    let mut bay = Bay::with_axles(&[3, 2, 3]);
    let row = summary(&bay.card());
    assert_eq!(
        (row.unit.as_str(), row.layout.as_deref(), &row.in_hand[..]),
        ("Heron 12", Some("1-2"), &[2, 3][..])
    );
    assert_eq!(row.vehicle, Some("truck".into()));
    assert_eq!(row.opened, Some(bay.now));
    assert_eq!(row.stage, Some("secure".into()));
    assert_eq!((row.done, row.of), (0, 5 + 2 * 3 + 4 * 9));
    assert!(!row.look_at);
    bay.wait(30);
    bay.secured();
    let row = summary(&bay.card());
    assert_eq!(row.done, 3);
    assert_eq!(row.last, Some(bay.now));
    let back: crate::summary::Summary =
        serde_json::from_str(&serde_json::to_string(&row).unwrap()).unwrap();
    assert_eq!(back, row);
}

#[test]
fn the_path_walks_a_wheel_end_at_a_time() {
    let bay = Bay::with_axles(&[2, 3]);
    let card = bay.card();
    let path: Vec<String> = card
        .path()
        .iter()
        .map(|(at, step)| format!("{at} {}", step.id))
        .collect();
    let at = |text: &str| path.iter().position(|one| one == text).expect(text);
    assert_eq!(at("E2L nuts-off") + 1, at("E2L hoses"));
    assert!(at("E2L drum") < at("E2R nuts-off"));
    assert!(at("E3R drum") < at("E2L hang"));
    assert_eq!(at("A2 stands") + 1, at("A3 stands"));
    assert_eq!(
        card.next_open().map(|(at, step)| (at, step.id.as_str())),
        Some((V, "chocks"))
    );
    assert_eq!(card.group_first(3), 2);
    assert_eq!(
        card.places(crate::procedure::Scope::Group, A3.ends_of()[0]),
        [A2]
    );
}

impl Place {
    fn ends_of(self) -> [Self; 2] {
        Self::ends(self.axle().unwrap())
    }
}

#[test]
fn a_step_for_other_vehicles_is_not_on_the_path() {
    let mut value: serde_json::Value = serde_json::from_str(SMALL).unwrap();
    value["stages"][1]["steps"][1]["when"] = serde_json::json!({"suspension": ["own-springs"]});
    let mut bay = Bay::empty();
    bay.procedures = Procedures::read([], &value.to_string()).unwrap();
    let drafts = act::open_card(bay.procedures.newest(), "0.1.0", &setup(&[2])).unwrap();
    bay.keep("tess", drafts);
    bay.sign_on("tess", Role::Technician);
    bay.secured();
    assert_eq!(
        bay.state(A2, "jack"),
        StepState::Open,
        "nobody has said which it is"
    );
    bay.fact("tess", V, "suspension", choice("air")).unwrap();
    assert_eq!(bay.state(A2, "jack"), StepState::NotOnPath);
    let refused = bay.say("tess", A2, "jack", "rating", reading("20", "short-ton"));
    assert_eq!(key(&refused, &bay.card()), "hold.not-on-path");
    assert!(
        bay.card()
            .path()
            .iter()
            .all(|(_, step)| step.id.as_str() != "jack")
    );
    bay.fact("tess", V, "suspension", choice("own-springs"))
        .unwrap();
    assert_eq!(bay.state(A2, "jack"), StepState::Open);
}

#[test]
fn a_wheel_end_is_somebodys() {
    let mut bay = Bay::open();
    let draft = act::take_end(&bay.card(), &person("tess"), L2).unwrap();
    let line = bay.keep("tess", vec![draft]);
    assert_eq!(bay.card().has(L2), Some(&person("tess")));
    bay.strike("tess", &line, None).unwrap();
    assert_eq!(bay.card().has(L2), None);
    assert!(act::take_end(&bay.card(), &person("zoe"), L2).is_err());
}

mod foreign {
    use proptest::prelude::*;

    use super::*;

    /// Something that a tablet may have written without asking anybody.
    fn event() -> impl Strategy<Value = Event> {
        let at = prop::sample::select(vec![V, A2, A3, L2, R2, L3]);
        let offered = prop::sample::select(vec![
            ("chocks", "wheels", wheels(1)),
            ("chocks", "set", press("both-ways")),
            ("as-found", "applied", reading("2", "in")),
            ("lock-out", "tags", press("tag-on")),
            ("tyres", "state", choose("core-out")),
            (
                "stands",
                "stands",
                stands("40000", "lb", TagBasis::PerStand),
            ),
            ("jack", "rating", reading("50000", "lb")),
            ("raise", "up", press("on-stands")),
            ("drum", "seen", choose("replace")),
            ("hang", "hung", lines()),
            ("second-look", "look", look(true)),
            ("chocks-out", "out", press("out")),
        ]);
        let item = prop::sample::select(vec![Item::Only, Item::Person("tess".into())]);
        let answer = (at.clone(), offered, item).prop_map(|(at, (step, ask, answer), item)| {
            Event::Answered {
                at,
                step: step.into(),
                ask: ask.into(),
                item,
                answer,
                beside: None,
                judged: Vec::new(),
            }
        });
        let facts = prop::sample::select(vec![
            fact(V, "coupled", choice("coupled")),
            fact(V, "suspension", choice("air")),
            fact(A2, "group-weight", lb("30000")),
            fact(V, "unit-weight", lb("40000")),
            fact(A2, "rim", choice("multi-piece")),
            fact(V, "in-hand", FactValue::Axles(vec![3])),
        ]);
        let skip = at.prop_map(|at| Event::StepSkipped {
            at,
            step: "as-found".into(),
            why: "no-air".into(),
        });
        prop_oneof![4 => answer, 2 => facts, 1 => skip]
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(48))]

        /// What the fold says of a line is what its writer would have been told.
        #[test]
        fn the_fold_marks_what_would_have_been_held(
            all in prop::collection::vec((event(), prop::sample::select(vec!["tess", "bo", "zoe"])), 1..25),
        ) {
            let mut bay = Bay::open();
            bay.sign_on("bo", Role::Apprentice);
            let mut told = Vec::new();
            for (event, who) in all {
                let card = bay.card();
                let held = event.step().and_then(|(at, step)| {
                    hold::first_hold(&card, step, at)
                        .or_else(|| hold::of_person(&card, &person(who), at, &event))
                });
                told.push((bay.force(who, event), held));
            }
            let card = bay.card();
            for (line, held) in told {
                let entry = card.entry(&line).unwrap();
                prop_assert_eq!(&entry.though, &held.map(Though::Held), "{:?}", entry);
            }
        }
    }
}

#[test]
fn stands_that_turn_out_too_small_stop_what_follows() {
    let mut bay = Bay::raised();
    assert_eq!(bay.state(A2, "stands"), StepState::Done);
    bay.fact("tess", V, "unit-weight", FactValue::NotKnown)
        .unwrap();
    bay.fact("tess", A2, "group-weight", lb("90000")).unwrap();
    assert_eq!(bay.state(A2, "stands"), StepState::Unclear);
    let card = bay.card();
    assert_eq!(
        hold::first_hold(&card, &"second-look".into(), L2),
        Some(Hold::Stopped {
            first: "stands".into(),
            at: A2
        })
    );
}

#[test]
fn a_weight_read_for_the_other_state_of_load_is_forgotten() {
    let mut bay = Bay::open();
    bay.fact("tess", V, "unit-weight", lb("60000")).unwrap();
    let weight = "unit-weight".into();
    assert!(bay.card().fact(V, &weight).is_some());
    bay.fact("tess", V, "loaded", choice("unloaded")).unwrap();
    assert_eq!(bay.card().fact(V, &weight), None);
    // Said again the same, it stays.
    bay.fact("tess", V, "unit-weight", lb("20000")).unwrap();
    bay.fact("tess", V, "loaded", choice("unloaded")).unwrap();
    assert!(bay.card().fact(V, &weight).is_some());
}

#[test]
fn with_every_axle_in_hand_no_wheel_can_be_chocked() {
    let bay = Bay::with_axles(&[1, 2, 3]);
    assert_eq!(bay.card().wheels_to_chock(), []);
    assert!(!bay.card().stays_down(L2));
}

// A look after a gap.

const GAP: i64 = 5 * 3600;

fn came_back(but: &[&str], beside: Option<&str>) -> Event {
    Event::CameBack {
        but: but.iter().map(|one| (*one).into()).collect(),
        beside: beside.map(person),
    }
}

/// Stripped at one end, a foreman and an apprentice there.
fn before_the_gap() -> Bay {
    let mut bay = Bay::raised();
    bay.sign_on("fay", Role::Foreman);
    bay.sign_on("ann", Role::Apprentice);
    bay.tag_beside("ann", "tess");
    bay.stripped("tess", L2);
    bay
}

fn to_look_at(bay: &Bay) -> Vec<String> {
    let card = bay.card();
    let asked = card.to_look_at(bay.now);
    asked.into_iter().map(ToString::to_string).collect()
}

#[test]
fn after_four_hours_what_keeps_the_vehicle_is_looked_at_first() {
    let mut bay = before_the_gap();
    bay.wait(4 * 3600);
    assert_eq!(to_look_at(&bay), [""; 0], "four hours are no gap yet");
    let early = bay.come_back("tess", &[], None);
    assert_eq!(key(&early, &bay.card()), "refuse.not-offered");
    bay.wait(1);
    assert_eq!(to_look_at(&bay), ["chocks", "stands", "tags"]);
    let refused = bay.say("tess", L2, "hang", "hung", lines());
    assert_eq!(key(&refused, &bay.card()), "hold.came-back");
    let refused = bay.skip("tess", V, "drive", "not-to-be-driven");
    assert_ne!(key(&refused, &bay.card()), "taken");
    bay.come_back("tess", &[], None).unwrap();
    assert_eq!(to_look_at(&bay), [""; 0]);
    bay.say("tess", L2, "hang", "hung", lines()).unwrap();
    // What no longer keeps it is not asked after; before anything does, nothing is.
    let mut bay = Bay::open();
    bay.say("tess", V, "chocks", "wheels", wheels(1)).unwrap();
    bay.wait(GAP);
    assert_eq!(to_look_at(&bay), [""; 0]);
    bay.say("tess", V, "chocks", "set", press("both-ways"))
        .unwrap();
    bay.wait(GAP);
    assert_eq!(to_look_at(&bay), ["chocks"]);
}

#[test]
fn who_may_say_that_all_is_as_it_was_left() {
    let rows = [
        ("tess", None, "taken"),
        ("ann", Some("tess"), "taken"),
        ("ann", None, "refuse.beside"),
        ("ann", Some("ann"), "refuse.beside"),
        ("ann", Some("zoe"), "refuse.beside"),
        ("ann", Some("bo"), "refuse.beside"),
        ("zoe", None, "hold.sign-on"),
        ("bo", None, "hold.sign-on"),
    ];
    for (who, beside, expected) in rows {
        let mut bay = before_the_gap();
        bay.sign_on("bo", Role::Technician);
        bay.sign_off("fay", "bo").unwrap();
        bay.wait(GAP);
        let result = bay.come_back(who, &[], beside);
        let got = result
            .map(|_| ())
            .map_err(|refusal| refusal.words(&bay.card()).key);
        assert_eq!(
            got.err().unwrap_or("taken".to_owned()),
            expected,
            "{who} {beside:?}"
        );
        // From a tablet that asks nothing it has no effect either.
        if expected != "taken" {
            let forged = bay.force(who, came_back(&[], beside));
            assert_eq!(bay.entry(&forged).though, Some(Though::NotTheirs), "{who}");
            assert_eq!(to_look_at(&bay).len(), 3, "{who}");
        }
    }
}

#[test]
fn what_is_not_as_left_stops_the_vehicle_until_it_is_put_right() {
    let mut bay = before_the_gap();
    bay.wait(GAP);
    let unknown = bay.come_back("tess", &["mirror"], None);
    assert_eq!(key(&unknown, &bay.card()), "refuse.not-offered");
    let line = bay.come_back("tess", &["chocks"], None).unwrap();
    assert_eq!(bay.state(V, "chocks"), StepState::Open);
    for (step, at) in [("hang", L2), ("nuts-off", R2), ("jack", A2)] {
        let held = hold::first_hold(&bay.card(), &step.into(), at);
        let expected = Hold::Stopped {
            first: "chocks".into(),
            at: V,
        };
        assert_eq!(held, Some(expected), "{step} {at}");
    }
    let refused = bay.strike("tess", &line, Some("they are there"));
    assert_eq!(key(&refused, &bay.card()), "refuse.cannot-strike");
    bay.chocked();
    assert_eq!(hold::first_hold(&bay.card(), &"hang".into(), L2), None);
    // What hung before is not marked for it.
    assert!(
        bay.card()
            .entries
            .iter()
            .all(|entry| entry.though.is_none())
    );
}

#[test]
fn work_over_a_gap_is_marked_and_does_not_close_it() {
    let mut bay = before_the_gap();
    let mut other = bay.other_tablet("tablet-x");
    other.wait(GAP);
    let event = answered(R2, "hoses", "pieces", Answer::Count { count: 3 });
    let forged = other.force("tess", event.clone());
    bay.wait(GAP + 600);
    bay.trail.merge(&other.trail);
    let marked = Some(Though::Held(Hold::CameBack));
    assert_eq!(bay.entry(&forged).though, marked);
    // The look is still wanted: nobody has looked.
    assert_eq!(to_look_at(&bay).len(), 3);
    let again = bay.force("tess", event.clone());
    assert_eq!(bay.entry(&again).though, marked);
    bay.come_back("tess", &[], None).unwrap();
    let after = bay.force("tess", event);
    assert_eq!(bay.entry(&after).though, None);
    assert_eq!(bay.entry(&forged).though, marked, "it stays marked");
}

#[test]
fn taking_an_answer_back_makes_no_gap_of_the_time_it_was_given_at() {
    let mut bay = before_the_gap();
    bay.wait(3 * 3600);
    let early = bay.say("tess", R2, "hoses", "found", in_order()).unwrap();
    bay.wait(3 * 3600);
    let late = bay.say("tess", R2, "nuts-off", "nuts", in_order()).unwrap();
    bay.strike("tess", &early, Some("other end")).unwrap();
    assert_eq!(bay.entry(&late).though, None);
}

#[test]
fn a_clock_that_runs_ahead_does_not_hide_a_gap() {
    let mut bay = before_the_gap();
    let mut other = bay.other_tablet("tablet-x");
    other.wait(2 * 24 * 3600);
    other.come_back("tess", &[], None).unwrap();
    bay.trail.merge(&other.trail);
    assert_eq!(to_look_at(&bay), [""; 0], "nothing was long ago here");
    bay.wait(GAP);
    assert_eq!(to_look_at(&bay).len(), 3);
    // A few minutes do not matter.
    let mut other = bay.other_tablet("tablet-y");
    other.wait(600);
    other.come_back("tess", &[], None).unwrap();
    bay.trail.merge(&other.trail);
    assert_eq!(to_look_at(&bay), [""; 0]);
}

#[test]
fn a_look_on_one_tablet_counts_for_the_vehicle() {
    let mut one = before_the_gap();
    let mut two = one.other_tablet("tablet-b");
    one.wait(GAP);
    two.wait(GAP + 60);
    one.come_back("tess", &["stands"], None).unwrap();
    // It had not seen that the stands are not as left.
    two.come_back("tess", &[], None).unwrap();
    two.say("tess", A2, "raise", "up", press("on-stands"))
        .unwrap();
    one.trail.merge(&two.trail);
    assert_eq!(one.state(A2, "raise"), StepState::Open);
    assert!(matches!(
        hold::first_hold(&one.card(), &"hang".into(), L2),
        Some(Hold::Stopped { .. })
    ));
    one.say("tess", A2, "raise", "up", press("on-stands"))
        .unwrap();
    assert_eq!(hold::first_hold(&one.card(), &"hang".into(), L2), None);
}
