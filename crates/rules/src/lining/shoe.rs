//! Span, pin hole and roller recess of a shoe, by how its roller end is made.
//!
//! Two sources measure two spans from different points on different shoes: they are never merged.
//! Where the kind isn't known there is advice, no verdict.

use crate::quantity::{Length, Quantity};
use crate::rules::{Figure, Rule};
use crate::source::{self, Source};
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Verdict};
use crate::word::{self, Remark};

/// What the list of rules says of the span.
pub const SPAN: Rule = Rule {
    id: RuleId("lining.span"),
    title: word::RULE_LINING_SPAN,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_LINING_SPAN,
    figures: &[
        Figure {
            name: RECESS_LEAST,
            limit: Limit::at_least(inch_64ths(12 * 64 + 20), &source::SHOE_RECESS),
        },
        Figure {
            name: RECESS_MOST,
            limit: Limit::at_most(inch_64ths(12 * 64 + 36), &source::SHOE_RECESS),
        },
        Figure {
            name: HOLE_MOST,
            limit: Limit::at_most(inch_64ths(12 * 64 + 56), &source::SHOE_HOLE),
        },
    ],
    sources: &[&source::SHOE_RECESS, &source::SHOE_HOLE],
};

/// What the list of rules says of the roller recess.
pub const RECESS: Rule = Rule {
    id: RuleId("lining.recess"),
    title: word::RULE_LINING_RECESS,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_LINING_RECESS,
    figures: &[Figure {
        name: "roller recess, out at",
        limit: Limit::at_most(inch_64ths(56), &source::SHOE_RECESS),
    }],
    sources: &[&source::SHOE_RECESS],
};

/// What the list of rules says of the anchor pin's hole.
pub const HOLE: Rule = Rule {
    id: RuleId("lining.hole"),
    title: word::RULE_LINING_HOLE,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_LINING_HOLE,
    figures: &[Figure {
        name: "anchor pin hole",
        limit: Limit::at_most(
            Quantity::Length(Length::from_inch_thousandths(1_030)),
            &source::SHOE_HOLE,
        ),
    }],
    sources: &[&source::SHOE_HOLE],
};

const RECESS_LEAST: &str = "anchor pin to roller recess, least";
const RECESS_MOST: &str = "anchor pin to roller recess, most";
const HOLE_MOST: &str = "anchor hole to roller hole, most";

const fn inch_64ths(n: i64) -> Quantity {
    Quantity::Length(Length::from_inch_64ths(n))
}

/// How the roller end of a shoe is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum RollerEnd {
    /// An open recess that the roller lies in.
    Recess,
    /// A hole that the roller's pin goes through.
    Hole,
    /// Not known.
    Unknown,
}

/// Judges the span of a shoe, measured the way that its roller end asks for.
///
/// Units: any length; compared exactly. Room is the distance to the nearer end of the window.
/// Errors: none. An unknown roller end gives advice: no reading.
/// Source: [`source::SHOE_RECESS`], [`source::SHOE_HOLE`].
pub fn judge_span(span: Length, roller: RollerEnd) -> Judgement {
    judge_span_by(SPAN.figures, span, roller)
}

/// Judges the roller recess of a shoe. It is out as soon as a gauge of the printed size goes in.
///
/// Units: any length. Room is limit minus width. Errors: none; a shoe without a recess gives advice.
/// Source: [`source::SHOE_RECESS`].
pub fn judge_recess(width: Length, roller: RollerEnd) -> Judgement {
    judge_recess_by(RECESS.figures, width, roller)
}

/// Judges the anchor pin's hole of a shoe.
///
/// Units: any length. Room is limit minus width. Errors: none; a shoe of the other kind gives advice.
/// Source: [`source::SHOE_HOLE`].
pub fn judge_hole(width: Length, roller: RollerEnd) -> Judgement {
    judge_hole_by(HOLE.figures, width, roller)
}

fn judge_span_by(figures: &[Figure], span: Length, roller: RollerEnd) -> Judgement {
    let own: &[&str] = match roller {
        RollerEnd::Recess => &[RECESS_LEAST, RECESS_MOST],
        RollerEnd::Hole => &[HOLE_MOST],
        RollerEnd::Unknown => &[],
    };
    let (own, others): (Vec<&Figure>, Vec<&Figure>) = figures
        .iter()
        .partition(|figure| own.contains(&figure.name));
    held(&SPAN, span, &own, &others)
}

fn judge_recess_by(figures: &[Figure], width: Length, roller: RollerEnd) -> Judgement {
    let (own, others): (Vec<&Figure>, Vec<&Figure>) =
        figures.iter().partition(|_| roller == RollerEnd::Recess);
    let mut judged = held(&RECESS, width, &own, &others);
    if judged.verdict == Verdict::AtTheLimit {
        judged.verdict = Verdict::Beyond;
        judged = judged.remarking(Remark::plain(word::LINING_REMARK_GAUGE_GOES_IN));
    }
    judged
}

fn judge_hole_by(figures: &[Figure], width: Length, roller: RollerEnd) -> Judgement {
    let (own, others): (Vec<&Figure>, Vec<&Figure>) =
        figures.iter().partition(|_| roller == RollerEnd::Hole);
    held(&HOLE, width, &own, &others)
}

fn held(rule: &Rule, reading: Length, own: &[&Figure], others: &[&Figure]) -> Judgement {
    let limits: Vec<Limit> = own.iter().map(|figure| figure.limit).collect();
    let source: &'static Source = rule
        .sources
        .first()
        .copied()
        .unwrap_or(&source::COMMON_PRACTICE);
    let mut judged = Judgement::of(rule.id, reading.into(), &limits, source);
    for other in others {
        judged = judged.other_says(other.limit);
    }
    if limits.is_empty() {
        judged = judged.remarking(Remark::plain(word::LINING_REMARK_OTHER_SHOES));
    }
    judged
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases, told};
    use crate::nudge::Outcome;

    fn given(row: &Row<'_>) -> (Length, RollerEnd) {
        let roller = match row.text("roller end") {
            "recess" => RollerEnd::Recess,
            "hole" => RollerEnd::Hole,
            _ => RollerEnd::Unknown,
        };
        let reading = row.quantity("reading").and_then(Quantity::length);
        (reading.unwrap(), roller)
    }

    fn outcomes(what: &str, judge: impl Fn(Length, RollerEnd) -> Judgement) -> Vec<Outcome> {
        cases(include_str!("shoe.tsv"))
            .into_iter()
            .filter(|row| row.text("what") == what)
            .map(|row| {
                let (reading, roller) = given(&row);
                (
                    format!("{row}{}", told(&judge(reading, roller))),
                    row.told(),
                )
            })
            .collect()
    }

    pub(crate) fn span(figures: &[Figure]) -> Vec<Outcome> {
        outcomes("span", |span, roller| judge_span_by(figures, span, roller))
    }

    pub(crate) fn recess(figures: &[Figure]) -> Vec<Outcome> {
        outcomes("recess", |width, roller| {
            judge_recess_by(figures, width, roller)
        })
    }

    pub(crate) fn hole(figures: &[Figure]) -> Vec<Outcome> {
        outcomes("hole", |width, roller| {
            judge_hole_by(figures, width, roller)
        })
    }

    #[test]
    fn table() {
        for (what, judge) in [
            ("span", judge_span as fn(Length, RollerEnd) -> Judgement),
            ("recess", judge_recess),
            ("hole", judge_hole),
        ] {
            for (got, expected) in outcomes(what, judge) {
                assert_eq!(got, expected);
            }
        }
    }

    proptest! {
        #[test]
        fn a_wider_shoe_is_never_kinder(a in 0_i64..2_000, b in 0_i64..2_000, kind in 0..3_usize) {
            let kind = [RollerEnd::Recess, RollerEnd::Hole, RollerEnd::Unknown][kind];
            let (near, far) = (a.min(b), a.max(b));
            let at = |n| Length::from_inch_thousandths(n);
            // The window of the span lies around 12 7/16 in: from there it only gets worse.
            let span = |n| judge_span(at(12_438 + n), kind).verdict.severity();
            let short = |n| judge_span(at(12_438 - n), kind).verdict.severity();
            let recess = |n| judge_recess(at(n), kind).verdict.severity();
            let hole = |n| judge_hole(at(n), kind).verdict.severity();
            prop_assert!(span(near) <= span(far) && short(near) <= short(far));
            prop_assert!(recess(near) <= recess(far) && hole(near) <= hole(far));
        }
    }
}
