//! How the shop tightens each kind of wheel: its own range, for one state of threads and washer, with
//! the place it has that from; how the wheel is seated, and in which order. It judges nothing.

use job::event::{TypedText, WheelSpec};
use job::id::OptionId;
use job::shop::{self, WHEELS};
use job::words::Words;
use leptos::prelude::*;
use rules::typed::Typed;
use rules::unit::Unit;

use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::go_list::{GoList, GoRow};
use crate::parts::number_pad::{NumberPad, PadAsk, PadKind};
use crate::parts::nut_grid::{NutGrid, NutMark};
use crate::parts::scroller::Scroller;
use crate::parts::text_entry::TextEntry;
use crate::parts::wide_done::WideDone;
use crate::say::say;
use crate::session::Session;
use crate::words::{self, fill, t};

use super::page::{Page, anew, back_to_shop};
use super::told::wheel_told;
use super::wanting::Wanting;

/// The states that a range may be for, as the fact of a card has them.
const OILS: [&str; 4] = ["dry", "washer-only", "threads-only", "threads-and-washer"];

const UNITS: [Unit; 2] = [Unit::PoundForceFoot, Unit::NewtonMetre];

/// Numbers of nuts for which an order can be given.
const STUDS: [u8; 4] = [5, 6, 8, 10];

const PRINTED: &str = "printed";
const OWN: &str = "own";

/// One page of the entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    /// As printed, or values of the shop's own.
    Own,
    Oil,
    Unit,
    Low,
    High,
    Seat,
    SeatLow,
    SeatHigh,
    Order,
    Nuts,
    Source,
}

/// What has been said so far. Lives in the screen, so that nothing is lost.
#[derive(Clone, Copy)]
struct Said {
    part: RwSignal<Part>,
    own: RwSignal<Option<String>>,
    oil: RwSignal<Option<String>>,
    unit: RwSignal<Option<Unit>>,
    low: RwSignal<String>,
    high: RwSignal<String>,
    seat: RwSignal<Option<String>>,
    seat_low: RwSignal<String>,
    seat_high: RwSignal<String>,
    /// As printed, or for how many nuts the shop has an order.
    studs: RwSignal<Option<String>>,
    order: RwSignal<Vec<u8>>,
    source: RwSignal<String>,
}

impl Said {
    fn new() -> Self {
        Self {
            part: RwSignal::new(Part::Own),
            own: RwSignal::new(None),
            oil: RwSignal::new(None),
            unit: RwSignal::new(None),
            low: RwSignal::new(String::new()),
            high: RwSignal::new(String::new()),
            seat: RwSignal::new(None),
            seat_low: RwSignal::new(String::new()),
            seat_high: RwSignal::new(String::new()),
            studs: RwSignal::new(None),
            order: RwSignal::new(Vec::new()),
            source: RwSignal::new(String::new()),
        }
    }

    /// Forgets everything, for the next wheel.
    fn clear(self) {
        self.part.set(Part::Own);
        for choice in [self.own, self.oil, self.seat, self.studs] {
            choice.set(None);
        }
        for text in [
            self.low,
            self.high,
            self.seat_low,
            self.seat_high,
            self.source,
        ] {
            text.set(String::new());
        }
        self.unit.set(None);
        self.order.set(Vec::new());
    }

    fn torque(self, text: RwSignal<String>) -> Result<TypedText, Words> {
        let unit = self
            .unit
            .get()
            .ok_or_else(|| Words::plain("ui.wrench.unit-missing"))?;
        text.with(|text| Typed::parse(text, unit))
            .map(|typed| TypedText::from(&typed))
            .map_err(|fault| Words::from(&fault))
    }

    fn nuts(self) -> Option<u8> {
        self.studs.get()?.parse().ok()
    }

    /// What one page still wants.
    fn wants(self, part: Part) -> Option<Words> {
        let chosen = |choice: RwSignal<Option<String>>| {
            choice
                .get()
                .is_none()
                .then(|| Words::plain("ui.choose-first"))
        };
        match part {
            Part::Own => chosen(self.own),
            Part::Oil => chosen(self.oil),
            Part::Unit => self
                .unit
                .get()
                .is_none()
                .then(|| Words::plain("ui.choose-first")),
            Part::Low => self.torque(self.low).err(),
            Part::High => self.torque(self.high).err(),
            Part::Seat => chosen(self.seat),
            Part::SeatLow => self.torque(self.seat_low).err(),
            Part::SeatHigh => self.torque(self.seat_high).err(),
            Part::Order => chosen(self.studs),
            Part::Nuts => {
                let named = self.order.with(Vec::len);
                (Some(named) != self.nuts().map(usize::from))
                    .then(|| Words::plain("shop.wheel-order"))
            }
            Part::Source => self
                .source
                .with(|source| source.trim().is_empty())
                .then(|| Words::plain("shop.wheel-source-missing")),
        }
    }

    fn parts(self) -> Vec<Part> {
        let is_own = |choice: RwSignal<Option<String>>| choice.get().as_deref() == Some(OWN);
        if self.own.get().as_deref() == Some(PRINTED) {
            return vec![Part::Own];
        }
        let mut parts = vec![
            Part::Own,
            Part::Oil,
            Part::Unit,
            Part::Low,
            Part::High,
            Part::Seat,
        ];
        if is_own(self.seat) {
            parts.extend([Part::SeatLow, Part::SeatHigh]);
        }
        parts.push(Part::Order);
        parts.extend(self.nuts().map(|_| Part::Nuts));
        parts.push(Part::Source);
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

    /// The values, or none where the shop does as printed.
    fn spec(self) -> Result<Option<WheelSpec>, Words> {
        if self.own.get().as_deref() == Some(PRINTED) {
            return Ok(None);
        }
        let seat = if self.seat.get().as_deref() == Some(OWN) {
            Some([self.torque(self.seat_low)?, self.torque(self.seat_high)?])
        } else {
            None
        };
        let oil = self
            .oil
            .get()
            .ok_or_else(|| Words::plain("ui.choose-first"))?;
        Ok(Some(WheelSpec {
            low: self.torque(self.low)?,
            high: self.torque(self.high)?,
            oil: OptionId::new(oil),
            source: self.source.get(),
            seat,
            order: self.nuts().map(|_| self.order.get()).unwrap_or_default(),
        }))
    }
}

/// The kinds of wheel, or one of them being said.
#[component]
pub(crate) fn WheelsScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let back = back_to_shop(session);
    let wheel = RwSignal::new(None::<&'static str>);
    let said = Said::new();
    let wanting = RwSignal::new(Vec::<Words>::new());
    let go_back = move |()| {
        wanting.set(Vec::new());
        if wheel.get_untracked().is_some() {
            wheel.set(None);
        } else {
            back.run(());
        }
    };
    let rows = Signal::derive(move || {
        session.shop.with(|sheet| {
            let row = |wheel: &str| {
                let own = sheet.values().wheels.get(&wheel.into());
                GoRow {
                    id: wheel.to_owned(),
                    words: t(&format!("wheel.{wheel}")),
                    detail: own.map_or_else(|| t("ui.wheel.printed"), wheel_told),
                    done: own.is_some(),
                }
            };
            WHEELS.into_iter().map(row).collect::<Vec<_>>()
        })
    });
    let open = Callback::new(move |id: String| {
        said.clear();
        wanting.set(Vec::new());
        wheel.set(WHEELS.into_iter().find(|of| *of == id));
    });
    let keep = Callback::new(move |()| {
        let Some(of) = wheel.get_untracked() else {
            return;
        };
        let kept = untrack(|| said.spec()).and_then(|spec| {
            session.change_shop(
                |_| shop::set_wheel(of, spec),
                move |_| {
                    let _gone = wheel.try_set(None);
                },
            )
        });
        wanting.set(kept.err().into_iter().collect());
    });
    let body = move || {
        anew(if wheel.get().is_some() {
            view! { <WheelEntry said wanting on_done=keep /> }.into_any()
        } else {
            view! {
                <p class="page-line">{t("ui.wheels.line")}</p>
                <GoList rows on_go=open />
            }
            .into_any()
        })
    };
    let title = move || {
        wheel
            .get()
            .map_or_else(|| t("ui.wheels.title"), |of| t(&format!("wheel.{of}")))
    };
    view! { <Page title=Signal::derive(title) on_back=Callback::new(go_back)>{body}</Page> }
}

#[component]
fn WheelEntry(said: Said, wanting: RwSignal<Vec<Words>>, on_done: Callback<()>) -> impl IntoView {
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
    let either =
        |printed: &str, own: &str| vec![Choice::new(PRINTED, t(printed)), Choice::new(OWN, t(own))];
    let page = move || {
        let chosen = |key, choices, choice| view! { <Chosen key choices choice /> }.into_any();
        let pad = |key, text| view! { <Pad said text key /> }.into_any();
        anew(match said.part.get() {
            Part::Own => chosen(
                "ui.wheel.own-line",
                either("ui.wheel.printed", "ui.wheel.own"),
                said.own,
            ),
            Part::Oil => {
                let oil = |of: &str| Choice::new(of, t(&format!("fact.fastener-oil.{of}")));
                chosen("ui.wheel.oil-line", OILS.map(oil).to_vec(), said.oil)
            }
            Part::Unit => view! { <UnitOfValues said /> }.into_any(),
            Part::Low => pad("ui.wheel.low", said.low),
            Part::High => pad("ui.wheel.high", said.high),
            Part::Seat => chosen(
                "ui.wheel.seat-line",
                either("ui.wheel.printed", "ui.wheel.own-seat"),
                said.seat,
            ),
            Part::SeatLow => pad("ui.wheel.seat-low", said.seat_low),
            Part::SeatHigh => pad("ui.wheel.seat-high", said.seat_high),
            Part::Order => {
                let own = STUDS.map(|studs| {
                    let studs = studs.to_string();
                    Choice::new(
                        studs.clone(),
                        fill("ui.wheel.order-of", &[("studs", &studs)]),
                    )
                });
                let printed = Choice::new(PRINTED, t("ui.wheel.printed"));
                chosen(
                    "ui.wheel.order-line",
                    [vec![printed], own.to_vec()].concat(),
                    said.studs,
                )
            }
            Part::Nuts => view! { <Nuts said /> }.into_any(),
            Part::Source => view! {
                <Scroller>
                    <TextEntry words=t("ui.wheel.source") text=said.source testid="wheel-source" />
                </Scroller>
            }
            .into_any(),
        })
    };
    let previous = move || {
        neighbours.get().0.map(|before| {
            view! {
                <button type="button" class="key" data-testid="wheel-previous" on:click=move |_| show(before)>
                    {t("ui.previous")}
                </button>
            }
        })
    };
    let done_words = move || {
        if neighbours.get().1.is_none() {
            t("ui.wheel.keep")
        } else {
            t("ui.next")
        }
    };
    view! {
        <section class="stand-entry" data-testid="wheel-entry">
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

/// One of a few.
#[component]
fn Chosen(
    key: &'static str,
    choices: Vec<Choice>,
    choice: RwSignal<Option<String>>,
) -> impl IntoView {
    view! {
        <p class="page-line">{t(key)}</p>
        <ChoiceList
            choices=Signal::stored(choices)
            chosen=Signal::derive(move || choice.get().into_iter().collect::<Vec<_>>())
            on_choose=Callback::new(move |id: String| choice.set(Some(id)))
        />
    }
}

#[component]
fn UnitOfValues(said: Said) -> impl IntoView {
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
        <p class="page-line">{t("ui.wheel.unit-line")}</p>
        <ChoiceList choices=Signal::stored(choices) chosen=Signal::derive(chosen) on_choose=Callback::new(choose) />
    }
}

#[component]
fn Pad(said: Said, text: RwSignal<String>, key: &'static str) -> impl IntoView {
    let session = expect_context::<Session>();
    let unit = RwSignal::new(said.unit.get_untracked());
    let ask = move || PadAsk {
        kind: PadKind::Decimal,
        words: t(key),
        units: unit.get().into_iter().collect(),
        line: match said.torque(text) {
            Err(words) if !text.with(String::is_empty) => say(&words, &session.units()),
            Ok(_) | Err(_) => t("ui.wheel.value-line"),
        },
    };
    view! { <NumberPad ask=Signal::derive(ask) typed=text unit /> }
}

/// The nuts, pressed in their order; one that was pressed is taken out again with all after it.
#[component]
fn Nuts(said: Said) -> impl IntoView {
    let studs = said.nuts().unwrap_or_default();
    let marks = move || {
        said.order.with(|order| {
            (1..=studs)
                .map(|nut| {
                    if order.contains(&nut) {
                        NutMark::Done
                    } else {
                        NutMark::Open
                    }
                })
                .collect::<Vec<_>>()
        })
    };
    let press = move |nut: u8| {
        said.order.update(|order| {
            match order.iter().position(|of| *of == nut) {
                Some(at) => order.truncate(at),
                None => order.push(nut),
            }
            order.retain(|nut| *nut <= studs);
        });
    };
    let told = move || {
        let order = said.order.with(|order| {
            order
                .iter()
                .map(u8::to_string)
                .collect::<Vec<_>>()
                .join(" ")
        });
        fill("event.wheel.order", &[("order", &order)])
    };
    view! {
        <p class="page-line" data-testid="wheel-order">{told}</p>
        <NutGrid marks=Signal::derive(marks) on_nut=Callback::new(press) />
    }
}
