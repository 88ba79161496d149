//! A round of a drill: a few questions from one seed, and what was said to them so far.
//!
//! It is written as one word, so that it can stand in an address: a reload goes on where it was.

use rules::slack::cause::Tree;
use rules::typed::Typed;
use rules::unit::Unit;
use rules::verdict::Verdict;

use super::{Answer, Drill, Question, ask};
use crate::seed::Seed;

/// How far apart the seeds of a round's questions are; their axles then have nothing in common.
const APART: u32 = 7_919;

impl Drill {
    /// How many questions one to three minutes are good for.
    pub const fn questions(self) -> usize {
        match self {
            Self::Pattern => 2,
            Self::Stands | Self::Cause => 3,
            Self::Read | Self::Limit | Self::Fault => 4,
            Self::First | Self::EdgeCode | Self::Units => 5,
        }
    }
}

/// A drill as far as it has come.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Round {
    drill: Drill,
    seed: Seed,
    // Never more than the drill has questions.
    said: Vec<Answer>,
    // Whether the last answer was looked at, so that the next question is asked.
    went_on: bool,
}

impl Round {
    /// A round of which nothing is answered.
    pub const fn new(drill: Drill, seed: Seed) -> Self {
        Self {
            drill,
            seed,
            said: Vec::new(),
            went_on: true,
        }
    }

    /// What is drilled.
    pub const fn drill(&self) -> Drill {
        self.drill
    }

    /// What it is made from.
    pub const fn seed(&self) -> Seed {
        self.seed
    }

    /// The number of the question in hand, from 1.
    pub fn number(&self) -> usize {
        self.said.len() + usize::from(self.went_on)
    }

    /// Whether all its questions were answered and looked at.
    pub fn is_over(&self) -> bool {
        self.number() > self.drill.questions()
    }

    /// The question of a number from 1; `None` where no axle near has one.
    pub fn question(&self, number: usize) -> Option<Question> {
        let more = u32::try_from(number.checked_sub(1)?).ok()?;
        let number = self.seed.number().wrapping_add(more.wrapping_mul(APART));
        ask(self.drill, Seed::new(self.seed.level(), number))
    }

    /// What was said to the question in hand; `None` while it is asked.
    pub fn answer(&self) -> Option<&Answer> {
        self.said.last().filter(|_| !self.went_on)
    }

    /// Everything that was said, in order.
    pub fn said(&self) -> &[Answer] {
        &self.said
    }

    /// The round with the question in hand answered.
    #[must_use]
    pub fn saying(&self, answer: Answer) -> Self {
        let mut round = self.clone();
        if round.went_on && !round.is_over() {
            round.said.push(answer);
            round.went_on = false;
        }
        round
    }

    /// The round at its next question, or over.
    #[must_use]
    pub fn on(&self) -> Self {
        Self {
            went_on: true,
            ..self.clone()
        }
    }

    /// As it stands in an address: the drill, the seed, what was said.
    pub fn text(&self) -> String {
        let said: Vec<String> = self.said.iter().map(text_of).collect();
        let start = format!("{}/{}", self.drill.code(), self.seed);
        match (said.is_empty(), self.went_on) {
            (true, _) => start,
            (false, true) => format!("{start}/{},", said.join(",")),
            (false, false) => format!("{start}/{}", said.join(",")),
        }
    }

    /// The round of an address; `None` where it says nothing that could have been said.
    pub fn read(text: &str) -> Option<Self> {
        let (drill, rest) = text.split_once('/')?;
        let (seed, said) = rest.split_once('/').unwrap_or((rest, ""));
        let new = Self::new(Drill::from_code(drill)?, Seed::read(seed).ok()?);
        if said.is_empty() {
            return Some(new);
        }
        let went_on = said.ends_with(',');
        let said: Option<Vec<Answer>> = said
            .strip_suffix(',')
            .unwrap_or(said)
            .split(',')
            .map(answer_of)
            .collect();
        let said = said.filter(|said| said.len() <= new.drill.questions())?;
        Some(Self {
            said,
            went_on,
            ..new
        })
    }
}

fn text_of(answer: &Answer) -> String {
    match answer {
        Answer::Reading(typed) => {
            let text = typed.text().replace(' ', "_").replace('/', "~");
            format!("r{}:{text}", typed.unit().code())
        }
        Answer::Limit { verdict, offered } => format!("l{}.{offered}", verdict.code()),
        Answer::Verdict(verdict) => format!("v{}", verdict.code()),
        Answer::One(at) => format!("o{at}"),
        Answer::Order(nuts) => {
            let nuts: Vec<String> = nuts.iter().map(u8::to_string).collect();
            format!("n{}", nuts.join("."))
        }
        Answer::Fault { look, offered } => format!("f{look}.{offered}"),
        Answer::Cause { tree, look } => {
            let tree = Tree::ALL.iter().position(|one| one == tree);
            format!("c{}.{look}", tree.unwrap_or_default())
        }
    }
}

fn answer_of(text: &str) -> Option<Answer> {
    let mut letters = text.chars();
    let kind = letters.next()?;
    let rest = letters.as_str();
    let two = || rest.split_once('.');
    Some(match kind {
        'r' => {
            let (unit, text) = rest.split_once(':')?;
            let text = text.replace('_', " ").replace('~', "/");
            Answer::Reading(Typed::parse(&text, Unit::from_code(unit)?).ok()?)
        }
        'l' => Answer::Limit {
            verdict: Verdict::from_code(two()?.0)?,
            offered: two()?.1.parse().ok()?,
        },
        'v' => Answer::Verdict(Verdict::from_code(rest)?),
        'o' => Answer::One(rest.parse().ok()?),
        'n' => {
            let nuts: Result<Vec<u8>, _> = rest.split('.').map(str::parse).collect();
            Answer::Order(nuts.ok()?)
        }
        'f' => Answer::Fault {
            look: two()?.0.parse().ok()?,
            offered: two()?.1.parse().ok()?,
        },
        'c' => Answer::Cause {
            tree: *Tree::ALL.get(two()?.0.parse::<usize>().ok()?)?,
            look: two()?.1.parse().ok()?,
        },
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::seed::Level;

    fn answers() -> Vec<Answer> {
        vec![
            Answer::Reading(Typed::parse("1 7/8", Unit::Inch).unwrap()),
            Answer::Limit {
                verdict: Verdict::AtTheLimit,
                offered: 2,
            },
            Answer::Verdict(Verdict::Sound),
            Answer::Order(vec![1, 6, 10]),
            Answer::Cause {
                tree: Tree::Adjuster,
                look: 3,
            },
        ]
    }

    #[test]
    fn a_round_reads_back_at_every_moment() {
        let mut round = Round::new(Drill::Units, Seed::new(Level::Close, 7));
        let more = [
            Answer::One(1),
            Answer::Fault {
                look: 0,
                offered: 1,
            },
        ];
        for answer in answers().into_iter().chain(more) {
            assert_eq!(Round::read(&round.text()), Some(round.clone()));
            let said = round.saying(answer.clone());
            assert_eq!(Round::read(&said.text()), Some(said.clone()));
            if round.is_over() {
                assert_eq!(said, round, "nothing is asked any more");
            } else {
                assert_eq!(said.answer(), Some(&answer));
                assert_eq!(said.number(), round.number());
                assert_eq!(said.saying(Answer::One(0)), said, "it was answered once");
            }
            round = said.on();
            assert_eq!(round.answer(), None);
        }
        assert!(round.is_over());
        assert_eq!(round.said(), answers());
    }

    #[test]
    fn what_was_never_said_is_no_round() {
        let bad = [
            "paint/1-usual-4",
            "read/9-usual-4",
            "read",
            "read/1-usual-4/x1",
            "read/1-usual-4/o1,,",
            "read/1-usual-4/rin:",
            "read/1-usual-4/c9.0",
            "pattern/1-usual-4/n1.2,n1.2,n1.2",
        ];
        for text in bad {
            assert_eq!(Round::read(text), None, "{text}");
        }
    }

    #[test]
    fn the_first_question_is_the_seeds_and_no_two_are_alike() {
        for drill in [Drill::Read, Drill::Limit, Drill::Fault, Drill::Cause] {
            let seed = Seed::new(Level::Usual, 42);
            let round = Round::new(drill, seed);
            let text = |number| format!("{:?}", round.question(number).unwrap());
            assert_eq!(text(1), format!("{:?}", ask(drill, seed).unwrap()));
            assert_ne!(text(1), text(2), "{drill:?}");
            assert!(round.question(0).is_none());
        }
    }
}
