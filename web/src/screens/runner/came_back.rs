//! Back again after a long gap: what holds the vehicle is looked at before anything goes on.

use job::act;
use job::id::{OptionId, PersonId};
use leptos::prelude::*;

use super::Chosen;
use crate::device;
use crate::parts::hold_button::HoldButton;
use crate::parts::line_list::{Line, LineList, turns};
use crate::parts::scroller::Pager;
use crate::parts::wide_done::WideDone;
use crate::say::say;
use crate::session::Session;
use crate::words::t;

pub(super) fn view(
    session: Session,
    beside: RwSignal<Option<PersonId>>,
    refusal: RwSignal<Option<String>>,
    chosen: RwSignal<Chosen>,
) -> AnyView {
    let kept: Vec<OptionId> = session.open.with_untracked(|open| {
        open.iter()
            .flat_map(|open| open.card.to_look_at(device::now().utc))
            .cloned()
            .collect()
    });
    let out = RwSignal::new(Vec::<String>::new());
    let turn = turns(out);
    let pager = Pager::new();
    let shown = Signal::derive(move || {
        kept.iter()
            .map(|kept| Line {
                id: kept.to_string(),
                words: t(&format!("kept.{kept}")),
                out: out.with(|out| out.iter().any(|out| out == kept.as_str())),
            })
            .collect::<Vec<_>>()
    });
    let held = Callback::new(move |()| {
        let but: Vec<OptionId> =
            out.with_untracked(|out| out.iter().map(|out| OptionId::from(out.as_str())).collect());
        let beside = beside.get_untracked();
        let saved = session.act(
            |card, me, now, _| Ok(vec![act::come_back(card, me, &but, beside, now)?]),
            move |_| {
                let _gone = chosen.try_set(Chosen::Lead);
            },
        );
        let units = session
            .settings
            .with_untracked(|settings| settings.units.units());
        refusal.set(saved.err().map(|words| say(&words, &units)));
    });
    let words = Signal::derive(move || {
        if out.with(Vec::is_empty) {
            t("ui.came-back.as-left")
        } else {
            t("ui.came-back.not-as-left")
        }
    });
    view! {
        <div class="body lines-body" data-testid="came-back">
            <h2 class="question-line">{t("ui.came-back")}</h2>
            <p class="why">{t("ui.came-back.why")} " " {t("ui.lines.hint")}</p>
            <LineList lines=shown on_turn=turn pager/>
        </div>
        <div class="done-area">
            {move || if pager.has_more() {
                let on = Callback::new(move |()| pager.turn());
                view! { <WideDone words=t("ui.lines.more") waits=false on_done=on/> }.into_any()
            } else {
                view! { <HoldButton words held=false on_held=held/> }.into_any()
            }}
        </div>
    }
    .into_any()
}
