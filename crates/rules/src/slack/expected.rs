//! What an as-left stroke should come to after a rebuild: advice beside the limit, never a verdict.
//!
//! A sound brake takes a published part of the stroke once the linings touch, and the free stroke
//! goes before it. Their sum is where a good rebuild ends up.

use crate::quantity::{Length, Quantity};
use crate::rules::Rule;
use crate::slack::chamber::{Chamber, Family};
use crate::source;
use crate::unit::Unit;
use crate::verdict::RuleId;
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("slack.expected"),
    title: word::RULE_SLACK_EXPECTED,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_SLACK_EXPECTED,
    figures: &[],
    sources: &[&source::LIGHT_DRAG, &source::CLUTCH_ADJUSTER],
};

/// Which brake the chamber works.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Brake {
    /// 15 by 4 in, on a steer axle.
    SteerFifteen,
    /// 16.5 by 7 in, on a truck or tractor.
    Truck,
    /// 16.5 by 7 in, on a trailer.
    Trailer,
}

/// One row of the published chart, in 64ths of an inch; `None` where it prints none.
struct Sound {
    chamber: &'static str,
    arm_half_inches: i64,
    steer_fifteen: Option<i64>,
    truck: Option<i64>,
    trailer: Option<i64>,
}

const fn sound(
    chamber: &'static str,
    arm_half_inches: i64,
    [steer_fifteen, truck, trailer]: [Option<i64>; 3],
) -> Sound {
    Sound {
        chamber,
        arm_half_inches,
        steer_fifteen,
        truck,
        trailer,
    }
}

/// What a sound brake takes at 80 to 90 psi from a light drag. Source: [`source::LIGHT_DRAG`].
const CHART: &[Sound] = &[
    sound("12", 10, [Some(32), None, None]),
    sound("12", 11, [Some(32), None, None]),
    sound("16", 10, [Some(40), Some(32), None]),
    sound("16", 11, [Some(48), Some(32), None]),
    sound("16", 12, [Some(56), Some(40), None]),
    sound("20", 10, [Some(40), Some(32), Some(24)]),
    sound("20", 11, [Some(48), Some(40), Some(32)]),
    sound("20", 12, [Some(56), Some(48), Some(40)]),
    sound("24", 10, [None, Some(40), Some(32)]),
    sound("24", 11, [None, Some(40), Some(40)]),
    sound("24", 12, [None, Some(48), Some(40)]),
    sound("30", 10, [None, Some(48), Some(40)]),
    sound("30", 11, [None, Some(56), Some(48)]),
    sound("30", 12, [None, Some(64), Some(56)]),
];

/// The free stroke that goes before it: the widest published window of an automatic adjuster.
const FREE_LOW: Length = Length::from_inch_64ths(24);
const FREE_HIGH: Length = Length::from_inch_64ths(48);

/// Where an as-left stroke should lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Expected {
    /// From here.
    pub low: Length,
    /// To here.
    pub high: Length,
}

impl Expected {
    /// What to say of a stroke beside it.
    fn remark(self, stroke: Length) -> Remark {
        if stroke < self.low {
            return Remark::plain(word::SLACK_REMARK_EXPECTED_BELOW);
        }
        if stroke > self.high {
            return Remark::plain(word::SLACK_REMARK_EXPECTED_ABOVE);
        }
        let length = |length| Argument::Quantity(Quantity::Length(length));
        let ends = [("low", length(self.low)), ("high", length(self.high))];
        Remark::with(word::SLACK_REMARK_EXPECTED, ends)
    }
}

/// What to say of a stroke beside what is expected, also where nothing is.
pub fn remark(expected: Option<Expected>, stroke: Length) -> Remark {
    let none = Remark::plain(word::SLACK_REMARK_EXPECTED_NONE);
    expected.map_or(none, |expected| expected.remark(stroke))
}

/// The stroke that a sound brake takes once its linings touch; `None` where the chart prints none.
///
/// Units: lengths. Source: [`source::LIGHT_DRAG`].
pub fn light_drag(chamber: &Chamber, arm: Length, brake: Brake) -> Option<Length> {
    let Chamber::Listed { of, .. } = chamber else {
        return None;
    };
    if of.family != Family::Clamp {
        return None;
    }
    let row = CHART.iter().find(|row| {
        row.chamber == of.name && Length::from_inch_64ths(row.arm_half_inches * 32) == arm
    })?;
    let inch_64ths = match brake {
        Brake::SteerFifteen => row.steer_fifteen,
        Brake::Truck => row.truck,
        Brake::Trailer => row.trailer,
    };
    inch_64ths.map(Length::from_inch_64ths)
}

/// Where the stroke of this brake should lie after a rebuild; `None` where nothing is published.
///
/// Units: lengths. Source: [`source::LIGHT_DRAG`] added to [`source::CLUTCH_ADJUSTER`].
pub fn after_rebuild(chamber: &Chamber, arm: Length, brake: Brake) -> Option<Expected> {
    let drag = light_drag(chamber, arm, brake)?;
    Some(Expected {
        low: drag.checked_add(FREE_LOW)?,
        high: drag.checked_add(FREE_HIGH)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::cases;
    use crate::slack::chamber::StrokeClass;

    #[test]
    fn table() {
        for row in cases(include_str!("expected.tsv")) {
            let family = Family::from_code(row.text("family")).unwrap();
            let chamber = Chamber::listed(family, row.text("type"), StrokeClass::Standard).unwrap();
            let arm = row.quantity("arm").unwrap().length().unwrap();
            let of = |brake, name| {
                let got = light_drag(&chamber, arm, brake).map(Quantity::from);
                assert_eq!(got, row.quantity(name), "{row}");
            };
            of(Brake::SteerFifteen, "steer 15x4");
            of(Brake::Truck, "truck");
            of(Brake::Trailer, "trailer");
        }
    }

    #[test]
    fn what_is_expected_is_said() {
        let chamber = Chamber::listed(Family::Clamp, "30", StrokeClass::Standard).unwrap();
        let arm = Length::from_inch_64ths(352);
        let expected = after_rebuild(&chamber, arm, Brake::Trailer).unwrap();
        let inch = Length::from_inch_64ths;
        assert_eq!(
            expected,
            Expected {
                low: inch(72),
                high: inch(96)
            }
        );
        let said = |n| remark(Some(expected), inch(n)).word;
        assert_eq!(remark(None, arm).word, word::SLACK_REMARK_EXPECTED_NONE);
        assert_eq!(said(71), word::SLACK_REMARK_EXPECTED_BELOW);
        assert_eq!([said(72), said(96)], [word::SLACK_REMARK_EXPECTED; 2]);
        assert_eq!(said(97), word::SLACK_REMARK_EXPECTED_ABOVE);
        assert_eq!(after_rebuild(&chamber, arm, Brake::SteerFifteen), None);
        let unlisted = Chamber::Unlisted {
            rated: None,
            marked: None,
        };
        assert_eq!(after_rebuild(&unlisted, arm, Brake::Trailer), None);
    }
}
