//! The name that a line lies under, the same on both shelves.
//!
//! `freshet/entry/<case>/<place>/<digest>` for an entry, so that an append writes one small value,
//! two entries that claim one place never overwrite each other, and all of a case sort together;
//! `freshet/aside/<digest>/<where it lay>` for a line that could not be read.

use super::Slip;
use crate::case::{CaseId, Entry};
use crate::measure::Hash;
use std::fmt;

const ENTRY: &str = "freshet/entry/";
const ASIDE: &str = "freshet/aside/";

/// The name that a line lies under.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Key(String);

impl Key {
    /// The name for an entry.
    pub fn of(entry: &Entry) -> Self {
        Self(format!("{ENTRY}{}/{:06}/{}", entry.case(), entry.seq(), digits(entry.id())))
    }

    /// The name under which a line that could not be read is kept aside. It follows from the line and
    /// from where it lay, so that keeping it aside twice is keeping it once.
    pub fn aside(slip: &Slip) -> Self {
        let origin = slip.key.origin().0;
        let origin = origin.strip_prefix(ENTRY).unwrap_or(&origin);
        Self(format!("{ASIDE}{}/{origin}", digits(Hash::of(slip.line.as_bytes()))))
    }

    /// Reads a name; none if it names no line of the journal.
    pub fn read(name: &str) -> Option<Self> {
        (name.starts_with(ENTRY) || name.starts_with(ASIDE)).then(|| Self(name.to_owned()))
    }

    /// Whether it names a line kept aside.
    pub fn is_aside(&self) -> bool {
        self.0.starts_with(ASIDE)
    }

    /// Where the line lay: for one kept aside its former name, else its own.
    #[must_use]
    pub fn origin(&self) -> Self {
        let former = self.0.strip_prefix(ASIDE).and_then(|rest| rest.split_once('/'));
        former.map_or_else(|| self.clone(), |(_, origin)| Self(format!("{ENTRY}{origin}")))
    }

    /// The case that the line is of, or was of before it was kept aside; none if the name tells none.
    pub fn case(&self) -> Option<CaseId> {
        let origin = self.origin().0;
        origin.strip_prefix(ENTRY)?.split('/').next()?.parse().ok()
    }

    /// The same name with other digits in place of each digest: they tell nothing of the line.
    pub(super) fn veiled(&self, digits: &str) -> Self {
        let digest =
            |part: &&str| part.len() == DIGITS && part.bytes().all(|b| b.is_ascii_hexdigit());
        let parts = self.0.split('/').map(|part| if digest(&part) { digits } else { part });
        Self(parts.collect::<Vec<_>>().join("/"))
    }

    /// The name for a damaged line of a case in the archive, by its place in the text there.
    pub(super) fn in_archive(case: CaseId, place: usize) -> Self {
        Self(format!("{ENTRY}{case}/{place:06}/archive"))
    }

    /// As it stands in the browser.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// Hexadecimal digits of half a digest.
const DIGITS: usize = 16;

/// Half a digest: two lines under one name would need a collision of 64 bits within one case.
fn digits(hash: Hash) -> String {
    hash.to_string()[..DIGITS].to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_kept_aside_says_where_it_lay() {
        let lay = Key::read("freshet/entry/aa/000001/bb").unwrap();
        let aside = Key::aside(&Slip { key: lay.clone(), line: "cut".to_owned() });
        assert!(aside.is_aside() && !lay.is_aside());
        assert_eq!(aside.origin(), lay);
        let again = Key::aside(&Slip { key: aside.clone(), line: "cut".to_owned() });
        assert_eq!(again, aside);
        assert_ne!(Key::aside(&Slip { key: lay, line: "cu".to_owned() }), aside);
    }

    #[test]
    fn a_veiled_name_tells_case_and_place_and_no_digest() {
        let lay = Key::read(&format!("freshet/entry/{:032x}/000001/{:016x}", 10, 11)).unwrap();
        let veiled = lay.veiled("00000000000000ff");
        assert_eq!(veiled.case(), lay.case());
        assert_eq!(veiled.0, format!("freshet/entry/{:032x}/000001/{:016x}", 10, 255));
        let aside =
            Key::aside(&Slip { key: lay, line: "cut".to_owned() }).veiled("00000000000000ff");
        assert_eq!(aside.0, format!("freshet/aside/{0:016x}/{1:032x}/000001/{0:016x}", 255, 10));
    }

    #[test]
    fn other_names_are_none_of_the_journals() {
        assert_eq!(Key::read("freshet/clinic/protocol"), None);
        assert_eq!(Key::read("freshet/entrance"), None);
    }
}
