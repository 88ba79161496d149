//! What is printed on the edge of a lining, or of two, one above the other.

use leptos::prelude::*;

use crate::words::{fill, t};

/// One lining as it lies on its shoe.
#[component]
pub(crate) fn EdgePrint(print: String) -> impl IntoView {
    let name = fill("ui.see.edge", &[("text", &print)]);
    view! {
        <svg class="pic instrument" viewBox="0 0 124 58" role="img" aria-label=name data-testid="seen-edge">
            <path class="part" d="M4 16 H120 V38 H4 Z" />
            <path class="body" d="M4 38 H120 v6 H4 Z" />
            <text class="middle cast" x="62" y="32">{print}</text>
        </svg>
    }
}

/// Left lining above, right lining below.
#[component]
pub(crate) fn EdgePrints(prints: [String; 2]) -> impl IntoView {
    let [left, right] = &prints;
    let name = fill(
        "ui.drill.edge-code.prints",
        &[("left", left), ("right", right)],
    );
    let lining = |y: f64, side: String, print: String| {
        view! {
            <path class="part" d=format!("M24 {y} H122 V{} H24 Z", y + 17.0) />
            <path class="body" d=format!("M24 {} H122 v5 H24 Z", y + 17.0) />
            <text x="1" y=y + 12.0>{side}</text>
            <text class="middle print" x="73" y=y + 12.0>{print}</text>
        }
    };
    let [left, right] = prints;
    view! {
        <svg class="pic instrument" viewBox="0 0 124 58" role="img" aria-label=name data-testid="seen-edges">
            {lining(4.0, t("ui.drill.edge-code.left"), left)}
            {lining(32.0, t("ui.drill.edge-code.right"), right)}
        </svg>
    }
}
