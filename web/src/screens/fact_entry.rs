//! One fact of the set-up sheet: the control that fits its kind, and the key that gives it.
//!
//! Nothing is filled in for a number. What is outside the usual is asked about once, then taken.

use job::event::{FactValue, TypedText};
use job::id::OptionId;
use job::procedure::{FactDef, FactKind, ReadingAsk};
use job::words::Words;
use leptos::prelude::*;
use rules::band::Band;
use rules::typed::Typed;
use rules::unit::Unit;

use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::number_pad::{NumberPad, PadAsk, PadKind};
use crate::parts::question::{Question, QuestionShown};
use crate::parts::scroller::Scroller;
use crate::parts::text_entry::TextEntry;
use crate::parts::wide_done::WideDone;
use crate::say::{say, say_remark};
use crate::session::Session;
use crate::words::{fill, t, unit};

use super::axle_keys::AxleKeys;
use super::kinds::{KINDS, layout_words};
use super::wanting::Wanting;

/// What is being said. Lives as long as the fact is being changed.
#[derive(Clone, Copy)]
struct Said {
    choice: RwSignal<Option<String>>,
    number: RwSignal<String>,
    unit: RwSignal<Option<Unit>>,
    text: RwSignal<String>,
    axles: RwSignal<Vec<u8>>,
    not_known: RwSignal<bool>,
}

impl Said {
    fn new(unit: Option<Unit>) -> Self {
        Self {
            choice: RwSignal::new(None),
            number: RwSignal::new(String::new()),
            unit: RwSignal::new(unit),
            text: RwSignal::new(String::new()),
            axles: RwSignal::new(Vec::new()),
            not_known: RwSignal::new(false),
        }
    }

    fn value(self, def: &FactDef) -> Result<FactValue, Words> {
        if self.not_known.get_untracked() {
            return Ok(FactValue::NotKnown);
        }
        match &def.kind {
            FactKind::Choose(_) => {
                let chosen = self.choice.get_untracked();
                chosen
                    .map(|option| FactValue::Choice(OptionId::new(option)))
                    .ok_or_else(|| Words::plain("ui.choose-first"))
            }
            FactKind::Reading(_) => self
                .typed()
                .map(|typed| FactValue::Typed(TypedText::from(&typed))),
            FactKind::Count(_) => {
                let count = self.number.with_untracked(|number| number.parse().ok());
                count
                    .map(FactValue::Count)
                    .ok_or_else(|| Words::plain("ui.count-missing"))
            }
            FactKind::Axles => Ok(FactValue::Axles(self.axles.get_untracked())),
            FactKind::Text if def.id.as_str() == "layout" => self
                .choice
                .get_untracked()
                .map(FactValue::Text)
                .ok_or_else(|| Words::plain("ui.choose-first")),
            FactKind::Text => {
                let text = self.text.with_untracked(|text| text.trim().to_owned());
                if text.is_empty() {
                    Err(Words::plain("ui.text-missing"))
                } else {
                    Ok(FactValue::Text(text))
                }
            }
        }
    }

    fn typed(self) -> Result<Typed, Words> {
        let unit = self
            .unit
            .get_untracked()
            .ok_or_else(|| Words::plain("ui.stand.unit-missing"))?;
        self.number
            .with_untracked(|number| Typed::parse(number, unit))
            .map_err(|fault| Words::from(&fault))
    }

    /// What to ask about the number before it is taken.
    fn question(self, reading: &ReadingAsk, session: Session) -> Option<QuestionShown> {
        if self.not_known.get_untracked() {
            return None;
        }
        let typed = self.typed().ok()?;
        let usual = Band::new(
            &reading.usual[0],
            &reading.usual[1],
            reading.units.first()?.0,
        )
        .ok()?;
        let question = usual.question(&typed)?;
        Some(QuestionShown {
            typed: format!("{} {}", typed.text(), unit(typed.unit())),
            ask: untrack(|| say_remark(&usual.remark(question), &session.units())),
            keep: t("ui.question.keep"),
            again: t("ui.question.again"),
        })
    }
}

/// The control of a fact, and the wide key that gives it.
#[component]
pub(crate) fn FactEntry(
    def: FactDef,
    /// Axles of the vehicle, for a fact that picks among them.
    axles: u8,
    /// Why the value was not taken, if it was given and was not.
    #[prop(into)]
    refused: Signal<Vec<Words>>,
    on_value: Callback<FactValue>,
) -> impl IntoView {
    let session = expect_context::<Session>();
    let single = match &def.kind {
        FactKind::Reading(reading) if reading.units.len() == 1 => {
            reading.units.first().map(|unit| unit.0)
        }
        _ => None,
    };
    let said = Said::new(single);
    let wanting = RwSignal::new(Vec::<Words>::new());
    let asking = RwSignal::new(None::<QuestionShown>);
    let def = StoredValue::new(def);
    let give = move || match def.with_value(|def| said.value(def)) {
        Ok(value) => {
            wanting.set(Vec::new());
            on_value.run(value);
        }
        Err(words) => wanting.set(vec![words]),
    };
    let done = move |()| {
        let question = def.with_value(|def| match &def.kind {
            FactKind::Reading(reading) => said.question(reading, session),
            _ => None,
        });
        match question {
            Some(question) => asking.set(Some(question)),
            None => give(),
        }
    };
    let answer = move |keep: bool| {
        asking.set(None);
        if keep {
            give();
        }
    };
    let may_be_unknown = def.with_value(|def| def.may_be_unknown);
    let not_known = move || {
        may_be_unknown.then(|| {
            view! {
                <button
                    type="button"
                    class="key"
                    class:chosen=move || said.not_known.get()
                    aria-pressed=move || said.not_known.get().to_string()
                    data-testid="not-known"
                    on:click=move |_| said.not_known.update(|not_known| *not_known = !*not_known)
                >
                    {t("ui.not-known")}
                </button>
            }
        })
    };
    let all_wanting = Signal::derive(move || {
        wanting
            .get()
            .into_iter()
            .chain(refused.get())
            .collect::<Vec<_>>()
    });
    let on_pad =
        def.with_value(|def| matches!(def.kind, FactKind::Reading(_) | FactKind::Count(_)));
    // On the pad its own line says what is wanting.
    let apart = move || {
        if on_pad && !said.not_known.get() {
            Vec::new()
        } else {
            all_wanting.get()
        }
    };
    let control = move || {
        if said.not_known.get() {
            view! { <p class="page-line">{t("ui.setup.not-known-line")}</p> }.into_any()
        } else {
            def.with_value(|def| control(def, said, axles, all_wanting, session))
        }
    };
    let body = move || match asking.get() {
        Some(question) => {
            view! { <Question question on_answer=Callback::new(answer) /> }.into_any()
        }
        None => view! {
            <div class="entry-page">{control}</div>
            <Wanting words=Signal::derive(apart) />
            <div class="entry-foot">
                {not_known}
                <WideDone words=t("ui.setup.give") waits=false on_done=Callback::new(done) />
            </div>
        }
        .into_any(),
    };
    view! {
        <section class="fact-entry" data-testid="fact-entry">
            {body}
        </section>
    }
}

fn control(
    def: &FactDef,
    said: Said,
    axles: u8,
    wanting: Signal<Vec<Words>>,
    session: Session,
) -> AnyView {
    let pad_line = move |usual: &str| {
        let first =
            wanting.with(|wanting| wanting.first().map(|words| say(words, &session.units())));
        first.unwrap_or_else(|| usual.to_owned())
    };
    let name = t(&format!("fact.{}", def.id));
    match &def.kind {
        FactKind::Choose(options) => {
            let choice = |option: &OptionId| {
                Choice::new(option.as_str(), t(&format!("fact.{}.{option}", def.id)))
            };
            choose(options.iter().map(choice).collect(), said.choice)
        }
        FactKind::Text if def.id.as_str() == "layout" => {
            let all = KINDS
                .iter()
                .flat_map(|(kind, layouts)| layouts.iter().map(move |layout| (*kind, *layout)));
            let mut choices: Vec<Choice> = Vec::new();
            for (kind, layout) in all {
                if choices.iter().all(|choice| choice.id != layout) {
                    choices.push(Choice::new(layout, layout_words(kind, layout)));
                }
            }
            choose(choices, said.choice)
        }
        FactKind::Reading(reading) => {
            let units: Vec<Unit> = reading.units.iter().map(|unit| unit.0).collect();
            let usual_unit = units.first().copied().map(unit).unwrap_or_default();
            let line = fill(
                "ui.usual",
                &[
                    ("low", &reading.usual[0]),
                    ("high", &reading.usual[1]),
                    ("unit", &usual_unit),
                ],
            );
            let kind = if units.first() == Some(&Unit::Inch) {
                PadKind::Sixteenths
            } else {
                PadKind::Decimal
            };
            let ask = move || PadAsk {
                kind,
                // The screen's own heading says what it is.
                words: String::new(),
                units: units.clone(),
                line: pad_line(&line),
            };
            view! { <NumberPad ask=Signal::derive(ask) typed=said.number unit=said.unit /> }
                .into_any()
        }
        FactKind::Count(count) => {
            let [low, high] = count.usual.map(|usual| usual.to_string());
            let line = fill("ui.usual-count", &[("low", &low), ("high", &high)]);
            let ask = move || PadAsk {
                kind: PadKind::Whole,
                // The screen's own heading says what it is.
                words: String::new(),
                units: Vec::new(),
                line: pad_line(&line),
            };
            view! { <NumberPad ask=Signal::derive(ask) typed=said.number unit=said.unit /> }
                .into_any()
        }
        FactKind::Axles => view! { <AxleKeys axles chosen=said.axles /> }.into_any(),
        FactKind::Text => view! {
            <Scroller>
                <TextEntry words=name text=said.text testid="fact-text" />
            </Scroller>
        }
        .into_any(),
    }
}

fn choose(choices: Vec<Choice>, choice: RwSignal<Option<String>>) -> AnyView {
    let chosen = Signal::derive(move || choice.get().into_iter().collect::<Vec<_>>());
    let choose = Callback::new(move |id: String| choice.set(Some(id)));
    view! { <ChoiceList choices=Signal::stored(choices) chosen on_choose=choose /> }.into_any()
}
