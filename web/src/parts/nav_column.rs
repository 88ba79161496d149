//! Back, Map and Found something: always there, always in the same places. Take back stands before
//! them where the glove leaves room for a fourth key.

use leptos::prelude::*;

use crate::words::t;

/// Which key was pressed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum NavTo {
    /// The step before.
    Back,
    /// The map of the card.
    Map,
    /// The person's own last entry goes.
    TakeBack,
    /// Something is wrong that the step does not ask for.
    Found,
}

/// The keys, with the [corner](super::corner::Corner) above or beside them as its child.
#[component]
pub(crate) fn NavColumn(on_go: Callback<NavTo>, children: Children) -> impl IntoView {
    let key = move |to: NavTo, testid: &'static str, sign: &'static str, words: String| {
        view! {
            <button type="button" class=format!("key nav-key {testid}") data-testid=testid on:click=move |_| on_go.run(to)>
                <svg class="sign" viewBox="0 0 48 48" aria-hidden="true">
                    <path d=sign />
                </svg>
                <span>{words}</span>
            </button>
        }
    };
    view! {
        <nav class="nav" aria-label=t("ui.nav.name")>
            {children()}
            {key(NavTo::TakeBack, "nav-take-back", "M12 20 H30 Q42 20 42 31 Q42 42 30 42 H16 M22 8 L10 20 L22 32", t("ui.nav.take-back"))}
            {key(NavTo::Back, "nav-back", "M30 8 L14 24 L30 40", t("ui.nav.back"))}
            {key(
                NavTo::Map,
                "nav-map",
                "M17 5 H31 V43 H17 Z M17 17 H31 M7 8 V20 M41 8 V20 M7 30 V42 M41 30 V42",
                t("ui.nav.map"),
            )}
            {key(NavTo::Found, "nav-found", "M20 7 A13 13 0 1 1 19.9 7 M30 30 L42 42", t("ui.nav.found"))}
        </nav>
    }
}
