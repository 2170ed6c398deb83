//! The record as its own lines, read again: what the app saves of a case or of everything, one entry a
//! line.

use crate::case::{CaseId, Damage, Entry, Fault, Journal};
use std::collections::BTreeMap;
use std::fmt;

/// The largest file that is read, in bytes: a thousand cases of eighty entries are some thirty
/// millions, and a phone has to hold it all at once.
pub const LARGEST: u64 = 50_000_000;

/// Why a file is not taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unread {
    /// Larger than what is read.
    TooLarge,
    /// Not a text.
    NotText,
    /// Nothing is in it.
    Empty,
    /// Not a file of this app.
    Foreign,
    /// It ends with or within an entry, on this line, or lacks it; from 1.
    Truncated(usize),
    /// What stands at its head does not fit what is in it.
    Head,
    /// The file as a whole is of a later version of the app.
    NewerForm,
    /// The entry on this line, from 1, is not what was recorded.
    Altered(usize),
    /// The entry on this line, from 1, was written by a later version of the app.
    Newer(usize),
    /// Entries of this case are missing, or do not follow from each other.
    NotWhole(CaseId, Fault),
}

impl fmt::Display for Unread {
    /// For logs and error reports; screens word it themselves.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLarge => f.write_str("the file is too large"),
            Self::NotText => f.write_str("the file is no text"),
            Self::Empty => f.write_str("the file is empty"),
            Self::Foreign => f.write_str("the file is not of this app"),
            Self::Truncated(line) => write!(f, "the file ends before line {line} does"),
            Self::Head => f.write_str("the head of the file does not fit its entries"),
            Self::NewerForm => f.write_str("the file is of a later version"),
            Self::Altered(line) => write!(f, "line {line} was altered"),
            Self::Newer(line) => write!(f, "line {line} is of a later version"),
            Self::NotWhole(case, fault) => write!(f, "case {case} is not whole: {fault:?}"),
        }
    }
}

impl std::error::Error for Unread {}

/// Reads every journal in a text, each whole and chained from its first entry on.
///
/// # Errors
/// [`Unread`] that names what is wrong first. A file is taken as a whole or not at all: of one that was
/// altered or cut, what looks right may lack its end.
pub fn read(text: &str) -> Result<Vec<Journal>, Unread> {
    if text.trim().is_empty() {
        return Err(Unread::Empty);
    }
    let mut cases: BTreeMap<CaseId, Vec<Entry>> = BTreeMap::new();
    let last = text.lines().count();
    for (number, line) in (1..).zip(text.lines()).filter(|(_, line)| !line.trim().is_empty()) {
        let entry = Entry::read(line).map_err(|damage| match damage {
            Damage::Newer(_) => Unread::Newer(number),
            // Unless what follows is the app's own after all.
            Damage::NoDigest
                if cases.is_empty()
                    && !text.lines().skip(number).any(|line| Entry::read(line).is_ok()) =>
            {
                Unread::Foreign
            }
            // The app ends each line: one that is not ended was cut.
            _ if number == last && !text.ends_with('\n') => Unread::Truncated(number),
            _ => Unread::Altered(number),
        })?;
        cases.entry(entry.case()).or_default().push(entry);
    }
    cases.into_iter().map(|(case, entries)| whole(case, entries)).collect()
}

/// An entry from its line alone, which stands at this place of a file, from 1.
pub(super) fn entry(number: usize, line: &str) -> Result<Entry, Unread> {
    Entry::read(line).map_err(|damage| match damage {
        Damage::Newer(_) => Unread::Newer(number),
        Damage::NoDigest | Damage::Altered | Damage::Unreadable => Unread::Altered(number),
    })
}

/// The journal of these entries, if they are whole and follow from each other.
pub(super) fn whole(case: CaseId, entries: Vec<Entry>) -> Result<Journal, Unread> {
    match Journal::from_entries(case, entries) {
        (journal, faults) if faults.is_empty() => Ok(journal),
        (_, faults) => Err(Unread::NotWhole(case, faults[0].clone())),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::Event;
    use crate::measure::Moment;

    fn journal(case: u128, notes: &[&str]) -> Journal {
        let mut journal = Journal::new(CaseId::from_random(case));
        for note in notes {
            journal.append(Moment::from_millis(1), 0, Event::Note((*note).to_owned()));
        }
        journal
    }

    #[test]
    fn what_was_saved_is_read() {
        let (one, two) = (journal(7, &["a", "b"]), journal(8, &["c"]));
        let text = one.lines() + &two.lines();
        assert_eq!(read(&text), Ok(vec![one.clone(), two]));
        let windows = one.lines().replace('\n', "\r\n");
        assert_eq!(read(&windows), Ok(vec![one.clone()]));
        // The same twice is once, in whatever order.
        let backwards: Vec<String> = one.entries().iter().rev().map(Entry::line).collect();
        assert_eq!(read(&(backwards.join("\n") + "\n" + &one.lines())), Ok(vec![one]));
    }

    #[test]
    fn what_is_wrong_is_named() {
        let text = journal(7, &["first", "second", "third"]).lines();
        assert_eq!(read(" \n"), Err(Unread::Empty));
        for foreign in ["Dear colleague", "{\"a\": 1}", "BEGIN:VCALENDAR\n"] {
            assert_eq!(read(foreign), Err(Unread::Foreign), "{foreign}");
        }
        assert_eq!(read(&text.replace("second", "2econd")), Err(Unread::Altered(2)));
        assert_eq!(read(&text.replace("third", "thirt")), Err(Unread::Altered(3)));
        // Cut anywhere within its last line.
        let before = text.trim_end().rfind('\n').unwrap();
        for end in before + 2..text.len() - 1 {
            assert_eq!(read(&text[..end]), Err(Unread::Truncated(3)), "{end}");
        }
        assert_eq!(read(&format!("x{text}")), Err(Unread::Altered(1)));
        let (first, rest) = text.split_once('\n').unwrap();
        let lost = read(rest).unwrap_err();
        let case = CaseId::from_random(7);
        assert_eq!(lost, Unread::NotWhole(case, Fault::Missing { seq: 0 }));
        let other = journal(7, &["first", "otherwise"]).lines();
        assert!(matches!(read(&(text.clone() + &other)), Err(Unread::NotWhole(..))));
        assert_eq!(read(&format!("{first}\nfor my records\n")), Err(Unread::Altered(2)));
    }

    #[test]
    fn an_entry_of_a_later_version_is_named() {
        let text = format!("{{\"schema\":{}}}", crate::case::SCHEMA + 1);
        let line = format!("{} {text}\n", crate::measure::Hash::of(text.as_bytes()));
        assert_eq!(read(&line), Err(Unread::Newer(1)));
    }
}
