//! At which pressure the spring brakes have let go.
//!
//! For trailers a standard prints it. For power units one maker says to build as much before
//! driving, which is shown beside the reading and never counted.

use crate::quantity::{Pressure, Quantity};
use crate::rules::{self, Figure, Rule};
use crate::source::{self, Source};
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Verdict};
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("air.release"),
    title: word::RULE_AIR_RELEASE,
    units: &[Unit::Psi, Unit::Kilopascal, Unit::Bar],
    limits: word::LIMIT_AIR_RELEASE,
    figures: FIGURES,
    sources: &[&source::RELEASE_TRAILER, &source::RELEASE_TRUCK],
};

const FIGURES: &[Figure] = &[
    psi(TRAILER, 70, &source::RELEASE_TRAILER),
    psi(TRUCK, 70, &source::RELEASE_TRUCK),
];

const TRAILER: &str = "trailer";
const TRUCK: &str = "power unit";

const fn psi(name: &'static str, n: i64, source: &'static Source) -> Figure {
    Figure {
        name,
        limit: Limit::at_most(Quantity::Pressure(Pressure::from_psi(n)), source),
    }
}

/// Whose spring brakes they are.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Of {
    /// A trailer's, by its supply line.
    Trailer,
    /// A truck's, tractor's or bus's.
    PowerUnit,
}

/// Judges the pressure at which no parking brake drags any more.
///
/// Units: any pressure; compared exactly. Room is limit minus reading.
/// Errors: none. For a power unit there is no verdict.
/// Source: [`source::RELEASE_TRAILER`].
pub fn judge_release(let_go: Pressure, of: Of) -> Judgement {
    judge_release_by(FIGURES, let_go, of)
}

fn judge_release_by(figures: &[Figure], let_go: Pressure, of: Of) -> Judgement {
    let (own, other) = match of {
        Of::Trailer => (rules::named(figures, TRAILER), None),
        Of::PowerUnit => (None, rules::named(figures, TRUCK)),
    };
    let limits: Vec<Limit> = own.into_iter().collect();
    let mut judged = Judgement::of(RULE.id, let_go.into(), &limits, &source::RELEASE_TRAILER);
    if limits.is_empty() {
        judged = judged.remarking(Remark::plain(word::AIR_REMARK_RELEASE_TRUCK));
    }
    if judged.verdict == Verdict::Beyond {
        judged = judged.remarking(Remark::plain(word::AIR_REMARK_RELEASE_HIGH));
    }
    match other {
        Some(other) => judged.other_says(other),
        None => judged,
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::cases;
    use crate::nudge::Outcome;

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        cases(include_str!("release.tsv"))
            .into_iter()
            .map(|row| {
                let let_go = row.quantity("let go").unwrap().pressure().unwrap();
                let of = match row.text("of") {
                    "trailer" => Of::Trailer,
                    _ => Of::PowerUnit,
                };
                let judged = judge_release_by(figures, let_go, of);
                let other = judged.others.first();
                let other = other.map_or("-", |other| other.verdict.code());
                (
                    format!("{row}: {} | {other}", judged.verdict.code()),
                    format!("{row}: {} | {}", row.text("verdict"), row.text("other")),
                )
            })
            .collect()
    }

    #[test]
    fn table() {
        for (got, expected) in outcomes(FIGURES) {
            assert_eq!(got, expected);
        }
    }

    #[test]
    fn only_what_lets_go_too_late_says_so() {
        let says = |psi| {
            let judged = judge_release(Pressure::from_psi(psi), Of::Trailer);
            let mut said = judged.remarks.iter();
            said.any(|said| said.word == word::AIR_REMARK_RELEASE_HIGH)
        };
        assert_eq!([69, 70, 71].map(says), [false, false, true]);
    }

    proptest! {
        #[test]
        fn letting_go_later_is_never_kinder(a in 0_i64..900, b in 0_i64..900) {
            let severity = |kpa| judge_release(Pressure::from_kpa(kpa), Of::Trailer).verdict.severity();
            prop_assert!(severity(a.min(b)) <= severity(a.max(b)));
        }
    }
}
