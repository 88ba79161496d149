//! Studs, nuts and wheels as published.

use rules::jurisdiction::Jurisdiction;
use rules::source::Standing;
use rules::stud::engagement::judge_engagement;
use rules::stud::neighbours::{self, renew};
use rules::stud::nuts::{self, judge_nuts};
use rules::stud::past_nut::judge_past_nut;
use rules::stud::run_out::{self, judge_run_out};
use rules::stud::stand_out::{Fit, judge_stand_out};
use rules::stud::wheel::{Axle, Metal, Sign, Thing, judge_wheel};
use rules::torque::spec::Thread;

use super::table::rows;

#[test]
fn turns() {
    for row in rows(include_str!("stud_turns.tsv")) {
        let turns = row.typed("turns").unwrap().quantity().angle().unwrap();
        let thread = Thread::from_code(row.text("thread")).unwrap();
        let judged = judge_engagement(turns, Some(thread));
        assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
    }
}

#[test]
fn threads_past() {
    for row in rows(include_str!("threads_past.tsv")) {
        let threads = row.typed("threads").unwrap().quantity().angle().unwrap();
        let jurisdiction = Jurisdiction::from_code(row.text("where")).unwrap();
        let judged = judge_past_nut(threads, jurisdiction);
        assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
    }
}

#[test]
fn stand_outs() {
    for row in rows(include_str!("stand_outs.tsv")) {
        let stand_out = row.typed("stand-out").unwrap().quantity();
        let judged = judge_stand_out(
            stand_out.length().unwrap(),
            Fit::from_code(row.text("fit")).unwrap(),
            Metal::from_code(row.text("metal")).unwrap(),
        );
        assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
    }
}

#[test]
fn broken_studs() {
    for row in rows(include_str!("broken_studs.tsv")) {
        let named: Vec<(u16, neighbours::Sign)> = row
            .text("broken")
            .split(',')
            .map(|stud| (stud.parse().unwrap(), neighbours::Sign::Broken))
            .collect();
        let studs: Vec<String> = renew(row.text("studs").parse().unwrap(), &named)
            .iter()
            .map(u16::to_string)
            .collect();
        assert_eq!(studs.join(","), row.text("renew"), "{row}");
    }
}

#[test]
fn run_outs() {
    for row in rows(include_str!("run_outs.tsv")) {
        let run_out = row.typed("run-out").unwrap().quantity().length().unwrap();
        let axle = run_out::Axle::from_code(row.text("axle")).unwrap();
        let judged = judge_run_out(run_out, axle);
        assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
    }
}

#[test]
fn wheels_and_nuts() {
    for row in rows(include_str!("wheel_looks.tsv")) {
        let (what, sign) = row.text("what").split_once(' ').unwrap();
        let judged = match Thing::from_code(what) {
            Some(thing) => {
                let axle = match row.text("axle") {
                    "steer" => Axle::Steer,
                    _ => Axle::Other,
                };
                let metal = Metal::from_code(row.text("metal")).unwrap();
                judge_wheel(&[(thing, Sign::from_code(sign).unwrap())], metal, axle)
            }
            None => judge_nuts(&[nuts::Sign::from_code(sign).unwrap()]),
        };
        assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
        assert_eq!(judged.source.standing, Standing::Regulation, "{row}");
    }
}
