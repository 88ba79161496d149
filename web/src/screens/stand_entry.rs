//! What is written on a stand and how it looks, in small pages: figure, unit, what it is for,
//! condition. It keeps what was typed, and judges nothing.

use job::event::{StandCondition, StandTag, TagBasis, TypedText};
use job::judge::Units;
use job::words::Words;
use leptos::prelude::*;
use rules::shown::Lean;
use rules::typed::Typed;
use rules::unit::Unit;

use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::number_pad::{NumberPad, PadAsk, PadKind};
use crate::parts::wide_done::WideDone;
use crate::say::amount;
use crate::words::{self, fill, t};

use super::told::told_tag;
use super::wanting::Wanting;

/// The units that stands are tagged in, the usual one first.
const UNITS: [Unit; 5] = [Unit::ShortTon, Unit::TonUnmarked, Unit::Tonne, Unit::Pound, Unit::Kilogram];

/// One page of the entry.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Part {
    #[default]
    Figure,
    Unit,
    Basis,
    Condition,
}

impl Part {
    const ALL: [Self; 4] = [Self::Figure, Self::Unit, Self::Basis, Self::Condition];

    fn code(self) -> &'static str {
        match self {
            Self::Figure => "figure",
            Self::Unit => "unit",
            Self::Basis => "basis",
            Self::Condition => "condition",
        }
    }
}

/// What has been said of a stand so far. Lives in the screen, so that nothing is lost.
#[derive(Clone, Copy)]
pub(crate) struct StandSaid {
    part: RwSignal<Part>,
    figure: RwSignal<String>,
    unit: RwSignal<Option<Unit>>,
    unread: RwSignal<bool>,
    basis: RwSignal<Option<TagBasis>>,
    condition: RwSignal<Option<StandCondition>>,
}

impl StandSaid {
    pub(crate) fn new() -> Self {
        Self {
            part: RwSignal::new(Part::default()),
            figure: RwSignal::new(String::new()),
            unit: RwSignal::new(None),
            unread: RwSignal::new(false),
            basis: RwSignal::new(None),
            condition: RwSignal::new(None),
        }
    }

    /// Forgets everything, for the next stand.
    pub(crate) fn clear(self) {
        self.part.set(Part::default());
        self.figure.set(String::new());
        self.unit.set(None);
        self.unread.set(false);
        self.basis.set(None);
        self.condition.set(None);
    }

    fn rating(self) -> Result<Option<TypedText>, Words> {
        if self.unread.get() {
            return Ok(None);
        }
        let unit = self.unit.get().ok_or_else(|| Words::plain("ui.stand.unit-missing"))?;
        let typed = self.figure.with(|figure| Typed::parse(figure, unit));
        typed.map(|typed| Some(TypedText::from(&typed))).map_err(|fault| Words::from(&fault))
    }

    fn figure_wants(self) -> Option<Words> {
        if self.unread.get() {
            return None;
        }
        let unit = self.unit.get().unwrap_or(UNITS[0]);
        self.figure.with(|figure| Typed::parse(figure, unit)).err().map(|fault| Words::from(&fault))
    }

    /// What one part still wants.
    fn wants(self, part: Part) -> Option<Words> {
        match part {
            // Without its unit a figure is only looked at for what any unit would refuse.
            Part::Figure => self.figure_wants(),
            Part::Unit if self.unread.get() => None,
            Part::Unit => self.unit.get().is_none().then(|| Words::plain("ui.stand.unit-missing")),
            Part::Basis => self.basis.get().is_none().then(|| Words::plain("ui.stand.basis-missing")),
            Part::Condition => self.condition.get().is_none().then(|| Words::plain("ui.stand.condition-missing")),
        }
    }

    fn tag(self) -> Option<StandTag> {
        Some(StandTag {
            rating: self.rating().ok()?,
            basis: self.basis.get()?,
            condition: self.condition.get()?,
        })
    }

    /// What one part says so far, short.
    fn told(self, part: Part) -> String {
        match part {
            Part::Figure if self.unread.get() => t("ui.stand.no-figure"),
            Part::Figure => self.figure.with(|figure| if figure.is_empty() { "–".to_owned() } else { figure.clone() }),
            Part::Unit if self.unread.get() => "–".to_owned(),
            Part::Unit => self.unit.get().map_or_else(|| "–".to_owned(), words::unit),
            Part::Basis => match self.basis.get() {
                Some(basis) => t(&format!("stand.basis.{}", basis.code())),
                None => "–".to_owned(),
            },
            Part::Condition => match self.condition.get() {
                Some(condition) => t(&format!("stand.condition.{}", condition.code())),
                None => "–".to_owned(),
            },
        }
    }
}

/// What is on a stand's tag, short, and what it gives by it.
pub(crate) fn tag_words(tag: &StandTag, units: &Units) -> String {
    let told = told_tag(tag);
    match tag.rule().ok().and_then(|tag| tag.gives().ok()) {
        // What can carry is never shown as more than it is.
        Some(gives) => {
            let each = amount(&units.show(gives.share.rounded_down().into(), Lean::Down));
            fill("ui.stand.gives", &[("tag", &told), ("each", &each)])
        }
        None => told,
    }
}

/// The pages with a key for each, and the wide key that goes on to what is wanting or ends it.
#[component]
pub(crate) fn StandTagEntry(
    said: StandSaid,
    /// Words of the wide key once nothing is wanting.
    #[prop(into)]
    done: Signal<String>,
    on_tag: Callback<StandTag>,
) -> impl IntoView {
    let pressed = RwSignal::new(false);
    let wanting = Memo::new(move |_| {
        let words = said.wants(said.part.get());
        if pressed.get() { words.into_iter().collect() } else { Vec::new() }
    });
    let next = Memo::new(move |_| Part::ALL.into_iter().find(|part| said.wants(*part).is_some()));
    let go = move |()| {
        let here = said.part.get_untracked();
        if let Some(tag) = untrack(|| said.tag()) {
            pressed.set(false);
            on_tag.run(tag);
        } else if untrack(|| said.wants(here)).is_some() {
            pressed.set(true);
        } else if let Some(next) = next.get_untracked() {
            pressed.set(false);
            said.part.set(next);
        }
    };
    let tab = move |part: Part| {
        let chosen = move || said.part.get() == part;
        view! {
            <button
                type="button"
                class="key tab-key"
                class:chosen=chosen
                aria-pressed=move || chosen().to_string()
                data-testid=format!("stand-{}", part.code())
                on:click=move |_| {
                    pressed.set(false);
                    said.part.set(part);
                }
            >
                <small>{t(&format!("ui.stand.{}", part.code()))}</small>
                <span>{move || said.told(part)}</span>
            </button>
        }
    };
    let page = move || match said.part.get() {
        Part::Figure => view! { <Figure said /> }.into_any(),
        Part::Unit => view! { <UnitOfTag said /> }.into_any(),
        Part::Basis => view! { <Basis said /> }.into_any(),
        Part::Condition => view! { <Condition said /> }.into_any(),
    };
    let done_words = move || if next.get().is_none() { done.get() } else { t("ui.next") };
    view! {
        <section class="stand-entry" data-testid="stand-entry">
            <div class="tabs">{Part::ALL.map(tab).into_iter().collect_view()}</div>
            <Wanting words=wanting />
            <div class="stand-entry-page">{page}</div>
            <WideDone
                words=Signal::derive(done_words)
                waits=Signal::derive(move || said.wants(said.part.get()).is_some())
                on_done=Callback::new(go)
            />
        </section>
    }
}

#[component]
fn Figure(said: StandSaid) -> impl IntoView {
    let ask = PadAsk {
        kind: PadKind::Decimal,
        words: t("ui.stand.figure-ask"),
        units: Vec::new(),
        line: t("ui.stand.figure-line"),
    };
    view! {
        <div class="stand-figure">
            <button
                type="button"
                class="key wide-key"
                class:chosen=move || said.unread.get()
                aria-pressed=move || said.unread.get().to_string()
                data-testid="stand-no-figure"
                on:click=move |_| said.unread.update(|unread| *unread = !*unread)
            >
                {t("ui.stand.no-figure-key")}
            </button>
            {move || {
                let ask = ask.clone();
                (!said.unread.get()).then(|| view! { <NumberPad ask=Signal::stored(ask) typed=said.figure unit=said.unit /> })
            }}
        </div>
    }
}

#[component]
fn UnitOfTag(said: StandSaid) -> impl IntoView {
    let choice = |of: Unit| Choice {
        id: of.code().to_owned(),
        words: words::unit(of),
        detail: t(&format!("stand.unit.{}", of.code())),
    };
    let choices: Vec<Choice> = UNITS.into_iter().map(choice).collect();
    let chosen = move || said.unit.get().map(|of| of.code().to_owned()).into_iter().collect::<Vec<_>>();
    let choose = move |code: String| said.unit.set(Unit::from_code(&code));
    view! {
        <ChoiceList choices=Signal::stored(choices) chosen=Signal::derive(chosen) on_choose=Callback::new(choose) />
    }
}

#[component]
fn Basis(said: StandSaid) -> impl IntoView {
    let choices: Vec<Choice> = TagBasis::ALL
        .into_iter()
        .map(|basis| Choice {
            id: basis.code().to_owned(),
            words: t(&format!("stand.basis.{}", basis.code())),
            detail: t(&format!("stand.basis.{}.detail", basis.code())),
        })
        .collect();
    let chosen = move || said.basis.get().map(|basis| basis.code().to_owned()).into_iter().collect::<Vec<_>>();
    let choose = move |code: String| said.basis.set(TagBasis::ALL.into_iter().find(|basis| basis.code() == code));
    view! {
        <ChoiceList choices=Signal::stored(choices) chosen=Signal::derive(chosen) on_choose=Callback::new(choose) />
    }
}

#[component]
fn Condition(said: StandSaid) -> impl IntoView {
    let choices: Vec<Choice> = StandCondition::ALL
        .into_iter()
        .map(|condition| Choice::new(condition.code(), t(&format!("stand.condition.{}", condition.code()))))
        .collect();
    let chosen =
        move || said.condition.get().map(|condition| condition.code().to_owned()).into_iter().collect::<Vec<_>>();
    let choose = move |code: String| {
        said.condition.set(StandCondition::ALL.into_iter().find(|condition| condition.code() == code));
    };
    view! {
        <ChoiceList choices=Signal::stored(choices) chosen=Signal::derive(chosen) on_choose=Callback::new(choose) />
    }
}
