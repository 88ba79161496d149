//! Reads the tables of cases that stand beside the rules. Only for tests.

use std::fmt;
use std::path::Path;

use crate::quantity::{Mass, Quantity};
use crate::typed::Typed;
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, Verdict};

/// One row of a table, by the names in its first line.
pub(crate) struct Row<'a> {
    names: Vec<&'a str>,
    fields: Vec<&'a str>,
}

/// The rows of a tab-separated table; each has as many fields as the first line, and a *why*.
pub(crate) fn cases(table: &str) -> Vec<Row<'_>> {
    let mut lines = table.lines();
    let names: Vec<&str> = lines.next().unwrap().split('\t').collect();
    assert!(
        names.contains(&"why"),
        "a table of cases says why: {names:?}"
    );
    let rows: Vec<Row<'_>> = lines
        .map(|line| Row {
            names: names.clone(),
            fields: line.split('\t').collect(),
        })
        .inspect(|row| assert_eq!(row.fields.len(), row.names.len(), "{row}"))
        .inspect(|row| assert!(!row.text("why").is_empty(), "{row}"))
        .collect();
    assert!(!rows.is_empty(), "a table of cases has rows");
    rows
}

impl<'a> Row<'a> {
    pub(crate) fn text(&self, name: &str) -> &'a str {
        let at = self.names.iter().position(|known| *known == name);
        self.fields[at.unwrap_or_else(|| panic!("no column {name}: {self}"))]
    }

    pub(crate) fn unit(&self, name: &str) -> Unit {
        Unit::from_code(self.text(name)).unwrap_or_else(|| panic!("no unit: {self}"))
    }

    /// A field such as "1 7/8 in" or "23000 lb"; `None` for "-".
    pub(crate) fn typed(&self, name: &str) -> Option<Typed> {
        typed(self.text(name))
    }

    pub(crate) fn quantity(&self, name: &str) -> Option<Quantity> {
        self.typed(name).map(|typed| typed.quantity())
    }

    pub(crate) fn mass(&self, name: &str) -> Option<Mass> {
        self.quantity(name).map(|quantity| quantity.mass().unwrap())
    }

    pub(crate) fn count(&self, name: &str) -> u32 {
        self.text(name)
            .parse()
            .unwrap_or_else(|_| panic!("no count in {name}: {self}"))
    }

    pub(crate) fn verdict(&self, name: &str) -> Verdict {
        Verdict::from_code(self.text(name)).unwrap_or_else(|| panic!("no verdict: {self}"))
    }

    /// The comma-separated words of a field; none for "-".
    pub(crate) fn list(&self, name: &str) -> Vec<&'a str> {
        match self.text(name) {
            "-" => Vec::new(),
            text => text.split(',').collect(),
        }
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

/// All text of the crate's own files but those of these names.
pub(crate) fn crate_text(but: &[&str]) -> String {
    fn of_folder(folder: &Path, but: &[&str]) -> String {
        let mut text = String::new();
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                text += &of_folder(&path, but);
            } else if path.extension().is_some_and(|end| end == "rs")
                && !but.iter().any(|name| path.ends_with(name))
            {
                text += &std::fs::read_to_string(&path).unwrap();
            }
        }
        text
    }
    of_folder(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), but)
}

/// A judgement as one text: verdict, each limit by itself ("~" in the gap of a pair), other
/// sources, what is said.
pub(crate) fn told(judged: &Judgement) -> String {
    let short = |verdict: Verdict| match verdict {
        Verdict::Within => "w",
        Verdict::AtTheLimit => "a",
        Verdict::Beyond => "b",
        _ => "?",
    };
    let each = |limit: &Limit| {
        let reading = judged.reading.unwrap();
        let gap = if limit.in_the_gap(reading) { "~" } else { "" };
        format!("{}{gap}", short(limit.judge(reading).unwrap()))
    };
    let limits: Vec<String> = judged.limits.iter().map(each).collect();
    let others: Vec<&str> = judged
        .others
        .iter()
        .map(|other| short(other.verdict))
        .collect();
    let said: Vec<&str> = judged
        .remarks
        .iter()
        .map(|said| said.word.key().rsplit('.').next().unwrap())
        .collect();
    let dash = |text: String| {
        if text.is_empty() {
            "-".to_owned()
        } else {
            text
        }
    };
    format!(
        "{} {} {} {}",
        judged.verdict.code(),
        dash(limits.concat()),
        dash(others.concat()),
        dash(said.join(",")),
    )
}

impl Row<'_> {
    /// What [`told`] of this row's judgement is expected to be, after the row itself.
    pub(crate) fn told(&self) -> String {
        let [verdict, limits, others, says] =
            ["verdict", "limits", "others", "says"].map(|name| self.text(name));
        format!("{self}{verdict} {limits} {others} {says}")
    }
}
