//! An S-cam brake from the front: drum, two shoes, cam, rollers, springs, anchor pins.

use leptos::prelude::*;

use super::geometry::{arc, coil, on_circle, polygon};

/// The part that a step is about.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum ShoePart {
    #[default]
    Nothing,
    Drum,
    Lining,
    Cam,
    Rollers,
    Springs,
    Anchors,
}

const CENTRE: (f64, f64) = (250.0, 250.0);

/// The brake, one part of it filled.
#[component]
pub(crate) fn ShoesPicture(
    #[prop(into)] part: Signal<ShoePart>,
    /// Read aloud in its place.
    #[prop(into)]
    name: Signal<String>,
) -> impl IntoView {
    let in_hand = move |of: ShoePart| move || part.get() == of;
    let lining = |from: f64, to: f64| {
        let ring = (0..=20)
            .map(move |n| on_circle(CENTRE, 196.0, from + (to - from) * f64::from(n) / 20.0));
        let back =
            (0..=20).map(move |n| on_circle(CENTRE, 172.0, to + (from - to) * f64::from(n) / 20.0));
        polygon(ring.chain(back))
    };
    let linings =
        [(22.0, 84.0), (92.0, 152.0), (208.0, 268.0), (276.0, 338.0)].map(|(from, to)| {
            view! { <path d=lining(from, to) /> }
        });
    let tables = [(16.0, 158.0), (202.0, 344.0)]
        .map(|(from, to)| view! { <path class="table" d=arc(CENTRE, 164.0, from, to) /> });
    let webs = [(22.0, 156.0), (204.0, 338.0)]
        .map(|(from, to)| view! { <path class="web" d=arc(CENTRE, 136.0, from, to) /> });
    view! {
        <svg class="pic shoes" viewBox="0 0 500 500" role="img" aria-label=move || name.get()>
            <g class="drum" class:hand=in_hand(ShoePart::Drum)>
                <circle class="drum-ring" cx="250" cy="250" r="220" />
                <circle class="line" cx="250" cy="250" r="242" />
                <circle class="line" cx="250" cy="250" r="200" />
            </g>
            {webs.collect_view()}
            {tables.collect_view()}
            <g class="part" class:hand=in_hand(ShoePart::Lining)>{linings.collect_view()}</g>
            <g class="spring" class:hand=in_hand(ShoePart::Springs)>
                <path d=coil((168.0, 176.0), (332.0, 176.0), 8, 12.0) />
                <path d=coil((192.0, 330.0), (308.0, 330.0), 6, 9.0) />
            </g>
            <g class="part" class:hand=in_hand(ShoePart::Cam)>
                <path d=cam() />
                <circle cx="250" cy="126" r="12" />
            </g>
            <g class="part" class:hand=in_hand(ShoePart::Rollers)>
                <circle cx="197" cy="126" r="20" />
                <circle cx="303" cy="126" r="20" />
            </g>
            <g class="part" class:hand=in_hand(ShoePart::Anchors)>
                <circle cx="206" cy="386" r="17" />
                <circle cx="294" cy="386" r="17" />
            </g>
            <circle class="line" cx="250" cy="250" r="62" />
            <circle class="line-thin" cx="250" cy="250" r="44" />
        </svg>
    }
}

/// Two spirals back to back, half a turn apart: the S.
fn cam() -> String {
    let lobe = |half: f64| {
        (0..=24).map(move |n| {
            let part = f64::from(n) / 24.0;
            on_circle(
                (250.0, 126.0),
                13.0 + 24.0 * part,
                half + 20.0 + 150.0 * part,
            )
        })
    };
    polygon(lobe(0.0).chain(lobe(180.0)))
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_cam_is_the_same_upside_down() {
        let figures: Vec<f64> = super::cam()
            .split(['M', 'L', ' ', 'Z'])
            .filter_map(|figure| figure.parse().ok())
            .collect();
        let points: Vec<(f64, f64)> = figures.chunks(2).map(|pair| (pair[0], pair[1])).collect();
        for (one, other) in points[..25].iter().zip(&points[25..]) {
            assert!((one.0 + other.0 - 500.0).abs() < 0.2 && (one.1 + other.1 - 252.0).abs() < 0.2);
        }
    }
}
