//! Brake drums: how far one may wear, what shape it may have, and when both of an axle go.
//!
//! The figure cast in the drum comes before every book. A limit printed for another brake is shown
//! and never counted. Reading order: [`marks`], [`diameter`], [`round`], then the rest.

pub mod marks;

pub mod bell_mouth;
pub mod diameter;
pub mod round;
pub mod run_out;
pub mod taper;

pub mod turn;

pub mod new_drum;
pub mod pair;
pub mod surface;
