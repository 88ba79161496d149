//! The page of one wheel end for the second look: what was measured and done there, sorted for
//! somebody who did not see the work. It picks and sorts; what a reading means is the rules' word.
//!
//! Everything up to the look is read from the trail itself, so that what was taken back, answered
//! again or sent back is still there to be seen.

use std::cmp::Reverse;

use rules::verdict::{Judgement, Verdict};

use super::{STEP, Waits, waits};
use crate::card::{Card, Entry, Given, SlotKey, Though};
use crate::event::{Amount, Answer, Event, Item, JudgedThen, Seen, TypedText};
use crate::extra::ExtraLine;
use crate::id::{AskId, FactId, OptionId, PersonId, Place, StepId};
use crate::judge::{self, Judged};
use crate::line::{LineRef, Stamp};
use crate::procedure::{Ask, AskKind, Eye, Pass, Scope, Step};
use crate::words::Words;

/// The rounds of strokes before and after the work.
const ROUNDS: [&str; 2] = ["as-found", "as-left"];

/// One row of the waiting list.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row {
    pub at: Place,
    pub waits: Waits,
    pub since: Option<Stamp>,
}

/// What became of an entry.
#[derive(Clone, Debug, PartialEq)]
pub enum Fate {
    Stands,
    /// Taken back by this line.
    Struck(LineRef),
    /// Answered again, or to be done again.
    Overtaken,
}

/// An entry and what became of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Told<'a> {
    pub entry: &'a Entry,
    pub fate: Fate,
}

/// What was said more than once.
#[derive(Clone, Debug, PartialEq)]
pub enum About {
    Asked(SlotKey),
    Fact(Place, FactId),
}

/// Everything that was said about one thing, first to last.
#[derive(Clone, Debug, PartialEq)]
pub struct History<'a> {
    pub about: About,
    pub said: Vec<Told<'a>>,
}

/// What is said of an answer.
#[derive(Clone, Debug, PartialEq)]
pub enum Says<'a> {
    /// A part judged by eye.
    Eye(Eye),
    /// As the rules judge it now, and as it was shown then.
    Now(Box<Judgement>, Option<&'a JudgedThen>),
    /// As it was shown then; the rules have no word for it now.
    Then(&'a JudgedThen),
    /// It can't be judged for want of this.
    Wanting(Words),
}

/// One verdict of the wheel end or its axle.
#[derive(Clone, Debug, PartialEq)]
pub struct VerdictRow<'a> {
    pub at: Place,
    pub step: &'a Step,
    pub ask: &'a Ask,
    pub given: &'a Given,
    pub says: Says<'a>,
}

/// One round of strokes at a wheel end.
#[derive(Clone, Debug, PartialEq)]
pub struct Round<'a> {
    pub step: &'a Step,
    /// The reason for which it was left out.
    pub skipped: Option<&'a OptionId>,
    /// Its readings in order, each with the answers that stand.
    pub read: Vec<(&'a Ask, Vec<&'a Given>)>,
}

/// What was said of one nut in one pass.
#[derive(Clone, Debug, PartialEq)]
pub struct NutSaid<'a> {
    pub step: &'a StepId,
    pub ask: &'a AskId,
    /// None: it went with a pass that was logged as a whole.
    pub mark: Option<&'a OptionId>,
    pub told: Told<'a>,
}

/// One nut through all passes.
#[derive(Clone, Debug, PartialEq)]
pub struct NutStory<'a> {
    pub nut: u16,
    pub said: Vec<NutSaid<'a>>,
    /// Once in each pass, and good each time.
    pub plain: bool,
}

/// What is out of the ordinary, apart from verdicts, nuts and extra lines.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Apart<'a> {
    /// Done though something held it.
    pub though: Vec<&'a Entry>,
    /// Holds that a foreman passed, and reasons given for a reading.
    pub passed: Vec<&'a Entry>,
    pub skipped: Vec<&'a Entry>,
    /// Taken back and never said again; the others stand in the history.
    pub struck: Vec<Told<'a>>,
}

impl Apart<'_> {
    pub fn is_empty(&self) -> bool {
        self.though.is_empty()
            && self.passed.is_empty()
            && self.skipped.is_empty()
            && self.struck.is_empty()
    }
}

impl VerdictRow<'_> {
    /// True if there is nothing to think about.
    pub fn is_plain(&self) -> bool {
        self.severity() == Verdict::Within.severity()
    }

    /// True for a part judged by eye.
    pub fn by_eye(&self) -> bool {
        matches!(self.says, Says::Eye(_))
    }

    fn severity(&self) -> u8 {
        match &self.says {
            Says::Eye(Eye::Sound) => Verdict::Sound,
            Says::Eye(Eye::Replace) => Verdict::Replace,
            // What was worse then is not made good by another word now.
            Says::Now(judgement, then) => then
                .and_then(|then| Verdict::from_code(&then.verdict))
                .map_or(judgement.verdict, |then| judgement.verdict.worse(then)),
            Says::Then(then) => Verdict::from_code(&then.verdict).unwrap_or(Verdict::NoReading),
            Says::Wanting(_) => Verdict::NoReading,
        }
        .severity()
    }

    /// Room left in millionths of the limit, for sorting; the most where there is no room to tell.
    fn share_left(&self) -> i128 {
        let share = |room: i128, limit: i128| room.saturating_mul(1_000_000).checked_div(limit);
        let base = |amount: &Amount| {
            let text = TypedText {
                text: amount.text.clone(),
                unit: amount.unit.clone(),
            };
            text.typed().ok().map(|typed| typed.quantity().base())
        };
        match &self.says {
            Says::Now(judgement, _) => judgement
                .room
                .zip(judgement.limits.first())
                .and_then(|(room, limit)| share(room.base(), limit.deciding().base())),
            Says::Then(then) => then
                .room
                .as_ref()
                .and_then(base)
                .zip(then.limits.first().and_then(base))
                .and_then(|(room, limit)| share(room, limit)),
            Says::Eye(_) | Says::Wanting(_) => None,
        }
        .unwrap_or(i128::MAX)
    }
}

/// Every wheel end in hand that has a second look: those that wait come first, the longest waiting
/// on top.
pub fn rows(card: &Card) -> Vec<Row> {
    let mut rows: Vec<Row> = card
        .places(Scope::End, Place::Vehicle)
        .into_iter()
        .filter_map(|at| {
            let waits = waits(card, at)?;
            Some(Row {
                at,
                waits,
                since: since(card, at, waits),
            })
        })
        .collect();
    let rank = |waits: Waits| match waits {
        Waits::ForTheFirst | Waits::Changed | Waits::Again => 0,
        Waits::SentBack => 1,
        Waits::NotYet => 2,
        Waits::Accepted => 3,
    };
    rows.sort_by_key(|row| {
        let longest = row.since.map(|since| since.utc).filter(|_| {
            matches!(
                row.waits,
                Waits::ForTheFirst | Waits::Changed | Waits::Again
            )
        });
        (rank(row.waits), longest, row.at)
    });
    rows
}

/// Since when a wheel end is where it is: the look that left it there, else the last thing done.
fn since(card: &Card, at: Place, waits: Waits) -> Option<Stamp> {
    let entry = match waits {
        Waits::Accepted | Waits::SentBack => looks(card, at).pop().map(|told| told.entry),
        Waits::Changed => changes(card, at).pop(),
        Waits::NotYet | Waits::ForTheFirst | Waits::Again => {
            work(card, at).rfind(|entry| entry.struck.is_none())
        }
    };
    entry.map(|entry| entry.at)
}

/// Every look at this wheel end, first to last.
pub fn looks(card: &Card, at: Place) -> Vec<Told<'_>> {
    card.entries
        .iter()
        .filter(|entry| match entry.event() {
            Some(Event::Answered {
                at: place, step, ..
            }) => *place == at && step.as_str() == STEP,
            _ => false,
        })
        .map(|entry| told(card, entry))
        .collect()
}

/// What was said or taken back after the acceptance that no longer stands. Empty if none was given.
pub fn changes(card: &Card, at: Place) -> Vec<&Entry> {
    let looked = looks(card, at);
    let last = looked.iter().rfind(|told| told.fate == Fate::Stands);
    let Some(Event::Answered {
        answer:
            Answer::Look {
                accepted: true,
                seen: Some(seen),
                ..
            },
        ..
    }) = last.and_then(|told| told.entry.event())
    else {
        return Vec::new();
    };
    if seen.digest == super::seen(card, at).digest {
        return Vec::new();
    }
    card.entries
        .iter()
        .filter(|entry| !was_seen(seen, &entry.line))
        .filter(|entry| {
            entry
                .event()
                .is_some_and(|event| changes_rows(card, event, at))
        })
        .collect()
}

fn was_seen(seen: &Seen, line: &LineRef) -> bool {
    seen.heads
        .get(&line.tablet)
        .is_some_and(|head| line.n <= head.n)
}

/// The last look if it sent the wheel end back and none came after it.
pub fn sent_back(card: &Card, at: Place) -> Option<&Entry> {
    let last = looks(card, at)
        .into_iter()
        .rfind(|told| told.fate == Fate::Stands)?;
    let back = |answer: &Answer| {
        matches!(
            answer,
            Answer::Look {
                accepted: false,
                ..
            }
        )
    };
    matches!(last.entry.event(), Some(Event::Answered { answer, .. }) if back(answer))
        .then_some(last.entry)
}

/// The round before the work and the one after it, at this wheel end.
pub fn rounds(card: &Card, at: Place) -> Vec<Round<'_>> {
    let Some(procedure) = card.procedure.as_deref() else {
        return Vec::new();
    };
    ROUNDS
        .iter()
        .filter_map(|id| procedure.step(&StepId::from(*id)))
        .map(|step| Round {
            step,
            skipped: card
                .places(step.scope, at)
                .into_iter()
                .filter_map(|place| card.skips.get(&(place, step.id.clone())))
                .flat_map(|slot| slot.live())
                .map(|held| &held.value)
                .next(),
            read: step
                .asks
                .iter()
                .filter(|ask| {
                    matches!(ask.kind, AskKind::Reading(_)) && ask.scope == Some(Scope::End)
                })
                .map(|ask| {
                    let slot = card.slot(step, ask, at, Item::Only);
                    let live = slot.into_iter().flat_map(|slot| slot.live());
                    (ask, live.map(|held| &held.value).collect())
                })
                .collect(),
        })
        .collect()
}

/// Every verdict of the wheel end and its axle: the worst first, then by the room left.
pub fn verdicts(card: &Card, at: Place) -> Vec<VerdictRow<'_>> {
    let Some(procedure) = card.procedure.as_deref() else {
        return Vec::new();
    };
    let mut rows = Vec::new();
    for step in procedure
        .steps()
        .take_while(|step| step.id.as_str() != STEP)
    {
        for ask in &step.asks {
            let answered = card.answers.iter().filter(|(key, _)| {
                is_own(card, key.at, at) && key.step == step.id && key.ask == ask.id
            });
            for (key, slot) in answered {
                for held in slot.live() {
                    let row = |says| VerdictRow {
                        at: key.at,
                        step,
                        ask,
                        given: &held.value,
                        says,
                    };
                    rows.extend(
                        says(card, key.at, step, ask, &held.value)
                            .into_iter()
                            .map(row),
                    );
                }
            }
        }
    }
    rows.sort_by_key(|row| (Reverse(row.severity()), row.share_left()));
    rows
}

fn says<'a>(card: &Card, at: Place, step: &Step, ask: &'a Ask, given: &'a Given) -> Vec<Says<'a>> {
    if let (AskKind::Choose(offers), Answer::Choice { option }) = (&ask.kind, &given.answer)
        && ask.rule.is_none()
    {
        let eye = offers.iter().find(|offer| offer.id == *option);
        let eye = eye.and_then(|offer| offer.part);
        // What has to go also says what goes with it, where a rule knows.
        if eye == Some(Eye::Sound) || (eye.is_some() && ask.rule.is_none()) {
            return eye.map(Says::Eye).into_iter().collect();
        }
    }
    let then = |judgement: &Judgement| {
        given
            .judged
            .iter()
            .find(|then| then.rule == judgement.rule.0)
    };
    match judge::judge(card, at, step, ask, &given.answer) {
        Ok(Judged::Kept) => given.judged.iter().map(Says::Then).collect(),
        Ok(judged) => judged
            .judgements()
            .into_iter()
            .map(|judgement| Says::Now(Box::new(judgement.clone()), then(judgement)))
            .collect(),
        Err(_) if !given.judged.is_empty() => given.judged.iter().map(Says::Then).collect(),
        Err(words) => vec![Says::Wanting(words)],
    }
}

/// What was said more than once: readings, answers and facts. Nuts have stories of their own.
pub fn history(card: &Card, at: Place) -> Vec<History<'_>> {
    let mut all: Vec<History<'_>> = Vec::new();
    for entry in work(card, at) {
        let Some(about) = about(entry) else {
            continue;
        };
        let told = told(card, entry);
        match all.iter_mut().find(|history| history.about == about) {
            Some(history) => history.said.push(told),
            None => all.push(History {
                about,
                said: vec![told],
            }),
        }
    }
    all.retain(|history| history.said.len() > 1);
    all
}

fn about(entry: &Entry) -> Option<About> {
    match entry.event() {
        Some(Event::Answered {
            at,
            step,
            ask,
            item,
            answer,
            ..
        }) => (!is_of_nuts(answer)).then(|| {
            About::Asked(SlotKey {
                at: *at,
                step: step.clone(),
                ask: ask.clone(),
                item: item.clone(),
            })
        }),
        Some(Event::FactSet { at, fact, .. }) => Some(About::Fact(*at, fact.clone())),
        _ => None,
    }
}

fn is_of_nuts(answer: &Answer) -> bool {
    matches!(answer, Answer::Nut { .. } | Answer::WholePass { .. })
}

/// The nuts of this wheel end, those with something out of the ordinary first.
pub fn nuts(card: &Card, at: Place) -> Vec<NutStory<'_>> {
    let Some(procedure) = card.procedure.as_deref() else {
        return Vec::new();
    };
    let studs = card.studs(at).unwrap_or(0);
    let mut stories: Vec<NutStory<'_>> = (1..=studs)
        .map(|nut| NutStory {
            nut,
            said: Vec::new(),
            plain: true,
        })
        .collect();
    for step in procedure
        .steps()
        .take_while(|step| step.id.as_str() != STEP)
    {
        for ask in &step.asks {
            let AskKind::Pass(pass) = &ask.kind else {
                continue;
            };
            for story in &mut stories {
                let said = said_of(card, at, step, ask, story.nut);
                story.plain &= is_plain(pass, &said);
                story.said.extend(said);
            }
        }
    }
    stories.sort_by_key(|story| (story.plain, story.nut));
    stories
}

/// Good, and said no more than once. A pass that is not for this vehicle has nothing said.
fn is_plain(pass: &Pass, said: &[NutSaid<'_>]) -> bool {
    let good = |mark: &OptionId| {
        let mut marks = pass.marks.iter();
        marks.any(|offer| offer.id == *mark && offer.clears)
    };
    match said {
        [] => true,
        [only] => only.told.fate == Fate::Stands && only.mark.is_none_or(good),
        _ => false,
    }
}

fn said_of<'a>(
    card: &'a Card,
    at: Place,
    step: &'a Step,
    ask: &'a Ask,
    nut: u16,
) -> Vec<NutSaid<'a>> {
    let number = nut.to_string();
    let marked = |entry: &'a Entry| {
        let Some(Event::Answered {
            at: place,
            step: of,
            ask: asked,
            item,
            answer,
            ..
        }) = entry.event()
        else {
            return None;
        };
        if *place != at || *of != step.id || *asked != ask.id {
            return None;
        }
        if let Answer::WholePass { but } = answer {
            let apart = but.iter().find(|one| one.item == number);
            return Some(apart.map(|one| &one.mark));
        }
        let Answer::Nut { mark } = answer else {
            return None;
        };
        (*item == Item::Nut(nut)).then_some(Some(mark))
    };
    card.entries
        .iter()
        .filter_map(|entry| {
            Some(NutSaid {
                step: &step.id,
                ask: &ask.id,
                mark: marked(entry)?,
                told: told(card, entry),
            })
        })
        .collect()
}

/// The extra lines of this wheel end and its axle.
pub fn lines(card: &Card, at: Place) -> Vec<&ExtraLine> {
    card.extra_lines()
        .iter()
        .filter(|extra| extra.at == at || Some(extra.at) == at.axle().map(Place::Axle))
        .collect()
}

/// Who did something here, other than look.
pub fn worked_here(card: &Card, at: Place) -> Vec<&PersonId> {
    card.people
        .keys()
        .filter(|person| card.worked_at(person, at))
        .collect()
}

/// What a reader would not expect.
pub fn apart(card: &Card, at: Place) -> Apart<'_> {
    let said_again: Vec<&LineRef> = history(card, at)
        .into_iter()
        .flat_map(|history| history.said)
        .map(|told| &told.entry.line)
        .collect();
    let mut apart = Apart::default();
    let looked = looks(card, at).into_iter().map(|told| told.entry);
    for entry in work(card, at).chain(looked) {
        if entry.struck.is_some() {
            let nut =
                matches!(entry.event(), Some(Event::Answered { answer, .. }) if is_of_nuts(answer));
            if !nut && !said_again.contains(&&entry.line) {
                apart.struck.push(told(card, entry));
            }
            continue;
        }
        if entry.though.is_some() {
            apart.though.push(entry);
        }
        match entry.event() {
            Some(Event::HoldPassed { .. } | Event::LinePassed { .. }) => apart.passed.push(entry),
            Some(Event::StepSkipped { .. }) => apart.skipped.push(entry),
            _ => {}
        }
    }
    apart
}

/// What stands on this page though something held it. As long as there is one, the wheel end can't
/// be accepted.
pub fn done_though(card: &Card, at: Place) -> Option<&Entry> {
    work(card, at).find(|entry| {
        let held = matches!(
            entry.though,
            Some(Though::Held(_) | Though::BuiltOnStruck { .. })
        );
        let on_a_step = entry.event().is_some_and(|event| event.step().is_some());
        held && on_a_step && entry.struck.is_none() && stands(card, entry)
    })
}

/// The entries that the page of this wheel end is made of, without the looks themselves.
fn work(card: &Card, at: Place) -> impl DoubleEndedIterator<Item = &Entry> {
    card.entries
        .iter()
        .filter(move |entry| entry.event().is_some_and(|event| is_of(card, event, at)))
}

fn is_of(card: &Card, event: &Event, at: Place) -> bool {
    match event {
        Event::Answered {
            answer: Answer::Look { .. },
            ..
        } => false,
        Event::Answered {
            at: place, step, ..
        }
        | Event::StepSkipped {
            at: place, step, ..
        } => is_before(card, step) && is_own(card, *place, at),
        Event::HoldPassed {
            at: place, step, ..
        } => (step.as_str() == STEP || is_before(card, step)) && is_own(card, *place, at),
        Event::FactSet { at: place, .. } | Event::LineFound { at: place, .. } => {
            is_own(card, *place, at)
        }
        Event::LineTold { line, .. } | Event::LinePassed { line, .. } => {
            is_about(card, line, |event| is_of(card, event, at))
        }
        // What was taken back stands where it was said.
        Event::Struck { .. }
        | Event::CardOpened { .. }
        | Event::ProcedureMoved { .. }
        | Event::SignedOn { .. }
        | Event::SignedOff { .. }
        | Event::EndTaken { .. }
        | Event::Joined { .. }
        | Event::PersonListed { .. }
        | Event::PersonLeft { .. }
        | Event::StandListed { .. }
        | Event::StandWithdrawn { .. }
        | Event::CameBack { .. }
        | Event::PutAway { .. }
        | Event::Brought { .. }
        | Event::LinePhoto { .. }
        | Event::LinePart { .. }
        | Event::LineMinutes { .. }
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
        | Event::DefaultSet { .. } => false,
        // They decide at every wheel end, as a fact of the vehicle does.
        Event::ShopTaken { .. } => true,
    }
}

/// True for what can change the rows that an acceptance stands on: also a strike, and what the
/// rounds say of the axle mate.
fn changes_rows(card: &Card, event: &Event, at: Place) -> bool {
    if let Event::Struck { line, .. } | Event::LineTold { line, .. } = event {
        return is_about(card, line, |event| changes_rows(card, event, at));
    }
    if let Event::LinePassed { .. } = event {
        return false;
    }
    let on_axle = |place: Place| place.axle().is_none() || place.axle() == at.axle();
    let of_mate = if let Event::Answered {
        at: place,
        step,
        answer,
        ..
    } = event
    {
        let procedure = card.procedure.as_deref();
        let scope = procedure
            .and_then(|known| known.step(step))
            .map(|step| step.scope);
        let looks = matches!(answer, Answer::Look { .. });
        !looks && on_axle(*place) && scope == Some(Scope::Vehicle) && is_before(card, step)
    } else if let Event::FactSet { at: place, .. } | Event::LineFound { at: place, .. } = event {
        on_axle(*place)
    } else {
        false
    };
    of_mate || is_of(card, event, at)
}

fn is_about(card: &Card, line: &LineRef, is: impl Fn(&Event) -> bool) -> bool {
    card.entry(line).and_then(Entry::event).is_some_and(is)
}

fn told<'a>(card: &Card, entry: &'a Entry) -> Told<'a> {
    let fate = match &entry.struck {
        Some(by) => Fate::Struck(by.clone()),
        None if stands(card, entry) => Fate::Stands,
        None => Fate::Overtaken,
    };
    Told { entry, fate }
}

/// True if nobody has overtaken what an entry says.
pub(crate) fn stands(card: &Card, entry: &Entry) -> bool {
    match entry.event() {
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
            let slot = card.answers.get(&key);
            slot.is_some_and(|slot| slot.live().iter().any(|held| held.line == entry.line))
        }
        Some(Event::FactSet { at, fact, .. }) => card
            .fact_slot(*at, fact)
            .is_some_and(|slot| slot.live().iter().any(|held| held.line == entry.line)),
        Some(Event::StepSkipped { at, step, .. }) => card
            .skips
            .get(&(*at, step.clone()))
            .is_some_and(|slot| slot.live().iter().any(|held| held.line == entry.line)),
        _ => true,
    }
}

fn is_before(card: &Card, step: &StepId) -> bool {
    let look = StepId::from(STEP);
    card.procedure
        .as_deref()
        .is_some_and(|procedure| procedure.order(step) < procedure.order(&look))
}

/// This wheel end, its axle, the axle that its group is told at, and the vehicle.
fn is_own(card: &Card, place: Place, at: Place) -> bool {
    let told_at = |axle| place == Place::Axle(axle) || place == Place::Axle(card.group_first(axle));
    place == at || place == Place::Vehicle || at.axle().is_some_and(told_at)
}

#[cfg(test)]
mod tests;
