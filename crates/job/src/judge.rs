//! Takes facts and answers to the rules, and brings back what they say.
//!
//! This is the only place that knows which facts a rule wants: [`drum`] for drums, [`lining`] for
//! linings and shoes, [`stroke`] for slack adjusters and strokes, [`axle`] for both ends of an axle,
//! [`torque`] for wheel nuts, [`bearing`] for hubs, `camshaft` and `stud` for what is looked at, the
//! rest for air, rims, stands and jack. It compares nothing itself.

use std::cmp::Ordering;

use rules::air::{caging, leak, release, warning};
use rules::bearing::end_play;
use rules::camshaft::{anchor, look as cam_look, play, spline};
use rules::drum::{diameter, new_drum, run_out, surface};
use rules::lining::{gap, hardware, look, matched, rivets, shoe, thickness};
use rules::quantity::{Angle, Dimension, Quantity};
use rules::rules::EDITION;
use rules::shown::{self, Lean};
use rules::slack::{adjuster, angle, applied, clevis, free};
use rules::stud::{
    engagement, hand, neighbours, nuts, past_nut, run_out as rim_run_out, stand_out, wheel,
};
use rules::support::jack;
use rules::support::stand::{self, StandsJudged, StandsSay};
use rules::torque::spec;
use rules::torque::wrench::{self, WrenchJudged};
use rules::unit::Unit;
use rules::verdict::{Judgement, Meaning, Place as Where, RuleId, Verdict};

use crate::card::Card;
use crate::event::{Amount, Answer, FactValue, JudgedThen};
use crate::id::Place;
use crate::procedure::{Ask, FactDef, FactKind, Step, Stricter};
use crate::words::Words;

pub mod axle;
pub mod bearing;
pub mod drum;
pub mod lining;
pub mod stroke;
pub mod torque;
pub mod why;

mod air;
mod camshaft;
mod own;
mod rim;
mod stud;
mod support;

pub(crate) use support::check_fact;

/// The rules that a procedure may name.
pub const RULES: [&str; 46] = [
    stand::RULE.id.0,
    jack::RULE.id.0,
    rules::rim::RULE.id.0,
    diameter::RULE.id.0,
    run_out::RULE.id.0,
    surface::RULE.id.0,
    new_drum::RULE.id.0,
    thickness::RULE.id.0,
    rivets::RULE.id.0,
    gap::RULE.id.0,
    shoe::SPAN.id.0,
    shoe::RECESS.id.0,
    shoe::HOLE.id.0,
    look::RULE.id.0,
    matched::RULE.id.0,
    hardware::RULE.id.0,
    applied::RULE.id.0,
    free::RULE.id.0,
    angle::RULE.id.0,
    adjuster::CLUTCH.id.0,
    adjuster::GEAR.id.0,
    adjuster::CLEVIS.id.0,
    spec::RULE.id.0,
    wrench::RULE.id.0,
    play::RADIAL.id.0,
    play::END.id.0,
    spline::RULE.id.0,
    anchor::GROOVE.id.0,
    anchor::BORE.id.0,
    cam_look::RULE.id.0,
    adjuster::BUSHING.id.0,
    clevis::RULE.id.0,
    end_play::RULE.id.0,
    neighbours::RULE.id.0,
    nuts::RULE.id.0,
    wheel::RULE.id.0,
    hand::RULE.id.0,
    engagement::RULE.id.0,
    past_nut::RULE.id.0,
    rim_run_out::RULE.id.0,
    stand_out::STUDS.id.0,
    stand_out::PILOT.id.0,
    caging::RULE.id.0,
    leak::RULE.id.0,
    release::RULE.id.0,
    warning::RULE.id.0,
];

/// What the rules said of one answer.
#[derive(Clone, Debug, PartialEq)]
pub enum Judged {
    /// No rule: kept, not judged.
    Kept,
    Stands(Box<StandsJudged>),
    Wrench(Box<WrenchJudged>),
    /// One reading, one judgement.
    One {
        judgement: Box<Judgement>,
        counts: Counts,
    },
    /// One answer by itself, and what it comes to together with those that stand next to it: the
    /// diameter of one place, and how round the drum is by all of them. The worst counts.
    ///
    /// What was said of the answer itself stays; what it came to together with others is judged
    /// anew each time, so that one of them can be put right without answering the rest again.
    Several {
        own: Box<Judgement>,
        together: Vec<Judgement>,
        counts: Counts,
    },
    /// Kept, and no reading yet: the words say what is wanting.
    Wants {
        rule: RuleId,
        counts: Counts,
        words: Words,
    },
    /// It can't be true beside another answer; the words say which.
    Contradicts {
        rule: RuleId,
        counts: Counts,
        words: Words,
    },
}

impl Judged {
    pub(crate) fn one(judgement: Judgement, counts: Counts) -> Self {
        Self::One {
            judgement: Box::new(judgement),
            counts,
        }
    }

    /// Every judgement, the deciding one first.
    pub fn judgements(&self) -> Vec<&Judgement> {
        match self {
            Self::Kept | Self::Wants { .. } | Self::Contradicts { .. } => Vec::new(),
            Self::Stands(judged) => vec![&judged.by_load, &judged.by_three.judgement],
            Self::Wrench(judged) => vec![&judged.range, &judged.calibration],
            Self::One { judgement, .. } => vec![judgement],
            Self::Several { own, together, .. } => {
                let mut all: Vec<&Judgement> = vec![own];
                all.extend(together);
                all
            }
        }
    }

    /// The same, the worst first.
    pub fn worst_first(&self) -> Vec<&Judgement> {
        let mut judgements = self.judgements();
        judgements.sort_by_key(|judgement| std::cmp::Reverse(judgement.verdict.severity()));
        judgements
    }

    /// Why nothing can be said of the reading, if that is so.
    pub fn unsaid(&self) -> Option<&Words> {
        match self {
            Self::Wants { words, .. } | Self::Contradicts { words, .. } => Some(words),
            Self::Kept
            | Self::Stands(_)
            | Self::Wrench(_)
            | Self::One { .. }
            | Self::Several { .. } => None,
        }
    }

    /// As it is kept beside the answer.
    pub fn then(&self, units: &Units) -> Vec<JudgedThen> {
        match self {
            Self::Wants { rule, words, .. } | Self::Contradicts { rule, words, .. } => {
                vec![JudgedThen {
                    rule: rule.0.to_owned(),
                    edition: EDITION.to_owned(),
                    verdict: Verdict::NoReading.code().to_owned(),
                    reading: None,
                    limits: Vec::new(),
                    room: None,
                    source: String::new(),
                    remarks: vec![words.key.clone()],
                }]
            }
            Self::Kept
            | Self::Stands(_)
            | Self::Wrench(_)
            | Self::One { .. }
            | Self::Several { .. } => self
                .judgements()
                .into_iter()
                .map(|judgement| then(judgement, units))
                .collect(),
        }
    }
}

/// What a verdict counts for: the same word asks for something else at each place of the job.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Counts {
    Jack,
    /// A stroke or free stroke that came in so, or came back so. It is said, and holds nothing.
    AsFound,
    /// The stroke that the vehicle leaves with.
    AsLeft,
    /// The free stroke that the vehicle leaves with.
    FreeAsLeft,
    /// A part that stays, or a setting that was just made.
    Part,
    /// A drum that goes back on: it has to be measured, and on its limit it wants a reason.
    GoesBackOn,
    /// The bearing of a hub that stayed on: a foreman can let the work go on over it.
    HubAsFound,
}

/// What a judged answer means for its step, kindest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
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
        let unit = match quantity {
            // No arm goes round: what is a full turn and more was counted in turns.
            Quantity::Angle(angle) if angle.magnitude() >= Angle::from_turns(1) => Unit::Turn,
            Quantity::Length(_)
            | Quantity::Mass(_)
            | Quantity::Torque(_)
            | Quantity::Pressure(_)
            | Quantity::Angle(_)
            | Quantity::Duration(_)
            | Quantity::Ratio(_)
            | Quantity::Day(_) => self.of(quantity.dimension()),
        };
        let fraction = match (quantity, unit) {
            (Quantity::Length(length), Unit::Inch) => shown::inch_fraction(length),
            _ => None,
        };
        let places = match quantity.dimension() {
            Dimension::Length if unit == Unit::Inch => 4,
            Dimension::Length => 2,
            Dimension::Angle if unit == Unit::Turn => 1,
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

/// Judges an answer. `Err` if it can't be judged, nor kept, for want of something, with what that is.
pub fn judge(
    card: &Card,
    at: Place,
    step: &Step,
    ask: &Ask,
    answer: &Answer,
) -> Result<Judged, Words> {
    let Some(rule) = ask.rule.as_deref() else {
        return Ok(Judged::Kept);
    };
    let of_part = drum::judge(card, at, step, ask, rule, answer)
        .or_else(|| lining::judge(card, at, step, ask, rule, answer));
    if let Some(judged) = of_part {
        return Ok(judged);
    }
    if let Answer::Stands { stands } = answer
        && rule == stand::RULE.id.0
    {
        support::stands(card, at, stands)
    } else if let Answer::Wrench { used } = answer
        && rule == wrench::RULE.id.0
    {
        torque::wrench(card, at, used)
    } else if let Answer::Jack { used } = answer
        && ask.takes_a_jack()
    {
        let rating = used.tag.rating.typed();
        let rating = rating.map_err(|fault| Words::from(&fault))?;
        support::jack(card, at, &rating)
    } else if let Answer::Reading { typed } = answer {
        let typed = typed.typed().map_err(|fault| Words::from(&fault))?;
        if rule == jack::RULE.id.0 {
            support::jack(card, at, &typed)
        } else {
            let reading = typed.quantity();
            let judged = stroke::judge(card, at, step, rule, reading)
                .or_else(|| rim::reading(card, at, step, rule, reading))
                .or_else(|| camshaft::reading(card, at, rule, reading))
                .or_else(|| bearing::reading(card, at, step, rule, reading))
                .or_else(|| stud::reading(card, at, rule, reading))
                .or_else(|| air::judge(card, at, (step, ask), rule, reading));
            Ok(judged.unwrap_or(Judged::Kept))
        }
    } else {
        let judged =
            camshaft::by_eye(rule, &ask.id, answer).or_else(|| stud::named(card, at, rule, answer));
        Ok(judged.unwrap_or(Judged::Kept))
    }
}

/// Where an axle is. What is behind a steer axle is taken as driven.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum AxleIs {
    Steer,
    BehindSteer,
    Trailer,
}

fn axle_is(card: &Card, at: Place) -> Option<AxleIs> {
    match card.choice(Place::Vehicle, "vehicle")?.as_str() {
        "semitrailer" | "full-trailer" => Some(AxleIs::Trailer),
        _ if at.axle()? == 1 => Some(AxleIs::Steer),
        _ => Some(AxleIs::BehindSteer),
    }
}

/// Judges the value of a fact, given or about to be given, where a rule is for it.
///
/// A figure is never refused: the maker's own comes first.
pub fn judge_fact(card: &Card, at: Place, fact: &str, value: &FactValue) -> Option<Judgement> {
    if fact == torque::FINAL {
        let typed = value.typed()?.typed().ok()?;
        torque::judge_final(card, at, typed.quantity().torque()?)
    } else {
        None
    }
}

/// True if a judged fact stands only with a foreman's reason.
pub(crate) fn fact_needs_foreman(card: &Card, at: Place, fact: &str, value: &FactValue) -> bool {
    judge_fact(card, at, fact, value).is_some_and(|judged| match judged.verdict {
        Verdict::Within | Verdict::AtTheLimit | Verdict::Sound => false,
        Verdict::Beyond | Verdict::NoReading | Verdict::Replace => true,
    })
}

/// True if there is nothing to read about before work goes on: everything is within its limit, or,
/// where nothing printed is for this kind of part, within every figure that is shown beside it.
pub fn is_plain(judged: &Judged) -> bool {
    let within_all = |judgement: &Judgement| {
        let others = judgement.others.iter();
        judgement.limits.is_empty()
            && !judgement.others.is_empty()
            && others
                .map(|other| other.verdict)
                .all(|verdict| verdict == Verdict::Within)
    };
    let plain = |judgement: &Judgement, unread: bool| match judgement.verdict {
        Verdict::Within | Verdict::Sound => true,
        Verdict::NoReading => unread,
        Verdict::AtTheLimit | Verdict::Beyond | Verdict::Replace => false,
    };
    let alone = |judgement: &Judgement| plain(judgement, within_all(judgement));
    match judged {
        Judged::Kept => true,
        Judged::Wants { .. } | Judged::Contradicts { .. } => false,
        // What can't be said together yet waits for the answers that are still to come.
        Judged::Several { own, together, .. } => {
            alone(own) && together.iter().all(|judgement| plain(judgement, true))
        }
        Judged::Stands(_) | Judged::Wrench(_) | Judged::One { .. } => {
            judged.judgements().into_iter().all(alone)
        }
    }
}

/// Why an answer is not taken at all, if it is not.
pub fn refuses(judged: &Judged) -> Option<Words> {
    match judged {
        Judged::Stands(judged) => support::refuses(judged),
        Judged::Wrench(judged) => torque::refuses_wrench(judged),
        Judged::Contradicts { words, .. } => Some(words.clone()),
        Judged::Kept | Judged::One { .. } | Judged::Several { .. } | Judged::Wants { .. } => None,
    }
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
        Judged::Wrench(judged) => torque::wrench_standing(judged, then),
        Judged::One { judgement, counts } => {
            let keys: Vec<&str> = judgement
                .remarks
                .iter()
                .map(|remark| remark.word.key())
                .collect();
            let no_limit = no_limit(judgement.limits.len(), &keys);
            counts
                .standing(judgement.verdict, no_limit)
                .max(counts.standing_then(judgement.rule, then))
        }
        Judged::Several {
            own,
            together,
            counts,
        } => {
            // Where nothing is printed for a part, or its mate isn't judged yet, nothing is held.
            let said = |judgement: &&Judgement| judgement.verdict != Verdict::NoReading;
            let together = together.iter().filter(said);
            together
                .map(|judgement| counts.standing(judgement.verdict, false))
                .chain([
                    counts.standing(own.verdict, false),
                    counts.standing_then(own.rule, then),
                ])
                .max()
                .unwrap_or(Standing::Refused)
        }
        Judged::Wants { rule, counts, .. } | Judged::Contradicts { rule, counts, .. } => counts
            .standing(Verdict::NoReading, false)
            .max(counts.standing_then(*rule, then)),
    }
}

/// True if nothing but a limit was wanting: nothing is printed for the part, and how it was read
/// is not in doubt.
fn no_limit(limits: usize, remarks: &[&str]) -> bool {
    limits == 0 && remarks.iter().all(|key| key.starts_with("slack.remark."))
}

impl Counts {
    fn standing(self, verdict: Verdict, no_limit: bool) -> Standing {
        match (self, verdict) {
            (Self::AsFound, _) => Standing::Clears,
            (Self::Jack, _) => match verdict.means(Where::Jack) {
                Meaning::Fine | Meaning::Remark => Standing::Clears,
                Meaning::NeedsReason => Standing::NeedsForeman,
                Meaning::Refused | Meaning::Open => Standing::Refused,
            },
            (Self::GoesBackOn, _) => match verdict.means(Where::AsLeft) {
                Meaning::Fine | Meaning::Remark => Standing::Clears,
                Meaning::NeedsReason => Standing::NeedsForeman,
                Meaning::Refused | Meaning::Open => Standing::Refused,
            },
            (Self::AsLeft, _) => match verdict.means(Where::AsLeft) {
                Meaning::Fine | Meaning::Remark => Standing::Clears,
                Meaning::NeedsReason => Standing::NeedsForeman,
                Meaning::Open if no_limit => Standing::NeedsForeman,
                Meaning::Refused | Meaning::Open => Standing::Refused,
            },
            (Self::FreeAsLeft | Self::HubAsFound, Verdict::Beyond | Verdict::Replace) => {
                Standing::NeedsForeman
            }
            (Self::Part, Verdict::Beyond | Verdict::Replace) => Standing::Refused,
            // The ends of a window are in it, and a window that nobody prints holds nothing.
            (
                Self::FreeAsLeft | Self::Part | Self::HubAsFound,
                Verdict::Within | Verdict::AtTheLimit | Verdict::NoReading | Verdict::Sound,
            ) => Standing::Clears,
        }
    }

    /// What the answer meant when it was given. A jack is judged anew: it lifts what is there now.
    fn standing_then(self, rule: RuleId, then: &[JudgedThen]) -> Standing {
        if self == Self::Jack {
            return Standing::Clears;
        }
        // A drum measured before its maximum was read is judged by it all the same.
        let counts = |then: &&JudgedThen| {
            self != Self::GoesBackOn || then.verdict != Verdict::NoReading.code()
        };
        then.iter()
            .filter(|then| then.rule == rule.0)
            .filter(counts)
            .map(|then| {
                let keys: Vec<&str> = then.remarks.iter().map(String::as_str).collect();
                // A verdict that this app does not know proves nothing.
                let verdict = Verdict::from_code(&then.verdict).unwrap_or(Verdict::NoReading);
                self.standing(verdict, no_limit(then.limits.len(), &keys))
            })
            .max()
            .unwrap_or(Standing::Clears)
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

#[cfg(test)]
mod tests;
