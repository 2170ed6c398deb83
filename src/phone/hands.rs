//! The hands of a clock that may run faster than time, for a rehearsal.

use crate::measure::{Moment, Span};

/// Where the hands stood, and how fast they go.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Hands {
    /// What they showed when the steady clock showed `since`.
    at: Moment,
    since: Span,
    /// How many times faster than time; held still it is kept for later.
    times: u32,
    held: bool,
    /// Whether the page is out of view, which holds them too.
    away: bool,
}

impl Hands {
    /// Hands that show a moment now, when the steady clock shows `steady`, and go so many times
    /// faster than time.
    pub const fn new(at: Moment, times: u32, steady: Span) -> Self {
        Self { at, since: steady, times, held: false, away: false }
    }

    /// What they show when the steady clock shows `steady`.
    pub fn read(self, steady: Span) -> Moment {
        if self.held || self.away {
            return self.at;
        }
        let gone = steady.saturating_sub(self.since).as_millis();
        self.at.after(Span::millis(gone.saturating_mul(u64::from(self.times))))
    }

    /// How many times faster than time they go when they go.
    pub const fn times(self) -> u32 {
        self.times
    }

    /// Whether they are held still.
    pub const fn held(self) -> bool {
        self.held
    }

    fn rebased(self, steady: Span) -> Self {
        Self { at: self.read(steady), since: steady, ..self }
    }

    /// The same hands going so many times faster than time from now on.
    pub fn going(self, times: u32, steady: Span) -> Self {
        Self { times, ..self.rebased(steady) }
    }

    /// Held still, or let go.
    pub fn hold(self, held: bool, steady: Span) -> Self {
        Self { held, ..self.rebased(steady) }
    }

    /// In view or out of it.
    pub fn in_view(self, seen: bool, steady: Span) -> Self {
        Self { away: !seen, ..self.rebased(steady) }
    }

    /// Moved on to a moment; never back.
    pub fn forward(self, to: Moment, steady: Span) -> Self {
        let here = self.rebased(steady);
        Self { at: here.at.max(to), ..here }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const START: Moment = Moment::from_millis(1_700_000_000_000);

    #[test]
    fn they_run_and_stand_and_never_go_back() {
        let s = Span::seconds;
        let hands = Hands::new(START, 60, s(10));
        assert_eq!(hands.read(s(11)), START.after(s(60)));
        assert_eq!(hands.read(s(9)), START, "the steady clock is never behind");
        let held = hands.hold(true, s(11));
        assert_eq!(held.read(s(99)), START.after(s(60)));
        assert_eq!(held.hold(false, s(99)).read(s(100)), START.after(s(120)));
        let slower = hands.going(1, s(11));
        assert_eq!(slower.read(s(12)), START.after(s(61)));
        let away = hands.in_view(false, s(11));
        assert_eq!(away.in_view(true, s(50)).read(s(51)), START.after(s(120)));
        assert_eq!(hands.forward(START, s(11)).read(s(11)), START.after(s(60)));
        let later = START.after(Span::hours(1));
        assert_eq!(hands.forward(later, s(11)).read(s(12)), later.after(s(60)));
    }
}
