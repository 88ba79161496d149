//! From which number everything made up follows: the same on every device, for ever.
//!
//! The numbers come from the ChaCha8 stream cipher, keyed by version, level and number, one stream
//! for each use: what is drawn for one use never moves what is drawn for another. A change to what
//! is drawn for a seed is a new version; the old one stays.

use std::fmt;

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{RngCore, SeedableRng};

/// The newest way of making things up.
const VERSION: u8 = 1;

/// How hard it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Level {
    /// At most one fault, and it is plain to see.
    Plain,
    /// Two or three faults.
    Usual,
    /// More of them, readings on the limit or one mark short of it, and things that look wrong and
    /// are sound.
    Close,
}

impl Level {
    /// Every level, the easiest first.
    pub const ALL: &[Self] = &[Self::Plain, Self::Usual, Self::Close];

    /// The stable name under which it is stored.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Plain => "plain",
            Self::Usual => "usual",
            Self::Close => "close",
        }
    }

    /// The level of a stored name.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }
}

/// What everything made up follows from. Several people with the same one get the same axle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Seed {
    // A version that this crate can make: only `new` and `read` build one.
    version: u8,
    level: Level,
    number: u32,
}

/// Why a text isn't a seed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SeedFault {
    /// Not a version, a level and a number.
    NotASeed,
    /// Made by an app that makes things up another way.
    Version {
        /// The version that was found.
        found: u8,
    },
}

impl Seed {
    /// The seed of this level and number, of the newest version.
    pub const fn new(level: Level, number: u32) -> Self {
        Self {
            version: VERSION,
            level,
            number,
        }
    }

    /// Reads a seed as it is shown: "1-usual-42".
    ///
    /// Errors: [`SeedFault`].
    pub fn read(text: &str) -> Result<Self, SeedFault> {
        let mut parts = text.trim().split('-');
        let (Some(version), Some(level), Some(number), None) =
            (parts.next(), parts.next(), parts.next(), parts.next())
        else {
            return Err(SeedFault::NotASeed);
        };
        let level = Level::from_code(level).ok_or(SeedFault::NotASeed)?;
        let (Some(version), Some(number)) = (whole::<u8>(version), whole::<u32>(number)) else {
            return Err(SeedFault::NotASeed);
        };
        if version != VERSION {
            return Err(SeedFault::Version { found: version });
        }
        Ok(Self::new(level, number))
    }

    /// Short enough to be read out: "U1-42" is the second level of the first way, number 42.
    pub fn code(self) -> String {
        let letter = match self.level {
            Level::Plain => 'P',
            Level::Usual => 'U',
            Level::Close => 'C',
        };
        format!("{letter}{}-{}", self.version, self.number)
    }

    /// Reads a seed as it was heard, or as it is shown; blanks and small letters are no matter.
    ///
    /// Errors: [`SeedFault`].
    pub fn hear(text: &str) -> Result<Self, SeedFault> {
        let heard: String = text.chars().filter(|sign| !sign.is_whitespace()).collect();
        let heard = heard.to_lowercase();
        let level = match heard.chars().next() {
            Some('p') => Level::Plain,
            Some('u') => Level::Usual,
            Some('c') => Level::Close,
            _ => return Self::read(&heard),
        };
        let (version, number) = heard
            .get(1..)
            .and_then(|rest| rest.split_once('-'))
            .ok_or(SeedFault::NotASeed)?;
        Self::read(&format!("{version}-{}-{number}", level.code()))
    }

    /// How hard it is.
    pub const fn level(self) -> Level {
        self.level
    }

    /// Its number.
    pub const fn number(self) -> u32 {
        self.number
    }

    pub(crate) fn draw(self, of: Use) -> Draw {
        let mut key = [0_u8; 32];
        let [n0, n1, n2, n3] = self.number.to_le_bytes();
        let label = b"practice bay ".iter().copied();
        let level = match self.level {
            Level::Plain => 0,
            Level::Usual => 1,
            Level::Close => 2,
        };
        let bytes = label.chain([self.version, level, n0, n1, n2, n3]);
        for (place, byte) in key.iter_mut().zip(bytes) {
            *place = byte;
        }
        let mut stream = ChaCha8Rng::from_seed(key);
        stream.set_stream(of as u64);
        Draw(stream)
    }
}

/// Digits only: a sign or a blank would give one seed two names.
fn whole<N: std::str::FromStr>(text: &str) -> Option<N> {
    text.bytes()
        .all(|byte| byte.is_ascii_digit())
        .then(|| text.parse().ok())
        .flatten()
}

impl fmt::Display for Seed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}-{}-{}", self.version, self.level.code(), self.number)
    }
}

/// What is drawn; the numbers are part of what a seed means and never change.
#[derive(Clone, Copy)]
pub(crate) enum Use {
    Axle = 1,
    Left = 2,
    Right = 3,
    Faults = 4,
    Lift = 5,
    Scenes = 6,
    Close = 7,
    Drill = 8,
}

/// Whole numbers from one stream.
pub(crate) struct Draw(ChaCha8Rng);

impl Draw {
    /// From `low` to `high`, both included; `low` where they stand upside down.
    pub(crate) fn between(&mut self, low: i64, high: i64) -> i64 {
        let drawn = u64::from(self.0.next_u32());
        let span = u64::try_from(high - low + 1).unwrap_or(1).max(1);
        // The top half of the product: even to one part in 2³² over the span.
        let at = (drawn * span.min(1 << 32)) >> 32;
        low + i64::try_from(at).unwrap_or(0)
    }

    /// A number below `many`; nought where there are none.
    pub(crate) fn below(&mut self, many: usize) -> usize {
        let most = i64::try_from(many).unwrap_or(i64::MAX).max(1) - 1;
        usize::try_from(self.between(0, most)).unwrap_or(0)
    }

    /// True once in so many times.
    pub(crate) fn one_in(&mut self, times: i64) -> bool {
        self.between(1, times) == 1
    }

    /// One of `all`, or `otherwise` of an empty list.
    pub(crate) fn pick<T: Copy>(&mut self, all: &[T], otherwise: T) -> T {
        let at = self.below(all.len());
        all.get(at).copied().unwrap_or(otherwise)
    }

    /// The same things in a drawn order.
    pub(crate) fn mixed<T>(&mut self, mut all: Vec<T>) -> Vec<T> {
        for at in (1..all.len()).rev() {
            let with = self.below(at + 1);
            all.swap(at, with);
        }
        all
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_seed_comes_back_from_its_text() {
        for level in Level::ALL {
            for number in [0, 1, 42, u32::MAX] {
                let seed = Seed::new(*level, number);
                assert_eq!(Seed::read(&seed.to_string()), Ok(seed));
            }
        }
    }

    #[test]
    fn a_seed_is_read_out_and_heard() {
        for level in Level::ALL {
            for number in [0, 42, 999_999] {
                let seed = Seed::new(*level, number);
                assert_eq!(Seed::hear(&seed.code()), Ok(seed));
                assert_eq!(Seed::hear(&seed.to_string()), Ok(seed));
            }
        }
        let seed = Seed::new(Level::Usual, 4271);
        assert_eq!(seed.code(), "U1-4271");
        assert_eq!(Seed::hear(" u 1 - 4271 "), Ok(seed));
        for text in ["", "U", "U1", "U1-", "X1-4", "U1-4-4", "Ü1-4"] {
            assert_eq!(Seed::hear(text), Err(SeedFault::NotASeed), "{text}");
        }
        assert_eq!(Seed::hear("U2-4"), Err(SeedFault::Version { found: 2 }));
    }

    #[test]
    fn anything_else_is_no_seed() {
        for text in [
            "",
            "1",
            "1-usual",
            "1-hard-2",
            "1-usual-+2",
            "1-usual--2",
            "1-usual-2-3",
        ] {
            assert_eq!(Seed::read(text), Err(SeedFault::NotASeed), "{text}");
        }
        assert_eq!(Seed::read("1-usual-4294967296"), Err(SeedFault::NotASeed));
        assert_eq!(
            Seed::read("2-usual-7"),
            Err(SeedFault::Version { found: 2 })
        );
    }

    #[test]
    fn the_stream_is_the_one_that_it_always_was() {
        let mut draw = Seed::new(Level::Usual, 42).draw(Use::Axle);
        let drawn: Vec<i64> = (0..8).map(|_| draw.between(0, 999)).collect();
        assert_eq!(drawn, FIRST_OF_42);
    }

    const FIRST_OF_42: [i64; 8] = [723, 51, 235, 815, 981, 379, 578, 254];

    #[test]
    fn a_draw_stays_between_its_ends_and_reaches_both() {
        let mut draw = Seed::new(Level::Plain, 1).draw(Use::Left);
        let drawn: Vec<i64> = (0..1_000).map(|_| draw.between(-2, 3)).collect();
        assert_eq!(drawn.iter().min(), Some(&-2));
        assert_eq!(drawn.iter().max(), Some(&3));
        assert_eq!(draw.between(5, 1), 5);
        let mut mixed = draw.mixed((0..20).collect());
        assert_ne!(mixed, (0..20).collect::<Vec<i32>>());
        mixed.sort_unstable();
        assert_eq!(mixed, (0..20).collect::<Vec<i32>>());
    }
}
