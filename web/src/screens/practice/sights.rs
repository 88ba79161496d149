//! What there is to see at an ask of a run, in words and as raw readings of named instruments.
//!
//! It never says what a sight means. A drawn instrument takes the place of its line here.

use std::sync::Arc;

use job::event::FactValue;
use job::id::{AskId, Place};
use job::procedure::{AskKind, Step};
use leptos::prelude::*;
use practice::axle::Ports;
use practice::instrument::Instrument;
use practice::run::sight::Sight;
use rules::shown::Lean;

use crate::say::amount;
use crate::session::Session;
use crate::words::{fill, find, t, unit};

/// The lines of what is seen at one ask; none where this is no run.
pub(crate) fn lines(session: Session, step: &Step, ask: &AskId, at: Place) -> Vec<String> {
    let Some((run, false)) = session.run() else {
        return Vec::new();
    };
    let Some(of) = step.asks.iter().find(|of| of.id == *ask) else {
        return Vec::new();
    };
    session.open.with(|open| {
        let Some(open) = open else { return Vec::new() };
        let fact = match &of.kind {
            AskKind::Fact(fact) => Some(fact.as_str()),
            _ => None,
        };
        let seen = run.sights(&open.card, step, of, at).into_iter();
        seen.map(|sight| in_words(session, &sight, step, ask, fact))
            .collect()
    })
}

/// What is seen, above the control that asks for it.
#[component]
pub(crate) fn Sights(
    session: Session,
    step: Arc<Step>,
    /// The ask at hand, with its place.
    #[prop(into)]
    asked: Signal<Option<(AskId, Place)>>,
) -> impl IntoView {
    let lines = move || {
        let (ask, at) = asked.get()?;
        let lines = lines(session, &step, &ask, at);
        (!lines.is_empty()).then(|| {
            view! {
                <p class="sights" data-testid="sights">
                    <strong>{t("ui.see")}</strong>
                    " "
                    {lines.join(" ")}
                </p>
            }
        })
    };
    view! { {lines} }
}

fn in_words(
    session: Session,
    sight: &Sight,
    step: &Step,
    ask: &AskId,
    fact: Option<&str>,
) -> String {
    match sight {
        Sight::Instrument { item, instrument } => fill(
            "ui.see.instrument",
            &[
                ("part", &t(&format!("ui.item.{}", item.code()))),
                ("tool", &t(&format!("ui.tool.{}", instrument.tool().code()))),
                ("figure", &figure(session, instrument)),
            ],
        ),
        Sight::AtRest(mark) => fill("ui.see.at-rest", &[("figure", &figure(session, mark))]),
        Sight::Out(mark) => {
            let key = if ask.as_str() == "applied" {
                "ui.see.applied"
            } else {
                "ui.see.pulled"
            };
            fill(key, &[("figure", &figure(session, mark))])
        }
        Sight::Signs { item, signs } => {
            let part = t(&format!("ui.item.{}", item.code()));
            let signs: Vec<String> = signs
                .iter()
                .filter(|(_, sign)| *sign != "nothing")
                .map(|(number, sign)| sign_words(*number, sign))
                .collect();
            if signs.is_empty() {
                fill("ui.see.nothing", &[("part", &part)])
            } else {
                let signs = signs.join(", ");
                fill("ui.see.signs", &[("part", &part), ("signs", &signs)])
            }
        }
        Sight::Edge(text) => fill("ui.see.edge", &[("text", text)]),
        Sight::Ports { ports, tagged } => {
            let ports = match ports {
                Ports::Round => t("ui.see.ports-round"),
                Ports::Square => t("ui.see.ports-square"),
            };
            let tag = if *tagged {
                t("ui.see.tagged")
            } else {
                t("ui.see.untagged")
            };
            format!("{ports} {tag}")
        }
        Sight::Fact(value) => fill(
            "ui.see.fact",
            &[("figure", &fact_words(fact.unwrap_or_default(), value))],
        ),
        Sight::Stands(option) => {
            let words = t(&format!("ask.{}.{ask}.{option}", step.id));
            fill("ui.see.stands", &[("words", &words)])
        }
        Sight::Figure(typed) => {
            let figure = format!("{} {}", typed.text(), unit(typed.unit()));
            fill("ui.see.figure", &[("figure", &figure)])
        }
        Sight::Renewed(item) => fill(
            "ui.see.renewed",
            &[("part", &t(&format!("ui.item.{}", item.code())))],
        ),
        Sight::ReadyStands => t("ui.see.ready-stands"),
    }
}

/// A mark of an instrument as a figure.
pub(crate) fn figure(session: Session, instrument: &Instrument) -> String {
    amount(&session.units().show(instrument.shows(), Lean::Nearest))
}

/// A sign by its stable name; a finding of the procedure has its own words.
pub(crate) fn sign_words(number: Option<u16>, sign: &str) -> String {
    let words = find(&format!("ui.sign.{sign}")).unwrap_or_else(|| t(&format!("finding.{sign}")));
    match number {
        Some(number) => fill(
            "ui.see.numbered",
            &[("number", &number.to_string()), ("sign", &words)],
        ),
        None => words,
    }
}

fn fact_words(fact: &str, value: &FactValue) -> String {
    match value {
        FactValue::Choice(option) => t(&format!("fact.{fact}.{option}")),
        FactValue::Typed(typed) => {
            let of = rules::unit::Unit::from_code(&typed.unit);
            let unit = of.map_or_else(|| typed.unit.clone(), unit);
            format!("{} {unit}", typed.text)
        }
        FactValue::Count(count) => count.to_string(),
        FactValue::Text(text) => text.clone(),
        FactValue::Axles(_) | FactValue::NotKnown => t("ui.not-known"),
    }
}
