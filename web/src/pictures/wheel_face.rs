//! The face of a wheel: its studs numbered, and the order in which the nuts are taken.

use leptos::prelude::*;

use super::geometry::{on_circle, polyline};

/// Studs and order.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct WheelFace {
    pub(crate) studs: u8,
    /// Stud numbers in the order of tightening. Stud 1 is at the top, then clockwise.
    pub(crate) order: Vec<u8>,
    /// How many of the order are done; the next one is filled.
    pub(crate) done: usize,
}

const CENTRE: (f64, f64) = (250.0, 250.0);
const STUDS_AT: f64 = 176.0;

impl WheelFace {
    fn stud(&self, number: u8) -> (f64, f64) {
        let studs = f64::from(self.studs.max(1));
        on_circle(
            CENTRE,
            STUDS_AT,
            360.0 * f64::from(number.saturating_sub(1)) / studs,
        )
    }
}

/// Studs as numbered circles, the order as a path from the first to the last.
#[component]
pub(crate) fn WheelFacePicture(
    #[prop(into)] wheel: Signal<WheelFace>,
    /// Read aloud in its place.
    #[prop(into)]
    name: Signal<String>,
) -> impl IntoView {
    move || {
        let wheel = wheel.get();
        let hole = if wheel.studs > 6 { 14.0 } else { 22.0 };
        let holes = (0..wheel.studs).map(|n| {
            let degrees = 360.0 * (f64::from(n) + 0.5) / f64::from(wheel.studs.max(1));
            let (cx, cy) = on_circle(CENTRE, 112.0, degrees);
            view! { <circle class="hole" cx=cx cy=cy r=hole /> }
        });
        let next = wheel.order.get(wheel.done).copied();
        let path = polyline(wheel.order.iter().map(|number| wheel.stud(*number)));
        let studs = (1..=wheel.studs).map(|number| {
            let (cx, cy) = wheel.stud(number);
            let taken = wheel
                .order
                .iter()
                .take(wheel.done)
                .any(|done| *done == number);
            let class = match (taken, next == Some(number)) {
                (true, _) => "stud done",
                (false, true) => "stud next",
                (false, false) => "stud",
            };
            view! {
                <g class=class>
                    <circle cx=cx cy=cy r="27" />
                    <text class="stud-number middle" x=cx y=cy + 10.0>{number}</text>
                </g>
            }
        });
        view! {
            <svg class="pic wheel-face" viewBox="0 0 500 500" role="img" aria-label=move || name.get()>
                <circle class="tyre" cx="250" cy="250" r="244" />
                <circle class="part" cx="250" cy="250" r="214" />
                <circle class="body" cx="250" cy="250" r="72" />
                <circle class="line" cx="250" cy="250" r="40" />
                {holes.collect_view()}
                <path class="order" d=path />
                {studs.collect_view()}
            </svg>
        }
    }
}
