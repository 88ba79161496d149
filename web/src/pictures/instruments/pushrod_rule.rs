//! A rule beside the pushrod: sixteenths of an inch from the chamber's face to the mark on the rod.

use leptos::prelude::*;

use super::engraved::mixed;
use super::straight_scale::{Straight, window};

/// Six inches.
const LAST: i64 = 96;
/// How long the whole rule is drawn.
const WHOLE: f64 = 36.0;

pub(super) fn drawn(marks: f64) -> impl IntoView {
    let scale = Straight {
        left: 52.0,
        right: 122.0,
        foot: 27.0,
        upwards: false,
        spacing: 3.0,
        figure_every: 8,
        longer_every: 2,
    };
    let at = 13.0 + marks / 96.0 * WHOLE;
    let quarters: String = (0..=24)
        .map(|n| {
            let long = if n % 4 == 0 { 4.0 } else { 2.2 };
            format!("M{:.2} 36 v{long} ", 13.0 + f64::from(n) / 24.0 * WHOLE)
        })
        .collect();
    let middle = scale.middle();
    view! {
        <path class="part" d="M1 20 q0 -4 4 -4 h5 q3 0 3 3 v14 q0 3 -3 3 h-5 q-4 0 -4 -4 Z" />
        <path class="part" d=format!("M13 24 H{:.2} v4 H13 Z", at + 3.0) />
        <path class="body" d=format!("M{:.2} 22 h4 q3 0 3 4 t-3 4 h-4 Z", at + 3.0) />
        <rect class="rule" x="12.4" y="36" width="37.6" height="10" rx="0.8" />
        <path class="fine" d=quarters />
        <path class="pointer" d=format!("M{at:.2} 23 V36") />
        <rect class="spot" x=at - 4.6 y="20" width="9.2" height="27" rx="1.5" />
        {window(52.0, 6.0, 122.0, 52.0)}
        <path class="part" d=format!("M52.4 10 H121.6 V21 H52.4 Z") />
        <path class="rule" d="M52.4 27 H121.6 V51 H52.4 Z" />
        {scale.drawn(marks, LAST, |n| mixed(n, 16))}
        <path class="pointer" d=format!("M{middle} 10 V27") />
    }
}
