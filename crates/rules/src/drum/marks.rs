//! What is known of a drum before it is measured.

use crate::quantity::Length;

/// What a drum says of itself, as far as it can be read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Marks {
    /// The maximum diameter cast in it.
    pub cast_max: Option<Length>,
    /// The diameter that it had when it was new.
    pub nominal: Option<Length>,
}

/// A drum of 15 in: some limits are printed for its brake alone.
pub(crate) const FIFTEEN: Length = Length::from_inch_64ths(15 * 64);

/// A drum of 16 1/2 in.
pub(crate) const SIXTEEN_AND_A_HALF: Length = Length::from_inch_64ths(16 * 64 + 32);
