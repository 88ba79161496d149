use super::physical;
use crate::bay::{Bay, L2, R2, V, lines, sent_back};
use crate::event::{Answer, Exception, Role};
use crate::id::Place;
use crate::words::Arg;

fn told(bay: &Bay, at: Place) -> Vec<String> {
    let words = physical(&bay.card(), at);
    let text = |(_, argument): &(&str, Arg)| match argument {
        Arg::Text(text) | Arg::Key(text) => text.clone(),
        Arg::Place(_) | Arg::Rule(_) => panic!("{argument:?}"),
    };
    words
        .iter()
        .map(|words| {
            let arguments: Vec<String> = words.arguments.iter().map(text).collect();
            format!("{} {}", words.key, arguments.join(" "))
                .trim_end()
                .to_owned()
        })
        .collect()
}

#[test]
fn the_sentence_follows_the_steps_that_are_done() {
    assert_eq!(told(&Bay::empty(), L2), [""; 0]);
    let mut bay = Bay::open();
    assert_eq!(told(&bay, L2), [""; 0]);
    bay.chocked();
    assert_eq!(told(&bay, L2), ["physical.chocks.in"]);
    let mut bay = Bay::raised();
    // Left out, nothing was measured.
    assert_eq!(told(&bay, L2), ["physical.chocks.in"]);
    bay.stripped("tess", L2);
    assert_eq!(
        told(&bay, L2),
        ["physical.wheel.nuts-off", "physical.chocks.in"]
    );
    assert_eq!(told(&bay, R2), ["physical.chocks.in"]);
    // Of the vehicle it is true only once it is of every wheel end.
    assert_eq!(told(&bay, V), ["physical.chocks.in"]);
    bay.stripped("tess", R2);
    assert_eq!(
        told(&bay, V),
        ["physical.wheel.nuts-off", "physical.chocks.in"]
    );
    bay.say("tess", L2, "hang", "hung", lines()).unwrap();
    assert_eq!(told(&bay, L2)[0], "physical.wheel.hung");
}

#[test]
fn a_pass_broken_off_says_how_far() {
    let mut bay = Bay::raised();
    bay.stripped("tess", L2);
    bay.say("tess", L2, "hang", "hung", lines()).unwrap();
    bay.nuts("tess", L2, 1);
    assert_eq!(
        told(&bay, L2)[..2],
        ["physical.wheel.hung", "physical.pass step.final-pass 1 2"]
    );
    bay.nuts("tess", L2, 2);
    assert_eq!(told(&bay, L2)[0], "physical.wheel.torqued");
    // Sent back, the wheel is hung again and no more.
    let whole = Answer::WholePass { but: Vec::new() };
    bay.say("tess", L2, "check-pass", "nuts", whole).unwrap();
    bay.sign_on("fay", Role::Foreman);
    bay.say("fay", L2, "second-look", "look", sent_back(&["final-pass"]))
        .unwrap();
    assert_eq!(told(&bay, L2)[0], "physical.wheel.hung");
}

#[test]
fn a_whole_pass_with_exceptions_counts_the_others() {
    let mut bay = Bay::empty();
    let whole = crate::bay::SMALL.replace(
        r#"["final-pass", "torqued"]"#,
        r#"["check-pass", "torqued"]"#,
    );
    bay.procedures = crate::procedures::Procedures::read([], &whole).unwrap();
    let setup = crate::bay::setup(&[2]);
    let drafts = crate::act::open_card(bay.procedures.newest(), "0.1.0", &setup).unwrap();
    bay.keep("tess", drafts);
    bay.sign_on("tess", Role::Technician);
    bay.secured();
    bay.up();
    bay.stripped("tess", L2);
    bay.say("tess", L2, "hang", "hung", lines()).unwrap();
    bay.nuts("tess", L2, 2);
    let but = vec![Exception {
        item: "1".to_owned(),
        mark: "turned".into(),
    }];
    bay.say("tess", L2, "check-pass", "nuts", Answer::WholePass { but })
        .unwrap();
    assert_eq!(told(&bay, L2)[1], "physical.pass step.check-pass 1 2");
}
