//! What every new card of the shop starts with, and which version of the shop sheet the open card
//! goes by.

use job::shop::{self, DEFAULTS};
use job::words::Words;
use leptos::prelude::*;

use crate::parts::choice_list::{Choice, ChoiceRows};
use crate::parts::scroller::Scroller;
use crate::session::Session;
use crate::words::{fill, t};

use super::page::{Page, back_to_shop};
use super::told::version_told;
use super::wanting::Wanting;

/// The choice that leaves a fact to be asked.
const ASKED: &str = "asked";

/// One list for each fact that the shop may answer, and the version of the open card.
#[component]
pub(crate) fn DefaultsScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let back = back_to_shop(session);
    let wanting = RwSignal::new(Vec::<Words>::new());
    let lists = DEFAULTS.map(|(fact, options)| {
        let own = options
            .iter()
            .map(|option| Choice::new(*option, t(&format!("fact.{fact}.{option}"))));
        let choices: Vec<Choice> = [Choice::new(ASKED, t("ui.default.asked"))]
            .into_iter()
            .chain(own)
            .map(|choice| Choice {
                id: format!("{fact}-{}", choice.id),
                ..choice
            })
            .collect();
        let chosen = move || {
            session.shop.with(|sheet| {
                let option = sheet.values().defaults.get(&fact.into());
                vec![format!("{fact}-{}", option.map_or(ASKED, |option| option.as_str()))]
            })
        };
        let choose = move |id: String| {
            let option = id.strip_prefix(&format!("{fact}-")).filter(|option| *option != ASKED);
            let set = session.change_shop(|_| shop::set_default(fact, option), |_| {});
            wanting.set(set.err().into_iter().collect());
        };
        view! {
            <section class="setting">
                <h2>{t(&format!("fact.{fact}"))}</h2>
                <ChoiceRows choices=Signal::stored(choices) chosen=Signal::derive(chosen) on_choose=Callback::new(choose) />
            </section>
        }
    });
    view! {
        <Page title=t("ui.defaults.title") on_back=back>
            <Scroller>
                <p class="page-line">{t("ui.defaults.line")}</p>
                <Wanting words=wanting />
                {lists.into_iter().collect_view()}
                <Version wanting />
            </Scroller>
        </Page>
    }
}

/// The version on the sheet, the one of the open card, and the key that takes the newer one.
#[component]
fn Version(wanting: RwSignal<Vec<Words>>) -> impl IntoView {
    let session = expect_context::<Session>();
    let sheet = move || {
        let version = session.shop.with(|sheet| sheet.values().version());
        fill("ui.shop.version", &[("version", &version_told(version))])
    };
    let card = move || {
        session.open.with(|open| {
            let taken = &open.as_ref()?.card.shop;
            Some(taken.as_ref().map_or_else(
                || t("ui.shop.card-none"),
                |taken| {
                    fill(
                        "ui.shop.card-version",
                        &[("version", &version_told(taken.version))],
                    )
                },
            ))
        })
    };
    let behind = move || {
        session.shop.with(|sheet| {
            session.open.with(|open| {
                open.as_ref()
                    .is_some_and(|open| shop::is_behind(&open.card, sheet))
            })
        })
    };
    let take = move |_| {
        let sheet = session.shop.get_untracked();
        let taken = session.act(
            |card, me, _, _| Ok(vec![shop::take_values(card, me, &sheet)?]),
            |_| {},
        );
        wanting.set(taken.err().into_iter().collect());
    };
    view! {
        <section class="setting">
            <h2>{t("ui.shop.version-title")}</h2>
            <p class="page-line" data-testid="shop-version">{sheet}</p>
            <p class="page-line" data-testid="card-version">{card}</p>
            {move || behind().then(|| view! {
                <p class="page-line">{t("ui.shop.take-line")}</p>
                <button type="button" class="key wide-key" data-testid="take-values" on:click=take>
                    {t("ui.shop.take")}
                </button>
            })}
        </section>
    }
}
