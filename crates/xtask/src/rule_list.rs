//! `cargo xtask rule-list`: every rule on paper, for a reader who checks limits against their documents.

use std::{collections::BTreeMap, fmt::Write};

use anyhow::{Context, Result};
use rules::{
    quantity::Quantity,
    rules::{EDITION, Figure, RULES, Rule},
    shown,
    source::Source,
    unit::Unit,
    verdict::Side,
    word::Word,
};

use crate::{args::Args, project::Project};

type Words = BTreeMap<String, String>;

pub(crate) fn run(project: &Project, args: Args) -> Result<()> {
    args.finish()?;
    let words: Words = serde_json::from_str(&project.read("assets/words/en.json")?)
        .context("can't read the English words")?;
    println!("{} rules, edition {EDITION}", RULES.len());
    for rule in RULES {
        println!("\n{}", described(rule, &words)?);
    }
    Ok(())
}

fn described(rule: &Rule, words: &Words) -> Result<String> {
    let said = |word: Word| words.get(word.key()).map_or(word.key(), String::as_str);
    let units: Vec<_> = rule.units.iter().map(|unit| unit.code()).collect();
    let mut text = format!("{}: {}\n", rule.id.0, said(rule.title));
    writeln!(text, "  standing  {}", rule.standing().code())?;
    writeln!(
        text,
        "  units     {}",
        if units.is_empty() {
            "none".to_owned()
        } else {
            units.join(", ")
        }
    )?;
    writeln!(text, "  limits    {}", said(rule.limits))?;
    for figure in rule.figures {
        writeln!(text, "  figure    {}", figure_line(figure))?;
    }
    for source in rule.sources {
        writeln!(text, "  source    {}", source_line(source))?;
    }
    Ok(text.trim_end().to_owned())
}

fn figure_line(figure: &Figure) -> String {
    let limit = figure.limit;
    let side = match limit.side {
        Side::AtMost => "at most",
        Side::AtLeast => "at least",
    };
    let beside = limit
        .beside
        .map(|beside| format!(" / {}", printed(beside)))
        .unwrap_or_default();
    format!(
        "{}: {side} {}{beside} ({})",
        figure.name,
        printed(limit.figure),
        limit.source.document
    )
}

/// A quantity in the unit that writes it shortest, which is mostly the one that it was published in.
fn printed(quantity: Quantity) -> String {
    let written = Unit::ALL
        .iter()
        .filter_map(|unit| Some((shown::exact(quantity, *unit)?, unit.code())));
    let shortest = written.min_by_key(|(figure, _)| figure.len());
    shortest.map_or_else(
        || format!("{quantity:?}"),
        |(figure, unit)| format!("{figure} {unit}"),
    )
}

fn source_line(source: &Source) -> String {
    let place = [source.document, source.clause, source.edition]
        .into_iter()
        .filter(|part| !part.is_empty());
    let place: Vec<_> = place.collect();
    format!(
        "{} ({}, checked {})",
        place.join(", "),
        source.standing.code(),
        source.checked
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_rule_shows_its_id_units_standing_and_sources() {
        for rule in RULES {
            let text = described(rule, &Words::new()).unwrap();
            let parts = [
                rule.id.0,
                rule.title.key(),
                rule.limits.key(),
                rule.standing().code(),
            ];
            let documents = rule.sources.iter().map(|source| source.document);
            let units = rule.units.iter().map(|unit| unit.code());
            for part in parts.into_iter().chain(documents).chain(units) {
                assert!(text.contains(part), "{part} is missing in\n{text}");
            }
        }
    }
}
