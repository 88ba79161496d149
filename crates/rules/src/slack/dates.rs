//! Whether a manual adjuster may stay on a vehicle of its build date.
//!
//! From a published date on air-braked vehicles need automatic ones. A manual one where an automatic
//! one was is wrong whatever the date.

use crate::jurisdiction::Jurisdiction;
use crate::quantity::{Day, Quantity};
use crate::rules::{self, Figure, Rule};
use crate::slack::mechanism::Mechanism;
use crate::source;
use crate::verdict::{Judgement, Limit, RuleId, Verdict};
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("slack.dates"),
    title: word::RULE_SLACK_DATES,
    units: &[],
    limits: word::LIMIT_SLACK_DATES,
    figures: FIGURES,
    sources: &[
        &source::ADJUSTERS_US,
        &source::ADJUSTERS_CANADA,
        &source::ADJUSTERS_ONTARIO,
    ],
};

/// The last day on which a vehicle could be built with manual adjusters.
const FIGURES: &[Figure] = &[
    Figure {
        name: "United States",
        limit: Limit::at_most(day_before(1994, 10, 20), &source::ADJUSTERS_US),
    },
    Figure {
        name: "Canada",
        limit: Limit::at_most(day_before(1996, 5, 31), &source::ADJUSTERS_CANADA),
    },
    Figure {
        name: "Ontario",
        limit: Limit::at_most(day_before(1995, 4, 30), &source::ADJUSTERS_ONTARIO),
    },
];

const fn day_before(year: i64, month: i64, day: i64) -> Quantity {
    Quantity::Day(Day::from_date(year, month, day).plus_days(-1))
}

/// What is known of the adjuster's past.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Past {
    /// Nothing says that another kind was here.
    AsBuilt,
    /// An automatic one was here.
    WasAutomatic,
}

/// Judges the kind of adjuster by the day on which its vehicle was built.
///
/// Units: days; a month alone counts from its first day. Errors: none; a manual one on a vehicle of
/// unknown date is no reading. Source: [`source::ADJUSTERS_US`] and its neighbours.
pub fn judge_kind(
    mechanism: Mechanism,
    past: Past,
    built: Option<Day>,
    jurisdiction: Jurisdiction,
) -> Judgement {
    judge_kind_by(FIGURES, mechanism, past, built, jurisdiction)
}

fn judge_kind_by(
    figures: &[Figure],
    mechanism: Mechanism,
    past: Past,
    built: Option<Day>,
    jurisdiction: Jurisdiction,
) -> Judgement {
    let name = match jurisdiction {
        Jurisdiction::UnitedStates => "United States",
        Jurisdiction::Ontario => "Ontario",
        Jurisdiction::Quebec | Jurisdiction::Canada => "Canada",
    };
    let limit = rules::named(figures, name);
    let source = limit.map_or(&source::ADJUSTERS_US, |limit| limit.source);
    let by_eye = |verdict| Judgement::by_eye(RULE.id, verdict, source);
    match (mechanism, past, built, limit) {
        (Mechanism::Unknown, ..) => by_eye(Verdict::NoReading)
            .remarking(Remark::plain(word::SLACK_REMARK_MECHANISM_UNKNOWN)),
        (Mechanism::Manual, Past::WasAutomatic, ..) => {
            by_eye(Verdict::Replace).remarking(Remark::plain(word::SLACK_REMARK_DATES_SWAPPED))
        }
        (Mechanism::Manual, Past::AsBuilt, Some(built), Some(limit)) => {
            let late = limit.judge(built.into()) == Some(Verdict::Beyond);
            let (verdict, word) = if late {
                (Verdict::Replace, word::SLACK_REMARK_DATES_MANUAL_LATE)
            } else {
                (Verdict::Sound, word::SLACK_REMARK_DATES_MANUAL_EARLY)
            };
            let first = Quantity::from_base(limit.dimension(), limit.figure.base() + 1);
            let date = Argument::Quantity(first.unwrap_or(limit.figure));
            let mut judged = by_eye(verdict).remarking(Remark::with(word, [("date", date)]));
            judged.limits.push(limit);
            judged
        }
        (Mechanism::Manual, Past::AsBuilt, ..) => {
            by_eye(Verdict::NoReading).remarking(Remark::plain(word::SLACK_REMARK_DATES_UNKNOWN))
        }
        _ => by_eye(Verdict::Sound),
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::cases::{Row, cases};
    use crate::nudge::Outcome;

    fn day(text: &str) -> Option<Day> {
        let mut parts = text.split('.').map(|part| part.parse::<i64>());
        let mut next = || parts.next().and_then(Result::ok);
        Some(Day::from_date(next()?, next()?, next()?))
    }

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let outcome = |row: Row<'_>| {
            let past = if row.text("past") == "automatic" {
                Past::WasAutomatic
            } else {
                Past::AsBuilt
            };
            let judged = judge_kind_by(
                figures,
                Mechanism::from_code(row.text("mechanism")).unwrap(),
                past,
                day(row.text("built")),
                Jurisdiction::from_code(row.text("where")).unwrap(),
            );
            let said = judged.remarks.first().map_or("-", |said| said.word.key());
            let got = format!("{row}{} {said}", judged.verdict.code());
            (
                got,
                format!("{row}{} {}", row.text("verdict"), row.text("says")),
            )
        };
        cases(include_str!("dates.tsv"))
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
    fn the_date_said_is_the_first_that_needs_automatic_ones() {
        let built = Some(Day::from_date(2000, 1, 1));
        let judged = judge_kind(
            Mechanism::Manual,
            Past::AsBuilt,
            built,
            Jurisdiction::UnitedStates,
        );
        let date = Argument::Quantity(Day::from_date(1994, 10, 20).into());
        assert_eq!(judged.remarks[0].arguments, [("date", date)]);
    }
}
