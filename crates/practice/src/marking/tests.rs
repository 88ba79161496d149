//! Many seeds, each marked for who sees everything and for who lets everything go, and one in five for
//! who condemns everything. Four tests share the seeds, so that they run beside each other.

use std::collections::BTreeMap;
use std::ops::Range;

use rules::shown::{self, Lean};

use super::*;
use crate::axle::tests::assert_consistent;
use crate::decision::{Ruling, Shown};
use crate::fault::Fault;
use crate::instrument::Instrument;
use crate::scene::WAITS;
use crate::seed::{Level, Seed};

fn typed(instrument: Instrument) -> Typed {
    let unit = instrument.tool().unit();
    // A 64th of an inch has six places, and every other mark fewer.
    let shown = shown::decimal(instrument.shows(), unit, 6, Lean::Down).unwrap();
    assert!(shown.exact, "{instrument:?}");
    Typed::parse(&shown.text, unit).unwrap()
}

fn saying(decisions: &[Decision], verdict: impl Fn(&Decision) -> Verdict) -> Vec<Said> {
    decisions
        .iter()
        .map(|decision| Said {
            side: decision.side,
            item: decision.item,
            reading: decision.reading().map(typed),
            verdict: verdict(decision),
        })
        .collect()
}

fn rights(axle: &Axle) -> Vec<Say> {
    axle.scenes.iter().map(Scene::right).collect()
}

/// The worst that the rules say of the true state, asked once more past the decision.
fn agrees(axle: &Axle, decision: &Decision) {
    let Some(side) = decision.side else { return };
    let seed = axle.seed;
    let length = || decision.reading().unwrap().shows().length().unwrap();
    let again = if decision.item == Item::Applied {
        rules::slack::applied::judge_applied(length(), &axle.stroke_facts(side))
    } else if decision.item == Item::Lining {
        rules::lining::thickness::judge_thickness(length(), &axle.lining_facts())
    } else if decision.item == Item::Radial {
        rules::camshaft::play::judge_radial(length(), axle.brake)
    } else if decision.item == Item::Diameter {
        let marks = axle.end(side).drum().marks();
        rules::drum::diameter::judge_diameter(&[length()], marks)
    } else {
        return;
    };
    let Ruling::Judged(judged) = &decision.ruling else {
        panic!("{seed}: {decision:?}");
    };
    assert_eq!(judged.as_slice(), [again], "{seed}");
}

/// What a fault may bring along.
fn follows(fault: Fault) -> bool {
    matches!(
        fault,
        Fault::StrokeLong
            | Fault::AdjusterWeak
            | Fault::LiningOil
            | Fault::WheelSeal
            | Fault::CamSeal
            | Fault::Nuts
            | Fault::CamBushings
            | Fault::ChamberBracket
            | Fault::Rollers
            | Fault::ClevisHole
    )
}

fn one(seed: Seed, occurred: &mut BTreeMap<Fault, u32>) {
    let axle = Axle::of(seed);
    let decisions = axle.decisions();
    assert_consistent(&axle, &decisions);
    let mut shown: Vec<(Option<Side>, Fault)> = Vec::new();
    for decision in &decisions {
        agrees(&axle, decision);
        assert!(decision.faults.is_empty() || decision.ruling.refuses());
        let stands = decision.item == Item::Stands;
        assert_eq!(
            decision.faults.is_empty(),
            stands || !decision.ruling.refuses(),
            "{seed}"
        );
        shown.extend(decision.faults.iter().map(|fault| (decision.side, *fault)));
    }
    for planted in axle.planted() {
        assert!(shown.contains(planted), "{seed}: {planted:?} can't be seen");
        *occurred.entry(planted.1).or_default() += 1;
    }
    for fault in &shown {
        assert!(
            axle.planted().contains(fault) || follows(fault.1),
            "{seed}: {fault:?}"
        );
    }
    let wrong = decisions.iter().filter(|one| one.ruling.refuses()).count();
    let hurts = decisions
        .iter()
        .any(|one| one.ruling.refuses() && one.hurts());

    let perfect = saying(&decisions, |one| one.ruling.verdict());
    let marking = mark_decisions(&axle, decisions.clone(), &perfect, &rights(&axle));
    assert!(
        marking.is_without_blame() && marking.is_well_done(),
        "{seed}"
    );
    assert!(marking.by_kind().iter().all(|(_, right)| *right), "{seed}");

    let all_say = |verdict| {
        let say = |one: &Decision| Said {
            side: one.side,
            item: one.item,
            reading: None,
            verdict,
        };
        decisions.iter().map(say).collect::<Vec<Said>>()
    };
    let careless = all_say(Verdict::Within);
    let go = vec![Say::GoOn; axle.scenes.len()];
    let marking = mark_decisions(&axle, decisions.clone(), &careless, &go);
    let missed = marking.of(Outcome::Missed).count() + marking.of(Outcome::MissedAndHurts).count();
    assert_eq!(missed, wrong, "{seed}");
    let early = axle.scenes.iter().filter(|scene| !scene.done).count();
    assert_eq!(
        marking.moments.iter().filter(|one| one.too_early()).count(),
        early
    );
    assert_eq!(marking.is_well_done(), !hurts && early == 0, "{seed}");
    let first = marking.marks.first().unwrap();
    assert_eq!(first.outcome == Outcome::MissedAndHurts, hurts, "{seed}");

    if !seed.number().is_multiple_of(5) {
        return;
    }
    let harsh = all_say(Verdict::Replace);
    let all = decisions.len();
    let marking = mark_decisions(&axle, decisions, &harsh, &[]);
    assert_eq!(
        marking.of(Outcome::Condemned).count(),
        all - wrong,
        "{seed}"
    );
    assert_eq!(marking.of(Outcome::Right).count(), wrong, "{seed}");
    assert!(!marking.is_without_blame());
}

/// The whole is 100 000 seeds.
fn many(numbers: Range<u32>) {
    let mut occurred = BTreeMap::new();
    for number in numbers {
        let level = Level::ALL[number as usize % Level::ALL.len()];
        one(Seed::new(level, number), &mut occurred);
    }
    for fault in Fault::ALL {
        assert!(occurred.contains_key(fault), "{fault:?} never occurs");
    }
}

#[test]
fn the_first_quarter_of_the_seeds() {
    many(0..25_000);
}

#[test]
fn the_second_quarter_of_the_seeds() {
    many(25_000..50_000);
}

#[test]
fn the_third_quarter_of_the_seeds() {
    many(50_000..75_000);
}

#[test]
fn the_last_quarter_of_the_seeds() {
    many(75_000..100_000);
}

#[test]
fn every_moment_and_both_ends_of_the_stands_occur() {
    let mut stands = BTreeMap::new();
    let mut moments = BTreeMap::new();
    for number in 0..2_000 {
        let axle = Axle::of(Seed::new(Level::Usual, number));
        for scene in &axle.scenes {
            *moments.entry((scene.waits, scene.done)).or_insert(0) += 1;
        }
        let decision = axle
            .decisions()
            .into_iter()
            .find(|one| one.item == Item::Stands);
        *stands
            .entry(decision.unwrap().ruling.verdict().code())
            .or_insert(0) += 1;
    }
    assert_eq!(moments.len(), WAITS.len() * 2);
    assert_eq!(
        stands.keys().copied().collect::<Vec<_>>(),
        ["at-the-limit", "beyond", "within"]
    );
}

/// The first axle of the usual level on which `item` may not stay so.
fn with_wrong(item: Item) -> (Axle, Side) {
    (0..)
        .map(|number| Axle::of(Seed::new(Level::Usual, number)))
        .find_map(|axle| {
            let decisions = axle.decisions();
            let wrong = |one: &&Decision| one.item == item && one.ruling.refuses();
            let side = decisions.iter().find(wrong)?.side?;
            Some((axle, side))
        })
        .unwrap()
}

#[test]
fn a_missed_seal_leak_stands_first_and_ends_well_done() {
    let (axle, side) = with_wrong(Item::Seal);
    let mut said = saying(&axle.decisions(), |one| one.ruling.verdict());
    for said in said
        .iter_mut()
        .filter(|one| one.side == Some(side) && one.item == Item::Seal)
    {
        said.verdict = Verdict::Sound;
    }
    let marking = mark(&axle, &said, &rights(&axle));
    let first = marking.marks.first().unwrap();
    assert_eq!(
        (first.decision.item, first.outcome),
        (Item::Seal, Outcome::MissedAndHurts)
    );
    assert_eq!(first.decision.faults, [Fault::WheelSeal]);
    assert!(!marking.is_well_done());
    assert!(marking.by_kind().contains(&(Kind::Hub, false)));
}

#[test]
fn a_missed_long_stroke_says_what_heat_would_do_and_by_how_much_it_is_past() {
    let (axle, side) = with_wrong(Item::Applied);
    let said = saying(&axle.decisions(), |_| Verdict::Within);
    let marking = mark(&axle, &said, &rights(&axle));
    let of = |mark: &&Mark| mark.decision.side == Some(side) && mark.decision.item == Item::Applied;
    let mark = marking.marks.iter().find(of).unwrap();
    assert_eq!(mark.why.len(), 2);
    assert!(mark.decision.ruling.room().unwrap().base() < 0);
    assert!(mark.decision.ruling.source().is_some());
}

/// The first axle with this fault, and what is told of it when it is let go.
fn why_of(fault: Fault, item: Item) -> Vec<String> {
    let axle = (0..)
        .map(|number| Axle::of(Seed::new(Level::Usual, number)))
        .find(|axle| {
            let mut planted = axle.planted().iter();
            planted.any(|(_, one)| *one == fault)
        })
        .unwrap();
    let marking = mark(&axle, &[], &rights(&axle));
    let of = |mark: &&Mark| mark.decision.item == item && mark.decision.faults.contains(&fault);
    let mark = marking.marks.iter().find(of).unwrap();
    let why = mark.why.iter();
    why.map(|estimate| {
        assert!(!estimate.source.document.is_empty());
        estimate.remark.word.key().to_owned()
    })
    .collect()
}

#[test]
fn what_is_missed_tells_why_it_matters_where_an_estimate_fits() {
    let cases: &[(Fault, Item, &[&str])] = &[
        (
            Fault::StrokeLong,
            Item::Applied,
            &["why.heat", "why.stopping"],
        ),
        (Fault::ChamberLeak, Item::Chamber, &["why.force"]),
        (Fault::ClevisPin, Item::ClevisPin, &["why.force"]),
        (Fault::Nuts, Item::Nuts, &["why.clamp"]),
        (Fault::Studs, Item::Studs, &["why.clamp"]),
        (Fault::UnlikeEnds, Item::Alike, &["why.balance"]),
        (Fault::WheelSeal, Item::Seal, &[]),
    ];
    for (fault, item, why) in cases {
        assert_eq!(why_of(*fault, *item), *why, "{fault:?}");
    }
}

#[test]
fn a_slip_of_the_eye_and_one_of_the_judgement_are_told_apart() {
    let axle = Axle::of(Seed::new(Level::Plain, 3));
    let decisions = axle.decisions();
    let mut said = saying(&decisions, |one| one.ruling.verdict());
    let at = said
        .iter()
        .position(|one| one.item == Item::Lining)
        .unwrap();
    said[at].reading = Some(Typed::parse("1", rules::unit::Unit::Inch).unwrap());
    let marking = mark(&axle, &said, &rights(&axle));
    let slips: Vec<&Mark> = marking
        .marks
        .iter()
        .filter(|mark| !mark.is_right())
        .collect();
    let [slip] = slips[..] else {
        panic!("{slips:?}");
    };
    assert_eq!(slip.outcome, Outcome::Right);
    assert!(matches!(slip.read, Some(Read::Off { marks, .. }) if marks > 0));
    assert!(matches!(slip.decision.shown, Shown::Instrument(_)));
    assert!(marking.is_well_done() && !marking.is_without_blame());
    assert!(marking.by_kind().contains(&(Kind::Reading, false)));
    assert!(marking.by_kind().contains(&(Kind::Lining, true)));
}

#[test]
fn who_says_nothing_has_looked_at_nothing() {
    let (axle, _) = with_wrong(Item::Nuts);
    let marking = mark(&axle, &[], &[]);
    assert!(!marking.is_well_done());
    assert_eq!(marking.of(Outcome::Right).count(), 0);
    assert!(marking.moments.iter().all(|moment| moment.said.is_none()));
    assert!(!marking.moments.iter().any(Moment::too_early));
}

#[test]
fn the_last_word_counts_and_another_word_is_no_fault() {
    let axle = Axle::of(Seed::new(Level::Plain, 5));
    let decisions = axle.decisions();
    let mut said = saying(&decisions, |_| Verdict::Replace);
    said.extend(saying(&decisions, |one| one.ruling.verdict()));
    assert!(mark(&axle, &said, &rights(&axle)).is_without_blame());
    let fine = |one: &&Decision| one.ruling.verdict().severity() == 0;
    let one = decisions.iter().find(fine).unwrap().clone();
    assert_eq!(outcome(&one, Some(Verdict::Sound)), Outcome::Right);
    assert_eq!(outcome(&one, Some(Verdict::Within)), Outcome::Right);
    assert_eq!(outcome(&one, Some(Verdict::AtTheLimit)), Outcome::OtherWord);
    assert_eq!(outcome(&one, None), Outcome::NotLookedAt);
}
