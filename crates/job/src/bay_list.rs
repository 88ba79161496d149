//! The foreman's view of the shop: what is where, what waits for whom, what is due, what was found.
//!
//! Made of summary rows alone. A card that was put away is in no bay, but its road check is due all
//! the same, and what was found on it was found.

use std::collections::BTreeMap;

use crate::id::FindingId;
use crate::road::Road;
use crate::summary::{EndRow, LineRow, Summary};

/// What the foreman sees.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BayList<'a> {
    /// Vehicles in work, last touched first.
    pub in_bay: Vec<&'a Summary>,
    /// Wheel ends that wait for a second look, and those sent back and not done again.
    pub looks: Vec<(&'a Summary, &'a EndRow)>,
    /// Extra lines that the customer has not answered.
    pub answers: Vec<(&'a Summary, &'a LineRow)>,
    /// Vehicles whose nuts want a wrench again, longest away first.
    pub road_checks: Vec<(&'a Summary, &'a Road)>,
    /// The months of which anything is counted, the latest first.
    pub months: Vec<&'a str>,
    /// Cards that are still read anew, and say too little so far.
    pub older: usize,
}

/// What one month of the shop comes to.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Counted<'a> {
    /// How often each thing was found, the commonest first.
    pub found: Vec<(&'a FindingId, u32)>,
    /// Second looks, and how many of them sent a wheel end back.
    pub looks: u32,
    pub sent_back: u32,
    /// What had to be fetched once work was under way.
    pub fetched: u32,
}

/// The list. `rows` come last touched first.
pub fn bay_list(rows: &[Summary]) -> BayList<'_> {
    let mut list = BayList {
        older: rows.iter().filter(|row| row.is_older()).count(),
        ..BayList::default()
    };
    for row in rows {
        if !row.put_away {
            if row.in_bay {
                list.in_bay.push(row);
            }
            let of_looks = row.ends.iter().filter(|end| end.waits || end.sent_back);
            list.looks.extend(of_looks.map(|end| (row, end)));
            list.answers
                .extend(row.lines.iter().map(|line| (row, line)));
        }
        list.road_checks.extend(
            row.road
                .as_ref()
                .filter(|road| road.waits())
                .map(|road| (row, road)),
        );
        list.months.extend(row.by_month.keys().map(String::as_str));
    }
    // What can be looked at now stands before what was sent back.
    list.looks.sort_by_key(|(_, end)| !end.waits);
    list.road_checks.sort_by_key(|(_, road)| road.handed);
    list.months.sort_unstable_by(|a, b| b.cmp(a));
    list.months.dedup();
    list
}

/// What was counted in one month over all cards.
pub fn counted<'a>(rows: &'a [Summary], month: &str) -> Counted<'a> {
    let mut counted = Counted::default();
    let mut found: BTreeMap<&FindingId, u32> = BTreeMap::new();
    for of_card in rows.iter().filter_map(|row| row.by_month.get(month)) {
        for (finding, times) in &of_card.found {
            let sum = found.entry(finding).or_default();
            *sum = sum.saturating_add(*times);
        }
        counted.looks = counted.looks.saturating_add(of_card.looks);
        counted.sent_back = counted.sent_back.saturating_add(of_card.sent_back);
        counted.fetched = counted.fetched.saturating_add(of_card.fetched);
    }
    counted.found = found.into_iter().collect();
    counted
        .found
        .sort_by_key(|(_, times)| std::cmp::Reverse(*times));
    counted
}

#[cfg(test)]
mod tests {
    use chrono::TimeDelta;

    use super::*;
    use crate::bay::{Bay, L2, R2};
    use crate::event::LineState;
    use crate::road::RoadState;
    use crate::summary::{Month, summary};

    fn end(waits: bool, sent_back: bool) -> EndRow {
        EndRow {
            at: if waits { L2 } else { R2 },
            stage: None,
            who: None,
            waits,
            sent_back,
        }
    }

    fn month(found: &[(&str, u32)], looks: u32, sent_back: u32) -> Month {
        Month {
            found: found
                .iter()
                .map(|(finding, times)| (FindingId::from(*finding), *times))
                .collect(),
            looks,
            sent_back,
            fetched: 1,
        }
    }

    /// One vehicle in work, one put away in work, one handed back long ago and put away, one handed
    /// back today, one not begun.
    fn shop() -> Vec<Summary> {
        let made = summary(&Bay::open().card());
        let now = made.opened.unwrap();
        let line = LineRow {
            at: L2,
            finding: "seal".into(),
            state: LineState::Waiting,
        };
        let waiting = |handed| {
            Some(Road {
                handed,
                odometer: None,
                distance: None,
                state: RoadState::Waits,
            })
        };
        let row = |unit: &str| Summary {
            unit: unit.to_owned(),
            ..made.clone()
        };
        vec![
            Summary {
                in_bay: true,
                ends: vec![end(false, true), end(true, false), end(false, false)],
                lines: vec![line.clone()],
                by_month: [("2026-11".to_owned(), month(&[("seal", 2)], 3, 1))].into(),
                ..row("in work")
            },
            Summary {
                in_bay: true,
                put_away: true,
                ends: vec![end(true, false)],
                lines: vec![line],
                ..row("put away in work")
            },
            Summary {
                road: waiting(now),
                by_month: [(
                    "2026-11".to_owned(),
                    month(&[("drum", 3), ("seal", 2)], 2, 0),
                )]
                .into(),
                ..row("back today")
            },
            Summary {
                put_away: true,
                road: waiting(now - TimeDelta::days(9)),
                by_month: [("2026-10".to_owned(), month(&[("boot", 1)], 1, 1))].into(),
                ..row("back long ago")
            },
            Summary {
                form: 0,
                ..row("not begun")
            },
        ]
    }

    #[test]
    fn everything_that_waits_is_on_it_once() {
        let shop = shop();
        let list = bay_list(&shop);
        let units = |rows: &[&Summary]| -> Vec<String> {
            rows.iter().map(|row| row.unit.clone()).collect()
        };
        assert_eq!(units(&list.in_bay), ["in work"]);
        let looks: Vec<_> = list.looks.iter().map(|(_, end)| end.at).collect();
        assert_eq!(looks, [L2, R2], "what can be looked at comes first");
        assert_eq!(list.answers.len(), 1);
        let due: Vec<&str> = list
            .road_checks
            .iter()
            .map(|(row, _)| row.unit.as_str())
            .collect();
        assert_eq!(due, ["back long ago", "back today"]);
        assert_eq!(list.months, ["2026-11", "2026-10"]);
        assert_eq!(list.older, 1);
    }

    #[test]
    fn a_month_is_counted_over_all_cards() {
        let shop = shop();
        let november = counted(&shop, "2026-11");
        assert_eq!(
            november.found,
            [(&"seal".into(), 4), (&"drum".into(), 3)],
            "the commonest first"
        );
        assert_eq!((november.looks, november.sent_back), (5, 1));
        assert_eq!(november.fetched, 2);
        let october = counted(&shop, "2026-10");
        assert_eq!((october.looks, october.sent_back), (1, 1));
        assert_eq!(counted(&shop, "2026-09"), Counted::default());
    }
}
