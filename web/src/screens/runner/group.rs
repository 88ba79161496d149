//! Steps that share one screen with one Done. What is taken out is asked alone afterwards; a line
//! of work that is taken out is written as not done.

use job::card::Card;
use job::event::{Answer, Role};
use job::group::{self, Member};
use job::id::{OptionId, Place, StepId};
use job::procedure::{Ask, AskKind, Step};
use leptos::prelude::*;

use super::{Chosen, lead_on};
use crate::parts::line_list::{Line, LineList, LinesDone, turns};
use crate::parts::scroller::Pager;
use crate::say::say;
use crate::screens::practice::sights;
use crate::session::Session;
use crate::words::{fill, find, t};

/// The asks that are shown together here. None for an apprentice's `!`, and none that was taken
/// out before.
pub(super) fn members(session: Session, card: &Card, at: Place, step: &StepId) -> Vec<Member> {
    let apprentice = session.me.get().and_then(|me| card.role(&me)) == Some(Role::Apprentice);
    let protects = |member: &Member| {
        card.procedure
            .as_deref()
            .and_then(|procedure| procedure.step(&member.step))
            .is_some_and(Step::protects)
    };
    let alone = session.alone.get();
    group::group(card, at, step)
        .into_iter()
        .filter(|member| !(alone.contains(member) || apprentice && protects(member)))
        .collect()
}

/// One row of the screen: an ask, or one line of it.
#[derive(Clone)]
struct Row {
    member: Member,
    line: Option<OptionId>,
    words: String,
}

impl Row {
    fn id(&self) -> String {
        let Member { step, ask, .. } = &self.member;
        match &self.line {
            Some(line) => format!("{step}-{ask}-{line}"),
            None => format!("{step}-{ask}"),
        }
    }
}

pub(super) fn view(
    session: Session,
    step: std::sync::Arc<Step>,
    at: Place,
    members: Vec<Member>,
    refusal: RwSignal<Option<String>>,
    chosen: RwSignal<Chosen>,
) -> AnyView {
    let rows: Vec<Row> = untrack(|| {
        session.open.with(|open| {
            let Some(open) = open else { return Vec::new() };
            members
                .iter()
                .flat_map(|member| with_sights(session, &open.card, member))
                .collect()
        })
    });
    let out = RwSignal::new(Vec::<String>::new());
    let turn = turns(out);
    let pager = Pager::new();
    let words = Signal::derive(move || match out.with(Vec::len) {
        0 => t("ui.group.done"),
        count => fill("ui.group.done-but", &[("count", &count.to_string())]),
    });
    let shown = {
        let rows = rows.clone();
        Signal::derive(move || {
            rows.iter()
                .map(|row| Line {
                    id: row.id(),
                    words: row.words.clone(),
                    out: out.with(|out| out.contains(&row.id())),
                })
                .collect::<Vec<_>>()
        })
    };
    let done = {
        let step = step.clone();
        Callback::new(move |()| {
            let out = out.get_untracked();
            let answers = answers(session, &members, &rows, &out);
            let alone: Vec<Member> = members
                .iter()
                .filter(|member| answers.iter().all(|(of, _)| of != *member))
                .cloned()
                .collect();
            if answers.is_empty() {
                session.alone.update(|taken| taken.extend(alone));
                return;
            }
            let step = step.clone();
            let saved = session.answer_group(at, &answers, move |session| {
                session.alone.update(|taken| taken.extend(alone));
                if chosen.try_set(Chosen::Lead).is_none() {
                    lead_on(session, at, &step);
                }
            });
            let units = session
                .settings
                .with_untracked(|settings| settings.units.units());
            refusal.set(saved.err().map(|words| say(&words, &units)));
        })
    };
    view! {
        <div class="body lines-body" data-testid="group">
            <h2 class="question-line">{t("ui.group")}</h2>
            <LineList lines=shown on_turn=turn pager/>
        </div>
        <LinesDone pager words waits=Signal::derive(move || !session.can_write()) on_done=done/>
    }
    .into_any()
}

/// What is said with Done: every member whose row was not taken out. Of work in lines each line
/// taken out is named.
fn answers(
    session: Session,
    members: &[Member],
    rows: &[Row],
    out: &[String],
) -> Vec<(Member, Answer)> {
    session.open.with_untracked(|open| {
        let Some(open) = open else { return Vec::new() };
        members
            .iter()
            .filter_map(|member| {
                let ask = ask_of(&open.card, member)?;
                let own = || rows.iter().filter(|row| row.member == *member);
                if let AskKind::Lines(_) = &ask.kind {
                    let left: Vec<OptionId> = own()
                        .filter(|row| out.contains(&row.id()))
                        .filter_map(|row| row.line.clone())
                        .collect();
                    return Some((member.clone(), Answer::Lines { out: left }));
                }
                if own().any(|row| out.contains(&row.id())) {
                    return None;
                }
                Some((member.clone(), group::in_order(&open.card, ask, member.at)?))
            })
            .collect()
    })
}

fn ask_of<'a>(card: &'a Card, member: &Member) -> Option<&'a Ask> {
    card.procedure.as_deref()?.ask(&member.step, &member.ask)
}

/// The rows of a member; in a run the first one says what is seen there.
fn with_sights(session: Session, card: &Card, member: &Member) -> Vec<Row> {
    let mut rows = rows_of(card, member);
    let step = card
        .procedure
        .as_deref()
        .and_then(|procedure| procedure.step(&member.step));
    let seen = step.map(|step| sights::lines(session, step, &member.ask, member.at));
    if let (Some(row), Some(seen)) = (rows.first_mut(), seen.filter(|seen| !seen.is_empty())) {
        row.words = format!("{} – {}", row.words, seen.join(" "));
    }
    rows
}

fn rows_of(card: &Card, member: &Member) -> Vec<Row> {
    let Member { at, step, ask } = member;
    let Some(of) = ask_of(card, member) else {
        return Vec::new();
    };
    let stem = format!("ask.{step}.{ask}");
    let asked = || find(&stem).unwrap_or_else(|| t(&format!("step.{step}")));
    let row = |line: Option<OptionId>, words: String| Row {
        member: member.clone(),
        line,
        words,
    };
    match &of.kind {
        AskKind::Lines(lines) => lines
            .iter()
            .map(|line| row(Some(line.clone()), t(&format!("{stem}.{line}"))))
            .collect(),
        _ => match group::in_order(card, of, *at) {
            Some(Answer::Choice { option }) => {
                let words = format!("{}: {}", asked(), t(&format!("{stem}.{option}")));
                vec![row(None, words)]
            }
            _ => vec![row(
                None,
                format!("{}: {}", asked(), t("ui.group.in-order")),
            )],
        },
    }
}
