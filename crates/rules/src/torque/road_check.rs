//! When the nuts are checked again after the first kilometres.
//!
//! Not before the wheels have settled and not after the published distance; a day of the shop's own
//! may come sooner. The check is made cold, on every nut, at the installation value.

use crate::quantity::{Day, Length, Quantity};
use crate::rules::{self, Figure, Rule};
use crate::source;
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Verdict};
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("torque.road-check"),
    title: word::RULE_TORQUE_ROAD_CHECK,
    units: &[Unit::Mile, Unit::Kilometre],
    limits: word::LIMIT_TORQUE_ROAD_CHECK,
    figures: FIGURES,
    sources: &[&source::ROAD_CHECK],
};

const FIGURES: &[Figure] = &[
    Figure {
        name: FROM,
        limit: Limit::at_least(
            Quantity::Length(Length::from_miles(50)),
            &source::ROAD_CHECK,
        )
        .printed_beside(Quantity::Length(Length::from_km(80))),
    },
    Figure {
        name: UNTIL,
        limit: Limit::at_most(
            Quantity::Length(Length::from_miles(100)),
            &source::ROAD_CHECK,
        )
        .printed_beside(Quantity::Length(Length::from_km(160))),
    },
];

const FROM: &str = "from";
const UNTIL: &str = "until";

/// What is known of the time since the wheels were fitted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Since {
    /// The odometer when they were fitted.
    pub fitted_at: Option<Length>,
    /// The odometer now.
    pub now_at: Option<Length>,
    /// Today.
    pub today: Day,
    /// The last day by which the shop wants it, when it does.
    pub shop_by: Option<Day>,
    /// A shorter distance of the maker's or the shop's, when there is one.
    pub shop_until: Option<Length>,
}

/// Whether it is due.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Due {
    /// Not yet.
    NotYet,
    /// Now.
    Now,
    /// It should have been made.
    Overdue,
    /// Nobody knows.
    Unknown,
}

/// Whether a road check is due, with the distance held against its limit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RoadCheck {
    /// Whether it is due.
    pub due: Due,
    /// The distance against the last one that is allowed; no reading without an odometer.
    pub judgement: Judgement,
}

/// Whether a road check is due.
///
/// Units: miles or kilometres, compared exactly; days. Room is what may still be driven.
/// Errors: none; an odometer that went backwards, or none at all, leaves the day to decide.
/// Source: [`source::ROAD_CHECK`].
pub fn road_check(since: &Since) -> RoadCheck {
    road_check_by(FIGURES, since)
}

/// The first and the last odometer figure at which it is due, after the wheels were fitted at one.
///
/// Units: any length. Errors: `None` when the sum is out of range.
/// Source: [`source::ROAD_CHECK`]; of the two printed figures the stricter one.
pub fn due_between(fitted_at: Length) -> Option<(Quantity, Quantity)> {
    let after = |name| {
        let driven = rules::named(FIGURES, name)?.deciding();
        Quantity::Length(fitted_at).checked_add(driven)
    };
    Some((after(FROM)?, after(UNTIL)?))
}

fn road_check_by(figures: &[Figure], since: &Since) -> RoadCheck {
    let (by_distance, mut judgement) = by_distance(figures, since);
    let by_day = match since.shop_by {
        Some(by) if since.today > by => Due::Overdue,
        Some(by) if since.today == by => Due::Now,
        _ => Due::Unknown,
    };
    let due = match (by_distance, by_day) {
        (Due::Overdue, _) | (_, Due::Overdue) => Due::Overdue,
        (Due::Now, _) | (_, Due::Now) => Due::Now,
        (by_distance, _) => by_distance,
    };
    if by_day != Due::Unknown {
        judgement = judgement.remarking(Remark::plain(word::TORQUE_ROAD_CHECK_BY_DATE));
    }
    let remark = match due {
        Due::NotYet => {
            let from = rules::named(figures, FROM).map(|limit| limit.figure);
            let from = from.unwrap_or(Quantity::Length(Length::ZERO));
            Remark::with(
                word::TORQUE_ROAD_CHECK_NOT_YET,
                [("from", Argument::Quantity(from))],
            )
        }
        Due::Now => Remark::plain(word::TORQUE_ROAD_CHECK_DUE),
        Due::Overdue => Remark::plain(word::TORQUE_ROAD_CHECK_OVERDUE),
        Due::Unknown => Remark::plain(word::TORQUE_ROAD_CHECK_UNKNOWN),
    };
    RoadCheck {
        due,
        judgement: judgement.remarking(remark),
    }
}

fn by_distance(figures: &[Figure], since: &Since) -> (Due, Judgement) {
    let none = || Judgement::without_reading(RULE.id, &source::ROAD_CHECK);
    let (Some(fitted_at), Some(now_at)) = (since.fitted_at, since.now_at) else {
        return (Due::Unknown, none());
    };
    let Some(driven) = now_at
        .checked_sub(fitted_at)
        .filter(|driven| *driven >= Length::ZERO)
    else {
        let said = Remark::plain(word::TORQUE_ROAD_CHECK_BACKWARDS);
        return (Due::Unknown, none().remarking(said));
    };
    let mut limits: Vec<Limit> = rules::named(figures, UNTIL).into_iter().collect();
    if let Some(shop) = since.shop_until {
        limits.push(Limit::at_most(shop.into(), &source::SHOP_SHEET));
    }
    let judged = Judgement::of(RULE.id, driven.into(), &limits, &source::ROAD_CHECK);
    let from = rules::named(figures, FROM);
    // A sooner end than the usual start makes it due from the first metre.
    let sooner = |limit: &Limit| {
        since
            .shop_until
            .is_some_and(|shop| limit.judge(shop.into()) == Some(Verdict::Beyond))
    };
    let early = driven == Length::ZERO
        || from.is_some_and(|limit| {
            !sooner(&limit) && limit.judge(driven.into()) == Some(Verdict::Beyond)
        });
    let due = match judged.verdict {
        Verdict::Beyond => Due::Overdue,
        Verdict::Within if early => Due::NotYet,
        _ => Due::Now,
    };
    (due, judged)
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases};
    use crate::nudge::Outcome;
    use crate::quantity::Dimension;

    const TODAY: Day = Day::from_date(2026, 3, 10);

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let outcome = |row: Row<'_>| {
            let length = |name| {
                row.quantity(name)
                    .map(|quantity| quantity.length().unwrap())
            };
            let days: Option<i64> = row.text("days left").parse().ok();
            let since = Since {
                fitted_at: length("fitted at"),
                now_at: length("now at"),
                today: TODAY,
                shop_by: days.map(|days| TODAY.plus_days(days)),
                shop_until: length("shop until"),
            };
            let check = road_check_by(figures, &since);
            let said: Vec<&str> = check
                .judgement
                .remarks
                .iter()
                .map(|said| said.word.key().trim_start_matches("torque.road-check."))
                .collect();
            // How a move of the looser figure of the first limit shows.
            let from = rules::named(figures, FROM).unwrap();
            let driven = since
                .now_at
                .zip(since.fitted_at)
                .and_then(|(now, then)| now.checked_sub(then));
            let gap = driven.is_some_and(|driven| from.in_the_gap(driven.into()));
            let got = format!(
                "{:?} {}{} {}",
                check.due,
                check.judgement.verdict.code(),
                if gap { "~" } else { "" },
                said.join(",")
            );
            let expected = ["due", "verdict", "says"]
                .map(|name| row.text(name))
                .join(" ");
            (format!("{row}: {got}"), format!("{row}: {expected}"))
        };
        cases(include_str!("road_check.tsv"))
            .into_iter()
            .map(outcome)
            .collect()
    }

    #[test]
    fn table() {
        for (got, expected) in outcomes(FIGURES) {
            assert_eq!(got, expected);
        }
        let unknown = Since {
            fitted_at: None,
            now_at: None,
            today: TODAY,
            shop_by: None,
            shop_until: None,
        };
        assert_eq!(road_check(&unknown).due, Due::Unknown);
    }

    #[test]
    fn both_ends_of_the_window_are_due_and_nothing_outside_is() {
        for fitted_at in [
            Length::ZERO,
            Length::from_miles(120_000),
            Length::from_km(7),
        ] {
            let due = |now_at: i128| {
                let now_at = Quantity::from_base(Dimension::Length, now_at)?.length()?;
                let since = Since {
                    fitted_at: Some(fitted_at),
                    now_at: Some(now_at),
                    today: TODAY,
                    shop_by: None,
                    shop_until: None,
                };
                Some(road_check(&since).due)
            };
            let (from, until) = due_between(fitted_at).unwrap();
            let (from, until) = (from.base(), until.base());
            let all = [from - 1, from, until, until + 1].map(|now_at| due(now_at).unwrap());
            assert_eq!(all, [Due::NotYet, Due::Now, Due::Now, Due::Overdue]);
        }
    }

    proptest! {
        #[test]
        fn driving_on_is_never_kinder(a in 0_i64..300, b in 0_i64..300, shop in proptest::option::of(1_i64..200)) {
            let rank = |km: i64| {
                let since = Since {
                    fitted_at: Some(Length::ZERO),
                    now_at: Some(Length::from_km(km)),
                    today: TODAY,
                    shop_by: None,
                    shop_until: shop.map(Length::from_km),
                };
                match road_check(&since).due {
                    Due::NotYet => 0,
                    Due::Now => 1,
                    _ => 2,
                }
            };
            prop_assert!(rank(a.min(b)) <= rank(a.max(b)));
        }
    }
}
