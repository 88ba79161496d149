//! The page of last resort: plain, without the app, when it can't start or has broken down.
//!
//! What was saved is saved: every tick on a screen was on the medium before it appeared.

use std::panic;

use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;

use crate::words::find;

/// Shows the plain page when the app breaks down.
pub(crate) fn on_panic() {
    panic::set_hook(Box::new(|info| {
        console_error_panic_hook::hook(info);
        show(&info.to_string());
    }));
}

/// Replaces whatever is on the screen.
pub(crate) fn show(why: &str) {
    let Some(document) = web_sys::window().and_then(|window| window.document()) else {
        return;
    };
    let Some(body) = document.body() else { return };
    let put = |name: &str, words: &str| -> Option<web_sys::HtmlElement> {
        let element: web_sys::HtmlElement = document.create_element(name).ok()?.dyn_into().ok()?;
        element.set_text_content(Some(words));
        body.append_child(&element).ok()?;
        Some(element)
    };
    body.set_inner_html("");
    body.set_class_name("plain-page");
    // The words may be what is missing: then the keys say enough to somebody who can help.
    let words = |key: &str| find(key).unwrap_or_else(|| key.to_owned());
    put("h1", &words("plain.stopped"));
    put("p", &words("plain.kept"));
    let again = put("button", &words("plain.again"));
    put("pre", why);
    if let Some(again) = again {
        let set = again
            .set_attribute("type", "button")
            .and_then(|()| again.set_attribute("data-testid", "restart"));
        let reload = Closure::<dyn Fn()>::new(|| {
            if let Some(window) = web_sys::window()
                && window.location().reload().is_err()
            {
                leptos::logging::warn!("can't load the page again");
            }
        });
        again.set_onclick(Some(reload.as_ref().unchecked_ref()));
        reload.forget(); // The page ends with it.
        if set.is_err() {
            leptos::logging::warn!("plain page not complete");
        }
    }
}
