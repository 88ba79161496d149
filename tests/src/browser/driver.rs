//! One browser under one chromedriver, and the few WebDriver commands that the tests use.

use std::{
    fs,
    io::{BufRead, BufReader},
    path::Path,
    process::{Child, Command, Stdio},
    thread,
};

use serde_json::{Value, json};

use super::wire::{Refused, send};
use super::{processes, told};

const ELEMENT: &str = "element-6066-11e4-a52e-4f735466cecf";

/// A browser with one profile folder. Ended when dropped.
pub struct Driver {
    child: Child,
    port: u16,
    session: String,
}

/// An element of the page, as the driver names it.
#[derive(Clone, Debug)]
pub struct Element(String);

impl Driver {
    /// Starts a browser on a profile, new or used.
    pub fn start(profile: &Path, downloads: &Path) -> Self {
        // Left by a browser that was killed; it would only make the next one wait or ask.
        for left in ["SingletonLock", "SingletonSocket", "SingletonCookie"] {
            let _gone = fs::remove_file(profile.join(left));
        }
        let mut child = Command::new(told("CHROMEDRIVER"))
            .arg("--port=0")
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("chromedriver can be started");
        let mut said = BufReader::new(child.stdout.take().expect("its output is ours"));
        let port = loop {
            let mut line = String::new();
            let read = said
                .read_line(&mut line)
                .expect("chromedriver's output can be read");
            assert!(read > 0, "chromedriver ended before it listened");
            let port = line
                .split("successfully on port ")
                .nth(1)
                .and_then(|rest| rest.trim().trim_end_matches('.').parse().ok());
            if let Some(port) = port {
                break port;
            }
        };
        // Whatever it says later has to go somewhere, or it would wait for a reader.
        thread::spawn(move || for _line in said.lines() {});
        let mut driver = Self {
            child,
            port,
            session: String::new(),
        };
        let arguments = [
            "--headless=new",
            "--no-sandbox",
            "--disable-gpu",
            "--disable-quic",
            "--no-first-run",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
            "--disable-dev-shm-usage",
            "--window-size=1280,800",
            "--force-device-scale-factor=1",
            "--hide-scrollbars",
        ];
        let mut arguments: Vec<String> = arguments.map(str::to_owned).to_vec();
        arguments.push(format!("--user-data-dir={}", profile.display()));
        let wanted = json!({"capabilities": {"alwaysMatch": {
            "goog:chromeOptions": {"binary": told("CHROMIUM"), "args": arguments},
            "goog:loggingPrefs": {"browser": "ALL"},
        }}});
        let made = send(driver.port, "POST", "/session", &wanted);
        let made = made.unwrap_or_else(|refused| panic!("no browser: {refused:?}"));
        driver.session = made["sessionId"]
            .as_str()
            .expect("a session has an id")
            .to_owned();
        driver.devtools(
            "Browser.setDownloadBehavior",
            &json!({"behavior": "allow", "downloadPath": downloads}),
        );
        driver.view(1280, 800);
        driver
    }

    fn ask(&self, method: &str, command: &str, body: &Value) -> Result<Value, Refused> {
        send(
            self.port,
            method,
            &format!("/session/{}/{command}", self.session),
            body,
        )
    }

    fn must(&self, method: &str, command: &str, body: &Value) -> Value {
        self.ask(method, command, body)
            .unwrap_or_else(|refused| panic!("{command}: {refused:?}"))
    }

    pub fn open(&self, address: &str) {
        self.must("POST", "url", &json!({"url": address}));
    }

    pub fn reload(&self) {
        self.must("POST", "refresh", &json!({}));
    }

    pub fn address(&self) -> String {
        self.must("GET", "url", &Value::Null)
            .as_str()
            .unwrap_or_default()
            .to_owned()
    }

    /// Runs a function body in the page; its `arguments` are `values`.
    pub fn run(&self, script: &str, values: &Value) -> Value {
        self.try_run(script, values)
            .unwrap_or_else(|why| panic!("script: {why}\n{script}"))
    }

    pub fn try_run(&self, script: &str, values: &Value) -> Result<Value, String> {
        let body = json!({"script": script, "args": values});
        self.ask("POST", "execute/sync", &body)
            .map_err(|refused| format!("{}: {}", refused.error, refused.message))
    }

    /// Runs a function body that ends by calling its last argument.
    pub fn run_async(&self, script: &str, values: &Value) -> Value {
        self.must(
            "POST",
            "execute/async",
            &json!({"script": script, "args": values}),
        )
    }

    /// An element that a script returned.
    pub fn element(value: &Value) -> Option<Element> {
        value[ELEMENT].as_str().map(|id| Element(id.to_owned()))
    }

    /// A real click in the middle; refused with a reason if the element can't take one just now.
    pub fn click(&self, element: &Element) -> Result<(), String> {
        match self.ask("POST", &format!("element/{}/click", element.0), &json!({})) {
            Ok(_) => Ok(()),
            Err(refused) => match refused.error.as_str() {
                "stale element reference"
                | "element click intercepted"
                | "element not interactable"
                | "no such element" => Err(refused.message),
                _ => panic!("click: {refused:?}"),
            },
        }
    }

    /// Types into an element, or gives a file to a file input.
    pub fn send_keys(&self, element: &Element, text: &str) {
        self.must(
            "POST",
            &format!("element/{}/value", element.0),
            &json!({"text": text}),
        );
    }

    /// A finger on the middle of an element for so long.
    pub fn touch(&self, element: &Element, milliseconds: u64) {
        let origin = json!({ELEMENT: element.0});
        let actions = json!({"actions": [{
            "type": "pointer",
            "id": "finger",
            "parameters": {"pointerType": "touch"},
            "actions": [
                {"type": "pointerMove", "duration": 0, "origin": origin, "x": 0, "y": 0},
                {"type": "pointerDown", "button": 0},
                {"type": "pause", "duration": milliseconds},
                {"type": "pointerUp", "button": 0},
            ],
        }]});
        self.must("POST", "actions", &actions);
    }

    /// Keys of a keyboard, to whatever has the focus.
    pub fn keys(&self, text: &str) {
        let keys: Vec<Value> = text
            .chars()
            .flat_map(|key| ["keyDown", "keyUp"].map(|kind| json!({"type": kind, "value": key})))
            .collect();
        self.must(
            "POST",
            "actions",
            &json!({"actions": [{"type": "key", "id": "keys", "actions": keys}]}),
        );
    }

    /// Lets the page have this many CSS pixels.
    pub fn view(&self, width: u32, height: u32) {
        self.devtools(
            "Emulation.setDeviceMetricsOverride",
            &json!({"width": width, "height": height, "deviceScaleFactor": 1, "mobile": false}),
        );
    }

    pub fn devtools(&self, command: &str, parameters: &Value) -> Value {
        self.must(
            "POST",
            "goog/cdp/execute",
            &json!({"cmd": command, "params": parameters}),
        )
    }

    /// A PNG of what is shown, or of all of the page.
    pub fn picture(&self, whole: bool) -> Vec<u8> {
        let asked = json!({"format": "png", "captureBeyondViewport": whole});
        let shot = self.devtools("Page.captureScreenshot", &asked);
        base64(shot["data"].as_str().unwrap_or_default())
    }

    /// What the page wrote to its console since it was asked last.
    pub fn console(&self) -> Vec<String> {
        let log = self
            .ask("POST", "se/log", &json!({"type": "browser"}))
            .unwrap_or_default();
        let line = |entry: &Value| format!("{} {}", entry["level"], entry["message"]);
        log.as_array().into_iter().flatten().map(line).collect()
    }

    /// Opens one more tab and goes to it. Returns the tab before and the new one.
    pub fn new_tab(&self) -> (String, String) {
        let before = self
            .must("GET", "window", &Value::Null)
            .as_str()
            .unwrap_or_default()
            .to_owned();
        let made = self.must("POST", "window/new", &json!({"type": "tab"}));
        let new = made["handle"].as_str().unwrap_or_default().to_owned();
        self.to_tab(&new);
        self.view(1280, 800);
        (before, new)
    }

    pub fn to_tab(&self, handle: &str) {
        self.must("POST", "window", &json!({"handle": handle}));
    }

    /// SIGKILL for the whole browser at once, as if the battery had been pulled out.
    pub fn kill_at_once(&mut self) {
        processes::kill_family(self.child.id());
        // It was killed with its family; this only takes note of it.
        let _noted = self.child.wait();
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        if matches!(self.child.try_wait(), Ok(None)) {
            self.kill_at_once();
        }
    }
}

fn base64(text: &str) -> Vec<u8> {
    let digit = |byte: u8| match byte {
        b'A'..=b'Z' => Some(byte - b'A'),
        b'a'..=b'z' => Some(byte - b'a' + 26),
        b'0'..=b'9' => Some(byte - b'0' + 52),
        b'+' => Some(62),
        b'/' => Some(63),
        _ => None,
    };
    let (mut bits, mut count, mut bytes) = (0_u32, 0_u32, Vec::with_capacity(text.len() * 3 / 4));
    for value in text.bytes().filter_map(digit) {
        bits = bits << 6 | u32::from(value);
        count += 6;
        if count >= 8 {
            count -= 8;
            bytes.push((bits >> count & 0xff) as u8); // Masked: always fits.
        }
    }
    bytes
}
