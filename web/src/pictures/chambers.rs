//! Brake chambers: how the families look from the side, and the signs of a long stroke.
//!
//! The signs are those of published sheets: round ports for standard, square ports or port bosses
//! and a trapezoid tag on a clamp bolt for long stroke (Haldex S-ABA, note on p. 7 and question 7;
//! ICBC, Driving Commercial Vehicles, p. 144); a square, half an inch high, on the pressure cap and
//! words about the 3-inch diaphragm for the 3-inch stroke (Truck News 2005, on mixing chambers). No
//! sign that can be read means standard. The families are those of 49 CFR 393.47(e)(1); their
//! outlines are COMMON PRACTICE and not to scale.

use leptos::prelude::*;

use crate::words::t;

use super::geometry::polygon;

/// The fact of a chamber that is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum ChamberAsk {
    Family,
    /// Its number or letter.
    Mark,
    Class,
}

/// The drawing for one fact of a chamber.
#[component]
pub(crate) fn ChamberPicture(
    ask: ChamberAsk,
    /// Read aloud in its place.
    #[prop(into)]
    name: Signal<String>,
) -> impl IntoView {
    let drawn = match ask {
        ChamberAsk::Family => families().into_any(),
        ChamberAsk::Mark => mark().into_any(),
        ChamberAsk::Class => classes().into_any(),
    };
    view! {
        <svg class="pic chambers" viewBox="0 0 720 520" role="img" aria-label=move || name.get()>
            {drawn}
        </svg>
    }
}

/// Both halves of a chamber that a ring or a flange holds together; the rod points down.
fn halves(x: f64, y: f64) -> impl IntoView {
    let cap = format!("M{} {} q0 -62 40 -70 h100 q40 8 40 70 Z", x - 90.0, y);
    let body = format!("M{} {} q0 62 44 70 h92 q44 -8 44 -70 Z", x - 90.0, y);
    let rod = format!("M{} {} h16 v30 h-16 Z", x - 8.0, y + 70.0);
    view! {
        <path class="part" d=cap />
        <path class="part" d=body />
        <path class="body" d=rod />
    }
}

fn clamp_ring(x: f64, y: f64) -> impl IntoView {
    view! {
        <rect class="clamp" x=x - 104.0 y=y - 12.0 width="208" height="24" rx="8" />
        <path class="solid" d=format!("M{} {} h30 v14 h-30 Z", x + 84.0, y - 7.0) />
    }
}

fn words(x: f64, y: f64, key: &str) -> impl IntoView + use<> {
    view! { <text class="pic-text middle" x=x y=y>{t(key)}</text> }
}

fn families() -> impl IntoView {
    let bolts = [-104.0, -52.0, 0.0, 52.0, 104.0].map(|off| {
        let x = 540.0 + off;
        view! { <path class="solid" d=format!("M{} 88 h14 v44 h-14 Z", x - 7.0) /> }
    });
    let lines = [-52.0, 0.0, 52.0].map(|off| {
        let x = 540.0 + off;
        view! { <path class="air-line" d=format!("M{x} 298 V266") /> }
    });
    view! {
        {halves(180.0, 110.0)}
        {clamp_ring(180.0, 110.0)}
        {words(180.0, 254.0, "ui.chamber.clamp")}
        {halves(540.0, 110.0)}
        <path class="clamp" d="M420 98 h240 v24 h-240 Z" />
        {bolts.collect_view()}
        {words(540.0, 254.0, "ui.chamber.bolted")}
        <path class="part" d="M110 300 q0 -24 26 -28 h88 q26 4 26 28 v112 h-140 Z" />
        <path class="part" d="M110 412 h140 v22 q0 16 -22 18 h-96 q-22 -2 -22 -18 Z" />
        <path class="body" d="M172 452 h16 v24 h-16 Z" />
        <path class="rolled" d="M124 300 V366 q0 18 14 18 t14 -18 V340 h56 V366 q0 18 14 18 t14 -18 V300" />
        {words(180.0, 512.0, "ui.chamber.roto")}
        {lines.collect_view()}
        <path class="part" d="M450 384 q0 -74 40 -84 h100 q40 10 40 84 Z" />
        <path class="part" d="M450 384 q0 50 44 60 h92 q44 -10 44 -60 Z" />
        <rect class="clamp" x="436" y="372" width="208" height="24" rx="8" />
        <path class="body" d="M512 444 h56 v20 h-56 Z M532 464 h16 v14 h-16 Z" />
        <circle class="solid" cx="522" cy="454" r="6" />
        <circle class="solid" cx="558" cy="454" r="6" />
        {words(540.0, 512.0, "ui.chamber.dd3")}
    }
}

fn mark() -> impl IntoView {
    view! {
        <g class="large-chamber" transform="translate(-180 -16) scale(2)">
            {halves(270.0, 120.0)}
            {clamp_ring(270.0, 120.0)}
        </g>
        <rect class="tag" x="262" y="92" width="196" height="68" rx="8" />
        {words(360.0, 138.0, "ui.chamber.mark")}
        {words(360.0, 500.0, "ui.chamber.not-by-size")}
    }
}

fn classes() -> impl IntoView {
    // A face of the pressure cap: two ports in their bosses, and the clamp bolt at the side.
    let face = |y: f64| {
        view! {
            <circle class="part" cx="120" cy=y r="72" />
            <circle class="line-thin" cx="120" cy=y r="52" />
            <path class="solid" d=format!("M188 {} h34 v14 h-34 Z", y - 7.0) />
        }
    };
    let round = |y: f64| {
        view! {
            <circle class="body" cx="96" cy=y r="19" />
            <circle class="hole" cx="96" cy=y r="8" />
        }
    };
    let square = |y: f64| {
        view! {
            <rect class="sign-mark" x="76" y=y - 20.0 width="40" height="40" />
            <circle class="hole" cx="96" cy=y r="8" />
        }
    };
    let tag = |y: f64| {
        let plate = polygon([
            (206.0, y + 8.0),
            (246.0, y + 8.0),
            (264.0, y + 58.0),
            (188.0, y + 58.0),
        ]);
        view! { <path class="sign-mark" d=plate /> }
    };
    let left = |y: f64, key: &str| view! { <text class="pic-text" x="290" y=y>{t(key)}</text> };
    view! {
        {face(86.0)}
        {round(86.0)}
        {left(74.0, "ui.chamber.standard")}
        {left(116.0, "ui.chamber.round-port")}
        {face(258.0)}
        {square(258.0)}
        {tag(258.0)}
        {left(240.0, "fact.stroke-class.long")}
        {left(282.0, "ui.chamber.square-port")}
        {face(430.0)}
        {square(430.0)}
        {tag(430.0)}
        <rect class="sign-mark" x="130" y="416" width="28" height="28" />
        {left(412.0, "fact.stroke-class.long-3")}
        {left(454.0, "ui.chamber.square-on-cap")}
    }
}
