//! What every new card of the shop starts with, and which version of the shop sheet the open card
//! goes by.

use job::shop::{self, DEFAULTS};
use job::words::Words;
use leptos::prelude::*;

use crate::parts::choice_list::{Choice, ChoiceRows};
use crate::parts::scroller::Scroller;
use crate::session::Session;
use crate::words::{fill, t};

use super::changes::{Ahead, ChangesFirst};
use super::page::{Page, back_to_shop};
use super::told::{listed, told, version_told};
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
    let ahead = RwSignal::new(None::<Ahead<()>>);
    let go_back = move |()| {
        if ahead.with_untracked(Option::is_some) {
            ahead.set(None)
        } else {
            back.run(())
        }
    };
    let keep = move |()| {
        let sheet = session.shop.get_untracked();
        let taken = session.act(
            |card, me, _, _| Ok(vec![shop::take_values(card, me, &sheet)?]),
            move |_| {
                let _gone = ahead.try_set(None);
            },
        );
        if taken.is_err() {
            ahead.set(None); // What stands against it is said above the lists.
        }
        wanting.set(taken.err().into_iter().collect());
    };
    view! {
        <Page title=t("ui.defaults.title") on_back=Callback::new(go_back)>
            <ChangesFirst ahead on_keep=Callback::new(keep) on_leave=Callback::new(move |()| ahead.set(None))>
                <Scroller>
                    <p class="page-line">{t("ui.defaults.line")}</p>
                    <Wanting words=wanting />
                    {lists.into_iter().collect_view()}
                    <Version wanting ahead />
                </Scroller>
            </ChangesFirst>
        </Page>
    }
}

/// The version on the sheet, the one of the open card, and the key that takes the newer one.
#[component]
fn Version(wanting: RwSignal<Vec<Words>>, ahead: RwSignal<Option<Ahead<()>>>) -> impl IntoView {
    let session = expect_context::<Session>();
    let sheet = move || {
        let version = session.shop.with(|sheet| sheet.values().version());
        fill("ui.shop.version", &[("version", &version_told(version))])
    };
    let card = move || {
        session.open.with(|open| {
            let versions = open.as_ref()?.card.shop_versions();
            let versions: Vec<String> = versions.map(|taken| version_told(taken.version)).collect();
            let key = match versions.len() {
                0 => "ui.shop.card-none",
                1 => "ui.shop.card-version",
                _ => "ui.shop.card-versions",
            };
            Some(fill(key, &[("version", &listed(versions.into_iter()))]))
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
    let take = move |_| match session.shop_would_change() {
        Ok(changes) => ahead.set(Some(Ahead {
            value: (),
            entries: entries_since(session),
            changes,
        })),
        Err(words) => wanting.set(vec![words]),
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

/// What is new on the sheet since the open card took its values, in words.
fn entries_since(session: Session) -> Vec<String> {
    let units = session.units();
    session.open.with_untracked(|open| {
        let Some(open) = open else {
            return Vec::new();
        };
        let entries = session
            .shop
            .with_untracked(|sheet| shop::since_taken(&open.card, sheet));
        entries
            .iter()
            .map(|entry| told(&open.card, entry, &units))
            .collect()
    })
}
