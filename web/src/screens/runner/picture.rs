//! The picture of a step, drawn from the card where it can be.

use job::card::Card;
use job::event::{Answer, Item, StandCondition};
use job::id::{FactId, Place};
use job::judge::{Units, stroke, torque};
use job::procedure::{Ask, AskKind, Step};
use leptos::prelude::*;
use rules::quantity::{Angle, Length, Quantity};
use rules::shown::Lean;
use rules::slack::back_off::{BackOff, back_off};
use rules::slack::mechanism::Mechanism;
use rules::slack::{angle, applied, travel};
use rules::unit::Unit;
use rules::word::Argument;

use super::Asking;
use crate::pictures::caging::CagingPicture;
use crate::pictures::chambers::{ChamberAsk, ChamberPicture};
use crate::pictures::chocks::ChocksPicture;
use crate::pictures::drum::{Depth, DrumPicture, Measured};
use crate::pictures::jack::JackPicture;
use crate::pictures::pushrod_stroke::{OnRule, PushrodStrokePicture, RuleMarks, StrokeDrawn};
use crate::pictures::raise::RaisePicture;
use crate::pictures::shoes::{ShoePart, ShoesPicture};
use crate::pictures::slack::{AngleDrawn, SlackDrawn, SlackPicture, TurnDrawn};
use crate::pictures::stands::{StandsDrawn, StandsPicture};
use crate::pictures::vehicle_top::{Heading, VehicleTopPicture};
use crate::pictures::wheel_face::{WheelFace, WheelFacePicture};
use crate::say::amount;
use crate::screen::Screen;
use crate::screens::map::vehicle_picture;
use crate::screens::told::{fact_name, told_tag};
use crate::settings::UnitChoice;
use crate::words::{fill, t, unit as unit_words};

/// Steps by name, where a picture depends on more than the name of one.
const ADJUSTER: &str = "adjuster";
const CONTACT: &str = "contact";
const BACK_OFF: &str = "back-off";

/// The picture for one ask, or nothing where none helps.
pub(super) fn view(asking: &Asking) -> AnyView {
    let session = asking.session;
    let name = t(&format!("step.{}.do", asking.step.id));
    let at = asking.at;
    let step = asking.step.id.as_str();
    let picture = match asking.step.picture.as_deref() {
        // The angle and the arm are read at the same place as the adjuster is turned.
        None if step == ADJUSTER => "slack",
        None => return ().into_any(),
        Some(picture) => picture,
    };
    let drawn = match picture {
        // What is handed over here is a sheet: it is looked at on its own screen.
        "record" => {
            return view! {
                <div class="key-row">
                    <button
                        type="button"
                        class="key wide-key"
                        data-testid="to-record"
                        on:click=move |_| session.go(Screen::Record)
                    >
                        {t("ui.record.open")}
                    </button>
                </div>
            }
            .into_any();
        }
        "vehicle" => {
            let vehicle =
                Signal::derive(move || vehicle_picture(session, Some(at)).heading(Heading::Left));
            view! { <VehicleTopPicture vehicle name/> }.into_any()
        }
        "chocks" => view! { <ChocksPicture name/> }.into_any(),
        "stands" => {
            let drawn = asking
                .with_card(|card| stands_of(card, &asking.step, at))
                .flatten()
                .unwrap_or_default();
            view! { <StandsPicture stands=Signal::stored(drawn) name/> }.into_any()
        }
        "raise" => view! { <RaisePicture name/> }.into_any(),
        "jack" => view! { <JackPicture name/> }.into_any(),
        "caging" => view! { <CagingPicture caged=step == "caging" name/> }.into_any(),
        "drum" => view! { <DrumPicture now=measured(&asking.ask) name/> }.into_any(),
        "shoes" => {
            let part = if step == "springs" {
                ShoePart::Springs
            } else {
                ShoePart::Lining
            };
            view! { <ShoesPicture part=Signal::stored(part) name/> }.into_any()
        }
        "slack" => {
            let units = session.units();
            let Some(slack) = asking.with_card(|card| slack(card, &asking.step, at, &units)) else {
                return ().into_any();
            };
            let name = slack_name(&name, &slack);
            view! { <SlackPicture slack=Signal::stored(slack) name/> }.into_any()
        }
        "stroke" => {
            let choice = session.settings.with_untracked(|settings| settings.units);
            let Some(stroke) = asking.with_card(|card| stroke(card, &asking.step, at, choice))
            else {
                return ().into_any();
            };
            let name = stroke_name(&name, &stroke);
            view! { <PushrodStrokePicture stroke=Signal::stored(stroke) name/> }.into_any()
        }
        "wheel-face" => {
            let (step, ask) = (asking.step.clone(), asking.ask.clone());
            let wheel = Memo::new(move |_| {
                session.open.with(|open| {
                    let open = open.as_ref()?;
                    wheel_face(&open.card, &step, &ask, at)
                })
            });
            if wheel.with_untracked(Option::is_none) {
                return ().into_any();
            }
            let wheel = Signal::derive(move || wheel.get().unwrap_or_default());
            let name = Signal::derive(move || wheel.with(wheel_name));
            view! { <WheelFacePicture wheel name/> }.into_any()
        }
        _ => return ().into_any(),
    };
    figure(drawn)
}

/// The picture for a fact that is read off a part, or nothing.
pub(super) fn of_fact(asking: &Asking, fact: &FactId) -> AnyView {
    let chamber = match fact.as_str() {
        "chamber-family" => ChamberAsk::Family,
        "chamber-type" | "chamber-letter" => ChamberAsk::Mark,
        "stroke-class" => ChamberAsk::Class,
        "arm-length" => return view(asking),
        _ => return ().into_any(),
    };
    let name = match chamber {
        ChamberAsk::Family | ChamberAsk::Mark => fact_name(fact),
        ChamberAsk::Class => t("ui.chamber.signs"),
    };
    view! {
        <figure class="step-picture to-choose" data-testid="picture">
            <ChamberPicture ask=chamber name/>
        </figure>
    }
    .into_any()
}

/// The picture beside a reading that has been taken: where it lies.
pub(super) fn of_reading(asking: &Asking) -> AnyView {
    let drawn = matches!(asking.ask.kind, AskKind::Reading(_))
        && matches!(asking.at, Place::End(..))
        && (asking.step.picture.as_deref() == Some("stroke")
            || measured(&asking.ask).is_some()
            || asking.step.id.as_str() == ADJUSTER
                && matches!(asking.ask.id.as_str(), "angle" | "arm"));
    if drawn { view(asking) } else { ().into_any() }
}

/// Which diameter of the drum an ask reads: "front-2".
fn measured(ask: &Ask) -> Option<Measured> {
    let (depth, place) = ask.id.as_str().split_once('-')?;
    let depth = match depth {
        "front" => Depth::Front,
        "rear" => Depth::Rear,
        _ => return None,
    };
    Some((depth, place.parse().ok()?))
}

fn figure(drawn: AnyView) -> AnyView {
    view! { <figure class="step-picture" data-testid="picture">{drawn}</figure> }.into_any()
}

/// The stands that were put under this axle, if they were picked already.
fn stands_of(card: &Card, step: &Step, at: Place) -> Option<StandsDrawn> {
    let ask = step.asks.iter().find(|ask| ask.kind == AskKind::Stands)?;
    let slot = card.slot(step, ask, at, Item::Only)?;
    let Answer::Stands { stands } = &slot.live().last()?.value.answer else {
        return None;
    };
    let tag = |at: usize| {
        stands
            .get(at)
            .map(|stand| told_tag(&stand.tag))
            .unwrap_or_default()
    };
    let pinned = |at: usize| {
        stands
            .get(at)
            .is_some_and(|stand| stand.tag.condition != StandCondition::PinMissing)
    };
    Some(StandsDrawn {
        tags: [tag(0), tag(1)],
        pinned: [pinned(0), pinned(1)],
    })
}

/// The wheel with its nuts; in a pass with the order they are taken in and those that are done.
fn wheel_face(card: &Card, step: &Step, ask: &Ask, at: Place) -> Option<WheelFace> {
    let studs = u8::try_from(card.studs(at)?).ok()?;
    let AskKind::Pass(pass) = &ask.kind else {
        return Some(WheelFace {
            studs,
            ..WheelFace::default()
        });
    };
    let order = torque::order(card, at).map(|pattern| pattern.order().to_vec());
    let good = pass.marks.first().map(|mark| &mark.id);
    let said = |item: Item| {
        let slot = card.slot(step, ask, at, item)?;
        slot.live().last().map(|held| &held.value.answer)
    };
    let done = |nut: u8| {
        if let Some(Answer::Nut { mark }) = said(Item::Nut(nut.into())) {
            return Some(mark) == good;
        }
        match said(Item::Only) {
            Some(Answer::WholePass { but }) => but.iter().all(|of| of.item != nut.to_string()),
            _ => false,
        }
    };
    Some(WheelFace {
        studs,
        order: order.unwrap_or_default(),
        done: (1..=studs).filter(|nut| done(*nut)).collect(),
    })
}

fn wheel_name(wheel: &WheelFace) -> String {
    let name = fill("ui.wheel-face", &[("studs", &wheel.studs.to_string())]);
    match wheel.next() {
        Some(next) => {
            let done = wheel.done.len().to_string();
            let next = [("done", done.as_str()), ("next", &next.to_string())];
            format!("{name} {}", fill("ui.wheel-face.next", &next))
        }
        None => name,
    }
}

/// The answer to a reading of this step at a place, as typed and as a quantity.
fn read(card: &Card, step: &Step, ask: &str, at: Place) -> Option<(String, Quantity)> {
    let ask = step.asks.iter().find(|one| one.id.as_str() == ask)?;
    let slot = card.slot(step, ask, at, Item::Only)?;
    let Answer::Reading { typed } = &slot.live().last()?.value.answer else {
        return None;
    };
    let typed = typed.typed().ok()?;
    let words = format!("{} {}", typed.text(), unit_words(typed.unit()));
    Some((words, typed.quantity()))
}

fn length(card: &Card, step: &Step, ask: &str, at: Place) -> Option<(String, Length)> {
    let (words, quantity) = read(card, step, ask, at)?;
    Some((words, quantity.length()?))
}

/// At-rest and applied reading of this round at a wheel end, and where its limits lie from at-rest.
fn stroke(card: &Card, step: &Step, at: Place, choice: UnitChoice) -> StrokeDrawn {
    let units = choice.units();
    let marks = match choice {
        UnitChoice::InchPound => RuleMarks::Inches,
        UnitChoice::Metric => RuleMarks::Millimetres,
    };
    let on_rule = |length: Length, words: String| OnRule {
        at: in_units(length, units.length),
        words,
    };
    let released = length(card, step, "at-rest", at);
    let applied = length(card, step, "applied", at);
    let limits = match (&released, stroke::chamber(card, at)) {
        (Some((_, released)), Some(chamber)) => applied::limits_of(&chamber)
            .iter()
            .filter_map(|limit| {
                let most = limit.deciding();
                let place = released.checked_add(most.length()?)?;
                let words = amount(&units.show(most, Lean::Down));
                Some(on_rule(
                    place,
                    fill("ui.stroke.limit", &[("limit", &words)]),
                ))
            })
            .collect(),
        _ => Vec::new(),
    };
    let said = |key: &str, read: Option<(String, Length)>| {
        read.map(|(words, length)| on_rule(length, fill(key, &[("reading", &words)])))
    };
    StrokeDrawn {
        marks,
        released: said("ui.stroke.at-rest", released),
        applied: said("ui.stroke.applied", applied),
        limits,
    }
}

fn stroke_name(name: &str, stroke: &StrokeDrawn) -> String {
    let said = stroke
        .released
        .iter()
        .chain(&stroke.applied)
        .chain(&stroke.limits);
    sentence(name, said.map(|place| place.words.as_str()))
}

fn slack_name(name: &str, slack: &SlackDrawn) -> String {
    let angles = slack.released.iter().chain(&slack.applied);
    let turn = slack.turn.as_ref().map(|turn| turn.words.as_str());
    let said = angles.map(|angle| angle.words.as_str());
    sentence(name, said.chain(slack.arm.as_deref()).chain(turn))
}

/// What the drawing is about, then what stands on it.
fn sentence<'a>(name: &str, said: impl Iterator<Item = &'a str>) -> String {
    let said: Vec<&str> = said.collect();
    if said.is_empty() {
        name.to_owned()
    } else {
        format!("{name} {}", said.join("; "))
    }
}

/// A length as a plain number for drawing; never for comparing.
fn in_units(length: Length, unit: Unit) -> f64 {
    length.base() as f64 / unit.in_base() as f64
}

/// The arm's length in words and as a length, by its fact or, for another one, by its reading.
fn arm(card: &Card, at: Place) -> Option<(String, Length)> {
    let option = card.choice(at, "arm-length")?;
    let halves = match option.as_str() {
        "a5" => 10,
        "a5-5" => 11,
        "a6" => 12,
        "a6-5" => 13,
        _ => {
            let step = card.procedure.as_deref()?.step(&ADJUSTER.into())?;
            return length(card, step, "arm", at);
        }
    };
    let words = t(&format!("fact.arm-length.{option}"));
    Some((words, Length::from_inch_64ths(halves * 32)))
}

/// What is known of the adjuster of a wheel end: the angle that was read, where the stroke as found
/// brings it, the arm, and at contact and back-off how far the hex is turned.
fn slack(card: &Card, step: &Step, at: Place, units: &Units) -> SlackDrawn {
    let of = |id: &str| card.procedure.as_deref()?.step(&id.into());
    let mechanism = stroke::mechanism(card, at);
    let arm = arm(card, at);
    let released = of(ADJUSTER).and_then(|step| read(card, step, "angle", at));
    let degrees = |angle: Angle| in_degrees(angle);
    let applied = released.as_ref().and_then(|(_, released)| {
        let round = of("as-found")?;
        let (_, rest) = length(card, round, "at-rest", at)?;
        let (_, full) = length(card, round, "applied", at)?;
        let stroke = travel::stroke(rest, full).ok()?;
        let (_, arm) = arm.as_ref()?;
        angle::at_stroke(released.angle()?, *arm, stroke).ok()
    });
    SlackDrawn {
        released: released.and_then(|(words, quantity)| {
            Some(AngleDrawn {
                degrees: degrees(quantity.angle()?),
                words: fill("ui.slack.released", &[("angle", &words)]),
            })
        }),
        applied: applied.map(|angle| {
            let words = amount(&units.show(angle.into(), Lean::Down));
            AngleDrawn {
                degrees: degrees(angle),
                words: fill("ui.slack.applied", &[("angle", &words)]),
            }
        }),
        arm: arm.map(|(words, _)| fill("ui.slack.arm", &[("length", &words)])),
        // Both are one movement of the hand, and often one screen.
        turn: matches!(step.id.as_str(), CONTACT | BACK_OFF).then(|| turn(back_off(mechanism).0)),
        automatic: mechanism != Mechanism::Manual,
    }
}

/// The turn of the hex, with its eighths put as the rule puts them.
fn turn(of: BackOff) -> TurnDrawn {
    let remark = of.remark();
    let value = |name: &str| {
        let found = remark.arguments.iter().find(|(of, _)| *of == name);
        match found {
            Some((_, Argument::Text(text))) => text.clone(),
            _ => String::new(),
        }
    };
    match of {
        BackOff::Eighths(eighths) => TurnDrawn {
            eighths: (eighths, eighths),
            words: fill("ui.slack.back", &[("turns", &value("turns"))]),
        },
        BackOff::Between(low, high) => TurnDrawn {
            eighths: (low, high),
            words: fill(
                "ui.slack.back-between",
                &[("low", &value("low")), ("high", &value("high"))],
            ),
        },
        BackOff::ToTheWindow => TurnDrawn {
            eighths: (1, 1),
            words: t("ui.slack.back-eighth"),
        },
    }
}

/// An angle as a plain number for drawing; never for comparing.
fn in_degrees(angle: Angle) -> f64 {
    angle.base() as f64 / Unit::Degree.in_base() as f64
}
