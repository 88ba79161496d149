//! Every extra line of the open card, those that still want something first. Each row leads to its
//! own page.

use job::card::Card;
use job::extra::ExtraLine;
use job::id::Place;
use leptos::prelude::*;

use crate::parts::scroller::Scroller;
use crate::screen::Screen;
use crate::session::Session;
use crate::words::{fill, t};

use super::extra_told::{fix_words, heading_of, held_by, is_settled, state_words};
use super::moment::moment;
use super::page::{Page, way_back};
use super::told::step_name;

/// The extra lines of the open card.
#[component]
pub(crate) fn LinesScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let back = way_back(session);
    let title = move || {
        let unit = session.open.with(|open| {
            open.as_ref()
                .map(|open| job::summary::summary(&open.card).unit)
        });
        fill("ui.extra.title", &[("unit", &unit.unwrap_or_default())])
    };
    let rows = move || {
        let language = session.settings.with(|settings| settings.language.clone());
        session.open.with(|open| {
            let Some(open) = open else { return Vec::new() };
            let card = &open.card;
            let mut lines: Vec<&ExtraLine> = card.extra_lines().iter().collect();
            lines.sort_by_key(|extra| is_settled(card, extra));
            lines
                .into_iter()
                .map(|extra| row(session, card, extra, &language))
                .collect()
        })
    };
    let none = move || {
        let has_lines = session.open.with(|open| {
            open.as_ref()
                .is_some_and(|open| !open.card.extra_lines().is_empty())
        });
        (!has_lines).then(
            || view! { <p class="page-line" data-testid="no-lines">{t("ui.extra.none-yet")}</p> },
        )
    };
    view! {
        <Page title=Signal::derive(title) on_back=back>
            <Scroller>
                {none}
                <div class="rows" data-testid="lines">{rows}</div>
            </Scroller>
            <div class="key-row">
                <button
                    type="button"
                    class="key wide-key"
                    data-testid="lines-read-out"
                    on:click=move |_| session.go(Screen::ReadOut)
                >
                    {t("ui.read-out.open")}
                </button>
                <button
                    type="button"
                    class="key wide-key"
                    data-testid="lines-found"
                    on:click=move |_| session.go(Screen::Found { at: Place::Vehicle })
                >
                    {t("ui.nav.found")}
                </button>
            </div>
        </Page>
    }
}

fn row(session: Session, card: &Card, extra: &ExtraLine, language: &str) -> AnyView {
    let to = Screen::line(&extra.line);
    let testid = format!("line-{}", extra.line.n);
    // The last word on it, else the one that found it.
    let (who, when) = extra
        .told
        .last()
        .map_or((&extra.who, extra.found), |told| (&told.who, told.at));
    let by = fill(
        "ui.extra.by",
        &[
            ("state", &state_words(extra.state)),
            ("name", card.name(who)),
            ("when", &moment(when.utc, language)),
        ],
    );
    let holds = card
        .finding(&extra.finding)
        .and_then(|finding| held_by(extra, finding))
        .map(|step| fill("ui.extra.holds", &[("step", &step_name(step))]));
    let passed = extra.passed.as_ref().map(|_| t("ui.extra.goes-on"));
    view! {
        <button
            type="button"
            class="row-key go-key"
            class:done=is_settled(card, extra)
            data-testid=testid
            data-state=extra.state.code()
            on:click=move |_| session.go(to.clone())
        >
            <svg class="sign row-mark" viewBox="0 0 48 48" aria-hidden="true">
                <rect class="row-mark-box" x="5" y="5" width="38" height="38" rx="6" />
                <path class="row-mark-tick" d="M13 25 L21 34 L36 14" />
            </svg>
            <span class="row-words">
                <span>{heading_of(extra)}</span>
                <small>{fix_words(&extra.finding, &extra.fix)}</small>
                <small>{extra.words.clone()}</small>
                <small>{by}</small>
                <small>{holds}</small>
                <small>{passed}</small>
            </span>
            <svg class="sign" viewBox="0 0 48 48" aria-hidden="true">
                <path d="M18 8 L34 24 L18 40" />
            </svg>
        </button>
    }
    .into_any()
}
