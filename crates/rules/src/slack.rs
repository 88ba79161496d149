//! Slack adjusters and pushrod strokes: what may be left, what was found, and why it is long.
//!
//! Reading order: [`chamber`], [`travel`], [`applied`], [`free`], then what stands beside them.
//! Screens name mechanisms, not makers. An adjuster is never turned to cure a long stroke.

pub mod chamber;
pub mod mechanism;

pub mod travel;

pub mod applied;
pub mod free;

pub mod expected;
pub mod sides;

pub mod adjuster;
pub mod angle;
pub mod back_off;
pub mod clevis;
pub mod set_up;

pub mod cause;
pub mod dates;
pub mod share;
