//! Reads the tables of published rows.

use std::fmt;

use rules::typed::Typed;
use rules::unit::Unit;
use rules::verdict::Verdict;

/// One published row, by the names in the first line of its table.
pub(crate) struct Row<'a> {
    names: Vec<&'a str>,
    fields: Vec<&'a str>,
}

/// The rows of a tab-separated table; each names its source.
pub(crate) fn rows(table: &str) -> Vec<Row<'_>> {
    let mut lines = table.lines();
    let names: Vec<&str> = lines.next().unwrap().split('\t').collect();
    let rows: Vec<Row<'_>> = lines
        .map(|line| Row {
            names: names.clone(),
            fields: line.split('\t').collect(),
        })
        .inspect(|row| assert_eq!(row.fields.len(), row.names.len(), "{row}"))
        .inspect(|row| assert!(!row.text("source").is_empty(), "{row}"))
        .collect();
    assert!(!rows.is_empty(), "a table of published rows has rows");
    rows
}

impl<'a> Row<'a> {
    /// A field as it stands.
    pub(crate) fn text(&self, name: &str) -> &'a str {
        let at = self.names.iter().position(|known| *known == name);
        self.fields[at.unwrap_or_else(|| panic!("no column {name}: {self}"))]
    }

    /// "1 7/8 in" as a typed reading; `None` for "-".
    pub(crate) fn typed(&self, name: &str) -> Option<Typed> {
        typed(self.text(name))
    }

    /// A verdict by its stored name.
    pub(crate) fn verdict(&self, name: &str) -> Verdict {
        Verdict::from_code(self.text(name)).unwrap_or_else(|| panic!("no verdict: {self}"))
    }
}

/// "1 7/8 in" as a typed reading; `None` for "-".
pub(crate) fn typed(text: &str) -> Option<Typed> {
    if text == "-" {
        return None;
    }
    let (number, unit) = text
        .rsplit_once(' ')
        .unwrap_or_else(|| panic!("no unit: {text:?}"));
    let unit = Unit::from_code(unit).unwrap_or_else(|| panic!("no unit: {text:?}"));
    Some(Typed::parse(number, unit).unwrap_or_else(|fault| panic!("{text:?}: {fault}")))
}

impl fmt::Display for Row<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (name, field) in self.names.iter().zip(&self.fields) {
            write!(f, "{name}={field} ")?;
        }
        Ok(())
    }
}
