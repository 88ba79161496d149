//! Limits of the shop's own: which of them a reading is held against.

use rules::own::{OwnLimit, strictest};
use rules::verdict::{Judgement, Side};

use super::stroke::jurisdiction;
use crate::card::Card;
use crate::event::{LimitSide, ShopLimit};
use crate::id::Place;
use crate::shop::limit_for;

/// The limits that the card took for this rule, as far as they are for this part and this vehicle.
pub(super) fn own(card: &Card, at: Place, rule: &str) -> Vec<OwnLimit> {
    let limits = card.shop_versions().flat_map(|taken| &taken.values.limits);
    let mut own = Vec::new();
    for limit in limits.filter(|limit| limit.rule == rule && is_for(card, at, limit)) {
        own.extend(read(limit).filter(|limit| !own.contains(limit)));
    }
    own
}

/// The strictest of them on one side, and whether the jurisdiction's own figure is among them.
pub(super) fn one_of(own: &[OwnLimit], side: Side) -> Option<OwnLimit> {
    strictest(own, side).map(|one| OwnLimit {
        of_law: own.iter().any(|own| own.side == side && own.of_law),
        ..one.clone()
    })
}

/// Says the limits that another of the shop's own outdoes.
pub(super) fn with_others(mut judged: Judgement, own: &[OwnLimit]) -> Judgement {
    for remark in own.iter().map(OwnLimit::remark) {
        if !judged.remarks.contains(&remark) {
            judged.remarks.push(remark);
        }
    }
    judged
}

/// A figure that can be a limit; a line from elsewhere may hold anything.
fn read(limit: &ShopLimit) -> Option<OwnLimit> {
    Some(OwnLimit {
        side: match limit.side {
            LimitSide::AtMost => Side::AtMost,
            LimitSide::AtLeast => Side::AtLeast,
        },
        figure: limit.figure.typed().ok()?.quantity().length()?,
        of_law: limit.law.is_some(),
        from: limit.source.clone(),
    })
}

fn is_for(card: &Card, at: Place, limit: &ShopLimit) -> bool {
    let of_kind = limit.of.as_ref().is_none_or(|kind| {
        let fact = limit_for(&limit.rule).and_then(|offered| offered.fact);
        let here = fact.and_then(|fact| {
            let axle = at.axle().map(Place::Axle);
            let of_axle = || axle.and_then(|axle| card.choice(axle, fact));
            card.choice(at, fact).or_else(of_axle)
        });
        here == Some(kind)
    });
    let law = limit.law.as_ref();
    of_kind && law.is_none_or(|law| law.as_str() == jurisdiction(card).code())
}
