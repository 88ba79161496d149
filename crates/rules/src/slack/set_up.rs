//! When an adjuster may be turned by hand, and when its cause has to be found instead.
//!
//! An automatic adjuster is set at installation and at a reline. If the stroke is then too long it
//! is settled and measured again, set once more, and after that never again: it lets the stroke grow
//! for a reason. Turning it to cure a long stroke is no repair, on no card.

use crate::rules::Rule;
use crate::slack::mechanism::Mechanism;
use crate::source;
use crate::verdict::RuleId;
use crate::word::{self, Remark, Word};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("slack.set-up"),
    title: word::RULE_SLACK_SET_UP,
    units: &[],
    limits: word::LIMIT_SLACK_SET_UP,
    figures: &[],
    sources: &[&source::NOT_A_REPAIR, &source::CLUTCH_ADJUSTER],
};

/// Why somebody wants to turn it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Reason {
    /// The adjuster is new on this axle.
    Installation,
    /// The brake was relined, or opened and closed again.
    Reline,
    /// The stroke is too long and nothing was renewed.
    LongStroke,
    /// To move the vehicle to a workshop.
    Emergency,
}

/// What has happened at this wheel end since it was rebuilt.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Since {
    /// How often the adjuster was set up.
    pub set_ups: u32,
    /// Whether it was settled by several full applications and measured again since the last one.
    pub settled: bool,
}

/// Whether it may be turned.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum MayTurn {
    /// A manual adjuster: that is how it is set.
    Manual,
    /// The first set-up.
    Yes,
    /// Settle and measure again first.
    SettleFirst,
    /// The one second set-up.
    OnceMore,
    /// No: find the cause.
    FindCause,
    /// To move the vehicle, and for nothing else.
    Emergency,
}

impl MayTurn {
    /// Whether the hex may be touched now.
    pub const fn allowed(self) -> bool {
        !matches!(self, Self::SettleFirst | Self::FindCause)
    }

    /// The word for it.
    pub const fn word(self) -> Word {
        match self {
            Self::Manual => word::SLACK_SET_UP_MANUAL,
            Self::Yes => word::SLACK_SET_UP_MAY,
            Self::SettleFirst => word::SLACK_SET_UP_SETTLE,
            Self::OnceMore => word::SLACK_SET_UP_ONCE_MORE,
            Self::FindCause => word::SLACK_SET_UP_FIND_CAUSE,
            Self::Emergency => word::SLACK_SET_UP_EMERGENCY,
        }
    }

    /// What the screen says.
    pub const fn remark(self) -> Remark {
        Remark::plain(self.word())
    }
}

/// Whether an adjuster may be turned now.
///
/// An unknown mechanism counts as automatic. Source: [`source::NOT_A_REPAIR`].
pub const fn may_turn(mechanism: Mechanism, reason: Reason, since: Since) -> MayTurn {
    if matches!(mechanism, Mechanism::Manual) {
        return MayTurn::Manual;
    }
    match (reason, since.set_ups) {
        (Reason::LongStroke, _) => MayTurn::FindCause,
        (Reason::Emergency, _) => MayTurn::Emergency,
        (Reason::Installation | Reason::Reline, 0) => MayTurn::Yes,
        (Reason::Installation | Reason::Reline, 1) if since.settled => MayTurn::OnceMore,
        (Reason::Installation | Reason::Reline, 1) => MayTurn::SettleFirst,
        (Reason::Installation | Reason::Reline, _) => MayTurn::FindCause,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::cases;

    #[test]
    fn table() {
        for row in cases(include_str!("set_up.tsv")) {
            let reason = match row.text("reason") {
                "installation" => Reason::Installation,
                "reline" => Reason::Reline,
                "long stroke" => Reason::LongStroke,
                "emergency" => Reason::Emergency,
                other => panic!("no reason {other}"),
            };
            let since = Since {
                set_ups: row.count("set-ups"),
                settled: row.text("settled") == "yes",
            };
            let may = may_turn(
                Mechanism::from_code(row.text("mechanism")).unwrap(),
                reason,
                since,
            );
            assert_eq!(format!("{may:?}"), row.text("may"), "{row}");
            assert_eq!(may.allowed(), row.text("allowed") == "yes", "{row}");
            assert_eq!(may.remark().word, may.word());
            assert!(may.word().key().starts_with("slack.set-up."));
        }
    }

    #[test]
    fn every_answer_has_its_own_word() {
        let all = [
            MayTurn::Manual,
            MayTurn::Yes,
            MayTurn::SettleFirst,
            MayTurn::OnceMore,
            MayTurn::FindCause,
            MayTurn::Emergency,
        ];
        for (at, one) in all.iter().enumerate() {
            assert!(all[..at].iter().all(|other| other.word() != one.word()));
        }
    }
}
