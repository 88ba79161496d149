//! An extra line in words: what its pages and the pages that lead to it say of it.

use job::card::Card;
use job::event::LineState;
use job::extra::{ExtraLine, LineTold, Note};
use job::id::{FindingId, OptionId, StepId};
use job::procedure::Finding;
use leptos::prelude::*;

use crate::say::place;
use crate::words::{fill, t};

use super::photo_shown::Photo;
use super::told::step_name;

/// What is wrong, and where.
pub(crate) fn heading_of(extra: &ExtraLine) -> String {
    format!("{} – {}", finding_words(&extra.finding), place(extra.at))
}

/// How many extra lines still want something.
pub(crate) fn open_lines(card: &Card) -> usize {
    let lines = card.extra_lines().iter();
    lines.filter(|extra| !is_settled(card, extra)).count()
}

pub(super) fn is_settled(card: &Card, extra: &ExtraLine) -> bool {
    extra.is_settled(card.finding(&extra.finding))
}

pub(super) fn finding_words(finding: &FindingId) -> String {
    t(&format!("finding.{finding}"))
}

pub(super) fn fix_words(finding: &FindingId, fix: &OptionId) -> String {
    t(&format!("fix.{finding}.{fix}"))
}

/// How far a line is.
pub(super) fn state_words(state: LineState) -> String {
    t(&format!("line.state.{}", state.code()))
}

/// What was said of a line, and who said it.
pub(super) fn told_words(told: &LineTold) -> String {
    let state = state_words(told.state);
    match &told.asked {
        Some(asked) => fill("ui.extra.asked", &[("state", &state), ("asked", asked)]),
        None => state,
    }
}

/// What was noted of a line.
pub(crate) fn note_words(note: &Note) -> String {
    match note {
        Note::Photo { .. } => t("ui.notes.photo"),
        Note::Part { part, number } => match number {
            Some(number) => fill(
                "ui.notes.part-number",
                &[("part", part), ("number", number)],
            ),
            None => part.clone(),
        },
        Note::Minutes(minutes) => fill("ui.notes.minutes", &[("minutes", &minutes.to_string())]),
    }
}

/// The parts and the time of a line, one below the other.
pub(crate) fn notes(extra: &ExtraLine) -> Vec<AnyView> {
    let parts = extra.notes.iter().filter_map(|noted| match &noted.note {
        Note::Part { .. } => Some(note_words(&noted.note)),
        Note::Photo { .. } | Note::Minutes(_) => None,
    });
    let minutes = extra.minutes().to_string();
    let time = (extra.minutes() > 0).then(|| fill("ui.notes.minutes", &[("minutes", &minutes)]));
    let row = |words: String| view! { <small>{words}</small> }.into_any();
    parts.chain(time).map(row).collect()
}

/// The small copies of its photos.
pub(crate) fn photos(extra: &ExtraLine) -> Option<AnyView> {
    let heading = heading_of(extra);
    let photos: Vec<AnyView> = extra
        .photos()
        .map(|(_, small)| view! { <Photo sha=small words=heading.clone()/> }.into_any())
        .collect();
    (!photos.is_empty()).then(|| view! { <div class="photo-keys">{photos}</div> }.into_any())
}

/// The step that waits for a line now.
pub(super) fn held_by<'a>(extra: &ExtraLine, finding: &'a Finding) -> Option<&'a StepId> {
    let waits = extra.state != LineState::Done && (finding.protects || extra.passed.is_none());
    finding.holds.as_ref().filter(|_| waits)
}

/// What a finding asks for whatever is picked: the other end, the step that waits, what nobody passes.
pub(super) fn follows(finding: &Finding) -> Vec<String> {
    let both = finding.both_ends.then(|| t("ui.extra.both-ends"));
    let step = finding.holds.as_ref().map(step_name);
    let waits = step.map(|step| {
        let key = if finding.protects {
            "ui.extra.protects"
        } else {
            "ui.extra.waits"
        };
        fill(key, &[("step", &step)])
    });
    both.into_iter().chain(waits).collect()
}

/// Names and what stands beside them, one below the other.
#[component]
pub(super) fn Facts(facts: Vec<(String, String)>) -> impl IntoView {
    let row = |(name, value): (String, String)| {
        view! {
            <div>
                <dt>{name}</dt>
                <dd>{value}</dd>
            </div>
        }
    };
    view! { <dl class="line-facts">{facts.into_iter().map(row).collect_view()}</dl> }
}
