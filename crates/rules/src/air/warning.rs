//! At which falling pressure the low-air warning comes on.
//!
//! An inspection wants it at 55 psi or half the governor's cut-out, whichever is less; a vehicle
//! built under the air brake standard of March 1975 needs it from 60 psi down. Where nobody knows
//! when it was built, the later standard counts.

use crate::jurisdiction::Jurisdiction;
use crate::quantity::{Pressure, Quantity};
use crate::rules::{self, Figure, Rule};
use crate::source;
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId};
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("air.warning"),
    title: word::RULE_AIR_WARNING,
    units: &[Unit::Psi, Unit::Kilopascal, Unit::Bar],
    limits: word::LIMIT_AIR_WARNING,
    figures: FIGURES,
    sources: &[
        &source::LOW_AIR_INSPECTION,
        &source::LOW_AIR_BUILT,
        &source::QUEBEC_AIR,
    ],
};

const FIGURES: &[Figure] = &[
    Figure {
        name: INSPECTION,
        limit: Limit::at_least(psi(55), &source::LOW_AIR_INSPECTION).printed_beside(kpa(379)),
    },
    Figure {
        name: BUILT,
        limit: Limit::at_least(psi(60), &source::LOW_AIR_BUILT),
    },
    Figure {
        name: QUEBEC,
        limit: Limit::at_least(kpa(380), &source::QUEBEC_AIR),
    },
];

const INSPECTION: &str = "inspection";
const BUILT: &str = "built from March 1975";
const QUEBEC: &str = "quebec";

const fn psi(n: i64) -> Quantity {
    Quantity::Pressure(Pressure::from_psi(n))
}

const fn kpa(n: i64) -> Quantity {
    Quantity::Pressure(Pressure::from_kpa(n))
}

/// Whether a vehicle was built under the air brake standard.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Built {
    /// Before March 1975.
    Before,
    /// From then on.
    Under,
    /// Nobody knows: it counts as built under it.
    Unknown,
}

impl Built {
    /// Every one.
    pub const ALL: &[Self] = &[Self::Before, Self::Under, Self::Unknown];
}

/// Judges the pressure at which the warning first came on.
///
/// Units: any pressure; compared exactly. Room is reading minus limit. Half an odd cut-out is
/// rounded up by less than a millionth of a pascal.
/// Errors: none.
/// Source: [`source::LOW_AIR_INSPECTION`], [`source::LOW_AIR_BUILT`]; in Quebec also
/// [`source::QUEBEC_AIR`]. The strictest that applies governs.
pub fn judge_warning(
    came_on: Pressure,
    cut_out: Option<Pressure>,
    built: Built,
    jurisdiction: Jurisdiction,
) -> Judgement {
    judge_warning_by(FIGURES, came_on, cut_out, built, jurisdiction)
}

fn judge_warning_by(
    figures: &[Figure],
    came_on: Pressure,
    cut_out: Option<Pressure>,
    built: Built,
    jurisdiction: Jurisdiction,
) -> Judgement {
    let mut remarks = Vec::new();
    let mut inspection = rules::named(figures, INSPECTION);
    let half = cut_out.and_then(|cut_out| Pressure::from_base((cut_out.base() + 1) / 2));
    if let (Some(limit), Some(half)) = (inspection, half.map(Quantity::from)) {
        // Less than both figures of the printed pair: then half the cut-out is the limit.
        if [limit.figure, limit.deciding()]
            .iter()
            .all(|figure| half < *figure)
        {
            inspection = Some(Limit::at_least(half, limit.source));
            remarks.push(Remark::with(
                word::AIR_REMARK_HALF_CUT_OUT,
                [("half", Argument::Quantity(half))],
            ));
        }
    }
    let standard = match built {
        Built::Before => None,
        Built::Under => rules::named(figures, BUILT),
        Built::Unknown => {
            remarks.push(Remark::plain(word::AIR_REMARK_BUILT_UNKNOWN));
            rules::named(figures, BUILT)
        }
    };
    let quebec = match jurisdiction {
        Jurisdiction::Quebec => rules::named(figures, QUEBEC),
        Jurisdiction::UnitedStates | Jurisdiction::Ontario | Jurisdiction::Canada => None,
    };
    let limits: Vec<Limit> = [inspection, standard, quebec]
        .into_iter()
        .flatten()
        .collect();
    let mut judged = Judgement::of(
        RULE.id,
        came_on.into(),
        &limits,
        &source::LOW_AIR_INSPECTION,
    );
    judged.remarks.extend(remarks);
    if jurisdiction.borrows_us_figures() {
        judged = judged.remarking(Remark::plain(word::SLACK_REMARK_US_FIGURE));
    }
    judged
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases};
    use crate::nudge::Outcome;
    use crate::verdict::Verdict;

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let outcome = |row: Row<'_>| {
            let came_on = row.quantity("came on").unwrap();
            let cut_out = row
                .quantity("cut-out")
                .map(|cut_out| cut_out.pressure().unwrap());
            let built = match row.text("built") {
                "before" => Built::Before,
                "under" => Built::Under,
                _ => Built::Unknown,
            };
            let judged = judge_warning_by(
                figures,
                came_on.pressure().unwrap(),
                cut_out,
                built,
                Jurisdiction::from_code(row.text("where")).unwrap(),
            );
            // In the order in which they are listed; "~" in the gap of a pair.
            let mut each: Vec<(i128, String)> = judged
                .limits
                .iter()
                .map(|limit| {
                    let gap = if limit.in_the_gap(came_on) { "~" } else { "" };
                    let verdict = limit.judge(came_on).unwrap().code();
                    (limit.deciding().base(), format!("{verdict}{gap}"))
                })
                .collect();
            each.sort();
            let each: Vec<String> = each.into_iter().map(|(_, each)| each).collect();
            let said: Vec<&str> = judged
                .remarks
                .iter()
                .map(|said| said.word.key().rsplit('.').next().unwrap())
                .collect();
            let got = [
                judged.verdict.code().to_owned(),
                each.join(","),
                said.join(","),
            ];
            let expected = ["verdict", "each", "says"].map(|name| row.text(name));
            (
                format!("{row}: {}", got.join(" | ")),
                format!("{row}: {}", expected.join(" | ")).replace("| -", "| "),
            )
        };
        cases(include_str!("warning.tsv"))
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
    fn half_an_odd_cut_out_is_rounded_up() {
        let base = |n| Pressure::from_base(n).unwrap();
        let verdict = |came_on| {
            let cut_out = Some(base(7));
            judge_warning(
                base(came_on),
                cut_out,
                Built::Before,
                Jurisdiction::UnitedStates,
            )
            .verdict
        };
        assert_eq!(verdict(3), Verdict::Beyond);
        assert_eq!(verdict(4), Verdict::AtTheLimit);
    }

    proptest! {
        #[test]
        fn a_later_warning_is_never_kinder(a in 0_i64..900, b in 0_i64..900, cut_out in 500_i64..1000, built in 0..3_usize, place in 0..4_usize) {
            let severity = |kpa: i64| {
                let cut_out = Some(Pressure::from_kpa(cut_out));
                judge_warning(Pressure::from_kpa(kpa), cut_out, Built::ALL[built], Jurisdiction::ALL[place])
                    .verdict
                    .severity()
            };
            prop_assert!(severity(a.max(b)) <= severity(a.min(b)));
        }

        #[test]
        fn not_knowing_is_never_kinder(kpa in 0_i64..900, built in 0..3_usize, cut_out in 500_i64..1000) {
            let severity = |cut_out, built| {
                judge_warning(Pressure::from_kpa(kpa), cut_out, built, Jurisdiction::UnitedStates)
                    .verdict
                    .severity()
            };
            let known = severity(Some(Pressure::from_kpa(cut_out)), Built::ALL[built]);
            prop_assert!(known <= severity(None, Built::Unknown));
        }
    }
}
