//! The job as data: procedure, events, fold, holds and the trail.
//!
//! A card's trail is a list of lines that only grows ([`line`], [`event`], [`trail`]). Folding it
//! with the procedure that the card pinned gives the [`card`]. [`hold`] says why something can't
//! be done yet and gives the proof that it can; [`act`] turns an answer and its proof into a
//! draft that may be written.
//!
//! This crate has no clock, no storage, no randomness and no screen: time and ids come in as
//! arguments, words go out as keys.
//!
//! Reading order: [`id`], [`event`], [`line`], [`trail`], [`procedure`], [`card`], [`hold`],
//! [`act`], [`judge`], [`hand_back`], [`changes`], [`hand_over`], [`road`], [`cardfile`],
//! [`record`], [`shop`], [`wrench`].

#![warn(clippy::wildcard_enum_match_arm)]

pub mod id;

pub mod event;
pub mod line;
pub mod trail;

pub mod layout;
pub mod procedure;
pub mod procedures;

pub mod card;
pub mod extra;
pub mod hand_back;
pub mod hold;
pub mod second_look;
pub mod slot;
pub mod words;

pub mod act;
pub mod changes;
pub mod group;
pub mod hand_over;
pub mod judge;
pub mod move_stage;
pub mod physical;
pub mod road;
pub mod taken_over;
pub mod worst;

pub mod cardfile;
pub mod record;
pub mod shop;
pub mod summary;
pub mod wrench;

pub mod bay_list;
pub mod bring;
pub mod cards;

#[cfg(test)]
mod bay;
