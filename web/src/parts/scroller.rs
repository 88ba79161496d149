//! A list that is longer than its place: two big buttons turn it page by page, nothing needs a drag.
//!
//! The buttons are there only while the list overflows.

use leptos::html;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;

use crate::words::t;

/// How much of the visible height one press turns, so that the last row seen stays in sight.
const PAGE: f64 = 0.85;

/// Lets another control of the screen turn a list, and tells it whether anything lies below.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Pager {
    column: NodeRef<html::Div>,
    below: RwSignal<bool>,
}

impl Pager {
    pub(crate) fn new() -> Self {
        Self {
            column: NodeRef::new(),
            below: RwSignal::new(false),
        }
    }

    /// True while part of the list has yet to come into view.
    pub(crate) fn has_more(self) -> bool {
        self.below.get()
    }

    /// One page on.
    pub(crate) fn turn(self) {
        turn(self.column, 1.0);
    }
}

fn turn(column: NodeRef<html::Div>, way: f64) {
    if let Some(column) = column.get_untracked() {
        column.scroll_by_with_x_and_y(0.0, way * PAGE * f64::from(column.client_height()));
    }
}

/// Shows its children in a scrolling column with page buttons beside it.
#[component]
pub(crate) fn Scroller(
    /// Given where another control turns this list too.
    #[prop(optional)]
    pager: Option<Pager>,
    children: Children,
) -> impl IntoView {
    let pager = pager.unwrap_or_else(Pager::new);
    let column = pager.column;
    let content = NodeRef::<html::Div>::new();
    let place = RwSignal::new(Sight::default());
    let look = move || {
        if let Some(column) = column.get_untracked() {
            let sight = Sight {
                above: column.scroll_top() > 1,
                below: column.scroll_top() + column.client_height() < column.scroll_height() - 1,
            };
            if place
                .try_get_untracked()
                .is_some_and(|before| before != sight)
            {
                let _gone = place.try_set(sight);
                let _gone = pager.below.try_set(sight.below);
            }
        }
    };
    let watched = StoredValue::new_local(None::<(web_sys::ResizeObserver, Closure<dyn FnMut()>)>);
    Effect::new(move || {
        let (Some(column), Some(content)) = (column.get(), content.get()) else {
            return;
        };
        let seen = Closure::<dyn FnMut()>::new(look);
        if let Ok(observer) = web_sys::ResizeObserver::new(seen.as_ref().unchecked_ref()) {
            observer.observe(&column);
            observer.observe(&content);
            watched.set_value(Some((observer, seen)));
        }
    });
    on_cleanup(move || {
        if let Some((observer, _)) = watched.try_update_value(Option::take).flatten() {
            observer.disconnect();
        }
    });
    let turn = move |way: f64| {
        turn(column, way);
        look();
    };
    view! {
        <div class="scroller" class:turns=move || place.get().turns()>
            <div class="scroller-column" node_ref=column on:scroll=move |_| look()>
                <div class="scroller-content" node_ref=content>
                    {children()}
                </div>
            </div>
            <div class="scroller-keys">
                <button
                    type="button"
                    class="key"
                    data-testid="page-up"
                    aria-label=t("ui.page.up")
                    disabled=move || !place.get().above
                    on:click=move |_| turn(-1.0)
                >
                    <svg class="sign" viewBox="0 0 48 48" aria-hidden="true">
                        <path d="M8 32 L24 14 L40 32" />
                    </svg>
                </button>
                <button
                    type="button"
                    class="key"
                    data-testid="page-down"
                    aria-label=t("ui.page.down")
                    disabled=move || !place.get().below
                    on:click=move |_| turn(1.0)
                >
                    <svg class="sign" viewBox="0 0 48 48" aria-hidden="true">
                        <path d="M8 16 L24 34 L40 16" />
                    </svg>
                </button>
            </div>
        </div>
    }
}

/// What lies out of sight.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
struct Sight {
    above: bool,
    below: bool,
}

impl Sight {
    fn turns(self) -> bool {
        self.above || self.below
    }
}
