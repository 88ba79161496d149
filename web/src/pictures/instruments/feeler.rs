//! Feeler leaves in a gap: their thicknesses add up to it. Each leaf has its thickness engraved.

use leptos::prelude::*;

use crate::pictures::geometry::on_circle;

use super::engraved;
use super::straight_scale::window;

/// The leaves of a set, in thousandths of an inch, the thickest first.
const LEAVES: [i64; 14] = [35, 30, 25, 20, 15, 12, 10, 8, 6, 5, 4, 3, 2, 1];
/// How high a leaf is drawn: far thicker than it is, for its figure.
const LEAF: f64 = 8.4;
const FOOT: f64 = 52.0;

pub(super) fn drawn(marks: i64) -> impl IntoView {
    let leaves = picked(marks);
    let fan = (0..6).map(|n| {
        let (x, y) = on_circle((8.0, 46.0), 34.0, 20.0 + 12.0 * f64::from(n));
        view! { <path class="leaf" d=format!("M8 46 L{x:.2} {y:.2}") /> }
    });
    let mut foot = FOOT;
    let drawn: Vec<_> = leaves
        .iter()
        .map(|leaf| {
            let y = foot;
            foot -= LEAF;
            view! {
                <path class="rule" d=format!("M56 {y:.2} V{foot:.2} H116 q3 0 3 {} t-3 {} Z", LEAF / 2.0, LEAF / 2.0) />
                <path class="mark" data-mark="" d=format!("M56 {y:.2} H116") />
                {engraved::figures(&thousandths(*leaf), 86.0, y - (LEAF - engraved::HIGH) / 2.0)}
            }
        })
        .collect();
    view! {
        {fan.collect_view()}
        <circle class="body" cx="8" cy="46" r="4" />
        {window(46.0, 2.0, 122.0, 57.0)}
        <path class="body" d=format!("M46.4 {FOOT} H100 V56.6 H46.4 Z") />
        <path class="body" d=format!("M46.4 2.4 H100 V{foot:.2} H46.4 Z") />
        <g data-scale="">{drawn}</g>
    }
}

/// Leaves that make up so many thousandths, no leaf twice.
fn picked(marks: i64) -> Vec<i64> {
    let mut left = marks;
    let fits = |leaf: &i64| {
        let takes = *leaf <= left;
        left -= if takes { *leaf } else { 0 };
        takes
    };
    LEAVES.iter().copied().filter(fits).collect()
}

fn thousandths(n: i64) -> String {
    format!(".{n:03}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn leaves_add_up_and_fit_in_the_window() {
        for marks in 1..=100 {
            let leaves = picked(marks);
            assert_eq!(leaves.iter().sum::<i64>(), marks, "{leaves:?}");
            assert!(leaves.len() <= 5, "{marks}: {leaves:?}");
        }
    }
}
