use super::*;
use crate::bay::{A2, Bay, L2, R2, V, choice, choose, in_order, reading};

fn at(bay: &Bay, end: Place) -> Option<Verdict> {
    worst_by_end(&bay.card()).get(&end).copied()
}

/// Both ends with a standard type 30 chamber: 2 in, 49 CFR 393.47(e).
fn bay() -> Bay {
    let wanted = ["as-found", "anchor", "kit", "as-left"];
    let mut bay = Bay::of_shipped(&wanted, &[2]);
    bay.fact("tess", A2, "adjuster-style", choice("clutch"))
        .unwrap();
    for end in [L2, R2] {
        for (fact, option) in [
            ("chamber-family", "clamp"),
            ("chamber-type", "t30"),
            ("stroke-class", "standard"),
            ("arm-length", "a5-5"),
        ] {
            bay.fact("tess", end, fact, choice(option)).unwrap();
        }
    }
    bay
}

fn stroke(bay: &mut Bay, step: &str, applied: &str) {
    for (ask, option) in [
        ("engine", "off"),
        ("parking", "off"),
        ("heat", "cold"),
        ("application", "held"),
    ] {
        bay.say("tess", V, step, ask, choose(option)).unwrap();
    }
    bay.say("tess", V, step, "reservoir", reading("95", "psi"))
        .unwrap();
    bay.say("tess", L2, step, "at-rest", reading("1", "in"))
        .unwrap();
    bay.say("tess", L2, step, "applied", reading(applied, "in"))
        .unwrap();
}

#[test]
fn a_stroke_as_found_counts_until_it_is_read_as_left() {
    let mut bay = bay();
    assert_eq!(at(&bay, L2), None, "nothing was judged");
    stroke(&mut bay, "as-found", "3 1/4");
    assert_eq!(at(&bay, L2), Some(Verdict::Beyond));
    assert_eq!(at(&bay, R2), None, "that is the other end's");
    stroke(&mut bay, "as-left", "2 1/2");
    assert_eq!(at(&bay, L2), Some(Verdict::Within));
    stroke(&mut bay, "as-left", "3 1/4");
    assert_eq!(at(&bay, L2), Some(Verdict::Beyond));
}

#[test]
fn what_has_to_go_counts_until_it_is_put_right() {
    let mut bay = bay();
    bay.say("tess", L2, "anchor", "spider", choose("sound"))
        .unwrap();
    assert_eq!(at(&bay, L2), Some(Verdict::Sound));
    bay.say("tess", L2, "anchor", "spider", choose("replace"))
        .unwrap();
    assert_eq!(at(&bay, L2), Some(Verdict::Replace));
    bay.say("tess", L2, "anchor", "spider", choose("sound"))
        .unwrap();
    assert_eq!(at(&bay, L2), Some(Verdict::Sound));
}

#[test]
fn what_is_judged_of_the_axle_counts_at_both_ends() {
    let mut bay = bay();
    let old = crate::event::Answer::Exceptions {
        but: vec![crate::event::Exception {
            item: "return-spring".to_owned(),
            mark: "old".into(),
        }],
    };
    bay.say("tess", A2, "kit", "hardware", in_order()).unwrap();
    assert!(
        [L2, R2]
            .iter()
            .all(|end| at(&bay, *end) != Some(Verdict::Replace))
    );
    bay.say("tess", A2, "kit", "hardware", old).unwrap();
    for end in [L2, R2] {
        assert_eq!(at(&bay, end), Some(Verdict::Replace), "{end}");
    }
}
