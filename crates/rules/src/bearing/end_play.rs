//! How far a hub may be moved along its spindle, by dial indicator.
//!
//! A window belongs to one way of adjusting: the rule book's doesn't apply to a hub that its maker
//! has adjusted otherwise.

use crate::bearing::correction::correction;
use crate::bearing::setup::Way;
use crate::quantity::{Length, Quantity};
use crate::rules::{Figure, Rule};
use crate::source::{self, Source};
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Side, Verdict};
use crate::window::{self, Applies};
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("bearing.end-play"),
    title: word::RULE_BEARING_END_PLAY,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_BEARING_END_PLAY,
    figures: &[
        least("rule-book least", 1, &source::BEARING_RULE_BOOK),
        most("rule-book most", 5, &source::BEARING_RULE_BOOK),
        least("trailer-maker least", 1, &source::BEARING_TRAILER_MAKER),
        most("trailer-maker most", 10, &source::BEARING_TRAILER_MAKER),
        most("steer-drive most", 2, &source::BEARING_STEER_DRIVE),
        least("one-piece-nut least", 1, &source::BEARING_ONE_PIECE),
        most("one-piece-nut most", 5, &source::BEARING_ONE_PIECE),
    ],
    sources: &[
        &source::BEARING_RULE_BOOK,
        &source::BEARING_TRAILER_MAKER,
        &source::BEARING_STEER_DRIVE,
        &source::BEARING_ONE_PIECE,
    ],
};

const fn least(name: &'static str, inch_thousandths: i64, source: &'static Source) -> Figure {
    Figure {
        name,
        limit: Limit::at_least(thousandths(inch_thousandths), source),
    }
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

/// Judges an end play by the window of the way that applies.
///
/// Units: any length. Room is the distance to the nearer end of the window. Errors: none. Where
/// nobody knows whose way applies there is advice, unless the play is beyond every window.
/// Source: by way, see [`RULE`].
pub fn judge_end_play(play: Length, way: Way) -> Judgement {
    judge_end_play_by(RULE.figures, play, way)
}

fn judge_end_play_by(figures: &[Figure], play: Length, way: Way) -> Judgement {
    let applies = match way {
        Way::RuleBook => Applies::These(&["rule-book"]),
        Way::TrailerMaker => Applies::These(&["trailer-maker"]),
        Way::SteerDrive => Applies::These(&["steer-drive"]),
        Way::OnePieceNut => Applies::These(&["one-piece-nut"]),
        Way::Unknown => Applies::Any,
    };
    let judged = window::judge(&RULE, figures, play.into(), applies);
    let side = judged.limits.first().map(|limit| limit.side);
    match (judged.verdict, side) {
        (Verdict::Beyond, Some(Side::AtLeast)) => {
            judged.remarking(Remark::plain(word::BEARING_REMARK_TIGHT))
        }
        (Verdict::Beyond, _) => {
            let by_maker = (way == Way::SteerDrive).then(|| correction(play)).flatten();
            let again = Remark::plain(word::BEARING_REMARK_LOOSE);
            judged.remarking(by_maker.unwrap_or(again))
        }
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

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        cases(include_str!("end_play.tsv"))
            .into_iter()
            .map(|row| {
                let play = row.quantity("play").unwrap().length().unwrap();
                let way = Way::from_code(row.text("way")).unwrap();
                outcome(&row, &judge_end_play_by(figures, play, way))
            })
            .collect()
    }

    #[test]
    fn table() {
        for (got, expected) in outcomes(RULE.figures) {
            assert_eq!(got, expected);
        }
        let loose = judge_end_play(Length::from_inch_thousandths(11), Way::Unknown);
        assert_eq!(
            loose.remarks.last(),
            Some(&Remark::plain(word::BEARING_REMARK_LOOSE))
        );
    }

    proptest! {
        #[test]
        fn further_out_is_never_kinder(a in 0_i64..300, b in 0_i64..300, of in 0..Way::ALL.len()) {
            let severity = |n| {
                let play = Length::from_base(i128::from(n) * 2_540).unwrap();
                judge_end_play(play, Way::ALL[of]).verdict.severity()
            };
            // 0.0015 in lies in every window: away from there it only gets worse.
            let (near, far) = (a.min(b), a.max(b));
            prop_assert!(near < 15 || severity(near) <= severity(far));
            prop_assert!(far > 15 || severity(far) <= severity(near));
        }
    }
}
