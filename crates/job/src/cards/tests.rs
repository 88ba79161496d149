use chrono::{DateTime, TimeDelta, Utc};

use super::*;
use crate::bay::{Bay, V};
use crate::event::FactValue;
use crate::summary::summary;

/// Rows made from one card, last touched first.
fn rows(of: &[(&str, &str, &str, &str, bool)]) -> Vec<Summary> {
    let made = summary(&Bay::open().card());
    let first = made.opened.unwrap();
    of.iter()
        .enumerate()
        .map(|(n, (unit, plate, person, month, put_away))| Summary {
            card: CardId::new(format!("c{n}")),
            unit: (*unit).to_owned(),
            plate: (*plate).to_owned(),
            people: vec![(*person).to_owned()],
            months: vec![(*month).to_owned()],
            opened: Some(first - TimeDelta::days(i64::try_from(n).unwrap())),
            put_away: *put_away,
            ..made.clone()
        })
        .collect()
}

fn shop() -> Vec<Summary> {
    rows(&[
        ("KR 88", "WD-1042", "Wenzel Adair", "2026-11", false),
        ("Heron 12", "", "Ruta Imani", "2026-11", false),
        ("KR-88", "", "Ruta Imani", "2026-09", true),
        ("kr 881", "HB 7", "Sanne Mbeki", "2026-09", false),
    ])
}

fn found(words: &str, month: Option<&str>, put_away: bool) -> Vec<String> {
    let shop = shop();
    let asked = Asked {
        words: words.to_owned(),
        month: month.map(str::to_owned),
        put_away,
    };
    let found = find(&shop, &asked, 1);
    assert_eq!(found.of, found.rows.len(), "all on one page");
    let units = found.rows.iter();
    units.map(|row| row.unit.clone()).collect()
}

#[test]
fn by_unit_plate_person_and_month() {
    let cases: [(&str, Option<&str>, bool, &[&str]); 11] = [
        ("", None, false, &["KR 88", "Heron 12", "kr 881"]),
        ("", None, true, &["KR-88"]),
        ("kr88", None, false, &["KR 88", "kr 881"]),
        ("KR-88", None, false, &["KR 88", "kr 881"]),
        ("kr 88", None, false, &["KR 88", "kr 881"]),
        ("wd1042", None, false, &["KR 88"]),
        ("imani", None, false, &["Heron 12"]),
        ("imani", None, true, &["KR-88"]),
        ("kr adair", None, false, &["KR 88"]),
        ("", Some("2026-09"), false, &["kr 881"]),
        ("heron", Some("2026-09"), false, &[]),
    ];
    for (words, month, put_away, expected) in cases {
        assert_eq!(found(words, month, put_away), expected, "{words} {month:?}");
    }
    // Dashes alone ask for nothing.
    assert_eq!(found("- -", None, false).len(), 3);
    assert_eq!(months(&shop()), ["2026-11", "2026-09"]);
}

#[test]
fn a_long_list_comes_a_page_at_a_time() {
    let of: Vec<_> = (0..PAGE * 2 + 5)
        .map(|_| ("KR 88", "", "Ruta Imani", "2026-11", false))
        .collect();
    let shop = rows(&of);
    for (pages, shown) in [(0, 0), (1, PAGE), (2, PAGE * 2), (3, PAGE * 2 + 5)] {
        let found = find(&shop, &Asked::default(), pages);
        assert_eq!((found.rows.len(), found.of), (shown, PAGE * 2 + 5));
    }
    let first = find(&shop, &Asked::default(), 1);
    assert_eq!(first.rows[0].card, shop[0].card);
    assert_eq!(first.rows[PAGE - 1].card, shop[PAGE - 1].card);
}

#[test]
fn the_last_visit_is_the_same_vehicles() {
    let shop = shop();
    let last = |card: Option<&CardId>, unit: &str, plate: &str, before: Option<DateTime<Utc>>| {
        let visit = Visit {
            card,
            unit,
            plate,
            before,
        };
        last_visit(&shop, &visit).map(|row| row.card.as_str().to_owned())
    };
    // A card that is not opened yet.
    assert_eq!(last(None, "kr88", "", None).as_deref(), Some("c0"));
    assert_eq!(last(None, "other", "wd 1042", None).as_deref(), Some("c0"));
    assert_eq!(last(None, "KR 8", "", None), None);
    assert_eq!(last(None, "", "", None), None, "no number is no vehicle's");
    // One that is: itself and what came after are no visits before it. Put away or not.
    let own = &shop[0];
    assert_eq!(
        last(Some(&own.card), &own.unit, &own.plate, own.opened).as_deref(),
        Some("c2")
    );
    let earlier = &shop[2];
    assert_eq!(
        last(Some(&earlier.card), &earlier.unit, "", earlier.opened),
        None
    );
}

#[test]
fn a_plate_is_given_later_and_changes_nothing_else() {
    let mut bay = Bay::of_shipped(&["wheel-look"], &[2]);
    let before = crate::second_look::seen(&bay.card(), crate::bay::L2);
    bay.fact("tess", V, "plate", FactValue::Text("WD 1042".to_owned()))
        .unwrap();
    let card = bay.card();
    assert_eq!(summary(&card).plate, "WD 1042");
    assert_eq!(
        crate::second_look::seen(&card, crate::bay::L2).digest,
        before.digest
    );
}
