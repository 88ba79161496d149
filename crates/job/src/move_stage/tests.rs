use super::{move_stage, to_move};
use crate::act::{Draft, Refusal, TEXT_MAX};
use crate::bay::{
    A2, A3, Bay, L2, L3, R2, V, choice, choose, in_order, key, look, person, reading,
};
use crate::card::StepState;
use crate::event::{LineState, Role};
use crate::id::Place;
use crate::judge::Units;

fn shift(
    bay: &Bay,
    who: &str,
    stage: &str,
    ends: (Place, Place),
    why: &str,
) -> Result<Vec<Draft>, Refusal> {
    move_stage(
        &bay.card(),
        &person(who),
        &stage.into(),
        ends,
        why,
        bay.stamp(),
        &Units::INCH_POUND,
    )
}

fn go(bay: &mut Bay, who: &str, stage: &str, ends: (Place, Place)) -> Result<(), Refusal> {
    let drafts = shift(bay, who, stage, ends, "wrong wheel end")?;
    bay.keep(who, drafts);
    Ok(())
}

/// The strip of the right end, written at the left one.
fn wrong_end() -> Bay {
    let mut bay = Bay::raised();
    bay.stripped("tess", L2);
    bay.say("tess", R2, "tyres", "state", choose("no-damage"))
        .unwrap();
    bay
}

fn marked(bay: &Bay) -> usize {
    let card = bay.card();
    let marked = card.entries.iter().filter(|entry| entry.though.is_some());
    marked.count()
}

#[test]
fn a_stage_is_moved_and_nothing_vanishes() {
    let mut bay = wrong_end();
    let before = bay.card().entries.len();
    assert_eq!(to_move(&bay.card(), &"strip".into(), L2), 3);
    go(&mut bay, "tess", "strip", (L2, R2)).unwrap();
    for step in ["nuts-off", "hoses", "drum"] {
        assert_eq!(bay.state(R2, step), StepState::Done, "{step}");
        assert_ne!(bay.state(L2, step), StepState::Done, "{step}");
    }
    assert_eq!(bay.state(L2, "tyres"), StepState::Done, "another stage");
    let card = bay.card();
    assert_eq!(card.entries.len(), before + 6);
    let struck = card.entries.iter().filter(|entry| entry.struck.is_some());
    assert_eq!(struck.count(), 3);
    assert_eq!(marked(&bay), 0);
    // And back.
    go(&mut bay, "tess", "strip", (R2, L2)).unwrap();
    assert_eq!(bay.state(L2, "drum"), StepState::Done);
    assert_eq!(marked(&bay), 0);
}

#[test]
fn what_protects_is_open_where_it_was_never_done() {
    let mut bay = wrong_end();
    bay.say("tess", R2, "nuts-off", "nuts", in_order()).unwrap();
    bay.say("tess", R2, "hoses", "found", in_order()).unwrap();
    bay.say("tess", R2, "drum", "seen", choose("sound"))
        .unwrap();
    bay.torqued("tess", L2);
    go(&mut bay, "tess", "wheels", (L2, R2)).unwrap();
    assert_eq!(bay.state(R2, "final-pass"), StepState::Done);
    assert_eq!(bay.state(R2, "check-pass"), StepState::Done);
    assert_eq!(bay.state(L2, "final-pass"), StepState::Open);
    assert_eq!(marked(&bay), 0, "what was moved rests on nothing struck");
    let refused = bay.say("tess", R2, "hang", "hung", crate::bay::lines());
    assert!(refused.is_ok(), "before what was struck");
    bay.sign_on("fay", Role::Foreman);
    let stopped = bay.say("fay", R2, "second-look", "look", look(true));
    assert_eq!(key(&stopped, &bay.card()), "hold.stopped");
}

#[test]
fn a_move_is_refused() {
    let long = "x".repeat(TEXT_MAX + 1);
    let mut bay = wrong_end();
    bay.sign_on("bo", Role::Technician);
    bay.tag("bo").unwrap();
    let rows = [
        ("zoe", "strip", (L2, R2), "wrong end", "hold.sign-on"),
        ("bo", "strip", (L2, R2), "wrong end", "refuse.foreman-only"),
        ("tess", "strip", (L2, L2), "wrong end", "hold.not-on-path"),
        ("tess", "strip", (L2, A2), "wrong end", "hold.not-on-path"),
        ("tess", "strip", (V, R2), "wrong end", "hold.not-on-path"),
        ("tess", "strip", (L2, L3), "wrong end", "hold.not-on-path"),
        (
            "tess",
            "wheels",
            (L2, R2),
            "wrong end",
            "refuse.nothing-to-move",
        ),
        (
            "tess",
            "ashtray",
            (L2, R2),
            "wrong end",
            "refuse.nothing-to-move",
        ),
        ("tess", "secure", (L2, R2), "wrong end", "refuse.move-over"),
        ("tess", "strip", (L2, R2), "  ", "refuse.reason-missing"),
        ("tess", "strip", (L2, R2), &long, "setup.text-too-long"),
    ];
    for (who, stage, ends, why, expected) in rows {
        let refused = shift(&bay, who, stage, ends, why);
        assert_eq!(
            key(&refused, &bay.card()),
            expected,
            "{who} {stage} {ends:?}"
        );
    }
}

#[test]
fn nothing_is_moved_past_a_hold() {
    // Axle 3 is in hand, and still on the ground.
    let mut bay = Bay::with_axles(&[2, 3]);
    bay.secured();
    bay.up();
    bay.stripped("tess", L2);
    bay.fact("tess", A3, "rim", choice("one-piece")).unwrap();
    let refused = shift(&bay, "tess", "strip", (L2, L3), "wrong end");
    assert_eq!(key(&refused, &bay.card()), "hold.not-yet");
    // Nor over a part that waits for its line.
    let mut bay = wrong_end();
    bay.say("tess", R2, "nuts-off", "nuts", in_order()).unwrap();
    bay.say("tess", R2, "hoses", "found", in_order()).unwrap();
    bay.say("tess", R2, "drum", "seen", choose("sound"))
        .unwrap();
    bay.torqued("tess", L2);
    bay.find("tess", R2, "seal").unwrap();
    let refused = shift(&bay, "tess", "wheels", (L2, R2), "wrong end");
    assert_eq!(key(&refused, &bay.card()), "hold.covers-up");
}

#[test]
fn readings_of_a_round_move_with_their_stage() {
    let mut bay = Bay::open();
    bay.chocked();
    bay.say("tess", L2, "as-found", "applied", reading("1 1/2", "in"))
        .unwrap();
    go(&mut bay, "tess", "secure", (L2, R2)).unwrap();
    assert_eq!(to_move(&bay.card(), &"secure".into(), L2), 0);
    assert_eq!(to_move(&bay.card(), &"secure".into(), R2), 1);
    assert_eq!(marked(&bay), 0);
}

#[test]
fn a_line_that_came_of_an_answer_moves_with_it_unless_somebody_was_asked() {
    for asked in [false, true] {
        let mut bay = Bay::raised();
        bay.stripped("tess", L2);
        bay.say("tess", R2, "tyres", "state", choose("no-damage"))
            .unwrap();
        let line = bay
            .say_with_line("tess", L2, "drum", "seen", choose("replace"))
            .unwrap();
        if asked {
            bay.tell("tess", &line, LineState::Waiting).unwrap();
        }
        go(&mut bay, "tess", "strip", (L2, R2)).unwrap();
        let card = bay.card();
        let at = |at: Place| {
            card.extra_lines()
                .iter()
                .filter(|line| line.at == at)
                .count()
        };
        assert_eq!((at(L2), at(R2)), (usize::from(asked), 1), "{asked}");
        assert_eq!(bay.state(R2, "drum"), StepState::Unclear);
    }
}

#[test]
fn a_foremans_move_and_a_look_that_stays() {
    let mut bay = wrong_end();
    bay.sign_on("fay", Role::Foreman);
    go(&mut bay, "fay", "strip", (L2, R2)).unwrap();
    assert_eq!(bay.state(R2, "drum"), StepState::Done);
    let mut bay = Bay::raised();
    bay.built("tess", L2);
    bay.sign_on("fay", Role::Foreman);
    bay.say("fay", L2, "second-look", "look", look(true))
        .unwrap();
    assert_eq!(to_move(&bay.card(), &"wheels".into(), L2), 4);
}

#[test]
fn nothing_is_moved_after_a_gap_before_the_look() {
    let mut bay = wrong_end();
    bay.wait(5 * 3600);
    let refused = shift(&bay, "tess", "strip", (L2, R2), "wrong end");
    assert_eq!(key(&refused, &bay.card()), "hold.came-back");
    bay.come_back("tess", &[], None).unwrap();
    assert!(shift(&bay, "tess", "strip", (L2, R2), "wrong end").is_ok());
}
