//! The vehicle from above: the map of a card, and small in the corner of every step.
//!
//! Computed from axle groups. Left is the driver's left: with the front up it lies left, with the
//! front to the left it lies at the bottom.

use job::id::Side;
use leptos::prelude::*;

use crate::parts::limit_bar::Tone;

use super::geometry::{cross, hatch, polygon};

/// Which way the front points.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Heading {
    #[default]
    Up,
    Left,
}

/// What stands at the front.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Body {
    /// A cab and a fifth wheel; the first axle steers.
    #[default]
    Tractor,
    /// A cab and a body; the first axle steers.
    Truck,
    /// A kingpin and legs.
    Semitrailer,
    /// A drawbar.
    Trailer,
}

/// What is drawn at one wheel end.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct EndDrawn {
    pub(crate) axle: u8,
    pub(crate) side: Side,
    /// The worst verdict there, as a small bar.
    pub(crate) tone: Option<Tone>,
    /// One letter for the stage it is in; may be empty.
    pub(crate) letter: String,
    /// Extra lines that still want something there.
    pub(crate) lines: usize,
}

/// A vehicle as it stands in the bay.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct VehicleTop {
    /// Axles per group from the front: `[1, 2]`.
    pub(crate) groups: Vec<u8>,
    pub(crate) body: Body,
    pub(crate) heading: Heading,
    /// Axles with one wheel at each end.
    pub(crate) singles: Vec<u8>,
    /// Axles that this card is about.
    pub(crate) in_hand: Vec<u8>,
    /// Wheel ends where this step is done.
    pub(crate) here: Vec<(u8, Side)>,
    pub(crate) ends: Vec<EndDrawn>,
    /// Wheels that are chocked.
    pub(crate) chocks: Vec<(u8, Side)>,
    /// Axles with the jack under them.
    pub(crate) jacks: Vec<u8>,
    /// Axles on stands.
    pub(crate) stands: Vec<u8>,
}

impl VehicleTop {
    /// The same vehicle, pointing another way.
    pub(crate) fn heading(mut self, heading: Heading) -> Self {
        self.heading = heading;
        self
    }

    /// Where each axle crosses the middle line, from the front.
    fn axle_lines(&self) -> Vec<f64> {
        let mut at = match self.body {
            Body::Tractor | Body::Truck => FRONT,
            Body::Trailer => FRONT + DRAWBAR,
            Body::Semitrailer => FRONT + KINGPIN_TO_AXLE,
        };
        let mut lines = Vec::new();
        for (group, size) in self.groups.iter().enumerate() {
            if group > 0 {
                at += GROUP_GAP - PITCH;
            }
            for _ in 0..*size {
                lines.push(at);
                at += PITCH;
            }
        }
        lines
    }
}

const WIDTH: f64 = 216.0;
const MIDDLE: f64 = WIDTH / 2.0;
const FRONT: f64 = 62.0;
const DRAWBAR: f64 = 90.0;
const KINGPIN_TO_AXLE: f64 = 170.0;
const PITCH: f64 = 56.0;
const GROUP_GAP: f64 = 132.0;
const TAIL: f64 = 46.0;
const TYRE_LENGTH: f64 = 46.0;
const TYRE_WIDTH: f64 = 17.0;
const RAIL: f64 = 17.0;
/// Outer edge of the outermost tyre, from the middle.
const TRACK: f64 = 62.0;
/// How far behind its axle the count of extra lines stands.
const LINES_BEHIND: f64 = 22.0;

/// Turns front-up places into places on the drawing.
#[derive(Clone, Copy)]
struct Turned(Heading);

impl Turned {
    fn point(self, (x, y): (f64, f64)) -> (f64, f64) {
        match self.0 {
            Heading::Up => (x, y),
            Heading::Left => (y, WIDTH - x),
        }
    }

    /// Corner and size of a rectangle given front-up.
    fn rect(self, x: f64, y: f64, width: f64, height: f64) -> (f64, f64, f64, f64) {
        match self.0 {
            Heading::Up => (x, y, width, height),
            Heading::Left => (y, WIDTH - x - width, height, width),
        }
    }

    fn path(self, points: impl IntoIterator<Item = (f64, f64)>) -> String {
        polygon(points.into_iter().map(|point| self.point(point)))
    }
}

fn boxed(
    turned: Turned,
    class: &'static str,
    round: f64,
    (x, y, width, height): (f64, f64, f64, f64),
) -> impl IntoView + use<> {
    let (x, y, width, height) = turned.rect(x, y, width, height);
    view! { <rect class=class x=x y=y width=width height=height rx=round /> }
}

/// The drawing.
#[component]
pub(crate) fn VehicleTopPicture(
    #[prop(into)] vehicle: Signal<VehicleTop>,
    /// Read aloud in its place.
    #[prop(into)]
    name: Signal<String>,
) -> impl IntoView {
    move || {
        let vehicle = vehicle.get();
        let turned = Turned(vehicle.heading);
        let lines = vehicle.axle_lines();
        let last = lines.last().copied().unwrap_or(FRONT);
        let length = last + TAIL;
        let (_, _, width, height) = turned.rect(0.0, 0.0, WIDTH, length);
        let axles = (1_u8..)
            .zip(&lines)
            .map(|(axle, line)| axle_drawn(&vehicle, turned, axle, *line))
            .collect_view();
        view! {
            <svg class="pic vehicle-top" viewBox=format!("0 0 {width} {height}") role="img" aria-label=move || name.get()>
                {body(&vehicle, turned, &lines, length)}
                {axles}
            </svg>
        }
    }
}

fn body(vehicle: &VehicleTop, turned: Turned, lines: &[f64], length: f64) -> impl IntoView + use<> {
    let first = lines.first().copied().unwrap_or(FRONT);
    let nose = match vehicle.body {
        Body::Tractor | Body::Truck => 30.0,
        Body::Semitrailer => 16.0,
        Body::Trailer => first - 60.0,
    };
    let rails = boxed(
        turned,
        "frame",
        4.0,
        (MIDDLE - RAIL, nose, RAIL * 2.0, length - nose - 8.0),
    );
    let deck = move |from: f64| {
        boxed(
            turned,
            "deck",
            8.0,
            (MIDDLE - 36.0, from, 72.0, length - from - 4.0),
        )
        .into_any()
    };
    let front = match vehicle.body {
        Body::Tractor | Body::Truck => {
            let cab = boxed(turned, "body", 12.0, (MIDDLE - 34.0, 6.0, 68.0, 84.0));
            let glass = turned.path(
                [(-28.0, 24.0), (28.0, 24.0), (22.0, 40.0), (-22.0, 40.0)]
                    .map(|(x, y)| (MIDDLE + x, y)),
            );
            let behind = if vehicle.body == Body::Truck {
                Some(deck(98.0))
            } else {
                lines.get(1).map(|_| {
                    let (rear, count) = lines
                        .iter()
                        .skip(1)
                        .fold((0.0, 0.0), |(sum, n), line| (sum + line, n + 1.0));
                    let (cx, cy) = turned.point((MIDDLE, rear / count));
                    view! { <circle class="deck" cx=cx cy=cy r="24" /> }.into_any()
                })
            };
            view! { <g>{behind}{cab}<path class="glass" d=glass /></g> }.into_any()
        }
        Body::Semitrailer => {
            let (cx, cy) = turned.point((MIDDLE, 34.0));
            let leg = |x: f64| boxed(turned, "body", 2.0, (x, 78.0, 12.0, 18.0));
            view! { <g>{deck(6.0)}{leg(MIDDLE - 40.0)}{leg(MIDDLE + 28.0)}<circle class="solid" cx=cx cy=cy r="7" /></g> }
                .into_any()
        }
        Body::Trailer => {
            let bar = turned.path([
                (MIDDLE, 8.0),
                (MIDDLE + 30.0, first - 60.0),
                (MIDDLE - 30.0, first - 60.0),
            ]);
            view! { <g>{deck(first - 60.0)}<path class="body" d=bar /></g> }.into_any()
        }
    };
    view! { <g class="vehicle-body">{rails}{front}</g> }
}

fn axle_drawn(vehicle: &VehicleTop, turned: Turned, axle: u8, line: f64) -> impl IntoView + use<> {
    let in_hand = vehicle.in_hand.contains(&axle);
    let beam = boxed(
        turned,
        "beam",
        3.0,
        (MIDDLE - TRACK + 8.0, line - 5.0, (TRACK - 8.0) * 2.0, 10.0),
    );
    let ends = [Side::Left, Side::Right]
        .map(|side| end_drawn(vehicle, turned, axle, side, line))
        .collect_view();
    let jack = vehicle.jacks.contains(&axle).then(|| {
        let (cx, cy) = turned.point((MIDDLE, line));
        view! {
            <g class="jack">
                <circle cx=cx cy=cy r="15" />
                <path d=cross((cx, cy), 8.0) />
            </g>
        }
    });
    let stands = vehicle.stands.contains(&axle).then(|| {
        let stand = |x: f64| {
            let tip = turned.path([
                (x, line - 13.0),
                (x + 11.0, line + 10.0),
                (x - 11.0, line + 10.0),
            ]);
            view! { <path class="stand" d=tip /> }
        };
        view! { <g>{stand(MIDDLE - 16.0)}{stand(MIDDLE + 16.0)}</g> }
    });
    view! { <g class="axle" class:in-hand=in_hand>{beam}{ends}{jack}{stands}</g> }
}

fn end_drawn(
    vehicle: &VehicleTop,
    turned: Turned,
    axle: u8,
    side: Side,
    line: f64,
) -> impl IntoView + use<> {
    let way = match side {
        Side::Left => -1.0,
        Side::Right => 1.0,
    };
    // A rectangle between two distances from the middle, on this side.
    let beside = |near: f64, far: f64, top: f64, height: f64| {
        let left = if way < 0.0 {
            MIDDLE - far
        } else {
            MIDDLE + near
        };
        (left, top, far - near, height)
    };
    let top = line - TYRE_LENGTH / 2.0;
    let single = vehicle.singles.contains(&axle);
    let near = if single {
        TRACK - 4.0 - TYRE_WIDTH
    } else {
        TRACK - 2.0 * TYRE_WIDTH - 2.0
    };
    let outer_near = if single { near } else { TRACK - TYRE_WIDTH };
    let outer_far = outer_near + TYRE_WIDTH;
    let outer = boxed(
        turned,
        "tyre",
        6.0,
        beside(outer_near, outer_far, top, TYRE_LENGTH),
    );
    let inner = (!single).then(|| {
        boxed(
            turned,
            "tyre",
            6.0,
            beside(near, near + TYRE_WIDTH, top, TYRE_LENGTH),
        )
    });
    let here = vehicle.here.contains(&(axle, side)).then(|| {
        boxed(
            turned,
            "here",
            10.0,
            beside(near - 6.0, outer_far + 6.0, top - 6.0, TYRE_LENGTH + 12.0),
        )
    });
    let chocks = vehicle.chocks.contains(&(axle, side)).then(|| {
        let (inside, outside) = (
            MIDDLE + way * (near - 2.0),
            MIDDLE + way * (outer_far + 3.0),
        );
        let wedge = |edge: f64, back: f64| {
            let inset = way * 5.0;
            turned.path([
                (inside, edge),
                (outside, edge),
                (outside - inset, back),
                (inside + inset, back),
            ])
        };
        let bottom = top + TYRE_LENGTH;
        view! {
            <g class="chock">
                <path d=wedge(top + 3.0, top - 10.0) />
                <path d=wedge(bottom - 3.0, bottom + 10.0) />
            </g>
        }
    });
    let drawn = vehicle
        .ends
        .iter()
        .find(|end| end.axle == axle && end.side == side);
    let mark = drawn.map(|end| {
        let bar = end.tone.map(|tone| {
            small_bar(
                turned,
                tone,
                beside(TRACK + 9.0, TRACK + 20.0, top, TYRE_LENGTH),
            )
        });
        let (x, y) = turned.point((MIDDLE + way * (TRACK + 33.0), line));
        let letter = end.letter.clone();
        // Behind the letter as the vehicle points, so that both headings have the room.
        let behind = (MIDDLE + way * (TRACK + 33.0), line + LINES_BEHIND);
        let (lines_x, lines_y) = turned.point(behind);
        let lines = (end.lines > 0).then(|| {
            let count = format!("+{}", end.lines);
            view! { <text class="end-lines" x=lines_x y=lines_y + 6.0>{count}</text> }
        });
        view! { <g>{bar}<text class="end-letter" x=x y=y + 8.0>{letter}</text>{lines}</g> }
    });
    let class = if here.is_some() { "end is-here" } else { "end" };
    view! { <g class=class>{here}{inner}{outer}{chocks}{mark}</g> }
}

/// The verdict bar in small: short of its line, touching it and hatched, or across it.
fn small_bar(
    turned: Turned,
    tone: Tone,
    (x, y, width, height): (f64, f64, f64, f64),
) -> impl IntoView + use<> {
    let limit = y + height * 0.3;
    let fill_from = match tone {
        Tone::Within | Tone::Sound => y + height * 0.55,
        Tone::AtTheLimit => limit,
        Tone::Beyond | Tone::Replace => y,
        Tone::NoReading | Tone::Kept => y + height,
    };
    let fill = boxed(
        turned,
        "small-bar-fill",
        0.0,
        (x, fill_from, width, y + height - fill_from),
    );
    let stripes = (tone == Tone::AtTheLimit).then(|| {
        let (x, y, width, height) = turned.rect(x, fill_from, width, y + height - fill_from);
        view! { <path class="small-bar-stripes" d=hatch(x, y, width, height, 6.0) /> }
    });
    let track = boxed(turned, "small-bar-track", 0.0, (x, y, width, height));
    let line = boxed(
        turned,
        "small-bar-limit",
        0.0,
        (x - 3.0, limit - 1.5, width + 6.0, 3.0),
    );
    view! { <g class=format!("small-bar {}", tone.class())>{track}{fill}{stripes}{line}</g> }
}
