//! Noticing that the phone's time zone changed, by travel or by summer time.
//!
//! Moments are kept without a zone, so the time that is left stays right; only the hour that is shown
//! moves, and that is worth a word.

use crate::measure::Span;

/// How the hour that is shown moved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Moved {
    /// Clocks show a later hour than they would have.
    Ahead(Span),
    /// Clocks show an earlier hour.
    Back(Span),
}

/// From the minutes that local time was ahead of UTC `then`, and is `now`. `None` if it did not move.
pub fn moved(then: i16, now: i16) -> Option<Moved> {
    let by = Span::minutes(u64::from(now.abs_diff(then)));
    match now.cmp(&then) {
        std::cmp::Ordering::Equal => None,
        std::cmp::Ordering::Greater => Some(Moved::Ahead(by)),
        std::cmp::Ordering::Less => Some(Moved::Back(by)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn summer_time_and_travel() {
        assert_eq!(moved(60, 60), None);
        assert_eq!(moved(60, 120), Some(Moved::Ahead(Span::hours(1))));
        assert_eq!(moved(120, 60), Some(Moved::Back(Span::hours(1))));
        assert_eq!(moved(-210, 330), Some(Moved::Ahead(Span::hours(9))));
        assert_eq!(moved(345, 330), Some(Moved::Back(Span::minutes(15))));
        assert_eq!(moved(i16::MIN, i16::MAX), Some(Moved::Ahead(Span::minutes(65_535))));
    }
}
