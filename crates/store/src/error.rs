//! What can go wrong in keeping things. Words for a person are not made here.

use std::error::Error;
use std::fmt;

use job::id::{CardId, TabletId};

use crate::WriterNumber;

/// Why a store did not do what it was asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum StoreError {
    /// A line stands there already. Nothing of the call was kept.
    Taken {
        card: CardId,
        tablet: TabletId,
        n: u32,
    },
    /// Another tab or window has become the writer since, or the store was emptied.
    NotTheWriter {
        ours: WriterNumber,
        now: Option<WriterNumber>,
    },
    /// The card belongs to the other home: practice among real cards, or the reverse. Nothing of the
    /// call was kept.
    OtherHome { card: CardId },
    /// No room is left. Nothing of the call was kept, everything before it was.
    Full,
    /// Another tab with an older version of the app keeps the store from being opened.
    Blocked,
    /// The store was made by a newer version of the app than this one.
    Newer,
    /// What was read is not what can have been written.
    Damaged {
        kept: Kept,
        expected: String,
        found: String,
    },
    /// The store can't be reached, after it was tried twice.
    Gone,
    /// Anything else, by the name that the browser gives it.
    Other { name: String },
}

/// What kind of thing is damaged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kept {
    Line,
    Summary,
    Photo,
    Tablet,
    Writer,
}

impl fmt::Display for Kept {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Line => "line",
            Self::Summary => "summary",
            Self::Photo => "photo",
            Self::Tablet => "tablet id",
            Self::Writer => "writer number",
        })
    }
}

impl fmt::Display for StoreError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Taken { card, tablet, n } => {
                write!(
                    f,
                    "place is taken: expected none, found line {n} of tablet {tablet} on card {card}"
                )
            }
            Self::NotTheWriter {
                ours,
                now: Some(now),
            } => {
                write!(f, "not the writer: expected writer {now}, found {ours}")
            }
            Self::NotTheWriter { ours, now: None } => {
                write!(
                    f,
                    "not the writer: expected a claim first, found writer {ours}"
                )
            }
            Self::OtherHome { card } => {
                write!(f, "other home: expected a card of this one, found {card}")
            }
            Self::Full => f.write_str("store is full"),
            Self::Blocked => f.write_str("store is held open by an older version of the app"),
            Self::Newer => f.write_str("store was made by a newer version of the app"),
            Self::Damaged {
                kept,
                expected,
                found,
            } => {
                write!(f, "{kept} is damaged: expected {expected}, found {found}")
            }
            Self::Gone => f.write_str("store can't be reached"),
            Self::Other { name } => write!(f, "store failed with {name}"),
        }
    }
}

impl Error for StoreError {}

impl StoreError {
    /// A photo whose bytes are not as many as were kept.
    pub(crate) fn photo_length(expected: usize, found: usize) -> Self {
        Self::Damaged {
            kept: Kept::Photo,
            expected: format!("{expected} bytes"),
            found: format!("{found} bytes"),
        }
    }

    /// No writer number is left to give out.
    pub(crate) fn out_of_numbers() -> Self {
        Self::Damaged {
            kept: Kept::Writer,
            expected: format!("a number below {}", u32::MAX),
            found: u32::MAX.to_string(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fault_gives_expected_and_found() {
        let taken = StoreError::Taken {
            card: "c1".into(),
            tablet: "t1".into(),
            n: 7,
        };
        assert_eq!(
            taken.to_string(),
            "place is taken: expected none, found line 7 of tablet t1 on card c1"
        );
        assert_eq!(
            StoreError::photo_length(10, 3).to_string(),
            "photo is damaged: expected 10 bytes, found 3 bytes"
        );
    }
}
