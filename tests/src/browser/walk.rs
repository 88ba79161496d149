//! A whole card through the screens: every step in its order, every ask with an answer that clears it.
//!
//! The answers are made up and the same every time; what they mean is of no matter here.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::{Value, json};

use super::shop::tag_pages;
use super::tablet::Tablet;
use super::tour::{Look, Seen};
use super::words::{procedure, word};

/// More presses than any one step takes.
const PRESSES: usize = 80;

/// Answers to facts that open more of the path than the first option does.
const FACTS: &[(&str, &str)] = &[
    ("coupled", "no-trailer"),
    ("suspension", "air"),
    ("lift-by", "jack-and-stands"),
    ("rim", "multi-piece"),
    ("wheel-set", "dual"),
    ("spring-brake", "removable-bolt"),
    ("adjuster-style", "pawl"),
    ("drum-mount", "outboard"),
    ("drum-new", "kept"),
    ("cast-max", "16.62"),
    ("front-1", "16.6"),
    ("front-2", "16.6"),
    ("front-3", "16.6"),
    ("front-4", "16.6"),
    ("rear-1", "16.6"),
    ("rear-2", "16.6"),
    ("rear-3", "16.6"),
    ("rear-4", "16.6"),
    ("open-look-by", "not-asked"),
    ("group-weight", "12800"),
    ("unit-weight", "17600"),
    ("final-torque", "450"),
    ("rating", "22"),
    ("chamber-type", "t30"),
    ("stroke-class", "standard"),
    ("reservoir", "95"),
    ("free-stroke", "5/8"),
    ("warning", "60"),
    ("studs", "10"),
    ("stud-thread", "m22"),
];

const STATE: &str = r#"
const runner = document.querySelector("[data-testid=runner]");
const shown = (e) => e.getClientRects().length > 0;
const ids = (prefix) => [...document.querySelectorAll(`button[data-testid^="${prefix}-"]`)].filter(shown)
  .map((e) => e.dataset.testid.slice(prefix.length + 1));
return { step: runner?.dataset.step, at: runner?.dataset.at, ask: runner?.dataset.ask, shown: runner?.dataset.shown,
  choices: ids("choice"), ends: ids("end"), sixteenths: !!document.querySelector(".pad.sixteenths"),
  where: runner?.dataset.where, thousandths: !!document.querySelector(".pad.thousandths"), stage: runner?.dataset.stage };
"#;

/// What the runner shows now.
#[derive(Clone, Debug, PartialEq)]
pub struct State {
    pub step: String,
    pub at: String,
    pub ask: String,
    /// `asked`, `answered`, `held`, `list`, `moment` or `beside`.
    pub shown: String,
    pub choices: Vec<String>,
    /// The stage that the step stands in.
    pub stage: String,
    /// Where what is asked is answered; of a round it is a wheel end, of its step the vehicle.
    pub place: String,
    ends: Vec<String>,
    sixteenths: bool,
    /// True where digits come in from the right as thousandths of an inch.
    pub thousandths: bool,
}

/// Reads it from the page.
pub fn state(tablet: &Tablet) -> State {
    let value = tablet.run(STATE, &json!([]));
    let text = |name: &str| value[name].as_str().unwrap_or_default().to_owned();
    let list = |name: &str| {
        let items = value[name].as_array().into_iter().flatten();
        items.filter_map(Value::as_str).map(str::to_owned).collect()
    };
    State {
        step: text("step"),
        at: text("at"),
        ask: text("ask"),
        shown: text("shown"),
        choices: list("choices"),
        ends: list("ends"),
        sixteenths: value["sixteenths"] == true,
        thousandths: value["thousandths"] == true,
        stage: text("stage"),
        place: text("where"),
    }
}

/// One walk. The places are those of a vehicle with one axle in hand.
pub struct Walk<'a> {
    tablet: &'a Tablet,
    procedure: Value,
    axle: u8,
    foreman: String,
    as_foreman: bool,
    /// The last press of an answer returns at once, before anything is saved.
    in_a_hurry: bool,
    /// Only what leads on: no lists of steps that are done, no states beside an ask.
    straight: bool,
    /// What is typed at an ask of a step at a place instead of the usual figure.
    readings: BTreeMap<(String, String, String), String>,
    seen: BTreeSet<String>,
}

impl<'a> Walk<'a> {
    /// `foreman` is on the shop's list, and not the one who works.
    pub fn new(tablet: &'a Tablet, axle: u8, foreman: &str) -> Self {
        Self {
            tablet,
            procedure: procedure(),
            axle,
            foreman: foreman.to_owned(),
            as_foreman: false,
            in_a_hurry: false,
            straight: false,
            readings: BTreeMap::new(),
            seen: BTreeSet::new(),
        }
    }

    /// Leaves out what does not lead on.
    pub fn straight(mut self) -> Self {
        self.straight = true;
        self
    }

    /// Types these figures: what is read at a step, at a place, for an ask.
    pub fn reading(
        mut self,
        readings: impl IntoIterator<Item = ((String, String, String), String)>,
    ) -> Self {
        self.readings.extend(readings);
        self
    }

    /// From here on an answer is given without waiting for what becomes of it.
    pub fn hurry(mut self) -> Self {
        self.in_a_hurry = true;
        self
    }

    /// Steps until one, at all places, without looking at anything.
    pub fn through(&mut self, steps: &[&str]) {
        for (step, places) in self.steps() {
            for at in places.iter().filter(|_| steps.contains(&step.as_str())) {
                self.step(&step, at, &mut |_, _| {});
            }
        }
    }

    /// Goes to a step and answers until one of its asks is open. `weights` are typed instead of the usual ones.
    pub fn until_ask(&mut self, step: &str, at: &str, ask: &str, weights: &[(&str, &str)]) {
        self.open(step, at);
        for _ in 0..PRESSES {
            let state = state(self.tablet);
            if state.step == step && state.ask == ask && state.shown == "asked" {
                return;
            }
            match weights.iter().find(|(of, _)| *of == state.ask) {
                Some((_, weight)) => {
                    self.tablet.key_in(weight);
                    self.last("done");
                }
                None if state.shown == "moment" => {
                    self.tablet.press_all(&["choice-not-yet", "done"]);
                }
                None if matches!(state.shown.as_str(), "answered" | "here" | "group" | "look") => {
                    self.last("done");
                }
                None => self.answer(&state),
            }
        }
        panic!("{ask} of {step} is never asked");
    }

    fn last(&self, id: &str) {
        match (id, self.in_a_hurry) {
            ("hold", true) => self.tablet.touch("hold", 1_000),
            ("hold", false) => self.tablet.hold(),
            (id, true) => self.tablet.press_only(id),
            (id, false) => self.tablet.press(id),
        }
    }

    /// Every step with its places, in order.
    fn steps(&self) -> Vec<(String, Vec<String>)> {
        let stages = self.procedure["stages"].as_array().into_iter().flatten();
        let steps = stages.flat_map(|stage| stage["steps"].as_array().into_iter().flatten());
        let places = |scope: &str| match scope {
            "V" => vec!["V".to_owned()],
            "A" => vec![format!("A{}", self.axle)],
            _ => ["L", "R"]
                .map(|side| format!("E{}{side}", self.axle))
                .to_vec(),
        };
        steps
            .map(|step| {
                let scope = step["scope"].as_str().unwrap_or_default();
                (
                    step["id"].as_str().unwrap_or_default().to_owned(),
                    places(scope),
                )
            })
            .collect()
    }

    /// Walks until a step, or to the end. `look` sees every screen and state once, with a name for it.
    pub fn until(&mut self, stop: &str, look: Look<'_>) {
        for (step, places) in self.steps() {
            if step == stop {
                return;
            }
            for at in places {
                self.step(&step, &at, look);
            }
        }
    }

    fn first_time(&mut self, name: &str) -> bool {
        self.seen.insert(name.to_owned())
    }

    fn show(&mut self, name: &str, kind: &str, look: Look<'_>) {
        let new_kind = self.seen.insert(format!("kind {kind}"));
        look(self.tablet, &Seen { name, new_kind });
    }

    /// What kind of control an ask has, in a word.
    fn kind_name(&self, state: &State) -> String {
        let kind = self.kind(state);
        let name = match &kind {
            Value::String(name) => name.clone(),
            Value::Object(of) => of.keys().next().cloned().unwrap_or_default(),
            _ => String::new(),
        };
        if state.sixteenths {
            format!("{name} in sixteenths")
        } else {
            name
        }
    }

    fn address(step: &str, at: &str) -> String {
        format!("step/{at}/{step}")
    }

    fn open(&self, step: &str, at: &str) {
        self.tablet.go("map");
        self.tablet.go(&Self::address(step, at));
    }

    /// One step at one place, until nothing of it is open.
    pub fn step(&mut self, step: &str, at: &str, look: Look<'_>) {
        let tablet = self.tablet;
        self.open(step, at);
        for _ in 0..PRESSES {
            let state = state(tablet);
            if state.step != step || state.at != at {
                break;
            }
            match state.shown.as_str() {
                "asked" => {
                    let name = format!("{step} {}", state.ask);
                    if self.first_time(&name) && !self.straight {
                        self.show(&name, &self.kind_name(&state), look);
                        self.beside(&state, look);
                    }
                    self.answer(&state);
                }
                "answered" => {
                    let name = format!("{step} {} answered", state.ask);
                    if self.first_time(&name) {
                        let kind = format!("{} answered", self.kind_name(&state));
                        self.show(&name, &kind, look);
                    }
                    tablet.press("done");
                }
                "list" => break,
                // In a run somebody wants to go on: what comes first is done first.
                "moment" => {
                    if self.first_time("moment") {
                        self.show("moment", "moment", look);
                    }
                    tablet.press("choice-not-yet");
                    tablet.press("done");
                }
                "here" | "group" | "look" => {
                    let name = format!("{step} {}", state.shown);
                    if self.first_time(&name) {
                        self.show(&name, &state.shown.clone(), look);
                    }
                    tablet.press("done");
                }
                // Nobody looks at their own work.
                "held" if step == "second-look" && !self.as_foreman => {
                    if self.first_time("own work held") {
                        self.show("second-look held", "held", look);
                    }
                    self.be_foreman();
                    self.open(step, at);
                }
                other => panic!("{step} at {at} shows {other:?}: {}", tablet.reads("runner")),
            }
        }
        if self.first_time(&format!("{step} list")) && !self.straight {
            self.list(step, at, look);
        }
    }

    /// A step that is done: its list, its first answer, and what was left open because it may be.
    fn list(&mut self, step: &str, at: &str, look: Look<'_>) {
        let tablet = self.tablet;
        self.open(step, at);
        let list = state(tablet);
        assert_eq!(list.shown, "list", "{step} at {at} is not done: {list:?}");
        self.show(&format!("{step} list"), "list", look);
        let open = word("ui.ask.open", &[]);
        let rows: Vec<&String> = list
            .choices
            .iter()
            .enumerate()
            .filter(|(n, row)| {
                let says = tablet.reads(&format!("choice-{row}"));
                *n == 0 || says.lines().any(|line| line == open)
            })
            .map(|(_, row)| row)
            .collect();
        for (n, row) in rows.iter().enumerate() {
            if n > 0 {
                self.open(step, at);
            }
            tablet.press(&format!("choice-{row}"));
            let state = state(tablet);
            let name = format!("{step} {} {}", state.ask, state.shown);
            if self.first_time(&name) {
                let kind = format!("{} {}", self.kind_name(&state), state.shown);
                self.show(&name, &kind, look);
            }
        }
    }

    fn kind(&self, state: &State) -> Value {
        let stages = self.procedure["stages"].as_array().into_iter().flatten();
        let mut steps = stages.flat_map(|stage| stage["steps"].as_array().into_iter().flatten());
        let step = steps.find(|step| step["id"] == state.step.as_str());
        let asks = step
            .map(|step| step["asks"].as_array().cloned().unwrap_or_default())
            .unwrap_or_default();
        let ask = asks.into_iter().find(|ask| ask["id"] == state.ask.as_str());
        let kind =
            ask.unwrap_or_else(|| panic!("the procedure asks nothing like {state:?}"))["kind"]
                .take();
        let Some(fact) = kind["fact"].as_str() else {
            return kind;
        };
        let mut facts = self.procedure["facts"].as_array().into_iter().flatten();
        facts
            .find(|def| def["id"] == fact)
            .map(|def| def["kind"].clone())
            .unwrap_or_default()
    }

    /// States of one ask that an answer leads past: a question, a tag being typed, a mark being chosen.
    fn beside(&mut self, state: &State, look: Look<'_>) {
        let (tablet, kind) = (self.tablet, self.kind(state));
        let name = format!("{} {}", state.step, state.ask);
        if kind == "stands" {
            tablet.press("choice-1");
            self.show(&format!("{name} one picked"), "stands one", look);
            tablet.press("choice-2");
            self.show(&format!("{name} two picked"), "stands two", look);
            tablet.press("choice-another");
            tag_pages(tablet, &mut |part| {
                self.show(&format!("{name} tag {part}"), part, look)
            });
            self.open(&state.step, &state.at);
        } else if !kind["exceptions"].is_null() {
            let item = if tablet.sees("nut-1") {
                "nut-1".to_owned()
            } else {
                format!("choice-{}", state.choices[0])
            };
            tablet.press(&item);
            self.show(&format!("{name} marking"), "marking", look);
            tablet.press("choice-in-order");
        } else if !kind["pass"].is_null() && self.first_time("nut being marked") {
            tablet.press("nut-1");
            self.show(&format!("{name} marking"), "marking", look);
            self.open(&state.step, &state.at);
        } else if state.step == "jack" && state.choices.iter().any(|id| id == "another") {
            tablet.press("choice-another");
            self.show(&format!("{name} typed"), "jack typed", look);
            self.open(&state.step, &state.at);
        } else if !kind["reading"].is_null()
            && self.first_time(&format!("question {}", state.sixteenths))
        {
            if state.sixteenths {
                tablet.press("key-eighths-1");
            } else {
                tablet.key_in("999999");
            }
            tablet.press("done");
            if tablet.sees("question") {
                self.show(&format!("{name} question"), "question", look);
                tablet.press("question-again");
            }
            self.open(&state.step, &state.at);
        } else if kind == "look" && state.step == "second-look" {
            tablet.press("done");
            self.show("look", "look", look);
            tablet.press("send-back");
            self.show("look sent back", "look sent back", look);
            self.open(&state.step, &state.at);
        } else if kind == "look" {
            tablet.press("choice-sent-back");
            self.show(&format!("{name} sent back"), "sent back", look);
        } else if kind["choose"].is_array()
            && self.is_said_twice(&state.step)
            && self.first_time("one chosen")
        {
            tablet.press(&format!("choice-{}", state.choices[0]));
            self.show(&format!("{name} chosen"), "chosen", look);
        }
    }

    /// True for a step where a choice itself protects a person: it is said with a second press. Where
    /// it leads to a press-and-hold one press is enough.
    fn is_said_twice(&self, step: &str) -> bool {
        let stages = self.procedure["stages"].as_array().into_iter().flatten();
        let mut steps = stages.flat_map(|stage| stage["steps"].as_array().into_iter().flatten());
        let Some(found) = steps.find(|of| of["id"] == step) else {
            return false;
        };
        let holds = found["holds"].as_array().into_iter().flatten();
        let mut asks = found["asks"].as_array().into_iter().flatten();
        holds.clone().any(|hold| hold["protects"] == true)
            && !asks.any(|ask| !ask["kind"]["press"].is_null())
    }

    fn be_foreman(&mut self) {
        self.tablet.go("people");
        self.tablet.press_row("people", &self.foreman);
        self.as_foreman = true;
    }

    /// Answers what is asked, so that it clears.
    pub fn answer(&mut self, state: &State) {
        let (tablet, kind) = (self.tablet, self.kind(state));
        let of = (state.step.clone(), state.place.clone(), state.ask.clone());
        let read = self.readings.get(&of).cloned();
        let preset = FACTS
            .iter()
            .find(|(ask, _)| *ask == state.ask)
            .map(|(_, answer)| *answer);
        let preset = read.as_deref().or(preset);
        let choose = |offers: &Value| {
            let bad = |id: &str| {
                let mut offers = offers.as_array().into_iter().flatten();
                offers.any(|offer| offer["id"] == id && offer["clears"] == false)
            };
            let wanted = preset
                .map(str::to_owned)
                .or_else(|| state.choices.iter().find(|id| !bad(id)).cloned());
            if let Some(id) = wanted {
                tablet.press(&format!("choice-{id}"));
            }
        };
        if kind == "look" {
            if !self.as_foreman {
                self.be_foreman();
                self.open(&state.step, &state.at);
            }
            if state.step == "second-look" {
                tablet.press("done");
                tablet.touch("accept", 1_000);
                tablet.settle();
            } else {
                tablet.press("choice-accepted");
                self.last("done");
            }
        } else if kind == "wheels" {
            for end in &state.ends {
                tablet.press(&format!("end-{end}"));
            }
            self.last("done");
        } else if kind == "stands" {
            tablet.press_all(&["choice-1", "choice-2"]);
            self.last("done");
        } else if kind == "wrench" {
            self.last("choice-0");
        } else if kind == "text" {
            tablet.write("text", "DN 4515");
            self.last("done");
        } else if kind["choose"].is_array() {
            choose(&kind["choose"]);
            // Where a person is protected it is said with a second press; elsewhere one is all.
            let now = self::state(tablet);
            if now.shown == "asked"
                && (&now.step, &now.ask, &now.at) == (&state.step, &state.ask, &state.at)
                && now.place == state.place
            {
                self.last("done");
            }
        } else if kind["press"].is_object() {
            choose(&kind["press"]["answers"]);
            self.last("hold");
        } else if state.step == "jack" && state.choices.iter().any(|id| id == "another") {
            self.last("choice-0");
        } else if kind["reading"].is_object() || kind["count"].is_object() {
            let usual = if kind["count"].is_object() {
                &kind["count"]["usual"][0]
            } else {
                &kind["reading"]["usual"][0]
            };
            let usual = usual
                .as_str()
                .map_or_else(|| usual.to_string(), str::to_owned);
            let number = preset.unwrap_or(&usual);
            if state.thousandths {
                self.tablet.driver().keys(&number.replace("0.", ""));
                self.tablet.settle();
            } else {
                self.number(number, state.sixteenths);
            }
            self.last("done");
            if !self.in_a_hurry && tablet.sees("question") {
                self.last("question-keep");
            }
        } else {
            self.last("done");
        }
    }

    /// A number by the keys of the pad, where it has sixteenths to the sixteenth.
    fn number(&self, text: &str, sixteenths: bool) {
        if !sixteenths {
            self.tablet.driver().keys(text);
            return self.tablet.settle();
        }
        let (whole, part) = match text.split_once(' ') {
            Some((whole, part)) => (whole, part),
            None if text.contains('/') => ("0", text),
            None => (text, "0/8"),
        };
        let (over, under) = part.split_once('/').expect("a fraction");
        let number = |text: &str| text.parse::<u32>().expect("digits");
        let sixteenths = number(over) * 16 / number(under);
        if whole != "0" {
            self.tablet.press_only(&format!("key-whole-{whole}"));
        }
        if sixteenths > 1 {
            self.tablet
                .press_only(&format!("key-eighths-{}", sixteenths / 2));
        }
        if sixteenths % 2 == 1 {
            self.tablet.press_only("key-more");
        }
    }
}
