//! Free text with the tablet's own keyboard: names, unit numbers, reasons. Never a reading.

use leptos::prelude::*;

/// A labelled text box that keeps what is typed in `text`.
#[component]
pub(crate) fn TextEntry(
    #[prop(into)] words: Signal<String>,
    text: RwSignal<String>,
    /// Test id of the box.
    #[prop(default = "text")]
    testid: &'static str,
) -> impl IntoView {
    view! {
        <label class="text-entry">
            <span>{move || words.get()}</span>
            <textarea
                rows="1"
                autocomplete="off"
                spellcheck="false"
                data-testid=testid
                prop:value=move || text.get()
                on:input=move |event| text.set(event_target_value(&event))
            ></textarea>
        </label>
    }
}
