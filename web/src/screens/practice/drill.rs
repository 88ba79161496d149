//! A round of a drill: what is asked, what can be answered, and then what was off.
//!
//! The questions and what was said to them stand in the address, so that a reload goes on where it
//! was. Whether an answer is right is asked of the practice crate, and nothing is kept.

use leptos::prelude::*;
use practice::drill::round::Round;
use practice::drill::{Answer, Question};
use rules::slack::cause::Tree;
use rules::torque::moved::Moved;
use rules::typed::Typed;
use rules::unit::Unit;
use rules::verdict::Verdict;

use job::words::Words;

use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::number_pad::{NumberPad, PadAsk, PadKind};
use crate::parts::nut_grid::{NutGrid, NutMark};
use crate::parts::scroller::Scroller;
use crate::parts::wide_done::WideDone;
use crate::pictures::parts_seen::PartSeen;
use crate::screen::Screen;
use crate::screens::wanting::Wanting;
use crate::session::Session;
use crate::words::{fill, t, unit};

use super::asked::{self, Typing};
use super::over::Over;
use super::said::Said;
use super::seen::{self, SeenPages};
use super::{InPractice, title};

/// A page of one question.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    /// Instruments to look at.
    Look,
    /// The number that was read.
    Pad,
    /// One choice, or the nuts in their order.
    Choose,
    /// Which limit decides.
    Limits,
    /// Parts to point at.
    Parts,
    /// What is wrong with the part.
    Findings,
    /// Which list of causes is walked.
    Trees,
    /// What can be looked at, and the one that is looked at.
    Looks,
}

const fn parts(question: &Question) -> &'static [Part] {
    match question {
        Question::Read(_) | Question::Gauge(_) => &[Part::Look, Part::Pad],
        Question::Limit { .. } => &[Part::Look, Part::Choose, Part::Limits],
        Question::Fault { .. } => &[Part::Parts, Part::Findings],
        Question::Cause { .. } => &[Part::Look, Part::Trees, Part::Looks],
        Question::Units { .. } => &[Part::Pad],
        Question::Click(_) | Question::EdgeCode { .. } | Question::Stands { .. } => {
            &[Part::Look, Part::Choose]
        }
        Question::First { .. } | Question::Pattern { .. } => &[Part::Choose],
    }
}

/// What has been said so far to one question. Lives in the screen, so that nothing is lost.
#[derive(Clone, Copy)]
struct Given {
    /// What was chosen first, and after that.
    chosen: RwSignal<Vec<String>>,
    then: RwSignal<Vec<String>>,
    /// The look that is opened.
    opened: RwSignal<Option<usize>>,
    /// Looks that were opened before.
    before: RwSignal<Vec<usize>>,
    order: RwSignal<Vec<u8>>,
    typed: RwSignal<String>,
    unit: RwSignal<Option<Unit>>,
}

/// The question in hand of a round, or what was off about its answer, or the end.
#[component]
pub(crate) fn DrillScreen(round: Round) -> impl IntoView {
    let session = expect_context::<Session>();
    let drill = round.drill();
    let question = (!round.is_over())
        .then(|| round.question(round.number()))
        .flatten();
    let question = StoredValue::new(question);
    let wanting = RwSignal::new(Vec::<Words>::new());
    let page = RwSignal::new(0_usize);
    let given = Given {
        chosen: RwSignal::new(Vec::new()),
        then: RwSignal::new(Vec::new()),
        opened: RwSignal::new(None),
        before: RwSignal::new(Vec::new()),
        order: RwSignal::new(Vec::new()),
        typed: RwSignal::new(String::new()),
        unit: RwSignal::new(None),
    };
    let round = StoredValue::new(round);
    let go = move |round: Round| session.go(Screen::Drill { round });
    let done = Callback::new(move |()| {
        let step = question.with_value(|question| {
            let question = question.as_ref()?;
            given.step(question, page.get_untracked())
        });
        match step {
            Some(Step::On) => {
                wanting.set(Vec::new());
                page.update(|page| *page += 1);
            }
            Some(Step::Said(answer)) => go(round.with_value(|round| round.saying(answer))),
            None => wanting.set(vec![Words::plain("ui.drill.answer-first")]),
        }
    });
    let next = Callback::new(move |()| go(round.with_value(Round::on)));
    let to_drills = Callback::new(move |()| session.go(Screen::Drills));
    let back = Callback::new(move |()| {
        wanting.set(Vec::new());
        if given.opened.get_untracked().is_some() {
            given.opened.set(None);
        } else if page.get_untracked() > 0 {
            page.update(|page| *page -= 1);
        } else {
            session.go(Screen::Drills);
        }
    });
    let asking = move |question: &Question| {
        let part = parts(question).get(page.get()).copied();
        let last = page.get() + 1 == parts(question).len();
        let looks_on = part == Some(Part::Looks) && given.opened.get().is_some();
        let words = match (looks_on, last) {
            (true, _) => t("ui.drill.cause.this"),
            (false, true) => t("ui.drill.answer"),
            (false, false) => t("ui.next"),
        };
        let line = match part {
            Some(Part::Limits) => t("ui.drill.limit.which"),
            Some(Part::Findings) => t("ui.drill.fault.what"),
            Some(Part::Trees) => t("ui.drill.cause.list"),
            Some(Part::Looks) => t("ui.drill.cause.look"),
            Some(Part::Look | Part::Pad | Part::Choose | Part::Parts) | None => {
                asked::line(question, &session.units())
            }
        };
        view! {
            <p class="page-line" data-testid="question">{line}</p>
            {part.map(|part| given.control(question, part, session))}
            <Wanting words=wanting />
            <WideDone words waits=false on_done=done />
        }
    };
    let body = move || {
        if round.with_value(Round::is_over) {
            return view! { <Over round=round.get_value() /> }.into_any();
        }
        let answer = round.with_value(|round| round.answer().cloned());
        question.with_value(|question| match (question, answer) {
            (None, _) => view! {
                <p class="page-line" data-testid="no-question">{t("ui.drill.none")}</p>
                <WideDone words=t("ui.drills.title") waits=false on_done=to_drills />
            }
            .into_any(),
            (Some(question), Some(answer)) => view! {
                <Said question=question.clone() answer seed=round.with_value(Round::seed) />
                <WideDone words=t("ui.drill.next") waits=false on_done=next />
            }
            .into_any(),
            (Some(question), None) => asking(question).into_any(),
        })
    };
    let count = round.with_value(|round| {
        let (at, of) = (round.number().to_string(), drill.questions().to_string());
        fill(
            "ui.drill.title",
            &[("drill", &title(drill)), ("at", &at), ("of", &of)],
        )
    });
    let head = if round.with_value(Round::is_over) {
        title(drill)
    } else {
        count
    };
    view! {
        <InPractice title=head on_back=back>
            <div class="drill">{body}</div>
        </InPractice>
    }
}

/// What a press of Done comes to.
enum Step {
    /// The next page of the question.
    On,
    /// The answer is whole.
    Said(Answer),
}

impl Given {
    /// `None` while this page wants something.
    fn step(self, question: &Question, page: usize) -> Option<Step> {
        let part = *parts(question).get(page)?;
        let chosen = self.chosen.with_untracked(|chosen| !chosen.is_empty());
        match part {
            Part::Look => return Some(Step::On),
            Part::Choose | Part::Parts | Part::Trees if page + 1 < parts(question).len() => {
                return chosen.then_some(Step::On);
            }
            Part::Pad
            | Part::Choose
            | Part::Limits
            | Part::Parts
            | Part::Findings
            | Part::Trees
            | Part::Looks => {}
        }
        self.answer(question).map(Step::Said)
    }

    fn answer(self, question: &Question) -> Option<Answer> {
        let chosen = self.chosen.get_untracked();
        let then = self.then.get_untracked();
        let place = || chosen.first()?.parse().ok();
        let second = || then.first()?.parse().ok();
        let verdict = || Verdict::from_code(chosen.first()?);
        match question {
            Question::EdgeCode { .. } => Some(Answer::Verdict(verdict()?)),
            Question::First { .. } | Question::Stands { .. } | Question::Click(_) => {
                Some(Answer::One(place()?))
            }
            Question::Limit { .. } => Some(Answer::Limit {
                verdict: verdict()?,
                offered: second()?,
            }),
            Question::Fault { .. } => Some(Answer::Fault {
                look: place()?,
                offered: second()?,
            }),
            Question::Cause { .. } => {
                let tree: usize = place()?;
                Some(Answer::Cause {
                    tree: *Tree::ALL.get(tree)?,
                    look: self.opened.get_untracked()?,
                })
            }
            Question::Pattern { studs } => {
                let order = self.order.get_untracked();
                (order.len() == usize::from(*studs)).then_some(Answer::Order(order))
            }
            Question::Units { .. } | Question::Read(_) | Question::Gauge(_) => {
                let typing = typing_of(question)?;
                let typed = self.typed.get_untracked();
                let reading = match typing.unit {
                    Some(unit) => Typed::parse(&typed, unit),
                    // So many marks past the whole inch.
                    None if typed.is_empty() => return None,
                    None => Typed::parse(&typing.inches(&typed), Unit::Inch),
                };
                Some(Answer::Reading(reading.ok()?))
            }
        }
    }

    fn control(self, question: &Question, part: Part, session: Session) -> AnyView {
        let choices = match (part, question) {
            (Part::Look, _) => {
                return view! { <SeenPages seen=seen::of_question(question) /> }.into_any();
            }
            (Part::Pad, _) => return self.pad(question),
            (Part::Parts, Question::Fault { looks, .. }) => return self.tiles(looks),
            (Part::Looks, Question::Cause { looks, .. }) => return self.looks(looks),
            (Part::Choose, Question::Pattern { studs }) => return self.nuts(*studs),
            (Part::Choose, Question::Limit { .. }) => asked::verdicts(),
            (Part::Limits, Question::Limit { offered, .. }) => {
                asked::offered_limits(offered, &session.units())
            }
            (Part::Trees, _) => asked::trees(),
            (Part::Findings, Question::Fault { offered, .. }) => offered
                .iter()
                .enumerate()
                .map(|(at, fault)| {
                    Choice::new(at.to_string(), t(&format!("finding.{}", fault.finding())))
                })
                .collect(),
            (_, Question::EdgeCode { .. }) => vec![
                Choice::new(Verdict::Sound.code(), t("ui.drill.edge-code.alike")),
                Choice::new(Verdict::Replace.code(), t("ui.drill.edge-code.unlike")),
            ],
            (_, Question::Click(_)) => Moved::ALL
                .iter()
                .enumerate()
                .map(|(at, moved)| {
                    Choice::new(
                        at.to_string(),
                        t(&format!("ui.drill.click.{}", moved.code())),
                    )
                })
                .collect(),
            (_, Question::First { offered, .. }) => offered
                .iter()
                .enumerate()
                .map(|(at, step)| Choice::new(at.to_string(), t(&format!("step.{step}"))))
                .collect(),
            (_, Question::Stands { pairs, .. }) => (1_u8..)
                .zip(pairs.iter().enumerate())
                .map(|(number, (at, _))| Choice::new(at.to_string(), seen::pair_name(number)))
                .collect(),
            _ => Vec::new(),
        };
        let into = match part {
            Part::Limits | Part::Findings => self.then,
            _ => self.chosen,
        };
        let choose = Callback::new(move |id: String| into.set(vec![id]));
        view! { <ChoiceList choices=Signal::stored(choices) chosen=into on_choose=choose /> }
            .into_any()
    }

    /// Parts side by side; the one that is pointed at is framed and says so.
    fn tiles(self, looks: &[practice::decision::Decision]) -> AnyView {
        let tile = |(at, look): (usize, &practice::decision::Decision)| {
            let id = at.to_string();
            let own = StoredValue::new(id.clone());
            let chosen = self.chosen;
            let is_chosen =
                move || chosen.with(|chosen| own.with_value(|own| chosen.contains(own)));
            let name = seen::item(look.item);
            view! {
                <button
                    type="button"
                    class="key part-tile"
                    class:chosen=is_chosen
                    aria-pressed=move || is_chosen().to_string()
                    data-testid=format!("look-{id}")
                    on:click=move |_| chosen.set(vec![own.get_value()])
                >
                    <PartSeen decision=look.clone() name=name.clone() />
                    <span>{name.clone()}</span>
                    <small>{move || is_chosen().then(|| t("ui.chosen"))}</small>
                </button>
            }
        };
        view! { <div class="part-tiles">{looks.iter().enumerate().map(tile).collect_view()}</div> }
            .into_any()
    }

    /// The list of what can be looked at; then the one that is looked at.
    fn looks(self, looks: &[practice::decision::Decision]) -> AnyView {
        if let Some(look) = self.opened.get().and_then(|at| looks.get(at)) {
            return view! { <SeenPages seen=seen::of_decision(look) /> }.into_any();
        }
        let choice = |(at, look): (usize, &practice::decision::Decision)| {
            let mut choice = Choice::new(at.to_string(), seen::item(look.item));
            if self.before.with(|before| before.contains(&at)) {
                choice.detail = t("ui.drill.cause.looked");
            }
            choice
        };
        let choices: Vec<Choice> = looks.iter().enumerate().map(choice).collect();
        let open = Callback::new(move |id: String| {
            if let Ok(at) = id.parse::<usize>() {
                self.before.update(|before| before.push(at));
                self.opened.set(Some(at));
            }
        });
        view! { <ChoiceList choices=Signal::stored(choices) chosen=Signal::stored(Vec::new()) on_choose=open /> }
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

    fn pad(self, question: &Question) -> AnyView {
        let Some(typing) = typing_of(question) else {
            return ().into_any();
        };
        self.unit.set(typing.unit);
        let line = match question {
            Question::Units { places, .. } => {
                fill("ui.drill.units.places", &[("places", &places.to_string())])
            }
            _ => String::new(),
        };
        let words = match typing.unit {
            Some(of) => fill("ui.drill.units.in", &[("unit", &unit(of))]),
            None => typing.words(),
        };
        let kind = match (question, typing.unit) {
            (_, None) => PadKind::Whole,
            (Question::Units { .. }, Some(_)) => PadKind::Decimal,
            (_, Some(Unit::Inch)) => match tool_of(question) {
                Some(practice::instrument::Tool::PushrodRule) => PadKind::Sixteenths,
                _ => PadKind::Thousandths,
            },
            (_, Some(_)) => PadKind::Decimal,
        };
        let ask = PadAsk {
            kind,
            words,
            units: typing.unit.into_iter().collect(),
            line,
        };
        view! { <NumberPad ask=Signal::stored(ask) typed=self.typed unit=self.unit /> }.into_any()
    }
}

fn tool_of(question: &Question) -> Option<practice::instrument::Tool> {
    match question {
        Question::Read(decision) => Some(decision.reading()?.tool()),
        Question::Gauge(instrument) => Some(instrument.tool()),
        _ => None,
    }
}

fn typing_of(question: &Question) -> Option<Typing> {
    match question {
        Question::Read(decision) => {
            let reading = decision.reading()?;
            Some(asked::typing(reading.tool(), reading.marks()))
        }
        Question::Gauge(instrument) => Some(asked::typing(instrument.tool(), instrument.marks())),
        Question::Units { unit, .. } => Some(Typing {
            unit: Some(*unit),
            whole: 0,
            parts: 0,
        }),
        _ => None,
    }
}

/// Numbers with commas between them.
pub(super) fn list(numbers: &[u8]) -> String {
    let numbers: Vec<String> = numbers.iter().map(u8::to_string).collect();
    numbers.join(", ")
}
