//! The reservoir's gauge: marks at every five pounds per square inch, kilopascals inside.

use leptos::prelude::*;
use rules::unit::Unit;

use crate::pictures::geometry::on_circle;
use crate::words::unit;

use super::engraved::whole;
use super::round_scale::{Round, small};
use super::straight_scale::window;

const ROUND_IT: i64 = 4;
/// Far below the window: its figures then stay inside.
const MIDDLE: (f64, f64) = (90.0, 60.0);
/// 150 psi.
const LAST: i64 = 30;
/// Five pounds per square inch in marks of fifty kilopascals, for the place of a mark alone.
const KPA_MARKS: f64 = 5.0 * 6.894_757 / 50.0;
const FACE: (f64, f64) = (28.0, 29.0);

pub(super) fn drawn(marks: i64) -> impl IntoView {
    let at = super::f64_of(marks);
    let near = Round {
        centre: MIDDLE,
        ..Round::near(at, 7.0, 2, 1)
    };
    let kpa = Round {
        centre: MIDDLE,
        radius: 40.0,
        figures_at: 31.0,
        ..Round::near(at * KPA_MARKS, 7.0 / KPA_MARKS, 4, 2)
    };
    let (first, last) = ((marks - ROUND_IT).max(0), (marks + ROUND_IT).min(LAST));
    // Every fourth of these marks is a round two hundred.
    let from = (first * 69 / 100 + 1).max(0);
    let to = last * 68 / 100;
    let (x, y) = on_circle(FACE, 22.0, -135.0 + 9.0 * at);
    view! {
        <circle class="part" cx=FACE.0 cy=FACE.1 r="27" />
        <path class="fine" d=small(FACE, 25.0, 30, -135.0, 135.0) />
        <path class="pointer" d=format!("M{} {} L{x:.2} {y:.2}", FACE.0, FACE.1) />
        <circle class="solid" cx=FACE.0 cy=FACE.1 r="2" />
        {window(58.0, 2.0, 122.0, 57.0)}
        {near.drawn(first, last, |n| whole(n * 5))}
        {kpa.drawn(from, to, |n| whole(n * 50))}
        {near.needle(at, 35.0, 45.0)}
        <text class="middle" x="66" y="9">{unit(Unit::Psi)}</text>
        <text class="middle" x="90" y="53">{unit(Unit::Kilopascal)}</text>
    }
}
