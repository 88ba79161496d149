use super::hand_over;
use crate::act;
use crate::bay::{A2, Bay, L2, R2, lines};
use crate::event::{LineState, Role};
use crate::id::Place;

fn names(steps: &[(Place, &crate::procedure::Step)]) -> Vec<String> {
    steps
        .iter()
        .map(|(at, step)| format!("{at} {}", step.id))
        .collect()
}

fn loose(bay: &Bay, at: Place) -> Vec<String> {
    let card = bay.card();
    let loose = hand_over(&card, at).loose;
    loose.into_iter().map(|words| words.key).collect()
}

#[test]
fn what_is_off_is_loose_until_its_last_step_is_done() {
    let mut bay = Bay::raised();
    assert_eq!(loose(&bay, L2), ["physical.chocks.in"]);
    bay.stripped("tess", L2);
    assert_eq!(
        loose(&bay, L2),
        ["physical.wheel.nuts-off", "physical.chocks.in"]
    );
    assert_eq!(loose(&bay, R2), ["physical.chocks.in"], "the other end");
    bay.say("tess", L2, "hang", "hung", lines()).unwrap();
    assert_eq!(loose(&bay, L2)[0], "physical.wheel.hung", "not torqued");
}

#[test]
fn each_step_of_the_end_and_its_axle_is_in_one_list() {
    let mut bay = Bay::raised();
    bay.stripped("tess", L2);
    let card = bay.card();
    let over = hand_over(&card, L2);
    let (done, open) = (names(&over.done), names(&over.open));
    assert!(done.contains(&format!("{A2} raise")), "{done:?}");
    assert!(done.contains(&format!("{L2} nuts-off")), "{done:?}");
    assert!(open.contains(&format!("{L2} hang")), "{open:?}");
    let all = [done, open, names(&over.begun)].concat();
    assert!(all.iter().all(|name| !name.starts_with(&R2.to_string())));
    let path = card.path();
    let here = path.iter().filter(|(at, _)| [L2, A2].contains(at));
    assert_eq!(all.len(), here.count());
}

#[test]
fn it_is_taken_over_by_the_next_person_and_open_lines_go_with_it() {
    let mut bay = Bay::raised();
    bay.sign_on("noor", Role::Technician);
    let take = |bay: &mut Bay, who: &str| {
        let draft = act::take_end(&bay.card(), &who.into(), L2).unwrap();
        bay.keep(who, vec![draft]);
    };
    let whose = |bay: &Bay| hand_over(&bay.card(), L2).whose.map(ToString::to_string);
    take(&mut bay, "tess");
    assert_eq!(whose(&bay).as_deref(), Some("tess"));
    let drum = bay.find("tess", L2, "drum").unwrap();
    let axle = bay.find("tess", A2, "seal").unwrap();
    bay.find("tess", R2, "drum").unwrap();
    take(&mut bay, "noor");
    assert_eq!(whose(&bay).as_deref(), Some("noor"));
    let open = |bay: &Bay| {
        let card = bay.card();
        let lines = hand_over(&card, L2).lines.into_iter();
        lines.map(|extra| extra.line.clone()).collect::<Vec<_>>()
    };
    assert_eq!(open(&bay), [drum.clone(), axle.clone()]);
    bay.tell("tess", &drum, LineState::SaidYes).unwrap();
    bay.tell("tess", &drum, LineState::Done).unwrap();
    assert_eq!(open(&bay), [axle]);
}
