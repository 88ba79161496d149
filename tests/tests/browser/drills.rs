//! Each drill answered right and answered wrong; a reload goes on where it was; the practice bay
//! alone has them.

use practice::drill::round::Round;
use practice::drill::{Answer, Drill, Question};
use practice::instrument::{Instrument, Tool};
use practice::seed::{Level, Seed};
use rules::slack::cause::Tree;
use rules::torque::pattern;
use rules::typed::Typed;
use rules::unit::Unit;
use rules::verdict::Verdict;
use tests::browser::dist;
use tests::browser::host::Host;
use tests::browser::tablet::Tablet;
use tests::browser::words::word;

const SEED: Seed = Seed::new(Level::Usual, 42);

#[test]
fn drills() {
    let host = Host::start(&dist());
    let tablet = Tablet::new("drills", &host.address());
    assert!(!tablet.sees("drills"));
    tablet.go("drills");
    assert!(tablet.sees("only-practice"));
    to_practice(&tablet);
    tablet.go("start");
    tablet.press("drills");
    tablet.press("choice-first");
    tablet.wait_to_see("question");

    for drill in Drill::ALL {
        for right in [true, false] {
            once(&tablet, *drill, right);
        }
    }
    round(&tablet);
    let complaints = tablet.complaints();
    assert!(complaints.is_empty(), "{complaints:#?}");
}

/// From a page of the practice bay, opened in the shop, into the bay.
pub(crate) fn to_practice(tablet: &Tablet) {
    tablet.press("done");
    tablet.wait_to_see("practice-band");
}

/// The first question of a drill, answered so that it is right or wrong, and what is said of it.
fn once(tablet: &Tablet, drill: Drill, right: bool) {
    let round = Round::new(drill, SEED);
    let question = round.question(1).expect("the round asks");
    let answer = answers(&question)
        .into_iter()
        .find(|answer| question.check(answer).is_right() == right)
        .unwrap_or_else(|| panic!("{drill:?} has no answer that is right: {right}"));
    tablet.go("drills");
    tablet.go(&format!("drill/{}", round.text()));
    tablet.wait_to_see("question");
    tablet.press("done");
    if !matches!(question, Question::Read(_) | Question::Gauge(_)) && !tablet.sees("wanting") {
        // A page of pictures came before the one that wants an answer.
        tablet.press("done");
        assert!(
            tablet.sees("wanting"),
            "no answer of {drill:?} was taken for one"
        );
        tablet.press("back");
    } else if matches!(question, Question::Read(_) | Question::Gauge(_)) {
        tablet.press("back");
    }
    give(tablet, &question, &answer);
    tablet.wait_to_see("said");
    let key = if right {
        "ui.drill.right"
    } else {
        "ui.drill.off"
    };
    assert_eq!(tablet.reads("said"), word(key, &[]), "{drill:?} {answer:?}");
    assert_eq!(
        tablet.fragment(),
        format!("drill/{}", round.saying(answer).text())
    );
    // What an order is off by is told by the printed one, what a pair of stands by its bars.
    assert!(
        right || !tablet.reads("off").is_empty(),
        "{drill:?}: it doesn't say what was off"
    );
}

/// A whole round with a reload in its middle.
fn round(tablet: &Tablet) {
    let mut round = Round::new(Drill::Fault, SEED);
    tablet.go(&format!("drill/{}", round.text()));
    while !round.is_over() {
        let number = round.number();
        let question = round.question(number).expect("the round asks");
        let right = number != 2;
        let answer = answers(&question)
            .into_iter()
            .find(|answer| question.check(answer).is_right() == right)
            .expect("it is there");
        give(tablet, &question, &answer);
        tablet.wait_to_see("said");
        round = round.saying(answer);
        if number == 2 {
            let told = tablet.reads("off");
            reload(tablet, "said");
            assert_eq!(tablet.reads("off"), told);
        }
        tablet.press("done");
        round = round.on();
        tablet.wait("the next question", || {
            tablet.fragment() == format!("drill/{}", round.text())
        });
        if number == 2 {
            let asked = tablet.reads("question");
            reload(tablet, "question");
            assert_eq!(tablet.reads("question"), asked);
        }
    }
    tablet.wait_to_see("over");
    reload(tablet, "over");
    let off = word("ui.drill.off", &[]);
    for number in 1..=Drill::Fault.questions() {
        let told = tablet.reads(&format!("told-{number}"));
        assert_eq!(told.contains(&off), number == 2, "{told}");
    }
    let before = tablet.fragment();
    tablet.press("done");
    tablet.wait("another round", || tablet.fragment() != before);
    tablet.wait_to_see("question");
}

fn reload(tablet: &Tablet, then: &str) {
    tablet.driver().reload();
    tablet.wait_until_up();
    tablet.wait_to_see(then);
}

/// Answers that can be given; some are right and some are not.
fn answers(question: &Question) -> Vec<Answer> {
    let pairs = |one: usize, other: usize| {
        (0..one).flat_map(move |one| (0..other).map(move |other| (one, other)))
    };
    match question {
        Question::Read(decision) => readings(decision.reading().expect("it is measured")),
        Question::Gauge(instrument) => readings(*instrument),
        Question::Click(_) => (0..3).map(Answer::One).collect(),
        Question::Limit { offered, .. } => pairs(3, offered.len())
            .map(|(word, offered)| Answer::Limit {
                verdict: [Verdict::Within, Verdict::AtTheLimit, Verdict::Beyond][word],
                offered,
            })
            .collect(),
        Question::Stands { pairs, .. } => (0..pairs.len()).map(Answer::One).collect(),
        Question::First { offered, .. } => (0..offered.len()).map(Answer::One).collect(),
        Question::Pattern { studs } => vec![
            Answer::Order((1..=*studs).collect()),
            Answer::Order(
                pattern::built_in(*studs)
                    .expect("the pattern is printed")
                    .order()
                    .to_vec(),
            ),
        ],
        Question::Fault { looks, offered } => pairs(looks.len(), offered.len())
            .map(|(look, offered)| Answer::Fault { look, offered })
            .collect(),
        Question::Cause { looks, .. } => pairs(Tree::ALL.len(), looks.len())
            .map(|(tree, look)| Answer::Cause {
                tree: Tree::ALL[tree],
                look,
            })
            .collect(),
        Question::EdgeCode { .. } => [Verdict::Sound, Verdict::Replace]
            .map(Answer::Verdict)
            .to_vec(),
        Question::Units {
            printed,
            unit,
            places,
        } => {
            let near = rules::shown::decimal(
                printed.quantity(),
                *unit,
                *places,
                rules::shown::Lean::Nearest,
            );
            [near.expect("it is there").text, "9999".to_owned()]
                .map(|text| Answer::Reading(Typed::parse(&text, *unit).expect("it is a reading")))
                .to_vec()
        }
    }
}

/// What an instrument shows, and the next mark.
fn readings(instrument: Instrument) -> Vec<Answer> {
    [instrument.marks(), instrument.marks() + 1]
        .map(|marks| {
            let (text, unit) = typed(instrument.tool().at(marks));
            Answer::Reading(Typed::parse(&text, unit).expect("it is a reading"))
        })
        .to_vec()
}

/// How a reading is typed.
fn typed(instrument: Instrument) -> (String, Unit) {
    let (tool, marks) = (instrument.tool(), instrument.marks());
    let text = match tool {
        Tool::PushrodRule => {
            rules::shown::inch_fraction(rules::quantity::Length::from_inch_64ths(marks * 4))
                .expect("it is there")
        }
        Tool::LiningGauge => format!("{} {}/32", marks / 32, marks % 32),
        Tool::ShoeCaliper => format!("{} {}/64", marks / 64, marks % 64),
        Tool::Dial | Tool::Feeler | Tool::Micrometer => format!("0.{marks:03}"),
        Tool::DrumMicrometer => format!("{}.{:03}", marks * 5 / 1000, marks * 5 % 1000),
        Tool::PressureGauge => (marks * 5).to_string(),
        Tool::TorqueFeet | Tool::TorqueInches | Tool::AngleGauge => marks.to_string(),
    };
    (text, tool.unit())
}

/// Gives an answer with the keys of the screen, from its question's first page.
fn give(tablet: &Tablet, question: &Question, answer: &Answer) {
    match (question, answer) {
        (Question::Read(_) | Question::Gauge(_), Answer::Reading(typed)) => {
            tablet.press("done");
            let tool = match question {
                Question::Read(decision) => decision.reading().expect("it is measured").tool(),
                Question::Gauge(instrument) => instrument.tool(),
                _ => unreachable!("it is read"),
            };
            key_in(tablet, tool, typed.text());
        }
        (_, Answer::Reading(typed)) => tablet.key_in(typed.text()),
        (_, Answer::Limit { verdict, offered }) => {
            tablet.press_all(&["done", &format!("choice-{}", verdict.code()), "done"]);
            tablet.press(&format!("choice-{offered}"));
        }
        (_, Answer::Verdict(verdict)) => {
            tablet.press_all(&["done", &format!("choice-{}", verdict.code())]);
        }
        (Question::Click(_) | Question::Stands { .. }, Answer::One(at)) => {
            tablet.press_all(&["done", &format!("choice-{at}")]);
        }
        (_, Answer::One(at)) => tablet.press(&format!("choice-{at}")),
        (_, Answer::Order(nuts)) => nuts
            .iter()
            .for_each(|nut| tablet.press(&format!("nut-{nut}"))),
        (_, Answer::Fault { look, offered }) => {
            tablet.press_all(&[&format!("look-{look}"), "done"]);
            tablet.press(&format!("choice-{offered}"));
        }
        (_, Answer::Cause { tree, look }) => {
            let tree = Tree::ALL
                .iter()
                .position(|one| one == tree)
                .expect("every tree is listed");
            tablet.press_all(&["done", &format!("choice-{tree}"), "done"]);
            tablet.press(&format!("choice-{look}"));
        }
    }
    tablet.press("done");
}

fn key_in(tablet: &Tablet, tool: Tool, text: &str) {
    match tool {
        Tool::PushrodRule => {
            let (whole, part) = text.split_once(' ').unwrap_or(if text.contains('/') {
                ("0", text)
            } else {
                (text, "0/16")
            });
            let (over, under) = part.split_once('/').expect("it has two parts");
            let sixteenths = over.parse::<u32>().expect("it is a whole number") * 16
                / under.parse::<u32>().expect("it is a whole number");
            if whole != "0" {
                tablet.press(&format!("key-whole-{whole}"));
            }
            if sixteenths / 2 > 0 {
                tablet.press(&format!("key-eighths-{}", sixteenths / 2));
            }
            if sixteenths % 2 == 1 {
                tablet.press("key-more");
            }
        }
        Tool::LiningGauge | Tool::ShoeCaliper => {
            let (_, part) = text.split_once(' ').expect("it has two parts");
            tablet.key_in(part.split_once('/').expect("it has two parts").0);
        }
        _ if text.contains('.') => {
            // Digits come in as thousandths.
            let digits = text.replace('.', "");
            tablet.key_in(digits.trim_start_matches('0'));
        }
        _ => tablet.key_in(text),
    }
}
