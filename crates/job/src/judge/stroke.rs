//! Slack adjusters and strokes: which answers and facts their rules get, and what stands beside.
//!
//! A reading is never refused for want of a fact: it is kept, and says what is wanting. A stroke
//! is the applied reading less the one at rest of the same round at the same wheel end.

use rules::conditions::{Air, Application, Conditions, Engine, Heat, Parking};
use rules::jurisdiction::Jurisdiction;
use rules::quantity::{Length, Quantity};
use rules::slack::adjuster::{
    self, Ratchet, judge_bushing, judge_clevis, judge_clutch, judge_gear,
};
use rules::slack::angle::{self, judge_angle};
use rules::slack::applied::{self, StrokeFacts, judge_applied};
use rules::slack::cause::{self, BrakeIs, FreeLies, Tree};
use rules::slack::chamber::{Chamber, Family, StrokeClass};
use rules::slack::expected::{self, Brake};
use rules::slack::free::{self, When, judge_free};
use rules::slack::mechanism::Mechanism;
use rules::slack::set_up::{self, MayTurn, Reason, Since};
use rules::slack::{sides, travel};
use rules::verdict::{Judgement, Side, Verdict};
use rules::word::Remark;

use super::own::{one_of, own, with_others};
use super::{Counts, Judged};
use crate::card::Card;
use crate::event::{Answer, Event, FactValue, Item};
use crate::id::{FactId, OptionId, Place, StepId};
use crate::procedure::Step;
use crate::slot::Slot;
use crate::words::Words;

const AS_FOUND: &str = "as-found";
const AS_LEFT: &str = "as-left";
const ROAD_CHECK: &str = "road-check";
const CONTACT: &str = "contact";
const SETTLE: &str = "settle";
/// The stage in which everything behind the adjuster is gone through.
const JUDGE: &str = "judge";

pub(super) fn judge(
    card: &Card,
    at: Place,
    step: &Step,
    rule: &str,
    reading: Quantity,
) -> Option<Judged> {
    if rule == applied::RULE.id.0 {
        Some(judge_stroke(card, at, step, reading.length()?))
    } else if rule == free::RULE.id.0 {
        Some(free_stroke(card, at, step, reading.length()?))
    } else {
        let judgement = part(card, at, step, rule, reading)?;
        Some(Judged::one(judgement, Counts::Part))
    }
}

fn part(card: &Card, at: Place, step: &Step, rule: &str, reading: Quantity) -> Option<Judgement> {
    if rule == adjuster::CLUTCH.id.0 {
        // A clutch that does not ratchet is named as a part to renew, not with a torque.
        Some(judge_clutch(reading.torque()?, Ratchet::Heard))
    } else if rule == adjuster::GEAR.id.0 {
        Some(judge_gear(reading.torque()?))
    } else if rule == adjuster::CLEVIS.id.0 {
        Some(judge_clevis(reading.length()?).by_shop(&own(card, at, rule)))
    } else if rule == adjuster::BUSHING.id.0 {
        Some(judge_bushing(reading.length()?))
    } else if rule == angle::RULE.id.0 {
        let measured = lengths(card, at, step, "arm").into_iter().min();
        // Without a known arm none of the windows by arm applies, only the rule for all.
        let arm = arm(card, at).or(measured).unwrap_or(Length::ZERO);
        Some(judge_angle(reading.angle()?, mechanism(card, at), arm))
    } else {
        None
    }
}

fn judge_stroke(card: &Card, at: Place, step: &Step, applied: Length) -> Judged {
    let rule = applied::RULE.id;
    let counts = match step.id.as_str() {
        AS_FOUND | ROAD_CHECK => Counts::AsFound,
        _ => Counts::AsLeft,
    };
    let wants = |key: &str| Judged::Wants {
        rule,
        counts,
        words: Words::plain(key),
    };
    let Some(released) = released(card, at, step) else {
        return wants("wants.at-rest");
    };
    let stroke = match travel::stroke(released, applied) {
        Ok(stroke) => stroke,
        Err(shorter) => {
            return Judged::Contradicts {
                rule,
                counts,
                words: Words::from(&shorter.remark()),
            };
        }
    };
    let Some(chamber) = chamber(card, at) else {
        return wants("wants.chamber");
    };
    let own = own(card, at, rule.0);
    let facts = StrokeFacts {
        chamber,
        taken: conditions(card, at, step),
        jurisdiction: jurisdiction(card),
        shop: one_of(&own, Side::AtMost),
    };
    Judged::one(with_others(judge_applied(stroke, &facts), &own), counts)
}

fn free_stroke(card: &Card, at: Place, step: &Step, read: Length) -> Judged {
    let (when, counts) = match step.id.as_str() {
        AS_FOUND => (When::InService, Counts::AsFound),
        AS_LEFT => (When::SetUp, Counts::FreeAsLeft),
        _ => (When::SetUp, Counts::Part),
    };
    let own = own(card, at, free::RULE.id.0);
    let judged = judge_free(read, mechanism(card, at), when);
    Judged::one(judged.by_shop(&own), counts)
}

/// The answers that stand to another ask of this step, where that is answered for `at`.
pub(super) fn beside<'a>(card: &'a Card, at: Place, step: &Step, ask: &str) -> Vec<&'a Answer> {
    let Some(ask) = step.asks.iter().find(|one| one.id.as_str() == ask) else {
        return Vec::new();
    };
    card.ask_places(step, ask, at)
        .into_iter()
        .filter_map(|place| card.slot(step, ask, place, Item::Only))
        .flat_map(Slot::live)
        .map(|held| &held.value.answer)
        .collect()
}

/// The option that was chosen, if there is one and no other tablet says otherwise.
pub(super) fn chosen<'a>(card: &'a Card, at: Place, step: &Step, ask: &str) -> Option<&'a str> {
    let answers = beside(card, at, step, ask);
    let (first, rest) = answers.split_first()?;
    let Answer::Choice { option } = first else {
        return None;
    };
    rest.iter()
        .all(|other| other == first)
        .then(|| option.as_str())
}

pub(super) fn quantities(card: &Card, at: Place, step: &Step, ask: &str) -> Vec<Quantity> {
    beside(card, at, step, ask)
        .into_iter()
        .filter_map(|answer| {
            if let Answer::Reading { typed } = answer {
                Some(typed.typed().ok()?.quantity())
            } else {
                None
            }
        })
        .collect()
}

pub(super) fn lengths(card: &Card, at: Place, step: &Step, ask: &str) -> Vec<Length> {
    let read = quantities(card, at, step, ask);
    read.into_iter().filter_map(Quantity::length).collect()
}

/// The reading at rest. Of two that had not seen each other the shorter one makes the longer stroke.
fn released(card: &Card, at: Place, step: &Step) -> Option<Length> {
    lengths(card, at, step, "at-rest").into_iter().min()
}

fn conditions(card: &Card, at: Place, step: &Step) -> Conditions {
    let read = quantities(card, at, step, "reservoir");
    let air = match read.split_first() {
        Some((first, rest)) if rest.iter().all(|other| other == first) => {
            first.pressure().map_or(Air::Unknown, Air::AtReservoir)
        }
        _ => Air::Unknown,
    };
    Conditions {
        air,
        engine: match chosen(card, at, step, "engine") {
            Some("off" | "no-engine") => Engine::Off,
            Some("running") => Engine::Running,
            _ => Engine::Unknown,
        },
        parking: match chosen(card, at, step, "parking") {
            Some("off") => Parking::Released,
            Some("on") => Parking::On,
            _ => Parking::Unknown,
        },
        application: match chosen(card, at, step, "application") {
            Some("propped" | "held" | "shop-air") => Application::Full,
            Some("part") => Application::Partial,
            _ => Application::Unknown,
        },
        heat: match chosen(card, at, step, "heat") {
            Some("cold") => Heat::Cold,
            Some("hot") => Heat::Hot,
            // How much a warm drum has grown nobody can say.
            _ => Heat::Unknown,
        },
    }
}

/// The chamber of a wheel end, once its kind and its type or letter are read.
pub fn chamber(card: &Card, at: Place) -> Option<Chamber> {
    let fact = |id: &str| card.fact(at, &FactId::from(id));
    let rated = fact("rated-stroke")
        .and_then(FactValue::typed)
        .and_then(|text| text.typed().ok()?.quantity().length());
    let unlisted = Chamber::Unlisted {
        rated,
        marked: None,
    };
    let (family, mark) = match card.choice(at, "chamber-family")?.as_str() {
        "clamp" => (Family::Clamp, fact("chamber-type")?),
        "roto" => (Family::Rotochamber, fact("chamber-type")?),
        "dd3" => (Family::Dd3, fact("chamber-type")?),
        "bolted" => (Family::Bolt, fact("chamber-letter")?),
        _ => return Some(unlisted),
    };
    let class = match card.choice(at, "stroke-class").map(OptionId::as_str) {
        Some("standard") => StrokeClass::Standard,
        Some("long") => StrokeClass::Long,
        Some("long-3") => StrokeClass::LongThreeInch,
        _ => StrokeClass::Unknown,
    };
    let listed = mark.choice().and_then(|mark| {
        let name = mark.as_str().trim_start_matches('t').to_ascii_uppercase();
        Chamber::listed(family, &name, class)
    });
    Some(listed.unwrap_or(unlisted))
}

/// How the adjuster of this wheel end is built, as its fact says.
pub fn mechanism(card: &Card, at: Place) -> Mechanism {
    let axle = at.axle().map(Place::Axle);
    let of_axle = || axle.and_then(|axle| card.choice(axle, "adjuster-style"));
    let style = card.choice(at, "adjuster-here").or_else(of_axle);
    match style.map(OptionId::as_str) {
        Some("manual") => Mechanism::Manual,
        Some("clutch") => Mechanism::Clutch,
        Some("pawl") => Mechanism::Pawl,
        Some("gauge") => Mechanism::Gauge,
        _ => Mechanism::Unknown,
    }
}

/// The arm of an adjuster, as its fact or its reading says.
pub(super) fn arm(card: &Card, at: Place) -> Option<Length> {
    let half_inches = |n: i64| Some(Length::from_inch_64ths(n * 32));
    match card.choice(at, "arm-length")?.as_str() {
        "a5" => half_inches(10),
        "a5-5" => half_inches(11),
        "a6" => half_inches(12),
        "a6-5" => half_inches(13),
        _ => {
            let step = step(card, "adjuster")?;
            lengths(card, at, step, "arm").into_iter().min()
        }
    }
}

pub(super) fn step<'a>(card: &'a Card, id: &str) -> Option<&'a Step> {
    card.procedure.as_deref()?.step(&StepId::from(id))
}

/// A stroke of one round, with what the rule says of it.
struct Stroke {
    stroke: Length,
    judgement: Judgement,
}

fn stroke_of(card: &Card, at: Place, round: &str) -> Option<Stroke> {
    let step = step(card, round)?;
    let applied = lengths(card, at, step, "applied").into_iter().max()?;
    let Judged::One { judgement, .. } = judge_stroke(card, at, step, applied) else {
        return None;
    };
    Some(Stroke {
        stroke: travel::stroke(released(card, at, step)?, applied).ok()?,
        judgement: *judgement,
    })
}

/// Whether the adjuster of this wheel end may be turned now, as the trail tells it.
///
/// A set-up is an answer that says that contact was reached. It is settled once more applications
/// were made after a first reading as left, and the applied stroke read again after those. A foreman
/// who sends the set-up back has it counted anew.
pub fn may_turn(card: &Card, at: Place) -> MayTurn {
    let mut since = Since {
        set_ups: 0,
        settled: false,
    };
    let (mut was_read, mut applications) = (false, false);
    for entry in card.entries.iter().filter(|entry| entry.struck.is_none()) {
        let Some(Event::Answered {
            at: place,
            step,
            ask,
            answer,
            ..
        }) = entry.event()
        else {
            continue;
        };
        let here = *place == at;
        let reached = matches!(answer, Answer::Lines { out } if out.is_empty());
        match step.as_str() {
            CONTACT if here && reached => {
                since.set_ups += 1;
                since.settled = false;
                (was_read, applications) = (false, false);
            }
            SETTLE => applications = was_read,
            AS_LEFT if here && ask.as_str() == "applied" => {
                was_read = true;
                since.settled = applications;
            }
            _ => {}
        }
        if let Answer::Look { again, .. } = answer
            && here
            && again.iter().any(|step| step.as_str() == CONTACT)
        {
            since.set_ups = 0;
        }
    }
    set_up::may_turn(mechanism(card, at), Reason::Reline, since)
}

/// Why an adjuster is not turned once more, if it is not.
pub(crate) fn refuses_turn(card: &Card, at: Place, step: &StepId) -> Option<Words> {
    if step.as_str() != CONTACT {
        return None;
    }
    let may = may_turn(card, at);
    (!may.allowed()).then(|| Words::from(&may.remark()))
}

/// Where to look for the cause of the last stroke of this wheel end; nothing if nothing is wrong.
pub fn causes(card: &Card, at: Place) -> &'static [Tree] {
    let as_left = stroke_of(card, at, AS_LEFT);
    let is_left = as_left.is_some();
    let round = if is_left { AS_LEFT } else { AS_FOUND };
    let stroke = as_left.or_else(|| stroke_of(card, at, AS_FOUND));
    let applied = stroke.map_or(Verdict::NoReading, |stroke| stroke.judgement.verdict);
    let free = step(card, round).and_then(|step| {
        let free = lengths(card, at, step, "free-stroke").into_iter().max()?;
        let judged = free_stroke(card, at, step, free);
        judged.judgements().first().copied().map(FreeLies::from)
    });
    let brake = if is_left && gone_through(card, at) {
        BrakeIs::Good
    } else {
        BrakeIs::NotLookedAt
    };
    cause::trees(applied, free.unwrap_or(FreeLies::Unknown), brake)
}

/// True if every part of this wheel end was looked at and nothing is wanting.
fn gone_through(card: &Card, at: Place) -> bool {
    let stages = card
        .procedure
        .iter()
        .flat_map(|procedure| &procedure.stages);
    let mut steps = stages
        .filter(|stage| stage.id.as_str() == JUDGE)
        .flat_map(|stage| &stage.steps)
        .peekable();
    steps.peek().is_some() && steps.all(|step| card.is_done(step, at))
}

/// The stroke as left, once both its readings are there.
pub(super) fn stroke_as_left(card: &Card, at: Place) -> Option<Length> {
    stroke_of(card, at, AS_LEFT).map(|stroke| stroke.stroke)
}

/// What a sound rebuild comes to, beside the stroke as left; `None` before that is read.
pub fn expected(card: &Card, at: Place) -> Option<Remark> {
    let stroke = stroke_of(card, at, AS_LEFT)?.stroke;
    let brake = match card.choice(Place::Vehicle, "vehicle")?.as_str() {
        "semitrailer" | "full-trailer" => Brake::Trailer,
        _ if at.axle() == Some(1) => Brake::SteerFifteen,
        _ => Brake::Truck,
    };
    let expected = chamber(card, at)
        .zip(arm(card, at))
        .and_then(|(chamber, arm)| expected::after_rebuild(&chamber, arm, brake));
    Some(expected::remark(expected, stroke))
}

/// The strokes of both ends of an axle beside each other, in the last round that has both.
pub fn sides(card: &Card, axle: u8) -> Option<Remark> {
    let [left, right] = Place::ends(axle);
    [AS_LEFT, AS_FOUND].into_iter().find_map(|round| {
        let left = stroke_of(card, left, round)?;
        let right = stroke_of(card, right, round)?;
        Some(sides::compare(left.stroke, right.stroke))
    })
}

/// Whose rules a vehicle is judged by; those of the United States until its fact says others.
pub(super) fn jurisdiction(card: &Card) -> Jurisdiction {
    card.choice(Place::Vehicle, "jurisdiction")
        .and_then(|place| Jurisdiction::from_code(place.as_str()))
        .unwrap_or(Jurisdiction::UnitedStates)
}
