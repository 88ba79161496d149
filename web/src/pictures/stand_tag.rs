//! A stand with its tag: what is read, and where, as the pages of its entry ask for it.
//!
//! Where a tag sits and how it is laid out differs by maker; what stands on it is drawn.

use leptos::prelude::*;

use crate::words::t;

/// What is being read now.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum TagPart {
    Unit,
    Figure,
    Basis,
    Condition,
}

/// Tag and stand, the part in question filled.
#[component]
pub(crate) fn StandTagPicture(
    #[prop(into)] part: Signal<TagPart>,
    /// Read aloud in its place.
    #[prop(into)]
    name: Signal<String>,
) -> impl IntoView {
    let row = move |of: TagPart, y: f64, words: &'static str| {
        view! {
            <g class="tag-row" class:asked=move || part.get() == of>
                <rect x="226" y=y width="336" height="56" rx="6" />
                <text class="pic-text middle" x="394" y=y + 40.0>{t(words)}</text>
            </g>
        }
    };
    view! {
        <svg class="pic stand-tag" viewBox="0 0 600 300" role="img" aria-label=move || name.get()>
            <path class="part" d="M72 50 h72 v16 h-18 v84 h-36 v-84 h-18 Z" />
            <path class="line" d="M72 50 v-16 M144 50 v-16" />
            <path class="part" d="M84 130 h48 l56 140 h-160 Z" />
            <path class="line-thin" d="M60 204 h96" />
            <circle class="hole" cx="108" cy="100" r="5" />
            <g class="tag-row" class:asked=move || part.get() == TagPart::Condition>
                <path d="M58 148 h102 v11 h-102 Z" />
                <circle cx="172" cy="153" r="12" />
            </g>
            <text class="pic-text" x="0" y="140">{t("ui.tag.pin")}</text>
            <path class="ground" d="M10 272 H206" />
            <path class="leader" d="M128 226 L206 190" />
            <rect class="tag" x="206" y="34" width="376" height="232" rx="12" />
            <circle class="hole" cx="222" cy="50" r="5" />
            <circle class="hole" cx="566" cy="50" r="5" />
            {row(TagPart::Figure, 60.0, "ui.tag.figure")}
            {row(TagPart::Unit, 126.0, "ui.tag.unit")}
            {row(TagPart::Basis, 192.0, "ui.tag.basis")}
        </svg>
    }
}
