//! A dial indicator in thousandths of an inch: a hundred marks to a turn, and a small counter of
//! whole turns. It was set to nought at one end of the play.

use leptos::prelude::*;

use crate::pictures::geometry::on_circle;

use super::engraved::whole;
use super::round_scale::Round;
use super::straight_scale::window;

/// How many marks are seen on each side of the needle, enlarged.
const ROUND_IT: i64 = 8;

pub(super) fn drawn(marks: i64) -> impl IntoView {
    let at = super::f64_of(marks);
    let face = Round {
        centre: (29.0, 29.0),
        radius: 27.0,
        figures_at: 18.0,
        degrees: 3.6,
        start: 0.0,
        figure_every: 20,
        longer_every: 5,
    };
    let near = Round::near(at, 4.0, 10, 5);
    view! {
        <circle class="part" cx="29" cy="29" r="28.6" />
        {face.drawn(0, 99, whole)}
        {counter((22.0, 35.0), at, 0.45)}
        {face.needle(at, -6.0, 26.0)}
        <circle class="solid" cx="29" cy="29" r="1.6" />
        {window(62.0, 2.0, 122.0, 57.0)}
        {near.drawn(marks - ROUND_IT, marks + ROUND_IT, |n| whole(n.rem_euclid(100)))}
        {near.needle(at, 33.0, 45.0)}
        {counter_figures((92.0, 42.5))}
        {counter((92.0, 42.5), at, 1.0)}
    }
}

/// The counter: ten turns, its needle going on between them.
fn counter(centre: (f64, f64), marks: f64, size: f64) -> impl IntoView {
    let turns: String = (0..10)
        .map(|n| {
            let turn = f64::from(n) * 36.0;
            let (x, y) = on_circle(centre, 7.0 * size, turn);
            let (u, v) = on_circle(centre, 5.4 * size, turn);
            format!("M{x:.2} {y:.2} L{u:.2} {v:.2} ")
        })
        .collect();
    let (x, y) = on_circle(centre, 5.6 * size, marks * 0.36);
    view! {
        <circle class="rule" cx=centre.0 cy=centre.1 r=7.4 * size />
        <path class="fine" d=turns />
        <path class="pointer thin" d=format!("M{} {} L{x:.2} {y:.2}", centre.0, centre.1) />
    }
}

fn counter_figures(centre: (f64, f64)) -> impl IntoView {
    let turns = Round {
        centre,
        radius: 7.0,
        figures_at: 10.9,
        degrees: 36.0,
        start: 0.0,
        figure_every: 2,
        longer_every: 1,
    };
    turns.drawn(0, 9, whole)
}
