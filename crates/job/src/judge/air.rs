//! Air and parking brakes: which answers and facts their rules get.
//!
//! What nobody said of the vehicle counts as what is stricter: one vehicle alone loses less than
//! two, and a warning has to come on where the later standard wants it.

use rules::air::caging::{self, judge_stand_out};
use rules::air::leak::{self, Brakes, Vehicles, judge_leak};
use rules::air::release::{self, Of, judge_release};
use rules::air::warning::{self, Built, judge_warning};
use rules::quantity::Quantity;
use rules::verdict::Judgement;

use super::{Counts, Judged, stroke};
use crate::card::Card;
use crate::event::FactValue;
use crate::id::{FactId, OptionId, Place};
use crate::procedure::{Ask, Step};

/// The pressure at which the governor cuts out, where the warning is read.
const CUT_OUT: &str = "cut-out";

pub(super) fn judge(
    card: &Card,
    at: Place,
    (step, ask): (&Step, &Ask),
    rule: &str,
    reading: Quantity,
) -> Option<Judged> {
    let judgement = judgement(card, at, (step, ask), rule, reading)?;
    Some(Judged::one(judgement, Counts::Part))
}

fn judgement(
    card: &Card,
    at: Place,
    (step, ask): (&Step, &Ask),
    rule: &str,
    reading: Quantity,
) -> Option<Judgement> {
    if rule == leak::RULE.id.0 {
        let brakes = match ask.id.as_str() {
            "leak-off" => Brakes::Released,
            _ => Brakes::Applied,
        };
        let lost = reading.pressure()?;
        let place = stroke::jurisdiction(card);
        Some(judge_leak(lost, brakes, vehicles(card), place))
    } else if rule == warning::RULE.id.0 {
        // Of two cut-outs that had not seen each other the higher one asks for more.
        let read = stroke::quantities(card, at, step, CUT_OUT);
        let cut_out = read.into_iter().filter_map(Quantity::pressure).max();
        let came_on = reading.pressure()?;
        let place = stroke::jurisdiction(card);
        Some(judge_warning(came_on, cut_out, built(card), place))
    } else if rule == release::RULE.id.0 {
        let of = match vehicle(card) {
            Some("semitrailer" | "full-trailer") => Of::Trailer,
            _ => Of::PowerUnit,
        };
        Some(judge_release(reading.pressure()?, of))
    } else if rule == caging::RULE.id.0 {
        let tag = card.fact(at, &FactId::from("bolt-tag"));
        let tag = tag
            .and_then(FactValue::typed)
            .and_then(|text| text.typed().ok()?.quantity().length());
        Some(judge_stand_out(reading.length()?, tag))
    } else {
        None
    }
}

fn vehicle(card: &Card) -> Option<&str> {
    card.choice(Place::Vehicle, "vehicle").map(OptionId::as_str)
}

/// Under which standard the vehicle was built, by the plate in its door frame.
fn built(card: &Card) -> Built {
    match card.choice(Place::Vehicle, "built").map(OptionId::as_str) {
        Some("before-1975-03") => Built::Before,
        Some(_) => Built::Under,
        None => Built::Unknown,
    }
}

/// How many vehicles hang on the air that is tested. A trailer alone is tested alone.
fn vehicles(card: &Card) -> Vehicles {
    let choice = |fact| card.choice(Place::Vehicle, fact).map(OptionId::as_str);
    match (choice("coupled"), choice("trailers")) {
        (Some("coupled"), Some("two-or-more")) => Vehicles::ThreeOrMore,
        (Some("coupled"), _) => Vehicles::Two,
        _ => Vehicles::Single,
    }
}

#[cfg(test)]
mod tests;
