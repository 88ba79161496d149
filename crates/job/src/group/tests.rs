use super::{Member, group, in_order, write};
use crate::bay::{A2, Bay, L2, R2, V, choice, choose, in_order as all_there, lines, person};
use crate::card::StepState;
use crate::event::{Answer, Event, Exception, FactValue, LineState, Role};
use crate::id::Place;
use crate::judge::Units;
use crate::line::Line;
use crate::words::Words;

/// The rim and the studs of the axle are known, the tyres looked at: the whole strip is open.
fn ready() -> Bay {
    let mut bay = Bay::raised();
    bay.fact("tess", A2, "rim", choice("one-piece")).unwrap();
    bay.say("tess", L2, "tyres", "state", choose("no-damage"))
        .unwrap();
    bay.fact("tess", A2, "studs", FactValue::Count(2)).unwrap();
    bay
}

fn names(bay: &Bay, at: Place, step: &str) -> Vec<String> {
    let members = group(&bay.card(), at, &step.into());
    let name = |member: &Member| format!("{}.{}", member.step, member.ask);
    members.iter().map(name).collect()
}

fn clean(bay: &Bay, members: &[Member]) -> Vec<(Member, Answer)> {
    let card = bay.card();
    let procedure = card.procedure.as_deref().unwrap();
    let answer = |member: &Member| {
        let ask = procedure.ask(&member.step, &member.ask).unwrap();
        (member.clone(), in_order(&card, ask, member.at).unwrap())
    };
    members.iter().map(answer).collect()
}

fn write_as(bay: &Bay, who: &str, answers: &[(Member, Answer)]) -> Result<Vec<Line>, Words> {
    write(
        &bay.trail,
        &bay.procedures,
        &bay.tablet,
        &person(who),
        bay.stamp(),
        &Units::INCH_POUND,
        Vec::new(),
        answers,
    )
}

#[test]
fn parts_of_which_nothing_is_to_be_said_share_one_screen() {
    let bay = ready();
    let whole = ["nuts-off.nuts", "hoses.found", "drum.seen"];
    assert_eq!(names(&bay, L2, "nuts-off"), whole);
    assert_eq!(names(&bay, L2, "hoses"), whole[1..]);
    assert_eq!(names(&bay, V, "chocks"), [""; 0], "a press");
    assert_eq!(names(&bay, A2, "jack"), [""; 0], "a reading");
    assert_eq!(names(&bay, L2, "ashtray"), [""; 0]);
}

#[test]
fn a_group_leaves_out() {
    type Change = fn(&mut Bay);
    let rows: [(&str, Change, &[&str]); 6] = [
        (
            "what is done",
            |bay| {
                bay.say("tess", L2, "hoses", "found", all_there()).unwrap();
            },
            &["nuts-off.nuts", "drum.seen"],
        ),
        (
            "a part found bad",
            |bay| {
                bay.say_with_line("tess", L2, "drum", "seen", choose("replace"))
                    .unwrap();
            },
            &["nuts-off.nuts", "hoses.found"],
        ),
        (
            "a part with a line of its own",
            |bay| {
                bay.find("tess", L2, "drum").unwrap();
            },
            &["nuts-off.nuts", "hoses.found"],
        ),
        (
            "a part with a line of the whole axle",
            |bay| {
                bay.find("tess", A2, "drum").unwrap();
            },
            &["nuts-off.nuts", "hoses.found"],
        ),
        (
            "nothing for a line of the other end",
            |bay| {
                bay.find("tess", R2, "drum").unwrap();
            },
            &["nuts-off.nuts", "hoses.found", "drum.seen"],
        ),
        (
            "nothing once the line is done",
            |bay| {
                let line = bay.find("tess", L2, "drum").unwrap();
                bay.tell("tess", &line, LineState::SaidYes).unwrap();
                bay.tell("tess", &line, LineState::Done).unwrap();
            },
            &["nuts-off.nuts", "hoses.found", "drum.seen"],
        ),
    ];
    for (what, change, expected) in rows {
        let mut bay = ready();
        change(&mut bay);
        assert_eq!(names(&bay, L2, "nuts-off"), expected, "{what}");
    }
}

#[test]
fn a_group_stops_before_what_is_read_pressed_or_held() {
    let mut bay = ready();
    bay.stripped("tess", L2);
    // A last pass is logged nut by nut, and it protects.
    assert_eq!(names(&bay, L2, "hang"), ["hang.hung"]);
    assert_eq!(names(&bay, L2, "final-pass"), [""; 0]);
    // At the other end the drum still holds it.
    assert_eq!(names(&bay, R2, "hang"), [""; 0]);
}

#[test]
fn an_open_fact_keeps_its_own_ask_out() {
    let mut bay = Bay::raised();
    bay.fact("tess", A2, "rim", choice("one-piece")).unwrap();
    bay.say("tess", L2, "tyres", "state", choose("no-damage"))
        .unwrap();
    assert_eq!(
        names(&bay, L2, "nuts-off"),
        ["nuts-off.nuts", "hoses.found", "drum.seen"],
        "the count of studs is asked beside it"
    );
}

#[test]
fn a_group_is_one_answer_each() {
    let mut bay = ready();
    let members = group(&bay.card(), L2, &"nuts-off".into());
    let lines = write_as(&bay, "tess", &clean(&bay, &members)).unwrap();
    let kinds: Vec<&str> = lines
        .iter()
        .filter_map(|line| line.event().map(Event::kind))
        .collect();
    assert_eq!(kinds, ["answered"; 3]);
    for line in lines {
        bay.trail.take_in(line);
    }
    for step in ["nuts-off", "hoses", "drum"] {
        assert_eq!(bay.state(L2, step), StepState::Done, "{step}");
    }
    let marked = bay.card().entries;
    assert!(marked.iter().all(|entry| entry.though.is_none()));
}

#[test]
fn what_the_group_says_first_frees_what_comes_after() {
    let mut bay = ready();
    let mut answers = clean(&bay, &group(&bay.card(), L2, &"nuts-off".into()));
    let hang = Member {
        at: L2,
        step: "hang".into(),
        ask: "hung".into(),
    };
    answers.push((hang, lines()));
    for line in write_as(&bay, "tess", &answers).unwrap() {
        bay.trail.take_in(line);
    }
    assert_eq!(bay.state(L2, "hang"), StepState::Done);
    let marked = bay.card().entries;
    assert!(marked.iter().all(|entry| entry.though.is_none()));
}

#[test]
fn a_group_refused_half_way_writes_nothing() {
    let bay = ready();
    let members = group(&bay.card(), L2, &"nuts-off".into());
    let at_drum = |answer: Answer| {
        let mut answers = clean(&bay, &members);
        answers.last_mut().unwrap().1 = answer;
        answers
    };
    let hang = Member {
        at: L2,
        step: "hang".into(),
        ask: "hung".into(),
    };
    // A line that comes up with the drum holds what would hide it.
    let mut hidden = at_drum(choose("replace"));
    hidden.push((hang, lines()));
    let cracked = Answer::Exceptions {
        but: vec![Exception {
            item: "mirror".to_owned(),
            mark: "chafed".into(),
        }],
    };
    let mut wrong = clean(&bay, &members);
    wrong[1].1 = cracked;
    for (who, answers, expected) in [
        ("tess", at_drum(choose("painted")), "refuse.not-offered"),
        ("tess", at_drum(lines()), "refuse.wrong-kind"),
        ("tess", hidden, "hold.covers-up"),
        ("tess", wrong, "refuse.not-offered"),
        ("zoe", clean(&bay, &members), "hold.sign-on"),
    ] {
        let heads = bay.card().heads;
        let refused = write_as(&bay, who, &answers).unwrap_err();
        assert_eq!(refused.key, expected);
        assert_eq!(bay.card().heads, heads);
    }
}

#[test]
fn an_apprentice_writes_a_group_too() {
    let mut bay = ready();
    bay.sign_on("ann", Role::Apprentice);
    bay.tag_beside("ann", "tess");
    let members = group(&bay.card(), L2, &"nuts-off".into());
    assert_eq!(members.len(), 3);
    assert!(write_as(&bay, "ann", &clean(&bay, &members)).is_ok());
}
