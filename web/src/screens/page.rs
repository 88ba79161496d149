//! The frame of every screen that is not a step: the way back, what it is called, what the tablet
//! has to say, and then the screen's own. It decides nothing about a card.

use leptos::prelude::*;

use crate::parts::flash::{self, Flash};
use crate::screen::Screen;
use crate::session::Session;
use crate::words::t;

use super::band::PracticeBand;
use super::runner::flash_of;

/// The last place of work, that a side screen goes back to.
#[derive(Clone, Copy)]
pub(crate) struct CameFrom(RwSignal<Screen>);

/// Remembers the last place of work. Call once, at the root.
pub(crate) fn remember_places(session: Session) {
    let from = RwSignal::new(Screen::Start);
    provide_context(CameFrom(from));
    Effect::new(move || {
        let screen = session.screen.get();
        if matches!(
            screen,
            Screen::Start | Screen::Map | Screen::Step { .. } | Screen::Looks | Screen::Look { .. }
        ) {
            from.set(screen);
        }
    });
}

/// Leads back to where this side screen was opened from. Ask while the screen is drawn.
pub(crate) fn way_back(session: Session) -> Callback<()> {
    let from = use_context::<CameFrom>();
    Callback::new(move |()| {
        let from = from.map(|CameFrom(from)| from.get_untracked());
        let has_card = session.open.with_untracked(Option::is_some);
        let to = match from {
            Some(from) if from.needs_card() && has_card => from,
            // A card's own screens never lead out of the card.
            _ if has_card && session.screen.with_untracked(Screen::needs_card) => Screen::Map,
            _ => Screen::Start,
        };
        session.go(to);
    })
}

/// Leads from a list of the shop sheet back to the work it was opened from, or to the sheet.
pub(crate) fn back_to_shop(session: Session) -> Callback<()> {
    let from = use_context::<CameFrom>();
    let back = way_back(session);
    Callback::new(
        move |()| match from.map(|CameFrom(from)| from.get_untracked()) {
            Some(from) if from.needs_card() => back.run(()),
            _ => session.go(Screen::Shop),
        },
    )
}

/// Back, the title and the bands, with the screen's own below.
#[component]
pub(crate) fn Page(
    #[prop(into)] title: Signal<String>,
    on_back: Callback<()>,
    children: Children,
) -> impl IntoView {
    view! {
        <main class="side">
            <PracticeBand />
            <header class="side-head">
                <BackKey on_back />
                <h1>{move || title.get()}</h1>
            </header>
            <div class="side-body">{anew(children())}</div>
            <SavedFlash />
        </main>
    }
}

/// Draws a view anew where another one of the same shape stood, instead of changing that one: a new
/// page opens at its top and holds nothing of the page before.
pub(crate) fn anew(view: AnyView) -> AnyView {
    let once = StoredValue::new_local(Some(view));
    // A closure is always built again; what it gives is taken out once.
    (move || once.try_update_value(Option::take).flatten()).into_any()
}

/// The way back, in the same corner of every screen that is not a step.
#[component]
pub(crate) fn BackKey(on_back: Callback<()>) -> impl IntoView {
    view! {
        <button type="button" class="key side-back" data-testid="back" on:click=move |_| on_back.run(())>
            <svg class="sign" viewBox="0 0 48 48" aria-hidden="true">
                <path d="M30 8 L14 24 L30 40" />
            </svg>
            <span>{t("ui.back")}</span>
        </button>
    }
}

/// The answer to a press of this screen: being saved, saved, or not. What was saved before it opened
/// is not told again.
#[component]
pub(crate) fn SavedFlash() -> impl IntoView {
    let session = expect_context::<Session>();
    let before = session.saving.get_untracked();
    let saving = move || {
        let now = session.saving.get();
        if now == before {
            flash::Saving::Quiet
        } else {
            flash_of(&now)
        }
    };
    view! { <Flash saving=Signal::derive(saving) /> }
}
