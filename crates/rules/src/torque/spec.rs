//! The torque of wheel nuts: ranges as printed, each for its own state of threads and washer.
//!
//! Sources that apply stand side by side and the narrowest range decides; one maker's own values are
//! shown and never counted. No value is ever converted from dry to oiled or back. The shop sheet's
//! own range replaces everything here.

use crate::quantity::{Quantity, Torque};
use crate::rules::{Figure, Rule};
use crate::source::{self, Source};
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Side, Verdict};
use crate::word::{self, Remark, Word};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("torque.spec"),
    title: word::RULE_TORQUE_SPEC,
    units: &[Unit::PoundForceFoot, Unit::NewtonMetre],
    limits: word::LIMIT_TORQUE_SPEC,
    figures: FIGURES,
    sources: &[
        &source::TORQUE_CASCADIA,
        &source::TORQUE_M2,
        &source::TORQUE_122SD,
        &source::TORQUE_RV,
        &source::TORQUE_COACH_DRY,
        &source::TORQUE_COACH,
        &source::TORQUE_F650_2016,
        &source::TORQUE_F650_2012,
        &source::TORQUE_TRAILER_DRY,
        &source::TORQUE_ARMY_TABLE,
        &source::TORQUE_PRATT,
        &source::TORQUE_LUFKIN,
        &source::TORQUE_TEREX,
        &source::TORQUE_ARMY_SPOKE,
        &source::TORQUE_TANK_TRAILER,
        &source::TORQUE_PETERBILT,
        &source::TORQUE_ARMY_SEMITRAILER,
    ],
};

/// What a wheel is hung on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Mounting {
    /// On the hub's pilots, flange nuts in two pieces.
    HubPiloted,
    /// On the studs, ball seats; duals have inner and outer nuts.
    BallSeat,
    /// On a cast spoke wheel, with rim clamps.
    Spoke,
}

impl Mounting {
    /// Every mounting.
    pub const ALL: &[Self] = &[Self::HubPiloted, Self::BallSeat, Self::Spoke];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::HubPiloted => "hub-piloted",
            Self::BallSeat => "ball-seat",
            Self::Spoke => "spoke",
        }
    }

    /// The mounting of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }
}

/// The thread of its studs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Thread {
    /// M22 × 1.5.
    M22,
    /// M20 × 1.5.
    M20,
    /// 3/4-16: inner cap nuts.
    ThreeQuarter16,
    /// 1 1/8-16: outer cap nuts, and single front wheels.
    OneAndEighth16,
    /// 15/16-12: heavy-duty ball seats.
    FifteenSixteenth12,
    /// 3/4-10: rim clamps.
    ThreeQuarter10,
    /// 1-8, 1-12 or 1-14: heavy rim clamps.
    OneInch,
}

impl Thread {
    /// Every thread.
    pub const ALL: &[Self] = &[
        Self::M22,
        Self::M20,
        Self::ThreeQuarter16,
        Self::OneAndEighth16,
        Self::FifteenSixteenth12,
        Self::ThreeQuarter10,
        Self::OneInch,
    ];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::M22 => "M22x1.5",
            Self::M20 => "M20x1.5",
            Self::ThreeQuarter16 => "3/4-16",
            Self::OneAndEighth16 => "1-1/8-16",
            Self::FifteenSixteenth12 => "15/16-12",
            Self::ThreeQuarter10 => "3/4-10",
            Self::OneInch => "1-inch",
        }
    }

    /// The thread of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }
}

/// Whether something is oiled.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Film {
    /// Dry.
    Dry,
    /// Oiled.
    Oiled,
    /// Not said.
    NotSaid,
}

impl Film {
    /// The film of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        [Self::Dry, Self::Oiled, Self::NotSaid]
            .into_iter()
            .find(|film| film.code() == code)
    }

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Dry => "dry",
            Self::Oiled => "oiled",
            Self::NotSaid => "not-said",
        }
    }

    /// Whether a value printed for this film holds for `wheel`; one that doesn't say holds for any.
    const fn holds_for(self, wheel: Self) -> bool {
        matches!(
            (self, wheel),
            (Self::NotSaid, _) | (Self::Dry, Self::Dry) | (Self::Oiled, Self::Oiled)
        )
    }
}

/// Threads and nut-to-washer together: a value belongs to both.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct State {
    /// On the stud's threads.
    pub threads: Film,
    /// Between nut and washer; not said where there is no washer.
    pub washer: Film,
}

/// The nuts that are to be tightened.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Nuts {
    /// What the wheel is hung on.
    pub mounting: Mounting,
    /// Its thread.
    pub thread: Thread,
    /// Its state.
    pub state: State,
}

impl Nuts {
    /// Whether enough is said of the state to choose a value.
    const fn state_is_said(&self) -> bool {
        let washer = !matches!(self.mounting, Mounting::HubPiloted)
            || !matches!(self.state.washer, Film::NotSaid);
        washer && !matches!(self.state.threads, Film::NotSaid)
    }
}

/// For whom a range is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
enum Reach {
    /// For this kind of nut.
    Kind,
    /// For one maker's vehicles, with values of its own: shown, never counted.
    OneMaker,
}

/// One printed range.
#[derive(Clone, Copy, Debug)]
struct Spec {
    name: &'static str,
    mounting: Mounting,
    thread: Thread,
    state: State,
    reach: Reach,
    lbf_ft: (i64, i64),
    /// As printed beside; none where only pound-force feet are printed.
    nm: Option<(i64, i64)>,
    source: &'static Source,
}

impl Spec {
    const fn limits(&self) -> [Limit; 2] {
        let (low, high) = self.lbf_ft;
        let limits = [
            Limit::at_least(Quantity::Torque(Torque::from_lbf_ft(low)), self.source),
            Limit::at_most(Quantity::Torque(Torque::from_lbf_ft(high)), self.source),
        ];
        match self.nm {
            None => limits,
            Some((low, high)) => [
                limits[0].printed_beside(Quantity::Torque(Torque::from_nm(low))),
                limits[1].printed_beside(Quantity::Torque(Torque::from_nm(high))),
            ],
        }
    }

    const fn fits(&self, nuts: &Nuts) -> bool {
        self.mounting as u8 == nuts.mounting as u8 && self.thread as u8 == nuts.thread as u8
    }

    const fn counts(&self, nuts: &Nuts) -> bool {
        let state = self.state.threads.holds_for(nuts.state.threads)
            && self.state.washer.holds_for(nuts.state.washer);
        state && matches!(self.reach, Reach::Kind)
    }
}

const fn state(threads: Film, washer: Film) -> State {
    State { threads, washer }
}

const NOT_SAID: State = state(Film::NotSaid, Film::NotSaid);
const DRY_THREADS: State = state(Film::Dry, Film::NotSaid);
const BOTH_DRY: State = state(Film::Dry, Film::Dry);

/// The printed ranges that are in use on the road, by mounting.
const SPECS: &[Spec] = &[
    hub(
        Thread::M22,
        "hub-piloted M22x1.5: column headed oiled",
        state(Film::NotSaid, Film::Oiled),
        (450, 500),
        Some((610, 678)),
        &source::TORQUE_M2,
    ),
    hub(
        Thread::M22,
        "hub-piloted M22x1.5: two drops between nut and flange",
        state(Film::NotSaid, Film::Oiled),
        (450, 500),
        Some((610, 678)),
        &source::TORQUE_CASCADIA,
    ),
    hub(
        Thread::M22,
        "hub-piloted M22x1.5: one drop between washer and nut",
        state(Film::Dry, Film::Oiled),
        (450, 500),
        Some((610, 678)),
        &source::TORQUE_F650_2016,
    ),
    hub(
        Thread::M22,
        "hub-piloted M22x1.5: threads dry",
        DRY_THREADS,
        (450, 500),
        Some((610, 678)),
        &source::TORQUE_F650_2012,
    ),
    hub(
        Thread::M22,
        "hub-piloted M22x1.5: no lubricant at all",
        BOTH_DRY,
        (450, 500),
        Some((610, 680)),
        &source::TORQUE_COACH_DRY,
    ),
    hub(
        Thread::M22,
        "hub-piloted M22x1.5: trailer, dry",
        BOTH_DRY,
        (450, 500),
        None,
        &source::TORQUE_TRAILER_DRY,
    ),
    hub(
        Thread::M22,
        "hub-piloted M22x1.5: state not said, truck",
        NOT_SAID,
        (450, 500),
        Some((610, 678)),
        &source::TORQUE_122SD,
    ),
    hub(
        Thread::M22,
        "hub-piloted M22x1.5: state not said, chassis",
        NOT_SAID,
        (450, 500),
        Some((610, 678)),
        &source::TORQUE_RV,
    ),
    hub(
        Thread::M22,
        "hub-piloted M22x1.5: state not said, coach",
        NOT_SAID,
        (450, 500),
        Some((610, 678)),
        &source::TORQUE_COACH,
    ),
    hub(
        Thread::M20,
        "hub-piloted M20x1.5: column headed oiled",
        state(Film::NotSaid, Film::Oiled),
        (280, 330),
        Some((380, 447)),
        &source::TORQUE_M2,
    ),
    hub(
        Thread::M20,
        "hub-piloted M20x1.5: state not said, chassis",
        NOT_SAID,
        (280, 310),
        Some((380, 420)),
        &source::TORQUE_RV,
    ),
    ball(
        Thread::ThreeQuarter16,
        "ball seat 3/4-16: inner, state not said",
        NOT_SAID,
        (450, 500),
        Some((610, 678)),
        &source::TORQUE_122SD,
    ),
    ball(
        Thread::ThreeQuarter16,
        "ball seat 3/4-16: inner, column headed oiled",
        state(Film::Oiled, Film::NotSaid),
        (450, 500),
        Some((610, 678)),
        &source::TORQUE_M2,
    ),
    ball(
        Thread::ThreeQuarter16,
        "ball seat 3/4-16: army table, dry",
        DRY_THREADS,
        (450, 500),
        None,
        &source::TORQUE_ARMY_TABLE,
    ),
    ball(
        Thread::ThreeQuarter16,
        "ball seat 3/4-16: cap nuts, dry",
        DRY_THREADS,
        (450, 500),
        None,
        &source::TORQUE_PRATT,
    ),
    ball(
        Thread::ThreeQuarter16,
        "ball seat 3/4-16: inner, dry",
        DRY_THREADS,
        (450, 500),
        None,
        &source::TORQUE_LUFKIN,
    ),
    ball(
        Thread::OneAndEighth16,
        "ball seat 1-1/8-16: outer or single, state not said",
        NOT_SAID,
        (450, 500),
        Some((610, 678)),
        &source::TORQUE_122SD,
    ),
    ball(
        Thread::OneAndEighth16,
        "ball seat 1-1/8-16: outer, column headed oiled",
        state(Film::Oiled, Film::NotSaid),
        (450, 500),
        Some((610, 678)),
        &source::TORQUE_M2,
    ),
    ball(
        Thread::OneAndEighth16,
        "ball seat 1-1/8-16: cap nuts, dry",
        DRY_THREADS,
        (450, 500),
        None,
        &source::TORQUE_PRATT,
    ),
    ball(
        Thread::OneAndEighth16,
        "ball seat 1-1/8-16: outer, dry",
        DRY_THREADS,
        (450, 500),
        None,
        &source::TORQUE_LUFKIN,
    ),
    ball(
        Thread::OneAndEighth16,
        "ball seat 1-1/8-16: wheel nuts, dry",
        DRY_THREADS,
        (450, 500),
        None,
        &source::TORQUE_TEREX,
    ),
    own(ball(
        Thread::ThreeQuarter16,
        "ball seat 3/4-16: steel wheel, dynamic value",
        DRY_THREADS,
        (400, 465),
        Some((545, 630)),
        &source::TORQUE_PETERBILT,
    )),
    own(ball(
        Thread::OneAndEighth16,
        "ball seat 1-1/8-16: steel wheel, dynamic value",
        DRY_THREADS,
        (400, 465),
        Some((545, 630)),
        &source::TORQUE_PETERBILT,
    )),
    own(ball(
        Thread::ThreeQuarter16,
        "ball seat 3/4-16: army semitrailer, inner",
        NOT_SAID,
        (400, 425),
        Some((542, 576)),
        &source::TORQUE_ARMY_SEMITRAILER,
    )),
    own(ball(
        Thread::OneAndEighth16,
        "ball seat 1-1/8-16: army semitrailer, outer",
        NOT_SAID,
        (325, 355),
        Some((440, 481)),
        &source::TORQUE_ARMY_SEMITRAILER,
    )),
    own(ball(
        Thread::FifteenSixteenth12,
        "ball seat 15/16-12: heavy duty, dynamic value",
        DRY_THREADS,
        (750, 800),
        Some((1_020, 1_090)),
        &source::TORQUE_PETERBILT,
    )),
    spoke(
        Thread::ThreeQuarter10,
        "spoke 3/4-10: army table, dry",
        DRY_THREADS,
        (210, 260),
        None,
        &source::TORQUE_ARMY_TABLE,
    ),
    spoke(
        Thread::ThreeQuarter10,
        "spoke 3/4-10: army trailer, state not said",
        NOT_SAID,
        (200, 250),
        Some((271, 339)),
        &source::TORQUE_ARMY_SPOKE,
    ),
    spoke(
        Thread::ThreeQuarter10,
        "spoke 3/4-10: tank trailer, state not said",
        NOT_SAID,
        (200, 250),
        None,
        &source::TORQUE_TANK_TRAILER,
    ),
    own(spoke(
        Thread::OneInch,
        "spoke 1 in: heavy cast, dynamic value",
        DRY_THREADS,
        (430, 470),
        Some((585, 640)),
        &source::TORQUE_PETERBILT,
    )),
];

type Pair = (i64, i64);

const fn hub(
    thread: Thread,
    name: &'static str,
    state: State,
    lbf_ft: Pair,
    nm: Option<Pair>,
    source: &'static Source,
) -> Spec {
    Spec {
        name,
        mounting: Mounting::HubPiloted,
        thread,
        state,
        reach: Reach::Kind,
        lbf_ft,
        nm,
        source,
    }
}

const fn ball(
    thread: Thread,
    name: &'static str,
    state: State,
    lbf_ft: Pair,
    nm: Option<Pair>,
    source: &'static Source,
) -> Spec {
    Spec {
        name,
        mounting: Mounting::BallSeat,
        thread,
        state,
        reach: Reach::Kind,
        lbf_ft,
        nm,
        source,
    }
}

const fn spoke(
    thread: Thread,
    name: &'static str,
    state: State,
    lbf_ft: Pair,
    nm: Option<Pair>,
    source: &'static Source,
) -> Spec {
    Spec {
        name,
        mounting: Mounting::Spoke,
        thread,
        state,
        reach: Reach::Kind,
        lbf_ft,
        nm,
        source,
    }
}

const fn own(spec: Spec) -> Spec {
    Spec {
        reach: Reach::OneMaker,
        ..spec
    }
}

/// Two figures for each range, low then high, in the order of the ranges.
const FIGURES: &[Figure] = &{
    let first = Figure {
        name: SPECS[0].name,
        limit: SPECS[0].limits()[0],
    };
    let mut figures = [first; SPECS.len() * 2];
    let mut at = 0;
    while at < SPECS.len() {
        let [low, high] = SPECS[at].limits();
        figures[at * 2] = Figure {
            name: SPECS[at].name,
            limit: low,
        };
        figures[at * 2 + 1] = Figure {
            name: SPECS[at].name,
            limit: high,
        };
        at += 1;
    }
    figures
};

/// The shop sheet's own range for these nuts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ShopRange {
    // `low` is above nothing and not above `high`: only `new` builds one.
    low: Torque,
    high: Torque,
}

impl ShopRange {
    /// From `low` to `high`; `None` when they can't be the ends of a range.
    pub fn new(low: Torque, high: Torque) -> Option<Self> {
        (Torque::ZERO < low && low <= high).then_some(Self { low, high })
    }

    /// Its two ends, as the shop's own word.
    pub fn limits(&self) -> [Limit; 2] {
        [
            Limit::at_least(self.low.into(), &source::SHOP_SHEET),
            Limit::at_most(self.high.into(), &source::SHOP_SHEET),
        ]
    }
}

/// What a torque is held against, and what else is printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Range {
    /// Every limit that counts.
    pub limits: Vec<Limit>,
    /// Limits of other states or of one maker: shown, never counted.
    pub others: Vec<Limit>,
    /// What is to be said.
    pub remarks: Vec<Remark>,
}

impl Range {
    /// The lowest and the highest torque that every limit allows; `None` when nothing counts.
    pub fn ends(&self) -> Option<(Torque, Torque)> {
        let figures = |side| {
            let of_side = self.limits.iter().filter(move |limit| limit.side == side);
            of_side.filter_map(|limit| limit.deciding().torque())
        };
        Some((figures(Side::AtLeast).max()?, figures(Side::AtMost).min()?))
    }
}

/// The range of these nuts: the shop sheet's own, or everything printed that applies.
///
/// Units: any torque. Errors: none; where nothing applies there are no limits and a remark.
/// Source: each limit's own.
pub fn range(nuts: &Nuts, shop: Option<ShopRange>) -> Range {
    range_by(FIGURES, nuts, shop)
}

/// Judges a torque by its range.
///
/// Units: any torque; compared exactly. Room is the distance to the nearer end.
/// Errors: none; without a range there is no reading. Source: the deciding limit's own.
pub fn judge_value(value: Torque, nuts: &Nuts, shop: Option<ShopRange>) -> Judgement {
    judge_value_by(FIGURES, value, nuts, shop)
}

/// The same where the shop sheet's own range is for another state: it doesn't count, and that is said.
///
/// Units: any torque. Errors: none. Source: each limit's own.
pub fn judge_without_shop(value: Torque, nuts: &Nuts) -> Judgement {
    judge_value(value, nuts, None).remarking(Remark::plain(word::TORQUE_REMARK_SHOP_OTHER_STATE))
}

fn range_by(figures: &[Figure], nuts: &Nuts, shop: Option<ShopRange>) -> Range {
    let mut range = Range {
        limits: Vec::new(),
        others: Vec::new(),
        remarks: Vec::new(),
    };
    let mut said = |word: Word| range.remarks.push(Remark::plain(word));
    let fitting = || {
        let specs = SPECS.iter().zip(figures.chunks_exact(2));
        specs.filter(|(spec, _)| spec.fits(nuts))
    };
    let counting = |spec: &Spec| shop.is_none() && nuts.state_is_said() && spec.counts(nuts);
    match shop {
        Some(shop) => {
            range.limits.extend(shop.limits());
            said(word::TORQUE_REMARK_SHOP_SPEC);
        }
        None if !nuts.state_is_said() => said(word::TORQUE_REMARK_STATE_UNKNOWN),
        None if !fitting().any(|(spec, _)| counting(spec)) => {
            said(word::TORQUE_REMARK_NOTHING_PRINTED);
        }
        None => {
            let mut pairs = fitting()
                .filter(|(spec, _)| counting(spec))
                .map(|(spec, _)| spec.lbf_ft);
            let first = pairs.next();
            if pairs.any(|pair| Some(pair) != first) {
                said(word::TORQUE_REMARK_SOURCES_DISAGREE);
            }
            if fitting().any(|(spec, _)| counting(spec) && spec.state == NOT_SAID) {
                said(word::TORQUE_REMARK_STATE_NOT_STATED);
            }
        }
    }
    for (spec, printed) in fitting() {
        let limits = printed.iter().map(|figure| figure.limit);
        if counting(spec) {
            range.limits.extend(limits)
        } else {
            range.others.extend(limits)
        }
    }
    range
}

fn judge_value_by(
    figures: &[Figure],
    value: Torque,
    nuts: &Nuts,
    shop: Option<ShopRange>,
) -> Judgement {
    let range = range_by(figures, nuts, shop);
    let mut judged = Judgement::of(
        RULE.id,
        value.into(),
        &range.limits,
        &source::TORQUE_CASCADIA,
    );
    judged.remarks.extend(range.remarks);
    for other in range.others {
        judged = judged.other_says(other);
    }
    match (
        judged.verdict,
        judged.limits.first().map(|limit| limit.side),
    ) {
        (Verdict::Beyond, Some(Side::AtLeast)) => {
            judged.remarking(Remark::plain(word::TORQUE_REMARK_LOW))
        }
        (Verdict::Beyond, Some(Side::AtMost)) => {
            judged.remarking(Remark::plain(word::TORQUE_REMARK_HIGH))
        }
        _ => judged,
    }
}

/// What to say of a printed pair; nothing when its figures agree.
pub fn pair_remark(one: Torque, other: Torque) -> Option<Remark> {
    pair_disagrees(one, other).then(|| Remark::plain(word::TORQUE_REMARK_PAIR_MISMATCH))
}

/// Whether the two figures of a printed pair are more than a hundredth apart: a slip of the press.
///
/// Units: any two torques. Source: geometry of units; the pair is shown, not corrected.
pub fn pair_disagrees(one: Torque, other: Torque) -> bool {
    let (small, large) = (one.min(other).base(), one.max(other).base());
    (large - small) * 100 > large
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases};
    use crate::nudge::Outcome;

    fn nuts(row: &Row<'_>) -> Nuts {
        Nuts {
            mounting: Mounting::from_code(row.text("mounting")).unwrap(),
            thread: Thread::from_code(row.text("thread")).unwrap(),
            state: State {
                threads: Film::from_code(row.text("threads")).unwrap(),
                washer: Film::from_code(row.text("washer")).unwrap(),
            },
        }
    }

    fn short(limit: &Limit, reading: Quantity) -> String {
        let verdict = match limit.judge(reading).unwrap() {
            Verdict::Within => "w",
            Verdict::AtTheLimit => "a",
            _ => "b",
        };
        format!(
            "{verdict}{}",
            if limit.in_the_gap(reading) { "~" } else { "" }
        )
    }

    /// The verdict, each counted limit and each other by itself in the order of print, what is said.
    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let outcome = |row: Row<'_>| {
            let torque = |name| {
                row.quantity(name)
                    .map(|quantity| quantity.torque().unwrap())
            };
            let value = torque("value").unwrap();
            let shop = torque("shop low").zip(torque("shop high"));
            let shop = shop.map(|(low, high)| ShopRange::new(low, high).unwrap());
            let judged = judge_value_by(figures, value, &nuts(&row), shop);
            let range = range_by(figures, &nuts(&row), shop);
            let each = |limits: &[Limit]| {
                let each: Vec<String> = limits
                    .iter()
                    .map(|limit| short(limit, value.into()))
                    .collect();
                if each.is_empty() {
                    "-".to_owned()
                } else {
                    each.concat()
                }
            };
            let said: Vec<&str> = judged.remarks.iter().map(|said| said.word.key()).collect();
            let said = said
                .join(",")
                .replace("torque.remark.", "")
                .replace("remark.", "");
            let got = [
                judged.verdict.code(),
                &each(&range.limits),
                &each(&range.others),
                &said,
            ]
            .join(" ");
            let expected = ["verdict", "counted", "others", "says"]
                .map(|name| row.text(name))
                .join(" ");
            (format!("{row}: {got}"), format!("{row}: {expected}"))
        };
        cases(include_str!("spec.tsv"))
            .into_iter()
            .map(outcome)
            .collect()
    }

    #[test]
    fn table() {
        for (got, expected) in outcomes(FIGURES) {
            assert_eq!(got, expected);
        }
    }

    #[test]
    fn codes_come_back() {
        assert!(
            Mounting::ALL
                .iter()
                .all(|one| Mounting::from_code(one.code()) == Some(*one))
        );
        assert!(
            Thread::ALL
                .iter()
                .all(|one| Thread::from_code(one.code()) == Some(*one))
        );
        for film in [Film::Dry, Film::Oiled, Film::NotSaid] {
            assert_eq!(Film::from_code(film.code()), Some(film));
        }
        assert_eq!(
            (
                Mounting::from_code("x"),
                Thread::from_code("x"),
                Film::from_code("x")
            ),
            (None, None, None)
        );
    }

    #[test]
    fn the_ends_are_the_narrowest() {
        let nuts = |mounting, thread, threads, washer| Nuts {
            mounting,
            thread,
            state: state(threads, washer),
        };
        let spokes = nuts(
            Mounting::Spoke,
            Thread::ThreeQuarter10,
            Film::Dry,
            Film::NotSaid,
        );
        let ends = |low, high| Some((Torque::from_lbf_ft(low), Torque::from_lbf_ft(high)));
        assert_eq!(range(&spokes, None).ends(), ends(210, 250));
        let hub = nuts(Mounting::HubPiloted, Thread::M22, Film::Dry, Film::Dry);
        assert_eq!(range(&hub, None).ends(), ends(450, 500));
        let heavy = nuts(
            Mounting::BallSeat,
            Thread::FifteenSixteenth12,
            Film::Dry,
            Film::NotSaid,
        );
        assert_eq!(range(&heavy, None).ends(), None);
        let shop = ShopRange::new(Torque::from_lbf_ft(460), Torque::from_lbf_ft(480)).unwrap();
        assert_eq!(range(&hub, Some(shop)).ends(), ends(460, 480));
    }

    #[test]
    fn a_shop_range_has_two_ends() {
        let new = |low, high| ShopRange::new(Torque::from_nm(low), Torque::from_nm(high)).is_some();
        assert!(new(1, 2) && new(2, 2));
        assert!(!new(0, 2) && !new(3, 2));
    }

    #[test]
    fn pairs_of_the_press() {
        let pair = |lbf_ft, nm| pair_disagrees(Torque::from_lbf_ft(lbf_ft), Torque::from_nm(nm));
        assert!(pair(175, 240), "240 N·m beside 175 lbf·ft, which is 237.3");
        let said = |lbf_ft, nm| pair_remark(Torque::from_lbf_ft(lbf_ft), Torque::from_nm(nm));
        let mismatch = Remark::plain(word::TORQUE_REMARK_PAIR_MISMATCH);
        assert_eq!((said(175, 240), said(450, 610)), (Some(mismatch), None));
        assert!(!pair(450, 610) && !pair(310, 420) && !pair(280, 380));
        let nm = |one, other| pair_disagrees(Torque::from_nm(one), Torque::from_nm(other));
        assert!(!nm(100, 99) && nm(1_000, 989) && !nm(990, 1_000));
        for spec in SPECS {
            if let Some((low, high)) = spec.nm {
                assert!(
                    !pair(spec.lbf_ft.0, low) && !pair(spec.lbf_ft.1, high),
                    "{}",
                    spec.name
                );
            }
        }
    }

    proptest! {
        #[test]
        fn further_out_is_never_kinder(a in 0_i64..900, b in 0_i64..900, at in 0..SPECS.len()) {
            let spec = &SPECS[at];
            let nuts = Nuts { mounting: spec.mounting, thread: spec.thread, state: state(Film::Dry, Film::Dry) };
            let severity = |n| judge_value(Torque::from_lbf_ft(n), &nuts, None).verdict.severity();
            let Some((low, high)) = range(&nuts, None).ends() else { return Ok(()) };
            let (near, far) = (a.min(b), a.max(b));
            prop_assert!(Torque::from_lbf_ft(near) < high || severity(near) <= severity(far));
            prop_assert!(Torque::from_lbf_ft(far) > low || severity(far) <= severity(near));
        }
    }
}
