//! The jack under an axle: one of the shop's in one press, or a rating read off another.

use job::event::{Answer, Item, JackUsed};
use job::judge;
use job::procedure::ReadingAsk;
use leptos::prelude::*;

use super::{Asking, picture, question, reading};
use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::wide_done::WideDone;
use crate::say::{say, say_remark};
use crate::screens::told::told_jack_tag;
use crate::words::{fill, t};

/// The row that leads to the pad.
const ANOTHER: &str = "another";

/// The pad alone where the shop has no jack on its list.
pub(super) fn view(asking: Asking, wanted: ReadingAsk) -> AnyView {
    let session = asking.session;
    let jacks: Vec<JackUsed> = session.shop.with_untracked(|sheet| {
        let listed = sheet.jacks();
        listed
            .map(|(name, jack)| JackUsed {
                jack: name.to_owned(),
                tag: jack.tag.clone(),
            })
            .collect()
    });
    if jacks.is_empty() {
        return reading::reading(asking, wanted);
    }
    let typing = RwSignal::new(false);
    let another = Choice::new(ANOTHER, t("ui.jack.another"));
    let choices: Vec<Choice> = jacks
        .iter()
        .enumerate()
        .map(|(n, used)| choice(&asking, n, used))
        .chain([another])
        .collect();
    let choices = StoredValue::new(choices);
    let heading = StoredValue::new(question(&asking));
    let kept = StoredValue::new((asking.clone(), wanted));
    let drawn = StoredValue::new(asking.clone());
    let choose = Callback::new(move |id: String| {
        if id == ANOTHER {
            return typing.set(true);
        }
        let used = id.parse().ok().and_then(|n: usize| jacks.get(n).cloned());
        if let Some(used) = used.filter(|_| session.can_write()) {
            asking.submit(Item::Only, Answer::Jack { used });
        }
    });
    let shown = move || {
        if typing.get() {
            let (asking, wanted) = kept.get_value();
            return reading::reading(asking, wanted);
        }
        let picture = drawn.with_value(picture::view);
        view! {
            <div class="body">
                <h2 class="question-line">{heading.get_value()}</h2>
                {picture}
                <ChoiceList choices=Signal::stored(choices.get_value()) chosen=Signal::stored(Vec::new()) on_choose=choose />
            </div>
            <WideDone words=t("ui.choose-one") waits=true on_done=Callback::new(|()| ()) />
        }
        .into_any()
    };
    shown.into_any()
}

/// A jack as a row: what is on its plate, and what the rule says of it under this load.
fn choice(asking: &Asking, n: usize, used: &JackUsed) -> Choice {
    let units = asking.session.units();
    let answer = Answer::Jack { used: used.clone() };
    let judged =
        asking.with_card(|card| judge::judge(card, asking.at, &asking.step, &asking.ask, &answer));
    let said = match judged {
        Some(Ok(judged)) => judged
            .judgements()
            .into_iter()
            .flat_map(|judgement| {
                let verdict = t(judgement.verdict.word().key());
                let remarks = judgement.remarks.iter();
                [verdict]
                    .into_iter()
                    .chain(remarks.map(|remark| say_remark(remark, &units)))
                    .collect::<Vec<_>>()
            })
            .collect(),
        Some(Err(words)) => vec![say(&words, &units)],
        None => Vec::new(),
    };
    Choice {
        id: n.to_string(),
        words: fill("ui.jack.name", &[("jack", &used.jack)]),
        detail: [vec![told_jack_tag(&used.tag)], said].concat().join(" · "),
    }
}
