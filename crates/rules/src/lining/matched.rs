//! Whether both ends of an axle have the same lining, by what is printed on its edge.

use crate::lining::code::Edge;
use crate::rules::Rule;
use crate::source;
use crate::verdict::{Judgement, RuleId, Verdict};
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("lining.match"),
    title: word::RULE_LINING_MATCH,
    units: &[],
    limits: word::LIMIT_LINING_MATCH,
    figures: &[],
    sources: &[&source::EDGE_CODE_ALIKE, &source::EDGE_CODE],
};

/// Judges whether the linings of both ends of an axle are alike, and says what their codes mean.
///
/// Units: none. Errors: none; an edge that can't be read is no reading.
/// Source: [`source::EDGE_CODE_ALIKE`].
pub fn judge_match(left: Option<&Edge>, right: Option<&Edge>) -> Judgement {
    let by_eye = |verdict| Judgement::by_eye(RULE.id, verdict, &source::EDGE_CODE_ALIKE);
    let (Some(left), Some(right)) = (left, right) else {
        return by_eye(Verdict::NoReading)
            .remarking(Remark::plain(word::LINING_REMARK_CODE_UNKNOWN));
    };
    let makes_known = !left.make.is_empty() && !right.make.is_empty();
    let (verdict, says) = if left.code != right.code {
        (Verdict::Replace, Some(word::LINING_REMARK_CODES_DIFFER))
    } else if makes_known && left.make != right.make {
        (Verdict::Replace, Some(word::LINING_REMARK_MAKES_DIFFER))
    } else if makes_known {
        (Verdict::Sound, None)
    } else {
        (Verdict::Sound, Some(word::LINING_REMARK_MAKE_UNKNOWN))
    };
    let mut judged = by_eye(verdict);
    judged.remarks.extend(says.map(Remark::plain));
    judged.remarks.extend(left.code.told());
    if left.code != right.code {
        judged.remarks.extend(right.code.told());
    }
    judged
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::cases;

    #[test]
    fn table() {
        for row in cases(include_str!("matched.tsv")) {
            let edge = |name| Edge::read(row.text(name)).ok();
            let (left, right) = (edge("left"), edge("right"));
            for (left, right) in [(&left, &right), (&right, &left)] {
                let judged = judge_match(left.as_ref(), right.as_ref());
                assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
                let said = judged.remarks.first().map_or("-", |said| said.word.key());
                assert!(said.ends_with(row.text("says")), "{row}: {said}");
                let told = judged.remarks.iter();
                let told = told.filter(|said| said.word.key().starts_with("lining.code."));
                assert_eq!(told.count().to_string(), row.text("letters told"), "{row}");
                assert_eq!(judged.source, &source::EDGE_CODE_ALIKE);
            }
        }
    }
}
