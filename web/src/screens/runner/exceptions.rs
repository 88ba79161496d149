//! All in order but for the ones named.

use job::event::{Answer, Exception, Item};
use job::id::OptionId;
use job::procedure::{Exceptions, Items};
use leptos::prelude::*;

use super::{Asking, picture, question};
use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::nut_grid::{NutGrid, NutMark};
use crate::parts::wide_done::WideDone;
use crate::words::{fill, t};

pub(super) fn view(asking: Asking, exceptions: Exceptions) -> AnyView {
    let session = asking.session;
    let named = RwSignal::new(Vec::<(String, OptionId)>::new());
    // The one whose mark is being chosen.
    let marking = RwSignal::new(None::<String>);
    let marks: Vec<Choice> = exceptions
        .marks
        .iter()
        .map(|mark| Choice::new(mark.as_str(), asking.option_words(mark.as_str())))
        .chain([Choice::new("in-order", t("ui.in-order"))])
        .collect();
    let heading = question(&asking);
    let parts: Vec<(String, String)> = match &exceptions.of {
        Items::Named(names) => names
            .iter()
            .map(|name| (name.to_string(), asking.option_words(name.as_str())))
            .collect(),
        Items::Studs => Vec::new(),
    };
    let is_studs = exceptions.of == Items::Studs;
    let drawn = is_studs.then(|| picture::view(&asking));
    let studs = asking
        .with_card(|card| card.studs(asking.at))
        .flatten()
        .unwrap_or(0);
    let mark_words = {
        let asking = asking.clone();
        move |mark: &OptionId| asking.option_words(mark.as_str())
    };
    let rows = {
        let parts = parts.clone();
        Signal::derive(move || {
            parts
                .iter()
                .map(|(id, words)| Choice {
                    id: id.clone(),
                    words: words.clone(),
                    detail: named.with(|named| {
                        named
                            .iter()
                            .find(|(of, _)| of == id)
                            .map(|(_, mark)| mark_words(mark))
                            .unwrap_or_default()
                    }),
                })
                .collect::<Vec<_>>()
        })
    };
    let grid = Signal::derive(move || {
        (1..=studs)
            .map(|nut| {
                let apart = named.with(|named| named.iter().any(|(of, _)| *of == nut.to_string()));
                if apart { NutMark::Apart } else { NutMark::Done }
            })
            .collect::<Vec<_>>()
    });
    let choose = Callback::new(move |mark: String| {
        let Some(item) = marking.get_untracked() else {
            return;
        };
        named.update(|named| {
            named.retain(|(of, _)| *of != item);
            if mark != "in-order" {
                named.push((item, OptionId::from(mark.as_str())));
            }
        });
        marking.set(None);
    });
    let count = move || {
        let count = named.with(Vec::len);
        if count == 0 {
            t("ui.all-in-order")
        } else {
            fill("ui.but-for", &[("count", &count.to_string())])
        }
    };
    let done = Callback::new(move |()| {
        let but = named.with_untracked(|named| {
            named
                .iter()
                .map(|(item, mark)| Exception {
                    item: item.clone(),
                    mark: mark.clone(),
                })
                .collect()
        });
        asking.submit(Item::Only, Answer::Exceptions { but });
    });
    let is_marking = Memo::new(move |_| marking.with(Option::is_some));
    let marks = StoredValue::new(marks);
    view! {
        <div class="body">
            <h2 class="question-line">{heading}</h2>
            {drawn}
            {move || {
                if is_marking.get() {
                    view! {
                        <ChoiceList
                            choices=Signal::stored(marks.get_value())
                            chosen=Signal::stored(Vec::new())
                            on_choose=choose
                        />
                    }
                    .into_any()
                } else if is_studs {
                    view! { <NutGrid marks=grid on_nut=Callback::new(move |nut: u8| marking.set(Some(nut.to_string())))/> }
                        .into_any()
                } else {
                    view! {
                        <ChoiceList
                            choices=rows
                            chosen=Signal::derive(move || named.with(|named| named.iter().map(|(of, _)| of.clone()).collect::<Vec<_>>()))
                            on_choose=Callback::new(move |id| marking.set(Some(id)))
                        />
                    }
                    .into_any()
                }
            }}
        </div>
        <WideDone
            words=Signal::derive(count)
            waits=Signal::derive(move || !session.can_write() || is_marking.get())
            on_done=done
        />
    }
    .into_any()
}
