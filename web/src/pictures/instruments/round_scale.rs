//! A round scale: marks on a circle and figures beside them, all of it or what lies round a pointer.

use leptos::prelude::*;

use crate::pictures::geometry::on_circle;

use super::{engraved, f64_of};

/// A round scale, or a part of one.
pub(super) struct Round {
    pub(super) centre: (f64, f64),
    /// Where the marks begin; they go inwards.
    pub(super) radius: f64,
    /// On which circle the middles of the figures lie.
    pub(super) figures_at: f64,
    /// Degrees from one mark to the next.
    pub(super) degrees: f64,
    /// Where mark 0 lies, clockwise from the top.
    pub(super) start: f64,
    pub(super) figure_every: i64,
    pub(super) longer_every: i64,
}

impl Round {
    /// What lies round a pointer that stands at `marks`, enlarged so that the pointer stands upright.
    pub(super) fn near(marks: f64, degrees: f64, figure_every: i64, longer_every: i64) -> Self {
        Self {
            centre: (92.0, 60.0),
            radius: 46.0,
            figures_at: 49.8,
            degrees,
            start: -marks * degrees,
            figure_every,
            longer_every,
        }
    }

    /// Where a mark lies, clockwise from the top.
    fn at(&self, marks: f64) -> f64 {
        self.start + marks * self.degrees
    }

    /// The marks from one to another and their figures.
    pub(super) fn drawn(&self, from: i64, to: i64, figure: impl Fn(i64) -> String) -> AnyView {
        let lines: Vec<_> = (from..=to)
            .map(|n| {
                let long = if n % self.figure_every == 0 {
                    5.0
                } else if n % self.longer_every == 0 {
                    4.0
                } else {
                    2.8
                };
                let turn = self.at(f64_of(n));
                let (x, y) = on_circle(self.centre, self.radius, turn);
                let (u, v) = on_circle(self.centre, self.radius - long, turn);
                let path = format!("M{x:.2} {y:.2} L{u:.2} {v:.2}");
                view! { <path class="mark" data-mark="" d=path /> }
            })
            .collect();
        let figures: Vec<_> = (from..=to)
            .filter(|n| n % self.figure_every == 0)
            .map(|n| {
                let (x, y) = on_circle(self.centre, self.figures_at, self.at(f64_of(n)));
                engraved::figures(&figure(n), x, y + engraved::HIGH / 2.0)
            })
            .collect();
        view! { <g data-scale="">{lines}{figures}</g> }.into_any()
    }

    /// The needle from one radius to another.
    pub(super) fn needle(&self, marks: f64, from: f64, to: f64) -> impl IntoView + use<> {
        let (x, y) = on_circle(self.centre, to, self.at(marks));
        let (u, v) = on_circle(self.centre, from, self.at(marks));
        view! { <path class="pointer" d=format!("M{u:.2} {v:.2} L{x:.2} {y:.2}") /> }
    }
}

/// The marks of a small round scale that shows where the needle stands and isn't read: so many over
/// so many degrees.
pub(super) fn small(centre: (f64, f64), radius: f64, count: u32, from: f64, to: f64) -> String {
    (0..=count)
        .map(|n| {
            let turn = from + (to - from) * f64::from(n) / f64::from(count.max(1));
            let (x, y) = on_circle(centre, radius, turn);
            let (u, v) = on_circle(centre, radius * 0.84, turn);
            format!("M{x:.2} {y:.2} L{u:.2} {v:.2} ")
        })
        .collect()
}
