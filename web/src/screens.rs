//! The screens. Each takes the session from the context, shows what it says, and asks it to act.

pub(crate) mod bay;
pub(crate) mod bring;
mod card_key;
pub(crate) mod cards;
pub(crate) mod defaults;
pub(crate) mod files;
pub(crate) mod final_pass;
pub(crate) mod jacks;
pub(crate) mod limits;
pub(crate) mod new_card;
pub(crate) mod people;
pub(crate) mod record;
pub(crate) mod road_checks;
pub(crate) mod rules;
pub(crate) mod settings;
pub(crate) mod setup;
pub(crate) mod shop_sheet;
pub(crate) mod shop_steps;
pub(crate) mod stands;
pub(crate) mod start;
pub(crate) mod trail;
mod value_entry;
pub(crate) mod wheels;
pub(crate) mod wrenches;

pub(crate) mod hand_over;
pub(crate) mod look;
pub(crate) mod looks;
pub(crate) mod map;
pub(crate) mod runner;
pub(crate) mod sides;

pub(crate) mod found;
pub(crate) mod in_the_way;
pub(crate) mod line;
pub(crate) mod lines;
pub(crate) mod read_out;

pub(crate) mod practice;

mod add_person;
mod axle_keys;
pub(crate) mod band;
mod build;
mod card_file;
mod changes;
mod extra_told;
mod fact_entry;
pub(crate) mod kinds;
mod line_notes;
pub(crate) mod moment;
pub(crate) mod page;
pub(crate) mod photo_shown;
pub(crate) mod stand_entry;
pub(crate) mod told;
pub(crate) mod vehicle;
pub(crate) mod wanting;
mod wrench_entry;
