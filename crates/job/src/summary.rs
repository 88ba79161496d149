//! One row of the cards list: derived from the card, kept beside its lines, always rebuildable.

use chrono::{DateTime, Utc};
use serde::{Deserialize, Serialize};

use crate::card::{Card, Though};
use crate::event::FactValue;
use crate::id::{CardId, FactId, OptionId, Place, StageId};
use crate::road::{Road, road};
use crate::second_look;

/// What the cards list shows without opening the card.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Summary {
    pub card: CardId,
    pub unit: String,
    pub vehicle: Option<OptionId>,
    pub layout: Option<String>,
    pub in_hand: Vec<u8>,
    pub opened: Option<DateTime<Utc>>,
    pub last: Option<DateTime<Utc>>,
    /// The stage that work is at; none when nothing is left.
    pub stage: Option<StageId>,
    pub done: usize,
    pub of: usize,
    /// Its trail is not whole, or something on it was done though it was held.
    pub look_at: bool,
    /// Wheel ends that wait for a second look. Rows kept by an older app don't say.
    #[serde(default)]
    pub waits: usize,
    /// Its road check, once it is handed back. Rows kept by an older app don't say.
    #[serde(default)]
    pub road: Option<Road>,
}

/// Derives the row.
pub fn summary(card: &Card) -> Summary {
    let text = |fact: &str| match card.fact(Place::Vehicle, &FactId::from(fact)) {
        Some(FactValue::Text(text)) => Some(text.clone()),
        _ => None,
    };
    let (done, of) = card.progress();
    let stage = card.next_open().and_then(|(_, step)| {
        card.procedure
            .as_deref()
            .and_then(|procedure| procedure.stage_of(&step.id))
            .map(|stage| stage.id.clone())
    });
    let though = |though: &Option<Though>| though.is_some();
    Summary {
        card: card.id.clone(),
        unit: text("unit").unwrap_or_default(),
        vehicle: card.choice(Place::Vehicle, "vehicle").cloned(),
        layout: text("layout"),
        in_hand: card.axles_in_hand(),
        opened: card.opened.as_ref().map(|opened| opened.at.utc),
        last: card.entries.iter().map(|entry| entry.at.utc).max(),
        stage,
        done,
        of,
        look_at: !card.faults.is_empty()
            || !card.newer.is_empty()
            || card.entries.iter().any(|entry| though(&entry.though)),
        waits: second_look::waiting(card).len(),
        road: road(card),
    }
}
