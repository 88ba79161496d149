//! One of a closed list.

use job::event::{Answer, Item};
use job::id::OptionId;
use job::procedure::Offer;
use leptos::prelude::*;

use super::{Asking, picture, question};
use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::wide_done::WideDone;
use crate::screens::practice::sights;
use crate::words::t;

pub(super) fn view(asking: Asking, offers: Vec<Offer>) -> AnyView {
    let choices = offered(&asking, &offers);
    let session = asking.session;
    let seen = untrack(|| sights::beside_list(session, &asking.step, &asking.ask.id, asking.at));
    let drawn = seen.unwrap_or_else(|| picture::view(&asking));
    let chosen = RwSignal::new(None::<String>);
    let heading = question(&asking);
    // What protects a person is said with a second press in another place; anything else with
    // one, which the next one can take back.
    let twice = asking
        .with_card(|card| card.is_said_twice(&asking.step, asking.at))
        .unwrap_or(true);
    let say = Callback::new(move |option: String| {
        asking.submit(
            Item::Only,
            Answer::Choice {
                option: OptionId::from(option.as_str()),
            },
        );
    });
    let choose = Callback::new(move |id: String| {
        chosen.set(Some(id.clone()));
        if !twice && session.can_write() {
            say.run(id);
        }
    });
    let done = Callback::new(move |()| {
        if let Some(option) = chosen.get_untracked() {
            say.run(option);
        }
    });
    view! {
        <div class="body">
            <h2 class="question-line">{heading}</h2>
            {drawn}
            <ChoiceList
                choices=Signal::stored(choices)
                chosen=Signal::derive(move || chosen.get().into_iter().collect::<Vec<_>>())
                on_choose=choose
            />
        </div>
        <WideDone
            words=if twice { t("ui.done") } else { t("ui.choose-one") }
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
