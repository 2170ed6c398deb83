//! Every text can be said in every language of the app, and a catalogue holds nothing else.

use super::texts::{self, Asked, places};
use rspolib::{AsBytes, MOFile, POEntry, POFile, pofile};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::PathBuf;

/// Where the German stands, for people.
fn german() -> PathBuf {
    PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/translations/de.po"))
}

/// The same compiled, as the app reads it.
fn compiled() -> PathBuf {
    PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/public/translations/de.mo"))
}

fn key(entry: &POEntry) -> Asked {
    Asked {
        context: entry.msgctxt.clone(),
        text: entry.msgid.clone(),
        many: entry.msgid_plural.clone(),
    }
}

/// What an entry says: one text, or one for each form of its plural.
fn said(entry: &POEntry) -> Vec<&str> {
    let forms = entry.msgstr_plural.iter().map(String::as_str);
    forms.chain(entry.msgstr.as_deref()).collect()
}

#[test]
fn nothing_is_said_past_the_catalogues() {
    let (_, past) = texts::all();
    assert!(past.is_empty(), "\n{}", past.join("\n"));
}

/// A space at an end is easily lost in a catalogue, and "Point 3" before "0.10 mL" without it would
/// be a dose: what stands between two texts is the screen's own.
#[test]
fn no_text_ends_or_begins_with_a_space() {
    let (asked, _) = texts::all();
    let spaced = |asked: &&Asked| asked.text.trim() != asked.text;
    let spaced: Vec<_> = asked.keys().filter(spaced).collect();
    assert!(spaced.is_empty(), "{spaced:#?}");
}

/// With `FRESHET_RENEW` set the catalogue is written and compiled anew: what the app no longer says is dropped,
/// and what it newly says is added without a translation.
#[test]
fn the_german_catalogue_says_all_that_the_app_says() {
    let (asked, _) = texts::all();
    let mut kept = pofile(german().to_str().unwrap()).unwrap();
    let mut before: BTreeMap<Asked, POEntry> =
        kept.entries.drain(..).map(|entry| (key(&entry), entry)).collect();
    kept.entries = asked
        .into_iter()
        .map(|(asked, files)| {
            let mut entry = before.remove(&asked).unwrap_or_else(|| {
                let mut fresh = POEntry::new(0);
                (fresh.msgctxt, fresh.msgid, fresh.msgid_plural) =
                    (asked.context, asked.text, asked.many);
                fresh
            });
            entry.occurrences = files.into_iter().map(|file| (file, String::new())).collect();
            entry
        })
        .collect();
    let text = written(&kept);
    let bytes = MOFile::from(&kept).as_bytes().into_owned();
    if std::env::var_os("FRESHET_RENEW").is_some() {
        fs::write(german(), &text).unwrap();
        fs::write(compiled(), &bytes).unwrap();
    }
    let stale: Vec<_> = before.keys().collect();
    assert!(stale.is_empty(), "no longer said: {stale:#?}");
    let silent = |entry: &&POEntry| said(entry).is_empty() || said(entry).contains(&"");
    let silent: Vec<_> = kept.entries.iter().filter(silent).map(|entry| &entry.msgid).collect();
    assert!(silent.is_empty(), "not translated: {silent:#?}");
    assert_eq!(text, fs::read_to_string(german()).unwrap(), "to be renewed");
    assert!(bytes == fs::read(compiled()).unwrap(), "to be compiled anew");
}

/// By subject, so that a translator meets together what stands together.
fn written(catalogue: &POFile) -> String {
    let mut catalogue = catalogue.clone();
    catalogue.entries.sort_by(|one, other| one.occurrences.cmp(&other.occurrences));
    for entry in &mut catalogue.entries {
        entry.linenum = 0;
    }
    catalogue.to_string()
}

/// A figure or a name lost in translation would be a fault of the dose, not of the language.
#[test]
fn a_translation_keeps_every_place_and_every_number() {
    let catalogue = pofile(german().to_str().unwrap()).unwrap();
    let mut wrong = Vec::new();
    for entry in &catalogue.entries {
        let many = entry.msgid_plural.as_ref().unwrap_or(&entry.msgid);
        for (form, text) in said(entry).into_iter().enumerate() {
            let source = if form == 0 { &entry.msgid } else { many };
            // One may be said in words: "the last entry", "der letzte Eintrag".
            let one = entry.msgid_plural.is_some() && form == 0;
            let all = |text| -> BTreeSet<_> {
                places(text).into_iter().filter(|place| !(one && *place == "count")).collect()
            };
            if all(text) != all(source) || numbers(text) != numbers(source) {
                wrong.push(format!("{source:?}\n    {text:?}"));
            }
        }
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

/// The numbers of a text in order of size, decimals by a point; what stands in places left out.
fn numbers(text: &str) -> Vec<String> {
    let mut bare = text.to_owned();
    for place in places(text) {
        bare = bare.replace(&format!("{{{place}}}"), " ");
    }
    let signs = |sign: char| !(sign.is_ascii_digit() || sign == '.' || sign == ',');
    let words = bare.split(signs).map(|word| word.trim_matches(['.', ',']).replace(',', "."));
    let mut numbers: Vec<_> = words.filter(|word| !word.is_empty()).collect();
    numbers.sort();
    numbers
}
