//! The language that the app speaks.
//!
//! English stands in the code; every other language is a catalogue of GNU gettext beside it, which
//! is read, compiled, once before anything is drawn. A text that a catalogue lacks, or the whole
//! catalogue where it cannot be had, leaves the English: no screen waits for a translation.

mod catalogue;
#[cfg(test)]
pub mod tests;

use crate::phone::own;
use crate::store::habits::{self, Language};
use catalogue::Catalogue;
use leptos::prelude::set_timeout;
use std::cell::{Cell, OnceCell};
use std::fmt::{Display, Write};
use std::rc::Rc;
use std::time::Duration;
use wasm_bindgen_futures::spawn_local;

thread_local! {
    /// What was read at the start; a change of language starts the app anew. The app runs in one
    /// thread, and each test in one of its own.
    static SPOKEN: OnceCell<(Language, Catalogue)> = const { OnceCell::new() };
}

/// Asks the catalogue in force, if it is not English.
fn asked<T>(ask: impl FnOnce(&Catalogue) -> Option<T>) -> Option<T> {
    SPOKEN.with(|spoken| spoken.get().and_then(|(_, catalogue)| ask(catalogue)))
}

/// How long a start waits for a catalogue. On the phone it lies in the app's own store and is there
/// at once; longer waits only who has a poor network and no such store.
const PATIENCE: Duration = Duration::from_secs(3);

/// Goes on in the language that this phone keeps; in English where a catalogue cannot be had, or not
/// soon. English itself waits for nothing.
pub fn begin(go_on: impl FnOnce() + 'static) {
    let language = habits::load().language;
    if language == Language::English {
        return go_on();
    }
    let waiting = Rc::new(Cell::new(Some(go_on)));
    let late = Rc::clone(&waiting);
    // Refused, only the catalogue itself is waited for.
    let _ = set_timeout(move || late.take().into_iter().for_each(|go_on| go_on()), PATIENCE);
    spawn_local(async move {
        let compiled = own::bytes(&path(language)).await;
        let Some(go_on) = waiting.take() else { return };
        if compiled.is_some_and(|compiled| speak(language, compiled)) {
            own::set_language(language.tag());
        }
        go_on();
    });
}

/// Where a language's compiled catalogue lies beside the page.
fn path(language: Language) -> String {
    format!("./translations/{}.mo", language.tag())
}

/// Speaks a language from now on, by its compiled catalogue. False if the catalogue cannot be read,
/// or if another is in force already: then nothing changes.
pub fn speak(language: Language, compiled: Vec<u8>) -> bool {
    // It is read once and lasts as long as the app: its texts can be lent like those in the code.
    let Some(catalogue) = Catalogue::read(compiled.leak()) else { return false };
    SPOKEN.with(|spoken| spoken.set((language, catalogue)).is_ok())
}

/// The language in force.
pub fn in_force() -> Language {
    SPOKEN.with(|spoken| spoken.get().map_or(Language::English, |(language, _)| *language))
}

/// A number written with a point, as the language writes it.
pub fn number(written: &str) -> String {
    match decimal_sign() {
        '.' => written.to_owned(),
        sign => written.replace('.', sign.encode_utf8(&mut [0; 4])),
    }
}

/// What stands before the decimals of a number.
pub fn decimal_sign() -> char {
    match in_force() {
        Language::English => '.',
        Language::German => ',',
    }
}

/// A phrase as it stands within a sentence: small where the language writes nouns so.
pub fn within(phrase: &str) -> String {
    let mut letters = phrase.chars();
    match (in_force(), letters.next()) {
        (Language::English, Some(first)) => first.to_lowercase().chain(letters).collect(),
        _ => phrase.to_owned(),
    }
}

/// A text without the places where a screen may break a word: in what is recorded, and in what leaves
/// the app as text, they would hide a word from who looks for it.
pub fn unbroken(text: &str) -> String {
    const SOFT_HYPHEN: char = '\u{ad}';
    text.replace(SOFT_HYPHEN, "")
}

/// The text in the language in force. `context` says which is meant where one English word means
/// two things.
pub fn spoken_as(context: Option<&'static str>, text: &'static str) -> &'static str {
    asked(|catalogue| catalogue.says(context, text)).unwrap_or(text)
}

/// The text in the language in force.
pub fn spoken(text: &'static str) -> &'static str {
    spoken_as(None, text)
}

/// The text for a count, in the form that the language in force has for it.
pub fn counted(n: impl TryInto<u64>, one: &'static str, many: &'static str) -> &'static str {
    // English and German have two forms, and both count one alone as one.
    let form = usize::from(!matches!(n.try_into(), Ok(1)));
    let said = asked(|catalogue| catalogue.counts((one, many), form));
    said.unwrap_or(if form == 0 { one } else { many })
}

/// A text with what is put into its places. A place that nothing is given for stays as it is.
pub fn filled(text: &str, given: &[(&str, &dyn Display)]) -> String {
    let mut filled = String::with_capacity(2 * text.len());
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('{') {
        filled.push_str(before);
        let (place, after) = after.split_once('}').unwrap_or((after, ""));
        // Writing to a string cannot fail.
        let _ = match given.iter().find(|(name, _)| *name == place) {
            Some((_, put)) => write!(filled, "{put}"),
            None => write!(filled, "{{{place}}}"),
        };
        rest = after;
    }
    filled.push_str(rest);
    filled
}
