//! A moment in the words of the tablet's own calendar and zone. The browser writes it.

use chrono::{DateTime, NaiveDate, NaiveTime, Utc};
use js_sys::{Date, Object, Reflect};
use wasm_bindgen::JsValue;

/// Day and time of day, such as "25 Nov, 13:05".
pub(crate) fn moment(at: DateTime<Utc>, language: &str) -> String {
    write(
        at,
        language,
        &[
            ("day", "numeric"),
            ("month", "short"),
            ("hour", "2-digit"),
            ("minute", "2-digit"),
        ],
    )
}

/// Day and time of day to the second, with the year: for the trail.
pub(crate) fn moment_in_full(at: DateTime<Utc>, language: &str) -> String {
    write(
        at,
        language,
        &[
            ("year", "numeric"),
            ("month", "short"),
            ("day", "numeric"),
            ("hour", "2-digit"),
            ("minute", "2-digit"),
            ("second", "2-digit"),
        ],
    )
}

/// The day with its year.
pub(crate) fn day_of_year(at: DateTime<Utc>, language: &str) -> String {
    write(
        at,
        language,
        &[("year", "numeric"), ("month", "short"), ("day", "numeric")],
    )
}

/// The month with its year.
pub(crate) fn month_of_year(at: DateTime<Utc>, language: &str) -> String {
    write(at, language, &[("year", "numeric"), ("month", "long")])
}

/// The name of a month, 1 to 12.
pub(crate) fn month(number: u32, language: &str) -> String {
    // The middle of a month is in it in every zone.
    let middle = NaiveDate::from_ymd_opt(2024, number, 15).unwrap_or_default();
    write(
        middle.and_time(NaiveTime::MIN).and_utc(),
        language,
        &[("month", "long")],
    )
}

fn write(at: DateTime<Utc>, language: &str, parts: &[(&str, &str)]) -> String {
    #[expect(
        clippy::cast_precision_loss,
        reason = "milliseconds of this age are far below 2^53"
    )]
    let date = Date::new(&JsValue::from_f64(at.timestamp_millis() as f64));
    let options = Object::new();
    let set = |(name, value): &(&str, &str)| {
        Reflect::set(
            &options,
            &JsValue::from_str(name),
            &JsValue::from_str(value),
        )
    };
    if parts.iter().map(set).any(|set| set.is_err()) {
        return at.to_rfc3339();
    }
    String::from(date.to_locale_string(language, &options))
}
