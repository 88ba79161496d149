use chrono::NaiveDate;

use super::{Picking, day_of, offers, picking, with_pass};
use crate::bay::{Bay, L2, R2, key, typed};
use crate::card::StepState;
use crate::event::{Answer, FactValue, Item, WrenchTag, WrenchUsed};
use crate::id::Place;
use crate::judge::Units;
use crate::procedure::Step;
use crate::shop::{self, ShopSheet};
use crate::trail::Trail;

const A2: Place = Place::Axle(2);

fn date(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

fn tag(low: &str, high: &str, calibrated: Option<&str>) -> WrenchTag {
    WrenchTag {
        low: typed(low, "lbf-ft"),
        high: typed(high, "lbf-ft"),
        calibrated: calibrated.map(date),
        interval_days: None,
    }
}

/// The bay's clock stands on 21 September 2026.
fn good() -> WrenchTag {
    tag("100", "600", Some("2026-06-01"))
}

fn sheet(wrenches: &[(&str, WrenchTag)]) -> ShopSheet {
    let mut bay = Bay::empty();
    bay.trail = Trail::new(shop::card_id());
    for (name, tag) in wrenches {
        let today = day_of(bay.stamp());
        let draft = shop::list_wrench(&shop::fold(&bay.trail), name, tag.clone(), today);
        bay.keep("fay", vec![draft.unwrap()]);
    }
    shop::fold(&bay.trail)
}

/// A bay at the last pass of axle 2, with the value in hand if there is one.
fn bay(value: Option<&str>) -> (Bay, Step) {
    let mut bay = Bay::of_shipped(&["final-pass"], &[2]);
    bay.fact("tess", A2, "studs", FactValue::Count(2)).unwrap();
    bay.fact(
        "tess",
        A2,
        "mounting",
        FactValue::Choice("hub-piloted".into()),
    )
    .unwrap();
    bay.fact("tess", A2, "stud-thread", FactValue::Choice("m22".into()))
        .unwrap();
    bay.fact("tess", A2, "fastener-oil", FactValue::Choice("dry".into()))
        .unwrap();
    if let Some(value) = value {
        let value = FactValue::Typed(typed(value, "lbf-ft"));
        bay.fact("tess", A2, "final-torque", value).unwrap();
    }
    let card = bay.card();
    let procedure = card.procedure.clone().unwrap();
    (bay, procedure.step(&"final-pass".into()).unwrap().clone())
}

fn used(bay: &Bay, name: &str, tag: WrenchTag) -> Answer {
    Answer::Wrench {
        used: Box::new(WrenchUsed {
            wrench: name.to_owned(),
            tag,
            on: day_of(bay.stamp()),
        }),
    }
}

fn picked(bay: &Bay, sheet: &ShopSheet, step: &Step, at: Place) -> String {
    match picking(&bay.card(), sheet, step, at, bay.stamp()) {
        Picking::Nothing => "nothing".to_owned(),
        Picking::Only(used) => format!("only {}", used.wrench),
        Picking::Ask(used) => {
            let names: Vec<&str> = used.iter().map(|used| used.wrench.as_str()).collect();
            format!("ask {}", names.join(" "))
        }
    }
}

#[test]
fn the_day_is_the_one_on_the_wall() {
    let (mut bay, _) = bay(None);
    // Half past one at night in Greenwich is the evening before four hours to the west.
    bay.now = "2026-09-22T01:30:00Z".parse().unwrap();
    assert_eq!(day_of(bay.stamp()), date("2026-09-21"));
}

#[test]
fn only_what_has_to_be_asked_is_asked() {
    type Listed<'a> = &'a [(&'a str, WrenchTag)];
    let over = || tag("100", "600", Some("2025-09-01"));
    let table: [(Listed<'_>, Option<&str>, &str); 8] = [
        (&[], Some("475"), "nothing"),
        (&[("A", good())], Some("475"), "only A"),
        (&[("A", good())], None, "nothing"),
        (&[("A", good()), ("B", good())], None, "nothing"),
        (&[("A", good()), ("B", good())], Some("475"), "ask A B"),
        // One that doesn't fit is never taken by itself.
        (&[("A", over())], Some("475"), "ask A"),
        (&[("A", tag("100", "600", None))], Some("475"), "ask A"),
        (
            &[("A", tag("10", "250", Some("2026-06-01")))],
            Some("475"),
            "ask A",
        ),
    ];
    for (listed, value, expected) in table {
        let (bay, step) = bay(value);
        assert_eq!(
            picked(&bay, &sheet(listed), &step, L2),
            expected,
            "{listed:?} {value:?}"
        );
    }
}

#[test]
fn the_one_used_last_comes_first() {
    let (mut bay, step) = bay(Some("475"));
    let sheet = sheet(&[("A", good()), ("B", good())]);
    let answer = used(&bay, "B", good());
    bay.say("tess", L2, "final-pass", "wrench", answer).unwrap();
    assert_eq!(picked(&bay, &sheet, &step, L2), "nothing");
    assert_eq!(picked(&bay, &sheet, &step, R2), "ask B A");
    assert_eq!(offers(&bay.card(), &sheet, bay.stamp())[0].wrench, "B");
}

#[test]
fn the_only_wrench_is_kept_with_the_first_nut() {
    let (mut bay, step) = bay(Some("475"));
    let sheet = sheet(&[("A", good())]);
    let nuts = step
        .asks
        .iter()
        .find(|ask| ask.id.as_str() == "nuts")
        .unwrap();
    let draft = with_pass(
        &bay.card(),
        &sheet,
        &"tess".into(),
        &step,
        nuts,
        L2,
        bay.stamp(),
        &Units::INCH_POUND,
    );
    bay.keep("tess", vec![draft.unwrap().unwrap()]);
    bay.nuts("tess", L2, 2);
    assert_eq!(bay.state(L2, "final-pass"), StepState::Done);
    let ask = step
        .asks
        .iter()
        .find(|ask| ask.id.as_str() == "wrench")
        .unwrap();
    let card = bay.card();
    let kept = card.slot(&step, ask, L2, Item::Only).unwrap();
    let verdicts: Vec<&str> = kept.live()[0]
        .value
        .judged
        .iter()
        .map(|then| then.verdict.as_str())
        .collect();
    assert_eq!(verdicts, ["within", "within"]);
    // Only the passes of the step bring it up.
    let again = with_pass(
        &card,
        &sheet,
        &"tess".into(),
        &step,
        ask,
        R2,
        bay.stamp(),
        &Units::INCH_POUND,
    );
    assert_eq!(again, Ok(None));
}

#[test]
fn a_value_outside_the_marks_is_refused() {
    for (low, high, expected) in [
        ("10", "474", "refuse.wrench-range"),
        ("476", "600", "refuse.wrench-range"),
        ("600", "100", "refuse.wrench-no-range"),
    ] {
        let (mut bay, _) = bay(Some("475"));
        let answer = used(&bay, "A", tag(low, high, Some("2026-06-01")));
        let said = bay.say("tess", L2, "final-pass", "wrench", answer);
        assert_eq!(key(&said, &bay.card()), expected, "{low} to {high}");
    }
    let (mut bay, _) = bay(Some("475"));
    let answer = used(&bay, "A", tag("475", "476", Some("2026-06-01")));
    bay.say("tess", L2, "final-pass", "wrench", answer).unwrap();
    bay.nuts("tess", L2, 2);
    assert_eq!(bay.state(L2, "final-pass"), StepState::Done);
}

#[test]
fn a_value_comes_before_its_wrench() {
    let (mut bay, _) = bay(None);
    let answer = used(&bay, "A", good());
    let said = bay.say("tess", L2, "final-pass", "wrench", answer);
    assert_eq!(key(&said, &bay.card()), "refuse.wrench-before-value");
}

#[test]
fn another_value_outside_the_marks_opens_the_pass_again() {
    let (mut bay, _) = bay(Some("475"));
    let answer = used(&bay, "A", tag("100", "480", Some("2026-06-01")));
    bay.say("tess", L2, "final-pass", "wrench", answer).unwrap();
    bay.nuts("tess", L2, 2);
    assert_eq!(bay.state(L2, "final-pass"), StepState::Done);
    let value = FactValue::Typed(typed("490", "lbf-ft"));
    bay.fact("tess", A2, "final-torque", value).unwrap();
    assert_eq!(bay.state(L2, "final-pass"), StepState::Unclear);
    let (card, step) = (bay.card(), "final-pass".into());
    let step = card.procedure.as_deref().unwrap().step(&step).unwrap();
    // Not a foreman's to pass: another wrench is wanted.
    assert!(!card.needs_foreman(step, L2));
}

#[test]
fn past_its_calibration_a_foreman_gives_a_reason() {
    for calibrated in [Some("2025-09-20"), None] {
        let (mut bay, step) = bay(Some("475"));
        let answer = used(&bay, "A", tag("100", "600", calibrated));
        bay.say("tess", L2, "final-pass", "wrench", answer).unwrap();
        bay.nuts("tess", L2, 2);
        assert_eq!(
            bay.state(L2, "final-pass"),
            StepState::Unclear,
            "{calibrated:?}"
        );
        assert!(bay.card().needs_foreman(&step, L2));
        let pass = |bay: &mut Bay, who: &str| {
            bay.pass(who, L2, "final-pass", "final-pass", "the other one is away")
        };
        assert!(pass(&mut bay, "tess").is_err());
        pass(&mut bay, "fay").unwrap();
        assert_eq!(bay.state(L2, "final-pass"), StepState::Done);
        // Another wrench is another question.
        let answer = used(&bay, "B", tag("100", "600", calibrated));
        bay.say("tess", L2, "final-pass", "wrench", answer).unwrap();
        assert_eq!(bay.state(L2, "final-pass"), StepState::Unclear);
    }
    // On the last day, and without a word of its own the shop has twelve months.
    let (mut bay, _) = bay(Some("475"));
    let answer = used(&bay, "A", tag("100", "600", Some("2025-09-21")));
    bay.say("tess", L2, "final-pass", "wrench", answer).unwrap();
    bay.nuts("tess", L2, 2);
    assert_eq!(bay.state(L2, "final-pass"), StepState::Done);
}

#[test]
fn what_is_left_to_a_foreman_does_not_stand_in_the_way_of_the_other_end() {
    let (mut bay, _) = bay(Some("475"));
    let next = |bay: &Bay| bay.card().next_to_do().map(|(at, _)| at);
    assert_eq!(next(&bay), Some(L2));
    let old = used(&bay, "old", tag("100", "600", Some("2020-01-01")));
    bay.say("tess", L2, "final-pass", "wrench", old).unwrap();
    // Its nuts are still open.
    assert_eq!(next(&bay), Some(L2));
    bay.nuts("tess", L2, 2);
    assert_eq!(bay.state(L2, "final-pass"), StepState::Unclear);
    assert_eq!(next(&bay), Some(R2));
    bay.nuts("tess", R2, 2);
    assert_eq!(next(&bay), Some(L2), "nothing else is open");
}
