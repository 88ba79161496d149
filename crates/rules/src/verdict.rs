//! What a reading comes to: a verdict, the limits it was held against, and what to say beside it.
//!
//! Comparison is exact. Where a limit is published as a pair (1 3/4 in and 44.5 mm are not the same
//! length) both figures are kept and the stricter decides. Nothing here knows a limit.

use std::cmp::Ordering;

use crate::quantity::{Dimension, Quantity};
use crate::source::Source;
use crate::word::{self, Argument, Remark, Word};

/// The word that a judgement ends in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Verdict {
    /// Inside the limit.
    Within,
    /// Exactly on the limit.
    AtTheLimit,
    /// Past the limit.
    Beyond,
    /// Nothing that can be judged.
    NoReading,
    /// A part judged by eye: it may stay.
    Sound,
    /// A part judged by eye: it has to go.
    Replace,
}

impl Verdict {
    /// Every verdict, kindest first.
    pub const ALL: &[Self] = &[
        Self::Sound,
        Self::Within,
        Self::AtTheLimit,
        Self::NoReading,
        Self::Beyond,
        Self::Replace,
    ];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Within => "within",
            Self::AtTheLimit => "at-the-limit",
            Self::Beyond => "beyond",
            Self::NoReading => "no-reading",
            Self::Sound => "sound",
            Self::Replace => "replace",
        }
    }

    /// The verdict of a stored name; `None` for a name that no version ever wrote.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL
            .iter()
            .copied()
            .find(|verdict| verdict.code() == code)
    }

    /// The word for it.
    pub const fn word(self) -> Word {
        match self {
            Self::Within => word::WITHIN,
            Self::AtTheLimit => word::AT_THE_LIMIT,
            Self::Beyond => word::BEYOND,
            Self::NoReading => word::NO_READING,
            Self::Sound => word::SOUND,
            Self::Replace => word::REPLACE,
        }
    }

    /// How bad it is, for putting the worst first; equal for words that mean the same.
    pub const fn severity(self) -> u8 {
        match self {
            Self::Within | Self::Sound => 0,
            Self::AtTheLimit => 1,
            Self::NoReading => 2,
            Self::Beyond | Self::Replace => 3,
        }
    }

    /// The worse of two.
    pub const fn worse(self, other: Self) -> Self {
        if other.severity() > self.severity() {
            other
        } else {
            self
        }
    }

    /// What it means at the place where it was found.
    pub const fn means(self, place: Place) -> Meaning {
        match (self, place) {
            (Self::Within | Self::Sound, _) => Meaning::Fine,
            (Self::AtTheLimit, Place::AsFound | Place::Jack) => Meaning::Remark,
            (Self::AtTheLimit, Place::AsLeft) => Meaning::NeedsReason,
            (Self::AtTheLimit, Place::Stand) => Meaning::Refused,
            (Self::NoReading, _) => Meaning::Open,
            (Self::Beyond | Self::Replace, _) => Meaning::Refused,
        }
    }
}

/// Where a judgement stands in the job: `at the limit` means something else at each.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Place {
    /// Before anything was done.
    AsFound,
    /// When the work is done.
    AsLeft,
    /// A stand under the load.
    Stand,
    /// The jack that raises it.
    Jack,
}

/// What a verdict asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Meaning {
    /// Nothing.
    Fine,
    /// Said, and kept on the record.
    Remark,
    /// The foreman's reason.
    NeedsReason,
    /// It can't stay so.
    Refused,
    /// Measure first.
    Open,
}

/// On which side of its figure a reading has to lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Side {
    /// The figure is the most: strokes, wear, loads.
    AtMost,
    /// The figure is the least: linings, ratings.
    AtLeast,
}

/// One published limit: a figure or a pair of them, and where it stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Limit {
    /// On which side a reading has to lie.
    pub side: Side,
    /// The figure as printed first.
    pub figure: Quantity,
    /// The figure printed beside it in another unit, when there is one.
    pub beside: Option<Quantity>,
    /// Where it is printed.
    pub source: &'static Source,
}

impl Limit {
    /// A limit of one figure that may not be passed.
    pub const fn at_most(figure: Quantity, source: &'static Source) -> Self {
        Self {
            side: Side::AtMost,
            figure,
            beside: None,
            source,
        }
    }

    /// A limit of one figure that has to be reached.
    pub const fn at_least(figure: Quantity, source: &'static Source) -> Self {
        Self {
            side: Side::AtLeast,
            figure,
            beside: None,
            source,
        }
    }

    /// The same limit with the figure that is printed beside it.
    pub const fn printed_beside(self, beside: Quantity) -> Self {
        Self {
            beside: Some(beside),
            ..self
        }
    }

    /// The figure that decides: of a pair, the stricter.
    pub fn deciding(&self) -> Quantity {
        let both = [self.figure, self.beside.unwrap_or(self.figure)].into_iter();
        let stricter = match self.side {
            Side::AtMost => both.min_by_key(|figure| figure.base()),
            Side::AtLeast => both.max_by_key(|figure| figure.base()),
        };
        stricter.unwrap_or(self.figure)
    }

    /// The figure of a pair that doesn't decide.
    pub fn looser(&self) -> Option<Quantity> {
        let beside = self.beside?;
        Some(if self.deciding() == self.figure {
            beside
        } else {
            self.figure
        })
    }

    /// What it measures.
    pub const fn dimension(&self) -> Dimension {
        self.figure.dimension()
    }

    /// The verdict on a reading; `None` when the reading measures something else.
    pub fn judge(&self, reading: Quantity) -> Option<Verdict> {
        let order = match self.side {
            Side::AtMost => reading.partial_cmp(&self.deciding())?,
            Side::AtLeast => self.deciding().partial_cmp(&reading)?,
        };
        Some(match order {
            Ordering::Less => Verdict::Within,
            Ordering::Equal => Verdict::AtTheLimit,
            Ordering::Greater => Verdict::Beyond,
        })
    }

    /// What is left before the figure that decides; negative when it is passed.
    pub fn room(&self, reading: Quantity) -> Option<Quantity> {
        match self.side {
            Side::AtMost => self.deciding().checked_sub(reading),
            Side::AtLeast => reading.checked_sub(self.deciding()),
        }
    }

    /// Whether a reading lies between the two figures of a pair.
    pub fn in_the_gap(&self, reading: Quantity) -> bool {
        let Some(looser) = self.looser() else {
            return false;
        };
        let past = self.judge(reading) == Some(Verdict::Beyond);
        let order = match self.side {
            Side::AtMost => reading.partial_cmp(&looser),
            Side::AtLeast => looser.partial_cmp(&reading),
        };
        past && order.is_some_and(|order| order != Ordering::Greater)
    }
}

/// The stable name of a rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct RuleId(pub &'static str);

/// What another source says that doesn't decide here.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OtherSays {
    /// Its limit.
    pub limit: Limit,
    /// What it would come to under it.
    pub verdict: Verdict,
}

/// A reading held against its limits.
///
/// Only the rules of this crate build one, so the verdict always follows from the rest.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct Judgement {
    /// The rule that judged.
    pub rule: RuleId,
    /// The word that it ends in.
    pub verdict: Verdict,
    /// What was judged; `None` for a part judged by eye, or when there is nothing to judge.
    pub reading: Option<Quantity>,
    /// The limits that were held against it, the deciding one first.
    pub limits: Vec<Limit>,
    /// What is left before the deciding limit; negative when it is passed.
    pub room: Option<Quantity>,
    /// Where the deciding limit, or the rule itself, is printed.
    pub source: &'static Source,
    /// What else is to be said.
    pub remarks: Vec<Remark>,
    /// Sources that don't decide here, shown and never counted.
    pub others: Vec<OtherSays>,
}

impl Judgement {
    /// Holds `reading` against every one of `limits`; the worst verdict is the judgement's.
    ///
    /// `source` names the rule where there is no limit; otherwise the deciding limit's own is used.
    pub(crate) fn of(
        rule: RuleId,
        reading: Quantity,
        limits: &[Limit],
        source: &'static Source,
    ) -> Self {
        let mut judged: Vec<(Limit, Verdict)> = limits
            .iter()
            .map(|limit| (*limit, limit.judge(reading).unwrap_or(Verdict::NoReading)))
            .collect();
        // Worst first; among equals the one with the least room decides.
        judged.sort_by_key(|(limit, verdict)| {
            let room = limit.room(reading).map_or(i128::MAX, Quantity::base);
            (std::cmp::Reverse(verdict.severity()), room)
        });
        let Some((deciding, verdict)) = judged.first().copied() else {
            return Self::without_reading(rule, source).with_reading(reading);
        };
        let mut remarks = Vec::new();
        if deciding.in_the_gap(reading) {
            remarks.push(gap_remark(&deciding));
        }
        if deciding.dimension() != reading.dimension() {
            remarks.push(Remark::plain(word::REMARK_OTHER_DIMENSION));
        }
        Self {
            rule,
            verdict,
            reading: Some(reading),
            limits: judged.iter().map(|(limit, _)| *limit).collect(),
            room: deciding.room(reading),
            source: deciding.source,
            remarks,
            others: Vec::new(),
        }
    }

    /// Nothing to judge.
    pub(crate) fn without_reading(rule: RuleId, source: &'static Source) -> Self {
        Self::by_eye(rule, Verdict::NoReading, source)
    }

    /// A verdict that doesn't come from a number.
    pub(crate) fn by_eye(rule: RuleId, verdict: Verdict, source: &'static Source) -> Self {
        Self {
            rule,
            verdict,
            reading: None,
            limits: Vec::new(),
            room: None,
            source,
            remarks: Vec::new(),
            others: Vec::new(),
        }
    }

    pub(crate) fn with_reading(self, reading: Quantity) -> Self {
        Self {
            reading: Some(reading),
            ..self
        }
    }

    pub(crate) fn remarking(mut self, remark: Remark) -> Self {
        self.remarks.push(remark);
        self
    }

    /// Another source's limit, shown beside and never counted.
    pub(crate) fn other_says(mut self, limit: Limit) -> Self {
        let verdict = self.reading.and_then(|reading| limit.judge(reading));
        self.others.push(OtherSays {
            limit,
            verdict: verdict.unwrap_or(Verdict::NoReading),
        });
        self
    }

    /// The same judgement when its reading turned out to prove nothing.
    pub(crate) fn proving_nothing(self) -> Self {
        Self {
            verdict: Verdict::NoReading,
            ..self
        }
    }
}

fn gap_remark(limit: &Limit) -> Remark {
    let other = limit.looser().unwrap_or(limit.figure);
    Remark::with(
        word::REMARK_IN_THE_GAP,
        [
            ("stricter", Argument::Quantity(limit.deciding())),
            ("other", Argument::Quantity(other)),
        ],
    )
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::cases;
    use crate::quantity::{Length, Mass};
    use crate::source;

    const RULE: RuleId = RuleId("test");

    #[test]
    fn table() {
        for row in cases(include_str!("verdict.tsv")) {
            let figure = row.quantity("figure").unwrap();
            let limit = match row.text("side") {
                "at most" => Limit::at_most(figure, &source::COMMON_PRACTICE),
                "at least" => Limit::at_least(figure, &source::COMMON_PRACTICE),
                other => panic!("no side {other}"),
            };
            let limit = row
                .quantity("beside")
                .map_or(limit, |beside| limit.printed_beside(beside));
            let reading = row.quantity("reading").unwrap();
            let judged = Judgement::of(RULE, reading, &[limit], &source::COMMON_PRACTICE);
            assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
            assert_eq!(limit.in_the_gap(reading), row.text("gap") == "yes", "{row}");
            assert_eq!(
                !judged.remarks.is_empty(),
                row.text("gap") == "yes",
                "{row}"
            );
            let room = judged.room.unwrap().base();
            assert_eq!(room.signum().to_string(), row.text("room sign"), "{row}");
        }
    }

    #[test]
    fn codes_come_back() {
        for verdict in Verdict::ALL {
            assert_eq!(Verdict::from_code(verdict.code()), Some(*verdict));
        }
        assert_eq!(Verdict::from_code("fine"), None);
        assert_eq!(Verdict::Beyond.worse(Verdict::Replace), Verdict::Beyond);
        assert_eq!(Verdict::Within.worse(Verdict::Sound), Verdict::Within);
        assert_eq!(
            Verdict::Within.worse(Verdict::AtTheLimit),
            Verdict::AtTheLimit
        );
        assert_eq!(
            Verdict::NoReading.worse(Verdict::AtTheLimit),
            Verdict::NoReading
        );
        let severities: Vec<u8> = Verdict::ALL
            .iter()
            .map(|verdict| verdict.severity())
            .collect();
        assert_eq!(severities, [0, 0, 1, 2, 3, 3]);
    }

    #[test]
    fn at_the_limit_means_what_its_place_says() {
        let means = |place| Verdict::AtTheLimit.means(place);
        assert_eq!(means(Place::AsFound), Meaning::Remark);
        assert_eq!(means(Place::AsLeft), Meaning::NeedsReason);
        assert_eq!(means(Place::Stand), Meaning::Refused);
        assert_eq!(means(Place::Jack), Meaning::Remark);
        for place in [Place::AsFound, Place::AsLeft, Place::Stand, Place::Jack] {
            assert_eq!(Verdict::Within.means(place), Meaning::Fine);
            assert_eq!(Verdict::Sound.means(place), Meaning::Fine);
            assert_eq!(Verdict::Beyond.means(place), Meaning::Refused);
            assert_eq!(Verdict::Replace.means(place), Meaning::Refused);
            assert_eq!(Verdict::NoReading.means(place), Meaning::Open);
        }
    }

    #[test]
    fn worst_limit_decides_and_least_room_breaks_ties() {
        let inch = |n: i64| Quantity::from(Length::from_inch_64ths(n * 64));
        let (low, high) = (
            Limit::at_least(inch(1), &source::COMMON_PRACTICE),
            Limit::at_most(inch(4), &source::COMMON_PRACTICE),
        );
        let judged = |n| Judgement::of(RULE, inch(n), &[low, high], &source::COMMON_PRACTICE);
        assert_eq!(
            (judged(0).verdict, judged(0).limits[0]),
            (Verdict::Beyond, low)
        );
        assert_eq!(
            (judged(1).verdict, judged(1).limits[0]),
            (Verdict::AtTheLimit, low)
        );
        assert_eq!(
            (judged(3).verdict, judged(3).limits[0]),
            (Verdict::Within, high)
        );
        assert_eq!(
            (judged(5).verdict, judged(5).limits[0]),
            (Verdict::Beyond, high)
        );
        assert_eq!(judged(5).room, Some(Length::from_inch_64ths(-64).into()));
        assert_eq!(judged(3).limits.len(), 2);
    }

    #[test]
    fn no_limit_and_another_dimension_are_no_reading() {
        let one = Quantity::from(Length::from_inch_64ths(64));
        let none = Judgement::of(RULE, one, &[], &source::COMMON_PRACTICE);
        assert_eq!(
            (none.verdict, none.reading),
            (Verdict::NoReading, Some(one))
        );
        let other = Limit::at_most(Mass::from_lb(1).into(), &source::COMMON_PRACTICE);
        let judged = Judgement::of(RULE, one, &[other], &source::COMMON_PRACTICE);
        assert_eq!((judged.verdict, judged.room), (Verdict::NoReading, None));
        assert_eq!(
            judged.remarks,
            [Remark::plain(word::REMARK_OTHER_DIMENSION)]
        );
        assert!(!other.in_the_gap(one));
    }

    #[test]
    fn others_are_shown_and_never_counted() {
        let inch = |n| Quantity::from(Length::from_inch_64ths(n));
        let limit = Limit::at_most(inch(160), &source::COMMON_PRACTICE);
        let stricter = Limit::at_most(inch(144), &source::COMMON_PRACTICE);
        let judged =
            Judgement::of(RULE, inch(152), &[limit], &source::COMMON_PRACTICE).other_says(stricter);
        assert_eq!(judged.verdict, Verdict::Within);
        assert_eq!(
            judged.others,
            [OtherSays {
                limit: stricter,
                verdict: Verdict::Beyond
            }]
        );
    }

    proptest! {
        #[test]
        fn more_is_never_kinder(a in 0_i64..10_000, b in 0_i64..10_000, figure in 0_i64..10_000, beside in 0_i64..10_000) {
            let (small, large) = (a.min(b), a.max(b));
            let of = |n| Quantity::from(Length::from_mm_hundredths(n));
            let most = Limit::at_most(of(figure), &source::COMMON_PRACTICE).printed_beside(of(beside));
            let least = Limit::at_least(of(figure), &source::COMMON_PRACTICE).printed_beside(of(beside));
            let severity = |limit: Limit, n| limit.judge(of(n)).unwrap().severity();
            prop_assert!(severity(most, small) <= severity(most, large));
            prop_assert!(severity(least, large) <= severity(least, small));
        }
    }
}
