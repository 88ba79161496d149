//! How often each thing was found, as one bar each: the length says it, and the number beside it.
//!
//! Ink on paper and nothing by tone alone, so that it survives a grey print.

use leptos::prelude::*;

use super::geometry::hatch;

const WIDTH: f64 = 600.0;
const HEIGHT: f64 = 30.0;

/// One bar.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct FoundBar {
    pub(crate) words: String,
    pub(crate) times: u32,
}

/// The bars in the order given, all to the scale of the longest.
#[component]
pub(crate) fn FindingBars(bars: Vec<FoundBar>, name: String) -> impl IntoView {
    let most = bars.iter().map(|bar| bar.times).max().unwrap_or_default();
    let bar = move |bar: FoundBar| {
        let long = length(bar.times, most);
        view! {
            <li class="finding-bar">
                <span>{bar.words}</span>
                <svg class="bar" viewBox="0 0 600 40" aria-hidden="true">
                    <path class="line-thin" d=hatch(2.0, 5.0, long, HEIGHT, 12.0) />
                    <rect class="finding-frame" x="2" y="5" width=long height=HEIGHT />
                    <path class="line-thin" d="M2 0 V40" />
                </svg>
                <strong>{bar.times.to_string()}</strong>
            </li>
        }
    };
    view! { <ol class="finding-bars" aria-label=name data-testid="finding-bars">{bars.into_iter().map(bar).collect_view()}</ol> }
}

/// How long a bar is drawn; one that is not nothing never vanishes.
fn length(times: u32, most: u32) -> f64 {
    if most == 0 {
        return 0.0;
    }
    let share = f64::from(times) / f64::from(most);
    (share * (WIDTH - 4.0)).max(6.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bars_stand_to_one_scale() {
        for (times, most, long) in [(4, 4, 596.0), (2, 4, 298.0), (1, 1_000, 6.0), (0, 0, 0.0)] {
            let drawn = length(times, most);
            assert!((drawn - long).abs() < 0.01, "{times} of {most}: {drawn}");
        }
    }
}
