//! Whether a tyre on a multi-piece rim was driven so soft that it has to be emptied before a nut is loosened.

use crate::quantity::{Pressure, Quantity, Ratio};
use crate::rules::{self, Figure, Rule};
use crate::source;
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Verdict};
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("rim.pressure"),
    title: word::RULE_RIM_PRESSURE,
    units: &[Unit::Psi, Unit::Kilopascal, Unit::Bar],
    limits: word::LIMIT_RIM_PRESSURE,
    figures: FIGURES,
    sources: &[&source::MULTI_PIECE_RIM],
};

const PART: &str = "part of what it should have";

/// Up to and with this part of its pressure a tyre is emptied first.
const FIGURES: &[Figure] = &[Figure {
    name: PART,
    limit: Limit::at_least(
        Quantity::Ratio(Ratio::from_percent(80)),
        &source::MULTI_PIECE_RIM,
    ),
}];

/// Judges the pressure that a tyre on a multi-piece rim was found with.
///
/// Units: any pressure; compared exactly, the limit rounded up to a whole base unit. Room is reading
/// minus limit. The limit itself is `beyond`: the rule says "80 percent or less".
/// Errors: none.
/// Source: [`source::MULTI_PIECE_RIM`].
pub fn judge_pressure(found: Pressure, should_be: Pressure) -> Judgement {
    judge_pressure_by(FIGURES, found, should_be)
}

fn judge_pressure_by(figures: &[Figure], found: Pressure, should_be: Pressure) -> Judgement {
    let part = rules::named(figures, PART).map(|limit| limit.deciding().base());
    let least = part.and_then(|part| {
        let whole = Ratio::from_percent(100).base();
        let least = should_be.base().checked_mul(part)?.checked_add(whole - 1)? / whole;
        Pressure::from_base(least)
    });
    let limits: Vec<Limit> = least
        .map(|least| Limit::at_least(least.into(), &source::MULTI_PIECE_RIM))
        .into_iter()
        .collect();
    let mut judged = Judgement::of(RULE.id, found.into(), &limits, &source::MULTI_PIECE_RIM);
    if judged.verdict == Verdict::AtTheLimit {
        judged.verdict = Verdict::Beyond;
    }
    if judged.verdict == Verdict::Beyond {
        judged = judged.remarking(Remark::plain(word::RIM_REMARK_EMPTY_FIRST));
    }
    judged
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases};
    use crate::nudge::Outcome;

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let outcome = |row: Row<'_>| {
            let pressure = |name| row.quantity(name).unwrap().pressure().unwrap();
            let judged = judge_pressure_by(figures, pressure("found"), pressure("should be"));
            let said = judged.remarks.len();
            (
                format!("{row}: {} {said}", judged.verdict.code()),
                format!("{row}: {} {}", row.text("verdict"), row.text("remarks")),
            )
        };
        cases(include_str!("rim.tsv"))
            .into_iter()
            .map(outcome)
            .collect()
    }

    #[test]
    fn table() {
        for (got, expected) in outcomes(FIGURES) {
            assert_eq!(got, expected);
        }
    }

    #[test]
    fn the_limit_is_never_rounded_down() {
        // Four fifths of seven base units are five and three fifths: six is the least.
        let judged = |found| {
            let base = |n| Pressure::from_base(n).unwrap();
            judge_pressure(base(found), base(7))
        };
        assert_eq!(judged(6).verdict, Verdict::Beyond);
        assert_eq!(judged(7).verdict, Verdict::Within);
    }

    #[test]
    fn a_whole_limit_is_not_rounded_up() {
        let base = |n| Pressure::from_base(n).unwrap();
        let judged = |found| judge_pressure(base(found), base(10)).verdict;
        assert_eq!([8, 9].map(judged), [Verdict::Beyond, Verdict::Within]);
    }

    proptest! {
        #[test]
        fn less_pressure_is_never_kinder(a in 0_i64..1000, b in 0_i64..1000, should_be in 1_i64..1000) {
            let severity = |kpa| {
                judge_pressure(Pressure::from_kpa(kpa), Pressure::from_kpa(should_be))
                    .verdict
                    .severity()
            };
            prop_assert!(severity(a.max(b)) <= severity(a.min(b)));
        }
    }
}
