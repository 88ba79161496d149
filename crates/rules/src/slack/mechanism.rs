//! How a slack adjuster works inside. Screens name the mechanism, never a maker.

/// How a slack adjuster works inside.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Mechanism {
    /// Automatic, a clutch with a control arm: it ratchets as it backs off.
    Clutch,
    /// Automatic, with a pawl that is pulled or taken out before the hex is turned.
    Pawl,
    /// Automatic without a link; backing off needs up to 70 lbf·ft, and that is normal.
    Linkless,
    /// Automatic, set up with a clevis gauge.
    Gauge,
    /// Manual, with a locking sleeve.
    Manual,
    /// Nobody knows.
    Unknown,
}

impl Mechanism {
    /// Every mechanism.
    pub const ALL: &[Self] = &[
        Self::Clutch,
        Self::Pawl,
        Self::Linkless,
        Self::Gauge,
        Self::Manual,
        Self::Unknown,
    ];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Clutch => "clutch",
            Self::Pawl => "pawl",
            Self::Linkless => "linkless",
            Self::Gauge => "gauge",
            Self::Manual => "manual",
            Self::Unknown => "unknown",
        }
    }

    /// The mechanism of a stored name.
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
            Mechanism::ALL
                .iter()
                .all(|one| Mechanism::from_code(one.code()) == Some(*one))
        );
        assert_eq!(Mechanism::from_code("x"), None);
    }
}
