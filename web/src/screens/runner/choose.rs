//! One of a closed list.

use job::event::{Answer, Item};
use job::id::OptionId;
use job::procedure::Offer;
use leptos::prelude::*;

use super::{Asking, picture, question};
use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::wide_done::WideDone;
use crate::words::t;

pub(super) fn view(asking: Asking, offers: Vec<Offer>) -> AnyView {
    let choices = offered(&asking, &offers);
    let session = asking.session;
    let drawn = picture::view(&asking);
    let chosen = RwSignal::new(None::<String>);
    let heading = question(&asking);
    let refusal = asking.refusal;
    let done = Callback::new(move |()| match chosen.get_untracked() {
        Some(option) => {
            asking.submit(
                Item::Only,
                Answer::Choice {
                    option: OptionId::from(option.as_str()),
                },
            );
        }
        None => refusal.set(Some(t("ui.choose-first"))),
    });
    view! {
        <div class="body">
            <h2 class="question-line">{heading}</h2>
            {drawn}
            <ChoiceList
                choices=Signal::stored(choices)
                chosen=Signal::derive(move || chosen.get().into_iter().collect::<Vec<_>>())
                on_choose=Callback::new(move |id| chosen.set(Some(id)))
            />
        </div>
        <WideDone
            words=t("ui.done")
            waits=Signal::derive(move || !session.can_write() || chosen.with(Option::is_none))
            on_done=done
        />
    }
    .into_any()
}

/// The offers that this vehicle leaves open, as rows.
pub(super) fn offered(asking: &Asking, offers: &[Offer]) -> Vec<Choice> {
    let fits = |offer: &&Offer| {
        asking
            .with_card(|card| card.fits(&offer.when, asking.at))
            .unwrap_or(true)
    };
    offers
        .iter()
        .filter(fits)
        .map(|offer| Choice::new(offer.id.as_str(), asking.option_words(offer.id.as_str())))
        .collect()
}
