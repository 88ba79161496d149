use super::super::{Procedure, Scope, check};
use super::{CHECK_PASS, FINAL_PASS, LOWER, WHEEL_HELD};
use crate::act;
use crate::bay::{Bay, L2, R2, SMALL, V, choose, key, lines, look, reading};
use crate::card::{Card, StepState};
use crate::event::{Answer, Event, FinalPass, Item, Role, ShopStep, ShopValues};
use crate::hold::{Hold, first_hold};
use crate::id::{Place, StepId};
use crate::second_look::{Waits, waits};

const SHIPPED: &str = include_str!("../../../../../assets/procedure/s-cam-reline.json");

fn shop_step(stage: &str, scope: Scope, words: &str) -> ShopStep {
    ShopStep {
        stage: stage.into(),
        scope,
        words: words.to_owned(),
    }
}

fn taken(steps: &[ShopStep], final_pass: FinalPass) -> Event {
    Event::ShopTaken {
        values: Box::new(ShopValues {
            steps: steps.to_vec(),
            final_pass,
            ..ShopValues::default()
        }),
    }
}

fn order(procedure: &Procedure, id: &str) -> usize {
    procedure.order(&id.into()).unwrap()
}

fn waits_for(procedure: &Procedure, first: &StepId) -> Vec<String> {
    let holds = procedure.holds.iter().filter(|hold| hold.first == *first);
    holds.map(|hold| hold.then.to_string()).collect()
}

/// Every way in which the final pass may be done.
fn ways() -> [FinalPass; 4] {
    [(false, false), (true, false), (false, true), (true, true)].map(|(on_stands, as_a_whole)| {
        FinalPass {
            on_stands,
            as_a_whole,
        }
    })
}

#[test]
fn whatever_a_shop_adds_the_procedure_hangs_together_and_keeps_all_its_own() {
    let shipped = Procedure::read(SHIPPED).unwrap();
    let scopes = [Scope::End, Scope::Axle, Scope::Vehicle];
    let steps: Vec<ShopStep> = shipped
        .stages
        .iter()
        .flat_map(|stage| scopes.map(|scope| shop_step(stage.id.as_str(), scope, "Paint mark")))
        .collect();
    for way in ways() {
        let own = shipped.as_shop_does(&steps, way);
        check::resolve(&own).unwrap();
        assert_eq!(own.pin, shipped.pin);
        assert_eq!(own.steps().count(), shipped.steps().count() + steps.len());
        for step in shipped.steps() {
            let mine = own.step(&step.id).unwrap();
            assert_eq!(mine.protects(), step.protects(), "{}", step.id);
            assert!(mine.asks.len() >= step.asks.len());
        }
        // Every `!` stands as it stood: a shop takes none away and adds none.
        let protecting = |procedure: &Procedure| -> Vec<(StepId, StepId)> {
            let holds = procedure.holds.iter().filter(|hold| hold.protects);
            let ours = |id: &StepId| shipped.step(id).is_some();
            let mut all: Vec<_> = holds
                .filter(|hold| ours(&hold.then))
                .map(|hold| (hold.first.clone(), hold.then.clone()))
                .collect();
            all.sort();
            all
        };
        assert_eq!(protecting(&own), protecting(&shipped));
        for step in &steps {
            assert!(!own.step(&step.id()).unwrap().protects());
        }
    }
}

#[test]
fn a_step_stands_at_the_end_of_its_stage_and_before_what_waits_for_it() {
    let shipped = Procedure::read(SHIPPED).unwrap();
    for (stage, scope, after, then) in [
        ("secure", Scope::Vehicle, "dust", "record"),
        ("strip", Scope::Axle, "shoes-off", "second-look"),
        ("wheels", Scope::End, "run-up", "second-look"),
        ("prove", Scope::End, "as-left", "second-look"),
        ("prove", Scope::Vehicle, "as-left", "record"),
        ("hand-back", Scope::End, "lines", "record"),
        ("hand-back", Scope::Vehicle, "lines", "record"),
    ] {
        let step = shop_step(stage, scope, "Wipe the step down");
        let own = shipped.as_shop_does(std::slice::from_ref(&step), FinalPass::default());
        let id = step.id();
        assert_eq!(own.order(&id), Some(order(&own, after) + 1), "{stage}");
        assert_eq!(waits_for(&own, &id), [then], "{stage} {scope:?}");
        assert_eq!(own.stage_of(&id).unwrap().id.as_str(), stage);
    }
    for unfit in [
        shop_step("paint", Scope::End, "Wipe"),
        shop_step("wheels", Scope::End, "  "),
    ] {
        let own = shipped.as_shop_does(&[unfit], FinalPass::default());
        assert_eq!(own.steps().count(), shipped.steps().count());
    }
}

#[test]
fn an_id_is_of_these_words_at_this_place() {
    let one = shop_step("wheels", Scope::End, "Paint mark");
    assert_eq!(one.id(), one.clone().id());
    assert!(one.id().as_str().starts_with("shop-"));
    for other in [
        shop_step("wheels", Scope::End, "Paint marks"),
        shop_step("wheels", Scope::Axle, "Paint mark"),
        shop_step("ground", Scope::End, "Paint mark"),
    ] {
        assert_ne!(one.id(), other.id());
    }
    let shipped = Procedure::read(SHIPPED).unwrap();
    assert!(
        shipped
            .steps()
            .all(|step| !step.id.as_str().starts_with("shop-"))
    );
}

#[test]
fn on_stands_the_final_pass_comes_first_and_the_check_stays_on_the_ground() {
    let shipped = Procedure::read(SHIPPED).unwrap();
    let way = FinalPass {
        on_stands: true,
        as_a_whole: false,
    };
    let own = shipped.as_shop_does(&[], way);
    assert!(order(&own, FINAL_PASS) < order(&own, LOWER));
    assert!(order(&own, LOWER) < order(&own, CHECK_PASS));
    assert!(waits_for(&own, &LOWER.into()).contains(&CHECK_PASS.to_owned()));
    assert!(!waits_for(&own, &LOWER.into()).contains(&FINAL_PASS.to_owned()));
    assert!(waits_for(&own, &FINAL_PASS.into()).contains(&LOWER.to_owned()));
    for before in ["seat-pass", "free-stroke"] {
        let holds = waits_for(&own, &before.into());
        assert!(holds.contains(&FINAL_PASS.to_owned()), "{before}");
        assert!(holds.contains(&LOWER.to_owned()), "{before}");
    }
    let pass = own.step(&FINAL_PASS.into()).unwrap();
    assert_eq!(pass.asks[0].id.as_str(), WHEEL_HELD);
    // A procedure without these steps is left as it is.
    let small = Procedure::read(SMALL).unwrap();
    let same = small.as_shop_does(&[], way);
    assert_eq!(same.stages, small.stages);
}

/// A wheel end that waits for nothing but its second look.
fn built() -> Bay {
    let mut bay = Bay::raised();
    bay.built("tess", L2);
    bay.sign_on("fay", Role::Foreman);
    bay
}

fn undone(card: &Card, step: &str, at: Place) -> Option<String> {
    match first_hold(card, &step.into(), at) {
        Some(Hold::NotYet {
            first,
            protects: false,
            ..
        }) => Some(first.to_string()),
        other => other.map(|hold| format!("{hold:?}")),
    }
}

#[test]
fn a_card_asks_the_steps_it_took_and_the_second_look_waits() {
    let mut bay = built();
    let (done, of) = bay.card().progress();
    let mark = shop_step("wheels", Scope::End, "Paint mark over each nut");
    bay.force(
        "fay",
        taken(std::slice::from_ref(&mark), FinalPass::default()),
    );
    let (card, id) = (bay.card(), mark.id());
    assert_eq!(card.progress(), (done, of + 2));
    assert_eq!(undone(&card, "second-look", L2), Some(id.to_string()));
    assert_eq!(waits(&card, L2), Some(Waits::NotYet));
    let at_end = card.path().into_iter().filter(|(_, step)| step.id == id);
    assert_eq!(at_end.map(|(at, _)| at).collect::<Vec<_>>(), [L2, R2]);
    bay.say("tess", L2, id.as_str(), "done", lines()).unwrap();
    assert_eq!(undone(&bay.card(), "second-look", L2), None);
    assert_eq!(waits(&bay.card(), L2), Some(Waits::ForTheFirst));
    bay.say("fay", L2, "second-look", "look", look(true))
        .unwrap();
    assert_eq!(waits(&bay.card(), L2), Some(Waits::Accepted));
    assert!(
        bay.card()
            .entries
            .iter()
            .all(|entry| entry.though.is_none())
    );
}

#[test]
fn a_foreman_passes_a_step_of_the_shop_with_a_reason_like_any_other() {
    let mut bay = built();
    let mark = shop_step("wheels", Scope::End, "Paint mark over each nut");
    bay.force(
        "fay",
        taken(std::slice::from_ref(&mark), FinalPass::default()),
    );
    let id = mark.id();
    let refused = bay.pass("tess", L2, "second-look", id.as_str(), "no paint");
    assert_eq!(key(&refused, &bay.card()), "refuse.foreman-only");
    bay.pass("fay", L2, "second-look", id.as_str(), "no paint left")
        .unwrap();
    assert_eq!(undone(&bay.card(), "second-look", L2), None);
}

#[test]
fn what_is_taken_later_stays_said_of_a_look_and_what_is_dropped_stays_on_the_card() {
    let mut bay = built();
    bay.say("fay", L2, "second-look", "look", look(true))
        .unwrap();
    let mark = shop_step("wheels", Scope::End, "Paint mark over each nut");
    bay.force(
        "fay",
        taken(std::slice::from_ref(&mark), FinalPass::default()),
    );
    // Nothing that was shown has changed; what is said afterwards does.
    assert_eq!(waits(&bay.card(), L2), Some(Waits::Accepted));
    bay.say("tess", L2, mark.id().as_str(), "done", lines())
        .unwrap();
    assert_eq!(waits(&bay.card(), L2), Some(Waits::Changed));
    let other = shop_step("strip", Scope::Axle, "Photograph the axle tag");
    bay.force(
        "fay",
        taken(std::slice::from_ref(&other), FinalPass::default()),
    );
    let card = bay.card();
    assert_eq!(card.shop_steps, [mark.clone(), other]);
    assert_eq!(bay.state(L2, mark.id().as_str()), StepState::Done);
    assert_eq!(bay.state(R2, mark.id().as_str()), StepState::Open);
}

#[test]
fn two_tablets_that_took_different_steps_come_to_one_card() {
    let mut one = built();
    let mut two = one.other_tablet("tablet-b");
    let marks =
        ["Paint mark", "Photograph the nuts"].map(|words| shop_step("wheels", Scope::End, words));
    for (bay, mark) in [(&mut one, &marks[0]), (&mut two, &marks[1])] {
        bay.force(
            "fay",
            taken(std::slice::from_ref(mark), FinalPass::default()),
        );
        bay.say("tess", L2, mark.id().as_str(), "done", lines())
            .unwrap();
    }
    let mut there = two.trail.clone();
    one.trail.merge(&two.trail);
    there.merge(&one.trail);
    let card = one.card();
    assert_eq!(card.shop_steps, marks);
    assert_eq!(one.state(L2, marks[0].id().as_str()), StepState::Done);
    assert_eq!(one.state(L2, marks[1].id().as_str()), StepState::Done);
    let other = crate::card::fold(&there, &one.procedures);
    assert_eq!(other.entries, card.entries);
    assert_eq!(other.shop_steps, card.shop_steps);
    assert!(card.entries.iter().all(|entry| entry.though.is_none()));
}

fn nut(bay: &mut Bay, n: u16, mark: &str) -> Result<(), act::Refusal> {
    let mark = Answer::Nut { mark: mark.into() };
    bay.answer("tess", L2, "final-pass", "nuts", Item::Nut(n), mark)?;
    Ok(())
}

#[test]
fn a_final_pass_is_said_as_a_whole_only_where_the_shop_logs_it_so() {
    let mut bay = Bay::raised();
    bay.stripped("tess", L2);
    bay.say("tess", L2, "hang", "hung", lines()).unwrap();
    let whole = |but: &[u16]| Answer::WholePass {
        but: but
            .iter()
            .map(|nut| crate::event::Exception {
                item: nut.to_string(),
                mark: "clicked-at-once".into(),
            })
            .collect(),
    };
    let refused = bay.say("tess", L2, "final-pass", "nuts", whole(&[]));
    assert_eq!(key(&refused, &bay.card()), "refuse.wrong-kind");
    let way = FinalPass {
        on_stands: false,
        as_a_whole: true,
    };
    bay.force("fay", taken(&[], way));
    bay.say("tess", L2, "final-pass", "nuts", whole(&[2]))
        .unwrap();
    assert_eq!(bay.state(L2, "final-pass"), StepState::Unclear);
    nut(&mut bay, 2, "turned-and-clicked").unwrap();
    assert_eq!(bay.state(L2, "final-pass"), StepState::Done);
}

#[test]
fn a_final_pass_broken_off_too_long_begins_again_however_the_shop_logs_it() {
    let way = FinalPass {
        on_stands: false,
        as_a_whole: true,
    };
    let mut bay = Bay::raised();
    bay.stripped("tess", L2);
    bay.say("tess", L2, "hang", "hung", lines()).unwrap();
    bay.force("fay", taken(&[], way));
    nut(&mut bay, 1, "turned-and-clicked").unwrap();
    bay.wait(31 * 60);
    nut(&mut bay, 2, "turned-and-clicked").unwrap();
    assert_eq!(bay.state(L2, "final-pass"), StepState::Begun);
}

#[test]
fn the_wheel_is_said_to_be_kept_from_turning() {
    let mut bay = Bay::of_shipped(&["lower", "final-pass", "check-pass"], &[2]);
    let on_stands = FinalPass {
        on_stands: true,
        as_a_whole: false,
    };
    bay.force("fay", taken(&[], on_stands));
    let refused = bay.say("tess", L2, "final-pass", WHEEL_HELD, choose("air"));
    assert_eq!(key(&refused, &bay.card()), "refuse.not-offered");
    let card = bay.card();
    let step = card
        .procedure
        .as_deref()
        .unwrap()
        .step(&"final-pass".into());
    let step = step.unwrap().clone();
    let clear = |bay: &Bay| bay.card().ask_state(&step, &step.asks[0], L2);
    for (said, expected) in [
        ("turns", crate::card::AskState::Unclear),
        ("bar", crate::card::AskState::Clear),
        ("on-the-ground", crate::card::AskState::Clear),
    ] {
        bay.say("tess", L2, "final-pass", WHEEL_HELD, choose(said))
            .unwrap();
        assert_eq!(clear(&bay), expected, "{said}");
    }
    // Where the sheet says "on the ground" again nothing asks for it any more.
    bay.force("fay", taken(&[], FinalPass::default()));
    let refused = bay.say("tess", L2, "final-pass", WHEEL_HELD, choose("bar"));
    assert!(refused.is_err());
    assert!(
        bay.say("tess", V, "final-pass", "nuts", reading("1", "in"))
            .is_err()
    );
}

#[test]
fn tablets_that_took_different_ways_unseen_do_as_the_procedure_has_it() {
    let mut one = built();
    let mut two = one.other_tablet("tablet-b");
    let whole = FinalPass {
        on_stands: false,
        as_a_whole: true,
    };
    one.force("fay", taken(&[], whole));
    two.force("fay", taken(&[], FinalPass::default()));
    one.trail.merge(&two.trail);
    let may = |bay: &Bay| {
        let card = bay.card();
        let ask = card.procedure.clone().unwrap();
        let ask = ask.ask(&"final-pass".into(), &"nuts".into()).cloned();
        matches!(ask.unwrap().kind, crate::procedure::AskKind::Pass(pass) if pass.may_be_whole())
    };
    assert!(!may(&one));
    one.force("fay", taken(&[], whole));
    assert!(may(&one), "somebody who saw both took them anew");
}
