//! Files in one, as POSIX.1-1988 writes archives (ustar): every system has a program that opens one.

use crate::measure::Moment;
use std::fmt;

const BLOCK: usize = 512;
/// The longest name, in bytes; the form's way to write longer ones is not used.
const NAME: usize = 100;

/// A file in an archive.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Member {
    /// Its name, with strokes for folders.
    pub name: String,
    /// What is in it.
    pub bytes: Vec<u8>,
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

/// An archive of these files, each as made at this moment. Only the owner may read what is unpacked.
///
/// # Panics
/// If a name is empty or longer than 100 bytes.
pub fn write(members: &[Member], made: Moment) -> Vec<u8> {
    let mut archive = Vec::new();
    for Member { name, bytes } in members {
        archive.extend(head(name, bytes.len(), made));
        archive.extend(bytes);
        archive.resize(archive.len().next_multiple_of(BLOCK), 0);
    }
    archive.resize(archive.len() + 2 * BLOCK, 0);
    archive
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
    let mut rest = archive;
    loop {
        let (head, after) = rest.split_first_chunk::<BLOCK>().ok_or(TarError::Cut)?;
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
        let bytes = after.get(..size).ok_or(TarError::Cut)?;
        if matches!(head[156], b'0' | 0) {
            let name = head[..NAME].split(|byte| *byte == 0).next().unwrap_or_default();
            let name = str::from_utf8(name).map_err(|_| TarError::Head)?;
            members.push(Member { name: name.to_owned(), bytes: bytes.to_vec() });
        }
        rest = after.get(size.next_multiple_of(BLOCK)..).ok_or(TarError::Cut)?;
    }
}

/// A number as the form writes it.
fn octal(field: &[u8]) -> Option<u64> {
    let text = str::from_utf8(field).ok()?;
    u64::from_str_radix(text.trim_matches(['\0', ' ']), 8).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn member() -> impl Strategy<Value = Member> {
        ("[a-z/.]{1,100}", prop::collection::vec(any::<u8>(), 0..1_500))
            .prop_map(|(name, bytes)| Member { name, bytes })
    }

    proptest! {
        #[test]
        fn what_was_packed_is_unpacked(members in prop::collection::vec(member(), 0..5)) {
            let made = Moment::from_millis(1_795_615_500_000);
            prop_assert_eq!(read(&write(&members, made)), Ok(members));
        }

        #[test]
        fn what_is_cut_is_told(members in prop::collection::vec(member(), 1..4), at in any::<prop::sample::Index>()) {
            let archive = write(&members, Moment::from_millis(0));
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
        let one = Member { name: "records.txt".to_owned(), bytes: vec![7; 10] };
        let archive = write(&[one], Moment::from_millis(0));
        for at in [0, 101, 124, 140, 150, 257] {
            let mut altered = archive.clone();
            altered[at] ^= 1;
            assert_eq!(read(&altered), Err(TarError::Head), "byte {at}");
        }
    }
}
