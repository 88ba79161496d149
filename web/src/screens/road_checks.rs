//! Every vehicle that was handed back and whose nuts wait for their road check, the longest first.
//! A row leads to the check itself.

use job::event::TypedText;
use job::id::{CardId, Place, StepId};
use job::road::{Road, STEP};
use job::summary::Summary;
use leptos::prelude::*;
use rules::torque::road_check;
use wasm_bindgen_futures::spawn_local;

use crate::parts::go_list::{GoList, GoRow};
use crate::say::amount;
use crate::screen::Screen;
use crate::session::Session;
use crate::words::{fill, t};

use super::moment::moment;
use super::page::Page;
use super::rules::figure_words;

/// The list.
#[component]
pub(crate) fn RoadChecksScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let rows = Signal::derive(move || {
        let language = session.settings.with(|settings| settings.language.clone());
        let mut waiting: Vec<(Summary, Road)> = session.cards.with(|cards| {
            let with_road = cards.iter().filter_map(|card| {
                let road = card.road.clone()?;
                road.waits().then(|| (card.clone(), road))
            });
            with_road.collect()
        });
        waiting.sort_by_key(|(_, road)| road.handed);
        let row = |(card, road): (Summary, Road)| GoRow {
            done: false,
            id: card.card.to_string(),
            words: card.unit,
            detail: due_words(&road, &language),
        };
        waiting.into_iter().map(row).collect::<Vec<_>>()
    });
    let open = Callback::new(move |id: String| {
        let check = Screen::Step {
            at: Place::Vehicle,
            step: StepId::from(STEP),
        };
        spawn_local(async move { session.open_card(CardId::new(id), Some(check)).await });
    });
    let none = move || {
        rows.with(Vec::is_empty).then(
            || view! { <p class="page-line" data-testid="no-road-checks">{t("ui.road.none")}</p> },
        )
    };
    view! {
        <Page title=t("ui.road.title") on_back=Callback::new(move |()| session.go(Screen::Start))>
            <p class="page-line">{t("ui.road.line")}</p>
            {none}
            <div class="found-parts" data-testid="road-checks"><GoList rows on_go=open places=true/></div>
        </Page>
    }
}

/// Since when it waits, and when it is due.
pub(crate) fn due_words(road: &Road, language: &str) -> String {
    let handed = moment(road.handed, language);
    let due = match (road.between(), &road.odometer) {
        (Some([from, until]), Some(odometer)) => fill(
            "ui.road.between",
            &[
                ("when", &handed),
                ("odometer", &read(odometer)),
                ("from", &amount(&from)),
                ("until", &amount(&until)),
            ],
        ),
        _ => {
            let figures = road_check::RULE.figures.iter();
            let figures: Vec<String> = figures
                .map(|figure| figure_words(&road_check::RULE, figure))
                .collect();
            fill(
                "ui.road.after",
                &[("when", &handed), ("figures", &figures.join(", "))],
            )
        }
    };
    match &road.distance {
        Some(distance) => format!(
            "{due} {}",
            fill("ui.road.tag", &[("distance", &read(distance))])
        ),
        None => due,
    }
}

fn read(typed: &TypedText) -> String {
    amount(&job::event::Amount {
        text: typed.text.clone(),
        unit: typed.unit.clone(),
    })
}
