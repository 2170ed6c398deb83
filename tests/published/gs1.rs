//! Codes on packs, against GS1’s published examples.

use freshet::kit::gs1::{Gtin, Misread, Pack, read};
use freshet::measure::Date;

/// Panics where there is no such day, which `Date::new` itself would only answer with nothing.
fn day(year: i16, month: i8, day: i8) -> Option<Date> {
    let day = Date::new(year, month, day);
    assert!(day.is_some());
    day
}

fn pack(gtin: &str, batch: &str, expiry: Option<Date>, serial: Option<&str>) -> Pack {
    Pack {
        gtin: Some(Gtin::new(gtin).unwrap()),
        batch: Some(batch.to_owned()),
        expiry,
        serial: serial.map(str::to_owned),
    }
}

// GS1, "How to calculate a check digit manually": 6291 0415 0021 takes 3.
#[test]
fn the_check_digit_of_the_worked_example() {
    assert!(Gtin::new("6291041500213").is_some());
    for wrong in (0..10).filter(|digit| *digit != 3) {
        assert_eq!(Gtin::new(&format!("629104150021{wrong}")), None);
    }
    assert_eq!(Gtin::new("6291041500213").unwrap().as_str(), "06291041500213");
}

// GS1 DataMatrix Guideline, the example of a healthcare item: GTIN 09501101020917, expiry 8 May
// 2019, batch ABCD1234, serial number 10.
#[test]
fn the_example_of_the_datamatrix_guideline() {
    let expected = pack("09501101020917", "ABCD1234", day(2019, 5, 8), Some("10"));
    for text in [
        "]d201095011010209171719050810ABCD1234\u{1d}2110",
        "\u{1d}01095011010209171719050810ABCD1234\u{1d}2110",
        "(01)09501101020917(17)190508(10)ABCD1234(21)10",
        "(01) 09501101020917 (17) 190508 (10) ABCD1234 (21) 10 ",
        "(10)ABCD1234(21)10(17)190508(01)09501101020917",
    ] {
        assert_eq!(read(text, 2026), Ok(expected.clone()), "{text:?}");
    }
}

// GS1 General Specifications, 7.8.5 (element strings of a length laid down): data after them follow
// without a separator; a separator there does no harm.
#[test]
fn what_is_not_asked_for_is_passed_over() {
    let expected = pack("09501101020917", "A1", day(2027, 12, 31), None);
    for text in [
        // Production date, net weight, variant.
        "]d2010950110102091711260101310300125020011727123110A1",
        "]d20109501101020917112601013103001250200117271231\u{1d}10A1",
        "]d2010950110102091717271231\u{1d}10A1\u{1d}240X-9/2\u{1d}7121234567",
        "]d2240X-9/2\u{1d}01095011010209171727123110A1",
    ] {
        assert_eq!(read(text, 2026), Ok(expected.clone()), "{text:?}");
    }
}

// GS1 General Specifications, 3.4.7 (AI 17): a day of 00 is the last of the month, leap years noted.
#[test]
fn a_day_of_nought() {
    let expiry = |digits: &str| read(&format!("(17){digits}"), 2026).unwrap().expiry;
    assert_eq!(expiry("130200"), day(2013, 2, 28));
    assert_eq!(expiry("160200"), day(2016, 2, 29));
    assert_eq!(expiry("270400"), day(2027, 4, 30));
}

// GS1 General Specifications, 7.12 (determination of century in dates): the difference of the two
// digits to those of this year, 51 to 99 is the century before, -99 to -50 the one after.
#[test]
fn the_century() {
    let year = |two: u8, now: i16| {
        let expiry = read(&format!("(17){two:02}0101"), now).unwrap().expiry;
        expiry.map(Date::year)
    };
    assert_eq!(year(76, 2026), Some(2076));
    assert_eq!(year(77, 2026), Some(1977));
    assert_eq!(year(49, 2099), Some(2149));
    assert_eq!(year(50, 2099), Some(2050));
}

// GS1 General Specifications, 3.4.1 and 3.5.2 (AI 10 and 21): at most 20 signs of the set of 82.
#[test]
fn a_missing_separator_is_told() {
    let batch = |text: &str| read(&format!("]d210{text}"), 2026).map(|pack| pack.batch);
    assert_eq!(batch("ABCDEFGHIJKLMNOPQRST"), Ok(Some("ABCDEFGHIJKLMNOPQRST".into())));
    assert_eq!(batch("ABCDEFGHIJKLMNOPQRSTU"), Err(Misread::TooLong));
    assert_eq!(batch("A B"), Err(Misread::Characters));
    assert_eq!(batch("Ä"), Err(Misread::Characters));
}

#[test]
fn a_wrong_code_is_refused_whole() {
    let read = |text: &str| read(text, 2026);
    // Last digit of the trade item changed.
    assert_eq!(read("(01)09501101020918(10)A1"), Err(Misread::CheckDigit));
    assert_eq!(read("]d2010950110102091"), Err(Misread::Cut));
    assert_eq!(read("(01)095011010209170(10)A1"), Err(Misread::TooLong));
    assert_eq!(read("]E09501101020917"), Err(Misread::OtherCode));
    assert_eq!(read("(1)7"), Err(Misread::OtherCode));
    assert_eq!(read("]d2"), Err(Misread::NothingOfUse));
}

// GS1 General Specifications: the number of an EAN-13 symbol is the trade item's, filled from the left.
#[test]
fn the_number_under_the_bars() {
    let read = read("9501101020917", 2026).unwrap();
    assert_eq!(read.gtin.unwrap().as_str(), "09501101020917");
    assert_eq!((read.batch, read.expiry), (None, None));
}
