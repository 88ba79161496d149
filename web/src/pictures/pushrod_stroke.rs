//! A chamber's pushrod beside a rule: where the mark stood, where it stands, and where the limit is.
//!
//! It places what it is given on the rule and compares nothing.

use leptos::prelude::*;

/// What is on the rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum RuleMarks {
    /// Three inches in eighths.
    Inches,
    /// 75 mm in fives.
    Millimetres,
}

/// Places along the rule, in its own unit from the chamber's face.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct StrokeDrawn {
    pub(crate) marks: RuleMarks,
    /// Where the mark stands with the brake on; `None` draws it released.
    pub(crate) applied: Option<f64>,
    /// The limit line, if one applies.
    pub(crate) limit: Option<f64>,
}

const FACE: f64 = 230.0;
const LONG: f64 = 390.0;

/// Chamber, rod, clevis, rule.
#[component]
pub(crate) fn PushrodStrokePicture(
    #[prop(into)] stroke: Signal<StrokeDrawn>,
    /// Read aloud in its place.
    #[prop(into)]
    name: Signal<String>,
) -> impl IntoView {
    move || {
        let stroke = stroke.get();
        let (count, per, whole) = match stroke.marks {
            RuleMarks::Inches => (24_u32, 8_u32, 3.0),
            RuleMarks::Millimetres => (15, 2, 75.0),
        };
        let at = |value: f64| FACE + LONG * (value / whole).clamp(0.0, 1.06);
        let mark = |n: u32| {
            let x = FACE + LONG * f64::from(n) / f64::from(count);
            let long = if n.is_multiple_of(per) {
                34.0
            } else if n.is_multiple_of(per / 2) {
                24.0
            } else {
                15.0
            };
            format!("M{x:.1} 250 v{long}")
        };
        let figures = (0..=count).filter(|n| n.is_multiple_of(per)).map(|n| {
            let x = FACE + LONG * f64::from(n) / f64::from(count);
            let figure = match stroke.marks {
                RuleMarks::Inches => n / per,
                RuleMarks::Millimetres => n * 5,
            };
            view! { <text class="pic-text middle" x=x y="312">{figure}</text> }
        });
        let moved = at(stroke.applied.unwrap_or(0.0)) - FACE;
        let limit = stroke.limit.map(|limit| {
            let x = at(limit);
            view! {
                <path class="limit-line" d=format!("M{x} 96 V290") />
                <path class="limit-flag" d=format!("M{x} 96 l-12 -18 h24 Z") />
            }
        });
        let marks: String = (0..=count).map(mark).collect();
        let ghost = stroke
            .applied
            .map(|_| view! { <path class="ghost" d="M230 142 V246" /> });
        let end = 420.0 + moved * 0.5;
        view! {
            <svg class="pic" viewBox="0 0 700 340" role="img" aria-label=move || name.get()>
                <path class="part" d="M60 70 H190 Q230 70 230 110 V230 Q230 262 190 262 H60 Q30 262 30 230 V102 Q30 70 60 70 Z" />
                <path class="clamp" d="M112 58 h16 v216 h-16 Z" />
                <path class="part" d=format!("M230 156 H{end} V182 H230 Z") />
                <path class="body" d=format!("M{end} 138 h66 q26 0 26 31 t-26 31 h-66 Z") />
                <circle class="hole" cx=end + 64.0 cy="169" r="11" />
                {ghost}
                <path class="rod-mark" d=format!("M{} 146 V246", FACE + moved) />
                <rect class="rule" x="222" y="250" width="424" height="74" rx="4" />
                <path class="line-thin" d=marks />
                {figures.collect_view()}
                {limit}
            </svg>
        }
    }
}
