//! A newer build is announced, taken on a press, and given back when it does not come up.

use std::fs;
use std::path::Path;
use std::process::Command;
use std::time::Duration;

use serde_json::json;
use tests::browser::dist;
use tests::browser::folder::Folder;
use tests::browser::host::Host;
use tests::browser::tablet::Tablet;
use tests::browser::words::word;

const WORD: &str = "ui.start.title";

#[test]
fn update() {
    let built = Folder::new("built");
    built.fill_from(&dist());
    let host = Host::start(built.path());
    let tablet = Tablet::new("update", &host.address());
    tablet.wait_for_worker();
    tablet.driver().reload();
    tablet.wait_until_up();
    let title = word(WORD, &[]);
    assert!(reads_title(&tablet, &title));

    // A newer build with another word on its first screen.
    let words = built.path().join("words/en.json");
    let text = fs::read_to_string(&words).expect("the words can be read");
    let newer = text.replacen(
        &format!("\"{WORD}\": \"{title}\""),
        &format!("\"{WORD}\": \"Second build\""),
        1,
    );
    assert_ne!(text, newer);
    fs::write(&words, newer).expect("the words can be written");
    list_files(built.path());
    announced(&tablet);
    assert!(
        reads_title(&tablet, &title),
        "a newer build was taken without a press"
    );
    tablet.press_only("notice-action");
    tablet.wait("the newer build is shown", || {
        reads_title(&tablet, "Second build")
    });

    // A third one that can't start.
    let wasm = fs::read_dir(built.path())
        .expect("the build can be read")
        .flatten();
    let wasm = wasm
        .map(|entry| entry.path())
        .find(|path| path.extension().is_some_and(|kind| kind == "wasm"));
    fs::write(wasm.expect("there is a module"), b"\0asm broken").expect("the module can be broken");
    list_files(built.path());
    announced(&tablet);
    tablet.press_only("notice-action");
    tablet.wait_for_long("the page of last resort is shown", Duration::from_secs(40), || {
        let shown = "return document.getElementById('start-help')?.classList.contains('shown') ?? false";
        tablet.driver().try_run(shown, &json!([])).is_ok_and(|shown| shown == true)
    });
    tablet.driver().reload();
    tablet.wait_until_up();
    assert!(
        reads_title(&tablet, "Second build"),
        "the build that worked did not come back"
    );
}

fn reads_title(tablet: &Tablet, title: &str) -> bool {
    let script = "return document.querySelector('h1')?.innerText ?? ''";
    tablet
        .driver()
        .try_run(script, &json!([]))
        .is_ok_and(|shown| shown == title)
}

/// Loads the page again, which makes the browser look for a newer worker.
fn announced(tablet: &Tablet) {
    tablet.driver().reload();
    tablet.wait_until_up();
    let waits = word("ui.new-build.waits", &[]);
    tablet.wait("the newer build is announced", || {
        tablet.sees("notice") && tablet.reads("notice").contains(&waits)
    });
}

/// Writes the worker anew for the files that lie in the folder now.
fn list_files(build: &Path) {
    let xtask = std::env::var_os("CHOCK_XTASK").expect("xtask runs this");
    let listed = Command::new(xtask)
        .arg("precache")
        .env("TRUNK_STAGING_DIR", build)
        .status();
    assert!(listed.expect("xtask can be started").success());
}
