//! A figure that stands on a thing itself: riveted on as a plate, or cast into a drum's rim.

use leptos::prelude::*;

/// How a figure stands on a thing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum StandsOn {
    /// A riveted plate.
    Plate,
    /// Raised letters on a piece of a drum.
    Drum,
}

/// The figure, large, with a word over it.
#[component]
pub(crate) fn FigureOnIt(
    on: StandsOn,
    /// What it is the figure of, as it stands there.
    word: String,
    figure: String,
    /// Read aloud in its place.
    name: String,
) -> impl IntoView {
    let ground = match on {
        StandsOn::Plate => view! {
            <rect class="rule" x="12" y="8" width="100" height="42" rx="3" />
            {[(16.0, 12.0), (108.0, 12.0), (16.0, 46.0), (108.0, 46.0)]
                .map(|(x, y)| view! { <circle class="hole" cx=x cy=y r="1.4" /> })
                .into_iter()
                .collect_view()}
        }
        .into_any(),
        StandsOn::Drum => view! {
            <path class="part" d="M2 20 Q62 -6 122 20 L116 56 Q62 34 8 56 Z" />
            <path class="fine" d="M4 26 Q62 1 120 26" />
        }
        .into_any(),
    };
    let (over, under) = match on {
        StandsOn::Plate => (22.0, 40.0),
        StandsOn::Drum => (22.0, 38.0),
    };
    view! {
        <svg class="pic instrument" viewBox="0 0 124 58" role="img" aria-label=name data-testid="seen-figure">
            {ground}
            <text class="middle" x="62" y=over>{word}</text>
            <text class="middle cast" x="62" y=under>{figure}</text>
        </svg>
    }
}
