//! A figure of the shop sheet with its unit: the number pad, and what is out of the ordinary asked
//! before it is kept. Used for the rated load of a jack and for a limit of the shop's own.

use job::event::TypedText;
use leptos::prelude::*;
use rules::typed::Typed;
use rules::unit::Unit;

use job::words::Words;

use crate::parts::number_pad::{NumberPad, PadAsk, PadKind};
use crate::parts::question::{Question, QuestionShown};
use crate::parts::wide_done::WideDone;
use crate::say::say;
use crate::session::Session;

use super::runner::reading::doubt;
use super::wanting::Wanting;

/// What is asked for, in which units, and what is usual.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct ValueAsk {
    pub(crate) words: String,
    /// The usual one first.
    pub(crate) units: Vec<Unit>,
    /// Lowest and highest usual figure, in the first unit.
    pub(crate) usual: [String; 2],
    /// Words of the wide key.
    pub(crate) done: String,
}

/// What was typed so far. Lives in the screen, so that nothing is lost.
#[derive(Clone, Copy)]
pub(crate) struct ValueSaid {
    text: RwSignal<String>,
    unit: RwSignal<Option<Unit>>,
}

impl ValueSaid {
    pub(crate) fn new() -> Self {
        Self {
            text: RwSignal::new(String::new()),
            unit: RwSignal::new(None),
        }
    }

    /// Forgets everything, for the next one.
    pub(crate) fn clear(self) {
        self.text.set(String::new());
        self.unit.set(None);
    }
}

/// The pad, the question where the figure is unusual, and the wide key that keeps it.
#[component]
pub(crate) fn ValueEntry(
    ask: ValueAsk,
    said: ValueSaid,
    wanting: RwSignal<Vec<Words>>,
    on_value: Callback<TypedText>,
) -> impl IntoView {
    let session = expect_context::<Session>();
    let ValueAsk {
        words,
        units,
        usual,
        done,
    } = ask;
    let first = units.first().copied();
    let (text, unit) = (said.text, said.unit);
    if !unit
        .get_untracked()
        .is_some_and(|unit| units.contains(&unit))
    {
        unit.set(first);
    }
    let asked = RwSignal::new(None::<QuestionShown>);
    let line = move || {
        let typed = unit
            .get()
            .map(|unit| text.with(|text| Typed::parse(text, unit)));
        match typed {
            Some(Err(fault)) if !text.with(String::is_empty) => {
                say(&Words::from(&fault), &session.units())
            }
            _ => String::new(),
        }
    };
    let pad = move || PadAsk {
        kind: PadKind::Decimal,
        words: words.clone(),
        units: units.clone(),
        line: line(),
    };
    let keep = move || {
        let unit = unit.get_untracked().map(|unit| unit.code().to_owned());
        on_value.run(TypedText {
            text: text.get_untracked(),
            unit: unit.unwrap_or_default(),
        });
    };
    let go = Callback::new(move |()| {
        wanting.set(Vec::new());
        let typed = text.get_untracked();
        match doubt(&typed, unit.get_untracked(), first, &usual, session) {
            Ok(None) => keep(),
            Ok(Some(question)) => asked.set(Some(question)),
            // The line of the pad says it already.
            Err(_) => {}
        }
    });
    let answered = Callback::new(move |keeps: bool| {
        asked.set(None);
        if keeps {
            keep();
        }
    });
    let is_asked = Memo::new(move |_| asked.with(Option::is_some));
    view! {
        <section class="stand-entry" data-testid="value-entry">
            <div class="entry-page">
                <div class="pad-holder" hidden=move || is_asked.get()>
                    <NumberPad ask=Signal::derive(pad) typed=text unit />
                </div>
                {move || asked.get().map(|question| view! { <Question question on_answer=answered /> })}
            </div>
            <Wanting words=wanting />
            <div class="entry-foot" hidden=move || is_asked.get()>
                <WideDone
                    words=done
                    waits=Signal::derive(move || !session.can_write() || text.with(|text| text.trim().is_empty()))
                    on_done=go
                />
            </div>
        </section>
    }
}
