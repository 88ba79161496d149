//! Extra lines: work found on the way, and what became of it.
//!
//! A line is named by the trail line that found it. It holds the step that would hide the part
//! until its work is done; to a "no" a foreman can let work go on, but not over what protects.

use crate::card::Card;
use crate::event::{LineState, WithAnswer};
use crate::id::{AskId, FindingId, OptionId, PersonId, Place, StepId};
use crate::line::{Line, LineRef, Sha, Stamp};
use crate::procedure::{Ask, AskKind, Finding, Offer};
use crate::slot::Slot;

/// One extra line as the trail tells it.
#[derive(Clone, Debug, PartialEq)]
pub struct ExtraLine {
    /// The line of the trail that found it.
    pub line: LineRef,
    pub at: Place,
    pub finding: FindingId,
    pub fix: OptionId,
    pub words: Option<String>,
    pub with: Option<WithAnswer>,
    pub who: PersonId,
    pub found: Stamp,
    pub state: LineState,
    /// Every answer, in the order of the trail.
    pub told: Vec<LineTold>,
    /// The answers that nobody has overtaken.
    pub(crate) said: Slot<LineState>,
    /// A foreman let work go on over it.
    pub passed: Option<LinePassed>,
    /// Photos, parts and time, in the order of the trail.
    pub notes: Vec<Noted>,
}

/// Something noted of a line that changes nothing about it.
#[derive(Clone, Debug, PartialEq)]
pub struct Noted {
    pub line: LineRef,
    pub who: PersonId,
    pub at: Stamp,
    pub note: Note,
}

/// What was noted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Note {
    Photo {
        photo: Sha,
        small: Sha,
    },
    Part {
        part: String,
        number: Option<String>,
    },
    Minutes(u16),
}

/// What was said of a line, by whom and when.
#[derive(Clone, Debug, PartialEq)]
pub struct LineTold {
    pub line: LineRef,
    pub state: LineState,
    /// Who of the customer's people was asked, by name.
    pub asked: Option<String>,
    pub who: PersonId,
    pub at: Stamp,
    pub(crate) tick: u64,
}

/// Why a foreman let work go on.
#[derive(Clone, Debug, PartialEq)]
pub struct LinePassed {
    pub line: LineRef,
    pub who: PersonId,
    pub why: String,
    pub at: Stamp,
}

impl ExtraLine {
    /// True if nothing more is wanted of it before the vehicle goes back.
    pub fn is_settled(&self, finding: Option<&Finding>) -> bool {
        match self.state {
            LineState::Done => true,
            LineState::SaidNo => finding.is_some_and(|finding| {
                !finding.protects && (self.passed.is_some() || !finding.wants_yes())
            }),
            LineState::NotAsked | LineState::Waiting | LineState::SaidYes => false,
        }
    }

    /// All the time noted, in minutes.
    pub fn minutes(&self) -> u32 {
        let minutes = self.notes.iter().map(|noted| match noted.note {
            Note::Minutes(minutes) => u32::from(minutes),
            Note::Photo { .. } | Note::Part { .. } => 0,
        });
        minutes.sum()
    }

    /// Its photos, with the small copies.
    pub fn photos(&self) -> impl Iterator<Item = (Sha, Sha)> {
        self.notes.iter().filter_map(|noted| match noted.note {
            Note::Photo { photo, small } => Some((photo, small)),
            Note::Part { .. } | Note::Minutes(_) => None,
        })
    }

    /// True if its work was done later than `tick`, when the part was found bad.
    pub(crate) fn is_done_since(&self, tick: u64) -> bool {
        let done = self.told.iter().rev();
        let mut done = done.filter(|told| told.state == LineState::Done);
        self.state == LineState::Done && done.next().is_some_and(|told| told.tick > tick)
    }

    /// Takes in what was said of it. Of two answers that had not seen each other the stricter
    /// governs until one is taken back.
    pub(crate) fn tell(&mut self, told: LineTold, saw: impl Fn(&LineRef) -> bool) {
        self.said.set(told.line.clone(), told.state, saw);
        let live = self.said.live().iter().map(|held| held.value);
        self.state = live
            .max_by_key(|state| strictness(*state))
            .unwrap_or(told.state);
        if self.state != LineState::SaidNo {
            self.passed = None;
        }
        self.told.push(told);
    }
}

/// How much stands in the way after this answer.
fn strictness(state: LineState) -> u8 {
    match state {
        LineState::Done => 0,
        LineState::SaidYes => 1,
        LineState::Waiting => 2,
        LineState::NotAsked => 3,
        LineState::SaidNo => 4,
    }
}

impl Card {
    /// Takes in what a line of the trail notes of an extra line, if that is there.
    pub(crate) fn note(&mut self, of: &LineRef, line: &Line, note: Note) {
        if let Some(extra) = self.lines.iter_mut().find(|extra| extra.line == *of) {
            extra.notes.push(Noted {
                line: line.reference(),
                who: line.who.clone(),
                at: line.at,
                note,
            });
        }
    }

    /// Every extra line that was not taken back, in the order found.
    pub fn extra_lines(&self) -> &[ExtraLine] {
        &self.lines
    }

    pub fn extra_line(&self, line: &LineRef) -> Option<&ExtraLine> {
        self.lines.iter().find(|extra| extra.line == *line)
    }

    /// The customer's person who was named last: the one that is asked again.
    pub fn customer(&self) -> Option<&str> {
        let told = self.lines.iter().flat_map(|extra| &extra.told);
        let named = told.filter(|told| told.asked.is_some());
        let last = named.max_by_key(|told| (told.tick, &told.line))?;
        last.asked.as_deref()
    }

    /// The lines to read out to the customer: all that are not done, the worst first. What was said
    /// of one does not move it.
    pub fn to_read_out(&self) -> Vec<&ExtraLine> {
        let mut lines: Vec<&ExtraLine> = self
            .lines
            .iter()
            .filter(|extra| extra.state != LineState::Done)
            .collect();
        lines.sort_by_key(|extra| match self.finding(&extra.finding) {
            Some(finding) if finding.protects => 0,
            Some(finding) if finding.wants_yes() => 1,
            Some(_) => 2,
            // Another edition's: nothing is known of it.
            None => 0,
        });
        lines
    }

    /// True if no extra line wants anything more.
    pub fn lines_settled(&self) -> bool {
        self.lines
            .iter()
            .all(|extra| extra.is_settled(self.finding(&extra.finding)))
    }

    /// How many extra lines at a wheel end or on its axle want something more.
    pub fn open_lines_at(&self, end: Place) -> usize {
        let open = self.lines.iter().filter(|extra| {
            let here = extra.at != Place::Vehicle && touches(extra.at, end);
            here && !extra.is_settled(self.finding(&extra.finding))
        });
        open.count()
    }

    /// The other wheel end, where this line wants the same done there and it has no such line yet.
    pub fn wants_mate(&self, extra: &ExtraLine) -> Option<Place> {
        let mate = extra.at.mate()?;
        let both = self
            .finding(&extra.finding)
            .is_some_and(|finding| finding.both_ends);
        let has = |other: &ExtraLine| other.finding == extra.finding && touches(other.at, mate);
        (both && !self.lines.iter().any(has)).then_some(mate)
    }

    pub fn finding(&self, id: &FindingId) -> Option<&Finding> {
        self.procedure.as_deref()?.finding(id)
    }

    /// The first extra line that is not done and that `step` at `at` would hide.
    pub(crate) fn covered_by(&self, step: &StepId, at: Place) -> Option<(&ExtraLine, &Finding)> {
        self.lines.iter().find_map(|extra| {
            let finding = self.finding(&extra.finding)?;
            let open = extra.state != LineState::Done
                && (finding.protects || extra.passed.is_none())
                && finding.holds.as_ref() == Some(step)
                && touches(extra.at, at);
            open.then_some((extra, finding))
        })
    }

    /// The line that was written together with an answer, if one was.
    pub(crate) fn line_with(
        &self,
        answer: &LineRef,
        (at, step, ask): (Place, &StepId, &AskId),
    ) -> Option<&ExtraLine> {
        self.lines.iter().find(|extra| {
            let together =
                extra.line.tablet == answer.tablet && extra.line.n == answer.n.saturating_add(1);
            let same = |with: &WithAnswer| with.step == *step && with.ask == *ask;
            together && extra.at == at && extra.with.as_ref().is_some_and(same)
        })
    }

    /// True if a part that this ask judges was found bad here already and is not mended yet.
    pub(crate) fn is_found_bad(&self, ask: &Ask, at: Place) -> bool {
        let AskKind::Choose(offers) = &ask.kind else {
            return false;
        };
        self.lines.iter().any(|extra| {
            let named = |offer: &Offer| offer.finding.as_ref() == Some(&extra.finding);
            extra.state != LineState::Done && touches(extra.at, at) && offers.iter().any(named)
        })
    }
}

/// True if a step at one place hides something at the other.
fn touches(one: Place, other: Place) -> bool {
    one == other
        || one == Place::Vehicle
        || other == Place::Vehicle
        || (one.axle() == other.axle() && !matches!((one, other), (Place::End(..), Place::End(..))))
}

#[cfg(test)]
mod tests;
