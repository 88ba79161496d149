//! A verdict as a bar against its limit line: short of it, touching it, across it; with the words beside.
//!
//! It draws what it is told. The tone decides where the bar ends, so a drawing can't contradict its word.

use leptos::prelude::*;

use crate::pictures::geometry::hatch;
use crate::words::t;

/// What kind of mark a verdict gets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Tone {
    Within,
    AtTheLimit,
    Beyond,
    /// Judged, but nothing could be read.
    NoReading,
    /// Judged by eye: stays.
    Sound,
    /// Judged by eye: goes.
    Replace,
    /// Written down without a limit: no bar.
    Kept,
}

impl Tone {
    /// Class of the style sheet.
    pub(crate) fn class(self) -> &'static str {
        match self {
            Self::Within => "within",
            Self::AtTheLimit => "at-the-limit",
            Self::Beyond => "beyond",
            Self::NoReading => "no-reading",
            Self::Sound => "sound",
            Self::Replace => "replace",
            Self::Kept => "kept",
        }
    }
}

/// A verdict in words, and how much of the way to the limit is used up.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct LimitBarShown {
    pub(crate) tone: Tone,
    /// The verdict's word.
    pub(crate) word: String,
    /// The reading as typed, with its unit; empty when judged by eye.
    pub(crate) reading: String,
    /// The limit that decides, then others printed beside it.
    pub(crate) limits: Vec<String>,
    /// Room left or missing.
    pub(crate) room: Option<String>,
    /// Where the limit is published.
    pub(crate) source: String,
    /// Remarks, one line each.
    pub(crate) remarks: Vec<String>,
    /// Share of the way to the limit: 1 is on it. For a least value the caller turns it round.
    pub(crate) used: f64,
}

/// Bar, word, reading, limits, room, source.
#[component]
pub(crate) fn LimitBar(
    /// `None` until the value is complete.
    #[prop(into)]
    shown: Signal<Option<LimitBarShown>>,
) -> impl IntoView {
    move || {
        shown.get().map(|shown| {
            let name = if shown.tone == Tone::Kept { t("ui.bar.kept") } else { shown.word };
            view! {
                <figure class=format!("limit-bar {}", shown.tone.class()) data-testid="limit-bar">
                    {bar(shown.tone, shown.used)}
                    <figcaption>
                        <p class="limit-bar-head">
                            <strong>{name}</strong>
                            <span class="limit-bar-reading">{shown.reading}</span>
                            <span>{shown.room}</span>
                        </p>
                        {shown.limits.into_iter().map(|limit| view! { <p>{limit}</p> }).collect_view()}
                        {shown.remarks.into_iter().map(|remark| view! { <p>{remark}</p> }).collect_view()}
                        <p class="limit-bar-source">{shown.source}</p>
                    </figcaption>
                </figure>
            }
        })
    }
}

const WIDTH: f64 = 600.0;
const TOP: f64 = 12.0;
const HEIGHT: f64 = 36.0;
const LIMIT_X: f64 = 450.0;
/// A bar that is short of its line keeps at least this much air before it, and one across it shows at least this much.
const AIR: f64 = 12.0;

/// The bar alone: `None` for what has none.
pub(crate) fn bar(tone: Tone, used: f64) -> Option<impl IntoView> {
    let used = if used.is_finite() { used.max(0.0) } else { 0.0 };
    let end = match tone {
        Tone::Within => (used * LIMIT_X).clamp(6.0, LIMIT_X - AIR),
        Tone::AtTheLimit => LIMIT_X,
        Tone::Beyond => (used * LIMIT_X).clamp(LIMIT_X + AIR, WIDTH),
        Tone::NoReading => 0.0,
        Tone::Sound | Tone::Replace | Tone::Kept => return None,
    };
    let before = end.min(LIMIT_X);
    let stripes = (tone == Tone::AtTheLimit).then(|| {
        view! { <path class="bar-stripes" d=hatch(0.0, TOP, before, HEIGHT, 14.0) /> }
    });
    let over = (tone == Tone::Beyond).then(|| {
        view! {
            <g>
                <rect class="bar-over" x=LIMIT_X y=TOP - 8.0 width=end - LIMIT_X height=HEIGHT + 16.0 />
                <path class="bar-cross" d=hatch(LIMIT_X, TOP - 8.0, end - LIMIT_X, HEIGHT + 16.0, 20.0) />
            </g>
        }
    });
    Some(view! {
        <svg class="bar" viewBox="0 0 600 60" aria-hidden="true">
            <rect class="bar-track" x="0" y=TOP width=WIDTH height=HEIGHT />
            <rect class="bar-fill" x="0" y=TOP width=before height=HEIGHT />
            {stripes}
            {over}
            <path class="bar-limit" d=format!("M{LIMIT_X} 0 V60") />
        </svg>
    })
}
