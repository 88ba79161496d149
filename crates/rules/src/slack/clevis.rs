//! What is judged by eye at a clevis and its pin.

use crate::rules::Rule;
use crate::source::{self, Source};
use crate::verdict::{Judgement, RuleId, Verdict};
use crate::word::{self, Remark, Word};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("slack.clevis-look"),
    title: word::RULE_SLACK_CLEVIS_LOOK,
    units: &[],
    limits: word::LIMIT_SLACK_CLEVIS_LOOK,
    figures: &[],
    sources: &[
        &source::LINKLESS_ADJUSTER,
        &source::CLEVIS_PIN,
        &source::CLEVIS_BOLT,
    ],
};

/// What was seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Sign {
    /// A hole that is egg-shaped around a new pin.
    HoleLong,
    /// A pin that is seized, grooved or cracked.
    PinWorn,
    /// A bolt where the pin belongs.
    Bolt,
    /// Nothing of these.
    Nothing,
}

impl Sign {
    /// Every sign.
    pub const ALL: &[Self] = &[Self::HoleLong, Self::PinWorn, Self::Bolt, Self::Nothing];

    /// The stable name under which it is listed.
    pub const fn code(self) -> &'static str {
        match self {
            Self::HoleLong => "hole-long",
            Self::PinWorn => "pin-worn",
            Self::Bolt => "bolt",
            Self::Nothing => "nothing",
        }
    }

    /// The sign of a listed name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }

    const fn means(self) -> Option<(Word, &'static Source)> {
        match self {
            Self::HoleLong => Some((word::SLACK_REMARK_CLEVIS_HOLE, &source::LINKLESS_ADJUSTER)),
            Self::PinWorn => Some((word::SLACK_REMARK_CLEVIS_PIN, &source::CLEVIS_PIN)),
            Self::Bolt => Some((word::SLACK_REMARK_CLEVIS_BOLT, &source::CLEVIS_BOLT)),
            Self::Nothing => None,
        }
    }
}

/// Judges what was seen: every sign is a reason to renew.
///
/// Units: none. Errors: none. Source: by sign, see [`RULE`].
pub fn judge_look(sign: Sign) -> Judgement {
    match sign.means() {
        Some((says, source)) => {
            Judgement::by_eye(RULE.id, Verdict::Replace, source).remarking(Remark::plain(says))
        }
        None => Judgement::by_eye(RULE.id, Verdict::Sound, &source::LINKLESS_ADJUSTER),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::cases;

    #[test]
    fn table() {
        let mut seen = 0;
        for row in cases(include_str!("clevis.tsv")) {
            let judged = judge_look(Sign::from_code(row.text("sign")).unwrap());
            assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
            let said = judged.remarks.first().map_or("-", |said| said.word.key());
            assert_eq!(said, row.text("says"), "{row}");
            assert!(judged.source.clause.contains(row.text("clause")), "{row}");
            assert!(RULE.sources.contains(&judged.source), "{row}");
            seen += 1;
        }
        assert_eq!(seen, Sign::ALL.len());
        assert_eq!(Sign::from_code("x"), None);
    }
}
