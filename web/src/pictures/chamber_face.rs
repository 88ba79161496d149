//! A brake chamber from behind, with what tells its stroke class: the bosses of its ports, and the
//! tag on a clamp bolt. Signs as in [`super::chambers`].

use leptos::prelude::*;

use super::geometry::polygon;

/// The chamber as it hangs; its type stands on the cap.
#[component]
pub(crate) fn ChamberFace(
    /// The type as it is marked.
    of: &'static str,
    /// Whether it wears the signs of a long stroke.
    long: bool,
    /// Read aloud in its place.
    name: String,
) -> impl IntoView {
    let port = |x: f64| {
        let boss = if long {
            view! { <path class="body" d=format!("M{} 15 h14 v14 h-14 Z", x - 7.0) /> }.into_any()
        } else {
            view! { <circle class="body" cx=x cy="22" r="7" /> }.into_any()
        };
        view! {
            {boss}
            <circle class="hole" cx=x cy="22" r="3" />
        }
    };
    let tag = long.then(|| {
        let plate = polygon([(94.0, 31.0), (106.0, 31.0), (112.0, 52.0), (88.0, 52.0)]);
        view! { <path class="rule" d=plate /> <circle class="hole" cx="100" cy="35" r="1.4" /> }
    });
    view! {
        <svg class="pic instrument chamber-face" viewBox="0 0 124 58" role="img" aria-label=name data-testid="seen-chamber-face">
            <circle class="part" cx="58" cy="29" r="27" />
            <circle class="part" cx="58" cy="29" r="21" />
            <path class="solid" d="M84 26 h20 v6 h-20 Z M12 26 h20 v6 h-20 Z" />
            {port(48.0)}
            {port(68.0)}
            <text class="middle cast" x="58" y="43">{of}</text>
            {tag}
        </svg>
    }
}
