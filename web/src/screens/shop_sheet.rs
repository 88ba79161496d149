//! The shop sheet: the way to each of its lists.

use leptos::prelude::*;

use crate::parts::go_list::{GoList, GoRow};
use crate::screen::Screen;
use crate::session::Session;
use crate::words::{fill, t};

use super::page::{Page, way_back};
use super::told::final_pass_told;

/// Every list of the shop sheet, with how much is on it.
#[component]
pub(crate) fn ShopScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let back = way_back(session);
    let rows = Signal::derive(move || {
        session.shop.with(|sheet| {
            let row = |screen: Screen, count: usize| {
                let id = screen.fragment();
                GoRow {
                    words: t(&format!("ui.shop.{id}")),
                    detail: fill("ui.shop.count", &[("count", &count.to_string())]),
                    done: false,
                    id,
                }
            };
            vec![
                row(Screen::People, sheet.people().len()),
                row(Screen::Stands, sheet.stands().count()),
                row(Screen::Jacks, sheet.jacks().count()),
                row(Screen::Wrenches, sheet.wrenches().count()),
                row(Screen::Wheels, sheet.values().wheels.len()),
                row(Screen::Limits, sheet.values().limits.len()),
                row(Screen::ShopSteps, sheet.values().steps.len()),
                GoRow {
                    detail: final_pass_told(sheet.values().final_pass),
                    ..row(Screen::FinalPass, 0)
                },
                row(Screen::Defaults, sheet.values().defaults.len()),
            ]
        })
    });
    let go = Callback::new(move |id: String| {
        if let Some(screen) = Screen::of_fragment(&id) {
            session.go(screen);
        }
    });
    view! {
        <Page title=t("ui.shop.title") on_back=back>
            <p class="page-line">{t("ui.shop.line")}</p>
            <GoList rows on_go=go places=true />
        </Page>
    }
}
