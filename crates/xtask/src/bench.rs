//! `cargo xtask bench`: how long the lists take over a shop's worth of cards.
//!
//! Times what the cards list and the bay list do between a press and the drawing, on made-up rows,
//! on this machine. It prints figures and holds nothing against a limit: machines differ. What a
//! tablet feels, with its store and its drawing, the browser test `five_thousand_cards` tells.

use std::time::{Duration, Instant};

use anyhow::{Context, Result, ensure};
use job::bay_list::{bay_list, counted};
use job::cards::{Asked, PAGE, Visit, find, last_visit, months};
use job::summary::{FORM, Summary};
use serde_json::json;

use crate::args::Args;

/// How many cards a shop gathers in some years.
const CARDS: usize = 5_000;
const ROUNDS: usize = 15;

pub(crate) fn run(args: Args) -> Result<()> {
    args.finish()?;
    if cfg!(debug_assertions) {
        println!("debug build: a release build takes a fraction of this");
    }
    let texts: Vec<String> = (0..CARDS).map(row).collect();
    let rows = read(&texts)?;
    let asked = |words: &str| Asked {
        words: words.to_owned(),
        ..Asked::default()
    };
    let all = find(&rows, &asked(""), 1);
    ensure!(all.rows.len() == PAGE && all.of == CARDS - CARDS / 10);
    ensure!(find(&rows, &asked("unit 4242"), 1).of == 1);
    println!("{CARDS} cards, {ROUNDS} rounds: median, longest");
    time("read the rows", || read(&texts).map(|rows| rows.len()))?;
    time("first page", || Ok(find(&rows, &asked(""), 1).of))?;
    time("search, one found", || {
        Ok(find(&rows, &asked("unit 4242"), 1).of)
    })?;
    time("search, none found", || {
        Ok(find(&rows, &asked("nobody"), 1).of)
    })?;
    time("months", || Ok(months(&rows).len()))?;
    time("bay list", || Ok(bay_list(&rows).in_bay.len()))?;
    time("a month of it", || {
        Ok(counted(&rows, "2026-03").found.len())
    })?;
    time("last visit", || {
        let visit = Visit {
            unit: "unit 4242",
            ..Visit::default()
        };
        Ok(last_visit(&rows, &visit).into_iter().count())
    })
}

fn read(texts: &[String]) -> Result<Vec<Summary>> {
    let read = |text: &String| serde_json::from_str(text).context("a made-up row can't be read");
    texts.iter().map(read).collect()
}

/// A row as the store keeps it. Every tenth card is put away, every fiftieth is in the bay.
fn row(n: usize) -> String {
    let in_bay = n.is_multiple_of(50);
    let month = format!("20{:02}-{:02}", 20 + n / 900 % 7, 1 + n / 75 % 12);
    let end = |at: &str| json!({"at": at, "stage": "rebuild", "who": "Ruta Imani", "waits": in_bay, "sent_back": false});
    json!({
        "card": format!("c-{n}"), "unit": format!("Unit {n}"), "vehicle": "tractor", "layout": "1-2",
        "in_hand": [2, 3], "opened": "2026-11-02T08:00:00Z", "last": "2026-11-02T15:00:00Z",
        "stage": "rebuild", "done": 80, "of": 160, "look_at": false, "waits": 0, "form": FORM,
        "plate": format!("WD {n}"), "people": ["Ruta Imani", "Wenzel Adair"], "months": [month],
        "put_away": n.is_multiple_of(10) && !in_bay || n % 50 == 1, "in_bay": in_bay,
        "ends": [end("E2L"), end("E2R"), end("E3L"), end("E3R")],
        "lines": [{"at": "E2L", "finding": "wheel-seal", "state": "waiting"}],
        "road": null,
        "by_month": {month: {"found": {"wheel-seal": 2, "return-spring": 1}, "looks": 4, "sent_back": 1}},
    })
    .to_string()
}

fn time(what: &str, mut work: impl FnMut() -> Result<usize>) -> Result<()> {
    let mut took: Vec<Duration> = Vec::with_capacity(ROUNDS);
    let mut found = 0;
    for _ in 0..ROUNDS {
        let start = Instant::now();
        found = work()?;
        took.push(start.elapsed());
    }
    took.sort();
    let ms = |at: usize| {
        let took = took.get(at).copied().unwrap_or_default();
        took.as_secs_f64() * 1_000.0
    };
    println!(
        "{what:<22} {:>9.3} ms {:>9.3} ms   ({found})",
        ms(ROUNDS / 2),
        ms(ROUNDS - 1)
    );
    Ok(())
}
