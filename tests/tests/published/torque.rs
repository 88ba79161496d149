//! Wheel torques, adapters, wrenches, orders and logs as published, and units against a library.

use rules::quantity::{Duration, Torque};
use rules::shown::{Lean, decimal};
use rules::torque::adapter::{Adapted, at_fastener, setting};
use rules::torque::log::{Entry, LogFault, faults};
use rules::torque::pattern::{built_in, of_shop, warnings};
use rules::torque::plan::{Wheels, first_stage, passes};
use rules::torque::spec::{Film, Mounting, Nuts, State, Thread, pair_disagrees, range};
use rules::torque::wrench::gives;
use rules::unit::Unit;

use super::table::{rows, typed};

#[test]
fn printed_pairs() {
    for row in rows(include_str!("units.tsv")) {
        let torque = |name: &str, unit: &str| {
            typed(&format!("{} {unit}", row.text(name)))
                .unwrap()
                .quantity()
                .torque()
                .unwrap()
        };
        let (feet, metres) = (torque("lbf-ft", "lbf-ft"), torque("Nm", "Nm"));
        let apart = feet.checked_sub(metres).unwrap().magnitude();
        assert!(apart <= torque("off by at most", "Nm"), "{row}");
        assert_eq!(
            pair_disagrees(feet, metres),
            row.text("case") == "W08",
            "{row}"
        );
    }
    let exact = decimal(
        Torque::from_lbf_ft(175).into(),
        Unit::NewtonMetre,
        1,
        Lean::Nearest,
    );
    assert_eq!(exact.unwrap().text, "237.3");
}

#[test]
fn adapters() {
    for row in rows(include_str!("adapters.tsv")) {
        let length = |name| row.typed(name).unwrap().quantity().length().unwrap();
        let torque = row.typed("torque").unwrap();
        let adapted = Adapted {
            wrench: length("wrench"),
            adapter: length("adapter"),
            angle: row.typed("angle").unwrap().quantity().angle().unwrap(),
        };
        let value = torque.quantity().torque().unwrap();
        let got = match row.text("what") {
            "set" => setting(value, &adapted),
            _ => at_fastener(value, &adapted),
        };
        let places = row.text("places").parse().unwrap();
        let shown = decimal(got.unwrap().into(), torque.unit(), places, Lean::Nearest).unwrap();
        assert_eq!(shown.text, row.text("gives"), "{row}");
    }
}

#[test]
fn orders() {
    for row in rows(include_str!("patterns.tsv")) {
        let studs = row.text("studs").parse().unwrap();
        let order: Vec<u8> = row
            .text("order")
            .split('-')
            .map(|nut| nut.parse().unwrap())
            .collect();
        let taken = of_shop(studs, &order).unwrap();
        let warned: Vec<String> = warnings(&taken)
            .iter()
            .map(|one| format!("{one:?}"))
            .collect();
        let warned = if warned.is_empty() {
            "-".to_owned()
        } else {
            warned.join(",")
        };
        assert_eq!(warned, row.text("warned"), "{row}");
        let ours = built_in(studs).is_some_and(|pattern| pattern.order() == order);
        assert_eq!(ours, row.text("built in") == "yes", "{row}");
        if studs % 2 == 0 {
            let opposite = |pair: &[u8]| pair[0].abs_diff(pair[1]) == studs / 2;
            assert!(order.chunks(2).all(opposite), "{row}");
        }
    }
}

/// W38: a wrench of type II class A set to 475 N·m gives 456 to 494 (Facom S.325 manual, SEEN).
#[test]
fn wrench_band() {
    let ends = (Torque::from_nm(456), Torque::from_nm(494));
    assert_eq!(gives(Torque::from_nm(475)), Some(ends));
}

/// W39: 0.7 × 475 lbf·ft is 332.5 lbf·ft (TB 9-3950-253-13&P WP 0061-1, SEEN).
#[test]
fn first_of_two_stages() {
    let first = typed("332.5 lbf-ft").unwrap().quantity().torque();
    assert_eq!(first_stage(Torque::from_lbf_ft(475)), first);
}

/// Case 26 of the regulation's: ten studs, one nut missing, nine at torque (49 CFR 393.205(c), SEEN).
#[test]
fn a_missing_nut_is_never_made_up_by_the_others() {
    let state = State {
        threads: Film::Dry,
        washer: Film::Oiled,
    };
    let nuts = Nuts {
        mounting: Mounting::HubPiloted,
        thread: Thread::M22,
        state,
    };
    let plan = passes(Mounting::HubPiloted, Wheels::Dual);
    let log: Vec<Entry> = plan
        .iter()
        .map(|pass| Entry::Whole {
            pass: *pass,
            round: 1,
            at: Duration::ZERO,
            value: Some(Torque::from_lbf_ft(475)),
            except: vec![7],
        })
        .collect();
    let found = faults(&plan, &built_in(10).unwrap(), &range(&nuts, None), &log);
    let missed = |fault: &LogFault| matches!(fault, LogFault::Missed { nut: 7, .. });
    assert_eq!(
        found.iter().filter(|fault| missed(fault)).count(),
        plan.len(),
        "{found:?}"
    );
}

/// Common practice: the wrench turns the nut a little before it clicks.
#[test]
fn a_click_without_a_turn_is_found() {
    use rules::torque::log::{Felt, Line};
    let plan = passes(Mounting::HubPiloted, Wheels::Single);
    let pattern = built_in(10).unwrap();
    let state = State {
        threads: Film::Dry,
        washer: Film::Oiled,
    };
    let nuts = Nuts {
        mounting: Mounting::HubPiloted,
        thread: Thread::M22,
        state,
    };
    let log: Vec<Entry> = plan
        .iter()
        .flat_map(|pass| {
            pattern.order().iter().map(|nut| {
                Entry::Nut(Line {
                    pass: *pass,
                    round: 1,
                    nut: *nut,
                    at: Duration::ZERO,
                    value: None,
                    felt: Felt::ClickedAtOnce,
                })
            })
        })
        .collect();
    let found = faults(&plan, &pattern, &range(&nuts, None), &log);
    let over_run = |fault: &LogFault| matches!(fault, LogFault::ClickedAtOnce { .. });
    // In the final pass alone: in the check pass a click at once is what is wanted.
    assert_eq!(
        found.iter().filter(|fault| over_run(fault)).count(),
        10,
        "{found:?}"
    );
    assert_eq!(found.len(), 10, "{found:?}");
}
