//! "Not yet: …": why a step can't be taken now, what to do, and a button that goes there.

use leptos::prelude::*;

use crate::words::t;

/// A hold in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct NotYetShown {
    /// What comes first and where, without "Not yet".
    pub(crate) why: String,
    /// Words of the button that goes there; none where no screen can help.
    pub(crate) go: Option<String>,
}

/// A band over the step while something holds it.
#[component]
pub(crate) fn NotYet(
    /// `None` shows nothing.
    #[prop(into)]
    hold: Signal<Option<NotYetShown>>,
    on_go: Callback<()>,
) -> impl IntoView {
    move || {
        hold.get().map(|hold| {
            view! {
                <section class="not-yet" role="alert" data-testid="not-yet">
                    <p>
                        <strong>{t("ui.not-yet")}" "{hold.why}</strong>
                    </p>
                    {hold.go.map(|go| view! {
                        <button type="button" class="key" data-testid="not-yet-go" on:click=move |_| on_go.run(())>
                            {go}
                        </button>
                    })}
                </section>
            }
        })
    }
}
