//! Which torque wrench a pass is done with: when it has to be asked, and what is offered.
//!
//! A shop with one wrench that fits is asked nothing: it is kept with the first nut.

use chrono::{NaiveDate, TimeDelta};

use crate::act::{self, Draft, Refusal};
use crate::card::{AskState, Card};
use crate::event::{Answer, Event, Item, WrenchUsed};
use crate::hold;
use crate::id::{PersonId, Place};
use crate::judge::{self, Standing, Units};
use crate::line::Stamp;
use crate::procedure::{Ask, AskKind, Step};
use crate::shop::ShopSheet;

/// What is done about the wrench of a pass.
#[derive(Clone, Debug, PartialEq)]
pub enum Picking {
    /// Nothing: none is listed, one was named already, or nothing can be said of one yet.
    Nothing,
    /// The only one of the shop. It fits, so nobody is asked.
    Only(WrenchUsed),
    /// One of these, the one used last first.
    Ask(Vec<WrenchUsed>),
}

/// The day that the clock on the wall of the shop shows.
pub fn day_of(now: Stamp) -> NaiveDate {
    (now.utc + TimeDelta::minutes(now.offset_minutes.into())).date_naive()
}

/// The ask of this step that names the wrench, if it has one.
pub fn ask_of(step: &Step) -> Option<&Ask> {
    step.asks
        .iter()
        .find(|ask| matches!(ask.kind, AskKind::Wrench))
}

/// What is done about the wrench of this step here, on the day of `now`.
pub fn picking(card: &Card, sheet: &ShopSheet, step: &Step, at: Place, now: Stamp) -> Picking {
    let Some(ask) = ask_of(step).filter(|ask| card.ask_state(step, ask, at) == AskState::Open)
    else {
        return Picking::Nothing;
    };
    let mut wrenches = offers(card, sheet, now);
    let standing = |used: &WrenchUsed| {
        let answer = Answer::Wrench {
            used: Box::new(used.clone()),
        };
        let judged = judge::judge(card, at, step, ask, &answer).ok()?;
        Some(judge::standing(&judged, &[]))
    };
    match wrenches.as_slice() {
        [] => Picking::Nothing,
        [only] => match standing(only) {
            None => Picking::Nothing,
            Some(Standing::Clears) => Picking::Only(wrenches.remove(0)),
            Some(Standing::NeedsForeman | Standing::Refused) => Picking::Ask(wrenches),
        },
        [first, ..] if standing(first).is_none() => Picking::Nothing,
        _ => Picking::Ask(wrenches),
    }
}

/// The wrenches in use as they would be taken up now, the one used last on this card first.
pub fn offers(card: &Card, sheet: &ShopSheet, now: Stamp) -> Vec<WrenchUsed> {
    let last = card
        .entries
        .iter()
        .rev()
        .filter(|entry| entry.struck.is_none())
        .find_map(|entry| match entry.event() {
            Some(Event::Answered {
                answer: Answer::Wrench { used },
                ..
            }) => Some(used.wrench.as_str()),
            _ => None,
        });
    let mut wrenches: Vec<WrenchUsed> = sheet
        .wrenches()
        .map(|(name, wrench)| WrenchUsed {
            wrench: name.to_owned(),
            tag: wrench.tag.clone(),
            on: day_of(now),
        })
        .collect();
    wrenches.sort_by_key(|used| last != Some(used.wrench.as_str()));
    wrenches
}

/// The only wrench of the shop, kept with an answer of the pass it is used for.
#[expect(
    clippy::too_many_arguments,
    reason = "an answer has a place, a question and a voice, and the shop has its list"
)]
pub fn with_pass(
    card: &Card,
    sheet: &ShopSheet,
    who: &PersonId,
    step: &Step,
    answered: &Ask,
    at: Place,
    now: Stamp,
    units: &Units,
) -> Result<Option<Draft>, Refusal> {
    let (true, Some(ask)) = (matches!(answered.kind, AskKind::Pass(_)), ask_of(step)) else {
        return Ok(None);
    };
    let Picking::Only(used) = picking(card, sheet, step, at, now) else {
        return Ok(None);
    };
    let proof = hold::may_take(card, who, at, &step.id, &ask.id, Item::Only, now)?;
    let used = Box::new(used);
    act::take(card, proof, Answer::Wrench { used }, units).map(Some)
}

#[cfg(test)]
mod tests;
