use crate::act::{self, Refusal};
use crate::bay::{A2, Bay, L2, R2, V, choose, in_order, key, lines, person};
use crate::card::{StepState, Though};
use crate::event::{Event, Item, LineState, Role, WithAnswer};
use crate::extra::Note;
use crate::hand_back::{What, hand_back};
use crate::hold::{Hold, first_hold};
use crate::id::Place;
use crate::judge::Units;
use crate::line::{LineRef, Sha};

/// Both wheel ends of an axle may be hung; a foreman and an apprentice are there too.
fn ready() -> Bay {
    let mut bay = Bay::raised();
    bay.sign_on("fay", Role::Foreman);
    bay.sign_on("ann", Role::Apprentice);
    bay.tag_beside("ann", "tess");
    bay.stripped("tess", L2);
    bay.stripped("tess", R2);
    bay
}

fn state(bay: &Bay, line: &LineRef) -> LineState {
    bay.card().extra_line(line).unwrap().state
}

fn held(bay: &Bay, at: Place) -> Option<(String, bool)> {
    match first_hold(&bay.card(), &"hang".into(), at) {
        Some(Hold::CoversUp {
            finding, protects, ..
        }) => Some((finding.to_string(), protects)),
        None => None,
        other => panic!("{other:?}"),
    }
}

fn told(line: &LineRef, state: LineState) -> Event {
    Event::LineTold {
        line: line.clone(),
        state,
        asked: None,
    }
}

fn passed(line: &LineRef) -> Event {
    Event::LinePassed {
        line: line.clone(),
        why: "no time".to_owned(),
    }
}

fn struck(line: &LineRef) -> Event {
    Event::Struck {
        line: line.clone(),
        why: Some("wrong".to_owned()),
    }
}

#[test]
fn a_line_holds_what_would_hide_the_part_until_its_work_is_done() {
    let mut bay = ready();
    let line = bay.find("tess", L2, "drum").unwrap();
    let drum = Some(("drum".to_owned(), false));
    let refused = bay.say("tess", L2, "hang", "hung", lines());
    assert_eq!(key(&refused, &bay.card()), "hold.covers-up");
    assert_eq!(held(&bay, R2), None, "work elsewhere goes on");
    let early = bay.tell("tess", &line, LineState::Done);
    assert_eq!(key(&early, &bay.card()), "refuse.line-not-agreed");
    for (said, expected) in [
        (LineState::Waiting, &drum),
        (LineState::SaidYes, &drum),
        (LineState::Done, &None),
        (LineState::NotAsked, &drum),
        (LineState::SaidNo, &drum),
    ] {
        bay.tell("tess", &line, said).unwrap();
        assert_eq!(held(&bay, L2), *expected, "{said:?}");
    }
    let late = bay.tell("tess", &line, LineState::Done);
    assert_eq!(key(&late, &bay.card()), "refuse.line-not-agreed");
}

#[test]
fn a_line_of_the_axle_holds_both_ends_and_one_that_hides_nothing_holds_none() {
    let mut bay = ready();
    bay.find("tess", L2, "boot").unwrap();
    assert_eq!(held(&bay, L2), None);
    bay.find("tess", A2, "drum").unwrap();
    let drum = Some(("drum".to_owned(), false));
    assert_eq!((held(&bay, L2), held(&bay, R2)), (drum.clone(), drum));
}

#[test]
fn what_belongs_to_both_ends_wants_a_line_at_the_other() {
    let mut bay = ready();
    let wants = |bay: &Bay, line: &LineRef| {
        let card = bay.card();
        card.wants_mate(card.extra_line(line).unwrap())
    };
    let boot = bay.find("tess", L2, "boot").unwrap();
    assert_eq!(wants(&bay, &boot), None, "one end alone");
    let left = bay.find("tess", L2, "drum").unwrap();
    assert_eq!(wants(&bay, &left), Some(R2));
    let right = bay.find("tess", R2, "drum").unwrap();
    assert_eq!((wants(&bay, &left), wants(&bay, &right)), (None, None));
    bay.strike("tess", &right, Some("wrong end")).unwrap();
    assert_eq!(wants(&bay, &left), Some(R2));
    bay.find("tess", A2, "drum").unwrap();
    assert_eq!(wants(&bay, &left), None, "a line of the axle is for both");
}

#[test]
fn what_cannot_be_found_or_told_is_refused() {
    let mut bay = ready();
    let line = bay.find("tess", L2, "drum").unwrap();
    let elsewhere = bay.find("tess", Place::Axle(4), "drum");
    assert_eq!(key(&elsewhere, &bay.card()), "hold.not-on-path");
    let unknown = bay.find("tess", L2, "ashtray");
    assert_eq!(key(&unknown, &bay.card()), "refuse.finding-unknown");
    let find = |fix: &str, words: &str| {
        let card = bay.card();
        act::find(
            &card,
            &person("tess"),
            L2,
            &"drum".into(),
            &fix.into(),
            words,
        )
    };
    assert_eq!(key(&find("paint", ""), &bay.card()), "refuse.not-offered");
    let long = "x".repeat(act::TEXT_MAX + 1);
    let refused = find("turn-drums", &long);
    assert_eq!(key(&refused, &bay.card()), "setup.text-too-long");
    assert!(find("turn-drums", "outer edge").is_ok());
    let refused = bay.find("zoe", L2, "drum");
    assert_eq!(key(&refused, &bay.card()), "hold.sign-on");
    let refused = bay.tell("zoe", &line, LineState::SaidYes);
    assert_eq!(key(&refused, &bay.card()), "hold.sign-on");
    bay.strike("tess", &line, Some("other drum")).unwrap();
    let gone = bay.tell("tess", &line, LineState::SaidYes);
    assert_eq!(key(&gone, &bay.card()), "refuse.line-unknown");
}

#[test]
fn a_no_needs_the_foreman_and_a_reason() {
    let mut bay = ready();
    let line = bay.find("tess", L2, "drum").unwrap();
    let early = bay.pass_line("fay", &line, "customer's word");
    assert_eq!(key(&early, &bay.card()), "refuse.line-not-passed");
    bay.tell("tess", &line, LineState::SaidNo).unwrap();
    assert!(!bay.card().lines_settled());
    for (who, why, expected) in [
        ("tess", "customer's word", "refuse.foreman-only"),
        ("fay", "  ", "refuse.reason-missing"),
    ] {
        let refused = bay.pass_line(who, &line, why);
        assert_eq!(key(&refused, &bay.card()), expected);
    }
    bay.pass_line("fay", &line, "customer's word").unwrap();
    assert_eq!(held(&bay, L2), None);
    assert!(bay.card().lines_settled());
    // The customer thought again: the reason was for the no.
    bay.tell("tess", &line, LineState::SaidYes).unwrap();
    assert_eq!(held(&bay, L2), Some(("drum".to_owned(), false)));
    assert!(!bay.card().lines_settled());
}

#[test]
fn a_seal_that_leaks_is_passed_by_nobody() {
    let mut bay = ready();
    let line = bay.find("tess", L2, "seal").unwrap();
    let seal = Some(("seal".to_owned(), true));
    bay.tell("tess", &line, LineState::SaidNo).unwrap();
    let refused = bay.pass_line("fay", &line, "customer's word");
    assert_eq!(key(&refused, &bay.card()), "refuse.line-not-passed");
    let mut other = bay.other_tablet("tablet-x");
    let forged = other.force("fay", passed(&line));
    bay.trail.merge(&other.trail);
    assert_eq!(bay.entry(&forged).though, Some(Though::NotTheirs));
    assert_eq!(held(&bay, L2), seal);
    assert!(!bay.card().lines_settled());
    // Nor is it done by an apprentice alone.
    bay.tell("tess", &line, LineState::SaidYes).unwrap();
    let alone = bay.tell("ann", &line, LineState::Done);
    assert_eq!(key(&alone, &bay.card()), "refuse.beside");
    let forged = bay.force("ann", told(&line, LineState::Done));
    assert_eq!(bay.entry(&forged).though, Some(Though::NotTheirs));
    assert_eq!(held(&bay, L2), seal);
    bay.tell("tess", &line, LineState::Done).unwrap();
    assert_eq!(held(&bay, L2), None);
}

#[test]
fn what_a_tablet_that_asks_nothing_says_of_a_line_opens_nothing() {
    type Forged = fn(&LineRef) -> Event;
    let rows: [(&str, &str, Forged); 5] = [
        ("done without a yes", "tess", |line| {
            told(line, LineState::Done)
        }),
        ("a yes from nobody", "zoe", |line| {
            told(line, LineState::SaidYes)
        }),
        ("passed without a no", "fay", passed),
        ("passed by a technician", "tess", passed),
        ("taken back by an apprentice", "ann", struck),
    ];
    for (what, who, event) in rows {
        let mut bay = ready();
        let line = bay.find("tess", L2, "drum").unwrap();
        let forged = bay.force(who, event(&line));
        assert_eq!(bay.entry(&forged).though, Some(Though::NotTheirs), "{what}");
        assert_eq!(held(&bay, L2), Some(("drum".to_owned(), false)), "{what}");
        assert_eq!(state(&bay, &line), LineState::NotAsked, "{what}");
    }
}

#[test]
fn a_technicians_pass_after_a_no_counts_for_nothing() {
    let mut bay = ready();
    let line = bay.find("tess", L2, "drum").unwrap();
    bay.tell("tess", &line, LineState::SaidNo).unwrap();
    let forged = bay.force("tess", passed(&line));
    assert_eq!(bay.entry(&forged).though, Some(Though::NotTheirs));
    assert_eq!(held(&bay, L2), Some(("drum".to_owned(), false)));
}

#[test]
fn a_step_that_hid_the_part_is_marked() {
    let mut bay = ready();
    let mut other = bay.other_tablet("tablet-b");
    bay.find("tess", L2, "drum").unwrap();
    let hung = other.say("tess", L2, "hang", "hung", lines()).unwrap();
    bay.trail.merge(&other.trail);
    // Found on the one before it was hung on the other, which had not seen it.
    assert!(matches!(
        bay.entry(&hung).though,
        Some(Though::Held(Hold::CoversUp { .. }))
    ));
    assert_eq!(bay.state(L2, "hang"), StepState::Done, "it hangs");
}

#[test]
fn of_two_answers_that_had_not_seen_each_other_the_stricter_governs() {
    let mut one = ready();
    let line = one.find("tess", L2, "drum").unwrap();
    let mut two = one.other_tablet("tablet-b");
    one.tell("tess", &line, LineState::SaidYes).unwrap();
    one.tell("tess", &line, LineState::Done).unwrap();
    assert_eq!(held(&one, L2), None);
    let no = two.tell("fay", &line, LineState::SaidNo).unwrap();
    one.trail.merge(&two.trail);
    two.trail.merge(&one.trail);
    for bay in [&one, &two] {
        assert_eq!(state(bay, &line), LineState::SaidNo);
        assert_eq!(held(bay, L2), Some(("drum".to_owned(), false)));
    }
    // Until a person takes one back.
    one.strike("fay", &no, Some("an old answer")).unwrap();
    assert_eq!(state(&one, &line), LineState::Done);
    assert_eq!(held(&one, L2), None);
}

#[test]
fn a_line_found_twice_is_two_lines() {
    let mut one = ready();
    let mut two = one.other_tablet("tablet-b");
    let first = one.find("tess", L2, "drum").unwrap();
    two.find("tess", L2, "drum").unwrap();
    one.trail.merge(&two.trail);
    assert_eq!(one.card().extra_lines().len(), 2);
    one.tell("tess", &first, LineState::SaidYes).unwrap();
    one.tell("tess", &first, LineState::Done).unwrap();
    assert_eq!(held(&one, L2), Some(("drum".to_owned(), false)));
}

#[test]
fn taking_back_the_yes_marks_the_work_and_leaves_it_done() {
    let mut bay = ready();
    let line = bay.find("tess", L2, "drum").unwrap();
    let yes = bay.tell("tess", &line, LineState::SaidYes).unwrap();
    let done = bay.tell("tess", &line, LineState::Done).unwrap();
    bay.strike("tess", &yes, Some("asked the wrong one"))
        .unwrap();
    assert!(matches!(
        bay.entry(&done).though,
        Some(Though::BuiltOnStruck { .. })
    ));
    assert_eq!(state(&bay, &line), LineState::Done);
    bay.strike("tess", &done, Some("not done either")).unwrap();
    assert_eq!(state(&bay, &line), LineState::NotAsked);
    // Who says done after that is not excused.
    let forged = bay.force("tess", told(&line, LineState::Done));
    assert_eq!(bay.entry(&forged).though, Some(Though::NotTheirs));
    assert_eq!(state(&bay, &line), LineState::NotAsked);
}

#[test]
fn what_the_customer_was_asked_is_no_longer_the_finders_to_take_back() {
    let mut bay = ready();
    let line = bay.find("tess", L2, "seal").unwrap();
    let may = act::may_strike(&bay.card(), &person("tess"), &line, bay.stamp()).unwrap();
    assert!(may.at_once, "nobody has said anything yet");
    bay.tell("tess", &line, LineState::SaidNo).unwrap();
    let refused = bay.strike("tess", &line, Some("never was"));
    assert_eq!(key(&refused, &bay.card()), "refuse.foreman-only");
    let forged = bay.force("tess", struck(&line));
    assert_eq!(bay.entry(&forged).though, Some(Though::NotTheirs));
    assert_eq!(held(&bay, L2), Some(("seal".to_owned(), true)));
    let unsaid = bay.strike("fay", &line, None);
    assert_eq!(key(&unsaid, &bay.card()), "refuse.reason-missing");
    bay.strike("fay", &line, Some("grease, not oil")).unwrap();
    assert_eq!(held(&bay, L2), None);
}

#[test]
fn taking_back_a_pass_or_a_no_holds_again() {
    for pass in [true, false] {
        let mut bay = ready();
        let line = bay.find("tess", L2, "drum").unwrap();
        let no = bay.tell("tess", &line, LineState::SaidNo).unwrap();
        let passed = bay.pass_line("fay", &line, "customer's word").unwrap();
        let target = if pass { &passed } else { &no };
        bay.strike("fay", target, Some("wrong")).unwrap();
        assert_eq!(held(&bay, L2), Some(("drum".to_owned(), false)), "{pass}");
    }
}

#[test]
fn a_part_found_bad_brings_its_line_and_is_mended_with_it() {
    let mut bay = Bay::raised();
    bay.sign_on("fay", Role::Foreman);
    let line = bay
        .say_with_line("tess", L2, "drum", "seen", choose("replace"))
        .unwrap();
    let card = bay.card();
    let extra = card.extra_line(&line).unwrap();
    assert_eq!((extra.at, extra.fix.as_str()), (L2, "renew-drums"));
    assert!(extra.with.is_some());
    assert_eq!(bay.state(L2, "drum"), StepState::Unclear);
    // Said once more, it is the same line.
    bay.say_with_line("tess", L2, "drum", "seen", choose("replace"))
        .unwrap();
    assert_eq!(bay.card().extra_lines().len(), 1);
    bay.tell("tess", &line, LineState::SaidYes).unwrap();
    assert_eq!(bay.state(L2, "drum"), StepState::Unclear);
    bay.tell("tess", &line, LineState::Done).unwrap();
    assert_eq!(bay.state(L2, "drum"), StepState::Done);
    // Found bad again: what was done before does not mend it.
    let again = bay
        .say_with_line("tess", L2, "drum", "seen", choose("replace"))
        .unwrap();
    assert_ne!(again, line);
    assert_eq!(bay.state(L2, "drum"), StepState::Unclear);
}

#[test]
fn a_part_is_mended_only_by_work_of_its_own() {
    // Found by hand before it was judged: one line, and it mends.
    let mut bay = Bay::raised();
    let line = bay.find("tess", L2, "drum").unwrap();
    bay.say_with_line("tess", L2, "drum", "seen", choose("replace"))
        .unwrap();
    assert_eq!(bay.card().extra_lines().len(), 1);
    bay.tell("tess", &line, LineState::SaidYes).unwrap();
    bay.tell("tess", &line, LineState::Done).unwrap();
    assert_eq!(bay.state(L2, "drum"), StepState::Done);
    // Another finding that says it came of this answer, from a tablet that asks nothing.
    let mut bay = Bay::raised();
    bay.say("tess", L2, "drum", "seen", choose("replace"))
        .unwrap();
    let boot = bay.force(
        "tess",
        Event::LineFound {
            at: L2,
            finding: "boot".into(),
            fix: "renew-boot".into(),
            words: None,
            with: Some(WithAnswer {
                step: "drum".into(),
                ask: "seen".into(),
            }),
        },
    );
    bay.tell("tess", &boot, LineState::SaidYes).unwrap();
    bay.tell("tess", &boot, LineState::Done).unwrap();
    assert_eq!(bay.state(L2, "drum"), StepState::Unclear);
}

/// Takes an answer back the way the screen does.
fn take_back(bay: &mut Bay, line: &LineRef) -> Result<LineRef, Refusal> {
    let card = bay.card();
    let proof = act::may_strike(&card, &person("tess"), line, bay.stamp())?;
    let drafts = act::strike_with_line(&card, proof, Some(" wrong end "))?;
    Ok(bay.keep("tess", drafts))
}

#[test]
fn an_answer_taken_back_takes_its_own_line_along_and_no_other() {
    let bad = |bay: &mut Bay| {
        let proof = bay.may("tess", L2, "drum", "seen", Item::Only).unwrap();
        let card = bay.card();
        let units = Units::INCH_POUND;
        let drafts = act::take_with_line(&card, proof, choose("replace"), &units).unwrap();
        let line = bay.keep("tess", drafts);
        let answer = bay.card().entries.iter().rev().nth(1).unwrap().line.clone();
        (answer, line)
    };
    let mut bay = Bay::raised();
    let (answer, _) = bad(&mut bay);
    take_back(&mut bay, &answer).unwrap();
    assert_eq!(bay.card().extra_lines(), []);
    assert_eq!(bay.state(L2, "drum"), StepState::Open);
    // Somebody was asked: the line stays.
    let (answer, line) = bad(&mut bay);
    bay.tell("tess", &line, LineState::Waiting).unwrap();
    take_back(&mut bay, &answer).unwrap();
    assert_eq!(bay.card().extra_lines().len(), 1);
    // A later answer that brought none takes none along.
    let mut bay = Bay::raised();
    bad(&mut bay);
    let sound = bay
        .say("tess", L2, "drum", "seen", choose("sound"))
        .unwrap();
    take_back(&mut bay, &sound).unwrap();
    assert_eq!(bay.card().extra_lines().len(), 1);
    assert_eq!(bay.state(L2, "drum"), StepState::Unclear);
}

#[test]
fn nothing_is_handed_back_with_an_unsettled_line() {
    let mut bay = ready();
    let line = bay.find("tess", R2, "boot").unwrap();
    assert_eq!(bay.state(V, "drive"), StepState::Open);
    assert!(!bay.card().lines_settled());
    // It hides nothing: a no is an answer.
    bay.tell("tess", &line, LineState::SaidNo).unwrap();
    assert!(bay.card().lines_settled());
    let unknown = Event::LineFound {
        at: L2,
        finding: "ashtray".into(),
        fix: "empty".into(),
        words: None,
        with: None,
    };
    // What this app does not know is settled by being done or taken back.
    let line = bay.force("tess", unknown);
    bay.tell("tess", &line, LineState::SaidNo).unwrap();
    assert!(!bay.card().lines_settled());
    bay.say("tess", L2, "hoses", "found", in_order()).unwrap();
}

#[test]
fn a_no_to_what_matters_stands_in_the_way_until_a_foreman_says_why() {
    let in_the_way = |bay: &Bay| {
        let all = hand_back(&bay.card()).into_iter();
        let line = all.filter_map(|one| {
            if let What::Line { finding, state, .. } = one.what {
                Some((finding.to_string(), state))
            } else {
                None
            }
        });
        line.collect::<Vec<_>>()
    };
    let no = |finding: &str| vec![(finding.to_owned(), LineState::SaidNo)];
    for (finding, signed) in [("hose", true), ("drum", true), ("seal", false)] {
        let mut bay = ready();
        let line = bay.find("tess", L2, finding).unwrap();
        bay.tell("tess", &line, LineState::SaidNo).unwrap();
        assert_eq!(in_the_way(&bay), no(finding));
        assert!(!bay.card().lines_settled(), "{finding}");
        let may = bay.pass_line("fay", &line, "they have it done at home");
        assert_eq!(may.is_ok(), signed, "{finding}");
        assert_eq!(bay.card().lines_settled(), signed, "{finding}");
        assert_eq!(in_the_way(&bay).is_empty(), signed, "{finding}");
    }
    // A torn boot is theirs to say no to.
    let mut bay = ready();
    let boot = bay.find("tess", L2, "boot").unwrap();
    bay.tell("tess", &boot, LineState::SaidNo).unwrap();
    assert_eq!(in_the_way(&bay), []);
    let refused = bay.pass_line("fay", &boot, "no time");
    assert_eq!(key(&refused, &bay.card()), "refuse.line-not-passed");
}

#[test]
fn what_is_noted_of_a_line_changes_nothing_about_it() {
    let mut bay = ready();
    let line = bay.find("tess", L2, "drum").unwrap();
    bay.tell("tess", &line, LineState::Waiting).unwrap();
    let before = bay.card().extra_line(&line).unwrap().clone();
    let (photo, small) = (Sha::of(b"photo"), Sha::of(b"small"));
    let (card, tess) = (bay.card(), person("tess"));
    let drafts = vec![
        act::photo(&card, &tess, &line, (photo, small)).unwrap(),
        act::note_part(&card, &tess, &line, " drum ", "3600A").unwrap(),
        act::note_part(&card, &tess, &line, "cotter", "  ").unwrap(),
        act::note_minutes(&card, &tess, &line, 25).unwrap(),
        act::note_minutes(&card, &tess, &line, 50).unwrap(),
    ];
    assert!(drafts.iter().all(|draft| draft.event().may_be_skipped()));
    let last = bay.keep("tess", drafts);
    let after = bay.card().extra_line(&line).unwrap().clone();
    assert_eq!((after.state, &after.told), (before.state, &before.told));
    assert_eq!(after.photos().collect::<Vec<_>>(), [(photo, small)]);
    assert_eq!(after.minutes(), 75);
    let parts = after.notes.iter().filter_map(|noted| match &noted.note {
        Note::Part { part, number } => Some((part.as_str(), number.as_deref())),
        Note::Photo { .. } | Note::Minutes(_) => None,
    });
    let parts: Vec<_> = parts.collect();
    assert_eq!(parts, [("drum", Some("3600A")), ("cotter", None)]);
    let noted = after.notes.last().unwrap();
    assert_eq!(noted.line.tablet, last.tablet);
    bay.strike("tess", &noted.line, None).unwrap();
    assert_eq!(bay.card().extra_line(&line).unwrap().minutes(), 25);
}

#[test]
fn nothing_is_noted_of_a_line_that_is_not_there_or_without_saying_what() {
    let mut bay = ready();
    let line = bay.find("tess", L2, "drum").unwrap();
    let none = LineRef {
        n: line.n + 70,
        ..line.clone()
    };
    let card = bay.card();
    let (tess, zoe) = (person("tess"), person("zoe"));
    let shas = (Sha::of(b"photo"), Sha::of(b"small"));
    let long = "x".repeat(act::TEXT_MAX + 1);
    for (refused, expected) in [
        (act::photo(&card, &tess, &none, shas), "refuse.line-unknown"),
        (act::photo(&card, &zoe, &line, shas), "hold.sign-on"),
        (
            act::note_part(&card, &tess, &line, " ", "7"),
            "refuse.part-missing",
        ),
        (
            act::note_part(&card, &tess, &line, "drum", &long),
            "setup.text-too-long",
        ),
        (
            act::note_part(&card, &tess, &none, "drum", ""),
            "refuse.line-unknown",
        ),
        (
            act::note_minutes(&card, &tess, &line, 0),
            "refuse.minutes-missing",
        ),
        (
            act::note_minutes(&card, &tess, &none, 5),
            "refuse.line-unknown",
        ),
    ] {
        assert_eq!(key(&refused, &card), expected);
    }
    bay.keep(
        "tess",
        vec![act::note_minutes(&card, &tess, &line, 5).unwrap()],
    );
    let may = act::may_strike(&bay.card(), &tess, &line, bay.stamp()).unwrap();
    assert!(!may.at_once, "something was noted of it");
}

#[test]
fn who_was_asked_is_typed_once_and_kept_with_each_answer() {
    let mut bay = ready();
    let boot = bay.find("tess", L2, "boot").unwrap();
    let drum = bay.find("tess", L2, "drum").unwrap();
    let seal = bay.find("tess", L2, "seal").unwrap();
    let worst_first = |bay: &Bay| {
        let card = bay.card();
        let lines = card.to_read_out().into_iter();
        lines.map(|extra| extra.line.clone()).collect::<Vec<_>>()
    };
    assert_eq!(
        worst_first(&bay),
        [seal.clone(), drum.clone(), boot.clone()]
    );
    assert_eq!(bay.card().customer(), None);
    let ask = |bay: &mut Bay, line: &LineRef, state, name: &str| {
        let draft = act::tell_asked(&bay.card(), &person("tess"), line, state, name);
        draft.map(|draft| bay.keep("tess", vec![draft]))
    };
    let nobody = ask(&mut bay, &drum, LineState::SaidYes, " ");
    assert_eq!(key(&nobody, &bay.card()), "refuse.asked-missing");
    ask(&mut bay, &drum, LineState::SaidYes, "Mr. Ode").unwrap();
    let no = ask(&mut bay, &boot, LineState::SaidNo, "Ms. Brandt").unwrap();
    assert_eq!(bay.card().customer(), Some("Ms. Brandt"));
    let asked = |bay: &Bay, line: &LineRef| {
        let card = bay.card();
        card.extra_line(line).unwrap().told[0].asked.clone()
    };
    assert_eq!(asked(&bay, &drum).as_deref(), Some("Mr. Ode"));
    bay.strike("tess", &no, None).unwrap();
    assert_eq!(bay.card().customer(), Some("Mr. Ode"));
    bay.tell("tess", &drum, LineState::Done).unwrap();
    assert_eq!(
        worst_first(&bay),
        [seal, boot],
        "what is done is not read out"
    );
}
