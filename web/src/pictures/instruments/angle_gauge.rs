//! An angle gauge between the adjuster's arm and the pushrod, in degrees.

use leptos::prelude::*;

use crate::pictures::geometry::{arc, on_circle};

use super::engraved::whole;
use super::round_scale::{Round, small};
use super::straight_scale::window;

const ROUND_IT: i64 = 8;
const HUB: (f64, f64) = (28.0, 44.0);

pub(super) fn drawn(marks: i64) -> impl IntoView {
    let at = super::f64_of(marks);
    let near = Round::near(at, 4.0, 5, 5);
    let (x, y) = on_circle(HUB, 30.0, -90.0 + at);
    view! {
        <path class="part" d=format!("{} Z", arc(HUB, 24.0, -90.0, 90.0)) />
        <path class="fine" d=small(HUB, 24.0, 18, -90.0, 90.0) />
        <path class="body" d="M2 42 H28 V47 H2 Z" />
        <path class="pointer" d=format!("M{} {} L{x:.2} {y:.2}", HUB.0, HUB.1) />
        <circle class="solid" cx=HUB.0 cy=HUB.1 r="2" />
        {window(58.0, 2.0, 122.0, 57.0)}
        {near.drawn((marks - ROUND_IT).max(0), (marks + ROUND_IT).min(180), whole)}
        {near.needle(at, 12.0, 45.0)}
    }
}
