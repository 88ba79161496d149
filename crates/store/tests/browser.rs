//! The contract on the home in the browser, and what only a browser can do to a store.
//!
//! Faults are made by changing the database's own functions for a while, as a page script could.
#![cfg(target_arch = "wasm32")]
#![expect(
    clippy::unwrap_used,
    reason = "a fault that was not asked for fails the test"
)]

mod contract;

use job::id::CardId;
use js_sys::{Array, Function, Promise};
use store::browser::{BrowserPractice, BrowserStore};
use store::{Row, StoreError, TrailStore, Which, WriterNumber};
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::JsFuture;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

struct Browser;

impl contract::Home for Browser {
    type Store = BrowserStore;
    type Practice = BrowserPractice;

    async fn open(&self) -> BrowserStore {
        BrowserStore::open(Which::Shop).await.unwrap()
    }

    async fn open_practice(&self) -> BrowserPractice {
        BrowserPractice::open().await.unwrap()
    }

    /// Takes back a transaction at its hundredth `add`, with the error of a full disk.
    async fn fill(&self) {
        script(
            "const add = self.faults.keep(IDBObjectStore.prototype, 'add');
             const counted = new WeakMap();
             IDBObjectStore.prototype.add = function (...args) {
                 const tx = this.transaction, request = add.apply(this, args);
                 counted.set(tx, (counted.get(tx) ?? 0) + 1);
                 if (counted.get(tx) === 100) {
                     Object.defineProperty(tx, 'error', {
                         value: new DOMException('full', 'QuotaExceededError'),
                     });
                     setTimeout(() => tx.abort());
                 }
                 return request;
             };",
        )
        .await;
    }

    async fn cut_photo(&self, sha_hex: &str, left_bytes: u32) {
        let cut = format!(
            "const open = indexedDB.open({name:?});
             open.onsuccess = () => {{
                 const tx = open.result.transaction('photos', 'readwrite');
                 const photos = tx.objectStore('photos');
                 const get = photos.get({sha_hex:?});
                 get.onsuccess = () => {{
                     const photo = get.result;
                     photo.bytes = photo.bytes.slice(0, {left_bytes});
                     photos.put(photo, {sha_hex:?});
                 }};
                 tx.oncomplete = () => {{ open.result.close(); done(); }};
                 tx.onabort = fail;
             }};
             open.onerror = fail;",
            name = Which::Shop.database_name(),
        );
        waiting_script(&cut).await.unwrap();
    }
}

/// Runs a script that is done when it comes to its end.
async fn script(body: &str) {
    waiting_script(&format!("{body}; done();")).await.unwrap();
}

/// Runs a script that calls `done` or `fail`.
async fn waiting_script(body: &str) -> Result<JsValue, JsValue> {
    let run = Function::new_with_args("done, fail", body);
    JsFuture::from(Promise::new(&mut |done, fail| {
        run.call2(&JsValue::NULL, &done, &fail).unwrap();
    }))
    .await
}

/// Undoes all faults and deletes both databases.
async fn clean() -> Browser {
    script(
        "self.faults?.undo();
         const kept = [];
         self.faults = {
             keep(owner, name) { const own = owner[name]; kept.push([owner, name, own]); return own; },
             undo() { for (const [owner, name, own] of kept.splice(0).reverse()) owner[name] = own; },
         };",
    )
    .await;
    delete(Which::Shop).await;
    delete(Which::Practice).await;
    Browser
}

/// Deletes a database. A store that has it open must let go.
async fn delete(which: Which) {
    let name = which.database_name();
    let body = format!(
        "const request = indexedDB.deleteDatabase({name:?});
         request.onsuccess = done;
         request.onerror = fail;
         request.onblocked = fail;"
    );
    waiting_script(&body).await.unwrap();
}

macro_rules! in_the_browser {
    ($($name:ident)*) => {$(
        #[wasm_bindgen_test]
        async fn $name() {
            contract::$name(&clean().await).await;
        }
    )*};
}

contract::each!(in_the_browser);

fn card() -> CardId {
    CardId::new("c1")
}

fn row(n: u32) -> Row {
    Row {
        tablet: "t1".into(),
        n,
        text: format!("line {n}"),
    }
}

async fn shop() -> (BrowserStore, WriterNumber) {
    clean().await;
    let store = BrowserStore::open(Which::Shop).await.unwrap();
    let writer = store.claim_writer().await.unwrap();
    store.append(&card(), &[row(1)], "s", writer).await.unwrap();
    (store, writer)
}

#[wasm_bindgen_test]
async fn every_write_asks_for_strict_durability() {
    clean().await;
    script(
        "const transaction = self.faults.keep(IDBDatabase.prototype, 'transaction');
         self.durabilities = [];
         IDBDatabase.prototype.transaction = function (...args) {
             const tx = transaction.apply(this, args);
             if (tx.mode !== 'readonly') self.durabilities.push(tx.durability);
             return tx;
         };",
    )
    .await;
    let practice = BrowserPractice::open().await.unwrap();
    let store = store::PracticeHome::store(&practice);
    store.tablet_or("t1".into()).await.unwrap();
    let writer = store.claim_writer().await.unwrap();
    let made_up = CardId::of_practice("c1");
    store
        .append(&made_up, &[row(1)], "s", writer)
        .await
        .unwrap();
    store.put_summary(&made_up, "s2", writer).await.unwrap();
    store
        .keep_photo(&made_up, "5a", b"photo", writer)
        .await
        .unwrap();
    store::PracticeHome::erase_all(&practice, writer)
        .await
        .unwrap();
    let asked = js_sys::Reflect::get(&js_sys::global(), &"durabilities".into()).unwrap();
    let asked: Vec<_> = Array::from(&asked)
        .iter()
        .map(|one| one.as_string().unwrap())
        .collect();
    assert_eq!(asked, ["strict"; 6]);
}

/// Takes every transaction back a moment after it was begun, `times` times.
async fn abort_writes(times: u32) {
    script(&format!(
        "const transaction = self.faults.keep(IDBDatabase.prototype, 'transaction');
         let left = {times};
         IDBDatabase.prototype.transaction = function (...args) {{
             const tx = transaction.apply(this, args);
             if (tx.mode !== 'readonly' && 0 < left--) queueMicrotask(() => tx.abort());
             return tx;
         }};"
    ))
    .await;
}

#[wasm_bindgen_test]
async fn an_aborted_save_is_a_failure() {
    let (store, writer) = shop().await;
    abort_writes(2).await;
    let outcome = store.append(&card(), &[row(2)], "s2", writer).await;
    assert_eq!(outcome, Err(StoreError::Gone));
    assert_eq!(store.read(&card()).await.unwrap(), [row(1)]);

    // The place is free, and the next one goes through on a new connection.
    store
        .append(&card(), &[row(2)], "s2", writer)
        .await
        .unwrap();
    assert_eq!(store.read(&card()).await.unwrap(), [row(1), row(2)]);
}

#[wasm_bindgen_test]
async fn a_save_that_was_taken_back_once_is_made_again() {
    let (store, writer) = shop().await;
    abort_writes(1).await;
    store
        .append(&card(), &[row(2)], "s2", writer)
        .await
        .unwrap();
    assert_eq!(store.read(&card()).await.unwrap(), [row(1), row(2)]);
}

#[wasm_bindgen_test]
async fn a_clash_on_the_second_try_is_a_clash() {
    let (store, writer) = shop().await;
    abort_writes(1).await;
    let other = Row {
        text: "another line 1".to_owned(),
        ..row(1)
    };
    let outcome = store.append(&card(), &[row(2), other], "s2", writer).await;
    assert!(
        matches!(outcome, Err(StoreError::Taken { n: 1, .. })),
        "{outcome:?}"
    );
    assert_eq!(store.read(&card()).await.unwrap(), [row(1)]);
}

#[wasm_bindgen_test]
async fn a_closed_connection_is_opened_again() {
    let (store, writer) = shop().await;
    script(
        "const transaction = self.faults.keep(IDBDatabase.prototype, 'transaction');
         let closed = false;
         IDBDatabase.prototype.transaction = function (...args) {
             if (!closed) { closed = true; this.close(); }
             return transaction.apply(this, args);
         };",
    )
    .await;
    store
        .append(&card(), &[row(2)], "s2", writer)
        .await
        .unwrap();
    assert_eq!(store.read(&card()).await.unwrap(), [row(1), row(2)]);
}

/// The save is kept, but the news of it is lost with the connection.
#[wasm_bindgen_test]
async fn a_save_that_landed_unheard_is_not_taken_for_a_clash() {
    let (store, writer) = shop().await;
    script(
        "const transaction = self.faults.keep(IDBDatabase.prototype, 'transaction');
         let lost = false;
         IDBDatabase.prototype.transaction = function (...args) {
             const tx = transaction.apply(this, args);
             if (!lost && tx.mode !== 'readonly') {
                 lost = true;
                 tx.addEventListener('complete', (event) => {
                     event.stopImmediatePropagation();
                     Object.defineProperty(tx, 'error', {
                         value: new DOMException('connection lost', 'UnknownError'),
                     });
                     tx.dispatchEvent(new Event('abort'));
                 });
             }
             return tx;
         };",
    )
    .await;
    store
        .append(&card(), &[row(2), row(3)], "s2", writer)
        .await
        .unwrap();
    assert_eq!(store.read(&card()).await.unwrap(), [row(1), row(2), row(3)]);

    // A real clash is one, on whatever connection.
    let taken = store.append(&card(), &[row(3)], "s3", writer).await;
    assert!(
        matches!(taken, Err(StoreError::Taken { n: 3, .. })),
        "{taken:?}"
    );
}

/// What Chromium does when the disk is full: it closes the connection and opens none.
#[wasm_bindgen_test]
async fn a_full_disk_is_full_until_there_is_room() {
    let (store, writer) = shop().await;
    script(
        "const transaction = self.faults.keep(IDBDatabase.prototype, 'transaction');
         self.faults.keep(IDBFactory.prototype, 'open');
         IDBDatabase.prototype.transaction = function (...args) {
             const tx = transaction.apply(this, args);
             Object.defineProperty(tx, 'error', {
                 value: new DOMException('FILE_ERROR_NO_SPACE', 'UnknownError'),
             });
             setTimeout(() => { tx.abort(); this.dispatchEvent(new Event('close')); });
             IDBFactory.prototype.open = () => { throw new DOMException('', 'UnknownError'); };
             return tx;
         };",
    )
    .await;
    let full = Err(StoreError::Full);
    assert_eq!(store.append(&card(), &[row(2)], "s2", writer).await, full);
    assert_eq!(store.append(&card(), &[row(2)], "s2", writer).await, full);
    assert_eq!(store.read(&card()).await, Err(StoreError::Full));

    script("self.faults.undo();").await;
    store
        .append(&card(), &[row(2)], "s2", writer)
        .await
        .unwrap();
    assert_eq!(store.read(&card()).await.unwrap(), [row(1), row(2)]);
}

/// A transaction that was begun while the browser closed the connection hears nothing more.
#[wasm_bindgen_test]
async fn a_save_without_an_answer_ends_with_its_connection() {
    let (store, writer) = shop().await;
    script(
        "const transaction = self.faults.keep(IDBDatabase.prototype, 'transaction');
         let left = 1;
         IDBDatabase.prototype.transaction = function (...args) {
             const tx = transaction.apply(this, args);
             if (0 < left--) {
                 const swallow = (event) => event.stopImmediatePropagation();
                 tx.addEventListener('complete', swallow);
                 tx.addEventListener('abort', swallow);
                 queueMicrotask(() => tx.abort());
                 setTimeout(() => this.dispatchEvent(new Event('close')), 20);
             }
             return tx;
         };",
    )
    .await;
    store
        .append(&card(), &[row(2)], "s2", writer)
        .await
        .unwrap();
    assert_eq!(store.read(&card()).await.unwrap(), [row(1), row(2)]);
}

#[wasm_bindgen_test]
async fn a_store_that_has_vanished_is_not_made_anew() {
    let (store, writer) = shop().await;
    delete(Which::Shop).await;
    assert_eq!(store.read(&card()).await, Err(StoreError::Gone));
    assert_eq!(
        store.append(&card(), &[row(2)], "s2", writer).await,
        Err(StoreError::Gone)
    );
    // A start makes a new one, and the old writer may not write to it.
    let new = BrowserStore::open(Which::Shop).await.unwrap();
    assert_eq!(new.read(&card()).await.unwrap(), []);
    assert_eq!(
        store.append(&card(), &[row(2)], "s2", writer).await,
        Err(StoreError::NotTheWriter {
            ours: writer,
            now: None
        })
    );
}

#[wasm_bindgen_test]
async fn a_store_of_a_newer_app_is_left_alone() {
    let (store, writer) = shop().await;
    let name = Which::Shop.database_name();
    let body = format!(
        "const request = indexedDB.open({name:?}, 1000);
         request.onsuccess = () => {{ request.result.close(); done(); }};
         request.onerror = fail;
         request.onblocked = fail;"
    );
    waiting_script(&body).await.unwrap();
    assert_eq!(
        store.append(&card(), &[row(2)], "s2", writer).await,
        Err(StoreError::Newer)
    );
    assert_eq!(
        BrowserStore::open(Which::Shop).await.err(),
        Some(StoreError::Newer)
    );
}

/// An older tab that does not let go.
#[wasm_bindgen_test]
async fn a_store_that_is_held_open_says_so() {
    clean().await;
    let name = Which::Shop.database_name();
    let hold = format!(
        "self.held = indexedDB.open({name:?}, 1);
         const open = self.faults.keep(IDBFactory.prototype, 'open');
         IDBFactory.prototype.open = function (name) {{ return open.call(this, name, 2); }};
         self.held.onsuccess = done;
         self.held.onerror = fail;"
    );
    waiting_script(&hold).await.unwrap();
    assert_eq!(
        BrowserStore::open(Which::Shop).await.err(),
        Some(StoreError::Blocked)
    );
    // Granted late, it is closed again: `clean` could not delete it otherwise.
    script("self.held.result.close();").await;
    clean().await;
}
