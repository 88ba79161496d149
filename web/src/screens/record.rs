//! The record of the open card: the sheet as it will print, and the key that prints it.
//!
//! It tells what the job's record says, all of it, in words. It judges nothing: a verdict is the one
//! that was shown when the reading was taken, and nowhere does it say that a vehicle is safe.

use std::collections::BTreeMap;
use std::fmt::Display;

use job::card::{Card, Entry, StepState};
use job::event::{Event, FactValue};
use job::extra::ExtraLine;
use job::hand_back::InTheWay;
use job::id::{AskId, FactId, OptionId, PersonId, Place, StepId};
use job::judge::Units;
use job::judge::torque::log_faults;
use job::line::Stamp;
use job::record::{
    Again, Compared, Fact, Head, Nut, NutPass, NutSaid, Nuts, Person, Record, RoadTag, Said,
    StageAt, StepAt, Strands, Struck, What, WorkAt, record,
};
use job::road::moved;
use leptos::prelude::*;
use rules::torque::road_check;
use store::Which;

use crate::device;
use crate::judged::source_line;
use crate::parts::scroller::Scroller;
use crate::say::{place, say, say_remark};
use crate::session::Session;
use crate::words::{fill, find, t};

use super::extra_told::{fix_words, heading_of, notes, photos, told_words};
use super::moment::{moment, moment_in_full};
use super::page::{Page, way_back};
use super::rules::figure_words;
use super::told::{
    answered, asked, fact_name, fact_value, step_name, told_fault, told_judged, told_line,
    told_moved, told_though, version_told, with_beside,
};
use super::trail::struck_by;

/// The sheet and its one key.
#[component]
pub(crate) fn RecordScreen() -> impl IntoView {
    let session = expect_context::<Session>();
    let back = way_back(session);
    let print = move |_| {
        let printed = web_sys::window().map(|window| window.print());
        if !matches!(printed, Some(Ok(()))) {
            leptos::logging::warn!("the browser did not print");
        }
    };
    let sheet = move || {
        let card = session.open.get().map(|open| open.card);
        card.map(|card| {
            let words = Teller {
                card: &card,
                units: session.units(),
                language: session.settings.with(|settings| settings.language.clone()),
            };
            words.sheet(session.home.get() == Which::Practice)
        })
    };
    view! {
        <Page title=t("ui.record.title") on_back=back>
            <Scroller>{sheet}</Scroller>
            <button type="button" class="wide-done record-print" data-testid="print" on:click=print>
                {t("ui.record.print")}
            </button>
        </Page>
    }
}

/// Turns the record of one card into the sheet.
struct Teller<'a> {
    card: &'a Card,
    units: Units,
    language: String,
}

impl Teller<'_> {
    fn sheet(&self, practice: bool) -> AnyView {
        let record = record(self.card);
        let real = if practice {
            format!("{}. {}", t("ui.practice.bay"), t("ui.practice.not-real"))
        } else {
            t("ui.record.real")
        };
        let printed = moment_in_full(device::now().utc, &self.language);
        view! {
            <article class="record" class:practice=practice data-testid="record">
                <header>
                    <h1>{fill("ui.record.of", &[("unit", record.head.unit)])}</h1>
                    <p>{fill("ui.record.as-of", &[("when", &printed)])}</p>
                    <p class="record-mark" data-testid="record-mark">{real}</p>
                    <p>{t("ui.record.first")}</p>
                </header>
                {self.parts(&record)}
            </article>
        }
        .into_any()
    }

    fn parts(&self, record: &Record<'_>) -> Vec<AnyView> {
        let work = record.work.iter().map(|work| self.work(work));
        let before = [
            part(
                "ui.record.open-steps",
                "record-open",
                self.open(&record.open),
            ),
            part("ui.record.head", "record-head", self.head(&record.head)),
            part(
                "ui.record.people",
                "record-people",
                self.people(&record.people),
            ),
            part("ui.record.facts", "record-facts", self.facts(&record.facts)),
            part("ui.record.sides", "record-sides", self.sides(&record.sides)),
        ];
        let after = [
            part("ui.record.nuts", "record-nuts", self.nuts(&record.nuts)),
            part(
                "ui.record.lines",
                "record-lines",
                self.extra_lines(record.found.lines),
            ),
            part(
                "ui.record.found",
                "record-found",
                self.entries(&record.found.entries),
            ),
            part(
                "ui.record.looks",
                "record-looks",
                self.entries(&record.looks),
            ),
            part("ui.record.again", "record-again", self.again(&record.again)),
            part(
                "ui.record.skipped",
                "record-skipped",
                self.entries(&record.skipped),
            ),
            part(
                "ui.record.passed",
                "record-passed",
                self.entries(&record.passed),
            ),
            part(
                "ui.record.though",
                "record-though",
                self.entries(&record.though),
            ),
            part(
                "ui.record.struck",
                "record-struck",
                self.struck(&record.struck),
            ),
            part("ui.record.rest", "record-rest", self.entries(&record.rest)),
            part(
                "ui.record.strands",
                "record-strands",
                self.strands(&record.strands),
            ),
            self.tag(record.head.unit, &record.tag),
        ];
        before.into_iter().chain(work).chain(after).collect()
    }

    fn extra_lines(&self, extra: &[ExtraLine]) -> AnyView {
        let rows = extra.iter().map(|extra| {
            let by = |who: &PersonId, at: Stamp| {
                format!(
                    "{}, {}",
                    self.card.name(who),
                    moment(at.utc, &self.language)
                )
            };
            let found = format!("{}: {}", t("ui.extra.found"), by(&extra.who, extra.found));
            let said = extra
                .told
                .iter()
                .map(|told| format!("{}: {}", told_words(told), by(&told.who, told.at)));
            let passed = extra.passed.iter().map(|passed| {
                let why = fill("ui.extra.passed", &[("why", &passed.why)]);
                format!("{why}: {}", by(&passed.who, passed.at))
            });
            let said = lines(std::iter::once(found).chain(said).chain(passed));
            let what = [
                Some(heading_of(extra)),
                Some(fix_words(&extra.finding, &extra.fix)),
                extra.words.clone(),
            ];
            view! {
                <tr>
                    <td>{lines(what.into_iter().flatten())}</td>
                    <td>{said}</td>
                    <td><div class="record-notes">{notes(extra)}{photos(extra)}</div></td>
                </tr>
            }
            .into_any()
        });
        table(
            &["ui.record.what", "ui.extra.so-far", "ui.record.parts-time"],
            rows.collect(),
        )
    }

    fn when(&self, entry: &Entry) -> String {
        moment(entry.at.utc, &self.language)
    }

    fn who_when(&self, entry: &Entry) -> String {
        format!("{}, {}", self.card.name(&entry.who), self.when(entry))
    }

    fn open(&self, open: &[InTheWay]) -> AnyView {
        let rows = open.iter().map(|one| {
            let said = say(&one.words(self.card), &self.units);
            row(vec![said, say(&one.cleared(), &self.units)])
        });
        table(
            &["ui.record.in-the-way", "ui.record.cleared"],
            rows.collect(),
        )
    }

    fn head(&self, head: &Head<'_>) -> AnyView {
        let choice = |fact: &str, chosen: Option<&OptionId>| {
            chosen.map(|chosen| t(&format!("fact.{fact}.{chosen}")))
        };
        let opened = head.opened.map(|opened| {
            let pin = &opened.pin;
            [
                moment_in_full(opened.at.utc, &self.language),
                format!("{} {}", pin.id, pin.hash),
                opened.rules.clone(),
            ]
        });
        let [when, pin, rules] = match opened {
            Some(opened) => opened.map(Some),
            None => [None, None, None],
        };
        let followed = head.procedure.map(|procedure| {
            let (id, edition, hash) = (
                &procedure.pin.id,
                &procedure.edition,
                procedure.pin.hash.to_string(),
            );
            fill(
                "ui.record.procedure.of",
                &[("id", id), ("edition", edition), ("hash", &hash)],
            )
        });
        let axles = head.in_hand.iter().map(u8::to_string).collect::<Vec<_>>();
        let facts = [
            ("fact.unit", Some(head.unit.to_owned())),
            ("fact.plate", head.plate.map(str::to_owned)),
            ("fact.vehicle", choice("vehicle", head.vehicle)),
            ("fact.layout", head.layout.map(str::to_owned)),
            ("fact.in-hand", Some(axles.join(", "))),
            ("fact.loaded", choice("loaded", head.loaded)),
            ("ui.record.opened", when),
            ("ui.record.procedure", followed),
            ("ui.record.procedure.then", pin),
            ("ui.record.rules", rules),
            (
                "ui.record.shop",
                head.shop.map(|taken| version_told(taken.version)),
            ),
            ("ui.record.app", head.app.map(str::to_owned)),
            ("ui.record.card", Some(head.card.to_string())),
            (
                "ui.record.steps",
                Some(fill(
                    "ui.map.progress",
                    &[
                        ("done", &head.done.to_string()),
                        ("of", &head.of.to_string()),
                    ],
                )),
            ),
        ];
        let facts = facts.into_iter().map(|(key, value)| {
            let value = value.unwrap_or_else(|| t("ui.record.not-given"));
            row(vec![t(key), value])
        });
        let moved = head.moved.iter().map(|entry| self.entry_row(entry));
        let facts = table(&["ui.record.what", "ui.record.given"], facts.collect());
        let moved: Vec<AnyView> = moved.collect();
        view! {
            {facts}
            {(!moved.is_empty()).then(|| table(&ENTRY_HEADS, moved))}
        }
        .into_any()
    }

    fn people(&self, people: &[Person<'_>]) -> AnyView {
        let rows = people.iter().map(|person| {
            let role = person.role.map_or_else(
                || t("ui.record.not-signed-on"),
                |role| t(&format!("role.{}", role.code())),
            );
            let times = person.times.iter().map(|time| {
                let at = |entry: Option<&Entry>| entry.map(|entry| self.when(entry));
                let from = at(time.on).unwrap_or_else(|| t("ui.record.not-given"));
                match at(time.off) {
                    Some(until) => fill(
                        "ui.record.from-until",
                        &[("from", &from), ("until", &until)],
                    ),
                    None => fill("ui.record.since", &[("from", &from)]),
                }
            });
            let off = person.times.iter().filter_map(|time| time.off);
            let by_another = off.filter_map(|entry| match entry.event() {
                Some(Event::SignedOff { why: Some(_), .. }) => {
                    Some(told_line(self.card, &entry.said, &self.units))
                }
                _ => None,
            });
            let took = person
                .took
                .iter()
                .map(|entry| told_line(self.card, &entry.said, &self.units));
            row(vec![
                person.name.to_owned(),
                role,
                lines(times.chain(by_another).chain(took)),
            ])
        });
        table(
            &["ui.person.name", "ui.record.role", "ui.record.on-card"],
            rows.collect(),
        )
    }

    fn facts(&self, facts: &[Fact<'_>]) -> AnyView {
        let rows = facts.iter().map(|fact| {
            let what = format!("{} – {}", fact_name(fact.fact), place(fact.at));
            let values = fact
                .given
                .iter()
                .map(|(value, _)| fact_value(fact.fact, value));
            let givers = fact.given.iter().map(|(_, entry)| self.who_when(entry));
            row(vec![what, lines(values), lines(givers)])
        });
        table(
            &["ui.record.what", "ui.record.given", "ui.record.who-when"],
            rows.collect(),
        )
    }

    fn sides(&self, sides: &[Compared<'_>]) -> AnyView {
        let rows = sides.iter().flat_map(|side| {
            let head = across(place(side.at), 3);
            let rows = side.rows.iter().map(|of| {
                row(vec![
                    named(format!("ask.{}.{}", of.step, of.ask.id), &of.ask.id),
                    lines(of.found.iter().map(|said| self.said_in_full(said))),
                    lines(of.left.iter().map(|said| self.said_in_full(said))),
                ])
            });
            std::iter::once(head).chain(rows).collect::<Vec<_>>()
        });
        table(
            &["ui.record.what", "ui.record.as-found", "ui.record.as-left"],
            rows.collect(),
        )
    }

    fn said(&self, said: &Said<'_>) -> String {
        with_beside(
            self.card,
            answered(self.card, &said.key.step, &said.key.ask, &said.given.answer),
            said.given.beside.as_ref(),
        )
    }

    /// An answer with its verdict beneath, as it was judged then.
    fn said_in_full(&self, said: &Said<'_>) -> String {
        let judged = said.given.judged.iter().map(told_judged);
        lines(std::iter::once(self.said(said)).chain(judged))
    }

    fn work(&self, work: &WorkAt<'_>) -> AnyView {
        let title = fill("ui.record.work", &[("place", &place(work.at))]);
        let rows = work.stages.iter().flat_map(|stage| self.stage_rows(stage));
        let rows = table(
            &["ui.record.asked", "ui.record.answer", "ui.record.who-when"],
            rows.collect(),
        );
        view! {
            <section class="record-part" data-testid=format!("record-work-{}", work.at)>
                <h2>{title}</h2>
                {rows}
            </section>
        }
        .into_any()
    }

    fn stage_rows(&self, stage: &StageAt<'_>) -> Vec<AnyView> {
        let title = stage.stage.map_or_else(
            || t("ui.record.other-edition"),
            |stage| t(&format!("stage.{stage}")),
        );
        let (said, unsaid): (Vec<&StepAt<'_>>, Vec<&StepAt<'_>>) =
            stage.steps.iter().partition(|step| !step.said.is_empty());
        let said = said.into_iter().flat_map(|step| self.step_rows(step));
        // Steps of which nothing is said at this place stand together, by how far they are.
        let mut by_state: BTreeMap<StepState, Vec<String>> = BTreeMap::new();
        for (step, state) in unsaid.iter().filter_map(|of| Some((of.step, of.state?))) {
            by_state.entry(state).or_default().push(step_name(step));
        }
        let unsaid = by_state.into_iter().map(|(state, steps)| {
            let words = fill(
                "ui.record.steps-of",
                &[
                    ("state", &t(state_key(state))),
                    ("steps", &steps.join(", ")),
                ],
            );
            view! { <tr><td colspan="3">{words}</td></tr> }.into_any()
        });
        std::iter::once(across(title, 3))
            .chain(said)
            .chain(unsaid)
            .collect()
    }

    fn step_rows(&self, step: &StepAt<'_>) -> Vec<AnyView> {
        let title = match step.state {
            Some(state) => format!("{} – {}", step_name(step.step), t(state_key(state))),
            None => step_name(step.step),
        };
        let said = step.said.iter().map(|said| {
            let who = self.card.name(&said.given.who);
            row(vec![
                asked(self.card, &said.key.step, &said.key.ask, &said.key.item),
                self.said_in_full(said),
                format!("{who}, {}", moment(said.given.at.utc, &self.language)),
            ])
        });
        std::iter::once(step_head(title)).chain(said).collect()
    }

    fn nuts(&self, nuts: &[Nuts<'_>]) -> AnyView {
        if nuts.is_empty() {
            return none();
        }
        let tables = nuts.iter().map(|end| {
            let pass = |pass: &NutPass<'_>| {
                let ask = named(format!("ask.{}.{}", pass.step, pass.ask.id), &pass.ask.id);
                format!("{}: {ask}", step_name(pass.step))
            };
            let heads = std::iter::once(t("ui.record.nut")).chain(end.passes.iter().map(pass));
            let rows = end.nuts.iter().map(|nut| nut_row(&end.passes, nut));
            let rows = table_under(heads.collect(), rows.collect());
            let log = log_faults(self.card, end.at)
                .iter()
                .map(|fault| say_remark(&fault.remark(), &self.units))
                .map(|words| view! { <p data-testid="record-log">{words}</p> })
                .collect_view();
            view! { <h3>{place(end.at)}</h3> {rows} {log} }.into_any()
        });
        tables.collect::<Vec<_>>().into_any()
    }

    fn entry_row(&self, entry: &Entry) -> AnyView {
        row(vec![self.entry(entry), self.who_when(entry)])
    }

    /// One line of the trail, with its verdicts and what became of it.
    fn entry(&self, entry: &Entry) -> String {
        let told = told_line(self.card, &entry.said, &self.units);
        let judged = match entry.event() {
            Some(Event::Answered { judged, .. }) => judged.iter().map(told_judged).collect(),
            _ => Vec::new(),
        };
        let though = entry
            .though
            .iter()
            .map(|though| told_though(self.card, though, &self.units));
        let struck = entry
            .struck
            .iter()
            .map(|by| struck_by(self.card, by, &self.language));
        lines(
            std::iter::once(told)
                .chain(judged)
                .chain(though)
                .chain(struck),
        )
    }

    fn entries(&self, entries: &[&Entry]) -> AnyView {
        let rows = entries.iter().map(|entry| self.entry_row(entry));
        table(&ENTRY_HEADS, rows.collect())
    }

    fn again(&self, again: &[Again<'_>]) -> AnyView {
        let rows = again.iter().flat_map(|again| {
            let title = match again.what {
                What::Fact(at, fact) => format!("{} – {}", fact_name(fact), place(at)),
                What::Answer(key) => format!(
                    "{} – {}: {}",
                    step_name(&key.step),
                    place(key.at),
                    asked(self.card, &key.step, &key.ask, &key.item)
                ),
            };
            let entries = again.entries.iter().map(|entry| {
                let became = if again.stand.contains(&&entry.line) {
                    t("ui.record.stands")
                } else if entry.struck.is_some() {
                    t("ui.record.taken-back")
                } else {
                    t("ui.record.overtaken")
                };
                row(vec![
                    format!("{}\n{became}", self.value(entry)),
                    self.who_when(entry),
                ])
            });
            std::iter::once(across(title, 2))
                .chain(entries)
                .collect::<Vec<_>>()
        });
        table(&ENTRY_HEADS, rows.collect())
    }

    /// What a line says without what it says it of.
    fn value(&self, entry: &Entry) -> String {
        match entry.event() {
            Some(Event::Answered {
                step,
                ask,
                answer,
                beside,
                judged,
                ..
            }) => {
                let told = answered(self.card, step, ask, answer);
                let told = with_beside(self.card, told, beside.as_ref());
                lines(std::iter::once(told).chain(judged.iter().map(told_judged)))
            }
            Some(Event::FactSet { fact, value, .. }) => fact_value(fact, value),
            _ => told_line(self.card, &entry.said, &self.units),
        }
    }

    fn struck(&self, struck: &[Struck<'_>]) -> AnyView {
        let rows = struck.iter().map(|struck| {
            // What was said stays readable, struck through; who took it back stands beneath.
            let told = told_line(self.card, &struck.entry.said, &self.units);
            let by = struck.by.map_or_else(
                || t("event.line-not-here"),
                |by| struck_by(self.card, &by.line, &self.language),
            );
            let who = self.who_when(struck.entry);
            view! { <tr><td><s>{told}</s><p>{by}</p></td><td>{who}</td></tr> }.into_any()
        });
        table(&ENTRY_HEADS, rows.collect())
    }

    fn strands(&self, strands: &Strands<'_>) -> AnyView {
        let key = if strands.whole {
            "ui.trail.whole"
        } else {
            "ui.trail.not-whole"
        };
        let whole = fill(key, &[("lines", &strands.lines.to_string())]);
        let faults = self.card.faults.iter().map(told_fault);
        let newer = self
            .card
            .newer
            .iter()
            .map(|kind| fill("event.newer-kind", &[("kind", kind)]));
        let faults: Vec<AnyView> = faults
            .chain(newer)
            .map(|fault| view! { <p>{fault}</p> }.into_any())
            .collect();
        let rows = strands.heads.iter().map(|(tablet, head)| {
            row(vec![
                tablet.to_string(),
                head.n.to_string(),
                head.sha.to_string(),
            ])
        });
        let heads = table(
            &["ui.record.tablet", "ui.record.lines", "ui.record.hash"],
            rows.collect(),
        );
        let joined: Vec<AnyView> = strands
            .joined
            .iter()
            .map(|entry| self.entry_row(entry))
            .collect();
        view! {
            <p>{whole}</p>
            {faults}
            {heads}
            {(!joined.is_empty()).then(|| table(&ENTRY_HEADS, joined))}
        }
        .into_any()
    }

    fn tag(&self, unit: &str, tag: &RoadTag<'_>) -> AnyView {
        let given = |fact: &str, value: Option<&FactValue>| {
            value.map_or_else(
                || t("ui.record.not-given"),
                |value| fact_value(&FactId::from(fact), value),
            )
        };
        let torque = tag.torque.iter().map(|(axle, value)| {
            let at = place(Place::Axle(*axle));
            row(vec![
                fill("ui.record.tag.torque", &[("place", &at)]),
                given("final-torque", *value),
            ])
        });
        let odometer = tag.odometer.iter().map(|said| self.said(said));
        let figures = road_check::RULE.figures.iter();
        let figures = figures.map(|figure| figure_words(&road_check::RULE, figure));
        let sources = road_check::RULE
            .sources
            .iter()
            .map(|source| source_line(source));
        let odometer = if tag.odometer.is_empty() {
            t("ui.record.not-given")
        } else {
            lines(odometer)
        };
        let driven = match tag.distance {
            Some(_) => row(vec![
                t("fact.road-distance"),
                given("road-distance", tag.distance),
            ]),
            None => by_hand("fact.road-distance"),
        };
        let rows = torque.chain([
            row(vec![
                t("ui.record.tag.published"),
                lines(figures.chain(sources)),
            ]),
            row(vec![t("ui.record.tag.odometer"), odometer]),
            driven,
            by_hand("ui.record.tag.date"),
            by_hand("ui.record.tag.name"),
        ]);
        let moved: Vec<String> = moved(self.card)
            .iter()
            .map(|moved| told_moved(moved, &self.units))
            .collect();
        let moved = (!moved.is_empty())
            .then(|| row(vec![t("ui.record.tag.moved"), lines(moved.into_iter())]));
        let told = [
            ("road-by", &tag.by),
            ("road-shop", &tag.shop),
            ("road-date", &tag.date),
        ];
        let told = told.into_iter().filter_map(|(fact, value)| {
            let value = (*value)?;
            Some(row(vec![
                t(&format!("fact.{fact}")),
                fact_value(&FactId::from(fact), value),
            ]))
        });
        let rows = rows.into_iter().chain(told).chain(moved);
        let rows = table(&["ui.record.what", "ui.record.given"], rows.collect());
        view! {
            <section class="record-tag" data-testid="record-tag">
                <h2>{fill("ui.record.tag", &[("unit", unit)])}</h2>
                <p>{t("ui.record.tag.do")}</p>
                {rows}
            </section>
        }
        .into_any()
    }
}

const ENTRY_HEADS: [&str; 2] = ["ui.record.what", "ui.record.who-when"];

fn state_key(state: StepState) -> &'static str {
    match state {
        StepState::NotOnPath => "ui.state.not-on-path",
        StepState::Open => "ui.state.open",
        StepState::Begun => "ui.state.begun",
        StepState::Unclear => "ui.state.unclear",
        StepState::Skipped => "ui.state.skipped",
        StepState::Done => "ui.state.done",
    }
}

/// The words of a key, or the id where another edition of the procedure had the thing.
fn named(key: String, id: &dyn Display) -> String {
    find(&key).unwrap_or_else(|| id.to_string())
}

/// Each on a line of its own; the style sheet keeps the breaks.
fn lines(lines: impl Iterator<Item = String>) -> String {
    lines.collect::<Vec<_>>().join("\n")
}

fn part(title: &'static str, testid: &'static str, body: AnyView) -> AnyView {
    view! {
        <section class="record-part" data-testid=testid>
            <h2>{t(title)}</h2>
            {body}
        </section>
    }
    .into_any()
}

fn none() -> AnyView {
    view! { <p>{t("ui.record.none")}</p> }.into_any()
}

fn table(heads: &[&str], rows: Vec<AnyView>) -> AnyView {
    table_under(heads.iter().map(|head| t(head)).collect(), rows)
}

fn table_under(heads: Vec<String>, rows: Vec<AnyView>) -> AnyView {
    if rows.is_empty() {
        return none();
    }
    let columns = format!("columns-{}", heads.len());
    let heads = heads
        .into_iter()
        .map(|head| view! { <th scope="col">{head}</th> });
    view! {
        <table class=columns>
            <thead><tr>{heads.collect_view()}</tr></thead>
            <tbody>{rows}</tbody>
        </table>
    }
    .into_any()
}

fn row(cells: Vec<String>) -> AnyView {
    let cells = cells.into_iter().map(|cell| view! { <td>{cell}</td> });
    view! { <tr>{cells.collect_view()}</tr> }.into_any()
}

/// A row that says what the rows below it are about.
fn across(words: String, columns: usize) -> AnyView {
    view! { <tr class="record-across"><th colspan=columns.to_string()>{words}</th></tr> }.into_any()
}

fn step_head(words: String) -> AnyView {
    view! { <tr class="record-step"><th colspan="3">{words}</th></tr> }.into_any()
}

/// A row with room to write.
fn by_hand(key: &str) -> AnyView {
    view! { <tr class="record-hand"><td>{t(key)}</td><td></td></tr> }.into_any()
}

fn nut_row(passes: &[NutPass<'_>], nut: &Nut<'_>) -> AnyView {
    let said = passes.iter().zip(&nut.said).map(|(pass, said)| {
        lines(
            said.iter()
                .map(|said| nut_words(pass.step, &pass.ask.id, said)),
        )
    });
    let number = nut.number.to_string();
    row(std::iter::once(number).chain(said).collect())
}

fn nut_words(step: &StepId, ask: &AskId, said: &NutSaid<'_>) -> String {
    let mark = said
        .mark
        .map(|mark| named(format!("ask.{step}.{ask}.{mark}"), mark));
    match (mark, said.alone) {
        (Some(mark), true) => mark,
        (Some(mark), false) => fill("ui.record.nut.apart", &[("mark", &mark)]),
        (None, _) => t("ui.record.nut.in-order"),
    }
}
