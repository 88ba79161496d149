//! What heat, speed and wear take of a stroke, as published: measure cold, and leave room.
//!
//! Each figure stands for the one test that printed it. None of them is added to a reading that is
//! judged.

use crate::quantity::Length;
use crate::rules::Rule;
use crate::source::{self, Source};
use crate::verdict::RuleId;
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("why.heat"),
    title: word::RULE_WHY_HEAT,
    units: &[],
    limits: word::LIMIT_WHY_HEAT,
    figures: &[],
    sources: &[
        &source::HOT_DRUM_TEST,
        &source::SASKATCHEWAN,
        &source::BRAKE_FORCE_SHEET,
    ],
};

/// What lengthens a stroke on the road.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Grows {
    /// A drum at 600 °F, from one at 70, at 85 psi.
    HotTest,
    /// A hot drum, by a provincial manual: up to so much.
    HotDrum,
    /// Lining gone by the thickness of three sheets of paper.
    Wear,
    /// Braking from 30 mph.
    From30,
    /// Braking from 40 mph.
    From40,
    /// Braking from 50 mph.
    From50,
    /// Braking from 60 mph.
    From60,
}

impl Grows {
    /// Every one.
    pub const ALL: &[Self] = &[
        Self::HotTest,
        Self::HotDrum,
        Self::Wear,
        Self::From30,
        Self::From40,
        Self::From50,
        Self::From60,
    ];

    /// The stable name under which it is listed.
    pub const fn code(self) -> &'static str {
        match self {
            Self::HotTest => "hot-test",
            Self::HotDrum => "hot-drum",
            Self::Wear => "wear",
            Self::From30 => "30-mph",
            Self::From40 => "40-mph",
            Self::From50 => "50-mph",
            Self::From60 => "60-mph",
        }
    }

    /// By how much, as printed.
    pub const fn by(self) -> Length {
        match self {
            Self::HotTest => Length::from_inch_64ths(40),
            Self::HotDrum => Length::from_inch_64ths(32),
            Self::Wear => Length::from_inch_64ths(16),
            Self::From30 => Length::from_inch_thousandths(130),
            Self::From40 => Length::from_inch_thousandths(160),
            Self::From50 => Length::from_inch_thousandths(190),
            Self::From60 => Length::from_inch_thousandths(220),
        }
    }

    /// Where it is printed.
    pub const fn source(self) -> &'static Source {
        match self {
            Self::HotTest => &source::HOT_DRUM_TEST,
            Self::HotDrum | Self::Wear => &source::SASKATCHEWAN,
            Self::From30 | Self::From40 | Self::From50 | Self::From60 => &source::BRAKE_FORCE_SHEET,
        }
    }
}

/// What a cold stroke comes to with what lengthens it; `None` when it doesn't fit.
pub fn grown(cold: Length, by: &[Grows]) -> Option<Length> {
    by.iter()
        .try_fold(cold, |stroke, grows| stroke.checked_add(grows.by()))
}

/// What is left of a rated stroke then; negative when the rod would be at its end.
pub fn left(rated: Length, cold: Length, by: &[Grows]) -> Option<Length> {
    rated.checked_sub(grown(cold, by)?)
}

/// What the help says: the stroke that was read cold, and what a hot drum makes of it.
pub fn remark(cold: Length) -> Option<Remark> {
    let hot = grown(cold, &[Grows::HotDrum])?;
    Some(Remark::with(
        word::WHY_HEAT,
        [
            ("cold", Argument::Quantity(cold.into())),
            ("hot", Argument::Quantity(hot.into())),
        ],
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::cases;
    use crate::shown::inch_fraction;

    #[test]
    fn table() {
        for row in cases(include_str!("heat.tsv")) {
            let length = |name| row.quantity(name).unwrap().length().unwrap();
            let by: Vec<Grows> = row
                .list("by")
                .iter()
                .map(|code| *Grows::ALL.iter().find(|one| one.code() == *code).unwrap())
                .collect();
            let hot = grown(length("cold"), &by).unwrap();
            assert_eq!(hot, length("hot"), "{row}");
            let left = left(length("rated"), length("cold"), &by).unwrap();
            assert_eq!(
                inch_fraction(left).unwrap_or_default(),
                row.text("left"),
                "{row}"
            );
        }
        assert!(remark(Length::from_inch_64ths(96)).is_some());
    }

    #[test]
    fn each_has_its_own_name_and_source() {
        for (at, grows) in Grows::ALL.iter().enumerate() {
            assert!(
                Grows::ALL[..at]
                    .iter()
                    .all(|other| other.code() != grows.code())
            );
            assert!(RULE.sources.contains(&grows.source()), "{grows:?}");
            assert!(grows.by() > Length::ZERO);
        }
    }
}
