//! Which wheels the chocks are at.

use job::event::{Answer, Item};
use job::id::Place;
use leptos::prelude::*;

use super::{Asking, question};
use crate::parts::wheel_pick::{EndKey, WheelPick};
use crate::parts::wide_done::WideDone;
use crate::screens::map::{end_words, vehicle_picture_with};
use crate::words::t;

pub(super) fn view(asking: Asking) -> AnyView {
    let session = asking.session;
    let can = asking
        .with_card(|card| card.wheels_to_chock())
        .unwrap_or_default();
    let all = asking
        .with_card(|card| card.layout().map(|layout| layout.ends()))
        .flatten()
        .unwrap_or_default();
    let none_stays = can.is_empty();
    let chosen = RwSignal::new(Vec::<Place>::new());
    let ends = {
        let can = can.clone();
        Signal::derive(move || {
            all.iter()
                .filter_map(|end| match end {
                    Place::End(axle, side) => Some(EndKey {
                        axle: *axle,
                        side: *side,
                        words: end_words(*axle, *side),
                        detail: String::new(),
                        who: String::new(),
                        lines: String::new(),
                        chosen: chosen.with(|chosen| chosen.contains(end)),
                        tone: None,
                        in_hand: can.contains(end),
                    }),
                    Place::Vehicle | Place::Axle(_) => None,
                })
                .collect::<Vec<_>>()
        })
    };
    let coupled = asking
        .with_card(|card| card.stays_down(Place::Vehicle))
        .unwrap_or(false);
    let turn = move |end: Place| {
        chosen.update(|chosen| {
            if chosen.contains(&end) {
                chosen.retain(|other| *other != end);
            } else {
                chosen.push(end);
            }
        });
    };
    let on_end = Callback::new(move |(axle, side)| turn(Place::End(axle, side)));
    let vehicle = Signal::derive(move || vehicle_picture_with(session, None, &chosen.get()));
    let heading = question(&asking);
    let done = Callback::new(move |()| {
        let mut at = chosen.get_untracked();
        at.sort_unstable();
        asking.submit(Item::Only, Answer::Wheels { at });
    });
    view! {
        <div class="body">
            <h2 class="question-line">{heading}</h2>
            {none_stays.then(|| view! { <p class="refusal" data-testid="no-wheel-stays">{t("ui.no-wheel-stays")}</p> })}
            <WheelPick vehicle ends on_end/>
            {coupled.then(|| view! {
                <button
                    type="button"
                    class="key wide-key"
                    class:chosen=move || chosen.with(|chosen| chosen.contains(&Place::Vehicle))
                    aria-pressed=move || chosen.with(|chosen| chosen.contains(&Place::Vehicle)).to_string()
                    data-testid="coupled-wheels"
                    on:click=move |_| turn(Place::Vehicle)
                >
                    {t("ui.coupled-wheels")}
                </button>
            })}
        </div>
        <WideDone
            words=t("ui.done")
            waits=Signal::derive(move || !session.can_write() || chosen.with(Vec::is_empty))
            on_done=done
        />
    }
    .into_any()
}
