use crate::bay::{Bay, L2, V, choice, lines, reading, typed};
use crate::card::StepState;
use crate::event::{Event, FactValue};
use crate::hand_back::tests::bay;
use crate::line::LineRef;

/// What was kept beside a reading: rule and verdict.
fn then(bay: &Bay, line: &LineRef) -> (String, String) {
    let entry = bay.entry(line);
    let Some(Event::Answered { judged, .. }) = entry.event() else {
        panic!("no answer: {entry:?}");
    };
    let [one] = judged.as_slice() else {
        panic!("not one judgement: {judged:?}");
    };
    (one.rule.clone(), one.verdict.clone())
}

/// Facts of the vehicle, what is read where, and what that comes to.
type Case = (
    &'static [(&'static str, &'static str)],
    (&'static str, &'static str),
    (&'static str, &'static str),
    StepState,
);

const COUPLED: &[(&str, &str)] = &[("coupled", "coupled")];
const TWO_BEHIND: &[(&str, &str)] = &[("coupled", "coupled"), ("trailers", "two-or-more")];
const BUILT_1974: &[(&str, &str)] = &[("built", "before-1975-03")];
const BUILT_1990: &[(&str, &str)] = &[("built", "from-1975-03")];
const TRAILER: &[(&str, &str)] = &[("vehicle", "semitrailer"), ("coupled", "alone-on-legs")];

/// Leak-down: driver's course text; warning: 49 CFR 571.121; release: S5.8.3.
const CASES: &[Case] = &[
    (
        &[],
        ("leak-off", "2"),
        ("air.leak", "at-the-limit"),
        StepState::Done,
    ),
    (
        &[],
        ("leak-off", "2.5"),
        ("air.leak", "beyond"),
        StepState::Unclear,
    ),
    (
        COUPLED,
        ("leak-off", "2.5"),
        ("air.leak", "within"),
        StepState::Done,
    ),
    (
        COUPLED,
        ("leak-on", "4.5"),
        ("air.leak", "beyond"),
        StepState::Unclear,
    ),
    (
        TWO_BEHIND,
        ("leak-on", "4.5"),
        ("air.leak", "within"),
        StepState::Done,
    ),
    (
        TRAILER,
        ("leak-on", "3.5"),
        ("air.leak", "beyond"),
        StepState::Unclear,
    ),
    (
        &[],
        ("warning", "61"),
        ("air.warning", "within"),
        StepState::Done,
    ),
    (
        &[],
        ("warning", "59"),
        ("air.warning", "beyond"),
        StepState::Unclear,
    ),
    // 55 psi for what was built before the standard: 49 CFR 393.51(c)(2).
    (
        BUILT_1974,
        ("warning", "56"),
        ("air.warning", "within"),
        StepState::Done,
    ),
    (
        BUILT_1974,
        ("warning", "54"),
        ("air.warning", "beyond"),
        StepState::Unclear,
    ),
    (
        BUILT_1990,
        ("warning", "56"),
        ("air.warning", "beyond"),
        StepState::Unclear,
    ),
    (
        BUILT_1990,
        ("warning", "60"),
        ("air.warning", "at-the-limit"),
        StepState::Done,
    ),
    (
        TRAILER,
        ("release", "69"),
        ("air.release", "within"),
        StepState::Done,
    ),
    (
        TRAILER,
        ("release", "71"),
        ("air.release", "beyond"),
        StepState::Unclear,
    ),
    (
        COUPLED,
        ("release", "71"),
        ("air.release", "no-reading"),
        StepState::Done,
    ),
];

#[test]
fn readings_of_air_are_judged_by_what_hangs_on_it() {
    for (facts, (ask, psi), (rule, verdict), state) in CASES {
        let mut bay = bay();
        for (fact, option) in *facts {
            bay.fact("tess", V, fact, choice(option)).unwrap();
        }
        let answer = reading(psi, "psi");
        let line = bay.say("tess", V, "air-up", ask, answer).unwrap();
        let expected = ((*rule).to_owned(), (*verdict).to_owned());
        assert_eq!(then(&bay, &line), expected, "{ask} {psi} {facts:?}");
        assert_eq!(bay.state(V, "air-up"), *state, "{ask} {psi} {facts:?}");
    }
}

#[test]
fn a_cut_out_never_makes_a_warning_kinder_than_the_standard() {
    let mut bay = bay();
    let answer = reading("100", "psi");
    bay.say("tess", V, "air-up", "cut-out", answer).unwrap();
    let answer = reading("55", "psi");
    let line = bay.say("tess", V, "air-up", "warning", answer).unwrap();
    assert_eq!(then(&bay, &line).1, "beyond");
}

#[test]
fn a_caging_bolt_is_held_against_its_tag() {
    let mut bay = bay();
    bay.say("tess", V, "chocks", "set", lines()).unwrap();
    bay.say("tess", L2, "caging", "caged", lines()).unwrap();
    let stands_out = |bay: &mut Bay, inches: &str| {
        let answer = reading(inches, "in");
        let line = bay.say("tess", L2, "caging", "stands-out", answer).unwrap();
        (then(bay, &line).1, bay.state(L2, "caging"))
    };
    let told = |verdict: &str, state| (verdict.to_owned(), state);
    // Nobody read the tag: shown, and nothing is said of it.
    let open = told("no-reading", StepState::Done);
    assert_eq!(stands_out(&mut bay, "2 1/2"), open);
    let tag = FactValue::Typed(typed("2 3/4", "in"));
    bay.fact("tess", L2, "bolt-tag", tag).unwrap();
    // The same reading, now that the tag is known.
    assert_eq!(bay.state(L2, "caging"), StepState::Unclear);
    let short = told("beyond", StepState::Unclear);
    assert_eq!(stands_out(&mut bay, "2 1/2"), short);
    let enough = told("at-the-limit", StepState::Done);
    assert_eq!(stands_out(&mut bay, "2 3/4"), enough);
    assert_eq!(stands_out(&mut bay, "3"), told("within", StepState::Done));
    bay.fact("tess", L2, "bolt-tag", FactValue::NotKnown)
        .unwrap();
    assert_eq!(bay.state(L2, "caging"), StepState::Done);
}
