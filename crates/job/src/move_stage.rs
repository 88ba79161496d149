//! "Wrong wheel end": what was written at one wheel end is moved to the other, stage by stage.
//!
//! Nothing vanishes: each answer is taken back where it stands and given again where it belongs,
//! in one action. A `!` that was only ever answered at the wrong wheel end is then open there.

use crate::act::{Draft, Refusal};
use crate::card::Card;
use crate::event::{Answer, Event, Role};
use crate::hold::{self, Hold};
use crate::id::{PersonId, Place, StageId};
use crate::judge::{self, Units};
use crate::line::Stamp;

/// How much of a stage would move from one wheel end to another.
pub fn to_move(card: &Card, stage: &StageId, from: Place) -> usize {
    entries(card, stage, from).count()
}

/// Moves the answers of one stage from one wheel end to the other one.
pub fn move_stage(
    card: &Card,
    who: &PersonId,
    stage: &StageId,
    (from, to): (Place, Place),
    why: &str,
    now: Stamp,
    units: &Units,
) -> Result<Vec<Draft>, Refusal> {
    if let Some(hold) = hold::may_act(card, who).or_else(|| hold::of_gap(card, now)) {
        return Err(hold.into());
    }
    if from == to || !matches!((from, to), (Place::End(..), Place::End(..))) {
        return Err(Hold::NotOnPath.into());
    }
    let procedure = card.procedure.as_deref().ok_or(Hold::UnknownProcedure)?;
    let moved: Vec<_> = entries(card, stage, from).collect();
    if moved.is_empty() {
        return Err(Refusal::plain("refuse.nothing-to-move"));
    }
    if to_move(card, stage, to) > 0 {
        return Err(Refusal::plain("refuse.move-over"));
    }
    let is_foreman = card.role(who) == Some(Role::Foreman);
    if !is_foreman && moved.iter().any(|(_, _, given)| given.who != *who) {
        return Err(Refusal::plain("refuse.foreman-only"));
    }
    let mut drafts = Vec::new();
    for (key, line, given) in moved {
        let step = procedure.step(&key.step).ok_or(Hold::NotOnPath)?;
        let ask = procedure.ask(&key.step, &key.ask).ok_or(Hold::NotOnPath)?;
        drafts.push(Draft::new(Event::Struck {
            line: line.clone(),
            why: Some(why.to_owned()),
        }));
        let judged = judge::judge(card, to, step, ask, &given.answer)
            .map(|judged| judged.then(units))
            .unwrap_or_default();
        drafts.push(Draft::new(Event::Answered {
            at: to,
            step: key.step.clone(),
            ask: key.ask.clone(),
            item: key.item.clone(),
            answer: given.answer.clone(),
            beside: given.beside.clone(),
            judged,
        }));
    }
    Ok(drafts)
}

fn entries<'a>(
    card: &'a Card,
    stage: &'a StageId,
    from: Place,
) -> impl Iterator<
    Item = (
        &'a crate::card::SlotKey,
        &'a crate::line::LineRef,
        &'a crate::card::Given,
    ),
> {
    let of_stage = move |step: &crate::id::StepId| {
        card.procedure
            .as_deref()
            .and_then(|procedure| procedure.stage_of(step))
            .is_some_and(|of| of.id == *stage)
    };
    card.answers
        .iter()
        .filter(move |(key, _)| key.at == from && of_stage(&key.step))
        .flat_map(|(key, slot)| {
            slot.live()
                .iter()
                .map(move |held| (key, &held.line, &held.value))
        })
        .filter(|(_, _, given)| !matches!(given.answer, Answer::Look { .. }))
}
