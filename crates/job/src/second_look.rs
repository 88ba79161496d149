//! The second look: which wheel ends wait for it, and what an acceptance stands on.
//!
//! An acceptance keeps the ends of the strands and a digest of the rows that were shown: every
//! answer, fact, skip, passed hold and extra line of the wheel end up to the look, and what the rounds say of
//! its axle mate. Once a row is no longer the same, it no longer stands: "changed since accepted".

use serde::Serialize;

use crate::card::{Card, SlotKey, StepState};
use crate::event::{Answer, Item, Seen};
use crate::hold;
use crate::id::{FactId, Place, StepId};
use crate::line::{LineRef, Sha};
use crate::procedure::{AskKind, Scope, Step};
use crate::words::{Arg, Words};

pub mod page;

/// The step of the second look. The look before the drum goes on is another: it is over once the
/// drum is on.
pub const STEP: &str = "second-look";

/// Where a wheel end is with its second look.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Waits {
    /// Work before it is still open.
    NotYet,
    ForTheFirst,
    /// Accepted once, and what was shown has changed.
    Changed,
    /// Sent back, and done again.
    Again,
    /// Sent back, and not done again yet.
    SentBack,
    Accepted,
}

/// One row of what is shown, as the digest takes it: what it is about, and the lines that say it.
#[derive(Serialize)]
struct Row<'a> {
    about: String,
    lines: Vec<&'a LineRef>,
}

/// What is on the page of a wheel end now.
pub fn seen(card: &Card, at: Place) -> Seen {
    Seen {
        heads: card.heads.clone(),
        digest: digest(card, at),
    }
}

/// True if an acceptance still stands: everything that was shown is as it was, and nothing of it
/// was done though it was held.
pub(crate) fn stands(card: &Card, step: &Step, at: Place, accepted: &Seen) -> bool {
    step.id.as_str() != STEP
        || accepted.digest == digest(card, at) && page::done_though(card, at).is_none()
}

/// Why this wheel end can't be accepted, if it can't: what was done there though it was held.
pub(crate) fn refuses(card: &Card, at: Place, step: &StepId, answer: &Answer) -> Option<Words> {
    let accepts = matches!(answer, Answer::Look { accepted: true, .. });
    if !accepts || step.as_str() != STEP {
        return None;
    }
    let entry = page::done_though(card, at)?;
    let (place, done) = entry.event()?.step()?;
    Some(Words::with(
        "refuse.done-though",
        [
            ("step", Arg::Key(format!("step.{done}"))),
            ("place", Arg::Place(place)),
        ],
    ))
}

fn digest(card: &Card, at: Place) -> Sha {
    let text = serde_json::to_string(&rows(card, at)).unwrap_or_default(); // Only text and numbers.
    Sha::of(text.as_bytes())
}

fn rows(card: &Card, at: Place) -> Vec<Row<'_>> {
    let Some(procedure) = card.procedure.as_deref() else {
        return Vec::new();
    };
    let look = procedure.order(&StepId::from(STEP));
    let axle = at.axle().map_or(Place::Vehicle, Place::Axle);
    let group = at
        .axle()
        .map_or(Place::Vehicle, |axle| Place::Axle(card.group_first(axle)));
    let scope = |step: &StepId| procedure.step(step).map(|step| step.scope);
    let shown = |place: Place, step: &StepId| {
        let before = procedure.order(step) < look;
        let own = place == at || place == Place::Vehicle || place == axle || place == group;
        // Of the axle mate the page shows what the rounds of the vehicle say.
        let mate = place.axle() == at.axle() && scope(step) == Some(Scope::Vehicle);
        before && (own || mate)
    };
    let answers = card
        .answers
        .iter()
        .filter(|(key, _)| shown(key.at, &key.step))
        .map(|(key, slot)| Row {
            about: about(key),
            lines: slot.live().iter().map(|held| &held.line).collect(),
        });
    // A fact that only a later step asks for was not there to be looked at.
    let asked_before = |fact: &FactId| {
        if procedure.fact(fact).is_some_and(|def| def.names_only) {
            return false;
        }
        let asks = |step: &Step| {
            step.asks
                .iter()
                .any(|ask| matches!(&ask.kind, AskKind::Fact(id) if id == fact))
        };
        let mut steps = procedure.steps().filter(|step| asks(step)).peekable();
        steps.peek().is_none() || steps.any(|step| procedure.order(&step.id) < look)
    };
    let facts = card
        .facts
        .iter()
        .filter(|((place, fact), _)| {
            let here = place.axle().is_none_or(|axle| Some(axle) == at.axle());
            // A fact of a group stands at its first axle.
            (here || *place == group) && asked_before(fact)
        })
        .map(|((place, fact), slot)| Row {
            about: format!("{place} {fact}"),
            lines: slot.live().iter().map(|held| &held.line).collect(),
        });
    let skips = card
        .skips
        .iter()
        .filter(|((place, step), _)| shown(*place, step))
        .map(|((place, step), slot)| Row {
            about: format!("{place} {step} skipped"),
            lines: slot.live().iter().map(|held| &held.line).collect(),
        });
    let passed = card
        .passed
        .iter()
        .filter(|(place, step, _)| shown(*place, step))
        .map(|(place, step, first)| Row {
            about: format!("{place} {step} passed over {first}"),
            lines: Vec::new(),
        });
    let extras = card
        .extra_lines()
        .iter()
        .filter(|extra| extra.at.axle().is_none_or(|axle| Some(axle) == at.axle()))
        .map(|extra| Row {
            about: "extra".to_owned(),
            // A foreman's word that work goes on over it is no work: it may come after the look.
            lines: std::iter::once(&extra.line)
                .chain(extra.told.iter().map(|told| &told.line))
                .collect(),
        });
    answers
        .chain(facts)
        .chain(skips)
        .chain(passed)
        .chain(extras)
        .collect()
}

fn about(key: &SlotKey) -> String {
    let item = match &key.item {
        Item::Only => String::new(),
        Item::Person(person) => person.to_string(),
        Item::Nut(nut) => nut.to_string(),
    };
    format!("{} {} {} {item}", key.at, key.step, key.ask)
}

/// Where a wheel end is with its second look. `None` if there is none for it.
pub fn waits(card: &Card, at: Place) -> Option<Waits> {
    let procedure = card.procedure.as_deref()?;
    let look = procedure.step(&StepId::from(STEP))?;
    if card.state(look, at) == StepState::NotOnPath {
        return None;
    }
    if card.is_done(look, at) {
        return Some(Waits::Accepted);
    }
    let last = look
        .asks
        .iter()
        .filter(|ask| ask.kind == AskKind::Look)
        .filter_map(|ask| card.slot(look, ask, at, Item::Only))
        .flat_map(|slot| slot.live())
        .last()
        .map(|held| &held.value.answer);
    let ready = procedure
        .steps()
        .take_while(|step| step.id != look.id)
        .all(|step| {
            card.places(step.scope, at)
                .into_iter()
                .all(|place| card.is_done(step, place) || card.is_passed(at, &look.id, &step.id))
        })
        && hold::unlike(card, &look.id, at).is_none();
    Some(match (last, ready) {
        (
            Some(Answer::Look {
                accepted: false, ..
            }),
            false,
        ) => Waits::SentBack,
        (
            Some(Answer::Look {
                accepted: false, ..
            }),
            true,
        ) => Waits::Again,
        (_, false) => Waits::NotYet,
        (Some(_), true) => Waits::Changed,
        (None, true) => Waits::ForTheFirst,
    })
}

/// The wheel ends that a foreman can look at now.
pub fn waiting(card: &Card) -> Vec<Place> {
    card.places(Scope::End, Place::Vehicle)
        .into_iter()
        .filter(|at| {
            matches!(
                waits(card, *at),
                Some(Waits::ForTheFirst | Waits::Changed | Waits::Again)
            )
        })
        .collect()
}

/// The steps that can be sent back with a wheel end: those with an answer there.
pub fn can_be_sent_back(card: &Card, at: Place) -> Vec<&Step> {
    let Some(procedure) = card.procedure.as_deref() else {
        return Vec::new();
    };
    procedure
        .steps()
        .take_while(|step| step.id.as_str() != STEP)
        .filter(|step| {
            card.answers
                .iter()
                .any(|(key, slot)| key.at == at && key.step == step.id && !slot.live().is_empty())
        })
        .collect()
}

#[cfg(test)]
mod tests;
