//! Whether a drum may be turned: how wide it may be when it comes off the lathe.
//!
//! Sources disagree whether a drum is turned at all; that is said each time. This holds the size
//! alone, it recommends nothing.

use crate::drum::diameter::over_nominal;
use crate::drum::marks::{self, Marks};
use crate::quantity::{Length, Quantity};
use crate::rules::{self, Figure, Rule};
use crate::source;
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId};
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("drum.turn"),
    title: word::RULE_DRUM_TURN,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_DRUM_TURN,
    figures: FIGURES,
    sources: &[
        &source::DRUM_MAKER,
        &source::DRUM_NOT_TURNED,
        &source::DRUM_FIFTEEN,
        &source::DRUM_TEN_TON,
    ],
};

const OVER_NOMINAL: &str = "turned, over nominal";
const LEFT_FOR_WEAR: &str = "left for wear";
const TEN_TON: &str = "ten-ton truck";

const FIGURES: &[Figure] = &[
    Figure {
        name: OVER_NOMINAL,
        limit: Limit::at_most(inches(80), &source::DRUM_MAKER),
    },
    Figure {
        name: LEFT_FOR_WEAR,
        limit: Limit::at_least(inches(40), &source::DRUM_MAKER),
    },
    Figure {
        name: TEN_TON,
        limit: Limit::at_most(inches(16_590), &source::DRUM_TEN_TON),
    },
];

const fn inches(thousandths: i64) -> Quantity {
    Quantity::Length(Length::from_inch_thousandths(thousandths))
}

/// Judges whether a drum of these diameters is still inside its size for turning.
///
/// The same figure holds before and after: a drum that is already wider can't be turned, and one
/// that was turned may not be wider.
///
/// Units: any length; compared exactly. Room is limit minus the largest diameter.
/// Errors: none. Without a diameter or any mark of the drum there is no reading.
/// Source: [`source::DRUM_MAKER`].
pub fn judge_turn(diameters: &[Length], marks: Marks) -> Judgement {
    judge_turn_by(FIGURES, diameters, marks)
}

fn judge_turn_by(figures: &[Figure], diameters: &[Length], marks: Marks) -> Judgement {
    let Some(largest) = diameters.iter().max() else {
        return Judgement::without_reading(RULE.id, &source::DRUM_MAKER);
    };
    let by_nominal = over_nominal(rules::named(figures, OVER_NOMINAL), marks.nominal);
    let by_cast = rules::named(figures, LEFT_FOR_WEAR).and_then(|left| {
        let most = marks.cast_max?.checked_sub(left.figure.length()?)?;
        Some(Limit::at_most(most.into(), left.source))
    });
    let own: Vec<Limit> = by_nominal.into_iter().chain(by_cast).collect();
    let mut judged = Judgement::of(RULE.id, (*largest).into(), &own, &source::DRUM_MAKER);
    if marks.nominal == Some(marks::SIXTEEN_AND_A_HALF)
        && let Some(other) = rules::named(figures, TEN_TON)
    {
        judged = judged.other_says(other);
    }
    if own.is_empty() {
        judged = judged.remarking(Remark::plain(word::DRUM_REMARK_NO_MAXIMUM));
    }
    judged.remarking(Remark::plain(word::DRUM_REMARK_TURNING_DISPUTED))
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases, told};
    use crate::drum::diameter::tests::{lengths, marks};
    use crate::nudge::Outcome;

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let outcome = |row: Row<'_>| {
            let judged = judge_turn_by(figures, &lengths(&row, "diameters"), marks(&row));
            (format!("{row}{}", told(&judged)), row.told())
        };
        cases(include_str!("turn.tsv"))
            .into_iter()
            .map(outcome)
            .collect()
    }

    #[test]
    fn table() {
        for row in cases(include_str!("turn.tsv")) {
            let judged = judge_turn(&lengths(&row, "diameters"), marks(&row));
            assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
        }
    }

    proptest! {
        #[test]
        fn a_wider_drum_is_never_kinder(a in 16_400_i64..16_700, b in 16_400_i64..16_700, cast: bool) {
            let inches = Length::from_inch_thousandths;
            let marks = Marks { cast_max: cast.then_some(inches(16_620)), nominal: Some(inches(16_500)) };
            let severity = |n| judge_turn(&[inches(n)], marks).verdict.severity();
            prop_assert!(severity(a.min(b)) <= severity(a.max(b)));
        }
    }
}
