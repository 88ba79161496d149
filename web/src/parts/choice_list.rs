//! Options as big rows. What is chosen shows by shape and word, not by tone alone.

use leptos::prelude::*;

use crate::words::t;

use super::scroller::Scroller;

/// One option.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Choice {
    /// What comes back when it is pressed; also its test id, as `choice-<id>`.
    pub(crate) id: String,
    pub(crate) words: String,
    /// A second, smaller line; may be empty.
    pub(crate) detail: String,
}

impl Choice {
    /// An option without a second line.
    pub(crate) fn new(id: impl Into<String>, words: impl Into<String>) -> Self {
        Self {
            id: id.into(),
            words: words.into(),
            detail: String::new(),
        }
    }
}

/// A list to choose from; one or several may be chosen, as the screen decides.
#[component]
pub(crate) fn ChoiceList(
    /// The options in order.
    #[prop(into)]
    choices: Signal<Vec<Choice>>,
    /// Ids that are chosen now.
    #[prop(into)]
    chosen: Signal<Vec<String>>,
    on_choose: Callback<String>,
) -> impl IntoView {
    view! {
        <Scroller>
            <ChoiceRows choices chosen on_choose />
        </Scroller>
    }
}

/// The rows alone, for a page that scrolls as a whole.
#[component]
pub(crate) fn ChoiceRows(
    /// The options in order.
    #[prop(into)]
    choices: Signal<Vec<Choice>>,
    /// Ids that are chosen now.
    #[prop(into)]
    chosen: Signal<Vec<String>>,
    on_choose: Callback<String>,
) -> impl IntoView {
    let row = move |choice: Choice| {
        let id = StoredValue::new(choice.id.clone());
        let is_chosen = move || chosen.with(|chosen| id.with_value(|id| chosen.contains(id)));
        view! {
            <button
                type="button"
                class="row-key"
                class:chosen=is_chosen
                aria-pressed=move || is_chosen().to_string()
                data-testid=format!("choice-{}", choice.id)
                on:click=move |_| on_choose.run(id.get_value())
            >
                <svg class="sign row-mark" viewBox="0 0 48 48" aria-hidden="true">
                    <rect class="row-mark-box" x="5" y="5" width="38" height="38" rx="6" />
                    <path class="row-mark-tick" d="M13 25 L21 34 L36 14" />
                </svg>
                <span class="row-words">
                    <span>{choice.words}</span>
                    <small>{choice.detail}</small>
                </span>
                <span class="row-state">{move || is_chosen().then(|| t("ui.chosen"))}</span>
            </button>
        }
    };
    view! { <div class="rows">{move || choices.get().into_iter().map(row).collect_view()}</div> }
}
