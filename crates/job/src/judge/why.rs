//! Why it matters, for one wheel end: estimates from what was read there. They judge nothing.

use rules::quantity::{Angle, Length, Pressure, Quantity, Ratio, Torque};
use rules::slack::chamber::Chamber;
use rules::why::force::{AreaTimesArm, area_sq_in};
use rules::why::long_form::{self, Joint};
use rules::why::stopping::STUDY;
use rules::why::{balance, clamp, force, geometry, heat};
use rules::word::Remark;

use super::stroke;
use crate::card::Card;
use crate::event::FactValue;
use crate::id::{FactId, OptionId, Place};

/// What the brake of a wheel end makes of its air, and what heat and a long stroke cost it.
pub fn of_brake(card: &Card, at: Place) -> Vec<Remark> {
    let air = air(card);
    let push = product(card, at).zip(air);
    let stroke = stroke::stroke_as_left(card, at);
    let pull = stroke.and_then(|stroke| {
        let released = angle(card, at)?;
        geometry::pull_at_stroke(released, stroke::arm(card, at)?, stroke).ok()
    });
    let study = stroke.and_then(|_| STUDY.first());
    [
        push.and_then(|(product, air)| force::remark(product, air)),
        at.axle()
            .and_then(|axle| apart(card, axle))
            .map(balance::remark),
        pull.map(geometry::remark),
        stroke.and_then(heat::remark),
        study.map(|study| study.remark()),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// What the final torque of an axle clamps, by the nut factor and in the long form.
pub fn of_nuts(card: &Card, axle: u8) -> Vec<Remark> {
    let at = Place::Axle(axle);
    let Some(torque) = final_torque(card, at) else {
        return Vec::new();
    };
    // Bearing diameters that were fitted to the printed table of these two threads.
    let (diameter, bearing) = match card.choice(at, "stud-thread").map(OptionId::as_str) {
        Some("m22") => (2_200, 2_770),
        Some("m20") => (2_000, 2_510),
        _ => return Vec::new(),
    };
    let joint = |percent| Joint {
        diameter: Length::from_mm_hundredths(diameter),
        pitch: Length::from_mm_hundredths(150),
        bearing: Length::from_mm_hundredths(bearing),
        friction: Ratio::from_percent(percent),
    };
    let by_factor = clamp::remark(torque, Length::from_mm_hundredths(diameter));
    let in_full = long_form::remark(torque, &joint(10), &joint(14));
    by_factor.into_iter().chain(in_full).collect()
}

fn product(card: &Card, at: Place) -> Option<AreaTimesArm> {
    let Chamber::Listed { of, .. } = stroke::chamber(card, at)? else {
        return None;
    };
    Some(AreaTimesArm {
        area_sq_in: area_sq_in(of)?,
        arm: stroke::arm(card, at)?,
    })
}

/// By how much the ends of an axle differ at one pressure; nothing where they don't.
fn apart(card: &Card, axle: u8) -> Option<Ratio> {
    let [left, right] = Place::ends(axle).map(|at| product(card, at));
    let air = Pressure::from_psi(100);
    let apart = balance::apart(left?.at(air)?, right?.at(air)?)?;
    (apart > Ratio::ZERO).then_some(apart)
}

/// The air of the last round, as it was read.
fn air(card: &Card) -> Option<Pressure> {
    let step = stroke::step(card, "as-left")?;
    let read = stroke::quantities(card, Place::Vehicle, step, "reservoir");
    read.into_iter().find_map(Quantity::pressure)
}

fn angle(card: &Card, at: Place) -> Option<Angle> {
    let step = stroke::step(card, "adjuster")?;
    let read = stroke::quantities(card, at, step, "angle");
    read.into_iter().find_map(Quantity::angle)
}

fn final_torque(card: &Card, at: Place) -> Option<Torque> {
    let value = card.fact(at, &FactId::from("final-torque"));
    let typed = value.and_then(FactValue::typed)?.typed().ok()?;
    typed.quantity().torque()
}

#[cfg(test)]
mod tests;
