//! What stands between the vehicle of the open card and the road, the worst first, each row with how
//! it is cleared and the way there. An empty list says only that the card knows of nothing.

use job::card::Card;
use job::hand_back::{InTheWay, What, hand_back};
use job::judge::Units;
use leptos::prelude::*;

use crate::parts::go_list::{GoList, GoRow};
use crate::say::say;
use crate::screen::Screen;
use crate::session::Session;
use crate::words::t;

use super::page::Page;

/// The list.
#[component]
pub(crate) fn InTheWayScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let listed = Memo::new(move |_| {
        let units = session.units();
        session.open.with(|open| {
            let card = open.as_ref().map(|open| &open.card);
            card.map_or(Vec::new(), |card| {
                let way = hand_back(card).into_iter().enumerate();
                way.map(|(n, one)| (row(card, n, &one, &units), to(card, &one)))
                    .collect::<Vec<_>>()
            })
        })
    });
    let rows = Signal::derive(move || {
        listed.with(|listed| {
            listed
                .iter()
                .map(|(row, _)| row.clone())
                .collect::<Vec<_>>()
        })
    });
    let go = Callback::new(move |id: String| {
        let to = listed.with_untracked(|listed| {
            let row = listed.iter().find(|(row, _)| row.id == id);
            row.map(|(_, to)| to.clone())
        });
        if let Some(to) = to {
            session.go(to);
        }
    });
    let line = move || {
        if listed.with(Vec::is_empty) {
            t("ui.way.nothing")
        } else {
            t("ui.way.line")
        }
    };
    view! {
        <Page title=t("ui.way.title") on_back=Callback::new(move |()| session.go(Screen::Map))>
            <p class="page-line" data-testid="way-line">{line}</p>
            <GoList rows on_go=go/>
        </Page>
    }
}

fn row(card: &Card, n: usize, one: &InTheWay, units: &Units) -> GoRow {
    GoRow {
        id: n.to_string(),
        words: say(&one.words(card), units),
        detail: say(&one.cleared(), units),
        done: false,
    }
}

/// Where it is cleared.
fn to(card: &Card, one: &InTheWay) -> Screen {
    match &one.what {
        What::Line { line, .. } => Screen::line(line),
        What::Look(_) => match one.places.first() {
            Some(at) => Screen::Look { at: *at },
            None => Screen::Looks,
        },
        What::Trail(_) | What::Though(_) => Screen::Trail,
        _ => one
            .goes_to(card)
            .map_or(Screen::Map, |(at, step)| Screen::Step {
                at,
                step: step.clone(),
            }),
    }
}
