//! A made-up axle with its hidden true state: both wheel ends, what it is lifted on, what is wrong.
//!
//! It is physically consistent. At rest and power stroke together are the applied mark; the power
//! stroke is the free stroke and what the brake gives way; a camshaft that is loose in its bushings
//! gives way by so much more; a wheel seal that leaks has wetted the linings. Every figure is a whole
//! number of the marks of the instrument that reads it. Nothing here knows a limit: where a fault has
//! to lie past one, the rule is asked.

use rules::axle::alike;
use rules::camshaft::brake::Brake;
use rules::camshaft::look as cam;
use rules::conditions::Conditions;
use rules::drum::marks::Marks;
use rules::drum::surface::Surface;
use rules::jurisdiction::Jurisdiction;
use rules::lining::code::Edge;
use rules::lining::look::Look;
use rules::lining::thickness::{Fixing, Indicator, LiningFacts, MeasuredAt, Shoe};
use rules::quantity::{Length, Mass};
use rules::slack::applied::StrokeFacts;
use rules::slack::chamber::{Chamber, Family, StrokeClass};
use rules::slack::clevis;
use rules::slack::mechanism::Mechanism;
use rules::stud::{neighbours, nuts, wheel};
use rules::support::load::{self, Group, Ties};
use rules::support::stand::Lift;
use rules::support::tag::{Basis, Condition, StandTag};
use rules::support::three::{Loading, UnitWeight};
use rules::typed::Typed;
use rules::unit::Unit;

use job::id::Side;

use crate::fault::Fault;
use crate::scene::{self, Scene};
use crate::seed::{Draw, Level, Seed, Use};

mod plant;

/// Where the axle stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum AxleIs {
    /// The steer axle of a truck or tractor.
    Steer,
    /// A drive axle.
    Drive,
    /// An axle of a trailer.
    Trailer,
}

impl AxleIs {
    /// Its stable name, and the end of its word key.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Steer => "steer",
            Self::Drive => "drive",
            Self::Trailer => "trailer",
        }
    }

    /// Whether its chambers carry spring brakes.
    pub const fn has_spring_brakes(self) -> bool {
        !matches!(self, Self::Steer)
    }
}

/// A made-up axle.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Axle {
    /// What it was made from.
    pub seed: Seed,
    /// Where it stands.
    pub is: AxleIs,
    /// Which brake it carries.
    pub brake: Brake,
    /// Whose rules apply.
    pub jurisdiction: Jurisdiction,
    /// How its linings lie.
    pub shoe: Shoe,
    /// Its left end.
    pub left: End,
    /// Its right end.
    pub right: End,
    /// What it is lifted on.
    pub support: Support,
    /// What somebody wants to do, and what was done before.
    pub scenes: Vec<Scene>,
    // What was planted, not all that is wrong: a fault brings others along.
    planted: Vec<(Option<Side>, Fault)>,
}

/// The lift, and the stands that lie ready.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Support {
    /// The axles that hang together.
    pub group: Group,
    /// The weight of the unit.
    pub unit: UnitWeight,
    /// The two stands.
    pub stands: Vec<StandTag>,
}

impl Support {
    /// The lift as the rules want it; `None` where it raises nothing.
    pub fn lift(&self) -> Option<Lift> {
        let load = load::load_of_lift(std::slice::from_ref(&self.group)).ok()?;
        Some(Lift {
            load,
            unit: self.unit,
            carried_by: 2,
        })
    }
}

/// The ports of a chamber: round or square, as its stroke class has them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Ports {
    /// Round bosses.
    Round,
    /// Square bosses.
    Square,
}

/// The true state of one wheel end. A figure ends in the unit that it is counted in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct End {
    /// Its chamber.
    pub chamber: Chamber,
    /// How its adjuster works.
    pub mechanism: Mechanism,
    /// What is printed on the edge of its linings.
    pub edge: EdgePrint,
    /// How many studs it has.
    pub studs: u16,
    pub(crate) arm_quarters: i64,
    pub(crate) at_rest_16ths: i64,
    pub(crate) free_16ths: i64,
    pub(crate) flex_16ths: i64,
    pub(crate) adjuster_torque: i64,
    pub(crate) arm_bushing_thou: i64,
    pub(crate) clevis_gap_thou: i64,
    pub(crate) clevis_pin: clevis::Sign,
    pub(crate) clevis_hole: clevis::Sign,
    pub(crate) lining_32nds: i64,
    pub(crate) lining_looks: Vec<Look>,
    pub(crate) lining_gap_thou: i64,
    pub(crate) span_64ths: i64,
    pub(crate) recess_64ths: i64,
    pub(crate) drum: Drum,
    pub(crate) cam_radial_thou: i64,
    pub(crate) cam_end_thou: i64,
    pub(crate) spline_thou: i64,
    pub(crate) cam_head: cam::Sign,
    pub(crate) grease: cam::Sign,
    pub(crate) spider: cam::Sign,
    pub(crate) groove_thou: i64,
    pub(crate) hub_play_thou: i64,
    pub(crate) stud_signs: Vec<(u16, neighbours::Sign)>,
    pub(crate) nut_signs: Vec<(u16, nuts::Sign)>,
    pub(crate) wheel_signs: Vec<(wheel::Thing, wheel::Sign)>,
    /// What an eye or an ear finds that no rule has a figure for.
    pub(crate) flaws: Vec<Fault>,
}

/// What is printed on the edge of a lining: a made-up maker's letters, formula, friction code, mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct EdgePrint {
    pub(crate) formula: i64,
    pub(crate) normal: &'static str,
    pub(crate) hot: &'static str,
    pub(crate) year: i64,
}

impl EdgePrint {
    pub(crate) fn drawn(draw: &mut Draw) -> Self {
        let letter = |draw: &mut Draw| draw.pick(LETTERS, "F");
        Self {
            normal: letter(draw),
            hot: letter(draw),
            formula: draw.between(100, 999),
            year: draw.between(14, 25),
        }
    }

    /// The same lining with another second letter.
    pub(crate) fn unlike(self, draw: &mut Draw) -> Self {
        let others: Vec<&'static str> = LETTERS
            .iter()
            .copied()
            .filter(|letter| *letter != self.hot)
            .collect();
        Self {
            hot: draw.pick(&others, "E"),
            ..self
        }
    }

    /// As it is printed.
    pub fn text(&self) -> String {
        let Self {
            formula,
            normal,
            hot,
            year,
        } = self;
        format!("PB {formula} {normal}{hot} B{year}")
    }
}

const LETTERS: &[&str] = &["E", "F", "G"];

/// A drum, in steps of five thousandths of an inch.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Drum {
    pub(crate) nominal_5thou: i64,
    pub(crate) cast_max_5thou: i64,
    pub(crate) front_5thou: [i64; 4],
    pub(crate) back_5thou: [i64; 4],
    pub(crate) surface: Surface,
}

impl Drum {
    /// What it says of itself.
    pub fn marks(&self) -> Marks {
        Marks {
            cast_max: Some(five_thou(self.cast_max_5thou)),
            nominal: Some(five_thou(self.nominal_5thou)),
        }
    }

    /// Its diameters at the open edge, an eighth of a turn apart.
    pub fn front(&self) -> [Length; 4] {
        self.front_5thou.map(five_thou)
    }

    /// The same at the closed edge.
    pub fn back(&self) -> [Length; 4] {
        self.back_5thou.map(five_thou)
    }
}

fn five_thou(n: i64) -> Length {
    Length::from_inch_thousandths(n * 5)
}

impl End {
    /// The adjuster's arm, from the camshaft's centre to the clevis pin's.
    pub fn arm(&self) -> Length {
        Length::from_inch_64ths(self.arm_quarters * 16)
    }

    /// The ports that its stroke class gives a chamber.
    pub fn ports(&self) -> Ports {
        if self.has_long_stroke() {
            Ports::Square
        } else {
            Ports::Round
        }
    }

    /// Whether its chamber wears the trapezoid tag of a long stroke.
    pub fn has_long_stroke(&self) -> bool {
        match self.chamber {
            Chamber::Listed { class, .. } => {
                matches!(class, StrokeClass::Long | StrokeClass::LongThreeInch)
            }
            Chamber::Unlisted { .. } => false,
        }
    }

    /// Its drum.
    pub fn drum(&self) -> &Drum {
        &self.drum
    }

    /// By how much more the pushrod travels because the camshaft is loose, rounded down.
    ///
    /// The play lifts one shoe after the other, so half of it counts, and the arm moves as many
    /// times as far as the cam as it is longer than half an inch. A picture of a brake, no limit.
    pub(crate) fn by_play_16ths(&self) -> i64 {
        self.cam_radial_thou * self.arm_quarters / 250
    }

    /// The power stroke: what is free, what gives way, and what the play adds.
    pub(crate) fn power_16ths(&self) -> i64 {
        self.free_16ths + self.flex_16ths + self.by_play_16ths()
    }

    /// The mark at a full application.
    pub(crate) fn applied_16ths(&self) -> i64 {
        self.at_rest_16ths + self.power_16ths()
    }

    fn alike(&self) -> alike::End {
        let letters = Edge::read(&self.edge.text()).ok().map(|edge| edge.code);
        let letter = |code: &'static str| code.chars().next();
        alike::End {
            chamber: Some(self.chamber),
            arm: Some(self.arm()),
            lining: alike::Letters {
                normal: letters.and_then(|code| letter(code.normal.code())),
                hot: letters.and_then(|code| letter(code.hot.code())),
            },
            drum: Some(five_thou(self.drum.cast_max_5thou)),
            mechanism: self.mechanism,
        }
    }
}

impl Axle {
    /// The axle of a seed. The same on every device, for ever.
    pub fn of(seed: Seed) -> Self {
        let mut draw = seed.draw(Use::Axle);
        let is = draw.pick(
            &[AxleIs::Steer, AxleIs::Drive, AxleIs::Trailer],
            AxleIs::Drive,
        );
        let plan = Plan::drawn(is, &mut draw);
        let mut axle = Self {
            seed,
            is,
            brake: plan.brake,
            jurisdiction: Jurisdiction::UnitedStates,
            shoe: plan.shoe,
            left: plan.end(&mut seed.draw(Use::Left)),
            right: plan.end(&mut seed.draw(Use::Right)),
            support: support(is, &mut seed.draw(Use::Lift)),
            scenes: scene::drawn(seed.level(), &mut seed.draw(Use::Scenes)),
            planted: Vec::new(),
        };
        axle.plant(&mut seed.draw(Use::Faults));
        if seed.level() == Level::Close {
            axle.bring_close(&mut seed.draw(Use::Close));
        }
        axle
    }

    /// One of its ends.
    pub const fn end(&self, side: Side) -> &End {
        match side {
            Side::Left => &self.left,
            Side::Right => &self.right,
        }
    }

    const fn end_mut(&mut self, side: Side) -> &mut End {
        match side {
            Side::Left => &mut self.left,
            Side::Right => &mut self.right,
        }
    }

    /// What was planted; each of them brings along what follows from it.
    pub fn planted(&self) -> &[(Option<Side>, Fault)] {
        &self.planted
    }

    /// What decides the limit of a stroke, besides the stroke.
    pub fn stroke_facts(&self, side: Side) -> StrokeFacts {
        StrokeFacts {
            chamber: self.end(side).chamber,
            taken: Conditions::FAIR,
            jurisdiction: self.jurisdiction,
            shop: None,
        }
    }

    /// What decides the limit of a lining, besides its thickness.
    pub fn lining_facts(&self) -> LiningFacts {
        LiningFacts {
            axle: self.stands_as(),
            shoe: self.shoe,
            fixing: Fixing::Riveted,
            at: MeasuredAt::Middle,
            indicator: Indicator::NotReached,
            jurisdiction: self.jurisdiction,
            shop: None,
        }
    }

    /// Both ends, as they are held against each other.
    pub fn compared(&self) -> Vec<alike::Compared> {
        alike::compare(&self.left.alike(), &self.right.alike(), self.stands_as())
    }

    const fn stands_as(&self) -> alike::Axle {
        match self.is {
            AxleIs::Steer => alike::Axle::PowerUnitSteer,
            AxleIs::Drive | AxleIs::Trailer => alike::Axle::Other,
        }
    }
}

/// What both ends of an axle share.
struct Plan {
    brake: Brake,
    shoe: Shoe,
    chamber: Chamber,
    arm_quarters: i64,
    mechanism: Mechanism,
    edge: EdgePrint,
    nominal_5thou: i64,
    studs: u16,
    roller_64ths: i64,
}

/// Stands where the list has no such type; every type that is drawn is on it.
const NOT_LISTED: Chamber = Chamber::Unlisted {
    rated: None,
    marked: None,
};

impl Plan {
    fn drawn(is: AxleIs, draw: &mut Draw) -> Self {
        let steer = is == AxleIs::Steer;
        let brake = match is {
            AxleIs::Steer => Brake::FifteenByFour,
            AxleIs::Drive => draw.pick(
                &[Brake::SpiderTwenty, Brake::SpiderThirty],
                Brake::SpiderTwenty,
            ),
            AxleIs::Trailer => Brake::SpiderThirty,
        };
        let size = if steer {
            draw.pick(&["16", "20", "24"], "20")
        } else {
            draw.pick(&["24", "30", "30", "30"], "30")
        };
        let class = draw.pick(
            &[
                StrokeClass::Standard,
                StrokeClass::Standard,
                StrokeClass::Long,
            ],
            StrokeClass::Standard,
        );
        let mechanism = draw.pick(
            &[
                Mechanism::Clutch,
                Mechanism::Clutch,
                Mechanism::Pawl,
                Mechanism::Manual,
            ],
            Mechanism::Clutch,
        );
        let edge = EdgePrint::drawn(draw);
        Self {
            brake,
            shoe: if steer {
                draw.pick(&[Shoe::Strip, Shoe::TwoPads], Shoe::TwoPads)
            } else {
                Shoe::TwoPads
            },
            chamber: Chamber::listed(Family::Clamp, size, class).unwrap_or(NOT_LISTED),
            arm_quarters: draw.pick(&[20, 22, 24], 22),
            mechanism,
            edge,
            nominal_5thou: if steer { 3_000 } else { 3_300 },
            studs: if steer { draw.pick(&[8, 10], 10) } else { 10 },
            roller_64ths: draw.between(12 * 64 + 24, 12 * 64 + 32),
        }
    }

    /// A wheel end with nothing wrong, worn as any that came in on its wheels.
    fn end(&self, draw: &mut Draw) -> End {
        let worn = self.nominal_5thou + draw.between(1, 10);
        let pawl = self.mechanism == Mechanism::Pawl;
        let diameters = |draw: &mut Draw| [(); 4].map(|()| worn + draw.between(0, 1));
        End {
            chamber: self.chamber,
            mechanism: self.mechanism,
            edge: self.edge,
            studs: self.studs,
            arm_quarters: self.arm_quarters,
            at_rest_16ths: draw.between(20, 44),
            free_16ths: if pawl { 9 } else { draw.between(9, 10) },
            flex_16ths: draw.between(8, 11),
            adjuster_torque: if pawl {
                draw.between(10, 30)
            } else {
                draw.between(18, 40)
            },
            arm_bushing_thou: draw.between(626, 640),
            clevis_gap_thou: draw.between(8, 40),
            clevis_pin: clevis::Sign::Nothing,
            clevis_hole: clevis::Sign::Nothing,
            lining_32nds: draw.between(12, 20),
            lining_looks: Vec::new(),
            lining_gap_thou: draw.between(1, 6),
            span_64ths: self.roller_64ths,
            recess_64ths: draw.between(50, 53),
            drum: Drum {
                nominal_5thou: self.nominal_5thou,
                cast_max_5thou: self.nominal_5thou + 24,
                front_5thou: diameters(draw),
                back_5thou: diameters(draw),
                surface: Surface::Even,
            },
            cam_radial_thou: draw.between(4, 15),
            cam_end_thou: draw.between(10, 35),
            spline_thou: draw.between(15, 60),
            cam_head: cam::Sign::Nothing,
            grease: cam::Sign::Nothing,
            spider: cam::Sign::Nothing,
            groove_thou: draw.between(0, 15),
            hub_play_thou: draw.between(2, 4),
            stud_signs: Vec::new(),
            nut_signs: Vec::new(),
            wheel_signs: Vec::new(),
            flaws: Vec::new(),
        }
    }
}

fn support(is: AxleIs, draw: &mut Draw) -> Support {
    let hundreds = |draw: &mut Draw, low, high| Mass::from_lb(draw.between(low, high) * 100);
    let many = if is == AxleIs::Steer { 1 } else { 2 };
    let ties = if many == 1 {
        Ties::Apart
    } else {
        draw.pick(
            &[Ties::Apart, Ties::Linked, Ties::AirOut, Ties::Unknown],
            Ties::Unknown,
        )
    };
    let known = !draw.one_in(5);
    let first = if is == AxleIs::Steer { 1 } else { 2 };
    let axles = (first..first + many)
        .map(|number| {
            let weight = hundreds(draw, 80, 190);
            load::Axle {
                number,
                raised: number == first,
                weight: known.then_some(weight),
            }
        })
        .collect();
    let tare = hundreds(draw, 400, 480);
    let gross = hundreds(draw, 500, 700);
    let loading = draw.pick(
        &[Loading::Loaded, Loading::Unloaded, Loading::Unknown],
        Loading::Unknown,
    );
    let stand = |draw: &mut Draw| {
        let tons = draw.pick(&["7", "10", "12", "15", "20", "22"], "10");
        let unit = draw.pick(
            &[Unit::ShortTon, Unit::Tonne, Unit::TonUnmarked],
            Unit::TonUnmarked,
        );
        StandTag {
            rating: Typed::parse(tons, unit).ok(),
            basis: draw.pick(Basis::ALL, Basis::Unmarked),
            condition: if draw.one_in(12) {
                draw.pick(Condition::ALL, Condition::Damaged)
            } else {
                Condition::Sound
            },
        }
    };
    let one = stand(draw);
    let other = if draw.one_in(3) {
        stand(draw)
    } else {
        one.clone()
    };
    Support {
        group: Group { ties, axles },
        unit: UnitWeight {
            tare: Some(tare),
            gross: Some(gross),
            loading,
        },
        stands: vec![one, other],
    }
}

#[cfg(test)]
pub(crate) mod tests;
