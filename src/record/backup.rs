//! Everything that a phone keeps, in one file under a passphrase.
//!
//! The file is of the open format age ([`crate::seal::age`]) and holds an archive of the form tar
//! ([`super::tar`]): `freshet/records.txt`, which is the record's own lines, and a picture
//! `freshet/photos/<digest>.jpg` for each photo. Two programs that are not this app open it.

use super::lines::{self, Unread};
use super::tar::{self, Member, TarError};
use crate::case::Journal;
use crate::measure::{Hash, Moment};
use crate::seal::Random;
use crate::seal::age::{self, AgeError};
use std::fmt;

const RECORDS: &str = "freshet/records.txt";
const PHOTOS: &str = "freshet/photos/";
const PICTURE: &str = ".jpg";
/// What explains the rest to whoever unpacks it.
const EXPLAINS: &str = "freshet/README.txt";

/// What is in a backup.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Backup {
    /// Every journal, whole.
    pub journals: Vec<Journal>,
    /// Photos, each with its name, which is the digest of its bytes.
    pub photos: Vec<(Hash, Vec<u8>)>,
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

/// A backup of these lines and photos, made at this moment. `explains` is for whoever unpacks it.
pub fn write(
    lines: &str,
    photos: &[(Hash, Vec<u8>)],
    explains: &str,
    passphrase: &str,
    made: Moment,
    random: &mut impl Random,
) -> Vec<u8> {
    seal(lines, photos, explains, (passphrase, age::WORK), made, random)
}

fn seal(
    lines: &str,
    photos: &[(Hash, Vec<u8>)],
    explains: &str,
    (passphrase, work): (&str, u8),
    made: Moment,
    random: &mut impl Random,
) -> Vec<u8> {
    let text = |name: &str, text: &str| Member { name: name.to_owned(), bytes: text.into() };
    let mut members = vec![text(EXPLAINS, explains), text(RECORDS, lines)];
    members.extend(photos.iter().map(|(name, bytes)| Member {
        name: format!("{PHOTOS}{name}{PICTURE}"),
        bytes: bytes.clone(),
    }));
    age::seal(passphrase, work, &tar::write(&members, made), random)
}

/// What is in a backup. Takes the time and the memory of [`age::WORK`], or of what its maker chose.
///
/// # Errors
/// [`BackupError`]; nothing of a backup that is not whole is given.
pub fn read(file: &[u8], passphrase: &str) -> Result<Backup, BackupError> {
    let archive = age::open(passphrase, file).map_err(BackupError::Sealed)?;
    let members = tar::read(&archive).map_err(BackupError::Archive)?;
    let mut backup = Backup::default();
    let mut records = None;
    for Member { name, bytes } in members {
        let named = name.strip_prefix(PHOTOS).and_then(|name| name.strip_suffix(PICTURE));
        if name == RECORDS {
            records =
                Some(String::from_utf8(bytes).map_err(|_| BackupError::Records(Unread::NotText))?);
        } else if let Some(name) = named {
            let name: Hash = name.parse().map_err(|_| BackupError::Photo)?;
            if Hash::of(&bytes) != name {
                return Err(BackupError::Photo);
            }
            backup.photos.push((name, bytes));
        }
    }
    let records = records.ok_or(BackupError::NoRecords)?;
    // A phone without a case has a backup all the same.
    if !records.is_empty() {
        backup.journals = lines::read(&records).map_err(BackupError::Records)?;
    }
    Ok(backup)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::samples;
    use crate::seal::random::Counted;

    const EASY: u8 = 1;

    fn made() -> Moment {
        Moment::from_millis(1_795_615_500_000)
    }

    fn backup(lines: &str, photos: &[(Hash, Vec<u8>)]) -> Vec<u8> {
        seal(lines, photos, "What this is.", ("north", EASY), made(), &mut Counted(3))
    }

    #[test]
    fn everything_comes_back() {
        let journals = [samples::occlusion().journal, samples::just_done().journal];
        let photo = vec![0xff, 0xd8, 0xff, 1];
        let photos = vec![(Hash::of(&photo), photo)];
        let lines: String = journals.iter().map(Journal::lines).collect();
        let back = read(&backup(&lines, &photos), "north").unwrap();
        assert_eq!(back.photos, photos);
        let mut expected = journals.to_vec();
        expected.sort_by_key(Journal::case);
        assert_eq!(back.journals, expected);
    }

    #[test]
    fn a_phone_without_a_case_has_a_backup() {
        assert_eq!(read(&backup("", &[]), "north"), Ok(Backup::default()));
    }

    #[test]
    fn what_is_wrong_is_told() {
        let lines = samples::occlusion().journal.lines();
        let whole = backup(&lines, &[]);
        assert_eq!(read(&whole, "south"), Err(BackupError::Sealed(AgeError::Wrong)));
        let cut = &lines[..lines.len() - 40];
        let wrong = read(&backup(cut, &[]), "north");
        assert!(matches!(wrong, Err(BackupError::Records(Unread::Truncated(_)))), "{wrong:?}");
        let altered = [(Hash::of(b"one"), b"another".to_vec())];
        assert_eq!(read(&backup(&lines, &altered), "north"), Err(BackupError::Photo));
        let other = age::seal("north", EASY, b"a letter", &mut Counted(1));
        assert_eq!(read(&other, "north"), Err(BackupError::Archive(TarError::Cut)));
        let empty = age::seal("north", EASY, &tar::write(&[], made()), &mut Counted(1));
        assert_eq!(read(&empty, "north"), Err(BackupError::NoRecords));
    }
}
