//! How far an adjuster is turned back from contact at set-up, by its mechanism.
//!
//! Half a turn unless the mechanism's own instruction, or the shop sheet, says otherwise. Nothing is
//! judged here: the free stroke that follows is.

use crate::rules::Rule;
use crate::slack::mechanism::Mechanism;
use crate::source::{self, Source};
use crate::verdict::RuleId;
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("slack.back-off"),
    title: word::RULE_SLACK_BACK_OFF,
    units: &[],
    limits: word::LIMIT_SLACK_BACK_OFF,
    figures: &[],
    sources: &[
        &source::COMMON_PRACTICE,
        &source::CLUTCH_ADJUSTER,
        &source::GAUGE_ADJUSTER,
        &source::MANUAL_ADJUSTER,
        &source::PAWL_SET_UP,
    ],
};

/// How to come back from contact, in eighths of a turn of the hex.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BackOff {
    /// So many eighths.
    Eighths(u8),
    /// Between so many eighths and so many.
    Between(u8, u8),
    /// An eighth at a time, with the pawl held out, until the free stroke lies in its window.
    ToTheWindow,
}

/// The back-off of a mechanism, and where it is printed.
///
/// Source: the mechanism's own; where none is printed half a turn, [`source::COMMON_PRACTICE`].
pub const fn back_off(mechanism: Mechanism) -> (BackOff, &'static Source) {
    match mechanism {
        Mechanism::Clutch => (BackOff::Eighths(4), &source::CLUTCH_ADJUSTER),
        Mechanism::Gauge => (BackOff::Eighths(6), &source::GAUGE_ADJUSTER),
        Mechanism::Manual => (BackOff::Between(2, 4), &source::MANUAL_ADJUSTER),
        Mechanism::Pawl => (BackOff::ToTheWindow, &source::PAWL_SET_UP),
        Mechanism::Linkless | Mechanism::Unknown => (BackOff::Eighths(4), &source::COMMON_PRACTICE),
    }
}

impl BackOff {
    /// What the screen says.
    pub fn remark(self) -> Remark {
        let turns = |eighths| Argument::Text(turns(eighths));
        match self {
            Self::Eighths(eighths) => {
                Remark::with(word::SLACK_REMARK_BACK_OFF, [("turns", turns(eighths))])
            }
            Self::Between(low, high) => Remark::with(
                word::SLACK_REMARK_BACK_OFF_RANGE,
                [("low", turns(low)), ("high", turns(high))],
            ),
            Self::ToTheWindow => Remark::plain(word::SLACK_REMARK_BACK_OFF_WINDOW),
        }
    }
}

/// Eighths as a fraction in lowest terms.
fn turns(eighths: u8) -> String {
    match eighths {
        8 => "1".to_owned(),
        4 => "1/2".to_owned(),
        2 | 6 => format!("{}/4", eighths / 2),
        _ => format!("{eighths}/8"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::cases;

    #[test]
    fn table() {
        for row in cases(include_str!("back_off.tsv")) {
            let (back, from) = back_off(Mechanism::from_code(row.text("mechanism")).unwrap());
            assert_eq!(format!("{back:?}"), row.text("back"), "{row}");
            assert_eq!(from.standing.code(), row.text("standing"), "{row}");
            let said = back.remark();
            let texts: Vec<String> = said
                .arguments
                .iter()
                .map(|(_, argument)| match argument {
                    Argument::Text(text) => text.clone(),
                    other => panic!("{other:?}"),
                })
                .collect();
            assert_eq!(texts, row.list("shown"), "{row}");
        }
    }

    #[test]
    fn eighths_are_shown_in_lowest_terms() {
        let shown: Vec<String> = (1..=8).map(turns).collect();
        assert_eq!(
            shown,
            ["1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8", "1"]
        );
    }
}
