//! How far a drum may wear: every place of its surface up to the maximum cast in it.
//!
//! Without a cast figure the drum maker's own applies, so much over nominal. With one, the maker's
//! figure is shown and doesn't count.

use crate::drum::marks::Marks;
use crate::quantity::{Length, Quantity};
use crate::rules::{self, Figure, Rule};
use crate::source;
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId};
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("drum.diameter"),
    title: word::RULE_DRUM_DIAMETER,
    units: &[Unit::Inch, Unit::Millimetre],
    limits: word::LIMIT_DRUM_DIAMETER,
    figures: FIGURES,
    sources: &[&source::ON_THE_PART, &source::DRUM_MAKER, &source::DRUM_LAW],
};

const OVER_NOMINAL: &str = "worn out, over nominal";

const FIGURES: &[Figure] = &[Figure {
    name: OVER_NOMINAL,
    limit: Limit::at_most(
        Quantity::Length(Length::from_inch_thousandths(120)),
        &source::DRUM_MAKER,
    ),
}];

/// Judges the diameters of a drum: the largest of them decides.
///
/// Units: any length; compared exactly. Room is maximum minus the largest diameter.
/// Errors: none. Without a diameter, or without a maximum, there is no reading.
/// Source: the casting, else [`source::DRUM_MAKER`].
pub fn judge_diameter(diameters: &[Length], marks: Marks) -> Judgement {
    judge_diameter_by(FIGURES, diameters, marks)
}

fn judge_diameter_by(figures: &[Figure], diameters: &[Length], marks: Marks) -> Judgement {
    let Some(largest) = diameters.iter().max() else {
        return Judgement::without_reading(RULE.id, &source::ON_THE_PART);
    };
    let cast = marks
        .cast_max
        .map(|most| Limit::at_most(most.into(), &source::ON_THE_PART));
    let printed = over_nominal(rules::named(figures, OVER_NOMINAL), marks.nominal);
    let own: Vec<Limit> = cast.or(printed).into_iter().collect();
    let mut judged = Judgement::of(RULE.id, (*largest).into(), &own, &source::ON_THE_PART);
    match (cast, printed) {
        (Some(_), Some(printed)) => judged = judged.other_says(printed),
        (None, Some(_)) => {
            judged = judged.remarking(Remark::plain(word::DRUM_REMARK_BY_NOMINAL));
        }
        (None, None) => judged = judged.remarking(Remark::plain(word::DRUM_REMARK_NO_MAXIMUM)),
        (Some(_), None) => {}
    }
    judged
}

/// The limit that lies so much over nominal, when nominal is known.
pub(crate) fn over_nominal(over: Option<Limit>, nominal: Option<Length>) -> Option<Limit> {
    let over = over?;
    let most = over.figure.length()?.checked_add(nominal?)?;
    Some(Limit::at_most(most.into(), over.source))
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases, told};
    use crate::nudge::Outcome;
    use crate::verdict::Verdict;

    pub(crate) fn lengths(row: &Row<'_>, name: &str) -> Vec<Length> {
        let length = |text| crate::cases::typed(text).unwrap().quantity().length();
        row.list(name)
            .into_iter()
            .map(|text| length(text).unwrap())
            .collect()
    }

    pub(crate) fn marks(row: &Row<'_>) -> Marks {
        let length = |name| row.quantity(name).and_then(Quantity::length);
        Marks {
            cast_max: length("cast"),
            nominal: length("nominal"),
        }
    }

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let outcome = |row: Row<'_>| {
            let judged = judge_diameter_by(figures, &lengths(&row, "diameters"), marks(&row));
            (format!("{row}{}", told(&judged)), row.told())
        };
        cases(include_str!("diameter.tsv"))
            .into_iter()
            .map(outcome)
            .collect()
    }

    #[test]
    fn table() {
        for row in cases(include_str!("diameter.tsv")) {
            let judged = judge_diameter(&lengths(&row, "diameters"), marks(&row));
            assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
        }
    }

    proptest! {
        #[test]
        fn one_wider_place_is_never_kinder(a in 16_000_i64..17_500, b in 16_000_i64..17_500, c in 16_000_i64..17_500, cast: bool) {
            let inches = Length::from_inch_thousandths;
            let marks = Marks {
                cast_max: cast.then_some(inches(16_620)),
                nominal: (!cast).then_some(inches(16_500)),
            };
            let severity = |n| judge_diameter(&[inches(c), inches(n)], marks).verdict.severity();
            prop_assert!(severity(a.min(b)) <= severity(a.max(b)));
        }
    }

    #[test]
    fn nothing_measured_is_no_reading() {
        let judged = judge_diameter(&[], Marks::default());
        assert_eq!(judged.verdict, Verdict::NoReading);
    }
}
