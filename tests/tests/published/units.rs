//! Unit sizes against an independent calculator that works in exact fractions.
//!
//! Libraries of units in doubles won't do here: the usual one rounds its pound and its pound-force
//! to seven digits, and would agree with a figure that is wrong in the eighth.

use fend_core::{Context, evaluate};
use proptest::prelude::*;
use rules::quantity::Dimension;
use rules::shown::exact;
use rules::typed::Typed;
use rules::unit::Unit;

/// What the calculator calls a unit.
fn called(unit: Unit) -> &'static str {
    match unit {
        Unit::Inch => "inch",
        Unit::Millimetre => "millimeter",
        Unit::Foot => "foot",
        Unit::Metre => "meter",
        Unit::Mile => "mile",
        Unit::Kilometre => "kilometer",
        Unit::Pound => "pound",
        Unit::Kilogram => "kilogram",
        Unit::ShortTon | Unit::TonUnmarked => "(2000 pounds)",
        Unit::Tonne => "(1000 kilograms)",
        Unit::PoundForceFoot => "(lbf foot)",
        Unit::PoundForceInch => "(lbf inch)",
        Unit::NewtonMetre => "(newton meter)",
        Unit::Psi => "(lbf / inch^2)",
        Unit::Kilopascal => "kilopascal",
        Unit::Bar => "(100 kilopascal)",
        Unit::Degree => "degree",
        Unit::Turn => "(360 degrees)",
        Unit::Minute => "minute",
        Unit::DayLong => "(24 hours)",
        Unit::Percent => "percent",
    }
}

/// How many of our base make one of which unit of the calculator.
fn base(dimension: Dimension) -> (&'static str, &'static str) {
    match dimension {
        Dimension::Length => ("10^9", "meter"),
        Dimension::Mass => ("10^9", "kilogram"),
        Dimension::Torque => ("10^16", "newton meter"),
        Dimension::Pressure => ("64516 * 10^6", "pascal"),
        Dimension::Angle => ("10^6", "degree"),
        Dimension::Duration => ("1", "second"),
        Dimension::Ratio => ("10^4", "percent"),
        Dimension::Day => panic!("no unit is a day of the calendar"),
    }
}

/// The number that the calculator comes to, without the unit behind it.
fn calculated(sum: &str) -> String {
    let result = evaluate(sum, &mut Context::new());
    let result = result.unwrap_or_else(|fault| panic!("{sum}: {fault}"));
    let text = result.get_main_result();
    assert!(!text.contains("approx"), "{sum}: {text}");
    text.chars()
        .take_while(|c| c.is_ascii_digit() || *c == '.')
        .collect()
}

#[test]
fn sizes_agree_to_the_last_digit() {
    for unit in Unit::ALL {
        let (times, si) = base(unit.dimension());
        let sum = format!("(1 {}) * {times} to {si}", called(*unit));
        assert_eq!(calculated(&sum), unit.in_base().to_string(), "{sum}");
    }
}

#[test]
fn values_agree_to_the_last_digit() {
    let cases = [
        (
            "1 3/4",
            Unit::Inch,
            Unit::Millimetre,
            "(1 + 3/4) inch to mm",
        ),
        (
            "2 25/64",
            Unit::Inch,
            Unit::Millimetre,
            "(2 + 25/64) inch to mm",
        ),
        ("95", Unit::Mile, Unit::Kilometre, "95 mile to km"),
        ("23000", Unit::Pound, Unit::Kilogram, "23000 pound to kg"),
        (
            "475.5",
            Unit::PoundForceFoot,
            Unit::PoundForceInch,
            "475.5 lbf foot to lbf inch",
        ),
    ];
    for (text, unit, other, sum) in cases {
        let quantity = Typed::parse(text, unit).unwrap().quantity();
        assert_eq!(exact(quantity, other), Some(calculated(sum)), "{sum}");
    }
}

proptest! {
    #[test]
    fn round_trips_are_exact(n in 0_u32..359, unit in 0..Unit::ALL.len()) {
        let unit = Unit::ALL[unit];
        let typed = Typed::parse(&n.to_string(), unit).unwrap();
        let shown = exact(typed.quantity(), unit).unwrap();
        prop_assert_eq!(shown, n.to_string());
        // Through another unit of the same kind that can carry it, and back.
        for other in Unit::ALL.iter().filter(|other| other.dimension() == unit.dimension()) {
            if let Some(text) = exact(typed.quantity(), *other)
                && let Ok(again) = Typed::parse(&text, *other)
            {
                prop_assert_eq!(again.quantity(), typed.quantity());
            }
        }
    }
}
