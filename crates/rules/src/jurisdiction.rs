//! Whose rules a vehicle is judged by.

/// Whose rules a vehicle is judged by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Jurisdiction {
    /// A state of the United States.
    UnitedStates,
    /// Quebec.
    Quebec,
    /// Ontario.
    Ontario,
    /// Another province or territory of Canada.
    Canada,
}

impl Jurisdiction {
    /// Every one.
    pub const ALL: &[Self] = &[
        Self::UnitedStates,
        Self::Quebec,
        Self::Ontario,
        Self::Canada,
    ];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::UnitedStates => "us",
            Self::Quebec => "quebec",
            Self::Ontario => "ontario",
            Self::Canada => "canada",
        }
    }

    /// The jurisdiction of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }

    /// Whether a figure of United States law is shown with the note that the province's is missing.
    pub const fn borrows_us_figures(self) -> bool {
        matches!(self, Self::Ontario | Self::Canada)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_come_back() {
        for one in Jurisdiction::ALL {
            assert_eq!(Jurisdiction::from_code(one.code()), Some(*one));
        }
        assert_eq!(Jurisdiction::from_code("moon"), None);
    }

    #[test]
    fn only_two_borrow() {
        let borrows: Vec<bool> = Jurisdiction::ALL
            .iter()
            .map(|one| one.borrows_us_figures())
            .collect();
        assert_eq!(borrows, [false, false, true, true]);
    }
}
