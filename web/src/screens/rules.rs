//! Why these numbers: every rule with its limits, its figures and where each of them is printed.
//!
//! It shows what the rules crate lists, and adds no number of its own.

use leptos::prelude::*;
use rules::quantity::Quantity;
use rules::rules::{EDITION, Figure, RULES, Rule};
use rules::shown;
use rules::source::{Source, Standing};
use rules::unit::Unit;
use rules::verdict::Side;

use crate::parts::scroller::Scroller;
use crate::session::Session;
use crate::words::{fill, t, unit, word};

use super::page::{Page, way_back};

/// The rule that somebody asked about; the screen turns to it. Set it, then go to the rules.
#[derive(Clone, Copy)]
pub(crate) struct WhyRule(pub(crate) RwSignal<Option<&'static str>>);

/// Makes [`WhyRule`] known to all screens. Call once, at the root.
pub(crate) fn provide_why_rule() {
    provide_context(WhyRule(RwSignal::new(None)));
}

/// Every rule, in the order of the job.
#[component]
pub(crate) fn RulesScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let back = way_back(session);
    let asked = use_context::<WhyRule>().and_then(|WhyRule(rule)| {
        let asked = rule.get_untracked();
        // Asked once: the next time the list opens at its top.
        rule.set(None);
        asked
    });
    Effect::new(move || {
        if let Some(asked) = asked {
            turn_to(&element_id(asked));
        }
    });
    let rule = move |rule: &'static Rule| {
        let is_asked = asked == Some(rule.id.0);
        view! { <RuleShown rule is_asked /> }
    };
    view! {
        <Page title=t("ui.rules.title") on_back=back>
            <Scroller>
                <p class="page-line">{t("caution.first")}</p>
                <p class="page-line">{fill("ui.rules.edition", &[("edition", EDITION)])}</p>
                <div class="rules" data-testid="rules">{RULES.iter().map(rule).collect_view()}</div>
            </Scroller>
        </Page>
    }
}

fn element_id(rule: &str) -> String {
    format!("rule-{rule}")
}

fn turn_to(id: &str) {
    let there = web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.get_element_by_id(id));
    if let Some(there) = there {
        there.scroll_into_view();
    }
}

#[component]
fn RuleShown(rule: &'static Rule, is_asked: bool) -> impl IntoView {
    let practice = (rule.standing() == Standing::CommonPractice).then(|| t("caution.common"));
    let figure = |figure: &Figure| {
        view! {
            <li>
                <span>{figure.name}</span>
                <strong>{figure_words(rule, figure)}</strong>
            </li>
        }
    };
    view! {
        <article class="rule" class:asked=is_asked id=element_id(rule.id.0) data-testid=format!("rule-{}", rule.id.0)>
            <h2>{word(&rule.title)}</h2>
            <p class="page-line">{word(&rule.limits)}</p>
            {practice.map(|practice| view! { <p class="trail-though">{practice}</p> })}
            <ul class="figures">{rule.figures.iter().map(figure).collect_view()}</ul>
            <ul class="sources">{rule.sources.iter().map(|source| source_words(source)).collect_view()}</ul>
        </article>
    }
}

/// "at most 1 3/4 in, printed beside 44.5 mm".
pub(crate) fn figure_words(rule: &Rule, figure: &Figure) -> String {
    let side = match figure.limit.side {
        Side::AtMost => "ui.rules.at-most",
        Side::AtLeast => "ui.rules.at-least",
    };
    let first = fill(
        side,
        &[("figure", &printed(figure.limit.figure, rule.units))],
    );
    match figure.limit.beside {
        Some(beside) => fill(
            "ui.rules.beside",
            &[("figure", &first), ("beside", &printed(beside, rule.units))],
        ),
        None => first,
    }
}

/// A figure in the unit it is printed in: of those that its rule takes, the shortest that carries it
/// exactly, else of all.
fn printed(figure: Quantity, of_rule: &[Unit]) -> String {
    if let Quantity::Length(length) = figure
        && of_rule.contains(&Unit::Inch)
        && let Some(text) = shown::inch_fraction(length)
    {
        return format!("{text} {}", unit(Unit::Inch));
    }
    let exact = |of: &Unit| {
        shown::exact(figure, *of).map(|text| (text.len(), format!("{text} {}", unit(*of))))
    };
    let shortest = |units: &[Unit]| {
        units
            .iter()
            .filter(|of| of.dimension() == figure.dimension() && **of != Unit::TonUnmarked)
            .filter_map(exact)
            .min_by_key(|(length, _)| *length)
    };
    shortest(of_rule)
        .or_else(|| shortest(Unit::ALL))
        .map(|(_, text)| text)
        .unwrap_or_else(|| format!("{figure:?}"))
}

fn source_words(source: &Source) -> impl IntoView + use<> {
    let place = [source.document, source.edition, source.clause];
    let place = place
        .into_iter()
        .filter(|part| !part.is_empty())
        .collect::<Vec<_>>()
        .join(", ");
    let has_text = match source.standing {
        Standing::Regulation | Standing::Standard | Standing::Manual | Standing::TradePress => true,
        Standing::CommonPractice | Standing::Shop | Standing::Part | Standing::FromMemory => false,
    };
    let checked = has_text.then(|| fill("ui.rules.checked", &[("day", source.checked)]));
    view! {
        <li>
            <strong>{word(&source.standing.word())}</strong>
            <span>{place}</span>
            {checked.map(|checked| view! { <small>{checked}</small> })}
        </li>
    }
}
