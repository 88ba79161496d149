//! What came of the run on the open card, decision by decision. There is no score.
//!
//! A missed fault that could hurt somebody stands first, and then nothing is well done. While the run
//! goes on this page asks whether to stop and mark it. It repeats what the practice crate says.

use std::sync::Arc;

use job::judge::Units;
use job::words::Words;
use leptos::prelude::*;
use practice::book::{Entry, came};
use practice::decision::{Decision, Ruling, Shown};
use practice::instrument::Read;
use practice::marking::{Mark, Marking, Moment, Outcome, mark_run};
use practice::run::Run;
use practice::scene::Say;
use rules::shown::Lean;

use crate::device;
use crate::judged::{bar, source_line};
use crate::parts::limit_bar::LimitBar;
use crate::parts::scroller::Scroller;
use crate::parts::wide_done::WideDone;
use crate::say::{amount, place, say_remark};
use crate::screen::Screen;
use crate::screens::wanting::Wanting;
use crate::session::Session;
use crate::words::{fill, t, unit};

use super::InPractice;
use super::seen::{self, SeenPages};
use super::sights::{figure, sign_words};

/// The page of the run on the open card.
#[component]
pub(crate) fn MarkingScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let back = Callback::new(move |()| session.go(Screen::Runs));
    let body = move || match session.run() {
        None => view! { <p class="page-line" data-testid="no-run">{t("ui.marking.no-run")}</p> }
            .into_any(),
        Some((_, false)) => view! { <StopHere /> }.into_any(),
        Some((run, true)) => match marking(session, &run) {
            Some(marking) => told(session, &run, &marking),
            None => ().into_any(),
        },
    };
    view! { <InPractice title=t("ui.marking.title") on_back=back>{body}</InPractice> }
}

/// Whether to stop here.
#[component]
fn StopHere() -> impl IntoView {
    let session = expect_context::<Session>();
    let wanting = RwSignal::new(Vec::<Words>::new());
    let stop = Callback::new(move |()| wanting.set(stop(session).err().into_iter().collect()));
    view! {
        <p class="page-line" data-testid="stop-line">{t("ui.marking.stop-line")}</p>
        <Wanting words=wanting />
        <button
            type="button"
            class="key wide-key"
            data-testid="go-on"
            on:click=move |_| session.go(Screen::Map)
        >
            {t("ui.marking.go-on")}
        </button>
        <WideDone
            words=t("ui.marking.stop")
            waits=Signal::derive(move || !session.can_write())
            on_done=stop
        />
    }
}

/// Marks the run on the open card and ends it.
fn stop(session: Session) -> Result<(), Words> {
    let (run, _) = untrack(|| session.run()).ok_or_else(|| Words::plain("ui.marking.no-run"))?;
    let marking =
        untrack(|| marking(session, &run)).ok_or_else(|| Words::plain("ui.marking.no-run"))?;
    let card = session
        .open
        .with_untracked(|open| open.as_ref().map(|open| open.card.id.clone()))
        .ok_or_else(|| Words::plain("ui.no-card"))?;
    let who = session
        .book
        .with_untracked(|book| book.run(&card).map(|begun| begun.who.clone()))
        .ok_or_else(|| Words::plain("ui.marking.no-run"))?;
    let entry = Entry::Marked {
        card,
        seed: run.axle.seed,
        who,
        on: device::today(),
        results: came(&marking),
        moments: marking.moments,
    };
    session.note(vec![entry], |_| {})
}

/// The marking of the open card as it stands.
fn marking(session: Session, run: &Arc<Run>) -> Option<Marking> {
    session.open.with(|open| {
        let card = &open.as_ref()?.card;
        session.book.with(|book| {
            let said = run.heard(card, book.stands_tried(&card.id));
            let moments = book.moments(&card.id, &run.axle.scenes);
            Some(mark_run(run, &said, moments))
        })
    })
}

fn told(session: Session, run: &Run, marking: &Marking) -> AnyView {
    let units = session.units();
    let of = |outcome: Outcome| marking.of(outcome).cloned().collect::<Vec<Mark>>();
    let early: Vec<Moment> = marking
        .moments
        .iter()
        .filter(|moment| moment.too_early())
        .copied()
        .collect();
    let other: Vec<Moment> = marking
        .moments
        .iter()
        .filter(|moment| !moment.too_early())
        .copied()
        .collect();
    let head = if marking.is_without_blame() {
        t("ui.marking.no-blame")
    } else if marking.is_well_done() {
        t("ui.marking.well-done")
    } else {
        t("ui.marking.not-well-done")
    };
    let groups = [Outcome::MissedAndHurts, Outcome::Missed, Outcome::Condemned]
        .into_iter()
        .map(|outcome| (outcome, of(outcome)))
        .filter(|(_, marks)| !marks.is_empty());
    let group = |(outcome, marks): (Outcome, Vec<Mark>)| {
        let marks = marks
            .iter()
            .map(|mark| one(session, run, mark, &units))
            .collect_view();
        view! {
            <section class="setting" data-testid=format!("group-{}", outcome.code())>
                <h2>{t(&format!("ui.outcome.{}", outcome.code()))}</h2>
                {marks}
            </section>
        }
    };
    let [hurts, rest]: [Vec<_>; 2] = {
        let all: Vec<_> = groups.collect();
        let is_first = |group: &&(Outcome, Vec<Mark>)| group.0 == Outcome::MissedAndHurts;
        [
            all.iter().filter(is_first).cloned().collect(),
            all.iter().filter(|one| !is_first(one)).cloned().collect(),
        ]
    };
    let misread: Vec<Mark> = marking
        .marks
        .iter()
        .filter(|mark| {
            !matches!(
                mark.outcome,
                Outcome::MissedAndHurts | Outcome::Missed | Outcome::Condemned
            )
        })
        .filter(|mark| matches!(mark.read, Some(Read::Off { .. } | Read::OtherKind)))
        .cloned()
        .collect();
    let misread = (!misread.is_empty()).then(|| {
        let marks = misread
            .iter()
            .map(|mark| one(session, run, mark, &units))
            .collect_view();
        view! {
            <section class="setting" data-testid="group-misread">
                <h2>{t("ui.marking.misread")}</h2>
                {marks}
            </section>
        }
    });
    let names = |outcome: Outcome| {
        let marks = of(outcome);
        (!marks.is_empty()).then(|| {
            let names: Vec<String> = marks.iter().map(|mark| name(run, &mark.decision)).collect();
            view! {
                <section class="setting" data-testid=format!("group-{}", outcome.code())>
                    <h2>{t(&format!("ui.outcome.{}", outcome.code()))}</h2>
                    <p class="page-line">{names.join("; ")}</p>
                </section>
            }
        })
    };
    let seed = fill("ui.marking.seed", &[("code", &run.axle.seed.code())]);
    let first = hurts.into_iter().map(group).collect_view();
    let too_early = moments("ui.marking.early", "early", &early);
    let then = rest.into_iter().map(group).collect_view();
    let moments = moments("ui.marking.moments", "moments", &other);
    let last = [
        names(Outcome::OtherWord),
        names(Outcome::NotLookedAt),
        names(Outcome::Right),
    ];
    let last = last.into_iter().collect_view();
    view! {
        <Scroller>
            <h2 data-testid="marking-head">{head}</h2>
            <p class="page-line" data-testid="marking-seed">{seed}</p>
            {first}
            {too_early}
            {then}
            {misread}
            {moments}
            {last}
        </Scroller>
    }
    .into_any()
}

/// One decision: what was seen, what was said, what the rules say, by how much, and where that stands.
fn one(session: Session, run: &Run, mark: &Mark, units: &Units) -> AnyView {
    let decision = &mark.decision;
    let said = match &mark.said {
        None => t("ui.marking.said-nothing"),
        Some(said) => {
            let word = t(&format!("verdict.{}", said.verdict.code()));
            match &said.reading {
                Some(typed) => {
                    let figure = format!("{} {}", typed.text(), unit(typed.unit()));
                    fill(
                        "ui.marking.said-reading",
                        &[("verdict", &word), ("figure", &figure)],
                    )
                }
                None => fill("ui.marking.said", &[("verdict", &word)]),
            }
        }
    };
    let ruled = fill(
        "ui.marking.ruled",
        &[(
            "verdict",
            &t(&format!("verdict.{}", decision.ruling.verdict().code())),
        )],
    );
    let read = match &mark.read {
        Some(Read::Off { by, marks }) => {
            let off = amount(&units.show(*by, Lean::Nearest));
            let off = off.trim_start_matches('-');
            let key = if *marks < 0 {
                "ui.marking.read-under"
            } else {
                "ui.marking.read-over"
            };
            Some(fill(key, &[("figure", off)]))
        }
        Some(Read::OtherKind) => Some(t("ui.marking.read-other")),
        Some(Read::Right) | None => None,
    };
    let drawn = decision
        .ruling
        .judgement()
        .map(|judgement| view! { <LimitBar shown=Signal::stored(Some(bar(judgement, units))) /> });
    // A bar says its source; what only the procedure lists has none.
    let listed = matches!(decision.ruling, Ruling::Listed(_)).then(|| t("ui.marking.listed"));
    let source = match &decision.ruling {
        Ruling::Stands(_) | Ruling::Alike(_) => decision.ruling.source().map(source_line),
        Ruling::Judged(_) | Ruling::Listed(_) => None,
    };
    let hurts = (mark.outcome == Outcome::MissedAndHurts).then(|| {
        let matters = decision.faults.iter().filter(|fault| fault.hurts());
        let lines: Vec<String> = matters
            .map(|fault| t(&format!("finding.{}.matters", fault.finding())))
            .collect();
        lines.join(" ")
    });
    let why: Vec<String> = mark
        .why
        .iter()
        .map(|estimate| {
            fill(
                "ui.marking.estimate",
                &[
                    ("words", &say_remark(&estimate.remark, units)),
                    ("source", &source_line(estimate.source)),
                ],
            )
        })
        .collect();
    let pictures = seen::of_axle(&run.axle, decision);
    let pictures = (!pictures.is_empty()).then(|| view! { <SeenPages seen=pictures /> });
    let lines = [
        Some(shown(session, decision)),
        Some(said),
        Some(ruled),
        read,
        listed,
        source,
        hurts,
    ]
    .into_iter()
    .flatten()
    .chain(why)
    .filter(|line| !line.is_empty())
    .map(|line| view! { <p class="page-line">{line}</p> })
    .collect_view();
    view! {
        <article class="mark" data-testid="mark" data-item=decision.item.code()>
            <h3>{name(run, decision)}</h3>
            {pictures}
            {lines}
            {drawn}
        </article>
    }
    .into_any()
}

/// "Axle 2, left: wheel seal".
fn name(run: &Run, decision: &Decision) -> String {
    let part = t(&format!("ui.item.{}", decision.item.code()));
    let at = match decision.side {
        Some(side) => run.place(side),
        None => job::id::Place::Axle(run.axle_number()),
    };
    fill("ui.marking.name", &[("place", &place(at)), ("part", &part)])
}

/// What there was to see.
fn shown(session: Session, decision: &Decision) -> String {
    let signs = |signs: Vec<String>| {
        if signs.is_empty() {
            t("ui.marking.saw-nothing")
        } else {
            fill("ui.marking.saw", &[("what", &signs.join(", "))])
        }
    };
    match &decision.shown {
        Shown::Signs(seen) => {
            let seen = seen.iter().filter(|sign| **sign != "nothing");
            signs(seen.map(|sign| sign_words(None, sign)).collect())
        }
        Shown::Numbered(seen) => signs(
            seen.iter()
                .map(|(number, sign)| sign_words(Some(*number), sign))
                .collect(),
        ),
        Shown::Edges(texts) => signs(texts.to_vec()),
        Shown::Instrument(_) | Shown::Pushrod { .. } | Shown::Diameters { .. } => decision
            .reading()
            .map(|instrument| signs(vec![figure(session, &instrument)]))
            .unwrap_or_default(),
        Shown::Support | Shown::BothEnds => String::new(),
    }
}

fn moments(title: &str, testid: &str, moments: &[Moment]) -> Option<AnyView> {
    if moments.is_empty() {
        return None;
    }
    let line = |moment: &Moment| {
        let step = |step: &str| t(&format!("step.{step}"));
        let key = if moment.scene.done {
            "ui.marking.moment-done"
        } else {
            "ui.marking.moment-open"
        };
        let asked = fill(
            key,
            &[
                ("first", &step(moment.scene.waits.first)),
                ("then", &step(moment.scene.waits.then)),
            ],
        );
        let said = match moment.said {
            None => t("ui.marking.moment-none"),
            Some(Say::GoOn) => t("ui.marking.moment-go"),
            Some(Say::NotYet) => t("ui.marking.moment-wait"),
        };
        let why = if moment.too_early() {
            t(&format!("step.{}.why", moment.scene.waits.first))
        } else if moment.held_up() {
            t("ui.marking.held-up")
        } else {
            String::new()
        };
        view! { <p class="page-line">{[asked, said, why].join(" ")}</p> }
    };
    Some(
        view! {
            <section class="setting" data-testid=format!("group-{testid}")>
                <h2>{t(title)}</h2>
                {moments.iter().map(line).collect_view()}
            </section>
        }
        .into_any(),
    )
}
