//! A card as a file: every line verbatim between a first and a last line that show whether all
//! of it is there.
//!
//! ```text
//! chock-to-chock card file 1
//! card <id>
//! <stored lines, one each>
//! photo <sha-256 of its bytes> <its bytes, base64>
//! end <number of lines and photos> <sha-256 of everything above>
//! ```
//!
//! A file with photos has format 2; one without stays readable for an app that knows none. Reading
//! takes all or nothing.

use std::collections::BTreeMap;
use std::fmt;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD as BASE64;

use crate::id::CardId;
use crate::line::{Line, LineFault, Sha};
use crate::trail::{Trail, TrailFault};
use crate::words::{Arg, Words};

/// Newest format of the file around the lines.
pub const FORMAT: u32 = 2;
/// Format of a file that has lines only.
const LINES_ONLY: u32 = 1;
/// Largest file that is read or written, in bytes. A long card has some hundred kilobytes, a photo
/// a few hundred.
pub const BYTES_MAX: usize = 32 * 1024 * 1024;
const MARK: &str = "chock-to-chock card file ";
const PHOTO: &str = "photo ";

/// Bytes of photos by their hash.
pub type Photos = BTreeMap<Sha, Vec<u8>>;

/// Why a file is not taken in. Nothing of it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CardFileFault {
    Empty,
    NotACardFile,
    Newer {
        format: u32,
    },
    TooLarge {
        bytes: usize,
    },
    /// The last line is missing: the file was cut short.
    CutShort,
    /// Bytes were changed since it was saved.
    Changed,
    /// One of its lines can't be read.
    Line {
        number: usize,
        fault: LineFault,
    },
    /// Its lines don't hang together.
    Trail(TrailFault),
    /// A line of another card is in it.
    OtherCard {
        number: usize,
    },
}

impl fmt::Display for CardFileFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str("file is empty"),
            Self::NotACardFile => f.write_str("not a card file"),
            Self::Newer { format } => {
                write!(f, "card file has format {format}, expected up to {FORMAT}")
            }
            Self::TooLarge { bytes } => {
                write!(f, "file has {bytes} bytes, expected up to {BYTES_MAX}")
            }
            Self::CutShort => f.write_str("file has no last line"),
            Self::Changed => f.write_str("file does not fit its hash"),
            Self::Line { number, fault } => write!(f, "line {number}: {fault}"),
            Self::Trail(fault) => write!(f, "lines don't hang together: {fault:?}"),
            Self::OtherCard { number } => write!(f, "line {number} is of another card"),
        }
    }
}

impl CardFileFault {
    /// Every key that [`Self::words`] can come out with.
    pub const KEYS: &[&str] = &[
        "file.empty",
        "file.not-a-card",
        "file.newer",
        "file.too-large",
        "file.cut-short",
        "file.changed",
        "file.line",
        "file.trail",
    ];

    pub fn words(&self) -> Words {
        match self {
            Self::Empty => Words::plain("file.empty"),
            Self::NotACardFile => Words::plain("file.not-a-card"),
            Self::Newer { .. }
            | Self::Line {
                fault: LineFault::Newer { .. },
                ..
            } => Words::plain("file.newer"),
            Self::TooLarge { .. } => {
                let megabytes = (BYTES_MAX / (1024 * 1024)).to_string();
                Words::with("file.too-large", [("most", Arg::Text(megabytes))])
            }
            Self::CutShort => Words::plain("file.cut-short"),
            Self::Changed => Words::plain("file.changed"),
            Self::Line { number, .. } | Self::OtherCard { number } => {
                Words::with("file.line", [("number", Arg::Text(number.to_string()))])
            }
            Self::Trail(_) => Words::plain("file.trail"),
        }
    }
}

/// A card as text, and how many photos had no room in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Written {
    pub text: String,
    pub left_out: usize,
}

/// The file of a card. Every readable line is in it, verbatim, and as many photos as have room.
pub fn write(trail: &Trail, photos: &Photos) -> Written {
    let format = if photos.is_empty() {
        LINES_ONLY
    } else {
        FORMAT
    };
    let mut text = format!("{MARK}{format}\ncard {}\n", trail.card());
    let mut lines = 0_usize;
    for line in trail.all() {
        text.push_str(line.text());
        text.push('\n');
        lines += 1;
    }
    let mut left_out = 0_usize;
    for (sha, bytes) in photos {
        let photo = format!("{PHOTO}{sha} {}\n", BASE64.encode(bytes));
        // The last line takes less than a thousand bytes.
        if text.len() + photo.len() > BYTES_MAX - 1000 {
            left_out += 1;
        } else {
            text.push_str(&photo);
            lines += 1;
        }
    }
    let sha = Sha::of(text.as_bytes());
    text.push_str(&format!("end {lines} {sha}\n"));
    Written { text, left_out }
}

/// Reads a card file, checks everything, and gives the trail and the photos in it.
pub fn read(bytes: &[u8]) -> Result<(Trail, Photos), CardFileFault> {
    if bytes.len() > BYTES_MAX {
        return Err(CardFileFault::TooLarge { bytes: bytes.len() });
    }
    if bytes.iter().all(u8::is_ascii_whitespace) {
        return Err(CardFileFault::Empty);
    }
    let text = str::from_utf8(bytes).map_err(|_not_text| {
        if bytes.starts_with(MARK.as_bytes()) {
            CardFileFault::Changed
        } else {
            CardFileFault::NotACardFile
        }
    })?;
    let rest = text.strip_prefix(MARK).ok_or(CardFileFault::NotACardFile)?;
    let (format, _) = rest.split_once('\n').ok_or(CardFileFault::CutShort)?;
    match format.trim_end().parse() {
        Ok(LINES_ONLY | FORMAT) => {}
        Ok(format) if format > FORMAT => return Err(CardFileFault::Newer { format }),
        _ => return Err(CardFileFault::Changed),
    }
    // Some ways of sending a file turn line ends into pairs; the lines themselves hold none.
    let text = text.replace("\r\n", "\n");
    let text = text.strip_suffix('\n').ok_or(CardFileFault::CutShort)?;
    let body_end = text.rfind('\n').ok_or(CardFileFault::CutShort)? + 1;
    let (body, last) = text.split_at(body_end);
    let stated = last.strip_prefix("end ").ok_or(CardFileFault::CutShort)?;
    let (count, sha) = stated.split_once(' ').ok_or(CardFileFault::CutShort)?;
    if sha.len() < 64 {
        return Err(CardFileFault::CutShort);
    }
    if sha != Sha::of(body.as_bytes()).to_string() {
        return Err(CardFileFault::Changed);
    }
    let mut lines = body.lines().skip(1);
    let card = lines
        .next()
        .and_then(|line| line.strip_prefix("card "))
        .ok_or(CardFileFault::Changed)?;
    let mut trail = Trail::new(CardId::from(card));
    let mut photos = Photos::new();
    let mut read = 0_usize;
    for (at, line) in lines.enumerate() {
        let number = at + 3; // After the two lines at the top, counted from one.
        read += 1;
        if let Some(photo) = line.strip_prefix(PHOTO) {
            let (sha, bytes) = read_photo(photo).ok_or(CardFileFault::Changed)?;
            photos.insert(sha, bytes);
            continue;
        }
        let line = Line::read(line).map_err(|fault| CardFileFault::Line { number, fault })?;
        if line.card != *trail.card() {
            return Err(CardFileFault::OtherCard { number });
        }
        trail.take_in(line);
    }
    if count.parse() != Ok(read) || read == 0 {
        return Err(CardFileFault::Changed);
    }
    // A fork that was there when it was saved stays a fork: it is shown, not refused.
    let fault = trail
        .faults()
        .into_iter()
        .find(|fault| !matches!(fault, TrailFault::Fork { .. }));
    match fault {
        None => Ok((trail, photos)),
        Some(fault) => Err(CardFileFault::Trail(fault)),
    }
}

/// A photo whose bytes have the hash that it stands under.
fn read_photo(text: &str) -> Option<(Sha, Vec<u8>)> {
    let (sha, bytes) = text.split_once(' ')?;
    let bytes = BASE64.decode(bytes).ok()?;
    let is = Sha::of(&bytes);
    (is.to_string() == sha).then_some((is, bytes))
}

#[cfg(test)]
mod tests;
