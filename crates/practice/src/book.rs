//! The book of the practice bay: who was given which seed, which runs were begun, what was said at their
//! moments, and what came of runs and drills.
//!
//! It is kept as lines of text under a name of the practice bay, beside the made-up cards and never in
//! one of them. Lines are only added; one that can't be read is left out and counted.

use std::fmt::Write;

use rules::quantity::Day;

use job::id::{CardId, PersonId, Side};

use crate::boxes::Dated;
use crate::decision::Item;
use crate::instrument::Read;
use crate::kind::Kind;
use crate::marking::{Marking, Moment, Outcome};
use crate::scene::{self, Say, Scene};
use crate::seed::Seed;

/// The name that the book is kept under.
pub fn card_id() -> CardId {
    CardId::of_practice("book")
}

/// How a line begins: the format, so that another one can be told from it.
const FORMAT: &str = "1";

/// One thing that happened in the practice bay.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Entry {
    /// Somebody gave people a seed.
    Given {
        /// Which one.
        seed: Seed,
        /// Who gave it.
        by: PersonId,
        /// To whom.
        to: Vec<PersonId>,
        /// When.
        on: Date,
    },
    /// A run was begun on a card.
    Begun {
        /// Its card.
        card: CardId,
        /// What the card was made from.
        seed: Seed,
        /// Who walks it.
        who: PersonId,
        /// When.
        on: Date,
    },
    /// At a moment of a run something was said.
    Said {
        /// The run's card.
        card: CardId,
        /// Which moment.
        scene: Scene,
        /// What was said.
        said: Say,
    },
    /// Stands that may not take the load were set, and the app refused them.
    StandsTried {
        /// The run's card.
        card: CardId,
    },
    /// A run was marked and is over.
    Marked {
        /// Its card.
        card: CardId,
        /// What it was made from.
        seed: Seed,
        /// Who walked it.
        who: PersonId,
        /// When.
        on: Date,
        /// What came of each decision.
        results: Vec<Came>,
        /// What was said at each moment; nothing where it did not come up.
        moments: Vec<Moment>,
    },
    /// A question of a drill was answered.
    Drilled {
        /// By whom.
        who: PersonId,
        /// When.
        on: Date,
        /// What kind of judgement it asked for.
        kind: Kind,
        /// Whether nothing was off.
        right: bool,
    },
}

/// What came of one decision.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Came {
    /// At which end; `None` for the axle.
    pub side: Option<Side>,
    /// Of what.
    pub item: Item,
    /// How the word lay to the ruling.
    pub outcome: Outcome,
    /// Whether the instrument was read right; `None` where nothing was read.
    pub read: Option<bool>,
}

/// A date of the calendar.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date {
    /// The year.
    pub year: i64,
    /// From 1 on.
    pub month: i64,
    /// From 1 on.
    pub day: i64,
}

impl Date {
    /// The day, as days are counted.
    pub const fn as_day(self) -> Day {
        Day::from_date(self.year, self.month, self.day)
    }

    fn read(text: &str) -> Option<Self> {
        let mut parts = text.split('-').map(|part| part.parse().ok());
        let date = Self {
            year: parts.next()??,
            month: parts.next()??,
            day: parts.next()??,
        };
        let fits = (1..=12).contains(&date.month) && (1..=31).contains(&date.day);
        (fits && parts.next().is_none()).then_some(date)
    }

    fn text(self) -> String {
        format!("{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

/// The book, in the order of its lines.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Book {
    entries: Vec<Entry>,
    unread: usize,
}

/// A run that was marked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MarkedRun<'a> {
    /// Its card.
    pub card: &'a CardId,
    /// Who walked it.
    pub who: &'a PersonId,
    /// When it was marked.
    pub on: Date,
    /// What came of each decision.
    pub results: &'a [Came],
    /// What was said at each moment.
    pub moments: &'a [Moment],
}

/// A run that was begun.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BegunRun<'a> {
    /// Its card.
    pub card: &'a CardId,
    /// What the card was made from.
    pub seed: Seed,
    /// Who walks it.
    pub who: &'a PersonId,
    /// Whether it was marked and is over.
    pub is_marked: bool,
}

impl Book {
    /// The book of these lines.
    pub fn read<'a>(lines: impl IntoIterator<Item = &'a str>) -> Self {
        let mut book = Self::default();
        for line in lines {
            match Entry::read(line) {
                Some(entry) => book.entries.push(entry),
                None => book.unread += 1,
            }
        }
        book
    }

    /// The book with one more entry.
    pub fn with(&self, entry: Entry) -> Self {
        let mut book = self.clone();
        book.entries.push(entry);
        book
    }

    /// True if nothing stands in it, not even a line that can't be read.
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty() && self.unread == 0
    }

    /// How many lines it has.
    pub fn lines(&self) -> usize {
        self.entries.len() + self.unread
    }

    /// Runs that were begun, the last one first.
    pub fn runs(&self) -> impl Iterator<Item = BegunRun<'_>> {
        self.entries.iter().rev().filter_map(|entry| match entry {
            Entry::Begun {
                card, seed, who, ..
            } => Some(BegunRun {
                card,
                seed: *seed,
                who,
                is_marked: self.marked(card).is_some(),
            }),
            Entry::Given { .. }
            | Entry::Said { .. }
            | Entry::StandsTried { .. }
            | Entry::Marked { .. }
            | Entry::Drilled { .. } => None,
        })
    }

    /// The run on this card, if it is one.
    pub fn run(&self, card: &CardId) -> Option<BegunRun<'_>> {
        self.runs().find(|run| run.card == card)
    }

    /// What was said at a moment of a run.
    pub fn said(&self, card: &CardId, scene: &Scene) -> Option<Say> {
        self.entries.iter().rev().find_map(|entry| match entry {
            Entry::Said {
                card: of,
                scene: at,
                said,
            } if of == card && at == scene => Some(*said),
            Entry::Given { .. }
            | Entry::Begun { .. }
            | Entry::Said { .. }
            | Entry::StandsTried { .. }
            | Entry::Marked { .. }
            | Entry::Drilled { .. } => None,
        })
    }

    /// The moments of a run: those of its seed with what was said, then steps that its own walker
    /// wanted to take too early.
    pub fn moments(&self, card: &CardId, scenes: &[Scene]) -> Vec<Moment> {
        let of_seed = scenes.iter().map(|scene| Moment {
            scene: *scene,
            said: self.said(card, scene),
        });
        let mut moments: Vec<Moment> = of_seed.collect();
        for entry in &self.entries {
            if let Entry::Said {
                card: of,
                scene,
                said,
            } = entry
                && of == card
                && !moments.iter().any(|moment| moment.scene == *scene)
            {
                moments.push(Moment {
                    scene: *scene,
                    said: Some(*said),
                });
            }
        }
        moments
    }

    /// Whether stands that may not take the load were set in a run.
    pub fn stands_tried(&self, card: &CardId) -> bool {
        let tried = |entry: &Entry| matches!(entry, Entry::StandsTried { card: of } if of == card);
        self.entries.iter().any(tried)
    }

    /// What came of a run; `None` while it goes on.
    pub fn marked(&self, card: &CardId) -> Option<MarkedRun<'_>> {
        self.all_marked()
            .find_map(|(_, run)| (run.card == card).then_some(run))
    }

    /// The runs of a seed that are over, the first one first: what is compared.
    pub fn of_seed(&self, seed: Seed) -> Vec<MarkedRun<'_>> {
        let runs = self.all_marked().filter(|(of, _)| *of == seed);
        runs.map(|(_, run)| run).collect()
    }

    /// Every seed of which a run is over, each once, the last one first.
    pub fn seeds_marked(&self) -> Vec<Seed> {
        let mut seeds: Vec<Seed> = Vec::new();
        for (seed, _) in self.all_marked() {
            seeds.retain(|one| *one != seed);
            seeds.insert(0, seed);
        }
        seeds
    }

    fn all_marked(&self) -> impl Iterator<Item = (Seed, MarkedRun<'_>)> {
        self.entries.iter().filter_map(|entry| match entry {
            Entry::Marked {
                card,
                seed,
                who,
                on,
                results,
                moments,
            } => Some((
                *seed,
                MarkedRun {
                    card,
                    who,
                    on: *on,
                    results,
                    moments,
                },
            )),
            Entry::Given { .. }
            | Entry::Begun { .. }
            | Entry::Said { .. }
            | Entry::StandsTried { .. }
            | Entry::Drilled { .. } => None,
        })
    }

    /// Seeds that were given to somebody and that they have no run of yet, with who gave them.
    pub fn given_to(&self, who: &PersonId) -> Vec<(Seed, &PersonId)> {
        let begun = |seed: Seed| self.runs().any(|run| run.seed == seed && run.who == who);
        let mut given: Vec<(Seed, &PersonId)> = Vec::new();
        for entry in &self.entries {
            if let Entry::Given { seed, by, to, .. } = entry
                && to.contains(who)
                && !begun(*seed)
                && !given.iter().any(|(of, _)| of == seed)
            {
                given.push((*seed, by));
            }
        }
        given
    }

    /// Everything that somebody judged, in runs and in drills, as their boxes take it in.
    pub fn results(&self, who: &PersonId) -> Vec<Dated> {
        let mut results = Vec::new();
        for entry in &self.entries {
            match entry {
                Entry::Drilled {
                    who: of,
                    on,
                    kind,
                    right,
                } if of == who => results.push(Dated {
                    kind: *kind,
                    day: on.as_day(),
                    right: *right,
                }),
                Entry::Marked {
                    who: of,
                    on,
                    results: came,
                    moments,
                    ..
                } if of == who => {
                    let by_kind = by_kind(came, moments).into_iter();
                    results.extend(by_kind.map(|(kind, right)| Dated {
                        kind,
                        day: on.as_day(),
                        right,
                    }));
                }
                Entry::Given { .. }
                | Entry::Begun { .. }
                | Entry::Said { .. }
                | Entry::StandsTried { .. }
                | Entry::Marked { .. }
                | Entry::Drilled { .. } => {}
            }
        }
        results
    }
}

/// By kind of judgement, whether all that was judged of it was right. What nobody looked at and what did
/// not come up is no result, unless something was missed by it.
fn by_kind(came: &[Came], moments: &[Moment]) -> Vec<(Kind, bool)> {
    let mut results: Vec<(Kind, bool)> = Vec::new();
    let mut take =
        |kind: Kind, right: bool| match results.iter_mut().find(|(known, _)| *known == kind) {
            Some((_, so_far)) => *so_far &= right,
            None => results.push((kind, right)),
        };
    for one in came {
        if one.outcome != Outcome::NotLookedAt {
            take(one.item.kind(), one.outcome == Outcome::Right);
        }
        if let Some(read) = one.read {
            take(Kind::Reading, read);
        }
    }
    for moment in moments {
        if let Some(said) = moment.said {
            take(Kind::First, said == moment.scene.right());
        }
    }
    results.sort_by_key(|(kind, _)| *kind);
    results
}

/// What came of each decision of a marking.
pub fn came(marking: &Marking) -> Vec<Came> {
    let marks = marking.marks.iter();
    marks
        .map(|mark| Came {
            side: mark.decision.side,
            item: mark.decision.item,
            outcome: mark.outcome,
            read: mark.read.map(|read| read == Read::Right),
        })
        .collect()
}

impl Entry {
    /// Its line.
    pub fn line(&self) -> String {
        let mut line = String::from(FORMAT);
        let mut put = |field: &str| {
            line.push('\t');
            line.push_str(field);
        };
        match self {
            Self::Given { seed, by, to, on } => {
                let to: Vec<&str> = to.iter().map(PersonId::as_str).collect();
                for field in ["given", &seed.to_string(), by.as_str(), &on.text()] {
                    put(field);
                }
                put(&to.join(" "));
            }
            Self::Begun {
                card,
                seed,
                who,
                on,
            } => {
                let (seed, on) = (seed.to_string(), on.text());
                for field in ["begun", card.as_str(), &seed, who.as_str(), &on] {
                    put(field);
                }
            }
            Self::Said { card, scene, said } => {
                let moment = moment_text(scene, Some(*said));
                for field in ["said", card.as_str(), &moment] {
                    put(field);
                }
            }
            Self::StandsTried { card } => {
                put("stands-tried");
                put(card.as_str());
            }
            Self::Marked {
                card,
                seed,
                who,
                on,
                results,
                moments,
            } => {
                let (seed, on) = (seed.to_string(), on.text());
                for field in ["marked", card.as_str(), &seed, who.as_str(), &on] {
                    put(field);
                }
                let mut told = String::new();
                for came in results {
                    let read = match came.read {
                        None => "none",
                        Some(true) => "right",
                        Some(false) => "off",
                    };
                    let (side, item) = (side_code(came.side), came.item.code());
                    // Writing to a text never fails.
                    let _written = write!(told, "{side}/{item}/{}/{read} ", came.outcome.code());
                }
                put(told.trim_end());
                let moments: Vec<String> = moments
                    .iter()
                    .map(|moment| moment_text(&moment.scene, moment.said))
                    .collect();
                put(&moments.join(" "));
            }
            Self::Drilled {
                who,
                on,
                kind,
                right,
            } => {
                let right = if *right { "right" } else { "off" };
                for field in ["drilled", who.as_str(), &on.text(), kind.code(), right] {
                    put(field);
                }
            }
        }
        line
    }

    /// Reads a line; `None` if it is none of this format.
    pub fn read(line: &str) -> Option<Self> {
        let mut fields = line.split('\t');
        if fields.next()? != FORMAT {
            return None;
        }
        let kind = fields.next()?;
        let mut field = || fields.next();
        let entry = match kind {
            "given" => Self::Given {
                seed: Seed::read(field()?).ok()?,
                by: PersonId::from(field()?),
                on: Date::read(field()?)?,
                to: field()?.split(' ').map(PersonId::from).collect(),
            },
            "begun" => Self::Begun {
                card: CardId::from(field()?),
                seed: Seed::read(field()?).ok()?,
                who: PersonId::from(field()?),
                on: Date::read(field()?)?,
            },
            "said" => {
                let card = CardId::from(field()?);
                let moment = read_moment(field()?)?;
                Self::Said {
                    card,
                    scene: moment.scene,
                    said: moment.said?,
                }
            }
            "stands-tried" => Self::StandsTried {
                card: CardId::from(field()?),
            },
            "marked" => Self::Marked {
                card: CardId::from(field()?),
                seed: Seed::read(field()?).ok()?,
                who: PersonId::from(field()?),
                on: Date::read(field()?)?,
                results: words(field()?).map(read_came).collect::<Option<_>>()?,
                moments: words(field()?).map(read_moment).collect::<Option<_>>()?,
            },
            "drilled" => Self::Drilled {
                who: PersonId::from(field()?),
                on: Date::read(field()?)?,
                kind: Kind::from_code(field()?)?,
                right: match field()? {
                    "right" => true,
                    "off" => false,
                    _ => return None,
                },
            },
            _ => return None,
        };
        field().is_none().then_some(entry)
    }
}

fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(' ').filter(|word| !word.is_empty())
}

const fn side_code(side: Option<Side>) -> &'static str {
    match side {
        None => "axle",
        Some(Side::Left) => "left",
        Some(Side::Right) => "right",
    }
}

fn read_came(text: &str) -> Option<Came> {
    let mut parts = text.split('/');
    let side = match parts.next()? {
        "axle" => None,
        "left" => Some(Side::Left),
        "right" => Some(Side::Right),
        _ => return None,
    };
    let came = Came {
        side,
        item: Item::from_code(parts.next()?)?,
        outcome: Outcome::from_code(parts.next()?)?,
        read: match parts.next()? {
            "none" => None,
            "right" => Some(true),
            "off" => Some(false),
            _ => return None,
        },
    };
    parts.next().is_none().then_some(came)
}

fn moment_text(scene: &Scene, said: Option<Say>) -> String {
    let done = if scene.done { "done" } else { "open" };
    let said = said.map_or("none", Say::code);
    let (first, then) = (scene.waits.first, scene.waits.then);
    format!("{first}/{then}/{done}/{said}")
}

fn read_moment(text: &str) -> Option<Moment> {
    let mut parts = text.split('/');
    let waits = scene::pair(parts.next()?, parts.next()?)?;
    let done = match parts.next()? {
        "done" => true,
        "open" => false,
        _ => return None,
    };
    let said = match parts.next()? {
        "none" => None,
        said => Some(Say::from_code(said)?),
    };
    let moment = Moment {
        scene: Scene { waits, done },
        said,
    };
    parts.next().is_none().then_some(moment)
}

#[cfg(test)]
mod tests;
