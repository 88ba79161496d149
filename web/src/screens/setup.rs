//! The set-up sheet: every fact given so far, by place, and a way to give one anew.
//!
//! What a new value would change is shown before it is kept. A reading that was judged with the
//! facts before keeps the verdict it had then.

use job::act;
use job::card::Card;
use job::event::FactValue;
use job::id::{FactId, Place};
use job::procedure::FactDef;
use job::slot::Slot;
use job::words::Words;
use leptos::prelude::*;

use crate::parts::scroller::Scroller;
use crate::say::place;
use crate::session::Session;
use crate::words::{fill, t};

use super::changes::{self, Ahead, ChangesFirst};
use super::fact_entry::FactEntry;
use super::page::{Page, anew, way_back};
use super::told::{fact_name, fact_value};

/// The sheet, or one fact of it being given anew.
#[component]
pub(crate) fn SetupScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let back = way_back(session);
    let changing = RwSignal::new(None::<(Place, FactId)>);
    let wanting = RwSignal::new(Vec::<Words>::new());
    let ahead = RwSignal::new(None::<Ahead>);
    let show = move |what: Option<(Place, FactId)>| {
        wanting.set(Vec::new());
        ahead.set(None);
        changing.set(what);
    };
    let go_back = move |()| {
        if ahead.with_untracked(Option::is_some) {
            ahead.set(None)
        } else if changing.with_untracked(Option::is_some) {
            show(None)
        } else {
            back.run(())
        }
    };
    let keep = Callback::new(move |value: FactValue| {
        let Some((at, fact)) = changing.get_untracked() else {
            return;
        };
        let given = session.act(
            |card, me, _, _| Ok(vec![act::set_fact(card, me, at, &fact, value)?]),
            move |_| {
                let _gone = ahead.try_set(None);
                let _gone = changing.try_set(None);
            },
        );
        if given.is_err() {
            ahead.set(None); // What stands against it is said beside the entry.
        }
        wanting.set(given.err().into_iter().collect());
    });
    let give = Callback::new(move |value: FactValue| {
        let Some((at, fact)) = changing.get_untracked() else {
            return;
        };
        wanting.set(Vec::new());
        if let Err(words) = changes::give(session, at, &fact, value, ahead, keep) {
            wanting.set(vec![words]);
        }
    });
    let content = move || match changing.get() {
        None => view! {
            <Scroller>
                <p class="page-line">{t("ui.setup.line")}</p>
                <Sheet on_change=Callback::new(move |what| show(Some(what))) />
            </Scroller>
        }
        .into_any(),
        Some((_, fact)) => {
            let (def, axles) = session.open.with_untracked(|open| {
                let card = open.as_ref().map(|open| &open.card);
                let def = card.and_then(|card| card.procedure.as_deref()?.fact(&fact).cloned());
                let axles = card
                    .and_then(|card| card.layout())
                    .map_or(0, |layout| layout.axles());
                (def, axles)
            });
            def.map(|def| {
                view! {
                    <ChangesFirst ahead on_keep=keep on_leave=Callback::new(move |()| show(None))>
                        <FactEntry def=def.clone() axles refused=wanting on_value=give />
                    </ChangesFirst>
                }
            })
            .into_any()
        }
    };
    let body = move || anew(content());
    let title = move || match changing.get() {
        None => t("ui.setup.title"),
        Some((at, fact)) => fill(
            "ui.setup.fact-at",
            &[("fact", &fact_name(&fact)), ("place", &place(at))],
        ),
    };
    view! { <Page title=Signal::derive(title) on_back=Callback::new(go_back)>{body}</Page> }
}

/// One value of a fact, as it is shown.
#[derive(Clone)]
struct Shown {
    at: Place,
    fact: FactId,
    /// Each value that stands, with who gave it.
    values: Vec<(String, String)>,
    /// Which of several governs; none if it can't be told.
    governs: Option<String>,
}

/// Every fact given, place by place.
#[component]
fn Sheet(on_change: Callback<(Place, FactId)>) -> impl IntoView {
    let session = expect_context::<Session>();
    let row = move |shown: Shown| {
        let testid = format!("fact-{}-{}", shown.at, shown.fact);
        let contested = shown.values.len() > 1;
        let change = if shown.values.is_empty() {
            t("ui.setup.give-it")
        } else {
            t("ui.setup.change")
        };
        let governs = contested.then(|| match &shown.governs {
            Some(value) => fill("ui.setup.stricter", &[("value", value)]),
            None => t("ui.setup.none-governs"),
        });
        let value = move |(value, who): (String, String)| {
            let who = contested.then(|| fill("ui.setup.given-by", &[("name", &who)]));
            view! { <span class="fact-value">{value} <small>{who}</small></span> }
        };
        let what = (shown.at, shown.fact.clone());
        view! {
            <li class="line" class:contested=contested data-testid=testid.clone()>
                <span class="row-words">
                    <small>{fact_name(&shown.fact)}</small>
                    {shown.values.into_iter().map(value).collect_view()}
                    {governs.map(|governs| view! { <small class="trail-though">{governs}</small> })}
                </span>
                <button
                    type="button"
                    class="key line-key"
                    data-testid=format!("change-{testid}")
                    on:click=move |_| on_change.run(what.clone())
                >
                    {change}
                </button>
            </li>
        }
    };
    move || {
        let Some(open) = session.open.get() else {
            return ().into_any();
        };
        if open.card.procedure.is_none() {
            return view! { <p class="wanting">{t("hold.unknown-procedure")}</p> }.into_any();
        }
        let by_place = facts(&open.card);
        by_place
            .into_iter()
            .map(|(at, shown)| {
                view! {
                    <section class="setting">
                        <h2>{place(at)}</h2>
                        <ul class="rows">{shown.into_iter().map(row).collect_view()}</ul>
                    </section>
                }
            })
            .collect_view()
            .into_any()
    }
}

/// The facts that anybody gave and those that no step insists on, in the order of the sheet, for each
/// place that has one.
fn facts(card: &Card) -> Vec<(Place, Vec<Shown>)> {
    let Some(procedure) = card.procedure.as_deref() else {
        return Vec::new();
    };
    let mut by_place: Vec<(Place, Vec<Shown>)> = Vec::new();
    for def in &procedure.facts {
        for at in card.places(def.scope, Place::Vehicle) {
            let Some(shown) = shown(card, at, def) else {
                continue;
            };
            match by_place.iter_mut().find(|(place, _)| *place == at) {
                Some((_, facts)) => facts.push(shown),
                None => by_place.push((at, vec![shown])),
            }
        }
    }
    by_place.sort_by_key(|(at, _)| *at);
    by_place
}

fn shown(card: &Card, at: Place, def: &FactDef) -> Option<Shown> {
    let live = card.fact_slot(at, &def.id).map_or(&[][..], Slot::live);
    if live.is_empty() && !card.may_be_given_any_time(def) {
        return None;
    }
    let values = live
        .iter()
        .map(|held| {
            let who = card
                .entry(&held.line)
                .map(|entry| card.name(&entry.who).to_owned());
            (fact_value(&def.id, &held.value), who.unwrap_or_default())
        })
        .collect();
    let governs = card
        .fact(at, &def.id)
        .map(|value| fact_value(&def.id, value));
    Some(Shown {
        at,
        fact: def.id.clone(),
        values,
        governs,
    })
}
