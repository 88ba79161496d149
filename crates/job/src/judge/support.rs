//! What stands and the jack of one axle have to carry, and the facts that say so.

use rules::quantity::Mass;
use rules::support::SupportFault;
use rules::support::jack::judge_jack;
use rules::support::load::{self, Axle, Group, Load, Ties, load_of_lift};
use rules::support::stand::{Lift, StandsJudged, StandsSay, judge_stands};
use rules::support::three::{Loading, UnitWeight};
use rules::typed::Typed;
use rules::verdict::Verdict;
use rules::word::Argument;

use super::{Counts, Judged};
use crate::card::Card;
use crate::event::{FactValue, StandUsed};
use crate::id::{FactId, OptionId, Place};
use crate::words::{Arg, Words};

pub(super) fn stands(card: &Card, at: Place, stands: &[StandUsed]) -> Result<Judged, Words> {
    let tags = stands
        .iter()
        .map(|stand| stand.tag.rule())
        .collect::<Result<Vec<_>, _>>();
    let tags = tags.map_err(|fault| Words::from(&fault))?;
    let (load, unit) = lift(card, at, None)?;
    judge_stands(
        &Lift {
            load,
            unit,
            // Other axles come down by themselves: only the stands of this one are sure to carry.
            carried_by: 2,
        },
        &tags,
    )
    .map(|judged| Judged::Stands(Box::new(judged)))
    .map_err(|fault| fault_words(&fault))
}

pub(super) fn jack(card: &Card, at: Place, typed: &Typed) -> Result<Judged, Words> {
    let (load, unit) = lift(card, at, None)?;
    judge_jack(&load, &unit, Some(typed))
        .map(|judgement| Judged::one(judgement, Counts::Jack))
        .map_err(|fault| fault_words(&fault))
}

/// Why these stands are not taken, if they are not.
pub(super) fn refuses(judged: &StandsJudged) -> Option<Words> {
    if judged.say() != StandsSay::Refused {
        return None;
    }
    let (key, needed) = match (judged.by_load.verdict, judged.needed) {
        (Verdict::NoReading, _) | (_, None) => ("refuse.three-too-small", judged.by_three.needed),
        (Verdict::AtTheLimit, needed) => ("refuse.stand-at-limit", needed),
        (_, needed) => ("refuse.stand-too-small", needed),
    };
    let needed = needed.unwrap_or(judged.gives); // The rule refuses only against a figure.
    Some(Words::with(
        key,
        [
            (
                "needed",
                Arg::Rule(Argument::Quantity(needed.rounded_up().into())),
            ),
            ("gives", Arg::Rule(Argument::Share(judged.gives))),
        ],
    ))
}

fn fault_words(fault: &SupportFault) -> Words {
    Words::from(&fault.remark())
}

/// The load of the lift of one axle and the weight of its unit, from the facts of the card.
/// `instead` is a fact that is about to be given.
fn lift(
    card: &Card,
    at: Place,
    instead: Option<(Place, &FactId, &FactValue)>,
) -> Result<(Load, UnitWeight), Words> {
    let fact = |place: Place, id: &str| {
        let id = FactId::from(id);
        match instead {
            Some((there, new, value)) if there == place && *new == id => Some(value.clone()),
            _ => card.fact(place, &id).cloned(),
        }
    };
    let mass = |place: Place, id: &str| match fact(place, id) {
        Some(FactValue::Typed(text)) => text.typed().ok().and_then(|typed| typed.quantity().mass()),
        _ => None,
    };
    let choice = |id: &str| match fact(Place::Vehicle, id) {
        Some(FactValue::Choice(option)) => Some(option),
        _ => None,
    };
    let lifted = at.axle().unwrap_or(0);
    let layout = card.layout();
    let axles = layout
        .map(|layout| layout.group_of(lifted))
        .filter(|axles| !axles.is_empty());
    let axles = axles.unwrap_or_else(|| vec![lifted]);
    let ties = match choice("suspension").as_ref().map(OptionId::as_str) {
        Some("air") => Ties::AirOut,
        Some("linked") => Ties::Linked,
        Some("own-springs") => Ties::Apart,
        _ => Ties::Unknown,
    };
    // Axles on springs of their own are weighed one by one; tied ones only come as a group.
    let weights: Vec<Option<Mass>> = if ties.takes_all() {
        let first = Place::Axle(axles.first().copied().unwrap_or(lifted));
        spread(mass(first, "group-weight"), axles.len())
    } else {
        axles
            .iter()
            .map(|&axle| mass(Place::Axle(axle), "axle-weight"))
            .collect()
    };
    let group = Group {
        ties,
        axles: axles
            .iter()
            .zip(weights)
            .map(|(&number, weight)| Axle {
                number,
                raised: number == lifted,
                weight,
            })
            .collect(),
    };
    let load = load_of_lift(&[group]).map_err(|fault| load_fault_words(&fault))?;
    let weight = mass(Place::Vehicle, "unit-weight");
    let unit = match choice("loaded").as_ref().map(OptionId::as_str) {
        Some("loaded") => UnitWeight {
            tare: None,
            gross: weight,
            loading: Loading::Loaded,
        },
        Some("unloaded") => UnitWeight {
            tare: weight,
            gross: None,
            loading: Loading::Unloaded,
        },
        _ => UnitWeight {
            tare: None,
            gross: weight,
            loading: Loading::Unknown,
        },
    };
    Ok((load, unit))
}

/// A group's weight over its axles so that their sum is the weight again, to the last unit. Only
/// the sum is ever used: the whole group comes off the ground or none of it is known.
fn spread(weight: Option<Mass>, axles: usize) -> Vec<Option<Mass>> {
    let Some(weight) = weight else {
        return vec![None; axles];
    };
    let parts = i128::try_from(axles).unwrap_or(1).max(1);
    let part = weight.base() / parts;
    let first = weight.base() - part * (parts - 1);
    (0..axles)
        .map(|at| Mass::from_base(if at == 0 { first } else { part }))
        .collect()
}

fn load_fault_words(fault: &load::LoadFault) -> Words {
    Words::from(&fault.remark())
}

/// Refuses a fact that can't be true beside the others.
pub(crate) fn check_fact(
    card: &Card,
    at: Place,
    fact: &FactId,
    value: &FactValue,
) -> Result<(), Words> {
    if !matches!(value, FactValue::Typed(_)) {
        return Ok(());
    }
    for axle in card.axles_in_hand() {
        let (load, unit) = lift(card, Place::Axle(axle), Some((at, fact, value)))?;
        unit.check(&load).map_err(|fault| fault_words(&fault))?;
    }
    Ok(())
}
