//! A number read off something, or counted.

use job::event::{Answer, Item, TypedText};
use job::procedure::{CountAsk, ReadingAsk};
use job::words::Words;
use leptos::prelude::*;
use rules::band::{Band, BandQuestion};
use rules::typed::Typed;
use rules::unit::Unit;

use super::{Asking, question};
use crate::parts::number_pad::{NumberPad, PadAsk, PadKind};
use crate::parts::question::{Question, QuestionShown};
use crate::parts::wide_done::WideDone;
use crate::say::{place, say, say_remark};
use crate::screens::practice::asked::Typing;
use crate::screens::practice::sights;
use crate::session::Session;
use crate::words::{fill, t, unit as unit_words};

/// What a pad is for, and what becomes of what was typed. Shared with facts.
pub(super) struct Pad {
    pub(super) session: Session,
    pub(super) words: String,
    pub(super) kind: PadKind,
    pub(super) units: Vec<Unit>,
    /// Usual values, in the first unit; for a count in plain numbers.
    pub(super) usual: [String; 2],
    /// A line under the words; may be empty.
    pub(super) line: String,
    /// The number and its unit as typed.
    pub(super) typed: (RwSignal<String>, RwSignal<Option<Unit>>),
    pub(super) refusal: RwSignal<Option<String>>,
    /// "I don't know" is an answer.
    pub(super) unknown: Option<Callback<()>>,
    pub(super) keep: Callback<(String, Option<Unit>)>,
}

pub(super) fn reading(asking: Asking, reading: ReadingAsk) -> AnyView {
    let (session, step, at) = (asking.session, &asking.step, asking.at);
    if let Some(counted) = untrack(|| sights::counted(session, step, &asking.ask.id, at)) {
        return in_marks(asking, counted);
    }
    let units: Vec<Unit> = reading.units.iter().map(|unit| unit.0).collect();
    let words = format!("{} – {}", question(&asking), place(asking.at));
    let session = asking.session;
    let refusal = asking.refusal;
    let typed = asking.typed(units.first().copied());
    let line = looked_at(&asking);
    let keep = Callback::new(move |(text, unit): (String, Option<Unit>)| {
        let unit = unit.map(|unit| unit.code().to_owned()).unwrap_or_default();
        asking.submit(
            Item::Only,
            Answer::Reading {
                typed: TypedText { text, unit },
            },
        );
    });
    let kind = kind_for(&units, &reading.usual);
    pad(Pad {
        session,
        words,
        kind,
        units,
        usual: reading.usual,
        line,
        typed,
        refusal,
        unknown: None,
        keep,
    })
}

/// In a run: the way back to what is read.
fn looked_at(asking: &Asking) -> String {
    let (session, step, ask) = (asking.session, &asking.step, &asking.ask.id);
    if untrack(|| sights::is_looked_at_first(session, step, ask, asking.at)) {
        t("ui.see.again")
    } else {
        String::new()
    }
}

/// In a run: so many marks of an instrument that is finer than the pad.
fn in_marks(asking: Asking, counted: Typing) -> AnyView {
    let words = format!("{} – {}", question(&asking), counted.words());
    let (session, refusal) = (asking.session, asking.refusal);
    let (typed, unit) = asking.typed(None);
    let line = looked_at(&asking);
    let usual = ["0".to_owned(), counted.parts.to_string()];
    let keep = Callback::new(move |(text, _): (String, Option<Unit>)| {
        let typed = TypedText {
            text: counted.inches(text.trim()),
            unit: Unit::Inch.code().to_owned(),
        };
        asking.submit(Item::Only, Answer::Reading { typed });
    });
    pad(Pad {
        session,
        words,
        kind: PadKind::Whole,
        units: Vec::new(),
        usual,
        line,
        typed: (typed, unit),
        refusal,
        unknown: None,
        keep,
    })
}

pub(super) fn count(asking: Asking, count: CountAsk) -> AnyView {
    let words = format!("{} – {}", question(&asking), place(asking.at));
    let (session, refusal) = (asking.session, asking.refusal);
    let keep = Callback::new(move |count| asking.submit(Item::Only, Answer::Count { count }));
    count_pad(session, words, &count, refusal, keep)
}

/// The pad for a whole number of things. Shared with facts.
pub(super) fn count_pad(
    session: Session,
    words: String,
    count: &CountAsk,
    refusal: RwSignal<Option<String>>,
    keep: Callback<u16>,
) -> AnyView {
    let usual = count.usual.map(|end| end.to_string());
    let keep = Callback::new(
        move |(text, _): (String, Option<Unit>)| match whole(&text) {
            Ok(count) => keep.run(count),
            Err(words) => refusal.set(Some(words)),
        },
    );
    pad(Pad {
        session,
        words,
        kind: PadKind::Whole,
        units: Vec::new(),
        usual,
        line: String::new(),
        typed: (RwSignal::new(String::new()), RwSignal::new(None)),
        refusal,
        unknown: None,
        keep,
    })
}

/// A whole number of things, or why it is none.
fn whole(text: &str) -> Result<u16, String> {
    let text = text.trim();
    if text.is_empty() {
        return Err(t("typed.empty"));
    }
    text.parse()
        .map_err(|_not_whole: std::num::ParseIntError| t("ui.not-a-count"))
}

/// Strokes and small gaps in inches are read off a rule in sixteenths; where thousandths are
/// usual, or more inches than that pad has keys for, a decimal is typed.
pub(super) fn kind_for(units: &[Unit], usual: &[String; 2]) -> PadKind {
    let in_sixteenths = usual.iter().all(|end| !end.contains('.'));
    let whole = usual[0].split(' ').next().unwrap_or_default();
    let few_inches = whole.contains('/') || whole.parse::<u8>().is_ok_and(|whole| whole < 4);
    let in_thousandths = usual
        .iter()
        .all(|end| end.split('.').next() == Some("0") && end.len() <= 5);
    if units.first() == Some(&Unit::Inch) && in_sixteenths && few_inches {
        PadKind::Sixteenths
    } else if units.first() == Some(&Unit::Inch) && in_thousandths && !in_sixteenths {
        PadKind::Thousandths
    } else {
        PadKind::Decimal
    }
}

pub(super) fn pad(pad: Pad) -> AnyView {
    let Pad {
        session,
        words,
        kind,
        units,
        usual,
        line,
        typed: (typed, unit),
        refusal,
        unknown,
        keep,
    } = pad;
    let asked = RwSignal::new(None::<QuestionShown>);
    let first = units.first().copied();
    let ask = PadAsk {
        kind,
        words,
        units,
        line,
    };
    let keep_now = move || keep.run((typed.get_untracked(), unit.get_untracked()));
    let done = Callback::new(move |()| {
        let text = typed.get_untracked();
        match doubt(&text, unit.get_untracked(), first, &usual, session) {
            Ok(None) => keep_now(),
            Ok(Some(ask)) => asked.set(Some(ask)),
            Err(words) => refusal.set(Some(words)),
        }
    });
    let answered = Callback::new(move |keeps: bool| {
        asked.set(None);
        if keeps {
            keep_now();
        }
    });
    let is_asked = Memo::new(move |_| asked.with(Option::is_some));
    view! {
        <div class="body pad-body" class:asked=move || is_asked.get()>
            <div class="pad-holder" hidden=move || is_asked.get()>
                <NumberPad ask=Signal::stored(ask) typed unit/>
            </div>
            {move || asked.get().map(|question| view! { <Question question on_answer=answered/> })}
        </div>
        <div class="done-area" hidden=move || is_asked.get()>
            {unknown.map(|unknown| view! {
                <button type="button" class="key not-known" data-testid="not-known" on:click=move |_| unknown.run(())>
                    {t("ui.not-known")}
                </button>
            })}
            <WideDone
                words=t("ui.done")
                waits=Signal::derive(move || !session.can_write() || typed.with(|typed| typed.trim().is_empty()))
                on_done=done
            />
        </div>
    }
    .into_any()
}

/// What to ask about a number before it is kept, if anything; `Err` if it is no number.
pub(crate) fn doubt(
    text: &str,
    unit: Option<Unit>,
    first: Option<Unit>,
    usual: &[String; 2],
    session: Session,
) -> Result<Option<QuestionShown>, String> {
    let units = session
        .settings
        .with_untracked(|settings| settings.units.units());
    let [low, high] = usual;
    let (Some(unit), Some(first)) = (unit, first) else {
        let count = whole(text)?;
        let usual = |end: &String| end.parse::<u16>().unwrap_or(0);
        if (usual(low)..=usual(high)).contains(&count) {
            return Ok(None);
        }
        let ask = fill("ui.count.unusual", &[("low", low), ("high", high)]);
        return Ok(Some(shown(text.to_owned(), ask)));
    };
    let typed = Typed::parse(text, unit).map_err(|fault| say(&Words::from(&fault), &units))?;
    let Ok(band) = Band::new(low, high, first) else {
        return Ok(None);
    };
    let question: Option<BandQuestion> = band.question(&typed);
    Ok(question.map(|question| {
        let ask = say_remark(&band.remark(question), &units);
        shown(format!("{} {}", typed.text(), unit_words(unit)), ask)
    }))
}

fn shown(typed: String, ask: String) -> QuestionShown {
    QuestionShown {
        typed,
        ask,
        keep: t("ui.keep-as-typed"),
        again: t("ui.type-again"),
    }
}
