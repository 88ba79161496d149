//! Every drill asked of many seeds, answered right and answered wrong.

use rules::shown::{self, Lean};

use super::*;
use crate::seed::{Level, Seed};

fn questions(drill: Drill) -> impl Iterator<Item = Question> {
    (0..200).map(move |number| {
        let level = Level::ALL[number as usize % Level::ALL.len()];
        let seed = Seed::new(level, number * 7_919);
        ask(drill, seed).unwrap_or_else(|| panic!("{drill:?} of {seed}"))
    })
}

fn typed(quantity: Quantity, unit: Unit, places: u8, lean: Lean) -> Answer {
    let text = shown::decimal(quantity, unit, places, lean).unwrap().text;
    Answer::Reading(Typed::parse(&text, unit).unwrap())
}

/// What of `answers` is right.
fn rights(question: &Question, answers: impl Iterator<Item = Answer>) -> usize {
    answers
        .filter(|answer| question.check(answer).is_right())
        .count()
}

const WORDS: [Verdict; 3] = [Verdict::Within, Verdict::AtTheLimit, Verdict::Beyond];

#[test]
fn the_same_seed_asks_the_same() {
    for drill in Drill::ALL {
        assert_eq!(Drill::from_code(drill.code()), Some(*drill));
        for number in 0..20 {
            let asked = || ask(*drill, Seed::new(Level::Usual, number)).unwrap();
            assert_eq!(asked().drill(), *drill);
            assert_eq!(format!("{:?}", asked()), format!("{:?}", asked()));
        }
    }
}

#[test]
fn an_instrument_is_read_to_its_graduation() {
    let (mut gauges, mut clicks) = (0, std::collections::BTreeSet::new());
    for question in questions(Drill::Read) {
        let instrument = match &question {
            Question::Read(decision) => decision.reading().unwrap(),
            Question::Gauge(instrument) => *instrument,
            Question::Click(moved) => {
                let all = (0..9).map(Answer::One);
                assert_eq!(rights(&question, all), 1, "{moved:?}");
                assert!(question.check(&Answer::One(0)).source.is_some());
                clicks.insert(moved.code());
                continue;
            }
            Question::Limit { .. }
            | Question::Stands { .. }
            | Question::Pattern { .. }
            | Question::First { .. }
            | Question::Fault { .. }
            | Question::Cause { .. }
            | Question::EdgeCode { .. }
            | Question::Units { .. } => panic!("{question:?}"),
        };
        gauges += u32::from(matches!(question, Question::Gauge(_)));
        let (unit, shows) = (instrument.tool().unit(), instrument.shows());
        assert!(
            question
                .check(&typed(shows, unit, 6, Lean::Down))
                .is_right()
        );
        let next = shows.checked_add(instrument.tool().graduation()).unwrap();
        let off = question.check(&typed(next, unit, 6, Lean::Down)).off;
        assert!(
            matches!(off, Off::Reading(Read::Off { marks: 1, .. })),
            "{off:?}"
        );
    }
    assert!((10..80).contains(&gauges), "{gauges}");
    assert_eq!(clicks.len(), rules::torque::moved::Moved::ALL.len());
}

#[test]
fn one_word_and_one_limit_are_right() {
    let mut beyond = 0;
    for question in questions(Drill::Limit) {
        let Question::Limit {
            decision, offered, ..
        } = &question
        else {
            panic!("{question:?}");
        };
        assert!((3..=4).contains(&offered.len()));
        let all = WORDS
            .into_iter()
            .flat_map(|verdict| (0..6).map(move |offered| Answer::Limit { verdict, offered }));
        assert_eq!(rights(&question, all), 1, "{question:?}");
        let verdict = decision.ruling.verdict();
        beyond += u32::from(verdict == Verdict::Beyond);
        let off = |offered| question.check(&Answer::Limit { verdict, offered }).off;
        let others = (0..offered.len()).filter(|at| matches!(off(*at), Off::OtherLimit { .. }));
        assert_eq!(others.count(), offered.len() - 1);
    }
    assert!((60..140).contains(&beyond), "{beyond}");
}

#[test]
fn one_pair_of_stands_is_right_and_the_others_say_why_not() {
    for question in questions(Drill::Stands) {
        let Question::Stands { pairs, .. } = &question else {
            panic!("{question:?}");
        };
        assert!(pairs.len() > 1);
        assert_eq!(
            rights(&question, (0..9).map(Answer::One)),
            1,
            "{question:?}"
        );
        for at in 0..pairs.len() {
            let off = question.check(&Answer::One(at)).off;
            assert!(matches!(off, Off::Nothing | Off::Stands(_)), "{off:?}");
        }
    }
}

#[test]
fn a_pattern_is_walked_as_printed_or_as_well() {
    for question in questions(Drill::Pattern) {
        let Question::Pattern { studs } = question else {
            panic!("{question:?}");
        };
        let printed = pattern::built_in(studs).unwrap();
        let right = Answer::Order(printed.order().to_vec());
        assert!(question.check(&right).is_right());
        let round = question.check(&Answer::Order((1..=studs).collect()));
        assert!(matches!(round.off, Off::Order { .. }), "{studs}: {round:?}");
        assert!(round.source.is_some());
        let twice = Answer::Order(vec![1; usize::from(studs)]);
        assert!(matches!(question.check(&twice).off, Off::NoOrder(_)));
    }
}

#[test]
fn one_step_comes_first() {
    for question in questions(Drill::First) {
        let Question::First { then, offered } = &question else {
            panic!("{question:?}");
        };
        assert!(!offered.contains(then) && offered.len() == 4);
        assert_eq!(
            rights(&question, (0..9).map(Answer::One)),
            1,
            "{question:?}"
        );
        let wrong = (0..4).find(|at| !question.check(&Answer::One(*at)).is_right());
        let off = question.check(&Answer::One(wrong.unwrap())).off;
        assert!(matches!(off, Off::First(firsts) if !firsts.is_empty()));
    }
}

#[test]
fn one_part_may_not_stay_for_one_finding() {
    for question in questions(Drill::Fault) {
        let Question::Fault { looks, offered } = &question else {
            panic!("{question:?}");
        };
        assert_eq!(looks.len(), 4);
        assert!((2..=4).contains(&offered.len()), "{offered:?}");
        let all =
            (0..9).flat_map(|look| (0..9).map(move |offered| Answer::Fault { look, offered }));
        assert_eq!(rights(&question, all), 1, "{question:?}");
        assert!(looks.iter().any(|look| look.item.kind() == question.kind()));
        let wrong = looks.iter().position(|look| look.ruling.refuses()).unwrap();
        let off = |look, offered| question.check(&Answer::Fault { look, offered }).off;
        let named = (0..offered.len()).filter(|at| matches!(off(wrong, *at), Off::OtherFault(_)));
        assert_eq!(named.count(), offered.len() - 1);
        assert!(matches!(off((wrong + 1) % 4, 0), Off::Sound(_)));
    }
}

#[test]
fn a_long_stroke_has_a_cause_that_can_be_found() {
    for question in questions(Drill::Cause) {
        let Question::Cause { applied, looks, .. } = &question else {
            panic!("{question:?}");
        };
        assert_eq!(applied.ruling.verdict(), Verdict::Beyond);
        let of = |tree| (0..looks.len()).map(move |look| Answer::Cause { tree, look });
        assert!(rights(&question, of(Tree::Brake)) > 0, "{question:?}");
        assert_eq!(rights(&question, of(Tree::Drags)), 0);
        let off = question.check(&Answer::Cause {
            tree: Tree::Adjuster,
            look: 0,
        });
        assert_eq!(off.off, Off::OtherTree(&[Tree::Brake]));
    }
}

#[test]
fn codes_are_alike_or_not() {
    let mut alike = 0;
    for question in questions(Drill::EdgeCode) {
        let sound = question.check(&Answer::Verdict(Verdict::Sound));
        let replace = question.check(&Answer::Verdict(Verdict::Replace));
        assert_ne!(sound.is_right(), replace.is_right(), "{question:?}");
        assert!(sound.source.is_some());
        alike += u32::from(sound.is_right());
    }
    assert!((50..150).contains(&alike), "{alike}");
}

#[test]
fn a_figure_in_the_other_unit_is_right_to_its_last_place() {
    for question in questions(Drill::Units) {
        let Question::Units {
            printed,
            unit,
            places,
        } = &question
        else {
            panic!("{question:?}");
        };
        let quantity = printed.quantity();
        let near = typed(quantity, *unit, *places, Lean::Nearest);
        assert!(question.check(&near).is_right(), "{question:?}");
        let finer = typed(quantity, *unit, places + 1, Lean::Nearest);
        assert!(question.check(&finer).is_right(), "{question:?}");
        let more = Quantity::from_base(quantity.dimension(), quantity.base() * 3 / 2).unwrap();
        let far = question
            .check(&typed(more, *unit, places + 1, Lean::Up))
            .off;
        assert!(
            matches!(far, Off::Figure { by } if by.base() > 0),
            "{question:?}"
        );
        let same = Answer::Reading(printed.clone());
        assert_eq!(question.check(&same).off, Off::NoAnswer);
    }
}

#[test]
fn an_answer_to_another_question_is_none() {
    for drill in Drill::ALL {
        let question = ask(*drill, Seed::new(Level::Usual, 1)).unwrap();
        let answers = [
            Answer::One(99),
            Answer::Limit {
                verdict: Verdict::Within,
                offered: 99,
            },
            Answer::Cause {
                tree: Tree::Brake,
                look: 99,
            },
        ];
        for answer in &answers {
            assert_eq!(question.check(answer).off, Off::NoAnswer, "{drill:?}");
        }
    }
}
