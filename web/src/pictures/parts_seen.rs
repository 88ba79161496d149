//! Parts as they are found, for the practice bay: whole, or with the signs that they show.
//!
//! A sign is drawn where an eye finds it: a crack, oil, a hole worn long. What can only be heard or
//! felt, such as air that leaks or a shaft that binds, is drawn as bubbles of soap water or as a
//! turn that is stopped. It draws what it is told and judges nothing.

use leptos::prelude::*;
use practice::decision::{Decision, Item, Shown};

use super::geometry::{arc, coil, cross, hatch, on_circle, polygon, polyline};

/// One part with its signs.
#[component]
pub(crate) fn PartSeen(
    decision: Decision,
    /// Read aloud in its place.
    name: String,
) -> impl IntoView {
    let signs = Signs::of(&decision.shown);
    let drawn = match decision.item {
        Item::Nuts | Item::Studs => studs(decision.item, &decision.shown),
        Item::LiningLook => lining(&signs),
        Item::Surface => drum(&signs),
        Item::CamHead | Item::Grease => cam(&signs),
        Item::Spider | Item::SpiderBolts => spider(&signs),
        Item::ClevisPin | Item::Clevis => clevis(&signs),
        Item::Rollers => rollers(&signs),
        Item::Springs => springs(&signs),
        Item::Body => adjuster(&signs),
        Item::Chamber | Item::SpringBrake => chamber(decision.item, &signs),
        Item::Seal | Item::HubOil => hub(decision.item, &signs),
        Item::Wheel => wheel(&signs),
        Item::Hose => hose(&signs),
        Item::Shield => shield(&signs),
        // These are measured or compared: an instrument shows them, not an eye.
        Item::Stands
        | Item::Alike
        | Item::Edges
        | Item::Applied
        | Item::Free
        | Item::AdjusterTorque
        | Item::Lining
        | Item::Diameter
        | Item::DrumShape
        | Item::Radial
        | Item::CamEnd
        | Item::Spline
        | Item::Groove
        | Item::ClevisGap
        | Item::ArmBushing
        | Item::HubPlay
        | Item::Gap
        | Item::Span
        | Item::Recess => ().into_any(),
    };
    view! {
        <svg class="pic seen" viewBox="0 0 120 80" role="img" aria-label=name data-testid=format!("seen-{}", decision.item.code())>
            {drawn}
        </svg>
    }
}

/// The signs that a part shows, by their stable names.
struct Signs(Vec<&'static str>);

impl Signs {
    fn of(shown: &Shown) -> Self {
        match shown {
            Shown::Signs(signs) => Self(signs.clone()),
            Shown::Numbered(signs) => Self(signs.iter().map(|(_, sign)| *sign).collect()),
            Shown::Instrument(_)
            | Shown::Pushrod { .. }
            | Shown::Diameters { .. }
            | Shown::Edges(_)
            | Shown::Support
            | Shown::BothEnds => Self(Vec::new()),
        }
    }

    fn has(&self, sign: &str) -> bool {
        self.0.contains(&sign)
    }
}

/// A crack as a jagged line.
fn crack(x: f64, y: f64, down: f64) -> impl IntoView {
    let jag = [
        (0.0, 0.0),
        (3.0, 0.2),
        (-1.5, 0.4),
        (3.5, 0.6),
        (-1.0, 0.8),
        (2.0, 1.0),
    ];
    let path = polyline(jag.map(|(off, part)| (x + off, y + down * part)));
    view! { <path class="crack" d=path /> }
}

/// Soap water that bubbles where air leaks out.
fn bubbles(x: f64, y: f64) -> impl IntoView {
    let at = [
        (0.0, 0.0, 3.0),
        (5.0, -3.0, 2.2),
        (-5.0, -2.0, 2.4),
        (2.0, -7.0, 2.6),
        (-3.0, -8.0, 1.8),
        (7.0, -9.0, 1.6),
    ];
    at.map(|(u, v, r)| view! { <circle class="bubble" cx=x + u cy=y + v r=r /> })
        .into_iter()
        .collect_view()
}

/// Oil or grease that runs down.
fn wet(x: f64, y: f64, wide: f64, high: f64) -> impl IntoView {
    let path = format!(
        "M{x} {y} h{wide} v{:.1} q-{:.1} {:.1} -{:.1} 0 v-{:.1} q-{:.1} {:.1} -{:.1} 0 Z",
        high * 0.6,
        wide * 0.2,
        high * 0.8,
        wide * 0.5,
        high * 0.2,
        wide * 0.25,
        high,
        wide * 0.5
    );
    view! { <path class="wet" d=path /> }
}

/// A piece of a ring round a point, from one radius to another.
fn band(centre: (f64, f64), radii: (f64, f64), from: f64, to: f64) -> String {
    let at = |radius: f64, part: f64| on_circle(centre, radius, from + (to - from) * part);
    let parts = || (0..=12).map(|n| f64::from(n) / 12.0);
    let outer = parts().map(|part| at(radii.1, part));
    let inner = parts().map(|part| at(radii.0, 1.0 - part));
    polygon(outer.chain(inner))
}

/// A shoe with its lining, from the side.
fn lining(signs: &Signs) -> AnyView {
    const ROUND: (f64, f64) = (60.0, 92.0);
    const FOOT: f64 = 62.0;
    let top = |degrees: f64| {
        if signs.has("tapered") {
            // Thin at one end.
            72.0 - degrees / 7.0
        } else if signs.has("uneven") {
            74.0 - (degrees / 9.0).sin().abs() * 6.0
        } else {
            78.0
        }
    };
    let degrees = || (-24..=24).map(|n| f64::from(n) * 2.0);
    let worn = degrees().map(|at| on_circle(ROUND, top(at), at));
    let foot = degrees().rev().map(|at| on_circle(ROUND, FOOT, at));
    let across = |from: f64, to: f64, every: f64| {
        let count = ((to - from) / every) as u32;
        (0..=count)
            .map(|n| {
                let at = from + f64::from(n) * every;
                let (x, y) = on_circle(ROUND, top(at) - 1.0, at);
                let (u, v) = on_circle(ROUND, FOOT + 1.0, at);
                format!("M{x:.1} {y:.1} L{u:.1} {v:.1} ")
            })
            .collect::<String>()
    };
    view! {
        <path class="part" d=band(ROUND, (44.0, 58.0), -40.0, 40.0) />
        <circle class="part" cx="30" cy="49" r="4" />
        <path class="body" d=band(ROUND, (58.0, FOOT), -48.0, 48.0) />
        <path class="part" d=polygon(worn.chain(foot)) />
        {signs.has("oil").then(|| view! {
            <path class="wet" d=band(ROUND, (64.0, 78.0), -36.0, -14.0) />
            <path class="wet" d=band(ROUND, (68.0, 78.0), 2.0, 30.0) />
            {wet(70.0, 18.0, 12.0, 18.0)}
        })}
        {signs.has("dry").then(|| view! { <path class="fine" d=across(24.0, 40.0, 2.0) /> })}
        {signs.has("cracked").then(|| crack(58.0, 14.0, 16.0))}
        {signs.has("burnt").then(|| view! { <path class="fine" d=across(-46.0, 46.0, 2.5) /> })}
    }
    .into_any()
}

fn drum(signs: &Signs) -> AnyView {
    let check = |x: f64, long: f64| view! { <path class="check" d=format!("M{x} 40 v{long}") /> };
    let checks = |every: usize, long: f64| {
        (0..100 / every)
            .map(|n| {
                check(
                    12.0 + f64::from(u32::try_from(n * every).unwrap_or(0)),
                    long,
                )
            })
            .collect_view()
    };
    // The inside of the drum, unrolled: the open edge lies below.
    view! {
        <path class="body" d="M6 12 H114 V20 H6 Z" />
        <path class="part" d="M6 20 H114 V62 H6 Z" />
        <path class="body" d="M6 62 H114 V70 H6 Z" />
        {signs.has("fine-checks").then(|| checks(8, 5.0))}
        {signs.has("checked").then(|| view! { {checks(6, 16.0)} <path class="check" d="M30 28 v28 M66 24 v32 M90 26 v30" /> })}
        {signs.has("cracked").then(|| crack(56.0, 24.0, 34.0))}
        {signs.has("crack-through").then(|| crack(56.0, 12.0, 58.0))}
        {signs.has("piece-missing").then(|| view! { <path class="gone-piece" d="M70 72 V58 L78 52 L90 56 L96 72 Z" /> })}
        {signs.has("blue").then(|| view! {
            <path class="spot-burnt" d="M20 32 q8 -8 16 0 t16 2 q2 12 -14 12 t-18 -14 Z" />
            <path class="spot-burnt" d="M72 40 q8 -9 18 -2 q8 10 -6 14 t-12 -12 Z" />
        })}
        {signs.has("pattern").then(|| view! { <path class="fine" d=hatch(7.0, 21.0, 52.0, 40.0, 3.4) /> })}
        {signs.has("mounting").then(|| crack(30.0, 10.0, 10.0))}
    }
    .into_any()
}

/// Half of the head of an S-cam as degrees and radii: the seat of the roller, the spiral up, its tip.
const LOBE: [(f64, f64); 14] = [
    (5.0, 9.0),
    (30.0, 10.0),
    (55.0, 14.0),
    (75.0, 19.0),
    (95.0, 24.0),
    (115.0, 29.0),
    (133.0, 33.0),
    (148.0, 35.5),
    (160.0, 36.0),
    (168.0, 34.0),
    (169.0, 29.0),
    (160.0, 22.0),
    (152.0, 16.0),
    (160.0, 11.0),
];

/// A closed line that bends through the points.
fn rounded(points: &[(f64, f64)]) -> String {
    let middle = |a: (f64, f64), b: (f64, f64)| (f64::midpoint(a.0, b.0), f64::midpoint(a.1, b.1));
    let pairs = points.iter().zip(points.iter().cycle().skip(1));
    let mut path = String::new();
    for (at, next) in pairs {
        let (x, y) = middle(*at, *next);
        if path.is_empty() {
            path = format!("M{x:.1} {y:.1} ");
        } else {
            path.push_str(&format!("Q{:.1} {:.1} {x:.1} {y:.1} ", at.0, at.1));
        }
    }
    if let (Some(first), Some(second)) = (points.first(), points.get(1)) {
        let (x, y) = middle(*first, *second);
        path.push_str(&format!("Q{:.1} {:.1} {x:.1} {y:.1} Z", first.0, first.1));
    }
    path
}

/// The head from its end, the shaft behind it.
fn cam(signs: &Signs) -> AnyView {
    const MIDDLE: (f64, f64) = (40.0, 40.0);
    let worn = signs.has("head-worn");
    let lobe = |turn: f64| {
        LOBE.map(|(degrees, radius)| {
            // Where a roller has worn it the spiral has a flat.
            let flat = worn && (90.0..=120.0).contains(&degrees);
            let radius = if flat { 20.0 } else { radius };
            on_circle(MIDDLE, radius, degrees + turn - 90.0)
        })
    };
    let head: Vec<_> = lobe(0.0).into_iter().chain(lobe(180.0)).collect();
    view! {
        <path class="part" d="M40 35 H118 V45 H40 Z" />
        <path class="body" d="M82 28 H102 V52 H82 Z" />
        <path class="part" d=rounded(&head) />
        <circle class="hole" cx="40" cy="40" r="2" />
        {worn.then(|| view! { <path class="check" d="M42 18 l-1 -7 M48 18 l1 -7 M54 18 l3 -6 M38 62 l1 7 M32 62 l-1 7 M26 62 l-3 6" /> })}
        {signs.has("grease-at-head").then(|| view! { {wet(66.0, 44.0, 15.0, 22.0)} {wet(56.0, 46.0, 10.0, 14.0)} })}
        {signs.has("binding").then(|| view! {
            <path class="turn" d=arc((110.0, 40.0), 14.0, 300.0, 420.0) />
            <path class="stop" d=cross((110.0, 16.0), 7.0) />
        })}
    }
    .into_any()
}

fn spider(signs: &Signs) -> AnyView {
    let bolt = |degrees: f64| {
        let (x, y) = on_circle((60.0, 38.0), 17.0, degrees);
        let loose = signs.has("spider-bolts") && degrees > 100.0 && degrees < 200.0;
        view! {
            <circle class="solid" cx=x cy=y r="3.4" />
            {loose.then(|| view! {
                <path class="turn" d=arc((x, y), 7.0, 200.0, 330.0) />
                <path class="check" d=format!("M{x:.1} {:.1} l6 5 M{x:.1} {:.1} l-6 5", y + 4.0, y + 4.0) />
            })}
        }
    };
    let worn = signs.has("anchor-worn");
    view! {
        <path class="part" d="M60 8 q22 0 28 18 q4 14 -4 26 l-6 22 h-36 l-6 -22 q-8 -12 -4 -26 q6 -18 28 -18 Z" />
        <circle class="body" cx="60" cy="38" r="24" />
        <circle class="part" cx="60" cy="38" r="10" />
        {[0.0, 60.0, 120.0, 180.0, 240.0, 300.0].map(bolt).into_iter().collect_view()}
        <circle class="part" cx="50" cy="68" r="4.6" />
        <circle class="hole" cx="50" cy="68" r="2.6" />
        <circle class="part" cx="72" cy="68" r=if worn { 7.5 } else { 4.6 } />
        <circle class="hole" cx=if worn { 74.4 } else { 72.0 } cy="68" r="2.6" />
        {signs.has("cracked").then(|| crack(82.0, 48.0, 22.0))}
    }
    .into_any()
}

fn clevis(signs: &Signs) -> AnyView {
    let hole = if signs.has("hole-long") { 12.0 } else { 6.6 };
    view! {
        <path class="part" d="M2 34 H30 V46 H2 Z" />
        <path class="body" d="M30 22 H72 q14 0 14 18 t-14 18 H30 Z" />
        <ellipse class="gap" cx=72.0 - (hole - 6.6) / 2.0 cy="40" rx=hole ry="6.6" />
        <circle class="part" cx="72" cy="40" r=if signs.has("pin-worn") { 4.4 } else { 5.8 } />
        {signs.has("pin-worn").then(|| view! { <path class="check" d="M69 36 v8 M72 35.4 v9.2 M75 36 v8" /> })}
        {signs.has("bolt").then(|| view! {
            <path class="body" d="M66 29.6 h12 l6 10.4 l-6 10.4 h-12 l-6 -10.4 Z" />
            <path class="fine" d="M88 36 h18 M88 44 h18 M90 36 l2 8 M94 36 l2 8 M98 36 l2 8 M102 36 l2 8" />
        })}
        {(!signs.has("bolt")).then(|| view! { <path class="part" d="M88 36 h20 v8 h-20 Z" /> <path class="line" d="M104 30 q-4 10 4 20" /> })}
    }
    .into_any()
}

fn rollers(signs: &Signs) -> AnyView {
    let worn = signs.has("rollers");
    let flat = if worn {
        "M60 14 a24 24 0 1 0 22 14 L66 15 Z M58 20"
    } else {
        "M84 38 a24 24 0 1 0 -48 0 a24 24 0 1 0 48 0 Z"
    };
    view! {
        <path class="body" d="M20 62 q40 22 80 0 v14 H20 Z" />
        <path class="part" d=flat />
        <path class="part" d="M2 33 h34 v10 h-34 Z M84 33 h34 v10 h-34 Z" />
        {worn.then(|| view! { <path class="check" d="M48 28 v24 M54 24 v32 M60 24 v34" /> })}
    }
    .into_any()
}

/// Two springs side by side, each with its hook at its hole.
fn springs(signs: &Signs) -> AnyView {
    let wrong = signs.has("return-spring");
    let seat = |x: f64| {
        view! {
            <path class="body" d=format!("M{} 2 h28 v14 h-28 Z M{} 66 h28 v12 h-28 Z", x - 14.0, x - 14.0) />
            <circle class="hole" cx=x cy="10" r="3" />
            <circle class="hole" cx=x cy="71" r="3" />
        }
    };
    let (coils, hook) = if wrong {
        // Pulled long, its coils apart, and the hook beside its hole.
        (
            [
                coil((86.0, 24.0), (86.0, 40.0), 5, 8.0),
                coil((86.0, 40.0), (93.0, 58.0), 2, 9.0),
            ]
            .concat(),
            "M86 24 V10 M93 58 L99 71 q3 5 6 0",
        )
    } else {
        (
            coil((86.0, 24.0), (86.0, 56.0), 10, 8.0),
            "M86 24 V10 M86 56 V71",
        )
    };
    view! {
        {seat(32.0)}
        {seat(86.0)}
        <path class="wire" d=coil((32.0, 24.0), (32.0, 56.0), 10, 8.0) />
        <path class="wire" d="M32 24 V10 M32 56 V71" />
        <path class="wire" d=coils />
        <path class="wire" d=hook />
    }
    .into_any()
}

fn adjuster(signs: &Signs) -> AnyView {
    let arm = if signs.has("control-arm") {
        "M84 58 L100 66 L96 76"
    } else {
        "M84 58 H114"
    };
    view! {
        <path class="part" d="M52 4 h14 l6 36 a22 22 0 1 1 -26 0 Z" />
        <circle class="body" cx="59" cy="58" r="11" />
        <circle class="hole" cx="59" cy="10" r="3" />
        <path class="part" d="M70 14 h8 v26 h-8 Z" />
        <path class="body" d="M68 26 q8 -3 12 0 v16 q-6 3 -12 0 Z" />
        {signs.has("adjuster-boot").then(|| view! { {crack(72.0, 24.0, 20.0)} <path class="gone-piece" d="M74 30 l5 3 l-2 7 l-4 -2 Z" /> })}
        <path class="bracket" d=arm />
        {signs.has("control-arm").then(|| crack(88.0, 54.0, 12.0))}
    }
    .into_any()
}

fn chamber(item: Item, signs: &Signs) -> AnyView {
    let spring = item == Item::SpringBrake;
    let rod = if signs.has("rod-not-square") {
        "M74 36 L116 50 l-2 7 L74 44 Z"
    } else {
        "M74 36 H116 V44 H74 Z"
    };
    let body = if signs.has("chamber-body") {
        "M50 10 h12 q12 2 12 14 v8 l-7 6 l7 6 v12 q0 14 -12 14 h-12 Z"
    } else {
        "M50 10 h12 q12 2 12 14 v32 q0 14 -12 14 h-12 Z"
    };
    view! {
        {spring.then(|| view! { <path class="part" d="M4 16 q0 -8 8 -8 h26 v64 h-26 q-8 0 -8 -8 Z" /> <path class="wire" d=coil((10.0, 40.0), (36.0, 40.0), 4, 18.0) /> })}
        <path class="part" d="M50 10 h-6 q-10 4 -10 16 v28 q0 12 10 16 h6 Z" />
        <path class="part" d=body />
        <path class="body" d="M46 6 h7 v68 h-7 Z" />
        <path class="part" d=rod />
        <path class="body" d="M68 20 h14 v4 h-14 Z M68 56 h14 v4 h-14 Z" />
        <path class="part" d=if signs.has("chamber-bracket") {
            "M76 12 h6 l5 28 l-4 28 h-6 l4 -28 Z"
        } else {
            "M76 12 h6 v56 h-6 Z"
        } />
        <path class="part" d="M82 60 L106 74 l-3 5 L79 68 Z" />
        {signs.has("chamber-bracket").then(|| crack(86.0, 58.0, 18.0))}
        {signs.has("chamber-body").then(|| crack(60.0, 12.0, 24.0))}
        {signs.has("chamber-leak").then(|| bubbles(84.0, 36.0))}
        {signs.has("spring-leak").then(|| bubbles(30.0, 72.0))}
        {signs.has("spring-body").then(|| view! { <path class="fine" d=hatch(6.0, 12.0, 22.0, 56.0, 4.0) /> {crack(14.0, 10.0, 30.0)} })}
        {signs.has("bolt-wont-seat").then(|| view! { <path class="bracket" d="M4 40 L-4 28" /> <path class="stop" d=cross((12.0, 40.0), 8.0) /> })}
    }
    .into_any()
}

fn hub(item: Item, signs: &Signs) -> AnyView {
    if item == Item::HubOil {
        hub_cap(signs)
    } else {
        seal(signs)
    }
}

/// The brake from behind: drum, shoes, and the seal round the spindle.
fn seal(signs: &Signs) -> AnyView {
    const MIDDLE: (f64, f64) = (60.0, 40.0);
    let shoe = |from: f64, to: f64| {
        view! {
            <path class="part" d=band(MIDDLE, (27.0, 33.5), from, to) />
            <path class="body" d=band(MIDDLE, (23.0, 27.0), from, to) />
        }
    };
    view! {
        <circle class="body" cx="60" cy="40" r="39" />
        <circle class="part" cx="60" cy="40" r="34.5" />
        {shoe(-62.0, 62.0)}
        {shoe(118.0, 242.0)}
        <circle class="body" cx="60" cy="40" r="17" />
        <circle class="seal" cx="60" cy="40" r="12.4" />
        <circle class="part" cx="60" cy="40" r="9" />
        {signs.has("wheel-seal").then(|| view! {
            <path class="wet" d="M52 48 q-6 10 -4 24 q1 4 5 4 h16 q5 0 4 -5 q-2 -14 -6 -23 q-7 5 -15 0 Z" />
            <path class="wet" d="M44 62 q-3 4 0 6 t2 -4 Z M76 60 q4 3 2 6 t-4 -3 Z" />
        })}
    }
    .into_any()
}

/// The cap of an oil-filled hub, with its window.
fn hub_cap(signs: &Signs) -> AnyView {
    let bolt = |n: i32| {
        let (x, y) = on_circle((60.0, 40.0), 32.0, 30.0 + 60.0 * f64::from(n));
        view! { <circle class="solid" cx=x cy=y r="2.6" /> }
    };
    let oil = if signs.has("hub-oil") { "milk" } else { "oil" };
    view! {
        <circle class="body" cx="60" cy="40" r="38" />
        {(0..6).map(bolt).collect_view()}
        <circle class="part" cx="60" cy="40" r="24" />
        <path class=oil d="M36.3 44 H83.7 A24 24 0 0 1 36.3 44 Z" />
        <circle class="body" cx="60" cy="40" r="5" />
        <path class="fine" d="M45 34 h8 M67 34 h8" />
        {signs.has("hub-oil").then(|| view! {
            <path class="check" d="M46 50 l3 1 M54 56 l3 -1 M66 50 l2 2 M72 54 l3 -1 M60 60 l3 0 M50 58 l2 1 M68 58 l2 -1" />
        })}
    }
    .into_any()
}

/// A disc wheel from the outside: hand holes near the rim, bolt holes round the bore.
fn wheel(signs: &Signs) -> AnyView {
    let hand_holes = (0..5).map(|n| {
        let turn = 72.0 * f64::from(n);
        view! { <path class="gap" d=band((60.0, 40.0), (25.5, 29.5), turn - 9.0, turn + 9.0) /> }
    });
    let holes = (0..10).map(|n| {
        let turn = 36.0 * f64::from(n);
        let (x, y) = on_circle((60.0, 40.0), 17.5, turn);
        if signs.has("holes") && n == 2 {
            // Worn along the circle by a wheel that shifted.
            let long = band((60.0, 40.0), (15.4, 19.6), turn - 15.0, turn + 9.0);
            view! { <path class="hole" d=long /> }.into_any()
        } else {
            view! { <circle class="hole" cx=x cy=y r="2.2" /> }.into_any()
        }
    });
    view! {
        <circle class="part" cx="60" cy="40" r="39" />
        <circle class="part" cx="60" cy="40" r="33" />
        {hand_holes.collect_view()}
        <circle class="body" cx="60" cy="40" r="12" />
        {holes.collect_view()}
        {signs.has("cracked").then(|| view! { <path class="crack" d="M77 45 l4 3 l1 -2 l4 5 l2 -1 l3 4" /> })}
        {signs.has("welded").then(|| view! { <path class="weld" d="M80 24 l3 3 l-3 3 l3 3 l-3 3 l3 3 l-3 3" /> })}
        {signs.has("worn").then(|| view! { <path class="check" d="M42 20 l4 4 M46 17 l4 4 M70 21 l4 -4 M74 24 l4 -4" /> })}
        {signs.has("wrong-kind").then(|| view! { <path class="body" d="M60 15 l7 4 v8 l-7 4 l-7 -4 v-8 Z" /> })}
    }
    .into_any()
}

/// Studs and nuts in a row as they are counted, the ones with a sign among sound ones.
fn studs(item: Item, shown: &Shown) -> AnyView {
    let marked = match shown {
        Shown::Numbered(signs) => signs.clone(),
        _ => Vec::new(),
    };
    let drawn = (1..=10_u16).map(|number| {
        let signs: Vec<&str> = marked
            .iter()
            .filter(|(at, _)| *at == number)
            .map(|(_, sign)| *sign)
            .collect();
        let has = |sign: &str| signs.contains(&sign);
        let x = 12.0 + 24.0 * f64::from((number - 1) % 5);
        let y = if number <= 5 { 4.0 } else { 44.0 };
        one_stud(item, x, y, &has)
    });
    view! { {drawn.collect_view()} }.into_any()
}

fn one_stud(item: Item, x: f64, y: f64, has: &dyn Fn(&str) -> bool) -> impl IntoView + use<> {
    let nut = item == Item::Nuts;
    let broken = has("broken") || has("stud-broken");
    let top = if broken {
        y + 16.0
    } else if has("stretched") {
        y - 3.5
    } else {
        y
    };
    // Pulled thin in its middle, or necked down so far that it is about to part.
    let waist = if has("waisted") {
        1.4
    } else if has("stretched") {
        2.6
    } else {
        4.0
    };
    let right = [
        (4.0, top),
        (4.0, y + 9.0),
        (waist, y + 14.0),
        (waist, y + 20.0),
        (4.0, y + 25.0),
        (4.0, y + 30.0),
    ];
    let left = right.iter().rev().map(|(dx, y)| (x - dx, *y));
    let stud = polygon(right.iter().map(|(dx, y)| (x + dx, *y)).chain(left));
    let plain = format!("M{} {top} h8 V{} h-8 Z", x - 4.0, y + 30.0);
    // The thread of a stretched stud has opened.
    let pitch = if has("stretched") { 3.4 } else { 2.2 };
    let threads = if has("stretched") { 3 } else { 5 };
    let thread: String = (0..threads)
        .map(|n| format!("M{} {:.1} l8 1 ", x - 4.0, top + 1.5 + pitch * f64::from(n)))
        .collect();
    let shows_nut = nut && !has("missing") && !broken;
    let lift = if has("loose") { -6.0 } else { 0.0 };
    view! {
        <path class="part" d=if waist < 4.0 && !broken { stud } else { plain } />
        {(!broken).then(|| view! { <path class="fine" d=thread /> })}
        {has("threads").then(|| view! { <path class="spot-burnt" d=format!("M{} {} h8 v10 h-8 Z", x - 4.0, y + 4.0) /> })}
        {has("neighbour").then(|| view! { <circle class="bubble" cx=x cy=y + 4.0 r="6" /> })}
        {shows_nut.then(|| view! {
            <path class="body" d=format!("M{} {} h18 v13 h-18 Z", x - 9.0, y + 15.0 + lift) />
            <path class="fine" d=format!("M{} {} v13 M{} {} v13", x - 4.0, y + 15.0 + lift, x + 4.0, y + 15.0 + lift) />
        })}
        {(nut && has("new-nut")).then(|| crack(x - 5.0, y + 15.0, 13.0))}
        {(nut && has("stiff-freed")).then(|| view! { <path class="turn" d=arc((x, y + 20.0), 10.0, 250.0, 340.0) /> })}
        <path class="body" d=format!("M{} {} h22 v4 h-22 Z", x - 11.0, y + 28.0 + 0.0) />
    }
}

fn hose(signs: &Signs) -> AnyView {
    view! {
        <path class="hose" d="M14 16 q0 46 46 46 t46 -46" />
        <path class="body" d="M6 4 h16 v14 h-16 Z M98 4 h16 v14 h-16 Z" />
        {signs.has("hose").then(|| view! {
            <path class="chafed" d="M40 52 q20 16 40 0" />
            {crack(58.0, 54.0, 16.0)}
            {bubbles(72.0, 50.0)}
        })}
    }
    .into_any()
}

fn shield(signs: &Signs) -> AnyView {
    let bent = signs.has("dust-shield");
    let plate = if bent {
        "M20 70 q-10 -60 40 -62 q30 0 38 24 l-14 6 l18 10 q2 12 -2 22 Z"
    } else {
        "M20 70 q-10 -60 40 -62 q50 2 40 62 Z"
    };
    view! {
        <path class="part" d=plate />
        <circle class="body" cx="60" cy="50" r="18" />
        <circle class="part" cx="60" cy="50" r="9" />
        {bent.then(|| view! { <path class="gone-piece" d="M30 34 q8 -8 12 0 t-4 10 t-8 -10 Z" /> <path class="fine" d=hatch(24.0, 52.0, 14.0, 16.0, 3.0) /> })}
    }
    .into_any()
}
