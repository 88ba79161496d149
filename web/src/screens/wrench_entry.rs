//! What is marked on a torque wrench and on its calibration tag, in small pages: unit, lowest and
//! highest mark, the day of its calibration, how long that holds. It keeps what was typed, and judges
//! nothing.

use chrono::{Datelike, NaiveDate};
use job::event::{TypedText, WrenchTag};
use job::words::Words;
use leptos::prelude::*;
use rules::typed::Typed;
use rules::unit::Unit;

use crate::device;
use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::number_pad::{NumberPad, PadAsk, PadKind};
use crate::parts::wide_done::WideDone;
use crate::say::say;
use crate::session::Session;
use crate::words::{self, fill, t};

use super::moment::month;
use super::page::anew;
use super::wanting::Wanting;

/// The units that wrenches are marked in.
const UNITS: [Unit; 2] = [Unit::PoundForceFoot, Unit::NewtonMetre];

/// How many years back a calibration tag may show.
const YEARS: i32 = 3;

/// How long a calibration holds, in days, as a shop may say it.
const INTERVALS: [u16; 4] = [90, 180, 365, 730];

const NOT_KNOWN: &str = "not-known";

/// One page of the entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    Unit,
    Low,
    High,
    Year,
    Month,
    Day,
    Interval,
}

/// What is asked of a wrench.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Asks {
    /// Everything: a new one.
    All,
    /// The day of its last calibration.
    Day,
}

/// What has been said of a wrench so far. Lives in the screen, so that nothing is lost.
#[derive(Clone, Copy)]
pub(crate) struct WrenchSaid {
    asks: Asks,
    part: RwSignal<Part>,
    unit: RwSignal<Option<Unit>>,
    low: RwSignal<String>,
    high: RwSignal<String>,
    /// The outer is none as long as nothing was chosen, the inner where nobody knows.
    year: RwSignal<Option<Option<i32>>>,
    month: RwSignal<Option<u32>>,
    day: RwSignal<String>,
    /// The outer is none as long as nothing was chosen, the inner where the shop doesn't say.
    interval: RwSignal<Option<Option<u16>>>,
}

impl WrenchSaid {
    pub(crate) fn new(asks: Asks) -> Self {
        Self {
            asks,
            part: RwSignal::new(Self::first(asks)),
            unit: RwSignal::new(None),
            low: RwSignal::new(String::new()),
            high: RwSignal::new(String::new()),
            year: RwSignal::new(None),
            month: RwSignal::new(None),
            day: RwSignal::new(String::new()),
            interval: RwSignal::new(None),
        }
    }

    fn first(asks: Asks) -> Part {
        match asks {
            Asks::All => Part::Unit,
            Asks::Day => Part::Year,
        }
    }

    /// Forgets everything, for the next wrench.
    pub(crate) fn clear(self) {
        self.part.set(Self::first(self.asks));
        self.unit.set(None);
        self.low.set(String::new());
        self.high.set(String::new());
        self.year.set(None);
        self.month.set(None);
        self.day.set(String::new());
        self.interval.set(None);
    }

    fn mark(self, text: RwSignal<String>) -> Result<TypedText, Words> {
        let unit = self
            .unit
            .get()
            .ok_or_else(|| Words::plain("ui.wrench.unit-missing"))?;
        text.with(|text| Typed::parse(text, unit))
            .map(|typed| TypedText::from(&typed))
            .map_err(|fault| Words::from(&fault))
    }

    /// The day on the calibration tag; none where nobody knows it.
    pub(crate) fn calibrated(self) -> Result<Option<NaiveDate>, Words> {
        let missing = || Words::plain("ui.wrench.day-missing");
        let Some(year) = self.year.get().ok_or_else(missing)? else {
            return Ok(None);
        };
        let month = self.month.get().ok_or_else(missing)?;
        let day = self.day.with(|day| day.parse().ok()).ok_or_else(missing)?;
        NaiveDate::from_ymd_opt(year, month, day)
            .map(Some)
            .ok_or_else(|| Words::plain("ui.wrench.no-such-day"))
    }

    /// What one page still wants.
    fn wants(self, part: Part) -> Option<Words> {
        let missing = |is_missing: bool, key: &str| is_missing.then(|| Words::plain(key));
        match part {
            Part::Unit => missing(self.unit.get().is_none(), "ui.wrench.unit-missing"),
            Part::Low => self.mark(self.low).err(),
            Part::High => self.mark(self.high).err(),
            Part::Year => missing(self.year.get().is_none(), "ui.wrench.year-missing"),
            Part::Month => missing(self.month.get().is_none(), "ui.wrench.month-missing"),
            Part::Day => self.calibrated().err(),
            Part::Interval => missing(self.interval.get().is_none(), "ui.wrench.interval-missing"),
        }
    }

    /// The pages that this wrench needs: without a year there is no day.
    fn parts(self) -> Vec<Part> {
        let marks = [Part::Unit, Part::Low, Part::High];
        let all = self.asks == Asks::All;
        let known = self.year.get() != Some(None);
        let mut parts = Vec::new();
        parts.extend(marks.into_iter().filter(|_| all));
        parts.push(Part::Year);
        parts.extend([Part::Month, Part::Day].into_iter().filter(|_| known));
        parts.extend(all.then_some(Part::Interval));
        parts
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

    /// The wrench, once every page has what it wants.
    pub(crate) fn tag(self) -> Result<WrenchTag, Words> {
        Ok(WrenchTag {
            low: self.mark(self.low)?,
            high: self.mark(self.high)?,
            calibrated: self.calibrated()?,
            interval_days: self
                .interval
                .get()
                .ok_or_else(|| Words::plain("ui.wrench.interval-missing"))?,
        })
    }
}

/// The pages one after the other, with the wide key that goes on or ends it.
#[component]
pub(crate) fn WrenchEntry(
    said: WrenchSaid,
    /// Words of the wide key on the last page.
    #[prop(into)]
    done: Signal<String>,
    /// What stands against the last press of it.
    wanting: RwSignal<Vec<Words>>,
    on_done: Callback<()>,
) -> impl IntoView {
    let neighbours = Memo::new(move |_| said.neighbours());
    let show = move |part: Part| {
        wanting.set(Vec::new());
        said.part.set(part);
    };
    let go = move |()| {
        if let Some(words) = untrack(|| said.wants(said.part.get())) {
            return wanting.set(vec![words]);
        }
        match neighbours.get_untracked().1 {
            Some(next) => show(next),
            None => on_done.run(()),
        }
    };
    let page = move || {
        anew(match said.part.get() {
            Part::Unit => view! { <UnitOfMarks said /> }.into_any(),
            Part::Low => view! { <Mark said text=said.low key="ui.wrench.low" /> }.into_any(),
            Part::High => view! { <Mark said text=said.high key="ui.wrench.high" /> }.into_any(),
            Part::Year => view! { <Year said /> }.into_any(),
            Part::Month => view! { <Month said /> }.into_any(),
            Part::Day => view! { <DayOfMonth said /> }.into_any(),
            Part::Interval => view! { <Interval said /> }.into_any(),
        })
    };
    let previous = move || {
        neighbours.get().0.map(|before| {
            view! {
                <button type="button" class="key" data-testid="wrench-previous" on:click=move |_| show(before)>
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
        <section class="stand-entry" data-testid="wrench-entry">
            <div class="entry-page">{page}</div>
            <Wanting words=wanting />
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

#[component]
fn UnitOfMarks(said: WrenchSaid) -> impl IntoView {
    let choices: Vec<Choice> = UNITS
        .into_iter()
        .map(|of| Choice::new(of.code(), words::unit(of)))
        .collect();
    let chosen = move || {
        let code = said.unit.get().map(|of| of.code().to_owned());
        code.into_iter().collect::<Vec<_>>()
    };
    let choose = move |code: String| said.unit.set(Unit::from_code(&code));
    view! {
        <p class="page-line">{t("ui.wrench.unit-line")}</p>
        <ChoiceList choices=Signal::stored(choices) chosen=Signal::derive(chosen) on_choose=Callback::new(choose) />
    }
}

/// One of the two marks.
#[component]
fn Mark(said: WrenchSaid, text: RwSignal<String>, key: &'static str) -> impl IntoView {
    let session = expect_context::<Session>();
    let unit = RwSignal::new(said.unit.get_untracked());
    let ask = move || PadAsk {
        kind: PadKind::Decimal,
        words: t(key),
        units: unit.get().into_iter().collect(),
        line: match said.mark(text) {
            Err(words) if !text.with(String::is_empty) => say(&words, &session.units()),
            Ok(_) | Err(_) => t("ui.wrench.mark-line"),
        },
    };
    view! { <NumberPad ask=Signal::derive(ask) typed=text unit /> }
}

#[component]
fn Year(said: WrenchSaid) -> impl IntoView {
    let this = job::wrench::day_of(device::now()).year();
    let years = (0..YEARS).map(|back| {
        let year = this - back;
        Choice::new(back.to_string(), year.to_string())
    });
    let unknown =
        (said.asks == Asks::All).then(|| Choice::new(NOT_KNOWN, t("ui.wrench.not-known")));
    let choices: Vec<Choice> = years.chain(unknown).collect();
    let chosen = move || {
        let year = said.year.get().map(|year| {
            year.map_or_else(|| NOT_KNOWN.to_owned(), |year| (this - year).to_string())
        });
        year.into_iter().collect::<Vec<_>>()
    };
    let choose = move |id: String| {
        let back = id.parse::<i32>().ok();
        said.year.set(Some(back.map(|back| this - back)));
    };
    view! {
        <p class="page-line">{t("ui.wrench.year-line")}</p>
        <ChoiceList choices=Signal::stored(choices) chosen=Signal::derive(chosen) on_choose=Callback::new(choose) />
    }
}

#[component]
fn Month(said: WrenchSaid) -> impl IntoView {
    let session = expect_context::<Session>();
    let language = session
        .settings
        .with_untracked(|settings| settings.language.clone());
    let choices: Vec<Choice> = (1..=12)
        .map(|number| Choice::new(number.to_string(), month(number, &language)))
        .collect();
    let chosen = move || {
        let month = said.month.get().map(|month| month.to_string());
        month.into_iter().collect::<Vec<_>>()
    };
    let choose = move |id: String| said.month.set(id.parse().ok());
    view! {
        <p class="page-line">{t("ui.wrench.month-line")}</p>
        <ChoiceList choices=Signal::stored(choices) chosen=Signal::derive(chosen) on_choose=Callback::new(choose) />
    }
}

#[component]
fn DayOfMonth(said: WrenchSaid) -> impl IntoView {
    let unit = RwSignal::new(None);
    let ask = PadAsk {
        kind: PadKind::Whole,
        words: t("ui.wrench.day"),
        units: Vec::new(),
        line: t("ui.wrench.day-line"),
    };
    view! { <NumberPad ask=Signal::stored(ask) typed=said.day unit /> }
}

#[component]
fn Interval(said: WrenchSaid) -> impl IntoView {
    let days = |days: u16| {
        let days = days.to_string();
        Choice::new(days.clone(), fill("ui.wrench.days", &[("days", &days)]))
    };
    let none = Choice {
        id: NOT_KNOWN.to_owned(),
        words: t("ui.wrench.interval-none"),
        detail: t("ui.wrench.interval-none-detail"),
    };
    let choices: Vec<Choice> = [none].into_iter().chain(INTERVALS.map(days)).collect();
    let chosen = move || {
        let interval = said
            .interval
            .get()
            .map(|days| days.map_or_else(|| NOT_KNOWN.to_owned(), |days| days.to_string()));
        interval.into_iter().collect::<Vec<_>>()
    };
    let choose = move |id: String| said.interval.set(Some(id.parse().ok()));
    view! {
        <p class="page-line">{t("ui.wrench.interval-line")}</p>
        <ChoiceList choices=Signal::stored(choices) chosen=Signal::derive(chosen) on_choose=Callback::new(choose) />
    }
}
