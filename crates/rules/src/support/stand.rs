//! Whether two stands may take the load of the lift.
//!
//! At most two stands of an axle count, two different ones as the smaller, a third never; one alone
//! is refused. Per stand is the load over the stands that carry it, and the rating has to be
//! greater: exactly enough is `at the limit`, and refused.

use std::num::NonZeroU32;

use crate::quantity::Share;
use crate::rules::Rule;
use crate::source;
use crate::support::SupportFault;
use crate::support::load::Load;
use crate::support::tag::StandTag;
use crate::support::three::{ThreeJudged, UnitWeight, judge_share, judge_three};
use crate::unit::Unit;
use crate::verdict::{Judgement, Meaning, Place, RuleId, Verdict};
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("support.stands"),
    title: word::RULE_SUPPORT_STANDS,
    units: &[
        Unit::Pound,
        Unit::Kilogram,
        Unit::ShortTon,
        Unit::Tonne,
        Unit::TonUnmarked,
    ],
    limits: word::LIMIT_SUPPORT_STANDS,
    figures: &[],
    sources: &[
        &source::STAND_RATING,
        &source::STAND_CONDITION,
        &source::STANDS_BOTH_SIDES,
    ],
};

/// How many stands of one axle count at most.
const MOST_PER_AXLE: u32 = 2;

/// What the stands of one axle have to carry.
#[derive(Clone, Debug)]
pub struct Lift {
    /// What the lift takes off the ground.
    pub load: Load,
    /// The weight of the unit that is lifted.
    pub unit: UnitWeight,
    /// How many stands carry the load: the two of this axle, and those on which other axles of the
    /// load already stand.
    pub carried_by: u32,
}

/// The stands of one axle, judged.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StandsJudged {
    /// By the load; no reading as long as a weight is missing.
    pub by_load: Judgement,
    /// By the rule of three.
    pub by_three: ThreeJudged,
    /// What one stand has to carry, kept as a division; `None` as long as a weight is missing.
    pub needed: Option<Share>,
    /// What one stand gives, kept as a division.
    pub gives: Share,
}

/// What follows for the step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum StandsSay {
    /// The rating is enough.
    Enough,
    /// Enough by the axle weights, not by the rule of three: the foreman's reason.
    NeedsReason,
    /// Not enough; nobody can pass it.
    Refused,
}

impl StandsJudged {
    /// What follows for the step.
    pub fn say(&self) -> StandsSay {
        let three = self.by_three.judgement.verdict;
        match self.by_load.verdict.means(Place::Stand) {
            Meaning::Fine if three.means(Place::Stand) == Meaning::Refused => {
                StandsSay::NeedsReason
            }
            Meaning::Fine => StandsSay::Enough,
            Meaning::Open if three == Verdict::Within => StandsSay::Enough,
            _ => StandsSay::Refused,
        }
    }
}

/// Judges the stands of one axle.
///
/// Units: any mass; compared by cross-multiplying. Room is what a stand gives over what it carries.
/// Errors: [`SupportFault`] when there is no pair of stands, or nothing to judge them against.
/// Source: [`source::STAND_RATING`]; for the rule of three [`source::COMMON_PRACTICE`].
pub fn judge_stands(lift: &Lift, stands: &[StandTag]) -> Result<StandsJudged, SupportFault> {
    let (gives, remarks) = pair_gives(stands)?;
    lift.unit.check(&lift.load)?;
    let by_three = judge_three(&lift.unit, &lift.load, gives);
    let (mut by_load, needed) = by_load(lift, gives)?;
    if needed.is_none() && by_three.needed.is_none() {
        return Err(SupportFault::NoWeight);
    }
    by_load.remarks.splice(0..0, remarks);
    Ok(StandsJudged {
        by_load,
        by_three,
        needed,
        gives,
    })
}

/// What each of the stands gives: the smallest of all that were named.
fn pair_gives(stands: &[StandTag]) -> Result<(Share, Vec<Remark>), SupportFault> {
    if stands.len() == 1 {
        return Err(SupportFault::OneStand);
    }
    let mut given = Vec::new();
    for (stand, tag) in (1..).zip(stands) {
        given.push(
            tag.gives()
                .map_err(|why| SupportFault::CarriesNothing { stand, why })?,
        );
    }
    let (Some(smallest), Some(largest)) = (
        given.iter().map(|gives| gives.share).min(),
        given.iter().map(|gives| gives.share).max(),
    ) else {
        return Err(SupportFault::NoStands);
    };
    let mut remarks = Vec::new();
    for remark in given.into_iter().flat_map(|gives| gives.remarks) {
        if !remarks.contains(&remark) {
            remarks.push(remark);
        }
    }
    if smallest != largest {
        remarks.push(Remark::with(
            word::SUPPORT_SMALLER_COUNTS,
            [
                ("smaller", Argument::Share(smallest)),
                ("larger", Argument::Share(largest)),
            ],
        ));
    }
    if let Some(third) = count(stands.len())
        .checked_sub(MOST_PER_AXLE)
        .filter(|more| *more > 0)
    {
        let arguments = [("count", Argument::Count(third))];
        remarks.push(Remark::with(word::SUPPORT_THIRD_IGNORED, arguments));
    }
    Ok((smallest, remarks))
}

fn by_load(lift: &Lift, gives: Share) -> Result<(Judgement, Option<Share>), SupportFault> {
    let most = MOST_PER_AXLE * count(lift.load.axles.len()).max(1);
    let carrying = NonZeroU32::new(lift.carried_by.min(most))
        .filter(|carrying| carrying.get() >= MOST_PER_AXLE)
        .ok_or(SupportFault::OneStand)?;
    let Some(mass) = lift.load.mass else {
        let missing = Remark::with(
            word::SUPPORT_LOAD_UNKNOWN,
            [("axles", Argument::Text(list(&lift.load.unknown)))],
        );
        let judged = Judgement::without_reading(RULE.id, &source::STAND_RATING).remarking(missing);
        return Ok((judged, None));
    };
    let needed = Share::new(mass, carrying);
    let mut judged = judge_share(RULE.id, needed, gives, &source::STAND_RATING);
    if !lift.load.along.is_empty() {
        let axles = Argument::Text(list(&lift.load.axles));
        judged = judged.remarking(Remark::with(word::SUPPORT_WHOLE_GROUP, [("axles", axles)]));
    }
    let carried = Argument::Count(carrying.get());
    judged = judged.remarking(if lift.carried_by > most {
        let asked = Argument::Count(lift.carried_by);
        Remark::with(
            word::SUPPORT_CARRIED_CAPPED,
            [("count", carried), ("asked", asked)],
        )
    } else {
        Remark::with(word::SUPPORT_CARRIED_BY, [("count", carried)])
    });
    if judged.verdict == Verdict::AtTheLimit {
        judged = judged.remarking(Remark::plain(word::SUPPORT_AT_LIMIT_REFUSED));
    }
    Ok((judged, Some(needed)))
}

fn count(length: usize) -> u32 {
    u32::try_from(length).unwrap_or(u32::MAX / MOST_PER_AXLE)
}

fn list(axles: &[u8]) -> String {
    let numbers: Vec<String> = axles.iter().map(u8::to_string).collect();
    numbers.join(", ")
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::cases;
    use crate::quantity::Mass;
    use crate::support::tag::{Basis, Condition};
    use crate::support::three::Loading;
    use crate::typed::Typed;

    /// "20000 lb per-stand sound + 10 ton unmarked sound" as tags.
    fn stands(text: &str) -> Vec<StandTag> {
        let tag = |text: &str| {
            let mut words = text.rsplitn(3, ' ');
            let condition = Condition::from_code(words.next().unwrap()).unwrap();
            let basis = Basis::from_code(words.next().unwrap()).unwrap();
            StandTag {
                rating: crate::cases::typed(words.next().unwrap()),
                basis,
                condition,
            }
        };
        if text == "-" {
            Vec::new()
        } else {
            text.split(" + ").map(tag).collect()
        }
    }

    fn load(mass: Option<Mass>, axles: u32) -> Load {
        let axles: Vec<u8> = (1..).take(axles as usize).collect();
        let unknown = if mass.is_none() {
            axles.clone()
        } else {
            Vec::new()
        };
        Load {
            mass,
            along: Vec::new(),
            unknown,
            axles,
        }
    }

    #[test]
    fn table() {
        for row in cases(include_str!("stand.tsv")) {
            let lift = Lift {
                load: load(row.mass("load"), row.count("axles")),
                unit: UnitWeight {
                    tare: row.mass("unit"),
                    gross: None,
                    loading: Loading::Unloaded,
                },
                carried_by: row.count("carried by"),
            };
            match judge_stands(&lift, &stands(row.text("stands"))) {
                Ok(judged) => {
                    assert_eq!(row.text("fault"), "-", "{row}");
                    assert_eq!(judged.by_load.verdict, row.verdict("by load"), "{row}");
                    assert_eq!(
                        judged.by_three.judgement.verdict,
                        row.verdict("by three"),
                        "{row}"
                    );
                    assert_eq!(format!("{:?}", judged.say()), row.text("say"), "{row}");
                    let needed = judged.needed.map(Share::rounded_up);
                    assert_eq!(needed, row.mass("needed"), "{row}");
                    assert_eq!(
                        Some(judged.gives.rounded_down()),
                        row.mass("gives"),
                        "{row}"
                    );
                    let said: Vec<&str> = judged
                        .by_load
                        .remarks
                        .iter()
                        .map(|said| said.word.key())
                        .collect();
                    for key in row.list("says") {
                        let key = format!("support.remark.{key}");
                        assert!(said.contains(&key.as_str()), "{row}: {said:?}");
                    }
                }
                Err(fault) => assert_eq!(fault.code(), row.text("fault"), "{row}"),
            }
        }
    }

    #[test]
    fn a_fault_names_its_stand() {
        let lift = Lift {
            load: load(Some(Mass::from_lb(9_000)), 1),
            unit: UnitWeight::UNKNOWN,
            carried_by: 2,
        };
        let fault = judge_stands(
            &lift,
            &stands("20000 lb per-stand sound + - per-stand sound"),
        )
        .unwrap_err();
        let why = crate::support::tag::CarriesNothing::NoFigure;
        assert_eq!(fault, SupportFault::CarriesNothing { stand: 2, why });
    }

    #[test]
    fn only_what_applies_is_said() {
        let said = |lift: &Lift, text: &str| {
            let judged = judge_stands(lift, &stands(text)).unwrap();
            let remarks = judged.by_load.remarks.into_iter();
            let said: Vec<(String, Vec<Argument>)> = remarks
                .map(|said| {
                    let key = said.word.key().trim_start_matches("support.remark.");
                    (
                        key.to_owned(),
                        said.arguments.into_iter().map(|(_, one)| one).collect(),
                    )
                })
                .collect();
            said
        };
        let tandem = |mass, along: &[u8]| Lift {
            load: Load {
                along: along.to_vec(),
                ..load(mass, 2)
            },
            unit: UnitWeight {
                tare: Some(Mass::from_lb(40_000)),
                gross: None,
                loading: Loading::Unloaded,
            },
            carried_by: 2,
        };
        let two = "20000 lb per-stand sound + 20000 lb per-stand sound";
        let carried = ("carried-by".to_owned(), vec![Argument::Count(2)]);
        let known = Some(Mass::from_lb(34_000));
        assert_eq!(
            said(&tandem(known, &[]), two),
            std::slice::from_ref(&carried)
        );
        let axles = vec![Argument::Text("1, 2".to_owned())];
        let group = ("whole-group".to_owned(), axles.clone());
        assert_eq!(said(&tandem(known, &[2]), two), [group, carried.clone()]);
        assert_eq!(
            said(&tandem(None, &[2]), two),
            [("load-unknown".to_owned(), axles)]
        );
        let three = two.to_owned() + " + 20000 lb per-stand sound";
        let third = ("third-ignored".to_owned(), vec![Argument::Count(1)]);
        assert_eq!(said(&tandem(known, &[]), &three), [third, carried]);
    }

    #[test]
    fn room_is_what_is_left_of_the_rating() {
        let lift = Lift {
            load: load(Some(Mass::from_lb(18_000)), 1),
            unit: UnitWeight::UNKNOWN,
            carried_by: 2,
        };
        let judged = judge_stands(
            &lift,
            &stands("10000 lb per-stand sound + 12000 lb per-stand sound"),
        )
        .unwrap();
        assert_eq!(judged.by_load.room, Some(Mass::from_lb(1_000).into()));
        assert_eq!(judged.by_load.reading, Some(Mass::from_lb(9_000).into()));
    }

    fn severity(load_lb: i64, rating: &str, unit: Unit) -> u8 {
        let tag = StandTag {
            rating: Typed::parse(rating, unit).ok(),
            basis: Basis::PerStand,
            condition: Condition::Sound,
        };
        let lift = Lift {
            load: load(Some(Mass::from_lb(load_lb)), 1),
            unit: UnitWeight::UNKNOWN,
            carried_by: 2,
        };
        judge_stands(&lift, &[tag.clone(), tag])
            .unwrap()
            .by_load
            .verdict
            .severity()
    }

    proptest! {
        #[test]
        fn heavier_or_weaker_is_never_kinder(load in 1_i64..60_000, more in 0_i64..9_000, lb in 1_i64..40_000, less in 0_i64..40_000) {
            let (strong, weak) = (lb.max(less).max(1), lb.min(less).max(1));
            let of = |load, lb: i64| severity(load, &lb.to_string(), Unit::Pound);
            prop_assert!(of(load, strong) <= of(load + more, strong));
            prop_assert!(of(load, strong) <= of(load, weak));
        }

        #[test]
        fn a_tag_in_kilograms_is_never_kinder_than_the_pounds_that_it_is_rounded_from(load in 1_i64..60_000, lb in 1_i64..40_000) {
            // Whole kilograms below the pounds: what a tag in both units shows.
            let kg = Mass::from_lb(lb).base() / Mass::from_kg(1).base();
            prop_assume!(kg > 0);
            let (in_lb, in_kg) = (severity(load, &lb.to_string(), Unit::Pound), severity(load, &kg.to_string(), Unit::Kilogram));
            prop_assert!(in_lb <= in_kg);
        }

        #[test]
        fn the_same_mass_in_two_units_is_judged_alike(load in 1_i64..60_000, tons in 1_i64..40) {
            let short = severity(load, &tons.to_string(), Unit::ShortTon);
            prop_assert_eq!(short, severity(load, &(tons * 2_000).to_string(), Unit::Pound));
            prop_assert_eq!(short, severity(load, &tons.to_string(), Unit::TonUnmarked));
            let tonnes = severity(load, &tons.to_string(), Unit::Tonne);
            prop_assert_eq!(tonnes, severity(load, &(tons * 1_000).to_string(), Unit::Kilogram));
            prop_assert!(tonnes <= short);
        }

        #[test]
        fn per_pair_is_never_kinder_than_per_stand(load in 1_i64..60_000, lb in 1_i64..40_000) {
            let lift = Lift { load: super::tests::load(Some(Mass::from_lb(load)), 1), unit: UnitWeight::UNKNOWN, carried_by: 2 };
            let of = |basis| {
                let tag = StandTag { rating: Typed::parse(&lb.to_string(), Unit::Pound).ok(), basis, condition: Condition::Sound };
                judge_stands(&lift, &[tag.clone(), tag]).unwrap().by_load.verdict.severity()
            };
            prop_assert!(of(Basis::PerStand) <= of(Basis::PerPair));
            prop_assert_eq!(of(Basis::PerPair), of(Basis::Unmarked));
        }
    }
}
