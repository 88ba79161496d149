//! Wheel bearings: whose way of adjusting applies to a hub, and the steps of the rule book's way.

use rules::bearing::end_play::{self, judge_end_play};
use rules::bearing::sequence;
use rules::bearing::setup::{Axle, Nuts, Way};
use rules::quantity::Quantity;
use rules::word::Remark;

use super::own::own;
use super::{AxleIs, Counts, Judged, axle_is};
use crate::card::Card;
use crate::id::{OptionId, Place};
use crate::procedure::Step;

/// The step in which a hub that stayed on is looked at: it can be adjusted later, too.
const HUB: &str = "hub";

pub(super) fn reading(
    card: &Card,
    at: Place,
    step: &Step,
    rule: &str,
    reading: Quantity,
) -> Option<Judged> {
    if rule != end_play::RULE.id.0 {
        return None;
    }
    let way = fact(card, at, "bearing-way").and_then(Way::from_code);
    let judgement = judge_end_play(reading.length()?, way.unwrap_or(Way::Unknown));
    let judgement = judgement.by_shop(&own(card, at, rule));
    let counts = if step.id.as_str() == HUB {
        Counts::HubAsFound
    } else {
        Counts::Part
    };
    Some(Judged::one(judgement, counts))
}

/// How the bearing of this hub is adjusted, step by step; `None` unless the rule book's way
/// applies and its row is known.
pub fn steps(card: &Card, at: Place) -> Option<Vec<Remark>> {
    if fact(card, at, "bearing-way") != Some(Way::RuleBook.code()) {
        return None;
    }
    let axle = match axle_is(card, at)? {
        AxleIs::Steer => Axle::Steer,
        AxleIs::BehindSteer => Axle::Drive,
        AxleIs::Trailer => Axle::Trailer,
    };
    let nuts = Nuts::from_code(fact(card, at, "bearing-nuts")?)?;
    let threads = fact(card, at, "bearing-thread")?.strip_prefix('t')?;
    sequence::steps(axle, nuts, threads.parse().ok()?)
}

fn fact<'a>(card: &'a Card, at: Place, fact: &str) -> Option<&'a str> {
    card.choice(Place::Axle(at.axle()?), fact)
        .map(OptionId::as_str)
}
