//! Moments as RFC 3339 writes them, for every form that wants them so.

use crate::measure::Moment;
use jiff::Timestamp;

/// The first millisecond of the year 1, before which the form has no date.
const FIRST: i64 = -62_135_596_800_000;

fn instant(at: Moment) -> Option<Timestamp> {
    Timestamp::from_millisecond(at.millis()).ok().filter(|_| at.millis() >= FIRST)
}

fn written(instant: Timestamp) -> String {
    format!("{instant:.0}")
}

/// In UTC, to the second: `2026-11-05T09:00:00Z`. `None` outside of the years 1 to 9999.
pub fn exact(at: Moment) -> Option<String> {
    instant(at).map(written)
}

/// The same. A moment outside, which only a broken clock tells, is written as the nearest within.
pub fn utc(at: Moment) -> String {
    let nearest = instant(Moment::from_millis(at.millis().max(FIRST)));
    written(nearest.unwrap_or(Timestamp::MAX))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn moments_are_written_to_the_second() {
        let at = Moment::from_millis(1_793_869_200_999);
        assert_eq!(utc(at), "2026-11-05T09:00:00Z");
        assert_eq!(exact(at), Some(utc(at)));
        assert!(utc(Moment::from_millis(i64::MAX)).starts_with("9999-12-3"));
        assert_eq!(utc(Moment::from_millis(i64::MIN)), "0001-01-01T00:00:00Z");
        for millis in [i64::MAX, i64::MIN, FIRST - 1] {
            assert_eq!(exact(Moment::from_millis(millis)), None);
        }
    }
}
