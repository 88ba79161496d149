//! One made-up axle by one: the whole of what a seed means, and what every one of them obeys.

use job::line::Sha;

use super::*;
use crate::decision::{Decision, Item, Shown};
use crate::instrument::Tool;
use crate::seed::Level;

/// Everything that is shown, in a text that no compiler and no rule can change.
fn told(axle: &Axle) -> String {
    let side =
        |side: Option<Side>| side.map_or('A', |side| if side == Side::Left { 'L' } else { 'R' });
    let mut told = format!("{} {} {}\n", axle.seed, axle.is.code(), axle.brake.code());
    for (at, fault) in axle.planted() {
        told += &format!("{} {}\n", side(*at), fault.finding());
    }
    for scene in &axle.scenes {
        told += &format!(
            "{} {} {}\n",
            scene.waits.first, scene.waits.then, scene.done
        );
    }
    for axle in &axle.support.group.axles {
        let weight = axle.weight.map(Mass::base);
        told += &format!("{} {} {weight:?}\n", axle.number, axle.raised);
    }
    for stand in &axle.support.stands {
        let rating = stand.rating.as_ref().unwrap();
        let (basis, condition) = (stand.basis.code(), stand.condition.code());
        let (text, unit) = (rating.text(), rating.unit().code());
        told += &format!("{text} {unit} {basis} {condition}\n");
    }
    for decision in axle.decisions() {
        let shown = match &decision.shown {
            Shown::Instrument(one) => one.marks().to_string(),
            Shown::Pushrod { at_rest, out } => format!("{} {}", at_rest.marks(), out.marks()),
            Shown::Diameters { front, back } => format!(
                "{:?} {:?}",
                front.map(|one| one.marks()),
                back.map(|one| one.marks())
            ),
            Shown::Signs(signs) => signs.join(","),
            Shown::Numbered(signs) => format!("{signs:?}"),
            Shown::Edges([left, right]) => format!("{left} | {right}"),
            Shown::Support | Shown::BothEnds => String::new(),
        };
        told += &format!("{} {} {shown}\n", side(decision.side), decision.item.code());
    }
    for end in [&axle.left, &axle.right] {
        let Chamber::Listed { of, class } = end.chamber else {
            panic!("{}: a chamber that no table lists", axle.seed);
        };
        let (mechanism, arm) = (end.mechanism.code(), end.arm_quarters);
        told += &format!(
            "{} {} {mechanism} {arm} {}\n",
            of.name,
            class.code(),
            end.studs
        );
    }
    told
}

/// The first signs of a text's digest: enough to see that it is the same.
fn digest(text: &str) -> String {
    Sha::of(text.as_bytes())
        .to_string()
        .chars()
        .take(16)
        .collect()
}

#[test]
fn the_same_seed_is_the_same_axle_for_ever() {
    let mut rows = 0;
    for row in include_str!("golden.tsv").lines().skip(1) {
        let (text, known) = row.split_once('\t').unwrap();
        let told = told(&Axle::of(Seed::read(text).unwrap()));
        assert_eq!(digest(&told), known, "{told}");
        rows += 1;
    }
    assert_eq!(rows, 24);
}

#[test]
fn another_number_or_level_is_another_axle() {
    let of = |level, number| told(&Axle::of(Seed::new(level, number)));
    assert_ne!(of(Level::Usual, 1), of(Level::Usual, 2));
    assert_ne!(of(Level::Usual, 1), of(Level::Close, 1));
}

/// What nature wants of a wheel end, whatever is wrong with it.
pub(crate) fn assert_consistent(axle: &Axle, decisions: &[Decision]) {
    let seed = axle.seed;
    for side in [Side::Left, Side::Right] {
        let end = axle.end(side);
        let of = |item: Item| {
            decisions
                .iter()
                .find(|one| one.side == Some(side) && one.item == item)
        };
        // At rest and power stroke are the applied mark, and no brake gives way by nothing.
        assert_eq!(end.at_rest_16ths + end.power_16ths(), end.applied_16ths());
        assert!(end.flex_16ths > 0, "{seed}: {end:?}");
        assert!(end.free_16ths < end.power_16ths(), "{seed}: {end:?}");
        let strokes = [Item::Applied, Item::Free].map(|item| of(item).unwrap().reading().unwrap());
        assert_eq!(
            strokes.map(|stroke| stroke.marks()),
            [end.power_16ths(), end.free_16ths],
            "{seed}"
        );
        // A camshaft that is looser makes a longer stroke, all else alike.
        let mut tight = end.clone();
        tight.cam_radial_thou = 0;
        let added = end.power_16ths() - tight.power_16ths();
        assert_eq!(added, end.by_play_16ths(), "{seed}");
        let arm_64ths = end.arm_quarters * 16;
        assert!(
            end.cam_radial_thou < 20 || added > 0,
            "{seed}: arm {arm_64ths}"
        );
        // What a seal lets out is on the linings, and what is on them came from a seal.
        let oiled = end.lining_looks.contains(&Look::Oiled);
        let leaks = end.flaws.contains(&Fault::WheelSeal);
        assert!(!leaks || oiled, "{seed}: a leak and dry linings");
        let grease = end.grease == cam::Sign::GreaseAtHead;
        assert!(!oiled || leaks || grease, "{seed}: oil from nowhere");
        // A broken stud took its nut along.
        for (stud, sign) in &end.stud_signs {
            assert!((1..=end.studs).contains(stud), "{seed}");
            let taken = end.nut_signs.contains(&(*stud, nuts::Sign::StudBroken));
            assert_eq!(*sign == neighbours::Sign::Broken, taken, "{seed}");
        }
        // Ports and tag say the stroke class that the table has a limit for.
        assert_eq!(end.has_long_stroke(), end.ports() == Ports::Square);
        assert!(!applied_limits(end).is_empty(), "{seed}");
        // No drum is smaller than it was new, and none is measured where it has no mark.
        let drum = end.drum();
        let smallest = drum
            .front_5thou
            .iter()
            .chain(&drum.back_5thou)
            .min()
            .unwrap();
        assert!(*smallest > drum.nominal_5thou, "{seed}");
        assert!(drum.cast_max_5thou > drum.nominal_5thou, "{seed}");
        assert_eq!(axle.is.has_spring_brakes(), of(Item::SpringBrake).is_some());
        for decision in decisions.iter().filter(|one| one.side == Some(side)) {
            if let Some(instrument) = decision.reading() {
                assert!(instrument.marks() >= 0, "{seed}: {decision:?}");
                assert!(instrument.tool() != Tool::PressureGauge);
            }
        }
    }
    assert_eq!(axle.support.stands.len(), 2);
    assert!(axle.support.lift().is_some(), "{seed}");
}

fn applied_limits(end: &End) -> Vec<rules::verdict::Limit> {
    rules::slack::applied::limits_of(&end.chamber)
}

#[test]
fn an_axle_with_nothing_planted_has_nothing_to_refuse_but_its_stands() {
    let mut seen = 0;
    for number in 0..400 {
        for level in Level::ALL {
            let axle = Axle::of(Seed::new(*level, number));
            if !axle.planted().is_empty() {
                continue;
            }
            seen += 1;
            for decision in axle.decisions() {
                let stands = decision.item == Item::Stands;
                assert!(
                    stands || !decision.ruling.refuses(),
                    "{}: {decision:?}",
                    axle.seed
                );
                assert!(decision.faults.is_empty());
            }
        }
    }
    assert!(seen > 50, "{seen}");
}
