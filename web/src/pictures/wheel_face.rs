//! The face of a wheel: its studs numbered, the order in which the nuts are taken, how far it is.

use leptos::prelude::*;

use super::geometry::{arc, on_circle, polyline};

/// Studs and order.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct WheelFace {
    pub(crate) studs: u8,
    /// Stud numbers in the order of tightening. Stud 1 is at the top, then clockwise. Empty where
    /// only the numbers matter.
    pub(crate) order: Vec<u8>,
    /// The nuts that are done in this pass.
    pub(crate) done: Vec<u8>,
}

const CENTRE: (f64, f64) = (250.0, 250.0);
const STUDS_AT: f64 = 176.0;
const STUD: f64 = 31.0;

impl WheelFace {
    fn stud(&self, number: u8) -> (f64, f64) {
        let studs = f64::from(self.studs.max(1));
        on_circle(
            CENTRE,
            STUDS_AT,
            360.0 * f64::from(number.saturating_sub(1)) / studs,
        )
    }

    /// The first nut of the order that is not done.
    pub(crate) fn next(&self) -> Option<u8> {
        self.order
            .iter()
            .copied()
            .find(|nut| !self.done.contains(nut))
    }

    /// The way that was gone and the way that is left; both hold the nut where they meet.
    fn ways(&self) -> (&[u8], &[u8]) {
        let gone = self
            .order
            .iter()
            .position(|nut| !self.done.contains(nut))
            .unwrap_or(self.order.len());
        let (before, _) = self.order.split_at(gone);
        let (_, after) = self.order.split_at(gone.saturating_sub(1));
        (before, after)
    }

    fn path(&self, nuts: &[u8]) -> String {
        polyline(nuts.iter().map(|number| self.stud(*number)))
    }
}

/// Studs as numbered circles, the order as a path: drawn through as far as it was gone, broken
/// where it still leads.
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
        let next = wheel.next();
        let (gone, left) = wheel.ways();
        let (gone, left) = (wheel.path(gone), wheel.path(left));
        let studs = (1..=wheel.studs).map(|number| {
            let (cx, cy) = wheel.stud(number);
            let class = match (wheel.done.contains(&number), next == Some(number)) {
                (true, _) => "stud done",
                (false, true) => "stud next",
                (false, false) => "stud",
            };
            let ring = (next == Some(number))
                .then(|| view! { <circle class="next-ring" cx=cx cy=cy r=STUD + 10.0 /> });
            view! {
                <g class=class>
                    {ring}
                    <circle class="nut-disc" cx=cx cy=cy r=STUD />
                    <text class="stud-number middle" x=cx y=cy + 12.0>{number}</text>
                </g>
            }
        });
        // From the pilot above nut 1 the count goes clockwise.
        let way = arc(CENTRE, 229.0, 6.0, 34.0);
        let tip = on_circle(CENTRE, 229.0, 36.0);
        let barbs = [
            on_circle(CENTRE, 239.0, 31.0),
            on_circle(CENTRE, 219.0, 31.0),
        ];
        let [outer, inner] = barbs;
        view! {
            <svg class="pic wheel-face" viewBox="0 0 500 500" role="img" aria-label=move || name.get()>
                <circle class="tyre" cx="250" cy="250" r="246" />
                <circle class="part" cx="250" cy="250" r="216" />
                <circle class="body" cx="250" cy="250" r="72" />
                <circle class="line" cx="250" cy="250" r="40" />
                <path class="solid" d="M238 178 h24 v18 h-24 Z" />
                {holes.collect_view()}
                <path class="count-way" d=way />
                <path class="count-way" d=polyline([outer, tip, inner]) />
                <path class="count-way" d="M250 14 V42" />
                <path class="order to-come" d=left />
                <path class="order" d=gone />
                {studs.collect_view()}
            </svg>
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ten(done: &[u8]) -> WheelFace {
        WheelFace {
            studs: 10,
            order: vec![1, 6, 3, 8, 5, 10, 7, 2, 9, 4],
            done: done.to_vec(),
        }
    }

    #[test]
    fn numbers_go_clockwise_from_the_top() {
        let (x, y) = ten(&[]).stud(1);
        assert!((x - 250.0).abs() < 1e-9 && (y - 74.0).abs() < 1e-9);
        assert!(ten(&[]).stud(2).0 > 250.0, "2 is to the right of the top");
        let (x, y) = ten(&[]).stud(6);
        assert!(
            (x - 250.0).abs() < 1e-9 && (y - 426.0).abs() < 1e-9,
            "6 lies across"
        );
    }

    #[test]
    fn the_next_nut_is_the_first_of_the_order_that_is_not_done() {
        assert_eq!(ten(&[]).next(), Some(1));
        assert_eq!(ten(&[1, 6]).next(), Some(3));
        assert_eq!(
            ten(&[6, 3]).next(),
            Some(1),
            "a nut that was left out comes first"
        );
        assert_eq!(ten(&[1, 2, 3, 4, 5, 6, 7, 8, 9, 10]).next(), None);
        assert_eq!(
            WheelFace {
                order: Vec::new(),
                ..ten(&[])
            }
            .next(),
            None
        );
    }

    #[test]
    fn the_way_gone_and_the_way_left_meet_at_the_last_nut_done() {
        assert_eq!(
            ten(&[1, 6, 3]).ways(),
            (&[1, 6, 3][..], &[3, 8, 5, 10, 7, 2, 9, 4][..])
        );
        assert_eq!(ten(&[]).ways().0, &[] as &[u8]);
        assert_eq!(ten(&[]).ways().1.len(), 10);
        let all = ten(&[1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
        assert_eq!((all.ways().0.len(), all.ways().1), (10, &[4][..]));
    }
}
