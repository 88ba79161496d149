//! Drives the built app in a browser, as a person with a tablet would; the tests themselves are in `tests/`.
//!
//! It knows test ids, words and addresses. It never reaches into the app's memory, and never judges brakes.

pub mod browser;
