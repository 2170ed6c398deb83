//! No clinical number stands outside `protocol`.
//!
//! Every whole number in the code above `protocol` is looked at. 0, 1 and 2 are structure, thousands
//! and millions are the small units' scale, and the length of an array is counted by the compiler;
//! any other has to be listed here with what it is. Floats are drawing and are left out, as are the
//! drawings themselves (`ui/parts`, `ui/skin`). Digits inside texts are looked at too: a text that needs a
//! clinical number gets it from `protocol`.

use super::floor;
use proc_macro2::{TokenStream, TokenTree};

/// Numbers that are no clinical values: where, which, and what they are.
const LISTED: &[(&str, &[u64], &str)] = &[
    (
        "record/note/hours.rs",
        &[60, 1_440, 60_000],
        "minutes of an hour and a day, milliseconds of a minute",
    ),
    ("care/dilution/rank.rs", &[4], "how long the search goes on"),
    ("care/dilution/ratio.rs", &[40], "places of a ratio's binary fraction"),
    ("care/dilution/recipe.rs", &[3], "movements of one fill"),
    ("care/dilution/search.rs", &[4, 20, 50], "how finely the search steps"),
    ("care/dilution/syringe.rs", &[5, 10], "which marks are long on a barrel"),
    ("care/dose.rs", &[10, 50, 100], "steps of the remedies tried; mm² in a cm²"),
    ("care/rounds/look.rs", &[10], "the top of a numeric pain scale"),
    ("care/rounds/treatment.rs", &[10_000], "more points than a record can mean"),
    ("kit/ready.rs", &[3], "areas that a round is reckoned for"),
    ("kit/expiry.rs", &[4, 12], "digits of a year, months of one"),
    ("case/contact.rs", &[15, 40], "digits of an international number; characters of a name"),
    ("case/entry.rs", &[3, 16, 32], "the form; hexadecimal digits of a name"),
    ("case/journal.rs", &[100], "missing places that are told of one gap"),
    ("case/event.rs", &[24], "characters of a reference"),
    ("case/reach.rs", &[24], "hours after which an urgent case is not being worked on"),
    ("case/search.rs", &[4, 12], "digits of a year, its last month"),
    ("record/lines.rs", &[50_000_000], "bytes of the largest file that is read"),
    ("record/backup.rs", &[200_000_000], "bytes of the largest backup"),
    ("record/iso.rs", &[62_135_596_800_000], "milliseconds from the year 1 to 1970"),
    ("record/fhir.rs", &[8, 12, 13, 16, 17, 20, 32], "where the parts of a UUID begin"),
    ("record/calendar.rs", &[75], "octets of a line, RFC 5545"),
    ("rehearsal/condition.rs", &[8, 16, 27, 30, 31], "shifts that mix a seed"),
    ("ui/pages/home.rs", &[5], "closed cases on the start screen"),
    ("ui/pages/outline/canvas.rs", &[3], "corners that go round something"),
    ("ui/pages/records/list.rs", &[50], "cases drawn at once"),
    ("ui/pages/taking/preview.rs", &[50], "cases of a file drawn"),
    ("ui/desk/taking.rs", &[20], "milliseconds between two looks whether all is written"),
    ("ui/pages/anaphylaxis/whom.rs", &[12], "months of a year"),
    ("ui/pages/anaphylaxis/states.rs", &[999], "a countdown shows the second begun"),
    ("ui/pages/ringing.rs", &[10, 999], "seconds of a test; a countdown shows the second begun"),
    ("ui/pages/kit/calendar.rs", &[9, 16, 24], "nine o'clock; hexadecimal; hours of a day"),
    ("ui/pages/kit/scan.rs", &[250], "milliseconds between two looks for a code"),
    ("ui/pages/outline/draft.rs", &[300_000], "characters of a draft that are still kept"),
    ("ui/steps/rounds/hour.rs", &[999], "a countdown shows the second begun"),
    ("ui/steps/situation/detail.rs", &[30, 120], "half an hour; the oldest age taken for one"),
    ("ui/plain.rs", &[24, 40], "hours after which a case is not being worked on; entries told"),
    ("ui/rehearsal.rs", &[5], "seconds between two looks at a simulated patient"),
    ("ui/rehearsal/strip.rs", &[5, 10, 60, 120], "paces of a rehearsal's clock; seconds"),
    ("ui/alarm.rs", &[500], "milliseconds until a screen has come to rest"),
    ("ui/tap.rs", &[400], "milliseconds between two taps that are meant"),
    ("ui/language.rs", &[3], "seconds that a start waits for a catalogue"),
    ("ui/language/catalogue.rs", &[4, 8, 12, 16], "the form of a compiled catalogue"),
    ("ui/words/app.rs", &[8], "hexadecimal digits shown of a case's name"),
    ("ui/words/papers.rs", &[8], "hexadecimal digits of a case's name in a file's"),
    ("ui/words/records.rs", &[8], "hexadecimal digits shown of a case's name"),
    ("ui/words/about.rs", &[10], "decimals of a size in bytes"),
    ("ui/words/numbers.rs", &[3, 10, 100], "grouping, decimals, per cent"),
    ("ui/words/sketching.rs", &[10, 100], "tenths and hundredths"),
    ("ui/words/time.rs", &[10, 24, 48, 60, 100], "hours, minutes, seconds, tenths"),
    ("ui/words/sheet.rs", &[3, 4, 6, 10, 100], "places in a list of questions; tenths of a kg"),
    ("ui/words/values.rs", &[100], "milliseconds in a tenth of a second"),
    ("ui/pages/timeline.rs", &[6], "seconds that a remark is shown"),
];

/// Texts with digits that are no clinical values.
const TEXTS: &[(&str, &str)] = &[
    ("care/rounds/look.rs", "pain is scored from 0 to 10"),
    ("case/entry.rs", "32 hexadecimal digits"),
    ("case/contact.rs", "%23"),
    ("case/contact.rs", "\"(0)\""),
    ("case/event.rs", "1 to 24 characters"),
    ("ui/pages/handover.rs", "\"0\""),
    ("ui/pages/outline.rs", "h1"),
    ("ui/pages/outline/camera.rs", "\"-1\""),
    ("ui/steps/rounds/look/photo.rs", "\"-1\""),
    ("ui/pages/taking.rs", "\"-1\""),
    ("ui/words/plain/page.rs", "h1"),
    ("ui/words/plain/page.rs", "h2"),
    ("ui/words/plain/page.rs", "h3"),
    ("ui/words/plain/page.rs", "tabindex=\\\"0\\\""),
    ("ui/words/plain/page.rs", "tabindex=\\\"-1\\\""),
    ("ui/words/records.rs", "2026-11 or 25.11.2026"),
    ("ui/pages/outline/loupe.rs", "M{CROSS} 0H"),
    ("ui/pages/outline/measure.rs", "M{CROSS} 0H"),
    ("ui/pages/outline/measure.rs", "\"0\""),
    ("record/calendar.rs", "VERSION:2.0"),
    ("record/fhir.rs", "cm2"),
    ("record/fhir.rs", "{}-{}-8{}-a{}-{}"),
    ("record/fhir.rs", "terminology.hl7.org/CodeSystem/"),
    ("record/fhir/given.rs", "cm2"),
    ("record/fhir/given.rs", "1 mg/mL"),
    ("record/fhir/given.rs", "{:04}-{:02}-{:02}"),
    ("record/fhir/seen.rs", "/10"),
    ("record/fhir/seen.rs", "72514-3"),
    ("record/fhir/seen.rs", "0-10 verbal numeric rating"),
    ("record/fhir/seen.rs", "Pain, 0 to 10"),
    ("record/fhir/seen.rs", "{}.{:03}"),
    ("record/fhir/seen.rs", "v3-ObservationInterpretation"),
    ("record/calendar.rs", "PT0S"),
    ("ui/steps/allergy/test.rs", "\"0\""),
    ("ui/words/app.rs", "1 entry is"),
    ("ui/words/backup.rs", "SHA-256"),
    ("ui/words/app.rs", "0 if there is none."),
    ("ui/words/app.rs", "Between 0 and 120 years."),
    ("ui/words/contacts.rs", "\"000000\""),
    ("ui/words/papers.rs", "FHIR R4"),
    ("ui/pages/kit/draft.rs", "{:04}-{:02}-{:02}"),
    ("ui/words/kit.rs", "None is a number too: 0."),
    ("ui/words/numbers.rs", ".0"),
    ("ui/words/numbers.rs", "in 1000"),
    ("ui/words/values.rs", "in 1000"),
    ("ui/words/protocol.rs", "of 10"),
    ("ui/words/timeline.rs", "Between 1 and"),
    ("ui/words/typed.rs", "such as 0.1."),
];

/// A thousand small units make one; a ratio of ratios has a million.
const SCALES: [u64; 2] = [1_000, 1_000_000];

#[test]
fn clinical_numbers_live_in_protocol() {
    let mut wrong = Vec::new();
    for name in ["care", "kit", "case", "record", "rehearsal", "ui"] {
        for (path, text) in floor(name) {
            let drawing = path.starts_with("ui/parts") || path.starts_with("ui/skin");
            // The tables of open standards: identifiers, places and lengths.
            let standard = path.starts_with("kit/gs1") || path == "record/tar.rs";
            let story = path == "record/samples.rs";
            if drawing
                || standard
                || story
                || path.ends_with("/tests.rs")
                || path.contains("/tests/")
            {
                continue;
            }
            let code = text.split("#[cfg(test)]\nmod tests").next().unwrap();
            let tokens: TokenStream =
                code.parse().unwrap_or_else(|error| panic!("{path}: {error}"));
            look(tokens, &path, &mut wrong);
        }
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

/// Every exception is still needed, so that the lists do not outlive their reasons.
#[test]
fn no_exception_outlives_its_reason() {
    for (path, numbers, _) in LISTED {
        let name = path.split('/').next().unwrap().trim_end_matches(".rs");
        let (_, text) = floor(name).into_iter().find(|(other, _)| other == path).unwrap();
        let code = text.split("#[cfg(test)]\nmod tests").next().unwrap().replace('_', "");
        for number in *numbers {
            assert!(code.contains(&number.to_string()), "{path} has no {number} any more");
        }
    }
}

fn look(tokens: TokenStream, path: &str, wrong: &mut Vec<String>) {
    let mut attribute = false;
    // In `[T; 5]` the number behind the semicolon.
    let mut length = false;
    for token in tokens {
        match token {
            TokenTree::Punct(punct) => {
                attribute = punct.as_char() == '#' || (attribute && punct.as_char() == '!');
                length = punct.as_char() == ';';
                continue;
            }
            TokenTree::Literal(_) if length => {}
            TokenTree::Group(group) if !attribute => look(group.stream(), path, wrong),
            TokenTree::Literal(literal) => judge(&literal.to_string(), path, wrong),
            TokenTree::Group(_) | TokenTree::Ident(_) => {}
        }
        attribute = false;
        length = false;
    }
}

fn judge(literal: &str, path: &str, wrong: &mut Vec<String>) {
    if literal.starts_with('"') {
        let clinical = literal.bytes().any(|byte| byte.is_ascii_digit());
        let listed = TEXTS.iter().any(|(file, text)| *file == path && literal.contains(text));
        // A place in a format string is not a number of its own.
        let formats = strip_places(literal);
        if clinical && formats.bytes().any(|byte| byte.is_ascii_digit()) && !listed {
            wrong.push(format!("{path}: {literal}"));
        }
    } else if let Some(number) = whole(literal) {
        let listed =
            LISTED.iter().any(|(file, numbers, _)| *file == path && numbers.contains(&number));
        if number > 2 && !SCALES.contains(&number) && !listed {
            wrong.push(format!("{path}: {literal}"));
        }
    }
}

/// The text without what stands in braces.
fn strip_places(literal: &str) -> String {
    let mut depth = 0_u32;
    literal
        .chars()
        .filter(|sign| {
            match sign {
                '{' => depth += 1,
                '}' => depth = depth.saturating_sub(1),
                _ => {}
            }
            depth == 0
        })
        .collect()
}

/// A whole number literal, whatever its suffix and underscores; `None` for floats and characters.
fn whole(literal: &str) -> Option<u64> {
    let digits = literal.replace('_', "");
    if digits.starts_with("0x") || digits.contains('.') || digits.starts_with('\'') {
        return None;
    }
    let end = digits.find(|c: char| !c.is_ascii_digit()).unwrap_or(digits.len());
    digits[..end].parse().ok()
}
