//! A case as a file of its own, with its chain, that the app reads again: JSON whose entries are the
//! very lines that are stored.
//!
//! ```json
//! {"form":"freshet-case","version":1,"app":"Freshet 0.1.0","made":"2026-11-07T09:00:00Z",
//!  "case":"…32 digits…","count":2,"head":"…64 digits…","entries":[
//! "<digest> <body>",
//! "<digest> <body>"
//! ]}
//! ```
//!
//! An entry goes in as a JSON string that holds its line, not as an object: its digest is of the very
//! text, which a reader that writes objects anew would not keep. The head says how many entries there
//! are and the digest of the last, so that a file cut at the end of an entry is no shorter case. Lines
//! break between entries alone, so that a file has a line more than it has entries above any of them.

use super::iso;
use super::lines::{self, LARGEST, Unread};
use crate::case::{CaseId, Entry, Journal};
use crate::measure::{Hash, Moment};
use serde::{Deserialize, Serialize};
use serde_json::error::Category;
use std::borrow::Cow;

/// The name of the form, which each file begins with.
pub const FORM: &str = "freshet-case";
/// The version of the form that is written; it and all before it are read.
pub const VERSION: u32 = 1;

/// What a file begins with.
const BEGINS: &str = "{\"form\":\"freshet-case\",";

/// The app that writes, as it stands in the head. For people: nothing is decided by it.
const APP: &str = concat!("Freshet ", env!("CARGO_PKG_VERSION"));

/// All but the entries, in the order written.
#[derive(Serialize)]
struct Head<'a> {
    form: &'a str,
    version: u32,
    app: &'a str,
    made: String,
    case: CaseId,
    count: usize,
    #[serde(rename = "head")]
    last: Option<Hash>,
}

/// The least that any version of the form has.
#[derive(Deserialize)]
struct Least<'a> {
    #[serde(borrow)]
    form: Cow<'a, str>,
    version: u32,
}

/// What this version has; what is for people alone is passed over.
#[derive(Deserialize)]
struct Read<'a> {
    case: CaseId,
    count: usize,
    head: Option<Hash>,
    #[serde(borrow)]
    entries: Vec<Cow<'a, str>>,
}

/// Writes a journal as a file of its own, made at `made`.
///
/// One that is not whole is written as it is, and refused when it is read: see
/// [`Journal::from_entries`] for what may be wrong.
///
/// # Panics
/// Never in practice: nothing in it is a map with keys that JSON cannot write.
pub fn write(journal: &Journal, made: Moment) -> String {
    let head = Head {
        form: FORM,
        version: VERSION,
        app: APP,
        made: iso::utc(made),
        case: journal.case(),
        count: journal.entries().len(),
        last: journal.head(),
    };
    let json = "plain texts are always JSON";
    let mut text = serde_json::to_string(&head).expect(json);
    text.pop();
    text.push_str(",\"entries\":[");
    for (index, entry) in journal.entries().iter().enumerate() {
        text.push_str(if index == 0 { "\n" } else { ",\n" });
        text.push_str(&serde_json::to_string(&entry.line()).expect(json));
    }
    text.push_str("\n]}\n");
    text
}

/// The forms that the app saves a record in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// A case as a file of its own: its head says how long it is, so that a lost end is missed.
    Case,
    /// Lines alone. Cut off between two of them, they are a shorter record that is whole.
    Lines,
}

/// Which form a text is in, if it is in either.
pub fn form(text: &str) -> Form {
    if bare(text).starts_with('{') { Form::Case } else { Form::Lines }
}

/// Without what editors put before a text: a mark of its encoding, and space.
fn bare(text: &str) -> &str {
    text.trim_start_matches('\u{feff}').trim_start()
}

/// Reads what the app saved, in whichever of its forms: a case as a file of its own, or a record as
/// lines. What it is, its content tells: a name may be lost on the way.
///
/// # Errors
/// [`Unread`] that names what is wrong first. A file is taken as a whole or not at all.
pub fn read(text: &str) -> Result<Vec<Journal>, Unread> {
    if text.len() as u64 > LARGEST {
        return Err(Unread::TooLarge);
    }
    match form(text) {
        Form::Case => read_case(bare(text)).map(|journal| vec![journal]),
        Form::Lines => lines::read(text.trim_start_matches('\u{feff}')),
    }
}

fn read_case(text: &str) -> Result<Journal, Unread> {
    let least: Least = serde_json::from_str(text).map_err(|error| unread(text, &error))?;
    if least.form != FORM {
        return Err(Unread::Foreign);
    }
    if least.version > VERSION {
        return Err(Unread::NewerForm);
    }
    if least.version < VERSION {
        return Err(Unread::Head);
    }
    let file: Read = serde_json::from_str(text).map_err(|_| Unread::Head)?;
    let read = |(number, line): (usize, &Cow<str>)| lines::entry(number, line);
    let entries: Vec<Entry> = (1..).zip(&file.entries).map(read).collect::<Result<_, _>>()?;
    if entries.len() < file.count {
        // The first place that another entry stands at, or none.
        let in_place = (0..).zip(&entries).take_while(|(seq, entry)| entry.seq() == *seq);
        return Err(Unread::Truncated(in_place.count() + 1));
    }
    if entries.is_empty() {
        return Err(Unread::Empty);
    }
    if entries.len() > file.count || entries.iter().any(|entry| entry.case() != file.case) {
        return Err(Unread::Head);
    }
    let journal = lines::whole(file.case, entries)?;
    // An entry that stands twice is in the journal once.
    let said = (journal.entries().len(), journal.head()) == (file.count, file.head);
    if said { Ok(journal) } else { Err(Unread::Head) }
}

/// Why what is no JSON, or lacks what every form has, is not read.
fn unread(text: &str, error: &serde_json::Error) -> Unread {
    let entry = error.line().saturating_sub(1);
    let ours = text.starts_with(BEGINS);
    match error.classify() {
        // Cut within the words that it begins with, too.
        Category::Eof if ours || BEGINS.starts_with(text.trim_end()) => {
            Unread::Truncated(entry.max(1))
        }
        _ if !ours => Unread::Foreign,
        Category::Data => Unread::Head,
        _ if entry == 0 => Unread::Head,
        _ => Unread::Altered(entry),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::{Event, Fault};
    use crate::record::samples;

    const MADE: Moment = samples::START;

    fn file() -> (Journal, String) {
        let journal = samples::occlusion().journal;
        let text = write(&journal, MADE);
        (journal, text)
    }

    #[test]
    fn every_case_is_read_as_it_was_written() {
        for (name, told) in samples::all() {
            let text = write(&told.journal, MADE);
            assert!(text.starts_with(BEGINS), "{name}");
            assert_eq!(read(&text), Ok(vec![told.journal.clone()]), "{name}");
            // Mail and editors change how lines end; no entry holds such an end.
            assert_eq!(read(&text.replace('\n', "\r\n")), Ok(vec![told.journal]), "{name}");
        }
    }

    #[test]
    fn an_entry_stands_in_it_as_the_very_text_that_was_digested() {
        let (journal, text) = file();
        let value: serde_json::Value = serde_json::from_str(&text).unwrap();
        let entries = value["entries"].as_array().unwrap();
        for (entry, line) in journal.entries().iter().zip(entries) {
            assert_eq!(line.as_str(), Some(entry.line().as_str()));
        }
        assert_eq!(value["made"], "2026-11-05T09:00:00Z");
        assert_eq!(value["head"], journal.head().unwrap().to_string());
    }

    #[test]
    fn lines_are_read_too() {
        let (journal, _) = file();
        assert_eq!(read(&journal.lines()), Ok(vec![journal]));
    }

    /// What the preview of a file says of its end rests on this.
    #[test]
    fn a_lost_end_is_missed_in_a_case_file_and_not_in_lines() {
        let (journal, text) = file();
        let lines = journal.lines();
        assert_eq!((form(&text), form(&lines)), (Form::Case, Form::Lines));
        assert_eq!(form(&format!("\u{feff} {text}")), Form::Case);
        let kept = journal.entries().len() - 3;
        let cut: String = lines.split_inclusive('\n').take(kept).collect();
        let read_lines = read(&cut).unwrap();
        assert_eq!(read_lines[0].entries(), &journal.entries()[..kept]);
        assert_eq!(read(&only(&text, |number| number <= kept)), Err(Unread::Truncated(kept + 1)));
    }

    #[test]
    fn a_mark_of_the_encoding_is_passed_over() {
        let (journal, text) = file();
        assert_eq!(read(&format!("\u{feff}{text}")), Ok(vec![journal.clone()]));
        assert_eq!(read(&format!("\u{feff}{}", journal.lines())), Ok(vec![journal]));
    }

    /// The same file with some of its lines only; the last has no comma in any case.
    fn only(text: &str, keep: impl Fn(usize) -> bool) -> String {
        let lines: Vec<&str> = text.lines().collect();
        let inner = &lines[1..lines.len() - 1];
        let kept: Vec<&str> = (1..)
            .zip(inner)
            .filter(|(number, _)| keep(*number))
            .map(|(_, line)| line.trim_end_matches(','))
            .collect();
        format!("{}\n{}\n]}}\n", lines[0], kept.join(",\n"))
    }

    #[test]
    fn entries_left_out_are_missed_wherever_they_stood() {
        let (journal, text) = file();
        let count = journal.entries().len();
        assert_eq!(read(&only(&text, |_| true)), Ok(vec![journal]));
        for out in 1..=count {
            assert_eq!(read(&only(&text, |number| number != out)), Err(Unread::Truncated(out)));
            assert_eq!(read(&only(&text, |number| number < out)), Err(Unread::Truncated(out)));
        }
    }

    #[test]
    fn what_is_wrong_is_named() {
        let (journal, text) = file();
        let head = journal.head().unwrap().to_string();
        let other = Hash::of(b"another").to_string();
        let changed = |from: &str, to: &str| read(&text.replacen(from, to, 1)).unwrap_err();
        assert_eq!(changed("\"version\":1", "\"version\":2"), Unread::NewerForm);
        assert_eq!(changed("\"version\":1", "\"version\":0"), Unread::Head);
        assert_eq!(changed("\"version\":1", "\"version\":\"1\""), Unread::Head);
        assert_eq!(changed("freshet-case", "freshet-care"), Unread::Foreign);
        assert_eq!(changed(&head, &other), Unread::Head);
        let id = journal.case().to_string();
        assert_eq!(changed(&id, &CaseId::from_random(12).to_string()), Unread::Head);
        let count = format!("\"count\":{}", journal.entries().len());
        assert_eq!(changed(&count, "\"count\":1"), Unread::Head);
        assert_eq!(changed("A-17", "A-18"), Unread::Altered(1));
        assert_eq!(changed("\n\"", "\n\"\u{1}"), Unread::Altered(1));
        for foreign in ["{}", "{\"a\":1}", "{\"resourceType\":\"Bundle\"}", "{ not JSON", "[]", "{"]
        {
            let why = read(foreign).unwrap_err();
            let cut = foreign == "{";
            assert_eq!(why, if cut { Unread::Truncated(1) } else { Unread::Foreign }, "{foreign}");
        }
        assert_eq!(read(" \n"), Err(Unread::Empty));
        let none = Journal::new(CaseId::from_random(3));
        assert_eq!(read(&write(&none, MADE)), Err(Unread::Empty));
        let huge = " ".repeat(usize::try_from(LARGEST).unwrap() + 1);
        assert_eq!(read(&huge), Err(Unread::TooLarge));
    }

    #[test]
    fn an_entry_of_a_later_version_is_named() {
        let body = format!("{{\"schema\":{}}}", crate::case::SCHEMA + 1);
        let line = format!("{} {body}", Hash::of(body.as_bytes()));
        let (_, text) = file();
        let quoted = serde_json::to_string(&line).unwrap();
        let lines: Vec<&str> = text.lines().collect();
        let text = format!("{}\n{quoted}\n]}}\n", lines[0]);
        assert_eq!(read(&text), Err(Unread::Newer(1)));
    }

    #[test]
    fn entries_that_do_not_follow_are_refused() {
        let (_, text) = file();
        let journal = samples::occlusion().journal;
        let mut other = Journal::new(journal.case());
        other.append(MADE, 0, Event::Note("another".into()));
        // Another first entry in its place: the chain does not go on from it.
        let lines: Vec<&str> = text.lines().collect();
        let strange = serde_json::to_string(&other.entries()[0].line()).unwrap() + ",";
        let swapped = text.replacen(lines[1], &strange, 1);
        let broken = Unread::NotWhole(journal.case(), Fault::BrokenChain { seq: 1 });
        assert_eq!(read(&swapped), Err(broken));
        // One entry twice, another left out: as many lines as said.
        let doubled = text.replacen(lines[2], lines[1], 1);
        assert!(matches!(read(&doubled), Err(Unread::NotWhole(..))));
    }
}
