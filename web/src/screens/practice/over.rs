//! The end of a round: each question with what was off about its answer. There is no score.

use leptos::prelude::*;
use practice::drill::round::Round;

use crate::parts::scroller::Scroller;
use crate::parts::wide_done::WideDone;
use crate::screen::Screen;
use crate::session::Session;
use crate::words::{fill, t};

use super::another;
use super::said::lines;

/// What was right and what wasn't, and the way to another round.
#[component]
pub(super) fn Over(round: Round) -> impl IntoView {
    let session = expect_context::<Session>();
    let units = session.units();
    let (drill, seed) = (round.drill(), round.seed());
    let row = |(answer, number): (&practice::drill::Answer, usize)| {
        let question = round.question(number)?;
        let checked = question.check(answer);
        let (key, told) = if checked.is_right() {
            ("ui.drill.right", Vec::new())
        } else {
            ("ui.drill.off", lines(&question, &checked.off, &units))
        };
        let number = number.to_string();
        let told = told.into_iter().map(|line| view! { <p>{line}</p> });
        Some(view! {
            <li data-testid=format!("told-{number}")>
                <strong>{fill("ui.drill.told", &[("number", &number), ("word", &t(key))])}</strong>
                {told.collect_view()}
            </li>
        })
    };
    let rows: Vec<_> = round.said().iter().zip(1..).map(row).collect();
    let more = Callback::new(move |()| {
        session.go(Screen::Drill {
            round: Round::new(drill, another()),
        });
    });
    view! {
        <Scroller>
            <p class="page-line">{t("ui.drill.over")}</p>
            <ol class="drill-told" data-testid="over">{rows}</ol>
            <p class="page-line" data-testid="seed">
                {fill("ui.drill.seed", &[("seed", &seed.to_string())])}
            </p>
        </Scroller>
        <WideDone words=t("ui.drill.more") waits=false on_done=more />
    }
}
