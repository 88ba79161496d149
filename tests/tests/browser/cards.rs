//! The list of all cards: searched, put away, and drawn at once however long it is.

use std::time::{Duration, Instant};

use serde_json::json;
use tests::browser::dist;
use tests::browser::host::Host;
use tests::browser::shop::{add_person, new_card};
use tests::browser::tablet::Tablet;
use tests::browser::walk::Walk;
use tests::browser::words::word;

/// Rows of made-up cards, put into the store beside the real ones. The list goes by nothing else.
const MAKE_UP: &str = r#"
const [row, count, done] = arguments;
const asked = indexedDB.open("chock-to-chock");
asked.onerror = () => done(String(asked.error));
asked.onsuccess = () => {
  const db = asked.result;
  const kept = db.transaction(["summaries"], "readwrite");
  for (let n = 0; n < count; n += 1) {
    const made = { ...row, card: `made-${n}`, unit: `Made ${n}`, plate: `WD ${n}`,
      months: [n % 2 ? "2021-03" : "2021-04"], last: new Date(1.6e12 + n * 6e5).toISOString() };
    kept.objectStore("summaries").put(JSON.stringify(made), made.card);
  }
  kept.oncomplete = () => { db.close(); done("kept"); };
  kept.onabort = () => done(String(kept.error));
};
"#;

const ROWS: &str = r#"return document.querySelectorAll("[data-testid=cards] > button").length"#;

fn rows(tablet: &Tablet) -> u64 {
    tablet.run(ROWS, &json!([])).as_u64().unwrap_or_default()
}

fn count(shown: &str, of: &str) -> String {
    word("ui.cards.count", &[("shown", shown), ("of", of)])
}

fn search(tablet: &Tablet, words: &str, expected: &str) -> Duration {
    tablet.write("cards-search", words);
    let start = Instant::now();
    tablet.wait(&format!("{words} is found"), || {
        tablet.reads("cards-count") == expected
    });
    tablet.settle();
    start.elapsed()
}

#[test]
fn cards_are_found_and_put_away() {
    let host = Host::start(&dist());
    let tablet = Tablet::new("cards_are_found", &host.address());
    tablet.go("people");
    add_person(&tablet, "Sanne Mbeki", "technician");
    for unit in ["WD 402", "KR 88"] {
        tablet.go("start");
        new_card(&tablet, unit, "semitrailer-2", &[1], "loaded");
        assert!(!tablet.sees("choice-visit"), "it was never here");
    }
    tablet.go("setup");
    tablet.press("change-fact-V-plate");
    tablet.write("fact-text", "HB-7 1042");
    tablet.press("done");
    tablet.go("cards");
    assert_eq!(tablet.reads("cards-count"), count("2", "2"));
    for (words, found) in [("hb71042", "KR 88"), ("402", "WD 402")] {
        search(&tablet, words, &count("1", "1"));
        assert!(tablet.reads("cards").contains(found), "{words}");
    }
    search(&tablet, "sanne", &count("2", "2"));
    search(&tablet, "nobody", &count("0", "0"));

    // The same unit comes again: its last visit is told before the card is opened, and on its map.
    tablet.go("start");
    tablet.press("new-card");
    tablet.press_all(&[
        "kind-semitrailer-2",
        "done",
        "axle-2",
        "done",
        "loaded-loaded",
    ]);
    tablet.write("unit", "kr88");
    tablet.wait("the last visit is told", || {
        tablet.reads("last-visit").contains('1')
    });
    tablet.press_all(&["done", "done"]);
    tablet.wait_to_see("map");
    tablet.press("choice-visit");
    tablet.wait("the card of the last visit is open", || {
        !tablet.sees("choice-visit")
    });

    // Put away, it is on no daily list; it comes back from where the others are.
    tablet.press("choice-put-away");
    tablet.go("start");
    assert_eq!(rows(&tablet), 2);
    assert!(
        tablet
            .reads("other-cards")
            .contains(&word("ui.start.others", &[("count", "1")]))
    );
    tablet.press("all-cards");
    assert_eq!(tablet.reads("cards-count"), count("2", "2"));
    tablet.press("cards-put-away");
    assert_eq!(tablet.reads("cards-count"), count("1", "1"));
    tablet.press_row("cards", "KR 88");
    tablet.wait_to_see("map");
    tablet.press("choice-put-away");
    // Once something is done on it, it stands in the bay: a technician can't put it away.
    Walk::new(&tablet, 1, "").through(&["standing", "chocks"]);
    tablet.go("map");
    assert!(!tablet.sees("choice-put-away"));
    tablet.go("start");
    assert_eq!(rows(&tablet), 3);
    assert!(tablet.complaints().is_empty(), "{:?}", tablet.complaints());
}

#[test]
fn five_thousand_cards() {
    let host = Host::start(&dist());
    let tablet = Tablet::new("five_thousand_cards", &host.address());
    tablet.go("people");
    add_person(&tablet, "Sanne Mbeki", "technician");
    tablet.go("start");
    new_card(&tablet, "WD 402", "semitrailer-2", &[1], "loaded");
    let row = json!({
        "card": "", "unit": "", "vehicle": "tractor", "layout": "1-2", "in_hand": [2, 3],
        "opened": "2021-03-02T08:00:00Z", "last": "", "stage": "rebuild", "done": 80, "of": 160,
        "look_at": false, "form": job::summary::FORM, "people": ["Ruta Imani"],
        "ends": [{"at": "E2L", "stage": "rebuild", "who": "Ruta Imani", "waits": true, "sent_back": false}],
    });
    let kept = tablet.driver().run_async(MAKE_UP, &json!([row, 5_000]));
    assert_eq!(kept, "kept");
    let start = Instant::now();
    tablet.driver().reload();
    tablet.wait_until_up();
    tablet.go("start");
    tablet.wait_to_see("cards");
    eprintln!("started with 5,001 cards in {:?}", start.elapsed());
    assert_eq!(rows(&tablet), 24);
    tablet.press("all-cards");
    assert_eq!(tablet.reads("cards-count"), count("24", "5001"));
    assert_eq!(rows(&tablet), 24);
    let took = search(&tablet, "made 17", &count("24", "199"));
    eprintln!("searched for some in {took:?}");
    tablet.press("cards-more");
    assert_eq!(rows(&tablet), 48);
    let took = search(&tablet, "wd0 made", &count("1", "1"));
    eprintln!("searched for one in {took:?}");
    // The month is asked for as well as the words.
    search(&tablet, "made 17", &count("24", "199"));
    tablet.press("cards-month");
    tablet.press("choice-2021-03");
    tablet.wait("only those of the month", || {
        tablet.reads("cards-count") == count("24", "124")
    });
}
