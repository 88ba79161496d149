use super::{
    ShopSheet, calibrate_wrench, card_id, fold, list_person, list_stand, list_wrench, person_left,
    withdraw_stand, withdraw_wrench,
};
use crate::act::{Draft, Refusal};
use crate::bay::{Bay, stand, typed};
use crate::card::Card;
use crate::event::{Role, TagBasis, WrenchTag};
use crate::trail::Trail;

struct Shop(Bay);

impl Shop {
    fn new() -> Self {
        let mut bay = Bay::empty();
        bay.trail = Trail::new(card_id());
        Self(bay)
    }

    fn sheet(&self) -> ShopSheet {
        fold(&self.0.trail)
    }

    fn keep(&mut self, draft: Result<Draft, Refusal>) {
        self.0.keep("fay", vec![draft.unwrap()]);
    }
}

fn key(draft: Result<Draft, Refusal>) -> String {
    let card: Card = Bay::empty().card();
    crate::bay::key(&draft, &card)
}

#[test]
fn people_come_change_and_go() {
    let mut shop = Shop::new();
    shop.keep(list_person(
        &shop.sheet(),
        &"p1".into(),
        " Fay ",
        Role::Foreman,
    ));
    shop.keep(list_person(
        &shop.sheet(),
        &"p2".into(),
        "Ada",
        Role::Apprentice,
    ));
    shop.keep(list_person(
        &shop.sheet(),
        &"p2".into(),
        "Ada",
        Role::Technician,
    ));
    let sheet = shop.sheet();
    let names: Vec<&str> = sheet
        .people()
        .iter()
        .map(|(_, person)| person.name.as_str())
        .collect();
    assert_eq!(names, ["Ada", "Fay"]);
    assert_eq!(sheet.person(&"p2".into()).unwrap().role, Role::Technician);
    assert_eq!(
        key(list_person(&sheet, &"p3".into(), "fay", Role::Technician)),
        "shop.name-taken"
    );
    assert_eq!(
        key(list_person(&sheet, &"p3".into(), "  ", Role::Technician)),
        "shop.name-missing"
    );
    assert_eq!(
        key(list_person(
            &sheet,
            &"p3".into(),
            &"x".repeat(401),
            Role::Technician
        )),
        "setup.text-too-long"
    );
    shop.keep(person_left(&shop.sheet(), &"p1".into()));
    let sheet = shop.sheet();
    assert_eq!(sheet.people().len(), 1);
    assert_eq!(
        key(person_left(&sheet, &"p1".into())),
        "shop.person-unknown"
    );
    assert_eq!(
        key(person_left(&sheet, &"p9".into())),
        "shop.person-unknown"
    );
    assert!(
        list_person(&sheet, &"p3".into(), "Fay", Role::Technician).is_ok(),
        "a name is free again"
    );
}

#[test]
fn stands_come_and_are_taken_out_of_use() {
    let mut shop = Shop::new();
    let tag = |rating: &str| stand(rating, "t", TagBasis::PerPair).tag;
    shop.keep(list_stand(&shop.sheet(), "7", tag("20")));
    let sheet = shop.sheet();
    assert_eq!(sheet.stands().count(), 1);
    assert_eq!(
        key(list_stand(&sheet, " 7 ", tag("5"))),
        "shop.stand-number-taken"
    );
    assert_eq!(
        key(list_stand(&sheet, "", tag("5"))),
        "shop.stand-number-missing"
    );
    assert_eq!(
        key(list_stand(&sheet, "8", tag("five"))),
        "typed.fault.not-a-number"
    );
    assert_eq!(
        key(withdraw_stand(&sheet, "7", " ")),
        "refuse.reason-missing"
    );
    assert_eq!(
        key(withdraw_stand(&sheet, "8", "bent")),
        "shop.stand-unknown"
    );
    shop.keep(withdraw_stand(&shop.sheet(), "7", "bent foot"));
    let sheet = shop.sheet();
    assert_eq!(sheet.stands().count(), 0);
    assert_eq!(
        sheet.withdrawn().next().unwrap().1.withdrawn.as_deref(),
        Some("bent foot")
    );
    shop.keep(list_stand(&shop.sheet(), "7", tag("12")));
    assert_eq!(shop.sheet().stands().count(), 1, "its number is free again");
}

fn wrench(low: &str, high: &str, calibrated: Option<&str>) -> WrenchTag {
    WrenchTag {
        low: typed(low, "lbf-ft"),
        high: typed(high, "lbf-ft"),
        calibrated: calibrated.map(|day| day.parse().unwrap()),
        interval_days: Some(180),
    }
}

#[test]
fn wrenches_are_listed_calibrated_and_taken_out_of_use() {
    let today = "2026-09-21".parse().unwrap();
    let mut shop = Shop::new();
    let list =
        |shop: &Shop, name: &str, tag: WrenchTag| list_wrench(&shop.sheet(), name, tag, today);
    shop.keep(list(&shop, " A ", wrench("100", "600", None)));
    shop.keep(list(&shop, "B", wrench("50", "250", Some("2026-09-21"))));
    for (name, tag, expected) in [
        ("A", wrench("1", "2", None), "shop.wrench-name-taken"),
        ("  ", wrench("1", "2", None), "shop.wrench-name-missing"),
        ("C", wrench("2", "2", None), "refuse.wrench-no-range"),
        ("C", wrench("600", "100", None), "refuse.wrench-no-range"),
        (
            "C",
            wrench("1", "2", Some("2026-09-22")),
            "shop.wrench-day-ahead",
        ),
    ] {
        assert_eq!(key(list(&shop, name, tag)), expected, "{name}");
    }
    let on = "2026-09-01".parse().unwrap();
    let calibrate = |shop: &Shop, name, on| calibrate_wrench(&shop.sheet(), name, on, today);
    assert_eq!(key(calibrate(&shop, "C", on)), "shop.wrench-unknown");
    let ahead = "2026-09-22".parse().unwrap();
    assert_eq!(key(calibrate(&shop, "A", ahead)), "shop.wrench-day-ahead");
    shop.keep(calibrate(&shop, "A", on));
    let calibrated = wrench("100", "600", Some("2026-09-01"));
    assert_eq!(shop.sheet().wrenches().next().unwrap().1.tag, calibrated);
    assert_eq!(
        key(withdraw_wrench(&shop.sheet(), "C", "lost")),
        "shop.wrench-unknown"
    );
    assert_eq!(
        key(withdraw_wrench(&shop.sheet(), "A", " ")),
        "refuse.reason-missing"
    );
    shop.keep(withdraw_wrench(&shop.sheet(), "A", "dropped"));
    let sheet = shop.sheet();
    let names: Vec<&str> = sheet.wrenches().map(|(name, _)| name).collect();
    assert_eq!(names, ["B"]);
    let out: Vec<_> = sheet.wrenches_out().collect();
    assert_eq!(
        (out[0].0, out[0].1.withdrawn.as_deref()),
        ("A", Some("dropped"))
    );
}
