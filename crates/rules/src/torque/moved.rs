//! What it means that a wheel nut moved at the road check.
//!
//! A nut that gave a little is what the check is made for. One that is loose again is not just
//! tightened: something under it is wrong, and one loose nut is a defect of the vehicle.

use crate::rules::Rule;
use crate::source::{self, Source};
use crate::verdict::RuleId;
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("torque.moved"),
    title: word::RULE_TORQUE_MOVED,
    units: &[],
    limits: word::LIMIT_TORQUE_MOVED,
    figures: &[],
    sources: &[
        &source::ROAD_CHECK_AT_FITTING,
        &source::LOOSE_AGAIN,
        &source::NUTS_PRESENT,
    ],
};

/// What a nut did under the wrench, cold, at the fitting value.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Moved {
    /// Clicked without turning.
    Held,
    /// Turned a little, then clicked.
    Turned,
    /// Loose, or it turned on and on.
    LooseAgain,
}

impl Moved {
    /// Every answer.
    pub const ALL: &[Self] = &[Self::Held, Self::Turned, Self::LooseAgain];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Held => "held",
            Self::Turned => "turned",
            Self::LooseAgain => "loose-again",
        }
    }

    /// The answer of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }

    /// What it means.
    ///
    /// Units: none. Errors: none. Source: see [`Self::sources`].
    pub const fn remark(self) -> Remark {
        Remark::plain(match self {
            Self::Held => word::TORQUE_MOVED_HELD,
            Self::Turned => word::TORQUE_MOVED_TURNED,
            Self::LooseAgain => word::TORQUE_MOVED_LOOSE,
        })
    }

    /// What says so.
    pub const fn sources(self) -> &'static [&'static Source] {
        match self {
            Self::Held | Self::Turned => &[&source::ROAD_CHECK_AT_FITTING],
            Self::LooseAgain => &[&source::LOOSE_AGAIN, &source::NUTS_PRESENT],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::cases;

    #[test]
    fn table() {
        for row in cases(include_str!("moved.tsv")) {
            let moved = Moved::from_code(row.text("nut"));
            let said = moved.map_or("-", |moved| moved.remark().word.key());
            let sources = moved.map_or(0, |moved| moved.sources().len());
            assert_eq!(said, row.text("says"), "{row}");
            assert_eq!(sources.to_string(), row.text("sources"), "{row}");
        }
    }

    #[test]
    fn every_source_of_an_answer_is_one_of_the_rule() {
        for source in Moved::ALL.iter().flat_map(|moved| moved.sources()) {
            assert!(RULE.sources.contains(source));
        }
    }
}
