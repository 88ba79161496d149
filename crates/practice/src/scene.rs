//! Moments in which somebody wants to go on: may they, or does something that protects come first?
//!
//! The pairs are those of the procedure whose hold nobody can pass. In half of the moments the first
//! step is done; then going on is right.

use crate::seed::{Draw, Level};

/// A step that protects, and one that waits for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Waits {
    /// The step that comes first.
    pub first: &'static str,
    /// The step that waits for it.
    pub then: &'static str,
}

const fn waits(first: &'static str, then: &'static str) -> Waits {
    Waits { first, then }
}

/// Every pair, in the order of the job. Only added to at the end: a seed picks by number.
pub const WAITS: &[Waits] = &[
    waits("standing", "chocks"),
    waits("chocks", "lock-out"),
    waits("chocks", "stands"),
    waits("lock-out", "stands"),
    waits("lock-out", "jack"),
    waits("lock-out", "raise"),
    waits("lock-out", "caging"),
    waits("lock-out", "air-out"),
    waits("air-suspension", "stands"),
    waits("air-suspension", "jack"),
    waits("air-suspension", "raise"),
    waits("air-suspension", "caging"),
    waits("air-suspension", "air-out"),
    waits("tyres", "nuts-off"),
    waits("dust", "drum-off"),
    waits("stands", "raise"),
    waits("jack", "raise"),
    waits("raise", "caging"),
    waits("raise", "wheels-off"),
    waits("caging", "air-out"),
    waits("air-out", "slack-back-off"),
    waits("air-out", "drum-off"),
    waits("hub", "shoes-on"),
    waits("drum-on", "uncage"),
    waits("drum-on", "hands-clear"),
    waits("uncage", "chocks-out"),
    waits("uncage", "low-speed"),
    waits("lower", "hands-clear"),
    waits("lower", "suspension-up"),
    waits("check-pass", "chocks-out"),
    waits("check-pass", "low-speed"),
    waits("hands-clear", "lock-off"),
    waits("lock-off", "air-up"),
    waits("lock-off", "settle"),
    waits("lock-off", "function"),
    waits("lock-off", "as-left"),
    waits("chocks-out", "low-speed"),
];

/// The steps of the pairs, in the order of the job.
const IN_ORDER: &[&str] = &[
    "standing",
    "chocks",
    "lock-out",
    "air-suspension",
    "tyres",
    "dust",
    "stands",
    "jack",
    "raise",
    "caging",
    "air-out",
    "nuts-off",
    "wheels-off",
    "slack-back-off",
    "drum-off",
    "hub",
    "shoes-on",
    "drum-on",
    "uncage",
    "lower",
    "check-pass",
    "hands-clear",
    "lock-off",
    "air-up",
    "settle",
    "function",
    "as-left",
    "suspension-up",
    "chocks-out",
    "low-speed",
];

/// The steps of the pairs that come after this one in the job.
pub(crate) fn later(step: &str) -> impl Iterator<Item = &'static str> {
    IN_ORDER
        .iter()
        .copied()
        .skip_while(move |one| *one != step)
        .skip(1)
}

/// One moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Scene {
    /// What is at stake.
    pub waits: Waits,
    /// Whether the first step is done.
    pub done: bool,
}

/// What is said to somebody who wants to go on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Say {
    /// Go on.
    GoOn,
    /// Not yet.
    NotYet,
}

impl Say {
    /// Its stable name, and the end of its word key.
    pub const fn code(self) -> &'static str {
        match self {
            Self::GoOn => "go-on",
            Self::NotYet => "not-yet",
        }
    }

    /// What was said, by its stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        [Self::GoOn, Self::NotYet]
            .into_iter()
            .find(|one| one.code() == code)
    }
}

/// The pair of these steps, where it is one of [`WAITS`].
pub fn pair(first: &str, then: &str) -> Option<Waits> {
    let is_it = |waits: &&Waits| waits.first == first && waits.then == then;
    WAITS.iter().find(is_it).copied()
}

impl Scene {
    /// Whether it comes up as somebody opens `step`, by whether the first step is done.
    ///
    /// What is not done is asked while the first step is at hand, what is done when the other one is.
    pub fn comes_up(&self, step: &str, first_done: bool) -> bool {
        let at = if self.done {
            self.waits.then
        } else {
            self.waits.first
        };
        at == step && first_done == self.done
    }

    /// What is right.
    pub const fn right(&self) -> Say {
        if self.done { Say::GoOn } else { Say::NotYet }
    }
}

pub(crate) fn drawn(level: Level, draw: &mut Draw) -> Vec<Scene> {
    let many = match level {
        Level::Plain => 1,
        Level::Usual => 2,
        Level::Close => 3,
    };
    let mixed = draw.mixed(WAITS.to_vec());
    mixed
        .into_iter()
        .take(many)
        .map(|waits| Scene {
            waits,
            done: draw.one_in(2),
        })
        .collect()
}

/// The steps that have to be done before this one, by a hold that nobody can pass.
pub fn firsts(then: &str) -> impl Iterator<Item = &'static str> {
    WAITS
        .iter()
        .filter(move |waits| waits.then == then)
        .map(|waits| waits.first)
}

#[cfg(test)]
mod tests {
    use job::procedure::{HoldTarget, Procedure};

    use super::*;

    #[test]
    fn the_pairs_are_those_of_the_procedure() {
        let text = include_str!("../../../assets/procedure/s-cam-reline.json");
        let procedure = Procedure::read(text).unwrap();
        let mut pairs = Vec::new();
        for step in procedure.steps() {
            for hold in step.holds.iter().filter(|hold| hold.protects) {
                let thens: Vec<&str> = match &hold.on {
                    HoldTarget::Step(then) => vec![then.as_str()],
                    HoldTarget::Stage(stage) => {
                        let of = |one: &&job::procedure::Stage| one.id == *stage;
                        let stage = procedure.stages.iter().find(of).unwrap();
                        stage.steps.iter().map(|then| then.id.as_str()).collect()
                    }
                    // The first two that anybody would want stand for all that follow.
                    HoldTarget::Rest => vec!["lock-out", "stands"],
                };
                pairs.extend(thens.into_iter().map(|then| (step.id.as_str(), then)));
            }
        }
        let mut ours: Vec<(&str, &str)> = WAITS
            .iter()
            .map(|waits| (waits.first, waits.then))
            .collect();
        pairs.sort_unstable();
        ours.sort_unstable();
        assert_eq!(ours, pairs);
    }

    #[test]
    fn the_order_is_that_of_the_procedure() {
        let text = include_str!("../../../assets/procedure/s-cam-reline.json");
        let procedure = Procedure::read(text).unwrap();
        let of_pairs = |id: &str| {
            WAITS
                .iter()
                .any(|waits| waits.first == id || waits.then == id)
        };
        let order: Vec<&str> = procedure
            .steps()
            .map(|step| step.id.as_str())
            .filter(|id| of_pairs(id))
            .collect();
        assert_eq!(IN_ORDER, order);
        assert_eq!(later("chocks-out").collect::<Vec<_>>(), ["low-speed"]);
        assert_eq!(later("paint").count(), 0);
    }

    #[test]
    fn what_waits_names_what_comes_first() {
        let firsts: Vec<&str> = firsts("raise").collect();
        assert_eq!(firsts, ["lock-out", "air-suspension", "stands", "jack"]);
    }
}
