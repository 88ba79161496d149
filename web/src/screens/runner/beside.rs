//! Who stands beside an apprentice: asked before anything that protects a person.

use job::event::Role;
use job::id::PersonId;
use leptos::prelude::*;

use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::wide_done::WideDone;
use crate::screen::Screen;
use crate::session::Session;
use crate::words::t;

pub(super) fn view(session: Session, beside: RwSignal<Option<PersonId>>) -> AnyView {
    let choices = Signal::derive(move || {
        session.open.with(|open| {
            let people = open.iter().flat_map(|open| &open.card.people);
            people
                .filter(|(_, signed)| signed.on && signed.role != Role::Apprentice)
                .map(|(id, signed)| Choice::new(id.as_str(), signed.name.clone()))
                .collect::<Vec<_>>()
        })
    });
    view! {
        <div class="body">
            <h2 class="question-line">{t("ui.beside")}</h2>
            <p class="why">{t("refuse.beside")}</p>
            <ChoiceList
                choices
                chosen=Signal::stored(Vec::new())
                on_choose=Callback::new(move |id: String| beside.set(Some(PersonId::from(id.as_str()))))
            />
        </div>
        <WideDone
            words=t("ui.other-person")
            waits=false
            on_done=Callback::new(move |()| session.go(Screen::People))
        />
    }
    .into_any()
}
