//! What stands between this vehicle and the road: one list from everything that the card knows,
//! the worst first, each with the step to go to and how it is cleared.
//!
//! It judges nothing anew and never says that a vehicle may go: an empty list says only that this
//! card knows of nothing.

use rules::axle::alike::Part;
use rules::word::Argument;

use crate::card::{AskState, Card, Entry, StepState, Though};
use crate::event::{Event, Item, LineState, WithAnswer};
use crate::extra::ExtraLine;
use crate::hold::{self, Hold};
use crate::id::{AskId, FindingId, OptionId, Place, StepId};
use crate::judge::{self, Standing};
use crate::line::LineRef;
use crate::procedure::{Ask, Step};
use crate::second_look::{self, Waits, page};
use crate::words::{Arg, Words};

/// The step that hands the vehicle back. What comes after it is no longer in the way.
pub const RECORD: &str = "record";
/// The step that lets the vehicle go: it waits for the others, and stands in nobody's way.
pub(crate) const CHOCKS_OUT: &str = "chocks-out";
/// The step that asks for the answers to the extra lines; the lines stand here themselves.
const LINES: &str = "lines";

/// How much stands in the way, worst first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rank {
    /// The card can't be trusted, or can't be read.
    Trail,
    /// A `!` that is not answered, or whose answer was taken back.
    Protects,
    /// A reading beyond its limit, a part that has to go, an answer that says "not right".
    NotRight,
    /// Both ends of an axle don't carry the same part.
    Unlike,
    /// Work found on the way that is not settled.
    Line,
    /// A step that is not done.
    NotDone,
    /// An answer that stands only with a foreman's reason.
    Foreman,
    /// A wheel end that no second person accepted.
    Look,
    /// Done though something held it.
    Though,
    /// Left out, with a reason.
    Skipped,
}

impl Rank {
    /// True for what the last steps wait for.
    pub(crate) fn holds(self) -> bool {
        matches!(self, Self::NotRight | Self::Unlike | Self::Foreman)
    }
}

/// What it is.
#[derive(Clone, Debug, PartialEq)]
pub enum What {
    /// Something is wrong with the card as a whole.
    Trail(Hold),
    /// The step has no answer, or not all of them.
    NotDone,
    /// An answer of the step was taken back and not given again.
    TakenBack,
    /// A reading that may not stay as it is.
    Beyond(AskId),
    /// Answered, but not in a way that clears it.
    NotRight,
    /// It stands only with a foreman's reason.
    WantsReason,
    /// Both ends differ in this part.
    Unlike(Part),
    /// An extra line, and what was said of it last.
    Line {
        line: LineRef,
        finding: FindingId,
        state: LineState,
    },
    /// Where the wheel end is with its second look.
    Look(Waits),
    /// This line of the trail was done though something held it.
    Though(LineRef),
    /// The step was left out for this reason.
    Skipped(OptionId),
}

/// One thing that stands in the way.
#[derive(Clone, Debug, PartialEq)]
pub struct InTheWay {
    pub rank: Rank,
    pub what: What,
    /// The step to go to, where it has one.
    pub step: Option<StepId>,
    /// Where it stands, in order of work.
    pub places: Vec<Place>,
}

impl InTheWay {
    fn at(rank: Rank, what: What, at: Place, step: &StepId) -> Self {
        Self {
            rank,
            what,
            step: Some(step.clone()),
            places: vec![at],
        }
    }

    /// The place and step at which it is cleared: where the step is walked, which may be coarser or
    /// finer than where it stands.
    pub fn goes_to(&self, card: &Card) -> Option<(Place, &StepId)> {
        let (stands, step) = (*self.places.first()?, self.step.as_ref()?);
        let scope = card.procedure.as_deref()?.step(step)?.scope;
        let walked = card.places(scope, stands).first().copied();
        Some((walked.unwrap_or(stands), step))
    }

    /// What stands in the way.
    pub fn words(&self, card: &Card) -> Words {
        let step = || Arg::Key(self.step.as_ref().map_or(String::new(), step_key));
        let place = || Arg::Place(self.places.first().copied().unwrap_or(Place::Vehicle));
        let of_step = |key: &str| Words::with(key, [("step", step()), ("place", place())]);
        let of_places = |one: &str, many: &str| match u32::try_from(self.places.len()) {
            Ok(count) if count > 1 => Words::with(
                many,
                [
                    ("step", step()),
                    ("place", place()),
                    ("more", Arg::Rule(Argument::Count(count - 1))),
                ],
            ),
            _ => of_step(one),
        };
        match &self.what {
            What::Trail(hold) => hold.words(card),
            What::NotDone => of_places("way.not-done", "way.not-done-many"),
            What::TakenBack => of_step("way.taken-back"),
            What::Beyond(ask) => {
                let of = self.step.as_ref().map_or("", |step| step.as_str());
                let ask = ("ask", Arg::Key(format!("ask.{of}.{ask}")));
                Words::with("way.beyond", [ask, ("place", place())])
            }
            What::NotRight => of_step("way.not-right"),
            What::WantsReason => of_step("way.foreman"),
            What::Unlike(part) => {
                let part = ("part", Arg::Rule(Argument::Word(part.word())));
                Words::with("way.unlike", [part, ("place", place())])
            }
            What::Line { finding, state, .. } => Words::with(
                "way.line",
                [
                    ("finding", Arg::Key(format!("finding.{finding}"))),
                    ("place", place()),
                    ("state", Arg::Key(state_key(*state).to_owned())),
                ],
            ),
            What::Look(waits) => {
                let key = match waits {
                    Waits::Changed => "way.look-changed",
                    Waits::SentBack | Waits::Again => "way.look-sent-back",
                    Waits::NotYet | Waits::ForTheFirst | Waits::Accepted => "way.look",
                };
                Words::with(key, [("place", place())])
            }
            What::Though(_) => of_places("way.though", "way.though-many"),
            What::Skipped(why) => {
                let of = self.step.as_ref().map_or("", |step| step.as_str());
                let why = ("why", Arg::Key(format!("skip.{of}.{why}")));
                Words::with("way.skipped", [("step", step()), ("place", place()), why])
            }
        }
    }

    /// How it is cleared.
    pub fn cleared(&self) -> Words {
        Words::plain(match &self.what {
            What::Trail(_) => "way.clear.trail",
            What::NotDone => "way.clear.do",
            What::TakenBack => "way.clear.say-again",
            What::Beyond(_) | What::NotRight => "way.clear.put-right",
            What::WantsReason => "way.clear.foreman",
            What::Unlike(_) => "way.clear.match",
            What::Line { state, .. } => match state {
                LineState::NotAsked | LineState::Waiting => "way.clear.ask",
                LineState::SaidNo => "way.clear.said-no",
                LineState::SaidYes | LineState::Done => "way.clear.do-line",
            },
            What::Look(Waits::SentBack) => "way.clear.do",
            What::Look(_) => "way.clear.look",
            What::Though(_) => "way.clear.though",
            What::Skipped(_) => "way.clear.skipped",
        })
    }
}

fn step_key(step: &StepId) -> String {
    format!("step.{step}")
}

fn state_key(state: LineState) -> &'static str {
    match state {
        LineState::NotAsked => "line.state.not-asked",
        LineState::Waiting => "line.state.waiting",
        LineState::SaidYes => "line.state.said-yes",
        LineState::SaidNo => "line.state.said-no",
        LineState::Done => "line.state.done",
    }
}

/// Everything that stands between this vehicle and the road, the worst first; among equals in
/// order of work.
pub fn hand_back(card: &Card) -> Vec<InTheWay> {
    let mut all: Vec<InTheWay> = hold::of_trail(card)
        .map(|hold| InTheWay {
            rank: Rank::Trail,
            what: What::Trail(hold),
            step: None,
            places: vec![Place::Vehicle],
        })
        .into_iter()
        .collect();
    for (at, step) in before_the_road(card) {
        of_step(card, step, at, &mut all);
    }
    all.extend(unlike(card));
    all.extend(lines(card));
    all.extend(though(card));
    all.sort_by_key(|one| one.rank);
    all
}

/// Every step up to the one that hands the vehicle back.
fn before_the_road(card: &Card) -> Vec<(Place, &Step)> {
    let order = |step: &StepId| {
        card.procedure
            .as_deref()
            .and_then(|known| known.order(step))
    };
    let last = order(&StepId::from(RECORD));
    let mut path = card.path();
    path.retain(|(_, step)| {
        let before = last.is_none_or(|last| order(&step.id).is_some_and(|here| here < last));
        before && ![CHOCKS_OUT, LINES].contains(&step.id.as_str())
    });
    path
}

fn of_step(card: &Card, step: &Step, at: Place, all: &mut Vec<InTheWay>) {
    if step.id.as_str() == second_look::STEP {
        all.extend(look(card, step, at));
        return;
    }
    let rank = if step.protects() {
        Rank::Protects
    } else {
        Rank::NotDone
    };
    let here = |rank, what| InTheWay::at(rank, what, at, &step.id);
    match card.state(step, at) {
        StepState::NotOnPath | StepState::Done => {}
        StepState::Skipped => {
            let slot = card.skips.get(&(at, step.id.clone()));
            let why = slot.and_then(|slot| slot.only()).cloned();
            all.extend(why.map(|why| here(Rank::Skipped, What::Skipped(why))));
        }
        StepState::Open | StepState::Begun if card.was_struck(&step.id, at) => {
            all.push(here(rank, What::TakenBack));
        }
        StepState::Open | StepState::Begun => {
            // What is wrong of a step that is half done stands by itself.
            all.extend(beyond(card, step, at));
            let same = |one: &&mut InTheWay| {
                one.what == What::NotDone && one.step.as_ref() == Some(&step.id)
            };
            match all.iter_mut().find(same) {
                Some(one) => one.places.push(at),
                None => all.push(here(rank, What::NotDone)),
            }
        }
        StepState::Unclear => {
            let beyond = beyond(card, step, at);
            if !beyond.is_empty() {
                all.extend(beyond);
            } else if only_waits(card, step, at) {
                all.push(here(Rank::Foreman, What::WantsReason));
            } else if !told_by_a_line(card, step, at) {
                all.push(here(Rank::NotRight, What::NotRight));
            }
        }
    }
}

/// The readings of a step that the rules refuse as they are.
fn beyond(card: &Card, step: &Step, at: Place) -> Vec<InTheWay> {
    asked(card, step, at)
        .filter(|(ask, place)| {
            let live = card.slot(step, ask, *place, Item::Only);
            live.into_iter().flat_map(|slot| slot.live()).any(|held| {
                let judged = judge::judge(card, *place, step, ask, &held.value.answer);
                judged.is_ok_and(|judged| {
                    judge::standing(&judged, &held.value.judged) == Standing::Refused
                })
            })
        })
        .map(|(ask, place)| {
            InTheWay::at(
                Rank::NotRight,
                What::Beyond(ask.id.clone()),
                place,
                &step.id,
            )
        })
        .collect()
}

fn asked<'a>(card: &'a Card, step: &'a Step, at: Place) -> impl Iterator<Item = (&'a Ask, Place)> {
    step.asks.iter().flat_map(move |ask| {
        let places = card.ask_places(step, ask, at).into_iter();
        places.map(move |place| (ask, place))
    })
}

/// True if nothing but a foreman's reason is wanting.
fn only_waits(card: &Card, step: &Step, at: Place) -> bool {
    let unclear = asked(card, step, at)
        .filter(|(ask, place)| card.ask_state(step, ask, *place) == AskState::Unclear);
    card.waits_for_foreman(step, at) && unclear.into_iter().all(|(ask, _)| ask.rule.is_some())
}

/// True if every answer that is not right has an extra line, which stands in the list itself.
fn told_by_a_line(card: &Card, step: &Step, at: Place) -> bool {
    let mut unclear = asked(card, step, at)
        .filter(|(ask, place)| card.ask_state(step, ask, *place) == AskState::Unclear)
        .peekable();
    unclear.peek().is_some()
        && unclear.all(|(ask, place)| {
            let of_it = |extra: &ExtraLine| {
                let with = |with: &WithAnswer| with.step == step.id && with.ask == ask.id;
                extra.at == place && extra.with.as_ref().is_some_and(with)
            };
            let mut open = card
                .extra_lines()
                .iter()
                .filter(|extra| !is_settled(card, extra));
            open.any(of_it)
        })
}

fn is_settled(card: &Card, extra: &ExtraLine) -> bool {
    extra.is_settled(card.finding(&extra.finding))
}

fn look(card: &Card, step: &Step, at: Place) -> Option<InTheWay> {
    let waits = second_look::waits(card, at)?;
    let here = || InTheWay::at(Rank::Look, What::Look(waits), at, &step.id);
    (waits != Waits::Accepted).then(here)
}

fn unlike(card: &Card) -> Vec<InTheWay> {
    let axles = card.axles_in_hand().into_iter();
    axles
        .flat_map(|axle| {
            let differs = judge::axle::differs(card, axle).into_iter();
            differs.map(move |one| {
                let step = judge::axle::step_of(one.part);
                InTheWay::at(
                    Rank::Unlike,
                    What::Unlike(one.part),
                    Place::Axle(axle),
                    &step,
                )
            })
        })
        .collect()
}

fn lines(card: &Card) -> Vec<InTheWay> {
    let open = card
        .extra_lines()
        .iter()
        .filter(|extra| !is_settled(card, extra));
    open.map(|extra| {
        let finding = card.finding(&extra.finding);
        let protects = finding.is_some_and(|finding| finding.protects);
        InTheWay {
            rank: if protects { Rank::Protects } else { Rank::Line },
            what: What::Line {
                line: extra.line.clone(),
                finding: extra.finding.clone(),
                state: extra.state,
            },
            step: finding.and_then(|finding| finding.holds.clone()),
            places: vec![extra.at],
        }
    })
    .collect()
}

/// What was done though something held it, and still stands: step by step.
fn though(card: &Card) -> Vec<InTheWay> {
    let mut all: Vec<InTheWay> = Vec::new();
    for entry in card
        .entries
        .iter()
        .filter(|entry| still_though(card, entry))
    {
        let Some((at, step)) = entry.event().and_then(Event::step) else {
            continue;
        };
        match all.iter_mut().find(|one| one.step.as_ref() == Some(step)) {
            Some(one) if one.places.contains(&at) => {}
            Some(one) => one.places.push(at),
            None => {
                let what = What::Though(entry.line.clone());
                all.push(InTheWay::at(Rank::Though, what, at, step));
            }
        }
    }
    all
}

/// What was built on an answer that was taken back is good again once that is given anew.
fn still_though(card: &Card, entry: &Entry) -> bool {
    let marked = match &entry.though {
        None | Some(Though::NotTheirs) => false,
        Some(Though::Held(_)) => true,
        Some(Though::BuiltOnStruck { first, at }) => {
            let known = card
                .procedure
                .as_deref()
                .and_then(|known| known.step(first));
            known.is_none_or(|first| !card.is_done(first, *at))
        }
    };
    marked && entry.struck.is_none() && page::stands(card, entry)
}

#[cfg(test)]
pub(crate) mod tests;
