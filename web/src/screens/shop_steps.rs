//! Steps of the shop's own, in its own words: each for a stage, at each wheel end, at each axle or
//! once. A card that takes them asks them at the end of their stage; none of ours goes.

use job::event::ShopStep;
use job::id::{StageId, StepId};
use job::procedure::Scope;
use job::shop::{self, STEP_SCOPES};
use job::words::Words;
use leptos::prelude::*;

use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::scroller::Scroller;
use crate::parts::text_entry::TextEntry;
use crate::session::Session;
use crate::words::t;

use super::page::{Page, anew, back_to_shop};
use super::told::{scope_key, shop_step_at};
use super::wanting::Wanting;

/// What this screen shows now.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum View {
    List,
    Stage,
    Scope,
    Words,
}

impl View {
    fn before(self) -> Self {
        match self {
            Self::List | Self::Stage => Self::List,
            Self::Scope => Self::Stage,
            Self::Words => Self::Scope,
        }
    }
}

/// What has been said of a step. Lives in the screen, so that nothing is lost.
#[derive(Clone, Copy)]
struct Said {
    stage: RwSignal<Option<StageId>>,
    scope: RwSignal<Option<Scope>>,
    words: RwSignal<String>,
    /// The step on the sheet that it takes the place of.
    was: RwSignal<Option<StepId>>,
}

impl Said {
    fn new() -> Self {
        Self {
            stage: RwSignal::new(None),
            scope: RwSignal::new(None),
            words: RwSignal::new(String::new()),
            was: RwSignal::new(None),
        }
    }

    fn clear(self) {
        self.stage.set(None);
        self.scope.set(None);
        self.words.set(String::new());
        self.was.set(None);
    }

    fn begin_with(self, step: &ShopStep) {
        self.stage.set(Some(step.stage.clone()));
        self.scope.set(Some(step.scope));
        self.words.set(step.words.clone());
        self.was.set(Some(step.id()));
    }

    fn step(self) -> Option<ShopStep> {
        Some(ShopStep {
            stage: self.stage.get_untracked()?,
            scope: self.scope.get_untracked()?,
            words: self.words.get_untracked(),
        })
    }
}

/// The list, or the pages of one step.
#[component]
pub(crate) fn ShopStepsScreen() -> impl IntoView {
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
        view => show(view.before()),
    };
    let told = move |changed: Result<(), Words>| wanting.set(changed.err().into_iter().collect());
    let new = Callback::new(move |()| {
        if said.was.with_untracked(Option::is_some) {
            said.clear();
        }
        show(View::Stage);
    });
    let change = Callback::new(move |step: ShopStep| {
        said.begin_with(&step);
        show(View::Stage);
    });
    let drop = Callback::new(move |step: ShopStep| {
        told(session.change_shop(|sheet| shop::drop_step(sheet, &step.id()), |_| ()));
    });
    let keep = Callback::new(move |()| {
        let Some(step) = said.step() else {
            return wanting.set(vec![Words::plain("ui.choose-first")]);
        };
        let was = said.was.get_untracked();
        let procedures = session.procedures();
        told(session.change_shop(
            |sheet| shop::set_step(sheet, procedures.newest(), &step, was.as_ref()),
            move |_| {
                if shown.try_get_untracked().is_some() {
                    said.clear();
                    show(View::List);
                }
            },
        ));
    });
    let content = move || {
        match shown.get() {
        View::List => view! { <StepList wanting on_new=new on_change=change on_drop=drop /> }.into_any(),
        View::Stage => stages(session, said, move || show(View::Scope)),
        View::Scope => scopes(said, move || show(View::Words)),
        View::Words => view! {
            <Scroller>
                <p class="page-line">{said.step().map(|step| shop_step_at(&step))}</p>
                <TextEntry words=t("ui.shop-step.words") text=said.words testid="shop-step-words" />
                <Wanting words=wanting />
                <button type="button" class="key wide-key" data-testid="shop-step-keep" on:click=move |_| keep.run(())>
                    {t("ui.shop-step.keep")}
                </button>
            </Scroller>
        }
        .into_any(),
    }
    };
    let body = move || anew(content());
    let title = move || match shown.get() {
        View::List => t("ui.shop-steps.title"),
        _ if said.was.with(Option::is_some) => t("ui.shop-step.change-title"),
        _ => t("ui.shop-step.new"),
    };
    view! { <Page title=Signal::derive(title) on_back=Callback::new(go_back)>{body}</Page> }
}

fn stages(session: Session, said: Said, next: impl Fn() + Send + Sync + 'static) -> AnyView {
    let procedures = session.procedures();
    let choices: Vec<Choice> = procedures
        .newest()
        .stages
        .iter()
        .map(|stage| Choice::new(stage.id.as_str(), t(&format!("stage.{}", stage.id))))
        .collect();
    let chosen: Vec<String> = said
        .stage
        .get_untracked()
        .iter()
        .map(StageId::to_string)
        .collect();
    let choose = Callback::new(move |id: String| {
        said.stage.set(Some(StageId::new(id)));
        next();
    });
    view! {
        <p class="page-line">{t("ui.shop-step.stage")}</p>
        <ChoiceList choices=Signal::stored(choices) chosen=Signal::stored(chosen) on_choose=choose />
    }
    .into_any()
}

fn scopes(said: Said, next: impl Fn() + Send + Sync + 'static) -> AnyView {
    let choice = |scope| Choice::new(scope_key(scope), t(scope_key(scope)));
    let choices = STEP_SCOPES.map(choice).to_vec();
    let chosen = said
        .scope
        .get_untracked()
        .map(|scope| scope_key(scope).to_owned());
    let chosen: Vec<String> = chosen.into_iter().collect();
    let choose = Callback::new(move |id: String| {
        let scope = STEP_SCOPES
            .into_iter()
            .find(|scope| scope_key(*scope) == id);
        said.scope.set(scope);
        next();
    });
    view! {
        <p class="page-line">{t("ui.shop-step.scope")}</p>
        <ChoiceList choices=Signal::stored(choices) chosen=Signal::stored(chosen) on_choose=choose />
    }
    .into_any()
}

#[component]
fn StepList(
    wanting: RwSignal<Vec<Words>>,
    on_new: Callback<()>,
    on_change: Callback<ShopStep>,
    on_drop: Callback<ShopStep>,
) -> impl IntoView {
    let session = expect_context::<Session>();
    let steps = move || session.shop.with(|sheet| sheet.values().steps.clone());
    let row = move |(n, step): (usize, ShopStep)| {
        let (words, detail) = (step.words.clone(), shop_step_at(&step));
        let to_change = step.clone();
        view! {
            <li class="line" data-testid=format!("shop-step-{n}")>
                <span class="row-words">
                    <span>{words}</span>
                    <small>{detail}</small>
                </span>
                <button type="button" class="key line-key" data-testid=format!("shop-step-change-{n}") on:click=move |_| on_change.run(to_change.clone())>
                    {t("ui.shop-step.change")}
                </button>
                <button type="button" class="key line-key" data-testid=format!("shop-step-drop-{n}") on:click=move |_| on_drop.run(step.clone())>
                    {t("ui.shop-step.drop")}
                </button>
            </li>
        }
    };
    view! {
        <Scroller>
            <p class="page-line">{t("ui.shop-steps.line")}</p>
            <button type="button" class="key wide-key" data-testid="shop-step-new" on:click=move |_| on_new.run(())>
                {t("ui.shop-step.new")}
            </button>
            <Wanting words=wanting />
            <ul class="rows" data-testid="shop-steps">
                {move || steps().into_iter().enumerate().map(row).collect_view()}
            </ul>
        </Scroller>
    }
}
