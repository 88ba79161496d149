//! What this tablet is set to. Losing it costs nothing, so it may live in local storage.

use gloo_storage::{LocalStorage, Storage};
use job::id::{CardId, PersonId};
use job::judge::Units;
use serde::{Deserialize, Serialize};

const KEY: &str = "chock-to-chock-tablet";

/// Width of a bank card, in millimetres (ISO/IEC 7810, ID-1), laid on the screen to calibrate it.
pub const BANK_CARD_MM: f64 = 85.6;
/// CSS pixels per millimetre until somebody has calibrated the tablet.
pub const PX_PER_MM: f64 = 5.2;

/// Settings of one tablet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Settings {
    pub glove: Glove,
    pub theme: Theme,
    pub units: UnitChoice,
    /// CSS pixels per millimetre, once calibrated.
    pub px_per_mm: Option<f64>,
    pub last_card: Option<CardId>,
    pub last_person: Option<PersonId>,
    /// The practice bay was open last.
    pub practice: bool,
    pub language: String,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            glove: Glove::Thin,
            theme: Theme::Light,
            units: UnitChoice::InchPound,
            px_per_mm: None,
            last_card: None,
            last_person: None,
            practice: false,
            language: "en".to_owned(),
        }
    }
}

/// How large everything that can be pressed is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Glove {
    Thin,
    Heavy,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Theme {
    Light,
    Dark,
}

/// The units that figures are shown in. What is typed keeps its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum UnitChoice {
    InchPound,
    Metric,
}

impl UnitChoice {
    pub fn units(self) -> Units {
        match self {
            Self::InchPound => Units::INCH_POUND,
            Self::Metric => Units::METRIC,
        }
    }
}

impl Settings {
    /// What was kept, or the defaults.
    pub fn load() -> Self {
        LocalStorage::get(KEY).unwrap_or_default()
    }

    /// Keeps them. A full or closed storage changes nothing for the work.
    pub fn keep(&self) {
        if let Err(error) = LocalStorage::set(KEY, self) {
            leptos::logging::warn!("settings not kept: {error}");
        }
    }

    pub fn px_per_mm(&self) -> f64 {
        self.px_per_mm.unwrap_or(PX_PER_MM)
    }
}
