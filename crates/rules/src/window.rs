//! Holds a reading against the windows printed for its kind of part.
//!
//! A window printed for another kind is shown and never counted. Where the kind isn't known there
//! is advice and no verdict, but for a reading that every window refuses: that one is beyond,
//! whatever the kind. Nothing here knows a limit.

#[cfg(test)]
use crate::cases::Row;
#[cfg(test)]
use crate::nudge::Outcome;
use crate::quantity::Quantity;
use crate::rules::{Figure, Rule};
use crate::source;
use crate::verdict::{Judgement, Limit, Verdict};
use crate::word::{self, Remark};

/// Which windows a reading is held against. A window is named by all but the last word of its
/// figures: "spider least" and "spider most" are the two ends of "spider".
#[derive(Clone, Copy, Debug)]
pub(crate) enum Applies<'a> {
    /// These; none if nothing is printed for this kind.
    These(&'a [&'a str]),
    /// Any of them may be the one.
    Any,
}

/// Judges `reading` by those windows of `figures` that apply; the others are shown.
///
/// A figure whose name ends in "under" is past its limit as soon as it is reached.
pub(crate) fn judge(
    rule: &Rule,
    figures: &[Figure],
    reading: Quantity,
    applies: Applies<'_>,
) -> Judgement {
    let own = |figure: &Figure| match applies {
        Applies::These(windows) => windows.contains(&of(figure.name)),
        Applies::Any => false,
    };
    let (counted, others): (Vec<&Figure>, Vec<&Figure>) =
        figures.iter().partition(|figure| own(figure));
    if !counted.is_empty() {
        return held(rule, reading, &counted, &others);
    }
    match applies {
        Applies::These(_) => {
            held(rule, reading, &[], &others).remarking(Remark::plain(word::WINDOW_NONE_PRINTED))
        }
        Applies::Any => any(rule, figures, reading),
    }
}

fn any(rule: &Rule, figures: &[Figure], reading: Quantity) -> Judgement {
    let mut kindest: Option<(&str, Option<Quantity>)> = None;
    let mut refused_by_all = true;
    for figure in figures {
        let name = of(figure.name);
        let mut ends = figures.iter().filter(|one| of(one.name) == name);
        refused_by_all &= ends.any(|end| verdict(end, reading) == Some(Verdict::Beyond));
        let least = figures
            .iter()
            .filter(|one| of(one.name) == name)
            .filter_map(|end| end.limit.room(reading))
            .min_by_key(|room| room.base());
        let room = |room: Option<Quantity>| room.map_or(i128::MIN, Quantity::base);
        if kindest.is_none_or(|(_, known)| room(least) > room(known)) {
            kindest = Some((name, least));
        }
    }
    let Some((kindest, _)) = kindest.filter(|_| refused_by_all) else {
        let others: Vec<&Figure> = figures.iter().collect();
        return held(rule, reading, &[], &others)
            .remarking(Remark::plain(word::WINDOW_KIND_UNKNOWN));
    };
    let (counted, others): (Vec<&Figure>, Vec<&Figure>) = figures
        .iter()
        .partition(|figure| of(figure.name) == kindest);
    held(rule, reading, &counted, &others).remarking(Remark::plain(word::WINDOW_BEYOND_EVERY))
}

fn held(rule: &Rule, reading: Quantity, counted: &[&Figure], others: &[&Figure]) -> Judgement {
    let limits: Vec<Limit> = counted.iter().map(|figure| figure.limit).collect();
    let from = rule.sources.first().copied();
    let from = from.unwrap_or(&source::COMMON_PRACTICE);
    let mut judged = Judgement::of(rule.id, reading, &limits, from);
    let reached = |figure: &&&Figure| verdict(figure, reading) == Some(Verdict::Beyond);
    if judged.verdict == Verdict::AtTheLimit && counted.iter().any(|figure| reached(&figure)) {
        judged.verdict = Verdict::Beyond;
        judged = judged.remarking(Remark::plain(word::WINDOW_TO_BE_UNDER));
    }
    for other in others {
        judged = judged.other_says(other.limit);
        if let (Some(last), Some(verdict)) = (judged.others.last_mut(), verdict(other, reading)) {
            last.verdict = verdict;
        }
    }
    judged
}

fn verdict(figure: &Figure, reading: Quantity) -> Option<Verdict> {
    let verdict = figure.limit.judge(reading)?;
    let to_be_under = figure.name.ends_with(" under");
    Some(if to_be_under && verdict == Verdict::AtTheLimit {
        Verdict::Beyond
    } else {
        verdict
    })
}

/// The window that a figure belongs to.
pub(crate) fn of(name: &str) -> &str {
    name.rsplit_once(' ').map_or(name, |(window, _)| window)
}

/// What a table of cases says of a judgement: its verdict, what the others say, the first remark.
#[cfg(test)]
pub(crate) fn told(judged: &Judgement) -> String {
    let others: String = judged
        .others
        .iter()
        .map(|other| match other.verdict {
            Verdict::Within => 'w',
            Verdict::AtTheLimit => 'a',
            Verdict::Beyond => 'b',
            _ => '?',
        })
        .collect();
    let others = if others.is_empty() { "-" } else { &others };
    let said = judged.remarks.first().map_or("-", |said| said.word.key());
    format!("{} {others} {said}", judged.verdict.code())
}

/// One row of a table of such a rule: what was judged, and what the row expects.
#[cfg(test)]
pub(crate) fn outcome(row: &Row<'_>, judged: &Judgement) -> Outcome {
    let expected = ["verdict", "others", "says"].map(|name| row.text(name));
    (
        format!("{row}: {}", told(judged)),
        format!("{row}: {}", expected.join(" ")),
    )
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::quantity::Length;
    use crate::rules::RULES;

    const NARROW_LEAST: Figure = figure("narrow least", Limit::at_least(mil(5), SOURCE));
    const NARROW_MOST: Figure = figure("narrow most", Limit::at_most(mil(45), SOURCE));
    const WIDE_MOST: Figure = figure("wide under", Limit::at_most(mil(60), SOURCE));
    const SOURCE: &source::Source = &source::COMMON_PRACTICE;
    const FIGURES: &[Figure] = &[NARROW_LEAST, NARROW_MOST, WIDE_MOST];

    const fn figure(name: &'static str, limit: Limit) -> Figure {
        Figure { name, limit }
    }

    const fn mil(n: i64) -> Quantity {
        Quantity::Length(Length::from_inch_thousandths(n))
    }

    fn told_of(n: i64, applies: Applies<'_>) -> String {
        told(&judge(&RULES[0], FIGURES, mil(n), applies))
    }

    #[test]
    fn a_window_that_applies_decides_and_the_others_are_shown() {
        let narrow = Applies::These(&["narrow"]);
        assert_eq!(told_of(45, narrow), "at-the-limit w -");
        assert_eq!(told_of(46, narrow), "beyond w -");
        assert_eq!(told_of(4, narrow), "beyond w -");
        assert_eq!(told_of(60, narrow), "beyond b -");
        let wide = Applies::These(&["wide"]);
        assert_eq!(told_of(59, wide), "within wb -");
        assert_eq!(told_of(60, wide), "beyond wb window.to-be-under");
        assert_eq!(told_of(61, wide), "beyond wb -");
    }

    #[test]
    fn an_unknown_kind_is_beyond_only_past_every_window() {
        assert_eq!(
            told_of(30, Applies::Any),
            "no-reading www window.kind-unknown"
        );
        assert_eq!(
            told_of(4, Applies::Any),
            "no-reading bww window.kind-unknown"
        );
        assert_eq!(
            told_of(59, Applies::Any),
            "no-reading wbw window.kind-unknown"
        );
        assert_eq!(
            judge(&RULES[0], FIGURES, mil(61), Applies::Any).limits,
            [WIDE_MOST.limit]
        );
        assert_eq!(told_of(61, Applies::Any), "beyond wb window.beyond-every");
        assert_eq!(
            told_of(900, Applies::These(&[])),
            "no-reading wbb window.none-printed"
        );
    }

    proptest! {
        #[test]
        fn further_out_is_never_kinder(a in 0_i64..200, b in 0_i64..200, which in 0..3_usize) {
            let applies = [Applies::These(&["narrow"]), Applies::These(&["wide"]), Applies::Any][which];
            let severity = |n| judge(&RULES[0], FIGURES, mil(n), applies).verdict.severity();
            let (near, far) = (a.min(b), a.max(b));
            prop_assert!(near < 30 || severity(near) <= severity(far));
            prop_assert!(far > 30 || severity(far) <= severity(near));
        }
    }
}
