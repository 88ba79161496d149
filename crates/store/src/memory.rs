//! A home in memory: for tests, and for trying things out where nothing needs to stay.
//!
//! It keeps the same contract as the browser's, and everything is lost with the last [`Medium`].

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::future::ready;
use std::rc::Rc;

use job::id::{CardId, TabletId};

use crate::{
    Counts, PracticeHome, Row, Saving, StoreError, Summary, TrailStore, Which, WriterNumber,
};

/// What a store in memory writes to. Several stores can be opened on one, as tabs on a database.
#[derive(Clone, Debug, Default)]
pub struct Medium(Rc<RefCell<Shelf>>);

#[derive(Debug, Default)]
struct Shelf {
    tablet: Option<TabletId>,
    writer: Option<WriterNumber>,
    lines: BTreeMap<(CardId, TabletId, u32), String>,
    summaries: BTreeMap<CardId, String>,
    photos: BTreeMap<String, Photo>,
    /// No limit if `None`.
    room_bytes: Option<usize>,
}

#[derive(Debug)]
struct Photo {
    length: usize,
    bytes: Vec<u8>,
}

/// A store on a [`Medium`].
#[derive(Clone, Debug)]
pub struct MemoryStore {
    medium: Medium,
    which: Which,
}

/// A practice bay on a [`Medium`] of its own.
#[derive(Clone, Debug, Default)]
pub struct MemoryPractice(Medium);

impl Medium {
    pub fn new() -> Self {
        Self::default()
    }

    /// Leaves room for so many more bytes, to see what happens when it is used up.
    pub fn leave_room_bytes(&self, more: usize) {
        let mut kept = self.0.borrow_mut();
        kept.room_bytes = Some(kept.used_bytes() + more);
    }

    /// Cuts a kept photo short, as a failing medium would.
    pub fn cut_photo(&self, sha_hex: &str, left_bytes: usize) {
        if let Some(photo) = self.0.borrow_mut().photos.get_mut(sha_hex) {
            photo.bytes.truncate(left_bytes);
        }
    }
}

impl MemoryStore {
    /// The shop's store on a medium.
    pub fn on(medium: &Medium) -> Self {
        Self {
            medium: medium.clone(),
            which: Which::Shop,
        }
    }

    fn done<T: 'static>(
        &self,
        work: impl FnOnce(&mut Shelf) -> Result<T, StoreError>,
    ) -> Saving<T> {
        Box::pin(ready(work(&mut self.medium.0.borrow_mut())))
    }
}

impl TrailStore for MemoryStore {
    fn tablet_or(&self, new: TabletId) -> Saving<TabletId> {
        self.done(|kept| Ok(kept.tablet.get_or_insert(new).clone()))
    }

    fn claim_writer(&self) -> Saving<WriterNumber> {
        self.done(|kept| {
            let next = WriterNumber::after(kept.writer).ok_or_else(StoreError::out_of_numbers)?;
            kept.writer = Some(next);
            Ok(next)
        })
    }

    fn append(
        &self,
        card: &CardId,
        rows: &[Row],
        summary: &str,
        writer: WriterNumber,
    ) -> Saving<()> {
        self.done(|kept| {
            self.which.may_keep(card)?;
            kept.check_writer(writer)?;
            let mut new = BTreeMap::new();
            for row in rows {
                let place = (card.clone(), row.tablet.clone(), row.n);
                if kept.lines.contains_key(&place) || new.insert(place, row.text.clone()).is_some()
                {
                    let Row { tablet, n, .. } = row.clone();
                    let card = card.clone();
                    return Err(StoreError::Taken { card, tablet, n });
                }
            }
            let line_bytes = rows.iter().map(|row| row.text.len()).sum::<usize>();
            kept.check_room(line_bytes + summary.len())?;
            kept.lines.append(&mut new);
            kept.summaries.insert(card.clone(), summary.to_owned());
            Ok(())
        })
    }

    fn read(&self, card: &CardId) -> Saving<Vec<Row>> {
        self.done(|kept| {
            let from_card = kept.lines.range((card.clone(), TabletId::new(""), 0)..);
            Ok(from_card
                .take_while(|((of, ..), _)| of == card)
                .map(|((_, tablet, n), text)| Row {
                    tablet: tablet.clone(),
                    n: *n,
                    text: text.clone(),
                })
                .collect())
        })
    }

    fn cards(&self) -> Saving<Vec<Summary>> {
        self.done(|kept| {
            let all = kept.summaries.iter();
            Ok(all
                .map(|(card, text)| Summary {
                    card: card.clone(),
                    text: text.clone(),
                })
                .collect())
        })
    }

    fn put_summary(&self, card: &CardId, summary: &str, writer: WriterNumber) -> Saving<()> {
        self.done(|kept| {
            self.which.may_keep(card)?;
            kept.check_writer(writer)?;
            kept.check_room(summary.len())?;
            kept.summaries.insert(card.clone(), summary.to_owned());
            Ok(())
        })
    }

    fn keep_photo(
        &self,
        card: &CardId,
        sha_hex: &str,
        bytes: &[u8],
        writer: WriterNumber,
    ) -> Saving<()> {
        self.done(|kept| {
            self.which.may_keep(card)?;
            kept.check_writer(writer)?;
            match kept.photos.get(sha_hex) {
                Some(there) if there.length != bytes.len() => {
                    return Err(StoreError::photo_length(there.length, bytes.len()));
                }
                Some(there) if there.bytes.len() == there.length => return Ok(()),
                Some(_) | None => {}
            }
            kept.check_room(bytes.len())?;
            let photo = Photo {
                length: bytes.len(),
                bytes: bytes.to_owned(),
            };
            kept.photos.insert(sha_hex.to_owned(), photo);
            Ok(())
        })
    }

    fn photo(&self, sha_hex: &str) -> Saving<Option<Vec<u8>>> {
        self.done(|kept| match kept.photos.get(sha_hex) {
            None => Ok(None),
            Some(photo) if photo.bytes.len() == photo.length => Ok(Some(photo.bytes.clone())),
            Some(photo) => Err(StoreError::photo_length(photo.length, photo.bytes.len())),
        })
    }

    fn counts(&self) -> Saving<Counts> {
        let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        self.done(|kept| {
            Ok(Counts {
                cards: count(kept.summaries.len()),
                lines: count(kept.lines.len()),
                photos: count(kept.photos.len()),
            })
        })
    }
}

impl MemoryPractice {
    pub fn new() -> Self {
        Self::default()
    }
}

impl PracticeHome for MemoryPractice {
    type Store = MemoryStore;

    fn store(&self) -> MemoryStore {
        MemoryStore {
            medium: self.0.clone(),
            which: Which::Practice,
        }
    }

    fn erase_all(&self, writer: WriterNumber) -> Saving<()> {
        self.store().done(|kept| {
            kept.check_writer(writer)?;
            kept.lines.clear();
            kept.summaries.clear();
            kept.photos.clear();
            Ok(())
        })
    }
}

impl Shelf {
    fn check_writer(&self, ours: WriterNumber) -> Result<(), StoreError> {
        if self.writer == Some(ours) {
            return Ok(());
        }
        Err(StoreError::NotTheWriter {
            ours,
            now: self.writer,
        })
    }

    fn check_room(&self, more_bytes: usize) -> Result<(), StoreError> {
        match self.room_bytes {
            Some(room_bytes) if room_bytes < self.used_bytes() + more_bytes => {
                Err(StoreError::Full)
            }
            Some(_) | None => Ok(()),
        }
    }

    fn used_bytes(&self) -> usize {
        let texts = self.lines.values().chain(self.summaries.values());
        texts.map(String::len).sum::<usize>()
            + self
                .photos
                .values()
                .map(|photo| photo.bytes.len())
                .sum::<usize>()
    }
}
