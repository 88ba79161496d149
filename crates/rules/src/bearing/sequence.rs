//! How a wheel bearing is adjusted by the rule book: step by step, with the values of this hub.
//!
//! What a back-off moves the nut along the spindle follows from the thread alone and is exact.

use crate::bearing::setup::{Axle, Nuts};
use crate::quantity::{Length, Quantity, Torque};
use crate::rules::{self, Figure, Rule};
use crate::source;
use crate::unit::Unit;
use crate::verdict::{Limit, RuleId};
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("bearing.sequence"),
    title: word::RULE_BEARING_SEQUENCE,
    units: &[Unit::PoundForceFoot, Unit::NewtonMetre],
    limits: word::LIMIT_BEARING_SEQUENCE,
    figures: &[
        from("first", 200),
        from("second", 50),
        from("jam small from", 200),
        to("jam small to", 300),
        from("jam large from", 300),
        to("jam large to", 400),
        from("jam dowel from", 300),
        to("jam dowel to", 400),
        from("jam tang from", 200),
        to("jam tang to", 275),
    ],
    sources: &[&source::BEARING_RULE_BOOK],
};

const fn from(name: &'static str, lbf_ft: i64) -> Figure {
    Figure {
        name,
        limit: Limit::at_least(torque(lbf_ft), &source::BEARING_RULE_BOOK),
    }
}

const fn to(name: &'static str, lbf_ft: i64) -> Figure {
    Figure {
        name,
        limit: Limit::at_most(torque(lbf_ft), &source::BEARING_RULE_BOOK),
    }
}

const fn torque(lbf_ft: i64) -> Quantity {
    Quantity::Torque(Torque::from_lbf_ft(lbf_ft))
}

/// How far the nut goes back at the end.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct BackOff {
    /// One turn over so many.
    pub parts_of_a_turn: u32,
    /// What it moves along the spindle: one inch over so many, exactly.
    pub parts_of_an_inch: u32,
}

impl BackOff {
    /// The travel in whole nanometres, cut off: for showing.
    pub fn travel(self) -> Option<Length> {
        let inch = Unit::Inch.in_base();
        Length::from_base(inch.checked_div(i128::from(self.parts_of_an_inch))?)
    }
}

/// The last back-off of a hub, by axle, nuts and threads per inch; `None` where the rule book
/// prints no row.
///
/// Units: parts of a turn and of an inch. Errors: none. Source: [`source::BEARING_RULE_BOOK`].
pub const fn back_off(axle: Axle, nuts: Nuts, threads_per_inch: u32) -> Option<BackOff> {
    let parts_of_a_turn = match (axle, nuts, threads_per_inch) {
        (Axle::Steer, Nuts::Single, 12) => 6,
        (Axle::Steer, Nuts::DoubleSmall | Nuts::DoubleLarge, 14 | 18) => 2,
        (Axle::Steer, Nuts::Single, 18)
        | (Axle::Drive, Nuts::Dowel | Nuts::Tang, 12 | 16)
        | (Axle::Trailer, Nuts::DoubleSmall | Nuts::DoubleLarge, 12 | 16) => 4,
        _ => return None,
    };
    Some(BackOff {
        parts_of_a_turn,
        parts_of_an_inch: parts_of_a_turn * threads_per_inch,
    })
}

/// The steps in their order, with the values of this hub; `None` where the rule book prints no row.
///
/// Units: torque, parts of a turn. Errors: none. The end play is measured after the last step, see
/// [`crate::bearing::end_play`]. Source: [`source::BEARING_RULE_BOOK`].
pub fn steps(axle: Axle, nuts: Nuts, threads_per_inch: u32) -> Option<Vec<Remark>> {
    steps_by(RULE.figures, axle, nuts, threads_per_inch)
}

fn steps_by(
    figures: &[Figure],
    axle: Axle,
    nuts: Nuts,
    threads_per_inch: u32,
) -> Option<Vec<Remark>> {
    let back_off = back_off(axle, nuts, threads_per_inch)?;
    let value = |name| Some(Argument::Quantity(rules::named(figures, name)?.figure));
    let lock = match nuts {
        Nuts::Single => Remark::plain(word::BEARING_STEP_COTTER),
        Nuts::DoubleSmall => jam(value("jam small from")?, value("jam small to")?),
        Nuts::DoubleLarge => jam(value("jam large from")?, value("jam large to")?),
        Nuts::Dowel => jam(value("jam dowel from")?, value("jam dowel to")?),
        Nuts::Tang => jam(value("jam tang from")?, value("jam tang to")?),
    };
    let mut steps = vec![
        Remark::with(word::BEARING_STEP_FIRST, [("torque", value("first")?)]),
        Remark::plain(word::BEARING_STEP_OFF),
        Remark::with(word::BEARING_STEP_SECOND, [("torque", value("second")?)]),
        Remark::with(
            word::BEARING_STEP_BACK,
            [
                ("parts", Argument::Count(back_off.parts_of_a_turn)),
                ("inch", Argument::Count(back_off.parts_of_an_inch)),
                ("travel", Argument::Quantity(back_off.travel()?.into())),
            ],
        ),
        lock,
    ];
    if nuts == Nuts::Tang {
        steps.push(Remark::plain(word::BEARING_STEP_TANGS));
    }
    steps.push(Remark::plain(word::BEARING_STEP_MEASURE));
    if (axle, nuts, threads_per_inch) == (Axle::Steer, Nuts::Single, 12) {
        // Its later edition prints a third of a turn beside this row, and where that belongs is
        // not clear from the copy that was read.
        steps.push(Remark::plain(word::BEARING_STEP_LATER_EDITION));
    }
    Some(steps)
}

fn jam(from: Argument, to: Argument) -> Remark {
    Remark::with(word::BEARING_STEP_JAM, [("from", from), ("to", to)])
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::cases::cases;
    use crate::nudge::Outcome;

    /// Torques in hundredths of a pound-force foot, so that a small step shows.
    fn told(argument: &Argument) -> String {
        match argument {
            Argument::Quantity(Quantity::Torque(torque)) => {
                let of_hundredths = Unit::PoundForceFoot.in_base() / 100;
                format!("{}", torque.base() / of_hundredths)
            }
            Argument::Count(count) => format!("1/{count}"),
            _ => String::new(),
        }
    }

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        cases(include_str!("sequence.tsv"))
            .into_iter()
            .map(|row| {
                let axle = Axle::from_code(row.text("axle")).unwrap();
                let nuts = Nuts::from_code(row.text("nuts")).unwrap();
                let steps = steps_by(figures, axle, nuts, row.count("threads"));
                let steps: Vec<String> = steps
                    .unwrap_or_default()
                    .iter()
                    .map(|step| {
                        let name = step.word.key().rsplit('.').next().unwrap();
                        let values = step.arguments.iter().filter(|(name, _)| *name != "travel");
                        let values: Vec<String> = values.map(|(_, of)| told(of)).collect();
                        [name.to_owned(), values.join(" ")]
                            .join(" ")
                            .trim()
                            .to_owned()
                    })
                    .collect();
                let got = if steps.is_empty() {
                    "-".to_owned()
                } else {
                    steps.join(", ")
                };
                (
                    format!("{row}: {got}"),
                    format!("{row}: {}", row.text("steps")),
                )
            })
            .collect()
    }

    #[test]
    fn table() {
        for (got, expected) in outcomes(RULE.figures) {
            assert_eq!(got, expected);
        }
        let told = steps(Axle::Trailer, Nuts::DoubleSmall, 12).unwrap();
        assert_eq!(told.first().unwrap().word, word::BEARING_STEP_FIRST);
    }

    #[test]
    fn a_back_off_moves_the_nut_by_its_part_of_a_thread() {
        // A quarter of a turn on 16 threads to the inch is 1/64 in, and that is whole.
        let quarter = back_off(Axle::Trailer, Nuts::DoubleSmall, 16).unwrap();
        assert_eq!(quarter.parts_of_an_inch, 64);
        assert_eq!(quarter.travel(), Some(Length::from_inch_64ths(1)));
        // A sixth on 12 is 1/72 in, a little over 0.0138 in.
        let sixth = back_off(Axle::Steer, Nuts::Single, 12).unwrap();
        assert_eq!((sixth.parts_of_a_turn, sixth.parts_of_an_inch), (6, 72));
        assert_eq!(sixth.travel().map(Length::base), Some(352_777));
        let none = BackOff {
            parts_of_a_turn: 0,
            parts_of_an_inch: 0,
        };
        assert_eq!(none.travel(), None);
    }
}
