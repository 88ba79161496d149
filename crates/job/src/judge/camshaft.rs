//! Camshaft, anchors and clevis: which kind of brake their rules are asked for.
//!
//! The kind is a fact that nobody has to give: without it a play is kept, with advice beside it.

use rules::camshaft::anchor::{self, judge_bore, judge_groove};
use rules::camshaft::brake::Brake;
use rules::camshaft::look::{self, Sign, judge_look};
use rules::camshaft::play::{self, judge_end, judge_radial};
use rules::camshaft::spline::{self, judge_spline};
use rules::quantity::{Length, Quantity};
use rules::slack::clevis;
use rules::verdict::Judgement;

use super::own::own;
use super::{Counts, Judged};
use crate::card::Card;
use crate::event::Answer;
use crate::id::{AskId, OptionId, Place};

pub(super) fn reading(card: &Card, at: Place, rule: &str, reading: Quantity) -> Option<Judged> {
    let judgement = measured(rule, reading.length()?, brake(card, at))?;
    let judgement = judgement.by_shop(&own(card, at, rule));
    Some(Judged::one(judgement, Counts::Part))
}

fn measured(rule: &str, length: Length, brake: Brake) -> Option<Judgement> {
    if rule == play::RADIAL.id.0 {
        Some(judge_radial(length, brake))
    } else if rule == play::END.id.0 {
        Some(judge_end(length, brake))
    } else if rule == spline::RULE.id.0 {
        Some(judge_spline(length, brake))
    } else if rule == anchor::GROOVE.id.0 {
        Some(judge_groove(length, brake))
    } else if rule == anchor::BORE.id.0 {
        Some(judge_bore(length))
    } else {
        None
    }
}

/// What an answer by eye means: which part goes, and what goes with it.
pub(super) fn by_eye(rule: &str, ask: &AskId, answer: &Answer) -> Option<Judged> {
    let Answer::Choice { option } = answer else {
        return None;
    };
    let judgement = if rule == look::RULE.id.0 {
        judge_look(match (ask.as_str(), option.as_str()) {
            ("head", "replace") => Sign::HeadWorn,
            ("grease", "cam-head") => Sign::GreaseAtHead,
            ("grease", "no-way") => Sign::Binding,
            ("spider", "replace") => Sign::AnchorWorn,
            // A pin that is still stuck shows nothing yet.
            ("spider", "stuck") => return None,
            _ => Sign::Nothing,
        })
    } else if rule == clevis::RULE.id.0 {
        clevis::judge_look(match option.as_str() {
            "replace" => clevis::Sign::PinWorn,
            "out-of-round" => clevis::Sign::HoleLong,
            "bolt" => clevis::Sign::Bolt,
            _ => clevis::Sign::Nothing,
        })
    } else {
        return None;
    };
    Some(Judged::one(judgement, Counts::Part))
}

/// The kind of brake of this axle, as its fact says.
fn brake(card: &Card, at: Place) -> Brake {
    let axle = at.axle().map(Place::Axle);
    axle.and_then(|axle| card.choice(axle, "brake-kind"))
        .map(OptionId::as_str)
        .and_then(Brake::from_code)
        .unwrap_or(Brake::Unknown)
}
