//! Leak-down, warnings, caging and release as published.

use job::procedures::Procedures;
use rules::air::caging::judge_stand_out;
use rules::air::caging_torque::judge_caging_torque;
use rules::air::leak::{Brakes, Vehicles, judge_leak};
use rules::air::release::{Of, judge_release};
use rules::air::warning::{Built, judge_warning};
use rules::conditions::{Air, Application, Conditions, Engine, Heat, Parking};
use rules::jurisdiction::Jurisdiction;
use rules::quantity::{Length, Pressure};
use rules::slack::applied::{StrokeFacts, judge_applied};
use rules::slack::chamber::{Chamber, Family, StrokeClass};
use rules::verdict::Verdict;

use super::table::{Row, rows};

fn pressure(row: &Row<'_>, name: &str) -> Option<Pressure> {
    row.typed(name)
        .map(|typed| typed.quantity().pressure().unwrap())
}

#[test]
fn leaks() {
    for row in rows(include_str!("leaks.tsv")) {
        let brakes = match row.text("brakes") {
            "released" => Brakes::Released,
            "applied" => Brakes::Applied,
            other => panic!("{other}"),
        };
        let mut all = Vehicles::ALL.iter().copied();
        let vehicles = all.find(|one| one.code() == row.text("vehicles")).unwrap();
        let place = Jurisdiction::from_code(row.text("where")).unwrap();
        let judged = judge_leak(pressure(&row, "lost").unwrap(), brakes, vehicles, place);
        assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
        let other = judged.others.first().unwrap().verdict;
        assert_eq!(other, row.verdict("other brakes"), "{row}");
    }
}

#[test]
fn warnings() {
    for row in rows(include_str!("warnings.tsv")) {
        let built = match row.text("built") {
            "before" => Built::Before,
            "under" => Built::Under,
            _ => Built::Unknown,
        };
        let place = Jurisdiction::from_code(row.text("where")).unwrap();
        let came_on = pressure(&row, "came on").unwrap();
        let judged = judge_warning(came_on, pressure(&row, "cut-out"), built, place);
        assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
    }
}

#[test]
fn caging() {
    for row in rows(include_str!("caging.tsv")) {
        let reading = row.typed("reading").unwrap().quantity();
        let verdict = match row.text("what") {
            "torque" => judge_caging_torque(reading.torque().unwrap()).verdict,
            "release" => judge_release(reading.pressure().unwrap(), Of::Trailer).verdict,
            "release truck" => {
                let judged = judge_release(reading.pressure().unwrap(), Of::PowerUnit);
                judged.others.first().unwrap().verdict
            }
            // What is printed for one chamber is shown beside every other, and never counted.
            what => {
                let judged = judge_stand_out(reading.length().unwrap(), None);
                assert_eq!(judged.verdict, Verdict::NoReading, "{row}");
                let theirs = judged
                    .others
                    .iter()
                    .filter(|other| other.limit.source.document.contains(what));
                let verdicts: Vec<Verdict> = theirs.map(|other| other.verdict).collect();
                assert!(!verdicts.is_empty(), "{row}");
                verdicts.into_iter().fold(Verdict::Within, Verdict::worse)
            }
        };
        assert_eq!(verdict, row.verdict("verdict"), "{row}");
    }
}

/// A stroke of 1 1/2 in against 2 in, so that only what the pressure proves is left.
#[test]
fn pressures() {
    for row in rows(include_str!("pressures.tsv")) {
        for (name, expected) in [("least", "at least"), ("most", "at most")] {
            let Some(read) = pressure(&row, name) else {
                continue;
            };
            let air = match row.text("where read") {
                "reservoir" => Air::AtReservoir(read),
                _ => Air::AtChamber(read),
            };
            let facts = StrokeFacts {
                chamber: Chamber::listed(Family::Clamp, "30", StrokeClass::Standard).unwrap(),
                taken: Conditions {
                    air,
                    engine: Engine::Off,
                    parking: Parking::Released,
                    application: Application::Full,
                    heat: Heat::Cold,
                },
                jurisdiction: Jurisdiction::UnitedStates,
                shop: None,
            };
            let judged = judge_applied(Length::from_inch_64ths(96), &facts);
            let proves = if judged.remarks.is_empty() {
                "fair"
            } else {
                judged.remarks[0].word.key().trim_start_matches("remark.")
            };
            assert_eq!(proves, row.text(expected), "{row}");
        }
    }
}

/// C52: nothing that the app offers opens a spring brake; its caution says never to.
#[test]
fn a_spring_brake_is_only_ever_renewed_whole() {
    let procedures = Procedures::read(
        [],
        include_str!("../../../assets/procedure/s-cam-reline.json"),
    )
    .unwrap();
    let procedure = procedures.newest();
    let of_spring: Vec<_> = procedure
        .findings
        .iter()
        .filter(|finding| finding.part.as_str() == "spring-brake")
        .collect();
    assert!(!of_spring.is_empty());
    for finding in of_spring {
        let fixes: Vec<&str> = finding.fixes.iter().map(|fix| fix.as_str()).collect();
        assert_eq!(fixes, ["renew-unit"], "{}", finding.id);
    }
    let words = include_str!("../../../assets/words/en.json");
    let caution = words
        .lines()
        .find(|line| line.contains("\"step.caging.caution\""))
        .unwrap();
    assert!(caution.contains("Never open a clamp ring"), "{caution}");
}
