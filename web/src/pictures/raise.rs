//! Where stands and jack belong: under the axle near a spring seat; and four places where they don't.

use leptos::prelude::*;

use crate::words::t;

use super::geometry::{coil, cross};

/// Half of an axle from behind, with one good place and the crossed-out ones.
#[component]
pub(crate) fn RaisePicture(
    /// Read aloud in its place.
    #[prop(into)]
    name: Signal<String>,
) -> impl IntoView {
    let wrong = |at: (f64, f64), words: String, label: (f64, f64)| {
        let (x, y) = label;
        view! {
            <g>
                <path class="leader" d=format!("M{} {} L{x} {}", at.0, at.1, y - 24.0) />
                <circle class="wrong-disc" cx=at.0 cy=at.1 r="22" />
                <path class="cross" d=cross(at, 12.0) />
                <text class="pic-text middle" x=x y=y>{words}</text>
            </g>
        }
    };
    view! {
        <svg class="pic" viewBox="0 0 780 450" role="img" aria-label=move || name.get()>
            <path class="frame" d="M296 6 H376 V44 H296 Z" />
            <path class="line" d=coil((336.0, 46.0), (336.0, 106.0), 4, 34.0) />
            <path class="tyre" d="M640 16 H744 Q756 16 756 30 V310 Q756 324 744 324 H640 Z" />
            <path class="part" d="M588 70 H640 V290 H588 Z" />
            <path class="part" d="M96 222 H588 V240 H96 Z" />
            <path class="body" d="M112 196 H150 V262 H112 Z" />
            <path class="part" d="M40 214 H112 V284 H56 Q40 284 40 268 Z" />
            <path class="part" d="M10 146 H588 V200 H10 Z" />
            <path class="body" d="M278 106 H394 V146 H278 Z" />
            <path class="line" d="M290 96 V246 M304 96 V246 M368 96 V246 M382 96 V246" />
            <path class="body" d="M284 216 H310 V232 H284 Z M362 216 H388 V232 H362 Z" />
            <path class="hand" d="M428 200 H500 V218 H480 V300 H506 L522 346 H406 L422 300 H448 V218 H428 Z" />
            <path class="arrow-hand" d="M464 396 V364 M452 376 L464 362 L476 376" />
            <path class="ground" d="M380 348 H548" />
            <text class="pic-text middle" x="464" y="428">{t("ui.raise.here")}</text>
            {wrong((297.0, 240.0), t("ui.raise.bolts"), (286.0, 372.0))}
            {wrong((560.0, 231.0), t("ui.raise.tube"), (652.0, 386.0))}
            {wrong((131.0, 262.0), t("ui.raise.bracket"), (122.0, 330.0))}
        </svg>
    }
}
