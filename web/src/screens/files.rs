//! A card or the shop sheet as a file: a second copy that leaves the tablet, and the way back in. Nothing that is on
//! the tablet is changed by a file that can't be taken.

use job::cardfile::{BYTES_MAX, CardFileFault};
use job::words::Words;
use leptos::html;
use leptos::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};

use crate::parts::scroller::Scroller;
use crate::say::say;
use crate::screen::Screen;
use crate::session::{Saving, Session};
use crate::words::{fill, t};

use super::card_file::{self, Ready};
use super::page::{Page, way_back};

/// Save or share the open card, take one in.
#[component]
pub(crate) fn FilesScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let back = way_back(session);
    view! {
        <Page title=t("ui.files.title") on_back=back>
            <Scroller>
                <div class="files">
                {move || {
                    if session.open.with(Option::is_some) {
                        view! { <GiveOut /> }.into_any()
                    } else {
                        view! { <p class="page-line">{t("ui.files.no-card")}</p> }.into_any()
                    }
                }}
                <GiveShopOut />
                <TakeIn />
                </div>
            </Scroller>
        </Page>
    }
}

/// The open card as a file.
#[component]
fn GiveOut() -> impl IntoView {
    let session = expect_context::<Session>();
    let ready = StoredValue::new_local(None::<Ready>);
    let is_ready = RwSignal::new(None::<(String, bool)>);
    let left_out = RwSignal::new(0_usize);
    let made_for = StoredValue::new(0_u32);
    let said = RwSignal::new(None::<String>);
    // Made anew whenever the card has grown, so that a press never waits for it.
    Effect::new(move || {
        session.open.track();
        is_ready.set(None);
        made_for.update_value(|made_for| *made_for += 1);
        let this = made_for.get_value();
        spawn_local(async move {
            let file = session.card_file().await;
            // The card has grown meanwhile, or the page was left.
            if made_for.try_get_value() != Some(this) {
                return;
            }
            left_out.set(file.as_ref().map_or(0, |file| file.left_out));
            let made = file.and_then(|file| Ready::new(file.name, &file.text));
            is_ready.set(
                made.as_ref()
                    .map(|made| (made.name.clone(), made.can_share())),
            );
            ready.set_value(made);
        });
    });
    let save = move |_| {
        let saved = ready.with_value(|ready| {
            ready
                .as_ref()
                .map(|ready| (ready.save(), ready.name.clone()))
        });
        said.set(Some(match saved {
            Some((true, name)) => fill("ui.files.saved", &[("name", &name)]),
            _ => t("ui.files.not-saved"),
        }));
    };
    let share = move |_| {
        let sharing = ready.with_value(|ready| ready.as_ref().and_then(Ready::share));
        let Some(sharing) = sharing else {
            return said.set(Some(t("ui.files.not-shared")));
        };
        spawn_local(async move {
            let words = match JsFuture::from(sharing).await {
                Ok(_) => t("ui.files.shared"),
                Err(_closed) => t("ui.files.not-shared"),
            };
            let _gone = said.try_set(Some(words));
        });
    };
    let unit = move || {
        let unit = session.open.with(|open| {
            open.as_ref()
                .map(|open| job::summary::summary(&open.card).unit)
        });
        fill("ui.files.give-out", &[("unit", &unit.unwrap_or_default())])
    };
    view! {
        <section class="setting">
            <h2>{unit}</h2>
            <p class="page-line">{t("ui.files.give-out-line")}</p>
            <div class="key-row">
                <button
                    type="button"
                    class="key wide-key"
                    data-testid="to-record"
                    on:click=move |_| session.go(Screen::Record)
                >
                    {t("ui.record.open")}
                </button>
                <button
                    type="button"
                    class="key wide-key"
                    data-testid="file-save"
                    disabled=move || is_ready.with(Option::is_none)
                    on:click=save
                >
                    {t("ui.files.save")}
                </button>
                {move || is_ready.get().is_some_and(|(_, share)| share).then(|| view! {
                    <button type="button" class="key wide-key" data-testid="file-share" on:click=share>
                        {t("ui.files.share")}
                    </button>
                })}
            </div>
            {move || (left_out.get() > 0).then(|| view! {
                <p class="wanting" role="status" data-testid="file-left-out">
                    {fill("ui.files.left-out", &[("count", &left_out.get().to_string())])}
                </p>
            })}
            <p class="page-line" data-testid="file-name">{move || is_ready.get().map(|(name, _)| name)}</p>
            <p class="page-line" role="status" data-testid="file-said">{move || said.get()}</p>
        </section>
    }
}

/// The shop sheet as a file, for another tablet of the shop.
#[component]
fn GiveShopOut() -> impl IntoView {
    let session = expect_context::<Session>();
    let said = RwSignal::new(None::<String>);
    let ready = move || {
        session.shop.track();
        session.shop_file()
    };
    // The address of a file ends with what was made for it: it has to outlive the press.
    let last = StoredValue::new_local(None::<Ready>);
    let save = move |_| {
        let made = untrack(ready).and_then(|(name, text)| Ready::new(name, &text));
        said.set(Some(match &made {
            Some(made) if made.save() => fill("ui.files.saved", &[("name", &made.name)]),
            _ => t("ui.files.not-saved"),
        }));
        last.set_value(made);
    };
    view! {
        <section class="setting">
            <h2>{t("ui.shop.title")}</h2>
            <p class="page-line">{t("ui.files.shop-line")}</p>
            <button
                type="button"
                class="key wide-key"
                data-testid="shop-file-save"
                disabled=move || ready().is_none()
                on:click=save
            >
                {t("ui.files.shop-save")}
            </button>
            <p class="page-line" role="status" data-testid="shop-file-said">{move || said.get()}</p>
        </section>
    }
}

/// What became of a file.
#[derive(Clone, Debug, PartialEq)]
enum Taken {
    Nothing,
    Reading,
    /// New lines taken in, and where they are seen; none means that all of it was here already.
    In(usize, Screen),
    Refused(Words),
}

/// A file from elsewhere, into this tablet.
#[component]
fn TakeIn() -> impl IntoView {
    let session = expect_context::<Session>();
    let input = NodeRef::<html::Input>::new();
    let taken = RwSignal::new(Taken::Nothing);
    let pick = move |_| {
        if let Some(input) = input.get() {
            input.click();
        }
    };
    let picked = move |_| {
        let Some(input) = input.get() else { return };
        let Some(file) = input.files().and_then(|files| files.get(0)) else {
            return;
        };
        // So that the same file can be picked again after a fault was mended.
        input.set_value("");
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a size is whole and never below zero"
        )]
        let size = file.size() as usize;
        if size > BYTES_MAX {
            return taken.set(Taken::Refused(
                CardFileFault::TooLarge { bytes: size }.words(),
            ));
        }
        taken.set(Taken::Reading);
        spawn_local(async move {
            let Some(bytes) = card_file::bytes(&file).await else {
                let _gone = taken.try_set(Taken::Refused(Words::plain("ui.files.unreadable")));
                return;
            };
            session.take_file_in(&bytes, move |_, result| {
                let _gone = taken.try_set(match result {
                    Ok((lines, screen)) => Taken::In(lines, screen),
                    Err(words) => Taken::Refused(words),
                });
            });
        });
    };
    let outcome = move || {
        match taken.get() {
        Taken::Nothing => ().into_any(),
        Taken::Reading if matches!(session.saving.get(), Saving::Failed(_)) => {
            view! { <p class="wanting" role="alert" data-testid="file-taken">{t("ui.files.not-kept")}</p> }.into_any()
        }
        Taken::Reading => view! { <p class="page-line" role="status" data-testid="file-taken">{t("ui.files.reading")}</p> }
            .into_any(),
        Taken::Refused(words) => {
            let words = say(&words, &session.units());
            view! {
                <div class="wanting" role="alert" data-testid="file-taken">
                    <p>{words}</p>
                    <p>{t("ui.files.nothing-changed")}</p>
                </div>
            }
            .into_any()
        }
        Taken::In(lines, screen) => {
            let open = if screen == Screen::Shop {
                t("ui.files.open-shop")
            } else {
                t("ui.files.open")
            };
            let words = if lines == 0 {
                t("ui.files.all-here")
            } else {
                fill("ui.files.taken-in", &[("lines", &lines.to_string())])
            };
            view! {
                <p class="page-line" role="status" data-testid="file-taken">{words}</p>
                <button
                    type="button"
                    class="key wide-key"
                    data-testid="file-open"
                    on:click=move |_| session.go(screen.clone())
                >
                    {open}
                </button>
            }
            .into_any()
        }
    }
    };
    view! {
        <section class="setting">
            <h2>{t("ui.files.take-in")}</h2>
            <p class="page-line">{t("ui.files.take-in-line")}</p>
            <input
                type="file"
                class="file-input"
                tabindex="-1"
                aria-hidden="true"
                accept=".txt,text/plain"
                node_ref=input
                data-testid="file-input"
                on:change=picked
            />
            <button type="button" class="key wide-key" data-testid="file-pick" on:click=pick>
                {t("ui.files.pick")}
            </button>
            {outcome}
        </section>
    }
}
