//! Every rule, by id. Screens, the printed list and the tests all read this.
//!
//! A rule here says what it is called, in which units it is read, against which limits and from
//! which sources. How it judges stands in the rule's own file.

use crate::source::{Source, Standing};
use crate::unit::Unit;
use crate::verdict::{Limit, RuleId};
use crate::word::Word;
use crate::{air, axle, bearing, camshaft, drum, lining, slack, stud, support, torque, why};

/// The edition of all rules together; a card pins it, and judges by it as shown then.
pub const EDITION: &str = "2026-11";

/// What is known about a rule without running it.
#[derive(Clone, Copy, Debug)]
pub struct Rule {
    /// Its stable name.
    pub id: RuleId,
    /// What the screen calls it.
    pub title: Word,
    /// The units that a person may type its readings in; none for rules of choices.
    pub units: &'static [Unit],
    /// What its limits are, in a sentence.
    pub limits: Word,
    /// Its published figures; empty where the limit comes from the part, the card or the shop.
    pub figures: &'static [Figure],
    /// Where it comes from, the deciding source first.
    pub sources: &'static [&'static Source],
}

/// One published figure of a rule.
#[derive(Clone, Copy, Debug)]
pub struct Figure {
    /// For what it holds, as the printed list names it: "clamp 30 long".
    pub name: &'static str,
    /// The figure.
    pub limit: Limit,
}

impl Rule {
    /// How good its deciding source is.
    pub fn standing(&self) -> Standing {
        self.sources
            .first()
            .map_or(Standing::FromMemory, |source| source.standing)
    }
}

/// The limit that stands under `name`; every caller names one that its own list has.
pub(crate) fn named(figures: &[Figure], name: &str) -> Option<Limit> {
    figures
        .iter()
        .find(|figure| figure.name == name)
        .map(|figure| figure.limit)
}

/// Every rule, in the order of the job.
pub const RULES: &[Rule] = &[
    support::stand::RULE,
    support::three::RULE,
    support::jack::RULE,
    support::plate::RULE,
    crate::rim::RULE,
    drum::diameter::RULE,
    drum::round::RULE,
    drum::taper::RULE,
    drum::bell_mouth::RULE,
    drum::run_out::RULE,
    drum::turn::RULE,
    drum::surface::RULE,
    drum::pair::RULE,
    drum::new_drum::RULE,
    lining::thickness::RULE,
    lining::rivets::RULE,
    lining::gap::RULE,
    lining::shoe::SPAN,
    lining::shoe::RECESS,
    lining::shoe::HOLE,
    lining::look::RULE,
    lining::code::RULE,
    lining::matched::RULE,
    lining::hardware::RULE,
    torque::spec::RULE,
    torque::stems::RULE,
    torque::pattern::RULE,
    torque::plan::RULE,
    torque::wrench::RULE,
    torque::wrench::CALIBRATION,
    torque::adapter::RULE,
    torque::log::RULE,
    torque::road_check::RULE,
    torque::moved::RULE,
    crate::conditions::RULE,
    slack::applied::RULE,
    slack::travel::RULE,
    slack::free::RULE,
    slack::sides::RULE,
    slack::expected::RULE,
    slack::angle::RULE,
    slack::adjuster::CLUTCH,
    slack::adjuster::GEAR,
    slack::adjuster::CLEVIS,
    slack::back_off::RULE,
    slack::set_up::RULE,
    slack::cause::RULE,
    slack::dates::RULE,
    slack::share::RULE,
    camshaft::play::RADIAL,
    camshaft::play::END,
    camshaft::spline::RULE,
    camshaft::anchor::GROOVE,
    camshaft::anchor::BORE,
    camshaft::look::RULE,
    slack::adjuster::BUSHING,
    slack::clevis::RULE,
    bearing::end_play::RULE,
    bearing::correction::RULE,
    bearing::sequence::RULE,
    stud::neighbours::RULE,
    stud::nuts::RULE,
    stud::wheel::RULE,
    stud::hand::RULE,
    stud::engagement::RULE,
    stud::past_nut::RULE,
    stud::run_out::RULE,
    stud::stand_out::STUDS,
    stud::stand_out::PILOT,
    axle::alike::RULE,
    air::caging::RULE,
    air::caging_torque::RULE,
    air::leak::RULE,
    air::release::RULE,
    air::warning::RULE,
    why::force::RULE,
    why::balance::RULE,
    why::geometry::RULE,
    why::heat::RULE,
    why::stopping::RULE,
    why::thread::RULE,
    why::clamp::RULE,
    why::long_form::RULE,
];

/// The rule of this name; `None` for one that this edition doesn't have.
pub fn by_id(id: &str) -> Option<&'static Rule> {
    RULES.iter().find(|rule| rule.id.0 == id)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Dimension;
    use crate::source::SOURCES;
    use crate::word::ALL;

    #[test]
    fn ids_are_unique_and_found() {
        for (at, rule) in RULES.iter().enumerate() {
            assert!(
                RULES[..at].iter().all(|other| other.id != rule.id),
                "{:?}",
                rule.id
            );
            assert_eq!(by_id(rule.id.0).map(|found| found.title), Some(rule.title));
        }
        assert!(by_id("no such rule").is_none());
    }

    #[test]
    fn every_rule_names_listed_sources_and_words() {
        for rule in RULES {
            assert!(!rule.sources.is_empty(), "{:?} has no source", rule.id);
            for source in rule.sources {
                assert!(SOURCES.contains(source), "{:?}: {source:?}", rule.id);
            }
            for word in [rule.title, rule.limits] {
                assert!(ALL.iter().any(|(key, _)| *key == word.key()), "{word:?}");
            }
        }
    }

    #[test]
    fn every_source_is_listed_under_a_rule() {
        let named = |source: &Source| {
            RULES.iter().any(|rule| {
                let figures = rule.figures.iter().map(|figure| figure.limit.source);
                let mut of_rule = rule.sources.iter().copied().chain(figures);
                of_rule.any(|of| of == source)
            })
        };
        let left: Vec<&&Source> = SOURCES.iter().filter(|source| !named(source)).collect();
        assert!(left.is_empty(), "{left:#?}");
    }

    #[test]
    fn nothing_from_memory_is_a_limit() {
        for rule in RULES {
            assert_ne!(rule.standing(), Standing::FromMemory, "{:?}", rule.id);
            for figure in rule.figures {
                assert_ne!(
                    figure.limit.source.standing,
                    Standing::FromMemory,
                    "{figure:?}"
                );
                assert!(SOURCES.contains(&figure.limit.source), "{figure:?}");
                let dimension = figure.limit.dimension();
                // Days and parts of a whole are never typed in as they stand in a limit.
                let typed = !matches!(dimension, Dimension::Day | Dimension::Ratio);
                let fits = rule.units.iter().any(|unit| unit.dimension() == dimension);
                assert!(!typed || fits, "{figure:?}");
            }
        }
    }
}
