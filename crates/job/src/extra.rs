//! Extra lines: work found on the way, and what became of it.
//!
//! A line is named by the trail line that found it. It holds the step that would hide the part
//! until its work is done; to a "no" a foreman can let work go on, but not over what protects.

use crate::card::Card;
use crate::event::{LineState, WithAnswer};
use crate::id::{AskId, FindingId, OptionId, PersonId, Place, StepId};
use crate::line::{LineRef, Stamp};
use crate::procedure::Finding;

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
    /// A foreman let work go on over it.
    pub passed: Option<LinePassed>,
}

/// What was said of a line, by whom and when.
#[derive(Clone, Debug, PartialEq)]
pub struct LineTold {
    pub line: LineRef,
    pub state: LineState,
    pub who: PersonId,
    pub at: Stamp,
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
            LineState::SaidNo => {
                self.passed.is_some() || finding.is_some_and(|finding| finding.holds.is_none())
            }
            LineState::NotAsked | LineState::Waiting | LineState::SaidYes => false,
        }
    }
}

impl Card {
    /// Every extra line that was not taken back, in the order found.
    pub fn extra_lines(&self) -> &[ExtraLine] {
        &self.lines
    }

    pub fn extra_line(&self, line: &LineRef) -> Option<&ExtraLine> {
        self.lines.iter().find(|extra| extra.line == *line)
    }

    /// True if no extra line wants anything more.
    pub fn lines_settled(&self) -> bool {
        self.lines
            .iter()
            .all(|extra| extra.is_settled(self.finding(&extra.finding)))
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

    /// The lines that came up with the answers of one ask.
    pub(crate) fn lines_with<'a>(
        &'a self,
        at: Place,
        step: &'a StepId,
        ask: &'a AskId,
    ) -> impl Iterator<Item = &'a ExtraLine> {
        self.lines.iter().filter(move |extra| {
            extra.at == at
                && extra
                    .with
                    .as_ref()
                    .is_some_and(|with| with.step == *step && with.ask == *ask)
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
