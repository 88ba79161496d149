//! How far a pushrod may be pulled before the linings touch, by the adjuster's mechanism.
//!
//! A window printed for another mechanism or another kind of vehicle is shown and never counted.
//! Where the mechanism isn't known and the windows differ there is advice, no verdict.

use crate::quantity::{Length, Quantity};
use crate::rules::{self, Figure, Rule};
use crate::slack::mechanism::Mechanism;
use crate::source::{self, Source};
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Side, Verdict};
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("slack.free"),
    title: word::RULE_SLACK_FREE,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_SLACK_FREE,
    figures: FIGURES,
    sources: &[
        &source::CLUTCH_ADJUSTER,
        &source::PAWL_SET_UP,
        &source::CRANE_CARRIER,
        &source::MANUAL_ADJUSTER,
        &source::DUMP_TRAILER,
        &source::SASKATCHEWAN,
    ],
};

/// The printed windows.
const FIGURES: &[Figure] = &[
    least("clutch least", 24, &source::CLUTCH_ADJUSTER),
    most("clutch most", 48, &source::CLUTCH_ADJUSTER),
    least("pawl set up least", 40, &source::PAWL_SET_UP),
    most("pawl set up most", 48, &source::PAWL_SET_UP),
    least("pawl in service least", 32, &source::CRANE_CARRIER),
    most("pawl in service most", 40, &source::CRANE_CARRIER),
    least("manual least", 32, &source::MANUAL_ADJUSTER),
    most("manual most", 48, &source::MANUAL_ADJUSTER),
    least("trailer least", 24, &source::DUMP_TRAILER),
    most("trailer most", 40, &source::DUMP_TRAILER),
    least("type 30 least", 32, &source::SASKATCHEWAN),
    most("type 30 most", 48, &source::SASKATCHEWAN),
];

const fn least(name: &'static str, inch_64ths: i64, source: &'static Source) -> Figure {
    Figure {
        name,
        limit: Limit::at_least(inches(inch_64ths), source),
    }
}

const fn most(name: &'static str, inch_64ths: i64, source: &'static Source) -> Figure {
    Figure {
        name,
        limit: Limit::at_most(inches(inch_64ths), source),
    }
}

const fn inches(inch_64ths: i64) -> Quantity {
    Quantity::Length(Length::from_inch_64ths(inch_64ths))
}

/// When a free stroke was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum When {
    /// Right after the adjuster was set up.
    SetUp,
    /// As the vehicle came in.
    InService,
}

/// Judges a free stroke by the window of its mechanism.
///
/// Units: any length; compared exactly. Room is the distance to the nearer end of the window.
/// Errors: none. An unknown mechanism, or one without a printed window, gives advice: no reading,
/// with every window under "others say".
/// Source: by mechanism, see [`RULE`].
pub fn judge_free(free: Length, mechanism: Mechanism, when: When) -> Judgement {
    judge_free_by(FIGURES, free, mechanism, when)
}

fn judge_free_by(figures: &[Figure], free: Length, mechanism: Mechanism, when: When) -> Judgement {
    let own = window(mechanism, when);
    let (applies, others): (Vec<&Figure>, Vec<&Figure>) = figures
        .iter()
        .partition(|figure| own.contains(&figure.name));
    let limits: Vec<Limit> = applies
        .iter()
        .filter_map(|figure| rules::named(figures, figure.name))
        .collect();
    let mut judged = Judgement::of(RULE.id, free.into(), &limits, &source::CLUTCH_ADJUSTER);
    for other in others {
        judged = judged.other_says(other.limit);
    }
    if limits.is_empty() {
        let advice = match mechanism {
            Mechanism::Unknown => word::SLACK_REMARK_MECHANISM_UNKNOWN,
            _ => word::SLACK_REMARK_NO_WINDOW,
        };
        return judged.remarking(Remark::plain(advice));
    }
    match (
        judged.verdict,
        judged.limits.first().map(|limit| limit.side),
    ) {
        (Verdict::Beyond, Some(Side::AtLeast)) => {
            judged.remarking(Remark::plain(word::SLACK_REMARK_FREE_LOW))
        }
        (Verdict::Beyond, Some(Side::AtMost)) => {
            judged.remarking(Remark::plain(word::SLACK_REMARK_FREE_HIGH))
        }
        _ => judged,
    }
}

/// The names of the figures that apply.
const fn window(mechanism: Mechanism, when: When) -> &'static [&'static str] {
    match (mechanism, when) {
        (Mechanism::Clutch, _) => &["clutch least", "clutch most"],
        (Mechanism::Pawl, When::SetUp) => &["pawl set up least", "pawl set up most"],
        (Mechanism::Pawl, When::InService) => &["pawl in service least", "pawl in service most"],
        (Mechanism::Manual, _) => &["manual least", "manual most"],
        (Mechanism::Linkless | Mechanism::Gauge | Mechanism::Unknown, _) => &[],
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases};
    use crate::nudge::Outcome;

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let outcome = |row: Row<'_>| {
            let free = row.quantity("free").unwrap().length().unwrap();
            let mechanism = Mechanism::from_code(row.text("mechanism")).unwrap();
            let when = if row.text("when") == "set up" {
                When::SetUp
            } else {
                When::InService
            };
            let judged = judge_free_by(figures, free, mechanism, when);
            let others: Vec<&str> = judged
                .others
                .iter()
                .map(|other| short(other.verdict))
                .collect();
            let said = judged.remarks.first().map_or("-", |said| said.word.key());
            let got = format!("{} {} {said}", judged.verdict.code(), others.concat());
            let expected = format!(
                "{} {} {}",
                row.text("verdict"),
                row.text("others"),
                row.text("says")
            );
            (format!("{row}: {got}"), format!("{row}: {expected}"))
        };
        cases(include_str!("free.tsv"))
            .into_iter()
            .map(outcome)
            .collect()
    }

    fn short(verdict: Verdict) -> &'static str {
        match verdict {
            Verdict::Within => "w",
            Verdict::AtTheLimit => "a",
            Verdict::Beyond => "b",
            _ => "?",
        }
    }

    #[test]
    fn table() {
        for (got, expected) in outcomes(FIGURES) {
            assert_eq!(got, expected);
        }
    }

    proptest! {
        #[test]
        fn further_out_of_the_window_is_never_kinder(a in 0_i64..6_000, b in 0_i64..6_000, m in 0..Mechanism::ALL.len(), set_up: bool) {
            let when = if set_up { When::SetUp } else { When::InService };
            let severity = |n| judge_free(Length::from_mm_hundredths(n), Mechanism::ALL[m], when).verdict.severity();
            // Every window lies around 14 to 16 mm: away from there it only gets worse.
            let (near, far) = (a.min(b), a.max(b));
            prop_assert!(near < 1_587 || severity(near) <= severity(far));
            prop_assert!(far > 1_270 || severity(far) <= severity(near));
        }
    }
}
