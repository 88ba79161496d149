//! The bay list, for the foreman: what is where, what waits for whom, which road checks are due, and
//! what was found month by month. Goes by summary rows alone; each row leads to its card.

use job::bay_list::{BayList, Counted, bay_list, counted};
use job::id::{CardId, FindingId};
use job::road::Road;
use job::summary::{EndRow, LineRow, Summary};
use leptos::prelude::*;
use rules::torque::road_check;
use wasm_bindgen_futures::spawn_local;

use crate::parts::go_list::{GoRow, GoRows};
use crate::parts::scroller::Scroller;
use crate::pictures::findings::{FindingBars, FoundBar};
use crate::say::place;
use crate::screen::Screen;
use crate::session::Session;
use crate::words::{fill, find, t};

use super::card_key::how_far;
use super::cards::month_words;
use super::extra_told::state_words;
use super::page::Page;
use super::road_checks::due_words;
use super::rules::figure_words;

/// How many findings of a month are drawn.
const DRAWN: usize = 10;

/// The list.
#[component]
pub(crate) fn BayScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    session.open.set(None); // A name changed from here signs on to no card.
    let language = move || session.settings.with(|settings| settings.language.clone());
    let rows = move |make: fn(&BayList<'_>, &str) -> Vec<GoRow>| {
        Signal::derive(move || {
            session
                .cards
                .with(|cards| make(&bay_list(cards), &language()))
        })
    };
    let older = move || {
        let older = session.cards.with(|cards| bay_list(cards).older);
        (older > 0).then(|| fill("ui.bay.older", &[("count", &older.to_string())]))
    };
    view! {
        <Page title=t("ui.bay.title") on_back=Callback::new(move |()| session.go(Screen::Start))>
            <Scroller>
                <p class="page-line" role="status">{older}</p>
                <Part title=t("ui.bay.in-bay") none=t("ui.bay.in-bay.none") testid="bay-in" rows=rows(in_bay) />
                <Part title=t("ui.bay.looks") none=t("ui.bay.looks.none") testid="bay-looks" rows=rows(looks) />
                <Part title=t("ui.bay.answers") none=t("ui.bay.answers.none") testid="bay-answers" rows=rows(answers) />
                <Part title=t("ui.bay.road") none=t("ui.bay.road.none") testid="bay-road" rows=rows(road_checks) />
                <p class="page-line">{road_line()}</p>
                <ByMonth />
            </Scroller>
        </Page>
    }
}

/// One part of the list; each row opens its card where the work is.
#[component]
fn Part(
    title: String,
    /// Said while there is no row.
    none: String,
    testid: &'static str,
    rows: Signal<Vec<GoRow>>,
) -> impl IntoView {
    let session = expect_context::<Session>();
    let open = Callback::new(move |id: String| {
        let (card, then) = id.split_once(' ').unwrap_or((&id, ""));
        let card = CardId::from(card);
        let then = Screen::of_fragment(then).unwrap_or(Screen::Map);
        spawn_local(async move { session.open_card(card, Some(then)).await });
    });
    let none = StoredValue::new(none);
    let nothing = move || {
        rows.with(Vec::is_empty)
            .then(|| view! { <p class="page-line">{none.get_value()}</p> })
    };
    view! {
        <section class="setting" data-testid=testid>
            <h2>{title}</h2>
            {nothing}
            <GoRows rows on_go=open places=true />
        </section>
    }
}

/// A row that opens this card at that screen. The card's id has no blank in it.
fn row(card: &Summary, to: &Screen, words: String, detail: String) -> GoRow {
    GoRow {
        id: format!("{} {}", card.card, to.fragment()),
        words,
        detail,
        done: false,
    }
}

fn in_bay(list: &BayList<'_>, _language: &str) -> Vec<GoRow> {
    let vehicle = |card: &&Summary| {
        let ends: Vec<String> = card.ends.iter().map(end_words).collect();
        let detail = format!("{}. {}", how_far(card), ends.join("; "));
        row(card, &Screen::Map, card.unit.clone(), detail)
    };
    list.in_bay.iter().map(vehicle).collect()
}

/// "Axle 2, left: Rebuild, Ruta Imani".
fn end_words(end: &EndRow) -> String {
    let stage = match &end.stage {
        Some(stage) => t(&format!("stage.{stage}")),
        None => t("ui.start.all-done"),
    };
    let who = end.who.clone().unwrap_or_else(|| t("ui.bay.nobody"));
    fill(
        "ui.bay.end",
        &[("place", &place(end.at)), ("stage", &stage), ("name", &who)],
    )
}

fn looks(list: &BayList<'_>, _language: &str) -> Vec<GoRow> {
    let look = |(card, end): &(&Summary, &EndRow)| {
        let state = if end.waits {
            t("ui.bay.waits")
        } else {
            t("ui.looks.sent-back")
        };
        let words = format!("{} – {}", card.unit, place(end.at));
        row(card, &Screen::Look { at: end.at }, words, state)
    };
    list.looks.iter().map(look).collect()
}

fn answers(list: &BayList<'_>, _language: &str) -> Vec<GoRow> {
    let answer = |(card, line): &(&Summary, &LineRow)| {
        let words = format!("{} – {}", card.unit, finding_words(&line.finding));
        let detail = format!("{}, {}", place(line.at), state_words(line.state));
        row(card, &Screen::Lines, words, detail)
    };
    list.answers.iter().map(answer).collect()
}

fn road_checks(list: &BayList<'_>, language: &str) -> Vec<GoRow> {
    let due = |(card, road): &(&Summary, &Road)| {
        row(
            card,
            &Screen::Map,
            card.unit.clone(),
            due_words(road, language),
        )
    };
    list.road_checks.iter().map(due).collect()
}

/// What was found, or its id where another edition of the procedure had it.
fn finding_words(finding: &FindingId) -> String {
    find(&format!("finding.{finding}")).unwrap_or_else(|| finding.to_string())
}

/// Between which distances the nuts are checked, and where that is printed.
fn road_line() -> String {
    let figures: Vec<String> = road_check::RULE
        .figures
        .iter()
        .map(|figure| figure_words(&road_check::RULE, figure))
        .collect();
    let sources = road_check::RULE.sources.iter();
    let sources: Vec<&str> = sources.map(|source| source.document).collect();
    fill(
        "ui.bay.road-line",
        &[
            ("figures", &figures.join(", ")),
            ("source", &sources.join(", ")),
        ],
    )
}

/// What was found, looked at and fetched in one month; two keys turn to another.
#[component]
fn ByMonth() -> impl IntoView {
    let session = expect_context::<Session>();
    let language = move || session.settings.with(|settings| settings.language.clone());
    // Counted back from the latest.
    let back = RwSignal::new(0_usize);
    let months = Memo::new(move |_| {
        session.cards.with(|cards| {
            let months = bay_list(cards).months.into_iter();
            months.map(str::to_owned).collect::<Vec<_>>()
        })
    });
    let month = move || months.with(|months| months.get(back.get()).cloned());
    let shown = move || {
        let Some(month) = month() else {
            return view! { <p class="page-line">{t("ui.bay.months.none")}</p> }.into_any();
        };
        session
            .cards
            .with(|cards| month_shown(&month, &counted(cards, &month), &language()))
    };
    let turn = move |testid: &'static str, words: &'static str, there: Signal<bool>, by: isize| {
        view! {
            <button
                type="button"
                class="key"
                data-testid=testid
                disabled=move || !there.get()
                on:click=move |_| back.update(|back| *back = back.saturating_add_signed(by))
            >
                {t(words)}
            </button>
        }
    };
    let earlier = Signal::derive(move || months.with(Vec::len) > back.get() + 1);
    let later = Signal::derive(move || back.get() > 0);
    view! {
        <section class="setting" data-testid="bay-months">
            <h2>{t("ui.bay.months")}</h2>
            {shown}
            <div class="key-row">
                {turn("bay-earlier", "ui.bay.earlier", earlier, 1)}
                {turn("bay-later", "ui.bay.later", later, -1)}
            </div>
        </section>
    }
}

fn month_shown(month: &str, counted: &Counted<'_>, language: &str) -> AnyView {
    let bars: Vec<FoundBar> = counted
        .found
        .iter()
        .take(DRAWN)
        .map(|(finding, times)| FoundBar {
            words: finding_words(finding),
            times: *times,
        })
        .collect();
    let name = month_words(month, language);
    let sent_back = fill(
        "ui.bay.sent-back",
        &[
            ("back", &counted.sent_back.to_string()),
            ("of", &counted.looks.to_string()),
        ],
    );
    let fetched = fill("ui.bay.fetched", &[("count", &counted.fetched.to_string())]);
    view! {
        <p class="page-line"><strong data-testid="bay-month">{name.clone()}</strong></p>
        <FindingBars bars name />
        <p class="page-line" data-testid="bay-sent-back">{sent_back}</p>
        <p class="page-line" data-testid="bay-fetched">{fetched}</p>
    }
    .into_any()
}
