//! How far a lining may stand off the table of its shoe: rust under it lifts it.

use crate::quantity::{Length, Quantity};
use crate::rules::{self, Figure, Rule};
use crate::source;
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Verdict};
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("lining.gap"),
    title: word::RULE_LINING_GAP,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_LINING_GAP,
    figures: FIGURES,
    sources: &[&source::LINING_GAP],
};

const EDGES: &str = "ends and sides";
const BETWEEN_WEBS: &str = "between the webs";

const FIGURES: &[Figure] = &[
    Figure {
        name: EDGES,
        limit: Limit::at_most(thousandths(10), &source::LINING_GAP),
    },
    Figure {
        name: BETWEEN_WEBS,
        limit: Limit::at_most(thousandths(25), &source::LINING_GAP),
    },
];

const fn thousandths(n: i64) -> Quantity {
    Quantity::Length(Length::from_inch_thousandths(n))
}

/// Where the feeler went in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Where {
    /// At an end or along a side.
    Edges,
    /// At an end, between the webs of the shoe.
    BetweenWebs,
}

/// Judges the gap between lining and shoe table.
///
/// Units: any length. Room is limit minus gap. Errors: none. Source: [`source::LINING_GAP`].
pub fn judge_gap(gap: Length, at: Where) -> Judgement {
    judge_gap_by(FIGURES, gap, at)
}

fn judge_gap_by(figures: &[Figure], gap: Length, at: Where) -> Judgement {
    let name = match at {
        Where::Edges => EDGES,
        Where::BetweenWebs => BETWEEN_WEBS,
    };
    let own: Vec<Limit> = rules::named(figures, name).into_iter().collect();
    let judged = Judgement::of(RULE.id, gap.into(), &own, &source::LINING_GAP);
    if judged.verdict == Verdict::Beyond {
        return judged.remarking(Remark::plain(word::LINING_REMARK_RUST_JACKED));
    }
    judged
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases, told};
    use crate::nudge::Outcome;

    fn given(row: &Row<'_>) -> (Length, Where) {
        let at = if row.text("at") == "edges" {
            Where::Edges
        } else {
            Where::BetweenWebs
        };
        (row.quantity("gap").and_then(Quantity::length).unwrap(), at)
    }

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let outcome = |row: Row<'_>| {
            let (gap, at) = given(&row);
            (
                format!("{row}{}", told(&judge_gap_by(figures, gap, at))),
                row.told(),
            )
        };
        cases(include_str!("gap.tsv"))
            .into_iter()
            .map(outcome)
            .collect()
    }

    #[test]
    fn table() {
        for row in cases(include_str!("gap.tsv")) {
            let (gap, at) = given(&row);
            assert_eq!(judge_gap(gap, at).verdict, row.verdict("verdict"), "{row}");
        }
    }

    proptest! {
        #[test]
        fn a_wider_gap_is_never_kinder(a in 0_i64..50, b in 0_i64..50, webs: bool) {
            let at = if webs { Where::BetweenWebs } else { Where::Edges };
            let severity = |n| judge_gap(Length::from_inch_thousandths(n), at).verdict.severity();
            prop_assert!(severity(a.min(b)) <= severity(a.max(b)));
        }
    }
}
