//! Strokes, adjusters and axles as published.

use rules::conditions::{Air, Application, Conditions, Engine};
use rules::jurisdiction::Jurisdiction;
use rules::quantity::{Angle, Day, Length};
use rules::slack::adjuster::{Ratchet, judge_clevis, judge_clutch, judge_gear};
use rules::slack::angle::judge_angle;
use rules::slack::applied::{StrokeFacts, judge_applied, limits_of};
use rules::slack::cause::{BrakeIs, FreeLies, trees};
use rules::slack::chamber::{Chamber, Family, StrokeClass};
use rules::slack::dates::{Past, judge_kind};
use rules::slack::free::{When, judge_free};
use rules::slack::mechanism::Mechanism;
use rules::slack::set_up::{Reason, Since, may_turn};
use rules::slack::share::{Brake, count};
use rules::verdict::{Side, Verdict};

use super::table::{Row, rows};

fn length(row: &Row<'_>, name: &str) -> Option<Length> {
    row.typed(name)
        .map(|typed| typed.quantity().length().unwrap())
}

fn chamber(row: &Row<'_>) -> Chamber {
    match Family::from_code(row.text("family")) {
        Some(family) => {
            let class = StrokeClass::from_code(row.text("class")).unwrap();
            Chamber::listed(family, row.text("type"), class).unwrap()
        }
        None => Chamber::Unlisted {
            rated: length(row, "rated"),
            marked: length(row, "marked"),
        },
    }
}

fn facts(chamber: Chamber) -> StrokeFacts {
    StrokeFacts {
        chamber,
        taken: Conditions::FAIR,
        jurisdiction: Jurisdiction::UnitedStates,
        shop: None,
    }
}

#[test]
fn strokes() {
    for row in rows(include_str!("strokes.tsv")) {
        let mut facts = facts(chamber(&row));
        let air = row.typed("air").unwrap().quantity().pressure().unwrap();
        facts.taken.air = Air::AtReservoir(air);
        if row.text("engine") == "running" {
            facts.taken.engine = Engine::Running;
        }
        if row.text("application") == "partial" {
            facts.taken.application = Application::Partial;
        }
        let judged = judge_applied(length(&row, "stroke").unwrap(), &facts);
        assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
    }
}

/// One sixteenth of an inch, and one millimetre: what a rule shows.
const GRADUATIONS: [Length; 2] = [Length::from_inch_64ths(4), Length::from_mm_hundredths(100)];

#[test]
fn every_row_of_the_stroke_table() {
    let mut seen = 0;
    for row in rows(include_str!("stroke_limits.tsv")) {
        seen += 1;
        let chamber = chamber(&row);
        let (inches, millimetres) = (
            length(&row, "inches").unwrap(),
            length(&row, "millimetres").unwrap(),
        );
        let limit = limits_of(&chamber)
            .into_iter()
            .find(|limit| {
                limit.source.edition.contains(row.text("edition")) || row.text("type") != "36"
            })
            .unwrap();
        assert_eq!(limit.side, Side::AtMost, "{row}");
        assert_eq!(limit.figure, inches.into(), "{row}");
        assert_eq!(limit.beside, Some(millimetres.into()), "{row}");
        let Chamber::Listed { of, .. } = chamber else {
            panic!("{row}")
        };
        assert_eq!(
            Some(of.outside_diameter),
            length(&row, "outside diameter"),
            "{row}"
        );

        // In inches and in millimetres: on the stricter figure, one graduation in, one out.
        let strictest = limits_of(&chamber)
            .iter()
            .map(|limit| limit.deciding().base())
            .min()
            .unwrap();
        let verdict = |stroke: Length| judge_applied(stroke, &facts(chamber)).verdict;
        for printed in [inches, millimetres] {
            let past = printed.base() > strictest;
            let on = if past {
                Verdict::Beyond
            } else {
                Verdict::AtTheLimit
            };
            let on = if printed.base() < strictest {
                Verdict::Within
            } else {
                on
            };
            assert_eq!(verdict(printed), on, "{row}");
        }
        let strictest = Length::from_base(strictest).unwrap();
        for graduation in GRADUATIONS {
            assert_eq!(
                verdict(strictest.checked_sub(graduation).unwrap()),
                Verdict::Within,
                "{row}"
            );
            assert_eq!(verdict(strictest), Verdict::AtTheLimit, "{row}");
            assert_eq!(
                verdict(strictest.checked_add(graduation).unwrap()),
                Verdict::Beyond,
                "{row}"
            );
        }
    }
    assert!(seen > 30, "{seen} rows");
}

#[test]
fn free_strokes_and_their_causes() {
    for row in rows(include_str!("free_strokes.tsv")) {
        let when = if row.text("when") == "set up" {
            When::SetUp
        } else {
            When::InService
        };
        let mechanism = Mechanism::from_code(row.text("mechanism")).unwrap();
        let judged = judge_free(length(&row, "free").unwrap(), mechanism, when);
        assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
        let lies = FreeLies::from(&judged);
        let applied = match length(&row, "applied") {
            None => Verdict::NoReading,
            Some(stroke) => {
                let class = StrokeClass::Standard;
                let chamber = Chamber::listed(Family::Clamp, row.text("type"), class).unwrap();
                judge_applied(stroke, &facts(chamber)).verdict
            }
        };
        let walked: Vec<String> = trees(applied, lies, BrakeIs::NotLookedAt)
            .iter()
            .map(|tree| format!("{tree:?}"))
            .collect();
        let walked = if walked.is_empty() {
            "-".to_owned()
        } else {
            walked.join(",")
        };
        assert_eq!(walked, row.text("trees"), "{row}");
    }
}

#[test]
fn adjusters() {
    for row in rows(include_str!("adjusters.tsv")) {
        let reading = row.typed("reading").unwrap().quantity();
        let angle = |arm| {
            let angle: Angle = reading.angle().unwrap();
            judge_angle(angle, Mechanism::Linkless, arm)
        };
        let judged = match row.text("what") {
            "clutch" => judge_clutch(reading.torque().unwrap(), Ratchet::Heard),
            "gear" => judge_gear(reading.torque().unwrap()),
            "clevis" => judge_clevis(reading.length().unwrap()),
            "angle 5.5 in" => angle(Length::from_inch_64ths(352)),
            "angle 6 in" => angle(Length::from_inch_64ths(384)),
            other => panic!("{other}"),
        };
        assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
    }
}

#[test]
fn turning() {
    for row in rows(include_str!("turning.tsv")) {
        let reason = match row.text("reason given") {
            "long stroke" => Reason::LongStroke,
            "reline" => Reason::Reline,
            other => panic!("{other}"),
        };
        let since = Since {
            set_ups: row.text("set-ups").parse().unwrap(),
            settled: row.text("settled") == "yes",
        };
        let may = may_turn(Mechanism::Clutch, reason, since);
        assert_eq!(format!("{may:?}"), row.text("may"), "{row}");
    }
}

#[test]
fn built() {
    for row in rows(include_str!("built.tsv")) {
        let date: Vec<i64> = row
            .text("built")
            .split('-')
            .map(|part| part.parse().unwrap())
            .collect();
        let past = match row.text("past") {
            "automatic" => Past::WasAutomatic,
            _ => Past::AsBuilt,
        };
        let judged = judge_kind(
            Mechanism::from_code(row.text("mechanism")).unwrap(),
            past,
            Some(Day::from_date(date[0], date[1], date[2])),
            Jurisdiction::from_code(row.text("where")).unwrap(),
        );
        assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
    }
}

#[test]
fn shares() {
    for row in rows(include_str!("shares.tsv")) {
        let number = |name| row.text(name).parse::<usize>().unwrap();
        let over = Brake::Over(length(&row, "over").unwrap());
        let brakes = [
            vec![Brake::Fine; number("fine")],
            vec![over; number("times")],
        ]
        .concat();
        let [_, roadside, _] = count(&brakes);
        assert_eq!(roadside.halves as usize, number("halves"), "{row}");
        assert_eq!(roadside.judgement.verdict, row.verdict("reaches"), "{row}");
    }
}
