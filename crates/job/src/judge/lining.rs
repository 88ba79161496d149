//! Linings and shoes: which readings, facts and answers their rules get.
//!
//! What the old ones measure is told and holds nothing: they are renewed anyhow. What is wrong with
//! the new ones holds the shoes.

use rules::lining::code::{Code, Edge, EdgeFault, Letter};
use rules::lining::gap::{self, judge_gap};
use rules::lining::hardware::{self, Part, by_code, judge_left_old};
use rules::lining::look::{self, Look, judge_look};
use rules::lining::matched::{self, judge_match};
use rules::lining::rivets::{self, judge_rivets};
use rules::lining::shoe::{self, RollerEnd, judge_hole, judge_recess, judge_span};
use rules::lining::thickness::{
    self, Fixing, Indicator, LiningFacts, MeasuredAt, Shoe, judge_thickness,
};
use rules::quantity::Length;
use rules::verdict::{Judgement, Side};

use super::axle::kind;
use super::own::{one_of, own, with_others};
use super::stroke::{beside, jurisdiction};
use super::{Counts, Judged};
use crate::card::Card;
use crate::event::{Answer, Exception, FactValue};
use crate::id::{OptionId, Place};
use crate::procedure::{Ask, Step};
use crate::words::Words;

/// The mark of a lining that is worn down to its wear indicator.
const AT_MARK: &str = "at-mark";

/// `None` if the rule is none of a lining's, or the answer none that it judges.
pub(super) fn judge(
    card: &Card,
    at: Place,
    step: &Step,
    ask: &Ask,
    rule: &str,
    answer: &Answer,
) -> Option<Judged> {
    if let Answer::Reading { typed } = answer {
        let reading = typed.typed().ok()?.quantity().length()?;
        read(card, at, step, ask, rule, reading)
    } else if let Answer::Exceptions { but } = answer {
        if rule == look::RULE.id.0 {
            let shows = but.iter().map(|one| one.mark.as_str());
            let shows: Vec<Look> = shows.filter_map(Look::from_code).collect();
            Some(Judged::one(judge_look(&shows), Counts::AsFound))
        } else if rule == hardware::RULE.id.0 {
            let left_old: Vec<&Part> = but.iter().filter_map(|one| by_code(&one.item)).collect();
            Some(Judged::one(judge_left_old(&left_old), Counts::Part))
        } else {
            None
        }
    } else {
        // Ends said to differ do so whatever their codes are: that answer clears nothing by itself.
        let is_choice = matches!(answer, Answer::Choice { .. });
        (is_choice && rule == matched::RULE.id.0).then(|| ends(card, at))
    }
}

fn read(
    card: &Card,
    at: Place,
    step: &Step,
    ask: &Ask,
    rule: &str,
    reading: Length,
) -> Option<Judged> {
    let as_found = |judgement: Judgement| Some(Judged::one(judgement, Counts::AsFound));
    let part = |judgement: Judgement| Some(Judged::one(judgement, Counts::Part));
    if rule == thickness::RULE.id.0 {
        let measured_at = match ask.id.as_str() {
            "thinnest" => MeasuredAt::Thinnest,
            _ => MeasuredAt::Middle,
        };
        let own = own(card, at, rule);
        let facts = LiningFacts {
            shop: one_of(&own, Side::AtLeast),
            ..facts(card, at, step, measured_at)
        };
        as_found(with_others(judge_thickness(reading, &facts), &own))
    } else if rule == rivets::RULE.id.0 {
        as_found(judge_rivets(reading, jurisdiction(card)))
    } else if rule == gap::RULE.id.0 {
        let within = match ask.id.as_str() {
            "gap-webs" => gap::Where::BetweenWebs,
            _ => gap::Where::Edges,
        };
        part(judge_gap(reading, within))
    } else if rule == shoe::SPAN.id.0 {
        part(judge_span(reading, roller_end(card, at)))
    } else if rule == shoe::RECESS.id.0 {
        part(judge_recess(reading, roller_end(card, at)))
    } else if rule == shoe::HOLE.id.0 {
        part(judge_hole(reading, roller_end(card, at)))
    } else {
        None
    }
}

fn of_axle<'a>(card: &'a Card, at: Place, fact: &str) -> Option<&'a str> {
    let option = card.choice(Place::Axle(at.axle()?), fact)?;
    Some(option.as_str())
}

fn facts(card: &Card, at: Place, step: &Step, measured_at: MeasuredAt) -> LiningFacts {
    let to_the_mark = |one: &Exception| one.mark.as_str() == AT_MARK;
    let worn = beside(card, at, step, "linings")
        .into_iter()
        .any(|answer| matches!(answer, Answer::Exceptions { but } if but.iter().any(to_the_mark)));
    LiningFacts {
        axle: kind(card, at.axle().unwrap_or_default()),
        shoe: match of_axle(card, at, "shoe-lining") {
            Some("strip") => Shoe::Strip,
            Some("two-pads") => Shoe::TwoPads,
            _ => Shoe::Unknown,
        },
        fixing: match of_axle(card, at, "lining-fixing") {
            Some("riveted") => Fixing::Riveted,
            Some("bolted") => Fixing::Bolted,
            Some("bonded") => Fixing::Bonded,
            _ => Fixing::Unknown,
        },
        at: measured_at,
        indicator: if worn {
            Indicator::Reached
        } else {
            Indicator::NotReached
        },
        jurisdiction: jurisdiction(card),
        shop: None,
    }
}

fn roller_end(card: &Card, at: Place) -> RollerEnd {
    match of_axle(card, at, "roller-end") {
        Some("recess") => RollerEnd::Recess,
        Some("hole") => RollerEnd::Hole,
        _ => RollerEnd::Unknown,
    }
}

/// Whether both ends of an axle get the same lining, by the codes that were read off.
fn ends(card: &Card, at: Place) -> Judged {
    let both = at
        .axle()
        .map(|axle| Place::ends(axle).map(|end| edge(card, end)));
    match both {
        Some([Err(fault), _] | [_, Err(fault)]) => Judged::Wants {
            rule: matched::RULE.id,
            counts: Counts::Part,
            words: Words::from(&fault.remark()),
        },
        Some([Ok(left), Ok(right)]) => {
            Judged::one(judge_match(left.as_ref(), right.as_ref()), Counts::Part)
        }
        None => Judged::one(judge_match(None, None), Counts::Part),
    }
}

/// What is printed on the linings of a wheel end: the whole text where it was typed, else the two
/// letters that were chosen.
fn edge(card: &Card, at: Place) -> Result<Option<Edge>, EdgeFault> {
    let text = card.fact(at, &"edge-text".into()).and_then(FactValue::text);
    if let Some(text) = text {
        return Edge::read(text).map(Some);
    }
    let letter = |fact: &str| {
        let option = card.choice(at, fact).map(OptionId::as_str)?;
        Letter::from_code(option)
    };
    let code = letter("edge-normal").zip(letter("edge-hot"));
    Ok(code.map(|(normal, hot)| Edge::of(Code { normal, hot })))
}

#[cfg(test)]
mod tests;
