//! What can be wrong with a made-up axle: the findings of the procedure, each as a fault to plant.
//!
//! Whether a missed one could hurt somebody is said here; what limit it breaks is not.

/// Writes the list once: each line is a fault, its finding, the part that it takes up, and whether
/// it could hurt somebody who doesn't see it.
macro_rules! faults {
    ($($name:ident = $finding:literal, $takes:ident, $hurts:literal;)*) => {
        /// Something wrong, by the finding of the procedure that it is.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Fault {
            $(#[doc = concat!("`", $finding, "`")] $name),*
        }

        impl Fault {
            /// Every fault, in the order of the procedure's findings.
            pub const ALL: &[Self] = &[$(Self::$name),*];

            /// The id of its finding in the procedure.
            pub const fn finding(self) -> &'static str {
                match self { $(Self::$name => $finding),* }
            }

            /// Whether it could hurt somebody if it goes back on the road unseen.
            pub const fn hurts(self) -> bool {
                match self { $(Self::$name => $hurts),* }
            }

            /// What it takes up: two of the same can't both be planted at one wheel end.
            pub(crate) const fn takes(self) -> Takes {
                match self { $(Self::$name => Takes::$takes),* }
            }
        }
    };
}

/// What a fault takes up of a wheel end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Takes {
    Axle,
    Stroke,
    Leak,
    Drum,
    CamEnd,
    CamHead,
    Spline,
    Spider,
    ClevisPin,
    ClevisGap,
    ArmBushing,
    Gear,
    Body,
    Chamber,
    SpringBrake,
    Springs,
    SpiderBolts,
    Lining,
    RustJacked,
    Span,
    Recess,
    Bearing,
    HubOil,
    Shield,
    Hose,
    Nuts,
    Wheel,
    EdgeCodes,
}

faults! {
    ClevisPin = "clevis-pin", ClevisPin, false;
    ClevisHole = "clevis-hole", Stroke, false;
    ClevisGap = "clevis-gap", ClevisGap, false;
    ArmBushing = "arm-bushing", ArmBushing, false;
    AdjusterWeak = "adjuster-weak", Stroke, true;
    AdjusterStiff = "adjuster-stiff", Gear, false;
    ControlArm = "control-arm", Body, true;
    AdjusterBoot = "adjuster-boot", Body, false;
    UnlikeEnds = "unlike-ends", Axle, false;
    ChamberLeak = "chamber-leak", Chamber, true;
    ChamberBody = "chamber-body", Chamber, true;
    SpringLeak = "spring-leak", SpringBrake, true;
    SpringBody = "spring-body", SpringBrake, true;
    BoltWontSeat = "bolt-wont-seat", SpringBrake, true;
    RodNotSquare = "rod-not-square", Chamber, false;
    ChamberBracket = "chamber-bracket", Stroke, true;
    CamSeal = "cam-seal", Leak, false;
    CamBushings = "cam-bushings", Stroke, false;
    CamEndPlay = "cam-end-play", CamEnd, false;
    CamHead = "cam-head", CamHead, false;
    CamSpline = "cam-spline", Spline, false;
    CamSeized = "cam-seized", Leak, true;
    Rollers = "rollers", Stroke, false;
    ReturnSpring = "return-spring", Springs, true;
    AnchorPin = "anchor-pin", Stroke, false;
    Spider = "spider", Spider, true;
    SpiderBolts = "spider-bolts", SpiderBolts, true;
    LiningThin = "lining-thin", Lining, true;
    LiningOil = "lining-oil", Leak, true;
    RustJacked = "rust-jacked", RustJacked, false;
    ShoeSpan = "shoe-span", Span, false;
    RollerRecess = "roller-recess", Recess, false;
    EdgeCodes = "edge-codes", EdgeCodes, false;
    DrumCracked = "drum-cracked", Drum, true;
    DrumOversize = "drum-oversize", Drum, true;
    DrumHeat = "drum-heat", Drum, true;
    DrumShape = "drum-shape", Drum, false;
    WheelSeal = "wheel-seal", Leak, true;
    BearingPlay = "bearing-play", Bearing, true;
    HubOil = "hub-oil", HubOil, true;
    DustShield = "dust-shield", Shield, false;
    Hose = "hose", Hose, true;
    Studs = "studs", Nuts, true;
    Nuts = "nuts", Nuts, true;
    Wheel = "wheel", Wheel, true;
    StrokeLong = "stroke-long", Stroke, true;
    Drags = "drags", Stroke, true;
}

impl Fault {
    /// The fault of a finding; `None` for one that no version plants.
    pub fn of_finding(finding: &str) -> Option<Self> {
        Self::ALL
            .iter()
            .copied()
            .find(|fault| fault.finding() == finding)
    }

    /// Whether it is one of the whole axle, not of one wheel end.
    pub const fn is_of_axle(self) -> bool {
        matches!(self, Self::UnlikeEnds | Self::EdgeCodes)
    }
}

#[cfg(test)]
mod tests {
    use job::procedure::Procedure;

    use super::*;

    #[test]
    fn every_finding_of_the_procedure_is_a_fault_and_what_protects_hurts() {
        let text = include_str!("../../../assets/procedure/s-cam-reline.json");
        let procedure = Procedure::read(text).unwrap();
        // A made-up axle is never driven: what only a road check can show is not planted.
        let on_the_road = |finding: &&str| *finding == "loose-again";
        let findings: Vec<&str> = procedure
            .findings
            .iter()
            .map(|finding| finding.id.as_str())
            .filter(|finding| !on_the_road(finding))
            .collect();
        let faults: Vec<&str> = Fault::ALL.iter().map(|fault| fault.finding()).collect();
        assert_eq!(faults, findings);
        for finding in procedure.findings.iter().filter(|one| one.protects) {
            let fault = Fault::of_finding(finding.id.as_str()).unwrap();
            assert!(fault.hurts(), "{fault:?}");
        }
        assert_eq!(Fault::of_finding("paint"), None);
    }
}
