//! Which screen is open. It stands in the address as a fragment, so that any static host will do.

use job::id::{Place, StepId, TabletId};
use job::line::LineRef;
use practice::drill::round::Round;
use practice::seed::Seed;

/// A screen of the app.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Screen {
    /// Cards, and everything that is not one card.
    Start,
    /// What is in the bays and what waits, for the foreman.
    Bay,
    /// Every card, to be searched.
    Cards,
    NewCard,
    /// The shop sheet: the way to its lists.
    Shop,
    People,
    Stands,
    Jacks,
    Limits,
    Wrenches,
    Wheels,
    /// Steps of the shop's own.
    ShopSteps,
    /// Where the final pass is done, and how it is logged.
    FinalPass,
    Defaults,
    Settings,
    /// A card as a file: save, share, take in.
    Files,
    /// Vehicles whose nuts wait for their road check.
    RoadChecks,
    /// The open card, from above.
    Map,
    /// One step of the open card.
    Step {
        at: Place,
        step: StepId,
    },
    /// What to have at the vehicle of the open card.
    Bring,
    /// Putting work that was found on the open card.
    Found {
        at: Place,
    },
    /// The extra lines of the open card.
    Lines,
    /// The extra lines in plain words, for the customer.
    ReadOut,
    /// One extra line, by the line of the trail that found it.
    Line {
        tablet: TabletId,
        n: u32,
    },
    /// A wheel end as it is handed over half done.
    HandOver {
        at: Place,
    },
    /// As found and as left, the whole vehicle.
    Sides,
    /// Which wheel ends of the open card wait for a second look.
    Looks,
    /// What was measured and done at one wheel end, for the second look.
    Look {
        at: Place,
    },
    /// What stands between the vehicle of the open card and the road.
    InTheWay,
    /// Every line of the open card.
    Trail,
    /// The print sheet of the open card.
    Record,
    /// The set-up sheet of the open card.
    Setup,
    /// Every rule with its limits and sources.
    Rules,
    /// The runs of the practice bay, and what somebody is sure of.
    Runs,
    /// The people of the practice bay side by side; with a seed, their markings of it.
    Compare {
        seed: Option<Seed>,
    },
    /// What came of the run on the open card.
    Marking,
    /// Which drills there are.
    Drills,
    /// A round of a drill, as far as it has come.
    Drill {
        round: Round,
    },
}

impl Screen {
    /// The screen of one extra line.
    pub(crate) fn line(line: &LineRef) -> Self {
        Self::Line {
            tablet: line.tablet.clone(),
            n: line.n,
        }
    }

    /// The fragment of the address, without `#`.
    pub(crate) fn fragment(&self) -> String {
        match self {
            Self::Start => "start".to_owned(),
            Self::Bay => "bay".to_owned(),
            Self::Cards => "cards".to_owned(),
            Self::NewCard => "new".to_owned(),
            Self::People => "people".to_owned(),
            Self::Shop => "shop".to_owned(),
            Self::Stands => "stands".to_owned(),
            Self::Jacks => "jacks".to_owned(),
            Self::Limits => "limits".to_owned(),
            Self::Wrenches => "wrenches".to_owned(),
            Self::Wheels => "wheels".to_owned(),
            Self::ShopSteps => "steps".to_owned(),
            Self::FinalPass => "final-pass".to_owned(),
            Self::Defaults => "defaults".to_owned(),
            Self::Settings => "tablet".to_owned(),
            Self::Files => "files".to_owned(),
            Self::RoadChecks => "road-checks".to_owned(),
            Self::Map => "map".to_owned(),
            Self::Bring => "bring".to_owned(),
            Self::Step { at, step } => format!("step/{at}/{step}"),
            Self::Found { at } => format!("found/{at}"),
            Self::Lines => "lines".to_owned(),
            Self::ReadOut => "read-out".to_owned(),
            Self::Line { tablet, n } => format!("line/{tablet}/{n}"),
            Self::HandOver { at } => format!("hand-over/{at}"),
            Self::Sides => "sides".to_owned(),
            Self::Looks => "looks".to_owned(),
            Self::Look { at } => format!("look/{at}"),
            Self::InTheWay => "way".to_owned(),
            Self::Trail => "trail".to_owned(),
            Self::Record => "record".to_owned(),
            Self::Setup => "setup".to_owned(),
            Self::Rules => "rules".to_owned(),
            Self::Runs => "runs".to_owned(),
            Self::Compare { seed: None } => "compare".to_owned(),
            Self::Compare { seed: Some(seed) } => format!("compare/{seed}"),
            Self::Marking => "marking".to_owned(),
            Self::Drills => "drills".to_owned(),
            Self::Drill { round } => format!("drill/{}", round.text()),
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
        if let Some(at) = fragment.strip_prefix("found/") {
            return Some(Self::Found {
                at: at.parse().ok()?,
            });
        }
        if let Some(rest) = fragment.strip_prefix("line/") {
            let (tablet, n) = rest.rsplit_once('/')?;
            return Some(Self::Line {
                tablet: TabletId::from(tablet),
                n: n.parse().ok()?,
            });
        }
        if let Some(at) = fragment.strip_prefix("hand-over/") {
            return Some(Self::HandOver {
                at: at.parse().ok()?,
            });
        }
        if let Some(round) = fragment.strip_prefix("drill/") {
            return Some(Self::Drill {
                round: Round::read(round)?,
            });
        }
        if let Some(seed) = fragment.strip_prefix("compare/") {
            return Some(Self::Compare {
                seed: Some(Seed::read(seed).ok()?),
            });
        }
        if let Some(at) = fragment.strip_prefix("look/") {
            return Some(Self::Look {
                at: at.parse().ok()?,
            });
        }
        [
            Self::Start,
            Self::Bay,
            Self::Cards,
            Self::NewCard,
            Self::People,
            Self::Shop,
            Self::Stands,
            Self::Jacks,
            Self::Limits,
            Self::Wrenches,
            Self::Wheels,
            Self::ShopSteps,
            Self::FinalPass,
            Self::Defaults,
            Self::Settings,
            Self::Files,
            Self::RoadChecks,
            Self::Map,
            Self::Bring,
            Self::Lines,
            Self::ReadOut,
            Self::Sides,
            Self::Looks,
            Self::InTheWay,
            Self::Trail,
            Self::Record,
            Self::Setup,
            Self::Rules,
            Self::Drills,
            Self::Runs,
            Self::Compare { seed: None },
            Self::Marking,
        ]
        .into_iter()
        .find(|screen| screen.fragment() == fragment)
    }

    /// True for screens that show the open card.
    pub(crate) fn needs_card(&self) -> bool {
        matches!(
            self,
            Self::Map
                | Self::Bring
                | Self::Step { .. }
                | Self::Found { .. }
                | Self::Lines
                | Self::ReadOut
                | Self::HandOver { .. }
                | Self::Sides
                | Self::Line { .. }
                | Self::Looks
                | Self::Look { .. }
                | Self::InTheWay
                | Self::Trail
                | Self::Record
                | Self::Setup
                | Self::Marking
        )
    }
}

#[cfg(test)]
mod tests {
    use practice::drill::{Answer, Drill};
    use practice::seed::{Level, Seed};

    use super::*;

    #[test]
    fn a_drill_reads_back_from_its_address_and_needs_no_card() {
        let drill = Screen::Drill {
            round: Round::new(Drill::EdgeCode, Seed::new(Level::Usual, 42)),
        };
        let said = Answer::Verdict(rules::verdict::Verdict::Sound);
        let answered = match &drill {
            Screen::Drill { round } => Screen::Drill {
                round: round.saying(said),
            },
            other => other.clone(),
        };
        assert_ne!(answered, drill);
        let seed = Some(Seed::new(practice::seed::Level::Close, 7));
        let compared = Screen::Compare { seed };
        let all = Screen::Compare { seed: None };
        for screen in [drill, answered, Screen::Drills, Screen::Runs, compared, all] {
            assert!(!screen.needs_card());
            assert_eq!(Screen::of_fragment(&screen.fragment()), Some(screen));
        }
        for fragment in [
            "drill/first",
            "drill/paint/1-usual-4",
            "drill/first/9-usual-4",
            "compare/9-usual-4",
        ] {
            assert_eq!(Screen::of_fragment(fragment), None, "{fragment}");
        }
    }

    #[test]
    fn an_extra_lines_screens_read_back_from_their_addresses() {
        let line = Screen::Line {
            tablet: TabletId::from("t1f-0a"),
            n: 12,
        };
        let found = Screen::Found { at: Place::Axle(3) };
        for screen in [
            line,
            found,
            Screen::Lines,
            Screen::ReadOut,
            Screen::Sides,
            Screen::HandOver { at: Place::Axle(2) },
        ] {
            assert!(screen.needs_card());
            assert_eq!(Screen::of_fragment(&screen.fragment()), Some(screen));
        }
        for fragment in ["found/", "found/E2X", "line/t1", "line/t1/x"] {
            assert_eq!(Screen::of_fragment(fragment), None, "{fragment}");
        }
    }
}
