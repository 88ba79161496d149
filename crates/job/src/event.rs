//! What can happen on a card. Facts in the past tense; lines are only added.
//!
//! A new kind goes at the end of [`Event`] and into `KINDS`, and says in
//! [`Event::may_be_skipped`] what an app that does not know it may do.

use std::collections::BTreeMap;

use chrono::{Datelike, NaiveDate};
use rules::quantity::Day;
use rules::support::tag;
use rules::torque::wrench;
use rules::typed::{Typed, TypedFault};
use rules::unit::Unit;
use serde::{Deserialize, Serialize};

use crate::id::{AskId, FactId, FindingId, OptionId, PersonId, Place, StageId, StepId, TabletId};
use crate::line::{LineRef, Sha};
use crate::procedure::{Pin, Scope};

/// One fact.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", content = "event", rename_all = "kebab-case")]
pub enum Event {
    /// The first line of a card.
    CardOpened {
        procedure: Pin,
        rules: String,
        app: String,
    },
    /// The card goes on under another edition of the procedure.
    ProcedureMoved { to: Pin },
    /// A person took up this card, under the name and role that the shop sheet had for them.
    SignedOn {
        person: PersonId,
        name: String,
        role: Role,
    },
    /// A person stopped working on this vehicle; their own tags and words are no longer waited for.
    SignedOff {
        person: PersonId,
        /// A foreman's reason for signing somebody else off.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        why: Option<String>,
    },
    /// A fact of the set-up sheet was given.
    FactSet {
        at: Place,
        fact: FactId,
        value: FactValue,
    },
    /// A wheel end was taken up by the writer of the line.
    EndTaken { at: Place },
    /// One ask of a step was answered.
    Answered {
        at: Place,
        step: StepId,
        ask: AskId,
        item: Item,
        answer: Answer,
        /// Who stood beside an apprentice at a `!`.
        beside: Option<PersonId>,
        judged: Vec<JudgedThen>,
    },
    /// A step was left out for one of the reasons it offers.
    StepSkipped {
        at: Place,
        step: StepId,
        why: OptionId,
    },
    /// A foreman passed a hold that does not protect a person.
    HoldPassed {
        at: Place,
        step: StepId,
        first: StepId,
        why: String,
    },
    /// An earlier line was taken back. It stays readable.
    Struck { line: LineRef, why: Option<String> },
    /// The writer had taken in other strands up to these heads.
    Joined { heads: Heads },
    /// Shop sheet: a person of the shop.
    PersonListed {
        person: PersonId,
        name: String,
        role: Role,
    },
    /// Shop sheet: a person no longer there.
    PersonLeft { person: PersonId },
    /// Shop sheet: a stand that the shop owns.
    StandListed { stand: String, tag: StandTag },
    /// Shop sheet: a stand taken out of use.
    StandWithdrawn { stand: String, why: String },
    /// Work was found that is not on the card: an extra line.
    LineFound {
        at: Place,
        finding: FindingId,
        fix: OptionId,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        words: Option<String>,
        /// The answer that it came up with, if it was not found by itself.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        with: Option<WithAnswer>,
    },
    /// An extra line was answered, or its work was done.
    LineTold {
        line: LineRef,
        state: LineState,
        /// Who of the customer's people was asked, by name.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        asked: Option<String>,
    },
    /// A foreman lets work go on over an extra line to which the customer said no.
    LinePassed { line: LineRef, why: String },
    /// After a long gap: all that keeps the vehicle where it is was found as it was left, but for
    /// what is named.
    CameBack {
        but: Vec<OptionId>,
        /// Who stood beside an apprentice.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        beside: Option<PersonId>,
    },
    /// The card was taken out of the daily list, or put back into it. Nothing of it is deleted.
    PutAway { away: bool },
    /// Something of the bring list was ticked off.
    Brought { item: OptionId, how: BroughtHow },
    /// A photo of what an extra line is about. Its bytes are kept beside the trail.
    LinePhoto {
        line: LineRef,
        /// SHA-256 of the photo's bytes.
        photo: Sha,
        /// The same of a small copy.
        small: Sha,
    },
    /// A part that an extra line needs, with its number where one is known.
    LinePart {
        line: LineRef,
        part: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        number: Option<String>,
    },
    /// Time spent on an extra line. Several are added up.
    LineMinutes { line: LineRef, minutes: u16 },
    /// Shop sheet: a torque wrench that the shop owns, or the same one calibrated anew.
    WrenchListed { wrench: String, tag: Box<WrenchTag> },
    /// Shop sheet: a torque wrench taken out of use.
    WrenchWithdrawn { wrench: String, why: String },
    /// Shop sheet: how the shop tightens one kind of wheel; none: as printed.
    WheelSet {
        wheel: OptionId,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        spec: Option<Box<WheelSpec>>,
    },
    /// Shop sheet: what a new card starts with for one fact; none: it is asked.
    DefaultSet {
        fact: FactId,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        option: Option<OptionId>,
    },
    /// The card goes on with the shop's own values as they were then.
    ShopTaken { values: Box<ShopValues> },
    /// Shop sheet: a jack that the shop owns.
    JackListed { jack: String, tag: JackTag },
    /// Shop sheet: a jack taken out of use.
    JackWithdrawn { jack: String, why: String },
    /// Shop sheet: a limit of the shop's own, in the place of one for the same.
    LimitSet { limit: Box<ShopLimit> },
    /// Shop sheet: a limit of the shop's own taken off.
    LimitDropped { limit: Box<ShopLimit> },
    /// Shop sheet: a step of the shop's own, in the place of another if it says so.
    ShopStepSet {
        step: Box<ShopStep>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        was: Option<StepId>,
    },
    /// Shop sheet: a step of the shop's own taken off. Cards that took it keep it.
    ShopStepDropped { step: StepId },
    /// Shop sheet: where the final pass is done, and how it is logged.
    FinalPassSet { way: FinalPass },
}

/// The first kind under which values of the shop were taken. Apps that know no other read of it the
/// wheels and the defaults; more than those stands under [`SHEET_TAKEN`], which they don't know.
const SHOP_TAKEN: &str = "shop-taken";
const SHEET_TAKEN: &str = "sheet-taken";

const KINDS: [&str; 36] = [
    "card-opened",
    "procedure-moved",
    "signed-on",
    "signed-off",
    "fact-set",
    "end-taken",
    "answered",
    "step-skipped",
    "hold-passed",
    "struck",
    "joined",
    "person-listed",
    "person-left",
    "stand-listed",
    "stand-withdrawn",
    "line-found",
    "line-told",
    "line-passed",
    "came-back",
    "put-away",
    "brought",
    "line-photo",
    "line-part",
    "line-minutes",
    "wrench-listed",
    "wrench-withdrawn",
    "wheel-set",
    "default-set",
    "shop-taken",
    "jack-listed",
    "jack-withdrawn",
    "limit-set",
    "limit-dropped",
    "shop-step-set",
    "shop-step-dropped",
    "final-pass-set",
];

/// How something of the bring list came to the vehicle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum BroughtHow {
    /// It was there before work began.
    AtHand,
    /// Somebody had to go for it once work was under way.
    Fetched,
    /// Ticked by mistake, or taken away again: it is not there.
    NotHere,
}

impl BroughtHow {
    /// Last part of its word key.
    pub fn code(self) -> &'static str {
        match self {
            Self::AtHand => "at-hand",
            Self::Fetched => "fetched",
            Self::NotHere => "not-here",
        }
    }
}

/// The last line of each strand that was seen.
pub type Heads = BTreeMap<TabletId, Head>;

/// The end of a strand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Head {
    pub n: u32,
    pub sha: Sha,
}

/// Which of several like things an answer is about: a person's own tag, a nut by number.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Item {
    /// There is just one.
    #[default]
    Only,
    Person(PersonId),
    Nut(u16),
}

/// What a person does in the shop.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    Apprentice,
    Technician,
    Foreman,
}

impl Role {
    pub const ALL: [Self; 3] = [Self::Technician, Self::Apprentice, Self::Foreman];

    /// Stable code, as in a line and in word keys.
    pub fn code(self) -> &'static str {
        match self {
            Self::Apprentice => "apprentice",
            Self::Technician => "technician",
            Self::Foreman => "foreman",
        }
    }
}

/// A number exactly as typed, with the unit it was typed in.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct TypedText {
    pub text: String,
    pub unit: String,
}

impl TypedText {
    /// The number behind the text. Lines from elsewhere are not trusted, so this can fail.
    pub fn typed(&self) -> Result<Typed, TypedFault> {
        let unit = Unit::from_code(&self.unit).ok_or(TypedFault::Empty)?;
        Typed::parse(&self.text, unit)
    }
}

impl From<&Typed> for TypedText {
    fn from(typed: &Typed) -> Self {
        Self {
            text: typed.text().to_owned(),
            unit: typed.unit().code().to_owned(),
        }
    }
}

/// The value of a fact.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum FactValue {
    Choice(OptionId),
    Typed(TypedText),
    Count(u16),
    Axles(Vec<u8>),
    Text(String),
    NotKnown,
}

impl FactValue {
    pub fn choice(&self) -> Option<&OptionId> {
        if let Self::Choice(option) = self {
            Some(option)
        } else {
            None
        }
    }

    pub fn typed(&self) -> Option<&TypedText> {
        if let Self::Typed(text) = self {
            Some(text)
        } else {
            None
        }
    }

    pub fn count(&self) -> Option<u16> {
        if let Self::Count(count) = self {
            Some(*count)
        } else {
            None
        }
    }

    pub fn axles(&self) -> Option<&[u8]> {
        if let Self::Axles(axles) = self {
            Some(axles)
        } else {
            None
        }
    }

    pub fn text(&self) -> Option<&str> {
        if let Self::Text(text) = self {
            Some(text)
        } else {
            None
        }
    }
}

/// An answer to an ask. Its kind fits the ask's kind; one that does not never counts.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Answer {
    /// All lines done but these.
    Lines {
        out: Vec<OptionId>,
    },
    Choice {
        option: OptionId,
    },
    /// Pressed and held.
    Press {
        option: OptionId,
    },
    Reading {
        typed: TypedText,
    },
    Count {
        count: u16,
    },
    Wheels {
        at: Vec<Place>,
    },
    /// All in order but these.
    Exceptions {
        but: Vec<Exception>,
    },
    /// A pass logged as a whole.
    WholePass {
        but: Vec<Exception>,
    },
    /// One nut of a pass logged one by one.
    Nut {
        mark: OptionId,
    },
    Stands {
        stands: Vec<StandUsed>,
    },
    /// The torque wrench that a pass is done with.
    Wrench {
        used: Box<WrenchUsed>,
    },
    /// A jack of the shop, in the place of a rating read off one.
    Jack {
        used: JackUsed,
    },
    Look {
        accepted: bool,
        why: Option<String>,
        /// What was on the page that was looked at.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        seen: Option<Box<Seen>>,
        /// Sent back: the steps to do again.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        again: Vec<StepId>,
    },
}

/// What a second person saw: the ends of the strands, and a digest of the rows shown.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Seen {
    pub heads: Heads,
    pub digest: Sha,
}

/// The answer that an extra line came up with.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct WithAnswer {
    pub step: StepId,
    pub ask: AskId,
}

/// How far an extra line is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum LineState {
    NotAsked,
    Waiting,
    SaidYes,
    SaidNo,
    Done,
}

impl LineState {
    pub const ALL: [Self; 5] = [
        Self::NotAsked,
        Self::Waiting,
        Self::SaidYes,
        Self::SaidNo,
        Self::Done,
    ];

    /// Last part of its word key.
    pub fn code(self) -> &'static str {
        match self {
            Self::NotAsked => "not-asked",
            Self::Waiting => "waiting",
            Self::SaidYes => "said-yes",
            Self::SaidNo => "said-no",
            Self::Done => "done",
        }
    }
}

/// One thing that is not in order.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Exception {
    /// A number, or the id of a named part.
    pub item: String,
    pub mark: OptionId,
}

/// A stand put under an axle, with its tag as it was then.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct StandUsed {
    /// Number in the shop's list, or empty for one typed in.
    pub stand: String,
    pub tag: StandTag,
}

/// What is written on a stand, and how it looks.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct StandTag {
    /// The figure on the tag; none if there is no tag or it can't be read. The unit `ton` means
    /// that the tag does not say which ton.
    pub rating: Option<TypedText>,
    pub basis: TagBasis,
    pub condition: StandCondition,
}

/// What the figure on the tag is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum TagBasis {
    PerStand,
    PerPair,
    Unmarked,
}

impl TagBasis {
    pub const ALL: [Self; 3] = [Self::PerStand, Self::PerPair, Self::Unmarked];

    /// The same, as the rules know it.
    pub fn rule(self) -> tag::Basis {
        match self {
            Self::PerStand => tag::Basis::PerStand,
            Self::PerPair => tag::Basis::PerPair,
            Self::Unmarked => tag::Basis::Unmarked,
        }
    }

    /// Last part of its word key.
    pub fn code(self) -> &'static str {
        self.rule().code()
    }
}

/// What was seen of a stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum StandCondition {
    Sound,
    Damaged,
    Repaired,
    PinMissing,
}

impl StandCondition {
    pub const ALL: [Self; 4] = [Self::Sound, Self::Damaged, Self::Repaired, Self::PinMissing];

    /// The same, as the rules know it.
    pub fn rule(self) -> tag::Condition {
        match self {
            Self::Sound => tag::Condition::Sound,
            Self::Damaged => tag::Condition::Damaged,
            Self::Repaired => tag::Condition::Repaired,
            Self::PinMissing => tag::Condition::PinMissing,
        }
    }

    /// Last part of its word key.
    pub fn code(self) -> &'static str {
        self.rule().code()
    }
}

impl StandTag {
    /// The tag as the rules read it.
    pub fn rule(&self) -> Result<tag::StandTag, TypedFault> {
        let rating = self.rating.as_ref().map(TypedText::typed).transpose()?;
        Ok(tag::StandTag {
            rating,
            basis: self.basis.rule(),
            condition: self.condition.rule(),
        })
    }
}

/// What stands on the plate of a jack.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct JackTag {
    /// The rated load. The unit `ton` means that the plate does not say which ton.
    pub rating: TypedText,
}

/// A jack put under an axle, with its plate as it was then.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct JackUsed {
    /// Name in the shop's list.
    pub jack: String,
    pub tag: JackTag,
}

/// A torque wrench taken up for a pass, with what was on it then.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct WrenchUsed {
    /// Name in the shop's list.
    pub wrench: String,
    pub tag: WrenchTag,
    /// The day that its calibration is held against.
    pub on: NaiveDate,
}

/// What is marked on a torque wrench, and what its calibration tag says.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct WrenchTag {
    pub low: TypedText,
    pub high: TypedText,
    /// None if nobody knows.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub calibrated: Option<NaiveDate>,
    /// How many days a calibration holds in this shop, if it says so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub interval_days: Option<u16>,
}

impl WrenchTag {
    /// The wrench as the rules know it.
    pub fn rule(&self) -> Result<wrench::Wrench, TypedFault> {
        let torque = |text: &TypedText| text.typed()?.quantity().torque().ok_or(TypedFault::Empty);
        Ok(wrench::Wrench {
            low: torque(&self.low)?,
            high: torque(&self.high)?,
            calibrated: self.calibrated.map(day),
            interval_days: self.interval_days,
        })
    }
}

/// How the shop tightens one kind of wheel, on its own responsibility.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct WheelSpec {
    pub low: TypedText,
    pub high: TypedText,
    /// The state of threads and washer that the range is for, as the fact of the card has it.
    pub oil: OptionId,
    /// Where the shop has it from.
    pub source: String,
    /// From and to in the pass that draws the wheel on to its seat; none: as printed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seat: Option<[TypedText; 2]>,
    /// The order in which the nuts are taken; empty: as printed.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub order: Vec<u8>,
}

/// The shop's own values that decide on a card.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct ShopValues {
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub wheels: BTreeMap<OptionId, WheelSpec>,
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub defaults: BTreeMap<FactId, OptionId>,
    /// Limits that makers of parts and provinces set, as the shop entered them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub limits: Vec<ShopLimit>,
    /// Steps that the shop does beside those of the procedure.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub steps: Vec<ShopStep>,
    #[serde(default, skip_serializing_if = "FinalPass::is_usual")]
    pub final_pass: FinalPass,
}

/// A step of the shop's own, in its own words. It only adds: nothing of the procedure goes.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ShopStep {
    pub stage: StageId,
    pub scope: Scope,
    pub words: String,
}

impl ShopStep {
    /// Longest text of a step, in characters: two lines of a runner's screen.
    pub const WORDS_MAX: usize = 120;

    /// Names it: the same words at the same place always have the same id, and other words another,
    /// so that an answer is never taken for one to something else.
    pub fn id(&self) -> StepId {
        let text = serde_json::to_vec(self).unwrap_or_default(); // Only text.
        let sha = Sha::of(&text).to_string();
        StepId::new(format!("{SHOP_STEP}{}", sha.get(..16).unwrap_or(&sha)))
    }
}

/// What the id of a step of the shop's own begins with, and no other.
pub const SHOP_STEP: &str = "shop-";

/// Where the final pass over the nuts is done, and how it is logged. Usually on the ground and nut
/// by nut.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct FinalPass {
    /// Before the axle comes down, with the wheel kept from turning.
    #[serde(default, skip_serializing_if = "is_not")]
    pub on_stands: bool,
    /// It may be logged as a whole, with the nuts named that were not right.
    #[serde(default, skip_serializing_if = "is_not")]
    pub as_a_whole: bool,
}

impl FinalPass {
    /// True for what the procedure says of it.
    pub fn is_usual(&self) -> bool {
        *self == Self::default()
    }
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands a reference")]
fn is_not(said: &bool) -> bool {
    !said
}

/// On which side of a limit a reading has to lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum LimitSide {
    AtMost,
    AtLeast,
}

impl LimitSide {
    /// Last part of its word key.
    pub fn code(self) -> &'static str {
        match self {
            Self::AtMost => "at-most",
            Self::AtLeast => "at-least",
        }
    }
}

/// A limit that the shop entered on its own responsibility.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ShopLimit {
    /// The rule whose readings it is for.
    pub rule: String,
    pub side: LimitSide,
    /// The kind of part, as the fact of the card has it; none: every kind.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub of: Option<OptionId>,
    /// The jurisdiction whose figure it is; none: a maker's, for every vehicle.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub law: Option<OptionId>,
    pub figure: TypedText,
    /// Where the shop has it from.
    pub source: String,
    /// Who entered it. Filled in from the line when the sheet is folded.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by: Option<PersonId>,
}

impl ShopLimit {
    /// True for two limits of the same: the later one takes the place of the other.
    pub fn is_of_same(&self, other: &Self) -> bool {
        (&self.rule, self.side, &self.of, &self.law)
            == (&other.rule, other.side, &other.of, &other.law)
    }
}

impl ShopValues {
    /// True if an app that knows only wheels and defaults would read less than is there.
    fn says_more(&self) -> bool {
        !self.limits.is_empty() || !self.steps.is_empty() || !self.final_pass.is_usual()
    }

    /// Names the version: the same values always have the same one.
    pub fn version(&self) -> Sha {
        Sha::of(&serde_json::to_vec(self).unwrap_or_default()) // Only text, numbers and lists.
    }
}

/// A date as the rules count days.
pub fn day(date: NaiveDate) -> Day {
    Day::from_date(date.year().into(), date.month().into(), date.day().into())
}

/// A judgement as it was shown when the reading was taken. Never computed anew.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct JudgedThen {
    pub rule: String,
    pub edition: String,
    pub verdict: String,
    pub reading: Option<Amount>,
    pub limits: Vec<Amount>,
    pub room: Option<Amount>,
    pub source: String,
    pub remarks: Vec<String>,
}

/// A number as shown, with its unit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Amount {
    pub text: String,
    pub unit: String,
}

impl Event {
    /// True if an app that does not know this kind may pass over it and still tell the truth.
    ///
    /// Decides what is written into the line. Only kinds that hold nothing, clear nothing and
    /// change no shown value may be skipped.
    pub fn may_be_skipped(&self) -> bool {
        match self {
            Self::EndTaken { .. }
            | Self::PutAway { .. }
            | Self::Brought { .. }
            | Self::LinePhoto { .. }
            | Self::LinePart { .. }
            | Self::LineMinutes { .. } => true,
            Self::CardOpened { .. }
            | Self::ProcedureMoved { .. }
            | Self::SignedOn { .. }
            | Self::SignedOff { .. }
            | Self::FactSet { .. }
            | Self::Answered { .. }
            | Self::StepSkipped { .. }
            | Self::HoldPassed { .. }
            | Self::Struck { .. }
            | Self::Joined { .. }
            | Self::PersonListed { .. }
            | Self::PersonLeft { .. }
            | Self::StandListed { .. }
            | Self::StandWithdrawn { .. }
            | Self::LineFound { .. }
            | Self::LineTold { .. }
            | Self::LinePassed { .. }
            | Self::CameBack { .. }
            | Self::WrenchListed { .. }
            | Self::WrenchWithdrawn { .. }
            | Self::WheelSet { .. }
            | Self::DefaultSet { .. }
            | Self::ShopTaken { .. } => false,
            Self::JackListed { .. }
            | Self::JackWithdrawn { .. }
            | Self::LimitSet { .. }
            | Self::LimitDropped { .. }
            | Self::ShopStepSet { .. }
            | Self::ShopStepDropped { .. }
            | Self::FinalPassSet { .. } => false,
        }
    }

    /// Kind and content, as they stand in a line.
    pub(crate) fn to_parts(&self) -> (String, serde_json::Value) {
        let whole = serde_json::to_value(self).unwrap_or_default(); // Only text, numbers and lists.
        let kind = whole.get("kind").and_then(|kind| kind.as_str());
        let kind = if let Self::ShopTaken { values } = self
            && values.says_more()
        {
            SHEET_TAKEN
        } else {
            kind.unwrap_or_default()
        };
        let content = whole.get("event").cloned().unwrap_or_default();
        (kind.to_owned(), content)
    }

    /// `None` if this app does not know the kind, or if the shop's values hold more than it knows.
    pub(crate) fn from_parts(
        kind: &str,
        content: serde_json::Value,
    ) -> Option<Result<Self, serde_json::Error>> {
        let kind = if kind == SHEET_TAKEN {
            SHOP_TAKEN
        } else {
            kind
        };
        if !KINDS.contains(&kind) {
            return None;
        }
        let whole = serde_json::json!({ "kind": kind, "event": content });
        let read = serde_json::from_value(whole);
        // Values that a newer app put beside those known here decide on the card too.
        if let Ok(taken @ Self::ShopTaken { .. }) = &read
            && taken.to_parts().1 != content
        {
            return None;
        }
        Some(read)
    }

    /// Kind, as in a line and in the word keys of the trail view.
    pub fn kind(&self) -> &'static str {
        let at = match self {
            Self::CardOpened { .. } => 0,
            Self::ProcedureMoved { .. } => 1,
            Self::SignedOn { .. } => 2,
            Self::SignedOff { .. } => 3,
            Self::FactSet { .. } => 4,
            Self::EndTaken { .. } => 5,
            Self::Answered { .. } => 6,
            Self::StepSkipped { .. } => 7,
            Self::HoldPassed { .. } => 8,
            Self::Struck { .. } => 9,
            Self::Joined { .. } => 10,
            Self::PersonListed { .. } => 11,
            Self::PersonLeft { .. } => 12,
            Self::StandListed { .. } => 13,
            Self::StandWithdrawn { .. } => 14,
            Self::LineFound { .. } => 15,
            Self::LineTold { .. } => 16,
            Self::LinePassed { .. } => 17,
            Self::CameBack { .. } => 18,
            Self::PutAway { .. } => 19,
            Self::Brought { .. } => 20,
            Self::LinePhoto { .. } => 21,
            Self::LinePart { .. } => 22,
            Self::LineMinutes { .. } => 23,
            Self::WrenchListed { .. } => 24,
            Self::WrenchWithdrawn { .. } => 25,
            Self::WheelSet { .. } => 26,
            Self::DefaultSet { .. } => 27,
            Self::ShopTaken { .. } => 28,
            Self::JackListed { .. } => 29,
            Self::JackWithdrawn { .. } => 30,
            Self::LimitSet { .. } => 31,
            Self::LimitDropped { .. } => 32,
            Self::ShopStepSet { .. } => 33,
            Self::ShopStepDropped { .. } => 34,
            Self::FinalPassSet { .. } => 35,
        };
        KINDS[at] // Every arm above is below the array's length.
    }

    /// The place and step that the event is about, if it is about one.
    pub fn step(&self) -> Option<(Place, &StepId)> {
        match self {
            Self::Answered { at, step, .. }
            | Self::StepSkipped { at, step, .. }
            | Self::HoldPassed { at, step, .. } => Some((*at, step)),
            Self::CardOpened { .. }
            | Self::ProcedureMoved { .. }
            | Self::SignedOn { .. }
            | Self::SignedOff { .. }
            | Self::FactSet { .. }
            | Self::EndTaken { .. }
            | Self::Struck { .. }
            | Self::Joined { .. }
            | Self::PersonListed { .. }
            | Self::PersonLeft { .. }
            | Self::StandListed { .. }
            | Self::StandWithdrawn { .. }
            | Self::LineFound { .. }
            | Self::LineTold { .. }
            | Self::LinePassed { .. }
            | Self::CameBack { .. }
            | Self::PutAway { .. }
            | Self::Brought { .. }
            | Self::LinePhoto { .. }
            | Self::LinePart { .. }
            | Self::LineMinutes { .. }
            | Self::WrenchListed { .. }
            | Self::WrenchWithdrawn { .. }
            | Self::WheelSet { .. }
            | Self::DefaultSet { .. }
            | Self::ShopTaken { .. } => None,
            Self::JackListed { .. }
            | Self::JackWithdrawn { .. }
            | Self::LimitSet { .. }
            | Self::LimitDropped { .. }
            | Self::ShopStepSet { .. }
            | Self::ShopStepDropped { .. }
            | Self::FinalPassSet { .. } => None,
        }
    }
}
