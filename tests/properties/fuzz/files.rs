//! Files: cases, archives, photos.

use super::{bytes, fuzz, spoilt, texts};
use freshet::measure::Moment;
use freshet::phone::picture::jpeg::{bare, is_bare};
use freshet::record::tar::{self, Member};
use freshet::record::{file, samples};
use proptest::prelude::*;

#[test]
fn case_files() {
    let valid: Vec<String> =
        samples::all().iter().map(|(_, told)| file::write(&told.journal, told.written())).collect();
    let valid = super::shortest(&valid);
    fuzz("case files", texts(&valid), |text| {
        if let Ok(journals) = file::read(&text) {
            for journal in &journals {
                let again = file::write(journal, Moment::from_millis(0));
                prop_assert_eq!(file::read(&again), Ok(vec![journal.clone()]));
            }
        }
        Ok(())
    });
}

/// An archive of these files.
pub fn archive(files: &[(&str, &[u8])]) -> Vec<u8> {
    let mut written = Vec::new();
    let mut more = |bytes: &[u8]| written.extend_from_slice(bytes);
    for (name, bytes) in files {
        tar::put(&mut more, name, bytes, Moment::from_millis(1_795_615_500_000));
    }
    tar::end(&mut more);
    written
}

#[test]
fn archives() {
    let one = archive(&[("records.txt", b"lines\n"), ("photos/a.jpg", &[7; 600])]);
    fuzz("archives", bytes(vec![one, archive(&[])]), |given| {
        if let Ok(members) = tar::read(&given) {
            let files: Vec<(&str, &[u8])> = members
                .iter()
                .map(|Member { name, bytes }| (name.as_str(), &given[bytes.clone()]))
                .collect();
            if files.iter().all(|(name, _)| !name.is_empty() && name.len() <= 100) {
                let again = archive(&files);
                let back = tar::read(&again).expect("what was just written");
                let back: Vec<(&str, &[u8])> = back
                    .iter()
                    .map(|Member { name, bytes }| (name.as_str(), &again[bytes.clone()]))
                    .collect();
                prop_assert_eq!(back, files);
            }
        }
        Ok(())
    });
}

/// A JPEG file as small as one can be, with blocks of a camera's own.
fn photo() -> Vec<u8> {
    let mut photo = vec![0xff, 0xd8];
    let block = |marker: u8, content: &[u8]| {
        let long = u16::try_from(content.len() + 2).unwrap().to_be_bytes();
        [&[0xff, marker], &long[..], content].concat()
    };
    photo.extend(block(0xe0, b"JFIF\0\x01\x01\0\0\x01\0\x01\0\0"));
    photo.extend(block(0xe1, b"Exif\0\0II*\0somewhere"));
    photo.extend(block(0xfe, b"a remark"));
    photo.extend(block(0xdb, &[1; 65]));
    photo.extend(block(0xc0, &[8, 0, 1, 0, 1, 1, 1, 0x11, 0]));
    photo.extend(block(0xda, &[1, 1, 0, 0, 63, 0]));
    photo.extend([0x12, 0xff, 0x00, 0x34, 0xff, 0xd0, 0x56, 0xff, 0xd9]);
    photo
}

#[test]
fn photos() {
    assert!(bare(&photo()).is_some_and(|bare| is_bare(&bare)), "the photo is one");
    fuzz("photos", prop_oneof![bytes(vec![photo()]), spoilt(vec![photo()])], |photo| {
        if let Some(kept) = bare(&photo) {
            prop_assert!(is_bare(&kept), "more than a picture is left");
        }
        Ok(())
    });
}
