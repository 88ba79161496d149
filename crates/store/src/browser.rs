//! The home in the browser: two IndexedDB databases, one for the shop and one for practice.
//!
//! It never answers `Ok` to a save before the transaction has reported `complete`, and it asks
//! for strict durability, with which that report comes after the bytes are on the medium. It
//! never makes a new database in place of one that was open and has vanished.
//!
//! Every call runs in a task of its own, driven by the database's events, so that dropping the
//! future that it returned stops nothing.

mod connection;
mod transaction;

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use futures_channel::oneshot;
use job::id::{CardId, TabletId};
use js_sys::{Array, ArrayBuffer, Object, Reflect, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::spawn_local;
use web_sys::{IdbDatabase, IdbKeyRange, IdbRequest};

use connection::{Connection, Opening};
use transaction::{Failed, Mode, Transaction};

use crate::{
    Counts, Kept, PracticeHome, Row, Saving, StoreError, Summary, TrailStore, Which, WriterNumber,
};

/// Key [card, tablet, n]; value the line's text.
const LINES: &str = "lines";
/// Key card; value the summary's text.
const SUMMARIES: &str = "summaries";
/// Key SHA-256 in hex; value `{ card, length, bytes }`, bytes in an `ArrayBuffer`: files and
/// blobs have come back broken on some tablets.
const PHOTOS: &str = "photos";
/// Keys [`TABLET`] and [`WRITER`].
const TABLET_FACTS: &str = "tablet";
const TABLET: &str = "id";
const WRITER: &str = "writer";

impl Which {
    /// The database's name. Never changed: the cards are under it.
    pub fn database_name(self) -> &'static str {
        match self {
            Self::Shop => "chock-to-chock",
            Self::Practice => "chock-to-chock-practice",
        }
    }
}

/// A tablet's store in the browser. Cheap to clone; all clones share one connection.
#[derive(Clone)]
pub struct BrowserStore(Rc<Shared>);

struct Shared {
    which: Which,
    connection: RefCell<Option<Rc<Connection>>>,
    /// A full disk closes the connection and lets none be opened until there is room.
    was_full: Cell<bool>,
}

/// The practice bay's store in the browser.
#[derive(Clone)]
pub struct BrowserPractice(BrowserStore);

impl BrowserStore {
    /// Opens the store, and makes it if this tablet has none yet.
    ///
    /// Errors: [`StoreError::Blocked`], [`StoreError::Newer`], [`StoreError::Full`],
    /// [`StoreError::Gone`], or what the browser says where it allows no store at all.
    pub async fn open(which: Which) -> Result<Self, StoreError> {
        let connection = match Connection::open(which, Opening::AtStart).await {
            Err(Failed::Lost) => Connection::open(which, Opening::AtStart).await,
            first => first,
        };
        let connection = connection.map_err(Failed::for_good)?;
        Ok(Self(Rc::new(Shared {
            which,
            connection: RefCell::new(Some(Rc::new(connection))),
            was_full: Cell::new(false),
        })))
    }

    /// Runs `work` to its end in a task of its own. Once more on a new connection, if the first
    /// one is lost.
    fn run<T: 'static>(
        &self,
        work: impl AsyncFn(&IdbDatabase) -> Result<T, Failed> + 'static,
    ) -> Saving<T> {
        let shared = Rc::clone(&self.0);
        let (tell, told) = oneshot::channel();
        spawn_local(async move {
            let outcome = match shared.attempt(&work).await {
                Err(Failed::Lost) => shared.attempt(&work).await,
                first => first,
            };
            // Nobody may be waiting any more. What was done is done all the same.
            tell.send(shared.settle(outcome)).ok();
        });
        Box::pin(async move { told.await.unwrap_or(Err(StoreError::Gone)) })
    }

    /// A strict transaction that `writer` alone may make.
    fn write(
        &self,
        writer: WriterNumber,
        stores: &'static [&'static str],
        body: impl Fn(&mut Transaction) -> Result<(), Failed> + 'static,
    ) -> Saving<()> {
        self.run(async move |db| {
            transaction::run(db, stores, Mode::Write, |tx| {
                check_writer(tx, writer)?;
                body(tx)
            })
            .await
        })
    }
}

impl Shared {
    async fn attempt<T>(
        &self,
        work: &impl AsyncFn(&IdbDatabase) -> Result<T, Failed>,
    ) -> Result<T, Failed> {
        let connection = self.connection().await?;
        let outcome = work(connection.database()).await;
        if matches!(outcome, Err(Failed::Lost)) {
            connection.give_up();
        }
        outcome
    }

    fn settle<T>(&self, outcome: Result<T, Failed>) -> Result<T, StoreError> {
        match outcome {
            Ok(answer) => {
                self.was_full.set(false);
                Ok(answer)
            }
            Err(Failed::With(StoreError::Full)) => {
                self.was_full.set(true);
                Err(StoreError::Full)
            }
            Err(Failed::Lost) if self.was_full.get() => Err(StoreError::Full),
            Err(failed) => Err(failed.for_good()),
        }
    }

    async fn connection(&self) -> Result<Rc<Connection>, Failed> {
        let open = self.connection.borrow().clone();
        if let Some(connection) = open.filter(|connection| !connection.is_lost()) {
            return Ok(connection);
        }
        let again = Rc::new(Connection::open(self.which, Opening::Again).await?);
        self.connection.replace(Some(Rc::clone(&again)));
        Ok(again)
    }
}

impl TrailStore for BrowserStore {
    fn tablet_or(&self, new: TabletId) -> Saving<TabletId> {
        self.run(async move |db| {
            let tablet = Rc::new(RefCell::new(new.clone()));
            let answer = Rc::clone(&tablet);
            transaction::run(db, &[TABLET_FACTS], Mode::Write, |tx| {
                let facts = tx.store(TABLET_FACTS)?;
                let asked = facts.get(&TABLET.into())?;
                tx.then(asked, move |found| {
                    if found.is_undefined() {
                        let id = JsValue::from_str(tablet.borrow().as_str());
                        facts.put_with_key(&id, &TABLET.into())?;
                    } else {
                        tablet.replace(TabletId::new(text(Kept::Tablet, &found)?));
                    }
                    Ok(())
                });
                Ok(())
            })
            .await?;
            let tablet = answer.borrow().clone();
            Ok(tablet)
        })
    }

    fn claim_writer(&self) -> Saving<WriterNumber> {
        self.run(async |db| {
            let claimed = Rc::new(Cell::new(None));
            let answer = Rc::clone(&claimed);
            transaction::run(db, &[TABLET_FACTS], Mode::Write, |tx| {
                let facts = tx.store(TABLET_FACTS)?;
                let asked = facts.get(&WRITER.into())?;
                tx.then(asked, move |found| {
                    let next = WriterNumber::after(writer_number(&found)?)
                        .ok_or_else(StoreError::out_of_numbers)?;
                    facts.put_with_key(&next.0.into(), &WRITER.into())?;
                    claimed.set(Some(next));
                    Ok(())
                });
                Ok(())
            })
            .await?;
            answer.get().ok_or(Failed::Lost)
        })
    }

    fn append(
        &self,
        card: &CardId,
        rows: &[Row],
        summary: &str,
        writer: WriterNumber,
    ) -> Saving<()> {
        let (card, rows, summary) = (card.clone(), rows.to_owned(), summary.to_owned());
        let tried = Cell::new(false);
        let which = self.0.which;
        self.run(async move |db| {
            which.may_keep(&card)?;
            let outcome = append_once(db, &card, &rows, &summary, writer).await;
            let again = tried.replace(true);
            // The connection may have been lost after the first try was kept and before it said so.
            if again
                && matches!(&outcome, Err(Failed::With(StoreError::Taken { .. })))
                && all_there(&read_all(db, &card).await?, &rows)
            {
                return Ok(());
            }
            outcome
        })
    }

    fn read(&self, card: &CardId) -> Saving<Vec<Row>> {
        let card = card.clone();
        self.run(async move |db| read_all(db, &card).await)
    }

    fn cards(&self) -> Saving<Vec<Summary>> {
        self.run(async |db| {
            let (keys, values) = transaction::run(db, &[SUMMARIES], Mode::Read, |tx| {
                let summaries = tx.store(SUMMARIES)?;
                Ok((summaries.get_all_keys()?, summaries.get_all()?))
            })
            .await?;
            let mut cards = pairs(&keys, &values)?
                .map(|(card, value)| {
                    let card = CardId::new(text(Kept::Summary, &card)?);
                    let text = text(Kept::Summary, &value)?;
                    Ok(Summary { card, text })
                })
                .collect::<Result<Vec<_>, Failed>>()?;
            // The database's order of texts is not quite ours.
            cards.sort_by(|a, b| a.card.cmp(&b.card));
            Ok(cards)
        })
    }

    fn put_summary(&self, card: &CardId, summary: &str, writer: WriterNumber) -> Saving<()> {
        let (card, summary) = (card.clone(), summary.to_owned());
        let which = self.0.which;
        self.write(writer, &[TABLET_FACTS, SUMMARIES], move |tx| {
            which.may_keep(&card)?;
            put_summary(tx, &card, &summary)
        })
    }

    fn keep_photo(
        &self,
        card: &CardId,
        sha_hex: &str,
        bytes: &[u8],
        writer: WriterNumber,
    ) -> Saving<()> {
        let key = JsValue::from_str(sha_hex);
        let length = bytes.len();
        let card = card.clone();
        let bytes = Uint8Array::from(bytes).buffer();
        let which = self.0.which;
        self.write(writer, &[TABLET_FACTS, PHOTOS], move |tx| {
            which.may_keep(&card)?;
            let photos = tx.store(PHOTOS)?;
            let asked = photos.get(&key)?;
            let (key, photo) = (key.clone(), photo(&card, length, &bytes)?);
            tx.then(asked, move |found| {
                if !found.is_undefined() {
                    let (there_length, there) = photo_parts(&found)?;
                    if there_length != length {
                        return Err(StoreError::photo_length(there_length, length).into());
                    }
                    if there.len() == length {
                        return Ok(());
                    }
                }
                photos.put_with_key(&photo, &key)?;
                Ok(())
            });
            Ok(())
        })
    }

    fn photo(&self, sha_hex: &str) -> Saving<Option<Vec<u8>>> {
        let key = JsValue::from_str(sha_hex);
        self.run(async move |db| {
            let asked = transaction::run(db, &[PHOTOS], Mode::Read, |tx| {
                Ok(tx.store(PHOTOS)?.get(&key)?)
            })
            .await?;
            let found = asked.result()?;
            if found.is_undefined() {
                return Ok(None);
            }
            let (length, bytes) = photo_parts(&found)?;
            if bytes.len() != length {
                return Err(StoreError::photo_length(length, bytes.len()).into());
            }
            Ok(Some(bytes))
        })
    }

    fn counts(&self) -> Saving<Counts> {
        self.run(async |db| {
            let stores = [SUMMARIES, LINES, PHOTOS];
            let [cards, lines, photos] = transaction::run(db, &stores, Mode::Read, |tx| {
                Ok([
                    tx.store(SUMMARIES)?.count()?,
                    tx.store(LINES)?.count()?,
                    tx.store(PHOTOS)?.count()?,
                ])
            })
            .await?;
            let count = |asked: IdbRequest| {
                Ok::<_, Failed>(asked.result()?.as_f64().unwrap_or_default() as u32)
            };
            Ok(Counts {
                cards: count(cards)?,
                lines: count(lines)?,
                photos: count(photos)?,
            })
        })
    }
}

impl BrowserPractice {
    /// Opens the practice bay's store. Errors: as [`BrowserStore::open`].
    pub async fn open() -> Result<Self, StoreError> {
        Ok(Self(BrowserStore::open(Which::Practice).await?))
    }
}

impl PracticeHome for BrowserPractice {
    type Store = BrowserStore;

    fn store(&self) -> BrowserStore {
        self.0.clone()
    }

    fn erase_all(&self, writer: WriterNumber) -> Saving<()> {
        self.0
            .write(writer, &[TABLET_FACTS, LINES, SUMMARIES, PHOTOS], |tx| {
                for name in [LINES, SUMMARIES, PHOTOS] {
                    tx.store(name)?.clear()?;
                }
                Ok(())
            })
    }
}

/// Takes the whole transaction back unless `ours` is the writer number that is kept.
///
/// The requests that follow are already on their way then; none of them stays.
fn check_writer(tx: &mut Transaction, ours: WriterNumber) -> Result<(), Failed> {
    let asked = tx.store(TABLET_FACTS)?.get(&WRITER.into())?;
    tx.then(asked, move |found| {
        let now = writer_number(&found)?;
        if now == Some(ours) {
            return Ok(());
        }
        Err(StoreError::NotTheWriter { ours, now }.into())
    });
    Ok(())
}

async fn append_once(
    db: &IdbDatabase,
    card: &CardId,
    rows: &[Row],
    summary: &str,
    writer: WriterNumber,
) -> Result<(), Failed> {
    let mut added = Vec::with_capacity(rows.len());
    let stores = [TABLET_FACTS, LINES, SUMMARIES];
    let outcome = transaction::run(db, &stores, Mode::Write, |tx| {
        check_writer(tx, writer)?;
        let lines = tx.store(LINES)?;
        let card_key = JsValue::from_str(card.as_str());
        for row in rows {
            let place = Array::of3(&card_key, &row.tablet.as_str().into(), &row.n.into());
            added.push(lines.add_with_key(&row.text.as_str().into(), &place)?);
        }
        put_summary(tx, card, summary)
    })
    .await;
    match outcome {
        Err(Failed::With(StoreError::Other { name })) if name == transaction::CONSTRAINT => {
            let refused = added.iter().position(transaction::was_constrained);
            match refused.and_then(|at| rows.get(at)) {
                Some(Row { tablet, n, .. }) => Err(Failed::With(StoreError::Taken {
                    card: card.clone(),
                    tablet: tablet.clone(),
                    n: *n,
                })),
                None => Err(Failed::With(StoreError::Other { name })),
            }
        }
        other => other,
    }
}

fn put_summary(tx: &Transaction, card: &CardId, summary: &str) -> Result<(), Failed> {
    let summaries = tx.store(SUMMARIES)?;
    summaries.put_with_key(&summary.into(), &card.as_str().into())?;
    Ok(())
}

async fn read_all(db: &IdbDatabase, card: &CardId) -> Result<Vec<Row>, Failed> {
    let (keys, values) = transaction::run(db, &[LINES], Mode::Read, |tx| {
        let lines = tx.store(LINES)?;
        // An array sorts behind every text and number, so that this takes in all of the card.
        let first = Array::of1(&card.as_str().into());
        let last = Array::of2(&card.as_str().into(), &Array::new());
        let range = IdbKeyRange::bound(&first, &last)?;
        Ok((
            lines.get_all_keys_with_key(&range)?,
            lines.get_all_with_key(&range)?,
        ))
    })
    .await?;
    let mut rows = pairs(&keys, &values)?
        .map(|(place, value)| {
            let place: Array = place.unchecked_into();
            let n = place.get(2).as_f64();
            Ok(Row {
                tablet: TabletId::new(text(Kept::Line, &place.get(1))?),
                n: n.ok_or_else(|| damaged(Kept::Line, "a number", &place))? as u32,
                text: text(Kept::Line, &value)?,
            })
        })
        .collect::<Result<Vec<_>, Failed>>()?;
    // The database's order of texts is not quite ours.
    rows.sort_by(|a, b| (&a.tablet, a.n).cmp(&(&b.tablet, b.n)));
    Ok(rows)
}

fn all_there(kept: &[Row], asked: &[Row]) -> bool {
    asked.iter().all(|row| {
        let at = kept.binary_search_by(|there| (&there.tablet, there.n).cmp(&(&row.tablet, row.n)));
        at.ok().and_then(|at| kept.get(at)) == Some(row)
    })
}

/// Keys with their values, after the transaction in which both were asked for.
fn pairs(
    keys: &IdbRequest,
    values: &IdbRequest,
) -> Result<impl Iterator<Item = (JsValue, JsValue)>, Failed> {
    let keys: Array = keys.result()?.unchecked_into();
    let values: Array = values.result()?.unchecked_into();
    Ok(keys.into_iter().zip(values))
}

fn photo(card: &CardId, length: usize, bytes: &ArrayBuffer) -> Result<JsValue, Failed> {
    let photo = Object::new();
    Reflect::set(&photo, &"card".into(), &card.as_str().into())?;
    Reflect::set(&photo, &"length".into(), &JsValue::from_f64(length as f64))?;
    Reflect::set(&photo, &"bytes".into(), bytes)?;
    Ok(photo.into())
}

/// The length that was kept, and the bytes that are there.
fn photo_parts(photo: &JsValue) -> Result<(usize, Vec<u8>), Failed> {
    let length = Reflect::get(photo, &"length".into())?.as_f64();
    let length = length.ok_or_else(|| damaged(Kept::Photo, "a length", photo))?;
    let bytes = Reflect::get(photo, &"bytes".into())?.dyn_into::<ArrayBuffer>();
    let bytes = bytes.map_err(|found| damaged(Kept::Photo, "bytes", &found))?;
    Ok((length as usize, Uint8Array::new(&bytes).to_vec()))
}

fn writer_number(found: &JsValue) -> Result<Option<WriterNumber>, Failed> {
    if found.is_undefined() {
        return Ok(None);
    }
    let number = found
        .as_f64()
        .ok_or_else(|| damaged(Kept::Writer, "a number", found))?;
    Ok(Some(WriterNumber(number as u32)))
}

fn text(kept: Kept, found: &JsValue) -> Result<String, Failed> {
    found
        .as_string()
        .ok_or_else(|| damaged(kept, "a text", found))
}

fn damaged(kept: Kept, expected: &str, found: &JsValue) -> Failed {
    Failed::With(StoreError::Damaged {
        kept,
        expected: expected.to_owned(),
        found: format!("{found:?}"),
    })
}
