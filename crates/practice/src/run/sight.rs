//! What there is to see at an ask: signs, marks of instruments, tags. Never what it means.

use rules::quantity::Quantity;
use rules::slack::chamber::Chamber;
use rules::typed::Typed;
use rules::unit::Unit;

use job::card::Card;
use job::event::{Answer, FactValue, LineState};
use job::id::{OptionId, Place, Side};
use job::procedure::{Ask, AskKind, Step};

use crate::axle::Axle;
use crate::decision::{Item, Shown};
use crate::instrument::{Instrument, Tool};

use super::good::{SET_UP_APPLIED_16THS, set_up_free_16ths};
use super::{DIAMETERS, Run};

/// One thing that is seen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Sight {
    /// An instrument at its mark; a drawn one stands in its place where there is one.
    Instrument {
        /// What it is held to.
        item: Item,
        /// The instrument.
        instrument: Instrument,
    },
    /// An instrument at a mark that nothing hidden decides.
    Gauge(Instrument),
    /// The pushrod beside its rule, released.
    AtRest(Instrument),
    /// The same with the brake applied, or pulled out by hand.
    Out(Instrument),
    /// A part on which these signs are seen; none: nothing is to be seen on it.
    Signs {
        /// Which part.
        item: Item,
        /// The stable names of the signs, the number of a stud or nut before them.
        signs: Vec<(Option<u16>, &'static str)>,
    },
    /// What is printed on a lining.
    Edge(String),
    /// A chamber: the type that is cast on it, and the signs of its stroke class.
    Chamber {
        /// The type as it is cast.
        of: &'static str,
        /// Whether its ports are square and it wears the trapezoid tag.
        long: bool,
    },
    /// What a fact is, as it stands on a plate or a sheet.
    Fact(FactValue),
    /// How it stands, by an answer of the ask.
    Stands(OptionId),
    /// A figure that was counted or timed, and that nothing hidden decides.
    Figure(Typed),
    /// A figure on a plate.
    Plate(Typed),
    /// A figure cast into a part.
    Cast(Typed),
    /// A part that was renewed on the way.
    Renewed(Item),
    /// The stands lie ready; their tags are read where they are picked.
    ReadyStands,
}

impl Run {
    /// What is seen at an ask, in the order in which it is looked at.
    pub fn sights(&self, card: &Card, step: &Step, ask: &Ask, at: Place) -> Vec<Sight> {
        if let AskKind::Fact(fact) = &ask.kind {
            return self.fact_seen(fact.as_str(), at).into_iter().collect();
        }
        if ask.kind == AskKind::Stands {
            return vec![Sight::ReadyStands];
        }
        let mut seen = Vec::new();
        for item in self.items_at(step.id.as_str(), ask.id.as_str(), at) {
            if self.is_mended(card, at, item) {
                seen.push(Sight::Renewed(item));
                continue;
            }
            seen.extend(self.item_seen(item, ask.id.as_str(), at));
        }
        if let Some(rest) = self.plain_sight(card, step, ask, at)
            && !seen.iter().any(is_measured)
        {
            seen.extend(rest);
        }
        seen
    }

    fn fact_seen(&self, fact: &str, at: Place) -> Option<Sight> {
        let side = side_of(at);
        match fact {
            "chamber-type" | "stroke-class" => {
                let (of, long) = chamber_of(&self.axle, side)?;
                Some(Sight::Chamber { of, long })
            }
            "edge-normal" | "edge-hot" => Some(Sight::Edge(self.axle.end(side).edge.text())),
            // What is found on the housing is a judgement: the signs are shown, not the word.
            "spring-housing" => self.item_seen(Item::SpringBrake, "caged", at).pop(),
            _ => self.fact(fact, at).map(Sight::Fact),
        }
    }

    /// The things that are judged at this ask.
    pub(crate) fn items_at(&self, step: &str, ask: &str, at: Place) -> Vec<Item> {
        let of = |items: &[Item], side: Option<Side>| -> Vec<Item> {
            let here = items.iter().copied().filter(|item| {
                let spot = item.spot();
                spot.step == step
                    && spot.asks.contains(&ask)
                    && self.decision(side, *item).is_some()
            });
            here.collect()
        };
        match at {
            Place::End(_, side) => of(Item::OF_END, Some(side)),
            Place::Axle(_) => of(Item::OF_AXLE, None),
            Place::Vehicle => Vec::new(),
        }
    }

    /// Whether a part was found bad and its work is done.
    pub(crate) fn is_mended(&self, card: &Card, at: Place, item: Item) -> bool {
        card.extra_lines().iter().any(|line| {
            let of_it = |fault: &&crate::fault::Fault| fault.finding() == line.finding.as_str();
            line.state == LineState::Done
                && (line.at == at || Some(line.at) == at.axle().map(Place::Axle))
                && item.can_show().iter().any(|fault| of_it(&fault))
        })
    }

    fn item_seen(&self, item: Item, ask: &str, at: Place) -> Vec<Sight> {
        let side = match at {
            Place::End(_, side) => Some(side),
            Place::Axle(_) | Place::Vehicle => None,
        };
        let Some(decision) = self.decision(side, item) else {
            return Vec::new();
        };
        match &decision.shown {
            Shown::Instrument(instrument) => vec![Sight::Instrument {
                item,
                instrument: *instrument,
            }],
            // The mark at rest was read before; of the free stroke the way between both is typed.
            Shown::Pushrod { out, .. } if item == Item::Applied => vec![Sight::Out(*out)],
            Shown::Pushrod { at_rest, out } => vec![Sight::AtRest(*at_rest), Sight::Out(*out)],
            // The shape is read off the same marks.
            Shown::Diameters { .. } if item == Item::DrumShape => Vec::new(),
            Shown::Diameters { front, back } => DIAMETERS
                .iter()
                .zip(front.iter().chain(back))
                .filter(|(place, _)| **place == ask)
                .map(|(_, instrument)| Sight::Instrument {
                    item,
                    instrument: *instrument,
                })
                .collect(),
            Shown::Signs(signs) => vec![Sight::Signs {
                item,
                signs: signs.iter().map(|sign| (None, *sign)).collect(),
            }],
            Shown::Numbered(signs) => vec![Sight::Signs {
                item,
                signs: signs.iter().map(|(n, sign)| (Some(*n), *sign)).collect(),
            }],
            Shown::Edges(texts) => texts.iter().cloned().map(Sight::Edge).collect(),
            Shown::Support => vec![Sight::ReadyStands],
            Shown::BothEnds => Vec::new(),
        }
    }

    /// What is seen where nothing hidden is asked for.
    fn plain_sight(&self, card: &Card, step: &Step, ask: &Ask, at: Place) -> Option<Vec<Sight>> {
        let rule = |marks: i64| Tool::PushrodRule.at(marks);
        let at_rest = self.axle.end(side_of(at)).at_rest_16ths;
        match (step.id.as_str(), ask.id.as_str()) {
            ("as-found" | "as-left", "at-rest") => return Some(vec![Sight::AtRest(rule(at_rest))]),
            ("free-stroke" | "as-left", "free-stroke") => {
                let mechanism = self.axle.end(side_of(at)).mechanism;
                let out = at_rest + set_up_free_16ths(mechanism);
                return Some(vec![Sight::AtRest(rule(at_rest)), Sight::Out(rule(out))]);
            }
            ("as-left", "applied") => {
                let out = at_rest + SET_UP_APPLIED_16THS;
                return Some(vec![Sight::Out(rule(out))]);
            }
            _ => {}
        }
        let has_items = !self
            .items_at(step.id.as_str(), ask.id.as_str(), at)
            .is_empty();
        match self.plain(card, step, ask, at)? {
            Answer::Choice { option } if !has_items => Some(vec![Sight::Stands(option)]),
            Answer::Reading { typed } => {
                let typed = typed.typed().ok()?;
                let drawn = sound_tool(ask.id.as_str());
                let drawn = drawn.and_then(|tool| tool.showing(typed.quantity()));
                Some(vec![match (drawn, step.id.as_str(), ask.id.as_str()) {
                    (Some(instrument), ..) => Sight::Gauge(instrument),
                    (None, "jack", _) => Sight::Plate(typed),
                    (None, _, "cast-max") => Sight::Cast(typed),
                    (None, ..) => Sight::Figure(typed),
                }])
            }
            Answer::Lines { .. }
            | Answer::Choice { .. }
            | Answer::Press { .. }
            | Answer::Count { .. }
            | Answer::Wheels { .. }
            | Answer::Exceptions { .. }
            | Answer::WholePass { .. }
            | Answer::Nut { .. }
            | Answer::Stands { .. }
            | Answer::Wrench { .. }
            | Answer::Jack { .. }
            | Answer::Look { .. } => None,
        }
    }
}

/// The type that is cast on a chamber, and whether it shows a long stroke; `None` for a type that no
/// list has.
pub fn chamber_of(axle: &Axle, side: Side) -> Option<(&'static str, bool)> {
    let end = axle.end(side);
    match end.chamber {
        Chamber::Listed { of, .. } => Some((of.name, end.has_long_stroke())),
        Chamber::Unlisted { .. } => None,
    }
}

/// Whether something is measured there that is hidden.
fn is_measured(sight: &Sight) -> bool {
    matches!(
        sight,
        Sight::Instrument { .. } | Sight::AtRest(_) | Sight::Out(_)
    )
}

/// What a figure of a brake that was put right is read off.
fn sound_tool(ask: &str) -> Option<Tool> {
    Some(match ask {
        "reservoir" | "warning" => Tool::PressureGauge,
        "torque" => Tool::TorqueFeet,
        "gear-torque" => Tool::TorqueInches,
        "radial" | "end-play" | "spline" => Tool::Dial,
        "groove" | "arm-bushing" => Tool::Micrometer,
        "clevis-gap" | "gap" => Tool::Feeler,
        "span" | "recess" => Tool::ShoeCaliper,
        _ => return None,
    })
}

pub(crate) const fn side_of(at: Place) -> Side {
    match at {
        Place::End(_, side) => side,
        Place::Vehicle | Place::Axle(_) => Side::Left,
    }
}

/// What an instrument shows, as it is typed.
pub(crate) fn as_typed(instrument: Instrument) -> Option<Typed> {
    exact(instrument.shows(), instrument.tool().unit())
}

/// A quantity as it is typed in a unit: a 64th of an inch has six places, and every other mark fewer.
pub(crate) fn exact(quantity: Quantity, unit: Unit) -> Option<Typed> {
    let shown = rules::shown::decimal(quantity, unit, 6, rules::shown::Lean::Nearest)?;
    Typed::parse(&shown.text, unit).ok()
}
