//! A new card, asked in four small pages: the vehicle, its axles in hand, load and number, who.
//!
//! Everything that is wanting is said at once, each with the page it stands on; nothing typed is lost.

use job::act::Setup;
use job::cards::{Visit, last_visit};
use job::id::{OptionId, PersonId};
use job::layout::Layout;
use job::words::Words;
use leptos::prelude::*;

use crate::parts::scroller::Scroller;
use crate::parts::text_entry::TextEntry;
use crate::parts::wide_done::WideDone;
use crate::pictures::vehicle_top::VehicleTopPicture;
use crate::say::say;
use crate::session::Session;
use crate::words::t;

use super::add_person::AddPerson;
use super::axle_keys::AxleKeys;
use super::band::PracticeBand;
use super::card_key::visit_words;
use super::kinds::{KINDS, layout_words, usual_in_hand};
use super::page::{BackKey, SavedFlash, anew, way_back};
use super::people::PersonKeys;
use super::vehicle::drawn;

/// One page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    Vehicle,
    Axles,
    Load,
    Who,
}

impl Part {
    const ALL: [Self; 4] = [Self::Vehicle, Self::Axles, Self::Load, Self::Who];

    fn code(self) -> &'static str {
        match self {
            Self::Vehicle => "vehicle",
            Self::Axles => "axles",
            Self::Load => "load",
            Self::Who => "who",
        }
    }

    /// The page where something that is wanting is given, if one of these is it.
    fn of(words: &Words) -> Option<Self> {
        match words.key.as_str() {
            "setup.vehicle-missing" | "setup.layout-missing" => Some(Self::Vehicle),
            "setup.in-hand-missing" | "setup.in-hand-unknown" => Some(Self::Axles),
            "setup.unit-missing" | "setup.text-too-long" | "setup.loaded-missing" => {
                Some(Self::Load)
            }
            "ui.who-first" => Some(Self::Who),
            _ => None,
        }
    }

    fn next(self) -> Option<Self> {
        let at = Self::ALL.iter().position(|part| *part == self)?;
        Self::ALL.get(at + 1).copied()
    }
}

/// What has been said of the new card so far.
#[derive(Clone, Copy)]
struct Said {
    kind: RwSignal<Option<(&'static str, &'static str)>>,
    in_hand: RwSignal<Vec<u8>>,
    loaded: RwSignal<Option<&'static str>>,
    unit: RwSignal<String>,
}

impl Said {
    fn setup(self) -> Setup {
        let kind = self.kind.get_untracked();
        Setup {
            unit: self.unit.get_untracked(),
            vehicle: kind.map(|(vehicle, _)| OptionId::from(vehicle)),
            layout: kind.map(|(_, layout)| layout.to_owned()),
            loaded: self.loaded.get_untracked().map(OptionId::from),
            in_hand: self.in_hand.get_untracked(),
        }
    }

    fn axles(self) -> u8 {
        self.kind
            .get()
            .and_then(|(_, layout)| Layout::read(layout))
            .map_or(0, |layout| layout.axles())
    }

    /// What a page says so far, for its key.
    fn told(self, part: Part, session: Session) -> String {
        let told = match part {
            Part::Vehicle => self.kind.get().map(|(vehicle, layout)| {
                format!(
                    "{} {}",
                    t(&format!("fact.vehicle.{vehicle}")),
                    layout_words(vehicle, layout).to_lowercase()
                )
            }),
            Part::Axles => self.in_hand.with(|axles| {
                let axles: Vec<String> = axles.iter().map(u8::to_string).collect();
                (!axles.is_empty()).then(|| axles.join(", "))
            }),
            Part::Load => self.unit.with(|unit| {
                let loaded = self
                    .loaded
                    .get()
                    .map(|loaded| t(&format!("fact.loaded.{loaded}")));
                let unit = Some(unit.trim().to_owned()).filter(|unit| !unit.is_empty());
                let both: Vec<String> = unit.into_iter().chain(loaded).collect();
                (!both.is_empty()).then(|| both.join(", "))
            }),
            Part::Who => session.me.with(|me| {
                let me = me.as_ref()?;
                session
                    .shop
                    .with(|sheet| sheet.person(me).map(|person| person.name.clone()))
            }),
        };
        told.unwrap_or_else(|| "–".to_owned())
    }
}

/// The four pages, and the key that opens the card.
#[component]
pub(crate) fn NewCardScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let back = way_back(session);
    // The name picked here is for the new card: one that is still open gets no line from it.
    session.open.set(None);
    let said = Said {
        kind: RwSignal::new(None),
        in_hand: RwSignal::new(Vec::new()),
        loaded: RwSignal::new(None),
        unit: RwSignal::new(String::new()),
    };
    let part = RwSignal::new(Part::Vehicle);
    let wanting = RwSignal::new(Vec::<Words>::new());
    let go = Callback::new(move |to: Part| {
        wanting.set(Vec::new());
        part.set(to);
    });
    let done = move |()| match part.get_untracked().next() {
        Some(next) => go.run(next),
        None => wanting.set(session.new_card(&said.setup()).err().unwrap_or_default()),
    };
    let tab = move |of: Part| {
        let chosen = move || part.get() == of && wanting.with(Vec::is_empty);
        view! {
            <button
                type="button"
                class="key tab-key"
                class:chosen=chosen
                aria-pressed=move || chosen().to_string()
                data-testid=format!("new-{}", of.code())
                on:click=move |_| go.run(of)
            >
                <small>{t(&format!("ui.new.{}", of.code()))}</small>
                <span>{move || said.told(of, session)}</span>
            </button>
        }
    };
    let page = move || {
        if !wanting.with(Vec::is_empty) {
            return anew(view! { <WantingPage wanting on_go=go /> }.into_any());
        }
        anew(match part.get() {
            Part::Vehicle => view! { <VehiclePage said /> }.into_any(),
            Part::Axles => view! { <AxlesPage said /> }.into_any(),
            Part::Load => view! { <LoadPage said /> }.into_any(),
            Part::Who => view! { <WhoPage wanting /> }.into_any(),
        })
    };
    let done_words = move || {
        if part.get().next().is_some() {
            t("ui.next")
        } else {
            t("ui.new.open")
        }
    };
    view! {
        <main class="side">
            <PracticeBand />
            <header class="side-head">
                <BackKey on_back=back />
                <h1 class="for-ears">{t("ui.new.title")}</h1>
                <div class="tabs">{Part::ALL.map(tab).into_iter().collect_view()}</div>
            </header>
            <div class="side-body">
                {page}
                <WideDone words=Signal::derive(done_words) waits=false on_done=Callback::new(done) />
            </div>
            <SavedFlash />
        </main>
    }
}

/// Everything that is wanting, each a key to the page where it is given.
#[component]
fn WantingPage(wanting: RwSignal<Vec<Words>>, on_go: Callback<Part>) -> impl IntoView {
    let session = expect_context::<Session>();
    let row = move |words: Words| {
        let told = say(&words, &session.units());
        match Part::of(&words) {
            Some(part) => view! {
                <button
                    type="button"
                    class="row-key"
                    data-testid=format!("wanting-{}", words.key)
                    on:click=move |_| on_go.run(part)
                >
                    <span class="row-words">
                        <span>{told}</span>
                        <small>{t(&format!("ui.new.{}", part.code()))}</small>
                    </span>
                </button>
            }
            .into_any(),
            None => {
                view! { <p class="wanting" data-testid=format!("wanting-{}", words.key)>{told}</p> }
                    .into_any()
            }
        }
    };
    view! {
        <Scroller>
            <div class="rows" role="alert" data-testid="wanting">
                <p class="page-line">{t("ui.new.wanting")}</p>
                {move || wanting.get().into_iter().map(row).collect_view()}
            </div>
        </Scroller>
    }
}

/// Kind and layout in one choice, each as its drawing.
#[component]
fn VehiclePage(said: Said) -> impl IntoView {
    let tile = move |vehicle: &'static str, layout: &'static str| {
        let chosen = move || said.kind.get() == Some((vehicle, layout));
        let name = layout_words(vehicle, layout);
        let choose = move |_| {
            if !chosen() {
                said.kind.set(Some((vehicle, layout)));
                // Axle numbers of another layout mean other axles; of one axle there is no choice.
                let one = Layout::read(layout).filter(|layout| layout.axles() == 1);
                said.in_hand.set(one.map_or_else(Vec::new, |_| vec![1]));
            }
        };
        view! {
            <button
                type="button"
                class="key kind-key"
                class:chosen=chosen
                aria-pressed=move || chosen().to_string()
                data-testid=format!("kind-{vehicle}-{layout}")
                on:click=choose
            >
                <VehicleTopPicture vehicle=Signal::stored(drawn(vehicle, layout, &[])) name=name.clone() />
                <span>{name}</span>
            </button>
        }
    };
    let group = move |(vehicle, layouts): (&'static str, &'static [&'static str])| {
        view! {
            <section class="kind">
                <h2>{t(&format!("fact.vehicle.{vehicle}"))}</h2>
                <div class="kind-keys">{layouts.iter().map(|layout| tile(vehicle, layout)).collect_view()}</div>
            </section>
        }
    };
    view! { <Scroller>{KINDS.map(group).into_iter().collect_view()}</Scroller> }
}

/// The axles that this job is about, beside the drawing.
#[component]
fn AxlesPage(said: Said) -> impl IntoView {
    let vehicle = Memo::new(move |_| {
        let kind = said.kind.get()?;
        Some(said.in_hand.with(|in_hand| drawn(kind.0, kind.1, in_hand)))
    });
    view! {
        <Scroller>
            <p class="page-line">{t("ui.new.axles-line")}</p>
            {move || match vehicle.get() {
                Some(vehicle) => view! {
                    <div class="axles-drawn">
                        <VehicleTopPicture vehicle=Signal::stored(vehicle) name=t("ui.vehicle.name") />
                    </div>
                }
                .into_any(),
                None => view! { <p class="page-line">{t("ui.new.vehicle-first")}</p> }.into_any(),
            }}
            <UsualAxles said />
            <AxleKeys axles=Signal::derive(move || said.axles()) chosen=said.in_hand />
        </Scroller>
    }
}

/// Axles that are often in hand together, each with one press in place of what was picked before.
#[component]
fn UsualAxles(said: Said) -> impl IntoView {
    let key = move |(words, axles): (String, Vec<u8>)| {
        let numbers: Vec<String> = axles.iter().map(u8::to_string).collect();
        let testid = format!("axles-{}", numbers.join("-"));
        let same = axles.clone();
        let chosen = Memo::new(move |_| said.in_hand.with(|in_hand| *in_hand == same));
        view! {
            <button
                type="button"
                class="key"
                class:chosen=move || chosen.get()
                aria-pressed=move || chosen.get().to_string()
                data-testid=testid
                on:click=move |_| said.in_hand.set(axles.clone())
            >
                {words}
            </button>
        }
    };
    let usual = move || {
        let usual = said
            .kind
            .get()
            .map(|(vehicle, layout)| usual_in_hand(vehicle, layout))
            .unwrap_or_default();
        usual.into_iter().map(key).collect_view()
    };
    view! { <div class="usual-axles">{usual}</div> }
}

/// Loaded or not, and the unit number.
#[component]
fn LoadPage(said: Said) -> impl IntoView {
    let key = move |loaded: &'static str| {
        let chosen = move || said.loaded.get() == Some(loaded);
        view! {
            <button
                type="button"
                class="key"
                class:chosen=chosen
                aria-pressed=move || chosen().to_string()
                data-testid=format!("loaded-{loaded}")
                on:click=move |_| said.loaded.set(Some(loaded))
            >
                {t(&format!("fact.loaded.{loaded}"))}
            </button>
        }
    };
    let session = expect_context::<Session>();
    let before = move || {
        let language = session.settings.with(|settings| settings.language.clone());
        session.cards.with(|cards| {
            said.unit.with(|unit| {
                let visit = Visit {
                    unit,
                    ..Visit::default()
                };
                last_visit(cards, &visit).map(|card| visit_words(card, &language))
            })
        })
    };
    view! {
        <Scroller>
            <TextEntry words=t("fact.unit") text=said.unit testid="unit" />
            <p class="page-line" role="status" data-testid="last-visit">{before}</p>
            <section class="kind">
                <p class="page-line">{t("ui.new.load-line")}</p>
                <div class="key-row">{["unloaded", "loaded"].map(key).into_iter().collect_view()}</div>
            </section>
        </Scroller>
    }
}

/// Who works, picked from the shop's list or added to it.
#[component]
fn WhoPage(wanting: RwSignal<Vec<Words>>) -> impl IntoView {
    let session = expect_context::<Session>();
    let pick = Callback::new(move |person: PersonId| {
        wanting.set(session.change_name(&person).err().into_iter().collect());
    });
    view! {
        <Scroller>
            <p class="page-line">{t("ui.people.pick")}</p>
            <PersonKeys on_pick=pick />
            <AddPerson on_added=pick />
        </Scroller>
    }
}
