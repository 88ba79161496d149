//! In which order the nuts of a wheel are tightened.
//!
//! Positions are counted clockwise, 1 at the top. Printed orders and derived ones say which they
//! are; the shop's own is accepted when it names every nut once, with a warning where neighbours
//! follow each other.

use crate::rules::Rule;
use crate::source::{self, Source};
use crate::verdict::RuleId;
use crate::word::{self, Argument, Remark, Word};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("torque.pattern"),
    title: word::RULE_TORQUE_PATTERN,
    units: &[],
    limits: word::LIMIT_TORQUE_PATTERN,
    figures: &[],
    sources: &[
        &source::PATTERN_OPPOSITE,
        &source::PATTERN_CHART,
        &source::BOLT_CIRCLE,
    ],
};

/// Where an order comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Basis {
    /// Printed, and readable as printed.
    Printed,
    /// Printed; its layout was rebuilt from the text.
    Rebuilt,
    /// Derived from the rule of opposite nuts.
    Derived,
    /// Typed in by the shop.
    Shop,
}

impl Basis {
    /// The word for it.
    pub const fn word(self) -> Word {
        match self {
            Self::Printed => word::TORQUE_PATTERN_PRINTED,
            Self::Rebuilt => word::TORQUE_PATTERN_REBUILT,
            Self::Derived => word::TORQUE_PATTERN_DERIVED,
            Self::Shop => word::TORQUE_PATTERN_SHOP,
        }
    }
}

/// An order of nuts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pattern {
    // Names every nut from 1 to its length once: only this file builds one.
    order: Vec<u8>,
    /// Where it comes from.
    pub basis: Basis,
    /// Where it, or the rule that it follows, is printed.
    pub source: &'static Source,
}

impl Pattern {
    /// The nuts in their order, each once.
    pub fn order(&self) -> &[u8] {
        &self.order
    }

    /// How many nuts the wheel has.
    pub fn studs(&self) -> u8 {
        u8::try_from(self.order.len()).unwrap_or(u8::MAX)
    }
}

/// Why an order can't be taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PatternFault {
    /// No wheel has so few or so many nuts.
    Studs {
        /// So many.
        studs: u8,
    },
    /// It names more or fewer nuts than the wheel has.
    Count {
        /// What the wheel has.
        studs: u8,
        /// What it names.
        named: usize,
    },
    /// It names a nut twice, or one that the wheel doesn't have.
    Nut {
        /// Which.
        nut: u8,
    },
}

impl PatternFault {
    /// What the screen says.
    pub fn remark(self) -> Remark {
        let count = |n: u8| Argument::Count(u32::from(n));
        match self {
            Self::Studs { studs } => {
                Remark::with(word::TORQUE_PATTERN_FAULT_STUDS, [("studs", count(studs))])
            }
            Self::Count { studs, named } => {
                let named = Argument::Count(u32::try_from(named).unwrap_or(u32::MAX));
                let arguments = [("studs", count(studs)), ("named", named)];
                Remark::with(word::TORQUE_PATTERN_FAULT_COUNT, arguments)
            }
            Self::Nut { nut } => {
                Remark::with(word::TORQUE_PATTERN_FAULT_NUT, [("nut", count(nut))])
            }
        }
    }
}

/// What is odd about an order that can be taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PatternWarning {
    /// Two neighbours follow each other.
    Neighbours {
        /// The first.
        first: u8,
        /// The one after it.
        then: u8,
    },
    /// Of an even number of nuts, the first of a pair isn't followed by the one opposite.
    NotOpposite {
        /// The first of the pair.
        first: u8,
        /// The one after it.
        then: u8,
    },
    /// Every pair starts next door to the pair before it.
    PairsWalk,
}

impl PatternWarning {
    /// What the screen says.
    pub fn remark(self) -> Remark {
        let two = |first: u8, then: u8| {
            let count = |n: u8| Argument::Count(u32::from(n));
            [("first", count(first)), ("then", count(then))]
        };
        match self {
            Self::Neighbours { first, then } => {
                Remark::with(word::TORQUE_PATTERN_NEIGHBOURS, two(first, then))
            }
            Self::NotOpposite { first, then } => {
                Remark::with(word::TORQUE_PATTERN_NOT_OPPOSITE, two(first, then))
            }
            Self::PairsWalk => Remark::plain(word::TORQUE_PATTERN_PAIRS_WALK),
        }
    }
}

struct BuiltIn {
    order: &'static [u8],
    basis: Basis,
    source: &'static Source,
}

const BUILT_IN: &[BuiltIn] = &[
    BuiltIn {
        order: &[1, 3, 5, 2, 4],
        basis: Basis::Rebuilt,
        source: &source::PATTERN_CHART,
    },
    BuiltIn {
        order: &[1, 4, 6, 3, 5, 2],
        basis: Basis::Rebuilt,
        source: &source::PATTERN_CHART,
    },
    BuiltIn {
        order: &[1, 5, 8, 4, 7, 3, 6, 2],
        basis: Basis::Rebuilt,
        source: &source::PATTERN_CHART,
    },
    BuiltIn {
        order: &[1, 6, 3, 8, 5, 10, 7, 2, 9, 4],
        basis: Basis::Derived,
        source: &source::PATTERN_OPPOSITE,
    },
    BuiltIn {
        order: &[1, 7, 4, 10, 2, 8, 6, 12, 5, 11, 9, 3],
        basis: Basis::Printed,
        source: &source::BOLT_CIRCLE,
    },
];

/// The built-in order for so many nuts; `None` where there is none.
///
/// Source: each pattern's own; ten nuts are derived from [`source::PATTERN_OPPOSITE`].
pub fn built_in(studs: u8) -> Option<Pattern> {
    let found = BUILT_IN
        .iter()
        .find(|one| one.order.len() == usize::from(studs))?;
    Some(Pattern {
        order: found.order.to_vec(),
        basis: found.basis,
        source: found.source,
    })
}

/// The shop's own order, when it names every nut once.
///
/// Errors: [`PatternFault`]. Source: [`source::SHOP_SHEET`].
pub fn of_shop(studs: u8, order: &[u8]) -> Result<Pattern, PatternFault> {
    if !(3..=24).contains(&studs) {
        return Err(PatternFault::Studs { studs });
    }
    if order.len() != usize::from(studs) {
        return Err(PatternFault::Count {
            studs,
            named: order.len(),
        });
    }
    for (at, nut) in order.iter().enumerate() {
        let again = order.iter().skip(at + 1).any(|other| other == nut);
        if again || !(1..=studs).contains(nut) {
            return Err(PatternFault::Nut { nut: *nut });
        }
    }
    Ok(Pattern {
        order: order.to_vec(),
        basis: Basis::Shop,
        source: &source::SHOP_SHEET,
    })
}

/// What is odd about a pattern.
///
/// Source: [`source::PATTERN_OPPOSITE`].
pub fn warnings(pattern: &Pattern) -> Vec<PatternWarning> {
    let (order, studs) = (pattern.order(), pattern.studs());
    let mut warnings = Vec::new();
    for (first, then) in order.iter().zip(order.iter().skip(1)) {
        if apart(*first, *then, studs) == 1 {
            warnings.push(PatternWarning::Neighbours {
                first: *first,
                then: *then,
            });
        }
    }
    if studs % 2 != 0 {
        return warnings;
    }
    let pairs: Vec<(u8, u8)> = order
        .iter()
        .step_by(2)
        .zip(order.iter().skip(1).step_by(2))
        .map(|(first, then)| (*first, *then))
        .collect();
    for (first, then) in &pairs {
        if apart(*first, *then, studs) != studs / 2 {
            warnings.push(PatternWarning::NotOpposite {
                first: *first,
                then: *then,
            });
        }
    }
    let next_door = |((first, _), (next, then)): (&(u8, u8), &(u8, u8))| {
        [*next, *then]
            .iter()
            .any(|nut| apart(*first, *nut, studs) == 1)
    };
    // With six nuts or fewer every pair is next door to every other.
    if studs > 6 && pairs.iter().zip(pairs.iter().skip(1)).all(next_door) {
        warnings.push(PatternWarning::PairsWalk);
    }
    warnings
}

/// How many places lie between two nuts, the shorter way round.
fn apart(one: u8, other: u8, studs: u8) -> u8 {
    let straight = one.abs_diff(other);
    straight.min(studs.saturating_sub(straight))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::cases;

    fn order(text: &str) -> Vec<u8> {
        text.split('-')
            .filter(|nut| !nut.is_empty())
            .map(|nut| nut.parse().unwrap())
            .collect()
    }

    #[test]
    fn table() {
        for row in cases(include_str!("pattern.tsv")) {
            let studs = u8::try_from(row.count("studs")).unwrap();
            let got = match of_shop(studs, &order(row.text("order"))) {
                Ok(pattern) => {
                    let warned: Vec<String> = warnings(&pattern)
                        .iter()
                        .map(|warning| format!("{warning:?}"))
                        .collect();
                    if warned.is_empty() {
                        "-".to_owned()
                    } else {
                        warned.join("; ")
                    }
                }
                Err(fault) => format!("{fault:?}"),
            };
            assert_eq!(got, row.text("got"), "{row}");
        }
    }

    #[test]
    fn built_in_orders_are_permutations_with_opposite_pairs() {
        for studs in [5, 6, 8, 10, 12] {
            let pattern = built_in(studs).unwrap();
            assert_eq!(pattern.studs(), studs);
            assert_eq!(pattern.order()[0], 1, "it starts at the top");
            assert!(of_shop(studs, pattern.order()).is_ok(), "{pattern:?}");
            let odd = warnings(&pattern);
            let walks = odd
                .iter()
                .all(|warning| *warning == PatternWarning::PairsWalk);
            assert!(walks, "{odd:?}");
            assert_eq!(
                odd.len(),
                usize::from(studs == 8),
                "only the chart of eight walks"
            );
        }
        assert_eq!(built_in(7), None);
    }

    #[test]
    fn each_says_where_it_comes_from() {
        let basis = |studs| built_in(studs).unwrap().basis;
        assert_eq!([basis(5), basis(6), basis(8)], [Basis::Rebuilt; 3]);
        assert_eq!((basis(10), basis(12)), (Basis::Derived, Basis::Printed));
        let words = [Basis::Printed, Basis::Rebuilt, Basis::Derived, Basis::Shop].map(Basis::word);
        let keys = words.map(Word::key);
        assert_eq!(
            keys,
            ["printed", "rebuilt", "derived", "shop"].map(|end| format!("torque.pattern.{end}"))
        );
    }

    #[test]
    fn every_oddity_is_said() {
        let said = [
            PatternWarning::Neighbours { first: 1, then: 2 }.remark(),
            PatternWarning::NotOpposite { first: 1, then: 2 }.remark(),
            PatternWarning::PairsWalk.remark(),
            PatternFault::Studs { studs: 2 }.remark(),
            PatternFault::Count { studs: 8, named: 7 }.remark(),
            PatternFault::Nut { nut: 9 }.remark(),
        ];
        let counts: Vec<usize> = said.iter().map(|remark| remark.arguments.len()).collect();
        assert_eq!(counts, [2, 2, 0, 1, 2, 1]);
    }

    proptest! {
        #[test]
        fn pairs_of_built_in_even_orders_are_opposite(at in 0_usize..6) {
            for studs in [6_u8, 8, 10, 12] {
                let pattern = built_in(studs).unwrap();
                if let Some([first, then]) = pattern.order().chunks(2).nth(at) {
                    prop_assert_eq!((first + studs / 2 - 1) % studs + 1, *then);
                }
            }
        }

        #[test]
        fn any_shuffle_is_taken_and_any_double_refused(studs in 3_u8..=24, seed: u64, at in 0_usize..24) {
            let mut order: Vec<u8> = (1..=studs).collect();
            let mut state = seed;
            for i in (1..order.len()).rev() {
                state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
                let other = usize::try_from(state >> 33).unwrap() % (i + 1);
                order.swap(i, other);
            }
            prop_assert!(of_shop(studs, &order).is_ok());
            let at = at % order.len();
            order[at] = order[(at + 1) % order.len()];
            let refused = of_shop(studs, &order);
            let by_nut = matches!(refused, Err(PatternFault::Nut { .. }));
            prop_assert!(by_nut);
        }
    }
}
