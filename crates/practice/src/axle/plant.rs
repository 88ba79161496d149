//! Puts what is wrong into a sound axle, each fault with what it does to the rest of the brake.
//!
//! How far past its limit a reading has to lie is asked of the rule, never known here.

use rules::bearing::end_play;
use rules::bearing::setup::Way;
use rules::camshaft::brake::Brake;
use rules::camshaft::look as cam;
use rules::drum::surface::Surface;
use rules::lining::look::Look;
use rules::lining::thickness;
use rules::quantity::Length;
use rules::slack::applied;
use rules::slack::chamber::{Chamber, Family, StrokeClass};
use rules::slack::clevis;
use rules::slack::free::{self, When};
use rules::slack::mechanism::Mechanism;
use rules::stud::{neighbours, nuts, wheel};
use rules::verdict::Verdict;

use job::id::Side;

use super::{Axle, Drum, End};
use crate::fault::{Fault, Takes};
use crate::seed::{Draw, Level};

impl Axle {
    pub(super) fn plant(&mut self, draw: &mut Draw) {
        let wanted = match self.seed.level() {
            // One axle in eight has nothing wrong: a good part can be condemned as well.
            _ if draw.one_in(8) => 0,
            Level::Plain => 1,
            Level::Usual => draw.between(2, 3),
            Level::Close => draw.between(3, 5),
        };
        let mut chosen: Vec<(Option<Side>, Fault)> = Vec::new();
        for _ in 0..wanted {
            let fault = draw.pick(Fault::ALL, Fault::StrokeLong);
            let side = draw.pick(&[Side::Left, Side::Right], Side::Left);
            let at = (!fault.is_of_axle()).then_some(side);
            let clashes = chosen
                .iter()
                .any(|(where_, other)| *where_ == at && other.takes() == fault.takes());
            if !clashes && self.can_have(fault) {
                chosen.push((at, fault));
            }
        }
        // What makes the ends unlike changes limits, so it comes before what has to lie past one.
        chosen.sort_by_key(|(at, fault)| (at.is_some(), *fault));
        for (at, fault) in &chosen {
            match at {
                Some(side) => self.put(*side, *fault, draw),
                None => self.put_across(*fault, draw),
            }
        }
        self.planted = chosen;
    }

    /// Whether an axle of this kind can have it at all.
    fn can_have(&self, fault: Fault) -> bool {
        let mechanism = self.left.mechanism;
        if matches!(fault, Fault::AdjusterWeak | Fault::ControlArm) {
            mechanism == Mechanism::Clutch
        } else if fault == Fault::AdjusterStiff {
            mechanism == Mechanism::Pawl
        } else {
            fault.takes() != Takes::SpringBrake || self.is.has_spring_brakes()
        }
    }

    fn put_across(&mut self, fault: Fault, draw: &mut Draw) {
        let right = &mut self.right;
        if fault == Fault::EdgeCodes {
            right.edge = right.edge.unlike(draw);
            return;
        }
        if draw.one_in(2) {
            right.arm_quarters += if right.arm_quarters == 24 { -2 } else { 2 };
        } else if let Chamber::Listed { of, class } = right.chamber {
            let class = match class {
                StrokeClass::Standard => StrokeClass::Long,
                StrokeClass::Long | StrokeClass::LongThreeInch | StrokeClass::Unknown => {
                    StrokeClass::Standard
                }
            };
            let unlike = Chamber::listed(Family::Clamp, of.name, class);
            right.chamber = unlike.unwrap_or(right.chamber);
        }
    }

    fn put(&mut self, side: Side, fault: Fault, draw: &mut Draw) {
        let limit_16ths = if fault == Fault::StrokeLong {
            self.limit_16ths(side)
        } else {
            0
        };
        // Enough for the sheet that allows the most.
        let more_radial = if self.brake == Brake::SpiderThirty {
            10
        } else {
            0
        };
        let end = self.end_mut(side);
        match fault {
            Fault::ClevisPin => {
                end.clevis_pin = draw.pick(
                    &[clevis::Sign::PinWorn, clevis::Sign::Bolt],
                    clevis::Sign::Bolt,
                );
            }
            Fault::ClevisHole => {
                end.clevis_hole = clevis::Sign::HoleLong;
                end.flex_16ths += 1;
            }
            Fault::ClevisGap => end.clevis_gap_thou = draw.between(64, 90),
            Fault::ArmBushing => end.arm_bushing_thou = draw.between(655, 680),
            Fault::AdjusterWeak => {
                // It slips, so the free stroke grew and the power stroke with it.
                end.adjuster_torque = draw.between(5, 11);
                end.free_16ths = draw.between(14, 18);
            }
            Fault::AdjusterStiff => end.adjuster_torque = draw.between(48, 70),
            Fault::CamBushings => end.cam_radial_thou = draw.between(23, 34) + more_radial,
            Fault::CamEndPlay => end.cam_end_thou = draw.between(66, 90),
            Fault::CamHead => end.cam_head = cam::Sign::HeadWorn,
            Fault::CamSpline => end.spline_thou = draw.between(100, 150),
            Fault::CamSeal => {
                end.grease = cam::Sign::GreaseAtHead;
                if draw.one_in(2) {
                    end.lining_looks.push(Look::Oiled);
                }
            }
            Fault::CamSeized => end.grease = cam::Sign::Binding,
            Fault::AnchorPin => end.groove_thou = draw.between(34, 60),
            Fault::Spider => end.spider = cam::Sign::AnchorWorn,
            Fault::LiningThin => end.lining_32nds = draw.between(4, 7),
            Fault::LiningOil => {
                // Oil comes from somewhere: one of the two seals leaks.
                end.lining_looks.push(Look::Oiled);
                if draw.one_in(2) {
                    end.flaws.push(Fault::WheelSeal);
                } else {
                    end.grease = cam::Sign::GreaseAtHead;
                }
            }
            Fault::WheelSeal => {
                end.flaws.push(Fault::WheelSeal);
                end.lining_looks.push(Look::Oiled);
            }
            Fault::RustJacked => end.lining_gap_thou = draw.between(14, 40),
            Fault::ShoeSpan => end.span_64ths = 12 * 64 + draw.between(39, 48),
            Fault::RollerRecess => end.recess_64ths = draw.between(57, 62),
            Fault::DrumCracked | Fault::DrumOversize | Fault::DrumHeat | Fault::DrumShape => {
                spoil(&mut end.drum, fault, draw);
            }
            Fault::BearingPlay => {
                end.hub_play_thou = if draw.one_in(3) {
                    0
                } else {
                    draw.between(8, 20)
                };
            }
            Fault::Studs => {
                let stud = u16::try_from(draw.between(1, i64::from(end.studs))).unwrap_or(1);
                let sign = draw.pick(
                    &[
                        neighbours::Sign::Broken,
                        neighbours::Sign::Threads,
                        neighbours::Sign::Stretched,
                    ],
                    neighbours::Sign::Broken,
                );
                end.stud_signs.push((stud, sign));
                if sign == neighbours::Sign::Broken {
                    end.nut_signs.push((stud, nuts::Sign::StudBroken));
                }
            }
            Fault::Nuts => {
                let nut = u16::try_from(draw.between(1, i64::from(end.studs))).unwrap_or(1);
                let signs = [nuts::Sign::Missing, nuts::Sign::Loose, nuts::Sign::ToRenew];
                end.nut_signs
                    .push((nut, draw.pick(&signs, nuts::Sign::Loose)));
            }
            Fault::Wheel => {
                let signs = [wheel::Sign::Cracked, wheel::Sign::Holes];
                let sign = draw.pick(&signs, wheel::Sign::Cracked);
                end.wheel_signs.push((wheel::Thing::Wheel, sign));
            }
            Fault::StrokeLong => make_long(end, limit_16ths, more_radial, draw),
            Fault::Drags => end.free_16ths = draw.between(2, 4),
            Fault::Rollers | Fault::ChamberBracket => {
                end.flaws.push(fault);
                end.flex_16ths += 1;
            }
            Fault::ControlArm
            | Fault::AdjusterBoot
            | Fault::ChamberLeak
            | Fault::ChamberBody
            | Fault::SpringLeak
            | Fault::SpringBody
            | Fault::BoltWontSeat
            | Fault::RodNotSquare
            | Fault::ReturnSpring
            | Fault::SpiderBolts
            | Fault::HubOil
            | Fault::DustShield
            | Fault::Hose => end.flaws.push(fault),
            Fault::UnlikeEnds | Fault::EdgeCodes => {}
        }
    }

    /// The last mark of the pushrod's rule that its chamber's limits don't refuse.
    pub(super) fn limit_16ths(&self, side: Side) -> i64 {
        let facts = self.stroke_facts(side);
        first_taken((0..64).rev(), |n| {
            applied::judge_applied(Length::from_inch_64ths(n * 4), &facts).verdict
        })
    }

    /// Brings sound readings up to their limits, and adds what looks wrong and isn't.
    pub(super) fn bring_close(&mut self, draw: &mut Draw) {
        let planted = self.planted.clone();
        for side in [Side::Left, Side::Right] {
            let taken = |takes: Takes| {
                planted
                    .iter()
                    .any(|(at, fault)| *at == Some(side) && fault.takes() == takes)
            };
            let (near, looks) = (draw.between(0, 4), draw.between(0, 3));
            let short = draw.between(0, 1);
            match near {
                0 if !taken(Takes::Stroke) => {
                    let limit = self.limit_16ths(side);
                    let end = self.end_mut(side);
                    end.flex_16ths += limit - short - end.power_16ths();
                }
                1 if !taken(Takes::Lining) => {
                    let facts = self.lining_facts();
                    let limit = first_taken(0..32, |n| {
                        thickness::judge_thickness(Length::from_inch_64ths(n * 2), &facts).verdict
                    });
                    self.end_mut(side).lining_32nds = limit + short;
                }
                2 if !taken(Takes::Drum) => {
                    let drum = &mut self.end_mut(side).drum;
                    drum.front_5thou = [drum.cast_max_5thou - short; 4];
                    drum.back_5thou = drum.front_5thou;
                }
                3 if !taken(Takes::Bearing) => {
                    let limit = first_taken((0..32).rev(), |n| {
                        let play = Length::from_inch_thousandths(n);
                        end_play::judge_end_play(play, Way::RuleBook).verdict
                    });
                    self.end_mut(side).hub_play_thou = limit - short;
                }
                4 if !taken(Takes::Stroke) => {
                    let mechanism = self.end(side).mechanism;
                    self.end_mut(side).free_16ths = first_taken(0..32, |n| {
                        let free = Length::from_inch_64ths(n * 4);
                        free::judge_free(free, mechanism, When::InService).verdict
                    });
                }
                _ => {}
            }
            let end = self.end_mut(side);
            match looks {
                0 if end.drum.surface == Surface::Even => end.drum.surface = Surface::FineChecks,
                1 => end.lining_looks.push(Look::Tapered),
                2 if end.nut_signs.is_empty() => {
                    end.nut_signs.push((1, nuts::Sign::WasherFreed));
                }
                _ => {}
            }
        }
    }
}

/// The first of `marks` that a rule doesn't refuse; nought where it refuses all of them.
fn first_taken(mut marks: impl Iterator<Item = i64>, judge: impl Fn(i64) -> Verdict) -> i64 {
    let refused = |verdict: Verdict| verdict.severity() >= Verdict::Beyond.severity();
    marks.find(|n| !refused(judge(*n))).unwrap_or(0)
}

fn spoil(drum: &mut Drum, fault: Fault, draw: &mut Draw) {
    if fault == Fault::DrumCracked {
        let cracks = [Surface::Crack, Surface::CrackThrough, Surface::PieceMissing];
        drum.surface = draw.pick(&cracks, Surface::Crack);
    } else if fault == Fault::DrumHeat {
        let signs = [Surface::HeavyChecks, Surface::Spots];
        drum.surface = draw.pick(&signs, Surface::Spots);
    } else if fault == Fault::DrumOversize {
        let worn = drum.cast_max_5thou + draw.between(1, 5);
        drum.front_5thou = [worn; 4];
        drum.back_5thou = [worn; 4];
    } else {
        let [_, front, ..] = &mut drum.front_5thou;
        *front += draw.between(5, 9);
    }
}

/// Gives way behind the adjuster until the stroke is past its limit, with a cause that can be found.
fn make_long(end: &mut End, limit_16ths: i64, more_radial: i64, draw: &mut Draw) {
    match draw.between(0, 3) {
        0 => end.cam_radial_thou = draw.between(23, 34) + more_radial,
        1 => end.flaws.push(Fault::ChamberBracket),
        2 => end.flaws.push(Fault::Rollers),
        _ => end.clevis_hole = clevis::Sign::HoleLong,
    }
    let target = limit_16ths + draw.between(1, 5);
    end.flex_16ths += target - end.power_16ths();
}
