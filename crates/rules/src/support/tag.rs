//! What one stand gives, from its tag and its state, or why it gives nothing.
//!
//! A tag that doesn't say "per stand" is read as the rating of a pair. A ton that doesn't say which
//! is the smaller, the short ton. A stand that can't be read, is damaged, was repaired or lacks its
//! pin carries nothing, whatever its tag says.

use std::num::NonZeroU32;

use crate::quantity::{Mass, Share};
use crate::typed::Typed;
use crate::unit::Unit;
use crate::word::{self, Remark, Word};

/// What the figure on a tag is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Basis {
    /// For each stand.
    PerStand,
    /// For two stands together.
    PerPair,
    /// The tag doesn't say: read as for a pair.
    Unmarked,
}

impl Basis {
    /// Every basis.
    pub const ALL: &[Self] = &[Self::PerStand, Self::PerPair, Self::Unmarked];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::PerStand => "per-stand",
            Self::PerPair => "per-pair",
            Self::Unmarked => "unmarked",
        }
    }

    /// The basis of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|basis| basis.code() == code)
    }

    /// Over how many stands the figure goes.
    const fn over(self) -> NonZeroU32 {
        match self {
            Self::PerStand => NonZeroU32::MIN,
            Self::PerPair | Self::Unmarked => NonZeroU32::MIN.saturating_add(1),
        }
    }
}

/// What was seen of the stand itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Condition {
    /// Nothing against it, and its pin or pawl locks.
    Sound,
    /// Bent, cracked, worn or rusted through.
    Damaged,
    /// Welded, straightened or otherwise repaired.
    Repaired,
    /// Its pin is missing, wrong, or its pawl doesn't lock.
    PinMissing,
}

impl Condition {
    /// Every condition.
    pub const ALL: &[Self] = &[Self::Sound, Self::Damaged, Self::Repaired, Self::PinMissing];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Sound => "sound",
            Self::Damaged => "damaged",
            Self::Repaired => "repaired",
            Self::PinMissing => "pin-missing",
        }
    }

    /// The condition of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL
            .iter()
            .copied()
            .find(|condition| condition.code() == code)
    }
}

/// One stand, as its tag and its state were read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StandTag {
    /// The figure with its unit; `None` when there is no tag or it can't be read.
    pub rating: Option<Typed>,
    /// What the figure is for.
    pub basis: Basis,
    /// What was seen of the stand.
    pub condition: Condition,
}

/// What one stand gives.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Gives {
    /// The rating of one stand, kept as a division.
    pub share: Share,
    /// How the tag was read.
    pub remarks: Vec<Remark>,
}

/// Why a stand carries nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum CarriesNothing {
    /// No tag, or no figure on it that can be read.
    NoFigure,
    /// The figure isn't a mass.
    NotAMass,
    /// The figure is zero.
    Zero,
    /// Damaged.
    Damaged,
    /// Repaired.
    Repaired,
    /// No pin, or a pawl that doesn't lock.
    NoPin,
}

impl CarriesNothing {
    /// The word for it.
    pub const fn word(self) -> Word {
        match self {
            Self::NoFigure => word::SUPPORT_TAG_NO_FIGURE,
            Self::NotAMass => word::SUPPORT_TAG_NOT_A_MASS,
            Self::Zero => word::SUPPORT_TAG_ZERO,
            Self::Damaged => word::SUPPORT_TAG_DAMAGED,
            Self::Repaired => word::SUPPORT_TAG_REPAIRED,
            Self::NoPin => word::SUPPORT_TAG_NO_PIN,
        }
    }
}

impl StandTag {
    /// The rating of this one stand.
    ///
    /// Units: any mass; a ton that doesn't say which is the short ton.
    /// Errors: [`CarriesNothing`], the state of the stand before its tag.
    /// Source: [`crate::source::STAND_RATING`], [`crate::source::STAND_CONDITION`].
    pub fn gives(&self) -> Result<Gives, CarriesNothing> {
        match self.condition {
            Condition::Sound => {}
            Condition::Damaged => return Err(CarriesNothing::Damaged),
            Condition::Repaired => return Err(CarriesNothing::Repaired),
            Condition::PinMissing => return Err(CarriesNothing::NoPin),
        }
        let rating = self.rating.as_ref().ok_or(CarriesNothing::NoFigure)?;
        let mass = rating.quantity().mass().ok_or(CarriesNothing::NotAMass)?;
        if mass <= Mass::ZERO {
            return Err(CarriesNothing::Zero);
        }
        let mut remarks = Vec::new();
        match self.basis {
            Basis::PerStand => {}
            Basis::PerPair => remarks.push(Remark::plain(word::SUPPORT_BASIS_PAIR)),
            Basis::Unmarked => remarks.push(Remark::plain(word::SUPPORT_BASIS_UNMARKED)),
        }
        if rating.unit() == Unit::TonUnmarked {
            remarks.push(Remark::plain(word::SUPPORT_TON_UNMARKED));
        }
        Ok(Gives {
            share: Share::new(mass, self.basis.over()),
            remarks,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::cases;

    #[test]
    fn table() {
        for row in cases(include_str!("tag.tsv")) {
            let tag = StandTag {
                rating: row.typed("rating"),
                basis: Basis::from_code(row.text("basis")).unwrap(),
                condition: Condition::from_code(row.text("condition")).unwrap(),
            };
            match tag.gives() {
                Ok(gives) => {
                    assert_eq!(Some(gives.share.rounded_down()), row.mass("gives"), "{row}");
                    let said: Vec<&str> = gives
                        .remarks
                        .iter()
                        .map(|remark| remark.word.key())
                        .collect();
                    assert_eq!(said, row.list("says"), "{row}");
                }
                Err(nothing) => {
                    assert_eq!(row.text("gives"), "-", "{row}");
                    assert_eq!(vec![nothing.word().key()], row.list("says"), "{row}");
                }
            }
        }
    }

    #[test]
    fn codes_come_back() {
        assert!(
            Basis::ALL
                .iter()
                .all(|basis| Basis::from_code(basis.code()) == Some(*basis))
        );
        assert!(
            Condition::ALL
                .iter()
                .all(|one| Condition::from_code(one.code()) == Some(*one))
        );
        assert_eq!(
            (Basis::from_code("x"), Condition::from_code("x")),
            (None, None)
        );
    }
}
