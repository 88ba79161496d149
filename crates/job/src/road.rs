//! The road check of one vehicle: since when it waits, at which odometer it is due, what came of it,
//! and which nuts moved. It judges nothing anew.

use std::collections::BTreeMap;

use chrono::{DateTime, Utc};
use rules::shown::{Lean, decimal};
use rules::torque::moved::Moved;
use rules::torque::road_check;
use serde::{Deserialize, Serialize};

use crate::card::{Card, StepState};
use crate::event::{Amount, Answer, Event, FactValue, Item, TypedText};
use crate::id::{AskId, FactId, OptionId, Place, StepId};
use crate::procedure::{Ask, AskKind, Scope, Step};

/// The step that is the road check, and the one that hands the vehicle back before it.
pub const STEP: &str = "road-check";
const RECORD: &str = "record";
/// Where the odometer is read when the vehicle leaves.
const LOW_SPEED: &str = "low-speed";
const ODOMETER: &str = "odometer";
/// The fact that is the distance on the tag.
const DISTANCE: &str = "road-distance";
/// The fact that says who made it, and its answer when another shop told of it.
const BY: &str = "road-by";
const TOLD: &str = "told";

/// The road check as a list of cards shows it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Road {
    /// When the vehicle was handed back.
    pub handed: DateTime<Utc>,
    /// The odometer then.
    pub odometer: Option<TypedText>,
    /// The distance on the road-check tag. Rows kept by an older app don't say.
    #[serde(default)]
    pub distance: Option<TypedText>,
    pub state: RoadState,
}

/// What became of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum RoadState {
    /// Not made, or a nut is still loose.
    Waits,
    Made,
    /// The customer's shop said that it made it.
    Told,
    NotBroughtBack,
}

/// The nuts of one wheel end that did the same.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MovedAt {
    pub at: Place,
    pub moved: Moved,
    pub nuts: Vec<u16>,
}

/// How the road check of this card stands; none before the vehicle is handed back.
pub fn road(card: &Card) -> Option<Road> {
    let procedure = card.procedure.as_deref()?;
    let record = procedure.step(&StepId::from(RECORD))?;
    let check = procedure.step(&StepId::from(STEP))?;
    if card.state(record, Place::Vehicle) != StepState::Done {
        return None;
    }
    let handed = answers(card, record, Place::Vehicle)
        .map(|(_, _, _, when)| when)
        .max()?;
    let states: Vec<StepState> = card
        .places(check.scope, Place::Vehicle)
        .into_iter()
        .map(|at| card.state(check, at))
        .collect();
    let all = |wanted: StepState| states.iter().all(|state| *state == wanted);
    let told = card
        .choice(Place::Vehicle, BY)
        .is_some_and(|by| by.as_str() == TOLD);
    let state = if all(StepState::Skipped) {
        RoadState::NotBroughtBack
    } else if !all(StepState::Done) {
        RoadState::Waits
    } else if told {
        RoadState::Told
    } else {
        RoadState::Made
    };
    let odometer = procedure.step(&StepId::from(LOW_SPEED)).and_then(|step| {
        let ask = step.asks.iter().find(|ask| ask.id.as_str() == ODOMETER)?;
        // Of two that had not seen each other neither is the one.
        let only = card.slot(step, ask, Place::Vehicle, Item::Only)?.only()?;
        if let Answer::Reading { typed } = &only.answer {
            Some(typed.clone())
        } else {
            None
        }
    });
    Some(Road {
        handed,
        odometer,
        distance: card
            .fact(Place::Vehicle, &FactId::from(DISTANCE))
            .and_then(FactValue::typed)
            .cloned(),
        state,
    })
}

impl Road {
    /// True if it was not made yet.
    pub fn waits(&self) -> bool {
        self.state == RoadState::Waits
    }

    /// Between which odometer figures it is due, in the unit that the odometer was read in.
    pub fn between(&self) -> Option<[Amount; 2]> {
        let typed = self.odometer.as_ref()?.typed().ok()?;
        let (from, until) = road_check::due_between(typed.quantity().length()?)?;
        let shown = |figure, lean| {
            let shown = decimal(figure, typed.unit(), 0, lean)?;
            Some(Amount {
                text: shown.text,
                unit: typed.unit().code().to_owned(),
            })
        };
        Some([shown(from, Lean::Up)?, shown(until, Lean::Down)?])
    }
}

/// What the nuts did at the road check, wheel end by wheel end, the worst first; those that held go
/// unnamed.
pub fn moved(card: &Card) -> Vec<MovedAt> {
    let Some(step) = card
        .procedure
        .as_deref()
        .and_then(|procedure| procedure.step(&StepId::from(STEP)))
    else {
        return Vec::new();
    };
    let pass = |ask: &&Ask| matches!(ask.kind, AskKind::Pass(_));
    let Some(ask) = step.asks.iter().find(pass) else {
        return Vec::new();
    };
    let mut all = Vec::new();
    for at in card.places(Scope::End, Place::Vehicle) {
        let mut by: BTreeMap<Moved, Vec<u16>> = BTreeMap::new();
        for nut in 1..=card.studs(at).unwrap_or(0) {
            let worst = marks(card, step, ask, at, nut)
                .filter_map(|mark| Moved::from_code(mark.as_str()))
                .max();
            if let Some(moved @ (Moved::Turned | Moved::LooseAgain)) = worst {
                by.entry(moved).or_default().push(nut);
            }
        }
        let worst_first = by.into_iter().rev();
        all.extend(worst_first.map(|(moved, nuts)| MovedAt { at, moved, nuts }));
    }
    all
}

/// What was ever said of a nut and not taken back: that it was loose is not undone by tightening it.
fn marks<'a>(
    card: &'a Card,
    step: &'a Step,
    ask: &'a Ask,
    at: Place,
    nut: u16,
) -> impl Iterator<Item = &'a OptionId> {
    let of_pass = answers(card, step, at).filter(move |(of, ..)| **of == ask.id);
    of_pass.filter_map(move |(_, item, answer, _)| {
        if let Answer::WholePass { but } = answer {
            let apart = but.iter().find(|one| one.item == nut.to_string());
            return apart.map(|one| &one.mark);
        }
        if let Answer::Nut { mark } = answer
            && *item == Item::Nut(nut)
        {
            return Some(mark);
        }
        None
    })
}

/// Every answer of a step at one place that was not taken back.
fn answers<'a>(
    card: &'a Card,
    step: &'a Step,
    at: Place,
) -> impl Iterator<Item = (&'a AskId, &'a Item, &'a Answer, DateTime<Utc>)> {
    let standing = card.entries.iter().filter(|entry| entry.struck.is_none());
    standing.filter_map(move |entry| {
        let Some(Event::Answered {
            at: place,
            step: of,
            ask,
            item,
            answer,
            ..
        }) = entry.event()
        else {
            return None;
        };
        (*place == at && *of == step.id).then_some((ask, item, answer, entry.at.utc))
    })
}

#[cfg(test)]
mod tests;
