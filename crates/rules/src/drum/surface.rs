//! What the surface and the casting of a drum show, and whether it may stay.
//!
//! Short hairline heat checks are no cracks. A crack is one wherever it lies: the law rejects those
//! on the outside and those that open, the drum maker any.

use crate::rules::Rule;
use crate::source::{self, Source};
use crate::verdict::{Judgement, RuleId, Verdict};
use crate::word::{self, Remark, Word};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("drum.surface"),
    title: word::RULE_DRUM_SURFACE,
    units: &[],
    limits: word::LIMIT_DRUM_SURFACE,
    figures: &[],
    sources: &[
        &source::DRUM_CRACKS,
        &source::DRUM_MAKER,
        &source::DRUM_FAILURES,
    ],
};

/// What a drum shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Surface {
    /// Worn evenly.
    Even,
    /// Short hairline checks, all over alike.
    FineChecks,
    /// Heavy or open checks, or grooves.
    HeavyChecks,
    /// A crack on the inside only.
    Crack,
    /// A crack that shows outside or opens when the brake is applied.
    CrackThrough,
    /// A piece missing or about to fall off.
    PieceMissing,
    /// Blue, or dark spots: it ran hot.
    Spots,
    /// Worn deep on one side only.
    OneSided,
    /// Bolt holes drawn long, pilot damaged, or mounting face not flat.
    Mounting,
}

impl Surface {
    /// Every one.
    pub const ALL: &[Self] = &[
        Self::Even,
        Self::FineChecks,
        Self::HeavyChecks,
        Self::Crack,
        Self::CrackThrough,
        Self::PieceMissing,
        Self::Spots,
        Self::OneSided,
        Self::Mounting,
    ];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Even => "even",
            Self::FineChecks => "fine-checks",
            Self::HeavyChecks => "checked",
            Self::Crack => "cracked",
            Self::CrackThrough => "crack-through",
            Self::PieceMissing => "piece-missing",
            Self::Spots => "blue",
            Self::OneSided => "pattern",
            Self::Mounting => "mounting",
        }
    }

    /// The surface of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }
}

/// Judges a drum by what it shows.
///
/// Units: none. Errors: none.
/// Source: [`source::DRUM_CRACKS`], [`source::DRUM_MAKER`], [`source::DRUM_FAILURES`].
pub fn judge_surface(surface: Surface) -> Judgement {
    let (verdict, source, says): (Verdict, &'static Source, Option<Word>) = match surface {
        Surface::Even => (Verdict::Sound, &source::DRUM_CRACKS, None),
        Surface::FineChecks => (
            Verdict::Sound,
            &source::DRUM_CRACKS,
            Some(word::DRUM_REMARK_NOT_A_CRACK),
        ),
        Surface::HeavyChecks | Surface::Crack | Surface::Mounting => {
            (Verdict::Replace, &source::DRUM_MAKER, None)
        }
        Surface::CrackThrough | Surface::PieceMissing => {
            (Verdict::Replace, &source::DRUM_CRACKS, None)
        }
        Surface::Spots => (
            Verdict::Replace,
            &source::DRUM_FAILURES,
            Some(word::DRUM_REMARK_FIND_HEAT),
        ),
        Surface::OneSided => (
            Verdict::Replace,
            &source::DRUM_FAILURES,
            Some(word::DRUM_REMARK_FIND_SEAT),
        ),
    };
    let mut judged = Judgement::by_eye(RULE.id, verdict, source);
    judged.remarks.extend(says.map(Remark::plain));
    judged
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::cases;

    #[test]
    fn table() {
        let mut seen = 0;
        for row in cases(include_str!("surface.tsv")) {
            let judged = judge_surface(Surface::from_code(row.text("shows")).unwrap());
            assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
            let said = judged.remarks.first().map_or("-", |said| said.word.key());
            assert!(said.ends_with(row.text("says")), "{row}");
            assert!(judged.source.clause.contains(row.text("clause")), "{row}");
            seen += 1;
        }
        assert_eq!(seen, Surface::ALL.len());
        assert_eq!(Surface::from_code("rust"), None);
    }
}
