//! A second person looks: accepted, or sent back with a reason and what is to be done again.
//!
//! The second look has a page of its own; the look before the drum goes on is answered here.

use job::event::{Answer, Item};
use job::id::StepId;
use job::second_look;
use leptos::prelude::*;

use super::{Asking, question};
use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::text_entry::TextEntry;
use crate::parts::wide_done::WideDone;
use crate::screen::Screen;
use crate::screens::told::step_name;
use crate::words::t;

const ACCEPTED: &str = "accepted";
const SENT_BACK: &str = "sent-back";
/// What the row of a step to do again begins with.
const AGAIN: &str = "again-";

pub(super) fn view(asking: Asking) -> AnyView {
    if asking.step.id.as_str() == second_look::STEP {
        to_page(asking)
    } else {
        short(asking)
    }
}

/// The second look: its page is where it is read and answered.
fn to_page(asking: Asking) -> AnyView {
    let (session, at) = (asking.session, asking.at);
    let open = Callback::new(move |()| session.go(Screen::Look { at }));
    view! {
        <div class="body">
            <h2 class="question-line">{question(&asking)}</h2>
            <p>{t("ui.look.page-line")}</p>
        </div>
        <WideDone words=t("ui.look.page") waits=false on_done=open />
    }
    .into_any()
}

fn short(asking: Asking) -> AnyView {
    let session = asking.session;
    let chosen = RwSignal::new(None::<String>);
    let again = RwSignal::new(Vec::<String>::new());
    let why = RwSignal::new(String::new());
    let heading = question(&asking);
    let refusal = asking.refusal;
    let sends_back = Memo::new(move |_| chosen.get().as_deref() == Some(SENT_BACK));
    let steps = StoredValue::new(steps_to_do_again(&asking));
    let choices = Signal::derive(move || {
        let mut choices = vec![
            Choice::new(ACCEPTED, t("ui.look.accepted")),
            Choice::new(SENT_BACK, t("ui.look.sent-back")),
        ];
        if sends_back.get() {
            choices.extend(steps.get_value());
        }
        choices
    });
    let marked = Signal::derive(move || {
        let mut marked = again.get();
        marked.extend(chosen.get());
        marked
    });
    let choose = Callback::new(move |id: String| {
        if !id.starts_with(AGAIN) {
            chosen.set(Some(id));
        } else {
            again.update(|again| {
                if again.contains(&id) {
                    again.retain(|one| *one != id);
                } else {
                    again.push(id);
                }
            });
        }
    });
    let done = Callback::new(move |()| {
        let Some(choice) = chosen.get_untracked() else {
            refusal.set(Some(t("ui.choose-first")));
            return;
        };
        let accepted = choice == ACCEPTED;
        let why =
            Some(why.get_untracked().trim().to_owned()).filter(|why| !accepted && !why.is_empty());
        let again = again.with_untracked(|again| {
            again
                .iter()
                .filter(|_| !accepted)
                .filter_map(|id| id.strip_prefix(AGAIN))
                .map(StepId::from)
                .collect()
        });
        asking.submit(
            Item::Only,
            Answer::Look {
                accepted,
                why,
                seen: None,
                again,
            },
        );
    });
    view! {
        <div class="body">
            <h2 class="question-line">{heading}</h2>
            <ChoiceList choices chosen=marked on_choose=choose />
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

/// The steps of this stage before the look that have an answer here.
fn steps_to_do_again(asking: &Asking) -> Vec<Choice> {
    asking
        .with_card(|card| {
            let stage = card
                .procedure
                .as_deref()
                .and_then(|procedure| procedure.stage_of(&asking.step.id));
            let before: Vec<&StepId> = stage
                .into_iter()
                .flat_map(|stage| &stage.steps)
                .map(|step| &step.id)
                .take_while(|id| **id != asking.step.id)
                .collect();
            second_look::can_be_sent_back(card, asking.at)
                .into_iter()
                .filter(|step| before.contains(&&step.id))
                .map(|step| Choice::new(format!("{AGAIN}{}", step.id), step_name(&step.id)))
                .collect()
        })
        .unwrap_or_default()
}
