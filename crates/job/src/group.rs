//! Steps that share one screen with one Done: work without a reading, a choice or a press-and-hold,
//! and parts judged by eye of which nothing is to be said but that they are in order.
//!
//! Each is still written as an answer of its own; what is taken out of the group is asked alone.

use crate::act::{self, Draft, Refusal};
use crate::card::{AskState, Card, fold};
use crate::event::{Answer, Item};
use crate::hold;
use crate::id::{AskId, PersonId, Place, StepId, TabletId};
use crate::judge::Units;
use crate::line::{Line, Stamp};
use crate::procedure::{Ask, AskKind, Scope, Step};
use crate::procedures::Procedures;
use crate::trail::Trail;
use crate::words::Words;

/// One ask of a group.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Member {
    pub at: Place,
    pub step: StepId,
    pub ask: AskId,
}

/// The answer that says "in order" or "done", if an ask has one that can be said for it unseen.
pub fn in_order(card: &Card, ask: &Ask, at: Place) -> Option<Answer> {
    match &ask.kind {
        AskKind::Lines(_) => Some(Answer::Lines { out: Vec::new() }),
        AskKind::Exceptions(_) => Some(Answer::Exceptions { but: Vec::new() }),
        AskKind::Choose(offers) => offers
            .iter()
            .find(|offer| offer.in_order && offer.clears && card.surely_fits(&offer.when, at))
            .map(|offer| Answer::Choice {
                option: offer.id.clone(),
            }),
        AskKind::Press(_)
        | AskKind::Reading(_)
        | AskKind::Count(_)
        | AskKind::Wheels
        | AskKind::Pass(_)
        | AskKind::Stands
        | AskKind::Wrench
        | AskKind::Fact(_)
        | AskKind::Look
        | AskKind::Settled => None,
    }
}

/// The asks that go with this step's on one screen: at the same wheel end, in the same stage, one
/// after the other until something has to be read, chosen or held. Only what is open.
///
/// In a stage of any order the rest of it is looked through to its end.
pub fn group(card: &Card, at: Place, step: &StepId) -> Vec<Member> {
    let Some(procedure) = card.procedure.as_deref() else {
        return Vec::new();
    };
    let Some(stage) = procedure.stage_of(step) else {
        return Vec::new();
    };
    let mut members: Vec<Member> = Vec::new();
    let mut finished: Vec<&StepId> = Vec::new();
    let from = stage.steps.iter().skip_while(|of| of.id != *step);
    'steps: for of in from {
        if of.scope != Scope::End {
            break;
        }
        if card.is_done(of, at) {
            continue;
        }
        // What protects a person is answered by itself, and so is what may not be on the path.
        if of.protects() || !card.surely_fits(&of.when, at) {
            break;
        }
        if !free(card, of, at, &finished) {
            break;
        }
        let mut whole = true;
        for ask in of.asks.iter().filter(|ask| !ask.optional) {
            let open = card.ask_places(of, ask, at).into_iter().any(|place| {
                !matches!(
                    card.ask_state(of, ask, place),
                    AskState::NotAsked | AskState::Clear
                )
            });
            if !open {
                continue;
            }
            let answered = card.ask_state(of, ask, at) == AskState::Unclear;
            let whole_part = !answered && !card.is_found_bad(ask, at);
            if whole_part && decided(card, ask, at) && in_order(card, ask, at).is_some() {
                members.push(Member {
                    at,
                    step: of.id.clone(),
                    ask: ask.id.clone(),
                });
            } else if stage.any_order {
                whole = false;
            } else {
                break 'steps;
            }
        }
        if whole {
            finished.push(&of.id);
        }
    }
    members
}

/// True if nothing holds the step but what the group itself does before it.
fn free(card: &Card, step: &Step, at: Place, finished: &[&StepId]) -> bool {
    match hold::first_hold(card, &step.id, at) {
        None => true,
        Some(hold) => hold
            .first()
            .is_some_and(|(place, first)| place == at && finished.contains(&first)),
    }
}

/// True if it is known whether the ask is asked at all.
fn decided(card: &Card, ask: &Ask, at: Place) -> bool {
    card.surely_fits(&ask.when, at)
}

/// Writes a group as one action: each answer is asked for what holds it on the card as it is
/// after the ones before. Nothing is kept here; on a refusal nothing is written.
#[expect(
    clippy::too_many_arguments,
    reason = "a whole action: where it is written, by whom, when, and what is said"
)]
pub fn write(
    trail: &Trail,
    procedures: &Procedures,
    tablet: &TabletId,
    who: &PersonId,
    now: Stamp,
    units: &Units,
    first: Vec<Draft>,
    answers: &[(Member, Answer)],
) -> Result<Vec<Line>, Words> {
    let mut trail = trail.clone();
    let mut lines = Vec::new();
    let keep = |trail: &mut Trail, lines: &mut Vec<Line>, drafts: Vec<Draft>| {
        for line in trail.write(tablet, who, now, drafts) {
            lines.push(line.clone());
            trail.take_in(line);
        }
    };
    keep(&mut trail, &mut lines, first);
    let mut card = fold(&trail, procedures);
    let mut waiting: Vec<Draft> = Vec::new();
    for (member, answer) in answers {
        let mut draft = one(&card, who, member, answer, now, units);
        if draft.is_err() && !waiting.is_empty() {
            // What holds it may be what the group has just said.
            keep(&mut trail, &mut lines, std::mem::take(&mut waiting));
            card = fold(&trail, procedures);
            draft = one(&card, who, member, answer, now, units);
        }
        match draft {
            Ok(drafts) => {
                // An extra line may hold what comes after it in the group.
                let more = drafts.len() > 1;
                waiting.extend(drafts);
                if more {
                    keep(&mut trail, &mut lines, std::mem::take(&mut waiting));
                    card = fold(&trail, procedures);
                }
            }
            Err(refusal) => return Err(refusal.words(&card)),
        }
    }
    keep(&mut trail, &mut lines, waiting);
    Ok(lines)
}

fn one(
    card: &Card,
    who: &PersonId,
    member: &Member,
    answer: &Answer,
    now: Stamp,
    units: &Units,
) -> Result<Vec<Draft>, Refusal> {
    let Member { at, step, ask } = member;
    let proof = hold::may_take(card, who, *at, step, ask, Item::Only, now)?;
    act::take_with_line(card, proof, answer.clone(), units)
}

#[cfg(test)]
mod tests;
