//! Facts of the trade that no document was found for: each is marked COMMON PRACTICE.

use std::num::NonZeroU32;

use rules::quantity::{Mass, Share};
use rules::slack::back_off::back_off;
use rules::slack::mechanism::Mechanism;
use rules::source::{COMMON_PRACTICE, Standing};
use rules::support::load::Load;
use rules::support::three::{Loading, RULE as THREE, UnitWeight, judge_three};
use rules::torque::log::{LogFault, RULE as LOG};
use rules::torque::plan::{Kind, Pass, Set};
use rules::torque::stems::{RULE as STEMS, Stems};
use rules::word::Argument;

use super::table::rows;

#[test]
fn facts_of_the_trade() {
    for row in rows(include_str!("practice.tsv")) {
        assert_eq!(row.text("status"), Standing::CommonPractice.code(), "{row}");
        let (answer, standing) = match row.text("case") {
            "three" => (third_of(Mass::from_lb(30_000)), THREE.standing()),
            "back-off" => {
                let (back, from) = back_off(Mechanism::Unknown);
                (first_text(&back.remark().arguments), from.standing)
            }
            "click" => {
                let pass = Pass {
                    set: Set::All,
                    kind: Kind::Final,
                };
                let said = LogFault::ClickedAtOnce { pass, nut: 1 }.remark();
                (said.word.key().to_owned(), LOG.standing())
            }
            "stems" => (
                Stems::HalfTurn.remark().word.key().to_owned(),
                STEMS.standing(),
            ),
            other => panic!("{other}"),
        };
        assert_eq!(answer, row.text("answer"), "{row}");
        assert_eq!(standing, COMMON_PRACTICE.standing, "{row}");
    }
}

fn third_of(tare: Mass) -> String {
    let unit = UnitWeight {
        tare: Some(tare),
        gross: None,
        loading: Loading::Unloaded,
    };
    let load = Load {
        mass: None,
        axles: vec![1],
        along: vec![],
        unknown: vec![1],
    };
    let judged = judge_three(&unit, &load, Share::undivided(tare));
    let needed = judged.needed.unwrap();
    assert_eq!(needed, Share::new(tare, NonZeroU32::new(3).unwrap()));
    let pounds = rules::shown::exact(needed.rounded_up().into(), rules::unit::Unit::Pound);
    format!("{} lb", pounds.unwrap())
}

fn first_text(arguments: &[(&str, Argument)]) -> String {
    match arguments.first() {
        Some((_, Argument::Text(text))) => text.clone(),
        other => panic!("{other:?}"),
    }
}
