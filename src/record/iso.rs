//! Moments as RFC 3339 writes them, for every form that wants them so.

use crate::measure::Moment;
use jiff::Timestamp;

/// The first millisecond of the year 1, before which the form has no date.
const FIRST: i64 = -62_135_596_800_000;

fn instant(at: Moment) -> Timestamp {
    Timestamp::from_millisecond(at.millis().max(FIRST)).unwrap_or(Timestamp::MAX)
}

/// In UTC, to the second: `2026-11-05T09:00:00Z`. A moment outside of the years 1 to 9999, which only a
/// broken clock tells, is written as the nearest within.
pub fn utc(at: Moment) -> String {
    format!("{:.0}", instant(at))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn moments_are_written_to_the_second() {
        let at = Moment::from_millis(1_793_869_200_999);
        assert_eq!(utc(at), "2026-11-05T09:00:00Z");
        assert!(utc(Moment::from_millis(i64::MAX)).starts_with("9999-12-3"));
        assert_eq!(utc(Moment::from_millis(i64::MIN)), "0001-01-01T00:00:00Z");
    }
}
