//! How much lining has to stand over the heads of its rivets or bolts.
//!
//! Sources disagree on it for the same kind of brake: all of them are held, the stricter decides.

use crate::jurisdiction::Jurisdiction;
use crate::quantity::{Length, Quantity};
use crate::rules::{Figure, Rule};
use crate::source::{self, Source};
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId};
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("lining.rivets"),
    title: word::RULE_LINING_RIVETS,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_LINING_RIVETS,
    figures: FIGURES,
    sources: &[
        &source::RIVETS_TRUCK,
        &source::RIVETS_TRAILER,
        &source::LINING_IN_USE,
        &source::LINING_QUEBEC,
    ],
};

const TRUCK: &str = "truck";
const TRAILER: &str = "trailer";
const QUEBEC: &str = "Quebec";

const FIGURES: &[Figure] = &[
    least(TRUCK, Length::from_inch_64ths(4), &source::RIVETS_TRUCK),
    least(TRAILER, Length::from_inch_64ths(2), &source::RIVETS_TRAILER),
    least(
        "in use, any vehicle",
        Length::from_mm_hundredths(80),
        &source::LINING_IN_USE,
    ),
    least(
        QUEBEC,
        Length::from_mm_hundredths(100),
        &source::LINING_QUEBEC,
    ),
];

const fn least(name: &'static str, figure: Length, source: &'static Source) -> Figure {
    Figure {
        name,
        limit: Limit::at_least(Quantity::Length(figure), source),
    }
}

/// Judges how much lining stands over the heads that hold it.
///
/// Units: any length; compared exactly. Room is cover minus limit. Errors: none.
/// Source: [`source::RIVETS_TRUCK`], [`source::RIVETS_TRAILER`]; in Quebec its own as well.
pub fn judge_rivets(cover: Length, jurisdiction: Jurisdiction) -> Judgement {
    judge_rivets_by(FIGURES, cover, jurisdiction)
}

fn judge_rivets_by(figures: &[Figure], cover: Length, jurisdiction: Jurisdiction) -> Judgement {
    let in_quebec = jurisdiction == Jurisdiction::Quebec;
    let applies = |name| name == TRUCK || name == TRAILER || (in_quebec && name == QUEBEC);
    let (own, others): (Vec<&Figure>, Vec<&Figure>) =
        figures.iter().partition(|figure| applies(figure.name));
    let own: Vec<Limit> = own.iter().map(|figure| figure.limit).collect();
    let mut judged = Judgement::of(RULE.id, cover.into(), &own, &source::RIVETS_TRUCK);
    for other in others {
        judged = judged.other_says(other.limit);
    }
    if in_quebec {
        judged = judged.remarking(Remark::plain(word::LINING_REMARK_QUEBEC_OR));
    }
    judged
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases, told};
    use crate::nudge::Outcome;

    fn given(row: &Row<'_>) -> (Length, Jurisdiction) {
        let cover = row.quantity("cover").and_then(Quantity::length);
        let place = Jurisdiction::from_code(row.text("where"));
        (cover.unwrap(), place.unwrap())
    }

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let outcome = |row: Row<'_>| {
            let (cover, place) = given(&row);
            let judged = judge_rivets_by(figures, cover, place);
            (format!("{row}{}", told(&judged)), row.told())
        };
        cases(include_str!("rivets.tsv"))
            .into_iter()
            .map(outcome)
            .collect()
    }

    #[test]
    fn table() {
        for row in cases(include_str!("rivets.tsv")) {
            let (cover, place) = given(&row);
            let judged = judge_rivets(cover, place);
            assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
        }
    }

    proptest! {
        #[test]
        fn less_over_the_heads_is_never_kinder(a in 0_i64..300, b in 0_i64..300, quebec: bool) {
            let place = if quebec { Jurisdiction::Quebec } else { Jurisdiction::UnitedStates };
            let severity = |n| judge_rivets(Length::from_mm_hundredths(n), place).verdict.severity();
            prop_assert!(severity(a.max(b)) <= severity(a.min(b)));
        }
    }
}
