//! What was off about an answer, with the source of what decides. It repeats what the practice crate
//! says, and judges nothing.

use leptos::prelude::*;
use practice::book::Entry;
use practice::drill::{Answer, Off, Question};
use practice::kind::Kind;
use practice::seed::Seed;
use rules::shown::{self, Lean};

use job::judge::Units;

use crate::device;
use crate::judged::{bar, source_line};
use crate::parts::limit_bar::LimitBar;
use crate::parts::scroller::Scroller;
use crate::say::say_remark;
use crate::session::Session;
use crate::words::{fill, t, unit};

use super::drill::list;

/// The word, what it should have been, and why.
#[component]
pub(super) fn Said(question: Question, answer: Answer, seed: Seed) -> impl IntoView {
    let session = expect_context::<Session>();
    let units = session.units();
    let checked = question.check(&answer);
    record(session, question.kind(), checked.is_right());
    let lines = lines(&question, &checked.off, &units);
    let line = |line: String| view! { <p class="page-line">{line}</p> };
    let bars = match &checked.off {
        Off::Stands(judged) => judged.as_ref().as_ref().ok().map(|judged| {
            let by_load = bar(&judged.by_load, &units);
            let by_three = bar(&judged.by_three.judgement, &units);
            view! {
                <LimitBar shown=Signal::stored(Some(by_load)) />
                <LimitBar shown=Signal::stored(Some(by_three)) />
            }
        }),
        _ => None,
    };
    let word = if checked.is_right() {
        t("ui.drill.right")
    } else {
        t("ui.drill.off")
    };
    let source = checked
        .source
        .map(|source| view! { <p class="page-line">{source_line(source)}</p> });
    view! {
        <Scroller>
            <h2 data-testid="said">{word}</h2>
            <div data-testid="off">{lines.into_iter().map(line).collect_view()}</div>
            {bars}
            {source}
            <p class="page-line" data-testid="seed">
                {fill("ui.drill.seed", &[("seed", &seed.to_string())])}
            </p>
        </Scroller>
    }
}

/// Keeps in the book of the practice bay how it came out, for whoever practises; nobody, nothing.
fn record(session: Session, kind: Kind, right: bool) {
    let Some(who) = session.me.get_untracked() else {
        return;
    };
    let entry = Entry::Drilled {
        who,
        on: device::today(),
        kind,
        right,
    };
    if session.note(vec![entry], |_| {}).is_err() {
        leptos::logging::warn!("a drill's outcome is not kept");
    }
}

fn lines(question: &Question, off: &Off, units: &Units) -> Vec<String> {
    let why = |step: &str| t(&format!("step.{step}.why"));
    match off {
        Off::Nothing => match question {
            Question::First { then, offered } => {
                let firsts: Vec<&str> = practice::scene::firsts(then).collect();
                let first = offered.iter().find(|step| firsts.contains(*step));
                first.map(|step| why(step)).into_iter().collect()
            }
            Question::Units { printed, unit, .. } => {
                exact(printed.quantity(), *unit).into_iter().collect()
            }
            _ => Vec::new(),
        },
        Off::First(firsts) => firsts
            .iter()
            .map(|step| {
                fill(
                    "ui.drill.first.comes",
                    &[("step", &t(&format!("step.{step}"))), ("why", &why(step))],
                )
            })
            .collect(),
        Off::Word { ruled } => vec![fill(
            "ui.drill.word",
            &[("verdict", &t(&format!("verdict.{}", ruled.code())))],
        )],
        Off::Stands(judged) => match judged.as_ref() {
            Ok(_) => vec![t("ui.drill.stands.refused")],
            Err(fault) => vec![say_remark(&fault.remark(), units)],
        },
        Off::NoOrder(fault) => vec![say_remark(&fault.remark(), units)],
        Off::Order { printed, odd, .. } => {
            let printed = list(printed.order());
            let mut lines = vec![fill("ui.drill.pattern.printed", &[("order", &printed)])];
            lines.extend(odd.iter().map(|odd| say_remark(&odd.remark(), units)));
            lines
        }
        Off::Figure { .. } => match question {
            Question::Units { printed, unit, .. } => {
                exact(printed.quantity(), *unit).into_iter().collect()
            }
            _ => Vec::new(),
        },
        Off::NoAnswer
        | Off::Reading(_)
        | Off::OtherLimit { .. }
        | Off::Sound(_)
        | Off::OtherTree(_) => Vec::new(),
    }
}

/// The figure to four decimals: finer than anybody reads it.
fn exact(quantity: rules::quantity::Quantity, of: rules::unit::Unit) -> Option<String> {
    let shown = shown::decimal(quantity, of, 4, Lean::Nearest)?;
    Some(fill(
        "ui.drill.units.is",
        &[("figure", &format!("{} {}", shown.text, unit(of)))],
    ))
}
