//! Finding cards among their summary rows: by unit, plate, person and month, a page at a time.
//!
//! Works on rows alone and never opens a trail, so that a shop with some thousand cards waits for
//! nothing. Rows come in the order in which they are shown, last touched first.

use crate::id::CardId;
use crate::summary::Summary;

/// How many rows one page of the list has.
pub const PAGE: usize = 24;

/// What is looked for.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Asked {
    /// Each word of it stands in the unit, the plate or a name; small and large letters, blanks and
    /// dashes inside are all one.
    pub words: String,
    /// A month in which something was done, as `2026-11`; any if none is given.
    pub month: Option<String>,
    /// Cards that were put away, or those that were not.
    pub put_away: bool,
}

/// The rows of one page, and how many there are in all.
#[derive(Clone, Debug, PartialEq)]
pub struct Found<'a> {
    pub rows: Vec<&'a Summary>,
    pub of: usize,
}

/// The first `pages` pages of what is asked for.
pub fn find<'a>(rows: &'a [Summary], asked: &Asked, pages: usize) -> Found<'a> {
    let words: Vec<String> = asked
        .words
        .split_whitespace()
        .map(letters)
        .filter(|word| !word.is_empty())
        .collect();
    let most = PAGE.saturating_mul(pages);
    let mut found = Found {
        rows: Vec::new(),
        of: 0,
    };
    for row in rows {
        if row.put_away == asked.put_away && is_of_month(row, asked) && has_all(row, &words) {
            found.of += 1;
            if found.rows.len() < most {
                found.rows.push(row);
            }
        }
    }
    found
}

fn is_of_month(row: &Summary, asked: &Asked) -> bool {
    asked
        .month
        .as_ref()
        .is_none_or(|month| row.months.contains(month))
}

fn has_all(row: &Summary, words: &[String]) -> bool {
    if words.is_empty() {
        return true;
    }
    let unit = letters(&row.unit);
    let plate = letters(&row.plate);
    let people: Vec<String> = row.people.iter().map(|name| letters(name)).collect();
    words.iter().all(|word| {
        unit.contains(word) || plate.contains(word) || people.iter().any(|name| name.contains(word))
    })
}

/// The letters and digits of a text, small: what is left of it when blanks and dashes don't count.
fn letters(text: &str) -> String {
    text.chars()
        .filter(|letter| letter.is_alphanumeric())
        .flat_map(char::to_lowercase)
        .collect()
}

/// The months in which something was done on any card, the latest first.
pub fn months(rows: &[Summary]) -> Vec<&str> {
    let mut months: Vec<&str> = rows
        .iter()
        .flat_map(|row| &row.months)
        .map(String::as_str)
        .collect();
    months.sort_unstable_by(|a, b| b.cmp(a));
    months.dedup();
    months
}

/// The latest other card of the vehicle with this unit number or plate, opened before `before`; put
/// away or not.
pub fn last_visit<'a>(rows: &'a [Summary], visit: &Visit<'_>) -> Option<&'a Summary> {
    let (unit, plate) = (letters(visit.unit), letters(visit.plate));
    let same = |row: &Summary| {
        let alike = |own: &str, other: &str| !own.is_empty() && *own == letters(other);
        alike(&unit, &row.unit) || alike(&plate, &row.plate)
    };
    rows.iter()
        .filter(|row| visit.card.is_none_or(|card| row.card != *card) && same(row))
        .filter(|row| visit.before.is_none_or(|before| row.opened < Some(before)))
        .max_by_key(|row| (row.opened, &row.card))
}

/// The visit of which the one before is asked for.
#[derive(Clone, Copy, Debug, Default)]
pub struct Visit<'a> {
    /// None for a card that is not opened yet.
    pub card: Option<&'a CardId>,
    pub unit: &'a str,
    pub plate: &'a str,
    pub before: Option<chrono::DateTime<chrono::Utc>>,
}

#[cfg(test)]
mod tests;
