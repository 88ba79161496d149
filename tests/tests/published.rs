//! Values published elsewhere, held against the rules: each row names where it was read.
//!
//! The rows are added to and never bent to fit. A case that the design answers otherwise stands in
//! its family's table too, with the reason.

#![expect(clippy::unwrap_used, reason = "what a test leans on may fail it")]

mod published {
    pub(crate) mod table;

    pub(crate) mod air;
    pub(crate) mod axle;
    pub(crate) mod drum;
    pub(crate) mod lining;
    pub(crate) mod practice;
    pub(crate) mod slack;
    pub(crate) mod support;
    pub(crate) mod torque;
    pub(crate) mod why;

    pub(crate) mod bearing;
    pub(crate) mod camshaft;
    pub(crate) mod stud;

    pub(crate) mod units;
}
