//! One pass over the nuts: one by one with a big target or a key, or as a whole with exceptions.

use job::event::{Answer, Exception, Item};
use job::id::OptionId;
use job::procedure::Pass;
use leptos::ev;
use leptos::prelude::*;

use super::{Asking, question};
use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::nut_grid::{NutGrid, NutMark};
use crate::parts::wide_done::WideDone;
use crate::words::{fill, t};

pub(super) fn view(asking: Asking, pass: Pass) -> AnyView {
    let session = asking.session;
    let studs = asking
        .with_card(|card| card.studs(asking.at))
        .flatten()
        .unwrap_or(0);
    let heading = question(&asking);
    if studs == 0 {
        let words = t("ui.studs-first");
        return view! {
            <div class="body"><p class="refusal">{words}</p></div>
            <WideDone words=t("ui.to-map") waits=false on_done=Callback::new(move |()| session.go(crate::screen::Screen::Map))/>
        }
        .into_any();
    }
    let step = asking.step.clone();
    let ask = asking.ask.clone();
    let at = asking.at;
    // The mark of a nut as it stands on the trail.
    let marked = move |nut: u16| {
        session.open.with(|open| {
            let slot = open.as_ref()?.card.slot(&step, &ask, at, Item::Nut(nut))?;
            match &slot.live().last()?.value.answer {
                Answer::Nut { mark } => Some(mark.clone()),
                _ => None,
            }
        })
    };
    let good = pass.marks.first().map(|mark| mark.id.clone());
    let good_words = good
        .as_ref()
        .map(|good| asking.option_words(good.as_str()))
        .unwrap_or_default();
    let marks: Vec<Choice> = pass
        .marks
        .iter()
        .map(|mark| Choice::new(mark.id.as_str(), asking.option_words(mark.id.as_str())))
        .collect();
    let next = {
        let (good, marked) = (good.clone(), marked.clone());
        Memo::new(move |_| (1..=studs).find(|nut| marked(*nut) != good))
    };
    let grid = Signal::derive(move || {
        (1..=studs)
            .map(|nut| match marked(nut) {
                Some(mark) if Some(&mark) == good.as_ref() => NutMark::Done,
                Some(_) => NutMark::Apart,
                None if next.get() == Some(nut) => NutMark::Next,
                None => NutMark::Open,
            })
            .collect::<Vec<_>>()
    });
    let marking = RwSignal::new(None::<u16>);
    let first_mark = pass.marks.first().map(|mark| mark.id.clone());
    let put = {
        let asking = asking.clone();
        Callback::new(move |(nut, mark): (u16, OptionId)| {
            asking.submit(Item::Nut(nut), Answer::Nut { mark })
        })
    };
    let tick_next = move || {
        if let (Some(nut), Some(mark), true) = (
            next.get_untracked(),
            first_mark.clone(),
            session.can_write(),
        ) {
            put.run((nut, mark));
        }
    };
    // A clicker at the belt is a keyboard to the tablet.
    let clicker = {
        let tick_next = tick_next.clone();
        window_event_listener(ev::keydown, move |event| {
            let pressed = matches!(event.key().as_str(), " " | "PageDown");
            let on_a_control = event.target().is_some_and(|target| {
                wasm_bindgen::JsCast::has_type::<web_sys::HtmlButtonElement>(&target)
            });
            if pressed && !event.repeat() && !on_a_control {
                event.prevent_default();
                tick_next();
            }
        })
    };
    on_cleanup(move || clicker.remove());
    let choose = Callback::new(move |mark: String| {
        if let Some(nut) = marking.get_untracked() {
            marking.set(None);
            put.run((nut, OptionId::from(mark.as_str())));
        }
    });
    let whole = {
        let asking = asking.clone();
        Callback::new(move |()| {
            asking.submit(
                Item::Only,
                Answer::WholePass {
                    but: Vec::<Exception>::new(),
                },
            )
        })
    };
    let may_whole = !pass.one_by_one;
    let marks = StoredValue::new(marks);
    let is_marking = Memo::new(move |_| marking.with(Option::is_some));
    view! {
        <div class="body">
            <h2 class="question-line">{heading}</h2>
            {move || {
                if is_marking.get() {
                    view! {
                        <ChoiceList choices=Signal::stored(marks.get_value()) chosen=Signal::stored(Vec::new()) on_choose=choose/>
                    }
                    .into_any()
                } else {
                    view! { <NutGrid marks=grid on_nut=Callback::new(move |nut: u8| marking.set(Some(u16::from(nut))))/> }
                        .into_any()
                }
            }}
        </div>
        <div class="done-area">
            {may_whole.then(|| view! {
                <button type="button" class="key" data-testid="whole-pass" on:click=move |_| whole.run(())>
                    {t("ui.whole-pass")}
                </button>
            })}
            <WideDone
                words=Signal::derive(move || match next.get() {
                    Some(nut) => fill("ui.nut-good", &[("nut", &nut.to_string()), ("mark", &good_words)]),
                    None => t("ui.done"),
                })
                waits=Signal::derive(move || !session.can_write() || is_marking.get())
                on_done=Callback::new(move |()| tick_next())
            />
        </div>
    }
    .into_any()
}
