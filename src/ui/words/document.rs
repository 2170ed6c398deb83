//! A text about a case, part by part: one form for the page, for paper, and for plain text.

use super::{language, time};
use crate::measure::Span;
use crate::record::note::Local;
use crate::ui::language::{spoken, unbroken, within};
use std::fmt::Write;

/// A line of a part.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Line {
    /// What it is, and what is known of it.
    Field(String, String),
    /// What it is, to be filled in by hand.
    Blank(&'static str),
    /// A sentence.
    Say(String),
    /// A box, ticked or not, with what it stands for.
    Tick(bool, &'static str),
    /// A table: its columns, and its rows. The first cell of a row names it.
    Table(Vec<&'static str>, Vec<Vec<String>>),
    /// A number to be dialled: its name, and the number itself.
    Call(String, String),
    /// An entry that was struck out: when it was made and what it said, and the striking out.
    Struck(String, String),
}

/// What is drawn below a part's lines.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pictured {
    /// The points of a round, counted from 0.
    Round(usize),
    /// The courses over the hours.
    Course,
}

/// A part with its name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// Its name.
    pub name: String,
    /// Its lines.
    pub lines: Vec<Line>,
    /// What is drawn below them.
    pub picture: Option<Pictured>,
}

impl Part {
    /// A part of these lines.
    pub fn new(name: impl Into<String>, lines: Vec<Line>) -> Self {
        Self { name: name.into(), lines, picture: None }
    }

    /// The same with a drawing below.
    pub fn with(self, picture: Pictured) -> Self {
        Self { picture: Some(picture), ..self }
    }
}

/// A text about a case.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Document {
    /// What it is.
    pub title: &'static str,
    /// Its parts.
    pub parts: Vec<Part>,
}

/// Where something is to be written by hand, in a text.
const DOTS: &str = "______________________________";
/// In a box, in a text.
const TICK: &str = "x";

words! {
    pub not_recorded = "Not recorded";
    pub not_noted = "not noted";
    struck_before = "Struck out";
}

/// What a box says to those who cannot see it.
pub fn ticked(ticked: bool) -> &'static str {
    spoken(if ticked { "ticked" } else { "not ticked" })
}

/// Behind an entry that was struck out.
pub fn struck_out(when: &str) -> String {
    tr!("Struck out {when}", when)
}

/// A field of a document.
pub fn field(label: &str, value: impl Into<String>) -> Line {
    Line::Field(label.to_owned(), value.into())
}

/// A field, or that it was not recorded.
pub fn known(label: &str, value: Option<String>) -> Line {
    field(label, value.unwrap_or_else(|| not_recorded().to_owned()))
}

/// A sentence of a document.
pub fn say(sentence: impl Into<String>) -> Line {
    Line::Say(sentence.into())
}

/// The hour and minute: "14:05".
pub fn hour(local: Local) -> String {
    format!("{:02}:{:02}", local.hour, local.minute)
}

/// The day and hour: "5 Nov 2026, 14:05".
pub fn day_hour(local: Local) -> String {
    format!("{}, {}", time::day(local.date), hour(local))
}

/// A moment on an axis: the hour, with its day where the axis is longer than one.
pub fn axis_end(local: Local, length: Span) -> String {
    if length < Span::days(1) { hour(local) } else { day_hour(local) }
}

impl Document {
    /// The whole as one text, to be shared, copied or kept as a file.
    pub fn text(&self) -> String {
        let mut text = format!("{}\n", self.title.to_uppercase());
        // A part that is a drawing alone has nothing to say here.
        for part in self.parts.iter().filter(|part| !part.lines.is_empty()) {
            text.push('\n');
            if !part.name.is_empty() {
                text.push_str(&part.name);
                text.push('\n');
            }
            for line in &part.lines {
                line.write(&mut text);
            }
        }
        if let Some(mark) = language::mark() {
            let _ = writeln!(text, "\n{mark}");
        }
        unbroken(&text)
    }
}

impl Line {
    fn write(&self, text: &mut String) {
        // Writing to a string cannot fail.
        let _ = match self {
            Self::Field(label, value) => writeln!(text, "- {label}: {value}"),
            Self::Blank(label) => writeln!(text, "- {label}: {DOTS}"),
            Self::Say(sentence) => writeln!(text, "- {sentence}"),
            Self::Tick(ticked, label) => {
                writeln!(text, "[{}] {label}", if *ticked { TICK } else { " " })
            }
            Self::Call(name, number) => writeln!(text, "- {name}: {number}"),
            Self::Struck(said, struck) => {
                writeln!(
                    text,
                    "- [{}] {said} [{}]",
                    struck_before().to_uppercase(),
                    struck_out(struck)
                )
            }
            Self::Table(head, rows) => {
                for row in rows {
                    let cells = head.iter().zip(row).enumerate().map(|(column, (head, cell))| {
                        if column == 0 { cell.clone() } else { format!("{}: {cell}", within(head)) }
                    });
                    let _ = writeln!(text, "- {}", cells.collect::<Vec<_>>().join("; "));
                }
                Ok(())
            }
        };
    }
}

/// Holds a text to the one kept under this name in `tests/papers`, which somebody read as a reader
/// would. With `FRESHET_RENEW` set it is written anew, to be read again.
#[cfg(test)]
pub fn kept(name: &str, text: &str) {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/papers");
    let path = folder.join(format!("{name}.txt"));
    if std::env::var_os("FRESHET_RENEW").is_some() {
        std::fs::create_dir_all(&folder).unwrap();
        std::fs::write(&path, text).unwrap();
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    let differs = kept.lines().zip(text.lines()).find(|(kept, now)| kept != now);
    assert!(kept == text, "{name} is no longer what was read: {differs:?}");
}
