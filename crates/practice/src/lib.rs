//! The practice bay: made-up axles, what there is to judge on them, drills, marking, and
//! what is sure.
//!
//! A [`seed::Seed`] makes the same [`axle::Axle`] on every device. What it hides is physically
//! consistent, and what an eye or an instrument shows of it is a [`decision::Decision`]. What is
//! right is always asked of the rules: this crate holds no limit and judges no reading itself.
//!
//! No clock, no storage, no screen, no floating point; words go out as keys. Nothing in here is ever
//! a real card.
//!
//! Reading order: [`seed`], [`fault`], [`axle`], [`decision`], [`scene`], [`marking`],
//! [`run`], [`drill`], [`kind`], [`boxes`], [`book`].

#![warn(clippy::wildcard_enum_match_arm)]

pub mod seed;

pub mod axle;
pub mod decision;
pub mod fault;
pub mod instrument;
pub mod scene;

pub mod book;
pub mod marking;
pub mod run;

pub mod boxes;
pub mod drill;
pub mod kind;
