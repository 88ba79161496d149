//! A straight scale, enlarged: the marks that lie round a pointer, and the figures at some of them.

use leptos::prelude::*;

use super::engraved;

/// A stretch of a scale in its window.
pub(super) struct Straight {
    /// The left edge of the window, its right edge, and where the marks stand on.
    pub(super) left: f64,
    pub(super) right: f64,
    pub(super) foot: f64,
    /// Whether the marks go up from their foot or down.
    pub(super) upwards: bool,
    /// Millimetres between two marks.
    pub(super) spacing: f64,
    /// A figure at every so many marks, a longer mark at every so many.
    pub(super) figure_every: i64,
    pub(super) longer_every: i64,
}

impl Straight {
    /// Where the mark that is pointed at lies: in the middle, but never the scale's end far inside.
    pub(super) const fn middle(&self) -> f64 {
        f64::midpoint(self.left, self.right)
    }

    /// Marks and figures round `marks`, which lies in the middle. `last` is the scale's end.
    pub(super) fn drawn(&self, marks: f64, last: i64, figure: impl Fn(i64) -> String) -> AnyView {
        let way = if self.upwards { -1.0 } else { 1.0 };
        let shown = (0..=last).filter_map(|n| {
            let x = self.middle() + (super::f64_of(n) - marks) * self.spacing;
            (self.left + 1.0 <= x && x <= self.right - 1.0).then_some((n, x))
        });
        let shown: Vec<(i64, f64)> = shown.collect();
        let lines: Vec<_> = shown
            .iter()
            .map(|(n, x)| {
                let long = if n % self.figure_every == 0 {
                    10.0
                } else if n % self.longer_every == 0 {
                    7.5
                } else {
                    5.0
                };
                let path = format!("M{x:.2} {:.2} v{:.2}", self.foot, long * way);
                view! { <path class="mark" data-mark="" d=path /> }
            })
            .collect();
        let figures: Vec<_> = shown
            .iter()
            .filter(|(n, x)| {
                // A figure at the very edge would be cut.
                n % self.figure_every == 0 && self.left + 8.0 <= *x && *x <= self.right - 8.0
            })
            .map(|(n, x)| {
                let y = self.foot + 11.6 * way;
                let y = if self.upwards { y } else { y + engraved::HIGH };
                engraved::figures(&figure(*n), *x, y)
            })
            .collect();
        view! { <g data-scale="">{lines}{figures}</g> }.into_any()
    }
}

/// The frame of a window.
pub(super) fn window(left: f64, top: f64, right: f64, bottom: f64) -> impl IntoView {
    view! {
        <rect class="window" x=left y=top width=right - left height=bottom - top rx="2.5" />
    }
}
