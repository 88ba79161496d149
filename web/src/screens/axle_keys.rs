//! Axles as keys, by number from the front; several can be chosen.

use leptos::prelude::*;

use crate::words::{fill, t};

/// One key for each axle of the vehicle.
#[component]
pub(crate) fn AxleKeys(
    #[prop(into)] axles: Signal<u8>,
    /// The axles chosen, in and out.
    chosen: RwSignal<Vec<u8>>,
) -> impl IntoView {
    let key = move |axle: u8| {
        let is_chosen = move || chosen.with(|chosen| chosen.contains(&axle));
        let turn = move |_| {
            chosen.update(|chosen| {
                if chosen.contains(&axle) {
                    chosen.retain(|other| *other != axle);
                } else {
                    chosen.push(axle);
                    chosen.sort_unstable();
                }
            });
        };
        view! {
            <button
                type="button"
                class="key axle-key"
                class:chosen=is_chosen
                aria-pressed=move || is_chosen().to_string()
                data-testid=format!("axle-{axle}")
                on:click=turn
            >
                <strong>{fill("place.axle", &[("axle", &axle.to_string())])}</strong>
                <small>{move || is_chosen().then(|| t("ui.chosen"))}</small>
            </button>
        }
    };
    view! { <div class="axle-keys">{move || (1..=axles.get()).map(key).collect_view()}</div> }
}
