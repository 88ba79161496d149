//! Wheel nuts: the final value, the order, the seat value, and what the log shows.
//!
//! A log is told as remarks and never judged: it proves what was logged, not what was done.

use rules::quantity::{Duration, Torque};
use rules::source::{self, Source};
use rules::torque::log::{self, Felt, LogFault};
use rules::torque::pattern::{self, Pattern};
use rules::torque::plan::{self, Kind, Pass, Seating, Set};
use rules::torque::spec::{
    Film, Mounting, Nuts, Range, ShopRange, State, Thread, judge_value, judge_without_shop,
};
use rules::torque::wrench::{CALIBRATION, WrenchJudged, judge_wrench};
use rules::verdict::{Judgement, Limit, Verdict};
use rules::word::Argument;

use super::{Judged, Standing};
use crate::card::Card;
use crate::event::{
    Answer, Event, FactValue, Item, JudgedThen, TypedText, WheelSpec, WrenchUsed, day,
};
use crate::id::{OptionId, Place};
use crate::words::{Arg, Words};

/// The fact that says to which value the nuts are tightened.
pub const FINAL: &str = "final-torque";

const SEAT_PASS: &str = "seat-pass";
const FINAL_PASS: &str = "final-pass";
const CHECK_PASS: &str = "check-pass";
const DUAL_BALL_SEAT: &str = "ball-seat-dual";

/// Judges the final value by the nuts of this axle; `None` before the mounting is known.
pub(super) fn judge_final(card: &Card, at: Place, value: Torque) -> Option<Judgement> {
    let mounting = mounting(card, at)?;
    let film = |oil: bool| if oil { Film::Oiled } else { Film::Dry };
    let state = |threads: bool, washer: bool| State {
        threads: film(threads),
        washer: film(washer),
    };
    let state = match of_axle(card, at, "fastener-oil") {
        Some("dry") => state(false, false),
        Some("washer-only") => state(false, true),
        Some("threads-only") => state(true, false),
        Some("threads-and-washer") => state(true, true),
        _ => State {
            threads: Film::NotSaid,
            washer: Film::NotSaid,
        },
    };
    let oil = of_axle(card, at, "fastener-oil");
    threads(card, at, mounting)
        .iter()
        .flat_map(|thread| {
            let nuts = Nuts {
                mounting,
                thread: *thread,
                state,
            };
            let specs = shop_specs(card, wheel(card, at, mounting, *thread));
            specs.into_iter().map(move |spec| match spec {
                // A range is for its own state and is never carried over to another.
                Some(spec) if Some(spec.oil.as_str()) == oil => {
                    judge_value(value, &nuts, shop_range(spec))
                }
                Some(_) => judge_without_shop(value, &nuts),
                None => judge_value(value, &nuts, None),
            })
        })
        .max_by_key(|judgement| judgement.verdict.severity())
}

/// The kind of wheel, as the shop sheet names it.
fn wheel(card: &Card, at: Place, mounting: Mounting, thread: Thread) -> &'static str {
    match mounting {
        Mounting::HubPiloted if thread == Thread::M20 => "hub-m20",
        Mounting::HubPiloted => "hub-m22",
        Mounting::BallSeat if is_dual_ball_seat(card, at) => "ball-dual",
        Mounting::BallSeat => "ball-single",
        Mounting::Spoke => "spoke",
    }
}

/// How the shop tightens a wheel, in every version of its values that the card goes by.
fn shop_specs<'a>(card: &'a Card, wheel: &str) -> Vec<Option<&'a WheelSpec>> {
    let wheel = wheel.into();
    let versions = card.shop_versions();
    let mut specs: Vec<_> = versions
        .map(|taken| taken.values.wheels.get(&wheel))
        .collect();
    if specs.is_empty() {
        specs.push(None);
    }
    specs
}

/// How the shop tightens the wheel of this wheel end; `None` where it has no values of its own for
/// it, or nobody read which of its wheels it is.
pub fn of_shop(card: &Card, at: Place) -> Option<&WheelSpec> {
    let mounting = mounting(card, at)?;
    let mut wheels: Vec<&str> = threads(card, at, mounting)
        .iter()
        .map(|thread| wheel(card, at, mounting, *thread))
        .collect();
    wheels.dedup();
    match wheels.as_slice() {
        [one] => shop_specs(card, one).pop().flatten(),
        _ => None,
    }
}

/// Two torques as the ends of a range, if they can be.
pub(crate) fn range_of(low: &TypedText, high: &TypedText) -> Option<ShopRange> {
    let torque = |text: &TypedText| text.typed().ok()?.quantity().torque();
    ShopRange::new(torque(low)?, torque(high)?)
}

/// The range of a shop's own values.
pub(crate) fn shop_range(spec: &WheelSpec) -> Option<ShopRange> {
    range_of(&spec.low, &spec.high)
}

/// The order of a shop's own values.
pub(crate) fn shop_order(spec: &WheelSpec) -> Option<Pattern> {
    let studs = u8::try_from(spec.order.len()).ok()?;
    pattern::of_shop(studs, &spec.order).ok()
}

/// The value that the nuts of this axle are tightened to, once somebody gave it.
fn final_value(card: &Card, at: Place) -> Option<Torque> {
    let given = card.fact(Place::Axle(at.axle()?), &FINAL.into());
    let typed = given.and_then(FactValue::typed)?.typed().ok()?;
    typed.quantity().torque()
}

/// Holds a wrench against the final value and the day it is used on.
pub(super) fn wrench(card: &Card, at: Place, used: &WrenchUsed) -> Result<Judged, Words> {
    let value = final_value(card, at).ok_or_else(|| Words::plain("refuse.wrench-before-value"))?;
    let tag = used.tag.rule().map_err(|fault| Words::from(&fault))?;
    let judged = judge_wrench(value, &tag, day(used.on));
    Ok(Judged::Wrench(Box::new(judged)))
}

/// Why this wrench is not taken, if it is not: the value is outside what is marked on it.
pub(super) fn refuses_wrench(judged: &WrenchJudged) -> Option<Words> {
    match judged.range.verdict {
        Verdict::Within | Verdict::AtTheLimit | Verdict::Sound => None,
        Verdict::Beyond | Verdict::Replace => {
            let value = judged.range.reading?;
            let value = ("value", Arg::Rule(Argument::Quantity(value)));
            Some(Words::with("refuse.wrench-range", [value]))
        }
        Verdict::NoReading => Some(Words::plain("refuse.wrench-no-range")),
    }
}

/// A wrench past its calibration, now or when it was taken up, stands with a foreman's reason.
pub(super) fn wrench_standing(judged: &WrenchJudged, then: &[JudgedThen]) -> Standing {
    let over = |verdict: Verdict| match verdict {
        Verdict::Within | Verdict::AtTheLimit | Verdict::Sound => false,
        Verdict::Beyond | Verdict::NoReading | Verdict::Replace => true,
    };
    let was_over = then
        .iter()
        .filter(|then| then.rule == CALIBRATION.id.0)
        .any(|then| Verdict::from_code(&then.verdict).is_none_or(over));
    if refuses_wrench(judged).is_some() {
        Standing::Refused
    } else if was_over || over(judged.calibration.verdict) {
        Standing::NeedsForeman
    } else {
        Standing::Clears
    }
}

/// The threads that the value has to be right for: a thread that nobody read may be either.
pub(super) fn threads(card: &Card, at: Place, mounting: Mounting) -> &'static [Thread] {
    match (mounting, of_axle(card, at, "stud-thread")) {
        (Mounting::HubPiloted, Some("m22")) => &[Thread::M22],
        (Mounting::HubPiloted, Some("m20")) => &[Thread::M20],
        (Mounting::HubPiloted, _) => &[Thread::M22, Thread::M20],
        (Mounting::BallSeat, _) if is_dual_ball_seat(card, at) => {
            &[Thread::ThreeQuarter16, Thread::OneAndEighth16]
        }
        (Mounting::BallSeat, _) => &[Thread::OneAndEighth16],
        (Mounting::Spoke, _) => &[Thread::ThreeQuarter10],
    }
}

fn of_axle<'a>(card: &'a Card, at: Place, fact: &str) -> Option<&'a str> {
    card.choice(Place::Axle(at.axle()?), fact)
        .map(OptionId::as_str)
}

pub(super) fn mounting(card: &Card, at: Place) -> Option<Mounting> {
    match of_axle(card, at, "mounting")? {
        "hub-piloted" => Some(Mounting::HubPiloted),
        "ball-seat-single" | DUAL_BALL_SEAT => Some(Mounting::BallSeat),
        "spoke" => Some(Mounting::Spoke),
        _ => None,
    }
}

fn is_dual_ball_seat(card: &Card, at: Place) -> bool {
    of_axle(card, at, "mounting") == Some(DUAL_BALL_SEAT)
}

/// How the wheel is drawn on to its seat.
#[derive(Clone, Debug, PartialEq)]
pub struct Seat {
    pub by: Seating,
    pub source: &'static Source,
    /// From and to, where it goes by value.
    pub limits: Vec<Limit>,
}

/// How the nuts of this wheel end are seated; `None` before the mounting is known.
pub fn seat(card: &Card, at: Place) -> Option<Seat> {
    let own = of_shop(card, at).and_then(|spec| spec.seat.as_ref());
    if let Some([low, high]) = own
        && let Some(range) = range_of(low, high)
    {
        return Some(Seat {
            by: Seating::ByValue,
            source: &source::SHOP_SHEET,
            limits: range.limits().to_vec(),
        });
    }
    let (by, source) = plan::seating(mounting(card, at)?);
    let figures = plan::RULE.figures.iter();
    let limits = figures
        .filter(|figure| by == Seating::ByValue && figure.name.starts_with("seat "))
        .map(|figure| figure.limit)
        .collect();
    Some(Seat { by, source, limits })
}

/// In which order the nuts of this wheel end are gone over; `None` if no order is printed for so many.
pub fn order(card: &Card, at: Place) -> Option<Pattern> {
    let studs = u8::try_from(card.studs(at)?).ok()?;
    let own = of_shop(card, at).and_then(shop_order);
    own.filter(|own| own.order().len() == usize::from(studs))
        .or_else(|| pattern::built_in(studs))
}

/// What is odd about the nuts logged so far at this wheel end, pass by pass. A pass that nobody
/// began is named only if a later one was.
pub fn log_faults(card: &Card, at: Place) -> Vec<LogFault> {
    let Some(studs) = card.studs(at).and_then(|studs| u8::try_from(studs).ok()) else {
        return Vec::new();
    };
    let known = order(card, at);
    let in_turn: Vec<u8> = (1..=studs).collect();
    let Some(order) = known
        .clone()
        .or_else(|| pattern::of_shop(studs, &in_turn).ok())
    else {
        return Vec::new();
    };
    let lines = lines(card, at, &order);
    let mut plan = passes(card, at);
    let last = plan
        .iter()
        .rposition(|pass| lines.iter().any(|line| line.pass == *pass));
    plan.truncate(last.map_or(0, |last| last + 1));
    let unjudged = Range {
        limits: Vec::new(),
        others: Vec::new(),
        remarks: Vec::new(),
    };
    let log: Vec<log::Entry> = lines.into_iter().map(log::Entry::Nut).collect();
    let mut faults = log::faults(&plan, &order, &unjudged, &log);
    if known.is_none() {
        // Nobody prints an order for so many nuts, so none was broken.
        faults.retain(|fault| !matches!(fault, LogFault::OutOfOrder { .. }));
    }
    faults
}

/// The passes that the procedure logs. Of the inner nuts of a ball-seat dual only the first is.
fn passes(card: &Card, at: Place) -> Vec<Pass> {
    let mut passes = Vec::new();
    if is_dual_ball_seat(card, at) {
        passes.push(Pass {
            set: Set::Inner,
            kind: Kind::Seat,
        });
    }
    let set = outer(card, at);
    passes.extend([Kind::Seat, Kind::Final, Kind::Check].map(|kind| Pass { set, kind }));
    passes
}

fn outer(card: &Card, at: Place) -> Set {
    if is_dual_ball_seat(card, at) {
        Set::Outer
    } else {
        Set::All
    }
}

/// The nuts logged at this wheel end, in the order of the trail.
fn lines(card: &Card, at: Place, order: &Pattern) -> Vec<log::Line> {
    let mut lines: Vec<log::Line> = Vec::new();
    let mut began = None;
    for entry in card.entries.iter().filter(|entry| entry.struck.is_none()) {
        let Some(Event::Answered {
            at: place,
            step,
            ask,
            item,
            answer,
            ..
        }) = entry.event()
        else {
            continue;
        };
        let kind = match step.as_str() {
            SEAT_PASS => Kind::Seat,
            FINAL_PASS => Kind::Final,
            CHECK_PASS => Kind::Check,
            _ => continue,
        };
        if *place != at {
            continue;
        }
        let inner = kind == Kind::Seat && ask.as_str() == "inner";
        let set = if inner { Set::Inner } else { outer(card, at) };
        let pass = Pass { set, kind };
        let began = *began.get_or_insert(entry.at.utc);
        let minutes = entry.at.utc.signed_duration_since(began).num_minutes();
        let at = Duration::from_minutes(minutes.clamp(-A_LIFETIME, A_LIFETIME));
        let logged: Vec<(u8, Option<Felt>)> = match (item, answer) {
            (Item::Nut(nut), Answer::Nut { mark }) => {
                let nut = u8::try_from(*nut).unwrap_or(u8::MAX);
                vec![(nut, felt(mark))]
            }
            (Item::Only, Answer::WholePass { but }) => order
                .order()
                .iter()
                .map(|nut| {
                    let named = but.iter().find(|one| one.item == nut.to_string());
                    (*nut, named.map_or(Some(Felt::Right), |one| felt(&one.mark)))
                })
                .collect(),
            _ => continue,
        };
        let round = round(&lines, pass, &logged);
        lines.extend(logged.into_iter().filter_map(|(nut, felt)| {
            Some(log::Line {
                pass,
                round,
                nut,
                at,
                value: None,
                felt: felt?,
            })
        }));
    }
    lines
}

/// A hundred years in minutes: a clock that was set wrong still gives a time that can be counted.
const A_LIFETIME: i64 = 52_560_000;

/// What a mark says; `None` for a nut that did not come to its value.
fn felt(mark: &OptionId) -> Option<Felt> {
    match mark.as_str() {
        "seated" | "turned-and-clicked" | "held" => Some(Felt::Right),
        "clicked-at-once" => Some(Felt::ClickedAtOnce),
        "turned" => Some(Felt::Turned),
        _ => None,
    }
}

/// The round that the next nuts belong to. A nut that has to be done again stays in its round; in
/// a check pass all are gone over once more.
fn round(lines: &[log::Line], pass: Pass, next: &[(u8, Option<Felt>)]) -> u8 {
    let of_pass = || lines.iter().filter(|line| line.pass == pass);
    let Some(round) = of_pass().map(|line| line.round).max() else {
        return 1;
    };
    let again = next.iter().any(|(nut, _)| {
        let mut before = of_pass().filter(|line| line.round == round && line.nut == *nut);
        before
            .next_back()
            .is_some_and(|line| pass.kind == Kind::Check || line.felt != Felt::ClickedAtOnce)
    });
    round.saturating_add(u8::from(again))
}
