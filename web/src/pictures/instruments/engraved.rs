//! Figures of a scale, each a stroke as an engraver cuts it. They are no text: a page that is
//! searched or read aloud doesn't give a reading away.

use leptos::prelude::*;

/// How high a figure is, in millimetres.
pub(super) const HIGH: f64 = 5.0;

/// Figures in a row, a scale's or a blade's; `x` is the middle of the row, `y` its foot.
pub(super) fn figures(text: &str, x: f64, y: f64) -> impl IntoView + use<> {
    let scale = HIGH / 10.0;
    let wide: f64 = text.chars().map(|sign| stroke(sign).1).sum::<f64>() - 2.0;
    let mut at = 0.0;
    let strokes: Vec<_> = text
        .chars()
        .map(|sign| {
            let (path, room) = stroke(sign);
            let moved = format!("translate({at:.1} 0)");
            at += room;
            view! { <path class="engraved" transform=moved d=path /> }
        })
        .collect();
    let place = format!(
        "translate({:.2} {:.2}) scale({scale})",
        x - wide * scale / 2.0,
        y - HIGH
    );
    view! { <g data-figure="" transform=place>{strokes}</g> }
}

/// The stroke of a sign, ten high, and the room it takes.
const fn stroke(sign: char) -> (&'static str, f64) {
    match sign {
        '0' => (
            "M3 0 C1 0 0 2 0 5 C0 8 1 10 3 10 C5 10 6 8 6 5 C6 2 5 0 3 0 Z",
            8.0,
        ),
        '1' => ("M0.4 2.2 L2.4 0 V10", 5.2),
        '2' => (
            "M0.2 2.6 C0.2 1 1.4 0 3 0 C4.6 0 5.8 1 5.8 2.8 C5.8 4.8 3.6 6.2 0 10 H6",
            8.0,
        ),
        '3' => (
            "M0.3 1.8 C0.8 0.6 1.8 0 3 0 C4.6 0 5.6 1 5.6 2.5 C5.6 4 4.5 4.8 2.6 4.8 C4.8 4.8 6 5.8 6 7.4 C6 9 4.8 10 3 10 C1.6 10 0.5 9.3 0 8",
            8.0,
        ),
        '4' => ("M4.6 10 V0 L0 7 H6", 8.0),
        '5' => (
            "M5.4 0 H1 L0.6 4.6 C1.2 4 2 3.7 3 3.7 C4.8 3.7 6 5 6 6.8 C6 8.7 4.7 10 2.9 10 C1.6 10 0.5 9.4 0 8.4",
            8.0,
        ),
        '6' => (
            "M5.2 1 C4.6 0.3 3.9 0 3.1 0 C1.2 0 0 2 0 5.6 C0 8.4 1.2 10 3 10 C4.8 10 6 8.7 6 6.9 C6 5.1 4.8 3.9 3.1 3.9 C1.4 3.9 0 5 0 6.6",
            8.0,
        ),
        '7' => ("M0 0 H6 L2 10", 8.0),
        '8' => (
            "M3 4.7 C1.4 4.7 0.5 3.8 0.5 2.4 C0.5 1 1.5 0 3 0 C4.5 0 5.5 1 5.5 2.4 C5.5 3.8 4.6 4.7 3 4.7 C1.2 4.7 0 5.8 0 7.3 C0 9 1.2 10 3 10 C4.8 10 6 9 6 7.3 C6 5.8 4.8 4.7 3 4.7 Z",
            8.0,
        ),
        '9' => (
            "M0.8 9 C1.4 9.7 2.1 10 2.9 10 C4.8 10 6 8 6 4.4 C6 1.6 4.8 0 3 0 C1.2 0 0 1.3 0 3.1 C0 4.9 1.2 6.1 2.9 6.1 C4.6 6.1 6 5 6 3.4",
            8.0,
        ),
        '.' => ("M0.6 9.2 h0.8 v0.8 h-0.8 Z", 4.0),
        '/' => ("M0 10 L4 0", 6.0),
        _ => ("", 4.0),
    }
}

/// A whole number as it is engraved.
pub(super) fn whole(n: i64) -> String {
    n.to_string()
}

/// `n` parts of so many, in lowest terms, with the whole ones before: "12 1/4".
pub(super) fn mixed(n: i64, parts: i64) -> String {
    let (whole, mut over, mut under) = (n / parts, n % parts, parts);
    while over != 0 && over % 2 == 0 && under % 2 == 0 {
        (over, under) = (over / 2, under / 2);
    }
    match (whole, over) {
        (_, 0) => whole.to_string(),
        (0, _) => format!("{over}/{under}"),
        _ => format!("{whole} {over}/{under}"),
    }
}

/// Thousandths with a point: "16.550" without its last nought.
pub(super) fn hundredths(thousandths: i64) -> String {
    format!("{}.{:02}", thousandths / 1_000, thousandths % 1_000 / 10)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fractions_stand_in_lowest_terms() {
        let said =
            [(0, 16), (8, 16), (16, 16), (30, 16), (784, 64)].map(|(n, parts)| mixed(n, parts));
        assert_eq!(said, ["0", "1/2", "1", "1 7/8", "12 1/4"]);
        assert_eq!(hundredths(16_550), "16.55");
        assert_eq!(hundredths(15_000), "15.00");
    }

    #[test]
    fn every_figure_has_a_stroke() {
        for sign in "0123456789./".chars() {
            assert!(!stroke(sign).0.is_empty(), "{sign}");
        }
    }
}
