use serde_json::{Value, json};

use super::ProcedureFault;
use crate::bay::SMALL;
use crate::procedure::Procedure;

/// Two facts, two stages, three steps; each row changes one thing in it.
fn sound() -> Value {
    json!({
        "format": 1, "id": "p", "edition": "1",
        "facts": [
            {"id": "rim", "scope": "A", "kind": {"choose": ["one", "multi"]}},
            {"id": "lift", "scope": "V", "kind": {"choose": ["jack", "shop"]}},
            {"id": "width", "scope": "E", "kind": {"reading": {"units": ["in", "mm"], "usual": ["1", "2"]}}},
            {"id": "studs", "scope": "A", "kind": {"count": {"usual": [5, 10]}}}
        ],
        "stages": [
            {"id": "first", "steps": [
                {"id": "a", "scope": "V", "holds": [{"on": {"step": "b"}, "protects": true}],
                 "asks": [{"id": "set", "kind": {"press": {"answers": [{"id": "yes"}]}}}]},
                {"id": "b", "scope": "E", "asks": [{"id": "look", "kind": {"choose": [{"id": "sound"}, {"id": "not", "clears": false}]}}]}
            ]},
            {"id": "second", "steps": [
                {"id": "c", "scope": "E", "asks": [{"id": "done", "kind": {"lines": ["one", "two"]}}]}
            ]}
        ]
    })
}

fn fault(at: &str, value: Value) -> ProcedureFault {
    let mut procedure = sound();
    let (parent, name) = at.rsplit_once('/').unwrap();
    let parent = procedure.pointer_mut(parent).expect(at);
    match parent {
        Value::Array(list) => {
            let index: usize = name.parse().unwrap();
            if index < list.len() {
                list[index] = value;
            } else {
                list.push(value);
            }
        }
        Value::Object(map) => {
            map.insert(name.to_owned(), value);
        }
        Value::Null | Value::Bool(_) | Value::Number(_) | Value::String(_) => {
            panic!("{at} is neither a list nor a map")
        }
    }
    match Procedure::read(&procedure.to_string()) {
        Err(fault) => fault,
        Ok(_) => panic!("{at} was accepted"),
    }
}

#[test]
fn the_sound_one_is_accepted() {
    let procedure = Procedure::read(&sound().to_string()).unwrap();
    assert_eq!(procedure.holds.len(), 1);
    assert!(Procedure::read(SMALL).is_ok());
}

const A: &str = "/stages/0/steps/0";
const B: &str = "/stages/0/steps/1";
const C: &str = "/stages/1/steps/0";

#[test]
fn table() {
    use ProcedureFault as F;
    let press = |answers: Value| json!([{"id": "set", "kind": {"press": {"answers": answers}}}]);
    let hold = |on: Value| json!([{"on": on, "protects": true}]);
    let rows: Vec<(&str, String, Value, F)> = vec![
        (
            "newer format",
            "/format".into(),
            json!(2),
            F::Format { found: 2 },
        ),
        (
            "format 0",
            "/format".into(),
            json!(0),
            F::Format { found: 0 },
        ),
        (
            "hold on no step",
            format!("{A}/holds"),
            hold(json!({"step": "z"})),
            F::UnknownStep {
                from: "a".into(),
                id: "z".into(),
            },
        ),
        (
            "hold on no stage",
            format!("{A}/holds"),
            hold(json!({"stage": "z"})),
            F::UnknownStage {
                from: "a".into(),
                id: "z".into(),
            },
        ),
        (
            "step when of no fact",
            format!("{B}/when"),
            json!({"z": ["one"]}),
            F::UnknownFact {
                from: "b".into(),
                id: "z".into(),
            },
        ),
        (
            "hold when of no fact",
            format!("{A}/holds"),
            json!([{"on": {"step": "b"}, "when": {"z": ["one"]}}]),
            F::UnknownFact {
                from: "a".into(),
                id: "z".into(),
            },
        ),
        (
            "ask when of no fact",
            format!("{B}/asks/0/when"),
            json!({"z": ["one"]}),
            F::UnknownFact {
                from: "b, ask look".into(),
                id: "z".into(),
            },
        ),
        (
            "when of a fact that is no choice",
            format!("{B}/when"),
            json!({"width": ["one"]}),
            F::UnknownFact {
                from: "b".into(),
                id: "width".into(),
            },
        ),
        (
            "asks for no fact",
            format!("{B}/asks/0"),
            json!({"id": "f", "kind": {"fact": "z"}}),
            F::UnknownFact {
                from: "b, ask f".into(),
                id: "z".into(),
            },
        ),
        (
            "when of no option",
            format!("{B}/when"),
            json!({"rim": ["one", "z"]}),
            F::UnknownOption {
                from: "b".into(),
                fact: "rim".into(),
                id: "z".into(),
            },
        ),
        (
            "offer when of no option",
            format!("{B}/asks/0"),
            json!({"id": "l", "kind": {"choose": [{"id": "x", "when": {"rim": ["z"]}}]}}),
            F::UnknownOption {
                from: "b, ask l".into(),
                fact: "rim".into(),
                id: "z".into(),
            },
        ),
        (
            "no such rule",
            format!("{B}/asks/0/rule"),
            json!("drum.taste"),
            F::UnknownRule {
                from: "b".into(),
                id: "drum.taste".into(),
            },
        ),
        (
            "twin stage",
            "/stages/1/id".into(),
            json!("first"),
            F::Twice {
                what: "stage",
                id: "first".into(),
            },
        ),
        (
            "twin step",
            format!("{C}/id"),
            json!("a"),
            F::Twice {
                what: "step",
                id: "a".into(),
            },
        ),
        (
            "twin fact",
            "/facts/1/id".into(),
            json!("rim"),
            F::Twice {
                what: "fact",
                id: "rim".into(),
            },
        ),
        (
            "twin option of a fact",
            "/facts/0/kind".into(),
            json!({"choose": ["one", "one"]}),
            F::Twice {
                what: "option",
                id: "one".into(),
            },
        ),
        (
            "twin ask",
            format!("{B}/asks/1"),
            json!({"id": "look", "kind": "look"}),
            F::Twice {
                what: "ask",
                id: "look".into(),
            },
        ),
        (
            "twin offer",
            format!("{A}/asks"),
            press(json!([{"id": "yes"}, {"id": "yes"}])),
            F::Twice {
                what: "option",
                id: "yes".into(),
            },
        ),
        (
            "twin line",
            format!("{C}/asks/0/kind"),
            json!({"lines": ["one", "one"]}),
            F::Twice {
                what: "option",
                id: "one".into(),
            },
        ),
        (
            "twin skip",
            format!("{C}/skips"),
            json!(["x", "x"]),
            F::Twice {
                what: "skip",
                id: "x".into(),
            },
        ),
        (
            "each waits for the other",
            format!("{B}/holds"),
            hold(json!({"step": "a"})),
            F::Cycle {
                steps: vec!["a".into(), "b".into()],
            },
        ),
        (
            "waits for itself",
            format!("{B}/holds"),
            hold(json!({"step": "b"})),
            F::Cycle {
                steps: vec!["b".into()],
            },
        ),
        (
            "holds its own stage",
            format!("{B}/holds"),
            hold(json!({"stage": "first"})),
            F::Cycle {
                steps: vec!["a".into(), "b".into()],
            },
        ),
        (
            "a fact that decides whether it is asked",
            format!("{B}/asks/0"),
            json!({"id": "f", "kind": {"fact": "rim"}, "when": {"rim": ["one"]}}),
            F::Cycle {
                steps: vec!["b".into()],
            },
        ),
        (
            "holds an earlier step",
            format!("{C}/holds"),
            hold(json!({"step": "a"})),
            F::HoldsEarlier {
                from: "c".into(),
                on: "a".into(),
            },
        ),
        (
            "no answer clears",
            format!("{A}/asks"),
            press(json!([{"id": "yes", "clears": false}])),
            F::NoHonestAnswer {
                step: "a".into(),
                ask: "set".into(),
                facts: "nothing else is known".into(),
            },
        ),
        (
            "no answer for one kind of lift",
            format!("{A}/asks"),
            press(
                json!([{"id": "yes", "when": {"lift": ["jack"]}}, {"id": "no", "clears": false}]),
            ),
            F::NoHonestAnswer {
                step: "a".into(),
                ask: "set".into(),
                facts: "lift is shop".into(),
            },
        ),
        (
            "no answer for one pair of facts",
            format!("{A}/asks"),
            press(
                json!([{"id": "yes", "when": {"lift": ["jack"]}}, {"id": "other", "when": {"rim": ["one"]}}]),
            ),
            F::NoHonestAnswer {
                step: "a".into(),
                ask: "set".into(),
                facts: "lift is shop, rim is multi".into(),
            },
        ),
        (
            "a ! that can be skipped",
            format!("{A}/skips"),
            json!(["rain"]),
            F::CanBeAvoided { step: "a".into() },
        ),
        (
            "a ! that is all optional",
            format!("{A}/asks/0/optional"),
            json!(true),
            F::CanBeAvoided { step: "a".into() },
        ),
        (
            "a ! that some facts leave without an ask",
            format!("{A}/asks/0/when"),
            json!({"lift": ["jack"]}),
            F::CanBeAvoided { step: "a".into() },
        ),
        (
            "no stages",
            "/stages".into(),
            json!([]),
            F::Empty {
                what: "procedure",
                id: "p".into(),
            },
        ),
        (
            "empty stage",
            "/stages/1/steps".into(),
            json!([]),
            F::Empty {
                what: "stage",
                id: "second".into(),
            },
        ),
        (
            "empty step",
            format!("{C}/asks"),
            json!([]),
            F::Empty {
                what: "step",
                id: "c".into(),
            },
        ),
        (
            "empty lines",
            format!("{C}/asks/0/kind"),
            json!({"lines": []}),
            F::Empty {
                what: "ask",
                id: "c, ask done".into(),
            },
        ),
        (
            "empty choice",
            format!("{B}/asks/0/kind"),
            json!({"choose": []}),
            F::Empty {
                what: "ask",
                id: "b, ask look".into(),
            },
        ),
        (
            "empty marks",
            format!("{B}/asks/0/kind"),
            json!({"exceptions": {"of": "studs", "marks": []}}),
            F::Empty {
                what: "ask",
                id: "b, ask look".into(),
            },
        ),
        (
            "empty names",
            format!("{B}/asks/0/kind"),
            json!({"exceptions": {"of": {"named": []}, "marks": ["x"]}}),
            F::Empty {
                what: "ask",
                id: "b, ask look".into(),
            },
        ),
        (
            "empty fact",
            "/facts/0/kind".into(),
            json!({"choose": []}),
            F::Empty {
                what: "fact",
                id: "rim".into(),
            },
        ),
        (
            "empty condition",
            format!("{B}/when"),
            json!({"rim": []}),
            F::Empty {
                what: "condition",
                id: "b".into(),
            },
        ),
        (
            "empty id",
            format!("{C}/id"),
            json!(""),
            F::Empty {
                what: "step",
                id: String::new(),
            },
        ),
        (
            "band upside down",
            "/facts/2/kind/reading/usual".into(),
            json!(["2", "1"]),
            F::BadBand {
                from: "width".into(),
            },
        ),
        (
            "band that is no number",
            "/facts/2/kind/reading/usual".into(),
            json!(["1", "x"]),
            F::BadBand {
                from: "width".into(),
            },
        ),
        (
            "band without a unit",
            "/facts/2/kind/reading/units".into(),
            json!([]),
            F::BadBand {
                from: "width".into(),
            },
        ),
        (
            "units of two kinds",
            "/facts/2/kind/reading/units".into(),
            json!(["in", "psi"]),
            F::BadBand {
                from: "width".into(),
            },
        ),
        (
            "count upside down",
            "/facts/3/kind/count/usual".into(),
            json!([10, 5]),
            F::BadBand {
                from: "studs".into(),
            },
        ),
        (
            "count of an ask upside down",
            format!("{B}/asks/0/kind"),
            json!({"count": {"usual": [2, 1]}}),
            F::BadBand {
                from: "b, ask look".into(),
            },
        ),
    ];
    for (why, at, value, expected) in rows {
        assert_eq!(fault(&at, value), expected, "{why}");
    }
}

/// What serde itself refuses says where and what.
#[test]
fn what_nobody_knows_is_unreadable() {
    for (at, value, says) in [
        ("/colour", json!("blue"), "colour"),
        ("/facts/0/colour", json!("blue"), "colour"),
        ("/facts/2/kind/reading/units", json!(["cubit"]), "cubit"),
        (&format!("{B}/asks/0/kind"), json!({"guess": []}), "guess"),
        (&format!("{B}/scope"), json!("W"), "W"),
        (
            &format!("{B}/holds"),
            json!([{"on": {"step": "c"}, "protect": true}]),
            "protect",
        ),
    ] {
        let ProcedureFault::Unreadable { why } = fault(at, value) else {
            panic!("{at} was readable");
        };
        assert!(why.contains(says), "{at}: {why}");
    }
    assert!(matches!(
        Procedure::read("").unwrap_err(),
        ProcedureFault::Unreadable { .. }
    ));
}

#[test]
fn a_hold_between_steps_that_never_meet_is_refused() {
    let mut procedure = sound();
    procedure["stages"][0]["steps"][0]["when"] = json!({"lift": ["jack"]});
    procedure["stages"][0]["steps"][1]["when"] = json!({"lift": ["shop"]});
    let read = Procedure::read(&procedure.to_string());
    assert_eq!(
        read.unwrap_err(),
        ProcedureFault::HoldsOutOfScope {
            from: "a".into(),
            on: "b".into()
        }
    );
    // A hold on the rest passes over it and keeps the others.
    procedure["stages"][0]["steps"][0]["holds"] = json!([{"on": "rest", "protects": true}]);
    let read = Procedure::read(&procedure.to_string()).unwrap();
    let held: Vec<&str> = read.holds.iter().map(|hold| hold.then.as_str()).collect();
    assert_eq!(held, ["c"]);
}

#[test]
fn a_fact_that_may_be_unknown_needs_an_answer_for_that_too() {
    let mut procedure = sound();
    procedure["facts"][1]["may_be_unknown"] = json!(true);
    procedure["stages"][0]["steps"][0]["asks"][0]["kind"]["press"]["answers"] =
        json!([{"id": "yes", "when": {"lift": ["jack", "shop"]}}]);
    assert_eq!(
        Procedure::read(&procedure.to_string()).unwrap_err(),
        ProcedureFault::NoHonestAnswer {
            step: "a".into(),
            ask: "set".into(),
            facts: "lift is not known".into()
        }
    );
}

#[test]
fn the_shipped_procedure_is_accepted() {
    let text = include_str!("../../../../../assets/procedure/s-cam-reline.json");
    match Procedure::read(text) {
        Ok(procedure) => assert!(procedure.steps().any(|step| step.protects())),
        Err(fault) => panic!("{fault}"),
    }
}
