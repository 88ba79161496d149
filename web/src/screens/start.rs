//! Where the app begins: the cards of this tablet, who is working, and everything that is not one card.

use job::id::CardId;
use job::summary::Summary;
use leptos::prelude::*;
use store::Which;
use wasm_bindgen_futures::spawn_local;

use crate::parts::scroller::Scroller;
use crate::pictures::vehicle_top::VehicleTopPicture;
use crate::screen::Screen;
use crate::session::Session;
use crate::words::{fill, t};

use super::band::PracticeBand;
use super::moment::moment;
use super::vehicle::drawn;

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

/// One key for each card, last touched first.
#[component]
fn Cards() -> impl IntoView {
    let session = expect_context::<Session>();
    let none = move || match session.home.get() {
        Which::Shop => t("ui.start.none"),
        Which::Practice => t("ui.start.none-practice"),
    };
    let rows = move || {
        let cards = session.cards.get();
        if cards.is_empty() {
            return view! { <p class="page-line" data-testid="no-cards">{none()}</p> }.into_any();
        }
        let language = session.settings.with(|settings| settings.language.clone());
        cards
            .into_iter()
            .map(|card| view! { <CardKey card language=language.clone() /> })
            .collect_view()
            .into_any()
    };
    view! {
        <Scroller>
            <div class="rows" data-testid="cards">{rows}</div>
        </Scroller>
    }
}

#[component]
fn CardKey(card: Summary, language: String) -> impl IntoView {
    let session = expect_context::<Session>();
    let id: CardId = card.card.clone();
    let vehicle = card
        .vehicle
        .as_ref()
        .map(|vehicle| vehicle.as_str().to_owned())
        .unwrap_or_default();
    let layout = card.layout.clone().unwrap_or_default();
    let picture = drawn(&vehicle, &layout, &card.in_hand);
    let kind = if vehicle.is_empty() {
        String::new()
    } else {
        t(&format!("fact.vehicle.{vehicle}"))
    };
    let axles: Vec<String> = card.in_hand.iter().map(u8::to_string).collect();
    let stage = match &card.stage {
        Some(stage) => t(&format!("stage.{stage}")),
        None => t("ui.start.all-done"),
    };
    let (done, of) = (card.done.to_string(), card.of.to_string());
    let progress = fill(
        "ui.start.progress",
        &[("stage", &stage), ("done", &done), ("of", &of)],
    );
    let last = card
        .last
        .map(|last| fill("ui.start.last", &[("when", &moment(last, &language))]));
    let name = fill(
        "ui.start.card",
        &[
            ("unit", &card.unit),
            ("vehicle", &kind),
            ("axles", &axles.join(", ")),
        ],
    );
    let open = move |_| {
        let id = id.clone();
        spawn_local(async move { session.open_card(id, Some(Screen::Map)).await });
    };
    view! {
        <button type="button" class="row-key card-key" data-testid=format!("card-{}", card.unit) on:click=open>
            <VehicleTopPicture vehicle=Signal::stored(picture) name=name.clone() />
            <span class="row-words">
                <strong>{card.unit.clone()}</strong>
                <span>{fill("ui.start.vehicle", &[("vehicle", &kind), ("axles", &axles.join(", "))])}</span>
                <span>{progress}</span>
                <small>{last}</small>
                {(card.waits > 0).then(|| view! {
                    <strong data-testid="waits">{fill("ui.looks.wait", &[("count", &card.waits.to_string())])}</strong>
                })}
                {card.look_at.then(|| view! { <strong class="trail-though" data-testid="look-at">{t("ui.start.look-at")}</strong> })}
            </span>
        </button>
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
            {place(Screen::Stands, "stands")}
            {place(Screen::Files, "files")}
            {place(Screen::Settings, "tablet")}
            {place(Screen::Rules, "rules")}
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
