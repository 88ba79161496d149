//! The button of a step that protects a person: press and hold, or press and then Yes in another place.
//!
//! The timing is plain data in [`press`]; this file only feeds it. It never acts on a plain press alone.

use std::time::Duration;

use leptos::prelude::*;
use leptos::{ev, html};
use wasm_bindgen::JsCast;

use crate::words::t;

mod press;

use press::Press;

/// How long the Yes stays offered after a plain press.
const OFFER: Duration = Duration::from_secs(8);
/// A Yes this soon after the press is the same hand still bouncing.
const BOUNCE_MS: f64 = 350.0;
/// How often a running hold is looked at.
const LOOK: Duration = Duration::from_millis(30);
/// Circumference of the ring, in the units of its drawing.
const RING: f64 = 251.327;

/// Press and hold for 900 ms (a ring fills), or press once and then Yes at the other end of the row.
#[component]
pub(crate) fn HoldButton(
    /// What is being said with it.
    #[prop(into)]
    words: Signal<String>,
    /// True once it has been said: the button shows a tick and rests.
    #[prop(into)]
    held: Signal<bool>,
    /// Runs once per completed hold.
    on_held: Callback<()>,
    /// Test id of the button; the Yes is the same with `-yes`.
    #[prop(default = "hold")]
    testid: &'static str,
) -> impl IntoView {
    let press = StoredValue::new(Press::default());
    let filled = RwSignal::new(0.0_f64);
    let looking = StoredValue::new(None::<IntervalHandle>);
    let offered_at = RwSignal::new(None::<f64>);
    let withdraw = StoredValue::new(None::<TimeoutHandle>);
    let button = NodeRef::<html::Button>::new();

    let stop_looking = move || {
        if let Some(handle) = looking.try_update_value(Option::take).flatten() {
            handle.clear();
        }
    };
    let stop_offer = move || {
        if let Some(handle) = withdraw.try_update_value(Option::take).flatten() {
            handle.clear();
        }
        let _gone = offered_at.try_set(None);
    };
    let offer = move || {
        stop_offer();
        offered_at.set(Some(now_ms()));
        let timer = set_timeout_with_handle(
            move || {
                let _gone = offered_at.try_set(None);
            },
            OFFER,
        );
        withdraw.set_value(timer.ok());
    };
    on_cleanup(move || {
        stop_looking();
        stop_offer();
    });

    let look = move || {
        let Some(outcome) = press.try_update_value(|press| press.at(now_ms())) else {
            return;
        };
        match outcome {
            press::State::Held => {
                stop_looking();
                stop_offer();
                filled.set(0.0);
                on_held.run(());
            }
            press::State::Filling(part) => filled.set(part),
            press::State::Idle => {
                stop_looking();
                filled.set(0.0);
            }
            press::State::Short => {
                stop_looking();
                filled.set(0.0);
                offer();
            }
        }
    };
    let down = move || {
        if held.get_untracked() {
            return;
        }
        press.update_value(|press| press.down(now_ms()));
        stop_looking();
        looking.set_value(set_interval_with_handle(look, LOOK).ok());
        look();
    };
    let up = move || {
        // Removing a focused button may still tell it that it lost focus.
        let _gone = press.try_update_value(|press| press.up(now_ms()));
    };

    let pointer_down = move |event: ev::PointerEvent| {
        if !event.is_primary() || event.button() != 0 {
            return;
        }
        if let Some(button) = button.get() {
            // Without capture a drifting glove ends the hold; with a refused capture it only may.
            let _refused = button.set_pointer_capture(event.pointer_id());
        }
        down();
    };
    let pointer_up = move |event: ev::PointerEvent| {
        if event.is_primary() {
            up();
        }
    };
    let key_down = move |event: ev::KeyboardEvent| {
        if is_press_key(&event) {
            event.prevent_default();
            if !event.repeat() {
                down();
            }
        }
    };
    let key_up = move |event: ev::KeyboardEvent| {
        if is_press_key(&event) {
            event.prevent_default();
            up();
        }
    };
    // A switch or a screen reader sends a click with no press before it.
    let click = move |event: ev::MouseEvent| {
        if event.detail() == 0 && !held.get_untracked() && press.with_value(Press::is_idle) {
            offer();
        }
    };
    let yes = move |_| {
        let long_enough = offered_at
            .get_untracked()
            .is_some_and(|at| now_ms() - at > BOUNCE_MS);
        if long_enough && !held.get_untracked() {
            stop_offer();
            on_held.run(());
        }
    };
    let is_filling = move || filled.get() > 0.0;
    let offered = move || offered_at.get().is_some();
    let hint = move || match (held.get(), offered()) {
        (true, _) => t("ui.hold.said"),
        (false, true) => t("ui.hold.or-yes"),
        (false, false) => t("ui.hold.hint"),
    };

    view! {
        <div class="hold">
            <button
                type="button"
                class="hold-button"
                class:holding=is_filling
                class:held=move || held.get()
                node_ref=button
                data-testid=testid
                aria-disabled=move || held.get().to_string()
                on:pointerdown=pointer_down
                on:pointerup=pointer_up
                on:pointercancel=pointer_up
                on:lostpointercapture=pointer_up
                on:contextmenu=|event: ev::MouseEvent| event.prevent_default()
                on:keydown=key_down
                on:keyup=key_up
                on:blur=move |_| up()
                on:click=click
            >
                <svg class="hold-ring" viewBox="0 0 100 100" aria-hidden="true">
                    <circle class="ring-track" cx="50" cy="50" r="40" />
                    <circle
                        class="ring-fill"
                        cx="50"
                        cy="50"
                        r="40"
                        transform="rotate(-90 50 50)"
                        stroke-dasharray=RING.to_string()
                        stroke-dashoffset=move || (RING * (1.0 - filled.get())).to_string()
                    />
                    <path class="ring-tick" d="M30 52 L45 66 L71 36" />
                </svg>
                <span class="hold-words">
                    <span class="hold-say">{move || words.get()}</span>
                    <span class="hold-hint" aria-live="polite">{hint}</span>
                </span>
            </button>
            <button
                type="button"
                class="key hold-yes"
                class:offered=offered
                data-testid=format!("{testid}-yes")
                disabled=move || !offered()
                on:click=yes
            >
                {t("ui.hold.yes")}
            </button>
        </div>
    }
}

fn is_press_key(event: &ev::KeyboardEvent) -> bool {
    matches!(event.key().as_str(), "Enter" | " ")
}

/// Milliseconds that only move forward.
fn now_ms() -> f64 {
    let clock = js_sys::Reflect::get(&js_sys::global(), &"performance".into());
    clock
        .ok()
        .and_then(|clock| clock.dyn_into::<web_sys::Performance>().ok())
        .map_or(0.0, |clock| clock.now())
}
