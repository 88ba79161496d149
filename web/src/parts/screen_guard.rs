//! Ignores touches right after a screen has changed: they were meant for the screen before.

use std::time::Duration;

use leptos::prelude::*;

/// How long a new screen doesn't feel touches.
const BLIND: Duration = Duration::from_millis(350);

/// Wraps the screens; whenever `screen` changes, touches are ignored for 350 ms. Keys still work.
#[component]
pub(crate) fn ScreenGuard(
    /// Anything that differs from screen to screen.
    #[prop(into)]
    screen: Signal<String>,
    children: Children,
) -> impl IntoView {
    let blind = RwSignal::new(false);
    let opens = StoredValue::new(None::<TimeoutHandle>);
    let stop = move || {
        if let Some(handle) = opens.try_update_value(Option::take).flatten() {
            handle.clear();
        }
    };
    Effect::new(move |before: Option<String>| {
        let now = screen.get();
        if before.as_ref() != Some(&now) {
            stop();
            blind.set(true);
            let open = move || {
                let _gone = blind.try_set(false);
            };
            opens.set_value(set_timeout_with_handle(open, BLIND).ok());
        }
        now
    });
    on_cleanup(stop);
    view! {
        <div class="guard" class:blind=move || blind.get()>
            {children()}
        </div>
    }
}
