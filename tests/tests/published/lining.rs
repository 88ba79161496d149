//! Linings, shoes and edge codes as published.

use rules::axle::alike::Axle;
use rules::jurisdiction::Jurisdiction;
use rules::lining::code::{Code, Edge, Letter};
use rules::lining::gap::{self, judge_gap};
use rules::lining::hardware::{Renew, by_code};
use rules::lining::look::{Look, judge_look};
use rules::lining::matched::judge_match;
use rules::lining::rivets::judge_rivets;
use rules::lining::shoe::{RollerEnd, judge_hole, judge_recess, judge_span};
use rules::lining::thickness::{Fixing, Indicator, LiningFacts, MeasuredAt, Shoe, judge_thickness};
use rules::quantity::{Length, Ratio};
use rules::verdict::Limit;

use super::table::{Row, rows};

fn length(row: &Row<'_>, name: &str) -> Length {
    row.typed(name).unwrap().quantity().length().unwrap()
}

fn facts(row: &Row<'_>) -> LiningFacts {
    LiningFacts {
        axle: match row.text("axle") {
            "steer" => Axle::PowerUnitSteer,
            _ => Axle::Other,
        },
        shoe: match row.text("shoe") {
            "strip" => Shoe::Strip,
            "two pads" => Shoe::TwoPads,
            _ => Shoe::Unknown,
        },
        fixing: match row.text("fixing") {
            "riveted" => Fixing::Riveted,
            "bolted" => Fixing::Bolted,
            "bonded" => Fixing::Bonded,
            _ => Fixing::Unknown,
        },
        at: match row.text("at") {
            "thinnest" => MeasuredAt::Thinnest,
            _ => MeasuredAt::Middle,
        },
        indicator: Indicator::NotReached,
        jurisdiction: Jurisdiction::from_code(row.text("where")).unwrap(),
        shop: None,
    }
}

#[test]
fn linings() {
    for row in rows(include_str!("linings.tsv")) {
        let lining = length(&row, "lining");
        let judged = judge_thickness(lining, &facts(&row));
        assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
        let one = |(clause, verdict): (&str, &str)| {
            let limits = judged.limits.iter();
            let others = judged.others.iter().map(|other| &other.limit);
            let says = |limit: &&Limit| limit.source.clause.contains(clause);
            let limit = limits.chain(others).find(says);
            let limit = limit.unwrap_or_else(|| panic!("{clause}: {row}"));
            assert_eq!(
                limit.judge(lining.into()).unwrap().code(),
                verdict,
                "{clause}: {row}"
            );
        };
        // What each source says by itself, as "clause = verdict".
        let each = row.text("each").split("; ");
        each.filter_map(|each| each.split_once(" = ")).for_each(one);
    }
}

#[test]
fn shoes() {
    for row in rows(include_str!("shoes.tsv")) {
        let reading = length(&row, "reading");
        let judged = match row.text("rule") {
            "rivets" => judge_rivets(reading, Jurisdiction::UnitedStates),
            "gap" => judge_gap(reading, gap::Where::Edges),
            "gap between webs" => judge_gap(reading, gap::Where::BetweenWebs),
            "span by recess" => judge_span(reading, RollerEnd::Recess),
            "span by hole" => judge_span(reading, RollerEnd::Hole),
            "recess" => judge_recess(reading, RollerEnd::Recess),
            "hole" => judge_hole(reading, RollerEnd::Hole),
            other => panic!("{other}"),
        };
        assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
    }
}

#[test]
fn looks() {
    for row in rows(include_str!("lining_looks.tsv")) {
        let judged = judge_look(&[Look::from_code(row.text("shows")).unwrap()]);
        assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
    }
}

#[test]
fn letters() {
    for row in rows(include_str!("edge_letters.tsv")) {
        let (over, to) = Letter::from_code(row.text("letter")).unwrap().friction();
        let ratio = |name| {
            let text = row.text(name).strip_prefix("0.")?;
            Some(Ratio::from_percent(text.parse().unwrap()))
        };
        assert_eq!((over, to), (ratio("over"), ratio("to")), "{row}");
    }
}

#[test]
fn codes() {
    for row in rows(include_str!("edge_codes.tsv")) {
        let edge = |name| Edge::read(row.text(name)).unwrap();
        let (left, right) = (edge("left"), edge("right"));
        let judged = judge_match(Some(&left), Some(&right));
        assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
    }
    let fe = Code {
        normal: Letter::F,
        hot: Letter::E,
    };
    assert_eq!(Edge::read("FE").map(|edge| edge.code), Ok(fe));
}

#[test]
fn hardware() {
    for row in rows(include_str!("hardware.tsv")) {
        let part = by_code(row.text("part")).unwrap();
        let renew = match row.text("renewed") {
            "yes" => Renew::Always,
            "yes by policy" => Renew::Advised,
            "with the camshaft" => Renew::WithCamshaft,
            other => panic!("{other}"),
        };
        assert_eq!(part.renew, renew, "{row}");
        let count = format!("{} to {}", part.count.0, part.count.1);
        assert_eq!(count, row.text("count"), "{row}");
    }
}
