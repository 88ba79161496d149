use rules::torque::moved::Moved;

use super::{MovedAt, Road, RoadState, moved, road};
use crate::act;
use crate::bay::{A2, Bay, L2, R2, V, choice, choose, lines, reading};
use crate::event::{Answer, Exception, FactValue, Item};
use crate::judge::Units;
use crate::summary::{Summary, summary};

/// Two wheel ends with ten studs each, from the last drive on.
fn bay() -> Bay {
    let mut bay = Bay::of_shipped(&["low-speed", "record", "road-check"], &[2]);
    bay.fact("tess", A2, "studs", FactValue::Count(10)).unwrap();
    bay
}

fn handed_back(odometer: &str, unit: &str) -> Bay {
    let mut bay = bay();
    bay.say("tess", V, "low-speed", "odometer", reading(odometer, unit))
        .unwrap();
    bay.say("tess", V, "record", "handed", lines()).unwrap();
    bay
}

fn now(bay: &Bay) -> Road {
    road(&bay.card()).unwrap()
}

fn pass(bay: &mut Bay, at: crate::id::Place, but: &[(u16, &str)]) {
    let but = but.iter().map(|(nut, mark)| Exception {
        item: nut.to_string(),
        mark: (*mark).into(),
    });
    let but = but.collect();
    bay.say("tess", at, "road-check", "nuts", Answer::WholePass { but })
        .unwrap();
}

/// Everything of the round but the nuts.
fn measured(bay: &mut Bay) {
    bay.fact("tess", V, "coupled", choice("no-trailer"))
        .unwrap();
    bay.fact("tess", V, "road-by", choice("here")).unwrap();
    bay.fact("tess", V, "road-distance", FactValue::NotKnown)
        .unwrap();
    for at in [L2, R2] {
        for (fact, option) in [
            ("chamber-family", "clamp"),
            ("chamber-type", "t30"),
            ("stroke-class", "standard"),
        ] {
            bay.fact("tess", at, fact, choice(option)).unwrap();
        }
    }
    for (ask, answer) in [
        ("standing", lines()),
        ("heat", choose("cold")),
        ("engine", choose("off")),
        ("parking", choose("off")),
        ("application", choose("held")),
        ("reservoir", reading("95", "psi")),
        ("after", lines()),
    ] {
        bay.say("tess", V, "road-check", ask, answer).unwrap();
    }
    for at in [L2, R2] {
        for (ask, inches) in [("at-rest", "1"), ("applied", "2 1/2")] {
            bay.say("tess", at, "road-check", ask, reading(inches, "in"))
                .unwrap();
        }
    }
}

#[test]
fn it_waits_from_the_hand_back_on_and_is_due_by_the_odometer() {
    assert_eq!(road(&bay().card()), None, "not handed back yet");
    for (odometer, unit, due) in [
        // 160 km is the stricter of the last figures, 50 mi of the first ones.
        ("120000", "mi", Some(["120050", "120099"])),
        ("193000", "km", Some(["193081", "193160"])),
    ] {
        let mut bay = handed_back(odometer, unit);
        let handed = bay.now;
        bay.wait(3_600);
        let road = now(&bay);
        assert_eq!((road.state, road.handed), (RoadState::Waits, handed));
        let between = road.between();
        let between = between
            .as_ref()
            .map(|two| [0, 1].map(|n| two[n].text.as_str()));
        assert_eq!(between, due, "{odometer} {unit}");
    }
    let mut bay = bay();
    bay.say("tess", V, "record", "handed", lines()).unwrap();
    assert_eq!(now(&bay).between(), None, "nobody read the odometer");
}

#[test]
fn what_came_of_it_is_told_from_what_was_said() {
    let mut never = handed_back("120000", "mi");
    never
        .skip("tess", V, "road-check", "not-brought-back")
        .unwrap();
    assert_eq!(now(&never).state, RoadState::NotBroughtBack);

    let mut told = handed_back("120000", "mi");
    told.fact("tess", V, "road-by", choice("told")).unwrap();
    for (fact, text) in [("road-shop", "their own shop"), ("road-date", "24 Nov")] {
        assert_eq!(now(&told).state, RoadState::Waits, "without {fact}");
        told.fact("tess", V, fact, FactValue::Text(text.to_owned()))
            .unwrap();
    }
    assert_eq!(now(&told).state, RoadState::Waits, "without a distance");
    told.fact("tess", V, "road-distance", FactValue::NotKnown)
        .unwrap();
    assert_eq!(now(&told).state, RoadState::Told);

    let mut made = handed_back("120000", "mi");
    measured(&mut made);
    pass(&mut made, L2, &[]);
    assert_eq!(now(&made).state, RoadState::Waits, "one wheel end of two");
    pass(&mut made, R2, &[]);
    assert_eq!(now(&made).state, RoadState::Made);
    assert_eq!(moved(&made.card()), []);
}

#[test]
fn a_nut_that_is_loose_again_brings_one_extra_line() {
    let mut bay = handed_back("120000", "mi");
    measured(&mut bay);
    for (nut, mark, lines) in [
        (1, "held", 0),
        (2, "turned", 0),
        (3, "loose-again", 1),
        (4, "loose-again", 1),
    ] {
        let proof = bay.may("tess", L2, "road-check", "nuts", Item::Nut(nut));
        let mark = Answer::Nut { mark: mark.into() };
        let drafts = act::take_with_line(&bay.card(), proof.unwrap(), mark, &Units::INCH_POUND);
        bay.keep("tess", drafts.unwrap());
        let card = bay.card();
        let found = card.extra_lines();
        assert_eq!(found.len(), lines, "{nut}");
        for line in found {
            assert_eq!((line.at, line.finding.as_str()), (L2, "loose-again"));
        }
    }
}

#[test]
fn a_pass_as_a_whole_is_over_where_nuts_gave_a_little_and_not_where_one_is_loose_again() {
    for (mark, state, lines) in [
        ("turned", RoadState::Made, 0),
        ("loose-again", RoadState::Waits, 1),
    ] {
        let mut bay = handed_back("120000", "mi");
        measured(&mut bay);
        pass(&mut bay, R2, &[]);
        let but = vec![Exception {
            item: "4".to_owned(),
            mark: mark.into(),
        }];
        bay.say_with_line("tess", L2, "road-check", "nuts", Answer::WholePass { but })
            .unwrap();
        let card = bay.card();
        assert_eq!(road(&card).unwrap().state, state, "{mark}");
        assert_eq!(card.extra_lines().len(), lines, "{mark}");
    }
}

#[test]
fn a_nut_that_moved_is_named_also_once_it_is_tight() {
    let mut bay = handed_back("120000", "mi");
    measured(&mut bay);
    pass(&mut bay, R2, &[]);
    for (nut, mark) in [
        (1, "held"),
        (2, "turned"),
        (3, "loose-again"),
        (4, "turned"),
    ] {
        let mark = Answer::Nut { mark: mark.into() };
        bay.answer("tess", L2, "road-check", "nuts", Item::Nut(nut), mark)
            .unwrap();
    }
    let found = [
        MovedAt {
            at: L2,
            moved: Moved::LooseAgain,
            nuts: vec![3],
        },
        MovedAt {
            at: L2,
            moved: Moved::Turned,
            nuts: vec![2, 4],
        },
    ];
    assert_eq!(moved(&bay.card()), found);
    for nut in [3, 5, 6, 7, 8, 9, 10] {
        assert_eq!(now(&bay).state, RoadState::Waits, "nut {nut} is open");
        let mark = Answer::Nut {
            mark: "held".into(),
        };
        bay.answer("tess", L2, "road-check", "nuts", Item::Nut(nut), mark)
            .unwrap();
    }
    assert_eq!(now(&bay).state, RoadState::Made);
    assert_eq!(moved(&bay.card()), found, "it was loose all the same");
}

#[test]
fn a_row_of_an_older_app_says_nothing_of_it() {
    let bay = handed_back("120000", "mi");
    let row = serde_json::to_value(summary(&bay.card())).unwrap();
    let mut old = row.clone();
    old.as_object_mut().unwrap().remove("road");
    let read = |row| serde_json::from_value::<Summary>(row).unwrap().road;
    assert_eq!(read(row), Some(now(&bay)));
    assert_eq!(read(old), None);
}
