//! Things to do with one Done for all; each can be taken out.

use job::event::{Answer, Item};
use job::id::OptionId;
use leptos::prelude::*;

use super::{Asking, advice, picture, question};
use crate::parts::line_list::{Line, LineList, LinesDone, turns};
use crate::parts::scroller::Pager;
use crate::words::t;

pub(super) fn view(asking: Asking, lines: Vec<OptionId>) -> AnyView {
    let out = RwSignal::new(Vec::<String>::new());
    let words: Vec<(String, String)> = lines
        .iter()
        .map(|line| (line.to_string(), asking.option_words(line.as_str())))
        .collect();
    let shown = Signal::derive(move || {
        words
            .iter()
            .map(|(id, words)| Line {
                id: id.clone(),
                words: words.clone(),
                out: out.with(|out| out.contains(id)),
            })
            .collect::<Vec<_>>()
    });
    let turn = turns(out);
    let pager = Pager::new();
    let session = asking.session;
    let heading = question(&asking);
    let drawn = picture::view(&asking);
    let beside = advice::bearing_steps(&asking);
    let done = Callback::new(move |()| {
        let out =
            out.with_untracked(|out| out.iter().map(|id| OptionId::from(id.as_str())).collect());
        asking.submit(Item::Only, Answer::Lines { out });
    });
    view! {
        <div class="body lines-body">
            <h2 class="question-line">{heading} <small class="line-hint">{t("ui.lines.hint")}</small></h2>
            {drawn}
            <LineList lines=shown on_turn=turn pager/>
            {beside}
        </div>
        <LinesDone pager words=t("ui.done") waits=Signal::derive(move || !session.can_write()) on_done=done/>
    }
    .into_any()
}
