//! Where the valve stems of a dual stand to one another.
//!
//! Half a turn apart is what the trade does and most manuals print; a third of a turn is printed
//! too. No limit: what counts is that both can be reached, so this is a remark and no verdict.

use crate::rules::Rule;
use crate::source;
use crate::verdict::RuleId;
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("torque.stems"),
    title: word::RULE_TORQUE_STEMS,
    units: &[],
    limits: word::LIMIT_TORQUE_STEMS,
    figures: &[],
    sources: &[
        &source::COMMON_PRACTICE,
        &source::STEMS_HALF_TURN,
        &source::TORQUE_ARMY_SPOKE,
    ],
};

/// How the two stems stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Stems {
    /// Half a turn apart.
    HalfTurn,
    /// Apart, but not by half a turn.
    Elsewhere,
    /// Side by side.
    Together,
}

impl Stems {
    /// Every answer.
    pub const ALL: &[Self] = &[Self::HalfTurn, Self::Elsewhere, Self::Together];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::HalfTurn => "half-turn",
            Self::Elsewhere => "elsewhere",
            Self::Together => "together",
        }
    }

    /// The answer of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }

    /// What the screen says. Source: [`source::COMMON_PRACTICE`].
    pub const fn remark(self) -> Remark {
        Remark::plain(match self {
            Self::HalfTurn => word::TORQUE_STEMS_HALF_TURN,
            Self::Elsewhere => word::TORQUE_STEMS_ELSEWHERE,
            Self::Together => word::TORQUE_STEMS_TOGETHER,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::cases;

    #[test]
    fn table() {
        for row in cases(include_str!("stems.tsv")) {
            let said = Stems::from_code(row.text("stems")).map(|stems| stems.remark().word.key());
            assert_eq!(said.unwrap_or("-"), row.text("says"), "{row}");
        }
    }
}
