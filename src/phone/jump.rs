//! Noticing a clock that jumps.
//!
//! Two clocks are read together: the wall clock, which people and networks set, and a steady one,
//! which nobody sets but which may stand still while the phone sleeps. If the wall clock gained less
//! than the steady one, it was set back, asleep or not. If it gained more, either the phone slept or
//! the clock was set forward; only while the page was in view all the time is it surely the latter.

use crate::measure::{Moment, Span};

/// Less than this is not worth a word: phones correct their clocks by fractions of a second.
const TOLERANCE: Span = Span::seconds(2);

/// The wall clock jumped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Jump {
    /// It was set back.
    Back {
        /// By so much.
        by: Span,
    },
    /// It was set forward.
    Forward {
        /// By so much.
        by: Span,
    },
}

/// Compares each reading with the one before.
#[derive(Clone, Copy, Debug, Default)]
pub struct JumpGuard {
    last: Option<(Moment, Span)>,
    looked_away: bool,
}

impl JumpGuard {
    /// One that has read nothing yet.
    pub const fn new() -> Self {
        Self { last: None, looked_away: false }
    }

    /// The page goes out of view: up to the next reading the phone may sleep.
    pub const fn look_away(&mut self) {
        self.looked_away = true;
    }

    /// Takes a reading of both clocks, made as close together as can be.
    pub fn see(&mut self, wall: Moment, steady: Span) -> Option<Jump> {
        let slept = std::mem::replace(&mut self.looked_away, false);
        let (before, steady_before) = self.last.replace((wall, steady))?;
        let expected = before.after(steady.saturating_sub(steady_before));
        let (ahead, behind) = (wall.since(expected), expected.since(wall));
        if behind > TOLERANCE {
            Some(Jump::Back { by: behind })
        } else if ahead > TOLERANCE && !slept {
            Some(Jump::Forward { by: ahead })
        } else {
            None
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const START: Moment = Moment::from_millis(1_700_000_000_000);

    fn after(wall: Span, steady: Span, away: bool) -> Option<Jump> {
        let mut guard = JumpGuard::new();
        assert_eq!(guard.see(START, Span::hours(1)), None);
        if away {
            guard.look_away();
        }
        guard.see(START.after(wall), Span::hours(1) + steady)
    }

    #[test]
    fn time_that_passes_is_no_jump() {
        let tick = Span::millis(250);
        assert_eq!(after(tick, tick, false), None);
        assert_eq!(after(Span::minutes(30), Span::minutes(30), true), None);
        assert_eq!(after(Span::seconds(1), tick, false), None, "a small correction");
    }

    #[test]
    fn sleep_is_no_jump() {
        assert_eq!(after(Span::hours(3), Span::seconds(1), true), None);
    }

    #[test]
    fn a_clock_set_forward_in_view_is_told() {
        let forward = after(Span::hours(1), Span::millis(250), false);
        assert_eq!(forward, Some(Jump::Forward { by: Span::millis(3_599_750) }));
    }

    #[test]
    fn a_clock_set_back_is_told_in_view_and_after_sleep() {
        let mut guard = JumpGuard::new();
        guard.see(START, Span::ZERO);
        let back = Some(Jump::Back { by: Span::minutes(10) });
        assert_eq!(guard.see(START.before(Span::minutes(10)), Span::ZERO), back);
        // An hour in view but out of sight, of which the clock shows fifty minutes.
        assert_eq!(after(Span::minutes(50), Span::hours(1), true), back);
    }

    #[test]
    fn a_jump_is_told_once_and_looking_away_lasts_one_reading() {
        let mut guard = JumpGuard::new();
        guard.see(START, Span::ZERO);
        guard.look_away();
        assert_eq!(guard.see(START.after(Span::hours(1)), Span::seconds(1)), None);
        let later = START.after(Span::hours(2));
        assert!(guard.see(later, Span::seconds(2)).is_some());
        assert_eq!(guard.see(later.after(Span::seconds(1)), Span::seconds(3)), None);
    }
}
