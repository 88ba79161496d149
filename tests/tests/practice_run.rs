//! A made-up axle walked with the real procedure: who says what is there gets no blame, and who lets a
//! leaking seal go is told that first.

#![expect(clippy::unwrap_used, reason = "what a test leans on may fail it")]

use std::sync::LazyLock;

use chrono::{DateTime, TimeDelta, Utc};
use job::act::{self, Draft};
use job::card::{AskState, Card, fold};
use job::event::{Answer, Item, LineState, Role};
use job::hold::may_take;
use job::id::{PersonId, Place, TabletId};
use job::judge::Units;
use job::line::Stamp;
use job::procedure::{Ask, AskKind, Step};
use job::procedures::Procedures;
use job::trail::Trail;
use practice::decision::Item as Thing;
use practice::fault::Fault;
use practice::marking::{Marking, Moment, Outcome, mark_run};
use practice::run::Run;
use practice::run::good::Good;
use practice::scene::Say;
use practice::seed::{Level, Seed};

const SHIPPED: &str = include_str!("../../assets/procedure/s-cam-reline.json");
/// How many axles are walked from end to end.
const MANY: u32 = 3;
const UNITS: Units = Units::INCH_POUND;
/// The made-up person who stands beside an apprentice.
const BESIDE: &str = "kim";

static PROCEDURES: LazyLock<Procedures> =
    LazyLock::new(|| Procedures::read([], SHIPPED).expect("the shipped procedure is sound"));

/// An apprentice with a practice card.
struct Bay {
    run: Run,
    trail: Trail,
    now: DateTime<Utc>,
    moments: Vec<Moment>,
    /// What is let go although it is seen.
    blind_to: Option<Thing>,
    /// The card as long as nothing was written since: to fold it takes longest.
    folded: std::cell::RefCell<Option<std::rc::Rc<Card>>>,
}

impl Bay {
    fn open(seed: Seed) -> Self {
        let run = Run::of(seed);
        let scenes = run.axle.scenes.iter();
        let moments = scenes.map(|scene| Moment {
            scene: *scene,
            said: None,
        });
        let mut bay = Self {
            moments: moments.collect(),
            trail: Trail::new(job::id::CardId::of_practice("run")),
            now: DateTime::from_timestamp(1_790_000_000, 0).unwrap(),
            blind_to: None,
            folded: None.into(),
            run,
        };
        let drafts = act::open_card(PROCEDURES.newest(), "0.1.0", &bay.run.setup()).unwrap();
        bay.keep("ann", drafts);
        bay.keep(
            "ann",
            vec![
                act::sign_on(&"ann".into(), "Ann", Role::Apprentice),
                act::sign_on(&BESIDE.into(), "Made up", Role::Foreman),
            ],
        );
        bay.keep(
            "fay",
            vec![act::sign_on(&"fay".into(), "Fay", Role::Foreman)],
        );
        let given = bay.run.facts_given(&bay.card(), &"ann".into());
        bay.keep("ann", given);
        bay
    }

    fn card(&self) -> std::rc::Rc<Card> {
        let mut folded = self.folded.borrow_mut();
        let card = folded.get_or_insert_with(|| fold(&self.trail, &PROCEDURES).into());
        card.clone()
    }

    fn stamp(&self) -> Stamp {
        Stamp {
            utc: self.now,
            offset_minutes: 0,
        }
    }

    fn keep(&mut self, who: &str, drafts: Vec<Draft>) {
        self.now += TimeDelta::seconds(20);
        let tablet = TabletId::from("t-1");
        for line in self.trail.write(&tablet, &who.into(), self.stamp(), drafts) {
            self.trail.take_in(line);
        }
        self.folded = None.into();
    }

    /// Says what is right whenever a moment comes up.
    fn moment(&mut self, card: &Card, step: &Step, at: Place) {
        for moment in &mut self.moments {
            let first = card
                .procedure
                .as_deref()
                .unwrap()
                .step(&moment.scene.waits.first.into());
            let done = first.is_some_and(|first| {
                let mut places = card.places(first.scope, at).into_iter();
                places.all(|place| card.is_done(first, place))
            });
            if moment.said.is_none() && moment.scene.comes_up(step.id.as_str(), done) {
                moment.said = Some(moment.scene.right());
            }
        }
    }

    /// Walks to the end, or to where no more can be done.
    fn walk(&mut self) -> Result<(), String> {
        for _ in 0..600 {
            let card = self.card();
            if self.settle_a_line(&card) {
                continue;
            }
            let next = card.next_open();
            // After the hand back only the road check is left, on another day.
            let Some((at, step)) = next.filter(|(_, step)| step.id.as_str() != "road-check") else {
                return Ok(());
            };
            self.moment(&card, step, at);
            if step.id.as_str() == "drum" && self.both_drums(step)? {
                continue;
            }
            self.measure_what_may_be_left(&card, step, at)?;
            let card = self.card();
            let Some((place, ask)) = open_ask(&card, step, at) else {
                return Err(format!("{} at {at}: {:?}", step.id, card.state(step, at)));
            };
            self.answer(&card, step, ask, place)?;
        }
        Err("no end of it".to_owned())
    }

    /// Every finding is agreed to and its work is done.
    fn settle_a_line(&mut self, card: &Card) -> bool {
        let open = |state: LineState| state != LineState::Done;
        let Some(line) = card.extra_lines().iter().find(|line| open(line.state)) else {
            return false;
        };
        let state = if line.state == LineState::SaidYes {
            LineState::Done
        } else {
            LineState::SaidYes
        };
        let done = state == LineState::Done;
        // An apprentice doesn't say alone that work is done.
        let who = if done { BESIDE } else { "ann" };
        let draft = act::tell(card, &who.into(), &line.line, state).unwrap();
        let puts_alike = line.finding.as_str() == Fault::UnlikeEnds.finding() && done;
        let renews_drums = line.fix.as_str() == "renew-drums" && state == LineState::Done;
        let axle = Place::Axle(self.run.axle_number());
        self.keep(who, vec![draft]);
        if renews_drums {
            let value = job::event::FactValue::Choice("renewed".into());
            let card = self.card();
            let draft = act::set_fact(&card, &"ann".into(), axle, &"drum-new".into(), value);
            self.keep("ann", vec![draft.unwrap()]);
        }
        if puts_alike {
            let [left, right] = Place::ends(self.run.axle_number());
            for fact in ["chamber-type", "stroke-class", "arm-length"] {
                let card = self.card();
                let Some(value) = card.fact(left, &fact.into()).cloned() else {
                    continue;
                };
                let draft = act::set_fact(&card, &"ann".into(), right, &fact.into(), value);
                self.keep("ann", vec![draft.unwrap()]);
            }
        }
        true
    }

    /// Both drums are measured and looked at before either goes: true if something was.
    fn both_drums(&mut self, step: &Step) -> Result<bool, String> {
        let mut did = false;
        for at in Place::ends(self.run.axle_number()) {
            for ask in step.asks.iter().filter(|ask| !ask.optional) {
                for place in self.card().ask_places(step, ask, at) {
                    let card = self.card();
                    if card.ask_state(step, ask, place) == AskState::Open {
                        self.answer(&card, step, ask, place)?;
                        did = true;
                    }
                }
            }
        }
        Ok(did)
    }

    /// A good apprentice also measures what may be left out, once, and puts on the card what is found.
    fn measure_what_may_be_left(
        &mut self,
        card: &Card,
        step: &Step,
        at: Place,
    ) -> Result<(), String> {
        for ask in step.asks.iter().filter(|ask| ask.optional) {
            for place in card.ask_places(step, ask, at) {
                let card = self.card();
                let open = card.ask_state(step, ask, place) == AskState::Open;
                let hidden = self
                    .run
                    .sights(&card, step, ask, place)
                    .iter()
                    .any(|sight| {
                        use practice::run::sight::Sight;
                        matches!(sight, Sight::Instrument { .. } | Sight::Signs { .. })
                    });
                if open && hidden && !matches!(ask.kind, AskKind::Fact(_)) {
                    self.answer(&card, step, ask, place)?;
                }
            }
        }
        Ok(())
    }

    fn answer(&mut self, card: &Card, step: &Step, ask: &Ask, at: Place) -> Result<(), String> {
        let told = format!("{} {} at {at}", step.id, ask.id);
        let who: PersonId = match &ask.kind {
            AskKind::Look => "fay".into(),
            AskKind::Press(press) if press.each_person => {
                let open = |who: &&PersonId| {
                    let slot = card.slot(step, ask, at, Item::Person((*who).clone()));
                    slot.is_none_or(|slot| slot.live().is_empty())
                };
                card.working()
                    .find(open)
                    .cloned()
                    .unwrap_or_else(|| "ann".into())
            }
            _ => "ann".into(),
        };
        let good = self.run.good(card, step, ask, at);
        let good = good.ok_or_else(|| format!("{told}: nothing to say"))?;
        let answer = match good {
            Good::Fact(value) => {
                let AskKind::Fact(fact) = &ask.kind else {
                    return Err(format!("{told}: no fact is asked"));
                };
                let draft = act::set_fact(card, &who, at, fact, value);
                let draft = draft.map_err(|refusal| format!("{told}: {refusal:?}"))?;
                self.keep(who.as_str(), vec![draft]);
                return Ok(());
            }
            Good::Answer(answer) => answer,
        };
        let answer = self.with_closed_eyes(step, ask, answer);
        let item = match &ask.kind {
            AskKind::Press(press) if press.each_person => Item::Person(who.clone()),
            AskKind::Pass(pass) if pass.one_by_one => {
                let clear = |n: &u16| {
                    card.slot(step, ask, at, Item::Nut(*n))
                        .and_then(|slot| slot.only())
                        .is_some_and(|given| card.clears(step, ask, at, given))
                };
                let nuts = 1..=card.studs(at).unwrap_or(0);
                Item::Nut(nuts.into_iter().find(|n| !clear(n)).unwrap_or(1))
            }
            _ => Item::Only,
        };
        let proof = may_take(card, &who, at, &step.id, &ask.id, item, self.stamp())
            .map_err(|hold| format!("{told}: {hold:?}"))?;
        let proof = proof.beside((who.as_str() == "ann").then(|| BESIDE.into()));
        let drafts = act::take_with_line(card, proof, answer, &UNITS)
            .map_err(|refusal| format!("{told}: {refusal:?}"))?;
        self.keep(who.as_str(), drafts);
        self.put_on_the_card(step, ask, at);
        let card = self.card();
        if card.needs_foreman(step, at) && card.waits_for_foreman(step, at) {
            let pass = act::pass(&card, &"fay".into(), at, &step.id, &step.id, "as it is");
            if let Ok(draft) = pass {
                self.keep("fay", vec![draft]);
            }
        }
        Ok(())
    }

    /// What is found bad and no answer brings up by itself.
    fn put_on_the_card(&mut self, step: &Step, ask: &Ask, at: Place) {
        let side = match at {
            Place::End(_, side) => Some(side),
            Place::Axle(_) | Place::Vehicle => None,
        };
        // Once both chambers and arms have been read.
        if step.id.as_str() == "chamber" && at == Place::ends(self.run.axle_number())[1] {
            let axle = Place::Axle(self.run.axle_number());
            if self.run.ends_differ() {
                self.find(axle, Fault::UnlikeEnds);
            }
        }
        let decisions = self.run.decisions().to_vec();
        for decision in decisions.iter().filter(|one| one.side == side) {
            let shown = self
                .run
                .is_judged_at(decision.item, step.id.as_str(), ask.id.as_str());
            if !shown || Some(decision.item) == self.blind_to {
                continue;
            }
            for fault in &decision.faults {
                self.find(at, *fault);
            }
        }
    }

    /// Puts a finding on the card, once.
    fn find(&mut self, at: Place, fault: Fault) {
        let card = self.card();
        let mut lines = card.extra_lines().iter();
        if lines.any(|line| line.at == at && line.finding.as_str() == fault.finding()) {
            return;
        }
        let finding = card.finding(&fault.finding().into()).unwrap();
        let fix = finding.fixes.first().unwrap();
        let found = act::find(&card, &"ann".into(), at, &finding.id, fix, "");
        self.keep("ann", vec![found.unwrap()]);
    }

    fn with_closed_eyes(&self, step: &Step, ask: &Ask, answer: Answer) -> Answer {
        let blind = self.blind_to.is_some_and(|thing| {
            self.run
                .is_judged_at(thing, step.id.as_str(), ask.id.as_str())
        });
        match (&ask.kind, blind) {
            (AskKind::Choose(offers), true) => Answer::Choice {
                option: offers.first().unwrap().id.clone(),
            },
            _ => answer,
        }
    }

    fn marking(&self) -> Marking {
        let said = self.run.heard(&self.card(), false);
        mark_run(&self.run, &said, self.moments.clone())
    }
}

/// The first ask of a step that wants an answer.
fn open_ask<'a>(card: &Card, step: &'a Step, at: Place) -> Option<(Place, &'a Ask)> {
    for ask in step.asks.iter().filter(|ask| !ask.optional) {
        for place in card.ask_places(step, ask, at) {
            let state = card.ask_state(step, ask, place);
            if !matches!(state, AskState::Clear | AskState::NotAsked) {
                return Some((place, ask));
            }
        }
    }
    None
}

fn blame(marking: &Marking) -> Vec<String> {
    let marks = marking.marks.iter().filter(|mark| !mark.is_right());
    let mut blame: Vec<String> = marks
        .map(|mark| {
            let decision = &mark.decision;
            let said = mark.said.as_ref().map(|said| (said.verdict, &said.reading));
            format!(
                "{:?} {:?}: {:?}, said {said:?}, ruled {:?}, read {:?}, shown {:?}",
                decision.side,
                decision.item,
                mark.outcome,
                decision.ruling.verdict(),
                mark.read,
                decision.shown
            )
        })
        .collect();
    let moments = marking.moments.iter();
    let wrong = moments.filter(|moment| moment.said != Some(moment.scene.right()));
    blame.extend(wrong.map(|moment| format!("{moment:?}")));
    blame
}

#[test]
fn who_says_what_is_there_gets_no_blame() {
    let mut bad = Vec::new();
    for number in 0..MANY {
        let seed = Seed::new(Level::ALL[number as usize % 3], number);
        let mut bay = Bay::open(seed);
        let walked = bay.walk();
        let marking = bay.marking();
        if walked != Ok(()) || !marking.is_without_blame() || !marking.is_well_done() {
            let planted = bay.run.axle.planted();
            bad.push(format!(
                "{seed} {planted:?}: {walked:?} {:#?}",
                blame(&marking)
            ));
        }
    }
    assert!(bad.is_empty(), "{}", bad.join("\n"));
}

#[test]
fn a_planted_seal_leak_that_is_missed_is_marked_first() {
    let leaks = |seed: &Seed| {
        let axle = practice::axle::Axle::of(*seed);
        axle.planted()
            .iter()
            .any(|(_, fault)| *fault == Fault::WheelSeal)
    };
    let seeds = (0..).map(|number| Seed::new(Level::Usual, number));
    for seed in seeds.filter(leaks).take(1) {
        let mut bay = Bay::open(seed);
        bay.blind_to = Some(Thing::Seal);
        assert_eq!(bay.walk(), Ok(()), "{seed}");
        let marking = bay.marking();
        let first = &marking.marks[0];
        assert_eq!(
            (first.decision.item, first.outcome),
            (Thing::Seal, Outcome::MissedAndHurts),
            "{seed} {:?}",
            blame(&marking)
        );
        assert!(!marking.is_well_done());
    }
}

#[test]
fn a_step_that_is_waved_through_too_early_ends_well_done() {
    let early = |seed: &Seed| {
        let axle = practice::axle::Axle::of(*seed);
        axle.scenes.iter().any(|scene| !scene.done)
    };
    let seed = (0..)
        .map(|number| Seed::new(Level::Plain, number))
        .find(early)
        .unwrap();
    let mut bay = Bay::open(seed);
    assert!(!bay.marking().moments.iter().any(Moment::too_early));
    for moment in &mut bay.moments {
        moment.said = Some(Say::GoOn);
    }
    let marking = bay.marking();
    assert!(!marking.is_well_done());
    assert!(marking.moments[0].too_early());
}
