//! A wheel end that is handed over half done: what is loose, what is begun and open, what is done,
//! and one press with which the next person takes it over.

use job::act;
use job::hand_over::hand_over;
use job::id::{Place, StepId};
use job::procedure::Step;
use job::words::Words;
use leptos::prelude::*;

use crate::parts::scroller::Scroller;
use crate::parts::wide_done::WideDone;
use crate::say::{place, say};
use crate::screen::Screen;
use crate::session::Session;
use crate::words::{fill, t};

use super::extra_told::{fix_words, heading_of, state_words};
use super::page::{Page, way_back};
use super::runner::here::sentence;
use super::told::step_name;
use super::wanting::Wanting;

/// The page of one wheel end.
#[component]
pub(crate) fn HandOverScreen(
    /// The wheel end.
    at: Place,
) -> impl IntoView {
    let session = expect_context::<Session>();
    let back = way_back(session);
    let wanting = RwSignal::new(Vec::<Words>::new());
    let is_mine = Memo::new(move |_| {
        let me = session.me.get();
        session.open.with(|open| {
            let card = open.as_ref().map(|open| &open.card);
            me.is_some() && card.and_then(|card| card.has(at)) == me.as_ref()
        })
    });
    let take = Callback::new(move |()| {
        if is_mine.get_untracked() {
            return go_on(session, at);
        }
        let taken = session.act(
            |card, me, _, _| Ok(vec![act::take_end(card, me, at)?]),
            move |session| go_on(session, at),
        );
        wanting.set(taken.err().into_iter().collect());
    });
    let words = Signal::derive(move || {
        t(if is_mine.get() {
            "ui.over.go-on"
        } else {
            "ui.over.take"
        })
    });
    view! {
        <Page title=fill("ui.over.title", &[("place", &place(at))]) on_back=back>
            <Scroller>
                <Wanting words=wanting/>
                {move || told(session, at)}
            </Scroller>
            <WideDone words waits=Signal::derive(move || !session.can_write()) on_done=take/>
        </Page>
    }
}

/// To the first thing that is open there.
fn go_on(session: Session, at: Place) {
    session.at_end.set(Some(at));
    let next = session.open.with_untracked(|open| {
        let card = &open.as_ref()?.card;
        let over = hand_over(card, at);
        let first = |steps: &[(Place, &Step)]| -> Option<(Place, StepId)> {
            let (place, step) = steps.iter().find(|(place, _)| *place == at)?;
            Some((*place, step.id.clone()))
        };
        first(&over.begun).or_else(|| first(&over.open))
    });
    session.go(match next {
        Some((at, step)) => Screen::Step { at, step },
        None => Screen::Map,
    });
}

fn told(session: Session, at: Place) -> Option<AnyView> {
    let units = session.units();
    let state = sentence(session, at);
    session.open.with(|open| {
        let card = &open.as_ref()?.card;
        let over = hand_over(card, at);
        let whose = match over.whose {
            Some(who) => fill("ui.over.whose", &[("name", card.name(who))]),
            None => t("ui.over.nobodys"),
        };
        let loose = over.loose.iter().map(|words| say(words, &units)).collect();
        let lines = over.lines.iter().map(|extra| {
            let fix = fix_words(&extra.finding, &extra.fix);
            format!(
                "{}: {fix} – {}",
                heading_of(extra),
                state_words(extra.state)
            )
        });
        Some(
            view! {
                <p class="look-physical" data-testid="physical">{state}</p>
                <p class="page-line" data-testid="whose">{whose}</p>
                {part("ui.over.loose", "over-loose", loose)}
                {part("ui.over.begun", "over-begun", steps(&over.begun))}
                {part("ui.over.lines", "over-lines", lines.collect())}
                {part("ui.over.open", "over-open", steps(&over.open))}
                {part("ui.over.done", "over-done", steps(&over.done))}
            }
            .into_any(),
        )
    })
}

fn steps(steps: &[(Place, &Step)]) -> Vec<String> {
    let name = |(at, step): &(Place, &Step)| match at {
        Place::End(..) => step_name(&step.id),
        Place::Vehicle | Place::Axle(_) => format!("{} – {}", step_name(&step.id), place(*at)),
    };
    steps.iter().map(name).collect()
}

fn part(title: &str, testid: &'static str, rows: Vec<String>) -> AnyView {
    let rows = if rows.is_empty() {
        vec![t("ui.over.none")]
    } else {
        rows
    };
    let row = |words: String| view! { <li>{words}</li> };
    view! {
        <section class="look-part" data-testid=testid>
            <h2>{t(title)}</h2>
            <ul class="look-list over-list">{rows.into_iter().map(row).collect_view()}</ul>
        </section>
    }
    .into_any()
}
