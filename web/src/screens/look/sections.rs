//! What the page tells: where the wheel end stands, what is out of the ordinary, the rounds side by
//! side, every verdict, the nuts, and, folded away, what is in order and plain.

use job::card::{Card, Entry};
use job::event::{Amount, Answer, Event, LineState};
use job::extra::ExtraLine;
use job::id::{PersonId, Place, StepId};
use job::judge::torque::log_faults;
use job::judge::{Units, axle, why};
use job::physical::physical;
use job::procedure::{Ask, Eye};
use job::second_look::page::{
    Fate, History, Round, Says, Told, VerdictRow, apart, changes, history, lines, rounds,
    sent_back, verdicts, worked_here,
};
use job::second_look::{Waits, waits};
use leptos::prelude::*;

use crate::judged::{bar, bar_then, judged_otherwise, rule_title, source_line};
use crate::parts::limit_bar::LimitBar;
use crate::say::{amount, place, say, say_remark};
use crate::screens::extra_told::{notes, photos};
use crate::screens::looks::waits_words;
use crate::screens::moment::moment;
use crate::screens::told::{step_name, told_judged, told_line, told_though};
use crate::screens::trail::struck_by;
use crate::session::Session;
use crate::words::{fill, find, t};

use super::nuts;

/// What a section needs to put things into words.
struct Tell<'a> {
    card: &'a Card,
    at: Place,
    units: Units,
    language: String,
}

/// Why a look does not count: what changed since, or that the wheel end was sent back.
pub(crate) fn why_no_more(session: Session, at: Place) -> AnyView {
    let (units, language) = (
        session.units(),
        session
            .settings
            .with_untracked(|settings| settings.language.clone()),
    );
    session.open.with_untracked(|open| {
        let tell = open.as_ref().map(|open| Tell {
            card: &open.card,
            at,
            units,
            language,
        });
        tell.map(|tell| tell.fell()).into_any()
    })
}

/// Everything that is told of a wheel end.
pub(super) fn view(session: Session, at: Place, unfolded: RwSignal<bool>) -> AnyView {
    let (units, language) = (
        session.units(),
        session.settings.with(|settings| settings.language.clone()),
    );
    session.open.with(|open| {
        let Some(open) = open else {
            return ().into_any();
        };
        let tell = Tell {
            card: &open.card,
            at,
            units,
            language,
        };
        let rows = verdicts(tell.card, at);
        let out = tell.out_of_the_ordinary(&rows);
        let fold = if unfolded.get() {
            "ui.look.fold"
        } else {
            "ui.look.unfold"
        };
        view! {
            {tell.state()}
            {if out.is_empty() {
                view! { <p class="page-line" data-testid="nothing-apart">{t("ui.look.nothing-apart")}</p> }.into_any()
            } else {
                view! { <section class="look-part" data-testid="apart"><h2>{t("ui.look.apart")}</h2>{out}</section> }.into_any()
            }}
            <section class="look-part" data-testid="rounds">
                <h2>{t("ui.look.rounds")}</h2>
                {tell.rounds(&rows)}
            </section>
            {tell.bars(&rows)}
            {tell.people()}
            <button
                type="button"
                class="key wide-key"
                data-testid="unfold"
                on:click=move |_| unfolded.update(|unfolded| *unfolded = !*unfolded)
            >
                {t(fold)}
            </button>
            {unfolded.get().then(|| tell.plain(&rows))}
        }
        .into_any()
    })
}

/// The rounds of one wheel end side by side, with their verdicts.
pub(crate) fn rounds_of(card: &Card, at: Place, units: Units, language: String) -> AnyView {
    let tell = Tell {
        card,
        at,
        units,
        language,
    };
    tell.rounds(&verdicts(card, at))
}

/// The words of a key, or the id where another edition of the procedure had the thing.
fn named(key: &str, id: &str) -> String {
    find(key).unwrap_or_else(|| id.to_owned())
}

/// What an ask is called, with its step.
fn asked(step: &StepId, ask: &Ask) -> String {
    match find(&format!("ask.{step}.{}", ask.id)) {
        Some(words) => format!("{} – {words}", step_name(step)),
        None => step_name(step),
    }
}

fn part(title: &str, testid: &'static str, rows: Vec<AnyView>) -> Option<AnyView> {
    (!rows.is_empty()).then(|| {
        view! {
            <section class="look-part" data-testid=testid>
                <h3>{t(title)}</h3>
                <ul class="look-list">{rows}</ul>
            </section>
        }
        .into_any()
    })
}

impl Tell<'_> {
    /// Where the wheel end is with its look, and how it stands.
    fn state(&self) -> AnyView {
        let state = waits(self.card, self.at).map(waits_words);
        let stands: Vec<String> = physical(self.card, self.at)
            .iter()
            .map(|words| say(words, &self.units))
            .collect();
        view! {
            {self.fell()}
            <p class="look-state" data-testid="look-state">{state}</p>
            <p class="look-physical" data-testid="physical">{stands.join("; ")}</p>
        }
        .into_any()
    }

    /// Why an acceptance no longer stands, or why the wheel end was sent back.
    fn fell(&self) -> AnyView {
        let changed: Vec<AnyView> = changes(self.card, self.at)
            .into_iter()
            .map(|entry| self.entry(entry))
            .collect();
        let is_changed = waits(self.card, self.at) == Some(Waits::Changed) || !changed.is_empty();
        let back = sent_back(self.card, self.at).map(|entry| self.sent_back(entry));
        view! {
            {is_changed.then(|| view! {
                <section class="wanting" data-testid="changed">
                    <p>{t("ui.look.changed")}</p>
                    <ul class="look-list">{changed}</ul>
                </section>
            })}
            {back}
        }
        .into_any()
    }

    fn sent_back(&self, entry: &Entry) -> AnyView {
        let Some(Event::Answered {
            answer: Answer::Look { why, again, .. },
            ..
        }) = entry.event()
        else {
            return ().into_any();
        };
        let steps: Vec<String> = again.iter().map(step_name).collect();
        let words = fill(
            "ui.look.was-sent-back",
            &[
                ("name", self.card.name(&entry.who)),
                ("when", &moment(entry.at.utc, &self.language)),
                ("why", why.as_deref().unwrap_or_default()),
            ],
        );
        view! {
            <section class="wanting" data-testid="was-sent-back">
                <p>{words}</p>
                {(!steps.is_empty()).then(|| view! {
                    <p>{fill("ui.look.was-again", &[("steps", &steps.join(", "))])}</p>
                })}
            </section>
        }
        .into_any()
    }

    fn out_of_the_ordinary(&self, rows: &[VerdictRow<'_>]) -> Vec<AnyView> {
        let (card, at) = (self.card, self.at);
        let bad: Vec<AnyView> = rows
            .iter()
            .filter(|row| !row.is_plain())
            .map(|row| self.verdict(row))
            .collect();
        let apart = apart(card, at);
        let entries = |entries: &[&Entry]| -> Vec<AnyView> {
            entries.iter().map(|entry| self.entry(entry)).collect()
        };
        let struck = apart.struck.iter().map(|told| self.told(told)).collect();
        let open = |extra: &&ExtraLine| extra.state != LineState::Done || extra.passed.is_some();
        let extras = lines(card, at)
            .into_iter()
            .filter(open)
            .map(|extra| self.extra(extra))
            .collect();
        let again = history(card, at)
            .iter()
            .map(|history| self.history(history))
            .collect();
        let log = log_faults(card, at)
            .iter()
            .map(|fault| say_remark(&fault.remark(), &self.units))
            .map(|words| view! { <li>{words}</li> }.into_any())
            .collect();
        let nuts = nuts::map(card, at, false, &self.language)
            .into_iter()
            .collect::<Vec<_>>();
        [
            (!bad.is_empty()).then(|| bad.into_any()),
            part("ui.look.unlike", "unlike", self.unlike()),
            part("ui.look.though", "though", entries(&apart.though)),
            part("ui.look.passed", "passed", entries(&apart.passed)),
            part("ui.look.skipped", "skipped", entries(&apart.skipped)),
            part("ui.look.lines", "extra-lines", extras),
            part("ui.look.history", "history", again),
            (!nuts.is_empty()).then(|| {
                view! { <section class="look-part"><h3>{t("ui.look.nuts")}</h3>{nuts}</section> }.into_any()
            }),
            part("ui.look.log", "log-faults", log),
            part("ui.look.struck", "struck", struck),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    /// What differs from the other end of the axle, and every rule that says it may not.
    fn unlike(&self) -> Vec<AnyView> {
        let axle = self.at.axle();
        let differs = axle.map(|axle| axle::differs(self.card, axle));
        differs
            .unwrap_or_default()
            .iter()
            .map(|one| {
                let remarks = one.judgement.remarks.iter();
                let words: Vec<String> =
                    remarks.map(|said| say_remark(said, &self.units)).collect();
                let says = one.says.iter().map(|source| source_line(source));
                let says = says
                    .map(|line| view! { <p class="limit-bar-source">{line}</p> })
                    .collect_view();
                view! { <li><p>{words.join(" ")}</p>{says}</li> }.into_any()
            })
            .collect()
    }

    /// Estimates that say why it matters; nothing is judged by them.
    fn why(&self) -> Vec<AnyView> {
        let axle = self.at.axle();
        let of_nuts = axle.map(|axle| why::of_nuts(self.card, axle));
        why::of_brake(self.card, self.at)
            .iter()
            .chain(of_nuts.iter().flatten())
            .map(|said| view! { <li>{say_remark(said, &self.units)}</li> }.into_any())
            .collect()
    }

    /// As found and as left side by side.
    fn rounds(&self, rows: &[VerdictRow<'_>]) -> AnyView {
        let rounds = rounds(self.card, self.at);
        let Some(first) = rounds.first() else {
            return ().into_any();
        };
        let heads: Vec<AnyView> = rounds
            .iter()
            .map(|round| view! { <th scope="col">{step_name(&round.step.id)}</th> }.into_any())
            .collect();
        let lines: Vec<AnyView> = first
            .read
            .iter()
            .map(|(ask, _)| {
                let name = find(&format!("ask.{}.{}", first.step.id, ask.id)).unwrap_or_default();
                let cells: Vec<AnyView> = rounds
                    .iter()
                    .map(|round| {
                        view! { <td data-testid=format!("{}-{}", round.step.id, ask.id)>{read(round, ask)}</td> }
                            .into_any()
                    })
                    .collect();
                view! { <tr><th scope="row">{name}</th>{cells}</tr> }.into_any()
            })
            .collect();
        let said: Vec<AnyView> = rounds
            .iter()
            .map(|round| {
                let words: Vec<String> = rows
                    .iter()
                    .filter(|row| row.step.id == round.step.id && row.at == self.at)
                    .map(|row| format!("{}: {}", rule_name(row), verdict_word(row)))
                    .collect();
                let words = if words.is_empty() {
                    t("verdict.kept")
                } else {
                    words.join("; ")
                };
                view! { <td data-testid=format!("{}-verdict", round.step.id)>{words}</td> }
                    .into_any()
            })
            .collect();
        view! {
            <table class="look-rounds">
                <thead><tr><td></td>{heads}</tr></thead>
                <tbody>
                    {lines}
                    <tr><th scope="row">{t("ui.look.verdict")}</th>{said}</tr>
                </tbody>
            </table>
        }
        .into_any()
    }

    /// What is within its limit, the least room first. What is not stands further up.
    fn bars(&self, rows: &[VerdictRow<'_>]) -> AnyView {
        let bars: Vec<AnyView> = rows
            .iter()
            .filter(|row| row.is_plain() && !row.by_eye())
            .map(|row| self.verdict(row))
            .collect();
        (!bars.is_empty())
            .then(|| {
                view! {
                    <section class="look-part" data-testid="verdicts">
                        <h2>{t("ui.look.verdicts")}</h2>
                        {bars}
                    </section>
                }
            })
            .into_any()
    }

    fn people(&self) -> AnyView {
        let names: Vec<String> = worked_here(self.card, self.at)
            .into_iter()
            .map(|person| self.person(person))
            .collect();
        view! {
            <p class="page-line" data-testid="worked-here">
                {fill("ui.look.worked", &[("names", &names.join(", "))])}
            </p>
        }
        .into_any()
    }

    fn person(&self, person: &PersonId) -> String {
        let role = self.card.role(person);
        let role = role.map(|role| t(&format!("role.{}", role.code())));
        fill(
            "ui.look.person",
            &[
                ("name", self.card.name(person)),
                ("role", &role.unwrap_or_default()),
            ],
        )
    }

    /// What is in order and plain.
    fn plain(&self, rows: &[VerdictRow<'_>]) -> AnyView {
        let sound = rows
            .iter()
            .filter(|row| row.is_plain() && row.by_eye())
            .map(|row| self.verdict(row))
            .collect::<Vec<_>>();
        let done = lines(self.card, self.at)
            .into_iter()
            .filter(|extra| extra.state == LineState::Done && extra.passed.is_none())
            .map(|extra| self.extra(extra))
            .collect();
        view! {
            {(!sound.is_empty()).then(|| view! {
                <section class="look-part" data-testid="sound"><h3>{t("ui.look.sound")}</h3>{sound}</section>
            })}
            {part("ui.look.lines-done", "lines-done", done)}
            {nuts::count(self.card, self.at).map(|count| view! { <h3>{count}</h3> })}
            {nuts::map(self.card, self.at, true, &self.language)}
            {part("ui.look.why", "why", self.why())}
        }
        .into_any()
    }

    /// One verdict: a bar, or the word alone for a part judged by eye.
    fn verdict(&self, row: &VerdictRow<'_>) -> AnyView {
        let mut name = asked(&row.step.id, row.ask);
        if row.at != self.at {
            name = format!("{name} – {}", place(row.at));
        }
        let (shown, otherwise) = match &row.says {
            Says::Eye(eye) => {
                let replace = *eye == Eye::Replace;
                return view! {
                    <p class="look-eye" class:replace=replace>
                        <strong>{verdict_word(row)}</strong>
                        <span>{name}</span>
                    </p>
                }
                .into_any();
            }
            Says::Wanting(words) => {
                let words = say(words, &self.units);
                return view! { <h3>{name}</h3><p class="trail-though">{words}</p> }.into_any();
            }
            Says::Now(judgement, then) => (
                bar(judgement, &self.units),
                then.and_then(|then| judged_otherwise(then, judgement)),
            ),
            Says::Then(then) => (bar_then(then), None),
        };
        view! {
            <section class="look-verdict" data-testid=format!("verdict-{}-{}", row.step.id, row.ask.id)>
                <h3>{format!("{name}: {}", rule_name(row))}</h3>
                <LimitBar shown=Signal::stored(Some(shown)) />
                {otherwise.map(|words| view! { <p class="judged-then">{words}</p> })}
            </section>
        }
        .into_any()
    }

    fn who_and_when(&self, entry: &Entry) -> String {
        fill(
            "ui.look.who-when",
            &[
                ("name", self.card.name(&entry.who)),
                ("when", &moment(entry.at.utc, &self.language)),
            ],
        )
    }

    fn entry(&self, entry: &Entry) -> AnyView {
        self.told(&Told {
            entry,
            fate: Fate::Stands,
        })
    }

    fn told(&self, told: &Told<'_>) -> AnyView {
        let entry = told.entry;
        let by = match &told.fate {
            Fate::Struck(by) => Some(struck_by(self.card, by, &self.language)),
            Fate::Stands | Fate::Overtaken => None,
        };
        let though = entry
            .though
            .as_ref()
            .map(|though| told_though(self.card, though, &self.units));
        let is_struck = by.is_some();
        let judged: Vec<String> = match entry.event() {
            Some(Event::Answered { judged, .. }) => judged.iter().map(told_judged).collect(),
            _ => Vec::new(),
        };
        view! {
            <li class:struck=is_struck class:overtaken=told.fate == Fate::Overtaken>
                <span class="look-said">{told_line(self.card, &entry.said, &self.units)}</span>
                {judged.into_iter().map(|judged| view! { <span class="judged-then">{judged}</span> }).collect_view()}
                <small>{self.who_and_when(entry)}</small>
                {(told.fate == Fate::Overtaken).then(|| view! { <small>{t("ui.look.overtaken")}</small> })}
                {though.map(|though| view! { <span class="trail-though">{though}</span> })}
                {by.map(|by| view! { <span class="trail-struck">{by}</span> })}
            </li>
        }
        .into_any()
    }

    fn history(&self, history: &History<'_>) -> AnyView {
        let said: Vec<AnyView> = history.said.iter().map(|told| self.told(told)).collect();
        view! { <li><ol class="look-list again">{said}</ol></li> }.into_any()
    }

    fn extra(&self, extra: &ExtraLine) -> AnyView {
        let words = fill(
            "ui.look.line",
            &[
                (
                    "finding",
                    &named(
                        &format!("finding.{}", extra.finding),
                        extra.finding.as_str(),
                    ),
                ),
                (
                    "fix",
                    &named(
                        &format!("fix.{}.{}", extra.finding, extra.fix),
                        extra.fix.as_str(),
                    ),
                ),
                ("state", &t(&format!("line.state.{}", extra.state.code()))),
                ("place", &place(extra.at)),
            ],
        );
        let passed = extra.passed.as_ref().map(|passed| {
            fill(
                "ui.look.line-passed",
                &[("name", self.card.name(&passed.who)), ("why", &passed.why)],
            )
        });
        view! {
            <li>
                <span class="look-said">{words}</span>
                {extra.words.clone().map(|words| view! { <small>{words}</small> })}
                {passed.map(|passed| view! { <span class="trail-though">{passed}</span> })}
                {notes(extra)}
                {photos(extra)}
            </li>
        }
        .into_any()
    }
}

/// The rule behind a verdict; none for a part judged by eye.
fn rule_name(row: &VerdictRow<'_>) -> String {
    match &row.says {
        Says::Now(judgement, _) => rule_title(judgement.rule.0),
        Says::Then(then) => rule_title(&then.rule),
        Says::Eye(_) | Says::Wanting(_) => asked(&row.step.id, row.ask),
    }
}

fn verdict_word(row: &VerdictRow<'_>) -> String {
    match &row.says {
        Says::Eye(Eye::Sound) => t("verdict.sound"),
        Says::Eye(Eye::Replace) => t("verdict.replace"),
        Says::Now(judgement, _) => t(judgement.verdict.word().key()),
        Says::Then(then) => named(&format!("verdict.{}", then.verdict), &then.verdict),
        Says::Wanting(_) => t("verdict.no-reading"),
    }
}

/// What was read for one ask of a round; two readings that had not seen each other both.
fn read(round: &Round<'_>, ask: &Ask) -> String {
    if let Some(why) = round.skipped {
        let key = format!("skip.{}.{why}", round.step.id);
        return find(&key).unwrap_or_else(|| why.to_string());
    }
    let given = round.read.iter().find(|(of, _)| of.id == ask.id);
    let readings = given.into_iter().flat_map(|(_, given)| given);
    let told: Vec<String> = readings
        .filter_map(|given| match &given.answer {
            Answer::Reading { typed } => Some(amount(&Amount {
                text: typed.text.clone(),
                unit: typed.unit.clone(),
            })),
            _ => None,
        })
        .collect();
    if told.is_empty() {
        t("ui.ask.open")
    } else {
        told.join(" / ")
    }
}
