//! The end of the page: accept in one's own name, or send back with what is to be done again and why.

use job::event::{Answer, Item};
use job::id::{Place, StepId};
use job::second_look::{self, Waits};
use job::words::Words;
use leptos::prelude::*;

use crate::parts::choice_list::{Choice, ChoiceRows};
use crate::parts::hold_button::HoldButton;
use crate::parts::scroller::Scroller;
use crate::parts::text_entry::TextEntry;
use crate::parts::wide_done::WideDone;
use crate::screen::Screen;
use crate::screens::told::step_name;
use crate::screens::wanting::Wanting;
use crate::session::Session;
use crate::words::{fill, t};

use super::{HoldBand, asked, held};

/// Accept and Send back.
#[component]
pub(super) fn Decide(
    /// The wheel end.
    at: Place,
    /// Set by the key that leads to sending back.
    sending_back: RwSignal<bool>,
) -> impl IntoView {
    let session = expect_context::<Session>();
    let wanting = RwSignal::new(Vec::<Words>::new());
    let refused = RwSignal::new(false);
    let accepted = Memo::new(move |_| {
        session.open.with(|open| {
            open.as_ref()
                .is_some_and(|open| second_look::waits(&open.card, at) == Some(Waits::Accepted))
        })
    });
    let name = move || {
        session.open.with(|open| {
            let me = session.me.get()?;
            Some(open.as_ref()?.card.name(&me).to_owned())
        })
    };
    let words = Signal::derive(move || match (accepted.get(), name()) {
        (true, _) => t("ui.look.accepted"),
        (false, Some(name)) => fill("ui.look.accept-as", &[("name", &name)]),
        (false, None) => t("ui.look.accept"),
    });
    let accept = Callback::new(move |()| {
        let answer = Answer::Look {
            accepted: true,
            why: None,
            seen: None,
            again: Vec::new(),
        };
        let told = look(session, at, answer);
        refused.set(told.is_err());
        wanting.set(told.err().into_iter().collect());
    });
    // The same hold that stands on top, with its key, where the press was.
    let again = move || refused.get() && untrack(|| held(session, at)).is_some();
    view! {
        {move || if again() {
            view! { <HoldBand at /> }.into_any()
        } else {
            view! { <Wanting words=wanting /> }.into_any()
        }}
        <div class="look-decide">
            <HoldButton words held=Signal::derive(move || accepted.get() || !session.can_write()) on_held=accept testid="accept" />
            <button type="button" class="key" data-testid="send-back" on:click=move |_| sending_back.set(true)>
                {t("ui.look.send-back")}
            </button>
        </div>
    }
}

/// Answers the look; the waiting list is next.
fn look(session: Session, at: Place, answer: Answer) -> Result<(), Words> {
    let (step, ask) = asked();
    session.answer(at, &step, &ask, Item::Only, answer, None, |session| {
        session.go(Screen::Looks);
    })
}

/// Which steps are to be done again, and why.
pub(super) fn send_back(session: Session, at: Place) -> AnyView {
    let wanting = RwSignal::new(Vec::<Words>::new());
    let again = RwSignal::new(Vec::<String>::new());
    let why = RwSignal::new(String::new());
    let choices: Vec<Choice> = session.open.with_untracked(|open| {
        open.iter()
            .flat_map(|open| second_look::can_be_sent_back(&open.card, at))
            .map(|step| Choice::new(step.id.as_str(), step_name(&step.id)))
            .collect()
    });
    let turn = Callback::new(move |id: String| {
        again.update(|again| {
            if again.contains(&id) {
                again.retain(|one| *one != id);
            } else {
                again.push(id);
            }
        });
    });
    let done = Callback::new(move |()| {
        let answer = Answer::Look {
            accepted: false,
            why: Some(why.get_untracked().trim().to_owned()),
            seen: None,
            again: again
                .with_untracked(|again| again.iter().map(|id| StepId::from(id.as_str())).collect()),
        };
        wanting.set(look(session, at, answer).err().into_iter().collect());
    });
    let words = Signal::derive(move || match again.with(Vec::len) {
        0 => t("ui.look.send-back-none"),
        count => fill("ui.look.send-back-steps", &[("count", &count.to_string())]),
    });
    let waits = move || !session.can_write() || why.with(|why| why.trim().is_empty());
    view! {
        <Scroller>
            <HoldBand at />
            <Wanting words=wanting />
            <TextEntry words=t("ui.reason") text=why testid="look-why" />
            <h2>{t("ui.look.again")}</h2>
            <ChoiceRows choices=Signal::stored(choices) chosen=again on_choose=turn />
        </Scroller>
        <WideDone words waits=Signal::derive(waits) on_done=done />
    }
    .into_any()
}
