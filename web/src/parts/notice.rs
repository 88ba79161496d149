//! What the tablet has to say about itself: store full, a second tab, plain http, a new build.

use leptos::prelude::*;

/// How much a notice matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum NoticeTone {
    /// Good to know.
    Plain,
    /// Work can't be kept, or not here.
    Stops,
}

/// One notice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct NoticeShown {
    pub(crate) tone: NoticeTone,
    pub(crate) words: String,
    /// Words of its button; none where only reading helps.
    pub(crate) action: Option<String>,
}

/// A band with one line of words and at most one button.
#[component]
pub(crate) fn Notice(
    /// `None` shows nothing.
    #[prop(into)]
    notice: Signal<Option<NoticeShown>>,
    on_action: Callback<()>,
) -> impl IntoView {
    move || {
        notice.get().map(|notice| {
            view! {
                <aside class="notice" class:stops=notice.tone == NoticeTone::Stops role="status" data-testid="notice">
                    <p>{notice.words}</p>
                    {notice.action.map(|action| view! {
                        <button type="button" class="key" data-testid="notice-action" on:click=move |_| on_action.run(())>
                            {action}
                        </button>
                    })}
                </aside>
            }
        })
    }
}
