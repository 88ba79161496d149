//! A caliper over a shoe, in 64ths of an inch: two jaws, a beam, and the mark of the slide on it.

use leptos::prelude::*;

use super::engraved::mixed;
use super::straight_scale::{Straight, window};

/// Fourteen inches.
const LAST: i64 = 14 * 64;

pub(super) fn drawn(marks: f64) -> impl IntoView {
    let scale = Straight {
        left: 44.0,
        right: 122.0,
        foot: 27.0,
        upwards: false,
        spacing: 2.6,
        figure_every: 8,
        longer_every: 4,
    };
    // How far the jaws stand apart, to the length of the beam.
    let jaw = 6.0 + marks / 896.0 * 28.0;
    let middle = scale.middle();
    view! {
        <path class="rule" d="M2 14 H42 V20 H2 Z" />
        <path class="fine" d="M8 14 v3 M14 14 v3 M20 14 v3 M26 14 v3 M32 14 v3 M38 14 v3" />
        <path class="part" d="M2 12 h4 V42 h-2 L2 34 Z" />
        <path class="part" d=format!("M{jaw:.2} 11 h6 V23 h-2 V34 L{:.2} 42 h-2 Z", jaw + 2.0) />
        <path class="body" d=format!("M6 40 Q{:.2} 26 {jaw:.2} 40 l0 5 Q{:.2} 32 6 45 Z", f64::midpoint(6.0, jaw), f64::midpoint(6.0, jaw)) />
        <rect class="spot" x=jaw - 3.0 y="9" width="11" height="15" rx="1.5" />
        {window(44.0, 6.0, 122.0, 52.0)}
        <path class="part" d=format!("M{middle} 10 H121.6 V24 H{middle} Z") />
        <path class="rule" d="M44.4 27 H121.6 V51 H44.4 Z" />
        {scale.drawn(marks, LAST, |n| mixed(n, 64))}
        <path class="pointer" d=format!("M{middle} 10 V27") />
    }
}
