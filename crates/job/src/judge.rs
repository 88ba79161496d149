//! Takes facts and answers to the rules, and brings back what they say.
//!
//! This is the only place that knows which facts a rule wants. It compares nothing itself.

use std::cmp::Ordering;

use rules::quantity::{Dimension, Mass, Quantity};
use rules::rules::EDITION;
use rules::shown::{self, Lean};
use rules::support::jack::judge_jack;
use rules::support::load::{self, Axle, Group, Load, Ties, load_of_lift};
use rules::support::stand::{self, Lift, StandsJudged, StandsSay, judge_stands};
use rules::support::three::{Loading, UnitWeight};
use rules::support::{SupportFault, jack};
use rules::unit::Unit;
use rules::verdict::{Judgement, Meaning, Place as Where, Verdict};
use rules::word::Argument;

use crate::card::Card;
use crate::event::{Amount, Answer, FactValue, JudgedThen};
use crate::id::{FactId, OptionId, Place};
use crate::procedure::{Ask, FactDef, FactKind, Step, Stricter};
use crate::words::{Arg, Words};

/// The rules that a procedure may name.
pub const RULES: [&str; 2] = [stand::RULE.id.0, jack::RULE.id.0];

/// What the rules said of one answer.
#[derive(Clone, Debug, PartialEq)]
pub enum Judged {
    /// No rule: kept, not judged.
    Kept,
    Stands(Box<StandsJudged>),
    Jack(Judgement),
}

impl Judged {
    /// Every judgement, the deciding one first.
    pub fn judgements(&self) -> Vec<&Judgement> {
        match self {
            Self::Kept => Vec::new(),
            Self::Stands(judged) => vec![&judged.by_load, &judged.by_three.judgement],
            Self::Jack(judged) => vec![judged],
        }
    }

    /// The same, the worst first.
    pub fn worst_first(&self) -> Vec<&Judgement> {
        let mut judgements = self.judgements();
        judgements.sort_by_key(|judgement| std::cmp::Reverse(judgement.verdict.severity()));
        judgements
    }
}

/// What a judged answer means for its step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    Clears,
    /// Only with a foreman's reason.
    NeedsForeman,
    Refused,
}

/// The units that a person reads figures in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Units {
    pub length: Unit,
    pub mass: Unit,
    pub torque: Unit,
    pub pressure: Unit,
}

impl Units {
    pub const INCH_POUND: Self = Self {
        length: Unit::Inch,
        mass: Unit::Pound,
        torque: Unit::PoundForceFoot,
        pressure: Unit::Psi,
    };
    pub const METRIC: Self = Self {
        length: Unit::Millimetre,
        mass: Unit::Kilogram,
        torque: Unit::NewtonMetre,
        pressure: Unit::Kilopascal,
    };

    /// The unit for a quantity.
    pub fn of(&self, dimension: Dimension) -> Unit {
        match dimension {
            Dimension::Length => self.length,
            Dimension::Mass => self.mass,
            Dimension::Torque => self.torque,
            Dimension::Pressure => self.pressure,
            Dimension::Angle => Unit::Degree,
            Dimension::Duration => Unit::DayLong,
            Dimension::Ratio => Unit::Percent,
            // A calendar day has no unit; nothing on a card is judged by one yet.
            Dimension::Day => Unit::DayLong,
        }
    }

    /// A quantity as text in its unit, leaning the way that never flatters.
    pub fn show(&self, quantity: Quantity, lean: Lean) -> Amount {
        let unit = self.of(quantity.dimension());
        let fraction = match (quantity, unit) {
            (Quantity::Length(length), Unit::Inch) => shown::inch_fraction(length),
            _ => None,
        };
        let places = match quantity.dimension() {
            Dimension::Length if unit == Unit::Inch => 4,
            Dimension::Length => 2,
            Dimension::Mass
            | Dimension::Torque
            | Dimension::Pressure
            | Dimension::Angle
            | Dimension::Duration
            | Dimension::Ratio
            | Dimension::Day => 0,
        };
        let text = fraction
            .or_else(|| shown::decimal(quantity, unit, places, lean).map(|shown| shown.text));
        Amount {
            text: text.unwrap_or_default(),
            unit: unit.code().to_owned(),
        }
    }
}

/// Judges an answer. `Err` if it can't be judged for want of something, with what that is.
pub fn judge(
    card: &Card,
    at: Place,
    _step: &Step,
    ask: &Ask,
    answer: &Answer,
) -> Result<Judged, Words> {
    let Some(rule) = ask.rule.as_deref() else {
        return Ok(Judged::Kept);
    };
    if let Answer::Stands { stands } = answer
        && rule == stand::RULE.id.0
    {
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
    } else if let Answer::Reading { typed } = answer
        && rule == jack::RULE.id.0
    {
        let typed = typed.typed().map_err(|fault| Words::from(&fault))?;
        let (load, unit) = lift(card, at, None)?;
        judge_jack(&load, &unit, Some(&typed))
            .map(Judged::Jack)
            .map_err(|fault| fault_words(&fault))
    } else {
        Ok(Judged::Kept)
    }
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

/// Why an answer is not taken at all, if it is not.
pub fn refuses(judged: &Judged) -> Option<Words> {
    let Judged::Stands(judged) = judged else {
        return None;
    };
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

/// What a judged answer means for its step: the stricter of now and then.
pub fn standing(judged: &Judged, then: &[JudgedThen]) -> Standing {
    let refused_then = then.iter().any(|then| {
        then.rule == stand::RULE.id.0
            && then.verdict != Verdict::Within.code()
            && then.verdict != Verdict::NoReading.code()
    });
    match judged {
        Judged::Kept => Standing::Clears,
        Judged::Stands(_) if refused_then => Standing::Refused,
        Judged::Stands(judged) => match judged.say() {
            StandsSay::Enough => Standing::Clears,
            StandsSay::NeedsReason => Standing::NeedsForeman,
            StandsSay::Refused => Standing::Refused,
        },
        Judged::Jack(judged) => match judged.verdict.means(Where::Jack) {
            Meaning::Fine | Meaning::Remark => Standing::Clears,
            Meaning::NeedsReason => Standing::NeedsForeman,
            Meaning::Refused | Meaning::Open => Standing::Refused,
        },
    }
}

/// A judgement as it is shown, for keeping.
pub fn then(judgement: &Judgement, units: &Units) -> JudgedThen {
    let source = judgement.source;
    JudgedThen {
        rule: judgement.rule.0.to_owned(),
        edition: EDITION.to_owned(),
        verdict: judgement.verdict.code().to_owned(),
        reading: judgement
            .reading
            .map(|reading| units.show(reading, Lean::Up)),
        limits: judgement
            .limits
            .iter()
            .map(|limit| units.show(limit.deciding(), Lean::Down))
            .collect(),
        room: judgement.room.map(|room| units.show(room, Lean::Down)),
        source: [source.document, source.edition, source.clause]
            .iter()
            .filter(|part| !part.is_empty())
            .copied()
            .collect::<Vec<_>>()
            .join(", "),
        remarks: judgement
            .remarks
            .iter()
            .map(|remark| remark.word.key().to_owned())
            .collect(),
    }
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

/// Orders two values of a fact from looser to stricter.
pub(crate) fn compare_facts(
    def: &FactDef,
    stricter: Stricter,
    a: &FactValue,
    b: &FactValue,
) -> Ordering {
    let rank = |value: &FactValue| -> Option<i128> {
        match (value, &def.kind) {
            (FactValue::Choice(option), FactKind::Choose(options)) => options
                .iter()
                .position(|one| one == option)
                .and_then(|at| i128::try_from(at).ok()),
            (FactValue::Typed(text), _) => text.typed().ok().map(|typed| typed.quantity().base()),
            (FactValue::Count(count), _) => Some(i128::from(*count)),
            _ => None, // "Not known" is the strictest: nothing may be built on it.
        }
    };
    match (rank(a), rank(b)) {
        (Some(a), Some(b)) if stricter == Stricter::Smaller => b.cmp(&a),
        (Some(a), Some(b)) => a.cmp(&b),
        (None, None) => Ordering::Equal,
        (None, Some(_)) => Ordering::Greater,
        (Some(_), None) => Ordering::Less,
    }
}
