//! A backup: made on a phone, made on the host by the app's own rules, and restored.

use super::paper::decoded;
use crate::phone::Phone;
use freshet::case::Journal;
use freshet::measure::Moment;
use freshet::record::backup::{Making, sorted};
use freshet::seal::Random;
use serde_json::json;
use std::collections::BTreeSet;
use std::fs::File;
use std::io::Read;

/// What opens it.
pub const PHRASE: &str = "north of the river";

/// Opens the page, from the start screen.
pub async fn open(phone: &mut Phone) {
    phone.tap("Backup").await;
    phone.headed("Backup").await;
}

/// Makes a backup, from its page, and waits until it is ready.
pub async fn make(phone: &mut Phone) {
    phone.type_into("Passphrase", PHRASE).await;
    phone.type_into("The same again", PHRASE).await;
    phone.go_on("Make a backup").await;
    phone.headed("The backup is ready").await;
}

/// Saves the backup that is ready. Its name and its bytes, as they were handed to the downloads.
pub async fn save(phone: &mut Phone) -> (String, Vec<u8>) {
    const WATCH: &str = "
        window.saved = null;
        const make = URL.createObjectURL.bind(URL);
        URL.createObjectURL = (blob) => {
          const reader = new FileReader();
          reader.onload = () => { window.saved = [blob.name, reader.result.split(',')[1]]; };
          reader.readAsDataURL(blob);
          return make(blob);
        };
        return true;";
    phone.run(WATCH, vec![]).await;
    phone.go_on("Save the file").await;
    phone.see("Handed to the browser’s downloads.").await;
    phone.until("the file is saved", "return !!window.saved;").await;
    let saved = phone.run("return window.saved;", vec![]).await;
    (saved[0].as_str().unwrap_or_default().to_owned(), decoded(&saved[1]))
}

/// Chooses a file of these bytes.
pub async fn choose(phone: &mut Phone, name: &str, bytes: &[u8]) {
    const CHOOSE: &str = "
        const [name, bytes] = arguments;
        const input = document.querySelector('input[type=file]');
        const given = new DataTransfer();
        given.items.add(new File([new Uint8Array(bytes)], name));
        input.files = given.files;
        input.dispatchEvent(new Event('change', { bubbles: true }));
        return true;";
    phone.note(&format!("choose the file {name}"));
    phone.run(CHOOSE, vec![json!(name), json!(bytes)]).await;
}

/// Chooses a backup and opens it, to what is in it.
pub async fn look_into(phone: &mut Phone, bytes: &[u8], phrase: &str) {
    choose(phone, "any-name", bytes).await;
    phone.headed("This backup is sealed").await;
    phone.type_into("Passphrase", phrase).await;
    phone.go_on("Open it").await;
}

/// Random bytes of this machine.
struct System;

impl Random for System {
    fn fill(&mut self, bytes: &mut [u8]) {
        let mut source = File::open("/dev/urandom").expect("random bytes");
        source.read_exact(bytes).expect("random bytes");
    }
}

/// A backup of these journals, as another phone would have made it.
pub fn made_elsewhere(journals: &[Journal]) -> Vec<u8> {
    let lines = journals.iter().map(|journal| (journal.case(), journal.lines()));
    let sorted = sorted(lines, &BTreeSet::new());
    let made = Moment::from_millis(1_795_615_500_000);
    Making::begin(PHRASE, &sorted, "What this is.", made, &mut System).end().concat()
}
