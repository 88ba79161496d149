//! Drums: which readings and answers their rules get, and what stands beside.
//!
//! Each diameter is judged by itself; the last one of a depth also tells how round the drum is, and
//! one at the back how it tapers. What becomes of the other drum of the axle is a result of its own.

use rules::drum::bell_mouth::judge_bell_mouth;
use rules::drum::diameter::{self, judge_diameter};
use rules::drum::marks::Marks;
use rules::drum::new_drum::{self, Against, New, judge_new};
use rules::drum::pair::{End, judge_pair};
use rules::drum::round::{PLACES_MIN, judge_round};
use rules::drum::run_out::{self, judge_run_out};
use rules::drum::surface::{self, Surface, judge_surface};
use rules::drum::taper::{Pair, judge_taper};
use rules::drum::turn::judge_turn;
use rules::quantity::Length;
use rules::verdict::{Judgement, Verdict};

use super::own::own;
use super::stroke::{beside, chosen, lengths, step};
use super::{Counts, Judged};
use crate::card::Card;
use crate::event::{Answer, Item};
use crate::id::{OptionId, Place};
use crate::procedure::{Ask, Step};

/// The step in which a drum is judged.
const DRUM: &str = "drum";
const FRONT: [&str; PLACES_MIN] = ["front-1", "front-2", "front-3", "front-4"];
const BACK: [&str; PLACES_MIN] = ["rear-1", "rear-2", "rear-3", "rear-4"];

/// `None` if the rule is none of a drum's, or the answer none that it judges.
pub(super) fn judge(
    card: &Card,
    at: Place,
    step: &Step,
    ask: &Ask,
    rule: &str,
    answer: &Answer,
) -> Option<Judged> {
    if let Answer::Reading { typed } = answer {
        let reading = typed.typed().ok()?.quantity().length()?;
        if rule == diameter::RULE.id.0 {
            Some(measured(card, at, step, ask, reading))
        } else if rule == run_out::RULE.id.0 {
            Some(Judged::one(judge_run_out(reading), Counts::Part))
        } else {
            None
        }
    } else if let Answer::Choice { option } = answer {
        if rule == surface::RULE.id.0 {
            looked_at(card, at, ask, Surface::from_code(option.as_str())?)
        } else if rule == new_drum::RULE.id.0 {
            Some(Judged::one(judge_new(new(card, at, option)), Counts::Part))
        } else {
            None
        }
    } else {
        None
    }
}

/// One diameter, with what it tells together with those before it.
fn measured(card: &Card, at: Place, step: &Step, ask: &Ask, diameter: Length) -> Judged {
    let marks = marks(card, at, step);
    // The reading that is about to be kept stands in no slot yet, or stands there with an older one.
    let of = |id: &str| {
        if ask.id.as_str() == id {
            vec![diameter]
        } else {
            lengths(card, at, step, id)
        }
    };
    let mut together = Vec::new();
    for depth in [FRONT, BACK] {
        let whole = depth.iter().all(|id| !of(id).is_empty());
        if whole && depth.last() == Some(&ask.id.as_str()) {
            let all: Vec<Length> = depth.iter().flat_map(|id| of(id)).collect();
            together.push(judge_round(&all));
        }
    }
    if let Some(place) = BACK.iter().position(|id| *id == ask.id.as_str()) {
        let pairs = |place: usize| {
            let of_place = |depth: [&str; PLACES_MIN]| depth.get(place).map(|id| of(id));
            pairs(
                &of_place(FRONT).unwrap_or_default(),
                &of_place(BACK).unwrap_or_default(),
            )
        };
        let here = pairs(place);
        if !here.is_empty() {
            together.push(judge_taper(&here));
        }
        let all: Vec<Pair> = (0..PLACES_MIN).flat_map(pairs).collect();
        if place + 1 == PLACES_MIN && !all.is_empty() {
            together.push(judge_bell_mouth(&all, marks));
        }
    }
    if was_turned(card, at, step) {
        together.push(judge_turn(&[diameter], marks));
    }
    Judged::Several {
        own: Box::new(wear(card, at, &[diameter], marks)),
        together,
        counts: Counts::GoesBackOn,
    }
}

/// The wear of a drum, by what is cast in it and by the shop's own limits.
fn wear(card: &Card, at: Place, diameters: &[Length], marks: Marks) -> Judgement {
    judge_diameter(diameters, marks).by_shop(&own(card, at, diameter::RULE.id.0))
}

/// Every front diameter of one place with every one at the back of it.
fn pairs(front: &[Length], back: &[Length]) -> Vec<Pair> {
    let with = |front: Length| back.iter().map(move |&back| Pair { front, back });
    front.iter().copied().flat_map(with).collect()
}

/// What a drum shows: an old one that goes is told, one that stays is judged with its mate.
fn looked_at(card: &Card, at: Place, ask: &Ask, shows: Surface) -> Option<Judged> {
    let own = judge_surface(shows);
    if ask.id.as_str() == "old-drum" {
        return Some(Judged::one(own, Counts::AsFound));
    }
    Some(Judged::Several {
        own: Box::new(own),
        together: pair(card, at).into_iter().collect(),
        counts: Counts::GoesBackOn,
    })
}

fn new(card: &Card, at: Place, option: &OptionId) -> New {
    let against = match option.as_str() {
        "right" => Against::Agrees,
        "wrong" => Against::Differs,
        _ => Against::NotCompared,
    };
    let number = at
        .axle()
        .and_then(|axle| card.fact(Place::Axle(axle), &"drum-number".into()));
    New {
        diameter: against,
        width: against,
        numbered: number.is_some(),
    }
}

/// What the drum of this wheel end says of itself. Of two cast figures that had not seen each other
/// the smaller one counts.
fn marks(card: &Card, at: Place, step: &Step) -> Marks {
    let size = at
        .axle()
        .and_then(|axle| card.choice(Place::Axle(axle), "drum-size"));
    let nominal = match size.map(OptionId::as_str) {
        Some("d15") => Some(Length::from_inch_64ths(15 * 64)),
        Some("d16-5") => Some(Length::from_inch_64ths(16 * 64 + 32)),
        _ => None,
    };
    let unreadable = card.choice(at, "drum-mark").map(OptionId::as_str) == Some("worn-away");
    let cast = lengths(card, at, step, "cast-max").into_iter().min();
    Marks {
        cast_max: cast.filter(|_| !unreadable),
        nominal,
    }
}

fn was_turned(card: &Card, at: Place, step: &Step) -> bool {
    beside(card, at, step, "turned")
        .into_iter()
        .any(|answer| matches!(answer, Answer::Choice { option } if option.as_str() == "turned"))
}

/// Whether both drums of the axle of this wheel end are treated alike.
pub fn pair(card: &Card, at: Place) -> Option<Judgement> {
    let [left, right] = Place::ends(at.axle()?).map(|end| end_of(card, end));
    // A line that was done for one drum renewed both.
    if [left, right].contains(&Some(End::Renewed)) {
        return Some(judge_pair(End::Renewed, End::Renewed));
    }
    Some(judge_pair(
        left.unwrap_or(End::Unknown),
        right.unwrap_or(End::Unknown),
    ))
}

/// What becomes of the drum of one wheel end, as far as it was judged.
fn end_of(card: &Card, at: Place) -> Option<End> {
    let axle = Place::Axle(at.axle()?);
    if card.choice(axle, "drum-new")?.as_str() == "renewed" {
        return Some(End::Renewed);
    }
    let step = step(card, DRUM)?;
    let read: Vec<Vec<Length>> = FRONT
        .iter()
        .chain(&BACK)
        .map(|id| lengths(card, at, step, id))
        .collect();
    let whole = read.iter().all(|places| !places.is_empty());
    let wear = wear(card, at, &read.concat(), marks(card, at, step)).verdict;
    let shows = shown(card, at, step);
    if shows == Some(End::Renewed) {
        return shows;
    }
    if wear == Verdict::Beyond || shows == Some(End::Goes) {
        return Some(End::Goes);
    }
    let looked = chosen(card, at, step, "surface").is_some();
    (whole && looked).then(|| {
        if was_turned(card, at, step) {
            End::Turned
        } else {
            End::Stays
        }
    })
}

/// What follows from the look of a drum alone: it goes, or went already; `None` if it may stay.
fn shown(card: &Card, at: Place, step: &Step) -> Option<End> {
    let ask = step.asks.iter().find(|ask| ask.id.as_str() == "surface")?;
    let slot = card.slot(step, ask, at, Item::Only)?;
    let goes = |answer: &Answer| {
        let Answer::Choice { option } = answer else {
            return false;
        };
        let shows = Surface::from_code(option.as_str());
        shows.is_some_and(|shows| judge_surface(shows).verdict == Verdict::Replace)
    };
    let bad: Vec<_> = slot
        .live()
        .iter()
        .filter(|held| goes(&held.value.answer))
        .collect();
    if bad.is_empty() {
        return None;
    }
    // Cleared all the same: its line was done since, and that renewed the drums.
    let mended = bad
        .iter()
        .all(|held| card.clears(step, ask, at, &held.value));
    Some(if mended { End::Renewed } else { End::Goes })
}

#[cfg(test)]
mod tests;
