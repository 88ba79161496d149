//! As found and as left side by side for the whole vehicle, wheel end by wheel end, on one page. It
//! judges nothing: each verdict is told as the second look tells it.

use job::id::Place;
use job::procedure::Scope;
use leptos::prelude::*;

use crate::parts::scroller::Scroller;
use crate::say::place;
use crate::session::Session;
use crate::words::t;

use super::look::sections::rounds_of;
use super::page::{Page, way_back};

/// The page.
#[component]
pub(crate) fn SidesScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let back = way_back(session);
    let ends = move || {
        let (units, language) = (
            session.units(),
            session.settings.with(|settings| settings.language.clone()),
        );
        session.open.with(|open| {
            let card = &open.as_ref()?.card;
            let ends = card.places(Scope::End, Place::Vehicle).into_iter();
            let end = |at: Place| {
                view! {
                    <section class="look-part" data-testid=format!("sides-{at}")>
                        <h2>{place(at)}</h2>
                        {rounds_of(card, at, units, language.clone())}
                    </section>
                }
            };
            Some(ends.map(end).collect_view())
        })
    };
    view! {
        <Page title=t("ui.sides.title") on_back=back>
            <Scroller>
                <div class="sides" data-testid="sides">{ends}</div>
            </Scroller>
        </Page>
    }
}
