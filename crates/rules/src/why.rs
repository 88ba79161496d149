//! Why it matters: estimates for help and practice.
//!
//! Nothing here judges anything, and no limit hangs on it: a force that a chamber gives, what an arm
//! makes of it, what heat and a long stroke take away, what a torque clamps. Every figure is
//! labelled as an estimate on the screen. Whole numbers throughout, so that worked examples agree
//! to the printed digit on every machine.
//!
//! Reading order: [`force`], [`balance`], [`geometry`], [`heat`], [`stopping`] for the brake;
//! [`thread`], [`clamp`], [`long_form`] for the wheel.

pub mod force;

pub mod balance;
pub mod geometry;

pub mod heat;
pub mod stopping;

pub mod thread;

pub mod clamp;
pub mod long_form;
