//! The built release in a browser, as a tablet in the bay has it: offline, killed, updated, measured.
//!
//! `cargo xtask test browser` runs these; they need a built app and Chromium. Every test has a host, a
//! browser and a profile of its own.

mod browser {
    pub(crate) mod offline_job;
    pub(crate) mod one_axle;
    pub(crate) mod tandem;

    pub(crate) mod judgements;

    pub(crate) mod bad_input;
    pub(crate) mod card_file;
    pub(crate) mod handed_over;
    pub(crate) mod killed;
    pub(crate) mod lines_asked;
    pub(crate) mod struck;

    pub(crate) mod bay;
    pub(crate) mod bring;
    pub(crate) mod cards;
    pub(crate) mod final_pass;
    pub(crate) mod jacks;
    pub(crate) mod shop_limits;
    pub(crate) mod shop_steps;
    pub(crate) mod shop_values;
    pub(crate) mod sizes;

    pub(crate) mod demo;
    pub(crate) mod drills;
    pub(crate) mod instruments;
    pub(crate) mod practice_run;
    pub(crate) mod two_tabs;
    pub(crate) mod update;
    pub(crate) mod wrench;
}
