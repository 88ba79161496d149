use super::*;
use crate::act;
use crate::bay::{Bay, L2, R2, V, key, lines, look, sent_back};
use crate::event::Role;

const MONTH: &str = "2026-09";

#[test]
fn a_row_of_an_older_app_is_told_from_ours() {
    let row = summary(&Bay::open().card());
    assert!(!row.is_older());
    let older = r#"{"card":"c1","unit":"KR 88","vehicle":null,"layout":null,"in_hand":[2],
        "opened":null,"last":null,"stage":"secure","done":1,"of":9,"look_at":false}"#;
    let older: Summary = serde_json::from_str(older).unwrap();
    assert!(older.is_older());
    assert_eq!((older.unit.as_str(), older.put_away), ("KR 88", false));
    let newer = Summary {
        form: FORM + 1,
        ..row
    };
    assert!(
        newer.is_older(),
        "what a newer app kept is derived anew too"
    );
}

#[test]
fn a_row_says_who_has_what_and_what_waits() {
    let mut bay = Bay::raised();
    bay.sign_on("fay", Role::Foreman);
    let drafts = vec![act::take_end(&bay.card(), &"tess".into(), L2).unwrap()];
    bay.keep("tess", drafts);
    bay.built("tess", L2);
    let row = summary(&bay.card());
    assert!(row.in_bay);
    assert_eq!(row.people, ["fay", "tess"]);
    assert_eq!(row.months, [MONTH]);
    let [left, right] = &row.ends[..] else {
        panic!("{:?}", row.ends);
    };
    assert_eq!((left.at, right.at), (L2, R2));
    assert_eq!(left.who.as_deref(), Some("tess"));
    assert_eq!(right.who, None);
    assert_eq!(right.stage, Some("secure".into()), "its tyres come first");
    assert!(left.waits && !left.sent_back && !right.waits);
    bay.say("fay", L2, "second-look", "look", sent_back(&["check-pass"]))
        .unwrap();
    let row = summary(&bay.card());
    assert!(!row.ends[0].waits && row.ends[0].sent_back);
    let month = &row.by_month[MONTH];
    assert_eq!((month.looks, month.sent_back), (1, 1));
    let whole = Answer::WholePass { but: Vec::new() };
    bay.say("tess", L2, "check-pass", "nuts", whole).unwrap();
    bay.say("fay", L2, "second-look", "look", look(true))
        .unwrap();
    let month = &summary(&bay.card()).by_month[MONTH];
    assert_eq!((month.looks, month.sent_back), (2, 1));
}

#[test]
fn a_row_says_what_the_customer_has_not_answered() {
    let mut bay = Bay::raised();
    let seal = bay.find("tess", L2, "seal").unwrap();
    let boot = bay.find("tess", L2, "boot").unwrap();
    let states = |bay: &Bay| -> Vec<LineState> {
        let lines = summary(&bay.card()).lines;
        lines.iter().map(|line| line.state).collect()
    };
    assert_eq!(states(&bay), [LineState::NotAsked, LineState::NotAsked]);
    bay.tell("tess", &seal, LineState::Waiting).unwrap();
    assert_eq!(states(&bay), [LineState::Waiting, LineState::NotAsked]);
    bay.tell("tess", &seal, LineState::SaidYes).unwrap();
    assert_eq!(states(&bay), [LineState::NotAsked]);
    let found = |bay: &Bay| summary(&bay.card()).by_month[MONTH].found.clone();
    assert_eq!(found(&bay), [("boot".into(), 1), ("seal".into(), 1)].into());
    bay.strike("tess", &boot, None).unwrap();
    assert_eq!(found(&bay), [("seal".into(), 1)].into());
}

#[test]
fn a_month_is_the_one_of_the_clock_on_the_wall() {
    let stamp = |text: &str| Stamp {
        utc: text.parse().unwrap(),
        offset_minutes: -240,
    };
    assert_eq!(month_of(stamp("2026-11-01T03:59:59Z")), "2026-10");
    assert_eq!(month_of(stamp("2026-11-01T04:00:00Z")), "2026-11");
}

#[test]
fn a_card_is_put_away_and_comes_back() {
    let mut bay = Bay::open();
    // Nothing is done on it yet: somebody opened it by mistake.
    let away = |bay: &Bay, who: &str, away: bool| act::put_away(&bay.card(), &who.into(), away);
    let draft = away(&bay, "nobody-signed-on", true).unwrap();
    let before = summary(&bay.card());
    bay.keep("nobody-signed-on", vec![draft]);
    let row = summary(&bay.card());
    assert!(row.put_away && !row.look_at);
    assert_eq!((row.done, row.of), (before.done, before.of));
    let draft = away(&bay, "tess", false).unwrap();
    bay.keep("tess", vec![draft]);
    assert!(!summary(&bay.card()).put_away);
    // Once it stands in the bay only a foreman puts it away.
    bay.chocked();
    let refused = away(&bay, "tess", true);
    assert_eq!(key(&refused, &bay.card()), "refuse.stands-in-the-bay");
    bay.sign_on("fay", Role::Foreman);
    let draft = away(&bay, "fay", true).unwrap();
    let line = bay.keep("fay", vec![draft]);
    assert!(summary(&bay.card()).put_away);
    let refused = bay.strike("fay", &line, None);
    assert_eq!(key(&refused, &bay.card()), "refuse.cannot-strike");
}

#[test]
fn road_checks_are_due_once_the_vehicle_is_back_with_its_people() {
    let mut bay = Bay::of_shipped(&["record", "road-check"], &[2]);
    let row = summary(&bay.card());
    assert!(row.road.is_none() && !row.in_bay);
    bay.say("tess", V, "record", "handed", lines()).unwrap();
    let row = summary(&bay.card());
    let road = row.road.clone().unwrap();
    assert_eq!((road.handed, road.waits()), (bay.now, true));
    assert!(!row.in_bay);
    assert!(act::put_away(&bay.card(), &"tess".into(), true).is_ok());
    bay.skip("tess", V, "road-check", "not-brought-back")
        .unwrap();
    assert!(!summary(&bay.card()).road.unwrap().waits());
}
