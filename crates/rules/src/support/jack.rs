//! Whether the jack may raise the load of the lift.
//!
//! Its rating has to be sufficient: exactly enough is a remark. A jack whose rated load can't be
//! read is not used. A jack only raises; what holds is judged in [`crate::support::stand`].

use crate::quantity::{Mass, Share};
use crate::rules::Rule;
use crate::source;
use crate::support::SupportFault;
use crate::support::load::Load;
use crate::support::three::{UnitWeight, judge_share};
use crate::typed::Typed;
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Verdict};
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("support.jack"),
    title: word::RULE_SUPPORT_JACK,
    units: &[
        Unit::Pound,
        Unit::Kilogram,
        Unit::ShortTon,
        Unit::Tonne,
        Unit::TonUnmarked,
    ],
    limits: word::LIMIT_SUPPORT_JACK,
    figures: &[],
    sources: &[&source::JACK_RATING],
};

/// Judges a jack by its marked rating.
///
/// Units: any mass; a ton that doesn't say which is the short ton. Room is rating minus load.
/// Errors: [`SupportFault`] when the weights can't be right, or there is nothing to judge against.
/// Source: [`source::JACK_RATING`]. An unknown load leaves only a jack that is enough for the whole
/// unit `within`.
pub fn judge_jack(
    load: &Load,
    unit: &UnitWeight,
    rating: Option<&Typed>,
) -> Result<Judgement, SupportFault> {
    unit.check(load)?;
    let Some((rating, mass)) = readable(rating) else {
        let judged = Judgement::by_eye(RULE.id, Verdict::Replace, &source::JACK_RATING);
        return Ok(judged.remarking(Remark::plain(word::SUPPORT_JACK_NO_RATING)));
    };
    let mut judged = match (load.mass, unit.counting()) {
        (Some(load), _) => judge_share(
            RULE.id,
            Share::undivided(load),
            Share::undivided(mass),
            &source::JACK_RATING,
        ),
        (None, Some((unit, _))) => whole_unit(unit, mass, load),
        (None, None) => return Err(SupportFault::NoWeight),
    };
    if judged.verdict == Verdict::AtTheLimit {
        judged = judged.remarking(Remark::plain(word::SUPPORT_JACK_AT_LIMIT));
    }
    if rating.unit() == Unit::TonUnmarked {
        judged = judged.remarking(Remark::plain(word::SUPPORT_TON_UNMARKED));
    }
    Ok(judged)
}

fn readable(rating: Option<&Typed>) -> Option<(&Typed, Mass)> {
    let rating = rating?;
    let mass = rating.quantity().mass().filter(|mass| *mass > Mass::ZERO)?;
    Some((rating, mass))
}

/// A lift never takes more than the whole unit; less than that can't be known here.
fn whole_unit(unit: Mass, rating: Mass, load: &Load) -> Judgement {
    if unit <= rating {
        let judged = judge_share(
            RULE.id,
            Share::undivided(unit),
            Share::undivided(rating),
            &source::JACK_RATING,
        );
        return judged.remarking(Remark::plain(word::SUPPORT_JACK_WHOLE_UNIT));
    }
    let axles: Vec<String> = load.unknown.iter().map(u8::to_string).collect();
    let axles = Argument::Text(axles.join(", "));
    let mut judged = Judgement::without_reading(RULE.id, &source::JACK_RATING)
        .remarking(Remark::with(word::SUPPORT_LOAD_UNKNOWN, [("axles", axles)]));
    judged
        .limits
        .push(Limit::at_most(rating.into(), &source::JACK_RATING));
    judged
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::cases;
    use crate::support::three::Loading;

    fn load(mass: Option<Mass>) -> Load {
        let unknown = if mass.is_none() { vec![1] } else { vec![] };
        Load {
            mass,
            axles: vec![1],
            along: vec![],
            unknown,
        }
    }

    #[test]
    fn table() {
        for row in cases(include_str!("jack.tsv")) {
            let unit = UnitWeight {
                tare: row.mass("unit"),
                gross: None,
                loading: Loading::Unloaded,
            };
            match judge_jack(&load(row.mass("load")), &unit, row.typed("rating").as_ref()) {
                Ok(judged) => {
                    assert_eq!(row.text("fault"), "-", "{row}");
                    assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
                    let said: Vec<&str> =
                        judged.remarks.iter().map(|said| said.word.key()).collect();
                    assert_eq!(said, row.list("says"), "{row}");
                }
                Err(fault) => assert_eq!(fault.code(), row.text("fault"), "{row}"),
            }
        }
    }

    proptest! {
        #[test]
        fn heavier_or_weaker_is_never_kinder(load_lb in 1_i64..60_000, more in 0_i64..9_000, lb in 1_i64..60_000, less in 1_i64..60_000) {
            let severity = |load_lb, lb: i64| {
                let rating = Typed::parse(&lb.to_string(), Unit::Pound).unwrap();
                let load = load(Some(Mass::from_lb(load_lb)));
                judge_jack(&load, &UnitWeight::UNKNOWN, Some(&rating)).unwrap().verdict.severity()
            };
            prop_assert!(severity(load_lb, lb) <= severity(load_lb + more, lb));
            prop_assert!(severity(load_lb, lb.max(less)) <= severity(load_lb, lb.min(less)));
        }
    }
}
