//! A slack adjuster on its camshaft: arm length, the angle between arm and pushrod released and
//! applied, and how far the hex is turned.

use leptos::prelude::*;

use crate::words::t;

use super::geometry::{arc, on_circle, polygon, polyline};

/// An angle between pushrod and arm, with what is said of it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct AngleDrawn {
    pub(crate) degrees: f64,
    pub(crate) words: String,
}

/// How the hex is turned.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct TurnDrawn {
    /// Eighths of a turn that are surely turned, and how many at most.
    pub(crate) eighths: (u8, u8),
    pub(crate) words: String,
}

/// What is known of the adjuster.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct SlackDrawn {
    /// As measured with the brake released; `None` draws it as usual, without a figure.
    pub(crate) released: Option<AngleDrawn>,
    /// Where the stroke brings it.
    pub(crate) applied: Option<AngleDrawn>,
    /// The arm's length in words.
    pub(crate) arm: Option<String>,
    /// How the hex is turned at this step.
    pub(crate) turn: Option<TurnDrawn>,
    /// True for an automatic adjuster: it has a link to the clevis.
    pub(crate) automatic: bool,
}

const SHAFT: (f64, f64) = (400.0, 336.0);
const ARM: f64 = 210.0;
/// Where an arm leans before anybody has measured it.
const UNMEASURED: f64 = 105.0;
/// Below the camshaft; where the hex sits differs by maker.
const HEX: (f64, f64) = (400.0, 422.0);

/// How far the arm leans back from square to a rod that comes from the left.
fn lean(degrees: f64) -> f64 {
    (degrees - 90.0).clamp(-45.0, 45.0)
}

/// Where the clevis pin stands at an angle.
fn pin_at(degrees: f64) -> (f64, f64) {
    on_circle(SHAFT, ARM, -lean(degrees))
}

fn arm_outline(degrees: f64) -> String {
    let side = |at: (f64, f64), reach: f64, of: f64| on_circle(at, reach, of - lean(degrees));
    let pin = pin_at(degrees);
    polygon([
        side(SHAFT, 50.0, -90.0),
        side(pin, 20.0, -90.0),
        side(pin, 26.0, 0.0),
        side(pin, 20.0, 90.0),
        side(SHAFT, 50.0, 90.0),
    ])
}

/// The angle between rod and arm, as an arc at the pin.
fn angle_arc(degrees: f64, radius: f64) -> String {
    arc(pin_at(degrees), radius, 180.0 - lean(degrees), 270.0)
}

/// A line beside the arm from the shaft's centre to the pin's, with its ends, and where words go.
fn arm_line(degrees: f64) -> (String, (f64, f64)) {
    const AWAY: f64 = 84.0;
    let beside = |at: (f64, f64), reach: f64| on_circle(at, reach, 90.0 - lean(degrees));
    let pin = pin_at(degrees);
    let tick = |at| polyline([beside(at, AWAY - 12.0), beside(at, AWAY + 12.0)]);
    let line = polyline([beside(SHAFT, AWAY), beside(pin, AWAY)]);
    let middle = on_circle(SHAFT, ARM / 2.0, -lean(degrees));
    (
        format!("{line}{}{}", tick(SHAFT), tick(pin)),
        beside(middle, AWAY + 16.0),
    )
}

/// Arm, pushrod, clevis, adjusting hexagon and what is known of them.
#[component]
pub(crate) fn SlackPicture(
    #[prop(into)] slack: Signal<SlackDrawn>,
    /// Read aloud in its place.
    #[prop(into)]
    name: Signal<String>,
) -> impl IntoView {
    move || {
        let slack = slack.get();
        let degrees = slack
            .released
            .as_ref()
            .map_or(UNMEASURED, |angle| angle.degrees);
        let pin = pin_at(degrees);
        let link = slack.automatic.then(|| {
            let foot = on_circle(
                on_circle(SHAFT, 92.0, -lean(degrees)),
                40.0,
                -90.0 - lean(degrees),
            );
            view! { <path class="link" d=format!("M{:.1} {:.1} L{:.1} {:.1}", foot.0, foot.1, pin.0 - 46.0, pin.1) /> }
        });
        let hexagon = polygon((0..6).map(|n| on_circle(HEX, 19.0, f64::from(n) * 60.0)));
        let released = slack.released.clone().map(|angle| {
            view! {
                <path class="dimension" d=angle_arc(degrees, 92.0) />
                <text class="pic-text end" x="288" y=pin.1 + 132.0>{angle.words}</text>
            }
        });
        let applied = slack.applied.clone().map(|angle| {
            let at = pin_at(angle.degrees);
            view! {
                <path class="ghost-arm" d=arm_outline(angle.degrees) />
                <circle class="ghost-arm" cx=at.0 cy=at.1 r="9" />
                <text class="pic-text" x="452" y="60">{angle.words}</text>
                <path class="leader" d=format!("M456 70 L{:.1} {:.1}", at.0 + 6.0, at.1 - 14.0) />
            }
        });
        let arm = slack.arm.clone().map(|words| {
            let (line, at) = arm_line(degrees);
            view! {
                <path class="arm-line" d=line />
                <text class="pic-text" x=at.0 y=at.1 + 10.0>{words}</text>
            }
        });
        let turn = slack.turn.clone().map(|turn| {
            let (sure, most) = turn.eighths;
            // Which way it turns differs from maker to maker: how far is drawn, not which way.
            let end = |eighths: u8| -45.0 * f64::from(eighths.min(8)) - 90.0;
            let rest = (most > sure).then(
                || view! { <path class="turn-most" d=arc(HEX, 46.0, end(sure), end(most)) /> },
            );
            view! {
                <path class="arrow-hand" d=arc(HEX, 46.0, -90.0, end(sure)) />
                {rest}
                <text class="pic-text" x="470" y="440">{turn.words}</text>
            }
        });
        let hex_words = slack.turn.is_none().then(|| {
            view! { <text class="pic-text" x="440" y="440">{t("ui.slack.turn")}</text> }
        });
        view! {
            <svg class="pic slack" viewBox="0 0 780 490" role="img" aria-label=move || name.get()>
                <path class="part" d=format!("M30 {} H{} V{} H30 Z", pin.1 - 11.0, pin.0 - 40.0, pin.1 + 11.0) />
                <path class="part" d=format!("M10 {} h36 v100 h-36 Z", pin.1 - 50.0) />
                <path class="body" d="M372 350 H428 V442 Q428 456 414 456 H386 Q372 456 372 442 Z" />
                <path class="hand" d=arm_outline(degrees) />
                <circle class="part" cx=SHAFT.0 cy=SHAFT.1 r="52" />
                <circle class="hole" cx=SHAFT.0 cy=SHAFT.1 r="22" />
                <path class="part" d=hexagon />
                <path class="body" d=format!("M{} {} h58 q20 0 20 26 t-20 26 h-58 Z", pin.0 - 60.0, pin.1 - 26.0) />
                {link}
                <circle class="hole" cx=pin.0 cy=pin.1 r="9" />
                {applied}
                {released}
                {arm}
                {turn}
                {hex_words}
            </svg>
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn square_stands_upright_and_more_leans_to_the_chamber() {
        assert!((pin_at(90.0).0 - SHAFT.0).abs() < 1e-9);
        assert!(pin_at(105.0).0 < SHAFT.0, "released leans to the chamber");
        assert!(pin_at(85.0).0 > SHAFT.0, "past square leans away");
    }

    #[test]
    fn the_arm_is_as_long_at_every_angle() {
        for degrees in [70.0, 90.0, 105.0, 120.0] {
            let (x, y) = pin_at(degrees);
            assert!(((x - SHAFT.0).hypot(y - SHAFT.1) - ARM).abs() < 1e-9);
        }
    }

    #[test]
    fn the_arc_spans_the_angle() {
        let figures: Vec<f64> = angle_arc(105.0, 92.0)
            .split(['M', 'L', ' '])
            .filter_map(|figure| figure.parse().ok())
            .collect();
        let pin = pin_at(105.0);
        let towards = |x: f64, y: f64| (x - pin.0).atan2(pin.1 - y).to_degrees().rem_euclid(360.0);
        let first = towards(figures[0], figures[1]);
        let last = towards(figures[figures.len() - 2], figures[figures.len() - 1]);
        assert!((last - first - 105.0).abs() < 0.2, "{first} to {last}");
    }
}
