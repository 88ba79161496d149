//! One row of the cards list: derived from the card, kept beside its lines, always rebuildable.
//!
//! Everything that the cards list and the bay list show stands in it, so that neither opens a
//! trail. A row says which [`FORM`] it has; one of another form is derived anew when there is time.

use std::collections::BTreeMap;

use chrono::{DateTime, TimeDelta, Utc};
use serde::{Deserialize, Serialize};

use crate::card::{Card, Though};
use crate::event::{Answer, BroughtHow, Event, FactValue, LineState};
use crate::id::{CardId, FactId, FindingId, OptionId, Place, StageId};
use crate::line::Stamp;
use crate::procedure::Scope;
use crate::road::{Road, road};
use crate::second_look::{self, Waits};

/// The form of the rows that this app writes. A row that says less than this app shows has a
/// smaller one.
pub const FORM: u32 = 2;

/// What the cards list and the bay list show without opening the card.
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
    /// What follows is not in a row of form 0.
    #[serde(default)]
    pub form: u32,
    #[serde(default)]
    pub plate: String,
    /// Names of those who signed on, by name.
    #[serde(default)]
    pub people: Vec<String>,
    /// The months in which something was done, as `2026-11`, by the clocks it was done by.
    #[serde(default)]
    pub months: Vec<String>,
    /// Taken out of the daily list.
    #[serde(default)]
    pub put_away: bool,
    /// Something is done and the vehicle is not handed back.
    #[serde(default)]
    pub in_bay: bool,
    /// The wheel ends in hand.
    #[serde(default)]
    pub ends: Vec<EndRow>,
    /// Extra lines that nobody has asked the customer about, and those that wait for an answer.
    #[serde(default)]
    pub lines: Vec<LineRow>,
    /// What was found and looked at, month by month.
    #[serde(default)]
    pub by_month: BTreeMap<String, Month>,
    /// Its road check, once it is handed back. Rows kept by an older app don't say.
    #[serde(default)]
    pub road: Option<Road>,
}

/// One wheel end.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct EndRow {
    pub at: Place,
    /// None when nothing is left to do there.
    pub stage: Option<StageId>,
    /// Name of the person who has it.
    pub who: Option<String>,
    /// It waits for a foreman.
    pub waits: bool,
    /// It was sent back and is not done again.
    pub sent_back: bool,
}

/// One extra line that the customer has not answered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LineRow {
    pub at: Place,
    pub finding: FindingId,
    pub state: LineState,
}

/// What one month adds to the counts of the bay list.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Month {
    /// How often each thing was found.
    #[serde(default)]
    pub found: BTreeMap<FindingId, u32>,
    /// Second looks at a wheel end.
    #[serde(default)]
    pub looks: u32,
    /// Those that sent the wheel end back.
    #[serde(default)]
    pub sent_back: u32,
    /// What had to be fetched after work began.
    #[serde(default)]
    pub fetched: u32,
}

impl Summary {
    /// True if this app would say more of the card than the row does.
    pub fn is_older(&self) -> bool {
        self.form != FORM
    }
}

/// The month of a moment, by the clock it was taken with.
fn month_of(at: Stamp) -> String {
    let local = at.utc + TimeDelta::minutes(i64::from(at.offset_minutes));
    local.format("%Y-%m").to_string()
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
    let ends = ends(card);
    let mut people: Vec<String> = card.people.values().map(|one| one.name.clone()).collect();
    people.sort();
    people.dedup();
    let mut months: Vec<String> = card.entries.iter().map(|one| month_of(one.at)).collect();
    months.sort();
    months.dedup();
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
        waits: ends.iter().filter(|end| end.waits).count(),
        form: FORM,
        plate: text("plate").unwrap_or_default(),
        people,
        months,
        put_away: card.is_put_away(),
        in_bay: card.stands_in_the_bay(),
        ends,
        lines: lines(card),
        by_month: by_month(card),
        road: road(card),
    }
}

fn ends(card: &Card) -> Vec<EndRow> {
    card.places(Scope::End, Place::Vehicle)
        .into_iter()
        .map(|at| {
            let waits = second_look::waits(card, at);
            EndRow {
                at,
                stage: card.stage_at(at).map(|stage| stage.id.clone()),
                who: card.has(at).map(|who| card.name(who).to_owned()),
                waits: matches!(
                    waits,
                    Some(Waits::ForTheFirst | Waits::Changed | Waits::Again)
                ),
                sent_back: waits == Some(Waits::SentBack),
            }
        })
        .collect()
}

fn lines(card: &Card) -> Vec<LineRow> {
    card.extra_lines()
        .iter()
        .filter(|extra| matches!(extra.state, LineState::NotAsked | LineState::Waiting))
        .map(|extra| LineRow {
            at: extra.at,
            finding: extra.finding.clone(),
            state: extra.state,
        })
        .collect()
}

/// The wheel ends whose road check is open, once the vehicle is back with its people.
/// What was taken back does not count; what was sent back and done again does.
fn by_month(card: &Card) -> BTreeMap<String, Month> {
    let mut months: BTreeMap<String, Month> = BTreeMap::new();
    for entry in &card.entries {
        if entry.struck.is_some() || entry.though == Some(Though::NotTheirs) {
            continue;
        }
        match entry.event() {
            Some(Event::LineFound { finding, .. }) => {
                let month = months.entry(month_of(entry.at)).or_default();
                *month.found.entry(finding.clone()).or_default() += 1;
            }
            Some(Event::Answered {
                step,
                answer: Answer::Look { accepted, .. },
                ..
            }) if step.as_str() == second_look::STEP => {
                let month = months.entry(month_of(entry.at)).or_default();
                month.looks += 1;
                month.sent_back += u32::from(!accepted);
            }
            _ => {}
        }
    }
    for (item, at) in fetched(card) {
        // Ticked again, it is still the one way that was made for it.
        if card.brought(item) == Some(BroughtHow::Fetched) {
            months.entry(month_of(at)).or_default().fetched += 1;
        }
    }
    months
}

/// When each thing of the bring list was last said to have been fetched.
fn fetched(card: &Card) -> BTreeMap<&OptionId, Stamp> {
    let mut fetched = BTreeMap::new();
    for entry in &card.entries {
        if let Some(Event::Brought {
            item,
            how: BroughtHow::Fetched,
        }) = entry.event()
        {
            fetched.insert(item, entry.at);
        }
    }
    fetched
}

#[cfg(test)]
mod tests;
