//! What is written on a stand and how it looks, in small pages: unit, figure, what it is for,
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
use crate::pictures::stand_tag::{StandTagPicture, TagPart};
use crate::say::{amount, say};
use crate::session::Session;
use crate::words::{self, fill, t};

use super::page::anew;
use super::told::told_tag;
use super::wanting::Wanting;

/// The units that stands are tagged in, the usual one first.
const UNITS: [Unit; 5] = [
    Unit::ShortTon,
    Unit::TonUnmarked,
    Unit::Tonne,
    Unit::Pound,
    Unit::Kilogram,
];

/// One page of the entry.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Part {
    /// The unit beside the figure, or that there is none to be read.
    #[default]
    Unit,
    Figure,
    Basis,
    Condition,
}

/// What stands on the tag beside its figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Beside {
    Unit(Unit),
    /// No tag, or no figure that can be read.
    NoFigure,
}

/// What has been said of a stand so far. Lives in the screen, so that nothing is lost.
#[derive(Clone, Copy)]
pub(crate) struct StandSaid {
    part: RwSignal<Part>,
    figure: RwSignal<String>,
    beside: RwSignal<Option<Beside>>,
    basis: RwSignal<Option<TagBasis>>,
    condition: RwSignal<Option<StandCondition>>,
}

impl StandSaid {
    pub(crate) fn new() -> Self {
        Self {
            part: RwSignal::new(Part::default()),
            figure: RwSignal::new(String::new()),
            beside: RwSignal::new(None),
            basis: RwSignal::new(None),
            condition: RwSignal::new(None),
        }
    }

    /// Forgets everything, for the next stand.
    pub(crate) fn clear(self) {
        self.part.set(Part::default());
        self.figure.set(String::new());
        self.beside.set(None);
        self.basis.set(None);
        self.condition.set(None);
    }

    fn rating(self) -> Result<Option<TypedText>, Words> {
        match self.beside.get() {
            None => Err(Words::plain("ui.stand.unit-missing")),
            Some(Beside::NoFigure) => Ok(None),
            Some(Beside::Unit(unit)) => {
                let typed = self.figure.with(|figure| Typed::parse(figure, unit));
                typed
                    .map(|typed| Some(TypedText::from(&typed)))
                    .map_err(|fault| Words::from(&fault))
            }
        }
    }

    /// What one page still wants.
    fn wants(self, part: Part) -> Option<Words> {
        match part {
            Part::Unit => self
                .beside
                .get()
                .is_none()
                .then(|| Words::plain("ui.stand.unit-missing")),
            Part::Figure => self.rating().err(),
            Part::Basis => self
                .basis
                .get()
                .is_none()
                .then(|| Words::plain("ui.stand.basis-missing")),
            Part::Condition => self
                .condition
                .get()
                .is_none()
                .then(|| Words::plain("ui.stand.condition-missing")),
        }
    }

    /// The pages that this stand needs: without a figure there is nothing it could be for.
    fn parts(self) -> &'static [Part] {
        match self.beside.get() {
            Some(Beside::NoFigure) => &[Part::Unit, Part::Condition],
            _ => &[Part::Unit, Part::Figure, Part::Basis, Part::Condition],
        }
    }

    fn neighbours(self) -> (Option<Part>, Option<Part>) {
        let parts = self.parts();
        let at = parts
            .iter()
            .position(|part| *part == self.part.get())
            .unwrap_or(0);
        let before = at.checked_sub(1).and_then(|at| parts.get(at)).copied();
        (before, parts.get(at + 1).copied())
    }

    fn tag(self) -> Option<StandTag> {
        let rating = self.rating().ok()?;
        let basis = match rating {
            Some(_) => self.basis.get()?,
            None => TagBasis::Unmarked,
        };
        Some(StandTag {
            rating,
            basis,
            condition: self.condition.get()?,
        })
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

/// The pages one after the other, with the wide key that goes on or ends it.
#[component]
pub(crate) fn StandTagEntry(
    said: StandSaid,
    /// Words of the wide key on the last page.
    #[prop(into)]
    done: Signal<String>,
    on_tag: Callback<StandTag>,
) -> impl IntoView {
    let pressed = RwSignal::new(false);
    let wanting = Memo::new(move |_| {
        if pressed.get() {
            said.wants(said.part.get())
        } else {
            None
        }
    });
    let neighbours = Memo::new(move |_| said.neighbours());
    let show = move |part: Part| {
        pressed.set(false);
        said.part.set(part);
    };
    let go = move |()| {
        if untrack(|| said.wants(said.part.get())).is_some() {
            return pressed.set(true);
        }
        match neighbours.get_untracked().1 {
            Some(next) => show(next),
            None => match untrack(|| said.tag()) {
                Some(tag) => on_tag.run(tag),
                // A page before this one was emptied again.
                None => show(Part::Unit),
            },
        }
    };
    let page = move || {
        anew(match said.part.get() {
            Part::Unit => view! { <UnitOfTag said /> }.into_any(),
            Part::Figure => view! { <Figure said wanting /> }.into_any(),
            Part::Basis => view! { <Basis said /> }.into_any(),
            Part::Condition => view! { <Condition said /> }.into_any(),
        })
    };
    // On the pad its own line says what is wanting.
    let apart = move || {
        let on_pad = said.part.get() == Part::Figure;
        wanting
            .get()
            .filter(|_| !on_pad)
            .into_iter()
            .collect::<Vec<_>>()
    };
    let previous = move || {
        neighbours.get().0.map(|before| {
            view! {
                <button type="button" class="key" data-testid="stand-previous" on:click=move |_| show(before)>
                    {t("ui.previous")}
                </button>
            }
        })
    };
    let done_words = move || {
        if neighbours.get().1.is_none() {
            done.get()
        } else {
            t("ui.next")
        }
    };
    view! {
        <section class="stand-entry" data-testid="stand-entry">
            <div class="entry-page">{page}</div>
            <Wanting words=Signal::derive(apart) />
            <div class="entry-foot">
                {previous}
                <WideDone
                    words=Signal::derive(done_words)
                    waits=Signal::derive(move || said.wants(said.part.get()).is_some())
                    on_done=Callback::new(go)
                />
            </div>
        </section>
    }
}

/// Where on the stand it is read.
#[component]
fn TagShown(part: TagPart) -> impl IntoView {
    view! {
        <figure class="tag-shown" data-testid="picture">
            <StandTagPicture part=Signal::stored(part) name=t("ui.tag.name") />
        </figure>
    }
}

/// The unit beside the figure, or that no figure is to be read.
#[component]
fn UnitOfTag(said: StandSaid) -> impl IntoView {
    const NO_FIGURE: &str = "no-figure";
    let unit = |of: Unit| Choice {
        id: of.code().to_owned(),
        words: words::unit(of),
        detail: t(&format!("stand.unit.{}", of.code())),
    };
    let none = Choice {
        id: NO_FIGURE.to_owned(),
        words: t("ui.stand.no-figure-key"),
        detail: t("ui.stand.no-figure-detail"),
    };
    let choices: Vec<Choice> = UNITS.into_iter().map(unit).chain([none]).collect();
    let chosen = move || {
        let code = said.beside.get().map(|beside| match beside {
            Beside::Unit(of) => of.code(),
            Beside::NoFigure => NO_FIGURE,
        });
        code.map(str::to_owned).into_iter().collect::<Vec<_>>()
    };
    let choose = move |code: String| {
        said.beside.set(Some(
            Unit::from_code(&code).map_or(Beside::NoFigure, Beside::Unit),
        ));
    };
    view! {
        <p class="page-line">{t("ui.stand.unit-line")}</p>
        <TagShown part=TagPart::Unit />
        <ChoiceList choices=Signal::stored(choices) chosen=Signal::derive(chosen) on_choose=Callback::new(choose) />
    }
}

#[component]
fn Figure(said: StandSaid, wanting: Memo<Option<Words>>) -> impl IntoView {
    let session = expect_context::<Session>();
    let unit = RwSignal::new(match said.beside.get_untracked() {
        Some(Beside::Unit(unit)) => Some(unit),
        Some(Beside::NoFigure) | None => None,
    });
    let ask = move || PadAsk {
        kind: PadKind::Decimal,
        words: t("ui.stand.figure-ask"),
        units: unit.get().into_iter().collect(),
        line: wanting.get().map_or_else(
            || t("ui.stand.figure-line"),
            |words| say(&words, &session.units()),
        ),
    };
    view! { <NumberPad ask=Signal::derive(ask) typed=said.figure unit /> }
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
    let chosen = move || {
        said.basis
            .get()
            .map(|basis| basis.code().to_owned())
            .into_iter()
            .collect::<Vec<_>>()
    };
    let choose = move |code: String| {
        said.basis
            .set(TagBasis::ALL.into_iter().find(|basis| basis.code() == code))
    };
    view! {
        <p class="page-line">{t("ui.stand.basis-line")}</p>
        <TagShown part=TagPart::Basis />
        <ChoiceList choices=Signal::stored(choices) chosen=Signal::derive(chosen) on_choose=Callback::new(choose) />
    }
}

#[component]
fn Condition(said: StandSaid) -> impl IntoView {
    let choices: Vec<Choice> = StandCondition::ALL
        .into_iter()
        .map(|condition| {
            Choice::new(
                condition.code(),
                t(&format!("stand.condition.{}", condition.code())),
            )
        })
        .collect();
    let chosen = move || {
        said.condition
            .get()
            .map(|condition| condition.code().to_owned())
            .into_iter()
            .collect::<Vec<_>>()
    };
    let choose = move |code: String| {
        said.condition.set(
            StandCondition::ALL
                .into_iter()
                .find(|condition| condition.code() == code),
        );
    };
    view! {
        <p class="page-line">{t("ui.stand.condition-line")}</p>
        <TagShown part=TagPart::Condition />
        <ChoiceList choices=Signal::stored(choices) chosen=Signal::derive(chosen) on_choose=Callback::new(choose) />
    }
}
