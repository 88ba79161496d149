//! How far out of round a drum may be: the spread of the diameters at one depth.
//!
//! Four places at least, an eighth of a turn apart, at the front and at the back. Fewer prove a
//! drum out of round, and never a round one. Other vehicles have other figures: shown, not counted.

use crate::quantity::{Length, Quantity};
use crate::rules::{self, Figure, Rule};
use crate::source::{self, Source};
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Verdict};
use crate::word::{self, Remark};

/// Fewest places at one depth.
pub const PLACES_MIN: usize = 4;

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("drum.round"),
    title: word::RULE_DRUM_ROUND,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_DRUM_ROUND,
    figures: FIGURES,
    sources: &[
        &source::DRUM_SEMITRAILER,
        &source::DRUM_TEN_TON,
        &source::DRUM_HYDRAULIC,
        &source::DRUM_SMALL_TRAILER,
    ],
};

const OWN: &str = "S-cam air drum";

const FIGURES: &[Figure] = &[
    most(OWN, 15, &source::DRUM_SEMITRAILER),
    most("ten-ton truck", 3, &source::DRUM_TEN_TON),
    most("hydraulic brake", 10, &source::DRUM_HYDRAULIC),
    most("small trailer", 4, &source::DRUM_SMALL_TRAILER),
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

/// Judges the spread of the diameters at one depth.
///
/// Units: any length; subtracted exactly. Room is limit minus spread.
/// Errors: none. With fewer than four places only `beyond` stands.
/// Source: [`source::DRUM_SEMITRAILER`].
pub fn judge_round(at_one_depth: &[Length]) -> Judgement {
    judge_round_by(FIGURES, at_one_depth)
}

fn judge_round_by(figures: &[Figure], at_one_depth: &[Length]) -> Judgement {
    let widest = at_one_depth.iter().max();
    let narrowest = at_one_depth.iter().min();
    let spread = widest
        .zip(narrowest)
        .and_then(|(widest, narrowest)| widest.checked_sub(*narrowest));
    let few = Remark::plain(word::DRUM_REMARK_FEW_PLACES);
    let Some(spread) = spread else {
        return Judgement::without_reading(RULE.id, &source::DRUM_SEMITRAILER).remarking(few);
    };
    let own: Vec<Limit> = rules::named(figures, OWN).into_iter().collect();
    let mut judged = Judgement::of(RULE.id, spread.into(), &own, &source::DRUM_SEMITRAILER);
    for other in figures.iter().filter(|figure| figure.name != OWN) {
        judged = judged.other_says(other.limit);
    }
    if at_one_depth.len() < PLACES_MIN {
        judged = judged.remarking(few);
        if judged.verdict != Verdict::Beyond {
            return judged.proving_nothing();
        }
    }
    judged
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases, told};
    use crate::drum::diameter::tests::lengths;
    use crate::nudge::Outcome;

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let outcome = |row: Row<'_>| {
            let judged = judge_round_by(figures, &lengths(&row, "diameters"));
            (format!("{row}{}", told(&judged)), row.told())
        };
        cases(include_str!("round.tsv"))
            .into_iter()
            .map(outcome)
            .collect()
    }

    #[test]
    fn table() {
        for row in cases(include_str!("round.tsv")) {
            let judged = judge_round(&lengths(&row, "diameters"));
            assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
        }
    }

    proptest! {
        #[test]
        fn a_wider_spread_or_a_place_more_is_never_kinder(places in prop::collection::vec(16_500_i64..16_540, 4..9), more in 0_i64..40) {
            let inches = |n: &i64| Length::from_inch_thousandths(*n);
            let mut measured: Vec<Length> = places.iter().map(inches).collect();
            let before = judge_round(&measured).verdict.severity();
            measured.push(inches(&(16_500 + more)));
            prop_assert!(before <= judge_round(&measured).verdict.severity());
        }
    }
}
