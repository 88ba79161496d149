//! The torque wrenches that the shop owns: put on the list with their marks and the day of their
//! calibration, calibrated anew, or taken out of use.

use job::shop;
use job::words::Words;
use job::wrench::day_of;
use leptos::prelude::*;

use crate::device;
use crate::parts::scroller::Scroller;
use crate::parts::text_entry::TextEntry;
use crate::session::{Session, shop_words};
use crate::words::{fill, t};

use super::page::{Page, anew, back_to_shop};
use super::told::told_wrench_tag;
use super::wanting::Wanting;
use super::wrench_entry::{Asks, WrenchEntry, WrenchSaid};

/// What this screen shows now.
#[derive(Clone, Debug, PartialEq, Eq)]
enum View {
    List,
    /// The name on a new wrench.
    Name,
    /// The marks of a new wrench.
    Tag,
    /// The day on which a wrench was calibrated anew.
    Calibrated(String),
    /// Why a wrench goes out of use.
    Withdraw(String),
}

/// The list, a new wrench, a new day of calibration, or the reason for taking one out of use.
#[component]
pub(crate) fn WrenchesScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let back = back_to_shop(session);
    let shown = RwSignal::new(View::List);
    let name = RwSignal::new(String::new());
    let why = RwSignal::new(String::new());
    let said = WrenchSaid::new(Asks::All);
    let day = WrenchSaid::new(Asks::Day);
    let wanting = RwSignal::new(Vec::<Words>::new());
    let show = move |view: View| {
        wanting.set(Vec::new());
        shown.set(view);
    };
    let go_back = move |()| match shown.get_untracked() {
        View::List => back.run(()),
        View::Name | View::Calibrated(_) | View::Withdraw(_) => show(View::List),
        View::Tag => show(View::Name),
    };
    let after = move |clear: fn(WrenchSaid), what: WrenchSaid| {
        move |_: Session| {
            if shown.try_get_untracked().is_some() {
                name.set(String::new());
                why.set(String::new());
                clear(what);
                show(View::List);
            }
        }
    };
    let told = move |changed: Result<(), Words>| wanting.set(changed.err().into_iter().collect());
    let to_tag = move || {
        let free = session
            .shop
            .with_untracked(|sheet| name.with_untracked(|name| shop::new_wrench_name(sheet, name)));
        match free {
            Ok(_) => show(View::Tag),
            Err(refusal) => wanting.set(vec![shop_words(refusal)]),
        }
    };
    let list = move |()| {
        told(untrack(|| said.tag()).and_then(|tag| {
            let today = day_of(device::now());
            session.change_shop(
                |sheet| name.with_untracked(|name| shop::list_wrench(sheet, name, tag, today)),
                after(WrenchSaid::clear, said),
            )
        }));
    };
    let calibrate = move |()| {
        let View::Calibrated(wrench) = shown.get_untracked() else {
            return;
        };
        told(untrack(|| day.calibrated()).and_then(|on| {
            let on = on.ok_or_else(|| Words::plain("ui.wrench.day-missing"))?;
            let today = day_of(device::now());
            session.change_shop(
                |sheet| shop::calibrate_wrench(sheet, &wrench, on, today),
                after(WrenchSaid::clear, day),
            )
        }));
    };
    let withdraw = move || {
        let View::Withdraw(wrench) = shown.get_untracked() else {
            return;
        };
        told(session.change_shop(
            |sheet| why.with_untracked(|why| shop::withdraw_wrench(sheet, &wrench, why)),
            after(|_| (), said),
        ));
    };
    let content = move || {
        match shown.get() {
        View::List => view! {
            <WrenchList
                on_new=Callback::new(move |()| show(View::Name))
                on_calibrated=Callback::new(move |wrench| {
                    day.clear();
                    show(View::Calibrated(wrench));
                })
                on_withdraw=Callback::new(move |wrench| show(View::Withdraw(wrench)))
            />
        }
        .into_any(),
        View::Name => view! {
            <Scroller>
                <TextEntry words=t("ui.wrench.name-ask") text=name testid="wrench-name" />
                <Wanting words=wanting />
                <button type="button" class="key wide-key" data-testid="wrench-name-next" on:click=move |_| to_tag()>
                    {t("ui.next")}
                </button>
            </Scroller>
        }
        .into_any(),
        View::Tag => view! {
            <WrenchEntry said done=t("ui.wrench.put-on-list") wanting on_done=Callback::new(list) />
        }
        .into_any(),
        View::Calibrated(_) => view! {
            <WrenchEntry said=day done=t("ui.wrench.calibrated-yes") wanting on_done=Callback::new(calibrate) />
        }
        .into_any(),
        View::Withdraw(wrench) => view! {
            <Scroller>
                <p class="page-line">{fill("ui.wrench.withdraw-ask", &[("wrench", &wrench)])}</p>
                <TextEntry words=t("ui.reason") text=why testid="withdraw-why" />
                <Wanting words=wanting />
                <button type="button" class="key wide-key" data-testid="withdraw-yes" on:click=move |_| withdraw()>
                    {t("ui.wrench.withdraw-yes")}
                </button>
            </Scroller>
        }
        .into_any(),
    }
    };
    let body = move || anew(content());
    let title = move || match shown.get() {
        View::List => t("ui.wrenches.title"),
        View::Name => t("ui.wrench.new"),
        View::Tag => name.with(|name| fill("ui.wrench.name", &[("wrench", name.trim())])),
        View::Calibrated(wrench) | View::Withdraw(wrench) => {
            fill("ui.wrench.name", &[("wrench", &wrench)])
        }
    };
    view! { <Page title=Signal::derive(title) on_back=Callback::new(go_back)>{body}</Page> }
}

#[component]
fn WrenchList(
    on_new: Callback<()>,
    on_calibrated: Callback<String>,
    on_withdraw: Callback<String>,
) -> impl IntoView {
    let session = expect_context::<Session>();
    let in_use = move || -> Vec<(String, String)> {
        session.shop.with(|sheet| {
            sheet
                .wrenches()
                .map(|(name, wrench)| (name.to_owned(), told_wrench_tag(&wrench.tag)))
                .collect()
        })
    };
    let withdrawn = move || -> Vec<(String, String)> {
        session.shop.with(|sheet| {
            sheet
                .wrenches_out()
                .map(|(name, wrench)| {
                    (
                        name.to_owned(),
                        wrench.withdrawn.clone().unwrap_or_default(),
                    )
                })
                .collect()
        })
    };
    let row = move |(name, tag): (String, String)| {
        let row_id = format!("wrench-row-{name}");
        let (calibrated_id, withdraw_id) =
            (format!("calibrated-{name}"), format!("withdraw-{name}"));
        let words = fill("ui.wrench.name", &[("wrench", &name)]);
        let same = name.clone();
        view! {
            <li class="line" data-testid=row_id>
                <span class="row-words">
                    <span>{words}</span>
                    <small>{tag}</small>
                </span>
                <button type="button" class="key line-key" data-testid=calibrated_id on:click=move |_| on_calibrated.run(same.clone())>
                    {t("ui.wrench.calibrated")}
                </button>
                <button type="button" class="key line-key" data-testid=withdraw_id on:click=move |_| on_withdraw.run(name.clone())>
                    {t("ui.stand.withdraw")}
                </button>
            </li>
        }
    };
    let out_row = |(name, why): (String, String)| {
        view! {
            <li class="line out">
                <span class="row-words">
                    <span>{fill("ui.wrench.name", &[("wrench", &name)])}</span>
                    <small>{why}</small>
                </span>
            </li>
        }
    };
    view! {
        <Scroller>
            <p class="page-line">{t("ui.wrenches.line")}</p>
            <button type="button" class="key wide-key" data-testid="wrench-new" on:click=move |_| on_new.run(())>
                {t("ui.wrench.new")}
            </button>
            <ul class="rows" data-testid="wrenches">{move || in_use().into_iter().map(row).collect_view()}</ul>
            {move || {
                let out = withdrawn();
                (!out.is_empty()).then(|| view! {
                    <h2>{t("ui.stands.withdrawn")}</h2>
                    <ul class="rows" data-testid="wrenches-out">{out.into_iter().map(out_row).collect_view()}</ul>
                })
            }}
        </Scroller>
    }
}
