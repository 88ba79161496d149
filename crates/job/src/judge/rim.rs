//! Tyres on multi-piece rims: which pressure one should have had, and whether its core is out already.

use rules::quantity::Quantity;
use rules::rim::{self, judge_pressure};

use super::{Counts, Judged, stroke};
use crate::card::Card;
use crate::id::Place;
use crate::procedure::Step;
use crate::words::Words;

const SHOULD_BE: &str = "should-be";
const CONDITION: &str = "condition";
const CORE_OUT: &str = "core-out";

pub(super) fn reading(
    card: &Card,
    at: Place,
    step: &Step,
    rule: &str,
    reading: Quantity,
) -> Option<Judged> {
    let found = reading.pressure().filter(|_| rule == rim::RULE.id.0)?;
    // A soft tyre holds nothing once it is empty.
    let counts = match stroke::chosen(card, at, step, CONDITION) {
        Some(CORE_OUT) => Counts::AsFound,
        _ => Counts::Part,
    };
    // Of two readings that had not seen each other the higher one asks for more.
    let should_be = stroke::quantities(card, at, step, SHOULD_BE);
    let should_be = should_be.into_iter().filter_map(Quantity::pressure).max();
    Some(match should_be {
        Some(should_be) => Judged::one(judge_pressure(found, should_be), counts),
        None => Judged::Wants {
            rule: rim::RULE.id,
            counts,
            words: Words::plain("wants.should-be"),
        },
    })
}

#[cfg(test)]
mod tests {
    use crate::act;
    use crate::bay::{Bay, L2, choice, choose, reading};
    use crate::card::StepState;
    use crate::event::Role;
    use crate::procedures::Procedures;

    /// One step, as the shipped procedure asks it.
    const RIMS: &str = include_str!("rim.json");

    #[test]
    fn a_soft_tyre_on_a_multi_piece_rim_waits_for_its_core() {
        let mut bay = Bay::empty();
        bay.procedures = Procedures::read([], RIMS).unwrap();
        let setup = crate::bay::setup(&[2]);
        let drafts = act::open_card(bay.procedures.newest(), "0.1.0", &setup).unwrap();
        bay.keep("tess", drafts);
        bay.sign_on("tess", Role::Technician);
        bay.fact("tess", L2, "rim", choice("multi-piece")).unwrap();
        bay.say("tess", L2, "tyres", "condition", choose("over-80"))
            .unwrap();
        let found = |bay: &mut Bay, psi: &str| {
            bay.say("tess", L2, "tyres", "outer", reading(psi, "psi"))
                .unwrap();
            bay.state(L2, "tyres")
        };
        // What it should have was not read: kept, and nothing is said of it.
        assert_eq!(found(&mut bay, "80"), StepState::Done);
        bay.say("tess", L2, "tyres", "should-be", reading("100", "psi"))
            .unwrap();
        // 29 CFR 1910.177(f)(2): 80 percent or less.
        assert_eq!(bay.state(L2, "tyres"), StepState::Unclear);
        assert_eq!(found(&mut bay, "81"), StepState::Done);
        assert_eq!(found(&mut bay, "79"), StepState::Unclear);
        bay.say("tess", L2, "tyres", "condition", choose("core-out"))
            .unwrap();
        assert_eq!(bay.state(L2, "tyres"), StepState::Done);
    }
}
