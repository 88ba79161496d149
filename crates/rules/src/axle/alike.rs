//! Whether both ends of an axle are alike: chamber, stroke class, arm, lining, drum, mechanism.
//!
//! Chamber size and arm are law on every axle, and a periodic inspection rejects them on a power
//! unit's steer axle too. Class, lining and drum are the makers' word. For the mechanism no rule was
//! found: that is common practice. What isn't known at one end is no reading, never a difference.

use crate::quantity::Length;
use crate::rules::Rule;
use crate::slack::chamber::{Chamber, Family, StrokeClass};
use crate::slack::mechanism::Mechanism;
use crate::source::{self, Source};
use crate::unit::Unit;
use crate::verdict::{Judgement, RuleId, Verdict};
use crate::word::{self, Remark, Word};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("axle.match"),
    title: word::RULE_AXLE_MATCH,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_AXLE_MATCH,
    figures: &[],
    sources: &[
        &source::CHAMBERS_ALIKE,
        &source::ARMS_ALIKE,
        &source::PERIODIC_INSPECTION,
        &source::CLASSES_ALIKE,
        &source::LININGS_ALIKE,
        &source::DRUMS_ALIKE,
        &source::COMMON_PRACTICE,
    ],
};

/// What is held against the other end.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Part {
    /// Family and size of the chamber.
    Chamber,
    /// Effective length of the arm.
    Arm,
    /// Stroke class of the chamber.
    StrokeClass,
    /// Friction code on the edge of the lining.
    Lining,
    /// Size of the drum, as its cast maximum says it.
    Drum,
    /// How the adjuster works.
    Mechanism,
}

impl Part {
    /// Every part: law first, then the makers' word, then common practice.
    pub const ALL: &[Self] = &[
        Self::Chamber,
        Self::Arm,
        Self::StrokeClass,
        Self::Lining,
        Self::Drum,
        Self::Mechanism,
    ];

    /// The stable name under which it is listed.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Chamber => "chamber",
            Self::Arm => "arm",
            Self::StrokeClass => "class",
            Self::Lining => "lining",
            Self::Drum => "drum",
            Self::Mechanism => "mechanism",
        }
    }

    /// The word for it.
    pub const fn word(self) -> Word {
        match self {
            Self::Chamber => word::AXLE_PART_CHAMBER,
            Self::Arm => word::AXLE_PART_ARM,
            Self::StrokeClass => word::AXLE_PART_CLASS,
            Self::Lining => word::AXLE_PART_LINING,
            Self::Drum => word::AXLE_PART_DRUM,
            Self::Mechanism => word::AXLE_PART_MECHANISM,
        }
    }

    /// Which rule says that both ends are alike.
    pub const fn source(self) -> &'static Source {
        match self {
            Self::Chamber => &source::CHAMBERS_ALIKE,
            Self::Arm => &source::ARMS_ALIKE,
            Self::StrokeClass => &source::CLASSES_ALIKE,
            Self::Lining => &source::LININGS_ALIKE,
            Self::Drum => &source::DRUMS_ALIKE,
            Self::Mechanism => &source::COMMON_PRACTICE,
        }
    }

    const fn differs(self) -> Word {
        match self {
            Self::Chamber => word::AXLE_REMARK_CHAMBER,
            Self::Arm => word::AXLE_REMARK_ARM,
            Self::StrokeClass => word::AXLE_REMARK_CLASS,
            Self::Lining => word::AXLE_REMARK_LINING,
            Self::Drum => word::AXLE_REMARK_DRUM,
            Self::Mechanism => word::AXLE_REMARK_MECHANISM,
        }
    }
}

/// The two letters of a friction code, each as far as it could be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Letters {
    /// The first: friction when warm.
    pub normal: Option<char>,
    /// The second: friction when hot.
    pub hot: Option<char>,
}

/// One end of an axle, as far as it is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct End {
    /// Its chamber.
    pub chamber: Option<Chamber>,
    /// Its arm, from the camshaft's centre to the clevis pin's.
    pub arm: Option<Length>,
    /// The friction code of its linings.
    pub lining: Letters,
    /// The maximum diameter that is cast into its drum.
    pub drum: Option<Length>,
    /// Its adjuster.
    pub mechanism: Mechanism,
}

/// Where the axle stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Axle {
    /// The steer axle of a truck, tractor or bus.
    PowerUnitSteer,
    /// Any other.
    Other,
}

/// One part of both ends, held against each other.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Compared {
    /// Which part.
    pub part: Part,
    /// `sound` where alike, `replace` where not, `no reading` where one end isn't known.
    pub judgement: Judgement,
    /// Every rule that says so, the deciding one first.
    pub says: Vec<&'static Source>,
}

impl Compared {
    /// True if both ends are known, and not alike.
    pub fn differs(&self) -> bool {
        self.judgement.verdict == Verdict::Replace
    }
}

/// Holds every part of both ends against each other, in the order of [`Part::ALL`].
///
/// Units: any length for arms and drums, compared exactly. Errors: none; what isn't known is no
/// reading.
/// Source: [`source::CHAMBERS_ALIKE`], [`source::ARMS_ALIKE`] on any axle,
/// [`source::PERIODIC_INSPECTION`] on a power unit's steer axle, [`source::CLASSES_ALIKE`],
/// [`source::LININGS_ALIKE`], [`source::DRUMS_ALIKE`]; [`source::COMMON_PRACTICE`] for the mechanism.
pub fn compare(left: &End, right: &End, axle: Axle) -> Vec<Compared> {
    Part::ALL
        .iter()
        .map(|part| compare_part(*part, left, right, axle))
        .collect()
}

fn compare_part(part: Part, left: &End, right: &End, axle: Axle) -> Compared {
    let found = match part {
        Part::Chamber => pair(marked(left), marked(right), same_size),
        Part::Arm => pair(left.arm, right.arm, |left, right| left == right),
        Part::StrokeClass => classes(left.chamber, right.chamber),
        Part::Lining => linings(left.lining, right.lining),
        Part::Drum => pair(left.drum, right.drum, |left, right| left == right),
        Part::Mechanism => pair(known(left), known(right), |left, right| left == right),
    };
    let (verdict, word) = match found {
        Found::Alike => (Verdict::Sound, word::AXLE_REMARK_ALIKE),
        Found::Differs => (Verdict::Replace, part.differs()),
        Found::Unknown(word) => (Verdict::NoReading, word),
    };
    let mut says = vec![part.source()];
    let mut judgement =
        Judgement::by_eye(RULE.id, verdict, part.source()).remarking(Remark::plain(word));
    if axle == Axle::PowerUnitSteer && matches!(part, Part::Chamber | Part::Arm) {
        says.push(&source::PERIODIC_INSPECTION);
        if verdict == Verdict::Replace {
            judgement = judgement.remarking(Remark::plain(word::AXLE_REMARK_STEER));
        }
    }
    Compared {
        part,
        judgement,
        says,
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Found {
    Alike,
    Differs,
    Unknown(Word),
}

const UNKNOWN: Found = Found::Unknown(word::AXLE_REMARK_UNKNOWN);

fn pair<T: Copy>(left: Option<T>, right: Option<T>, same: impl Fn(T, T) -> bool) -> Found {
    match (left, right) {
        (Some(left), Some(right)) if same(left, right) => Found::Alike,
        (Some(_), Some(_)) => Found::Differs,
        _ => UNKNOWN,
    }
}

/// A chamber that no table lists is known by its marks only.
fn marked(end: &End) -> Option<Chamber> {
    end.chamber.filter(|chamber| match chamber {
        Chamber::Listed { .. } => true,
        Chamber::Unlisted { rated, marked } => rated.is_some() || marked.is_some(),
    })
}

fn known(end: &End) -> Option<Mechanism> {
    Some(end.mechanism).filter(|mechanism| *mechanism != Mechanism::Unknown)
}

fn same_size(left: Chamber, right: Chamber) -> bool {
    match (left, right) {
        (Chamber::Listed { of: left, .. }, Chamber::Listed { of: right, .. }) => left == right,
        (Chamber::Unlisted { .. }, Chamber::Unlisted { .. }) => left == right,
        _ => false,
    }
}

fn classes(left: Option<Chamber>, right: Option<Chamber>) -> Found {
    let (Some(left), Some(right)) = (left.map(class), right.map(class)) else {
        return UNKNOWN;
    };
    if left == StrokeClass::Unknown || right == StrokeClass::Unknown {
        return Found::Unknown(word::AXLE_REMARK_CLASS_UNKNOWN);
    }
    pair(Some(left), Some(right), |left, right| left == right)
}

/// Only clamp chambers come in classes: of the others the size already says everything.
fn class(chamber: Chamber) -> StrokeClass {
    match chamber {
        Chamber::Listed { of, class } if of.family == Family::Clamp => class,
        Chamber::Listed { .. } | Chamber::Unlisted { .. } => StrokeClass::Standard,
    }
}

/// One letter that differs is a difference, whatever the other says.
fn linings(left: Letters, right: Letters) -> Found {
    let letters = [(left.normal, right.normal), (left.hot, right.hot)];
    let found = letters.map(|(left, right)| pair(left, right, |left, right| left == right));
    if found.contains(&Found::Differs) {
        return Found::Differs;
    }
    // Two that say "not classified" say nothing of each other.
    if letters.contains(&(Some('Z'), Some('Z'))) {
        return Found::Unknown(word::AXLE_REMARK_LINING_UNCLASSIFIED);
    }
    let [normal, hot] = found;
    if normal == Found::Alike { hot } else { normal }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::cases;
    use crate::slack::chamber::TYPES;

    /// "clamp 30 long / 5 1/2 in / FF / 16.62 in / clutch", "-" for what isn't known.
    fn end(text: &str) -> End {
        let parts: Vec<&str> = text.split(" / ").collect();
        let chamber: Vec<&str> = parts[0].split(' ').collect();
        let length = |text: &str| {
            let typed = crate::cases::typed(text)?;
            typed.quantity().length()
        };
        let rated = format!("{} in", chamber.last().unwrap());
        let letter = |at: usize| parts[2].chars().nth(at).filter(|letter| *letter != '-');
        End {
            chamber: match chamber[..] {
                ["-"] => None,
                ["unlisted", "?"] => Some(Chamber::Unlisted {
                    rated: None,
                    marked: None,
                }),
                ["unlisted", _] => Some(Chamber::Unlisted {
                    rated: length(&rated),
                    marked: None,
                }),
                [family, name, class] => Chamber::listed(
                    Family::from_code(family).unwrap(),
                    name,
                    StrokeClass::from_code(class).unwrap(),
                ),
                _ => panic!("no chamber {text}"),
            },
            arm: length(parts[1]),
            lining: Letters {
                normal: letter(0),
                hot: letter(1),
            },
            drum: length(parts[3]),
            mechanism: Mechanism::from_code(parts[4]).unwrap(),
        }
    }

    #[test]
    fn table() {
        for row in cases(include_str!("alike.tsv")) {
            let axle = if row.text("axle") == "steer" {
                Axle::PowerUnitSteer
            } else {
                Axle::Other
            };
            for (left, right) in [("left", "right"), ("right", "left")] {
                let compared = compare(&end(row.text(left)), &end(row.text(right)), axle);
                let of = |verdict| {
                    let of = compared
                        .iter()
                        .filter(|one| one.judgement.verdict == verdict);
                    of.map(|one| one.part.code()).collect::<Vec<_>>()
                };
                assert_eq!(of(Verdict::Replace), row.list("differs"), "{row}");
                assert_eq!(of(Verdict::NoReading), row.list("unknown"), "{row}");
                let first = compared.iter().find(|one| one.differs());
                let says = first.map_or(Vec::new(), |one| {
                    one.says.iter().map(|source| source.clause).collect()
                });
                assert_eq!(says.join(" + "), row.text("says").replace('-', ""), "{row}");
                let remarks: Vec<&str> = compared
                    .iter()
                    .flat_map(|one| &one.judgement.remarks)
                    .map(|said| said.word.key().trim_start_matches("axle.remark."))
                    .filter(|key| !["alike", "unknown"].contains(key))
                    .collect();
                assert_eq!(remarks, row.list("remarks"), "{row}");
            }
        }
    }

    #[test]
    fn every_part_has_its_own_name() {
        for (at, part) in Part::ALL.iter().enumerate() {
            let same = |other: &&Part| other.code() == part.code() || other.word() == part.word();
            assert!(
                !Part::ALL[..at].iter().any(|other| same(&other)),
                "{part:?}"
            );
        }
    }

    proptest! {
        #[test]
        fn ends_are_alike_only_with_themselves(left in 0..TYPES.len(), right in 0..TYPES.len(), arms in (0_i64..4, 0_i64..4)) {
            let end = |of: usize, arm: i64| End {
                chamber: Some(Chamber::Listed { of: &TYPES[of], class: StrokeClass::Standard }),
                arm: Some(Length::from_inch_64ths(320 + arm)),
                lining: Letters { normal: None, hot: None },
                drum: None,
                mechanism: Mechanism::Unknown,
            };
            let compared = compare(&end(left, arms.0), &end(right, arms.1), Axle::Other);
            prop_assert_eq!(compared[0].differs(), left != right);
            prop_assert_eq!(compared[1].differs(), arms.0 != arms.1);
            // What nobody read is never a difference.
            prop_assert!(compared[2..].iter().all(|one| !one.differs()));
        }
    }
}
