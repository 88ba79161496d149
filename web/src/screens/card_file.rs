//! A card as a file of the browser: made ready before the press, saved, shared, or read in.

use js_sys::{Array, Function, Object, Promise, Reflect, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

use crate::device::{navigator, property};

const KIND: &str = "text/plain";

/// A file that a press can save or share at once: browsers give a press only a moment.
pub(crate) struct Ready {
    pub(crate) name: String,
    url: String,
    /// What the browser said it can share; none where it can't.
    shared: Option<JsValue>,
}

impl Ready {
    /// `None` where this browser makes no files.
    pub(crate) fn new(name: String, text: &str) -> Option<Self> {
        let parts = Array::of1(&JsValue::from_str(text));
        let options = web_sys::BlobPropertyBag::new();
        options.set_type(KIND);
        let blob = web_sys::Blob::new_with_str_sequence_and_options(&parts, &options).ok()?;
        let url = web_sys::Url::create_object_url_with_blob(&blob).ok()?;
        let shared = shareable(&name, text);
        Some(Self { name, url, shared })
    }

    pub(crate) fn can_share(&self) -> bool {
        self.shared.is_some()
    }

    /// Hands the file to the browser's downloads. False if it could not be handed over.
    pub(crate) fn save(&self) -> bool {
        let anchor = web_sys::window()
            .and_then(|window| window.document())
            .and_then(|document| document.create_element("a").ok())
            .and_then(|anchor| anchor.dyn_into::<web_sys::HtmlElement>().ok());
        let Some(anchor) = anchor else { return false };
        let set = anchor
            .set_attribute("href", &self.url)
            .and_then(|()| anchor.set_attribute("download", &self.name));
        anchor.click();
        set.is_ok()
    }

    /// Opens the system's way of sending a file. The promise ends when the person is done.
    pub(crate) fn share(&self) -> Option<Promise> {
        let navigator = navigator()?;
        let share: Function = property(&navigator, "share")?.dyn_into().ok()?;
        share
            .call1(&navigator, self.shared.as_ref()?)
            .ok()?
            .dyn_into()
            .ok()
    }
}

impl Drop for Ready {
    fn drop(&mut self) {
        if web_sys::Url::revoke_object_url(&self.url).is_err() {
            leptos::logging::warn!("a file stays in memory until the page ends");
        }
    }
}

/// What `navigator.share` would be given, if it would take it.
fn shareable(name: &str, text: &str) -> Option<JsValue> {
    let navigator = navigator()?;
    let can: Function = property(&navigator, "canShare")?.dyn_into().ok()?;
    let make: Function = property(&js_sys::global(), "File")?.dyn_into().ok()?;
    let options = Object::new();
    Reflect::set(
        &options,
        &JsValue::from_str("type"),
        &JsValue::from_str(KIND),
    )
    .ok()?;
    let parts = Array::of1(&JsValue::from_str(text));
    let file = Reflect::construct(
        &make,
        &Array::of3(&parts, &JsValue::from_str(name), &options),
    )
    .ok()?;
    let data = Object::new();
    Reflect::set(&data, &JsValue::from_str("files"), &Array::of1(&file)).ok()?;
    let takes = can.call1(&navigator, &data).ok()?.as_bool()?;
    takes.then(|| data.into())
}

/// The bytes of a file that a person picked; `None` if the browser could not read it.
pub(crate) async fn bytes(file: &web_sys::Blob) -> Option<Vec<u8>> {
    let buffer = JsFuture::from(file.array_buffer()).await.ok()?;
    Some(Uint8Array::new(&buffer).to_vec())
}
