//! Camshaft, its bushings, anchor pins and spider: play against the limits of their kind of brake.
//!
//! Reading order: [`brake`], [`play`], [`spline`], [`anchor`], then [`look`] for what is judged by
//! eye. Screens name a kind of brake by what its tag or its maker's sheet allows, never by maker.

pub mod brake;

pub mod play;
pub mod spline;

pub mod anchor;

pub mod look;
