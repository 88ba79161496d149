//! The keys of everything that this crate has to say on a screen, with the arguments of each.
//!
//! The words themselves are in the language files. A key exists only if it is listed here, so that
//! a test can hold every language against [`ALL`].

use crate::quantity::{Quantity, Share};
use crate::unit::Unit;

/// The key of a text in the language files; only this file makes them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Word(&'static str);

impl Word {
    /// The key as the language files spell it.
    pub const fn key(self) -> &'static str {
        self.0
    }
}

/// A text that stands beside a verdict: its key and what to put into it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Remark {
    /// Which text.
    pub word: Word,
    /// Its arguments by name.
    pub arguments: Vec<(&'static str, Argument)>,
}

impl Remark {
    /// A text without arguments.
    pub const fn plain(word: Word) -> Self {
        Self {
            word,
            arguments: Vec::new(),
        }
    }

    /// A text with arguments.
    pub fn with(word: Word, arguments: impl IntoIterator<Item = (&'static str, Argument)>) -> Self {
        Self {
            word,
            arguments: arguments.into_iter().collect(),
        }
    }
}

/// What can be put into a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Argument {
    /// A quantity, shown in the unit that the screen chooses.
    Quantity(Quantity),
    /// A quantity divided, shown rounded as the text's meaning asks.
    Share(Share),
    /// A whole number.
    Count(u32),
    /// A number of tenths: 43 is 4.3.
    Tenths(u32),
    /// A unit's name.
    Unit(Unit),
    /// Another text.
    Word(Word),
    /// Something a person or a table wrote: a number cast on a part, an axle.
    Text(String),
}

/// Lists the keys once: each becomes a constant, and a line of [`ALL`].
macro_rules! words {
    ($($name:ident = $key:literal [$($argument:literal),*];)*) => {
        $(
            #[doc = concat!("`", $key, "`")]
            pub const $name: Word = Word($key);
        )*

        /// Every key with the names of its arguments.
        pub const ALL: &[(&str, &[&str])] = &[$(($key, &[$($argument),*])),*];
    };
}

words! {
    // The six words of a verdict.
    WITHIN = "verdict.within" [];
    AT_THE_LIMIT = "verdict.at-the-limit" [];
    BEYOND = "verdict.beyond" [];
    NO_READING = "verdict.no-reading" [];
    SOUND = "verdict.sound" [];
    REPLACE = "verdict.replace" [];

    // How good a source is.
    STANDING_REGULATION = "standing.regulation" [];
    STANDING_STANDARD = "standing.standard" [];
    STANDING_MANUAL = "standing.manual" [];
    STANDING_TRADE_PRESS = "standing.trade-press" [];
    STANDING_COMMON_PRACTICE = "standing.common-practice" [];
    STANDING_SHOP = "standing.shop" [];
    STANDING_PART = "standing.part" [];
    STANDING_FROM_MEMORY = "standing.from-memory" [];

    // Remarks that any rule can make.
    REMARK_IN_THE_GAP = "remark.in-the-gap" ["stricter", "other"];
    REMARK_OTHER_DIMENSION = "remark.other-dimension" [];
    REMARK_SHORTENED = "remark.shortened" [];
    REMARK_LENGTHENED = "remark.lengthened" [];
    REMARK_BOTH_WAYS = "remark.both-ways" [];
    REMARK_VOID_PARKING = "remark.void.parking" [];
    REMARK_VOID_ENGINE = "remark.void.engine" [];
    REMARK_VOID_PRESSURE = "remark.void.pressure" [];
    REMARK_TEMPERATURE_UNKNOWN = "remark.temperature-unknown" [];

    // Why a typed text isn't a reading.
    TYPED_EMPTY = "typed.fault.empty" [];
    TYPED_TWO_POINTS = "typed.fault.two-points" [];
    TYPED_NEGATIVE = "typed.fault.negative" [];
    TYPED_NOT_A_NUMBER = "typed.fault.not-a-number" ["found"];
    TYPED_UNFINISHED = "typed.fault.unfinished" [];
    TYPED_ZERO_DENOMINATOR = "typed.fault.zero-denominator" [];
    TYPED_IMPROPER_FRACTION = "typed.fault.improper-fraction" [];
    TYPED_THOUSANDS = "typed.fault.thousands" ["mark"];
    TYPED_TOO_FINE = "typed.fault.too-fine" ["unit"];
    TYPED_TOO_LARGE = "typed.fault.too-large" [];
    TYPED_TOO_LONG = "typed.fault.too-long" ["most"];

    // What a band asks.
    BAND_OTHER_KIND = "band.question.other-kind" [];
    BAND_IN_UNIT = "band.question.in-unit" ["unit"];
    BAND_TEN_TIMES_TOO_SMALL = "band.question.ten-times-too-small" [];
    BAND_TEN_TIMES_TOO_LARGE = "band.question.ten-times-too-large" [];
    BAND_BELOW = "band.question.below" ["low"];
    BAND_ABOVE = "band.question.above" ["high"];

    // Support: titles, limits, remarks and faults.
    RULE_SUPPORT_STANDS = "rule.support.stands" [];
    RULE_SUPPORT_THREE = "rule.support.three" [];
    RULE_SUPPORT_JACK = "rule.support.jack" [];
    RULE_RIM_PRESSURE = "rule.rim.pressure" [];
    LIMIT_RIM_PRESSURE = "limit.rim.pressure" [];
    RIM_REMARK_EMPTY_FIRST = "rim.remark.empty-first" [];
    RULE_SUPPORT_PLATE = "rule.support.plate" [];
    LIMIT_SUPPORT_STANDS = "limit.support.stands" [];
    LIMIT_SUPPORT_THREE = "limit.support.three" [];
    LIMIT_SUPPORT_JACK = "limit.support.jack" [];
    LIMIT_SUPPORT_PLATE = "limit.support.plate" [];
    SUPPORT_BASIS_UNMARKED = "support.remark.basis-unmarked" [];
    SUPPORT_BASIS_PAIR = "support.remark.basis-pair" [];
    SUPPORT_TON_UNMARKED = "support.remark.ton-unmarked" [];
    SUPPORT_SMALLER_COUNTS = "support.remark.smaller-counts" ["smaller", "larger"];
    SUPPORT_THIRD_IGNORED = "support.remark.third-ignored" ["count"];
    SUPPORT_CARRIED_BY = "support.remark.carried-by" ["count"];
    SUPPORT_CARRIED_CAPPED = "support.remark.carried-capped" ["count", "asked"];
    SUPPORT_WHOLE_GROUP = "support.remark.whole-group" ["axles"];
    SUPPORT_AT_LIMIT_REFUSED = "support.remark.at-limit-refused" [];
    SUPPORT_LOAD_UNKNOWN = "support.remark.load-unknown" ["axles"];
    SUPPORT_THREE_PROTECTS = "support.remark.three-protects" [];
    SUPPORT_THREE_REASON = "support.remark.three-reason" [];
    SUPPORT_THREE_GROSS_ASSUMED = "support.remark.three-gross-assumed" [];
    SUPPORT_THREE_NO_WEIGHT = "support.remark.three-no-weight" [];
    SUPPORT_TAG_NO_FIGURE = "support.tag.no-figure" [];
    SUPPORT_TAG_NOT_A_MASS = "support.tag.not-a-mass" [];
    SUPPORT_TAG_ZERO = "support.tag.zero" [];
    SUPPORT_TAG_DAMAGED = "support.tag.damaged" [];
    SUPPORT_TAG_REPAIRED = "support.tag.repaired" [];
    SUPPORT_TAG_NO_PIN = "support.tag.no-pin" [];
    SUPPORT_FAULT_NO_STANDS = "support.fault.no-stands" [];
    SUPPORT_FAULT_ONE_STAND = "support.fault.one-stand" [];
    SUPPORT_FAULT_CARRIES_NOTHING = "support.fault.carries-nothing" ["stand", "why"];
    SUPPORT_FAULT_NOTHING_RAISED = "support.fault.nothing-raised" [];
    SUPPORT_FAULT_ZERO_WEIGHT = "support.fault.zero-weight" ["axle"];
    SUPPORT_FAULT_ZERO_UNIT = "support.fault.zero-unit" [];
    SUPPORT_FAULT_UNIT_LIGHTER = "support.fault.unit-lighter" ["unit", "axles"];
    SUPPORT_FAULT_GROSS_UNDER_TARE = "support.fault.gross-under-tare" ["gross", "tare"];
    SUPPORT_FAULT_NO_WEIGHT = "support.fault.no-weight" [];
    SUPPORT_FAULT_TOO_HEAVY = "support.fault.too-heavy" [];
    SUPPORT_JACK_NO_RATING = "support.jack.no-rating" [];
    SUPPORT_JACK_AT_LIMIT = "support.jack.at-limit" [];
    SUPPORT_JACK_WHOLE_UNIT = "support.jack.whole-unit" [];
    SUPPORT_PLATE_SPREADS = "support.plate.spreads" ["times"];
    SUPPORT_PLATE_SMALLER = "support.plate.smaller" [];

    // Drum: titles and limits.
    RULE_DRUM_DIAMETER = "rule.drum.diameter" [];
    LIMIT_DRUM_DIAMETER = "limit.drum.diameter" [];
    RULE_DRUM_ROUND = "rule.drum.round" [];
    LIMIT_DRUM_ROUND = "limit.drum.round" [];
    RULE_DRUM_TAPER = "rule.drum.taper" [];
    LIMIT_DRUM_TAPER = "limit.drum.taper" [];
    RULE_DRUM_BELL_MOUTH = "rule.drum.bell-mouth" [];
    LIMIT_DRUM_BELL_MOUTH = "limit.drum.bell-mouth" [];
    RULE_DRUM_RUN_OUT = "rule.drum.run-out" [];
    LIMIT_DRUM_RUN_OUT = "limit.drum.run-out" [];
    RULE_DRUM_TURN = "rule.drum.turn" [];
    LIMIT_DRUM_TURN = "limit.drum.turn" [];
    RULE_DRUM_SURFACE = "rule.drum.surface" [];
    LIMIT_DRUM_SURFACE = "limit.drum.surface" [];
    RULE_DRUM_PAIR = "rule.drum.pair" [];
    LIMIT_DRUM_PAIR = "limit.drum.pair" [];
    RULE_DRUM_NEW = "rule.drum.new" [];
    LIMIT_DRUM_NEW = "limit.drum.new" [];

    // Drum: remarks.
    DRUM_REMARK_BY_NOMINAL = "drum.remark.by-nominal" [];
    DRUM_REMARK_NO_MAXIMUM = "drum.remark.no-maximum" [];
    DRUM_REMARK_FEW_PLACES = "drum.remark.few-places" [];
    DRUM_REMARK_OTHER_BRAKES = "drum.remark.other-brakes" [];
    DRUM_REMARK_SEAT_AGAIN = "drum.remark.seat-again" [];
    DRUM_REMARK_TURNING_DISPUTED = "drum.remark.turning-disputed" [];
    DRUM_REMARK_NOT_A_CRACK = "drum.remark.not-a-crack" [];
    DRUM_REMARK_FIND_HEAT = "drum.remark.find-heat" [];
    DRUM_REMARK_FIND_SEAT = "drum.remark.find-seat" [];
    DRUM_REMARK_BOTH_GO = "drum.remark.both-go" [];
    DRUM_REMARK_TURN_BOTH = "drum.remark.turn-both" [];
    DRUM_REMARK_OTHER_END = "drum.remark.other-end" [];
    DRUM_REMARK_NO_FIGURE_ACROSS = "drum.remark.no-figure-across" [];
    DRUM_REMARK_NOTE_NUMBER = "drum.remark.note-number" [];
    DRUM_REMARK_WASH = "drum.remark.wash" [];
    DRUM_REMARK_WEIGHT = "drum.remark.weight" ["lightest", "heaviest"];

    // Lining and shoes: titles and limits.
    RULE_LINING_THICKNESS = "rule.lining.thickness" [];
    LIMIT_LINING_THICKNESS = "limit.lining.thickness" [];
    RULE_LINING_RIVETS = "rule.lining.rivets" [];
    LIMIT_LINING_RIVETS = "limit.lining.rivets" [];
    RULE_LINING_GAP = "rule.lining.gap" [];
    LIMIT_LINING_GAP = "limit.lining.gap" [];
    RULE_LINING_SPAN = "rule.lining.span" [];
    LIMIT_LINING_SPAN = "limit.lining.span" [];
    RULE_LINING_RECESS = "rule.lining.recess" [];
    LIMIT_LINING_RECESS = "limit.lining.recess" [];
    RULE_LINING_HOLE = "rule.lining.hole" [];
    LIMIT_LINING_HOLE = "limit.lining.hole" [];
    RULE_LINING_LOOK = "rule.lining.look" [];
    LIMIT_LINING_LOOK = "limit.lining.look" [];
    RULE_LINING_CODE = "rule.lining.code" [];
    LIMIT_LINING_CODE = "limit.lining.code" [];
    RULE_LINING_MATCH = "rule.lining.match" [];
    LIMIT_LINING_MATCH = "limit.lining.match" [];
    RULE_LINING_HARDWARE = "rule.lining.hardware" [];
    LIMIT_LINING_HARDWARE = "limit.lining.hardware" [];

    // Lining and shoes: remarks, edge codes, hardware.
    LINING_REMARK_RELINE_SOON = "lining.remark.reline-soon" [];
    LINING_REMARK_SHOE_UNKNOWN = "lining.remark.shoe-unknown" [];
    LINING_REMARK_US_FIGURE = "lining.remark.us-figure" [];
    LINING_REMARK_QUEBEC_OR = "lining.remark.quebec-or" [];
    LINING_REMARK_FIXING_UNKNOWN = "lining.remark.fixing-unknown" [];
    LINING_REMARK_THINNEST_WANTED = "lining.remark.thinnest-wanted" [];
    LINING_REMARK_MIDDLE_WANTED = "lining.remark.middle-wanted" [];
    LINING_REMARK_INDICATOR = "lining.remark.indicator" [];
    LINING_REMARK_RUST_JACKED = "lining.remark.rust-jacked" [];
    LINING_REMARK_GAUGE_GOES_IN = "lining.remark.gauge-goes-in" [];
    LINING_REMARK_OTHER_SHOES = "lining.remark.other-shoes" [];
    LINING_REMARK_CURE_LEAK = "lining.remark.cure-leak" [];
    LINING_REMARK_BOTH_ENDS = "lining.remark.both-ends" [];
    LINING_REMARK_FIND_DRAG = "lining.remark.find-drag" [];
    LINING_REMARK_FIND_UNEVEN = "lining.remark.find-uneven" [];
    LINING_REMARK_CODE_UNKNOWN = "lining.remark.code-unknown" [];
    LINING_REMARK_CODES_DIFFER = "lining.remark.codes-differ" [];
    LINING_REMARK_MAKES_DIFFER = "lining.remark.makes-differ" [];
    LINING_REMARK_MAKE_UNKNOWN = "lining.remark.make-unknown" [];
    LINING_CODE_NORMAL = "lining.code.normal" [];
    LINING_CODE_HOT = "lining.code.hot" [];
    LINING_CODE_UP_TO = "lining.code.up-to" ["state", "letter", "to"];
    LINING_CODE_BETWEEN = "lining.code.between" ["state", "letter", "over", "to"];
    LINING_CODE_OVER = "lining.code.over" ["state", "letter", "over"];
    LINING_CODE_UNCLASSIFIED = "lining.code.unclassified" ["state", "letter"];
    LINING_CODE_FAULT_NONE = "lining.code.fault.none" [];
    LINING_CODE_FAULT_TWO = "lining.code.fault.two" [];
    HARDWARE_ANCHOR_PINS = "hardware.anchor-pins" [];
    HARDWARE_ANCHOR_BUSHINGS = "hardware.anchor-bushings" [];
    HARDWARE_CAM_BUSHINGS = "hardware.cam-bushings" [];
    HARDWARE_CAM_SEALS = "hardware.cam-seals" [];
    HARDWARE_SHOES = "hardware.shoes" [];
    HARDWARE_ROLLERS = "hardware.rollers" [];
    HARDWARE_ROLLER_CLIPS = "hardware.roller-clips" [];
    HARDWARE_RETURN_SPRING = "hardware.return-spring" [];
    HARDWARE_RETAINING_SPRINGS = "hardware.retaining-springs" [];
    HARDWARE_SNAP_RING = "hardware.snap-ring" [];
    HARDWARE_COTTERS = "hardware.cotters" [];
    HARDWARE_REMARK_ALWAYS = "hardware.remark.always" ["part"];
    HARDWARE_REMARK_ADVISED = "hardware.remark.advised" ["part"];
    HARDWARE_REMARK_WITH_CAMSHAFT = "hardware.remark.with-camshaft" ["part"];

    // Slack and stroke: titles and limits.
    RULE_SLACK_CONDITIONS = "rule.slack.conditions" [];
    LIMIT_SLACK_CONDITIONS = "limit.slack.conditions" [];
    RULE_SLACK_APPLIED = "rule.slack.applied" [];
    LIMIT_SLACK_APPLIED = "limit.slack.applied" [];
    RULE_SLACK_TRAVEL = "rule.slack.travel" [];
    LIMIT_SLACK_TRAVEL = "limit.slack.travel" [];
    RULE_SLACK_FREE = "rule.slack.free" [];
    LIMIT_SLACK_FREE = "limit.slack.free" [];
    RULE_SLACK_SIDES = "rule.slack.sides" [];
    LIMIT_SLACK_SIDES = "limit.slack.sides" [];
    RULE_SLACK_EXPECTED = "rule.slack.expected" [];
    LIMIT_SLACK_EXPECTED = "limit.slack.expected" [];
    RULE_SLACK_ANGLE = "rule.slack.angle" [];
    LIMIT_SLACK_ANGLE = "limit.slack.angle" [];
    RULE_SLACK_SET_UP = "rule.slack.set-up" [];
    LIMIT_SLACK_SET_UP = "limit.slack.set-up" [];
    RULE_SLACK_BACK_OFF = "rule.slack.back-off" [];
    LIMIT_SLACK_BACK_OFF = "limit.slack.back-off" [];
    RULE_SLACK_CLUTCH = "rule.slack.clutch" [];
    LIMIT_SLACK_CLUTCH = "limit.slack.clutch" [];
    RULE_SLACK_GEAR = "rule.slack.gear" [];
    LIMIT_SLACK_GEAR = "limit.slack.gear" [];
    RULE_SLACK_CLEVIS = "rule.slack.clevis" [];
    LIMIT_SLACK_CLEVIS = "limit.slack.clevis" [];
    RULE_SLACK_CAUSE = "rule.slack.cause" [];
    LIMIT_SLACK_CAUSE = "limit.slack.cause" [];
    RULE_SLACK_DATES = "rule.slack.dates" [];
    LIMIT_SLACK_DATES = "limit.slack.dates" [];
    RULE_SLACK_SHARE = "rule.slack.share" [];
    LIMIT_SLACK_SHARE = "limit.slack.share" [];

    // Slack and stroke: remarks.
    SLACK_REMARK_CLASS_UNKNOWN = "slack.remark.class-unknown" [];
    SLACK_REMARK_CLASS_NOT_LISTED = "slack.remark.class-not-listed" [];
    SLACK_REMARK_TWO_EDITIONS = "slack.remark.two-editions" ["current", "older"];
    SLACK_REMARK_EIGHTY_PERCENT = "slack.remark.eighty-percent" ["rated"];
    SLACK_REMARK_MARKED_LIMIT = "slack.remark.marked-limit" [];
    SLACK_REMARK_NO_MARKS = "slack.remark.no-marks" [];
    SLACK_REMARK_US_FIGURE = "slack.remark.us-figure" [];
    SLACK_REMARK_MECHANISM_UNKNOWN = "slack.remark.mechanism-unknown" [];
    SLACK_REMARK_NO_WINDOW = "slack.remark.no-window" [];
    SLACK_REMARK_FREE_LOW = "slack.remark.free-low" [];
    SLACK_REMARK_FREE_HIGH = "slack.remark.free-high" [];
    SLACK_REMARK_SIDES_SAME = "slack.remark.sides-same" [];
    SLACK_REMARK_SIDES_DIFFER = "slack.remark.sides-differ" ["difference"];
    SLACK_REMARK_EXPECTED = "slack.remark.expected" ["low", "high"];
    SLACK_REMARK_EXPECTED_BELOW = "slack.remark.expected-below" [];
    SLACK_REMARK_EXPECTED_ABOVE = "slack.remark.expected-above" [];
    SLACK_REMARK_EXPECTED_NONE = "slack.remark.expected-none" [];
    SLACK_REMARK_ANGLE_UNDER_90 = "slack.remark.angle-under-90" ["angle"];
    SLACK_REMARK_ANGLE_AT_STROKE = "slack.remark.angle-at-stroke" ["angle"];
    SLACK_REMARK_ANGLE_SET_UP = "slack.remark.angle-set-up" ["angle"];
    SLACK_REMARK_ANGLE_PAST = "slack.remark.angle-past" [];
    SLACK_REMARK_CLUTCH_NO_RATCHET = "slack.remark.clutch-no-ratchet" [];
    SLACK_REMARK_BACK_OFF = "slack.remark.back-off" ["turns"];
    SLACK_REMARK_BACK_OFF_RANGE = "slack.remark.back-off-range" ["low", "high"];
    SLACK_REMARK_BACK_OFF_WINDOW = "slack.remark.back-off-window" [];
    SLACK_REMARK_DATES_UNKNOWN = "slack.remark.dates-unknown" [];
    SLACK_REMARK_DATES_MANUAL_LATE = "slack.remark.dates-manual-late" ["date"];
    SLACK_REMARK_DATES_MANUAL_EARLY = "slack.remark.dates-manual-early" ["date"];
    SLACK_REMARK_DATES_SWAPPED = "slack.remark.dates-swapped" [];
    SLACK_REMARK_SHARE_OVER = "slack.remark.share-over" ["count", "all"];
    SLACK_REMARK_SHARE_COUNTED = "slack.remark.share-counted" ["defective", "all"];
    SLACK_REMARK_SHARE_REACHES = "slack.remark.share-reaches" [];
    SLACK_REMARK_SHARE_UNMEASURED = "slack.remark.share-unmeasured" ["count"];
    SLACK_REMARK_SHARE_NO_BRAKES = "slack.remark.share-no-brakes" [];
    SLACK_TRAVEL_APPLIED_SHORTER = "slack.travel.applied-shorter" [];
    SLACK_SET_UP_MANUAL = "slack.set-up.manual" [];
    SLACK_SET_UP_MAY = "slack.set-up.may" [];
    SLACK_SET_UP_SETTLE = "slack.set-up.settle" [];
    SLACK_SET_UP_ONCE_MORE = "slack.set-up.once-more" [];
    SLACK_SET_UP_FIND_CAUSE = "slack.set-up.find-cause" [];
    SLACK_SET_UP_EMERGENCY = "slack.set-up.emergency" [];

    // Slack and stroke: causes.
    CAUSE_TREE_BRAKE = "cause.tree.brake" [];
    CAUSE_TREE_BRAKE_OR_ADJUSTER = "cause.tree.brake-or-adjuster" [];
    CAUSE_TREE_SHORT = "cause.tree.short" [];
    CAUSE_TREE_DRAGS = "cause.tree.drags" [];
    CAUSE_TREE_ADJUSTER = "cause.tree.adjuster" [];
    CAUSE_DRUM = "cause.drum" [];
    CAUSE_SHOE_SPAN = "cause.shoe-span" [];
    CAUSE_LINING_UNEVEN = "cause.lining-uneven" [];
    CAUSE_LINING_MISSING = "cause.lining-missing" [];
    CAUSE_SHOE_CRACKED = "cause.shoe-cracked" [];
    CAUSE_CAM_BUSHINGS = "cause.cam-bushings" [];
    CAUSE_CAM_HEAD = "cause.cam-head" [];
    CAUSE_CAM_SPLINES = "cause.cam-splines" [];
    CAUSE_CAM_JOURNALS = "cause.cam-journals" [];
    CAUSE_CHAMBER_BRACKET = "cause.chamber-bracket" [];
    CAUSE_CHAMBER_LOOSE = "cause.chamber-loose" [];
    CAUSE_JAM_NUT = "cause.jam-nut" [];
    CAUSE_CLEVIS = "cause.clevis" [];
    CAUSE_SHOE_SPRINGS = "cause.shoe-springs" [];
    CAUSE_ROLLERS = "cause.rollers" [];
    CAUSE_ROLLER_SIZE = "cause.roller-size" [];
    CAUSE_ANCHOR_PINS = "cause.anchor-pins" [];
    CAUSE_ROD_BINDS = "cause.rod-binds" [];
    CAUSE_CHAMBER_SPRING = "cause.chamber-spring" [];
    CAUSE_AIR_STAYS = "cause.air-stays" [];
    CAUSE_ADJUSTER_FIT = "cause.adjuster-fit" [];
    CAUSE_CAM_BINDS = "cause.cam-binds" [];
    CAUSE_CAM_BUSHINGS_BIND = "cause.cam-bushings-bind" [];
    CAUSE_WHEEL_BEARING = "cause.wheel-bearing" [];
    CAUSE_ADJUSTER_TOO_CLOSE = "cause.adjuster-too-close" [];
    CAUSE_CONTROL_ARM_PLACE = "cause.control-arm-place" [];
    CAUSE_SPRING_BRAKE_STAYS = "cause.spring-brake-stays" [];
    CAUSE_DRUM_ROUND = "cause.drum-round" [];
    CAUSE_LINING_CLEARANCE = "cause.lining-clearance" [];
    CAUSE_LININGS_LOOSE = "cause.linings-loose" [];
    CAUSE_CONTROL_ARM = "cause.control-arm" [];
    CAUSE_CLUTCH = "cause.clutch" [];
    CAUSE_FUNCTION = "cause.function" [];
    CAUSE_ADJUSTER_WORN = "cause.adjuster-worn" [];

    // Wheel torque: titles and limits.
    RULE_TORQUE_SPEC = "rule.torque.spec" [];
    LIMIT_TORQUE_SPEC = "limit.torque.spec" [];
    RULE_TORQUE_PATTERN = "rule.torque.pattern" [];
    LIMIT_TORQUE_PATTERN = "limit.torque.pattern" [];
    RULE_TORQUE_PLAN = "rule.torque.plan" [];
    LIMIT_TORQUE_PLAN = "limit.torque.plan" [];
    RULE_TORQUE_WRENCH = "rule.torque.wrench" [];
    LIMIT_TORQUE_WRENCH = "limit.torque.wrench" [];
    RULE_TORQUE_CALIBRATION = "rule.torque.calibration" [];
    LIMIT_TORQUE_CALIBRATION = "limit.torque.calibration" [];
    RULE_TORQUE_ADAPTER = "rule.torque.adapter" [];
    LIMIT_TORQUE_ADAPTER = "limit.torque.adapter" [];
    RULE_TORQUE_LOG = "rule.torque.log" [];
    LIMIT_TORQUE_LOG = "limit.torque.log" [];
    RULE_TORQUE_ROAD_CHECK = "rule.torque.road-check" [];
    LIMIT_TORQUE_ROAD_CHECK = "limit.torque.road-check" [];

    // Wheel torque: remarks and faults.
    TORQUE_REMARK_SHOP_SPEC = "torque.remark.shop-spec" [];
    TORQUE_REMARK_SHOP_OTHER_STATE = "torque.remark.shop-other-state" [];
    TORQUE_REMARK_SOURCES_DISAGREE = "torque.remark.sources-disagree" [];
    TORQUE_REMARK_STATE_NOT_STATED = "torque.remark.state-not-stated" [];
    TORQUE_REMARK_STATE_UNKNOWN = "torque.remark.state-unknown" [];
    TORQUE_REMARK_NOTHING_PRINTED = "torque.remark.nothing-printed" [];
    TORQUE_REMARK_LOW = "torque.remark.low" [];
    TORQUE_REMARK_HIGH = "torque.remark.high" [];
    TORQUE_REMARK_PAIR_MISMATCH = "torque.remark.pair-mismatch" [];
    TORQUE_PATTERN_PRINTED = "torque.pattern.printed" [];
    TORQUE_PATTERN_REBUILT = "torque.pattern.rebuilt" [];
    TORQUE_PATTERN_DERIVED = "torque.pattern.derived" [];
    TORQUE_PATTERN_SHOP = "torque.pattern.shop" [];
    TORQUE_PATTERN_NEIGHBOURS = "torque.pattern.neighbours" ["first", "then"];
    TORQUE_PATTERN_NOT_OPPOSITE = "torque.pattern.not-opposite" ["first", "then"];
    TORQUE_PATTERN_PAIRS_WALK = "torque.pattern.pairs-walk" [];
    TORQUE_PATTERN_FAULT_COUNT = "torque.pattern.fault.count" ["studs", "named"];
    TORQUE_PATTERN_FAULT_NUT = "torque.pattern.fault.nut" ["nut"];
    TORQUE_PATTERN_FAULT_STUDS = "torque.pattern.fault.studs" ["studs"];
    TORQUE_WRENCH_CALIBRATION_UNKNOWN = "torque.wrench.calibration-unknown" [];
    TORQUE_WRENCH_CALIBRATION_DUE = "torque.wrench.calibration-due" [];
    TORQUE_WRENCH_LOW_END = "torque.wrench.low-end" [];
    TORQUE_WRENCH_ZERO_RANGE = "torque.wrench.zero-range" [];
    TORQUE_ADAPTER_FAULT_NO_LENGTH = "torque.adapter.fault.no-length" [];
    TORQUE_ADAPTER_FAULT_TOO_SHORT = "torque.adapter.fault.too-short" [];
    TORQUE_ADAPTER_FAULT_TOO_LARGE = "torque.adapter.fault.too-large" [];
    TORQUE_ADAPTER_SIDEWAYS = "torque.adapter.sideways" [];
    TORQUE_LOG_MISSED = "torque.log.missed" ["pass", "nut"];
    TORQUE_LOG_OUT_OF_ORDER = "torque.log.out-of-order" ["pass", "nut", "expected"];
    TORQUE_LOG_SKIPPED = "torque.log.skipped" ["pass"];
    TORQUE_LOG_NO_SUCH_NUT = "torque.log.no-such-nut" ["pass", "nut"];
    TORQUE_LOG_CLICKED_AT_ONCE = "torque.log.clicked-at-once" ["pass", "nut"];
    TORQUE_LOG_TURNED = "torque.log.turned" ["pass", "nut"];
    TORQUE_LOG_STILL_TURNING = "torque.log.still-turning" ["pass", "nut"];
    TORQUE_LOG_BROKEN_OFF = "torque.log.broken-off" ["pass", "minutes"];
    TORQUE_LOG_OUTSIDE = "torque.log.outside" ["pass", "nut", "value"];
    TORQUE_LOG_BACKWARDS = "torque.log.backwards" ["pass"];
    TORQUE_PASS_SEAT = "torque.pass.seat" [];
    TORQUE_PASS_FINAL = "torque.pass.final" [];
    TORQUE_PASS_CHECK = "torque.pass.check" [];
    TORQUE_PASS_SEAT_INNER = "torque.pass.seat-inner" [];
    TORQUE_PASS_FINAL_INNER = "torque.pass.final-inner" [];
    TORQUE_PASS_CHECK_INNER = "torque.pass.check-inner" [];
    TORQUE_PASS_SEAT_OUTER = "torque.pass.seat-outer" [];
    TORQUE_PASS_FINAL_OUTER = "torque.pass.final-outer" [];
    TORQUE_PASS_CHECK_OUTER = "torque.pass.check-outer" [];
    TORQUE_ROAD_CHECK_NOT_YET = "torque.road-check.not-yet" ["from"];
    TORQUE_ROAD_CHECK_DUE = "torque.road-check.due" [];
    TORQUE_ROAD_CHECK_OVERDUE = "torque.road-check.overdue" [];
    TORQUE_ROAD_CHECK_BY_DATE = "torque.road-check.by-date" [];
    TORQUE_ROAD_CHECK_UNKNOWN = "torque.road-check.unknown" [];
    TORQUE_ROAD_CHECK_BACKWARDS = "torque.road-check.backwards" [];

    // Wheel torque: a nut that moved at the road check.
    RULE_TORQUE_MOVED = "rule.torque.moved" [];
    LIMIT_TORQUE_MOVED = "limit.torque.moved" [];
    TORQUE_MOVED_HELD = "torque.moved.held" [];
    TORQUE_MOVED_TURNED = "torque.moved.turned" [];
    TORQUE_MOVED_LOOSE = "torque.moved.loose" [];

    // Wheel torque: valve stems of a dual.
    RULE_TORQUE_STEMS = "rule.torque.stems" [];
    LIMIT_TORQUE_STEMS = "limit.torque.stems" [];
    TORQUE_STEMS_HALF_TURN = "torque.stems.half-turn" [];
    TORQUE_STEMS_ELSEWHERE = "torque.stems.elsewhere" [];
    TORQUE_STEMS_TOGETHER = "torque.stems.together" [];

    // What any rule with windows by kind can say.
    REMARK_OWN_LIMIT = "remark.own-limit" ["figure", "from"];
    WINDOW_KIND_UNKNOWN = "window.kind-unknown" [];
    WINDOW_NONE_PRINTED = "window.none-printed" [];
    WINDOW_BEYOND_EVERY = "window.beyond-every" [];
    WINDOW_TO_BE_UNDER = "window.to-be-under" [];

    // Camshaft, anchors and clevis: titles, limits and remarks.
    RULE_CAMSHAFT_RADIAL = "rule.camshaft.radial" [];
    LIMIT_CAMSHAFT_RADIAL = "limit.camshaft.radial" [];
    RULE_CAMSHAFT_END_PLAY = "rule.camshaft.end-play" [];
    LIMIT_CAMSHAFT_END_PLAY = "limit.camshaft.end-play" [];
    RULE_CAMSHAFT_SPLINE = "rule.camshaft.spline" [];
    LIMIT_CAMSHAFT_SPLINE = "limit.camshaft.spline" [];
    RULE_CAMSHAFT_ANCHOR_PIN = "rule.camshaft.anchor-pin" [];
    LIMIT_CAMSHAFT_ANCHOR_PIN = "limit.camshaft.anchor-pin" [];
    RULE_CAMSHAFT_ANCHOR_BORE = "rule.camshaft.anchor-bore" [];
    LIMIT_CAMSHAFT_ANCHOR_BORE = "limit.camshaft.anchor-bore" [];
    RULE_CAMSHAFT_LOOK = "rule.camshaft.look" [];
    LIMIT_CAMSHAFT_LOOK = "limit.camshaft.look" [];
    RULE_SLACK_ARM_BUSHING = "rule.slack.arm-bushing" [];
    LIMIT_SLACK_ARM_BUSHING = "limit.slack.arm-bushing" [];
    RULE_SLACK_CLEVIS_LOOK = "rule.slack.clevis-look" [];
    LIMIT_SLACK_CLEVIS_LOOK = "limit.slack.clevis-look" [];
    CAMSHAFT_REMARK_BUSHINGS = "camshaft.remark.bushings" [];
    CAMSHAFT_REMARK_END_TIGHT = "camshaft.remark.end-tight" [];
    CAMSHAFT_REMARK_END_LOOSE = "camshaft.remark.end-loose" [];
    CAMSHAFT_REMARK_SPLINE = "camshaft.remark.spline" [];
    CAMSHAFT_REMARK_PIN = "camshaft.remark.pin" [];
    CAMSHAFT_REMARK_BORE = "camshaft.remark.bore" [];
    CAMSHAFT_REMARK_HEAD = "camshaft.remark.head" [];
    CAMSHAFT_REMARK_GREASE = "camshaft.remark.grease" [];
    CAMSHAFT_REMARK_BINDING = "camshaft.remark.binding" [];
    CAMSHAFT_REMARK_ANCHOR = "camshaft.remark.anchor" [];
    SLACK_REMARK_CLEVIS_HOLE = "slack.remark.clevis-hole" [];
    SLACK_REMARK_CLEVIS_PIN = "slack.remark.clevis-pin" [];
    SLACK_REMARK_CLEVIS_BOLT = "slack.remark.clevis-bolt" [];

    // Wheel bearing: titles, limits, remarks and steps.
    RULE_BEARING_END_PLAY = "rule.bearing.end-play" [];
    LIMIT_BEARING_END_PLAY = "limit.bearing.end-play" [];
    RULE_BEARING_SEQUENCE = "rule.bearing.sequence" [];
    LIMIT_BEARING_SEQUENCE = "limit.bearing.sequence" [];
    RULE_BEARING_CORRECTION = "rule.bearing.correction" [];
    LIMIT_BEARING_CORRECTION = "limit.bearing.correction" [];
    BEARING_REMARK_TIGHTEN = "bearing.remark.tighten" ["turn"];
    BEARING_REMARK_TIGHT = "bearing.remark.tight" [];
    BEARING_REMARK_LOOSE = "bearing.remark.loose" [];
    BEARING_STEP_FIRST = "bearing.step.first" ["torque"];
    BEARING_STEP_OFF = "bearing.step.off" [];
    BEARING_STEP_SECOND = "bearing.step.second" ["torque"];
    BEARING_STEP_BACK = "bearing.step.back" ["parts", "inch", "travel"];
    BEARING_STEP_COTTER = "bearing.step.cotter" [];
    BEARING_STEP_JAM = "bearing.step.jam" ["from", "to"];
    BEARING_STEP_TANGS = "bearing.step.tangs" [];
    BEARING_STEP_MEASURE = "bearing.step.measure" [];
    BEARING_STEP_LATER_EDITION = "bearing.step.later-edition" [];

    // Studs, nuts and wheels: titles, limits and remarks.
    RULE_STUD_WHICH = "rule.stud.which" [];
    LIMIT_STUD_WHICH = "limit.stud.which" [];
    RULE_STUD_NUTS = "rule.stud.nuts" [];
    LIMIT_STUD_NUTS = "limit.stud.nuts" [];
    RULE_STUD_WHEEL = "rule.stud.wheel" [];
    LIMIT_STUD_WHEEL = "limit.stud.wheel" [];
    RULE_STUD_HAND = "rule.stud.hand" [];
    LIMIT_STUD_HAND = "limit.stud.hand" [];
    RULE_STUD_ENGAGEMENT = "rule.stud.engagement" [];
    LIMIT_STUD_ENGAGEMENT = "limit.stud.engagement" [];
    RULE_STUD_PAST_NUT = "rule.stud.past-nut" [];
    LIMIT_STUD_PAST_NUT = "limit.stud.past-nut" [];
    RULE_STUD_RUN_OUT = "rule.stud.run-out" [];
    LIMIT_STUD_RUN_OUT = "limit.stud.run-out" [];
    RULE_STUD_STAND_OUT = "rule.stud.stand-out" [];
    LIMIT_STUD_STAND_OUT = "limit.stud.stand-out" [];
    RULE_STUD_PILOT = "rule.stud.pilot" [];
    LIMIT_STUD_PILOT = "limit.stud.pilot" [];
    STUD_REMARK_RENEW = "stud.remark.renew" ["studs"];
    STUD_REMARK_NEIGHBOURS = "stud.remark.neighbours" [];
    STUD_REMARK_ALL = "stud.remark.all" ["studs"];
    STUD_REMARK_ALL_ELSEWHERE = "stud.remark.all-elsewhere" [];
    STUD_REMARK_NUT_MISSING = "stud.remark.nut-missing" [];
    STUD_REMARK_NUT_LOOSE = "stud.remark.nut-loose" [];
    STUD_REMARK_STUD_BROKEN = "stud.remark.stud-broken" [];
    STUD_REMARK_NUT_RENEW = "stud.remark.nut-renew" [];
    STUD_REMARK_WASHER_FREED = "stud.remark.washer-freed" [];
    STUD_REMARK_CRACKED = "stud.remark.cracked" [];
    STUD_REMARK_HOLES = "stud.remark.holes" [];
    STUD_REMARK_WELDED_ALUMINIUM = "stud.remark.welded-aluminium" [];
    STUD_REMARK_WELDED_STEEL = "stud.remark.welded-steel" [];
    STUD_REMARK_WELDED = "stud.remark.welded" [];
    STUD_REMARK_NUT_BAD = "stud.remark.nut-bad" [];
    STUD_REMARK_SEAT = "stud.remark.seat" [];
    STUD_REMARK_LEFT_HAND = "stud.remark.left-hand" [];
    STUD_REMARK_RIGHT_HAND = "stud.remark.right-hand" [];
    STUD_REMARK_ENGAGEMENT = "stud.remark.engagement" [];
    STUD_REMARK_RUN_OUT = "stud.remark.run-out" [];
    STUD_REMARK_LONG = "stud.remark.long" [];
    STUD_REMARK_SHORT = "stud.remark.short" [];
    STUD_REMARK_PILOT = "stud.remark.pilot" [];
    // Both ends of an axle.
    RULE_AXLE_MATCH = "rule.axle.match" [];
    LIMIT_AXLE_MATCH = "limit.axle.match" [];
    AXLE_PART_CHAMBER = "axle.part.chamber" [];
    AXLE_PART_ARM = "axle.part.arm" [];
    AXLE_PART_CLASS = "axle.part.class" [];
    AXLE_PART_LINING = "axle.part.lining" [];
    AXLE_PART_DRUM = "axle.part.drum" [];
    AXLE_PART_MECHANISM = "axle.part.mechanism" [];
    AXLE_REMARK_ALIKE = "axle.remark.alike" [];
    AXLE_REMARK_CHAMBER = "axle.remark.chamber" [];
    AXLE_REMARK_ARM = "axle.remark.arm" [];
    AXLE_REMARK_CLASS = "axle.remark.class" [];
    AXLE_REMARK_CLASS_UNKNOWN = "axle.remark.class-unknown" [];
    AXLE_REMARK_LINING = "axle.remark.lining" [];
    AXLE_REMARK_LINING_UNCLASSIFIED = "axle.remark.lining-unclassified" [];
    AXLE_REMARK_DRUM = "axle.remark.drum" [];
    AXLE_REMARK_MECHANISM = "axle.remark.mechanism" [];
    AXLE_REMARK_STEER = "axle.remark.steer" [];
    AXLE_REMARK_UNKNOWN = "axle.remark.unknown" [];

    // Air and parking.
    RULE_AIR_LEAK = "rule.air.leak" [];
    LIMIT_AIR_LEAK = "limit.air.leak" [];
    RULE_AIR_WARNING = "rule.air.warning" [];
    LIMIT_AIR_WARNING = "limit.air.warning" [];
    RULE_AIR_CAGING = "rule.air.caging" [];
    LIMIT_AIR_CAGING = "limit.air.caging" [];
    RULE_AIR_CAGING_TORQUE = "rule.air.caging-torque" [];
    LIMIT_AIR_CAGING_TORQUE = "limit.air.caging-torque" [];
    RULE_AIR_RELEASE = "rule.air.release" [];
    LIMIT_AIR_RELEASE = "limit.air.release" [];
    AIR_REMARK_LESS_THAN = "air.remark.less-than" [];
    AIR_REMARK_HALF_CUT_OUT = "air.remark.half-cut-out" ["half"];
    AIR_REMARK_BUILT_UNKNOWN = "air.remark.built-unknown" [];
    AIR_REMARK_NO_TAG = "air.remark.no-tag" [];
    AIR_REMARK_NOT_CAGED = "air.remark.not-caged" [];
    AIR_REMARK_CAGING_TORQUE = "air.remark.caging-torque" ["low", "high"];
    AIR_REMARK_MAKERS_DIFFER = "air.remark.makers-differ" [];
    AIR_REMARK_RELEASE_TRUCK = "air.remark.release-truck" [];
    AIR_REMARK_RELEASE_HIGH = "air.remark.release-high" [];

    // Why it matters: estimates.
    RULE_WHY_FORCE = "rule.why.force" [];
    LIMIT_WHY_FORCE = "limit.why.force" [];
    RULE_WHY_BALANCE = "rule.why.balance" [];
    LIMIT_WHY_BALANCE = "limit.why.balance" [];
    RULE_WHY_GEOMETRY = "rule.why.geometry" [];
    LIMIT_WHY_GEOMETRY = "limit.why.geometry" [];
    RULE_WHY_HEAT = "rule.why.heat" [];
    LIMIT_WHY_HEAT = "limit.why.heat" [];
    RULE_WHY_STOPPING = "rule.why.stopping" [];
    LIMIT_WHY_STOPPING = "limit.why.stopping" [];
    RULE_WHY_THREAD = "rule.why.thread" [];
    LIMIT_WHY_THREAD = "limit.why.thread" [];
    RULE_WHY_CLAMP = "rule.why.clamp" [];
    LIMIT_WHY_CLAMP = "limit.why.clamp" [];
    RULE_WHY_LONG_FORM = "rule.why.long-form" [];
    LIMIT_WHY_LONG_FORM = "limit.why.long-form" [];
    WHY_FORCE = "why.force" ["pressure", "lbf", "newtons", "moment"];
    WHY_BALANCE = "why.balance" ["percent"];
    WHY_GEOMETRY = "why.geometry" ["degrees", "percent"];
    WHY_HEAT = "why.heat" ["cold", "hot"];
    WHY_STOPPING = "why.stopping" ["set-up-ft", "set-up-m", "limit-ft", "limit-m", "percent"];
    WHY_CLAMP = "why.clamp" ["torque", "oiled-lbf", "oiled-kn", "dry-lbf", "dry-kn"];
    WHY_LONG_FORM = "why.long-form" ["torque", "more-lbf", "more-kn", "less-lbf", "less-kn"];
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_is_said_somewhere() {
        let text = crate::cases::crate_text(&["word.rs"]);
        for (key, _) in ALL {
            let name: String = key
                .chars()
                .map(|c| {
                    if c.is_ascii_alphanumeric() {
                        c.to_ascii_uppercase()
                    } else {
                        '_'
                    }
                })
                .collect();
            // The first families have shorter names than their keys; those are asked by hand.
            let long = text.contains(&format!("word::{name}"));
            let short = name
                .replace("_REMARK_", "_")
                .replace("VERDICT_", "")
                .replace("REMARK_VOID", "VOID");
            let short = short
                .replace("_QUESTION_", "_")
                .replace("TYPED_FAULT_", "TYPED_");
            assert!(
                long || text.contains(&format!("word::{short}")),
                "{key} is said nowhere"
            );
        }
    }

    #[test]
    fn keys_are_unique_and_spelled_alike() {
        for (at, (key, arguments)) in ALL.iter().enumerate() {
            assert!(
                ALL[..at].iter().all(|(other, _)| other != key),
                "{key} stands twice"
            );
            let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || ".-".contains(c);
            assert!(key.chars().all(plain), "{key}");
            assert!(arguments.iter().all(|name| !name.is_empty()), "{key}");
        }
    }
}
