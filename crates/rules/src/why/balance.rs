//! How far the two ends of an axle pull apart, as an estimate from what their arms make.
//!
//! An inspection on a roller tester rejects an axle whose ends differ by more than a quarter; that
//! is a measured force, this is none.

use crate::quantity::{Ratio, Torque};
use crate::rules::Rule;
use crate::shown;
use crate::source;
use crate::verdict::RuleId;
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("why.balance"),
    title: word::RULE_WHY_BALANCE,
    units: &[],
    limits: word::LIMIT_WHY_BALANCE,
    figures: &[],
    sources: &[&source::BALANCE],
};

/// By which part of the stronger end the weaker one falls short; `None` where neither pulls.
///
/// Units: any torque. Errors: `None` for none or a negative one. Source: [`source::BALANCE`].
pub fn apart(left: Torque, right: Torque) -> Option<Ratio> {
    let (weaker, stronger) = (left.min(right), left.max(right));
    if weaker < Torque::ZERO || stronger == Torque::ZERO {
        return None;
    }
    let short = stronger.checked_sub(weaker)?.base();
    Ratio::from_base(short.checked_mul(Ratio::from_percent(100).base())? / stronger.base())
}

/// What the help says.
pub fn remark(apart: Ratio) -> Remark {
    let percent = shown::quotient(apart.base(), Ratio::from_percent(1).base(), 0);
    Remark::with(
        word::WHY_BALANCE,
        [("percent", Argument::Text(percent.unwrap_or_default()))],
    )
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::cases;
    use crate::shown::{Lean, decimal};
    use crate::unit::Unit;

    #[test]
    fn table() {
        for row in cases(include_str!("balance.tsv")) {
            let torque = |name| row.quantity(name).unwrap().torque().unwrap();
            let apart = apart(torque("left"), torque("right"));
            let shown = apart.and_then(|apart| {
                decimal(apart.into(), Unit::Percent, 1, Lean::Nearest).map(|shown| shown.text)
            });
            assert_eq!(
                shown.unwrap_or_else(|| "-".to_owned()),
                row.text("percent"),
                "{row}"
            );
        }
        assert_eq!(remark(Ratio::from_percent(10)).word, word::WHY_BALANCE);
    }

    proptest! {
        #[test]
        fn both_ends_count_the_same(a in 0_i64..10_000, b in 1_i64..10_000) {
            let of = |n| Torque::from_lbf_in(n);
            prop_assert_eq!(apart(of(a), of(b)), apart(of(b), of(a)));
        }
    }
}
