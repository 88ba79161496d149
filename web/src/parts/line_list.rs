//! Things to do under one Done. A press takes a line out, another puts it back in.

use leptos::prelude::*;

use crate::words::t;

use super::scroller::{Pager, Scroller};
use super::wide_done::WideDone;

/// One line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Line {
    /// What comes back when it is pressed; also its test id, as `line-<id>`.
    pub(crate) id: String,
    pub(crate) words: String,
    /// Taken out: shown struck through, and named in the record as not done.
    pub(crate) out: bool,
}

/// Takes a line out by its id, or puts it back in.
pub(crate) fn turns(out: RwSignal<Vec<String>>) -> Callback<String> {
    Callback::new(move |id: String| {
        out.update(|out| {
            if out.contains(&id) {
                out.retain(|other| *other != id);
            } else {
                out.push(id);
            }
        });
    })
}

/// The lines, side by side as far as there is room: what can be seen at once need not be turned to.
#[component]
pub(crate) fn LineList(
    /// The lines in order.
    #[prop(into)]
    lines: Signal<Vec<Line>>,
    on_turn: Callback<String>,
    /// For the Done that waits until the last line was in view.
    pager: Pager,
) -> impl IntoView {
    let row = move |line: Line| {
        let id = StoredValue::new(line.id.clone());
        let mark = if line.out {
            "M10 24 H38"
        } else {
            "M10 25 L20 36 L38 12"
        };
        view! {
            <li>
                <button
                    type="button"
                    class="row-key line-tile"
                    class:out=line.out
                    aria-pressed=line.out.to_string()
                    data-testid=format!("line-{}", line.id)
                    on:click=move |_| on_turn.run(id.get_value())
                >
                    <svg class="sign row-mark" viewBox="0 0 48 48" aria-hidden="true">
                        <path d=mark />
                    </svg>
                    <span class="row-words">
                        <span>{line.words}</span>
                        <small>{line.out.then(|| t("ui.line.is-out"))}</small>
                    </span>
                </button>
            </li>
        }
    };
    view! {
        <Scroller pager>
            <ul class="rows line-tiles">{move || lines.get().into_iter().map(row).collect_view()}</ul>
        </Scroller>
    }
}

/// The Done for all lines. One Done speaks for every line, so it turns the list first as long as
/// some of them were not in view.
#[component]
pub(crate) fn LinesDone(
    pager: Pager,
    #[prop(into)] words: Signal<String>,
    #[prop(into)] waits: Signal<bool>,
    on_done: Callback<()>,
) -> impl IntoView {
    let words = Signal::derive(move || {
        if pager.has_more() {
            t("ui.lines.more")
        } else {
            words.get()
        }
    });
    let done = Callback::new(move |()| {
        if untrack(|| pager.has_more()) {
            pager.turn();
        } else {
            on_done.run(());
        }
    });
    view! { <WideDone words waits on_done=done/> }
}
