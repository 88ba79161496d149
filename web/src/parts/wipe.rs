//! "Wipe screen": for a few seconds no touch does anything, so that dust can be wiped off.

use std::time::Duration;

use leptos::prelude::*;

use crate::words::{fill, t};

/// Long enough to wipe a tablet with a sleeve.
const SECONDS: u32 = 8;

/// A key that covers the whole screen for eight seconds, counting down.
#[component]
pub(crate) fn WipeKey() -> impl IntoView {
    let left = RwSignal::new(0_u32);
    let ticking = StoredValue::new(None::<IntervalHandle>);
    let stop = move || {
        if let Some(handle) = ticking.try_update_value(Option::take).flatten() {
            handle.clear();
        }
    };
    on_cleanup(stop);
    let start = move |_| {
        left.set(SECONDS);
        let tick = move || {
            let now = left.try_update(|left| {
                *left = left.saturating_sub(1);
                *left
            });
            if now.is_none_or(|now| now == 0) {
                stop();
            }
        };
        ticking.set_value(set_interval_with_handle(tick, Duration::from_secs(1)).ok());
    };
    let covered = move || left.get() > 0;
    view! {
        <button type="button" class="key nav-key" data-testid="wipe" on:click=start>
            <span>{t("ui.wipe")}</span>
        </button>
        {move || covered().then(|| view! {
            <div class="wipe" role="alert" data-testid="wiping">
                <p>{fill("ui.wipe.left", &[("seconds", &left.get().to_string())])}</p>
            </div>
        })}
    }
}
