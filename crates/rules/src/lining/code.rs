//! What the friction code on the edge of a lining says.
//!
//! Two letters: the first normal, the second hot, each a range of friction. They tell linings
//! apart; the standard itself says that they don't foretell braking, so nothing here ranks them.

use crate::quantity::{Quantity, Ratio};
use crate::rules::{self, Figure, Rule};
use crate::source;
use crate::verdict::{Limit, RuleId};
use crate::word::{self, Argument, Remark, Word};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("lining.code"),
    title: word::RULE_LINING_CODE,
    units: &[],
    limits: word::LIMIT_LINING_CODE,
    figures: FIGURES,
    sources: &[&source::EDGE_CODE],
};

/// The highest friction of each letter; the next letter begins over it.
const FIGURES: &[Figure] = &[
    to("C", 15),
    to("D", 25),
    to("E", 35),
    to("F", 45),
    to("G", 55),
];

const fn to(name: &'static str, hundredths: i64) -> Figure {
    Figure {
        name,
        limit: Limit::at_most(
            Quantity::Ratio(Ratio::from_percent(hundredths)),
            &source::EDGE_CODE,
        ),
    }
}

/// One letter of a friction code.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Letter {
    /// The lowest.
    C,
    /// Over C.
    D,
    /// Over D.
    E,
    /// Over E.
    F,
    /// Over F.
    G,
    /// Over G, without a top.
    H,
    /// Not classified.
    Z,
}

impl Letter {
    /// Every one.
    pub const ALL: &[Self] = &[
        Self::C,
        Self::D,
        Self::E,
        Self::F,
        Self::G,
        Self::H,
        Self::Z,
    ];

    /// The letter as it is printed.
    pub const fn code(self) -> &'static str {
        match self {
            Self::C => "C",
            Self::D => "D",
            Self::E => "E",
            Self::F => "F",
            Self::G => "G",
            Self::H => "H",
            Self::Z => "Z",
        }
    }

    /// The letter of a printed one, large or small.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL
            .iter()
            .copied()
            .find(|one| one.code().eq_ignore_ascii_case(code))
    }

    /// Over which letter it begins.
    const fn over(self) -> Option<Self> {
        match self {
            Self::D => Some(Self::C),
            Self::E => Some(Self::D),
            Self::F => Some(Self::E),
            Self::G => Some(Self::F),
            Self::H => Some(Self::G),
            Self::C | Self::Z => None,
        }
    }

    /// The friction that it stands for: over so much, up to so much.
    pub fn friction(self) -> (Option<Ratio>, Option<Ratio>) {
        self.friction_by(FIGURES)
    }

    fn friction_by(self, figures: &[Figure]) -> (Option<Ratio>, Option<Ratio>) {
        let top = |letter: Self| match rules::named(figures, letter.code())?.figure {
            Quantity::Ratio(ratio) => Some(ratio),
            _ => None,
        };
        (self.over().and_then(top), top(self))
    }

    fn told(self, state: Word) -> Remark {
        let (over, to) = self.friction();
        let mut arguments = vec![
            ("state", Argument::Word(state)),
            ("letter", Argument::Text(self.code().to_owned())),
        ];
        arguments.extend(over.map(|over| ("over", Argument::Text(coefficient(over)))));
        arguments.extend(to.map(|to| ("to", Argument::Text(coefficient(to)))));
        let word = match (over, to) {
            (Some(_), Some(_)) => word::LINING_CODE_BETWEEN,
            (None, Some(_)) => word::LINING_CODE_UP_TO,
            (Some(_), None) => word::LINING_CODE_OVER,
            (None, None) => word::LINING_CODE_UNCLASSIFIED,
        };
        Remark::with(word, arguments)
    }
}

/// A friction as it is printed: "0.35".
fn coefficient(ratio: Ratio) -> String {
    let hundredths = ratio.base() / Ratio::from_percent(1).base();
    format!("{}.{:02}", hundredths / 100, hundredths % 100)
}

/// The two letters of a lining.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Code {
    /// Normal.
    pub normal: Letter,
    /// Hot.
    pub hot: Letter,
}

impl Code {
    /// What the letters say, normal first.
    ///
    /// Units: none. Errors: none. Source: [`source::EDGE_CODE`].
    pub fn told(self) -> [Remark; 2] {
        [
            self.normal.told(word::LINING_CODE_NORMAL),
            self.hot.told(word::LINING_CODE_HOT),
        ]
    }

    fn of(text: &str) -> Option<Self> {
        let (normal, hot) = text.split_at_checked(1)?;
        Some(Self {
            normal: Letter::from_code(normal)?,
            hot: Letter::from_code(hot)?,
        })
    }
}

/// All that is printed on the edge of a lining.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edge {
    /// Its friction code.
    pub code: Code,
    /// Maker and formula: what stands beside the code, as large letters and digits without gaps.
    /// Empty where only the code was noted.
    pub make: String,
}

/// Why a text is no edge code.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum EdgeFault {
    /// No two letters of a friction code stand in it.
    NoCode,
    /// More than one could be it.
    TwoCodes,
}

impl EdgeFault {
    /// The words for it.
    pub const fn remark(self) -> Remark {
        Remark::plain(match self {
            Self::NoCode => word::LINING_CODE_FAULT_NONE,
            Self::TwoCodes => word::LINING_CODE_FAULT_TWO,
        })
    }
}

impl Edge {
    /// Two letters with nothing beside them.
    pub const fn of(code: Code) -> Self {
        Self {
            code,
            make: String::new(),
        }
    }

    /// Reads what is printed on an edge, such as "ABC 123 FE A19".
    ///
    /// The environmental mark behind the code, a letter and a year, is left out.
    ///
    /// Units: none. Errors: no code, or two that could be it. Source: [`source::EDGE_CODE`].
    pub fn read(text: &str) -> Result<Self, EdgeFault> {
        let mut codes = Vec::new();
        let mut make = String::new();
        for part in text.split(|c: char| !c.is_ascii_alphanumeric()) {
            let (head, mark) = part.split_at_checked(2).unwrap_or((part, ""));
            let code = Code::of(head).filter(|_| mark.is_empty() || is_environmental(mark));
            if let Some(code) = code {
                codes.push(code);
            } else if codes.is_empty() || !is_environmental(part) {
                make += &part.to_ascii_uppercase();
            }
        }
        match codes[..] {
            [code] => Ok(Self { code, make }),
            [] => Err(EdgeFault::NoCode),
            [..] => Err(EdgeFault::TwoCodes),
        }
    }
}

/// A letter for what is in it, and the last two digits of a year.
fn is_environmental(text: &str) -> bool {
    let mut signs = text.chars();
    let letter = signs
        .next()
        .is_some_and(|sign| matches!(sign.to_ascii_uppercase(), 'A' | 'B' | 'N'));
    let year = signs.as_str();
    letter && year.len() == 2 && year.chars().all(|sign| sign.is_ascii_digit())
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::cases::cases;
    use crate::nudge::Outcome;

    pub(crate) fn outcomes(figures: &[Figure]) -> Vec<Outcome> {
        let mut outcomes = Vec::new();
        for row in cases(include_str!("code.tsv")) {
            let shown = |letter: Letter| {
                let (over, to) = letter.friction_by(figures);
                let text = |ratio: Option<Ratio>| ratio.map_or("-".to_owned(), coefficient);
                format!("{} to {}", text(over), text(to))
            };
            let got = match Edge::read(row.text("edge")) {
                Ok(edge) => [
                    shown(edge.code.normal),
                    shown(edge.code.hot),
                    if edge.make.is_empty() {
                        "-".to_owned()
                    } else {
                        edge.make
                    },
                ],
                Err(fault) => [format!("{fault:?}"), "-".to_owned(), "-".to_owned()],
            };
            let expected = ["normal", "hot", "make"].map(|name| row.text(name));
            outcomes.push((format!("{row}{got:?}"), format!("{row}{expected:?}")));
        }
        outcomes
    }

    #[test]
    fn table() {
        for (got, expected) in outcomes(FIGURES) {
            assert_eq!(got, expected);
        }
    }

    #[test]
    fn letters_are_told() {
        let code = |normal, hot| Code { normal, hot };
        let words = |code: Code| code.told().map(|said| said.word);
        assert_eq!(
            words(code(Letter::C, Letter::H)),
            [word::LINING_CODE_UP_TO, word::LINING_CODE_OVER]
        );
        assert_eq!(
            words(code(Letter::Z, Letter::E)),
            [word::LINING_CODE_UNCLASSIFIED, word::LINING_CODE_BETWEEN]
        );
        let [normal, _] = code(Letter::F, Letter::E).told();
        assert_eq!(normal.arguments[2].1, Argument::Text("0.35".to_owned()));
        assert_eq!(normal.arguments[3].1, Argument::Text("0.45".to_owned()));
        assert_eq!(
            EdgeFault::NoCode.remark().word,
            word::LINING_CODE_FAULT_NONE
        );
        assert_eq!(
            EdgeFault::TwoCodes.remark().word,
            word::LINING_CODE_FAULT_TWO
        );
    }
}
