//! A fact of the set-up sheet, asked where it can be read. Given anew, it says first what that changes.

use job::act;
use job::event::{FactValue, TypedText};
use job::id::{FactId, OptionId};
use job::procedure::{FactDef, FactKind};
use leptos::prelude::*;
use rules::unit::Unit;

use super::reading::{Pad, count_pad, kind_for, pad};
use super::{Asking, Chosen, question};
use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::text_entry::TextEntry;
use crate::parts::wide_done::WideDone;
use crate::say::place;
use crate::screens::changes::{self, Ahead, ChangesFirst};
use crate::session::Session;
use crate::words::t;

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
    let refusal = asking.refusal;
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
            refusal.set(None);
            let given = changes::give(session, asking.at, &fact, value, ahead, keep);
            if given.is_err() {
                asking.told(given); // What was kept has been told of already.
            }
        })
    };
    let leave = Callback::new(move |()| {
        asking.chosen.set(Chosen::Ask {
            ask: asking.ask.id.clone(),
            at: asking.at,
            again: false,
        });
    });
    let entry = entry(&def, session, words, refusal, give);
    view! { <ChangesFirst ahead on_keep=keep on_leave=leave>{entry}</ChangesFirst> }.into_any()
}

/// The control that fits the kind of the fact.
fn entry(
    def: &FactDef,
    session: Session,
    words: String,
    refusal: RwSignal<Option<String>>,
    give: Callback<FactValue>,
) -> AnyView {
    let fact = &def.id;
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
            let done = Callback::new(move |()| match chosen.get_untracked() {
                Some(id) if id == NOT_KNOWN => give.run(FactValue::NotKnown),
                Some(id) => give.run(FactValue::Choice(OptionId::from(id.as_str()))),
                None => refusal.set(Some(t("ui.choose-first"))),
            });
            view! {
                <div class="body">
                    <h2 class="question-line">{words}</h2>
                    <ChoiceList
                        choices=Signal::stored(choices)
                        chosen=Signal::derive(move || chosen.get().into_iter().collect::<Vec<_>>())
                        on_choose=Callback::new(move |id| chosen.set(Some(id)))
                    />
                </div>
                <WideDone
                    words=t("ui.done")
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
