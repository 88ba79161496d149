//! A judgement of the rules as a bar with words. It only puts what the rules said into words.

use job::event::{Amount, JudgedThen, TypedText};
use job::judge::Units;
use rules::quantity::Quantity;
use rules::rules::{EDITION, by_id};
use rules::shown::Lean;
use rules::source::Source;
use rules::verdict::{Judgement, Limit, Side, Verdict};

use crate::parts::limit_bar::{LimitBarShown, Tone};
use crate::say::{amount, say_remark};
use crate::words::{fill, find, t};

/// The mark of a verdict.
pub(crate) fn tone(verdict: Verdict) -> Tone {
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
        limits: limits(judgement, units),
        room: judgement.room.map(|room| room_words(room, units)),
        source: source_line(judgement.source),
        remarks: judgement
            .remarks
            .iter()
            .map(|remark| say_remark(remark, units))
            .chain(also_held(judgement, units))
            .chain(others(judgement, units))
            .collect(),
        used,
    }
}

/// The limits of the deciding source in words. The two ends of a window say which is which.
pub(crate) fn limits(judgement: &Judgement, units: &Units) -> Vec<String> {
    let sides = || judgement.limits.iter().map(|limit| limit.side);
    let window =
        sides().any(|side| side == Side::AtLeast) && sides().any(|side| side == Side::AtMost);
    let words = |limit: &Limit| {
        let (what, lean) = match (window, limit.side) {
            (false, _) => ("limit", Lean::Down),
            (true, Side::AtMost) => ("most", Lean::Down),
            (true, Side::AtLeast) => ("least", Lean::Up),
        };
        let figure = amount(&units.show(limit.deciding(), lean));
        labelled(judgement.rule.0, what, &figure)
    };
    let (first, rest) = judgement.limits.split_at(judgement.limits.len().min(1));
    let own = rest.iter().filter(|limit| limit.source == judgement.source);
    first.iter().chain(own).map(words).collect()
}

/// The other sources that were held against the reading as well, each with its limit.
fn also_held(judgement: &Judgement, units: &Units) -> Vec<String> {
    let others = judgement.limits.iter().skip(1);
    others
        .filter(|limit| limit.source != judgement.source)
        .map(|limit| {
            let (key, lean) = match limit.side {
                Side::AtMost => ("bar.also.most", Lean::Down),
                Side::AtLeast => ("bar.also.least", Lean::Up),
            };
            let figure = amount(&units.show(limit.deciding(), lean));
            let source = source_line(limit.source);
            fill(key, &[("figure", &figure), ("source", &source)])
        })
        .collect()
}

/// What sources say that are for another kind or don't decide: one line for each, a window in one.
fn others(judgement: &Judgement, units: &Units) -> Vec<String> {
    let limits: Vec<&Limit> = judgement.others.iter().map(|other| &other.limit).collect();
    let figure = |limit: &Limit| {
        let lean = match limit.side {
            Side::AtMost => Lean::Down,
            Side::AtLeast => Lean::Up,
        };
        amount(&units.show(limit.deciding(), lean))
    };
    let source = |limit: &Limit| {
        let parts = [limit.source.document, limit.source.clause];
        let named: Vec<&str> = parts.into_iter().filter(|part| !part.is_empty()).collect();
        named.join(", ")
    };
    let same = |a: &Limit, b: &Limit| {
        a.side == Side::AtLeast && b.side == Side::AtMost && a.source == b.source
    };
    limits
        .chunk_by(|a, b| same(a, b))
        .filter_map(|window| match window {
            [least, most] => Some(fill(
                "bar.other.window",
                &[
                    ("low", &figure(least)),
                    ("high", &figure(most)),
                    ("source", &source(least)),
                ],
            )),
            [limit] => {
                let key = match limit.side {
                    Side::AtMost => "bar.other.at-most",
                    Side::AtLeast => "bar.other.at-least",
                };
                Some(fill(
                    key,
                    &[("figure", &figure(limit)), ("source", &source(limit))],
                ))
            }
            // A chunk is a least with its most, so it never has three.
            _ => None,
        })
        .collect()
}

/// A judgement as it was shown then, for a rule that says nothing of it now.
pub(crate) fn bar_then(then: &JudgedThen) -> LimitBarShown {
    let verdict = Verdict::from_code(&then.verdict);
    let used = match (&then.reading, then.limits.first()) {
        (Some(reading), Some(limit)) => match (base(reading), base(limit)) {
            (Some(reading), Some(limit)) => share(reading, limit),
            _ => 0.0,
        },
        _ => 0.0,
    };
    LimitBarShown {
        tone: verdict.map_or(Tone::Kept, tone),
        word: find(&format!("verdict.{}", then.verdict)).unwrap_or_else(|| then.verdict.clone()),
        reading: then
            .reading
            .as_ref()
            .map(|reading| labelled(&then.rule, "reading", &amount(reading)))
            .unwrap_or_default(),
        limits: then
            .limits
            .iter()
            .map(|limit| labelled(&then.rule, "limit", &amount(limit)))
            .collect(),
        room: then.room.as_ref().map(|room| room_figure(&amount(room))),
        source: then.source.clone(),
        // Only the key of a remark is kept with a line: one that wants figures stays with its rule.
        remarks: then
            .remarks
            .iter()
            .filter_map(|key| find(key))
            .filter(|words| !words.contains('{'))
            .collect(),
        used,
    }
}

fn base(amount: &Amount) -> Option<i128> {
    let text = TypedText {
        text: amount.text.clone(),
        unit: amount.unit.clone(),
    };
    text.typed().ok().map(|typed| typed.quantity().base())
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
    room_figure(&amount(&units.show(room, Lean::Down)))
}

fn room_figure(figure: &str) -> String {
    // A room below nothing is what is missing; its figure is shown without the sign.
    match figure.strip_prefix('-') {
        Some(missing) => fill("bar.missing", &[("figure", missing)]),
        None => fill("bar.room", &[("figure", figure)]),
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
