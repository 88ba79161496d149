//! A tablet: one browser with one profile, and what a person does with it.
//!
//! Presses are real ones: they wait until the app can feel them, as a person would, and fail if it never can.
//! When a test fails, the address, the console and a picture of the screen are left behind.

use std::{
    collections::BTreeSet,
    fs,
    path::{Path, PathBuf},
    thread::{panicking, sleep},
    time::{Duration, Instant},
};

use serde_json::{Value, json};

use super::dist;
use super::driver::{Driver, Element};
use super::folder::Folder;

const PATIENCE: Duration = Duration::from_secs(15);
/// Lines of the console that a failure tells.
const LINES_TOLD: usize = 12;
const LOOK: Duration = Duration::from_millis(30);

/// Returns what is shown under a test id; with `true` only if it can be pressed now.
const FIND: &str = r#"
const [id, ready] = arguments;
const shown = (e) => e.getClientRects().length > 0 && getComputedStyle(e).visibility !== "hidden";
const found = [...document.querySelectorAll(`[data-testid="${CSS.escape(id)}"]`)].find(shown);
if (!found) return null;
if (ready && (found.disabled || found.closest(".guard.blind") || document.querySelector(".flash.going"))) return null;
// Lists are turned page by page with keys; here the row is just brought in.
if (ready) found.scrollIntoView({ block: "center", behavior: "instant" });
return found;
"#;

/// Waits until nothing is being saved, what changed is drawn, and the screen feels touches.
const SETTLE: &str = r#"
const done = arguments[arguments.length - 1];
const quiet = () => !document.querySelector(".flash.going, .guard.blind");
const look = (left) => requestAnimationFrame(() => requestAnimationFrame(() =>
  quiet() || left === 0 ? done(true) : setTimeout(() => look(left - 1), 20)));
look(200);
"#;

/// A browser on a profile of its own, at one address.
pub struct Tablet {
    driver: Option<Driver>,
    profile: Folder,
    downloads: Folder,
    address: String,
    name: String,
}

impl Tablet {
    /// A tablet that has never seen the app; it is on the first screen when this returns.
    pub fn new(name: &str, address: &str) -> Self {
        let mut tablet = Self {
            driver: None,
            profile: Folder::new(&format!("{name}-profile")),
            downloads: Folder::new(&format!("{name}-downloads")),
            address: address.to_owned(),
            name: name.to_owned(),
        };
        tablet.switch_on("");
        tablet
    }

    /// Starts the browser on the profile as it was left, at an address below the app's.
    pub fn switch_on(&mut self, fragment: &str) {
        self.driver = Some(Driver::start(self.profile.path(), self.downloads.path()));
        self.driver().open(&format!("{}{fragment}", self.address));
        self.wait_until_up();
    }

    /// SIGKILL for all of the browser.
    pub fn pull_the_battery(&mut self) {
        if let Some(mut driver) = self.driver.take() {
            driver.kill_at_once();
        }
    }

    pub fn driver(&self) -> &Driver {
        self.driver.as_ref().expect("the tablet is switched on")
    }

    pub fn downloads(&self) -> &Path {
        self.downloads.path()
    }

    pub fn run(&self, script: &str, values: &Value) -> Value {
        self.driver().run(script, values)
    }

    /// Waits until the app has drawn a screen.
    pub fn wait_until_up(&self) {
        self.wait("the app is up", || {
            let up = "return !document.getElementById('start') && !!document.querySelector('main, .runner')";
            self.driver().try_run(up, &json!([])).is_ok_and(|up| up == true)
        });
        self.settle();
    }

    /// Waits until pages are answered by the service worker.
    pub fn wait_for_worker(&self) {
        self.wait("the worker is in control", || {
            self.run("return !!navigator.serviceWorker.controller", &json!([])) == true
        });
    }

    /// Looks until it is so, or fails.
    pub fn wait(&self, what: &str, is_so: impl FnMut() -> bool) {
        self.wait_for_long(what, PATIENCE, is_so);
    }

    pub fn wait_for_long(&self, what: &str, patience: Duration, mut is_so: impl FnMut() -> bool) {
        let until = Instant::now() + patience;
        while !is_so() {
            assert!(
                Instant::now() < until,
                "{}: waited in vain: {what}",
                self.name
            );
            sleep(LOOK);
        }
    }

    /// Waits for drawing and saving to come to rest.
    pub fn settle(&self) {
        self.driver().run_async(SETTLE, &json!([]));
    }

    fn find(&self, id: &str, ready: bool) -> Option<Element> {
        // A page that is just being left has no answer.
        let found = self
            .driver()
            .try_run(FIND, &json!([id, ready]))
            .unwrap_or_default();
        Driver::element(&found)
    }

    pub fn sees(&self, id: &str) -> bool {
        self.find(id, false).is_some()
    }

    pub fn wait_to_see(&self, id: &str) {
        self.wait(&format!("{id} is seen"), || self.sees(id));
    }

    pub fn wait_to_lose(&self, id: &str) {
        self.wait(&format!("{id} is gone"), || !self.sees(id));
    }

    /// What stands under a test id, as a person reads it.
    pub fn reads(&self, id: &str) -> String {
        self.wait_to_see(id);
        let script = format!(
            "{} return found.innerText;",
            FIND.replace("return found;", "")
        );
        self.run(&script, &json!([id, false]))
            .as_str()
            .unwrap_or_default()
            .to_owned()
    }

    /// One press, as soon as the app can feel it; returns when its effect is drawn and saved.
    pub fn press(&self, id: &str) {
        self.press_only(id);
        self.settle();
    }

    /// One press, and back at once.
    pub fn press_only(&self, id: &str) {
        self.click(id, || self.find(id, true));
    }

    fn click(&self, what: &str, find: impl Fn() -> Option<Element>) {
        let until = Instant::now() + PATIENCE;
        let mut why = "it is not there, or not ready".to_owned();
        while Instant::now() < until {
            match find().map(|element| self.driver().click(&element)) {
                Some(Ok(())) => return,
                Some(Err(refused)) => why = refused,
                None => {}
            }
            sleep(LOOK);
        }
        panic!("{}: {what} can't be pressed: {why}", self.name);
    }

    pub fn press_all(&self, ids: &[&str]) {
        for id in ids {
            self.press(id);
        }
    }

    /// Presses the row of a list that says these words.
    pub fn press_row(&self, list: &str, words: &str) {
        let script = r#"
            const [list, words] = arguments;
            const rows = document.querySelectorAll(`[data-testid="${CSS.escape(list)}"] button`);
            const found = [...rows].find((row) => row.innerText.includes(words) && !row.closest(".guard.blind"));
            found?.scrollIntoView({ block: "center", behavior: "instant" });
            return found ?? null;
        "#;
        self.click(words, || {
            let row = self.driver().try_run(script, &json!([list, words]));
            Driver::element(&row.unwrap_or_default())
        });
        self.settle();
    }

    /// A finger on it for so long.
    pub fn touch(&self, id: &str, milliseconds: u64) {
        self.wait(&format!("{id} can be touched"), || {
            self.find(id, true).is_some()
        });
        let element = self.find(id, true).expect("it was there a moment ago");
        self.driver().touch(&element, milliseconds);
    }

    /// Holds the button that protects a person for as long as it takes.
    pub fn hold(&self) {
        self.touch("hold", 1_000);
        self.settle();
    }

    /// Types into a text box, in place of what stands there.
    pub fn write(&self, id: &str, text: &str) {
        self.wait_to_see(id);
        let element = self.find(id, false).expect("it was there a moment ago");
        let script = format!("{} found.select();", FIND.replace("return found;", ""));
        self.run(&script, &json!([id, false]));
        self.driver().send_keys(&element, text);
    }

    /// Gives a file to the file input, as the picker of the system would.
    pub fn give_file(&self, file: &Path) {
        let input = self.run(
            r#"return document.querySelector("[data-testid=file-input]")"#,
            &json!([]),
        );
        let input = Driver::element(&input).expect("there is a file input");
        self.driver().send_keys(&input, &file.display().to_string());
    }

    /// Digits and point on the number pad, one press each.
    pub fn key_in(&self, number: &str) {
        for key in number.chars() {
            let name = if key == '.' {
                "point".to_owned()
            } else {
                key.to_string()
            };
            self.press_only(&format!("key-{name}"));
        }
    }

    /// To a screen by its address.
    pub fn go(&self, fragment: &str) {
        self.run("location.hash = arguments[0]", &json!([fragment]));
        self.wait(&format!("the address is {fragment}"), || {
            self.fragment() == fragment
        });
        self.settle();
    }

    pub fn fragment(&self) -> String {
        self.run("return location.hash.slice(1)", &json!([]))
            .as_str()
            .unwrap_or_default()
            .to_owned()
    }

    /// The size of the screen, and of the glove, without a change of the settings.
    pub fn look_like(&self, width: u32, height: u32, glove: &str, theme: &str) {
        self.driver().view(width, height);
        let set = "Object.assign(document.documentElement.dataset, {glove: arguments[0], theme: arguments[1]})";
        self.run(set, &json!([glove, theme]));
        self.settle();
    }

    /// What the page complained about on its console, each complaint once.
    pub fn complaints(&self) -> BTreeSet<String> {
        let lines = self.driver().console().into_iter();
        lines
            .filter(|line| line.contains("SEVERE") || line.contains("no words for"))
            .collect()
    }

    /// Where failures leave their pictures.
    fn failures() -> PathBuf {
        dist().with_file_name("browser-failures")
    }

    fn report(&self) {
        let Some(driver) = &self.driver else { return };
        let address = driver
            .try_run("return location.href", &json!([]))
            .unwrap_or_default();
        eprintln!("\n{}: at {address}", self.name);
        let file = Self::failures().join(format!("{}.png", self.name));
        let kept = fs::create_dir_all(Self::failures())
            .and_then(|()| fs::write(&file, driver.picture(false)));
        if kept.is_ok() {
            eprintln!("{}: picture in {}", self.name, file.display());
        }
        let console = driver.console();
        for line in console.iter().rev().take(LINES_TOLD).rev() {
            eprintln!("{}: console: {line}", self.name);
        }
    }
}

impl Drop for Tablet {
    fn drop(&mut self) {
        if panicking() {
            self.report();
        }
    }
}
