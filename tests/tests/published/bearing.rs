//! Wheel bearings as published: the sequence by axle and nuts, and end play.

use rules::bearing::correction::correction;
use rules::bearing::end_play::judge_end_play;
use rules::bearing::sequence::steps;
use rules::bearing::setup::{Axle, Nuts, Way};
use rules::quantity::Quantity;
use rules::unit::Unit;
use rules::word::Argument;

use super::table::rows;

fn told(argument: &Argument) -> Option<String> {
    match argument {
        Argument::Quantity(Quantity::Torque(torque)) => {
            let (whole, unit) = (torque.base(), Unit::PoundForceFoot.in_base());
            assert_eq!(whole % unit, 0);
            Some((whole / unit).to_string())
        }
        Argument::Count(parts) => Some(format!("1/{parts}")),
        _ => None,
    }
}

#[test]
fn sequences() {
    for row in rows(include_str!("bearing_sequences.tsv")) {
        let axle = Axle::from_code(row.text("axle")).unwrap();
        let nuts = Nuts::from_code(row.text("nuts")).unwrap();
        let threads = row.text("threads").parse().unwrap();
        let steps = steps(axle, nuts, threads).unwrap();
        let values: Vec<String> = steps
            .iter()
            .flat_map(|step| &step.arguments)
            .filter(|(name, _)| *name != "inch")
            .filter_map(|(_, value)| told(value))
            .collect();
        assert_eq!(values.join(" "), row.text("values"), "{row}");
    }
}

#[test]
fn end_plays() {
    for row in rows(include_str!("bearing_end_plays.tsv")) {
        let play = row.typed("play").unwrap().quantity().length().unwrap();
        let way = Way::from_code(row.text("way")).unwrap();
        let judged = judge_end_play(play, way);
        assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
    }
}

#[test]
fn corrections() {
    for row in rows(include_str!("bearing_corrections.tsv")) {
        let play = row.typed("play").unwrap().quantity().length().unwrap();
        let turn = match correction(play) {
            None => "-".to_owned(),
            Some(said) => match said.arguments.first() {
                Some((_, Argument::Text(turn))) => turn.clone(),
                _ => "again".to_owned(),
            },
        };
        assert_eq!(turn, row.text("turn"), "{row}");
    }
}
