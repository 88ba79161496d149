//! The one wide button at the bottom of a step.

use leptos::prelude::*;

/// Done, or whatever ends this screen. While something holds the step it looks held but still answers,
/// so that its screen can say why.
#[component]
pub(crate) fn WideDone(
    #[prop(into)] words: Signal<String>,
    /// True while the step can't be taken yet.
    #[prop(into)]
    waits: Signal<bool>,
    on_done: Callback<()>,
) -> impl IntoView {
    view! {
        <button
            type="button"
            class="wide-done"
            class:waits=move || waits.get()
            data-testid="done"
            on:click=move |_| on_done.run(())
        >
            {move || words.get()}
        </button>
    }
}
