//! A name for the shop's list, with what that person does. No code number, no password.

use job::event::Role;
use job::id::PersonId;
use job::shop;
use job::words::Words;
use leptos::prelude::*;

use crate::device;
use crate::parts::text_entry::TextEntry;
use crate::session::Session;
use crate::words::t;

use super::wanting::Wanting;

/// The name, the three roles, and the key that lists it.
#[component]
pub(crate) fn AddPerson(
    /// Runs with the new person once the name is kept.
    on_added: Callback<PersonId>,
) -> impl IntoView {
    let session = expect_context::<Session>();
    let name = RwSignal::new(String::new());
    let role = RwSignal::new(None::<Role>);
    let wanting = RwSignal::new(Vec::<Words>::new());
    let add = move |_| {
        let Some(role_chosen) = role.get_untracked() else {
            return wanting.set(vec![Words::plain("ui.person.role-missing")]);
        };
        let person = PersonId::new(device::new_id('p'));
        let listed = person.clone();
        let added = session.change_shop(
            |sheet| {
                name.with_untracked(|name| shop::list_person(sheet, &listed, name, role_chosen))
            },
            move |_| {
                let _gone = name.try_set(String::new());
                let _gone = role.try_set(None);
                on_added.try_run(person);
            },
        );
        wanting.set(added.err().into_iter().collect());
    };
    let role_key = move |of: Role| {
        let chosen = move || role.get() == Some(of);
        view! {
            <button
                type="button"
                class="key"
                class:chosen=chosen
                aria-pressed=move || chosen().to_string()
                data-testid=format!("role-{}", of.code())
                on:click=move |_| role.set(Some(of))
            >
                {t(&format!("role.{}", of.code()))}
            </button>
        }
    };
    view! {
        <section class="add-person">
            <h2>{t("ui.person.add")}</h2>
            <TextEntry words=t("ui.person.name") text=name testid="person-name" />
            <div class="key-row" role="group" aria-label=t("ui.person.role")>
                {Role::ALL.map(role_key).into_iter().collect_view()}
            </div>
            <Wanting words=wanting />
            <button type="button" class="key wide-key" data-testid="person-add" on:click=add>
                {t("ui.person.put-on-list")}
            </button>
        </section>
    }
}
