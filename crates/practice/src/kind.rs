//! The kinds of judgement that an apprentice gets sure of, one by one.

/// A kind of judgement.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// Reading an instrument to its graduation.
    Reading,
    /// Stands, their tags and the load.
    Stands,
    /// What protects a person, and what waits for it.
    First,
    /// Pushrod strokes, free strokes and their conditions.
    Stroke,
    /// Why a stroke is long.
    Cause,
    /// Slack adjuster and clevis.
    Adjuster,
    /// Chamber and spring brake.
    Chamber,
    /// Linings, shoes and what holds them.
    Lining,
    /// Friction codes.
    EdgeCode,
    /// Drums.
    Drum,
    /// Camshaft, bushings, anchors and spider.
    Camshaft,
    /// Hub, seal and bearing.
    Hub,
    /// Studs, nuts and wheels.
    Wheel,
    /// The order of the nuts.
    Pattern,
    /// Inches and millimetres.
    Units,
}

impl Kind {
    /// Every kind.
    pub const ALL: &[Self] = &[
        Self::Reading,
        Self::Stands,
        Self::First,
        Self::Stroke,
        Self::Cause,
        Self::Adjuster,
        Self::Chamber,
        Self::Lining,
        Self::EdgeCode,
        Self::Drum,
        Self::Camshaft,
        Self::Hub,
        Self::Wheel,
        Self::Pattern,
        Self::Units,
    ];

    /// The stable name under which it is stored, and the end of its word key.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Reading => "reading",
            Self::Stands => "stands",
            Self::First => "first",
            Self::Stroke => "stroke",
            Self::Cause => "cause",
            Self::Adjuster => "adjuster",
            Self::Chamber => "chamber",
            Self::Lining => "lining",
            Self::EdgeCode => "edge-code",
            Self::Drum => "drum",
            Self::Camshaft => "camshaft",
            Self::Hub => "hub",
            Self::Wheel => "wheel",
            Self::Pattern => "pattern",
            Self::Units => "units",
        }
    }

    /// The kind of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_come_back() {
        assert!(
            Kind::ALL
                .iter()
                .all(|one| Kind::from_code(one.code()) == Some(*one))
        );
        assert_eq!(Kind::from_code("score"), None);
    }
}
