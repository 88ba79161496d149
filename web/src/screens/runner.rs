//! The runner: one step at one place, one thing asked at a time.
//!
//! It leads to the first thing that is still open, keeps what was typed until it is on the
//! medium, and says "Not yet: …" where something comes first. Comparing and judging is the
//! rules' business; what may be taken is asked of `job`.

use std::sync::Arc;
use std::time::Duration;

use chrono::TimeDelta;

use job::act;
use job::card::{AskState, Card, StepState};
use job::event::{Answer, Item, Role};
use job::group::Member;
use job::hold;
use job::id::{AskId, PersonId, Place, StepId};
use job::judge;
use job::line::LineRef;
use job::procedure::{Ask, AskKind, Step};
use job::wrench::Picking;
use leptos::prelude::*;
use practice::scene::Scene;
use rules::unit::Unit;

use crate::parts::corner::Corner;
use crate::parts::flash::{self, Flash};
use crate::parts::nav_column::{NavColumn, NavTo};
use crate::parts::not_yet::{NotYet, NotYetShown};
use crate::parts::screen_guard::ScreenGuard;
use crate::parts::wide_done::WideDone;
use crate::say::{place, say, side_key};
use crate::screen::Screen;
use crate::screens::band::PracticeBand;
use crate::screens::map::vehicle_picture;
use crate::screens::page::anew;
use crate::screens::practice::sights::{self, Sights};
use crate::screens::practice::{marking, moment};
use crate::session::{Saving, Session};
use crate::words::{fill, find, t};

mod advice;
mod answered;
mod beside;
mod came_back;
mod choose;
mod exceptions;
mod fact;
mod group;
pub(crate) mod here;
mod jack;
mod lines;
pub(crate) mod list;
mod look;
mod pass;
mod picture;
mod press;
pub(crate) mod reading;
mod settled;
mod stands;
mod wheels;
mod wrench;

/// After this long without a touch the screen says where one is before it goes on.
const AWAY: TimeDelta = TimeDelta::minutes(10);

/// How often that is looked at.
const LOOK_EVERY: Duration = Duration::from_secs(15);

/// What the body of the runner shows.
#[derive(Clone, Debug, PartialEq)]
enum Shown {
    /// Everything this step asks, with what was answered.
    List,
    /// Something comes first.
    Held {
        ask: Option<(AskId, Place)>,
        hold: NotYetShown,
        /// Where that is done, if it is not for another person.
        first: Option<Screen>,
    },
    /// An apprentice is at a `!`: somebody stands beside them.
    Beside,
    /// Where the person is, before work goes on there.
    Here,
    /// In a run: somebody wants to take a step.
    Moment(Scene),
    /// After a long gap: what holds the vehicle is looked at.
    CameBack,
    /// Several asks with one Done.
    Group { members: Vec<Member> },
    /// In a run: what is read or picked next, drawn.
    Look { ask: AskId, at: Place },
    /// The control of one ask.
    Asked { ask: AskId, at: Place },
    /// One ask that has its answer.
    Answered { ask: AskId, at: Place },
}

impl Shown {
    /// Stands in the page beside the step, so that what is shown can be told without its words.
    fn name(&self) -> &'static str {
        match self {
            Self::List => "list",
            Self::Held { .. } => "held",
            Self::Beside => "beside",
            Self::Here => "here",
            Self::Moment(_) => "moment",
            Self::CameBack => "came-back",
            Self::Group { .. } => "group",
            Self::Look { .. } => "look",
            Self::Asked { .. } => "asked",
            Self::Answered { .. } => "answered",
        }
    }

    /// The place that it is about, which may be finer than the one the step is walked at.
    fn place(&self, walked_at: Place) -> Place {
        match self {
            Self::Look { at, .. }
            | Self::Asked { at, .. }
            | Self::Answered { at, .. }
            | Self::Held {
                ask: Some((_, at)), ..
            } => *at,
            Self::List
            | Self::Beside
            | Self::Here
            | Self::Moment(_)
            | Self::CameBack
            | Self::Group { .. }
            | Self::Held { ask: None, .. } => walked_at,
        }
    }

    /// The ask that it is about, if it is about one.
    fn ask(&self) -> Option<&AskId> {
        match self {
            Self::Look { ask, .. }
            | Self::Asked { ask, .. }
            | Self::Answered { ask, .. }
            | Self::Held {
                ask: Some((ask, _)),
                ..
            } => Some(ask),
            Self::List
            | Self::Beside
            | Self::Here
            | Self::Moment(_)
            | Self::CameBack
            | Self::Group { .. }
            | Self::Held { ask: None, .. } => None,
        }
    }
}

/// What a person chose to look at; without it the runner leads.
#[derive(Clone, Debug, PartialEq)]
enum Chosen {
    Lead,
    List,
    Ask { ask: AskId, at: Place, again: bool },
}

/// What was typed so far of a reading.
type Typing = ((AskId, Place), String, Option<Unit>);

/// One ask at one place, and how to answer it. Handed to every control.
#[derive(Clone)]
struct Asking {
    session: Session,
    at: Place,
    step: Arc<Step>,
    ask: Arc<Ask>,
    /// Why the last press was not taken; shown above the body.
    refusal: RwSignal<Option<String>>,
    chosen: RwSignal<Chosen>,
    /// Who stands beside an apprentice at a `!`.
    beside: RwSignal<Option<PersonId>>,
    /// The place the step is walked at, which may be coarser than where it is answered.
    walked_at: Place,
    /// Looking once more at what is read in a run loses nothing.
    typing: RwSignal<Option<Typing>>,
}

impl Asking {
    /// Word key of this ask, without an option.
    fn key(&self) -> String {
        format!("ask.{}.{}", self.step.id, self.ask.id)
    }

    fn option_words(&self, option: &str) -> String {
        t(&format!("{}.{option}", self.key()))
    }

    /// Reads the card without following it.
    fn with_card<T>(&self, read: impl FnOnce(&Card) -> T) -> Option<T> {
        self.session
            .open
            .with_untracked(|open| open.as_ref().map(|open| read(&open.card)))
    }

    /// A reading as it is typed: empty, or what was typed before it was looked at once more.
    fn typed(&self, first: Option<Unit>) -> (RwSignal<String>, RwSignal<Option<Unit>>) {
        let here = (self.ask.id.clone(), self.at);
        let before = self.typing.get_untracked().filter(|(of, ..)| *of == here);
        let (text, unit) = before.map_or((String::new(), first), |(_, text, unit)| (text, unit));
        let (text, unit) = (RwSignal::new(text), RwSignal::new(unit));
        let typing = self.typing;
        Effect::new(move |_| {
            let _gone = typing.try_set(Some((here.clone(), text.get(), unit.get())));
        });
        (text, unit)
    }

    /// Answers; on a refusal says why and leaves everything as it is.
    fn submit(&self, item: Item, answer: Answer) {
        let asking = self.clone();
        let judged = self.ask.rule.is_some();
        let ready = self.are_ready(&answer);
        let beside = self.beside.get_untracked();
        let saved = self.session.answer(
            self.at,
            &self.step.id,
            &self.ask.id,
            item,
            answer,
            beside,
            move |session| {
                asking.moved_on(session, judged);
            },
        );
        if saved.is_err() && ready {
            self.note_tried();
        }
        self.told(saved);
    }

    /// True for the stands that lie ready in a run.
    fn are_ready(&self, answer: &Answer) -> bool {
        let Answer::Stands { stands } = answer else {
            return false;
        };
        let run = untrack(|| self.session.run());
        run.is_some_and(|(run, _)| {
            let ready = run.stands();
            let ready = ready.get(..2).unwrap_or_default();
            !stands.is_empty() && stands.iter().all(|stand| ready.contains(stand))
        })
    }

    /// A refused pair of stands leaves no line on the card: the book of the practice bay has it.
    fn note_tried(&self) {
        let Some(card) = self.with_card(|card| card.id.clone()) else {
            return;
        };
        if self
            .session
            .book
            .with_untracked(|book| book.stands_tried(&card))
        {
            return;
        }
        let noted = self
            .session
            .note(vec![practice::book::Entry::StandsTried { card }], |_| {});
        if noted.is_err() {
            leptos::logging::warn!("not noted");
        }
    }

    fn told(&self, saved: Result<(), job::words::Words>) {
        let units = self
            .session
            .settings
            .with_untracked(|settings| settings.units.units());
        self.refusal
            .set(saved.err().map(|words| say(&words, &units)));
    }

    /// After a save: an answer that is not plainly within stays in view, anything else leads on.
    fn moved_on(&self, session: Session, judged: bool) {
        let (state, within) = session.open.with_untracked(|open| {
            let card = open.as_ref().map(|open| &open.card);
            let state = card.map(|card| card.ask_state(&self.step, &self.ask, self.at));
            let within = card.is_some_and(|card| {
                card.slot(&self.step, &self.ask, self.at, Item::Only)
                    .and_then(|slot| slot.live().last())
                    .map(|held| {
                        judge::judge(card, self.at, &self.step, &self.ask, &held.value.answer)
                    })
                    .is_some_and(|judged| judged.is_ok_and(|judged| judge::is_plain(&judged)))
            });
            (state, within)
        });
        // A pass goes on where it is until every nut of it is good.
        let is_pass = matches!(self.ask.kind, AskKind::Pass(_));
        let stays = judged && !within || matches!(state, Some(AskState::Unclear)) && !is_pass;
        let next = match state {
            Some(AskState::Clear | AskState::Unclear) if stays => Chosen::Ask {
                ask: self.ask.id.clone(),
                at: self.at,
                again: false,
            },
            _ => Chosen::Lead,
        };
        let leads = next == Chosen::Lead;
        if self.chosen.try_set(next).is_some() {
            return; // The runner has gone to another step meanwhile.
        }
        if leads {
            lead_on(session, self.walked_at, &self.step);
        }
    }
}

/// Goes to the next step once nothing of this one is open, or nothing but a foreman's reason.
fn lead_on(session: Session, at: Place, step: &Step) {
    let next = session.open.with_untracked(|open| {
        let card = &open.as_ref()?.card;
        let is_through = matches!(
            card.state(step, at),
            StepState::Done | StepState::Skipped | StepState::NotOnPath
        );
        if !is_through && !card.only_waits_for_foreman(step, at) {
            return None;
        }
        Some(
            step_after(card, at, &step.id)
                .map_or(Screen::Map, |(at, step)| Screen::Step { at, step }),
        )
    });
    if let Some(next) = next {
        session.go(next);
    }
}

/// The step to go on with: the next in order that can be taken. Who is at a wheel end stays there
/// as long as that is so, and the other one is then gone through from its own first open step.
fn step_after(card: &Card, at: Place, step: &StepId) -> Option<(Place, StepId)> {
    let path = card.path();
    let here = path
        .iter()
        .position(|(place, of)| *place == at && of.id == *step)?;
    let (before, after) = path.split_at(here);
    // What is left to a foreman is not gone back to by who can't give the reason.
    let open = |(place, of): &&(Place, &Step)| {
        !card.is_done(of, *place) && !card.only_waits_for_foreman(of, *place)
    };
    let free = |(place, of): &&(Place, &Step)| hold::first_hold(card, &of.id, *place).is_none();
    let Some(next) = after.iter().skip(1).chain(before).find(open) else {
        return card.next_open().map(|(at, step)| (at, step.id.clone()));
    };
    let is_end = |place: Place| matches!(place, Place::End(..));
    let to_other_end = is_end(at) && is_end(next.0) && next.0 != at;
    // Not past what is wanted of the axle or the whole vehicle before it.
    let own = || {
        let mut ahead = after.iter().skip(1).filter(open);
        let comes = ahead.find(|step| step.0 == at || !is_end(step.0) && free(step))?;
        Some(comes).filter(|step| step.0 == at).filter(free)
    };
    let first_at = |end: Place| {
        path.iter()
            .filter(move |(place, _)| *place == end)
            .find(open)
    };
    let found = if to_other_end {
        own().or_else(|| first_at(next.0).filter(free))
    } else {
        Some(next).filter(free)
    };
    let found = found
        .or_else(|| path.iter().filter(open).find(free))
        .unwrap_or(next);
    Some((found.0, found.1.id.clone()))
}

/// True if an answer of this step stands only with a foreman's reason that is not given yet.
fn waits_for_foreman(card: &Card, step: &Step, at: Place) -> bool {
    card.waits_for_foreman(step, at)
}

/// The step before this one on the path.
fn step_before(card: &Card, at: Place, step: &StepId) -> Option<(Place, StepId)> {
    let path = card.path();
    let here = path
        .iter()
        .position(|(place, of)| *place == at && of.id == *step)?;
    path.get(here.checked_sub(1)?)
        .map(|(place, of)| (*place, of.id.clone()))
}

/// Every ask of a step that is asked here, with its place, in order.
fn asks_of(card: &Card, step: &Step, at: Place) -> Vec<(AskId, Place)> {
    let is_fact = |ask: &Ask| matches!(ask.kind, AskKind::Fact(_));
    let mut asks = Vec::new();
    for run in step.asks.chunk_by(|a, b| is_fact(a) && is_fact(b)) {
        let mut places: Vec<Place> = Vec::new();
        for ask in run {
            for place in card.ask_places(step, ask, at) {
                if !places.contains(&place) {
                    places.push(place);
                }
            }
        }
        // A round goes wheel end by wheel end within each reading, as the tape measure does; what
        // is read off the parts is read off one wheel end after the other.
        for place in places {
            let here = run
                .iter()
                .filter(|ask| card.ask_places(step, ask, at).contains(&place))
                .filter(|ask| card.ask_state(step, ask, place) != AskState::NotAsked);
            asks.extend(here.map(|ask| (ask.id.clone(), place)));
        }
    }
    asks
}

/// One step of the open card.
#[component]
pub(crate) fn RunnerScreen(
    /// The place the step is done at.
    at: Place,
    /// The step.
    step: StepId,
) -> impl IntoView {
    let session = expect_context::<Session>();
    let found = session.open.with_untracked(|open| {
        open.as_ref()
            .and_then(|open| open.card.procedure.as_deref())
            .and_then(|procedure| procedure.step(&step))
            .cloned()
            .map(Arc::new)
    });
    // A run that was marked is over.
    if untrack(|| session.run()).is_some_and(|(_, is_marked)| is_marked) {
        return view! { <marking::MarkingScreen/> }.into_any();
    }
    let Some(step) = found else {
        // An address from another card.
        return view! { <crate::screens::map::MapScreen/> }.into_any();
    };
    let refusal = RwSignal::new(None::<String>);
    let chosen = RwSignal::new(first_chosen(session, &step, at));
    let beside = RwSignal::new(untrack(|| session.beside_on_a_run()));
    let looked = RwSignal::new(None::<(AskId, Place)>);
    let typing = RwSignal::new(None::<Typing>);
    let moved = comes_from_elsewhere(session, at);
    let here = RwSignal::new(asks_where(session, at));
    if !here.get_untracked() && matches!(at, Place::End(..)) {
        session.at_end.set(Some(at));
    }
    ask_where_after_a_while(session, at, here);
    let shown = {
        let step = step.clone();
        Memo::new(move |_| {
            if here.get() {
                return Shown::Here;
            }
            shown(
                session,
                &step,
                at,
                &chosen.get(),
                beside.with(Option::is_some),
                looked.get().as_ref(),
            )
        })
    };
    // A refusal belongs to what it refused, and what was typed to what it was read off.
    Effect::new(move |_| {
        let reads = shown.with(|shown| matches!(shown, Shown::Look { .. } | Shown::Asked { .. }));
        if !reads {
            typing.set(None);
        }
        refusal.set(None);
    });
    let guard = {
        let step = step.clone();
        Signal::derive(move || format!("{at}/{}/{:?}", step.id, shown.get()))
    };
    let body = {
        let step = step.clone();
        move || {
            anew(body(
                session,
                step.clone(),
                at,
                shown.get(),
                refusal,
                chosen,
                beside,
                here,
                looked,
                typing,
            ))
        }
    };
    let nav = {
        let step = step.clone();
        Callback::new(move |to| {
            let shown = shown.get_untracked();
            let looks_again = to == NavTo::Back
                && matches!(shown, Shown::Asked { .. })
                && looked.with_untracked(Option::is_some);
            if looks_again {
                return looked.set(None);
            }
            navigate(session, to, &step, at, chosen, &shown);
        })
    };
    let where_at = Memo::new(move |_| shown.with(|shown| shown.place(at)));
    let name = step.id.to_string();
    let stage = session.open.with_untracked(|open| {
        let procedure = open.as_ref()?.card.procedure.as_deref()?;
        Some(procedure.stage_of(&step.id)?.id.to_string())
    });
    view! {
        <div
            class="runner"
            data-testid="runner"
            data-step=name
            data-stage=stage
            data-at=at.to_string()
            data-where=move || where_at.get().to_string()
            data-shown=move || shown.with(Shown::name)
            data-ask=move || shown.with(|shown| shown.ask().map(ToString::to_string).unwrap_or_default())
        >
            <ScreenGuard screen=guard>
                <NavColumn on_go=nav>
                    <Corner
                        place=Signal::derive(move || corner_words(where_at.get()).0)
                        more=Signal::derive(move || corner_words(where_at.get()).1)
                        vehicle=Signal::derive(move || vehicle_picture(session, Some(where_at.get())))
                    />
                </NavColumn>
                <Head step=step at refusal shown moved/>
                {body}
            </ScreenGuard>
            <Flash saving=Signal::derive(move || flash_of(&session.saving.get()))/>
        </div>
    }
    .into_any()
}

/// A place as its large line and its small one.
pub(crate) fn corner_words(at: Place) -> (String, String) {
    match at {
        Place::End(axle, side) => (
            fill(
                "ui.corner.end",
                &[
                    ("axle", &axle.to_string()),
                    ("side", &t(&format!("ui.{}", side_key(side)))),
                ],
            ),
            t(&format!("ui.{}.more", side_key(side))),
        ),
        Place::Vehicle | Place::Axle(_) => (place(at), String::new()),
    }
}

pub(crate) fn flash_of(saving: &Saving) -> flash::Saving {
    match saving {
        Saving::Idle => flash::Saving::Quiet,
        Saving::Busy => flash::Saving::Going,
        Saving::Saved(_) => flash::Saving::Kept,
        Saving::Failed(_) => flash::Saving::Failed,
    }
}

/// What to do and why, and in their place what stands against the last press.
#[component]
fn Head(
    /// The step.
    step: Arc<Step>,
    /// Where it is walked.
    at: Place,
    /// Why the last press was not taken.
    refusal: RwSignal<Option<String>>,
    /// What the body shows.
    shown: Memo<Shown>,
    /// "Now at …", when the step before was at another wheel end.
    moved: Option<String>,
) -> impl IntoView {
    let id = step.id.clone();
    let caution = step.caution.then(|| t(&format!("step.{id}.caution")));
    let pad = {
        let step = step.clone();
        move || {
            shown.with(|shown| {
                let Shown::Asked { ask, .. } = shown else {
                    return false;
                };
                step.asks.iter().any(|of| {
                    of.id == *ask
                        && matches!(
                            of.kind,
                            AskKind::Reading(_) | AskKind::Count(_) | AskKind::Fact(_)
                        )
                })
            })
        }
    };
    let (session, of) = (expect_context::<Session>(), step.clone());
    let asked =
        Signal::derive(move || shown.with(|shown| Some((shown.ask()?.clone(), shown.place(at)))));
    view! {
        <header class="head" class:with-pad=pad>
            <PracticeBand/>
            <h1 data-testid="todo">{t(&format!("step.{id}.do"))}</h1>
            <Sights session step=of asked/>
            {move || match refusal.get() {
                Some(refusal) => view! { <p class="refusal" role="alert" data-testid="refusal">{refusal}</p> }.into_any(),
                None => view! {
                    {moved.clone().map(|moved| view! { <p class="moved" data-testid="moved">{moved}</p> })}
                    <p class="why">{t(&format!("step.{id}.why"))}</p>
                    {caution.clone().map(|caution| view! { <p class="caution" data-testid="caution">{caution}</p> })}
                }
                .into_any(),
            }}
        </header>
    }
}

/// Decides what the body shows.
fn shown(
    session: Session,
    step: &Step,
    at: Place,
    chosen: &Chosen,
    has_beside: bool,
    looked: Option<&(AskId, Place)>,
) -> Shown {
    session.open.with(|open| {
        let Some(open) = open else { return Shown::List };
        let card = &open.card;
        if let Some(scene) = moment::due(session, card, step, at) {
            return Shown::Moment(scene);
        }
        let asks = asks_of(card, step, at);
        let state = |ask: &AskId, place: Place| {
            step.asks
                .iter()
                .find(|of| of.id == *ask)
                .map(|of| (card.ask_state(step, of, place), of.optional))
        };
        let wrench = wrench_asked(session, card, step, at);
        let open_now = || {
            asks.iter().find(|(ask, place)| {
                wrench.as_ref() == Some(ask)
                    || matches!(
                        state(ask, *place),
                        Some((AskState::Open | AskState::Partly | AskState::Unclear, false))
                    )
            })
        };
        let (ask, place, again) = match chosen {
            Chosen::List => return Shown::List,
            Chosen::Ask { ask, at, again } => (ask.clone(), *at, *again),
            Chosen::Lead => match open_now() {
                Some((ask, place)) => (ask.clone(), *place, false),
                None => return Shown::List,
            },
        };
        let is_pass = step
            .asks
            .iter()
            .any(|of| of.id == ask && matches!(of.kind, AskKind::Pass(_)));
        let is_answered = match state(&ask, place) {
            Some((AskState::Clear, _)) => true,
            Some((AskState::Unclear, _)) => !is_pass,
            _ => false,
        };
        if is_answered && !again {
            return Shown::Answered { ask, at: place };
        }
        let lead = *chosen == Chosen::Lead;
        match held(session, card, step, (&ask, place), at) {
            Some((hold::Hold::CameBack, _)) if !has_beside && is_apprentice(session, card) => {
                Shown::Beside
            }
            Some((hold::Hold::CameBack, _)) => Shown::CameBack,
            Some((hold, _)) if let Some(scene) = moment::too_early(session, card, &hold, step) => {
                Shown::Moment(scene)
            }
            Some((hold, shown)) => Shown::Held {
                ask: Some((ask, place)),
                first: leads_to(&hold),
                hold: shown,
            },
            None if step.protects() && !has_beside && is_apprentice(session, card) => Shown::Beside,
            None => match together(session, card, step, at, &ask) {
                Some(members) if lead => Shown::Group { members },
                _ if looked.is_none_or(|(of, place_of)| *of != ask || *place_of != place)
                    && sights::is_looked_at_first(session, step, &ask, place) =>
                {
                    Shown::Look { ask, at: place }
                }
                _ => Shown::Asked { ask, at: place },
            },
        }
    })
}

/// The ask for the wrench, where the shop has more than one to choose from or its only one wants a
/// word.
fn wrench_asked(session: Session, card: &Card, step: &Step, at: Place) -> Option<AskId> {
    let now = crate::device::now();
    let picking = session
        .shop
        .with(|sheet| job::wrench::picking(card, sheet, step, at, now));
    let ask = job::wrench::ask_of(step)?;
    matches!(picking, Picking::Ask(_)).then(|| ask.id.clone())
}

/// The group that an ask is shown with, if it is shown with others.
fn together(
    session: Session,
    card: &Card,
    step: &Step,
    at: Place,
    ask: &AskId,
) -> Option<Vec<Member>> {
    let of = step.asks.iter().find(|of| of.id == *ask)?;
    let stage = card.procedure.as_deref()?.stage_of(&step.id)?;
    let members = group::members(session, card, at, &step.id);
    let is_one = members
        .iter()
        .any(|member| member.step == step.id && member.ask == *ask);
    let goes_first = stage.any_order && !matches!(of.kind, AskKind::Fact(_));
    (members.len() > 1 && (is_one || goes_first)).then_some(members)
}

/// What is shown first: where the app leads, or the first thing of a step that is done once more.
fn first_chosen(session: Session, step: &Step, at: Place) -> Chosen {
    let is_this = session
        .again
        .try_update(|again| {
            again
                .take_if(|(place, id)| *place == at && *id == step.id)
                .is_some()
        })
        .unwrap_or_default();
    match step.asks.first() {
        Some(ask) if is_this => Chosen::Ask {
            ask: ask.id.clone(),
            at,
            again: true,
        },
        _ => Chosen::Lead,
    }
}

/// True if the person is told where they are before going on: after a start, and at a wheel end
/// that they have not taken.
fn asks_where(session: Session, at: Place) -> bool {
    if !matches!(at, Place::End(..)) {
        return false;
    }
    let was_at = session.at_end.get_untracked();
    let mine = session.open.with_untracked(|open| {
        let me = session.me.get_untracked();
        open.as_ref()
            .is_some_and(|open| me.is_some() && open.card.has(at) == me.as_ref())
    });
    was_at.is_none() || was_at != Some(at) && !mine
}

/// "Now at axle 2, left", when the last step was at another wheel end.
fn comes_from_elsewhere(session: Session, at: Place) -> Option<String> {
    let was_at = session.at_end.get_untracked()?;
    let is_end = matches!(at, Place::End(..));
    (is_end && was_at != at).then(|| fill("ui.here.now", &[("place", &place(at))]))
}

/// Says again where the person is when nobody has touched the screen for a while.
fn ask_where_after_a_while(session: Session, at: Place, here: RwSignal<bool>) {
    if !matches!(at, Place::End(..)) {
        return;
    }
    let look = move || {
        let idle = crate::device::now()
            .utc
            .signed_duration_since(session.touched.get_untracked());
        if idle > AWAY {
            let _gone = here.try_set(true);
        }
    };
    if let Ok(handle) = set_interval_with_handle(look, LOOK_EVERY) {
        on_cleanup(move || handle.clear());
    }
}

fn is_apprentice(session: Session, card: &Card) -> bool {
    session.me.get().and_then(|me| card.role(&me)) == Some(Role::Apprentice)
}

/// What stands against this step here, in words. A fact is held where the step is walked, though it
/// may be kept for the whole axle.
fn held(
    session: Session,
    card: &Card,
    step: &Step,
    (ask, at): (&AskId, Place),
    walked_at: Place,
) -> Option<(hold::Hold, NotYetShown)> {
    let now = crate::device::now();
    let is_fact = step
        .asks
        .iter()
        .any(|of| of.id == *ask && matches!(of.kind, AskKind::Fact(_)));
    let hold = match session.me.get() {
        None => Some(hold::Hold::SignOn),
        Some(me) if is_fact => hold::first_hold(card, &step.id, walked_at)
            .or_else(|| hold::of_gap(card, now))
            .or_else(|| hold::may_act(card, &me)),
        Some(me) => hold::may_take(card, &me, at, &step.id, ask, Item::Only, now).err(),
    }?;
    let units = session.units();
    let go = match (hold.first(), &hold) {
        (Some(_), _) => Some(t("ui.not-yet.go")),
        (None, hold::Hold::SignOn | hold::Hold::ForemanLooks | hold::Hold::OwnWork { .. }) => {
            Some(t("ui.not-yet.people"))
        }
        (None, hold::Hold::CoversUp { .. }) => Some(t("ui.not-yet.line")),
        (None, _) => None,
    };
    let shown = NotYetShown {
        why: say(&hold.words(card), &units),
        go,
    };
    Some((hold, shown))
}

/// The screen on which what comes first is done.
fn leads_to(hold: &hold::Hold) -> Option<Screen> {
    match hold {
        hold::Hold::CoversUp { line, .. } => Some(Screen::line(line)),
        _ => hold.first().map(|(at, step)| Screen::Step {
            at,
            step: step.clone(),
        }),
    }
}

/// Shows one thing.
#[expect(
    clippy::too_many_arguments,
    reason = "the state of one step on the screen, signal by signal"
)]
fn body(
    session: Session,
    step: Arc<Step>,
    at: Place,
    shown: Shown,
    refusal: RwSignal<Option<String>>,
    chosen: RwSignal<Chosen>,
    beside: RwSignal<Option<PersonId>>,
    here: RwSignal<bool>,
    looked: RwSignal<Option<(AskId, Place)>>,
    typing: RwSignal<Option<Typing>>,
) -> AnyView {
    let asking = |ask: &AskId, place: Place| {
        step.asks.iter().find(|of| of.id == *ask).map(|of| Asking {
            session,
            at: place,
            step: step.clone(),
            ask: Arc::new(of.clone()),
            refusal,
            chosen,
            beside,
            walked_at: at,
            typing,
        })
    };
    match shown {
        Shown::Beside => beside::view(session, beside),
        Shown::Moment(scene) => moment::view(session, scene, refusal),
        Shown::Here => here::view(session, at, here),
        Shown::CameBack => came_back::view(session, beside, refusal, chosen),
        Shown::Group { members } => {
            group::view(session, step.clone(), at, members, refusal, chosen)
        }
        Shown::List => list::view(session, step.clone(), at, chosen, refusal),
        Shown::Held { hold, first, .. } => {
            let go = Callback::new(move |()| session.go(first.clone().unwrap_or(Screen::People)));
            view! {
                <div class="body">
                    <NotYet hold=Signal::derive(move || Some(hold.clone())) on_go=go/>
                </div>
                <WideDone words=t("ui.to-map") waits=false on_done=Callback::new(move |()| session.go(Screen::Map))/>
            }
            .into_any()
        }
        Shown::Answered { ask, at } => match asking(&ask, at) {
            Some(asking) => answered::view(asking),
            None => ().into_any(),
        },
        Shown::Look { ask, at } => {
            let of = (ask.clone(), at);
            let done = Callback::new(move |()| looked.set(Some(of.clone())));
            untrack(|| sights::look(session, &step, &ask, at, done))
        }
        Shown::Asked { ask, at } => match asking(&ask, at) {
            Some(asking) => control(asking),
            None => ().into_any(),
        },
    }
}

/// The control for one kind of asking.
fn control(asking: Asking) -> AnyView {
    let ask = asking.ask.clone();
    match &ask.kind {
        AskKind::Lines(lines) => lines::view(asking, lines.clone()),
        AskKind::Choose(offers) => choose::view(asking, offers.clone()),
        AskKind::Press(press) => press::view(asking, press.clone()),
        AskKind::Reading(reading) if asking.ask.takes_a_jack() => {
            jack::view(asking, reading.clone())
        }
        AskKind::Reading(reading) => reading::reading(asking, reading.clone()),
        AskKind::Count(count) => reading::count(asking, count.clone()),
        AskKind::Wheels => wheels::view(asking),
        AskKind::Exceptions(exceptions) => exceptions::view(asking, exceptions.clone()),
        AskKind::Pass(pass) => pass::view(asking, pass.clone()),
        AskKind::Stands => stands::view(asking),
        AskKind::Wrench => wrench::view(asking),
        AskKind::Fact(fact) => fact::view(asking, fact.clone()),
        AskKind::Look => look::view(asking),
        AskKind::Settled => settled::view(asking),
    }
}

fn navigate(
    session: Session,
    to: NavTo,
    step: &Step,
    at: Place,
    chosen: RwSignal<Chosen>,
    shown: &Shown,
) {
    match to {
        NavTo::Map => session.go(Screen::Map),
        NavTo::TakeBack => take_back(session),
        NavTo::Found => session.go(Screen::Found {
            at: shown.place(at),
        }),
        NavTo::Back => {
            let back = session.open.with_untracked(|open| {
                let card = &open.as_ref()?.card;
                let asks = asks_of(card, step, at);
                let here = match shown {
                    Shown::Look { ask, at }
                    | Shown::Asked { ask, at }
                    | Shown::Answered { ask, at }
                    | Shown::Held {
                        ask: Some((ask, at)),
                        ..
                    } => asks.iter().position(|(of, place)| of == ask && place == at),
                    Shown::List
                    | Shown::Moment(_)
                    | Shown::Beside
                    | Shown::Here
                    | Shown::CameBack
                    | Shown::Group { .. }
                    | Shown::Held { ask: None, .. } => None,
                };
                match here
                    .and_then(|here| here.checked_sub(1))
                    .and_then(|before| asks.get(before))
                {
                    Some((ask, at)) => Some(Err(Chosen::Ask {
                        ask: ask.clone(),
                        at: *at,
                        again: false,
                    })),
                    None => Some(Ok(step_before(card, at, &step.id))),
                }
            });
            match back {
                Some(Err(ask)) => chosen.set(ask),
                Some(Ok(Some((at, step)))) => session.go(Screen::Step { at, step }),
                Some(Ok(None)) | None => session.go(Screen::Map),
            }
        }
    }
}

/// The line that "Take back" is about: the person's own last one that still stands.
fn last_own(session: Session) -> Option<LineRef> {
    let me = session.me.get_untracked()?;
    session.open.with_untracked(|open| {
        let card = &open.as_ref()?.card;
        card.entries
            .iter()
            .rev()
            .find(|entry| {
                entry.who == me
                    && entry.struck.is_none()
                    && entry.event().is_some_and(job::card::can_be_struck)
            })
            .map(|entry| entry.line.clone())
    })
}

/// Takes the last own entry back at once, or goes to the trail where a reason can be given.
pub(crate) fn take_back(session: Session) {
    let Some(line) = last_own(session) else {
        return session.go(Screen::Trail);
    };
    let at_once = session.open.with_untracked(|open| {
        let (Some(open), Some(me)) = (open, session.me.get_untracked()) else {
            return false;
        };
        act::may_strike(&open.card, &me, &line, crate::device::now()).is_ok_and(|may| may.at_once)
    });
    if !at_once || session.strike(&line, None).is_err() {
        session.go(Screen::Trail);
    }
}

/// The question of one ask, in words. A fact has its own; a single thing may need none.
fn question(asking: &Asking) -> String {
    match &asking.ask.kind {
        AskKind::Fact(fact) => t(&format!("fact.{fact}")),
        AskKind::Lines(_)
        | AskKind::Choose(_)
        | AskKind::Press(_)
        | AskKind::Reading(_)
        | AskKind::Count(_)
        | AskKind::Wheels
        | AskKind::Exceptions(_)
        | AskKind::Pass(_)
        | AskKind::Stands
        | AskKind::Wrench
        | AskKind::Look
        | AskKind::Settled => find(&asking.key()).unwrap_or_default(),
    }
}
