//! Everything that a phone keeps, in one file under a passphrase.
//!
//! The file is of the open format age ([`crate::seal::age`]) and holds an archive of the form tar
//! ([`super::tar`]). Two programs that are not this app open it. In it are
//!
//! - `freshet/records.txt`, the record's own lines, of every journal that is whole;
//! - `freshet/photos/<digest>.jpg`, a picture for each photo;
//! - `freshet/damaged.txt`, if there are any, the lines of journals that are not whole. They are for
//!   people: what lacks a part is never taken in as if it were all.

use super::lines::{self, Unread};
use super::tar::{self, TarError};
use crate::case::{CaseId, Damage, Entry, Journal};
use crate::measure::{Hash, Moment};
use crate::seal::Random;
use crate::seal::age::{self, AgeError, Sealer};
use std::collections::BTreeSet;
use std::fmt;
use std::ops::Range;
use std::sync::Arc;

const RECORDS: &str = "freshet/records.txt";
const DAMAGED: &str = "freshet/damaged.txt";
const PHOTOS: &str = "freshet/photos/";
const PICTURE: &str = ".jpg";
/// What explains the rest to whoever unpacks it.
const EXPLAINS: &str = "freshet/README.txt";

/// The largest file that is made and read, in bytes. A phone has to hold it twice at once while it is
/// opened, and few give more than half a gigabyte.
pub const LARGEST: usize = 200_000_000;

/// What of a record is whole, and the lines of the rest.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Sorted {
    /// Every journal that is whole.
    pub journals: Vec<Journal>,
    /// The lines of the others, and lines that are no entries.
    pub damaged: String,
}

/// Sorts a record, given as the lines of each journal. Those of `hurt` have lines that cannot be read
/// elsewhere: they are not whole, whatever these lines look like.
pub fn sorted(
    lines: impl IntoIterator<Item = (CaseId, String)>,
    hurt: &BTreeSet<CaseId>,
) -> Sorted {
    let mut sorted = Sorted::default();
    for (id, text) in lines {
        let entries: Result<Vec<Entry>, Damage> = text.lines().map(Entry::read).collect();
        let entries = entries.ok().filter(|entries| entries.iter().all(|entry| entry.case() == id));
        let whole = entries.map(|entries| Journal::from_entries(id, entries));
        match whole {
            Some((journal, faults)) if faults.is_empty() && !hurt.contains(&id) => {
                sorted.journals.push(journal);
            }
            _ => sorted.damaged.push_str(&text),
        }
    }
    sorted
}

/// A backup that is being made. Photos are handed in one after the other.
pub struct Making {
    sealer: Sealer,
    made: Moment,
    size: usize,
}

impl Making {
    /// Begins one under a passphrase, made at this moment. `explains` is for whoever unpacks it. Takes
    /// the time and the memory of [`age::WORK`].
    pub fn begin(
        passphrase: &str,
        sorted: &Sorted,
        explains: &str,
        made: Moment,
        random: &mut impl Random,
    ) -> Self {
        Self::at_cost(age::WORK, passphrase, sorted, explains, made, random)
    }

    fn at_cost(
        work: u8,
        passphrase: &str,
        sorted: &Sorted,
        explains: &str,
        made: Moment,
        random: &mut impl Random,
    ) -> Self {
        let sealer = Sealer::begin(passphrase, work, random);
        let mut making = Self { sealer, made, size: 0 };
        making.put(EXPLAINS, explains.as_bytes());
        let records: String = sorted.journals.iter().map(Journal::lines).collect();
        making.put(RECORDS, records.as_bytes());
        if !sorted.damaged.is_empty() {
            making.put(DAMAGED, sorted.damaged.as_bytes());
        }
        making
    }

    /// Whether a photo of so many bytes still fits into [`LARGEST`].
    pub const fn has_room(&self, bytes: usize) -> bool {
        // What sealing adds to each piece is less than a thousandth.
        self.size + bytes < LARGEST - LARGEST / 1_000
    }

    /// Adds a photo.
    pub fn photo(&mut self, bytes: &[u8]) {
        self.put(&format!("{PHOTOS}{}{PICTURE}", Hash::of(bytes)), bytes);
    }

    fn put(&mut self, name: &str, bytes: &[u8]) {
        let Self { sealer, made, size } = self;
        let mut sink = |bytes: &[u8]| {
            *size += bytes.len();
            sealer.push(bytes);
        };
        tar::put(&mut sink, name, bytes, *made);
    }

    /// The file, in parts that follow each other.
    pub fn end(mut self) -> Vec<Vec<u8>> {
        tar::end(&mut |bytes| self.sealer.push(bytes));
        self.sealer.end()
    }
}

/// What is in a backup.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Backup {
    /// Every journal, whole.
    pub journals: Vec<Arc<Journal>>,
    /// How many lines are in it of journals that were not whole.
    pub damaged: usize,
    archive: Vec<u8>,
    photos: Vec<(Hash, Range<usize>)>,
}

/// A file without photos, as of one case.
impl From<Vec<Journal>> for Backup {
    fn from(journals: Vec<Journal>) -> Self {
        Self { journals: journals.into_iter().map(Arc::new).collect(), ..Self::default() }
    }
}

impl Backup {
    /// The names of its photos, which are the digests of their bytes.
    pub fn photos(&self) -> impl Iterator<Item = Hash> {
        self.photos.iter().map(|(name, _)| *name)
    }

    /// A photo in it.
    pub fn photo(&self, name: Hash) -> Option<&[u8]> {
        let (_, place) = self.photos.iter().find(|(other, _)| *other == name)?;
        self.archive.get(place.clone())
    }
}

/// Why a file is no backup that can be taken in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BackupError {
    /// It could not be opened.
    Sealed(AgeError),
    /// It was opened, and what is in it is no archive.
    Archive(TarError),
    /// No records are in it.
    NoRecords,
    /// The records are not whole.
    Records(Unread),
    /// A photo is not what its name says.
    Photo,
}

impl fmt::Display for BackupError {
    /// For logs and error reports; screens word it themselves.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Sealed(why) => write!(f, "{why}"),
            Self::Archive(why) => write!(f, "{why}"),
            Self::NoRecords => f.write_str("no records in it"),
            Self::Records(why) => write!(f, "its records: {why}"),
            Self::Photo => f.write_str("a photo in it was altered"),
        }
    }
}

impl std::error::Error for BackupError {}

/// What is in a backup. Takes the time and the memory of [`age::WORK`], or of what its maker chose.
///
/// # Errors
/// [`BackupError`]; nothing of a backup that is not whole is given.
pub fn read(file: &[u8], passphrase: &str) -> Result<Backup, BackupError> {
    let archive = age::open(passphrase, file).map_err(BackupError::Sealed)?;
    let members = tar::read(&archive).map_err(BackupError::Archive)?;
    let not_text = |_| BackupError::Records(Unread::NotText);
    let mut backup = Backup::default();
    let mut records = None;
    for member in members {
        let bytes = &archive[member.bytes.clone()];
        let named = member.name.strip_prefix(PHOTOS).and_then(|name| name.strip_suffix(PICTURE));
        if member.name == RECORDS {
            records = Some(str::from_utf8(bytes).map_err(not_text)?);
        } else if member.name == DAMAGED {
            backup.damaged = bytes.split(|byte| *byte == b'\n').filter(|l| !l.is_empty()).count();
        } else if let Some(name) = named {
            let name: Hash = name.parse().map_err(|_| BackupError::Photo)?;
            if Hash::of(bytes) != name {
                return Err(BackupError::Photo);
            }
            backup.photos.push((name, member.bytes));
        }
    }
    let records = records.ok_or(BackupError::NoRecords)?;
    // A phone without a case has a backup all the same.
    if !records.is_empty() {
        let journals = lines::read(records).map_err(BackupError::Records)?;
        backup.journals = journals.into_iter().map(Arc::new).collect();
    }
    backup.archive = archive;
    Ok(backup)
}

#[cfg(test)]
mod tests;
