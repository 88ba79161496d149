//! Who is working now, and who is on the shop's list. A name changes with one press.

use job::act;
use job::id::PersonId;
use job::shop::{self, Person};
use job::words::Words;
use leptos::prelude::*;

use crate::parts::scroller::Scroller;
use crate::parts::text_entry::TextEntry;
use crate::session::Session;
use crate::words::{fill, t};

use super::add_person::AddPerson;
use super::page::{Page, way_back};
use super::wanting::Wanting;

/// Names to pick from, those signed on to the open card, and the list itself.
#[component]
pub(crate) fn PeopleScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let back = way_back(session);
    let wanting = RwSignal::new(Vec::<Words>::new());
    let taking_off = RwSignal::new(None::<PersonId>);
    let pick = Callback::new(move |person: PersonId| match session.change_name(&person) {
        Ok(()) => back.run(()),
        Err(words) => wanting.set(vec![words]),
    });
    let take_off = Callback::new(move |person: PersonId| {
        let left = session.change_shop(|sheet| shop::person_left(sheet, &person), {
            let person = person.clone();
            move |session| {
                if session.me.get_untracked().as_ref() == Some(&person) {
                    session.me.set(None);
                }
            }
        });
        taking_off.set(None);
        wanting.set(left.err().into_iter().collect());
    });
    view! {
        <Page title=t("ui.people.title") on_back=back>
            <Scroller>
                <Wanting words=wanting />
                <p class="page-line">{move || pick_line(session)}</p>
                <PersonKeys on_pick=pick />
                {move || session.open.with(Option::is_some).then(|| view! { <SignedOn wanting /> })}
                <AddPerson on_added=pick />
                <TakeOff taking_off on_yes=take_off />
            </Scroller>
        </Page>
    }
}

fn pick_line(session: Session) -> String {
    match session.open.with(|open| {
        open.as_ref()
            .map(|open| job::summary::summary(&open.card).unit)
    }) {
        Some(unit) => fill("ui.people.pick-on-card", &[("unit", &unit)]),
        None => t("ui.people.pick"),
    }
}

/// One key for each person of the shop; the one working now is marked.
#[component]
pub(crate) fn PersonKeys(on_pick: Callback<PersonId>) -> impl IntoView {
    let session = expect_context::<Session>();
    let key = move |(id, person): (PersonId, Person)| {
        let testid = format!("person-{id}");
        let me = id.clone();
        let is_me = Memo::new(move |_| session.me.with(|who| who.as_ref() == Some(&me)));
        view! {
            <button
                type="button"
                class="row-key"
                class:chosen=is_me
                aria-pressed=move || is_me.get().to_string()
                data-testid=testid
                on:click=move |_| on_pick.run(id.clone())
            >
                <svg class="sign row-mark" viewBox="0 0 48 48" aria-hidden="true">
                    <rect class="row-mark-box" x="5" y="5" width="38" height="38" rx="6" />
                    <path class="row-mark-tick" d="M13 25 L21 34 L36 14" />
                </svg>
                <span class="row-words">
                    <span>{person.name}</span>
                    <small>{t(&format!("role.{}", person.role.code()))}</small>
                </span>
                <span class="row-state">{move || is_me.get().then(|| t("ui.people.working-now"))}</span>
            </button>
        }
    };
    view! {
        <div class="rows" data-testid="people">
            {move || {
                let people = listed(session);
                if people.is_empty() {
                    view! { <p class="page-line">{t("ui.people.none")}</p> }.into_any()
                } else {
                    people.into_iter().map(key).collect_view().into_any()
                }
            }}
        </div>
    }
}

fn listed(session: Session) -> Vec<(PersonId, Person)> {
    session.shop.with(|sheet| {
        sheet
            .people()
            .into_iter()
            .map(|(id, person)| (id.clone(), person.clone()))
            .collect()
    })
}

/// Everybody signed on to the open card, each with the key that signs them off.
#[component]
fn SignedOn(wanting: RwSignal<Vec<Words>>) -> impl IntoView {
    let session = expect_context::<Session>();
    let signed = move || -> Vec<(PersonId, String, String)> {
        session.open.with(|open| {
            let people = open.iter().flat_map(|open| &open.card.people);
            people
                .filter(|(_, signed)| signed.on)
                .map(|(id, signed)| {
                    (
                        id.clone(),
                        signed.name.clone(),
                        t(&format!("role.{}", signed.role.code())),
                    )
                })
                .collect()
        })
    };
    let why = RwSignal::new(String::new());
    let sign_off = move |person: &PersonId| {
        let signed = session.act(
            |card, me, _, _| Ok(vec![act::sign_off(card, me, person, &why.get_untracked())?]),
            |_| {},
        );
        wanting.set(signed.err().into_iter().collect());
    };
    let row = move |(id, name, role): (PersonId, String, String)| {
        let testid = format!("sign-off-{id}");
        view! {
            <li class="line">
                <span class="row-words">
                    <span>{name}</span>
                    <small>{role}</small>
                </span>
                <button type="button" class="key line-key" data-testid=testid on:click=move |_| sign_off(&id)>
                    {t("ui.people.sign-off")}
                </button>
            </li>
        }
    };
    view! {
        <section data-testid="signed-on">
            <h2>{t("ui.people.signed-on")}</h2>
            <p class="page-line">{t("ui.people.signed-on-why")}</p>
            <ul class="rows">{move || signed().into_iter().map(row).collect_view()}</ul>
            <TextEntry words=t("ui.people.off-reason") text=why testid="off-reason" />
        </section>
    }
}

/// Takes names off the list, each with a second press in another place.
#[component]
fn TakeOff(taking_off: RwSignal<Option<PersonId>>, on_yes: Callback<PersonId>) -> impl IntoView {
    let session = expect_context::<Session>();
    let row = move |(id, person): (PersonId, Person)| {
        let (asked, yes, of) = (id.clone(), id.clone(), id.clone());
        let is_asked =
            Memo::new(move |_| taking_off.with(|asking| asking.as_ref() == Some(&asked)));
        view! {
            <li class="line">
                <span class="row-words">
                    <span>{person.name}</span>
                    <small>{move || is_asked.get().then(|| t("ui.people.take-off-sure"))}</small>
                </span>
                {move || {
                    let yes = yes.clone();
                    let testid = format!("take-off-{yes}-yes");
                    is_asked.get().then(|| view! {
                        <button type="button" class="key line-key" data-testid=testid on:click=move |_| on_yes.run(yes.clone())>
                            {t("ui.people.take-off-yes")}
                        </button>
                    })
                }}
                <button
                    type="button"
                    class="key line-key"
                    data-testid=format!("take-off-{id}")
                    on:click=move |_| taking_off.update(|asking| {
                        *asking = (asking.as_ref() != Some(&of)).then(|| of.clone());
                    })
                >
                    {move || if is_asked.get() { t("ui.keep") } else { t("ui.people.take-off") }}
                </button>
            </li>
        }
    };
    view! {
        <section data-testid="people-off">
            {move || {
                let people = listed(session);
                (!people.is_empty()).then(|| view! {
                    <h2>{t("ui.people.off-title")}</h2>
                    <ul class="rows">{people.into_iter().map(row).collect_view()}</ul>
                })
            }}
        </section>
    }
}
