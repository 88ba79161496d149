//! What was said of each decision, read back from the trail of a run's card.
//!
//! What was answered counts with the word that the rules gave it then; a part that was renewed later
//! was judged before that. What was taken back was never said. A finding that was put on the card
//! condemns the part that shows it.

use rules::typed::Typed;
use rules::verdict::Verdict;

use job::card::{Card, Entry};
use job::event::{Answer, Event, FactValue, JudgedThen, StandUsed};
use job::id::{FactId, OptionId, Place, Side};
use job::procedure::{AskKind, Eye};

use crate::decision::{Decision, Item, refuses};
use crate::marking::Said;

use super::Run;
use super::sight::exact;

/// Options with which a part is told to have been renewed, whatever was said of it before.
const RENEWED: &[&str] = &["renewed", "new-at-refit"];

/// One answer that stands.
struct Heard<'a> {
    ask: &'a str,
    answer: &'a Answer,
    judged: &'a [JudgedThen],
}

impl Run {
    /// What was said of everything that there is to judge. `stands_tried`: the stands that lay ready
    /// were offered and refused by the app.
    pub fn heard(&self, card: &Card, stands_tried: bool) -> Vec<Said> {
        self.decisions
            .iter()
            .filter_map(|decision| self.heard_of(card, decision, stands_tried))
            .collect()
    }

    fn heard_of(&self, card: &Card, decision: &Decision, stands_tried: bool) -> Option<Said> {
        let at = match decision.side {
            Some(side) => self.place(side),
            None => Place::Axle(self.axle_number()),
        };
        let (verdict, reading) = if decision.item == Item::Stands {
            (self.of_stands(card, at, decision, stands_tried), None)
        } else if decision.item == Item::Alike {
            (self.of_facts(card), None)
        } else if decision.item == Item::SpringBrake {
            (of_housing(card, at), None)
        } else {
            self.of_answers(card, at, decision.item)
        };
        let condemned = self.is_on_a_line(card, at, decision);
        let verdict = match verdict {
            // A line says that it may not stay so, whatever word the reading got.
            Some(said) if condemned && !refuses(said) => Some(Verdict::Replace),
            None if condemned => Some(Verdict::Replace),
            other => other,
        }?;
        Some(Said {
            side: decision.side,
            item: decision.item,
            reading,
            verdict,
        })
    }

    /// Whether a finding on the card condemns this and not something else that shows the same.
    fn is_on_a_line(&self, card: &Card, at: Place, decision: &Decision) -> bool {
        let struck = |line: &job::line::LineRef| {
            card.entry(line).is_some_and(|entry| entry.struck.is_some())
        };
        let lines = card.extra_lines().iter().filter(|line| !struck(&line.line));
        let axle = Place::Axle(self.axle_number());
        let here = lines.filter(|line| line.at == at || line.at == axle);
        let mut shown = here.flat_map(|line| {
            let of_it =
                move |fault: &&crate::fault::Fault| fault.finding() == line.finding.as_str();
            decision.item.can_show().iter().filter(of_it)
        });
        shown.any(|fault| {
            decision.ruling.refuses()
                || !self.decisions.iter().any(|other| {
                    other.side == decision.side
                        && other.item != decision.item
                        && other.ruling.refuses()
                        && other.item.can_show().contains(fault)
                })
        })
    }

    fn answers<'a>(&self, card: &'a Card, at: Place, item: Item) -> Vec<Heard<'a>> {
        let spot = item.spot();
        let standing = card.entries.iter().filter(|entry| entry.struck.is_none());
        standing
            .filter_map(Entry::event)
            .filter_map(|event| {
                let Event::Answered {
                    at: place,
                    step,
                    ask,
                    answer,
                    judged,
                    ..
                } = event
                else {
                    return None;
                };
                let asked = spot.asks.contains(&ask.as_str());
                let here = *place == at && step.as_str() == spot.step && asked;
                here.then_some(Heard {
                    ask: ask.as_str(),
                    answer,
                    judged,
                })
            })
            .collect()
    }

    /// The stands that were set first: those that lay ready, or others in their place.
    fn of_stands(
        &self,
        card: &Card,
        at: Place,
        decision: &Decision,
        tried: bool,
    ) -> Option<Verdict> {
        if tried {
            return Some(Verdict::Within);
        }
        let first = self.answers(card, at, Item::Stands).into_iter().next()?;
        let Answer::Stands { stands } = first.answer else {
            return None;
        };
        let tags = |stands: &[StandUsed]| stands.iter().map(|one| one.tag.clone()).collect();
        let (set, ready): (Vec<_>, Vec<_>) = (
            tags(stands),
            tags(self.stands().get(..2).unwrap_or_default()),
        );
        let same = set.len() == 2 && set.iter().all(|tag| ready.contains(tag));
        let ruled = decision.ruling.verdict();
        Some(if same { ruled } else { Verdict::Beyond })
    }

    /// Whether both ends were read alike, by what was read of each first.
    fn of_facts(&self, card: &Card) -> Option<Verdict> {
        let read = |side: Side, fact: &str| self.first_fact(card, self.place(side), fact);
        let mut differ = false;
        for fact in ["chamber-type", "stroke-class", "arm-length"] {
            differ |= read(Side::Left, fact)? != read(Side::Right, fact)?;
        }
        Some(if differ {
            Verdict::Replace
        } else {
            Verdict::Sound
        })
    }

    fn first_fact<'a>(&self, card: &'a Card, at: Place, fact: &str) -> Option<&'a FactValue> {
        first_fact(card, at, fact)
    }

    fn of_answers(&self, card: &Card, at: Place, item: Item) -> (Option<Verdict>, Option<Typed>) {
        let heard = self.answers(card, at, item);
        let drum = matches!(item, Item::Diameter | Item::DrumShape);
        let mut verdict: Option<Verdict> = None;
        let mut reading: Option<Typed> = None;
        let mut renewed = false;
        for one in &heard {
            match one.answer {
                Answer::Choice { option } if RENEWED.contains(&option.as_str()) => renewed = true,
                Answer::Choice { option } => {
                    verdict = self.of_choice(card, item, one.ask, option);
                }
                Answer::Exceptions { but } => {
                    let named = |thing: &str| but.iter().any(|one| one.item == thing);
                    let word = if item == Item::Hose {
                        by_eye(named("hose"))
                    } else if item == Item::Shield {
                        by_eye(named("shield"))
                    } else {
                        worst(one.judged, |_| true).unwrap_or(Verdict::Sound)
                    };
                    verdict = Some(harder(verdict, word));
                }
                Answer::Reading { typed } => {
                    let own = |judged: &JudgedThen| {
                        !drum || (judged.rule == "drum.diameter") == (item == Item::Diameter)
                    };
                    let said = worst(one.judged, own);
                    let typed = typed.typed().ok();
                    let is_worse = match (verdict, said) {
                        (None, _) => true,
                        (Some(before), Some(now)) => before.severity() < now.severity(),
                        (Some(_), None) => false,
                    };
                    // Of a drum the largest counts, whichever place it was read at.
                    let is_larger = match (&reading, &typed) {
                        (Some(before), Some(now)) => {
                            now.quantity().base() > before.quantity().base()
                        }
                        _ => true,
                    };
                    if is_worse {
                        verdict = said.or(verdict);
                    }
                    if if drum { is_larger } else { is_worse } {
                        reading = typed;
                    }
                }
                Answer::Lines { .. } => verdict = Some(by_eye(false)),
                Answer::Press { .. }
                | Answer::Count { .. }
                | Answer::Wheels { .. }
                | Answer::WholePass { .. }
                | Answer::Nut { .. }
                | Answer::Stands { .. }
                | Answer::Wrench { .. }
                | Answer::Jack { .. }
                | Answer::Look { .. } => {}
            }
        }
        if item == Item::Applied {
            reading = reading.and_then(|applied| self.stroke(card, at, &applied));
        }
        // What was renewed with no word before it was condemned.
        (verdict.or(renewed.then_some(Verdict::Replace)), reading)
    }

    /// What was chosen, as a word. What the ask has no word for is seen at it and said by a line.
    fn of_choice(&self, card: &Card, item: Item, ask: &str, option: &OptionId) -> Option<Verdict> {
        let seen_only = matches!(item, Item::Rollers | Item::SpiderBolts | Item::HubOil);
        if seen_only {
            return Some(Verdict::Sound);
        }
        let procedure = card.procedure.as_deref()?;
        let asked = procedure.ask(&item.spot().step.into(), &ask.into())?;
        let AskKind::Choose(offers) = &asked.kind else {
            return None;
        };
        let offer = offers.iter().find(|offer| offer.id == *option)?;
        Some(match offer.part {
            Some(Eye::Sound) => Verdict::Sound,
            Some(Eye::Replace) => Verdict::Replace,
            None => by_eye(!offer.clears),
        })
    }

    /// An applied reading less the one at rest, in the unit that was typed.
    fn stroke(&self, card: &Card, at: Place, applied: &Typed) -> Option<Typed> {
        let standing = card.entries.iter().filter(|entry| entry.struck.is_none());
        let at_rest = standing.filter_map(Entry::event).rev().find_map(|event| {
            let Event::Answered {
                at: place,
                step,
                ask,
                answer: Answer::Reading { typed },
                ..
            } = event
            else {
                return None;
            };
            let here = *place == at && step.as_str() == "as-found" && ask.as_str() == "at-rest";
            here.then(|| typed.typed().ok()).flatten()
        })?;
        let stroke = applied.quantity().checked_sub(at_rest.quantity())?;
        exact(stroke, applied.unit())
    }
}

/// What was found on the housing of a spring brake, once it was asked.
fn of_housing(card: &Card, at: Place) -> Option<Verdict> {
    let housing = first_fact(card, at, "spring-housing")?.choice()?;
    Some(by_eye(housing.as_str() == "damaged"))
}

fn first_fact<'a>(card: &'a Card, at: Place, fact: &str) -> Option<&'a FactValue> {
    let fact = FactId::from(fact);
    let standing = card.entries.iter().filter(|entry| entry.struck.is_none());
    standing.filter_map(Entry::event).find_map(|event| {
        let Event::FactSet {
            at: place,
            fact: of,
            value,
        } = event
        else {
            return None;
        };
        (*place == at && *of == fact).then_some(value)
    })
}

const fn by_eye(bad: bool) -> Verdict {
    if bad {
        Verdict::Replace
    } else {
        Verdict::Sound
    }
}

fn harder(before: Option<Verdict>, now: Verdict) -> Verdict {
    match before {
        Some(before) if before.severity() > now.severity() => before,
        _ => now,
    }
}

fn worst(judged: &[JudgedThen], of: impl Fn(&JudgedThen) -> bool) -> Option<Verdict> {
    let words = judged.iter().filter(|one| of(one));
    words
        .filter_map(|one| Verdict::from_code(&one.verdict))
        .max_by_key(|verdict| (*verdict != Verdict::NoReading, verdict.severity()))
}
