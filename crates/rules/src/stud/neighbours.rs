//! Which studs are renewed: those that were named, and what a broken one takes with it.
//!
//! A broken stud's load went to its neighbours. Sources differ on when all are renewed; the
//! stricter one decides and the other is said beside it.

use crate::rules::Rule;
use crate::source;
use crate::verdict::{Judgement, RuleId, Verdict};
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("stud.which"),
    title: word::RULE_STUD_WHICH,
    units: &[],
    limits: word::LIMIT_STUD_WHICH,
    figures: &[],
    sources: &[
        &source::STUD_NEIGHBOURS,
        &source::STUD_ALL_FROM_THREE,
        &source::NUTS_PRESENT,
        &source::COMMON_PRACTICE,
    ],
};

/// From how many broken studs on all of them are renewed, by the source that decides.
const ALL_FROM: usize = 2;

/// From how many on another source renews all of them.
const ALL_FROM_ELSEWHERE: usize = 3;

/// What is wrong with a stud.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Sign {
    /// Broken off.
    Broken,
    /// Threads stripped or damaged.
    Threads,
    /// Stretched: a thread gauge shows light.
    Stretched,
    /// Thinner in the middle.
    Waisted,
    /// Named because it stands beside a broken one.
    Neighbour,
}

impl Sign {
    /// Every sign.
    pub const ALL: &[Self] = &[
        Self::Broken,
        Self::Threads,
        Self::Stretched,
        Self::Waisted,
        Self::Neighbour,
    ];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Broken => "broken",
            Self::Threads => "threads",
            Self::Stretched => "stretched",
            Self::Waisted => "waisted",
            Self::Neighbour => "neighbour",
        }
    }

    /// The sign of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }
}

/// The studs to renew, lowest number first, of `total` in a circle that are numbered from 1.
///
/// Units: counts. Errors: none; a number that the circle doesn't have is left out.
/// Source: [`source::STUD_NEIGHBOURS`] for a broken one.
pub fn renew(total: u16, named: &[(u16, Sign)]) -> Vec<u16> {
    let broken = broken(total, named);
    if broken.len() >= ALL_FROM {
        return (1..=total).collect();
    }
    let mut studs: Vec<u16> = named
        .iter()
        .map(|(stud, _)| *stud)
        .filter(|stud| (1..=total).contains(stud))
        .collect();
    for stud in broken {
        studs.push(if stud == 1 { total } else { stud - 1 });
        studs.push(if stud == total { 1 } else { stud + 1 });
    }
    studs.sort_unstable();
    studs.dedup();
    studs
}

fn broken(total: u16, named: &[(u16, Sign)]) -> Vec<u16> {
    let mut broken: Vec<u16> = named
        .iter()
        .filter(|(stud, sign)| *sign == Sign::Broken && (1..=total).contains(stud))
        .map(|(stud, _)| *stud)
        .collect();
    broken.sort_unstable();
    broken.dedup();
    broken
}

/// Judges what was named on a circle of `total` studs, and says which ones go.
///
/// Units: counts. Errors: none. Source: [`source::STUD_NEIGHBOURS`] where one is broken,
/// [`source::NUTS_PRESENT`] for stripped threads, else common practice.
pub fn judge_studs(total: u16, named: &[(u16, Sign)]) -> Judgement {
    let renew = renew(total, named);
    let broken = broken(total, named).len();
    let source = if broken > 0 {
        &source::STUD_NEIGHBOURS
    } else if named.iter().any(|(_, sign)| *sign == Sign::Threads) {
        &source::NUTS_PRESENT
    } else {
        &source::COMMON_PRACTICE
    };
    if renew.is_empty() {
        return Judgement::by_eye(RULE.id, Verdict::Sound, source);
    }
    let judged = Judgement::by_eye(RULE.id, Verdict::Replace, source);
    if broken >= ALL_FROM {
        let all = Argument::Count(u32::from(total));
        let judged = judged.remarking(Remark::with(word::STUD_REMARK_ALL, [("studs", all)]));
        return if broken < ALL_FROM_ELSEWHERE {
            judged.remarking(Remark::plain(word::STUD_REMARK_ALL_ELSEWHERE))
        } else {
            judged
        };
    }
    let studs: Vec<String> = renew.iter().map(u16::to_string).collect();
    let studs = Argument::Text(studs.join(", "));
    let judged = judged.remarking(Remark::with(word::STUD_REMARK_RENEW, [("studs", studs)]));
    if broken > 0 {
        judged.remarking(Remark::plain(word::STUD_REMARK_NEIGHBOURS))
    } else {
        judged
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::cases;

    fn named(text: &str) -> Vec<(u16, Sign)> {
        text.split(',')
            .filter_map(|one| one.split_once(' '))
            .map(|(stud, sign)| (stud.parse().unwrap(), Sign::from_code(sign).unwrap()))
            .collect()
    }

    #[test]
    fn table() {
        for row in cases(include_str!("neighbours.tsv")) {
            let total = u16::try_from(row.count("studs")).unwrap();
            let named = named(row.text("named"));
            let studs: Vec<String> = renew(total, &named).iter().map(u16::to_string).collect();
            assert_eq!(studs, row.list("renew"), "{row}");
            let judged = judge_studs(total, &named);
            assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
            let says: Vec<&str> = judged.remarks.iter().map(|said| said.word.key()).collect();
            assert_eq!(says, row.list("says"), "{row}");
            assert_eq!(judged.source.standing.code(), row.text("standing"), "{row}");
            assert!(RULE.sources.contains(&judged.source), "{row}");
        }
        assert_eq!(Sign::from_code("x"), None);
    }

    proptest! {
        #[test]
        fn one_more_named_never_saves_a_stud(total in 5_u16..=10, studs in proptest::collection::vec((1_u16..=10, 0..Sign::ALL.len()), 0..6)) {
            let named: Vec<(u16, Sign)> = studs.iter().map(|(stud, sign)| (*stud, Sign::ALL[*sign])).collect();
            for most in 1..=named.len() {
                let (fewer, more) = (renew(total, &named[..most - 1]), renew(total, &named[..most]));
                prop_assert!(fewer.iter().all(|stud| more.contains(stud)));
                let severity = |n: usize| judge_studs(total, &named[..n]).verdict.severity();
                prop_assert!(severity(most - 1) <= severity(most));
            }
        }
    }
}
