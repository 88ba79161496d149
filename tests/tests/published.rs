//! Values published elsewhere, held against the rules: each row names where it was read.
//!
//! The rows are added to and never bent to fit. A case that the design answers otherwise stands in
//! its family's table too, with the reason.

#![expect(clippy::unwrap_used, reason = "what a test leans on may fail it")]

mod published {
    pub(crate) mod table;

    pub(crate) mod air;
    pub(crate) mod axle;
    pub(crate) mod drum;
    pub(crate) mod lining;
    pub(crate) mod practice;
    pub(crate) mod slack;
    pub(crate) mod support;
    pub(crate) mod torque;
    pub(crate) mod why;

    pub(crate) mod bearing;
    pub(crate) mod camshaft;
    pub(crate) mod stud;

    pub(crate) mod units;
}

/// Every published check case stands in a table or beside a test of its own: 54 of brakes, 35 of
/// regulations, 45 of wheels.
#[test]
fn every_check_case_is_held() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/published");
    let files = std::fs::read_dir(folder).unwrap();
    let texts: Vec<String> = files
        .map(|file| std::fs::read_to_string(file.unwrap().path()).unwrap())
        .collect();
    let held = |case: &str| {
        texts.iter().any(|text| {
            text.match_indices(case).any(|(at, _)| {
                let before = text[..at].chars().next_back();
                let after = text[at + case.len()..].chars().next();
                !before.is_some_and(char::is_alphanumeric)
                    && !after.is_some_and(|c| c.is_ascii_digit())
            })
        })
    };
    let brakes = (1..=54).map(|n| format!("C{n:02}"));
    let regulations = (1..=35).map(|n| format!("reg {n}"));
    let wheels = (1..=45).map(|n| format!("W{n:02}"));
    let missing: Vec<String> = brakes
        .chain(regulations)
        .chain(wheels)
        .filter(|case| !held(case))
        .collect();
    assert!(missing.is_empty(), "{missing:?}");
}
