//! A plate between the jack's head and the axle housing, so that the load isn't on one small spot.

use leptos::prelude::*;

use crate::words::t;

use super::geometry::hatch;

/// Housing, plate, head, ram.
#[component]
pub(crate) fn JackPicture(
    /// Read aloud in its place.
    #[prop(into)]
    name: Signal<String>,
) -> impl IntoView {
    let label = |y: f64, from: f64, words: String| {
        view! {
            <g>
                <path class="leader" d=format!("M{from} {} H452", y - 8.0) />
                <text class="pic-text" x="460" y=y>{words}</text>
            </g>
        }
    };
    let down = |x: f64| format!("M{x} 96 V132 M{} 120 L{x} 134 L{} 120", x - 9.0, x + 9.0);
    view! {
        <svg class="pic" viewBox="0 0 700 380" role="img" aria-label=move || name.get()>
            <path class="part" d="M60 30 H400 V84 Q400 150 340 150 H120 Q60 150 60 84 Z" />
            <path class="line-thin" d=hatch(72.0, 34.0, 316.0, 40.0, 24.0) />
            <rect class="hand" x="130" y="150" width="200" height="24" rx="3" />
            <path class="body" d="M190 176 H270 L262 206 H198 Z" />
            <path class="part" d="M212 206 H248 V262 H212 Z" />
            <path class="body" d="M176 262 H284 V330 H176 Z" />
            <path class="body" d="M140 330 H320 V348 H140 Z" />
            <path class="ground" d="M20 350 H440" />
            <path class="arrow" d=down(160.0) />
            <path class="arrow" d=down(230.0) />
            <path class="arrow" d=down(300.0) />
            {label(70.0, 400.0, t("ui.jack.housing"))}
            {label(172.0, 330.0, t("ui.jack.plate"))}
            {label(214.0, 264.0, t("ui.jack.head"))}
        </svg>
    }
}
