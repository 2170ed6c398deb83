use super::*;
use crate::care::perfusion::Next;
use crate::care::rounds::HandOver;
use crate::measure::{Area, Date, Length, Span, Strength, Units, Volume};
use crate::ui::words::{app, document, handing, numbers, rounds, time};

const GERMAN: &[u8] = include_bytes!("../../../public/translations/de.mo");

/// German from here on: every test has a thread of its own, and so a language of its own.
pub fn in_german() {
    assert!(speak(Language::German, GERMAN.to_vec()));
}

#[test]
fn phrases_sentences_and_counts_are_said_in_the_language_in_force() {
    let said = || {
        let next = rounds::next(Next::HandOver(HandOver::Sight));
        (app::back(), next, numbers::vials(1), numbers::vials(3))
    };
    assert_eq!(
        said(),
        ("Back", "Call for help: sight changed".into(), "1 vial".into(), "3 vials".into())
    );
    in_german();
    assert_eq!(
        said(),
        (
            "Zurück",
            "Hilfe rufen: Sehen verändert".into(),
            "1 Fläschchen".into(),
            "3 Fläschchen".into()
        )
    );
}

/// A point in thousands or a comma in decimals, read the other way round, is a dose a thousand times
/// off: thousands are grouped by a space in every language.
#[test]
fn numbers_take_the_decimal_sign_of_the_language() {
    let said = || {
        [
            numbers::volume_named(Volume::ul(250)),
            numbers::strength_named(Strength::per_ml(1_500)),
            numbers::units_named(Units::milli(12_500)),
            numbers::area_named(Area::mm2(425)),
            numbers::length_named(Length::tenths(25)),
            numbers::seconds(Span::millis(3_400)),
            numbers::per_mille(15),
        ]
    };
    let english = said();
    in_german();
    let german = said();
    for (english, german) in english.iter().zip(&german) {
        let number = |text: &str| text.split([' ', '\u{a0}']).next().unwrap().to_owned();
        assert_eq!(number(english).replace('.', ","), number(german));
    }
    assert_eq!(german[0], "0,25 mL");
    assert_eq!(german[1], "1\u{202f}500 Einheiten/mL");
}

/// "Drawn" is an outline drawn on a face, or liquid drawn into a syringe.
#[test]
fn a_word_that_means_two_things_is_told_apart() {
    in_german();
    let (outline, liquid) = (spoken("Drawn"), spoken_as(Some("into the syringe"), "Drawn"));
    assert_eq!((outline, liquid), ("Gezeichnet", "Aufgezogen"));
    assert_ne!(spoken_as(Some("a quantity"), "Type a number."), "Type a number.");
}

#[test]
fn days_are_written_as_the_language_writes_them() {
    in_german();
    let day = Date::new(2026, 3, 5).unwrap();
    assert_eq!(time::day(day), "5. März 2026");
    assert_eq!(time::weekday(day), "Donnerstag");
}

#[test]
fn nouns_keep_their_capital_within_a_sentence_where_the_language_writes_it() {
    assert_eq!(within("Skin is dying"), "skin is dying");
    in_german();
    assert_eq!(within("Haut stirbt ab"), "Haut stirbt ab");
}

#[test]
fn what_is_no_catalogue_changes_nothing() {
    assert!(!speak(Language::German, b"<!doctype html>".to_vec()));
    assert!(!speak(Language::German, vec![]));
    assert_eq!(in_force(), Language::English);
    assert_eq!(app::back(), "Back");
}

/// The service worker checks what it fetches; where there is none, a file may come cut or changed.
#[test]
fn a_damaged_catalogue_stops_nothing() {
    let read = |bytes: Vec<u8>| {
        std::thread::spawn(move || speak(Language::German, bytes)).join().expect("no panic")
    };
    for cut in [0, 1, 19, 20, 27, 28, 1_000, GERMAN.len() / 2, GERMAN.len() - 2] {
        assert!(!read(GERMAN[..cut].to_vec()), "cut at {cut}");
    }
    // The head, a few rows of the tables, a few texts.
    for at in (0..40).chain((40..GERMAN.len()).step_by(19_997)) {
        let mut changed = GERMAN.to_vec();
        changed[at] ^= 0xff;
        // It may still be one; then it is read.
        let _ = read(changed);
    }
}

#[test]
fn a_paper_says_that_its_language_was_not_reviewed() {
    let paper = || document::Document { title: app::name(), parts: vec![] }.text();
    let sheet = || handing::text(&[], "5 Nov");
    assert!(!paper().contains("reviewed") && !sheet().contains("reviewed"));
    in_german();
    for text in [paper(), sheet()] {
        assert!(text.ends_with("\nÜbersetzung nicht medizinisch geprüft\n"), "{text}");
    }
}

#[test]
fn a_text_that_leaves_the_app_can_be_searched() {
    in_german();
    let word = spoken("Hyaluronidase");
    assert!(word.contains('\u{ad}'), "the screen may break it");
    let sheet = handing::text(&[(word, vec![word.to_owned()])], "5 Nov");
    let parts = vec![document::Part::new(word, vec![document::Line::Say(word.to_owned())])];
    let paper = document::Document { title: app::name(), parts }.text();
    for text in [sheet, paper] {
        assert_eq!(text.matches("Hyaluronidase").count(), 2, "{text}");
    }
}

#[test]
fn places_are_filled_by_name_in_any_order() {
    let put = [("one", &1 as &dyn Display), ("two", &"b")];
    assert_eq!(filled("{two} before {one}, {two}", &put), "b before 1, b");
    assert_eq!(filled("{three} stays, and {one", &put), "{three} stays, and 1");
    assert_eq!(filled("nothing", &[]), "nothing");
}

#[test]
fn a_text_that_a_catalogue_lacks_stays_english() {
    in_german();
    assert_eq!(spoken("A text that nobody has translated"), "A text that nobody has translated");
}
