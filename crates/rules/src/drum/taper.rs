//! How much wider a drum may be at one edge than at the other.
//!
//! Held from front to back at the same place around the drum, the worst place counts. The direction
//! doesn't matter here; a drum that opens towards its edge is a matter of [`crate::drum::bell_mouth`].

use crate::quantity::{Length, Quantity};
use crate::rules::{self, Figure, Rule};
use crate::source;
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId};
use crate::word;

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("drum.taper"),
    title: word::RULE_DRUM_TAPER,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_DRUM_TAPER,
    figures: FIGURES,
    sources: &[&source::DRUM_SEMITRAILER],
};

const OWN: &str = "S-cam air drum";

const FIGURES: &[Figure] = &[Figure {
    name: OWN,
    limit: Limit::at_most(
        Quantity::Length(Length::from_inch_thousandths(10)),
        &source::DRUM_SEMITRAILER,
    ),
}];

/// A diameter at the front and one at the back, at the same place around the drum.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pair {
    /// At the open edge.
    pub front: Length,
    /// At the closed one.
    pub back: Length,
}

/// Judges the taper of a drum by the place where it is largest.
///
/// Units: any length; subtracted exactly. Room is limit minus taper.
/// Errors: none. Without a place there is no reading. Source: [`source::DRUM_SEMITRAILER`].
pub fn judge_taper(places: &[Pair]) -> Judgement {
    judge_taper_by(FIGURES, places)
}

fn judge_taper_by(figures: &[Figure], places: &[Pair]) -> Judgement {
    let taper = places
        .iter()
        .filter_map(|place| Some(place.front.checked_sub(place.back)?.magnitude()))
        .max();
    let Some(taper) = taper else {
        return Judgement::without_reading(RULE.id, &source::DRUM_SEMITRAILER);
    };
    let own: Vec<Limit> = rules::named(figures, OWN).into_iter().collect();
    Judgement::of(RULE.id, taper.into(), &own, &source::DRUM_SEMITRAILER)
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases, told};
    use crate::drum::diameter::tests::lengths;
    use crate::nudge::Outcome;

    pub(crate) fn pairs(row: &Row<'_>) -> Vec<Pair> {
        let (front, back) = (lengths(row, "front"), lengths(row, "back"));
        let pair = |(front, back)| Pair { front, back };
        front.into_iter().zip(back).map(pair).collect()
    }

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let outcome = |row: Row<'_>| {
            let judged = judge_taper_by(figures, &pairs(&row));
            (format!("{row}{}", told(&judged)), row.told())
        };
        cases(include_str!("taper.tsv"))
            .into_iter()
            .map(outcome)
            .collect()
    }

    #[test]
    fn table() {
        for row in cases(include_str!("taper.tsv")) {
            let judged = judge_taper(&pairs(&row));
            assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
        }
    }

    proptest! {
        #[test]
        fn more_taper_is_never_kinder(a in 0_i64..30, b in 0_i64..30, opens: bool) {
            let at = |n| Length::from_inch_thousandths(16_500 + n);
            let severity = |n| {
                let place = if opens { Pair { front: at(n), back: at(0) } } else { Pair { front: at(0), back: at(n) } };
                judge_taper(&[place]).verdict.severity()
            };
            prop_assert!(severity(a.min(b)) <= severity(a.max(b)));
        }
    }
}
