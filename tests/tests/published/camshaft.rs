//! Camshaft play as published.

use rules::camshaft::brake::Brake;
use rules::camshaft::play::{judge_end, judge_radial};

use super::table::rows;

#[test]
fn camshafts() {
    for row in rows(include_str!("camshafts.tsv")) {
        let play = row.typed("play").unwrap().quantity().length().unwrap();
        let brake = Brake::from_code(row.text("brake")).unwrap();
        let judged = match row.text("what") {
            "radial" => judge_radial(play, brake),
            "end" => judge_end(play, brake),
            other => panic!("{other}"),
        };
        assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
    }
}
