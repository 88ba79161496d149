//! What is to be done about a stroke as left, and what else is worth knowing of it.
//!
//! Settle and measure again, then one second set-up, then find the cause: the rules say which.

use job::id::{Place, StepId};
use job::judge::stroke;
use leptos::prelude::*;
use rules::slack::set_up::MayTurn;

use super::Asking;
use crate::say::say_remark;
use crate::screen::Screen;
use crate::words::{t, word};

/// The step of the last round, and those that a stroke too long leads back to.
const AS_LEFT: &str = "as-left";
const SETTLE: &str = "settle";
const SET_UP: &str = "contact";

pub(super) fn view(asking: &Asking, clear: bool) -> AnyView {
    let session = asking.session;
    let at = asking.at;
    if asking.step.id.as_str() != AS_LEFT || asking.ask.id.as_str() != "applied" {
        return ().into_any();
    }
    let units = session
        .settings
        .with_untracked(|settings| settings.units.units());
    let known = asking.with_card(|card| {
        let beside = [
            stroke::expected(card, at),
            at.axle().and_then(|axle| stroke::sides(card, axle)),
        ];
        let causes: Vec<String> = stroke::causes(card, at)
            .iter()
            .flat_map(|tree| tree.causes())
            .map(|cause| word(&cause.word))
            .collect();
        (stroke::may_turn(card, at), beside, causes)
    });
    let Some((may_turn, beside, causes)) = known else {
        return ().into_any();
    };
    let beside = beside
        .into_iter()
        .flatten()
        .map(|words| view! { <p class="page-line">{say_remark(&words, &units)}</p> })
        .collect_view();
    if clear {
        return beside.into_any();
    }
    let again = move |place: Place, step: &'static str| {
        session.again.set(Some((place, StepId::from(step))));
        session.go(Screen::Step {
            at: place,
            step: StepId::from(step),
        });
    };
    let key = move |testid: &'static str, words: &'static str, place: Place, step: &'static str| {
        view! {
            <button type="button" class="key wide-key" data-testid=testid on:click=move |_| again(place, step)>
                {t(words)}
            </button>
        }
    };
    let lead = match may_turn {
        MayTurn::SettleFirst => {
            key("settle-again", "ui.stroke.settle", Place::Vehicle, SETTLE).into_any()
        }
        MayTurn::OnceMore | MayTurn::Manual | MayTurn::Yes => {
            key("set-up-again", "ui.stroke.set-up", at, SET_UP).into_any()
        }
        MayTurn::FindCause | MayTurn::Emergency => view! {
            <ul class="causes" data-testid="causes">
                {causes.into_iter().map(|cause| view! { <li>{cause}</li> }).collect_view()}
            </ul>
        }
        .into_any(),
    };
    view! {
        <p class="refusal" data-testid="may-turn">{say_remark(&may_turn.remark(), &units)}</p>
        {lead}
        {beside}
    }
    .into_any()
}
