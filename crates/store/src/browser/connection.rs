//! A connection to one of the databases: opening it, and noticing when it is lost.
//!
//! The shape of the database is made here, in `upgradeneeded`, and nowhere else.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use futures_channel::oneshot;
use wasm_bindgen::prelude::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::spawn_local;
use web_sys::{Event, IdbDatabase, IdbOpenDbRequest, IdbVersionChangeEvent};

use super::transaction::Failed;
use super::{LINES, PHOTOS, SUMMARIES, TABLET_FACTS};
use crate::{StoreError, Which};

/// One more with every change of shape.
const VERSION: u32 = 1;

/// Whether the database may be made if there is none.
#[derive(Clone, Copy)]
pub(super) enum Opening {
    /// It may: the app starts.
    AtStart,
    /// It may not: it was open before, and an empty one would hide that it has vanished.
    Again,
}

pub(super) struct Connection {
    db: IdbDatabase,
    lost: Rc<Cell<bool>>,
    _on_lost: Closure<dyn FnMut(Event)>,
}

impl Connection {
    pub(super) async fn open(which: Which, opening: Opening) -> Result<Self, Failed> {
        let window = web_sys::window().ok_or_else(unsupported)?;
        let factory = window.indexed_db()?.ok_or_else(unsupported)?;
        let request = factory.open_with_u32(which.database_name(), VERSION)?;
        let db = answer(request, opening).await?;
        Ok(Self::to(db))
    }

    fn to(db: IdbDatabase) -> Self {
        let lost = Rc::new(Cell::new(false));
        let (noted, closing) = (Rc::clone(&lost), db.clone());
        // On `versionchange` another tab wants to change or delete the database and waits for
        // this one. On `close` the browser has closed it, and closing it again does nothing.
        let on_lost = Closure::new(move |_: Event| {
            noted.set(true);
            closing.close();
        });
        db.set_onversionchange(Some(on_lost.as_ref().unchecked_ref()));
        db.set_onclose(Some(on_lost.as_ref().unchecked_ref()));
        Self {
            db,
            lost,
            _on_lost: on_lost,
        }
    }

    pub(super) fn database(&self) -> &IdbDatabase {
        &self.db
    }

    pub(super) fn is_lost(&self) -> bool {
        self.lost.get()
    }

    pub(super) fn give_up(&self) {
        self.lost.set(true);
    }
}

/// Closing lets transactions that are under way come to their end.
impl Drop for Connection {
    fn drop(&mut self) {
        self.db.set_onversionchange(None);
        self.db.set_onclose(None);
        self.db.close();
    }
}

/// Waits for the database, or for the news that it is blocked.
///
/// A blocked request stays on its way. When it is granted after all, nobody wants it any more,
/// and it is closed, so that it blocks nobody else.
async fn answer(request: IdbOpenDbRequest, opening: Opening) -> Result<IdbDatabase, Failed> {
    let (tell, told) = oneshot::channel();
    let tell = Rc::new(RefCell::new(Some(tell)));
    let (tell_end, ended) = oneshot::channel();

    let asked = request.clone();
    let upgrade_failed = Rc::new(RefCell::new(None));
    let upgrade_fault = Rc::clone(&upgrade_failed);
    let on_upgrade = Closure::<dyn FnMut(_)>::new(move |event: IdbVersionChangeEvent| {
        if let Err(failed) = upgrade(&asked, event.old_version(), opening) {
            upgrade_fault.replace(Some(failed));
            if let Some(tx) = asked.transaction() {
                tx.abort().ok();
            }
        }
    });
    request.set_onupgradeneeded(Some(on_upgrade.as_ref().unchecked_ref()));

    let tell_blocked = Rc::clone(&tell);
    let on_blocked = Closure::<dyn FnMut(_)>::new(move |_: Event| {
        if let Some(tell) = tell_blocked.take() {
            tell.send(Err(StoreError::Blocked.into())).ok();
        }
    });
    request.set_onblocked(Some(on_blocked.as_ref().unchecked_ref()));

    let asked = request.clone();
    let on_end = Closure::once(move |_: Event| {
        let outcome = match (upgrade_failed.take(), asked.error()) {
            (Some(failed), _) => Err(failed),
            (None, Ok(Some(exception))) => Err(exception.into()),
            (None, Ok(None) | Err(_)) => opened(&asked),
        };
        match (tell.take(), outcome) {
            (Some(tell), outcome) => {
                if let Err(Ok(unwanted)) = tell.send(outcome) {
                    unwanted.close();
                }
            }
            (None, Ok(unwanted)) => unwanted.close(),
            (None, Err(_)) => {}
        }
        tell_end.send(()).ok();
    });
    request.set_onsuccess(Some(on_end.as_ref().unchecked_ref()));
    request.set_onerror(Some(on_end.as_ref().unchecked_ref()));

    spawn_local(async move {
        ended.await.ok();
        drop((on_upgrade, on_blocked, on_end));
    });
    told.await.unwrap_or(Err(Failed::Lost))
}

fn opened(request: &IdbOpenDbRequest) -> Result<IdbDatabase, Failed> {
    let db = request.result()?;
    Ok(db.unchecked_into())
}

fn upgrade(request: &IdbOpenDbRequest, old_version: f64, opening: Opening) -> Result<(), Failed> {
    if old_version < 1.0 {
        match opening {
            Opening::AtStart => make(&opened(request)?)?,
            Opening::Again => return Err(StoreError::Gone.into()),
        }
    }
    Ok(())
}

fn make(db: &IdbDatabase) -> Result<(), JsValue> {
    for name in [LINES, SUMMARIES, PHOTOS, TABLET_FACTS] {
        db.create_object_store(name)?;
    }
    Ok(())
}

fn unsupported() -> Failed {
    StoreError::Other {
        name: "NotSupportedError".to_owned(),
    }
    .into()
}
