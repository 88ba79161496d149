//! Talks with the service worker about a newer build: whether one waits, and to take it on a press.
//!
//! It never takes one by itself, and never reloads while something is being saved.

use std::time::Duration;

use js_sys::Function;
use leptos::prelude::*;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};

use crate::device::{navigator, property};
use crate::session::{Saving, Session};

const LOOK_AGAIN: Duration = Duration::from_millis(200);

/// Sets `waits` while a newer build lies ready, and reloads once the worker says that it was taken.
/// Listens until its owner is cleaned up.
pub(crate) fn watch(session: Session, waits: RwSignal<bool>) {
    let Some(worker) = worker() else { return };
    let hear = Closure::<dyn Fn(JsValue)>::new(move |event: JsValue| {
        let Some(data) = property(&event, "data") else {
            return;
        };
        let text = |name: &str| property(&data, name).and_then(|value| value.as_string());
        match text("say").as_deref() {
            Some("new-build") => {
                let _gone = waits.try_set(true);
            }
            Some("builds") => {
                let mine = text("mine").or_else(|| text("served"));
                let _gone =
                    waits.try_set(text("newest").is_some_and(|newest| Some(newest) != mine));
            }
            Some("now") => reload(session),
            _ => {}
        }
    });
    let target: &web_sys::EventTarget = worker.unchecked_ref();
    let listening =
        target.add_event_listener_with_callback("message", hear.as_ref().unchecked_ref());
    if listening.is_err() {
        return;
    }
    post(&worker, "ask", "builds");
    let kept = StoredValue::new_local(Some((worker, hear)));
    on_cleanup(move || {
        if let Some((worker, hear)) = kept.try_update_value(Option::take).flatten() {
            let target: &web_sys::EventTarget = worker.unchecked_ref();
            let gone = target
                .remove_event_listener_with_callback("message", hear.as_ref().unchecked_ref());
            if gone.is_err() {
                leptos::logging::warn!("still listening to the worker");
            }
        }
    });
}

/// Asks the worker to serve the newest build from the next load on.
pub(crate) fn take_newest() {
    if let Some(worker) = worker() {
        post(&worker, "say", "use-new");
    }
}

fn worker() -> Option<JsValue> {
    property(&navigator()?, "serviceWorker")
}

fn post(worker: &JsValue, name: &str, value: &str) {
    let sent = property(worker, "controller").and_then(|controller| {
        let message = js_sys::Object::new();
        js_sys::Reflect::set(
            &message,
            &JsValue::from_str(name),
            &JsValue::from_str(value),
        )
        .ok()?;
        let send: Function = property(&controller, "postMessage")?.dyn_into().ok()?;
        send.call1(&controller, &message).ok()
    });
    if sent.is_none() {
        leptos::logging::log!("no service worker answers for this page yet");
    }
}

fn reload(session: Session) {
    if session.saving.try_get_untracked() == Some(Saving::Busy) {
        set_timeout(move || reload(session), LOOK_AGAIN);
        return;
    }
    if let Some(window) = web_sys::window()
        && window.location().reload().is_err()
    {
        leptos::logging::warn!("not reloaded");
    }
}
