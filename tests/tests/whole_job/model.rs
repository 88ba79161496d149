//! A second reading of the `!` holds, straight from the procedure and the lines: slow, plain,
//! and written without the job's fold and holds.
//!
//! It knows one tablet: of two answers the later counts.

use std::collections::{BTreeMap, BTreeSet};

use chrono::{DateTime, TimeDelta, Utc};
use job::event::{Answer, Event, FactValue, Item, LineState, Role, StandUsed};
use job::id::{OptionId, Place};
use job::line::{Line, LineRef};
use job::procedure::{
    Ask, AskKind, Eye, HoldTarget, KeptWhere, Offer, Procedure, Scope, Step, When,
};

/// The protecting step that `line` passed over, given the lines before it.
pub(crate) fn passed(procedure: &Procedure, before: &[Line], line: &Line) -> Option<String> {
    let (at, id) = line.event()?.step()?;
    let seen = Seen::of(procedure, before);
    let steps: Vec<&Step> = procedure.steps().collect();
    let target = steps.iter().position(|step| step.id == *id)?;
    let works = !matches!(line.event(), Some(Event::HoldPassed { .. }));
    if works && seen.is_gap(procedure, line.at.utc) {
        return Some("a look after the gap".to_owned());
    }
    if works && let Some(part) = seen.hidden(procedure, id.as_str(), at) {
        return Some(part);
    }
    for (place_in_order, first) in steps.iter().enumerate() {
        // A hold that was passed is that one only; nothing was done with it yet.
        if matches!(line.event(), Some(Event::HoldPassed { first: named, .. }) if *named != first.id)
        {
            continue;
        }
        for hold in first.holds.iter().filter(|hold| hold.protects) {
            let held = match &hold.on {
                HoldTarget::Step(step) => step == id,
                HoldTarget::Stage(stage) => procedure
                    .stages
                    .iter()
                    .any(|one| one.id == *stage && one.steps.iter().any(|step| step.id == *id)),
                HoldTarget::Rest => target > place_in_order,
            };
            if !held || !seen.may_be(procedure, &hold.when, at) {
                continue;
            }
            for place in seen.places(first.scope, at) {
                if !seen.is_done(procedure, first, place) {
                    return Some(format!("{} at {place}", first.id));
                }
            }
        }
    }
    None
}

type Key = (Place, String, String, Item);

/// What the lines say, those that were taken back left out.
#[derive(Default)]
struct Seen {
    facts: BTreeMap<(Place, String), FactValue>,
    answers: BTreeMap<Key, Said>,
    roles: BTreeMap<String, Role>,
    on: BTreeSet<String>,
    /// Which line each person signed on with, and each step was begun with.
    signed_at: BTreeMap<String, usize>,
    begun_at: BTreeMap<String, usize>,
    worked: BTreeSet<String>,
    begun: BTreeSet<u8>,
    reasons: BTreeSet<(Place, String)>,
    extras: BTreeMap<LineRef, Extra>,
    last_work: Option<DateTime<Utc>>,
}

struct Said {
    answer: Answer,
    grown: bool,
    tick: u64,
}

/// An extra line, and when its work was last said to be done.
struct Extra {
    at: Place,
    finding: String,
    state: LineState,
    done: u64,
}

impl Seen {
    fn of(procedure: &Procedure, lines: &[Line]) -> Self {
        let struck: BTreeSet<&LineRef> = lines
            .iter()
            .filter_map(|line| match line.event() {
                Some(Event::Struck { line, .. }) => Some(line),
                _ => None,
            })
            .collect();
        let mut seen = Self::default();
        for (now, line) in lines.iter().enumerate() {
            let work = matches!(
                line.event(),
                Some(Event::Answered { .. } | Event::StepSkipped { .. })
            );
            if work && !seen.is_gap(procedure, line.at.utc) {
                seen.last_work = Some(line.at.utc);
            }
            if struck.contains(&line.reference()) {
                continue;
            }
            let who = line.who.to_string();
            match line.event() {
                Some(Event::SignedOn { person, role, .. }) => {
                    seen.roles.insert(person.to_string(), *role);
                    if seen.on.insert(person.to_string()) {
                        seen.signed_at.insert(person.to_string(), now);
                    }
                }
                Some(Event::SignedOff { person, .. }) => {
                    seen.on.remove(person.as_str());
                }
                Some(Event::FactSet { at, fact, value }) => {
                    let key = (*at, fact.to_string());
                    // A weight is that of one state of load.
                    if fact.as_str() == "loaded"
                        && seen.facts.get(&key).is_some_and(|was| was != value)
                    {
                        seen.facts.remove(&(*at, "unit-weight".to_owned()));
                    }
                    seen.facts.insert(key, value.clone());
                }
                Some(Event::Answered {
                    at,
                    step,
                    ask,
                    item,
                    answer,
                    beside,
                    ..
                }) => {
                    let may_alone = |id: &str| {
                        seen.roles
                            .get(id)
                            .is_some_and(|role| *role != Role::Apprentice)
                    };
                    let grown = may_alone(&who)
                        || beside
                            .as_ref()
                            .is_some_and(|beside| may_alone(beside.as_str()));
                    seen.begun_at.entry(step.to_string()).or_insert(now);
                    if let Answer::Look { again, .. } = answer {
                        let sent_back = |id: &str| again.iter().any(|step| step.as_str() == id);
                        seen.answers
                            .retain(|(place, step, ..), _| place != at || !sent_back(step));
                        seen.reasons
                            .retain(|(place, step)| place != at || !sent_back(step));
                    }
                    let key = (*at, step.to_string(), ask.to_string(), item.clone());
                    let said = Said {
                        answer: answer.clone(),
                        grown,
                        tick: line.tick,
                    };
                    seen.answers.insert(key, said);
                    if !matches!(answer, Answer::Look { .. }) {
                        seen.worked.insert(who);
                    }
                    if let Some(axle) = at.axle() {
                        seen.begun.insert(axle);
                    }
                    seen.reasons.remove(&(*at, step.to_string()));
                }
                Some(Event::HoldPassed {
                    at, step, first, ..
                }) if step == first => {
                    seen.reasons.insert((*at, step.to_string()));
                }
                Some(Event::LineFound { at, finding, .. }) => {
                    let extra = Extra {
                        at: *at,
                        finding: finding.to_string(),
                        state: LineState::NotAsked,
                        done: 0,
                    };
                    seen.extras.insert(line.reference(), extra);
                }
                Some(Event::LineTold {
                    line: of, state, ..
                }) => {
                    if let Some(extra) = seen.extras.get_mut(of) {
                        extra.state = *state;
                        if *state == LineState::Done {
                            extra.done = line.tick;
                        }
                    }
                }
                Some(Event::CameBack { but, .. }) => {
                    seen.last_work = Some(line.at.utc);
                    for kept in procedure
                        .came_back
                        .iter()
                        .filter(|kept| but.contains(&kept.id))
                    {
                        if seen.is_kept(procedure, kept) {
                            let from = kept.from.as_str();
                            seen.answers.retain(|(_, step, ..), _| step != from);
                        }
                    }
                }
                _ => {}
            }
        }
        seen
    }

    fn axles(&self) -> BTreeSet<u8> {
        let mut axles = self.begun.clone();
        if let Some(FactValue::Axles(listed)) =
            self.facts.get(&(Place::Vehicle, "in-hand".to_owned()))
        {
            axles.extend(listed);
        }
        axles
    }

    /// Where a step of this scope has to be done before something at `at`.
    fn places(&self, scope: Scope, at: Place) -> Vec<Place> {
        let axles: Vec<u8> = at
            .axle()
            .map_or_else(|| self.axles().into_iter().collect(), |axle| vec![axle]);
        match scope {
            Scope::Vehicle => vec![Place::Vehicle],
            Scope::Axle => axles.into_iter().map(Place::Axle).collect(),
            // The layout of the crew is 1-2-1.
            Scope::Group => {
                let firsts: BTreeSet<u8> = axles
                    .into_iter()
                    .map(|axle| if axle == 3 { 2 } else { axle })
                    .collect();
                firsts.into_iter().map(Place::Axle).collect()
            }
            Scope::End if matches!(at, Place::End(..)) => vec![at],
            Scope::End => axles.into_iter().flat_map(Place::ends).collect(),
        }
    }

    fn values(&self, procedure: &Procedure, fact: &str, at: Place) -> Vec<Option<&FactValue>> {
        let scope = scope_of(procedure, fact);
        let places = self.places(scope, at);
        places
            .into_iter()
            .map(|place| self.facts.get(&(place, fact.to_owned())))
            .collect()
    }

    fn may_be(&self, procedure: &Procedure, when: &When, at: Place) -> bool {
        when.iter().all(|(fact, options)| {
            self.values(procedure, fact.as_str(), at)
                .iter()
                .any(|value| value.is_none_or(|value| listed(options, value)))
        })
    }

    fn must_be(&self, procedure: &Procedure, when: &When, at: Place) -> bool {
        when.iter().all(|(fact, options)| {
            self.values(procedure, fact.as_str(), at)
                .iter()
                .all(|value| value.is_some_and(|value| listed(options, value)))
        })
    }

    fn is_done(&self, procedure: &Procedure, step: &Step, at: Place) -> bool {
        if !self.may_be(procedure, &step.when, at) {
            return true;
        }
        step.asks.iter().filter(|ask| !ask.optional).all(|ask| {
            let scope = match &ask.kind {
                AskKind::Fact(fact) => scope_of(procedure, fact.as_str()),
                _ => ask.scope.unwrap_or(step.scope),
            };
            self.places(scope, at).into_iter().all(|place| {
                !self.may_be(procedure, &ask.when, place)
                    || self.is_answered(procedure, step, ask, place)
            })
        })
    }

    fn is_answered(&self, procedure: &Procedure, step: &Step, ask: &Ask, at: Place) -> bool {
        let given = |item: Item| {
            let key = (at, step.id.to_string(), ask.id.to_string(), item);
            self.answers
                .get(&key)
                .is_some_and(|said| said.grown && self.does(procedure, step, ask, at, said))
        };
        match &ask.kind {
            AskKind::Fact(fact) => self.facts.contains_key(&(at, fact.to_string())),
            AskKind::Press(press) if press.each_person => {
                // Whoever signed on after the step that closes it is not waited for.
                let closed = press
                    .until
                    .as_ref()
                    .and_then(|until| self.begun_at.get(until.as_str()));
                let waited: Vec<&String> = self
                    .on
                    .iter()
                    .filter(|who| closed.is_none_or(|closed| self.signed_at[*who] < *closed))
                    .filter(|who| self.roles[*who] != Role::Foreman || self.worked.contains(*who))
                    .collect();
                (closed.is_some() || !waited.is_empty())
                    && waited
                        .iter()
                        .all(|who| given(Item::Person(who.as_str().into())))
            }
            AskKind::Pass(pass) => {
                let axle = Place::Axle(at.axle().unwrap_or(0));
                let studs = match self.facts.get(&(axle, "studs".to_owned())) {
                    Some(FactValue::Count(count)) => *count,
                    _ => 0,
                };
                let one_by_one = studs > 0 && (1..=studs).all(|n| given(Item::Nut(n)));
                let whole = (at, step.id.to_string(), ask.id.to_string(), Item::Only);
                if !pass.one_by_one && self.answers.contains_key(&whole) {
                    given(Item::Only)
                } else {
                    one_by_one
                }
            }
            _ => given(Item::Only),
        }
    }

    fn does(&self, procedure: &Procedure, step: &Step, ask: &Ask, at: Place, said: &Said) -> bool {
        let offered = |offers: &[Offer], id: &OptionId| {
            offers.iter().any(|offer| {
                offer.id == *id && offer.clears && self.must_be(procedure, &offer.when, at)
            })
        };
        match (&ask.kind, &said.answer) {
            (AskKind::Choose(offers), Answer::Choice { option }) => {
                offered(offers, option) || self.is_mended(offers, option, at, said.tick)
            }
            (AskKind::Press(press), Answer::Press { option }) => offered(&press.answers, option),
            (AskKind::Pass(pass), Answer::Nut { mark }) => offered(&pass.marks, mark),
            (AskKind::Lines(_), Answer::Lines { out }) => out.is_empty(),
            (AskKind::Pass(_), Answer::WholePass { but }) => but.is_empty(),
            (AskKind::Look, Answer::Look { accepted, .. }) => *accepted,
            (AskKind::Stands, Answer::Stands { stands }) => self.carries(step, at, stands),
            (AskKind::Wheels, Answer::Wheels { at }) => self.stay_down(at),
            _ => true,
        }
    }

    /// Found bad, and every line of that is done, one of them after it was found.
    fn is_mended(&self, offers: &[Offer], option: &OptionId, at: Place, tick: u64) -> bool {
        let bad = offers.iter().find(|offer| offer.id == *option);
        let bad = bad.filter(|offer| offer.part == Some(Eye::Replace));
        let Some(finding) = bad.and_then(|offer| offer.finding.as_ref()) else {
            return false;
        };
        let of_it: Vec<&Extra> = self
            .extras
            .values()
            .filter(|extra| extra.at == at && extra.finding == finding.as_str())
            .collect();
        of_it.iter().all(|extra| extra.state == LineState::Done)
            && of_it.iter().any(|extra| extra.done > tick)
    }

    /// A part whose line nobody passes, that this step would hide before its work is done.
    fn hidden(&self, procedure: &Procedure, step: &str, at: Place) -> Option<String> {
        let near = |there: Place| {
            there == at
                || there.axle().is_none()
                || at.axle().is_none()
                || there.axle() == at.axle() && (is_axle(there) || is_axle(at))
        };
        let hides = |extra: &&Extra| {
            extra.state != LineState::Done
                && near(extra.at)
                && procedure.findings.iter().any(|finding| {
                    finding.id.as_str() == extra.finding
                        && finding.protects
                        && finding
                            .holds
                            .as_ref()
                            .is_some_and(|held| held.as_str() == step)
                })
        };
        let extra = self.extras.values().find(hides)?;
        Some(format!("{} at {}", extra.finding, extra.at))
    }

    /// More than four hours after the last work, with something that keeps the vehicle there.
    fn is_gap(&self, procedure: &Procedure, now: DateTime<Utc>) -> bool {
        let long = |last: DateTime<Utc>| (now - last).abs() > TimeDelta::hours(4);
        self.last_work.is_some_and(long)
            && procedure
                .came_back
                .iter()
                .any(|kept| self.is_kept(procedure, kept))
    }

    fn is_kept(&self, procedure: &Procedure, kept: &KeptWhere) -> bool {
        let (Some(from), Some(until)) = (procedure.step(&kept.from), procedure.step(&kept.until))
        else {
            return false;
        };
        let done = |step: &Step, at: Place| {
            self.may_be(procedure, &step.when, at) && self.is_done(procedure, step, at)
        };
        self.places(from.scope, Place::Vehicle)
            .into_iter()
            .any(|at| {
                let mut ends = self.places(until.scope, at).into_iter();
                done(from, at) && !ends.all(|at| done(until, at))
            })
    }

    /// Two like stands, tagged per stand in short tons: over what they have to carry, and over a
    /// third of the unit or with a reason.
    fn carries(&self, step: &Step, at: Place, stands: &[StandUsed]) -> bool {
        let rating_lb = match stands.first().and_then(|stand| stand.tag.rating.as_ref()) {
            Some(rating) => match rating.text.as_str() {
                "5" => 10_000,
                "8 1/2" => 17_000,
                "9" => 18_000,
                "12" => 24_000,
                "25" => 50_000,
                other => panic!("the crew has no stand of {other}"),
            },
            None => return false,
        };
        let axle = at.axle().unwrap_or(0);
        let group: Vec<u8> = if axle == 2 || axle == 3 {
            vec![2, 3]
        } else {
            vec![axle]
        };
        let springs = self.facts.get(&(Place::Vehicle, "suspension".to_owned()));
        let apart = springs == Some(&FactValue::Choice("own-springs".into()));
        let (fact, of) = if apart {
            ("axle-weight", axle)
        } else {
            ("group-weight", group[0])
        };
        let Some(load_lb) = self.pounds(Place::Axle(of), fact) else {
            return false; // The crew always knows its weights before it picks stands.
        };
        // 23 t are 50 706.3 lb.
        let over_a_third = rating_lb * 3 > 50_706;
        let reason = self.reasons.contains(&(at, step.id.to_string()));
        rating_lb * 2 > load_lb && (over_a_third || reason)
    }

    fn pounds(&self, at: Place, fact: &str) -> Option<i64> {
        let typed = self.facts.get(&(at, fact.to_owned()))?.typed()?;
        assert_eq!(typed.unit, "lb");
        typed.text.parse().ok()
    }

    fn stay_down(&self, wheels: &[Place]) -> bool {
        let in_hand = self.axles();
        let coupled = self.facts.get(&(Place::Vehicle, "coupled".to_owned()));
        !wheels.is_empty()
            && wheels.iter().all(|wheel| match wheel.axle() {
                Some(axle) => !in_hand.contains(&axle),
                None => coupled == Some(&FactValue::Choice("coupled".into())),
            })
    }
}

fn is_axle(place: Place) -> bool {
    matches!(place, Place::Axle(_))
}

fn listed(options: &[OptionId], value: &FactValue) -> bool {
    value.choice().is_none_or(|option| options.contains(option))
}

fn scope_of(procedure: &Procedure, fact: &str) -> Scope {
    procedure
        .fact(&fact.into())
        .map_or(Scope::Vehicle, |def| def.scope)
}
