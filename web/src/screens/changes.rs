//! What changing a fact, or taking the shop's newer values, would change, shown before it is kept.
//!
//! The set-up sheet, the runner and the shop's values share this page. What was given stays as it was typed behind it,
//! so that going back loses nothing. What changes is `job`'s to say; here it becomes words.

use job::card::Card;
use job::changes::{Change, Weight, What};
use job::event::FactValue;
use job::hand_back::InTheWay;
use job::id::{AskId, FactId, Place, StepId};
use job::judge::Units;
use job::procedure::AskKind;
use job::words::Words;
use leptos::prelude::*;
use rules::verdict::Verdict;

use crate::judged::rule_title;
use crate::parts::scroller::Scroller;
use crate::say::{place, say};
use crate::session::Session;
use crate::words::{fill, find, t};

use super::bring::count_words;
use super::told::{fact_name, step_name};

/// A value that was given and is not kept yet, with what it would change.
#[derive(Clone)]
pub(crate) struct Ahead<V = FactValue> {
    pub(crate) value: V,
    /// Entries that come with it, in words.
    pub(crate) entries: Vec<String>,
    pub(crate) changes: Vec<Change>,
}

/// Keeps a fact at once, or shows first what it would change: if it was given before and anything
/// would. `Err` says why it can't be given; nothing was changed.
pub(crate) fn give(
    session: Session,
    at: Place,
    fact: &FactId,
    value: FactValue,
    ahead: RwSignal<Option<Ahead>>,
    keep: Callback<FactValue>,
) -> Result<(), Words> {
    let given_before = session.open.with_untracked(|open| {
        let slot = open.as_ref().and_then(|open| open.card.fact_slot(at, fact));
        slot.is_some_and(|slot| !slot.live().is_empty())
    });
    let changes = if given_before {
        session.would_change(fact, at, value.clone())?
    } else {
        Vec::new()
    };
    if changes.is_empty() {
        keep.run(value);
    } else {
        ahead.set(Some(Ahead {
            value,
            entries: Vec::new(),
            changes,
        }));
    }
    Ok(())
}

/// The control of a fact, and in its place what the value would change while that is asked about.
#[component]
pub(crate) fn ChangesFirst<V: Clone + Send + Sync + 'static>(
    /// `None` shows the control.
    ahead: RwSignal<Option<Ahead<V>>>,
    on_keep: Callback<V>,
    on_leave: Callback<()>,
    /// The control that the value came from. It is hidden meanwhile, not built anew.
    children: Children,
) -> impl IntoView {
    let shows = Memo::new(move |_| ahead.with(Option::is_some));
    view! {
        <div class="asked-behind" hidden=move || shows.get()>
            {children()}
        </div>
        {move || {
            ahead.get().map(|shown| view! { <ChangesPage shown ahead on_keep on_leave /> })
        }}
    }
}

/// The list, and what can be done about it.
#[component]
fn ChangesPage<V: Clone + Send + Sync + 'static>(
    shown: Ahead<V>,
    ahead: RwSignal<Option<Ahead<V>>>,
    on_keep: Callback<V>,
    on_leave: Callback<()>,
) -> impl IntoView {
    let session = expect_context::<Session>();
    let Ahead {
        value,
        entries,
        changes,
    } = shown;
    let units = untrack(|| session.units());
    let judges = changes
        .iter()
        .any(|change| matches!(change.what, What::Judged { .. }));
    let (protecting, others): (Vec<Change>, Vec<Change>) = changes
        .into_iter()
        .partition(|change| change.weight < Weight::Other);
    let group = move |title: &str, class: &'static str, changes: Vec<Change>| {
        (!changes.is_empty()).then(|| {
            let rows = session.open.with_untracked(|open| {
                let card = open.as_ref().map(|open| open.card.as_ref());
                changes
                    .iter()
                    .map(|change| row(card, change, units))
                    .collect_view()
            });
            view! {
                <section class=class>
                    <h3>{t(title)}</h3>
                    <ul class="changes-list">{rows}</ul>
                </section>
            }
        })
    };
    // Values of the shop are taken as they are: there is nothing to give otherwise.
    let is_taken = !entries.is_empty();
    let (title, keep) = if is_taken {
        ("ui.changes.take-title", "ui.changes.take")
    } else {
        ("ui.changes.title", "ui.changes.keep")
    };
    let entries = is_taken.then(|| {
        let rows = entries
            .into_iter()
            .map(|entry| view! { <li class="change">{entry}</li> });
        view! {
            <section class="changes-group" data-testid="changes-entries">
                <h3>{t("ui.changes.entries")}</h3>
                <ul class="changes-list">{rows.collect_view()}</ul>
            </section>
        }
    });
    let nothing = (protecting.is_empty() && others.is_empty())
        .then(|| view! { <p class="page-line">{t("ui.changes.nothing")}</p> });
    view! {
        <div class="body changes" role="alertdialog" aria-label=t(title) data-testid="changes">
            <div class="changes-head">
                <h2>{t(title)}</h2>
                // Not where Done stood: a second press of that must not keep it.
                <button
                    type="button"
                    class="key"
                    data-testid="changes-keep"
                    disabled=move || !session.can_write()
                    on:click=move |_| on_keep.run(value.clone())
                >
                    {t(keep)}
                </button>
            </div>
            <Scroller>
                {entries}
                {nothing}
                {group("ui.changes.protecting", "changes-group protecting", protecting)}
                {group("ui.changes.others", "changes-group", others)}
                {judges.then(|| view! { <p class="page-line">{t("ui.changes.judged-line")}</p> })}
            </Scroller>
        </div>
        <div class="done-area">
            {(!is_taken).then(|| view! {
                <button type="button" class="key" data-testid="changes-again" on:click=move |_| ahead.set(None)>
                    {t("ui.changes.again")}
                </button>
            })}
            <button type="button" class="wide-done" data-testid="changes-leave" on:click=move |_| on_leave.run(())>
                {t("ui.changes.leave")}
            </button>
        </div>
    }
}

fn row(card: Option<&Card>, change: &Change, units: Units) -> impl IntoView + use<> {
    let at = place(change.at);
    let about = match (&change.step, &change.what) {
        (Some(step), _) => fill(
            "ui.changes.at",
            &[("name", &step_name(step)), ("place", &at)],
        ),
        (None, What::FactGoes(fact)) => fill(
            "ui.changes.at",
            &[("name", &fact_name(fact)), ("place", &at)],
        ),
        (None, What::Brings { .. } | What::BringsNot { .. }) => t("ui.bring.title"),
        (None, _) => at,
    };
    let stops = (change.weight == Weight::Stops)
        .then(|| view! { <strong class="changes-stops">{t("ui.changes.stops")}</strong> });
    view! {
        <li class="change">
            <strong>{about}</strong>
            <span>{becomes(card, change, units)}</span>
            {stops}
        </li>
    }
}

/// What becomes of it, in one sentence.
fn becomes(card: Option<&Card>, change: &Change, units: Units) -> String {
    let asked = |key: &str, ask: &AskId| {
        let name = change
            .step
            .as_ref()
            .map_or_else(|| ask.to_string(), |step| ask_name(card, step, ask));
        fill(key, &[("ask", &name)])
    };
    let verdict = |verdict: &Option<Verdict>| {
        verdict.map_or_else(
            || t("ui.changes.not-judged"),
            |verdict| t(verdict.word().key()),
        )
    };
    let said = |words: &Words| say(words, &units);
    let in_the_way = |key: &str, one: &InTheWay| {
        let what = card.map(|card| said(&one.words(card)));
        fill(key, &[("what", &what.unwrap_or_default())])
    };
    match &change.what {
        What::Reopens => t("ui.changes.reopens"),
        What::Comes => t("ui.changes.comes"),
        What::Holds => t("ui.changes.holds"),
        What::AxleComes => t("ui.changes.axle-comes"),
        What::FactGoes(_) => t("ui.changes.fact-goes"),
        What::Judged {
            rule, then, now, ..
        } => fill(
            "ui.changes.judged",
            &[
                ("rule", &rule_title(rule.0)),
                ("then", &verdict(then)),
                ("now", &verdict(now)),
            ],
        ),
        What::InTheWay(one) => in_the_way("ui.changes.in-the-way", one),
        What::OutOfTheWay(one) => in_the_way("ui.changes.out-of-the-way", one),
        What::Brings { title, count } => {
            let count = count_words(*count);
            fill(
                "ui.changes.brings",
                &[("what", &said(title)), ("count", &count)],
            )
        }
        What::BringsNot { title } => fill("ui.changes.brings-not", &[("what", &said(title))]),
        What::AnswerFails(ask) => asked("ui.changes.answer-fails", ask),
        What::Asked(ask) => asked("ui.changes.asked", ask),
        What::NotAsked(ask) => asked("ui.changes.not-asked", ask),
        What::ComesDone => t("ui.changes.comes-done"),
        What::Leaves { begun: true } => t("ui.changes.leaves-begun"),
        What::Leaves { begun: false } => t("ui.changes.leaves"),
        What::AxleLeaves => t("ui.changes.axle-leaves"),
        What::HoldsNothing => t("ui.changes.holds-nothing"),
        What::Done => t("ui.changes.done"),
    }
}

/// The question of an ask; a fact has its own.
fn ask_name(card: Option<&Card>, step: &StepId, ask: &AskId) -> String {
    let of_fact = card
        .and_then(|card| card.procedure.as_deref()?.ask(step, ask))
        .and_then(|ask| match &ask.kind {
            AskKind::Fact(fact) => Some(fact_name(fact)),
            _ => None,
        });
    of_fact
        .or_else(|| find(&format!("ask.{step}.{ask}")))
        .unwrap_or_else(|| ask.to_string())
}
