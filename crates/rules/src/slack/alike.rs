//! Whether both ends of an axle are alike: chamber size, stroke class, arm, mechanism.
//!
//! Size and arm are law on every axle; the class is the makers' word; for the mechanism no rule was
//! found, so it is a remark.

use crate::quantity::Length;
use crate::rules::Rule;
use crate::slack::chamber::{Chamber, StrokeClass};
use crate::slack::mechanism::Mechanism;
use crate::source::{self, Source};
use crate::unit::Unit;
use crate::verdict::{Judgement, RuleId, Verdict};
use crate::word::{self, Remark, Word};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("slack.match"),
    title: word::RULE_SLACK_MATCH,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_SLACK_MATCH,
    figures: &[],
    sources: &[
        &source::CHAMBERS_ALIKE,
        &source::ARMS_ALIKE,
        &source::CLASSES_ALIKE,
        &source::PERIODIC_INSPECTION,
    ],
};

/// One end of an axle, as far as it is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct End {
    /// Its chamber.
    pub chamber: Option<Chamber>,
    /// Its arm, from the camshaft's centre to the clevis pin's.
    pub arm: Option<Length>,
    /// Its adjuster.
    pub mechanism: Mechanism,
}

/// Where the axle stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Axle {
    /// The steer axle of a truck, tractor or bus.
    PowerUnitSteer,
    /// Any other.
    Other,
}

/// Judges whether both ends of an axle are alike.
///
/// Units: any length for the arms, compared exactly. Errors: none; what isn't known is no reading.
/// Source: [`source::CHAMBERS_ALIKE`], [`source::ARMS_ALIKE`], [`source::CLASSES_ALIKE`].
pub fn judge_alike(left: &End, right: &End, axle: Axle) -> Judgement {
    let found = [
        (
            chambers(left.chamber, right.chamber),
            &source::CHAMBERS_ALIKE,
        ),
        (classes(left.chamber, right.chamber), &source::CLASSES_ALIKE),
        (arms(left.arm, right.arm), &source::ARMS_ALIKE),
    ];
    let worst = found
        .iter()
        .map(|((verdict, _), _)| *verdict)
        .fold(Verdict::Sound, Verdict::worse);
    let source: &'static Source = found
        .iter()
        .find(|((verdict, _), _)| *verdict == worst)
        .map_or(&source::CHAMBERS_ALIKE, |(_, source)| *source);
    let mut judged = Judgement::by_eye(RULE.id, worst, source);
    let said = |word: Word| Remark::plain(word);
    judged
        .remarks
        .extend(found.iter().filter_map(|((_, word), _)| word.map(said)));
    judged.remarks.dedup();
    let size_or_arm = [found[0].0.0, found[2].0.0].contains(&Verdict::Replace);
    if size_or_arm && axle == Axle::PowerUnitSteer {
        judged = judged.remarking(said(word::SLACK_REMARK_MATCH_STEER));
    }
    let known = left.mechanism != Mechanism::Unknown && right.mechanism != Mechanism::Unknown;
    if known && left.mechanism != right.mechanism {
        judged = judged.remarking(said(word::SLACK_REMARK_MATCH_MECHANISM));
    }
    if judged.remarks.is_empty() {
        judged = judged.remarking(said(word::SLACK_REMARK_MATCH_ALIKE));
    }
    judged
}

type Found = (Verdict, Option<Word>);

const UNKNOWN: Found = (Verdict::NoReading, Some(word::SLACK_REMARK_MATCH_UNKNOWN));
const ALIKE: Found = (Verdict::Sound, None);

fn chambers(left: Option<Chamber>, right: Option<Chamber>) -> Found {
    let (Some(left), Some(right)) = (left, right) else {
        return UNKNOWN;
    };
    let alike = match (left, right) {
        (Chamber::Listed { of: left, .. }, Chamber::Listed { of: right, .. }) => left == right,
        (Chamber::Unlisted { .. }, Chamber::Unlisted { .. }) => left == right,
        _ => false,
    };
    if alike {
        ALIKE
    } else {
        (Verdict::Replace, Some(word::SLACK_REMARK_MATCH_CHAMBER))
    }
}

fn classes(left: Option<Chamber>, right: Option<Chamber>) -> Found {
    let (Some(left), Some(right)) = (left.map(class), right.map(class)) else {
        return UNKNOWN;
    };
    if left == StrokeClass::Unknown || right == StrokeClass::Unknown {
        return (
            Verdict::NoReading,
            Some(word::SLACK_REMARK_MATCH_CLASS_UNKNOWN),
        );
    }
    if left == right {
        ALIKE
    } else {
        (Verdict::Replace, Some(word::SLACK_REMARK_MATCH_CLASS))
    }
}

/// An unlisted chamber has no class of its own: its size already says everything.
const fn class(chamber: Chamber) -> StrokeClass {
    match chamber {
        Chamber::Listed { class, .. } => class,
        Chamber::Unlisted { .. } => StrokeClass::Standard,
    }
}

fn arms(left: Option<Length>, right: Option<Length>) -> Found {
    let (Some(left), Some(right)) = (left, right) else {
        return UNKNOWN;
    };
    if left == right {
        ALIKE
    } else {
        (Verdict::Replace, Some(word::SLACK_REMARK_MATCH_ARM))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::cases;
    use crate::slack::chamber::Family;

    /// "clamp 30 long / 5 1/2 in / clutch", "-" for what isn't known.
    fn end(text: &str) -> End {
        let parts: Vec<&str> = text.split(" / ").collect();
        let chamber: Vec<&str> = parts[0].split(' ').collect();
        let length = |text: &str| {
            let typed = crate::cases::typed(text)?;
            typed.quantity().length()
        };
        let rated = format!("{} in", chamber.last().unwrap());
        End {
            chamber: match chamber[..] {
                ["-"] => None,
                ["unlisted", _] => Some(Chamber::Unlisted {
                    rated: length(&rated),
                    marked: None,
                }),
                [family, name, class] => Chamber::listed(
                    Family::from_code(family).unwrap(),
                    name,
                    StrokeClass::from_code(class).unwrap(),
                ),
                _ => panic!("no chamber {text}"),
            },
            arm: length(parts[1]),
            mechanism: Mechanism::from_code(parts[2]).unwrap(),
        }
    }

    #[test]
    fn table() {
        for row in cases(include_str!("alike.tsv")) {
            let axle = if row.text("axle") == "steer" {
                Axle::PowerUnitSteer
            } else {
                Axle::Other
            };
            for (left, right) in [("left", "right"), ("right", "left")] {
                let judged = judge_alike(&end(row.text(left)), &end(row.text(right)), axle);
                assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
                let said: Vec<&str> = judged
                    .remarks
                    .iter()
                    .map(|said| said.word.key().trim_start_matches("slack.remark.match-"))
                    .collect();
                assert_eq!(said, row.list("says"), "{row}");
                assert_eq!(judged.source.clause, row.text("clause"), "{row}");
            }
        }
    }
}
