//! Finding a case again by its reference, a batch or a date.

use super::Headline;
use crate::measure::{Date, Moment};

/// What is looked for: whatever was typed may be a part of a reference, a part of a batch, a date, or
/// several of these.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Search {
    /// Without regard to capitals.
    text: String,
    /// The same without spaces: a batch is printed with them or without.
    batch: String,
    days: Vec<(Date, Date)>,
}

/// Why a case was found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Hit {
    /// Its reference holds what was typed.
    Reference,
    /// This batch does.
    Batch(String),
    /// It was opened on this day.
    Opened(Date),
    /// It was closed on this day.
    Closed(Date),
}

impl Search {
    /// Reads what was typed. A date is a year, a month or a day: `2026`, `2026-11`, `2026-11-25`,
    /// `11.2026`, `25.11.2026`; with strokes, `25/11/2026`, the day may come first or the month, and
    /// both are looked for.
    pub fn read(typed: &str) -> Self {
        let text = typed.trim().to_lowercase();
        let batch = text.split_whitespace().collect();
        Self { days: days(&text), batch, text }
    }

    /// Whether nothing is looked for, so that every case is as good as found.
    pub fn is_empty(&self) -> bool {
        self.text.is_empty()
    }

    /// Why this case is found; empty if it is not.
    pub fn hits(&self, line: &Headline) -> Vec<Hit> {
        let mut hits = Vec::new();
        if self.is_empty() {
            return hits;
        }
        if line.reference.to_lowercase().contains(&self.text) {
            hits.push(Hit::Reference);
        }
        let plain = |batch: &str| -> String { batch.to_lowercase().split_whitespace().collect() };
        let batches = line.batches.iter().filter(|batch| plain(batch).contains(&self.batch));
        hits.extend(batches.cloned().map(Hit::Batch));
        let day = |at: Moment| {
            let day = Date::of(at, line.zone);
            self.days.iter().any(|(from, to)| (*from..=*to).contains(&day)).then_some(day)
        };
        hits.extend(day(line.opened).map(Hit::Opened));
        hits.extend(line.closed.and_then(|(at, _)| day(at)).map(Hit::Closed));
        hits
    }
}

/// The first and the last day of what a text may mean as a date.
fn days(text: &str) -> Vec<(Date, Date)> {
    let (separator, parts) = match text.find(['-', '.', '/']) {
        None => (None, vec![text]),
        Some(at) => {
            let separator = text[at..].chars().next();
            (separator, text.split(|c| Some(c) == separator).collect())
        }
    };
    let number = |part: &&str| {
        let digits = !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
        digits.then(|| part.parse::<i16>().ok()).flatten().map(|number| (number, part.len()))
    };
    let Some(parts) = parts.iter().map(number).collect::<Option<Vec<_>>>() else {
        return Vec::new();
    };
    let day = |year: i16, month: i16, day: i16| {
        let date = Date::new(year, i8::try_from(month).ok()?, i8::try_from(day).ok()?)?;
        Some((date, date))
    };
    let month = |year: i16, month: i16| {
        let first = Date::new(year, i8::try_from(month).ok()?, 1)?;
        Some((first, first.last_of_month()))
    };
    // A year has four digits: what is shorter is a day or a month.
    let found = match (separator, parts.as_slice()) {
        (None, [(year, 4)]) => {
            vec![month(*year, 1).zip(month(*year, 12)).map(|(first, last)| (first.0, last.1))]
        }
        (Some('-'), [(year, 4), (of, 1..=2)]) | (Some('.' | '/'), [(of, 1..=2), (year, 4)]) => {
            vec![month(*year, *of)]
        }
        (Some('-'), [(year, 4), (of, 1..=2), (on, 1..=2)])
        | (Some('.'), [(on, 1..=2), (of, 1..=2), (year, 4)]) => vec![day(*year, *of, *on)],
        (Some('/'), [(one, 1..=2), (other, 1..=2), (year, 4)]) => {
            let mut both = vec![day(*year, *other, *one), day(*year, *one, *other)];
            both.dedup();
            both
        }
        _ => Vec::new(),
    };
    found.into_iter().flatten().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::rounds::End;
    use crate::case::CaseId;

    fn date(year: i16, month: i8, day: i8) -> Date {
        Date::new(year, month, day).unwrap()
    }

    fn line() -> Headline {
        // 25 November 2026, 23:30 UTC: the 26th where the clinic is, an hour ahead.
        let opened = Moment::from_millis(1_795_649_400_000);
        Headline {
            id: CaseId::from_random(7),
            reference: "11-25 Demo Äpfel".to_owned(),
            opened,
            zone: 60,
            last: opened,
            urgency: None,
            closed: Some((Moment::from_millis(opened.millis() + 10 * 86_400_000), End::Done)),
            batches: vec!["DEMO-1".to_owned(), "AB 12 C".to_owned()],
            taken: Vec::new(),
            photos: None,
            unnoted: None,
        }
    }

    fn hits(typed: &str) -> Vec<Hit> {
        Search::read(typed).hits(&line())
    }

    #[test]
    fn a_reference_is_found_by_any_part_whatever_its_capitals() {
        for typed in ["demo", " DEMO ", "äPFEL", "11-25", "25 d"] {
            assert!(hits(typed).contains(&Hit::Reference), "{typed}");
        }
        assert_eq!(hits("demos"), []);
    }

    #[test]
    fn a_batch_is_found_with_its_spaces_or_without() {
        assert_eq!(hits("demo-1"), [Hit::Batch("DEMO-1".to_owned())]);
        for typed in ["ab12c", "AB 12", "b 12C"] {
            assert_eq!(hits(typed), [Hit::Batch("AB 12 C".to_owned())], "{typed}");
        }
        assert_eq!(hits("demo-2"), []);
    }

    #[test]
    fn a_date_is_a_year_a_month_or_a_day_of_the_clinics_clock() {
        let (opened, closed) = (Hit::Opened(date(2026, 11, 26)), Hit::Closed(date(2026, 12, 6)));
        for typed in ["2026-11-26", "26.11.2026", "26/11/2026", "11/26/2026", "2026-11", "11.2026"]
        {
            assert_eq!(hits(typed), std::slice::from_ref(&opened), "{typed}");
        }
        for typed in ["2026-12-06", "6.12.2026", "06.12.2026", "12/2026", "2026-12-6", "12/6/2026"]
        {
            assert_eq!(hits(typed), std::slice::from_ref(&closed), "{typed}");
        }
        assert_eq!(hits("2026"), [opened, closed]);
        for typed in
            ["2026-11-25", "2025", "2026-13", "30.2.2026", "2026-11-", "26.11.26", "1.2.3.4"]
        {
            assert_eq!(hits(typed), [], "{typed}");
        }
    }

    #[test]
    fn with_nothing_typed_nothing_is_looked_for() {
        assert!(Search::read("  ").is_empty());
        assert_eq!(hits(" "), []);
    }
}
