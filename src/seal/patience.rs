//! Wrong passcodes slow down: a hand that tries is held up, one that mistyped is not.
//!
//! Who copies the storage off the phone is not held up by this but by [`super::Cost`] alone.

use crate::measure::{Moment, Span};
use serde::{Deserialize, Serialize};

/// So many wrong ones in a row cost nothing.
const FREE: u32 = 4;
/// The first wait; each further wrong one doubles it.
const FIRST: Span = Span::seconds(15);
/// No wait is longer.
const MOST: Span = Span::minutes(15);

/// Wrong passcodes in a row.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Tries {
    wrong: u32,
    last: Moment,
}

impl Tries {
    /// With one more that was wrong.
    pub fn wrong(self, now: Moment) -> Self {
        Self { wrong: self.wrong.saturating_add(1), last: now }
    }

    /// How long to wait before the next; none if it may be tried now. A clock that was set back holds
    /// nobody up for longer than the wait itself.
    pub fn wait(self, now: Moment) -> Option<Span> {
        let doubled = self.wrong.checked_sub(FREE + 1)?;
        let factor = 1_u64.checked_shl(doubled).unwrap_or(u64::MAX);
        let pause = Span::millis(FIRST.as_millis().saturating_mul(factor)).min(MOST);
        if now < self.last {
            return Some(pause);
        }
        let left = pause.as_millis().saturating_sub(now.since(self.last).as_millis());
        (left > 0).then_some(Span::millis(left))
    }

    /// Whether the clock was set back since the last one: then it counts from now.
    pub fn settled(self, now: Moment) -> Self {
        Self { last: self.last.min(now), ..self }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(seconds: u64) -> Moment {
        Moment::from_millis(1_700_000_000_000).after(Span::seconds(seconds))
    }

    fn after(wrong: u32) -> Tries {
        (0..wrong).fold(Tries::default(), |tries, _| tries.wrong(at(0)))
    }

    #[test]
    fn who_mistypes_is_not_held_up() {
        for wrong in 0..=4 {
            assert_eq!(after(wrong).wait(at(0)), None, "{wrong}");
        }
    }

    #[test]
    fn each_further_wrong_one_doubles_the_wait_up_to_a_quarter_of_an_hour() {
        let waits = [(5, 15), (6, 30), (7, 60), (10, 480), (11, 900), (12, 900), (u32::MAX, 900)];
        for (wrong, seconds) in waits {
            let tries = Tries { wrong, last: at(0) };
            assert_eq!(tries.wait(at(0)), Some(Span::seconds(seconds)), "{wrong}");
            assert_eq!(tries.wait(at(seconds - 1)), Some(Span::seconds(1)), "{wrong}");
            assert_eq!(tries.wait(at(seconds)), None, "{wrong}");
        }
    }

    #[test]
    fn a_clock_set_back_holds_nobody_up_for_longer() {
        let tries = after(5);
        let earlier = Moment::from_millis(1_600_000_000_000);
        let settled = tries.settled(earlier);
        assert_eq!(settled.wait(earlier), Some(Span::seconds(15)));
        assert_eq!(settled.wait(earlier.after(Span::seconds(15))), None);
        assert_eq!(tries.settled(at(3)), tries);
    }
}
