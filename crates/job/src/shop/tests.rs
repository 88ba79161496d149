use super::{ShopSheet, card_id, fold, list_person, list_stand, person_left, withdraw_stand};
use crate::act::{Draft, Refusal};
use crate::bay::{Bay, stand};
use crate::card::Card;
use crate::event::{Role, TagBasis};
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
