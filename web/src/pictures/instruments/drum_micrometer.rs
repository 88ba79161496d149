//! A drum gauge across the drum, in five thousandths of an inch.

use leptos::prelude::*;

use super::engraved::hundredths;
use super::straight_scale::{Straight, window};

/// Twenty inches, in marks of five thousandths.
const LAST: i64 = 4_000;

pub(super) fn drawn(marks: f64) -> impl IntoView {
    let scale = Straight {
        left: 46.0,
        right: 122.0,
        foot: 27.0,
        upwards: false,
        spacing: 2.8,
        figure_every: 10,
        longer_every: 5,
    };
    let middle = scale.middle();
    view! {
        <circle class="body" cx="22" cy="29" r="20" />
        <circle class="part" cx="22" cy="29" r="17" />
        <path class="rule" d="M10 26 H34 V31 H10 Z" />
        <path class="body" d="M5 28.5 L10 24 V33 Z M39 28.5 L34 24 V33 Z" />
        <path class="fine" d="M14 26 v2.5 M18 26 v2.5 M22 26 v2.5 M26 26 v2.5 M30 26 v2.5" />
        <rect class="spot" x="25" y="22" width="11" height="13" rx="1.5" />
        {window(46.0, 6.0, 122.0, 52.0)}
        <path class="part" d=format!("M{middle} 10 H121.6 V24 H{middle} Z") />
        <path class="rule" d="M46.4 27 H121.6 V51 H46.4 Z" />
        {scale.drawn(marks, LAST, |n| hundredths(n * 5))}
        <path class="pointer" d=format!("M{middle} 10 V27") />
    }
}
