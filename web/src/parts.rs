//! The pieces that screens are put together from: glove-sized, with words from outside.
//!
//! A part shows what it is given and says what was pressed. None of them compares a reading with a
//! limit, asks a hold or knows the trail.

pub(crate) mod choice_list;
pub(crate) mod go_list;
pub(crate) mod line_list;
pub(crate) mod number_pad;
pub(crate) mod nut_grid;
pub(crate) mod question;
pub(crate) mod text_entry;
pub(crate) mod wheel_pick;

pub(crate) mod hold_button;
pub(crate) mod nav_column;
pub(crate) mod screen_guard;
pub(crate) mod scroller;
pub(crate) mod wide_done;

pub(crate) mod corner;
pub(crate) mod flash;
pub(crate) mod limit_bar;
pub(crate) mod not_yet;
pub(crate) mod notice;

pub(crate) mod calibration;
pub(crate) mod wipe;
