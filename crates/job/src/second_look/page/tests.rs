use super::*;

use crate::bay::{A2, Bay, L2, L3, R2, choice, choose, lb, lines, look, reading};
use crate::event::{FactValue, Role};

/// Everything up to the second look done at both ends of axle 2, by a technician.
fn ready() -> Bay {
    let mut bay = Bay::raised();
    bay.sign_on("fay", Role::Foreman);
    bay.fact("tess", A2, "rim", choice("one-piece")).unwrap();
    bay.fact("tess", A2, "studs", FactValue::Count(2)).unwrap();
    for at in [L2, R2] {
        work_at(&mut bay, at);
    }
    bay
}

fn work_at(bay: &mut Bay, at: Place) {
    let none = || Answer::Exceptions { but: Vec::new() };
    bay.say("tess", at, "tyres", "state", choose("core-out"))
        .unwrap();
    bay.say("tess", at, "nuts-off", "nuts", none()).unwrap();
    bay.say("tess", at, "hoses", "found", none()).unwrap();
    bay.say("tess", at, "hoses", "pieces", Answer::Count { count: 2 })
        .unwrap();
    bay.say("tess", at, "drum", "seen", choose("sound"))
        .unwrap();
    bay.say("tess", at, "hang", "hung", lines()).unwrap();
    for (pass, good) in [("final-pass", "turned-and-clicked"), ("check-pass", "held")] {
        for nut in [1, 2] {
            mark(bay, at, pass, nut, good);
        }
    }
}

fn mark(bay: &mut Bay, at: Place, pass: &str, nut: u16, mark: &str) -> LineRef {
    let answer = Answer::Nut { mark: mark.into() };
    bay.answer("tess", at, pass, "nuts", Item::Nut(nut), answer)
        .unwrap()
}

fn pieces(bay: &mut Bay, at: Place, count: u16) -> LineRef {
    bay.say("tess", at, "hoses", "pieces", Answer::Count { count })
        .unwrap()
}

fn accept(bay: &mut Bay, at: Place) -> LineRef {
    bay.say("fay", at, "second-look", "look", look(true))
        .unwrap()
}

fn fates(history: &History<'_>) -> Vec<Fate> {
    history.said.iter().map(|told| told.fate.clone()).collect()
}

#[test]
fn a_nut_that_was_gone_back_to_stands_first_with_its_whole_story() {
    let mut bay = ready();
    let first = mark(&mut bay, L2, "final-pass", 2, "clicked-at-once");
    let then = mark(&mut bay, L2, "final-pass", 2, "turned-and-clicked");
    let card = bay.card();
    let stories = nuts(&card, L2);
    let nut: Vec<(u16, bool)> = stories
        .iter()
        .map(|story| (story.nut, story.plain))
        .collect();
    assert_eq!(nut, [(2, false), (1, true)]);
    let said: Vec<(&LineRef, Option<&str>, &Fate)> = stories[0]
        .said
        .iter()
        .map(|said| {
            let mark = said.mark.map(OptionId::as_str);
            (&said.told.entry.line, mark, &said.told.fate)
        })
        .collect();
    assert_eq!(
        said[1..3],
        [
            (&first, Some("clicked-at-once"), &Fate::Overtaken),
            (&then, Some("turned-and-clicked"), &Fate::Stands),
        ]
    );
    assert_eq!(
        said.len(),
        4,
        "once more in the check pass, and the first good one"
    );
    assert!(nuts(&card, R2).iter().all(|story| story.plain));
}

#[test]
fn a_pass_logged_as_a_whole_is_in_the_story_of_every_nut() {
    let mut bay = Bay::raised();
    bay.fact("tess", A2, "studs", FactValue::Count(2)).unwrap();
    let but = vec![crate::event::Exception {
        item: "2".to_owned(),
        mark: "turned".into(),
    }];
    let whole = Event::Answered {
        at: L2,
        step: "check-pass".into(),
        ask: "nuts".into(),
        item: Item::Only,
        answer: Answer::WholePass { but },
        beside: None,
        judged: Vec::new(),
    };
    bay.force("tess", whole);
    let card = bay.card();
    let told: Vec<(u16, Option<&str>, bool)> = nuts(&card, L2)
        .iter()
        .map(|story| {
            (
                story.nut,
                story.said[0].mark.map(OptionId::as_str),
                story.plain,
            )
        })
        .collect();
    assert_eq!(told, [(2, Some("turned"), false), (1, None, true)]);
}

#[test]
fn what_was_said_three_times_is_seen_three_times() {
    let mut bay = ready();
    let struck = pieces(&mut bay, L2, 3);
    bay.wait(300);
    let by = bay
        .strike("tess", &struck, Some("wrong wheel end"))
        .unwrap();
    pieces(&mut bay, L2, 4);
    let card = bay.card();
    let all = history(&card, L2);
    assert_eq!(all.len(), 1);
    let About::Asked(key) = &all[0].about else {
        panic!("{:?}", all[0].about);
    };
    assert_eq!((key.step.as_str(), key.ask.as_str()), ("hoses", "pieces"));
    assert_eq!(
        fates(&all[0]),
        [Fate::Overtaken, Fate::Struck(by), Fate::Stands]
    );
    assert!(history(&card, R2).is_empty());
    assert!(
        apart(&card, L2).struck.is_empty(),
        "it stands in the history"
    );
}

#[test]
fn an_answer_sent_back_stays_in_the_history() {
    let mut bay = ready();
    let back = Answer::Look {
        accepted: false,
        why: Some("hose chafed".to_owned()),
        seen: None,
        again: vec!["hoses".into()],
    };
    let line = bay.say("fay", L2, "second-look", "look", back).unwrap();
    let card = bay.card();
    assert_eq!(sent_back(&card, L2).map(|entry| &entry.line), Some(&line));
    assert_eq!(sent_back(&card, R2), None);
    let at: Vec<(Place, Waits)> = rows(&card).iter().map(|row| (row.at, row.waits)).collect();
    assert_eq!(at, [(R2, Waits::ForTheFirst), (L2, Waits::SentBack)]);
    bay.wait(60);
    let none = Answer::Exceptions { but: Vec::new() };
    bay.say("tess", L2, "hoses", "found", none).unwrap();
    pieces(&mut bay, L2, 2);
    let card = bay.card();
    let about: Vec<Vec<Fate>> = history(&card, L2).iter().map(fates).collect();
    assert_eq!(
        about,
        [
            [Fate::Overtaken, Fate::Stands],
            [Fate::Overtaken, Fate::Stands]
        ]
    );
    let waits: Vec<Waits> = rows(&card).iter().map(|row| row.waits).collect();
    assert_eq!(waits, [Waits::ForTheFirst, Waits::Again]);
}

#[test]
fn a_change_after_an_acceptance_is_named() {
    let mut bay = ready();
    accept(&mut bay, L2);
    accept(&mut bay, R2);
    assert!(changes(&bay.card(), L2).is_empty());
    let changed = pieces(&mut bay, L2, 3);
    let card = bay.card();
    let lines: Vec<&LineRef> = changes(&card, L2).iter().map(|entry| &entry.line).collect();
    assert_eq!(lines, [&changed]);
    assert!(changes(&card, R2).is_empty());
    let order: Vec<(Place, Waits)> = rows(&card).iter().map(|row| (row.at, row.waits)).collect();
    assert_eq!(order, [(L2, Waits::Changed), (R2, Waits::Accepted)]);
    // A strike that puts it as it was takes the change away again, but not the line that was seen.
    accept(&mut bay, L2);
    bay.wait(300);
    let strike = bay.strike("tess", &changed, Some("miscounted")).unwrap();
    let card = bay.card();
    let lines: Vec<&LineRef> = changes(&card, L2).iter().map(|entry| &entry.line).collect();
    assert_eq!(lines, [&strike]);
}

#[test]
fn the_longest_waiting_comes_first() {
    let mut bay = ready();
    bay.wait(60);
    pieces(&mut bay, L2, 3);
    let order: Vec<Place> = rows(&bay.card()).iter().map(|row| row.at).collect();
    assert_eq!(order, [R2, L2]);
    assert_eq!(crate::summary::summary(&bay.card()).waits, 2);
    accept(&mut bay, R2);
    assert_eq!(crate::summary::summary(&bay.card()).waits, 1);
}

#[test]
fn the_worst_verdict_comes_first_and_then_the_least_room() {
    let mut bay = ready();
    bay.say("tess", L2, "drum", "seen", choose("replace"))
        .unwrap();
    let card = bay.card();
    let rows = verdicts(&card, L2);
    assert_eq!(rows[0].says, Says::Eye(Eye::Replace));
    assert!(!rows[0].is_plain());
    let room: Vec<i128> = rows[1..].iter().map(VerdictRow::share_left).collect();
    assert!(room.is_sorted() && room.len() > 2, "{room:?}");
    let asked: Vec<&str> = rows.iter().map(|row| row.ask.id.as_str()).collect();
    assert!(asked.contains(&"stands") && asked.contains(&"rating"));
    let right = verdicts(&card, R2);
    assert!(right.iter().all(VerdictRow::is_plain));
    assert_eq!(
        right.last().map(|row| &row.says),
        Some(&Says::Eye(Eye::Sound))
    );
}

#[test]
fn a_verdict_that_was_worse_then_is_not_made_good_now() {
    let mut bay = Bay::raised();
    let then = JudgedThen {
        rule: "support.jack".to_owned(),
        edition: "an old one".to_owned(),
        verdict: "beyond".to_owned(),
        reading: None,
        limits: Vec::new(),
        room: None,
        source: "a letter".to_owned(),
        remarks: Vec::new(),
    };
    let say = |ask: &str, judged| Event::Answered {
        at: A2,
        step: "jack".into(),
        ask: ask.into(),
        item: Item::Only,
        answer: reading("50000", "lb"),
        beside: None,
        judged,
    };
    bay.force("tess", say("rating", vec![then.clone()]));
    let card = bay.card();
    let rows = verdicts(&card, L2);
    assert!(matches!(&rows[0].says, Says::Now(_, Some(was)) if **was == then));
    assert!(!rows[0].is_plain());
}

#[test]
fn what_a_reader_would_not_expect_is_set_apart() {
    let mut bay = ready();
    let sides = |card: &Card| -> Vec<usize> {
        let apart = apart(card, L2);
        let parts = [&apart.though, &apart.passed, &apart.skipped];
        parts.iter().map(|part| part.len()).collect()
    };
    // The as-found round was left out.
    assert_eq!(sides(&bay.card()), [0, 0, 1]);
    let forged = bay.force(
        "tess",
        Event::Answered {
            at: L2,
            step: "second-look".into(),
            ask: "look".into(),
            item: Item::Only,
            answer: look(true),
            beside: None,
            judged: Vec::new(),
        },
    );
    assert_eq!(sides(&bay.card()), [1, 0, 1]);
    bay.strike("fay", &forged, Some("not a foreman's")).unwrap();
    assert_eq!(sides(&bay.card()), [0, 0, 1]);
    let card = bay.card();
    let struck: Vec<&LineRef> = apart(&card, L2)
        .struck
        .iter()
        .map(|told| &told.entry.line)
        .collect();
    assert_eq!(struck, [&forged]);
}

#[test]
fn who_worked_here_does_not_name_who_only_looked() {
    let mut bay = ready();
    accept(&mut bay, L2);
    let card = bay.card();
    assert_eq!(worked_here(&card, L2), [&"tess".into()]);
    // Whoever works on one end only has not worked at the other.
    bay.sign_on("lev", Role::Technician);
    bay.tag("lev").unwrap();
    bay.say("lev", R2, "hoses", "pieces", Answer::Count { count: 5 })
        .unwrap();
    let card = bay.card();
    assert_eq!(worked_here(&card, L2), [&"tess".into()]);
    assert_eq!(worked_here(&card, R2).len(), 2);
}

#[test]
fn a_round_that_was_left_out_says_why() {
    let bay = ready();
    let card = bay.card();
    let told: Vec<(&str, Option<&str>)> = rounds(&card, L2)
        .iter()
        .map(|round| (round.step.id.as_str(), round.skipped.map(OptionId::as_str)))
        .collect();
    assert_eq!(told, [("as-found", Some("no-air"))]);
}

#[test]
fn what_is_told_of_the_group_is_on_the_page_of_each_of_its_axles() {
    let mut bay = Bay::with_axles(&[3]);
    bay.fact("tess", A2, "group-weight", lb("30000")).unwrap();
    bay.fact("tess", A2, "group-weight", lb("31000")).unwrap();
    let card = bay.card();
    let told: Vec<About> = history(&card, L3)
        .into_iter()
        .map(|one| one.about)
        .collect();
    assert_eq!(told, [About::Fact(A2, "group-weight".into())]);
}
