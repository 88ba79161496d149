//! Whether both ends of an axle carry the same parts, and which rule says so.
//!
//! Nothing here knows a size limit: two ends are held against each other only.

pub mod alike;
