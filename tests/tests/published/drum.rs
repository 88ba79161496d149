//! Drums as published.

use rules::drum::bell_mouth::judge_bell_mouth;
use rules::drum::diameter::judge_diameter;
use rules::drum::marks::Marks;
use rules::drum::pair::{End, judge_pair};
use rules::drum::round::judge_round;
use rules::drum::run_out::judge_run_out;
use rules::drum::surface::{Surface, judge_surface};
use rules::drum::taper::{Pair, judge_taper};
use rules::drum::turn::judge_turn;
use rules::quantity::Length;
use rules::verdict::Verdict;

use super::table::{Row, rows, typed};

fn length(text: &str) -> Option<Length> {
    typed(text).map(|typed| typed.quantity().length().unwrap())
}

fn readings(row: &Row<'_>) -> Vec<Length> {
    row.text("readings").split(',').filter_map(length).collect()
}

fn marks(row: &Row<'_>) -> Marks {
    Marks {
        cast_max: length(row.text("cast")),
        nominal: length(row.text("nominal")),
    }
}

#[test]
fn drums() {
    for row in rows(include_str!("drums.tsv")) {
        let (measured, marks) = (readings(&row), marks(&row));
        let first = measured.first().copied();
        let place = || {
            let [front, back] = measured[..] else {
                panic!("{row}")
            };
            Pair { front, back }
        };
        let judged = match row.text("rule") {
            "diameter" => judge_diameter(&measured, marks),
            "turn" => judge_turn(&measured, marks),
            "round" => judge_round(&measured),
            "taper" => judge_taper(&[place()]),
            "bell-mouth" => judge_bell_mouth(&[place()], marks),
            "run-out" => judge_run_out(first.unwrap()),
            other => panic!("{other}"),
        };
        assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
    }
}

#[test]
fn surfaces() {
    for row in rows(include_str!("surfaces.tsv")) {
        let judged = judge_surface(Surface::from_code(row.text("shows")).unwrap());
        assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
        // What can't stay at one end takes its mate with it, whatever that one shows.
        if judged.verdict == Verdict::Replace {
            let pair = judge_pair(End::Goes, End::Stays);
            assert_eq!(pair.verdict, Verdict::Replace, "{row}");
        }
    }
}

#[test]
fn pairs() {
    let end = |text: &str| match text {
        "stays" => End::Stays,
        "turned" => End::Turned,
        "goes" => End::Goes,
        "renewed" => End::Renewed,
        other => panic!("{other}"),
    };
    for row in rows(include_str!("drum_pairs.tsv")) {
        let judged = judge_pair(end(row.text("left")), end(row.text("right")));
        assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
    }
}
