//! One question of a drill: what is asked, what can be answered, and then what was off.
//!
//! The question follows from the address, so that a reload asks the same. Whether an answer is right
//! is asked of the practice crate, and nothing is kept.

use leptos::prelude::*;
use practice::drill::{Answer, Drill, Question, ask};
use practice::seed::Seed;
use rules::shown::Lean;
use rules::typed::Typed;
use rules::unit::Unit;
use rules::verdict::Verdict;

use job::judge::Units;
use job::words::Words;

use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::number_pad::{NumberPad, PadAsk, PadKind};
use crate::parts::nut_grid::{NutGrid, NutMark};
use crate::parts::scroller::Scroller;
use crate::parts::wide_done::WideDone;
use crate::say::amount;
use crate::screen::Screen;
use crate::screens::wanting::Wanting;
use crate::session::Session;
use crate::words::{fill, t, unit};

use super::said::Said;
use super::{IN_WORDS, InPractice, another, title};

/// What has been answered so far. Lives in the screen, so that nothing is lost.
#[derive(Clone, Copy)]
struct Given {
    chosen: RwSignal<Vec<String>>,
    order: RwSignal<Vec<u8>>,
    typed: RwSignal<String>,
    unit: RwSignal<Option<Unit>>,
}

/// The question of this drill and seed, and its answer.
#[component]
pub(crate) fn DrillScreen(drill: Drill, seed: Seed) -> impl IntoView {
    let session = expect_context::<Session>();
    // An address can name a drill that has no page.
    let has_page = IN_WORDS.contains(&drill);
    let question = StoredValue::new(has_page.then(|| ask(drill, seed)).flatten());
    let answered = RwSignal::new(None::<Answer>);
    let wanting = RwSignal::new(Vec::<Words>::new());
    let given = Given {
        chosen: RwSignal::new(Vec::new()),
        order: RwSignal::new(Vec::new()),
        typed: RwSignal::new(String::new()),
        unit: RwSignal::new(None),
    };
    let answer = Callback::new(move |()| {
        let answer = question.with_value(|question| given.answer(question.as_ref()?));
        match answer {
            Some(answer) => answered.set(Some(answer)),
            None => wanting.set(vec![Words::plain("ui.drill.answer-first")]),
        }
    });
    let next = Callback::new(move |()| {
        session.go(Screen::Drill {
            drill,
            seed: another(),
        });
    });
    let back = Callback::new(move |()| session.go(Screen::Drills));
    let body = move || {
        let units = session.units();
        question.with_value(|question| match (question, answered.get()) {
            (None, _) => view! {
                <p class="page-line" data-testid="no-question">{t("ui.drill.none")}</p>
                <WideDone words=t("ui.drills.title") waits=false on_done=back />
            }
            .into_any(),
            (Some(question), Some(answer)) => view! {
                <Said question=question.clone() answer seed />
                <WideDone words=t("ui.drill.next") waits=false on_done=next />
            }
            .into_any(),
            (Some(question), None) => view! {
                <p class="page-line" data-testid="question">{asked(question, &units)}</p>
                {given.control(question)}
                <Wanting words=wanting />
                <WideDone words=t("ui.drill.answer") waits=false on_done=answer />
            }
            .into_any(),
        })
    };
    view! {
        <InPractice title=title(drill) on_back=back>
            <div class="drill">{body}</div>
        </InPractice>
    }
}

impl Given {
    fn answer(self, question: &Question) -> Option<Answer> {
        let chosen = self.chosen.get_untracked();
        let place = || chosen.first()?.parse().ok();
        match question {
            Question::EdgeCode { .. } => {
                let verdict = Verdict::from_code(chosen.first()?)?;
                Some(Answer::Verdict(verdict))
            }
            Question::First { .. } | Question::Stands { .. } => Some(Answer::One(place()?)),
            Question::Pattern { studs } => {
                let order = self.order.get_untracked();
                (order.len() == usize::from(*studs)).then_some(Answer::Order(order))
            }
            Question::Units { unit, .. } => {
                let typed = Typed::parse(&self.typed.get_untracked(), *unit);
                Some(Answer::Reading(typed.ok()?))
            }
            Question::Read(_)
            | Question::Limit { .. }
            | Question::Fault { .. }
            | Question::Cause { .. } => None,
        }
    }

    fn control(self, question: &Question) -> AnyView {
        let choices = match question {
            Question::EdgeCode { .. } => vec![
                Choice::new(Verdict::Sound.code(), t("ui.drill.edge-code.alike")),
                Choice::new(Verdict::Replace.code(), t("ui.drill.edge-code.unlike")),
            ],
            Question::First { offered, .. } => offered
                .iter()
                .enumerate()
                .map(|(at, step)| Choice::new(at.to_string(), t(&format!("step.{step}"))))
                .collect(),
            Question::Stands { pairs, .. } => pairs
                .iter()
                .enumerate()
                .map(|(at, [left, right])| {
                    let mut choice = Choice::new(at.to_string(), tag(left));
                    choice.detail = tag(right);
                    choice
                })
                .collect(),
            Question::Pattern { studs } => return self.nuts(*studs),
            Question::Units { unit, places, .. } => return self.pad(*unit, *places),
            Question::Read(_)
            | Question::Limit { .. }
            | Question::Fault { .. }
            | Question::Cause { .. } => Vec::new(),
        };
        let choose = Callback::new(move |id: String| self.chosen.set(vec![id]));
        view! { <ChoiceList choices=Signal::stored(choices) chosen=self.chosen on_choose=choose /> }
            .into_any()
    }

    /// Nuts pressed one after the other; the last one pressed again is taken back.
    fn nuts(self, studs: u8) -> AnyView {
        let marks = Signal::derive(move || {
            let mark = |nut: u8| {
                if self.order.with(|order| order.contains(&nut)) {
                    NutMark::Done
                } else {
                    NutMark::Open
                }
            };
            (1..=studs).map(mark).collect::<Vec<_>>()
        });
        let press = Callback::new(move |nut: u8| {
            self.order.update(|order| {
                if order.last() == Some(&nut) {
                    order.pop();
                } else if !order.contains(&nut) {
                    order.push(nut);
                }
            });
        });
        let so_far = move || fill("ui.drill.order", &[("order", &list(&self.order.get()))]);
        view! {
            <Scroller>
                <NutGrid marks on_nut=press />
            </Scroller>
            <p class="page-line" data-testid="order">{so_far}</p>
        }
        .into_any()
    }

    fn pad(self, of: Unit, places: u8) -> AnyView {
        self.unit.set(Some(of));
        let ask = PadAsk {
            kind: PadKind::Decimal,
            words: fill("ui.drill.units.in", &[("unit", &unit(of))]),
            units: vec![of],
            line: fill("ui.drill.units.places", &[("places", &places.to_string())]),
        };
        view! { <NumberPad ask=Signal::stored(ask) typed=self.typed unit=self.unit /> }.into_any()
    }
}

/// Numbers with commas between them.
pub(super) fn list(numbers: &[u8]) -> String {
    let numbers: Vec<String> = numbers.iter().map(u8::to_string).collect();
    numbers.join(", ")
}

/// What is written on a stand, and how it looks, in a line.
fn tag(stand: &rules::support::tag::StandTag) -> String {
    let figure = match &stand.rating {
        Some(rating) => format!("{} {}", rating.text(), unit(rating.unit())),
        None => String::new(),
    };
    fill(
        "ui.drill.stand",
        &[
            ("figure", &figure),
            ("basis", &t(&format!("stand.basis.{}", stand.basis.code()))),
            (
                "condition",
                &t(&format!("stand.condition.{}", stand.condition.code())),
            ),
        ],
    )
}

fn asked(question: &Question, units: &Units) -> String {
    match question {
        Question::EdgeCode { left, right } => fill(
            "ui.drill.edge-code.ask",
            &[("left", left), ("right", right)],
        ),
        Question::First { then, .. } => fill(
            "ui.drill.first.ask",
            &[("step", &t(&format!("step.{then}")))],
        ),
        Question::Stands { lift, .. } => {
            let mass = |mass: rules::quantity::Mass| amount(&units.show(mass.into(), Lean::Up));
            let load = match lift.load.mass {
                Some(load) => fill("ui.drill.stands.load", &[("mass", &mass(load))]),
                None => t("ui.drill.stands.load-unknown"),
            };
            let unit = lift
                .unit
                .counting()
                .map(|(weight, _)| fill("ui.drill.stands.unit", &[("mass", &mass(weight))]));
            [load, unit.unwrap_or_default(), t("ui.drill.stands.ask")].join(" ")
        }
        Question::Pattern { studs } => {
            fill("ui.drill.pattern.ask", &[("studs", &studs.to_string())])
        }
        Question::Units {
            printed, unit: of, ..
        } => fill(
            "ui.drill.units.ask",
            &[
                (
                    "printed",
                    &format!("{} {}", printed.text(), unit(printed.unit())),
                ),
                ("unit", &unit(*of)),
            ],
        ),
        Question::Read(_)
        | Question::Limit { .. }
        | Question::Fault { .. }
        | Question::Cause { .. } => String::new(),
    }
}
