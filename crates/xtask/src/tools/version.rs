//! Version numbers as tools print them, and whether one will do where another is wanted.

use std::fmt;

#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Version(Vec<u32>);

/// Which versions will do.
#[derive(Clone, Copy)]
pub(super) enum Fits {
    Exactly,
    /// The first two numbers agree, the rest is the same or later.
    SameMinorOrLater,
    /// The first number is the same or later.
    SameMajorOrLater,
}

impl Version {
    /// The first word of `text` that is a version: `0.21.14`, `v20.1.0`, `132`.
    pub(super) fn find(text: &str) -> Option<Self> {
        text.split_whitespace().find_map(|word| {
            let word = word.strip_prefix('v').unwrap_or(word);
            let numbers = word.split('.').map(|number| number.parse().ok());
            numbers.collect::<Option<Vec<u32>>>().map(Self)
        })
    }

    pub(super) fn major(&self) -> Option<u32> {
        self.0.first().copied()
    }

    fn first(&self, count: usize) -> &[u32] {
        self.0.get(..count).unwrap_or(&self.0)
    }
}

impl Fits {
    pub(super) fn accept(self, wanted: &Version, found: &Version) -> bool {
        match self {
            Self::Exactly => found == wanted,
            Self::SameMinorOrLater => found.first(2) == wanted.first(2) && wanted <= found,
            Self::SameMajorOrLater => wanted.first(1) <= found.first(1),
        }
    }
}

impl fmt::Display for Version {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let numbers: Vec<_> = self.0.iter().map(u32::to_string).collect();
        f.write_str(&numbers.join("."))
    }
}

#[cfg(test)]
mod tests {
    use super::Version;

    #[test]
    fn found_in_what_tools_print() {
        let seen = |text| Version::find(text).map(|version| version.to_string());
        assert_eq!(seen("trunk 0.21.14").as_deref(), Some("0.21.14"));
        assert_eq!(seen("v20.20.2").as_deref(), Some("20.20.2"));
        assert_eq!(
            seen("wasm-opt version 132 (version_132)").as_deref(),
            Some("132")
        );
        assert_eq!(seen("command not found"), None);
        assert_eq!(seen(""), None);
    }
}
