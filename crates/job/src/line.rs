//! One line of a trail: what is stored, byte for byte, and what it says.
//!
//! A stored line is `<sha-256 in hex> <json>`; the hash is taken over the json exactly as it
//! stands. The text is never written anew: it is kept, exported and merged verbatim.

use std::fmt;

use chrono::{DateTime, Utc};
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use crate::event::Event;
use crate::id::{CardId, PersonId, TabletId};

/// The line format written by this app, and the newest it can read.
pub const FORMAT: u32 = 1;

const N_MAX: u32 = 1_000_000;
const TICK_MAX: u64 = 1_000_000_000;

/// A SHA-256.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Sha([u8; 32]);

impl Sha {
    /// Stands where a strand has no line before.
    pub const NONE: Self = Self([0; 32]);

    pub fn of(bytes: &[u8]) -> Self {
        Self(Sha256::digest(bytes).into())
    }

    fn from_hex(text: &str) -> Option<Self> {
        let digits = text.as_bytes();
        if digits.len() != 64 {
            return None;
        }
        let value = |digit: u8| match digit {
            b'0'..=b'9' => Some(digit - b'0'),
            b'a'..=b'f' => Some(digit - b'a' + 10),
            _ => None,
        };
        let mut bytes = [0; 32];
        for (byte, pair) in bytes.iter_mut().zip(digits.chunks_exact(2)) {
            *byte = match pair {
                [high, low] => value(*high)? * 16 + value(*low)?,
                _ => return None,
            };
        }
        Some(Self(bytes))
    }
}

impl fmt::Display for Sha {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

impl fmt::Debug for Sha {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl Serialize for Sha {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Sha {
    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = String::deserialize(from)?;
        Self::from_hex(&text).ok_or_else(|| serde::de::Error::custom("expected 64 hex digits"))
    }
}

/// A moment as the tablet's clock had it, and how far its wall clock stood from UTC.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stamp {
    pub utc: DateTime<Utc>,
    pub offset_minutes: i32,
}

/// Names one line: its strand, its place there, and its hash.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct LineRef {
    pub tablet: TabletId,
    pub n: u32,
    pub sha: Sha,
}

/// What a line says happened.
#[derive(Clone, Debug, PartialEq)]
pub enum Said {
    Known(Event),
    /// A kind from a newer app that an older one may pass over.
    MayBeSkipped {
        kind: String,
    },
    /// A kind from a newer app without which the card can't be understood.
    MustBeUnderstood {
        kind: String,
    },
}

/// One line, read. The text it was read from is kept.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    pub card: CardId,
    pub tablet: TabletId,
    /// 1, 2, 3… in its strand.
    pub n: u32,
    /// One more than the highest tick that its writer had seen.
    pub tick: u64,
    pub at: Stamp,
    pub who: PersonId,
    /// Hash of the line before it in its strand.
    pub before: Sha,
    pub said: Said,
    pub sha: Sha,
    text: String,
}

/// Why a line can't be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LineFault {
    /// The hash in front does not fit the bytes behind it.
    Changed { stated: Sha, found: Sha },
    /// Not a line at all, or one that was cut.
    NotALine,
    /// Written by a newer app.
    Newer { format: u32 },
    /// The json does not say what a line must say.
    Unreadable { why: String },
}

impl fmt::Display for LineFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Changed { stated, found } => {
                write!(f, "line was changed: expected hash {stated}, found {found}")
            }
            Self::NotALine => f.write_str("not a line: expected a hash, a space and json"),
            Self::Newer { format } => {
                write!(f, "line has format {format}; this app reads up to {FORMAT}")
            }
            Self::Unreadable { why } => write!(f, "line can't be understood: {why}"),
        }
    }
}

#[derive(Serialize, Deserialize)]
struct Envelope {
    f: u32,
    card: CardId,
    tablet: TabletId,
    n: u32,
    tick: u64,
    utc: DateTime<Utc>,
    off: i32,
    who: PersonId,
    before: Sha,
    /// `may` or `must`: what an older app does with a kind it does not know.
    old: String,
    kind: String,
    event: serde_json::Value,
}

#[derive(Deserialize)]
struct FormatOnly {
    f: u32,
}

/// Where a new line goes.
#[derive(Clone, Debug)]
pub struct Spot {
    pub card: CardId,
    pub tablet: TabletId,
    pub n: u32,
    pub tick: u64,
    pub before: Sha,
}

impl Line {
    /// Writes a new line. Whether it may be written is not asked here.
    pub(crate) fn write(spot: Spot, at: Stamp, who: PersonId, event: Event) -> Self {
        let (kind, value) = event.to_parts();
        let old = if event.may_be_skipped() {
            "may"
        } else {
            "must"
        };
        let envelope = Envelope {
            f: FORMAT,
            card: spot.card,
            tablet: spot.tablet,
            n: spot.n,
            tick: spot.tick,
            utc: at.utc,
            off: at.offset_minutes,
            who,
            before: spot.before,
            old: old.to_owned(),
            kind,
            event: value,
        };
        let json = serde_json::to_string(&envelope)
            .expect("an envelope holds only text, numbers and json");
        let sha = Sha::of(json.as_bytes());
        Self {
            card: envelope.card,
            tablet: envelope.tablet,
            n: envelope.n,
            tick: envelope.tick,
            at,
            who: envelope.who,
            before: envelope.before,
            said: Said::Known(event),
            sha,
            text: format!("{sha} {json}"),
        }
    }

    /// Reads a stored line and checks its hash.
    pub fn read(text: &str) -> Result<Self, LineFault> {
        let (stated, json) = text.split_once(' ').ok_or(LineFault::NotALine)?;
        let stated = Sha::from_hex(stated).ok_or(LineFault::NotALine)?;
        let sha = Sha::of(json.as_bytes());
        if sha != stated {
            return Err(LineFault::Changed { stated, found: sha });
        }
        let unreadable = |error: serde_json::Error| LineFault::Unreadable {
            why: error.to_string(),
        };
        let FormatOnly { f } = serde_json::from_str(json).map_err(unreadable)?;
        if f > FORMAT {
            return Err(LineFault::Newer { format: f });
        }
        let envelope: Envelope = serde_json::from_str(json).map_err(unreadable)?;
        // Numbers that no tablet reaches would only serve to run a counter over.
        if f == 0
            || envelope.n == 0
            || envelope.n > N_MAX
            || envelope.tick == 0
            || envelope.tick > TICK_MAX
        {
            return Err(LineFault::Unreadable {
                why: format!(
                    "no such place: format {f}, n {}, tick {}",
                    envelope.n, envelope.tick
                ),
            });
        }
        let said = match Event::from_parts(&envelope.kind, envelope.event) {
            Some(Ok(event)) => Said::Known(event),
            Some(Err(error)) => return Err(unreadable(error)),
            None if envelope.old == "may" => Said::MayBeSkipped {
                kind: envelope.kind,
            },
            None => Said::MustBeUnderstood {
                kind: envelope.kind,
            },
        };
        Ok(Self {
            card: envelope.card,
            tablet: envelope.tablet,
            n: envelope.n,
            tick: envelope.tick,
            at: Stamp {
                utc: envelope.utc,
                offset_minutes: envelope.off,
            },
            who: envelope.who,
            before: envelope.before,
            said,
            sha,
            text: text.to_owned(),
        })
    }

    /// The stored text, byte for byte.
    pub fn text(&self) -> &str {
        &self.text
    }

    pub fn reference(&self) -> LineRef {
        LineRef {
            tablet: self.tablet.clone(),
            n: self.n,
            sha: self.sha,
        }
    }

    /// What happened, if this app knows the kind.
    pub fn event(&self) -> Option<&Event> {
        match &self.said {
            Said::Known(event) => Some(event),
            Said::MayBeSkipped { .. } | Said::MustBeUnderstood { .. } => None,
        }
    }
}

#[cfg(test)]
mod tests;
