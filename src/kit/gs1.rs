//! What the code on a pack says: element strings of the GS1 General Specifications.
//!
//! An element string is an application identifier and its data. Some identifiers have data of a
//! length laid down for ever, so that readers of any age can pass over them; the data of all others
//! run to a separator or to the end. What is not asked for here is passed over by that rule, whatever
//! it is.

mod elements;
mod gtin;

pub use gtin::Gtin;

use crate::measure::Date;
use elements::{Element, elements};

/// What a pack says of itself, as far as it matters here.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Pack {
    /// Which trade item: identifier 01.
    pub gtin: Option<Gtin>,
    /// Batch or lot: identifier 10.
    pub batch: Option<String>,
    /// Last day of use: identifier 17.
    pub expiry: Option<Date>,
    /// Serial number: identifier 21.
    pub serial: Option<String>,
}

/// Why a code says nothing that can be relied on. Nothing of it is taken then.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Misread {
    /// Nothing was read.
    Empty,
    /// Not element strings: a code of another kind.
    OtherCode,
    /// Element strings, of which none is a trade item, a batch or an expiry.
    NothingOfUse,
    /// It ends within a field.
    Cut,
    /// A field is longer than it may be: a separator is missing.
    TooLong,
    /// A field that holds what it may not.
    Characters,
    /// The check digit of the trade item does not fit.
    CheckDigit,
    /// No such day.
    NoSuchDay,
    /// The same field twice, with different values.
    Contradiction,
}

/// Reads a code, as a reader hands it on or as it is printed beside the symbol with its identifiers
/// in brackets. Two digits of a year are read as the nearest such year to `this_year`: at most 49
/// years back and 50 ahead.
///
/// # Errors
/// [`Misread`], with the first thing that is wrong.
pub fn read(text: &str, this_year: i16) -> Result<Pack, Misread> {
    let mut pack = Pack::default();
    for Element { identifier, data } in elements(text)? {
        match identifier {
            "01" => once(&mut pack.gtin, Gtin::new(data).ok_or(Misread::CheckDigit)?)?,
            "10" => once(&mut pack.batch, data.to_owned())?,
            "17" => once(&mut pack.expiry, day(data, this_year)?)?,
            "21" => once(&mut pack.serial, data.to_owned())?,
            _ => {}
        }
    }
    if pack.gtin.is_none() && pack.batch.is_none() && pack.expiry.is_none() {
        return Err(Misread::NothingOfUse);
    }
    Ok(pack)
}

fn once<T: PartialEq>(place: &mut Option<T>, value: T) -> Result<(), Misread> {
    match place {
        Some(there) if *there != value => Err(Misread::Contradiction),
        _ => {
            *place = Some(value);
            Ok(())
        }
    }
}

/// A date of six digits; a day of nought is the last of its month.
fn day(digits: &str, this_year: i16) -> Result<Date, Misread> {
    let part = |from: usize| digits.get(from..from + 2).and_then(|part| part.parse::<i8>().ok());
    let (Some(year), Some(month), Some(day)) = (part(0), part(2), part(4)) else {
        return Err(Misread::Characters);
    };
    let year = full_year(i16::from(year), this_year);
    if day == 0 {
        Date::new(year, month, 1).map(Date::last_of_month)
    } else {
        Date::new(year, month, day)
    }
    .ok_or(Misread::NoSuchDay)
}

/// The year that two digits mean, as the General Specifications determine the century.
const fn full_year(two: i16, this_year: i16) -> i16 {
    const CENTURY: i16 = 100;
    let this = this_year.rem_euclid(CENTURY);
    let century = this_year - this;
    match two - this {
        51..=99 => century - CENTURY + two,
        -99..=-50 => century + CENTURY + two,
        _ => century + two,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const YEAR: i16 = 2026;

    fn expiry(data: &str) -> Result<Option<Date>, Misread> {
        read(&format!("17{data}"), YEAR).map(|pack| pack.expiry)
    }

    #[test]
    fn a_day_of_nought_is_the_last_of_its_month() {
        let day = |year, month, day| Ok(Date::new(year, month, day));
        assert_eq!(expiry("280200"), day(2028, 2, 29));
        assert_eq!(expiry("270531"), day(2027, 5, 31));
        assert_eq!(expiry("270230"), Err(Misread::NoSuchDay));
        assert_eq!(expiry("271300"), Err(Misread::NoSuchDay));
        assert_eq!(expiry("2705"), Err(Misread::Cut));
        assert_eq!(expiry("2705x1"), Err(Misread::Characters));
    }

    #[test]
    fn years_go_by_the_nearest_century() {
        assert_eq!(full_year(76, 2026), 2076);
        assert_eq!(full_year(77, 2026), 1977);
        assert_eq!(full_year(26, 2026), 2026);
        assert_eq!(full_year(0, 2026), 2000);
        assert_eq!(full_year(5, 2055), 2105);
        assert_eq!(full_year(6, 2055), 2006);
    }

    #[test]
    fn the_same_said_twice_is_one_and_otherwise_a_contradiction() {
        let twice =
            |second| read(&format!("17270531\u{1d}17{second}"), YEAR).map(|pack| pack.expiry);
        assert_eq!(twice("270531"), Ok(Date::new(2027, 5, 31)));
        assert_eq!(twice("270601"), Err(Misread::Contradiction));
    }

    #[test]
    fn a_code_of_no_use_says_so() {
        assert_eq!(read("", YEAR), Err(Misread::Empty));
        assert_eq!(read("  \n", YEAR), Err(Misread::Empty));
        assert_eq!(read("3700", YEAR), Err(Misread::NothingOfUse));
        assert_eq!(read("https://clinic.example/x", YEAR), Err(Misread::OtherCode));
        assert_eq!(read("hello", YEAR), Err(Misread::OtherCode));
    }
}
