//! Moves every published figure by one graduation either way: some row of its table has to notice.
//!
//! A figure that can be moved unnoticed isn't tested. Only for tests.

use crate::quantity::{Dimension, Quantity};
use crate::rules::{Figure, RULES, Rule};
use crate::verdict::Limit;

/// One row of a table as judged: what came out, and what the table expects.
pub(crate) type Outcome = (String, String);

/// A rule and how to judge all rows of its table by some figures.
pub(crate) struct Probe {
    pub(crate) rule: Rule,
    pub(crate) outcomes: fn(&[Figure]) -> Vec<Outcome>,
}

const PROBES: &[Probe] = &[
    Probe {
        rule: crate::rim::RULE,
        outcomes: crate::rim::tests::outcomes,
    },
    Probe {
        rule: crate::drum::diameter::RULE,
        outcomes: crate::drum::diameter::tests::outcomes,
    },
    Probe {
        rule: crate::drum::round::RULE,
        outcomes: crate::drum::round::tests::outcomes,
    },
    Probe {
        rule: crate::drum::taper::RULE,
        outcomes: crate::drum::taper::tests::outcomes,
    },
    Probe {
        rule: crate::drum::bell_mouth::RULE,
        outcomes: crate::drum::bell_mouth::tests::outcomes,
    },
    Probe {
        rule: crate::drum::run_out::RULE,
        outcomes: crate::drum::run_out::tests::outcomes,
    },
    Probe {
        rule: crate::drum::turn::RULE,
        outcomes: crate::drum::turn::tests::outcomes,
    },
    Probe {
        rule: crate::drum::new_drum::RULE,
        outcomes: crate::drum::new_drum::tests::outcomes,
    },
    Probe {
        rule: crate::lining::thickness::RULE,
        outcomes: crate::lining::thickness::tests::outcomes,
    },
    Probe {
        rule: crate::lining::rivets::RULE,
        outcomes: crate::lining::rivets::tests::outcomes,
    },
    Probe {
        rule: crate::lining::gap::RULE,
        outcomes: crate::lining::gap::tests::outcomes,
    },
    Probe {
        rule: crate::lining::shoe::SPAN,
        outcomes: crate::lining::shoe::tests::span,
    },
    Probe {
        rule: crate::lining::shoe::RECESS,
        outcomes: crate::lining::shoe::tests::recess,
    },
    Probe {
        rule: crate::lining::shoe::HOLE,
        outcomes: crate::lining::shoe::tests::hole,
    },
    Probe {
        rule: crate::lining::code::RULE,
        outcomes: crate::lining::code::tests::outcomes,
    },
    Probe {
        rule: crate::torque::spec::RULE,
        outcomes: crate::torque::spec::tests::outcomes,
    },
    Probe {
        rule: crate::torque::plan::RULE,
        outcomes: crate::torque::plan::tests::outcomes,
    },
    Probe {
        rule: crate::torque::wrench::RULE,
        outcomes: crate::torque::wrench::tests::outcomes,
    },
    Probe {
        rule: crate::torque::wrench::CALIBRATION,
        outcomes: crate::torque::wrench::tests::calibration_outcomes,
    },
    Probe {
        rule: crate::torque::log::RULE,
        outcomes: crate::torque::log::tests::outcomes,
    },
    Probe {
        rule: crate::torque::road_check::RULE,
        outcomes: crate::torque::road_check::tests::outcomes,
    },
    Probe {
        rule: crate::conditions::RULE,
        outcomes: crate::conditions::tests::outcomes,
    },
    Probe {
        rule: crate::slack::applied::RULE,
        outcomes: crate::slack::applied::tests::outcomes,
    },
    Probe {
        rule: crate::slack::free::RULE,
        outcomes: crate::slack::free::tests::outcomes,
    },
    Probe {
        rule: crate::slack::angle::RULE,
        outcomes: crate::slack::angle::tests::outcomes,
    },
    Probe {
        rule: crate::slack::adjuster::CLUTCH,
        outcomes: crate::slack::adjuster::tests::clutch,
    },
    Probe {
        rule: crate::slack::adjuster::GEAR,
        outcomes: crate::slack::adjuster::tests::gear,
    },
    Probe {
        rule: crate::slack::adjuster::CLEVIS,
        outcomes: crate::slack::adjuster::tests::clevis,
    },
    Probe {
        rule: crate::slack::dates::RULE,
        outcomes: crate::slack::dates::tests::outcomes,
    },
    Probe {
        rule: crate::slack::share::RULE,
        outcomes: crate::slack::share::tests::outcomes,
    },
    Probe {
        rule: crate::camshaft::play::RADIAL,
        outcomes: crate::camshaft::play::tests::radial,
    },
    Probe {
        rule: crate::camshaft::play::END,
        outcomes: crate::camshaft::play::tests::end,
    },
    Probe {
        rule: crate::camshaft::spline::RULE,
        outcomes: crate::camshaft::spline::tests::outcomes,
    },
    Probe {
        rule: crate::camshaft::anchor::GROOVE,
        outcomes: crate::camshaft::anchor::tests::groove,
    },
    Probe {
        rule: crate::camshaft::anchor::BORE,
        outcomes: crate::camshaft::anchor::tests::bore,
    },
    Probe {
        rule: crate::slack::adjuster::BUSHING,
        outcomes: crate::slack::adjuster::tests::bushing,
    },
    Probe {
        rule: crate::bearing::end_play::RULE,
        outcomes: crate::bearing::end_play::tests::outcomes,
    },
    Probe {
        rule: crate::bearing::correction::RULE,
        outcomes: crate::bearing::correction::tests::outcomes,
    },
    Probe {
        rule: crate::bearing::sequence::RULE,
        outcomes: crate::bearing::sequence::tests::outcomes,
    },
    Probe {
        rule: crate::stud::engagement::RULE,
        outcomes: crate::stud::engagement::tests::outcomes,
    },
    Probe {
        rule: crate::stud::past_nut::RULE,
        outcomes: crate::stud::past_nut::tests::outcomes,
    },
    Probe {
        rule: crate::stud::run_out::RULE,
        outcomes: crate::stud::run_out::tests::outcomes,
    },
    Probe {
        rule: crate::stud::stand_out::STUDS,
        outcomes: crate::stud::stand_out::tests::studs,
    },
    Probe {
        rule: crate::stud::stand_out::PILOT,
        outcomes: crate::stud::stand_out::tests::pilot,
    },
    Probe {
        rule: crate::air::caging::RULE,
        outcomes: crate::air::caging::tests::outcomes,
    },
    Probe {
        rule: crate::air::caging_torque::RULE,
        outcomes: crate::air::caging_torque::tests::outcomes,
    },
    Probe {
        rule: crate::air::leak::RULE,
        outcomes: crate::air::leak::tests::outcomes,
    },
    Probe {
        rule: crate::air::release::RULE,
        outcomes: crate::air::release::tests::outcomes,
    },
    Probe {
        rule: crate::air::warning::RULE,
        outcomes: crate::air::warning::tests::outcomes,
    },
];

/// The smallest step in which a dimension is read here.
fn graduation(dimension: Dimension) -> i128 {
    match dimension {
        // A tenth of a millimetre; strokes are read far coarser.
        Dimension::Length => 100_000,
        Dimension::Mass => 453_592_370,
        Dimension::Torque => 1_129_848_290_276_167,
        Dimension::Pressure => 444_822_161_526_050,
        Dimension::Angle => 100_000,
        Dimension::Duration => 60,
        Dimension::Ratio => 10_000,
        Dimension::Day => 1,
    }
}

fn moved(quantity: Quantity, by: i128) -> Quantity {
    let dimension = quantity.dimension();
    Quantity::from_base(dimension, quantity.base() + by * graduation(dimension)).unwrap()
}

/// Every way to move a limit by one graduation: as a whole, and each figure of a pair by itself.
fn nudged(limit: Limit) -> Vec<Limit> {
    let mut limits = Vec::new();
    for by in [-1, 1] {
        let figure = moved(limit.figure, by);
        match limit.beside {
            None => limits.push(Limit { figure, ..limit }),
            Some(beside) => {
                let other = Some(moved(beside, by));
                limits.push(Limit {
                    figure,
                    beside: other,
                    ..limit
                });
                limits.push(Limit { figure, ..limit });
                limits.push(Limit {
                    beside: other,
                    ..limit
                });
            }
        }
    }
    limits
}

#[test]
fn every_rule_with_figures_has_a_probe() {
    for rule in RULES.iter().filter(|rule| !rule.figures.is_empty()) {
        let probes = PROBES
            .iter()
            .filter(|probe| probe.rule.id == rule.id)
            .count();
        assert_eq!(probes, 1, "{:?}", rule.id);
    }
}

#[test]
fn every_table_comes_out_as_written() {
    for probe in PROBES {
        for (got, expected) in (probe.outcomes)(probe.rule.figures) {
            assert_eq!(got, expected, "{:?}", probe.rule.id);
        }
    }
}

#[test]
fn every_figure_is_held_by_a_row_on_both_sides() {
    let mut moves = 0;
    for probe in PROBES {
        let as_printed = (probe.outcomes)(probe.rule.figures);
        for (at, figure) in probe.rule.figures.iter().enumerate() {
            for limit in nudged(figure.limit) {
                let mut figures = probe.rule.figures.to_vec();
                figures[at] = Figure { limit, ..*figure };
                let noticed = (probe.outcomes)(&figures) != as_printed;
                assert!(
                    noticed,
                    "{:?} {}: {limit:?} goes unnoticed",
                    probe.rule.id, figure.name
                );
                moves += 1;
            }
        }
    }
    assert!(moves > 0);
}
