use super::*;
use crate::act;
use crate::bay::{A2, A3, Bay, L2, L3, R2, V, choice, setup, typed};
use crate::event::Role;
use crate::id::Side;
use crate::procedures::Procedures;

const R3: Place = Place::End(3, Side::Right);

/// A card of the shipped procedure with both axles of a tandem in hand, and what was read on the
/// first one.
fn tandem() -> Bay {
    let mut bay = Bay::empty();
    let text = include_str!("../../../../assets/procedure/s-cam-reline.json");
    bay.procedures = Procedures::read([], text).unwrap();
    let drafts = act::open_card(bay.procedures.newest(), "0.1.0", &setup(&[2, 3])).unwrap();
    bay.keep("tess", drafts);
    bay.sign_on("tess", Role::Technician);
    for end in [L2, R2] {
        for (fact, option) in [("chamber-family", "clamp"), ("chamber-type", "t30")] {
            bay.fact("tess", end, fact, choice(option)).unwrap();
        }
    }
    bay.fact("tess", R2, "stroke-class", choice("long"))
        .unwrap();
    bay.fact("tess", A2, "adjuster-style", choice("pawl"))
        .unwrap();
    bay
}

fn told(taken: &[TakenOver]) -> Vec<String> {
    taken
        .iter()
        .map(|one| format!("{} {} {:?}", one.at, one.fact, one.value.choice()))
        .map(|told| told.replace("Some(OptionId(", "").replace("))", ""))
        .collect()
}

fn before(bay: &Bay, step: &str, at: Place) -> Option<(u8, Vec<String>)> {
    let card = bay.card();
    let procedure = card.procedure.clone().unwrap();
    let step = procedure.step(&step.into()).unwrap();
    as_axle_before(&card, step, at).map(|(axle, taken)| (axle, told(&taken)))
}

#[test]
fn an_axle_has_what_the_one_before_it_has() {
    let bay = tandem();
    let all = [
        "A3 adjuster-style pawl",
        "E3L chamber-family clamp",
        "E3L chamber-type t30",
        "E3R chamber-family clamp",
        "E3R chamber-type t30",
        "E3R stroke-class long",
    ];
    for at in [L3, R3, A3] {
        let (axle, taken) = before(&bay, "as-found", at).unwrap();
        assert_eq!(axle, 2, "{at}");
        assert_eq!(taken, all, "{at}");
    }
}

#[test]
fn what_is_known_here_stays() {
    let mut bay = tandem();
    bay.fact("tess", L3, "chamber-type", choice("t24")).unwrap();
    bay.fact("tess", A3, "adjuster-style", choice("manual"))
        .unwrap();
    let (_, taken) = before(&bay, "as-found", L3).unwrap();
    assert!(!taken.iter().any(|one| one.starts_with("A3")), "{taken:?}");
    assert!(
        !taken.contains(&"E3L chamber-type t30".to_owned()),
        "{taken:?}"
    );
    assert!(
        taken.contains(&"E3R chamber-type t30".to_owned()),
        "{taken:?}"
    );
}

#[test]
fn the_first_axle_in_hand_has_none_before_it() {
    let bay = tandem();
    assert_eq!(before(&bay, "as-found", L2), None);
    assert_eq!(before(&bay, "as-found", V), None);
}

#[test]
fn what_protects_is_read_at_every_axle() {
    let mut bay = tandem();
    bay.fact("tess", A2, "rim", choice("one-piece")).unwrap();
    bay.fact("tess", A2, "wheel-set", choice("dual")).unwrap();
    bay.fact("tess", A2, "spring-brake", choice("removable-bolt"))
        .unwrap();
    for step in ["tyres", "caging"] {
        assert_eq!(before(&bay, step, L3), None, "{step}");
    }
}

#[test]
fn neither_a_figure_nor_a_state_goes_over() {
    let mut bay = tandem();
    for end in [L2, R2] {
        bay.fact("tess", end, "chamber-family", choice("other"))
            .unwrap();
        let stroke = FactValue::Typed(typed("2 1/2", "in"));
        bay.fact("tess", end, "rated-stroke", stroke).unwrap();
        bay.fact("tess", end, "edge-normal", choice("f")).unwrap();
    }
    bay.fact("tess", A2, "fastener-oil", choice("dry")).unwrap();
    bay.fact("tess", A2, "drum-new", choice("renewed")).unwrap();
    for (step, at) in [("chamber", L3), ("kit", A3), ("faces", L3), ("drum", L3)] {
        let (_, taken) = before(&bay, step, at).unwrap_or_default();
        for fact in ["rated-stroke", "edge-normal", "fastener-oil", "drum-new"] {
            assert!(
                !taken.iter().any(|one| one.contains(fact)),
                "{step}: {taken:?}"
            );
        }
    }
}

#[test]
fn the_other_side_gives_what_is_open_at_this_end() {
    let bay = tandem();
    let card = bay.card();
    let procedure = card.procedure.clone().unwrap();
    let step = procedure.step(&"as-found".into()).unwrap();
    assert_eq!(
        told(&as_other_side(&card, step, L2)),
        ["E2L stroke-class long"]
    );
    assert_eq!(as_other_side(&card, step, A2), []);
}
