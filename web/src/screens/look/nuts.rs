//! The nut map: every nut with its story through the passes, those out of the ordinary first.

use job::card::Card;
use job::id::Place;
use job::second_look::page::{Fate, NutSaid, NutStory, nuts};
use leptos::prelude::*;

use crate::screens::moment::moment;
use crate::screens::told::step_name;
use crate::screens::trail::struck_by;
use crate::words::{fill, find, t};

/// The nuts that are out of the ordinary or not; none where there is no nut to tell of.
pub(super) fn map(card: &Card, at: Place, plain: bool, language: &str) -> Option<AnyView> {
    let stories: Vec<NutStory<'_>> = nuts(card, at)
        .into_iter()
        .filter(|story| story.plain == plain && !story.said.is_empty())
        .collect();
    (!stories.is_empty()).then(|| {
        let cells = stories.iter().map(|story| cell(card, story, language));
        view! { <ul class="nut-map" data-testid=if plain { "nuts-plain" } else { "nuts-apart" }>{cells.collect_view()}</ul> }
            .into_any()
    })
}

/// How many nuts are plain, of all.
pub(super) fn count(card: &Card, at: Place) -> Option<String> {
    let stories = nuts(card, at);
    let plain = stories.iter().filter(|story| story.plain).count();
    stories.iter().any(|story| !story.said.is_empty()).then(|| {
        fill(
            "ui.look.nuts-plain",
            &[
                ("count", &plain.to_string()),
                ("of", &stories.len().to_string()),
            ],
        )
    })
}

fn cell(card: &Card, story: &NutStory<'_>, language: &str) -> impl IntoView + use<> {
    let passes: Vec<AnyView> = story
        .said
        .chunk_by(|one, next| (one.step, one.ask) == (next.step, next.ask))
        .map(|pass| self::pass(card, pass, language))
        .collect();
    view! {
        <li class="nut-cell" class:apart=!story.plain data-testid=format!("story-{}", story.nut)>
            <span class="nut-number">{story.nut}</span>
            <div class="look-lines">{passes}</div>
        </li>
    }
}

/// One pass over one nut: what was said of it, first to last.
fn pass(card: &Card, said: &[NutSaid<'_>], language: &str) -> AnyView {
    let name = said
        .first()
        .map(|first| {
            find(&format!("ask.{}.{}", first.step, first.ask))
                .filter(|_| first.ask.as_str() != "nuts")
                .unwrap_or_else(|| step_name(first.step))
        })
        .unwrap_or_default();
    let parts = said.iter().map(|one| {
        let mark = match one.mark {
            Some(mark) => find(&format!("ask.{}.{}.{mark}", one.step, one.ask))
                .unwrap_or_else(|| mark.to_string()),
            None => t("ui.look.whole-pass"),
        };
        let words = fill(
            "ui.look.nut-said",
            &[
                ("mark", &mark),
                ("when", &moment(one.told.entry.at.utc, language)),
            ],
        );
        let struck = match &one.told.fate {
            Fate::Struck(by) => Some(struck_by(card, by, language)),
            Fate::Stands | Fate::Overtaken => None,
        };
        let is_struck = struck.is_some();
        view! {
            <li class:struck=is_struck class:overtaken=one.told.fate == Fate::Overtaken>
                <span class="look-said">{words}</span>
                {struck.map(|by| view! { <small>{by}</small> })}
            </li>
        }
    });
    view! {
        <p><strong>{name}</strong></p>
        <ol class="look-list">{parts.collect_view()}</ol>
    }
    .into_any()
}
