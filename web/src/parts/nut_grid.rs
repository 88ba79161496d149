//! Wheel nuts as a grid of big cells: chosen here, never on the drawn circle.

use leptos::prelude::*;

use crate::words::{fill, t};

/// What is known of one nut in this pass.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum NutMark {
    /// Not touched in this pass.
    #[default]
    Open,
    /// The next one in order.
    Next,
    /// Done in this pass.
    Done,
    /// Named as an exception.
    Apart,
}

/// One cell per nut, in the order of `marks`: nut 1 is first.
#[component]
pub(crate) fn NutGrid(
    /// The mark of each nut.
    #[prop(into)]
    marks: Signal<Vec<NutMark>>,
    /// Gets the number of the nut, from 1.
    on_nut: Callback<u8>,
) -> impl IntoView {
    let cell = move |(number, mark): (u8, NutMark)| {
        let (class, words, sign) = match mark {
            NutMark::Open => ("open", t("ui.nut.open"), ""),
            NutMark::Next => ("next", t("ui.nut.next"), "M10 8 L38 24 L10 40 Z"),
            NutMark::Done => ("done", t("ui.nut.done"), "M8 26 L20 38 L41 11"),
            NutMark::Apart => ("apart", t("ui.nut.apart"), "M10 10 L38 38 M38 10 L10 38"),
        };
        let name = fill(
            "ui.nut.name",
            &[("nut", &number.to_string()), ("state", &words)],
        );
        view! {
            <button
                type="button"
                class=format!("key nut {class}")
                data-testid=format!("nut-{number}")
                aria-label=name
                on:click=move |_| on_nut.run(number)
            >
                <span class="nut-number">{number}</span>
                <span class="nut-state">
                    <svg class="sign" viewBox="0 0 48 48" aria-hidden="true">
                        <path d=sign />
                    </svg>
                    {words}
                </span>
            </button>
        }
    };
    view! { <div class="nut-grid">{move || (1_u8..).zip(marks.get()).map(cell).collect_view()}</div> }
}
