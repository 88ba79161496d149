//! Makes a question from a seed. The same seed asks the same, on every device.

use rules::rules as list;
use rules::support::stand::{self, StandsSay};
use rules::support::tag::{Basis, Condition, StandTag};
use rules::torque::moved::Moved;
use rules::typed::Typed;
use rules::unit::Unit;
use rules::verdict::Limit;

use job::id::Side;

use super::{Drill, Question, trees};
use crate::axle::{Axle, EdgePrint};
use crate::decision::{Decision, Item, Shown};
use crate::fault::Fault;
use crate::instrument::Tool;
use crate::scene::{self, WAITS};
use crate::seed::{Draw, Seed, Use};

/// How many axles are looked through for one that has what a drill asks for.
const AXLES_MOST: u32 = 2_000;

/// How many things lie side by side to choose from.
const OFFERED: usize = 4;

/// The question of a drill and a seed; `None` where no axle near the seed has what it asks for.
pub fn ask(drill: Drill, seed: Seed) -> Option<Question> {
    let mut draw = seed.draw(Use::Drill);
    match drill {
        Drill::Read if draw.one_in(5) => Some(gauge(&mut draw)),
        Drill::Read => {
            let measured = |one: &Decision| one.reading().is_some();
            let (_, decision) = one_of(seed, &mut draw, measured)?;
            Some(Question::Read(Box::new(decision)))
        }
        Drill::Limit => {
            // As often past its limit as not: else "within" would be a good guess.
            let refused = draw.one_in(2);
            let fits = |one: &Decision| {
                one.reading().is_some()
                    && one.ruling.refuses() == refused
                    && wrong_limits(one).len() > 1
            };
            let (axle, decision) = one_of(seed, &mut draw, fits)?;
            let decides = *decision.ruling.judgement()?.limits.first()?;
            let mut offered = draw.mixed(wrong_limits(&decision));
            offered.truncate(OFFERED - 1);
            offered.push(decides);
            Some(Question::Limit {
                axle: Box::new(axle),
                decision: Box::new(decision),
                offered: draw.mixed(offered),
            })
        }
        Drill::Stands => stands(seed, &mut draw),
        Drill::Pattern => Some(Question::Pattern {
            studs: draw.pick(&[5, 6, 8, 10, 10, 10, 12], 10),
        }),
        Drill::First => first(&mut draw),
        Drill::Fault => fault(seed, &mut draw),
        Drill::Cause => cause(seed, &mut draw),
        Drill::EdgeCode => {
            let left = EdgePrint::drawn(&mut draw);
            let right = match draw.between(0, 3) {
                0 => left.unlike(&mut draw),
                1 => EdgePrint::drawn(&mut draw),
                _ => left,
            };
            Some(Question::EdgeCode {
                left: left.text(),
                right: right.text(),
            })
        }
        Drill::Units => units(&mut draw),
    }
}

/// What is read for a condition, a set-up or a road check, not for a part.
fn gauge(draw: &mut Draw) -> Question {
    match draw.between(0, 2) {
        0 => Question::Gauge(Tool::PressureGauge.at(draw.between(11, 26))),
        1 => Question::Gauge(Tool::AngleGauge.at(draw.between(75, 125))),
        _ => Question::Click(draw.pick(Moved::ALL, Moved::Held)),
    }
}

/// The axles from the seed's on, each with its number one higher.
fn axles(seed: Seed) -> impl Iterator<Item = Axle> {
    (0..AXLES_MOST).map(move |more| {
        let number = seed.number().wrapping_add(more);
        Axle::of(Seed::new(seed.level(), number))
    })
}

fn one_of(
    seed: Seed,
    draw: &mut Draw,
    fits: impl Fn(&Decision) -> bool,
) -> Option<(Axle, Decision)> {
    axles(seed).find_map(|axle| {
        let mut decisions = axle.decisions();
        decisions.retain(|one| fits(one));
        let at = draw.below(decisions.len());
        let decision = decisions.into_iter().nth(at)?;
        Some((axle, decision))
    })
}

/// Limits of the same rule that don't count for this reading, each figure once.
fn wrong_limits(decision: &Decision) -> Vec<Limit> {
    let Some(judged) = decision.ruling.judgement() else {
        return Vec::new();
    };
    let own: Vec<_> = judged.limits.iter().map(Limit::deciding).collect();
    let Some(deciding) = judged.limits.first() else {
        return Vec::new();
    };
    let mut wrong: Vec<Limit> = Vec::new();
    let figures = list::by_id(judged.rule.0).map_or(&[][..], |rule| rule.figures);
    for figure in figures {
        let limit = figure.limit;
        let known = own.contains(&limit.deciding())
            || wrong.iter().any(|one| one.deciding() == limit.deciding());
        if !known && limit.dimension() == deciding.dimension() {
            wrong.push(limit);
        }
    }
    wrong
}

fn stands(seed: Seed, draw: &mut Draw) -> Option<Question> {
    let lift = Axle::of(seed).support.lift()?;
    let mut pairs: Vec<[StandTag; 2]> = (0..8).map(|_| pair(draw)).collect();
    let enough = |pair: &[StandTag; 2]| {
        stand::judge_stands(&lift, pair).is_ok_and(|judged| judged.say() == StandsSay::Enough)
    };
    // The largest there is, for a lift that none of the drawn ones can take.
    let good = pairs.iter().find(|pair| enough(pair)).cloned();
    let good = good.unwrap_or_else(|| {
        let largest = tag("22", Unit::ShortTon, Basis::PerStand, Condition::Sound);
        [largest.clone(), largest]
    });
    pairs.retain(|pair| !enough(pair));
    pairs.truncate(OFFERED - 1);
    // A lift that all of them can take still leaves the stand without its pin.
    let [left, right] = good.clone();
    if pairs.is_empty() {
        let condition = Condition::PinMissing;
        pairs.push([left, StandTag { condition, ..right }]);
    }
    pairs.push(good);
    Some(Question::Stands {
        pairs: draw.mixed(pairs),
        lift: Box::new(lift),
    })
}

fn pair(draw: &mut Draw) -> [StandTag; 2] {
    let mut one = |condition| {
        let tons = draw.pick(&["5", "7", "10", "12", "15", "20", "22"], "10");
        let unit = draw.pick(
            &[Unit::ShortTon, Unit::Tonne, Unit::TonUnmarked],
            Unit::Tonne,
        );
        tag(
            tons,
            unit,
            draw.pick(Basis::ALL, Basis::Unmarked),
            condition,
        )
    };
    let (left, other) = (one(Condition::Sound), one(Condition::Sound));
    let right = match draw.between(0, 5) {
        0 => other,
        1 => StandTag {
            condition: draw.pick(Condition::ALL, Condition::PinMissing),
            ..left.clone()
        },
        _ => left.clone(),
    };
    [left, right]
}

fn tag(tons: &str, unit: Unit, basis: Basis, condition: Condition) -> StandTag {
    StandTag {
        rating: Typed::parse(tons, unit).ok(),
        basis,
        condition,
    }
}

/// One step that has to come first, among steps that come later anyway.
fn first(draw: &mut Draw) -> Option<Question> {
    let asked: Vec<&'static str> = WAITS
        .iter()
        .map(|waits| waits.then)
        .filter(|then| scene::later(then).count() >= OFFERED - 1)
        .collect();
    let then = draw.pick(&asked, "raise");
    let firsts: Vec<&'static str> = scene::firsts(then).collect();
    let mut offered = draw.mixed(scene::later(then).collect());
    offered.truncate(OFFERED - 1);
    offered.push(draw.pick(&firsts, "chocks"));
    Some(Question::First {
        then,
        offered: draw.mixed(offered),
    })
}

/// One part that may not stay, among sound ones of the same end.
fn fault(seed: Seed, draw: &mut Draw) -> Option<Question> {
    let (looks, finding) = axles(seed).find_map(|axle| {
        let decisions = axle.decisions();
        let seen = |one: &&Decision| {
            one.side.is_some() && matches!(one.shown, Shown::Signs(_) | Shown::Numbered(_))
        };
        let wrong = decisions
            .iter()
            .filter(seen)
            .find(|one| one.ruling.refuses() && !one.faults.is_empty())?;
        let finding = *wrong.faults.first()?;
        let mut sound: Vec<Decision> = decisions
            .iter()
            .filter(seen)
            .filter(|one| one.side == wrong.side && !one.ruling.refuses())
            .cloned()
            .collect();
        sound = draw.mixed(sound);
        sound.truncate(OFFERED - 1);
        sound.push(wrong.clone());
        Some((sound, finding))
    })?;
    // What else could be wrong with the same parts; what else is wrong with this one isn't offered.
    let wrong: Vec<Fault> = looks.iter().flat_map(|look| look.faults.clone()).collect();
    let others = looks.iter().flat_map(|look| by_eye(look.item)).copied();
    let mut offered = draw.mixed(others.filter(|other| !wrong.contains(other)).collect());
    offered.truncate(OFFERED - 1);
    offered.push(finding);
    Some(Question::Fault {
        looks: draw.mixed(looks),
        offered: draw.mixed(offered),
    })
}

/// The findings that an eye or an ear can make of a part.
const fn by_eye(item: Item) -> &'static [Fault] {
    match item {
        Item::Nuts => &[Fault::Nuts],
        Item::LiningLook => &[Fault::LiningOil],
        Item::Surface => &[Fault::DrumCracked, Fault::DrumHeat, Fault::DrumShape],
        Item::CamHead => &[Fault::CamHead],
        Item::Grease => &[Fault::CamSeal, Fault::CamSeized],
        Item::Spider => &[Fault::Spider],
        Item::SpiderBolts => &[Fault::SpiderBolts],
        Item::Rollers => &[Fault::Rollers],
        Item::Springs => &[Fault::ReturnSpring],
        Item::Body => &[Fault::ControlArm, Fault::AdjusterBoot],
        Item::ClevisPin => &[Fault::ClevisPin],
        Item::Clevis => &[Fault::ClevisHole],
        Item::Chamber => &[
            Fault::ChamberLeak,
            Fault::ChamberBody,
            Fault::RodNotSquare,
            Fault::ChamberBracket,
        ],
        Item::SpringBrake => &[Fault::SpringLeak, Fault::SpringBody, Fault::BoltWontSeat],
        Item::Seal => &[Fault::WheelSeal],
        Item::HubOil => &[Fault::HubOil],
        Item::Studs => &[Fault::Studs],
        Item::Wheel => &[Fault::Wheel],
        Item::Hose => &[Fault::Hose],
        Item::Shield => &[Fault::DustShield],
        Item::Stands
        | Item::Alike
        | Item::Edges
        | Item::Applied
        | Item::Free
        | Item::AdjusterTorque
        | Item::Lining
        | Item::Diameter
        | Item::DrumShape
        | Item::Radial
        | Item::CamEnd
        | Item::Spline
        | Item::Groove
        | Item::ClevisGap
        | Item::ArmBushing
        | Item::HubPlay
        | Item::Gap
        | Item::Span
        | Item::Recess => &[],
    }
}

/// What can be behind a long stroke, and can be looked at.
const LOOKS: &[Item] = &[
    Item::Diameter,
    Item::Radial,
    Item::CamHead,
    Item::Chamber,
    Item::Clevis,
    Item::Rollers,
    Item::Springs,
    Item::Groove,
];

fn cause(seed: Seed, draw: &mut Draw) -> Option<Question> {
    axles(seed).find_map(|axle| {
        [Side::Left, Side::Right].into_iter().find_map(|side| {
            let planted = axle.planted().contains(&(Some(side), Fault::StrokeLong));
            let of = |item: Item| axle.of_end(side, item).filter(|_| planted);
            let (applied, free) = (of(Item::Applied)?, of(Item::Free)?);
            let looks: Vec<Decision> = LOOKS.iter().filter_map(|item| of(*item)).collect();
            let asks = !trees(&applied, &free).is_empty()
                && looks.iter().any(|look| look.ruling.refuses());
            asks.then(|| Question::Cause {
                applied: Box::new(applied),
                free: Box::new(free),
                looks: draw.mixed(looks),
            })
        })
    })
}

fn units(draw: &mut Draw) -> Option<Question> {
    let (text, from, to, places) = match draw.between(0, 5) {
        0 | 1 => {
            let sixteenths = draw.between(4, 48);
            let length = rules::quantity::Length::from_inch_64ths(sixteenths * 4);
            let text = rules::shown::inch_fraction(length)?;
            (text, Unit::Inch, Unit::Millimetre, 1)
        }
        2 => {
            let thousandths = draw.between(1, 125);
            let text = format!("0.{thousandths:03}");
            (text, Unit::Inch, Unit::Millimetre, 2)
        }
        3 => (
            draw.between(3, 70).to_string(),
            Unit::Millimetre,
            Unit::Inch,
            2,
        ),
        4 => (
            draw.between(50, 130).to_string(),
            Unit::Psi,
            Unit::Kilopascal,
            0,
        ),
        _ => {
            let torque = draw.between(40, 50) * 10;
            (
                torque.to_string(),
                Unit::PoundForceFoot,
                Unit::NewtonMetre,
                0,
            )
        }
    };
    Some(Question::Units {
        printed: Typed::parse(&text, from).ok()?,
        unit: to,
        places,
    })
}
