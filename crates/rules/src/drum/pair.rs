//! Both drums of an axle are treated alike: what one gets, the other gets.
//!
//! A result of its own, beside what each drum comes to by itself. How far the diameters of one axle
//! may differ is published nowhere that was read, so that is said and never judged.

use crate::rules::Rule;
use crate::source;
use crate::verdict::{Judgement, RuleId, Verdict};
use crate::word::{self, Remark, Word};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("drum.pair"),
    title: word::RULE_DRUM_PAIR,
    units: &[],
    limits: word::LIMIT_DRUM_PAIR,
    figures: &[],
    sources: &[&source::DRUM_PAIR, &source::DRUM_MAKER],
};

/// What becomes of the drum at one end of an axle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum End {
    /// It goes back as it is.
    Stays,
    /// It was turned and goes back.
    Turned,
    /// It can't stay, and isn't renewed yet.
    Goes,
    /// A new one goes on.
    Renewed,
    /// Nobody has said yet.
    Unknown,
}

/// Judges whether both drums of an axle are treated alike.
///
/// Units: none. Errors: none; an end that nobody has judged is no reading.
/// Source: [`source::DRUM_PAIR`].
pub fn judge_pair(left: End, right: End) -> Judgement {
    let (verdict, says): (Verdict, Option<Word>) = match (left, right) {
        (End::Goes, _) | (_, End::Goes) => (Verdict::Replace, Some(word::DRUM_REMARK_BOTH_GO)),
        (End::Unknown, _) | (_, End::Unknown) => {
            (Verdict::NoReading, Some(word::DRUM_REMARK_OTHER_END))
        }
        (End::Stays, End::Stays) => (Verdict::Sound, Some(word::DRUM_REMARK_NO_FIGURE_ACROSS)),
        (End::Turned, End::Turned) | (End::Renewed, End::Renewed) => (Verdict::Sound, None),
        (End::Renewed, _) | (_, End::Renewed) => {
            (Verdict::Replace, Some(word::DRUM_REMARK_BOTH_GO))
        }
        (End::Turned, End::Stays) | (End::Stays, End::Turned) => {
            (Verdict::Replace, Some(word::DRUM_REMARK_TURN_BOTH))
        }
    };
    let mut judged = Judgement::by_eye(RULE.id, verdict, &source::DRUM_PAIR);
    judged.remarks.extend(says.map(Remark::plain));
    judged
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::cases;

    fn end(text: &str) -> End {
        match text {
            "stays" => End::Stays,
            "turned" => End::Turned,
            "goes" => End::Goes,
            "renewed" => End::Renewed,
            "unknown" => End::Unknown,
            other => panic!("{other}"),
        }
    }

    #[test]
    fn table() {
        for row in cases(include_str!("pair.tsv")) {
            let (left, right) = (end(row.text("left")), end(row.text("right")));
            for judged in [judge_pair(left, right), judge_pair(right, left)] {
                assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
                let said = judged.remarks.first().map_or("-", |said| said.word.key());
                assert!(said.ends_with(row.text("says")), "{row}");
                assert_eq!(judged.source, &source::DRUM_PAIR);
            }
        }
    }
}
