//! One writing tab per tablet: a lock of the browser that dies with its tab.
//!
//! The lock only says who shows the writing screens. What keeps a frozen tab's late write out is
//! the writer number in the store.

use js_sys::{Function, Object, Promise, Reflect};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};

use crate::device::{navigator, property};

const LOCK: &str = "chock-to-chock-writer";

/// How the lock is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Asking {
    /// Only if nobody has it.
    IfFree,
    /// Take it from whoever has it.
    TakeOver,
}

/// Asks for the lock. `got` is called with true when this tab has it, with false when another
/// has; `lost` when another tab took it over. Without locks in this browser the tab writes alone.
///
/// The lock is held until the tab ends.
pub(crate) fn ask(asking: Asking, got: impl FnOnce(bool) + 'static, lost: impl FnOnce() + 'static) {
    let request = navigator()
        .and_then(|navigator| property(&navigator, "locks"))
        .and_then(|locks| {
            Some((
                property(&locks, "request")?.dyn_into::<Function>().ok()?,
                locks,
            ))
        });
    let Some((request, locks)) = request else {
        got(true);
        return;
    };
    let options = Object::new();
    let option = match asking {
        Asking::IfFree => "ifAvailable",
        Asking::TakeOver => "steal",
    };
    let set = Reflect::set(&options, &JsValue::from_str(option), &JsValue::TRUE);
    let held = Closure::once_into_js(move |lock: JsValue| -> JsValue {
        if lock.is_null() || lock.is_undefined() {
            got(false);
            return JsValue::UNDEFINED;
        }
        got(true);
        // Never settles: the lock is held for as long as the tab lives.
        Promise::new(&mut |_resolve, _reject| {}).into()
    });
    let asked = request.call3(&locks, &JsValue::from_str(LOCK), &options, &held);
    if set.is_err() {
        return;
    }
    if let Ok(promise) = asked.and_then(|promise| promise.dyn_into::<Promise>()) {
        let lost = Closure::once(move |_why: JsValue| lost());
        let watched = promise.catch(&lost);
        drop(watched);
        // Called at most once in the life of the tab, and not before it loses the lock.
        lost.forget();
    }
}
