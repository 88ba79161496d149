//! What was said against what the rules say, decision by decision. There is no score.
//!
//! What could hurt somebody stands first, and ends "well done". A reading is held against its
//! instrument, a word against what the rules say of the true state, so that a slip of the eye and a
//! slip of the judgement are told apart.

use rules::typed::Typed;
use rules::verdict::Verdict;

use job::id::Side;

use crate::axle::Axle;
use crate::decision::{self, Decision, Item};
use crate::instrument::Read;
use crate::kind::Kind;
use crate::run::Run;
use crate::scene::{Say, Scene};

pub mod why;

use why::Estimate;

/// What an apprentice said of one thing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Said {
    /// At which end; `None` for the axle.
    pub side: Option<Side>,
    /// Of what.
    pub item: Item,
    /// What was read, where something is measured.
    pub reading: Option<Typed>,
    /// The word that was given.
    pub verdict: Verdict,
}

/// How a word lies to what the rules say.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Outcome {
    /// It may not stay so, it was let go, and it could hurt somebody.
    MissedAndHurts,
    /// It may not stay so, and it was let go or never looked at.
    Missed,
    /// A good part was condemned.
    Condemned,
    /// Nothing wrong was let go and nothing good condemned, but the word is another.
    OtherWord,
    /// A good part that nobody looked at.
    NotLookedAt,
    /// As the rules say.
    Right,
}

impl Outcome {
    /// Every outcome, the worst first.
    pub const ALL: &[Self] = &[
        Self::MissedAndHurts,
        Self::Missed,
        Self::Condemned,
        Self::OtherWord,
        Self::NotLookedAt,
        Self::Right,
    ];

    /// The outcome of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }

    /// Its stable name, and the end of its word key.
    pub const fn code(self) -> &'static str {
        match self {
            Self::MissedAndHurts => "missed-and-hurts",
            Self::Missed => "missed",
            Self::Condemned => "condemned",
            Self::OtherWord => "other-word",
            Self::NotLookedAt => "not-looked-at",
            Self::Right => "right",
        }
    }
}

/// One decision, marked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mark {
    /// What it was, with what the rules say, by how much, and where that is printed.
    pub decision: Decision,
    /// What was said; `None` where nothing was.
    pub said: Option<Said>,
    /// How the word lies to the ruling.
    pub outcome: Outcome,
    /// How the reading lies to its instrument; `None` where nothing was read or is to be read.
    pub read: Option<Read>,
    /// What it would have come to on the road, where an estimate is printed.
    pub why: Vec<Estimate>,
}

impl Mark {
    /// Whether there is nothing to say about it.
    pub fn is_right(&self) -> bool {
        self.outcome == Outcome::Right && matches!(self.read, None | Some(Read::Right))
    }
}

/// A moment, marked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Moment {
    /// What it was.
    pub scene: Scene,
    /// What was said; `None` where nothing was.
    pub said: Option<Say>,
}

impl Moment {
    /// Whether a step was let through before what protects people was done.
    pub fn too_early(&self) -> bool {
        self.said == Some(Say::GoOn) && self.scene.right() == Say::NotYet
    }

    /// Whether something was held up that nothing stood in the way of.
    pub fn held_up(&self) -> bool {
        self.said == Some(Say::NotYet) && self.scene.right() == Say::GoOn
    }
}

/// A whole run, marked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Marking {
    /// Every decision, what could hurt somebody first.
    pub marks: Vec<Mark>,
    /// Every moment, what was too early first.
    pub moments: Vec<Moment>,
}

impl Marking {
    /// Whether it may end in "well done": nothing missed that could hurt, nothing done too early.
    pub fn is_well_done(&self) -> bool {
        let hurts = |mark: &Mark| mark.outcome == Outcome::MissedAndHurts;
        !self.marks.iter().any(hurts) && !self.moments.iter().any(Moment::too_early)
    }

    /// Whether anything at all is to be said about it.
    pub fn is_without_blame(&self) -> bool {
        self.marks.iter().all(Mark::is_right)
            && self
                .moments
                .iter()
                .all(|moment| moment.said == Some(moment.scene.right()))
    }

    /// The decisions that came out so.
    pub fn of(&self, outcome: Outcome) -> impl Iterator<Item = &Mark> {
        self.marks
            .iter()
            .filter(move |mark| mark.outcome == outcome)
    }

    /// By kind of judgement, whether all that was said of it was right: what a person's boxes take in.
    pub fn by_kind(&self) -> Vec<(Kind, bool)> {
        let mut results: Vec<(Kind, bool)> = Vec::new();
        let mut take =
            |kind: Kind, right: bool| match results.iter_mut().find(|(known, _)| *known == kind) {
                Some((_, so_far)) => *so_far &= right,
                None => results.push((kind, right)),
            };
        for mark in &self.marks {
            take(mark.decision.item.kind(), mark.outcome == Outcome::Right);
            if let Some(read) = mark.read {
                take(Kind::Reading, read == Read::Right);
            }
        }
        for moment in &self.moments {
            take(Kind::First, moment.said == Some(moment.scene.right()));
        }
        results.sort_by_key(|(kind, _)| *kind);
        results
    }
}

/// Marks what was said of an axle and of its moments.
///
/// `moments` are what was said of [`Axle::scenes`], in their order; a missing one wasn't answered.
pub fn mark(axle: &Axle, said: &[Said], moments: &[Say]) -> Marking {
    mark_decisions(axle, axle.decisions(), said, moments)
}

pub(crate) fn mark_decisions(
    axle: &Axle,
    decisions: Vec<Decision>,
    said: &[Said],
    moments: &[Say],
) -> Marking {
    let marks: Vec<Mark> = decisions
        .into_iter()
        .map(|decision| {
            let of_it = said
                .iter()
                .rev()
                .find(|said| said.side == decision.side && said.item == decision.item);
            mark_one(axle, decision, of_it)
        })
        .collect();
    let mut answers = moments.iter().copied();
    let moments: Vec<Moment> = axle
        .scenes
        .iter()
        .map(|scene| Moment {
            scene: *scene,
            said: answers.next(),
        })
        .collect();
    in_order(axle, marks, moments)
}

/// Marks a whole run: what was said of its axle, and each moment with what was said at it.
pub fn mark_run(run: &Run, said: &[Said], moments: Vec<Moment>) -> Marking {
    let decisions = run.decisions().to_vec();
    let Marking { marks, .. } = mark_decisions(&run.axle, decisions, said, &[]);
    in_order(&run.axle, marks, moments)
}

/// What could hurt somebody first, and what is wrong by itself before what follows from it.
fn in_order(axle: &Axle, mut marks: Vec<Mark>, mut moments: Vec<Moment>) -> Marking {
    let planted = |mark: &Mark| {
        let side = mark.decision.side;
        let mut faults = mark.decision.faults.iter();
        faults.any(|fault| axle.planted().contains(&(side, *fault)))
    };
    marks.sort_by_key(|mark| (mark.outcome, !planted(mark)));
    moments.sort_by_key(|moment| !moment.too_early());
    Marking { marks, moments }
}

fn mark_one(axle: &Axle, decision: Decision, said: Option<&Said>) -> Mark {
    let outcome = outcome(&decision, said.map(|said| said.verdict));
    let read = decision
        .reading()
        .zip(said.and_then(|said| said.reading.as_ref()))
        .map(|(instrument, typed)| instrument.read(typed));
    let missed = matches!(outcome, Outcome::Missed | Outcome::MissedAndHurts);
    Mark {
        why: if missed {
            why::of(axle, &decision)
        } else {
            Vec::new()
        },
        outcome,
        read,
        said: said.cloned(),
        decision,
    }
}

fn outcome(decision: &Decision, said: Option<Verdict>) -> Outcome {
    let ruled = decision.ruling.verdict();
    let wrong = decision::refuses(ruled);
    match said {
        Some(said) if decision::refuses(said) && wrong => Outcome::Right,
        Some(said) if decision::refuses(said) => Outcome::Condemned,
        _ if wrong && decision.hurts() => Outcome::MissedAndHurts,
        _ if wrong => Outcome::Missed,
        None => Outcome::NotLookedAt,
        // "Within" and "sound" are one answer in two words.
        Some(said) if said.severity() == ruled.severity() => Outcome::Right,
        Some(_) => Outcome::OtherWord,
    }
}

#[cfg(test)]
mod tests;
