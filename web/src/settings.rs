//! What this tablet is set to. Losing it costs nothing, so it may live in local storage.

use gloo_storage::{LocalStorage, Storage};
use job::id::{CardId, PersonId};
use job::judge::Units;
use serde::{Deserialize, Serialize};

const KEY: &str = "chock-to-chock-tablet";

/// CSS pixels per millimetre until somebody has calibrated the tablet.
pub(crate) const PX_PER_MM: f64 = 5.2;

/// Settings of one tablet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct Settings {
    pub(crate) glove: Glove,
    pub(crate) theme: Theme,
    pub(crate) units: UnitChoice,
    /// CSS pixels per millimetre, once calibrated.
    pub(crate) px_per_mm: Option<f64>,
    pub(crate) last_card: Option<CardId>,
    pub(crate) last_person: Option<PersonId>,
    /// The practice bay was open last.
    pub(crate) practice: bool,
    pub(crate) language: String,
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
pub(crate) enum Glove {
    Thin,
    Heavy,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Theme {
    Light,
    Dark,
}

/// The units that figures are shown in. What is typed keeps its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum UnitChoice {
    InchPound,
    Metric,
}

impl UnitChoice {
    pub(crate) fn units(self) -> Units {
        match self {
            Self::InchPound => Units::INCH_POUND,
            Self::Metric => Units::METRIC,
        }
    }
}

impl Settings {
    /// What was kept, or the defaults.
    pub(crate) fn load() -> Self {
        LocalStorage::get(KEY).unwrap_or_default()
    }

    /// Keeps them. A full or closed storage changes nothing for the work.
    pub(crate) fn keep(&self) {
        if let Err(error) = LocalStorage::set(KEY, self) {
            leptos::logging::warn!("settings not kept: {error}");
        }
    }

    pub(crate) fn px_per_mm(&self) -> f64 {
        self.px_per_mm.unwrap_or(PX_PER_MM)
    }
}
