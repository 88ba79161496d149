//! A spring brake chamber cut open: the power spring free, or drawn back by the caging bolt.

use leptos::prelude::*;

use super::chocks::turn_arrow;
use super::geometry::coil;

/// Service side right, spring side left; with `caged` the bolt stands out and the spring is short.
#[component]
pub(crate) fn CagingPicture(
    #[prop(into)] caged: Signal<bool>,
    /// Read aloud in its place.
    #[prop(into)]
    name: Signal<String>,
) -> impl IntoView {
    // Where the spring's plate stands, and how far the bolt stands out at the left.
    let plate = move || if caged.get() { 236.0 } else { 316.0 };
    let out = move || if caged.get() { 40.0 } else { 120.0 };
    view! {
        <svg class="pic" viewBox="0 0 700 340" role="img" aria-label=move || name.get()>
            <path class="part" d="M170 70 H330 L350 90 V250 L330 270 H170 Q150 270 150 250 V90 Q150 70 170 70 Z" />
            <path class="part" d="M362 90 L382 70 H470 Q500 70 500 100 V240 Q500 270 470 270 H382 L362 250 Z" />
            <path class="clamp" d="M346 62 H366 V278 H346 Z" />
            <path class="spring" d=move || coil((156.0, 122.0), (plate(), 122.0), 5, 26.0) />
            <path class="spring" d=move || coil((156.0, 218.0), (plate(), 218.0), 5, 26.0) />
            <path class="body" d=move || format!("M{} 88 h12 v164 h-12 Z", plate()) />
            <path class="line" d=move || format!("M{} 170 H640", (plate() + 96.0).max(420.0)) />
            <path class="body" d="M400 92 h10 v156 h-10 Z" />
            <path class="part" d="M590 152 H640 Q662 152 662 170 Q662 188 640 188 H590 Z" />
            <circle class="hole" cx="642" cy="170" r="8" />
            <path class="hand" d=move || format!("M{} 163 H{} V177 H{} Z", out(), plate() - 6.0, out()) />
            <path class="hand" d=move || format!("M{} 146 v48 h-8 v-48 Z", plate() + 2.0) />
            <path class="hand" d="M126 140 h20 v60 h-20 Z M146 132 h6 v76 h-6 Z" />
            <path class="arrow-hand" d=move || caged.get().then(|| turn_arrow((136.0, 170.0), 62.0, 200.0, 340.0)) />
        </svg>
    }
}
