use proptest::prelude::*;
use proptest::sample::Index;

use super::{TakenIn, Trail, TrailFault};
use crate::bay::{A2, Bay, L2, V, choice, lines, press, reading};
use crate::event::{Event, Role};
use crate::line::{Line, Sha, Spot};

fn noted(tablet: &str, n: u32, tick: u64, before: Sha, what: &str) -> Line {
    let spot = Spot {
        card: "card-1".into(),
        tablet: tablet.into(),
        n,
        tick,
        before,
    };
    let event = Event::SignedOn {
        person: what.into(),
        name: what.to_owned(),
        role: Role::Technician,
    };
    Line::write(spot, Bay::empty().stamp(), "tess".into(), event)
}

/// A strand of four lines.
fn strand(tablet: &str) -> Vec<Line> {
    let mut lines: Vec<Line> = Vec::new();
    for n in 1..=4 {
        let before = lines.last().map_or(Sha::NONE, |line| line.sha);
        lines.push(noted(tablet, n, u64::from(n), before, &format!("p{n}")));
    }
    lines
}

fn of(lines: impl IntoIterator<Item = Line>) -> Trail {
    let mut trail = Trail::new("card-1".into());
    for line in lines {
        trail.take_in(line);
    }
    trail
}

fn counting(trail: &Trail) -> Vec<u32> {
    trail.in_order().iter().map(|line| line.n).collect()
}

#[test]
fn a_whole_strand_has_no_fault() {
    let trail = of(strand("a"));
    assert_eq!(trail.faults(), []);
    assert_eq!(counting(&trail), [1, 2, 3, 4]);
    assert_eq!(trail.heads()[&"a".into()].n, 4);
}

#[test]
fn of_a_fork_neither_side_counts_nor_what_follows() {
    let mut lines = strand("a");
    let other = noted("a", 2, 2, lines[0].sha, "other");
    lines.push(other.clone());
    let mut trail = of(lines.clone());
    assert_eq!(
        trail.faults(),
        [TrailFault::Fork {
            tablet: "a".into(),
            n: 2
        }]
    );
    assert_eq!(counting(&trail), [1]);
    assert_eq!(trail.heads()[&"a".into()].n, 1);
    assert_eq!(trail.all().count(), 5, "both sides stay");
    assert_eq!(trail.take_in(other.clone()), TakenIn::AlreadyThere);
    assert!(trail.find(&other.reference()).is_some());
    assert!(trail.find(&lines[1].reference()).is_some());
    let third = noted("a", 2, 2, lines[0].sha, "third");
    assert_eq!(trail.take_in(third), TakenIn::Fork);
}

#[test]
fn what_follows_a_gap_waits() {
    let lines = strand("a");
    for gone in 0..3 {
        let mut trail = of(lines
            .iter()
            .enumerate()
            .filter(|(at, _)| *at != gone)
            .map(|(_, line)| line.clone()));
        let n = u32::try_from(gone).unwrap() + 1;
        assert_eq!(
            trail.faults(),
            [TrailFault::Gap {
                tablet: "a".into(),
                n
            }]
        );
        assert_eq!(counting(&trail), (1..n).collect::<Vec<_>>());
        assert_eq!(trail.take_in(lines[gone].clone()), TakenIn::New);
        assert_eq!(trail.faults(), []);
    }
}

#[test]
fn a_line_that_does_not_follow_breaks_the_chain() {
    let lines = strand("a");
    let broken = |line: Line| {
        let trail = of([lines[0].clone(), lines[1].clone(), line, lines[3].clone()]);
        assert_eq!(
            trail.faults(),
            [TrailFault::Broken {
                tablet: "a".into(),
                n: 3
            }]
        );
        assert_eq!(counting(&trail), [1, 2]);
    };
    broken(noted("a", 3, 3, lines[0].sha, "p3"));
    broken(noted("a", 3, 3, Sha::NONE, "p3"));
    broken(noted("a", 3, 2, lines[1].sha, "p3")); // Its tick does not rise.
    let first = of([noted("a", 1, 1, lines[0].sha, "p1")]);
    assert_eq!(first.faults().len(), 1);
    assert!(first.in_order().is_empty());
}

#[test]
fn another_strand_is_not_touched_by_a_fault() {
    let mut lines = strand("a");
    lines.remove(1);
    lines.extend(strand("b"));
    let trail = of(lines);
    assert_eq!(trail.faults().len(), 1);
    assert_eq!(counting(&trail), [1, 1, 2, 3, 4]);
}

#[test]
fn a_line_of_another_card_is_set_aside() {
    let mut trail = of(strand("a"));
    let mut bay = Bay::empty();
    bay.trail = Trail::new("card-2".into());
    bay.sign_on("tess", Role::Technician);
    let line = bay.trail.all().next().unwrap().clone();
    assert_eq!(trail.take_in(line.clone()), TakenIn::OtherCard);
    trail.take_in(line.clone());
    assert_eq!(trail.aside().len(), 1);
    assert_eq!(trail.aside()[0].text, line.text());
    assert!(matches!(&trail.faults()[..], [TrailFault::Aside { .. }]));
    assert_eq!(counting(&trail), [1, 2, 3, 4]);
}

#[test]
fn what_cannot_be_read_is_set_aside_and_kept() {
    let lines = strand("a");
    let texts = ["rubbish", "", lines[0].text(), "rubbish"];
    let trail = Trail::read("card-1".into(), texts);
    assert_eq!(counting(&trail), [1]);
    let kept: Vec<&str> = trail
        .aside()
        .iter()
        .map(|aside| aside.text.as_str())
        .collect();
    assert_eq!(kept, ["", "rubbish"]);
    assert_eq!(trail.faults().len(), 2);
}

#[test]
fn a_tablet_says_once_that_it_has_seen_the_others() {
    let mut one = Bay::open();
    let mut two = one.other_tablet("tablet-b");
    two.sign_on("bo", Role::Technician);
    let kinds = |bay: &Bay, tablet: &str| -> Vec<&'static str> {
        let mine = bay.trail.all().filter(|line| line.tablet == tablet.into());
        mine.filter_map(|line| line.event().map(Event::kind))
            .collect()
    };
    assert_eq!(kinds(&two, "tablet-b"), ["joined", "signed-on"]);
    two.sign_on("cy", Role::Technician);
    assert_eq!(
        kinds(&two, "tablet-b"),
        ["joined", "signed-on", "signed-on"]
    );
    one.trail.merge(&two.trail);
    one.chocked();
    let mine = kinds(&one, "tablet-a");
    assert_eq!(mine[mine.len() - 3..], ["joined", "answered", "answered"]);
    assert_eq!(one.trail.faults(), []);
}

/// Three tablets that wrote by themselves and took each other in now and then; a fork, a gap, a
/// line of another card and rubbish among the texts.
fn texts() -> Vec<String> {
    let mut one = Bay::open();
    let mut two = one.other_tablet("tablet-b");
    let mut three = one.other_tablet("tablet-c");
    one.secured();
    two.sign_on("bo", Role::Foreman);
    two.say("bo", V, "chocks", "set", press("none-stays"))
        .unwrap();
    three.sign_on("cy", Role::Apprentice);
    three
        .fact("cy", A2, "studs", crate::event::FactValue::Count(8))
        .unwrap();
    three.trail.merge(&two.trail);
    three.fact("cy", A2, "rim", choice("multi-piece")).unwrap();
    one.trail.merge(&two.trail);
    one.fact("tess", A2, "rim", choice("one-piece")).unwrap();
    one.force("tess", Event::EndTaken { at: L2 });
    let mut all: Vec<String> = Vec::new();
    for bay in [&one, &two, &three] {
        all.extend(bay.trail.all().map(|line| line.text().to_owned()));
    }
    let before = one.trail.in_order()[3].sha;
    let mut lost = strand("tablet-d");
    lost.remove(1);
    lost.push(noted("tablet-a", 5, 5, before, "forked"));
    all.extend(lost.iter().map(|line| line.text().to_owned()));
    all.push("rubbish".to_owned());
    all.sort();
    all.dedup();
    all
}

fn read(texts: &[String], picked: &[Index]) -> Trail {
    let picked = picked.iter().map(|index| index.get(texts).as_str());
    Trail::read("card-1".into(), picked)
}

fn merged(a: &Trail, b: &Trail) -> Trail {
    let mut both = a.clone();
    both.merge(b);
    both
}

fn same(a: &Trail, b: &Trail) -> Result<(), TestCaseError> {
    prop_assert_eq!(format!("{a:?}"), format!("{b:?}"));
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn merging_is_a_union(
        a in prop::collection::vec(any::<Index>(), 0..40),
        b in prop::collection::vec(any::<Index>(), 0..40),
        c in prop::collection::vec(any::<Index>(), 0..40),
    ) {
        let texts = texts();
        let (a, b, c) = (read(&texts, &a), read(&texts, &b), read(&texts, &c));
        same(&merged(&a, &a), &a)?;
        same(&merged(&a, &b), &merged(&b, &a))?;
        same(&merged(&merged(&a, &b), &c), &merged(&a, &merged(&b, &c)))?;
        same(&merged(&merged(&a, &b), &a), &merged(&a, &b))?;
    }
}

#[test]
fn a_struck_line_and_a_lost_one_leave_the_texts_alone() {
    let mut bay = Bay::raised();
    let before: Vec<String> = bay.trail.all().map(|line| line.text().to_owned()).collect();
    let line = bay.trail.in_order().last().unwrap().reference();
    bay.strike("tess", &line, None).unwrap();
    assert!(bay.say("tess", L2, "hang", "hung", lines()).is_err());
    assert!(
        bay.say("tess", L2, "as-found", "applied", reading("1", "in"))
            .is_ok()
    );
    let after: Vec<String> = bay.trail.all().map(|line| line.text().to_owned()).collect();
    assert_eq!(after[..before.len()], before[..]);
}
