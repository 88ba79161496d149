//! What decides how a wheel bearing is adjusted: whose way, which axle, which nuts, which thread.

/// Whose way of adjusting applies to this hub.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Way {
    /// The trade's rule book, for bearings that are adjusted by hand.
    RuleBook,
    /// A trailer maker's own, with the wider window.
    TrailerMaker,
    /// A driven steer axle with its own close window.
    SteerDrive,
    /// One nut with a keeper, by its own sheet.
    OnePieceNut,
    /// Nobody knows, or a hub that comes preset.
    Unknown,
}

impl Way {
    /// Every way.
    pub const ALL: &[Self] = &[
        Self::RuleBook,
        Self::TrailerMaker,
        Self::SteerDrive,
        Self::OnePieceNut,
        Self::Unknown,
    ];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::RuleBook => "rule-book",
            Self::TrailerMaker => "trailer-maker",
            Self::SteerDrive => "steer-drive",
            Self::OnePieceNut => "one-piece-nut",
            Self::Unknown => "unknown",
        }
    }

    /// The way of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }
}

/// Where the axle is and what it does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Axle {
    /// It steers and isn't driven.
    Steer,
    /// It is driven.
    Drive,
    /// It is under a trailer.
    Trailer,
}

impl Axle {
    /// Every axle.
    pub const ALL: &[Self] = &[Self::Steer, Self::Drive, Self::Trailer];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Steer => "steer",
            Self::Drive => "drive",
            Self::Trailer => "trailer",
        }
    }

    /// The axle of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }
}

/// What holds the bearing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Nuts {
    /// One nut and a cotter pin.
    Single,
    /// Two nuts, each under 2 5/8 in across.
    DoubleSmall,
    /// Two nuts of 2 5/8 in across and more.
    DoubleLarge,
    /// Two nuts with a dowel washer between them.
    Dowel,
    /// Two nuts with a washer whose tangs are bent over them.
    Tang,
}

impl Nuts {
    /// Every kind.
    pub const ALL: &[Self] = &[
        Self::Single,
        Self::DoubleSmall,
        Self::DoubleLarge,
        Self::Dowel,
        Self::Tang,
    ];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Single => "single",
            Self::DoubleSmall => "double-small",
            Self::DoubleLarge => "double-large",
            Self::Dowel => "dowel",
            Self::Tang => "tang",
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
        let way = |one: &Way| Way::from_code(one.code()) == Some(*one);
        let axle = |one: &Axle| Axle::from_code(one.code()) == Some(*one);
        let nuts = |one: &Nuts| Nuts::from_code(one.code()) == Some(*one);
        assert!(Way::ALL.iter().all(way));
        assert!(Axle::ALL.iter().all(axle));
        assert!(Nuts::ALL.iter().all(nuts));
        assert_eq!(
            (
                Way::from_code("x"),
                Axle::from_code("x"),
                Nuts::from_code("x")
            ),
            (None, None, None)
        );
    }
}
