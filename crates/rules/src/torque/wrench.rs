//! Whether a torque wrench may be used for a value: its range and its calibration.
//!
//! The range is what is marked on it. How often it is calibrated is the shop's own; without a
//! procedure, twelve months. A click wrench can't show that a nut is too tight.

use crate::quantity::{Day, Duration, Quantity, Ratio, Torque};
use crate::rules::{self, Figure, Rule};
use crate::source;
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Verdict};
use crate::word::{self, Remark};

/// What the list of rules says of its range.
pub const RULE: Rule = Rule {
    id: RuleId("torque.wrench"),
    title: word::RULE_TORQUE_WRENCH,
    units: &[Unit::PoundForceFoot, Unit::NewtonMetre],
    limits: word::LIMIT_TORQUE_WRENCH,
    figures: FIGURES,
    sources: &[&source::ON_THE_PART, &source::WRENCH_STANDARD],
};

/// What the list of rules says of its calibration.
pub const CALIBRATION: Rule = Rule {
    id: RuleId("torque.calibration"),
    title: word::RULE_TORQUE_CALIBRATION,
    units: &[Unit::DayLong],
    limits: word::LIMIT_TORQUE_CALIBRATION,
    figures: CALIBRATED,
    sources: &[&source::WRENCH_INTERVAL, &source::SHOP_SHEET],
};

const CALIBRATED: &[Figure] = &[Figure {
    name: INTERVAL,
    limit: Limit::at_most(
        Quantity::Duration(Duration::from_days(365)),
        &source::WRENCH_INTERVAL,
    ),
}];

const FIGURES: &[Figure] = &[
    Figure {
        name: TESTED_FROM,
        limit: Limit::at_least(
            Quantity::Ratio(Ratio::from_percent(20)),
            &source::WRENCH_STANDARD,
        ),
    },
    Figure {
        name: TOLERANCE,
        limit: Limit::at_most(
            Quantity::Ratio(Ratio::from_percent(4)),
            &source::WRENCH_STANDARD,
        ),
    },
    Figure {
        name: TOLERANCE_SMALL,
        limit: Limit::at_most(
            Quantity::Ratio(Ratio::from_percent(6)),
            &source::WRENCH_STANDARD,
        ),
    },
    Figure {
        name: SMALL,
        limit: Limit::at_most(
            Quantity::Torque(Torque::from_nm(10)),
            &source::WRENCH_STANDARD,
        ),
    },
];

const INTERVAL: &str = "calibration interval";
const TESTED_FROM: &str = "tested from this part of its maximum";
const TOLERANCE: &str = "tolerance";
const TOLERANCE_SMALL: &str = "tolerance of small values";
const SMALL: &str = "small values";

/// A torque wrench of the shop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wrench {
    /// The lowest value marked on it.
    pub low: Torque,
    /// The highest value marked on it.
    pub high: Torque,
    /// When it was last calibrated.
    pub calibrated: Option<Day>,
    /// How many days a calibration holds in this shop; twelve months when it doesn't say.
    pub interval_days: Option<u16>,
}

impl Wrench {
    /// True if its two marks leave something between them.
    pub fn has_range(&self) -> bool {
        self.low < self.high
    }
}

/// A wrench held against a value and a day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WrenchJudged {
    /// The value against its marked range.
    pub range: Judgement,
    /// The day against its calibration.
    pub calibration: Judgement,
}

/// Judges a wrench for a value on a day.
///
/// Units: any torque. Errors: none; a range that can't be one, or an unknown day of calibration, is
/// no reading. Source: [`source::ON_THE_PART`], [`source::WRENCH_INTERVAL`].
pub fn judge_wrench(value: Torque, wrench: &Wrench, today: Day) -> WrenchJudged {
    WrenchJudged {
        range: judge_range_by(FIGURES, value, wrench),
        calibration: judge_calibration_by(CALIBRATED, wrench, today),
    }
}

fn judge_range_by(figures: &[Figure], value: Torque, wrench: &Wrench) -> Judgement {
    if !wrench.has_range() {
        return Judgement::without_reading(RULE.id, &source::ON_THE_PART)
            .remarking(Remark::plain(word::TORQUE_WRENCH_ZERO_RANGE));
    }
    let limits = [
        Limit::at_least(wrench.low.into(), &source::ON_THE_PART),
        Limit::at_most(wrench.high.into(), &source::ON_THE_PART),
    ];
    let judged = Judgement::of(RULE.id, value.into(), &limits, &source::ON_THE_PART);
    let low_end = rules::named(figures, TESTED_FROM).is_some_and(|least| {
        let all = Ratio::from_percent(100).base();
        value.base() * all < wrench.high.base() * least.figure.base()
    });
    if judged.verdict != Verdict::Beyond && low_end {
        return judged.remarking(Remark::plain(word::TORQUE_WRENCH_LOW_END));
    }
    judged
}

fn judge_calibration_by(figures: &[Figure], wrench: &Wrench, today: Day) -> Judgement {
    let Some(calibrated) = wrench.calibrated else {
        return Judgement::without_reading(CALIBRATION.id, &source::WRENCH_INTERVAL)
            .remarking(Remark::plain(word::TORQUE_WRENCH_CALIBRATION_UNKNOWN));
    };
    let limit = match wrench.interval_days {
        Some(days) => Some(Limit::at_most(
            Duration::from_days(i64::from(days)).into(),
            &source::SHOP_SHEET,
        )),
        None => rules::named(figures, INTERVAL),
    };
    let since = today
        .checked_sub(calibrated)
        .and_then(Day::days_as_duration);
    let limits: Vec<Limit> = limit.into_iter().collect();
    let reading = since.unwrap_or(Duration::ZERO).into();
    let judged = Judgement::of(CALIBRATION.id, reading, &limits, &source::WRENCH_INTERVAL);
    if judged.verdict == Verdict::Beyond {
        return judged.remarking(Remark::plain(word::TORQUE_WRENCH_CALIBRATION_DUE));
    }
    judged
}

/// What a wrench set to a value may really give: the lowest and the highest.
///
/// Units: any torque; the ends are rounded outwards. Source: [`source::WRENCH_STANDARD`].
pub fn gives(set: Torque) -> Option<(Torque, Torque)> {
    gives_by(FIGURES, set)
}

fn gives_by(figures: &[Figure], set: Torque) -> Option<(Torque, Torque)> {
    let small = rules::named(figures, SMALL)?.judge(set.into())? != Verdict::Beyond;
    let tolerance = rules::named(figures, if small { TOLERANCE_SMALL } else { TOLERANCE })?;
    // Rounded up, so that both ends lean outwards.
    let all = Ratio::from_percent(100).base();
    let most = set.base().checked_mul(tolerance.figure.base())?;
    let off = Torque::from_base((most + all - 1).div_euclid(all))?;
    Some((set.checked_sub(off)?, set.checked_add(off)?))
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases};
    use crate::nudge::Outcome;

    const TODAY: Day = Day::from_date(2026, 3, 1);

    fn torque(row: &Row<'_>, name: &str) -> Torque {
        row.quantity(name).unwrap().torque().unwrap()
    }

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        outcomes_by(figures, CALIBRATED)
    }

    pub(crate) fn calibration_outcomes(figures: &[Figure]) -> Vec<Outcome> {
        outcomes_by(FIGURES, figures)
    }

    fn outcomes_by(figures: &[Figure], calibrated: &[Figure]) -> Vec<Outcome> {
        let outcome = |row: Row<'_>| {
            let value = torque(&row, "value");
            let days = |name| row.text(name).parse::<i64>().ok();
            let got = if row.text("what") == "gives" {
                let (low, high) = gives_by(figures, value).unwrap();
                let shown = |torque: Torque| {
                    let unit = crate::unit::Unit::NewtonMetre;
                    crate::shown::exact(torque.into(), unit).unwrap()
                };
                format!("{} to {}", shown(low), shown(high))
            } else {
                let wrench = Wrench {
                    low: torque(&row, "low"),
                    high: torque(&row, "high"),
                    calibrated: days("days ago").map(|days| TODAY.plus_days(-days)),
                    interval_days: days("interval").map(|days| u16::try_from(days).unwrap()),
                };
                let range = judge_range_by(figures, value, &wrench);
                let calibration = judge_calibration_by(calibrated, &wrench, TODAY);
                let said: Vec<&str> = [&range, &calibration]
                    .iter()
                    .flat_map(|judged| &judged.remarks)
                    .map(|said| said.word.key().trim_start_matches("torque.wrench."))
                    .collect();
                let verdicts = [range.verdict.code(), calibration.verdict.code()];
                [&verdicts[..], &said[..]].concat().join(" ")
            };
            (
                format!("{row}: {got}"),
                format!("{row}: {}", row.text("got")),
            )
        };
        cases(include_str!("wrench.tsv"))
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
    fn both_judgements_are_given() {
        let wrench = Wrench {
            low: Torque::from_lbf_ft(100),
            high: Torque::from_lbf_ft(600),
            calibrated: None,
            interval_days: None,
        };
        let judged = judge_wrench(Torque::from_lbf_ft(475), &wrench, TODAY);
        let verdicts = (judged.range.verdict, judged.calibration.verdict);
        assert_eq!(verdicts, (Verdict::Within, Verdict::NoReading));
        let ends = (Torque::from_nm(456), Torque::from_nm(494));
        assert_eq!(gives(Torque::from_nm(475)), Some(ends));
    }

    proptest! {
        #[test]
        fn a_later_day_is_never_kinder(ago in 0_i64..900, more in 0_i64..900) {
            let severity = |days: i64| {
                let wrench = Wrench {
                    low: Torque::from_nm(1),
                    high: Torque::from_nm(2),
                    calibrated: Some(TODAY.plus_days(-days)),
                    interval_days: None,
                };
                judge_wrench(Torque::from_nm(1), &wrench, TODAY).calibration.verdict.severity()
            };
            prop_assert!(severity(ago) <= severity(ago + more));
        }
    }
}
