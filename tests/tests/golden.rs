//! Trails as they were once written, and what they must always add up to.
//!
//! `golden/*.trail` are added to and never edited: an app that reads one of them otherwise than
//! it once did would change what happened. Beside each stands its card as text (`*.card`).
//! They follow `golden/small-job.json` and `golden/second-job.json`, procedures of their own.

#![expect(clippy::unwrap_used, reason = "what a test leans on may fail it")]

use std::collections::BTreeSet;
use std::fmt::Write;
use std::path::PathBuf;

use job::card::{Card, Entry, Though, fold};
use job::event::{Answer, BroughtHow, Event, FactValue, Item};
use job::extra::Note;
use job::hold::Hold;
use job::id::Place;
use job::line::{Line, Said, Sha};
use job::procedures::Procedures;
use job::second_look::{Waits, waits};
use job::trail::{Trail, TrailFault};

const PROCEDURE: &str = include_str!("../golden/small-job.json");
const SECOND: &str = include_str!("../golden/second-job.json");

/// Every golden file and the hash it was frozen with. New ones go at the end.
const FROZEN: [(&str, &str); 13] = [
    (
        "small-job.json",
        "8742c05a19aed122522afa771dd294a36b573ff409da5c2bbdb1280f47534abc",
    ),
    (
        "one-tablet.trail",
        "d0ded40237d284c77255bb705f5954b22923371b33e40f2cbdc18effac11dad8",
    ),
    (
        "two-tablets.trail",
        "c7bc4a759a3ac2f5b3938837b49ebdea633e7171840bd6d94a134e27e61f70d3",
    ),
    (
        "newer-kinds.trail",
        "677efbd1df92d4e011171aa158f2cde71fb56be9fcaa7b70fb8a3e7c6cf40e26",
    ),
    (
        "damaged.trail",
        "0cbc84bca8a700609a68710a21b6f4b5aa9068f099185bb37ba6f865a0977191",
    ),
    (
        "second-job.json",
        "b9d54d40219c9243833d986560827eada0c9d34da1647e6c9ec0f7034da2fa4b",
    ),
    (
        "found-and-sent-back.trail",
        "3e2904ff618eafdad95d457f00272e737aab868b753f0e0fe20b27665f091869",
    ),
    (
        "brought-and-put-away.trail",
        "39b8df623f0f45538f91a244af3920d331f064f4998e9932872d3d32add19756",
    ),
    (
        "lines-noted.trail",
        "3e3fc2c28409b0deedb38b9e3fe68aac70b28e52974a977470c79672bbde7329",
    ),
    (
        "shop-values.trail",
        "63c24d47aadf0d428f8183e3ecdb158b8420455293f804be5d0e9e8d07784cc3",
    ),
    (
        "jacks.trail",
        "66ed56c28d214a772df498d5216c4522a3e7bfb89a8df800f1ccede3980752b0",
    ),
    (
        "shop-limits.trail",
        "303a5d182e97dd4e54c850b5a608da8a3c2abc418262725f86e31e5e4f55322d",
    ),
    (
        "shop-steps.trail",
        "0d77535572058536b95838c4da1eb78b5a4d0075cf153f66e94b0b0ef7e118cc",
    ),
];

fn golden() -> PathBuf {
    [env!("CARGO_MANIFEST_DIR"), "golden"].iter().collect()
}

fn text(name: &str) -> String {
    std::fs::read_to_string(golden().join(name)).expect(name)
}

fn trail(name: &str) -> Trail {
    let text = text(name);
    Trail::read("card-1".into(), text.lines())
}

fn card(trail: &Trail) -> Card {
    fold(trail, &Procedures::read([PROCEDURE], SECOND).unwrap())
}

#[test]
fn nobody_edited_them() {
    for (name, sha) in FROZEN {
        assert_eq!(Sha::of(text(name).as_bytes()).to_string(), sha, "{name}");
    }
    let there: BTreeSet<String> = std::fs::read_dir(golden())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .filter(|name| !name.ends_with(".card"))
        .collect();
    let frozen: BTreeSet<String> = FROZEN.iter().map(|(name, _)| (*name).to_owned()).collect();
    assert_eq!(there, frozen);
}

#[test]
fn each_adds_up_to_its_card() {
    for (name, _) in FROZEN.iter().filter(|(name, _)| name.ends_with(".trail")) {
        let trail = trail(name);
        let expected = text(&name.replace(".trail", ".card"));
        assert_eq!(shown(&trail, &card(&trail)), expected, "{name}");
    }
}

#[test]
fn each_line_is_kept_byte_for_byte() {
    for (name, _) in FROZEN.iter().filter(|(name, _)| name.ends_with(".trail")) {
        let text = text(name);
        let mut stored: Vec<&str> = text.lines().collect();
        let trail = trail(name);
        let mut kept: Vec<&str> = trail.all().map(Line::text).collect();
        kept.extend(trail.aside().iter().map(|aside| aside.text.as_str()));
        stored.sort_unstable();
        kept.sort_unstable();
        assert_eq!(kept, stored, "{name}");
    }
}

#[test]
fn they_hold_what_they_are_there_for() {
    let of = |name: &str| card(&trail(name));
    let kinds = |card: &Card| -> BTreeSet<String> {
        card.entries
            .iter()
            .filter_map(|entry| entry.event())
            .map(|event| event.kind().to_owned())
            .collect()
    };
    let two = of("two-tablets.trail");
    assert!(two.heads.len() > 1);
    assert!(kinds(&two).contains("joined") && kinds(&two).contains("struck"));
    assert!(
        two.entries
            .iter()
            .any(|entry| matches!(entry.though, Some(Though::Held(_))))
    );
    let newer = of("newer-kinds.trail");
    assert_eq!(newer.newer, ["gauge-checked"]);
    assert!(
        newer
            .entries
            .iter()
            .any(|entry| matches!(&entry.said, Said::MayBeSkipped { kind } if kind == "tea-made"))
    );
    let damaged = of("damaged.trail");
    assert!(
        damaged
            .faults
            .iter()
            .any(|fault| matches!(fault, TrailFault::Fork { .. }))
    );
    assert!(
        damaged
            .faults
            .iter()
            .any(|fault| matches!(fault, TrailFault::Gap { .. }))
    );
    assert!(
        damaged
            .faults
            .iter()
            .any(|fault| matches!(fault, TrailFault::Aside { .. }))
    );
    let one = of("one-tablet.trail");
    assert!(
        one.entries
            .iter()
            .any(|entry| matches!(entry.though, Some(Though::BuiltOnStruck { .. })))
    );
    let brought = of("brought-and-put-away.trail");
    assert!(kinds(&brought).contains("put-away") && kinds(&brought).contains("brought"));
    assert!(brought.is_put_away());
    let how = |item: &str| brought.brought(&item.into());
    assert_eq!(how("chocks"), Some(BroughtHow::AtHand));
    assert_eq!(how("lamp"), None);
    assert_eq!(how("pry-bar"), Some(BroughtHow::Fetched));
    // An older app passes over them and sees the same card.
    let text = text("brought-and-put-away.trail");
    let may_skip = text.lines().filter(|line| line.contains("\"old\":\"may\""));
    assert_eq!(may_skip.count(), 7);
    let found = of("found-and-sent-back.trail");
    for kind in ["line-found", "line-told", "line-passed", "came-back"] {
        assert!(kinds(&found).contains(kind), "{kind}");
        let marked = |entry: &Entry| {
            entry.though == Some(Though::NotTheirs)
                && entry.event().is_some_and(|event| event.kind() == kind)
        };
        let has_one = kind == "line-found" || found.entries.iter().any(marked);
        assert!(has_one, "{kind} from a tablet that asks nothing");
    }
    assert!(
        found
            .entries
            .iter()
            .any(|entry| entry.though == Some(Though::Held(Hold::CameBack)))
    );
    let noted = of("lines-noted.trail");
    for kind in ["line-photo", "line-part", "line-minutes"] {
        assert!(kinds(&noted).contains(kind), "{kind}");
    }
    assert_eq!(noted.customer(), Some("Mr. Ode"));
    let shop = of("shop-values.trail");
    for kind in [
        "wrench-listed",
        "wrench-withdrawn",
        "wheel-set",
        "default-set",
        "shop-taken",
    ] {
        assert!(kinds(&shop).contains(kind), "{kind}");
    }
    let taken = shop.shop().expect("the card took the shop's values");
    assert_eq!(taken.version, taken.values.version());
    assert!(taken.values.wheels.contains_key(&"hub-m22".into()));
    let jacks = of("jacks.trail");
    assert!(kinds(&jacks).contains("jack-listed") && kinds(&jacks).contains("jack-withdrawn"));
    assert!(jacks.entries.iter().any(|entry| matches!(
        entry.event(),
        Some(Event::Answered { answer: Answer::Jack { used }, .. }) if used.jack == "J 1"
    )));
    let limits = of("shop-limits.trail");
    for kind in ["limit-set", "limit-dropped", "shop-taken"] {
        assert!(kinds(&limits).contains(kind), "{kind}");
    }
    let taken = limits.shop().expect("the card took the limits");
    let laws: Vec<bool> = taken
        .values
        .limits
        .iter()
        .map(|limit| limit.law.is_some())
        .collect();
    assert_eq!(laws, [false, true]);
    let steps = of("shop-steps.trail");
    for kind in [
        "shop-step-set",
        "shop-step-dropped",
        "final-pass-set",
        "shop-taken",
    ] {
        assert!(kinds(&steps).contains(kind), "{kind}");
    }
    // Dropped on the sheet and taken so, the card has kept what it did.
    let taken = steps.shop().expect("the card took the steps");
    assert_eq!((taken.values.steps.len(), steps.shop_steps.len()), (1, 2));
    // An app from before them does not know the kind that they are taken under.
    let text = self::text("shop-steps.trail");
    assert_eq!(text.matches(r#""kind":"sheet-taken""#).count(), 2);
    assert!(!text.contains(r#""kind":"shop-taken""#));
    let ends = Place::ends(2).map(|at| waits(&found, at));
    // What was found last is on the page of both ends.
    assert_eq!(ends, [Some(Waits::Changed); 2]);
}

/// The card as text: what is wrong, who, the facts, how far each step is, and every line.
fn shown(trail: &Trail, card: &Card) -> String {
    let mut text = String::new();
    let mut say = |line: String| writeln!(text, "{line}").unwrap();
    say(format!("card {}", card.id));
    for fault in &card.faults {
        say(format!("fault: {}", fault_shown(fault)));
    }
    for kind in &card.newer {
        say(format!("newer: {kind}"));
    }
    for (tablet, head) in &card.heads {
        say(format!("head: {tablet} {} {}", head.n, head.sha));
    }
    say(format!("in hand: {:?}", card.axles_in_hand()));
    for (person, signed) in &card.people {
        let on = if signed.on { "on" } else { "off" };
        say(format!(
            "person: {person}, {}, {}, {on}",
            signed.name,
            signed.role.code()
        ));
    }
    let Some(procedure) = card.procedure.clone() else {
        say("no procedure".to_owned());
        return text;
    };
    let mut places = vec![Place::Vehicle];
    places.extend((1..=3).map(Place::Axle));
    places.extend((1..=3).flat_map(Place::ends));
    for def in &procedure.facts {
        for at in &places {
            let Some(slot) = card.fact_slot(*at, &def.id) else {
                continue;
            };
            let live: Vec<String> = slot
                .live()
                .iter()
                .map(|held| value_shown(&held.value))
                .collect();
            let governs = card
                .fact(*at, &def.id)
                .map_or("none".to_owned(), value_shown);
            say(format!(
                "fact: {at} {}: {governs} of {}",
                def.id,
                live.join(" | ")
            ));
        }
    }
    for (at, step) in card.path() {
        let mut line = format!("step: {at} {}: {:?}", step.id, card.state(step, at));
        if let Some(hold) = job::hold::first_hold(card, &step.id, at) {
            write!(line, ", {}", hold_shown(&hold)).unwrap();
        }
        say(line);
    }
    for extra in card.extra_lines() {
        let passed = if extra.passed.is_some() {
            ", passed"
        } else {
            ""
        };
        say(format!(
            "extra: {} {}, {}, {}{passed}",
            extra.at,
            extra.finding,
            extra.fix,
            extra.state.code()
        ));
        for told in &extra.told {
            if let Some(asked) = &told.asked {
                say(format!("asked: {asked}, {}", told.state.code()));
            }
        }
        for noted in &extra.notes {
            say(format!("noted: {}", note_shown(&noted.note)));
        }
    }
    for entry in &card.entries {
        let what = match &entry.said {
            Said::Known(event) => match event.step() {
                Some((at, step)) => format!("{} {at} {step}", event.kind()),
                None => event.kind().to_owned(),
            },
            Said::MayBeSkipped { kind } => format!("{kind} (passed over)"),
            Said::MustBeUnderstood { kind } => format!("{kind} (not understood)"),
        };
        let mut line = format!(
            "line: {} {} by {}: {what}",
            entry.line.tablet, entry.line.n, entry.who
        );
        if let Some(job::event::Event::Answered {
            ask, item, judged, ..
        }) = entry.event()
        {
            write!(line, " {ask}").unwrap();
            match item {
                Item::Only => {}
                Item::Person(person) => write!(line, " of {person}").unwrap(),
                Item::Nut(nut) => write!(line, " {nut}").unwrap(),
            }
            for judged in judged {
                write!(line, ", {} {}", judged.rule, judged.verdict).unwrap();
            }
        }
        if let Some(by) = &entry.struck {
            write!(line, ", struck by {} {}", by.tablet, by.n).unwrap();
        }
        match &entry.though {
            None => {}
            Some(Though::Held(hold)) => write!(line, ", though {}", hold_shown(hold)).unwrap(),
            Some(Though::BuiltOnStruck { first, at }) => {
                write!(line, ", built on struck {first} {at}").unwrap();
            }
            Some(Though::NotTheirs) => line.push_str(", not theirs"),
        }
        say(line);
    }
    for aside in trail.aside() {
        say(format!("aside: {} ({})", aside.text, aside.why));
    }
    text
}

fn note_shown(note: &Note) -> String {
    match note {
        Note::Photo { photo, small } => format!("photo {photo}, small {small}"),
        Note::Part { part, number } => match number {
            Some(number) => format!("part {part}, {number}"),
            None => format!("part {part}"),
        },
        Note::Minutes(minutes) => format!("{minutes} min"),
    }
}

fn fault_shown(fault: &TrailFault) -> String {
    match fault {
        TrailFault::Fork { tablet, n } => format!("fork {tablet} {n}"),
        TrailFault::Gap { tablet, n } => format!("gap {tablet} {n}"),
        TrailFault::Broken { tablet, n } => format!("broken {tablet} {n}"),
        TrailFault::Aside { why } => format!("aside: {why}"),
    }
}

fn hold_shown(hold: &Hold) -> String {
    match hold {
        Hold::NotYet {
            first,
            at,
            protects,
        } => {
            format!("not yet: {first} {at}{}", if *protects { "!" } else { "" })
        }
        Hold::Stopped { first, at } => format!("stopped: {first} {at}!"),
        Hold::Damaged(fault) => format!("damaged: {}", fault_shown(fault)),
        Hold::Newer { kind } => format!("newer: {kind}"),
        Hold::UnknownProcedure => "unknown procedure".to_owned(),
        Hold::NotOpened => "not opened".to_owned(),
        Hold::NotOnPath => "not on the path".to_owned(),
        Hold::SignOn => "sign on".to_owned(),
        Hold::ForemanLooks => "a foreman looks".to_owned(),
        Hold::OwnWork { who } => format!("own work of {who}"),
        Hold::OwnPress { whose } => format!("own press of {whose}"),
        Hold::CoversUp {
            finding,
            at,
            protects,
            ..
        } => format!(
            "covers up: {finding} {at}{}",
            if *protects { "!" } else { "" }
        ),
        Hold::Unlike { part, first, at } => format!("unlike {} {first} at {at}", part.code()),
        Hold::CameBack => "came back!".to_owned(),
    }
}

fn value_shown(value: &FactValue) -> String {
    match value {
        FactValue::Choice(option) => option.to_string(),
        FactValue::Typed(typed) => format!("{} {}", typed.text, typed.unit),
        FactValue::Count(count) => count.to_string(),
        FactValue::Axles(axles) => format!("{axles:?}"),
        FactValue::Text(text) => format!("{text:?}"),
        FactValue::NotKnown => "not known".to_owned(),
    }
}
