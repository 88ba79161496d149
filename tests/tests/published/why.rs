//! Estimates as published: worked examples agree to the printed digit.

use std::cmp::Ordering;

use rules::quantity::{Length, Pressure, Quantity, Ratio, Torque};
use rules::shown::{Lean, decimal, quotient};
use rules::slack::chamber::{Family, TYPES};
use rules::unit::Unit;
use rules::why::clamp;
use rules::why::force::{
    AreaTimesArm, Force, Wheel, area_sq_in, at_the_tyre, moment, pushrod_force,
};
use rules::why::heat::Grows;
use rules::why::long_form::Joint;
use rules::why::stopping::STUDY;
use rules::why::thread::{Area, Class, Thread, load};

use super::table::{Row, rows, typed};

fn quantity(text: &str) -> Quantity {
    typed(text).unwrap().quantity()
}

fn length(text: &str) -> Length {
    quantity(text).length().unwrap()
}

/// A percentage such as "14" or "17.5" as a part of a whole.
fn percent(text: &str) -> Ratio {
    match quantity(&format!("{text} pct")) {
        Quantity::Ratio(ratio) => ratio,
        other => panic!("{other:?}"),
    }
}

fn inch_pounds(torque: Torque, places: u8) -> String {
    quotient(torque.base(), Torque::from_lbf_in(1).base(), places).unwrap()
}

#[test]
fn forces() {
    for row in rows(include_str!("forces.tsv")) {
        let of = |name| row.text(name);
        let area = || of("area").parse::<u32>().unwrap();
        let got = match of("what") {
            "force" => {
                let air = quantity(of("pressure")).pressure().unwrap();
                pushrod_force(area(), air).lbf(0)
            }
            "area times arm" => {
                let product = AreaTimesArm {
                    area_sq_in: area(),
                    arm: length(of("arm")),
                };
                let over = product.to_the_ceiling() == Ordering::Greater;
                assert_eq!(over, of("over the ceiling") == "yes", "{row}");
                product.shown(1)
            }
            "moment" => {
                let air = quantity(of("pressure")).pressure().unwrap();
                let push = pushrod_force(area(), air);
                inch_pounds(moment(push, length(of("arm"))).unwrap(), 0)
            }
            "tyre" => {
                let wheel = Wheel {
                    arm: length(of("arm")),
                    friction: Ratio::from_percent(35),
                    drum: length("8.25 in"),
                    tyre: length("19.6 in"),
                };
                let air = quantity(of("pressure")).pressure().unwrap();
                at_the_tyre(pushrod_force(area(), air), &wheel)
                    .unwrap()
                    .lbf(0)
            }
            other => panic!("{other}"),
        };
        assert_eq!(got, of("gives"), "{row}");
    }
}

#[test]
fn areas() {
    let mut seen = 0;
    for row in rows(include_str!("areas.tsv")) {
        seen += 1;
        let (family, name) = match row.text("type").strip_prefix("DD-3 ") {
            Some(name) => (Family::Dd3, name),
            None => (Family::Clamp, row.text("type")),
        };
        let mut types = TYPES.iter().filter(|of| of.family == family);
        let area = area_sq_in(types.find(|of| of.name == name).unwrap()).unwrap();
        assert_eq!(area.to_string(), row.text("area"), "{row}");
        let force = |psi| pushrod_force(area, Pressure::from_psi(psi)).lbf(0);
        assert_eq!(force(60), row.text("at 60 psi"), "{row}");
        assert_eq!(force(100), row.text("at 100 psi"), "{row}");
    }
    assert_eq!(seen, 16);
}

fn thread(row: &Row<'_>) -> Thread {
    let diameter = length(row.text("diameter"));
    match row.text("pitch").strip_suffix(" tpi") {
        Some(per_inch) => Thread::Unified {
            diameter,
            per_inch: per_inch.parse().unwrap(),
        },
        None => Thread::Metric {
            diameter,
            pitch: length(row.text("pitch")),
        },
    }
}

#[test]
fn threads() {
    for row in rows(include_str!("threads.tsv")) {
        let thread = thread(&row);
        let places = row.text("places").parse().unwrap();
        let area = thread.stress_area().unwrap();
        let shown = match thread {
            Thread::Metric { .. } => area.sq_mm(places),
            Thread::Unified { .. } => area.sq_in(places),
        };
        assert_eq!(shown, row.text("area"), "{row}");
    }
}

#[test]
fn proof_loads() {
    for row in rows(include_str!("proof_loads.tsv")) {
        let class = match row.text("class") {
            "10.9" => Class::TenNine,
            _ => Class::GradeEight,
        };
        let area = match row.text("printed area mm2") {
            "-" => thread(&row).stress_area().unwrap(),
            printed => Area::from_sq_mm(printed.parse().unwrap()),
        };
        let part = percent(row.text("percent"));
        let proof = load(area, class.proof()).unwrap().times(part).unwrap();
        let shown = match row.text("unit") {
            "kN" => proof.kilonewtons(1),
            _ => proof.lbf(0),
        };
        assert_eq!(shown, row.text("gives"), "{row}");
        // Tables round their areas first: they stay within what the row says.
        let number = |text: &str| text.parse::<f64>().unwrap();
        let off = (number(&shown) - number(row.text("printed"))).abs();
        assert!(off <= number(row.text("off by at most")), "{row}: {off}");
    }
}

#[test]
fn nut_factors() {
    for row in rows(include_str!("nut_factors.tsv")) {
        let diameter = length(row.text("diameter"));
        let clamp_of = Force::from_lbf(row.text("clamp lbf").parse().unwrap());
        let torque = clamp::torque(percent(row.text("percent")), diameter, clamp_of).unwrap();
        let places = row.text("places").parse().unwrap();
        let shown = match row.text("unit") {
            "lbf-in" => inch_pounds(torque, places),
            _ => {
                decimal(torque.into(), Unit::PoundForceFoot, places, Lean::Nearest)
                    .unwrap()
                    .text
            }
        };
        assert_eq!(shown, row.text("gives"), "{row}");
    }
}

#[test]
fn the_factor_behind_a_published_clamp() {
    // W37: 475 lbf·ft, M22, about 50 000 lbf a stud gives 0.132.
    let torque = Torque::from_lbf_ft(475);
    let factor = clamp::factor(torque, length("22 mm"), Force::from_lbf(50_000)).unwrap();
    assert_eq!(quotient(factor.base(), 1_000_000, 3).unwrap(), "0.132");
    // The same torque at the dry factor: about 32 900 lbf.
    let dry = clamp::clamp(torque, clamp::DRY, length("22 mm")).unwrap();
    assert_eq!(dry.lbf(0), "32905");
}

#[test]
fn long_forms() {
    for row in rows(include_str!("long_forms.tsv")) {
        let joint = Joint {
            diameter: length(row.text("diameter")),
            pitch: length("1.5 mm"),
            bearing: length(row.text("bearing")),
            friction: percent(row.text("friction percent")),
        };
        let area = Area::from_sq_mm(row.text("area mm2").parse().unwrap());
        let ninety = Ratio::from_percent(90);
        let preload = joint
            .preload(area, Class::TenNine.yields(), ninety)
            .unwrap();
        assert_eq!(preload.kilonewtons(1), row.text("model kN"), "{row}");
        let printed = Force::from_newtons(row.text("printed kN").parse::<i64>().unwrap() * 1_000);
        let torque = joint.torque(printed).unwrap();
        let shown = decimal(torque.into(), Unit::NewtonMetre, 1, Lean::Nearest).unwrap();
        assert_eq!(shown.text, row.text("model Nm"), "{row}");
        // The bearing diameter was fitted: torques stay within half a percent.
        let printed = Torque::from_nm(row.text("printed Nm").parse().unwrap());
        let off = torque.checked_sub(printed).unwrap().magnitude();
        assert!(off.base() * 200 <= printed.base(), "{row}");
        let one = Force::from_newtons(1_000).base();
        let printed = row.text("printed kN").parse::<i128>().unwrap() * one;
        assert!((preload.base() - printed).abs() <= one, "{row}");
    }
}

#[test]
fn growth() {
    for row in rows(include_str!("growth.tsv")) {
        let mut all = Grows::ALL.iter();
        let grows = all.find(|one| one.code() == row.text("what")).unwrap();
        assert_eq!(grows.by(), length(row.text("by")), "{row}");
    }
}

#[test]
fn stops() {
    let all = rows(include_str!("stops.tsv"));
    assert_eq!(all.len(), STUDY.len());
    for (row, study) in all.iter().zip(STUDY) {
        let numbers = [study.fahrenheit, study.set_up_ft, study.at_the_limit_ft];
        let printed = ["fahrenheit", "set up", "at the limit"];
        for (number, name) in numbers.iter().zip(printed) {
            assert_eq!(number.to_string(), row.text(name), "{row}");
        }
        let longer = decimal(study.longer().into(), Unit::Percent, 0, Lean::Nearest);
        assert_eq!(longer.unwrap().text, row.text("percent longer"), "{row}");
    }
}
