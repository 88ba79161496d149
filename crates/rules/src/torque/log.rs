//! What the log of the nuts shows: what was missed, skipped, out of order, over-run or still turning.
//!
//! A pass is logged nut by nut or as a whole with exceptions. A pass that was begun again counts by
//! its last round. The log proves what was logged, not what was done.

use crate::quantity::{Duration, Quantity, Torque};
use crate::rules::{self, Figure, Rule};
use crate::source;
use crate::torque::pattern::Pattern;
use crate::torque::plan::{Kind, Pass};
use crate::torque::spec::Range;
use crate::unit::Unit;
use crate::verdict::{Limit, RuleId, Verdict};
use crate::word::{self, Argument, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("torque.log"),
    title: word::RULE_TORQUE_LOG,
    units: &[Unit::PoundForceFoot, Unit::NewtonMetre, Unit::Minute],
    limits: word::LIMIT_TORQUE_LOG,
    figures: FIGURES,
    sources: &[
        &source::COMMON_PRACTICE,
        &source::NUTS_PRESENT,
        &source::PATTERN_OPPOSITE,
    ],
};

const FIGURES: &[Figure] = &[Figure {
    name: BREAK,
    limit: Limit::at_most(
        Quantity::Duration(Duration::from_minutes(30)),
        &source::COMMON_PRACTICE,
    ),
}];

const BREAK: &str = "broken off";

/// In this round of the check pass nothing may turn any more. Source: common practice.
const LAST_ROUND: u8 = 3;

/// What a nut did under the wrench.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Felt {
    /// What the pass asks for.
    Right,
    /// It clicked without turning: right in a check pass, over-run in a final pass.
    ClickedAtOnce,
    /// It turned before it clicked: right in a final pass, not in a check pass.
    Turned,
}

/// One nut, logged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Line {
    /// In which pass.
    pub pass: Pass,
    /// In which round of it, counted from 1; a pass that is begun again is a new round.
    pub round: u8,
    /// Which nut, counted clockwise from the top.
    pub nut: u8,
    /// How long after the first line.
    pub at: Duration,
    /// With what value, when it was said.
    pub value: Option<Torque>,
    /// What it did.
    pub felt: Felt,
}

/// One entry of the log.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Entry {
    /// One nut.
    Nut(Line),
    /// A whole pass in its order, but for some nuts.
    Whole {
        /// In which pass.
        pass: Pass,
        /// In which round of it.
        round: u8,
        /// How long after the first line it was ended.
        at: Duration,
        /// With what value.
        value: Option<Torque>,
        /// The nuts that weren't done.
        except: Vec<u8>,
    },
}

/// What is wrong with a log.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LogFault {
    /// A pass without a line.
    Skipped {
        /// Which.
        pass: Pass,
    },
    /// A nut without a line.
    Missed {
        /// In which pass.
        pass: Pass,
        /// Which.
        nut: u8,
    },
    /// A nut that the wheel doesn't have.
    NoSuchNut {
        /// In which pass.
        pass: Pass,
        /// Which.
        nut: u8,
    },
    /// A nut that came where another was due.
    OutOfOrder {
        /// In which pass.
        pass: Pass,
        /// Which.
        nut: u8,
        /// The one that was due.
        expected: u8,
    },
    /// Clicked without turning in a final pass, and not done again.
    ClickedAtOnce {
        /// In which pass.
        pass: Pass,
        /// Which.
        nut: u8,
    },
    /// Turned in a check pass, and no further round was made.
    Turned {
        /// In which pass.
        pass: Pass,
        /// Which.
        nut: u8,
    },
    /// Turned in the third round.
    StillTurning {
        /// In which pass.
        pass: Pass,
        /// Which.
        nut: u8,
    },
    /// Too long a break in a pass.
    BrokenOff {
        /// In which pass.
        pass: Pass,
        /// How long.
        pause: Duration,
    },
    /// A line that is earlier than the one before it.
    Backwards {
        /// In which pass.
        pass: Pass,
    },
    /// A value outside its range.
    Outside {
        /// In which pass.
        pass: Pass,
        /// Which nut.
        nut: u8,
        /// At what value.
        value: Torque,
    },
}

impl LogFault {
    /// What the screen says, and what to do.
    pub fn remark(self) -> Remark {
        let nut = |nut: u8| Argument::Count(u32::from(nut));
        let of = |pass: Pass| ("pass", Argument::Word(pass.word()));
        match self {
            Self::Skipped { pass } => Remark::with(word::TORQUE_LOG_SKIPPED, [of(pass)]),
            Self::Missed { pass, nut: n } => {
                Remark::with(word::TORQUE_LOG_MISSED, [of(pass), ("nut", nut(n))])
            }
            Self::NoSuchNut { pass, nut: n } => {
                Remark::with(word::TORQUE_LOG_NO_SUCH_NUT, [of(pass), ("nut", nut(n))])
            }
            Self::OutOfOrder {
                pass,
                nut: n,
                expected,
            } => Remark::with(
                word::TORQUE_LOG_OUT_OF_ORDER,
                [of(pass), ("nut", nut(n)), ("expected", nut(expected))],
            ),
            Self::ClickedAtOnce { pass, nut: n } => Remark::with(
                word::TORQUE_LOG_CLICKED_AT_ONCE,
                [of(pass), ("nut", nut(n))],
            ),
            Self::Turned { pass, nut: n } => {
                Remark::with(word::TORQUE_LOG_TURNED, [of(pass), ("nut", nut(n))])
            }
            Self::StillTurning { pass, nut: n } => {
                Remark::with(word::TORQUE_LOG_STILL_TURNING, [of(pass), ("nut", nut(n))])
            }
            Self::BrokenOff { pass, pause } => Remark::with(
                word::TORQUE_LOG_BROKEN_OFF,
                [of(pass), ("minutes", Argument::Quantity(pause.into()))],
            ),
            Self::Backwards { pass } => Remark::with(word::TORQUE_LOG_BACKWARDS, [of(pass)]),
            Self::Outside {
                pass,
                nut: n,
                value,
            } => Remark::with(
                word::TORQUE_LOG_OUTSIDE,
                [
                    of(pass),
                    ("nut", nut(n)),
                    ("value", Argument::Quantity(value.into())),
                ],
            ),
        }
    }
}

/// What is wrong with the log of a wheel; nothing when every pass of the plan is there and right.
///
/// Units: any torque and time. Errors: none; a log that shows nothing is all faults.
/// Source: [`source::COMMON_PRACTICE`]; a missing nut also [`source::NUTS_PRESENT`].
pub fn faults(plan: &[Pass], pattern: &Pattern, range: &Range, log: &[Entry]) -> Vec<LogFault> {
    faults_by(FIGURES, plan, pattern, range, log)
}

fn faults_by(
    figures: &[Figure],
    plan: &[Pass],
    pattern: &Pattern,
    range: &Range,
    log: &[Entry],
) -> Vec<LogFault> {
    let lines: Vec<Line> = log.iter().flat_map(|entry| entry.lines(pattern)).collect();
    let mut faults = Vec::new();
    for pass in plan {
        let of_pass: Vec<&Line> = lines.iter().filter(|line| line.pass == *pass).collect();
        let Some(last) = of_pass.iter().map(|line| line.round).max() else {
            faults.push(LogFault::Skipped { pass: *pass });
            continue;
        };
        let round: Vec<&Line> = of_pass
            .iter()
            .copied()
            .filter(|line| line.round == last)
            .collect();
        order(*pass, pattern, &round, &mut faults);
        match pass.kind {
            Kind::Seat => {}
            Kind::Final => {
                over_run(*pass, pattern, &round, &mut faults);
                values(*pass, range, &round, &mut faults);
                breaks(figures, *pass, &round, &mut faults);
            }
            Kind::Check => {
                turning(*pass, last, &of_pass, &mut faults);
                values(*pass, range, &round, &mut faults);
                breaks(figures, *pass, &round, &mut faults);
            }
        }
    }
    faults
}

impl Entry {
    fn lines(&self, pattern: &Pattern) -> Vec<Line> {
        match self {
            Self::Nut(line) => vec![*line],
            Self::Whole {
                pass,
                round,
                at,
                value,
                except,
            } => pattern
                .order()
                .iter()
                .filter(|nut| !except.contains(nut))
                .map(|nut| Line {
                    pass: *pass,
                    round: *round,
                    nut: *nut,
                    at: *at,
                    value: *value,
                    felt: Felt::Right,
                })
                .collect(),
        }
    }
}

/// Every nut once, in its order; a nut that is done again keeps its first place.
fn order(pass: Pass, pattern: &Pattern, round: &[&Line], faults: &mut Vec<LogFault>) {
    let mut due: Vec<u8> = pattern
        .order()
        .iter()
        .copied()
        .filter(|nut| round.iter().any(|line| line.nut == *nut))
        .collect();
    let mut seen: Vec<u8> = Vec::new();
    for line in round
        .iter()
        .filter(|line| !pattern.order().contains(&line.nut))
    {
        faults.push(LogFault::NoSuchNut {
            pass,
            nut: line.nut,
        });
    }
    for line in round
        .iter()
        .filter(|line| pattern.order().contains(&line.nut))
    {
        if seen.contains(&line.nut) {
            continue;
        }
        seen.push(line.nut);
        if let Some(expected) = due.first().copied()
            && expected != line.nut
        {
            faults.push(LogFault::OutOfOrder {
                pass,
                nut: line.nut,
                expected,
            });
        }
        due.retain(|nut| *nut != line.nut);
    }
    let missed = pattern
        .order()
        .iter()
        .copied()
        .filter(|nut| !seen.contains(nut));
    faults.extend(missed.map(|nut| LogFault::Missed { pass, nut }));
}

/// A nut that clicked at once has to be backed off and done again: its last line counts.
fn over_run(pass: Pass, pattern: &Pattern, round: &[&Line], faults: &mut Vec<LogFault>) {
    for nut in pattern.order() {
        let last = round.iter().rev().find(|line| line.nut == *nut);
        if last.is_some_and(|line| line.felt == Felt::ClickedAtOnce) {
            faults.push(LogFault::ClickedAtOnce { pass, nut: *nut });
        }
    }
}

fn turning(pass: Pass, last: u8, of_pass: &[&Line], faults: &mut Vec<LogFault>) {
    for line in of_pass.iter().filter(|line| line.felt == Felt::Turned) {
        if line.round >= LAST_ROUND {
            faults.push(LogFault::StillTurning {
                pass,
                nut: line.nut,
            });
        } else if line.round == last {
            faults.push(LogFault::Turned {
                pass,
                nut: line.nut,
            });
        }
    }
}

fn values(pass: Pass, range: &Range, round: &[&Line], faults: &mut Vec<LogFault>) {
    for line in round {
        let Some(value) = line.value else { continue };
        let beyond = |limit: &Limit| limit.judge(value.into()) == Some(Verdict::Beyond);
        if range.limits.iter().any(beyond) {
            faults.push(LogFault::Outside {
                pass,
                nut: line.nut,
                value,
            });
        }
    }
}

fn breaks(figures: &[Figure], pass: Pass, round: &[&Line], faults: &mut Vec<LogFault>) {
    let most = rules::named(figures, BREAK);
    for (before, after) in round.iter().zip(round.iter().skip(1)) {
        let Some(pause) = after.at.checked_sub(before.at) else {
            continue;
        };
        if pause < Duration::ZERO {
            faults.push(LogFault::Backwards { pass });
        }
        if most.and_then(|limit| limit.judge(pause.into())) == Some(Verdict::Beyond) {
            faults.push(LogFault::BrokenOff { pass, pause });
        }
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::{Row, cases};
    use crate::nudge::Outcome;
    use crate::torque::pattern::built_in;
    use crate::torque::plan::{Set, Wheels, passes};
    use crate::torque::spec::{Film, Mounting, Nuts, State, Thread, range};

    fn five() -> Pattern {
        built_in(5).unwrap()
    }

    fn hub() -> Range {
        let state = State {
            threads: Film::Dry,
            washer: Film::Oiled,
        };
        range(
            &Nuts {
                mounting: Mounting::HubPiloted,
                thread: Thread::M22,
                state,
            },
            None,
        )
    }

    fn pass(text: &str) -> Pass {
        let kind = match text.trim_end_matches(|c: char| c.is_ascii_digit()) {
            "seat" => Kind::Seat,
            "final" => Kind::Final,
            "check" => Kind::Check,
            other => panic!("no pass {other}"),
        };
        Pass {
            set: Set::All,
            kind,
        }
    }

    fn round(text: &str) -> u8 {
        text.trim_start_matches(char::is_alphabetic)
            .parse()
            .unwrap_or(1)
    }

    /// "final: 1 3 5@10 2! 4=440" or "seat: all -2": nuts, minutes, over-run or turned, values.
    fn entries(text: &str) -> Vec<Entry> {
        let mut entries = Vec::new();
        let mut at = 0;
        for part in text
            .split("; ")
            .filter(|part| !part.is_empty() && *part != "-")
        {
            let (name, nuts) = part.split_once(": ").unwrap();
            let (pass, round) = (pass(name), round(name));
            if let Some(except) = nuts.strip_prefix("all") {
                let except = except
                    .split(" -")
                    .filter_map(|nut| nut.parse().ok())
                    .collect();
                let at = Duration::from_minutes(at);
                entries.push(Entry::Whole {
                    pass,
                    round,
                    at,
                    value: None,
                    except,
                });
                continue;
            }
            for nut in nuts.split(' ') {
                let (nut, value) = nut
                    .split_once('=')
                    .map_or((nut, None), |(nut, v)| (nut, Some(v)));
                let nut = match nut.split_once('@') {
                    Some((nut, minute)) => {
                        at = minute.parse().unwrap();
                        nut
                    }
                    None => nut,
                };
                let felt = match nut.chars().last() {
                    Some('!') => Felt::ClickedAtOnce,
                    Some('~') => Felt::Turned,
                    _ => Felt::Right,
                };
                entries.push(Entry::Nut(Line {
                    pass,
                    round,
                    nut: nut.trim_end_matches(['!', '~']).parse().unwrap(),
                    at: Duration::from_minutes(at),
                    value: value.map(|v| Torque::from_lbf_ft(v.parse().unwrap())),
                    felt,
                }));
            }
        }
        entries
    }

    fn said(fault: &LogFault) -> String {
        let remark = fault.remark();
        let arguments: Vec<String> = remark
            .arguments
            .iter()
            .map(|(_, argument)| match argument {
                Argument::Word(word) => word.key().trim_start_matches("torque.pass.").to_owned(),
                Argument::Count(n) => n.to_string(),
                Argument::Quantity(Quantity::Duration(pause)) => (pause.base() / 60).to_string(),
                Argument::Quantity(_) => "value".to_owned(),
                other => panic!("{other:?}"),
            })
            .collect();
        format!(
            "{} {}",
            remark.word.key().trim_start_matches("torque.log."),
            arguments.join(" ")
        )
    }

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let outcome = |row: Row<'_>| {
            let plan = passes(Mounting::HubPiloted, Wheels::Single);
            let found = faults_by(figures, &plan, &five(), &hub(), &entries(row.text("log")));
            let found: Vec<String> = found.iter().map(said).collect();
            let got = if found.is_empty() {
                "-".to_owned()
            } else {
                found.join("; ")
            };
            (
                format!("{row}: {got}"),
                format!("{row}: {}", row.text("faults")),
            )
        };
        cases(include_str!("log.tsv"))
            .into_iter()
            .map(outcome)
            .collect()
    }

    #[test]
    fn table() {
        for (got, expected) in outcomes(FIGURES) {
            assert_eq!(got, expected);
        }
    }

    #[test]
    fn a_dual_needs_both_sets() {
        let plan = passes(Mounting::BallSeat, Wheels::Dual);
        let whole = |pass: &Pass| Entry::Whole {
            pass: *pass,
            round: 1,
            at: Duration::ZERO,
            value: None,
            except: Vec::new(),
        };
        let log: Vec<Entry> = plan.iter().map(whole).collect();
        assert_eq!(faults(&plan, &five(), &hub(), &log), []);
        let outer_only = &log[3..];
        let skipped: Vec<LogFault> = plan[..3]
            .iter()
            .map(|pass| LogFault::Skipped { pass: *pass })
            .collect();
        assert_eq!(faults(&plan, &five(), &hub(), outer_only), skipped);
    }

    const GOOD: &str =
        "seat: all; final: 1=475 3=475 5=475 2=475 4=475; check: 1=475 3=475 5=475 2=475 4=475";

    proptest! {
        #[test]
        fn a_looser_nut_is_never_judged_kinder(at in 1_usize..11, value in 0_i64..500, lower in 0_i64..500) {
            let plan = passes(Mounting::HubPiloted, Wheels::Single);
            let found = |value: i64| {
                let mut log = entries(GOOD);
                if let Some(Entry::Nut(line)) = log.get_mut(at) {
                    line.value = Some(Torque::from_lbf_ft(value));
                }
                faults(&plan, &five(), &hub(), &log).len()
            };
            prop_assert!(found(value.max(lower)) <= found(value.min(lower)));
        }

        #[test]
        fn a_turning_or_a_missing_nut_is_never_judged_kinder(at in 1_usize..11) {
            let plan = passes(Mounting::HubPiloted, Wheels::Single);
            let good = entries(GOOD);
            prop_assert!(faults(&plan, &five(), &hub(), &good).is_empty());
            let mut missing = good.clone();
            missing.remove(at);
            prop_assert!(!faults(&plan, &five(), &hub(), &missing).is_empty());
            let mut turning = good;
            if let Some(Entry::Nut(line)) = turning.get_mut(at) {
                line.felt = if line.pass.kind == Kind::Check { Felt::Turned } else { Felt::ClickedAtOnce };
            }
            prop_assert!(!faults(&plan, &five(), &hub(), &turning).is_empty());
        }
    }
}
