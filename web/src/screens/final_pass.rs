//! Where the shop does the final pass over the nuts, and how it is logged. The order of the steps
//! follows from it on every card that takes it.

use job::event::FinalPass;
use job::shop;
use job::words::Words;
use leptos::prelude::*;

use crate::parts::choice_list::{Choice, ChoiceRows};
use crate::parts::scroller::Scroller;
use crate::session::Session;
use crate::words::t;

use super::page::{Page, back_to_shop};
use super::wanting::Wanting;

const GROUND: &str = "ground";
const STANDS: &str = "stands";
const ONE_BY_ONE: &str = "one-by-one";
const WHOLE: &str = "whole";

/// Two lists: the place, and the log.
#[component]
pub(crate) fn FinalPassScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let back = back_to_shop(session);
    let wanting = RwSignal::new(Vec::<Words>::new());
    let way = move || session.shop.with(|sheet| sheet.values().final_pass);
    let choose = Callback::new(move |id: String| {
        let now = session
            .shop
            .with_untracked(|sheet| sheet.values().final_pass);
        let way = match id.as_str() {
            GROUND | STANDS => FinalPass {
                on_stands: id == STANDS,
                ..now
            },
            _ => FinalPass {
                as_a_whole: id == WHOLE,
                ..now
            },
        };
        if way == now {
            return;
        }
        let set = session.change_shop(|_| Ok(shop::set_final_pass(way)), |_| {});
        wanting.set(set.err().into_iter().collect());
    });
    let place = move || vec![if way().on_stands { STANDS } else { GROUND }.to_owned()];
    let log = move || vec![if way().as_a_whole { WHOLE } else { ONE_BY_ONE }.to_owned()];
    view! {
        <Page title=t("ui.final-pass.title") on_back=back>
            <Scroller>
                <p class="page-line">{t("ui.final-pass.line")}</p>
                <Wanting words=wanting />
                <section class="setting">
                    <h2>{t("ui.final-pass.where")}</h2>
                    <ChoiceRows choices=choices([GROUND, STANDS]) chosen=Signal::derive(place) on_choose=choose />
                </section>
                <section class="setting">
                    <h2>{t("ui.final-pass.how")}</h2>
                    <ChoiceRows choices=choices([ONE_BY_ONE, WHOLE]) chosen=Signal::derive(log) on_choose=choose />
                </section>
            </Scroller>
        </Page>
    }
}

/// Each with what follows from it.
fn choices(ids: [&str; 2]) -> Signal<Vec<Choice>> {
    let choice = |id: &str| Choice {
        detail: t(&format!("ui.final-pass.{id}")),
        ..Choice::new(id, t(&format!("final-pass.{id}")))
    };
    Signal::stored(ids.map(choice).to_vec())
}
