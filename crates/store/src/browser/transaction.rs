//! One transaction, from its begin to `complete` or `abort`.
//!
//! All requests are made at once when it begins, or in the event of an earlier one, so that it
//! never depends on when a task is woken. It never reports success before `complete`, and it
//! never waits on a connection that was closed.

use std::cell::RefCell;
use std::rc::Rc;

use futures_channel::oneshot;
use js_sys::{Array, Object, Reflect};
use wasm_bindgen::prelude::{Closure, wasm_bindgen};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{
    DomException, Event, IdbDatabase, IdbObjectStore, IdbRequest, IdbRequestReadyState,
    IdbTransaction,
};

use crate::StoreError;

/// What `add` says to a key that is there.
pub(super) const CONSTRAINT: &str = "ConstraintError";

/// What Chromium writes into an `UnknownError` or `DataError` when it is the disk that is full and
/// not the quota (seen in version 156, on a disk of 96 MB).
const OUT_OF_SPACE: [&str; 3] = ["FILE_ERROR_NO_SPACE", "Failed to write blobs", "full disk"];

#[wasm_bindgen]
extern "C" {
    /// A database whose `transaction` takes options.
    type OptionsDatabase;

    #[wasm_bindgen(method, catch)]
    fn transaction(
        this: &OptionsDatabase,
        stores: &Array,
        mode: &str,
        options: &Object,
    ) -> Result<IdbTransaction, JsValue>;
}

/// How a call on the database failed.
pub(super) enum Failed {
    /// The connection is of no use any more. A new one may be.
    Lost,
    With(StoreError),
}

impl Failed {
    fn read(name: String, message: &str) -> Self {
        match name.as_str() {
            "QuotaExceededError" => Self::With(StoreError::Full),
            _ if OUT_OF_SPACE.iter().any(|words| message.contains(words)) => {
                Self::With(StoreError::Full)
            }
            "InvalidStateError" | "UnknownError" | "AbortError" => Self::Lost,
            "VersionError" => Self::With(StoreError::Newer),
            _ => Self::With(StoreError::Other { name }),
        }
    }

    /// What it comes to when there is no further try.
    pub(super) fn for_good(self) -> StoreError {
        match self {
            Self::Lost => StoreError::Gone,
            Self::With(error) => error,
        }
    }
}

impl From<StoreError> for Failed {
    fn from(error: StoreError) -> Self {
        Self::With(error)
    }
}

/// What the browser throws.
impl From<JsValue> for Failed {
    fn from(thrown: JsValue) -> Self {
        let said = |key: &str| {
            let value = Reflect::get(&thrown, &key.into()).ok();
            value
                .and_then(|value| value.as_string())
                .unwrap_or_default()
        };
        Self::read(said("name"), &said("message"))
    }
}

impl From<DomException> for Failed {
    fn from(exception: DomException) -> Self {
        Self::read(exception.name(), &exception.message())
    }
}

#[derive(Clone, Copy)]
pub(super) enum Mode {
    Read,
    /// Reports `complete` when it is on the medium, not when it has been handed on.
    Write,
}

/// A transaction that is under way.
pub(super) struct Transaction {
    db: IdbDatabase,
    inner: IdbTransaction,
    ended: oneshot::Receiver<Ended>,
    refused: Rc<RefCell<Option<Failed>>>,
    // Alive until the transaction has ended, and not longer.
    on_end: Closure<dyn FnMut(Event)>,
    steps: Vec<Closure<dyn FnMut(Event)>>,
}

enum Ended {
    Complete,
    /// Taken back, or its connection was closed: a transaction that was begun just then gets no
    /// event of its own (seen in Chromium 156 when the disk became full).
    Otherwise,
}

/// Runs one transaction to its end. Its requests' results can be read afterwards.
pub(super) async fn run<T>(
    db: &IdbDatabase,
    stores: &[&str],
    mode: Mode,
    body: impl FnOnce(&mut Transaction) -> Result<T, Failed>,
) -> Result<T, Failed> {
    let mut tx = Transaction::begin(db, stores, mode)?;
    let asked = match body(&mut tx) {
        Ok(asked) => Some(asked),
        Err(failed) => {
            refuse(&tx.inner, &tx.refused, failed);
            None
        }
    };
    tx.end().await?;
    asked.ok_or(Failed::Lost)
}

/// Whether `add` was refused because the key is there.
pub(super) fn was_constrained(request: &IdbRequest) -> bool {
    request.ready_state() == IdbRequestReadyState::Done
        && matches!(request.error(), Ok(Some(error)) if error.name() == CONSTRAINT)
}

impl Transaction {
    fn begin(db: &IdbDatabase, stores: &[&str], mode: Mode) -> Result<Self, Failed> {
        let stores: Array = stores.iter().map(|name| JsValue::from_str(name)).collect();
        let options = Object::new();
        let mode = match mode {
            Mode::Read => "readonly",
            Mode::Write => {
                Reflect::set(&options, &"durability".into(), &"strict".into())?;
                "readwrite"
            }
        };
        let inner = db
            .unchecked_ref::<OptionsDatabase>()
            .transaction(&stores, mode, &options)?;
        let (tell, ended) = oneshot::channel();
        let mut tell = Some(tell);
        let on_end = Closure::new(move |event: Event| {
            let how = match event.type_().as_str() {
                "complete" => Ended::Complete,
                _ => Ended::Otherwise,
            };
            if let Some(tell) = tell.take() {
                tell.send(how).ok();
            }
        });
        let listener = on_end.as_ref().unchecked_ref();
        inner.set_oncomplete(Some(listener));
        inner.set_onabort(Some(listener));
        db.add_event_listener_with_callback("close", listener)?;
        Ok(Self {
            db: db.clone(),
            inner,
            ended,
            refused: Rc::default(),
            on_end,
            steps: Vec::new(),
        })
    }

    pub(super) fn store(&self, name: &str) -> Result<IdbObjectStore, Failed> {
        Ok(self.inner.object_store(name)?)
    }

    /// Goes on with what `request` finds. An `Err` takes the whole transaction back.
    pub(super) fn then(
        &mut self,
        request: IdbRequest,
        step: impl FnOnce(JsValue) -> Result<(), Failed> + 'static,
    ) {
        let (inner, refused) = (self.inner.clone(), Rc::clone(&self.refused));
        let asked = request.clone();
        let on_success = Closure::once(move |_: Event| {
            let found = asked.result().map_err(Failed::from);
            if let Err(failed) = found.and_then(step) {
                refuse(&inner, &refused, failed);
            }
        });
        request.set_onsuccess(Some(on_success.as_ref().unchecked_ref()));
        self.steps.push(on_success);
    }

    async fn end(self) -> Result<(), Failed> {
        let how = self.ended.await;
        let listener = self.on_end.as_ref().unchecked_ref();
        self.inner.set_oncomplete(None);
        self.inner.set_onabort(None);
        self.db
            .remove_event_listener_with_callback("close", listener)?;
        drop((self.on_end, self.steps));
        if let Some(failed) = self.refused.take() {
            return Err(failed);
        }
        match how {
            Ok(Ended::Complete) => Ok(()),
            Ok(Ended::Otherwise) => Err(match self.inner.error() {
                Some(exception) => exception.into(),
                // Nobody says why. A second try may go through.
                None => Failed::Lost,
            }),
            Err(oneshot::Canceled) => Err(Failed::Lost),
        }
    }
}

/// Takes the transaction back and notes why. The first reason counts.
fn refuse(tx: &IdbTransaction, refused: &RefCell<Option<Failed>>, failed: Failed) {
    refused.borrow_mut().get_or_insert(failed);
    // Fails only if it has been taken back already.
    tx.abort().ok();
}
