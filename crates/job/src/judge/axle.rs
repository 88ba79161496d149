//! Whether both ends of an axle carry the same parts, by the facts of both.
//!
//! Only what is known at both ends can differ. An end that nobody has read holds nothing.

use rules::axle::alike::{self, Compared, Letters, Part, compare};
use rules::source::Standing as Good;

use super::{AxleIs, axle_is, stroke};
use crate::card::Card;
use crate::id::{Place, StepId};

/// Every part of both ends held against each other, law first.
pub fn compared(card: &Card, axle: u8) -> Vec<Compared> {
    let [left, right] = Place::ends(axle).map(|at| end(card, at));
    compare(&left, &right, kind(card, axle))
}

/// Whether this is the steer axle of a truck, tractor or bus.
pub(super) fn kind(card: &Card, axle: u8) -> alike::Axle {
    match axle_is(card, Place::Axle(axle)) {
        Some(AxleIs::Steer) => alike::Axle::PowerUnitSteer,
        Some(AxleIs::BehindSteer | AxleIs::Trailer) | None => alike::Axle::Other,
    }
}

/// What differs between the ends of an axle, law first.
pub fn differs(card: &Card, axle: u8) -> Vec<Compared> {
    let mut compared = compared(card, axle);
    compared.retain(Compared::differs);
    compared
}

/// True if no reason helps: a rule or a maker says so, not only the trade.
pub fn is_refused(differs: &Compared) -> bool {
    differs.judgement.source.standing != Good::CommonPractice
}

/// The step at which a part of an end is read, or put right.
pub fn step_of(part: Part) -> StepId {
    StepId::from(match part {
        Part::Chamber | Part::StrokeClass => "chamber",
        Part::Arm | Part::Mechanism => "adjuster",
        Part::Lining => "kit",
        Part::Drum => "drum",
    })
}

fn end(card: &Card, at: Place) -> alike::End {
    let letter = |fact: &str| {
        let option = card.choice(at, fact)?.as_str();
        option
            .chars()
            .next()
            .map(|letter| letter.to_ascii_uppercase())
    };
    let drum = stroke::step(card, "drum").map(|step| stroke::lengths(card, at, step, "cast-max"));
    alike::End {
        chamber: stroke::chamber(card, at),
        arm: stroke::arm(card, at),
        lining: Letters {
            normal: letter("edge-normal"),
            hot: letter("edge-hot"),
        },
        // Two readings of one drum that had not seen each other say nothing of the pair.
        drum: drum
            .filter(|read| read.len() == 1)
            .and_then(|read| read.into_iter().next()),
        mechanism: stroke::mechanism(card, at),
    }
}
