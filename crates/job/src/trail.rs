//! All lines of one card: its strands, kept whole, verified, merged and put in order.
//!
//! Merging two copies is the union of their lines. Nothing is ever removed: lines that can't
//! be read, that fork or that don't join on are kept, left out of the order of work, and named
//! by [`Trail::faults`].

use std::collections::BTreeMap;

use crate::event::{Head, Heads};
use crate::id::{CardId, TabletId};
use crate::line::{Line, LineFault, LineRef, Sha, Spot};

/// The trail of one card.
#[derive(Clone, Debug)]
pub struct Trail {
    card: CardId,
    /// By tablet and number. More than one line in a place is a fork.
    strands: BTreeMap<TabletId, BTreeMap<u32, Vec<Line>>>,
    aside: Vec<SetAside>,
}

/// A stored text that could not be read as a line of this card. Shown, kept, never used.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct SetAside {
    pub text: String,
    pub why: String,
}

/// Something wrong with a trail.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TrailFault {
    /// Two lines claim the same place in a strand. Neither counts, nor what follows them.
    Fork { tablet: TabletId, n: u32 },
    /// A line is missing; what follows it waits for it.
    Gap { tablet: TabletId, n: u32 },
    /// A line does not follow from the one before it; it and what follows do not count.
    Broken { tablet: TabletId, n: u32 },
    /// A stored text is no line of this card.
    Aside { why: String },
}

/// What became of a line that was taken in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TakenIn {
    New,
    AlreadyThere,
    /// Another line already claims its place. Both are kept.
    Fork,
    /// It belongs to another card and was set aside.
    OtherCard,
}

impl Trail {
    pub fn new(card: CardId) -> Self {
        Self {
            card,
            strands: BTreeMap::new(),
            aside: Vec::new(),
        }
    }

    /// Reads stored texts. What can't be read is set aside, not dropped.
    pub fn read<'a>(card: CardId, texts: impl IntoIterator<Item = &'a str>) -> Self {
        let mut trail = Self::new(card);
        for text in texts {
            match Line::read(text) {
                Ok(line) => {
                    trail.take_in(line);
                }
                Err(fault) => trail.set_aside(text, &fault),
            }
        }
        trail
    }

    fn set_aside(&mut self, text: &str, fault: &LineFault) {
        let aside = SetAside {
            text: text.to_owned(),
            why: fault.to_string(),
        };
        if let Err(at) = self.aside.binary_search(&aside) {
            self.aside.insert(at, aside);
        }
    }

    pub fn card(&self) -> &CardId {
        &self.card
    }

    /// Adds a line if it is not there yet.
    pub fn take_in(&mut self, line: Line) -> TakenIn {
        if line.card != self.card {
            let aside = SetAside {
                text: line.text().to_owned(),
                why: format!("line of card {}", line.card),
            };
            if let Err(at) = self.aside.binary_search(&aside) {
                self.aside.insert(at, aside);
            }
            return TakenIn::OtherCard;
        }
        let place = self
            .strands
            .entry(line.tablet.clone())
            .or_default()
            .entry(line.n)
            .or_default();
        match place.binary_search_by_key(&line.sha, |there| there.sha) {
            Ok(_) => TakenIn::AlreadyThere,
            Err(at) => {
                place.insert(at, line);
                if place.len() > 1 {
                    TakenIn::Fork
                } else {
                    TakenIn::New
                }
            }
        }
    }

    /// Adds every line of another copy.
    pub fn merge(&mut self, other: &Self) {
        for line in other.all() {
            self.take_in(line.clone());
        }
        for aside in &other.aside {
            if let Err(at) = self.aside.binary_search(aside) {
                self.aside.insert(at, aside.clone());
            }
        }
    }

    /// Every readable line, forks included, by tablet and number.
    pub fn all(&self) -> impl Iterator<Item = &Line> {
        self.strands
            .values()
            .flat_map(|strand| strand.values().flatten())
    }

    /// Texts that were set aside.
    pub fn aside(&self) -> &[SetAside] {
        &self.aside
    }

    pub fn is_empty(&self) -> bool {
        self.strands.is_empty() && self.aside.is_empty()
    }

    /// The lines that count: of each strand the longest run from 1 on that is whole, in order
    /// of (tick, tablet, n).
    pub fn in_order(&self) -> Vec<&Line> {
        let mut lines: Vec<&Line> = self
            .strands
            .values()
            .flat_map(|strand| joined(strand).0)
            .collect();
        lines.sort_by(|a, b| (a.tick, &a.tablet, a.n).cmp(&(b.tick, &b.tablet, b.n)));
        lines
    }

    /// The end of each strand, as far as it counts.
    pub fn heads(&self) -> Heads {
        self.strands
            .iter()
            .filter_map(|(tablet, strand)| {
                joined(strand).0.last().map(|line| {
                    (
                        tablet.clone(),
                        Head {
                            n: line.n,
                            sha: line.sha,
                        },
                    )
                })
            })
            .collect()
    }

    /// Everything wrong with this trail. Empty means that every chain was checked and holds.
    pub fn faults(&self) -> Vec<TrailFault> {
        let of_strands = self.strands.iter().filter_map(|(tablet, strand)| {
            let tablet = tablet.clone();
            joined(strand).1.map(|(n, stop)| match stop {
                Stop::Fork => TrailFault::Fork { tablet, n },
                Stop::Gap => TrailFault::Gap { tablet, n },
                Stop::Broken => TrailFault::Broken { tablet, n },
            })
        });
        of_strands
            .chain(self.aside.iter().map(|aside| TrailFault::Aside {
                why: aside.why.clone(),
            }))
            .collect()
    }

    /// Where this tablet's next line goes.
    pub(crate) fn next_spot(&self, tablet: &TabletId) -> Spot {
        let last = self
            .strands
            .get(tablet)
            .and_then(|strand| strand.last_key_value());
        let (n, before) = match last {
            Some((n, lines)) => (n + 1, lines.first().map_or(Sha::NONE, |line| line.sha)),
            None => (1, Sha::NONE),
        };
        let tick = self.all().map(|line| line.tick).max().unwrap_or(0) + 1;
        Spot {
            card: self.card.clone(),
            tablet: tablet.clone(),
            n,
            tick,
            before,
        }
    }

    /// The line that a reference names, if it is here with that hash.
    pub fn find(&self, line: &LineRef) -> Option<&Line> {
        self.strands
            .get(&line.tablet)?
            .get(&line.n)?
            .iter()
            .find(|there| there.sha == line.sha)
    }

    /// True if some other tablet's lines are here that `tablet` has not joined yet.
    pub fn needs_joining(&self, tablet: &TabletId, joined: &Heads) -> bool {
        self.heads().iter().any(|(other, head)| {
            other != tablet && joined.get(other).is_none_or(|known| known.n < head.n)
        })
    }
}

#[derive(Clone, Copy)]
enum Stop {
    Fork,
    Gap,
    Broken,
}

/// The run of a strand that counts, and where and why it stops, if it does.
fn joined(strand: &BTreeMap<u32, Vec<Line>>) -> (Vec<&Line>, Option<(u32, Stop)>) {
    let mut run: Vec<&Line> = Vec::new();
    for (&n, lines) in strand {
        let expected = run.last().map_or(1, |last| last.n + 1);
        if n != expected {
            return (run, Some((expected, Stop::Gap)));
        }
        let [line] = lines.as_slice() else {
            return (run, Some((n, Stop::Fork)));
        };
        let (before, tick) = run
            .last()
            .map_or((Sha::NONE, 0), |last| (last.sha, last.tick));
        // A strand's ticks rise: its writer had seen its own lines.
        if line.before != before || line.tick <= tick {
            return (run, Some((n, Stop::Broken)));
        }
        run.push(line);
    }
    (run, None)
}

#[cfg(test)]
mod tests;
