//! When a press counts as held. Times come in as arguments; there is no clock here.

/// How long it takes.
pub(super) const HOLD_MS: f64 = 900.0;
/// A loss of contact shorter than this is the glove, not the person.
pub(super) const BRIDGED_MS: f64 = 150.0;

/// One press, from first contact until it counts or is given up.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Press {
    /// First contact; `None` when nothing is going on.
    since_ms: Option<f64>,
    /// When contact was lost, while it is.
    lost_ms: Option<f64>,
}

/// What a press amounts to at a moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum State {
    /// Nothing is pressed.
    Idle,
    /// How much of the ring is full.
    Filling(f64),
    /// It was let go too early; told once.
    Short,
    /// It was held; told once.
    Held,
}

impl Press {
    /// Contact, new or come back.
    pub(super) fn down(&mut self, now_ms: f64) {
        if self.lost_ms.is_some_and(|lost| now_ms - lost >= BRIDGED_MS) {
            self.since_ms = None;
        }
        self.lost_ms = None;
        self.since_ms.get_or_insert(now_ms);
    }

    /// Contact lost.
    pub(super) fn up(&mut self, now_ms: f64) {
        if self.since_ms.is_some() {
            self.lost_ms.get_or_insert(now_ms);
        }
    }

    /// Where it stands. While contact is lost the ring waits, so a press never counts without a finger on it.
    pub(super) fn at(&mut self, now_ms: f64) -> State {
        let Some(since) = self.since_ms else {
            return State::Idle;
        };
        match self.lost_ms {
            Some(lost) if now_ms - lost >= BRIDGED_MS => {
                *self = Self::default();
                State::Short
            }
            Some(lost) => State::Filling(part(since, lost)),
            None if now_ms - since >= HOLD_MS => {
                *self = Self::default();
                State::Held
            }
            None => State::Filling(part(since, now_ms)),
        }
    }

    /// True when no press is going on.
    pub(super) fn is_idle(&self) -> bool {
        self.since_ms.is_none()
    }
}

fn part(since_ms: f64, now_ms: f64) -> f64 {
    ((now_ms - since_ms) / HOLD_MS).clamp(0.01, 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn held_for_all_of_it_counts_once() {
        let mut press = Press::default();
        press.down(0.0);
        assert!(matches!(press.at(899.0), State::Filling(_)));
        assert_eq!(press.at(900.0), State::Held);
        assert_eq!(press.at(901.0), State::Idle);
    }

    #[test]
    fn early_release_cancels() {
        let mut press = Press::default();
        press.down(0.0);
        press.up(500.0);
        assert!(matches!(press.at(649.0), State::Filling(_)));
        assert_eq!(press.at(650.0), State::Short);
        assert!(press.is_idle());
    }

    #[test]
    fn a_short_loss_is_bridged() {
        let mut press = Press::default();
        press.down(0.0);
        press.up(500.0);
        press.down(649.0);
        assert_eq!(press.at(900.0), State::Held);
    }

    #[test]
    fn a_long_loss_starts_again_even_if_nobody_looked() {
        let mut press = Press::default();
        press.down(0.0);
        press.up(500.0);
        press.down(650.0);
        assert!(matches!(press.at(1_000.0), State::Filling(_)));
        assert_eq!(press.at(1_550.0), State::Held);
    }

    #[test]
    fn letting_go_just_before_the_end_never_counts() {
        let mut press = Press::default();
        press.down(0.0);
        press.up(899.0);
        assert!(matches!(press.at(1_000.0), State::Filling(_)));
        assert_eq!(press.at(1_049.0), State::Short);
    }
}
