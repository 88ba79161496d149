//! A tandem from the chocks to the road check, without a network: four wheel ends, two technicians,
//! and a foreman who looks at all of it.
//!
//! On the way: three extra lines, a reading that is taken back, a wrench past its date, a chamber
//! that was read wrong. Presses and screens of the whole job are counted and printed.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::json;
use tests::browser::dist;
use tests::browser::folder::Folder;
use tests::browser::host::Host;
use tests::browser::photo::{give_photo, picture};
use tests::browser::shop::{add_person, add_stand, add_wrench};
use tests::browser::tablet::Tablet;
use tests::browser::walk::{State, state};
use tests::browser::words::word;

/// Who works on which side of the vehicle, and who looks.
const LEFTS: &str = "Hanno Ostrander";
const RIGHTS: &str = "Ilke Varga";
const FOREMAN: &str = "Wenzel Adair";

const ENDS: [&str; 4] = ["E2L", "E2R", "E3L", "E3R"];
const CUSTOMER: &str = "Mr. Ode";
const WHY_STRUCK: &str = "the dial was not at zero";
const WHY_OLD_WRENCH: &str = "the other one is out on a road call";
const WHY_NO: &str = "they fit their own hose at home";

/// More presses than the whole job takes.
const ENOUGH: usize = 1_200;

/// The newest line of the trail with these words, by its tick.
const TRAIL_ROW: &str = r#"
const rows = [...document.querySelectorAll("[data-testid=trail] li")].filter((row) => row.innerText.includes(arguments[0]));
return rows[rows.length - 1]?.dataset.testid.slice("trail-".length) ?? null;
"#;

struct Bay {
    tablet: Tablet,
    me: &'static str,
    presses: BTreeMap<String, usize>,
    screens: BTreeSet<(String, String)>,
}

impl Bay {
    fn be(&mut self, name: &'static str) {
        if self.me != name {
            self.tablet.go("people");
            self.tablet.press_row("people", name);
            self.me = name;
        }
    }

    /// One press of the person at work, counted for the place that it is about.
    fn press(&mut self, id: &str) {
        self.count();
        self.tablet.press(id);
    }

    fn hold(&mut self) {
        self.count();
        self.tablet.hold();
    }

    fn count(&mut self) {
        let State { stage, place, .. } = state(&self.tablet);
        *self.presses.entry(place.clone()).or_default() += 1;
        self.screens.insert((place, stage));
    }

    fn press_all(&mut self, ids: &[&str]) {
        for id in ids {
            self.press(id);
        }
    }

    /// All that a page says.
    fn page(&self) -> String {
        let words = self.tablet.run(
            "return document.querySelector('main, .runner').innerText",
            &json!([]),
        );
        words.as_str().unwrap_or_default().to_owned()
    }

    fn open(&self, step: &str, at: &str) {
        self.tablet.go("map");
        self.tablet.go(&format!("step/{at}/{step}"));
    }

    /// Goes where the app leads, and says what is so, until `stop` is shown.
    fn work(&mut self, stop: impl Fn(&State) -> bool) -> State {
        let mut last = (None, 0);
        for _ in 0..ENOUGH {
            let mut now = state(&self.tablet);
            let seen = (now.clone(), self.page());
            last = match last {
                (Some(before), times) if before == seen => (Some(before), times + 1),
                _ => (Some(seen), 0),
            };
            assert!(last.1 < 8, "stuck at {now:?}: {}", self.page());
            if now.step.is_empty() && self.tablet.sees("map") {
                self.tablet.press("done");
                now = state(&self.tablet);
            }
            let whose = match now.place.chars().last() {
                Some('R') => RIGHTS,
                Some('L') => LEFTS,
                _ => self.me,
            };
            if whose != self.me {
                self.be(whose);
                self.open(&now.step, &now.at);
                now = state(&self.tablet);
            }
            if stop(&now) {
                return now;
            }
            eprintln!(
                "TL {} {} {} {} {}",
                self.me, now.at, now.step, now.ask, now.shown
            );
            match now.shown.as_str() {
                "here" | "group" | "answered" | "list" => self.press("done"),
                "asked" => self.answer(&now),
                other => panic!(
                    "{} at {} shows {other:?}: {}",
                    now.step,
                    now.at,
                    self.tablet.reads("runner")
                ),
            }
        }
        panic!("no end of it: {:?}", state(&self.tablet));
    }

    fn answer(&mut self, now: &State) {
        let (step, ask) = (now.step.as_str(), now.ask.as_str());
        if self.each_person(now) {
            return;
        }
        match (step, ask) {
            ("chocks", "wheels") => return self.press_all(&["end-1L", "end-1R", "done"]),
            ("final-pass", "wrench") => return self.pick_wrench(now),
            ("road-check", "nuts") if now.place == "E2L" => {
                return self.press_all(&["nut-4", "choice-turned", "done"]);
            }
            ("stands", "stands") => {
                let own = if now.at == "A2" {
                    ["1", "2"]
                } else {
                    ["3", "4"]
                };
                for number in own {
                    self.press_stand(number);
                }
                return self.press("done");
            }
            _ => {}
        }
        if self.tablet.sees("number-ask") {
            for key in number(now) {
                self.press(key);
            }
            return self.press("done");
        }
        for same in ["as-axle-before", "as-other-side"] {
            if self.tablet.sees(same) {
                return self.press(same);
            }
        }
        if !now.choices.is_empty() && !self.tablet.sees("nut-1") {
            let option = choice(now);
            self.press(&format!("choice-{option}"));
        }
        if state(&self.tablet) != *now {
            return; // One press was the whole answer.
        }
        if self.tablet.sees("hold") {
            self.hold();
        } else {
            self.press("done");
        }
    }

    /// Everybody who works on the vehicle says it in their own name.
    fn each_person(&mut self, now: &State) -> bool {
        if !matches!(now.step.as_str(), "lock-out" | "hands-clear" | "lock-off") {
            return false;
        }
        for name in [LEFTS, RIGHTS] {
            self.be(name);
            self.open(&now.step, &now.at);
            if now.step == "hands-clear" {
                let waits = self.tablet.reads("waits-for");
                assert!(waits.contains(RIGHTS), "{waits}");
                assert_eq!(waits.contains(LEFTS), name == LEFTS, "{waits}");
            }
            self.hold();
        }
        true
    }

    /// The old wrench at the first wheel end, the good one from then on.
    fn pick_wrench(&mut self, now: &State) {
        let wanted = if now.place == "E2L" { "old" } else { "ours" };
        let name = word("ui.wrench.name", &[("wrench", wanted)]);
        let offered = now.choices.iter().map(|id| format!("choice-{id}"));
        let found = offered
            .clone()
            .find(|id| self.tablet.reads(id).contains(&name));
        let found = found.unwrap_or_else(|| panic!("{name} is not offered: {now:?}"));
        self.press(&found);
        if state(&self.tablet).shown == "answered" {
            self.press("done");
        }
    }

    fn press_stand(&mut self, number: &str) {
        self.press(&format!("choice-{number}"));
    }

    fn accept(&mut self, at: &str) {
        self.tablet.go(&format!("look/{at}"));
        self.count();
        self.tablet.touch("accept", 1_000);
        self.tablet.wait("the list of looks is back", || {
            self.tablet.fragment() == "looks"
        });
    }

    /// Opens the line of a finding from the list of them.
    fn open_line(&self, finding: &str) {
        self.tablet.go("lines");
        self.tablet
            .press_row("lines", &word(&format!("finding.{finding}"), &[]));
    }
}

/// The keys of a reading.
fn number(now: &State) -> &'static [&'static str] {
    match (now.step.as_str(), now.ask.as_str()) {
        (_, "at-rest") => &["key-whole-2"],
        // Within what is printed for this adjuster: 1/2 to 5/8 in in service, 5/8 to 3/4 in set up.
        ("as-found", "free-stroke") => &["key-eighths-4", "key-more"],
        (_, "free-stroke") => &["key-eighths-5", "key-more"],
        // 2 1/8 in: within the 2 1/2 in of a long stroke type 30, beyond the 2 in of a standard one
        // (49 CFR 393.47(e)).
        ("as-found", "applied") if now.place == "E2L" => &["key-whole-4", "key-eighths-1"],
        (_, "applied") => &["key-whole-3", "key-eighths-4"],
        (_, "reservoir") => &["key-9", "key-5"],
        (_, "group-weight") => &["key-1", "key-2", "key-8", "key-0", "key-0"],
        (_, "unit-weight") => &["key-1", "key-7", "key-6", "key-0", "key-0"],
        (_, "rating") => &["key-2", "key-2"],
        (_, "studs") => &["key-1", "key-0"],
        (_, "lining") => &["key-eighths-4"],
        // The one that is taken back is told by its figure.
        (_, "radial") if now.place == "E3R" => &["key-1", "key-1"],
        (_, "radial") => &["key-8"],
        (_, "end-play") => &["key-3"],
        (_, "final-torque") => &["key-4", "key-7", "key-5"],
        (_, "leak-off") => &["key-1"],
        (_, "leak-on") => &["key-2"],
        (_, "warning") => &["key-6", "key-0"],
        (_, "applications") => &["key-8"],
        (_, "bolts") => &["key-8"],
        (_, "road-distance") => &["key-6", "key-0"],
        (step, ask) => panic!("no number for {ask} of {step}"),
    }
}

/// What is so, of the answers offered.
fn choice(now: &State) -> String {
    let so = match (now.step.as_str(), now.ask.as_str()) {
        ("standing", "coupled") => "no-trailer",
        (_, "suspension") => "air",
        (_, "rim") => "one-piece",
        (_, "condition") => "no-damage",
        (_, "wheel-set") => "dual",
        (_, "spring-brake") => "removable-bolt",
        (_, "mounting") => "hub-piloted",
        (_, "adjuster-style") => "pawl",
        (_, "drum-mount") => "outboard",
        (_, "drum-new") => "renewed",
        (_, "chamber-family") => "clamp",
        (_, "chamber-type") => "t30",
        // Read wrong on axle 2 at first.
        ("as-found", "stroke-class") if now.place.starts_with("E2") => "long",
        (_, "stroke-class") => "standard",
        (_, "arm-length") => "a5-5",
        (_, "open-look-by") => "not-asked",
        (_, "fastener-oil") => "dry",
        (_, "stud-thread") => "m22",
        (_, "road-by") => "here",
        ("hub", "seal") if now.place == "E2L" => "leaks",
        _ => "",
    };
    if so.is_empty() {
        return now.choices[0].clone();
    }
    assert!(
        now.choices.iter().any(|id| id == so),
        "{so} is not offered: {now:?}"
    );
    so.to_owned()
}

#[test]
fn tandem() {
    let mut host = Host::start(&dist());
    let tablet = Tablet::new("tandem", &host.address());
    tablet.wait_for_worker();
    host.stop();
    tablet.driver().reload();
    tablet.wait_until_up();
    let mut bay = shop(tablet);

    bay.work(|now| now.place == "E2L" && now.shown == "answered" && now.ask == "seal");
    extra_lines(&mut bay);
    bay.work(|now| now.step == "kit");
    a_reading_is_taken_back(&mut bay);
    bay.work(|now| now.step == "drum-on" && now.place == "E3R");
    hands_are_not_clear_while_a_drum_is_off(&mut bay);
    a_chamber_was_read_wrong(&mut bay);
    bay.open("drum-on", "E3R");
    bay.work(|now| now.step == "final-pass" && now.place == "E2R" && now.ask == "wrench");
    a_wrench_past_its_date(&mut bay);
    // What waited for the reason is the first thing to do.
    bay.be(LEFTS);
    bay.tablet.go("map");
    bay.work(|now| now.step == "second-look");
    a_foreman_looks(&mut bay);
    bay.be(LEFTS);
    bay.tablet.go("map");
    bay.work(|now| now.step == "lines");
    a_no_stands_in_the_way(&mut bay);
    bay.be(LEFTS);
    bay.tablet.go("map");
    bay.work(|now| now.step == "road-check");
    handed_back(&mut bay);
    bay.be(LEFTS);
    bay.open("road-check", "V");
    bay.work(|now| now.step.is_empty() || now.shown == "list");
    one_nut_moved(&mut bay);
    for line in told(&bay) {
        println!("{line}");
    }
    let complaints = bay.tablet.complaints();
    assert!(complaints.is_empty(), "{complaints:?}");
}

/// People, stands, wrenches, a card for the tandem, and both technicians on it.
fn shop(tablet: Tablet) -> Bay {
    for (name, role) in [
        (FOREMAN, "foreman"),
        (RIGHTS, "technician"),
        (LEFTS, "technician"),
    ] {
        tablet.go("people");
        add_person(&tablet, name, role);
    }
    for number in ["1", "2", "3", "4"] {
        tablet.go("stands");
        add_stand(&tablet, number, "20", "short-ton", "per-stand");
    }
    tablet.go("wrenches");
    add_wrench(&tablet, "old", 2);
    add_wrench(&tablet, "ours", 0);
    tablet.go("start");
    tablet.press_all(&["new-card", "kind-tractor-1-2", "done", "axles-2-3", "done"]);
    tablet.press("loaded-unloaded");
    tablet.write("unit", "RK 2204");
    tablet.press_all(&["done", "done"]);
    tablet.wait_to_see("map");
    let mut bay = Bay {
        tablet,
        me: LEFTS,
        presses: BTreeMap::new(),
        screens: BTreeSet::new(),
    };
    // Both are on the card before anybody tags out.
    bay.be(RIGHTS);
    bay.be(LEFTS);
    bay.tablet.go("map");
    bay
}

/// A seal that leaks is agreed and done; a hose is declined; a shield gets a photo and is done.
fn extra_lines(bay: &mut Bay) {
    let seal = word("finding.wheel-seal", &[]);
    assert!(bay.tablet.reads("brought-up").contains(&seal));
    for (at, part, finding, fix) in [
        ("E3R", "hose", "hose", ""),
        ("E3L", "dust-shield", "dust-shield", "choice-renew-shield"),
    ] {
        bay.tablet.go(&format!("found/{at}"));
        for id in [&format!("choice-{part}"), &format!("choice-{finding}")] {
            bay.press(id);
        }
        if !fix.is_empty() {
            bay.press(fix);
        }
        bay.press("done");
    }

    let folder = Folder::new("tandem-photos");
    let photo = picture(folder.path(), 1_200, 800);
    bay.open_line("dust-shield");
    bay.tablet.write("note-part", "shield");
    bay.press_all(&["minutes-15", "photo-take"]);
    give_photo(&bay.tablet, &photo);
    bay.tablet.wait_to_see("photo-key");

    bay.tablet.go("lines");
    bay.press("lines-read-out");
    bay.tablet.write("asked", CUSTOMER);
    for (finding, answer) in [
        ("wheel-seal", "said-yes"),
        ("hose", "said-no"),
        ("dust-shield", "said-yes"),
    ] {
        let row = bay.tablet.run(
            r#"return [...document.querySelectorAll(".read-out-line")]
                .find((row) => row.innerText.includes(arguments[0]))?.dataset.testid"#,
            &json!([word(&format!("finding.{finding}.plain"), &[])]),
        );
        let row = row.as_str().expect("the line is on the sheet").to_owned();
        bay.press(&format!("{row}-{answer}"));
        if !bay.tablet.sees("asked") {
            bay.tablet.go("lines");
            bay.tablet.press("lines-read-out");
        }
    }
    for finding in ["wheel-seal", "dust-shield"] {
        bay.open_line(finding);
        bay.press("tell-done");
    }
    bay.open("hub", "E2L");
    bay.tablet.go("map");
}

/// Struck with a reason: its step is open again, and is done again by a new reading.
fn a_reading_is_taken_back(bay: &mut Bay) {
    bay.open("camshaft", "E3R");
    assert_eq!(state(&bay.tablet).shown, "list", "it is not done");
    // Another's entry is the foreman's to take back, and never without a reason.
    bay.be(FOREMAN);
    bay.tablet.go("trail");
    let tick = bay.tablet.run(TRAIL_ROW, &json!(["0.011"]));
    let tick = tick
        .as_str()
        .expect("the reading is on the trail")
        .to_owned();
    bay.press(&format!("strike-{tick}"));
    bay.tablet.write("strike-why", WHY_STRUCK);
    bay.press("strike-yes");
    bay.tablet.wait_to_lose("strike-ask");
    bay.open("camshaft", "E3R");
    let now = state(&bay.tablet);
    assert_eq!(
        (now.ask.as_str(), now.shown.as_str()),
        ("radial", "asked"),
        "a struck reading still counts"
    );
    bay.work(|now| now.step == "kit");
    bay.open("camshaft", "E3R");
    assert_eq!(state(&bay.tablet).shown, "list", "it is not done again");
    bay.tablet.go("map");
}

/// Three drums are on, one is off: nobody may say that hands are clear.
fn hands_are_not_clear_while_a_drum_is_off(bay: &mut Bay) {
    for name in [LEFTS, RIGHTS] {
        bay.be(name);
        bay.open("hands-clear", "V");
        let now = state(&bay.tablet);
        assert_eq!(now.shown, "held", "{now:?}");
        assert!(!bay.tablet.sees("hold"), "it can be held down");
        let why = bay.tablet.reads("not-yet");
        let drum_on = word("step.drum-on.do", &[]);
        assert!(why.contains(drum_on.trim_end_matches('.')), "{why}");
    }
}

/// Long stroke on the set-up sheet, standard on the chamber: what was within is beyond, and that is
/// said before it is kept.
fn a_chamber_was_read_wrong(bay: &mut Bay) {
    let give = |bay: &mut Bay, end: &str| {
        bay.tablet.go("setup");
        bay.press(&format!("change-fact-{end}-stroke-class"));
        bay.press("choice-standard");
        bay.press("done");
    };
    let (within, beyond) = (word("verdict.within", &[]), word("verdict.beyond", &[]));
    let flips = word(
        "ui.changes.judged",
        &[
            ("rule", &word("rule.slack.applied", &[])),
            ("then", &within),
            ("now", &beyond),
        ],
    );
    give(bay, "E2L");
    let told = bay.tablet.reads("changes");
    assert!(told.contains(&flips), "{told}");
    assert!(told.contains(&word("step.as-found", &[])), "{told}");
    // Until the other end is read again, the axle is unlike.
    let unlike = word("ui.changes.in-the-way", &[("what", "")]);
    assert!(told.contains(unlike.trim_end()), "{told}");
    // Left as it was, nothing is kept.
    bay.press("changes-leave");
    let sheet = bay.tablet.reads("fact-E2L-stroke-class");
    assert!(
        sheet.contains(&word("fact.stroke-class.long", &[])),
        "{sheet}"
    );
    for end in ["E2L", "E2R"] {
        give(bay, end);
        if bay.tablet.sees("changes-keep") {
            bay.press("changes-keep");
        }
        bay.tablet.wait_to_see(&format!("fact-{end}-stroke-class"));
        let sheet = bay.tablet.reads(&format!("fact-{end}-stroke-class"));
        assert!(
            sheet.contains(&word("fact.stroke-class.standard", &[])),
            "{sheet}"
        );
    }
}

/// The nuts of one wheel end were torqued with it: a foreman says why that stands, nobody else.
fn a_wrench_past_its_date(bay: &mut Bay) {
    bay.be(LEFTS);
    bay.open("final-pass", "E2L");
    bay.tablet.wait_to_see("needs-foreman");
    assert!(
        !bay.tablet.sees("give-reason"),
        "a technician passed a hold"
    );
    bay.be(FOREMAN);
    bay.open("final-pass", "E2L");
    bay.tablet.write("reason", WHY_OLD_WRENCH);
    bay.press("give-reason");
    bay.tablet.go("trail");
    let trail = bay.tablet.reads("trail");
    assert!(trail.contains(WHY_OLD_WRENCH), "{trail}");
}

/// All four wheel ends wait for the foreman, none for who worked there.
fn a_foreman_looks(bay: &mut Bay) {
    bay.be(FOREMAN);
    bay.tablet.go("looks");
    let list = bay.page();
    let waits = word("ui.looks.first", &[]);
    assert_eq!(list.matches(&waits).count(), ENDS.len(), "{list}");
    for end in ENDS {
        bay.accept(end);
    }
    let list = bay.page();
    let accepted = word("ui.looks.accepted", &[]);
    assert_eq!(list.matches(&accepted).count(), ENDS.len(), "{list}");
}

/// The declined hose stands between the vehicle and the road until the foreman signs why.
fn a_no_stands_in_the_way(bay: &mut Bay) {
    let hose = word("finding.hose", &[]);
    let in_the_way = |bay: &Bay| {
        bay.tablet.go("way");
        bay.tablet.wait_to_see("way-line");
        bay.page().contains(&hose)
    };
    bay.open("record", "V");
    assert_eq!(state(&bay.tablet).shown, "held", "it is handed over");
    assert!(in_the_way(bay), "{}", bay.page());
    bay.open_line("hose");
    bay.tablet.write("pass-why", WHY_NO);
    bay.press("pass-line");
    assert_eq!(
        bay.tablet.reads("wanting"),
        word("refuse.foreman-only", &[])
    );
    assert!(in_the_way(bay), "{}", bay.page());
    bay.be(FOREMAN);
    bay.open_line("hose");
    bay.tablet.write("pass-why", WHY_NO);
    bay.press("pass-line");
    bay.tablet.wait_to_lose("line-goes-on");
    assert!(!in_the_way(bay), "{}", bay.page());
}

/// The record tells of all that was out of the ordinary.
fn handed_back(bay: &mut Bay) {
    bay.tablet.go("record");
    let record = bay.tablet.reads("record");
    for told in [
        "RK 2204",
        "2 1/8",
        "0.011",
        WHY_STRUCK,
        WHY_OLD_WRENCH,
        WHY_NO,
        CUSTOMER,
        LEFTS,
        RIGHTS,
        FOREMAN,
    ] {
        assert!(record.contains(told), "{told} is not on the record");
    }
    for finding in ["wheel-seal", "hose", "dust-shield"] {
        let finding = word(&format!("finding.{finding}"), &[]);
        assert!(record.contains(&finding), "{finding} is not on the record");
    }
    bay.tablet.go("road-checks");
    let due = bay.tablet.reads("road-checks");
    assert!(due.contains("RK 2204"), "{due}");
}

/// The nut is told by its number, with what it means that it moved; the check is made.
fn one_nut_moved(bay: &mut Bay) {
    bay.tablet.go("record");
    let record = bay.tablet.reads("record");
    let place = word(
        "place.end",
        &[("axle", "2"), ("side", &word("side.left", &[]))],
    );
    let means = word("torque.moved.turned", &[]);
    let moved = word(
        "ui.road.moved",
        &[("place", &place), ("nuts", "4"), ("means", &means)],
    );
    assert!(record.contains(&moved), "{moved} is not on the record");
    bay.tablet.go("road-checks");
    bay.tablet.wait_to_see("no-road-checks");
}

/// What it took: all of it, then place by place.
fn told(bay: &Bay) -> Vec<String> {
    let presses: usize = bay.presses.values().sum();
    let mut told = vec![format!(
        "tandem: {presses} presses on {} screens",
        bay.screens.len()
    )];
    for (place, presses) in &bay.presses {
        let screens: Vec<&str> = bay
            .screens
            .iter()
            .filter(|(of, _)| of == place)
            .map(|(_, stage)| stage.as_str())
            .collect();
        let place = if place.is_empty() { "lists" } else { place };
        told.push(format!(
            "{place}: {presses} presses; {}",
            screens.join(", ")
        ));
    }
    told
}
