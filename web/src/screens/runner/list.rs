//! Everything that one step asks, with what was answered: for looking back and for going on.

use std::sync::Arc;

use job::act;
use job::card::{AskState, Card, StepState};
use job::event::Role;
use job::id::{OptionId, Place, Side};
use job::move_stage;
use job::procedure::{AskKind, Step};
use leptos::prelude::*;

use super::{Chosen, asks_of, lead_on, waits_for_foreman};
use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::go_list::{GoList, GoRow};
use crate::parts::question::{Question, QuestionShown};
use crate::parts::text_entry::TextEntry;
use crate::parts::wide_done::WideDone;
use crate::say::{place, say};
use crate::screen::Screen;
use crate::screens::told::answer_told;
use crate::session::Session;
use crate::words::{fill, find, t};

/// The row that takes the person's own last entry back.
pub(crate) const TAKE_BACK: &str = "take-back";

/// That row: a heavy glove has no key for it beside every step.
pub(crate) fn take_back_row() -> GoRow {
    GoRow {
        id: TAKE_BACK.to_owned(),
        words: t("ui.take-back.last"),
        detail: String::new(),
        done: false,
    }
}

/// The row that moves what a stage has at one wheel end to the other.
const WRONG_END: &str = "wrong-end";

/// That row, where there is something to move.
fn wrong_end_row(card: &Card, step: &Step, at: Place) -> Option<GoRow> {
    other_end(at)?;
    let stage = card.procedure.as_deref()?.stage_of(&step.id)?;
    (move_stage::to_move(card, &stage.id, at) > 0).then(|| GoRow {
        id: WRONG_END.to_owned(),
        words: t("ui.wrong-end"),
        detail: String::new(),
        done: false,
    })
}

pub(super) fn view(
    session: Session,
    step: Arc<Step>,
    at: Place,
    chosen: RwSignal<Chosen>,
    refusal: RwSignal<Option<String>>,
) -> AnyView {
    let asks_move = RwSignal::new(false);
    let rows = {
        let step = step.clone();
        Signal::derive(move || {
            session.open.with(|open| {
                let Some(open) = open else { return Vec::new() };
                asks_of(&open.card, &step, at)
                    .into_iter()
                    .enumerate()
                    .filter_map(|(n, (ask, place))| {
                        let of = step.asks.iter().find(|of| of.id == ask)?;
                        let words = match &of.kind {
                            AskKind::Fact(fact) => t(&format!("fact.{fact}")),
                            _ => find(&format!("ask.{}.{ask}", step.id))
                                .unwrap_or_else(|| t(&format!("step.{}", step.id))),
                        };
                        let words = if place == at {
                            words
                        } else {
                            format!("{words} – {}", crate::say::place(place))
                        };
                        let state = open.card.ask_state(&step, of, place);
                        let detail = match state {
                            AskState::Open => t("ui.ask.open"),
                            AskState::NotAsked => String::new(),
                            AskState::Partly => t("ui.ask.partly"),
                            AskState::Unclear | AskState::Clear => {
                                answer_told(&open.card, &step, of, place)
                            }
                        };
                        Some(GoRow {
                            done: state == AskState::Clear,
                            id: n.to_string(),
                            words,
                            detail,
                        })
                    })
                    .chain([take_back_row()])
                    .chain(wrong_end_row(&open.card, &step, at))
                    .collect::<Vec<_>>()
            })
        })
    };
    let go = {
        let step = step.clone();
        Callback::new(move |id: String| {
            if id == TAKE_BACK {
                return super::take_back(session);
            }
            if id == WRONG_END {
                return asks_move.set(true);
            }
            let Ok(n) = id.parse::<usize>() else { return };
            let ask = session.open.with_untracked(|open| {
                open.as_ref()
                    .and_then(|open| asks_of(&open.card, &step, at).into_iter().nth(n))
            });
            if let Some((ask, at)) = ask {
                chosen.set(Chosen::Ask {
                    ask,
                    at,
                    again: false,
                });
            }
        })
    };
    let state = {
        let step = step.clone();
        Memo::new(move |_| {
            session.open.with(|open| {
                open.as_ref()
                    .map_or(StepState::NotOnPath, |open| open.card.state(&step, at))
            })
        })
    };
    // What only a foreman's reason is wanting for is left to the foreman.
    let is_stuck = {
        let step = step.clone();
        Memo::new(move |_| {
            state.get() == StepState::Unclear
                && session.open.with(|open| {
                    open.as_ref()
                        .is_some_and(|open| !open.card.only_waits_for_foreman(&step, at))
                })
        })
    };
    let skips = skips(session, step.clone(), at, refusal);
    let ask_move = {
        let step = step.clone();
        move || wrong_end(session, step.clone(), at, asks_move, refusal)
    };
    let needs_foreman = foreman_reason(session, step.clone(), at, refusal);
    let done = {
        let step = step.clone();
        Callback::new(move |()| {
            if matches!(state.get_untracked(), StepState::Open | StepState::Begun) {
                chosen.set(Chosen::Lead);
            } else {
                lead_on(session, at, &step);
                if is_stuck.get_untracked() {
                    refusal.set(Some(t("ui.step-unclear")));
                }
            }
        })
    };
    let words = Signal::derive(move || match state.get() {
        StepState::Open | StepState::Begun => t("ui.go-on"),
        StepState::Unclear | StepState::Skipped | StepState::Done | StepState::NotOnPath => {
            t("ui.next-step")
        }
    });
    view! {
        <div class="body" data-testid="asks">
            <h2 class="question-line">{format!("{} – {}", t(&format!("step.{}", step.id)), place(at))}</h2>
            {needs_foreman}
            {move || if asks_move.get() {
                ask_move()
            } else {
                view! { <GoList rows=rows on_go=go/> }.into_any()
            }}
            {skips}
        </div>
        <WideDone words waits=is_stuck on_done=done/>
    }
    .into_any()
}

/// Reasons for which the step may be left out, as long as it is not done.
pub(super) fn skips(
    session: Session,
    step: Arc<Step>,
    at: Place,
    refusal: RwSignal<Option<String>>,
) -> AnyView {
    if step.skips.is_empty() {
        return ().into_any();
    }
    let choices: Vec<Choice> = step
        .skips
        .iter()
        .map(|skip| Choice::new(skip.as_str(), t(&format!("skip.{}.{skip}", step.id))))
        .collect();
    let open = {
        let step = step.clone();
        Memo::new(move |_| {
            session.open.with(|open| {
                open.as_ref().is_some_and(|open| {
                    !matches!(
                        open.card.state(&step, at),
                        StepState::Done | StepState::Skipped
                    )
                })
            })
        })
    };
    let leave_out = Callback::new(move |id: String| {
        let why = OptionId::from(id.as_str());
        let id = step.id.clone();
        let step = step.clone();
        let saved = session.act(
            |card, me, now, _| Ok(vec![act::skip(card, me, at, &id, &why, now)?]),
            move |session| lead_on(session, at, &step),
        );
        let units = session
            .settings
            .with_untracked(|settings| settings.units.units());
        refusal.set(saved.err().map(|words| say(&words, &units)));
    });
    let choices = StoredValue::new(choices);
    (move || {
        open.get().then(|| {
            view! {
                <h2 class="question-line">{t("ui.leave-out")}</h2>
                <ChoiceList choices=Signal::stored(choices.get_value()) chosen=Signal::stored(Vec::new()) on_choose=leave_out/>
            }
        })
    })
    .into_any()
}

/// "Wrong wheel end": says what moving does, and moves it with a second press in another place.
fn wrong_end(
    session: Session,
    step: Arc<Step>,
    at: Place,
    asks_move: RwSignal<bool>,
    refusal: RwSignal<Option<String>>,
) -> AnyView {
    let stage = session.open.with_untracked(|open| {
        let procedure = open.as_ref()?.card.procedure.as_deref()?;
        Some(procedure.stage_of(&step.id)?.id.clone())
    });
    let (Some(other), Some(stage)) = (other_end(at), stage) else {
        return ().into_any();
    };
    let words = fill(
        "ui.wrong-end.ask",
        &[
            ("stage", &t(&format!("stage.{stage}"))),
            ("from", &place(at)),
            ("to", &place(other)),
        ],
    );
    let answer = Callback::new(move |moves: bool| {
        asks_move.set(false);
        if !moves {
            return;
        }
        let (id, stage) = (step.id.clone(), stage.clone());
        let saved = session.act(
            |card, me, now, units| {
                let why = t("ui.wrong-end.why");
                move_stage::move_stage(card, me, &stage, (at, other), &why, now, units)
            },
            move |session| {
                session.go(Screen::Step {
                    at: other,
                    step: id,
                });
            },
        );
        let units = session
            .settings
            .with_untracked(|settings| settings.units.units());
        refusal.set(saved.err().map(|words| say(&words, &units)));
    });
    let question = QuestionShown {
        typed: t("ui.wrong-end"),
        ask: words,
        keep: t("ui.wrong-end.yes"),
        again: t("ui.wrong-end.no"),
    };
    view! { <Question question on_answer=answer/> }.into_any()
}

fn other_end(at: Place) -> Option<Place> {
    match at {
        Place::End(axle, side) => {
            let other = match side {
                Side::Left => Side::Right,
                Side::Right => Side::Left,
            };
            Some(Place::End(axle, other))
        }
        Place::Vehicle | Place::Axle(_) => None,
    }
}

/// Where an answer stands only with a foreman's reason: the place to give it.
fn foreman_reason(
    session: Session,
    step: Arc<Step>,
    at: Place,
    refusal: RwSignal<Option<String>>,
) -> AnyView {
    let why = RwSignal::new(String::new());
    let wanted = {
        let step = step.clone();
        Memo::new(move |_| {
            session.open.with(|open| {
                open.as_ref()
                    .is_some_and(|open| waits_for_foreman(&open.card, &step, at))
            })
        })
    };
    let give = Callback::new(move |()| {
        let id = step.id.clone();
        let step = step.clone();
        let saved = session.act(
            |card, me, _, _| {
                Ok(vec![act::pass(
                    card,
                    me,
                    at,
                    &id,
                    &id,
                    &why.get_untracked(),
                )?])
            },
            move |session| lead_on(session, at, &step),
        );
        let units = session
            .settings
            .with_untracked(|settings| settings.units.units());
        refusal.set(saved.err().map(|words| say(&words, &units)));
    });
    (move || {
        wanted.get().then(|| {
            let is_foreman = session.open.with(|open| {
                session.me.get().is_some_and(|me| open.as_ref().is_some_and(|open| open.card.role(&me) == Some(Role::Foreman)))
            });
            view! {
                <p class="refusal" data-testid="needs-foreman">{t("ui.needs-foreman")}</p>
                {if is_foreman {
                    view! {
                        <TextEntry words=t("ui.reason") text=why testid="reason"/>
                        <button type="button" class="key wide-key" data-testid="give-reason" on:click=move |_| give.run(())>
                            {t("ui.give-reason")}
                        </button>
                    }
                    .into_any()
                } else {
                    view! {
                        <button type="button" class="key wide-key" data-testid="to-people" on:click=move |_| session.go(Screen::People)>
                            {t("ui.other-person")}
                        </button>
                    }
                    .into_any()
                }}
            }
        })
    })
    .into_any()
}
