//! Facts that may be said of one place because they were said of another: as on the other side of
//! the axle, or as at the axle before.
//!
//! Only what kind of thing it is goes over, never a figure that was read and never the state that
//! something is in. Nothing is kept here: the caller shows what would be taken and gives each fact.

use crate::card::Card;
use crate::event::FactValue;
use crate::id::{FactId, Place};
use crate::procedure::{AskKind, FactDef, Step};

/// One fact as it would be given.
#[derive(Clone, Debug, PartialEq)]
pub struct TakenOver {
    pub at: Place,
    pub fact: FactId,
    pub value: FactValue,
}

/// The facts of this step that nobody gave at `at`, as they are at the other end of its axle.
pub fn as_other_side(card: &Card, step: &Step, at: Place) -> Vec<TakenOver> {
    let Place::End(axle, _) = at else {
        return Vec::new();
    };
    let other = Place::ends(axle).into_iter().find(|end| *end != at);
    other.map_or_else(Vec::new, |other| {
        taken(card, step, &[(at, other)], FactDef::may_cross_over)
    })
}

/// The facts of this step that nobody gave at the axle of `at`, as they are at the axle before it in
/// hand, end by end; with the number of that axle.
///
/// Nothing in a step that protects a person: that is read at every axle.
pub fn as_axle_before(card: &Card, step: &Step, at: Place) -> Option<(u8, Vec<TakenOver>)> {
    let axle = at.axle()?;
    let before = card.axles_in_hand().into_iter().rfind(|of| *of < axle)?;
    if step.protects() {
        return None;
    }
    let mut pairs = vec![(Place::Axle(axle), Place::Axle(before))];
    pairs.extend(Place::ends(axle).into_iter().zip(Place::ends(before)));
    Some((
        before,
        taken(card, step, &pairs, FactDef::may_be_taken_over),
    ))
}

/// What may go from the second place of each pair to the first.
fn taken(
    card: &Card,
    step: &Step,
    pairs: &[(Place, Place)],
    may: fn(&FactDef) -> bool,
) -> Vec<TakenOver> {
    let Some(procedure) = card.procedure.as_deref() else {
        return Vec::new();
    };
    let mut found: Vec<TakenOver> = Vec::new();
    for (to, from) in pairs {
        for ask in &step.asks {
            let AskKind::Fact(fact) = &ask.kind else {
                continue;
            };
            let Some(def) = procedure.fact(fact) else {
                continue;
            };
            let known = found.iter().any(|one| one.at == *to && one.fact == *fact);
            let fits = card.places(def.scope, *to) == [*to] && card.fits(&ask.when, *from);
            if known || !fits || !may(def) || card.fact_slot(*to, fact).is_some() {
                continue;
            }
            found.extend(card.fact(*from, fact).map(|value| TakenOver {
                at: *to,
                fact: fact.clone(),
                value: value.clone(),
            }));
        }
    }
    found
}

#[cfg(test)]
mod tests;
