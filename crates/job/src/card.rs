//! What the lines of a card add up to, and what can be asked of it.
//!
//! [`fold`] is pure and total: the same lines give the same card everywhere, in whatever order
//! they arrived. It trusts nobody: every line is asked again for what would have held it, and
//! an entry that passed something is marked, never dropped.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use chrono::{DateTime, TimeDelta, Utc};

use crate::event::{
    Answer, BroughtHow, Event, FactValue, FinalPass, Heads, Item, JudgedThen, LineState, Role,
    ShopStep, ShopValues,
};
use crate::extra::{ExtraLine, LinePassed, LineTold, Note};
use crate::hand_back::RECORD;
use crate::hold::{self, Hold};
use crate::id::{AskId, CardId, FactId, OptionId, PersonId, Place, StepId, TabletId};
use crate::judge;
use crate::layout::Layout;
use crate::line::{Line, LineRef, Said, Sha, Stamp};
use crate::procedure::{
    Ask, AskKind, Eye, FactDef, Finding, HoldOn, KeptWhere, Offer, Pin, Press, Procedure, Scope,
    Stage, Step, When,
};
use crate::procedures::Procedures;
use crate::second_look;
use crate::slot::{Held, Slot};
use crate::trail::{Trail, TrailFault};

/// Where each person hangs their own tag and takes it off, and where an axle comes down.
const TAG_ON: &str = "lock-out";
const TAG_OFF: &str = "lock-off";
const LOWER: &str = "lower";

/// The fact that decides which weight of the unit counts, and that weight.
const LOADED: &str = "loaded";
const UNIT_WEIGHT: &str = "unit-weight";

/// The longest break after which work goes on without a look at what keeps the vehicle where it
/// is. Common practice of this app's making: no source gives a figure.
pub const GAP_MAX: TimeDelta = TimeDelta::hours(4);

/// A pass logged nut by nut that rests longer than this begins again. Common practice.
pub const PASS_REST_MAX: TimeDelta = TimeDelta::minutes(30);

/// A card as its trail tells it.
#[derive(Clone, Debug)]
pub struct Card {
    pub id: CardId,
    /// Procedure and rules edition of the first line.
    pub opened: Option<Opened>,
    /// The procedure the card follows, if this app carries it: the pinned one as the shop does it.
    pub procedure: Option<Arc<Procedure>>,
    /// The procedure as it was published.
    pinned: Option<Arc<Procedure>>,
    /// Everybody who signed on, with the name and role they had then.
    pub people: BTreeMap<PersonId, Signed>,
    /// Every line in order, with what became of it.
    pub entries: Vec<Entry>,
    /// Ends of the strands that were folded.
    pub heads: Heads,
    /// The shop's own values, as they were taken. More than one until somebody who saw both takes
    /// them anew.
    pub(crate) shop: Slot<ShopTaken>,
    /// Steps of the shop's own that the card ever took: one that is dropped later stays here.
    pub shop_steps: Vec<ShopStep>,
    /// What is wrong with the trail.
    pub faults: Vec<TrailFault>,
    /// Kinds of line that only a newer app understands.
    pub newer: Vec<String>,
    pub(crate) facts: BTreeMap<(Place, FactId), Slot<FactValue>>,
    pub(crate) answers: BTreeMap<SlotKey, Slot<Given>>,
    pub(crate) skips: BTreeMap<(Place, StepId), Slot<OptionId>>,
    pub(crate) passed: BTreeSet<(Place, StepId, StepId)>,
    taken: BTreeMap<Place, PersonId>,
    /// Where each person has done something other than look.
    worked: BTreeSet<(PersonId, Place)>,
    /// Axles in hand at which something was done. They stay in hand until that is taken back.
    pub(crate) begun: BTreeSet<u8>,
    taken_back: Vec<TakenBack>,
    pub(crate) lines: Vec<ExtraLine>,
    /// Where each person's yes to an extra line was taken back: the extra line, and by what.
    yes_taken_back: Vec<(LineRef, LineRef)>,
    /// The line that last opened a step again, which an answer must have seen to count.
    reopened: BTreeMap<(Place, StepId), LineRef>,
    /// When something was last done on each tablet, by its own clock.
    last_work: BTreeMap<TabletId, DateTime<Utc>>,
    /// The entry with which each person last signed on.
    signed_at: BTreeMap<PersonId, usize>,
    /// The entry with which each step was first begun.
    begun_at: BTreeMap<StepId, usize>,
    /// Taken out of the daily list.
    pub(crate) put_away: bool,
    /// What of the bring list is there, and how it came.
    pub(crate) brought: BTreeMap<OptionId, BroughtHow>,
}

/// The shop's own values as a card took them.
#[derive(Clone, Debug, PartialEq)]
pub struct ShopTaken {
    pub values: ShopValues,
    pub version: Sha,
    pub at: Stamp,
}

/// An answer of a step that was taken back, and by which line.
#[derive(Clone, Debug, PartialEq)]
struct TakenBack {
    at: Place,
    step: StepId,
    by: LineRef,
}

/// How a card was opened.
#[derive(Clone, Debug, PartialEq)]
pub struct Opened {
    pub pin: Pin,
    pub rules: String,
    pub at: Stamp,
}

/// A person on this card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Signed {
    pub name: String,
    pub role: Role,
    /// Still working on this vehicle.
    pub on: bool,
}

/// One answer's place.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct SlotKey {
    pub at: Place,
    pub step: StepId,
    pub ask: AskId,
    pub item: Item,
}

/// An answer, who gave it, and how it was judged then.
#[derive(Clone, Debug, PartialEq)]
pub struct Given {
    pub who: PersonId,
    /// Who stood beside an apprentice at a `!`.
    pub beside: Option<PersonId>,
    pub at: Stamp,
    pub answer: Answer,
    pub judged: Vec<JudgedThen>,
    pub(crate) tick: u64,
}

/// One line of the trail and what became of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    pub line: LineRef,
    pub tick: u64,
    pub at: Stamp,
    pub who: PersonId,
    pub said: Said,
    /// Taken back by this line.
    pub struck: Option<LineRef>,
    /// Done though something held it.
    pub though: Option<Though>,
}

/// What an entry passed over.
#[derive(Clone, Debug, PartialEq)]
pub enum Though {
    /// Something that had to come first had not been done.
    Held(Hold),
    /// What had to come first was taken back later.
    BuiltOnStruck { first: StepId, at: Place },
    /// The line takes back, passes or signs off what was not its writer's to. It has no effect.
    NotTheirs,
}

/// How far a step is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum StepState {
    /// Not on the path of this vehicle.
    NotOnPath,
    Open,
    /// Some of it is answered.
    Begun,
    /// Everything is answered, but an answer does not clear it.
    Unclear,
    Skipped,
    Done,
}

impl Card {
    fn new(id: CardId) -> Self {
        Self {
            id,
            opened: None,
            procedure: None,
            pinned: None,
            people: BTreeMap::new(),
            entries: Vec::new(),
            heads: Heads::new(),
            shop: Slot::default(),
            shop_steps: Vec::new(),
            faults: Vec::new(),
            newer: Vec::new(),
            facts: BTreeMap::new(),
            answers: BTreeMap::new(),
            skips: BTreeMap::new(),
            passed: BTreeSet::new(),
            taken: BTreeMap::new(),
            worked: BTreeSet::new(),
            begun: BTreeSet::new(),
            taken_back: Vec::new(),
            lines: Vec::new(),
            yes_taken_back: Vec::new(),
            reopened: BTreeMap::new(),
            last_work: BTreeMap::new(),
            signed_at: BTreeMap::new(),
            begun_at: BTreeMap::new(),
            put_away: false,
            brought: BTreeMap::new(),
        }
    }
}

/// The card after the lines of `trail`. Never fails: what happened can't be refused.
pub fn fold(trail: &Trail, procedures: &Procedures) -> Card {
    let lines = trail.in_order();
    let mut card = Card::new(trail.card().clone());
    card.heads = trail.heads();
    let (struck, not_theirs) = struck(&lines);
    card.pinned = procedures.newest_of(pins(&lines)).cloned();
    card.procedure = card.pinned.clone();
    let mut seen = Seen::default();
    for line in lines {
        seen.advance(line);
        let reference = line.reference();
        let mut entry = Entry {
            line: reference.clone(),
            tick: line.tick,
            at: line.at,
            who: line.who.clone(),
            said: line.said.clone(),
            struck: struck.get(&reference).cloned(),
            though: not_theirs.contains(&reference).then_some(Though::NotTheirs),
        };
        match &line.said {
            Said::Known(event) => {
                if let Some(by) = &entry.struck {
                    // Somebody was there all the same.
                    if matches!(event, Event::Answered { .. } | Event::StepSkipped { .. }) {
                        card.worked_now(line);
                    }
                    card.take_back(event, by);
                } else {
                    if entry.though.is_none() {
                        entry.though = card.passed_over(event, line, &seen);
                    }
                    if entry.though != Some(Though::NotTheirs) {
                        card.apply(line, event, &seen);
                    }
                }
            }
            Said::MayBeSkipped { .. } => {}
            Said::MustBeUnderstood { kind } => {
                if !card.newer.contains(kind) {
                    card.newer.push(kind.clone());
                }
            }
        }
        card.entries.push(entry);
    }
    // Last, because a line that counts is not held by what is wrong with another.
    card.faults = trail.faults();
    card
}

/// The pins that the card was opened with and moved to. Lines that say so can't be struck.
fn pins<'a>(lines: &[&'a Line]) -> Vec<&'a Pin> {
    let opened = lines.iter().find_map(|line| match line.event() {
        Some(Event::CardOpened { procedure, .. }) => Some(procedure),
        _ => None,
    });
    let moved = lines.iter().filter_map(|line| match line.event() {
        Some(Event::ProcedureMoved { to }) => Some(to),
        _ => None,
    });
    opened.into_iter().chain(moved).collect()
}

/// True if a kind of event can be taken back.
pub fn can_be_struck(event: &Event) -> bool {
    match event {
        Event::FactSet { .. }
        | Event::Answered { .. }
        | Event::StepSkipped { .. }
        | Event::HoldPassed { .. }
        | Event::LineFound { .. }
        | Event::LineTold { .. }
        | Event::LinePassed { .. }
        | Event::LinePhoto { .. }
        | Event::LinePart { .. }
        | Event::LineMinutes { .. }
        | Event::EndTaken { .. } => true,
        Event::CardOpened { .. }
        | Event::ProcedureMoved { .. }
        | Event::SignedOn { .. }
        | Event::SignedOff { .. }
        | Event::Struck { .. }
        | Event::Joined { .. }
        | Event::PersonListed { .. }
        | Event::PersonLeft { .. }
        | Event::StandListed { .. }
        | Event::StandWithdrawn { .. }
        | Event::CameBack { .. }
        | Event::PutAway { .. }
        | Event::Brought { .. } => false,
        Event::WrenchListed { .. }
        | Event::WrenchWithdrawn { .. }
        | Event::JackListed { .. }
        | Event::JackWithdrawn { .. }
        | Event::LimitSet { .. }
        | Event::LimitDropped { .. }
        | Event::ShopStepSet { .. }
        | Event::ShopStepDropped { .. }
        | Event::FinalPassSet { .. }
        | Event::WheelSet { .. }
        | Event::DefaultSet { .. }
        | Event::ShopTaken { .. } => false,
    }
}

/// What was taken back and by which line, and the strikes that don't count.
fn struck(lines: &[&Line]) -> (BTreeMap<LineRef, LineRef>, BTreeSet<LineRef>) {
    let by_reference: BTreeMap<LineRef, &Line> =
        lines.iter().map(|line| (line.reference(), *line)).collect();
    let mut roles: BTreeMap<&PersonId, Role> = BTreeMap::new();
    let mut struck = BTreeMap::new();
    let mut not_theirs = BTreeSet::new();
    let mut told: BTreeSet<&LineRef> = BTreeSet::new();
    for line in lines {
        match line.event() {
            Some(Event::SignedOn { person, role, .. }) => {
                roles.insert(person, *role);
            }
            Some(Event::LineTold { line, .. }) => {
                told.insert(line);
            }
            _ => {}
        }
        let Some(Event::Struck { line: target, .. }) = line.event() else {
            continue;
        };
        let Some(there) = by_reference.get(target) else {
            continue;
        };
        // What the customer was asked about is no longer the finder's alone.
        let own = there.who == line.who && !told.contains(target);
        let theirs = own || roles.get(&line.who) == Some(&Role::Foreman);
        if theirs && there.event().is_some_and(can_be_struck) {
            struck
                .entry(target.clone())
                .or_insert_with(|| line.reference());
        } else {
            not_theirs.insert(line.reference());
        }
    }
    (struck, not_theirs)
}

/// Which lines each writer had seen when a line was written.
#[derive(Default)]
struct Seen {
    known: BTreeMap<TabletId, BTreeMap<TabletId, u32>>,
    now: Option<(TabletId, u32)>,
}

impl Seen {
    fn advance(&mut self, line: &Line) {
        if let Some(Event::Joined { heads }) = line.event() {
            let known = self.known.entry(line.tablet.clone()).or_default();
            for (tablet, head) in heads {
                let n = known.entry(tablet.clone()).or_insert(0);
                *n = (*n).max(head.n);
            }
        }
        self.now = Some((line.tablet.clone(), line.n));
    }

    /// True if the writer of the line at hand had seen `other`.
    fn had_seen(&self, other: &LineRef) -> bool {
        let Some((tablet, n)) = &self.now else {
            return false;
        };
        if other.tablet == *tablet {
            return other.n < *n;
        }
        self.known
            .get(tablet)
            .and_then(|known| known.get(&other.tablet))
            .is_some_and(|&known| other.n <= known)
    }
}

impl Card {
    fn apply(&mut self, line: &Line, event: &Event, seen: &Seen) {
        let reference = line.reference();
        let saw = |other: &LineRef| seen.had_seen(other);
        match event {
            Event::CardOpened {
                procedure, rules, ..
            } => {
                if self.opened.is_none() {
                    self.opened = Some(Opened {
                        pin: procedure.clone(),
                        rules: rules.clone(),
                        at: line.at,
                    });
                }
            }
            Event::SignedOn { person, name, role } => {
                let signed = Signed {
                    name: name.clone(),
                    role: *role,
                    on: true,
                };
                let was_on = self
                    .people
                    .insert(person.clone(), signed)
                    .is_some_and(|before| before.on);
                if !was_on {
                    self.signed_at.insert(person.clone(), self.entries.len());
                }
            }
            Event::SignedOff { person, .. } => {
                if let Some(signed) = self.people.get_mut(person) {
                    signed.on = false;
                }
            }
            Event::FactSet { at, fact, value } => {
                let mut value = value.clone();
                if fact.as_str() == LOADED {
                    // The weight was read for the other state: a tare says nothing of a loaded unit.
                    let before = self.facts.get(&(*at, fact.clone()));
                    if before.is_some_and(|slot| slot.live().iter().any(|held| held.value != value))
                    {
                        self.facts.remove(&(*at, FactId::from(UNIT_WEIGHT)));
                    }
                } else if fact.as_str() == UNIT_WEIGHT {
                    let loaded = self.facts.get(&(*at, FactId::from(LOADED)));
                    // Read for a state that its writer took to be another.
                    if loaded.is_some_and(|slot| slot.live().iter().any(|held| !saw(&held.line))) {
                        value = FactValue::NotKnown;
                    }
                }
                let slot = self.facts.entry((*at, fact.clone())).or_default();
                slot.set(reference, value, saw);
                self.take_reasons_from_fact(*at, fact);
            }
            Event::EndTaken { at } => {
                self.taken.insert(*at, line.who.clone());
            }
            Event::Answered {
                at,
                step,
                ask,
                item,
                answer,
                beside,
                judged,
            } => {
                let key = SlotKey {
                    at: *at,
                    step: step.clone(),
                    ask: ask.clone(),
                    item: item.clone(),
                };
                let given = Given {
                    who: line.who.clone(),
                    beside: beside.clone(),
                    at: line.at,
                    answer: answer.clone(),
                    judged: judged.clone(),
                    tick: line.tick,
                };
                self.begun_at
                    .entry(step.clone())
                    .or_insert(self.entries.len());
                if !matches!(answer, Answer::Look { .. }) {
                    self.worked.insert((line.who.clone(), *at));
                }
                if let Some(axle) = at.axle()
                    && self.axles_in_hand().contains(&axle)
                {
                    self.begun.insert(axle);
                }
                // A foreman's reason is for the answer that was there, not for the next one.
                self.take_reasons_away(*at, step, answer);
                if let Answer::Look { again, .. } = answer
                    && self.role(&line.who) == Some(Role::Foreman)
                {
                    self.reopen(*at, again, &reference);
                }
                self.worked_now(line);
                // What was opened again is not answered by somebody who did not know of it.
                if self.was_reopened(*at, step, saw) {
                    return;
                }
                if let (Answer::Nut { mark }, Item::Nut(_)) = (answer, item) {
                    self.begin_pass_again(&key, mark, line.at.utc);
                }
                if self
                    .answers
                    .get(&key)
                    .is_some_and(|slot| !slot.live().is_empty())
                {
                    self.done_again(*at, step, &reference);
                }
                self.answers
                    .entry(key)
                    .or_default()
                    .set(reference, given, saw);
            }
            Event::StepSkipped { at, step, why } => {
                self.worked_now(line);
                if self.was_reopened(*at, step, saw) {
                    return;
                }
                self.skips
                    .entry((*at, step.clone()))
                    .or_default()
                    .set(reference, why.clone(), saw);
            }
            Event::HoldPassed {
                at, step, first, ..
            } => {
                self.passed.insert((*at, step.clone(), first.clone()));
                if step == first {
                    self.give_reasons(*at, step);
                }
            }
            Event::LineFound {
                at,
                finding,
                fix,
                words,
                with,
            } => self.lines.push(ExtraLine {
                line: reference,
                at: *at,
                finding: finding.clone(),
                fix: fix.clone(),
                words: words.clone(),
                with: with.clone(),
                who: line.who.clone(),
                found: line.at,
                state: LineState::NotAsked,
                told: Vec::new(),
                said: Slot::default(),
                passed: None,
                notes: Vec::new(),
            }),
            Event::LineTold {
                line: of,
                state,
                asked,
            } => {
                if let Some(extra) = self.lines.iter_mut().find(|extra| extra.line == *of) {
                    let told = LineTold {
                        line: reference,
                        state: *state,
                        asked: asked.clone(),
                        who: line.who.clone(),
                        at: line.at,
                        tick: line.tick,
                    };
                    extra.tell(told, saw);
                }
            }
            Event::LinePhoto {
                line: of,
                photo,
                small,
            } => {
                let (photo, small) = (*photo, *small);
                self.note(of, line, Note::Photo { photo, small });
            }
            Event::LinePart {
                line: of,
                part,
                number,
            } => {
                let (part, number) = (part.clone(), number.clone());
                self.note(of, line, Note::Part { part, number });
            }
            Event::LineMinutes { line: of, minutes } => {
                self.note(of, line, Note::Minutes(*minutes));
            }
            Event::LinePassed { line: of, why } => {
                if let Some(extra) = self.lines.iter_mut().find(|extra| extra.line == *of) {
                    extra.passed = Some(LinePassed {
                        line: reference,
                        who: line.who.clone(),
                        why: why.clone(),
                        at: line.at,
                    });
                }
            }
            Event::CameBack { but, .. } => {
                self.last_work.insert(line.tablet.clone(), line.at.utc);
                self.not_as_left(but, &reference);
            }
            Event::PutAway { away } => self.put_away = *away,
            Event::Brought { item, how } => {
                self.brought.insert(item.clone(), *how);
            }
            Event::ProcedureMoved { .. }
            | Event::Struck { .. }
            | Event::Joined { .. }
            | Event::PersonListed { .. }
            | Event::PersonLeft { .. }
            | Event::StandListed { .. }
            | Event::StandWithdrawn { .. }
            | Event::WrenchListed { .. }
            | Event::WrenchWithdrawn { .. }
            | Event::JackListed { .. }
            | Event::JackWithdrawn { .. }
            | Event::LimitSet { .. }
            | Event::LimitDropped { .. }
            | Event::ShopStepSet { .. }
            | Event::ShopStepDropped { .. }
            | Event::FinalPassSet { .. }
            | Event::WheelSet { .. }
            | Event::DefaultSet { .. } => {}
            Event::ShopTaken { values } => {
                let taken = ShopTaken {
                    values: ShopValues::clone(values),
                    version: values.version(),
                    at: line.at,
                };
                self.shop.set(reference, taken, saw);
                self.do_as_shop(&values.steps);
            }
        }
    }

    /// The procedure goes on as the shop does it now.
    fn do_as_shop(&mut self, taken: &[ShopStep]) {
        for step in taken {
            if !self.shop_steps.contains(step) {
                self.shop_steps.push(step.clone());
            }
        }
        let (steps, way) = (&self.shop_steps, self.final_pass());
        self.procedure = self.pinned.clone().map(|pinned| {
            if steps.is_empty() && way.is_usual() {
                pinned
            } else {
                Arc::new(pinned.as_shop_does(steps, way))
            }
        });
    }

    /// Where the final pass is done, and how it is logged. What versions that had not seen each other
    /// don't agree on is done as the procedure has it.
    fn final_pass(&self) -> FinalPass {
        let ways = || self.shop_versions().map(|taken| taken.values.final_pass);
        FinalPass {
            on_stands: ways().all(|way| way.on_stands),
            as_a_whole: ways().all(|way| way.as_a_whole),
        }
    }

    /// A step is done a second time: what follows from it at the same place is to be done again.
    fn done_again(&mut self, at: Place, step: &StepId, by: &LineRef) {
        let again = self
            .procedure
            .as_deref()
            .and_then(|procedure| procedure.step(step))
            .map(|step| step.again.clone())
            .unwrap_or_default();
        if !again.is_empty() {
            self.reopen(at, &again, by);
        }
    }

    /// A nut that is logged may begin its pass again: after too long a rest, and with a mark that
    /// says so. The nuts before it are then to be logged once more.
    fn begin_pass_again(&mut self, key: &SlotKey, mark: &OptionId, now: DateTime<Utc>) {
        let Some(procedure) = self.procedure.clone() else {
            return;
        };
        let Some(AskKind::Pass(pass)) = procedure.ask(&key.step, &key.ask).map(|ask| &ask.kind)
        else {
            return;
        };
        let restarts = pass
            .marks
            .iter()
            .any(|offer| offer.id == *mark && offer.restarts);
        let rested = pass.one_by_one
            && self
                .last_nut(key.at, &key.step, &key.ask)
                .is_some_and(|last| now.signed_duration_since(last) > PASS_REST_MAX);
        if restarts || rested {
            self.answers.retain(|other, _| {
                let of_pass = other.at == key.at && other.step == key.step && other.ask == key.ask;
                !of_pass || other.item == key.item
            });
        }
    }

    /// When a nut of a pass was last logged.
    pub fn last_nut(&self, at: Place, step: &StepId, ask: &AskId) -> Option<DateTime<Utc>> {
        self.answers
            .iter()
            .filter(|(key, _)| key.at == at && key.step == *step && key.ask == *ask)
            .flat_map(|(_, slot)| slot.live())
            .filter(|held| matches!(held.value.answer, Answer::Nut { .. }))
            .map(|held| held.value.at.utc)
            .max()
    }

    /// Remembers when work was last done. Work that went on over a gap without a look does not
    /// close the gap.
    fn worked_now(&mut self, line: &Line) {
        if self.to_look_at(line.at.utc).is_empty() {
            self.last_work.insert(line.tablet.clone(), line.at.utc);
        }
    }

    /// True if a step was opened again by a line that the writer of this one had not seen.
    fn was_reopened(&self, at: Place, step: &StepId, saw: impl Fn(&LineRef) -> bool) -> bool {
        let by = self.reopened.get(&(at, step.clone()));
        by.is_some_and(|by| !saw(by))
    }

    /// A foreman sent a wheel end back: these steps are to be done again there.
    fn reopen(&mut self, at: Place, steps: &[StepId], by: &LineRef) {
        let opened = steps.iter().map(|step| ((at, step.clone()), by.clone()));
        self.reopened.extend(opened);
        self.answers
            .retain(|key, _| key.at != at || !steps.contains(&key.step));
        self.skips
            .retain(|(place, step), _| *place != at || !steps.contains(step));
        self.passed
            .retain(|(place, step, _)| *place != at || !steps.contains(step));
    }

    /// Something that kept the vehicle where it is no longer does: its step is open again, and
    /// what was built on it waits.
    fn not_as_left(&mut self, but: &[OptionId], by: &LineRef) {
        let Some(procedure) = self.procedure.clone() else {
            return;
        };
        for kept in &procedure.came_back {
            if !but.contains(&kept.id) || !self.is_kept(kept) {
                continue;
            }
            let places: BTreeSet<Place> = self
                .answers
                .keys()
                .filter(|key| key.step == kept.from)
                .map(|key| key.at)
                .collect();
            self.answers.retain(|key, _| key.step != kept.from);
            let opened = places
                .iter()
                .map(|at| ((*at, kept.from.clone()), by.clone()));
            self.reopened.extend(opened);
            self.taken_back
                .extend(places.into_iter().map(|at| TakenBack {
                    at,
                    step: kept.from.clone(),
                    by: by.clone(),
                }));
        }
    }

    /// True if something that keeps the vehicle where it is was set and not taken away again.
    fn is_kept(&self, kept: &KeptWhere) -> bool {
        let Some(procedure) = self.procedure.as_deref() else {
            return false;
        };
        let (Some(from), Some(until)) = (procedure.step(&kept.from), procedure.step(&kept.until))
        else {
            return false;
        };
        let done = |step: &Step, at: Place| self.state(step, at) == StepState::Done;
        let places = self.places(from.scope, Place::Vehicle);
        places.into_iter().any(|at| {
            done(from, at)
                && !self
                    .places(until.scope, at)
                    .into_iter()
                    .all(|at| done(until, at))
        })
    }

    /// What has to be looked at before work goes on at `now`: nothing unless the last thing was
    /// done long ago.
    ///
    /// Clocks differ from tablet to tablet: a time as far ahead of `now` says nothing of it either.
    pub fn to_look_at(&self, now: DateTime<Utc>) -> Vec<&OptionId> {
        let near = |last: &DateTime<Utc>| now.signed_duration_since(last).abs() <= GAP_MAX;
        if self.last_work.is_empty() || self.last_work.values().any(near) {
            return Vec::new();
        }
        let kept = self.procedure.iter().flat_map(|known| &known.came_back);
        kept.filter(|kept| self.is_kept(kept))
            .map(|kept| &kept.id)
            .collect()
    }

    /// A foreman's reason for a step is for each answer that now needs one, at its own place.
    fn give_reasons(&mut self, at: Place, step: &StepId) {
        let Some(procedure) = self.procedure.clone() else {
            return;
        };
        let places = procedure
            .step(step)
            .map_or(Vec::new(), |wanted| self.wanting_reason(wanted, at));
        self.passed.extend(
            places
                .into_iter()
                .map(|place| (place, step.clone(), step.clone())),
        );
    }

    /// Takes away the reasons that an answer overtakes: its own, and if it says how a round was
    /// read those of the whole round.
    fn take_reasons_away(&mut self, at: Place, step: &StepId, answer: &Answer) {
        let of_round = at == Place::Vehicle
            && matches!(answer, Answer::Choice { .. } | Answer::Reading { .. });
        self.passed.retain(|(place, then, first)| {
            then != step || first != step || !(*place == at || of_round)
        });
    }

    fn take_reasons_from_fact(&mut self, at: Place, fact: &FactId) {
        let Some(procedure) = self.procedure.clone() else {
            return;
        };
        let asks_it = |step: &Step| {
            let judged = |ask: &Ask| {
                ask.rule.is_some() && matches!(&ask.kind, AskKind::Fact(id) if id == fact)
            };
            step.asks.iter().any(judged)
        };
        self.passed.retain(|(place, then, first)| {
            *place != at || then != first || !procedure.step(then).is_some_and(asks_it)
        });
    }

    /// Remembers that an answer was taken back. A fact answers every step that asks for it.
    fn take_back(&mut self, event: &Event, by: &LineRef) {
        let (at, steps) = match event {
            Event::LineTold {
                line,
                state: LineState::SaidYes,
                ..
            } => {
                self.yes_taken_back.push((line.clone(), by.clone()));
                return;
            }
            Event::Answered { at, step, .. } => (*at, vec![step.clone()]),
            Event::FactSet { at, fact, .. } => {
                let asks_it = |step: &&Step| {
                    let asked = |ask: &Ask| matches!(&ask.kind, AskKind::Fact(id) if id == fact);
                    step.asks.iter().any(asked)
                };
                let steps = self.procedure.iter().flat_map(|known| known.steps());
                let asking = steps.filter(asks_it).map(|step| step.id.clone()).collect();
                (*at, asking)
            }
            Event::CardOpened { .. }
            | Event::ProcedureMoved { .. }
            | Event::SignedOn { .. }
            | Event::SignedOff { .. }
            | Event::EndTaken { .. }
            | Event::StepSkipped { .. }
            | Event::HoldPassed { .. }
            | Event::Struck { .. }
            | Event::Joined { .. }
            | Event::PersonListed { .. }
            | Event::PersonLeft { .. }
            | Event::StandListed { .. }
            | Event::StandWithdrawn { .. }
            | Event::WrenchListed { .. }
            | Event::WrenchWithdrawn { .. }
            | Event::JackListed { .. }
            | Event::JackWithdrawn { .. }
            | Event::LimitSet { .. }
            | Event::LimitDropped { .. }
            | Event::ShopStepSet { .. }
            | Event::ShopStepDropped { .. }
            | Event::FinalPassSet { .. }
            | Event::WheelSet { .. }
            | Event::DefaultSet { .. }
            | Event::ShopTaken { .. }
            | Event::LineFound { .. }
            | Event::LineTold { .. }
            | Event::LinePassed { .. }
            | Event::CameBack { .. }
            | Event::PutAway { .. }
            | Event::Brought { .. }
            | Event::LinePhoto { .. }
            | Event::LinePart { .. }
            | Event::LineMinutes { .. } => return,
        };
        self.taken_back
            .extend(steps.into_iter().map(|step| TakenBack {
                at,
                step,
                by: by.clone(),
            }));
    }

    /// What an event passed over, going by the card as it stood before it.
    fn passed_over(&self, event: &Event, line: &Line, seen: &Seen) -> Option<Though> {
        let who = &line.who;
        let is_foreman = self.role(who) == Some(Role::Foreman);
        match event {
            Event::SignedOff { person, .. } => {
                return (person != who && !is_foreman).then_some(Though::NotTheirs);
            }
            Event::LinePassed { line, .. } => {
                let may = is_foreman
                    && self
                        .extra_line(line)
                        .is_some_and(|line| self.may_pass(line));
                return (!may).then_some(Though::NotTheirs);
            }
            Event::CameBack { beside, .. } => {
                let on = |person: &PersonId| self.people.get(person).is_some_and(|one| one.on);
                let may = on(who)
                    && self.stands_beside(who, beside.as_ref())
                    && beside.as_ref().is_none_or(on);
                return (!may).then_some(Though::NotTheirs);
            }
            Event::LineFound { .. } => {
                return hold::of_person(self, who, Place::Vehicle, event).map(Though::Held);
            }
            Event::LinePhoto { .. } | Event::LinePart { .. } | Event::LineMinutes { .. } => {
                return hold::of_person(self, who, Place::Vehicle, event).map(Though::Held);
            }
            Event::LineTold { line, state, .. } => {
                return self.told_though(who, line, *state, seen);
            }
            Event::CardOpened { .. }
            | Event::ProcedureMoved { .. }
            | Event::SignedOn { .. }
            | Event::FactSet { .. }
            | Event::EndTaken { .. }
            | Event::Answered { .. }
            | Event::StepSkipped { .. }
            | Event::HoldPassed { .. }
            | Event::Struck { .. }
            | Event::Joined { .. }
            | Event::PersonListed { .. }
            | Event::PersonLeft { .. }
            | Event::StandListed { .. }
            | Event::StandWithdrawn { .. }
            | Event::PutAway { .. }
            | Event::Brought { .. }
            | Event::WrenchListed { .. }
            | Event::WrenchWithdrawn { .. }
            | Event::JackListed { .. }
            | Event::JackWithdrawn { .. }
            | Event::LimitSet { .. }
            | Event::LimitDropped { .. }
            | Event::ShopStepSet { .. }
            | Event::ShopStepDropped { .. }
            | Event::FinalPassSet { .. }
            | Event::WheelSet { .. }
            | Event::DefaultSet { .. }
            | Event::ShopTaken { .. } => {}
        }
        let (at, step) = event.step()?;
        if self.opened.is_none() {
            return Some(Though::Held(Hold::NotOpened));
        }
        if let Event::HoldPassed { first, .. } = event {
            if !is_foreman {
                return Some(Though::NotTheirs);
            }
            return hold::never_passed(self, step, first).then(|| {
                Though::Held(Hold::NotYet {
                    first: first.clone(),
                    at,
                    protects: true,
                })
            });
        }
        let known =
            |first: &StepId, place: Place| self.strikes(first, place).any(|by| seen.had_seen(by));
        let hold = hold::of_step(self, step, at, known)
            .or_else(|| hold::of_person(self, who, at, event))
            .or_else(|| hold::of_gap(self, line.at))?;
        if let Some((at, first)) = hold.first()
            && self.was_struck(first, at)
            && !known(first, at)
        {
            return Some(Though::BuiltOnStruck {
                first: first.clone(),
                at,
            });
        }
        Some(Though::Held(hold))
    }

    /// What an answer to an extra line passed over. Done without a yes opens what it holds, so
    /// that it counts for nothing, unless the yes was taken back after the work was done.
    fn told_though(
        &self,
        who: &PersonId,
        line: &LineRef,
        state: LineState,
        seen: &Seen,
    ) -> Option<Though> {
        if !self.people.get(who).is_some_and(|signed| signed.on) {
            return Some(Though::NotTheirs);
        }
        if state != LineState::Done {
            return None;
        }
        let extra = self.extra_line(line)?;
        if !self.may_be_done_by(extra, who) {
            return Some(Though::NotTheirs);
        }
        let yes =
            |held: &Held<LineState>| held.value == LineState::SaidYes && seen.had_seen(&held.line);
        if extra.said.live().iter().any(yes) {
            return None;
        }
        let mut backs = self.yes_taken_back.iter();
        if backs.any(|(of, by)| of == line && !seen.had_seen(by)) {
            let held = self.finding(&extra.finding)?.holds.clone();
            let first = extra.with.as_ref().map(|with| with.step.clone()).or(held);
            return first.map(|first| Though::BuiltOnStruck {
                first,
                at: extra.at,
            });
        }
        Some(Though::NotTheirs)
    }

    /// True if this person may say that the work of a line is done: an apprentice not alone of
    /// what protects.
    pub(crate) fn may_be_done_by(&self, line: &ExtraLine, who: &PersonId) -> bool {
        let protects = |finding: &Finding| finding.protects;
        !self.finding(&line.finding).is_some_and(protects) || self.stands_beside(who, None)
    }

    /// The lines that took back an answer of this step here.
    fn strikes<'a>(&'a self, step: &'a StepId, at: Place) -> impl Iterator<Item = &'a LineRef> {
        self.taken_back
            .iter()
            .filter(move |back| back.step == *step && places_touch(back.at, at))
            .map(|back| &back.by)
    }

    /// True if an answer of this step was given and taken back.
    pub(crate) fn was_struck(&self, step: &StepId, at: Place) -> bool {
        self.strikes(step, at).next().is_some()
    }

    /// The fact's slot, if anybody ever set it.
    pub fn fact_slot(&self, at: Place, fact: &FactId) -> Option<&Slot<FactValue>> {
        self.facts.get(&(at, fact.clone()))
    }

    /// True for a fact of the vehicle that no step insists on and that would mean something here: it
    /// is offered where the facts stand.
    pub fn may_be_given_any_time(&self, def: &FactDef) -> bool {
        let Some(procedure) = self.procedure.as_deref() else {
            return false;
        };
        let asks = || {
            let all = procedure.steps().flat_map(|step| &step.asks);
            all.filter(|ask| ask.kind == AskKind::Fact(def.id.clone()))
        };
        let fits = |ask: &Ask| self.fits(&ask.when, Place::Vehicle);
        def.names_only
            || def.scope == Scope::Vehicle && asks().all(|ask| ask.optional) && asks().any(fits)
    }

    /// The value of a fact at exactly this place; of two that had not seen each other the
    /// stricter, or none if it can't be told which that is.
    pub fn fact(&self, at: Place, fact: &FactId) -> Option<&FactValue> {
        let live = self.fact_slot(at, fact)?.live();
        match live {
            [] => None,
            [held] => Some(&held.value),
            many => self.stricter(fact, many),
        }
    }

    fn stricter<'a>(&self, fact: &FactId, many: &'a [Held<FactValue>]) -> Option<&'a FactValue> {
        if many.iter().all(|held| held.value == many[0].value) {
            return Some(&many[0].value); // The caller matched a slice of two or more.
        }
        let def = self.procedure.as_ref()?.fact(fact)?;
        let stricter = def.stricter?;
        many.iter()
            .map(|held| &held.value)
            .max_by(|a, b| judge::compare_facts(def, stricter, a, b))
    }

    /// The choice made for a fact, if it is one.
    pub fn choice(&self, at: Place, fact: &str) -> Option<&OptionId> {
        self.fact(at, &FactId::from(fact))?.choice()
    }

    /// The layout of the vehicle, once given.
    pub fn layout(&self) -> Option<Layout> {
        Layout::read(self.fact(Place::Vehicle, &FactId::from("layout"))?.text()?)
    }

    /// The axles in hand, front first.
    pub fn axles_in_hand(&self) -> Vec<u8> {
        let slot = self.fact_slot(Place::Vehicle, &FactId::from("in-hand"));
        // Two lists that had not seen each other: all axles of both are in hand.
        let mut axles = self.begun.clone();
        axles.extend(
            slot.into_iter()
                .flat_map(Slot::live)
                .filter_map(|held| held.value.axles())
                .flatten(),
        );
        axles.into_iter().collect()
    }

    /// The first axle of the group that `axle` stands in.
    pub fn group_first(&self, axle: u8) -> u8 {
        self.layout()
            .and_then(|layout| layout.group_of(axle).first().copied())
            .unwrap_or(axle)
    }

    /// The places of `scope` that belong to `at`: for a wheel end its axle, for the vehicle all
    /// wheel ends in hand.
    pub fn places(&self, scope: Scope, at: Place) -> Vec<Place> {
        match (scope, at.axle()) {
            (Scope::Vehicle, _) => vec![Place::Vehicle],
            (Scope::Axle, Some(axle)) => vec![Place::Axle(axle)],
            (Scope::Axle, None) => self.axles_in_hand().into_iter().map(Place::Axle).collect(),
            (Scope::Group, Some(axle)) => vec![Place::Axle(self.group_first(axle))],
            (Scope::Group, None) => {
                let groups: BTreeSet<u8> = self
                    .axles_in_hand()
                    .into_iter()
                    .map(|axle| self.group_first(axle))
                    .collect();
                groups.into_iter().map(Place::Axle).collect()
            }
            (Scope::End, _) => match at {
                Place::End(..) => vec![at],
                Place::Axle(axle) => Place::ends(axle).to_vec(),
                Place::Vehicle => self
                    .axles_in_hand()
                    .into_iter()
                    .flat_map(Place::ends)
                    .collect(),
            },
        }
    }

    /// True if the facts given so far leave room for `when` at this place.
    pub fn fits(&self, when: &When, at: Place) -> bool {
        let Some(procedure) = &self.procedure else {
            return true;
        };
        when.iter().all(|(id, values)| {
            let Some(def) = procedure.fact(id) else {
                return true;
            };
            let places = self.places(def.scope, at);
            places.is_empty()
                || places.iter().any(|&place| match self.fact_slot(place, id) {
                    None => true,
                    // A fact said not to be known leaves every way open.
                    Some(slot) => slot.live().iter().any(|held| {
                        held.value
                            .choice()
                            .is_none_or(|option| values.contains(option))
                    }),
                })
        })
    }

    /// True if the facts that govern say `when`: all of them given, none in doubt.
    pub fn surely_fits(&self, when: &When, at: Place) -> bool {
        when.iter().all(|(id, values)| {
            let def = self
                .procedure
                .as_ref()
                .and_then(|procedure| procedure.fact(id));
            let places = def.map_or(Vec::new(), |def| self.places(def.scope, at));
            !places.is_empty()
                && places.iter().all(|&place| {
                    self.fact(place, id)
                        .and_then(FactValue::choice)
                        .is_some_and(|option| values.contains(option))
                })
        })
    }

    /// How far a step is at one place.
    pub fn state(&self, step: &Step, at: Place) -> StepState {
        if !self.fits(&step.when, at) {
            return StepState::NotOnPath;
        }
        let skipped = self.skips.get(&(at, step.id.clone()));
        if skipped
            .and_then(Slot::only)
            .is_some_and(|why| step.skips.contains(why))
        {
            return StepState::Skipped;
        }
        let mut begun = false;
        let mut open = false;
        let mut unclear = false;
        for ask in &step.asks {
            for place in self.ask_places(step, ask, at) {
                match self.ask_state(step, ask, place) {
                    AskState::NotAsked => {}
                    AskState::Open => open |= !ask.optional,
                    AskState::Partly => {
                        begun = true;
                        open |= !ask.optional;
                    }
                    AskState::Unclear => {
                        begun = true;
                        unclear = true;
                    }
                    AskState::Clear => begun = true,
                }
            }
        }
        match (open, unclear, begun) {
            (true, _, true) => StepState::Begun,
            (true, _, false) => StepState::Open,
            (false, true, _) => StepState::Unclear,
            (false, false, _) => StepState::Done,
        }
    }

    /// True if a choice at this step is itself what protects a person here: it wants a second press.
    pub fn is_said_twice(&self, step: &Step, at: Place) -> bool {
        let protects = |hold: &HoldOn| hold.protects && self.fits(&hold.when, at);
        !step.is_pressed() && step.holds.iter().any(protects)
    }

    /// True if nothing of this step is wanting at this place.
    pub fn is_done(&self, step: &Step, at: Place) -> bool {
        matches!(
            self.state(step, at),
            StepState::NotOnPath | StepState::Skipped | StepState::Done
        )
    }

    /// Where an ask is answered, for a step at `at`.
    pub fn ask_places(&self, step: &Step, ask: &Ask, at: Place) -> Vec<Place> {
        let scope = match (&ask.kind, &self.procedure) {
            (AskKind::Fact(fact), Some(procedure)) => procedure.fact(fact).map(|def| def.scope),
            _ => ask.scope,
        };
        self.places(scope.unwrap_or(step.scope), at)
    }

    /// How far one ask is at the place where it is answered.
    pub fn ask_state(&self, step: &Step, ask: &Ask, at: Place) -> AskState {
        if !self.fits(&ask.when, at) {
            return AskState::NotAsked;
        }
        match &ask.kind {
            AskKind::Fact(fact) => match self.fact_slot(at, fact) {
                Some(slot) if !slot.live().is_empty() => {
                    if self.fact_wants_reason(ask, at) && !self.is_passed(at, &step.id, &step.id) {
                        AskState::Unclear
                    } else {
                        AskState::Clear
                    }
                }
                _ => AskState::Open,
            },
            AskKind::Settled if self.lines_settled() => AskState::Clear,
            AskKind::Settled => AskState::Open,
            AskKind::Press(press) if press.each_person => {
                let waited_for = self.waited_for(press);
                if waited_for.is_empty()
                    && press
                        .until
                        .as_ref()
                        .is_some_and(|until| self.begun_at.contains_key(until))
                {
                    return AskState::Clear;
                }
                self.all_items(
                    step,
                    ask,
                    at,
                    waited_for.into_iter().cloned().map(Item::Person).collect(),
                )
            }
            AskKind::Pass(pass) => match self.slot(step, ask, at, Item::Only) {
                Some(slot) if pass.may_be_whole() && !slot.live().is_empty() => {
                    self.whole_pass_state(step, ask, at, slot)
                }
                _ => {
                    let nuts = self.studs(at).unwrap_or(0);
                    self.all_items(step, ask, at, (1..=nuts).map(Item::Nut).collect())
                }
            },
            AskKind::Press(_)
            | AskKind::Lines(_)
            | AskKind::Choose(_)
            | AskKind::Reading(_)
            | AskKind::Count(_)
            | AskKind::Wheels
            | AskKind::Exceptions(_)
            | AskKind::Stands
            | AskKind::Wrench
            | AskKind::Look => self.item_state(step, ask, at, Item::Only),
        }
    }

    /// A pass logged as a whole: the nuts it leaves out are logged one by one after it.
    fn whole_pass_state(&self, step: &Step, ask: &Ask, at: Place, whole: &Slot<Given>) -> AskState {
        let state = self.item_state(step, ask, at, Item::Only);
        let AskKind::Pass(pass) = &ask.kind else {
            return state;
        };
        let restarts = |mark: &OptionId| {
            pass.marks
                .iter()
                .any(|offer| offer.id == *mark && offer.restarts)
        };
        let made_good = whole.live().iter().all(|held| {
            let Answer::WholePass { but } = &held.value.answer else {
                return false;
            };
            but.iter().all(|one| {
                let Ok(nut) = one.item.parse() else {
                    return false;
                };
                let later = self
                    .slot(step, ask, at, Item::Nut(nut))
                    .is_some_and(|slot| {
                        slot.live()
                            .iter()
                            .all(|nut| self.comes_after(&nut.line, &held.line))
                    });
                !restarts(&one.mark)
                    && later
                    && self.item_state(step, ask, at, Item::Nut(nut)) == AskState::Clear
            })
        });
        match state {
            AskState::Unclear if made_good => AskState::Clear,
            AskState::NotAsked
            | AskState::Open
            | AskState::Partly
            | AskState::Unclear
            | AskState::Clear => state,
        }
    }

    /// True if one line stands after another on the trail.
    fn comes_after(&self, later: &LineRef, earlier: &LineRef) -> bool {
        let place = |line: &LineRef| self.entries.iter().position(|entry| entry.line == *line);
        place(later) > place(earlier)
    }

    fn all_items(&self, step: &Step, ask: &Ask, at: Place, items: Vec<Item>) -> AskState {
        let states: Vec<AskState> = items
            .into_iter()
            .map(|item| self.item_state(step, ask, at, item))
            .collect();
        let answered = states
            .iter()
            .filter(|state| **state != AskState::Open)
            .count();
        if states.is_empty() || answered == 0 {
            AskState::Open
        } else if answered < states.len() {
            AskState::Partly
        } else if states.contains(&AskState::Unclear) {
            AskState::Unclear
        } else {
            AskState::Clear
        }
    }

    fn item_state(&self, step: &Step, ask: &Ask, at: Place, item: Item) -> AskState {
        match self.slot(step, ask, at, item.clone()) {
            None => AskState::Open,
            // Answers that had not seen each other: each must clear it.
            Some(slot) if slot.live().is_empty() => AskState::Open,
            Some(slot) => {
                let own = |who: &PersonId| match &item {
                    Item::Person(person) => person == who,
                    Item::Only | Item::Nut(_) => true,
                };
                let clear = slot
                    .live()
                    .iter()
                    .all(|held| own(&held.value.who) && self.clears(step, ask, at, &held.value));
                if clear {
                    AskState::Clear
                } else {
                    AskState::Unclear
                }
            }
        }
    }

    /// How many nuts of a pass are logged in a way that clears them.
    pub fn nuts_that_clear(&self, step: &Step, ask: &Ask, at: Place) -> usize {
        (1..=self.studs(at).unwrap_or(0))
            .filter(|nut| self.item_state(step, ask, at, Item::Nut(*nut)) == AskState::Clear)
            .count()
    }

    /// The slot of one answer, if it was ever answered.
    pub fn slot(&self, step: &Step, ask: &Ask, at: Place, item: Item) -> Option<&Slot<Given>> {
        self.answers.get(&SlotKey {
            at,
            step: step.id.clone(),
            ask: ask.id.clone(),
            item,
        })
    }

    /// True if this answer does what the ask is there for.
    pub fn clears(&self, step: &Step, ask: &Ask, at: Place, given: &Given) -> bool {
        let offered = |offers: &[Offer], id: &OptionId| {
            offers
                .iter()
                .any(|offer| offer.id == *id && offer.clears && self.surely_fits(&offer.when, at))
        };
        if step.protects() && !self.stands_beside(&given.who, given.beside.as_ref()) {
            return false;
        }
        match (&ask.kind, &given.answer) {
            (AskKind::Lines(_), Answer::Lines { out }) => out.is_empty(),
            (AskKind::Choose(offers), Answer::Choice { option }) => {
                // In this order: a rule may ask whether an answer that clears nothing was mended.
                let holds = || ask.rule.is_none() || self.stands_judged(step, ask, at, given);
                (offered(offers, option) && holds()) || self.is_mended(offers, option, at, given)
            }
            (AskKind::Press(press), Answer::Press { option }) => offered(&press.answers, option),
            (AskKind::Reading(reading), Answer::Reading { typed }) => {
                typed
                    .typed()
                    .is_ok_and(|typed| reading.units.iter().any(|unit| unit.0 == typed.unit()))
                    && self.stands_judged(step, ask, at, given)
            }
            (AskKind::Reading(_), Answer::Jack { .. }) if ask.takes_a_jack() => {
                self.stands_judged(step, ask, at, given)
            }
            (AskKind::Stands, Answer::Stands { .. }) | (AskKind::Wrench, Answer::Wrench { .. }) => {
                self.stands_judged(step, ask, at, given)
            }
            (AskKind::Count(_), Answer::Count { .. }) => true,
            (AskKind::Exceptions(_), Answer::Exceptions { .. }) => {
                ask.rule.is_none() || self.stands_judged(step, ask, at, given)
            }
            (AskKind::Wheels, Answer::Wheels { at: wheels }) => {
                !wheels.is_empty() && wheels.iter().all(|wheel| self.stays_down(*wheel))
            }
            (AskKind::Pass(pass), Answer::WholePass { but }) => {
                but.iter().all(|one| offered(&pass.marks, &one.mark))
            }
            (AskKind::Pass(pass), Answer::Nut { mark }) => offered(&pass.marks, mark),
            (AskKind::Look, Answer::Look { accepted, seen, .. }) => {
                *accepted
                    && seen
                        .as_ref()
                        .is_none_or(|seen| second_look::stands(self, step, at, seen))
            }
            _ => false,
        }
    }

    /// True if a part was found bad and has been mended since: every extra line of this finding
    /// is done, one of them after the part was judged.
    fn is_mended(&self, offers: &[Offer], option: &OptionId, at: Place, given: &Given) -> bool {
        let bad = offers
            .iter()
            .find(|offer| offer.id == *option && offer.part == Some(Eye::Replace));
        let Some(finding) = bad.and_then(|offer| offer.finding.as_ref()) else {
            return false;
        };
        let of_it = |line: &&ExtraLine| line.at == at && line.finding == *finding;
        let mut lines = self.lines.iter().filter(of_it);
        lines.clone().all(|line| line.state == LineState::Done)
            && lines.any(|line| line.is_done_since(given.tick))
    }

    /// True if a foreman can let work go on over this line.
    pub fn may_pass(&self, line: &ExtraLine) -> bool {
        line.state == LineState::SaidNo
            && self
                .finding(&line.finding)
                .is_some_and(|finding| finding.wants_yes() && !finding.protects)
    }

    fn stands_judged(&self, step: &Step, ask: &Ask, at: Place, given: &Given) -> bool {
        match self.standing(step, ask, at, given) {
            judge::Standing::Clears => true,
            judge::Standing::NeedsForeman => self.is_passed(at, &step.id, &step.id),
            judge::Standing::Refused => false,
        }
    }

    fn standing(&self, step: &Step, ask: &Ask, at: Place, given: &Given) -> judge::Standing {
        judge::judge(self, at, step, ask, &given.answer).map_or(
            judge::Standing::Refused, // For want of something that the rule needs.
            |judged| judge::standing(&judged, &given.judged),
        )
    }

    /// True if a judged fact stands only with a foreman's reason.
    fn fact_wants_reason(&self, ask: &Ask, at: Place) -> bool {
        let AskKind::Fact(fact) = &ask.kind else {
            return false;
        };
        let slot = self.fact_slot(at, fact).filter(|_| ask.rule.is_some());
        slot.into_iter()
            .flat_map(Slot::live)
            .any(|held| judge::fact_needs_foreman(self, at, fact.as_str(), &held.value))
    }

    /// Where an answer of this step stands only with a foreman's reason, given or not.
    fn wanting_reason(&self, step: &Step, at: Place) -> Vec<Place> {
        let wants = |ask: &Ask, place: Place| {
            let slot = self.slot(step, ask, place, Item::Only);
            self.fact_wants_reason(ask, place)
                || slot.into_iter().flat_map(Slot::live).any(|held| {
                    self.standing(step, ask, place, &held.value) == judge::Standing::NeedsForeman
                })
        };
        let asks = step.asks.iter().filter(|ask| ask.rule.is_some());
        asks.flat_map(|ask| {
            let places = self.ask_places(step, ask, at).into_iter();
            places.filter(move |place| self.fits(&ask.when, *place) && wants(ask, *place))
        })
        .collect()
    }

    /// True if an answer of this step stands only with a foreman's reason.
    pub fn needs_foreman(&self, step: &Step, at: Place) -> bool {
        !self.wanting_reason(step, at).is_empty()
    }

    /// True if it does, and the reason is not given yet.
    pub fn waits_for_foreman(&self, step: &Step, at: Place) -> bool {
        self.wanting_reason(step, at)
            .into_iter()
            .any(|place| !self.is_passed(place, &step.id, &step.id))
    }

    /// True if everything of it is answered, and nothing but that reason is wanting.
    pub fn only_waits_for_foreman(&self, step: &Step, at: Place) -> bool {
        let wanting = |ask: &Ask| {
            let states = self.ask_places(step, ask, at).into_iter();
            let mut states = states.map(|place| self.ask_state(step, ask, place));
            !ask.optional && states.any(|state| matches!(state, AskState::Open | AskState::Partly))
        };
        self.waits_for_foreman(step, at) && !step.asks.iter().any(wanting)
    }

    /// True if this person may answer a `!` alone, or somebody who may stood beside them.
    pub(crate) fn stands_beside(&self, who: &PersonId, beside: Option<&PersonId>) -> bool {
        let may_alone = |person: &PersonId| {
            self.people
                .get(person)
                .is_some_and(|signed| signed.role != Role::Apprentice)
        };
        may_alone(who) || beside.is_some_and(|beside| beside != who && may_alone(beside))
    }

    /// True for a wheel end that is not lifted: one of an axle that is not in hand.
    /// [`Place::Vehicle`] stands for the wheels of the unit that this one is coupled to.
    pub fn stays_down(&self, wheel: Place) -> bool {
        match wheel {
            Place::Vehicle => self
                .choice(Place::Vehicle, "coupled")
                .is_some_and(|how| how.as_str() == "coupled"),
            Place::Axle(_) | Place::End(..) => self.wheels_to_chock().contains(&wheel),
        }
    }

    /// The wheel ends that chocks can go at: those that no lift takes off the ground.
    pub fn wheels_to_chock(&self) -> Vec<Place> {
        let all = self
            .layout()
            .map(|layout| layout.ends())
            .unwrap_or_default();
        let in_hand = self.axles_in_hand();
        all.into_iter()
            .filter(|end| end.axle().is_some_and(|axle| !in_hand.contains(&axle)))
            .collect()
    }

    /// People who signed on and have not signed off. A foreman is not waited for while he only
    /// looks.
    pub fn working(&self) -> impl Iterator<Item = &PersonId> {
        self.people
            .iter()
            .filter(|(person, signed)| {
                signed.on && (signed.role != Role::Foreman || self.has_worked(person))
            })
            .map(|(person, _)| person)
    }

    /// The people whose own press an ask waits for, pressed or not.
    pub fn waited_for(&self, press: &Press) -> Vec<&PersonId> {
        let closed = press
            .until
            .as_ref()
            .and_then(|until| self.begun_at.get(until));
        self.working()
            .filter(|person| {
                let signed = self.signed_at.get(*person);
                closed.is_none_or(|closed| signed.is_none_or(|signed| signed < closed))
            })
            .collect()
    }

    fn has_worked(&self, person: &PersonId) -> bool {
        self.worked.iter().any(|(who, _)| who == person)
    }

    /// True if this person's own tag hangs on the vehicle.
    pub fn has_tag_on(&self, person: &PersonId) -> bool {
        let said = |step: &str| {
            self.answers.iter().any(|(key, slot)| {
                key.step.as_str() == step
                    && key.item == Item::Person(person.clone())
                    && !slot.live().is_empty()
            })
        };
        said(TAG_ON) && !said(TAG_OFF)
    }

    /// True if a nut of this axle's wheel ends is logged already.
    pub(crate) fn has_nuts_logged(&self, at: Place) -> bool {
        self.answers.iter().any(|(key, slot)| {
            key.at.axle() == at.axle()
                && !slot.live().is_empty()
                && slot.live().iter().any(|held| {
                    matches!(
                        held.value.answer,
                        Answer::Nut { .. } | Answer::WholePass { .. }
                    )
                })
        })
    }

    /// True if an apprentice did something at this wheel end.
    pub(crate) fn apprentice_worked_at(&self, at: Place) -> bool {
        self.people
            .iter()
            .any(|(person, signed)| signed.role == Role::Apprentice && self.worked_at(person, at))
    }

    /// Numbers of the stands under other axles that have not been lowered again.
    pub(crate) fn stands_in_use(&self, but: Place) -> Vec<String> {
        let Some(procedure) = self.procedure.as_deref() else {
            return Vec::new();
        };
        let lowered = |at: Place| {
            let lower = procedure.step(&StepId::from(LOWER));
            lower.is_some_and(|lower| self.state(lower, at) == StepState::Done)
        };
        self.answers
            .iter()
            .filter(|(key, _)| key.at != but && !lowered(key.at))
            .flat_map(|(_, slot)| slot.live())
            .filter_map(|held| {
                if let Answer::Stands { stands } = &held.value.answer {
                    Some(stands)
                } else {
                    None
                }
            })
            .flatten()
            .map(|stand| stand.stand.clone())
            .filter(|number| !number.is_empty())
            .collect()
    }

    /// True if this person did something at this place, or on its axle, other than look.
    pub(crate) fn worked_at(&self, person: &PersonId, at: Place) -> bool {
        self.worked.iter().any(|(who, place)| {
            who == person && *place != Place::Vehicle && places_touch(*place, at)
        })
    }

    /// The role that a person signed on with.
    pub fn role(&self, person: &PersonId) -> Option<Role> {
        self.people.get(person).map(|signed| signed.role)
    }

    /// Studs of a wheel end, once counted.
    pub fn studs(&self, at: Place) -> Option<u16> {
        let axle = Place::Axle(at.axle()?);
        self.fact(axle, &FactId::from("studs"))?.count()
    }

    /// True if a foreman passed the hold of `first` on `step` here.
    pub fn is_passed(&self, at: Place, step: &StepId, first: &StepId) -> bool {
        self.passed.contains(&(at, step.clone(), first.clone()))
    }

    /// Who has a wheel end.
    pub fn has(&self, at: Place) -> Option<&PersonId> {
        self.taken.get(&at)
    }

    /// Name of a person as signed on, else their id.
    pub fn name<'a>(&'a self, person: &'a PersonId) -> &'a str {
        self.people
            .get(person)
            .map_or(person.as_str(), |signed| signed.name.as_str())
    }

    /// The entry of a line.
    pub fn entry(&self, line: &LineRef) -> Option<&Entry> {
        self.entries.iter().find(|entry| entry.line == *line)
    }

    /// Every step at every place of this vehicle, in order of work: stage by stage, wheel end
    /// by wheel end within a stage.
    pub fn path(&self) -> Vec<(Place, &Step)> {
        let Some(procedure) = self.procedure.as_deref() else {
            return Vec::new();
        };
        let mut path = Vec::new();
        for stage in &procedure.stages {
            let mut steps = stage.steps.iter().peekable();
            while let Some(first) = steps.next() {
                let mut run = vec![first];
                // Steps of one wheel end are walked together before the next wheel end.
                while first.scope == Scope::End
                    && steps.peek().is_some_and(|next| next.scope == Scope::End)
                {
                    run.extend(steps.next());
                }
                for place in self.places(first.scope, Place::Vehicle) {
                    path.extend(
                        run.iter()
                            .filter(|step| self.fits(&step.when, place))
                            .map(|step| (place, *step)),
                    );
                }
            }
        }
        path
    }

    /// The first step on the path that is not done.
    pub fn next_open(&self) -> Option<(Place, &Step)> {
        self.path()
            .into_iter()
            .find(|(at, step)| !self.is_done(step, *at))
    }

    /// The step to go on with: the first that is open, that nothing holds, and that is not left to a
    /// foreman. Where there is none, the first that is open.
    pub fn next_to_do(&self) -> Option<(Place, &Step)> {
        let path = self.path();
        let free = path.iter().find(|(at, step)| {
            !self.is_done(step, *at)
                && !self.only_waits_for_foreman(step, *at)
                && hold::first_hold(self, &step.id, *at).is_none()
        });
        free.copied().or_else(|| self.next_open())
    }

    /// The stage that a place is in: that of the first step there that is not done.
    pub fn stage_at(&self, at: Place) -> Option<&Stage> {
        let touches = |scope| self.places(scope, at).into_iter().next();
        self.procedure.as_deref()?.stages.iter().find(|stage| {
            let open =
                |step: &Step| touches(step.scope).is_some_and(|place| !self.is_done(step, place));
            stage.steps.iter().any(open)
        })
    }

    /// When the vehicle went back to its people, if it did.
    pub fn handed_back(&self) -> Option<Stamp> {
        let procedure = self.procedure.as_deref()?;
        let record = procedure.step(&StepId::from(RECORD))?;
        if self.state(record, Place::Vehicle) != StepState::Done {
            return None;
        }
        let of_it = |key: &SlotKey| key.step == record.id;
        self.answers
            .iter()
            .filter(|(key, _)| of_it(key))
            .flat_map(|(_, slot)| slot.live())
            .map(|held| held.value.at)
            .max_by_key(|at| at.utc)
    }

    /// True from the first answer until the vehicle is handed back.
    pub fn stands_in_the_bay(&self) -> bool {
        self.is_begun() && self.handed_back().is_none()
    }

    /// How something of the bring list came, if it is there.
    pub fn brought(&self, item: &OptionId) -> Option<BroughtHow> {
        self.brought
            .get(item)
            .copied()
            .filter(|how| *how != BroughtHow::NotHere)
    }

    /// True once something of the work is answered.
    pub fn is_begun(&self) -> bool {
        self.answers.values().any(|slot| !slot.live().is_empty())
    }

    /// Every version of the shop's own values that the card goes by, the newest last: one, or those
    /// that tablets took without having seen each other's. A reading is held against all of them.
    pub fn shop_versions(&self) -> impl DoubleEndedIterator<Item = &ShopTaken> {
        self.shop.live().iter().map(|held| &held.value)
    }

    /// The shop's own values that the card took last, once it took any.
    pub fn shop(&self) -> Option<&ShopTaken> {
        self.shop_versions().next_back()
    }

    /// True if the card was taken out of the daily list.
    pub fn is_put_away(&self) -> bool {
        self.put_away
    }

    /// Done and all steps of the path.
    pub fn progress(&self) -> (usize, usize) {
        let path = self.path();
        let done = path
            .iter()
            .filter(|(at, step)| self.is_done(step, *at))
            .count();
        (done, path.len())
    }
}

/// How far one ask is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AskState {
    /// Not for this vehicle.
    NotAsked,
    Open,
    /// Some of its items are answered.
    Partly,
    /// Answered, but not in a way that clears it.
    Unclear,
    Clear,
}

fn places_touch(a: Place, b: Place) -> bool {
    a == b
        || a == Place::Vehicle
        || b == Place::Vehicle
        || (a.axle() == b.axle() && !both_ends(a, b))
}

fn both_ends(a: Place, b: Place) -> bool {
    matches!((a, b), (Place::End(..), Place::End(..)))
}

#[cfg(test)]
mod passes;
#[cfg(test)]
mod tests;
