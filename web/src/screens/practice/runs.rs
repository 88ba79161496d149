//! The runs of the practice bay: those given, those begun, a new one, and what is due today.

use job::id::CardId;
use job::words::Words;
use leptos::prelude::*;
use practice::boxes::{due, standings};
use practice::seed::{Level, Seed};
use wasm_bindgen_futures::spawn_local;

use crate::device;
use crate::parts::go_list::{GoRow, GoRows};
use crate::parts::scroller::Scroller;
use crate::parts::text_entry::TextEntry;
use crate::screen::Screen;
use crate::screens::wanting::Wanting;
use crate::session::Session;
use crate::words::{fill, t};

use super::{InPractice, another};

/// How many runs are listed.
const LISTED: usize = 12;

/// Everything about runs that is not one of them.
#[component]
pub(crate) fn RunsScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    // A name changed from here signs on to no card.
    session.open.set(None);
    let back = Callback::new(move |()| session.go(Screen::Start));
    view! {
        <InPractice title=t("ui.runs.title") on_back=back>
            <Scroller>
                <Due />
                <Given />
                <Begun />
                <New />
                <button
                    type="button"
                    class="key wide-key"
                    data-testid="to-compare"
                    on:click=move |_| session.go(Screen::Compare { seed: None })
                >
                    {t("ui.runs.compare")}
                </button>
            </Scroller>
        </InPractice>
    }
}

/// What the person at hand practises next.
#[component]
fn Due() -> impl IntoView {
    let session = expect_context::<Session>();
    let line = move || {
        let Some(me) = session.me.get() else {
            return t("ui.runs.who-first");
        };
        let results = session.book.with(|book| book.results(&me));
        let kinds: Vec<String> = due(&results, device::today().as_day())
            .into_iter()
            .map(|kind| t(&format!("ui.kind.{}", kind.code())))
            .collect();
        if kinds.is_empty() {
            t("ui.runs.nothing-due")
        } else {
            fill("ui.runs.due", &[("kinds", &kinds.join(", "))])
        }
    };
    let rows = move || {
        let me = session.me.get()?;
        let results = session.book.with(|book| book.results(&me));
        Some(sureness_lines(&results))
    };
    view! {
        <section class="setting" data-testid="due">
            <h2>{t("ui.runs.due-title")}</h2>
            <p class="page-line">{line}</p>
            {move || rows().map(|rows| rows.into_iter().map(|row| view! { <p class="page-line">{row}</p> }).collect_view())}
            <button
                type="button"
                class="key wide-key"
                data-testid="runs-who"
                on:click=move |_| session.go(Screen::People)
            >
                {move || who(session)}
            </button>
        </section>
    }
}

fn who(session: Session) -> String {
    let name = session.me.with(|me| {
        let me = me.as_ref()?;
        session
            .shop
            .with(|sheet| sheet.person(me).map(|person| person.name.clone()))
    });
    match name {
        Some(name) => fill("ui.runs.who", &[("name", &name)]),
        None => t("ui.start.nobody"),
    }
}

/// "Sure: …", "Shaky: …", "New: …", each that has something in it.
pub(super) fn sureness_lines(results: &[practice::boxes::Dated]) -> Vec<String> {
    use practice::boxes::Sureness;
    let standings = standings(results);
    [Sureness::Sure, Sureness::Shaky, Sureness::New]
        .into_iter()
        .filter_map(|sureness| {
            let of = standings.iter().filter(|one| one.sureness == sureness);
            let kinds: Vec<String> = of
                .map(|one| t(&format!("ui.kind.{}", one.kind.code())))
                .collect();
            let key = format!("ui.sureness.{}", sureness.code());
            (!kinds.is_empty()).then(|| fill(&key, &[("kinds", &kinds.join(", "))]))
        })
        .collect()
}

/// Seeds that a foreman gave to the person at hand.
#[component]
fn Given() -> impl IntoView {
    let session = expect_context::<Session>();
    let wanting = RwSignal::new(Vec::<Words>::new());
    let rows = Signal::derive(move || {
        let Some(me) = session.me.get() else {
            return Vec::new();
        };
        session.book.with(|book| {
            let given = book.given_to(&me).into_iter();
            given
                .map(|(seed, by)| GoRow {
                    id: seed.to_string(),
                    words: fill("ui.runs.given", &[("code", &seed.code())]),
                    detail: fill("ui.runs.given-by", &[("name", &name_of(session, by))]),
                    done: false,
                })
                .collect::<Vec<_>>()
        })
    });
    let go = Callback::new(move |id: String| {
        if let Ok(seed) = Seed::read(&id) {
            wanting.set(session.begin_run(seed).err().into_iter().collect());
        }
    });
    view! {
        <Wanting words=wanting />
        <GoRows rows on_go=go />
    }
}

/// The name of a person of the practice bay.
pub(super) fn name_of(session: Session, person: &job::id::PersonId) -> String {
    let name = session
        .shop
        .with(|sheet| sheet.person(person).map(|person| person.name.clone()));
    name.unwrap_or_else(|| t("ui.bay.nobody"))
}

/// Runs of the person at hand: those that go on, and those that were marked.
#[component]
fn Begun() -> impl IntoView {
    let session = expect_context::<Session>();
    let rows = Signal::derive(move || {
        let Some(me) = session.me.get() else {
            return Vec::new();
        };
        session.book.with(|book| {
            book.runs()
                .filter(|run| *run.who == me)
                .take(LISTED)
                .map(|run| GoRow {
                    id: run.card.to_string(),
                    words: fill("ui.runs.run", &[("code", &run.seed.code())]),
                    detail: if run.is_marked {
                        t("ui.runs.marked")
                    } else {
                        t("ui.runs.goes-on")
                    },
                    done: run.is_marked,
                })
                .collect::<Vec<_>>()
        })
    });
    let go = Callback::new(move |id: String| {
        let card = CardId::from(id.as_str());
        spawn_local(async move { session.open_card(card, Some(Screen::Marking)).await });
    });
    view! {
        <section class="setting" data-testid="begun">
            <h2>{t("ui.runs.begun")}</h2>
            <GoRows rows on_go=go />
        </section>
    }
}

/// A new run: drawn at a level, or from a code that was read out.
#[component]
fn New() -> impl IntoView {
    let session = expect_context::<Session>();
    let code = RwSignal::new(String::new());
    let wanting = RwSignal::new(Vec::<Words>::new());
    let begin = move |seed: Seed| wanting.set(session.begin_run(seed).err().into_iter().collect());
    let by_code = move |_| match code.with_untracked(|code| Seed::hear(code)) {
        Ok(seed) => begin(seed),
        Err(_no_seed) => wanting.set(vec![Words::plain("ui.runs.no-code")]),
    };
    let level = move |level: Level| {
        view! {
            <button
                type="button"
                class="key wide-key"
                data-testid=format!("level-{}", level.code())
                on:click=move |_| begin(Seed::new(level, another().number()))
            >
                {t(&format!("ui.level.{}", level.code()))}
            </button>
        }
    };
    view! {
        <section class="setting" data-testid="new-run">
            <h2>{t("ui.runs.new")}</h2>
            <p class="page-line">{t("ui.runs.new-line")}</p>
            <Wanting words=wanting />
            {Level::ALL.iter().map(|one| level(*one)).collect_view()}
            <TextEntry words=t("ui.runs.code") text=code testid="seed-code" />
            <button type="button" class="key wide-key" data-testid="begin-code" on:click=by_code>
                {t("ui.runs.begin")}
            </button>
        </section>
    }
}
