//! A moment of a run: somebody wants to take a step. May they, or does something come first?
//!
//! What is said is kept in the book of the practice bay; whether it was right is told at the end.

use job::card::Card;
use job::hold::Hold;
use job::id::Place;
use job::procedure::Step;
use leptos::prelude::*;
use practice::book::Entry;
use practice::scene::{Say, Scene, pair};

use crate::parts::choice_list::{Choice, ChoiceList};
use crate::parts::wide_done::WideDone;
use crate::session::Session;
use crate::words::{fill, t};

/// The moment that comes up as this step is opened, if one does.
pub(crate) fn due(session: Session, card: &Card, step: &Step, at: Place) -> Option<Scene> {
    let (run, is_marked) = session.run()?;
    if is_marked {
        return None;
    }
    let said = |scene: &Scene| session.book.with(|book| book.said(&card.id, scene));
    let is_due = |scene: &&Scene| {
        said(scene).is_none()
            && scene.comes_up(step.id.as_str(), is_done(card, scene.waits.first, at))
    };
    run.axle.scenes.iter().find(is_due).copied()
}

/// The moment that somebody makes by opening a step before what protects people is done.
pub(crate) fn too_early(session: Session, card: &Card, hold: &Hold, step: &Step) -> Option<Scene> {
    let (_, is_marked) = session.run()?;
    let (_, first) = hold.first()?;
    if is_marked || !hold.protects() {
        return None;
    }
    let scene = Scene {
        waits: pair(first.as_str(), step.id.as_str())?,
        done: false,
    };
    let is_said = session
        .book
        .with(|book| book.said(&card.id, &scene).is_some());
    (!is_said).then_some(scene)
}

fn is_done(card: &Card, first: &str, at: Place) -> bool {
    let Some(procedure) = card.procedure.as_deref() else {
        return false;
    };
    procedure.step(&first.into()).is_some_and(|first| {
        let mut places = card.places(first.scope, at).into_iter();
        places.all(|place| card.is_done(first, place))
    })
}

/// The question and its two answers.
pub(crate) fn view(session: Session, scene: Scene, refusal: RwSignal<Option<String>>) -> AnyView {
    let then = t(&format!("step.{}", scene.waits.then));
    let chosen = RwSignal::new(Vec::<String>::new());
    let choices = [Say::GoOn, Say::NotYet]
        .map(|say| Choice::new(say.code(), t(&format!("ui.moment.{}", say.code()))));
    let choose = Callback::new(move |id: String| chosen.set(vec![id]));
    let done = Callback::new(move |()| {
        let said = chosen.with_untracked(|chosen| Say::from_code(chosen.first()?));
        let card = session
            .open
            .with_untracked(|open| open.as_ref().map(|open| open.card.id.clone()));
        let (Some(said), Some(card)) = (said, card) else {
            return;
        };
        let noted = session.note(vec![Entry::Said { card, scene, said }], |_| {});
        let units = session
            .settings
            .with_untracked(|settings| settings.units.units());
        refusal.set(noted.err().map(|words| crate::say::say(&words, &units)));
    });
    view! {
        <div class="body" data-testid="moment">
            <h2 class="question-line">{fill("ui.moment", &[("step", &then)])}</h2>
            <ChoiceList choices=Signal::stored(choices.to_vec()) chosen on_choose=choose />
        </div>
        <WideDone
            words=t("ui.done")
            waits=Signal::derive(move || !session.can_write() || chosen.with(Vec::is_empty))
            on_done=done
        />
    }
    .into_any()
}
