//! Nuts as they were found and came off: missing, loose, and whether their washers turn.
//!
//! A single missing or loose nut breaks the regulation; there is no number that is allowed. What is
//! done about a stiff washer is common practice.

use crate::rules::Rule;
use crate::source::{self, Source};
use crate::verdict::{Judgement, RuleId, Verdict};
use crate::word::{self, Remark, Word};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("stud.nuts"),
    title: word::RULE_STUD_NUTS,
    units: &[],
    limits: word::LIMIT_STUD_NUTS,
    figures: &[],
    sources: &[&source::NUTS_PRESENT, &source::COMMON_PRACTICE],
};

/// What was found with a nut.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Sign {
    /// There was none.
    Missing,
    /// It was loose.
    Loose,
    /// Its stud came off with it, or was broken.
    StudBroken,
    /// Its washer was stiff and turns freely after a drop of oil where it meets the hex.
    WasherFreed,
    /// Its washer stays stiff, or it is bad in another way: it takes a new nut.
    ToRenew,
}

impl Sign {
    /// Every sign, the worst first.
    pub const ALL: &[Self] = &[
        Self::Missing,
        Self::Loose,
        Self::StudBroken,
        Self::ToRenew,
        Self::WasherFreed,
    ];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Missing => "missing",
            Self::Loose => "loose",
            Self::StudBroken => "stud-broken",
            Self::WasherFreed => "stiff-freed",
            Self::ToRenew => "new-nut",
        }
    }

    /// The sign of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }

    const fn means(self) -> (Verdict, &'static Source, Word) {
        match self {
            Self::Missing => (
                Verdict::Replace,
                &source::NUTS_PRESENT,
                word::STUD_REMARK_NUT_MISSING,
            ),
            Self::Loose => (
                Verdict::Replace,
                &source::NUTS_PRESENT,
                word::STUD_REMARK_NUT_LOOSE,
            ),
            Self::StudBroken => (
                Verdict::Replace,
                &source::NUTS_PRESENT,
                word::STUD_REMARK_STUD_BROKEN,
            ),
            Self::ToRenew => (
                Verdict::Replace,
                &source::COMMON_PRACTICE,
                word::STUD_REMARK_NUT_RENEW,
            ),
            Self::WasherFreed => (
                Verdict::Sound,
                &source::COMMON_PRACTICE,
                word::STUD_REMARK_WASHER_FREED,
            ),
        }
    }
}

/// Judges the nuts of one wheel end by what was found with any of them.
///
/// Units: none. Errors: none. Source: [`source::NUTS_PRESENT`], else common practice.
pub fn judge_nuts(found: &[Sign]) -> Judgement {
    let mut judged: Option<Judgement> = None;
    for sign in Sign::ALL.iter().filter(|sign| found.contains(sign)) {
        let (verdict, source, says) = sign.means();
        let so_far = judged.unwrap_or_else(|| Judgement::by_eye(RULE.id, verdict, source));
        judged = Some(so_far.remarking(Remark::plain(says)));
    }
    judged.unwrap_or_else(|| Judgement::by_eye(RULE.id, Verdict::Sound, &source::NUTS_PRESENT))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::cases;

    #[test]
    fn table() {
        for row in cases(include_str!("nuts.tsv")) {
            let found = row.list("found");
            let found: Vec<Sign> = found
                .iter()
                .filter_map(|one| Sign::from_code(one))
                .collect();
            let judged = judge_nuts(&found);
            assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
            let says: Vec<&str> = judged.remarks.iter().map(|said| said.word.key()).collect();
            assert_eq!(says, row.list("says"), "{row}");
            assert_eq!(judged.source.standing.code(), row.text("standing"), "{row}");
        }
        let back = |one: &Sign| Sign::from_code(one.code()) == Some(*one);
        assert!(Sign::ALL.iter().all(back));
    }

    proptest! {
        #[test]
        fn one_more_is_never_kinder(found in proptest::collection::vec(0..Sign::ALL.len(), 1..6)) {
            let found: Vec<Sign> = found.iter().map(|sign| Sign::ALL[*sign]).collect();
            for most in 1..=found.len() {
                let severity = |n: usize| judge_nuts(&found[..n]).verdict.severity();
                prop_assert!(severity(most - 1) <= severity(most));
            }
        }
    }
}
