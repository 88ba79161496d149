//! Limits of the shop's own: which of them a reading is held against.

use rules::axle::alike::Axle;
use rules::own::{OwnLimit, strictest};
use rules::verdict::{Judgement, Side};

use super::axle;
use super::stroke::jurisdiction;
use crate::card::Card;
use crate::event::{LimitSide, ShopLimit};
use crate::id::{OptionId, Place};
use crate::shop::{AXLE_KINDS, Kinds, kind_parts, limit_for};

/// The adjuster of an axle, and the fact of one end that differs from it.
const OF_ONE_END: (&str, &str) = ("adjuster-style", "adjuster-here");

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
        let kinds = limit_for(&limit.rule).map(|offered| offered.kinds);
        kinds.is_some_and(|kinds| is_kind(card, at, kinds, kind))
    });
    let law = limit.law.as_ref();
    of_kind && law.is_none_or(|law| law.as_str() == jurisdiction(card).code())
}

/// True if the part here is of this kind, as far as the card knows.
fn is_kind(card: &Card, at: Place, kinds: Kinds, of: &OptionId) -> bool {
    let (kind, narrower) = kind_parts(of);
    match kinds {
        Kinds::One => false,
        Kinds::Of(fact) => here(card, at, fact) == Some(of.as_str()),
        Kinds::Narrowed { fact, by, unknown } => {
            let is_class = |class| here(card, at, by).unwrap_or(unknown) == class;
            here(card, at, fact) == Some(kind) && narrower.is_none_or(is_class)
        }
        Kinds::Axle => {
            let [steer, other] = AXLE_KINDS;
            let is_steer = axle::kind(card, at.axle().unwrap_or_default()) == Axle::PowerUnitSteer;
            of.as_str() == if is_steer { steer } else { other }
        }
    }
}

/// What a fact says of this wheel end, or of its axle.
fn here<'a>(card: &'a Card, at: Place, fact: &str) -> Option<&'a str> {
    let (of_axle, of_end) = OF_ONE_END;
    let own = (fact == of_axle).then(|| card.choice(at, of_end)).flatten();
    let axle = at.axle().map(Place::Axle);
    let axles = || axle.and_then(|axle| card.choice(axle, fact));
    own.or_else(|| card.choice(at, fact))
        .or_else(axles)
        .map(OptionId::as_str)
}
