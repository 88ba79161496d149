//! Wheel nuts: the value, the order, the passes, the wrench, and what the log shows.
//!
//! A value belongs to one state of threads and washer and is never carried into another. Reading
//! order: [`spec`], [`pattern`], [`plan`], [`wrench`], [`adapter`], then [`log`], [`road_check`]
//! and [`moved`].

pub mod spec;

pub mod pattern;
pub mod plan;

pub mod stems;

pub mod adapter;
pub mod wrench;

pub mod log;
pub mod moved;
pub mod road_check;
