//! What was taken back stays readable, struck through, with who took it back and why.

use serde_json::json;
use tests::browser::dist;
use tests::browser::host::Host;
use tests::browser::shop::{add_person, new_card};
use tests::browser::tablet::Tablet;
use tests::browser::walk::{Walk, state};
use tests::browser::words::word;

const WHY: &str = "rule was held at a slant";

/// The trail's rows as [words, struck, drawn through].
const ROWS: &str = r#"
return [...document.querySelectorAll("[data-testid=trail] li")].map((row) => {
  const told = row.querySelector(".trail-told");
  const through = getComputedStyle(told).textDecorationLine.includes("line-through");
  return [row.innerText, row.classList.contains("struck"), through, row.dataset.testid.slice("trail-".length)];
});
"#;

#[test]
fn struck_stays_readable() {
    let host = Host::start(&dist());
    let tablet = Tablet::new("struck_stays_readable", &host.address());
    for (name, role) in [
        ("Ines Karu", "foreman"),
        ("Piet Osei", "technician"),
        ("Ola Lindt", "technician"),
    ] {
        tablet.go("people");
        add_person(&tablet, name, role);
    }
    tablet.go("start");
    new_card(&tablet, "HB 7", "tractor-1-2", &[2], "unloaded");
    let mut walk = Walk::new(&tablet, 2, "");
    walk.through(&["standing", "chocks"]);

    walk.until_ask("as-found", "V", "at-rest", &[]);
    tablet.press_all(&["key-whole-1", "key-eighths-1", "done"]);
    tablet.press_all(&["key-whole-1", "key-eighths-3", "done"]);
    assert_eq!(state(&tablet).ask, "free-stroke");

    // Her own, just now, with nothing built on it: one press, no reason.
    tablet.press("nav-take-back");
    let taken_back = row(&tablet, "1 3/8");
    assert!(taken_back.struck && taken_back.through, "{taken_back:?}");
    let by = word("ui.trail.struck", &[("name", "Ola Lindt"), ("when", "")]);
    assert!(taken_back.words.contains(&by), "{taken_back:?}");

    // Another technician can't take hers back; the foreman can, with a reason.
    let line = row(&tablet, "1 1/8");
    assert!(!line.struck, "{line:?}");
    work_as(&tablet, "Piet Osei");
    tablet.go("trail");
    tablet.press(&format!("strike-{}", line.tick));
    assert_eq!(
        tablet.reads("wanting"),
        word("refuse.not-theirs", &[("name", "Ola Lindt")])
    );
    work_as(&tablet, "Ines Karu");
    tablet.go("trail");
    tablet.press(&format!("strike-{}", line.tick));
    tablet.wait_to_see("strike-ask");
    tablet.press("strike-yes");
    assert_eq!(tablet.reads("wanting"), word("refuse.reason-missing", &[]));
    tablet.press("strike-keep");
    assert!(!row(&tablet, "1 1/8").struck, "struck without a reason");
    tablet.press(&format!("strike-{}", line.tick));
    tablet.write("strike-why", WHY);
    tablet.press("strike-yes");
    tablet.wait_to_lose("strike-ask");

    tablet.driver().reload();
    tablet.wait_until_up();
    let struck = row(&tablet, "1 1/8");
    assert!(struck.struck && struck.through, "{struck:?}");
    for part in ["Ola Lindt", "Ines Karu", WHY] {
        assert!(
            struck.words.contains(part),
            "{part:?} is not said: {struck:?}"
        );
    }
    // It does not answer any more: the reading is asked for again.
    tablet.go("step/V/as-found");
    assert_eq!(
        (state(&tablet).ask.as_str(), state(&tablet).shown.as_str()),
        ("at-rest", "asked")
    );
}

fn work_as(tablet: &Tablet, name: &str) {
    tablet.go("people");
    tablet.press_row("people", name);
}

#[derive(Debug)]
struct Row {
    words: String,
    struck: bool,
    through: bool,
    tick: String,
}

/// The one row of the trail with these words in it, but for the rows that tell of a strike.
fn row(tablet: &Tablet, words: &str) -> Row {
    tablet.go("trail");
    let rows = tablet.run(ROWS, &json!([]));
    let mut found = rows.as_array().into_iter().flatten().map(|row| Row {
        words: row[0].as_str().unwrap_or_default().to_owned(),
        struck: row[1] == true,
        through: row[2] == true,
        tick: row[3].as_str().unwrap_or_default().to_owned(),
    });
    // The newest comes first; the oldest one with these words is the reading itself.
    let all = found.by_ref().filter(|row| row.words.contains(words));
    all.last()
        .unwrap_or_else(|| panic!("no row says {words:?}: {rows}"))
}
