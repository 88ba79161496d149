//! The rule of three: each stand is rated for over a third of the weight of the unit lifted.
//!
//! Common practice, without a document. It takes the unit alone, never the combination. Where axle
//! weights are unknown it is what protects; where they are known, a stand under it needs the
//! foreman's reason.

use std::cmp::Ordering;
use std::num::NonZeroU32;

use crate::quantity::{Mass, Share};
use crate::rules::Rule;
use crate::source;
use crate::support::SupportFault;
use crate::support::load::Load;
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Verdict};
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("support.three"),
    title: word::RULE_SUPPORT_THREE,
    units: &[
        Unit::Pound,
        Unit::Kilogram,
        Unit::ShortTon,
        Unit::Tonne,
        Unit::TonUnmarked,
    ],
    limits: word::LIMIT_SUPPORT_THREE,
    figures: &[],
    sources: &[&source::COMMON_PRACTICE],
};

/// By how much the unit's weight is divided.
const THIRDS: NonZeroU32 = NonZeroU32::MIN.saturating_add(2);

/// Whether the unit carries its load.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Loading {
    /// It does: its gross weight counts.
    Loaded,
    /// It doesn't: its tare counts.
    Unloaded,
    /// Nobody knows: its gross weight counts.
    Unknown,
}

/// The weight of the one unit that is lifted; its combination is never asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct UnitWeight {
    /// Empty.
    pub tare: Option<Mass>,
    /// With the load that it has, or else the most that it may have.
    pub gross: Option<Mass>,
    /// Whether it is loaded.
    pub loading: Loading,
}

impl UnitWeight {
    /// A unit of which nothing is known.
    pub const UNKNOWN: Self = Self {
        tare: None,
        gross: None,
        loading: Loading::Unknown,
    };

    /// The weight that counts, and whether it is the gross weight of a unit that isn't loaded.
    ///
    /// A loaded unit of which only the tare is known has none: a third of the tare would be kind.
    pub fn counting(&self) -> Option<(Mass, bool)> {
        match self.loading {
            Loading::Loaded => self.gross.map(|gross| (gross, false)),
            Loading::Unknown => self.gross.map(|gross| (gross, true)),
            Loading::Unloaded => {
                let tare = self.tare.map(|tare| (tare, false));
                tare.or_else(|| self.gross.map(|gross| (gross, true)))
            }
        }
    }

    /// Whether its weights can be those of a unit with this load on its axles.
    ///
    /// Errors: zero, gross under tare, or lighter than the axles of the lift.
    pub fn check(&self, load: &Load) -> Result<(), SupportFault> {
        for weight in [self.tare, self.gross].into_iter().flatten() {
            if weight <= Mass::ZERO {
                return Err(SupportFault::ZeroUnit);
            }
        }
        if let (Some(tare), Some(gross)) = (self.tare, self.gross)
            && gross < tare
        {
            return Err(SupportFault::GrossUnderTare { gross, tare });
        }
        match (self.counting(), load.mass) {
            (Some((unit, _)), Some(axles)) if unit < axles => {
                Err(SupportFault::UnitLighter { unit, axles })
            }
            _ => Ok(()),
        }
    }
}

/// What the rule of three is for on this lift.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Role {
    /// Axle weights are unknown: it protects, and nobody can pass it.
    Protects,
    /// Axle weights are known: a stand under it needs the foreman's reason.
    NeedsReason,
}

/// A stand held against the rule of three.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ThreeJudged {
    /// The verdict with its two figures: a third of the unit, and what the stand gives.
    pub judgement: Judgement,
    /// A third of the unit's weight, kept as a division; `None` when no weight is known.
    pub needed: Option<Share>,
    /// What it is for here.
    pub role: Role,
}

/// Holds what one stand gives against a third of the unit's weight.
///
/// Units: masses, compared by cross-multiplying. Room is what the stand gives over the third.
/// Errors: none; without a weight there is no reading.
/// Source: [`source::COMMON_PRACTICE`].
pub fn judge_three(unit: &UnitWeight, load: &Load, gives: Share) -> ThreeJudged {
    let (role, role_word) = match load.mass {
        None => (Role::Protects, word::SUPPORT_THREE_PROTECTS),
        Some(_) => (Role::NeedsReason, word::SUPPORT_THREE_REASON),
    };
    let Some((weight, assumed)) = unit.counting() else {
        let judgement = Judgement::without_reading(RULE.id, &source::COMMON_PRACTICE)
            .remarking(Remark::plain(word::SUPPORT_THREE_NO_WEIGHT));
        return ThreeJudged {
            judgement,
            needed: None,
            role,
        };
    };
    let needed = Share::new(weight, THIRDS);
    let mut judgement = judge_share(RULE.id, needed, gives, &source::COMMON_PRACTICE);
    if assumed {
        judgement = judgement.remarking(Remark::plain(word::SUPPORT_THREE_GROSS_ASSUMED));
    }
    if judgement.verdict != Verdict::Within {
        judgement = judgement.remarking(Remark::plain(role_word));
    }
    ThreeJudged {
        judgement,
        needed: Some(needed),
        role,
    }
}

/// What has to be carried against what can be: exact, although the shown figures are whole.
pub(super) fn judge_share(
    rule: RuleId,
    needed: Share,
    gives: Share,
    source: &'static source::Source,
) -> Judgement {
    let verdict = match needed.cmp(&gives) {
        Ordering::Less => Verdict::Within,
        Ordering::Equal => Verdict::AtTheLimit,
        Ordering::Greater => Verdict::Beyond,
    };
    let mut judged = Judgement::by_eye(rule, verdict, source);
    judged.reading = Some(needed.rounded_up().into());
    judged
        .limits
        .push(Limit::at_most(gives.rounded_down().into(), source));
    judged.room = Some(gives.room_over(needed).into());
    judged
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::cases;

    #[test]
    fn table() {
        for row in cases(include_str!("three.tsv")) {
            let unit = UnitWeight {
                tare: row.mass("tare"),
                gross: row.mass("gross"),
                loading: match row.text("loading") {
                    "loaded" => Loading::Loaded,
                    "unloaded" => Loading::Unloaded,
                    _ => Loading::Unknown,
                },
            };
            let load = Load {
                mass: row.mass("load"),
                axles: vec![1],
                along: vec![],
                unknown: vec![],
            };
            let fault = unit.check(&load).err().map(|fault| fault.code());
            assert_eq!(fault.unwrap_or("-"), row.text("fault"), "{row}");
            let judged = judge_three(&unit, &load, Share::undivided(row.mass("gives").unwrap()));
            assert_eq!(judged.judgement.verdict, row.verdict("verdict"), "{row}");
            assert_eq!(format!("{:?}", judged.role), row.text("role"), "{row}");
            let said: Vec<&str> = judged
                .judgement
                .remarks
                .iter()
                .map(|said| said.word.key())
                .collect();
            assert_eq!(said, row.list("says"), "{row}");
        }
    }
}
