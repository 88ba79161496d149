//! How far the nut of a driven steer axle is tightened when its end play came out too large.
//!
//! Printed for that one kind of hub, and for no other.

use crate::quantity::{Length, Quantity};
use crate::rules::{Figure, Rule};
use crate::source;
use crate::unit::Unit;
use crate::verdict::{Limit, RuleId, Verdict};
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("bearing.correction"),
    title: word::RULE_BEARING_CORRECTION,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_BEARING_CORRECTION,
    figures: &[
        up_to("no correction", 2),
        up_to("1/32 turn", 5),
        up_to("1/16 turn", 8),
        up_to("3/32 turn", 11),
    ],
    sources: &[&source::BEARING_STEER_DRIVE],
};

const fn up_to(name: &'static str, inch_thousandths: i64) -> Figure {
    Figure {
        name,
        limit: Limit::at_most(
            Quantity::Length(Length::from_inch_thousandths(inch_thousandths)),
            &source::BEARING_STEER_DRIVE,
        ),
    }
}

/// What is to be done about an end play; `None` where nothing is.
///
/// Units: any length. Errors: none; past the last figure it is adjusted from the start.
/// Source: [`source::BEARING_STEER_DRIVE`].
pub fn correction(play: Length) -> Option<Remark> {
    correction_by(RULE.figures, play)
}

fn correction_by(figures: &[Figure], play: Length) -> Option<Remark> {
    let reaches = |figure: &&Figure| figure.limit.judge(play.into()) != Some(Verdict::Beyond);
    let turn = figures.iter().find(reaches).map(|figure| figure.name);
    match turn.map(|name| name.trim_end_matches(" turn")) {
        Some("no correction") => None,
        Some(turn) => Some(Remark::with(
            word::BEARING_REMARK_TIGHTEN,
            [("turn", Argument::Text(turn.to_owned()))],
        )),
        None => Some(Remark::plain(word::BEARING_REMARK_LOOSE)),
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::cases::cases;
    use crate::nudge::Outcome;

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        cases(include_str!("correction.tsv"))
            .into_iter()
            .map(|row| {
                let play = row.quantity("play").unwrap().length().unwrap();
                let got = match correction_by(figures, play) {
                    None => "-".to_owned(),
                    Some(said) => match said.arguments.first() {
                        Some((_, Argument::Text(turn))) => turn.clone(),
                        _ => "again".to_owned(),
                    },
                };
                (
                    format!("{row}: {got}"),
                    format!("{row}: {}", row.text("turn")),
                )
            })
            .collect()
    }

    #[test]
    fn table() {
        for (got, expected) in outcomes(RULE.figures) {
            assert_eq!(got, expected);
        }
        assert_eq!(correction(Length::ZERO), None);
    }
}
