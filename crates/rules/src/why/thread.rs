//! How much steel a thread has, and what that may be loaded to.
//!
//! Stress area from diameter and pitch, proof load from the class of the stud. Both by the formulas
//! that the standards' tables are made with.

use crate::quantity::{Length, Pressure};
use crate::rules::Rule;
use crate::shown;
use crate::source;
use crate::verdict::RuleId;
use crate::why::force::Force;
use crate::word;

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("why.thread"),
    title: word::RULE_WHY_THREAD,
    units: &[],
    limits: word::LIMIT_WHY_THREAD,
    figures: &[],
    sources: &[
        &source::METRIC_CLASSES,
        &source::INCH_THREADS,
        &source::INCH_GRADES,
    ],
};

/// π in 10⁻¹².
const PI: i128 = 3_141_592_653_590;
const PI_ONE: i128 = 1_000_000_000_000;

/// A thread by its diameter and pitch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Thread {
    /// Metric: both as lengths.
    Metric {
        /// Over the threads.
        diameter: Length,
        /// From crest to crest.
        pitch: Length,
    },
    /// Unified: so many threads to the inch.
    Unified {
        /// Over the threads.
        diameter: Length,
        /// Threads to the inch.
        per_inch: u32,
    },
}

/// An area in whole square nanometres: a square inch is exactly 645 160 000 000 000 of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Area(i128);

const SQ_MM: i128 = 1_000_000_000_000;
const SQ_IN: i128 = 645_160_000_000_000;

impl Area {
    /// Whole square millimetres.
    pub const fn from_sq_mm(n: i64) -> Self {
        Self(n as i128 * SQ_MM)
    }

    /// In square millimetres, to the nearest at so many decimals.
    pub fn sq_mm(self, places: u8) -> String {
        shown::quotient(self.0, SQ_MM, places).unwrap_or_default()
    }

    /// In square inches, to the nearest at so many decimals.
    pub fn sq_in(self, places: u8) -> String {
        shown::quotient(self.0, SQ_IN, places).unwrap_or_default()
    }
}

impl Thread {
    /// The diameter over the threads.
    pub const fn diameter(self) -> Length {
        match self {
            Self::Metric { diameter, .. } | Self::Unified { diameter, .. } => diameter,
        }
    }

    /// The area that carries: π/4 (d − 0.9382 P)², in inches π/4 (D − 0.9743/n)².
    ///
    /// Errors: `None` for a pitch that leaves nothing.
    /// Source: [`source::METRIC_CLASSES`], [`source::INCH_THREADS`].
    pub fn stress_area(self) -> Option<Area> {
        let (diameter, off) = match self {
            Self::Metric { diameter, pitch } => (diameter, pitch.base() * 9_382 / 10_000),
            Self::Unified { diameter, per_inch } => {
                let over = i128::from(per_inch) * 10_000;
                (diameter, (25_400_000_i128 * 9_743).checked_div(over)?)
            }
        };
        let across = diameter.base() - off;
        if across <= 0 {
            return None;
        }
        let squared = across.checked_mul(across)?;
        Some(Area(squared.checked_mul(PI)? / PI_ONE / 4))
    }
}

/// How strong a stud is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Class {
    /// Metric 10.9.
    TenNine,
    /// Grade 8, six marks on the head.
    GradeEight,
}

impl Class {
    /// The stress that it has to stand without a set.
    pub const fn proof(self) -> Pressure {
        match self {
            Self::TenNine => Pressure::from_kpa(830_000),
            Self::GradeEight => Pressure::from_psi(120_000),
        }
    }

    /// The stress at which it yields.
    pub const fn yields(self) -> Pressure {
        match self {
            Self::TenNine => Pressure::from_kpa(940_000),
            Self::GradeEight => Pressure::from_psi(130_000),
        }
    }
}

/// What an area carries at a stress; `None` when it doesn't fit.
///
/// Errors: none besides. Source: [`source::METRIC_CLASSES`], [`source::INCH_GRADES`].
pub fn load(area: Area, stress: Pressure) -> Option<Force> {
    // Square nanometres times the base of a pressure, in 10⁻¹⁴ N.
    let base = area.0.checked_mul(stress.base())? / 645_160_000_000_000;
    Some(Force::from_base(base))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cases::cases;
    use crate::quantity::Ratio;

    #[test]
    fn table() {
        for row in cases(include_str!("thread.tsv")) {
            let length = |name| row.quantity(name).unwrap().length().unwrap();
            let diameter = length("diameter");
            let (thread, class) = match row.text("pitch").strip_suffix(" tpi") {
                Some(per_inch) => (
                    Thread::Unified {
                        diameter,
                        per_inch: per_inch.parse().unwrap(),
                    },
                    Class::GradeEight,
                ),
                None => (
                    Thread::Metric {
                        diameter,
                        pitch: length("pitch"),
                    },
                    Class::TenNine,
                ),
            };
            let area = thread.stress_area().unwrap();
            assert_eq!(area.sq_mm(2), row.text("mm2"), "{row}");
            assert_eq!(area.sq_in(4), row.text("in2"), "{row}");
            let proof = load(area, class.proof()).unwrap();
            assert_eq!(proof.kilonewtons(1), row.text("kN"), "{row}");
            let three_quarters = proof.times(Ratio::from_percent(75)).unwrap();
            assert_eq!(three_quarters.lbf(0), row.text("75 percent lbf"), "{row}");
            assert!(class.yields() > class.proof());
        }
    }

    #[test]
    fn a_pitch_that_leaves_nothing_has_no_area() {
        let diameter = Length::from_mm_hundredths(100);
        let pitch = Length::from_mm_hundredths(200);
        assert_eq!(Thread::Metric { diameter, pitch }.stress_area(), None);
        assert_eq!(
            Thread::Unified {
                diameter,
                per_inch: 0
            }
            .stress_area(),
            None
        );
    }

    proptest! {
        #[test]
        fn a_thicker_stud_has_more_steel(a in 600_i64..4_000, b in 600_i64..4_000) {
            let area = |n| Thread::Metric {
                diameter: Length::from_mm_hundredths(n),
                pitch: Length::from_mm_hundredths(150),
            }.stress_area();
            prop_assert!(area(a.min(b)) <= area(a.max(b)));
        }
    }
}
