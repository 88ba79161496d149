//! A photo on this tablet: made smaller before it is kept, and put on the screen again.
//!
//! What comes out of a camera is larger than anybody needs to see a crack by, and a store that is
//! full of photos has no room for readings. The bytes never leave the tablet.

use js_sys::{Array, Promise, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, CanvasRenderingContext2d, File, HtmlCanvasElement, ImageBitmap};

/// The longer side of a photo as it is kept, in pixels.
const LONGER_SIDE_MAX: u32 = 1_600;
/// The same of its small copy.
const SMALL_SIDE_MAX: u32 = 320;
const KIND: &str = "image/jpeg";
const QUALITY: f64 = 0.8;

/// A photo made smaller, and a small copy of it.
pub(crate) struct Shrunk {
    pub(crate) photo: Vec<u8>,
    pub(crate) small: Vec<u8>,
}

/// Makes a photo smaller. `None` for what this browser can't read as a picture.
pub(crate) async fn shrink(file: &File) -> Option<Shrunk> {
    let reading = web_sys::window()?
        .create_image_bitmap_with_blob(file)
        .ok()?;
    let drawn: ImageBitmap = JsFuture::from(reading).await.ok()?.dyn_into().ok()?;
    let photo = jpeg(&drawn, LONGER_SIDE_MAX).await;
    let small = jpeg(&drawn, SMALL_SIDE_MAX).await;
    drawn.close();
    Some(Shrunk {
        photo: photo?,
        small: small?,
    })
}

/// Width and height with the longer side at most `longer_max`, neither of them nothing.
fn fitted(width: u32, height: u32, longer_max: u32) -> (u32, u32) {
    let longer = width.max(height).max(1);
    if longer <= longer_max {
        return (width.max(1), height.max(1));
    }
    let scaled = |side: u32| {
        let side = u64::from(side) * u64::from(longer_max) / u64::from(longer);
        u32::try_from(side).unwrap_or(longer_max).max(1)
    };
    (scaled(width), scaled(height))
}

async fn jpeg(drawn: &ImageBitmap, longer_max: u32) -> Option<Vec<u8>> {
    let (width, height) = fitted(drawn.width(), drawn.height(), longer_max);
    let canvas: HtmlCanvasElement = web_sys::window()?
        .document()?
        .create_element("canvas")
        .ok()?
        .dyn_into()
        .ok()?;
    canvas.set_width(width);
    canvas.set_height(height);
    let context: CanvasRenderingContext2d = canvas.get_context("2d").ok()??.dyn_into().ok()?;
    context
        .draw_image_with_image_bitmap_and_dw_and_dh(
            drawn,
            0.0,
            0.0,
            f64::from(width),
            f64::from(height),
        )
        .ok()?;
    // A canvas that can't make the file says so by giving nothing.
    let made = Promise::new(&mut |resolve, _| {
        let asked = canvas.to_blob_with_type_and_encoder_options(
            &resolve,
            KIND,
            &JsValue::from_f64(QUALITY),
        );
        if asked.is_err() {
            let told = resolve.call1(&JsValue::UNDEFINED, &JsValue::NULL);
            if told.is_err() {
                leptos::logging::warn!("a photo was not made smaller");
            }
        }
    });
    let blob: Blob = JsFuture::from(made).await.ok()?.dyn_into().ok()?;
    let buffer = JsFuture::from(blob.array_buffer()).await.ok()?;
    Some(Uint8Array::new(&buffer).to_vec())
}

/// An address under which the page can show these bytes. It lasts until it is dropped.
pub(crate) struct Shown {
    pub(crate) url: String,
}

impl Shown {
    /// `None` where this browser makes no such address.
    pub(crate) fn new(bytes: &[u8]) -> Option<Self> {
        let parts = Array::of1(&Uint8Array::from(bytes));
        let options = web_sys::BlobPropertyBag::new();
        options.set_type(KIND);
        let blob = Blob::new_with_u8_array_sequence_and_options(&parts, &options).ok()?;
        let url = web_sys::Url::create_object_url_with_blob(&blob).ok()?;
        Some(Self { url })
    }
}

impl Drop for Shown {
    fn drop(&mut self) {
        if web_sys::Url::revoke_object_url(&self.url).is_err() {
            leptos::logging::warn!("a photo stays in memory until the page ends");
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_longer_side_decides_and_nothing_grows() {
        let to = |width, height| fitted(width, height, LONGER_SIDE_MAX);
        assert_eq!(to(4_000, 3_000), (1_600, 1_200));
        assert_eq!(to(3_000, 4_000), (1_200, 1_600));
        assert_eq!(to(1_601, 10), (1_600, 9));
        assert_eq!(to(1_600, 1_600), (1_600, 1_600));
        assert_eq!(to(320, 200), (320, 200));
        assert_eq!(to(50_000, 1), (1_600, 1), "a line has a width");
        assert_eq!(to(0, 0), (1, 1));
        assert_eq!(to(u32::MAX, u32::MAX), (1_600, 1_600));
    }
}
