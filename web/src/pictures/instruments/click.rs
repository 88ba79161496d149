//! A nut under a torque wrench, before and at the click: a paint line over nut and wheel tells
//! whether it turned.

use leptos::prelude::*;
use rules::torque::moved::Moved;

use crate::pictures::geometry::{arc, on_circle, polygon, polyline};
use crate::words::t;

/// Before the wrench was put on, and then.
#[component]
pub(crate) fn ClickPicture(
    moved: Moved,
    /// Read aloud in its place.
    name: String,
) -> impl IntoView {
    // How far it turned, and whether the wrench clicked.
    let (turned, clicks) = match moved {
        Moved::Held => (0.0, true),
        Moved::Turned => (22.0, true),
        Moved::LooseAgain => (150.0, false),
    };
    let nut = |x: f64, turned: f64| {
        let centre = (x, 31.0);
        let corners =
            (0_u8..6).map(|n| on_circle(centre, 15.0, turned + 30.0 + 60.0 * f64::from(n)));
        let on_nut = [
            on_circle(centre, 6.0, turned),
            on_circle(centre, 14.0, turned),
        ];
        let on_wheel = [on_circle(centre, 17.5, 0.0), on_circle(centre, 24.0, 0.0)];
        view! {
            <circle class="part" cx=x cy="31" r="25" />
            <path class="body" d=polygon(corners) />
            <circle class="part" cx=x cy="31" r="5.4" />
            <path class="paint" d=polyline(on_nut) />
            <path class="paint" d=polyline(on_wheel) />
        }
    };
    let way = (turned > 0.0).then(|| {
        let (x, y) = on_circle((88.0, 31.0), 20.0, turned);
        let (u, v) = on_circle((88.0, 31.0), 16.8, turned - 10.0);
        let (s, w) = on_circle((88.0, 31.0), 23.2, turned - 10.0);
        view! {
            <path class="pointer" d=arc((88.0, 31.0), 20.0, 4.0, turned) />
            <path class="pointer" d=polyline([(u, v), (x, y), (s, w)]) />
        }
    });
    let click = if clicks {
        "ui.drill.click.clicks"
    } else {
        "ui.drill.click.silent"
    };
    view! {
        <svg class="pic instrument" viewBox="0 0 124 58" role="img" aria-label=name data-testid="seen-click">
            {nut(34.0, 0.0)}
            {nut(88.0, turned)}
            {way}
            <text class="middle" x="34" y="5">{t("ui.drill.click.before")}</text>
            <text class="middle" x="88" y="5">{t(click)}</text>
        </svg>
    }
}
