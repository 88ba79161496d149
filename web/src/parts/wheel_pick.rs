//! Choosing a wheel end: a grid of keys beside the vehicle's drawing, never on it.

use job::id::Side;
use leptos::prelude::*;

use crate::pictures::vehicle_top::{Heading, VehicleTop, VehicleTopPicture};
use crate::words::t;

use super::limit_bar::Tone;
use super::scroller::Scroller;

/// One wheel end as a key.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct EndKey {
    pub(crate) axle: u8,
    pub(crate) side: Side,
    /// Such as "2 left".
    pub(crate) words: String,
    /// How far it is, such as a stage's name; may be empty.
    pub(crate) detail: String,
    /// Who has it; may be empty.
    pub(crate) who: String,
    /// Such as "1 line"; may be empty.
    pub(crate) lines: String,
    pub(crate) chosen: bool,
    /// The worst of what was judged there, if anything was.
    pub(crate) tone: Option<Tone>,
    /// False for an end that can't be chosen: its place stays empty, or goes with its whole axle.
    pub(crate) in_hand: bool,
}

/// Wheel ends that have room beside a list.
const FEW: usize = 4;

/// The drawing, and beside it one key for each wheel end in hand.
#[component]
pub(crate) fn WheelPick(
    #[prop(into)] vehicle: Signal<VehicleTop>,
    /// Every wheel end, front first, left first.
    #[prop(into)]
    ends: Signal<Vec<EndKey>>,
    on_end: Callback<(u8, Side)>,
) -> impl IntoView {
    let across = Memo::new(move |_| vehicle.get().heading(Heading::Left));
    let along = Memo::new(move |_| vehicle.get().heading(Heading::Up));
    let key = move |end: EndKey| {
        if !end.in_hand {
            return view! { <span class="end-place"></span> }.into_any();
        }
        let (axle, side) = (end.axle, end.side);
        let letter = match side {
            Side::Left => 'L',
            Side::Right => 'R',
        };
        view! {
            <button
                type="button"
                class="key end-key"
                class:chosen=end.chosen
                aria-pressed=end.chosen.to_string()
                data-testid=format!("end-{axle}{letter}")
                on:click=move |_| on_end.run((axle, side))
            >
                <strong>{end.words}</strong>
                <small>{end.detail}</small>
                {(!end.who.is_empty()).then(|| view! { <small class="end-who">{end.who}</small> })}
                {(!end.lines.is_empty()).then(|| view! { <small class="end-open">{end.lines}</small> })}
                {end.tone.map(|tone| view! { <i class=format!("end-tone {}", tone.class()) aria-hidden="true"></i> })}
            </button>
        }
        .into_any()
    };
    // Beyond two axles the keys need the room of their lists.
    let many = move || ends.with(|ends| ends.iter().filter(|end| end.in_hand).count() > FEW);
    let axles = move || {
        let ends = ends.get();
        let of_axle = |pair: &[EndKey]| {
            let keys = pair.iter().cloned().map(key).collect_view();
            view! { <div class="end-pair">{keys}</div> }
        };
        ends.chunks(2)
            .filter(|pair| pair.iter().any(|end| end.in_hand))
            .map(of_axle)
            .collect_view()
    };
    view! {
        <div class="wheel-pick" class:many=many>
            <div class="wheel-pick-across">
                <VehicleTopPicture vehicle=across name=t("ui.vehicle.name") />
            </div>
            <div class="wheel-pick-along">
                <VehicleTopPicture vehicle=along name=t("ui.vehicle.name") />
            </div>
            <Scroller>
                <div class="wheel-pick-ends">{axles}</div>
            </Scroller>
        </div>
    }
}
