//! A slack adjuster on its camshaft, with the angle between arm and pushrod.

use leptos::prelude::*;

use crate::words::t;

use super::geometry::{arc, on_circle, polygon};

/// What is known of the adjuster.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct SlackDrawn {
    /// Angle between pushrod and arm, in degrees.
    pub(crate) angle_degrees: f64,
    /// True for an automatic adjuster: it has a link to the clevis.
    pub(crate) automatic: bool,
}

const SHAFT: (f64, f64) = (430.0, 312.0);
const ARM: f64 = 210.0;

/// Arm, pushrod, clevis, adjusting hexagon and the angle.
#[component]
pub(crate) fn SlackPicture(
    #[prop(into)] slack: Signal<SlackDrawn>,
    /// Read aloud in its place.
    #[prop(into)]
    name: Signal<String>,
) -> impl IntoView {
    move || {
        let slack = slack.get();
        // The rod comes from the left along the horizontal; the arm leans away from square.
        // An angle that nobody measured is drawn square, without a figure.
        let measured = Some(slack.angle_degrees).filter(|angle| angle.is_finite());
        let lean = (measured.unwrap_or(90.0) - 90.0).clamp(-45.0, 45.0);
        let pin = on_circle(SHAFT, ARM, -lean);
        let side = |at: (f64, f64), reach: f64, degrees: f64| on_circle(at, reach, degrees - lean);
        let arm = polygon([
            side(SHAFT, 50.0, -90.0),
            side(pin, 20.0, -90.0),
            side(pin, 26.0, 0.0),
            side(pin, 20.0, 90.0),
            side(SHAFT, 50.0, 90.0),
        ]);
        let link = slack.automatic.then(|| {
            let foot = side(on_circle(SHAFT, 92.0, -lean), 40.0, -90.0);
            view! { <path class="link" d=format!("M{:.1} {:.1} L{:.1} {:.1}", foot.0, foot.1, pin.0 - 46.0, pin.1) /> }
        });
        let hexagon =
            polygon((0..6).map(|n| on_circle(side(SHAFT, 66.0, 90.0), 17.0, f64::from(n) * 60.0)));
        let words = measured.map(|angle| format!("{angle:.0}°"));
        let note = on_circle(pin, 128.0, 222.0);
        view! {
            <svg class="pic" viewBox="0 0 640 400" role="img" aria-label=move || name.get()>
                <path class="part" d=format!("M30 {} H{} V{} H30 Z", pin.1 - 11.0, pin.0 - 40.0, pin.1 + 11.0) />
                <path class="hand" d=arm />
                <circle class="part" cx=SHAFT.0 cy=SHAFT.1 r="52" />
                <circle class="hole" cx=SHAFT.0 cy=SHAFT.1 r="22" />
                <path class="body" d=hexagon />
                <path class="body" d=format!("M{} {} h58 q20 0 20 26 t-20 26 h-58 Z", pin.0 - 60.0, pin.1 - 26.0) />
                {link}
                <circle class="hole" cx=pin.0 cy=pin.1 r="9" />
                <path class="dimension" d=arc(pin, 84.0, 180.0 - lean, 270.0) />
                <text class="pic-text large middle" x=note.0 y=note.1>{words}</text>
                <text class="pic-text middle" x="516" y="392">{t("ui.slack.turn")}</text>
            </svg>
        }
    }
}
