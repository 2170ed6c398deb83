//! The hour that the clinic's clock showed, from the zone that stands in each entry. A note that is
//! printed in another country tells the hours of the treatment, not of the printer.

use crate::case::Journal;
use crate::measure::order;
use crate::measure::{Date, Moment};

/// A day and an hour as a clock on the wall showed them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Local {
    /// The day.
    pub date: Date,
    /// Hours since midnight.
    pub hour: u8,
    /// Minutes of the hour.
    pub minute: u8,
}

impl Local {
    /// A moment where local time was so many minutes ahead of UTC.
    pub fn of(at: Moment, zone: i16) -> Self {
        let minute = at.millis().div_euclid(60_000).saturating_add(i64::from(zone));
        let of_day = minute.rem_euclid(MINUTES);
        let part = |number: i64| u8::try_from(number).unwrap_or_default();
        Self { date: Date::of(at, zone), hour: part(of_day / 60), minute: part(of_day % 60) }
    }
}

/// How far local time was ahead of UTC, and from when.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hours(Vec<(Moment, i16)>);

/// Minutes of a day.
const MINUTES: i64 = 1_440;

impl Hours {
    /// Of a journal, and of the moment that it is written out at.
    pub fn of(journal: &Journal, printed: Moment, zone: i16) -> Self {
        let entries = journal.entries().iter().map(|entry| (entry.at(), entry.body().zone));
        let mut known: Vec<(Moment, i16)> = entries.chain([(printed, zone)]).collect();
        // Stable: of two at one moment the later one holds.
        order::by_key(&mut known, |(at, _)| *at);
        Self(known)
    }

    /// A moment by the clock of that time: before the first entry by the first one's.
    pub fn local(&self, at: Moment) -> Local {
        let since = self.0.partition_point(|(known, _)| *known <= at);
        let zone = self.0.get(since.saturating_sub(1)).map_or(0, |(_, zone)| *zone);
        Local::of(at, zone)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::{CaseId, Event};
    use crate::measure::Span;

    #[test]
    fn each_hour_is_the_one_that_the_clock_showed_then() {
        let mut journal = Journal::new(CaseId::from_random(1));
        let noon = Moment::from_millis(0).after(Span::hours(12));
        journal.append(noon, 60, Event::Ready);
        journal.append(noon.after(Span::hours(1)), 120, Event::Ready);
        let hours = Hours::of(&journal, noon.after(Span::hours(2)), -330);
        let read = |minutes| {
            let local = hours.local(noon.after(Span::minutes(minutes)));
            (local.hour, local.minute)
        };
        assert_eq!(read(0), (13, 0));
        assert_eq!(read(59), (13, 59));
        assert_eq!(read(60), (15, 0));
        assert_eq!(read(120), (8, 30));
        let before = hours.local(noon.before(Span::hours(14)));
        assert_eq!((before.date, before.hour), (Date::new(1969, 12, 31).unwrap(), 23));
    }
}
