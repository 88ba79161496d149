//! Every published procedure that this app ships. A card keeps to the one it was opened with.

use std::sync::Arc;

use crate::procedure::{Pin, Procedure, ProcedureFault};

/// The shipped procedures, oldest first. Never empty: there is one to start new cards with.
#[derive(Clone, Debug)]
pub struct Procedures {
    all: Vec<Arc<Procedure>>,
    newest: Arc<Procedure>,
}

impl Procedures {
    /// Reads shipped procedures, oldest first and at least one; new cards follow the last.
    pub fn read<'a>(
        older: impl IntoIterator<Item = &'a str>,
        newest: &str,
    ) -> Result<Self, ProcedureFault> {
        let newest = Arc::new(Procedure::read(newest)?);
        let mut all = older
            .into_iter()
            .map(|text| Procedure::read(text).map(Arc::new))
            .collect::<Result<Vec<_>, _>>()?;
        all.push(newest.clone());
        Ok(Self { all, newest })
    }

    /// The procedure that new cards follow.
    pub fn newest(&self) -> &Arc<Procedure> {
        &self.newest
    }

    /// The newest of some that a card pinned: a card never goes back to an older one. `None` if
    /// there is none, or if this app does not carry one of them.
    pub fn newest_of<'a>(
        &self,
        pins: impl IntoIterator<Item = &'a Pin>,
    ) -> Option<&Arc<Procedure>> {
        let mut newest = None;
        for pin in pins {
            let at = self.all.iter().position(|known| known.pin == *pin)?;
            newest = newest.max(Some(at));
        }
        self.all.get(newest?)
    }

    /// The procedure that a card pinned; `None` if this app does not carry it.
    pub fn pinned(&self, pin: &Pin) -> Option<&Arc<Procedure>> {
        self.all.iter().find(|procedure| procedure.pin == *pin)
    }
}
