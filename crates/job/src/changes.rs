//! What one more line would do to a card, told before the line is kept.
//!
//! [`changes`] compares two cards and names what a person must know of the difference, and
//! [`of_bring_list`] what that does to the bring list; [`of_draft`] gets the second card by writing on
//! a copy of the trail. Nothing is kept, nothing is refused here, and the verdicts come from the rules.

use std::collections::{BTreeMap, BTreeSet};

use rules::verdict::{RuleId, Verdict};

use crate::act::Draft;
use crate::bring::{BringList, Wanted, wanted};
use crate::card::{AskState, Card, StepState, fold};
use crate::event::Answer;
use crate::hand_back::{self, InTheWay};
use crate::hold;
use crate::id::{AskId, FactId, PersonId, Place, StepId, TabletId};
use crate::judge;
use crate::line::Stamp;
use crate::procedure::{Ask, AskKind, Procedure, Step};
use crate::procedures::Procedures;
use crate::shop::ShopSheet;
use crate::trail::Trail;
use crate::words::Words;

/// One thing that differs between two cards.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    pub weight: Weight,
    pub at: Place,
    /// The step that it is about, if it is about one.
    pub step: Option<StepId>,
    pub what: What,
}

/// How much a change matters, the gravest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Weight {
    /// A `!` that others rest on is open: the vehicle waits.
    Stops,
    /// It is about something that protects a person.
    Protects,
    Other,
}

/// What becomes of a step, an ask, an answer, a fact or an axle. Of changes that matter as much,
/// the one that stands first here is told first.
#[derive(Clone, Debug, PartialEq)]
pub enum What {
    /// The step was done and is open again.
    Reopens,
    /// The step comes on to the path and has to be done.
    Comes,
    /// The step holds something that did not wait for it before.
    Holds,
    /// An axle comes in hand, with both its wheel ends.
    AxleComes,
    /// The fact was given and is wanted again.
    FactGoes(FactId),
    /// The rules say something else of an answer. Without a verdict it can't be judged.
    Judged {
        ask: AskId,
        rule: RuleId,
        then: Option<Verdict>,
        now: Option<Verdict>,
    },
    /// It stands in the way of the hand back from then on: both ends of an axle differ.
    InTheWay(Box<InTheWay>),
    /// It stands in the way no more.
    OutOfTheWay(Box<InTheWay>),
    /// It is wanted on the bring list, in another number if it was before.
    Brings {
        title: Words,
        /// Fewest and most; none for as much as is needed.
        count: Option<(u32, u32)>,
    },
    /// It is no longer wanted on the bring list.
    BringsNot { title: Words },
    /// The answer does not clear its ask any more.
    AnswerFails(AskId),
    /// Asked anew inside a step that was begun.
    Asked(AskId),
    /// No longer asked inside a step that was begun.
    NotAsked(AskId),
    /// The step comes on to the path and was answered before.
    ComesDone,
    /// The step leaves the path. What was said there, if anything was, no longer counts.
    Leaves { begun: bool },
    /// An axle is no longer in hand.
    AxleLeaves,
    /// What waited for the step waits no longer, though it is not done.
    HoldsNothing,
    /// The step was open and is done.
    Done,
}

/// The card as it is, and as it would be with a draft. It is written on a copy of the trail only.
pub fn of_draft(
    trail: &Trail,
    procedures: &Procedures,
    tablet: &TabletId,
    who: &PersonId,
    at: Stamp,
    draft: Draft,
) -> [Card; 2] {
    let before = fold(trail, procedures);
    let mut copy = trail.clone();
    for line in trail.write(tablet, who, at, vec![draft]) {
        copy.take_in(line);
    }
    [before, fold(&copy, procedures)]
}

/// What comes on to the bring list, and what leaves it.
pub fn of_bring_list(
    before: &Card,
    after: &Card,
    sheet: &ShopSheet,
    list: &BringList,
) -> Vec<Change> {
    let [was, is] = [before, after].map(|card| wanted(card, sheet, list));
    let same = |one: &Wanted, other: &Wanted| one.id == other.id && one.count == other.count;
    let change = |what| Change {
        weight: Weight::Other,
        at: Place::Vehicle,
        step: None,
        what,
    };
    let come = is
        .iter()
        .filter(|one| !was.iter().any(|was| same(was, one)));
    let come = come.map(|one| {
        change(What::Brings {
            title: one.title.clone(),
            count: one.count,
        })
    });
    let leave = was
        .iter()
        .filter(|one| !is.iter().any(|is| is.id == one.id));
    let leave = leave.map(|one| {
        change(What::BringsNot {
            title: one.title.clone(),
        })
    });
    come.chain(leave).collect()
}

/// What a person must know of the difference, what protects a person first, then in order of work.
pub fn changes(before: &Card, after: &Card) -> Vec<Change> {
    let Some(procedure) = after.procedure.as_deref() else {
        return Vec::new();
    };
    let both = Both { before, after };
    let mut found = both.axles();
    found.extend(both.facts_gone());
    found.extend(both.in_the_way());
    for step in procedure.steps() {
        for at in both.of_each(|card| card.places(step.scope, Place::Vehicle)) {
            let was = state(before, step, at);
            let is = state(after, step, at);
            found.extend(both.step(procedure, step, at, was, is));
            let on_both = was != StepState::NotOnPath && is != StepState::NotOnPath;
            if on_both && (is_begun(was) || is_begun(is)) {
                found.extend(both.asks(step, at));
            }
        }
        found.extend(both.verdicts(step));
    }
    // A stable order, so that of equal weight each kind stays in order of work.
    found.sort_by_key(|change| (change.weight, rank(&change.what)));
    let mut told = Vec::new();
    for change in found {
        if !told.contains(&change) {
            told.push(change);
        }
    }
    told
}

/// Place in the order in which kinds of change are told.
fn rank(what: &What) -> u8 {
    match what {
        What::Reopens => 0,
        What::Comes => 1,
        What::Holds => 2,
        What::AxleComes => 3,
        What::FactGoes(_) => 4,
        What::Judged { .. } => 5,
        What::InTheWay(_) => 6,
        What::AnswerFails(_) => 7,
        What::Asked(_) => 8,
        What::NotAsked(_) => 9,
        What::ComesDone => 10,
        What::Leaves { .. } => 11,
        What::AxleLeaves => 12,
        What::HoldsNothing => 13,
        What::Done => 14,
        What::OutOfTheWay(_) => 15,
        What::Brings { .. } => 16,
        What::BringsNot { .. } => 17,
    }
}

/// The two cards that are compared.
struct Both<'a> {
    before: &'a Card,
    after: &'a Card,
}

impl Both<'_> {
    /// The places that either card has, without axles that only one of them has in hand: those
    /// are told as a whole.
    fn of_each(&self, places: impl Fn(&Card) -> Vec<Place>) -> BTreeSet<Place> {
        let was = self.before.axles_in_hand();
        let is = self.after.axles_in_hand();
        let stays = |place: &Place| {
            place
                .axle()
                .is_none_or(|axle| was.contains(&axle) == is.contains(&axle))
        };
        let mut all: BTreeSet<Place> = places(self.before).into_iter().collect();
        all.extend(places(self.after));
        all.into_iter().filter(stays).collect()
    }

    fn axles(&self) -> Vec<Change> {
        let was: BTreeSet<u8> = self.before.axles_in_hand().into_iter().collect();
        let is: BTreeSet<u8> = self.after.axles_in_hand().into_iter().collect();
        let change = |axle: &u8, what: What| Change {
            weight: Weight::Protects, // Chocks, stands and air of these wheel ends go with it.
            at: Place::Axle(*axle),
            step: None,
            what,
        };
        let come = is
            .difference(&was)
            .map(|axle| change(axle, What::AxleComes));
        let leave = was
            .difference(&is)
            .map(|axle| change(axle, What::AxleLeaves));
        come.chain(leave).collect()
    }

    /// What stands in the way of the hand back and is told by no step: parts that differ across an
    /// axle.
    fn in_the_way(&self) -> Vec<Change> {
        let told = |one: &InTheWay| {
            let by_no_step = matches!(one.what, hand_back::What::Unlike(_));
            by_no_step && self.of_each(|_| one.places.clone()).len() == one.places.len()
        };
        let [was, is] = [self.before, self.after].map(|card| {
            let mut all = hand_back::hand_back(card);
            all.retain(told);
            all
        });
        let change = |one: &InTheWay, what| Change {
            weight: Weight::Other,
            at: one.places.first().copied().unwrap_or(Place::Vehicle),
            step: one.step.clone(),
            what,
        };
        let come = is.iter().filter(|one| !was.contains(one));
        let come = come.map(|one| change(one, What::InTheWay(Box::new(one.clone()))));
        let leave = was.iter().filter(|one| !is.contains(one));
        let leave = leave.map(|one| change(one, What::OutOfTheWay(Box::new(one.clone()))));
        come.chain(leave).collect()
    }

    fn facts_gone(&self) -> Vec<Change> {
        let given = |card: &Card, at: Place, fact: &FactId| {
            card.fact_slot(at, fact)
                .is_some_and(|slot| !slot.live().is_empty())
        };
        let was = self.before.facts.keys();
        was.filter(|(at, fact)| given(self.before, *at, fact) && !given(self.after, *at, fact))
            .map(|(at, fact)| Change {
                weight: Weight::Other,
                at: *at,
                step: None,
                what: What::FactGoes(fact.clone()),
            })
            .collect()
    }

    fn step(
        &self,
        procedure: &Procedure,
        step: &Step,
        at: Place,
        was: StepState,
        is: StepState,
    ) -> Option<Change> {
        let off = StepState::NotOnPath;
        let stops = |card: &Card| stops(card, step, at);
        let stops_now = stops(self.after) && !stops(self.before);
        let waits = |card: &Card| waited_for(card, procedure, step, at);
        let what = match (was, is) {
            (was, is) if was == off && is == off => return None,
            (was, is) if was == off && is_done(is) => What::ComesDone,
            (was, _) if was == off => What::Comes,
            (was, is) if is == off => What::Leaves {
                begun: is_begun(was),
            },
            (was, is) if is_done(was) && !is_done(is) => What::Reopens,
            (was, is) if !is_done(was) && is_done(is) => What::Done,
            _ if stops_now || (waits(self.after) && !waits(self.before)) => What::Holds,
            _ if waits(self.before) && !waits(self.after) => What::HoldsNothing,
            _ => return None,
        };
        Some(Change {
            weight: if stops_now {
                Weight::Stops
            } else {
                weight(step)
            },
            at,
            step: Some(step.id.clone()),
            what,
        })
    }

    /// What differs inside a step that was begun.
    fn asks(&self, step: &Step, at: Place) -> Vec<Change> {
        let mut found = Vec::new();
        for ask in &step.asks {
            for place in self.of_each(|card| card.ask_places(step, ask, at)) {
                let was = ask_state(self.before, step, ask, at, place);
                let is = ask_state(self.after, step, ask, at, place);
                let what = match (was, is) {
                    (AskState::NotAsked, AskState::NotAsked | AskState::Clear) => continue,
                    (AskState::NotAsked, _) => What::Asked(ask.id.clone()),
                    (_, AskState::NotAsked) => What::NotAsked(ask.id.clone()),
                    // A fact that went is told once, not for each step that asks for it.
                    (AskState::Clear, AskState::Open) if matches!(ask.kind, AskKind::Fact(_)) => {
                        continue;
                    }
                    (AskState::Clear, AskState::Open | AskState::Partly | AskState::Unclear) => {
                        What::AnswerFails(ask.id.clone())
                    }
                    _ => continue,
                };
                found.push(Change {
                    weight: weight(step),
                    at: place,
                    step: Some(step.id.clone()),
                    what,
                });
            }
        }
        found
    }

    /// Answers of this step of which the rules say something else.
    fn verdicts(&self, step: &Step) -> Vec<Change> {
        let of_step = self.after.answers.iter().filter(|(key, _)| {
            let on_path = |card: &Card| card.fits(&step.when, key.at);
            key.step == step.id && on_path(self.before) && on_path(self.after)
        });
        let mut found = Vec::new();
        for (key, slot) in of_step {
            let Some(ask) = step.asks.iter().find(|ask| ask.id == key.ask) else {
                continue;
            };
            for held in slot.live() {
                let was = said(self.before, key.at, step, ask, &held.value.answer);
                let is = said(self.after, key.at, step, ask, &held.value.answer);
                let rules: BTreeSet<&RuleId> = was.keys().chain(is.keys()).collect();
                let differ = rules
                    .into_iter()
                    .filter(|rule| was.get(rule) != is.get(rule));
                found.extend(differ.map(|rule| Change {
                    weight: weight(step),
                    at: key.at,
                    step: Some(step.id.clone()),
                    what: What::Judged {
                        ask: ask.id.clone(),
                        rule: *rule,
                        then: was.get(rule).copied(),
                        now: is.get(rule).copied(),
                    },
                }));
            }
        }
        found
    }
}

/// What each rule says of an answer; nothing for want of something that the rules need.
fn said(
    card: &Card,
    at: Place,
    step: &Step,
    ask: &Ask,
    answer: &Answer,
) -> BTreeMap<RuleId, Verdict> {
    let judged = judge::judge(card, at, step, ask, answer);
    judged.map_or_else(
        |_wanting| BTreeMap::new(),
        |judged| {
            let judgements = judged.judgements().into_iter();
            judgements
                .map(|judgement| (judgement.rule, judgement.verdict))
                .collect()
        },
    )
}

fn weight(step: &Step) -> Weight {
    if step.protects() {
        Weight::Protects
    } else {
        Weight::Other
    }
}

/// How far a step is here; not on the path where the card has no such place for it.
fn state(card: &Card, step: &Step, at: Place) -> StepState {
    if card.places(step.scope, Place::Vehicle).contains(&at) {
        card.state(step, at)
    } else {
        StepState::NotOnPath
    }
}

fn ask_state(card: &Card, step: &Step, ask: &Ask, at: Place, place: Place) -> AskState {
    if state(card, step, at) != StepState::NotOnPath
        && card.ask_places(step, ask, at).contains(&place)
    {
        card.ask_state(step, ask, place)
    } else {
        AskState::NotAsked
    }
}

fn is_done(state: StepState) -> bool {
    matches!(state, StepState::Done | StepState::Skipped)
}

fn is_begun(state: StepState) -> bool {
    !matches!(state, StepState::NotOnPath | StepState::Open)
}

/// True if a `!` hold of this step stands here and the step is not done.
fn waited_for(card: &Card, procedure: &Procedure, step: &Step, at: Place) -> bool {
    let stands = procedure
        .holds
        .iter()
        .any(|hold| hold.protects && hold.first == step.id && card.fits(&hold.when, at));
    stands && !is_done(state(card, step, at))
}

/// True if this step is open though something that waits for it is done, or because an answer of
/// it was taken back: then everything after it stands still.
fn stops(card: &Card, step: &Step, at: Place) -> bool {
    let is = state(card, step, at);
    if !step.protects() || is_done(is) || is == StepState::NotOnPath {
        return false;
    }
    hold::built_upon(card, step, at) || card.was_struck(&step.id, at)
}

#[cfg(test)]
mod tests;
