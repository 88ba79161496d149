//! What the app asks of the browser: time, randomness, and what kind of place this is.

use std::time::Duration;

use chrono::{DateTime, Datelike, TimeDelta, Utc};
use job::line::Stamp;
use js_sys::{Date, Function, Promise, Reflect};
use leptos::logging;
use leptos::prelude::set_timeout;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// Now, as this tablet's clock has it.
pub(crate) fn now() -> Stamp {
    let date = Date::new_0();
    let millis = date.get_time();
    #[expect(
        clippy::cast_possible_truncation,
        reason = "a clock's milliseconds are whole and far below 2^53"
    )]
    let utc = DateTime::<Utc>::from_timestamp_millis(millis as i64).unwrap_or_default();
    // The browser counts minutes behind UTC; a line holds minutes ahead of it.
    #[expect(clippy::cast_possible_truncation, reason = "a day has 1 440 minutes")]
    let offset_minutes = -(date.get_timezone_offset() as i32);
    Stamp {
        utc,
        offset_minutes,
    }
}

/// The day that this tablet's clock has, where it stands.
pub(crate) fn today() -> practice::book::Date {
    let now = now();
    let there = now.utc + TimeDelta::minutes(i64::from(now.offset_minutes));
    practice::book::Date {
        year: i64::from(there.year()),
        month: i64::from(there.month()),
        day: i64::from(there.day()),
    }
}

/// A new id nobody else has: a letter for its kind, 80 random bits, and the clock in case a
/// browser has no randomness to give.
pub(crate) fn new_id(kind: char) -> String {
    const DIGITS: &[u8; 32] = b"0123456789abcdefghjkmnpqrstvwxyz";
    let mut bytes = [0_u8; 16];
    if let Some(crypto) = web_sys::window().and_then(|window| window.crypto().ok()) {
        let filled = crypto.get_random_values_with_u8_array(&mut bytes);
        if filled.is_err() {
            logging::warn!("no random numbers from this browser");
        }
    }
    let text: String = bytes
        .iter()
        .map(|byte| char::from(DIGITS[usize::from(byte % 32)]))
        .collect();
    format!("{kind}-{text}-{:x}", now().utc.timestamp_millis())
}

/// True on https and on this machine itself: the worker, locks and lasting storage need it.
pub(crate) fn is_secure() -> bool {
    web_sys::window().is_some_and(|window| window.is_secure_context())
}

/// Asks the browser not to clear what is kept here. `None` where it can't be asked.
pub(crate) async fn ask_to_persist() -> Option<bool> {
    let storage = property(&navigator()?, "storage")?;
    let persist: Function = property(&storage, "persist")?.dyn_into().ok()?;
    let promise: Promise = persist.call0(&storage).ok()?.dyn_into().ok()?;
    JsFuture::from(promise).await.ok()?.as_bool()
}

/// Comes back after a while; the screen is drawn and touched meanwhile.
pub(crate) async fn pause(long: Duration) {
    let promise = Promise::new(&mut |resolve, _| {
        set_timeout(
            move || {
                if resolve.call0(&JsValue::NULL).is_err() {
                    logging::warn!("nobody waited");
                }
            },
            long,
        );
    });
    if JsFuture::from(promise).await.is_err() {
        logging::warn!("no pause");
    }
}

/// The browser's navigator, as a plain object.
pub(crate) fn navigator() -> Option<JsValue> {
    web_sys::window().map(|window| window.navigator().into())
}

/// A property that is there, or `None` where this browser does not have it.
pub(crate) fn property(of: &JsValue, name: &str) -> Option<JsValue> {
    Reflect::get(of, &JsValue::from_str(name))
        .ok()
        .filter(|value| !value.is_undefined() && !value.is_null())
}
