//! What a question asks, in words: the line over it, the facts it gives, and what can be chosen.

use practice::axle::Axle;
use practice::decision::{Decision, Item};
use practice::drill::Question;
use practice::instrument::Tool;
use rules::camshaft::brake::Brake;
use rules::lining::thickness::Shoe;
use rules::quantity::Quantity;
use rules::shown::{self, Lean};
use rules::slack::cause::Tree;
use rules::unit::Unit;
use rules::verdict::{Limit, Side, Verdict};

use job::judge::Units;

use crate::judged::{limits, source_line};
use crate::parts::choice_list::Choice;
use crate::pictures::instruments::instrument_name;
use crate::say::amount;
use crate::words::{fill, t, unit};

use super::seen;

/// The line over a question.
pub(super) fn line(question: &Question, units: &Units) -> String {
    match question {
        Question::Read(decision) => read_line(decision),
        Question::Gauge(instrument) => fill(
            "ui.drill.read.gauge",
            &[("tool", &instrument_name(instrument.tool()))],
        ),
        Question::Limit { axle, decision, .. } => {
            let item = seen::item(decision.item);
            [
                fill("ui.drill.limit.ask", &[("item", &item)]),
                facts(axle, decision, units),
            ]
            .join(" ")
        }
        Question::Fault { .. } => t("ui.drill.fault.ask"),
        Question::Cause { applied, free, .. } => {
            let of = |decision: &Decision| {
                let judged = decision.ruling.judgement();
                judged.map_or(String::new(), |judged| limits(judged, units).join(", "))
            };
            fill(
                "ui.drill.cause.ask",
                &[("limit", &of(applied)), ("window", &of(free))],
            )
        }
        Question::EdgeCode { .. } => t("ui.drill.edge-code.ask"),
        Question::Click(_) => t("ui.drill.click.ask"),
        Question::First { then, .. } => fill(
            "ui.drill.first.ask",
            &[("step", &t(&format!("step.{then}")))],
        ),
        Question::Stands { lift, .. } => {
            let mass = |mass: rules::quantity::Mass| amount(&units.show(mass.into(), Lean::Up));
            let load = match lift.load.mass {
                Some(load) => fill("ui.drill.stands.load", &[("mass", &mass(load))]),
                None => t("ui.drill.stands.load-unknown"),
            };
            let unit = lift
                .unit
                .counting()
                .map(|(weight, _)| fill("ui.drill.stands.unit", &[("mass", &mass(weight))]));
            [load, unit.unwrap_or_default(), t("ui.drill.stands.ask")].join(" ")
        }
        Question::Pattern { studs } => {
            fill("ui.drill.pattern.ask", &[("studs", &studs.to_string())])
        }
        Question::Units {
            printed, unit: of, ..
        } => fill(
            "ui.drill.units.ask",
            &[
                // Whole inches and their fraction stay on one line.
                (
                    "printed",
                    &format!("{} {}", printed.text(), unit(printed.unit())).replace(' ', "\u{a0}"),
                ),
                ("unit", &unit(*of)),
            ],
        ),
    }
}

fn read_line(decision: &Decision) -> String {
    let tool = decision
        .reading()
        .map(|instrument| instrument_name(instrument.tool()));
    let item = seen::item(decision.item);
    let values = [
        ("tool", tool.as_deref().unwrap_or_default()),
        ("item", item.as_str()),
    ];
    match decision.item {
        Item::Applied | Item::Free => fill("ui.drill.read.stroke", &values),
        Item::Diameter => fill("ui.drill.read.largest", &values),
        _ => fill("ui.drill.read.ask", &values),
    }
}

/// The facts that decide which limit applies.
fn facts(axle: &Axle, decision: &Decision, units: &Units) -> String {
    let Some(side) = decision.side else {
        return String::new();
    };
    let end = axle.end(side);
    match decision.item {
        Item::Applied => t("ui.drill.limit.chamber"),
        Item::Free | Item::AdjusterTorque => fact("adjuster-style", end.mechanism.code()),
        Item::Lining => [
            t(&format!("ui.drill.axle.{}", axle.is.code())),
            fact("shoe-lining", strip_or_pads(axle.shoe)),
        ]
        .join(" "),
        Item::Diameter | Item::DrumShape => {
            let cast = end.drum().marks().cast_max.map(|cast| {
                let cast = amount(&units.show(cast.into(), Lean::Down));
                fill("ui.drill.limit.cast", &[("figure", &cast)])
            });
            cast.unwrap_or_default()
        }
        _ => fill(
            "ui.drill.limit.fact",
            &[
                ("fact", &t("fact.brake-kind")),
                ("value", &brake(axle.brake)),
            ],
        ),
    }
}

/// A kind of brake by what stands on it. What its sheet allows is the question.
fn brake(brake: Brake) -> String {
    t(match brake {
        Brake::FifteenByFour => "ui.drill.brake.fifteen-by-four",
        Brake::SpiderTwenty => "ui.drill.brake.spider-20",
        Brake::SpiderThirty => "ui.drill.brake.spider-30",
        Brake::CraneCarrier => "ui.drill.brake.crane-carrier",
        Brake::TrailerTube => "ui.drill.brake.trailer-tube",
        Brake::Unknown => "ui.not-known",
    })
}

fn fact(id: &str, option: &str) -> String {
    let (name, value) = (t(&format!("fact.{id}")), t(&format!("fact.{id}.{option}")));
    fill("ui.drill.limit.fact", &[("fact", &name), ("value", &value)])
}

const fn strip_or_pads(shoe: Shoe) -> &'static str {
    match shoe {
        Shoe::Strip => "strip",
        Shoe::TwoPads | Shoe::Unknown => "two-pads",
    }
}

/// The three words of a judgement.
pub(super) fn verdicts() -> Vec<Choice> {
    [Verdict::Within, Verdict::AtTheLimit, Verdict::Beyond]
        .map(|verdict| Choice::new(verdict.code(), t(verdict.word().key())))
        .to_vec()
}

/// Limits to choose from, by their places.
pub(super) fn offered_limits(offered: &[Limit], units: &Units) -> Vec<Choice> {
    let choice = |(at, limit): (usize, &Limit)| {
        let mut choice = Choice::new(at.to_string(), limit_words(limit, units));
        choice.detail = source_line(limit.source);
        choice
    };
    offered.iter().enumerate().map(choice).collect()
}

/// A limit as it is printed.
pub(super) fn limit_words(limit: &Limit, units: &Units) -> String {
    let (key, lean) = match limit.side {
        Side::AtMost => ("bar.most", Lean::Down),
        Side::AtLeast => ("bar.least", Lean::Up),
    };
    let figure = amount(&units.show(limit.deciding(), lean));
    fill(key, &[("figure", &figure)])
}

/// The lists of causes, by their places among all of them.
pub(super) fn trees() -> Vec<Choice> {
    let choice = |(at, tree): (usize, &Tree)| Choice::new(at.to_string(), tree_words(*tree));
    Tree::ALL.iter().enumerate().map(choice).collect()
}

/// What a list of causes is called.
pub(super) fn tree_words(tree: Tree) -> String {
    t(tree.word().key())
}

/// What was measured, in the unit and the manner of its instrument.
pub(super) fn figure(tool: Tool, quantity: Quantity) -> String {
    let of = tool.unit();
    let fraction = match (tool, quantity) {
        (Tool::PushrodRule | Tool::LiningGauge | Tool::ShoeCaliper, Quantity::Length(length)) => {
            shown::inch_fraction(length)
        }
        _ => None,
    };
    let text = fraction.or_else(|| shown::exact(quantity, of));
    text.map_or(String::new(), |text| format!("{text} {}", unit(of)))
}

/// How an instrument's reading is typed.
pub(crate) struct Typing {
    /// The unit of what is typed; `None` for a count of marks.
    pub(super) unit: Option<Unit>,
    /// What a typed count of marks is put after: whole inches.
    pub(super) whole: i64,
    /// Marks to the inch, where marks are counted.
    pub(crate) parts: i64,
}

impl Typing {
    /// What is asked for where marks are counted.
    pub(crate) fn words(&self) -> String {
        let (parts, whole) = (self.parts.to_string(), self.whole.to_string());
        match self.whole {
            0 => fill("ui.drill.read.parts", &[("parts", &parts)]),
            _ => fill(
                "ui.drill.read.past",
                &[("parts", &parts), ("whole", &whole)],
            ),
        }
    }

    /// So many marks as a fraction of an inch.
    pub(crate) fn inches(&self, marks: &str) -> String {
        match self.whole {
            0 => format!("{marks}/{}", self.parts),
            whole => format!("{whole} {marks}/{}", self.parts),
        }
    }
}

/// Marks finer than a sixteenth are counted past the whole inch before them.
pub(crate) fn typing(tool: Tool, marks: i64) -> Typing {
    let parts = match tool {
        Tool::LiningGauge => 32,
        Tool::ShoeCaliper => 64,
        _ => 0,
    };
    if parts == 0 {
        return Typing {
            unit: Some(tool.unit()),
            whole: 0,
            parts,
        };
    }
    Typing {
        unit: None,
        whole: marks / parts,
        parts,
    }
}
