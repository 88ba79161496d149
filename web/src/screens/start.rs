//! Where the app begins: the cards of this tablet, who is working, and everything that is not one card.

use job::cards::{Asked, find};
use leptos::prelude::*;
use store::Which;
use wasm_bindgen_futures::spawn_local;

use crate::parts::scroller::Scroller;
use crate::screen::Screen;
use crate::session::Session;
use crate::words::{fill, t};

use super::band::PracticeBand;
use super::card_key::CardKey;

/// The cards, and a key for each other place.
#[component]
pub(crate) fn StartScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    // At the start no card is open: a name changed from here signs on to none.
    session.open.set(None);
    view! {
        <main class="side home">
            <PracticeBand />
            <div class="home-body">
                <section class="home-cards" aria-label=t("ui.start.cards")>
                    <h1>{t("ui.start.title")}</h1>
                    <Cards />
                </section>
                <nav class="home-keys" aria-label=t("ui.start.places")>
                    <Scroller>
                        <Places />
                    </Scroller>
                </nav>
            </div>
            <p class="home-caution" data-testid="caution">{t("caution.first")} " " {t("caution.not-safe")}</p>
        </main>
    }
}

/// The name of whoever works; a press changes it.
#[component]
fn WhoKey() -> impl IntoView {
    let session = expect_context::<Session>();
    let name = move || {
        let name = session.me.with(|me| {
            let me = me.as_ref()?;
            session
                .shop
                .with(|sheet| sheet.person(me).map(|person| person.name.clone()))
        });
        name.unwrap_or_else(|| t("ui.start.nobody"))
    };
    view! {
        <button type="button" class="key who-key" data-testid="who" on:click=move |_| session.go(Screen::People)>
            <small>{t("ui.start.who")}</small>
            <strong>{name}</strong>
        </button>
    }
}

/// One key for each of the cards last touched, those put away left out.
#[component]
fn Cards() -> impl IntoView {
    let session = expect_context::<Session>();
    let none = move || match session.home.get() {
        Which::Shop => t("ui.start.none"),
        Which::Practice => t("ui.start.none-practice"),
    };
    let rows = move || {
        let language = session.settings.with(|settings| settings.language.clone());
        session.cards.with(|cards| {
            if cards.is_empty() {
                return view! { <p class="page-line" data-testid="no-cards">{none()}</p> }
                    .into_any();
            }
            find(cards, &Asked::default(), 1)
                .rows
                .into_iter()
                .map(|card| view! { <CardKey card=card.clone() language=language.clone() /> })
                .collect_view()
                .into_any()
        })
    };
    // What does not stand here is found on the list of all cards.
    let others = move || {
        let (of, all) = session.cards.with(|cards| {
            let found = find(cards, &Asked::default(), 1);
            (found.rows.len(), cards.len())
        });
        (of < all).then(|| {
            fill(
                "ui.start.others",
                &[("count", &all.saturating_sub(of).to_string())],
            )
        })
    };
    view! {
        <Scroller>
            <div class="rows" data-testid="cards">{rows}</div>
            <p class="page-line" data-testid="other-cards">{others}</p>
        </Scroller>
    }
}

/// Everything that is not one card.
#[component]
fn Places() -> impl IntoView {
    let session = expect_context::<Session>();
    let place = move |screen: Screen, testid: &'static str| {
        let words = t(&format!("ui.start.{testid}"));
        view! {
            <button type="button" class="key" data-testid=testid on:click=move |_| session.go(screen.clone())>
                {words}
            </button>
        }
    };
    let other_home = move |_| {
        let other = match session.home.get_untracked() {
            Which::Shop => Which::Practice,
            Which::Practice => Which::Shop,
        };
        spawn_local(async move { session.change_home(other).await });
    };
    let home_words = move || match session.home.get() {
        Which::Shop => t("ui.start.to-practice"),
        Which::Practice => t("ui.start.to-shop"),
    };
    view! {
        <div class="home-places">
            <WhoKey />
            <button
                type="button"
                class="key main-key"
                data-testid="new-card"
                on:click=move |_| session.go(Screen::NewCard)
            >
                {t("ui.start.new-card")}
            </button>
            {place(Screen::Bay, "bay-list")}
            {place(Screen::Cards, "all-cards")}
            {place(Screen::RoadChecks, "road-checks")}
            {place(Screen::Shop, "shop")}
            {place(Screen::Files, "files")}
            {place(Screen::Settings, "tablet")}
            {place(Screen::Rules, "rules")}
            {move || (session.home.get() == Which::Practice).then(|| place(Screen::Runs, "runs"))}
            {move || (session.home.get() == Which::Practice).then(|| place(Screen::Drills, "drills"))}
            <button type="button" class="key" data-testid="other-home" on:click=other_home>
                {home_words}
            </button>
            <button
                type="button"
                class="key"
                data-testid="demo"
                on:click=move |_| spawn_local(async move { session.lay_out_demo().await })
            >
                {t("ui.start.demo")}
            </button>
        </div>
    }
}
