//! What is to be done about a stroke as left or an end play, and what else is worth knowing of it.
//!
//! Settle and measure again, then one second set-up, then find the cause: the rules say which.

use job::id::{Place, StepId};
use job::judge::{bearing, stroke, why};
use job::procedure::AskKind;
use job::road;
use leptos::prelude::*;
use rules::slack::set_up::MayTurn;

use super::Asking;
use crate::say::say_remark;
use crate::screen::Screen;
use crate::screens::told::told_moved;
use crate::session::Session;
use crate::words::{t, word};

/// The step of the last round, and those that a stroke too long leads back to.
const AS_LEFT: &str = "as-left";
const SETTLE: &str = "settle";
const SET_UP: &str = "contact";

/// The asks beside which a wheel bearing's adjustment is told, step by step.
const BEARING: [(&str, &str); 3] = [
    ("hub", "end-play"),
    ("drum-on", "hub-back"),
    ("drum-on", "end-play"),
];

/// The step that an answer leads back to, when it does not clear and the rules say where to.
#[derive(Clone)]
pub(super) struct Lead {
    pub(super) words: String,
    at: Place,
    step: StepId,
}

impl Lead {
    /// Opens that step to be done once more.
    pub(super) fn follow(&self, session: Session) {
        session.again.set(Some((self.at, self.step.clone())));
        session.go(Screen::Step {
            at: self.at,
            step: self.step.clone(),
        });
    }
}

/// What to do next about a stroke as left that is too long.
pub(super) fn lead(asking: &Asking) -> Option<Lead> {
    if !is_stroke_as_left(asking) {
        return None;
    }
    let at = asking.at;
    let (words, at, step) = match asking.with_card(|card| stroke::may_turn(card, at))? {
        MayTurn::SettleFirst => ("ui.stroke.settle", Place::Vehicle, SETTLE),
        MayTurn::OnceMore | MayTurn::Manual | MayTurn::Yes => ("ui.stroke.set-up", at, SET_UP),
        MayTurn::FindCause | MayTurn::Emergency => return None,
    };
    Some(Lead {
        words: t(words),
        at,
        step: StepId::from(step),
    })
}

fn is_stroke_as_left(asking: &Asking) -> bool {
    asking.step.id.as_str() == AS_LEFT && asking.ask.id.as_str() == "applied"
}

pub(super) fn view(asking: &Asking, clear: bool) -> AnyView {
    let session = asking.session;
    let at = asking.at;
    if asking.step.id.as_str() == road::STEP && matches!(asking.ask.kind, AskKind::Pass(_)) {
        return nuts_that_moved(asking);
    }
    if !is_stroke_as_left(asking) {
        return if clear {
            ().into_any()
        } else {
            bearing_steps(asking)
        };
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
    let causes = matches!(may_turn, MayTurn::FindCause | MayTurn::Emergency).then(|| {
        view! {
            <ul class="causes" data-testid="causes">
                {causes.into_iter().map(|cause| view! { <li>{cause}</li> }).collect_view()}
            </ul>
        }
    });
    let costs = asking.with_card(|card| why::of_brake(card, at));
    let costs: Vec<String> = costs
        .iter()
        .flatten()
        .map(|cost| say_remark(cost, &units))
        .collect();
    let why = (!costs.is_empty()).then(|| {
        view! {
            <h3>{t("ui.look.why")}</h3>
            <ul class="causes" data-testid="why">
                {costs.into_iter().map(|cost| view! { <li>{cost}</li> }).collect_view()}
            </ul>
        }
    });
    view! {
        <p class="refusal" data-testid="may-turn">{say_remark(&may_turn.remark(), &units)}</p>
        {causes}
        {beside}
        {why}
    }
    .into_any()
}

/// What it means that nuts of this wheel moved at the road check.
fn nuts_that_moved(asking: &Asking) -> AnyView {
    let (session, at) = (asking.session, asking.at);
    let rows = move || {
        session.open.with(|open| {
            let all = open.iter().flat_map(|open| road::moved(&open.card));
            all.filter(|moved| moved.at == at)
                .map(|moved| told_moved(&moved, &session.units()))
                .map(|words| view! { <li>{words}</li> })
                .collect_view()
        })
    };
    view! { <ul class="causes" data-testid="nuts-moved">{rows}</ul> }.into_any()
}

/// How the bearing of this hub is adjusted, where that is known and asked beside.
pub(super) fn bearing_steps(asking: &Asking) -> AnyView {
    let here = (asking.step.id.as_str(), asking.ask.id.as_str());
    let units = asking
        .session
        .settings
        .with_untracked(|settings| settings.units.units());
    let at = asking.at;
    let steps = asking.with_card(|card| bearing::steps(card, at)).flatten();
    match steps.filter(|_| BEARING.contains(&here)) {
        Some(steps) => view! {
            <ol data-testid="bearing-steps">
                {steps.iter().map(|step| view! { <li>{say_remark(step, &units)}</li> }).collect_view()}
            </ol>
        }
        .into_any(),
        None => ().into_any(),
    }
}
