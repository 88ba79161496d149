//! Turns what happened into words: one sentence for each kind of event, with the names that the
//! card and its procedure have for things. It judges nothing and leaves nothing out.

use std::collections::BTreeMap;

use job::card::{Card, Entry, Given, Though};
use job::event::{
    Answer, Event, Exception, FactValue, FinalPass, Item, JackTag, JudgedThen, ShopLimit, ShopStep,
    StandTag, StandUsed, TypedText, WheelSpec, WrenchTag,
};
use job::extra::Note;
use job::id::{AskId, FactId, OptionId, PersonId, Place, StepId};
use job::judge::Units;
use job::line::{LineRef, Said, Sha};
use job::procedure::{Ask, AskKind, Items, Scope, Step};
use job::road::MovedAt;
use job::shop::{Kinds, kind_parts, limit_for};
use job::slot::Slot;
use job::trail::TrailFault;
use job::words::{Arg, Words};

use crate::judged::rule_title;
use crate::say::{amount, place, say, say_remark};
use crate::words::{fill, find, t};

use super::extra_told::note_words;
use super::kinds::layout_words;

/// The fact that says how the axles stand in groups.
const LAYOUT: &str = "layout";

/// What happened, in one sentence.
pub(crate) fn told(card: &Card, event: &Event, units: &Units) -> String {
    let words = match event {
        Event::Struck { line, why } => {
            let what = card.entry(line).map_or_else(
                || t("event.line-not-here"),
                |entry| told_plainly(card, &entry.said, units),
            );
            match why {
                Some(why) => Words::with(
                    "event.struck-because",
                    [("what", Arg::Text(what)), ("why", Arg::Text(why.clone()))],
                ),
                None => Words::with("event.struck", [("what", Arg::Text(what))]),
            }
        }
        event => words_of(card, event),
    };
    say(&words, units)
}

/// What a line says, also one of a newer app; a strike without what it took back.
fn told_plainly(card: &Card, said: &Said, units: &Units) -> String {
    match said {
        Said::Known(event) => say(&words_of(card, event), units),
        Said::MayBeSkipped { kind } | Said::MustBeUnderstood { kind } => {
            fill("event.newer-kind", &[("kind", kind)])
        }
    }
}

/// What a line of the trail says.
pub(crate) fn told_line(card: &Card, said: &Said, units: &Units) -> String {
    match said {
        Said::Known(event) => told(card, event, units),
        Said::MayBeSkipped { .. } | Said::MustBeUnderstood { .. } => {
            told_plainly(card, said, units)
        }
    }
}

/// Nuts that moved at the road check, and what that means.
pub(crate) fn told_moved(moved: &MovedAt, units: &Units) -> String {
    let nuts: Vec<String> = moved.nuts.iter().map(u16::to_string).collect();
    fill(
        "ui.road.moved",
        &[
            ("place", &place(moved.at)),
            ("nuts", &nuts.join(", ")),
            ("means", &say_remark(&moved.moved.remark(), units)),
        ],
    )
}

/// What an extra line is about, by the line of the trail that found it.
fn line_name(card: &Card, line: &LineRef) -> Arg {
    match card.entry(line).and_then(Entry::event) {
        Some(Event::LineFound { finding, .. }) => Arg::Key(format!("finding.{finding}")),
        _ => Arg::Text(String::new()),
    }
}

fn words_of(card: &Card, event: &Event) -> Words {
    let text = |text: &str| Arg::Text(text.to_owned());
    let name = |person: &PersonId| text(card.name(person));
    match event {
        Event::CardOpened {
            procedure,
            rules,
            app,
        } => Words::with(
            "event.card-opened",
            [
                ("procedure", text(&procedure.id)),
                ("rules", text(rules)),
                ("app", text(app)),
            ],
        ),
        Event::ProcedureMoved { to } => {
            Words::with("event.procedure-moved", [("procedure", text(&to.id))])
        }
        Event::SignedOn { name, role, .. } => Words::with(
            "event.signed-on",
            [
                ("name", text(name)),
                ("role", Arg::Key(format!("role.{}", role.code()))),
            ],
        ),
        Event::SignedOff { person, why: None } => {
            Words::with("event.signed-off", [("name", name(person))])
        }
        Event::SignedOff {
            person,
            why: Some(why),
        } => Words::with(
            "event.signed-off-by",
            [("name", name(person)), ("why", Arg::Text(why.clone()))],
        ),
        Event::FactSet { at, fact, value } => Words::with(
            "event.fact-set",
            [
                ("place", Arg::Place(*at)),
                ("fact", Arg::Text(fact_name(fact))),
                ("value", Arg::Text(fact_value(fact, value))),
            ],
        ),
        Event::LineFound { at, finding, .. } => Words::with(
            "event.line-found",
            [
                ("place", Arg::Place(*at)),
                ("finding", Arg::Key(format!("finding.{finding}"))),
            ],
        ),
        Event::LineTold {
            line,
            state,
            asked: Some(asked),
        } => Words::with(
            "event.line-told-asked",
            [
                ("finding", line_name(card, line)),
                ("state", Arg::Key(format!("line.state.{}", state.code()))),
                ("asked", text(asked)),
            ],
        ),
        Event::LineTold { line, state, .. } => Words::with(
            "event.line-told",
            [
                ("finding", line_name(card, line)),
                ("state", Arg::Key(format!("line.state.{}", state.code()))),
            ],
        ),
        Event::LinePassed { line, why } => Words::with(
            "event.line-passed",
            [
                ("finding", line_name(card, line)),
                ("why", Arg::Text(why.clone())),
            ],
        ),
        Event::LinePhoto { line, .. } => {
            Words::with("event.line-photo", [("finding", line_name(card, line))])
        }
        Event::LinePart { line, part, number } => {
            let note = Note::Part {
                part: part.clone(),
                number: number.clone(),
            };
            Words::with(
                "event.line-part",
                [
                    ("finding", line_name(card, line)),
                    ("part", Arg::Text(note_words(&note))),
                ],
            )
        }
        Event::LineMinutes { line, minutes } => Words::with(
            "event.line-minutes",
            [
                ("finding", line_name(card, line)),
                ("minutes", Arg::Text(minutes.to_string())),
            ],
        ),
        Event::CameBack { but, .. } if but.is_empty() => Words::plain("event.came-back"),
        Event::CameBack { but, .. } => {
            let but: Vec<String> = but.iter().map(|kept| t(&format!("kept.{kept}"))).collect();
            Words::with("event.came-back-but", [("but", Arg::Text(but.join(", ")))])
        }
        Event::PutAway { away: true } => Words::plain("event.put-away"),
        Event::PutAway { away: false } => Words::plain("event.taken-out"),
        Event::Brought { item, how } => Words::with(
            "event.brought",
            [
                (
                    "item",
                    Arg::Text(named(&format!("bring.{item}"), item.as_str())),
                ),
                ("how", Arg::Key(format!("bring.how.{}", how.code()))),
            ],
        ),
        Event::EndTaken { at } => Words::with("event.end-taken", [("place", Arg::Place(*at))]),
        Event::Answered {
            at,
            step,
            ask,
            item,
            answer,
            beside,
            ..
        } => Words::with(
            "event.answered",
            [
                ("place", Arg::Place(*at)),
                ("step", Arg::Text(step_name(step))),
                ("ask", Arg::Text(asked(card, step, ask, item))),
                (
                    "answer",
                    Arg::Text(with_beside(
                        card,
                        answered(card, step, ask, answer),
                        beside.as_ref(),
                    )),
                ),
            ],
        ),
        Event::StepSkipped { at, step, why } => Words::with(
            "event.step-skipped",
            [
                ("place", Arg::Place(*at)),
                ("step", Arg::Text(step_name(step))),
                (
                    "why",
                    Arg::Text(named(&format!("skip.{step}.{why}"), why.as_str())),
                ),
            ],
        ),
        Event::HoldPassed {
            at,
            step,
            first,
            why,
        } if step == first => Words::with(
            "event.reason-given",
            [
                ("place", Arg::Place(*at)),
                ("step", Arg::Text(step_name(step))),
                ("why", text(why)),
            ],
        ),
        Event::HoldPassed {
            at,
            step,
            first,
            why,
        } => Words::with(
            "event.hold-passed",
            [
                ("place", Arg::Place(*at)),
                ("step", Arg::Text(step_name(step))),
                ("first", Arg::Text(step_name(first))),
                ("why", text(why)),
            ],
        ),
        Event::Struck { .. } => Words::plain("event.a-strike"),
        Event::Joined { heads } => Words::with(
            "event.joined",
            [("count", Arg::Text(heads.len().to_string()))],
        ),
        Event::PersonListed { name, role, .. } => Words::with(
            "event.person-listed",
            [
                ("name", text(name)),
                ("role", Arg::Key(format!("role.{}", role.code()))),
            ],
        ),
        Event::PersonLeft { person } => Words::with("event.person-left", [("name", name(person))]),
        Event::StandListed { stand, tag } => Words::with(
            "event.stand-listed",
            [("stand", text(stand)), ("tag", Arg::Text(told_tag(tag)))],
        ),
        Event::StandWithdrawn { stand, why } => Words::with(
            "event.stand-withdrawn",
            [("stand", text(stand)), ("why", text(why))],
        ),
        Event::WrenchListed { wrench, tag } => Words::with(
            "event.wrench-listed",
            [
                ("wrench", text(wrench)),
                ("tag", Arg::Text(told_wrench_tag(tag))),
            ],
        ),
        Event::WheelSet { wheel, spec } => Words::with(
            "event.wheel-set",
            [
                ("wheel", Arg::Key(format!("wheel.{wheel}"))),
                (
                    "values",
                    Arg::Text(
                        spec.as_ref()
                            .map_or_else(|| t("ui.wheel.printed"), |spec| wheel_told(spec)),
                    ),
                ),
            ],
        ),
        Event::DefaultSet { fact, option } => Words::with(
            "event.default-set",
            [
                ("fact", Arg::Text(fact_name(fact))),
                (
                    "value",
                    Arg::Text(option.as_ref().map_or_else(
                        || t("ui.default.asked"),
                        |option| fact_value(fact, &FactValue::Choice(option.clone())),
                    )),
                ),
            ],
        ),
        Event::ShopTaken { values } => Words::with(
            "event.shop-taken",
            [("version", Arg::Text(version_told(values.version())))],
        ),
        Event::ShopStepSet { step, .. } => Words::with(
            "event.shop-step-set",
            [
                ("step", text(&step.words)),
                ("at", Arg::Text(shop_step_at(step))),
            ],
        ),
        Event::ShopStepDropped { step } => Words::with(
            "event.shop-step-dropped",
            [("step", Arg::Text(step_name(step)))],
        ),
        Event::FinalPassSet { way } => Words::with(
            "event.final-pass-set",
            [("way", Arg::Text(final_pass_told(*way)))],
        ),
        Event::LimitSet { limit } => Words::with(
            "event.limit-set",
            [
                ("for", Arg::Text(limit_for_told(limit))),
                ("limit", Arg::Text(limit_told(limit))),
            ],
        ),
        Event::LimitDropped { limit } => Words::with(
            "event.limit-dropped",
            [("for", Arg::Text(limit_for_told(limit)))],
        ),
        Event::JackListed { jack, tag } => Words::with(
            "event.jack-listed",
            [("jack", text(jack)), ("tag", Arg::Text(told_jack_tag(tag)))],
        ),
        Event::JackWithdrawn { jack, why } => Words::with(
            "event.jack-withdrawn",
            [("jack", text(jack)), ("why", text(why))],
        ),
        Event::WrenchWithdrawn { wrench, why } => Words::with(
            "event.wrench-withdrawn",
            [("wrench", text(wrench)), ("why", text(why))],
        ),
    }
}

/// The words of a key, or the id where another edition of the procedure had the thing.
fn named(key: &str, id: &str) -> String {
    find(key).unwrap_or_else(|| id.to_owned())
}

/// What a step is called.
pub(crate) fn step_name(step: &StepId) -> String {
    named(&format!("step.{step}"), step.as_str())
}

/// What a fact is called.
pub(crate) fn fact_name(fact: &FactId) -> String {
    named(&format!("fact.{fact}"), fact.as_str())
}

/// A fact's value, exactly as given.
pub(crate) fn fact_value(fact: &FactId, value: &FactValue) -> String {
    match value {
        FactValue::Choice(option) => named(&format!("fact.{fact}.{option}"), option.as_str()),
        FactValue::Typed(typed) => told_typed(typed),
        FactValue::Count(count) => count.to_string(),
        FactValue::Axles(axles) => listed(axles.iter().map(u8::to_string)),
        // The kind of vehicle has a line of its own.
        FactValue::Text(text) if fact.as_str() == LAYOUT => layout_words("", text),
        FactValue::Text(text) => text.clone(),
        FactValue::NotKnown => t("ui.not-known"),
    }
}

/// What was asked, and of which of several.
pub(crate) fn asked(card: &Card, step: &StepId, ask: &AskId, item: &Item) -> String {
    let asked = named(&format!("ask.{step}.{ask}"), ask.as_str());
    match item {
        Item::Only => asked,
        Item::Person(person) => fill(
            "event.item",
            &[("ask", &asked), ("item", card.name(person))],
        ),
        Item::Nut(nut) => fill(
            "event.item-nut",
            &[("ask", &asked), ("nut", &nut.to_string())],
        ),
    }
}

/// An answer, and who stood beside.
pub(crate) fn with_beside(card: &Card, answer: String, beside: Option<&PersonId>) -> String {
    match beside {
        Some(beside) => fill(
            "event.with-beside",
            &[("answer", &answer), ("name", card.name(beside))],
        ),
        None => answer,
    }
}

/// An answer, in words.
pub(crate) fn answered(card: &Card, step: &StepId, ask: &AskId, answer: &Answer) -> String {
    let option = |option: &OptionId| named(&format!("ask.{step}.{ask}.{option}"), option.as_str());
    match answer {
        Answer::Lines { out } if out.is_empty() => t("event.all-done"),
        Answer::Lines { out } => fill("event.all-but", &[("out", &listed(out.iter().map(option)))]),
        Answer::Choice { option: chosen }
        | Answer::Press { option: chosen }
        | Answer::Nut { mark: chosen } => option(chosen),
        Answer::Reading { typed } => told_typed(typed),
        Answer::Count { count } => count.to_string(),
        Answer::Wheels { at } => listed(at.iter().map(|at| place(*at))),
        Answer::Exceptions { but } if but.is_empty() => t("event.all-in-order"),
        Answer::Exceptions { but } => fill(
            "event.in-order-but",
            &[("but", &exceptions(card, step, ask, but))],
        ),
        Answer::WholePass { but } if but.is_empty() => t("event.whole-pass"),
        Answer::WholePass { but } => fill(
            "event.whole-pass-but",
            &[("but", &exceptions(card, step, ask, but))],
        ),
        Answer::Stands { stands } => listed(stands.iter().map(told_stand)),
        Answer::Wrench { used } => fill(
            "event.wrench",
            &[
                ("wrench", &used.wrench),
                ("tag", &told_wrench_tag(&used.tag)),
            ],
        ),
        Answer::Jack { used } => fill(
            "event.jack",
            &[("jack", &used.jack), ("tag", &told_jack_tag(&used.tag))],
        ),
        Answer::Look { accepted: true, .. } => t("event.look.accepted"),
        Answer::Look {
            accepted: false,
            why,
            ..
        } => fill(
            "event.look.sent-back",
            &[("why", why.as_deref().unwrap_or_default())],
        ),
    }
}

/// What an ask was answered with, as it stands now: every item of it, and both of two answers that had
/// not seen each other. Empty if nobody answered it. The runner shows it.
pub(crate) fn answer_told(card: &Card, step: &Step, ask: &Ask, at: Place) -> String {
    if let AskKind::Fact(fact) = &ask.kind {
        let live = card.fact_slot(at, fact).map(Slot::live).unwrap_or_default();
        return listed(live.iter().map(|held| fact_value(fact, &held.value)));
    }
    let people = card.people.keys().cloned().map(Item::Person);
    let nuts = (1..=card.studs(at).unwrap_or(0)).map(Item::Nut);
    let items = std::iter::once(Item::Only).chain(people).chain(nuts);
    let told = items.flat_map(|item| {
        let live = card
            .slot(step, ask, at, item.clone())
            .map(Slot::live)
            .unwrap_or_default();
        let told = |given: &Given| {
            let told = with_beside(
                card,
                answered(card, &step.id, &ask.id, &given.answer),
                given.beside.as_ref(),
            );
            match &item {
                Item::Only => told,
                Item::Person(person) => format!("{}: {told}", card.name(person)),
                Item::Nut(nut) => format!("{nut}: {told}"),
            }
        };
        live.iter()
            .map(|held| told(&held.value))
            .collect::<Vec<_>>()
    });
    told.collect::<Vec<_>>().join("; ")
}

fn exceptions(card: &Card, step: &StepId, ask: &AskId, but: &[Exception]) -> String {
    let of_named = card.procedure.as_deref().and_then(|procedure| procedure.ask(step, ask)).is_some_and(
        |ask| matches!(&ask.kind, AskKind::Exceptions(exceptions) if matches!(exceptions.of, Items::Named(_))),
    );
    let mut by_mark: BTreeMap<&OptionId, Vec<String>> = BTreeMap::new();
    for one in but {
        let item = if of_named {
            named(&format!("ask.{step}.{ask}.{}", one.item), &one.item)
        } else {
            one.item.clone()
        };
        by_mark.entry(&one.mark).or_default().push(item);
    }
    let told = by_mark.into_iter().map(|(mark, items)| {
        let mark = named(&format!("ask.{step}.{ask}.{mark}"), mark.as_str());
        fill(
            "event.marked",
            &[("mark", &mark), ("items", &items.join(", "))],
        )
    });
    told.collect::<Vec<_>>().join("; ")
}

fn told_typed(typed: &TypedText) -> String {
    amount(&job::event::Amount {
        text: typed.text.clone(),
        unit: typed.unit.clone(),
    })
}

fn told_stand(stand: &StandUsed) -> String {
    let tag = told_tag(&stand.tag);
    if stand.stand.is_empty() {
        fill("event.stand-typed", &[("tag", &tag)])
    } else {
        fill("event.stand", &[("stand", &stand.stand), ("tag", &tag)])
    }
}

/// How the shop tightens a kind of wheel, with where it has that from.
pub(crate) fn wheel_told(spec: &WheelSpec) -> String {
    let (low, high) = (told_typed(&spec.low), told_typed(&spec.high));
    let oil = t(&format!("fact.fastener-oil.{}", spec.oil));
    let mut told = vec![fill(
        "event.wheel",
        &[
            ("low", &low),
            ("high", &high),
            ("oil", &oil),
            ("source", &spec.source),
        ],
    )];
    told.extend(spec.seat.as_ref().map(|[low, high]| {
        let (low, high) = (told_typed(low), told_typed(high));
        fill("event.wheel.seat", &[("low", &low), ("high", &high)])
    }));
    if !spec.order.is_empty() {
        let order: Vec<String> = spec.order.iter().map(u8::to_string).collect();
        told.push(fill("event.wheel.order", &[("order", &order.join(" "))]));
    }
    told.join(" ")
}

/// Where a step of the shop's own is done: its stage, and how often.
pub(crate) fn shop_step_at(step: &ShopStep) -> String {
    let stage = named(&format!("stage.{}", step.stage), step.stage.as_str());
    let scope = t(scope_key(step.scope));
    fill(
        "event.shop-step-at",
        &[("stage", &stage), ("scope", &scope)],
    )
}

/// The word key of how often a step is done.
pub(crate) fn scope_key(scope: Scope) -> &'static str {
    match scope {
        Scope::Vehicle => "scope.vehicle",
        Scope::Group | Scope::Axle => "scope.axle",
        Scope::End => "scope.end",
    }
}

/// Where the final pass is done, and how it is logged.
pub(crate) fn final_pass_told(way: FinalPass) -> String {
    let place = if way.on_stands { "stands" } else { "ground" };
    let log = if way.as_a_whole {
        "whole"
    } else {
        "one-by-one"
    };
    let (place, log) = (format!("final-pass.{place}"), format!("final-pass.{log}"));
    fill(
        "event.final-pass",
        &[("place", &t(&place)), ("log", &t(&log))],
    )
}

/// The name of a version of the shop sheet: enough of its digest to tell two apart.
pub(crate) fn version_told(version: Sha) -> String {
    version.to_string().chars().take(8).collect()
}

/// What a limit of the shop's own is for: what is measured, on which kind of part, by whose word.
pub(crate) fn limit_for_told(limit: &ShopLimit) -> String {
    let rule = rule_title(&limit.rule);
    let kinds = limit_for(&limit.rule).map_or(Kinds::One, |offered| offered.kinds);
    let of = limit.of.as_ref();
    let of = of.map_or_else(|| t("ui.limit.every-kind"), |of| kind_told(kinds, of));
    let law = limit.law.as_ref().map_or_else(
        || t("ui.limit.maker"),
        |law| {
            let place = named(&format!("fact.jurisdiction.{law}"), law.as_str());
            fill("ui.limit.law", &[("place", &place)])
        },
    );
    fill(
        "event.limit-for",
        &[("rule", &rule), ("of", &of), ("law", &law)],
    )
}

/// The kind of part that a limit of the shop's own is for.
pub(crate) fn kind_told(kinds: Kinds, of: &OptionId) -> String {
    let of_fact = |fact: &str, of: &str| named(&format!("fact.{fact}.{of}"), of);
    match (kinds, kind_parts(of)) {
        (Kinds::One, _) => of.to_string(),
        (Kinds::Of(fact), _) => of_fact(fact, of.as_str()),
        (Kinds::Narrowed { fact, .. }, (kind, None)) => of_fact(fact, kind),
        (Kinds::Narrowed { fact, by, .. }, (kind, Some(class))) => fill(
            "event.limit-class",
            &[
                ("kind", &of_fact(fact, kind)),
                ("class", &of_fact(by, class)),
            ],
        ),
        (Kinds::Axle, _) => named(&format!("limit.axle.{of}"), of.as_str()),
    }
}

/// The figure of a limit of the shop's own, with where it has it from.
pub(crate) fn limit_told(limit: &ShopLimit) -> String {
    let side = t(&format!("limit.side.{}", limit.side.code()));
    let figure = told_typed(&limit.figure);
    fill(
        "event.limit",
        &[
            ("side", &side),
            ("figure", &figure),
            ("source", &limit.source),
        ],
    )
}

/// What stands on the plate of a jack.
pub(crate) fn told_jack_tag(tag: &JackTag) -> String {
    told_typed(&tag.rating)
}

/// What is marked on a torque wrench, and when it was calibrated.
pub(crate) fn told_wrench_tag(tag: &WrenchTag) -> String {
    let marks = [
        ("low", told_typed(&tag.low)),
        ("high", told_typed(&tag.high)),
    ];
    let marks = marks.each_ref().map(|(name, text)| (*name, text.as_str()));
    match tag.calibrated {
        Some(day) => {
            let day = day.to_string();
            fill("event.wrench-tag", &[&marks[..], &[("day", &day)]].concat())
        }
        None => fill("event.wrench-tag.no-day", &marks),
    }
}

/// What is written on a stand, and how it looks.
pub(crate) fn told_tag(tag: &StandTag) -> String {
    let rating = tag
        .rating
        .as_ref()
        .map_or_else(|| t("ui.stand.no-figure"), told_typed);
    fill(
        "event.tag",
        &[
            ("rating", &rating),
            ("basis", &t(&format!("stand.basis.{}", tag.basis.code()))),
            (
                "condition",
                &t(&format!("stand.condition.{}", tag.condition.code())),
            ),
        ],
    )
}

/// A judgement as it was shown when the reading was taken: verdict, reading, limits, room, source.
pub(crate) fn told_judged(judged: &JudgedThen) -> String {
    let mut parts = vec![named(
        &format!("verdict.{}", judged.verdict),
        &judged.verdict,
    )];
    if let Some(reading) = &judged.reading {
        parts.push(fill(
            "event.judged.counted",
            &[("reading", &amount(reading))],
        ));
    }
    parts.extend(
        judged
            .limits
            .iter()
            .map(|limit| fill("event.judged.limit", &[("limit", &amount(limit))])),
    );
    if let Some(room) = &judged.room {
        parts.push(fill("event.judged.room", &[("room", &amount(room))]));
    }
    if !judged.source.is_empty() {
        parts.push(judged.source.clone());
    }
    parts.push(fill(
        "event.judged.edition",
        &[("edition", &judged.edition)],
    ));
    // Only the key of a remark is kept with a line: one that wants figures stays with its rule.
    let remarks = judged
        .remarks
        .iter()
        .filter_map(|key| find(key))
        .filter(|words| !words.contains('{'));
    parts.extend(remarks);
    fill(
        "event.judged",
        &[
            (
                "rule",
                &named(&format!("rule.{}", judged.rule), &judged.rule),
            ),
            ("said", &parts.join(" · ")),
        ],
    )
}

/// What an entry passed over.
pub(crate) fn told_though(card: &Card, though: &Though, units: &Units) -> String {
    match though {
        Though::Held(hold) => fill(
            "event.though.held",
            &[("hold", &say(&hold.words(card), units))],
        ),
        Though::BuiltOnStruck { first, at } => fill(
            "event.though.built-on-struck",
            &[("first", &step_name(first)), ("place", &place(*at))],
        ),
        Though::NotTheirs => t("event.though.not-theirs"),
    }
}

/// What is wrong with the trail as a whole.
pub(crate) fn told_fault(fault: &TrailFault) -> String {
    let (key, tablet, n) = match fault {
        TrailFault::Fork { tablet, n } => ("event.fault.fork", tablet, n),
        TrailFault::Gap { tablet, n } => ("event.fault.gap", tablet, n),
        TrailFault::Broken { tablet, n } => ("event.fault.broken", tablet, n),
        TrailFault::Aside { why } => return fill("event.fault.aside", &[("why", why)]),
    };
    fill(key, &[("tablet", tablet.as_str()), ("n", &n.to_string())])
}

/// "2, 3": in order, as given.
pub(crate) fn listed(items: impl Iterator<Item = String>) -> String {
    items.collect::<Vec<_>>().join(", ")
}
