//! What somebody is sure of, by kind of judgement, and when it comes back.
//!
//! A plain box scheme: what was right moves one box on and comes back after a longer time, what was
//! wrong goes back to the first. A second right answer before its day moves nothing: what is
//! remembered the same afternoon is not yet known. Days come in as arguments.

use rules::quantity::Day;

use crate::kind::Kind;

/// After how many days each box comes back.
const COMES_BACK_AFTER_DAYS: [i64; 5] = [1, 3, 7, 16, 35];

/// From which box on somebody is sure: right on three days at least, each later than the last.
const SURE_FROM: usize = 2;

/// One result: what was judged, when, and whether it was right.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Dated {
    /// What kind of judgement it was.
    pub kind: Kind,
    /// On which day.
    pub day: Day,
    /// Whether it was right.
    pub right: bool,
}

/// How sure somebody is of a kind of judgement.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sureness {
    /// Never judged yet.
    New,
    /// Judged, and not yet right over several days.
    Shaky,
    /// Right over several days.
    Sure,
}

impl Sureness {
    /// Its stable name, and the end of its word key.
    pub const fn code(self) -> &'static str {
        match self {
            Self::New => "new",
            Self::Shaky => "shaky",
            Self::Sure => "sure",
        }
    }
}

/// Where one kind of judgement stands for one person.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Standing {
    /// Which kind.
    pub kind: Kind,
    /// How sure.
    pub sureness: Sureness,
    /// When it comes back; `None` for what was never judged.
    pub comes_back: Option<Day>,
}

impl Standing {
    /// Whether it is to be practised on `today`: it came back, or was never judged.
    pub fn is_due(&self, today: Day) -> bool {
        self.comes_back.is_none_or(|day| day <= today)
    }
}

/// Where every kind stands after these results, in the order of [`Kind::ALL`].
///
/// Results may come in any order; on one day a wrong one counts before the right ones.
pub fn standings(results: &[Dated]) -> Vec<Standing> {
    Kind::ALL
        .iter()
        .map(|kind| standing(*kind, results))
        .collect()
}

/// What to practise next: what came back first, then what is new.
pub fn due(results: &[Dated], today: Day) -> Vec<Kind> {
    let mut due: Vec<Standing> = standings(results)
        .into_iter()
        .filter(|standing| standing.is_due(today))
        .collect();
    due.sort_by_key(|standing| (standing.comes_back.is_none(), standing.comes_back));
    due.into_iter().map(|standing| standing.kind).collect()
}

fn standing(kind: Kind, results: &[Dated]) -> Standing {
    let mut of_kind: Vec<&Dated> = results.iter().filter(|one| one.kind == kind).collect();
    of_kind.sort_by_key(|one| (one.day, one.right));
    let mut at: Option<(usize, Day)> = None;
    for result in of_kind {
        at = Some(match at {
            _ if !result.right => (0, comes_back(0, result.day)),
            None => (0, comes_back(0, result.day)),
            Some((in_box, day)) if result.day < day => (in_box, day),
            Some((in_box, _)) => {
                let next = (in_box + 1).min(COMES_BACK_AFTER_DAYS.len() - 1);
                (next, comes_back(next, result.day))
            }
        });
    }
    Standing {
        kind,
        sureness: match at {
            None => Sureness::New,
            Some((in_box, _)) if in_box >= SURE_FROM => Sureness::Sure,
            Some(_) => Sureness::Shaky,
        },
        comes_back: at.map(|(_, day)| day),
    }
}

fn comes_back(in_box: usize, from: Day) -> Day {
    from.plus_days(COMES_BACK_AFTER_DAYS.get(in_box).copied().unwrap_or(1))
}

#[cfg(test)]
mod tests {
    use super::*;

    const FIRST: Day = Day::from_date(2026, 3, 2);

    fn results(days: &[(i64, bool)]) -> Vec<Dated> {
        days.iter()
            .map(|(day, right)| Dated {
                kind: Kind::Drum,
                day: FIRST.plus_days(*day),
                right: *right,
            })
            .collect()
    }

    /// How sure, and after how many days from the first it comes back.
    fn drum(days: &[(i64, bool)]) -> (Sureness, Option<i128>) {
        let standing = standings(&results(days))
            .into_iter()
            .find(|one| one.kind == Kind::Drum)
            .unwrap();
        let after = |day: Day| day.base() - FIRST.base();
        (standing.sureness, standing.comes_back.map(after))
    }

    #[test]
    fn right_on_later_days_is_sure_and_comes_back_later_each_time() {
        assert_eq!(drum(&[]), (Sureness::New, None));
        assert_eq!(drum(&[(0, true)]), (Sureness::Shaky, Some(1)));
        assert_eq!(drum(&[(0, true), (1, true)]), (Sureness::Shaky, Some(4)));
        let three = [(0, true), (1, true), (4, true)];
        assert_eq!(drum(&three), (Sureness::Sure, Some(11)));
        let long: Vec<(i64, bool)> = (0..20).map(|n| (n * 40, true)).collect();
        assert_eq!(drum(&long), (Sureness::Sure, Some(19 * 40 + 35)));
    }

    #[test]
    fn the_same_afternoon_moves_nothing() {
        let often = [(0, true), (0, true), (0, true), (0, true)];
        assert_eq!(drum(&often), (Sureness::Shaky, Some(1)));
        // The day before it comes back moves nothing; the day itself does.
        assert_eq!(drum(&[(0, true), (1, true), (3, true)]).1, Some(4));
        assert_eq!(drum(&[(0, true), (1, true), (4, true)]).1, Some(11));
    }

    #[test]
    fn one_wrong_goes_back_to_the_first_box() {
        let sure = [(0, true), (1, true), (4, true), (11, false)];
        assert_eq!(drum(&sure), (Sureness::Shaky, Some(12)));
        // On one day the wrong one counts first, in whatever order they come.
        assert_eq!(
            drum(&[(0, true), (0, false)]),
            drum(&[(0, false), (0, true)])
        );
    }

    #[test]
    fn the_order_of_the_results_is_nothing() {
        let mut days = vec![(0, true), (1, false), (2, true), (5, true), (13, true)];
        let known = drum(&days);
        days.reverse();
        assert_eq!(drum(&days), known);
    }

    #[test]
    fn what_came_back_stands_before_what_is_new() {
        let of = results(&[(0, true)]);
        let on_day = |n: i64| due(&of, FIRST.plus_days(n));
        assert!(!on_day(0).contains(&Kind::Drum));
        assert_eq!(on_day(1).first(), Some(&Kind::Drum));
        assert_eq!(on_day(1).len(), Kind::ALL.len());
    }
}
