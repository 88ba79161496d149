//! What there is to see at an ask of a run: drawn where there is something to read, and in words.
//!
//! It never says what a sight means, and a drawn one stands nowhere in words.

use std::sync::Arc;

use job::event::FactValue;
use job::id::{AskId, Place};
use job::procedure::{Ask, AskKind, Step};
use leptos::prelude::*;
use practice::decision::Item;
use practice::instrument::Instrument;
use practice::run::sight::Sight;
use rules::shown::Lean;
use rules::typed::Typed;

use crate::parts::wide_done::WideDone;
use crate::pictures::instruments::instrument_name;
use crate::pictures::plate::StandsOn;
use crate::say::amount;
use crate::session::Session;
use crate::words::{fill, find, t, unit};

use super::asked::{Typing, typing};
use super::seen::{self, Seen, SeenPages};

/// What is drawn at one ask; none where this is no run, or where it is told in words.
fn drawn(session: Session, step: &Step, ask: &AskId, at: Place) -> Vec<Seen> {
    let sights = sights(session, step, ask, at);
    if let [Sight::Edge(left), Sight::Edge(right)] = sights.as_slice() {
        return vec![Seen::Edges([left.clone(), right.clone()])];
    }
    sights
        .iter()
        .flat_map(|sight| draw(session, sight, ask))
        .collect()
}

/// Whether a thing is looked at on a page of its own before it is typed or picked: a pad leaves no
/// room for it.
pub(crate) fn is_looked_at_first(session: Session, step: &Step, ask: &AskId, at: Place) -> bool {
    let of = step.asks.iter().find(|of| of.id == *ask);
    let alone = |of: &Ask| matches!(of.kind, AskKind::Reading(_) | AskKind::Stands);
    of.is_some_and(alone) && !drawn(session, step, ask, at).is_empty()
}

/// How marks that are finer than the pad's sixteenths are typed: counted past a whole inch.
pub(crate) fn counted(session: Session, step: &Step, ask: &AskId, at: Place) -> Option<Typing> {
    let seen = drawn(session, step, ask, at);
    let instrument = seen.iter().find_map(|seen| match seen {
        Seen::Instrument(_, instrument) => Some(instrument),
        _ => None,
    })?;
    let typing = typing(instrument.tool(), instrument.marks());
    (typing.parts > 0).then_some(typing)
}

/// The page of what is looked at; then it is typed or picked.
pub(crate) fn look(
    session: Session,
    step: &Step,
    ask: &AskId,
    at: Place,
    on_done: Callback<()>,
) -> AnyView {
    let seen = drawn(session, step, ask, at);
    let of = step.asks.iter().find(|of| of.id == *ask);
    let words = match of.map(|of| &of.kind) {
        Some(AskKind::Stands) => t("ui.see.pick"),
        _ => t("ui.see.type"),
    };
    view! {
        <div class="body look-body" data-testid="looked-at">
            <SeenPages seen/>
        </div>
        <WideDone words waits=false on_done/>
    }
    .into_any()
}

/// What is drawn beside a list, in place of the drawing that tells signs apart; nothing elsewhere.
pub(crate) fn beside_list(
    session: Session,
    step: &Step,
    ask: &AskId,
    at: Place,
) -> Option<AnyView> {
    if is_looked_at_first(session, step, ask, at) {
        return None;
    }
    let seen = drawn(session, step, ask, at);
    let one = seen.first()?;
    Some(
        view! {
            <figure class="step-picture to-choose" data-testid="seen-here">{one.picture()}</figure>
        }
        .into_any(),
    )
}

fn sights(session: Session, step: &Step, ask: &AskId, at: Place) -> Vec<Sight> {
    let Some((run, false)) = session.run() else {
        return Vec::new();
    };
    let Some(of) = step.asks.iter().find(|of| of.id == *ask) else {
        return Vec::new();
    };
    session.open.with(|open| {
        let open = open.as_ref();
        open.map_or(Vec::new(), |open| run.sights(&open.card, step, of, at))
    })
}

fn draw(session: Session, sight: &Sight, ask: &AskId) -> Vec<Seen> {
    let instrument = |what: String, instrument: &Instrument| {
        let tool = instrument_name(instrument.tool());
        let caption = fill("ui.see.instrument", &[("part", &what), ("tool", &tool)]);
        Seen::Instrument(caption, *instrument)
    };
    match sight {
        Sight::Instrument {
            item,
            instrument: of,
        } => vec![instrument(name(*item), of)],
        Sight::Gauge(of) => {
            let tool = instrument_name(of.tool());
            vec![Seen::Instrument(
                fill("ui.see.gauge", &[("tool", &tool)]),
                *of,
            )]
        }
        Sight::AtRest(mark) => vec![instrument(t("ui.drill.seen.released"), mark)],
        Sight::Out(mark) if ask.as_str() == "applied" => {
            vec![instrument(t("ui.drill.seen.applied"), mark)]
        }
        Sight::Out(mark) => vec![instrument(t("ui.drill.seen.pulled"), mark)],
        Sight::Edge(print) => vec![Seen::Edge(print.clone())],
        Sight::Chamber { of, long } => {
            vec![Seen::Chamber(t("ui.drill.seen.chamber"), of, *long)]
        }
        Sight::Plate(typed) => vec![on_it(StandsOn::Plate, "ui.see.plate", typed)],
        Sight::Cast(typed) => vec![on_it(StandsOn::Drum, "ui.see.cast", typed)],
        Sight::ReadyStands => {
            let Some((run, _)) = session.run() else {
                return Vec::new();
            };
            let [[one, two], [three, four]] = run.stand_tags();
            vec![
                seen::stands("ui.see.ready", &one, &two, [1, 2]),
                seen::stands("ui.see.behind", &three, &four, [3, 4]),
            ]
        }
        Sight::Signs { .. }
        | Sight::Fact(_)
        | Sight::Stands(_)
        | Sight::Figure(_)
        | Sight::Renewed(_) => Vec::new(),
    }
}

fn on_it(on: StandsOn, key: &'static str, typed: &Typed) -> Seen {
    let word = t(&format!("{key}.word"));
    Seen::Figure(t(key), on, word, figure_of(typed))
}

fn name(item: Item) -> String {
    t(&format!("ui.item.{}", item.code()))
}

fn figure_of(typed: &Typed) -> String {
    format!("{} {}", typed.text(), unit(typed.unit()))
}

/// What is told in words at one ask; none where this is no run.
fn told(session: Session, step: &Step, ask: &AskId, at: Place, drawn_too: bool) -> Vec<String> {
    let of = step.asks.iter().find(|of| of.id == *ask);
    let fact = match of.map(|of| &of.kind) {
        Some(AskKind::Fact(fact)) => Some(fact.as_str()),
        _ => None,
    };
    sights(session, step, ask, at)
        .iter()
        .filter(|sight| drawn_too || draw(session, sight, ask).is_empty())
        .map(|sight| in_words(sight, step, ask, fact))
        .collect()
}

/// All that is seen at an ask as lines, for a row that has no room for a drawing.
pub(crate) fn lines(session: Session, step: &Step, ask: &AskId, at: Place) -> Vec<String> {
    told(session, step, ask, at, true)
}

/// What is seen and not drawn, above the control that asks for it.
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
        let lines = told(session, &step, &ask, at, false);
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

fn in_words(sight: &Sight, step: &Step, ask: &AskId, fact: Option<&str>) -> String {
    match sight {
        Sight::Instrument { item, instrument } => {
            let tool = instrument_name(instrument.tool());
            let part = name(*item);
            fill("ui.see.instrument", &[("part", &part), ("tool", &tool)])
        }
        Sight::Gauge(mark) | Sight::AtRest(mark) | Sight::Out(mark) => {
            let tool = instrument_name(mark.tool());
            fill("ui.see.gauge", &[("tool", &tool)])
        }
        Sight::Signs { item, signs } => {
            let part = name(*item);
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
        Sight::Chamber { of, long } => {
            let signs = t(if *long {
                "ui.see.square-ports"
            } else {
                "ui.see.round-ports"
            });
            fill("ui.see.chamber", &[("type", of), ("signs", &signs)])
        }
        Sight::Fact(value) => fill(
            "ui.see.fact",
            &[("figure", &fact_words(fact.unwrap_or_default(), value))],
        ),
        Sight::Stands(option) => {
            let words = t(&format!("ask.{}.{ask}.{option}", step.id));
            fill("ui.see.stands", &[("words", &words)])
        }
        Sight::Figure(typed) | Sight::Plate(typed) | Sight::Cast(typed) => {
            fill("ui.see.figure", &[("figure", &figure_of(typed))])
        }
        Sight::Renewed(item) => fill("ui.see.renewed", &[("part", &name(*item))]),
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
