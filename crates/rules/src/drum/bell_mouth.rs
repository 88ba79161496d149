//! How far a drum may open towards its edge.
//!
//! A figure is printed for 15 in brakes; for any other there is advice and no verdict. Measured from
//! two diameters: twice what an indicator run along one side would show, and so never kinder.

use crate::drum::marks::{self, Marks};
use crate::drum::taper::Pair;
use crate::quantity::{Length, Quantity};
use crate::rules::{Figure, Rule};
use crate::source::{self, Source};
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId};
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("drum.bell-mouth"),
    title: word::RULE_DRUM_BELL_MOUTH,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_DRUM_BELL_MOUTH,
    figures: FIGURES,
    sources: &[&source::DRUM_FIFTEEN, &source::DRUM_DUMP_TRUCK],
};

const FIFTEEN: &str = "15 in drum";

const FIGURES: &[Figure] = &[
    most(FIFTEEN, 25, &source::DRUM_FIFTEEN),
    most("dump truck", 5, &source::DRUM_DUMP_TRUCK),
];

const fn most(name: &'static str, thousandths: i64, source: &'static Source) -> Figure {
    Figure {
        name,
        limit: Limit::at_most(
            Quantity::Length(Length::from_inch_thousandths(thousandths)),
            source,
        ),
    }
}

/// Judges by how much the open edge of a drum is wider than the closed one, at the worst place.
///
/// Units: any length; subtracted exactly. Room is limit minus opening.
/// Errors: none. For a drum that isn't known to be of 15 in there is advice: no reading.
/// Source: [`source::DRUM_FIFTEEN`].
pub fn judge_bell_mouth(places: &[Pair], marks: Marks) -> Judgement {
    judge_bell_mouth_by(FIGURES, places, marks)
}

fn judge_bell_mouth_by(figures: &[Figure], places: &[Pair], marks: Marks) -> Judgement {
    let opens = places
        .iter()
        .filter_map(|place| place.front.checked_sub(place.back))
        .max();
    let Some(opens) = opens else {
        return Judgement::without_reading(RULE.id, &source::DRUM_FIFTEEN);
    };
    // A drum that narrows towards its edge is no bell.
    let opens = opens.max(Length::ZERO);
    let is_fifteen = marks.nominal == Some(marks::FIFTEEN);
    let (own, others): (Vec<&Figure>, Vec<&Figure>) = figures
        .iter()
        .partition(|figure| is_fifteen && figure.name == FIFTEEN);
    let own: Vec<Limit> = own.iter().map(|figure| figure.limit).collect();
    let mut judged = Judgement::of(RULE.id, opens.into(), &own, &source::DRUM_FIFTEEN);
    for other in others {
        judged = judged.other_says(other.limit);
    }
    if own.is_empty() {
        judged = judged.remarking(Remark::plain(word::DRUM_REMARK_OTHER_BRAKES));
    }
    judged
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases, told};
    use crate::drum::diameter::tests::marks;
    use crate::drum::taper::tests::pairs;
    use crate::nudge::Outcome;

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let outcome = |row: Row<'_>| {
            let judged = judge_bell_mouth_by(figures, &pairs(&row), marks(&row));
            (format!("{row}{}", told(&judged)), row.told())
        };
        cases(include_str!("bell_mouth.tsv"))
            .into_iter()
            .map(outcome)
            .collect()
    }

    #[test]
    fn table() {
        for row in cases(include_str!("bell_mouth.tsv")) {
            let judged = judge_bell_mouth(&pairs(&row), marks(&row));
            assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
        }
    }

    proptest! {
        #[test]
        fn a_wider_mouth_is_never_kinder(a in -10_i64..40, b in -10_i64..40, fifteen: bool) {
            let at = |n| Length::from_inch_thousandths(15_000 + n);
            let marks = Marks { cast_max: None, nominal: fifteen.then_some(at(0)) };
            let severity = |n| judge_bell_mouth(&[Pair { front: at(n), back: at(0) }], marks).verdict.severity();
            prop_assert!(severity(a.min(b)) <= severity(a.max(b)));
        }
    }
}
