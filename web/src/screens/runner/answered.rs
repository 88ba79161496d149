//! One ask that has its answer: what was said, how it is judged, and what can be done about it.

use job::card::{AskState, Card, Given};
use job::event::{Answer, Item};
use job::extra::ExtraLine;
use job::id::{AskId, Place};
use job::judge;
use job::line::LineRef;
use job::second_look;
use leptos::prelude::*;

use super::{Asking, Chosen, advice, asks_of, lead_on, picture, question, waits_for_foreman};
use crate::judged::{bar, judged_otherwise, rule_title};
use crate::parts::limit_bar::LimitBar;
use crate::parts::scroller::Scroller;
use crate::parts::wide_done::WideDone;
use crate::say::{place, say};
use crate::screen::Screen;
use crate::screens::extra_told::heading_of;
use crate::screens::look::sections::why_no_more;
use crate::screens::rules::WhyRule;
use crate::screens::told::answer_told;
use crate::words::{fill, t};

pub(super) fn view(asking: Asking) -> AnyView {
    let session = asking.session;
    let (told, given, clear, wants_foreman) = session.open.with_untracked(|open| {
        let Some(open) = open else {
            return (String::new(), Vec::new(), true, false);
        };
        let card = &open.card;
        let told = answer_told(card, &asking.step, &asking.ask, asking.at);
        let given: Vec<(LineRef, Given)> = card
            .slot(&asking.step, &asking.ask, asking.at, Item::Only)
            .map(|slot| {
                slot.live()
                    .iter()
                    .map(|held| (held.line.clone(), held.value.clone()))
                    .collect()
            })
            .unwrap_or_default();
        let clear = given
            .iter()
            .all(|(_, given)| card.clears(&asking.step, &asking.ask, asking.at, given));
        (
            told,
            given,
            clear,
            waits_for_foreman(card, &asking.step, asking.walked_at),
        )
    });
    let next_ask = next_ask(&asking);
    let contested = given.len() > 1;
    let verdicts = given
        .iter()
        .map(|(_, given)| verdicts(&asking, given))
        .collect_view();
    let advice = advice::view(&asking, clear);
    let lead = (!clear && !wants_foreman)
        .then(|| advice::lead(&asking))
        .flatten();
    let leads = lead.is_some();
    let waits = !clear && !wants_foreman && !leads;
    let look_again = !clear && asking.step.id.as_str() == second_look::STEP;
    let next_words = match &lead {
        Some(lead) => lead.words.clone(),
        None if look_again => t("ui.look.page"),
        None if wants_foreman && next_ask.is_none() => t("ui.needs-foreman.go"),
        None => t("ui.next"),
    };
    let heading = format!("{} – {}", question(&asking), place(asking.at));
    let drawn = picture::of_reading(&asking);
    let chosen = asking.chosen;
    let again = {
        let (ask, at) = (asking.ask.id.clone(), asking.at);
        move |_| {
            chosen.set(Chosen::Ask {
                ask: ask.clone(),
                at,
                again: true,
            })
        }
    };
    let refusal = asking.refusal;
    let last = given.last().map(|(line, _)| line.clone());
    let take_back = move |_| {
        if let Some(line) = &last {
            match session.strike(line, None) {
                Ok(()) => chosen.set(Chosen::Lead),
                // A reason is wanted: the trail has the place for it.
                Err(words) if words.key == "refuse.reason-missing" => session.go(Screen::Trail),
                Err(words) => {
                    let units = session
                        .settings
                        .with_untracked(|settings| settings.units.units());
                    refusal.set(Some(say(&words, &units)));
                }
            }
        }
    };
    let (step, at) = (asking.step.clone(), asking.walked_at);
    let next = Callback::new(move |()| {
        if let Some(lead) = &lead {
            lead.follow(session);
        } else if look_again {
            session.go(Screen::Look { at });
        } else if wants_foreman {
            chosen.set(match &next_ask {
                Some((ask, at)) => Chosen::Ask {
                    ask: ask.clone(),
                    at: *at,
                    again: false,
                },
                None => Chosen::List,
            });
        } else if clear {
            chosen.set(Chosen::Lead);
            lead_on(session, at, &step);
        } else {
            refusal.set(Some(t("ui.answer-unclear")));
        }
    });
    view! {
        <div class="body answered" data-testid="answered">
            <h2 class="question-line">{heading}</h2>
            <Scroller>
                <p class="told" data-testid="told">{told}</p>
                {contested.then(|| view! { <p class="refusal" data-testid="contested">{t("ui.contested")}</p> })}
                {(waits && !look_again).then(|| view! { <p class="refusal" data-testid="unclear">{t("ui.answer-unclear")}</p> })}
                {look_again.then(|| why_no_more(session, asking.at))}
                {brought_up(&asking)}
                {verdicts}
                {advice}
                {drawn}
                <div class="answered-keys">
                    <button type="button" class="key wide-key" data-testid="take-back" on:click=take_back>{t("ui.take-back")}</button>
                    <button type="button" class="key wide-key" data-testid="answer-again" on:click=again>{t("ui.answer-again")}</button>
                </div>
            </Scroller>
        </div>
        <WideDone
            words=next_words
            waits=waits && !look_again
            on_done=next
        />
    }
    .into_any()
}

/// What of the step nobody has answered yet: a foreman's reason can wait until that is done.
fn next_ask(asking: &Asking) -> Option<(AskId, Place)> {
    let wanting = |card: &Card, ask: &AskId, at: Place| {
        let of = asking.step.asks.iter().find(|of| of.id == *ask);
        of.is_some_and(|of| {
            let state = card.ask_state(&asking.step, of, at);
            !of.optional && matches!(state, AskState::Open | AskState::Partly)
        })
    };
    let first = asking.with_card(|card| {
        let asks = asks_of(card, &asking.step, asking.walked_at);
        asks.into_iter().find(|(ask, at)| wanting(card, ask, *at))
    });
    first.flatten()
}

/// The extra lines that came up with this answer, each with the way to it.
fn brought_up(asking: &Asking) -> AnyView {
    let session = asking.session;
    let lines: Vec<(Screen, String)> = asking
        .with_card(|card| {
            let came_with = |extra: &&ExtraLine| {
                let with = extra.with.as_ref();
                extra.at == asking.at
                    && with.is_some_and(|with| {
                        with.step == asking.step.id && with.ask == asking.ask.id
                    })
            };
            let lines = card.extra_lines().iter().filter(came_with);
            lines
                .map(|extra| (Screen::line(&extra.line), heading_of(extra)))
                .collect()
        })
        .unwrap_or_default();
    lines
        .into_iter()
        .map(|(to, words)| {
            view! {
                <section class="brought-up" data-testid="brought-up">
                    <p>{fill("ui.extra.brought-up", &[("line", &words)])}</p>
                    <button type="button" class="key wide-key" data-testid="to-line" on:click=move |_| session.go(to.clone())>
                        {t("ui.extra.go")}
                    </button>
                </section>
            }
        })
        .collect_view()
        .into_any()
}

/// The bars of one answer, with what was said then where it would be said otherwise now.
fn verdicts(asking: &Asking, given: &Given) -> AnyView {
    let session = asking.session;
    let why = use_context::<WhyRule>();
    let units = session
        .settings
        .with_untracked(|settings| settings.units.units());
    let by_eye = !matches!(
        given.answer,
        Answer::Reading { .. }
            | Answer::Count { .. }
            | Answer::Stands { .. }
            | Answer::Wrench { .. }
            | Answer::Jack { .. }
    );
    if by_eye && asking.ask.rule.is_none() {
        return ().into_any();
    }
    let now = asking
        .with_card(|card| judge::judge(card, asking.at, &asking.step, &asking.ask, &given.answer));
    match now {
        Some(Ok(judged)) if !judged.judgements().is_empty() => judged
            .judgements()
            .into_iter()
            // A part that is sound was just said to be; what goes with a bad one is worth a bar.
            .filter(|judgement| !by_eye || !judgement.remarks.is_empty())
            .map(|judgement| {
                let then = given.judged.iter().find(|then| then.rule == judgement.rule.0);
                let otherwise = then.and_then(|then| judged_otherwise(then, judgement));
                let rule = judgement.rule.0;
                view! {
                    <h3>{rule_title(rule)}</h3>
                    <LimitBar shown=Signal::stored(Some(bar(judgement, &units)))/>
                    {otherwise.map(|words| view! { <p class="judged-then">{words}</p> })}
                    <button type="button" class="key wide-key" data-testid=format!("why-{rule}") on:click=move |_| {
                        if let Some(WhyRule(asked)) = why {
                            asked.set(Some(rule));
                        }
                        session.go(Screen::Rules);
                    }>
                        {fill("ui.why-number", &[("rule", &rule_title(rule))])}
                    </button>
                }
            })
            .collect_view()
            .into_any(),
        Some(Err(words)) => view! { <p class="refusal">{say(&words, &units)}</p> }.into_any(),
        Some(Ok(judged)) if judged.unsaid().is_some() => {
            let words = judged.unsaid().map(|words| say(words, &units));
            view! { <p class="refusal" data-testid="unsaid">{words}</p> }.into_any()
        }
        Some(Ok(_)) | None if by_eye => ().into_any(),
        Some(Ok(_)) | None => view! { <p class="kept" data-testid="kept">{t("verdict.kept")}</p> }.into_any(),
    }
}
