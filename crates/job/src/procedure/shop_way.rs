//! The procedure as a shop does it: its own steps at the end of their stages, and the final pass
//! where and how the shop sheet says.
//!
//! A shop only adds. Nothing of the procedure goes, nothing is passed, and a step of a shop protects
//! nobody: it waits for what its stage waits for, and is said before the second look or the record.

use super::{
    Ask, AskKind, HoldOn, HoldTarget, Offer, Procedure, Scope, Stage, Step, When, check, yes,
};
use crate::event::{FinalPass, ShopStep};
use crate::hand_back::RECORD;
use crate::id::{AskId, OptionId, StepId};
use crate::second_look;

const LOWER: &str = "lower";
const FINAL_PASS: &str = "final-pass";
const CHECK_PASS: &str = "check-pass";

/// The one ask of a step of the shop's own, and its one line.
pub const DONE: &str = "done";

/// What keeps a wheel from turning while its nuts are tightened off the ground.
pub const WHEEL_HELD: &str = "wheel-held";

impl Procedure {
    /// This procedure as a shop does it. What does not fit this procedure is left out of it.
    #[must_use]
    pub fn as_shop_does(&self, steps: &[ShopStep], way: FinalPass) -> Self {
        let mut own = self.clone();
        if way.as_a_whole {
            own.log_final_as_a_whole();
        }
        if way.on_stands && self.step(&CHECK_PASS.into()).is_some() {
            own.final_before_lower();
        }
        for step in steps {
            own.add(step);
        }
        match check::spell_out(&own) {
            Ok(holds) => own.holds = holds,
            Err(_unfit) => return self.clone(),
        }
        own
    }

    /// Puts a step of a shop at the end of its stage, but before the second look or the record if
    /// that stands there.
    fn add(&mut self, own: &ShopStep) {
        let id = own.id();
        if self.step(&id).is_some() || own.words.trim().is_empty() {
            return;
        }
        let Some(at) = self.stages.iter().position(|stage| stage.id == own.stage) else {
            return;
        };
        let holds = self.last_before_the_road(own, at);
        let Some(stage) = self.stages.get_mut(at) else {
            return;
        };
        let last = [second_look::STEP, RECORD];
        let end = stage
            .steps
            .iter()
            .position(|step| last.contains(&step.id.as_str()));
        let end = end.unwrap_or(stage.steps.len());
        stage.steps.insert(end, step(id, own.scope, holds));
    }

    /// What waits for a step of a shop: the second look for what is done at a wheel end or an axle
    /// before it, the record for all else.
    fn last_before_the_road(&self, own: &ShopStep, stage: usize) -> Vec<HoldOn> {
        let stage_with = |id: &str| {
            let has = |stage: &Stage| stage.steps.iter().any(|step| step.id.as_str() == id);
            self.stages.iter().position(has)
        };
        let look = stage_with(second_look::STEP).filter(|look| stage <= *look);
        let target = match (own.scope, look) {
            (Scope::Axle | Scope::Group | Scope::End, Some(_)) => second_look::STEP,
            _ => RECORD,
        };
        let is_later = stage_with(target).is_some_and(|there| stage <= there);
        is_later.then(|| waits(target)).into_iter().collect()
    }

    fn log_final_as_a_whole(&mut self) {
        for ask in self
            .step_mut(FINAL_PASS)
            .into_iter()
            .flat_map(|step| &mut step.asks)
        {
            if let AskKind::Pass(pass) = &mut ask.kind {
                pass.or_whole = true;
            }
        }
    }

    /// The final pass before the axle comes down. What lowering waited for the pass waits for now,
    /// and the check pass stays on the ground.
    fn final_before_lower(&mut self) {
        let place =
            |stage: &Stage, id: &str| stage.steps.iter().position(|step| step.id.as_str() == id);
        let both = |stage: &Stage| Some((place(stage, LOWER)?, place(stage, FINAL_PASS)?));
        let found = self
            .stages
            .iter_mut()
            .find_map(|stage| both(stage).map(|at| (stage, at)));
        let Some((stage, (lower, pass))) = found.filter(|(_, (lower, pass))| lower < pass) else {
            return;
        };
        let moved = stage.steps.remove(pass);
        stage.steps.insert(lower, moved);
        let is_of = |hold: &HoldOn, id: &str| hold.on == HoldTarget::Step(StepId::from(id));
        for step in self.stages.iter_mut().flat_map(|stage| &mut stage.steps) {
            if step.id.as_str() == LOWER {
                step.holds.retain(|hold| !is_of(hold, FINAL_PASS));
                step.holds.push(waits(CHECK_PASS));
            } else if let Some(hold) = step.holds.iter().find(|hold| is_of(hold, LOWER)) {
                let before_pass = HoldOn {
                    on: HoldTarget::Step(StepId::from(FINAL_PASS)),
                    ..hold.clone()
                };
                step.holds.push(before_pass);
            }
        }
        if let Some(pass) = self.step_mut(FINAL_PASS) {
            pass.holds.push(waits(LOWER));
            pass.asks.insert(0, wheel_held());
        }
    }

    fn step_mut(&mut self, id: &str) -> Option<&mut Step> {
        let mut steps = self.stages.iter_mut().flat_map(|stage| &mut stage.steps);
        steps.find(|step| step.id.as_str() == id)
    }
}

fn waits(step: &str) -> HoldOn {
    HoldOn {
        on: HoldTarget::Step(StepId::from(step)),
        protects: false,
        when: When::new(),
    }
}

fn step(id: StepId, scope: Scope, holds: Vec<HoldOn>) -> Step {
    Step {
        id,
        scope,
        holds,
        when: When::new(),
        skips: Vec::new(),
        again: Vec::new(),
        caution: false,
        picture: None,
        asks: vec![ask(DONE, AskKind::Lines(vec![OptionId::from(DONE)]))],
    }
}

fn ask(id: &str, kind: AskKind) -> Ask {
    Ask {
        id: AskId::from(id),
        kind,
        scope: None,
        when: When::new(),
        rule: None,
        optional: false,
    }
}

/// The truth for every vehicle: one whose values were taken once it was down stands on the ground.
fn wheel_held() -> Ask {
    let offer = |id: &str, clears: bool, when: When| Offer {
        id: OptionId::from(id),
        clears,
        when,
        part: None,
        in_order: false,
        finding: None,
        restarts: false,
    };
    let fitted = ["removable-bolt", "built-in-bolt", "other"].map(OptionId::from);
    let with_spring = When::from([("spring-brake".into(), fitted.to_vec())]);
    ask(
        WHEEL_HELD,
        AskKind::Choose(vec![
            offer("spring-brake", yes(), with_spring),
            offer("bar", yes(), When::new()),
            offer("on-the-ground", yes(), When::new()),
            offer("turns", false, When::new()),
        ]),
    )
}

#[cfg(test)]
mod tests;
