//! The record: everything that the print sheet of one card says, as data and without words.
//!
//! Nothing is left out: every line of the trail is in some part of it, struck ones too, and what
//! no part takes stands in [`Record::rest`]. It judges nothing anew: a verdict is the one that
//! was shown then. It never says that a vehicle is safe.

use std::collections::{BTreeMap, BTreeSet};

use crate::card::{Card, Entry, Given, Opened, ShopTaken, SlotKey, StepState};
use crate::event::{Answer, Event, Exception, FactValue, Heads, Item, Role};
use crate::extra::ExtraLine;
use crate::hand_back::{InTheWay, hand_back};
use crate::id::{CardId, FactId, OptionId, PersonId, Place, StageId, StepId};
use crate::line::LineRef;
use crate::procedure::{Ask, AskKind, Eye, Items, Offer, Procedure, Scope, Stage, Step};
use crate::slot::Held;

/// The two rounds of readings that stand side by side.
const AS_FOUND: &str = "as-found";
const AS_LEFT: &str = "as-left";

/// What the road-check tag says of this vehicle.
const ROAD_DISTANCE: &str = "road-distance";
const ROAD_BY: &str = "road-by";
const ROAD_SHOP: &str = "road-shop";
const ROAD_DATE: &str = "road-date";
const FINAL_TORQUE: &str = "final-torque";
const ODOMETER: &str = "odometer";

/// What is known of the work on one vehicle, in the order of the sheet.
#[derive(Clone, Debug)]
pub struct Record<'a> {
    pub head: Head<'a>,
    /// What still stands between this vehicle and the road, the worst first.
    pub open: Vec<InTheWay>,
    pub people: Vec<Person<'a>>,
    pub facts: Vec<Fact<'a>>,
    /// The two rounds of readings, vehicle first, then wheel end by wheel end.
    pub sides: Vec<Compared<'a>>,
    /// All work: vehicle, axles, wheel ends, each by stage.
    pub work: Vec<WorkAt<'a>>,
    pub nuts: Vec<Nuts<'a>>,
    pub found: Found<'a>,
    /// Every second look, in order.
    pub looks: Vec<&'a Entry>,
    /// What was said more than once, each with all that was said.
    pub again: Vec<Again<'a>>,
    pub skipped: Vec<&'a Entry>,
    /// Holds passed and foreman's reasons.
    pub passed: Vec<&'a Entry>,
    /// Done though something held it.
    pub though: Vec<&'a Entry>,
    pub struck: Vec<Struck<'a>>,
    /// Lines that are in no other part: those of a newer app, above all.
    pub rest: Vec<&'a Entry>,
    pub strands: Strands<'a>,
    pub tag: RoadTag<'a>,
}

/// Which card this is.
#[derive(Clone, Debug)]
pub struct Head<'a> {
    pub card: &'a CardId,
    pub unit: &'a str,
    pub plate: Option<&'a str>,
    pub vehicle: Option<&'a OptionId>,
    pub layout: Option<&'a str>,
    pub in_hand: Vec<u8>,
    pub loaded: Option<&'a OptionId>,
    pub opened: Option<&'a Opened>,
    /// The line that opened it.
    pub opening: Option<&'a LineRef>,
    /// The shop's own values that the card goes by.
    pub shop: Option<&'a ShopTaken>,
    /// Version of the app that opened the card.
    pub app: Option<&'a str>,
    /// The procedure that the card follows now.
    pub procedure: Option<&'a Procedure>,
    /// Lines that moved the card to another edition.
    pub moved: Vec<&'a Entry>,
    pub done: usize,
    pub of: usize,
}

/// One person on the card.
#[derive(Clone, Debug)]
pub struct Person<'a> {
    pub id: &'a PersonId,
    pub name: &'a str,
    /// None for somebody who wrote without signing on.
    pub role: Option<Role>,
    pub times: Vec<OnCard<'a>>,
    /// Wheel ends taken up.
    pub took: Vec<&'a Entry>,
}

/// One stay on the card, by its lines.
#[derive(Clone, Debug)]
pub struct OnCard<'a> {
    pub on: Option<&'a Entry>,
    pub off: Option<&'a Entry>,
}

/// A fact of the set-up sheet that stands. Two entries had not seen each other.
#[derive(Clone, Debug)]
pub struct Fact<'a> {
    pub at: Place,
    pub fact: &'a FactId,
    pub given: Vec<(&'a FactValue, &'a Entry)>,
}

/// One answer that stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Said<'a> {
    pub key: &'a SlotKey,
    pub given: &'a Given,
    pub line: &'a LineRef,
}

/// The steps of one place, by stage.
#[derive(Clone, Debug)]
pub struct WorkAt<'a> {
    pub at: Place,
    pub stages: Vec<StageAt<'a>>,
}

/// What was done of one stage at one place.
#[derive(Clone, Debug)]
pub struct StageAt<'a> {
    /// None for answers to steps that the procedure of now does not have.
    pub stage: Option<&'a StageId>,
    pub steps: Vec<StepAt<'a>>,
}

/// One step at one place, with its answers in the order in which it asks.
#[derive(Clone, Debug)]
pub struct StepAt<'a> {
    pub step: &'a StepId,
    pub state: Option<StepState>,
    pub said: Vec<Said<'a>>,
}

/// The readings of one place as found and as left.
#[derive(Clone, Debug)]
pub struct Compared<'a> {
    pub at: Place,
    pub rows: Vec<ComparedRow<'a>>,
}

/// One ask of the two rounds.
#[derive(Clone, Debug)]
pub struct ComparedRow<'a> {
    /// The step whose words the ask has.
    pub step: &'a StepId,
    pub ask: &'a Ask,
    pub found: Vec<Said<'a>>,
    pub left: Vec<Said<'a>>,
}

/// The nuts of one wheel end through the steps that go over them.
#[derive(Clone, Debug)]
pub struct Nuts<'a> {
    pub at: Place,
    pub passes: Vec<NutPass<'a>>,
    pub nuts: Vec<Nut<'a>>,
}

/// One going-over of the nuts.
#[derive(Clone, Debug, PartialEq)]
pub struct NutPass<'a> {
    pub step: &'a StepId,
    pub ask: &'a Ask,
}

/// One nut: what was said of it in each pass.
#[derive(Clone, Debug)]
pub struct Nut<'a> {
    pub number: u16,
    /// As many as there are passes.
    pub said: Vec<Vec<NutSaid<'a>>>,
}

/// What one answer says of one nut.
#[derive(Clone, Debug, PartialEq)]
pub struct NutSaid<'a> {
    /// None if the nut was in order.
    pub mark: Option<&'a OptionId>,
    /// Said of this nut alone, not of the wheel end as a whole.
    pub alone: bool,
}

/// What was found on the way.
#[derive(Clone, Debug)]
pub struct Found<'a> {
    /// Every extra line that was not taken back, with all that was said and noted of it.
    pub lines: &'a [ExtraLine],
    /// Answers that name a thing out of order, also those that another overtook later.
    pub entries: Vec<&'a Entry>,
}

/// A slot that was set more than once: all of it in order.
#[derive(Clone, Debug)]
pub struct Again<'a> {
    pub what: What<'a>,
    pub entries: Vec<&'a Entry>,
    /// Lines among them that stand.
    pub stand: Vec<&'a LineRef>,
}

/// What an [`Again`] is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum What<'a> {
    Fact(Place, &'a FactId),
    Answer(&'a SlotKey),
}

/// A line that was taken back, and the line that did it.
#[derive(Clone, Debug)]
pub struct Struck<'a> {
    pub entry: &'a Entry,
    /// None if the strike is not among the lines here.
    pub by: Option<&'a Entry>,
}

/// The ends of the strands.
#[derive(Clone, Debug)]
pub struct Strands<'a> {
    pub heads: &'a Heads,
    pub lines: usize,
    /// Lines that say what their writer had taken in.
    pub joined: Vec<&'a Entry>,
    pub whole: bool,
}

/// The tag that tells the driver when the nuts want a wrench again.
#[derive(Clone, Debug)]
pub struct RoadTag<'a> {
    /// What had been driven, once the check was made.
    pub distance: Option<&'a FactValue>,
    /// Whether it was made here or told of, and then by whom and of which day.
    pub by: Option<&'a FactValue>,
    pub shop: Option<&'a FactValue>,
    pub date: Option<&'a FactValue>,
    /// The torque to check with, axle by axle.
    pub torque: Vec<(u8, Option<&'a FactValue>)>,
    /// The odometer when the vehicle was handed back, as it was read.
    pub odometer: Vec<Said<'a>>,
}

/// Everything that the sheet of this card says.
pub fn record(card: &Card) -> Record<'_> {
    let book = Book::new(card);
    let mut record = Record {
        head: book.head(),
        open: hand_back(card),
        people: book.people(),
        facts: book.facts(),
        sides: book.sides(),
        work: book.work(),
        nuts: book.nuts(),
        found: book.found(),
        looks: book.all(|event| {
            matches!(
                event,
                Event::Answered {
                    answer: Answer::Look { .. },
                    ..
                }
            )
        }),
        again: book.again(),
        skipped: book.standing(|event| matches!(event, Event::StepSkipped { .. })),
        passed: book.standing(|event| matches!(event, Event::HoldPassed { .. })),
        though: card
            .entries
            .iter()
            .filter(|entry| entry.though.is_some())
            .collect(),
        struck: book.struck(),
        rest: Vec::new(),
        strands: Strands {
            heads: &card.heads,
            lines: card.entries.len(),
            joined: book.all(|event| matches!(event, Event::Joined { .. })),
            whole: card.faults.is_empty() && card.newer.is_empty(),
        },
        tag: book.tag(),
    };
    let told = record.lines();
    record.rest = card
        .entries
        .iter()
        .filter(|entry| !told.contains(&entry.line))
        .collect();
    record
}

impl<'a> Record<'a> {
    /// Every line that some part of the record tells.
    pub fn lines(&self) -> BTreeSet<&'a LineRef> {
        let mut told: BTreeSet<&'a LineRef> = BTreeSet::new();
        let people = self.people.iter().flat_map(|person| {
            let times = person.times.iter().flat_map(|time| [time.on, time.off]);
            times.flatten().chain(person.took.iter().copied())
        });
        let facts = self.facts.iter().flat_map(|fact| fact.given.iter());
        let again = self.again.iter().flat_map(|again| again.entries.iter());
        let struck = self
            .struck
            .iter()
            .flat_map(|struck| [Some(struck.entry), struck.by]);
        let entries = people
            .chain(facts.map(|(_, entry)| *entry))
            .chain(again.copied())
            .chain(struck.flatten())
            .chain(self.head.moved.iter().copied())
            .chain(self.found.entries.iter().copied())
            .chain(self.looks.iter().copied())
            .chain(self.skipped.iter().copied())
            .chain(self.passed.iter().copied())
            .chain(self.though.iter().copied())
            .chain(self.rest.iter().copied())
            .chain(self.strands.joined.iter().copied());
        told.extend(entries.map(|entry| &entry.line));
        let steps = self
            .work
            .iter()
            .flat_map(|work| &work.stages)
            .flat_map(|stage| &stage.steps);
        told.extend(steps.flat_map(|step| step.said.iter().map(|said| said.line)));
        told.extend(self.head.opening);
        told.extend(self.found.lines.iter().flat_map(|extra| {
            let said = extra.told.iter().map(|told| &told.line);
            let noted = extra.notes.iter().map(|noted| &noted.line);
            let passed = extra.passed.iter().map(|passed| &passed.line);
            std::iter::once(&extra.line)
                .chain(said)
                .chain(noted)
                .chain(passed)
        }));
        told
    }
}

/// A card with its entries by line.
struct Book<'a> {
    card: &'a Card,
    by_line: BTreeMap<&'a LineRef, &'a Entry>,
}

impl<'a> Book<'a> {
    fn new(card: &'a Card) -> Self {
        let by_line = card.entries.iter().map(|entry| (&entry.line, entry));
        Self {
            card,
            by_line: by_line.collect(),
        }
    }

    fn all(&self, wanted: impl Fn(&Event) -> bool) -> Vec<&'a Entry> {
        let wanted = |entry: &&Entry| entry.event().is_some_and(&wanted);
        self.card.entries.iter().filter(wanted).collect()
    }

    fn standing(&self, wanted: impl Fn(&Event) -> bool) -> Vec<&'a Entry> {
        let mut all = self.all(wanted);
        all.retain(|entry| entry.struck.is_none());
        all
    }

    fn fact(&self, at: Place, fact: &str) -> Option<&'a FactValue> {
        self.card.fact(at, &FactId::from(fact))
    }

    fn head(&self) -> Head<'a> {
        let card = self.card;
        let first = card.entries.iter().find_map(|entry| match entry.event() {
            Some(Event::CardOpened { app, .. }) => Some((entry, app.as_str())),
            _ => None,
        });
        let (done, of) = card.progress();
        let text = |fact: &str| self.fact(Place::Vehicle, fact).and_then(FactValue::text);
        Head {
            card: &card.id,
            unit: text("unit").unwrap_or_default(),
            plate: text("plate"),
            vehicle: card.choice(Place::Vehicle, "vehicle"),
            layout: text("layout"),
            in_hand: card.axles_in_hand(),
            loaded: card.choice(Place::Vehicle, "loaded"),
            opened: card.opened.as_ref(),
            opening: first.map(|(entry, _)| &entry.line),
            shop: card.shop(),
            app: first.map(|(_, app)| app),
            procedure: card.procedure.as_deref(),
            moved: self.all(|event| matches!(event, Event::ProcedureMoved { .. })),
            done,
            of,
        }
    }

    fn people(&self) -> Vec<Person<'a>> {
        let mut people: Vec<Person<'a>> = Vec::new();
        for entry in &self.card.entries {
            let who = match entry.event() {
                Some(Event::SignedOn { person, .. } | Event::SignedOff { person, .. }) => person,
                _ => &entry.who,
            };
            let at = people.iter().position(|person| person.id == who);
            let at = at.unwrap_or(people.len());
            if at == people.len() {
                people.push(Person {
                    id: who,
                    name: self.card.name(who),
                    role: self.card.role(who),
                    times: Vec::new(),
                    took: Vec::new(),
                });
            }
            let Some(person) = people.get_mut(at) else {
                continue;
            };
            match entry.event() {
                Some(Event::SignedOn { .. }) => person.times.push(OnCard {
                    on: Some(entry),
                    off: None,
                }),
                // A sign-off that is not its writer's to make has no effect, and is told as that.
                Some(Event::SignedOff { .. }) if entry.though.is_none() => {
                    match person.times.last_mut() {
                        Some(time) if time.off.is_none() => time.off = Some(entry),
                        _ => person.times.push(OnCard {
                            on: None,
                            off: Some(entry),
                        }),
                    }
                }
                Some(Event::EndTaken { .. }) if entry.struck.is_none() => person.took.push(entry),
                _ => {}
            }
        }
        people
    }

    fn facts(&self) -> Vec<Fact<'a>> {
        let mut facts: Vec<Fact<'a>> = Vec::new();
        for ((at, fact), slot) in &self.card.facts {
            let given = |held: &'a Held<FactValue>| Some((&held.value, self.entry(&held.line)?));
            let given: Vec<_> = slot.live().iter().filter_map(given).collect();
            if !given.is_empty() {
                facts.push(Fact {
                    at: *at,
                    fact,
                    given,
                });
            }
        }
        // In the order of the set-up sheet, place by place.
        let order = |fact: &FactId| {
            let defs = self.card.procedure.as_deref().map(|known| &known.facts);
            defs.and_then(|defs| defs.iter().position(|def| def.id == *fact))
                .unwrap_or(usize::MAX)
        };
        facts.sort_by_key(|fact| (fact.at, order(fact.fact)));
        facts
    }

    fn entry(&self, line: &LineRef) -> Option<&'a Entry> {
        self.by_line.get(line).copied()
    }

    /// What stands of one ask at one place, item by item.
    fn said(&self, at: Place, step: &StepId, ask: &Ask) -> Vec<Said<'a>> {
        self.said_where(|key| key.at == at && key.step == *step && key.ask == ask.id)
    }

    fn said_where(&self, wanted: impl Fn(&SlotKey) -> bool) -> Vec<Said<'a>> {
        let slots = self.card.answers.iter().filter(|(key, _)| wanted(key));
        slots
            .flat_map(|(key, slot)| {
                slot.live().iter().map(move |held| Said {
                    key,
                    given: &held.value,
                    line: &held.line,
                })
            })
            .collect()
    }

    fn sides(&self) -> Vec<Compared<'a>> {
        let Some(procedure) = self.card.procedure.as_deref() else {
            return Vec::new();
        };
        let rounds = [AS_FOUND, AS_LEFT].map(|id| procedure.step(&StepId::from(id)));
        let mut asks: Vec<(&'a StepId, &'a Ask)> = Vec::new();
        for step in rounds.into_iter().flatten() {
            for ask in &step.asks {
                if !asks.iter().any(|(_, known)| known.id == ask.id) {
                    asks.push((&step.id, ask));
                }
            }
        }
        let ends = self.card.places(Scope::End, Place::Vehicle);
        let places = std::iter::once(Place::Vehicle).chain(ends);
        let compared = places.map(|at| {
            let round = |round: Option<&'a Step>, ask: &Ask| {
                round.map_or(Vec::new(), |step| self.said(at, &step.id, ask))
            };
            let rows = asks.iter().map(|(step, ask)| ComparedRow {
                step,
                ask,
                found: round(rounds[0], ask),
                left: round(rounds[1], ask),
            });
            Compared {
                at,
                rows: rows
                    .filter(|row| !row.found.is_empty() || !row.left.is_empty())
                    .collect(),
            }
        });
        compared.filter(|at| !at.rows.is_empty()).collect()
    }

    fn work(&self) -> Vec<WorkAt<'a>> {
        let stages = self.card.procedure.iter().flat_map(|known| &known.stages);
        let mut places: BTreeSet<Place> = self.card.answers.keys().map(|key| key.at).collect();
        places.extend(self.card.path().into_iter().map(|(at, _)| at));
        let stages: Vec<&'a Stage> = stages.collect();
        let of_place = |at: Place| {
            let of_stage = |stage: &&'a Stage| StageAt {
                stage: Some(&stage.id),
                steps: stage
                    .steps
                    .iter()
                    .filter_map(|step| self.step_at(step, at))
                    .collect(),
            };
            let mut of_stages: Vec<StageAt<'a>> = stages.iter().map(of_stage).collect();
            of_stages.push(StageAt {
                stage: None,
                steps: self.unknown_steps(at),
            });
            of_stages.retain(|stage| !stage.steps.is_empty());
            WorkAt {
                at,
                stages: of_stages,
            }
        };
        let work = places.into_iter().map(of_place);
        work.filter(|work| !work.stages.is_empty()).collect()
    }

    /// A step where it is walked, or where it asks something finer than that.
    fn step_at(&self, step: &'a Step, at: Place) -> Option<StepAt<'a>> {
        let mut said: Vec<Said<'a>> = Vec::new();
        for ask in &step.asks {
            said.extend(self.said(at, &step.id, ask));
        }
        // Answers to asks that the procedure of now does not have.
        let known = |key: &SlotKey| step.asks.iter().any(|ask| ask.id == key.ask);
        said.extend(self.said_where(|key| key.at == at && key.step == step.id && !known(key)));
        let walked = self.card.places(step.scope, Place::Vehicle).contains(&at);
        let state = walked.then(|| self.card.state(step, at));
        let on_path = state.is_some_and(|state| state != StepState::NotOnPath);
        (on_path || !said.is_empty()).then_some(StepAt {
            step: &step.id,
            state,
            said,
        })
    }

    fn unknown_steps(&self, at: Place) -> Vec<StepAt<'a>> {
        let known = |step: &StepId| {
            let procedure = self.card.procedure.as_deref();
            procedure.is_some_and(|procedure| procedure.step(step).is_some())
        };
        let mut steps: Vec<StepAt<'a>> = Vec::new();
        for said in self.said_where(|key| key.at == at && !known(&key.step)) {
            match steps.last_mut().filter(|last| *last.step == said.key.step) {
                Some(last) => last.said.push(said),
                None => steps.push(StepAt {
                    step: &said.key.step,
                    state: None,
                    said: vec![said],
                }),
            }
        }
        steps
    }

    fn nuts(&self) -> Vec<Nuts<'a>> {
        let Some(procedure) = self.card.procedure.as_deref() else {
            return Vec::new();
        };
        let over_nuts = |ask: &Ask| match &ask.kind {
            AskKind::Pass(_) => true,
            AskKind::Exceptions(exceptions) => exceptions.of == Items::Studs,
            AskKind::Lines(_)
            | AskKind::Choose(_)
            | AskKind::Press(_)
            | AskKind::Reading(_)
            | AskKind::Count(_)
            | AskKind::Wheels
            | AskKind::Stands
            | AskKind::Wrench
            | AskKind::Fact(_)
            | AskKind::Look
            | AskKind::Settled => false,
        };
        let passes: Vec<NutPass<'a>> = procedure
            .steps()
            .flat_map(|step| step.asks.iter().map(|ask| (&step.id, ask)))
            .filter(|(_, ask)| over_nuts(ask))
            .map(|(step, ask)| NutPass { step, ask })
            .collect();
        let ends = self.card.places(Scope::End, Place::Vehicle);
        let of_end = |at: Place| {
            let made: Vec<(NutPass<'a>, Vec<Said<'a>>)> = passes
                .iter()
                .map(|pass| (pass.clone(), self.said(at, pass.step, pass.ask)))
                .filter(|(_, said)| !said.is_empty())
                .collect();
            let nut = |number: u16| Nut {
                number,
                said: made
                    .iter()
                    .map(|(_, said)| {
                        said.iter()
                            .filter_map(|said| of_nut(said, number))
                            .collect()
                    })
                    .collect(),
            };
            // A nut that somebody logged is told even if fewer studs are counted now.
            let highest = made
                .iter()
                .flat_map(|(_, said)| said)
                .filter_map(|said| {
                    if let Item::Nut(nut) = said.key.item {
                        Some(nut)
                    } else {
                        None
                    }
                })
                .max();
            let count = self.card.studs(at).max(highest).unwrap_or(0);
            Nuts {
                at,
                nuts: (1..=count).map(nut).collect(),
                passes: made.into_iter().map(|(pass, _)| pass).collect(),
            }
        };
        let nuts = ends.into_iter().map(of_end);
        nuts.filter(|end| !end.passes.is_empty()).collect()
    }

    fn found(&self) -> Found<'a> {
        let procedure = self.card.procedure.as_deref();
        let offered = |offers: &[Offer], option: &OptionId| {
            offers.iter().any(|offer| {
                offer.id == *option && (!offer.clears || offer.part == Some(Eye::Replace))
            })
        };
        let out_of_order = |event: &Event| {
            let Event::Answered {
                step, ask, answer, ..
            } = event
            else {
                return false;
            };
            let ask = procedure.and_then(|procedure| procedure.ask(step, ask));
            match (answer, ask.map(|ask| &ask.kind)) {
                (Answer::Exceptions { but } | Answer::WholePass { but }, _) => !but.is_empty(),
                (Answer::Choice { option }, Some(AskKind::Choose(offers))) => {
                    offered(offers, option)
                }
                (Answer::Nut { mark }, Some(AskKind::Pass(pass))) => offered(&pass.marks, mark),
                _ => false,
            }
        };
        Found {
            lines: self.card.extra_lines(),
            entries: self.standing(out_of_order),
        }
    }

    fn again(&self) -> Vec<Again<'a>> {
        let mut slots: BTreeMap<What<'a>, Vec<&'a Entry>> = BTreeMap::new();
        let mut keys: BTreeMap<SlotKey, Vec<&'a Entry>> = BTreeMap::new();
        for entry in &self.card.entries {
            match entry.event() {
                Some(Event::FactSet { at, fact, .. }) => {
                    slots.entry(What::Fact(*at, fact)).or_default().push(entry);
                }
                Some(Event::Answered {
                    at,
                    step,
                    ask,
                    item,
                    ..
                }) => {
                    let key = SlotKey {
                        at: *at,
                        step: step.clone(),
                        ask: ask.clone(),
                        item: item.clone(),
                    };
                    keys.entry(key).or_default().push(entry);
                }
                _ => {}
            }
        }
        // A slot of which nothing stands was struck as a whole, and is told there.
        let answered = keys.into_iter().filter_map(|(key, entries)| {
            let (key, _) = self.card.answers.get_key_value(&key)?;
            Some((What::Answer(key), entries))
        });
        slots.extend(answered);
        slots
            .into_iter()
            .filter(|(_, entries)| entries.len() > 1)
            .map(|(what, entries)| Again {
                stand: self.stand(what),
                what,
                entries,
            })
            .collect()
    }

    fn stand(&self, what: What<'a>) -> Vec<&'a LineRef> {
        match what {
            What::Fact(at, fact) => self
                .card
                .fact_slot(at, fact)
                .into_iter()
                .flat_map(|slot| slot.live())
                .map(|held| &held.line)
                .collect(),
            What::Answer(key) => self
                .card
                .answers
                .get(key)
                .into_iter()
                .flat_map(|slot| slot.live())
                .map(|held| &held.line)
                .collect(),
        }
    }

    fn struck(&self) -> Vec<Struck<'a>> {
        let struck = self.card.entries.iter().filter_map(|entry| {
            let by = entry.struck.as_ref()?;
            Some(Struck {
                entry,
                by: self.entry(by),
            })
        });
        struck.collect()
    }

    fn tag(&self) -> RoadTag<'a> {
        let torque = |axle| (axle, self.fact(Place::Axle(axle), FINAL_TORQUE));
        RoadTag {
            distance: self.fact(Place::Vehicle, ROAD_DISTANCE),
            by: self.fact(Place::Vehicle, ROAD_BY),
            shop: self.fact(Place::Vehicle, ROAD_SHOP),
            date: self.fact(Place::Vehicle, ROAD_DATE),
            torque: self.card.axles_in_hand().into_iter().map(torque).collect(),
            odometer: self.said_where(|key| key.ask.as_str() == ODOMETER),
        }
    }
}

/// What an answer says of one nut; none if it does not speak of it.
fn of_nut<'a>(said: &Said<'a>, number: u16) -> Option<NutSaid<'a>> {
    let whole = |but: &'a [Exception]| {
        let number = number.to_string();
        NutSaid {
            mark: but
                .iter()
                .find(|one| one.item == number)
                .map(|one| &one.mark),
            alone: false,
        }
    };
    match (&said.key.item, &said.given.answer) {
        (Item::Nut(nut), Answer::Nut { mark }) if *nut == number => Some(NutSaid {
            mark: Some(mark),
            alone: true,
        }),
        (Item::Only, Answer::WholePass { but } | Answer::Exceptions { but }) => Some(whole(but)),
        _ => None,
    }
}

#[cfg(test)]
mod tests;
