//! What is judged on an S-cam brake job, and against which published figure.
//!
//! Pure functions over exact whole numbers: a reading and its facts go in, a [`verdict::Judgement`]
//! with its limits and its source comes out. No input or output, no clock, no random numbers, no
//! screen words: what is said is a [`word::Word`] with arguments.
//!
//! The crate never says that a vehicle is safe. Maker, local code and a qualified person outrank it.
//!
//! Reading order: [`quantity`], [`typed`], [`verdict`], [`source`], [`rules`], then one family, such
//! as [`support`].
#![warn(missing_docs)]

pub mod quantity;
pub mod unit;

pub mod shown;
pub mod trig;
pub mod typed;

pub mod band;
pub mod conditions;
pub mod jurisdiction;
pub mod own;
pub mod source;
pub mod verdict;
pub mod word;

pub mod rules;

mod window;

pub mod air;
pub mod axle;
pub mod bearing;
pub mod camshaft;
pub mod drum;
pub mod lining;
pub mod rim;
pub mod slack;
pub mod stud;
pub mod support;
pub mod torque;

pub mod why;

#[cfg(test)]
mod cases;
#[cfg(test)]
mod nudge;
