//! Every instrument is drawn so large that it can be read to its graduation at arm's length, in every
//! view, and what it shows is nowhere written in the page.

use practice::instrument::{Instrument, Tool};
use serde_json::json;
use tests::browser::dist;
use tests::browser::host::Host;
use tests::browser::measure::WAYS;
use tests::browser::tablet::Tablet;
use tests::browser::tour::drill_with;

use super::drills::to_practice;

const SPACING_MM: f64 = 1.5;
const FIGURE_MM: f64 = 4.0;

/// Of each scale the least distance between two marks and the least height of a figure, both in
/// calibrated millimetres, and how much of the drawing is out of sight, in pixels.
const MEASURE: &str = r#"
    const pic = document.querySelector(`[data-testid=${arguments[0]}]`);
    const mm = parseFloat(getComputedStyle(document.documentElement).getPropertyValue("--mm"));
    const on = (e, at) => at.matrixTransform(e.getScreenCTM());
    const box = pic.getBoundingClientRect();
    const over = Math.max(-box.left, -box.top, box.right - document.documentElement.clientWidth, box.bottom - innerHeight, 0);
    const scales = [...pic.querySelectorAll("[data-scale]")].map((scale) => {
        const starts = [...scale.querySelectorAll("[data-mark]")].map((mark) => on(mark, mark.getPointAtLength(0)));
        const gaps = starts.slice(1).map((at, n) => Math.hypot(at.x - starts[n].x, at.y - starts[n].y) / mm);
        const heights = [...scale.querySelectorAll("[data-figure]")].map((figure) => {
            const { x, y, height } = figure.getBBox();
            const [top, foot] = [on(figure, new DOMPoint(x, y)), on(figure, new DOMPoint(x, y + height))];
            return Math.hypot(foot.x - top.x, foot.y - top.y) / mm;
        });
        return [gaps.length ? Math.min(...gaps) : 99, heights.length ? Math.min(...heights) : 99, heights.length];
    });
    return { scales, over, told: pic.textContent + " " + pic.getAttribute("aria-label") };
"#;

#[test]
fn instruments() {
    let host = Host::start(&dist());
    let tablet = Tablet::new("instruments", &host.address());
    tablet.go("drills");
    to_practice(&tablet);
    for tool in Tool::ALL {
        let (round, shown) = drill_with(*tool);
        tablet.go(&format!("drill/{}", round.text()));
        let id = format!("instrument-{}", tool.code());
        tablet.wait_to_see(&id);
        for (width, height, glove) in WAYS {
            tablet.look_like(width, height, glove, "light");
            let way = format!("{tool:?} {width}x{height} {glove}");
            let found = tablet.run(MEASURE, &json!([id]));
            let scales = found["scales"].as_array().expect("scales were measured");
            let figures: f64 = scales.iter().filter_map(|scale| scale[2].as_f64()).sum();
            assert!(figures >= 1.0, "{way}: no figure is in sight");
            for scale in scales {
                let (gap, high) = (
                    scale[0].as_f64().expect("it is a number"),
                    scale[1].as_f64().expect("it is a number"),
                );
                println!("{way}: marks {gap:.2} mm apart, figures {high:.2} mm high");
                assert!(gap >= SPACING_MM, "{way}: marks {gap:.2} mm apart");
                assert!(high >= FIGURE_MM, "{way}: figures {high:.2} mm high");
            }
            let over = found["over"].as_f64().expect("it is a number");
            assert!(over < 1.0, "{way}: {over} px lie out of sight");
            let told = found["told"].as_str().expect("it is text");
            assert!(
                !told.contains(&written(shown)),
                "{way} is given away: {told}"
            );
        }
        let (width, height, glove) = WAYS[0];
        tablet.look_like(width, height, glove, "light");
    }
}

/// What an instrument shows, as it would be written.
fn written(instrument: Instrument) -> String {
    let shows = instrument.shows();
    rules::shown::exact(shows, instrument.tool().unit()).expect("it is there")
}
