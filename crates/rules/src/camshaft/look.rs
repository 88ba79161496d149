//! What is judged by eye at the camshaft and the anchors, and what goes with the part.

use crate::rules::Rule;
use crate::source::{self, Source};
use crate::verdict::{Judgement, RuleId, Verdict};
use crate::word::{self, Remark, Word};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("camshaft.look"),
    title: word::RULE_CAMSHAFT_LOOK,
    units: &[],
    limits: word::LIMIT_CAMSHAFT_LOOK,
    figures: &[],
    sources: &[
        &source::CAM_HEAD,
        &source::CAM_GREASE,
        &source::CAM_BINDING,
        &source::SPIDER_WORN,
    ],
};

/// What was seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Sign {
    /// A ridge that can be felt, a flat, a crack, worn splines or a rough journal.
    HeadWorn,
    /// Fresh grease comes out at the cam head.
    GreaseAtHead,
    /// It takes no grease, or it binds.
    Binding,
    /// A crack in the spider, a bore that has grown, or a loose or grooved pin.
    AnchorWorn,
    /// Nothing of these.
    Nothing,
}

impl Sign {
    /// Every sign.
    pub const ALL: &[Self] = &[
        Self::HeadWorn,
        Self::GreaseAtHead,
        Self::Binding,
        Self::AnchorWorn,
        Self::Nothing,
    ];

    /// The stable name under which it is listed.
    pub const fn code(self) -> &'static str {
        match self {
            Self::HeadWorn => "head-worn",
            Self::GreaseAtHead => "grease-at-head",
            Self::Binding => "binding",
            Self::AnchorWorn => "anchor-worn",
            Self::Nothing => "nothing",
        }
    }

    /// The sign of a listed name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }

    const fn means(self) -> Option<(Word, &'static Source)> {
        match self {
            Self::HeadWorn => Some((word::CAMSHAFT_REMARK_HEAD, &source::CAM_HEAD)),
            Self::GreaseAtHead => Some((word::CAMSHAFT_REMARK_GREASE, &source::CAM_GREASE)),
            Self::Binding => Some((word::CAMSHAFT_REMARK_BINDING, &source::CAM_BINDING)),
            Self::AnchorWorn => Some((word::CAMSHAFT_REMARK_ANCHOR, &source::SPIDER_WORN)),
            Self::Nothing => None,
        }
    }
}

/// Judges what was seen: every sign is a reason to renew, and its remark says what goes with it.
///
/// Units: none. Errors: none. Source: by sign, see [`RULE`].
pub fn judge_look(sign: Sign) -> Judgement {
    match sign.means() {
        Some((says, source)) => {
            Judgement::by_eye(RULE.id, Verdict::Replace, source).remarking(Remark::plain(says))
        }
        None => Judgement::by_eye(RULE.id, Verdict::Sound, &source::CAM_HEAD),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::cases;

    #[test]
    fn table() {
        let mut seen = 0;
        for row in cases(include_str!("look.tsv")) {
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
