//! How far a camshaft may be moved in its bushings: up and down, and end to end.

use crate::camshaft::brake::Brake;
use crate::quantity::{Length, Quantity};
use crate::rules::{Figure, Rule};
use crate::source::{self, Source};
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Side, Verdict};
use crate::window::{self, Applies};
use crate::word::{self, Remark};

/// What the list of rules says of play up and down.
pub const RADIAL: Rule = Rule {
    id: RuleId("camshaft.radial"),
    title: word::RULE_CAMSHAFT_RADIAL,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_CAMSHAFT_RADIAL,
    figures: &[
        Figure {
            name: "spider-20 most",
            limit: Limit::at_most(thousandths(20), &source::CAM_PLAY_TWENTY),
        },
        most("army most", 20, 51, &source::CAM_PLAY_ARMY),
        Figure {
            name: "spider-30 most",
            limit: Limit::at_most(thousandths(30), &source::CAM_PLAY_THIRTY),
        },
        most("crane-carrier most", 35, 90, &source::CAM_PLAY_CRANE),
    ],
    sources: &[
        &source::CAM_PLAY_TWENTY,
        &source::CAM_PLAY_ARMY,
        &source::CAM_PLAY_THIRTY,
        &source::CAM_PLAY_CRANE,
    ],
};

/// What the list of rules says of play end to end.
pub const END: Rule = Rule {
    id: RuleId("camshaft.end-play"),
    title: word::RULE_CAMSHAFT_END_PLAY,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_CAMSHAFT_END_PLAY,
    figures: &[
        Figure {
            name: "fifteen-by-four least",
            limit: Limit::at_least(thousandths(5), &source::CAM_END_FIFTEEN)
                .printed_beside(hundredths(13)),
        },
        most("fifteen-by-four most", 45, 114, &source::CAM_END_FIFTEEN),
        most("spider most", 62, 159, &source::CAM_END_SPIDER),
        Figure {
            name: "trailer-tube under",
            limit: Limit::at_most(thousandths(60), &source::CAM_END_TRAILER),
        },
    ],
    sources: &[
        &source::CAM_END_FIFTEEN,
        &source::CAM_END_SPIDER,
        &source::CAM_END_TRAILER,
    ],
};

const fn thousandths(n: i64) -> Quantity {
    Quantity::Length(Length::from_inch_thousandths(n))
}

const fn hundredths(n: i64) -> Quantity {
    Quantity::Length(Length::from_mm_hundredths(n))
}

const fn most(
    name: &'static str,
    inch_thousandths: i64,
    mm_hundredths: i64,
    source: &'static Source,
) -> Figure {
    Figure {
        name,
        limit: Limit::at_most(thousandths(inch_thousandths), source)
            .printed_beside(hundredths(mm_hundredths)),
    }
}

/// Judges play up and down, at the worse end of the shaft.
///
/// Units: any length. Room is limit minus play. Errors: none. An unknown kind of brake gives
/// advice, with every limit under "others say", unless the play is beyond all of them.
/// Source: by kind of brake, see [`RADIAL`].
pub fn judge_radial(play: Length, brake: Brake) -> Judgement {
    judge_radial_by(RADIAL.figures, play, brake)
}

/// Judges play end to end.
///
/// Units: any length. Room is the distance to the nearer end of the window. Errors: none. An
/// unknown kind of brake gives advice, unless the play is beyond every window.
/// Source: by kind of brake, see [`END`].
pub fn judge_end(play: Length, brake: Brake) -> Judgement {
    judge_end_by(END.figures, play, brake)
}

fn judge_radial_by(figures: &[Figure], play: Length, brake: Brake) -> Judgement {
    let applies = match brake {
        Brake::FifteenByFour => Applies::These(&["army"]),
        Brake::SpiderTwenty => Applies::These(&["spider-20", "army"]),
        Brake::SpiderThirty => Applies::These(&["spider-30"]),
        Brake::CraneCarrier => Applies::These(&["crane-carrier"]),
        // No limit of its own is printed, and the bushings are the same trade's.
        Brake::TrailerTube | Brake::Unknown => Applies::Any,
    };
    let judged = window::judge(&RADIAL, figures, play.into(), applies);
    if judged.verdict == Verdict::Beyond {
        judged.remarking(Remark::plain(word::CAMSHAFT_REMARK_BUSHINGS))
    } else {
        judged
    }
}

fn judge_end_by(figures: &[Figure], play: Length, brake: Brake) -> Judgement {
    let applies = match brake {
        Brake::FifteenByFour => Applies::These(&["fifteen-by-four"]),
        Brake::SpiderTwenty | Brake::SpiderThirty => Applies::These(&["spider"]),
        Brake::TrailerTube => Applies::These(&["trailer-tube"]),
        Brake::CraneCarrier | Brake::Unknown => Applies::Any,
    };
    let judged = window::judge(&END, figures, play.into(), applies);
    let side = judged.limits.first().map(|limit| limit.side);
    match (judged.verdict, side) {
        (Verdict::Beyond, Some(Side::AtLeast)) => {
            judged.remarking(Remark::plain(word::CAMSHAFT_REMARK_END_TIGHT))
        }
        (Verdict::Beyond, _) => judged.remarking(Remark::plain(word::CAMSHAFT_REMARK_END_LOOSE)),
        _ => judged,
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::cases;
    use crate::nudge::Outcome;
    use crate::window::outcome;

    fn outcomes(what: &str, judge: impl Fn(Length, Brake) -> Judgement) -> Vec<Outcome> {
        cases(include_str!("play.tsv"))
            .into_iter()
            .filter(|row| row.text("what") == what)
            .map(|row| {
                let play = row.quantity("play").unwrap().length().unwrap();
                let brake = Brake::from_code(row.text("brake")).unwrap();
                outcome(&row, &judge(play, brake))
            })
            .collect()
    }

    pub(crate) fn radial(figures: &[Figure]) -> Vec<Outcome> {
        outcomes("radial", |play, brake| {
            judge_radial_by(figures, play, brake)
        })
    }

    pub(crate) fn end(figures: &[Figure]) -> Vec<Outcome> {
        outcomes("end", |play, brake| judge_end_by(figures, play, brake))
    }

    #[test]
    fn table() {
        let radial = outcomes("radial", judge_radial);
        for (got, expected) in radial.into_iter().chain(outcomes("end", judge_end)) {
            assert_eq!(got, expected);
        }
    }

    #[test]
    fn what_is_beyond_says_what_to_renew() {
        let said = |judged: Judgement| judged.remarks.last().map(|remark| remark.word);
        let mil = Length::from_inch_thousandths;
        let radial = |n| said(judge_radial(mil(n), Brake::Unknown));
        assert_eq!(radial(40), Some(word::CAMSHAFT_REMARK_BUSHINGS));
        assert_eq!(radial(10), Some(word::WINDOW_KIND_UNKNOWN));
        let end = |n| said(judge_end(mil(n), Brake::FifteenByFour));
        assert_eq!(end(3), Some(word::CAMSHAFT_REMARK_END_TIGHT));
        assert_eq!(end(50), Some(word::CAMSHAFT_REMARK_END_LOOSE));
        assert_eq!(end(20), None);
    }

    proptest! {
        #[test]
        fn more_play_is_never_kinder(a in 0_i64..150, b in 0_i64..150, of in 0..Brake::ALL.len()) {
            let (small, large) = (a.min(b), a.max(b));
            let mil = Length::from_inch_thousandths;
            let radial = |n| judge_radial(mil(n), Brake::ALL[of]).verdict.severity();
            prop_assert!(radial(small) <= radial(large));
            let end = |n| judge_end(mil(n), Brake::ALL[of]).verdict.severity();
            prop_assert!(small < 6 || end(small) <= end(large));
            prop_assert!(large > 6 || end(large) <= end(small));
        }
    }
}
