//! What brakes that are only at their limit cost in stopping distance, by one published study.
//!
//! A three-axle truck of 55 000 lb from 60 mph, all brakes set up against all brakes backed off to
//! the limit. It says nothing of another vehicle.

use crate::quantity::Ratio;
use crate::rules::Rule;
use crate::shown;
use crate::source;
use crate::verdict::RuleId;
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("why.stopping"),
    title: word::RULE_WHY_STOPPING,
    units: &[],
    limits: word::LIMIT_WHY_STOPPING,
    figures: &[],
    sources: &[&source::SASKATCHEWAN],
};

/// One row of the study.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Study {
    /// How warm the brakes were, in degrees Fahrenheit.
    pub fahrenheit: u32,
    /// Set up, in feet.
    pub set_up_ft: u32,
    /// Backed off to the limit, in feet.
    pub at_the_limit_ft: u32,
}

/// The rows that could be read. Source: [`source::SASKATCHEWAN`].
pub const STUDY: &[Study] = &[
    Study {
        fahrenheit: 150,
        set_up_ft: 342,
        at_the_limit_ft: 458,
    },
    Study {
        fahrenheit: 200,
        set_up_ft: 351,
        at_the_limit_ft: 519,
    },
];

impl Study {
    /// By which part of its length the stop grew.
    pub fn longer(&self) -> Ratio {
        let more = i128::from(self.at_the_limit_ft) - i128::from(self.set_up_ft);
        let part = more * Ratio::from_percent(100).base();
        let part = part.checked_div(i128::from(self.set_up_ft)).unwrap_or(0);
        Ratio::from_base(part).unwrap_or(Ratio::ZERO)
    }

    /// What the help says, in feet as printed and in metres beside them.
    pub fn remark(&self) -> Remark {
        let metres = |feet: u32| {
            let millimetre_tenths = i128::from(feet) * 3_048;
            Argument::Text(shown::quotient(millimetre_tenths, 10_000, 0).unwrap_or_default())
        };
        let percent = shown::quotient(self.longer().base(), Ratio::from_percent(1).base(), 0);
        Remark::with(
            word::WHY_STOPPING,
            [
                ("set-up-ft", Argument::Count(self.set_up_ft)),
                ("set-up-m", metres(self.set_up_ft)),
                ("limit-ft", Argument::Count(self.at_the_limit_ft)),
                ("limit-m", metres(self.at_the_limit_ft)),
                ("percent", Argument::Text(percent.unwrap_or_default())),
            ],
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::cases;
    use crate::shown::{Lean, decimal};
    use crate::unit::Unit;

    #[test]
    fn table() {
        let rows = cases(include_str!("stopping.tsv"));
        assert_eq!(rows.len(), STUDY.len());
        for (row, study) in rows.iter().zip(STUDY) {
            assert_eq!(study.fahrenheit, row.count("fahrenheit"), "{row}");
            assert_eq!(study.set_up_ft, row.count("set up"), "{row}");
            assert_eq!(study.at_the_limit_ft, row.count("at the limit"), "{row}");
            let percent = decimal(study.longer().into(), Unit::Percent, 0, Lean::Nearest);
            assert_eq!(percent.unwrap().text, row.text("percent"), "{row}");
            let said = study.remark().arguments;
            let said: Vec<String> = said
                .into_iter()
                .map(|(_, argument)| match argument {
                    Argument::Count(count) => count.to_string(),
                    Argument::Text(text) => text,
                    other => panic!("{other:?}"),
                })
                .collect();
            assert_eq!(said, row.list("shown"), "{row}");
        }
    }
}
