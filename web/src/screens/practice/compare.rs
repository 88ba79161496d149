//! The foreman's view of the practice bay: people side by side, one seed for several of them, and what
//! came of it. No score and no order of people.

use job::event::Role;
use job::id::{PersonId, Place};
use job::words::Words;
use leptos::prelude::*;
use practice::book::{Came, Entry, MarkedRun};
use practice::marking::Outcome;
use practice::run::Run;
use practice::scene::Say;
use practice::seed::Seed;

use crate::device;
use crate::parts::go_list::{GoRow, GoRows};
use crate::parts::line_list::turns;
use crate::parts::scroller::Scroller;
use crate::parts::text_entry::TextEntry;
use crate::say::place;
use crate::screen::Screen;
use crate::screens::wanting::Wanting;
use crate::session::Session;
use crate::words::{fill, t};

use super::runs::{name_of, sureness_lines};
use super::{InPractice, another};

/// All people, or one seed's markings side by side.
#[component]
pub(crate) fn CompareScreen(
    /// `None`: the people, and what can be compared.
    seed: Option<Seed>,
) -> impl IntoView {
    let session = expect_context::<Session>();
    let back = Callback::new(move |()| {
        session.go(if seed.is_some() {
            Screen::Compare { seed: None }
        } else {
            Screen::Runs
        });
    });
    let title = match seed {
        Some(seed) => fill("ui.compare.seed", &[("code", &seed.code())]),
        None => t("ui.compare.title"),
    };
    let body = move || match seed {
        Some(seed) => view! { <SideBySide seed /> }.into_any(),
        None => view! {
            <Scroller>
                <Give />
                <Seeds />
                <People />
            </Scroller>
        }
        .into_any(),
    };
    view! { <InPractice title on_back=back>{body()}</InPractice> }
}

/// One seed for several people. Only a foreman gives.
#[component]
fn Give() -> impl IntoView {
    let session = expect_context::<Session>();
    let to = RwSignal::new(Vec::<String>::new());
    let code = RwSignal::new(another().code());
    let wanting = RwSignal::new(Vec::<Words>::new());
    let turn = turns(to);
    let give = move |_| wanting.set(give(session, to, code).err().into_iter().collect());
    let keys = move || {
        session.shop.with(|sheet| {
            let people = sheet.people().into_iter();
            people
                .map(|(id, person)| {
                    let id = id.to_string();
                    let is_in = {
                        let id = id.clone();
                        move || to.with(|to| to.contains(&id))
                    };
                    let pressed = {
                        let is_in = is_in.clone();
                        move || is_in().to_string()
                    };
                    let testid = format!("give-{}", person.name);
                    view! {
                        <button
                            type="button"
                            class="key"
                            class:chosen=is_in
                            aria-pressed=pressed
                            data-testid=testid
                            on:click=move |_| turn.run(id.clone())
                        >
                            {person.name.clone()}
                        </button>
                    }
                })
                .collect_view()
        })
    };
    view! {
        <section class="setting" data-testid="give">
            <h2>{t("ui.compare.give")}</h2>
            <p class="page-line">{t("ui.compare.give-line")}</p>
            <TextEntry words=t("ui.runs.code") text=code testid="give-code" />
            <div class="key-row">{keys}</div>
            <Wanting words=wanting />
            <button type="button" class="key wide-key" data-testid="give-it" on:click=give>
                {t("ui.compare.give-it")}
            </button>
        </section>
    }
}

fn give(session: Session, to: RwSignal<Vec<String>>, code: RwSignal<String>) -> Result<(), Words> {
    let seed = code
        .with_untracked(|code| Seed::hear(code))
        .map_err(|_no_seed| Words::plain("ui.runs.no-code"))?;
    let me = session.me.get_untracked();
    let is_foreman = |me: &PersonId| {
        session
            .shop
            .with_untracked(|sheet| sheet.person(me).map(|person| person.role))
            == Some(Role::Foreman)
    };
    let by = me
        .filter(is_foreman)
        .ok_or_else(|| Words::plain("ui.compare.foreman"))?;
    let people: Vec<PersonId> = to
        .get_untracked()
        .iter()
        .map(|id| PersonId::from(id.as_str()))
        .collect();
    if people.is_empty() {
        return Err(Words::plain("ui.compare.nobody"));
    }
    let entry = Entry::Given {
        seed,
        by,
        to: people,
        on: device::today(),
    };
    session.note(vec![entry], move |_| {
        let _gone = to.try_set(Vec::new());
    })
}

/// Seeds of which a run is over.
#[component]
fn Seeds() -> impl IntoView {
    let session = expect_context::<Session>();
    let rows = Signal::derive(move || {
        session.book.with(|book| {
            let seeds = book.seeds_marked().into_iter();
            seeds
                .map(|seed| {
                    let runs = book.of_seed(seed);
                    let names: Vec<String> =
                        runs.iter().map(|run| name_of(session, run.who)).collect();
                    GoRow {
                        id: seed.to_string(),
                        words: fill("ui.runs.run", &[("code", &seed.code())]),
                        detail: names.join(", "),
                        done: false,
                    }
                })
                .collect::<Vec<_>>()
        })
    });
    let go = Callback::new(move |id: String| {
        if let Ok(seed) = Seed::read(&id) {
            session.go(Screen::Compare { seed: Some(seed) });
        }
    });
    let none = move || {
        rows.with(Vec::is_empty)
            .then(|| view! { <p class="page-line">{t("ui.compare.no-runs")}</p> })
    };
    view! {
        <section class="setting" data-testid="compare-seeds">
            <h2>{t("ui.compare.seeds")}</h2>
            {none}
            <GoRows rows on_go=go places=true />
        </section>
    }
}

/// Everybody with what they are sure of.
#[component]
fn People() -> impl IntoView {
    let session = expect_context::<Session>();
    let people = move || {
        let people: Vec<(PersonId, String)> = session.shop.with(|sheet| {
            let people = sheet.people().into_iter();
            people
                .map(|(id, person)| (id.clone(), person.name.clone()))
                .collect()
        });
        people
            .into_iter()
            .map(|(id, name)| {
                let results = session.book.with(|book| book.results(&id));
                let lines = sureness_lines(&results)
                    .into_iter()
                    .map(|line| view! { <p class="page-line">{line}</p> })
                    .collect_view();
                view! {
                    <article class="mark">
                        <h3>{name}</h3>
                        {lines}
                    </article>
                }
            })
            .collect_view()
    };
    view! {
        <section class="setting" data-testid="compare-people">
            <h2>{t("ui.compare.people")}</h2>
            {people}
        </section>
    }
}

/// What came of one seed for each who ran it: only what somebody did not have right.
#[component]
fn SideBySide(seed: Seed) -> impl IntoView {
    let session = expect_context::<Session>();
    let run = Run::of(seed);
    let body = move || {
        session.book.with(|book| {
            let runs = book.of_seed(seed);
            let rows = run.decisions().iter().filter_map(|decision| {
                let of = |run: &MarkedRun<'_>| {
                    let is_it =
                        |came: &&Came| came.side == decision.side && came.item == decision.item;
                    run.results.iter().find(is_it).map(|came| came.outcome)
                };
                let outcomes: Vec<Option<Outcome>> = runs.iter().map(of).collect();
                if outcomes
                    .iter()
                    .all(|outcome| matches!(outcome, None | Some(Outcome::Right)))
                {
                    return None;
                }
                let at = match decision.side {
                    Some(side) => run.place(side),
                    None => Place::Axle(run.axle_number()),
                };
                let part = t(&format!("ui.item.{}", decision.item.code()));
                let name = fill("ui.marking.name", &[("place", &place(at)), ("part", &part)]);
                let lines = runs
                    .iter()
                    .zip(outcomes)
                    .map(|(run, outcome)| {
                        let outcome = outcome.unwrap_or(Outcome::NotLookedAt);
                        line(
                            session,
                            run.who,
                            &t(&format!("ui.outcome.{}", outcome.code())),
                        )
                    })
                    .collect_view();
                Some(view! {
                    <article class="mark" data-testid="compared" data-item=decision.item.code()>
                        <h3>{name}</h3>
                        {lines}
                    </article>
                })
            });
            let rows = rows.collect_view();
            let early = runs
                .iter()
                .map(|run| {
                    let early = run
                        .moments
                        .iter()
                        .filter(|moment| moment.too_early())
                        .count();
                    let answered = run
                        .moments
                        .iter()
                        .filter(|moment| moment.said == Some(Say::NotYet) && !moment.held_up());
                    let words = fill(
                        "ui.compare.moments",
                        &[
                            ("early", &early.to_string()),
                            ("stopped", &answered.count().to_string()),
                        ],
                    );
                    line(session, run.who, &words)
                })
                .collect_view();
            view! {
                <Scroller>
                    <section class="setting" data-testid="side-by-side">
                        <p class="page-line">{t("ui.compare.line")}</p>
                        {rows}
                        <article class="mark">
                            <h3>{t("ui.marking.moments")}</h3>
                            {early}
                        </article>
                    </section>
                </Scroller>
            }
            .into_any()
        })
    };
    view! { {body} }
}

fn line(session: Session, who: &PersonId, words: &str) -> AnyView {
    let line = fill(
        "ui.compare.of",
        &[("name", &name_of(session, who)), ("words", words)],
    );
    view! { <p class="page-line">{line}</p> }.into_any()
}
