//! A depth gauge on a lining, in 32nds of an inch: how thick the lining is over its shoe table.

use leptos::prelude::*;

use super::engraved::mixed;
use super::straight_scale::{Straight, window};

/// One inch.
const LAST: i64 = 32;

pub(super) fn drawn(marks: f64) -> impl IntoView {
    let scale = Straight {
        left: 46.0,
        right: 122.0,
        foot: 27.0,
        upwards: false,
        spacing: 3.8,
        figure_every: 4,
        longer_every: 2,
    };
    // The lining on its table, and the gauge's foot on it.
    let high = 3.0 + marks * 0.6;
    let top = 46.0 - high;
    let middle = scale.middle();
    view! {
        <path class="body" d="M2 46 H40 V50 H2 Z" />
        <path class="part" d=format!("M4 46 V{top:.2} H38 V46 Z") />
        <path class="pointer" d=format!("M14 {top:.2} H34") />
        <path class="rule" d="M19 6 h9 V46 h-9 Z" />
        <path class="fine" d="M19 10 h4 M19 14 h4 M19 18 h4 M19 22 h4 M19 26 h4 M19 30 h4 M19 34 h4 M19 38 h4 M19 42 h4" />
        <path class="body" d=format!("M10 {:.2} h28 v3 h-28 Z", top - 3.0) />
        <rect class="spot" x="16" y=top - 6.0 width="16" height="12" rx="1.5" />
        {window(46.0, 6.0, 122.0, 52.0)}
        <path class="body" d=format!("M46.4 10 H{middle} V21 H46.4 Z") />
        <path class="rule" d="M46.4 27 H121.6 V51 H46.4 Z" />
        {scale.drawn(marks, LAST, |n| mixed(n, 32))}
        <path class="pointer" d=format!("M{middle} 10 V27") />
    }
}
