//! Which wheel ends of the open card wait for a second look, and since when.

use job::second_look::Waits;
use job::second_look::page::{Row, rows};
use leptos::prelude::*;

use crate::parts::go_list::{GoList, GoRow};
use crate::say::place;
use crate::screen::Screen;
use crate::session::Session;
use crate::words::{fill, t};

use super::moment::moment;
use super::page::Page;

/// The waiting list.
#[component]
pub(crate) fn LooksScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let listed = Signal::derive(move || {
        let language = session.settings.with(|settings| settings.language.clone());
        session.open.with(|open| {
            open.iter()
                .flat_map(|open| rows(&open.card))
                .map(|row| go_row(row, &language))
                .collect::<Vec<_>>()
        })
    });
    let open = Callback::new(move |id: String| {
        if let Ok(at) = id.parse() {
            session.go(Screen::Look { at });
        }
    });
    view! {
        <Page title=t("ui.looks.title") on_back=Callback::new(move |()| session.go(Screen::Map))>
            <p class="page-line">{t("ui.looks.line")}</p>
            <GoList rows=listed on_go=open />
        </Page>
    }
}

fn go_row(row: Row, language: &str) -> GoRow {
    let state = waits_words(row.waits);
    GoRow {
        done: row.waits == Waits::Accepted,
        id: row.at.to_string(),
        words: place(row.at),
        detail: match row.since {
            Some(since) => fill(
                "ui.looks.since",
                &[("state", &state), ("when", &moment(since.utc, language))],
            ),
            None => state,
        },
    }
}

/// Where a wheel end is with its second look.
pub(crate) fn waits_words(waits: Waits) -> String {
    t(match waits {
        Waits::NotYet => "ui.looks.not-yet",
        Waits::ForTheFirst => "ui.looks.first",
        Waits::Changed => "ui.looks.changed",
        Waits::Again => "ui.looks.again",
        Waits::SentBack => "ui.looks.sent-back",
        Waits::Accepted => "ui.looks.accepted",
    })
}
