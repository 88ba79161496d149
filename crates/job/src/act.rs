//! Everything that can be done on a card: each asks what stands against it, then makes a draft.
//!
//! A [`Draft`] is the only thing that [`Trail::write`] turns into a line, and only this module
//! and [`crate::shop`] make one. Time and ids come in as arguments.

use chrono::TimeDelta;
use rules::rules::EDITION;

use crate::card::{Card, Entry, can_be_struck};
use crate::event::{Answer, Event, FactValue, Heads, Item, LineState, Role, StandUsed, WithAnswer};
use crate::extra::ExtraLine;
use crate::hold::{self, Hold, MayTake};
use crate::id::{AskId, FactId, FindingId, OptionId, PersonId, Place, StepId, TabletId};
use crate::judge::{self, Units};
use crate::layout::Layout;
use crate::line::{Line, LineRef, Said, Sha, Stamp};
use crate::procedure::{Ask, AskKind, FactKind, Items, Procedure};
use crate::second_look;
use crate::trail::Trail;
use crate::words::{Arg, Words};

/// Longest text that a person may type into one field, in bytes.
pub const TEXT_MAX: usize = 400;

/// Something that may be written down.
#[derive(Debug, PartialEq)]
pub struct Draft(Event);

impl Draft {
    pub(crate) fn new(event: Event) -> Self {
        Self(event)
    }

    pub fn event(&self) -> &Event {
        &self.0
    }
}

/// Why something that was said is not taken. What was typed stays on the screen.
#[derive(Clone, Debug, PartialEq)]
pub enum Refusal {
    /// The card has changed since the question was asked.
    Stale,
    Held(Box<Hold>),
    /// Said in words of its own.
    Words(Words),
}

impl Refusal {
    pub fn words(&self, card: &Card) -> Words {
        match self {
            Self::Stale => Words::plain("refuse.stale"),
            Self::Held(hold) => hold.words(card),
            Self::Words(words) => words.clone(),
        }
    }

    pub(crate) fn plain(key: &str) -> Self {
        Self::Words(Words::plain(key))
    }
}

impl From<Hold> for Refusal {
    fn from(hold: Hold) -> Self {
        Self::Held(Box::new(hold))
    }
}

impl From<Words> for Refusal {
    fn from(words: Words) -> Self {
        Self::Words(words)
    }
}

/// What a new card starts with.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Setup {
    pub unit: String,
    pub vehicle: Option<OptionId>,
    pub layout: Option<String>,
    pub loaded: Option<OptionId>,
    pub in_hand: Vec<u8>,
}

/// Opens a card, or lists everything that is still wanting.
pub fn open_card(
    procedure: &Procedure,
    app: &str,
    setup: &Setup,
) -> Result<Vec<Draft>, Vec<Words>> {
    let mut wanting = Vec::new();
    let unit = setup.unit.trim();
    if unit.is_empty() {
        wanting.push(Words::plain("setup.unit-missing"));
    } else if unit.len() > TEXT_MAX {
        wanting.push(Words::plain("setup.text-too-long"));
    }
    let offered = |fact: &str, choice: &Option<OptionId>| match procedure
        .fact(&fact.into())
        .map(|def| &def.kind)
    {
        Some(FactKind::Choose(options)) => choice.clone().filter(|choice| options.contains(choice)),
        _ => None,
    };
    let vehicle = offered("vehicle", &setup.vehicle);
    if vehicle.is_none() {
        wanting.push(Words::plain("setup.vehicle-missing"));
    }
    let loaded = offered("loaded", &setup.loaded);
    if loaded.is_none() {
        wanting.push(Words::plain("setup.loaded-missing"));
    }
    let layout = setup.layout.as_deref().and_then(Layout::read);
    match &layout {
        None => wanting.push(Words::plain("setup.layout-missing")),
        Some(layout)
            if setup
                .in_hand
                .iter()
                .any(|&axle| axle == 0 || axle > layout.axles()) =>
        {
            wanting.push(Words::plain("setup.in-hand-unknown"));
        }
        Some(_) => {}
    }
    if setup.in_hand.is_empty() {
        wanting.push(Words::plain("setup.in-hand-missing"));
    }
    let (Some(vehicle), Some(loaded), Some(layout), []) =
        (vehicle, loaded, &setup.layout, wanting.as_slice())
    else {
        return Err(wanting);
    };
    let fact = |id: &str, value: FactValue| {
        Draft::new(Event::FactSet {
            at: Place::Vehicle,
            fact: FactId::from(id),
            value,
        })
    };
    let mut in_hand = setup.in_hand.clone();
    in_hand.sort_unstable();
    in_hand.dedup();
    Ok(vec![
        Draft::new(Event::CardOpened {
            procedure: procedure.pin.clone(),
            rules: EDITION.to_owned(),
            app: app.to_owned(),
        }),
        fact("unit", FactValue::Text(unit.to_owned())),
        fact("vehicle", FactValue::Choice(vehicle)),
        fact("layout", FactValue::Text(layout.clone())),
        fact("loaded", FactValue::Choice(loaded)),
        fact("in-hand", FactValue::Axles(in_hand)),
    ])
}

/// A person takes up the card.
pub fn sign_on(person: &PersonId, name: &str, role: Role) -> Draft {
    Draft::new(Event::SignedOn {
        person: person.clone(),
        name: name.to_owned(),
        role,
    })
}

/// A person stops working on this vehicle, once their own tag is off. Another's sign-off is the
/// foreman's to say, with a reason.
pub fn sign_off(
    card: &Card,
    who: &PersonId,
    person: &PersonId,
    why: &str,
) -> Result<Draft, Refusal> {
    if let Some(hold) = hold::may_act(card, who) {
        return Err(hold.into());
    }
    if who != person && card.role(who) != Some(Role::Foreman) {
        return Err(Refusal::plain("refuse.foreman-only"));
    }
    let why = why.trim();
    if why.len() > TEXT_MAX {
        return Err(Refusal::plain("setup.text-too-long"));
    }
    if who == person && card.has_tag_on(person) {
        return Err(Refusal::plain("refuse.tag-on"));
    }
    if who != person && why.is_empty() {
        return Err(Refusal::plain("refuse.reason-missing"));
    }
    Ok(Draft::new(Event::SignedOff {
        person: person.clone(),
        why: (who != person).then(|| why.to_owned()),
    }))
}

/// A person takes a wheel end.
pub fn take_end(card: &Card, who: &PersonId, at: Place) -> Result<Draft, Refusal> {
    if let Some(hold) = hold::may_act(card, who) {
        return Err(hold.into());
    }
    Ok(Draft::new(Event::EndTaken { at }))
}

/// Gives a fact of the set-up sheet.
pub fn set_fact(
    card: &Card,
    who: &PersonId,
    at: Place,
    fact: &FactId,
    value: FactValue,
) -> Result<Draft, Refusal> {
    if let Some(hold) = hold::may_act(card, who) {
        return Err(hold.into());
    }
    let def = card
        .procedure
        .as_deref()
        .and_then(|procedure| procedure.fact(fact));
    let def = def.ok_or_else(|| Refusal::plain("refuse.wrong-kind"))?;
    if !card.places(def.scope, Place::Vehicle).contains(&at) {
        return Err(Hold::NotOnPath.into());
    }
    match (&def.kind, &value) {
        (FactKind::Choose(options), FactValue::Choice(option)) if options.contains(option) => {}
        (FactKind::Choose(_), FactValue::Choice(_)) => {
            return Err(Refusal::plain("refuse.not-offered"));
        }
        (FactKind::Reading(reading), FactValue::Typed(text)) => {
            let typed = text.typed().map_err(|fault| Words::from(&fault))?;
            if !reading.units.iter().any(|unit| unit.0 == typed.unit()) {
                return Err(Refusal::plain("refuse.wrong-unit"));
            }
        }
        (FactKind::Count(_), FactValue::Count(_)) => {}
        (FactKind::Axles, FactValue::Axles(axles)) => {
            let last = card.layout().map_or(0, |layout| layout.axles());
            if axles.is_empty() {
                return Err(Refusal::plain("setup.in-hand-missing"));
            }
            if axles.iter().any(|&axle| axle == 0 || axle > last) {
                return Err(Refusal::plain("setup.in-hand-unknown"));
            }
            // Its wheels may be off: what it still needs can't be made to vanish.
            if !card.begun.iter().all(|axle| axles.contains(axle)) {
                return Err(Refusal::plain("setup.in-hand-begun"));
            }
        }
        (FactKind::Text, FactValue::Text(text)) => {
            if text.len() > TEXT_MAX {
                return Err(Refusal::plain("setup.text-too-long"));
            }
            if text.trim().is_empty() {
                return Err(Refusal::plain("refuse.wrong-kind"));
            }
            if fact.as_str() == "layout" {
                let layout =
                    Layout::read(text).ok_or_else(|| Refusal::plain("refuse.wrong-kind"))?;
                if card.axles_in_hand().last() > Some(&layout.axles()) {
                    return Err(Refusal::plain("setup.in-hand-unknown"));
                }
            }
        }
        (_, FactValue::NotKnown) if def.may_be_unknown => {}
        _ => return Err(Refusal::plain("refuse.wrong-kind")),
    }
    if fact.as_str() == "studs" && card.has_nuts_logged(at) {
        return Err(Refusal::plain("refuse.studs-in-use"));
    }
    if value
        .choice()
        .is_some_and(|choice| choice.as_str() == "not-asked")
        && card.apprentice_worked_at(at)
    {
        return Err(Refusal::plain("refuse.apprentice-end"));
    }
    judge::check_fact(card, at, fact, &value)?;
    Ok(Draft::new(Event::FactSet {
        at,
        fact: fact.clone(),
        value,
    }))
}

/// Answers what a step asks. Uses the proof up. `units` are those that the verdict was shown in.
pub fn take(card: &Card, proof: MayTake, answer: Answer, units: &Units) -> Result<Draft, Refusal> {
    let MayTake {
        who,
        at,
        step,
        ask,
        item,
        beside,
        heads,
    } = proof;
    if heads != card.heads {
        return Err(Refusal::Stale);
    }
    // A text that can't be read moves no head.
    if let Some(hold) = hold::of_trail(card) {
        return Err(hold.into());
    }
    let procedure = card.procedure.as_deref().ok_or(Hold::UnknownProcedure)?;
    let wanted = procedure.step(&step).ok_or(Hold::NotOnPath)?;
    let asked = procedure.ask(&step, &ask).ok_or(Hold::NotOnPath)?;
    let gone = |person: &PersonId| !card.people.get(person).is_some_and(|signed| signed.on);
    if wanted.protects()
        && (!card.stands_beside(&who, beside.as_ref()) || beside.as_ref().is_some_and(gone))
    {
        return Err(Refusal::plain("refuse.beside"));
    }
    fits_ask(card, asked, at, &item, &answer)?;
    if let Some(words) = judge::stroke::refuses_turn(card, at, &step) {
        return Err(words.into());
    }
    if let Some(words) = second_look::refuses(card, at, &step, &answer) {
        return Err(words.into());
    }
    let judged = judge::judge(card, at, wanted, asked, &answer).map_err(Refusal::Words)?;
    if let Some(words) = judge::refuses(&judged) {
        return Err(words.into());
    }
    Ok(Draft::new(Event::Answered {
        judged: judged.then(units),
        answer: with_seen(card, at, &step, answer),
        at,
        step,
        ask,
        item,
        beside,
    }))
}

/// A second look keeps what was on the page, so that it can be told when that changes.
fn with_seen(card: &Card, at: Place, step: &StepId, mut answer: Answer) -> Answer {
    if let Answer::Look { seen, .. } = &mut answer {
        *seen = (step.as_str() == second_look::STEP).then(|| Box::new(second_look::seen(card, at)));
    }
    answer
}

/// The same as [`take`], with the extra line that an answer brings up, if it does.
pub fn take_with_line(
    card: &Card,
    proof: MayTake,
    answer: Answer,
    units: &Units,
) -> Result<Vec<Draft>, Refusal> {
    let (at, step, ask) = (proof.at, proof.step.clone(), proof.ask.clone());
    let line = brings_up(card, at, &step, &ask, &answer);
    let mut drafts = vec![take(card, proof, answer, units)?];
    drafts.extend(line);
    Ok(drafts)
}

/// The extra line of a part or a nut found bad, unless there is one already.
pub(crate) fn brings_up(
    card: &Card,
    at: Place,
    step: &StepId,
    ask: &AskId,
    answer: &Answer,
) -> Option<Draft> {
    let procedure = card.procedure.as_deref()?;
    let (offers, said): (_, Vec<&OptionId>) = match (&procedure.ask(step, ask)?.kind, answer) {
        (AskKind::Choose(offers), Answer::Choice { option }) => (offers, vec![option]),
        (AskKind::Pass(pass), Answer::Nut { mark }) => (&pass.marks, vec![mark]),
        (AskKind::Pass(pass), Answer::WholePass { but }) => {
            (&pass.marks, but.iter().map(|one| &one.mark).collect())
        }
        _ => return None,
    };
    let mut said = offers.iter().filter(|offer| said.contains(&&offer.id));
    let finding = said.find_map(|offer| procedure.finding(offer.finding.as_ref()?))?;
    let there = card.extra_lines().iter().any(|extra| {
        extra.at == at && extra.finding == finding.id && extra.state != LineState::Done
    });
    if there {
        return None;
    }
    Some(Draft::new(Event::LineFound {
        at,
        finding: finding.id.clone(),
        fix: finding.fixes.first()?.clone(),
        words: None,
        with: Some(WithAnswer {
            step: step.clone(),
            ask: ask.clone(),
        }),
    }))
}

/// Puts work that was found on the card.
pub fn find(
    card: &Card,
    who: &PersonId,
    at: Place,
    finding: &FindingId,
    fix: &OptionId,
    words: &str,
) -> Result<Draft, Refusal> {
    if let Some(hold) = hold::may_act(card, who) {
        return Err(hold.into());
    }
    let known = card
        .finding(finding)
        .ok_or_else(|| Refusal::plain("refuse.finding-unknown"))?;
    if !known.fixes.contains(fix) {
        return Err(Refusal::plain("refuse.not-offered"));
    }
    let axles = card.layout().map_or(0, |layout| layout.axles());
    if at.axle().is_some_and(|axle| axle > axles) {
        return Err(Hold::NotOnPath.into());
    }
    let words = words.trim();
    if words.len() > TEXT_MAX {
        return Err(Refusal::plain("setup.text-too-long"));
    }
    Ok(Draft::new(Event::LineFound {
        at,
        finding: finding.clone(),
        fix: fix.clone(),
        words: (!words.is_empty()).then(|| words.to_owned()),
        with: None,
    }))
}

/// Says how far an extra line is. Its work is done only after somebody said yes to it.
pub fn tell(
    card: &Card,
    who: &PersonId,
    line: &LineRef,
    state: LineState,
) -> Result<Draft, Refusal> {
    told(card, who, line, state, None)
}

/// The same as [`tell`], with the name of the customer's person who was asked.
pub fn tell_asked(
    card: &Card,
    who: &PersonId,
    line: &LineRef,
    state: LineState,
    asked: &str,
) -> Result<Draft, Refusal> {
    let asked = asked.trim();
    if asked.is_empty() {
        return Err(Refusal::plain("refuse.asked-missing"));
    }
    if asked.len() > TEXT_MAX {
        return Err(Refusal::plain("setup.text-too-long"));
    }
    told(card, who, line, state, Some(asked.to_owned()))
}

fn told(
    card: &Card,
    who: &PersonId,
    line: &LineRef,
    state: LineState,
    asked: Option<String>,
) -> Result<Draft, Refusal> {
    if let Some(hold) = hold::may_act(card, who) {
        return Err(hold.into());
    }
    let extra = card
        .extra_line(line)
        .ok_or_else(|| Refusal::plain("refuse.line-unknown"))?;
    if state == LineState::Done && extra.state != LineState::SaidYes {
        return Err(Refusal::plain("refuse.line-not-agreed"));
    }
    if state == LineState::Done && !card.may_be_done_by(extra, who) {
        return Err(Refusal::plain("refuse.beside"));
    }
    Ok(Draft::new(Event::LineTold {
        line: line.clone(),
        state,
        asked,
    }))
}

/// A photo of what a line is about, by the hashes of its bytes and of a small copy. The bytes are
/// to be kept before.
pub fn photo(
    card: &Card,
    who: &PersonId,
    line: &LineRef,
    (photo, small): (Sha, Sha),
) -> Result<Draft, Refusal> {
    may_note(card, who, line)?;
    Ok(Draft::new(Event::LinePhoto {
        line: line.clone(),
        photo,
        small,
    }))
}

/// A part that a line needs. The number may be left out.
pub fn note_part(
    card: &Card,
    who: &PersonId,
    line: &LineRef,
    part: &str,
    number: &str,
) -> Result<Draft, Refusal> {
    may_note(card, who, line)?;
    let (part, number) = (part.trim(), number.trim());
    if part.is_empty() {
        return Err(Refusal::plain("refuse.part-missing"));
    }
    if part.len().max(number.len()) > TEXT_MAX {
        return Err(Refusal::plain("setup.text-too-long"));
    }
    Ok(Draft::new(Event::LinePart {
        line: line.clone(),
        part: part.to_owned(),
        number: (!number.is_empty()).then(|| number.to_owned()),
    }))
}

/// Time spent on a line.
pub fn note_minutes(
    card: &Card,
    who: &PersonId,
    line: &LineRef,
    minutes: u16,
) -> Result<Draft, Refusal> {
    may_note(card, who, line)?;
    if minutes == 0 {
        return Err(Refusal::plain("refuse.minutes-missing"));
    }
    Ok(Draft::new(Event::LineMinutes {
        line: line.clone(),
        minutes,
    }))
}

fn may_note(card: &Card, who: &PersonId, line: &LineRef) -> Result<(), Refusal> {
    if let Some(hold) = hold::may_act(card, who) {
        return Err(hold.into());
    }
    match card.extra_line(line) {
        Some(_) => Ok(()),
        None => Err(Refusal::plain("refuse.line-unknown")),
    }
}

/// A foreman lets work go on over an extra line to which the customer said no.
pub fn pass_line(card: &Card, who: &PersonId, line: &LineRef, why: &str) -> Result<Draft, Refusal> {
    if let Some(hold) = hold::may_act(card, who) {
        return Err(hold.into());
    }
    if card.role(who) != Some(Role::Foreman) {
        return Err(Refusal::plain("refuse.foreman-only"));
    }
    let extra = card
        .extra_line(line)
        .ok_or_else(|| Refusal::plain("refuse.line-unknown"))?;
    if !card.may_pass(extra) {
        return Err(Refusal::plain("refuse.line-not-passed"));
    }
    let why = why.trim();
    if why.is_empty() {
        return Err(Refusal::plain("refuse.reason-missing"));
    }
    if why.len() > TEXT_MAX {
        return Err(Refusal::plain("setup.text-too-long"));
    }
    Ok(Draft::new(Event::LinePassed {
        line: line.clone(),
        why: why.to_owned(),
    }))
}

/// After a long gap: what keeps the vehicle where it is was looked at.
pub fn come_back(
    card: &Card,
    who: &PersonId,
    but: &[OptionId],
    beside: Option<PersonId>,
    now: Stamp,
) -> Result<Draft, Refusal> {
    if let Some(hold) = hold::may_act(card, who) {
        return Err(hold.into());
    }
    let gone = |person: &PersonId| !card.people.get(person).is_some_and(|signed| signed.on);
    if !card.stands_beside(who, beside.as_ref()) || beside.as_ref().is_some_and(gone) {
        return Err(Refusal::plain("refuse.beside"));
    }
    let asked = card.to_look_at(now.utc);
    if asked.is_empty() || !but.iter().all(|one| asked.contains(&one)) {
        return Err(Refusal::plain("refuse.not-offered"));
    }
    Ok(Draft::new(Event::CameBack {
        but: but.to_vec(),
        beside,
    }))
}

/// Takes a card out of the daily list, or puts it back. Nothing of it is deleted.
///
/// Anybody may, signed on or not: it says nothing of the vehicle. Only a foreman of the card puts
/// one away whose vehicle still stands in the bay.
pub fn put_away(card: &Card, who: &PersonId, away: bool) -> Result<Draft, Refusal> {
    if let Some(hold) = hold::of_trail(card) {
        return Err(hold.into());
    }
    if away && card.stands_in_the_bay() && card.role(who) != Some(Role::Foreman) {
        return Err(Refusal::plain("refuse.stands-in-the-bay"));
    }
    Ok(Draft::new(Event::PutAway { away }))
}

pub(crate) fn fits_ask(
    card: &Card,
    ask: &Ask,
    at: Place,
    item: &Item,
    answer: &Answer,
) -> Result<(), Refusal> {
    let wrong_kind = || Refusal::plain("refuse.wrong-kind");
    let not_offered = || Refusal::plain("refuse.not-offered");
    let item_fits = match (&ask.kind, item) {
        (AskKind::Press(press), Item::Person(_)) => press.each_person,
        (AskKind::Press(press), Item::Only) => !press.each_person,
        (AskKind::Pass(_), Item::Nut(n)) => {
            *n > 0 && card.studs(at).is_some_and(|studs| *n <= studs)
        }
        (AskKind::Pass(pass), Item::Only) => pass.may_be_whole(),
        (_, item) => *item == Item::Only,
    };
    if !item_fits {
        return Err(wrong_kind());
    }
    match (&ask.kind, answer) {
        (AskKind::Lines(lines), Answer::Lines { out }) => {
            if out.iter().all(|line| lines.contains(line)) {
                Ok(())
            } else {
                Err(not_offered())
            }
        }
        (AskKind::Choose(offers), Answer::Choice { option }) => {
            let offered = offers
                .iter()
                .any(|offer| offer.id == *option && card.fits(&offer.when, at));
            if offered { Ok(()) } else { Err(not_offered()) }
        }
        (AskKind::Press(press), Answer::Press { option }) => {
            let offered = press
                .answers
                .iter()
                .any(|offer| offer.id == *option && card.fits(&offer.when, at));
            if offered { Ok(()) } else { Err(not_offered()) }
        }
        (AskKind::Reading(reading), Answer::Reading { typed }) => {
            let typed = typed.typed().map_err(|fault| Words::from(&fault))?;
            if reading.units.iter().any(|unit| unit.0 == typed.unit()) {
                Ok(())
            } else {
                Err(Refusal::plain("refuse.wrong-unit"))
            }
        }
        (AskKind::Reading(_), Answer::Jack { used }) if ask.takes_a_jack() => {
            let typed = used.tag.rating.typed();
            typed.map_err(|fault| Words::from(&fault))?;
            Ok(())
        }
        (AskKind::Count(ask), Answer::Count { count }) => {
            if *count == 0 && ask.usual[0] > 0 {
                Err(Refusal::plain("refuse.count-none"))
            } else {
                Ok(())
            }
        }
        (AskKind::Wheels, Answer::Wheels { at }) => {
            if at.is_empty() {
                Err(Refusal::plain("refuse.no-wheels"))
            } else if at.iter().all(|wheel| card.stays_down(*wheel)) {
                Ok(())
            } else {
                Err(Refusal::plain("refuse.wheel-in-the-air"))
            }
        }
        (AskKind::Exceptions(exceptions), Answer::Exceptions { but }) => {
            let there = |item: &str| match &exceptions.of {
                Items::Studs => item
                    .parse()
                    .is_ok_and(|n: u16| n > 0 && n <= card.studs(at).unwrap_or(u16::MAX)),
                Items::Named(named) => named.iter().any(|name| name.as_str() == item),
            };
            if but
                .iter()
                .all(|one| exceptions.marks.contains(&one.mark) && there(&one.item))
            {
                Ok(())
            } else {
                Err(not_offered())
            }
        }
        (AskKind::Pass(pass), Answer::WholePass { but }) => {
            let marked = |mark: &OptionId| pass.marks.iter().any(|offer| offer.id == *mark);
            let there = |item: &str| {
                item.parse()
                    .is_ok_and(|n: u16| n > 0 && n <= card.studs(at).unwrap_or(0))
            };
            if but.iter().all(|one| marked(&one.mark) && there(&one.item)) {
                Ok(())
            } else {
                Err(not_offered())
            }
        }
        (AskKind::Pass(pass), Answer::Nut { mark }) => {
            if pass.marks.iter().any(|offer| offer.id == *mark) {
                Ok(())
            } else {
                Err(not_offered())
            }
        }
        (AskKind::Stands, Answer::Stands { stands }) => {
            stands_read(stands)?;
            stands_apart(card, at, stands)
        }
        (AskKind::Wrench, Answer::Wrench { used }) => used
            .tag
            .rule()
            .map(|_| ())
            .map_err(|fault| Words::from(&fault).into()),
        (
            AskKind::Look,
            Answer::Look {
                accepted,
                why,
                again,
                ..
            },
        ) => {
            if !accepted && why.as_deref().is_none_or(|why| why.trim().is_empty()) {
                return Err(Refusal::plain("refuse.reason-missing"));
            }
            if why.as_deref().is_some_and(|why| why.len() > TEXT_MAX) {
                return Err(Refusal::plain("setup.text-too-long"));
            }
            let can = second_look::can_be_sent_back(card, at);
            if *accepted && !again.is_empty()
                || !again.iter().all(|id| can.iter().any(|step| step.id == *id))
            {
                return Err(not_offered());
            }
            Ok(())
        }
        _ => Err(wrong_kind()),
    }
}

fn stands_read(stands: &[StandUsed]) -> Result<(), Refusal> {
    if stands.len() > 8 {
        return Err(Refusal::plain("refuse.too-many"));
    }
    for stand in stands {
        stand.tag.rule().map_err(|fault| Words::from(&fault))?;
    }
    Ok(())
}

/// One stand stands in one place: not twice here, and not under another axle that is up on it.
fn stands_apart(card: &Card, at: Place, stands: &[StandUsed]) -> Result<(), Refusal> {
    let mut numbered = stands
        .iter()
        .map(|stand| &stand.stand)
        .filter(|number| !number.is_empty());
    let elsewhere = card.stands_in_use(at);
    let mut seen = Vec::new();
    numbered.try_for_each(|number| {
        let named = [("number", Arg::Text(number.clone()))];
        if seen.contains(&number) {
            return Err(Words::with("refuse.stand-twice", named).into());
        }
        if elsewhere.contains(number) {
            return Err(Words::with("refuse.stand-elsewhere", named).into());
        }
        seen.push(number);
        Ok(())
    })
}

/// Leaves a step out, for one of the reasons that it offers.
pub fn skip(
    card: &Card,
    who: &PersonId,
    at: Place,
    step: &StepId,
    why: &OptionId,
    now: Stamp,
) -> Result<Draft, Refusal> {
    if let Some(hold) = hold::may_act(card, who)
        .or_else(|| hold::first_hold(card, step, at))
        .or_else(|| hold::of_gap(card, now))
    {
        return Err(hold.into());
    }
    let wanted = card
        .procedure
        .as_deref()
        .and_then(|procedure| procedure.step(step))
        .ok_or(Hold::NotOnPath)?;
    if !card.places(wanted.scope, Place::Vehicle).contains(&at) {
        return Err(Hold::NotOnPath.into());
    }
    if !wanted.skips.contains(why) {
        return Err(Refusal::plain("refuse.not-a-skip"));
    }
    Ok(Draft::new(Event::StepSkipped {
        at,
        step: step.clone(),
        why: why.clone(),
    }))
}

/// A foreman passes a hold that does not protect a person, with a reason.
///
/// With `step` and `first` the same it is the foreman's reason for an answer that needs one.
pub fn pass(
    card: &Card,
    who: &PersonId,
    at: Place,
    step: &StepId,
    first: &StepId,
    why: &str,
) -> Result<Draft, Refusal> {
    if let Some(hold) = hold::may_act(card, who) {
        return Err(hold.into());
    }
    if card.role(who) != Some(Role::Foreman) {
        return Err(Refusal::plain("refuse.foreman-only"));
    }
    let why = why.trim();
    if why.is_empty() {
        return Err(Refusal::plain("refuse.reason-missing"));
    }
    if why.len() > TEXT_MAX {
        return Err(Refusal::plain("setup.text-too-long"));
    }
    let procedure = card.procedure.as_deref().ok_or(Hold::UnknownProcedure)?;
    let wanted = procedure.step(step).ok_or(Hold::NotOnPath)?;
    let there_is_one = if step == first {
        card.needs_foreman(wanted, at)
    } else {
        procedure
            .holds
            .iter()
            .any(|hold| hold.first == *first && hold.then == *step)
            || hold::may_be_passed(card, step, at, first)
    };
    if !there_is_one || hold::never_passed(card, step, first) {
        return Err(Refusal::plain("refuse.cannot-pass"));
    }
    Ok(Draft::new(Event::HoldPassed {
        at,
        step: step.clone(),
        first: first.clone(),
        why: why.to_owned(),
    }))
}

/// Proof that a line may be taken back by this person.
#[derive(Debug)]
pub struct MayStrike {
    line: LineRef,
    heads: Heads,
    /// No typed reason is needed: own entry, fresh, nothing built on it.
    pub at_once: bool,
}

/// Asks whether `who` may take back `line`.
pub fn may_strike(
    card: &Card,
    who: &PersonId,
    line: &LineRef,
    now: Stamp,
) -> Result<MayStrike, Refusal> {
    if let Some(hold) = hold::may_act(card, who) {
        return Err(hold.into());
    }
    let entry = card
        .entry(line)
        .ok_or_else(|| Refusal::plain("refuse.unknown-line"))?;
    if entry.struck.is_some() {
        return Err(Refusal::plain("refuse.already-struck"));
    }
    let Said::Known(event) = &entry.said else {
        return Err(Refusal::plain("refuse.cannot-strike"));
    };
    if !can_be_struck(event) {
        return Err(Refusal::plain("refuse.cannot-strike"));
    }
    if entry.who != *who && card.role(who) != Some(Role::Foreman) {
        return Err(Words::with(
            "refuse.not-theirs",
            [("name", Arg::Text(card.name(&entry.who).to_owned()))],
        )
        .into());
    }
    let told = |extra: &ExtraLine| !extra.told.is_empty();
    if card.extra_line(line).is_some_and(told) && card.role(who) != Some(Role::Foreman) {
        return Err(Refusal::plain("refuse.foreman-only"));
    }
    let age = now.utc.signed_duration_since(entry.at.utc);
    let fresh = age >= TimeDelta::zero() && age <= TimeDelta::seconds(60);
    let at_once = entry.who == *who && fresh && built_on(card, entry).is_none();
    Ok(MayStrike {
        line: line.clone(),
        heads: card.heads.clone(),
        at_once,
    })
}

/// The first later entry that would not be as it is without this one.
pub fn built_on<'a>(card: &'a Card, entry: &Entry) -> Option<&'a Entry> {
    let procedure = card.procedure.as_deref()?;
    let later = card
        .entries
        .iter()
        .skip_while(|other| other.line != entry.line)
        .skip(1);
    let told_of = match entry.event() {
        Some(Event::LineTold { line, .. }) => Some(line),
        _ => None,
    };
    let rests_on = |other: &&Entry| {
        let Said::Known(event) = &other.said else {
            return false;
        };
        if let Event::LinePhoto { line, .. }
        | Event::LinePart { line, .. }
        | Event::LineMinutes { line, .. } = event
        {
            return *line == entry.line;
        }
        if let Event::LineTold { line, .. } | Event::LinePassed { line, .. } = event {
            return *line == entry.line || told_of == Some(line);
        }
        let Some((at, step)) = event.step() else {
            return false;
        };
        let holds = |first: &StepId| {
            procedure
                .holds
                .iter()
                .any(|hold| hold.first == *first && hold.then == *step)
        };
        match entry.event() {
            // Every judgement after a fact may have used it.
            Some(Event::FactSet { fact, .. }) => {
                let asks = |ask: &Ask| matches!(&ask.kind, AskKind::Fact(id) if id == fact);
                matches!(event, Event::Answered { judged, .. } if !judged.is_empty())
                    || procedure
                        .steps()
                        .any(|first| first.asks.iter().any(asks) && holds(&first.id))
            }
            Some(Event::HoldPassed {
                at: there,
                step: passed,
                ..
            }) => passed == step && *there == at,
            Some(event) => event.step().is_some_and(|(_, first)| holds(first)),
            None => false,
        }
    };
    later.filter(|other| other.struck.is_none()).find(rests_on)
}

/// Takes a line back. Uses the proof up.
pub fn strike(card: &Card, proof: MayStrike, why: Option<&str>) -> Result<Draft, Refusal> {
    if proof.heads != card.heads {
        return Err(Refusal::Stale);
    }
    if let Some(hold) = hold::of_trail(card) {
        return Err(hold.into());
    }
    let why = why.map(str::trim).filter(|why| !why.is_empty());
    if why.is_none() && !proof.at_once {
        return Err(Refusal::plain("refuse.reason-missing"));
    }
    if why.is_some_and(|why| why.len() > TEXT_MAX) {
        return Err(Refusal::plain("setup.text-too-long"));
    }
    Ok(Draft::new(Event::Struck {
        line: proof.line,
        why: why.map(str::to_owned),
    }))
}

/// Takes a line back, and with an answer the extra line that came of it, if nobody has said
/// anything to that yet.
pub fn strike_with_line(
    card: &Card,
    proof: MayStrike,
    why: Option<&str>,
) -> Result<Vec<Draft>, Refusal> {
    let came_of_it = match card.entry(&proof.line).and_then(Entry::event) {
        Some(Event::Answered { at, step, ask, .. }) => card
            .line_with(&proof.line, (*at, step, ask))
            .filter(|extra| extra.told.is_empty())
            .map(|extra| extra.line.clone()),
        _ => None,
    };
    let why = why.map(str::trim).filter(|why| !why.is_empty());
    let mut drafts = vec![strike(card, proof, why)?];
    drafts.extend(came_of_it.into_iter().map(|line| {
        Draft::new(Event::Struck {
            line,
            why: why.map(str::to_owned),
        })
    }));
    Ok(drafts)
}

/// The card goes on under the newest procedure, with its new `!` steps.
pub fn move_procedure(card: &Card, who: &PersonId, to: &Procedure) -> Result<Draft, Refusal> {
    if let Some(hold) = hold::may_act(card, who) {
        return Err(hold.into());
    }
    Ok(Draft::new(Event::ProcedureMoved { to: to.pin.clone() }))
}

impl Entry {
    /// What happened, if this app knows the kind.
    pub fn event(&self) -> Option<&Event> {
        match &self.said {
            Said::Known(event) => Some(event),
            Said::MayBeSkipped { .. } | Said::MustBeUnderstood { .. } => None,
        }
    }
}

impl Trail {
    /// Turns drafts into the next lines of this tablet's strand. They are not in the trail until
    /// they are kept: save their text first, then [`Trail::take_in`] them.
    ///
    /// If other tablets' lines are here that this strand has not joined, the first new line says
    /// that they were seen.
    pub fn write(
        &self,
        tablet: &TabletId,
        who: &PersonId,
        at: Stamp,
        drafts: Vec<Draft>,
    ) -> Vec<Line> {
        let mut spot = self.next_spot(tablet);
        let mut events: Vec<Event> = drafts.into_iter().map(|draft| draft.0).collect();
        if self.needs_joining(tablet, &self.last_joined(tablet)) {
            events.insert(
                0,
                Event::Joined {
                    heads: self.heads(),
                },
            );
        }
        let mut lines = Vec::with_capacity(events.len());
        for event in events {
            let line = Line::write(spot.clone(), at, who.clone(), event);
            spot.n += 1;
            spot.tick += 1;
            spot.before = line.sha;
            lines.push(line);
        }
        lines
    }

    /// The heads that this strand last said it had seen.
    fn last_joined(&self, tablet: &TabletId) -> Heads {
        self.all()
            .filter(|line| line.tablet == *tablet)
            .filter_map(|line| match line.event() {
                Some(Event::Joined { heads }) => Some(heads.clone()),
                _ => None,
            })
            .last()
            .unwrap_or_default()
    }
}

#[cfg(test)]
mod tests;
