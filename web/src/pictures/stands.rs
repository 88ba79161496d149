//! An axle on two stands from behind, with what is on their tags.

use leptos::prelude::*;

use super::geometry::hatch;

/// The two stands.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct StandsDrawn {
    /// What the tags say, left then right: a figure and what it counts for. Empty where none is known.
    pub(crate) tags: [String; 2],
    /// Whether each pin is in.
    pub(crate) pinned: [bool; 2],
}

/// Axle, stands, pins and tags.
#[component]
pub(crate) fn StandsPicture(
    #[prop(into)] stands: Signal<StandsDrawn>,
    /// Read aloud in its place.
    #[prop(into)]
    name: Signal<String>,
) -> impl IntoView {
    let stand = move |at: usize, x: f64| {
        let tag = move || stands.with(|stands| stands.tags.get(at).cloned().unwrap_or_default());
        let pinned =
            move || stands.with(|stands| stands.pinned.get(at).copied().unwrap_or_default());
        view! {
            <g>
                <path class="part" d=format!("M{} 168 h52 v14 h-12 v90 h-28 v-90 h-12 Z", x - 26.0) />
                <path class="line" d=format!("M{} 168 v-12 M{} 168 v-12", x - 26.0, x + 26.0) />
                <path class="part" d=format!("M{} 214 h36 l42 84 h-120 Z", x - 18.0) />
                <path class="line-thin" d=format!("M{} 256 h78", x - 39.0) />
                <circle class="hole" cx=x cy="200" r="4" />
                <g class="hand" class:gone=move || !pinned()>
                    <path d=format!("M{} 226 h76 v8 h-76 Z", x - 40.0) />
                    <circle cx=x + 46.0 cy="230" r="9" />
                </g>
                <rect class="tag" x=x - 98.0 y="306" width="196" height="42" rx="6" />
                <text class="pic-text middle" x=x y="338">{tag}</text>
            </g>
        }
    };
    view! {
        <svg class="pic" viewBox="0 0 640 360" role="img" aria-label=move || name.get()>
            <rect class="tyre" x="16" y="20" width="56" height="190" rx="16" />
            <rect class="tyre" x="568" y="20" width="56" height="190" rx="16" />
            <path class="part" d="M72 100 H250 Q320 40 390 100 H568 V140 H390 Q320 176 250 140 H72 Z" />
            <path class="body" d="M176 76 H236 V156 H176 Z M404 76 H464 V156 H404 Z" />
            <path class="ground" d="M10 298 H630" />
            <path class="ground-thin" d=hatch(10.0, 300.0, 130.0, 12.0, 22.0) />
            {stand(0, 206.0)}
            {stand(1, 434.0)}
        </svg>
    }
}
