//! A chamber's pushrod beside a rule: where the mark stood, where it stands, and where the limit is.
//!
//! It places what it is given on the rule, to scale, and compares nothing.

use leptos::prelude::*;

/// What is on the rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum RuleMarks {
    /// Inches, in eighths or quarters.
    Inches,
    /// Millimetres, in fives or tens.
    Millimetres,
}

/// A place along the rule, in its own unit from the chamber's face, with what is said there.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct OnRule {
    pub(crate) at: f64,
    pub(crate) words: String,
}

/// One round at one wheel end, as far as it was read.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct StrokeDrawn {
    pub(crate) marks: RuleMarks,
    /// Where the mark stood with the brake released.
    pub(crate) released: Option<OnRule>,
    /// Where it stands with the brake full on.
    pub(crate) applied: Option<OnRule>,
    /// Where it may stand at most: each limit that applies.
    pub(crate) limits: Vec<OnRule>,
}

const FACE: f64 = 250.0;
const LONG: f64 = 390.0;
/// Where the mark is drawn when nobody has read it: a third along.
const UNREAD: f64 = 1.0 / 3.0;
/// The first line of words, and the step to the next.
const WORDS: f64 = 36.0;
const LINE: f64 = 38.0;

/// A rule long enough for the farthest place: how long, in how many marks, a figure at every so many.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Ruled {
    whole: f64,
    count: u32,
    figure_every: u32,
    figure_step: u32,
}

impl Ruled {
    fn of(marks: RuleMarks, farthest: f64) -> Self {
        let ruled = |whole: u32, count: u32, figure_every: u32, figure_step: u32| Self {
            whole: f64::from(whole),
            count,
            figure_every,
            figure_step,
        };
        let lengths = match marks {
            RuleMarks::Inches => [ruled(3, 24, 8, 1), ruled(5, 40, 8, 1), ruled(8, 32, 4, 1)],
            RuleMarks::Millimetres => [
                ruled(75, 15, 3, 15),
                ruled(120, 24, 4, 20),
                ruled(200, 20, 5, 50),
            ],
        };
        let [_, _, longest] = lengths;
        lengths
            .into_iter()
            .find(|ruled| farthest <= ruled.whole)
            .unwrap_or(longest)
    }

    /// Where a place of the rule's own unit lies on the drawing; past its end just past its end.
    fn x(self, value: f64) -> f64 {
        FACE + LONG * (value / self.whole).clamp(0.0, 1.03)
    }

    fn mark(self, n: u32) -> f64 {
        FACE + LONG * f64::from(n) / f64::from(self.count)
    }
}

impl StrokeDrawn {
    fn places(&self) -> impl Iterator<Item = &OnRule> {
        self.released
            .iter()
            .chain(&self.applied)
            .chain(&self.limits)
    }

    fn ruled(&self) -> Ruled {
        let farthest = self.places().map(|place| place.at).fold(0.0, f64::max);
        Ruled::of(self.marks, farthest)
    }
}

/// Chamber, rod, clevis, rule; the words stand left of their lines, the farthest one highest, so
/// that no line goes through a word.
#[component]
pub(crate) fn PushrodStrokePicture(
    #[prop(into)] stroke: Signal<StrokeDrawn>,
    /// Read aloud in its place.
    #[prop(into)]
    name: Signal<String>,
) -> impl IntoView {
    move || {
        let stroke = stroke.get();
        let ruled = stroke.ruled();
        let mark = |n: u32| {
            let long = if n.is_multiple_of(ruled.figure_every) {
                34.0
            } else if n.is_multiple_of((ruled.figure_every / 2).max(1)) {
                24.0
            } else {
                15.0
            };
            format!("M{:.1} 330 v{long}", ruled.mark(n))
        };
        let marks: String = (0..=ruled.count).map(mark).collect();
        let figures = (0..=ruled.count)
            .filter(|n| n.is_multiple_of(ruled.figure_every))
            .map(|n| {
                let figure = n / ruled.figure_every * ruled.figure_step;
                view! { <text class="pic-text middle" x=ruled.mark(n) y="396">{figure}</text> }
            });
        let released = stroke.released.as_ref().map(|place| ruled.x(place.at));
        let applied = stroke.applied.as_ref().map(|place| ruled.x(place.at));
        let stands = applied.or(released).unwrap_or(FACE + LONG * UNREAD);
        // The clevis goes with the mark, always as far from it.
        let end = stands + 26.0;
        let ghost = applied.and(released).map(|x| {
            view! { <path class="ghost" d=format!("M{x:.1} 226 V330") /> }
        });
        let mut said: Vec<(f64, String, &'static str)> = Vec::new();
        let mut say =
            |place: &OnRule, class| said.push((ruled.x(place.at), place.words.clone(), class));
        stroke
            .limits
            .iter()
            .for_each(|place| say(place, "limit-line"));
        stroke.applied.iter().for_each(|place| say(place, "leader"));
        stroke
            .released
            .iter()
            .for_each(|place| say(place, "leader"));
        said.sort_by(|a, b| b.0.total_cmp(&a.0));
        let said = said
            .into_iter()
            .zip(0_u8..)
            .map(|((x, words, class), row)| {
                let y = WORDS + LINE * f64::from(row);
                let (to, flag) = if class == "limit-line" {
                    let flag = format!("M{x:.1} {:.1} l14 10 l-14 10 Z", y - 26.0);
                    (364.0, Some(view! { <path class="limit-flag" d=flag /> }))
                } else {
                    (222.0, None)
                };
                view! {
                    <g>
                        <path class=class d=format!("M{x:.1} {:.1} V{to}", y - 26.0) />
                        {flag}
                        <text class="pic-text end" x=x - 10.0 y=y>{words}</text>
                    </g>
                }
            })
            .collect_view();
        view! {
            <svg class="pic stroke" viewBox="0 0 780 412" role="img" aria-label=move || name.get()>
                <path class="part" d="M80 166 H210 Q250 166 250 204 V304 Q250 340 210 340 H80 Q50 340 50 304 V204 Q50 166 80 166 Z" />
                <path class="clamp" d="M132 156 h16 v196 h-16 Z" />
                <path class="part" d=format!("M250 236 H{end:.1} V262 H250 Z") />
                <path class="body" d=format!("M{end:.1} 218 h58 q26 0 26 31 t-26 31 h-58 Z") />
                <circle class="hole" cx=end + 58.0 cy="249" r="11" />
                {ghost}
                <rect class="rule" x="242" y="330" width="410" height="76" rx="4" />
                <path class="line-thin" d=marks />
                {figures.collect_view()}
                <path class="rod-mark" d=format!("M{stands:.1} 224 V330") />
                {said}
            </svg>
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(released: f64, applied: f64, limit: f64) -> StrokeDrawn {
        let place = |at| OnRule {
            at,
            words: String::new(),
        };
        StrokeDrawn {
            marks: RuleMarks::Inches,
            released: Some(place(released)),
            applied: Some(place(applied)),
            limits: vec![place(limit)],
        }
    }

    #[test]
    fn places_are_to_scale() {
        let ruled = inches(0.5, 2.0, 2.5).ruled();
        assert_eq!(ruled.count, 24, "three inches in eighths");
        let eighth = ruled.mark(1) - ruled.mark(0);
        let stroke = ruled.x(2.0) - ruled.x(0.5);
        assert!(
            (stroke / eighth - 12.0).abs() < 1e-9,
            "1 1/2 in is twelve eighths"
        );
        assert!(
            (ruled.x(2.5) - ruled.mark(20)).abs() < 1e-9,
            "the limit lies on its mark"
        );
    }

    #[test]
    fn the_rule_is_as_long_as_the_farthest_place() {
        let long = |limit: f64| inches(1.0, 2.0, limit).ruled().whole;
        assert!((long(3.0) - 3.0).abs() < 1e-9);
        assert!((long(3.01) - 5.0).abs() < 1e-9);
        assert!((long(7.5) - 8.0).abs() < 1e-9);
    }

    #[test]
    fn nothing_leaves_the_drawing() {
        let ruled = inches(1.0, 9.0, 12.0).ruled();
        // The clevis reaches 110 past the mark.
        assert!(ruled.x(12.0) + 110.0 < 780.0);
        assert!((ruled.x(-1.0) - FACE).abs() < 1e-9);
    }

    #[test]
    fn figures_are_whole_and_end_the_rule() {
        for marks in [RuleMarks::Inches, RuleMarks::Millimetres] {
            for farthest in [1.0, 4.0, 80.0, 150.0] {
                let ruled = Ruled::of(marks, farthest);
                assert_eq!(ruled.count % ruled.figure_every, 0);
                let last = ruled.count / ruled.figure_every * ruled.figure_step;
                assert!((f64::from(last) - ruled.whole).abs() < 1e-9, "{ruled:?}");
            }
        }
    }
}
