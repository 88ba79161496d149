//! Where the lines of a trail are kept: one trait, a home in memory, a home in the browser.
//!
//! The store never looks into a line or a summary: both are text to it. It never updates or
//! deletes a line, and never says that something is kept before it is on the medium.
//!
//! Read [`TrailStore`] first, then [`memory`], then `browser`. Both homes keep the same contract,
//! which stands in `tests/contract.rs`.

use std::fmt;
use std::pin::Pin;

use job::id::{CardId, TabletId};

mod error;
pub mod memory;

pub mod browser;

pub use error::{Kept, StoreError};

/// The answer to a call on a store.
///
/// The work starts with the call. The future only waits for its outcome: dropping it neither
/// stops nor undoes a save.
pub type Saving<T> = Pin<Box<dyn Future<Output = Result<T, StoreError>>>>;

/// Lines are only added: `append` refuses a taken place; nothing updates or deletes.
pub trait TrailStore {
    /// This tablet's id: the one that is kept, or `new` if there is none yet, which is then kept.
    fn tablet_or(&self, new: TabletId) -> Saving<TabletId>;

    /// Makes the caller the one who may write. Every number given out before is refused from then on.
    fn claim_writer(&self) -> Saving<WriterNumber>;

    /// Adds `rows` to a card and writes its summary, all of it or nothing.
    ///
    /// Resolves with `Ok` when it is on the medium, not before. Takes one row or many thousand.
    ///
    /// Errors: [`StoreError::OtherHome`], [`StoreError::NotTheWriter`], [`StoreError::Taken`],
    /// [`StoreError::Full`], or a fault of the medium. Nothing of the call is kept then.
    fn append(
        &self,
        card: &CardId,
        rows: &[Row],
        summary: &str,
        writer: WriterNumber,
    ) -> Saving<()>;

    /// All rows of a card, in order of (tablet, n). None if there is no such card.
    fn read(&self, card: &CardId) -> Saving<Vec<Row>>;

    /// The summary of every card, in order of card.
    fn cards(&self) -> Saving<Vec<Summary>>;

    /// Writes a summary anew that was derived from the card's rows. The rows stay as they are.
    fn put_summary(&self, card: &CardId, summary: &str, writer: WriterNumber) -> Saving<()>;

    /// Keeps a photo under the SHA-256 of its bytes, which the caller has computed.
    ///
    /// The same photo may be kept again, which mends one that was cut.
    fn keep_photo(
        &self,
        card: &CardId,
        sha_hex: &str,
        bytes: &[u8],
        writer: WriterNumber,
    ) -> Saving<()>;

    /// The bytes of a photo, or `None` if there is none.
    ///
    /// Their length is checked; whether they still have that SHA-256 is for the caller to check.
    ///
    /// Errors: [`StoreError::Damaged`] if the length is not the one that was kept.
    fn photo(&self, sha_hex: &str) -> Saving<Option<Vec<u8>>>;

    /// How much is kept.
    fn counts(&self) -> Saving<Counts>;
}

/// The practice bay's home: the only one that can be emptied.
pub trait PracticeHome {
    type Store: TrailStore;

    fn store(&self) -> Self::Store;

    /// Removes all cards and photos of the practice bay. Its tablet id and writer number stay.
    fn erase_all(&self, writer: WriterNumber) -> Saving<()>;
}

/// One line of a card's trail, as it is kept. The card is named by the call.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    pub tablet: TabletId,
    /// 1, 2, 3… in the strand of `tablet`.
    pub n: u32,
    /// The stored line, byte for byte.
    pub text: String,
}

/// What a list of cards shows of one card. The text is derived from its rows by the caller.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Summary {
    pub card: CardId,
    pub text: String,
}

/// Which of the two stores of a tablet. They never share anything.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Which {
    /// Real cards.
    Shop,
    /// Made-up cards of the practice bay and the demo.
    Practice,
}

impl Which {
    /// Whether a card may be kept here: what is of the practice bay in that bay alone, and nothing else
    /// there.
    ///
    /// Errors: [`StoreError::OtherHome`].
    pub(crate) fn may_keep(self, card: &CardId) -> Result<(), StoreError> {
        if card.is_practice() == (self == Self::Practice) {
            return Ok(());
        }
        Err(StoreError::OtherHome { card: card.clone() })
    }
}

/// Says who may write. Only [`TrailStore::claim_writer`] makes one; the highest one counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct WriterNumber(u32);

impl WriterNumber {
    /// The number after `last`, or the first one. `None` when there are no more.
    fn after(last: Option<Self>) -> Option<Self> {
        match last {
            Some(Self(last)) => last.checked_add(1).map(Self),
            None => Some(Self(1)),
        }
    }
}

impl fmt::Display for WriterNumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// How much a store holds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    pub cards: u32,
    pub lines: u32,
    pub photos: u32,
}
