//! The tablet app. Starts the session, then shows the screen that the session is on.
//!
//! Only this crate knows Leptos. It decides nothing about brakes: it asks `job` and `rules`, and
//! shows what they say in the words of the language file.

#![expect(unreachable_pub, reason = "the component macro writes pub items")]

mod demo;
mod device;
mod judged;
mod parts;
mod photo;
mod pictures;
mod plain_page;
mod say;
mod screen;
mod screens;
mod session;
mod settings;
mod words;
mod writer;

use leptos::ev;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen::JsValue;
use wasm_bindgen::closure::Closure;
use wasm_bindgen_futures::{JsFuture, spawn_local};

use crate::screen::Screen;
use crate::session::{CannotStart, Session};
use crate::settings::{Glove, Theme};

const PROCEDURE: &str = "procedure/s-cam-reline.json";
const BRING: &str = "bring/s-cam-reline.json";

fn main() {
    plain_page::on_panic();
    spawn_local(start());
}

async fn start() {
    let language = settings::Settings::load().language;
    let words = match fetch(&format!("words/{language}.json")).await {
        Ok(words) => words,
        Err(_gone) => fetch("words/en.json").await.unwrap_or_default(),
    };
    if let Err(error) = words::load(&words) {
        return plain_page::show(&format!("words: {error}"));
    }
    let procedure = match fetch(PROCEDURE).await {
        Ok(procedure) => procedure,
        Err(error) => return plain_page::show(&format!("{PROCEDURE}: {error:?}")),
    };
    let bring = match fetch(BRING).await {
        Ok(bring) => bring,
        Err(error) => return plain_page::show(&format!("{BRING}: {error:?}")),
    };
    match Session::start(&procedure, &bring).await {
        Ok(session) => {
            restore(session).await;
            mount_to_body(move || view! { <App session/> });
            tell("app-up");
            session.check_all().await;
        }
        Err(CannotStart::Shipped(why)) => plain_page::show(&why),
        Err(CannotStart::Store(error)) => {
            plain_page::show(&say::say(
                &session::store_words(&error),
                &job::judge::Units::INCH_POUND,
            ));
        }
    }
}

/// A file of the app, as text.
async fn fetch(path: &str) -> Result<String, JsValue> {
    let window = web_sys::window().ok_or(JsValue::NULL)?;
    let response: web_sys::Response = JsFuture::from(window.fetch_with_str(path))
        .await?
        .dyn_into()?;
    if !response.ok() {
        return Err(JsValue::from_f64(f64::from(response.status())));
    }
    JsFuture::from(response.text()?)
        .await?
        .as_string()
        .ok_or(JsValue::NULL)
}

/// Opens what was open last, so that a tablet that lost its battery is where it was.
async fn restore(session: Session) {
    let wanted = web_sys::window()
        .and_then(|window| window.location().hash().ok())
        .and_then(|fragment| Screen::of_fragment(&fragment));
    // Which card was open is a setting, and settings may be lost: then it is the one last written on.
    let card = session
        .settings
        .with_untracked(|settings| settings.last_card.clone())
        .or_else(|| {
            session
                .cards
                .with_untracked(|cards| cards.first().map(|newest| newest.card.clone()))
        });
    match (wanted, card) {
        (Some(screen), Some(card)) if screen.needs_card() => {
            session.open_card(card, Some(screen)).await
        }
        (Some(screen), _) if !screen.needs_card() => session.go(screen),
        _ => session.go(Screen::Start),
    }
}

fn tell(event: &str) {
    if let (Some(window), Ok(event)) = (web_sys::window(), web_sys::Event::new(event))
        && window.dispatch_event(&event).is_err()
    {
        leptos::logging::warn!("nobody was told that the app is up");
    }
}

/// Follows the address when the browser's own back button was pressed.
fn follow_address(session: Session) {
    let follow = Closure::<dyn Fn()>::new(move || {
        let fragment = web_sys::window().and_then(|window| window.location().hash().ok());
        if let Some(screen) = fragment.as_deref().and_then(Screen::of_fragment)
            && (!screen.needs_card() || session.open.with_untracked(Option::is_some))
            && session.screen.with_untracked(|now| *now != screen)
        {
            session.screen.set(screen);
        }
    });
    if let Some(window) = web_sys::window() {
        window.set_onhashchange(Some(follow.as_ref().unchecked_ref()));
    }
    // Lives as long as the page: made once.
    follow.forget();
}

/// Notes every touch and key, so that a tablet left alone can say where one was.
fn note_touches(session: Session) {
    let note = move || session.touched.set(device::now().utc);
    let touch = window_event_listener(ev::pointerdown, move |_| note());
    let key = window_event_listener(ev::keydown, move |_| note());
    on_cleanup(move || {
        touch.remove();
        key.remove();
    });
}

/// Glove size, theme and calibration stand on the root element, where the style sheet reads them.
fn show_settings(session: Session) {
    Effect::new(move || {
        let root = web_sys::window()
            .and_then(|window| window.document())
            .and_then(|document| document.document_element())
            .and_then(|root| root.dyn_into::<web_sys::HtmlElement>().ok());
        let Some(root) = root else { return };
        session.settings.with(|settings| {
            let glove = match settings.glove {
                Glove::Thin => "thin",
                Glove::Heavy => "heavy",
            };
            let theme = match settings.theme {
                Theme::Light => "light",
                Theme::Dark => "dark",
            };
            let set = root
                .set_attribute("data-glove", glove)
                .and_then(|()| root.set_attribute("data-theme", theme))
                .and_then(|()| root.set_attribute("lang", &settings.language))
                .and_then(|()| {
                    root.style()
                        .set_property("--mm", &format!("{}px", settings.px_per_mm()))
                });
            if set.is_err() {
                leptos::logging::warn!("settings not shown");
            }
        });
    });
}

/// Everything.
#[component]
fn App(
    /// The state, for all screens.
    session: Session,
) -> impl IntoView {
    provide_context(session);
    screens::page::remember_places(session);
    screens::rules::provide_why_rule();
    show_settings(session);
    follow_address(session);
    note_touches(session);
    // The same screen set twice is not built twice: what was typed on it stays.
    let screen = Memo::new(move |_| session.screen.get());
    move || match screen.get() {
        Screen::Start => view! { <screens::start::StartScreen/> }.into_any(),
        Screen::Bay => view! { <screens::bay::BayScreen/> }.into_any(),
        Screen::Cards => view! { <screens::cards::CardsScreen/> }.into_any(),
        Screen::NewCard => view! { <screens::new_card::NewCardScreen/> }.into_any(),
        Screen::People => view! { <screens::people::PeopleScreen/> }.into_any(),
        Screen::Shop => view! { <screens::shop_sheet::ShopScreen/> }.into_any(),
        Screen::ShopSteps => view! { <screens::shop_steps::ShopStepsScreen/> }.into_any(),
        Screen::FinalPass => view! { <screens::final_pass::FinalPassScreen/> }.into_any(),
        Screen::Limits => view! { <screens::limits::LimitsScreen/> }.into_any(),
        Screen::Jacks => view! { <screens::jacks::JacksScreen/> }.into_any(),
        Screen::Wrenches => view! { <screens::wrenches::WrenchesScreen/> }.into_any(),
        Screen::Wheels => view! { <screens::wheels::WheelsScreen/> }.into_any(),
        Screen::Defaults => view! { <screens::defaults::DefaultsScreen/> }.into_any(),
        Screen::Stands => view! { <screens::stands::StandsScreen/> }.into_any(),
        Screen::Settings => view! { <screens::settings::SettingsScreen/> }.into_any(),
        Screen::Files => view! { <screens::files::FilesScreen/> }.into_any(),
        Screen::Map => view! { <screens::map::MapScreen/> }.into_any(),
        Screen::Step { at, step } => view! { <screens::runner::RunnerScreen at step/> }.into_any(),
        Screen::Bring => view! { <screens::bring::BringScreen/> }.into_any(),
        Screen::Found { at } => view! { <screens::found::FoundScreen at/> }.into_any(),
        Screen::Lines => view! { <screens::lines::LinesScreen/> }.into_any(),
        Screen::ReadOut => view! { <screens::read_out::ReadOutScreen/> }.into_any(),
        Screen::Line { tablet, n } => view! { <screens::line::LineScreen tablet n/> }.into_any(),
        Screen::HandOver { at } => view! { <screens::hand_over::HandOverScreen at/> }.into_any(),
        Screen::Sides => view! { <screens::sides::SidesScreen/> }.into_any(),
        Screen::Looks => view! { <screens::looks::LooksScreen/> }.into_any(),
        Screen::InTheWay => view! { <screens::in_the_way::InTheWayScreen/> }.into_any(),
        Screen::Look { at } => view! { <screens::look::LookScreen at/> }.into_any(),
        Screen::Trail => view! { <screens::trail::TrailScreen/> }.into_any(),
        Screen::Record => view! { <screens::record::RecordScreen/> }.into_any(),
        Screen::Setup => view! { <screens::setup::SetupScreen/> }.into_any(),
        Screen::RoadChecks => view! { <screens::road_checks::RoadChecksScreen/> }.into_any(),
        Screen::Runs => view! { <screens::practice::runs::RunsScreen/> }.into_any(),
        Screen::Compare { seed } => {
            view! { <screens::practice::compare::CompareScreen seed/> }.into_any()
        }
        Screen::Marking => view! { <screens::practice::marking::MarkingScreen/> }.into_any(),
        Screen::Drills => view! { <screens::practice::DrillsScreen/> }.into_any(),
        Screen::Drill { round } => {
            view! { <screens::practice::drill::DrillScreen round/> }.into_any()
        }
        Screen::Rules => view! { <screens::rules::RulesScreen/> }.into_any(),
    }
}
