//! How far the studs stand out for the wheels that go on them, and the hub's pilot for its duals.
//!
//! Most figures are an aluminium wheel maker's and hold for its wheels alone: a steel disc is
//! thinner, and no figure is printed for it.

use crate::quantity::{Length, Quantity};
use crate::rules::{Figure, Rule};
use crate::source::{self, Source};
use crate::stud::wheel::Metal;
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Side, Verdict};
use crate::window::{self, Applies};
use crate::word::{self, Remark};

/// What the list of rules says of studs.
pub const STUDS: Rule = Rule {
    id: RuleId("stud.stand-out"),
    title: word::RULE_STUD_STAND_OUT,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_STUD_STAND_OUT,
    figures: &[
        least("pilot-single least", 2_000, None, &source::STAND_OUT_PILOT),
        least("pilot-any least", 1_900, None, &source::STAND_OUT_ANY_METAL),
        least(
            "pilot-dual least",
            2_810,
            Some(7_140),
            &source::STAND_OUT_PILOT,
        ),
        least(
            "pilot-wide least",
            2_320,
            Some(5_900),
            &source::STAND_OUT_PILOT,
        ),
        least(
            "ball-single least",
            1_800,
            Some(4_570),
            &source::STAND_OUT_BALL,
        ),
        least("ball-dual least", 1_310, None, &source::STAND_OUT_BALL_DUAL),
        most("ball-dual most", 1_440, &source::STAND_OUT_BALL_DUAL),
        least(
            "ball-dual-wider least",
            1_300,
            None,
            &source::STAND_OUT_ANY_METAL,
        ),
        most("ball-dual-wider most", 1_440, &source::STAND_OUT_ANY_METAL),
    ],
    sources: &[
        &source::STAND_OUT_PILOT,
        &source::STAND_OUT_BALL,
        &source::STAND_OUT_BALL_DUAL,
        &source::STAND_OUT_ANY_METAL,
    ],
};

/// What the list of rules says of pilots.
pub const PILOT: Rule = Rule {
    id: RuleId("stud.pilot"),
    title: word::RULE_STUD_PILOT,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_STUD_PILOT,
    figures: &[least(
        "pilot least",
        1_060,
        Some(2_700),
        &source::PILOT_LENGTH,
    )],
    sources: &[&source::PILOT_LENGTH],
};

const fn least(
    name: &'static str,
    inch_thousandths: i64,
    mm_hundredths: Option<i64>,
    source: &'static Source,
) -> Figure {
    let limit = Limit::at_least(thousandths(inch_thousandths), source);
    let limit = match mm_hundredths {
        Some(beside) => limit.printed_beside(Quantity::Length(Length::from_mm_hundredths(beside))),
        None => limit,
    };
    Figure { name, limit }
}

const fn most(name: &'static str, inch_thousandths: i64, source: &'static Source) -> Figure {
    Figure {
        name,
        limit: Limit::at_most(thousandths(inch_thousandths), source),
    }
}

const fn thousandths(n: i64) -> Quantity {
    Quantity::Length(Length::from_inch_thousandths(n))
}

/// What goes on the studs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Fit {
    /// One wheel on the hub's pilots.
    PilotSingle,
    /// One wide wheel on the hub's pilots.
    PilotWide,
    /// Two wheels on the hub's pilots.
    PilotDual,
    /// One wheel on ball seats.
    BallSingle,
    /// Two wheels on ball seats.
    BallDual,
}

impl Fit {
    /// Every fit.
    pub const ALL: &[Self] = &[
        Self::PilotSingle,
        Self::PilotWide,
        Self::PilotDual,
        Self::BallSingle,
        Self::BallDual,
    ];

    /// The stable name under which it is listed.
    pub const fn code(self) -> &'static str {
        match self {
            Self::PilotSingle => "pilot-single",
            Self::PilotWide => "pilot-wide",
            Self::PilotDual => "pilot-dual",
            Self::BallSingle => "ball-single",
            Self::BallDual => "ball-dual",
        }
    }

    /// The fit of a listed name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }

    /// The windows that are about this fit at all.
    const fn about(self) -> &'static [&'static str] {
        match self {
            Self::PilotSingle => &["pilot-single", "pilot-any"],
            Self::PilotWide => &["pilot-wide"],
            Self::PilotDual => &["pilot-dual"],
            Self::BallSingle => &["ball-single"],
            Self::BallDual => &["ball-dual", "ball-dual-wider"],
        }
    }

    /// Those of them that hold for wheels of this metal.
    const fn holds(self, metal: Metal) -> &'static [&'static str] {
        match (self, metal) {
            (_, Metal::Aluminium) | (Self::BallDual, _) => self.about(),
            (Self::PilotSingle, Metal::Steel | Metal::Unknown) => &["pilot-any"],
            (_, Metal::Steel | Metal::Unknown) => &[],
        }
    }
}

/// Judges how far the studs stand out, before the wheels go on.
///
/// Units: any length, from the face that the wheel goes against. Room is the distance to the
/// nearer end of the window. Errors: none. A steel wheel, or a metal that nobody knows, gives
/// advice where only an aluminium wheel maker prints a figure.
/// Source: by fit and metal, see [`STUDS`].
pub fn judge_stand_out(stand_out: Length, fit: Fit, metal: Metal) -> Judgement {
    judge_stand_out_by(STUDS.figures, stand_out, fit, metal)
}

fn judge_stand_out_by(figures: &[Figure], stand_out: Length, fit: Fit, metal: Metal) -> Judgement {
    let about: Vec<Figure> = figures
        .iter()
        .filter(|figure| fit.about().contains(&window::of(figure.name)))
        .copied()
        .collect();
    let applies = Applies::These(fit.holds(metal));
    let judged = window::judge(&STUDS, &about, stand_out.into(), applies);
    let side = judged.limits.first().map(|limit| limit.side);
    match (judged.verdict, side) {
        (Verdict::Beyond, Some(Side::AtMost)) => {
            judged.remarking(Remark::plain(word::STUD_REMARK_LONG))
        }
        (Verdict::Beyond, _) => judged.remarking(Remark::plain(word::STUD_REMARK_SHORT)),
        _ => judged,
    }
}

/// Judges how far the hub's pilot reaches, for two wheels on it.
///
/// Units: any length. Room is length minus least. Errors: none. It is printed for aluminium; other
/// wheels give advice. Source: [`source::PILOT_LENGTH`].
pub fn judge_pilot(length: Length, metal: Metal) -> Judgement {
    judge_pilot_by(PILOT.figures, length, metal)
}

fn judge_pilot_by(figures: &[Figure], length: Length, metal: Metal) -> Judgement {
    let applies: &[&str] = match metal {
        Metal::Aluminium => &["pilot"],
        Metal::Steel | Metal::Unknown => &[],
    };
    let judged = window::judge(&PILOT, figures, length.into(), Applies::These(applies));
    if judged.verdict == Verdict::Beyond {
        judged.remarking(Remark::plain(word::STUD_REMARK_PILOT))
    } else {
        judged
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases};
    use crate::nudge::Outcome;
    use crate::window::told;

    fn outcomes(pilot: bool, judge: impl Fn(Length, &Row<'_>) -> Judgement) -> Vec<Outcome> {
        cases(include_str!("stand_out.tsv"))
            .into_iter()
            .filter(|row| (row.text("fit") == "pilot") == pilot)
            .map(|row| {
                let reading = row.quantity("reading").unwrap().length().unwrap();
                let judged = judge(reading, &row);
                // Which of two limits decides is told by what the looser one says.
                let counted: Vec<&str> = judged
                    .limits
                    .iter()
                    .filter_map(|limit| limit.judge(reading.into()))
                    .map(|verdict| &verdict.code()[..1])
                    .collect();
                let got = format!("{} {}", counted.concat(), told(&judged));
                let expected = ["counted", "verdict", "others", "says"].map(|name| row.text(name));
                let expected = expected.map(|text| if text == "none" { "" } else { text });
                (
                    format!("{row}: {got}"),
                    format!("{row}: {}", expected.join(" ")),
                )
            })
            .collect()
    }

    fn metal(row: &Row<'_>) -> Metal {
        Metal::from_code(row.text("metal")).unwrap()
    }

    fn fit(row: &Row<'_>) -> Fit {
        Fit::from_code(row.text("fit")).unwrap()
    }

    pub(crate) fn studs(figures: &[Figure]) -> Vec<Outcome> {
        outcomes(false, |reading, row| {
            judge_stand_out_by(figures, reading, fit(row), metal(row))
        })
    }

    pub(crate) fn pilot(figures: &[Figure]) -> Vec<Outcome> {
        outcomes(true, |reading, row| {
            judge_pilot_by(figures, reading, metal(row))
        })
    }

    #[test]
    fn table() {
        let studs = outcomes(false, |reading, row| {
            judge_stand_out(reading, fit(row), metal(row))
        });
        let pilot = outcomes(true, |reading, row| judge_pilot(reading, metal(row)));
        for (got, expected) in studs.into_iter().chain(pilot) {
            assert_eq!(got, expected);
        }
    }

    proptest! {
        #[test]
        fn shorter_is_never_kinder(a in 0_i64..4_000, b in 0_i64..4_000, of in 0..Fit::ALL.len(), metal in 0..Metal::ALL.len()) {
            let (fit, metal) = (Fit::ALL[of], Metal::ALL[metal]);
            let severity = |n| {
                let length = Length::from_inch_thousandths(n);
                judge_stand_out(length, fit, metal).verdict.severity()
            };
            let (short, long) = (a.min(b), a.max(b));
            // Only a dual on ball seats has a most, and 1.4 in lies in its window.
            let has_most = fit == Fit::BallDual;
            prop_assert!((has_most && long > 1_400) || severity(long) <= severity(short));
            prop_assert!(!has_most || short < 1_400 || severity(short) <= severity(long));
            let pilot = |n| judge_pilot(Length::from_inch_thousandths(n), metal).verdict.severity();
            prop_assert!(pilot(long) <= pilot(short));
        }
    }
}
