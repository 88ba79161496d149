//! Why a stroke is long, a brake drags, or an adjuster doesn't hold: the published lists as data.
//!
//! A screen walks a tree from its first cause to its last. The order is the manuals': brake first,
//! adjuster last. Nothing is judged here, and no list says that the adjuster may be turned.

use crate::rules::Rule;
use crate::source::{self, Source};
use crate::verdict::{Judgement, RuleId, Side, Verdict};
use crate::word::{self, Word};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("slack.cause"),
    title: word::RULE_SLACK_CAUSE,
    units: &[],
    limits: word::LIMIT_SLACK_CAUSE,
    figures: &[],
    sources: &[CLUTCH, LINKLESS, SELF_ADJUSTING],
};

const CLUTCH: &Source = &source::CLUTCH_ADJUSTER;
const LINKLESS: &Source = &source::CAUSES_LINKLESS;
const SELF_ADJUSTING: &Source = &source::CAUSES_SELF_ADJUSTING;

/// Which list of causes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Tree {
    /// Long stroke, free stroke inside its window: the brake behind the adjuster.
    Brake,
    /// Long stroke, free stroke above its window: the brake or the adjuster.
    BrakeOrAdjuster,
    /// Free stroke below its window: the brake may drag.
    Short,
    /// The brake is tight or drags.
    Drags,
    /// The brake is good and the adjuster still doesn't hold the stroke.
    Adjuster,
}

/// One cause on a list, and what to do about it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cause {
    /// Its stable name.
    pub id: &'static str,
    /// What is wrong, and what to do, in a line.
    pub word: Word,
    /// Which manuals list it.
    pub sources: &'static [&'static Source],
}

const fn cause(id: &'static str, word: Word, sources: &'static [&'static Source]) -> Cause {
    Cause { id, word, sources }
}

impl Tree {
    /// Every tree.
    pub const ALL: &[Self] = &[
        Self::Brake,
        Self::BrakeOrAdjuster,
        Self::Short,
        Self::Drags,
        Self::Adjuster,
    ];

    /// The heading over it.
    pub const fn word(self) -> Word {
        match self {
            Self::Brake => word::CAUSE_TREE_BRAKE,
            Self::BrakeOrAdjuster => word::CAUSE_TREE_BRAKE_OR_ADJUSTER,
            Self::Short => word::CAUSE_TREE_SHORT,
            Self::Drags => word::CAUSE_TREE_DRAGS,
            Self::Adjuster => word::CAUSE_TREE_ADJUSTER,
        }
    }

    /// Its causes, in the order in which to look.
    pub const fn causes(self) -> &'static [Cause] {
        match self {
            Self::Brake => BRAKE,
            Self::BrakeOrAdjuster => BRAKE_OR_ADJUSTER,
            Self::Short => SHORT,
            Self::Drags => DRAGS,
            Self::Adjuster => ADJUSTER,
        }
    }
}

const BRAKE: &[Cause] = &[
    cause("drum", word::CAUSE_DRUM, &[CLUTCH, LINKLESS]),
    cause("shoe-span", word::CAUSE_SHOE_SPAN, &[CLUTCH]),
    cause("lining-uneven", word::CAUSE_LINING_UNEVEN, &[CLUTCH]),
    cause("lining-missing", word::CAUSE_LINING_MISSING, &[CLUTCH]),
    cause("shoe-cracked", word::CAUSE_SHOE_CRACKED, &[CLUTCH]),
    cause(
        "cam-bushings",
        word::CAUSE_CAM_BUSHINGS,
        &[CLUTCH, LINKLESS, SELF_ADJUSTING],
    ),
    cause("cam-head", word::CAUSE_CAM_HEAD, &[CLUTCH]),
    cause("cam-splines", word::CAUSE_CAM_SPLINES, &[CLUTCH, LINKLESS]),
    cause("cam-journals", word::CAUSE_CAM_JOURNALS, &[CLUTCH]),
    cause(
        "chamber-bracket",
        word::CAUSE_CHAMBER_BRACKET,
        &[CLUTCH, LINKLESS],
    ),
    cause(
        "chamber-loose",
        word::CAUSE_CHAMBER_LOOSE,
        &[SELF_ADJUSTING],
    ),
    cause("jam-nut", word::CAUSE_JAM_NUT, &[LINKLESS]),
    cause("clevis", word::CAUSE_CLEVIS, &[CLUTCH, LINKLESS]),
    cause(
        "shoe-springs",
        word::CAUSE_SHOE_SPRINGS,
        &[CLUTCH, LINKLESS],
    ),
    cause("rollers", word::CAUSE_ROLLERS, &[CLUTCH]),
    cause("roller-size", word::CAUSE_ROLLER_SIZE, &[CLUTCH]),
    cause("anchor-pins", word::CAUSE_ANCHOR_PINS, &[CLUTCH]),
];

const BRAKE_OR_ADJUSTER: &[Cause] = &[
    cause(
        "rod-binds",
        word::CAUSE_ROD_BINDS,
        &[CLUTCH, SELF_ADJUSTING],
    ),
    cause(
        "chamber-spring",
        word::CAUSE_CHAMBER_SPRING,
        &[CLUTCH, LINKLESS],
    ),
    cause(
        "air-stays",
        word::CAUSE_AIR_STAYS,
        &[CLUTCH, SELF_ADJUSTING],
    ),
    cause(
        "adjuster-fit",
        word::CAUSE_ADJUSTER_FIT,
        &[CLUTCH, LINKLESS],
    ),
    cause(
        "cam-binds",
        word::CAUSE_CAM_BINDS,
        &[CLUTCH, SELF_ADJUSTING],
    ),
    cause(
        "cam-bushings",
        word::CAUSE_CAM_BUSHINGS,
        &[CLUTCH, LINKLESS, SELF_ADJUSTING],
    ),
    cause(
        "cam-bushings-bind",
        word::CAUSE_CAM_BUSHINGS_BIND,
        &[CLUTCH],
    ),
    cause(
        "shoe-springs",
        word::CAUSE_SHOE_SPRINGS,
        &[CLUTCH, LINKLESS],
    ),
];

const SHORT: &[Cause] = &[
    cause(
        "adjuster-fit",
        word::CAUSE_ADJUSTER_FIT,
        &[CLUTCH, LINKLESS],
    ),
    cause(
        "wheel-bearing",
        word::CAUSE_WHEEL_BEARING,
        &[CLUTCH, SELF_ADJUSTING],
    ),
];

const DRAGS: &[Cause] = &[
    cause(
        "adjuster-too-close",
        word::CAUSE_ADJUSTER_TOO_CLOSE,
        &[LINKLESS],
    ),
    cause(
        "control-arm-place",
        word::CAUSE_CONTROL_ARM_PLACE,
        &[SELF_ADJUSTING],
    ),
    cause(
        "spring-brake-stays",
        word::CAUSE_SPRING_BRAKE_STAYS,
        &[SELF_ADJUSTING],
    ),
    cause(
        "rod-binds",
        word::CAUSE_ROD_BINDS,
        &[CLUTCH, SELF_ADJUSTING],
    ),
    cause(
        "air-stays",
        word::CAUSE_AIR_STAYS,
        &[CLUTCH, SELF_ADJUSTING],
    ),
    cause("drum-round", word::CAUSE_DRUM_ROUND, &[SELF_ADJUSTING]),
    cause(
        "lining-clearance",
        word::CAUSE_LINING_CLEARANCE,
        &[SELF_ADJUSTING],
    ),
    cause(
        "wheel-bearing",
        word::CAUSE_WHEEL_BEARING,
        &[CLUTCH, SELF_ADJUSTING],
    ),
    cause(
        "shoe-springs",
        word::CAUSE_SHOE_SPRINGS,
        &[CLUTCH, LINKLESS],
    ),
    cause(
        "linings-loose",
        word::CAUSE_LININGS_LOOSE,
        &[SELF_ADJUSTING],
    ),
];

const ADJUSTER: &[Cause] = &[
    cause(
        "control-arm",
        word::CAUSE_CONTROL_ARM,
        &[CLUTCH, SELF_ADJUSTING],
    ),
    cause("clutch", word::CAUSE_CLUTCH, &[CLUTCH, SELF_ADJUSTING]),
    cause("function", word::CAUSE_FUNCTION, &[CLUTCH, LINKLESS]),
    cause(
        "adjuster-worn",
        word::CAUSE_ADJUSTER_WORN,
        &[CLUTCH, LINKLESS, SELF_ADJUSTING],
    ),
];

/// Where the free stroke lies against its window.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum FreeLies {
    /// Below it.
    Below,
    /// Inside it, ends included.
    Inside,
    /// Above it.
    Above,
    /// Not measured, or no window is printed.
    Unknown,
}

/// Where a judged free stroke lies.
impl From<&Judgement> for FreeLies {
    fn from(free: &Judgement) -> Self {
        match (free.verdict, free.limits.first().map(|limit| limit.side)) {
            (Verdict::Beyond, Some(Side::AtLeast)) => Self::Below,
            (Verdict::Beyond, Some(Side::AtMost)) => Self::Above,
            (Verdict::Within | Verdict::AtTheLimit, _) => Self::Inside,
            _ => Self::Unknown,
        }
    }
}

/// What is known of the brake behind the adjuster.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum BrakeIs {
    /// Nobody went through it yet.
    NotLookedAt,
    /// Gone through and good.
    Good,
}

/// Which trees to walk, first one first; none when nothing is wrong.
///
/// Source: [`source::CLUTCH_ADJUSTER`], pp. 7-9.
pub const fn trees(applied: Verdict, free: FreeLies, brake: BrakeIs) -> &'static [Tree] {
    match (applied, free, brake) {
        (Verdict::Beyond, _, BrakeIs::Good) => &[Tree::Adjuster],
        (Verdict::Beyond, FreeLies::Inside, _) => &[Tree::Brake],
        (Verdict::Beyond, FreeLies::Above, _) => &[Tree::BrakeOrAdjuster],
        (Verdict::Beyond, FreeLies::Below, _) => &[Tree::Brake, Tree::Short],
        (Verdict::Beyond, FreeLies::Unknown, _) => &[Tree::Brake, Tree::BrakeOrAdjuster],
        (_, FreeLies::Below, _) => &[Tree::Short, Tree::Drags],
        (_, FreeLies::Above, BrakeIs::Good) => &[Tree::Adjuster],
        (_, FreeLies::Above, _) => &[Tree::BrakeOrAdjuster],
        (_, FreeLies::Inside | FreeLies::Unknown, _) => &[],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::cases;
    use crate::quantity::Length;
    use crate::slack::free::{When, judge_free};
    use crate::slack::mechanism::Mechanism;

    #[test]
    fn table() {
        for row in cases(include_str!("cause.tsv")) {
            let free = match row.text("free") {
                "below" => FreeLies::Below,
                "inside" => FreeLies::Inside,
                "above" => FreeLies::Above,
                _ => FreeLies::Unknown,
            };
            let brake = if row.text("brake") == "good" {
                BrakeIs::Good
            } else {
                BrakeIs::NotLookedAt
            };
            let trees: Vec<String> = trees(row.verdict("applied"), free, brake)
                .iter()
                .map(|tree| format!("{tree:?}"))
                .collect();
            assert_eq!(trees, row.list("trees"), "{row}");
        }
    }

    #[test]
    fn a_judged_free_stroke_lies_where_its_window_says() {
        let lies = |n, mechanism| {
            let free = Length::from_inch_64ths(n);
            FreeLies::from(&judge_free(free, mechanism, When::InService))
        };
        let clutch = |n| lies(n, Mechanism::Clutch);
        assert_eq!([clutch(23), clutch(49)], [FreeLies::Below, FreeLies::Above]);
        assert_eq!([clutch(24), clutch(32), clutch(48)], [FreeLies::Inside; 3]);
        assert_eq!(lies(32, Mechanism::Unknown), FreeLies::Unknown);
    }

    #[test]
    fn trees_are_lists_of_different_causes_with_sources() {
        for tree in Tree::ALL {
            let causes = tree.causes();
            assert!(causes.len() > 1, "{tree:?}");
            for (at, cause) in causes.iter().enumerate() {
                assert!(
                    causes[..at].iter().all(|other| other.id != cause.id),
                    "{}",
                    cause.id
                );
                assert_eq!(cause.word.key(), format!("cause.{}", cause.id));
                assert!(!cause.sources.is_empty(), "{}", cause.id);
            }
            assert!(tree.word().key().starts_with("cause.tree."));
        }
    }

    #[test]
    fn a_cause_is_the_same_on_every_list() {
        let all: Vec<&Cause> = Tree::ALL.iter().flat_map(|tree| tree.causes()).collect();
        for one in &all {
            assert!(
                all.iter()
                    .filter(|other| other.id == one.id)
                    .all(|other| other == one)
            );
        }
    }
}
