//! Why a missed fault matters, where the rules hold an estimate that fits it. It judges nothing.

use rules::quantity::{Length, Pressure, Torque};
use rules::slack::chamber::Chamber;
use rules::slack::travel;
use rules::source::{self, Source};
use rules::why::force::{AreaTimesArm, area_sq_in};
use rules::why::stopping::STUDY;
use rules::why::{balance, clamp, force, heat};
use rules::word::Remark;

use crate::axle::{Axle, End};
use crate::decision::{Decision, Item, Shown};

/// An estimate, and where its figures are printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Estimate {
    /// What it says.
    pub remark: Remark,
    /// Where it is from.
    pub source: &'static Source,
}

/// At this pressure the published examples are worked.
const AIR: Pressure = Pressure::from_psi(100);

/// What a run's card starts with: hub-piloted, M22, at its usual final torque.
const STUD: Length = Length::from_mm_hundredths(2_200);
const FINAL: Torque = Torque::from_lbf_ft(475);

pub(super) fn of(axle: &Axle, decision: &Decision) -> Vec<Estimate> {
    let end = decision.side.map(|side| axle.end(side));
    let from = |remark: Option<Remark>, source| remark.map(|remark| Estimate { remark, source });
    match (decision.item, end) {
        (Item::Applied, Some(_)) => {
            let study = STUDY.first().map(rules::why::stopping::Study::remark);
            [
                from(hot(decision), &source::SASKATCHEWAN),
                from(study, &source::SASKATCHEWAN),
            ]
            .into_iter()
            .flatten()
            .collect()
        }
        // What carries the push, or is to make it.
        (Item::Chamber | Item::ClevisPin | Item::Clevis | Item::ArmBushing, Some(end)) => {
            let push = product(end).and_then(|product| force::remark(product, AIR));
            from(push, &source::CHAMBER_AREAS).into_iter().collect()
        }
        (Item::Nuts | Item::Studs, Some(_)) => {
            let one_nut = clamp::remark(FINAL, STUD);
            from(one_nut, &source::NUT_FACTORS).into_iter().collect()
        }
        (Item::Alike, None) => from(apart(axle), &source::BALANCE).into_iter().collect(),
        _ => Vec::new(),
    }
}

/// What a hot drum makes of the stroke.
fn hot(decision: &Decision) -> Option<Remark> {
    let Shown::Pushrod { at_rest, out } = &decision.shown else {
        return None;
    };
    let (at_rest, out) = (at_rest.shows().length()?, out.shows().length()?);
    heat::remark(travel::stroke(at_rest, out).ok()?)
}

fn product(end: &End) -> Option<AreaTimesArm> {
    let Chamber::Listed { of, .. } = end.chamber else {
        return None;
    };
    Some(AreaTimesArm {
        area_sq_in: area_sq_in(of)?,
        arm: end.arm(),
    })
}

/// By how much the ends pull apart; nothing where their chambers and arms come to the same.
fn apart(axle: &Axle) -> Option<Remark> {
    let (left, right) = (
        product(&axle.left)?.at(AIR)?,
        product(&axle.right)?.at(AIR)?,
    );
    let apart = balance::apart(left, right)?;
    (apart > rules::quantity::Ratio::ZERO).then(|| balance::remark(apart))
}
