//! Who stands beside an apprentice: asked before anything that protects a person.

use job::event::Role;
use job::id::PersonId;
use leptos::prelude::*;

use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::hold_button::HoldButton;
use crate::parts::wide_done::WideDone;
use crate::screen::Screen;
use crate::session::Session;
use crate::words::{fill, t};

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
    let picked = RwSignal::new(None::<String>);
    let name = move || {
        let picked = picked.get()?;
        choices.with(|choices| {
            choices
                .iter()
                .find(|choice| choice.id == picked)
                .map(|choice| choice.words.clone())
        })
    };
    view! {
        <div class="body">
            <h2 class="question-line">{t("ui.beside")}</h2>
            <p class="why">{t("refuse.beside")}</p>
            <ChoiceList
                choices
                chosen=Signal::derive(move || picked.get().into_iter().collect::<Vec<_>>())
                on_choose=Callback::new(move |id: String| picked.set(Some(id)))
            />
        </div>
        {move || match name() {
            // That person's own press, in their name.
            Some(name) => view! {
                <div class="done-area">
                    <HoldButton
                        words=fill("ui.beside.hold", &[("name", &name)])
                        held=false
                        on_held=Callback::new(move |()| {
                            beside.set(picked.get_untracked().map(|id| PersonId::from(id.as_str())));
                        })
                        testid="beside-hold"
                    />
                </div>
            }
            .into_any(),
            None => view! {
                <WideDone
                    words=t("ui.other-person")
                    waits=false
                    on_done=Callback::new(move |()| session.go(Screen::People))
                />
            }
            .into_any(),
        }}
    }
    .into_any()
}
