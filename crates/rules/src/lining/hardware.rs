//! What is renewed with the shoes, per wheel end, and on whose word.

use crate::rules::Rule;
use crate::source::{self, Source};
use crate::verdict::{Judgement, RuleId, Verdict};
use crate::word::{self, Argument, Remark, Word};

/// What the list of rules says of it.
pub const RULE: Rule = Rule {
    id: RuleId("lining.hardware"),
    title: word::RULE_LINING_HARDWARE,
    units: &[],
    limits: word::LIMIT_LINING_HARDWARE,
    figures: &[],
    sources: &[
        &source::HARDWARE_LIST,
        &source::HARDWARE_SPRINGS,
        &source::HARDWARE_CLIPS,
        &source::HARDWARE_PINS,
    ],
};

/// When a part is renewed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Renew {
    /// With every set of shoes.
    Always,
    /// With every set of shoes by the makers' advice; at the least when worn.
    Advised,
    /// When the camshaft comes out.
    WithCamshaft,
}

/// One part of the hardware.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Part {
    /// The stable name under which it is stored.
    pub code: &'static str,
    /// What the screen calls it.
    pub title: Word,
    /// How many a wheel end has: fewest and most.
    pub count: (u8, u8),
    /// When it is renewed.
    pub renew: Renew,
    /// On whose word.
    pub source: &'static Source,
}

const fn part(
    code: &'static str,
    title: Word,
    count: (u8, u8),
    renew: Renew,
    source: &'static Source,
) -> Part {
    Part {
        code,
        title,
        count,
        renew,
        source,
    }
}

/// The hardware of a wheel end, in the order in which it goes on.
pub const PARTS: &[Part] = &[
    part(
        "anchor-pins",
        word::HARDWARE_ANCHOR_PINS,
        (1, 2),
        Renew::Advised,
        &source::HARDWARE_PINS,
    ),
    part(
        "anchor-bushings",
        word::HARDWARE_ANCHOR_BUSHINGS,
        (0, 2),
        Renew::Advised,
        &source::HARDWARE_PINS,
    ),
    part(
        "cam-bushings",
        word::HARDWARE_CAM_BUSHINGS,
        (2, 2),
        Renew::WithCamshaft,
        &source::HARDWARE_LIST,
    ),
    part(
        "cam-seals",
        word::HARDWARE_CAM_SEALS,
        (2, 2),
        Renew::WithCamshaft,
        &source::HARDWARE_LIST,
    ),
    part(
        "shoes",
        word::HARDWARE_SHOES,
        (2, 2),
        Renew::Always,
        &source::HARDWARE_LIST,
    ),
    part(
        "rollers",
        word::HARDWARE_ROLLERS,
        (2, 2),
        Renew::Advised,
        &source::HARDWARE_LIST,
    ),
    part(
        "roller-clips",
        word::HARDWARE_ROLLER_CLIPS,
        (2, 2),
        Renew::Always,
        &source::HARDWARE_CLIPS,
    ),
    part(
        "return-spring",
        word::HARDWARE_RETURN_SPRING,
        (1, 1),
        Renew::Always,
        &source::HARDWARE_SPRINGS,
    ),
    part(
        "retaining-springs",
        word::HARDWARE_RETAINING_SPRINGS,
        (2, 2),
        Renew::Always,
        &source::HARDWARE_CLIPS,
    ),
    part(
        "snap-ring",
        word::HARDWARE_SNAP_RING,
        (1, 1),
        Renew::WithCamshaft,
        &source::HARDWARE_LIST,
    ),
    part(
        "cotters",
        word::HARDWARE_COTTERS,
        (1, 2),
        Renew::Always,
        &source::HARDWARE_LIST,
    ),
];

/// The part of a stored name.
pub fn by_code(code: &str) -> Option<&'static Part> {
    PARTS.iter().find(|part| part.code == code)
}

/// Judges what was left old when the shoes were renewed.
///
/// Units: none. Errors: none. Source: each part's own, the deciding one first.
pub fn judge_left_old(left_old: &[&Part]) -> Judgement {
    let always = left_old.iter().find(|part| part.renew == Renew::Always);
    let verdict = match always {
        Some(_) => Verdict::Replace,
        None => Verdict::Sound,
    };
    let source = always
        .or(left_old.first())
        .map_or(&source::HARDWARE_LIST, |part| part.source);
    let mut judged = Judgement::by_eye(RULE.id, verdict, source);
    for part in left_old {
        let word = match part.renew {
            Renew::Always => word::HARDWARE_REMARK_ALWAYS,
            Renew::Advised => word::HARDWARE_REMARK_ADVISED,
            Renew::WithCamshaft => word::HARDWARE_REMARK_WITH_CAMSHAFT,
        };
        judged = judged.remarking(Remark::with(word, [("part", Argument::Word(part.title))]));
    }
    judged
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cases::cases;

    #[test]
    fn table() {
        let mut seen = Vec::new();
        for row in cases(include_str!("hardware.tsv")) {
            let left_old: Vec<&Part> = row
                .list("left old")
                .into_iter()
                .map(|code| by_code(code).unwrap())
                .collect();
            let judged = judge_left_old(&left_old);
            assert_eq!(judged.verdict, row.verdict("verdict"), "{row}");
            let said: Vec<&str> = judged
                .remarks
                .iter()
                .map(|said| said.word.key().trim_start_matches("hardware.remark."))
                .collect();
            assert_eq!(said, row.list("says"), "{row}");
            assert!(judged.source.document.contains(row.text("source")), "{row}");
            seen.extend(left_old.iter().map(|part| part.code));
        }
        assert!(PARTS.iter().all(|part| seen.contains(&part.code)));
        assert!(PARTS.iter().all(|part| part.count.0 <= part.count.1));
        assert_eq!(by_code("wheel"), None);
    }
}
