//! Found something: where, the part, what is wrong with it, what to do about it, and on to the card.
//!
//! One thing is asked a page. Back goes one page back, and what was picked stays picked.

use job::act;
use job::id::{FindingId, OptionId, PartId, Place};
use job::procedure::Finding;
use job::words::Words;
use leptos::prelude::*;

use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::screen_guard::ScreenGuard;
use crate::parts::scroller::Scroller;
use crate::parts::text_entry::TextEntry;
use crate::parts::wide_done::WideDone;
use crate::say::place;
use crate::session::Session;
use crate::words::t;

use super::extra_told::{Facts, finding_words, fix_words, follows};
use super::page::{Page, anew, way_back};
use super::wanting::Wanting;

/// What a page asks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Asks {
    Place,
    Part,
    Wrong,
    ToDo,
    /// Nothing more: all of it is shown.
    All,
}

impl Asks {
    /// Stands in the page, so that what is asked can be told without its words.
    fn code(self) -> &'static str {
        match self {
            Self::Place => "place",
            Self::Part => "part",
            Self::Wrong => "wrong",
            Self::ToDo => "to-do",
            Self::All => "all",
        }
    }

    fn question(self) -> String {
        match self {
            Self::Place => t("ui.found.where"),
            Self::Part => t("ui.found.part"),
            Self::Wrong => t("ui.found.wrong"),
            Self::ToDo => t("ui.found.to-do"),
            Self::All => t("ui.found.all"),
        }
    }
}

/// What has been picked so far.
#[derive(Clone, Copy)]
struct Said {
    asks: RwSignal<Asks>,
    at: RwSignal<Option<Place>>,
    part: RwSignal<Option<PartId>>,
    finding: RwSignal<Option<FindingId>>,
    fix: RwSignal<Option<OptionId>>,
    words: RwSignal<String>,
}

impl Said {
    /// The finding that was picked, as the card's procedure has it.
    fn known(self, session: Session) -> Option<Finding> {
        let id = self.finding.get_untracked()?;
        session
            .open
            .with_untracked(|open| open.as_ref()?.card.finding(&id).cloned())
    }

    fn pick_part(self, part: PartId) {
        if self
            .part
            .with_untracked(|before| before.as_ref() != Some(&part))
        {
            self.finding.set(None);
            self.fix.set(None);
        }
        self.part.set(Some(part));
        self.asks.set(Asks::Wrong);
    }

    /// One thing that can be done about it is not asked for.
    fn pick_finding(self, finding: &Finding) {
        let only = match finding.fixes.as_slice() {
            [only] => Some(only.clone()),
            _ => self
                .fix
                .get_untracked()
                .filter(|fix| finding.fixes.contains(fix)),
        };
        self.fix.set(only);
        self.finding.set(Some(finding.id.clone()));
        self.asks.set(if finding.fixes.len() > 1 {
            Asks::ToDo
        } else {
            Asks::All
        });
    }

    /// Everything picked, with its name.
    fn facts(self) -> Vec<(String, String)> {
        let at = self.at.get_untracked().map(place);
        let part = self.part.get_untracked();
        let finding = self.finding.get_untracked();
        let fix = finding.as_ref().zip(self.fix.get_untracked());
        [
            (t("ui.extra.place"), at),
            (
                t("ui.extra.part"),
                part.map(|part| t(&format!("part.{part}"))),
            ),
            (t("ui.extra.finding"), finding.as_ref().map(finding_words)),
            (
                t("ui.extra.fix"),
                fix.map(|(finding, fix)| fix_words(finding, &fix)),
            ),
        ]
        .into_iter()
        .filter_map(|(name, value)| Some((name, value?)))
        .collect()
    }
}

/// Puts work that was found at or near `at` on the card.
#[component]
pub(crate) fn FoundScreen(
    /// Where the person was. One that is no wheel end is asked for first.
    at: Place,
) -> impl IntoView {
    let session = expect_context::<Session>();
    let leave = way_back(session);
    let asks_place = !matches!(at, Place::End(..));
    let said = Said {
        asks: RwSignal::new(if asks_place { Asks::Place } else { Asks::Part }),
        at: RwSignal::new((!asks_place).then_some(at)),
        part: RwSignal::new(None),
        finding: RwSignal::new(None),
        fix: RwSignal::new(None),
        words: RwSignal::new(String::new()),
    };
    let wanting = RwSignal::new(Vec::<Words>::new());
    let back = Callback::new(move |()| {
        wanting.set(Vec::new());
        let many = said
            .known(session)
            .is_some_and(|finding| finding.fixes.len() > 1);
        let before = match said.asks.get_untracked() {
            Asks::All if many => Some(Asks::ToDo),
            Asks::All | Asks::ToDo => Some(Asks::Wrong),
            Asks::Wrong => Some(Asks::Part),
            Asks::Part if asks_place => Some(Asks::Place),
            Asks::Part | Asks::Place => None,
        };
        match before {
            Some(before) => said.asks.set(before),
            None => leave.run(()),
        }
    });
    let done = Callback::new(move |()| {
        let (Some(at), Some(finding), Some(fix)) = (
            said.at.get_untracked(),
            said.finding.get_untracked(),
            said.fix.get_untracked(),
        ) else {
            return wanting.set(vec![Words::plain("ui.choose-first")]);
        };
        let words = said.words.get_untracked();
        let found = session.act(
            |card, me, _, _| Ok(vec![act::find(card, me, at, &finding, &fix, &words)?]),
            move |_| leave.run(()),
        );
        wanting.set(found.err().into_iter().collect());
    });
    let content = move || {
        let asks = said.asks.get();
        let page = match asks {
            Asks::Place => places(session, said, at),
            Asks::Part => parts(session, said),
            Asks::Wrong => findings(session, said),
            Asks::ToDo => fixes(session, said),
            Asks::All => all(session, said, wanting, done),
        };
        anew(
            view! {
                <h2 class="question-line" data-testid="found-asks" data-asks=asks.code()>{asks.question()}</h2>
                {page}
            }
            .into_any(),
        )
    };
    view! {
        <Page title=t("ui.nav.found") on_back=back>
            <ScreenGuard screen=Signal::derive(move || said.asks.get().code().to_owned())>
                {content}
            </ScreenGuard>
        </Page>
    }
}

/// A wheel end, or what the step was about as a whole.
fn places(session: Session, said: Said, whole: Place) -> AnyView {
    let ends = session.open.with_untracked(|open| {
        let layout = open.as_ref()?.card.layout();
        Some(layout?.ends())
    });
    let choices = std::iter::once(whole)
        .chain(ends.unwrap_or_default())
        .map(|at| Choice::new(at.to_string(), place(at)))
        .collect();
    let chosen = said.at.get_untracked().map(|at| at.to_string());
    let pick = Callback::new(move |id: String| {
        if let Ok(at) = id.parse() {
            said.at.set(Some(at));
            said.asks.set(Asks::Part);
        }
    });
    list(choices, chosen, pick)
}

/// Every part that something can be wrong with, in the order of the procedure.
fn parts(session: Session, said: Said) -> AnyView {
    let mut parts = Vec::<PartId>::new();
    for finding in all_findings(session) {
        if !parts.contains(&finding.part) {
            parts.push(finding.part);
        }
    }
    let choices = parts
        .iter()
        .map(|part| Choice::new(part.as_str(), t(&format!("part.{part}"))))
        .collect();
    let chosen = said.part.get_untracked().map(|part| part.to_string());
    let pick = Callback::new(move |id: String| said.pick_part(PartId::from(id.as_str())));
    view! { <div class="found-parts">{list(choices, chosen, pick)}</div> }.into_any()
}

/// What can be wrong with the part.
fn findings(session: Session, said: Said) -> AnyView {
    let part = said.part.get_untracked();
    let of_part: Vec<Finding> = all_findings(session)
        .into_iter()
        .filter(|finding| Some(&finding.part) == part.as_ref())
        .collect();
    let choices = of_part
        .iter()
        .map(|finding| Choice::new(finding.id.as_str(), finding_words(&finding.id)))
        .collect();
    let chosen = said.finding.get_untracked().map(|id| id.to_string());
    let pick = Callback::new(move |id: String| {
        if let Some(finding) = of_part.iter().find(|finding| finding.id.as_str() == id) {
            said.pick_finding(finding);
        }
    });
    list(choices, chosen, pick)
}

/// What can be done about it, the usual way first.
fn fixes(session: Session, said: Said) -> AnyView {
    let known = said.known(session);
    let choices = known
        .iter()
        .flat_map(|finding| {
            let choice = |fix: &OptionId| Choice::new(fix.as_str(), fix_words(&finding.id, fix));
            finding.fixes.iter().map(choice)
        })
        .collect();
    let chosen = said.fix.get_untracked().map(|fix| fix.to_string());
    let pick = Callback::new(move |id: String| {
        said.fix.set(Some(OptionId::from(id.as_str())));
        said.asks.set(Asks::All);
    });
    list(choices, chosen, pick)
}

fn list(choices: Vec<Choice>, chosen: Option<String>, pick: Callback<String>) -> AnyView {
    let chosen: Vec<String> = chosen.into_iter().collect();
    view! {
        <ChoiceList choices=Signal::stored(choices) chosen=Signal::stored(chosen) on_choose=pick/>
    }
    .into_any()
}

/// All of it, with room for own words.
fn all(session: Session, said: Said, wanting: RwSignal<Vec<Words>>, done: Callback<()>) -> AnyView {
    let follows = said.known(session).map(|finding| follows(&finding));
    view! {
        <Scroller>
            <Wanting words=wanting/>
            <Facts facts=said.facts()/>
            {follows.into_iter().flatten().map(|line| view! { <p class="page-line line-follows">{line}</p> }).collect_view()}
            <TextEntry words=t("ui.found.words") text=said.words testid="found-words"/>
        </Scroller>
        <WideDone words=t("ui.found.done") waits=Signal::derive(move || !session.can_write()) on_done=done/>
    }
    .into_any()
}

fn all_findings(session: Session) -> Vec<Finding> {
    session.open.with_untracked(|open| {
        let procedure = open
            .as_ref()
            .and_then(|open| open.card.procedure.as_deref());
        procedure
            .map(|procedure| procedure.findings.clone())
            .unwrap_or_default()
    })
}
