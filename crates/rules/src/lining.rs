//! Linings and shoes: thickness, rivets, edge codes, and what is always renewed with them.
//!
//! The law measures at the middle of the shoe, Quebec at the thinnest point. Linings are never
//! ranked by their friction letters. Reading order: [`thickness`], [`code`], then the rest.

pub mod thickness;

pub mod gap;
pub mod rivets;
pub mod shoe;

pub mod look;

pub mod code;
pub mod matched;

pub mod hardware;
