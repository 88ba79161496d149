//! The bring list: what to have at the vehicle before work begins, and what findings add to it.
//!
//! Made of the card's facts, its extra lines and the shop sheet by [`wanted`], which asks nobody and
//! keeps nothing. What is listed stands in a file beside the procedure; the hardware that goes on
//! with the shoes comes from the rules, with its source. Tools and consumables are common practice,
//! and say so.
//!
//! A tick is a line of the trail and not a setting of the tablet: who takes over at noon on another
//! tablet has to see what is on the cart, and how much had to be fetched is counted for the shop. It
//! holds nothing, so an older app may pass over it.

use std::collections::BTreeSet;
use std::fmt;

use rules::lining::hardware::{self, Renew};
use rules::source::{COMMON_PRACTICE, Source};
use serde::Deserialize;

use crate::act::{Draft, Refusal};
use crate::card::Card;
use crate::event::{BroughtHow, Event, LineState};
use crate::extra::ExtraLine;
use crate::hold;
use crate::id::{OptionId, PersonId, Place, StageId};
use crate::procedure::{Procedure, Scope, When};
use crate::shop::ShopSheet;
use crate::words::{Arg, Words};

/// What kind of thing is brought.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Sort {
    Tool,
    Stand,
    Part,
    Consumable,
}

impl Sort {
    pub const ALL: [Self; 4] = [Self::Tool, Self::Stand, Self::Part, Self::Consumable];

    /// Last part of its word key.
    pub fn code(self) -> &'static str {
        match self {
            Self::Tool => "tool",
            Self::Stand => "stand",
            Self::Part => "part",
            Self::Consumable => "consumable",
        }
    }
}

/// What a listed count is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
enum Per {
    #[serde(rename = "V")]
    Vehicle,
    #[serde(rename = "A")]
    Axle,
    #[serde(rename = "E")]
    End,
    #[serde(rename = "person")]
    Person,
}

/// One thing of the file.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
struct Item {
    id: OptionId,
    /// The stage that needs it first.
    stage: StageId,
    sort: Sort,
    per: Per,
    /// Fewest and most for each; none for what is brought as needed.
    #[serde(default)]
    count: Option<[u32; 2]>,
    /// The facts that it is for; one nobody has given yet counts as fitting.
    #[serde(default)]
    when: When,
}

/// The hardware that a way of mending brings up; none for one that needs no part.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
struct FixBrings {
    fix: OptionId,
    hardware: Vec<String>,
}

/// The file of what is brought for one procedure.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BringList {
    format: u32,
    /// The id of the procedure.
    r#for: String,
    items: Vec<Item>,
    /// The stage at which the hardware of the shoes goes on.
    hardware_stage: StageId,
    fixes: Vec<FixBrings>,
}

/// Why a file of what is brought can't be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BringFault {
    Unreadable { why: String },
    Format { found: u32 },
    Twice { id: String },
    UnknownHardware { code: String },
}

impl fmt::Display for BringFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unreadable { why } => write!(f, "can't read the bring list: {why}"),
            Self::Format { found } => {
                write!(
                    f,
                    "can't read the bring list: expected format 1, found {found}"
                )
            }
            Self::Twice { id } => write!(f, "the bring list has {id:?} twice"),
            Self::UnknownHardware { code } => {
                write!(
                    f,
                    "the bring list names hardware {code:?}, which no rule knows"
                )
            }
        }
    }
}

impl BringList {
    /// Reads the file, or says what is wrong with it.
    pub fn read(text: &str) -> Result<Self, BringFault> {
        let list: Self = serde_json::from_str(text).map_err(|error| BringFault::Unreadable {
            why: error.to_string(),
        })?;
        if list.format != 1 {
            return Err(BringFault::Format { found: list.format });
        }
        let mut ids = BTreeSet::new();
        let listed = list.items.iter().map(|item| item.id.as_str());
        let hardware = hardware::PARTS.iter().map(|part| part.code);
        for id in listed.chain(hardware) {
            if !ids.insert(id) {
                return Err(BringFault::Twice { id: id.to_owned() });
            }
        }
        let named = list.fixes.iter().flat_map(|fix| &fix.hardware);
        if let Some(code) = named
            .into_iter()
            .find(|code| hardware::by_code(code).is_none())
        {
            return Err(BringFault::UnknownHardware { code: code.clone() });
        }
        Ok(list)
    }

    /// True if it is the list of this procedure.
    pub fn is_for(&self, procedure: &Procedure) -> bool {
        self.r#for == procedure.pin.id
    }

    /// Every word key that the list needs.
    pub fn word_keys(&self) -> Vec<String> {
        let key = |item: &Item| format!("bring.{}", item.id);
        self.items.iter().map(key).collect()
    }
}

/// One thing to have at the vehicle.
#[derive(Clone, Debug, PartialEq)]
pub struct Wanted {
    /// What a tick names; the same as long as it is wanted for the same thing.
    pub id: OptionId,
    pub sort: Sort,
    pub stage: StageId,
    pub title: Words,
    /// Fewest and most; none for as much as is needed.
    pub count: Option<(u32, u32)>,
    /// A fact that decides whether it is needed is not given yet.
    pub maybe: bool,
    /// Work that was found wants it.
    pub found: bool,
    pub source: &'static Source,
    /// How it came, if it is there.
    pub how: Option<BroughtHow>,
    /// Fewer of it are on the shop sheet than are wanted: how many there are.
    pub owned: Option<u32>,
}

/// Everything to have at the vehicle, in order of sort and stage, what was found last.
///
/// Nothing where the card follows a procedure that the list is not for.
pub fn wanted(card: &Card, sheet: &ShopSheet, list: &BringList) -> Vec<Wanted> {
    let Some(procedure) = card.procedure.as_deref() else {
        return Vec::new();
    };
    if !list.is_for(procedure) {
        return Vec::new();
    }
    let listed = list
        .items
        .iter()
        .filter_map(|item| of_item(card, sheet, item));
    let hardware = hardware::PARTS
        .iter()
        .filter(|part| part.renew != Renew::WithCamshaft)
        .map(|part| of_hardware(card, list, part, None));
    let mut all: Vec<Wanted> = listed.chain(hardware).collect();
    let order = |stage: &StageId| procedure.stages.iter().position(|one| one.id == *stage);
    all.sort_by_key(|one| (one.sort, order(&one.stage)));
    let mut ids = BTreeSet::new();
    for extra in card.extra_lines() {
        for one in of_line(card, list, extra) {
            if ids.insert(one.id.clone()) {
                all.push(one);
            }
        }
    }
    all
}

fn of_item(card: &Card, sheet: &ShopSheet, item: &Item) -> Option<Wanted> {
    let places = card.places(
        match item.per {
            Per::Vehicle | Per::Person => Scope::Vehicle,
            Per::Axle => Scope::Axle,
            Per::End => Scope::End,
        },
        Place::Vehicle,
    );
    let fitting: Vec<Place> = places
        .into_iter()
        .filter(|at| card.fits(&item.when, *at))
        .collect();
    let each = match item.per {
        Per::Vehicle | Per::Axle | Per::End => fitting.len(),
        Per::Person => card.working().count().max(1),
    };
    if fitting.is_empty() {
        return None;
    }
    let each = u32::try_from(each).unwrap_or(u32::MAX);
    let count = item
        .count
        .map(|[fewest, most]| (fewest.saturating_mul(each), most.saturating_mul(each)));
    let owned = (item.sort == Sort::Stand)
        .then(|| u32::try_from(sheet.stands().count()).unwrap_or(u32::MAX))
        .filter(|owned| count.is_some_and(|(fewest, _)| *owned < fewest));
    Some(Wanted {
        id: item.id.clone(),
        sort: item.sort,
        stage: item.stage.clone(),
        title: Words::plain(&format!("bring.{}", item.id)),
        count,
        maybe: !fitting.iter().all(|at| card.surely_fits(&item.when, *at)),
        found: false,
        source: &COMMON_PRACTICE,
        how: card.brought(&item.id),
        owned,
    })
}

/// A part of the hardware: for both ends of every axle in hand, or for an extra line.
fn of_hardware(
    card: &Card,
    list: &BringList,
    part: &'static hardware::Part,
    extra: Option<(&ExtraLine, u32)>,
) -> Wanted {
    let ends = card.places(Scope::End, Place::Vehicle).len();
    let each = extra.map_or(u32::try_from(ends).unwrap_or(u32::MAX), |(_, each)| each);
    let (fewest, most) = part.count;
    let id = match extra {
        None => OptionId::from(part.code),
        Some((extra, _)) => OptionId::new(format!("{}-{}", part.code, extra.at)),
    };
    let title = Arg::Key(part.title.key().to_owned());
    Wanted {
        sort: Sort::Part,
        stage: list.hardware_stage.clone(),
        title: match extra {
            None => Words::plain(part.title.key()),
            Some((extra, _)) => Words::with(
                "bring.for-line",
                [("what", title), ("place", Arg::Place(extra.at))],
            ),
        },
        count: Some((
            u32::from(fewest).saturating_mul(each),
            u32::from(most).saturating_mul(each),
        )),
        maybe: fewest == 0,
        found: extra.is_some(),
        source: part.source,
        how: card.brought(&id),
        owned: None,
        id,
    }
}

/// What an extra line wants: parts of the hardware, or what its way of mending is called. Nothing
/// once the customer said no, and nothing for work that is done and was not ticked.
fn of_line(card: &Card, list: &BringList, extra: &ExtraLine) -> Vec<Wanted> {
    let both = card
        .finding(&extra.finding)
        .is_some_and(|finding| finding.both_ends);
    let each = if both { 2 } else { 1 };
    let brings = list.fixes.iter().find(|one| one.fix == extra.fix);
    let all: Vec<Wanted> = match brings {
        Some(brings) => brings
            .hardware
            .iter()
            .filter_map(|code| hardware::by_code(code))
            .map(|part| of_hardware(card, list, part, Some((extra, each))))
            .collect(),
        None => {
            let id = OptionId::new(format!("{}-{}-{}", extra.finding, extra.fix, extra.at));
            vec![Wanted {
                sort: Sort::Part,
                stage: list.hardware_stage.clone(),
                title: Words::with(
                    "bring.for-line",
                    [
                        (
                            "what",
                            Arg::Key(format!("fix.{}.{}", extra.finding, extra.fix)),
                        ),
                        ("place", Arg::Place(extra.at)),
                    ],
                ),
                count: Some((each, each)),
                maybe: extra.state != LineState::SaidYes,
                found: true,
                source: &COMMON_PRACTICE,
                how: card.brought(&id),
                owned: None,
                id,
            }]
        }
    };
    all.into_iter()
        .filter(|one| match extra.state {
            LineState::NotAsked | LineState::Waiting | LineState::SaidYes => true,
            LineState::Done => one.how.is_some(),
            LineState::SaidNo => false,
        })
        .collect()
}

/// Ticks something off the list, or takes its tick away.
pub fn tick(
    card: &Card,
    who: &PersonId,
    wanted: &[Wanted],
    item: &OptionId,
    how: BroughtHow,
) -> Result<Draft, Refusal> {
    if let Some(hold) = hold::may_act(card, who) {
        return Err(hold.into());
    }
    if wanted.iter().all(|one| one.id != *item) {
        return Err(Refusal::plain("refuse.not-offered"));
    }
    Ok(Draft::new(Event::Brought {
        item: item.clone(),
        how,
    }))
}

#[cfg(test)]
mod tests;
