//! A wheel end handed over half done: what is not back yet, what is begun, open and done there. It
//! picks and sorts; what a step or a line means is said elsewhere.

use crate::card::{Card, StepState};
use crate::extra::ExtraLine;
use crate::id::{PersonId, Place};
use crate::physical;
use crate::procedure::Step;
use crate::words::Words;

/// What the next person has to know.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct HandOver<'a> {
    /// Who has it now.
    pub whose: Option<&'a PersonId>,
    /// What is off, loose, held or out: each part of the physical state that is short of its last
    /// word.
    pub loose: Vec<Words>,
    /// Answered in part, or not in a way that clears it.
    pub begun: Vec<(Place, &'a Step)>,
    pub open: Vec<(Place, &'a Step)>,
    /// Done, or left out with a reason.
    pub done: Vec<(Place, &'a Step)>,
    /// Extra lines here or of the axle that still want something.
    pub lines: Vec<&'a ExtraLine>,
}

/// How a wheel end stands, with what is done for its axle.
pub fn hand_over(card: &Card, at: Place) -> HandOver<'_> {
    let axle = at.axle().map(Place::Axle);
    let here = |place: Place| place == at || Some(place) == axle;
    let mut over = HandOver {
        whose: card.has(at),
        loose: physical::not_back(card, at),
        ..HandOver::default()
    };
    for (place, step) in card.path().into_iter().filter(|(place, _)| here(*place)) {
        match card.state(step, place) {
            StepState::NotOnPath => {}
            StepState::Open => over.open.push((place, step)),
            StepState::Begun | StepState::Unclear => over.begun.push((place, step)),
            StepState::Skipped | StepState::Done => over.done.push((place, step)),
        }
    }
    let open = |extra: &&ExtraLine| !extra.is_settled(card.finding(&extra.finding));
    let lines = card.extra_lines().iter();
    over.lines = lines.filter(|extra| here(extra.at)).filter(open).collect();
    over
}

#[cfg(test)]
mod tests;
