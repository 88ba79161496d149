//! Which brake chamber it is: family, type and stroke class.
//!
//! An outside diameter alone doesn't identify a chamber, so the family is asked first, then the
//! type, then the class. A class that nobody could read is `Unknown`, and counts as standard.

use crate::quantity::Length;

/// How a chamber is built.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Family {
    /// Held together by a clamp ring.
    Clamp,
    /// The three-diaphragm kind that is named DD-3.
    Dd3,
    /// Held together by bolts.
    Bolt,
    /// With a rolling diaphragm.
    Rotochamber,
}

/// How long its stroke is built to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum StrokeClass {
    /// Standard: round ports, no mark.
    Standard,
    /// Long stroke: square ports, a trapezoid tag.
    Long,
    /// Long stroke with a rated stroke of three inches, as its tag says.
    LongThreeInch,
    /// Nobody could read it: the standard limit counts.
    Unknown,
}

impl StrokeClass {
    /// Every class.
    pub const ALL: &[Self] = &[
        Self::Standard,
        Self::Long,
        Self::LongThreeInch,
        Self::Unknown,
    ];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Standard => "standard",
            Self::Long => "long",
            Self::LongThreeInch => "long-3-in",
            Self::Unknown => "unknown",
        }
    }

    /// The class of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|class| class.code() == code)
    }
}

impl Family {
    /// Every family.
    pub const ALL: &[Self] = &[Self::Clamp, Self::Dd3, Self::Bolt, Self::Rotochamber];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Clamp => "clamp",
            Self::Dd3 => "dd-3",
            Self::Bolt => "bolt",
            Self::Rotochamber => "rotochamber",
        }
    }

    /// The family of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL
            .iter()
            .copied()
            .find(|family| family.code() == code)
    }

    /// The types that are listed for it.
    pub fn types(self) -> impl Iterator<Item = &'static ChamberType> {
        TYPES.iter().filter(move |listed| listed.family == self)
    }
}

/// A type of chamber that the stroke table lists.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ChamberType {
    /// How it is built.
    pub family: Family,
    /// The number or letter of the type.
    pub name: &'static str,
    /// Its outside diameter as printed, for a look at the part; it doesn't identify it.
    pub outside_diameter: Length,
}

/// Every listed type. Source: [`crate::source::STROKE_LIMITS`].
pub const TYPES: &[ChamberType] = &[
    listed(Family::Clamp, "6", 4, 16),
    listed(Family::Clamp, "9", 5, 8),
    listed(Family::Clamp, "12", 5, 22),
    listed(Family::Clamp, "16", 6, 12),
    listed(Family::Clamp, "20", 6, 25),
    listed(Family::Clamp, "24", 7, 7),
    listed(Family::Clamp, "30", 8, 3),
    listed(Family::Clamp, "36", 9, 0),
    listed(Family::Dd3, "30", 8, 4),
    listed(Family::Bolt, "A", 6, 30),
    listed(Family::Bolt, "B", 9, 6),
    listed(Family::Bolt, "C", 8, 2),
    listed(Family::Bolt, "D", 5, 8),
    listed(Family::Bolt, "E", 6, 6),
    listed(Family::Bolt, "F", 11, 0),
    listed(Family::Bolt, "G", 9, 28),
    listed(Family::Rotochamber, "9", 4, 9),
    listed(Family::Rotochamber, "12", 4, 26),
    listed(Family::Rotochamber, "16", 5, 13),
    listed(Family::Rotochamber, "20", 5, 30),
    listed(Family::Rotochamber, "24", 6, 13),
    listed(Family::Rotochamber, "30", 7, 2),
    listed(Family::Rotochamber, "36", 7, 20),
    listed(Family::Rotochamber, "50", 8, 28),
];

const fn listed(family: Family, name: &'static str, inches: i64, over_32: i64) -> ChamberType {
    let outside_diameter = Length::from_inch_64ths(inches * 64 + over_32 * 2);
    ChamberType {
        family,
        name,
        outside_diameter,
    }
}

/// A brake chamber as it was identified.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Chamber {
    /// One that the stroke table lists.
    Listed {
        /// Family and type.
        of: &'static ChamberType,
        /// Stroke class.
        class: StrokeClass,
    },
    /// One that no table lists: only its own marks count.
    Unlisted {
        /// The rated stroke marked on it.
        rated: Option<Length>,
        /// The stroke limit marked on it.
        marked: Option<Length>,
    },
}

impl Chamber {
    /// A listed chamber; `None` when the table has no such type in this family.
    pub fn listed(family: Family, name: &str, class: StrokeClass) -> Option<Self> {
        let of = family.types().find(|listed| listed.name == name)?;
        Some(Self::Listed { of, class })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_come_back() {
        assert!(
            Family::ALL
                .iter()
                .all(|one| Family::from_code(one.code()) == Some(*one))
        );
        assert!(
            StrokeClass::ALL
                .iter()
                .all(|one| StrokeClass::from_code(one.code()) == Some(*one))
        );
        assert_eq!(
            (Family::from_code("x"), StrokeClass::from_code("x")),
            (None, None)
        );
    }

    #[test]
    fn a_diameter_alone_does_not_identify() {
        let near: Vec<_> = TYPES
            .iter()
            .filter(|one| (8 * 64..=8 * 64 + 8).contains(&(one.outside_diameter.base() / 396_875)))
            .map(|one| (one.family, one.name))
            .collect();
        assert_eq!(
            near,
            [
                (Family::Clamp, "30"),
                (Family::Dd3, "30"),
                (Family::Bolt, "C")
            ]
        );
    }

    #[test]
    fn diameters_are_as_printed() {
        let of = |family: Family, name| {
            let mut types = family.types();
            types
                .find(|listed| listed.name == name)
                .unwrap()
                .outside_diameter
        };
        assert_eq!(
            of(Family::Clamp, "20"),
            Length::from_inch_64ths(6 * 64 + 50),
            "6 25/32 in"
        );
        assert_eq!(
            of(Family::Bolt, "G"),
            Length::from_inch_64ths(9 * 64 + 56),
            "9 7/8 in"
        );
        assert_eq!(
            of(Family::Rotochamber, "9"),
            Length::from_inch_64ths(4 * 64 + 18),
            "4 9/32 in"
        );
    }

    #[test]
    fn types_belong_to_their_family() {
        let counts: Vec<usize> = Family::ALL.iter().map(|one| one.types().count()).collect();
        assert_eq!(counts, [8, 1, 7, 8]);
        assert!(Chamber::listed(Family::Clamp, "30", StrokeClass::Long).is_some());
        assert_eq!(
            Chamber::listed(Family::Clamp, "50", StrokeClass::Standard),
            None
        );
    }
}
