//! The sheet to read out to the customer: every extra line that is not done in plain words, the worst
//! first, why it matters, and one key for each answer. Who was asked is typed once.

use job::act;
use job::event::LineState;
use job::extra::ExtraLine;
use job::line::LineRef;
use job::words::Words;
use leptos::prelude::*;

use crate::parts::scroller::Scroller;
use crate::parts::text_entry::TextEntry;
use crate::say::place;
use crate::screen::Screen;
use crate::session::Session;
use crate::words::{find, t};

use super::extra_told::{finding_words, fix_words, state_words};
use super::page::Page;
use super::wanting::Wanting;

/// What the customer can say, with the words of its key.
const SAYS: [(LineState, &str); 3] = [
    (LineState::SaidYes, "ui.extra.tell.said-yes"),
    (LineState::SaidNo, "ui.extra.tell.said-no"),
    (LineState::Waiting, "ui.extra.tell.waiting"),
];

/// The sheet.
#[component]
pub(crate) fn ReadOutScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let back = Callback::new(move |()| session.go(Screen::Lines));
    let wanting = RwSignal::new(Vec::<Words>::new());
    let asked = RwSignal::new(session.open.with_untracked(|open| {
        let name = open.as_ref().and_then(|open| open.card.customer());
        name.map(str::to_owned).unwrap_or_default()
    }));
    let tell = Callback::new(move |(line, state): (LineRef, LineState)| {
        let told = session.act(
            |card, me, _, _| {
                let name = asked.get_untracked();
                Ok(vec![act::tell_asked(card, me, &line, state, &name)?])
            },
            |_| {},
        );
        wanting.set(told.err().into_iter().collect());
    });
    let lines = Memo::new(move |_| {
        session.open.with(|open| {
            let lines = open.iter().flat_map(|open| {
                let matters = |extra: &&ExtraLine| {
                    let finding = open.card.finding(&extra.finding);
                    finding.is_some_and(|finding| finding.protects)
                };
                let lines = open.card.to_read_out().into_iter();
                lines.map(move |extra| (extra.clone(), matters(&extra)))
            });
            lines.collect::<Vec<_>>()
        })
    });
    let rows = move || {
        let lines = lines.get();
        if lines.is_empty() {
            return view! { <p class="page-line" data-testid="nothing-to-read">{t("ui.read-out.none")}</p> }
                .into_any();
        }
        let rows = lines
            .into_iter()
            .map(|(extra, protects)| row(&extra, protects, tell));
        view! { <ol class="read-out" data-testid="read-out">{rows.collect_view()}</ol> }.into_any()
    };
    view! {
        <Page title=t("ui.read-out.title") on_back=back>
            <Scroller>
                <Wanting words=wanting/>
                <TextEntry words=t("ui.read-out.asked") text=asked testid="asked"/>
                {rows}
            </Scroller>
        </Page>
    }
}

fn row(extra: &ExtraLine, protects: bool, tell: Callback<(LineRef, LineState)>) -> AnyView {
    let plain = find(&format!("finding.{}.plain", extra.finding))
        .unwrap_or_else(|| finding_words(&extra.finding));
    let matters = find(&format!("finding.{}.matters", extra.finding));
    let said = extra.state;
    let (n, line) = (extra.line.n, extra.line.clone());
    let key = move |(state, words): (LineState, &'static str)| {
        let line = line.clone();
        let press = move |_| {
            if said != state {
                tell.run((line.clone(), state));
            }
        };
        view! {
            <button
                type="button"
                class="key"
                class:chosen=said == state
                aria-pressed=(said == state).to_string()
                data-testid=format!("read-{n}-{}", state.code())
                on:click=press
            >
                {t(words)}
            </button>
        }
    };
    view! {
        <li class="read-out-line" class:protects=protects data-testid=format!("read-{n}") data-state=said.code()>
            <p class="read-out-plain">{plain}" "<small>{place(extra.at)}</small></p>
            <p>{matters}</p>
            <p class="read-out-fix">{fix_words(&extra.finding, &extra.fix)}</p>
            {protects.then(|| view! { <p class="read-out-stays">{t("ui.read-out.protects")}</p> })}
            <small>{state_words(said)}</small>
            <div class="line-answers read-out-keys">{SAYS.map(key)}</div>
        </li>
    }
    .into_any()
}
