//! The stands that the shop owns: put on the list with what is on their tags, or taken out of use.

use job::event::StandTag;
use job::shop;
use job::words::Words;
use leptos::prelude::*;

use crate::parts::scroller::Scroller;
use crate::parts::text_entry::TextEntry;
use crate::session::Session;
use crate::words::{fill, t};

use super::page::{Page, anew, back_to_shop};
use super::stand_entry::{StandSaid, StandTagEntry, tag_words};
use super::wanting::Wanting;

/// What this screen shows now.
#[derive(Clone, Debug, PartialEq, Eq)]
enum View {
    List,
    /// The number painted on a new stand.
    Number,
    /// The tag of a new stand.
    Tag,
    /// Why a stand goes out of use.
    Withdraw(String),
}

/// The list, a new stand, or the reason for taking one out of use.
#[component]
pub(crate) fn StandsScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let back = back_to_shop(session);
    let shown = RwSignal::new(View::List);
    let number = RwSignal::new(String::new());
    let why = RwSignal::new(String::new());
    let said = StandSaid::new();
    let wanting = RwSignal::new(Vec::<Words>::new());
    let show = move |view: View| {
        wanting.set(Vec::new());
        shown.set(view);
    };
    let go_back = move |()| match shown.get_untracked() {
        View::List => back.run(()),
        View::Number | View::Withdraw(_) => show(View::List),
        View::Tag => show(View::Number),
    };
    let list = move |tag: StandTag| {
        let listed = session.change_shop(
            |sheet| number.with_untracked(|number| shop::list_stand(sheet, number, tag)),
            move |_| {
                let _gone = number.try_set(String::new());
                if shown.try_get_untracked().is_some() {
                    said.clear();
                    show(View::List);
                }
            },
        );
        wanting.set(listed.err().into_iter().collect());
    };
    let withdraw = move || {
        let View::Withdraw(stand) = shown.get_untracked() else {
            return;
        };
        let withdrawn = session.change_shop(
            |sheet| why.with_untracked(|why| shop::withdraw_stand(sheet, &stand, why)),
            move |_| {
                let _gone = why.try_set(String::new());
                if shown.try_get_untracked().is_some() {
                    show(View::List);
                }
            },
        );
        wanting.set(withdrawn.err().into_iter().collect());
    };
    let to_tag = move || {
        let free = number.with_untracked(|number| {
            let number = number.trim();
            session.shop.with_untracked(|sheet| {
                if number.is_empty() {
                    Err(Words::plain("shop.stand-number-missing"))
                } else if sheet.stands().any(|(other, _)| other == number) {
                    let number = job::words::Arg::Text(number.to_owned());
                    Err(Words::with("shop.stand-number-taken", [("number", number)]))
                } else {
                    Ok(())
                }
            })
        });
        match free {
            Ok(()) => show(View::Tag),
            Err(words) => wanting.set(vec![words]),
        }
    };
    let content = move || {
        match shown.get() {
        View::List => view! {
            <StandList
                on_new=Callback::new(move |()| show(View::Number))
                on_withdraw=Callback::new(move |stand| show(View::Withdraw(stand)))
            />
        }
        .into_any(),
        View::Number => view! {
            <Scroller>
                <TextEntry words=t("ui.stand.number-ask") text=number testid="stand-number" />
                <Wanting words=wanting />
                <button type="button" class="key wide-key" data-testid="stand-number-next" on:click=move |_| to_tag()>
                    {t("ui.next")}
                </button>
            </Scroller>
        }
        .into_any(),
        View::Tag => view! {
            <Wanting words=wanting />
            <StandTagEntry said done=t("ui.stand.put-on-list") on_tag=Callback::new(list) />
        }
        .into_any(),
        View::Withdraw(stand) => view! {
            <Scroller>
                <p class="page-line">{fill("ui.stand.withdraw-ask", &[("stand", &stand)])}</p>
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
        View::List => t("ui.stands.title"),
        View::Number => t("ui.stand.new"),
        View::Tag => number.with(|number| fill("ui.stand.tag-of", &[("stand", number.trim())])),
        View::Withdraw(stand) => fill("ui.stand.withdraw-title", &[("stand", &stand)]),
    };
    view! { <Page title=Signal::derive(title) on_back=Callback::new(go_back)>{body}</Page> }
}

#[component]
fn StandList(on_new: Callback<()>, on_withdraw: Callback<String>) -> impl IntoView {
    let session = expect_context::<Session>();
    let in_use = move || -> Vec<(String, String)> {
        session.shop.with(|sheet| {
            let units = session.units();
            sheet
                .stands()
                .map(|(number, stand)| (number.to_owned(), tag_words(&stand.tag, &units)))
                .collect()
        })
    };
    let withdrawn = move || -> Vec<(String, String)> {
        session.shop.with(|sheet| {
            let out = sheet.withdrawn();
            out.map(|(number, stand)| {
                (
                    number.to_owned(),
                    stand.withdrawn.clone().unwrap_or_default(),
                )
            })
            .collect()
        })
    };
    let row = move |(number, tag): (String, String)| {
        let (testid, row_id) = (format!("withdraw-{number}"), format!("stand-row-{number}"));
        let words = fill("ui.stand.row", &[("stand", &number)]);
        view! {
            <li class="line" data-testid=row_id>
                <span class="row-words">
                    <span>{words}</span>
                    <small>{tag}</small>
                </span>
                <button type="button" class="key line-key" data-testid=testid on:click=move |_| on_withdraw.run(number.clone())>
                    {t("ui.stand.withdraw")}
                </button>
            </li>
        }
    };
    let out_row = |(number, why): (String, String)| {
        view! {
            <li class="line out">
                <span class="row-words">
                    <span>{fill("ui.stand.row", &[("stand", &number)])}</span>
                    <small>{why}</small>
                </span>
            </li>
        }
    };
    view! {
        <Scroller>
            <p class="page-line">{t("ui.stands.line")}</p>
            <button type="button" class="key wide-key" data-testid="stand-new" on:click=move |_| on_new.run(())>
                {t("ui.stand.new")}
            </button>
            <ul class="rows" data-testid="stands">{move || in_use().into_iter().map(row).collect_view()}</ul>
            {move || {
                let out = withdrawn();
                (!out.is_empty()).then(|| view! {
                    <h2>{t("ui.stands.withdrawn")}</h2>
                    <ul class="rows" data-testid="stands-out">{out.into_iter().map(out_row).collect_view()}</ul>
                })
            }}
        </Scroller>
    }
}
