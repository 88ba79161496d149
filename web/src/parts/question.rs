//! A question about what was typed, before it is taken. Its two answers stand far apart.

use leptos::prelude::*;

/// The words of a question.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct QuestionShown {
    /// What was typed, large, with its unit.
    pub(crate) typed: String,
    /// What is asked about it.
    pub(crate) ask: String,
    /// Keeps it as typed.
    pub(crate) keep: String,
    /// Goes back to the pad.
    pub(crate) again: String,
}

/// Asks once; answers `true` for keep.
#[component]
pub(crate) fn Question(question: QuestionShown, on_answer: Callback<bool>) -> impl IntoView {
    let name = question.ask.clone();
    view! {
        <section class="question" role="alertdialog" aria-label=name data-testid="question">
            <p class="question-typed">{question.typed}</p>
            <p class="question-ask">{question.ask}</p>
            <div class="question-answers">
                <button type="button" class="key" data-testid="question-again" on:click=move |_| on_answer.run(false)>
                    {question.again}
                </button>
                <button type="button" class="key" data-testid="question-keep" on:click=move |_| on_answer.run(true)>
                    {question.keep}
                </button>
            </div>
        </section>
    }
}
