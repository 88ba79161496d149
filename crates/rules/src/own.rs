//! Limits that a shop enters for itself: what the maker of a part prints, or what its province asks.
//!
//! One never makes a published limit looser: both are held, and the stricter decides. Where nothing
//! is published for the kind of part, or the kind isn't known, the shop's own decides alone.

use crate::quantity::Length;
use crate::source;
use crate::verdict::{Judgement, Limit, Side, Verdict};
use crate::word::{self, Argument, Remark};

/// One limit of the shop sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OwnLimit {
    /// On which side a reading has to lie.
    pub side: Side,
    /// The figure.
    pub figure: Length,
    /// True for the figure of the vehicle's own jurisdiction, false for a maker's.
    pub of_law: bool,
    /// Where the shop has it from, as typed.
    pub from: String,
}

impl OwnLimit {
    /// The limit as a reading is held against it.
    pub fn limit(&self) -> Limit {
        match self.side {
            Side::AtMost => Limit::at_most(self.figure.into(), &source::SHOP_SHEET),
            Side::AtLeast => Limit::at_least(self.figure.into(), &source::SHOP_SHEET),
        }
    }

    /// Says the figure and where the shop has it from.
    pub fn remark(&self) -> Remark {
        let figure = ("figure", Argument::Quantity(self.figure.into()));
        let from = ("from", Argument::Text(self.from.clone()));
        Remark::with(word::REMARK_OWN_LIMIT, [figure, from])
    }
}

/// The strictest of some limits on one side.
pub fn strictest(own: &[OwnLimit], side: Side) -> Option<&OwnLimit> {
    let of_side = own.iter().filter(|own| own.side == side);
    match side {
        Side::AtMost => of_side.min_by_key(|own| own.figure),
        Side::AtLeast => of_side.max_by_key(|own| own.figure),
    }
}

impl Judgement {
    /// Holds the reading against the shop's own limits as well; the stricter decides.
    ///
    /// For judgements that hang on no conditions: where a reading proves nothing its rule takes the
    /// limits itself.
    ///
    /// Units: any length. Errors: none. Without a reading nothing changes.
    /// Source: [`source::SHOP_SHEET`], with what the shop typed beside it.
    #[must_use]
    pub fn by_shop(self, own: &[OwnLimit]) -> Self {
        let Some(reading) = self.reading.filter(|_| !own.is_empty()) else {
            return self;
        };
        let alone = self.limits.is_empty();
        let held: Vec<Limit> = own.iter().map(OwnLimit::limit).collect();
        let by_own = Self::of(self.rule, reading, &held, &source::SHOP_SHEET);
        let own_decides = alone
            || by_own.verdict.severity() > self.verdict.severity()
            || (by_own.verdict.severity() == self.verdict.severity() && by_own.room < self.room);
        let mut judged = self;
        if own_decides {
            judged.verdict = by_own.verdict;
            judged.room = by_own.room;
            judged.source = by_own.source;
            judged.limits = by_own.limits.into_iter().chain(judged.limits).collect();
        } else {
            judged.limits.extend(by_own.limits);
        }
        if alone && by_own.verdict != Verdict::NoReading {
            // There is a limit now: that none is printed, or not known to be the one, is past.
            let past = [
                word::WINDOW_KIND_UNKNOWN,
                word::WINDOW_NONE_PRINTED,
                word::DRUM_REMARK_NO_MAXIMUM,
                word::SLACK_REMARK_MECHANISM_UNKNOWN,
                word::SLACK_REMARK_NO_WINDOW,
            ];
            judged.remarks.retain(|said| !past.contains(&said.word));
        }
        judged.remarks.extend(own.iter().map(OwnLimit::remark));
        judged
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::camshaft::brake::Brake;
    use crate::camshaft::play::{judge_end, judge_radial};
    use crate::drum::diameter::judge_diameter;
    use crate::drum::marks::Marks;

    fn own(side: Side, inch_thousandths: i64) -> OwnLimit {
        OwnLimit {
            side,
            figure: Length::from_inch_thousandths(inch_thousandths),
            of_law: false,
            from: "brake maker's sheet 4, p. 2".to_owned(),
        }
    }

    fn mil(n: i64) -> Length {
        Length::from_inch_thousandths(n)
    }

    #[test]
    fn the_stricter_decides_and_both_are_shown() {
        // What is printed for this brake is 0.030 in.
        for (play, most, verdict, document) in [
            (24, 25, Verdict::Within, "Shop sheet"),
            (25, 25, Verdict::AtTheLimit, "Shop sheet"),
            (26, 25, Verdict::Beyond, "Shop sheet"),
            (31, 40, Verdict::Beyond, ""),
            (30, 40, Verdict::AtTheLimit, ""),
            (29, 40, Verdict::Within, ""),
        ] {
            let judged = judge_radial(mil(play), Brake::SpiderThirty);
            let printed = judged.source.document;
            let judged = judged.by_shop(&[own(Side::AtMost, most)]);
            assert_eq!(judged.verdict, verdict, "{play} {most}");
            let expected = if document.is_empty() {
                printed
            } else {
                document
            };
            assert_eq!(judged.source.document, expected, "{play} {most}");
            assert_eq!(judged.limits.len(), 2, "{play} {most}");
            assert_eq!(judged.limits[0].source, judged.source);
            let said = judged.remarks.iter().map(|said| said.word);
            assert!(said.into_iter().any(|said| said == word::REMARK_OWN_LIMIT));
        }
    }

    #[test]
    fn it_decides_alone_where_nothing_else_does() {
        let judged = judge_radial(mil(10), Brake::Unknown);
        assert_eq!(judged.verdict, Verdict::NoReading);
        let by_shop = judged.by_shop(&[own(Side::AtMost, 12)]);
        assert_eq!(by_shop.verdict, Verdict::Within);
        assert!(!by_shop.others.is_empty(), "the others are still shown");
        let said: Vec<_> = by_shop.remarks.iter().map(|said| said.word).collect();
        assert_eq!(said, [word::REMARK_OWN_LIMIT]);
        let window = [own(Side::AtLeast, 5), own(Side::AtMost, 20)];
        for (play, verdict) in [
            (4, Verdict::Beyond),
            (5, Verdict::AtTheLimit),
            (6, Verdict::Within),
            (20, Verdict::AtTheLimit),
            (21, Verdict::Beyond),
        ] {
            let judged = judge_end(mil(play), Brake::Unknown).by_shop(&window);
            assert_eq!(judged.verdict, verdict, "{play}");
        }
        let drum = judge_diameter(&[mil(16_600)], Marks::default());
        assert_eq!(drum.verdict, Verdict::NoReading);
        let drum = drum.by_shop(&[own(Side::AtMost, 16_620)]);
        assert_eq!(drum.verdict, Verdict::Within);
        let nothing = judge_diameter(&[], Marks::default());
        assert_eq!(nothing.clone().by_shop(&window), nothing);
    }

    #[test]
    fn the_strictest_of_several_is_found() {
        let most = [own(Side::AtMost, 20), own(Side::AtMost, 18)];
        assert_eq!(strictest(&most, Side::AtMost), most.get(1));
        assert_eq!(strictest(&most, Side::AtLeast), None);
        let least = [own(Side::AtLeast, 20), own(Side::AtLeast, 18)];
        assert_eq!(strictest(&least, Side::AtLeast), least.first());
    }

    proptest! {
        #[test]
        fn a_limit_of_the_shop_never_makes_it_kinder(play in 0_i64..80, most in 1_i64..80, least in 0_i64..40, of in 0..Brake::ALL.len()) {
            let judged = judge_radial(mil(play), Brake::ALL[of]);
            let by_shop = judged.clone().by_shop(&[own(Side::AtMost, most), own(Side::AtLeast, least)]);
            if !judged.limits.is_empty() {
                prop_assert!(judged.verdict.severity() <= by_shop.verdict.severity());
            }
            if most < play || play < least {
                prop_assert_eq!(by_shop.verdict, Verdict::Beyond);
            }
        }
    }
}
