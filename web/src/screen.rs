//! Which screen is open. It stands in the address as a fragment, so that any static host will do.

use job::id::{Place, StepId};

/// A screen of the app.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Screen {
    /// Cards, and everything that is not one card.
    Start,
    NewCard,
    People,
    Stands,
    Settings,
    /// A card as a file: save, share, take in.
    Files,
    /// The open card, from above.
    Map,
    /// One step of the open card.
    Step {
        at: Place,
        step: StepId,
    },
    /// Which wheel ends of the open card wait for a second look.
    Looks,
    /// What was measured and done at one wheel end, for the second look.
    Look {
        at: Place,
    },
    /// Every line of the open card.
    Trail,
    /// The set-up sheet of the open card.
    Setup,
    /// Every rule with its limits and sources.
    Rules,
}

impl Screen {
    /// The fragment of the address, without `#`.
    pub(crate) fn fragment(&self) -> String {
        match self {
            Self::Start => "start".to_owned(),
            Self::NewCard => "new".to_owned(),
            Self::People => "people".to_owned(),
            Self::Stands => "stands".to_owned(),
            Self::Settings => "tablet".to_owned(),
            Self::Files => "files".to_owned(),
            Self::Map => "map".to_owned(),
            Self::Step { at, step } => format!("step/{at}/{step}"),
            Self::Looks => "looks".to_owned(),
            Self::Look { at } => format!("look/{at}"),
            Self::Trail => "trail".to_owned(),
            Self::Setup => "setup".to_owned(),
            Self::Rules => "rules".to_owned(),
        }
    }

    /// The screen of a fragment; `None` for one that no screen has.
    pub(crate) fn of_fragment(fragment: &str) -> Option<Self> {
        let fragment = fragment.trim_start_matches('#');
        if let Some(rest) = fragment.strip_prefix("step/") {
            let (at, step) = rest.split_once('/')?;
            return Some(Self::Step {
                at: at.parse().ok()?,
                step: StepId::from(step),
            });
        }
        if let Some(at) = fragment.strip_prefix("look/") {
            return Some(Self::Look {
                at: at.parse().ok()?,
            });
        }
        [
            Self::Start,
            Self::NewCard,
            Self::People,
            Self::Stands,
            Self::Settings,
            Self::Files,
            Self::Map,
            Self::Looks,
            Self::Trail,
            Self::Setup,
            Self::Rules,
        ]
        .into_iter()
        .find(|screen| screen.fragment() == fragment)
    }

    /// True for screens that show the open card.
    pub(crate) fn needs_card(&self) -> bool {
        matches!(
            self,
            Self::Map
                | Self::Step { .. }
                | Self::Looks
                | Self::Look { .. }
                | Self::Trail
                | Self::Setup
        )
    }
}
