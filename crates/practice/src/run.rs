//! A whole run: a made-up axle on a practice card that is walked with the real runner.
//!
//! What the card starts with is here; what there is to see at an ask is in [`sight`], what a good
//! apprentice answers in [`good`], and what was said, read back from the card, in [`heard`]. Nothing
//! is judged here: what is right is a [`Decision`](crate::decision::Decision).

use rules::lining::thickness::Shoe;
use rules::quantity::Mass;
use rules::shown::{self, Lean};
use rules::slack::chamber::{Chamber, StrokeClass};
use rules::support::load::Ties;
use rules::support::tag::{Basis, Condition, StandTag};
use rules::unit::Unit;

use job::act::{self, Draft, Setup};
use job::card::Card;
use job::event::{self, FactValue, StandUsed, TypedText};
use job::id::{CardId, FactId, PersonId, Place, Side};
use job::procedure::Scope;

use crate::axle::{Axle, AxleIs};
use crate::decision::{Decision, Item};
use crate::fault::Fault;
use crate::seed::Seed;

pub mod good;
pub mod heard;
pub mod sight;

/// One made-up axle as a practice card has it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Run {
    /// What is hidden.
    pub axle: Axle,
    decisions: Vec<Decision>,
}

/// Where one thing is judged in the procedure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Spot {
    pub(crate) step: &'static str,
    pub(crate) asks: &'static [&'static str],
}

/// The places at which a drum is measured, in the order of their asks.
pub(crate) const DIAMETERS: &[&str] = &[
    "front-1", "front-2", "front-3", "front-4", "rear-1", "rear-2", "rear-3", "rear-4",
];

impl Run {
    /// The run of a seed.
    pub fn of(seed: Seed) -> Self {
        let axle = Axle::of(seed);
        let decisions = axle.decisions();
        Self { axle, decisions }
    }

    /// Everything that there is to judge, in the order of the job.
    pub fn decisions(&self) -> &[Decision] {
        &self.decisions
    }

    /// The number of its axle on the card.
    pub const fn axle_number(&self) -> u8 {
        match self.axle.is {
            AxleIs::Steer | AxleIs::Trailer => 1,
            AxleIs::Drive => 2,
        }
    }

    /// One of its ends on the card.
    pub const fn place(&self, side: Side) -> Place {
        Place::End(self.axle_number(), side)
    }

    /// Whether a thing is judged, or comes into view, at this ask.
    pub fn is_judged_at(&self, item: Item, step: &str, ask: &str) -> bool {
        let spot = item.spot();
        spot.step == step && spot.asks.contains(&ask)
    }

    pub(crate) fn decision(&self, side: Option<Side>, item: Item) -> Option<&Decision> {
        self.decisions
            .iter()
            .find(|one| one.side == side && one.item == item)
    }

    /// What its card is opened with.
    pub fn setup(&self) -> Setup {
        let (vehicle, layout) = match self.axle.is {
            AxleIs::Steer | AxleIs::Drive => ("tractor", "1-2"),
            AxleIs::Trailer => ("semitrailer", "2"),
        };
        Setup {
            unit: self.axle.seed.code(),
            vehicle: Some(vehicle.into()),
            layout: Some(layout.to_owned()),
            loaded: Some(self.loaded().into()),
            in_hand: vec![self.axle_number()],
        }
    }

    const fn loaded(&self) -> &'static str {
        use rules::support::three::Loading;
        match self.axle.support.unit.loading {
            Loading::Unloaded => "unloaded",
            // Nobody knows: the gross weight counts, as for a loaded one.
            Loading::Loaded | Loading::Unknown => "loaded",
        }
    }

    /// The facts of the vehicle that are no judgement: its card starts with them.
    pub fn facts_given(&self, card: &Card, who: &PersonId) -> Vec<Draft> {
        let axle = self.axle_number();
        let Some(procedure) = card.procedure.as_deref() else {
            return Vec::new();
        };
        GIVEN
            .iter()
            .filter_map(|fact| {
                let fact = FactId::from(*fact);
                let def = procedure.fact(&fact)?;
                let places = match def.scope {
                    Scope::Vehicle => vec![Place::Vehicle],
                    Scope::Group => vec![Place::Axle(card.group_first(axle))],
                    Scope::Axle => vec![Place::Axle(axle)],
                    Scope::End => Place::ends(axle).to_vec(),
                };
                Some((fact, places))
            })
            .flat_map(|(fact, places)| {
                places.into_iter().filter_map(move |at| {
                    let value = self.fact(fact.as_str(), at)?;
                    act::set_fact(card, who, at, &fact, value).ok()
                })
            })
            .collect()
    }

    /// What a fact truly is; `None` for one that this axle says nothing of.
    pub(crate) fn fact(&self, fact: &str, at: Place) -> Option<FactValue> {
        let end = self.axle.end(match at {
            Place::End(_, side) => side,
            Place::Vehicle | Place::Axle(_) => Side::Left,
        });
        let steer = self.axle.is == AxleIs::Steer;
        let choice = match fact {
            "coupled" if self.axle.is == AxleIs::Trailer => "coupled",
            "coupled" => "no-trailer",
            "suspension" => match self.axle.support.group.ties {
                Ties::Apart => "own-springs",
                Ties::Linked => "linked",
                // Unknown ties are taken for those that bring all axles along.
                Ties::AirOut | Ties::Unknown => "air",
            },
            "rim" => "one-piece",
            "wheel-set" if steer => "single",
            "wheel-set" => "dual",
            "lift-by" => "jack-and-stands",
            "spring-brake" if steer => "none",
            "spring-brake" => "removable-bolt",
            "mounting" => "hub-piloted",
            "stud-thread" => "m22",
            "adjuster-style" => end.mechanism.code(),
            "drum-mount" => "outboard",
            "drum-new" => "kept",
            "drum-size" if steer => "d15",
            "drum-size" => "d16-5",
            "drum-mark" => "readable",
            "jurisdiction" => "us",
            "shoe-lining" => match self.axle.shoe {
                Shoe::Strip => "strip",
                Shoe::TwoPads | Shoe::Unknown => "two-pads",
            },
            "lining-fixing" => "riveted",
            "brake-kind" => self.axle.brake.code(),
            "roller-end" => "recess",
            "bearing-way" => "rule-book",
            "wheel-metal" => "steel",
            "open-look-by" => "not-asked",
            "fastener-oil" => "dry",
            "chamber-family" => "clamp",
            "chamber-type" => return chamber_type(&end.chamber),
            "stroke-class" if is_long(&end.chamber) => "long",
            "stroke-class" => "standard",
            "arm-length" => match end.arm_quarters {
                20 => "a5",
                22 => "a5-5",
                24 => "a6",
                _ => "a6-5",
            },
            "spring-housing" if end.flaws.contains(&Fault::SpringBody) => "damaged",
            "spring-housing" => "sound",
            "edge-normal" => return Some(letter(end.edge.normal)),
            "edge-hot" => return Some(letter(end.edge.hot)),
            "studs" => return Some(FactValue::Count(end.studs)),
            "final-torque" => return Some(typed("475", Unit::PoundForceFoot)),
            "group-weight" => {
                let axles = &self.axle.support.group.axles;
                let all: Option<Vec<Mass>> = axles.iter().map(|axle| axle.weight).collect();
                return Some(pounds(all.and_then(|all| {
                    all.into_iter().try_fold(Mass::ZERO, Mass::checked_add)
                })));
            }
            "axle-weight" => {
                let axles = &self.axle.support.group.axles;
                let raised = axles.iter().find(|axle| axle.raised);
                return Some(pounds(raised.and_then(|axle| axle.weight)));
            }
            "unit-weight" => {
                let counting = self.axle.support.unit.counting();
                return Some(pounds(counting.map(|(weight, _)| weight)));
            }
            _ => return None,
        };
        Some(FactValue::Choice(choice.into()))
    }

    /// The tags of the stands that lie ready, and behind them of a pair that carries anything made
    /// up here.
    pub fn stand_tags(&self) -> [[StandTag; 2]; 2] {
        let more = StandTag {
            rating: rules::typed::Typed::parse("50", Unit::ShortTon).ok(),
            basis: Basis::PerStand,
            condition: Condition::Sound,
        };
        let ready = self.axle.support.stands.iter().chain([&more, &more]);
        let mut ready = ready.cloned();
        let mut next = || ready.next().unwrap_or_else(|| more.clone());
        [[next(), next()], [more.clone(), more.clone()]]
    }

    /// The same stands, as the runner picks them: 1 and 2 lie ready.
    pub fn stands(&self) -> Vec<StandUsed> {
        let tags = self.stand_tags();
        let used = |(number, tag): (usize, &StandTag)| StandUsed {
            stand: (number + 1).to_string(),
            tag: as_event(tag),
        };
        tags.iter().flatten().enumerate().map(used).collect()
    }
}

/// The facts that a run's card starts with, in an order in which each can be given.
const GIVEN: &[&str] = &[
    "coupled",
    "suspension",
    "rim",
    "wheel-set",
    "lift-by",
    "group-weight",
    "axle-weight",
    "unit-weight",
    "spring-brake",
    "mounting",
    "studs",
    "stud-thread",
    "adjuster-style",
    "drum-mount",
    "drum-new",
    "drum-size",
    "drum-mark",
    "jurisdiction",
    "shoe-lining",
    "lining-fixing",
    "brake-kind",
    "roller-end",
    "bearing-way",
    "wheel-metal",
    "open-look-by",
    "chamber-family",
];

/// Whether a card of this id can be a run's.
pub fn may_be_run(card: &CardId) -> bool {
    card.is_practice()
}

fn as_event(tag: &StandTag) -> event::StandTag {
    event::StandTag {
        rating: tag.rating.as_ref().map(TypedText::from),
        basis: match tag.basis {
            Basis::PerStand => event::TagBasis::PerStand,
            Basis::PerPair => event::TagBasis::PerPair,
            Basis::Unmarked => event::TagBasis::Unmarked,
        },
        condition: match tag.condition {
            Condition::Sound => event::StandCondition::Sound,
            Condition::Damaged => event::StandCondition::Damaged,
            Condition::Repaired => event::StandCondition::Repaired,
            Condition::PinMissing => event::StandCondition::PinMissing,
        },
    }
}

fn chamber_type(chamber: &Chamber) -> Option<FactValue> {
    let Chamber::Listed { of, .. } = chamber else {
        return None;
    };
    let option = format!("t{}", of.name.to_lowercase());
    Some(FactValue::Choice(option.as_str().into()))
}

const fn is_long(chamber: &Chamber) -> bool {
    matches!(
        chamber,
        Chamber::Listed {
            class: StrokeClass::Long | StrokeClass::LongThreeInch,
            ..
        }
    )
}

fn letter(letter: &str) -> FactValue {
    FactValue::Choice(letter.to_lowercase().as_str().into())
}

fn typed(text: &str, unit: Unit) -> FactValue {
    FactValue::Typed(TypedText {
        text: text.to_owned(),
        unit: unit.code().to_owned(),
    })
}

/// A weight as it is typed. Everything made up weighs whole pounds.
fn pounds(mass: Option<Mass>) -> FactValue {
    let shown = mass.and_then(|mass| shown::decimal(mass.into(), Unit::Pound, 0, Lean::Nearest));
    shown.map_or(FactValue::NotKnown, |shown| typed(&shown.text, Unit::Pound))
}

impl Item {
    /// Where it is judged. What no ask is about stands with the ask at which it comes into view.
    pub(crate) const fn spot(self) -> Spot {
        let (step, asks): (&str, &[&str]) = match self {
            Self::Stands => ("stands", &["stands"]),
            Self::Alike => ("chamber", &["chamber-type", "stroke-class", "arm-length"]),
            Self::Edges => ("kit", &["ends"]),
            Self::Applied => ("as-found", &["applied"]),
            Self::Free => ("as-found", &["free-stroke"]),
            Self::Nuts => ("nuts-off", &["nuts"]),
            Self::AdjusterTorque => ("slack-back-off", &["torque", "gear-torque"]),
            Self::Lining => ("old-parts", &["lining"]),
            Self::LiningLook => ("old-parts", &["linings"]),
            Self::Diameter | Self::DrumShape => ("drum", DIAMETERS),
            Self::Surface => ("drum", &["surface"]),
            Self::Radial => ("camshaft", &["radial"]),
            Self::CamEnd => ("camshaft", &["end-play"]),
            Self::Spline => ("camshaft", &["spline"]),
            Self::CamHead | Self::Rollers => ("camshaft", &["head"]),
            Self::Grease => ("camshaft", &["grease"]),
            Self::Spider | Self::SpiderBolts => ("anchor", &["spider"]),
            Self::Groove => ("anchor", &["groove"]),
            Self::Springs => ("shoes-off", &["down"]),
            Self::Body => ("adjuster", &["body"]),
            Self::ClevisPin => ("adjuster", &["pin"]),
            Self::Clevis => ("adjuster", &["clevis"]),
            Self::ClevisGap => ("adjuster", &["clevis-gap"]),
            Self::ArmBushing => ("adjuster", &["arm-bushing"]),
            Self::Chamber => ("chamber", &["state"]),
            Self::SpringBrake => ("caging", &["caged"]),
            Self::Seal | Self::HubOil => ("hub", &["seal"]),
            Self::HubPlay => ("hub", &["end-play"]),
            Self::Studs => ("studs", &["state"]),
            Self::Wheel => ("wheel-look", &["state"]),
            Self::Hose | Self::Shield => ("hoses", &["found"]),
            Self::Gap => ("kit", &["gap"]),
            Self::Span => ("kit", &["span"]),
            Self::Recess => ("kit", &["recess"]),
        };
        Spot { step, asks }
    }

    /// The faults that it can show.
    pub(crate) const fn can_show(self) -> &'static [Fault] {
        match self {
            Self::Stands => &[],
            Self::Alike => &[Fault::UnlikeEnds],
            Self::Edges => &[Fault::EdgeCodes],
            Self::Applied => &[Fault::StrokeLong, Fault::AdjusterWeak],
            Self::Free => &[Fault::Drags, Fault::AdjusterWeak],
            Self::Nuts => &[Fault::Nuts],
            Self::AdjusterTorque => &[Fault::AdjusterStiff, Fault::AdjusterWeak],
            Self::Lining => &[Fault::LiningThin],
            Self::LiningLook => &[Fault::LiningOil],
            Self::Diameter => &[Fault::DrumOversize],
            Self::DrumShape => &[Fault::DrumShape],
            Self::Surface => &[Fault::DrumCracked, Fault::DrumHeat, Fault::DrumShape],
            Self::Radial => &[Fault::CamBushings],
            Self::CamEnd => &[Fault::CamEndPlay],
            Self::Spline => &[Fault::CamSpline],
            Self::CamHead => &[Fault::CamHead],
            Self::Grease => &[Fault::CamSeal, Fault::CamSeized],
            Self::Spider => &[Fault::Spider],
            Self::Groove => &[Fault::AnchorPin],
            Self::SpiderBolts => &[Fault::SpiderBolts],
            Self::Rollers => &[Fault::Rollers],
            Self::Springs => &[Fault::ReturnSpring],
            Self::Body => &[Fault::ControlArm, Fault::AdjusterBoot],
            Self::ClevisPin => &[Fault::ClevisPin],
            Self::Clevis => &[Fault::ClevisHole],
            Self::ClevisGap => &[Fault::ClevisGap],
            Self::ArmBushing => &[Fault::ArmBushing],
            Self::Chamber => &[
                Fault::ChamberLeak,
                Fault::ChamberBody,
                Fault::RodNotSquare,
                Fault::ChamberBracket,
            ],
            Self::SpringBrake => &[Fault::SpringLeak, Fault::SpringBody, Fault::BoltWontSeat],
            Self::Seal => &[Fault::WheelSeal],
            Self::HubOil => &[Fault::HubOil],
            Self::HubPlay => &[Fault::BearingPlay],
            Self::Studs => &[Fault::Studs],
            Self::Wheel => &[Fault::Wheel],
            Self::Hose => &[Fault::Hose],
            Self::Shield => &[Fault::DustShield],
            Self::Gap => &[Fault::RustJacked],
            Self::Span => &[Fault::ShoeSpan],
            Self::Recess => &[Fault::RollerRecess],
        }
    }
}
