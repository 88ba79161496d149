//! What stands against a press, all of it at once. What was typed stays on the screen beside it.

use job::words::Words;
use leptos::prelude::*;

use crate::say::say;
use crate::session::Session;

/// A list of refusals, read out as soon as it is there; nothing while there are none.
#[component]
pub(crate) fn Wanting(#[prop(into)] words: Signal<Vec<Words>>) -> impl IntoView {
    let session = expect_context::<Session>();
    move || {
        let wanting = words.get();
        (!wanting.is_empty()).then(|| {
            let units = session.units();
            let line = move |words: Words| view! { <li>{say(&words, &units)}</li> };
            view! {
                <ul class="wanting" role="alert" data-testid="wanting">
                    {wanting.into_iter().map(line).collect_view()}
                </ul>
            }
        })
    }
}
