//! A fact of the set-up sheet, asked where it can be read. Given anew, it says first what that changes.

use job::act;
use job::card::Card;
use job::event::{FactValue, TypedText};
use job::id::{FactId, OptionId, Place};
use job::procedure::{AskKind, FactDef, FactKind, Step};
use leptos::prelude::*;
use rules::unit::Unit;

use super::reading::{Pad, count_pad, kind_for, pad};
use super::{Asking, Chosen, picture, question};
use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::text_entry::TextEntry;
use crate::parts::wide_done::WideDone;
use crate::say::place;
use crate::screens::changes::{self, Ahead, ChangesFirst};
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
    let other_side = other_side_key(asking);
    let drawn = picture::of_fact(asking, fact);
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
                    {other_side}
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
            pad(Pad {
                session,
                words,
                kind,
                units,
                usual: reading.usual.clone(),
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

/// One key for all facts of this step that are open here and known at the other end of the axle.
/// A fact may be the same on both sides; a reading never is.
fn other_side_key(asking: &Asking) -> Option<AnyView> {
    let session = asking.session;
    let facts = asking.with_card(|card| on_other_side(card, &asking.step, asking.at))?;
    if facts.len() < 2 {
        return None;
    }
    let told: Vec<String> = facts
        .iter()
        .map(|(fact, value)| told::fact_value(fact, value))
        .collect();
    let words = fill("ui.as-other-side", &[("facts", &told.join(", "))]);
    let asking = asking.clone();
    let take = move |_| {
        let (at, facts, then) = (asking.at, facts.clone(), asking.clone());
        let saved = session.act(
            |card, me, _, _| {
                facts
                    .into_iter()
                    .map(|(fact, value)| act::set_fact(card, me, at, &fact, value))
                    .collect()
            },
            move |session| then.moved_on(session, false),
        );
        asking.told(saved);
    };
    let key = view! {
        <button type="button" class="key wide-key" data-testid="as-other-side" on:click=take>
            {words}
        </button>
    };
    Some(key.into_any())
}

fn on_other_side(card: &Card, step: &Step, at: Place) -> Vec<(FactId, FactValue)> {
    let Place::End(axle, _) = at else {
        return Vec::new();
    };
    let Some(other) = Place::ends(axle).into_iter().find(|end| *end != at) else {
        return Vec::new();
    };
    step.asks
        .iter()
        .filter_map(|ask| {
            let AskKind::Fact(fact) = &ask.kind else {
                return None;
            };
            if card.fact_slot(at, fact).is_some() || !card.fits(&ask.when, other) {
                return None;
            }
            Some((fact.clone(), card.fact(other, fact)?.clone()))
        })
        .collect()
}
