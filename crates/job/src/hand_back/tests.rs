use super::{InTheWay, hand_back};
use crate::act;
use crate::bay::{A2, Bay, L2, R2, V, choice, choose, lines, look, reading, sent_back};
use crate::card::{Card, StepState};
use crate::event::{Event, FactValue, Item, LineState, Role};
use crate::hold::{Hold, first_hold};
use crate::id::Place;
use crate::judge::axle::differs;
use crate::procedures::Procedures;
use crate::words::Arg;

/// A short job from the chocks to the road check.
pub(crate) const TO_THE_ROAD: &str = include_str!("tests.json");

pub(crate) fn bay() -> Bay {
    let mut bay = Bay::empty();
    bay.procedures = Procedures::read([], TO_THE_ROAD).unwrap();
    let setup = crate::bay::setup(&[2]);
    let drafts = act::open_card(bay.procedures.newest(), "0.1.0", &setup).unwrap();
    bay.keep("tess", drafts);
    bay.sign_on("tess", Role::Technician);
    bay.sign_on("fay", Role::Foreman);
    bay
}

/// Like parts on both ends: a standard type 30, an arm of 5 1/2 in, linings FF, a clutch adjuster.
pub(crate) fn with_parts() -> Bay {
    let mut bay = bay();
    bay.fact("tess", A2, "adjuster-style", choice("clutch"))
        .unwrap();
    for at in [L2, R2] {
        let facts = [
            ("chamber-family", "clamp"),
            ("chamber-type", "t30"),
            ("stroke-class", "standard"),
            ("arm-length", "a5-5"),
            ("edge-normal", "f"),
            ("edge-hot", "f"),
        ];
        for (fact, option) in facts {
            bay.fact("tess", at, fact, choice(option)).unwrap();
        }
    }
    bay
}

pub(crate) fn worked(bay: &mut Bay) {
    bay.say("tess", V, "chocks", "set", lines()).unwrap();
    bay.say("tess", V, "as-found", "looked", lines()).unwrap();
    for at in [L2, R2] {
        bay.say("tess", at, "caging", "caged", lines()).unwrap();
        bay.say("tess", at, "drum", "seen", choose("sound"))
            .unwrap();
        bay.say("tess", at, "adjuster", "set-up", choose("right"))
            .unwrap();
    }
    bay.say("tess", A2, "kit", "same", lines()).unwrap();
}

pub(crate) fn measured(bay: &mut Bay, applied: [&str; 2]) {
    let asks = [
        ("engine", "off"),
        ("parking", "off"),
        ("heat", "cold"),
        ("application", "held"),
    ];
    for (ask, option) in asks {
        bay.say("tess", V, "as-left", ask, choose(option)).unwrap();
    }
    bay.say("tess", V, "as-left", "reservoir", reading("95", "psi"))
        .unwrap();
    for (at, applied) in [L2, R2].into_iter().zip(applied) {
        bay.say("tess", at, "as-left", "at-rest", reading("1", "in"))
            .unwrap();
        bay.say("tess", at, "as-left", "applied", reading(applied, "in"))
            .unwrap();
    }
}

/// Everything done, measured and looked at: strokes of 1 1/2 in against 2 in.
pub(crate) fn ready() -> Bay {
    let mut bay = with_parts();
    worked(&mut bay);
    measured(&mut bay, ["2 1/2", "2 1/2"]);
    for at in [L2, R2] {
        bay.say("fay", at, "second-look", "look", look(true))
            .unwrap();
    }
    bay
}

/// "rank key places > step: how it is cleared".
fn told(card: &Card) -> Vec<String> {
    hand_back(card)
        .iter()
        .map(|one| {
            let places: Vec<String> = one.places.iter().map(Place::to_string).collect();
            let step = one.step.as_ref().map_or("-", |step| step.as_str());
            let words = one.words(card);
            let key = words.key.trim_start_matches("way.").to_owned();
            let clear = one.cleared().key;
            let clear = clear.trim_start_matches("way.clear.").to_owned();
            format!(
                "{:?} {key} {} > {step}: {clear}",
                one.rank,
                places.join(",")
            )
        })
        .collect()
}

/// What is given, and what then stands in the way.
type Case = (&'static str, fn() -> Bay, &'static [&'static str]);

const CASES: &[Case] = &[
    (
        "an empty card can't be read",
        || {
            let mut bay = Bay::empty();
            bay.procedures = Procedures::read([], TO_THE_ROAD).unwrap();
            bay
        },
        &["Trail hold.not-opened V > -: trail"],
    ),
    (
        "nothing done",
        bay,
        &[
            "Protects not-done V > chocks: do",
            "Protects not-done-many E2L,E2R > caging: do",
            "NotDone not-done V > as-found: do",
            "NotDone not-done-many E2L,E2R > drum: do",
            "NotDone not-done-many E2L,E2R > adjuster: do",
            "NotDone not-done A2 > kit: do",
            "NotDone not-done V > as-left: do",
            "NotDone not-done V > low-speed: do",
            "Look look E2L > second-look: look",
            "Look look E2R > second-look: look",
        ],
    ),
    (
        "everything done but driven",
        ready,
        &["NotDone not-done V > low-speed: do"],
    ),
    (
        "work is done, nothing measured or looked at",
        || {
            let mut bay = with_parts();
            worked(&mut bay);
            bay
        },
        &[
            "NotDone not-done V > as-left: do",
            "NotDone not-done V > low-speed: do",
            "Look look E2L > second-look: look",
            "Look look E2R > second-look: look",
        ],
    ),
    (
        "a stroke too long on one end, at its limit on the other",
        || {
            let mut bay = with_parts();
            worked(&mut bay);
            measured(&mut bay, ["3 1/8", "3"]);
            bay
        },
        &[
            "NotRight beyond E2L > as-left: put-right",
            "NotDone not-done V > low-speed: do",
            "Look look E2L > second-look: look",
            "Look look E2R > second-look: look",
        ],
    ),
    (
        "a stroke at its limit",
        || {
            let mut bay = with_parts();
            worked(&mut bay);
            measured(&mut bay, ["3", "2 1/2"]);
            bay
        },
        &[
            "NotDone not-done V > low-speed: do",
            "Foreman foreman V > as-left: foreman",
            "Look look E2L > second-look: look",
            "Look look E2R > second-look: look",
        ],
    ),
    (
        "air is lost, and the bolt does not stand out far enough",
        || {
            let mut bay = ready();
            bay.say("tess", V, "air-up", "leak-on", reading("5", "psi"))
                .unwrap();
            let tag = FactValue::Typed(crate::bay::typed("3", "in"));
            bay.fact("tess", L2, "bolt-tag", tag).unwrap();
            bay.say("tess", L2, "caging", "stands-out", reading("2 15/16", "in"))
                .unwrap();
            bay
        },
        &[
            "NotRight beyond E2L > caging: put-right",
            "NotRight beyond V > air-up: put-right",
            "NotDone not-done V > low-speed: do",
            "Look look E2L > second-look: look",
            "Look look E2R > second-look: look",
        ],
    ),
    (
        "set up wrong, and another arm on that end",
        || {
            let mut bay = ready();
            bay.say("tess", R2, "adjuster", "set-up", choose("wrong"))
                .unwrap();
            bay.fact("tess", R2, "arm-length", choice("a6")).unwrap();
            bay
        },
        &[
            "NotRight not-right E2R > adjuster: put-right",
            "Unlike unlike A2 > adjuster: match",
            "NotDone not-done V > low-speed: do",
            "Look look E2L > second-look: look",
            "Look look E2R > second-look: look",
        ],
    ),
    (
        "a part found bad with its line, and lines of other kinds",
        || {
            let mut bay = with_parts();
            bay.say("tess", V, "chocks", "set", lines()).unwrap();
            bay.say("tess", V, "as-found", "looked", lines()).unwrap();
            for at in [L2, R2] {
                bay.say("tess", at, "caging", "caged", lines()).unwrap();
            }
            bay.say("tess", R2, "drum", "seen", choose("sound"))
                .unwrap();
            let answer = choose("replace");
            bay.say_with_line("tess", L2, "drum", "seen", answer)
                .unwrap();
            let boot = bay.find("tess", L2, "boot").unwrap();
            bay.tell("tess", &boot, LineState::SaidNo).unwrap();
            let seal = bay.find("tess", R2, "seal").unwrap();
            bay.tell("tess", &seal, LineState::SaidNo).unwrap();
            bay
        },
        &[
            "Protects line E2R > adjuster: said-no",
            "Line line E2L > adjuster: ask",
            "NotDone not-done-many E2L,E2R > adjuster: do",
            "NotDone not-done A2 > kit: do",
            "NotDone not-done V > as-left: do",
            "NotDone not-done V > low-speed: do",
            "Look look E2L > second-look: look",
            "Look look E2R > second-look: look",
        ],
    ),
    (
        "sent back, and not done again",
        || {
            let mut bay = with_parts();
            worked(&mut bay);
            measured(&mut bay, ["2 1/2", "2 1/2"]);
            bay.say("fay", L2, "second-look", "look", sent_back(&["adjuster"]))
                .unwrap();
            bay.say("fay", R2, "second-look", "look", look(true))
                .unwrap();
            bay
        },
        &[
            "NotDone not-done E2L > adjuster: do",
            "NotDone not-done V > low-speed: do",
            "Look look-sent-back E2L > second-look: do",
        ],
    ),
    (
        "an answer to a `!` taken back: what was built on it stands though",
        || {
            let mut bay = ready();
            let card = bay.card();
            let chocked = card.entries.iter().find(|entry| {
                matches!(entry.event(), Some(Event::Answered { step, .. }) if step.as_str() == "chocks")
            });
            let line = chocked.unwrap().line.clone();
            bay.strike("fay", &line, Some("they were not set")).unwrap();
            bay
        },
        &[
            "Protects taken-back V > chocks: say-again",
            "NotDone not-done V > low-speed: do",
            "Look look E2L > second-look: look",
            "Look look E2R > second-look: look",
            "Though though-many E2L,E2R > caging: though",
            "Though though-many E2L,E2R > drum: though",
            "Though though-many E2L,E2R > adjuster: though",
            "Though though A2 > kit: though",
            "Though though-many V,E2L,E2R > as-left: though",
            "Though though-many E2L,E2R > second-look: though",
        ],
    ),
    (
        "done by a tablet that asked nothing, and a step left out",
        || {
            let mut bay = with_parts();
            bay.skip("tess", V, "as-found", "no-air").unwrap();
            let answered = Event::Answered {
                at: L2,
                step: "caging".into(),
                ask: "caged".into(),
                item: Item::Only,
                answer: lines(),
                beside: None,
                judged: Vec::new(),
            };
            bay.force("tess", answered);
            bay
        },
        &[
            "Protects not-done V > chocks: do",
            "Protects not-done E2R > caging: do",
            "NotDone not-done-many E2L,E2R > drum: do",
            "NotDone not-done-many E2L,E2R > adjuster: do",
            "NotDone not-done A2 > kit: do",
            "NotDone not-done V > as-left: do",
            "NotDone not-done V > low-speed: do",
            "Look look E2L > second-look: look",
            "Look look E2R > second-look: look",
            "Though though E2L > caging: though",
            "Skipped skipped V > as-found: skipped",
        ],
    ),
];

#[test]
fn the_list_says_what_stands_in_the_way_worst_first() {
    for (why, given, expected) in CASES {
        assert_eq!(told(&given().card()), *expected, "{why}");
    }
}

#[test]
fn what_was_built_on_an_answer_is_good_again_once_that_is_given_anew() {
    let (_, given, _) = CASES
        .iter()
        .find(|(why, ..)| why.contains("taken back"))
        .unwrap();
    let mut bay = given();
    bay.say("tess", V, "chocks", "set", lines()).unwrap();
    let list = told(&bay.card());
    assert!(
        list.iter().all(|one| !one.starts_with("Though")),
        "{list:?}"
    );
    assert!(
        list.iter().any(|one| one.contains("look-changed")),
        "{list:?}"
    );
}

#[test]
fn a_reading_is_named_and_a_line_leads_to_its_work() {
    let mut bay = with_parts();
    worked(&mut bay);
    measured(&mut bay, ["3 1/8", "2 1/2"]);
    let card = bay.card();
    let list = hand_back(&card);
    assert_eq!(list[0].goes_to(&card), Some((V, &"as-left".into())));
    let words = list[0].words(&card);
    assert_eq!(
        words.arguments[0],
        ("ask", Arg::Key("ask.as-left.applied".to_owned()))
    );
    assert_eq!(words.arguments[1], ("place", Arg::Place(L2)));
}

#[test]
fn unlike_ends_lead_to_a_wheel_end_and_hold_the_chocks_too() {
    let mut bay = ready();
    bay.fact("tess", R2, "arm-length", choice("a6")).unwrap();
    let card = bay.card();
    let list = hand_back(&card);
    assert_eq!(list[0].goes_to(&card), Some((L2, &"adjuster".into())));
    let hold = first_hold(&card, &"chocks-out".into(), V).unwrap();
    assert!(
        matches!(hold, Hold::Unlike { at, .. } if at == L2),
        "{hold:?}"
    );
    let words = hold.words(&card);
    assert_eq!(words.arguments[1], ("place", Arg::Place(A2)));
    let why = "the other arm comes tomorrow";
    bay.pass("fay", V, "chocks-out", "adjuster", why).unwrap();
    assert_eq!(held(&bay, "chocks-out", V), None);
}

fn held(bay: &Bay, step: &str, at: Place) -> Option<(String, String)> {
    let hold = first_hold(&bay.card(), &step.into(), at)?;
    let (place, first) = hold.first().unwrap();
    Some((first.to_string(), place.to_string()))
}

fn as_pair(first: &str, at: &str) -> Option<(String, String)> {
    Some((first.to_owned(), at.to_owned()))
}

#[test]
fn the_last_steps_name_what_is_not_right_and_a_foreman_can_pass_it() {
    let mut bay = ready();
    assert_eq!(held(&bay, "chocks-out", V), None);
    bay.say("tess", V, "air-up", "leak-off", reading("4", "psi"))
        .unwrap();
    assert_eq!(held(&bay, "chocks-out", V), as_pair("air-up", "V"));
    assert_eq!(held(&bay, "record", V), as_pair("air-up", "V"));
    let hold = first_hold(&bay.card(), &"record".into(), V).unwrap();
    assert_eq!(hold.words(&bay.card()).key, "hold.not-yet");
    assert!(!hold.protects());
    assert!(bay.say("tess", V, "chocks-out", "out", lines()).is_err());
    let why = "another shop sees to the fitting";
    assert!(bay.pass("tess", V, "chocks-out", "air-up", why).is_err());
    assert!(bay.pass("fay", V, "chocks-out", "drum", why).is_err());
    bay.pass("fay", V, "chocks-out", "air-up", why).unwrap();
    bay.say("tess", V, "chocks-out", "out", lines()).unwrap();
    assert_eq!(held(&bay, "record", V), as_pair("air-up", "V"));
    // Read again within its limit, nothing is in the way.
    bay.say("tess", V, "air-up", "leak-off", reading("1", "psi"))
        .unwrap();
    assert_eq!(held(&bay, "record", V), None);
    // What pulls on the road is in the way of the record, not of the chocks before it.
    bay.say("tess", V, "low-speed", "stops", choose("pulls"))
        .unwrap();
    assert_eq!(held(&bay, "chocks-out", V), None);
    assert_eq!(held(&bay, "record", V), as_pair("low-speed", "V"));
}

#[test]
fn unlike_ends_hold_the_second_look_until_they_match_or_a_foreman_says_why() {
    let cases = [
        ("chamber-type", "t24", "chamber", "chamber", "t30"),
        ("stroke-class", "long", "class", "chamber", "standard"),
        ("arm-length", "a6", "arm", "adjuster", "a5-5"),
        ("adjuster-here", "pawl", "mechanism", "adjuster", "clutch"),
        ("edge-hot", "g", "lining", "kit", "f"),
    ];
    for (fact, other, part, step, like) in cases {
        let mut bay = ready();
        bay.fact("tess", L2, fact, choice(other)).unwrap();
        let card = bay.card();
        let found: Vec<&str> = differs(&card, 2)
            .iter()
            .map(|one| one.part.code())
            .collect();
        assert_eq!(found, [part], "{fact}");
        for at in [L2, R2] {
            let hold = first_hold(&card, &"second-look".into(), at).unwrap();
            assert!(matches!(hold, Hold::Unlike { .. }), "{hold:?}");
            assert_eq!(hold.words(&card).key, "hold.unlike");
            assert_eq!(hold.first().unwrap().1.as_str(), step);
        }
        let refused = bay.say("fay", L2, "second-look", "look", look(true));
        assert!(refused.is_err(), "{fact}");
        let why = "the customer was told";
        let mut passed = bay.clone();
        passed.pass("fay", L2, "second-look", step, why).unwrap();
        passed
            .say("fay", L2, "second-look", "look", look(true))
            .unwrap();
        assert!(held(&passed, "second-look", R2).is_some(), "{fact}");
        // The same on both ends, and read again.
        bay.fact("tess", L2, fact, choice(like)).unwrap();
        assert_eq!(held(&bay, "second-look", L2), None, "{fact}");
        assert!(differs(&bay.card(), 2).is_empty(), "{fact}");
    }
}

#[test]
fn two_drums_of_different_size_are_unlike() {
    let mut bay = ready();
    bay.say("tess", L2, "drum", "cast-max", reading("16.62", "in"))
        .unwrap();
    assert!(differs(&bay.card(), 2).is_empty());
    bay.say("tess", R2, "drum", "cast-max", reading("15.12", "in"))
        .unwrap();
    let found = differs(&bay.card(), 2);
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].part.code(), "drum");
    assert_eq!(held(&bay, "second-look", R2), as_pair("drum", "E2R"));
    bay.say("tess", R2, "drum", "cast-max", reading("422.148", "mm"))
        .unwrap();
    assert!(differs(&bay.card(), 2).is_empty());
}

#[test]
fn a_done_step_is_in_nobodys_way_and_what_follows_the_record_neither() {
    let mut bay = ready();
    bay.say("tess", V, "chocks-out", "out", lines()).unwrap();
    bay.say("tess", V, "low-speed", "stops", choose("straight"))
        .unwrap();
    assert_eq!(hand_back(&bay.card()), Vec::<InTheWay>::new());
    assert_eq!(bay.state(L2, "road-check"), StepState::Open);
}
