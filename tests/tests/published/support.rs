//! Stands and jacks as published.

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
