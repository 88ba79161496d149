use super::*;
use crate::act;
use crate::bay::{A2, Bay, L2, R2, SMALL, V, choice, choose, lb, lines, press};
use crate::event::{Event, FactValue, Item};

const SHIPPED: &str = include_str!("../../../../assets/procedure/s-cam-reline.json");

/// What giving a fact would change, as `weight place step what`.
fn told(bay: &Bay, at: Place, fact: &str, value: FactValue) -> Vec<String> {
    let [before, after] = ahead(bay, at, fact, value);
    changes(&before, &after)
        .iter()
        .map(|change| {
            let step = change.step.as_ref().map_or("-", StepId::as_str);
            format!("{:?} {} {step} {:?}", change.weight, change.at, change.what)
        })
        .collect()
}

/// The card, and the card with the fact given.
fn ahead(bay: &Bay, at: Place, fact: &str, value: FactValue) -> [Card; 2] {
    let draft = act::set_fact(&bay.card(), &"tess".into(), at, &fact.into(), value).unwrap();
    let (procedures, tablet) = (&bay.procedures, &bay.tablet);
    of_draft(
        &bay.trail,
        procedures,
        tablet,
        &"tess".into(),
        bay.stamp(),
        draft,
    )
}

/// A card of the shipped procedure, with answers written as they are, held or not.
fn shipped() -> Bay {
    let mut bay = Bay::empty();
    bay.procedures = Procedures::read([], SHIPPED).unwrap();
    let mut setup = crate::bay::setup(&[2]);
    setup.vehicle = Some("tractor".into());
    let drafts = act::open_card(bay.procedures.newest(), "0.1.0", &setup).unwrap();
    bay.keep("tess", drafts);
    bay.sign_on("tess", crate::event::Role::Technician);
    bay
}

fn write(bay: &mut Bay, at: Place, step: &str, ask: &str, answer: Answer) {
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

#[test]
fn the_same_value_again_changes_nothing() {
    let bay = Bay::raised();
    assert_eq!(told(&bay, V, "loaded", choice("loaded")), [""; 0]);
    assert_eq!(told(&bay, V, "suspension", choice("air")), [""; 0]);
    let card = bay.card();
    assert_eq!(changes(&card, &card), []);
}

#[test]
fn nothing_is_kept() {
    let bay = Bay::raised();
    let before = bay.trail.heads();
    assert!(!told(&bay, V, "loaded", choice("unloaded")).is_empty());
    assert_eq!(bay.trail.heads(), before);
}

#[test]
fn another_load_wants_the_weight_again_and_opens_the_stands() {
    assert_eq!(
        told(&Bay::raised(), V, "loaded", choice("unloaded")),
        [
            "Stops A2 stands Reopens",
            "Protects A2 stands Judged { ask: AskId(stands), rule: RuleId(\"support.three\"), then: Some(Within), now: Some(NoReading) }",
            "Other V - FactGoes(FactId(unit-weight))",
        ]
    );
}

#[test]
fn a_heavier_unit_is_judged_anew() {
    assert_eq!(
        told(&Bay::raised(), V, "unit-weight", lb("400000")),
        [
            "Stops A2 stands Reopens",
            "Protects A2 stands Judged { ask: AskId(stands), rule: RuleId(\"support.three\"), then: Some(Within), now: Some(Beyond) }",
            "Protects A2 stands AnswerFails(AskId(stands))",
        ]
    );
}

#[test]
fn a_weight_corrected_downwards_closes_what_it_had_opened() {
    let mut bay = Bay::raised();
    bay.fact("tess", V, "unit-weight", lb("400000")).unwrap();
    assert_eq!(
        told(&bay, V, "unit-weight", lb("40000")),
        [
            "Protects A2 stands Judged { ask: AskId(stands), rule: RuleId(\"support.three\"), then: Some(Beyond), now: Some(Within) }",
            "Protects A2 stands Done",
        ]
    );
}

#[test]
fn a_multi_piece_rim_opens_the_tyres_of_both_wheel_ends() {
    let mut bay = Bay::open();
    bay.secured();
    bay.fact("tess", A2, "rim", choice("one-piece")).unwrap();
    for end in [L2, R2] {
        bay.say("tess", end, "tyres", "state", choose("no-damage"))
            .unwrap();
    }
    assert_eq!(
        told(&bay, A2, "rim", choice("multi-piece")),
        [
            "Protects E2L tyres Reopens",
            "Protects E2R tyres Reopens",
            "Protects E2L tyres AnswerFails(AskId(state))",
            "Protects E2R tyres AnswerFails(AskId(state))",
        ]
    );
}

#[test]
fn a_multi_piece_rim_holds_what_did_not_wait_before() {
    let mut bay = Bay::open();
    bay.secured();
    bay.fact("tess", A2, "rim", choice("one-piece")).unwrap();
    assert_eq!(
        told(&bay, A2, "rim", choice("multi-piece")),
        ["Protects E2L tyres Holds", "Protects E2R tyres Holds"]
    );
    bay.fact("tess", A2, "rim", choice("multi-piece")).unwrap();
    assert_eq!(
        told(&bay, A2, "rim", choice("one-piece")),
        [
            "Protects E2L tyres HoldsNothing",
            "Protects E2R tyres HoldsNothing"
        ]
    );
}

#[test]
fn an_axle_comes_and_goes_as_a_whole() {
    let mut bay = Bay::open();
    bay.chocked();
    let both = FactValue::Axles(vec![2, 3]);
    assert_eq!(
        told(&bay, V, "in-hand", both.clone()),
        ["Protects A3 - AxleComes"]
    );
    bay.fact("tess", V, "in-hand", both).unwrap();
    assert_eq!(
        told(&bay, V, "in-hand", FactValue::Axles(vec![2])),
        ["Protects A3 - AxleLeaves"]
    );
    let with_chocked = FactValue::Axles(vec![1, 2, 3]);
    assert_eq!(
        told(&bay, V, "in-hand", with_chocked),
        [
            "Protects V chocks Reopens",
            "Protects A1 - AxleComes",
            "Protects V chocks AnswerFails(AskId(wheels))",
        ]
    );
}

#[test]
fn air_in_the_suspension_opens_what_was_let_out_of_none() {
    let mut bay = shipped();
    bay.fact("tess", V, "suspension", choice("own-springs"))
        .unwrap();
    write(&mut bay, V, "air-suspension", "air", press("none-fitted"));
    assert_eq!(
        told(&bay, V, "suspension", choice("air")),
        [
            "Protects V air-suspension Reopens",
            "Protects V air-suspension AnswerFails(AskId(air))",
        ]
    );
}

#[test]
fn a_spring_brake_that_is_there_after_all_is_caged() {
    let mut bay = shipped();
    bay.fact("tess", A2, "spring-brake", choice("none"))
        .unwrap();
    for end in [L2, R2] {
        write(&mut bay, end, "caging", "caged", press("none-fitted"));
    }
    assert_eq!(
        told(&bay, A2, "spring-brake", choice("removable-bolt")),
        [
            "Protects E2L caging Reopens",
            "Protects E2R caging Reopens",
            "Protects E2L caging AnswerFails(AskId(caged))",
            "Protects E2R caging AnswerFails(AskId(caged))",
            "Protects E2L caging Asked(AskId(spring-housing))",
            "Protects E2L caging Asked(AskId(bolt-tag))",
            "Protects E2L caging Asked(AskId(stands-out))",
            "Protects E2R caging Asked(AskId(spring-housing))",
            "Protects E2R caging Asked(AskId(bolt-tag))",
            "Protects E2R caging Asked(AskId(stands-out))",
        ]
    );
}

#[test]
fn another_mounting_asks_otherwise_inside_a_step_that_was_begun() {
    let mut bay = shipped();
    bay.fact("tess", A2, "mounting", choice("hub-piloted"))
        .unwrap();
    write(&mut bay, L2, "hang", "pilots", lines());
    assert_eq!(
        told(&bay, A2, "mounting", choice("spoke")),
        [
            "Other E2L hang Asked(AskId(spoke))",
            "Other E2L hang NotAsked(AskId(pilots))",
            "Other E2L hang NotAsked(AskId(turns))",
        ]
    );
}

#[test]
fn steps_come_on_to_the_path_and_leave_it() {
    let text = SMALL.replace(
        r#"{"id": "hoses", "scope": "E","#,
        r#"{"id": "hoses", "scope": "E", "when": {"rim": ["multi-piece"]},"#,
    );
    let mut bay = Bay::open();
    bay.procedures = Procedures::read([], &text).unwrap();
    bay.trail = Trail::new("card-1".into());
    let drafts = act::open_card(bay.procedures.newest(), "0.1.0", &crate::bay::setup(&[2]));
    bay.keep("tess", drafts.unwrap());
    bay.sign_on("tess", crate::event::Role::Technician);
    bay.fact("tess", A2, "rim", choice("one-piece")).unwrap();
    let came = told(&bay, A2, "rim", choice("multi-piece"));
    assert_eq!(
        came[2..],
        ["Other E2L hoses Comes", "Other E2R hoses Comes"],
        "{came:?}"
    );
    bay.fact("tess", A2, "rim", choice("multi-piece")).unwrap();
    write(
        &mut bay,
        L2,
        "hoses",
        "found",
        Answer::Exceptions { but: Vec::new() },
    );
    let left = told(&bay, A2, "rim", choice("one-piece"));
    assert_eq!(
        left[..2],
        [
            "Protects E2L tyres HoldsNothing",
            "Protects E2R tyres HoldsNothing"
        ]
    );
    assert_eq!(
        left[2..],
        [
            "Other E2L hoses Leaves { begun: true }",
            "Other E2R hoses Leaves { begun: false }"
        ]
    );
    bay.fact("tess", A2, "rim", choice("one-piece")).unwrap();
    // The chocks were never set, and what comes back done rests on them.
    assert_eq!(
        told(&bay, A2, "rim", choice("multi-piece")),
        [
            "Stops V chocks Holds",
            "Protects E2L tyres Holds",
            "Protects E2R tyres Holds",
            "Other E2R hoses Comes",
            "Other E2L hoses ComesDone",
        ]
    );
}

#[test]
fn a_chamber_of_another_class_is_unlike_its_mate_and_wants_another_look() {
    let bay = crate::hand_back::tests::ready();
    let in_the_way = |bay: &Bay, at: Place, class: &str| -> Vec<String> {
        let [before, after] = ahead(bay, at, "stroke-class", choice(class));
        let told = |change: &Change| {
            if let What::InTheWay(one) = &change.what {
                Some(format!("{} {}", one.words(&after).key, change.at))
            } else if let What::OutOfTheWay(one) = &change.what {
                Some(format!("no {} {}", one.words(&before).key, change.at))
            } else {
                None
            }
        };
        changes(&before, &after).iter().filter_map(told).collect()
    };
    assert_eq!(in_the_way(&bay, L2, "long"), ["way.unlike A2"]);
    assert_eq!(in_the_way(&bay, L2, "standard"), [""; 0]);
    let told_of_looks = told(&bay, L2, "stroke-class", choice("long"));
    assert!(
        told_of_looks.contains(&"Other E2L second-look Reopens".to_owned()),
        "{told_of_looks:?}"
    );
    let mut bay = bay;
    bay.fact("tess", L2, "stroke-class", choice("long"))
        .unwrap();
    assert_eq!(in_the_way(&bay, R2, "long"), ["no way.unlike A2"]);
}

#[test]
fn what_has_to_be_brought_follows_from_the_facts_of_every_axle() {
    let list = include_str!("../../../../assets/bring/s-cam-reline.json");
    let list = BringList::read(list).unwrap();
    let mut bay = shipped();
    let both = FactValue::Axles(vec![2, 3]);
    let told = |bay: &Bay, at: Place, fact: &str, value: FactValue| -> Vec<String> {
        let [before, after] = ahead(bay, at, fact, value);
        let told = of_bring_list(&before, &after, &ShopSheet::default(), &list);
        let of = |change: &Change| {
            if let What::Brings { title, count } = &change.what {
                format!("{} {count:?}", title.key)
            } else if let What::BringsNot { title } = &change.what {
                format!("no {}", title.key)
            } else {
                panic!("{change:?}")
            }
        };
        told.iter().map(of).collect()
    };
    let more = told(&bay, V, "in-hand", both.clone());
    assert!(
        more.contains(&"bring.drums Some((4, 4))".to_owned()),
        "{more:?}"
    );
    bay.fact("tess", V, "in-hand", both).unwrap();
    for axle in [A2, Place::Axle(3)] {
        bay.fact("tess", axle, "drum-new", choice("renewed"))
            .unwrap();
    }
    assert_eq!(
        told(&bay, A2, "drum-new", choice("kept")),
        ["bring.drum-gauge Some((1, 1))", "bring.drums Some((2, 2))"]
    );
    bay.fact("tess", A2, "drum-new", choice("kept")).unwrap();
    assert_eq!(
        told(&bay, A2, "drum-new", choice("renewed")),
        ["bring.drums Some((4, 4))", "no bring.drum-gauge"]
    );
}

#[test]
fn a_fact_of_an_axle_tells_of_that_axle_alone() {
    let mut bay = shipped();
    bay.fact("tess", V, "in-hand", FactValue::Axles(vec![2, 3]))
        .unwrap();
    for axle in [A2, Place::Axle(3)] {
        bay.fact("tess", axle, "spring-brake", choice("none"))
            .unwrap();
        for end in Place::ends(axle.axle().unwrap()) {
            write(&mut bay, end, "caging", "caged", press("none-fitted"));
        }
    }
    let told = told(
        &bay,
        Place::Axle(3),
        "spring-brake",
        choice("removable-bolt"),
    );
    assert!(told.iter().any(|one| one == "Protects E3R caging Reopens"));
    assert!(!told.iter().any(|one| one.contains("E2")), "{told:?}");
}
