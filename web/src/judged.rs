//! A judgement of the rules as a bar with words. It only puts what the rules said into words.

use job::event::JudgedThen;
use job::judge::Units;
use rules::quantity::Quantity;
use rules::rules::{EDITION, by_id};
use rules::shown::Lean;
use rules::source::Source;
use rules::verdict::{Judgement, Verdict};

use crate::parts::limit_bar::{LimitBarShown, Tone};
use crate::say::{amount, say_remark};
use crate::words::{fill, find, t};

fn tone(verdict: Verdict) -> Tone {
    match verdict {
        Verdict::Within => Tone::Within,
        Verdict::AtTheLimit => Tone::AtTheLimit,
        Verdict::Beyond => Tone::Beyond,
        Verdict::NoReading => Tone::NoReading,
        Verdict::Sound => Tone::Sound,
        Verdict::Replace => Tone::Replace,
    }
}

/// A judgement as the bar shows it.
pub(crate) fn bar(judgement: &Judgement, units: &Units) -> LimitBarShown {
    let decides = judgement.limits.first();
    // How long the bar is drawn; what it means stands in the verdict.
    let used = match (judgement.reading, decides) {
        (Some(reading), Some(limit)) => share(reading.base(), limit.deciding().base()),
        _ => 0.0,
    };
    LimitBarShown {
        tone: tone(judgement.verdict),
        word: t(judgement.verdict.word().key()),
        reading: judgement
            .reading
            .map(|reading| {
                labelled(
                    judgement.rule.0,
                    "reading",
                    &amount(&units.show(reading, Lean::Up)),
                )
            })
            .unwrap_or_default(),
        limits: judgement
            .limits
            .iter()
            .map(|limit| {
                labelled(
                    judgement.rule.0,
                    "limit",
                    &amount(&units.show(limit.deciding(), Lean::Down)),
                )
            })
            .collect(),
        room: judgement.room.map(|room| room_words(room, units)),
        source: source_line(judgement.source),
        remarks: judgement
            .remarks
            .iter()
            .map(|remark| say_remark(remark, units))
            .collect(),
        used,
    }
}

/// A figure with what it is; a rule may have its own words for that.
fn labelled(rule: &str, what: &str, figure: &str) -> String {
    let own = format!("bar.{rule}.{what}");
    let key = if find(&own).is_some() {
        own
    } else {
        format!("bar.{what}")
    };
    fill(&key, &[("figure", figure)])
}

fn room_words(room: Quantity, units: &Units) -> String {
    let figure = amount(&units.show(room, Lean::Down));
    // A room below nothing is what is missing; its figure is shown without the sign.
    match figure.strip_prefix('-') {
        Some(missing) => fill("bar.missing", &[("figure", missing)]),
        None => fill("bar.room", &[("figure", &figure)]),
    }
}

#[expect(clippy::cast_precision_loss, reason = "the length of a drawn bar")]
fn share(part: i128, whole: i128) -> f64 {
    if whole == 0 {
        0.0
    } else {
        part as f64 / whole as f64
    }
}

/// What a rule is called.
pub(crate) fn rule_title(id: &str) -> String {
    by_id(id).map_or_else(|| id.to_owned(), |rule| t(rule.title.key()))
}

/// A source as one line: document, edition, clause, standing.
pub(crate) fn source_line(source: &Source) -> String {
    let parts = [source.document, source.edition, source.clause];
    let named: Vec<&str> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    fill(
        "ui.source",
        &[
            ("source", &named.join(", ")),
            ("standing", &t(source.standing.word().key())),
        ],
    )
}

/// A line for a judgement that this app would make otherwise now; `None` where it would not.
pub(crate) fn judged_otherwise(then: &JudgedThen, now: &Judgement) -> Option<String> {
    if then.verdict == now.verdict.code() {
        return None;
    }
    Some(fill(
        "ui.judged-then",
        &[
            ("then", &t(&format!("verdict.{}", then.verdict))),
            ("edition", &then.edition),
            ("now", &t(now.verdict.word().key())),
            ("edition-now", EDITION),
        ],
    ))
}
