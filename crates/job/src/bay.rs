//! A bay for tests: one small job, its people, and a tablet that writes on its card.
//!
//! Everything goes through the same doors as in the app, except [`Bay::force`], which writes
//! what a tablet that asks no holds would.

use chrono::{DateTime, TimeDelta, Utc};

use crate::act::{self, Draft, Refusal, Setup};
use crate::card::{Card, Entry, StepState, fold};
use crate::event::{
    Answer, Event, FactValue, Item, LineState, Role, StandCondition, StandTag, StandUsed, TagBasis,
    TypedText,
};
use crate::hold::{self, MayTake};
use crate::id::{OptionId, PersonId, Place, Side, StepId, TabletId};
use crate::judge::Units;
use crate::line::{LineRef, Stamp};
use crate::procedures::Procedures;
use crate::trail::Trail;

pub(crate) const SMALL: &str = include_str!("bay.json");

pub(crate) const V: Place = Place::Vehicle;
pub(crate) const A2: Place = Place::Axle(2);
pub(crate) const A3: Place = Place::Axle(3);
pub(crate) const L2: Place = Place::End(2, Side::Left);
pub(crate) const R2: Place = Place::End(2, Side::Right);
pub(crate) const L3: Place = Place::End(3, Side::Left);

#[derive(Clone)]
pub(crate) struct Bay {
    pub(crate) trail: Trail,
    pub(crate) procedures: Procedures,
    pub(crate) tablet: TabletId,
    pub(crate) now: DateTime<Utc>,
}

impl Bay {
    /// An empty trail, nothing opened.
    pub(crate) fn empty() -> Self {
        Self {
            trail: Trail::new("card-1".into()),
            procedures: Procedures::read([], SMALL).unwrap(),
            tablet: "tablet-a".into(),
            now: DateTime::from_timestamp(1_790_000_000, 0).unwrap(),
        }
    }

    /// Opened with some steps of the shipped procedure alone, in any order and with no hold between
    /// them: for the asks and rules of these steps. A technician and a foreman are signed on.
    pub(crate) fn of_shipped(wanted: &[&str], in_hand: &[u8]) -> Self {
        let text = include_str!("../../../assets/procedure/s-cam-reline.json");
        let mut file: serde_json::Value = serde_json::from_str(text).unwrap();
        let mut steps = Vec::new();
        for stage in file["stages"].as_array().unwrap() {
            let of_stage = stage["steps"].as_array().unwrap().iter();
            steps.extend(
                of_stage
                    .filter(|step| wanted.contains(&step["id"].as_str().unwrap()))
                    .cloned(),
            );
        }
        assert_eq!(steps.len(), wanted.len());
        for step in &mut steps {
            step.as_object_mut().unwrap().remove("holds");
        }
        for finding in file["findings"].as_array_mut().unwrap() {
            finding.as_object_mut().unwrap().remove("holds");
        }
        file["stages"] = serde_json::json!([{"id": "judge", "any_order": true, "steps": steps}]);
        file["came_back"] = serde_json::json!([]);
        file["physical"] = serde_json::json!([]);
        let mut bay = Self::empty();
        bay.procedures = Procedures::read([], &file.to_string()).unwrap();
        let drafts = act::open_card(bay.procedures.newest(), "0.1.0", &setup(in_hand)).unwrap();
        bay.keep("tess", drafts);
        bay.sign_on("tess", Role::Technician);
        bay.sign_on("fay", Role::Foreman);
        bay
    }

    /// Opened for one axle of a tandem, a technician signed on.
    pub(crate) fn open() -> Self {
        Self::with_axles(&[2])
    }

    pub(crate) fn with_axles(in_hand: &[u8]) -> Self {
        let mut bay = Self::empty();
        let drafts = act::open_card(bay.procedures.newest(), "0.1.0", &setup(in_hand)).unwrap();
        bay.keep("tess", drafts);
        bay.sign_on("tess", Role::Technician);
        bay
    }

    /// Chocked, tagged, standing on its stands: the wheel may come off.
    pub(crate) fn raised() -> Self {
        let mut bay = Self::open();
        bay.secured();
        bay.up();
        bay
    }

    pub(crate) fn secured(&mut self) {
        self.chocked();
        self.skip("tess", V, "as-found", "no-air").unwrap();
        self.fact("tess", V, "coupled", choice("coupled")).unwrap();
        self.tag("tess").unwrap();
    }

    pub(crate) fn chocked(&mut self) {
        self.say("tess", V, "chocks", "wheels", wheels(1)).unwrap();
        self.say("tess", V, "chocks", "set", press("both-ways"))
            .unwrap();
    }

    pub(crate) fn up(&mut self) {
        self.fact("tess", V, "suspension", choice("air")).unwrap();
        self.fact("tess", A2, "group-weight", lb("30000")).unwrap();
        self.fact("tess", V, "unit-weight", lb("40000")).unwrap();
        let stands = stands("40000", "lb", TagBasis::PerStand);
        self.say("tess", A2, "stands", "stands", stands).unwrap();
        self.say("tess", A2, "jack", "rating", reading("50000", "lb"))
            .unwrap();
        self.say("tess", A2, "raise", "up", press("on-stands"))
            .unwrap();
    }

    pub(crate) fn tag(&mut self, who: &str) -> Result<LineRef, Refusal> {
        let item = Item::Person(who.into());
        self.answer(who, V, "lock-out", "tags", item, press("tag-on"))
    }

    /// An apprentice's own tag, with somebody beside.
    pub(crate) fn tag_beside(&mut self, who: &str, beside: &str) {
        let item = Item::Person(who.into());
        let proof = self.may(who, V, "lock-out", "tags", item).unwrap();
        let proof = proof.beside(Some(beside.into()));
        let draft = act::take(&self.card(), proof, press("tag-on"), &Units::INCH_POUND).unwrap();
        self.keep(who, vec![draft]);
    }

    pub(crate) fn card(&self) -> Card {
        fold(&self.trail, &self.procedures)
    }

    pub(crate) fn stamp(&self) -> Stamp {
        Stamp {
            utc: self.now,
            offset_minutes: -240,
        }
    }

    pub(crate) fn wait(&mut self, seconds: i64) {
        self.now += TimeDelta::seconds(seconds);
    }

    /// Another tablet with a copy of this trail.
    pub(crate) fn other_tablet(&self, tablet: &str) -> Self {
        let mut other = self.clone();
        other.tablet = tablet.into();
        other
    }

    /// Writes drafts and takes them in; names the last line.
    pub(crate) fn keep(&mut self, who: &str, drafts: Vec<Draft>) -> LineRef {
        let lines = self
            .trail
            .write(&self.tablet, &who.into(), self.stamp(), drafts);
        let last = lines.last().unwrap().reference();
        for line in lines {
            self.trail.take_in(line);
        }
        last
    }

    pub(crate) fn force(&mut self, who: &str, event: Event) -> LineRef {
        self.keep(who, vec![Draft::new(event)])
    }

    pub(crate) fn sign_on(&mut self, who: &str, role: Role) {
        self.keep(who, vec![act::sign_on(&who.into(), who, role)]);
    }

    pub(crate) fn may(
        &self,
        who: &str,
        at: Place,
        step: &str,
        ask: &str,
        item: Item,
    ) -> Result<MayTake, hold::Hold> {
        hold::may_take(
            &self.card(),
            &who.into(),
            at,
            &step.into(),
            &ask.into(),
            item,
            self.stamp(),
        )
    }

    pub(crate) fn answer(
        &mut self,
        who: &str,
        at: Place,
        step: &str,
        ask: &str,
        item: Item,
        answer: Answer,
    ) -> Result<LineRef, Refusal> {
        let proof = self.may(who, at, step, ask, item)?;
        let draft = act::take(&self.card(), proof, answer, &Units::INCH_POUND)?;
        Ok(self.keep(who, vec![draft]))
    }

    pub(crate) fn say(
        &mut self,
        who: &str,
        at: Place,
        step: &str,
        ask: &str,
        answer: Answer,
    ) -> Result<LineRef, Refusal> {
        self.answer(who, at, step, ask, Item::Only, answer)
    }

    pub(crate) fn fact(
        &mut self,
        who: &str,
        at: Place,
        fact: &str,
        value: FactValue,
    ) -> Result<LineRef, Refusal> {
        let draft = act::set_fact(&self.card(), &who.into(), at, &fact.into(), value)?;
        Ok(self.keep(who, vec![draft]))
    }

    pub(crate) fn skip(
        &mut self,
        who: &str,
        at: Place,
        step: &str,
        why: &str,
    ) -> Result<LineRef, Refusal> {
        let draft = act::skip(
            &self.card(),
            &who.into(),
            at,
            &step.into(),
            &why.into(),
            self.stamp(),
        )?;
        Ok(self.keep(who, vec![draft]))
    }

    pub(crate) fn pass(
        &mut self,
        who: &str,
        at: Place,
        step: &str,
        first: &str,
        why: &str,
    ) -> Result<LineRef, Refusal> {
        let draft = act::pass(
            &self.card(),
            &who.into(),
            at,
            &step.into(),
            &first.into(),
            why,
        )?;
        Ok(self.keep(who, vec![draft]))
    }

    pub(crate) fn strike(
        &mut self,
        who: &str,
        line: &LineRef,
        why: Option<&str>,
    ) -> Result<LineRef, Refusal> {
        let card = self.card();
        let proof = act::may_strike(&card, &who.into(), line, self.stamp())?;
        let draft = act::strike(&card, proof, why)?;
        Ok(self.keep(who, vec![draft]))
    }

    /// Answers with the extra line that comes of it; names the last line.
    pub(crate) fn say_with_line(
        &mut self,
        who: &str,
        at: Place,
        step: &str,
        ask: &str,
        answer: Answer,
    ) -> Result<LineRef, Refusal> {
        let proof = self.may(who, at, step, ask, Item::Only)?;
        let drafts = act::take_with_line(&self.card(), proof, answer, &Units::INCH_POUND)?;
        Ok(self.keep(who, drafts))
    }

    pub(crate) fn find(&mut self, who: &str, at: Place, finding: &str) -> Result<LineRef, Refusal> {
        let card = self.card();
        let known = card.finding(&finding.into());
        let fix = known.map_or("none".into(), |finding| finding.fixes[0].clone());
        let draft = act::find(&card, &who.into(), at, &finding.into(), &fix, "")?;
        Ok(self.keep(who, vec![draft]))
    }

    pub(crate) fn tell(
        &mut self,
        who: &str,
        line: &LineRef,
        state: LineState,
    ) -> Result<LineRef, Refusal> {
        let draft = act::tell(&self.card(), &who.into(), line, state)?;
        Ok(self.keep(who, vec![draft]))
    }

    pub(crate) fn pass_line(
        &mut self,
        who: &str,
        line: &LineRef,
        why: &str,
    ) -> Result<LineRef, Refusal> {
        let draft = act::pass_line(&self.card(), &who.into(), line, why)?;
        Ok(self.keep(who, vec![draft]))
    }

    pub(crate) fn come_back(
        &mut self,
        who: &str,
        but: &[&str],
        beside: Option<&str>,
    ) -> Result<LineRef, Refusal> {
        let but: Vec<OptionId> = but.iter().map(|one| OptionId::from(*one)).collect();
        let beside = beside.map(PersonId::from);
        let draft = act::come_back(&self.card(), &who.into(), &but, beside, self.stamp())?;
        Ok(self.keep(who, vec![draft]))
    }

    /// Its nuts, hoses and drum gone through: the wheel may be hung.
    pub(crate) fn stripped(&mut self, who: &str, at: Place) {
        let axle = Place::Axle(at.axle().unwrap());
        if self.card().fact(axle, &"studs".into()).is_none() {
            self.fact(who, axle, "rim", choice("one-piece")).unwrap();
            self.fact(who, axle, "studs", FactValue::Count(2)).unwrap();
        }
        self.say(who, at, "tyres", "state", choose("no-damage"))
            .unwrap();
        self.say(who, at, "nuts-off", "nuts", in_order()).unwrap();
        self.say(who, at, "hoses", "found", in_order()).unwrap();
        self.say(who, at, "drum", "seen", choose("sound")).unwrap();
    }

    /// Stripped, hung and torqued: it waits for its second look.
    pub(crate) fn built(&mut self, who: &str, at: Place) {
        self.stripped(who, at);
        self.torqued(who, at);
    }

    pub(crate) fn torqued(&mut self, who: &str, at: Place) {
        self.say(who, at, "hang", "hung", lines()).unwrap();
        self.nuts(who, at, 2);
        let whole = Answer::WholePass { but: Vec::new() };
        self.say(who, at, "check-pass", "nuts", whole).unwrap();
    }

    /// The first nuts of the last pass, one by one.
    pub(crate) fn nuts(&mut self, who: &str, at: Place, count: u16) {
        for nut in 1..=count {
            let mark = Answer::Nut {
                mark: "turned-and-clicked".into(),
            };
            self.answer(who, at, "final-pass", "nuts", Item::Nut(nut), mark)
                .unwrap();
        }
    }

    pub(crate) fn sign_off(&mut self, who: &str, person: &str) -> Result<LineRef, Refusal> {
        let draft = act::sign_off(&self.card(), &who.into(), &person.into(), "went home")?;
        Ok(self.keep(who, vec![draft]))
    }

    pub(crate) fn state(&self, at: Place, step: &str) -> StepState {
        let card = self.card();
        let procedure = card.procedure.clone().unwrap();
        card.state(procedure.step(&StepId::from(step)).unwrap(), at)
    }

    pub(crate) fn entry(&self, line: &LineRef) -> Entry {
        self.card().entry(line).unwrap().clone()
    }
}

pub(crate) fn setup(in_hand: &[u8]) -> Setup {
    Setup {
        unit: "Heron 12".to_owned(),
        vehicle: Some("truck".into()),
        layout: Some("1-2".to_owned()),
        loaded: Some("loaded".into()),
        in_hand: in_hand.to_vec(),
    }
}

pub(crate) fn choice(option: &str) -> FactValue {
    FactValue::Choice(option.into())
}

pub(crate) fn typed(text: &str, unit: &str) -> TypedText {
    TypedText {
        text: text.to_owned(),
        unit: unit.to_owned(),
    }
}

pub(crate) fn lb(text: &str) -> FactValue {
    FactValue::Typed(typed(text, "lb"))
}

pub(crate) fn press(option: &str) -> Answer {
    Answer::Press {
        option: option.into(),
    }
}

pub(crate) fn choose(option: &str) -> Answer {
    Answer::Choice {
        option: OptionId::from(option),
    }
}

pub(crate) fn reading(text: &str, unit: &str) -> Answer {
    Answer::Reading {
        typed: typed(text, unit),
    }
}

pub(crate) fn wheels(axle: u8) -> Answer {
    Answer::Wheels {
        at: Place::ends(axle).to_vec(),
    }
}

pub(crate) fn lines() -> Answer {
    Answer::Lines { out: Vec::new() }
}

pub(crate) fn in_order() -> Answer {
    Answer::Exceptions { but: Vec::new() }
}

pub(crate) fn sent_back(again: &[&str]) -> Answer {
    Answer::Look {
        accepted: false,
        why: Some("spring not clipped".to_owned()),
        seen: None,
        again: again.iter().map(|step| StepId::from(*step)).collect(),
    }
}

pub(crate) fn look(accepted: bool) -> Answer {
    Answer::Look {
        accepted,
        why: (!accepted).then(|| "spring not clipped".to_owned()),
        seen: None,
        again: Vec::new(),
    }
}

pub(crate) fn stand(rating: &str, unit: &str, basis: TagBasis) -> StandUsed {
    StandUsed {
        stand: String::new(),
        tag: StandTag {
            rating: Some(typed(rating, unit)),
            basis,
            condition: StandCondition::Sound,
        },
    }
}

pub(crate) fn stands(rating: &str, unit: &str, basis: TagBasis) -> Answer {
    Answer::Stands {
        stands: vec![stand(rating, unit, basis), stand(rating, unit, basis)],
    }
}

/// The key of a refusal's words.
pub(crate) fn key<T: std::fmt::Debug>(result: &Result<T, Refusal>, card: &Card) -> String {
    match result {
        Ok(taken) => format!("taken: {taken:?}"),
        Err(refusal) => refusal.words(card).key,
    }
}

pub(crate) fn person(id: &str) -> PersonId {
    PersonId::from(id)
}
