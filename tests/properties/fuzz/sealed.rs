//! What lies under a passcode or a passphrase: spoilt anywhere, it is refused by name.

use super::{bytes, fuzz, texts};
use freshet::record::backup;
use freshet::seal::{Cost, Random, Ring, age, are_sealed, is_letter, is_sealed};
use proptest::prelude::*;

/// As little as Argon2 takes.
fn cheap() -> Cost {
    Cost::new(8, 1, 1).expect("within the bounds")
}

/// Bytes that follow from a seed.
struct Counted(u8);

impl Random for Counted {
    fn fill(&mut self, bytes: &mut [u8]) {
        for byte in bytes {
            self.0 = self.0.wrapping_mul(77).wrapping_add(31);
            *byte = self.0;
        }
    }
}

#[test]
fn rings() {
    let text = Ring::forge("seven wells", cheap(), &mut Counted(1)).0.text();
    fuzz("rings", texts(&[&text]), |text| {
        if let Ok(ring) = Ring::read(&text) {
            prop_assert_eq!(Ring::read(&ring.text()), Ok(ring.clone()));
            let _ = ring.letterbox(&mut Counted(2));
        }
        Ok(())
    });
}

#[test]
fn sealed_texts_and_letters() {
    let (ring, keys) = Ring::forge("seven wells", cheap(), &mut Counted(1));
    let letterbox = ring.letterbox(&mut Counted(5)).unwrap();
    let texts_sealed = [
        keys.seal_text("entry/a/1", "what was given", &mut Counted(9)),
        letterbox.seal_text("entry/a/1", "what was given", &mut Counted(9)),
    ];
    fuzz("sealed texts", texts(&[&texts_sealed[0], &texts_sealed[1]]), |text| {
        let _ =
            (is_sealed(&text), is_letter(&text), letterbox.open_text("entry/a/1", &text).is_ok());
        if let Ok(opened) = keys.open_text("entry/a/1", &text) {
            prop_assert_eq!(opened, "what was given");
        }
        Ok(())
    });
    let bytes_sealed = vec![
        keys.seal("photo/1", &[1; 90], &mut Counted(9)),
        letterbox.seal("photo/1", &[1; 90], &mut Counted(9)),
    ];
    fuzz("sealed bytes", bytes(bytes_sealed), |sealed| {
        let _ = (are_sealed(&sealed), letterbox.open("photo/1", &sealed).is_ok());
        if let Ok(opened) = keys.open("photo/1", &sealed) {
            prop_assert_eq!(opened, vec![1; 90]);
        }
        Ok(())
    });
}

/// How dear its maker chose it, where it says so.
fn dear(file: &[u8]) -> bool {
    let stanza = file.split(|byte| *byte == b'\n').nth(1).unwrap_or_default();
    let work = stanza.rsplit(|byte| *byte == b' ').next().unwrap_or_default();
    // Tried out up to here: each step further takes twice the time, up to the bound that is refused.
    !matches!(work, [b'0'..=b'9'] | [])
}

#[test]
fn backups() {
    let sealed = |bytes: &[u8]| age::seal("north", 1, bytes, &mut Counted(3));
    let archive = super::files::archive(&[]);
    let files = vec![sealed(&archive), sealed(b""), sealed(&[7; 200])];
    fuzz("files under a passphrase", bytes(files), |file| {
        if dear(&file) && age::is_age(&file) {
            return Ok(());
        }
        if let Ok(opened) = age::open("north", &file) {
            prop_assert!(
                [&archive[..], b"", &[7; 200]].contains(&&opened[..]),
                "altered and opened"
            );
        }
        let _ = backup::read(&file, "north");
        Ok(())
    });
}
