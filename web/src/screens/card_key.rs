//! One card as a row of a list, from its summary alone: what it is, how far it is, when it was last
//! touched. A press opens it.

use job::id::CardId;
use job::summary::Summary;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use crate::pictures::vehicle_top::VehicleTopPicture;
use crate::screen::Screen;
use crate::session::Session;
use crate::words::{fill, t};

use super::moment::{day_of_year, moment};
use super::vehicle::drawn;

/// A row of the cards list.
#[component]
pub(crate) fn CardKey(card: Summary, language: String) -> impl IntoView {
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
    let axles = axles_of(&card);
    let last = card
        .last
        .map(|last| fill("ui.start.last", &[("when", &moment(last, &language))]));
    let plate = (!card.plate.is_empty()).then(|| fill("ui.cards.plate", &[("plate", &card.plate)]));
    let name = fill(
        "ui.start.card",
        &[("unit", &card.unit), ("vehicle", &kind), ("axles", &axles)],
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
                <small>{plate}</small>
                <span>{fill("ui.start.vehicle", &[("vehicle", &kind), ("axles", &axles)])}</span>
                <span>{how_far(&card)}</span>
                <small>{last}</small>
                {(card.waits > 0).then(|| view! {
                    <strong data-testid="waits">{fill("ui.looks.wait", &[("count", &card.waits.to_string())])}</strong>
                })}
                {card.look_at.then(|| view! { <strong class="trail-though" data-testid="look-at">{t("ui.start.look-at")}</strong> })}
            </span>
        </button>
    }
}

fn axles_of(card: &Summary) -> String {
    let axles: Vec<String> = card.in_hand.iter().map(u8::to_string).collect();
    axles.join(", ")
}

/// The stage that work is at and how much of it is done.
pub(crate) fn how_far(card: &Summary) -> String {
    let stage = match &card.stage {
        Some(stage) => t(&format!("stage.{stage}")),
        None => t("ui.start.all-done"),
    };
    let (done, of) = (card.done.to_string(), card.of.to_string());
    fill(
        "ui.start.progress",
        &[("stage", &stage), ("done", &done), ("of", &of)],
    )
}

/// What the visit before was: when, which axles, how far it came.
pub(crate) fn visit_words(card: &Summary, language: &str) -> String {
    let day = card.opened.map(|opened| day_of_year(opened, language));
    fill(
        "ui.cards.visit",
        &[
            ("day", &day.unwrap_or_default()),
            ("axles", &axles_of(card)),
            ("progress", &how_far(card)),
        ],
    )
}
