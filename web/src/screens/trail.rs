//! Every line of the open card in words, and the key that takes one back.
//!
//! Nothing is left out: what was taken back stays readable, struck through, and what is wrong with
//! the trail stands on top.

use std::sync::Arc;

use job::act;
use job::card::{Card, Entry, can_be_struck};
use job::event::Event;
use job::judge::Units;
use job::line::LineRef;
use job::words::Words;
use leptos::prelude::*;

use crate::device;
use crate::parts::scroller::Scroller;
use crate::parts::text_entry::TextEntry;
use crate::session::{Open, Session};
use crate::words::{fill, t};

use super::moment::moment_in_full;
use super::page::{Page, anew, way_back};
use super::told::{step_name, told_fault, told_judged, told_line, told_though};
use super::wanting::Wanting;

/// The trail of the open card.
#[component]
pub(crate) fn TrailScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let back = way_back(session);
    let newest_first = RwSignal::new(true);
    let striking = RwSignal::new(None::<LineRef>);
    let why = RwSignal::new(String::new());
    let wanting = RwSignal::new(Vec::<Words>::new());
    let ask_strike = Callback::new(move |line: LineRef| {
        wanting.set(Vec::new());
        match may_strike_at_once(session, &line) {
            Ok(true) => wanting.set(session.strike(&line, None).err().into_iter().collect()),
            Ok(false) => striking.set(Some(line)),
            Err(words) => wanting.set(vec![words]),
        }
    });
    let strike = move |line: &LineRef| {
        let struck = why.with_untracked(|why| session.strike(line, Some(why)));
        match struck {
            Ok(()) => {
                why.set(String::new());
                wanting.set(Vec::new());
                striking.set(None);
            }
            Err(words) => wanting.set(vec![words]),
        }
    };
    let keep = move || {
        wanting.set(Vec::new());
        striking.set(None);
    };
    let go_back = move |()| {
        if striking.with_untracked(Option::is_some) {
            keep()
        } else {
            back.run(())
        }
    };
    let content = move || {
        match striking.get() {
        Some(line) => {
            let target = line.clone();
            view! {
                <Scroller>
                    <StrikeAsk line=target />
                    <TextEntry words=t("ui.reason") text=why testid="strike-why" />
                    <Wanting words=wanting />
                    <div class="key-row apart">
                        <button type="button" class="key wide-key" data-testid="strike-keep" on:click=move |_| keep()>
                            {t("ui.trail.leave")}
                        </button>
                        <button type="button" class="key wide-key" data-testid="strike-yes" on:click=move |_| strike(&line)>
                            {t("ui.trail.take-back")}
                        </button>
                    </div>
                </Scroller>
            }
            .into_any()
        }
        None => view! {
            <div class="key-row">
                <button
                    type="button"
                    class="key wide-key"
                    data-testid="trail-order"
                    on:click=move |_| newest_first.update(|newest| *newest = !*newest)
                >
                    {move || if newest_first.get() { t("ui.trail.oldest-first") } else { t("ui.trail.newest-first") }}
                </button>
                <p class="page-line" data-testid="trail-chain">{move || chain(session)}</p>
            </div>
            <Scroller>
                <Wanting words=wanting />
                <Faults />
                <ol class="trail" data-testid="trail">{move || rows(session, newest_first.get(), ask_strike)}</ol>
            </Scroller>
        }
        .into_any(),
    }
    };
    let body = move || anew(content());
    let title = move || {
        let unit = session.open.with(|open| {
            open.as_ref()
                .map(|open| job::summary::summary(&open.card).unit)
        });
        fill("ui.trail.title", &[("unit", &unit.unwrap_or_default())])
    };
    view! { <Page title=Signal::derive(title) on_back=Callback::new(go_back)>{body}</Page> }
}

/// Asks whether this person may take back this line now, and whether without a reason.
fn may_strike_at_once(session: Session, line: &LineRef) -> Result<bool, Words> {
    let open = session
        .open
        .get_untracked()
        .ok_or_else(|| Words::plain("ui.no-card"))?;
    let me = session
        .me
        .get_untracked()
        .ok_or_else(|| Words::plain("hold.sign-on"))?;
    act::may_strike(&open.card, &me, line, device::now())
        .map(|proof| proof.at_once)
        .map_err(|refusal| refusal.words(&open.card))
}

/// True for a line that nobody can take back, whoever they are.
fn stays(entry: &Entry) -> bool {
    entry.struck.is_some() || !entry.event().is_some_and(can_be_struck)
}

fn chain(session: Session) -> String {
    session.open.with(|open| {
        let Some(open) = open else {
            return String::new();
        };
        let lines = open.trail.all().count().to_string();
        let key = if open.card.faults.is_empty() {
            "ui.trail.whole"
        } else {
            "ui.trail.not-whole"
        };
        fill(key, &[("lines", &lines)])
    })
}

fn rows(session: Session, newest_first: bool, on_strike: Callback<LineRef>) -> Vec<AnyView> {
    let Some(Open { card, .. }) = session.open.get() else {
        return Vec::new();
    };
    let (units, language) = (
        session.units(),
        session.settings.with(|settings| settings.language.clone()),
    );
    let row = |entry: &Entry| row(&card, entry, &units, &language, on_strike);
    if newest_first {
        card.entries.iter().rev().map(row).collect()
    } else {
        card.entries.iter().map(row).collect()
    }
}

fn row(
    card: &Arc<Card>,
    entry: &Entry,
    units: &Units,
    language: &str,
    on_strike: Callback<LineRef>,
) -> AnyView {
    let when = moment_in_full(entry.at.utc, language);
    let told = told_line(card, &entry.said, units);
    let judged = match entry.event() {
        Some(Event::Answered { judged, .. }) => judged.iter().map(told_judged).collect(),
        _ => Vec::new(),
    };
    let line = entry.line.clone();
    let testid = format!("strike-{}", entry.tick);
    view! {
        <li class="trail-row" class:struck=entry.struck.is_some() data-testid=format!("trail-{}", entry.tick)>
            <div class="trail-words">
                <p class="trail-when">
                    <span>{when}</span>
                    <strong>{card.name(&entry.who).to_owned()}</strong>
                </p>
                <p class="trail-told">{told}</p>
                {judged.into_iter().map(|judged| view! { <p class="trail-judged">{judged}</p> }).collect_view()}
                {entry.though.as_ref().map(|though| view! {
                    <p class="trail-though">{told_though(card, though, units)}</p>
                })}
                {entry.struck.as_ref().map(|by| view! { <p class="trail-struck">{struck_by(card, by, language)}</p> })}
            </div>
            {(!stays(entry)).then(|| view! {
                <button type="button" class="key" data-testid=testid on:click=move |_| on_strike.run(line.clone())>
                    {t("ui.trail.take-back")}
                </button>
            })}
        </li>
    }
    .into_any()
}

/// By whom a line was taken back, when and why.
pub(crate) fn struck_by(card: &Card, by: &LineRef, language: &str) -> String {
    let Some(strike) = card.entry(by) else {
        return t("event.line-not-here");
    };
    let (name, when) = (
        card.name(&strike.who),
        moment_in_full(strike.at.utc, language),
    );
    match strike.event() {
        Some(Event::Struck { why: Some(why), .. }) => fill(
            "ui.trail.struck-because",
            &[("name", name), ("when", &when), ("why", why)],
        ),
        _ => fill("ui.trail.struck", &[("name", name), ("when", &when)]),
    }
}

/// What is wrong with the trail, and what was set aside of it.
#[component]
fn Faults() -> impl IntoView {
    let session = expect_context::<Session>();
    move || {
        let told: Vec<String> = session.open.with(|open| {
            let Some(open) = open else { return Vec::new() };
            let newer = open
                .card
                .newer
                .iter()
                .map(|kind| fill("event.newer-kind", &[("kind", kind)]));
            open.card
                .faults
                .iter()
                .map(told_fault)
                .chain(newer)
                .collect()
        });
        let aside: Vec<String> = session.open.with(|open| {
            open.iter()
                .flat_map(|open| open.trail.aside())
                .map(|aside| aside.text.clone())
                .collect()
        });
        (!told.is_empty()).then(|| {
            view! {
                <section class="wanting" role="alert" data-testid="trail-faults">
                    {told.into_iter().map(|fault| view! { <p>{fault}</p> }).collect_view()}
                    {aside.into_iter().map(|text| view! { <pre class="aside-text">{text}</pre> }).collect_view()}
                </section>
            }
        })
    }
}

/// What is about to be taken back, and what follows from it.
#[component]
fn StrikeAsk(line: LineRef) -> impl IntoView {
    let session = expect_context::<Session>();
    move || {
        let open = session.open.get()?;
        let units = session.units();
        let entry = open.card.entry(&line)?;
        let told = told_line(&open.card, &entry.said, &units);
        let built = act::built_on(&open.card, entry).map(|built| {
            fill(
                "ui.trail.built-on",
                &[("what", &told_line(&open.card, &built.said, &units))],
            )
        });
        let stops = entry.event().and_then(Event::step).and_then(|(_, step)| {
            let protects = open.card.procedure.as_deref()?.step(step)?.protects();
            protects.then(|| fill("ui.trail.stops", &[("step", &step_name(step))]))
        });
        Some(view! {
            <section data-testid="strike-ask">
                <p class="page-line">{t("ui.trail.strike-line")}</p>
                <p class="trail-told">{told}</p>
                {stops.map(|stops| view! { <p class="trail-though">{stops}</p> })}
                {built.map(|built| view! { <p class="trail-though">{built}</p> })}
            </section>
        })
    }
}
