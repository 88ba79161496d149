//! Stands, jacks, tyres on multi-piece rims and dust as published.

use rules::rim::judge_pressure;
use rules::support::jack::judge_jack;
use rules::support::load::{Axle, Group, Ties, load_of_lift};
use rules::support::stand::{Lift, judge_stands};
use rules::support::tag::{Basis, Condition, StandTag};
use rules::support::three::{Loading, UnitWeight};

use super::table::{Row, rows};

fn lift(row: &Row<'_>) -> Lift {
    let weight = row
        .typed("axle")
        .map(|typed| typed.quantity().mass().unwrap());
    let axle = Axle {
        number: 1,
        raised: true,
        weight,
    };
    let load = load_of_lift(&[Group {
        ties: Ties::Apart,
        axles: vec![axle],
    }])
    .unwrap();
    let tare = row
        .typed("unit")
        .map(|typed| typed.quantity().mass().unwrap());
    Lift {
        load,
        unit: UnitWeight {
            tare,
            gross: None,
            loading: Loading::Unloaded,
        },
        carried_by: 2,
    }
}

#[test]
fn stands() {
    for row in rows(include_str!("stands.tsv")) {
        let tag = StandTag {
            rating: row.typed("rating"),
            basis: Basis::from_code(row.text("basis")).unwrap(),
            condition: Condition::from_code(row.text("condition")).unwrap(),
        };
        let count: usize = row.text("stands").parse().unwrap();
        let say = match judge_stands(&lift(&row), &vec![tag; count]) {
            Ok(judged) => format!("{:?}", judged.say()),
            Err(fault) => fault.code().to_owned(),
        };
        assert_eq!(say, row.text("say"), "{row}");
    }
}

#[test]
fn jacks() {
    for row in rows(include_str!("jacks.tsv")) {
        let lift = lift(&row);
        let rating = row.typed("rating");
        let judged = judge_jack(&lift.load, &lift.unit, rating.as_ref()).unwrap();
        assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
    }
}

#[test]
fn tyres() {
    for row in rows(include_str!("tyres.tsv")) {
        let pressure = |name| row.typed(name).unwrap().quantity().pressure().unwrap();
        let judged = judge_pressure(pressure("found"), pressure("should be"));
        assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
    }
}

/// reg 30: a spray bottle is for no more than five pairs of brakes a week (29 CFR 1910.1001 App. F);
/// reg 31: an air gun over 30 psi is never for cleaning (29 CFR 1910.242(b)), and no air is offered.
/// How many pairs a shop does is on no card: the answer itself says for how many it is true.
#[test]
fn dust_is_caught_as_published() {
    let words = include_str!("../../../assets/words/en.json");
    let said = |key: &str| {
        let line = words.lines().find(|line| line.contains(key));
        line.unwrap_or_else(|| panic!("no word {key}"))
    };
    let wipe = said("\"ask.dust.way.wet-wipe\"");
    assert!(wipe.contains("no more than 5 pairs"), "{wipe}");
    let caution = said("\"step.dust.caution\"");
    assert!(caution.contains("no blowing"), "{caution}");
}
