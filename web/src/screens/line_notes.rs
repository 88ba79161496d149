//! What an extra line needs and took: parts with their numbers, time, photos.
//!
//! Everything typed is on the medium before the camera opens: on a small tablet the camera may end
//! the page.

use job::act;
use job::card::Card;
use job::extra::{ExtraLine, Note};
use job::id::PersonId;
use job::line::{LineRef, Sha};
use job::words::Words;
use leptos::html;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use crate::parts::text_entry::TextEntry;
use crate::photo;
use crate::session::Session;
use crate::words::{fill, t};

use super::extra_told::{heading_of, note_words};
use super::photo_shown::Photo;

/// What one press adds to the time, in minutes.
const MINUTES: [u16; 4] = [5, 15, 30, 60];

/// What is typed and not yet noted.
#[derive(Clone, Copy)]
struct Typed {
    part: RwSignal<String>,
    number: RwSignal<String>,
    minutes: RwSignal<u16>,
}

impl Typed {
    /// Everything typed, as drafts; none if nothing is.
    fn drafts(
        self,
        card: &Card,
        me: &PersonId,
        line: &LineRef,
    ) -> Result<Vec<act::Draft>, act::Refusal> {
        let (part, number) = (self.part.get_untracked(), self.number.get_untracked());
        let mut drafts = Vec::new();
        if !part.trim().is_empty() || !number.trim().is_empty() {
            drafts.push(act::note_part(card, me, line, &part, &number)?);
        }
        if let minutes @ 1.. = self.minutes.get_untracked() {
            drafts.push(act::note_minutes(card, me, line, minutes)?);
        }
        Ok(drafts)
    }

    fn is_empty(self) -> bool {
        let blank = |text: RwSignal<String>| text.with_untracked(|text| text.trim().is_empty());
        blank(self.part) && blank(self.number) && self.minutes.get_untracked() == 0
    }

    fn clear(self) {
        let _gone = self.part.try_set(String::new());
        let _gone = self.number.try_set(String::new());
        let _gone = self.minutes.try_set(0);
    }
}

/// Parts, time and photos of one line.
#[component]
pub(super) fn Notes(
    shown: Memo<Option<ExtraLine>>,
    line: LineRef,
    /// A reason that is typed and not signed yet.
    why: RwSignal<String>,
    wanting: RwSignal<Vec<Words>>,
) -> impl IntoView {
    let session = expect_context::<Session>();
    let typed = Typed {
        part: RwSignal::new(String::new()),
        number: RwSignal::new(String::new()),
        minutes: RwSignal::new(0),
    };
    let line = StoredValue::new(line);
    let note = move |_| {
        if typed.is_empty() {
            return wanting.set(vec![Words::plain("ui.notes.nothing")]);
        }
        let noted = session.act(
            |card, me, _, _| line.with_value(|line| typed.drafts(card, me, line)),
            move |_| typed.clear(),
        );
        wanting.set(noted.err().into_iter().collect());
    };
    let minutes = move |add: u16| {
        view! {
            <button
                type="button"
                class="key"
                data-testid=format!("minutes-{add}")
                on:click=move |_| typed.minutes.update(|minutes| *minutes = minutes.saturating_add(add))
            >
                {fill("ui.notes.add", &[("minutes", &add.to_string())])}
            </button>
        }
    };
    let told = move || {
        let notes = shown.with(|shown| {
            let extra = shown.as_ref()?;
            let told = extra.notes.iter().filter_map(|noted| match &noted.note {
                Note::Part { .. } => Some(note_words(&noted.note)),
                Note::Photo { .. } | Note::Minutes(_) => None,
            });
            let time = (extra.minutes() > 0).then(|| {
                let minutes = extra.minutes().to_string();
                fill("ui.notes.minutes", &[("minutes", &minutes)])
            });
            Some(told.chain(time).collect::<Vec<_>>())
        });
        let row = |words: String| view! { <li class="line-told"><span>{words}</span></li> };
        let rows = notes
            .unwrap_or_default()
            .into_iter()
            .map(row)
            .collect_view();
        view! { <ul class="lines-told" data-testid="line-notes">{rows}</ul> }
    };
    view! {
        <section class="setting">
            <h2>{t("ui.notes.title")}</h2>
            {told}
            <div class="line-part">
                <TextEntry words=t("ui.notes.part") text=typed.part testid="note-part"/>
                <TextEntry words=t("ui.notes.number") text=typed.number testid="note-number"/>
            </div>
            <p class="page-line" data-testid="minutes">
                {move || fill("ui.notes.to-note", &[("minutes", &typed.minutes.get().to_string())])}
            </p>
            <div class="line-answers">{MINUTES.map(minutes)}</div>
            <div class="key-row">
                <button type="button" class="key wide-key" data-testid="note-clear" on:click=move |_| typed.clear()>
                    {t("ui.notes.clear")}
                </button>
                <button type="button" class="key wide-key" data-testid="note-it" on:click=note>
                    {t("ui.notes.note")}
                </button>
            </div>
        </section>
        <Photos shown line=line typed why wanting/>
    }
}

/// The photos of a line, and the key that opens the camera.
#[component]
fn Photos(
    shown: Memo<Option<ExtraLine>>,
    line: StoredValue<LineRef>,
    typed: Typed,
    why: RwSignal<String>,
    wanting: RwSignal<Vec<Words>>,
) -> impl IntoView {
    let session = expect_context::<Session>();
    let input = NodeRef::<html::Input>::new();
    let reading = RwSignal::new(false);
    let large = RwSignal::new(None::<Sha>);
    let open_camera = move || {
        if let Some(input) = input.get_untracked() {
            input.click();
        }
    };
    let take = move |_| {
        // What only a foreman can sign is not signed by opening a camera.
        if why.with_untracked(|why| !why.trim().is_empty()) {
            return wanting.set(vec![Words::plain("ui.photo.reason-first")]);
        }
        wanting.set(Vec::new());
        if typed.is_empty() {
            return open_camera();
        }
        let noted = session.act(
            |card, me, _, _| line.with_value(|line| typed.drafts(card, me, line)),
            move |_| {
                typed.clear();
                open_camera();
            },
        );
        wanting.set(noted.err().into_iter().collect());
    };
    let picked = move |_| {
        let Some(input) = input.get() else { return };
        let Some(file) = input.files().and_then(|files| files.get(0)) else {
            return;
        };
        // So that the same one can be picked again.
        input.set_value("");
        reading.set(true);
        let line = line.get_value();
        spawn_local(async move {
            let shrunk = photo::shrink(&file).await;
            let _gone = reading.try_set(false);
            let kept = match shrunk {
                Some(shrunk) => session.keep_photo(&line, shrunk),
                None => Err(Words::plain("ui.photo.unreadable")),
            };
            let _gone = wanting.try_set(kept.err().into_iter().collect());
        });
    };
    let photos = Memo::new(move |_| {
        shown.with(|shown| {
            let extra = shown.as_ref()?;
            let photos: Vec<(Sha, Sha)> = extra.photos().collect();
            Some((heading_of(extra), photos))
        })
    });
    let small = move || {
        let (heading, photos) = photos.get()?;
        let photo = |(sha, small): (Sha, Sha)| {
            view! {
                <button
                    type="button"
                    class="key photo-key"
                    class:chosen=move || large.get() == Some(sha)
                    aria-pressed=move || (large.get() == Some(sha)).to_string()
                    data-testid="photo-key"
                    on:click=move |_| large.update(|large| *large = (*large != Some(sha)).then_some(sha))
                >
                    <Photo sha=small words=heading.clone()/>
                </button>
            }
        };
        Some(view! { <div class="photo-keys">{photos.into_iter().map(photo).collect_view()}</div> })
    };
    let shown_large = move || {
        let (heading, _) = photos.get()?;
        let sha = large.get()?;
        Some(
            view! { <figure class="photo-large" data-testid="photo-large"><Photo sha words=heading/></figure> },
        )
    };
    view! {
        <section class="setting">
            <h2>{t("ui.photo.title")}</h2>
            {small}
            {shown_large}
            <p class="page-line">{t("ui.photo.line")}</p>
            {move || reading.get().then(|| view! { <p class="page-line" role="status">{t("ui.photo.shrinking")}</p> })}
            <input
                type="file"
                class="file-input"
                tabindex="-1"
                aria-hidden="true"
                accept="image/*"
                capture="environment"
                node_ref=input
                data-testid="photo-input"
                on:change=picked
            />
            <button type="button" class="key wide-key" data-testid="photo-take" on:click=take>
                {t("ui.photo.take")}
            </button>
        </section>
    }
}
