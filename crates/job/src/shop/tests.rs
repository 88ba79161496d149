use super::{
    DEFAULTS, Kinds, LIMITS, STEPS_MAX, ShopSheet, WHEELS, calibrate_wrench, card_id, drop_limit,
    drop_step, fold, for_new_card, is_behind, list_jack, list_person, list_stand, list_wrench,
    person_left, set_default, set_final_pass, set_limit, set_step, set_wheel, since_taken,
    take_values, withdraw_jack, withdraw_stand, withdraw_wrench,
};
use crate::act::{Draft, Refusal};
use crate::bay::{A2, Bay, L2, R2, V, choice, choose, reading, stand, typed};
use crate::card::Card;
use crate::cardfile;
use crate::event::{
    Answer, Event, FactValue, FinalPass, JackTag, LimitSide, Role, ShopLimit, ShopStep, ShopValues,
    TagBasis, TypedText, WheelSpec, WrenchTag,
};
use crate::id::{OptionId, Place, StepId};
use crate::judge::{judge, judge_fact, torque};
use crate::line::Sha;
use crate::procedure::{FactKind, Scope};
use crate::trail::Trail;

struct Shop(Bay);

impl Shop {
    fn new() -> Self {
        let mut bay = Bay::empty();
        bay.trail = Trail::new(card_id());
        Self(bay)
    }

    fn sheet(&self) -> ShopSheet {
        fold(&self.0.trail)
    }

    fn keep(&mut self, draft: Result<Draft, Refusal>) {
        self.0.keep("fay", vec![draft.unwrap()]);
    }
}

fn key(draft: Result<Draft, Refusal>) -> String {
    let card: Card = Bay::empty().card();
    crate::bay::key(&draft, &card)
}

#[test]
fn people_come_change_and_go() {
    let mut shop = Shop::new();
    shop.keep(list_person(
        &shop.sheet(),
        &"p1".into(),
        " Fay ",
        Role::Foreman,
    ));
    shop.keep(list_person(
        &shop.sheet(),
        &"p2".into(),
        "Ada",
        Role::Apprentice,
    ));
    shop.keep(list_person(
        &shop.sheet(),
        &"p2".into(),
        "Ada",
        Role::Technician,
    ));
    let sheet = shop.sheet();
    let names: Vec<&str> = sheet
        .people()
        .iter()
        .map(|(_, person)| person.name.as_str())
        .collect();
    assert_eq!(names, ["Ada", "Fay"]);
    assert_eq!(sheet.person(&"p2".into()).unwrap().role, Role::Technician);
    assert_eq!(
        key(list_person(&sheet, &"p3".into(), "fay", Role::Technician)),
        "shop.name-taken"
    );
    assert_eq!(
        key(list_person(&sheet, &"p3".into(), "  ", Role::Technician)),
        "shop.name-missing"
    );
    assert_eq!(
        key(list_person(
            &sheet,
            &"p3".into(),
            &"x".repeat(401),
            Role::Technician
        )),
        "setup.text-too-long"
    );
    shop.keep(person_left(&shop.sheet(), &"p1".into()));
    let sheet = shop.sheet();
    assert_eq!(sheet.people().len(), 1);
    assert_eq!(
        key(person_left(&sheet, &"p1".into())),
        "shop.person-unknown"
    );
    assert_eq!(
        key(person_left(&sheet, &"p9".into())),
        "shop.person-unknown"
    );
    assert!(
        list_person(&sheet, &"p3".into(), "Fay", Role::Technician).is_ok(),
        "a name is free again"
    );
}

#[test]
fn stands_come_and_are_taken_out_of_use() {
    let mut shop = Shop::new();
    let tag = |rating: &str| stand(rating, "t", TagBasis::PerPair).tag;
    shop.keep(list_stand(&shop.sheet(), "7", tag("20")));
    let sheet = shop.sheet();
    assert_eq!(sheet.stands().count(), 1);
    assert_eq!(
        key(list_stand(&sheet, " 7 ", tag("5"))),
        "shop.stand-number-taken"
    );
    assert_eq!(
        key(list_stand(&sheet, "", tag("5"))),
        "shop.stand-number-missing"
    );
    assert_eq!(
        key(list_stand(&sheet, "8", tag("five"))),
        "typed.fault.not-a-number"
    );
    assert_eq!(
        key(withdraw_stand(&sheet, "7", " ")),
        "refuse.reason-missing"
    );
    assert_eq!(
        key(withdraw_stand(&sheet, "8", "bent")),
        "shop.stand-unknown"
    );
    shop.keep(withdraw_stand(&shop.sheet(), "7", "bent foot"));
    let sheet = shop.sheet();
    assert_eq!(sheet.stands().count(), 0);
    assert_eq!(
        sheet.withdrawn().next().unwrap().1.withdrawn.as_deref(),
        Some("bent foot")
    );
    shop.keep(list_stand(&shop.sheet(), "7", tag("12")));
    assert_eq!(shop.sheet().stands().count(), 1, "its number is free again");
}

#[test]
fn jacks_come_and_are_taken_out_of_use() {
    let mut shop = Shop::new();
    let plate = |text: &str, unit: &str| JackTag {
        rating: typed(text, unit),
    };
    shop.keep(list_jack(&shop.sheet(), " J 1 ", plate("20", "t")));
    let sheet = shop.sheet();
    for (name, tag, expected) in [
        ("J 1", plate("5", "t"), "shop.jack-name-taken"),
        (" ", plate("5", "t"), "shop.jack-name-missing"),
        ("J 2", plate("five", "t"), "typed.fault.not-a-number"),
        ("J 2", plate("0", "t"), "shop.jack-rating-none"),
        ("J 2", plate("20", "in"), "refuse.wrong-unit"),
    ] {
        assert_eq!(key(list_jack(&sheet, name, tag)), expected, "{name}");
    }
    for unit in ["short-ton", "ton", "t", "kg", "lb"] {
        assert!(
            list_jack(&sheet, "J 2", plate("20", unit)).is_ok(),
            "{unit}"
        );
    }
    assert_eq!(
        key(withdraw_jack(&sheet, "J 1", " ")),
        "refuse.reason-missing"
    );
    assert_eq!(
        key(withdraw_jack(&sheet, "J 2", "leaks")),
        "shop.jack-unknown"
    );
    shop.keep(withdraw_jack(&shop.sheet(), "J 1", "leaks"));
    let sheet = shop.sheet();
    assert_eq!(sheet.jacks().count(), 0);
    let out: Vec<_> = sheet.jacks_out().collect();
    assert_eq!(
        (out[0].0, out[0].1.withdrawn.as_deref()),
        ("J 1", Some("leaks"))
    );
    shop.keep(list_jack(&shop.sheet(), "J 1", plate("12", "t")));
    assert_eq!(shop.sheet().jacks().count(), 1, "its name is free again");
}

fn wrench(low: &str, high: &str, calibrated: Option<&str>) -> WrenchTag {
    WrenchTag {
        low: typed(low, "lbf-ft"),
        high: typed(high, "lbf-ft"),
        calibrated: calibrated.map(|day| day.parse().unwrap()),
        interval_days: Some(180),
    }
}

#[test]
fn wrenches_are_listed_calibrated_and_taken_out_of_use() {
    let today = "2026-09-21".parse().unwrap();
    let mut shop = Shop::new();
    let list =
        |shop: &Shop, name: &str, tag: WrenchTag| list_wrench(&shop.sheet(), name, tag, today);
    shop.keep(list(&shop, " A ", wrench("100", "600", None)));
    shop.keep(list(&shop, "B", wrench("50", "250", Some("2026-09-21"))));
    for (name, tag, expected) in [
        ("A", wrench("1", "2", None), "shop.wrench-name-taken"),
        ("  ", wrench("1", "2", None), "shop.wrench-name-missing"),
        ("C", wrench("2", "2", None), "refuse.wrench-no-range"),
        ("C", wrench("600", "100", None), "refuse.wrench-no-range"),
        (
            "C",
            wrench("1", "2", Some("2026-09-22")),
            "shop.wrench-day-ahead",
        ),
    ] {
        assert_eq!(key(list(&shop, name, tag)), expected, "{name}");
    }
    let on = "2026-09-01".parse().unwrap();
    let calibrate = |shop: &Shop, name, on| calibrate_wrench(&shop.sheet(), name, on, today);
    assert_eq!(key(calibrate(&shop, "C", on)), "shop.wrench-unknown");
    let ahead = "2026-09-22".parse().unwrap();
    assert_eq!(key(calibrate(&shop, "A", ahead)), "shop.wrench-day-ahead");
    shop.keep(calibrate(&shop, "A", on));
    let calibrated = wrench("100", "600", Some("2026-09-01"));
    assert_eq!(shop.sheet().wrenches().next().unwrap().1.tag, calibrated);
    assert_eq!(
        key(withdraw_wrench(&shop.sheet(), "C", "lost")),
        "shop.wrench-unknown"
    );
    assert_eq!(
        key(withdraw_wrench(&shop.sheet(), "A", " ")),
        "refuse.reason-missing"
    );
    shop.keep(withdraw_wrench(&shop.sheet(), "A", "dropped"));
    let sheet = shop.sheet();
    let names: Vec<&str> = sheet.wrenches().map(|(name, _)| name).collect();
    assert_eq!(names, ["B"]);
    let out: Vec<_> = sheet.wrenches_out().collect();
    assert_eq!(
        (out[0].0, out[0].1.withdrawn.as_deref()),
        ("A", Some("dropped"))
    );
}

fn spec(low: &str, high: &str) -> WheelSpec {
    WheelSpec {
        low: typed(low, "lbf-ft"),
        high: typed(high, "lbf-ft"),
        oil: "threads-and-washer".into(),
        source: "wheel maker's letter, p. 2".to_owned(),
        seat: Some([typed("60", "lbf-ft"), typed("80", "lbf-ft")]),
        order: vec![1, 3, 2, 4],
    }
}

/// A hub-piloted axle with four studs whose threads and washers were oiled as said.
fn wheel_bay(thread: &str, oil: &str, values: Option<ShopValues>) -> Bay {
    let mut bay = Bay::of_shipped(&["final-pass", "seat-pass"], &[2]);
    for (fact, option) in [
        ("mounting", "hub-piloted"),
        ("stud-thread", thread),
        ("fastener-oil", oil),
    ] {
        let value = if option.is_empty() {
            FactValue::NotKnown
        } else {
            choice(option)
        };
        bay.fact("tess", A2, fact, value).unwrap();
    }
    bay.fact("tess", A2, "studs", FactValue::Count(4)).unwrap();
    if let Some(values) = values {
        let values = Box::new(values);
        bay.force("tess", Event::ShopTaken { values });
    }
    bay
}

fn values(wheel: &str, spec: WheelSpec) -> ShopValues {
    ShopValues {
        wheels: [(wheel.into(), spec)].into(),
        ..ShopValues::default()
    }
}

/// Verdict, document of the deciding limit and whether the shop's other state is said.
fn judged(bay: &Bay, lbf_ft: &str) -> (String, String, bool) {
    let value = FactValue::Typed(typed(lbf_ft, "lbf-ft"));
    let judged = judge_fact(&bay.card(), A2, torque::FINAL, &value).unwrap();
    let other = judged
        .remarks
        .iter()
        .any(|remark| remark.word.key() == "torque.remark.shop-other-state");
    (
        judged.verdict.code().to_owned(),
        judged.source.document.to_owned(),
        other,
    )
}

#[test]
fn the_shops_own_range_decides_for_its_wheel_and_its_state() {
    let own = || values("hub-m22", spec("300", "320"));
    let oiled = "threads-and-washer";
    let bay = wheel_bay("m22", oiled, Some(own()));
    for (value, verdict) in [
        ("299", "beyond"),
        ("300", "at-the-limit"),
        ("301", "within"),
        ("319", "within"),
        ("320", "at-the-limit"),
        ("321", "beyond"),
    ] {
        let shop = (verdict.to_owned(), "Shop sheet".to_owned(), false);
        assert_eq!(judged(&bay, value), shop, "{value}");
    }
    // What is printed decides for another state, another thread, and without a sheet.
    let printed = judged(&wheel_bay("m22", "dry", None), "475");
    assert_eq!(printed.0, "within");
    let dry = judged(&wheel_bay("m22", "dry", Some(own())), "475");
    assert_eq!(dry, (printed.0.clone(), printed.1.clone(), true));
    let without = judged(&wheel_bay("m20", oiled, None), "310");
    assert_eq!(
        judged(&wheel_bay("m20", oiled, Some(own())), "310"),
        without
    );
    // A thread that nobody read may be the other one: the worse of the two decides.
    let unread = judged(&wheel_bay("", oiled, Some(own())), "310");
    let of_m20 = judged(&wheel_bay("m20", oiled, None), "310");
    assert_eq!(unread.0, of_m20.0);
}

#[test]
fn order_and_seat_of_the_shop_go_before_the_printed_ones() {
    let own = || Some(values("hub-m22", spec("300", "320")));
    let card = wheel_bay("m22", "dry", own()).card();
    assert_eq!(torque::order(&card, L2).unwrap().order(), [1, 3, 2, 4]);
    let seat = torque::seat(&card, R2).unwrap();
    let documents: Vec<&str> = seat
        .limits
        .iter()
        .map(|limit| limit.source.document)
        .collect();
    assert_eq!(documents, ["Shop sheet", "Shop sheet"]);
    // Not for a wheel with another number of nuts, nor for one that nobody read.
    let mut bay = wheel_bay("m22", "dry", own());
    bay.fact("tess", A2, "studs", FactValue::Count(10)).unwrap();
    assert_eq!(torque::order(&bay.card(), L2).unwrap().order().len(), 10);
    let unread = wheel_bay("", "dry", own()).card();
    assert!(torque::of_shop(&unread, L2).is_none());
    let seat = torque::seat(&unread, L2).unwrap();
    assert!(
        seat.limits
            .iter()
            .all(|limit| limit.source.document != "Shop sheet")
    );
}

#[test]
fn two_versions_that_had_not_seen_each_other_are_both_held() {
    let take = |bay: &mut Bay, low: &str, high: &str| {
        let values = Box::new(values("hub-m22", spec(low, high)));
        bay.force("tess", Event::ShopTaken { values });
    };
    let mut here = wheel_bay("m22", "threads-and-washer", None);
    let mut there = here.other_tablet("tablet-b");
    take(&mut here, "300", "320");
    take(&mut there, "310", "340");
    let ours = [judged(&here, "305").0, judged(&here, "330").0];
    assert_eq!(ours, ["within", "beyond"]);
    let theirs = [judged(&there, "305").0, judged(&there, "330").0];
    assert_eq!(theirs, ["beyond", "within"]);
    for line in there.trail.all() {
        here.trail.take_in(line.clone());
    }
    assert_eq!(here.card().shop_versions().count(), 2);
    for (value, verdict) in [("305", "beyond"), ("315", "within"), ("330", "beyond")] {
        assert_eq!(judged(&here, value).0, verdict, "{value}");
    }
    // Who has seen both takes one, and that one decides.
    take(&mut here, "310", "340");
    assert_eq!(here.card().shop_versions().count(), 1);
    assert_eq!(judged(&here, "330").0, "within");
}

#[test]
fn what_is_new_on_the_sheet_is_told_as_its_entries() {
    let mut shop = Shop::new();
    shop.keep(set_wheel("hub-m22", Some(spec("300", "320"))));
    shop.keep(set_default("jurisdiction", Some("quebec")));
    let mut bay = Bay::open();
    let events = |bay: &Bay, shop: &Shop| since_taken(&bay.card(), &shop.sheet());
    let first = events(&bay, &shop);
    assert!(
        matches!(
            first.as_slice(),
            [
                Event::WheelSet { spec: Some(_), .. },
                Event::DefaultSet {
                    option: Some(_),
                    ..
                }
            ]
        ),
        "{first:?}"
    );
    let draft = take_values(&bay.card(), &"tess".into(), &shop.sheet());
    bay.keep("tess", vec![draft.unwrap()]);
    assert_eq!(events(&bay, &shop), []);
    shop.keep(set_wheel("hub-m22", None));
    let gone = events(&bay, &shop);
    assert!(
        matches!(gone.as_slice(), [Event::WheelSet { spec: None, .. }]),
        "{gone:?}"
    );
}

#[test]
fn what_cannot_be_a_value_is_not_taken() {
    let with = |change: &dyn Fn(&mut WheelSpec)| {
        let mut spec = spec("300", "320");
        change(&mut spec);
        key(set_wheel("hub-m22", Some(spec)))
    };
    let text = |text: &str| typed(text, "lbf-ft");
    let swapped: [TypedText; 2] = [text("80"), text("60")];
    assert!(with(&|_| ()).starts_with("taken"));
    assert_eq!(with(&|spec| spec.low = text("321")), "shop.wheel-range");
    assert_eq!(
        with(&|spec| spec.low = typed("1", "in")),
        "shop.wheel-range"
    );
    assert_eq!(
        with(&|spec| spec.seat = Some(swapped.clone())),
        "shop.wheel-range"
    );
    assert_eq!(
        with(&|spec| spec.source = " ".to_owned()),
        "shop.wheel-source-missing"
    );
    assert_eq!(with(&|spec| spec.order = vec![1, 2, 2]), "shop.wheel-order");
    assert!(with(&|spec| spec.order = Vec::new()).starts_with("taken"));
    assert_eq!(key(set_wheel("square", None)), "refuse.not-offered");
    assert_eq!(
        key(set_default("jurisdiction", Some("mars"))),
        "refuse.not-offered"
    );
    assert_eq!(
        key(set_default("open-look-by", Some("not-asked"))),
        "refuse.not-offered"
    );
    assert_eq!(
        key(set_default("mounting", Some("spoke"))),
        "refuse.not-offered"
    );
}

#[test]
fn every_default_is_a_fact_of_the_procedure() {
    let bay = Bay::of_shipped(&["final-pass"], &[2]);
    let card = bay.card();
    let procedure = card.procedure.clone().unwrap();
    for (fact, options) in DEFAULTS {
        let FactKind::Choose(offered) = &procedure.fact(&fact.into()).unwrap().kind else {
            panic!("{fact} is no choice");
        };
        for option in options {
            assert!(offered.contains(&(*option).into()), "{fact} {option}");
        }
    }
    let FactKind::Choose(oils) = &procedure.fact(&"fastener-oil".into()).unwrap().kind else {
        panic!("no choice");
    };
    assert!(oils.contains(&spec("1", "2").oil));
}

#[test]
fn a_card_goes_by_the_values_it_took() {
    let mut shop = Shop::new();
    assert_eq!(for_new_card(&shop.sheet(), &[2, 3]), Ok(vec![]));
    let mut bay = Bay::of_shipped(&["final-pass"], &[2]);
    assert!(!is_behind(&bay.card(), &shop.sheet()));
    for wheel in WHEELS {
        shop.keep(set_wheel(wheel, Some(spec("300", "320"))));
    }
    shop.keep(set_default("jurisdiction", Some("quebec")));
    shop.keep(set_default("open-look-by", Some("foreman")));
    let drafts = for_new_card(&shop.sheet(), &[2]).unwrap();
    let facts: Vec<(Place, String)> = drafts
        .iter()
        .filter_map(|draft| {
            if let Event::FactSet { at, fact, .. } = draft.event() {
                Some((*at, fact.to_string()))
            } else {
                None
            }
        })
        .collect();
    let expected = [
        (V, "jurisdiction".to_owned()),
        (A2, "open-look-by".to_owned()),
    ];
    assert_eq!(facts, expected);
    bay.keep("tess", drafts);
    let card = bay.card();
    let taken = card.shop().cloned().unwrap();
    assert_eq!(taken.values, *shop.sheet().values());
    assert_eq!(card.choice(V, "jurisdiction").unwrap().as_str(), "quebec");
    assert!(!is_behind(&card, &shop.sheet()));
    assert_eq!(
        key(take_values(&card, &"tess".into(), &shop.sheet())),
        "refuse.shop-taken"
    );
    // The sheet goes on; the card stays with what it took until somebody takes the new one.
    shop.keep(set_wheel("spoke", None));
    shop.keep(set_default("jurisdiction", None));
    assert!(is_behind(&card, &shop.sheet()));
    assert_eq!(bay.card().shop().cloned().unwrap().version, taken.version);
    let draft = take_values(&bay.card(), &"tess".into(), &shop.sheet());
    bay.keep("tess", vec![draft.unwrap()]);
    let now = bay.card().shop().cloned().unwrap();
    assert_ne!(now.version, taken.version);
    assert_eq!(now.version, shop.sheet().values().version());
    // A fact that was given stays as it was given.
    assert_eq!(
        bay.card().choice(V, "jurisdiction").unwrap().as_str(),
        "quebec"
    );
}

#[test]
fn a_sheet_goes_through_a_file_and_joins_another() {
    let mut ours = Shop::new();
    ours.keep(set_wheel("spoke", Some(spec("300", "320"))));
    let file = cardfile::write(&ours.0.trail, &cardfile::Photos::new());
    let (theirs, _) = cardfile::read(file.text.as_bytes()).unwrap();
    assert_eq!((theirs.card(), fold(&theirs)), (&card_id(), ours.sheet()));
    let mut other = Shop(ours.0.other_tablet("tablet-b"));
    other.0.trail = Trail::new(card_id());
    other.keep(set_wheel("ball-single", Some(spec("450", "500"))));
    for line in theirs.all() {
        other.0.trail.take_in(line.clone());
    }
    let wheels: Vec<String> = other
        .sheet()
        .values()
        .wheels
        .keys()
        .map(ToString::to_string)
        .collect();
    assert_eq!(wheels, ["ball-single", "spoke"]);
}

fn limit(rule: &str, side: LimitSide, of: Option<&str>, figure: &str, unit: &str) -> ShopLimit {
    ShopLimit {
        rule: rule.to_owned(),
        side,
        of: of.map(OptionId::from),
        law: None,
        figure: typed(figure, unit),
        source: " brake maker's sheet 4, p. 2 ".to_owned(),
        by: None,
    }
}

#[test]
fn limits_are_entered_replaced_and_taken_off() {
    use LimitSide::{AtLeast, AtMost};
    let radial = |kind, figure, unit| limit("camshaft.radial", AtMost, kind, figure, unit);
    let mut shop = Shop::new();
    shop.keep(set_limit(radial(Some("spider-30"), "0.025", "in")));
    shop.keep(set_limit(radial(None, "0.8", "mm")));
    shop.keep(set_limit(radial(Some("spider-30"), "0.5", "mm")));
    let sheet = shop.sheet();
    let listed: Vec<(Option<&str>, &str)> = sheet
        .values()
        .limits
        .iter()
        .map(|limit| {
            (
                limit.of.as_ref().map(OptionId::as_str),
                limit.figure.text.as_str(),
            )
        })
        .collect();
    assert_eq!(listed, [(None, "0.8"), (Some("spider-30"), "0.5")]);
    let first = sheet.values().limits[0].clone();
    assert_eq!(first.source, "brake maker's sheet 4, p. 2");
    assert_eq!(first.by, Some("fay".into()), "who entered it");
    let unsourced = ShopLimit {
        source: " ".to_owned(),
        ..radial(None, "0.8", "mm")
    };
    let of_moon = ShopLimit {
        law: Some("moon".into()),
        ..radial(None, "0.8", "mm")
    };
    for (wrong, expected) in [
        (radial(None, "0", "mm"), "shop.limit-none"),
        (radial(None, "ten", "mm"), "typed.fault.not-a-number"),
        (radial(None, "10", "lb"), "refuse.wrong-unit"),
        (unsourced, "shop.limit-source-missing"),
        (of_moon, "refuse.not-offered"),
        (
            limit("camshaft.radial", AtLeast, None, "1", "mm"),
            "refuse.not-offered",
        ),
        (
            limit("slack.clevis", AtMost, Some("d15"), "1", "mm"),
            "refuse.not-offered",
        ),
        (
            limit("support.jack", AtMost, None, "1", "mm"),
            "refuse.not-offered",
        ),
    ] {
        assert_eq!(key(set_limit(wrong)), expected);
    }
    shop.keep(drop_limit(&shop.sheet(), &first));
    assert_eq!(key(drop_limit(&shop.sheet(), &first)), "shop.limit-unknown");
    assert_eq!(shop.sheet().values().limits.len(), 1);
}

#[test]
fn every_limit_is_for_a_rule_and_a_fact_of_the_procedure() {
    let bay = Bay::of_shipped(&["final-pass"], &[2]);
    let card = bay.card();
    let procedure = card.procedure.clone().unwrap();
    for offered in LIMITS {
        assert!(
            crate::judge::RULES.contains(&offered.rule),
            "{}",
            offered.rule
        );
        assert!(!offered.sides.is_empty());
        let facts = match offered.kinds {
            Kinds::One | Kinds::Axle => vec![],
            Kinds::Of(fact) => vec![fact],
            Kinds::Narrowed { fact, by, unknown } => {
                let FactKind::Choose(classes) = &procedure.fact(&by.into()).unwrap().kind else {
                    panic!("{by} is no choice");
                };
                assert!(classes.contains(&unknown.into()));
                vec![fact, by]
            }
        };
        for fact in facts {
            let def = procedure.fact(&fact.into()).unwrap();
            assert!(matches!(def.kind, FactKind::Choose(_)), "{fact}");
        }
    }
    assert_eq!(super::laws(), ["us", "quebec", "ontario", "canada"]);
}

/// Verdict, document of the deciding limit, and the words beside it, of the last answer given.
fn said(
    bay: &Bay,
    at: Place,
    step: &str,
    ask: &str,
    answer: &Answer,
) -> (String, String, Vec<&'static str>) {
    let card = bay.card();
    let procedure = card.procedure.clone().unwrap();
    let step = procedure.step(&step.into()).unwrap();
    let ask = step.asks.iter().find(|of| of.id.as_str() == ask).unwrap();
    let judged = judge(&card, at, step, ask, answer).unwrap();
    let first = judged.judgements()[0];
    (
        first.verdict.code().to_owned(),
        first.source.document.to_owned(),
        first.remarks.iter().map(|said| said.word.key()).collect(),
    )
}

fn with_limits(steps: &[&str], limits: Vec<ShopLimit>) -> Bay {
    let mut bay = Bay::of_shipped(steps, &[2]);
    let values = Box::new(ShopValues {
        limits,
        ..ShopValues::default()
    });
    bay.force("tess", Event::ShopTaken { values });
    bay
}

#[test]
fn a_limit_of_the_shop_is_held_beside_the_printed_one() {
    let steps = ["camshaft"];
    let own = |kind, figure| limit("camshaft.radial", LimitSide::AtMost, kind, figure, "in");
    let play = |bay: &Bay, text: &str| said(bay, L2, "camshaft", "radial", &reading(text, "in"));
    // Nobody said which kind of brake it is: only a limit for every kind decides.
    let bay = with_limits(
        &steps,
        vec![own(None, "0.012"), own(Some("spider-30"), "0.005")],
    );
    for (text, verdict) in [
        ("0.011", "within"),
        ("0.012", "at-the-limit"),
        ("0.013", "beyond"),
    ] {
        let (got, document, words) = play(&bay, text);
        assert_eq!((got.as_str(), document.as_str()), (verdict, "Shop sheet"));
        assert_eq!(
            words
                .iter()
                .filter(|key| **key == "remark.own-limit")
                .count(),
            1
        );
    }
    let mut bay = with_limits(&steps, vec![own(Some("spider-30"), "0.090")]);
    bay.fact("tess", A2, "brake-kind", choice("spider-30"))
        .unwrap();
    let (verdict, document, words) = play(&bay, "0.031");
    assert_eq!(verdict, "beyond", "a looser one never helps");
    assert_ne!(document, "Shop sheet");
    assert!(words.contains(&"remark.own-limit"), "and is shown");
    assert_eq!(play(&bay, "0.029").0, "within");
    bay.fact("tess", A2, "brake-kind", choice("spider-20"))
        .unwrap();
    assert!(
        !play(&bay, "0.029").2.contains(&"remark.own-limit"),
        "it is for another kind"
    );
}

#[test]
fn a_provinces_figure_counts_where_it_is_entered() {
    let of = |law: Option<&str>, figure| ShopLimit {
        law: law.map(OptionId::from),
        ..limit("lining.thickness", LimitSide::AtLeast, None, figure, "mm")
    };
    let thick = |limits: Vec<ShopLimit>, province: &str| {
        let mut bay = with_limits(&["old-parts"], limits);
        bay.fact("tess", V, "jurisdiction", choice(province))
            .unwrap();
        said(&bay, L2, "old-parts", "lining", &reading("7", "mm"))
    };
    let us = "lining.remark.us-figure";
    let (verdict, _, words) = thick(Vec::new(), "ontario");
    assert_eq!((verdict.as_str(), words.contains(&us)), ("within", true));
    let (verdict, document, words) = thick(vec![of(Some("ontario"), "8")], "ontario");
    assert_eq!(
        (verdict.as_str(), document.as_str()),
        ("beyond", "Shop sheet")
    );
    assert!(!words.contains(&us));
    // A maker's figure is not the province's, and another province's is for nobody else.
    let (verdict, _, words) = thick(vec![of(None, "7.5")], "ontario");
    assert_eq!((verdict.as_str(), words.contains(&us)), ("beyond", true));
    let (verdict, _, words) = thick(vec![of(Some("ontario"), "8")], "canada");
    assert_eq!((verdict.as_str(), words.contains(&us)), ("within", true));
    let both = vec![of(Some("ontario"), "6.5"), of(None, "7.5")];
    let (verdict, _, words) = thick(both, "ontario");
    assert_eq!((verdict.as_str(), words.contains(&us)), ("beyond", false));
    assert_eq!(
        words
            .iter()
            .filter(|key| **key == "remark.own-limit")
            .count(),
        2
    );
}

#[test]
fn steps_of_the_shop_come_change_and_go() {
    let mut shop = Shop::new();
    let bay = Bay::of_shipped(&["final-pass"], &[2]);
    let procedure = bay.procedures.newest().clone();
    let step = |scope: Scope, words: &str| ShopStep {
        stage: "judge".into(),
        scope,
        words: words.to_owned(),
    };
    let set = |shop: &Shop, step: &ShopStep, was: Option<&StepId>| {
        set_step(&shop.sheet(), &procedure, step, was)
    };
    let mark = step(Scope::End, "Paint mark over each nut");
    shop.keep(set(
        &shop,
        &step(Scope::End, " Paint  mark over each nut "),
        None,
    ));
    assert_eq!(shop.sheet().values().steps, std::slice::from_ref(&mark));
    let long = "x".repeat(ShopStep::WORDS_MAX + 1);
    for (bad, expected) in [
        (step(Scope::End, "  "), "shop.step-words-missing"),
        (step(Scope::End, &long), "shop.step-words-too-long"),
        (
            step(Scope::Axle, "paint mark over EACH nut"),
            "shop.step-twice",
        ),
        (step(Scope::Group, "Wipe"), "refuse.not-offered"),
        (
            ShopStep {
                stage: "paint".into(),
                ..step(Scope::End, "Wipe")
            },
            "refuse.not-offered",
        ),
    ] {
        assert_eq!(key(set(&shop, &bad, None)), expected, "{bad:?}");
    }
    shop.keep(set(
        &shop,
        &step(Scope::Vehicle, "Photograph the plate"),
        None,
    ));
    // Changed, it stands where it stood, under another id; its own words are no twin.
    let longer = step(Scope::End, "Paint mark over each nut and the hub");
    shop.keep(set(&shop, &longer, Some(&mark.id())));
    let again = step(Scope::Axle, "Paint mark over each nut and the hub");
    assert!(set(&shop, &again, Some(&longer.id())).is_ok());
    let sheet = shop.sheet();
    let words: Vec<&str> = sheet
        .values()
        .steps
        .iter()
        .map(|own| own.words.as_str())
        .collect();
    assert_eq!(
        words,
        [
            "Paint mark over each nut and the hub",
            "Photograph the plate"
        ]
    );
    assert_eq!(
        key(set(&shop, &mark, Some(&mark.id()))),
        "shop.step-unknown"
    );
    let taken = for_new_card(&sheet, &[2]).unwrap();
    shop.keep(drop_step(&sheet, &longer.id()));
    assert_eq!(
        key(drop_step(&shop.sheet(), &longer.id())),
        "shop.step-unknown"
    );
    assert_eq!(shop.sheet().values().steps.len(), 1);
    // The card that took it keeps it, and is told that the sheet goes on.
    let mut bay = bay;
    bay.keep("tess", taken);
    assert!(is_behind(&bay.card(), &shop.sheet()));
    assert_eq!(bay.card().shop_steps.len(), 2);
    let dropped = Event::ShopStepDropped { step: longer.id() };
    assert_eq!(since_taken(&bay.card(), &shop.sheet()), [dropped]);
    let now = take_values(&bay.card(), &"tess".into(), &shop.sheet());
    bay.keep("tess", vec![now.unwrap()]);
    assert_eq!(bay.card().shop_steps.len(), 2);
    assert!(!is_behind(&bay.card(), &shop.sheet()));
    for n in 1..STEPS_MAX {
        shop.keep(set(&shop, &step(Scope::End, &format!("Step {n}")), None));
    }
    let one_more = step(Scope::End, "One more");
    assert_eq!(key(set(&shop, &one_more, None)), "shop.steps-too-many");
}

#[test]
fn where_and_how_the_final_pass_is_done_is_a_value_of_the_shop() {
    let mut shop = Shop::new();
    let way = FinalPass {
        on_stands: true,
        as_a_whole: true,
    };
    shop.keep(Ok(set_final_pass(way)));
    assert_eq!(shop.sheet().values().final_pass, way);
    assert_eq!(for_new_card(&shop.sheet(), &[2]).unwrap().len(), 1);
    let card = Bay::of_shipped(&["final-pass"], &[2]).card();
    let set = Event::FinalPassSet { way };
    assert_eq!(since_taken(&card, &shop.sheet()), [set]);
    shop.keep(Ok(set_final_pass(FinalPass::default())));
    assert_eq!(for_new_card(&shop.sheet(), &[2]), Ok(vec![]));
}

#[test]
fn a_stroke_limit_is_for_a_type_or_for_one_stroke_class_of_it() {
    use LimitSide::AtMost;
    let limits = vec![
        limit("slack.applied", AtMost, Some("t30"), "1.9", "in"),
        limit("slack.applied", AtMost, Some("t30/standard"), "1.7", "in"),
        limit("slack.applied", AtMost, Some("t30/long"), "1.8", "in"),
        limit("slack.applied", AtMost, Some("t24"), "1.1", "in"),
    ];
    let mut bay = with_limits(&["as-left"], limits);
    bay.fact("tess", L2, "chamber-family", choice("clamp"))
        .unwrap();
    bay.fact("tess", L2, "chamber-type", choice("t30")).unwrap();
    for (ask, option) in [
        ("engine", "off"),
        ("parking", "off"),
        ("application", "held"),
        ("heat", "cold"),
    ] {
        bay.say("tess", V, "as-left", ask, choose(option)).unwrap();
    }
    bay.say("tess", V, "as-left", "reservoir", reading("95", "psi"))
        .unwrap();
    bay.say("tess", L2, "as-left", "at-rest", reading("1", "in"))
        .unwrap();
    let stroke = |bay: &Bay, applied: &str| {
        let said = said(bay, L2, "as-left", "applied", &reading(applied, "in"));
        (said.0, said.1 == "Shop sheet")
    };
    let own = |verdict: &str| (verdict.to_owned(), true);
    // Nobody read the class: it counts as standard.
    assert_eq!(stroke(&bay, "2.75"), own("beyond"));
    for (class, within, beyond) in [
        ("standard", "2.65", "2.75"),
        ("long", "2.75", "2.85"),
        ("long-3", "2.85", "2.95"),
    ] {
        bay.fact("tess", L2, "stroke-class", choice(class)).unwrap();
        assert_eq!(stroke(&bay, within), own("within"), "{class}");
        assert_eq!(stroke(&bay, beyond), own("beyond"), "{class}");
    }
}

#[test]
fn a_free_stroke_is_held_against_the_shops_own_window() {
    use LimitSide::{AtLeast, AtMost};
    let of = |style| {
        vec![
            limit("slack.free", AtLeast, style, "0.4", "in"),
            limit("slack.free", AtMost, style, "0.6", "in"),
        ]
    };
    let free =
        |bay: &Bay, text: &str| said(bay, L2, "free-stroke", "free-stroke", &reading(text, "in"));
    // Where the style is not known nothing printed applies: the shop's own decides alone.
    let bay = with_limits(&["free-stroke"], of(None));
    for (text, verdict) in [
        ("0.39", "beyond"),
        ("0.4", "at-the-limit"),
        ("0.5", "within"),
        ("0.61", "beyond"),
    ] {
        let (got, document, words) = free(&bay, text);
        assert_eq!(
            (got.as_str(), document.as_str()),
            (verdict, "Shop sheet"),
            "{text}"
        );
        assert!(
            !words.contains(&"slack.remark.mechanism-unknown"),
            "{words:?}"
        );
    }
    let mut bay = with_limits(&["free-stroke"], of(Some("clutch")));
    bay.fact("tess", A2, "adjuster-style", choice("clutch"))
        .unwrap();
    // Printed for a clutch: 3/8 to 3/4 in.
    assert_eq!(free(&bay, "0.61").0, "beyond");
    assert_eq!(free(&bay, "0.3").0, "beyond");
    assert_eq!(free(&bay, "0.5").0, "within");
    // One end has another adjuster than its axle.
    bay.fact("tess", L2, "adjuster-here", choice("manual"))
        .unwrap();
    let (verdict, document, _) = free(&bay, "0.61");
    assert_eq!(verdict, "within");
    assert_ne!(document, "Shop sheet");
}

#[test]
fn a_lining_limit_is_for_the_steer_axle_or_for_the_others() {
    let of = |kind| {
        limit(
            "lining.thickness",
            LimitSide::AtLeast,
            Some(kind),
            "8",
            "mm",
        )
    };
    let thick = |axle: u8, kind| {
        let mut bay = Bay::of_shipped(&["old-parts"], &[axle]);
        let values = Box::new(ShopValues {
            limits: vec![of(kind)],
            ..ShopValues::default()
        });
        bay.force("tess", Event::ShopTaken { values });
        let end = Place::ends(axle)[0];
        said(&bay, end, "old-parts", "lining", &reading("7.5", "mm")).0
    };
    for (axle, kind, verdict) in [
        (1, "steer", "beyond"),
        (1, "other", "within"),
        (2, "steer", "within"),
        (2, "other", "beyond"),
    ] {
        assert_eq!(thick(axle, kind), verdict, "{axle} {kind}");
    }
}

#[test]
fn a_sheet_that_a_newer_app_wrote_on_gives_its_values_to_no_card() {
    let mut shop = Shop::new();
    shop.keep(set_wheel("spoke", Some(spec("300", "320"))));
    let bay = Bay::of_shipped(&["final-pass"], &[2]);
    let card = bay.card();
    assert!(take_values(&card, &"tess".into(), &shop.sheet()).is_ok());
    // The same line, of a kind that this app does not know.
    let line = shop.0.trail.in_order()[0].text().to_owned();
    let (_, json) = line.split_once(' ').unwrap();
    let newer = json.replace(r#""kind":"wheel-set""#, r#""kind":"wheel-drawn""#);
    assert_ne!(newer, json);
    let newer = format!("{} {newer}", Sha::of(newer.as_bytes()));
    let sheet = fold(&Trail::read(card_id(), [newer.as_str()]));
    let taken = take_values(&card, &"tess".into(), &sheet);
    assert_eq!(key(taken), "shop.newer");
    assert_eq!(for_new_card(&sheet, &[2]).unwrap_err().key, "shop.newer");
}
