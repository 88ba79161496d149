//! A brake drum where it is measured: four diameters across, at two depths.

use leptos::prelude::*;

use crate::words::t;

use super::geometry::on_circle;

/// How deep in the drum.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Depth {
    /// Near the open side.
    Front,
    /// Near the back.
    Rear,
}

/// One diameter: how deep, and which of the four.
pub(crate) type Measured = (Depth, u8);

const FACE: (f64, f64) = (178.0, 186.0);
const BORE: f64 = 118.0;
/// Four diameters, an eighth of a turn apart.
const PLACES: u8 = 4;

/// The open side with the four diameters, and the drum cut through with the two depths.
#[component]
pub(crate) fn DrumPicture(
    /// The one to read now; none draws them all alike.
    now: Option<Measured>,
    /// Read aloud in its place.
    #[prop(into)]
    name: Signal<String>,
) -> impl IntoView {
    let class = |is_now: bool| if is_now { "arrow-hand" } else { "line-thin" };
    let across = (1..=PLACES).map(|place| {
        let turn = 45.0 * f64::from(place - 1);
        let (x1, y1) = on_circle(FACE, BORE, turn);
        let (x2, y2) = on_circle(FACE, BORE, turn + 180.0);
        let (x, y) = on_circle(FACE, BORE + 32.0, turn);
        view! {
            <path class=class(now.is_some_and(|(_, at)| at == place)) d=format!("M{x1:.1} {y1:.1} L{x2:.1} {y2:.1}") />
            <text class="pic-text middle" x=x y=y + 12.0>{place}</text>
        }
    });
    let depth = |of: Depth, x: f64, words: String| {
        view! {
            <path class=class(now.is_some_and(|(depth, _)| depth == of)) d=format!("M{x} 92 V280") />
            <text class="pic-text middle" x=x y="352">{words}</text>
        }
    };
    view! {
        <svg class="pic" viewBox="0 0 640 372" role="img" aria-label=move || name.get()>
            <circle class="part" cx=FACE.0 cy=FACE.1 r=BORE + 14.0 />
            <circle class="body" cx=FACE.0 cy=FACE.1 r=BORE />
            {across.collect_view()}
            <path class="part" d="M400 68 H590 V304 H400 V280 H566 V92 H400 Z" />
            {depth(Depth::Front, 430.0, t("ui.drum.front"))}
            {depth(Depth::Rear, 540.0, t("ui.drum.rear"))}
        </svg>
    }
}
