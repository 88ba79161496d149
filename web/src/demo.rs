//! A made-up shop and a half-done card, for looking around and for training. It goes through the
//! same holds as real work, and only ever into the practice home.

use chrono::TimeDelta;
use job::act::{self, Draft, Setup};
use job::card::{AskState, Card, fold};
use job::event::{
    Answer, FactValue, Item, Role, StandCondition, StandTag, StandUsed, TagBasis, TypedText,
};
use job::hold::may_take;
use job::id::{CardId, PersonId, Place, StepId, TabletId};
use job::judge::Units;
use job::line::Stamp;
use job::procedure::{Ask, AskKind, FactKind, Offer, Procedure, Step};
use job::procedures::Procedures;
use job::shop;
use job::summary::summary;
use job::trail::Trail;

/// Names of nobody: made up for this scenario.
const PEOPLE: [(&str, &str, Role); 3] = [
    ("p-demo-1", "Orla Brandt", Role::Technician),
    ("p-demo-2", "Teo Vasquel", Role::Apprentice),
    ("p-demo-3", "Ines Halloran", Role::Foreman),
];

const STANDS: [(&str, &str, &str, TagBasis); 4] = [
    ("1", "10", "short-ton", TagBasis::PerStand),
    ("2", "10", "short-ton", TagBasis::PerStand),
    ("3", "10", "ton", TagBasis::PerPair),
    ("4", "6", "t", TagBasis::Unmarked),
];

/// The step at which the made-up work stands still.
const STOP_BEFORE: &str = "raise";

/// What was made.
pub(crate) struct Made {
    pub(crate) shop: Trail,
    pub(crate) card: Trail,
    /// The card's summary row.
    pub(crate) row: String,
    pub(crate) person: PersonId,
}

/// Makes the shop and the card, as if the work had begun a while before `now`.
///
/// `sheet` is the shop sheet that the people and stands are put on.
pub(crate) fn make(
    procedures: &Procedures,
    tablet: &TabletId,
    now: Stamp,
    card: &CardId,
    sheet: &Trail,
) -> Made {
    let mut clock = Stamp {
        utc: now.utc - TimeDelta::minutes(90),
        ..now
    };
    let person = PersonId::from(PEOPLE[0].0);
    let mut shop = sheet.clone();
    for (id, name, role) in PEOPLE {
        write(&mut shop, tablet, &person, clock, |trail| {
            shop::list_person(&shop::fold(trail), &PersonId::from(id), name, role).ok()
        });
    }
    for (number, figure, unit, basis) in STANDS {
        write(&mut shop, tablet, &person, clock, |trail| {
            shop::list_stand(&shop::fold(trail), number, tag(figure, unit, basis)).ok()
        });
    }
    let mut trail = Trail::new(card.clone());
    let setup = Setup {
        unit: "MB 214".to_owned(),
        vehicle: Some("tractor".into()),
        layout: Some("1-2".to_owned()),
        loaded: Some("unloaded".into()),
        in_hand: vec![2],
    };
    let opened =
        act::open_card(procedures.newest(), crate::session::APP, &setup).unwrap_or_default();
    for draft in opened
        .into_iter()
        .chain([act::sign_on(&person, PEOPLE[0].1, PEOPLE[0].2)])
    {
        write(&mut trail, tablet, &person, clock, |_| Some(draft));
    }
    // As many actions as there are asks at most, each one the next open ask on the path.
    for _ in 0..200 {
        clock.utc += TimeDelta::seconds(40);
        let folded = fold(&trail, procedures);
        let Some(draft) = next(&folded, &person, clock) else {
            break;
        };
        write(&mut trail, tablet, &person, clock, |_| Some(draft));
    }
    let row = serde_json::to_string(&summary(&fold(&trail, procedures))).unwrap_or_default();
    Made {
        shop,
        card: trail,
        row,
        person,
    }
}

fn write(
    trail: &mut Trail,
    tablet: &TabletId,
    who: &PersonId,
    at: Stamp,
    draft: impl FnOnce(&Trail) -> Option<Draft>,
) {
    let draft = draft(trail);
    for line in trail.write(tablet, who, at, draft.into_iter().collect()) {
        trail.take_in(line);
    }
}

fn tag(figure: &str, unit: &str, basis: TagBasis) -> StandTag {
    StandTag {
        rating: Some(typed(figure, unit)),
        basis,
        condition: StandCondition::Sound,
    }
}

fn typed(text: &str, unit: &str) -> TypedText {
    TypedText {
        text: text.to_owned(),
        unit: unit.to_owned(),
    }
}

/// The next thing that the made-up technician does.
fn next(card: &Card, who: &PersonId, now: Stamp) -> Option<Draft> {
    let procedure = card.procedure.clone()?;
    let (at, step) = card.next_open()?;
    if step.id == StepId::from(STOP_BEFORE) {
        return None;
    }
    for ask in &step.asks {
        for place in card.ask_places(step, ask, at) {
            let state = card.ask_state(step, ask, place);
            if ask.optional || matches!(state, AskState::Clear | AskState::NotAsked) {
                continue;
            }
            if let AskKind::Fact(fact) = &ask.kind {
                let value = fact_value(&procedure, fact.as_str())?;
                return act::set_fact(card, who, place, fact, value).ok();
            }
            let item = match &ask.kind {
                AskKind::Press(press) if press.each_person => Item::Person(who.clone()),
                _ => Item::Only,
            };
            let answer = answer(card, step, ask, place)?;
            let proof = may_take(card, who, place, &step.id, &ask.id, item, now).ok()?;
            return act::take(card, proof, answer, &Units::INCH_POUND).ok();
        }
    }
    None
}

fn fact_value(procedure: &Procedure, fact: &str) -> Option<FactValue> {
    Some(match fact {
        "coupled" => FactValue::Choice("no-trailer".into()),
        "suspension" => FactValue::Choice("air".into()),
        "lift-by" => FactValue::Choice("jack-and-stands".into()),
        "group-weight" => FactValue::Typed(typed("12800", "lb")),
        "unit-weight" => FactValue::Typed(typed("17600", "lb")),
        "wheel-set" => FactValue::Choice("dual".into()),
        "rim" => FactValue::Choice("one-piece".into()),
        "chamber-type" => FactValue::Choice("t30".into()),
        "stroke-class" => FactValue::Choice("standard".into()),
        _ => match &procedure.fact(&fact.into())?.kind {
            FactKind::Choose(options) => FactValue::Choice(options.first()?.clone()),
            _ => FactValue::NotKnown,
        },
    })
}

fn answer(card: &Card, step: &Step, ask: &Ask, at: Place) -> Option<Answer> {
    let first = |offers: &[Offer]| {
        offers
            .iter()
            .find(|offer| offer.clears && card.fits(&offer.when, at))
            .map(|offer| offer.id.clone())
    };
    Some(match &ask.kind {
        AskKind::Lines(_) => Answer::Lines { out: Vec::new() },
        AskKind::Choose(offers) => Answer::Choice {
            option: first(offers)?,
        },
        AskKind::Press(press) => Answer::Press {
            option: first(&press.answers)?,
        },
        AskKind::Reading(reading) => {
            let (text, unit) = reading_of(step.id.as_str(), ask.id.as_str(), at)
                .unwrap_or((reading.usual[0].as_str(), reading.units.first()?.0.code()));
            Answer::Reading {
                typed: typed(text, unit),
            }
        }
        AskKind::Count(count) => Answer::Count {
            count: count.usual[0],
        },
        AskKind::Wheels => Answer::Wheels {
            at: card.wheels_to_chock(),
        },
        AskKind::Exceptions(_) => Answer::Exceptions { but: Vec::new() },
        AskKind::Pass(_) => Answer::WholePass { but: Vec::new() },
        AskKind::Stands => Answer::Stands {
            stands: STANDS[..2]
                .iter()
                .map(|(number, figure, unit, basis)| StandUsed {
                    stand: (*number).to_owned(),
                    tag: tag(figure, unit, *basis),
                })
                .collect(),
        },
        AskKind::Wrench | AskKind::Look | AskKind::Fact(_) | AskKind::Settled => return None,
    })
}

/// Readings of the made-up vehicle: the right side pushes further than the left.
fn reading_of(step: &str, ask: &str, at: Place) -> Option<(&'static str, &'static str)> {
    let left = at == Place::ends(2)[0];
    Some(match (step, ask) {
        ("as-found", "at-rest") => (if left { "1 1/8" } else { "1" }, "in"),
        ("as-found", "free-stroke") => (if left { "1/2" } else { "5/8" }, "in"),
        ("as-found", "applied") => (if left { "2 3/4" } else { "2 7/8" }, "in"),
        ("as-found", "reservoir") => ("95", "psi"),
        ("jack", "rating") => ("22", "short-ton"),
        _ => return None,
    })
}
