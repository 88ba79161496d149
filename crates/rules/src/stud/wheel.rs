//! What is seen at wheels, rims, nuts and pilots.
//!
//! A crack or a stretched hole breaks the regulation on any axle. A weld breaks it on a steer axle;
//! elsewhere a repaired wheel goes by common practice.

use crate::rules::Rule;
use crate::source::{self, Source, Standing};
use crate::verdict::{Judgement, RuleId, Verdict};
use crate::word::{self, Remark, Word};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("stud.wheel"),
    title: word::RULE_STUD_WHEEL,
    units: &[],
    limits: word::LIMIT_STUD_WHEEL,
    figures: &[],
    sources: &[
        &source::WHEEL_CRACKED,
        &source::WHEEL_HOLES,
        &source::WHEEL_WELDED_ALUMINIUM,
        &source::WHEEL_WELDED_STEEL,
        &source::NUTS_PRESENT,
        &source::COMMON_PRACTICE,
    ],
};

/// What something was seen on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Thing {
    /// A wheel or a rim.
    Wheel,
    /// A nut or a clamp.
    Nut,
    /// A hub pilot or a seat.
    Pilot,
}

/// What was seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Sign {
    /// A crack, or a break.
    Cracked,
    /// A hole that is no longer round.
    Holes,
    /// Worn.
    Worn,
    /// Welded.
    Welded,
    /// Not the kind that belongs there.
    WrongKind,
}

/// What the wheels of an axle are made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Metal {
    /// Steel.
    Steel,
    /// Aluminium.
    Aluminium,
    /// Nobody knows.
    Unknown,
}

/// Whether the axle steers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Axle {
    /// It does.
    Steer,
    /// It doesn't.
    Other,
}

impl Thing {
    /// Every thing.
    pub const ALL: &[Self] = &[Self::Wheel, Self::Nut, Self::Pilot];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Wheel => "wheels",
            Self::Nut => "nuts",
            Self::Pilot => "pilots",
        }
    }

    /// The thing of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }
}

impl Sign {
    /// Every sign.
    pub const ALL: &[Self] = &[
        Self::Cracked,
        Self::Holes,
        Self::Worn,
        Self::Welded,
        Self::WrongKind,
    ];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Cracked => "cracked",
            Self::Holes => "holes",
            Self::Worn => "worn",
            Self::Welded => "welded",
            Self::WrongKind => "wrong-kind",
        }
    }

    /// The sign of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }
}

impl Metal {
    /// Every metal.
    pub const ALL: &[Self] = &[Self::Steel, Self::Aluminium, Self::Unknown];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Steel => "steel",
            Self::Aluminium => "aluminium",
            Self::Unknown => "unknown",
        }
    }

    /// The metal of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }
}

const fn means(thing: Thing, sign: Sign, metal: Metal, axle: Axle) -> (&'static Source, Word) {
    match (thing, sign) {
        (Thing::Wheel | Thing::Pilot, Sign::Cracked) => {
            (&source::WHEEL_CRACKED, word::STUD_REMARK_CRACKED)
        }
        (Thing::Wheel, Sign::Holes) => (&source::WHEEL_HOLES, word::STUD_REMARK_HOLES),
        (Thing::Wheel, Sign::Welded) => match (axle, metal) {
            (Axle::Steer, Metal::Aluminium) => (
                &source::WHEEL_WELDED_ALUMINIUM,
                word::STUD_REMARK_WELDED_ALUMINIUM,
            ),
            (Axle::Steer, Metal::Steel | Metal::Unknown) => {
                (&source::WHEEL_WELDED_STEEL, word::STUD_REMARK_WELDED_STEEL)
            }
            (Axle::Other, _) => (&source::COMMON_PRACTICE, word::STUD_REMARK_WELDED),
        },
        (Thing::Nut, _) => (&source::NUTS_PRESENT, word::STUD_REMARK_NUT_BAD),
        (Thing::Wheel, Sign::Worn | Sign::WrongKind)
        | (Thing::Pilot, Sign::Holes | Sign::Worn | Sign::Welded | Sign::WrongKind) => {
            (&source::COMMON_PRACTICE, word::STUD_REMARK_SEAT)
        }
    }
}

/// Judges what was seen at a wheel end: everything named goes, a regulation's reason first.
///
/// Units: none. Errors: none. A metal that nobody knows is judged as steel, whose disc may carry
/// its maker's own weld: the remark says so. Source: by sign, see [`RULE`].
pub fn judge_wheel(seen: &[(Thing, Sign)], metal: Metal, axle: Axle) -> Judgement {
    let mut reasons: Vec<(&'static Source, Word)> = Vec::new();
    for (thing, sign) in seen {
        let reason = means(*thing, *sign, metal, axle);
        if !reasons.contains(&reason) {
            reasons.push(reason);
        }
    }
    reasons.sort_by_key(|(source, _)| source.standing != Standing::Regulation);
    let Some((first, _)) = reasons.first() else {
        return Judgement::by_eye(RULE.id, Verdict::Sound, &source::WHEEL_CRACKED);
    };
    let judged = Judgement::by_eye(RULE.id, Verdict::Replace, first);
    reasons.iter().fold(judged, |judged, (_, says)| {
        judged.remarking(Remark::plain(*says))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::cases;

    #[test]
    fn table() {
        for row in cases(include_str!("wheel.tsv")) {
            let seen: Vec<(Thing, Sign)> = row
                .list("seen")
                .iter()
                .filter_map(|one| one.split_once(' '))
                .map(|(thing, sign)| {
                    (
                        Thing::from_code(thing).unwrap(),
                        Sign::from_code(sign).unwrap(),
                    )
                })
                .collect();
            let metal = Metal::from_code(row.text("metal")).unwrap();
            let axle = match row.text("axle") {
                "steer" => Axle::Steer,
                _ => Axle::Other,
            };
            let judged = judge_wheel(&seen, metal, axle);
            assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
            let says: Vec<&str> = judged.remarks.iter().map(|said| said.word.key()).collect();
            assert_eq!(says, row.list("says"), "{row}");
            assert!(judged.source.clause.contains(row.text("clause")), "{row}");
            assert!(RULE.sources.contains(&judged.source), "{row}");
        }
    }

    #[test]
    fn whatever_is_seen_goes() {
        let back = |one: &Sign| Sign::from_code(one.code()) == Some(*one);
        assert!(Sign::ALL.iter().all(back));
        for thing in Thing::ALL {
            for sign in Sign::ALL {
                for metal in Metal::ALL {
                    for axle in [Axle::Steer, Axle::Other] {
                        let judged = judge_wheel(&[(*thing, *sign)], *metal, axle);
                        assert_eq!(judged.verdict, Verdict::Replace, "{thing:?} {sign:?}");
                        assert_eq!(judged.remarks.len(), 1);
                    }
                }
            }
        }
    }
}
