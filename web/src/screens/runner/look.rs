//! A second person looks: accepted, or sent back with a reason.

use job::event::{Answer, Item};
use leptos::prelude::*;

use super::{Asking, question};
use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::text_entry::TextEntry;
use crate::parts::wide_done::WideDone;
use crate::words::t;

pub(super) fn view(asking: Asking) -> AnyView {
    let session = asking.session;
    let chosen = RwSignal::new(None::<String>);
    let why = RwSignal::new(String::new());
    let choices = vec![
        Choice::new("accepted", t("ui.look.accepted")),
        Choice::new("sent-back", t("ui.look.sent-back")),
    ];
    let heading = question(&asking);
    let refusal = asking.refusal;
    let sends_back = Memo::new(move |_| chosen.get().as_deref() == Some("sent-back"));
    let done = Callback::new(move |()| {
        let Some(choice) = chosen.get_untracked() else {
            refusal.set(Some(t("ui.choose-first")));
            return;
        };
        let why = Some(why.get_untracked().trim().to_owned()).filter(|why| !why.is_empty());
        asking.submit(
            Item::Only,
            Answer::Look {
                accepted: choice == "accepted",
                why,
                seen: None,
                again: Vec::new(),
            },
        );
    });
    view! {
        <div class="body">
            <h2 class="question-line">{heading}</h2>
            <ChoiceList
                choices=Signal::stored(choices)
                chosen=Signal::derive(move || chosen.get().into_iter().collect::<Vec<_>>())
                on_choose=Callback::new(move |id| chosen.set(Some(id)))
            />
            {move || sends_back.get().then(|| view! { <TextEntry words=t("ui.reason") text=why testid="reason"/> })}
        </div>
        <WideDone
            words=t("ui.done")
            waits=Signal::derive(move || !session.can_write() || chosen.with(Option::is_none))
            on_done=done
        />
    }
    .into_any()
}
