//! The bring list of the open card: what to have at the vehicle before work begins, to be ticked off.
//!
//! What is listed and how many is `job`'s to say; here it becomes words. A tick holds nothing.

use job::bring::{Sort, Wanted, tick, wanted};
use job::event::BroughtHow;
use job::id::{OptionId, StageId};
use job::words::Words;
use leptos::prelude::*;
use rules::source::{Source, Standing};

use crate::parts::choice_list::{Choice, ChoiceRows};
use crate::parts::scroller::Scroller;
use crate::say::say;
use crate::session::Session;
use crate::words::{fill, t, word};

use super::page::{Page, way_back};
use super::wanting::Wanting;

/// The list.
#[component]
pub(crate) fn BringScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let back = way_back(session);
    let listed = Memo::new(move |_| all(session));
    let is_begun = move || {
        session
            .open
            .with(|open| open.as_ref().is_some_and(|open| open.card.is_begun()))
    };
    // Once work is under way what is ticked had to be fetched, unless somebody says otherwise.
    let was_here = RwSignal::new(false);
    let refused = RwSignal::new(Vec::<Words>::new());
    let choose = Callback::new(move |id: String| {
        let id = OptionId::new(id);
        let there =
            listed.with_untracked(|all| all.iter().any(|one| one.id == id && one.how.is_some()));
        let how = match (there, untrack(is_begun) && !was_here.get_untracked()) {
            (true, _) => BroughtHow::NotHere,
            (false, true) => BroughtHow::Fetched,
            (false, false) => BroughtHow::AtHand,
        };
        let kept = session.act(
            |card, me, _, _| {
                let all = listed.get_untracked();
                Ok(vec![tick(card, me, &all, &id, how)?])
            },
            |_| {},
        );
        refused.set(kept.err().into_iter().collect());
    });
    let counted = move || {
        let (here, fetched, of) = listed.with(|all| {
            let of = |how: BroughtHow| all.iter().filter(|one| one.how == Some(how)).count();
            let (here, fetched) = (of(BroughtHow::AtHand), of(BroughtHow::Fetched));
            (here + fetched, fetched, all.len())
        });
        fill(
            "ui.bring.counted",
            &[
                ("here", &here.to_string()),
                ("of", &of.to_string()),
                ("fetched", &fetched.to_string()),
            ],
        )
    };
    let mode = move || {
        is_begun().then(|| {
            let key = move |testid: &'static str, words: &'static str, here: bool| {
                let chosen = move || was_here.get() == here;
                view! {
                    <button
                        type="button"
                        class="key"
                        class:chosen=chosen
                        aria-pressed=move || chosen().to_string()
                        data-testid=testid
                        on:click=move |_| was_here.set(here)
                    >
                        {t(words)}
                    </button>
                }
            };
            view! {
                <div class="key-row">
                    <p class="page-line">{t("ui.bring.ticked-now")}</p>
                    {key("bring-fetched", "bring.how.fetched", false)}
                    {key("bring-here", "bring.how.at-hand", true)}
                </div>
            }
        })
    };
    let parts = move || {
        listed
            .with(|all| parts_of(all))
            .into_iter()
            .map(|part| {
                view! { <BringPart part listed on_choose=choose /> }
            })
            .collect_view()
    };
    let none = move || {
        listed
            .with(Vec::is_empty)
            .then(|| view! { <p class="page-line">{t("ui.bring.none")}</p> })
    };
    view! {
        <Page title=t("ui.bring.title") on_back=back>
            <Scroller>
                <p class="page-line">{t("ui.bring.line")}</p>
                <p class="page-line">{t("caution.first")}</p>
                <p class="page-line" role="status" data-testid="bring-counted">{counted}</p>
                {none}
                {mode}
                <div class="bring" data-testid="bring">{parts}</div>
            </Scroller>
            <Wanting words=refused />
        </Page>
    }
}

fn all(session: Session) -> Vec<Wanted> {
    session.open.with(|open| {
        let Some(open) = open else { return Vec::new() };
        session
            .shop
            .with(|sheet| session.with_bring_list(|list| wanted(&open.card, sheet, list)))
    })
}

/// One heading of the list: a sort, and for tools the stage that needs them first.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Part {
    sort: Sort,
    stage: Option<StageId>,
    found: bool,
}

impl Part {
    fn of(one: &Wanted) -> Self {
        Self {
            sort: one.sort,
            stage: (one.sort == Sort::Tool).then(|| one.stage.clone()),
            found: one.found,
        }
    }

    fn words(&self) -> String {
        let sort = if self.found {
            t("ui.bring.found")
        } else {
            t(&format!("ui.bring.{}", self.sort.code()))
        };
        match &self.stage {
            Some(stage) => format!("{sort}: {}", t(&format!("stage.{stage}"))),
            None => sort,
        }
    }
}

/// The headings in the order in which they first come.
fn parts_of(all: &[Wanted]) -> Vec<Part> {
    let mut parts: Vec<Part> = Vec::new();
    for part in all.iter().map(Part::of) {
        if !parts.contains(&part) {
            parts.push(part);
        }
    }
    parts
}

#[component]
fn BringPart(part: Part, listed: Memo<Vec<Wanted>>, on_choose: Callback<String>) -> impl IntoView {
    let session = expect_context::<Session>();
    let title = part.words();
    let of_part = StoredValue::new(part);
    let with_part = move |one: &&Wanted| of_part.with_value(|part| Part::of(one) == *part);
    let choices = Signal::derive(move || {
        listed.with(|all| {
            all.iter()
                .filter(with_part)
                .map(|one| choice(one, session))
                .collect::<Vec<_>>()
        })
    });
    let chosen = Signal::derive(move || {
        listed.with(|all| {
            all.iter()
                .filter(|one| one.how.is_some())
                .map(|one| one.id.to_string())
                .collect::<Vec<_>>()
        })
    });
    view! {
        <section class="setting">
            <h2>{title}</h2>
            <ChoiceRows choices chosen on_choose />
        </section>
    }
}

/// How many of it are brought.
pub(super) fn count_words(count: Option<(u32, u32)>) -> String {
    match count {
        None => t("ui.bring.as-needed"),
        Some((fewest, most)) if fewest == most => most.to_string(),
        Some((fewest, most)) => fill(
            "ui.bring.from-to",
            &[("from", &fewest.to_string()), ("to", &most.to_string())],
        ),
    }
}

fn choice(one: &Wanted, session: Session) -> Choice {
    let count = count_words(one.count);
    let owned = one
        .owned
        .map(|owned| fill("ui.bring.owned", &[("owned", &owned.to_string())]));
    let how = one.how.map(|how| t(&format!("bring.how.{}", how.code())));
    let maybe = one.maybe.then(|| t("ui.bring.maybe"));
    let detail: Vec<String> = std::iter::once(count)
        .chain(maybe)
        .chain(owned)
        .chain(how)
        .chain([source_line(one.source)])
        .collect();
    Choice {
        id: one.id.to_string(),
        words: say(&one.title, &session.units()),
        detail: detail.join(" – "),
    }
}

/// Where it is printed that this is renewed, or that it is common practice.
fn source_line(source: &Source) -> String {
    if source.standing == Standing::CommonPractice {
        return word(&source.standing.word());
    }
    let place = [source.document, source.edition, source.clause];
    let place = place.into_iter().filter(|part| !part.is_empty());
    place.collect::<Vec<_>>().join(", ")
}
