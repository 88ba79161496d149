//! Wheel bearings with the hub on: end play, and how they are adjusted.
//!
//! Reading order: [`setup`] says whose way it is, [`end_play`] what may be left, [`sequence`] how
//! to get there, [`correction`] what one kind of hub takes when it came out too loose.

pub mod setup;

pub mod correction;
pub mod end_play;
pub mod sequence;
