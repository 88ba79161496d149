//! What there is to judge on a made-up axle: what is shown, and what the rules say of it.
//!
//! The rule is asked with the true state. Where no rule has a figure the procedure's own list of
//! findings says that a part has to go; nothing is compared here.

use rules::axle::alike::{Compared, Part};
use rules::bearing::end_play;
use rules::bearing::setup::Way;
use rules::camshaft::{anchor, look as cam, play, spline};
use rules::drum::taper::Pair;
use rules::drum::{bell_mouth, diameter, round, surface, taper};
use rules::lining::code::Edge;
use rules::lining::gap::{self, Where};
use rules::lining::look as lining_look;
use rules::lining::shoe::{self, RollerEnd};
use rules::lining::{matched, thickness};
use rules::quantity::{Length, Quantity, Torque};
use rules::slack::adjuster::{self, Ratchet};
use rules::slack::cause::FreeLies;
use rules::slack::free::{self, When};
use rules::slack::mechanism::Mechanism;
use rules::slack::{applied, clevis};
use rules::source::Source;
use rules::stud::{neighbours, nuts, wheel};
use rules::support::SupportFault;
use rules::support::stand::{self, StandsJudged, StandsSay};
use rules::verdict::{Judgement, Verdict};

use job::id::Side;

use crate::axle::{Axle, AxleIs, End};
use crate::fault::Fault;
use crate::instrument::{Instrument, Tool};
use crate::kind::Kind;

/// What is judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Item {
    /// The stands under the axle.
    Stands,
    /// Whether both ends have the same chamber, arm and adjuster.
    Alike,
    /// Whether both ends have the same lining.
    Edges,
    /// The stroke at a full application.
    Applied,
    /// The free stroke.
    Free,
    /// What the nuts were like when they came off.
    Nuts,
    /// The torque that turns the adjuster.
    AdjusterTorque,
    /// The thickness of the lining.
    Lining,
    /// What the lining shows.
    LiningLook,
    /// The largest diameter of the drum.
    Diameter,
    /// How round and how straight the drum is.
    DrumShape,
    /// What the drum shows.
    Surface,
    /// The camshaft, up and down.
    Radial,
    /// The camshaft, end to end.
    CamEnd,
    /// The splines, by how far the adjuster rocks.
    Spline,
    /// The cam's head.
    CamHead,
    /// Where the grease comes out.
    Grease,
    /// Spider and anchors.
    Spider,
    /// The groove in an anchor pin.
    Groove,
    /// The spider's bolts.
    SpiderBolts,
    /// The cam's rollers.
    Rollers,
    /// The springs.
    Springs,
    /// Body, boot and control arm of the adjuster.
    Body,
    /// The clevis pin.
    ClevisPin,
    /// The clevis.
    Clevis,
    /// The gap between clevis and collar.
    ClevisGap,
    /// The bushing in the arm.
    ArmBushing,
    /// The chamber, its bracket and its rod.
    Chamber,
    /// The spring brake.
    SpringBrake,
    /// The wheel seal.
    Seal,
    /// The oil in the hub.
    HubOil,
    /// The hub's end play.
    HubPlay,
    /// The studs.
    Studs,
    /// The wheel.
    Wheel,
    /// The hoses.
    Hose,
    /// The dust shield.
    Shield,
    /// The gap between a lining and its shoe.
    Gap,
    /// How far a shoe is stretched.
    Span,
    /// The seat of the roller in the shoe.
    Recess,
}

impl Item {
    /// What is judged of the axle as a whole.
    pub const OF_AXLE: &[Self] = &[Self::Stands, Self::Alike, Self::Edges];

    /// What is judged of each wheel end, in the order of the job.
    pub const OF_END: &[Self] = &[
        Self::Applied,
        Self::Free,
        Self::Nuts,
        Self::AdjusterTorque,
        Self::Lining,
        Self::LiningLook,
        Self::Diameter,
        Self::DrumShape,
        Self::Surface,
        Self::Radial,
        Self::CamEnd,
        Self::Spline,
        Self::CamHead,
        Self::Grease,
        Self::Spider,
        Self::Groove,
        Self::SpiderBolts,
        Self::Rollers,
        Self::Springs,
        Self::Body,
        Self::ClevisPin,
        Self::Clevis,
        Self::ClevisGap,
        Self::ArmBushing,
        Self::Chamber,
        Self::SpringBrake,
        Self::Seal,
        Self::HubOil,
        Self::HubPlay,
        Self::Studs,
        Self::Wheel,
        Self::Hose,
        Self::Shield,
        Self::Gap,
        Self::Span,
        Self::Recess,
    ];

    /// Its stable name, and the end of its word key.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Stands => "stands",
            Self::Alike => "alike",
            Self::Edges => "edges",
            Self::Applied => "applied",
            Self::Free => "free",
            Self::Nuts => "nuts",
            Self::AdjusterTorque => "adjuster-torque",
            Self::Lining => "lining",
            Self::LiningLook => "lining-look",
            Self::Diameter => "diameter",
            Self::DrumShape => "drum-shape",
            Self::Surface => "surface",
            Self::Radial => "radial",
            Self::CamEnd => "cam-end",
            Self::Spline => "spline",
            Self::CamHead => "cam-head",
            Self::Grease => "grease",
            Self::Spider => "spider",
            Self::Groove => "groove",
            Self::SpiderBolts => "spider-bolts",
            Self::Rollers => "rollers",
            Self::Springs => "springs",
            Self::Body => "body",
            Self::ClevisPin => "clevis-pin",
            Self::Clevis => "clevis",
            Self::ClevisGap => "clevis-gap",
            Self::ArmBushing => "arm-bushing",
            Self::Chamber => "chamber",
            Self::SpringBrake => "spring-brake",
            Self::Seal => "seal",
            Self::HubOil => "hub-oil",
            Self::HubPlay => "hub-play",
            Self::Studs => "studs",
            Self::Wheel => "wheel",
            Self::Hose => "hose",
            Self::Shield => "shield",
            Self::Gap => "gap",
            Self::Span => "span",
            Self::Recess => "recess",
        }
    }

    /// The item of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        let mut all = Self::OF_AXLE.iter().chain(Self::OF_END).copied();
        all.find(|item| item.code() == code)
    }

    /// Which kind of judgement it is.
    pub const fn kind(self) -> Kind {
        match self {
            Self::Stands => Kind::Stands,
            Self::Edges => Kind::EdgeCode,
            Self::Applied | Self::Free => Kind::Stroke,
            Self::Nuts | Self::Studs | Self::Wheel => Kind::Wheel,
            Self::AdjusterTorque
            | Self::Body
            | Self::ClevisPin
            | Self::Clevis
            | Self::ClevisGap
            | Self::ArmBushing => Kind::Adjuster,
            Self::Lining
            | Self::LiningLook
            | Self::Springs
            | Self::Gap
            | Self::Span
            | Self::Recess => Kind::Lining,
            Self::Diameter | Self::DrumShape | Self::Surface => Kind::Drum,
            Self::Radial
            | Self::CamEnd
            | Self::Spline
            | Self::CamHead
            | Self::Grease
            | Self::Spider
            | Self::Groove
            | Self::SpiderBolts
            | Self::Rollers => Kind::Camshaft,
            Self::Alike | Self::Chamber | Self::SpringBrake | Self::Hose => Kind::Chamber,
            Self::Seal | Self::HubOil | Self::HubPlay | Self::Shield => Kind::Hub,
        }
    }
}

/// What an eye or an instrument shows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Shown {
    /// One instrument.
    Instrument(Instrument),
    /// The pushrod's rule, at rest and at the second reading.
    Pushrod {
        /// Released.
        at_rest: Instrument,
        /// Applied, or pulled out.
        out: Instrument,
    },
    /// The drum micrometer at four places of each edge.
    Diameters {
        /// The open edge.
        front: [Instrument; 4],
        /// The closed edge.
        back: [Instrument; 4],
    },
    /// What is seen, by the stable names of the signs; none where the part is whole.
    Signs(Vec<&'static str>),
    /// Signs at numbered studs or nuts.
    Numbered(Vec<(u16, &'static str)>),
    /// What is printed on the linings, left and right.
    Edges([String; 2]),
    /// The support as a whole: its picture reads it from the axle.
    Support,
    /// Both chambers and arms side by side.
    BothEnds,
}

/// What is said of an item by what decides it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Ruling {
    /// Rules judged it, the worst judgement first.
    Judged(Vec<Judgement>),
    /// The stands, or why they are no pair at all.
    Stands(Box<Result<StandsJudged, SupportFault>>),
    /// Both ends, part by part.
    Alike(Vec<Compared>),
    /// No rule has a figure: these findings of the procedure, or none.
    Listed(Vec<Fault>),
}

impl Ruling {
    fn one(judgement: Judgement) -> Self {
        Self::Judged(vec![judgement])
    }

    /// Of several, those that say something, the worst first.
    fn worst(mut judgements: Vec<Judgement>) -> Self {
        judgements.sort_by_key(|one| {
            let says = one.verdict != Verdict::NoReading;
            std::cmp::Reverse((says, one.verdict.severity()))
        });
        Self::Judged(judgements)
    }

    /// The judgement that decides, where there is one.
    pub fn judgement(&self) -> Option<&Judgement> {
        match self {
            Self::Judged(judgements) => judgements.first(),
            Self::Stands(stands) => match stands.as_ref() {
                Ok(judged) => Some(if judged.by_load.verdict == Verdict::NoReading {
                    &judged.by_three.judgement
                } else {
                    &judged.by_load
                }),
                Err(_) => None,
            },
            Self::Alike(compared) => {
                let differs = compared.iter().find(|part| part.differs());
                differs
                    .or(compared.first())
                    .map(|compared| &compared.judgement)
            }
            Self::Listed(_) => None,
        }
    }

    /// The word that it comes to.
    pub fn verdict(&self) -> Verdict {
        match self {
            Self::Judged(_) => self
                .judgement()
                .map_or(Verdict::NoReading, |judged| judged.verdict),
            Self::Stands(stands) => match stands.as_ref() {
                Ok(judged) => match judged.say() {
                    StandsSay::Enough => Verdict::Within,
                    // Enough by the axle weights, and a foreman has to say why it is let go.
                    StandsSay::NeedsReason => Verdict::AtTheLimit,
                    StandsSay::Refused => Verdict::Beyond,
                },
                Err(_) => Verdict::Beyond,
            },
            Self::Alike(compared) if compared.iter().any(Compared::differs) => Verdict::Replace,
            Self::Alike(_) => Verdict::Sound,
            Self::Listed(found) if found.is_empty() => Verdict::Sound,
            Self::Listed(_) => Verdict::Replace,
        }
    }

    /// Where it is printed; `None` where only the procedure lists it.
    pub fn source(&self) -> Option<&'static Source> {
        self.judgement().map(|judgement| judgement.source)
    }

    /// By how much it is inside its limit, below nought when it is past it.
    pub fn room(&self) -> Option<Quantity> {
        self.judgement().and_then(|judgement| judgement.room)
    }

    /// Whether it may not stay so.
    pub fn refuses(&self) -> bool {
        refuses(self.verdict())
    }
}

/// Whether a verdict says that it may not stay so.
pub(crate) fn refuses(verdict: Verdict) -> bool {
    verdict.severity() >= Verdict::Beyond.severity()
}

/// One thing to judge, with what is right.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Decision {
    /// At which end; `None` for the axle.
    pub side: Option<Side>,
    /// What is judged.
    pub item: Item,
    /// What is to be seen.
    pub shown: Shown,
    /// What is said of it.
    pub ruling: Ruling,
    /// The faults that it shows, when it may not stay so.
    pub faults: Vec<Fault>,
}

impl Decision {
    /// The reading that a good reader takes from it; `None` where nothing is measured.
    ///
    /// Of a pushrod it is the stroke between its two marks, of a drum its largest diameter.
    pub fn reading(&self) -> Option<Instrument> {
        match &self.shown {
            Shown::Instrument(instrument) => Some(*instrument),
            Shown::Pushrod { at_rest, out } => Some(out.tool().at(out.marks() - at_rest.marks())),
            Shown::Diameters { front, back } if self.item == Item::Diameter => front
                .iter()
                .chain(back)
                .max_by_key(|instrument| instrument.marks())
                .copied(),
            Shown::Diameters { .. }
            | Shown::Signs(_)
            | Shown::Numbered(_)
            | Shown::Edges(_)
            | Shown::Support
            | Shown::BothEnds => None,
        }
    }

    /// Whether what it shows could hurt somebody if it is missed.
    pub fn hurts(&self) -> bool {
        let by_fault = self.faults.iter().any(|fault| fault.hurts());
        by_fault || (self.item == Item::Stands && self.ruling.refuses())
    }
}

impl Axle {
    /// Everything that there is to judge on it, in the order of the job.
    pub fn decisions(&self) -> Vec<Decision> {
        let of_axle = [self.stands(), self.alike(), self.edges()];
        let of_ends = [Side::Left, Side::Right].into_iter().flat_map(|side| {
            Item::OF_END
                .iter()
                .filter_map(move |item| self.of_end(side, *item))
        });
        of_axle.into_iter().chain(of_ends).collect()
    }

    fn stands(&self) -> Decision {
        let lift = self.support.lift().ok_or(SupportFault::NoWeight);
        let judged = lift.and_then(|lift| stand::judge_stands(&lift, &self.support.stands));
        let ruling = Ruling::Stands(Box::new(judged));
        across(Item::Stands, Shown::Support, ruling, &[])
    }

    fn alike(&self) -> Decision {
        // The linings are held against each other by all that is printed on them.
        let mut compared = self.compared();
        compared.retain(|one| one.part != Part::Lining);
        let ruling = Ruling::Alike(compared);
        across(Item::Alike, Shown::BothEnds, ruling, &[Fault::UnlikeEnds])
    }

    fn edges(&self) -> Decision {
        let texts = [self.left.edge.text(), self.right.edge.text()];
        let [left, right] = &texts;
        let (left, right) = (Edge::read(left).ok(), Edge::read(right).ok());
        let judged = matched::judge_match(left.as_ref(), right.as_ref());
        let shown = Shown::Edges(texts);
        across(Item::Edges, shown, Ruling::one(judged), &[Fault::EdgeCodes])
    }

    /// What is judged of one end; `None` where the end has no such thing.
    pub fn of_end(&self, side: Side, item: Item) -> Option<Decision> {
        let (shown, ruling) = self.shown_and_ruled(side, item)?;
        let faults = if let Ruling::Listed(found) = &ruling {
            found.clone()
        } else if ruling.refuses() {
            self.fault_of(side, item).into_iter().collect()
        } else {
            Vec::new()
        };
        Some(Decision {
            side: Some(side),
            item,
            shown,
            ruling,
            faults,
        })
    }

    fn shown_and_ruled(&self, side: Side, item: Item) -> Option<(Shown, Ruling)> {
        let end = self.end(side);
        Some(match item {
            Item::Stands | Item::Alike | Item::Edges => return None,
            Item::Applied => {
                let stroke = sixteenths(end.power_16ths());
                let judged = applied::judge_applied(stroke, &self.stroke_facts(side));
                (pushrod(end, end.applied_16ths()), Ruling::one(judged))
            }
            Item::Free => {
                let out = end.at_rest_16ths + end.free_16ths;
                (pushrod(end, out), Ruling::one(judge_free(end)))
            }
            Item::AdjusterTorque => return adjuster_torque(end),
            Item::Lining => {
                let thickness = Length::from_inch_64ths(end.lining_32nds * 2);
                let judged = thickness::judge_thickness(thickness, &self.lining_facts());
                measured(Tool::LiningGauge, end.lining_32nds, judged)
            }
            Item::Diameter | Item::DrumShape => drum(end, item),
            Item::Radial => {
                let judged = play::judge_radial(thou(end.cam_radial_thou), self.brake);
                measured(Tool::Dial, end.cam_radial_thou, judged)
            }
            Item::CamEnd => {
                let judged = play::judge_end(thou(end.cam_end_thou), self.brake);
                measured(Tool::Dial, end.cam_end_thou, judged)
            }
            Item::Spline => {
                let judged = spline::judge_spline(thou(end.spline_thou), self.brake);
                measured(Tool::Dial, end.spline_thou, judged)
            }
            Item::Groove => {
                let judged = anchor::judge_groove(thou(end.groove_thou), self.brake);
                measured(Tool::Micrometer, end.groove_thou, judged)
            }
            Item::ClevisGap => {
                let judged = adjuster::judge_clevis(thou(end.clevis_gap_thou));
                measured(Tool::Feeler, end.clevis_gap_thou, judged)
            }
            Item::ArmBushing => {
                let judged = adjuster::judge_bushing(thou(end.arm_bushing_thou));
                measured(Tool::Micrometer, end.arm_bushing_thou, judged)
            }
            Item::HubPlay => {
                let judged = end_play::judge_end_play(thou(end.hub_play_thou), Way::RuleBook);
                measured(Tool::Dial, end.hub_play_thou, judged)
            }
            Item::Gap => {
                let judged = gap::judge_gap(thou(end.lining_gap_thou), Where::Edges);
                measured(Tool::Feeler, end.lining_gap_thou, judged)
            }
            Item::Span => {
                let span = Length::from_inch_64ths(end.span_64ths);
                let judged = shoe::judge_span(span, RollerEnd::Recess);
                measured(Tool::ShoeCaliper, end.span_64ths, judged)
            }
            Item::Recess => {
                let width = Length::from_inch_64ths(end.recess_64ths);
                let judged = shoe::judge_recess(width, RollerEnd::Recess);
                measured(Tool::ShoeCaliper, end.recess_64ths, judged)
            }
            Item::LiningLook => {
                let signs = end.lining_looks.iter().map(|look| look.code());
                let judged = lining_look::judge_look(&end.lining_looks);
                (Shown::Signs(signs.collect()), Ruling::one(judged))
            }
            Item::Surface => {
                let seen = end.drum.surface;
                by_eye(seen.code(), surface::judge_surface(seen))
            }
            Item::CamHead => by_eye(end.cam_head.code(), cam::judge_look(end.cam_head)),
            Item::Grease => by_eye(end.grease.code(), cam::judge_look(end.grease)),
            Item::Spider => by_eye(end.spider.code(), cam::judge_look(end.spider)),
            Item::ClevisPin => by_eye(end.clevis_pin.code(), clevis::judge_look(end.clevis_pin)),
            Item::Clevis => by_eye(end.clevis_hole.code(), clevis::judge_look(end.clevis_hole)),
            Item::Nuts => nuts_of(end),
            Item::Studs => studs_of(end),
            Item::Wheel => self.wheel_of(end),
            Item::SpringBrake if !self.is.has_spring_brakes() => return None,
            Item::SpringBrake => listed(
                end,
                &[Fault::SpringLeak, Fault::SpringBody, Fault::BoltWontSeat],
            ),
            Item::SpiderBolts => listed(end, &[Fault::SpiderBolts]),
            Item::Rollers => listed(end, &[Fault::Rollers]),
            Item::Springs => listed(end, &[Fault::ReturnSpring]),
            Item::Body => listed(end, &[Fault::ControlArm, Fault::AdjusterBoot]),
            Item::Chamber => listed(
                end,
                &[
                    Fault::ChamberLeak,
                    Fault::ChamberBody,
                    Fault::RodNotSquare,
                    Fault::ChamberBracket,
                ],
            ),
            Item::Seal => listed(end, &[Fault::WheelSeal]),
            Item::HubOil => listed(end, &[Fault::HubOil]),
            Item::Hose => listed(end, &[Fault::Hose]),
            Item::Shield => listed(end, &[Fault::DustShield]),
        })
    }

    fn wheel_of(&self, end: &End) -> (Shown, Ruling) {
        let axle = match self.is {
            AxleIs::Steer => wheel::Axle::Steer,
            AxleIs::Drive | AxleIs::Trailer => wheel::Axle::Other,
        };
        let signs = end.wheel_signs.iter().map(|(_, sign)| sign.code());
        let judged = wheel::judge_wheel(&end.wheel_signs, wheel::Metal::Steel, axle);
        (Shown::Signs(signs.collect()), Ruling::one(judged))
    }

    /// The fault that an item shows when it is refused.
    fn fault_of(&self, side: Side, item: Item) -> Option<Fault> {
        let end = self.end(side);
        let free = || FreeLies::from(&judge_free(end));
        Some(match item {
            Item::Applied if free() == FreeLies::Above => Fault::AdjusterWeak,
            Item::Applied => Fault::StrokeLong,
            Item::Free if free() == FreeLies::Below => Fault::Drags,
            Item::Free => Fault::AdjusterWeak,
            Item::AdjusterTorque if end.mechanism == Mechanism::Pawl => Fault::AdjusterStiff,
            Item::AdjusterTorque => Fault::AdjusterWeak,
            Item::Lining => Fault::LiningThin,
            Item::LiningLook => Fault::LiningOil,
            Item::Diameter => Fault::DrumOversize,
            Item::DrumShape => Fault::DrumShape,
            Item::Surface => match end.drum.surface {
                surface::Surface::HeavyChecks | surface::Surface::Spots => Fault::DrumHeat,
                surface::Surface::OneSided | surface::Surface::Mounting => Fault::DrumShape,
                surface::Surface::Crack
                | surface::Surface::CrackThrough
                | surface::Surface::PieceMissing
                | surface::Surface::Even
                | surface::Surface::FineChecks => Fault::DrumCracked,
            },
            Item::Radial => Fault::CamBushings,
            Item::CamEnd => Fault::CamEndPlay,
            Item::Spline => Fault::CamSpline,
            Item::CamHead => Fault::CamHead,
            Item::Grease if end.grease == cam::Sign::Binding => Fault::CamSeized,
            Item::Grease => Fault::CamSeal,
            Item::Spider => Fault::Spider,
            Item::Groove => Fault::AnchorPin,
            Item::ClevisPin => Fault::ClevisPin,
            Item::Clevis => Fault::ClevisHole,
            Item::ClevisGap => Fault::ClevisGap,
            Item::ArmBushing => Fault::ArmBushing,
            Item::HubPlay => Fault::BearingPlay,
            Item::Studs => Fault::Studs,
            Item::Nuts => Fault::Nuts,
            Item::Wheel => Fault::Wheel,
            Item::Gap => Fault::RustJacked,
            Item::Span => Fault::ShoeSpan,
            Item::Recess => Fault::RollerRecess,
            Item::Stands
            | Item::Alike
            | Item::Edges
            | Item::SpiderBolts
            | Item::Rollers
            | Item::Springs
            | Item::Body
            | Item::Chamber
            | Item::SpringBrake
            | Item::Seal
            | Item::HubOil
            | Item::Hose
            | Item::Shield => return None,
        })
    }
}

fn thou(n: i64) -> Length {
    Length::from_inch_thousandths(n)
}

fn sixteenths(n: i64) -> Length {
    Length::from_inch_64ths(n * 4)
}

fn measured(tool: Tool, marks: i64, judged: Judgement) -> (Shown, Ruling) {
    (Shown::Instrument(tool.at(marks)), Ruling::one(judged))
}

fn pushrod(end: &End, out_16ths: i64) -> Shown {
    Shown::Pushrod {
        at_rest: Tool::PushrodRule.at(end.at_rest_16ths),
        out: Tool::PushrodRule.at(out_16ths),
    }
}

fn judge_free(end: &End) -> Judgement {
    free::judge_free(sixteenths(end.free_16ths), end.mechanism, When::InService)
}

fn adjuster_torque(end: &End) -> Option<(Shown, Ruling)> {
    let torque = end.adjuster_torque;
    match end.mechanism {
        Mechanism::Clutch => {
            let judged = adjuster::judge_clutch(Torque::from_lbf_ft(torque), Ratchet::Heard);
            Some(measured(Tool::TorqueFeet, torque, judged))
        }
        Mechanism::Pawl => {
            let judged = adjuster::judge_gear(Torque::from_lbf_in(torque));
            Some(measured(Tool::TorqueInches, torque, judged))
        }
        Mechanism::Linkless | Mechanism::Gauge | Mechanism::Manual | Mechanism::Unknown => None,
    }
}

fn drum(end: &End, item: Item) -> (Shown, Ruling) {
    let drum = end.drum();
    let at = |marks: &[i64; 4]| marks.map(|n| Tool::DrumMicrometer.at(n));
    let shown = Shown::Diameters {
        front: at(&drum.front_5thou),
        back: at(&drum.back_5thou),
    };
    let (front, back, marks) = (drum.front(), drum.back(), drum.marks());
    if item == Item::Diameter {
        let all: Vec<Length> = front.into_iter().chain(back).collect();
        return (shown, Ruling::one(diameter::judge_diameter(&all, marks)));
    }
    let pairs: Vec<Pair> = front
        .into_iter()
        .zip(back)
        .map(|(front, back)| Pair { front, back })
        .collect();
    let ruling = Ruling::worst(vec![
        round::judge_round(&front),
        round::judge_round(&back),
        taper::judge_taper(&pairs),
        bell_mouth::judge_bell_mouth(&pairs, marks),
    ]);
    (shown, ruling)
}

fn by_eye(sign: &'static str, judged: Judgement) -> (Shown, Ruling) {
    (Shown::Signs(vec![sign]), Ruling::one(judged))
}

fn nuts_of(end: &End) -> (Shown, Ruling) {
    let signs: Vec<nuts::Sign> = end.nut_signs.iter().map(|(_, sign)| *sign).collect();
    let shown = end.nut_signs.iter().map(|(nut, sign)| (*nut, sign.code()));
    let judged = nuts::judge_nuts(&signs);
    (Shown::Numbered(shown.collect()), Ruling::one(judged))
}

fn studs_of(end: &End) -> (Shown, Ruling) {
    let signs = &end.stud_signs;
    let shown = signs.iter().map(|(stud, sign)| (*stud, sign.code()));
    let judged = neighbours::judge_studs(end.studs, signs);
    (Shown::Numbered(shown.collect()), Ruling::one(judged))
}

/// What no rule has a figure for: which of these findings of the procedure the end shows.
fn listed(end: &End, of: &[Fault]) -> (Shown, Ruling) {
    let mut found = of.to_vec();
    found.retain(|fault| end.flaws.contains(fault));
    let signs = found.iter().map(|fault| fault.finding()).collect();
    (Shown::Signs(signs), Ruling::Listed(found))
}

/// What is judged of the axle as a whole, with the faults that it shows when it is refused.
fn across(item: Item, shown: Shown, ruling: Ruling, refused: &[Fault]) -> Decision {
    let faults = if ruling.refuses() {
        refused.to_vec()
    } else {
        Vec::new()
    };
    Decision {
        side: None,
        item,
        shown,
        ruling,
        faults,
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;
    use crate::seed::{Level, Seed};

    #[test]
    fn every_item_is_listed_once_and_some_axle_has_it() {
        let listed: Vec<Item> = [Item::OF_AXLE, Item::OF_END].concat();
        let codes: BTreeSet<&str> = listed.iter().map(|item| item.code()).collect();
        assert_eq!(codes.len(), listed.len());
        let mut seen = BTreeSet::new();
        for number in 0..50 {
            let decisions = Axle::of(Seed::new(Level::Usual, number)).decisions();
            let at = |one: &Decision| (one.side, listed.iter().position(|item| *item == one.item));
            assert!(decisions.iter().map(at).is_sorted(), "{number}");
            seen.extend(decisions.iter().map(|one| one.item));
        }
        assert_eq!(seen, listed.into_iter().collect());
    }

    #[test]
    fn what_is_measured_is_ruled_by_what_is_read() {
        let axle = Axle::of(Seed::new(Level::Usual, 8));
        for decision in axle.decisions() {
            let read = decision.reading().map(|instrument| instrument.shows());
            let judged = decision
                .ruling
                .judgement()
                .and_then(|judged| judged.reading);
            if read.is_some() {
                assert_eq!(judged, read, "{decision:?}");
            }
        }
    }
}
