//! Studs, nuts and wheels: what a broken stud takes with it, and how far studs and nuts reach.
//!
//! Reading order: [`neighbours`] and [`nuts`] for what is named stud by stud, [`wheel`] for what is
//! seen at the wheel, then what is measured.

pub mod neighbours;
pub mod nuts;
pub mod wheel;

pub mod hand;

pub mod engagement;
pub mod past_nut;
pub mod run_out;
pub mod stand_out;
