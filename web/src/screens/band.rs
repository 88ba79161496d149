//! What the tablet has to say about itself, on top of every screen: the practice bay, a save that
//! failed, another tab that writes, plain http, a newer build, a store that may be cleared.
//!
//! Of several the one that matters most is shown. What only is good to know waits for a screen
//! between steps.

use job::words::Words;
use leptos::prelude::*;
use store::Which;

use crate::device;
use crate::parts::notice::{Notice, NoticeShown, NoticeTone};
use crate::say::say;
use crate::screen::Screen;
use crate::session::{Saving, Session, Writing};
use crate::words::{fill, t};
use crate::writer::Asking;

use super::build;

/// Everything that can be told, what matters most first.
#[derive(Clone, Debug, PartialEq)]
enum Telling {
    NotSaved(Words),
    OtherTab,
    PlainHttp,
    NewBuild,
    NotLasting,
}

/// The bands of a screen. The practice bay is marked on every one.
#[component]
pub(crate) fn PracticeBand() -> impl IntoView {
    let session = expect_context::<Session>();
    let new_build = RwSignal::new(false);
    build::watch(session, new_build);
    let telling = Memo::new(move |_| first_telling(session, new_build.get()));
    let notice = Signal::derive(move || telling.get().map(|telling| shown(session, &telling)));
    let act = move |()| match telling.get_untracked() {
        Some(Telling::NotSaved(_)) => session.go(Screen::Files),
        Some(Telling::OtherTab) => session.ask_to_write(Asking::TakeOver),
        Some(Telling::NewBuild) => build::take_newest(),
        Some(Telling::PlainHttp | Telling::NotLasting) | None => {}
    };
    let practice = move || {
        (session.home.get() == Which::Practice).then(|| {
            // On a run of an apprentice the other band says who stands beside them.
            let beside = session.beside_on_a_run().map(|_| {
                fill("ui.practice.beside", &[("name", &t("ui.run.beside"))])
            });
            let repeats = beside.is_none().then_some("true");
            let right = beside.unwrap_or_else(|| t("ui.practice.not-real"));
            view! {
                <p class="practice-band" data-testid="practice-band">
                    <strong>{t("ui.practice.bay")}</strong>
                    <span>{t("ui.practice.not-real")}</span>
                </p>
                <p class="practice-band right" data-testid="practice-band-right" aria-hidden=repeats>
                    <strong>{t("ui.practice.bay")}</strong>
                    <span>{right}</span>
                </p>
            }
        })
    };
    view! {
        <div class="bands">
            {practice}
            <Notice notice on_action=Callback::new(act) />
        </div>
    }
}

fn first_telling(session: Session, new_build: bool) -> Option<Telling> {
    if let Saving::Failed(words) = session.saving.get() {
        return Some(Telling::NotSaved(words));
    }
    if session.writing.get() == Writing::Elsewhere {
        return Some(Telling::OtherTab);
    }
    if !device::is_secure() {
        return Some(Telling::PlainHttp);
    }
    let between_steps = session
        .screen
        .with(|screen| matches!(screen, Screen::Start | Screen::Settings));
    if !between_steps {
        return None;
    }
    if new_build {
        return Some(Telling::NewBuild);
    }
    (session.lasting.get() == Some(false)).then_some(Telling::NotLasting)
}

fn shown(session: Session, telling: &Telling) -> NoticeShown {
    match telling {
        Telling::NotSaved(words) => {
            let can_save = session.open.with(Option::is_some)
                && session.screen.with(|screen| *screen != Screen::Files);
            NoticeShown {
                tone: NoticeTone::Stops,
                words: say(words, &session.units()),
                action: can_save.then(|| t("ui.band.to-files")),
            }
        }
        Telling::OtherTab => NoticeShown {
            tone: NoticeTone::Stops,
            words: t("ui.other-tab.writes"),
            action: Some(t("ui.other-tab.take-over")),
        },
        Telling::PlainHttp => NoticeShown {
            tone: NoticeTone::Stops,
            words: t("ui.plain-http.band"),
            action: None,
        },
        Telling::NewBuild => NoticeShown {
            tone: NoticeTone::Plain,
            words: t("ui.new-build.waits"),
            action: Some(t("ui.new-build.take")),
        },
        Telling::NotLasting => NoticeShown {
            tone: NoticeTone::Plain,
            words: t("ui.lasting.no"),
            action: None,
        },
    }
}
