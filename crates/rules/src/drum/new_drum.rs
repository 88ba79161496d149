//! Whether a new drum is the right one, and what to mind with it.
//!
//! Size and width against the old one, and its number noted. How heavy it is comes from weak
//! sources: a caution, never a verdict.

use crate::quantity::{Mass, Quantity};
use crate::rules::{self, Figure, Rule};
use crate::source;
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Verdict};
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("drum.new"),
    title: word::RULE_DRUM_NEW,
    units: &[Unit::Pound, Unit::Kilogram],
    limits: word::LIMIT_DRUM_NEW,
    figures: FIGURES,
    sources: &[
        &source::COMMON_PRACTICE,
        &source::DRUM_COATING,
        &source::DRUM_WEIGHT,
    ],
};

const LIGHTEST: &str = "lightest seen";
const HEAVIEST: &str = "heaviest quoted";

const FIGURES: &[Figure] = &[
    Figure {
        name: LIGHTEST,
        limit: Limit::at_least(
            Quantity::Mass(Mass::from_lb_tenths(995)),
            &source::DRUM_WEIGHT,
        ),
    },
    Figure {
        name: HEAVIEST,
        limit: Limit::at_most(Quantity::Mass(Mass::from_lb(160)), &source::DRUM_WEIGHT),
    },
];

/// What a comparison with the old drum came to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Against {
    /// The same.
    Agrees,
    /// Another.
    Differs,
    /// Nobody compared.
    NotCompared,
}

/// What is known of a new drum.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct New {
    /// Its diameter against the old one's.
    pub diameter: Against,
    /// Its width and depth against the old one's.
    pub width: Against,
    /// Whether the number on it was noted.
    pub numbered: bool,
}

/// Judges whether a new drum is the right one.
///
/// Units: none. Errors: none; what nobody compared is no reading. Source: [`source::COMMON_PRACTICE`].
pub fn judge_new(new: New) -> Judgement {
    judge_new_by(FIGURES, new)
}

fn judge_new_by(figures: &[Figure], new: New) -> Judgement {
    let compared = [new.diameter, new.width];
    let verdict = if compared.contains(&Against::Differs) {
        Verdict::Replace
    } else if compared.contains(&Against::NotCompared) {
        Verdict::NoReading
    } else {
        Verdict::Sound
    };
    let mut judged = Judgement::by_eye(RULE.id, verdict, &source::COMMON_PRACTICE);
    if !new.numbered {
        judged = judged.remarking(Remark::plain(word::DRUM_REMARK_NOTE_NUMBER));
    }
    if verdict != Verdict::Replace {
        judged = judged.remarking(Remark::plain(word::DRUM_REMARK_WASH));
    }
    judged.remarks.extend(weight(figures));
    judged
}

/// How heavy such a drum is, for the caution on the step.
fn weight(figures: &[Figure]) -> Option<Remark> {
    let named = |name| rules::named(figures, name).map(|limit| limit.figure);
    Some(Remark::with(
        word::DRUM_REMARK_WEIGHT,
        [
            ("lightest", Argument::Quantity(named(LIGHTEST)?)),
            ("heaviest", Argument::Quantity(named(HEAVIEST)?)),
        ],
    ))
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::cases::cases;
    use crate::nudge::Outcome;

    fn against(text: &str) -> Against {
        match text {
            "agrees" => Against::Agrees,
            "differs" => Against::Differs,
            _ => Against::NotCompared,
        }
    }

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let mut outcomes = Vec::new();
        for row in cases(include_str!("new_drum.tsv")) {
            let judged = judge_new_by(
                figures,
                New {
                    diameter: against(row.text("diameter")),
                    width: against(row.text("width")),
                    numbered: row.text("number") == "noted",
                },
            );
            let said: Vec<&str> = judged.remarks.iter().map(|said| said.word.key()).collect();
            let said: Vec<&str> = said
                .into_iter()
                .map(|key| key.trim_start_matches("drum.remark."))
                .collect();
            let weights = judged.remarks.last().map(|said| said.arguments.clone());
            let expected = ["lightest", "heaviest"].map(|name| {
                let weight = row.quantity(name).unwrap();
                (name, Argument::Quantity(weight))
            });
            outcomes.push((
                format!("{row}{} {said:?} {weights:?}", judged.verdict.code()),
                format!(
                    "{row}{} {:?} {:?}",
                    row.text("verdict"),
                    row.list("says"),
                    Some(expected.to_vec())
                ),
            ));
        }
        outcomes
    }

    #[test]
    fn table() {
        for (got, expected) in outcomes(FIGURES) {
            assert_eq!(got, expected);
        }
    }
}
