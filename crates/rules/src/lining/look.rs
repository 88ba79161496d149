//! What a lining shows, and whether it may stay.
//!
//! Oil and grease never come out of a lining: its leak is cured first, then both ends of the axle
//! get new ones.

use crate::rules::Rule;
use crate::source::{self, Source};
use crate::verdict::{Judgement, RuleId, Verdict};
use crate::word::{self, Remark, Word};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("lining.look"),
    title: word::RULE_LINING_LOOK,
    units: &[],
    limits: word::LIMIT_LINING_LOOK,
    figures: &[],
    sources: &[
        &source::LINING_LOOSE_OR_OILED,
        &source::LINING_CONTAMINATED,
        &source::SHOE_RECESS,
    ],
};

/// What a lining shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Look {
    /// Dry and whole.
    Dry,
    /// Oil, grease or brake fluid on it or in it.
    Oiled,
    /// Cracked, loose, or a block missing.
    Cracked,
    /// Glazed or burnt.
    Burnt,
    /// Worn thinner at one edge or end.
    Tapered,
    /// Worn more than its neighbour.
    Uneven,
}

impl Look {
    /// Every one.
    pub const ALL: &[Self] = &[
        Self::Dry,
        Self::Oiled,
        Self::Cracked,
        Self::Burnt,
        Self::Tapered,
        Self::Uneven,
    ];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Dry => "dry",
            Self::Oiled => "oil",
            Self::Cracked => "cracked",
            Self::Burnt => "burnt",
            Self::Tapered => "tapered",
            Self::Uneven => "uneven",
        }
    }

    /// The look of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }
}

/// Judges the linings of a wheel end by all that they show; the worst decides.
///
/// Units: none. Errors: none.
/// Source: [`source::LINING_LOOSE_OR_OILED`], [`source::LINING_CONTAMINATED`].
pub fn judge_look(shows: &[Look]) -> Judgement {
    let of = |look: Look| -> (Verdict, &'static Source, Option<Word>) {
        match look {
            Look::Dry => (Verdict::Sound, &source::LINING_LOOSE_OR_OILED, None),
            Look::Oiled => (
                Verdict::Replace,
                &source::LINING_LOOSE_OR_OILED,
                Some(word::LINING_REMARK_CURE_LEAK),
            ),
            Look::Cracked => (
                Verdict::Replace,
                &source::LINING_LOOSE_OR_OILED,
                Some(word::LINING_REMARK_BOTH_ENDS),
            ),
            Look::Burnt => (
                Verdict::Replace,
                &source::LINING_CONTAMINATED,
                Some(word::LINING_REMARK_FIND_DRAG),
            ),
            // How uneven is too uneven is printed nowhere: the thinnest point is measured instead.
            Look::Tapered | Look::Uneven => (
                Verdict::Sound,
                &source::LINING_CONTAMINATED,
                Some(word::LINING_REMARK_FIND_UNEVEN),
            ),
        }
    };
    let all: Vec<_> = shows.iter().copied().map(of).collect();
    let worst = all.iter().max_by_key(|(verdict, ..)| verdict.severity());
    let (verdict, source) = worst.map_or(
        (Verdict::Sound, &source::LINING_LOOSE_OR_OILED),
        |(verdict, source, _)| (*verdict, *source),
    );
    let mut judged = Judgement::by_eye(RULE.id, verdict, source);
    for says in all.iter().filter_map(|(_, _, says)| *says) {
        let said = Remark::plain(says);
        if !judged.remarks.contains(&said) {
            judged = judged.remarking(said);
        }
    }
    judged
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::cases;

    #[test]
    fn table() {
        for row in cases(include_str!("look.tsv")) {
            let shows: Vec<Look> = row
                .list("shows")
                .into_iter()
                .map(|code| Look::from_code(code).unwrap())
                .collect();
            let judged = judge_look(&shows);
            assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
            let said: Vec<&str> = judged
                .remarks
                .iter()
                .map(|said| said.word.key().trim_start_matches("lining.remark."))
                .collect();
            assert_eq!(said, row.list("says"), "{row}");
            assert!(judged.source.clause.contains(row.text("clause")), "{row}");
        }
        assert_eq!(Look::from_code("wet"), None);
    }

    #[test]
    fn one_thing_more_is_never_kinder() {
        for one in Look::ALL {
            for other in Look::ALL {
                let alone = judge_look(&[*one]).verdict.severity();
                assert!(alone <= judge_look(&[*one, *other]).verdict.severity());
                assert!(alone <= judge_look(&[*other, *one]).verdict.severity());
            }
        }
    }
}
