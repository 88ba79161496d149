//! Both ends of an axle as published.

use rules::axle::alike::{Axle, End, Letters, compare};
use rules::slack::chamber::{Chamber, Family, StrokeClass};
use rules::slack::mechanism::Mechanism;

use super::table::rows;

#[test]
fn axles() {
    for row in rows(include_str!("axles.tsv")) {
        let end = |chamber: &str, arm: &str| {
            let (name, class) = row.text(chamber).split_once(' ').unwrap();
            let class = StrokeClass::from_code(class).unwrap();
            End {
                chamber: Chamber::listed(Family::Clamp, name, class),
                arm: row.typed(arm).map(|arm| arm.quantity().length().unwrap()),
                lining: Letters {
                    normal: None,
                    hot: None,
                },
                drum: None,
                mechanism: Mechanism::Clutch,
            }
        };
        let axle = match row.text("axle") {
            "steer" => Axle::PowerUnitSteer,
            _ => Axle::Other,
        };
        let compared = compare(&end("left", "left arm"), &end("right", "right arm"), axle);
        let differs: Vec<_> = compared.iter().filter(|one| one.differs()).collect();
        let [one] = differs[..] else {
            panic!("{row}: {differs:?}")
        };
        assert_eq!(one.part.code(), row.text("part"), "{row}");
        assert_eq!(one.judgement.verdict, row.verdict("verdict"), "{row}");
        let says: Vec<&str> = one.says.iter().map(|source| source.clause).collect();
        assert_eq!(says.join(" + "), row.text("says"), "{row}");
    }
}
