//! The full-width answer to a press: being saved, saved, or not saved.
//!
//! It lies in the dead edge at the bottom, over nothing that can be pressed.

use leptos::prelude::*;

use crate::words::t;

/// How far the last press has come.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Saving {
    /// Nothing was pressed lately.
    #[default]
    Quiet,
    /// Being written.
    Going,
    /// On the medium.
    Kept,
    /// Not written: nothing of it was kept.
    Failed,
}

/// A band across the whole width that follows the last press.
#[component]
pub(crate) fn Flash(
    /// Set by the session; `Kept` fades by itself, `Failed` stays.
    #[prop(into)]
    saving: Signal<Saving>,
) -> impl IntoView {
    let words = move || match saving.get() {
        Saving::Quiet => String::new(),
        Saving::Going => t("ui.flash.going"),
        Saving::Kept => t("ui.flash.kept"),
        Saving::Failed => t("ui.flash.failed"),
    };
    view! {
        <div
            class="flash"
            class:going=move || saving.get() == Saving::Going
            class:kept=move || saving.get() == Saving::Kept
            class:failed=move || saving.get() == Saving::Failed
            role="status"
            aria-live="polite"
            data-testid="flash"
        >
            <svg class="sign flash-tick" viewBox="0 0 48 48" aria-hidden="true">
                <path d="M8 26 L20 38 L41 11" />
            </svg>
            <span>{words}</span>
        </div>
    }
}
