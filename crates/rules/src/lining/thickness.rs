//! How thin a lining may be, by axle, shoe and jurisdiction.
//!
//! On the road a steer axle with one strip may go thinner than a periodic inspection lets it: both
//! are held, and the stricter decides. Quebec has figures of its own, each with an "or" that its
//! text doesn't resolve: that is said, and the stricter reading counts.

use crate::axle::alike::Axle;
use crate::jurisdiction::Jurisdiction;
use crate::own::OwnLimit;
use crate::quantity::{Length, Quantity};
use crate::rules::{self, Figure, Rule};
use crate::source::{self, Source};
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Side, Verdict};
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("lining.thickness"),
    title: word::RULE_LINING_THICKNESS,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_LINING_THICKNESS,
    figures: FIGURES,
    sources: &[
        &source::LINING_LAW,
        &source::LINING_PERIODIC,
        &source::LINING_QUEBEC,
        &source::LINING_RELINE,
    ],
};

const STEER_STRIP: &str = "steer, one strip";
const STEER_PADS: &str = "steer, two pads";
const OTHER: &str = "other axles";
const PERIODIC_STEER: &str = "steer, periodic";
const PERIODIC_OTHER: &str = "other axles, periodic";
const QUEBEC_BONDED: &str = "Quebec, bonded";
const QUEBEC_RIVETED_STEER: &str = "Quebec, riveted, steer";
const QUEBEC_RIVETED: &str = "Quebec, riveted, other axles";
const QUEBEC_BOLTED: &str = "Quebec, bolted";
const RELINE: &str = "reline at";

const FIGURES: &[Figure] = &[
    us(STEER_STRIP, 480, 12, &source::LINING_LAW),
    us(STEER_PADS, 640, 16, &source::LINING_LAW),
    us(OTHER, 640, 16, &source::LINING_LAW),
    us(PERIODIC_STEER, 640, 16, &source::LINING_PERIODIC),
    us(PERIODIC_OTHER, 640, 16, &source::LINING_PERIODIC),
    quebec(QUEBEC_BONDED, 500),
    quebec(QUEBEC_RIVETED_STEER, 480),
    quebec(QUEBEC_RIVETED, 800),
    quebec(QUEBEC_BOLTED, 800),
    Figure {
        name: RELINE,
        limit: Limit::at_least(
            Quantity::Length(Length::from_inch_64ths(20)),
            &source::LINING_RELINE,
        ),
    },
];

const fn millimetres(hundredths: i64) -> Quantity {
    Quantity::Length(Length::from_mm_hundredths(hundredths))
}

/// Printed in millimetres, with the inches beside them.
const fn us(
    name: &'static str,
    mm_hundredths: i64,
    inch_64ths: i64,
    source: &'static Source,
) -> Figure {
    let inches = Quantity::Length(Length::from_inch_64ths(inch_64ths));
    Figure {
        name,
        limit: Limit::at_least(millimetres(mm_hundredths), source).printed_beside(inches),
    }
}

const fn quebec(name: &'static str, mm_hundredths: i64) -> Figure {
    Figure {
        name,
        limit: Limit::at_least(millimetres(mm_hundredths), &source::LINING_QUEBEC),
    }
}

/// How the lining lies on its shoe.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Shoe {
    /// One strip over the whole shoe.
    Strip,
    /// Two blocks with a gap between them.
    TwoPads,
    /// Not known.
    Unknown,
}

/// What holds the lining on its shoe.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Fixing {
    /// Rivets.
    Riveted,
    /// Bolts.
    Bolted,
    /// Glue.
    Bonded,
    /// Not known.
    Unknown,
}

/// Where the lining was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum MeasuredAt {
    /// At the middle of the shoe, as the law of the United States wants it.
    Middle,
    /// At the thinnest point, bevels left out, as Quebec wants it.
    Thinnest,
}

/// The mark that some linings carry for when they are worn out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Indicator {
    /// None, or not worn down to it.
    NotReached,
    /// Worn down to it.
    Reached,
}

/// What decides the limit of a lining.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LiningFacts {
    /// Where the axle stands.
    pub axle: Axle,
    /// How the lining lies.
    pub shoe: Shoe,
    /// What holds it.
    pub fixing: Fixing,
    /// Where it was measured.
    pub at: MeasuredAt,
    /// Its wear mark.
    pub indicator: Indicator,
    /// Whose rules apply.
    pub jurisdiction: Jurisdiction,
    /// A limit of the shop sheet, when it has one: the place for a province's own figure.
    pub shop: Option<OwnLimit>,
}

/// Judges a lining thickness against every limit that applies to it; the strictest decides.
///
/// Measured elsewhere than the rule says, a reading is taken by its direction: the thinnest point is
/// never thicker than the middle.
///
/// Units: any length; compared exactly. Room is thickness minus limit.
/// Errors: none. Where Quebec's figure hangs on a fixing that isn't known there is no reading.
/// Source: [`source::LINING_LAW`], [`source::LINING_PERIODIC`], [`source::LINING_QUEBEC`].
pub fn judge_thickness(thickness: Length, facts: &LiningFacts) -> Judgement {
    judge_thickness_by(FIGURES, thickness, facts)
}

fn judge_thickness_by(figures: &[Figure], thickness: Length, facts: &LiningFacts) -> Judgement {
    let in_quebec = facts.jurisdiction == Jurisdiction::Quebec;
    let own = if in_quebec {
        of_quebec(facts)
    } else {
        of_us(facts)
    };
    let named = |name: &&str| rules::named(figures, name);
    let mut limits: Vec<Limit> = own.iter().filter_map(named).collect();
    let shop = facts.shop.as_ref();
    let shop = shop.filter(|own| own.side == Side::AtLeast);
    limits.extend(shop.map(OwnLimit::limit));
    let fallback = if in_quebec {
        &source::LINING_QUEBEC
    } else {
        &source::LINING_LAW
    };
    let mut judged = Judgement::of(RULE.id, thickness.into(), &limits, fallback);
    let beside = if in_quebec { of_us(facts) } else { &[] };
    for limit in beside.iter().filter_map(named) {
        judged = judged.other_says(limit);
    }
    if in_quebec && limits.is_empty() {
        for limit in QUEBEC_ALL.iter().filter_map(named) {
            judged = judged.other_says(limit);
        }
    }
    let mut reline_soon = false;
    if let Some(reline) = rules::named(figures, RELINE) {
        reline_soon = reline.judge(thickness.into()) != Some(Verdict::Within);
        judged = judged.other_says(reline);
    }
    judged = taken_at(judged, facts);
    if facts.indicator == Indicator::Reached {
        judged = judged.remarking(Remark::plain(word::LINING_REMARK_INDICATOR));
        judged.verdict = Verdict::Beyond;
    }
    let fine = matches!(judged.verdict, Verdict::Within | Verdict::AtTheLimit);
    let said = [
        (fine && reline_soon, word::LINING_REMARK_RELINE_SOON),
        (
            !in_quebec && facts.axle == Axle::PowerUnitSteer && facts.shoe == Shoe::Unknown,
            word::LINING_REMARK_SHOE_UNKNOWN,
        ),
        (
            facts.jurisdiction.borrows_us_figures() && !shop.is_some_and(|own| own.of_law),
            word::LINING_REMARK_US_FIGURE,
        ),
        (
            in_quebec && matches!(facts.fixing, Fixing::Riveted | Fixing::Bolted),
            word::LINING_REMARK_QUEBEC_OR,
        ),
        (
            in_quebec && facts.fixing == Fixing::Unknown,
            word::LINING_REMARK_FIXING_UNKNOWN,
        ),
    ];
    let said = said.into_iter().filter(|(applies, _)| *applies);
    judged
        .remarks
        .extend(said.map(|(_, word)| Remark::plain(word)));
    judged.remarks.extend(shop.map(OwnLimit::remark));
    judged
}

/// The judgement of a thickness that was measured where its rule doesn't measure.
fn taken_at(judged: Judgement, facts: &LiningFacts) -> Judgement {
    let in_quebec = facts.jurisdiction == Jurisdiction::Quebec;
    let (word, stands) = match (in_quebec, facts.at) {
        (true, MeasuredAt::Middle) => (
            word::LINING_REMARK_THINNEST_WANTED,
            judged.verdict == Verdict::Beyond,
        ),
        (false, MeasuredAt::Thinnest) => (
            word::LINING_REMARK_MIDDLE_WANTED,
            judged.verdict != Verdict::Beyond,
        ),
        (true, MeasuredAt::Thinnest) | (false, MeasuredAt::Middle) => return judged,
    };
    if stands {
        judged
    } else {
        judged.proving_nothing().remarking(Remark::plain(word))
    }
}

/// The strip's figure counts only where it is known to be one: an unknown shoe counts as two pads.
const fn of_us(facts: &LiningFacts) -> &'static [&'static str] {
    match (facts.axle, facts.shoe) {
        (Axle::PowerUnitSteer, Shoe::Strip) => &[STEER_STRIP, PERIODIC_STEER],
        (Axle::PowerUnitSteer, Shoe::TwoPads | Shoe::Unknown) => &[STEER_PADS, PERIODIC_STEER],
        (Axle::Other, _) => &[OTHER, PERIODIC_OTHER],
    }
}

const QUEBEC_ALL: &[&str] = &[
    QUEBEC_BONDED,
    QUEBEC_RIVETED_STEER,
    QUEBEC_RIVETED,
    QUEBEC_BOLTED,
];

const fn of_quebec(facts: &LiningFacts) -> &'static [&'static str] {
    match (facts.fixing, facts.axle) {
        (Fixing::Bonded, _) => &[QUEBEC_BONDED],
        (Fixing::Riveted, Axle::PowerUnitSteer) => &[QUEBEC_RIVETED_STEER],
        (Fixing::Riveted, Axle::Other) => &[QUEBEC_RIVETED],
        (Fixing::Bolted, _) => &[QUEBEC_BOLTED],
        (Fixing::Unknown, _) => &[],
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases, told};
    use crate::nudge::Outcome;

    const SHOES: [Shoe; 3] = [Shoe::Strip, Shoe::TwoPads, Shoe::Unknown];
    const FIXINGS: [Fixing; 4] = [
        Fixing::Riveted,
        Fixing::Bolted,
        Fixing::Bonded,
        Fixing::Unknown,
    ];

    fn facts(row: &Row<'_>) -> LiningFacts {
        LiningFacts {
            axle: match row.text("axle") {
                "steer" => Axle::PowerUnitSteer,
                _ => Axle::Other,
            },
            shoe: match row.text("shoe") {
                "strip" => Shoe::Strip,
                "two pads" => Shoe::TwoPads,
                _ => Shoe::Unknown,
            },
            fixing: match row.text("fixing") {
                "riveted" => Fixing::Riveted,
                "bolted" => Fixing::Bolted,
                "bonded" => Fixing::Bonded,
                _ => Fixing::Unknown,
            },
            at: match row.text("at") {
                "thinnest" => MeasuredAt::Thinnest,
                _ => MeasuredAt::Middle,
            },
            indicator: match row.text("indicator") {
                "reached" => Indicator::Reached,
                _ => Indicator::NotReached,
            },
            jurisdiction: Jurisdiction::from_code(row.text("where")).unwrap(),
            shop: row
                .quantity("shop")
                .and_then(Quantity::length)
                .map(|figure| OwnLimit {
                    side: Side::AtLeast,
                    figure,
                    of_law: true,
                    from: "province's list".to_owned(),
                }),
        }
    }

    fn thickness(row: &Row<'_>) -> Length {
        row.quantity("lining").and_then(Quantity::length).unwrap()
    }

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let outcome = |row: Row<'_>| {
            let judged = judge_thickness_by(figures, thickness(&row), &facts(&row));
            (format!("{row}{}", told(&judged)), row.told())
        };
        cases(include_str!("thickness.tsv"))
            .into_iter()
            .map(outcome)
            .collect()
    }

    #[test]
    fn table() {
        for row in cases(include_str!("thickness.tsv")) {
            let judged = judge_thickness(thickness(&row), &facts(&row));
            assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
        }
    }

    #[test]
    fn a_makers_figure_is_not_the_provinces() {
        let said = |of_law| {
            let facts = LiningFacts {
                axle: Axle::Other,
                shoe: Shoe::Strip,
                fixing: Fixing::Riveted,
                at: MeasuredAt::Middle,
                indicator: Indicator::NotReached,
                jurisdiction: Jurisdiction::Canada,
                shop: Some(OwnLimit {
                    side: Side::AtLeast,
                    figure: Length::from_mm_hundredths(700),
                    of_law,
                    from: "brake maker's sheet".to_owned(),
                }),
            };
            let judged = judge_thickness(Length::from_mm_hundredths(690), &facts);
            assert_eq!(judged.verdict, Verdict::Beyond);
            let borrowed = |said: &Remark| said.word == word::LINING_REMARK_US_FIGURE;
            judged.remarks.iter().any(borrowed)
        };
        assert!(said(false));
        assert!(!said(true));
    }

    proptest! {
        #[test]
        fn a_thinner_lining_is_never_kinder(a in 0_i64..1_200, b in 0_i64..1_200, shoe in 0..3_usize, fixing in 0..4_usize, place in 0..4_usize, steer: bool, thinnest: bool) {
            let facts = LiningFacts {
                axle: if steer { Axle::PowerUnitSteer } else { Axle::Other },
                shoe: SHOES[shoe],
                fixing: FIXINGS[fixing],
                at: if thinnest { MeasuredAt::Thinnest } else { MeasuredAt::Middle },
                indicator: Indicator::NotReached,
                jurisdiction: Jurisdiction::ALL[place],
                shop: None,
            };
            let severity = |n| judge_thickness(Length::from_mm_hundredths(n), &facts).verdict.severity();
            prop_assert!(severity(a.max(b)) <= severity(a.min(b)));
        }
    }
}
