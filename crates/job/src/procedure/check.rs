//! Refuses a procedure that does not hang together.
//!
//! A procedure that names things that don't exist, waits for something that comes later, or
//! asks for a `!` that nobody could answer truthfully would be found out in the bay. It is
//! found out here instead.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

use rules::band::Band;

use super::{
    Ask, AskKind, CountAsk, FactKind, HoldTarget, Items, Offer, Procedure, ReadingAsk,
    ResolvedHold, Step, When,
};
use crate::id::{FactId, OptionId, StepId};

/// What is wrong with a procedure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ProcedureFault {
    Unreadable {
        why: String,
    },
    Format {
        found: u32,
    },
    Twice {
        what: &'static str,
        id: String,
    },
    UnknownStep {
        from: StepId,
        id: StepId,
    },
    UnknownStage {
        from: StepId,
        id: String,
    },
    UnknownFact {
        from: String,
        id: FactId,
    },
    UnknownOption {
        from: String,
        fact: FactId,
        id: OptionId,
    },
    UnknownRule {
        from: StepId,
        id: String,
    },
    UnknownFinding {
        from: String,
        id: String,
    },
    /// Steps that wait for each other.
    Cycle {
        steps: Vec<StepId>,
    },
    /// A hold on a step that does not come later.
    HoldsEarlier {
        from: StepId,
        on: StepId,
    },
    /// A hold on a step that is never on the same vehicle, axle or wheel end.
    HoldsOutOfScope {
        from: StepId,
        on: StepId,
    },
    /// A `!` that some vehicle could not be honest about.
    NoHonestAnswer {
        step: StepId,
        ask: String,
        facts: String,
    },
    /// A `!` step that can be skipped, or whose every ask is optional.
    CanBeAvoided {
        step: StepId,
    },
    /// Nothing to do in it.
    Empty {
        what: &'static str,
        id: String,
    },
    BadBand {
        from: String,
    },
}

impl fmt::Display for ProcedureFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("can't use this procedure: ")?;
        match self {
            Self::Unreadable { why } => write!(f, "{why}"),
            Self::Format { found } => write!(f, "expected format 1, found {found}"),
            Self::Twice { what, id } => write!(f, "{what} {id:?} stands twice"),
            Self::UnknownStep { from, id } => {
                write!(f, "{from} holds step {id:?}, which does not exist")
            }
            Self::UnknownStage { from, id } => {
                write!(f, "{from} holds stage {id:?}, which does not exist")
            }
            Self::UnknownFact { from, id } => {
                write!(f, "{from} names fact {id:?}, which does not exist")
            }
            Self::UnknownOption { from, fact, id } => {
                write!(f, "{from} names {id:?}, which {fact} does not offer")
            }
            Self::UnknownRule { from, id } => {
                write!(f, "{from} names rule {id:?}, which does not exist")
            }
            Self::UnknownFinding { from, id } => {
                write!(f, "{from} names finding {id:?}, which does not exist")
            }
            Self::Cycle { steps } => {
                let names: Vec<&str> = steps.iter().map(StepId::as_str).collect();
                write!(f, "these wait for each other: {}", names.join(", "))
            }
            Self::HoldsEarlier { from, on } => {
                write!(f, "{from} holds {on}, which does not come later")
            }
            Self::HoldsOutOfScope { from, on } => {
                write!(f, "{from} holds {on}, but no vehicle has both")
            }
            Self::NoHonestAnswer { step, ask, facts } => {
                write!(
                    f,
                    "{step}, ask {ask}, has no answer that clears it when {facts}"
                )
            }
            Self::CanBeAvoided { step } => write!(f, "{step} protects a person but can be avoided"),
            Self::Empty { what, id } => write!(f, "{what} {id:?} is empty"),
            Self::BadBand { from } => write!(f, "{from} has no usable band of usual values"),
        }
    }
}

/// Checks everything and spells the holds out.
pub(super) fn resolve(procedure: &Procedure) -> Result<Vec<ResolvedHold>, ProcedureFault> {
    no_twins(procedure)?;
    facts(procedure)?;
    for step in procedure.steps() {
        self::step(procedure, step)?;
    }
    findings(procedure)?;
    named_steps(procedure)?;
    let holds = spell_out(procedure)?;
    no_cycles(procedure, &holds)?;
    for hold in &holds {
        let (Some(from), Some(to)) = (procedure.order(&hold.first), procedure.order(&hold.then))
        else {
            continue; // Both were looked up when the hold was spelled out.
        };
        if to <= from {
            return Err(ProcedureFault::HoldsEarlier {
                from: hold.first.clone(),
                on: hold.then.clone(),
            });
        }
    }
    Ok(holds)
}

fn unique<'a>(
    what: &'static str,
    ids: impl IntoIterator<Item = &'a str>,
) -> Result<(), ProcedureFault> {
    let mut seen = BTreeSet::new();
    for id in ids {
        if id.is_empty() {
            return Err(ProcedureFault::Empty {
                what,
                id: id.to_owned(),
            });
        }
        if !seen.insert(id) {
            return Err(ProcedureFault::Twice {
                what,
                id: id.to_owned(),
            });
        }
    }
    Ok(())
}

fn no_twins(procedure: &Procedure) -> Result<(), ProcedureFault> {
    unique(
        "stage",
        procedure.stages.iter().map(|stage| stage.id.as_str()),
    )?;
    unique("step", procedure.steps().map(|step| step.id.as_str()))?;
    unique("fact", procedure.facts.iter().map(|fact| fact.id.as_str()))?;
    if procedure.stages.is_empty() {
        return Err(ProcedureFault::Empty {
            what: "procedure",
            id: procedure.pin.id.clone(),
        });
    }
    for stage in &procedure.stages {
        if stage.steps.is_empty() {
            return Err(ProcedureFault::Empty {
                what: "stage",
                id: stage.id.to_string(),
            });
        }
    }
    Ok(())
}

fn facts(procedure: &Procedure) -> Result<(), ProcedureFault> {
    for fact in &procedure.facts {
        match &fact.kind {
            FactKind::Choose(options) => {
                unique("option", options.iter().map(OptionId::as_str))?;
                if options.is_empty() {
                    return Err(ProcedureFault::Empty {
                        what: "fact",
                        id: fact.id.to_string(),
                    });
                }
            }
            FactKind::Reading(reading) => band(fact.id.as_str(), reading)?,
            FactKind::Count(count) => count_band(fact.id.as_str(), count)?,
            FactKind::Axles | FactKind::Text => {}
        }
    }
    Ok(())
}

/// Every finding can be mended, and what it holds is there.
fn findings(procedure: &Procedure) -> Result<(), ProcedureFault> {
    unique(
        "finding",
        procedure.findings.iter().map(|finding| finding.id.as_str()),
    )?;
    for finding in &procedure.findings {
        let from = finding.id.to_string();
        not_empty(&from, finding.fixes.iter().map(OptionId::as_str))?;
        if let Some(id) = &finding.holds
            && procedure.step(id).is_none()
        {
            return Err(ProcedureFault::UnknownStep {
                from: StepId::from(finding.id.as_str()),
                id: id.clone(),
            });
        }
    }
    Ok(())
}

/// The steps between which something is kept or told are there.
fn named_steps(procedure: &Procedure) -> Result<(), ProcedureFault> {
    let kept = procedure.came_back.iter();
    let kept = kept.flat_map(|kept| [(&kept.id, &kept.from), (&kept.id, &kept.until)]);
    let told = procedure.physical.iter();
    let told = told.flat_map(|told| told.after.iter().map(|(step, _)| (&told.id, step)));
    let named = kept
        .chain(told)
        .map(|(from, id)| (StepId::from(from.as_str()), id));
    let again = procedure
        .steps()
        .flat_map(|step| step.again.iter().map(|id| (step.id.clone(), id)));
    for (from, id) in named.chain(again) {
        if procedure.step(id).is_none() {
            return Err(ProcedureFault::UnknownStep {
                from,
                id: id.clone(),
            });
        }
    }
    Ok(())
}

fn band(from: &str, reading: &ReadingAsk) -> Result<(), ProcedureFault> {
    let bad = || ProcedureFault::BadBand {
        from: from.to_owned(),
    };
    let unit = reading.units.first().ok_or_else(bad)?.0;
    if reading
        .units
        .iter()
        .any(|other| other.0.dimension() != unit.dimension())
    {
        return Err(bad());
    }
    let [low, high] = &reading.usual;
    Band::new(low, high, unit)
        .map(|_| ())
        .map_err(|_fault| bad())
}

fn count_band(from: &str, count: &CountAsk) -> Result<(), ProcedureFault> {
    let [low, high] = count.usual;
    if low > high {
        return Err(ProcedureFault::BadBand {
            from: from.to_owned(),
        });
    }
    Ok(())
}

fn step(procedure: &Procedure, step: &Step) -> Result<(), ProcedureFault> {
    let from = step.id.to_string();
    unique("ask", step.asks.iter().map(|ask| ask.id.as_str()))?;
    unique("skip", step.skips.iter().map(OptionId::as_str))?;
    if step.asks.is_empty() {
        return Err(ProcedureFault::Empty {
            what: "step",
            id: from,
        });
    }
    when(procedure, &from, &step.when)?;
    for hold in &step.holds {
        when(procedure, &from, &hold.when)?;
    }
    for ask in &step.asks {
        when(procedure, &format!("{from}, ask {}", ask.id), &ask.when)?;
        self::ask(procedure, step, ask)?;
    }
    if step.protects() && (!step.skips.is_empty() || can_ask_nothing(procedure, step)) {
        return Err(ProcedureFault::CanBeAvoided {
            step: step.id.clone(),
        });
    }
    Ok(())
}

fn when(procedure: &Procedure, from: &str, when: &When) -> Result<(), ProcedureFault> {
    for (id, values) in when {
        let unknown = || ProcedureFault::UnknownFact {
            from: from.to_owned(),
            id: id.clone(),
        };
        let fact = procedure.fact(id).ok_or_else(unknown)?;
        let FactKind::Choose(options) = &fact.kind else {
            return Err(unknown());
        };
        if values.is_empty() {
            return Err(ProcedureFault::Empty {
                what: "condition",
                id: from.to_owned(),
            });
        }
        if let Some(value) = values.iter().find(|value| !options.contains(value)) {
            return Err(ProcedureFault::UnknownOption {
                from: from.to_owned(),
                fact: id.clone(),
                id: value.clone(),
            });
        }
    }
    Ok(())
}

fn ask(procedure: &Procedure, step: &Step, ask: &Ask) -> Result<(), ProcedureFault> {
    let from = format!("{}, ask {}", step.id, ask.id);
    if let Some(rule) = &ask.rule
        && !crate::judge::RULES.contains(&rule.as_str())
    {
        return Err(ProcedureFault::UnknownRule {
            from: step.id.clone(),
            id: rule.clone(),
        });
    }
    match &ask.kind {
        AskKind::Lines(lines) => not_empty(&from, lines.iter().map(OptionId::as_str)),
        AskKind::Choose(offers) => self::offers(procedure, step, ask, &from, offers),
        AskKind::Press(press) => {
            if let Some(until) = &press.until
                && procedure.order(until) < procedure.order(&step.id)
            {
                // An unknown step has no order and comes before every other.
                return Err(ProcedureFault::UnknownStep {
                    from: step.id.clone(),
                    id: until.clone(),
                });
            }
            self::offers(procedure, step, ask, &from, &press.answers)
        }
        AskKind::Pass(pass) => self::offers(procedure, step, ask, &from, &pass.marks),
        AskKind::Reading(reading) => band(&from, reading),
        AskKind::Exceptions(exceptions) => {
            not_empty(&from, exceptions.marks.iter().map(OptionId::as_str))?;
            match &exceptions.of {
                Items::Studs => Ok(()),
                Items::Named(named) => not_empty(&from, named.iter().map(OptionId::as_str)),
            }
        }
        AskKind::Fact(id) => {
            if procedure.fact(id).is_none() {
                return Err(ProcedureFault::UnknownFact {
                    from,
                    id: id.clone(),
                });
            }
            // A fact can't decide whether it is asked.
            if ask.when.contains_key(id) || step.when.contains_key(id) {
                return Err(ProcedureFault::Cycle {
                    steps: vec![step.id.clone()],
                });
            }
            Ok(())
        }
        AskKind::Count(count) => count_band(&from, count),
        AskKind::Wheels | AskKind::Stands | AskKind::Wrench | AskKind::Look | AskKind::Settled => {
            Ok(())
        }
    }
}

fn not_empty<'a>(
    from: &str,
    ids: impl Iterator<Item = &'a str> + Clone,
) -> Result<(), ProcedureFault> {
    if ids.clone().next().is_none() {
        return Err(ProcedureFault::Empty {
            what: "ask",
            id: from.to_owned(),
        });
    }
    unique("option", ids)
}

fn offers(
    procedure: &Procedure,
    step: &Step,
    ask: &Ask,
    from: &str,
    offers: &[Offer],
) -> Result<(), ProcedureFault> {
    not_empty(from, offers.iter().map(|offer| offer.id.as_str()))?;
    for offer in offers {
        when(procedure, from, &offer.when)?;
        if let Some(id) = &offer.finding
            && procedure.finding(id).is_none()
        {
            return Err(ProcedureFault::UnknownFinding {
                from: from.to_owned(),
                id: id.to_string(),
            });
        }
    }
    if step.protects() && !ask.optional {
        honest(procedure, step, ask, offers)?;
    }
    Ok(())
}

/// True if some set of facts leaves nothing that must be answered.
fn can_ask_nothing(procedure: &Procedure, step: &Step) -> bool {
    let required = || step.asks.iter().filter(|ask| !ask.optional);
    let named: BTreeSet<&FactId> = required().flat_map(|ask| ask.when.keys()).collect();
    combinations(procedure, &named)
        .iter()
        .any(|facts| may_fit(facts, &step.when) && !required().any(|ask| may_fit(facts, &ask.when)))
}

/// For every set of facts that the answers depend on, one of them must clear the ask.
fn honest(
    procedure: &Procedure,
    step: &Step,
    ask: &Ask,
    offers: &[Offer],
) -> Result<(), ProcedureFault> {
    let named: BTreeSet<&FactId> = offers.iter().flat_map(|offer| offer.when.keys()).collect();
    for facts in combinations(procedure, &named) {
        // Facts under which the ask never comes up can't make it dishonest.
        if !may_fit(&facts, &step.when) || !may_fit(&facts, &ask.when) {
            continue;
        }
        // An answer counts only if the facts say so for certain.
        let fits = |when: &When| {
            when.iter().all(|(fact, values)| {
                let value = facts.get(fact).and_then(Option::as_ref);
                value.is_some_and(|value| values.contains(value))
            })
        };
        if !offers.iter().any(|offer| offer.clears && fits(&offer.when)) {
            let facts: Vec<String> = facts
                .iter()
                .map(|(fact, value)| {
                    let value = value.as_ref().map_or("not known", OptionId::as_str);
                    format!("{fact} is {value}")
                })
                .collect();
            return Err(ProcedureFault::NoHonestAnswer {
                step: step.id.clone(),
                ask: ask.id.to_string(),
                facts: if facts.is_empty() {
                    "nothing else is known".to_owned()
                } else {
                    facts.join(", ")
                },
            });
        }
    }
    Ok(())
}

/// A value for each of some facts; none for one that is said not to be known.
type Chosen = BTreeMap<FactId, Option<OptionId>>;

fn combinations(procedure: &Procedure, facts: &BTreeSet<&FactId>) -> Vec<Chosen> {
    let mut all = vec![Chosen::new()];
    for fact in facts.iter().filter_map(|id| procedure.fact(id)) {
        let FactKind::Choose(options) = &fact.kind else {
            continue;
        };
        let known = options.iter().cloned().map(Some);
        let values: Vec<Option<OptionId>> =
            known.chain(fact.may_be_unknown.then_some(None)).collect();
        all = all
            .iter()
            .flat_map(|chosen| {
                values.iter().map(move |value| {
                    let mut chosen = chosen.clone();
                    chosen.insert(fact.id.clone(), value.clone());
                    chosen
                })
            })
            .collect();
    }
    all
}

/// True if nothing of `when` speaks against these facts.
fn may_fit(facts: &Chosen, when: &When) -> bool {
    when.iter().all(|(fact, values)| {
        let value = facts.get(fact).and_then(Option::as_ref);
        value.is_none_or(|value| values.contains(value))
    })
}

pub(super) fn spell_out(procedure: &Procedure) -> Result<Vec<ResolvedHold>, ProcedureFault> {
    let mut holds = Vec::new();
    for step in procedure.steps() {
        for hold in &step.holds {
            let targets: Vec<&Step> = match &hold.on {
                HoldTarget::Step(id) => {
                    let unknown = || ProcedureFault::UnknownStep {
                        from: step.id.clone(),
                        id: id.clone(),
                    };
                    vec![procedure.step(id).ok_or_else(unknown)?]
                }
                HoldTarget::Stage(id) => {
                    let stage = procedure.stages.iter().find(|stage| stage.id == *id);
                    let unknown = || ProcedureFault::UnknownStage {
                        from: step.id.clone(),
                        id: id.to_string(),
                    };
                    stage.ok_or_else(unknown)?.steps.iter().collect()
                }
                HoldTarget::Rest => procedure
                    .steps()
                    .skip_while(|other| other.id != step.id)
                    .skip(1)
                    .collect(),
            };
            for target in targets {
                if never_both(&step.when, &hold.when, &target.when) {
                    // A hold on a whole stage or the rest passes over branches of another kind of vehicle.
                    if let HoldTarget::Step(_) = hold.on {
                        return Err(ProcedureFault::HoldsOutOfScope {
                            from: step.id.clone(),
                            on: target.id.clone(),
                        });
                    }
                    continue;
                }
                holds.push(ResolvedHold {
                    first: step.id.clone(),
                    then: target.id.clone(),
                    protects: hold.protects,
                    when: hold.when.clone(),
                });
            }
        }
    }
    Ok(holds)
}

fn never_both(a: &When, b: &When, c: &When) -> bool {
    let apart = |one: &When, other: &When| {
        one.iter().any(|(fact, values)| {
            other
                .get(fact)
                .is_some_and(|others| !values.iter().any(|value| others.contains(value)))
        })
    };
    apart(a, c) || apart(b, c) || apart(a, b)
}

fn no_cycles(procedure: &Procedure, holds: &[ResolvedHold]) -> Result<(), ProcedureFault> {
    // Take away steps that nothing left holds; what remains waits for itself.
    let mut left: BTreeSet<&StepId> = procedure.steps().map(|step| &step.id).collect();
    loop {
        let free: Vec<&StepId> = left
            .iter()
            .filter(|step| {
                !holds
                    .iter()
                    .any(|hold| hold.then == ***step && left.contains(&hold.first))
            })
            .copied()
            .collect();
        if free.is_empty() {
            break;
        }
        for step in free {
            left.remove(step);
        }
    }
    // Steps behind a cycle are left too; they hold nothing that is left.
    loop {
        let idle: Vec<&StepId> = left
            .iter()
            .filter(|step| {
                !holds
                    .iter()
                    .any(|hold| hold.first == ***step && left.contains(&hold.then))
            })
            .copied()
            .collect();
        if idle.is_empty() {
            break;
        }
        for step in idle {
            left.remove(step);
        }
    }
    if left.is_empty() {
        return Ok(());
    }
    Err(ProcedureFault::Cycle {
        steps: left.into_iter().cloned().collect(),
    })
}

#[cfg(test)]
mod tests;
