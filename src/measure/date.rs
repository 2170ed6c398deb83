//! A day of the calendar, without an hour or a time zone.

use jiff::civil;
use serde::{Deserialize, Serialize};

/// A day of the Gregorian calendar.
///
/// Written as year, month and day. It stands round the calendar crate's own day so that neither
/// its texts nor its errors have to be carried to the phone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "(i16, i8, i8)", into = "(i16, i8, i8)")]
pub struct Date(civil::Date);

impl Date {
    /// The last day that can be told.
    pub const MAX: Self = Self(civil::Date::MAX);

    /// A day; `None` if the calendar has none such.
    pub fn new(year: i16, month: i8, day: i8) -> Option<Self> {
        civil::Date::new(year, month, day).ok().map(Self)
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

impl TryFrom<(i16, i8, i8)> for Date {
    type Error = &'static str;
    fn try_from((year, month, day): (i16, i8, i8)) -> Result<Self, Self::Error> {
        Self::new(year, month, day).ok_or("no such day")
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
    fn reads_what_it_writes() {
        let date = Date::new(2027, 5, 31).unwrap();
        let text = serde_json::to_string(&date).unwrap();
        assert_eq!(text, "[2027,5,31]");
        assert_eq!(serde_json::from_str::<Date>(&text).unwrap(), date);
        assert!(serde_json::from_str::<Date>("[2027,2,30]").is_err());
    }
}
