//! Drills of a minute or two: one question from a seed, and what was off about an answer.
//!
//! What is right is asked of the rules each time, for the answer that was given; a question keeps no
//! answer of its own. No streaks and no points: an answer is right, or it says what was off.

use rules::quantity::Quantity;
use rules::slack::cause::{self, BrakeIs, FreeLies, Tree};
use rules::source::Source;
use rules::support::SupportFault;
use rules::support::stand::{self, Lift, StandsJudged, StandsSay};
use rules::support::tag::StandTag;
use rules::torque::moved::Moved;
use rules::torque::pattern::{self, Pattern, PatternFault, PatternWarning};
use rules::typed::Typed;
use rules::unit::Unit;
use rules::verdict::{Limit, Verdict};

use crate::axle::Axle;
use crate::decision::{Decision, Item};
use crate::fault::Fault;
use crate::instrument::{Instrument, Read};
use crate::kind::Kind;
use crate::scene;

mod ask;

pub mod round;

pub use ask::ask;

/// A kind of drill.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Drill {
    /// Read the instrument.
    Read,
    /// Limit or not, and by which limit.
    Limit,
    /// Pick the stands.
    Stands,
    /// Walk the pattern from memory.
    Pattern,
    /// What comes first.
    First,
    /// Find the fault.
    Fault,
    /// Long stroke: find the cause.
    Cause,
    /// Edge codes.
    EdgeCode,
    /// Inches and millimetres.
    Units,
}

impl Drill {
    /// Every drill.
    pub const ALL: &[Self] = &[
        Self::Read,
        Self::Limit,
        Self::Stands,
        Self::Pattern,
        Self::First,
        Self::Fault,
        Self::Cause,
        Self::EdgeCode,
        Self::Units,
    ];

    /// Its stable name, and the end of its word key.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Read => "read",
            Self::Limit => "limit",
            Self::Stands => "stands",
            Self::Pattern => "pattern",
            Self::First => "first",
            Self::Fault => "fault",
            Self::Cause => "cause",
            Self::EdgeCode => "edge-code",
            Self::Units => "units",
        }
    }

    /// The drill of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }
}

/// One question, with everything that a screen has to show of it.
#[derive(Clone, Debug)]
pub enum Question {
    /// What does the instrument show?
    Read(Box<Decision>),
    /// What does this instrument show, of which no limit of an axle hangs?
    Gauge(Instrument),
    /// What did the nut do under the wrench at the road check?
    Click(Moved),
    /// Is it within, and which of these limits decides?
    Limit {
        /// The axle: brake, chamber and adjuster decide which limit applies.
        axle: Box<Axle>,
        /// What was measured.
        decision: Box<Decision>,
        /// Limits of the same rule, one of which decides.
        offered: Vec<Limit>,
    },
    /// Which pair of stands may take this lift?
    Stands {
        /// The lift.
        lift: Box<Lift>,
        /// The pairs that lie ready.
        pairs: Vec<[StandTag; 2]>,
    },
    /// In which order are so many nuts tightened?
    Pattern {
        /// How many.
        studs: u8,
    },
    /// Which of these steps has to be done before this one?
    First {
        /// The step that somebody wants to take.
        then: &'static str,
        /// Steps to choose from.
        offered: Vec<&'static str>,
    },
    /// Which of these may not stay so, and what is wrong with it?
    Fault {
        /// What is to be seen.
        looks: Vec<Decision>,
        /// Findings, one of which it is.
        offered: Vec<Fault>,
    },
    /// Why is the stroke long: which list is walked, and which look shows the cause?
    Cause {
        /// The stroke.
        applied: Box<Decision>,
        /// The free stroke.
        free: Box<Decision>,
        /// What can be looked at.
        looks: Vec<Decision>,
    },
    /// Are these linings alike?
    EdgeCode {
        /// On the left.
        left: String,
        /// On the right.
        right: String,
    },
    /// How much is this in another unit?
    Units {
        /// As it is printed.
        printed: Typed,
        /// The unit that is asked for.
        unit: Unit,
        /// To how many decimals.
        places: u8,
    },
}

/// What was answered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Answer {
    /// A reading, or a figure in another unit.
    Reading(Typed),
    /// A word and the limit that decides, by its place among the offered ones.
    Limit {
        /// The word.
        verdict: Verdict,
        /// Which limit.
        offered: usize,
    },
    /// A word alone.
    Verdict(Verdict),
    /// One of what was offered, by its place.
    One(usize),
    /// An order of nuts.
    Order(Vec<u8>),
    /// The look that shows something wrong and the finding that it is, each by its place.
    Fault {
        /// The look.
        look: usize,
        /// The finding.
        offered: usize,
    },
    /// The list that is walked, and the look that shows the cause, by its place.
    Cause {
        /// The list.
        tree: Tree,
        /// The look.
        look: usize,
    },
}

/// What was off about an answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Off {
    /// Nothing: it is right.
    Nothing,
    /// It answers another kind of question, or names what wasn't offered.
    NoAnswer,
    /// The reading lies elsewhere.
    Reading(Read),
    /// The nut did something else.
    Moved(Moved),
    /// The figure in the other unit is off by so much, below nought where it is too small.
    Figure {
        /// By how much.
        by: Quantity,
    },
    /// The word is another.
    Word {
        /// What the rules say.
        ruled: Verdict,
    },
    /// The word is right, and another limit decides.
    OtherLimit {
        /// The one that decides.
        decides: Limit,
    },
    /// This pair may not take it.
    Stands(Box<Result<StandsJudged, SupportFault>>),
    /// It is no order of these nuts.
    NoOrder(PatternFault),
    /// The order isn't the printed one, and something is odd about it.
    Order {
        /// At which place, counted from 0, it first leaves the printed order.
        at: usize,
        /// The printed order.
        printed: Pattern,
        /// What is odd about it.
        odd: Vec<PatternWarning>,
    },
    /// The step isn't one that has to come first; these are.
    First(Vec<&'static str>),
    /// What was pointed at may stay.
    Sound(Item),
    /// It may not stay, and it is these findings.
    OtherFault(Vec<Fault>),
    /// Another list is walked for these two strokes.
    OtherTree(&'static [Tree]),
}

/// An answer, held against the rules.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Checked {
    /// What was off.
    pub off: Off,
    /// Where what decides is printed; `None` where only the procedure lists it.
    pub source: Option<&'static Source>,
}

impl Checked {
    /// Whether the answer is right.
    pub fn is_right(&self) -> bool {
        self.off == Off::Nothing
    }
}

impl Question {
    /// Which drill it belongs to.
    pub const fn drill(&self) -> Drill {
        match self {
            Self::Read(_) | Self::Gauge(_) | Self::Click(_) => Drill::Read,
            Self::Limit { .. } => Drill::Limit,
            Self::Stands { .. } => Drill::Stands,
            Self::Pattern { .. } => Drill::Pattern,
            Self::First { .. } => Drill::First,
            Self::Fault { .. } => Drill::Fault,
            Self::Cause { .. } => Drill::Cause,
            Self::EdgeCode { .. } => Drill::EdgeCode,
            Self::Units { .. } => Drill::Units,
        }
    }

    /// Which kind of judgement it trains.
    pub fn kind(&self) -> Kind {
        match self {
            Self::Read(_) | Self::Gauge(_) | Self::Click(_) => Kind::Reading,
            Self::Limit { decision, .. } => decision.item.kind(),
            Self::Stands { .. } => Kind::Stands,
            Self::Pattern { .. } => Kind::Pattern,
            Self::First { .. } => Kind::First,
            Self::Fault { looks, .. } => {
                let wrong = looks.iter().find(|look| look.ruling.refuses());
                wrong.map_or(Kind::Wheel, |look| look.item.kind())
            }
            Self::Cause { .. } => Kind::Cause,
            Self::EdgeCode { .. } => Kind::EdgeCode,
            Self::Units { .. } => Kind::Units,
        }
    }

    /// Holds an answer against the rules.
    pub fn check(&self, answer: &Answer) -> Checked {
        match (self, answer) {
            (Self::Read(decision), Answer::Reading(typed)) => {
                let read = decision.reading().map(|instrument| instrument.read(typed));
                let off = read.map_or(Off::NoAnswer, as_read);
                checked(off, decision.ruling.source())
            }
            (Self::Gauge(instrument), Answer::Reading(typed)) => {
                checked(as_read(instrument.read(typed)), None)
            }
            (Self::Click(moved), Answer::One(at)) => {
                let off = match Moved::ALL.get(*at) {
                    Some(said) if said == moved => Off::Nothing,
                    Some(_) => Off::Moved(*moved),
                    None => Off::NoAnswer,
                };
                checked(off, moved.sources().first().copied())
            }
            (
                Self::Limit {
                    decision, offered, ..
                },
                Answer::Limit {
                    verdict,
                    offered: at,
                },
            ) => check_limit(decision, offered.get(*at), *verdict),
            (Self::Stands { lift, pairs }, Answer::One(at)) => check_stands(lift, pairs.get(*at)),
            (Self::Pattern { studs }, Answer::Order(order)) => check_order(*studs, order),
            (Self::First { then, offered }, Answer::One(at)) => {
                let firsts: Vec<&'static str> = scene::firsts(then).collect();
                checked(
                    match offered.get(*at) {
                        Some(first) if firsts.contains(first) => Off::Nothing,
                        Some(_) => Off::First(firsts),
                        None => Off::NoAnswer,
                    },
                    None,
                )
            }
            (Self::Fault { looks, offered }, Answer::Fault { look, offered: at }) => {
                let (look, named) = (looks.get(*look), offered.get(*at));
                check_fault(pointed_at(look), look, named)
            }
            (
                Self::Cause {
                    applied,
                    free,
                    looks,
                },
                Answer::Cause { tree, look },
            ) => {
                let walked = trees(applied, free);
                if walked.contains(tree) {
                    pointed_at(looks.get(*look))
                } else {
                    checked(Off::OtherTree(walked), applied.ruling.source())
                }
            }
            (Self::EdgeCode { left, right }, Answer::Verdict(said)) => {
                let edge = |text: &str| rules::lining::code::Edge::read(text).ok();
                let (left, right) = (edge(left), edge(right));
                let judged = rules::lining::matched::judge_match(left.as_ref(), right.as_ref());
                checked(word(*said, judged.verdict), Some(judged.source))
            }
            (
                Self::Units {
                    printed,
                    unit,
                    places,
                },
                Answer::Reading(typed),
            ) => checked(check_figure(printed, *unit, *places, typed), None),
            (
                Self::Read(_)
                | Self::Gauge(_)
                | Self::Click(_)
                | Self::Limit { .. }
                | Self::Stands { .. }
                | Self::Pattern { .. }
                | Self::First { .. }
                | Self::Fault { .. }
                | Self::Cause { .. }
                | Self::EdgeCode { .. }
                | Self::Units { .. },
                _,
            ) => checked(Off::NoAnswer, None),
        }
    }
}

const fn checked(off: Off, source: Option<&'static Source>) -> Checked {
    Checked { off, source }
}

fn as_read(read: Read) -> Off {
    match read {
        Read::Right => Off::Nothing,
        Read::Off { .. } | Read::OtherKind => Off::Reading(read),
    }
}

/// What was pointed at is wrong: is it wrong in the way that was named?
fn check_fault(pointed: Checked, look: Option<&Decision>, named: Option<&Fault>) -> Checked {
    let (Some(look), Some(named)) = (look, named) else {
        return checked(Off::NoAnswer, pointed.source);
    };
    if pointed.is_right() && !look.faults.contains(named) {
        return checked(Off::OtherFault(look.faults.clone()), pointed.source);
    }
    pointed
}

/// Words that mean the same are one answer.
fn word(said: Verdict, ruled: Verdict) -> Off {
    if said.severity() == ruled.severity() {
        Off::Nothing
    } else {
        Off::Word { ruled }
    }
}

fn check_limit(decision: &Decision, named: Option<&Limit>, said: Verdict) -> Checked {
    let source = decision.ruling.source();
    let judged = decision.ruling.judgement();
    let (Some(named), Some(decides)) = (named, judged.and_then(|judged| judged.limits.first()))
    else {
        return checked(Off::NoAnswer, source);
    };
    let off = word(said, decision.ruling.verdict());
    if off == Off::Nothing && named != decides {
        return checked(Off::OtherLimit { decides: *decides }, source);
    }
    checked(off, source)
}

fn check_stands(lift: &Lift, pair: Option<&[StandTag; 2]>) -> Checked {
    let Some(pair) = pair else {
        return checked(Off::NoAnswer, None);
    };
    let judged = stand::judge_stands(lift, pair);
    let source = judged.as_ref().ok().map(|judged| judged.by_load.source);
    let enough = judged
        .as_ref()
        .is_ok_and(|judged| judged.say() == StandsSay::Enough);
    if enough {
        checked(Off::Nothing, source)
    } else {
        checked(Off::Stands(Box::new(judged)), source)
    }
}

/// The printed order is right, and so is any other that nothing is odd about.
fn check_order(studs: u8, order: &[u8]) -> Checked {
    let Some(printed) = pattern::built_in(studs) else {
        return checked(Off::NoAnswer, None);
    };
    let source = Some(printed.source);
    let said = match pattern::of_shop(studs, order) {
        Ok(said) => said,
        Err(fault) => return checked(Off::NoOrder(fault), source),
    };
    let odd = pattern::warnings(&said);
    let leaves = |(said, printed): (&u8, &u8)| said != printed;
    match order.iter().zip(printed.order()).position(leaves) {
        Some(at) if !odd.is_empty() => checked(Off::Order { at, printed, odd }, source),
        Some(_) | None => checked(Off::Nothing, source),
    }
}

fn pointed_at(look: Option<&Decision>) -> Checked {
    match look {
        Some(look) if look.ruling.refuses() => checked(Off::Nothing, look.ruling.source()),
        Some(look) => checked(Off::Sound(look.item), look.ruling.source()),
        None => checked(Off::NoAnswer, None),
    }
}

/// Which lists the rules walk for these two strokes, before anybody looked at the brake.
fn trees(applied: &Decision, free: &Decision) -> &'static [Tree] {
    let lies = free.ruling.judgement().map(FreeLies::from);
    let lies = lies.unwrap_or(FreeLies::Unknown);
    cause::trees(applied.ruling.verdict(), lies, BrakeIs::NotLookedAt)
}

/// Right when no figure of so many decimals is nearer.
fn check_figure(printed: &Typed, unit: Unit, places: u8, typed: &Typed) -> Off {
    let by = typed.quantity().checked_sub(printed.quantity());
    let Some(by) = by.filter(|_| typed.unit() == unit) else {
        return Off::NoAnswer;
    };
    let scale = 10_i128.pow(u32::from(places));
    if by.base().saturating_abs().saturating_mul(2 * scale) <= unit.in_base() {
        Off::Nothing
    } else {
        Off::Figure { by }
    }
}

#[cfg(test)]
mod tests;
