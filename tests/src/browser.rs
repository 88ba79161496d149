//! A tablet for tests: a host with the built app, a browser with a profile of its own, and fingers.
//!
//! Whatever is started here ends with the value that started it, also when a test fails. Reading order:
//! what a test needs around it, the tablet, and then longer walks through the app.

pub mod extra;
pub mod files;
pub mod folder;
pub mod host;
pub mod words;

pub mod driver;
mod processes;
mod wire;

pub mod tablet;

pub mod measure;
pub mod photo;
pub mod shop;
pub mod tour;
pub mod walk;

use std::path::PathBuf;

/// What `cargo xtask` tells a browser test, by name.
fn told(name: &str) -> PathBuf {
    match std::env::var_os(name) {
        Some(value) => value.into(),
        None => panic!(
            "{name} is not set: run `cargo xtask test browser`, which builds what is needed first"
        ),
    }
}

/// The folder of the built app.
pub fn dist() -> PathBuf {
    told("CHOCK_DIST")
}
