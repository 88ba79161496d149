//! The torque wrench that a pass is done with: one press, the one used last on top.

use job::event::{Answer, Item, WrenchUsed};
use job::judge;
use job::wrench::offers;
use leptos::prelude::*;

use super::{Asking, picture, question};
use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::wide_done::WideDone;
use crate::say::{say, say_remark};
use crate::screen::Screen;
use crate::screens::told::told_wrench_tag;
use crate::words::{fill, t};

/// The row that leads to the list of the shop.
const ANOTHER: &str = "another";

pub(super) fn view(asking: Asking) -> AnyView {
    let session = asking.session;
    let sheet = session.shop.get_untracked();
    let now = crate::device::now();
    let wrenches = asking
        .with_card(|card| offers(card, &sheet, now))
        .unwrap_or_default();
    let another = Choice::new(ANOTHER, t("ui.wrench.another"));
    let choices: Vec<Choice> = wrenches
        .iter()
        .enumerate()
        .map(|(n, used)| choice(&asking, n, used))
        .chain([another])
        .collect();
    let heading = question(&asking);
    let drawn = picture::view(&asking);
    let choose = Callback::new(move |id: String| {
        if id == ANOTHER {
            return session.go(Screen::Wrenches);
        }
        let used = id
            .parse()
            .ok()
            .and_then(|n: usize| wrenches.get(n).cloned());
        if let Some(used) = used.filter(|_| session.can_write()) {
            let used = Box::new(used);
            asking.submit(Item::Only, Answer::Wrench { used });
        }
    });
    view! {
        <div class="body">
            <h2 class="question-line">{heading}</h2>
            {drawn}
            <ChoiceList choices=Signal::stored(choices) chosen=Signal::stored(Vec::new()) on_choose=choose />
        </div>
        <WideDone words=t("ui.choose-one") waits=true on_done=Callback::new(|()| ()) />
    }
    .into_any()
}

/// A wrench as a row: its marks, and what is not right about it for the value in hand.
fn choice(asking: &Asking, n: usize, used: &WrenchUsed) -> Choice {
    let units = asking.session.units();
    let answer = Answer::Wrench {
        used: Box::new(used.clone()),
    };
    let judged =
        asking.with_card(|card| judge::judge(card, asking.at, &asking.step, &asking.ask, &answer));
    let said = match judged {
        Some(Ok(judged)) => match judge::refuses(&judged) {
            Some(words) => vec![say(&words, &units)],
            None => judged
                .judgements()
                .into_iter()
                .flat_map(|judgement| &judgement.remarks)
                .map(|remark| say_remark(remark, &units))
                .collect(),
        },
        Some(Err(words)) => vec![say(&words, &units)],
        None => Vec::new(),
    };
    let detail = [vec![told_wrench_tag(&used.tag)], said].concat().join(" ");
    Choice {
        id: n.to_string(),
        words: fill("ui.wrench.name", &[("wrench", &used.wrench)]),
        detail,
    }
}
