//! Which kind of brake a limit is printed for. Screens say it by its sheet, never by its maker.

/// A kind of S-cam brake that limits are printed for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Brake {
    /// 15 by 4 in, as on steer axles.
    FifteenByFour,
    /// On a spider, of a make whose sheet allows a cam play of 0.020 in.
    SpiderTwenty,
    /// On a spider, of a make whose sheet allows a cam play of 0.030 in.
    SpiderThirty,
    /// On a crane carrier whose sheet allows a cam play of 0.035 in.
    CraneCarrier,
    /// On a trailer axle with the cam in a tube.
    TrailerTube,
    /// Nobody knows.
    Unknown,
}

impl Brake {
    /// Every kind.
    pub const ALL: &[Self] = &[
        Self::FifteenByFour,
        Self::SpiderTwenty,
        Self::SpiderThirty,
        Self::CraneCarrier,
        Self::TrailerTube,
        Self::Unknown,
    ];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::FifteenByFour => "fifteen-by-four",
            Self::SpiderTwenty => "spider-20",
            Self::SpiderThirty => "spider-30",
            Self::CraneCarrier => "crane-carrier",
            Self::TrailerTube => "trailer-tube",
            Self::Unknown => "unknown",
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
        let back = |one: &Brake| Brake::from_code(one.code()) == Some(*one);
        assert!(Brake::ALL.iter().all(back));
        assert_eq!(Brake::from_code("x"), None);
    }
}
