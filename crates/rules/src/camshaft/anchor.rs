//! How deep an anchor pin is grooved, and how wide the bore of an anchor is.
//!
//! No figure is printed for the bore of a spider: one whose bores have grown is named by eye. What
//! is printed for the hole of a shoe stands beside and is never counted.

use crate::camshaft::brake::Brake;
use crate::quantity::{Length, Quantity};
use crate::rules::{Figure, Rule};
use crate::source;
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Verdict};
use crate::window::{self, Applies};
use crate::word::{self, Remark};

/// What the list of rules says of a pin's groove.
pub const GROOVE: Rule = Rule {
    id: RuleId("camshaft.anchor-pin"),
    title: word::RULE_CAMSHAFT_ANCHOR_PIN,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_CAMSHAFT_ANCHOR_PIN,
    figures: &[
        Figure {
            name: "army most",
            limit: Limit::at_most(thousandths(30), &source::ANCHOR_PIN_ARMY)
                .printed_beside(micrometres(800)),
        },
        Figure {
            name: "crane-carrier most",
            limit: Limit::at_most(thousandths(31), &source::ANCHOR_PIN_CRANE)
                .printed_beside(micrometres(787)),
        },
    ],
    sources: &[&source::ANCHOR_PIN_ARMY, &source::ANCHOR_PIN_CRANE],
};

/// What the list of rules says of a bore.
pub const BORE: Rule = Rule {
    id: RuleId("camshaft.anchor-bore"),
    title: word::RULE_CAMSHAFT_ANCHOR_BORE,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_CAMSHAFT_ANCHOR_BORE,
    figures: &[Figure {
        name: "shoe hole most",
        limit: Limit::at_most(thousandths(1_030), &source::SHOE_ANCHOR_HOLE),
    }],
    sources: &[&source::SPIDER_WORN, &source::SHOE_ANCHOR_HOLE],
};

const fn thousandths(n: i64) -> Quantity {
    Quantity::Length(Length::from_inch_thousandths(n))
}

const fn micrometres(n: i64) -> Quantity {
    Quantity::Length(Length::from_mm_thousandths(n))
}

/// Judges the groove that a shoe wore into its anchor pin.
///
/// Units: any length, below the surface. Room is limit minus depth. Errors: none. An unknown kind
/// of brake gives advice, unless the groove is beyond every limit.
/// Source: by kind of brake, see [`GROOVE`].
pub fn judge_groove(depth: Length, brake: Brake) -> Judgement {
    judge_groove_by(GROOVE.figures, depth, brake)
}

/// Says what is known of the bore of a spider's anchor.
///
/// Units: any length. No verdict: no figure is printed. Errors: none.
/// Source: [`source::SPIDER_WORN`]; beside it [`source::SHOE_ANCHOR_HOLE`].
pub fn judge_bore(bore: Length) -> Judgement {
    judge_bore_by(BORE.figures, bore)
}

fn judge_groove_by(figures: &[Figure], depth: Length, brake: Brake) -> Judgement {
    let applies = match brake {
        Brake::FifteenByFour | Brake::SpiderTwenty => Applies::These(&["army"]),
        Brake::CraneCarrier => Applies::These(&["crane-carrier"]),
        Brake::SpiderThirty | Brake::TrailerTube | Brake::Unknown => Applies::Any,
    };
    let judged = window::judge(&GROOVE, figures, depth.into(), applies);
    if judged.verdict == Verdict::Beyond {
        judged.remarking(Remark::plain(word::CAMSHAFT_REMARK_PIN))
    } else {
        judged
    }
}

fn judge_bore_by(figures: &[Figure], bore: Length) -> Judgement {
    window::judge(&BORE, figures, bore.into(), Applies::These(&[]))
        .remarking(Remark::plain(word::CAMSHAFT_REMARK_BORE))
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases};
    use crate::nudge::Outcome;
    use crate::window::outcome;

    fn outcomes(what: &str, judge: impl Fn(Length, &Row<'_>) -> Judgement) -> Vec<Outcome> {
        cases(include_str!("anchor.tsv"))
            .into_iter()
            .filter(|row| row.text("what") == what)
            .map(|row| {
                let reading = row.quantity("reading").unwrap().length().unwrap();
                outcome(&row, &judge(reading, &row))
            })
            .collect()
    }

    fn brake(row: &Row<'_>) -> Brake {
        Brake::from_code(row.text("brake")).unwrap()
    }

    pub(crate) fn groove(figures: &[Figure]) -> Vec<Outcome> {
        outcomes("groove", |depth, row| {
            judge_groove_by(figures, depth, brake(row))
        })
    }

    pub(crate) fn bore(figures: &[Figure]) -> Vec<Outcome> {
        outcomes("bore", |bore, _| judge_bore_by(figures, bore))
    }

    #[test]
    fn table() {
        let groove = outcomes("groove", |depth, row| judge_groove(depth, brake(row)));
        for (got, expected) in groove
            .into_iter()
            .chain(outcomes("bore", |bore, _| judge_bore(bore)))
        {
            assert_eq!(got, expected);
        }
        let bore = judge_bore(Length::from_inch_thousandths(1_200));
        assert_eq!(
            bore.remarks.last(),
            Some(&Remark::plain(word::CAMSHAFT_REMARK_BORE))
        );
        assert_eq!(bore.source, &source::SPIDER_WORN);
    }

    proptest! {
        #[test]
        fn a_deeper_groove_is_never_kinder(a in 0_i64..200, b in 0_i64..200, of in 0..Brake::ALL.len()) {
            let severity = |n| {
                let depth = Length::from_mm_hundredths(n);
                judge_groove(depth, Brake::ALL[of]).verdict.severity()
            };
            prop_assert!(severity(a.min(b)) <= severity(a.max(b)));
        }
    }
}
