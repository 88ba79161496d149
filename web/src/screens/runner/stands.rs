//! Stands under an axle: picked from the shop's, or typed in from the tag; judged as they are picked.

use job::event::{Answer, Item, StandTag, StandUsed};
use job::judge::{self, Judged};
use leptos::prelude::*;

use super::{Asking, question};
use crate::judged::{bar, rule_title};
use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::limit_bar::LimitBar;
use crate::parts::scroller::Scroller;
use crate::parts::wide_done::WideDone;
use crate::say::say;
use crate::screens::stand_entry::{StandSaid, StandTagEntry};
use crate::screens::told::told_tag;
use crate::session::Session;
use crate::words::{fill, t};

/// The stands that there are: the shop's, or in a run those that lie ready and those behind them.
fn at_hand(session: Session) -> Vec<StandUsed> {
    if let Some((run, _)) = session.run() {
        return run.stands();
    }
    session.shop.with(|sheet| {
        let stands = sheet.stands();
        stands
            .map(|(number, stand)| StandUsed {
                stand: number.to_owned(),
                tag: stand.tag.clone(),
            })
            .collect()
    })
}

pub(super) fn view(asking: Asking) -> AnyView {
    let session = asking.session;
    let picked = RwSignal::new(Vec::<StandUsed>::new());
    let typing = RwSignal::new(false);
    // In a run the tags are read off the stands.
    let is_run = untrack(|| session.run().is_some());
    let choices = Signal::derive(move || {
        let listed: Vec<Choice> = at_hand(session)
            .into_iter()
            .map(|stand| Choice {
                words: fill("ui.stand.number", &[("number", &stand.stand)]),
                detail: if is_run {
                    String::new()
                } else {
                    told_tag(&stand.tag)
                },
                id: stand.stand,
            })
            .collect();
        let typed = picked.with(|picked| {
            picked
                .iter()
                .enumerate()
                .filter(|(_, stand)| stand.stand.is_empty())
                .map(|(at, stand)| Choice {
                    id: format!("typed-{at}"),
                    words: t("ui.stand.typed"),
                    detail: told_tag(&stand.tag),
                })
                .collect::<Vec<_>>()
        });
        listed
            .into_iter()
            .chain(typed)
            .chain([Choice::new("another", t("ui.stand.another"))])
            .collect::<Vec<_>>()
    });
    let chosen = Signal::derive(move || {
        picked.with(|picked| {
            picked
                .iter()
                .enumerate()
                .map(|(at, stand)| {
                    if stand.stand.is_empty() {
                        format!("typed-{at}")
                    } else {
                        stand.stand.clone()
                    }
                })
                .collect::<Vec<_>>()
        })
    });
    let refusal = asking.refusal;
    let choose = Callback::new(move |id: String| {
        refusal.set(None);
        if id == "another" {
            typing.set(true);
            return;
        }
        if let Some(at) = id
            .strip_prefix("typed-")
            .and_then(|at| at.parse::<usize>().ok())
        {
            picked.update(|picked| {
                if at < picked.len() {
                    picked.remove(at);
                }
            });
            return;
        }
        let listed = untrack(|| at_hand(session));
        let tag = listed
            .into_iter()
            .find(|stand| stand.stand == id)
            .map(|stand| stand.tag);
        picked.update(|picked| {
            if picked.iter().any(|stand| stand.stand == id) {
                picked.retain(|stand| stand.stand != id);
            } else if let Some(tag) = tag {
                picked.push(StandUsed { stand: id, tag });
            }
        });
    });
    let typed_in = Callback::new(move |tag: StandTag| {
        picked.update(|picked| {
            picked.push(StandUsed {
                stand: String::new(),
                tag,
            })
        });
        typing.set(false);
    });
    let judged = {
        let asking = asking.clone();
        move || -> Option<Result<Judged, String>> {
            let stands = picked.get();
            if stands.is_empty() {
                return None;
            }
            let units = session.units();
            session.open.with(|open| {
                let card = &open.as_ref()?.card;
                Some(
                    judge::judge(
                        card,
                        asking.at,
                        &asking.step,
                        &asking.ask,
                        &Answer::Stands { stands },
                    )
                    .map_err(|words| say(&words, &units)),
                )
            })
        }
    };
    let verdict = {
        let asking = asking.clone();
        move || {
            let units = session.units();
            match judged() {
                None => view! {
                    <p class="why">{t("ui.stand.pick-two")}</p>
                    {super::picture::view(&asking)}
                }
                .into_any(),
                Some(Err(words)) => {
                    view! { <p class="refusal" data-testid="cannot-judge">{words}</p> }.into_any()
                }
                Some(Ok(judged)) => judged
                    .worst_first()
                    .into_iter()
                    .map(|judgement| {
                        let shown = bar(judgement, &units);
                        view! {
                            <h3>{rule_title(judgement.rule.0)}</h3>
                            <LimitBar shown=Signal::stored(Some(shown))/>
                        }
                    })
                    .collect_view()
                    .into_any(),
            }
        }
    };
    let heading = question(&asking);
    let done = {
        let asking = asking.clone();
        Callback::new(move |()| {
            asking.submit(
                Item::Only,
                Answer::Stands {
                    stands: picked.get_untracked(),
                },
            );
        })
    };
    let heading = StoredValue::new(heading);
    let shown = move || {
        if typing.get() {
            return view! {
                <div class="body whole">
                    <StandTagEntry said=StandSaid::new() done=t("ui.stand.use-it") on_tag=typed_in/>
                </div>
            }
            .into_any();
        }
        let verdict = verdict.clone();
        view! {
            <div class="body stands-body">
                <h2 class="question-line">{heading.get_value()}</h2>
                <ChoiceList choices chosen on_choose=choose/>
                <div class="verdicts" data-testid="verdict" aria-live="polite">
                    <Scroller>{verdict}</Scroller>
                </div>
            </div>
            <WideDone
                words=t("ui.done")
                waits=Signal::derive(move || !session.can_write() || picked.with(Vec::is_empty))
                on_done=done
            />
        }
        .into_any()
    };
    shown.into_any()
}
