//! The shop sheet: people, stands, jacks and torque wrenches of the shop, kept as a trail of its own.

use std::collections::BTreeMap;

use crate::act::{Draft, Refusal, TEXT_MAX};
use chrono::NaiveDate;
use rules::bearing::end_play;
use rules::camshaft::play;
use rules::drum::diameter;
use rules::lining::thickness;
use rules::quantity::{Length, Mass};
use rules::slack::{adjuster, applied, free};
use rules::word::Argument;

use crate::card::Card;
use crate::event::{
    Event, FactValue, FinalPass, JackTag, LimitSide, Role, ShopLimit, ShopStep, ShopValues,
    StandTag, WheelSpec, WrenchTag,
};
use crate::hold;
use crate::id::{CardId, OptionId, PersonId, Place, StepId};
use crate::judge::torque;
use crate::line::Said;
use crate::procedure::{Procedure, Scope};
use crate::trail::Trail;
use crate::words::{Arg, Words};

/// The trail that the shop sheet is kept under.
pub fn card_id() -> CardId {
    CardId::from("shop")
}

/// The trail that the made-up shop sheet of the practice bay is kept under.
pub fn practice_id() -> CardId {
    CardId::of_practice("shop")
}

/// True for the trail of a shop sheet, the real one or that of the practice bay.
pub fn is_sheet(card: &CardId) -> bool {
    *card == card_id() || *card == practice_id()
}

/// The kinds of wheel that a shop may have values of its own for.
pub const WHEELS: [&str; 5] = ["hub-m22", "hub-m20", "ball-single", "ball-dual", "spoke"];

const JURISDICTION: &str = "jurisdiction";

/// The facts that a shop may answer for all its cards, and how.
pub const DEFAULTS: [(&str, &[&str]); 2] = [
    (JURISDICTION, &["us", "quebec", "ontario", "canada"]),
    ("open-look-by", &["foreman"]),
];

/// How many steps of its own a shop may have: more than these would be a procedure of its own.
pub const STEPS_MAX: usize = 24;

/// Where a step of the shop's own may be done.
pub const STEP_SCOPES: [Scope; 3] = [Scope::End, Scope::Axle, Scope::Vehicle];

/// A reading that a shop may have limits of its own for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LimitFor {
    pub rule: &'static str,
    pub sides: &'static [LimitSide],
    pub kinds: Kinds,
    /// Lowest and highest usual figure in inches. Common practice: only to ask about a slip.
    pub usual: [&'static str; 2],
}

/// What tells apart the kinds of part that a limit may be for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kinds {
    /// One limit for all.
    One,
    /// A fact of the card names the kind.
    Of(&'static str),
    /// A fact names the kind, and a second one may narrow it, as in `t30/long`. Where nobody knows
    /// the second it counts as `unknown`.
    Narrowed {
        fact: &'static str,
        by: &'static str,
        unknown: &'static str,
    },
    /// One of [`AXLE_KINDS`].
    Axle,
}

/// The steer axle of a truck, tractor or bus, and any other.
pub const AXLE_KINDS: [&str; 2] = ["steer", "other"];

/// The kind and, if it says one, what narrows it.
pub fn kind_parts(of: &OptionId) -> (&str, Option<&str>) {
    let of = of.as_str();
    of.split_once('/')
        .map_or((of, None), |(kind, by)| (kind, Some(by)))
}

const fn limit_of(
    rule: &'static str,
    sides: &'static [LimitSide],
    kinds: Kinds,
    usual: [&'static str; 2],
) -> LimitFor {
    LimitFor {
        rule,
        sides,
        kinds,
        usual,
    }
}

/// Every reading that a shop may have limits of its own for, in order of work.
pub const LIMITS: [LimitFor; 8] = {
    use LimitSide::{AtLeast, AtMost};
    [
        limit_of(
            applied::RULE.id.0,
            &[AtMost],
            Kinds::Narrowed {
                fact: "chamber-type",
                by: "stroke-class",
                unknown: "standard",
            },
            ["1", "3.5"],
        ),
        limit_of(
            free::RULE.id.0,
            &[AtMost, AtLeast],
            Kinds::Of("adjuster-style"),
            ["0.25", "1.25"],
        ),
        limit_of(
            thickness::RULE.id.0,
            &[AtLeast],
            Kinds::Axle,
            ["0.15", "0.5"],
        ),
        limit_of(
            diameter::RULE.id.0,
            &[AtMost],
            Kinds::Of("drum-size"),
            ["12", "18"],
        ),
        limit_of(
            play::RADIAL.id.0,
            &[AtMost],
            Kinds::Of("brake-kind"),
            ["0.01", "0.06"],
        ),
        limit_of(
            play::END.id.0,
            &[AtMost, AtLeast],
            Kinds::Of("brake-kind"),
            ["0.003", "0.1"],
        ),
        limit_of(
            adjuster::CLEVIS.id.0,
            &[AtMost],
            Kinds::One,
            ["0.03", "0.12"],
        ),
        limit_of(
            end_play::RULE.id.0,
            &[AtMost, AtLeast],
            Kinds::Of("bearing-way"),
            ["0.001", "0.02"],
        ),
    ]
};

/// What may be entered for a rule.
pub fn limit_for(rule: &str) -> Option<&'static LimitFor> {
    LIMITS.iter().find(|offered| offered.rule == rule)
}

/// The jurisdictions whose figures a shop may enter.
pub fn laws() -> &'static [&'static str] {
    DEFAULTS
        .iter()
        .find(|(fact, _)| *fact == JURISDICTION)
        .map_or(&[], |(_, options)| *options)
}

/// What the shop sheet's lines add up to.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ShopSheet {
    people: BTreeMap<PersonId, Person>,
    stands: BTreeMap<String, Stand>,
    wrenches: BTreeMap<String, Wrench>,
    jacks: BTreeMap<String, Jack>,
    values: ShopValues,
    /// A kind of line that only a newer app understands, if there is one.
    newer: Option<String>,
}

/// A person of the shop.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Person {
    pub name: String,
    pub role: Role,
    /// Still there.
    pub here: bool,
}

/// A stand that the shop owns.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stand {
    pub tag: StandTag,
    /// Why it was taken out of use, if it was.
    pub withdrawn: Option<String>,
}

/// A jack that the shop owns.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Jack {
    pub tag: JackTag,
    /// Why it was taken out of use, if it was.
    pub withdrawn: Option<String>,
}

/// A torque wrench that the shop owns.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wrench {
    pub tag: WrenchTag,
    /// Why it was taken out of use, if it was.
    pub withdrawn: Option<String>,
}

/// The sheet after the lines of `trail`.
pub fn fold(trail: &Trail) -> ShopSheet {
    let mut sheet = ShopSheet::default();
    let mut newer = None;
    let lines = trail.in_order().into_iter().inspect(|line| {
        if let Said::MustBeUnderstood { kind } = &line.said {
            newer.get_or_insert_with(|| kind.clone());
        }
    });
    for (line, event) in lines.filter_map(|line| line.event().map(|event| (line, event))) {
        match event {
            Event::PersonListed { person, name, role } => {
                sheet.people.insert(
                    person.clone(),
                    Person {
                        name: name.clone(),
                        role: *role,
                        here: true,
                    },
                );
            }
            Event::PersonLeft { person } => {
                if let Some(person) = sheet.people.get_mut(person) {
                    person.here = false;
                }
            }
            Event::StandListed { stand, tag } => {
                sheet.stands.insert(
                    stand.clone(),
                    Stand {
                        tag: tag.clone(),
                        withdrawn: None,
                    },
                );
            }
            Event::StandWithdrawn { stand, why } => {
                if let Some(stand) = sheet.stands.get_mut(stand) {
                    stand.withdrawn = Some(why.clone());
                }
            }
            Event::WrenchListed { wrench, tag } => {
                sheet.wrenches.insert(
                    wrench.clone(),
                    Wrench {
                        tag: WrenchTag::clone(tag),
                        withdrawn: None,
                    },
                );
            }
            Event::WrenchWithdrawn { wrench, why } => {
                if let Some(wrench) = sheet.wrenches.get_mut(wrench) {
                    wrench.withdrawn = Some(why.clone());
                }
            }
            Event::JackListed { jack, tag } => {
                sheet.jacks.insert(
                    jack.clone(),
                    Jack {
                        tag: tag.clone(),
                        withdrawn: None,
                    },
                );
            }
            Event::JackWithdrawn { jack, why } => {
                if let Some(jack) = sheet.jacks.get_mut(jack) {
                    jack.withdrawn = Some(why.clone());
                }
            }
            Event::WheelSet { wheel, spec } => match spec {
                Some(spec) => {
                    let spec = WheelSpec::clone(spec);
                    sheet.values.wheels.insert(wheel.clone(), spec);
                }
                None => {
                    sheet.values.wheels.remove(wheel);
                }
            },
            Event::LimitSet { limit } => {
                let limit = ShopLimit {
                    by: Some(line.who.clone()),
                    ..ShopLimit::clone(limit)
                };
                sheet
                    .values
                    .limits
                    .retain(|other| !other.is_of_same(&limit));
                sheet.values.limits.push(limit);
                let by = |limit: &ShopLimit| {
                    (
                        limit.rule.clone(),
                        limit.of.clone(),
                        limit.law.clone(),
                        limit.side,
                    )
                };
                sheet.values.limits.sort_by_key(by);
            }
            Event::LimitDropped { limit } => {
                sheet.values.limits.retain(|other| !other.is_of_same(limit));
            }
            Event::ShopStepSet { step, was } => sheet.put_step(step, was.as_ref()),
            Event::ShopStepDropped { step } => {
                sheet.values.steps.retain(|own| own.id() != *step);
            }
            Event::FinalPassSet { way } => sheet.values.final_pass = *way,
            Event::DefaultSet { fact, option } => match option {
                Some(option) => {
                    let option = option.clone();
                    sheet.values.defaults.insert(fact.clone(), option);
                }
                None => {
                    sheet.values.defaults.remove(fact);
                }
            },
            Event::CardOpened { .. }
            | Event::ShopTaken { .. }
            | Event::ProcedureMoved { .. }
            | Event::SignedOn { .. }
            | Event::SignedOff { .. }
            | Event::FactSet { .. }
            | Event::EndTaken { .. }
            | Event::LineFound { .. }
            | Event::LineTold { .. }
            | Event::LinePassed { .. }
            | Event::LinePhoto { .. }
            | Event::LinePart { .. }
            | Event::LineMinutes { .. }
            | Event::CameBack { .. }
            | Event::PutAway { .. }
            | Event::Brought { .. }
            | Event::Answered { .. }
            | Event::StepSkipped { .. }
            | Event::HoldPassed { .. }
            | Event::Struck { .. }
            | Event::Joined { .. } => {}
        }
    }
    sheet.newer = newer;
    sheet
}

impl ShopSheet {
    /// A step that stands already, from a line of another tablet, is not listed twice.
    fn put_step(&mut self, step: &ShopStep, was: Option<&StepId>) {
        let steps = &mut self.values.steps;
        let place = steps.iter().position(|own| Some(&own.id()) == was);
        let there = steps.iter().position(|own| own == step);
        match (place, there) {
            (Some(place), None) => steps[place] = step.clone(), // Found in the same list.
            (None, None) => steps.push(step.clone()),
            (Some(place), Some(there)) if place != there => {
                steps.remove(place);
            }
            (_, Some(_)) => {}
        }
    }

    /// People who are there, by name.
    pub fn people(&self) -> Vec<(&PersonId, &Person)> {
        let mut people: Vec<_> = self
            .people
            .iter()
            .filter(|(_, person)| person.here)
            .collect();
        people.sort_by(|a, b| a.1.name.cmp(&b.1.name));
        people
    }

    pub fn person(&self, id: &PersonId) -> Option<&Person> {
        self.people.get(id)
    }

    /// Stands in use, by number.
    pub fn stands(&self) -> impl Iterator<Item = (&str, &Stand)> {
        self.stands
            .iter()
            .filter(|(_, stand)| stand.withdrawn.is_none())
            .map(|(number, stand)| (number.as_str(), stand))
    }

    /// Jacks in use, by name.
    pub fn jacks(&self) -> impl Iterator<Item = (&str, &Jack)> {
        self.jacks
            .iter()
            .filter(|(_, jack)| jack.withdrawn.is_none())
            .map(|(name, jack)| (name.as_str(), jack))
    }

    /// Jacks out of use, with the reason.
    pub fn jacks_out(&self) -> impl Iterator<Item = (&str, &Jack)> {
        self.jacks
            .iter()
            .filter(|(_, jack)| jack.withdrawn.is_some())
            .map(|(name, jack)| (name.as_str(), jack))
    }

    /// The shop's own values, as a card takes them.
    pub fn values(&self) -> &ShopValues {
        &self.values
    }

    /// Wrenches in use, by name.
    pub fn wrenches(&self) -> impl Iterator<Item = (&str, &Wrench)> {
        self.wrenches
            .iter()
            .filter(|(_, wrench)| wrench.withdrawn.is_none())
            .map(|(name, wrench)| (name.as_str(), wrench))
    }

    /// Wrenches out of use, with the reason.
    pub fn wrenches_out(&self) -> impl Iterator<Item = (&str, &Wrench)> {
        self.wrenches
            .iter()
            .filter(|(_, wrench)| wrench.withdrawn.is_some())
            .map(|(name, wrench)| (name.as_str(), wrench))
    }

    /// Stands out of use, with the reason.
    pub fn withdrawn(&self) -> impl Iterator<Item = (&str, &Stand)> {
        self.stands
            .iter()
            .filter(|(_, stand)| stand.withdrawn.is_some())
            .map(|(number, stand)| (number.as_str(), stand))
    }
}

/// Lists a person, or gives one another name or role.
pub fn list_person(
    sheet: &ShopSheet,
    id: &PersonId,
    name: &str,
    role: Role,
) -> Result<Draft, Refusal> {
    let name = text(name, "shop.name-missing")?;
    let same = |person: &Person| person.here && person.name.to_lowercase() == name.to_lowercase();
    if sheet
        .people
        .iter()
        .any(|(other, person)| other != id && same(person))
    {
        return Err(Words::with("shop.name-taken", [("name", Arg::Text(name))]).into());
    }
    Ok(Draft::new(Event::PersonListed {
        person: id.clone(),
        name,
        role,
    }))
}

/// Takes a person off the list. Their name stays on every card that has it.
pub fn person_left(sheet: &ShopSheet, id: &PersonId) -> Result<Draft, Refusal> {
    match sheet.people.get(id) {
        Some(person) if person.here => Ok(Draft::new(Event::PersonLeft { person: id.clone() })),
        _ => Err(Refusal::plain("shop.person-unknown")),
    }
}

/// Lists a stand under the number painted on it.
pub fn list_stand(sheet: &ShopSheet, number: &str, tag: StandTag) -> Result<Draft, Refusal> {
    let number = text(number, "shop.stand-number-missing")?;
    if sheet.stands().any(|(other, _)| other == number) {
        return Err(Words::with("shop.stand-number-taken", [("number", Arg::Text(number))]).into());
    }
    tag.rule().map_err(|fault| Words::from(&fault))?;
    Ok(Draft::new(Event::StandListed { stand: number, tag }))
}

/// Takes a stand out of use.
pub fn withdraw_stand(sheet: &ShopSheet, number: &str, why: &str) -> Result<Draft, Refusal> {
    let why = text(why, "refuse.reason-missing")?;
    if sheet.stands().all(|(other, _)| other != number) {
        return Err(Refusal::plain("shop.stand-unknown"));
    }
    Ok(Draft::new(Event::StandWithdrawn {
        stand: number.to_owned(),
        why,
    }))
}

/// The name of a jack that is to be listed, if it is free.
pub fn new_jack_name(sheet: &ShopSheet, name: &str) -> Result<String, Refusal> {
    let name = text(name, "shop.jack-name-missing")?;
    if sheet.jacks().any(|(other, _)| other == name) {
        return Err(Words::with("shop.jack-name-taken", [("jack", Arg::Text(name))]).into());
    }
    Ok(name)
}

/// Lists a jack under the name or number that is painted on it.
pub fn list_jack(sheet: &ShopSheet, name: &str, tag: JackTag) -> Result<Draft, Refusal> {
    let jack = new_jack_name(sheet, name)?;
    let typed = tag.rating.typed().map_err(|fault| Words::from(&fault))?;
    let mass = typed.quantity().mass();
    let mass = mass.ok_or_else(|| Refusal::plain("refuse.wrong-unit"))?;
    if mass <= Mass::ZERO {
        return Err(Refusal::plain("shop.jack-rating-none"));
    }
    Ok(Draft::new(Event::JackListed { jack, tag }))
}

/// Takes a jack out of use.
pub fn withdraw_jack(sheet: &ShopSheet, name: &str, why: &str) -> Result<Draft, Refusal> {
    let why = text(why, "refuse.reason-missing")?;
    if sheet.jacks().all(|(other, _)| other != name) {
        return Err(Refusal::plain("shop.jack-unknown"));
    }
    Ok(Draft::new(Event::JackWithdrawn {
        jack: name.to_owned(),
        why,
    }))
}

/// The name of a wrench that is to be listed, if it is free.
pub fn new_wrench_name(sheet: &ShopSheet, name: &str) -> Result<String, Refusal> {
    let name = text(name, "shop.wrench-name-missing")?;
    if sheet.wrenches().any(|(other, _)| other == name) {
        return Err(Words::with("shop.wrench-name-taken", [("wrench", Arg::Text(name))]).into());
    }
    Ok(name)
}

/// Lists a torque wrench under the name that is painted or engraved on it. `today` is the day it is
/// listed on: nothing was calibrated after it.
pub fn list_wrench(
    sheet: &ShopSheet,
    name: &str,
    tag: WrenchTag,
    today: NaiveDate,
) -> Result<Draft, Refusal> {
    let name = new_wrench_name(sheet, name)?;
    let read = tag.rule().map_err(|fault| Words::from(&fault))?;
    if !read.has_range() {
        return Err(Refusal::plain("refuse.wrench-no-range"));
    }
    not_ahead(tag.calibrated, today)?;
    Ok(Draft::new(Event::WrenchListed {
        wrench: name,
        tag: Box::new(tag),
    }))
}

/// A wrench came back from its calibration.
pub fn calibrate_wrench(
    sheet: &ShopSheet,
    name: &str,
    on: NaiveDate,
    today: NaiveDate,
) -> Result<Draft, Refusal> {
    let listed = sheet.wrenches().find(|(other, _)| *other == name);
    let (_, wrench) = listed.ok_or_else(|| Refusal::plain("shop.wrench-unknown"))?;
    not_ahead(Some(on), today)?;
    Ok(Draft::new(Event::WrenchListed {
        wrench: name.to_owned(),
        tag: Box::new(WrenchTag {
            calibrated: Some(on),
            ..wrench.tag.clone()
        }),
    }))
}

/// Takes a torque wrench out of use.
pub fn withdraw_wrench(sheet: &ShopSheet, name: &str, why: &str) -> Result<Draft, Refusal> {
    let why = text(why, "refuse.reason-missing")?;
    if sheet.wrenches().all(|(other, _)| other != name) {
        return Err(Refusal::plain("shop.wrench-unknown"));
    }
    Ok(Draft::new(Event::WrenchWithdrawn {
        wrench: name.to_owned(),
        why,
    }))
}

/// Says how the shop tightens one kind of wheel, or that it does as printed.
pub fn set_wheel(wheel: &str, spec: Option<WheelSpec>) -> Result<Draft, Refusal> {
    if !WHEELS.contains(&wheel) {
        return Err(Refusal::plain("refuse.not-offered"));
    }
    let spec = spec.map(checked).transpose()?.map(Box::new);
    Ok(Draft::new(Event::WheelSet {
        wheel: wheel.into(),
        spec,
    }))
}

fn checked(mut spec: WheelSpec) -> Result<WheelSpec, Refusal> {
    spec.source = text(&spec.source, "shop.wheel-source-missing")?;
    let backwards = || Refusal::plain("shop.wheel-range");
    torque::shop_range(&spec).ok_or_else(backwards)?;
    if let Some([low, high]) = &spec.seat {
        torque::range_of(low, high).ok_or_else(backwards)?;
    }
    if !spec.order.is_empty() && torque::shop_order(&spec).is_none() {
        return Err(Refusal::plain("shop.wheel-order"));
    }
    Ok(spec)
}

/// Enters a limit of the shop's own, or puts another figure in the place of one for the same.
pub fn set_limit(limit: ShopLimit) -> Result<Draft, Refusal> {
    let offered = limit_for(&limit.rule);
    let offered = offered.filter(|offered| {
        let has_kinds = limit.of.is_none() || offered.kinds != Kinds::One;
        offered.sides.contains(&limit.side) && has_kinds
    });
    let law = limit.law.as_ref().map(OptionId::as_str);
    if offered.is_none() || law.is_some_and(|law| !laws().contains(&law)) {
        return Err(Refusal::plain("refuse.not-offered"));
    }
    let typed = limit.figure.typed().map_err(|fault| Words::from(&fault))?;
    let length = typed.quantity().length();
    let length = length.ok_or_else(|| Refusal::plain("refuse.wrong-unit"))?;
    if length <= Length::ZERO {
        return Err(Refusal::plain("shop.limit-none"));
    }
    let source = text(&limit.source, "shop.limit-source-missing")?;
    Ok(Draft::new(Event::LimitSet {
        limit: Box::new(ShopLimit {
            source,
            by: None,
            ..limit
        }),
    }))
}

/// Takes a limit of the shop's own off the sheet.
pub fn drop_limit(sheet: &ShopSheet, limit: &ShopLimit) -> Result<Draft, Refusal> {
    if !sheet.values.limits.contains(limit) {
        return Err(Refusal::plain("shop.limit-unknown"));
    }
    Ok(Draft::new(Event::LimitDropped {
        limit: Box::new(limit.clone()),
    }))
}

/// Writes a step of the shop's own, or puts it in the place of `was`. It goes to the end of its
/// stage on every card that takes it.
pub fn set_step(
    sheet: &ShopSheet,
    procedure: &Procedure,
    step: &ShopStep,
    was: Option<&StepId>,
) -> Result<Draft, Refusal> {
    let words = step.words.split_whitespace().collect::<Vec<_>>().join(" ");
    if words.is_empty() {
        return Err(Refusal::plain("shop.step-words-missing"));
    }
    if words.chars().count() > ShopStep::WORDS_MAX {
        let most = u32::try_from(ShopStep::WORDS_MAX).unwrap_or(u32::MAX);
        let most = Arg::Rule(Argument::Count(most));
        return Err(Words::with("shop.step-words-too-long", [("most", most)]).into());
    }
    let has_stage = procedure.stages.iter().any(|stage| stage.id == step.stage);
    if !has_stage || !STEP_SCOPES.contains(&step.scope) {
        return Err(Refusal::plain("refuse.not-offered"));
    }
    let steps = &sheet.values.steps;
    if was.is_some_and(|was| steps.iter().all(|own| own.id() != *was)) {
        return Err(Refusal::plain("shop.step-unknown"));
    }
    let same = |own: &ShopStep| {
        own.stage == step.stage && own.words.to_lowercase() == words.to_lowercase()
    };
    let mut others = steps.iter().filter(|own| Some(&own.id()) != was);
    if others.any(same) {
        return Err(Words::with("shop.step-twice", [("words", Arg::Text(words))]).into());
    }
    if was.is_none() && steps.len() >= STEPS_MAX {
        let most = u32::try_from(STEPS_MAX).unwrap_or(u32::MAX);
        let most = Arg::Rule(Argument::Count(most));
        return Err(Words::with("shop.steps-too-many", [("most", most)]).into());
    }
    Ok(Draft::new(Event::ShopStepSet {
        step: Box::new(ShopStep {
            words,
            ..step.clone()
        }),
        was: was.cloned(),
    }))
}

/// Takes a step of the shop's own off the sheet. Cards that took it keep it.
pub fn drop_step(sheet: &ShopSheet, step: &StepId) -> Result<Draft, Refusal> {
    if sheet.values.steps.iter().all(|own| own.id() != *step) {
        return Err(Refusal::plain("shop.step-unknown"));
    }
    Ok(Draft::new(Event::ShopStepDropped { step: step.clone() }))
}

/// Says where the final pass is done, and how it is logged.
pub fn set_final_pass(way: FinalPass) -> Draft {
    Draft::new(Event::FinalPassSet { way })
}

/// Says what a new card starts with for a fact, or that it is asked.
pub fn set_default(fact: &str, option: Option<&str>) -> Result<Draft, Refusal> {
    let offered = DEFAULTS.iter().find(|(of, _)| *of == fact);
    let (_, options) = offered.ok_or_else(|| Refusal::plain("refuse.not-offered"))?;
    if option.is_some_and(|option| !options.contains(&option)) {
        return Err(Refusal::plain("refuse.not-offered"));
    }
    Ok(Draft::new(Event::DefaultSet {
        fact: fact.into(),
        option: option.map(OptionId::from),
    }))
}

/// What a card that is opened now takes from the sheet: the values, and the facts that the shop
/// answers for all its cards. Nothing where the shop has no values of its own.
///
/// That nobody looks at an open wheel end is never taken by itself: it is said at each axle, by who
/// knows whether an apprentice worked there.
///
/// Errors: a newer app wrote on the sheet what this one can't understand. A card that took the rest
/// would be without it and say nothing.
pub fn for_new_card(sheet: &ShopSheet, in_hand: &[u8]) -> Result<Vec<Draft>, Words> {
    understood(sheet)?;
    if sheet.values == ShopValues::default() {
        return Ok(Vec::new());
    }
    let mut drafts = vec![Draft::new(Event::ShopTaken {
        values: Box::new(sheet.values.clone()),
    })];
    for (fact, option) in &sheet.values.defaults {
        let places = if fact.as_str() == JURISDICTION {
            vec![Place::Vehicle]
        } else {
            in_hand.iter().copied().map(Place::Axle).collect()
        };
        drafts.extend(places.into_iter().map(|at| {
            Draft::new(Event::FactSet {
                at,
                fact: fact.clone(),
                value: FactValue::Choice(option.clone()),
            })
        }));
    }
    Ok(drafts)
}

fn understood(sheet: &ShopSheet) -> Result<(), Words> {
    sheet.newer.as_ref().map_or(Ok(()), |kind| {
        let kind = ("kind", Arg::Text(kind.clone()));
        Err(Words::with("shop.newer", [kind]))
    })
}

/// An open card goes on with the values as they are on the sheet now.
pub fn take_values(card: &Card, who: &PersonId, sheet: &ShopSheet) -> Result<Draft, Refusal> {
    if let Some(hold) = hold::may_act(card, who) {
        return Err(hold.into());
    }
    understood(sheet)?;
    if !is_behind(card, sheet) {
        return Err(Refusal::plain("refuse.shop-taken"));
    }
    Ok(Draft::new(Event::ShopTaken {
        values: Box::new(sheet.values.clone()),
    }))
}

/// True if the card goes by other values than stand on the sheet.
pub fn is_behind(card: &Card, sheet: &ShopSheet) -> bool {
    let others = card
        .shop_versions()
        .any(|taken| taken.values != sheet.values);
    others || card.shop().is_none() && sheet.values != ShopValues::default()
}

/// The entries of the sheet that lead from values that the card goes by to those that stand on the
/// sheet now: what a person who takes them must know.
pub fn since_taken(card: &Card, sheet: &ShopSheet) -> Vec<Event> {
    let none = ShopValues::default();
    let mut versions: Vec<&ShopValues> = card.shop_versions().map(|taken| &taken.values).collect();
    if versions.is_empty() {
        versions.push(&none);
    }
    let mut entries = Vec::new();
    for entry in versions.iter().flat_map(|was| between(was, &sheet.values)) {
        if !entries.contains(&entry) {
            entries.push(entry);
        }
    }
    entries
}

fn between(was: &ShopValues, is: &ShopValues) -> Vec<Event> {
    let wheels = differing(&was.wheels, &is.wheels).map(|(wheel, spec)| Event::WheelSet {
        wheel: wheel.clone(),
        spec: spec.cloned().map(Box::new),
    });
    let defaults = differing(&was.defaults, &is.defaults).map(|(fact, option)| Event::DefaultSet {
        fact: fact.clone(),
        option: option.cloned(),
    });
    let set = is.limits.iter().filter(|limit| !was.limits.contains(limit));
    let set = set.map(|limit| Event::LimitSet {
        limit: Box::new(limit.clone()),
    });
    let is_gone = |limit: &&ShopLimit| !is.limits.iter().any(|now| now.is_of_same(limit));
    let gone = was.limits.iter().filter(is_gone);
    let gone = gone.map(|limit| Event::LimitDropped {
        limit: Box::new(limit.clone()),
    });
    let limits = set.chain(gone);
    let new = is.steps.iter().filter(|step| !was.steps.contains(step));
    let new = new.map(|step| Event::ShopStepSet {
        step: Box::new(step.clone()),
        was: None,
    });
    let dropped = was.steps.iter().filter(|step| !is.steps.contains(step));
    let dropped = dropped.map(|step| Event::ShopStepDropped { step: step.id() });
    let way =
        (was.final_pass != is.final_pass).then_some(Event::FinalPassSet { way: is.final_pass });
    wheels
        .chain(limits)
        .chain(new)
        .chain(dropped)
        .chain(way)
        .chain(defaults)
        .collect()
}

/// Every key whose value is not the same, with what it is now.
fn differing<'a, K: Ord, V: PartialEq>(
    was: &'a BTreeMap<K, V>,
    is: &'a BTreeMap<K, V>,
) -> impl Iterator<Item = (&'a K, Option<&'a V>)> {
    let gone = was.keys().filter(|key| !is.contains_key(key));
    let set = is.iter().filter(|(key, value)| was.get(key) != Some(value));
    set.map(|(key, value)| (key, Some(value)))
        .chain(gone.map(|key| (key, None)))
}

fn not_ahead(day: Option<NaiveDate>, today: NaiveDate) -> Result<(), Refusal> {
    if day.is_some_and(|day| day > today) {
        return Err(Refusal::plain("shop.wrench-day-ahead"));
    }
    Ok(())
}

fn text(typed: &str, missing: &str) -> Result<String, Refusal> {
    let typed = typed.trim();
    if typed.is_empty() {
        Err(Refusal::plain(missing))
    } else if typed.len() > TEXT_MAX {
        Err(Refusal::plain("setup.text-too-long"))
    } else {
        Ok(typed.to_owned())
    }
}

#[cfg(test)]
mod tests;
