//! Passes over the nuts: broken off, begun again, and said as a whole with exceptions.

use crate::bay::{A2, Bay, L2, SMALL, choice};
use crate::card::{AskState, Card};
use crate::event::{Answer, Exception, FactValue, Item};
use crate::procedures::Procedures;
use crate::{act, bay};

/// The small job, with the check pass begun again by a nut that turns.
fn at_the_wheel() -> Bay {
    let restarting = SMALL.replace(
        r#"{"id": "turned", "clears": false}"#,
        r#"{"id": "turned", "clears": false, "restarts": true}"#,
    );
    assert_ne!(restarting, SMALL);
    let mut bay = Bay::empty();
    bay.procedures = Procedures::read([], &restarting).unwrap();
    let drafts = act::open_card(bay.procedures.newest(), "0.1.0", &bay::setup(&[2])).unwrap();
    bay.keep("tess", drafts);
    bay.sign_on("tess", crate::event::Role::Technician);
    bay.secured();
    bay.up();
    bay.fact("tess", A2, "rim", choice("one-piece")).unwrap();
    bay.fact("tess", A2, "studs", FactValue::Count(4)).unwrap();
    bay
}

fn nut(bay: &mut Bay, step: &str, nut: u16, mark: &str) {
    let answer = Answer::Nut { mark: mark.into() };
    bay.answer("tess", L2, step, "nuts", Item::Nut(nut), answer)
        .unwrap();
}

fn whole(bay: &mut Bay, step: &str, but: &[(&str, &str)]) {
    let but = but
        .iter()
        .map(|(item, mark)| Exception {
            item: (*item).to_owned(),
            mark: (*mark).into(),
        })
        .collect();
    bay.say("tess", L2, step, "nuts", Answer::WholePass { but })
        .unwrap();
}

fn state(card: &Card, step: &str) -> AskState {
    let procedure = card.procedure.as_deref().unwrap();
    let step = procedure.step(&step.into()).unwrap();
    card.ask_state(step, &step.asks[0], L2)
}

fn good(card: &Card, step: &str) -> usize {
    let procedure = card.procedure.as_deref().unwrap();
    let step = procedure.step(&step.into()).unwrap();
    card.nuts_that_clear(step, &step.asks[0], L2)
}

#[test]
fn a_nut_that_clicked_at_once_is_done_again() {
    let mut bay = at_the_wheel();
    for n in 1..=4 {
        let mark = if n == 4 {
            "clicked-at-once"
        } else {
            "turned-and-clicked"
        };
        nut(&mut bay, "final-pass", n, mark);
    }
    assert_eq!(state(&bay.card(), "final-pass"), AskState::Unclear);
    nut(&mut bay, "final-pass", 4, "turned-and-clicked");
    assert_eq!(state(&bay.card(), "final-pass"), AskState::Clear);
}

#[test]
fn a_pass_that_rested_over_half_an_hour_begins_again() {
    let mut bay = at_the_wheel();
    nut(&mut bay, "final-pass", 1, "turned-and-clicked");
    bay.wait(30 * 60);
    nut(&mut bay, "final-pass", 2, "turned-and-clicked");
    assert_eq!(
        good(&bay.card(), "final-pass"),
        2,
        "on the half hour it goes on"
    );
    bay.wait(30 * 60 + 1);
    nut(&mut bay, "final-pass", 3, "turned-and-clicked");
    assert_eq!(good(&bay.card(), "final-pass"), 1);
    for n in [1, 2, 4] {
        nut(&mut bay, "final-pass", n, "turned-and-clicked");
    }
    assert_eq!(state(&bay.card(), "final-pass"), AskState::Clear);
}

#[test]
fn a_nut_that_turns_in_the_check_has_every_nut_checked_once_more() {
    let mut bay = at_the_wheel();
    for n in 1..=4 {
        nut(&mut bay, "final-pass", n, "turned-and-clicked");
    }
    for n in 1..=3 {
        nut(&mut bay, "check-pass", n, "held");
    }
    nut(&mut bay, "check-pass", 4, "turned");
    assert_eq!(good(&bay.card(), "check-pass"), 0);
    nut(&mut bay, "check-pass", 4, "held");
    assert_eq!(state(&bay.card(), "check-pass"), AskState::Partly);
    for n in 1..=3 {
        nut(&mut bay, "check-pass", n, "held");
    }
    assert_eq!(state(&bay.card(), "check-pass"), AskState::Clear);
}

#[test]
fn a_whole_pass_is_made_good_nut_by_nut_unless_a_nut_turned() {
    let mut bay = at_the_wheel();
    for n in 1..=4 {
        nut(&mut bay, "final-pass", n, "turned-and-clicked");
    }
    whole(&mut bay, "check-pass", &[("2", "turned")]);
    assert_eq!(state(&bay.card(), "check-pass"), AskState::Unclear);
    nut(&mut bay, "check-pass", 2, "held");
    assert_eq!(
        state(&bay.card(), "check-pass"),
        AskState::Unclear,
        "one that turned wants the whole pass again"
    );
    whole(&mut bay, "check-pass", &[]);
    assert_eq!(state(&bay.card(), "check-pass"), AskState::Clear);
    let out_of_range = Answer::WholePass {
        but: vec![Exception {
            item: "5".to_owned(),
            mark: "turned".into(),
        }],
    };
    let refused = bay.say("tess", L2, "check-pass", "nuts", out_of_range);
    assert_eq!(bay::key(&refused, &bay.card()), "refuse.not-offered");
}
