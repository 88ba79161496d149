//! What a good apprentice answers to an ask: what is there, as it is seen.
//!
//! The tests walk whole cards by it. Where nothing hidden is asked for it says how things stand, so that
//! the screen can show it.

use rules::axle::alike::Compared;
use rules::slack::mechanism::Mechanism;

use job::card::Card;
use job::event::{Answer, Exception, FactValue, StandUsed, TypedText};
use job::id::{OptionId, Place};
use job::procedure::{Ask, AskKind, Offer, Step};

use crate::decision::{Item, Shown};

use super::Run;
use super::sight::{Sight, as_typed, side_of};

/// How far the rod of a brake that was set up comes at a full application.
///
/// A reline is set up the same way on every brake of these chambers.
pub const SET_UP_APPLIED_16THS: i64 = 18;

/// The free stroke of a brake that was set up, in the window of its mechanism.
pub const fn set_up_free_16ths(mechanism: Mechanism) -> i64 {
    match mechanism {
        Mechanism::Pawl => 11,
        Mechanism::Clutch
        | Mechanism::Linkless
        | Mechanism::Gauge
        | Mechanism::Manual
        | Mechanism::Unknown => 9,
    }
}

/// What is answered to one ask.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Good {
    /// An answer.
    Answer(Answer),
    /// A fact.
    Fact(FactValue),
}

impl Run {
    /// What is right to say at this ask; `None` where nothing is to be said.
    pub fn good(&self, card: &Card, step: &Step, ask: &Ask, at: Place) -> Option<Good> {
        match &ask.kind {
            AskKind::Fact(fact) => self.fact(fact.as_str(), at).map(Good::Fact),
            AskKind::Stands => Some(Good::Answer(Answer::Stands {
                stands: self.right_stands(),
            })),
            AskKind::Reading(_) => {
                let measured = self
                    .sights(card, step, ask, at)
                    .into_iter()
                    .find_map(|sight| match sight {
                        Sight::Instrument { instrument, .. } => Some(instrument),
                        Sight::Gauge(_)
                        | Sight::AtRest(_)
                        | Sight::Out(_)
                        | Sight::Signs { .. }
                        | Sight::Edge(_)
                        | Sight::Chamber { .. }
                        | Sight::Fact(_)
                        | Sight::Stands(_)
                        | Sight::Figure(_)
                        | Sight::Plate(_)
                        | Sight::Cast(_)
                        | Sight::Renewed(_)
                        | Sight::ReadyStands => None,
                    });
                let typed = measured
                    .or_else(|| self.pushrod(step.id.as_str(), ask.id.as_str(), at))
                    .and_then(as_typed);
                match typed {
                    Some(typed) => Some(Good::Answer(Answer::Reading {
                        typed: TypedText::from(&typed),
                    })),
                    None => self.plain(card, step, ask, at).map(Good::Answer),
                }
            }
            AskKind::Choose(offers) => Some(Good::Answer(Answer::Choice {
                option: self.chosen(card, step, ask, at, offers)?,
            })),
            AskKind::Exceptions(_) => Some(Good::Answer(Answer::Exceptions {
                but: self.named(step, ask, at),
            })),
            AskKind::Lines(_)
            | AskKind::Press(_)
            | AskKind::Count(_)
            | AskKind::Wheels
            | AskKind::Pass(_)
            | AskKind::Wrench
            | AskKind::Look
            | AskKind::Settled => self.plain(card, step, ask, at).map(Good::Answer),
        }
    }

    /// The stands that lie ready, or the pair behind them where those may not take it.
    fn right_stands(&self) -> Vec<StandUsed> {
        let all = self.stands();
        let refused = self
            .decision(None, Item::Stands)
            .is_some_and(|decision| decision.ruling.refuses());
        let skipped = if refused { 2 } else { 0 };
        all.into_iter().skip(skipped).take(2).collect()
    }

    /// The pushrod's marks of the round as found.
    fn pushrod(&self, step: &str, ask: &str, at: Place) -> Option<crate::instrument::Instrument> {
        let Place::End(_, side) = at else {
            return None;
        };
        let of = |item: Item| self.decision(Some(side), item);
        match (step, ask) {
            ("as-found" | "as-left", "at-rest") => match &of(Item::Applied)?.shown {
                Shown::Pushrod { at_rest, .. } => Some(*at_rest),
                Shown::Instrument(_)
                | Shown::Diameters { .. }
                | Shown::Signs(_)
                | Shown::Numbered(_)
                | Shown::Edges(_)
                | Shown::Support
                | Shown::BothEnds => None,
            },
            ("as-found", "applied") => match &of(Item::Applied)?.shown {
                Shown::Pushrod { out, .. } => Some(*out),
                Shown::Instrument(_)
                | Shown::Diameters { .. }
                | Shown::Signs(_)
                | Shown::Numbered(_)
                | Shown::Edges(_)
                | Shown::Support
                | Shown::BothEnds => None,
            },
            // The free stroke is typed as the way between its two marks.
            ("as-found", "free-stroke") => of(Item::Free)?.reading(),
            _ => None,
        }
    }

    fn chosen(
        &self,
        card: &Card,
        step: &Step,
        ask: &Ask,
        at: Place,
        offers: &[Offer],
    ) -> Option<OptionId> {
        let has = |id: &str| offers.iter().any(|offer| offer.id.as_str() == id);
        let items = self.items_at(step.id.as_str(), ask.id.as_str(), at);
        for item in items {
            if self.is_mended(card, at, item) {
                if has("renewed") {
                    return Some("renewed".into());
                }
                continue;
            }
            let decision = match at {
                Place::End(_, side) => self.decision(Some(side), item),
                Place::Axle(_) | Place::Vehicle => self.decision(None, item),
            };
            let signs: Vec<&str> = match decision.map(|decision| &decision.shown) {
                Some(Shown::Signs(signs)) => signs.clone(),
                Some(Shown::Numbered(signs)) => signs.iter().map(|(_, sign)| *sign).collect(),
                Some(Shown::Edges(_)) => {
                    let refused = decision.is_some_and(|decision| decision.ruling.refuses());
                    return Some(if refused { "differ" } else { "alike" }.into());
                }
                _ => Vec::new(),
            };
            let refused = decision.is_some_and(|decision| decision.ruling.refuses());
            let said = match (item, signs.first().copied()) {
                (_, None) | (_, Some("nothing")) => continue,
                (Item::Surface, Some(sign)) => sign,
                (Item::Grease, Some("grease-at-head")) => "cam-head",
                (Item::Grease, Some(_)) => "no-way",
                (Item::Clevis, Some("hole-long")) => "out-of-round",
                (Item::Clevis, Some("bolt")) => "bolt",
                (Item::Seal, Some(_)) => "leaks",
                // A finding that the ask has no word for is put on the card by itself.
                (Item::Rollers | Item::SpiderBolts | Item::HubOil | Item::Body, Some(_)) => {
                    continue;
                }
                (Item::Chamber, Some("chamber-body")) => "replace",
                (Item::Chamber, Some(_)) => continue,
                (_, Some(_)) if refused => "replace",
                (_, Some(_)) => continue,
            };
            if has(said) {
                return Some(said.into());
            }
        }
        first_that_clears(card, offers, at)
    }

    /// What is named one by one, as it is seen.
    fn named(&self, step: &Step, ask: &Ask, at: Place) -> Vec<Exception> {
        let Place::End(_, side) = at else {
            return Vec::new();
        };
        let mut named = Vec::new();
        let mut name = |item: &str, mark: &str| {
            named.push(Exception {
                item: item.to_owned(),
                mark: mark.into(),
            });
        };
        match (step.id.as_str(), ask.id.as_str()) {
            ("nuts-off", "nuts") => {
                for (nut, sign) in &self.axle.end(side).nut_signs {
                    name(&nut.to_string(), sign.code());
                }
            }
            ("studs", "which") => {
                for (stud, sign) in &self.axle.end(side).stud_signs {
                    name(&stud.to_string(), sign.code());
                }
            }
            ("wheel-look", "which") => {
                for (thing, sign) in &self.axle.end(side).wheel_signs {
                    name(thing.code(), sign.code());
                }
            }
            ("old-parts", "linings") => {
                for look in &self.axle.end(side).lining_looks {
                    name("upper", look.code());
                }
            }
            ("hoses", "found") => {
                let flaws = &self.axle.end(side).flaws;
                if flaws.contains(&crate::fault::Fault::Hose) {
                    name("hose", "chafed");
                }
                if flaws.contains(&crate::fault::Fault::DustShield) {
                    name("shield", "bent");
                }
            }
            _ => {}
        }
        named
    }

    /// How things stand where nothing hidden is asked for.
    pub(crate) fn plain(&self, card: &Card, step: &Step, ask: &Ask, at: Place) -> Option<Answer> {
        let first = |offers: &[Offer]| first_that_clears(card, offers, at);
        Some(match &ask.kind {
            AskKind::Lines(_) => Answer::Lines { out: Vec::new() },
            AskKind::Choose(offers) => Answer::Choice {
                option: first(offers)?,
            },
            AskKind::Press(press) => Answer::Press {
                option: first(&press.answers)?,
            },
            AskKind::Reading(_) => {
                let (text, unit) = self.sound_figure(step.id.as_str(), ask.id.as_str(), at)?;
                Answer::Reading {
                    typed: TypedText {
                        text,
                        unit: unit.to_owned(),
                    },
                }
            }
            AskKind::Count(count) => Answer::Count {
                count: *count.usual.first()?,
            },
            AskKind::Wheels => Answer::Wheels {
                at: card.wheels_to_chock(),
            },
            AskKind::Exceptions(_) => Answer::Exceptions { but: Vec::new() },
            AskKind::Pass(pass) if pass.one_by_one => Answer::Nut {
                mark: first(&pass.marks)?,
            },
            AskKind::Pass(_) => Answer::WholePass { but: Vec::new() },
            AskKind::Look => Answer::Look {
                accepted: true,
                why: None,
                seen: None,
                again: Vec::new(),
            },
            AskKind::Stands | AskKind::Wrench | AskKind::Fact(_) | AskKind::Settled => return None,
        })
    }

    /// Figures of a brake that was put right, in the usual unit of the ask.
    fn sound_figure(&self, step: &str, ask: &str, at: Place) -> Option<(String, &'static str)> {
        let end = self.axle.end(side_of(at));
        let sixteenths = |n: i64| {
            let mark = as_typed(crate::instrument::Tool::PushrodRule.at(n));
            mark.map(|typed| typed.text().to_owned())
        };
        let (text, unit) = match (step, ask) {
            ("as-found" | "as-left", "reservoir") => ("95".to_owned(), "psi"),
            ("jack", "rating") => ("50".to_owned(), "short-ton"),
            ("drum", "cast-max") => {
                let mark = crate::instrument::Tool::DrumMicrometer.at(end.drum().cast_max_5thou);
                (as_typed(mark)?.text().to_owned(), "in")
            }
            ("free-stroke" | "as-left", "free-stroke") => {
                (sixteenths(set_up_free_16ths(end.mechanism))?, "in")
            }
            ("as-left", "applied") => {
                let out = end.at_rest_16ths + SET_UP_APPLIED_16THS;
                (sixteenths(out)?, "in")
            }
            ("slack-back-off", "torque") => ("25".to_owned(), "lbf-ft"),
            ("slack-back-off", "gear-torque") => ("20".to_owned(), "lbf-in"),
            ("camshaft", "radial") => ("0.005".to_owned(), "in"),
            ("camshaft", "end-play") => ("0.02".to_owned(), "in"),
            ("camshaft", "spline") => ("0.02".to_owned(), "in"),
            ("anchor", "groove") => ("0.002".to_owned(), "in"),
            ("adjuster", "clevis-gap") => ("0.02".to_owned(), "in"),
            ("adjuster", "arm-bushing") => ("0.63".to_owned(), "in"),
            ("hub", "end-play") => ("0.003".to_owned(), "in"),
            ("kit", "gap") => ("0.003".to_owned(), "in"),
            ("kit", "span") => ("12.375".to_owned(), "in"),
            ("kit", "recess") => ("0.8125".to_owned(), "in"),
            ("air-up", "leak-off" | "leak-on") => ("1".to_owned(), "psi"),
            ("air-up", "warning") => ("65".to_owned(), "psi"),
            _ => return None,
        };
        Some((text, unit))
    }

    /// Whether the ends differ in what is compared across the axle.
    pub fn ends_differ(&self) -> bool {
        self.axle.compared().iter().any(Compared::differs)
    }
}

fn first_that_clears(card: &Card, offers: &[Offer], at: Place) -> Option<OptionId> {
    let fits = |offer: &&Offer| offer.clears && card.surely_fits(&offer.when, at);
    offers.iter().find(fits).map(|offer| offer.id.clone())
}

#[cfg(test)]
mod tests {
    use rules::quantity::Length;
    use rules::slack::free::{When, judge_free};
    use rules::verdict::Verdict;

    use super::*;

    #[test]
    fn a_brake_that_was_set_up_lies_within_its_window() {
        for mechanism in [Mechanism::Clutch, Mechanism::Pawl, Mechanism::Manual] {
            let free = Length::from_inch_64ths(set_up_free_16ths(mechanism) * 4);
            let judged = judge_free(free, mechanism, When::SetUp);
            assert_eq!(judged.verdict, Verdict::Within, "{mechanism:?}");
        }
    }
}
