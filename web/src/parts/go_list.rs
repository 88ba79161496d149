//! A list of places to go to: each row leads somewhere, and shows whether that is done.

use leptos::prelude::*;

use super::scroller::Scroller;

/// One row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct GoRow {
    /// What comes back when it is pressed; also its test id, as `choice-<id>`.
    pub(crate) id: String,
    pub(crate) words: String,
    /// A second, smaller line; may be empty.
    pub(crate) detail: String,
    /// Drawn with a tick; the words say it too.
    pub(crate) done: bool,
}

/// The rows in order.
#[component]
pub(crate) fn GoList(
    #[prop(into)] rows: Signal<Vec<GoRow>>,
    on_go: Callback<String>,
    /// Places only: none of them is ever done.
    #[prop(optional)]
    places: bool,
) -> impl IntoView {
    view! {
        <Scroller>
            <GoRows rows on_go places />
        </Scroller>
    }
}

/// The rows alone, for a page that scrolls as a whole.
#[component]
pub(crate) fn GoRows(
    #[prop(into)] rows: Signal<Vec<GoRow>>,
    on_go: Callback<String>,
    /// Places only: none of them is ever done.
    #[prop(optional)]
    places: bool,
) -> impl IntoView {
    let row = move |row: GoRow| {
        let id = StoredValue::new(row.id.clone());
        view! {
            <button
                type="button"
                class="row-key go-key"
                class:done=row.done
                data-testid=format!("choice-{}", row.id)
                on:click=move |_| on_go.run(id.get_value())
            >
                {(!places).then(|| view! {
                    <svg class="sign row-mark" viewBox="0 0 48 48" aria-hidden="true">
                        <rect class="row-mark-box" x="5" y="5" width="38" height="38" rx="6" />
                        <path class="row-mark-tick" d="M13 25 L21 34 L36 14" />
                    </svg>
                })}
                <span class="row-words">
                    <span>{row.words}</span>
                    <small>{row.detail}</small>
                </span>
                <svg class="sign" viewBox="0 0 48 48" aria-hidden="true">
                    <path d="M18 8 L34 24 L18 40" />
                </svg>
            </button>
        }
    };
    view! { <div class="rows">{move || rows.get().into_iter().map(row).collect_view()}</div> }
}
