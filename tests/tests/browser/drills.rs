//! A drill asks, says what was off, and asks the same after a reload; the practice bay alone has it.

use practice::drill::{Answer, Drill, ask};
use practice::seed::{Level, Seed};
use tests::browser::dist;
use tests::browser::host::Host;
use tests::browser::tablet::Tablet;
use tests::browser::words::word;

#[test]
fn drills() {
    let host = Host::start(&dist());
    let tablet = Tablet::new("drills", &host.address());
    assert!(!tablet.sees("drills"));
    tablet.go("drills");
    assert!(tablet.sees("only-practice"));
    tablet.press("done");
    tablet.wait_to_see("practice-band");
    tablet.go("start");
    tablet.press("drills");
    tablet.press("choice-first");
    tablet.wait_to_see("question");

    let seed = Seed::new(Level::Usual, 42);
    let question = ask(Drill::First, seed).unwrap();
    let right = |at: &usize| question.check(&Answer::One(*at)).is_right();
    let good = (0..4).find(right).unwrap();
    let bad = (0..4).find(|at| !right(at)).unwrap();
    let fragment = format!("drill/first/{seed}");
    tablet.go(&fragment);
    let asked = tablet.reads("question");
    tablet.press("done");
    assert!(tablet.sees("wanting"), "no answer was taken for one");
    tablet.press(&format!("choice-{bad}"));
    tablet.press("done");
    tablet.wait_to_see("said");
    assert_eq!(tablet.reads("said"), word("ui.drill.off", &[]));
    assert!(
        !tablet.reads("off").is_empty(),
        "it doesn't say what comes first"
    );

    tablet.run("location.reload()", &serde_json::json!([]));
    tablet.wait_to_lose("said");
    tablet.wait_to_see("question");
    assert_eq!(tablet.reads("question"), asked);
    tablet.press(&format!("choice-{good}"));
    tablet.press("done");
    tablet.wait_to_see("said");
    assert_eq!(tablet.reads("said"), word("ui.drill.right", &[]));
    tablet.press("done");
    tablet.wait("another question", || tablet.fragment() != fragment);

    tablet.go("drill/edge-code/1-usual-42");
    let question = ask(Drill::EdgeCode, seed).unwrap();
    for verdict in [
        rules::verdict::Verdict::Sound,
        rules::verdict::Verdict::Replace,
    ] {
        tablet.go("drills");
        tablet.go("drill/edge-code/1-usual-42");
        tablet.press(&format!("choice-{}", verdict.code()));
        tablet.press("done");
        tablet.wait_to_see("said");
        let is_right = question.check(&Answer::Verdict(verdict)).is_right();
        let key = if is_right {
            "ui.drill.right"
        } else {
            "ui.drill.off"
        };
        assert_eq!(tablet.reads("said"), word(key, &[]), "{verdict:?}");
    }
}
