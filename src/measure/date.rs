//! A day of the calendar, without an hour or a time zone.

use super::Moment;
use jiff::civil;
use serde::de::{Deserializer, Error, SeqAccess, Visitor};
use serde::{Deserialize, Serialize};
use std::fmt;

/// A day of the Gregorian calendar.
///
/// Written as year, month and day; the first journals have it as a text, "2027-11-30", which is read
/// too. It stands round the calendar crate's own day so that neither
/// its texts nor its errors have to be carried to the phone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(into = "(i16, i8, i8)")]
pub struct Date(civil::Date);

impl Date {
    /// The last day that can be told.
    pub const MAX: Self = Self(civil::Date::MAX);

    /// A day; `None` if the calendar has none such.
    pub fn new(year: i16, month: i8, day: i8) -> Option<Self> {
        civil::Date::new(year, month, day).ok().map(Self)
    }

    /// The day that it is at a moment where local time is so many minutes ahead of UTC. Beyond the
    /// calendar it is its last day.
    pub fn of(at: Moment, ahead: i16) -> Self {
        const PER_DAY: i64 = 86_400_000;
        let local = at.millis().saturating_add(i64::from(ahead) * 60_000);
        Self::of_day(local.div_euclid(PER_DAY)).unwrap_or(Self::MAX)
    }

    /// The day so many days after 1 January 1970. Years are counted from March, so that the leap day
    /// is the last of its year.
    fn of_day(days: i64) -> Option<Self> {
        const PER_ERA: i64 = 146_097;
        // From 1 March of the year 0 to 1 January 1970.
        let days = days.checked_add(719_468)?;
        let (era, day) = (days.div_euclid(PER_ERA), days.rem_euclid(PER_ERA));
        let year = (day - day / 1_460 + day / 36_524 - day / (PER_ERA - 1)) / 365;
        let day = day - (365 * year + year / 4 - year / 100);
        let month = (5 * day + 2) / 153;
        let of_month = day - (153 * month + 2) / 5 + 1;
        let (month, turned) = if month < 10 { (month + 3, 0) } else { (month - 9, 1) };
        let year = i16::try_from(era * 400 + year + turned).ok()?;
        Self::new(year, i8::try_from(month).ok()?, i8::try_from(of_month).ok()?)
    }

    /// The year.
    pub fn year(self) -> i16 {
        self.0.year()
    }

    /// The month, from 1.
    pub fn month(self) -> i8 {
        self.0.month()
    }

    /// The day of the month, from 1.
    pub fn day(self) -> i8 {
        self.0.day()
    }

    /// The day of the week: 0 for Monday, 6 for Sunday.
    pub fn weekday(self) -> usize {
        usize::from(self.0.weekday().to_monday_zero_offset().unsigned_abs())
    }

    /// The first day of the month so many months later, earlier if negative; `None` where the
    /// calendar ends.
    pub fn months_later(self, months: i16) -> Option<Self> {
        let month = i32::from(self.year()) * 12 + i32::from(self.month()) - 1 + i32::from(months);
        let year = i16::try_from(month.div_euclid(12)).ok()?;
        Self::new(year, i8::try_from(month.rem_euclid(12)).ok()? + 1, 1)
    }

    /// Days since 1 January 1970, as [`of_day`](Self::of_day) counts them.
    fn day_number(self) -> i64 {
        const PER_ERA: i64 = 146_097;
        let (month, day) = (i64::from(self.month()), i64::from(self.day()));
        let year = i64::from(self.year()) - i64::from(month <= 2);
        let (era, of_era) = (year.div_euclid(400), year.rem_euclid(400));
        let of_year = (153 * (month + if month > 2 { -3 } else { 9 }) + 2) / 5 + day - 1;
        let day = of_era * 365 + of_era / 4 - of_era / 100 + of_year;
        era * PER_ERA + day - 719_468
    }

    /// Days from this day to a later one; negative to an earlier one.
    pub fn days_until(self, other: Self) -> i64 {
        other.day_number() - self.day_number()
    }

    /// The day so many days earlier; `None` before the calendar begins.
    pub fn days_before(self, days: i64) -> Option<Self> {
        Self::of_day(self.day_number() - days)
    }

    /// The last day of its month.
    pub fn last_of_month(self) -> Self {
        Self(self.0.last_of_month())
    }
}

impl From<Date> for (i16, i8, i8) {
    fn from(date: Date) -> Self {
        (date.year(), date.month(), date.day())
    }
}

impl<'de> Deserialize<'de> for Date {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(Written)
    }
}

/// A day in either of its forms.
struct Written;

impl<'de> Visitor<'de> for Written {
    type Value = Date;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a day")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut parts: A) -> Result<Date, A::Error> {
        let none = || A::Error::custom("no such day");
        let year = parts.next_element()?.ok_or_else(none)?;
        let month = parts.next_element()?.ok_or_else(none)?;
        let day = parts.next_element()?.ok_or_else(none)?;
        Date::new(year, month, day).ok_or_else(none)
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<Date, E> {
        let mut parts = text.splitn(3, '-');
        let mut read = || {
            let year = parts.next()?.parse().ok()?;
            let month = parts.next()?.parse().ok()?;
            Date::new(year, month, parts.next()?.parse().ok()?)
        };
        read().ok_or_else(|| E::custom("no such day"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn leap_years_and_order() {
        let february = |year| Date::new(year, 2, 1).unwrap().last_of_month().day();
        assert_eq!((february(2027), february(2028), february(2100)), (28, 29, 28));
        assert_eq!(Date::new(2027, 2, 29), None);
        assert!(Date::new(2026, 12, 31) < Date::new(2027, 1, 1));
    }

    #[test]
    fn a_day_is_read_in_both_its_forms() {
        let read = |json| serde_json::from_str::<Date>(json).ok();
        let day = Date::new(2027, 2, 28);
        assert_eq!((read("[2027,2,28]"), read("\"2027-02-28\"")), (day, day));
        assert_eq!(serde_json::to_string(&day).unwrap(), "[2027,2,28]");
        for wrong in [
            "[2027,2,29]",
            "[2027,2]",
            "[2027,2,28,1]",
            "\"2027-02-29\"",
            "\"2027-02\"",
            "\"\"",
            "1",
            "null",
        ] {
            assert_eq!(read(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn days_of_the_week_from_monday() {
        let of = |year, month, day| Date::new(year, month, day).unwrap().weekday();
        // The moon landing was on a Sunday, 1 January 2000 on a Saturday.
        assert_eq!((of(1969, 7, 20), of(2000, 1, 1), of(2000, 1, 3)), (6, 5, 0));
    }

    #[test]
    fn the_day_of_a_moment_is_the_clinics_own() {
        let of = |seconds: i64, ahead| {
            <(i16, i8, i8)>::from(Date::of(Moment::from_millis(seconds * 1_000), ahead))
        };
        assert_eq!(of(0, 0), (1970, 1, 1));
        assert_eq!(of(-1, 0), (1969, 12, 31));
        assert_eq!(of(951_782_400, 0), (2000, 2, 29));
        assert_eq!(of(1_795_734_000, 0), (2026, 11, 26));
        assert_eq!(of(1_795_734_000 + 3_600, 60), (2026, 11, 27));
        assert_eq!(Date::of(Moment::from_millis(i64::MAX), i16::MAX), Date::MAX);
        assert_eq!(Date::of(Moment::from_millis(i64::MIN), i16::MIN), Date::MAX);
        // Against the calendar crate, day by day over four centuries and more.
        let mut day = civil::Date::constant(1890, 1, 1);
        let first = -29_219;
        for count in first..first + 150_000 {
            assert_eq!(Date::of_day(count), Some(Date(day)));
            assert_eq!(Date(day).day_number(), count);
            day = day.tomorrow().unwrap();
        }
    }

    #[test]
    fn days_between_are_counted_over_leap_days() {
        let day = |year, month, day| Date::new(year, month, day).unwrap();
        assert_eq!(day(2028, 2, 28).days_until(day(2028, 3, 1)), 2);
        assert_eq!(day(2027, 1, 1).days_until(day(2026, 12, 31)), -1);
        assert_eq!(day(2027, 3, 1).days_before(1), Some(day(2027, 2, 28)));
        assert_eq!(day(2026, 11, 26).days_before(90), Some(day(2026, 8, 28)));
    }

    #[test]
    fn months_are_counted_over_the_turn_of_a_year() {
        let day = |year, month, day| Date::new(year, month, day).unwrap();
        let later = |months| day(2026, 11, 26).months_later(months);
        assert_eq!(later(0), Some(day(2026, 11, 1)));
        assert_eq!(later(2), Some(day(2027, 1, 1)));
        assert_eq!(later(-11), Some(day(2025, 12, 1)));
        assert_eq!(Date::MAX.months_later(1), None);
    }

    #[test]
    fn reads_what_it_writes() {
        let date = Date::new(2027, 5, 31).unwrap();
        let text = serde_json::to_string(&date).unwrap();
        assert_eq!(text, "[2027,5,31]");
        assert_eq!(serde_json::from_str::<Date>(&text).unwrap(), date);
        assert!(serde_json::from_str::<Date>("[2027,2,30]").is_err());
    }
}
