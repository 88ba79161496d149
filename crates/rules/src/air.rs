//! Air and parking brakes: leak-down, low-air warning, caging and letting go of a spring brake.
//!
//! Reading order: [`caging`] and [`caging_torque`] before the wheels come off, [`leak`],
//! [`release`] and [`warning`] when the air is back in.

pub mod caging;
pub mod caging_torque;

pub mod leak;
pub mod release;
pub mod warning;
