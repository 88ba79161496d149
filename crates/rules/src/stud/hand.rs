//! Which way the threads of a wheel end go, by mounting and side of the vehicle.

use crate::rules::Rule;
use crate::source;
use crate::torque::spec::Mounting;
use crate::verdict::{Judgement, RuleId, Verdict};
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("stud.hand"),
    title: word::RULE_STUD_HAND,
    units: &[],
    limits: word::LIMIT_STUD_HAND,
    figures: &[],
    sources: &[&source::STUD_HAND, &source::STUD_RIGHT_HAND],
};

/// The side of the vehicle; left is the driver's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Side {
    /// Left.
    Left,
    /// Right.
    Right,
}

/// Which way the studs of a wheel end are threaded.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Hand {
    /// All left-hand, marked L.
    Left,
    /// All right-hand, marked R or not at all.
    Right,
    /// Some this way and some that.
    Mixed,
}

impl Hand {
    /// Every answer.
    pub const ALL: &[Self] = &[Self::Left, Self::Right, Self::Mixed];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
            Self::Mixed => "mixed",
        }
    }

    /// The answer of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }
}

/// The hand that a side should have; `None` for rim clamps, where no source says one.
pub const fn expected(mounting: Mounting, side: Side) -> Option<Hand> {
    match (mounting, side) {
        (Mounting::BallSeat, Side::Left) => Some(Hand::Left),
        (Mounting::BallSeat, Side::Right) | (Mounting::HubPiloted, _) => Some(Hand::Right),
        (Mounting::Spoke, _) => None,
    }
}

/// Judges which way the studs go.
///
/// Units: none. Errors: none. Rim clamps give no reading.
/// Source: [`source::STUD_HAND`], [`source::STUD_RIGHT_HAND`].
pub fn judge_hand(hand: Hand, mounting: Mounting, side: Side) -> Judgement {
    let source = match mounting {
        Mounting::HubPiloted => &source::STUD_RIGHT_HAND,
        Mounting::BallSeat | Mounting::Spoke => &source::STUD_HAND,
    };
    let Some(expected) = expected(mounting, side) else {
        return Judgement::without_reading(RULE.id, source)
            .remarking(Remark::plain(word::WINDOW_NONE_PRINTED));
    };
    if hand == expected {
        return Judgement::by_eye(RULE.id, Verdict::Sound, source);
    }
    let says = match expected {
        Hand::Left => word::STUD_REMARK_LEFT_HAND,
        Hand::Right | Hand::Mixed => word::STUD_REMARK_RIGHT_HAND,
    };
    Judgement::by_eye(RULE.id, Verdict::Replace, source).remarking(Remark::plain(says))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::cases;

    #[test]
    fn table() {
        let mut seen = 0;
        for row in cases(include_str!("hand.tsv")) {
            let mounting = Mounting::from_code(row.text("mounting")).unwrap();
            let side = match row.text("side") {
                "left" => Side::Left,
                _ => Side::Right,
            };
            let judged = judge_hand(Hand::from_code(row.text("hand")).unwrap(), mounting, side);
            assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
            let said = judged.remarks.first().map_or("-", |said| said.word.key());
            assert_eq!(said, row.text("says"), "{row}");
            seen += 1;
        }
        assert_eq!(seen, Mounting::ALL.len() * Hand::ALL.len() * 2);
        assert_eq!(Hand::from_code("x"), None);
    }
}
