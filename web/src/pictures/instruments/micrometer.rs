//! A micrometer in thousandths of an inch: forty marks to the inch on the sleeve, and twenty-five on
//! the thimble, whose turn is one mark of the sleeve.

use leptos::prelude::*;

use super::engraved::{self, whole};
use super::straight_scale::window;

/// Where the thimble's edge stands, and the sleeve's line.
const EDGE: f64 = 98.0;
const LINE: f64 = 29.0;
/// From one mark to the next on the sleeve and on the thimble.
const SLEEVE: f64 = 4.0;
const THIMBLE: f64 = 3.0;

pub(super) fn drawn(marks: i64) -> impl IntoView {
    let at = super::f64_of(marks);
    let sleeve: Vec<(i64, f64)> = (0..=marks / 25)
        .map(|n| (n, EDGE - (at / 25.0 - super::f64_of(n)) * SLEEVE))
        .filter(|(_, x)| *x > 53.0)
        .collect();
    let sleeve_marks: Vec<_> = sleeve
        .iter()
        .map(|(n, x)| {
            let long = if n % 4 == 0 { 6.5 } else { 4.0 };
            view! { <path class="mark" data-mark="" d=format!("M{x:.2} {LINE} v-{long}") /> }
        })
        .collect();
    let sleeve_figures: Vec<_> = sleeve
        .iter()
        .filter(|(n, _)| n % 4 == 0)
        .map(|(n, x)| engraved::figures(&whole(n / 4), *x, LINE - 8.0))
        .collect();
    let turned = marks % 25;
    let thimble: Vec<(i64, f64)> = (turned - 8..=turned + 8)
        .map(|n| (n.rem_euclid(25), LINE - super::f64_of(n - turned) * THIMBLE))
        .collect();
    let thimble_marks: Vec<_> = thimble
        .iter()
        .map(|(n, y)| {
            let long = if n % 5 == 0 { 8.0 } else { 5.0 };
            view! { <path class="mark" data-mark="" d=format!("M{EDGE} {y:.2} h{long}") /> }
        })
        .collect();
    let thimble_figures: Vec<_> = thimble
        .iter()
        .filter(|(n, y)| n % 5 == 0 && (7.0..=51.0).contains(y))
        .map(|(n, y)| engraved::figures(&whole(*n), EDGE + 13.5, y + engraved::HIGH / 2.0))
        .collect();
    view! {
        <path class="part" d="M3 22 V40 q0 12 13 12 h6 q8 0 8 -8 V34 h-5 v8 q0 4 -5 4 h-3 q-7 0 -7 -7 V22 Z" />
        <path class="body" d="M9 24 h3 v6 h-3 Z M22 24.5 h3 v5 h-3 Z" />
        <path class="rule" d="M25 23 h10 v8 h-10 Z" />
        <path class="body" d="M35 21 h11 v12 h-11 Z" />
        <rect class="spot" x="28" y="19" width="12" height="16" rx="1.5" />
        {window(52.0, 2.0, 122.0, 56.0)}
        <path class="rule" d=format!("M52.4 13 H{EDGE} V45 H52.4 Z") />
        <path class="fine" d=format!("M52.4 {LINE} H{EDGE}") />
        <g data-scale="">{sleeve_marks}{sleeve_figures}</g>
        <path class="body" d=format!("M{EDGE} 2.4 H121.6 V55.6 H{EDGE} Z") />
        <g data-scale="">{thimble_marks}{thimble_figures}</g>
    }
}
