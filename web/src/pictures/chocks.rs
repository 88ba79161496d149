//! Chocks at a wheel that stays on the ground: before and behind it, tight on the tread.

use leptos::prelude::*;

use super::geometry::{arc, on_circle, polygon};

const GROUND: f64 = 300.0;
const RADIUS: f64 = 110.0;

/// A pair of wheels from the side; the first one is chocked both ways.
#[component]
pub(crate) fn ChocksPicture(
    /// Read aloud in its place.
    #[prop(into)]
    name: Signal<String>,
) -> impl IntoView {
    let wheel = |x: f64| {
        let y = GROUND - RADIUS;
        let studs = (0..10).map(|n| {
            let (cx, cy) = on_circle((x, y), 34.0, 36.0 * f64::from(n));
            view! { <circle class="solid" cx=cx cy=cy r="4" /> }
        });
        view! {
            <circle class="tyre" cx=x cy=y r=RADIUS />
            <circle class="part" cx=x cy=y r=RADIUS * 0.62 />
            <circle class="line" cx=x cy=y r="18" />
            {studs.collect_view()}
        }
    };
    view! {
        <svg class="pic" viewBox="0 0 640 340" role="img" aria-label=move || name.get()>
            <path class="frame" d="M40 64 H600 V96 H40 Z" />
            {wheel(200.0)}
            {wheel(470.0)}
            <path class="ground" d="M10 300 H630" />
            <path class="ground-thin" d=super::geometry::hatch(10.0, 302.0, 620.0, 20.0, 26.0) />
            <path class="hand" d=wedge(200.0, 1.0) />
            <path class="hand" d=wedge(200.0, -1.0) />
            <path class="arrow" d="M40 250 H66 M56 240 L66 250 L56 260 M360 250 H334 M344 240 L334 250 L344 260" />
        </svg>
    }
}

/// A wedge whose face follows the tread; `way` is +1 to the right of the wheel.
fn wedge(x: f64, way: f64) -> String {
    const LOW: f64 = 17.0;
    const HIGH: f64 = 46.0;
    let centre = (x, GROUND - RADIUS);
    let face = |n: u32| {
        on_circle(
            centre,
            RADIUS + 4.0,
            180.0 - way * (LOW + (HIGH - LOW) * f64::from(n) / 8.0),
        )
    };
    let (top_x, top_y) = face(8);
    let foot = (
        x + way * (RADIUS + 4.0) * LOW.to_radians().sin(),
        GROUND - 2.0,
    );
    let back = [
        (top_x + way * 16.0, top_y),
        (top_x + way * 44.0, GROUND - 2.0),
    ];
    polygon(std::iter::once(foot).chain((0..=8).map(face)).chain(back))
}

/// A ring arrow used by drawings where something turns.
pub(crate) fn turn_arrow(centre: (f64, f64), radius: f64, from: f64, to: f64) -> String {
    let end = on_circle(centre, radius, to);
    let back = if to > from { to - 14.0 } else { to + 14.0 };
    let (outer, inner) = (
        on_circle(centre, radius + 11.0, back),
        on_circle(centre, radius - 11.0, back),
    );
    format!(
        "{}{}",
        arc(centre, radius, from, to),
        super::geometry::polyline([outer, end, inner])
    )
}
