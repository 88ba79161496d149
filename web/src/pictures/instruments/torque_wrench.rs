//! A torque wrench with a dial, a mark for each pound-force foot or inch.

use leptos::prelude::*;

use crate::pictures::geometry::on_circle;

use super::engraved::whole;
use super::round_scale::{Round, small};
use super::straight_scale::window;

const ROUND_IT: i64 = 8;
/// The dial's middle on the wrench, and how large it is there.
const DIAL: ((f64, f64), f64) = ((27.0, 29.0), 14.0);

/// `last` is the end of the dial's scale.
pub(super) fn drawn(marks: i64, last: i64) -> impl IntoView {
    let at = super::f64_of(marks);
    let near = Round::near(at, 4.0, 5, 5);
    let (centre, radius) = DIAL;
    let turn = -135.0 + 270.0 * at / super::f64_of(last);
    let (x, y) = on_circle(centre, radius - 2.0, turn);
    let from = (marks - ROUND_IT).max(0);
    view! {
        <path class="part" d="M25 40 h6 V57 h-6 Z" />
        <path class="body" d="M23 2 h8 v6 h-8 Z M25 8 h4 V16 h-4 Z" />
        <circle class="part" cx=centre.0 cy=centre.1 r=radius + 1.5 />
        <path class="fine" d=small(centre, radius, 12, -135.0, 135.0) />
        <path class="pointer" d=format!("M{} {} L{x:.2} {y:.2}", centre.0, centre.1) />
        <circle class="solid" cx=centre.0 cy=centre.1 r="1.2" />
        {window(50.0, 2.0, 122.0, 57.0)}
        {near.drawn(from, (marks + ROUND_IT).min(last), whole)}
        {near.needle(at, 12.0, 45.0)}
    }
}
