//! What a shop puts into a new tablet: people, stands, a card. All through the screens.

use super::tablet::Tablet;

/// A name for the list, picked at once; the screen is the one that it was called from.
pub fn add_person(tablet: &Tablet, name: &str, role: &str) {
    tablet.write("person-name", name);
    tablet.press(&format!("role-{role}"));
    tablet.press("person-add");
}

/// A stand for the list, from the list. The unit is a code of the app, such as `short-ton`.
pub fn add_stand(tablet: &Tablet, number: &str, figure: &str, unit: &str, basis: &str) {
    tablet.press("stand-new");
    tablet.write("stand-number", number);
    tablet.press("stand-number-next");
    tag(tablet, figure, unit, basis, "sound");
    tablet.wait_to_see(&format!("stand-row-{number}"));
}

/// The pages of a stand's tag, from the unit to the end.
pub fn tag(tablet: &Tablet, figure: &str, unit: &str, basis: &str, condition: &str) {
    tablet.wait_to_see("stand-entry");
    tablet.press(&format!("choice-{unit}"));
    tablet.press("done");
    tablet.key_in(figure);
    tablet.press("done");
    tablet.press(&format!("choice-{basis}"));
    tablet.press("done");
    tablet.press(&format!("choice-{condition}"));
    tablet.press("done");
}

/// Each page of a stand's tag in turn, filled in as far as the last; `look` gets the name of each.
pub fn tag_pages(tablet: &Tablet, look: &mut dyn FnMut(&str)) {
    look("unit");
    tablet.press_all(&["choice-t", "done"]);
    look("figure");
    tablet.key_in("12");
    tablet.press("done");
    look("basis");
    tablet.press_all(&["choice-unmarked", "done"]);
    look("condition");
}

/// A torque wrench for the list, from the list. It holds from 100 to 600 lbf·ft; it was calibrated
/// on the first day of this year, or so many years before.
pub fn add_wrench(tablet: &Tablet, name: &str, years_ago: u8) {
    tablet.press("wrench-new");
    tablet.write("wrench-name", name);
    tablet.press("wrench-name-next");
    tablet.press_all(&["choice-lbf-ft", "done"]);
    for mark in ["100", "600"] {
        tablet.key_in(mark);
        tablet.press("done");
    }
    tablet.press_all(&[&format!("choice-{years_ago}"), "done"]);
    tablet.press_all(&["choice-1", "done"]);
    tablet.key_in("1");
    tablet.press("done");
    tablet.press_all(&["choice-not-known", "done"]);
    tablet.wait_to_see(&format!("wrench-row-{name}"));
}

/// A jack for the list, from the list, in short tons.
pub fn add_jack(tablet: &Tablet, name: &str, rating: &str) {
    tablet.press("jack-new");
    tablet.write("jack-name", name);
    tablet.press("jack-name-next");
    tablet.key_in(rating);
    tablet.press("done");
    tablet.wait_to_see(&format!("jack-row-{name}"));
}

/// Each page of a limit of the shop's own in turn, filled in as far as the last: play of camshafts of
/// every kind, at most 0.012 in, a maker's; `look` gets the name of each.
pub fn limit_pages(tablet: &Tablet, look: &mut dyn FnMut(&str)) {
    look("rule");
    tablet.press("choice-camshaft.radial");
    look("kind");
    tablet.press("choice-all");
    look("law");
    tablet.press("choice-all");
    look("figure");
    tablet.key_in("0.012");
    tablet.press("done");
    look("source");
}

/// Each page of a step of the shop's own in turn, as far as its words: at each wheel end, in Slack;
/// `look` gets the name of each.
pub fn step_pages(tablet: &Tablet, look: &mut dyn FnMut(&str)) {
    look("stage");
    tablet.press("choice-slack");
    look("scope");
    tablet.press("choice-scope.end");
    look("words");
}

/// Each page of a torque wrench in turn, filled in as far as the last; `look` gets the name of each.
pub fn wrench_pages(tablet: &Tablet, look: &mut dyn FnMut(&str)) {
    look("unit");
    tablet.press_all(&["choice-Nm", "done"]);
    for (mark, text) in [("low", "100"), ("high", "700")] {
        look(mark);
        tablet.key_in(text);
        tablet.press("done");
    }
    look("year");
    tablet.press_all(&["choice-0", "done"]);
    look("month");
    tablet.press_all(&["choice-1", "done"]);
    look("day");
    tablet.key_in("1");
    tablet.press("done");
    look("interval");
}

/// Each page of the shop's own values for a wheel in turn, filled in as far as the last: 300 to 320
/// lbf·ft dry, a seat value, and an order of five nuts.
pub fn wheel_pages(tablet: &Tablet, look: &mut dyn FnMut(&str)) {
    let pad = |text: &str| {
        tablet.key_in(text);
        tablet.press("done");
    };
    look("own");
    tablet.press_all(&["choice-own", "done"]);
    look("oil");
    tablet.press_all(&["choice-dry", "done"]);
    look("unit");
    tablet.press_all(&["choice-lbf-ft", "done"]);
    look("low");
    pad("300");
    pad("320");
    look("seat");
    tablet.press_all(&["choice-own", "done"]);
    pad("60");
    pad("80");
    look("order");
    tablet.press_all(&["choice-5", "done"]);
    look("nuts");
    for nut in [1, 3, 5, 2, 4] {
        tablet.press(&format!("nut-{nut}"));
    }
    tablet.press("done");
    look("source");
}

/// A new card, from the start screen to its map.
pub fn new_card(tablet: &Tablet, unit: &str, kind: &str, axles: &[u8], loaded: &str) {
    tablet.press("new-card");
    tablet.press(&format!("kind-{kind}"));
    tablet.press("done");
    for axle in axles {
        tablet.press(&format!("axle-{axle}"));
    }
    tablet.press("done");
    tablet.press(&format!("loaded-{loaded}"));
    tablet.write("unit", unit);
    tablet.press("done");
    tablet.press("done");
    tablet.wait_to_see("map");
}
