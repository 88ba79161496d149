use serde_json::{Value, json};

use super::{FORMAT, Line, LineFault, N_MAX, Said, Sha, TICK_MAX};
use crate::bay::Bay;
use crate::event::{Event, FinalPass, ShopStep, ShopValues};
use crate::procedure::Scope;

fn some_lines() -> Vec<Line> {
    let bay = Bay::raised();
    bay.trail.in_order().into_iter().cloned().collect()
}

/// The line as a newer or a broken app would have written it, with the right hash.
fn rewritten(line: &Line, change: impl FnOnce(&mut Value)) -> String {
    let (_, json) = line.text().split_once(' ').unwrap();
    let mut value: Value = serde_json::from_str(json).unwrap();
    change(&mut value);
    signed(&value.to_string())
}

fn signed(json: &str) -> String {
    format!("{} {json}", Sha::of(json.as_bytes()))
}

#[test]
fn what_is_written_reads_back_byte_for_byte() {
    for line in some_lines() {
        let read = Line::read(line.text()).unwrap();
        assert_eq!(read.text(), line.text());
        assert_eq!(read, line);
    }
}

#[test]
fn odd_text_reads_back() {
    let mut bay = Bay::open();
    for text in ["\"\\\n\r\n\t", "é 漢字 \u{1f69b}", "\u{2028}</script>", " "] {
        bay.force(
            "tess",
            Event::HoldPassed {
                at: "E2L".parse().unwrap(),
                step: "a b".into(),
                first: "".into(),
                why: text.to_owned(),
            },
        );
    }
    for line in bay.trail.all() {
        assert_eq!(Line::read(line.text()).as_ref(), Ok(line));
        assert!(!line.text().contains(['\n', '\r']), "{}", line.text());
    }
}

#[test]
fn one_changed_byte_is_caught_wherever_it_is() {
    for line in some_lines().iter().take(8) {
        let bytes = line.text().as_bytes();
        for at in 0..bytes.len() {
            for flip in [0x01, 0x02, 0x20, 0x80] {
                let mut changed = bytes.to_vec();
                changed[at] ^= flip;
                // What is no text any more is refused before it gets here.
                let Ok(text) = str::from_utf8(&changed) else {
                    continue;
                };
                let fault = Line::read(text).unwrap_err();
                assert!(
                    matches!(fault, LineFault::Changed { .. } | LineFault::NotALine),
                    "byte {at}: {fault}"
                );
            }
        }
    }
}

#[test]
fn a_cut_line_is_caught_at_every_length() {
    let line = &some_lines()[0];
    for length in 0..line.text().len() {
        let fault = Line::read(&line.text()[..length]).unwrap_err();
        assert!(
            matches!(fault, LineFault::Changed { .. } | LineFault::NotALine),
            "{length}: {fault}"
        );
    }
    let longer = format!("{} ", line.text());
    assert!(matches!(
        Line::read(&longer),
        Err(LineFault::Changed { .. })
    ));
}

#[test]
fn a_newer_format_says_so() {
    let line = &some_lines()[0];
    let newer = rewritten(line, |value| value["f"] = json!(FORMAT + 1));
    assert_eq!(
        Line::read(&newer),
        Err(LineFault::Newer { format: FORMAT + 1 })
    );
    // Even if nothing else of it can be understood.
    assert_eq!(
        Line::read(&signed(r#"{"f":7}"#)),
        Err(LineFault::Newer { format: 7 })
    );
}

#[test]
fn an_unknown_kind_says_whether_it_may_be_passed_over() {
    let line = &some_lines()[0];
    for (old, expected) in [
        (
            "may",
            Said::MayBeSkipped {
                kind: "tea-made".to_owned(),
            },
        ),
        (
            "must",
            Said::MustBeUnderstood {
                kind: "tea-made".to_owned(),
            },
        ),
        (
            "perhaps",
            Said::MustBeUnderstood {
                kind: "tea-made".to_owned(),
            },
        ),
    ] {
        let text = rewritten(line, |value| {
            value["old"] = json!(old);
            value["kind"] = json!("tea-made");
            value["event"] = json!({"sugar": 2});
        });
        assert_eq!(Line::read(&text).unwrap().said, expected);
    }
}

#[test]
fn silly_lines_are_unreadable() {
    let line = &some_lines()[0];
    type Change = fn(&mut Value);
    let changes: [(&str, Change); 12] = [
        ("format 0", |value| value["f"] = json!(0)),
        ("n of nought", |value| value["n"] = json!(0)),
        ("n beyond all use", |value| value["n"] = json!(N_MAX + 1)),
        ("n below nought", |value| value["n"] = json!(-1)),
        ("tick of nought", |value| value["tick"] = json!(0)),
        ("tick beyond all use", |value| {
            value["tick"] = json!(TICK_MAX + 1)
        }),
        ("no time", |value| value["utc"] = json!("yesterday")),
        ("no hash before", |value| value["before"] = json!("00")),
        ("capital hash", |value| {
            value["before"] = json!("A".repeat(64))
        }),
        ("no writer", |value| value["who"] = Value::Null),
        ("event of another kind", |value| {
            value["kind"] = json!("struck")
        }),
        ("no event", |value| value["event"] = Value::Null),
    ];
    for (why, change) in changes {
        let text = rewritten(line, change);
        assert!(
            matches!(Line::read(&text), Err(LineFault::Unreadable { .. })),
            "{why}"
        );
    }
    for text in ["", " ", "abc", "abc {}", &"0".repeat(64)] {
        assert_eq!(Line::read(text), Err(LineFault::NotALine), "{text}");
    }
    assert!(matches!(
        Line::read(&signed("[]")),
        Err(LineFault::Unreadable { .. })
    ));
    for edge in [N_MAX, 1] {
        let text = rewritten(line, |value| value["n"] = json!(edge));
        assert_eq!(Line::read(&text).unwrap().n, edge);
    }
}

/// What is kept of the shop's values: the kind it stands under, and how it reads back.
fn values_line(values: ShopValues) -> Line {
    let mut bay = Bay::open();
    let values = Box::new(values);
    let written = bay.force("tess", Event::ShopTaken { values });
    bay.trail.find(&written).unwrap().clone()
}

fn kind_of(line: &Line) -> String {
    let (_, json) = line.text().split_once(' ').unwrap();
    let value: Value = serde_json::from_str(json).unwrap();
    value["kind"].as_str().unwrap().to_owned()
}

#[test]
fn values_that_an_older_app_would_lose_stand_under_a_kind_it_does_not_know() {
    let step = ShopStep {
        stage: "wheels".into(),
        scope: Scope::End,
        words: "Paint mark".to_owned(),
    };
    let defaults = [("jurisdiction".into(), "quebec".into())].into();
    let on_stands = FinalPass {
        on_stands: true,
        as_a_whole: false,
    };
    for (values, kind) in [
        (ShopValues::default(), "shop-taken"),
        (
            ShopValues {
                defaults,
                ..ShopValues::default()
            },
            "shop-taken",
        ),
        (
            ShopValues {
                steps: vec![step],
                ..ShopValues::default()
            },
            "sheet-taken",
        ),
        (
            ShopValues {
                final_pass: on_stands,
                ..ShopValues::default()
            },
            "sheet-taken",
        ),
    ] {
        let line = values_line(values);
        assert_eq!(kind_of(&line), kind);
        assert_eq!(Line::read(line.text()).as_ref(), Ok(&line));
        assert!(line.text().contains(r#""old":"must""#));
    }
}

#[test]
fn values_with_more_than_this_app_knows_are_a_newer_apps() {
    let line = values_line(ShopValues::default());
    for change in [
        |value: &mut Value| value["event"]["values"]["tea"] = json!("strong"),
        |value: &mut Value| value["event"]["values"]["final_pass"] = json!({"by": "robot"}),
    ] {
        let newer = Line::read(&rewritten(&line, change)).unwrap();
        let kind = "shop-taken".to_owned();
        assert_eq!(newer.said, Said::MustBeUnderstood { kind });
    }
}
