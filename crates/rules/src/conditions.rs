//! Under which conditions a stroke was read, and what a doubtful reading still proves.
//!
//! Judged by direction: what shortens a stroke leaves `beyond` standing and proves nothing
//! `within`; what lengthens it the reverse. With the parking brake on, the engine running or the
//! pressure unknown there is no reading at all. No stroke limit is known here.

use crate::quantity::{Pressure, Quantity};
use crate::rules::{self, Figure, Rule};
use crate::source;
use crate::unit::Unit;
use crate::verdict::{Judgement, Limit, RuleId, Verdict};
use crate::word::{self, Remark};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("slack.conditions"),
    title: word::RULE_SLACK_CONDITIONS,
    units: &[Unit::Psi, Unit::Kilopascal, Unit::Bar],
    limits: word::LIMIT_SLACK_CONDITIONS,
    figures: FIGURES,
    sources: &[&source::RESERVOIR_WINDOW, &source::CHAMBER_WINDOW],
};

/// The pressures between which a reading is fair, ends included.
const FIGURES: &[Figure] = &[
    Figure {
        name: "reservoir least",
        limit: Limit::at_least(psi(90), &source::RESERVOIR_WINDOW),
    },
    Figure {
        name: "reservoir most",
        limit: Limit::at_most(psi(100), &source::RESERVOIR_WINDOW),
    },
    Figure {
        name: "chamber least",
        limit: Limit::at_least(psi(80), &source::CHAMBER_WINDOW),
    },
    Figure {
        name: "chamber most",
        limit: Limit::at_most(psi(90), &source::CHAMBER_WINDOW),
    },
];

const fn psi(n: i64) -> Quantity {
    Quantity::Pressure(Pressure::from_psi(n))
}

/// The air behind a full application, and where it was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Air {
    /// On the reservoir gauge.
    AtReservoir(Pressure),
    /// In the brake chamber, during the application.
    AtChamber(Pressure),
    /// Nobody read it.
    Unknown,
}

/// Whether the engine ran: a running engine keeps pumping.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Engine {
    /// Off.
    Off,
    /// Running.
    Running,
    /// Not known.
    Unknown,
}

/// Whether a spring brake held the pushrod out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Parking {
    /// Released, caged, or none fitted.
    Released,
    /// On.
    On,
    /// Not known.
    Unknown,
}

/// How far the pedal went.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Application {
    /// All the way, and held.
    Full,
    /// Less than that.
    Partial,
    /// Not known.
    Unknown,
}

/// Whether the drum had grown from heat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Heat {
    /// Cold.
    Cold,
    /// Hot.
    Hot,
    /// Not known.
    Unknown,
}

/// All that decides what a stroke reading proves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Conditions {
    /// The air behind it.
    pub air: Air,
    /// The engine.
    pub engine: Engine,
    /// The parking brake.
    pub parking: Parking,
    /// The pedal.
    pub application: Application,
    /// The drum.
    pub heat: Heat,
}

/// What the conditions do to a stroke.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Effect {
    /// Nothing: it proves what it shows.
    Fair,
    /// It shows less than there is.
    Shortens,
    /// It shows more than there is.
    Lengthens,
    /// Both at once: it proves nothing.
    BothWays,
    /// No reading at all.
    Void(Void),
}

/// Why there is no reading at all.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Void {
    /// The parking brake was on, or nobody knows.
    Parking,
    /// The engine was running, or nobody knows.
    Engine,
    /// Nobody read the pressure.
    Pressure,
}

impl Conditions {
    /// As a stroke should be read: reservoir at 95 psi, engine off, released, full, cold.
    pub const FAIR: Self = Self {
        air: Air::AtReservoir(Pressure::from_psi(95)),
        engine: Engine::Off,
        parking: Parking::Released,
        application: Application::Full,
        heat: Heat::Cold,
    };

    /// What they do to a stroke.
    ///
    /// Units: any pressure. Source: [`source::RESERVOIR_WINDOW`] and
    /// [`source::CHAMBER_WINDOW`]; the direction is this crate's own.
    pub fn effect(self) -> Effect {
        self.effect_by(FIGURES)
    }

    fn effect_by(self, figures: &[Figure]) -> Effect {
        if self.parking != Parking::Released {
            return Effect::Void(Void::Parking);
        }
        if self.engine != Engine::Off {
            return Effect::Void(Void::Engine);
        }
        let (read, least, most) = match self.air {
            Air::AtReservoir(read) => (read, "reservoir least", "reservoir most"),
            Air::AtChamber(read) => (read, "chamber least", "chamber most"),
            Air::Unknown => return Effect::Void(Void::Pressure),
        };
        let past = |name| {
            let limit = rules::named(figures, name);
            limit.and_then(|limit| limit.judge(read.into())) == Some(Verdict::Beyond)
        };
        let shortens = past(least) || self.application != Application::Full;
        let lengthens = past(most) || self.heat == Heat::Hot;
        match (shortens, lengthens) {
            (false, false) => Effect::Fair,
            (true, false) => Effect::Shortens,
            (false, true) => Effect::Lengthens,
            (true, true) => Effect::BothWays,
        }
    }
}

impl Judgement {
    /// The judgement of a stroke, taken under these conditions.
    pub fn under(self, taken: Conditions) -> Self {
        self.under_by(FIGURES, taken)
    }

    pub(crate) fn under_by(self, figures: &[Figure], taken: Conditions) -> Self {
        let unsure_heat = taken.heat == Heat::Unknown;
        let judged = match taken.effect_by(figures) {
            Effect::Fair => self,
            Effect::Shortens => {
                let stands = self.verdict == Verdict::Beyond;
                self.standing_if(stands, word::REMARK_SHORTENED)
            }
            Effect::Lengthens => {
                let stands = self.verdict != Verdict::Beyond;
                self.standing_if(stands, word::REMARK_LENGTHENED)
            }
            Effect::BothWays => self.standing_if(false, word::REMARK_BOTH_WAYS),
            Effect::Void(Void::Parking) => self.standing_if(false, word::REMARK_VOID_PARKING),
            Effect::Void(Void::Engine) => self.standing_if(false, word::REMARK_VOID_ENGINE),
            Effect::Void(Void::Pressure) => self.standing_if(false, word::REMARK_VOID_PRESSURE),
        };
        if unsure_heat && judged.verdict != Verdict::NoReading {
            return judged.remarking(Remark::plain(word::REMARK_TEMPERATURE_UNKNOWN));
        }
        judged
    }

    fn standing_if(self, stands: bool, word: crate::word::Word) -> Self {
        let judged = if stands { self } else { self.proving_nothing() };
        judged.remarking(Remark::plain(word))
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::cases::{Row, cases};
    use crate::nudge::Outcome;
    use crate::quantity::Length;

    fn conditions(row: &Row<'_>) -> Conditions {
        let pressure = row
            .quantity("pressure")
            .map(|pressure| pressure.pressure().unwrap());
        Conditions {
            air: match (row.text("read at"), pressure) {
                ("reservoir", Some(pressure)) => Air::AtReservoir(pressure),
                ("chamber", Some(pressure)) => Air::AtChamber(pressure),
                _ => Air::Unknown,
            },
            engine: match row.text("engine") {
                "off" => Engine::Off,
                "running" => Engine::Running,
                _ => Engine::Unknown,
            },
            parking: match row.text("parking") {
                "released" => Parking::Released,
                "on" => Parking::On,
                _ => Parking::Unknown,
            },
            application: match row.text("application") {
                "full" => Application::Full,
                "partial" => Application::Partial,
                _ => Application::Unknown,
            },
            heat: match row.text("heat") {
                "cold" => Heat::Cold,
                "hot" => Heat::Hot,
                _ => Heat::Unknown,
            },
        }
    }

    /// Every row at just inside, on and just past a limit of two inches.
    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let two = Length::from_inch_64ths(128);
        let limit = Limit::at_most(two.into(), &source::COMMON_PRACTICE);
        let judged = |n, taken| {
            let reading = Length::from_inch_64ths(n).into();
            let judged = Judgement::of(RULE.id, reading, &[limit], &source::COMMON_PRACTICE);
            judged.under_by(figures, taken)
        };
        let mut outcomes = Vec::new();
        for row in cases(include_str!("conditions.tsv")) {
            let taken = conditions(&row);
            let effect = format!("{row}{:?}", taken.effect_by(figures));
            outcomes.push((effect, format!("{row}{}", row.text("effect"))));
            for (n, column) in [(127, "1 63/64"), (128, "2"), (129, "2 1/64")] {
                let got = format!("{row}{:?}", judged(n, taken).verdict);
                outcomes.push((got, format!("{row}{:?}", row.verdict(column))));
            }
        }
        outcomes
    }

    #[test]
    fn table() {
        for (got, expected) in outcomes(FIGURES) {
            assert_eq!(got, expected);
        }
    }

    #[test]
    fn every_doubt_is_said() {
        for row in cases(include_str!("conditions.tsv")) {
            let taken = conditions(&row);
            let one = Judgement::without_reading(RULE.id, &source::COMMON_PRACTICE);
            let within = Judgement {
                verdict: Verdict::Within,
                ..one
            }
            .under(taken);
            let doubtful = taken.effect() != Effect::Fair || taken.heat == Heat::Unknown;
            assert_eq!(within.remarks.is_empty(), !doubtful, "{row}");
        }
    }

    #[test]
    fn fair_is_fair() {
        assert_eq!(Conditions::FAIR.effect(), Effect::Fair);
    }
}
