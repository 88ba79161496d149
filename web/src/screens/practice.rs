//! The drills of the practice bay: which there are. Only the practice bay shows them.

use leptos::prelude::*;
use practice::drill::Drill;
use practice::drill::round::Round;
use practice::seed::{Level, Seed};
use store::Which;
use wasm_bindgen_futures::spawn_local;

use crate::device;
use crate::parts::go_list::{GoList, GoRow};
use crate::parts::wide_done::WideDone;
use crate::screen::Screen;
use crate::session::Session;
use crate::words::t;

use super::page::Page;

pub(crate) mod asked;
pub(crate) mod compare;
pub(crate) mod drill;
pub(crate) mod marking;
pub(crate) mod moment;
pub(crate) mod runs;
pub(crate) mod sights;

mod over;
mod said;
mod seen;

/// One row for each drill.
#[component]
pub(crate) fn DrillsScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let rows: Vec<GoRow> = Drill::ALL
        .iter()
        .map(|drill| GoRow {
            id: drill.code().to_owned(),
            words: title(*drill),
            detail: String::new(),
            done: false,
        })
        .collect();
    let open = Callback::new(move |id: String| {
        if let Some(drill) = Drill::from_code(&id) {
            session.go(Screen::Drill {
                round: Round::new(drill, another()),
            });
        }
    });
    let rows = Signal::stored(rows);
    view! {
        <InPractice title=t("ui.drills.title") on_back=Callback::new(move |()| session.go(Screen::Start))>
            <p class="page-line">{t("ui.drills.line")}</p>
            <GoList rows on_go=open places=true />
        </InPractice>
    }
}

/// A page that the practice bay alone shows; elsewhere it leads there.
#[component]
fn InPractice(
    #[prop(into)] title: String,
    on_back: Callback<()>,
    children: ChildrenFn,
) -> impl IntoView {
    let session = expect_context::<Session>();
    let to_practice = Callback::new(move |()| {
        spawn_local(async move { session.change_home(Which::Practice).await });
    });
    let children = StoredValue::new(children);
    let body = move || match session.home.get() {
        Which::Practice => children.with_value(|children| children()),
        Which::Shop => view! {
            <p class="page-line" data-testid="only-practice">{t("ui.drills.only-practice")}</p>
            <WideDone words=t("ui.start.to-practice") waits=false on_done=to_practice />
        }
        .into_any(),
    };
    view! { <Page title on_back>{body}</Page> }
}

/// What a drill is called.
fn title(drill: Drill) -> String {
    t(match drill {
        Drill::Read => "ui.drill.read",
        Drill::Limit => "ui.drill.limit",
        Drill::Stands => "ui.drill.stands",
        Drill::Pattern => "ui.drill.pattern",
        Drill::First => "ui.drill.first",
        Drill::Fault => "ui.drill.fault",
        Drill::Cause => "ui.drill.cause",
        Drill::EdgeCode => "ui.drill.edge-code",
        Drill::Units => "ui.drill.units",
    })
}

/// A seed that nobody had a moment ago, short enough to be told to somebody else.
fn another() -> Seed {
    let millis = device::now().utc.timestamp_millis();
    let number = u32::try_from(millis.rem_euclid(1_000_000)).unwrap_or(0);
    Seed::new(Level::Usual, number)
}
