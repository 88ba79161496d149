//! People with a tablet: they do what is next, or whatever comes to mind. All chance comes from
//! a seed.

use std::sync::LazyLock;

use chrono::{DateTime, NaiveDate, TimeDelta, Utc};
use job::act::{self, Draft, Refusal, Setup};
use job::bring::{self, BringList, wanted};
use job::card::{AskState, Card, fold};
use job::event::{
    Answer, BroughtHow, Exception, FactValue, FinalPass, Item, LineState, Role, ShopStep,
    StandCondition, StandTag, StandUsed, TagBasis, TypedText, WrenchTag, WrenchUsed,
};
use job::extra::ExtraLine;
use job::hold::{MayTake, may_take, of_gap};
use job::id::{OptionId, PersonId, Place, StepId, TabletId};
use job::judge::Units;
use job::line::{Line, LineRef, Sha, Stamp};
use job::move_stage::move_stage;
use job::procedure::{Ask, AskKind, FactKind, Offer, Scope, Step};
use job::procedures::Procedures;
use job::second_look;
use job::shop::{self, ShopSheet};
use job::taken_over::{TakenOver, as_axle_before, as_other_side};
use job::trail::Trail;

pub(crate) const UNITS: Units = Units::INCH_POUND;

/// What is brought for the shipped procedure.
static BRING: LazyLock<BringList> = LazyLock::new(|| {
    let list = include_str!("../../../assets/bring/s-cam-reline.json");
    BringList::read(list).expect("the shipped list is sound")
});

/// A shop before and after it changed a value of its own.
static SHEETS: LazyLock<[ShopSheet; 2]> = LazyLock::new(|| {
    let now = Stamp {
        utc: DateTime::from_timestamp(1_790_000_000, 0).unwrap(),
        offset_minutes: -300,
    };
    let keep = |trail: &mut Trail, draft: Draft| {
        for line in trail.write(&"tablet-s".into(), &"fay".into(), now, vec![draft]) {
            trail.take_in(line);
        }
        shop::fold(trail)
    };
    let mut trail = Trail::new(shop::card_id());
    let first = keep(
        &mut trail,
        shop::set_default("jurisdiction", Some("us")).unwrap(),
    );
    let way = FinalPass {
        on_stands: true,
        as_a_whole: true,
    };
    let quebec = shop::set_default("jurisdiction", Some("quebec")).unwrap();
    keep(&mut trail, quebec);
    let mut second = keep(&mut trail, shop::set_final_pass(way));
    for (stage, scope) in [
        ("secure", Scope::Vehicle),
        ("strip", Scope::Axle),
        ("slack", Scope::End),
    ] {
        let step = ShopStep {
            stage: stage.into(),
            scope,
            words: "Photograph it".to_owned(),
        };
        let draft = shop::set_step(&second, super::PROCEDURES.newest(), &step, None).unwrap();
        second = keep(&mut trail, draft);
    }
    [first, second]
});

/// A small generator of its own, so that a seed says all.
pub(crate) struct Dice(u64);

impl Dice {
    /// With seed 0 every choice is the first one.
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed)
    }

    pub(crate) fn below(&mut self, n: usize) -> usize {
        if self.0 == 0 || n == 0 {
            return 0;
        }
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 % (n as u64)).unwrap()
    }

    pub(crate) fn one_in(&mut self, n: usize) -> bool {
        self.0 != 0 && self.below(n) == 0
    }

    fn pick<'a, T>(&mut self, of: &'a [T]) -> Option<&'a T> {
        of.get(self.below(of.len()))
    }

    pub(crate) fn shuffle<T>(&mut self, of: &mut [T]) {
        for at in (1..of.len()).rev() {
            of.swap(at, self.below(at + 1));
        }
    }
}

pub(crate) struct Crew {
    pub(crate) trail: Trail,
    procedures: &'static Procedures,
    tablet: TabletId,
    now: DateTime<Utc>,
}

impl Crew {
    /// A loaded tractor with two technicians on it.
    pub(crate) fn open(procedures: &'static Procedures, in_hand: &[u8]) -> Self {
        let mut crew = Self::with(procedures, []);
        let setup = Setup {
            unit: "Heron 12".to_owned(),
            vehicle: Some("tractor".into()),
            layout: Some("1-2-1".to_owned()),
            loaded: Some("loaded".into()),
            in_hand: in_hand.to_vec(),
        };
        let drafts = act::open_card(procedures.newest(), "0.1.0", &setup).unwrap();
        crew.keep("tess", drafts);
        crew.sign_on("tess", Role::Technician);
        crew.sign_on("fay", Role::Foreman);
        crew
    }

    pub(crate) fn with(
        procedures: &'static Procedures,
        lines: impl IntoIterator<Item = Line>,
    ) -> Self {
        let mut trail = Trail::new("card-1".into());
        for line in lines {
            trail.take_in(line);
        }
        let last = trail.in_order().last().map(|line| line.at.utc);
        Self {
            now: last.unwrap_or_else(|| DateTime::from_timestamp(1_790_000_000, 0).unwrap()),
            trail,
            procedures,
            tablet: "tablet-a".into(),
        }
    }

    pub(crate) fn on(mut self, tablet: &str) -> Self {
        self.tablet = tablet.into();
        self
    }

    pub(crate) fn card(&self) -> Card {
        fold(&self.trail, self.procedures)
    }

    pub(crate) fn sign_on(&mut self, who: &str, role: Role) {
        self.keep(who, vec![act::sign_on(&who.into(), who, role)]);
    }

    fn stamp(&self) -> Stamp {
        Stamp {
            utc: self.now,
            offset_minutes: -300,
        }
    }

    fn keep(&mut self, who: &str, drafts: Vec<Draft>) -> Vec<Line> {
        self.now += TimeDelta::seconds(20);
        let lines = self
            .trail
            .write(&self.tablet, &who.into(), self.stamp(), drafts);
        for line in &lines {
            self.trail.take_in(line.clone());
        }
        lines
    }

    pub(crate) fn strike(
        &mut self,
        who: &str,
        line: &LineRef,
        why: Option<&str>,
    ) -> Result<Vec<Line>, Refusal> {
        let card = self.card();
        let proof = act::may_strike(&card, &who.into(), line, self.stamp())?;
        let draft = act::strike(&card, proof, why)?;
        Ok(self.keep(who, vec![draft]))
    }

    /// Answers the first thing that is open, honestly.
    pub(crate) fn go_on(&mut self, card: &Card, dice: &mut Dice) -> Result<Vec<Line>, String> {
        let say = |refusal: &Refusal| format!("{:?}", refusal.words(card));
        if of_gap(card, self.stamp()).is_some() {
            let draft = act::come_back(card, &"tess".into(), &[], None, self.stamp());
            return Ok(self.keep("tess", vec![draft.map_err(|refusal| say(&refusal))?]));
        }
        if let Some(line) = unsettled(card) {
            let agreed = line.state == LineState::SaidYes;
            let state = if agreed {
                LineState::Done
            } else {
                LineState::SaidYes
            };
            let draft = act::tell(card, &"tess".into(), &line.line, state);
            return Ok(self.keep("tess", vec![draft.map_err(|refusal| say(&refusal))?]));
        }
        let (at, step, ask) = open_ask(card).ok_or("nothing is open")?;
        if let AskKind::Fact(fact) = &ask.kind {
            let value = fact_value(card, at, fact.as_str(), dice);
            let draft = act::set_fact(card, &"tess".into(), at, fact, value);
            let draft = draft.map_err(|refusal| format!("{fact}: {}", say(&refusal)))?;
            return Ok(self.keep("tess", vec![draft]));
        }
        let who = doer(card, step, ask, at);
        let item = open_item(card, step, ask, at, &who);
        let ask_id = &ask.id;
        let proof = may_take(card, &who, at, &step.id, ask_id, item, self.stamp())
            .map_err(|hold| format!("{ask_id}: {hold:?}"))?;
        let answer =
            honest(card, step, ask, at, dice).ok_or_else(|| format!("{ask_id}: no answer"))?;
        let drafts = act::take_with_line(card, proof, answer, &UNITS);
        let drafts = drafts.map_err(|refusal| format!("{ask_id}: {}", say(&refusal)))?;
        Ok(self.keep(who.as_str(), drafts))
    }

    /// What comes between: a night, something found, a part found bad, a wheel end sent back.
    /// Nothing if it can't be now.
    pub(crate) fn something_happens(
        &mut self,
        card: &Card,
        dice: &mut Dice,
    ) -> Result<Vec<Line>, Refusal> {
        match dice.below(4) {
            0 => self.a_night(card, dice, &"tess".into(), None),
            1 => self.find(card, dice, &"tess".into()),
            2 => {
                let procedure = card.procedure.clone().unwrap();
                let places = card.places(Scope::End, Place::Vehicle);
                let at = *dice.pick(&places).ok_or(Refusal::Stale)?;
                let mut bad = Vec::new();
                for step in procedure.steps() {
                    for ask in &step.asks {
                        if let AskKind::Choose(offers) = &ask.kind {
                            let found = offers.iter().filter(|offer| offer.finding.is_some());
                            bad.extend(found.map(|offer| (step, ask, offer.id.clone())));
                        }
                    }
                }
                let (step, ask, option) = dice.pick(&bad).unwrap().clone();
                let who = PersonId::from("tess");
                let now = self.stamp();
                let proof = may_take(card, &who, at, &step.id, &ask.id, Item::Only, now)?;
                let answer = Answer::Choice { option };
                let drafts = act::take_with_line(card, proof, answer, &UNITS)?;
                Ok(self.keep("tess", drafts))
            }
            _ => {
                let places = card.places(Scope::End, Place::Vehicle);
                let at = *dice.pick(&places).ok_or(Refusal::Stale)?;
                let who = PersonId::from("fay");
                let step = StepId::from(second_look::STEP);
                let (ask, now) = ("look".into(), self.stamp());
                let proof = may_take(card, &who, at, &step, &ask, Item::Only, now)?;
                let draft = act::take(card, proof, sent_back(card, at, dice), &UNITS)?;
                Ok(self.keep("fay", vec![draft]))
            }
        }
    }

    /// Five hours later: what keeps the vehicle there is looked at, and may not be as it was left.
    fn a_night(
        &mut self,
        card: &Card,
        dice: &mut Dice,
        who: &PersonId,
        beside: Option<PersonId>,
    ) -> Result<Vec<Line>, Refusal> {
        self.now += TimeDelta::hours(5);
        let asked = card.to_look_at(self.now);
        let but: Vec<OptionId> = asked
            .into_iter()
            .filter(|_| dice.one_in(4))
            .cloned()
            .collect();
        let draft = act::come_back(card, who, &but, beside, self.stamp())?;
        Ok(self.keep(who.as_str(), vec![draft]))
    }

    /// What is written down and takes no step: a note of a line, who asked, a wheel end taken over, a
    /// tick of the bring list, the shop's values, the card put away.
    pub(crate) fn beside_the_work(
        &mut self,
        card: &Card,
        dice: &mut Dice,
        who: &PersonId,
    ) -> Result<Vec<Line>, Refusal> {
        let line = dice
            .pick(card.extra_lines())
            .map(|extra| extra.line.clone());
        let line = line.ok_or(Refusal::Stale);
        let draft = match dice.below(8) {
            0 => act::note_part(card, who, &line?, "hose", "88-12")?,
            1 => act::note_minutes(card, who, &line?, 15)?,
            2 => {
                let (photo, small) = (Sha::of(b"photo"), Sha::of(b"small"));
                act::photo(card, who, &line?, (photo, small))?
            }
            3 => act::tell_asked(card, who, &line?, LineState::ALL[dice.below(5)], "Mr. Ode")?,
            4 => {
                let places = card.places(Scope::End, Place::Vehicle);
                act::take_end(card, who, *dice.pick(&places).ok_or(Refusal::Stale)?)?
            }
            5 => {
                let wanted = wanted(card, &SHEETS[0], &BRING);
                let item = &dice.pick(&wanted).ok_or(Refusal::Stale)?.id;
                let how = [BroughtHow::AtHand, BroughtHow::Fetched][dice.below(2)];
                bring::tick(card, who, &wanted, item, how)?
            }
            6 => shop::take_values(card, who, &SHEETS[dice.below(SHEETS.len())])?,
            _ => act::put_away(card, who, dice.one_in(2))?,
        };
        Ok(self.keep(who.as_str(), vec![draft]))
    }

    fn find(&mut self, card: &Card, dice: &mut Dice, who: &PersonId) -> Result<Vec<Line>, Refusal> {
        let procedure = card.procedure.clone().unwrap();
        let finding = dice.pick(&procedure.findings).unwrap();
        let mut places = card.places(Scope::End, Place::Vehicle);
        places.extend(card.places(Scope::Axle, Place::Vehicle));
        let at = *dice.pick(&places).ok_or(Refusal::Stale)?;
        let fix = dice.pick(&finding.fixes).unwrap();
        let draft = act::find(card, who, at, &finding.id, fix, "")?;
        Ok(self.keep(who.as_str(), vec![draft]))
    }

    /// The proof and the answer for the first thing that is open, if it is not a fact.
    pub(crate) fn ask_next(
        &self,
        card: &Card,
        dice: &mut Dice,
    ) -> Option<(PersonId, MayTake, Answer)> {
        let (at, step, ask) = open_ask(card)?;
        let who = doer(card, step, ask, at);
        let item = open_item(card, step, ask, at, &who);
        let proof = may_take(card, &who, at, &step.id, &ask.id, item, self.stamp()).ok()?;
        Some((who, proof, honest(card, step, ask, at, dice)?))
    }

    /// Tries something without thinking: any step, skip, pass, fact or strike, by anybody.
    pub(crate) fn try_anything(
        &mut self,
        card: &Card,
        dice: &mut Dice,
    ) -> Result<Vec<Line>, Refusal> {
        let procedure = card.procedure.clone().unwrap();
        let steps: Vec<&Step> = procedure.steps().collect();
        let people = ["tess", "fay", "ann", "zed"].map(PersonId::from);
        let who = dice.pick(&people).unwrap().clone();
        let step = *dice.pick(&steps).unwrap();
        let mut places = card.places(Scope::End, Place::Vehicle);
        places.extend(card.places(Scope::Axle, Place::Vehicle));
        places.push(Place::Vehicle);
        let ask = dice.pick(&step.asks).unwrap();
        let own = card.ask_places(step, ask, Place::Vehicle);
        let anywhere = dice.one_in(5);
        let at = *dice
            .pick(if anywhere { &places } else { &own })
            .ok_or(Refusal::Stale)?; // Nothing is in hand.
        let drafts = match dice.below(26) {
            0 => {
                let skips: Vec<OptionId> =
                    steps.iter().flat_map(|step| step.skips.clone()).collect();
                let why = dice.pick(&skips).unwrap();
                vec![act::skip(card, &who, at, &step.id, why, self.stamp())?]
            }
            1 => {
                let first: &StepId = &dice.pick(&steps).unwrap().id;
                let draft = act::pass(card, &"fay".into(), at, &step.id, first, "because")?;
                return Ok(self.keep("fay", vec![draft]));
            }
            2 => {
                let lines: Vec<LineRef> = card
                    .entries
                    .iter()
                    .map(|entry| entry.line.clone())
                    .collect();
                let late = &lines[lines.len().saturating_sub(30)..];
                let any = dice.one_in(2);
                let line = dice.pick(if any { &lines } else { late }).unwrap();
                return self.strike(who.as_str(), line, Some("because"));
            }
            3 => {
                let fact = dice.pick(&procedure.facts).unwrap();
                let places = card.places(fact.scope, Place::Vehicle);
                let at = *dice.pick(&places).ok_or(Refusal::Stale)?;
                let value = match fact.id.as_str() {
                    "in-hand" => FactValue::Axles(vec![u8::try_from(1 + dice.below(4)).unwrap()]),
                    "layout" => FactValue::Text("1-2-1".to_owned()),
                    id => fact_value(card, at, id, dice),
                };
                vec![act::set_fact(card, &who, at, &fact.id, value)?]
            }
            4 => {
                let person = dice.pick(&people).unwrap();
                vec![act::sign_off(card, &who, person, "end of shift")?]
            }
            5 => return self.find(card, dice, &who),
            6 | 7 => {
                let line = dice.pick(card.extra_lines()).ok_or(Refusal::Stale)?;
                let state = LineState::ALL[dice.below(5)];
                vec![act::tell(card, &who, &line.line, state)?]
            }
            8 => {
                let line = dice.pick(card.extra_lines()).ok_or(Refusal::Stale)?;
                vec![act::pass_line(card, &who, &line.line, "because")?]
            }
            9 => {
                let beside = dice.one_in(2).then(|| PersonId::from("tess"));
                return self.a_night(card, dice, &who, beside);
            }
            10 => {
                let stage = &dice.pick(&procedure.stages).unwrap().id;
                let (from, to) = (*dice.pick(&places).unwrap(), *dice.pick(&places).unwrap());
                let now = self.stamp();
                move_stage(card, &who, stage, (from, to), "wrong end", now, &UNITS)?
            }
            11 => return self.something_happens(card, dice),
            12 | 13 => return self.beside_the_work(card, dice, &who),
            14 => {
                let taken = match as_axle_before(card, step, at) {
                    Some((_, taken)) if !taken.is_empty() => taken,
                    _ => as_other_side(card, step, at),
                };
                let give = |one: TakenOver| act::set_fact(card, &who, one.at, &one.fact, one.value);
                taken.into_iter().map(give).collect::<Result<_, _>>()?
            }
            _ => {
                let item = match dice.below(3) {
                    0 => Item::Person(who.clone()),
                    1 => Item::Nut(u16::try_from(1 + dice.below(6)).unwrap()),
                    _ => Item::Only,
                };
                let item = match &ask.kind {
                    AskKind::Press(press) if press.each_person => item,
                    AskKind::Pass(_) => item,
                    _ => Item::Only,
                };
                let beside = dice.one_in(2).then(|| PersonId::from("tess"));
                let proof =
                    may_take(card, &who, at, &step.id, &ask.id, item, self.stamp())?.beside(beside);
                let answer = any(card, step, ask, at, dice).ok_or(Refusal::Stale)?;
                act::take_with_line(card, proof, answer, &UNITS)?
            }
        };
        Ok(self.keep(who.as_str(), drafts))
    }
}

/// The first extra line that still wants something, or that was passed over.
fn unsettled(card: &Card) -> Option<&ExtraLine> {
    let settled = |line: &ExtraLine| line.is_settled(card.finding(&line.finding));
    card.extra_lines().iter().find(|line| !settled(line))
}

/// A wheel end sent back, with some of its steps to do again.
fn sent_back(card: &Card, at: Place, dice: &mut Dice) -> Answer {
    let mut again: Vec<StepId> = Vec::new();
    for step in second_look::can_be_sent_back(card, at) {
        if dice.one_in(6) {
            again.push(step.id.clone());
        }
    }
    Answer::Look {
        accepted: false,
        why: Some("because".to_owned()),
        seen: None,
        again,
    }
}

fn open_ask(card: &Card) -> Option<(Place, &Step, &Ask)> {
    let (at, step) = card.next_open()?;
    for ask in step.asks.iter().filter(|ask| !ask.optional) {
        for place in card.ask_places(step, ask, at) {
            let state = card.ask_state(step, ask, place);
            if !matches!(state, AskState::Clear | AskState::NotAsked) {
                return Some((place, step, ask));
            }
        }
    }
    None
}

/// The technician does it, the foreman looks.
fn doer(card: &Card, step: &Step, ask: &Ask, at: Place) -> PersonId {
    let open = |who: &PersonId| {
        let slot = card.slot(step, ask, at, Item::Person(who.clone()));
        slot.is_none_or(|slot| slot.live().is_empty())
    };
    match &ask.kind {
        AskKind::Look => "fay".into(),
        AskKind::Press(press) if press.each_person => {
            let waiting = card.working().find(|who| open(who)).cloned();
            waiting.unwrap_or_else(|| "tess".into())
        }
        _ => "tess".into(),
    }
}

fn open_item(card: &Card, step: &Step, ask: &Ask, at: Place, who: &PersonId) -> Item {
    match &ask.kind {
        AskKind::Press(press) if press.each_person => Item::Person(who.clone()),
        AskKind::Pass(pass) if pass.one_by_one => {
            let clear = |n: u16| {
                card.slot(step, ask, at, Item::Nut(n))
                    .and_then(|slot| slot.only())
                    .is_some_and(|given| card.clears(step, ask, at, given))
            };
            let studs = card.studs(at).unwrap_or(0);
            Item::Nut((1..=studs).find(|n| !clear(*n)).unwrap_or(1))
        }
        _ => Item::Only,
    }
}

fn typed(text: &str, unit: &str) -> TypedText {
    TypedText {
        text: text.to_owned(),
        unit: unit.to_owned(),
    }
}

/// A value that can be true: weights that fit each other, few studs, else any option.
fn fact_value(card: &Card, at: Place, fact: &str, dice: &mut Dice) -> FactValue {
    let procedure = card.procedure.as_ref().unwrap();
    let def = procedure.fact(&fact.into()).unwrap();
    match (fact, &def.kind) {
        ("group-weight", _) => FactValue::Typed(typed("34000", "lb")),
        ("axle-weight", _) => FactValue::Typed(typed("17000", "lb")),
        ("unit-weight", _) => FactValue::Typed(typed("23", "t")),
        ("studs", _) => FactValue::Count(2),
        // One kind of chamber all round, so that the strokes are good ones.
        ("chamber-family", _) => FactValue::Choice("clamp".into()),
        ("chamber-type", _) => FactValue::Choice("t30".into()),
        ("stroke-class", _) => FactValue::Choice("standard".into()),
        // Both ends alike: arms, linings and adjusters.
        ("arm-length", _) => FactValue::Choice("a5-5".into()),
        ("edge-normal" | "edge-hot", _) => FactValue::Choice("f".into()),
        // Of a kind that nobody knows, so that it differs from none.
        ("adjuster-here", _) => FactValue::Choice("other".into()),
        // No bolt that the crew reads stands out less.
        ("bolt-tag", _) => FactValue::Typed(typed("1", "mm")),
        ("stud-thread", _) => FactValue::Choice("m22".into()),
        // Drums of one size, and the same lining on both ends.
        ("drum-size", _) => FactValue::Choice("d16-5".into()),
        ("final-torque", _) => {
            let mounting = card.choice(Place::Axle(at.axle().unwrap_or(0)), "mounting");
            let spoke = mounting.is_some_and(|mounting| mounting.as_str() == "spoke");
            FactValue::Typed(typed(if spoke { "225" } else { "475" }, "lbf-ft"))
        }
        (_, FactKind::Choose(options)) => FactValue::Choice(dice.pick(options).unwrap().clone()),
        (_, FactKind::Reading(reading)) => {
            FactValue::Typed(typed(&reading.usual[0], reading.units[0].0.code()))
        }
        (_, FactKind::Count(count)) => FactValue::Count(count.usual[0]),
        (_, FactKind::Axles) => FactValue::Axles(card.axles_in_hand()),
        (_, FactKind::Text) => FactValue::Text("as read".to_owned()),
    }
}

fn stands(rating: &str, condition: StandCondition) -> Answer {
    let stand = StandUsed {
        stand: String::new(),
        tag: StandTag {
            rating: Some(typed(rating, "short-ton")),
            basis: TagBasis::PerStand,
            condition,
        },
    };
    Answer::Stands {
        stands: vec![stand.clone(), stand],
    }
}

/// A wrench that any value of the crew lies in the range of, calibrated on the day.
fn wrench() -> Answer {
    let on = NaiveDate::default();
    Answer::Wrench {
        used: Box::new(WrenchUsed {
            wrench: "W".to_owned(),
            tag: WrenchTag {
                low: typed("1", "lbf-ft"),
                high: typed("2000", "lbf-ft"),
                calibrated: Some(on),
                interval_days: None,
            },
            on,
        }),
    }
}

/// What a sound brake measures, in the usual unit of the ask.
fn plausible(card: &Card, step: &Step, ask: &Ask, at: Place) -> Option<&'static str> {
    let axle = Place::Axle(at.axle().unwrap_or(0));
    let pawl = card
        .choice(axle, "adjuster-style")
        .is_some_and(|style| style.as_str() == "pawl");
    Some(match (step.id.as_str(), ask.id.as_str()) {
        (_, "at-rest") => "2",
        (_, "applied") => "3 1/2",
        (_, "free-stroke") if pawl => "5/8",
        (_, "free-stroke") => "1/2",
        (_, "reservoir") => "95",
        ("slack-back-off", "torque") => "25",
        (_, "gear-torque") => "20",
        (_, "lining" | "thinnest") => "1/2",
        (_, "span") => "12.4",
        (_, "cast-max") => "16.62",
        ("drum", _) => "16.5",
        ("camshaft", "radial") => "0.01",
        ("camshaft", "end-play") => "0.02",
        // Inside the window of every way of adjusting.
        ("hub" | "drum-on", "end-play") => "0.0015",
        // Enough for every thread, and for the pilot of any wheel.
        ("hang", "turns") => "8",
        ("wheel-look", "pilot") => "1.2",
        (_, "angle") => "105",
        (_, "clevis-gap") => "0.03",
        (_, "leak-off" | "leak-on") => "1",
        (_, "warning") => "65",
        (_, "stand-out") => match card.choice(axle, "mounting")?.as_str() {
            "ball-seat-dual" => "1.4",
            "ball-seat-single" => "2",
            _ => "3",
        },
        _ => return None,
    })
}

/// An answer that does what the ask is there for, and that these facts allow. A foreman finds
/// something to do again now and then.
fn honest(card: &Card, step: &Step, ask: &Ask, at: Place, dice: &mut Dice) -> Option<Answer> {
    let mut pick = |offers: &[Offer]| {
        let fits = |offer: &&Offer| offer.clears && card.surely_fits(&offer.when, at);
        let fitting: Vec<&Offer> = offers.iter().filter(fits).collect();
        dice.pick(&fitting).map(|offer| offer.id.clone())
    };
    Some(match &ask.kind {
        AskKind::Lines(_) => Answer::Lines { out: Vec::new() },
        AskKind::Choose(_) if ask.rule.as_deref() == Some("stud.hand") => {
            // Left-hand threads belong on the left of ball-seat wheels only.
            let axle = at.axle()?;
            let mounting = card.choice(Place::Axle(axle), "mounting")?;
            let left = mounting.as_str() != "hub-piloted" && at == Place::ends(axle)[0];
            Answer::Choice {
                option: if left { "left" } else { "right" }.into(),
            }
        }
        AskKind::Choose(offers) => Answer::Choice {
            option: pick(offers)?,
        },
        AskKind::Press(press) => Answer::Press {
            option: pick(&press.answers)?,
        },
        AskKind::Reading(reading) if ask.rule.as_deref() == Some("support.jack") => {
            Answer::Reading {
                typed: typed("50", reading.units[0].0.code()),
            }
        }
        AskKind::Reading(reading) => {
            let text = match (ask.id.as_str(), ask.rule.as_deref()) {
                ("reservoir", _) => "95",
                // Inside the window of every mechanism, and over the least of a clutch.
                (_, Some("slack.free")) => "11/16",
                (_, Some("slack.clutch")) => "20",
                _ => plausible(card, step, ask, at).unwrap_or(&reading.usual[0]),
            };
            Answer::Reading {
                typed: typed(text, reading.units[0].0.code()),
            }
        }
        AskKind::Count(count) => Answer::Count {
            count: count.usual[0],
        },
        AskKind::Wheels => Answer::Wheels {
            at: card.wheels_to_chock(),
        },
        AskKind::Exceptions(_) => Answer::Exceptions { but: Vec::new() },
        AskKind::Pass(pass) if pass.one_by_one => Answer::Nut {
            mark: pick(&pass.marks)?,
        },
        AskKind::Pass(_) => Answer::WholePass { but: Vec::new() },
        AskKind::Stands => stands("25", StandCondition::Sound),
        AskKind::Wrench => wrench(),
        AskKind::Look if dice.one_in(3) => sent_back(card, at, dice),
        AskKind::Look => Answer::Look {
            accepted: true,
            why: None,
            seen: None,
            again: Vec::new(),
        },
        AskKind::Fact(_) | AskKind::Settled => return None,
    })
}

/// An answer of the right kind, right or wrong.
fn any(card: &Card, step: &Step, ask: &Ask, at: Place, dice: &mut Dice) -> Option<Answer> {
    if dice.one_in(2) {
        return honest(card, step, ask, at, dice);
    }
    let option =
        |offers: &[Offer], dice: &mut Dice| dice.pick(offers).map(|offer| offer.id.clone());
    Some(match &ask.kind {
        AskKind::Lines(lines) => Answer::Lines {
            out: vec![dice.pick(lines)?.clone()],
        },
        AskKind::Choose(offers) => Answer::Choice {
            option: option(offers, dice)?,
        },
        AskKind::Press(press) => Answer::Press {
            option: option(&press.answers, dice)?,
        },
        AskKind::Pass(pass) if dice.one_in(2) => Answer::Nut {
            mark: option(&pass.marks, dice)?,
        },
        AskKind::Pass(pass) => Answer::WholePass {
            but: vec![Exception {
                item: "1".to_owned(),
                mark: option(&pass.marks, dice)?,
            }],
        },
        // A drum of another size is another drum.
        AskKind::Reading(_) if ask.id.as_str() == "cast-max" => {
            return honest(card, step, ask, at, dice);
        }
        AskKind::Reading(reading) => Answer::Reading {
            typed: typed("1", reading.units[dice.below(reading.units.len())].0.code()),
        },
        AskKind::Stands => {
            let rating = ["5", "8 1/2", "9", "12"][dice.below(4)];
            stands(rating, StandCondition::ALL[dice.below(4)])
        }
        AskKind::Look => sent_back(card, at, dice),
        AskKind::Wheels => Answer::Wheels {
            at: vec![card.layout()?.ends()[dice.below(8)]],
        },
        AskKind::Count(_)
        | AskKind::Exceptions(_)
        | AskKind::Wrench
        | AskKind::Fact(_)
        | AskKind::Settled => {
            return honest(card, step, ask, at, dice);
        }
    })
}
