//! The app's own number pad. What comes out is the text as typed; reading it is up to the rules.
//!
//! It never fills in a number, never converts one, and never drops a key press without saying so.

use std::time::Duration;

use leptos::ev;
use leptos::prelude::*;
use rules::typed::{Typed, TypedFault};
use rules::unit::Unit;
use wasm_bindgen::JsCast;

use crate::words::{self, t};

mod keys;

use keys::{Key, Refusal, press};

/// How long a refusal flashes; its words stay until the next key.
const FLASH: Duration = Duration::from_millis(700);

/// Which keys a pad has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum PadKind {
    /// Digits and a decimal point.
    Decimal,
    /// Digits only: a count.
    Whole,
    /// Whole inches, eighths, plus and minus a sixteenth. In another unit than inches it is `Decimal`.
    Sixteenths,
    /// Digits come in as thousandths of an inch. With the point pressed first, and in another unit, it
    /// is `Decimal`.
    Thousandths,
}

/// What a pad is asked to take.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct PadAsk {
    pub(crate) kind: PadKind,
    /// What is asked for.
    pub(crate) words: String,
    /// Units that may be typed, the usual one first; empty for a count.
    pub(crate) units: Vec<Unit>,
    /// A line of the screen's own, such as what is usual here; may be empty.
    pub(crate) line: String,
}

/// The number in large figures, the question beside it, and the keys.
#[component]
pub(crate) fn NumberPad(
    #[prop(into)] ask: Signal<PadAsk>,
    /// The text as typed, in and out.
    typed: RwSignal<String>,
    /// The unit it is typed in. Changing it leaves the text alone.
    unit: RwSignal<Option<Unit>>,
) -> impl IntoView {
    let refusal = RwSignal::new(None::<Refusal>);
    let flashing = RwSignal::new(false);
    let settles = StoredValue::new(None::<TimeoutHandle>);
    let stop = move || {
        if let Some(handle) = settles.try_update_value(Option::take).flatten() {
            handle.clear();
        }
    };
    on_cleanup(stop);
    let point_first = RwSignal::new(false);
    let kind = Memo::new(move |_| match (ask.with(|ask| ask.kind), unit.get()) {
        (PadKind::Sixteenths, Some(Unit::Inch)) => PadKind::Sixteenths,
        (PadKind::Thousandths, Some(Unit::Inch)) if !point_first.get() => PadKind::Thousandths,
        (PadKind::Sixteenths | PadKind::Thousandths, _) => PadKind::Decimal,
        (kind, _) => kind,
    });
    // An empty pad starts again in thousandths, unless the point is what it starts with.
    Effect::new(move |_| {
        if typed.with(String::is_empty) {
            point_first.set(false);
        }
    });
    let strike = move |key: Key| {
        if key == Key::Point && typed.with_untracked(String::is_empty) {
            point_first.set(true);
        }
        let key_kind = kind.get_untracked();
        match press(&typed.get_untracked(), key, key_kind) {
            Ok(text) => {
                stop();
                refusal.set(None);
                flashing.set(false);
                typed.set(text);
            }
            Err(why) => {
                refusal.set(Some(why));
                flashing.set(true);
                stop();
                let settle = move || {
                    let _gone = flashing.try_set(false);
                };
                settles.set_value(set_timeout_with_handle(settle, FLASH).ok());
            }
        }
    };
    let keyboard = window_event_listener(ev::keydown, move |event| {
        let elsewhere =
            event.ctrl_key() || event.alt_key() || event.meta_key() || in_text_box(&event);
        if let Some(key) =
            Key::of_keyboard(&event.key(), unit.get_untracked()).filter(|_| !elsewhere)
        {
            event.prevent_default();
            strike(key);
        }
    });
    on_cleanup(move || keyboard.remove());

    let line = move || {
        if let Some(refusal) = refusal.get() {
            return t(refusal.key());
        }
        if let Some(unit) = unit.get()
            && let Err(fault) = Typed::parse(&typed.get(), unit)
            && !still_typing(&fault)
        {
            return words::remark(&fault.remark(), &|_| None);
        }
        ask.with(|ask| ask.line.clone())
    };
    let objects = move || refusal.get().is_some();
    let many_units = move || ask.with(|ask| ask.units.len() > 2);
    let unit_name = move || unit.get().map(words::unit);
    let shown = move || {
        let text = typed.get();
        if text.is_empty() {
            "–".to_owned()
        } else {
            text
        }
    };
    let unit_keys = move || {
        let units = ask.with(|ask| ask.units.clone());
        let several = units.len() > 1;
        let key = move |(at, of): (usize, Unit)| {
            let chosen = move || unit.get() == Some(of);
            view! {
                <button
                    type="button"
                    class=format!("key unit-key at-unit-{}", at + 1)
                    class:chosen=chosen
                    aria-pressed=move || chosen().to_string()
                    data-testid=format!("unit-{}", of.code())
                    on:click=move |_| unit.set(Some(of))
                >
                    {words::unit(of)}
                </button>
            }
        };
        units
            .into_iter()
            .filter(|_| several)
            .enumerate()
            .map(key)
            .collect_view()
    };
    let keys = move || {
        let key = |key: Key| view! { <PadKey key on_key=Callback::new(strike) /> };
        keys::of(kind.get()).into_iter().map(key).collect_view()
    };
    view! {
        <section class="number-ask" data-testid="number-ask">
            <div class="number" class:refused=move || flashing.get()>
                <p class="number-words">
                    <strong>{move || ask.with(|ask| ask.words.clone())}</strong>
                    <span class="number-line" class:objects=objects aria-live="assertive" data-testid="number-line">
                        {line}
                    </span>
                </p>
                <output class="number-typed" class:none=move || typed.with(String::is_empty) data-testid="number">
                    {shown}
                </output>
                <span class="number-unit">{unit_name}</span>
            </div>
            <div
                class="pad"
                class:sixteenths=move || kind.get() == PadKind::Sixteenths
                class:thousandths=move || kind.get() == PadKind::Thousandths
                class:many-units=many_units
            >
                {keys}
                {unit_keys}
            </div>
        </section>
    }
}

/// One key. `key` decides its place in the grid.
#[component]
fn PadKey(key: Key, on_key: Callback<Key>) -> impl IntoView {
    let face = match key {
        Key::Digit(digit) => view! { <span>{char::from(digit)}</span> }.into_any(),
        Key::Point => view! { <span>"."</span> }.into_any(),
        Key::Whole(whole) => view! { <span>{whole}</span> }.into_any(),
        Key::Eighths(eighths) => fraction(eighths, 8).into_any(),
        Key::Sixteenth { up } => {
            let sign = if up { "+" } else { "−" };
            view! { <span class="sixteenth">{sign}{fraction(1, 16)}</span> }.into_any()
        }
        Key::TakeAway => view! {
            <svg class="sign" viewBox="0 0 48 48" aria-hidden="true">
                <path d="M16 8 H44 V40 H16 L3 24 Z M23 17 L37 31 M37 17 L23 31" />
            </svg>
        }
        .into_any(),
        Key::Clear => view! { <span class="small-face">{t("ui.pad.clear")}</span> }.into_any(),
        Key::Mark(mark) => view! { <span>{mark}</span> }.into_any(),
    };
    let name = match key {
        Key::TakeAway => Some(t("ui.pad.take-away")),
        Key::Point => Some(t("ui.pad.point")),
        Key::Sixteenth { up: true } => Some(t("ui.pad.more")),
        Key::Sixteenth { up: false } => Some(t("ui.pad.less")),
        _ => None,
    };
    let apart = matches!(key, Key::TakeAway | Key::Clear | Key::Sixteenth { .. });
    view! {
        <button
            type="button"
            class=format!("key pad-key at-{}", key.place())
            class:apart=apart
            aria-label=name
            data-testid=format!("key-{}", key.place())
            on:click=move |_| on_key.run(key)
        >
            {face}
        </button>
    }
}

/// A fraction in lowest terms, its figures one over the other; read aloud as "3/4".
fn fraction(over: u8, under: u8) -> impl IntoView {
    let (over, under) = keys::lowest(u32::from(over), u32::from(under));
    view! {
        <span class="fraction">
            <span>{over}</span>
            <span class="fraction-bar">"/"</span>
            <span>{under}</span>
        </span>
    }
}

/// Faults that the next key may well mend.
fn still_typing(fault: &TypedFault) -> bool {
    matches!(
        fault,
        TypedFault::Empty | TypedFault::Unfinished | TypedFault::Thousands { .. }
    )
}

fn in_text_box(event: &ev::KeyboardEvent) -> bool {
    let target = event
        .target()
        .and_then(|target| target.dyn_into::<web_sys::Element>().ok());
    target
        .is_some_and(|target| matches!(target.tag_name().as_str(), "INPUT" | "TEXTAREA" | "SELECT"))
}
