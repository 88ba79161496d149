//! The sentence of the physical state: how a wheel end stands, told from the steps that are done.
//!
//! "Wheels hung, nuts seated, NOT torqued; on stands; air out." The procedure says which step
//! leads to which word; nothing is concluded beyond that.

use crate::card::{AskState, Card, Given, StepState};
use crate::event::{Answer, Item};
use crate::id::Place;
use crate::procedure::{AskKind, Step};
use crate::slot::Slot;
use crate::words::{Arg, Words};

/// How a place stands: one part for each part of the sentence that something is known of.
pub fn physical(card: &Card, at: Place) -> Vec<Words> {
    let parts = parts(card, at).into_iter();
    parts.map(|(words, _)| words).collect()
}

/// The parts of the sentence that are short of their last word: what is off, loose, held or out.
pub(crate) fn not_back(card: &Card, at: Place) -> Vec<Words> {
    let parts = parts(card, at).into_iter();
    parts
        .filter(|(_, is_last)| !is_last)
        .map(|(words, _)| words)
        .collect()
}

/// Each part of the sentence, and whether it is the last that can be said of it.
fn parts(card: &Card, at: Place) -> Vec<(Words, bool)> {
    let Some(procedure) = card.procedure.as_deref() else {
        return Vec::new();
    };
    let state = |step: &Step| {
        let places = card.places(step.scope, at);
        let states: Vec<StepState> = places.iter().map(|at| card.state(step, *at)).collect();
        let there = states
            .iter()
            .filter(|state| **state != StepState::NotOnPath);
        // A step that was left out led nowhere.
        let not_done = there.clone().find(|state| **state != StepState::Done);
        match (there.count(), not_done) {
            (0, _) => StepState::NotOnPath,
            (_, None) => StepState::Done,
            (_, Some(state)) => *state,
        }
    };
    let mut parts = Vec::new();
    for told in &procedure.physical {
        let mut part = None;
        for (id, word) in &told.after {
            let Some(step) = procedure.step(id) else {
                continue; // The procedure was checked for it.
            };
            match state(step) {
                StepState::Done => {
                    let is_last = told.after.last().is_some_and(|(last, _)| last == id);
                    part = Some((
                        Words::plain(&format!("physical.{}.{word}", told.id)),
                        is_last,
                    ));
                }
                StepState::Begun | StepState::Unclear => {
                    if let Some(words) = pass_begun(card, step, at) {
                        parts.extend(part.take());
                        part = Some((words, false));
                    }
                }
                StepState::NotOnPath | StepState::Open | StepState::Skipped => {}
            }
        }
        parts.extend(part);
    }
    parts
}

/// "Final torque: 4 of 10 nuts", for a pass that is broken off.
fn pass_begun(card: &Card, step: &Step, at: Place) -> Option<Words> {
    let nuts = card.studs(at)?;
    let ask = step
        .asks
        .iter()
        .find(|ask| matches!(ask.kind, AskKind::Pass(_)) && card.fits(&ask.when, at))?;
    if !matches!(
        card.ask_state(step, ask, at),
        AskState::Partly | AskState::Unclear
    ) {
        return None;
    }
    let logged = match card.slot(step, ask, at, Item::Only).and_then(Slot::only) {
        Some(Given {
            answer: Answer::WholePass { but },
            ..
        }) => usize::from(nuts).saturating_sub(but.len()),
        _ => card.nuts_that_clear(step, ask, at),
    };
    Some(Words::with(
        "physical.pass",
        [
            ("step", Arg::Key(format!("step.{}", step.id))),
            ("done", Arg::Text(logged.to_string())),
            ("of", Arg::Text(nuts.to_string())),
        ],
    ))
}

#[cfg(test)]
mod tests;
