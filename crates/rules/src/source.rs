//! Every document that a limit is taken from, once. A document is named nowhere else.
//!
//! The screen shows the source beside the verdict. Nothing here is a limit.

use crate::word::{self, Word};

/// How good a source is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Standing {
    /// A law or a rule made under one.
    Regulation,
    /// A published standard.
    Standard,
    /// A maker's or an army's service manual.
    Manual,
    /// Trade press or a course text that reports what others require: weak.
    TradePress,
    /// What the trade does, without a document.
    CommonPractice,
    /// Typed in by the shop, on its own responsibility.
    Shop,
    /// Cast, stamped or tagged on the part itself: it comes before everything else.
    Part,
    /// Recalled, not read. Never a built-in limit.
    FromMemory,
}

impl Standing {
    /// The word for it.
    pub const fn word(self) -> Word {
        match self {
            Self::Regulation => word::STANDING_REGULATION,
            Self::Standard => word::STANDING_STANDARD,
            Self::Manual => word::STANDING_MANUAL,
            Self::TradePress => word::STANDING_TRADE_PRESS,
            Self::CommonPractice => word::STANDING_COMMON_PRACTICE,
            Self::Shop => word::STANDING_SHOP,
            Self::Part => word::STANDING_PART,
            Self::FromMemory => word::STANDING_FROM_MEMORY,
        }
    }

    /// The stable name under which it is stored and listed.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Regulation => "regulation",
            Self::Standard => "standard",
            Self::Manual => "manual",
            Self::TradePress => "trade press",
            Self::CommonPractice => "COMMON PRACTICE",
            Self::Shop => "shop sheet",
            Self::Part => "marked on the part",
            Self::FromMemory => "FROM MEMORY",
        }
    }
}

/// One place in one edition of one document.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Source {
    /// What it is called.
    pub document: &'static str,
    /// Which one of its editions.
    pub edition: &'static str,
    /// Where in it.
    pub clause: &'static str,
    /// How good it is.
    pub standing: Standing,
    /// The day on which the figure was last held against the text.
    pub checked: &'static str,
}

/// The day on which all figures were last gone through.
const GONE_THROUGH: &str = "2026-11-25";

const fn source(
    document: &'static str,
    edition: &'static str,
    clause: &'static str,
    standing: Standing,
) -> Source {
    Source {
        document,
        edition,
        clause,
        standing,
        checked: GONE_THROUGH,
    }
}

/// The shop's own figure, typed into its sheet.
pub const SHOP_SHEET: Source = source("Shop sheet", "as typed", "", Standing::Shop);

/// A figure cast, stamped or tagged on the part.
pub const ON_THE_PART: Source = source("Mark on the part", "as read", "", Standing::Part);

/// What the trade does, without a document.
pub const COMMON_PRACTICE: Source = source("COMMON PRACTICE", "", "", Standing::CommonPractice);

/// Stands are used in pairs, and the rating must exceed the axle weight; no rating, no use.
pub const STAND_RATING: Source = source(
    "Tire Business, shop floor: jack stands in commercial tire service",
    "undated",
    "rating over the axle weight; pairs at both ends of one axle",
    Standing::TradePress,
);

/// A worn, damaged or repaired stand is out of use.
pub const STAND_CONDITION: Source = source(
    "US Army TB 43-0156, vehicle support stands",
    "undated copy",
    "no repair of base, column, saddle or pawl; signs of repair reject it",
    Standing::Manual,
);

/// Two stands, one at each side, before anything comes off.
pub const STANDS_BOTH_SIDES: Source = source(
    "US Army TM 9-2330-335-14&P",
    "undated copy",
    "WP 0032",
    Standing::Manual,
);

/// A jack is rated for what it lifts, and shows its rating.
pub const JACK_RATING: Source = source(
    "29 CFR 1910.244",
    "as read in a stored copy",
    "(a)(1)(i) and (ii)",
    Standing::Regulation,
);

/// When a tyre on a multi-piece rim is emptied before it comes off.
pub const MULTI_PIECE_RIM: Source = source(
    "29 CFR 1910.177",
    "as read in a stored copy",
    "(f)(2): driven at 80 percent or less, or damage seen or suspected",
    Standing::Regulation,
);

/// The reservoir pressure at which strokes are read.
pub const RESERVOIR_WINDOW: Source = source(
    "CVSA air brake inspection procedure; Ontario air brake handbook 11-2",
    "as read 2026",
    "90 to 100 psi (621 to 690 kPa), engine off, full application held",
    Standing::Standard,
);

/// The chamber pressure that a full application from such a reservoir gives.
pub const CHAMBER_WINDOW: Source = source(
    "US Army TM 5-3825-229-14&P",
    "undated copy",
    "4-27, p. 4-62: 100 psi in the tank gives 80 to 90 psi in the chamber",
    Standing::Manual,
);

/// The pushrod stroke that a brake chamber may show, by family, type and class.
pub const STROKE_LIMITS: Source = source(
    "49 CFR 393.47",
    "as amended 14 October 2021 (86 FR 57076)",
    "(e)(1)",
    Standing::Regulation,
);

/// The same table before that: type 36 had 2 1/4 in, which still stands in makers' tables.
pub const STROKE_LIMITS_2012: Source = source(
    "49 CFR 393.47",
    "6 August 2012 (77 FR 46638) to 14 October 2021; as in Spicer and Etnyre tables",
    "(e)(1)",
    Standing::Regulation,
);

/// An actuator that is in no table: by its own marks.
pub const STROKE_UNLISTED: Source = source(
    "49 CFR 393.47",
    "as amended 14 October 2021 (86 FR 57076)",
    "(e)(2)",
    Standing::Regulation,
);

/// Chambers of one axle: the same size at both ends.
pub const CHAMBERS_ALIKE: Source = source(
    "49 CFR 393.47",
    "as amended 14 October 2021 (86 FR 57076)",
    "(b)",
    Standing::Regulation,
);

/// Arms of one axle: the same effective length at both ends.
pub const ARMS_ALIKE: Source = source(
    "49 CFR 393.47",
    "as amended 14 October 2021 (86 FR 57076)",
    "(c)",
    Standing::Regulation,
);

/// Standard and long stroke are never mixed on one axle.
pub const CLASSES_ALIKE: Source = source(
    "MGM, as reported by Truck News: mixing standard and long stroke chambers",
    "2005",
    "same axle",
    Standing::TradePress,
);

/// What a periodic inspection rejects: any stroke over its limit, unlike ends of a steer axle.
pub const PERIODIC_INSPECTION: Source = source(
    "49 CFR 396 Appendix A",
    "as read in a stored copy",
    "1.a",
    Standing::Regulation,
);

/// Automatic adjusters on air-braked vehicles, by build date, in the United States.
pub const ADJUSTERS_US: Source = source(
    "49 CFR 393.53; 396 Appendix A",
    "as read in a stored copy",
    "393.53(b); 1.m(2)",
    Standing::Regulation,
);

/// Automatic adjusters by build date in Canada.
pub const ADJUSTERS_CANADA: Source = source(
    "CMVSS 121, as given in TP 14214",
    "as read 2026",
    "automatic adjusters",
    Standing::Regulation,
);

/// Automatic adjusters by build date in Ontario, earlier than in the rest of Canada.
pub const ADJUSTERS_ONTARIO: Source = source(
    "Ontario rule, as given in TP 14214",
    "as read 2026",
    "all vehicles",
    Standing::Regulation,
);

/// How defective brakes are counted by the roadside: read in trade press only.
pub const ROADSIDE_COUNT: Source = source(
    "CVSA out-of-service criteria, as reported by Overdrive and Bulk Transporter",
    "2023",
    "20 percent criterion; 1/4 in over is one, under that a half",
    Standing::TradePress,
);

/// How Quebec counts chambers over their limit.
pub const QUEBEC_COUNT: Source = source(
    "Quebec C-24.2, r. 32",
    "as read 2026",
    "s. 166",
    Standing::Regulation,
);

/// The manual of a clutch adjuster with a control arm: strokes, windows, tests, causes.
pub const CLUTCH_ADJUSTER: Source = source(
    "Haldex S-ABA service manual",
    "stored copy",
    "pp. 6-9, 12",
    Standing::Manual,
);

/// A truck maker's manual for pawl adjusters: after adjustment.
pub const PAWL_SET_UP: Source = source(
    "Freightliner Cargo maintenance manual, with Meritor adjusters",
    "2003",
    "group 42",
    Standing::Manual,
);

/// A crane carrier maker's manual: in service, pawl or clutch adjusters.
pub const CRANE_CARRIER: Source = source(
    "Grove TMS800E and TMS9000-2 service manuals",
    "stored copies",
    "pp. 8-38, 8-51",
    Standing::Manual,
);

/// An army instruction for manual adjusters.
pub const MANUAL_ADJUSTER: Source = source(
    "US Army TM 5-3895-374-24-2",
    "undated copy",
    "p. 3-1376",
    Standing::Manual,
);

/// An army instruction for adjusters that are set up with a clevis gauge.
pub const GAUGE_ADJUSTER: Source = source(
    "US Army TM 5-2330-325-13&P",
    "undated copy",
    "WP 0059",
    Standing::Manual,
);

/// A trailer maker's manual: periodic check, adjuster not named.
pub const DUMP_TRAILER: Source = source(
    "Dump trailer owner's manual",
    "stored copy",
    "p. 39",
    Standing::Manual,
);

/// A provincial air brake manual: free play, angles, hand adjustment.
pub const SASKATCHEWAN: Source = source(
    "SGI Saskatchewan air brake manual",
    "as read 2026",
    "service tests; within an inch",
    Standing::TradePress,
);

/// The manual of a linkless adjuster: set-up angles by arm.
pub const ANGLES_BY_ARM: Source = source(
    "Maker B SD-05-4630",
    "stored copy",
    "p. 4, chart 1",
    Standing::Manual,
);

/// What a sound brake takes of the stroke, set to a light drag.
pub const LIGHT_DRAG: Source = source(
    "Maker B SD-05-4630",
    "stored copy",
    "p. 6, chart 3",
    Standing::Manual,
);

/// A trailer axle maker's chamber instruction: over 90 degrees released.
pub const ANGLE_RELEASED: Source = source(
    "SAF-Holland XL-AM20006BM-en-US",
    "22 April 2014",
    "pp. 6-7",
    Standing::Manual,
);

/// Turning an automatic adjuster is no repair.
pub const NOT_A_REPAIR: Source = source(
    "Meritor MM-4 service notes; NTSB HAR-06/01; Etnyre and Peterbilt manuals",
    "rev. 08-16; 2006",
    "manual adjustment of automatic adjusters",
    Standing::Manual,
);

/// The gear torque of a pawl adjuster.
pub const GEAR_TORQUE: Source = source(
    "US Army TM 9-2330-386-14&P",
    "undated copy",
    "p. 143",
    Standing::Manual,
);

/// The gap between a clevis and its collar.
pub const CLEVIS_GAP: Source = source("Meritor MM-0440", "stored copy", "p. 6", Standing::Manual);

/// A linkless adjuster's own list of causes.
pub const CAUSES_LINKLESS: Source = source(
    "Maker B SD-05-4630",
    "stored copy",
    "p. 8",
    Standing::Manual,
);

/// Another maker's list of causes.
pub const CAUSES_SELF_ADJUSTING: Source = source(
    "Maker B self-adjusting brake adjuster manual",
    "stored copy",
    "p. 13",
    Standing::Manual,
);

/// A truck maker's table whose column is headed oiled.
pub const TORQUE_M2: Source = source(
    "Freightliner M2 Plus maintenance manual",
    "doc 0000121942, 6 November 2024",
    "op. 40.01",
    Standing::Manual,
);

/// Two drops of oil between nut and flange.
pub const TORQUE_CASCADIA: Source = source(
    "Freightliner Cascadia maintenance manual",
    "November 2015",
    "40-01, table 1",
    Standing::Manual,
);

/// A truck maker's table that doesn't say in which state.
pub const TORQUE_122SD: Source = source(
    "Freightliner 122SD and Coronado 132 maintenance manual",
    "doc 0000125957, 21 June 2024",
    "op. 40.01.01",
    Standing::Manual,
);

/// A chassis maker's table with a narrower range for 20 mm studs.
pub const TORQUE_RV: Source = source(
    "Freightliner Custom Chassis RV maintenance manual",
    "doc 0000120613",
    "wheels",
    Standing::Manual,
);

/// A coach maker: no lubricant whatsoever.
pub const TORQUE_COACH_DRY: Source = source(
    "Prevost X3-45 maintenance manual PA1593",
    "2016",
    "sec. 13, p. 5",
    Standing::Manual,
);

/// A coach maker's table that doesn't say in which state.
pub const TORQUE_COACH: Source = source(
    "Prevost H3-41 maintenance manual",
    "stored copy",
    "sec. 13, 4.5",
    Standing::Manual,
);

/// One drop between washer and nut, none on the threads.
pub const TORQUE_F650_2016: Source = source(
    "Ford F-650/750 owner's manual",
    "2016",
    "p. 249",
    Standing::Manual,
);

/// Threads dry, but for a light film where they are corroded.
pub const TORQUE_F650_2012: Source = source(
    "Ford F-650/750 owner's supplement",
    "2012",
    "p. 236",
    Standing::Manual,
);

/// A trailer maker's flange nuts, dry.
pub const TORQUE_TRAILER_DRY: Source = source(
    "Creative Werks TI1 trailer manual",
    "1 February 2008",
    "p. 11",
    Standing::Manual,
);

/// An army axle table for dry threads, plus or minus ten percent.
pub const TORQUE_ARMY_TABLE: Source = source(
    "US Army TM 5-3820-256-24-4",
    "undated copy",
    "p. 21",
    Standing::Manual,
);

/// A trailer maker's cap nuts, dry; 50 lbf·ft first.
pub const TORQUE_PRATT: Source = source(
    "Pratt Industries trailer manual",
    "stored copy",
    "p. 21",
    Standing::Manual,
);

/// A trailer maker's inner and outer cap nuts, dry; 50 lbf·ft first.
pub const TORQUE_LUFKIN: Source = source(
    "Lufkin dump trailer manual",
    "stored copy",
    "p. 27",
    Standing::Manual,
);

/// A crane truck maker's wheel nuts, dry.
pub const TORQUE_TEREX: Source = source(
    "Terex T300-1/T500-1/T780 manual",
    "January 2015",
    "p. 462",
    Standing::Manual,
);

/// A truck maker's own dynamic values, never oiled.
pub const TORQUE_PETERBILT: Source = source(
    "Peterbilt medium duty operator's manual Y53-6008",
    "October 2006",
    "table 8",
    Standing::Manual,
);

/// An army semitrailer with values of its own.
pub const TORQUE_ARMY_SEMITRAILER: Source = source(
    "US Army TM 9-2330-238-14",
    "undated copy",
    "4-49",
    Standing::Manual,
);

/// An army trailer's rim nuts: a quarter turn at a time, then full.
pub const TORQUE_ARMY_SPOKE: Source = source(
    "US Army TM 5-2330-378-14&P",
    "undated copy",
    "3-10",
    Standing::Manual,
);

/// A tank trailer maker: 50 lbf·ft in order, then full.
pub const TORQUE_TANK_TRAILER: Source = source(
    "Pneumatic tank trailer owner's manual",
    "stored copy",
    "8.2.1-8.2.2",
    Standing::Manual,
);

/// The first value of flange nuts.
pub const SEAT_VALUE: Source = source(
    "Freightliner Century Class driver's manual",
    "stored copy",
    "step 3.3",
    Standing::Manual,
);

/// A printed circle of twelve; 70 percent first.
pub const BOLT_CIRCLE: Source = source(
    "US Army TB 9-3950-253-13&P",
    "July 2009",
    "WP 0061-1",
    Standing::Manual,
);

/// A light trailer's chart whose layout was rebuilt from its text.
pub const PATTERN_CHART: Source = source(
    "Light-trailer wheel assembly chart 0003682",
    "rev. B",
    "5, 6 and 8 studs",
    Standing::Manual,
);

/// Where no order is quoted, opposite nuts gradually in turn.
pub const PATTERN_OPPOSITE: Source = source(
    "DVSA and industry leaflet, Careless Torque Costs Lives",
    "as reproduced",
    "tightening",
    Standing::Standard,
);

/// What a wrench of type II class A keeps to, and where it is tested.
pub const WRENCH_STANDARD: Source = source(
    "ISO 6789:2003, as restated in the Facom S.325 manual",
    "stored copy",
    "type II class A",
    Standing::Standard,
);

/// How often a wrench is calibrated where no procedure says otherwise.
pub const WRENCH_INTERVAL: Source = source(
    "Norbar, how often should I recalibrate my torque wrench",
    "1 May 2013",
    "12 months or 5 000 cycles",
    Standing::TradePress,
);

/// What to set on a wrench with an adapter.
pub const ADAPTER_FORMULA: Source = source(
    "US Army TM 9-2350-277-40&P; TM 9-254",
    "stored copies",
    "p. 44; fig. 4-5 and 4-6",
    Standing::Manual,
);

/// When wheel nuts are checked again.
pub const ROAD_CHECK: Source = source(
    "TMC RP 237, as reported by Vehicle Service Pros; Freightliner op. 40.01.01",
    "as read 2026",
    "50 to 100 mi (80 to 160 km)",
    Standing::Manual,
);

/// The nuts are checked at the value that they were fitted with, and tightened where they relaxed.
pub const ROAD_CHECK_AT_FITTING: Source = source(
    "Prevost X3-45 maintenance manual PA1593",
    "2016",
    "section 13, p. 5",
    Standing::Manual,
);

/// Wheels that are loose again are not just tightened: cause and damage are looked for.
pub const LOOSE_AGAIN: Source = source(
    "Prevost X3-45 Commuter maintenance manual PA1605",
    "revision 2, April 2016",
    "section 13, p. 6",
    Standing::Manual,
);

/// No nut may be missing or loose.
pub const NUTS_PRESENT: Source = source(
    "49 CFR 393.205; 396 Appendix A",
    "as read in a stored copy",
    "(c); 11.c",
    Standing::Regulation,
);

/// Valve stems of a dual half a turn apart.
pub const STEMS_HALF_TURN: Source = source(
    "Alcoa wheel service booklet; US Army TM 9-2330-238-14",
    "stored copies",
    "4-10; 4-49: 180 degrees apart",
    Standing::Manual,
);

/// A drum maker's sheet: worn out, turned, cracks, both of an axle.
pub const DRUM_MAKER: Source = source(
    "Webb drum and rotor service sheet, in US Army TM 9-2330-326-14&P",
    "undated copy",
    "0.120 in and 0.080 in over nominal; any crack; heavy checks; damaged mounting",
    Standing::Manual,
);

/// A drum is within its maker's own limit; the law has no figure.
pub const DRUM_LAW: Source = source(
    "49 CFR 393.47; 49 CFR 570.59",
    "as amended 14 October 2021 (86 FR 57076); as read in a stored copy",
    "393.47(g); 570.59(b)",
    Standing::Regulation,
);

/// Cracks that show outside or open, and missing pieces; hairline checks are none.
pub const DRUM_CRACKS: Source = source(
    "49 CFR 396 Appendix A",
    "as read in a stored copy",
    "1.c",
    Standing::Regulation,
);

/// An army semitrailer with S-cam air brakes: round, taper, where to measure.
pub const DRUM_SEMITRAILER: Source = source(
    "US Army TM 9-2330-384-14&P",
    "undated copy",
    "p. 5-5: four places 45 degrees apart, front and rear",
    Standing::Manual,
);

/// A ten-ton army truck, figures of its own.
pub const DRUM_TEN_TON: Source = source(
    "US Army TM 9-2320-279-34-2",
    "undated copy",
    "p. 11-4",
    Standing::Manual,
);

/// Hydraulic truck brakes.
pub const DRUM_HYDRAULIC: Source = source(
    "US Army TM 5-4210-230-14&P-1",
    "undated copy",
    "p. 412, drum out of round on diameter",
    Standing::Manual,
);

/// A small trailer: eccentricity.
pub const DRUM_SMALL_TRAILER: Source = source(
    "US Army TM 5-3825-225-14&P",
    "undated copy",
    "p. 100",
    Standing::Manual,
);

/// A fire truck's S-cam air brake: total indicated run-out.
pub const DRUM_RUN_OUT: Source = source(
    "US Army TM 5-4210-220-12",
    "undated copy",
    "p. 685, caution",
    Standing::Manual,
);

/// A 15 by 4 in cam brake: bell-mouth, and turning at each reline.
pub const DRUM_FIFTEEN: Source = source(
    "Maker B SD-22-3250",
    "stored copy",
    "p. 6",
    Standing::Manual,
);

/// An army dump truck: scoring or bell-mouth.
pub const DRUM_DUMP_TRUCK: Source = source(
    "US Army TM 5-3805-254-34",
    "undated copy",
    "p. 11-2",
    Standing::Manual,
);

/// Two makers who advise against turning at all.
pub const DRUM_NOT_TURNED: Source = source(
    "Meritor MM-0440; Maker B EB/ES brake manual",
    "stored copies",
    "p. 6; p. 31",
    Standing::Manual,
);

/// What drums show when something else is wrong.
pub const DRUM_FAILURES: Source = source(
    "Meritor drum failure section; Midwest Wheel brake safety tips",
    "as read 2026",
    "section 6: hot spots, blue drums, wear on one side",
    Standing::Manual,
);

/// What one drum of an axle gets, the other gets.
pub const DRUM_PAIR: Source = source(
    "US Army TM 5-3825-229-14&P; Webb notice",
    "undated copies",
    "p. 168: turned or replaced in pairs",
    Standing::Manual,
);

/// How the coating comes off a new drum.
pub const DRUM_COATING: Source = source(
    "GMC C-series air drum replacement",
    "2001",
    "wash with denatured alcohol or brake cleaner, no oily solvent",
    Standing::Manual,
);

/// What drums weigh: weak hosts.
pub const DRUM_WEIGHT: Source = source(
    "Two web pages on drum weights",
    "as read 2026",
    "99.5 lb the lightest full-cast one; 100 to 160 lb quoted",
    Standing::TradePress,
);

/// How thin a lining may be on the road, by axle and shoe.
pub const LINING_LAW: Source = source(
    "49 CFR 393.47",
    "as amended 14 October 2021 (86 FR 57076)",
    "(d)(1) and (d)(2)",
    Standing::Regulation,
);

/// How thin at a periodic inspection: one figure for every axle.
pub const LINING_PERIODIC: Source = source(
    "49 CFR 396 Appendix A",
    "as read in a stored copy",
    "1.a(6)(c) and (d)",
    Standing::Regulation,
);

/// Linings that aren't firm, or soaked.
pub const LINING_LOOSE_OR_OILED: Source = source(
    "49 CFR 396 Appendix A",
    "as read in a stored copy",
    "1.a(6)(a) and (b)",
    Standing::Regulation,
);

/// Quebec's figures by fixing and axle, at the thinnest point.
pub const LINING_QUEBEC: Source = source(
    "Quebec C-24.2, r. 32",
    "as read 2026",
    "s. 31(2)",
    Standing::Regulation,
);

/// A maker's advice when to reline, earlier than the law.
pub const LINING_RELINE: Source = source(
    "Maker B SD-22-3250",
    "stored copy",
    "p. 3",
    Standing::Manual,
);

/// An older in-use standard for all vehicles, far looser: not for air brakes.
pub const LINING_IN_USE: Source = source(
    "49 CFR 570.59",
    "as read in a stored copy",
    "(c)",
    Standing::Regulation,
);

/// Soaked linings are never used again; both ends of the axle.
pub const LINING_CONTAMINATED: Source = source(
    "Haldex maintenance steps; Overdrive, Brake Even; US Army TM 9-2330-331-14&P",
    "as read 2026",
    "steps 4 to 6; never reused",
    Standing::Manual,
);

/// A relined shoe: where a feeler may not go in.
pub const LINING_GAP: Source = source(
    "Isuzu medium duty tilt cab manual",
    "1999",
    "reline check",
    Standing::Manual,
);

/// Rivet heads of a fire truck's air brake.
pub const RIVETS_TRUCK: Source = source(
    "US Army TM 5-4210-220-12",
    "undated copy",
    "pp. 683 and 716",
    Standing::Manual,
);

/// Rivet heads of an army trailer, and the same figure in a state's law.
pub const RIVETS_TRAILER: Source = source(
    "US Army TM 9-2330-331-14&P; Washington RCW 46.37.360",
    "undated copy; as read 2026",
    "p. 189",
    Standing::Manual,
);

/// Shoes with an open roller recess.
pub const SHOE_RECESS: Source = source(
    "US Army TM 5-4210-220-12",
    "undated copy",
    "p. 683, steps 4 and 5",
    Standing::Manual,
);

/// Shoes with a roller hole.
pub const SHOE_HOLE: Source = source(
    "Grove TMS9000-2 service manual",
    "stored copy",
    "p. 8-56, step 4",
    Standing::Manual,
);

/// What the letters of a friction code stand for.
pub const EDGE_CODE: Source = source(
    "SAE J866, as summarised by TN Lab",
    "2019",
    "two letters, normal and hot",
    Standing::Standard,
);

/// One friction code and one brand on both ends of an axle.
pub const EDGE_CODE_ALIKE: Source = source(
    "Maker B brake systems diagnostic guide",
    "stored copy",
    "pp. 11 and 17",
    Standing::Manual,
);

/// What a set of parts holds, and what is routinely renewed.
pub const HARDWARE_LIST: Source = source(
    "Maker B 15-in single-anchor parts list; Maker B EB/ES brake manual",
    "stored copies",
    "parts list; pp. 37, 46-47",
    Standing::Manual,
);

/// Return springs whenever shoes or linings are renewed.
pub const HARDWARE_SPRINGS: Source = source(
    "US Army TM 5-3820-256-24-4; Maker B EB/ES brake manual",
    "undated copy; stored copy",
    "p. 264; pp. 46-47",
    Standing::Manual,
);

/// Small springs and roller clips.
pub const HARDWARE_CLIPS: Source = source(
    "Grove TMS9000-2 service manual",
    "stored copy",
    "p. 8-57",
    Standing::Manual,
);

/// Anchor pins and their bushings.
pub const HARDWARE_PINS: Source = source(
    "US Army TM 9-2330-335-14&P; US Army TM 9-2330-331-14&P",
    "undated copies",
    "p. 182; triennial list",
    Standing::Manual,
);

/// Play of a camshaft up and down, for two makes of spider brake.
pub const CAM_PLAY_TWENTY: Source = source(
    "IH CTS-4080W in US Army TM 5-3820-256-24-4",
    "stored copy",
    "p. 267: makes with 0.020 in",
    Standing::Manual,
);

/// The same for another make.
pub const CAM_PLAY_THIRTY: Source = source(
    "IH CTS-4080W in US Army TM 5-3820-256-24-4",
    "stored copy",
    "p. 267: make with 0.030 in",
    Standing::Manual,
);

/// The same on a fire truck, front and rear.
pub const CAM_PLAY_ARMY: Source = source(
    "US Army TM 5-4210-220-12",
    "stored copy",
    "p. 684, 717: radial play at either end",
    Standing::Manual,
);

/// The same on a crane carrier.
pub const CAM_PLAY_CRANE: Source = source(
    "Grove TMS700E service manual",
    "stored copy",
    "p. 8-28: radial play",
    Standing::Manual,
);

/// Play of a camshaft end to end in a 15 by 4 in brake.
pub const CAM_END_FIFTEEN: Source = source(
    "Maker B SD-22-3250; US Army TM 5-4210-220-12",
    "stored copies",
    "p. 7; p. 717",
    Standing::Manual,
);

/// The same in spider brakes, with the retaining ring on.
pub const CAM_END_SPIDER: Source = source(
    "IH CTS-4080W in US Army TM 5-3820-256-24-4",
    "stored copy",
    "p. 266",
    Standing::Manual,
);

/// The same on a trailer axle, at the adjuster.
pub const CAM_END_TRAILER: Source = source(
    "SAF-Holland XL-AM20006BM",
    "stored copy",
    "p. 6",
    Standing::Manual,
);

/// How far an adjuster rocks on its splines.
pub const CAM_SPLINE: Source = source(
    "Maker B SD-22-3250",
    "stored copy",
    "p. 6: 6 in from the shaft's centre",
    Standing::Manual,
);

/// A worn head or journal; a new camshaft takes new bushings and seals.
pub const CAM_HEAD: Source = source(
    "Grove TMS700E, TMS800E; US Army TM 5-4210-220-12",
    "stored copies",
    "p. 8-28; p. 683",
    Standing::Manual,
);

/// Grease at the cam head means a worn seal.
pub const CAM_GREASE: Source = source(
    "Maker B EB/ES manual; Western Star 47X maintenance manual",
    "stored copies",
    "p. 17; group 42",
    Standing::Manual,
);

/// A camshaft that binds.
pub const CAM_BINDING: Source = source(
    "Haldex S-ABA",
    "stored copy",
    "p. 8: camshaft binding",
    Standing::Manual,
);

/// A cracked spider, a bore that has grown, a loose or grooved pin.
pub const SPIDER_WORN: Source = source(
    "US Army TM 5-4210-220-12; Grove TMS9000-2",
    "stored copies",
    "p. 683, 716; p. 8-56",
    Standing::Manual,
);

/// How deep an anchor pin may be grooved.
pub const ANCHOR_PIN_ARMY: Source = source(
    "US Army TM 5-4210-220-12",
    "stored copy",
    "p. 683: anchor pin",
    Standing::Manual,
);

/// The same on a crane carrier.
pub const ANCHOR_PIN_CRANE: Source = source(
    "Grove TMS700E service manual",
    "stored copy",
    "p. 8-28: anchor pin",
    Standing::Manual,
);

/// The hole of a shoe for its anchor pin.
pub const SHOE_ANCHOR_HOLE: Source = source(
    "Grove TMS9000-2",
    "stored copy",
    "p. 8-56, step 4",
    Standing::Manual,
);

/// The bushing in an adjuster's arm.
pub const ARM_BUSHING: Source = source(
    "Grove TMS9000-2",
    "stored copy",
    "p. 8-56, step 6",
    Standing::Manual,
);

/// A linkless adjuster: its clevis, and how large arm times area may be.
pub const LINKLESS_ADJUSTER: Source = source(
    "Maker B SD-05-1269",
    "stored copy",
    "p. 8",
    Standing::Manual,
);

/// A worn clevis pin.
pub const CLEVIS_PIN: Source = source(
    "US Army TM 9-2320-270-20-2; maker B EB/ES manual",
    "stored copies",
    "p. 4-626; p. 36",
    Standing::Manual,
);

/// A bolt in place of a clevis pin.
pub const CLEVIS_BOLT: Source = source(
    "Maine rule 222-1-200-05",
    "as read 2026",
    "3.B",
    Standing::Regulation,
);

/// How wheel bearings are adjusted, and the end play that comes of it.
pub const BEARING_RULE_BOOK: Source = source(
    "TMC RP 618, as printed by Stemco (740)",
    "stored copy",
    "by axle, nut and thread",
    Standing::Standard,
);

/// A trailer maker's wider window.
pub const BEARING_TRAILER_MAKER: Source = source(
    "Landoll 345C and 900C operator's manuals",
    "stored copies",
    "wheel bearings",
    Standing::Manual,
);

/// A driven steer axle's own window.
pub const BEARING_STEER_DRIVE: Source = source(
    "ArvinMeritor MM-0361",
    "stored copy",
    "p. 28",
    Standing::Manual,
);

/// The window of a one-piece nut.
pub const BEARING_ONE_PIECE: Source = source(
    "Stemco bearing adjustment sheet, one-piece nut",
    "2020",
    "accepted end play",
    Standing::Manual,
);

/// A broken stud goes with both neighbours; two or more, all go.
pub const STUD_NEIGHBOURS: Source = source(
    "Alcoa wheel service booklet",
    "stored copies",
    "4-1; 5-6",
    Standing::Manual,
);

/// All studs go only where more than two are broken.
pub const STUD_ALL_FROM_THREE: Source = source(
    "Creative Werks TI1 trailer manual",
    "2008",
    "p. 11",
    Standing::Manual,
);

/// How many turns a nut needs on its stud.
pub const STUD_TURNS: Source = source(
    "Prevost H3-41 maintenance manual",
    "stored copy",
    "section 13, 4.5",
    Standing::Manual,
);

/// How many threads show past a nut, in Quebec.
pub const STUD_PAST_NUT_QUEBEC: Source = source(
    "Quebec C-24.2, r. 32",
    "as read 2026",
    "s. 121(2)",
    Standing::Regulation,
);

/// What a wheel maker says that most places ask.
pub const STUD_PAST_NUT_ELSEWHERE: Source = source(
    "Alcoa wheel service booklet",
    "stored copies",
    "5-6: most places, 1 to 2 threads past full engagement",
    Standing::Manual,
);

/// Left-hand threads on the left, right-hand on the right, with ball seats.
pub const STUD_HAND: Source = source(
    "Freightliner Custom Chassis RV maintenance manual; Peterbilt 320 manual 22-01691",
    "stored copies",
    "wheels; p. 135",
    Standing::Manual,
);

/// Right-hand threads on both sides, on the hub's pilots.
pub const STUD_RIGHT_HAND: Source = source(
    "Alcoa wheel service booklet; Peterbilt 320 manual 22-01691",
    "stored copies",
    "4-9; p. 135",
    Standing::Manual,
);

/// How far studs stand out for aluminium wheels on the hub's pilots.
pub const STAND_OUT_PILOT: Source = source(
    "Alcoa wheel service booklet",
    "stored copies",
    "4-9, 4-10",
    Standing::Manual,
);

/// The same for one aluminium wheel on ball seats.
pub const STAND_OUT_BALL: Source = source(
    "Alcoa wheel service booklet",
    "stored copies",
    "5-3 to 5-5",
    Standing::Manual,
);

/// The same for two wheels on ball seats.
pub const STAND_OUT_BALL_DUAL: Source = source(
    "Alcoa wheel service booklet; ConMet hub manual",
    "stored copies",
    "5-6; from the drum face",
    Standing::Manual,
);

/// The same, whatever the wheel is made of.
pub const STAND_OUT_ANY_METAL: Source = source(
    "Peterbilt 320 manual 22-01691",
    "Feb 2002",
    "p. 135",
    Standing::Manual,
);

/// How far a hub's pilot reaches for two aluminium wheels.
pub const PILOT_LENGTH: Source = source(
    "Alcoa wheel service booklet",
    "stored copies",
    "4-10, 4-11",
    Standing::Manual,
);

/// No wheel or rim may be cracked or broken.
pub const WHEEL_CRACKED: Source = source(
    "49 CFR 393.205; 396 Appendix A",
    "as read in a stored copy",
    "(a); 11.b",
    Standing::Regulation,
);

/// No stud hole may be out of round.
pub const WHEEL_HOLES: Source = source(
    "49 CFR 393.205; 396 Appendix A",
    "as read in a stored copy",
    "(b); 11.b",
    Standing::Regulation,
);

/// No welded repair on an aluminium wheel of a steer axle.
pub const WHEEL_WELDED_ALUMINIUM: Source = source(
    "49 CFR 396 Appendix A",
    "as read in a stored copy",
    "11.d(3)",
    Standing::Regulation,
);

/// None on a steel one but for the disc to the rim.
pub const WHEEL_WELDED_STEEL: Source = source(
    "49 CFR 396 Appendix A",
    "as read in a stored copy",
    "11.d(4)",
    Standing::Regulation,
);

/// Linings of one axle: the same friction code on every shoe, at both ends.
pub const LININGS_ALIKE: Source = source(
    "Maker B brake systems diagnostic guide",
    "stored copy",
    "pp. 11, 17",
    Standing::Manual,
);

/// Drums of one axle: what one gets, the other gets too.
pub const DRUMS_ALIKE: Source = source(
    "US Army TM 5-3825-229-14&P; drum maker's notice in TM 9-2330-326-14&P",
    "undated copies",
    "pair of drums",
    Standing::Manual,
);

/// How far a caging bolt stands out and how hard its nut may be turned, on an army trailer.
pub const CAGING_TRAILER: Source = source(
    "US Army TM 5-2330-325-14&P",
    "undated copy",
    "caging: 2.5 to 3 in, at most 35 lbf·ft",
    Standing::Manual,
);

/// How far a caging bolt stands out on an army semitrailer.
pub const CAGING_SEMITRAILER: Source = source(
    "US Army TM 9-2330-380-14&P",
    "undated copy",
    "caging: 2 1/2 to 2 3/4 in, that chamber only",
    Standing::Manual,
);

/// The same on a crane carrier.
pub const CAGING_CRANE: Source = source(
    "Grove TMS800E service manual",
    "stored copy",
    "p. 8-38: 3.25 in, at most 50 lbf·ft",
    Standing::Manual,
);

/// What may leak in a minute, by the number of vehicles: a course text for drivers.
pub const LEAK_DOWN: Source = source(
    "Commercial driver's manual text, air brakes, as reproduced",
    "as read 2026",
    "leak-down in one minute, brakes released and applied",
    Standing::TradePress,
);

/// Much the same in a regulation, under air-over-hydraulic brakes.
pub const LEAK_HYDRAULIC: Source = source(
    "49 CFR 570.57",
    "as read in a stored copy",
    "(c)(4), (5): air-over-hydraulic",
    Standing::Regulation,
);

/// Leak-down and low-air warning in Quebec.
pub const QUEBEC_AIR: Source = source(
    "Quebec C-24.2, r. 32",
    "as read 2026",
    "s. 166 (5), (10)",
    Standing::Regulation,
);

/// Where the low-air warning has to work, by a periodic inspection.
pub const LOW_AIR_INSPECTION: Source = source(
    "49 CFR 396 Appendix A; 393.51",
    "as read in a stored copy",
    "1.f; (c)(2)",
    Standing::Regulation,
);

/// Where the low-air warning comes on in a vehicle built under the air brake standard.
pub const LOW_AIR_BUILT: Source = source(
    "49 CFR 571.121",
    "as read in a stored copy",
    "S5.1.5",
    Standing::Regulation,
);

/// At which supply pressure a trailer's parking brakes may no longer drag.
pub const RELEASE_TRAILER: Source = source(
    "49 CFR 571.121",
    "as read in a stored copy",
    "S5.8.3",
    Standing::Regulation,
);

/// What a truck maker has built up before the parking brakes are let go.
pub const RELEASE_TRUCK: Source = source(
    "International ProStar+ operator's manual",
    "stored copy",
    "p. 197",
    Standing::Manual,
);

/// The number of a chamber is its area in square inches.
pub const CHAMBER_AREAS: Source = source(
    "Maker B SD-02-1302",
    "stored copy",
    "type number and effective area",
    Standing::Manual,
);

/// Area times pressure, with a worked example.
pub const FORCE_EXAMPLE: Source = source(
    "ICBC, Driving Commercial Vehicles",
    "as read 2026",
    "p. 144",
    Standing::TradePress,
);

/// Area times arm, with worked examples.
pub const ARM_TIMES_AREA: Source = source(
    "Maker B air brake handbook",
    "stored copy",
    "pp. 59-60",
    Standing::Manual,
);

/// From pushrod to tyre, and what speed adds to a stroke.
pub const BRAKE_FORCE_SHEET: Source = source(
    "Heavy truck calculation worksheet, for crash investigation",
    "undated copy",
    "sheets 1-2",
    Standing::TradePress,
);

/// By how much the ends of an axle may differ on a roller tester.
pub const BALANCE: Source = source(
    "49 CFR 570.59",
    "as read in a stored copy",
    "roller or platform test: 25 percent",
    Standing::Regulation,
);

/// An arm pulls best square to its rod.
pub const LEVERAGE: Source = source(
    "WAC 204-76-99004",
    "as read 2026",
    "diagram text",
    Standing::Regulation,
);

/// What a hot drum made of a stroke in one test.
pub const HOT_DRUM_TEST: Source = source(
    "Truck News, Turning up the heat: tests by R. Radlinski",
    "undated",
    "1 1/2 in at 70 °F, 2 1/8 in at 600 °F, 85 psi",
    Standing::TradePress,
);

/// Proof and yield stress of metric classes, and the stress area that goes with them.
pub const METRIC_CLASSES: Source = source(
    "ISO 898-1, as restated in a property table and a fastener maker's table",
    "rev. 2009-03-06",
    "class 10.9",
    Standing::Standard,
);

/// Stress areas of inch threads.
pub const INCH_THREADS: Source = source(
    "Unified thread tables of two fastener suppliers",
    "as read 2026",
    "tensile stress area",
    Standing::TradePress,
);

/// Proof and yield stress of Grade 8.
pub const INCH_GRADES: Source = source(
    "SAE J429, as restated in a bolt supplier's property table",
    "2022-05-09",
    "Grade 8",
    Standing::Standard,
);

/// Nut factors for oiled and for dry threads.
pub const NUT_FACTORS: Source = source(
    "Mechanical Fastening, Joining, and Assembly; fastener white paper 13",
    "as read 2026",
    "p. 85: T = K D F; 0.15 oiled, 0.20 clean and dry",
    Standing::TradePress,
);

/// Torque and clamp of the sizes at hand, worked out by makers of other machines.
pub const NUT_FACTOR_TABLES: Source = source(
    "J&M grain cart manual; HighLifter HDAS-P-04 manual",
    "stored copies",
    "p. 9; torque-tension table",
    Standing::Manual,
);

/// What a wheel stud is said to clamp.
pub const CLAMP_FIGURE: Source = source(
    "Heavy Duty Trucking, Wheel ends: torque your nuts",
    "2 November 2010",
    "about 50 000 lb a stud",
    Standing::TradePress,
);

/// Preload and torque of fine threads in the long form.
pub const PRELOAD_TABLE: Source = source(
    "Mastik fastener catalogue, after VDI 2230:2001",
    "undated copy",
    "p. 685: 90 percent of yield",
    Standing::Manual,
);

/// Every source above; a test holds that none is missing and none is unused.
pub const SOURCES: &[&Source] = &[
    &SHOP_SHEET,
    &ON_THE_PART,
    &COMMON_PRACTICE,
    &STAND_RATING,
    &STAND_CONDITION,
    &STANDS_BOTH_SIDES,
    &JACK_RATING,
    &MULTI_PIECE_RIM,
    &RESERVOIR_WINDOW,
    &CHAMBER_WINDOW,
    &STROKE_LIMITS,
    &STROKE_LIMITS_2012,
    &STROKE_UNLISTED,
    &CHAMBERS_ALIKE,
    &ARMS_ALIKE,
    &CLASSES_ALIKE,
    &PERIODIC_INSPECTION,
    &ADJUSTERS_US,
    &ADJUSTERS_CANADA,
    &ADJUSTERS_ONTARIO,
    &ROADSIDE_COUNT,
    &QUEBEC_COUNT,
    &CLUTCH_ADJUSTER,
    &PAWL_SET_UP,
    &CRANE_CARRIER,
    &MANUAL_ADJUSTER,
    &GAUGE_ADJUSTER,
    &DUMP_TRAILER,
    &SASKATCHEWAN,
    &ANGLES_BY_ARM,
    &LIGHT_DRAG,
    &ANGLE_RELEASED,
    &NOT_A_REPAIR,
    &GEAR_TORQUE,
    &CLEVIS_GAP,
    &CAUSES_LINKLESS,
    &CAUSES_SELF_ADJUSTING,
    &TORQUE_M2,
    &TORQUE_CASCADIA,
    &TORQUE_122SD,
    &TORQUE_RV,
    &TORQUE_COACH_DRY,
    &TORQUE_COACH,
    &TORQUE_F650_2016,
    &TORQUE_F650_2012,
    &TORQUE_TRAILER_DRY,
    &TORQUE_ARMY_TABLE,
    &TORQUE_PRATT,
    &TORQUE_LUFKIN,
    &TORQUE_TEREX,
    &TORQUE_PETERBILT,
    &TORQUE_ARMY_SEMITRAILER,
    &TORQUE_ARMY_SPOKE,
    &TORQUE_TANK_TRAILER,
    &SEAT_VALUE,
    &BOLT_CIRCLE,
    &PATTERN_CHART,
    &PATTERN_OPPOSITE,
    &WRENCH_STANDARD,
    &WRENCH_INTERVAL,
    &ADAPTER_FORMULA,
    &ROAD_CHECK,
    &ROAD_CHECK_AT_FITTING,
    &LOOSE_AGAIN,
    &NUTS_PRESENT,
    &STEMS_HALF_TURN,
    &DRUM_MAKER,
    &DRUM_LAW,
    &DRUM_CRACKS,
    &DRUM_SEMITRAILER,
    &DRUM_TEN_TON,
    &DRUM_HYDRAULIC,
    &DRUM_SMALL_TRAILER,
    &DRUM_RUN_OUT,
    &DRUM_FIFTEEN,
    &DRUM_DUMP_TRUCK,
    &DRUM_NOT_TURNED,
    &DRUM_FAILURES,
    &DRUM_PAIR,
    &DRUM_COATING,
    &DRUM_WEIGHT,
    &LINING_LAW,
    &LINING_PERIODIC,
    &LINING_LOOSE_OR_OILED,
    &LINING_QUEBEC,
    &LINING_RELINE,
    &LINING_IN_USE,
    &LINING_CONTAMINATED,
    &LINING_GAP,
    &RIVETS_TRUCK,
    &RIVETS_TRAILER,
    &SHOE_RECESS,
    &SHOE_HOLE,
    &EDGE_CODE,
    &EDGE_CODE_ALIKE,
    &HARDWARE_LIST,
    &HARDWARE_SPRINGS,
    &HARDWARE_CLIPS,
    &HARDWARE_PINS,
    &CAM_PLAY_TWENTY,
    &CAM_PLAY_THIRTY,
    &CAM_PLAY_ARMY,
    &CAM_PLAY_CRANE,
    &CAM_END_FIFTEEN,
    &CAM_END_SPIDER,
    &CAM_END_TRAILER,
    &CAM_SPLINE,
    &CAM_HEAD,
    &CAM_GREASE,
    &CAM_BINDING,
    &SPIDER_WORN,
    &ANCHOR_PIN_ARMY,
    &ANCHOR_PIN_CRANE,
    &SHOE_ANCHOR_HOLE,
    &ARM_BUSHING,
    &LINKLESS_ADJUSTER,
    &CLEVIS_PIN,
    &CLEVIS_BOLT,
    &BEARING_RULE_BOOK,
    &BEARING_TRAILER_MAKER,
    &BEARING_STEER_DRIVE,
    &BEARING_ONE_PIECE,
    &STUD_NEIGHBOURS,
    &STUD_ALL_FROM_THREE,
    &STUD_TURNS,
    &STUD_PAST_NUT_QUEBEC,
    &STUD_PAST_NUT_ELSEWHERE,
    &STUD_HAND,
    &STUD_RIGHT_HAND,
    &STAND_OUT_PILOT,
    &STAND_OUT_BALL,
    &STAND_OUT_BALL_DUAL,
    &STAND_OUT_ANY_METAL,
    &PILOT_LENGTH,
    &WHEEL_CRACKED,
    &WHEEL_HOLES,
    &WHEEL_WELDED_ALUMINIUM,
    &WHEEL_WELDED_STEEL,
    &LININGS_ALIKE,
    &DRUMS_ALIKE,
    &CAGING_TRAILER,
    &CAGING_SEMITRAILER,
    &CAGING_CRANE,
    &LEAK_DOWN,
    &LEAK_HYDRAULIC,
    &QUEBEC_AIR,
    &LOW_AIR_INSPECTION,
    &LOW_AIR_BUILT,
    &RELEASE_TRAILER,
    &RELEASE_TRUCK,
    &CHAMBER_AREAS,
    &FORCE_EXAMPLE,
    &ARM_TIMES_AREA,
    &BRAKE_FORCE_SHEET,
    &BALANCE,
    &LEVERAGE,
    &HOT_DRUM_TEST,
    &METRIC_CLASSES,
    &INCH_THREADS,
    &INCH_GRADES,
    &NUT_FACTORS,
    &NUT_FACTOR_TABLES,
    &CLAMP_FIGURE,
    &PRELOAD_TABLE,
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::crate_text;

    #[test]
    fn every_source_is_listed_and_used() {
        let text = crate_text(&["source.rs"]);
        let mut named = 0;
        for line in include_str!("source.rs").lines() {
            let Some((name, _)) = line
                .strip_prefix("pub const ")
                .and_then(|rest| rest.split_once(": Source"))
            else {
                continue;
            };
            named += 1;
            let path = format!("source::{name}");
            let mut uses = text.match_indices(&path);
            let whole = |at: usize| {
                let after = text[at + path.len()..].chars().next();
                !after.is_some_and(|c| c.is_ascii_alphanumeric() || c == '_')
            };
            assert!(uses.any(|(at, _)| whole(at)), "{name} is used nowhere");
        }
        assert_eq!(named, SOURCES.len());
    }

    #[test]
    fn sources_are_whole_and_different() {
        for (at, source) in SOURCES.iter().enumerate() {
            assert!(
                SOURCES[..at].iter().all(|other| other != source),
                "{source:?}"
            );
            assert!(
                !source.document.is_empty() && source.checked.len() == 10,
                "{source:?}"
            );
        }
    }

    #[test]
    fn a_document_is_named_here_only() {
        let text = crate_text(&["source.rs"]);
        for name in [
            "CFR",
            "TM 5-",
            "TM 9-",
            "C-24.2",
            "Freightliner",
            "Haldex",
            "CVSA",
        ] {
            assert!(!text.contains(name), "{name} is named outside this file");
        }
    }

    #[test]
    fn every_standing_has_its_own_word() {
        let all = [
            Standing::Regulation,
            Standing::Standard,
            Standing::Manual,
            Standing::TradePress,
            Standing::CommonPractice,
            Standing::Shop,
            Standing::Part,
            Standing::FromMemory,
        ];
        for (at, one) in all.iter().enumerate() {
            let other = all[..at]
                .iter()
                .any(|other| other.word() == one.word() || other.code() == one.code());
            assert!(!other, "{one:?}");
        }
        assert_eq!(COMMON_PRACTICE.standing.code(), "COMMON PRACTICE");
    }
}
