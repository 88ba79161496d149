//! One wheel end for the second look: everything that was measured and done there on one page, what
//! is out of the ordinary on top, and at its end accept or send back.

use job::event::Item;
use job::hold::{self, Hold};
use job::id::{AskId, Place, StepId};
use job::second_look::{self, Waits};
use leptos::prelude::*;

use crate::device;
use crate::parts::not_yet::{NotYet, NotYetShown};
use crate::parts::scroller::Scroller;
use crate::say::{place, say};
use crate::screen::Screen;
use crate::session::Session;
use crate::words::{fill, t};

use super::page::{Page, anew};

mod decide;
mod nuts;
pub(crate) mod sections;

/// The page of one wheel end.
#[component]
pub(crate) fn LookScreen(
    /// The wheel end.
    at: Place,
) -> impl IntoView {
    let session = expect_context::<Session>();
    let sending_back = RwSignal::new(false);
    // What is in order and plain is shown once it is asked for.
    let unfolded = RwSignal::new(false);
    let content = move || {
        if sending_back.get() {
            decide::send_back(session, at)
        } else {
            view! {
                <Scroller>
                    <HoldBand at />
                    {move || sections::view(session, at, unfolded)}
                </Scroller>
                <decide::Decide at sending_back />
            }
            .into_any()
        }
    };
    let body = move || anew(content());
    let back = Callback::new(move |()| {
        if sending_back.get_untracked() {
            sending_back.set(false);
        } else {
            session.go(Screen::Looks);
        }
    });
    let title = fill("ui.look.title", &[("place", &place(at))]);
    view! { <Page title on_back=back>{body}</Page> }
}

/// The ask of the second look.
fn asked() -> (StepId, AskId) {
    (StepId::from(second_look::STEP), AskId::from("look"))
}

/// What stands against a look by the person at hand, with the step to do first if there is one.
fn held(session: Session, at: Place) -> Option<(NotYetShown, Option<(Place, StepId)>)> {
    let units = session.units();
    let me = session.me.get();
    session.open.with(|open| {
        let card = &open.as_ref()?.card;
        if second_look::waits(card, at) == Some(Waits::Accepted) {
            return None;
        }
        let (step, ask) = asked();
        let hold = match &me {
            None => Some(Hold::SignOn),
            Some(me) => hold::may_take(card, me, at, &step, &ask, Item::Only, device::now()).err(),
        }?;
        let first = hold.first().map(|(at, step)| (at, step.clone()));
        let go = match (&first, &hold) {
            (Some(_), _) => Some(t("ui.not-yet.go")),
            (None, Hold::SignOn | Hold::ForemanLooks | Hold::OwnWork { .. }) => {
                Some(t("ui.not-yet.people"))
            }
            (None, _) => None,
        };
        let shown = NotYetShown {
            why: say(&hold.words(card), &units),
            go,
        };
        Some((shown, first))
    })
}

/// The same as a band with the key that leads on.
#[component]
fn HoldBand(
    /// The wheel end.
    at: Place,
) -> impl IntoView {
    let session = expect_context::<Session>();
    let held = Memo::new(move |_| held(session, at));
    let go = Callback::new(
        move |()| match held.get_untracked().and_then(|(_, first)| first) {
            Some((at, step)) => session.go(Screen::Step { at, step }),
            None => session.go(Screen::People),
        },
    );
    view! { <NotYet hold=Signal::derive(move || held.get().map(|(shown, _)| shown)) on_go=go /> }
}
