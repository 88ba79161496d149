//! The procedure: stages, steps and what each asks for, read from data.
//!
//! Data says what is done and what waits for what; it holds no words (they are in
//! `assets/words`, found by the keys that [`Procedure::word_keys`] lists) and no limits
//! (they are in `rules`, named by rule id). Reading a procedure either gives one that
//! hangs together or refuses it: see [`check`].

use std::collections::BTreeMap;

use rules::support::jack;
use rules::unit::Unit;
use serde::{Deserialize, Serialize};

use crate::id::{AskId, FactId, FindingId, OptionId, PartId, StageId, StepId};
use crate::line::Sha;

pub mod check;
pub mod shop_way;

pub use check::ProcedureFault;

/// Which places a step, ask or fact belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Scope {
    /// Once for the vehicle.
    #[serde(rename = "V")]
    Vehicle,
    /// Once for each group of axles in hand, kept at the group's first axle.
    #[serde(rename = "G")]
    Group,
    /// Once for each axle in hand.
    #[serde(rename = "A")]
    Axle,
    /// Once for each wheel end of the axles in hand.
    #[serde(rename = "E")]
    End,
}

/// Facts that must have one of the listed values. All must hold; a fact nobody has given
/// yet counts as holding, so that a step is never missed for want of a fact.
pub type When = BTreeMap<FactId, Vec<OptionId>>;

/// A whole procedure, checked. Make one with [`Procedure::read`].
#[derive(Clone, Debug)]
pub struct Procedure {
    /// Name and hash that a card pins.
    pub pin: Pin,
    /// Edition as printed on the record.
    pub edition: String,
    /// Every fact of the set-up sheet.
    pub facts: Vec<FactDef>,
    /// Stages in order.
    pub stages: Vec<Stage>,
    /// What can be found wrong, part by part.
    pub findings: Vec<Finding>,
    /// What is asked after a long gap.
    pub came_back: Vec<KeptWhere>,
    /// How the physical state of a place is told.
    pub physical: Vec<Told>,
    /// Every hold, resolved: what must come first, and what it holds.
    pub(crate) holds: Vec<ResolvedHold>,
}

/// The procedure a card follows: its id and the SHA-256 of its file.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Pin {
    pub id: String,
    pub hash: Sha,
}

/// A group of steps.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Stage {
    pub id: StageId,
    /// Its steps at one wheel end wait for nothing but their holds: what is judged by eye can be
    /// said for all of them at once.
    #[serde(default)]
    pub any_order: bool,
    pub steps: Vec<Step>,
}

/// Something that can be found wrong.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Finding {
    pub id: FindingId,
    pub part: PartId,
    /// What can be done about it, the usual way first.
    pub fixes: Vec<OptionId>,
    /// The step that would hide it; it waits until the extra line is done.
    #[serde(default)]
    pub holds: Option<StepId>,
    /// Not even a foreman passes it.
    #[serde(default)]
    pub protects: bool,
    /// The other end of the axle gets the same.
    #[serde(default)]
    pub both_ends: bool,
    /// It hides nothing, and still a vehicle does not go back with it without a word of the foreman.
    #[serde(default)]
    pub matters: bool,
}

impl Finding {
    /// True if a "no" to it stands in the way until a foreman gives a reason, or for good.
    pub fn wants_yes(&self) -> bool {
        self.protects || self.matters || self.holds.is_some()
    }
}

/// Something that keeps the vehicle where it is, from one step to another.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KeptWhere {
    pub id: OptionId,
    /// With this step it is there.
    pub from: StepId,
    /// With this one it no longer is.
    pub until: StepId,
}

/// One part of the sentence of the physical state: the last of these steps that is done names it.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Told {
    pub id: OptionId,
    /// Steps in order of work, each with the word for the state after it.
    pub after: Vec<(StepId, OptionId)>,
}

/// One step.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    pub id: StepId,
    pub scope: Scope,
    /// Steps that can't be taken before this one.
    #[serde(default)]
    pub holds: Vec<HoldOn>,
    #[serde(default)]
    pub when: When,
    /// Reasons for which this step may be left out. A `!` step has none.
    #[serde(default)]
    pub skips: Vec<OptionId>,
    /// Steps at the same place that are to be done again when this one is done again.
    #[serde(default)]
    pub again: Vec<StepId>,
    /// The step has a caution (word key `step.<id>.caution`).
    #[serde(default)]
    pub caution: bool,
    /// Name of the picture that the screen draws, if any.
    #[serde(default)]
    pub picture: Option<String>,
    pub asks: Vec<Ask>,
}

impl Step {
    /// True for a `!` step: one that holds something and can't be passed by anybody.
    pub fn protects(&self) -> bool {
        self.holds.iter().any(|hold| hold.protects)
    }

    /// True if it is said by pressing and holding, so that what is chosen before needs no second
    /// press.
    pub fn is_pressed(&self) -> bool {
        self.asks
            .iter()
            .any(|ask| matches!(ask.kind, AskKind::Press(_)))
    }
}

/// What a step holds.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HoldOn {
    pub on: HoldTarget,
    /// `!`: protects a person and can't be passed.
    #[serde(default)]
    pub protects: bool,
    /// The hold stands only for these facts.
    #[serde(default)]
    pub when: When,
}

/// Where a hold points.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum HoldTarget {
    Step(StepId),
    Stage(StageId),
    /// Every step after this one.
    Rest,
}

/// One thing that a step asks for.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Ask {
    pub id: AskId,
    pub kind: AskKind,
    /// Finer than the step's own scope: a round asks its readings per wheel end.
    #[serde(default)]
    pub scope: Option<Scope>,
    #[serde(default)]
    pub when: When,
    /// Rule that judges the answer. Without one an answer is kept, not judged.
    #[serde(default)]
    pub rule: Option<String>,
    /// The step is done without it.
    #[serde(default)]
    pub optional: bool,
}

impl Ask {
    /// True for the rated load of a jack: a jack of the shop answers it as a typed figure does.
    pub fn takes_a_jack(&self) -> bool {
        self.rule.as_deref() == Some(jack::RULE.id.0)
    }
}

/// The kinds of asking. Each has its own control on the screen.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum AskKind {
    /// Things to do, one Done for all; each can be taken out.
    Lines(Vec<OptionId>),
    /// One of a closed list.
    Choose(Vec<Offer>),
    /// Press and hold, with what it is that is being said.
    Press(Press),
    /// A number with a unit.
    Reading(ReadingAsk),
    /// A whole number of things.
    Count(CountAsk),
    /// Which wheels, of those that stay on the ground.
    Wheels,
    /// All in order but for the ones named.
    Exceptions(Exceptions),
    /// One pass over all wheel nuts.
    Pass(Pass),
    /// Stands under an axle.
    Stands,
    /// The torque wrench that a pass is done with.
    Wrench,
    /// A fact of the set-up sheet, asked where it can be read.
    Fact(FactId),
    /// A second person looks.
    Look,
    /// Every extra line is done, or was said no to and may stay so. Follows from the lines.
    Settled,
}

/// One answer of a closed list.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Offer {
    pub id: OptionId,
    /// Saying this does what the step is there for.
    #[serde(default = "yes")]
    pub clears: bool,
    #[serde(default)]
    pub when: When,
    /// The part is judged by eye.
    #[serde(default)]
    pub part: Option<Eye>,
    /// The answer of a part that is in order: it can be said together with others.
    #[serde(default)]
    pub in_order: bool,
    /// Saying this puts an extra line on the card.
    #[serde(default)]
    pub finding: Option<FindingId>,
    /// Saying this of one nut of a pass starts the pass again: every nut once more.
    #[serde(default)]
    pub restarts: bool,
}

fn yes() -> bool {
    true
}

/// A part judged by eye.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Eye {
    Sound,
    Replace,
}

/// A press-and-hold.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Press {
    /// What can truthfully be said with it.
    pub answers: Vec<Offer>,
    /// Every person who works on the vehicle presses.
    #[serde(default)]
    pub each_person: bool,
    /// Once this step is begun, nobody who signs on later is waited for.
    #[serde(default)]
    pub until: Option<StepId>,
}

/// A number to be read off something.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ReadingAsk {
    /// Units that may be typed, the usual one first.
    pub units: Vec<UnitCode>,
    /// What is usually seen, in the first unit. Outside it the screen asks; it never refuses.
    pub usual: [String; 2],
}

/// A unit by its code.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct UnitCode(pub Unit);

impl<'de> Deserialize<'de> for UnitCode {
    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let code = String::deserialize(from)?;
        Unit::from_code(&code)
            .map(UnitCode)
            .ok_or_else(|| serde::de::Error::custom(format!("unknown unit {code:?}")))
    }
}

impl Serialize for UnitCode {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(self.0.code())
    }
}

/// A number of things.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CountAsk {
    /// Fewest and most that are usual; outside it the screen asks.
    pub usual: [u16; 2],
}

/// Everything in order, except what is named.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Exceptions {
    pub of: Items,
    /// What can be wrong with one.
    pub marks: Vec<OptionId>,
}

/// What is gone through one by one.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Items {
    /// The studs or nuts of the wheel end, numbered.
    Studs,
    /// Named parts.
    Named(Vec<OptionId>),
}

/// One pass over the nuts.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pass {
    /// What can be said of a nut; the first is the good one.
    pub marks: Vec<Offer>,
    /// Logged one by one, and as a whole only if the shop says so.
    #[serde(default)]
    pub one_by_one: bool,
    /// The shop logs it as a whole. Never in the file: it comes from the shop sheet.
    #[serde(skip)]
    pub or_whole: bool,
}

impl Pass {
    /// True if the pass may be said in one go, with the nuts named that were not right.
    pub fn may_be_whole(&self) -> bool {
        !self.one_by_one || self.or_whole
    }
}

/// A fact of the set-up sheet.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FactDef {
    pub id: FactId,
    pub scope: Scope,
    pub kind: FactKind,
    /// Asked when a card is started, not by a step.
    #[serde(default)]
    pub at_start: bool,
    /// "I don't know" is an answer.
    #[serde(default)]
    pub may_be_unknown: bool,
    /// Which of two values that had not seen each other governs. Without it neither does.
    #[serde(default)]
    pub stricter: Option<Stricter>,
    /// Names the vehicle and decides nothing: no step asks for it, the set-up sheet offers it, and
    /// giving it changes nothing that was looked at.
    #[serde(default)]
    pub names_only: bool,
    /// What state a thing is in, or what is printed on it: said at every axle by whoever looks
    /// there, and never taken over from the one before.
    #[serde(default)]
    pub told_anew: bool,
}

impl FactDef {
    /// True if it may be said of one end because it was said of the other: what kind of thing it
    /// is, never a figure that is read.
    pub fn may_cross_over(&self) -> bool {
        let of_a_kind = matches!(self.kind, FactKind::Choose(_) | FactKind::Count(_));
        of_a_kind && !self.at_start
    }

    /// True if it may be said of an axle because it was said of the one before.
    pub fn may_be_taken_over(&self) -> bool {
        self.may_cross_over() && !self.told_anew
    }
}

/// What kind of value a fact has.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum FactKind {
    Choose(Vec<OptionId>),
    Reading(ReadingAsk),
    Count(CountAsk),
    Axles,
    Text,
}

/// Which value is the stricter one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stricter {
    /// The option that stands later in the list; "not known" above all.
    Later,
    Larger,
    Smaller,
}

/// A hold with its target spelled out.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct ResolvedHold {
    pub(crate) first: StepId,
    pub(crate) then: StepId,
    pub(crate) protects: bool,
    pub(crate) when: When,
}

/// The file as it is written.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ProcedureFile {
    format: u32,
    id: String,
    edition: String,
    facts: Vec<FactDef>,
    stages: Vec<Stage>,
    #[serde(default)]
    findings: Vec<Finding>,
    #[serde(default)]
    came_back: Vec<KeptWhere>,
    #[serde(default)]
    physical: Vec<Told>,
}

impl Procedure {
    /// Reads a procedure file, or says what is wrong with it.
    pub fn read(text: &str) -> Result<Self, ProcedureFault> {
        let file: ProcedureFile =
            serde_json::from_str(text).map_err(|error| ProcedureFault::Unreadable {
                why: error.to_string(),
            })?;
        if file.format != 1 {
            return Err(ProcedureFault::Format { found: file.format });
        }
        let mut procedure = Self {
            pin: Pin {
                id: file.id,
                hash: Sha::of(text.as_bytes()),
            },
            edition: file.edition,
            facts: file.facts,
            stages: file.stages,
            findings: file.findings,
            came_back: file.came_back,
            physical: file.physical,
            holds: Vec::new(),
        };
        procedure.holds = check::resolve(&procedure)?;
        Ok(procedure)
    }

    /// Every step in order.
    pub fn steps(&self) -> impl Iterator<Item = &Step> {
        self.stages.iter().flat_map(|stage| &stage.steps)
    }

    pub fn step(&self, id: &StepId) -> Option<&Step> {
        self.steps().find(|step| step.id == *id)
    }

    pub fn fact(&self, id: &FactId) -> Option<&FactDef> {
        self.facts.iter().find(|fact| fact.id == *id)
    }

    pub fn finding(&self, id: &FindingId) -> Option<&Finding> {
        self.findings.iter().find(|finding| finding.id == *id)
    }

    /// The stage that a step stands in.
    pub fn stage_of(&self, id: &StepId) -> Option<&Stage> {
        self.stages
            .iter()
            .find(|stage| stage.steps.iter().any(|step| step.id == *id))
    }

    pub fn ask(&self, step: &StepId, ask: &AskId) -> Option<&Ask> {
        self.step(step)?.asks.iter().find(|found| found.id == *ask)
    }

    /// Place of a step in the order of work.
    pub fn order(&self, id: &StepId) -> Option<usize> {
        self.steps().position(|step| step.id == *id)
    }

    /// The `!` steps that `newer` has and this one has not.
    pub fn protecting_steps_new_in<'a>(&self, newer: &'a Self) -> Vec<&'a Step> {
        newer
            .steps()
            .filter(|step| step.protects() && self.step(&step.id).is_none())
            .collect()
    }

    /// Every word key that a language file must hold for this procedure.
    pub fn word_keys(&self) -> Vec<String> {
        let mut keys = Vec::new();
        for stage in &self.stages {
            keys.push(format!("stage.{}", stage.id));
            for step in &stage.steps {
                let id = &step.id;
                keys.push(format!("step.{id}"));
                keys.push(format!("step.{id}.do"));
                keys.push(format!("step.{id}.why"));
                if step.caution {
                    keys.push(format!("step.{id}.caution"));
                }
                keys.extend(step.skips.iter().map(|skip| format!("skip.{id}.{skip}")));
                for ask in &step.asks {
                    keys.extend(ask_keys(id, ask));
                }
            }
        }
        for finding in &self.findings {
            keys.push(format!("part.{}", finding.part));
            keys.push(format!("finding.{}", finding.id));
            keys.push(format!("finding.{}.plain", finding.id));
            keys.push(format!("finding.{}.matters", finding.id));
            let fix = |fix: &OptionId| format!("fix.{}.{fix}", finding.id);
            keys.extend(finding.fixes.iter().map(fix));
        }
        keys.extend(
            self.came_back
                .iter()
                .map(|kept| format!("kept.{}", kept.id)),
        );
        for told in &self.physical {
            let after = |(_, word): &(StepId, OptionId)| format!("physical.{}.{word}", told.id);
            keys.extend(told.after.iter().map(after));
        }
        for fact in &self.facts {
            keys.push(format!("fact.{}", fact.id));
            if let FactKind::Choose(options) = &fact.kind {
                keys.extend(
                    options
                        .iter()
                        .map(|option| format!("fact.{}.{option}", fact.id)),
                );
            }
        }
        keys
    }
}

fn ask_keys(step: &StepId, ask: &Ask) -> Vec<String> {
    let stem = format!("ask.{step}.{}", ask.id);
    let with = |ids: &mut dyn Iterator<Item = &OptionId>| -> Vec<String> {
        ids.map(|id| format!("{stem}.{id}")).collect()
    };
    let mut keys = match &ask.kind {
        AskKind::Lines(lines) => with(&mut lines.iter()),
        AskKind::Choose(offers) => with(&mut offers.iter().map(|offer| &offer.id)),
        AskKind::Press(press) => with(&mut press.answers.iter().map(|offer| &offer.id)),
        AskKind::Pass(pass) => with(&mut pass.marks.iter().map(|offer| &offer.id)),
        AskKind::Exceptions(exceptions) => {
            let mut keys = with(&mut exceptions.marks.iter());
            if let Items::Named(named) = &exceptions.of {
                keys.extend(with(&mut named.iter()));
            }
            keys
        }
        AskKind::Fact(_) => return Vec::new(), // Its words are the fact's own.
        AskKind::Reading(_)
        | AskKind::Count(_)
        | AskKind::Wheels
        | AskKind::Stands
        | AskKind::Wrench
        | AskKind::Look
        | AskKind::Settled => Vec::new(),
    };
    keys.push(stem);
    keys
}
