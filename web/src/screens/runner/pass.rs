//! One pass over the nuts: one by one with a big target or a key, or as a whole with exceptions.

use job::card::{Card, PASS_REST_MAX};
use job::event::{Answer, Exception, FactValue, Item};
use job::id::{FactId, OptionId, Place};
use job::judge::torque::{FINAL, Seat, of_shop, order, seat};
use job::procedure::{Ask, AskKind, Offer, Pass, Step};
use job::road;
use leptos::ev;
use leptos::prelude::*;
use rules::shown::Lean;
use rules::torque::moved::Moved;
use rules::torque::plan::Seating;
use rules::unit::Unit;
use rules::verdict::Limit;

use super::{Asking, picture, question};
use crate::judged::source_line;
use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::nut_grid::{NutGrid, NutMark};
use crate::parts::wide_done::WideDone;
use crate::say::{amount, say_remark};
use crate::screens::told::wheel_told;
use crate::words::{fill, t, unit as unit_words};

/// The pass that draws the wheel on to its seat.
const SEAT_PASS: &str = "seat-pass";

pub(super) fn view(asking: Asking, pass: Pass) -> AnyView {
    let session = asking.session;
    let studs = asking
        .with_card(|card| card.studs(asking.at))
        .flatten()
        .unwrap_or(0);
    let heading = question(&asking);
    if studs == 0 {
        let words = t("ui.studs-first");
        return view! {
            <div class="body"><p class="refusal">{words}</p></div>
            <WideDone words=t("ui.to-map") waits=false on_done=Callback::new(move |()| session.go(crate::screen::Screen::Map))/>
        }
        .into_any();
    }
    let step = asking.step.clone();
    let ask = asking.ask.clone();
    let at = asking.at;
    // The mark of a nut as it stands on the trail.
    let offers = pass.marks.clone();
    let marked = move |nut: u16| {
        session.open.with(|open| {
            let card = &open.as_ref()?.card;
            let own = card
                .slot(&step, &ask, at, Item::Nut(nut))
                .and_then(|slot| slot.live().last());
            match own.map(|held| &held.value.answer) {
                Some(Answer::Nut { mark }) => Some(mark.clone()),
                _ => in_whole_pass(card, &step, &ask, at, nut, &offers),
            }
        })
    };
    let good = pass.marks.first().map(|mark| mark.id.clone());
    let good_mark = good.clone();
    let good_words = good
        .as_ref()
        .map(|good| asking.option_words(good.as_str()))
        .unwrap_or_default();
    let marks: Vec<Choice> = pass
        .marks
        .iter()
        .map(|mark| Choice {
            detail: means(&asking, &mark.id),
            ..Choice::new(mark.id.as_str(), asking.option_words(mark.id.as_str()))
        })
        .collect();
    let order = asking
        .with_card(|card| order_of(card, asking.at, studs))
        .unwrap_or_default();
    let next = {
        let (good, marked) = (good.clone(), marked.clone());
        Memo::new(move |_| order.iter().copied().find(|nut| marked(*nut) != good))
    };
    // The whole pass being said: the nuts that are apart from it, with their marks.
    let begun = (1..=studs).any(|nut| untrack(|| marked(nut)).is_some());
    let whole = RwSignal::new((pass.may_be_whole() && !begun).then(Vec::<(u16, OptionId)>::new));
    // Once a pass is kept as a whole, the nuts that it leaves out are said one by one; if one of them
    // begins it again, the next is said as a whole.
    let kept = {
        let (step, ask) = (asking.step.clone(), asking.ask.clone());
        Memo::new(move |_| {
            session.open.with(|open| {
                let slot = open.as_ref()?.card.slot(&step, &ask, at, Item::Only)?;
                slot.live().last().map(|held| held.line.clone())
            })
        })
    };
    {
        let marked = marked.clone();
        Effect::watch(
            move || kept.get(),
            move |_, _, _| {
                let one_by_one = (1..=studs).any(|nut| untrack(|| marked(nut)).is_some());
                whole.set((!one_by_one).then(Vec::new));
            },
            false,
        );
    }
    let grid = Signal::derive(move || {
        if let Some(but) = whole.get() {
            return (1..=studs)
                .map(|nut| {
                    if but.iter().any(|(of, _)| *of == nut) {
                        NutMark::Apart
                    } else {
                        NutMark::Open
                    }
                })
                .collect::<Vec<_>>();
        }
        (1..=studs)
            .map(|nut| match marked(nut) {
                Some(mark) if Some(&mark) == good.as_ref() => NutMark::Done,
                Some(_) => NutMark::Apart,
                None if next.get() == Some(nut) => NutMark::Next,
                None => NutMark::Open,
            })
            .collect::<Vec<_>>()
    });
    let marking = RwSignal::new(None::<u16>);
    let first_mark = pass.marks.first().map(|mark| mark.id.clone());
    let put = {
        let asking = asking.clone();
        Callback::new(move |(nut, mark): (u16, OptionId)| {
            asking.submit(Item::Nut(nut), Answer::Nut { mark })
        })
    };
    let tick_next = move || {
        if whole.with_untracked(Option::is_some) {
            return;
        }
        if let (Some(nut), Some(mark), true) = (
            next.get_untracked(),
            first_mark.clone(),
            session.can_write(),
        ) {
            put.run((nut, mark));
        }
    };
    // A clicker at the belt is a keyboard to the tablet.
    let clicker = {
        let tick_next = tick_next.clone();
        window_event_listener(ev::keydown, move |event| {
            let pressed = matches!(event.key().as_str(), " " | "Enter" | "PageDown");
            let on_a_control = event.target().is_some_and(|target| {
                wasm_bindgen::JsCast::has_type::<web_sys::HtmlButtonElement>(&target)
            });
            if pressed && !event.repeat() && !on_a_control {
                event.prevent_default();
                tick_next();
            }
        })
    };
    on_cleanup(move || clicker.remove());
    let choose = Callback::new(move |mark: String| {
        let Some(nut) = marking.get_untracked() else {
            return;
        };
        marking.set(None);
        let mark = OptionId::from(mark.as_str());
        let is_good = good_mark.as_ref() == Some(&mark);
        let saying_whole = whole.try_update(|whole| {
            let but = whole.as_mut()?;
            but.retain(|(of, _)| *of != nut);
            if !is_good {
                but.push((nut, mark.clone()));
            }
            Some(())
        });
        if saying_whole.flatten().is_none() {
            put.run((nut, mark));
        }
    });
    let say_whole = {
        let asking = asking.clone();
        move || {
            let but = whole.get_untracked().unwrap_or_default();
            let but = but
                .into_iter()
                .map(|(nut, mark)| Exception {
                    item: nut.to_string(),
                    mark,
                })
                .collect();
            asking.submit(Item::Only, Answer::WholePass { but });
        }
    };
    let value = value(&asking);
    let own = own_source(&asking);
    let seated = seated(&asking);
    let rested = rested(&asking);
    let drawn = picture::view(&asking);
    let may_whole = pass.may_be_whole();
    let marks = StoredValue::new(marks);
    let is_marking = Memo::new(move |_| marking.with(Option::is_some));
    view! {
        <div class="body">
            <h2 class="question-line">{heading}</h2>
            {value.map(|value| view! { <p class="pass-value" data-testid="pass-value">{value}</p> })}
            {own.map(|own| view! { <p class="page-line" data-testid="pass-shop">{own}</p> })}
            {seated.map(|(value, source)| view! {
                <p class="pass-value" data-testid="pass-value">{value}<small>{source}</small></p>
            })}
            {rested.then(|| view! { <p class="refusal" data-testid="pass-rested">{t("ui.pass.rested")}</p> })}
            {drawn}
            {move || {
                if is_marking.get() {
                    view! {
                        <ChoiceList choices=Signal::stored(marks.get_value()) chosen=Signal::stored(Vec::new()) on_choose=choose/>
                    }
                    .into_any()
                } else {
                    view! { <NutGrid marks=grid on_nut=Callback::new(move |nut: u8| marking.set(Some(u16::from(nut))))/> }
                        .into_any()
                }
            }}
        </div>
        <div class="done-area">
            {move || may_whole.then(|| {
                let is_whole = whole.with(Option::is_some);
                let (testid, words) = if is_whole {
                    ("one-by-one", t("ui.pass.one-by-one"))
                } else {
                    ("whole-pass", t("ui.whole-pass"))
                };
                let turn = move |_| whole.set((!is_whole).then(Vec::new));
                view! {
                    <button type="button" class="key" data-testid=testid on:click=turn>{words}</button>
                }
            })}
            <WideDone
                words=Signal::derive(move || match (whole.get(), next.get()) {
                    (Some(but), _) if but.is_empty() => t("ui.pass.whole"),
                    (Some(but), _) => fill("ui.pass.whole-but", &[("count", &but.len().to_string())]),
                    (None, Some(nut)) => fill("ui.nut-good", &[("nut", &nut.to_string()), ("mark", &good_words)]),
                    (None, None) => t("ui.done"),
                })
                waits=Signal::derive(move || !session.can_write() || is_marking.get())
                on_done=Callback::new(move |()| {
                    if whole.with_untracked(Option::is_some) {
                        say_whole();
                    } else {
                        tick_next();
                    }
                })
            />
        </div>
    }
    .into_any()
}

/// What a pass that was said as a whole says of one nut. One that begins the pass again says nothing.
fn in_whole_pass(
    card: &Card,
    step: &Step,
    ask: &Ask,
    at: Place,
    nut: u16,
    offers: &[Offer],
) -> Option<OptionId> {
    let whole = card.slot(step, ask, at, Item::Only)?.live().last()?;
    let Answer::WholePass { but } = &whole.value.answer else {
        return None;
    };
    let restarts = |mark: &OptionId| {
        offers
            .iter()
            .any(|offer| offer.id == *mark && offer.restarts)
    };
    if but.iter().any(|one| restarts(&one.mark)) {
        return None;
    }
    let apart = but.iter().find(|one| one.item == nut.to_string());
    apart
        .map(|one| one.mark.clone())
        .or_else(|| offers.first().map(|offer| offer.id.clone()))
}

/// The order in which nuts are tightened: the shop's own, or across the circle where a pattern is
/// printed for so many.
fn order_of(card: &Card, at: Place, studs: u16) -> Vec<u16> {
    match order(card, at) {
        Some(pattern) => pattern.order().iter().copied().map(u16::from).collect(),
        None => (1..=studs).collect(),
    }
}

/// At the road check what a nut that does this means; nothing elsewhere.
fn means(asking: &Asking, mark: &OptionId) -> String {
    let moved = Moved::from_code(mark.as_str()).filter(|_| asking.step.id.as_str() == road::STEP);
    moved.map_or_else(String::new, |moved| {
        say_remark(&moved.remark(), &asking.session.units())
    })
}

/// The torque that this pass is done with, where the card has one.
fn value(asking: &Asking) -> Option<String> {
    let own = asking.step.asks.iter().find_map(|ask| match &ask.kind {
        AskKind::Fact(fact) => Some(fact.clone()),
        _ => None,
    });
    // The road check is made at the value of the fitting.
    let fact = if asking.step.id.as_str() == road::STEP {
        FactId::from(FINAL)
    } else {
        own?
    };
    let at = Place::Axle(asking.at.axle()?);
    let typed = asking
        .with_card(|card| card.fact(at, &fact).and_then(FactValue::typed).cloned())
        .flatten()?;
    let unit = Unit::from_code(&typed.unit).map(unit_words)?;
    Some(format!("{} {unit}", typed.text))
}

/// Where the shop has its own values for this wheel from, for the pass that brings the full value.
fn own_source(asking: &Asking) -> Option<String> {
    let has_value = asking
        .step
        .asks
        .iter()
        .any(|ask| matches!(&ask.kind, AskKind::Fact(fact) if fact.as_str() == FINAL));
    let told = asking.with_card(|card| of_shop(card, asking.at).map(wheel_told))??;
    has_value.then(|| fill("ui.pass.shop", &[("values", &told)]))
}

/// How the wheel is drawn on to its seat, with the source: for the pass that does that.
fn seated(asking: &Asking) -> Option<(String, String)> {
    if asking.step.id.as_str() != SEAT_PASS {
        return None;
    }
    let units = asking.session.units();
    let Seat { by, source, limits } = asking.with_card(|card| seat(card, asking.at))??;
    let words = match (by, limits.as_slice()) {
        (Seating::ByQuarterTurns, _) => t("ui.pass.seat-turns"),
        (Seating::ByValue, [least, most]) => {
            // Of a printed pair the figure in the unit that the wrench is set in.
            let shown = |limit: &Limit, lean| {
                let beside = limit.beside.filter(|_| units.torque == Unit::NewtonMetre);
                amount(&units.show(beside.unwrap_or(limit.figure), lean))
            };
            let (from, to) = (shown(least, Lean::Up), shown(most, Lean::Down));
            fill("ui.pass.seat-value", &[("from", &from), ("to", &to)])
        }
        (Seating::ByValue, _) => return None,
    };
    Some((words, source_line(source)))
}

/// True if the pass was broken off so long ago that it begins again.
fn rested(asking: &Asking) -> bool {
    let one_by_one = matches!(&asking.ask.kind, AskKind::Pass(pass) if pass.one_by_one);
    let last = asking
        .with_card(|card| card.last_nut(asking.at, &asking.step.id, &asking.ask.id))
        .flatten();
    let rest = last.map(|last| crate::device::now().utc.signed_duration_since(last));
    one_by_one && rest.is_some_and(|rest| rest > PASS_REST_MAX)
}
