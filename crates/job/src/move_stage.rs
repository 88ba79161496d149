//! "Wrong wheel end": what was written at one wheel end is moved to the other, stage by stage.
//!
//! Nothing vanishes: each answer is taken back where it stands and given again where it belongs,
//! in one action. A `!` that was only ever answered at the wrong wheel end is then open there.

use crate::act::{self, Draft, Refusal, TEXT_MAX};
use crate::card::{Card, Given, SlotKey};
use crate::event::{Answer, Event, Role};
use crate::hold::{self, Hold};
use crate::id::{PersonId, Place, StageId, StepId};
use crate::judge::{self, Units};
use crate::line::{LineRef, Stamp};

/// How much of a stage would move from one wheel end to another.
pub fn to_move(card: &Card, stage: &StageId, from: Place) -> usize {
    entries(card, stage, from).count()
}

/// Moves the answers of one stage from one wheel end to the other one.
///
/// They are given first and taken back afterwards: what is said at the right wheel end does not
/// rest on what is struck at the wrong one.
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
    let why = why.trim();
    if why.is_empty() {
        return Err(Refusal::plain("refuse.reason-missing"));
    }
    if why.len() > TEXT_MAX {
        return Err(Refusal::plain("setup.text-too-long"));
    }
    let procedure = card.procedure.as_deref().ok_or(Hold::UnknownProcedure)?;
    let mut moved: Vec<_> = entries(card, stage, from).collect();
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
    moved.sort_by_key(|(key, _, _)| procedure.order(&key.step));
    let steps: Vec<StepId> = moved.iter().map(|(key, _, _)| key.step.clone()).collect();
    let mut given_anew = Vec::new();
    let mut taken_back = Vec::new();
    for (key, line, given) in moved {
        let step = procedure.step(&key.step).ok_or(Hold::NotOnPath)?;
        let ask = procedure.ask(&key.step, &key.ask).ok_or(Hold::NotOnPath)?;
        let comes_too = |hold: &Hold| {
            let first = hold.first();
            first.is_some_and(|(at, first)| at == to && steps.contains(first))
        };
        if let Some(hold) = hold::first_hold(card, &step.id, to).filter(|hold| !comes_too(hold)) {
            return Err(hold.into());
        }
        act::fits_ask(card, ask, to, &key.item, &given.answer)?;
        let judged = judge::judge(card, to, step, ask, &given.answer)?;
        if let Some(words) = judge::refuses(&judged) {
            return Err(words.into());
        }
        let answered = Event::Answered {
            at: to,
            step: key.step.clone(),
            ask: key.ask.clone(),
            item: key.item.clone(),
            answer: given.answer.clone(),
            beside: given.beside.clone(),
            judged: judged.then(units),
        };
        if let Some(hold) = hold::of_person(card, who, to, &answered) {
            return Err(hold.into());
        }
        given_anew.push(Draft::new(answered));
        given_anew.extend(act::brings_up(card, to, &key.step, &key.ask, &given.answer));
        let strike = |line: &LineRef| {
            Draft::new(Event::Struck {
                line: line.clone(),
                why: Some(why.to_owned()),
            })
        };
        taken_back.push(strike(line));
        // One that the customer was asked about is for people to sort out.
        let came_of_it = card.line_with(line, (from, &key.step, &key.ask));
        let untold = came_of_it.filter(|extra| extra.told.is_empty());
        taken_back.extend(untold.map(|extra| strike(&extra.line)));
    }
    given_anew.extend(taken_back);
    Ok(given_anew)
}

fn entries<'a>(
    card: &'a Card,
    stage: &'a StageId,
    from: Place,
) -> impl Iterator<Item = (&'a SlotKey, &'a LineRef, &'a Given)> {
    let of_stage = move |step: &StepId| {
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

#[cfg(test)]
mod tests;
