//! A card goes to another tablet as a file, whole and with its photos; a damaged file goes nowhere.

use std::fs;

use serde_json::{Value, json};
use tests::browser::dist;
use tests::browser::extra::{self, find, is_shown};
use tests::browser::files;
use tests::browser::folder::Folder;
use tests::browser::host::Host;
use tests::browser::photo::{give_photo, picture};
use tests::browser::shop::{add_person, new_card};
use tests::browser::tablet::Tablet;
use tests::browser::walk::Walk;
use tests::browser::words::word;

/// What every row of the trail says, oldest last, and the line about the chain.
const TRAIL: &str = r#"
const rows = [...document.querySelectorAll("[data-testid=trail] .trail-words")].map((row) => row.innerText);
return [document.querySelector("[data-testid=trail-chain]").innerText, ...rows];
"#;

#[test]
fn card_goes_over() {
    let host = Host::start(&dist());
    let from = Tablet::new("card_goes_over_from", &host.address());
    from.go("people");
    add_person(&from, "Sanne Mbeki", "technician");
    from.go("start");
    new_card(&from, "WD 402", "semitrailer-2", &[1], "loaded");
    Walk::new(&from, 1, "").through(&["standing", "chocks"]);
    find(&from, "E1L", "hose", "hose", "");
    extra::open(&from, "hose");
    from.press("photo-take");
    let photos = Folder::new("card_goes_over-photos");
    give_photo(&from, &picture(photos.path(), 3_000, 2_000));
    is_shown(&from);
    let saved = files::save(&from);
    let bytes = fs::read(&saved).expect("the saved file can be read");

    let to = Tablet::new("card_goes_over_to", &host.address());
    to.wait_to_see("no-cards");
    refuses_damaged(&to, &bytes);
    to.go("start");
    assert!(
        to.sees("no-cards"),
        "something of a damaged file was taken in"
    );

    to.go("files");
    files::take_in(&to, &saved);
    let lines = trail(&from).len() - 1;
    assert_eq!(
        to.reads("file-taken"),
        word("ui.files.taken-in", &[("lines", &lines.to_string())])
    );
    to.press("file-open");
    to.wait_to_see("map");
    assert_eq!(trail(&to), trail(&from));
    extra::open(&to, "hose");
    is_shown(&to);

    // Once more: it is all here already.
    to.go("files");
    files::take_in(&to, &saved);
    assert_eq!(to.reads("file-taken"), word("ui.files.all-here", &[]));
    to.driver().reload();
    to.wait_until_up();
    to.go("start");
    to.press_row("cards", "WD 402");
    assert_eq!(trail(&to), trail(&from));
}

fn trail(tablet: &Tablet) -> Vec<Value> {
    tablet.go("trail");
    tablet
        .run(TRAIL, &json!([]))
        .as_array()
        .cloned()
        .unwrap_or_default()
}

fn refuses_damaged(tablet: &Tablet, whole: &[u8]) {
    let folder = Folder::new("damaged");
    let mut changed = whole.to_vec();
    let middle = changed.len() / 2;
    changed[middle] ^= 1;
    let text = String::from_utf8(whole.to_vec()).expect("a card file is text");
    let first = text.lines().next().expect("a card file has lines");
    let newer = text.replacen(first, &first.replace(" 2", " 3"), 1);
    assert_ne!(newer, text);
    let cut = &whole[..middle];
    let huge = vec![b'a'; 33 * 1024 * 1024];
    let damaged: [(&str, &[u8], String); 6] = [
        ("empty.txt", b"", word("file.empty", &[])),
        ("cut-short.txt", cut, word("file.cut-short", &[])),
        ("changed.txt", &changed, word("file.changed", &[])),
        ("newer.txt", newer.as_bytes(), word("file.newer", &[])),
        (
            "other.txt",
            b"shopping: bread, grease, rags\n",
            word("file.not-a-card", &[]),
        ),
        ("huge.txt", &huge, word("file.too-large", &[("most", "32")])),
    ];
    for (name, bytes, refusal) in damaged {
        let file = folder.path().join(name);
        fs::write(&file, bytes).expect("a file can be written");
        tablet.go("start");
        tablet.go("files");
        files::take_in(tablet, &file);
        let said = tablet.reads("file-taken");
        assert_eq!(said.lines().next(), Some(refusal.as_str()), "{name}");
        assert!(
            said.contains(&word("ui.files.nothing-changed", &[])),
            "{name}: {said}"
        );
    }
}
