//! The jacks that the shop owns: put on the list with what is on their plates, or taken out of use.

use job::event::{JackTag, TypedText};
use job::shop;
use job::words::Words;
use leptos::prelude::*;
use rules::unit::Unit;

use crate::parts::scroller::Scroller;
use crate::parts::text_entry::TextEntry;
use crate::session::{Session, shop_words};
use crate::words::{fill, t};

use super::page::{Page, anew, back_to_shop};
use super::told::told_jack_tag;
use super::value_entry::{ValueAsk, ValueEntry, ValueSaid};
use super::wanting::Wanting;

/// The units that stand on plates, the usual one first.
const UNITS: [Unit; 4] = [Unit::ShortTon, Unit::TonUnmarked, Unit::Tonne, Unit::Pound];

/// What is usual in the first of the units: common practice of this app's making.
const USUAL: [&str; 2] = ["5", "60"];

/// What this screen shows now.
#[derive(Clone, Debug, PartialEq, Eq)]
enum View {
    List,
    /// The name painted on a new jack.
    Name,
    /// The plate of a new jack.
    Plate,
    /// Why a jack goes out of use.
    Withdraw(String),
}

/// The list, a new jack, or the reason for taking one out of use.
#[component]
pub(crate) fn JacksScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let back = back_to_shop(session);
    let shown = RwSignal::new(View::List);
    let name = RwSignal::new(String::new());
    let why = RwSignal::new(String::new());
    let said = ValueSaid::new();
    let wanting = RwSignal::new(Vec::<Words>::new());
    let show = move |view: View| {
        wanting.set(Vec::new());
        shown.set(view);
    };
    let go_back = move |()| match shown.get_untracked() {
        View::List => back.run(()),
        View::Name | View::Withdraw(_) => show(View::List),
        View::Plate => show(View::Name),
    };
    let after = move |_: Session| {
        if shown.try_get_untracked().is_some() {
            name.set(String::new());
            why.set(String::new());
            said.clear();
            show(View::List);
        }
    };
    let told = move |changed: Result<(), Words>| wanting.set(changed.err().into_iter().collect());
    let to_plate = move || {
        let free = session
            .shop
            .with_untracked(|sheet| name.with_untracked(|name| shop::new_jack_name(sheet, name)));
        match free {
            Ok(_) => show(View::Plate),
            Err(refusal) => wanting.set(vec![shop_words(refusal)]),
        }
    };
    let list = Callback::new(move |rating: TypedText| {
        let tag = JackTag { rating };
        told(session.change_shop(
            |sheet| name.with_untracked(|name| shop::list_jack(sheet, name, tag)),
            after,
        ));
    });
    let withdraw = move || {
        let View::Withdraw(jack) = shown.get_untracked() else {
            return;
        };
        told(session.change_shop(
            |sheet| why.with_untracked(|why| shop::withdraw_jack(sheet, &jack, why)),
            after,
        ));
    };
    let content = move || {
        match shown.get() {
        View::List => view! {
            <JackList
                on_new=Callback::new(move |()| show(View::Name))
                on_withdraw=Callback::new(move |jack| show(View::Withdraw(jack)))
            />
        }
        .into_any(),
        View::Name => view! {
            <Scroller>
                <TextEntry words=t("ui.jack.name-ask") text=name testid="jack-name" />
                <Wanting words=wanting />
                <button type="button" class="key wide-key" data-testid="jack-name-next" on:click=move |_| to_plate()>
                    {t("ui.next")}
                </button>
            </Scroller>
        }
        .into_any(),
        View::Plate => {
            let ask = ValueAsk {
                words: t("ui.jack.rating-ask"),
                units: UNITS.to_vec(),
                usual: USUAL.map(ToOwned::to_owned),
                done: t("ui.stand.put-on-list"),
            };
            view! { <ValueEntry ask said wanting on_value=list /> }.into_any()
        }
        View::Withdraw(jack) => view! {
            <Scroller>
                <p class="page-line">{fill("ui.jack.withdraw-ask", &[("jack", &jack)])}</p>
                <TextEntry words=t("ui.reason") text=why testid="withdraw-why" />
                <Wanting words=wanting />
                <button type="button" class="key wide-key" data-testid="withdraw-yes" on:click=move |_| withdraw()>
                    {t("ui.stand.withdraw-yes")}
                </button>
            </Scroller>
        }
        .into_any(),
    }
    };
    let body = move || anew(content());
    let title = move || match shown.get() {
        View::List => t("ui.jacks.title"),
        View::Name => t("ui.jack.new"),
        View::Plate => name.with(|name| fill("ui.jack.name", &[("jack", name.trim())])),
        View::Withdraw(jack) => fill("ui.jack.name", &[("jack", &jack)]),
    };
    view! { <Page title=Signal::derive(title) on_back=Callback::new(go_back)>{body}</Page> }
}

#[component]
fn JackList(on_new: Callback<()>, on_withdraw: Callback<String>) -> impl IntoView {
    let session = expect_context::<Session>();
    let in_use = move || -> Vec<(String, String)> {
        session.shop.with(|sheet| {
            let jacks = sheet.jacks();
            jacks
                .map(|(name, jack)| (name.to_owned(), told_jack_tag(&jack.tag)))
                .collect()
        })
    };
    let withdrawn = move || -> Vec<(String, String)> {
        session.shop.with(|sheet| {
            let out = sheet.jacks_out();
            out.map(|(name, jack)| (name.to_owned(), jack.withdrawn.clone().unwrap_or_default()))
                .collect()
        })
    };
    let row = move |(name, tag): (String, String)| {
        let (testid, row_id) = (format!("withdraw-{name}"), format!("jack-row-{name}"));
        let words = fill("ui.jack.name", &[("jack", &name)]);
        view! {
            <li class="line" data-testid=row_id>
                <span class="row-words">
                    <span>{words}</span>
                    <small>{tag}</small>
                </span>
                <button type="button" class="key line-key" data-testid=testid on:click=move |_| on_withdraw.run(name.clone())>
                    {t("ui.stand.withdraw")}
                </button>
            </li>
        }
    };
    let out_row = |(name, why): (String, String)| {
        view! {
            <li class="line out">
                <span class="row-words">
                    <span>{fill("ui.jack.name", &[("jack", &name)])}</span>
                    <small>{why}</small>
                </span>
            </li>
        }
    };
    view! {
        <Scroller>
            <p class="page-line">{t("ui.jacks.line")}</p>
            <button type="button" class="key wide-key" data-testid="jack-new" on:click=move |_| on_new.run(())>
                {t("ui.jack.new")}
            </button>
            <ul class="rows" data-testid="jacks">{move || in_use().into_iter().map(row).collect_view()}</ul>
            {move || {
                let out = withdrawn();
                (!out.is_empty()).then(|| view! {
                    <h2>{t("ui.stands.withdrawn")}</h2>
                    <ul class="rows" data-testid="jacks-out">{out.into_iter().map(out_row).collect_view()}</ul>
                })
            }}
        </Scroller>
    }
}
