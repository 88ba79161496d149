//! What was off about an answer, with the source of what decides. It repeats what the practice crate
//! says, and judges nothing.

use leptos::prelude::*;
use practice::book::Entry;
use practice::decision::Decision;
use practice::drill::{Answer, Off, Question};
use practice::instrument::{Instrument, Read};
use practice::kind::Kind;
use practice::seed::Seed;
use rules::shown::{self, Lean};

use job::judge::Units;

use crate::device;
use crate::judged::{bar, source_line};
use crate::parts::limit_bar::LimitBar;
use crate::parts::scroller::Scroller;
use crate::say::say_remark;
use crate::session::Session;
use crate::words::{fill, t, unit};

use super::asked::{figure, limit_words, tree_words};
use super::drill::list;
use super::seen::{self, Seen, SeenPages};

/// The word, what it should have been, and why.
#[component]
pub(super) fn Said(question: Question, answer: Answer, seed: Seed) -> impl IntoView {
    let session = expect_context::<Session>();
    let units = session.units();
    let checked = question.check(&answer);
    record(session, question.kind(), checked.is_right());
    let lines = lines(&question, &checked.off, &units);
    let line = |line: String| view! { <p class="page-line">{line}</p> };
    let bars = match &checked.off {
        Off::Stands(judged) => judged.as_ref().as_ref().ok().map(|judged| {
            let by_load = bar(&judged.by_load, &units);
            let by_three = bar(&judged.by_three.judgement, &units);
            view! {
                <LimitBar shown=Signal::stored(Some(by_load)) />
                <LimitBar shown=Signal::stored(Some(by_three)) />
            }
        }),
        _ => None,
    };
    let judged = judged(&question).filter_map(|decision| {
        let shown = bar(decision.ruling.judgement()?, &units);
        Some(view! { <LimitBar shown=Signal::stored(Some(shown)) /> })
    });
    let judged = judged.collect_view();
    let pictures = pictures(&question);
    let pictures = (!pictures.is_empty()).then(|| view! { <SeenPages seen=pictures /> });
    let word = if checked.is_right() {
        t("ui.drill.right")
    } else {
        t("ui.drill.off")
    };
    let source = checked
        .source
        .map(|source| view! { <p class="page-line">{source_line(source)}</p> });
    view! {
        <Scroller>
            <h2 data-testid="said">{word}</h2>
            <div data-testid="off">{lines.into_iter().map(line).collect_view()}</div>
            {bars}
            {judged}
            {source}
            {pictures}
            <p class="page-line" data-testid="seed">
                {fill("ui.drill.seed", &[("seed", &seed.to_string())])}
            </p>
        </Scroller>
    }
}

/// Keeps in the book of the practice bay how it came out, for whoever practises; nobody, nothing.
fn record(session: Session, kind: Kind, right: bool) {
    let Some(who) = session.me.get_untracked() else {
        return;
    };
    let entry = Entry::Drilled {
        who,
        on: device::today(),
        kind,
        right,
    };
    if session.note(vec![entry], |_| {}).is_err() {
        leptos::logging::warn!("a drill's outcome is not kept");
    }
}

/// What the bars under an answer judge.
fn judged(question: &Question) -> impl Iterator<Item = &Decision> {
    let (one, many) = match question {
        Question::Read(decision) | Question::Limit { decision, .. } => (Some(&**decision), &[][..]),
        Question::Fault { looks, .. } => (None, &looks[..]),
        Question::Cause { applied, looks, .. } => (Some(&**applied), &looks[..]),
        Question::Gauge(_)
        | Question::Click(_)
        | Question::Stands { .. }
        | Question::Pattern { .. }
        | Question::First { .. }
        | Question::EdgeCode { .. }
        | Question::Units { .. } => (None, &[][..]),
    };
    one.into_iter()
        .chain(many.iter().filter(|look| look.ruling.refuses()))
}

/// What the answer is about, to be looked at again.
fn pictures(question: &Question) -> Vec<Seen> {
    match question {
        Question::Read(_)
        | Question::Gauge(_)
        | Question::Click(_)
        | Question::EdgeCode { .. }
        | Question::Stands { .. }
        | Question::Limit { .. } => seen::of_question(question),
        Question::Fault { looks, .. } | Question::Cause { looks, .. } => {
            let refused = looks.iter().filter(|look| look.ruling.refuses());
            refused.flat_map(seen::of_decision).collect()
        }
        Question::Pattern { .. } | Question::First { .. } | Question::Units { .. } => Vec::new(),
    }
}

/// What an instrument shows, and by how many graduations it was read otherwise.
fn read(instrument: Instrument, off: &Off) -> Vec<String> {
    let tool = instrument.tool();
    let mut lines = vec![fill(
        "ui.drill.read.is",
        &[("figure", &figure(tool, instrument.shows()))],
    )];
    if let Off::Reading(Read::Off { by, .. }) = off {
        let halves = tool.halves(*by);
        let (whole, half) = (halves.abs() / 2, halves.abs() % 2 == 1);
        let whole_words = whole.to_string();
        let marks = match (whole, half) {
            (0, _) => t("ui.drill.read.half"),
            (1, false) => t("ui.drill.read.one"),
            (_, false) => fill("ui.drill.read.many", &[("marks", &whole_words)]),
            (_, true) => fill("ui.drill.read.and-half", &[("marks", &whole_words)]),
        };
        let key = if halves < 0 {
            "ui.drill.read.less"
        } else {
            "ui.drill.read.more"
        };
        lines.push(fill(key, &[("marks", &marks)]));
    }
    lines
}

/// What is wrong with what may not stay, and what it leads to.
fn found(looks: &[Decision]) -> Vec<String> {
    let refused = looks.iter().filter(|look| look.ruling.refuses());
    refused
        .flat_map(|look| {
            let name = seen::item(look.item);
            look.faults.iter().map(move |fault| {
                let finding = format!("finding.{}", fault.finding());
                let matters = t(&format!("{finding}.matters"));
                let values = [
                    ("item", name.as_str()),
                    ("finding", &t(&finding)),
                    ("matters", &matters),
                ];
                fill("ui.drill.fault.is", &values)
            })
        })
        .collect()
}

/// What is told about an answer, in lines.
pub(super) fn lines(question: &Question, off: &Off, units: &Units) -> Vec<String> {
    match question {
        Question::Read(decision) => {
            return decision
                .reading()
                .map_or(Vec::new(), |instrument| read(instrument, off));
        }
        Question::Gauge(instrument) => return read(*instrument, off),
        Question::Click(moved) => {
            let did = t(&format!("ui.drill.click.{}", moved.code()));
            return vec![did, say_remark(&moved.remark(), units)];
        }
        Question::Fault { looks, .. } => {
            let mut lines = sound(off);
            lines.extend(found(looks));
            return lines;
        }
        Question::Cause { looks, .. } => {
            let mut lines = sound(off);
            if let Off::OtherTree(trees) = off {
                let heads: Vec<String> = trees.iter().map(|tree| tree_words(*tree)).collect();
                lines.push(fill("ui.drill.cause.other", &[("list", &heads.join(", "))]));
            }
            lines.extend(found(looks));
            return lines;
        }
        Question::Limit { .. }
        | Question::Stands { .. }
        | Question::Pattern { .. }
        | Question::First { .. }
        | Question::EdgeCode { .. }
        | Question::Units { .. } => {}
    }
    told(question, off, units)
}

/// What was pointed at, where it may stay.
fn sound(off: &Off) -> Vec<String> {
    match off {
        Off::Sound(item) => vec![fill(
            "ui.drill.fault.sound",
            &[("item", &seen::item(*item))],
        )],
        Off::OtherFault(_) => vec![t("ui.drill.fault.other")],
        _ => Vec::new(),
    }
}

fn told(question: &Question, off: &Off, units: &Units) -> Vec<String> {
    let why = |step: &str| t(&format!("step.{step}.why"));
    match off {
        Off::Nothing => match question {
            Question::First { then, offered } => {
                let firsts: Vec<&str> = practice::scene::firsts(then).collect();
                let first = offered.iter().find(|step| firsts.contains(*step));
                first.map(|step| why(step)).into_iter().collect()
            }
            Question::Units { printed, unit, .. } => {
                exact(printed.quantity(), *unit).into_iter().collect()
            }
            _ => Vec::new(),
        },
        Off::First(firsts) => firsts
            .iter()
            .map(|step| {
                fill(
                    "ui.drill.first.comes",
                    &[("step", &t(&format!("step.{step}"))), ("why", &why(step))],
                )
            })
            .collect(),
        Off::Word { ruled } => vec![fill(
            "ui.drill.word",
            &[("verdict", &t(&format!("verdict.{}", ruled.code())))],
        )],
        Off::Stands(judged) => match judged.as_ref() {
            Ok(_) => vec![t("ui.drill.stands.refused")],
            Err(fault) => vec![say_remark(&fault.remark(), units)],
        },
        Off::NoOrder(fault) => vec![say_remark(&fault.remark(), units)],
        Off::Order { printed, odd, .. } => {
            let printed = list(printed.order());
            let mut lines = vec![fill("ui.drill.pattern.printed", &[("order", &printed)])];
            lines.extend(odd.iter().map(|odd| say_remark(&odd.remark(), units)));
            lines
        }
        Off::Figure { .. } => match question {
            Question::Units { printed, unit, .. } => {
                exact(printed.quantity(), *unit).into_iter().collect()
            }
            _ => Vec::new(),
        },
        Off::OtherLimit { decides } => vec![fill(
            "ui.drill.limit.other",
            &[
                ("limit", &limit_words(decides, units)),
                ("source", &source_line(decides.source)),
            ],
        )],
        Off::NoAnswer
        | Off::Reading(_)
        | Off::Moved(_)
        | Off::Sound(_)
        | Off::OtherFault(_)
        | Off::OtherTree(_) => Vec::new(),
    }
}

/// The figure to four decimals: finer than anybody reads it.
fn exact(quantity: rules::quantity::Quantity, of: rules::unit::Unit) -> Option<String> {
    let shown = shown::decimal(quantity, of, 4, Lean::Nearest)?;
    Some(fill(
        "ui.drill.units.is",
        &[("figure", &format!("{} {}", shown.text, unit(of)))],
    ))
}
