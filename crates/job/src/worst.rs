//! The worst that stands at each wheel end now, for a drawing that has room for one mark.
//!
//! A stroke or a lining as found counts until the stroke is read as left: from then on the vehicle
//! is what it leaves as. It judges nothing of its own.

use std::collections::BTreeMap;

use rules::verdict::Verdict;

use crate::card::{Card, Given};
use crate::event::Answer;
use crate::id::{Place, StepId};
use crate::judge;
use crate::procedure::{Ask, AskKind, Eye, Step};

/// The step at which each stroke is read as left.
const AS_LEFT: &str = "as-left";
const APPLIED: &str = "applied";
/// The steps whose readings tell how the vehicle came in.
const AS_FOUND: [&str; 2] = ["as-found", "old-parts"];

/// The worst verdict of each wheel end, with what was judged of its axle; nothing where nothing was
/// judged yet.
pub fn worst_by_end(card: &Card) -> BTreeMap<Place, Verdict> {
    let Some(procedure) = card.procedure.as_deref() else {
        return BTreeMap::new();
    };
    let mut worst: BTreeMap<Place, Verdict> = BTreeMap::new();
    for (key, slot) in &card.answers {
        let Some(step) = procedure.step(&key.step) else {
            continue;
        };
        let Some(ask) = step.asks.iter().find(|ask| ask.id == key.ask) else {
            continue;
        };
        if !card.fits(&step.when, key.at) || !card.fits(&ask.when, key.at) {
            continue;
        }
        let ends = match key.at {
            Place::Vehicle => continue, // What the whole vehicle loses is no wheel end's.
            Place::Axle(axle) => Place::ends(axle).to_vec(),
            Place::End(..) => vec![key.at],
        };
        for held in slot.live() {
            let Some(verdict) = verdict(card, key.at, step, ask, &held.value) else {
                continue;
            };
            for end in &ends {
                if AS_FOUND.contains(&step.id.as_str()) && is_read_as_left(card, *end) {
                    continue;
                }
                let before = worst.entry(*end).or_insert(verdict);
                *before = before.worse(verdict);
            }
        }
    }
    worst
}

fn is_read_as_left(card: &Card, end: Place) -> bool {
    card.answers.iter().any(|(key, slot)| {
        key.at == end
            && key.step == StepId::from(AS_LEFT)
            && key.ask.as_str() == APPLIED
            && !slot.live().is_empty()
    })
}

/// The verdict of one answer. Where there is nothing to read about it is what was judged, and
/// nothing where nothing could be.
fn verdict(card: &Card, at: Place, step: &Step, ask: &Ask, given: &Given) -> Option<Verdict> {
    if let (AskKind::Choose(offers), Answer::Choice { option }, None) =
        (&ask.kind, &given.answer, &ask.rule)
    {
        let eye = offers.iter().find(|offer| offer.id == *option)?.part?;
        return Some(match eye {
            Eye::Sound => Verdict::Sound,
            Eye::Replace => Verdict::Replace,
        });
    }
    let judged = judge::judge(card, at, step, ask, &given.answer).ok()?;
    if judged.unsaid().is_some() {
        return Some(Verdict::NoReading);
    }
    let plain = judge::is_plain(&judged);
    let mut said = judged.judgements().into_iter().map(|one| one.verdict);
    if plain {
        return said.find(|verdict| *verdict != Verdict::NoReading);
    }
    said.reduce(Verdict::worse)
}

#[cfg(test)]
mod tests;
