//! Reading what people type into a quantity, or saying why not.

use super::{Area, Length, Span, Strength, Units, Volume};

/// Why typed text is not a quantity.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Misread {
    /// Nothing was typed.
    Empty,
    /// It starts with a minus sign.
    Negative,
    /// It is zero where something is needed.
    Zero,
    /// There are two decimal signs: "0.1.2".
    TwoSeparators,
    /// One comma or point before exactly three digits: "1,500" may be one and a half or fifteen
    /// hundred. Both readings are given.
    Ambiguous {
        /// Read with a decimal sign.
        decimal: String,
        /// Read with a thousands sign.
        thousands: String,
    },
    /// The number is followed by a unit of something else.
    WrongUnit(String),
    /// A character that no number has.
    NotANumber(char),
    /// More decimals than can be measured; how many there may be.
    TooFine(usize),
    /// More digits than any such quantity has.
    TooLarge,
}

/// A quantity that people type.
pub trait Typed: Sized {
    /// Unit names that may follow the number, lower case.
    const SUFFIXES: &'static [&'static str];
    /// Decimals that the quantity can keep.
    const DECIMALS: usize;

    /// From a whole number of the last decimal.
    fn from_count(count: u64) -> Self;

    /// Reads typed text: comma or point, leading point, spaces and the unit's name are all fine.
    ///
    /// # Errors
    /// A [`Misread`] that names what is wrong; zero is refused too, since no typed quantity of
    /// this app may be nothing.
    fn read(text: &str) -> Result<Self, Misread> {
        match count(text, Self::SUFFIXES, Self::DECIMALS)? {
            0 => Err(Misread::Zero),
            count => Ok(Self::from_count(count)),
        }
    }
}

impl Typed for Units {
    const SUFFIXES: &'static [&'static str] = &["units", "unit", "iu", "ie", "ui", "usp", "u"];
    const DECIMALS: usize = 3;
    fn from_count(count: u64) -> Self {
        Self::milli(count)
    }
}

impl Typed for Volume {
    const SUFFIXES: &'static [&'static str] = &["ml", "cc"];
    const DECIMALS: usize = 3;
    fn from_count(count: u64) -> Self {
        Self::ul(count)
    }
}

impl Typed for Area {
    const SUFFIXES: &'static [&'static str] = &["cm²", "cm2", "cm^2", "sq cm"];
    const DECIMALS: usize = 2;
    fn from_count(count: u64) -> Self {
        Self::mm2(count)
    }
}

impl Typed for Length {
    const SUFFIXES: &'static [&'static str] = &["mm"];
    const DECIMALS: usize = 1;
    fn from_count(count: u64) -> Self {
        Self::tenths(count)
    }
}

/// Seconds, as a refill time is typed.
impl Typed for Span {
    const SUFFIXES: &'static [&'static str] = &["seconds", "sec", "s"];
    const DECIMALS: usize = 1;
    fn from_count(count: u64) -> Self {
        Self::millis(count.saturating_mul(100))
    }
}

impl Typed for Strength {
    const SUFFIXES: &'static [&'static str] =
        &["units/ml", "iu/ml", "ie/ml", "ui/ml", "usp/ml", "u/ml", "/ml"];
    const DECIMALS: usize = 3;
    fn from_count(count: u64) -> Self {
        // Thousandths of a unit per mL: milli-units in a thousand microlitres.
        Self::of(Units::milli(count), Volume::ml(1)).unwrap_or(Self::per_ml(0))
    }
}

/// Plain counts: points, vials, years.
impl Typed for u32 {
    const SUFFIXES: &'static [&'static str] = &[];
    const DECIMALS: usize = 0;
    fn from_count(count: u64) -> Self {
        Self::try_from(count).unwrap_or(Self::MAX)
    }
}

/// Digits before the decimal sign beyond which nothing here is meant.
const MOST_DIGITS: usize = 9;

/// Reads the number in `text` as a whole count of its `places`-th decimal.
fn count(text: &str, suffixes: &[&str], places: usize) -> Result<u64, Misread> {
    let text = text.trim();
    if text.is_empty() {
        return Err(Misread::Empty);
    }
    if text.starts_with(['-', '−', '–']) {
        return Err(Misread::Negative);
    }
    let end = text.find(|c: char| {
        !c.is_ascii_digit() && !matches!(c, '.' | ',' | ' ' | '\u{a0}' | '\u{202f}')
    });
    let (number, rest) = text.split_at(end.unwrap_or(text.len()));
    let unit = rest.trim();
    if !unit.is_empty() && !suffixes.iter().any(|suffix| unit.eq_ignore_ascii_case(suffix)) {
        let letter = unit.chars().next().unwrap_or(' ');
        return Err(if number.trim().is_empty() || !letter.is_alphabetic() {
            Misread::NotANumber(letter)
        } else {
            Misread::WrongUnit(unit.to_owned())
        });
    }
    if !spaced_in_thousands(number) {
        // "1 5" may be 15 or 1.5.
        return Err(Misread::NotANumber(' '));
    }
    let number: String =
        number.chars().filter(|c| c.is_ascii_digit() || matches!(c, '.' | ',')).collect();
    let signs = number.matches(['.', ',']).count();
    if signs > 1 {
        return Err(Misread::TwoSeparators);
    }
    let (whole, part) = number.split_once(['.', ',']).unwrap_or((&number, ""));
    if whole.is_empty() && part.is_empty() {
        return Err(Misread::Empty);
    }
    if signs == 1 && part.len() == 3 && (1..=3).contains(&whole.len()) && !whole.starts_with('0') {
        return Err(Misread::Ambiguous {
            decimal: format!("{whole}.{}", part.trim_end_matches('0'))
                .trim_end_matches('.')
                .to_owned(),
            thousands: format!("{whole}{part}"),
        });
    }
    let part = part.trim_end_matches('0');
    if part.len() > places {
        return Err(Misread::TooFine(places));
    }
    if whole.trim_start_matches('0').len() > MOST_DIGITS {
        return Err(Misread::TooLarge);
    }
    format!("{whole}{part:0<places$}").parse().map_err(|_| Misread::TooLarge)
}

/// Whether each space within the number parts it by thousands: one to three digits, then threes.
fn spaced_in_thousands(number: &str) -> bool {
    let (whole, part) = number.trim().split_once(['.', ',']).unwrap_or((number.trim(), ""));
    let mut groups = whole.trim_end().split([' ', '\u{a0}', '\u{202f}']);
    let first = groups.next().unwrap_or("").len();
    let whole_fits =
        groups.all(|group| group.len() == 3 && (1..=3).contains(&first)) || whole.trim().is_empty();
    whole_fits && !part.trim().contains([' ', '\u{a0}', '\u{202f}'])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn comma_point_and_unit_all_read() {
        for text in ["0,1", "0.1", ".1", "0.1 ml", "0.10mL", " 0,1 ML ", "0.100"] {
            assert_eq!(Volume::read(text), Ok(Volume::ul(100)), "{text}");
        }
        assert_eq!(Units::read("1 500 IU"), Ok(Units::whole(1500)));
        assert_eq!(
            Strength::read("37.5 u/ml"),
            Ok(Strength::of(Units::whole(75), Volume::ml(2)).unwrap())
        );
        assert_eq!(Span::read("3,4 s"), Ok(Span::millis(3_400)));
        assert_eq!(Area::read("12.4 cm²"), Ok(Area::mm2(1_240)));
        assert_eq!(u32::read("12"), Ok(12));
    }

    #[test]
    fn what_is_no_quantity_says_why() {
        let refused = |text: &str| Volume::read(text).unwrap_err();
        assert_eq!(refused(""), Misread::Empty);
        assert_eq!(refused("ml"), Misread::Empty);
        assert_eq!(refused("."), Misread::Empty);
        assert_eq!(refused("-0.1"), Misread::Negative);
        assert_eq!(refused("0"), Misread::Zero);
        assert_eq!(refused("0.1.2"), Misread::TwoSeparators);
        assert_eq!(refused("1,000.5"), Misread::TwoSeparators);
        assert_eq!(refused("0.0001"), Misread::TooFine(3));
        assert_eq!(refused("0.1 mm"), Misread::WrongUnit("mm".into()));
        for text in ["0 1 ml", "1 5", "1 50 000", "1500 000", "0.1 5"] {
            assert_eq!(refused(text), Misread::NotANumber(' '), "{text}");
        }
        assert_eq!(refused("1/2"), Misread::NotANumber('/'));
        assert_eq!(refused("99999999999"), Misread::TooLarge);
        assert_eq!(u32::read("1.5"), Err(Misread::TooFine(0)));
    }

    #[test]
    fn a_thousands_sign_is_asked_about() {
        let asked = Misread::Ambiguous { decimal: "1.5".into(), thousands: "1500".into() };
        assert_eq!(Units::read("1,500"), Err(asked.clone()));
        assert_eq!(Units::read("1.500"), Err(asked));
        assert_eq!(Units::read("0,125"), Ok(Units::milli(125)));
    }
}
