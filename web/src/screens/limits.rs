//! Limits of the shop's own: what a maker of parts prints, or what the province asks. Each says what
//! it is for and where the shop has it from. It judges nothing: both are held when a reading is taken.

use job::event::{LimitSide, ShopLimit, TypedText};
use job::id::OptionId;
use job::procedure::FactKind;
use job::shop::{self, AXLE_KINDS, Kinds, LIMITS, LimitFor, laws};
use job::words::Words;
use leptos::prelude::*;
use rules::unit::Unit;

use crate::judged::rule_title;
use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::scroller::Scroller;
use crate::parts::text_entry::TextEntry;
use crate::session::Session;
use crate::words::{fill, t};

use super::page::{Page, anew, back_to_shop};
use super::told::{kind_told, limit_for_told, limit_told};
use super::value_entry::{ValueAsk, ValueEntry, ValueSaid};
use super::wanting::Wanting;

/// Every kind of part, or a maker's figure for every vehicle.
const ALL: &str = "all";

/// What this screen shows now.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum View {
    List,
    /// What is measured.
    Rule,
    /// For which kind of part.
    Of,
    /// What narrows the kind.
    Class,
    Side,
    /// Whose figure it is.
    Law,
    Figure,
    Source,
}

/// What has been said of a new limit. Lives in the screen, so that nothing is lost.
#[derive(Clone, Copy)]
struct Said {
    rule: RwSignal<Option<LimitFor>>,
    of: RwSignal<String>,
    class: RwSignal<String>,
    side: RwSignal<Option<LimitSide>>,
    law: RwSignal<String>,
    value: ValueSaid,
    figure: RwSignal<Option<TypedText>>,
    source: RwSignal<String>,
}

impl Said {
    fn new() -> Self {
        Self {
            rule: RwSignal::new(None),
            of: RwSignal::new(ALL.to_owned()),
            class: RwSignal::new(ALL.to_owned()),
            side: RwSignal::new(None),
            law: RwSignal::new(ALL.to_owned()),
            value: ValueSaid::new(),
            figure: RwSignal::new(None),
            source: RwSignal::new(String::new()),
        }
    }

    fn clear(self) {
        self.rule.set(None);
        self.of.set(ALL.to_owned());
        self.class.set(ALL.to_owned());
        self.side.set(None);
        self.law.set(ALL.to_owned());
        self.value.clear();
        self.figure.set(None);
        self.source.set(String::new());
    }

    /// The pages that this limit needs, in order.
    fn views(self) -> Vec<View> {
        let rule = self.rule.get_untracked();
        let mut views = vec![View::List, View::Rule];
        let kinds = rule.map_or(Kinds::One, |rule| rule.kinds);
        if kinds != Kinds::One {
            views.push(View::Of);
        }
        let is_of_one = self.of.with_untracked(|of| of != ALL);
        if is_of_one && matches!(kinds, Kinds::Narrowed { .. }) {
            views.push(View::Class);
        }
        if rule.is_some_and(|rule| rule.sides.len() > 1) {
            views.push(View::Side);
        }
        views.extend([View::Law, View::Figure, View::Source]);
        views
    }

    fn beside(self, view: View, step: isize) -> View {
        let views = self.views();
        let at = views.iter().position(|one| *one == view).unwrap_or(0);
        let to = at.saturating_add_signed(step);
        views.get(to).copied().unwrap_or(View::List)
    }

    fn limit(self) -> Option<ShopLimit> {
        let rule = self.rule.get_untracked()?;
        let chosen = |text: String| (text != ALL).then(|| OptionId::new(text));
        let class = self.class.get_untracked();
        let of = match rule.kinds {
            Kinds::Narrowed { .. } if class != ALL => {
                format!("{}/{class}", self.of.get_untracked())
            }
            _ => self.of.get_untracked(),
        };
        Some(ShopLimit {
            rule: rule.rule.to_owned(),
            side: self
                .side
                .get_untracked()
                .or_else(|| rule.sides.first().copied())?,
            of: chosen(of),
            law: chosen(self.law.get_untracked()),
            figure: self.figure.get_untracked()?,
            source: self.source.get_untracked(),
            by: None,
        })
    }
}

/// The list, or the pages of a new limit.
#[component]
pub(crate) fn LimitsScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let back = back_to_shop(session);
    let shown = RwSignal::new(View::List);
    let said = Said::new();
    let wanting = RwSignal::new(Vec::<Words>::new());
    let show = move |view: View| {
        wanting.set(Vec::new());
        shown.set(view);
    };
    let go_back = move |()| match shown.get_untracked() {
        View::List => back.run(()),
        view => show(said.beside(view, -1)),
    };
    let next = move || show(said.beside(shown.get_untracked(), 1));
    let told = move |changed: Result<(), Words>| wanting.set(changed.err().into_iter().collect());
    let keep = move || {
        let Some(limit) = said.limit() else {
            return wanting.set(vec![Words::plain("ui.choose-first")]);
        };
        told(session.change_shop(
            |_| shop::set_limit(limit),
            move |_| {
                if shown.try_get_untracked().is_some() {
                    said.clear();
                    show(View::List);
                }
            },
        ));
    };
    let drop = Callback::new(move |limit: ShopLimit| {
        told(session.change_shop(|sheet| shop::drop_limit(sheet, &limit), |_| ()));
    });
    let content = move || {
        match shown.get() {
        View::List => view! {
            <LimitList wanting on_new=Callback::new(move |()| show(View::Rule)) on_drop=drop />
        }
        .into_any(),
        View::Rule => {
            let choices = LIMITS
                .iter()
                .map(|one| Choice::new(one.rule, rule_title(one.rule)))
                .collect::<Vec<_>>();
            let chosen = said.rule.get_untracked().map(|one| one.rule.to_owned());
            let choose = Callback::new(move |id: String| {
                let rule = LIMITS.into_iter().find(|one| one.rule == id);
                if rule != said.rule.get_untracked() {
                    said.clear();
                }
                said.rule.set(rule);
                next();
            });
            page_of("ui.limit.rule-line", choices, chosen, choose)
        }
        View::Of => {
            let kinds = said.rule.get_untracked().map_or(Kinds::One, |rule| rule.kinds);
            let options = match kinds {
                Kinds::One => Vec::new(),
                Kinds::Of(fact) | Kinds::Narrowed { fact, .. } => options_of(session, fact),
                Kinds::Axle => AXLE_KINDS.map(OptionId::from).to_vec(),
            };
            let kinds = options
                .into_iter()
                .map(move |kind| Choice::new(kind.as_str(), kind_told(kinds, &kind)));
            let all = Choice::new(ALL, t("ui.limit.every-kind"));
            let choose = Callback::new(move |id: String| {
                if id == ALL {
                    said.class.set(id.clone());
                }
                said.of.set(id);
                next();
            });
            page_of(
                "ui.limit.of-line",
                [all].into_iter().chain(kinds).collect(),
                Some(said.of.get_untracked()),
                choose,
            )
        }
        View::Class => {
            let by = match said.rule.get_untracked().map(|rule| rule.kinds) {
                Some(Kinds::Narrowed { by, .. }) => by,
                _ => "",
            };
            let classes = options_of(session, by)
                .into_iter()
                .map(|class| Choice::new(class.as_str(), t(&format!("fact.{by}.{class}"))));
            let all = Choice::new(ALL, t("ui.limit.every-class"));
            let choose = Callback::new(move |id: String| {
                said.class.set(id);
                next();
            });
            page_of(
                "ui.limit.class-line",
                [all].into_iter().chain(classes).collect(),
                Some(said.class.get_untracked()),
                choose,
            )
        }
        View::Side => {
            let side = |side: LimitSide| {
                Choice::new(side.code(), t(&format!("limit.side.{}", side.code())))
            };
            let sides = [LimitSide::AtMost, LimitSide::AtLeast];
            let choose = Callback::new(move |id: String| {
                said.side
                    .set(sides.into_iter().find(|side| side.code() == id));
                next();
            });
            let chosen = said.side.get_untracked();
            page_of(
                "ui.limit.side-line",
                sides.map(side).to_vec(),
                chosen.map(|side| side.code().to_owned()),
                choose,
            )
        }
        View::Law => {
            let of_law = laws().iter().map(|law| {
                let place = t(&format!("fact.jurisdiction.{law}"));
                Choice::new(*law, fill("ui.limit.law", &[("place", &place)]))
            });
            let maker = Choice::new(ALL, t("ui.limit.maker"));
            let choose = Callback::new(move |id: String| {
                said.law.set(id);
                next();
            });
            page_of(
                "ui.limit.law-line",
                [maker].into_iter().chain(of_law).collect(),
                Some(said.law.get_untracked()),
                choose,
            )
        }
        View::Figure => {
            let usual = said.rule.get_untracked().map(|rule| rule.usual);
            let ask = ValueAsk {
                words: said.rule.get_untracked().map_or_else(String::new, |rule| rule_title(rule.rule)),
                units: vec![Unit::Inch, Unit::Millimetre],
                usual: usual.unwrap_or_default().map(ToOwned::to_owned),
                done: t("ui.next"),
            };
            let keep = Callback::new(move |figure: TypedText| {
                said.figure.set(Some(figure));
                next();
            });
            view! { <ValueEntry ask said=said.value wanting on_value=keep /> }.into_any()
        }
        View::Source => view! {
            <Scroller>
                <p class="page-line">{said.limit().map(|limit| limit_for_told(&limit))}</p>
                <TextEntry words=t("ui.limit.source") text=said.source testid="limit-source" />
                <Wanting words=wanting />
                <button type="button" class="key wide-key" data-testid="limit-keep" on:click=move |_| keep()>
                    {t("ui.limit.keep")}
                </button>
            </Scroller>
        }
        .into_any(),
    }
    };
    let body = move || anew(content());
    let title = move || match shown.get() {
        View::List => t("ui.limits.title"),
        _ => t("ui.limit.new"),
    };
    view! { <Page title=Signal::derive(title) on_back=Callback::new(go_back)>{body}</Page> }
}

/// The kinds of part that a fact knows.
fn options_of(session: Session, fact: &str) -> Vec<OptionId> {
    let procedures = session.procedures();
    match procedures.newest().fact(&fact.into()).map(|def| &def.kind) {
        Some(FactKind::Choose(options)) => options.clone(),
        _ => Vec::new(),
    }
}

/// One of a few, with the line that asks for it.
fn page_of(
    line: &str,
    choices: Vec<Choice>,
    chosen: Option<String>,
    on_choose: Callback<String>,
) -> AnyView {
    let chosen: Vec<String> = chosen.into_iter().collect();
    view! {
        <p class="page-line">{t(line)}</p>
        <ChoiceList choices=Signal::stored(choices) chosen=Signal::stored(chosen) on_choose />
    }
    .into_any()
}

#[component]
fn LimitList(
    wanting: RwSignal<Vec<Words>>,
    on_new: Callback<()>,
    on_drop: Callback<ShopLimit>,
) -> impl IntoView {
    let session = expect_context::<Session>();
    let limits = move || session.shop.with(|sheet| sheet.values().limits.clone());
    let row = move |(n, limit): (usize, ShopLimit)| {
        let by = limit.by.as_ref().and_then(|by| {
            session
                .shop
                .with_untracked(|sheet| sheet.person(by).map(|person| person.name.clone()))
        });
        let told = limit_told(&limit);
        let detail = match by {
            Some(name) => fill("ui.limit.by", &[("limit", &told), ("name", &name)]),
            None => told,
        };
        let words = limit_for_told(&limit);
        view! {
            <li class="line" data-testid=format!("limit-row-{n}")>
                <span class="row-words">
                    <span>{words}</span>
                    <small>{detail}</small>
                </span>
                <button type="button" class="key line-key" data-testid=format!("limit-drop-{n}") on:click=move |_| on_drop.run(limit.clone())>
                    {t("ui.limit.drop")}
                </button>
            </li>
        }
    };
    view! {
        <Scroller>
            <p class="page-line">{t("ui.limits.line")}</p>
            <button type="button" class="key wide-key" data-testid="limit-new" on:click=move |_| on_new.run(())>
                {t("ui.limit.new")}
            </button>
            <Wanting words=wanting />
            <ul class="rows" data-testid="limits">
                {move || limits().into_iter().enumerate().map(row).collect_view()}
            </ul>
        </Scroller>
    }
}
