//! Names of things: cards, tablets, people, steps, and places on the vehicle.
//!
//! An id is text with a type. None of them is ever shown to a person as it stands,
//! except inside the trail view.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

macro_rules! text_ids {
    ($($(#[$doc:meta])* $name:ident),* $(,)?) => {$(
        $(#[$doc])*
        #[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $name(String);

        impl $name {
            pub fn new(text: impl Into<String>) -> Self {
                Self(text.into())
            }

            pub fn as_str(&self) -> &str {
                &self.0
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&self.0)
            }
        }

        impl fmt::Debug for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "{}({})", stringify!($name), self.0)
            }
        }

        impl From<&str> for $name {
            fn from(text: &str) -> Self {
                Self(text.to_owned())
            }
        }
    )*};
}

text_ids! {
    /// One job card, or the shop sheet (which is kept as a trail of its own).
    CardId,
    /// One tablet, named once when its store is made.
    TabletId,
    /// A person of the shop.
    PersonId,
    /// A group of steps: `secure`, `lift`, …
    StageId,
    /// A step of the procedure.
    StepId,
    /// One thing that a step asks for.
    AskId,
    /// A fact of the set-up sheet.
    FactId,
    /// One of the answers that a step or fact offers.
    OptionId,
    /// Something that can be found wrong with a part.
    FindingId,
    /// A part of the wheel end, as findings name it.
    PartId,
}

/// How every id of the practice bay begins. It stands in each line of a trail, under its hash.
const PRACTICE: &str = "practice-";

impl CardId {
    /// An id of the practice bay.
    pub fn of_practice(rest: &str) -> Self {
        Self(format!("{PRACTICE}{rest}"))
    }

    /// True for what belongs to the practice bay, and never among real cards.
    pub fn is_practice(&self) -> bool {
        self.0.starts_with(PRACTICE)
    }
}

/// Left or right as seen by the driver.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Side {
    /// The driver's left.
    Left,
    /// The driver's right.
    Right,
}

/// Where on the vehicle something was done. Axles count from 1 at the front.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Place {
    /// The whole vehicle.
    Vehicle,
    /// One axle.
    Axle(u8),
    /// One wheel end.
    End(u8, Side),
}

impl Place {
    /// The axle this place is on, unless it is the whole vehicle.
    pub fn axle(self) -> Option<u8> {
        match self {
            Self::Vehicle => None,
            Self::Axle(axle) | Self::End(axle, _) => Some(axle),
        }
    }

    /// Both wheel ends of an axle, left first.
    pub fn ends(axle: u8) -> [Self; 2] {
        [Self::End(axle, Side::Left), Self::End(axle, Side::Right)]
    }

    /// The other wheel end of the same axle.
    pub fn mate(self) -> Option<Self> {
        match self {
            Self::End(axle, Side::Left) => Some(Self::End(axle, Side::Right)),
            Self::End(axle, Side::Right) => Some(Self::End(axle, Side::Left)),
            Self::Vehicle | Self::Axle(_) => None,
        }
    }
}

/// `V`, `A2`, `E2L`: the form in which a place stands in a line.
impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Vehicle => f.write_str("V"),
            Self::Axle(axle) => write!(f, "A{axle}"),
            Self::End(axle, Side::Left) => write!(f, "E{axle}L"),
            Self::End(axle, Side::Right) => write!(f, "E{axle}R"),
        }
    }
}

/// The text is not a place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotAPlace(String);

impl fmt::Display for NotAPlace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "can't read a place: expected V, A2 or E2L, found {:?}",
            self.0
        )
    }
}

impl FromStr for Place {
    type Err = NotAPlace;

    fn from_str(text: &str) -> Result<Self, NotAPlace> {
        let wrong = || NotAPlace(text.to_owned());
        let axle = |digits: &str| match digits.parse::<u8>() {
            Ok(axle) if axle > 0 && !digits.starts_with(['0', '+']) => Ok(axle),
            _ => Err(wrong()),
        };
        if text == "V" {
            Ok(Self::Vehicle)
        } else if let Some(rest) = text.strip_prefix('A') {
            Ok(Self::Axle(axle(rest)?))
        } else if let Some(rest) = text.strip_prefix('E') {
            match (rest.strip_suffix('L'), rest.strip_suffix('R')) {
                (Some(digits), _) => Ok(Self::End(axle(digits)?, Side::Left)),
                (_, Some(digits)) => Ok(Self::End(axle(digits)?, Side::Right)),
                _ => Err(wrong()),
            }
        } else {
            Err(wrong())
        }
    }
}

impl Serialize for Place {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Place {
    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = String::deserialize(from)?;
        text.parse().map_err(serde::de::Error::custom)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_reads_back_as_written() {
        for place in [
            Place::Vehicle,
            Place::Axle(3),
            Place::End(12, Side::Left),
            Place::End(1, Side::Right),
        ] {
            assert_eq!(place.to_string().parse(), Ok(place));
        }
    }

    #[test]
    fn what_is_no_place_is_refused() {
        for text in ["", "v", "A", "A0", "A01", "E2", "E2X", "E+2L", "A999", "EL"] {
            assert!(text.parse::<Place>().is_err(), "{text}");
        }
    }
}
