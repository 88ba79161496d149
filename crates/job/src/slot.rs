//! A place that one line sets at a time. Two lines that had not seen each other both stay.

use crate::line::LineRef;

/// Values of one slot that nobody has overtaken. More than one means that two tablets set it
/// without having seen each other.
#[derive(Clone, Debug, PartialEq)]
pub struct Slot<T> {
    live: Vec<Held<T>>,
}

/// A value and the line that set it.
#[derive(Clone, Debug, PartialEq)]
pub struct Held<T> {
    pub line: LineRef,
    pub value: T,
}

impl<T> Default for Slot<T> {
    fn default() -> Self {
        Self { live: Vec::new() }
    }
}

impl<T> Slot<T> {
    /// Sets the slot. `saw` tells which earlier lines the writer had seen: those are overtaken.
    pub(crate) fn set(&mut self, line: LineRef, value: T, saw: impl Fn(&LineRef) -> bool) {
        self.live.retain(|held| !saw(&held.line));
        self.live.push(Held { line, value });
    }

    /// All values that stand, in the order of the trail.
    pub fn live(&self) -> &[Held<T>] {
        &self.live
    }

    /// The value, if exactly one stands.
    pub fn only(&self) -> Option<&T> {
        match self.live.as_slice() {
            [held] => Some(&held.value),
            _ => None,
        }
    }

    /// True if two lines that had not seen each other set it.
    pub fn is_contested(&self) -> bool {
        self.live.len() > 1
    }
}
