//! Studs, nuts and wheels: what was named one by one, and what was measured at them.

use rules::quantity::Quantity;
use rules::stud::engagement::{self, judge_engagement};
use rules::stud::hand::{self, Hand, Side, judge_hand};
use rules::stud::neighbours::{self, judge_studs};
use rules::stud::nuts::{self, judge_nuts};
use rules::stud::past_nut::{self, judge_past_nut};
use rules::stud::run_out::{self, judge_run_out};
use rules::stud::stand_out::{self, Fit, judge_pilot, judge_stand_out};
use rules::stud::wheel::{self, Metal, Thing, judge_wheel};
use rules::torque::spec::{Mounting, Thread};
use rules::verdict::Judgement;

use super::stroke::jurisdiction;
use super::{AxleIs, Counts, Judged, axle_is, torque};
use crate::card::Card;
use crate::event::{Answer, Exception};
use crate::id::{OptionId, Place};

pub(super) fn reading(card: &Card, at: Place, rule: &str, reading: Quantity) -> Option<Judged> {
    Some(Judged::one(
        measured(card, at, rule, reading)?,
        Counts::Part,
    ))
}

fn measured(card: &Card, at: Place, rule: &str, reading: Quantity) -> Option<Judgement> {
    if rule == stand_out::STUDS.id.0 {
        let fit = fit(card, at)?;
        Some(judge_stand_out(reading.length()?, fit, metal(card, at)))
    } else if rule == stand_out::PILOT.id.0 {
        Some(judge_pilot(reading.length()?, metal(card, at)))
    } else if rule == engagement::RULE.id.0 {
        Some(judge_engagement(reading.angle()?, thread(card, at)))
    } else if rule == past_nut::RULE.id.0 {
        Some(judge_past_nut(reading.angle()?, jurisdiction(card)))
    } else if rule == run_out::RULE.id.0 {
        let axle = match axle_is(card, at)? {
            AxleIs::Steer => run_out::Axle::Front,
            AxleIs::BehindSteer => run_out::Axle::Rear,
            AxleIs::Trailer => run_out::Axle::Trailer,
        };
        Some(judge_run_out(reading.length()?, axle))
    } else {
        None
    }
}

/// What was named stud by stud, nut by nut or thing by thing, and which way the threads go.
pub(super) fn named(card: &Card, at: Place, rule: &str, answer: &Answer) -> Option<Judged> {
    if let Answer::Choice { option } = answer {
        let judgement = threads_go(card, at, rule, option)?;
        return Some(Judged::one(judgement, Counts::Part));
    }
    let Answer::Exceptions { but } = answer else {
        return None;
    };
    let judgement = if rule == nuts::RULE.id.0 {
        let found: Vec<nuts::Sign> = but
            .iter()
            .filter_map(|one| nuts::Sign::from_code(one.mark.as_str()))
            .collect();
        judge_nuts(&found)
    } else if rule == neighbours::RULE.id.0 {
        let studs: Vec<(u16, neighbours::Sign)> = but.iter().filter_map(stud).collect();
        judge_studs(card.studs(at)?, &studs)
    } else if rule == wheel::RULE.id.0 {
        let seen: Vec<(Thing, wheel::Sign)> = but
            .iter()
            .filter_map(|one| {
                let thing = Thing::from_code(one.item.as_str())?;
                Some((thing, wheel::Sign::from_code(one.mark.as_str())?))
            })
            .collect();
        let axle = match axle_is(card, at) {
            Some(AxleIs::Steer) => wheel::Axle::Steer,
            _ => wheel::Axle::Other,
        };
        judge_wheel(&seen, metal(card, at), axle)
    } else {
        return None;
    };
    // What was named holds through the answer beside it that says so, and through its line.
    Some(Judged::one(judgement, Counts::AsFound))
}

fn threads_go(card: &Card, at: Place, rule: &str, option: &OptionId) -> Option<Judgement> {
    if rule != hand::RULE.id.0 {
        return None;
    }
    let [left, _] = Place::ends(at.axle()?);
    let side = if at == left { Side::Left } else { Side::Right };
    let mounting = torque::mounting(card, at)?;
    Some(judge_hand(
        Hand::from_code(option.as_str())?,
        mounting,
        side,
    ))
}

fn stud(exception: &Exception) -> Option<(u16, neighbours::Sign)> {
    let stud = exception.item.parse().ok()?;
    let sign = neighbours::Sign::from_code(exception.mark.as_str())?;
    Some((stud, sign))
}

fn fact<'a>(card: &'a Card, at: Place, fact: &str) -> Option<&'a str> {
    card.choice(Place::Axle(at.axle()?), fact)
        .map(OptionId::as_str)
}

fn metal(card: &Card, at: Place) -> Metal {
    fact(card, at, "wheel-metal")
        .and_then(Metal::from_code)
        .unwrap_or(Metal::Unknown)
}

/// What goes on the studs of this wheel end; `None` before mounting and wheels are known.
fn fit(card: &Card, at: Place) -> Option<Fit> {
    match (fact(card, at, "mounting")?, fact(card, at, "wheel-set")) {
        ("hub-piloted", Some("single")) => Some(Fit::PilotSingle),
        ("hub-piloted", Some("wide-single")) => Some(Fit::PilotWide),
        ("hub-piloted", Some("dual")) => Some(Fit::PilotDual),
        ("ball-seat-single", _) => Some(Fit::BallSingle),
        ("ball-seat-dual", _) => Some(Fit::BallDual),
        _ => None,
    }
}

/// The thread of the nuts, where all of them have the same and it is known.
fn thread(card: &Card, at: Place) -> Option<Thread> {
    let mounting: Mounting = torque::mounting(card, at)?;
    match torque::threads(card, at, mounting) {
        [thread] => Some(*thread),
        _ => None,
    }
}
