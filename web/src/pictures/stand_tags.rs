//! Two stands side by side, each with its tag: what is read before they go under an axle.
//!
//! Where a tag says nothing its line is bare. What is wrong with a stand is drawn, not said.

use leptos::prelude::*;
use rules::support::tag::{Basis, Condition, StandTag};

use crate::words::{t, unit};

use super::geometry::polyline;

/// Both stands of a pair, with what each is called over its tag.
#[component]
pub(crate) fn StandTags(
    /// The tags, the left one first.
    tags: [StandTag; 2],
    /// What each stand is called; may be empty.
    called: [String; 2],
    /// Read aloud in its place.
    name: String,
) -> impl IntoView {
    let [left, right] = tags;
    let [left_called, right_called] = called;
    view! {
        <svg class="pic instrument stand-tags" viewBox="0 0 124 58" role="img" aria-label=name data-testid="seen-stands">
            {stand(0.0, &left, left_called)}
            {stand(63.0, &right, right_called)}
        </svg>
    }
}

fn stand(x: f64, tag: &StandTag, called: String) -> impl IntoView + use<> {
    let condition = tag.condition;
    let pin = (condition != Condition::PinMissing).then(|| {
        view! {
            <path class="pin" d=format!("M{} 21 h17", x + 2.5) />
            <circle class="rule" cx=x + 1.6 cy="21" r="1.6" />
        }
    });
    // A leg that was bent under a load, and cracked where it bent.
    let leg = if condition == Condition::Damaged {
        [(13.4, 26.0), (20.5, 38.0), (17.0, 54.0)]
    } else {
        [(13.4, 26.0), (16.7, 40.0), (20.0, 54.0)]
    };
    let leg = polyline(leg.map(|(dx, y)| (x + dx, y)));
    let crack = (condition == Condition::Damaged).then(|| {
        let jag = [(22.2, 36.0), (19.4, 37.0), (20.6, 38.6), (18.0, 39.8)];
        view! { <path class="mark" d=polyline(jag.map(|(dx, y)| (x + dx, y))) /> }
    });
    // A bead of weld across the other leg.
    let weld = (condition == Condition::Repaired).then(|| {
        let bead = (0..8_i32).map(|n| {
            let up = if n % 2 == 0 { 0.0 } else { 1.8 };
            (x + 1.0 + 1.15 * f64::from(n), 40.6 + up)
        });
        view! { <path class="weld" d=polyline(bead) /> }
    });
    let lines = match &tag.rating {
        Some(rating) => {
            let basis = match tag.basis {
                Basis::Unmarked => String::new(),
                basis => t(&format!("stand.basis.{}", basis.code())),
            };
            [rating.text().to_owned(), unit(rating.unit()), basis]
        }
        None => [String::new(), String::new(), String::new()],
    };
    let [figure, of, basis] = lines;
    let middle = x + 42.5;
    view! {
        <path class="part" d=format!("M{} 2 h14 v3 h-5 v15 h-4 v-15 h-5 Z", x + 4.0) />
        <circle class="hole" cx=x + 11.0 cy="9" r="1" />
        <circle class="hole" cx=x + 11.0 cy="15" r="1" />
        <path class="body" d=format!("M{} 17 h10 v9.6 h-10 Z", x + 6.0) />
        <circle class="hole" cx=x + 11.0 cy="21" r="1.3" />
        {pin}
        <path class="leg" d=format!("M{:.1} 26 L{:.1} 40 L{:.1} 54", x + 8.6, x + 5.3, x + 2.0) />
        <path class="leg" d=leg />
        <path class="mark" d=format!("M{} 45 H{}", x + 4.2, x + 17.8) />
        <path class="solid" d=format!("M{x} 54 h22 v2.4 h-22 Z") />
        {crack}
        {weld}
        <text class="middle" x=middle y="8">{called}</text>
        <rect class="rule" x=x + 24.5 y="11" width="36" height="40" rx="2" />
        <circle class="hole" cx=x + 27.0 cy="13.5" r="0.8" />
        <circle class="hole" cx=x + 58.0 cy="13.5" r="0.8" />
        <text class="middle cast" x=middle y="26">{figure}</text>
        <text class="middle" x=middle y="36">{of}</text>
        <text class="middle" x=middle y="46">{basis}</text>
    }
}
