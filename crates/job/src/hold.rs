//! Why a step can't be taken yet, and the proof that it can.
//!
//! A hold is asked twice: by the screen, to say "Not yet: …", and by the action, which needs
//! the proof. The fold asks a third time, on every line, because lines also come from elsewhere.

use rules::axle::alike::Part;
use rules::word::Argument;

use crate::card::{Card, StepState};
use crate::event::{Answer, Event, Heads, Item, Role};
use crate::hand_back::{self, What};
use crate::id::{AskId, FindingId, PersonId, Place, StepId};
use crate::judge;
use crate::line::{LineRef, Stamp};
use crate::procedure::{ResolvedHold, Step};
use crate::second_look;
use crate::trail::TrailFault;
use crate::words::{Arg, Words};

/// Why something can't be done now. Its words say what to do about it.
#[derive(Clone, Debug, PartialEq)]
pub enum Hold {
    /// The trail is not whole: nothing is added to a card that can't be trusted.
    Damaged(TrailFault),
    /// A newer app wrote something that this one can't understand.
    Newer { kind: String },
    /// The card follows a procedure that this app does not carry.
    UnknownProcedure,
    /// There is no first line.
    NotOpened,
    /// The step is not for this vehicle, or not at this place.
    NotOnPath,
    /// Another step comes first.
    NotYet {
        first: StepId,
        at: Place,
        protects: bool,
    },
    /// The answer to a `!` was taken back: the vehicle waits until it is answered again.
    Stopped { first: StepId, at: Place },
    /// Nobody, or somebody who did not sign on to this card.
    SignOn,
    /// A second look is a foreman's.
    ForemanLooks,
    /// A second person looks, not the one who did the work.
    OwnWork { who: PersonId },
    /// A person's own tag and own word can't be given by another.
    OwnPress { whose: PersonId },
    /// The step would hide a part whose extra line is not done.
    CoversUp {
        line: LineRef,
        finding: FindingId,
        at: Place,
        protects: bool,
    },
    /// Both ends of an axle don't carry the same part.
    Unlike {
        part: Part,
        first: StepId,
        at: Place,
    },
    /// The last thing was done long ago: what keeps the vehicle where it is has to be looked at.
    CameBack,
}

impl Hold {
    /// True if nobody may pass it, foreman or not.
    pub fn protects(&self) -> bool {
        !matches!(
            self,
            Self::NotYet {
                protects: false,
                ..
            } | Self::CoversUp {
                protects: false,
                ..
            } | Self::Unlike { .. }
        )
    }

    /// The step to do first, if that is what is wanted.
    pub fn first(&self) -> Option<(Place, &StepId)> {
        match self {
            Self::NotYet { first, at, .. }
            | Self::Stopped { first, at }
            | Self::Unlike { first, at, .. } => Some((*at, first)),
            Self::Damaged(_)
            | Self::Newer { .. }
            | Self::UnknownProcedure
            | Self::NotOpened
            | Self::NotOnPath
            | Self::SignOn
            | Self::ForemanLooks
            | Self::OwnWork { .. }
            | Self::OwnPress { .. }
            | Self::CoversUp { .. }
            | Self::CameBack => None,
        }
    }

    pub fn words(&self, card: &Card) -> Words {
        let name = |person: &PersonId| Arg::Text(card.name(person).to_owned());
        let step = |step: &StepId| Arg::Key(format!("step.{step}.do"));
        match self {
            Self::Damaged(_) => Words::plain("hold.damaged"),
            Self::Newer { kind } => Words::with("hold.newer", [("kind", Arg::Text(kind.clone()))]),
            Self::UnknownProcedure => Words::plain("hold.unknown-procedure"),
            Self::NotOpened => Words::plain("hold.not-opened"),
            Self::NotOnPath => Words::plain("hold.not-on-path"),
            Self::NotYet { first, at, .. } => Words::with(
                "hold.not-yet",
                [("step", step(first)), ("place", Arg::Place(*at))],
            ),
            Self::Stopped { first, at } => Words::with(
                "hold.stopped",
                [("step", step(first)), ("place", Arg::Place(*at))],
            ),
            Self::SignOn => Words::plain("hold.sign-on"),
            Self::ForemanLooks => Words::plain("hold.foreman-looks"),
            Self::OwnWork { who } => Words::with("hold.own-work", [("name", name(who))]),
            Self::OwnPress { whose } => Words::with("hold.own-press", [("name", name(whose))]),
            Self::CoversUp { finding, at, .. } => Words::with(
                "hold.covers-up",
                [
                    ("finding", Arg::Key(format!("finding.{finding}"))),
                    ("place", Arg::Place(*at)),
                ],
            ),
            Self::Unlike { part, at, .. } => Words::with(
                "hold.unlike",
                [
                    ("part", Arg::Rule(Argument::Word(part.word()))),
                    ("place", Arg::Place(at.axle().map_or(*at, Place::Axle))),
                ],
            ),
            Self::CameBack => Words::plain("hold.came-back"),
        }
    }
}

/// The first reason why `step` can't be taken at `at`, whoever asks.
pub fn first_hold(card: &Card, step: &StepId, at: Place) -> Option<Hold> {
    let struck = |first: &StepId, place: Place| card.was_struck(first, place);
    of_trail(card).or_else(|| of_step(card, step, at, struck))
}

/// The same, apart from what is wrong with the card as a whole. `struck` tells of which `!` the
/// person who asks knows that an answer was taken back.
pub(crate) fn of_step(
    card: &Card,
    step: &StepId,
    at: Place,
    struck: impl Fn(&StepId, Place) -> bool,
) -> Option<Hold> {
    let procedure = card.procedure.as_deref()?;
    let Some(wanted) = procedure.step(step) else {
        return Some(Hold::NotOnPath);
    };
    if !belongs(card, wanted, at) || card.state(wanted, at) == StepState::NotOnPath {
        return Some(Hold::NotOnPath);
    }
    let direct = || {
        // One that protects is named before one that a foreman may pass.
        let of_this = |hold: &&ResolvedHold| hold.then == *step;
        let protecting = procedure.holds.iter().filter(|hold| hold.protects);
        let others = procedure.holds.iter().filter(|hold| !hold.protects);
        protecting.chain(others).filter(of_this).find_map(|hold| {
            let first = procedure.step(&hold.first)?;
            if !card.fits(&hold.when, at) {
                return None;
            }
            let undone = card
                .places(first.scope, at)
                .into_iter()
                .find(|place| !card.is_done(first, *place))?;
            // Passed here, or for the whole step that this place is a part of.
            let passed = |place| card.is_passed(place, step, &hold.first);
            if !hold.protects
                && (passed(at) || card.places(wanted.scope, at).into_iter().any(passed))
            {
                return None;
            }
            Some(Hold::NotYet {
                first: hold.first.clone(),
                at: undone,
                protects: hold.protects,
            })
        })
    };
    let covers_up = || {
        let (extra, finding) = card.covered_by(step, at)?;
        Some(Hold::CoversUp {
            line: extra.line.clone(),
            finding: finding.id.clone(),
            at: extra.at,
            protects: finding.protects,
        })
    };
    stopped(card, wanted, |step, place| struck(&step.id, place))
        .or_else(covers_up)
        .or_else(direct)
        .or_else(|| stopped(card, wanted, |step, place| built_upon(card, step, place)))
        .or_else(|| unlike(card, step, at))
        .or_else(|| in_the_way(card, step, at))
}

/// The steps that send a vehicle on its way: they wait for everything that is not right.
const LAST: [&str; 2] = [hand_back::CHOCKS_OUT, hand_back::RECORD];

/// A wheel end is not accepted while its axle carries unlike parts.
pub(crate) fn unlike(card: &Card, step: &StepId, at: Place) -> Option<Hold> {
    let axle = at.axle().filter(|_| step.as_str() == second_look::STEP)?;
    let parts = judge::axle::differs(card, axle).into_iter();
    parts.map(|one| one.part).find_map(|part| {
        let first = judge::axle::step_of(part);
        let at_axle = part == Part::Lining;
        (!card.is_passed(at, step, &first)).then_some(Hold::Unlike {
            part,
            first,
            at: if at_axle { Place::Axle(axle) } else { at },
        })
    })
}

/// The worst of what stands between this vehicle and the road, where it was left by an earlier
/// step and no foreman passed it.
fn in_the_way(card: &Card, step: &StepId, at: Place) -> Option<Hold> {
    if !LAST.contains(&step.as_str()) {
        return None;
    }
    let procedure = card.procedure.as_deref()?;
    let order = |step: &StepId| procedure.order(step);
    let all = hand_back::hand_back(card).into_iter();
    all.filter(|one| one.rank.holds()).find_map(|one| {
        let (place, first) = one.goes_to(card)?;
        if order(first) >= order(step) || card.is_passed(at, step, first) {
            return None;
        }
        let (first, at) = (first.clone(), place);
        if let What::Unlike(part) = one.what {
            return Some(Hold::Unlike { part, first, at });
        }
        Some(Hold::NotYet {
            first,
            at,
            protects: false,
        })
    })
}

/// True if a foreman can let `step` go on over `first`, as the card stands.
pub(crate) fn may_be_passed(card: &Card, step: &StepId, at: Place, first: &StepId) -> bool {
    let hold = unlike(card, step, at).or_else(|| in_the_way(card, step, at));
    hold.is_some_and(|hold| hold.first().is_some_and(|(_, named)| named == first))
}

/// After a long gap: what keeps the vehicle where it is has to be looked at first.
pub fn of_gap(card: &Card, now: Stamp) -> Option<Hold> {
    (!card.to_look_at(now.utc).is_empty()).then_some(Hold::CameBack)
}

/// True if `first` holds `step` and nobody may pass it.
pub(crate) fn never_passed(card: &Card, step: &StepId, first: &StepId) -> bool {
    card.procedure.iter().any(|procedure| {
        procedure
            .holds
            .iter()
            .any(|hold| hold.first == *first && hold.then == *step && hold.protects)
    })
}

/// What is wrong with the card as a whole.
pub fn of_trail(card: &Card) -> Option<Hold> {
    if let Some(fault) = card.faults.first() {
        Some(Hold::Damaged(fault.clone()))
    } else if let Some(kind) = card.newer.first() {
        Some(Hold::Newer { kind: kind.clone() })
    } else if card.opened.is_none() {
        Some(Hold::NotOpened)
    } else if card.procedure.is_none() {
        Some(Hold::UnknownProcedure)
    } else {
        None
    }
}

/// A `!` that is not answered, and of which `why` is true, stops everything after it.
fn stopped(card: &Card, wanted: &Step, why: impl Fn(&Step, Place) -> bool) -> Option<Hold> {
    let procedure = card.procedure.as_deref()?;
    procedure
        .steps()
        .take_while(|step| step.id != wanted.id)
        .filter(|step| step.protects())
        .find_map(|step| {
            let at = card
                .places(step.scope, Place::Vehicle)
                .into_iter()
                .find(|at| !card.is_done(step, *at) && why(step, *at))?;
            Some(Hold::Stopped {
                first: step.id.clone(),
                at,
            })
        })
}

/// True if something that this step holds is done: it was true once, and is no longer.
pub(crate) fn built_upon(card: &Card, step: &Step, at: Place) -> bool {
    let Some(procedure) = card.procedure.as_deref() else {
        return false;
    };
    procedure
        .holds
        .iter()
        .filter(|hold| hold.protects && hold.first == step.id && card.fits(&hold.when, at))
        .filter_map(|hold| procedure.step(&hold.then))
        .any(|then| {
            let places = card.places(then.scope, at);
            places
                .into_iter()
                .any(|place| card.state(then, place) == StepState::Done)
        })
}

/// True if `at` is a place where the step, or one of its asks, is answered.
fn belongs(card: &Card, step: &Step, at: Place) -> bool {
    card.places(step.scope, Place::Vehicle).contains(&at)
        || step
            .asks
            .iter()
            .any(|ask| card.ask_places(step, ask, Place::Vehicle).contains(&at))
}

/// What stands against this person saying this here.
pub(crate) fn of_person(card: &Card, who: &PersonId, at: Place, event: &Event) -> Option<Hold> {
    if let Event::Answered { item, answer, .. } = event {
        let looks = matches!(answer, Answer::Look { .. });
        who_may(card, who, at, item, looks)
    } else {
        signed_on(card, who)
    }
}

fn signed_on(card: &Card, who: &PersonId) -> Option<Hold> {
    (!card.people.get(who).is_some_and(|signed| signed.on)).then_some(Hold::SignOn)
}

fn who_may(card: &Card, who: &PersonId, at: Place, item: &Item, looks: bool) -> Option<Hold> {
    if let Some(hold) = signed_on(card, who) {
        return Some(hold);
    }
    if let Item::Person(whose) = item
        && whose != who
    {
        return Some(Hold::OwnPress {
            whose: whose.clone(),
        });
    }
    if looks && card.role(who) != Some(Role::Foreman) {
        return Some(Hold::ForemanLooks);
    }
    if looks && card.worked_at(who, at) {
        return Some(Hold::OwnWork { who: who.clone() });
    }
    None
}

/// Proof that nothing holds this answer at these heads. Only [`may_take`] makes one; it can't
/// be copied, and the action uses it up.
#[derive(Debug)]
pub struct MayTake {
    pub(crate) who: PersonId,
    pub(crate) at: Place,
    pub(crate) step: StepId,
    pub(crate) ask: AskId,
    pub(crate) item: Item,
    pub(crate) beside: Option<PersonId>,
    pub(crate) heads: Heads,
}

impl MayTake {
    /// The same, with somebody beside an apprentice.
    pub fn beside(self, person: Option<PersonId>) -> Self {
        Self {
            beside: person,
            ..self
        }
    }
}

/// Asks whether `who` may answer this at `now`.
pub fn may_take(
    card: &Card,
    who: &PersonId,
    at: Place,
    step: &StepId,
    ask: &AskId,
    item: Item,
    now: Stamp,
) -> Result<MayTake, Hold> {
    if let Some(hold) = first_hold(card, step, at).or_else(|| of_gap(card, now)) {
        return Err(hold);
    }
    let procedure = card.procedure.as_deref().ok_or(Hold::UnknownProcedure)?;
    let wanted = procedure.step(step).ok_or(Hold::NotOnPath)?;
    let asked = procedure.ask(step, ask).ok_or(Hold::NotOnPath)?;
    if !card.ask_places(wanted, asked, Place::Vehicle).contains(&at) || !card.fits(&asked.when, at)
    {
        return Err(Hold::NotOnPath);
    }
    let looks = matches!(asked.kind, crate::procedure::AskKind::Look);
    if let Some(hold) = who_may(card, who, at, &item, looks) {
        return Err(hold);
    }
    Ok(MayTake {
        who: who.clone(),
        at,
        step: step.clone(),
        ask: ask.clone(),
        item,
        beside: None,
        heads: card.heads.clone(),
    })
}

/// Asks whether `who` may do anything at all on this card.
pub fn may_act(card: &Card, who: &PersonId) -> Option<Hold> {
    of_trail(card).or_else(|| signed_on(card, who))
}
