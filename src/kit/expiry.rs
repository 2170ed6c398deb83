//! Expiry dates as printed on packs.

use crate::measure::Date;

/// Why an expiry could not be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ExpiryMisread {
    /// Not a month and a year, nor a day, month and year.
    Form,
    /// No such day.
    NoSuchDay,
    /// Two readings are possible: day and month cannot be told apart.
    Ambiguous,
}

/// Reads an expiry as printed on packs: `2027-05`, `2027-05-31`, `05/2027`, `31.05.2027`. A month
/// alone lasts to its last day.
///
/// # Errors
/// [`ExpiryMisread`]; a two-digit year is refused as not a form, since `05/27` may be a day.
pub fn read_expiry(text: &str) -> Result<Date, ExpiryMisread> {
    let parts: Vec<&str> = text.trim().split(['-', '/', '.', ' ']).collect();
    let number = |part: &str| -> Result<i16, ExpiryMisread> {
        if part.is_empty() || part.len() > 4 || !part.bytes().all(|b| b.is_ascii_digit()) {
            return Err(ExpiryMisread::Form);
        }
        part.parse().map_err(|_| ExpiryMisread::Form)
    };
    let (year, month, day) = match parts.as_slice() {
        [year, month] if year.len() == 4 => (number(year)?, number(month)?, None),
        [month, year] if year.len() == 4 => (number(year)?, number(month)?, None),
        [year, month, day] if year.len() == 4 => {
            (number(year)?, number(month)?, Some(number(day)?))
        }
        [first, second, year] if year.len() == 4 => {
            let (first_n, second_n) = (number(first)?, number(second)?);
            // With points it is day, month, year wherever it is used; else it may be either.
            let either =
                !text.contains('.') && first_n <= 12 && second_n <= 12 && first_n != second_n;
            if either {
                return Err(ExpiryMisread::Ambiguous);
            }
            if second_n > 12 {
                (number(year)?, first_n, Some(second_n))
            } else {
                (number(year)?, second_n, Some(first_n))
            }
        }
        _ => return Err(ExpiryMisread::Form),
    };
    let small = |n: i16| i8::try_from(n).map_err(|_| ExpiryMisread::NoSuchDay);
    let first = Date::new(year, small(month)?, 1).ok_or(ExpiryMisread::NoSuchDay)?;
    match day {
        None => Ok(first.last_of_month()),
        Some(day) => Date::new(year, small(month)?, small(day)?).ok_or(ExpiryMisread::NoSuchDay),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(year: i16, month: i8, day: i8) -> Date {
        Date::new(year, month, day).unwrap()
    }

    #[test]
    fn a_month_lasts_to_its_end() {
        for text in ["2027-02", "02/2027", "2027/02", "02.2027", " 02 2027 "] {
            assert_eq!(read_expiry(text), Ok(day(2027, 2, 28)), "{text}");
        }
    }

    #[test]
    fn days_are_read_and_doubt_is_said() {
        assert_eq!(read_expiry("31.05.2027"), Ok(day(2027, 5, 31)));
        assert_eq!(read_expiry("2027-05-31"), Ok(day(2027, 5, 31)));
        assert_eq!(read_expiry("05/31/2027"), Ok(day(2027, 5, 31)));
        for text in ["05/06/2027", "05-06-2027", "05 06 2027"] {
            assert_eq!(read_expiry(text), Err(ExpiryMisread::Ambiguous), "{text}");
        }
        assert_eq!(read_expiry("05.06.2027"), Ok(day(2027, 6, 5)));
        assert_eq!(read_expiry("31-05-2027"), Ok(day(2027, 5, 31)));
        assert_eq!(read_expiry("05/27"), Err(ExpiryMisread::Form));
        assert_eq!(read_expiry("2027-02-30"), Err(ExpiryMisread::NoSuchDay));
        assert_eq!(read_expiry("2027-13"), Err(ExpiryMisread::NoSuchDay));
        assert_eq!(read_expiry("soon"), Err(ExpiryMisread::Form));
        assert_eq!(read_expiry(""), Err(ExpiryMisread::Form));
    }
}
