//! Every card of this tablet, to be searched: by unit, plate or name, by month, put away or not.
//!
//! Draws one page of rows however many cards there are, and goes by summary rows alone.

use chrono::NaiveDate;
use job::cards::{Asked, PAGE, find, months};
use leptos::prelude::*;

use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::scroller::Scroller;
use crate::parts::text_entry::TextEntry;
use crate::screen::Screen;
use crate::session::Session;
use crate::words::{fill, t};

use super::card_key::CardKey;
use super::moment::month_of_year;
use super::page::{Page, anew};

/// The choice that asks for no month.
const ANY: &str = "any";

/// What is looked for. Lives as long as the screen.
#[derive(Clone, Copy)]
struct Search {
    words: RwSignal<String>,
    month: RwSignal<Option<String>>,
    put_away: RwSignal<bool>,
    pages: RwSignal<usize>,
    picking_month: RwSignal<bool>,
}

impl Search {
    fn asked(self) -> Asked {
        Asked {
            words: self.words.get(),
            month: self.month.get(),
            put_away: self.put_away.get(),
        }
    }
}

/// The search, and what it finds.
#[component]
pub(crate) fn CardsScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    session.open.set(None); // A name changed from here signs on to no card.
    let search = Search {
        words: RwSignal::new(String::new()),
        month: RwSignal::new(None),
        put_away: RwSignal::new(false),
        pages: RwSignal::new(1),
        picking_month: RwSignal::new(false),
    };
    // Another question begins at its first page.
    Effect::new(move || {
        let _asked = search.asked();
        search.pages.set(1);
    });
    let back = Callback::new(move |()| {
        if search.picking_month.get_untracked() {
            search.picking_month.set(false);
        } else {
            session.go(Screen::Start);
        }
    });
    let body = move || {
        anew(if search.picking_month.get() {
            view! { <Months search /> }.into_any()
        } else {
            view! { <List search /> }.into_any()
        })
    };
    view! { <Page title=t("ui.cards.title") on_back=back>{body}</Page> }
}

#[component]
fn List(search: Search) -> impl IntoView {
    let session = expect_context::<Session>();
    let language = move || session.settings.with(|settings| settings.language.clone());
    let month = move || match search.month.get() {
        Some(month) => month_words(&month, &language()),
        None => t("ui.cards.any-month"),
    };
    let of = Memo::new(move |_| {
        let asked = search.asked();
        session.cards.with(|cards| find(cards, &asked, 0).of)
    });
    let shown = move || of.get().min(search.pages.get().saturating_mul(PAGE));
    let count = move || {
        fill(
            "ui.cards.count",
            &[
                ("shown", &shown().to_string()),
                ("of", &of.get().to_string()),
            ],
        )
    };
    let rows = move || {
        let (asked, language) = (search.asked(), language());
        session.cards.with(|cards| {
            find(cards, &asked, search.pages.get())
                .rows
                .into_iter()
                .map(|card| view! { <CardKey card=card.clone() language=language.clone() /> })
                .collect_view()
        })
    };
    let more = move || {
        (shown() < of.get()).then(|| {
            view! {
                <button
                    type="button"
                    class="key wide-key"
                    data-testid="cards-more"
                    on:click=move |_| search.pages.update(|pages| *pages += 1)
                >
                    {t("ui.cards.more")}
                </button>
            }
        })
    };
    view! {
        <Scroller>
            <TextEntry words=t("ui.cards.search") text=search.words testid="cards-search" />
            <div class="key-row">
                <button
                    type="button"
                    class="key"
                    class:chosen=move || search.month.with(Option::is_some)
                    data-testid="cards-month"
                    on:click=move |_| search.picking_month.set(true)
                >
                    {month}
                </button>
                <button
                    type="button"
                    class="key"
                    class:chosen=move || search.put_away.get()
                    aria-pressed=move || search.put_away.get().to_string()
                    data-testid="cards-put-away"
                    on:click=move |_| search.put_away.update(|put_away| *put_away = !*put_away)
                >
                    {t("ui.cards.put-away")}
                </button>
            </div>
            <p class="page-line" role="status" data-testid="cards-count">{count}</p>
            <div class="rows" data-testid="cards">{rows}</div>
            {more}
        </Scroller>
    }
}

/// The months in which something was done, and any.
#[component]
fn Months(search: Search) -> impl IntoView {
    let session = expect_context::<Session>();
    let language = session
        .settings
        .with_untracked(|settings| settings.language.clone());
    let choices = session.cards.with_untracked(|cards| {
        let month = |month: &str| Choice::new(month, month_words(month, &language));
        let any = Choice::new(ANY, t("ui.cards.any-month"));
        let months = months(cards).into_iter().map(month);
        std::iter::once(any).chain(months).collect::<Vec<_>>()
    });
    let chosen = Signal::derive(move || vec![search.month.get().unwrap_or_else(|| ANY.to_owned())]);
    let choose = Callback::new(move |id: String| {
        search.month.set(Some(id).filter(|id| id != ANY));
        search.picking_month.set(false);
    });
    view! { <ChoiceList choices=Signal::stored(choices) chosen on_choose=choose /> }
}

/// A month such as `2026-11` in the words of the tablet's calendar.
pub(crate) fn month_words(month: &str, language: &str) -> String {
    NaiveDate::parse_from_str(&format!("{month}-15"), "%Y-%m-%d")
        .ok()
        .and_then(|day| day.and_hms_opt(12, 0, 0))
        .map_or_else(
            || month.to_owned(),
            |noon| month_of_year(noon.and_utc(), language),
        )
}
