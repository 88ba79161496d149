//! The load of a lift: all axles that it takes, or can take, off the ground.
//!
//! An axle that hangs on the same air or the same links as a raised one counts with it, and so does
//! one of which nobody knows. An unknown weight makes the load unknown: nothing is assumed.

use crate::quantity::Mass;

/// One axle of the unit that is lifted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Axle {
    /// Its number from the front, as the screen shows it.
    pub number: u8,
    /// Whether this lift raises it.
    pub raised: bool,
    /// What it carries, when that is known.
    pub weight: Option<Mass>,
}

/// Whether the axles of a group come up together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ties {
    /// Each is sprung by itself, and air suspension (if any) holds its air.
    Apart,
    /// Equalizer, walking beam or the like.
    Linked,
    /// The group's suspension air is out: the frame comes down on all of them.
    AirOut,
    /// Nobody knows.
    Unknown,
}

impl Ties {
    /// Whether raising one axle can take the others with it.
    pub const fn takes_all(self) -> bool {
        !matches!(self, Self::Apart)
    }
}

/// Axles that stand together: a steer axle alone, a tandem, a tridem.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Group {
    /// Whether they come up together.
    pub ties: Ties,
    /// The axles, in any order.
    pub axles: Vec<Axle>,
}

/// What the lift takes off the ground.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Load {
    /// Everything that counts; `None` as long as one weight is missing.
    pub mass: Option<Mass>,
    /// The axles that count, by number, in the order given.
    pub axles: Vec<u8>,
    /// Those of them that are not raised themselves but can come along.
    pub along: Vec<u8>,
    /// Those of them whose weight nobody knows.
    pub unknown: Vec<u8>,
}

/// Why there is no load to speak of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LoadFault {
    /// No axle is raised.
    NothingRaised,
    /// An axle with a weight of nothing.
    ZeroWeight {
        /// Its number.
        axle: u8,
    },
    /// The sum is beyond what is ever lifted.
    TooHeavy,
}

/// The load of a lift.
///
/// Units: masses, added exactly.
/// Errors: [`LoadFault`] when nothing is raised, or a weight can't be one.
/// Source: [`crate::source::COMMON_PRACTICE`] (the whole group counts when it can come along).
pub fn load_of_lift(groups: &[Group]) -> Result<Load, LoadFault> {
    let mut load = Load {
        mass: None,
        axles: Vec::new(),
        along: Vec::new(),
        unknown: Vec::new(),
    };
    let mut sum = Mass::ZERO;
    for group in groups {
        let raised = group.axles.iter().any(|axle| axle.raised);
        let counted = |axle: &&Axle| axle.raised || (raised && group.ties.takes_all());
        for axle in group.axles.iter().filter(counted) {
            load.axles.push(axle.number);
            if !axle.raised {
                load.along.push(axle.number);
            }
            match axle.weight {
                None => load.unknown.push(axle.number),
                Some(weight) if weight <= Mass::ZERO => {
                    return Err(LoadFault::ZeroWeight { axle: axle.number });
                }
                Some(weight) => sum = sum.checked_add(weight).ok_or(LoadFault::TooHeavy)?,
            }
        }
    }
    if load.axles.is_empty() {
        return Err(LoadFault::NothingRaised);
    }
    load.mass = load.unknown.is_empty().then_some(sum);
    Ok(load)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::cases;

    /// "1^23000 lb+2:11000 lb+3^-": number, `^` raised or `:` not, weight or `-`; groups by `|`.
    fn groups(text: &str, ties: &[&str]) -> Vec<Group> {
        let tie = |name: &str| match name {
            "apart" => Ties::Apart,
            "linked" => Ties::Linked,
            "air out" => Ties::AirOut,
            "unknown" => Ties::Unknown,
            other => panic!("no tie {other}"),
        };
        let axle = |text: &str| {
            let (number, weight) = text.split_once(['^', ':']).unwrap();
            Axle {
                number: number.parse().unwrap(),
                raised: text.contains('^'),
                weight: crate::cases::typed(weight).map(|typed| typed.quantity().mass().unwrap()),
            }
        };
        let parts = if text == "-" {
            Vec::new()
        } else {
            text.split('|').collect()
        };
        assert_eq!(parts.len(), ties.len(), "{text}");
        parts
            .iter()
            .zip(ties)
            .map(|(part, ties)| Group {
                ties: tie(ties),
                axles: part.split('+').map(axle).collect(),
            })
            .collect()
    }

    fn numbers(axles: &[u8]) -> String {
        let numbers: Vec<String> = axles.iter().map(u8::to_string).collect();
        if numbers.is_empty() {
            "-".to_owned()
        } else {
            numbers.join(",")
        }
    }

    #[test]
    fn table() {
        for row in cases(include_str!("load.tsv")) {
            let groups = groups(row.text("axles"), &row.list("ties"));
            match load_of_lift(&groups) {
                Ok(load) => {
                    assert_eq!(row.text("fault"), "-", "{row}");
                    assert_eq!(load.mass, row.mass("load"), "{row}");
                    assert_eq!(numbers(&load.axles), row.text("counted"), "{row}");
                    assert_eq!(numbers(&load.along), row.text("along"), "{row}");
                    assert_eq!(numbers(&load.unknown), row.text("missing"), "{row}");
                }
                Err(fault) => assert_eq!(format!("{fault:?}"), row.text("fault"), "{row}"),
            }
        }
    }

    proptest! {
        #[test]
        fn tying_axles_together_never_makes_the_load_lighter(
            weights in proptest::collection::vec((1_i64..40_000, any::<bool>()), 1..6),
        ) {
            let axles: Vec<Axle> = weights
                .iter()
                .zip(1..)
                .map(|((lb, raised), number)| Axle { number, raised: *raised, weight: Some(Mass::from_lb(*lb)) })
                .collect();
            let of = |ties| load_of_lift(&[Group { ties, axles: axles.clone() }]).ok().map(|load| load.mass);
            let apart = of(Ties::Apart);
            for ties in [Ties::Linked, Ties::AirOut, Ties::Unknown] {
                prop_assert!(of(ties) >= apart);
            }
        }
    }
}
