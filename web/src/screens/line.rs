//! One extra line: what was said of it, what is said now, and whether work goes on over it.
//!
//! What may be said is the card's business: a key that is refused says why.

use std::sync::Arc;

use job::act;
use job::card::Card;
use job::event::LineState;
use job::extra::ExtraLine;
use job::id::{PersonId, Place, TabletId};
use job::judge::Units;
use job::line::{LineRef, Stamp};
use job::words::Words;
use leptos::prelude::*;

use crate::parts::scroller::Scroller;
use crate::parts::text_entry::TextEntry;
use crate::say::place;
use crate::screen::Screen;
use crate::session::Session;
use crate::words::{fill, t};

use super::extra_told::{Facts, finding_words, fix_words, follows, state_words, told_words};
use super::line_notes::Notes;
use super::moment::moment;
use super::page::Page;
use super::wanting::Wanting;

/// One extra line of the open card.
#[component]
pub(crate) fn LineScreen(
    /// Whose strand it was found on.
    tablet: TabletId,
    /// Its number there.
    n: u32,
) -> impl IntoView {
    let session = expect_context::<Session>();
    let back = Callback::new(move |()| session.go(Screen::Lines));
    let wanting = RwSignal::new(Vec::<Words>::new());
    let why = RwSignal::new(String::new());
    let shown = Memo::new(move |_| {
        session.open.with(|open| {
            let mut lines = open.iter().flat_map(|open| open.card.extra_lines());
            lines
                .find(|extra| extra.line.tablet == tablet && extra.line.n == n)
                .cloned()
        })
    });
    // A refusal belongs to the line as it was.
    Effect::new(move |_| {
        shown.track();
        wanting.set(Vec::new());
    });
    let title = move || match shown.get() {
        Some(extra) => finding_words(&extra.finding),
        None => t("ui.extra.lines"),
    };
    let line =
        Memo::new(move |_| shown.with(|shown| shown.as_ref().map(|extra| extra.line.clone())));
    let content = move || match line.get() {
        Some(line) => view! {
            <Scroller>
                <Wanting words=wanting/>
                {move || told(session, &shown.get()?)}
                <Mate shown wanting/>
                <Answers shown line=line.clone() wanting/>
                <GoesOn shown line=line.clone() why wanting/>
                <Notes shown line=line.clone() why wanting/>
                {move || history(session, &shown.get()?)}
                <TakeBack line=line.clone() wanting/>
            </Scroller>
        }
        .into_any(),
        None => view! { <p class="page-line" data-testid="no-line">{t("refuse.line-unknown")}</p> }
            .into_any(),
    };
    view! { <Page title=Signal::derive(title) on_back=back>{content}</Page> }
}

fn card_now(session: Session) -> Option<Arc<Card>> {
    session
        .open
        .with(|open| open.as_ref().map(|open| open.card.clone()))
}

fn card_now_untracked(session: Session) -> Option<Arc<Card>> {
    session
        .open
        .with_untracked(|open| open.as_ref().map(|open| open.card.clone()))
}

/// What was found, and what follows from it as long as it is not done.
fn told(session: Session, extra: &ExtraLine) -> Option<AnyView> {
    let card = card_now(session)?;
    let words = extra.words.clone();
    let facts = [
        (t("ui.extra.place"), Some(place(extra.at))),
        (
            t("ui.extra.fix"),
            Some(fix_words(&extra.finding, &extra.fix)),
        ),
        (t("ui.extra.words"), words),
        (t("ui.extra.state"), Some(state_words(extra.state))),
    ]
    .into_iter()
    .filter_map(|(name, value)| Some((name, value?)))
    .collect();
    let finding = card.finding(&extra.finding);
    let follows = finding
        .filter(|_| extra.state != LineState::Done && extra.passed.is_none())
        .map(follows)
        .unwrap_or_default();
    let protects = finding.is_some_and(|finding| finding.protects);
    let follows = follows.into_iter().map(|line| {
        view! { <p class="page-line line-follows" class:protects=protects data-testid="line-follows">{line}</p> }
    });
    Some(
        view! {
            <Facts facts/>
            {follows.collect_view()}
        }
        .into_any(),
    )
}

/// Where both ends of the axle get the same: the same line for the other end, in one press.
#[component]
fn Mate(shown: Memo<Option<ExtraLine>>, wanting: RwSignal<Vec<Words>>) -> impl IntoView {
    let session = expect_context::<Session>();
    let mate = Memo::new(move |_| {
        let card = card_now(session)?;
        shown.with(|shown| card.wants_mate(shown.as_ref()?))
    });
    let write = move |at: Place| {
        let Some(extra) = shown.get_untracked() else {
            return;
        };
        let found = session.act(
            |card, me, _, _| {
                Ok(vec![act::find(
                    card,
                    me,
                    at,
                    &extra.finding,
                    &extra.fix,
                    "",
                )?])
            },
            |_| {},
        );
        wanting.set(found.err().into_iter().collect());
    };
    move || {
        mate.get().map(|at| {
            view! {
                <button type="button" class="key wide-key" data-testid="line-mate" on:click=move |_| write(at)>
                    {fill("ui.extra.mate", &[("place", &place(at))])}
                </button>
            }
        })
    }
}

/// What can be said of it, as big keys.
#[component]
fn Answers(
    shown: Memo<Option<ExtraLine>>,
    line: LineRef,
    wanting: RwSignal<Vec<Words>>,
) -> impl IntoView {
    let session = expect_context::<Session>();
    let state = Memo::new(move |_| shown.with(|shown| shown.as_ref().map(|extra| extra.state)));
    let asked = RwSignal::new(
        card_now_untracked(session)
            .and_then(|card| card.customer().map(str::to_owned))
            .unwrap_or_default(),
    );
    let key = move |of: LineState, words: String| {
        let line = line.clone();
        let tell = move |_| {
            // Said already: saying it again would only make the trail longer.
            if state.get_untracked() == Some(of) {
                return;
            }
            let make = |card: &Card, me: &PersonId, _: Stamp, _: &Units| {
                let asked = asked.get_untracked();
                // That the work is done is nobody's answer.
                Ok(vec![if of == LineState::Done || asked.trim().is_empty() {
                    act::tell(card, me, &line, of)?
                } else {
                    act::tell_asked(card, me, &line, of, &asked)?
                }])
            };
            // An apprentice doesn't say alone that it is: on a run the made-up person does.
            let beside = untrack(|| session.beside_on_a_run());
            let told = match beside.filter(|_| of == LineState::Done) {
                Some(beside) => session.act_as(&beside, make, |_| {}),
                None => session.act(make, |_| {}),
            };
            wanting.set(told.err().into_iter().collect());
        };
        view! {
            <button
                type="button"
                class="key"
                class:chosen=move || state.get() == Some(of)
                aria-pressed=move || (state.get() == Some(of)).to_string()
                data-testid=format!("tell-{}", of.code())
                on:click=tell
            >
                {words}
            </button>
        }
    };
    view! {
        <h2>{t("ui.extra.answer")}</h2>
        <TextEntry words=t("ui.read-out.asked") text=asked testid="asked"/>
        <div class="line-answers">
            {key(LineState::Waiting, t("ui.extra.tell.waiting"))}
            {key(LineState::SaidYes, t("ui.extra.tell.said-yes"))}
            {key(LineState::SaidNo, t("ui.extra.tell.said-no"))}
            {key(LineState::Done, t("ui.extra.tell.done"))}
        </div>
    }
}

/// After a "no", where a foreman can let work go on: the reason and its key.
#[component]
fn GoesOn(
    shown: Memo<Option<ExtraLine>>,
    line: LineRef,
    why: RwSignal<String>,
    wanting: RwSignal<Vec<Words>>,
) -> impl IntoView {
    let session = expect_context::<Session>();
    let can = Memo::new(move |_| {
        let card = card_now(session);
        card.zip(shown.get())
            .is_some_and(|(card, extra)| extra.passed.is_none() && card.may_pass(&extra))
    });
    move || {
        let line = line.clone();
        let pass = move |_| {
            let passed = session.act(
                |card, me, _, _| Ok(vec![act::pass_line(card, me, &line, &why.get_untracked())?]),
                move |_| {
                    let _gone = why.try_set(String::new());
                },
            );
            wanting.set(passed.err().into_iter().collect());
        };
        can.get().then(|| {
            view! {
                <section class="setting" data-testid="line-goes-on">
                    <p class="page-line">{t("ui.extra.pass-line")}</p>
                    <TextEntry words=t("ui.reason") text=why testid="pass-why"/>
                    <button type="button" class="key wide-key" data-testid="pass-line" on:click=pass>
                        {t("ui.extra.pass")}
                    </button>
                </section>
            }
        })
    }
}

/// Who found it, and everything that was said of it since.
fn history(session: Session, extra: &ExtraLine) -> Option<AnyView> {
    let card = card_now(session)?;
    let language = session.settings.with(|settings| settings.language.clone());
    let row = |what: String, who: &PersonId, at: Stamp| {
        let when = moment(at.utc, &language);
        let name = card.name(who).to_owned();
        view! {
            <li class="line-told">
                <span>{what}</span>
                <small>{format!("{name}, {when}")}</small>
            </li>
        }
    };
    let found = row(t("ui.extra.found"), &extra.who, extra.found);
    let told = extra
        .told
        .iter()
        .map(|told| row(told_words(told), &told.who, told.at))
        .collect_view();
    let passed = extra.passed.as_ref().map(|passed| {
        let what = fill("ui.extra.passed", &[("why", &passed.why)]);
        row(what, &passed.who, passed.at)
    });
    Some(
        view! {
            <h2>{t("ui.extra.so-far")}</h2>
            <ol class="lines-told" data-testid="line-history">{found}{told}{passed}</ol>
        }
        .into_any(),
    )
}

/// Takes the line off the card again.
#[component]
fn TakeBack(line: LineRef, wanting: RwSignal<Vec<Words>>) -> impl IntoView {
    let session = expect_context::<Session>();
    let take_back = move |_| match session.strike(&line, None) {
        Ok(()) => session.go(Screen::Lines),
        // A reason is wanted: the trail has the place for it.
        Err(words) if words.key == "refuse.reason-missing" => session.go(Screen::Trail),
        Err(words) => wanting.set(vec![words]),
    };
    view! {
        <button type="button" class="key wide-key" data-testid="line-take-back" on:click=take_back>
            {t("ui.extra.take-back")}
        </button>
    }
}
