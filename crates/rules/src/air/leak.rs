//! How much air is lost in one minute, brakes released and applied, by the number of vehicles.
//!
//! The figures for full air brakes come from a driver's course text. The regulation that prints
//! much the same stands under air-over-hydraulic brakes, so it is shown and never counted.

use crate::jurisdiction::Jurisdiction;
use crate::quantity::{Pressure, Quantity};
use crate::rules::{self, Figure, Rule};
use crate::source::{self, Source};
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Verdict};
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("air.leak"),
    title: word::RULE_AIR_LEAK,
    units: &[Unit::Psi, Unit::Kilopascal, Unit::Bar],
    limits: word::LIMIT_AIR_LEAK,
    figures: FIGURES,
    sources: &[
        &source::LEAK_DOWN,
        &source::QUEBEC_AIR,
        &source::LEAK_HYDRAULIC,
    ],
};

/// The most that may be lost in one minute, full and with the engine off.
const FIGURES: &[Figure] = &[
    psi("released single", 2, &source::LEAK_DOWN),
    psi("released two", 3, &source::LEAK_DOWN),
    psi("released three", 5, &source::LEAK_DOWN),
    psi("applied single", 3, &source::LEAK_DOWN),
    psi("applied two", 4, &source::LEAK_DOWN),
    psi("applied three", 6, &source::LEAK_DOWN),
    kpa("quebec applied single", 40),
    kpa("quebec applied two", 48),
    kpa("quebec applied three", 62),
    psi("hydraulic released single", 2, &source::LEAK_HYDRAULIC),
    psi("hydraulic released two", 3, &source::LEAK_HYDRAULIC),
    psi("hydraulic released three", 4, &source::LEAK_HYDRAULIC),
    psi("hydraulic applied single", 3, &source::LEAK_HYDRAULIC),
    psi("hydraulic applied two", 4, &source::LEAK_HYDRAULIC),
    psi("hydraulic applied three", 5, &source::LEAK_HYDRAULIC),
];

const fn psi(name: &'static str, n: i64, source: &'static Source) -> Figure {
    Figure {
        name,
        limit: Limit::at_most(Quantity::Pressure(Pressure::from_psi(n)), source),
    }
}

const fn kpa(name: &'static str, n: i64) -> Figure {
    let most = Quantity::Pressure(Pressure::from_kpa(n));
    Figure {
        name,
        limit: Limit::at_most(most, &source::QUEBEC_AIR),
    }
}

/// How many vehicles hang together on the air that is tested.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Vehicles {
    /// One.
    Single,
    /// A combination of two.
    Two,
    /// Three or more.
    ThreeOrMore,
}

impl Vehicles {
    /// Every one, from the strictest.
    pub const ALL: &[Self] = &[Self::Single, Self::Two, Self::ThreeOrMore];

    /// The stable name under which its figures are listed.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Single => "single",
            Self::Two => "two",
            Self::ThreeOrMore => "three",
        }
    }
}

/// Whether the brakes were applied while the air was timed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Brakes {
    /// Pedal up, parking brakes off.
    Released,
    /// A full application held, counted after the first drop.
    Applied,
}

impl Brakes {
    /// The stable name under which its figures are listed.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Released => "released",
            Self::Applied => "applied",
        }
    }
}

/// Judges what was lost in one minute.
///
/// Units: any pressure, as a difference; compared exactly. Room is limit minus loss.
/// Errors: none.
/// Source: [`source::LEAK_DOWN`]; in Quebec also [`source::QUEBEC_AIR`], the stricter governs.
pub fn judge_leak(
    lost: Pressure,
    brakes: Brakes,
    vehicles: Vehicles,
    jurisdiction: Jurisdiction,
) -> Judgement {
    judge_leak_by(FIGURES, lost, brakes, vehicles, jurisdiction)
}

fn judge_leak_by(
    figures: &[Figure],
    lost: Pressure,
    brakes: Brakes,
    vehicles: Vehicles,
    jurisdiction: Jurisdiction,
) -> Judgement {
    let name = format!("{} {}", brakes.code(), vehicles.code());
    let named = |before: &str| rules::named(figures, &format!("{before}{name}"));
    let quebec = match jurisdiction {
        Jurisdiction::Quebec => named("quebec "),
        Jurisdiction::UnitedStates | Jurisdiction::Ontario | Jurisdiction::Canada => None,
    };
    let limits: Vec<Limit> = named("").into_iter().chain(quebec).collect();
    let mut judged = Judgement::of(RULE.id, lost.into(), &limits, &source::LEAK_DOWN);
    if brakes == Brakes::Released && judged.verdict == Verdict::AtTheLimit {
        judged = judged.remarking(Remark::plain(word::AIR_REMARK_LESS_THAN));
    }
    if jurisdiction.borrows_us_figures() {
        judged = judged.remarking(Remark::plain(word::SLACK_REMARK_US_FIGURE));
    }
    match named("hydraulic ") {
        Some(other) => judged.other_says(other),
        None => judged,
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases};
    use crate::nudge::Outcome;

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let outcome = |row: Row<'_>| {
            let lost = row.quantity("lost").unwrap().pressure().unwrap();
            let brakes = match row.text("brakes") {
                "released" => Brakes::Released,
                "applied" => Brakes::Applied,
                other => panic!("no brakes {other}"),
            };
            let mut all = Vehicles::ALL.iter().copied();
            let vehicles = all.find(|one| one.code() == row.text("vehicles")).unwrap();
            let jurisdiction = Jurisdiction::from_code(row.text("where")).unwrap();
            let judged = judge_leak_by(figures, lost, brakes, vehicles, jurisdiction);
            let each: Vec<&str> = judged
                .limits
                .iter()
                .map(|limit| limit.judge(lost.into()).unwrap().code())
                .collect();
            let others = judged.others.iter().map(|other| other.verdict.code());
            let said = judged.remarks.iter().map(|said| said.word.key());
            let said: Vec<&str> = said
                .map(|key| key.rsplit('.').next().unwrap_or(key))
                .collect();
            let got = [
                judged.verdict.code().to_owned(),
                each.join(","),
                others.collect::<Vec<_>>().join(","),
                said.join(","),
            ];
            let expected = ["verdict", "each", "other", "says"].map(|name| row.text(name));
            (
                format!("{row}: {}", got.join(" | ")),
                format!("{row}: {}", expected.join(" | ")).replace("| -", "| "),
            )
        };
        cases(include_str!("leak.tsv"))
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

    proptest! {
        #[test]
        fn a_larger_loss_is_never_kinder(a in 0_i64..100, b in 0_i64..100, of in 0..3_usize, applied in any::<bool>(), place in 0..4_usize) {
            let brakes = if applied { Brakes::Applied } else { Brakes::Released };
            let severity = |kpa: i64| {
                judge_leak(Pressure::from_kpa(kpa), brakes, Vehicles::ALL[of], Jurisdiction::ALL[place])
                    .verdict
                    .severity()
            };
            prop_assert!(severity(a.min(b)) <= severity(a.max(b)));
        }

        #[test]
        fn fewer_vehicles_are_never_kinder(kpa in 0_i64..100, applied in any::<bool>()) {
            let brakes = if applied { Brakes::Applied } else { Brakes::Released };
            let severity = |of: Vehicles| {
                judge_leak(Pressure::from_kpa(kpa), brakes, of, Jurisdiction::UnitedStates).verdict.severity()
            };
            for pair in Vehicles::ALL.windows(2) {
                prop_assert!(severity(pair[0]) >= severity(pair[1]));
            }
        }
    }
}
