//! How far an adjuster rocks on the splines of its camshaft, measured 6 in out from the centre.

use crate::camshaft::brake::Brake;
use crate::quantity::{Length, Quantity};
use crate::rules::{Figure, Rule};
use crate::source;
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Verdict};
use crate::window::{self, Applies};
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("camshaft.spline"),
    title: word::RULE_CAMSHAFT_SPLINE,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_CAMSHAFT_SPLINE,
    figures: &[Figure {
        name: "fifteen-by-four most",
        limit: Limit::at_most(
            Quantity::Length(Length::from_inch_thousandths(94)),
            &source::CAM_SPLINE,
        ),
    }],
    sources: &[&source::CAM_SPLINE],
};

/// Judges how far the adjuster rocks, 6 in out.
///
/// Units: any length. Room is limit minus travel. Errors: none. Another kind of brake has no limit
/// of its own: what is beyond the only one printed is beyond there too, the rest is advice.
/// Source: [`source::CAM_SPLINE`].
pub fn judge_spline(rocks: Length, brake: Brake) -> Judgement {
    judge_spline_by(RULE.figures, rocks, brake)
}

fn judge_spline_by(figures: &[Figure], rocks: Length, brake: Brake) -> Judgement {
    let applies = match brake {
        Brake::FifteenByFour => Applies::These(&["fifteen-by-four"]),
        Brake::SpiderTwenty
        | Brake::SpiderThirty
        | Brake::CraneCarrier
        | Brake::TrailerTube
        | Brake::Unknown => Applies::Any,
    };
    let judged = window::judge(&RULE, figures, rocks.into(), applies);
    if judged.verdict == Verdict::Beyond {
        judged.remarking(Remark::plain(word::CAMSHAFT_REMARK_SPLINE))
    } else {
        judged
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::cases;
    use crate::nudge::Outcome;
    use crate::window::outcome;

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        cases(include_str!("spline.tsv"))
            .into_iter()
            .map(|row| {
                let rocks = row.quantity("rocks").unwrap().length().unwrap();
                let brake = Brake::from_code(row.text("brake")).unwrap();
                outcome(&row, &judge_spline_by(figures, rocks, brake))
            })
            .collect()
    }

    #[test]
    fn table() {
        for (got, expected) in outcomes(RULE.figures) {
            assert_eq!(got, expected);
        }
        let rocks = judge_spline(Length::from_inch_thousandths(95), Brake::SpiderThirty);
        let said: Vec<word::Word> = rocks.remarks.iter().map(|remark| remark.word).collect();
        assert_eq!(
            said,
            [word::WINDOW_BEYOND_EVERY, word::CAMSHAFT_REMARK_SPLINE]
        );
    }

    proptest! {
        #[test]
        fn more_is_never_kinder(a in 0_i64..300, b in 0_i64..300, of in 0..Brake::ALL.len()) {
            let severity = |n| {
                let rocks = Length::from_inch_thousandths(n);
                judge_spline(rocks, Brake::ALL[of]).verdict.severity()
            };
            prop_assert!(severity(a.min(b)) <= severity(a.max(b)));
        }
    }
}
