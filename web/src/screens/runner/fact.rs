//! A fact of the set-up sheet, asked where it can be read. Given anew, it says first what that changes.

use job::act;
use job::event::{FactValue, TypedText};
use job::id::{FactId, OptionId};
use job::procedure::{FactDef, FactKind};
use job::taken_over::{TakenOver, as_axle_before, as_other_side};
use leptos::prelude::*;
use rules::unit::Unit;

use super::reading::{Pad, count_pad, kind_for, pad};
use super::{Asking, Chosen, picture, question};
use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::text_entry::TextEntry;
use crate::parts::wide_done::WideDone;
use crate::say::place;
use crate::screens::changes::{self, Ahead, ChangesFirst};
use crate::screens::practice::sights;
use crate::screens::told;
use crate::words::{fill, t};

/// Stands in a list of choices for "I don't know".
const NOT_KNOWN: &str = "not-known";

pub(super) fn view(asking: Asking, fact: FactId) -> AnyView {
    let session = asking.session;
    let def = asking
        .with_card(|card| {
            card.procedure
                .as_deref()
                .and_then(|procedure| procedure.fact(&fact))
                .cloned()
        })
        .flatten();
    let Some(def) = def else { return ().into_any() };
    let words = format!("{} – {}", question(&asking), place(asking.at));
    let ahead = RwSignal::new(None::<Ahead>);
    let keep = {
        let asking = asking.clone();
        let fact = fact.clone();
        Callback::new(move |value: FactValue| {
            let (at, fact) = (asking.at, fact.clone());
            let then = asking.clone();
            let saved = session.act(
                |card, me, _, _| Ok(vec![act::set_fact(card, me, at, &fact, value)?]),
                move |session| then.moved_on(session, false),
            );
            asking.told(saved);
        })
    };
    let give = {
        let asking = asking.clone();
        let fact = fact.clone();
        Callback::new(move |value: FactValue| {
            asking.refusal.set(None);
            let given = changes::give(session, asking.at, &fact, value, ahead, keep);
            if given.is_err() {
                asking.told(given); // What was kept has been told of already.
            }
        })
    };
    let entry = entry(&asking, &def, words, give);
    let leave = Callback::new(move |()| {
        asking.chosen.set(Chosen::Ask {
            ask: asking.ask.id.clone(),
            at: asking.at,
            again: false,
        });
    });
    view! { <ChangesFirst ahead on_keep=keep on_leave=leave>{entry}</ChangesFirst> }.into_any()
}

/// The control that fits the kind of the fact.
fn entry(asking: &Asking, def: &FactDef, words: String, give: Callback<FactValue>) -> AnyView {
    let fact = &def.id;
    let (session, refusal) = (asking.session, asking.refusal);
    let same = same_keys(asking);
    let seen = untrack(|| sights::beside_list(session, &asking.step, &asking.ask.id, asking.at));
    let drawn = seen.unwrap_or_else(|| picture::of_fact(asking, fact));
    match &def.kind {
        FactKind::Choose(options) => {
            let mut choices: Vec<Choice> = options
                .iter()
                .map(|option| Choice::new(option.as_str(), t(&format!("fact.{fact}.{option}"))))
                .collect();
            if def.may_be_unknown {
                choices.push(Choice::new(NOT_KNOWN, t("ui.not-known")));
            }
            let chosen = RwSignal::new(None::<String>);
            // As with any other choice: one press, but two where a person is protected.
            let twice = asking
                .with_card(|card| card.is_said_twice(&asking.step, asking.at))
                .unwrap_or(true);
            let say = move |id: &str| {
                give.run(if id == NOT_KNOWN {
                    FactValue::NotKnown
                } else {
                    FactValue::Choice(OptionId::from(id))
                });
            };
            let choose = Callback::new(move |id: String| {
                chosen.set(Some(id.clone()));
                if !twice && session.can_write() {
                    say(&id);
                }
            });
            let done = Callback::new(move |()| match chosen.get_untracked() {
                Some(id) => say(&id),
                None => refusal.set(Some(t("ui.choose-first"))),
            });
            view! {
                <div class="body">
                    <h2 class="question-line">{words}</h2>
                    {same}
                    {drawn}
                    <ChoiceList
                        choices=Signal::stored(choices)
                        chosen=Signal::derive(move || chosen.get().into_iter().collect::<Vec<_>>())
                        on_choose=choose
                    />
                </div>
                <WideDone
                    words=if twice { t("ui.done") } else { t("ui.choose-one") }
                    waits=Signal::derive(move || !session.can_write() || chosen.with(Option::is_none))
                    on_done=done
                />
            }
            .into_any()
        }
        FactKind::Reading(reading) => {
            let units: Vec<Unit> = reading.units.iter().map(|unit| unit.0).collect();
            let keep = Callback::new(move |(text, unit): (String, Option<Unit>)| {
                let unit = unit.map(|unit| unit.code().to_owned()).unwrap_or_default();
                give.run(FactValue::Typed(TypedText { text, unit }));
            });
            let unknown = def
                .may_be_unknown
                .then(|| Callback::new(move |()| give.run(FactValue::NotKnown)));
            let kind = kind_for(&units, &reading.usual);
            let first = units.first().copied();
            pad(Pad {
                session,
                words,
                kind,
                units,
                usual: reading.usual.clone(),
                line: String::new(),
                typed: (RwSignal::new(String::new()), RwSignal::new(first)),
                refusal,
                unknown,
                keep,
            })
        }
        FactKind::Count(count) => {
            let keep = Callback::new(move |count| give.run(FactValue::Count(count)));
            count_pad(session, words, count, refusal, keep)
        }
        FactKind::Text => {
            let text = RwSignal::new(String::new());
            let done = Callback::new(move |()| {
                give.run(FactValue::Text(text.get_untracked().trim().to_owned()))
            });
            view! {
                <div class="body"><TextEntry words=words text/></div>
                <WideDone
                    words=t("ui.done")
                    waits=Signal::derive(move || !session.can_write() || text.with(|text| text.trim().is_empty()))
                    on_done=done
                />
            }
            .into_any()
        }
        // Axles in hand are chosen when a card is started, and changed on the set-up sheet.
        FactKind::Axles => ().into_any(),
    }
}

/// One key for all facts of this step that are open here and known at the other end of the axle, one
/// for those known at the axle before. A fact may be the same at both; a reading never is.
///
/// The key says what it takes.
fn same_keys(asking: &Asking) -> Vec<AnyView> {
    let side = asking.with_card(|card| as_other_side(card, &asking.step, asking.at));
    let before = asking.with_card(|card| as_axle_before(card, &asking.step, asking.at));
    let side = side.unwrap_or_default();
    let (axle, before) = before.flatten().unwrap_or_default();
    let side = (side.len() > 1).then(|| {
        let words = fill("ui.as-other-side", &[("facts", &values(&side))]);
        same_key(asking, "as-other-side", words, side)
    });
    // What this end has from the other one is not offered twice.
    let before = (before.len() > 1 && side.is_none()).then(|| {
        let words = fill(
            "ui.as-axle-before",
            &[("axle", &axle.to_string()), ("facts", &values(&before))],
        );
        same_key(asking, "as-axle-before", words, before)
    });
    side.into_iter().chain(before).collect()
}

/// What would be taken over; with the wheel end where the two differ.
fn values(taken: &[TakenOver]) -> String {
    let mut told: Vec<String> = Vec::new();
    for one in taken {
        let differs = taken
            .iter()
            .any(|other| other.fact == one.fact && other.value != one.value);
        let value = told::fact_value(&one.fact, &one.value);
        let value = if differs {
            let name = place(one.at);
            fill("ui.changes.at", &[("name", &value), ("place", &name)])
        } else {
            value
        };
        if !told.contains(&value) {
            told.push(value);
        }
    }
    told.join(", ")
}

fn same_key(
    asking: &Asking,
    testid: &'static str,
    words: String,
    taken: Vec<TakenOver>,
) -> AnyView {
    let session = asking.session;
    let asking = asking.clone();
    let take = move |_| {
        let (taken, then) = (taken.clone(), asking.clone());
        let saved = session.act(
            |card, me, _, _| {
                taken
                    .into_iter()
                    .map(|one| act::set_fact(card, me, one.at, &one.fact, one.value))
                    .collect()
            },
            move |session| then.moved_on(session, false),
        );
        asking.told(saved);
    };
    view! {
        <button type="button" class="key wide-key" data-testid=testid on:click=take>
            {words}
        </button>
    }
    .into_any()
}
