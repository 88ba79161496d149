//! What a key does to a text: a pure step from text to text, or a refusal that is shown.

use rules::unit::Unit;

use super::PadKind;

/// More than any reading has, and what fits in large figures.
const LONGEST: usize = 9;

/// A key of the pad.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Key {
    /// An ASCII digit.
    Digit(u8),
    Point,
    TakeAway,
    Clear,
    /// Whole inches.
    Whole(u8),
    /// Eighths of an inch, 1 to 7.
    Eighths(u8),
    /// A sixteenth more or less.
    Sixteenth {
        up: bool,
    },
    /// `/` or `-` from a keyboard, where fractions may be typed.
    Mark(char),
}

/// Why a key did nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Refusal {
    SecondPoint,
    TooLong,
    NotHere,
    BelowNothing,
    NotSixteenths,
    NotThousandths,
}

impl Refusal {
    /// The key of its words.
    pub(super) fn key(self) -> &'static str {
        match self {
            Self::SecondPoint => "ui.pad.second-point",
            Self::TooLong => "ui.pad.too-long",
            Self::NotHere => "ui.pad.not-here",
            Self::BelowNothing => "ui.pad.below-nothing",
            Self::NotSixteenths => "ui.pad.not-sixteenths",
            Self::NotThousandths => "ui.pad.not-thousandths",
        }
    }
}

/// The keys of a pad; where each stands is up to the style sheet.
pub(super) fn of(kind: PadKind) -> Vec<Key> {
    if kind == PadKind::Sixteenths {
        // Up to 4 15/16: the longest a pushrod stands out. Less than an inch needs no whole ones.
        let wholes = (1..=4).map(Key::Whole);
        let eighths = (1..=7).map(Key::Eighths);
        let rest = [
            Key::TakeAway,
            Key::Sixteenth { up: false },
            Key::Sixteenth { up: true },
        ];
        return wholes.chain(eighths).chain(rest).collect();
    }
    let digits = b"1234567890".iter().copied().map(Key::Digit);
    let point = (kind != PadKind::Whole).then_some(Key::Point);
    digits
        .chain(point)
        .chain([Key::TakeAway, Key::Clear])
        .collect()
}

impl Key {
    /// What stands for it in classes and test ids.
    pub(super) fn place(self) -> String {
        match self {
            Self::Digit(digit) => char::from(digit).to_string(),
            Self::Point => "point".to_owned(),
            Self::TakeAway => "take-away".to_owned(),
            Self::Clear => "clear".to_owned(),
            Self::Whole(whole) => format!("whole-{whole}"),
            Self::Eighths(eighths) => format!("eighths-{eighths}"),
            Self::Sixteenth { up: true } => "more".to_owned(),
            Self::Sixteenth { up: false } => "less".to_owned(),
            Self::Mark(_) => "mark".to_owned(),
        }
    }

    /// The key that a keyboard's key stands for, if any.
    pub(super) fn of_keyboard(name: &str, unit: Option<Unit>) -> Option<Self> {
        match name {
            "." | "," => Some(Self::Point),
            "Backspace" => Some(Self::TakeAway),
            "Delete" => Some(Self::Clear),
            "/" | "-" if unit == Some(Unit::Inch) => name.chars().next().map(Self::Mark),
            _ => match name.as_bytes() {
                [digit] if digit.is_ascii_digit() => Some(Self::Digit(*digit)),
                _ => None,
            },
        }
    }
}

/// The text after `key`.
///
/// Errors: the key makes no sense here; the text stays.
pub(super) fn press(text: &str, key: Key, kind: PadKind) -> Result<String, Refusal> {
    match key {
        Key::Clear => Ok(String::new()),
        Key::TakeAway if kind == PadKind::Sixteenths => Ok(take_fraction(text)),
        Key::TakeAway | Key::Digit(_) if kind == PadKind::Thousandths => thousandths(text, key),
        Key::TakeAway => {
            let mut text = text.to_owned();
            text.pop();
            Ok(text)
        }
        Key::Digit(digit) => append(text, char::from(digit)),
        Key::Point if kind == PadKind::Whole => Err(Refusal::NotHere),
        Key::Point if text.contains(['.', ',', '/']) => Err(Refusal::SecondPoint),
        Key::Point => append(text, '.'),
        Key::Mark(_) if text.is_empty() || text.contains('.') => Err(Refusal::NotHere),
        Key::Mark(mark) if text.contains(mark) => Err(Refusal::NotHere),
        Key::Mark(mark) => append(text, mark),
        Key::Whole(whole) => {
            let (_, part) = sixteenths(text)?;
            Ok(mixed(u32::from(whole) * 16 + part))
        }
        Key::Eighths(eighths) => {
            let (whole, _) = sixteenths(text)?;
            Ok(mixed(whole * 16 + u32::from(eighths) * 2))
        }
        Key::Sixteenth { .. } if text.is_empty() => Err(Refusal::NotHere),
        Key::Sixteenth { up } => {
            let (whole, part) = sixteenths(text)?;
            let all = whole * 16 + part;
            let all = if up {
                Some(all + 1)
            } else {
                all.checked_sub(1)
            };
            all.map(mixed).ok_or(Refusal::BelowNothing)
        }
    }
}

fn append(text: &str, mark: char) -> Result<String, Refusal> {
    if text.chars().count() >= LONGEST {
        return Err(Refusal::TooLong);
    }
    Ok(format!("{text}{mark}"))
}

/// Digits come in from the right as thousandths of an inch: 1, 2 is 0.012.
fn thousandths(text: &str, key: Key) -> Result<String, Refusal> {
    let all = if text.is_empty() {
        0
    } else {
        let (whole, part) = text.split_once('.').ok_or(Refusal::NotThousandths)?;
        let number = |text: &str| text.parse::<u32>().ok();
        match (number(whole), number(part), part.len()) {
            (Some(whole), Some(part), 3) if whole < 10 => whole * 1_000 + part,
            _ => return Err(Refusal::NotThousandths),
        }
    };
    let all = match key {
        Key::Digit(digit) => all * 10 + u32::from(digit - b'0'),
        _ => all / 10,
    };
    match all {
        0 if key == Key::TakeAway => Ok(String::new()),
        10_000.. => Err(Refusal::TooLong),
        _ => Ok(format!("{}.{:03}", all / 1_000, all % 1_000)),
    }
}

/// First the fraction, then all of it.
fn take_fraction(text: &str) -> String {
    match text.split_once(' ') {
        Some((whole, _)) => whole.to_owned(),
        None => String::new(),
    }
}

/// Whole inches and sixteenths of a text that this pad can have written.
fn sixteenths(text: &str) -> Result<(u32, u32), Refusal> {
    if text.is_empty() {
        return Ok((0, 0));
    }
    let (whole, part) = match text.split_once(' ') {
        Some(both) => both,
        None if text.contains('/') => ("0", text),
        None => (text, "0/16"),
    };
    let number = |text: &str| text.parse::<u32>().ok().filter(|number| *number < 1_000);
    let part = part.split_once('/').and_then(|(over, under)| {
        let (over, under) = (number(over)?, number(under)?);
        let whole_parts =
            matches!(under, 2 | 4 | 8 | 16) && over < under || (over == 0 && under == 16);
        whole_parts.then(|| over * 16 / under)
    });
    number(whole).zip(part).ok_or(Refusal::NotSixteenths)
}

/// Sixteenths as inches and a fraction in lowest terms.
fn mixed(all: u32) -> String {
    let (over, under) = lowest(all % 16, 16);
    match (all / 16, over) {
        (whole, 0) => whole.to_string(),
        (0, over) => format!("{over}/{under}"),
        (whole, over) => format!("{whole} {over}/{under}"),
    }
}

/// A fraction over a power of two in lowest terms.
pub(super) fn lowest(mut over: u32, mut under: u32) -> (u32, u32) {
    while over != 0 && over.is_multiple_of(2) && under.is_multiple_of(2) {
        (over, under) = (over / 2, under / 2);
    }
    (over, under)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn typed(keys: &[Key], kind: PadKind) -> Result<String, Refusal> {
        keys.iter()
            .try_fold(String::new(), |text, key| press(&text, *key, kind))
    }

    #[test]
    fn decimals() {
        let digits = |text: &str| -> Vec<Key> {
            text.bytes()
                .map(|c| if c == b'.' { Key::Point } else { Key::Digit(c) })
                .collect()
        };
        let decimal = |text: &str| typed(&digits(text), PadKind::Decimal);
        assert_eq!(decimal("419.10"), Ok("419.10".to_owned()));
        assert_eq!(decimal("1.2.3"), Err(Refusal::SecondPoint));
        assert_eq!(decimal("1234567890"), Err(Refusal::TooLong));
        assert_eq!(typed(&digits("1.5"), PadKind::Whole), Err(Refusal::NotHere));
        let taken = typed(
            &[Key::Digit(b'4'), Key::Digit(b'5'), Key::TakeAway],
            PadKind::Decimal,
        );
        assert_eq!(taken, Ok("4".to_owned()));
    }

    #[test]
    fn thousandths_come_in_from_the_right() {
        let digit = |digit: u8| Key::Digit(digit);
        let typed = |keys: &[Key]| typed(keys, PadKind::Thousandths);
        assert_eq!(typed(&[digit(b'1'), digit(b'2')]), Ok("0.012".to_owned()));
        assert_eq!(typed(&[digit(b'0'), digit(b'4')]), Ok("0.004".to_owned()));
        assert_eq!(
            typed(&[digit(b'1'), digit(b'2'), Key::TakeAway]),
            Ok("0.001".to_owned())
        );
        assert_eq!(typed(&[digit(b'3'), Key::TakeAway]), Ok(String::new()));
        assert_eq!(typed(&[digit(b'1'); 5]), Err(Refusal::TooLong));
        assert_eq!(
            press("0.30", digit(b'1'), PadKind::Thousandths),
            Err(Refusal::NotThousandths)
        );
    }

    #[test]
    fn strokes() {
        let stroke = |keys: &[Key]| typed(keys, PadKind::Sixteenths);
        let (more, less) = (Key::Sixteenth { up: true }, Key::Sixteenth { up: false });
        assert_eq!(
            stroke(&[Key::Whole(1), Key::Eighths(6)]),
            Ok("1 3/4".to_owned())
        );
        assert_eq!(
            stroke(&[Key::Eighths(6), Key::Whole(1), more]),
            Ok("1 13/16".to_owned())
        );
        assert_eq!(stroke(&[Key::Whole(2), less]), Ok("1 15/16".to_owned()));
        assert_eq!(stroke(&[Key::Eighths(7), more, more]), Ok("1".to_owned()));
        assert_eq!(stroke(&[Key::Whole(0), less]), Err(Refusal::BelowNothing));
        assert_eq!(stroke(&[more]), Err(Refusal::NotHere));
        assert_eq!(
            stroke(&[Key::Whole(1), Key::Eighths(6), Key::TakeAway]),
            Ok("1".to_owned())
        );
        assert_eq!(
            press("47.6", Key::Whole(1), PadKind::Sixteenths),
            Err(Refusal::NotSixteenths)
        );
    }

    #[test]
    fn every_text_of_the_stroke_pad_is_a_number() {
        for all in 0..64 {
            let text = mixed(all);
            let read = rules::typed::Typed::parse(&text, Unit::Inch).unwrap();
            assert_eq!(
                read.quantity().base(),
                i128::from(all) * 1_587_500,
                "{text}"
            );
            assert_eq!(sixteenths(&text), Ok((all / 16, all % 16)), "{text}");
        }
    }
}
