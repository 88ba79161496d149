//! Every screen of the app, once each, with a shop and a card made on the way.
//!
//! Used to measure screens and to take pictures of them. It judges nothing itself.

use practice::decision::{Decision, Shown};
use practice::drill::round::Round;
use practice::drill::{Drill, Question};
use practice::instrument::{Instrument, Tool};
use practice::seed::{Level, Seed};
use serde_json::json;

use super::shop::{
    add_jack, add_person, add_stand, add_wrench, limit_pages, step_pages, tag_pages, wheel_pages,
    wrench_pages,
};
use super::tablet::Tablet;
use super::walk::Walk;
use super::words::word;

/// One screen in one state.
pub struct Seen<'a> {
    pub name: &'a str,
    /// No screen with such controls came before.
    pub new_kind: bool,
}

/// Called with every screen that a tour comes to.
pub type Look<'a> = &'a mut dyn FnMut(&Tablet, &Seen<'_>);

const FOREMAN: &str = "Wenzel Adair";

/// From a new tablet to a card that was handed back.
pub fn all(tablet: &Tablet, look: Look<'_>) {
    shop(tablet, look);
    many_axles(tablet, look);
    new_card(tablet, look);
    card(tablet, look);
    for (at, step) in [("V", "lock-out"), ("A2", "raise"), ("E2L", "caging")] {
        tablet.go(&format!("step/{at}/{step}"));
        if tablet.sees("here") {
            see(tablet, "here", look);
            tablet.press("done");
        }
        see(tablet, &format!("{step} held"), look);
    }
    let mut walk = Walk::new(tablet, 2, FOREMAN);
    walk.until("lock-out", look);
    came_back(tablet, look);
    found(tablet, look);
    walk.until("", look);
    after(tablet, look);
    practice(tablet, look);
}

fn see(tablet: &Tablet, name: &str, look: Look<'_>) {
    look(
        tablet,
        &Seen {
            name,
            new_kind: true,
        },
    );
}

/// Start, people, stands, files, rules, settings: empty, and with a small shop.
fn shop(tablet: &Tablet, look: Look<'_>) {
    see(tablet, "start empty", look);
    for screen in [
        "people",
        "shop",
        "stands",
        "jacks",
        "limits",
        "wrenches",
        "wheels",
        "defaults",
        "files",
        "tablet",
        "rules",
        "road-checks",
    ] {
        tablet.go(screen);
        see(tablet, &format!("{screen} at first"), look);
    }
    tablet.go("people");
    add_person(tablet, FOREMAN, "foreman");
    tablet.go("people");
    add_person(tablet, "Ruta Imani", "technician");
    tablet.go("people");
    see(tablet, "people", look);
    tablet.go("stands");
    tablet.press("stand-new");
    see(tablet, "stand number", look);
    tablet.press("stand-number-next");
    see(tablet, "stand number wanting", look);
    tablet.press("back");
    for number in ["1", "2"] {
        add_stand(tablet, number, "20", "short-ton", "per-stand");
    }
    add_stand(tablet, "3", "12", "t", "per-pair");
    see(tablet, "stands", look);
    tablet.press("withdraw-3");
    see(tablet, "stand out of use", look);
    tablet.press("back");
    tablet.press("stand-new");
    tablet.write("stand-number", "4");
    tablet.press("stand-number-next");
    tag_pages(tablet, &mut |part| {
        see(tablet, &format!("stand tag {part}"), look)
    });
    tablet.press("done");
    see(tablet, "stand tag wanting", look);
    jacks(tablet, look);
    wrenches(tablet, look);
    wheels(tablet, look);
    limits(tablet, look);
    steps(tablet, look);
}

/// Jacks: the pages of a new one, an unusual figure, and what is done with one that is listed.
fn jacks(tablet: &Tablet, look: Look<'_>) {
    tablet.go("jacks");
    tablet.press("jack-new");
    see(tablet, "jack name", look);
    tablet.press("jack-name-next");
    see(tablet, "jack name wanting", look);
    tablet.write("jack-name", "J 3");
    tablet.press("jack-name-next");
    see(tablet, "jack rating", look);
    tablet.key_in("220");
    tablet.press("done");
    see(tablet, "jack rating question", look);
    tablet.press("question-again");
    tablet.press_all(&["key-take-away"; 3]);
    tablet.press("back");
    tablet.press("back");
    for name in ["1", "2"] {
        add_jack(tablet, name, "22");
    }
    see(tablet, "jacks", look);
    tablet.press("withdraw-2");
    see(tablet, "jack out of use", look);
    tablet.press("back");
}

/// Torque wrenches: the pages of a new one, one that is listed, and what is done with it.
fn wrenches(tablet: &Tablet, look: Look<'_>) {
    tablet.go("wrenches");
    tablet.press("wrench-new");
    see(tablet, "wrench name", look);
    tablet.press("wrench-name-next");
    see(tablet, "wrench name wanting", look);
    tablet.write("wrench-name", "W 2");
    tablet.press("wrench-name-next");
    wrench_pages(tablet, &mut |part| {
        see(tablet, &format!("wrench {part}"), look)
    });
    tablet.press("done");
    see(tablet, "wrench interval wanting", look);
    tablet.go("start");
    tablet.go("wrenches");
    // Two: a wrench is then picked at the pass.
    for name in ["1", "2"] {
        add_wrench(tablet, name, 0);
    }
    see(tablet, "wrenches", look);
    tablet.press("calibrated-1");
    see(tablet, "wrench calibrated", look);
    tablet.press("back");
    tablet.press("withdraw-2");
    see(tablet, "wrench out of use", look);
    tablet.go("shop");
    see(tablet, "shop sheet", look);
}

/// Each page of a limit of the shop's own, and the list with one; it is taken off again.
fn limits(tablet: &Tablet, look: Look<'_>) {
    tablet.go("limits");
    tablet.press("limit-new");
    limit_pages(tablet, &mut |part| {
        see(tablet, &format!("limit {part}"), look)
    });
    tablet.press("limit-keep");
    see(tablet, "limit source wanting", look);
    tablet.write("limit-source", "brake maker's sheet 4, p. 2");
    tablet.press("limit-keep");
    tablet.wait_to_see("limit-row-0");
    see(tablet, "limits", look);
    tablet.press("limit-drop-0");
    tablet.wait_to_lose("limit-row-0");
}

/// Each page of a step of the shop's own, the list with one, and how the final pass is done. The step
/// is taken off again: the walk goes by what is printed.
fn steps(tablet: &Tablet, look: Look<'_>) {
    tablet.go("steps");
    tablet.press("shop-step-new");
    step_pages(tablet, &mut |part| {
        see(tablet, &format!("shop step {part}"), look)
    });
    tablet.press("shop-step-keep");
    see(tablet, "shop step wanting", look);
    tablet.write(
        "shop-step-words",
        "Paint a line over each nut and the wheel",
    );
    tablet.press("shop-step-keep");
    tablet.wait_to_see("shop-step-0");
    see(tablet, "shop steps", look);
    tablet.press("shop-step-drop-0");
    tablet.wait_to_lose("shop-step-0");
    tablet.go("final-pass");
    see(tablet, "final pass of the shop", look);
}

/// Each page of the shop's own values for a wheel. They are left before they are kept: the walk goes
/// by what is printed.
fn wheels(tablet: &Tablet, look: Look<'_>) {
    tablet.go("wheels");
    tablet.press("choice-spoke");
    wheel_pages(tablet, &mut |part| {
        see(tablet, &format!("wheel {part}"), look)
    });
    tablet.press("done");
    see(tablet, "wheel source wanting", look);
    tablet.press("back");
}

/// A card with as many wheel ends as stand on one map: five axles, all of them in hand.
fn many_axles(tablet: &Tablet, look: Look<'_>) {
    tablet.go("start");
    tablet.press_all(&["new-card", "kind-truck-2-3"]);
    see(tablet, "new card, five axles", look);
    tablet.press_all(&["done", "axles-1-2-3-4-5"]);
    see(tablet, "new card, five axles in hand", look);
    tablet.press_all(&["done", "loaded-loaded"]);
    tablet.write("unit", "TR 5");
    tablet.press_all(&["done", "done"]);
    tablet.wait_to_see("map");
    see(tablet, "map of five axles", look);
    tablet.press("end-5R");
    see(tablet, "map of five axles, an end picked", look);
    tablet.go("found/E4L");
    tablet.press_all(&[
        "choice-hub",
        "choice-wheel-seal",
        "choice-renew-seal",
        "done",
    ]);
    tablet.go("map");
    see(tablet, "map of five axles, a line", look);
}

/// The pages of a new card, empty, refused, and filled in.
fn new_card(tablet: &Tablet, look: Look<'_>) {
    tablet.go("start");
    tablet.press("new-card");
    for part in ["vehicle", "axles", "load", "who"] {
        see(tablet, &format!("new card {part} at first"), look);
        tablet.press("done");
    }
    see(tablet, "new card wanting", look);
    tablet.go("start");
    tablet.press("new-card");
    tablet.press("kind-tractor-1-2");
    see(tablet, "new card vehicle", look);
    tablet.press("done");
    tablet.press("axle-2");
    see(tablet, "new card axles", look);
    tablet.press("done");
    tablet.press("loaded-unloaded");
    tablet.write("unit", "KR 88");
    see(tablet, "new card load", look);
    tablet.press("done");
    see(tablet, "new card who", look);
    tablet.press("done");
    tablet.wait_to_see("map");
}

/// The screens of a card that has just been opened.
fn card(tablet: &Tablet, look: Look<'_>) {
    see(tablet, "map", look);
    tablet.press("end-2L");
    see(tablet, "map, an end picked", look);
    for screen in ["bring", "trail", "files", "people"] {
        tablet.go(screen);
        see(tablet, &format!("{screen} of a card"), look);
    }
    tablet.go("setup");
    see(tablet, "setup", look);
    for fact in ["vehicle", "layout", "in-hand", "loaded", "unit"] {
        tablet.press(&format!("change-fact-V-{fact}"));
        see(tablet, &format!("setup {fact}"), look);
        tablet.press("back");
    }
}

/// Five hours later, by the clock of the page: what holds the vehicle is looked at first.
fn came_back(tablet: &Tablet, look: Look<'_>) {
    let later = r#"
        const Now = Date;
        window.Date = class extends Now {
            constructor(...given) { given.length ? super(...given) : super(Now.now() + 5 * 3600e3); }
            static now() { return Now.now() + 5 * 3600e3; }
        };
    "#;
    tablet.run(later, &json!([]));
    tablet.go("map");
    tablet.go("step/V/lock-out");
    see(tablet, "came back", look);
    tablet.press("line-chocks");
    see(tablet, "came back, not as left", look);
    tablet.driver().reload();
    tablet.wait_until_up();
}

/// Work that is found on the way: each page of it, the list, and one line.
fn found(tablet: &Tablet, look: Look<'_>) {
    tablet.go("lines");
    see(tablet, "lines, none", look);
    tablet.go("found/V");
    see(tablet, "found where", look);
    tablet.go("found/E2L");
    see(tablet, "found part", look);
    tablet.press("choice-hub");
    see(tablet, "found what", look);
    tablet.press("choice-wheel-seal");
    see(tablet, "found fix", look);
    tablet.press("choice-renew-seal");
    see(tablet, "found whole", look);
    tablet.press("done");
    tablet.go("lines");
    see(tablet, "lines", look);
    tablet.press_row("lines", &word("finding.wheel-seal", &[]));
    see(tablet, "line", look);
    tablet.press_all(&["minutes-5", "note-it"]);
    see(tablet, "line with a note", look);
    tablet.go("read-out");
    see(tablet, "read-out", look);
    tablet.go("lines");
    tablet.press_row("lines", &word("finding.wheel-seal", &[]));
    for state in ["waiting", "said-no", "said-yes", "done"] {
        tablet.press(&format!("tell-{state}"));
        see(tablet, &format!("line {state}"), look);
    }
    // Springs are renewed at both ends: the other one's line is one press away.
    tablet.go("found/E2L");
    tablet.press_all(&["choice-springs", "choice-return-spring", "done"]);
    let springs = word("finding.return-spring", &[]);
    tablet.go("lines");
    tablet.press_row("lines", &springs);
    see(tablet, "line of both ends", look);
    tablet.press("line-mate");
    assert!(
        !tablet.sees("line-mate"),
        "the other end has its line: {}",
        tablet.reads("line-history")
    );
    tablet.go("lines");
    let both = tablet.reads("lines").matches(&springs).count();
    assert_eq!(both, 2, "{}", tablet.reads("lines"));
    for _ in 0..both {
        tablet.go("lines");
        tablet.press_row("lines", &word("line.state.not-asked", &[]));
        for state in ["waiting", "said-yes", "done"] {
            tablet.press(&format!("tell-{state}"));
        }
    }
}

/// The card when all of it is done.
fn after(tablet: &Tablet, look: Look<'_>) {
    for screen in [
        "map",
        "bring",
        "trail",
        "setup",
        "looks",
        "look/E2L",
        "hand-over/E2L",
        "sides",
        "record",
        "start",
        "bay",
        "cards",
    ] {
        tablet.go(screen);
        see(tablet, &format!("{screen} of a whole job"), look);
    }
    tablet.press("cards-month");
    see(tablet, "cards, months", look);
    tablet.press("back");
    tablet.go("road-checks");
    see(tablet, "road checks of a whole job", look);
    tablet.go("start");
    tablet.press_row("cards", "KR 88");
    tablet.go("setup");
    for (fact, option) in [("V-loaded", "loaded"), ("A2-spring-brake", "none")] {
        tablet.press(&format!("change-fact-{fact}"));
        tablet.press(&format!("choice-{option}"));
        tablet.press("done");
        see(tablet, &format!("setup {fact}, what changes"), look);
        tablet.press("changes-leave");
    }
    tablet.go("defaults");
    tablet.press_all(&["choice-jurisdiction-ontario", "take-values"]);
    see(tablet, "the shop's values, what changes", look);
    tablet.press("changes-leave");
    tablet.go("trail");
    // An old line wants a reason.
    tablet.press("trail-order");
    tablet.press_row("trail", &super::words::word("ui.trail.take-back", &[]));
    see(tablet, "trail, taking a line back", look);
}

/// The band of the practice bay, where it takes room from a screen.
fn practice(tablet: &Tablet, look: Look<'_>) {
    tablet.go("start");
    tablet.press("demo");
    tablet.wait_to_see("map");
    see(tablet, "practice map", look);
    tablet.press("done");
    see(tablet, "practice step", look);
    for screen in [
        "people", "stands", "files", "trail", "setup", "tablet", "start",
    ] {
        tablet.go(screen);
        see(tablet, &format!("practice {screen}"), look);
    }
    drills(tablet, look);
    runs(tablet, look);
}

/// A run: begun by its code, looked at, stopped and marked; then people side by side.
fn runs(tablet: &Tablet, look: Look<'_>) {
    tablet.go("runs");
    see(tablet, "runs", look);
    tablet.press("begin-code");
    see(tablet, "runs, no code", look);
    tablet.write("seed-code", "U1-42");
    tablet.press("begin-code");
    tablet.wait_to_see("map");
    see(tablet, "run map", look);
    for (at, step) in [("V", "chocks"), ("V", "as-found"), ("A2", "stands")] {
        tablet.go("map");
        tablet.go(&format!("step/{at}/{step}"));
        see(tablet, &format!("run {step}"), look);
    }
    run_looks(tablet, look);
    tablet.go("marking");
    see(tablet, "run, to stop here", look);
    tablet.press("done");
    tablet.wait_to_see("marking-head");
    see(tablet, "run marked", look);
    tablet.go("compare");
    see(tablet, "compare", look);
    tablet.press("give-it");
    see(tablet, "compare, not given", look);
    tablet.go("compare/1-usual-42");
    tablet.wait_to_see("side-by-side");
    see(tablet, "side by side", look);
    tablet.go("runs");
    see(tablet, "runs, one marked", look);
}

/// What is drawn in a run: beside a list, and on a page of its own before a pad and before a pick.
fn run_looks(tablet: &Tablet, look: Look<'_>) {
    let mut walk = Walk::new(tablet, 1, FOREMAN).straight();
    walk.until("as-found", &mut |_, _| {});
    walk.until_ask("as-found", "V", "stroke-class", &[]);
    see(tablet, "run stroke class", look);
    for ask in ["at-rest", "free-stroke", "reservoir"] {
        walk.until_ask("as-found", "V", ask, &[]);
        see(tablet, &format!("run {ask}, typing"), look);
        tablet.press("nav-back");
        see(tablet, &format!("run {ask}, looked at"), look);
        tablet.press("done");
    }
    walk.until("stands", &mut |_, _| {});
    walk.until_ask("stands", "A1", "stands", &[]);
    see(tablet, "run stands, picking", look);
    tablet.press("nav-back");
    see(tablet, "run stands, looked at", look);
}

/// Every drill: each of its pages, asked and answered somehow; every instrument and its keys.
fn drills(tablet: &Tablet, look: Look<'_>) {
    tablet.go("drills");
    see(tablet, "drills", look);
    for (drill, choice) in [
        ("first", "choice-0"),
        ("stands", "choice-0"),
        ("edge-code", "choice-sound"),
        ("pattern", ""),
        ("units", ""),
    ] {
        tablet.go(&format!("drill/{drill}/1-usual-42"));
        see(tablet, &format!("drill {drill}"), look);
        if matches!(drill, "edge-code" | "stands") {
            tablet.press("done");
            see(tablet, &format!("drill {drill}, choosing"), look);
        }
        tablet.press("done");
        see(tablet, &format!("drill {drill} unanswered"), look);
        match drill {
            "pattern" => {
                let nuts = (1..).map(|nut| format!("nut-{nut}"));
                for nut in nuts.take_while(|nut| tablet.sees(nut)) {
                    tablet.press(&nut);
                }
            }
            "units" => tablet.key_in("7"),
            _ => tablet.press(choice),
        }
        see(tablet, &format!("drill {drill} chosen"), look);
        tablet.press("done");
        tablet.wait_to_see("said");
        see(tablet, &format!("drill {drill} answered"), look);
    }
    for tool in Tool::ALL {
        let (round, _) = drill_with(*tool);
        let name = format!("drill read {}", tool.code());
        tablet.go(&format!("drill/{}", round.text()));
        see(tablet, &name, look);
        tablet.press("done");
        see(tablet, &format!("{name}, typing"), look);
        if *tool == Tool::PushrodRule {
            tablet.press("done");
            see(tablet, &format!("{name}, nothing typed"), look);
            tablet.press("key-whole-1");
        } else {
            tablet.key_in("7");
        }
        tablet.press("done");
        tablet.wait_to_see("said");
        see(tablet, &format!("{name} answered"), look);
    }
    drills_with_pages(tablet, look);
}

/// The drills whose question has several pages, and the end of a round.
fn drills_with_pages(tablet: &Tablet, look: Look<'_>) {
    for (drill, pages) in [
        ("limit", ["", "choice-within", "choice-0"]),
        ("fault", ["look-0", "choice-0", ""]),
        ("cause", ["", "choice-1", "choice-0"]),
    ] {
        tablet.go(&format!("drill/{drill}/1-usual-42"));
        for (number, choice) in (1..).zip(pages) {
            if drill == "fault" && number == 3 {
                break;
            }
            see(tablet, &format!("drill {drill} page {number}"), look);
            while !choice.is_empty() && !tablet.sees("wanting") {
                tablet.press("done");
                see(
                    tablet,
                    &format!("drill {drill} page {number} unanswered"),
                    look,
                );
            }
            if !choice.is_empty() {
                tablet.press(choice);
                see(tablet, &format!("drill {drill} page {number} chosen"), look);
            }
            tablet.press("done");
        }
        tablet.wait_to_see("said");
        see(tablet, &format!("drill {drill} answered"), look);
    }
    // Each part that an eye judges, sound or not.
    for number in 0..12 {
        tablet.go(&format!("drill/fault/1-usual-{}", number * 97));
        see(tablet, &format!("drill fault {number}"), look);
    }
    tablet.go("drill/edge-code/1-usual-42/vsound,vsound,vreplace,vsound,vreplace,");
    tablet.wait_to_see("over");
    see(tablet, "drill over", look);
}

/// A drill that begins with this instrument, and what is shown first.
pub fn drill_with(tool: Tool) -> (Round, Instrument) {
    let rounds = (0..2_000).map(|number| Round::new(Drill::Read, Seed::new(Level::Usual, number)));
    let mut fits = rounds.filter_map(|round| {
        let first = match round.question(1)? {
            Question::Read(decision) => shown_first(&decision)?,
            Question::Gauge(instrument) => instrument,
            _ => return None,
        };
        (first.tool() == tool).then_some((round, first))
    });
    fits.next()
        .unwrap_or_else(|| panic!("no drill has a {tool:?}"))
}

fn shown_first(decision: &Decision) -> Option<Instrument> {
    match &decision.shown {
        Shown::Instrument(instrument) => Some(*instrument),
        Shown::Pushrod { at_rest, .. } => Some(*at_rest),
        Shown::Diameters { front, .. } => Some(front[0]),
        _ => None,
    }
}
