//! Press and hold: what protects a person is said on purpose.

use job::event::{Answer, Item};
use job::id::OptionId;
use job::procedure::Press;
use leptos::prelude::*;

use super::choose::offered;
use super::{Asking, picture, question};
use crate::parts::choice_list::ChoiceList;
use crate::parts::hold_button::HoldButton;
use crate::parts::wide_done::WideDone;
use crate::screen::Screen;
use crate::words::{fill, t};

pub(super) fn view(asking: Asking, press: Press) -> AnyView {
    let session = asking.session;
    let choices = offered(&asking, &press.answers);
    let only = (choices.len() == 1)
        .then(|| choices.first().map(|choice| choice.id.clone()))
        .flatten();
    let chosen = RwSignal::new(only.clone());
    let me = session.me.get_untracked();
    let waited_for = if press.each_person {
        waited_for(&asking)
    } else {
        String::new()
    };
    let i_have = press.each_person
        && me.as_ref().is_some_and(|me| {
            asking
                .with_card(|card| {
                    card.slot(
                        &asking.step,
                        &asking.ask,
                        asking.at,
                        Item::Person(me.clone()),
                    )
                    .is_some_and(|slot| !slot.live().is_empty())
                })
                .unwrap_or(false)
        });
    let heading = question(&asking);
    let drawn = picture::view(&asking);
    let refusal = asking.refusal;
    let words = {
        let choices = choices.clone();
        move || match chosen.get() {
            Some(id) => choices
                .iter()
                .find(|choice| choice.id == id)
                .map(|choice| choice.words.clone())
                .unwrap_or_default(),
            None => t("ui.choose-first"),
        }
    };
    let each = press.each_person;
    let held = Callback::new(move |()| {
        let Some(option) = chosen.get_untracked() else {
            refusal.set(Some(t("ui.choose-first")));
            return;
        };
        let item = match (each, session.me.get_untracked()) {
            (true, Some(me)) => Item::Person(me),
            _ => Item::Only,
        };
        asking.submit(
            item,
            Answer::Press {
                option: OptionId::from(option.as_str()),
            },
        );
    });
    view! {
        <div class="body">
            <h2 class="question-line">{heading}</h2>
            {drawn}
            {only.is_none().then(|| view! {
                <ChoiceList
                    choices=Signal::stored(choices)
                    chosen=Signal::derive(move || chosen.get().into_iter().collect::<Vec<_>>())
                    on_choose=Callback::new(move |id| chosen.set(Some(id)))
                />
            })}
            {(!waited_for.is_empty()).then(|| view! { <p class="waits-for" data-testid="waits-for">{waited_for.clone()}</p> })}
        </div>
        {if i_have {
            view! {
                <WideDone
                    words=t("ui.other-person")
                    waits=false
                    on_done=Callback::new(move |()| session.go(Screen::People))
                />
            }
            .into_any()
        } else {
            view! {
                <div class="done-area">
                    <HoldButton words=Signal::derive(words) held=false on_held=held/>
                </div>
            }
            .into_any()
        }}
    }
    .into_any()
}

/// The people whose own press is still wanting, in words; empty when none is.
fn waited_for(asking: &Asking) -> String {
    let names: Vec<String> = asking
        .with_card(|card| {
            card.working()
                .filter(|person| {
                    card.slot(
                        &asking.step,
                        &asking.ask,
                        asking.at,
                        Item::Person((*person).clone()),
                    )
                    .is_none_or(|slot| slot.live().is_empty())
                })
                .map(|person| card.name(person).to_owned())
                .collect()
        })
        .unwrap_or_default();
    if names.is_empty() {
        String::new()
    } else {
        fill("ui.waits-for", &[("names", &names.join(", "))])
    }
}
