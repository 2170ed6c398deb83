//! A compiled catalogue: what is said for each text.
//!
//! The form is that of GNU gettext's manual, "The Format of GNU MO Files": a head, two tables of
//! lengths and places, and the texts. It is looked through whole before anything of it counts, since
//! a damaged file would name places that are not there.

use std::collections::HashMap;

/// The head's first number, in the order of bytes that this app's catalogues are written in.
const MAGIC: u32 = 0x9504_12de;
/// Between what tells which is meant and the text.
const MEANT: char = '\u{4}';
/// Between the forms of a text for one and for many.
const FORMS: char = '\0';

/// What is said for each text.
pub struct Catalogue(HashMap<&'static str, &'static str>);

impl Catalogue {
    /// Reads one. None if it is none, or does not hold together.
    pub fn read(bytes: &'static [u8]) -> Option<Self> {
        let number = |at: usize| -> Option<usize> {
            let four = bytes.get(at..at.checked_add(4)?)?;
            usize::try_from(u32::from_le_bytes(four.try_into().ok()?)).ok()
        };
        let text = |table: usize, row: usize| -> Option<&'static str> {
            let at = row.checked_mul(8)?.checked_add(table)?;
            let (length, place) = (number(at)?, number(at.checked_add(4)?)?);
            std::str::from_utf8(bytes.get(place..place.checked_add(length)?)?).ok()
        };
        if number(0)? != usize::try_from(MAGIC).ok()? {
            return None;
        }
        let (rows, texts, said) = (number(8)?, number(12)?, number(16)?);
        let mut read = HashMap::new();
        for row in 0..rows {
            read.insert(text(texts, row)?, text(said, row)?);
        }
        // The entry for nothing tells of the catalogue itself.
        read.remove("")?;
        Some(Self(read))
    }

    /// What is said for a text; `context` says which is meant where one word means two things.
    pub fn says(&self, context: Option<&str>, text: &str) -> Option<&'static str> {
        match context {
            None => self.0.get(text).copied(),
            Some(context) => self.0.get(&*format!("{context}{MEANT}{text}")).copied(),
        }
    }

    /// The same for a count, of which each language has forms of its own, told from 0.
    pub fn counts(&self, (one, many): (&str, &str), form: usize) -> Option<&'static str> {
        self.says(None, &format!("{one}{FORMS}{many}"))?.split(FORMS).nth(form)
    }
}
