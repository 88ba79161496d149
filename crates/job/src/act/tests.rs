use super::{Setup, TEXT_MAX, built_on, may_strike, open_card, set_fact, strike, take};
use crate::bay::{
    A2, A3, Bay, L2, R2, V, choice, choose, key, lb, lines, person, press, reading, setup, stand,
    stands, typed, wheels,
};
use crate::card::StepState;
use crate::event::{
    Answer, Event, Exception, FactValue, Item, JackTag, JackUsed, Role, StandCondition, StandUsed,
    TagBasis,
};
use crate::hold::Hold;
use crate::judge::Units;
use crate::words::{Arg, Words};
use rules::quantity::Mass;
use rules::word::Argument;

use super::Refusal;

// Opening.

#[test]
fn a_card_with_nothing_in_it_lists_all_that_is_wanting() {
    let bay = Bay::empty();
    let wanting = |setup: &Setup| -> Vec<String> {
        match open_card(bay.procedures.newest(), "0.1.0", setup) {
            Ok(_) => Vec::new(),
            Err(words) => words.into_iter().map(|words| words.key).collect(),
        }
    };
    assert_eq!(
        wanting(&Setup::default()),
        [
            "setup.unit-missing",
            "setup.vehicle-missing",
            "setup.loaded-missing",
            "setup.layout-missing",
            "setup.in-hand-missing"
        ]
    );
    let with = |change: fn(&mut Setup)| {
        let mut setup = setup(&[2, 3]);
        change(&mut setup);
        wanting(&setup)
    };
    assert!(with(|_| {}).is_empty());
    assert_eq!(
        with(|setup| setup.unit = " \t".to_owned()),
        ["setup.unit-missing"]
    );
    assert_eq!(
        with(|setup| setup.unit = "é".repeat(TEXT_MAX / 2 + 1)),
        ["setup.text-too-long"]
    );
    assert_eq!(
        with(|setup| setup.vehicle = Some("sledge".into())),
        ["setup.vehicle-missing"]
    );
    assert_eq!(
        with(|setup| setup.loaded = Some("half".into())),
        ["setup.loaded-missing"]
    );
    assert_eq!(
        with(|setup| setup.layout = Some("1-0".to_owned())),
        ["setup.layout-missing"]
    );
    assert_eq!(
        with(|setup| setup.in_hand = vec![2, 4]),
        ["setup.in-hand-unknown"]
    );
    assert_eq!(
        with(|setup| setup.in_hand = vec![0]),
        ["setup.in-hand-unknown"]
    );
    assert_eq!(
        with(|setup| setup.in_hand = vec![]),
        ["setup.in-hand-missing"]
    );
}

#[test]
fn an_opened_card_says_what_it_was_opened_with() {
    let bay = Bay::with_axles(&[3, 2, 2]);
    let card = bay.card();
    let opened = card.opened.as_ref().unwrap();
    assert_eq!(opened.pin, bay.procedures.newest().pin);
    assert_eq!(opened.rules, rules::rules::EDITION);
    assert_eq!(card.axles_in_hand(), [2, 3]);
    assert!(card.entries.iter().all(|entry| entry.though.is_none()));
}

// Facts.

#[test]
fn facts_that_cannot_be_are_refused() {
    let mut bay = Bay::open();
    bay.fact("tess", A2, "group-weight", lb("30000")).unwrap();
    let long = FactValue::Text("x".repeat(TEXT_MAX + 1));
    let text = |text: &str| FactValue::Text(text.to_owned());
    let kg = |text: &str| FactValue::Typed(typed(text, "kg"));
    let rows = [
        (V, "coupled", FactValue::Count(2), "refuse.wrong-kind"),
        (V, "coupled", FactValue::NotKnown, "refuse.wrong-kind"),
        (V, "coupled", choice("towed"), "refuse.not-offered"),
        (A2, "coupled", choice("alone"), "hold.not-on-path"),
        (A3, "studs", FactValue::Count(8), "hold.not-on-path"),
        (V, "studs", FactValue::Count(8), "hold.not-on-path"),
        (V, "taste", text("salt"), "refuse.wrong-kind"),
        (
            A2,
            "group-weight",
            FactValue::Typed(typed("30", "in")),
            "refuse.wrong-unit",
        ),
        (
            A2,
            "group-weight",
            FactValue::Typed(typed("15", "t")),
            "refuse.wrong-unit",
        ),
        (
            A2,
            "group-weight",
            FactValue::Typed(typed("15", "stone")),
            "typed.fault.empty",
        ),
        (A2, "group-weight", lb("heavy"), "typed.fault.not-a-number"),
        (A2, "group-weight", lb(""), "typed.fault.empty"),
        (A2, "group-weight", lb("0"), "support.fault.zero-weight"),
        (V, "unit-weight", lb("29999"), "support.fault.unit-lighter"),
        (V, "unit-weight", kg("13600"), "support.fault.unit-lighter"),
        (V, "unit-weight", lb("0"), "support.fault.zero-unit"),
        (V, "note", long, "setup.text-too-long"),
        (V, "note", text("  "), "refuse.wrong-kind"),
        (V, "layout", text("two and two"), "refuse.wrong-kind"),
        (V, "layout", text("1"), "setup.in-hand-unknown"),
        (
            V,
            "in-hand",
            FactValue::Axles(vec![]),
            "setup.in-hand-missing",
        ),
        (
            V,
            "in-hand",
            FactValue::Axles(vec![4]),
            "setup.in-hand-unknown",
        ),
        (
            V,
            "in-hand",
            FactValue::Axles(vec![0, 2]),
            "setup.in-hand-unknown",
        ),
    ];
    for (at, fact, value, expected) in rows {
        let shown = format!("{fact} {value:?}");
        let refused = bay.fact("tess", at, fact, value);
        assert_eq!(key(&refused, &bay.card()), expected, "{shown}");
    }
    let stranger = set_fact(
        &bay.card(),
        &person("zoe"),
        V,
        &"note".into(),
        text("hello"),
    );
    assert_eq!(key(&stranger, &bay.card()), "hold.sign-on");
    for (at, fact, value) in [
        (V, "unit-weight", lb("30000")),
        (V, "unit-weight", FactValue::NotKnown),
        (A2, "group-weight", FactValue::NotKnown),
        (V, "note", text("left mirror")),
        (V, "layout", text("2-1")),
    ] {
        let shown = format!("{fact} {value:?}");
        assert!(bay.fact("tess", at, fact, value).is_ok(), "{shown}");
    }
}

#[test]
fn an_axle_heavier_than_its_unit_is_refused_too() {
    let mut bay = Bay::open();
    bay.fact("tess", V, "unit-weight", lb("30000")).unwrap();
    let refused = bay.fact("tess", A2, "group-weight", lb("30001"));
    assert_eq!(key(&refused, &bay.card()), "support.fault.unit-lighter");
}

// Stands.

/// A loaded tandem with its air out: 34 000 lb on two axles, one of them lifted.
fn tandem() -> Bay {
    let mut bay = Bay::open();
    bay.secured();
    bay.fact("tess", V, "suspension", choice("air")).unwrap();
    bay.fact("tess", A2, "group-weight", lb("34000")).unwrap();
    bay.fact("tess", V, "unit-weight", lb("50000")).unwrap();
    bay
}

fn put(bay: &mut Bay, answer: Answer) -> String {
    let result = bay.say("tess", A2, "stands", "stands", answer);
    match result {
        Ok(_) => "taken".to_owned(),
        refused => key(&refused, &bay.card()),
    }
}

fn shares(refusal: Refusal) -> Vec<(&'static str, Mass)> {
    let Refusal::Words(words) = refusal else {
        panic!("{refusal:?}");
    };
    let share = |(name, argument): (&'static str, Arg)| {
        let mass = match argument {
            Arg::Rule(Argument::Share(share)) => Some(share.rounded_up()),
            Arg::Rule(Argument::Quantity(quantity)) => quantity.mass(),
            Arg::Rule(_) | Arg::Text(_) | Arg::Key(_) | Arg::Place(_) => None,
        };
        (name, mass.expect(name))
    };
    words.arguments.into_iter().map(share).collect()
}

#[test]
fn stands_too_small_for_a_tandem_are_refused_with_both_figures() {
    let mut bay = tandem();
    for basis in [TagBasis::PerPair, TagBasis::Unmarked] {
        let answer = stands("10", "short-ton", basis);
        let refused = bay.say("tess", A2, "stands", "stands", answer).unwrap_err();
        assert_eq!(refused.words(&bay.card()).key, "refuse.stand-too-small");
        assert_eq!(
            shares(refused),
            [
                ("needed", Mass::from_lb(17_000)),
                ("gives", Mass::from_lb(10_000))
            ]
        );
    }
    assert_eq!(
        bay.state(A2, "stands"),
        StepState::Begun,
        "nothing was written"
    );
    assert_eq!(
        put(&mut bay, stands("10", "short-ton", TagBasis::PerStand)),
        "taken"
    );
    assert_eq!(bay.state(A2, "stands"), StepState::Done);
}

#[test]
fn stands_are_refused() {
    let mut bay = tandem();
    let good = || stand("20000", "lb", TagBasis::PerStand);
    let with = |condition: StandCondition| {
        let mut stand = good();
        stand.tag.condition = condition;
        stand
    };
    let untagged = || {
        let mut stand = good();
        stand.tag.rating = None;
        stand
    };
    let odd = stand("twenty", "t", TagBasis::PerStand);
    let at_limit = stands("17000", "lb", TagBasis::PerStand);
    let rows: Vec<(&str, Vec<StandUsed>, &str)> = vec![
        ("none", vec![], "support.fault.no-stands"),
        ("one alone", vec![good()], "support.fault.one-stand"),
        (
            "one damaged",
            vec![good(), with(StandCondition::Damaged)],
            "support.fault.carries-nothing",
        ),
        (
            "one welded",
            vec![good(), with(StandCondition::Repaired)],
            "support.fault.carries-nothing",
        ),
        (
            "one without its pin",
            vec![with(StandCondition::PinMissing), good()],
            "support.fault.carries-nothing",
        ),
        (
            "one without a tag",
            vec![good(), untagged()],
            "support.fault.carries-nothing",
        ),
        (
            "one small",
            vec![good(), stand("16999", "lb", TagBasis::PerStand)],
            "refuse.stand-too-small",
        ),
        (
            "a third does not help",
            vec![stand("16000", "lb", TagBasis::PerStand), good(), good()],
            "refuse.stand-too-small",
        ),
        ("too many", vec![good(); 9], "refuse.too-many"),
        ("no number", vec![good(), odd], "typed.fault.not-a-number"),
    ];
    for (why, stands, expected) in rows {
        assert_eq!(put(&mut bay, Answer::Stands { stands }), expected, "{why}");
    }
    assert_eq!(put(&mut bay, at_limit), "refuse.stand-at-limit");
    assert_eq!(
        put(&mut bay, stands("17001", "lb", TagBasis::PerStand)),
        "taken"
    );
}

#[test]
fn without_axle_weights_the_rule_of_three_decides() {
    let mut bay = tandem();
    bay.fact("tess", A2, "group-weight", FactValue::NotKnown)
        .unwrap();
    bay.fact("tess", V, "unit-weight", lb("60000")).unwrap();
    for (rating, expected) in [
        ("19999", "refuse.three-too-small"),
        ("20000", "refuse.three-too-small"),
        ("20001", "taken"),
    ] {
        assert_eq!(
            put(&mut bay, stands(rating, "lb", TagBasis::PerStand)),
            expected,
            "{rating}"
        );
    }
    let refused = bay
        .say(
            "tess",
            A2,
            "stands",
            "stands",
            stands("15000", "lb", TagBasis::PerStand),
        )
        .unwrap_err();
    assert_eq!(
        shares(refused),
        [
            ("needed", Mass::from_lb(20_000)),
            ("gives", Mass::from_lb(15_000))
        ]
    );
    bay.fact("tess", V, "unit-weight", FactValue::NotKnown)
        .unwrap();
    assert_eq!(
        put(&mut bay, stands("90000", "lb", TagBasis::PerStand)),
        "support.fault.no-weight"
    );
    assert_eq!(
        bay.state(A2, "stands"),
        StepState::Unclear,
        "what was taken clears nothing now"
    );
}

#[test]
fn stands_under_the_rule_of_three_need_the_foremans_reason() {
    let mut bay = tandem();
    bay.fact("tess", V, "unit-weight", lb("60000")).unwrap();
    let enough_for_the_axles = || stands("18000", "lb", TagBasis::PerStand);
    let why = "axles weighed today";
    bay.sign_on("fay", Role::Foreman);
    let early = bay.pass("fay", A2, "stands", "stands", why);
    assert_eq!(
        key(&early, &bay.card()),
        "refuse.cannot-pass",
        "there is nothing to give a reason for"
    );
    assert_eq!(put(&mut bay, enough_for_the_axles()), "taken");
    assert_eq!(bay.state(A2, "stands"), StepState::Unclear);
    assert!(bay.may("tess", A2, "raise", "up", Item::Only).is_err());
    let step = bay
        .procedures
        .newest()
        .step(&"stands".into())
        .unwrap()
        .clone();
    assert!(bay.card().needs_foreman(&step, A2));
    let not_his = bay.pass("tess", A2, "stands", "stands", why);
    assert_eq!(key(&not_his, &bay.card()), "refuse.foreman-only");
    bay.pass("fay", A2, "stands", "stands", why).unwrap();
    assert_eq!(bay.state(A2, "stands"), StepState::Done);
    // The reason was for these stands, not for the next ones.
    assert_eq!(
        put(&mut bay, stands("17500", "lb", TagBasis::PerStand)),
        "taken"
    );
    assert_eq!(bay.state(A2, "stands"), StepState::Unclear);
}

#[test]
fn the_second_axle_of_a_group_is_not_helped_by_the_first() {
    let mut bay = Bay::with_axles(&[2, 3]);
    bay.secured();
    bay.up();
    // 30 000 lb: the other axle may come down first, so these two carry all of it.
    bay.fact("tess", V, "unit-weight", lb("30000")).unwrap();
    let put = |bay: &mut Bay, rating: &str| {
        let result = bay.say(
            "tess",
            A3,
            "stands",
            "stands",
            stands(rating, "lb", TagBasis::PerStand),
        );
        result.map_err(|refused| refused.words(&bay.card()).key)
    };
    assert_eq!(put(&mut bay, "15000").unwrap_err(), "refuse.stand-at-limit");
    put(&mut bay, "15001").unwrap();
    assert_eq!(bay.state(A3, "stands"), StepState::Done);
}

#[test]
fn a_jack_is_kept_and_judged() {
    let mut bay = tandem();
    for (rating, state) in [
        ("16", StepState::Unclear),
        ("17", StepState::Done),
        ("18", StepState::Done),
        ("0", StepState::Unclear),
    ] {
        bay.say("tess", A2, "jack", "rating", reading(rating, "short-ton"))
            .unwrap();
        assert_eq!(bay.state(A2, "jack"), state, "{rating}");
    }
    let refused = bay.say("tess", A2, "jack", "rating", reading("18", "t"));
    assert_eq!(key(&refused, &bay.card()), "refuse.wrong-unit");
    // One of the shop's is judged by its plate, in whatever unit that is.
    for (rating, unit, state) in [
        ("33999", "lb", StepState::Unclear),
        ("34000", "lb", StepState::Done),
        ("16000", "kg", StepState::Done),
        ("0", "t", StepState::Unclear),
    ] {
        bay.say("tess", A2, "jack", "rating", of_shop(rating, unit))
            .unwrap();
        assert_eq!(bay.state(A2, "jack"), state, "{rating} {unit}");
    }
    let refused = bay.say("tess", A2, "jack", "rating", of_shop("ten", "t"));
    assert_eq!(key(&refused, &bay.card()), "typed.fault.not-a-number");
    // A jack answers nothing else.
    let refused = bay.say("tess", A2, "stands", "stands", of_shop("20", "t"));
    assert_eq!(key(&refused, &bay.card()), "refuse.wrong-kind");
}

fn of_shop(rating: &str, unit: &str) -> Answer {
    Answer::Jack {
        used: JackUsed {
            jack: "J 1".to_owned(),
            tag: JackTag {
                rating: typed(rating, unit),
            },
        },
    }
}

// Answers.

#[test]
fn answers_that_were_not_asked_for_are_refused() {
    let mut bay = Bay::raised();
    bay.sign_on("fay", Role::Foreman);
    bay.fact("tess", A2, "rim", choice("one-piece")).unwrap();
    bay.fact("tess", A2, "studs", FactValue::Count(2)).unwrap();
    for end in [L2, R2] {
        bay.say("tess", end, "drum", "seen", choose("sound"))
            .unwrap();
    }
    let only = Item::Only;
    let but = |item: &str, mark: &str| {
        vec![Exception {
            item: item.to_owned(),
            mark: mark.into(),
        }]
    };
    let out = |line: &str| Answer::Lines {
        out: vec![line.into()],
    };
    let nut = |mark: &str| Answer::Nut { mark: mark.into() };
    let except = |item: &str, mark: &str| Answer::Exceptions {
        but: but(item, mark),
    };
    let whole = |mark: &str| Answer::WholePass {
        but: but("1", mark),
    };
    let rows = vec![
        (
            V,
            "chocks",
            "wheels",
            only.clone(),
            Answer::Wheels { at: vec![] },
            "refuse.no-wheels",
        ),
        (
            V,
            "chocks",
            "wheels",
            only.clone(),
            wheels(2),
            "refuse.wheel-in-the-air",
        ),
        (
            V,
            "chocks",
            "wheels",
            only.clone(),
            Answer::Wheels { at: vec![L2, V] },
            "refuse.wheel-in-the-air",
        ),
        (
            V,
            "chocks",
            "set",
            only.clone(),
            press("perhaps"),
            "refuse.not-offered",
        ),
        (
            V,
            "chocks",
            "set",
            Item::Person("tess".into()),
            press("both-ways"),
            "refuse.wrong-kind",
        ),
        (
            L2,
            "tyres",
            "state",
            only.clone(),
            choose("bald"),
            "refuse.not-offered",
        ),
        (
            L2,
            "tyres",
            "state",
            only.clone(),
            press("core-out"),
            "refuse.wrong-kind",
        ),
        (
            L2,
            "nuts-off",
            "nuts",
            only.clone(),
            except("3", "stiff"),
            "refuse.not-offered",
        ),
        (
            L2,
            "nuts-off",
            "nuts",
            only.clone(),
            except("0", "stiff"),
            "refuse.not-offered",
        ),
        (
            L2,
            "nuts-off",
            "nuts",
            only.clone(),
            except("2", "sad"),
            "refuse.not-offered",
        ),
        (
            L2,
            "hoses",
            "found",
            only.clone(),
            except("horn", "chafed"),
            "refuse.not-offered",
        ),
        (
            L2,
            "hoses",
            "pieces",
            Item::Nut(1),
            Answer::Count { count: 3 },
            "refuse.wrong-kind",
        ),
        (
            L2,
            "hang",
            "hung",
            only.clone(),
            out("mirror"),
            "refuse.not-offered",
        ),
        (
            L2,
            "final-pass",
            "nuts",
            only.clone(),
            Answer::WholePass { but: vec![] },
            "refuse.wrong-kind",
        ),
        (
            L2,
            "final-pass",
            "nuts",
            Item::Nut(3),
            nut("turned-and-clicked"),
            "refuse.wrong-kind",
        ),
        (
            L2,
            "final-pass",
            "nuts",
            Item::Nut(0),
            nut("turned-and-clicked"),
            "refuse.wrong-kind",
        ),
        (
            L2,
            "final-pass",
            "nuts",
            Item::Nut(1),
            nut("sang"),
            "refuse.not-offered",
        ),
        (
            L2,
            "as-found",
            "applied",
            only.clone(),
            reading("1", "psi"),
            "refuse.wrong-unit",
        ),
        (
            L2,
            "as-found",
            "applied",
            only.clone(),
            reading("1 9/8", "in"),
            "typed.fault.improper-fraction",
        ),
        (
            V,
            "as-found",
            "applied",
            only.clone(),
            reading("1", "in"),
            "hold.not-on-path",
        ),
        (
            V,
            "chocks",
            "weather",
            only.clone(),
            lines(),
            "hold.not-on-path",
        ),
        (
            V,
            "weather",
            "set",
            only.clone(),
            lines(),
            "hold.not-on-path",
        ),
    ];
    let before = bay.trail.all().count();
    for (at, step, ask, item, answer, expected) in rows {
        let shown = format!("{step} {ask} {item:?} {answer:?}");
        let result = bay.answer("tess", at, step, ask, item, answer);
        assert_eq!(key(&result, &bay.card()), expected, "{shown}");
    }
    assert_eq!(bay.trail.all().count(), before, "nothing was written");
    for (at, step, ask, item, answer) in [
        (L2, "nuts-off", "nuts", only.clone(), except("2", "stiff")),
        (L2, "hoses", "found", only.clone(), except("hose", "chafed")),
        (
            L2,
            "hoses",
            "pieces",
            only.clone(),
            Answer::Count { count: 3 },
        ),
        (L2, "hang", "hung", only.clone(), out("pilots")),
        (
            L2,
            "final-pass",
            "nuts",
            Item::Nut(2),
            nut("clicked-at-once"),
        ),
        (
            L2,
            "final-pass",
            "nuts",
            Item::Nut(2),
            nut("turned-and-clicked"),
        ),
        (
            L2,
            "final-pass",
            "nuts",
            Item::Nut(1),
            nut("turned-and-clicked"),
        ),
        (L2, "check-pass", "nuts", only.clone(), whole("turned")),
    ] {
        let shown = format!("{step} {ask} {item:?} {answer:?}");
        bay.answer("tess", at, step, ask, item, answer)
            .expect(&shown);
    }
    assert_eq!(
        bay.state(L2, "hang"),
        StepState::Unclear,
        "a line was taken out"
    );
    assert_eq!(bay.state(L2, "final-pass"), StepState::Done);
    assert_eq!(bay.state(L2, "check-pass"), StepState::Unclear);
    bay.say(
        "tess",
        L2,
        "check-pass",
        "nuts",
        Answer::WholePass { but: vec![] },
    )
    .unwrap();
    assert_eq!(bay.state(L2, "check-pass"), StepState::Done);
}

#[test]
fn the_other_unit_is_chocked_only_while_it_is_coupled() {
    let mut bay = Bay::open();
    let other = || Answer::Wheels { at: vec![V] };
    let refused = bay.say("tess", V, "chocks", "wheels", other());
    assert_eq!(key(&refused, &bay.card()), "refuse.wheel-in-the-air");
    bay.fact("tess", V, "coupled", choice("coupled")).unwrap();
    bay.say("tess", V, "chocks", "wheels", other()).unwrap();
    bay.say("tess", V, "chocks", "set", press("both-ways"))
        .unwrap();
    assert_eq!(bay.state(V, "chocks"), StepState::Done);
    bay.fact("tess", V, "coupled", choice("alone")).unwrap();
    assert_eq!(bay.state(V, "chocks"), StepState::Unclear);
}

#[test]
fn a_stale_proof_is_refused() {
    let mut bay = Bay::open();
    let proof = bay.may("tess", V, "chocks", "set", Item::Only).unwrap();
    bay.say("tess", V, "chocks", "wheels", wheels(1)).unwrap();
    let late = take(&bay.card(), proof, press("both-ways"), &Units::METRIC);
    assert_eq!(late, Err(Refusal::Stale));
    let line = bay.trail.in_order().last().unwrap().reference();
    let proof = may_strike(&bay.card(), &person("tess"), &line, bay.stamp()).unwrap();
    bay.say("tess", V, "chocks", "set", press("both-ways"))
        .unwrap();
    assert_eq!(strike(&bay.card(), proof, None), Err(Refusal::Stale));
}

#[test]
fn a_proof_from_before_the_damage_is_refused() {
    let mut bay = Bay::open();
    let proof = bay.may("tess", V, "chocks", "set", Item::Only).unwrap();
    let line = bay.trail.in_order()[2].reference();
    let strikes = may_strike(&bay.card(), &person("tess"), &line, bay.stamp()).unwrap();
    let texts: Vec<String> = bay.trail.all().map(|line| line.text().to_owned()).collect();
    let texts = texts.iter().map(String::as_str).chain(["rubbish"]);
    bay.trail = crate::trail::Trail::read("card-1".into(), texts);
    let late = take(&bay.card(), proof, press("both-ways"), &Units::METRIC);
    assert_eq!(key(&late, &bay.card()), "hold.damaged");
    let late = strike(&bay.card(), strikes, None);
    assert_eq!(key(&late, &bay.card()), "hold.damaged");
}

// Taking back.

#[test]
fn within_a_minute_no_reason_is_asked_for() {
    for (seconds, at_once) in [(0, true), (60, true), (61, false), (-1, false)] {
        let mut bay = Bay::open();
        let line = bay.say("tess", V, "chocks", "wheels", wheels(1)).unwrap();
        bay.wait(seconds);
        let proof = may_strike(&bay.card(), &person("tess"), &line, bay.stamp()).unwrap();
        assert_eq!(proof.at_once, at_once, "{seconds} s");
        let result = bay.strike("tess", &line, Some(" "));
        if at_once {
            assert!(result.is_ok(), "{seconds} s");
        } else {
            assert_eq!(
                key(&result, &bay.card()),
                "refuse.reason-missing",
                "{seconds} s"
            );
            bay.strike("tess", &line, Some("wrong wheels")).unwrap();
        }
    }
}

#[test]
fn what_something_was_built_on_needs_a_reason() {
    let mut bay = Bay::open();
    bay.chocked();
    let set = bay.trail.in_order().last().unwrap().reference();
    bay.skip("tess", V, "as-found", "no-air").unwrap();
    let refused = bay.strike("tess", &set, None);
    assert_eq!(key(&refused, &bay.card()), "refuse.reason-missing");
    let card = bay.card();
    let built = built_on(&card, card.entry(&set).unwrap()).unwrap();
    assert!(matches!(built.event(), Some(Event::StepSkipped { .. })));
    bay.strike("tess", &set, Some("rolled")).unwrap();
    let again = bay.strike("tess", &set, Some("rolled"));
    assert_eq!(key(&again, &bay.card()), "refuse.already-struck");
}

#[test]
fn a_fact_is_built_on_by_judgements_and_by_what_its_step_holds() {
    let mut bay = Bay::open();
    bay.chocked();
    bay.skip("tess", V, "as-found", "no-air").unwrap();
    let coupled = bay.fact("tess", V, "coupled", choice("coupled")).unwrap();
    bay.tag("tess").unwrap();
    let builds = |bay: &Bay, line| {
        let card = bay.card();
        built_on(&card, card.entry(line).unwrap()).is_some()
    };
    assert!(!builds(&bay, &coupled));
    let weight = bay.fact("tess", A2, "group-weight", lb("30000")).unwrap();
    assert!(!builds(&bay, &weight));
    bay.up();
    assert!(builds(&bay, &coupled));
    assert!(builds(&bay, &weight));
}

#[test]
fn what_a_foreman_passed_is_built_on() {
    let mut bay = Bay::open();
    bay.chocked();
    bay.sign_on("fay", Role::Foreman);
    let passed = bay
        .pass("fay", V, "lock-out", "as-found", "no hoses")
        .unwrap();
    bay.fact("tess", V, "coupled", choice("coupled")).unwrap();
    bay.tag("tess").unwrap();
    let refused = bay.strike("fay", &passed, None);
    assert_eq!(key(&refused, &bay.card()), "refuse.reason-missing");
}

#[test]
fn anothers_entry_needs_a_reason_even_from_a_foreman() {
    let mut bay = Bay::open();
    let line = bay.say("tess", V, "chocks", "wheels", wheels(1)).unwrap();
    bay.sign_on("fay", Role::Foreman);
    assert_eq!(
        key(&bay.strike("fay", &line, None), &bay.card()),
        "refuse.reason-missing"
    );
    let long = "x".repeat(TEXT_MAX + 1);
    assert_eq!(
        key(&bay.strike("fay", &line, Some(&long)), &bay.card()),
        "setup.text-too-long"
    );
    assert!(bay.strike("fay", &line, Some("other axle")).is_ok());
    let mut nowhere = line.clone();
    nowhere.n = 99;
    assert_eq!(
        key(&bay.strike("fay", &nowhere, Some("x")), &bay.card()),
        "refuse.unknown-line"
    );
    assert_eq!(
        key(&bay.strike("zoe", &line, Some("x")), &bay.card()),
        "hold.sign-on"
    );
}

#[test]
fn a_hold_says_what_to_do_first() {
    let bay = Bay::open();
    let hold = bay.may("tess", A2, "raise", "up", Item::Only).unwrap_err();
    let card = bay.card();
    assert_eq!(
        Refusal::from(hold.clone()).words(&card),
        Words::with(
            "hold.not-yet",
            [
                ("step", Arg::Key("step.chocks.do".to_owned())),
                ("place", Arg::Place(V))
            ]
        )
    );
    assert!(hold.protects());
    assert!(
        !Hold::NotYet {
            first: "as-found".into(),
            at: V,
            protects: false
        }
        .protects()
    );
}

#[test]
fn a_pass_of_the_whole_step_holds_for_its_parts() {
    // `as-found` is a vehicle step that is answered at wheel ends.
    let mut value: serde_json::Value = serde_json::from_str(crate::bay::SMALL).unwrap();
    let first = serde_json::json!({
        "id": "washed", "scope": "V", "holds": [{"on": {"step": "as-found"}}],
        "asks": [{"id": "clean", "kind": {"lines": ["rinsed"]}}]
    });
    value["stages"][0]["steps"]
        .as_array_mut()
        .unwrap()
        .insert(1, first);
    let mut bay = Bay::empty();
    bay.procedures = crate::procedures::Procedures::read([], &value.to_string()).unwrap();
    let drafts = open_card(bay.procedures.newest(), "0.1.0", &setup(&[2])).unwrap();
    bay.keep("tess", drafts);
    bay.sign_on("tess", Role::Technician);
    bay.sign_on("fay", Role::Foreman);
    bay.chocked();
    assert!(
        bay.may("tess", L2, "as-found", "applied", Item::Only)
            .is_err()
    );
    bay.pass("fay", V, "as-found", "washed", "frozen hose")
        .unwrap();
    bay.say("tess", L2, "as-found", "applied", reading("2", "in"))
        .unwrap();
}
