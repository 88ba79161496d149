use rules::word::{Argument, Remark};

use super::{of_brake, of_nuts};
use crate::bay::{A2, L2, R2, choice, reading, typed};
use crate::event::FactValue;
use crate::hand_back::tests::{measured, with_parts, worked};

/// What is said, with the numbers that are texts.
fn said(remarks: &[Remark]) -> Vec<String> {
    let text = |argument: &Argument| {
        if let Argument::Text(text) = argument {
            Some(text.clone())
        } else {
            None
        }
    };
    remarks
        .iter()
        .map(|remark| {
            let arguments = remark.arguments.iter();
            let texts: Vec<String> = arguments.filter_map(|(_, one)| text(one)).collect();
            format!("{} {}", remark.word.key(), texts.join(" "))
                .trim_end()
                .to_owned()
        })
        .collect()
}

#[test]
fn a_brake_says_only_what_its_readings_allow() {
    let mut bay = with_parts();
    // Nothing was read: not even the air.
    assert_eq!(said(&of_brake(&bay.card(), L2)), [""; 0]);
    worked(&mut bay);
    measured(&mut bay, ["2 1/2", "2 1/2"]);
    // 30 sq in at 95 psi.
    let plain = [
        "why.force 2850 12677",
        "why.heat",
        "why.stopping 104 140 34",
    ];
    assert_eq!(said(&of_brake(&bay.card(), L2)), plain);
    let answer = reading("105", "deg");
    bay.say("tess", L2, "adjuster", "angle", answer).unwrap();
    bay.fact("tess", R2, "arm-length", choice("a6")).unwrap();
    let full = [
        "why.force 2850 12677",
        // 5 1/2 in against 6.
        "why.balance 8",
        "why.geometry 89 100",
        "why.heat",
        "why.stopping 104 140 34",
    ];
    assert_eq!(said(&of_brake(&bay.card(), L2)), full);
    // A roto chamber's number is no printed area.
    bay.fact("tess", L2, "chamber-family", choice("roto"))
        .unwrap();
    let rest = &full[2..];
    assert_eq!(said(&of_brake(&bay.card(), L2)), rest);
}

#[test]
fn a_torque_says_what_it_clamps_oiled_and_dry() {
    let mut bay = with_parts();
    assert_eq!(said(&of_nuts(&bay.card(), 2)), [""; 0]);
    let torque = FactValue::Typed(typed("475", "lbf-ft"));
    bay.fact("tess", A2, "final-torque", torque).unwrap();
    assert_eq!(said(&of_nuts(&bay.card(), 2)), [""; 0]);
    bay.fact("tess", A2, "stud-thread", choice("m22")).unwrap();
    let clamps = said(&of_nuts(&bay.card(), 2));
    assert_eq!(clamps[0], "why.clamp 43873 195 32905 146");
    assert!(clamps[1].starts_with("why.long-form "), "{clamps:?}");
    bay.fact("tess", A2, "stud-thread", choice("m20")).unwrap();
    assert_ne!(said(&of_nuts(&bay.card(), 2)), clamps);
}
