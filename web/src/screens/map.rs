//! The open card from above: every wheel end with its stage, the worst that stands there, its open
//! lines and who has it, and what comes next.

use std::collections::BTreeMap;

use job::act;
use job::bring::wanted;
use job::card::{Card, StepState};
use job::cards::{Visit, last_visit};
use job::event::{Answer, FactValue, Role};
use job::hand_back::hand_back;
use job::id::{FactId, OptionId, Place, Side, StepId};
use job::procedure::{AskKind, Scope};
use job::second_look::{self, page::rounds};
use job::summary::Summary;
use job::words::Words;
use job::worst::worst_by_end;
use leptos::prelude::*;
use rules::verdict::Verdict;
use wasm_bindgen_futures::spawn_local;

use crate::judged::tone;
use crate::parts::flash::Flash;
use crate::parts::go_list::{GoList, GoRow};
use crate::parts::wheel_pick::{EndKey, WheelPick};
use crate::parts::wide_done::WideDone;
use crate::parts::wipe::WipeKey;
use crate::pictures::vehicle_top::{Body, EndDrawn, Heading, VehicleTop};
use crate::say::{place, say};
use crate::screen::Screen;
use crate::screens::band::PracticeBand;
use crate::screens::card_key::visit_words;
use crate::screens::extra_told::open_lines;
use crate::screens::kinds::usually_single;
use crate::screens::runner::flash_of;
use crate::screens::runner::here::sentence;
use crate::screens::runner::list::{TAKE_BACK, take_back_row};
use crate::screens::runner::take_back;
use crate::session::Session;
use crate::words::{fill, t};

/// The row that leads to the second looks.
const LOOKS: &str = "looks";

/// The step after which the jack stands under an axle, the one after which the axle stands on its
/// stands, and the one that ends that.
const JACK: &str = "jack";
const RAISE: &str = "raise";
const LOWER: &str = "lower";
/// The step that takes the chocks away, and the answer that they are away.
const CHOCKS_OUT: &str = "chocks-out";
const OUT: &str = "out";

/// The row that leads to what stands in the way of the hand back.
const WAY: &str = "way";
/// The row that leads to what is done, open and loose at the wheel end that was picked, and the one
/// to the rounds of the whole vehicle.
const HAND_OVER: &str = "hand-over";
const SIDES: &str = "sides";

/// The row that leads to the extra lines.
const LINES: &str = "lines";

/// The row that leads to the bring list.
const BRING: &str = "bring";

/// The row that leads to the visit before this one, and the one that takes the card out of the daily
/// list or puts it back.
const VISIT: &str = "visit";
const PUT_AWAY: &str = "put-away";

/// The open card.
#[component]
pub(crate) fn MapScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let picked = RwSignal::new(None::<Place>);
    // Judged anew when the card changes, not when a wheel end is picked.
    let worst = Memo::new(move |_| {
        session.open.with(|open| {
            let worst = open.as_ref().map(|open| worst_by_end(&open.card));
            worst.unwrap_or_default()
        })
    });
    let ends = Signal::derive(move || worst.with(|worst| end_keys(session, picked.get(), worst)));
    let vehicle = Signal::derive(move || {
        let vehicle = vehicle_picture(session, picked.get());
        worst.with(|worst| marked(session, vehicle, worst))
    });
    let on_end = Callback::new(move |(axle, side)| {
        let end = Place::End(axle, side);
        picked.update(|picked| {
            *picked = if *picked == Some(end) {
                None
            } else {
                Some(end)
            }
        });
    });
    let title = move || {
        session.open.with(|open| {
            let unit = open.as_ref().and_then(|open| {
                open.card
                    .fact(Place::Vehicle, &FactId::from("unit"))
                    .and_then(FactValue::text)
                    .map(str::to_owned)
            });
            fill("ui.map.title", &[("unit", &unit.unwrap_or_default())])
        })
    };
    let trouble = move || {
        session.open.with(|open| {
            let card = &open.as_ref()?.card;
            let hold = job::hold::of_trail(card)?;
            Some(say(&hold.words(card), &session.units()))
        })
    };
    let refused = RwSignal::new(None::<String>);
    // A newer procedure with a `!` that this card's does not have is offered, never taken by itself.
    let newer = move || {
        let newest = session.procedures().newest().clone();
        session.open.with(|open| {
            let own = open.as_ref()?.card.procedure.as_deref()?;
            let steps = own.protecting_steps_new_in(&newest);
            let names: Vec<String> = steps
                .iter()
                .map(|step| t(&format!("step.{}", step.id)))
                .collect();
            (!names.is_empty()).then(|| fill("ui.procedure.newer", &[("steps", &names.join(", "))]))
        })
    };
    let move_on = move || {
        let newest = session.procedures().newest().clone();
        let moved = session.act(
            |card, me, _, _| Ok(vec![act::move_procedure(card, me, &newest)?]),
            |_| {},
        );
        let units = session
            .settings
            .with_untracked(|settings| settings.units.units());
        refused.set(moved.err().map(|words| say(&words, &units)));
    };
    let next = Memo::new(move |_| {
        session.open.with(|open| {
            let card = &open.as_ref()?.card;
            card.next_to_do().map(|(at, step)| (at, step.id.clone()))
        })
    });
    let next_words = Signal::derive(move || match next.get() {
        Some((at, step)) => fill(
            "ui.map.next",
            &[("step", &t(&format!("step.{step}"))), ("place", &place(at))],
        ),
        None => t("ui.map.all-done"),
    });
    let go_next = Callback::new(move |()| {
        if let Some((at, step)) = next.get_untracked() {
            session.go(Screen::Step { at, step });
        }
    });
    let steps = Signal::derive(move || step_rows(session, picked.get()));
    let open_step = Callback::new(move |id: String| {
        if id == LOOKS {
            return session.go(Screen::Looks);
        }
        if id == SIDES {
            return session.go(Screen::Sides);
        }
        if id == HAND_OVER {
            if let Some(at) = picked.get_untracked() {
                session.go(Screen::HandOver { at });
            }
            return;
        }
        if id == LINES {
            return session.go(Screen::Lines);
        }
        if id == WAY {
            return session.go(Screen::InTheWay);
        }
        if id == TAKE_BACK {
            return take_back(session);
        }
        if id == BRING {
            return session.go(Screen::Bring);
        }
        if id == VISIT {
            return open_visit(session);
        }
        if id == PUT_AWAY {
            let put = put_away(session);
            return refused.set(
                put.err()
                    .map(|words| untrack(|| say(&words, &session.units()))),
            );
        }
        if let Some((at, step)) = id.split_once('/')
            && let Ok(at) = at.parse()
        {
            session.go(Screen::Step {
                at,
                step: StepId::from(step),
            });
        }
    });
    let progress = move || {
        let (done, of) = session.open.with(|open| {
            open.as_ref()
                .map(|open| open.card.progress())
                .unwrap_or_default()
        });
        fill(
            "ui.map.progress",
            &[("done", &done.to_string()), ("of", &of.to_string())],
        )
    };
    let key = move |testid: &'static str, words: &'static str, to: Screen| {
        view! {
            <button type="button" class="key nav-key" data-testid=testid on:click=move |_| session.go(to.clone())>
                <span>{t(words)}</span>
            </button>
        }
    };
    view! {
        <div class="runner map-screen" data-testid="map">
            <nav class="nav" aria-label=t("ui.nav.name")>
                {key("to-start", "ui.map.cards", Screen::Start)}
                {key("to-people", "ui.map.people", Screen::People)}
                {key("to-trail", "ui.map.trail", Screen::Trail)}
                {key("to-setup", "ui.map.setup", Screen::Setup)}
                {key("to-files", "ui.map.files", Screen::Files)}
                <WipeKey/>
            </nav>
            <header class="head">
                <PracticeBand/>
                <h1>{title}</h1>
                <p class="why" data-testid="progress">{progress}</p>
                {move || picked.get().map(|end| view! {
                    <p class="why" data-testid="physical">{format!("{}: {}", place(end), sentence(session, end))}</p>
                })}
                {move || refused.get().map(|words| view! { <p class="refusal" role="alert">{words}</p> })}
                {move || trouble().map(|words| view! { <p class="refusal" role="alert" data-testid="trouble">{words}</p> })}
            </header>
            <div class="body map-body">
                {move || newer().map(|words| view! {
                    <section class="not-yet" data-testid="newer-procedure">
                        <p>{words}</p>
                        <button type="button" class="key" data-testid="move-procedure" on:click=move |_| move_on()>
                            {t("ui.procedure.take")}
                        </button>
                    </section>
                })}
                <WheelPick vehicle ends on_end/>
                <GoList rows=steps on_go=open_step/>
            </div>
            <WideDone words=next_words waits=Signal::derive(move || next.with(Option::is_none)) on_done=go_next/>
            <Flash saving=Signal::derive(move || flash_of(&session.saving.get()))/>
        </div>
    }
}

/// "2 left": a wheel end as a key says it.
pub(crate) fn end_words(axle: u8, side: Side) -> String {
    let side = match side {
        Side::Left => t("ui.side.left"),
        Side::Right => t("ui.side.right"),
    };
    fill(
        "ui.end.short",
        &[("axle", &axle.to_string()), ("side", &side)],
    )
}

fn end_keys(
    session: Session,
    picked: Option<Place>,
    worst: &BTreeMap<Place, Verdict>,
) -> Vec<EndKey> {
    session.open.with(|open| {
        let Some(open) = open else { return Vec::new() };
        let card = &open.card;
        let in_hand = card.axles_in_hand();
        let ends = card
            .layout()
            .map(|layout| layout.ends())
            .unwrap_or_default();
        ends.into_iter()
            .filter_map(|end| match end {
                Place::End(axle, side) => Some(EndKey {
                    axle,
                    side,
                    words: end_words(axle, side),
                    detail: card
                        .stage_at(end)
                        .map(|stage| t(&format!("stage.{}", stage.id)))
                        .unwrap_or_default(),
                    who: card
                        .has(end)
                        .map(|who| first_name(card.name(who)))
                        .unwrap_or_default(),
                    lines: match card.open_lines_at(end) {
                        0 => String::new(),
                        count => fill("ui.map.open-lines", &[("count", &count.to_string())]),
                    },
                    chosen: picked == Some(end),
                    tone: worst.get(&end).copied().map(tone),
                    in_hand: in_hand.contains(&axle),
                }),
                Place::Vehicle | Place::Axle(_) => None,
            })
            .collect()
    })
}

/// The first of somebody's names: all that a key has room for.
fn first_name(name: &str) -> String {
    name.split_whitespace()
        .next()
        .unwrap_or_default()
        .to_owned()
}

/// The vehicle with what stands at each wheel end in hand: the worst verdict and the open lines.
fn marked(
    session: Session,
    mut vehicle: VehicleTop,
    worst: &BTreeMap<Place, Verdict>,
) -> VehicleTop {
    session.open.with(|open| {
        let Some(open) = open else { return };
        for drawn in &mut vehicle.ends {
            let end = Place::End(drawn.axle, drawn.side);
            drawn.tone = worst.get(&end).copied().map(tone);
            drawn.lines = open.card.open_lines_at(end);
        }
    });
    vehicle
}

/// The steps to choose from: those of the wheel end that was picked, else all of the stage that
/// work is at.
fn step_rows(session: Session, picked: Option<Place>) -> Vec<GoRow> {
    session.open.with(|open| {
        let Some(open) = open else { return Vec::new() };
        let card = &open.card;
        let stage = card
            .next_open()
            .and_then(|(_, step)| {
                card.procedure
                    .as_deref()
                    .and_then(|procedure| procedure.stage_of(&step.id))
            })
            .map(|stage| stage.id.clone());
        let waiting = second_look::waiting(card).len();
        let looks = (waiting > 0 && picked.is_none()).then(|| GoRow {
            done: false,
            id: LOOKS.to_owned(),
            words: t("ui.looks.title"),
            detail: fill("ui.looks.wait", &[("count", &waiting.to_string())]),
        });
        let steps = card
            .path()
            .into_iter()
            .filter(|(at, step)| match picked {
                Some(end) => *at == end || Some(*at) == end.axle().map(Place::Axle),
                None => {
                    let of = card
                        .procedure
                        .as_deref()
                        .and_then(|procedure| procedure.stage_of(&step.id));
                    stage.is_none() || of.map(|of| &of.id) == stage.as_ref()
                }
            })
            .map(|(at, step)| GoRow {
                done: card.is_done(step, at),
                id: format!("{at}/{}", step.id),
                words: format!("{} – {}", t(&format!("step.{}", step.id)), place(at)),
                detail: t(match card.state(step, at) {
                    StepState::NotOnPath => "ui.state.not-on-path",
                    StepState::Open => "ui.state.open",
                    StepState::Begun => "ui.state.begun",
                    StepState::Unclear => "ui.state.unclear",
                    StepState::Skipped => "ui.state.skipped",
                    StepState::Done => "ui.state.done",
                }),
            });
        let in_hand = |end: &Place| {
            let axle = end.axle();
            axle.is_some_and(|axle| card.axles_in_hand().contains(&axle))
        };
        let over = picked.filter(in_hand).map(|end| GoRow {
            done: false,
            id: HAND_OVER.to_owned(),
            words: t("ui.over.open-page"),
            detail: card.has(end).map_or_else(
                || t("ui.over.nobodys"),
                |who| fill("ui.over.whose", &[("name", card.name(who))]),
            ),
        });
        let read = |end: Place| {
            let rounds = rounds(card, end).into_iter();
            let mut asks = rounds.flat_map(|round| round.read);
            asks.any(|(_, given)| !given.is_empty())
        };
        let is_read = card
            .places(Scope::End, Place::Vehicle)
            .into_iter()
            .any(read);
        let sides = (is_read && picked.is_none()).then(|| GoRow {
            done: false,
            id: SIDES.to_owned(),
            words: t("ui.sides.title"),
            detail: String::new(),
        });
        looks
            .into_iter()
            .chain(over)
            .chain([bring_row(session, card), lines_row(card), way_row(card)])
            .chain(sides)
            .chain(steps)
            .chain([take_back_row()])
            .chain(visit_row(session, card))
            .chain(put_away_row(session, card))
            .collect()
    })
}

/// How much of the bring list is at the vehicle; leads to the list.
fn bring_row(session: Session, card: &Card) -> GoRow {
    let all = session
        .shop
        .with(|sheet| session.with_bring_list(|list| wanted(card, sheet, list)));
    let here = all.iter().filter(|one| one.how.is_some()).count();
    GoRow {
        done: !all.is_empty() && here == all.len(),
        id: BRING.to_owned(),
        words: t("ui.bring.title"),
        detail: fill(
            "ui.bring.row",
            &[("here", &here.to_string()), ("of", &all.len().to_string())],
        ),
    }
}

/// The card of the visit before this one, if the tablet has it.
fn visit_before(session: Session, card: &Card) -> Option<Summary> {
    let text = |fact: &str| {
        let value = card.fact(Place::Vehicle, &FactId::from(fact));
        value.and_then(FactValue::text).unwrap_or_default()
    };
    let visit = Visit {
        card: Some(&card.id),
        unit: text("unit"),
        plate: text("plate"),
        before: card.opened.as_ref().map(|opened| opened.at.utc),
    };
    session
        .cards
        .with(|cards| last_visit(cards, &visit).cloned())
}

/// What the visit before this one was; leads to its card.
fn visit_row(session: Session, card: &Card) -> Option<GoRow> {
    let before = visit_before(session, card)?;
    let language = session.settings.with(|settings| settings.language.clone());
    Some(GoRow {
        done: false,
        id: VISIT.to_owned(),
        words: t("ui.map.visit"),
        detail: visit_words(&before, &language),
    })
}

fn open_visit(session: Session) {
    let before = session.open.with_untracked(|open| {
        let open = open.as_ref()?;
        untrack(|| visit_before(session, &open.card))
    });
    if let Some(before) = before {
        spawn_local(async move { session.open_card(before.card, Some(Screen::Map)).await });
    }
}

/// Takes the card out of the daily list, or puts it back; not there while the vehicle stands in the
/// bay, but for a foreman.
fn put_away_row(session: Session, card: &Card) -> Option<GoRow> {
    let away = card.is_put_away();
    let is_foreman = session.me.with(|me| {
        me.as_ref()
            .is_some_and(|me| card.role(me) == Some(Role::Foreman))
    });
    (away || is_foreman || !card.stands_in_the_bay()).then(|| GoRow {
        done: false,
        id: PUT_AWAY.to_owned(),
        words: if away {
            t("ui.map.take-out")
        } else {
            t("ui.map.put-away")
        },
        detail: t("ui.map.nothing-deleted"),
    })
}

fn put_away(session: Session) -> Result<(), Words> {
    session.act(
        |card, me, _, _| Ok(vec![act::put_away(card, me, !card.is_put_away())?]),
        |_| {},
    )
}

/// How many extra lines still want something; leads to all of them.
fn lines_row(card: &Card) -> GoRow {
    let of = card.extra_lines().len();
    let open = open_lines(card);
    GoRow {
        id: LINES.to_owned(),
        words: t("ui.extra.lines"),
        detail: if of == 0 {
            t("ui.extra.none")
        } else {
            fill(
                "ui.extra.count",
                &[("open", &open.to_string()), ("of", &of.to_string())],
            )
        },
        done: of > 0 && open == 0,
    }
}

/// How many things stand between this vehicle and the road; leads to all of them.
fn way_row(card: &Card) -> GoRow {
    let count = hand_back(card).len();
    GoRow {
        id: WAY.to_owned(),
        words: t("ui.way.title"),
        detail: if count == 0 {
            t("ui.way.none")
        } else {
            fill("ui.way.count", &[("count", &count.to_string())])
        },
        done: false,
    }
}

/// The vehicle of the open card as it stands in the bay.
pub(crate) fn vehicle_picture(session: Session, here: Option<Place>) -> VehicleTop {
    let chocked = session.open.with(|open| {
        open.as_ref()
            .map(|open| chocked(&open.card))
            .unwrap_or_default()
    });
    vehicle_picture_with(session, here, &chocked)
}

/// The same with chocks at these wheels.
pub(crate) fn vehicle_picture_with(
    session: Session,
    here: Option<Place>,
    chocks: &[Place],
) -> VehicleTop {
    session.open.with(|open| {
        let Some(open) = open else {
            return VehicleTop::default();
        };
        let card = &open.card;
        let in_hand = card.axles_in_hand();
        let pair = |end: &Place| match end {
            Place::End(axle, side) => Some((*axle, *side)),
            Place::Vehicle | Place::Axle(_) => None,
        };
        let here = match here {
            Some(Place::Axle(axle)) => Place::ends(axle).iter().filter_map(pair).collect(),
            Some(end) => pair(&end).into_iter().collect(),
            None => Vec::new(),
        };
        let ends = in_hand
            .iter()
            .flat_map(|&axle| Place::ends(axle))
            .filter_map(|end| {
                let (axle, side) = pair(&end)?;
                let letter = card
                    .stage_at(end)
                    .map(|stage| t(&format!("stage.{}.letter", stage.id)));
                Some(EndDrawn {
                    axle,
                    side,
                    tone: None,
                    letter: letter.unwrap_or_default(),
                    lines: 0,
                })
            })
            .collect();
        VehicleTop {
            groups: card
                .layout()
                .map(|layout| layout.groups().to_vec())
                .unwrap_or_default(),
            singles: singles(card),
            body: body_of(
                card.choice(Place::Vehicle, "vehicle")
                    .map(|kind| kind.as_str()),
            ),
            heading: Heading::Up,
            here,
            ends,
            chocks: chocks.iter().filter_map(pair).collect(),
            jacks: in_hand
                .iter()
                .copied()
                .filter(|&axle| is_done_at(card, JACK, axle) && !is_done_at(card, RAISE, axle))
                .collect(),
            stands: in_hand
                .iter()
                .copied()
                .filter(|&axle| on_stands(card, axle))
                .collect(),
            in_hand,
        }
    })
}

/// The axles with one wheel at each end: as somebody said, and as usual where nobody did.
fn singles(card: &Card) -> Vec<u8> {
    let Some(layout) = card.layout() else {
        return Vec::new();
    };
    let vehicle = card.choice(Place::Vehicle, "vehicle");
    let usual = usually_single(vehicle.map_or("", OptionId::as_str), &layout);
    let is_single = |axle: &u8| match card.choice(Place::Axle(*axle), "wheel-set") {
        Some(set) => set.as_str() != "dual",
        None => usual.contains(axle),
    };
    (1..=layout.axles()).filter(is_single).collect()
}

/// What stands at the front of a kind of vehicle.
pub(crate) fn body_of(kind: Option<&str>) -> Body {
    match kind {
        Some("semitrailer") => Body::Semitrailer,
        Some("full-trailer") => Body::Trailer,
        Some("truck" | "bus") => Body::Truck,
        _ => Body::Tractor,
    }
}

fn on_stands(card: &Card, axle: u8) -> bool {
    let on_a_lift = card
        .choice(Place::Axle(axle), "lift-by")
        .is_some_and(|by| by.as_str() == "shop-lift");
    !on_a_lift && is_done_at(card, RAISE, axle) && !is_done_at(card, LOWER, axle)
}

fn is_done_at(card: &Card, step: &str, axle: u8) -> bool {
    card.procedure
        .as_deref()
        .and_then(|procedure| procedure.step(&StepId::from(step)))
        .is_some_and(|step| card.state(step, Place::Axle(axle)) == StepState::Done)
}

/// True once somebody said that the chocks are away; of a trailer left in its chocks nobody does.
fn chocks_are_out(card: &Card) -> bool {
    let step = card
        .procedure
        .as_deref()
        .and_then(|procedure| procedure.step(&StepId::from(CHOCKS_OUT)));
    step.is_some_and(|step| {
        step.asks
            .iter()
            .filter(|ask| matches!(ask.kind, AskKind::Press(_)))
            .filter_map(|ask| card.slot(step, ask, Place::Vehicle, job::event::Item::Only))
            .flat_map(|slot| slot.live())
            .any(|held| {
                matches!(&held.value.answer, Answer::Press { option } if option.as_str() == OUT)
            })
    })
}

/// The wheels that somebody said are chocked, until the chocks are out.
fn chocked(card: &Card) -> Vec<Place> {
    let Some(procedure) = card.procedure.as_deref() else {
        return Vec::new();
    };
    if chocks_are_out(card) {
        return Vec::new();
    }
    procedure
        .steps()
        .flat_map(|step| step.asks.iter().map(move |ask| (step, ask)))
        .filter(|(_, ask)| ask.kind == AskKind::Wheels)
        .filter_map(|(step, ask)| card.slot(step, ask, Place::Vehicle, job::event::Item::Only))
        .flat_map(|slot| slot.live())
        .filter_map(|held| match &held.value.answer {
            Answer::Wheels { at } => Some(at.clone()),
            _ => None,
        })
        .flatten()
        .collect()
}
