//! What a question shows to be looked at: instruments and parts, one after the other.

use leptos::prelude::*;
use practice::axle::Axle;
use practice::decision::{Decision, Item, Shown};
use practice::drill::Question;
use practice::instrument::Instrument;
use practice::run::sight::chamber_of;
use rules::support::tag::StandTag;
use rules::torque::moved::Moved;

use job::id::Side;

use crate::pictures::chamber_face::ChamberFace;
use crate::pictures::edge_prints::{EdgePrint, EdgePrints};
use crate::pictures::instruments::InstrumentPicture;
use crate::pictures::instruments::click::ClickPicture;
use crate::pictures::parts_seen::PartSeen;
use crate::pictures::plate::{FigureOnIt, StandsOn};
use crate::pictures::stand_tags::StandTags;
use crate::say::side_key;
use crate::words::{fill, t};

/// One thing to look at, with what is said beside it.
#[derive(Clone, Debug)]
pub(super) enum Seen {
    Instrument(String, Instrument),
    Part(String, Box<Decision>),
    /// The chamber of an end: its type, and whether its stroke is long.
    Chamber(String, &'static str, bool),
    /// A nut under the wrench.
    Click(String, Moved),
    /// What is printed on two linings.
    Edges([String; 2]),
    /// The same of one.
    Edge(String),
    /// Two stands with their tags, and what each is called.
    Stands(String, Box<[StandTag; 2]>, [String; 2]),
    /// A figure on a plate or a casting, with the word over it.
    Figure(String, StandsOn, String, String),
}

impl Seen {
    fn caption(&self) -> String {
        match self {
            Self::Instrument(caption, _)
            | Self::Part(caption, _)
            | Self::Chamber(caption, ..)
            | Self::Click(caption, _)
            | Self::Stands(caption, ..)
            | Self::Figure(caption, ..) => caption.clone(),
            Self::Edges(_) | Self::Edge(_) => String::new(),
        }
    }

    /// The drawing alone.
    pub(super) fn picture(&self) -> AnyView {
        match self.clone() {
            Self::Instrument(_, instrument) => {
                view! { <InstrumentPicture instrument /> }.into_any()
            }
            Self::Part(name, decision) => view! { <PartSeen decision=*decision name /> }.into_any(),
            Self::Chamber(name, of, long) => view! { <ChamberFace of long name /> }.into_any(),
            Self::Click(name, moved) => view! { <ClickPicture moved name /> }.into_any(),
            Self::Edges(prints) => view! { <EdgePrints prints /> }.into_any(),
            Self::Edge(print) => view! { <EdgePrint print /> }.into_any(),
            Self::Stands(name, tags, called) => {
                view! { <StandTags tags=*tags called name /> }.into_any()
            }
            Self::Figure(name, on, word, figure) => {
                view! { <FigureOnIt on word figure name /> }.into_any()
            }
        }
    }
}

/// What an item is called.
pub(super) fn item(item: Item) -> String {
    t(&format!("item.{}", item.code()))
}

/// What there is to look at for a decision, in the order in which it is read.
pub(super) fn of_decision(decision: &Decision) -> Vec<Seen> {
    let name = item(decision.item);
    match &decision.shown {
        Shown::Instrument(instrument) => vec![Seen::Instrument(name, *instrument)],
        Shown::Pushrod { at_rest, out } => {
            let out_words = if decision.item == Item::Free {
                t("ui.drill.seen.pulled")
            } else {
                t("ui.drill.seen.applied")
            };
            vec![
                Seen::Instrument(t("ui.drill.seen.released"), *at_rest),
                Seen::Instrument(out_words, *out),
            ]
        }
        Shown::Diameters { front, back } => {
            let edge = |key: &'static str, all: &[Instrument; 4]| {
                all.iter()
                    .zip(1_u8..)
                    .map(|(one, place)| {
                        let place = place.to_string();
                        Seen::Instrument(fill(key, &[("place", &place)]), *one)
                    })
                    .collect::<Vec<_>>()
            };
            let mut all = edge("ui.drill.seen.front", front);
            all.extend(edge("ui.drill.seen.back", back));
            all
        }
        Shown::Signs(_) | Shown::Numbered(_) => {
            vec![Seen::Part(name, Box::new(decision.clone()))]
        }
        Shown::Edges(_) | Shown::Support | Shown::BothEnds => Vec::new(),
    }
}

/// The same with what is compared across the axle, or lies under it.
pub(super) fn of_axle(axle: &Axle, decision: &Decision) -> Vec<Seen> {
    match &decision.shown {
        Shown::Edges(prints) => vec![Seen::Edges(prints.clone())],
        Shown::BothEnds => [Side::Left, Side::Right]
            .into_iter()
            .filter_map(|side| {
                let (of, long) = chamber_of(axle, side)?;
                let side = t(&format!("ui.{}", side_key(side)));
                let caption = fill("ui.marking.chamber", &[("side", &side)]);
                Some(Seen::Chamber(caption, of, long))
            })
            .collect(),
        Shown::Support => match axle.support.stands.as_slice() {
            [left, right] => vec![stands("ui.see.ready", left, right, [1, 2])],
            _ => Vec::new(),
        },
        Shown::Instrument(_)
        | Shown::Pushrod { .. }
        | Shown::Diameters { .. }
        | Shown::Signs(_)
        | Shown::Numbered(_) => of_decision(decision),
    }
}

/// Two stands by their numbers.
pub(super) fn stands(
    caption: &'static str,
    left: &StandTag,
    right: &StandTag,
    numbers: [u8; 2],
) -> Seen {
    let called = numbers.map(|n| fill("ui.stand.number", &[("number", &n.to_string())]));
    Seen::Stands(t(caption), Box::new([left.clone(), right.clone()]), called)
}

/// What there is to look at first for a question; empty where it is asked in words.
pub(super) fn of_question(question: &Question) -> Vec<Seen> {
    match question {
        Question::Read(decision) => of_decision(decision),
        Question::Gauge(instrument) => vec![Seen::Instrument(String::new(), *instrument)],
        Question::Click(moved) => vec![Seen::Click(t("ui.drill.click.name"), *moved)],
        Question::EdgeCode { left, right } => vec![Seen::Edges([left.clone(), right.clone()])],
        Question::Limit { axle, decision, .. } => {
            let mut seen = of_decision(decision);
            seen.extend(chamber(axle, decision));
            seen
        }
        Question::Cause { applied, free, .. } => {
            let mut seen = of_decision(applied);
            // At rest the rod stands where it stood.
            seen.extend(of_decision(free).into_iter().skip(1));
            seen
        }
        Question::Stands { pairs, .. } => pairs
            .iter()
            .zip(1_u8..)
            .map(|(pair, number)| {
                let caption = pair_name(number);
                Seen::Stands(caption, Box::new(pair.clone()), Default::default())
            })
            .collect(),
        Question::Pattern { .. }
        | Question::First { .. }
        | Question::Fault { .. }
        | Question::Units { .. } => Vec::new(),
    }
}

/// "Pair 2".
pub(super) fn pair_name(number: u8) -> String {
    fill("ui.drill.stands.pair", &[("number", &number.to_string())])
}

/// The chamber, where its stroke is judged.
fn chamber(axle: &Axle, decision: &Decision) -> Option<Seen> {
    let side = decision.side.filter(|_| decision.item == Item::Applied)?;
    let (of, long) = chamber_of(axle, side)?;
    Some(Seen::Chamber(t("ui.drill.seen.chamber"), of, long))
}

/// The things to look at, turned by two keys where there are several.
#[component]
pub(super) fn SeenPages(seen: Vec<Seen>) -> impl IntoView {
    let count = seen.len();
    let seen = StoredValue::new(seen);
    let at = RwSignal::new(0_usize);
    let shown = move || {
        seen.with_value(|seen| {
            let one = seen.get(at.get())?;
            Some(view! {
                <figcaption class="page-line" data-testid="seen-caption">{one.caption()}</figcaption>
                {one.picture()}
            })
        })
    };
    let key = move |id: &'static str, words: String, to: Callback<usize, Option<usize>>| {
        let there = move || to.run(at.get()).filter(|to| *to < count);
        view! {
            <button
                type="button"
                class="key"
                data-testid=id
                disabled=move || there().is_none()
                on:click=move |_| {
                    if let Some(to) = there() {
                        at.set(to);
                    }
                }
            >
                {words}
            </button>
        }
    };
    let keys = (count > 1).then(|| {
        view! {
            <div class="seen-keys">
                {key("seen-before", t("ui.previous"), Callback::new(|at: usize| at.checked_sub(1)))}
                <span class="seen-count" data-testid="seen-count">
                    {move || {
                        let (at, count) = ((at.get() + 1).to_string(), count.to_string());
                        fill("ui.drill.count", &[("at", &at), ("of", &count)])
                    }}
                </span>
                {key("seen-next", t("ui.next"), Callback::new(|at: usize| at.checked_add(1)))}
            </div>
        }
    });
    view! {
        <div class="seen-pages" class:several=count.gt(&1)>
            <figure class="seen-shown">{shown}</figure>
            {keys}
        </div>
    }
}
