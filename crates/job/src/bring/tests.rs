use super::*;
use crate::bay::{Bay, L2, choice, key};
use crate::event::Role;
use crate::id::Side;
use crate::procedures::Procedures;
use crate::shop;
use crate::summary::summary;

const LIST: &str = include_str!("../../../../assets/bring/s-cam-reline.json");
const SHIPPED: &str = include_str!("../../../../assets/procedure/s-cam-reline.json");
const A2: Place = Place::Axle(2);

fn list() -> BringList {
    BringList::read(LIST).unwrap()
}

fn bay(in_hand: &[u8]) -> Bay {
    Bay::of_shipped(&["nuts-off", "wheel-look"], in_hand)
}

fn all(bay: &Bay) -> Vec<Wanted> {
    wanted(&bay.card(), &ShopSheet::default(), &list())
}

fn one(bay: &Bay, id: &str) -> Option<Wanted> {
    all(bay).into_iter().find(|one| one.id.as_str() == id)
}

#[test]
fn the_shipped_list_hangs_together_with_its_procedure() {
    let list = list();
    let procedures = Procedures::read([], SHIPPED).unwrap();
    let procedure = procedures.newest();
    assert!(list.is_for(procedure));
    for item in &list.items {
        let stage = procedure.stages.iter().any(|stage| stage.id == item.stage);
        assert!(stage, "{} at {}", item.id, item.stage);
        for (fact, options) in &item.when {
            let def = procedure.fact(fact).unwrap_or_else(|| panic!("{fact}"));
            let crate::procedure::FactKind::Choose(offered) = &def.kind else {
                panic!("{fact} offers nothing");
            };
            assert!(options.iter().all(|one| offered.contains(one)), "{fact}");
        }
        let [fewest, most] = item.count.unwrap_or([1, 1]);
        assert!(0 < fewest && fewest <= most, "{}", item.id);
    }
    for fix in &list.fixes {
        let known = procedure.findings.iter();
        assert!(
            known.into_iter().any(|one| one.fixes.contains(&fix.fix)),
            "{}",
            fix.fix
        );
    }
    for sort in Sort::ALL {
        assert!(list.items.iter().any(|item| item.sort == sort), "{sort:?}");
    }
}

#[test]
fn a_file_that_does_not_hang_together_is_refused() {
    let with = |old: &str, new: &str| BringList::read(&LIST.replacen(old, new, 1));
    assert_eq!(
        with("\"format\": 1", "\"format\": 2"),
        Err(BringFault::Format { found: 2 })
    );
    assert_eq!(
        with("\"id\": \"chalk\"", "\"id\": \"chocks\""),
        Err(BringFault::Twice {
            id: "chocks".to_owned()
        })
    );
    assert_eq!(
        with("\"id\": \"chalk\"", "\"id\": \"rollers\""),
        Err(BringFault::Twice {
            id: "rollers".to_owned()
        }),
        "a part of the rules"
    );
    assert_eq!(
        with("[\"cam-seals\", \"snap-ring\"]", "[\"cam-seal\"]"),
        Err(BringFault::UnknownHardware {
            code: "cam-seal".to_owned()
        })
    );
    assert!(matches!(
        with("\"per\": \"V\"", "\"per\": \"W\""),
        Err(BringFault::Unreadable { .. })
    ));
}

#[test]
fn parts_are_for_both_ends_of_every_axle_in_hand() {
    for (in_hand, ends) in [(&[2][..], 2), (&[2, 3], 4)] {
        let bay = bay(in_hand);
        for part in hardware::PARTS {
            let found = one(&bay, part.code);
            if part.renew == Renew::WithCamshaft {
                assert_eq!(found, None, "{}", part.code);
                continue;
            }
            let found = found.expect(part.code);
            let (fewest, most) = part.count;
            assert_eq!(
                found.count,
                Some((u32::from(fewest) * ends, u32::from(most) * ends)),
                "{}",
                part.code
            );
            assert_eq!(found.source, part.source);
            assert_eq!(found.maybe, fewest == 0);
        }
        assert_eq!(one(&bay, "drums").unwrap().count, Some((ends, ends)));
        assert_eq!(one(&bay, "stands").unwrap().count, Some((ends, ends)));
        assert_eq!(one(&bay, "chocks").unwrap().count, Some((4, 4)));
        assert_eq!(one(&bay, "chalk").unwrap().count, None);
    }
}

#[test]
fn what_a_fact_decides_is_listed_until_the_fact_says_no() {
    let mut bay = bay(&[2]);
    let before = one(&bay, "caging-bolts").unwrap();
    assert!(before.maybe, "nobody has looked yet");
    assert_eq!(before.source, &COMMON_PRACTICE);
    bay.fact("tess", A2, "spring-brake", choice("removable-bolt"))
        .unwrap();
    let known = one(&bay, "caging-bolts").unwrap();
    assert_eq!((known.maybe, known.count), (false, Some((2, 2))));
    bay.fact("tess", A2, "spring-brake", choice("none"))
        .unwrap();
    assert_eq!(one(&bay, "caging-bolts"), None);
    assert_eq!(one(&bay, "caging-wrench"), None);
    assert!(one(&bay, "drums").unwrap().maybe);
    bay.fact("tess", A2, "drum-new", choice("kept")).unwrap();
    assert_eq!(one(&bay, "drums"), None);
    assert!(!one(&bay, "drum-gauge").unwrap().maybe);
}

#[test]
fn each_person_has_a_tag_and_stands_are_held_against_the_shop_sheet() {
    let mut bay = bay(&[2, 3]);
    let tags = |bay: &Bay| one(bay, "own-tag").unwrap().count;
    // The foreman who only looks needs none.
    assert_eq!(tags(&bay), Some((1, 1)));
    bay.sign_on("mo", Role::Apprentice);
    assert_eq!(tags(&bay), Some((2, 2)));
    let mut sheet = crate::trail::Trail::new(shop::card_id());
    for owned in 1..=4_u32 {
        let tag = crate::bay::stand("20", "short-ton", crate::event::TagBasis::PerStand).tag;
        let before = shop::fold(&sheet);
        let draft = shop::list_stand(&before, &owned.to_string(), tag).unwrap();
        for line in sheet.write(&bay.tablet, &"fay".into(), bay.stamp(), vec![draft]) {
            sheet.take_in(line);
        }
        let wanted = wanted(&bay.card(), &shop::fold(&sheet), &list());
        let stands = wanted.iter().find(|one| one.sort == Sort::Stand).unwrap();
        assert_eq!(stands.count, Some((4, 4)));
        assert_eq!(stands.owned, (owned < 4).then_some(owned));
    }
}

#[test]
fn it_grows_with_what_is_found() {
    let mut bay = bay(&[2]);
    let before = all(&bay).len();
    let line = bay.find("tess", L2, "cam-seal").unwrap();
    let grown: Vec<Wanted> = all(&bay).into_iter().filter(|one| one.found).collect();
    let ids: Vec<&str> = grown.iter().map(|one| one.id.as_str()).collect();
    assert_eq!(ids, ["cam-seals-E2L", "snap-ring-E2L"]);
    assert_eq!(grown[0].count, Some((2, 2)));
    // Springs are renewed at both ends.
    bay.find("tess", L2, "return-spring").unwrap();
    let springs = one(&bay, "return-spring-renew-springs-E2L").unwrap();
    assert_eq!((springs.count, springs.maybe), (Some((2, 2)), true));
    assert_eq!(all(&bay).len(), before + 3);
    // The same found twice is brought once; work without a part brings nothing.
    bay.find("tess", L2, "return-spring").unwrap();
    bay.find("tess", Place::End(2, Side::Right), "drags")
        .unwrap();
    assert_eq!(all(&bay).len(), before + 3);
    bay.tell("tess", &line, LineState::SaidNo).unwrap();
    assert_eq!(one(&bay, "cam-seals-E2L"), None);
    bay.tell("tess", &line, LineState::SaidYes).unwrap();
    let ticked = tick(
        &bay.card(),
        &"tess".into(),
        &all(&bay),
        &"cam-seals-E2L".into(),
        BroughtHow::Fetched,
    );
    bay.keep("tess", vec![ticked.unwrap()]);
    bay.tell("tess", &line, LineState::Done).unwrap();
    // It was used, and counts; what nobody ticked is wanted no more.
    assert!(one(&bay, "cam-seals-E2L").is_some());
    assert_eq!(one(&bay, "snap-ring-E2L"), None);
}

#[test]
fn a_tick_is_kept_and_what_was_fetched_is_counted() {
    let mut bay = bay(&[2]);
    let tick = |bay: &Bay, who: &str, item: &str, how: BroughtHow| {
        tick(&bay.card(), &who.into(), &all(bay), &item.into(), how)
    };
    let refused = tick(&bay, "stranger", "chocks", BroughtHow::AtHand);
    assert_eq!(key(&refused, &bay.card()), "hold.sign-on");
    let refused = tick(&bay, "tess", "kettle", BroughtHow::AtHand);
    assert_eq!(key(&refused, &bay.card()), "refuse.not-offered");
    let fetched = |bay: &Bay| {
        let months = summary(&bay.card()).by_month;
        months.values().map(|month| month.fetched).sum::<u32>()
    };
    for (item, how) in [
        ("chocks", BroughtHow::AtHand),
        ("lamp", BroughtHow::Fetched),
        ("pry-bar", BroughtHow::Fetched),
        ("pry-bar", BroughtHow::NotHere),
        ("lamp", BroughtHow::Fetched),
    ] {
        let draft = tick(&bay, "tess", item, how).unwrap();
        bay.keep("tess", vec![draft]);
    }
    assert_eq!(one(&bay, "chocks").unwrap().how, Some(BroughtHow::AtHand));
    assert_eq!(one(&bay, "lamp").unwrap().how, Some(BroughtHow::Fetched));
    assert_eq!(
        one(&bay, "pry-bar").unwrap().how,
        None,
        "not there after all"
    );
    assert_eq!(fetched(&bay), 1, "one thing, however often it is ticked");
    assert!(!summary(&bay.card()).look_at);
    // It changes nothing of the job.
    let state = bay.card().progress();
    let draft = tick(&bay, "tess", "lamp", BroughtHow::NotHere).unwrap();
    bay.keep("tess", vec![draft]);
    assert_eq!(bay.card().progress(), state);
    assert_eq!(fetched(&bay), 0);
}

#[test]
fn a_card_of_another_procedure_has_no_list() {
    assert!(all(&Bay::open()).is_empty());
}
