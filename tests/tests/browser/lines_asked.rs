//! An extra line with a photo, a part and its time, and the sheet that is read out to the customer:
//! kept before the camera opens, there after a reload and without a network, and safe in a full store.

use std::path::Path;

use serde_json::json;
use tests::browser::dist;
use tests::browser::extra::{find, is_shown, open};
use tests::browser::folder::Folder;
use tests::browser::host::Host;
use tests::browser::photo::{give_photo, picture};
use tests::browser::shop::{add_person, new_card};
use tests::browser::tablet::Tablet;
use tests::browser::words::word;

/// From now on the part of the store that has the photos is full.
const FULL: &str = r#"
const put = IDBObjectStore.prototype.put;
IDBObjectStore.prototype.put = function (...given) {
  if (this.name === "photos") throw new DOMException("full", "QuotaExceededError");
  return put.apply(this, given);
};
"#;

#[test]
fn lines_asked() {
    let mut host = Host::start(&dist());
    let tablet = Tablet::new("lines_asked", &host.address());
    tablet.wait_for_worker();
    for (name, role) in [("Edda Foss", "foreman"), ("Nilo Tan", "technician")] {
        tablet.go("people");
        add_person(&tablet, name, role);
    }
    tablet.go("start");
    new_card(&tablet, "PX 31", "tractor-1-2", &[2], "unloaded");
    for (part, finding, fix) in [
        ("hose", "hose", ""),
        ("hub", "wheel-seal", "choice-renew-seal"),
        ("dust-shield", "dust-shield", "choice-renew-shield"),
    ] {
        find(&tablet, "E2L", part, finding, fix);
    }

    let folder = Folder::new("lines_asked-photos");
    let photo = picture(folder.path(), 3_000, 2_000);
    noted_before_the_camera_opens(&tablet);
    give_photo(&tablet, &photo);
    is_shown(&tablet);
    the_customer_is_asked(&tablet);

    host.stop();
    tablet.driver().reload();
    tablet.wait_until_up();
    open(&tablet, "hose");
    is_shown(&tablet);
    assert!(tablet.reads("line-notes").contains("number 88-12"));
    for screen in ["look/E2L", "record"] {
        tablet.go(screen);
        let sees = tablet.run(
            r#"return document.querySelectorAll("[data-testid=photo]").length"#,
            &json!([]),
        );
        tablet.wait(&format!("the photo is on {screen}: {sees}"), || {
            tablet.sees("photo")
        });
    }
    tablet.go("record");
    let lines = tablet.reads("record-lines");
    for told in ["Mr. Ode", "88-12", "20 min"] {
        assert!(lines.contains(told), "{told} is not in {lines}");
    }

    // Another picture: the bytes of the first are in the store already.
    let photo = picture(folder.path(), 2_400, 1_800);
    a_full_store_loses_nothing(&tablet, &photo);
    a_no_is_signed_by_the_foreman(&tablet);
}

fn noted_before_the_camera_opens(tablet: &Tablet) {
    open(tablet, "hose");
    tablet.write("note-part", "air hose");
    tablet.write("note-number", "88-12");
    tablet.press_all(&["minutes-15", "minutes-5", "photo-take"]);
    let notes = tablet.reads("line-notes");
    assert!(notes.contains("air hose, number 88-12"), "{notes}");
    assert!(notes.contains("20 min"), "{notes}");
}

/// Worst first, one press for each answer, the name typed once.
fn the_customer_is_asked(tablet: &Tablet) {
    tablet.go("lines");
    tablet.press("lines-read-out");
    let sheet = tablet.reads("read-out");
    let at = |finding: &str| {
        let plain = word(&format!("finding.{finding}.plain"), &[]);
        sheet
            .find(&plain)
            .unwrap_or_else(|| panic!("{plain} is not in {sheet}"))
    };
    assert!(at("wheel-seal") < at("hose") && at("hose") < at("dust-shield"));
    assert!(
        sheet.contains(&word("finding.hose.matters", &[])),
        "{sheet}"
    );

    let press = |finding: &str, answer: &str| {
        let row = tablet.run(
            r#"return [...document.querySelectorAll(".read-out-line")]
                .find((row) => row.innerText.includes(arguments[0]))?.dataset.testid"#,
            &json!([word(&format!("finding.{finding}.plain"), &[])]),
        );
        let row = row.as_str().expect("the line is on the sheet").to_owned();
        tablet.press(&format!("{row}-{answer}"));
    };
    press("hose", "said-no");
    assert_eq!(tablet.reads("wanting"), word("refuse.asked-missing", &[]));
    tablet.write("asked", "Mr. Ode");
    press("hose", "said-no");
    press("wheel-seal", "said-yes");
    tablet.go("lines");
    tablet.press("lines-read-out");
    press("dust-shield", "waiting");
    open(tablet, "dust-shield");
    let history = tablet.reads("line-history");
    assert!(history.contains("Mr. Ode"), "{history}");
}

/// What does not fit is said, and everything before it is still there.
fn a_full_store_loses_nothing(tablet: &Tablet, photo: &Path) {
    open(tablet, "dust-shield");
    tablet.run(FULL, &json!([]));
    tablet.write("note-part", "shield");
    tablet.press("photo-take");
    give_photo(tablet, photo);
    let full = word("store.full", &[]);
    tablet.wait("the full store is told", || {
        tablet
            .run("return document.body.innerText", &json!([]))
            .as_str()
            .is_some_and(|text| text.contains(&full))
    });
    tablet.driver().reload();
    tablet.wait_until_up();
    open(tablet, "dust-shield");
    assert!(tablet.reads("line-notes").contains("shield"));
    assert!(
        !tablet.sees("photo-key"),
        "a photo that was not kept is named"
    );
    open(tablet, "hose");
    is_shown(tablet);
}

fn a_no_is_signed_by_the_foreman(tablet: &Tablet) {
    open(tablet, "hose");
    tablet.wait_to_see("line-goes-on");
    tablet.write("pass-why", "they fit their own");
    tablet.press("photo-take");
    assert_eq!(tablet.reads("wanting"), word("ui.photo.reason-first", &[]));
    tablet.press("pass-line");
    assert_eq!(tablet.reads("wanting"), word("refuse.foreman-only", &[]));
    tablet.go("people");
    tablet.press_row("people", "Edda Foss");
    open(tablet, "hose");
    tablet.write("pass-why", "they fit their own");
    tablet.press("pass-line");
    tablet.wait_to_lose("line-goes-on");
    let history = tablet.reads("line-history");
    assert!(history.contains("they fit their own"), "{history}");
}
