//! Points in time and the spans between them. Nothing here reads a clock.

use serde::{Deserialize, Serialize};

/// A point in time: milliseconds since the Unix epoch, UTC.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Moment(i64);

/// A length of time in milliseconds, never negative.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Span(u64);

impl Moment {
    /// From milliseconds since the Unix epoch, UTC.
    pub const fn from_millis(millis: i64) -> Self {
        Self(millis)
    }

    /// Milliseconds since the Unix epoch, UTC.
    pub const fn millis(self) -> i64 {
        self.0
    }

    /// Time from `earlier` to here; zero if `earlier` is in fact later, as after a clock was set
    /// back.
    pub const fn since(self, earlier: Self) -> Span {
        let gap = self.0.saturating_sub(earlier.0);
        Span(if gap > 0 { gap.unsigned_abs() } else { 0 })
    }

    /// The moment `span` later.
    #[must_use]
    pub const fn after(self, span: Span) -> Self {
        Self(self.0.saturating_add_unsigned(span.0))
    }

    /// The moment `span` earlier.
    #[must_use]
    pub const fn before(self, span: Span) -> Self {
        Self(self.0.saturating_sub_unsigned(span.0))
    }

    /// The same instant on a clock that was set by so many milliseconds, back if negative.
    #[must_use]
    pub const fn on_clock_set_by(self, millis: i64) -> Self {
        Self(self.0.saturating_add(millis))
    }
}

impl Span {
    /// No time at all.
    pub const ZERO: Self = Self(0);

    /// From milliseconds.
    pub const fn millis(millis: u64) -> Self {
        Self(millis)
    }

    /// From whole seconds.
    pub const fn seconds(seconds: u64) -> Self {
        Self(seconds * 1_000)
    }

    /// From whole minutes.
    pub const fn minutes(minutes: u64) -> Self {
        Self(minutes * 60_000)
    }

    /// From whole hours.
    pub const fn hours(hours: u64) -> Self {
        Self(hours * 3_600_000)
    }

    /// From whole days of 24 hours.
    pub const fn days(days: u64) -> Self {
        Self(days * 86_400_000)
    }

    /// In milliseconds.
    pub const fn as_millis(self) -> u64 {
        self.0
    }

    /// In seconds, the rest cut off.
    pub const fn as_seconds(self) -> u64 {
        self.0 / 1_000
    }

    /// In minutes, the rest cut off.
    pub const fn as_minutes(self) -> u64 {
        self.0 / 60_000
    }

    /// In hours, the rest cut off.
    pub const fn as_hours(self) -> u64 {
        self.0 / 3_600_000
    }

    /// What is left after `other`; nothing if there is not that much.
    #[must_use]
    pub const fn saturating_sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl std::ops::Add for Span {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_clock_set_back_gives_no_negative_time() {
        let early = Moment::from_millis(1_000);
        let late = early.after(Span::seconds(5));
        assert_eq!(late.since(early), Span::seconds(5));
        assert_eq!(early.since(late), Span::ZERO);
        assert_eq!(late.before(Span::seconds(5)), early);
    }
}
