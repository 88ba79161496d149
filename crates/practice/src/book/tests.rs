use super::*;
use crate::boxes::{Sureness, standings};
use crate::marking::mark_run;
use crate::run::Run;
use crate::seed::Level;

const SEED: Seed = Seed::new(Level::Usual, 42);

const fn on(day: i64) -> Date {
    Date {
        year: 2026,
        month: 3,
        day,
    }
}

fn card(name: &str) -> CardId {
    CardId::of_practice(name)
}

fn begun(name: &str, who: &str) -> Entry {
    Entry::Begun {
        card: card(name),
        seed: SEED,
        who: who.into(),
        on: on(2),
    }
}

/// A run in which nothing was said.
fn marked(name: &str, who: &str) -> Entry {
    let run = Run::of(SEED);
    let moments = Book::default().moments(&card(name), &run.axle.scenes);
    let marking = mark_run(&run, &[], moments);
    Entry::Marked {
        card: card(name),
        seed: SEED,
        who: who.into(),
        on: on(3),
        results: came(&marking),
        moments: marking.moments,
    }
}

fn all() -> Vec<Entry> {
    let run = Run::of(SEED);
    let mut all = vec![
        Entry::Given {
            seed: SEED,
            by: "p-f".into(),
            to: vec!["p-a".into(), "p-b".into()],
            on: on(1),
        },
        begun("c1", "p-a"),
        Entry::StandsTried { card: card("c1") },
        marked("c1", "p-a"),
        Entry::Drilled {
            who: "p-a".into(),
            on: on(4),
            kind: Kind::EdgeCode,
            right: true,
        },
    ];
    all.extend(run.axle.scenes.iter().map(|scene| Entry::Said {
        card: card("c1"),
        scene: *scene,
        said: scene.right(),
    }));
    all
}

#[test]
fn every_entry_comes_back_from_its_line() {
    for entry in all() {
        let line = entry.line();
        assert!(!line.contains('\n'), "{line}");
        assert_eq!(Entry::read(&line), Some(entry), "{line}");
        assert_eq!(Entry::read(&format!("{line}\tmore")), None);
        assert_eq!(Entry::read(line.rsplit_once('\t').unwrap().0), None);
        assert_eq!(Entry::read(&line.replacen('1', "2", 1)), None);
    }
    for item in Item::OF_AXLE.iter().chain(Item::OF_END) {
        assert_eq!(Item::from_code(item.code()), Some(*item));
    }
    for outcome in Outcome::ALL {
        assert_eq!(Outcome::from_code(outcome.code()), Some(*outcome));
    }
}

#[test]
fn a_line_that_cant_be_read_is_counted_and_hides_no_other() {
    let lines: Vec<String> = all().iter().map(Entry::line).collect();
    let mut texts: Vec<&str> = lines.iter().map(String::as_str).collect();
    texts.insert(1, "1\tpainted\tblue");
    let book = Book::read(texts);
    assert_eq!(book.lines(), lines.len() + 1);
    assert!(book.run(&card("c1")).unwrap().is_marked);
    assert!(!Book::read(["nonsense"]).is_empty());
    assert!(Book::read([]).is_empty());
}

#[test]
fn the_book_is_of_the_practice_bay() {
    assert!(card_id().is_practice());
}

#[test]
fn a_seed_that_was_given_stands_until_its_run_is_begun() {
    let given = all().swap_remove(0);
    let book = Book::default().with(given.clone()).with(given);
    let (a, b, f) = ("p-a".into(), "p-b".into(), PersonId::from("p-f"));
    assert_eq!(book.given_to(&a), [(SEED, &f)]);
    assert_eq!(book.given_to(&f), []);
    let book = book.with(begun("c1", "p-a"));
    assert_eq!(book.given_to(&a), []);
    assert_eq!(book.given_to(&b), [(SEED, &f)]);
}

#[test]
fn several_people_with_one_seed_stand_side_by_side() {
    let book = ["p-a", "p-b"].iter().fold(Book::default(), |book, who| {
        book.with(begun(who, who)).with(marked(who, who))
    });
    let who: Vec<&str> = book
        .of_seed(SEED)
        .iter()
        .map(|run| run.who.as_str())
        .collect();
    assert_eq!(who, ["p-a", "p-b"]);
    assert_eq!(book.of_seed(Seed::new(Level::Usual, 43)), []);
    assert_eq!(book.seeds_marked(), [SEED]);
}

#[test]
fn what_was_said_at_a_moment_and_what_was_tried_too_early_are_both_moments() {
    let run = Run::of(SEED);
    let own = Scene {
        waits: scene::pair("chocks", "stands").unwrap(),
        done: false,
    };
    assert!(!run.axle.scenes.contains(&own));
    let said = |scene: Scene, said| Entry::Said {
        card: card("c1"),
        scene,
        said,
    };
    let first = run.axle.scenes[0];
    let book = Book::default()
        .with(said(first, first.right()))
        .with(said(own, Say::GoOn));
    let moments = book.moments(&card("c1"), &run.axle.scenes);
    assert_eq!(moments.len(), run.axle.scenes.len() + 1);
    assert_eq!(moments[0].said, Some(first.right()));
    assert_eq!(moments[1].said, None, "it did not come up");
    let marking = mark_run(&run, &[], moments);
    assert_eq!(marking.moments[0].scene, own, "too early comes first");
    assert!(marking.moments[0].too_early());
    assert_eq!(book.moments(&card("c2"), &[]), []);
}

#[test]
fn runs_and_drills_are_what_somebody_is_sure_by() {
    let drilled = |day, right| Entry::Drilled {
        who: "p-a".into(),
        on: on(day),
        kind: Kind::EdgeCode,
        right,
    };
    let book = [drilled(1, true), drilled(2, true), drilled(5, true)]
        .into_iter()
        .fold(Book::default(), |book, entry| book.with(entry));
    let sure = |book: &Book, who: &str, kind: Kind| {
        let standings = standings(&book.results(&who.into()));
        let of = standings.iter().find(|one| one.kind == kind).unwrap();
        of.sureness
    };
    assert_eq!(sure(&book, "p-a", Kind::EdgeCode), Sureness::Sure);
    assert_eq!(sure(&book, "p-b", Kind::EdgeCode), Sureness::New);
    // In a run in which nothing was said something was missed, and what was not looked at is no result.
    let book = book.with(marked("c1", "p-a"));
    let missed = by_kind_missed();
    assert!(!missed.is_empty());
    for kind in missed {
        assert_eq!(sure(&book, "p-a", kind), Sureness::Shaky, "{kind:?}");
    }
    assert_eq!(sure(&book, "p-a", Kind::First), Sureness::New);
}

/// The kinds of judgement of which the seed holds something wrong.
fn by_kind_missed() -> Vec<Kind> {
    let run = Run::of(SEED);
    let wrong = run.decisions().iter().filter(|one| one.ruling.refuses());
    wrong.map(|one| one.item.kind()).collect()
}
