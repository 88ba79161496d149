//! A photo that was kept: read from the store, its hash checked, and drawn. One that is not on this
//! tablet says so in its place.

use job::line::Sha;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use crate::photo::Shown;
use crate::session::Session;
use crate::words::t;

/// How far the reading is.
enum Read {
    Reading,
    Here(Shown),
    /// Taken on another tablet, or gone from this one.
    NotHere,
    /// The bytes are not those that were kept.
    Damaged,
}

/// One photo, by the hash of its bytes.
#[component]
pub(crate) fn Photo(
    /// Which bytes.
    sha: Sha,
    /// What is on it, for who can't see it.
    words: String,
) -> impl IntoView {
    let session = expect_context::<Session>();
    let read = RwSignal::new_local(Read::Reading);
    spawn_local(async move {
        let now = match session.photo(&sha).await {
            Ok(Some(bytes)) if Sha::of(&bytes) == sha => {
                Shown::new(&bytes).map_or(Read::NotHere, Read::Here)
            }
            Ok(Some(_)) | Err(_) => Read::Damaged,
            Ok(None) => Read::NotHere,
        };
        // The page may have been left meanwhile: then the photo is dropped here.
        let _gone = read.try_set(now);
    });
    move || {
        read.with(|read| match read {
            Read::Reading => view! { <span class="photo-none">{t("ui.photo.reading")}</span> }.into_any(),
            Read::NotHere => view! { <span class="photo-none" data-testid="photo-not-here">{t("ui.photo.not-here")}</span> }
                .into_any(),
            Read::Damaged => view! { <span class="photo-none" data-testid="photo-damaged">{t("ui.photo.damaged")}</span> }
                .into_any(),
            Read::Here(shown) => view! { <img class="photo" src=shown.url.clone() alt=words.clone() data-testid="photo"/> }
                .into_any(),
        })
    }
}
