//! "You are at axle 2, left": said before work goes on after a while away, at a wheel end that is
//! another's or nobody's yet, and when the app was started anew. With it how that wheel end stands.

use job::id::Place;
use job::physical::physical;
use leptos::prelude::*;

use crate::parts::scroller::Scroller;
use crate::parts::wide_done::WideDone;
use crate::say::{place, say};
use crate::screen::Screen;
use crate::session::Session;
use crate::words::{fill, t};

pub(super) fn view(session: Session, at: Place, here: RwSignal<bool>) -> AnyView {
    let parts = sentence(session, at);
    let whose = session.open.with_untracked(|open| {
        let card = &open.as_ref()?.card;
        let me = session.me.get_untracked()?;
        Some(match card.has(at) {
            Some(who) if *who == me => t("ui.here.yours"),
            Some(who) => fill(
                "ui.here.anothers",
                &[("name", card.name(who)), ("me", card.name(&me))],
            ),
            None => fill("ui.here.nobodys", &[("me", card.name(&me))]),
        })
    });
    let go_on = Callback::new(move |()| {
        session.at_end.set(Some(at));
        here.set(false);
    });
    view! {
        <div class="body here" data-testid="here">
            <h2 class="here-place">{fill("ui.here", &[("place", &place(at))])}</h2>
            <Scroller>
                <p class="here-state" data-testid="physical">{parts}</p>
                <p class="here-whose">{whose}</p>
                <div class="here-keys">
                {matches!(at, Place::End(..)).then(|| view! {
                    <button
                        type="button"
                        class="key wide-key"
                        data-testid="to-hand-over"
                        on:click=move |_| session.go(Screen::HandOver { at })
                    >
                        {t("ui.over.open-page")}
                    </button>
                })}
                <button type="button" class="key wide-key" data-testid="not-here" on:click=move |_| session.go(Screen::Map)>
                    {t("ui.here.not")}
                </button>
                </div>
            </Scroller>
        </div>
        <WideDone words=t("ui.here.yes") waits=false on_done=go_on/>
    }
    .into_any()
}

/// How a place stands, as one sentence.
pub(crate) fn sentence(session: Session, at: Place) -> String {
    let units = session.units();
    session.open.with(|open| {
        let parts: Vec<String> = open
            .iter()
            .flat_map(|open| physical(&open.card, at))
            .map(|part| say(&part, &units))
            .collect();
        if parts.is_empty() {
            t("ui.here.untouched")
        } else {
            parts.join("; ")
        }
    })
}
