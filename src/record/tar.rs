//! Files in one, as POSIX.1-1988 writes archives (ustar): every system has a program that opens one.

use crate::measure::Moment;
use std::fmt;
use std::ops::Range;

const BLOCK: usize = 512;
/// The longest name, in bytes; the form's way to write longer ones is not used.
const NAME: usize = 100;

/// A file in an archive.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Member {
    /// Its name, with strokes for folders.
    pub name: String,
    /// Where in the archive it lies.
    pub bytes: Range<usize>,
}

/// Why bytes are no archive that is read here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TarError {
    /// What should be the head of a file is none, or was altered.
    Head,
    /// It ends within a file, or before its end is written.
    Cut,
}

impl fmt::Display for TarError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Head => "not an archive, or altered",
            Self::Cut => "an archive that was cut",
        })
    }
}

impl std::error::Error for TarError {}

/// Writes a file into an archive, as made at this moment. Only the owner may read what is unpacked.
///
/// # Panics
/// If its name is empty or longer than 100 bytes.
pub fn put(archive: &mut impl FnMut(&[u8]), name: &str, bytes: &[u8], made: Moment) {
    archive(&head(name, bytes.len(), made));
    archive(bytes);
    archive(&[0; BLOCK][..bytes.len().next_multiple_of(BLOCK) - bytes.len()]);
}

/// Ends an archive.
pub fn end(archive: &mut impl FnMut(&[u8])) {
    archive(&[0; 2 * BLOCK]);
}

fn head(name: &str, size: usize, made: Moment) -> [u8; BLOCK] {
    assert!((1..=NAME).contains(&name.len()), "a name that the form can hold");
    let mut head = [0; BLOCK];
    let mut put = |at: usize, text: &[u8]| head[at..at + text.len()].copy_from_slice(text);
    let seconds = made.millis().max(0) / 1_000;
    put(0, name.as_bytes());
    put(100, b"0000600\0");
    put(108, b"0000000\0");
    put(116, b"0000000\0");
    put(124, format!("{size:011o}\0").as_bytes());
    put(136, format!("{seconds:011o}\0").as_bytes());
    put(148, b"        ");
    put(156, b"0");
    put(257, b"ustar\x0000");
    let sum = format!("{:06o}\0 ", sum(&head));
    head[148..156].copy_from_slice(sum.as_bytes());
    head
}

fn sum(head: &[u8; BLOCK]) -> u32 {
    head.iter().map(|byte| u32::from(*byte)).sum()
}

/// The files in an archive, those that are plain files.
///
/// # Errors
/// [`TarError`]; nothing of an archive that is not whole is given.
pub fn read(archive: &[u8]) -> Result<Vec<Member>, TarError> {
    let mut members = Vec::new();
    let mut at = 0;
    loop {
        let (head, after) = archive[at..].split_first_chunk::<BLOCK>().ok_or(TarError::Cut)?;
        if head.iter().all(|byte| *byte == 0) {
            return Ok(members);
        }
        let mut blank = *head;
        blank[148..156].fill(b' ');
        if octal(&head[148..156]) != Some(u64::from(sum(&blank))) {
            return Err(TarError::Head);
        }
        let size = octal(&head[124..136]).and_then(|size| usize::try_from(size).ok());
        let size = size.ok_or(TarError::Head)?;
        // Blocks after the head; what does not fit was cut off.
        let padded = size.checked_next_multiple_of(BLOCK).ok_or(TarError::Head)?;
        if padded > after.len() {
            return Err(TarError::Cut);
        }
        at += BLOCK;
        if matches!(head[156], b'0' | 0) {
            let name = head[..NAME].split(|byte| *byte == 0).next().unwrap_or_default();
            let name = str::from_utf8(name).map_err(|_| TarError::Head)?;
            members.push(Member { name: name.to_owned(), bytes: at..at + size });
        }
        at += padded;
    }
}

/// A number as the form writes it.
fn octal(field: &[u8]) -> Option<u64> {
    let text = str::from_utf8(field).ok()?;
    u64::from_str_radix(text.trim_matches(['\0', ' ']), 8).ok()
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use proptest::prelude::*;

    type File = (String, Vec<u8>);

    /// An archive of these files.
    pub fn write(files: &[File], made: Moment) -> Vec<u8> {
        let mut archive = Vec::new();
        let mut sink = |bytes: &[u8]| archive.extend_from_slice(bytes);
        for (name, bytes) in files {
            put(&mut sink, name, bytes, made);
        }
        end(&mut sink);
        archive
    }

    fn unpacked(archive: &[u8]) -> Result<Vec<File>, TarError> {
        let file = |member: Member| (member.name, archive[member.bytes].to_vec());
        Ok(read(archive)?.into_iter().map(file).collect())
    }

    fn files(least: usize) -> impl Strategy<Value = Vec<File>> {
        let file = ("[a-z/.]{1,100}", prop::collection::vec(any::<u8>(), 0..1_500));
        prop::collection::vec(file, least..5)
    }

    proptest! {
        #[test]
        fn what_was_packed_is_unpacked(files in files(0)) {
            let made = Moment::from_millis(1_795_615_500_000);
            prop_assert_eq!(unpacked(&write(&files, made)), Ok(files));
        }

        #[test]
        fn what_is_cut_is_told(files in files(1), at in any::<prop::sample::Index>()) {
            let archive = write(&files, Moment::from_millis(0));
            // The end is two blocks of nothing; the second may be lost.
            let cut = &archive[..at.index(archive.len() - 2 * BLOCK + 1)];
            prop_assert_eq!(read(cut), Err(TarError::Cut));
        }

        #[test]
        fn any_bytes_are_read_or_refused(bytes in prop::collection::vec(any::<u8>(), 0..2_000)) {
            let _ = read(&bytes);
        }
    }

    #[test]
    fn an_altered_head_is_told() {
        let one = ("records.txt".to_owned(), vec![7; 10]);
        let archive = write(&[one], Moment::from_millis(0));
        for at in [0, 101, 124, 140, 150, 257] {
            let mut altered = archive.clone();
            altered[at] ^= 1;
            assert_eq!(read(&altered), Err(TarError::Head), "byte {at}");
        }
    }
}
