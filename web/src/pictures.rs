//! Line drawings computed from data: no picture files, nothing that data doesn't say.
//!
//! Every drawing is an SVG with `role="img"` and a name from outside. Strokes and fills are classes
//! of the style sheet, so that themes and print apply.

pub(crate) mod findings;
pub(crate) mod geometry;

pub(crate) mod vehicle_top;

pub(crate) mod chocks;
pub(crate) mod jack;
pub(crate) mod raise;
pub(crate) mod stand_tag;
pub(crate) mod stand_tags;
pub(crate) mod stands;

pub(crate) mod instruments;
pub(crate) mod parts_seen;

pub(crate) mod caging;
pub(crate) mod chamber_face;
pub(crate) mod chambers;
pub(crate) mod drum;
pub(crate) mod edge_prints;
pub(crate) mod plate;
pub(crate) mod pushrod_stroke;
pub(crate) mod shoes;
pub(crate) mod slack;
pub(crate) mod wheel_face;
