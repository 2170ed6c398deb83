//! A second language of the app, for flows that name everything in English.
//!
//! A flow says what the user taps and reads as the English app has it. On a phone that speaks German
//! each of these is said as the catalogue has it, sentence by sentence, with what is put into a
//! sentence said the same way; and a heading that is read is understood the other way round.

use rspolib::{POEntry, pofile};
use std::collections::HashMap;

/// A sentence that says less than this is a figure with its unit.
const LETTERS: usize = 5;

/// From one language into another.
#[derive(Debug, Default)]
struct Way {
    exact: HashMap<String, String>,
    /// Sentences with places, those that say most first.
    sentences: Vec<(String, String)>,
    /// Places alone, such as those of a day.
    frames: Vec<(String, String)>,
    /// The signs before decimals: that which is read, that which is said.
    decimals: (char, char),
}

/// English and German.
#[derive(Debug)]
pub struct Tongue {
    into: Way,
    from: Way,
}

impl Tongue {
    /// By the catalogue that translators work on.
    pub fn german() -> Self {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../translations/de.po");
        let catalogue = pofile(path).expect("a catalogue");
        let pairs: Vec<(String, String)> = catalogue.entries.iter().flat_map(pairs).collect();
        let back = pairs.iter().map(|(english, german)| (german.clone(), english.clone()));
        Self { from: Way::new(back.collect(), (',', '.')), into: Way::new(pairs, ('.', ',')) }
    }

    /// What the app says in German for this English.
    pub fn say(&self, english: &str) -> String {
        self.into.say(english)
    }

    /// What the app says in English for this German.
    pub fn understand(&self, german: &str) -> String {
        self.from.say(german)
    }
}

/// One without a context first, so that it is found first.
fn pairs(entry: &POEntry) -> Vec<(String, String)> {
    let english = [Some(&entry.msgid), entry.msgid_plural.as_ref()].into_iter().flatten();
    let german = entry.msgstr.iter().chain(&entry.msgstr_plural).filter(|text| !text.is_empty());
    english.zip(german).map(|(one, other)| (plain(one), plain(other))).collect()
}

/// As the page's text is compared: every space is a space.
fn plain(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ").replace('\u{ad}', "")
}

impl Way {
    fn new(pairs: Vec<(String, String)>, decimals: (char, char)) -> Self {
        let mut way = Self { decimals, ..Self::default() };
        for (read, said) in pairs {
            if read.contains('{') {
                let speaks =
                    pieces(&read).iter().any(|(words, _)| words.contains(char::is_alphabetic));
                if speaks { &mut way.sentences } else { &mut way.frames }.push((read, said));
            } else {
                way.exact.entry(read).or_insert(said);
            }
        }
        way.sentences.sort_by_key(|(read, _)| std::cmp::Reverse(letters(read)));
        way
    }

    fn say(&self, text: &str) -> String {
        let text = plain(text);
        let said = self.known(&text).or_else(|| self.part(&text));
        said.unwrap_or_else(|| self.number(&text))
    }

    /// What is said for a text that the catalogue has.
    fn known(&self, text: &str) -> Option<String> {
        if let Some(said) = self.exact.get(text) {
            return Some(said.clone());
        }
        let sentence = self.sentences.iter().find_map(|(read, said)| {
            let given = fits(read, text)?;
            // "{amount} mL" is no sentence that anything could stand in.
            let figures = |(_, put): &(String, String)| !put.contains(char::is_alphabetic);
            if letters(read) < LETTERS && !given.iter().all(figures) {
                return None;
            }
            let mut said = said.clone();
            for (place, put) in given {
                said = said.replace(&format!("{{{place}}}"), &self.say(&put));
            }
            Some(plain(&said))
        });
        // Within a sentence English begins small what German leaves as it is.
        let small = text.chars().next().filter(|first| first.is_lowercase());
        sentence.or_else(|| {
            let first = small?;
            self.known(&format!("{}{}", first.to_uppercase(), &text[first.len_utf8()..]))
        })
    }

    /// Of what stands beside something else, each side; of a part of a sentence, the whole.
    fn part(&self, text: &str) -> Option<String> {
        let long = text.len() > LETTERS;
        let phrases = self.exact.iter().filter(|(read, _)| long && read.contains(text));
        if let Some((_, said)) = phrases.min_by_key(|(read, _)| read.len()) {
            return Some(said.clone());
        }
        for between in [": ", " · ", ", "] {
            if let Some((one, other)) = text.split_once(between) {
                return Some(format!("{}{between}{}", self.say(one), self.say(other)));
            }
        }
        if let Some(said) = self.frames.iter().find_map(|frame| self.framed(frame, text)) {
            return Some(said);
        }
        // A phrase, and a figure behind it.
        let mut spaces = text.rmatch_indices(' ').map(|(at, _)| at);
        let split = spaces.find_map(|at| Some((self.known(&text[..at])?, &text[at + 1..])));
        if let Some((known, rest)) = split {
            return Some(format!("{known} {}", self.say(rest)));
        }
        // What stands between the places of a sentence: the most that is said there.
        let holds = |read: &str| long && pieces(read).iter().any(|(words, _)| words.contains(text));
        let (_, said) = self.sentences.iter().rev().find(|(read, _)| holds(read))?;
        let pieces = pieces(said).into_iter().map(|(words, _)| words.trim());
        pieces.max_by_key(|words| words.len()).map(str::to_owned)
    }

    /// A day: places alone, filled with numbers and names.
    fn framed(&self, (read, said): &(String, String), text: &str) -> Option<String> {
        let mut said = said.clone();
        let given = fits(read, text)?;
        // "1 500" is a number.
        given.iter().find(|(_, put)| put.contains(char::is_alphabetic))?;
        for (place, put) in given {
            let number = put.chars().all(|sign| sign.is_ascii_digit());
            let put = if number { put } else { self.exact.get(&put)?.clone() };
            said = said.replace(&format!("{{{place}}}"), &put);
        }
        Some(said)
    }

    fn number(&self, text: &str) -> String {
        let signs: Vec<char> = text.chars().collect();
        let digit = |at: usize| signs.get(at).is_some_and(char::is_ascii_digit);
        let (read, said) = self.decimals;
        let one = |(at, sign): (usize, &char)| {
            let decimal = *sign == read && at > 0 && digit(at - 1) && digit(at + 1);
            if decimal { said } else { *sign }
        };
        signs.iter().enumerate().map(one).collect()
    }
}

/// How much a sentence says beside what is put into it.
fn letters(sentence: &str) -> usize {
    pieces(sentence).iter().map(|(words, _)| words.trim().len()).sum()
}

/// The words of a sentence, each with the place behind it.
fn pieces(sentence: &str) -> Vec<(&str, Option<&str>)> {
    let mut pieces = Vec::new();
    let mut rest = sentence;
    while let Some((words, after)) = rest.split_once('{') {
        let (place, after) = after.split_once('}').expect("a place that ends");
        pieces.push((words, Some(place)));
        rest = after;
    }
    pieces.push((rest, None));
    pieces
}

/// What stands in the places of a sentence, if the text is one of it.
fn fits(sentence: &str, text: &str) -> Option<Vec<(String, String)>> {
    let mut given = Vec::new();
    let mut place: Option<&str> = None;
    let mut rest = text;
    let pieces = pieces(sentence);
    let last = pieces.len() - 1;
    for (n, (words, next)) in pieces.into_iter().enumerate() {
        // A text may be the beginning of a sentence.
        let bare = words.trim_end();
        let ends = n < last && !bare.is_empty() && rest.ends_with(bare);
        let words = if ends { bare } else { words };
        let at = match (place, n == last) {
            (None, _) => rest.starts_with(words).then_some(0)?,
            (Some(_), true)
                if words.trim_matches(['.', ':']).is_empty() && !rest.ends_with(words) =>
            {
                rest.len()
            }
            (Some(_), true) => rest.ends_with(words).then(|| rest.len() - words.len())?,
            (Some(_), false) => rest.find(words)?,
        };
        if let Some(place) = place {
            given.push((place.to_owned(), rest[..at].trim().to_owned()));
        }
        rest = rest[at..].strip_prefix(words).unwrap_or_default();
        place = next;
    }
    // One that is all places would fit anything.
    let some = given.iter().any(|(_, put)| !put.is_empty());
    let less = given.iter().all(|(_, put)| put.len() < text.len());
    (rest.is_empty() && some && less).then_some(given)
}
